//! `lots push` and `lots pull`: what was carried between a site and its group.

use serde::Serialize;

use crate::lots::group::Transfer;

use super::{Report, View};

pub(crate) type GroupReport = Report<GroupView>;

/// Which way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Way {
    /// To the server.
    Push,
    /// From it.
    Pull,
}

/// What was carried.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct GroupView {
    pub(crate) way: Way,
    /// Which site pushed.
    pub(crate) site: Option<String>,
    /// The events that were looked at: those of this site, or those of all sites.
    pub(crate) events: usize,
    /// Of them, those that were not there and now are.
    pub(crate) added: usize,
    /// Frozen sheets that were not there and now are.
    pub(crate) sheets: usize,
    /// Codes that stand for two batches: nothing of them was carried.
    pub(crate) doubles: Vec<String>,
    /// Events that cannot be carried.
    pub(crate) unfit: Vec<String>,
}

impl GroupView {
    pub(crate) fn new(way: Way, site: Option<&str>, carried: &Transfer) -> Self {
        Self {
            way,
            site: site.map(str::to_owned),
            events: carried.looked_at,
            added: carried.carried,
            sheets: carried.sheets,
            doubles: carried.doubles.iter().cloned().collect(),
            unfit: carried.unfit.iter().map(|(id, _)| id.clone()).collect(),
        }
    }
}

impl View for GroupView {
    const VERB: &'static str = "lots";
    const KEYS: &'static str = "way site events added sheets doubles unfit";
}
