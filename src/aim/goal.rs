//! What a gram of each part adds to what there shall be least of.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use crate::card::Card;
use crate::cost::{Currency, entries_to_price, per_gram};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::solver::Offer;
use crate::units::display::grouped;
use crate::vocabulary::Spared;

/// Two sums that differ by no more than this share of them are the same: rounding of f64.
const TOLD: f64 = 1e-6;

/// What is counted.
#[derive(Clone, Copy, Debug)]
enum CountedIn {
    Money(Currency),
    Grams,
}

/// An aim as numbers.
pub(super) struct Goal {
    /// What a gram of each part of the last stage adds.
    pub per_gram: Vec<f64>,
    /// Lots that are to be used up, as they are said.
    pub use_up: Vec<String>,
    /// Grams that a gram of each part spares from being thrown away: in what is aimed at, and not in what it comes to.
    spares: Vec<f64>,
    /// What is counted, in words.
    pub what: &'static str,
    counted: CountedIn,
}

impl Goal {
    pub(super) fn of(of: Spared, card: &Card, offer: &Offer, house: &House) -> Result<Self, Vec<Diagnostic>> {
        match of {
            Spared::Cost => cost(card, offer, house),
            Spared::Waste => Ok(waste(offer, house)),
        }
    }

    /// The least of what these grams say.
    pub(super) fn grams(per_gram: &[f64]) -> Self {
        Self {
            per_gram: per_gram.to_vec(),
            use_up: Vec::new(),
            spares: vec![0.0; per_gram.len()],
            what: "grams",
            counted: CountedIn::Grams,
        }
    }

    /// Whether the one comes to less than the other in what is aimed at; `None` where nobody could tell them apart.
    pub(super) fn is_less(&self, one: &[f64], other: &[f64]) -> Option<bool> {
        let aimed = |masses: &[f64]| -> f64 { self.per_gram.iter().zip(masses).map(|(each, g)| each * g).sum() };
        let (one, other) = (aimed(one), aimed(other));
        let told = TOLD * one.abs().max(other.abs()).max(1.0);
        ((one - other).abs() > told).then_some(one < other)
    }

    /// What these masses come to.
    pub(super) fn sum(&self, masses: &[f64]) -> f64 {
        self.per_gram.iter().zip(&self.spares).zip(masses).map(|((each, spares), g)| (each + spares) * g).sum()
    }

    /// What an answer comes to in a batch so many times the size, and what of it is not counted.
    pub(super) fn comes_to(&self, masses: &[f64], times: f64) -> String {
        let alone = match self.counted {
            CountedIn::Money(_) => " of ingredients alone: no work, heat or bottles",
            CountedIn::Grams => "",
        };
        self.said(times * self.sum(masses)) + alone
    }

    /// A sum as it is said.
    pub(super) fn said(&self, sum: f64) -> String {
        match self.counted {
            CountedIn::Money(currency) => {
                let amount = Decimal::from_f64(sum).unwrap_or_default();
                format!("{} {}", currency.text(currency.round(amount)), currency.code())
            }
            CountedIn::Grams => format!("{} g", grouped(sum, 1)),
        }
    }
}

/// What goes in, at the prices of the larder, before tax. Work, heat and bottles are the same whatever is chosen, or nearly.
fn cost(card: &Card, offer: &Offer, house: &House) -> Result<Goal, Vec<Diagnostic>> {
    let contents: Vec<Vec<_>> = (0..offer.parts.len()).map(|part| offer.ingredients(part)).collect();
    // What is written costs the same in every answer: only what is open has to have a price.
    let open = |part: &usize| offer.room.is_open(*part);
    let asked =
        contents.iter().enumerate().filter(|(part, _)| open(part)).flat_map(|(_, own)| own.iter().map(|(i, _)| *i));
    let prices = per_gram(asked, house);
    let Some(currency) = prices.currency.filter(|_| prices.missing.is_empty()) else {
        return Err(vec![unpriced(card, house, &prices.missing)]);
    };
    let mut each = prices.each.into_iter();
    let mut price_of = |part: usize, own: &[(&crate::larder::Ingredient, f64)]| {
        if !open(&part) {
            return 0.0;
        }
        own.iter().map(|(_, share)| share * each.next().flatten().unwrap_or_default()).sum()
    };
    let per_gram = contents.iter().enumerate().map(|(part, own)| price_of(part, own)).collect();
    Ok(Goal {
        spares: vec![0.0; offer.parts.len()],
        use_up: Vec::new(),
        per_gram,
        what: "ingredients alone, of what is as needed, before tax",
        counted: CountedIn::Money(currency),
    })
}

fn unpriced(card: &Card, house: &House, missing: &[(String, String)]) -> Diagnostic {
    let named = missing.iter().map(|(name, why)| format!("{name} ({why})")).collect::<Vec<_>>().join(", ");
    let span = card.aim.map_or(card.name.span, |aim| aim.span);
    let entries = entries_to_price(missing.iter().map(|(name, _)| name.as_str()), house);
    let help = format!("state a price in larder.toml{entries}");
    let title = match named.is_empty() {
        true => "the cheapest cannot be found: nothing that is open has a price".to_owned(),
        false => format!("the cheapest cannot be found: there is no price of {named}"),
    };
    Diagnostic::error(Code::NoPrice, title).at(span, "needs a price of everything that is open").help(help)
}

/// Grams that are bought and do not come into the bottle: peel and cores, what a strainer keeps, what stays in pan and
/// funnel. Water that goes up is no waste. A gram of a product of which a lot ends within the week is a gram less to throw
/// away; how much of a lot is left the book does not say, so it is as much as the card allows.
fn waste(offer: &Offer, house: &House) -> Goal {
    let room = &offer.room;
    let ending = |part: usize| house.of_book.ending(offer.product(part).filter(|_| room.is_open(part))?);
    let spares: Vec<f64> = (0..offer.parts.len()).map(|part| f64::from(u8::from(ending(part).is_some()))).collect();
    let use_up = (0..offer.parts.len()).filter_map(|part| {
        let (lot, last) = ending(part)?;
        Some(format!("{}, lot {lot}, ends {}", offer.product(part)?, last.format("%a %-d %b %Y")))
    });
    let per_part = room.lines.iter().enumerate().map(|(part, line)| {
        let own = offer.ingredients(part);
        let bought: f64 = own.iter().map(|(i, share)| share / i.usable.unwrap_or(1.0)).sum();
        let evaporated = offer.evaporates(part);
        let bottled = (1.0 - room.left_behind) * (line.joins.total_grams() - line.keeps);
        let wasted = bought - evaporated - bottled;
        // Rounding of a composition is no waste, and would decide between answers that are as good.
        if wasted.abs() > 1e-9 { wasted } else { 0.0 }
    });
    Goal {
        per_gram: per_part.zip(&spares).map(|(wasted, spares)| wasted - spares).collect(),
        use_up: use_up.collect(),
        spares,
        what: "grams bought that do not come into the bottle",
        counted: CountedIn::Grams,
    }
}
