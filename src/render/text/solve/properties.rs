//! What the batch is, how sure that is, and what spoils it most.

use crate::card::TargetKind;
use crate::report::solve::SolveView;
use crate::report::solve::label_grade::Standing;
use crate::report::solve::serving::Serving;
use crate::safety::label::CHECK_LOCALLY;
use crate::units::display::grouped;

use super::{maybe, table};

pub(super) fn properties(view: &SolveView) -> String {
    let p = &view.as_weighed.properties;
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, text: String| rows.push((name.to_owned(), text));
    let at = grouped(p.temperature_c, usize::from(p.temperature_c.fract() != 0.0));
    let doubt = |kind, decimals| {
        view.doubt.find(kind).map_or_else(String::new, |d| format!(" ± {}", half_width(d.half_width, decimals)))
    };
    if let Some(brix) = p.brix.filter(|b| *b >= 0.05) {
        let shows = p.refractometer_brix.map_or_else(
            || "no refractometer reading can be given".to_owned(),
            |r| format!("a refractometer shows {} at {at} °C", grouped(r, 1)),
        );
        say("Brix", format!("{}{}   {shows}", grouped(brix, 1), doubt(TargetKind::Brix, 1)));
    }
    if let Some(abv) = p.abv_pct.filter(|a| *a >= 0.005) {
        let proof = p.us_proof.map_or_else(String::new, |x| format!(" (US proof {})", grouped(x, 1)));
        say("ABV", format!("{}{} %{proof}", grouped(abv, 1), doubt(TargetKind::Abv, 1)));
    }
    if let Some(sugar) = p.sugar_g_l.filter(|x| *x >= 0.5) {
        say("sugar", format!("{}{} g/L", grouped(sugar, 0), doubt(TargetKind::Sugar, 0)));
    }
    if let Some(acid) = p.acid_g_l.filter(|x| *x >= 0.05) {
        say("acid", format!("{}{} g/L titratable, as citric", grouped(acid, 1), doubt(TargetKind::Acid, 1)));
    }
    if let (Some(ph), Some(low), Some(high)) = (p.ph, p.ph_low, p.ph_high) {
        say("pH", ph_text(ph, low, high));
    }
    if let Some(density) = p.density_kg_m3 {
        say("density", format!("{} kg/m³ at {at} °C", grouped(density, 1)));
    }
    say(
        "water activity",
        match (p.water_activity, p.water_activity_upper) {
            (Some(aw), Some(upper)) => format!("{} (cautious {})", grouped(aw, 3), grouped(upper, 3)),
            _ => "not known".to_owned(),
        },
    );
    if p.density_kg_m3.is_some() {
        say("boils at", maybe(p.boiling_point_c, 1, " °C"));
    }
    if let Some(flash) = p.flash_point_c {
        say("flash point", format!("about {} °C: no flame near it", grouped(flash, 0)));
    }
    if let Some(serving) = &view.serving {
        say("a measure", serving_text(serving));
    }
    table::pairs(&rows) + &most_of_the_doubt(view) + &label_grades(view)
}

/// Limits that a product may rest on: FDA Food Code 2022 table 1-201.10(B) of potentially hazardous food, 4.2 and 4.6.
const PH_LIMITS: [f64; 2] = [4.2, 4.6];
/// Nearer than this to a limit a computed pH is not enough (ours: twice the error of a pocket meter, and some).
const PH_NEAR: f64 = 0.3;

/// A pH with its edges, rounded outwards; with the advice to measure where an edge comes near a limit.
fn ph_text(ph: f64, low: f64, high: f64) -> String {
    let (low_shown, high_shown) = ((10.0 * low + 1e-9).floor() / 10.0, (10.0 * high - 1e-9).ceil() / 10.0);
    let near = PH_LIMITS.into_iter().find(|limit| low - PH_NEAR <= *limit && *limit <= high + PH_NEAR);
    let advice = near.map_or_else(String::new, |limit| format!(": near {limit}, measure it"));
    format!("{} ({} to {}){advice}", grouped(ph, 1), grouped(low_shown, 1), grouped(high_shown, 1))
}

/// Whether the strength is good enough for a label.
fn label_grades(view: &SolveView) -> String {
    let mut out = String::new();
    for grade in &view.label_tolerance {
        let said = match grade.standing {
            Standing::Within => "the doubt is within it, if the label strength of the spirit holds",
            Standing::WithinButForSpirit => {
                "the doubt is larger, and within it only if the label strength of the spirit is exact: \
                 not good enough for a label"
            }
            Standing::Larger => "the doubt is larger: not good enough for a label",
        };
        let head = format!("label tolerance {} points ({}): ", grouped(grade.points, 1), grade.markets);
        out.push_str(&table::wrapped("  ", &format!("{head}{said}; {CHECK_LOCALLY}")));
    }
    out
}

/// A half-width, rounded up: a doubt is not made smaller by printing it.
pub(in crate::render::text) fn half_width(width: f64, decimals: usize) -> String {
    let unit = 10f64.powi(i32::try_from(decimals).unwrap_or(0));
    grouped((width * unit - 1e-9).ceil() / unit, decimals)
}

/// What spoils the headline numbers most, and what to do about it.
fn most_of_the_doubt(view: &SolveView) -> String {
    let said: Vec<String> = view
        .doubt
        .0
        .iter()
        // Only of what is shown: a spirit without sugar has a Brix of nothing, give or take next to nothing.
        .filter(|d| match d.kind {
            TargetKind::Brix => view.as_weighed.properties.brix.is_some_and(|b| b >= 0.05),
            _ => true,
        })
        .filter_map(|d| {
            let most = d.budget.first()?;
            let name = doubt_name(d.kind);
            let decimals = usize::from(d.kind != TargetKind::Sugar);
            let then =
                most.then_half_width.map_or_else(String::new, |w| format!(": then ± {}", half_width(w, decimals)));
            let share = grouped(100.0 * most.of_variance, 0);
            Some(table::wrapped("  ", &format!("± of {name}: {share} % from {}; {}{then}", most.what, most.remedy)))
        })
        .collect();
    if said.is_empty() { String::new() } else { format!("  (± at 95 %)\n{}", said.concat()) }
}

pub(in crate::render::text) fn doubt_name(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Brix => "Brix",
        TargetKind::Abv => "ABV",
        TargetKind::Sugar => "sugar",
        TargetKind::Acid => "acid",
        TargetKind::Ph => "pH",
    }
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
