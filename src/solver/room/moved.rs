//! What would have to move where rules cannot be met together: one bound of a part or one end of a range, and how far.

use crate::properties::value_of;

use super::super::balance::MassRule;
use super::{LineBound, Missed, Room, Rule};

/// A rule that, moved alone, lets all others be met.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedRule {
    /// Which.
    pub rule: Rule,
    /// How far it has to move: in the unit of the target, or grams of the part.
    pub to: f64,
}

/// A density to lay the row of a target at, g/ml; any does for which of two liquids has more of it.
const ANY_G_PER_ML: f64 = 1.0;

impl Room {
    /// The bound that a rule is.
    pub fn bound_of(&self, rule: Rule) -> Option<&LineBound> {
        if let Rule::Bound(i) = rule { self.bounds.get(i) } else { None }
    }

    /// The bounds and ends of ranges of which each by itself is enough, beside those that are missed.
    pub fn moves(&self, missed: &[Missed]) -> Vec<MovedRule> {
        let others = self.rules().into_iter().filter(|rule| missed.iter().all(|missed| missed.rule != *rule));
        others.filter_map(|rule| Some(MovedRule { rule, to: self.moved(rule)? })).collect()
    }

    /// How near to where it is a rule can stay with all others met.
    fn moved(&self, rule: Rule) -> Option<f64> {
        let mut wider = self.clone();
        let (mut aim, upper) = match rule {
            Rule::Exact(_) => return None,
            Rule::End(i, upper) => {
                let range = wider.ranges.get_mut(i)?;
                *(if upper { &mut range.most } else { &mut range.least }) = None;
                (self.row_of(rule, ANY_G_PER_ML).0, upper)
            }
            Rule::Bound(i) => {
                let bound = wider.bounds.remove(i);
                // an amount for each litre moves with the batch
                if !matches!(bound.rule, MassRule::Fixed(_)) {
                    return None;
                }
                let mut aim = vec![0.0; self.lines.len()];
                *aim.get_mut(bound.line)? = 1.0;
                (aim, bound.upper)
            }
        };
        if !upper {
            aim.iter_mut().for_each(|factor| *factor = -*factor);
        }
        let masses = wider.land(&[aim]).ok()?.masses;
        match self.target_of(rule) {
            Some((kind, _)) => value_of(kind, &self.liquid_of(&masses)),
            None => masses.get(self.bound_of(rule)?.line).copied(),
        }
    }
}
