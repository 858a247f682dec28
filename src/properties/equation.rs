//! What stands behind a number: its equation, range, stated error and sources, told without computing it.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::Key;

/// What stands behind one number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Equation {
    pub name: &'static str,
    /// The unit it is given in.
    pub unit: &'static str,
    /// The equation in a line.
    pub equation: &'static str,
    pub range: &'static str,
    pub error: &'static str,
    pub sources: &'static [Key],
}

/// Readings, kernels, tables and dates: all that is no property of a liquid.
pub(crate) fn methods() -> &'static [Equation] {
    &METHODS
}

#[derive(Deserialize)]
struct MethodRow {
    name: String,
    unit: String,
    equation: String,
    range: String,
    error: String,
    sources: String,
}

static METHODS: LazyLock<Vec<Equation>> = LazyLock::new(|| {
    let table = include_str!("methods.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(table.as_bytes());
    reader.deserialize().map(|row| read(row.expect("every row of methods.csv is a method"))).collect()
});

/// The texts are read once and live as long as the program.
fn read(row: MethodRow) -> Equation {
    let key = |written| Key::of(written).expect("every source of methods.csv is in the bibliography");
    let sources: Vec<Key> = row.sources.split(';').map(key).collect();
    Equation {
        name: row.name.leak(),
        unit: row.unit.leak(),
        equation: row.equation.leak(),
        range: row.range.leak(),
        error: row.error.leak(),
        sources: sources.leak(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_method_says_all_that_stands_behind_it() {
        let names: std::collections::BTreeSet<_> = methods().iter().map(|m| m.name).collect();
        assert_eq!(names.len(), methods().len(), "a method is told twice");
        assert!(methods().iter().all(|m| !m.equation.is_empty() && !m.range.is_empty() && !m.error.is_empty()));
    }
}
