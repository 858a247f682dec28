//! What of the parts' cost goes for what is thrown away: peel and core, the wet solids, the pan and the funnel.

use std::collections::HashMap;

use rust_decimal::Decimal;

use crate::solver::resolve::Material;
use crate::solver::{InnerCard, Solved, SolvedPart};

use super::currency::quantity;
use super::line::CostLine;
use super::parts::paid_as;

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
fn follow(solved: &Solved, cost: impl Fn(usize, usize) -> Decimal) -> Option<Losses> {
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

/// The cost of what is lost, from the rounded lines: a part has its share of the line of its ingredient.
pub(super) fn losses_of(solved: &Solved, lines: &[(&str, CostLine)]) -> Losses {
    let paid: HashMap<&str, (Decimal, f64)> =
        lines.iter().filter_map(|(id, l)| Some((*id, (l.cost?, l.grams?)))).collect();
    let of_part = |part: &SolvedPart| -> Decimal {
        let share = |id: &str, grams: f64| {
            let (cost, all) = paid.get(id)?;
            cost.checked_mul(quantity(if *all > 0.0 { grams / all } else { 0.0 })?)
        };
        match &part.found.what {
            Material::Ingredient(ingredient) => share(paid_as(part, ingredient), part.mass_g).unwrap_or_default(),
            Material::Stage(_) => Decimal::ZERO,
            Material::Card(place) => {
                solved.inner.get(*place).map_or(Decimal::ZERO, |InnerCard { card: inner, .. }| {
                    let made = inner.bottled().total_grams();
                    let of_batch = if made > 0.0 { part.mass_g / made } else { 0.0 };
                    inner.ingredients().into_iter().filter_map(|(i, grams)| share(&i.id, grams * of_batch)).sum()
                })
            }
        }
    };
    let at = |stage: usize, part: usize| {
        solved.stages.get(stage).and_then(|s| s.parts.get(part)).map_or(Decimal::ZERO, of_part)
    };
    let mut losses = follow(solved, at).unwrap_or_default();
    losses.trimmed = solved
        .ingredients()
        .into_iter()
        .filter_map(|(i, grams)| {
            let (cost, all) = paid.get(i.id.as_str())?;
            let wasted = quantity((1.0 - i.usable?) * if *all > 0.0 { grams / all } else { 0.0 })?;
            cost.checked_mul(wasted)
        })
        .sum();
    losses
}
