//! What a balance leaves open: parts that are found alone, and the parts in ratio, which are found together.

use super::balance::{BalanceLine, MassRule};

/// Parts that are found together, each with its share: an open part alone, or all parts in ratio.
pub(super) type Unknown = Vec<(usize, f64)>;

/// The unknowns of these lines, the ratio last.
pub(super) fn unknowns(lines: &[BalanceLine]) -> Vec<Unknown> {
    let numbered = || lines.iter().enumerate();
    let open = numbered().filter(|(_, l)| l.rule == MassRule::Open).map(|(i, _)| vec![(i, 1.0)]);
    let ratio: Unknown = numbered()
        .filter_map(|(i, l)| match l.rule {
            MassRule::Ratio(share) => Some((i, share)),
            _ => None,
        })
        .collect();
    open.chain((!ratio.is_empty()).then_some(ratio)).collect()
}

/// The lines with these parts held at `x` times their shares.
pub(super) fn held(lines: &[BalanceLine], unknown: &Unknown, x: f64) -> Vec<BalanceLine> {
    let mut lines = lines.to_vec();
    for &(i, share) in unknown {
        if let Some(line) = lines.get_mut(i) {
            line.rule = MassRule::Fixed(share * x);
        }
    }
    lines
}
