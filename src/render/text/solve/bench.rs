//! The sheet for the bench: what stops it, what to weigh, how to finish it, what to tell a guest and by when to use it.

use crate::properties::{TargetKind, of_target};
use crate::report::solve::stage::StageView;
use crate::report::solve::{SolveReport, SolveView};
use crate::uncertainty::find;
use crate::units::celsius;
use crate::units::display::{grouped, temperature_text};
use crate::vocabulary::MeasureSystem;

use super::super::guest_words::beside_for_a_guest;
use super::super::table::{self, wrapped};
use super::super::warned::warnings;
use super::super::{Page, ml_text, stops};
use super::{beside, lines, properties};

/// Longer than this the assumptions are only begun: the rest stands on the full page (ours).
const BRIEF: usize = 110;

pub(super) fn sheet(report: &SolveReport, view: &SolveView) -> String {
    let mut out = stops(&view.cautions);
    out.push_str(&wrapped("", &format!("{} · {}", report.product(), made(view))));
    out.extend(view.unidentified.iter().map(|open| wrapped("  ? ", &open.question)));
    out.extend(view.steps_ask.iter().map(|asked| wrapped("  ? ", asked)));
    out.push_str(&warnings(&view.cautions));
    out.extend(view.crystallises.iter().map(|said| wrapped("  ! ", said)));
    for stage in &view.stages {
        out.push_str(&to_weigh(stage, view.measures));
    }
    out.push_str(&finish(view));
    out.push_str(&super::room::room(view, false));
    if let Some(is) = is(view) {
        out.push_str(&wrapped("Is ", &is));
    }
    out.push_str(&wrapped("Allergens: ", &view.allergens.told_beside(&beside_for_a_guest(&view.guest))));
    if let Some(keeping) = &view.keeping {
        out.push_str(&wrapped("Keep: ", &keeping.says));
        out.extend(view.recipe_keeps.iter().map(|said| wrapped("  the recipe says ", said)));
    }
    // a step that ends without a mark would run into the next
    let end = |step: &str| if step.ends_with(['.', '!', '?', ':', ';']) { "" } else { "." };
    let numbered = view.method.iter().zip(1..).map(|(step, number)| format!("{number}. {step}{}", end(step)));
    let method: Vec<String> = numbered.collect();
    out.push_str(&if method.is_empty() { String::new() } else { wrapped("Method: ", &method.join(" ")) });
    out.extend(view.for_a_guest.iter().map(|how| wrapped("For a guest: ", how)));
    let checks = checks(view);
    if !checks.is_empty() {
        out.push_str(&wrapped("Check: ", &checks.join("; ")));
    }
    if let Some(assumed) = assumed(&view.assumed) {
        out.push_str(&wrapped("Assumed: ", &assumed));
    }
    out + "More: --full. Every store: stillroom date. No certificate.\n"
}

fn made(view: &SolveView) -> String {
    let made = &view.as_weighed.yields;
    let ounces = |ml| view.measures.and_then(|system| beside::ounces_of(ml, system));
    let volume = made.volume_ml.map_or_else(String::new, |ml| {
        let ounces = ounces(ml).map_or_else(String::new, |ounces| format!(" ({ounces})"));
        format!(" = {}{ounces}", ml_text(ml))
    });
    let pieces = view.pieces.map_or_else(String::new, |pieces| format!(" = {}", lines::pieces_words(pieces)));
    let asked = asked_words(view).map_or_else(String::new, |asked| format!(" ({asked})"));
    format!("makes {} g{volume}{pieces}{asked}", grouped(made.mass_g, 0))
}

/// "39 % more than the 946 ml asked for", where the sheet makes another size.
pub(in crate::render) fn asked_words(view: &SolveView) -> Option<String> {
    let makes = view.makes?;
    let off = super::off_what_is_asked(view, makes).filter(|off| off.abs() > lines::LEFT)?;
    let (percent, word) = (grouped(100.0 * off.abs(), 0), if off > 0.0 { "more" } else { "less" });
    Some(format!("{percent} % {word} than the {} asked for", super::size(makes)))
}

