//! One sugar, spirit, syrup or acid in place of another: the same grams of sugar, acid and alcohol in the
//! same volume.
//!
//! Both parts are rows of the one engine. What the old part was taken for fixes the mass of the new one,
//! the volume of the batch fixes the water; what else either of them brings (the sugar of a juice that
//! replaces a powder) is made good by another part of the card that brings it, if there is one.

mod place;

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::House;
use crate::properties::{amount_for, value_of};

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule, Yield};
use super::card::{self, Options};
use super::error::SwapError;
use super::resolve::FoundPart;
use super::target::{TargetValue, row, target_words, volume_ml};
use super::{Solved, SolvedPart, stage};
use place::{carrier, part_at, place_of, put_new, water_place};

/// What is kept.
pub const KEPT: [TargetKind; 3] = [TargetKind::Sugar, TargetKind::Acid, TargetKind::Abv];
/// Less than this in a gram of a part is not what it is taken for, and is not made good (ours).
const TAKEN_FOR: f64 = 0.002;

/// A swapped card.
#[derive(Clone, Debug)]
pub struct Swapped {
    /// The card as it stands.
    pub before: Solved,
    /// The card with the new part; parts stand in the same places, water that the card has not got behind.
    pub after: Solved,
    /// The old part as the card calls it.
    pub old: String,
    /// The new one.
    pub new: String,
    /// What is the same as before, to the last digit.
    pub kept: Vec<TargetKind>,
}

/// Swaps one part for another.
///
/// ```
/// use stillroom::house::House;
/// use stillroom::solver::swap::swap;
///
/// let text = "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 60\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"";
/// let (card, _) = stillroom::card::read("syrup.toml".into(), text.into());
/// let (swapped, _) = swap(&card.unwrap(), &House::default(), "white sugar", "honey");
/// let (before, after) = swapped.map(|s| (s.before, s.after)).unwrap();
/// // The same sugar in the same volume: more honey than sugar, less water.
/// assert!(after.last().parts[0].mass_g > before.last().parts[0].mass_g);
/// assert!((after.bottled().sugar_grams() - before.bottled().sugar_grams()).abs() < 1e-6);
/// ```
pub fn swap(card: &Card, house: &House, old: &str, new: &str) -> (Option<Swapped>, Vec<Diagnostic>) {
    let outcome = card::solve(card, house, &Options::default());
    let mut found = outcome.diagnostics;
    let Some(before) = outcome.solved.filter(|_| !any_error(&found)) else {
        return (None, found);
    };
    match swapped(card, house, before, old, new) {
        Ok(swapped) => {
            found.extend(remarks(&swapped));
            (Some(swapped), found)
        }
        Err(why) => {
            found.extend(why.diagnostics());
            (None, found)
        }
    }
}

fn swapped(card: &Card, house: &House, before: Solved, old: &str, new: &str) -> Result<Swapped, SwapError> {
    let place = place_of(house, &before, old)?;
    let old_part = part_at(&before, place).clone();
    let label = || old_part.label.clone();
    if old_part.feed.holds.is_some() {
        return Err(SwapError::Strained(label()));
    }
    let mut after = before.clone();
    let found = card::find(card, house, new, &mut after).map_err(SwapError::LookUp)?;
    let kind = taken_for(&old_part.found).ok_or_else(|| SwapError::BringsNothing(label()))?;
    let brings = amount_for(kind, &found.per_gram);
    if brings < TAKEN_FOR {
        return Err(SwapError::Lacks { new: new.to_owned(), old: label(), kind });
    }
    let fewer = amount_for(kind, &old_part.found.per_gram) / brings;
    put_new(&mut after, place, new, found, old_part.mass_g * fewer);
    let water = water_place(card, house, &mut after)?;
    let carrier = carrier(&after, place).ok_or_else(|| SwapError::NeverUsed(label()))?;
    let kept = solve_last(&before, &mut after, kind, &old_part, carrier, water)?;
    after.back_through_stages();
    Ok(Swapped { before, after, old: old_part.label, new: new.to_owned(), kept })
}

/// What a part is taken for: of sugar, acid and alcohol that which it brings most of.
fn taken_for(found: &FoundPart) -> Option<TargetKind> {
    let most =
        |a: &TargetKind, b: &TargetKind| amount_for(*a, &found.per_gram).total_cmp(&amount_for(*b, &found.per_gram));
    KEPT.into_iter().filter(|kind| amount_for(*kind, &found.per_gram) >= TAKEN_FOR).max_by(most)
}

/// The word for what is kept.
pub(crate) fn words(kind: TargetKind) -> &'static str {
    row(kind).brings
}

