//! The weigh sheet: for the bench, or in full.

pub(in crate::render) mod bench;
mod beside;
pub(in crate::render) mod lines;
mod properties;
mod room;

use crate::card::Makes;
use crate::diagnostic::Code;
use crate::report::caution::waiting;
use crate::report::solve::{SolveReport, SolveView};
use crate::safety::Level;
use crate::solver::asked_ml;
use crate::units::display::{grouped, volume_text};
use crate::units::{in_grams, in_millilitres};

pub(super) use properties::half_width;

use super::guest_words::beside_for_a_guest;
use super::{Page, ml_text, notes_but, table};

/// The sheet for the bench; on a full page everything that is said of the batch.
pub fn solve(report: &SolveReport, page: Page) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let text = if page.full { in_full(report, view) } else { bench::sheet(report, view) };
    page.fit(&beside::with_fahrenheit(&text, view.measures))
}

fn in_full(report: &SolveReport, view: &SolveView) -> String {
    let mut out = super::stops(&view.cautions);
    let asked = view.makes.map_or_else(String::new, |makes| format!(" · {}", title_size(view, makes)));
    out.push_str(&format!("\n{}{asked}\n", report.product()));
    for stage in &view.stages {
        out.push('\n');
        out.push_str(&lines::stage_text(stage));
    }
    out.push_str(&lines::dosing(&view.dosing));
    out.push_str(&yield_text(view));
    out.push_str(&room::room(view, true));
    out.push('\n');
    out.push_str(&properties::properties(view));
    out.push_str(&checks(view));
    out.push_str(&crystals(view));
    out.push_str(&method(view));
    out.push_str(&notes_but(report.findings(), |note| note.code == Code::DoesNotApply));
    out.push_str(&keeping(view));
    out
}

/// The size in the title: what was asked for, where that is what the sheet makes.
fn title_size(view: &SolveView, makes: Makes) -> String {
    let made = &view.as_weighed.yields;
    let said = match makes {
        Makes::Mass(_) => Some(format!("{} g", grouped(made.mass_g, 0))),
        _ => made.volume_ml.map(ml_text),
    };
    match (said, off_what_is_asked(view, makes)) {
        (Some(said), Some(off)) if off.abs() > lines::LEFT => format!("makes {said} (asked for: {})", size(makes)),
        _ => size(makes),
    }
}

/// How much more the sheet makes than was asked for, as a share.
fn off_what_is_asked(view: &SolveView, makes: Makes) -> Option<f64> {
    let made = &view.as_weighed.yields;
    let (asked, made) = match makes {
        Makes::Mass(mass) => (in_grams(mass), made.mass_g),
        other => (asked_ml(&other), made.volume_ml?),
    };
    Some(made / asked - 1.0)
}

fn size(makes: Makes) -> String {
    match makes {
        Makes::Volume(volume) => volume_text(volume),
        Makes::Mass(mass) => format!("{} g", grouped(in_grams(mass), 0)),
        Makes::Bottles { count, each } => {
            format!("{} x {} ml", grouped(count, 0), grouped(in_millilitres(each), 0))
        }
    }
}

fn yield_text(view: &SolveView) -> String {
    let made = &view.as_weighed.yields;
    let behind: f64 = view.stages.iter().map(|stage| stage.stays_behind_g).sum();
    let stays = behind >= 0.5;
    let volume = made.volume_ml.map_or_else(String::new, |ml| format!(" = {}", ml_text(ml)));
    let pieces = view.pieces.map_or_else(String::new, |pieces| format!(" = {}", lines::pieces_words(pieces)));
    let lost = if stays { format!(" ({} g stays in pan and funnel)", grouped(behind, 0)) } else { String::new() };
    let mut out = table::wrapped("\n  ", &format!("makes {} g{volume}{lost}{pieces}", grouped(made.mass_g, 0)));
    if let Some(ml) = view.pan.volume_ml.filter(|_| stays) {
        let (grams, volume) = (grouped(view.pan.mass_g, 0), ml_text(ml));
        out.push_str(&table::wrapped(
            "  ",
            &format!("in the pan {grams} g = {volume} at 20 °C, before any of it stays behind"),
        ));
    }
    if let Some(fills) = &view.fill {
        out.push_str(&table::wrapped("  ", &lines::fill_words(fills)));
    }
    if let Some(make_up) = &view.make_up {
        let short = |ml: f64| format!("; poured apart and added it would be {} ml short", grouped(ml, 0));
        let shrinks = make_up.shrinks_ml.filter(|ml| *ml >= 0.5).map_or_else(String::new, short);
        let (to, with) = (ml_text(make_up.to_ml), &make_up.with);
        out.push_str(&table::wrapped(
            "  ",
            &format!("by the jug: put in the rest, then make up to {to} with {with} at 20 °C{shrinks}"),
        ));
    }
    if let Some(vessel) = view.vessel_l {
        out.push_str(&table::wrapped("  ", &format!("smallest usual vessel with room to stir: {vessel} L")));
    }
    for inner in view.inner.iter().filter(|inner| inner.weighed_g > 0.0) {
        out.push_str(&table::wrapped(
            "  ",
            &format!("needs {} g of {} (its own card)", lines::needed(inner.weighed_g), inner.formula),
        ));
    }
    out
}

