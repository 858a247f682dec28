//! What the lots of a product teach of its quality date: looks that found it fine, looks that found it going or off, and
//! bottles that were finished while they were good.
//!
//! Quality alone: no number of good lots lifts a ceiling of safety, and what grew pulls the product below that age at once
//! (see [`record`](super::record)). Only lots of the same recipe count; those of another store with their ages brought to
//! this one by what the rules expect of both, and without a word on the oldest age that was looked at.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::assessment::{self, Which};
use crate::shelf_life::Draws;
use crate::shelf_life::decay::ea_from_two;
use crate::shelf_life::reason::DateRule;
use crate::shelf_life::survival::{Law, Learned, Observation, Prior, RefusedShare, fit, learn, turnbull};
use crate::shelf_life::verdict::Term;
use crate::spelling::fold;
use crate::units::degrees_celsius;

use super::book::{LotBook, LotState, day_of};
use super::event::{Happened, Taste};
use super::sheet::FrozenSheet;

/// Fewer refusals than this, and what was expected rules.
pub const FEW: usize = 3;

/// A store, and how long the rules expect a product to stay good in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Expected {
    /// The store.
    pub store: String,
    /// How warm it is, °C.
    pub t_c: f64,
    /// Days.
    pub days: f64,
}

/// Lots of another store, and how their ages count.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Elsewhere {
    /// Their store.
    pub store: String,
    /// How many count.
    pub lots: usize,
    /// A day there is so many here.
    pub day_counts: f64,
    /// The activation energy that this is, kJ/mol.
    pub ea_kj_per_mol: f64,
}

/// What was learned of one product in one store.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lesson {
    /// The store.
    pub store: String,
    /// How many of its lots count.
    pub lots: usize,
    /// Those of other stores.
    pub elsewhere: Vec<Elsewhere>,
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
    /// What of it the house has accepted, whole days.
    pub accepted_days: Option<u32>,
    /// Whether there are so few refusals that what was expected rules.
    pub expected_rules: bool,
    /// What the looks give without any law: after, up to, share.
    pub shares: Vec<RefusedShare>,
    /// By a Weibull law, where enough was seen: 1 lot in 10 is refused by this age, with its 95 % limits, days.
    pub by_law_q10_days: Option<[f64; 3]>,
}

/// How long the rules expect a product to stay good where a lot is kept, and the days of its date there.
pub fn expected_quality(lot: &LotState, sheet: &FrozenSheet) -> Option<(Expected, Option<u32>)> {
    let (house, solved) = sheet.solved(lot)?;
    let store = house.settings.stores.iter().find(|store| store.name == lot.recorded.store)?;
    let (judged, _) = assessment::assess(&solved, &house, lot.recorded.made, Which::Only(store), Draws::default());
    let dated = judged.stores.first()?;
    let stale = |term: &&Term| matches!(term.rule, DateRule::Stale(_));
    let days = dated.verdict.as_ref()?.terms.iter().filter(stale).map(|term| term.days).reduce(f64::min)?;
    let t_c = degrees_celsius(store.temperature);
    Some((Expected { store: store.name.clone(), t_c, days }, dated.days))
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

/// The lots of a recipe of a product that were always in one store: moved lots say something of two, and of neither surely.
fn always_in<'a>(book: &'a LotBook, product: &str, recipe: &str, store: &str) -> Vec<&'a LotState> {
    let counts = |lot: &&LotState| {
        lot.recorded.recipe == recipe
            && lot.stores.iter().all(|of| of == store)
            && fold(&lot.recorded.product) == fold(product)
    };
    book.lots().filter(counts).collect()
}

fn seen(book: &LotBook, lots: &[&LotState]) -> Vec<Observation> {
    lots.iter().filter_map(|lot| observed(book, lot)).collect()
}

fn oldest_fine(seen: &[Observation]) -> f64 {
    seen.iter().map(|o| o.fine_at).fold(0.0, f64::max)
}

