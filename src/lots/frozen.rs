//! A lot that goes into the freezer on the day it is made.

use chrono::NaiveDate;

use crate::assessment::{self, Assessment, Lot, Which};
use crate::house::{House, Store};
use crate::safety::Storage;
use crate::shelf_life::Draws;
use crate::shelf_life::calendar::Frozen;
use crate::solver::Solved;
use crate::units::degrees_celsius;

/// Whether the clock of a product stops in a store. What is too strong to freeze keeps in a freezer as in a cold store.
pub(super) fn stops_in(solved: &Solved, house: &House, store: &Store) -> bool {
    let judged = || assessment::assess(solved, house, NaiveDate::default(), Which::Only(store), Draws::FEW).0;
    let is_dated = |judged: &Assessment| judged.stores.first().is_some_and(|dated| dated.verdict.is_some());
    assessment::storage(store) == Storage::Frozen && !is_dated(&judged())
}

/// The judgement of what goes into a freezer on the day it is made, where its clock stops: the days that are left when it is thawed are
/// those of the coldest store in which it can be used. `None` of what stands elsewhere or does not freeze.
pub(super) fn into_the_freezer(solved: &Solved, house: &House, judged: &Assessment) -> Option<Assessment> {
    let store = judged.stores.first().filter(|dated| dated.verdict.is_none() && dated.refused.is_empty())?;
    if assessment::storage(&store.store) != Storage::Frozen {
        return None;
    }
    let thawed = house.settings.stores.iter().filter(|store| assessment::storage(store) != Storage::Frozen);
    let coldest = thawed.min_by(|a, b| degrees_celsius(a.temperature).total_cmp(&degrees_celsius(b.temperature)))?;
    let lot = Lot { frozen: vec![Frozen { from: judged.lot.made, to: None }], ..judged.lot.clone() };
    Some(assessment::assess(solved, house, lot, Which::Only(coldest), Draws::default()).0)
}
