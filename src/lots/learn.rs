//! What the lots of a product teach of its quality date: looks that found it fine, looks that found it going or off, and
//! bottles that were finished while they were good.
//!
//! Quality alone: no number of good lots lifts a ceiling of safety, and what grew pulls the product below that age at once
//! (see [`record`](super::record)). Only lots of the same recipe in the same store count.

use serde::Serialize;

use crate::shelf_life::survival::{Law, Observation, Prior, RefusedShare, fit, learn, turnbull};
use crate::spelling::fold;

use super::book::{LotBook, LotState, day_of};
use super::event::{Happened, Taste};

/// Fewer refusals than this, and what was expected rules.
pub const FEW: usize = 3;

/// What was learned of one product in one store.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lesson {
    /// The store.
    pub store: String,
    /// How many lots count.
    pub lots: usize,
    /// How many of them were found going or off.
    pub refused: usize,
    /// The oldest age in days at which a lot was looked at and found fine: no date goes beyond it.
    pub oldest_fine_days: f64,
    /// What was expected before: 1 lot in 10 is refused by this age.
    pub expected_q10_days: f64,
    /// With what the lots say: 1 lot in 10 is refused by this age, days.
    pub q10_days: f64,
    /// And the half of them.
    pub q50_days: f64,
    /// The quality date that these lots bear, whole days: the smaller of `q10_days` and `oldest_fine_days`.
    pub offered_days: u32,
    /// Whether there are so few refusals that what was expected rules.
    pub expected_rules: bool,
    /// What the looks give without any law: after, up to, share.
    pub shares: Vec<RefusedShare>,
    /// By a Weibull law, where enough was seen: 1 lot in 10 is refused by this age, with its 95 % limits, days.
    pub by_law_q10_days: Option<[f64; 3]>,
}

/// When a lot was refused, as far as anybody saw; `None` where nobody looked and it was thrown away untasted.
pub fn observed(book: &LotBook, lot: &LotState) -> Option<Observation> {
    let age = |day: chrono::NaiveDate| (day - lot.recorded.made).num_days().max(0) as f64;
    let mut fine = 0.0_f64;
    let mut off = f64::INFINITY;
    for event in lot.events.iter().filter_map(|place| book.events.get(*place)) {
        let at = age(day_of(event));
        match &event.happened {
            Happened::Tasted { taste: Taste::Fine, .. } | Happened::UsedUp if at < off => fine = fine.max(at),
            Happened::Tasted { taste: Taste::Going | Taste::Off, .. } => off = off.min(at),
            _ => {}
        }
    }
    match off.is_finite() {
        // off on the day it was made tells nothing of how it keeps
        true => (off > 0.0).then(|| Observation::between(fine.min(off), off)),
        false => (fine > 0.0).then(|| Observation::fine_to(fine)),
    }
}

/// What the lots of a product teach, in a store, beside the days that the rules expect of its quality there; `None` where no
/// lot says anything.
pub fn lesson(book: &LotBook, product: &str, recipe: &str, store: &str, expected_days: f64) -> Option<Lesson> {
    let counts = |lot: &&LotState| {
        // moved lots say something of two stores, and of neither surely
        fold(&lot.recorded.product) == fold(product)
            && lot.recorded.recipe == recipe
            && lot.stores == [store.to_owned()]
    };
    let lots: Vec<&LotState> = book.lots().filter(counts).collect();
    let seen: Vec<Observation> = lots.iter().filter_map(|lot| observed(book, lot)).collect();
    if seen.is_empty() {
        return None;
    }
    let refused = seen.iter().filter(|o| o.off_at.is_finite()).count();
    let prior = Prior::of_model(expected_days);
    let learned = learn(prior, &seen);
    let oldest = seen.iter().map(|o| o.fine_at).fold(0.0, f64::max);
    let q10 = learned.quantile(0.1);
    Some(Lesson {
        store: store.to_owned(),
        lots: seen.len(),
        refused,
        oldest_fine_days: oldest,
        expected_q10_days: learn(prior, &[]).quantile(0.1),
        q10_days: q10,
        q50_days: learned.quantile(0.5),
        offered_days: q10.min(oldest).floor().max(0.0) as u32,
        expected_rules: refused < FEW,
        shares: turnbull(&seen),
        by_law_q10_days: fit(Law::Weibull, &seen).filter(|_| refused >= FEW).map(|law| law.quantile(0.1)),
    })
}