/// The masses of the last stage; what they keep.
fn solve_last(
    before: &Solved,
    after: &mut Solved,
    kind: TargetKind,
    old: &SolvedPart,
    carrier: usize,
    water: usize,
) -> Result<Vec<TargetKind>, SwapError> {
    let batch = *before.bottled();
    let ml = volume_ml(&batch).ok_or(SwapError::NoVolume)?;
    let Some(last) = after.stages.last_mut() else { return Ok(Vec::new()) };
    let target = |kind| value_of(kind, &batch).map(|value| (kind, value));
    let mut targets: Vec<TargetValue> = target(kind).into_iter().collect();
    let mut open = vec![carrier, water];
    // What else the two parts bring, and a part of the card that can make it good.
    for other in KEPT.into_iter().filter(|k| *k != kind) {
        let new = last.parts.get(carrier).map_or(0.0, |p| amount_for(other, &p.found.per_gram));
        if amount_for(other, &old.found.per_gram).max(new) < TAKEN_FOR {
            continue;
        }
        let can = |i: usize, p: &SolvedPart| {
            p.feed.holds.is_none() && !open.contains(&i) && taken_for(&p.found) == Some(other) && p.stage().is_none()
        };
        let made_good =
            last.parts.iter().enumerate().filter(|(i, p)| can(*i, p)).max_by(|a, b| {
                amount_for(other, &a.1.found.per_gram).total_cmp(&amount_for(other, &b.1.found.per_gram))
            });
        if let (Some((i, _)), Some(target)) = (made_good, target(other)) {
            open.push(i);
            targets.push(target);
        }
    }
    let lines: Vec<BalanceLine> = last
        .parts
        .iter()
        .enumerate()
        .map(|(i, p)| {
            p.feed
                .line(last.lost.evaporated, if open.contains(&i) { MassRule::Open } else { MassRule::Fixed(p.mass_g) })
        })
        .collect();
    let balance = MassBalance {
        lines: &lines,
        targets: &targets,
        yields: Some(Yield::Millilitres(ml)),
        left_behind: last.lost.left_behind,
    };
    // In an earlier stage old and new cannot stand side by side in the last one.
    let in_place = last.parts.get(carrier).is_some_and(|p| p.stage().is_none());
    let masses = balance.solve().map_err(|why| match why {
        BalanceError::Negative(short) => SwapError::Negative {
            short: short.iter().filter_map(|&i| Some(last.parts.get(i)?.label.clone())).collect(),
            water: short.contains(&water),
            old: (old.label.clone(), old.mass_g),
            most_g: in_place.then(|| most_that_can_go(&balance, old, last.lost.evaporated, &short)).flatten(),
        },
        why => SwapError::Engine(why),
    })?;
    for (part, mass) in last.parts.iter_mut().zip(masses) {
        part.mass_g = mass;
    }
    last.course = stage::run(last.parts.iter().map(|p| (&p.feed, p.mass_g)), last.lost);
    Ok(targets.into_iter().map(|(kind, _)| kind).collect())
}

/// Grams of the old part that can go before the first of what runs short is used up: old and new part side by
/// side, and none of that.
fn most_that_can_go(balance: &MassBalance<'_>, old: &SolvedPart, evaporated: f64, short: &[usize]) -> Option<f64> {
    let left = short.iter().filter_map(|&i| {
        let mut lines = balance.lines.to_vec();
        lines.get_mut(i)?.rule = MassRule::Fixed(0.0);
        lines.push(old.feed.line(evaporated, MassRule::Open));
        MassBalance { lines: &lines, ..balance.clone() }.solve().ok()?.last().copied()
    });
    left.max_by(f64::total_cmp).map(|left| old.mass_g - left).filter(|most| *most >= 0.0)
}

fn remarks(swapped: &Swapped) -> Vec<Diagnostic> {
    let mut found = vec![Diagnostic::note(
        Code::Assumed,
        format!("flavour, colour and texture are not kept: taste the batch with `{}` before it is served", swapped.new),
    )];
    let (before, after) = (swapped.before.bottled(), swapped.after.bottled());
    for kind in [TargetKind::Brix, TargetKind::Sugar, TargetKind::Acid, TargetKind::Abv] {
        let (Some(was), Some(is)) = (value_of(kind, before), value_of(kind, after)) else { continue };
        // Minerals without acid count below nothing: there is no acid to speak of.
        let (was_words, is_words) = (target_words(kind, was.max(0.0)), target_words(kind, is.max(0.0)));
        if was_words != is_words {
            found.push(Diagnostic::note(Code::Assumed, format!("not kept: {was_words} becomes {is_words}")));
        }
    }
    found
}
