//! What is said of a lot, for text, labels and pages alike.

use chrono::NaiveDate;

use crate::assessment::allergens_by_group;
use crate::lots::LotStanding;
use crate::lots::event::{BatchReading, PartFrom, PartUsed, UseBy};
#[cfg(feature = "cli")]
use crate::lots::recall::PulledLot;
use crate::properties::of_target;
use crate::report::lots::{Left, LotView};
use crate::units::display::{grouped, short};
use crate::vocabulary::Word;

use super::guest_words::beside_for_a_guest;
use super::ml_text;

pub(in crate::render) fn day(day: NaiveDate) -> String {
    day.format("%a %-d %b %Y").to_string()
}

/// A date in words, with its reason.
pub(in crate::render) fn date(use_by: &UseBy) -> String {
    let because = use_by.because.as_ref().map_or_else(String::new, |why| format!(": {why}"));
    match (use_by.day, &use_by.refused, use_by.days_left_when_thawed) {
        (_, Some(why), _) => format!("no date: {why}"),
        (Some(last), None, _) if use_by.best_before => format!("best before {}{because}", day(last)),
        (Some(last), None, _) => format!("USE BY {}{because}", day(last)),
        (None, None, Some(left)) => format!("frozen, {left} days left when it is thawed"),
        (None, None, None) => "the count stops there".to_owned(),
    }
}

pub(in crate::render) fn standing(view: &LotView) -> &'static str {
    match view.standing {
        LotStanding::InUse => "there",
        LotStanding::UsedUp => "used up",
        LotStanding::Discarded => "thrown away",
    }
}

/// That a lot was pulled, and what nobody is to use before he asked.
#[cfg(feature = "cli")]
pub(crate) fn pulled(of: &PulledLot<'_>) -> String {
    let PulledLot { lot, why } = of;
    let product = &lot.recorded.product;
    format!(
        "Lot {} of {product} was pulled: {why}. Use nothing of it, and of other lots of {product} nothing before you have asked.",
        lot.lot
    )
}

/// Of what was made or went in something was there: nothing stands for what the book does not know.
fn grams(mass_g: f64, decimals: usize) -> String {
    if mass_g > 0.0 { format!("{} g", grouped(mass_g, decimals)) } else { "amount not told".to_owned() }
}

/// When, by whom and how much.
pub(in crate::render) fn made(view: &LotView) -> String {
    let volume = view.volume_ml.map_or_else(String::new, |ml| format!(" = {}", ml_text(ml)));
    let filled = view.containers.zip(view.each_ml);
    let filled = filled.map_or_else(String::new, |(count, ml)| format!(", {count} x {}", ml_text(ml)));
    let back =
        if view.kept_back > 0 { format!(", {} to be tasted, not for service", view.kept_back) } else { String::new() };
    let by = view.maker.as_ref().map_or_else(String::new, |maker| format!(" by {maker}"));
    format!("{}{by}: {}{volume}{filled}{back}", day(view.made), grams(view.mass_g, 0))
}

/// Where it is, and whether it is there.
pub(in crate::render) fn kept(view: &LotView) -> String {
    let opened = view.opened.map_or_else(String::new, |on| format!(", opened {}", day(on)));
    let left = view.left.map_or_else(String::new, |of| format!(", {} ({NOT_SERVED})", left(&of)));
    format!("{}, {}{opened}{left}", view.store, standing(view))
}

/// What the book does not know of it.
pub(in crate::render) const NOT_SERVED: &str = "what is served by the glass is not on the book";

/// What is left by the book.
pub(in crate::render) fn left(of: &Left) -> String {
    format!("about {} left", of.ml.map_or_else(|| format!("{} g", grouped(of.g, 0)), ml_text))
}

/// A reading with its unit and its instrument.
pub(in crate::render) fn reading(read: &BatchReading) -> String {
    let [before, after] = of_target(read.of).in_a_line;
    let by = read.by.map_or_else(String::new, |by| format!(" by {}", by.word()));
    format!("{before}{}{after}{by}", short(read.value))
}

pub(in crate::render) fn allergens(view: &LotView) -> String {
    let named = allergens_by_group(&view.allergens);
    let open = view.allergens_not_stated.join(", ");
    let said = match (named.is_empty(), open.is_empty()) {
        (true, true) => "no allergen named".to_owned(),
        (false, true) => named,
        (true, false) => format!("not stated: {open}"),
        (false, false) => format!("{named}, not stated: {open}"),
    };
    said + &beside_for_a_guest(&view.guest)
}

pub(in crate::render) fn from(part: &PartUsed) -> String {
    let grams = grams(part.mass_g, usize::from(part.mass_g < 20.0));
    match &part.from {
        PartFrom::Lot(code) if part.assumed => {
            format!("{grams}, taken as lot {code}, the only one in date: `tell` says another")
        }
        PartFrom::Lot(code) => format!("{grams}, lot {code}"),
        PartFrom::Day(on) => format!("{grams}, of {}", day(*on)),
        PartFrom::Batch(code) => format!("{grams}, batch {code}"),
        PartFrom::NotTold if part.dated => format!("{grams}, DAY NOT TOLD"),
        PartFrom::NotTold => grams,
    }
}
