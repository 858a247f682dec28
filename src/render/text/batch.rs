//! A drink made ahead: grams for the bottles, what is added for the guest, how it stands in its store.

use crate::drinks::Slush;
use crate::drinks::batch::glasses_text;
use crate::report::batch::{AddedView, BatchReport, BottledView, DrinkBatchView};
use crate::units::display::{grouped, percent_text, short, span};

use super::ml_text;
use super::serve::{cautions, in_doubt, weighed_alike};
use super::table::{self, wrapped};

pub(crate) fn batch(report: &BatchReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.cautions);
    out.extend(view.unidentified.iter().map(|open| wrapped("first say: ", &open.question)));
    out.push_str(&wrapped(&format!("\n{} · ", report.product()), &head(view)));
    out.push_str(&table::columns(&rows(view)));
    out.push_str(&wrapped("  fill: ", &fill(view)));
    out.extend(water(view).map(|said| wrapped("  ", &said)));
    out.extend(doubts(view).iter().map(|said| wrapped("  ", said)));
    out.extend(inside(view).map(|said| wrapped("  ", &said)));
    out.extend(whole(view).map(|said| wrapped("  ", &said)));
    out.extend(left_out(view).map(|said| wrapped("  not bottled: ", &said)));
    out.push_str(&wrapped("  for a guest: ", &view.for_a_guest));
    out.push_str(&wrapped("  ", &freezes(view)));
    out.push_str(&wrapped("  ", &view.store.says));
    out.extend(as_filled(view).map(|said| wrapped("  ", &said)));
    out.push_str(&wrapped("Allergens of a glass: ", &view.allergens.allergens_say));
    out.push_str(&cautions(&view.cautions));
    out.push_str(&match &view.written {
        Some(file) => wrapped("  its card: ", &format!("{file}; its lot and label: stillroom record {file}")),
        None => wrapped("  ", "as a card, for its lot and label: -o FILE, then stillroom record FILE"),
    });
    out
}

/// The water in the bottle that the ice of a glass would give.
pub(in crate::render) fn water(view: &DrinkBatchView) -> Option<String> {
    const COLD: &str = "serve it cold, for ice would water it again";
    let left_out_g = view.water.water_left_out_g_per_glass;
    let all_g = view.water.water_g_per_glass + left_out_g.unwrap_or(0.0);
    let water = short(all_g);
    let said = match (view.water.water_range_g_per_glass, view.water.weighed_alike) {
        (None, _) => format!("{water} g of water a glass stands for its ice: {COLD}"),
        (Some((least, most)), Some(drinks)) => {
            let by = weighed_alike(drinks);
            format!(
                "{water} g of water a glass (the middle of {} g {by}) stands for its ice: {COLD}",
                span(least, most, 0)
            )
        }
        (Some((least, most)), None) => {
            // a bottle that is too thick to pour is asked for less water, and not for more
            let is_thick = !view.slush_with_most_water.pours();
            let then = if is_thick {
                "put none more into the bottle; weigh one drink before and after its ice, or taste, and what lacks goes into each glass"
            } else {
                "weigh one drink before and after its ice, or taste, and add water, for none can be taken out: a guest is poured as much more"
            };
            let strong = super::maybe(view.water.abv_with_least_water_pct, 1, "");
            let weak = super::maybe(view.water.abv_with_most_water_pct, 1, " % vol");
            format!(
                "{water} g of water a glass is the least that its ice may give, of {} g by the balance of heat: {strong} down to \
                 {weak}; {then}; then {COLD}",
                span(least, most, 0)
            )
        }
    };
    let said = match left_out_g {
        None => said,
        Some(g) => format!(
            "{said}. {} g of it go into each glass: with them the bottle is too thick to pour in the {}",
            short(g),
            view.store.store
        ),
    };
    (all_g > 0.0).then_some(said)
}

/// What of an undiluted batch is watered by its own ice all the same.
pub(in crate::render) fn whole(view: &DrinkBatchView) -> Option<String> {
    let (names, it) = match view.water.whole_inside.as_slice() {
        [] => return None,
        [one] => (one.clone(), "goes in as its card makes it, with the water of its own ice"),
        all => (all.join(", "), "go in as their cards make them, with the water of their own ice"),
    };
    Some(format!("{names} {it}"))
}

