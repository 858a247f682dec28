//! Findings as a report holds them: with lines and columns, for who has no text at hand.

use std::collections::HashMap;
use std::sync::Arc;

use serde::Serialize;

use crate::diagnostic::{Code, Diagnostic, Severity, line_and_column, once};

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Finding {
    pub(crate) code: Code,
    pub(crate) severity: Severity,
    pub(crate) message: String,
    pub(crate) file: Option<String>,
    /// The line of its main place, from 1.
    pub(crate) line: Option<usize>,
    /// The column there, from 1, in characters.
    pub(crate) column: Option<usize>,
    pub(crate) help: Option<String>,
    /// All places that it speaks of, the main one first.
    pub(crate) labels: Vec<Place>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Place {
    pub(crate) start: usize,
    /// One past the last byte.
    pub(crate) end: usize,
    /// The line, from 1; null where the text is not at hand.
    pub(crate) line: Option<usize>,
    /// The column, from 1, in characters.
    pub(crate) column: Option<usize>,
    pub(crate) text: String,
}

pub(super) fn all(found: &[Diagnostic], text_of: impl Fn(&str) -> Option<Arc<str>>) -> Vec<Finding> {
    let mut texts: HashMap<&str, Option<Arc<str>>> = HashMap::new();
    once(found)
        .map(|d| {
            let file = d.file.as_deref();
            let text = file.and_then(|file| texts.entry(file).or_insert_with(|| text_of(file)).clone());
            finding(d, text.as_deref())
        })
        .collect()
}

fn finding(d: &Diagnostic, text: Option<&str>) -> Finding {
    let place = |at| text.map(|text| line_and_column(text, at)).unzip();
    let labels: Vec<Place> = d
        .labels
        .iter()
        .map(|l| {
            let (line, column) = place(l.span.start);
            Place { start: l.span.start, end: l.span.end, line, column, text: l.text.clone() }
        })
        .collect();
    let (line, column) = labels.first().map_or((None, None), |first| (first.line, first.column));
    Finding {
        code: d.code,
        severity: d.severity,
        message: d.title.clone(),
        file: d.file.as_deref().map(str::to_owned),
        line,
        column,
        help: d.help.clone(),
        labels,
    }
}
