//! What a set of parts can reach: the range of one target with the other targets and the yield held.
//!
//! Without that target the masses have one freedom left, and the corners where one unknown (an open part, or the
//! parts in ratio) stands at zero are the ends of the range. Where a corner cannot be computed (dry sugar has no
//! density) the range ends where the engine's answers end: that place is found by halving.

use crate::mixture::Mixture;
use crate::properties::value_of;

use super::balance::{BalanceError, MassBalance, MassRule, Yield, held};
use super::target::{TargetValue, rounded_into};

/// What ends a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ReachLimit {
    /// This part (index) stands at zero there; of parts in ratio the first.
    Without(usize),
    /// Beyond it no density can be computed: it would be too dry for a liquid.
    NoLiquid,
}

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReachEnd {
    /// The value of the target's property there.
    pub value: f64,
    /// Why no more of it can be had.
    pub limit: ReachLimit,
}

/// The range of one target, seen from a value outside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// What was asked for.
    pub asked: TargetValue,
    /// The end that is nearer to it.
    pub near: ReachEnd,
    /// The other end; `None` where nothing bounds it, or it cannot be computed.
    pub far: Option<ReachEnd>,
}

impl Reach {
    /// Whether more is asked for than can be reached.
    pub fn too_high(&self) -> bool {
        self.asked.1 > self.near.value
    }

    /// The near and the far end as they are said: inside the range, so that each can be met as it is printed.
    pub fn said(&self) -> (f64, Option<f64>) {
        let said = |end: ReachEnd, upper| rounded_into(self.asked.0, end.value, upper);
        (said(self.near, self.too_high()), self.far.map(|far| said(far, !self.too_high())))
    }
}

/// What a balance makes. By volume something dry is no answer: a card is refused it too.
fn made(balance: &MassBalance<'_>) -> Result<Mixture, BalanceError> {
    let liquid = balance.liquid_of(&balance.solve()?);
    let poured = matches!(balance.yields, Some(Yield::Millilitres(_)));
    if poured && liquid.is_dry() { Err(BalanceError::NoDensityFits) } else { Ok(liquid) }
}

/// A step past a corner that tells whether the range goes on there, as a share of the way to what was asked.
const PAST: f64 = 1e-6;

/// The range of the target at `index` with all else held, where that target lies outside it. `None` where the other
/// rules alone cannot be met.
pub(super) fn of_target(balance: &MassBalance<'_>, index: usize) -> Option<Reach> {
    let asked = *balance.targets.get(index)?;
    let mut others = balance.targets.to_vec();
    others.remove(index);
    let mut corners: Vec<ReachEnd> = Vec::new();
    let mut whole = true;
    for unknown in balance.found_together() {
        let &(without, _) = unknown.first()?;
        let lines = held(balance.lines, &unknown, 0.0);
        let corner = MassBalance { lines: &lines, targets: &others, ..*balance };
        let value = match made(&corner) {
            Ok(liquid) => value_of(asked.0, &liquid).filter(|v| v.is_finite()),
            // There is no such batch: no corner of what can be reached.
            Err(BalanceError::Negative(_) | BalanceError::Singular) => continue,
            Err(BalanceError::NoDensity(_) | BalanceError::NoDensityFits | BalanceError::Count { .. }) => None,
        };
        match value {
            Some(value) => corners.push(ReachEnd { value, limit: ReachLimit::Without(without) }),
            None => whole = false,
        }
    }
    let low = corners.iter().copied().reduce(|a, b| if b.value < a.value { b } else { a })?;
    let high = corners.iter().copied().reduce(|a, b| if b.value > a.value { b } else { a })?;
    let (near, far) = if asked.1 > high.value { (high, low) } else { (low, high) };
    (asked.1 > high.value || asked.1 < low.value).then(|| Reach {
        asked,
        near: end_towards(balance, index, near),
        far: Some(far).filter(|far| whole && far.value != near.value),
    })
}

/// The end of the range between a corner and what was asked: the corner, unless the range goes on past it.
fn end_towards(balance: &MassBalance<'_>, index: usize, corner: ReachEnd) -> ReachEnd {
    let mut targets = balance.targets.to_vec();
    let asked = targets[index].1;
    let mut meets = |value: f64| {
        targets[index].1 = value;
        made(&MassBalance { targets: &targets, ..*balance })
    };
    let (mut inside, mut outside) = (corner.value + PAST * (asked - corner.value), asked);
    if meets(inside).is_err() {
        return corner;
    }
    for _ in 0..60 {
        let middle = 0.5 * (inside + outside);
        match meets(middle) {
            Ok(_) => inside = middle,
            Err(_) => outside = middle,
        }
    }
    let limit = match meets(outside) {
        Err(BalanceError::Negative(short)) => short.first().map_or(ReachLimit::NoLiquid, |i| ReachLimit::Without(*i)),
        _ => ReachLimit::NoLiquid,
    };
    ReachEnd { value: inside, limit }
}

/// A written amount that leaves no room for the rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InTheWay {
    /// The part (index).
    pub part: usize,
    /// What it weighs, grams.
    pub now_g: f64,
    /// The most of it that all else allows, grams.
    pub most_g: f64,
}

/// The written amount that leaves no room for the one part that would have to be taken out again. Of several, the
/// one that weighs most.
pub(super) fn in_the_way(balance: &MassBalance<'_>, short: &[usize]) -> Option<InTheWay> {
    let &[short] = short else { return None };
    let candidates = balance.lines.iter().enumerate().filter_map(|(part, line)| {
        let MassRule::Fixed(now_g) = line.rule else { return None };
        let mut lines = balance.lines.to_vec();
        lines.get_mut(short)?.rule = MassRule::Fixed(0.0);
        lines.get_mut(part)?.rule = MassRule::Open;
        let most_g = *MassBalance { lines: &lines, ..*balance }.solve().ok()?.get(part)?;
        (most_g < now_g).then_some(InTheWay { part, now_g, most_g })
    });
    candidates.max_by(|a, b| a.now_g.total_cmp(&b.now_g))
}

/// The part (index) whose own liquid has most of a target's property, and that value.
pub(super) fn strongest(balance: &MassBalance<'_>, index: usize) -> Option<(usize, f64)> {
    let (kind, _) = *balance.targets.get(index)?;
    balance
        .lines
        .iter()
        .enumerate()
        .filter_map(|(i, line)| Some((i, value_of(kind, &line.joins)?)))
        .filter(|(_, value)| value.is_finite() && *value > 0.0)
        .max_by(|a, b| a.1.total_cmp(&b.1))
}
