//! What it makes, and how it is dosed, bottled and made by the jug.

use crate::sheet::Sheet;
use crate::sheet::dosing::{Dose, FIRST};
use crate::solver::card::volume_ml;
use crate::units::display::{grouped, volume_text};
use crate::units::millilitres;

/// Acid beside a juice goes in by taste.
pub(super) fn dosing(s: &Sheet) -> String {
    let listed = |of: &dyn Fn(&Dose) -> Option<f64>| -> Option<String> {
        let each: Option<Vec<_>> =
            s.dosing.iter().map(|d| Some(format!("{} {} g", d.label, grouped(of(d)?, 1)))).collect();
        each.filter(|each| !each.is_empty()).map(|each| each.join(", "))
    };
    let Some(first) = listed(&|d| Some(FIRST * d.grams)) else { return String::new() };
    let mut out = format!("  dose 90 % of the acid ({first}), taste, then finish (common practice, no source)\n");
    if let Some(each) = listed(&|d| d.g_per_litre_of_juice) {
        out.push_str(&format!("  a litre of the juice takes {each}; the volume that this adds is counted\n"));
    }
    out
}

pub(super) fn yield_text(s: &Sheet) -> String {
    let grams = grouped(s.yield_g(), 0);
    let volume = s.yield_ml().map_or_else(String::new, |ml| format!(" = {}", volume_text(millilitres(ml))));
    let behind: f64 = s.stages.iter().map(|stage| stage.left_behind_g).sum();
    let lost =
        if behind >= 0.5 { format!(" ({} g stays in pan and funnel)", grouped(behind, 0)) } else { String::new() };
    let mut out = format!("\n  makes {grams} g{volume}{lost}\n");
    let pan = s.in_the_pan();
    if let (true, Some(ml)) = (behind >= 0.5, s.yield_ml().and_then(|_| volume_ml(&pan))) {
        let (grams, volume) = (grouped(pan.total_grams(), 0), volume_text(millilitres(ml)));
        out.push_str(&format!("  in the pan {grams} g = {volume} at 20 °C, before any of it stays behind\n"));
    }
    if let Some(fills) = &s.fills {
        out.push_str(&format!(
            "  fill {} bottles with {} g each ({} ml at 20 °C); the last one is full\n",
            grouped(fills.count, 0),
            grouped(fills.each_g, 0),
            grouped(fills.each_ml, 0),
        ));
    }
    if let Some(make_up) = &s.make_up {
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
    if let Some(vessel) = s.vessel_l {
        out.push_str(&format!("  smallest usual vessel with room to stir: {vessel} L\n"));
    }
    for (inner, grams) in s.weighed.inner.iter().filter(|(_, grams)| *grams > 0.0) {
        out.push_str(&format!("  needs {} g of {} (its own card)\n", grouped(*grams, 0), inner.name));
    }
    out
}
