//! A property, its equation and its sources.

use crate::properties::Equation;

use super::table;

/// Everything about some properties.
pub fn equations(all: &[&Equation]) -> String {
    let mut out = String::new();
    for e in all {
        let unit = if e.unit.is_empty() { String::new() } else { format!(" ({})", e.unit) };
        out.push_str(&format!("\n{}{unit}\n\n", e.name));
        let mut rows = vec![
            ("computed by".to_owned(), e.equation.to_owned()),
            ("holds for".to_owned(), e.range.to_owned()),
            ("stated error".to_owned(), e.error.to_owned()),
        ];
        for (i, key) in e.sources.iter().enumerate() {
            let name = if i == 0 { "sources" } else { "" };
            rows.push((name.to_owned(), key.reference().with_standing()));
        }
        out.push_str(&table::pairs(&rows));
    }
    out
}

/// What can be asked for.
pub fn equation_names(all: &[&Equation]) -> String {
    let rows: Vec<_> = all.iter().map(|e| (e.name.to_owned(), e.unit.to_owned())).collect();
    format!("\nAsk for one of these: stillroom explain brix\n\n{}", table::pairs(&rows))
}
