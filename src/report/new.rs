//! `new`: the files of a house to start from.

use serde::Serialize;

use super::{Report, View};

/// What `new` prints.
pub type NewReport = Report<NewView>;

/// What was made.
#[derive(Clone, Debug, Serialize)]
pub struct NewView {
    /// The files.
    pub made: Vec<String>,
    /// A card among them to begin with.
    #[serde(rename = "try")]
    pub first_card: String,
}

impl View for NewView {
    const VERB: &'static str = "new";
    const KEYS: &'static str = "made try";
}
