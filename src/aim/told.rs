//! Where a card with room landed, and what one point more would cost.

use crate::card::{Amount, Card, Landed, LandedPart, LandedRange, OneMore, TargetKind, TargetRange};
use crate::diagnostic::Spanned;
use crate::properties::value_of;
use crate::solver::room::{Room, Rule};
use crate::solver::{Offer, Solved};

use super::Best;

/// `asked_for` is the batch that was asked for: what it comes to is of that size.
pub(super) fn landed(
    card: &Card,
    offer: &Offer,
    written: &[TargetRange],
    best: &Best,
    asked_for: Option<&Solved>,
) -> Landed {
    let (room, Best { corner, goal, ties, .. }) = (&offer.room, best);
    let liquid = room.liquid_of(&corner.masses);
    let times = asked_for.map_or(1.0, |solved| {
        let of_batch: f64 = solved.last().parts.iter().map(|part| part.mass_g).sum();
        of_batch / corner.masses.iter().sum::<f64>()
    });
    let stands_at = |rule: Rule| corner.is_pinned(rule);
    let moved: Vec<EndMoved> = (0..written.len()).map(|at| one_more(room, best, at, times)).collect();
    // what is dearer or cheaper with an end a point further stands there for that end
    let decides = |rule: Rule| {
        stands_at(rule)
            && match rule {
                Rule::End(at, _) if let Some(EndMoved::To(_)) = moved.get(at) => true,
                Rule::End(at, _) if let Some(EndMoved::Alike) = moved.get(at) => false,
                rule => matters(room, best, rule),
            }
    };
    let ranges = written.iter().zip(&room.ranges).enumerate().filter_map(|(i, (range, inside))| {
        let ends = [false, true].map(|upper| Rule::End(i, upper));
        let off = [range.least.zip(inside.least), range.most.zip(inside.most)];
        let kept_off = off.map(|end| end.map_or(0.0, |(written, inside)| (written - inside).abs()));
        let margin = kept_off.into_iter().zip(ends).find(|(_, rule)| stands_at(*rule)).map(|(off, _)| off);
        let binds = ends.map(decides);
        let is_tie = !binds.contains(&true) && ends.into_iter().any(stands_at);
        let margin = margin.filter(|off| *off > 0.0);
        Some(LandedRange {
            range: *range,
            inside: *inside,
            value: value_of(range.kind, &liquid)?,
            binds,
            is_tie,
            margin,
        })
    });
    let text = |span: crate::diagnostic::Span| {
        card.text.get(span.start..span.end).unwrap_or_default().trim_matches('"').to_owned()
    };
    let of_card = |bound: Spanned<Amount>| {
        let by_size = matches!(bound.value, Amount::Mass(_) | Amount::Volume(_)) && (times - 1.0).abs() > 1e-6;
        text(bound.span) + if by_size { " in the batch of the card" } else { "" }
    };
    let binds = |part: usize, upper: bool| {
        (0..room.bounds.len()).any(|at| offer.bound(at) == Some((part, upper)) && decides(Rule::Bound(at)))
    };
    let left_out = offer.left_out(corner);
    let bounded =
        card.last.parts.iter().enumerate().filter(|(at, _)| !left_out.contains(at)).filter_map(|(at, part)| {
            let written = [part.bounds.at_least, part.bounds.at_most].map(|bound| bound.map(of_card));
            let some = written.iter().any(Option::is_some);
            some.then(|| LandedPart {
                label: part.label.value.clone(),
                written,
                binds: [binds(at, false), binds(at, true)],
            })
        });
    let without = left_out.iter().filter_map(|part| card.last.parts.get(*part)).map(|part| part.label.value.clone());
    let mut said: Vec<String> = goal.iter().map(|goal| format!("counted: {}", goal.what)).collect();
    said.extend(best.how.clone());
    // the end behind those of the card
    let stays_dissolved = stands_at(Rule::End(written.len(), true));
    let ranges = ranges.collect();
    let parts = bounded.collect();
    let one_more = moved.into_iter().filter_map(|moved| if let EndMoved::To(more) = moved { Some(more) } else { None });
    let one_more = one_more.collect();
    Landed {
        aim: card.aim.map(|aim| aim.value),
        comes_to: goal.as_ref().map(|goal| goal.comes_to(&corner.masses, times)),
        ranges,
        parts,
        without: without.collect(),
        use_up: goal.as_ref().map(|goal| goal.use_up.clone()).unwrap_or_default(),
        one_more,
        how: said,
        of_equals: ties.taken(),
        stays_dissolved,
    }
}

/// Whether the answer would be a better one without a rule that it stands at.
fn matters(room: &Room, best: &Best, rule: Rule) -> bool {
    let Some(goal) = &best.goal else { return !best.is_tie };
    let mut without = room.clone();
    match rule {
        Rule::End(at, upper) => {
            if let Some(range) = without.ranges.get_mut(at) {
                *(if upper { &mut range.most } else { &mut range.least }) = None;
            }
        }
        Rule::Bound(at) => drop(without.bounds.remove(at)),
        Rule::Exact(_) => return true,
    }
    // without it there may be no end, or nothing that the engine knows
    let Ok(other) = without.land(std::slice::from_ref(&goal.per_gram)) else { return true };
    goal.is_less(&other.masses, &best.corner.masses) == Some(true)
}

/// One point, as it is spoken of: a per cent of strength, a degree Brix, ten grams of sugar or one of acid in a litre.
fn point(kind: TargetKind) -> f64 {
    match kind {
        TargetKind::Sugar => 10.0,
        TargetKind::Brix | TargetKind::Abv | TargetKind::Acid | TargetKind::Ph => 1.0,
    }
}

/// A range of which the end that the answer stands at is moved by a point.
enum EndMoved {
    /// It comes to more or less.
    To(OneMore),
    /// It comes to the same.
    Alike,
    /// Nothing says what it comes to: the answer stands at no end, nothing is counted, or there is no answer.
    NotKnown,
}

/// The end moved by a point, and solved again.
fn one_more(room: &Room, best: &Best, at: usize, times: f64) -> EndMoved {
    let (Best { corner, goal: Some(goal), .. }, Some(range)) = (best, room.ranges.get(at)) else {
        return EndMoved::NotKnown;
    };
    let step = point(range.kind);
    let mut again = room.clone();
    let Some(own) = again.ranges.get_mut(at) else { return EndMoved::NotKnown };
    match (range.least, range.most) {
        (Some(least), most) if corner.is_pinned(Rule::End(at, false)) => {
            own.least = Some(least + step);
            own.most = most.map(|most| most.max(least + step));
        }
        (_, Some(most)) if corner.is_pinned(Rule::End(at, true)) => own.most = Some(most + step),
        _ => return EndMoved::NotKnown,
    }
    let Ok(after) = again.land(std::slice::from_ref(&goal.per_gram)) else { return EndMoved::NotKnown };
    match goal.is_less(&after.masses, &corner.masses) {
        Some(_) => {
            let more = goal.sum(&after.masses) - goal.sum(&corner.masses);
            EndMoved::To(OneMore { kind: range.kind, step, adds: goal.said(times * more) })
        }
        None => EndMoved::Alike,
    }
}
