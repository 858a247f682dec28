//! What is left out of a plan or of a menu. A list that leaves something out in silence is read as a whole one.

use serde::Serialize;

use crate::diagnostic::{Diagnostic, Severity};

/// A drink or a product that is left out, by the first thing that is wrong with it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// Its name, as the board or the menu has it.
    pub of: String,
    /// The first fault: all of them are among the findings.
    pub why: String,
    /// The file that it is in; null where it is in none.
    pub file: Option<String>,
}

impl LeftOut {
    /// By what was found of it.
    pub(crate) fn by(name: &str, found: &[Diagnostic]) -> Self {
        let first = found.iter().find(|d| d.severity == Severity::Error);
        Self {
            of: name.to_owned(),
            why: first.map_or_else(|| "it cannot be made".to_owned(), |d| d.title.clone()),
            file: first.and_then(|d| d.file.as_deref()).map(str::to_owned),
        }
    }
}
