//! The lines that rest on the rates of the house: labour, heat, bottles, duty.

use uom::si::time::hour;

use crate::card::{Makes, TargetKind};
use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::properties::amount_for;
use crate::solver::Solved;
use crate::units::display::{grouped, percent_text, short};

use super::book::Book;
use super::currency::quantity;
use super::heat;
use super::line::{CostKind, CostLine, missing, priced};
use super::price::Tax;

pub(super) fn rates(solved: &Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Vec<CostLine> {
    let mut lines = Vec::new();
    lines.extend(labour(solved, book, assumed));
    lines.extend(heating(solved, book, assumed));
    lines.extend(containers(book, assumed));
    lines.extend(duty(solved, book));
    lines
}

/// Work: the card's own batch, and its share of the batches of the cards inside.
fn labour(solved: &Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<CostLine> {
    let cards = solved.with_inner();
    let own = |card: &Solved| card.card.labour.map(|time| time.value.get::<hour>());
    let hours: f64 = cards.iter().map(|(card, share)| share * own(card).unwrap_or(0.0)).sum();
    let Some(stated) = &book.house.settings.costs.labour else {
        if hours == 0.0 {
            assumed.push("labour is not counted: neither the card nor [costs] states it".to_owned());
            return None;
        }
        return Some(missing(CostKind::Labour, "labour", "[costs] states no price of an hour (`labour`)"));
    };
    let silent: Vec<&str> = cards.iter().filter(|(card, _)| own(card).is_none()).map(|(card, _)| &*card.name).collect();
    match silent.as_slice() {
        [first, ..] if own(solved).is_none() => {
            return Some(missing(CostKind::Labour, "labour", format!("the card of {first} states no `labour`")));
        }
        [] => {}
        // A pinch of a house salt without its work takes away no more than its own share.
        inside => assumed.push(format!("no work is counted of {}, which states no `labour`", inside.join(", "))),
    }
    let basis = format!("{} min a batch at {}", short(60.0 * hours), stated.value);
    Some(charged(CostKind::Labour, stated, hours, basis, book))
}

fn heating(solved: &Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<CostLine> {
    let heat = heat::batch_heat(solved);
    if heat.kwh <= 0.0 {
        return None;
    }
    if heat.unstated {
        assumed.push("where water goes up and no `heated` is stated, only its evaporation is counted".to_owned());
    }
    let costs = &book.house.settings.costs;
    let efficiency = costs.heat_efficiency.unwrap_or_else(|| {
        assumed.push(format!("{} of the energy reaches the pan", percent_text(heat::ASSUMED_EFFICIENCY)));
        heat::ASSUMED_EFFICIENCY
    });
    let Some(stated) = &costs.energy else {
        return Some(missing(CostKind::Heat, "heat", "[costs] states no price of a kilowatt-hour (`energy`)"));
    };
    let kwh = heat.kwh / efficiency;
    let basis = format!("{} kWh from {} °C at {}", grouped(kwh, 2), heat::FROM_C, stated.value);
    Some(charged(CostKind::Heat, stated, kwh, basis, book))
}

fn containers(book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<CostLine> {
    let Some(Makes::Bottles { count, .. }) = book.asked.makes else {
        assumed.push("bottles are not counted: the size is not given in bottles".to_owned());
        return None;
    };
    let Some(stated) = &book.house.settings.costs.bottle else {
        return Some(missing(CostKind::Containers, "bottles", "[costs] states no price of a `bottle`"));
    };
    let basis = format!("{} at {}", grouped(count, 0), stated.value);
    Some(charged(CostKind::Containers, stated, count, basis, book))
}

/// Only where the house states a rate: whether it owes duty on what it makes, its authority knows.
fn duty(solved: &Solved, book: &mut Book<'_>) -> Option<CostLine> {
    let stated = book.house.settings.costs.duty.as_ref()?;
    let litres = amount_for(TargetKind::Abv, solved.bottled()) / 1000.0;
    let basis = format!("{} L of pure alcohol at {}", grouped(litres, 3), stated.value);
    (litres > 0.0).then(|| charged(CostKind::Duty, stated, litres, basis, book))
}

/// A line of so many units at a rate of `[costs]`.
fn charged(kind: CostKind, stated: &Spanned<String>, units: f64, basis: String, book: &mut Book<'_>) -> CostLine {
    let (of, unit, example) = kind.rate();
    let Some(rate) = book.rate(of, stated) else { return missing(kind, of, "its price cannot be read") };
    if !kind.counts(rate.per) {
        let wrong = Diagnostic::error(Code::WrongDimension, format!("the price of {of} is not for {unit}"))
            .at(stated.span, format!("a price for {unit} was expected"))
            .help(format!("write for example \"{example}\""));
        book.report_of_house(wrong);
        return missing(kind, of, format!("its price is not for {unit}"));
    }
    // no tax on wages and on duty, whatever the house says of the tax in its prices
    let rate = if matches!(kind, CostKind::Labour | CostKind::Duty) { rate.or_tax(Tax::Excluded(None)) } else { rate };
    match quantity(units).and_then(|units| book.charge(rate, units)) {
        Some(charge) => priced(kind, of, rate.currency, charge, basis),
        None => missing(kind, of, "too much of it to count"),
    }
}
