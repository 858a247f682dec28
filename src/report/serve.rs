//! `serve`: one guest's glass.

use serde::Serialize;

use crate::assessment::{AllergenLists, Assessment, IdentityQuestion};
use crate::card::Card;
use crate::cost::{CostKind, Currency, PricedBy, SoldMeasure};
use crate::diagnostic::once::without_repeats;
use crate::drinks::{Figures, Glass, GlassCost, bottles_to_state};
use crate::house::House;
use crate::safety::STANDING_NOTE;
use crate::safety::intake::Intake;
use crate::solver::{IceWater, Solved, SolvedPart, WeighedAlike, by_hand};
use crate::units::jigger::in_ounces;
use crate::vocabulary::{DrinkHow, MeasureSystem};

use super::caution::CautionView;
use super::date::AllergenView;
use super::money::{ExactMoney, Money, ShareOfMoney};
use super::{Report, View};

pub(crate) type ServeReport = Report<ServeView>;

/// One guest's glass.
#[derive(Clone, Debug, Serialize)]
pub struct ServeView {
    pub(crate) how: Option<DrinkHow>,
    pub(crate) glass: Option<String>,
    pub(crate) garnish: Option<String>,
    pub(crate) steps: Vec<String>,
    /// What is poured, in card order; the water from its ice is none of it.
    pub(crate) lines: Vec<PouredView>,
    /// Whether the house measures in ounces, and reads them first.
    #[serde(skip)]
    pub(crate) by_ounces: bool,
    pub(crate) ice_water: Option<IceWaterView>,
    /// What one glass holds.
    #[serde(flatten)]
    pub figures: Figures,
    /// The same with the least and the most water that the ice may give.
    pub(crate) with_least_water: Figures,
    pub(crate) with_most_water: Figures,
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    pub(crate) allergens_listed_in: Vec<AllergenLists>,
    /// Which bought bottles to state, and how.
    pub(crate) bottles_to_state: Option<String>,
    pub(crate) unidentified: Vec<IdentityQuestion>,
    /// House products in it that are refused a date by what they are.
    pub(crate) refused_parts: Vec<String>,
    pub(crate) cautions: Vec<CautionView>,
    pub(crate) cautions_said_elsewhere: Vec<CautionView>,
    /// The most of substances that have a limit, in one glass.
    pub(crate) doses: Vec<Intake>,
    pub(crate) cost: Option<GlassCostView>,
    pub(crate) note: &'static str,
}

/// A line as it is poured.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PouredView {
    /// What it is called on the card.
    pub of: String,
    /// As it is written on the card.
    pub(crate) written: String,
    pub(crate) mass_g: f64,
    /// Millilitres at 20 °C; null of what is weighed or counted.
    pub(crate) ml: Option<f64>,
    /// What a jigger calls it; null of what is none of its measures.
    pub(crate) in_ounces: Option<String>,
    /// In what it is counted or dosed by ("2 dashes"); null where it is poured.
    pub(crate) counted: Option<String>,
    /// How warm it is poured, °C, where the card says so.
    pub(crate) at_c: Option<f64>,
    /// Whether it goes in behind the ice.
    pub(crate) after_ice: bool,
}

/// What the ice gives, and how that is known.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct IceWaterView {
    pub(crate) grams: f64,
    pub(crate) least_g: f64,
    pub(crate) most_g: f64,
    /// Its share of the strained drink, by weight.
    pub(crate) share: f64,
    /// Weighed by the house; else a range by the balance of heat.
    pub(crate) weighed: bool,
    /// The coldest and the warmest that the drink may be, °C.
    pub(crate) at_c: Option<(f64, f64)>,
    pub(crate) assumed: Vec<String>,
    /// How warm what goes in warm was taken to be.
    pub(crate) warm: Vec<String>,
    /// What the house weighed of its other drinks that are made alike, for as much as this one pours; null where it has
    /// weighed none, or this one itself.
    pub(crate) house_weighed: Option<WeighedAlike>,
    /// What the balance of heat allows, where all of that lies outside it.
    pub(crate) outside_balance_g: Option<(f64, f64)>,
    /// How many times what is poured was weighed before its ice: 1 of a glass by itself.
    pub(crate) glasses_weighed: u32,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct GlassCostView {
    pub(crate) currency: Currency,
    /// Of one glass, before tax.
    pub(crate) glass: Money,
    pub(crate) glass_exact: ExactMoney,
    /// Whether everything has a cost; if not it is at least as high as it says.
    pub(crate) complete: bool,
    pub(crate) without_labour: bool,
    /// The work in that; null where it is not in it.
    pub(crate) labour: Option<Money>,
    /// What has no price, with why.
    pub(crate) missing: Vec<String>,
    /// What sets the price.
    pub(crate) priced_by: PricedBy,
    pub(crate) sells_at: Option<Money>,
    pub(crate) sells_at_before_tax: Option<Money>,
    pub(crate) gross_profit: Option<ShareOfMoney>,
    pub(crate) pour_cost: Option<ShareOfMoney>,
}

