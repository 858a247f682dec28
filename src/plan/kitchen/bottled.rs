//! What is bottled ahead of the drinks that are sold: its glasses are poured, and what is in the bottle goes into none of them again.

use std::collections::BTreeMap;

use crate::diagnostic::{Code, Diagnostic};
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::fold;
use crate::units::in_millilitres;

use super::super::board::Board;
use super::super::calendar::Day;
use super::super::model::{OnHand, PrepProduct};
use super::super::poured::taken_by;

/// What the scale and a rounded measure leave between a bottle and the glass that it was filled for, as a share (ours).
const ROUNDED_OFF: f64 = 0.02;
/// A last glass that lacks less than this share of itself is poured (ours: what stands in a bottle is rounded down).
const LAST_GLASS: f64 = 0.1;

/// A product that is the bottle of a drink.
pub(super) struct Bottle {
    /// The drink that it pours, folded.
    pub(super) pours: String,
    pub(super) product: String,
    /// What a glass takes of it, in what the product counts.
    pub(super) each: f64,
    /// What of each thing comes with that, grams.
    holds: BTreeMap<String, f64>,
}

impl Bottle {
    /// By its card; a card that does not say how much a glass takes is no such bottle, which is said.
    pub(super) fn of(batch: &Solved, grams_per_unit: f64, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let pours = batch.card.pours.as_ref()?;
        let Some(serving) = batch.card.serving else {
            let title =
                format!("`{}` does not say how much of it a glass of {pours} takes: none is counted", batch.name);
            let help = "write how much is poured for a guest: serving = \"90 ml\"";
            found.push(Diagnostic::warning(Code::NotStated, title).help(help).in_file(&batch.card.file));
            return None;
        };
        let share = in_millilitres(serving.value) / volume_ml(batch.bottled())?;
        let parts = batch.parts().filter_map(|part| Some((name_of(batch, part)?, part.mass_g * share)));
        let mut holds = BTreeMap::new();
        parts.for_each(|(of, grams)| *holds.entry(of).or_default() += grams);
        let each = share * batch.bottled().total_grams() / grams_per_unit;
        Some(Self { pours: fold(pours), product: batch.name.clone(), each, holds })
    }

    /// What is still added to the glass of each of its parts, grams, in their order.
    pub(super) fn beside(&self, taken: &[(&Solved, &SolvedPart, f64)]) -> Vec<f64> {
        let mut held = self.holds.clone();
        let rest = |(card, part, grams): &(&Solved, &SolvedPart, f64)| {
            let Some(held) = name_of(card, part).and_then(|of| held.get_mut(&of)) else { return *grams };
            let of_bottle = held.min(*grams);
            *held -= of_bottle;
            if of_bottle >= *grams * (1.0 - ROUNDED_OFF) { 0.0 } else { grams - of_bottle }
        };
        taken.iter().map(rest).collect()
    }
}

/// What a part is called where it is bought or made.
fn name_of(card: &Solved, part: &SolvedPart) -> Option<String> {
    match &part.found.what {
        Material::Ingredient(ingredient) => Some(ingredient.name.clone()),
        Material::Card(place) => card.inner.get(*place).map(|inner| inner.card.name.clone()),
        Material::Stage(_) => None,
    }
}

/// Whether a plan makes more of a product: who only stands there is poured until it is gone.
pub(super) fn is_made(product: &str, board: &Board, products: &[PrepProduct]) -> bool {
    let folded = fold(product);
    let is_it = |of: &str| fold(of) == folded;
    let mut entries = board.products.iter().filter(|entry| is_it(&entry.name.value));
    let mut parts = products.iter().flat_map(|product| &product.parts);
    let mut poured = board.pours.iter().flat_map(|pour| taken_by(&pour.drink));
    entries.any(|entry| entry.par.is_some() || entry.has_use())
        || parts.any(|part| is_it(&part.of))
        || poured.any(|(card, part, _)| {
            matches!(part.found.what, Material::Card(_)) && name_of(card, part).is_some_and(|of| is_it(&of))
        })
}

/// The bottles of a product that stand there, the soonest date first.
pub(super) struct StandingBottles<'a> {
    pub(super) bottle: &'a Bottle,
    /// The last day and the glasses that are left of each.
    left: Vec<(Day, u64)>,
}

impl<'a> StandingBottles<'a> {
    pub(super) fn of(bottle: &'a Bottle, products: &[PrepProduct]) -> Option<Self> {
        let product = products.iter().find(|product| product.name == bottle.product)?;
        let glasses = |held: &OnHand| (held.use_by, (held.amount as f64 / bottle.each + LAST_GLASS) as u64);
        let mut left: Vec<(Day, u64)> = product.on_hand.iter().map(glasses).collect();
        left.sort_unstable();
        Some(Self { bottle, left })
    }

    /// Takes up to so many glasses for a day.
    pub(super) fn pour(&mut self, day: Day, glasses: u64) -> u64 {
        let mut asked = glasses;
        for (_, left) in self.left.iter_mut().filter(|(use_by, _)| *use_by >= day) {
            let poured = asked.min(*left);
            *left -= poured;
            asked -= poured;
        }
        glasses - asked
    }

    pub(super) fn last_day(&self) -> Day {
        self.left.iter().filter(|(_, glasses)| *glasses > 0).map(|(use_by, _)| *use_by).max().unwrap_or(-1)
    }
}
