//! A swapped card: grams before and after, and what it is before and after.

use crate::diagnostic::Diagnostic;
use crate::sheet::Properties;
use crate::solver::swap::{Swapped, words};
use crate::units::display::grouped;

use super::table;

/// The new part list beside the old one, and what it makes.
pub fn swapped(s: &Swapped, [before, after]: [&Properties; 2], notes: &[Diagnostic]) -> String {
    let kept: Vec<_> = s.kept.iter().map(|k| words(*k)).collect();
    let mut out = format!(
        "\n{} · {} in place of {}\n  kept: {}, in the same volume\n\n",
        s.after.name,
        s.new,
        s.old,
        kept.join(", ")
    );
    let grams = |g: f64| grouped(g, usize::from(g < 100.0));
    let mut rows = vec![["", "g, old", "g, new"].map(str::to_owned).to_vec()];
    for (i, stage) in s.after.stages.iter().enumerate() {
        if let Some(name) = &stage.name {
            rows.push(vec![format!("{name}:"), String::new(), String::new()]);
        }
        for (j, part) in stage.parts.iter().enumerate() {
            let old = s.before.stages.get(i).and_then(|stage| stage.parts.get(j));
            match old {
                Some(old) if old.label != part.label => {
                    rows.push(vec![old.label.clone(), grams(old.mass_g), "-".to_owned()]);
                    rows.push(vec![part.label.clone(), "-".to_owned(), grams(part.mass_g)]);
                }
                Some(old) => rows.push(vec![part.label.clone(), grams(old.mass_g), grams(part.mass_g)]),
                None if part.mass_g > 0.0 => rows.push(vec![part.label.clone(), "-".to_owned(), grams(part.mass_g)]),
                None => {}
            }
        }
    }
    let total = |solved: &crate::solver::Solved| grams(solved.bottled().total_grams());
    rows.push(vec!["makes".to_owned(), total(&s.before), total(&s.after)]);
    out.push_str(&table::columns(&rows));
    out.push('\n');
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
    out.push_str(&table::columns(&rows));
    out.push_str(&notes.iter().map(|note| format!("- {}\n", note.title)).collect::<String>());
    out
}
