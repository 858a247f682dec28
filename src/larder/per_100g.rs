//! `per_100g`: what an ingredient is made of, by analysis.

use std::sync::LazyLock;

use crate::diagnostic::{Code, Diagnostic, MOST_FINDINGS, Severity, Span, Spanned};
use crate::input::{About, FieldShape, Fields, Table, wrong_type};
use crate::mixture::{Component, Mineral};

use super::analysis::{Analysis, minerals};

/// The most milligrams of a mineral in 100 g.
const MOST_MG: f64 = 100_000.0;

/// The keys of an analysis: grams of a component, milligrams of a mineral.
static KEYS: LazyLock<Vec<About>> = LazyLock::new(|| {
    let about = |key, most, means| About { key, shape: FieldShape::Number(0.0, most), example: "1.5", means };
    let grams = Component::ALL.iter().map(|c| about(c.key(), 100.0, "grams in 100 g"));
    let milligrams = Mineral::ALL.into_iter().map(|m| about(m.key(), MOST_MG, "milligrams in 100 g"));
    grams.chain(milligrams).collect()
});

pub(super) struct Analysed;

impl Fields for Analysed {
    fn place(&self) -> &'static str {
        "per_100g"
    }

    fn about(&self) -> Vec<&About> {
        KEYS.iter().collect()
    }
}

/// The analysis, closed as the diagnostics say; `None` when it is wrong.
pub(super) fn read(
    name: &str,
    table: &Spanned<Table>,
    notes: &mut Vec<String>,
    found: &mut Vec<Diagnostic>,
) -> Option<Analysis> {
    let first = found.len();
    let known: Vec<_> = KEYS.iter().map(|about| about.key).collect();
    let unknown = table.value.other_keys(&known).take(MOST_FINDINGS);
    found.extend(unknown.map(|key| table.value.unknown_key(key, "per_100g", &known)));
    let mut number = |key: &str, most: f64| {
        let (_, value) = table.value.get(key)?;
        match value.value.number() {
            Some(number) if (0.0..=most).contains(&number) => return Some(number),
            Some(number) => {
                let title = format!("{key} of `{name}` is {number} in 100 g; 0 to {most} is possible");
                found.push(Diagnostic::error(Code::OutOfRange, title).at(value.span, "not possible"));
            }
            None => found.push(wrong_type(key, value, "a number")),
        }
        None
    };
    let mut analysis = Analysis::default();
    for &component in Component::ALL {
        analysis.grams.set_grams(component, number(component.key(), 100.0).unwrap_or(0.0));
    }
    analysis.minerals = minerals(|mineral| number(mineral.key(), MOST_MG));
    if found.iter().skip(first).any(|d| d.severity == Severity::Error) {
        return None;
    }
    close(name, &mut analysis, table.span, notes, found)
}

/// Says how far the analysis is from 100 g. Pure substances that add to 100 have no minerals to know of.
fn close(
    name: &str,
    analysis: &mut Analysis,
    span: Span,
    notes: &mut Vec<String>,
    found: &mut Vec<Diagnostic>,
) -> Option<Analysis> {
    let (sum, gap) = (analysis.grams.total_grams(), analysis.gap_grams());
    let grams = |component| analysis.grams.grams_of(component);
    if sum == 0.0 {
        return Diagnostic::error(Code::MissingKey, format!("per_100g of `{name}` gives no grams of anything"))
            .at(span, "nothing in it")
            .help("for example per_100g = { water = 35, sucrose = 65 }")
            .refused(found);
    }
    if gap < -0.5 {
        found.push(
            Diagnostic::warning(Code::NotHundred, format!("per_100g of `{name}` adds to {sum:.2} g"))
                .at(span, "more than 100 g in 100 g")
                .help("every component is scaled down to a sum of 100 g; check the figures"),
        );
    } else if gap > 0.05 {
        found.push(
            Diagnostic::note(Code::NotHundred, format!("per_100g of `{name}` adds to {sum:.2} g"))
                .at(span, format!("{gap:.2} g are not known"))
                .help("the rest stands as `other`: it counts in Brix and keeps a pH from being computed"),
        );
        notes.push(format!("{gap:.2} g per 100 g are not known and stand as `other`"));
    } else if grams(Component::Ash) == 0.0 && grams(Component::Other) == 0.0 {
        analysis.take_blanks_as_none();
    }
    Some(*analysis)
}
