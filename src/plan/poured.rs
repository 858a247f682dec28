//! What goes into the glasses that are sold: so much of a product or of an ingredient in each.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::card::Amount;
use crate::diagnostic::Span;
use crate::solver::{Solved, SolvedPart, inner_drink};
use crate::units::{in_grams, in_millilitres};

use super::calendar::{Calendar, Day, Uses};

/// How many glasses of a drink, and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Glasses {
    /// Week after week.
    Weekly(Uses),
    /// On one day, beside what is sold every week.
    Once(NaiveDate, u64),
    /// Those that are poured of bottles that stand there.
    OfBottles(Arc<OfBottles>),
}

/// How many glasses are poured of bottles that stand there, by day.
pub type OfBottles = BTreeMap<Day, u64>;

impl Glasses {
    /// How many on a day.
    pub fn on_day(&self, calendar: &Calendar, day: Day) -> u64 {
        match self {
            Self::Weekly(uses) => uses.on_day(calendar, day),
            Self::Once(on, count) => {
                if calendar.date(day) == *on {
                    *count
                } else {
                    0
                }
            }
            Self::OfBottles(days) => days.get(&day).copied().unwrap_or(0),
        }
    }
}

/// What goes into each of so many glasses.
#[derive(Clone, Debug, PartialEq)]
pub struct Poured {
    /// The glasses.
    pub glasses: Glasses,
    /// Those of them that are poured of a bottle, and are not made.
    pub but: Arc<OfBottles>,
    /// What goes into one, in what the product counts; of an ingredient grams.
    pub each: f64,
}

/// What goes into all glasses of a day.
pub(crate) fn poured_on(poured: &[Poured], calendar: &Calendar, day: Day) -> f64 {
    let made = |of: &Poured| of.glasses.on_day(calendar, day).saturating_sub(of.but.get(&day).copied().unwrap_or(0));
    poured.iter().map(|of| of.each * made(of) as f64).sum()
}

/// What one glass takes, with the drink that each part stands in.
pub(crate) fn taken_by(drink: &Solved) -> Vec<(&Solved, &SolvedPart, f64)> {
    drink.parts().flat_map(|part| taken_of(drink, part)).collect()
}

/// What a part of a card takes, with the card that it stands in and its grams: a drink inside another card is poured with it, and is no
/// product that is made ahead. The water from ice is no part of it.
pub(crate) fn taken_of<'a>(card: &'a Solved, part: &'a SolvedPart) -> Vec<(&'a Solved, &'a SolvedPart, f64)> {
    let mut taken = Vec::new();
    let mut left: Vec<(&Solved, &SolvedPart, f64)> = vec![(card, part, 1.0)];
    while let Some((card, part, times)) = left.pop() {
        match inner_drink(card, part) {
            Some(inner) => {
                let times = times * part.mass_g / inner.bottled().total_grams();
                left.extend(inner.parts().map(|own| (inner, own, times)));
            }
            None if part.melts.is_none() => taken.push((card, part, times * part.mass_g)),
            None => {}
        }
    }
    taken
}

/// How many glasses of its card a drink was solved for: one, and of what goes into another any number.
pub(crate) fn glasses_made(drink: &Solved) -> f64 {
    let parts = drink.last().parts.iter().zip(&drink.card.last.parts);
    let mut times = parts.filter_map(|(made, written)| match written.amount.value {
        Amount::Mass(one) => Some(made.mass_g / in_grams(one)),
        Amount::Volume(one) => Some(made.volume_ml()? / in_millilitres(one)),
        _ => None,
    });
    times.find(|times| times.is_finite() && *times > 0.0).unwrap_or(1.0)
}

/// The ice that glasses of a drink meet in the days of a plan; a drink in a drink is made on ice of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct OnIce {
    /// The drink.
    pub drink: String,
    /// By its card, grams in all; `None` where that does not say how much.
    pub ice_g: Option<f64>,
}

/// A drink that is sold, as a menu puts it on the board.
#[derive(Clone, Debug)]
pub struct Pour {
    /// One glass of it.
    pub drink: Arc<Solved>,
    /// How many.
    pub glasses: Glasses,
    /// The file and the place that ask for it.
    pub asked_at: (Arc<str>, Span),
}
