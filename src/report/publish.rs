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
    pub(crate) pages: Vec<PublishedPage>,
    /// Whether it can solve, or only be read.
    pub(crate) solver: bool,
    pub(crate) with_costs: bool,
    pub(crate) with_lots: bool,
}

/// What stands on it under a place of its own.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PublishedPage {
    pub(crate) kind: PageKind,
    /// The name of the card; of a lot its code.
    pub(crate) product: String,
    /// Where it stands on the page.
    pub(crate) place: String,
    /// Whether it is not to be made or served as it stands; it is on the page, and says so first.
    pub(crate) stopped: bool,
    /// Lots of it that were pulled, or lots of what goes into it: then it says first to ask for a new page.
    pub(crate) pulled_lots: Vec<String>,
}

/// What a part of the page is, in the order of its list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PageKind {
    Menu,
    Board,
    Drink,
    Card,
    /// A lot of the board: it is reached from there.
    Lot,
}

impl View for PublishView {
    const VERB: &'static str = "publish";
    const KEYS: &'static str = "written files bytes pages solver with_costs with_lots";

    fn stops(&self) -> bool {
        self.pages.iter().any(|page| page.stopped)
    }
}