fn to_weigh(stage: &StageView, measures: Option<MeasureSystem>) -> String {
    let name = stage.stage.as_deref().unwrap_or("add");
    let takes = stage.takes.as_ref().map_or_else(String::new, |takes| format!(", {takes}"));
    if stage.nothing_needed {
        return wrapped("  ", &format!("{name}: nothing of it is needed for this batch, do not make it"));
    }
    let any_ml = stage.lines.iter().any(|line| line.volume_ml.is_some());
    let mut rows = vec![row(&format!("{name}{takes}"), "g", any_ml.then_some("ml"), "scale")];
    for line in &stage.lines {
        let ml = line.poured_ml().map_or_else(|| "-".to_owned(), |ml| grouped(ml, usize::from(ml < 20.0)));
        let grams = lines::poured(line);
        let name = lines::named(line);
        rows.push(row(&name, &grams, any_ml.then_some(&ml), &lines::reads(line, true)));
    }
    // Where a name leaves no room for one more column, ounces are written shorter, then stand for the millilitres.
    let short = |cells: &[String]| cells.iter().map(|cell| beside::short_ounces(cell)).collect::<Vec<String>>();
    let ounces = stage.lines.iter().map(|line| beside::line(line, measures?)).collect::<Option<Vec<String>>>();
    let shapes =
        ounces.into_iter().flat_map(|long| [(long.clone(), false), (short(&long), false), (short(&long), any_ml)]);
    let wide = shapes.map(|(cells, in_place)| table::columns(&with_ounces(&rows, cells, in_place)));
    let fits = |table: &String| table.lines().all(|line| line.chars().count() <= Page::NARROWEST);
    let mut out = wide.into_iter().find(fits).unwrap_or_else(|| table::columns(&rows));
    out.extend(stage.lines.iter().map(lines::weighing_note));
    let mut then = Vec::new();
    then.extend(stage.heated.map(|heated| format!("heat to {}", lines::heated_words(heated))));
    then.extend(stage.finish.as_ref().map(lines::finish_brief));
    then.extend(stage.strained.map(|s| format!("strain: wet solids about {} g", grouped(s.wet_g, 0))));
    then.extend(stage.stage.as_ref().map(|_| format!("gives {} g", grouped(stage.gives_g, 0))));
    if !then.is_empty() {
        out.push_str(&wrapped("  > ", &then.join("; ")));
    }
    out
}

/// The rows with one more cell each before what the scale reads, or with it in the place of the millilitres.
fn with_ounces(rows: &[Vec<String>], ounces: Vec<String>, in_place: bool) -> Vec<Vec<String>> {
    let heads = std::iter::once("oz".to_owned()).chain(ounces);
    let with = |(row, ounces): (&Vec<String>, String)| {
        let (last, front) = row.split_last()?;
        let kept = front.iter().take(front.len() - usize::from(in_place)).cloned();
        Some(kept.chain([ounces, last.clone()]).collect())
    };
    rows.iter().zip(heads).filter_map(with).collect()
}

fn row(name: &str, grams: &str, ml: Option<&str>, reads: &str) -> Vec<String> {
    let cells = [Some(name), Some(grams), ml, Some(reads)];
    cells.into_iter().flatten().map(str::to_owned).collect()
}

fn finish(view: &SolveView) -> String {
    let [dosing, made_up, needs] = finish_words(view);
    let dosing = dosing.iter().map(|said| wrapped("  ", said));
    let fills = view.fill.iter().map(lines::fill_words);
    dosing.chain(made_up.into_iter().chain(fills).chain(needs).map(|said| wrapped("  > ", &said))).collect()
}

