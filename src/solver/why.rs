//! From a refusal of the engine to its reasons: which target, what range the parts reach, which part limits it.

use crate::properties::{TargetKind, amount_for};

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule};
use super::error::SolveError;
use super::reach::{ReachLimit, in_the_way, of_target, strongest};

/// The reasons for which a balance has no answer. `boils` is the line of the water that boils off, if there is one.
pub(super) fn reasons(balance: &MassBalance<'_>, boils: Option<usize>, why: BalanceError) -> Vec<SolveError> {
    match why {
        BalanceError::Singular => vec![not_brought(balance).unwrap_or_else(|| not_told(balance))],
        BalanceError::Negative(short) => out_of_reach(balance, boils, short),
        other => vec![SolveError::Engine(other)],
    }
}

pub(super) fn open(lines: &[BalanceLine]) -> Vec<usize> {
    lines.iter().enumerate().filter(|(_, line)| line.rule == MassRule::Open).map(|(i, _)| i).collect()
}

/// A target that no open line brings.
fn not_brought(balance: &MassBalance<'_>) -> Option<SolveError> {
    let brings = |kind, line: &BalanceLine| amount_for(kind, &line.joins) > 1e-9;
    let open_brings = |kind| balance.lines.iter().any(|l| l.rule == MassRule::Open && brings(kind, l));
    let asked = *balance.targets.iter().find(|(kind, asked)| *asked > 0.0 && !open_brings(*kind))?;
    let written = balance.lines.iter().position(|line| brings(asked.0, line));
    (asked.0 != TargetKind::Ph).then_some(SolveError::NotBrought { asked, written })
}

fn not_told(balance: &MassBalance<'_>) -> SolveError {
    let open = open(balance.lines);
    let alike = |a: usize, b: usize| {
        let (a, b) = (balance.lines.get(a)?, balance.lines.get(b)?);
        Some(a.joins == b.joins && a.keeps == b.keeps)
    };
    let pairs = open.iter().enumerate().flat_map(|(n, &a)| open.iter().skip(n + 1).map(move |&b| (a, b)));
    let same = pairs.into_iter().find(|&(a, b)| alike(a, b) == Some(true));
    SolveError::NotTold { by: balance.targets.iter().map(|(kind, _)| *kind).collect(), same, open: open.clone() }
}

/// Targets outside what the parts reach; where none is, what would have to be less than nothing.
fn out_of_reach(balance: &MassBalance<'_>, boils: Option<usize>, short: Vec<usize>) -> Vec<SolveError> {
    let reaches = || (0..balance.targets.len()).filter_map(|index| Some((index, of_target(balance, index)?)));
    if let (&[asked], &[part], Some(boils)) = (balance.targets, short.as_slice(), boils)
        && part == boils
        && let Some((_, unboiled)) = reaches().find(|(_, r)| r.near.limit == ReachLimit::Without(boils))
    {
        return vec![SolveError::ThinnerThanUnboiled(asked, unboiled.near.value)];
    }
    let in_the_way = in_the_way(balance, &short);
    let outside = reaches().map(|(index, reach)| SolveError::OutOfReach {
        reach,
        others_held: balance.targets.len() > 1,
        strongest: strongest(balance, index).filter(|_| reach.too_high()),
        in_the_way,
    });
    let mut all: Vec<SolveError> = outside.collect();
    if all.is_empty() {
        let written = balance.lines.iter().any(|l| matches!(l.rule, MassRule::Fixed(g) if g > 0.0));
        all.push(SolveError::Negative { short, written, in_the_way });
    }
    all
}