/// What the page of a glass says of the water that was weighed stands on that of its bottles as well.
pub(in crate::render) fn doubts(view: &DrinkBatchView) -> Vec<String> {
    let weighed = view.water.water_range_g_per_glass.is_none();
    in_doubt(
        weighed,
        (view.water.water_g_per_glass, view.water.glasses_weighed),
        view.water.outside_balance_g_per_glass,
    )
}

/// The water that nobody weighed of the ice of the drinks inside.
pub(in crate::render) fn inside(view: &DrinkBatchView) -> Option<String> {
    let (least, most) = view.water.ice_inside_g_per_glass.filter(|(in_bottle, most)| most > in_bottle)?;
    Some(format!(
        "{} g of water a glass is the least that the ice of the drinks inside may give, of {} g: taste, and add what lacks",
        short(least),
        span(least, most, 0)
    ))
}

/// How long it keeps where none of the water goes in that the date allows for.
pub(in crate::render) fn as_filled(view: &DrinkBatchView) -> Option<String> {
    let other = view.store_as_filled.as_ref().filter(|other| other.short != view.store.short)?;
    Some(format!(
        "that holds with all the water of its ice in the bottle. With no more than is in it now: {}. For that date the \
         water that you taste for goes into each glass, and of a card of it the line `more_water` is deleted",
        other.short
    ))
}

/// What is in no bottle, and why: "lime juice (fresh juice), egg white (egg)".
pub(in crate::render) fn left_out(view: &DrinkBatchView) -> Option<String> {
    let part = |added: &AddedView| format!("{} ({})", added.poured.of, added.why);
    let all: Vec<String> = view.at_service.iter().map(part).collect();
    (!all.is_empty()).then(|| all.join(", "))
}

/// How many glasses, how much that is, how strong.
pub(in crate::render) fn head(view: &DrinkBatchView) -> String {
    let made = view.yields.volume_ml.map_or_else(String::new, ml_text);
    let strength = super::maybe(view.abv_pct, 1, " %");
    format!("{} ahead: {made} at {strength}", glasses_text(view.glasses))
}

/// What goes in, and into each full bottle; less than one is all in the one.
pub(in crate::render) fn rows(view: &DrinkBatchView) -> Vec<Vec<String>> {
    let grams = |g: f64| grouped(g, usize::from(g < 100.0));
    let bottle = |cell: String| (view.full_bottles >= 1.0).then_some(cell);
    let row = |of: String, all: String, each: String| [of, all].into_iter().chain(bottle(each)).collect();
    let head = row("bottled".to_owned(), "g in all".to_owned(), format!("g in {} ml", short(view.filled_ml)));
    let line = |line: &BottledView| row(line.of.clone(), grams(line.mass_g), grams(line.per_bottle_g));
    std::iter::once(head).chain(view.lines.iter().map(line)).collect()
}

pub(in crate::render) fn fill(view: &DrinkBatchView) -> String {
    let (full, last) = (view.full_bottles, view.last_bottle_g);
    let each = format!("{} x {} g", grouped(full, 0), grouped(view.bottle_g, 0));
    let said = match (full >= 1.0, last >= 0.5) {
        (true, true) => format!("{each}, and {} g in the last", grouped(last, 0)),
        (true, false) => each,
        (false, _) => format!("{} g in one", grouped(last, 0)),
    };
    match view.filled_ml < view.bottle_ml {
        true => format!(
            "{said}; {} ml in a bottle of {} ml, for ice needs room",
            short(view.filled_ml),
            short(view.bottle_ml)
        ),
        false => said,
    }
}

pub(in crate::render) fn freezes(view: &DrinkBatchView) -> String {
    let Some(at) = view.freezes_c else { return "where it freezes is not known".to_owned() };
    let head = format!("ice appears at about {} °C", grouped(at, 0));
    let store = &view.store.store;
    let ice = percent_text(view.ice_share);
    match view.slush {
        Slush::Liquid => format!("{head}: in the {store} it stays liquid"),
        Slush::Pours => format!("{head}: in the {store} {ice} of it is ice, a slush that pours"),
        Slush::Thick => {
            format!("{head}: in the {store} {ice} of it is ice, too thick to pour")
        }
        Slush::Hard => {
            format!("{head}: in the {store} it freezes hard ({ice} ice) and may burst glass: bottle it stronger")
        }
    }
}
