//! What a set of parts can reach: the range of one goal with the other goals and the yield held,
//! found at the corners where one open part stands at zero.

use crate::mixture::Mixture;

use super::balance::{Balance, Goal, Rule, value_of};

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct End {
    /// The value of the goal's property there.
    pub value: f64,
    /// The part (index) that stands at zero there.
    pub without: usize,
}

/// The range of one goal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// The lowest that can be reached.
    pub low: End,
    /// The highest.
    pub high: End,
}

/// The range of the goal at `index` with all else held. `None` where the other rules alone cannot be met.
pub fn of_goal(balance: &Balance<'_>, index: usize) -> Option<Reach> {
    let (kind, _) = *balance.goals.get(index)?;
    let others: Vec<Goal> = balance.goals.iter().enumerate().filter(|(i, _)| *i != index).map(|(_, g)| *g).collect();
    let corners = (0..balance.lines.len()).filter_map(|without| {
        let mut lines = balance.lines.to_vec();
        let line = lines.get_mut(without)?;
        if line.rule != Rule::Open {
            return None;
        }
        line.rule = Rule::Fixed(0.0);
        let corner = Balance { lines: &lines, goals: &others, ..*balance };
        let masses = corner.solve().ok()?;
        let liquid: Mixture = lines.iter().zip(&masses).map(|(l, m)| l.joins * *m).sum();
        let value = value_of(kind, &liquid)?;
        value.is_finite().then_some(End { value, without })
    });
    let mut reach: Option<Reach> = None;
    for end in corners {
        let now = reach.get_or_insert(Reach { low: end, high: end });
        if end.value < now.low.value {
            now.low = end;
        }
        if end.value > now.high.value {
            now.high = end;
        }
    }
    reach
}

/// The written amount (index) that leaves no room for the one part that would have to be taken out again, and
/// the most of it, in grams, that all else allows. Of several, the one that weighs most.
pub fn most_that_fits(balance: &Balance<'_>, short: &[usize]) -> Option<(usize, f64)> {
    let &[short] = short else { return None };
    let candidates = balance.lines.iter().enumerate().filter_map(|(i, line)| {
        let Rule::Fixed(now) = line.rule else { return None };
        let mut lines = balance.lines.to_vec();
        lines.get_mut(short)?.rule = Rule::Fixed(0.0);
        lines.get_mut(i)?.rule = Rule::Open;
        let most = *Balance { lines: &lines, ..*balance }.solve().ok()?.get(i)?;
        (most < now).then_some((i, now, most))
    });
    candidates.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _, most)| (i, most))
}

/// The part (index) whose own liquid has most of a goal's property, and that value.
pub fn strongest(balance: &Balance<'_>, index: usize) -> Option<(usize, f64)> {
    let (kind, _) = *balance.goals.get(index)?;
    balance
        .lines
        .iter()
        .enumerate()
        .filter_map(|(i, line)| Some((i, value_of(kind, &line.joins)?)))
        .filter(|(_, value)| value.is_finite() && *value > 0.0)
        .max_by(|a, b| a.1.total_cmp(&b.1))
}