fn checks(view: &SolveView) -> String {
    let weighs = |g| ("100 ml weighs", format!("{} g at 20 °C", grouped(g, 1)));
    let shows =
        |thin| ("thinned 1:1", format!("by weight with water a refractometer shows {} at 20 °C", grouped(thin, 1)));
    let thinned = view.checks.refractometer_brix_thinned.filter(|r| *r >= 0.5);
    let rows: Vec<_> = view.checks.hundred_ml_g.map(weighs).into_iter().chain(thinned.map(shows)).collect();
    let mut out = if rows.is_empty() { String::new() } else { format!("\nChecks\n{}", table::pairs(&rows)) };
    let fixes = view.fixes.iter().map(|f| {
        let word = if f.off_brix > 0.0 { "high" } else { "low" };
        let reads = format!("reads {} °Bx {word}", grouped(f.off_brix.abs(), 0));
        vec![reads, format!("add {} g {}", grouped(f.add_g, 0), f.of)]
    });
    if !view.fixes.is_empty() {
        out.push_str("If the reading is off\n");
        out.push_str(&table::columns(&fixes.collect::<Vec<_>>()));
    }
    out
}

fn crystals(view: &SolveView) -> String {
    let Some(crystals) = &view.crystals else { return String::new() };
    let mut out = String::from("\nCrystals\n");
    if let Some(starts) = crystals.starts_c {
        out.push_str(&format!("  saturated below about {} °C\n", grouped(starts, 0)));
    }
    for store in &crystals.stores {
        let said = match store.crystals_g_per_kg {
            Some(g) if g >= 0.5 => format!("throws up to {} g of crystals a kilo", grouped(g, 0)),
            Some(_) => "stays clear".to_owned(),
            None => "not known".to_owned(),
        };
        out.push_str(&format!("  {} ({} °C): {said}\n", store.store, grouped(store.temperature_c, 0)));
    }
    if let (Some(ratio), Some(brix), Some(store)) =
        (crystals.richest_ratio, crystals.richest_brix, &crystals.richest_in)
    {
        let (ratio, brix) = (grouped(ratio, 2), grouped(brix, 1));
        let clear = format!("richest that stays clear in the {store}");
        out.push_str(&format!("  {clear}: {ratio} : 1 sugar to water by weight ({brix} °Bx)\n"));
    }
    out + &crystals.note.map_or_else(String::new, |note| format!("  {note}\n"))
}

fn method(view: &SolveView) -> String {
    let mut out = String::from(if view.method.is_empty() { "" } else { "\nMethod\n" });
    out.extend(view.method.iter().zip(1..).map(|(step, number)| table::wrapped(&format!("  {number}. "), step)));
    let assumed = (!view.assumed.is_empty()).then(|| view.assumed.join("; "));
    for (name, text) in
        [("Note", &view.note), ("For a guest", &view.for_a_guest), ("Source", &view.source), ("Assumed", &assumed)]
    {
        out.extend(text.iter().map(|text| table::wrapped(&format!("{name}: "), text)));
    }
    out
}

/// The date where it is planned to be kept, and the cautions: a stop in full, a warning in its words, and so a note of which
/// a guest has to be told; other notes counted.
fn keeping(view: &SolveView) -> String {
    let mut out = String::from("\nKeeping\n");
    let mut say = |head: &str, words: &str| out.push_str(&table::wrapped(head, words));
    if let Some(keeping) = &view.keeping {
        say("  ", &keeping.says);
        view.recipe_keeps.iter().for_each(|told| say("  the recipe says ", told));
    }
    view.readings.iter().for_each(|read| say("  ", read));
    say("  ALLERGENS: ", &format!("{}{}", view.allergens.allergens_say, beside_for_a_guest(&view.guest)));
    let mut notes = 0;
    for caution in view.cautions.iter().filter(|c| c.is_said_in_full()) {
        match caution.severity {
            Level::Stop => say("  STOP  ", &caution.message),
            Level::Warn => say("  warn  ", &caution.message),
            Level::Note if caution.tell => say("  tell  ", &caution.message),
            Level::Note => notes += 1,
        }
    }
    if notes > 0 {
        say("  ", &format!("and {notes} note{}", if notes == 1 { "" } else { "s" }));
    }
    for (asked, waits) in waiting(&view.cautions) {
        let many = waits.len();
        let wait = if many == 1 { "1 caution waits".to_owned() } else { format!("{many} cautions wait") };
        say("  state: ", &format!("{asked} ({wait} on it: stillroom date)"));
    }
    say("  ", "Every store, source and whom to ask: stillroom date, with this card.");
    say("  ", view.standing_note);
    out
}