/// What the lots of a product teach, in a store, beside the days that the rules expect of its quality there and in other
/// stores; `None` where no lot of this store says anything.
pub fn lesson(
    book: &LotBook,
    product: &str,
    recipe: &str,
    here: &Expected,
    others: &[Expected],
) -> Option<(Lesson, Looks)> {
    let store = here.store.as_str();
    let own = seen(book, &always_in(book, product, recipe, store));
    if own.is_empty() {
        return None;
    }
    let mut all = own.clone();
    let mut elsewhere = Vec::new();
    for other in others.iter().filter(|other| other.store != store && other.t_c != here.t_c) {
        let day_counts = here.days / other.days;
        let moved = seen(book, &always_in(book, product, recipe, &other.store));
        if moved.is_empty() || !day_counts.is_finite() {
            continue;
        }
        elsewhere.push(Elsewhere {
            store: other.store.clone(),
            lots: moved.len(),
            day_counts,
            ea_kj_per_mol: ea_from_two(1.0 / here.days, here.t_c, 1.0 / other.days, other.t_c) / 1000.0,
        });
        let counted = |o: Observation| Observation { fine_at: day_counts * o.fine_at, off_at: day_counts * o.off_at };
        all.extend(moved.into_iter().map(counted));
    }
    let refused = own.iter().filter(|o| o.off_at.is_finite()).count();
    let prior = Prior::of_model(here.days);
    let learned = learn(prior, &all);
    let oldest = oldest_fine(&own);
    let q10 = learned.quantile(0.1);
    let lesson = Lesson {
        store: store.to_owned(),
        lots: own.len(),
        elsewhere,
        refused,
        oldest_fine_days: oldest,
        expected_q10_days: learn(prior, &[]).quantile(0.1),
        q10_days: q10,
        q50_days: learned.quantile(0.5),
        offered_days: q10.min(oldest).floor().max(0.0) as u32,
        accepted_days: accepted(book, product, recipe).into_iter().find(|a| a.store == store).map(|a| a.days),
        expected_rules: all.iter().filter(|o| o.off_at.is_finite()).count() < FEW,
        shares: turnbull(&own),
        by_law_q10_days: fit(Law::Weibull, &own).filter(|_| refused >= FEW).map(|law| law.quantile(0.1)),
    };
    Some((lesson, Looks { own, learned }))
}

/// What a lesson was learned from, for whoever draws it.
#[derive(Clone, Debug)]
pub struct Looks {
    /// The lots of the store itself.
    pub own: Vec<Observation>,
    /// With what was expected.
    pub learned: Learned,
}

/// What the house has accepted of the lots of a product in a store.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Accepted {
    /// The store.
    pub store: String,
    /// Whole days, never beyond the oldest age at which a lot was looked at and found fine, whatever was accepted.
    pub days: u32,
    /// How many lots say something.
    pub lots: usize,
}

/// What the house has accepted of the lots of a recipe of a product, store by store: its last word, held to what was looked
/// at. A card that was changed is another recipe, of which nothing was accepted.
pub fn accepted(book: &LotBook, product: &str, recipe: &str) -> Vec<Accepted> {
    let of_it = |lot: &&LotState| lot.recorded.recipe == recipe && fold(&lot.recorded.product) == fold(product);
    let mut last: BTreeMap<&str, (usize, u32)> = BTreeMap::new();
    for lot in book.lots().filter(|lot| lot.accepted.is_some()).filter(of_it) {
        let Some(said) = lot.accepted else { continue };
        let store = last.entry(&lot.recorded.store).or_insert(said);
        *store = said.max(*store);
    }
    let held = last.into_iter().map(|(store, (_, days))| {
        let seen = seen(book, &always_in(book, product, recipe, store));
        Accepted { store: store.to_owned(), days: days.min(oldest_fine(&seen).floor() as u32), lots: seen.len() }
    });
    held.collect()
}
