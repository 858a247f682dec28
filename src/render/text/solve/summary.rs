//! What it makes, and how it is dosed, bottled and made by the jug.

use crate::report::solve::SolveView;
use crate::report::solve::dosing::Dose;
use crate::units::display::{grouped, volume_text};
use crate::units::millilitres;

/// Acid beside a juice goes in by taste.
pub(super) fn dosing(doses: &[Dose]) -> String {
    let listed = |of: &dyn Fn(&Dose) -> Option<f64>| -> Option<String> {
        let each: Option<Vec<_>> = doses.iter().map(|d| Some(format!("{} {} g", d.of, grouped(of(d)?, 1)))).collect();
        each.filter(|each| !each.is_empty()).map(|each| each.join(", "))
    };
    let Some(first) = listed(&|d| Some(d.first_g)) else { return String::new() };
    let mut out = format!("  dose 90 % of the acid ({first}), taste, then finish (common practice, no source)\n");
    if let Some(each) = listed(&|d| d.g_per_litre_of_juice) {
        out.push_str(&format!("  a litre of the juice takes {each}; the volume that this adds is counted\n"));
    }
    out
}

pub(super) fn yield_text(view: &SolveView) -> String {
    let made = &view.as_weighed.yields;
    let grams = grouped(made.mass_g, 0);
    let volume = made.volume_ml.map_or_else(String::new, |ml| format!(" = {}", volume_text(millilitres(ml))));
    let behind: f64 = view.stages.iter().map(|stage| stage.stays_behind_g).sum();
    let lost =
        if behind >= 0.5 { format!(" ({} g stays in pan and funnel)", grouped(behind, 0)) } else { String::new() };
    let mut out = format!("\n  makes {grams} g{volume}{lost}\n");
    if let (true, Some(ml)) = (behind >= 0.5, view.pan.volume_ml) {
        let (grams, volume) = (grouped(view.pan.mass_g, 0), volume_text(millilitres(ml)));
        out.push_str(&format!("  in the pan {grams} g = {volume} at 20 °C, before any of it stays behind\n"));
    }
    if let Some(fills) = &view.fill {
        out.push_str(&format!(
            "  fill {} bottles with {} g each ({} ml at 20 °C); the last one is full\n",
            grouped(fills.count, 0),
            grouped(fills.each_g, 0),
            grouped(fills.each_ml, 0),
        ));
    }
    if let Some(make_up) = &view.make_up {
        let shrinks = make_up
            .shrinks_ml
            .filter(|ml| *ml >= 0.5)
            .map_or_else(String::new, |ml| format!("; poured apart and added it would be {} ml short", grouped(ml, 0)));
        out.push_str(&format!(
            "  by the jug: put in the rest, then make up to {} with {} at 20 °C{shrinks}\n",
            volume_text(millilitres(make_up.to_ml)),
            make_up.with,
        ));
    }
    if let Some(vessel) = view.vessel_l {
        out.push_str(&format!("  smallest usual vessel with room to stir: {vessel} L\n"));
    }
    for inner in view.inner.iter().filter(|inner| inner.weighed_g > 0.0) {
        out.push_str(&format!("  needs {} g of {} (its own card)\n", grouped(inner.weighed_g, 0), inner.formula));
    }
    out
}
