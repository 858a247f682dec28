//! What the maker can check, whether it stays clear, and the method.

use crate::report::solve::SolveView;
use crate::units::display::grouped;

use super::table;

pub(super) fn checks(view: &SolveView) -> String {
    let checks = &view.checks;
    let mut rows: Vec<(String, String)> = Vec::new();
    if let Some(g) = checks.hundred_ml_g {
        rows.push(("100 ml weighs".to_owned(), format!("{} g at 20 °C", grouped(g, 1))));
    }
    if let Some(thin) = checks.refractometer_brix_thinned.filter(|r| *r >= 0.5) {
        rows.push((
            "thinned 1:1".to_owned(),
            format!("by weight with water a refractometer shows {} at 20 °C", grouped(thin, 1)),
        ));
    }
    let mut out = if rows.is_empty() { String::new() } else { format!("\nChecks\n{}", table::pairs(&rows)) };
    if !view.fixes.is_empty() {
        let fixes: Vec<Vec<String>> = view
            .fixes
            .iter()
            .map(|f| {
                let (word, what) = if f.off_brix > 0.0 { ("high", "water") } else { ("low", "sugar") };
                vec![
                    format!("reads {} °Bx {word}", grouped(f.off_brix.abs(), 0)),
                    format!("add {} g {what}", grouped(f.add_g, 0)),
                ]
            })
            .collect();
        out.push_str("If the reading is off\n");
        out.push_str(&table::columns(&fixes));
    }
    out
}

pub(super) fn crystals(view: &SolveView) -> String {
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
        out.push_str(&format!(
            "  richest that stays clear in the {store}: {} : 1 sugar to water by weight ({} °Bx)\n",
            grouped(ratio, 2),
            grouped(brix, 1)
        ));
    }
    if let Some(note) = crystals.note {
        out.push_str(&format!("  {note}\n"));
    }
    out
}

pub(super) fn method(view: &SolveView) -> String {
    let mut out = String::new();
    if !view.method.is_empty() {
        out.push_str("\nMethod\n");
        for (i, step) in view.method.iter().enumerate() {
            out.push_str(&format!("  {}. {step}\n", i + 1));
        }
    }
    for (name, text) in [("Note", &view.note), ("Source", &view.source)] {
        if let Some(text) = text {
            out.push_str(&format!("{name}: {text}\n"));
        }
    }
    if !view.assumed.is_empty() {
        out.push_str(&format!("Assumed: {}\n", view.assumed.join("; ")));
    }
    out
}
