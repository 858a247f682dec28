//! What the batch is, how sure that is, and what spoils it most.

use crate::properties::{Property, SHEET, TargetKind, of_target};
use crate::report::solve::SolveView;
use crate::report::solve::bench::Serving;
use crate::report::solve::label_grade::LabelStanding;
use crate::safety::label::CHECK_LOCALLY;
use crate::uncertainty::find;
use crate::units::display::grouped;

use super::table;

pub(super) fn properties(view: &SolveView) -> String {
    let mut rows: Vec<(String, String)> =
        SHEET.iter().filter_map(|property| Some((property.label.to_owned(), said(property, view)?))).collect();
    if let Some(serving) = &view.serving {
        rows.push(("a measure".to_owned(), serving_text(serving)));
    }
    table::pairs(&rows) + &most_of_the_uncertainty(view) + &label_grades(view)
}

/// One property: number, uncertainty, unit, remark. `None` where there is next to nothing of it.
fn said(property: &Property, view: &SolveView) -> Option<String> {
    let p = &view.as_weighed.properties;
    let Some(value) = (property.value)(p) else { return (property.said_unknown)(p).then(|| "not known".to_owned()) };
    let sure = property.target.and_then(|kind| find(&view.doubt, kind));
    let sure = sure.map_or_else(String::new, |u| format!(" ± {}", half_width(u.half_width, property.decimals)));
    let number = grouped(value, property.decimals);
    (value >= property.least)
        .then(|| format!("{}{number}{sure}{}{}", property.before, property.after, (property.remark)(p)))
}

fn label_grades(view: &SolveView) -> String {
    let mut out = String::new();
    for grade in &view.label_tolerance {
        let said = match grade.standing {
            LabelStanding::Within => "the doubt is within it, if the label strength of the spirit holds",
            LabelStanding::WithinButForSpirit => {
                "the doubt is larger, and within it only if the label strength of the spirit is exact: \
                 not good enough for a label"
            }
            LabelStanding::Larger => "the doubt is larger: not good enough for a label",
        };
        let head = format!("label tolerance {} points ({}): ", grouped(grade.points, 1), grade.markets);
        out.push_str(&table::wrapped("  ", &format!("{head}{said}; {CHECK_LOCALLY}")));
    }
    out
}

/// A half-width, rounded up: an uncertainty is not made smaller by printing it.
pub(in crate::render::text) fn half_width(width: f64, decimals: usize) -> String {
    let unit = 10f64.powi(i32::try_from(decimals).unwrap_or(0));
    grouped((width * unit - 1e-9).ceil() / unit, decimals)
}

fn most_of_the_uncertainty(view: &SolveView) -> String {
    let has_brix = view.as_weighed.properties.brix.is_some_and(|b| b >= 0.05);
    // Only of what is shown: a spirit without sugar has a Brix of nothing, give or take next to nothing.
    let shown = view.doubt.iter().filter(|u| u.kind != TargetKind::Brix || has_brix);
    let said = shown.filter_map(|u| {
        let most = u.shares.first()?;
        let property = of_target(u.kind);
        let then = most.then_half_width.map(|w| format!(": then ± {}", half_width(w, property.decimals)));
        let (name, then, share) = (property.label, then.unwrap_or_default(), grouped(100.0 * most.of_variance, 0));
        Some(table::wrapped("  ", &format!("± of {name}: {share} % from {}; {}{then}", most.what, most.remedy)))
    });
    let said: String = said.collect();
    if said.is_empty() { said } else { format!("  (± at 95 %)\n{said}") }
}

fn serving_text(serving: &Serving) -> String {
    let mut parts = vec![format!("{} ml", crate::units::display::short(serving.ml))];
    if let Some(sugar) = serving.sugar_g.filter(|g| *g >= 0.05) {
        parts.push(format!("{} g sugar", grouped(sugar, 1)));
    }
    if let Some((units, drinks)) = serving.uk_units.zip(serving.us_drinks).filter(|(u, _)| *u >= 0.005) {
        parts.push(format!("{} UK units", grouped(units, 2)));
        parts.push(format!("{} US drinks", grouped(drinks, 2)));
    }
    if let Some((kj, kcal)) = serving.energy_kj.zip(serving.energy_kcal).filter(|(kj, _)| *kj >= 0.5) {
        parts.push(format!("{} kJ / {} kcal", grouped(kj, 0), grouped(kcal, 0)));
    }
    parts.join(", ")
}
