//! Where a card with room landed, and what one point more would cost.

use crate::card::{Card, Landed, LandedPart, LandedRange, OneMore, TargetKind, TargetRange};
use crate::properties::value_of;
use crate::solver::Offer;
use crate::solver::room::{BestCorner, Pin, Room, Rule};

use super::goal::Goal;

pub(super) fn landed(
    card: &Card,
    offer: &Offer,
    written: &[TargetRange],
    corner: &BestCorner,
    goal: Option<&Goal>,
    how: Option<String>,
) -> Landed {
    let room = &offer.room;
    let liquid = room.liquid_of(&corner.masses);
    let ranges = written.iter().zip(&room.ranges).enumerate().filter_map(|(i, (range, inside))| {
        let binds = [false, true].map(|upper| corner.is_pinned(Rule::End(i, upper)));
        let ends = [range.least.zip(inside.least), range.most.zip(inside.most)];
        let kept_off = ends.map(|end| end.map_or(0.0, |(written, inside)| (written - inside).abs()));
        let decides = kept_off.into_iter().zip(binds).find(|(_, binds)| *binds);
        let margin = decides.map(|(off, _)| off).filter(|off| *off > 0.0);
        Some(LandedRange { range: *range, value: value_of(range.kind, &liquid)?, binds, margin })
    });
    let text = |span: crate::diagnostic::Span| {
        card.text.get(span.start..span.end).unwrap_or_default().trim_matches('"').to_owned()
    };
    let binds = |part: usize, upper: bool| {
        (0..room.bounds.len()).any(|at| offer.bound(at) == Some((part, upper)) && corner.is_pinned(Rule::Bound(at)))
    };
    let bounded = card.last.parts.iter().enumerate().filter_map(|(at, part)| {
        let written = [part.bounds.at_least, part.bounds.at_most].map(|bound| bound.map(|bound| text(bound.span)));
        let some = written.iter().any(Option::is_some);
        some.then(|| LandedPart {
            label: part.label.value.clone(),
            written,
            binds: [binds(at, false), binds(at, true)],
        })
    });
    let without = corner.pins.iter().filter_map(|pin| match pin {
        Pin::Zero(i) => card.last.parts.get(*i).map(|part| part.label.value.clone()),
        Pin::Rule(_) => None,
    });
    let mut said: Vec<String> = goal.map(|goal| format!("counted: {}", goal.what)).into_iter().collect();
    said.extend(how);
    Landed {
        aim: card.aim.map(|aim| aim.value),
        comes_to: goal.map(|goal| goal.comes_to(&corner.masses)),
        ranges: ranges.collect(),
        parts: bounded.collect(),
        without: without.collect(),
        use_up: goal.map(|goal| goal.use_up.clone()).unwrap_or_default(),
        one_more: goal.map_or_else(Vec::new, |goal| one_more(room, corner, goal)),
        how: said,
    }
}

/// One point, as it is spoken of: a per cent of strength, a degree Brix, ten grams of sugar or one of acid in a litre.
fn point(kind: TargetKind) -> f64 {
    match kind {
        TargetKind::Sugar => 10.0,
        TargetKind::Brix | TargetKind::Abv | TargetKind::Acid | TargetKind::Ph => 1.0,
    }
}

/// For each range that binds: the end moved by a point, and solved again.
fn one_more(room: &Room, corner: &BestCorner, goal: &Goal) -> Vec<OneMore> {
    let before = goal.sum(&corner.masses);
    let moved = |(at, range): (usize, &TargetRange)| {
        let step = point(range.kind);
        let (lower, upper) = (corner.is_pinned(Rule::End(at, false)), corner.is_pinned(Rule::End(at, true)));
        let mut again = room.clone();
        let own = again.ranges.get_mut(at)?;
        if lower {
            own.least = Some(range.least? + step);
            own.most = range.most.map(|most| most.max(range.least.unwrap_or(most) + step));
        } else if upper {
            own.most = Some(range.most? + step);
        } else {
            return None;
        }
        let after = again.land(std::slice::from_ref(&goal.per_gram)).ok()?;
        Some(OneMore { kind: range.kind, step, adds: goal.said(goal.sum(&after.masses) - before) })
    };
    room.ranges.iter().enumerate().filter_map(moved).collect()
}
