//! The days on which hands are needed, from the stages of a card.

use uom::si::time::hour;

use crate::solver::Solved;
use crate::units::Time;

use super::calendar::Day;
use super::model::Work;

/// What waits no longer than this is done on the same working day (common practice, no source).
const SAME_DAY_H: f64 = 6.0;

/// The days that a stage takes: none within a working day, else every night that it begins; "12 h" is overnight.
fn days(takes: Option<Time>) -> Day {
    let hours = takes.map_or(0.0, |time| time.get::<hour>());
    if hours <= SAME_DAY_H { 0 } else { (hours / 24.0 - 1e-9).ceil().min(3660.0) as Day }
}

/// How many days before the product is finished each of its stages begins.
pub(crate) fn days_before(solved: &Solved) -> Vec<Day> {
    let takes: Vec<Day> = solved.card.all_stages().map(|s| days(s.takes.as_ref().map(|t| t.time))).collect();
    let mut before = takes.clone();
    for place in (0..solved.stages.len()).rev() {
        let users = solved.stages.iter().enumerate().skip(place + 1);
        let used_in = users.filter(|(_, s)| s.parts.iter().any(|p| p.stage() == Some(place))).map(|(user, _)| user);
        let wanted = used_in.filter_map(|user| before.get(user).copied()).max().unwrap_or(0);
        if let (Some(own), Some(takes)) = (before.get_mut(place), takes.get(place)) {
            *own = wanted + takes;
        }
    }
    before
}

/// The work of a card: each stage that waits, and the day that the product is finished.
pub(crate) fn works(solved: &Solved) -> Vec<Work> {
    let waits = solved.card.all_stages().zip(days_before(solved)).filter(|(_, before)| *before > 0);
    let begun = waits.map(|(stage, days_before)| Work {
        stage: stage.name.as_ref().map(|n| n.value.clone()),
        days_before,
        takes: stage.takes.as_ref().map(|takes| takes.written.clone()),
    });
    begun.chain([Work { stage: None, days_before: 0, takes: None }]).collect()
}
