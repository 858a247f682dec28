//! `swap` of a drink: the glass as it stands, with the new part poured alike, and nearest to what it was.

use serde::Serialize;

use crate::assessment::swapped::SwapJudgement;
use crate::drinks::Figures;
use crate::drinks::swapped::{GlassSwap, SwappedGlass, SwappedPour, TOLD_APART};
use crate::safety::Caution;
use crate::units::jigger::in_ounces;

use super::caution::CautionView;
use super::money::{ExactMoney, Money};
use super::{Report, View};

pub(crate) type GlassSwapReport = Report<GlassSwapView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct GlassSwapView {
    pub(crate) old: String,
    pub(crate) new: String,
    /// Whether that is the same thing.
    pub(crate) is_itself: bool,
    pub lines: Vec<GlassLine>,
    pub(crate) before: SwappedGlassView,
    pub(crate) alike: SwappedGlassView,
    pub(crate) nearest: SwappedGlassView,
    pub(crate) allergens: SwapJudgement,
    /// By what the house's jigger pours more or less, ml.
    pub(crate) step_ml: f64,
    /// What counts alike where the nearest glass is sought: grams of alcohol, sugar and acid, and millilitres.
    pub(crate) counts_alike: [f64; 4],
    /// Cautions that the old glass had not.
    pub(crate) cautions: Vec<CautionView>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct GlassLine {
    #[serde(flatten)]
    pub(crate) pour: SwappedPour,
    pub(crate) in_ounces: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SwappedGlassView {
    #[serde(flatten)]
    pub(crate) figures: Figures,
    /// Of one glass, before tax; null where something has no price.
    pub(crate) cost: Option<Money>,
    pub(crate) cost_exact: Option<ExactMoney>,
}

impl View for GlassSwapView {
    const VERB: &'static str = "swap-in-glass";
    const KEYS: &'static str = "old new is_itself lines before alike nearest allergens step_ml counts_alike cautions";

    fn stops(&self) -> bool {
        self.allergens.stops.iter().any(Caution::stops)
    }
}

impl GlassSwapView {
    pub(crate) fn new(swap: &GlassSwap) -> Self {
        let lines = swap.lines.iter().map(|line| GlassLine {
            pour: line.clone(),
            in_ounces: line.nearest_ml.and_then(|ml| in_ounces(ml, swap.measures)),
        });
        Self {
            old: swap.old.clone(),
            new: swap.new.clone(),
            is_itself: swap.is_itself,
            lines: lines.collect(),
            before: SwappedGlassView::from(&swap.before),
            alike: SwappedGlassView::from(&swap.alike),
            nearest: SwappedGlassView::from(&swap.nearest),
            allergens: swap.judged.clone(),
            step_ml: swap.step_ml,
            counts_alike: TOLD_APART,
            cautions: CautionView::parted(&swap.cautions).0,
        }
    }
}

impl From<&SwappedGlass> for SwappedGlassView {
    fn from(glass: &SwappedGlass) -> Self {
        let cost = glass.cost.map(|(amount, currency)| Money { amount, currency });
        Self { figures: glass.figures, cost, cost_exact: cost.map(ExactMoney) }
    }
}
