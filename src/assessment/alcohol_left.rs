//! The alcohol that heat surely leaves. A date counts no more of it; how much more there is, only a reading tells.

use std::cell::LazyCell;
use std::sync::LazyLock;

use serde::Deserialize;
use uom::si::time::minute;

use crate::card::Stage;
use crate::house::House;
use crate::mixture::Component;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedStage};
use crate::units::degrees_celsius;
use crate::vocabulary::table::rows;

use super::in_pan;

/// Below this an open pan of spirit and water does not boil: their azeotrope at 101.3 kPa, °C (Perry's Chemical Engineers'
/// Handbook).
const BOILS_C: f64 = 78.15;
/// By so many points the table may be off.
const POINTS: f64 = 15.0;
/// How many times as readily as water alcohol leaves a weak boiling pan: its activity coefficient there (5.4, van Laar's
/// 1.68, from memory) by the pressures of the two vapours at 100 °C (2.2, Antoine). In strong spirit it is less.
const VOLATILITY: f64 = 12.0;

#[derive(Clone, Copy, Debug, Deserialize)]
struct Retained {
    minutes: f64,
    left_pct: f64,
}

static TABLE: LazyLock<Vec<Retained>> = LazyLock::new(|| rows("alcohol-left.csv", include_str!("alcohol-left.csv")));

/// The share of the alcohol of a card that its pans leave, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct AlcoholLeft {
    /// Surely.
    pub sure: f64,
    /// At the most.
    pub most: f64,
}

impl AlcoholLeft {
    /// Of a strength that was read.
    pub(super) const ALL: Self = Self { sure: 1.0, most: 1.0 };

    /// Of a solved card; `inside`: of each card inside it. What steams off is never weaker than what is in the pan, so at least as much of
    /// its alcohol goes as of its water; of what the steps put in behind the heat none does.
    pub(super) fn of(solved: &Solved, house: &House, inside: &[Self]) -> Self {
        // most cards steam nothing off that has alcohol in it
        let late = LazyCell::new(|| in_pan::behind_the_heat(solved, house));
        let is_late = |made: &SolvedStage| {
            let strong = made.parts.iter().filter(|part| part.found.per_gram.grams_of(Component::Ethanol) > 0.0);
            strong.into_iter().any(|part| late.contains(&part.label))
        };
        let steamed = |made: &SolvedStage| 1.0 - made.lost.evaporated.clamp(0.0, 1.0);
        let [sure, most] =
            [|one: &Self| one.sure, |one: &Self| one.most].map(|of| inside.iter().map(of).collect::<Vec<_>>());
        Self {
            sure: share(solved, &sure, |stage, made| kept(solved, stage, made, house)),
            most: share(solved, &most, |_, made| match steamed(made) {
                left if left < 1.0 && !is_late(made) => left,
                _ => 1.0,
            }),
        }
    }
}

/// What is left of the alcohol, where each pan leaves this share of what came into it.
fn share(solved: &Solved, inside: &[f64], left: impl Fn(&Stage, &SolvedStage) -> f64) -> f64 {
    let mut shares: Vec<f64> = Vec::new();
    for (stage, made) in solved.card.all_stages().zip(&solved.stages) {
        let of_part = |what: &Material| match what {
            Material::Ingredient(_) => 1.0,
            Material::Stage(place) => shares.get(*place).copied().unwrap_or(1.0),
            Material::Card(place) => inside.get(*place).copied().unwrap_or(1.0),
        };
        let of_parts = made.parts.iter().map(|part| {
            let grams = part.mass_g * part.found.per_gram.grams_of(Component::Ethanol);
            (grams, grams * of_part(&part.found.what))
        });
        let (all, came) = of_parts.fold((0.0, 0.0), |sum, part| (sum.0 + part.0, sum.1 + part.1));
        shares.push(if all > 0.0 { came / all * left(stage, made) } else { 1.0 });
    }
    shares.pop().unwrap_or(1.0).clamp(0.0, 1.0)
}

/// What one pan keeps of its alcohol at the least. Nothing leaves a closed bag.
fn kept(solved: &Solved, stage: &Stage, made: &SolvedStage, house: &House) -> f64 {
    if !solved.card.process.is_empty() {
        return 1.0;
    }
    let steamed = (1.0 - made.lost.evaporated.clamp(0.0, 1.0)).powf(VOLATILITY);
    let boiled = stage.heated.filter(|heated| degrees_celsius(heated.value.to) >= BOILS_C);
    let by_key = || boiled.map(|heated| at_the_least(heated.value.hold.map_or(0.0, |hold| hold.get::<minute>())));
    let by_steps = || {
        let told = in_pan::boiled_by(solved, stage, made, house)?;
        Some(told.map_or(0.0, at_the_least))
    };
    by_key().or_else(|| if stage.heated.is_none() { by_steps() } else { None }).unwrap_or(1.0).min(steamed)
}

/// By the table, straight between its rows, at its lower end.
fn at_the_least(minutes: f64) -> f64 {
    let between = TABLE.windows(2).find(|pair| minutes < pair[1].minutes);
    let pct = between.map_or(0.0, |pair| {
        let along = (minutes - pair[0].minutes) / (pair[1].minutes - pair[0].minutes);
        pair[0].left_pct + along * (pair[1].left_pct - pair[0].left_pct)
    });
    (pct - POINTS).max(0.0) / 100.0
}
