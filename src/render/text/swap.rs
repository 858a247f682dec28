//! A swapped card: grams before and after, and what it is before and after.

use crate::report::swap::{SwapReport, SwapView};
use crate::solver::swap::words;
use crate::units::display::grouped;

use super::table;

pub(crate) fn swap(report: &SwapReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let (old, new) = (&view.swap.old, &view.swap.new);
    let kept: Vec<_> = view.swap.kept.iter().map(|k| words(*k)).collect();
    let head = format!("\n{} · {new} in place of {old}\n", report.product());
    let kept = format!("  kept: {}, in the same volume\n\n", kept.join(", "));
    head + &kept + &masses(view) + "\n" + &properties(view) + &super::notes(report.findings())
}

fn masses(view: &SwapView) -> String {
    let grams = |g: f64| grouped(g, usize::from(g < 100.0));
    let cell = |g: Option<f64>| g.map_or_else(|| "-".to_owned(), grams);
    let mut rows = vec![["", "g, old", "g, new"].map(str::to_owned).to_vec()];
    let mut stage = &None;
    for line in &view.lines {
        if let (true, Some(name)) = (&line.stage != stage, &line.stage) {
            rows.push(vec![format!("{name}:"), String::new(), String::new()]);
        }
        stage = &line.stage;
        rows.push(vec![line.of.clone(), cell(line.old_g), cell(line.new_g)]);
    }
    rows.push(vec!["makes".to_owned(), grams(view.before.yields.mass_g), grams(view.yields.mass_g)]);
    table::columns(&rows)
}

fn properties(view: &SwapView) -> String {
    let (before, after) = (&view.before.properties, &view.properties);
    let mut rows = vec![["", "old", "new"].map(str::to_owned).to_vec()];
    let lines = [
        ("Brix", before.brix, after.brix, 1, ""),
        ("ABV", before.abv_pct, after.abv_pct, 1, " %"),
        ("sugar", before.sugar_g_l, after.sugar_g_l, 0, " g/L"),
        ("acid", before.acid_g_l, after.acid_g_l, 1, " g/L"),
        ("density", before.density_kg_m3, after.density_kg_m3, 1, " kg/m³"),
        ("water activity", before.water_activity, after.water_activity, 3, ""),
        ("pH", before.ph, after.ph, 2, ""),
    ];
    for (name, old, new, decimals, unit) in lines {
        if [old, new].into_iter().flatten().any(|x| x >= 0.05) {
            rows.push(vec![name.to_owned(), super::maybe(old, decimals, unit), super::maybe(new, decimals, unit)]);
        }
    }
    table::columns(&rows)
}