impl View for ServeView {
    const VERB: &'static str = "serve";
    const KEYS: &'static str = "how glass garnish steps lines ice_water mass_g volume_ml abv_pct alcohol_g uk_units us_standard_drinks sugar_g sugar_g_l acid_g acid_g_l kcal kj with_least_water with_most_water allergens allergens_not_stated allergens_not_stated_for allergens_doubted allergens_say allergens_listed_in bottles_to_state unidentified refused_parts cautions cautions_said_elsewhere doses cost note";

    fn stops(&self) -> bool {
        self.cautions.iter().any(CautionView::stops) || !self.refused_parts.is_empty() || !self.unidentified.is_empty()
    }
}

impl ServeView {
    /// Of a drink that was solved, judged and priced, in the house that it is of.
    pub fn new(card: &Card, glass: &Glass, house: &House) -> Self {
        let Glass { solved, figures, range, judged, on_it: _, cost } = glass;
        let (cautions, cautions_said_elsewhere) = told(judged);
        Self {
            how: card.drink.how.as_ref().map(|how| how.value),
            glass: card.drink.glass.clone(),
            garnish: card.drink.garnish.clone(),
            steps: card.steps.clone(),
            lines: lines(solved, house.settings.measures),
            by_ounces: house.settings.measures == Some(MeasureSystem::Us),
            ice_water: solved.ice_water.as_ref().map(|water| IceWaterView::new(water, figures)),
            figures: *figures,
            with_least_water: range.0,
            with_most_water: range.1,
            allergens: AllergenView::from(judged),
            allergens_listed_in: judged.lists.clone(),
            bottles_to_state: bottles_to_state([solved].into_iter(), &house.settings.markets),
            unidentified: judged.unidentified.clone(),
            refused_parts: refused_parts(judged),
            cautions,
            cautions_said_elsewhere,
            doses: judged.doses.clone(),
            cost: cost.as_ref().map(GlassCostView::from),
            note: STANDING_NOTE,
        }
    }
}

/// What a part is refused for, whatever the drink around it: once for all stores.
pub(super) fn refused_parts(judged: &Assessment) -> Vec<String> {
    let refused = judged.stores.iter().flat_map(|store| &store.refused).filter(|refusal| refusal.of.is_some());
    without_repeats(refused.map(ToString::to_string))
}

fn told(judged: &Assessment) -> (Vec<CautionView>, Vec<CautionView>) {
    CautionView::parted(&judged.cautions)
}

fn lines(solved: &Solved, measures: Option<MeasureSystem>) -> Vec<PouredView> {
    let poured = solved.last().parts.iter().filter(|part| part.melts.is_none());
    poured.map(|part| PouredView::new(part, measures)).collect()
}

impl PouredView {
    /// In the ounces of a house with these measures.
    pub(super) fn new(part: &SolvedPart, measures: Option<MeasureSystem>) -> Self {
        let counted = by_hand::poured_by_hand(part);
        let ml = part.volume_ml();
        Self {
            of: part.label.clone(),
            written: part.written.as_ref().map(|read| read.text.clone()).unwrap_or_default(),
            mass_g: part.mass_g,
            ml,
            in_ounces: ml.filter(|_| counted.is_none()).and_then(|ml| in_ounces(ml, measures)),
            counted,
            at_c: part.at_c,
            after_ice: part.after_ice,
        }
    }
}

impl IceWaterView {
    fn new(water: &IceWater, figures: &Figures) -> Self {
        Self {
            grams: water.grams,
            least_g: water.least_g,
            most_g: water.most_g,
            share: water.grams / figures.mass_g,
            weighed: water.weighed,
            at_c: water.at_c,
            assumed: water.assumed.clone(),
            warm: water.warm.clone(),
            house_weighed: water.alike,
            outside_balance_g: water.beyond_balance(),
            glasses_weighed: water.glasses,
        }
    }
}

impl From<&GlassCost> for GlassCostView {
    fn from(cost: &GlassCost) -> Self {
        let costing = &cost.of_many;
        let money = |amount| Money { amount, currency: costing.currency };
        let selling = cost.sold.map(|SoldMeasure { selling, .. }| selling);
        let missing = costing.lines.iter().filter(|line| line.kind != CostKind::Labour).filter_map(|line| {
            let why = line.why_missing.as_ref()?;
            Some(format!("{}: {why}", line.of))
        });
        Self {
            currency: costing.currency,
            glass: money(cost.each),
            glass_exact: ExactMoney(money(cost.each)),
            complete: costing.complete,
            without_labour: costing.without_labour,
            labour: cost.labour.map(money),
            missing: missing.collect(),
            priced_by: cost.priced_by,
            sells_at: selling.and_then(|s| s.with_tax).map(money),
            sells_at_before_tax: selling.map(|s| money(s.net)),
            gross_profit: selling.map(|s| ShareOfMoney(s.gross_profit)),
            pour_cost: selling.map(|s| ShareOfMoney(s.pour_cost)),
        }
    }
}
