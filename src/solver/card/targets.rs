//! The masses of the last stage from the card's targets and its size.

use crate::card::{Amount, Card, Part, TargetKind};
use crate::diagnostic::Spanned;
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;

use super::super::Solved;
use super::super::balance::{BalanceLine, MassBalance, MassRule, Yield};
use super::super::explain::{reach, room, rules};
use super::super::ph;
use super::super::target::{TargetValue, agrees, volume_ml};
use super::cook::{BatchSize, Cook, Options, ReadyStage, yield_of};

impl Cook<'_> {
    pub(super) fn last_masses(
        &mut self,
        card: &Card,
        ready: &mut ReadyStage,
        targets: &[TargetValue],
        options: &Options,
    ) -> Option<Vec<f64>> {
        let mut lines = ready.lines.clone();
        let boils = card.last.loss.evaporated_as_needed.map(|_| lines.len());
        if boils.is_some() {
            lines.push(BalanceLine::boiled_off());
        }
        let makes = match &options.size {
            // A card that says nothing of its size can be made in the size that is asked for.
            Some(BatchSize::Makes(makes)) if card.makes.is_none() => Some(*makes),
            _ => card.makes.as_ref().map(|m| m.value),
        };
        let mut balance = MassBalance { lines: &lines, targets, yields: None, left_behind: ready.lost.left_behind };
        let unknowns = balance.unknowns();
        // Where no amount is written the size is a rule that cannot be left to a comparison.
        let anchored = lines.iter().any(|l| matches!(l.rule, MassRule::Fixed(g) if g > 0.0));
        let by_size = unknowns > 0 && (unknowns == targets.len() + 1 || (!anchored && unknowns <= targets.len()));
        if by_size {
            // A size taken from one part scales the whole card: any size will do to begin with, but beside an amount that is
            // written, which stands in no ratio to what is open.
            let any_size = (options.size.is_some() && !anchored).then_some(Yield::Grams(1000.0));
            balance.yields = makes.map(|m| yield_of(&m)).or(any_size);
            if balance.yields.is_none() {
                let ratio = lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
                self.refuse(rules::no_size(card, ratio));
                return None;
            }
        } else if card.has_room() && unknowns > targets.len() + usize::from(makes.is_some() || options.size.is_some()) {
            let sized = makes.is_some() || options.size.is_some() || anchored;
            let ratio = lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
            self.refuse(if sized { room::not_chosen(card, &balance) } else { rules::no_size(card, ratio) });
            return None;
        } else if unknowns > targets.len() + 1 {
            self.refuse(rules::too_few(card, &balance, makes.is_some()));
            return None;
        }
        let kept = targets.len().min(if by_size { unknowns - 1 } else { unknowns });
        let (used, rest) = targets.split_at(kept);
        balance.targets = used;
        let masses = match used.iter().position(|(kind, _)| *kind == TargetKind::Ph) {
            None => balance.solve().map_err(|why| reach::reasons(card, &balance, boils, why)),
            Some(index) => ph::masses(card, &balance, boils, index),
        };
        let masses = match masses {
            Ok(masses) if masses.iter().all(|m| *m == 0.0) => Err(vec![rules::not_the_whole(card).into()]),
            other => other,
        };
        match masses {
            Ok(masses) => {
                self.compare_targets(card, &balance, rest, &balance.liquid_of(&masses));
                self.evaporated_as_found(card, ready, &masses)?;
                Some(masses)
            }
            Err(why) => {
                why.into_iter().for_each(|why| self.refuse(why));
                None
            }
        }
    }

    /// Puts the water that was found to boil off, the mass behind those of the parts, in place of a share
    /// that the card states.
    fn evaporated_as_found(&mut self, card: &Card, ready: &mut ReadyStage, masses: &[f64]) -> Option<()> {
        let Some(&boiled_off) = masses.get(ready.parts.len()) else { return Some(()) };
        let parts = ready.parts.iter().zip(masses);
        let water: f64 = parts.map(|((_, feed), m)| feed.per_gram.grams_of(Component::Water) * m).sum();
        if boiled_off > water {
            self.refuse(reach::too_little_water(card));
            return None;
        }
        ready.lost.evaporated = if water > 0.0 { boiled_off / water } else { 0.0 };
        Some(())
    }

    /// Whether the targets that fixed nothing are met all the same.
    fn compare_targets(&mut self, card: &Card, balance: &MassBalance<'_>, targets: &[TargetValue], liquid: &Mixture) {
        for &(kind, asked) in targets {
            let gives = match kind {
                TargetKind::Ph => match ph::ph_at_20(liquid) {
                    Ok(gives) => Some(gives),
                    Err(why) => {
                        self.refuse(reach::no_ph(card, asked, &why));
                        None
                    }
                },
                kind => value_of(kind, liquid),
            };
            if let Some(gives) = gives.filter(|gives| !agrees(kind, asked, *gives)) {
                self.refuse(rules::target_missed(card, balance, (kind, asked), gives));
            }
        }
    }

    /// Whether what came out lies in the room that the card gives: every range and every bound on the exact answer. A target
    /// that was asked for in place of a range is held by itself.
    pub(super) fn compare_room(&mut self, card: &Card, solved: &Solved) {
        let liquid = solved.bottled();
        let is_set =
            |kind| solved.targets.iter().any(|(own, _)| *own == kind) && !card.targets.iter().any(|t| t.kind == kind);
        for range in card.ranges.iter().filter(|range| !is_set(range.kind)) {
            let gives = value_of(range.kind, liquid);
            if let Some(gives) = gives.filter(|gives| !is_kept(*gives, range.least, range.most)) {
                self.refuse(room::outside(card, range, gives));
            }
        }
        let litres = volume_ml(liquid).map(|ml| ml / 1000.0);
        for (part, written) in solved.last().parts.iter().zip(&card.last.parts) {
            let in_grams = |bound: Option<Spanned<Amount>>| {
                let written = Part { amount: bound?, ..written.clone() };
                match part.found.rule(&written).ok()? {
                    MassRule::Fixed(g) => Some(g),
                    MassRule::Dose(d) => Some(1000.0 * d * litres?),
                    MassRule::Share(p) => Some(p * liquid.total_grams()),
                    MassRule::Open | MassRule::Ratio(_) => None,
                }
            };
            let [least, most] = [written.bounds.at_least, written.bounds.at_most].map(in_grams);
            if !is_kept(part.mass_g, least, most) {
                self.refuse(room::beyond(card, written, part.mass_g, [least, most]));
            }
        }
    }
}

/// Whether a value lies between two ends, but for rounding of f64.
fn is_kept(value: f64, least: Option<f64>, most: Option<f64>) -> bool {
    let rounding = |end: f64| 1e-7 * end.abs().max(1.0);
    least.is_none_or(|least| value >= least - rounding(least)) && most.is_none_or(|most| value <= most + rounding(most))
}
