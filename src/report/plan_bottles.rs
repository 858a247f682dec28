//! Which glasses of a plan are poured of bottles that stand there.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::plan::PrepUnit;
use crate::plan::kitchen::PouredOfBottles;

/// Glasses in which a drink inside is poured of a bottle of it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct InsideOfBottles {
    pub(crate) drink: String,
    pub(crate) inside: String,
    /// The bottle that is poured for it.
    pub(crate) bottle: String,
    /// What a glass takes of that, in `unit`.
    pub(crate) each: f64,
    pub(crate) unit: PrepUnit,
    /// Water that is added to it, grams: an undiluted bottle has not that of the ice.
    pub(crate) water_g: f64,
    pub(crate) glasses: u64,
}

/// The drinks that are poured of their own bottles with their glasses, and those of which a drink inside is.
pub(super) fn of_bottles(poured: Vec<PouredOfBottles>) -> (BTreeMap<String, u64>, Vec<InsideOfBottles>) {
    let mut of_bottles: BTreeMap<String, u64> = BTreeMap::new();
    let mut inside_of_bottles: Vec<InsideOfBottles> = Vec::new();
    for PouredOfBottles { drink, inside, bottle, each, unit, water_g, glasses } in poured {
        let Some(inside) = inside else {
            *of_bottles.entry(drink).or_default() += glasses;
            continue;
        };
        let is_it = |of: &&mut InsideOfBottles| of.drink == drink && of.inside == inside && of.bottle == bottle;
        match inside_of_bottles.iter_mut().find(is_it) {
            Some(known) => known.glasses += glasses,
            None => {
                inside_of_bottles.push(InsideOfBottles { drink, inside, bottle, each, unit, water_g, glasses });
            }
        }
    }
    (of_bottles, inside_of_bottles)
}
