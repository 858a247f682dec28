//! `card`: a card as a text, from a recipe, for another house, or to be read.

use serde::Serialize;

use crate::paste::Pasted;

use super::{Report, View};

pub(crate) type CardReport = Report<CardView>;

/// A text that is handed over, and what its maker should know of it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct CardView {
    pub(crate) text: String,
    /// What it asks its reader.
    pub(crate) questions: Vec<String>,
    /// What was taken for granted.
    pub(crate) assumed: Vec<String>,
}

impl View for CardView {
    const VERB: &'static str = "card";
    const KEYS: &'static str = "text questions assumed";
    const TELLS_NOTES: bool = false;
}

impl From<Pasted> for CardView {
    fn from(pasted: Pasted) -> Self {
        Self { text: pasted.card, questions: pasted.questions, assumed: pasted.assumed }
    }
}

impl CardView {
    /// A text that asks nothing.
    pub(crate) fn of(text: String) -> Self {
        Self { text, questions: Vec::new(), assumed: Vec::new() }
    }
}