/// How acid is dosed, how it is made by the jug, and which other cards it needs, a sentence each.
pub(in crate::render) fn finish_words(view: &SolveView) -> [Vec<String>; 3] {
    let made_up = view.make_up.iter().map(|make_up| {
        let (to, with) = (ml_text(make_up.to_ml), &make_up.with);
        format!("or by the jug: all but the {with}, then {with} up to {to} at 20 °C")
    });
    let needs = view.inner.iter().filter(|inner| inner.weighed_g > 0.0);
    let needs =
        needs.map(|inner| format!("needs {} g of {}, by its own card", lines::needed(inner.weighed_g), inner.formula));
    [lines::dosing_words(&view.dosing), made_up.collect(), needs.collect()]
}

/// What the batch is, in the numbers that a bar goes by.
pub(in crate::render) fn is(view: &SolveView) -> Option<String> {
    let p = &view.as_weighed.properties;
    let kinds = [TargetKind::Abv, TargetKind::Sugar, TargetKind::Brix, TargetKind::Acid, TargetKind::Ph];
    let said = kinds.into_iter().filter_map(|kind| {
        let property = of_target(kind);
        let value = (property.value)(p).filter(|value| *value >= property.least)?;
        // less than a digit of what is printed is not worth a column
        let last_digit = 0.1f64.powi(i32::try_from(property.decimals).unwrap_or(0));
        let sure = find(&view.doubt, kind).filter(|u| u.half_width >= last_digit);
        let sure = sure
            .map_or_else(String::new, |u| format!(" ± {}", properties::half_width(u.half_width, property.decimals)));
        let [before, after] = property.in_a_line;
        if let Some([least, most]) = view.abv_between_pct.filter(|_| kind == TargetKind::Abv) {
            return Some(format!(
                "{before}{} to {}{after} (heat drives it off: read it)",
                grouped(least, 0),
                grouped(most, 1)
            ));
        }
        Some(format!("{before}{}{sure}{after}", grouped(value, property.decimals)))
    });
    let said: Vec<String> = said.collect();
    (!said.is_empty()).then(|| said.join(", "))
}

/// The three checks: what 100 ml weighs, what a refractometer shows, and what to add where it shows something else.
pub(in crate::render) fn checks(view: &SolveView) -> Vec<String> {
    let mut said = Vec::new();
    said.extend(view.checks.hundred_ml_g.map(|g| format!("100 ml weighs {} g", grouped(g, 1))));
    // of a spirit without sugar it shows nothing that anybody would check by
    let has_sugar = (of_target(TargetKind::Brix).value)(&view.as_weighed.properties).is_some_and(|brix| brix >= 1.0);
    let shows = view.checks.refractometer_brix.filter(|shown| *shown >= 1.0 && has_sugar);
    said.extend(
        shows
            .map(|shown| format!("a refractometer shows {} at {}", grouped(shown, 1), temperature_text(celsius(20.0)))),
    );
    let fixes = view.fixes.iter().filter(|fix| fix.off_brix.abs() == 1.0);
    said.extend(fixes.map(|fix| {
        let word = if fix.off_brix > 0.0 { "high" } else { "low" };
        format!("1 {word}: add {} g {}", grouped(fix.add_g, 0), fix.of)
    }));
    said
}

/// What the numbers rest on, as far as there is room: the first in any case, without its range and its source where it is long, and how
/// many more there are. The last line of the sheet says where all stand.
fn assumed(all: &[String]) -> Option<String> {
    let first = all.first()?.as_str();
    if first.len() > BRIEF {
        let more = all.len() - 1;
        let brief = first.split_once(" (").map_or(first, |(said, _)| said).to_owned();
        return Some(if more > 0 { format!("{brief}; {more} more") } else { brief });
    }
    let mut room = BRIEF;
    let fits = all.iter().map(String::as_str).take_while(|said| {
        let fits = said.len() <= room;
        room = room.saturating_sub(said.len());
        fits
    });
    let fits: Vec<&str> = fits.collect();
    let more = all.len() - fits.len();
    let more = (more > 0).then(|| format!("{more} more, --full"));
    Some(fits.into_iter().chain(more.as_deref()).collect::<Vec<_>>().join("; "))
}
