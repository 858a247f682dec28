//! `publish`: what was written.

use chrono::NaiveDate;
use serde::Serialize;

use super::{Report, View};

pub(crate) type PublishReport = Report<PublishView>;

/// The bench page as it was written.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PublishView {
    pub(crate) written: NaiveDate,
    pub(crate) files: Vec<String>,
    pub(crate) bytes: usize,
    pub(crate) cards: Vec<PublishedCard>,
    /// Whether it can solve, or only be read.
    pub(crate) solver: bool,
    pub(crate) with_costs: bool,
}

/// A card on it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PublishedCard {
    pub(crate) product: String,
    /// Where it stands on the page.
    pub(crate) place: String,
    /// Whether it is not to be made or served as it stands; it is on the page, and says so first.
    pub(crate) stopped: bool,
}

impl View for PublishView {
    const VERB: &'static str = "publish";
    const KEYS: &'static str = "written files bytes cards solver with_costs";

    fn stops(&self) -> bool {
        self.cards.iter().any(|card| card.stopped)
    }
}
