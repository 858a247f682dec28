//! `new`: the files of a house to start from.

use serde::Serialize;

use super::{Report, View};

pub(crate) type NewReport = Report<NewView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct NewView {
    pub(crate) made: Vec<String>,
    #[serde(rename = "try")]
    pub(crate) first_card: String,
}

impl View for NewView {
    const VERB: &'static str = "new";
    const KEYS: &'static str = "made try";
}
