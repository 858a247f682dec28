//! What of the parts' cost goes for what is thrown away: peel and core, the wet solids, the pan and the funnel.

use rust_decimal::Decimal;

use crate::solve::Solved;

use super::currency::quantity;

/// Cost of what is lost, before tax. It stands inside the lines of the parts, not beside them.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Losses {
    /// Bought and not usable.
    pub trimmed: Decimal,
    /// Liquid that the strained solids keep.
    pub strained: Decimal,
    /// Left in the pan and the funnel.
    pub left_behind: Decimal,
}

/// Follows the money through the stages: what a stage loses, it loses of all that was paid for until then.
/// `cost` is that of each part by its place; parts that are stages bring the cost of their stage.
pub(super) fn of(solved: &Solved, cost: impl Fn(usize, usize) -> Decimal) -> Option<Losses> {
    let mut losses = Losses::default();
    let mut kept_after: Vec<Decimal> = Vec::new();
    for (place, stage) in solved.stages.iter().enumerate() {
        let mut paid = Decimal::ZERO;
        for (i, part) in stage.parts.iter().enumerate() {
            let brought = match part.stage() {
                Some(earlier) => {
                    let made = solved.stages.get(earlier)?.course.out.total_grams();
                    let share = quantity(if made > 0.0 { part.mass_g / made } else { 0.0 })?;
                    kept_after.get(earlier)?.checked_mul(share)?
                }
                None => cost(place, i),
            };
            paid = paid.checked_add(brought)?;
        }
        let (strained, left) = (stage.course.kept.total_grams(), stage.course.left_behind_g);
        let liquid = strained + left + stage.course.out.total_grams();
        let of_paid = |grams: f64| paid.checked_mul(quantity(if liquid > 0.0 { grams / liquid } else { 0.0 })?);
        let (strained, left) = (of_paid(strained)?, of_paid(left)?);
        losses.strained = losses.strained.checked_add(strained)?;
        losses.left_behind = losses.left_behind.checked_add(left)?;
        kept_after.push(paid - strained - left);
    }
    Some(losses)
}
