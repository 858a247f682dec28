//! What a set of parts can reach: the range of one target with the other targets and the yield held,
//! found at the corners where one unknown (an open part, or the parts in ratio) stands at zero.

use crate::mixture::Mixture;

use super::balance::{BalanceError, MassBalance, MassRule, TargetValue, value_of};
use super::unknowns::{held, unknowns};

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReachEnd {
    /// The value of the target's property there.
    pub value: f64,
    /// The part (index) that stands at zero there; of parts in ratio the first.
    pub without: usize,
}

/// The range of one target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// The lowest that can be reached.
    pub low: ReachEnd,
    /// The highest.
    pub high: ReachEnd,
    /// Whether every corner could be computed. Where one could not (dry sugar has no density), the range may
    /// go on at the other end than the one that is looked at.
    pub whole: bool,
}

/// The range of the target at `index` with all else held. `None` where the other rules alone cannot be met.
pub fn of_target(balance: &MassBalance<'_>, index: usize) -> Option<Reach> {
    let (kind, _) = *balance.targets.get(index)?;
    let others: Vec<TargetValue> =
        balance.targets.iter().enumerate().filter(|(i, _)| *i != index).map(|(_, g)| *g).collect();
    let mut reach: Option<Reach> = None;
    let mut whole = true;
    for unknown in unknowns(balance.lines) {
        let &(without, _) = unknown.first()?;
        let lines = held(balance.lines, &unknown, 0.0);
        let value = match (MassBalance { lines: &lines, targets: &others, ..*balance }).solve() {
            Ok(masses) => {
                let liquid: Mixture = lines.iter().zip(&masses).map(|(l, m)| l.joins * *m).sum();
                value_of(kind, &liquid).filter(|v| v.is_finite())
            }
            // There is no such batch: no corner of what can be reached.
            Err(BalanceError::Negative(_) | BalanceError::Singular) => continue,
            Err(BalanceError::NoDensity(_) | BalanceError::Count { .. }) => None,
        };
        let Some(value) = value else {
            whole = false;
            continue;
        };
        let end = ReachEnd { value, without };
        let now = reach.get_or_insert(Reach { low: end, high: end, whole });
        if end.value < now.low.value {
            now.low = end;
        }
        if end.value > now.high.value {
            now.high = end;
        }
    }
    reach.map(|reach| Reach { whole, ..reach })
}

/// The written amount (index) that leaves no room for the one part that would have to be taken out again, and
/// the most of it that all else allows: its place, what it weighs, and that most, in grams. Of several, the one
/// that weighs most.
pub fn most_that_fits(balance: &MassBalance<'_>, short: &[usize]) -> Option<(usize, f64, f64)> {
    let &[short] = short else { return None };
    let candidates = balance.lines.iter().enumerate().filter_map(|(i, line)| {
        let MassRule::Fixed(now) = line.rule else { return None };
        let mut lines = balance.lines.to_vec();
        lines.get_mut(short)?.rule = MassRule::Fixed(0.0);
        lines.get_mut(i)?.rule = MassRule::Open;
        let most = *MassBalance { lines: &lines, ..*balance }.solve().ok()?.get(i)?;
        (most < now).then_some((i, now, most))
    });
    candidates.max_by(|a, b| a.1.total_cmp(&b.1))
}

/// The part (index) whose own liquid has most of a target's property, and that value.
pub fn strongest(balance: &MassBalance<'_>, index: usize) -> Option<(usize, f64)> {
    let (kind, _) = *balance.targets.get(index)?;
    balance
        .lines
        .iter()
        .enumerate()
        .filter_map(|(i, line)| Some((i, value_of(kind, &line.joins)?)))
        .filter(|(_, value)| value.is_finite() && *value > 0.0)
        .max_by(|a, b| a.1.total_cmp(&b.1))
}
