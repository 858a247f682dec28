//! What is on the shelf to adjust a batch with, the lightest set of additions that meets the targets, and why there is none.

use crate::card::{Amount, Card};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;

use super::super::balance::{BalanceError, BalanceLine, MassBalance, MassRule};
use super::super::target::{TargetValue, target_words};
use super::super::{Solved, SolvedPart, card};

/// More parts than this on the shelf are not searched: every set of them is tried.
pub(super) const MOST_PARTS: usize = 16;
/// Above this share of sugar a part is a sugar or a syrup.
const IS_SWEET: f64 = 0.3;

/// What is taken together from the shelf: one part, or a blend in its ratio (the masses are the shares).
pub(super) type ShelfChoice = Vec<SolvedPart>;

/// The parts that the command names, in an order of their own: how they were named must not matter.
pub(super) fn named(
    card: &Card,
    house: &House,
    names: &[String],
    solved: &mut Solved,
) -> Result<Vec<ShelfChoice>, Vec<Diagnostic>> {
    let mut sorted: Vec<&str> = names.iter().map(|n| n.trim()).filter(|n| !n.is_empty()).collect();
    sorted.sort_unstable();
    let mut shelf = Vec::new();
    let mut wrong = Vec::new();
    for name in sorted {
        match card::find(card, house, name, solved) {
            Ok(found) => put(&mut shelf, vec![SolvedPart::added(name, found, 1.0)]),
            Err(why) => wrong.extend(why),
        }
    }
    if wrong.is_empty() { Ok(shelf) } else { Err(wrong) }
}

/// The parts that the card leaves open, its sugar, and water. Acids that it gives in a ratio stay in it.
pub(super) fn of_card(card: &Card, house: &House, solved: &mut Solved) -> Result<Vec<ShelfChoice>, Vec<Diagnostic>> {
    let mut shelf: Vec<ShelfChoice> = Vec::new();
    let mut blend: ShelfChoice = Vec::new();
    for (part, written) in solved.last().parts.iter().zip(&card.last.parts) {
        let again = |share| SolvedPart::added(&part.label, part.found.clone(), share);
        let in_ratio = matches!(written.amount.value, Amount::Parts { .. });
        if written.is_strained() {
            continue;
        }
        if in_ratio && part.found.per_gram.is_acid() {
            blend.push(again(part.mass_g));
        } else if in_ratio || part.solved || part.found.per_gram.sugar_grams() > IS_SWEET {
            put(&mut shelf, vec![again(1.0)]);
        }
    }
    if !blend.is_empty() {
        shelf.push(blend);
    }
    let water = card::find(card, house, "water", solved)?;
    put(&mut shelf, vec![SolvedPart::added("water", water, 1.0)]);
    Ok(shelf)
}

fn put(shelf: &mut Vec<ShelfChoice>, choice: ShelfChoice) {
    let same = |a: &ShelfChoice, b: &ShelfChoice| {
        a.len() == b.len() && a.iter().zip(b).all(|(x, y)| x.found.per_gram == y.found.per_gram)
    };
    if !shelf.iter().any(|there| same(there, &choice)) {
        shelf.push(choice);
    }
}

/// How well a property that no part is there to mend must sit already, as a share of it.
const ALREADY: f64 = 1e-9;
/// Less than this share of the batch is nothing.
const NOTHING: f64 = 1e-9;

fn is_met(asked: f64, gives: f64) -> bool {
    (gives - asked).abs() <= ALREADY * asked.abs().max(1.0)
}

/// The lightest addition that meets the targets, or the density that could not be computed on the way.
pub(super) fn least(
    batch: &Mixture,
    shelf: &[ShelfChoice],
    targets: &[TargetValue],
) -> Result<Vec<SolvedPart>, Option<BalanceError>> {
    let mut best: Option<(f64, Vec<SolvedPart>)> = None;
    let mut no_density = None;
    for parts in subsets(shelf.len(), targets.len()) {
        let choices: Vec<&ShelfChoice> = pick(shelf, parts).collect();
        let chosen: Vec<&SolvedPart> = choices.iter().copied().flatten().collect();
        let lines = lines(batch, &choices);
        for rules in subsets(targets.len(), targets.len()).filter(|r| r.count_ones() == parts.count_ones()) {
            let used: Vec<TargetValue> = pick(targets, rules).copied().collect();
            let balance = MassBalance { lines: &lines, targets: &used, yields: None, left_behind: 0.0 };
            let masses = match balance.solve() {
                Ok(mut masses) => masses.split_off(1),
                Err(why) => {
                    if matches!(why, BalanceError::NoDensity(_) | BalanceError::NoDensityFits) {
                        no_density = Some(why);
                    }
                    continue;
                }
            };
            let add: f64 = masses.iter().sum();
            let made = *batch + chosen.iter().zip(&masses).map(|(p, m)| p.found.per_gram * *m).sum();
            let met = |&(kind, asked): &TargetValue| value_of(kind, &made).is_some_and(|gives| is_met(asked, gives));
            // A set with more parts must be lighter, not alike.
            let lighter = best.as_ref().is_none_or(|(least, _)| add < least - NOTHING * batch.total_grams());
            if lighter && targets.iter().all(met) {
                let part = |(p, m): (&&SolvedPart, &f64)| SolvedPart { mass_g: *m, ..(*p).clone() };
                let some = |p: &SolvedPart| p.mass_g > NOTHING * batch.total_grams();
                best = Some((add, chosen.iter().zip(&masses).map(part).filter(some).collect()));
            }
        }
    }
    best.map(|(_, add)| add).ok_or(no_density)
}

/// The engine's lines: the batch as a fixed row, then the parts of these choices.
fn lines(batch: &Mixture, choices: &[&ShelfChoice]) -> Vec<BalanceLine> {
    let fixed = BalanceLine { joins: batch.per_gram(), keeps: 0.0, rule: MassRule::Fixed(batch.total_grams()) };
    let added = choices.iter().flat_map(|choice| {
        choice.iter().map(|part| {
            let rule = if choice.len() == 1 { MassRule::Open } else { MassRule::Ratio(part.mass_g) };
            part.feed.line(0.0, rule)
        })
    });
    [fixed].into_iter().chain(added).collect()
}

/// All sets of up to `most` of `count` things, as bits, the smaller sets first.
fn subsets(count: usize, most: usize) -> impl Iterator<Item = u32> {
    let all = 1_u32.checked_shl(u32::try_from(count).unwrap_or(u32::MAX)).unwrap_or(0);
    (0..=most).flat_map(move |size| (0..all).filter(move |set| set.count_ones() as usize == size))
}

fn pick<T>(things: &[T], set: u32) -> impl Iterator<Item = &T> {
    things.iter().enumerate().filter(move |(i, _)| set >> i & 1 == 1).map(|(_, thing)| thing)
}

pub(super) fn no_answer(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    (shelf, is_named): (&[ShelfChoice], bool),
    targets: &[TargetValue],
) -> Diagnostic {
    let has = |&(kind, asked): &TargetValue| value_of(kind, batch).filter(|has| !is_met(asked, *has));
    let on_shelf: Vec<&SolvedPart> = shelf.iter().flatten().collect();
    // where nobody named what is at hand, what is on the card is
    let of_card: Vec<Mixture> = if is_named { Vec::new() } else { solved.parts().map(|p| p.found.per_gram).collect() };
    let at_hand = |part: &SolvedPart| {
        let alike = |per_gram: &Mixture| *per_gram == part.found.per_gram;
        of_card.iter().any(alike) || on_shelf.iter().any(|p| alike(&p.found.per_gram))
    };
    let part =
        |p: &SolvedPart| format!("{:.0} g `{}`{}", p.mass_g, p.label, if at_hand(p) { "" } else { " (missing)" });
    let would = with_everything(card, house, solved, batch, shelf, targets)
        .map(|add| format!("it would take {}", add.iter().map(part).collect::<Vec<_>>().join(" and ")));
    let boil = water_to_boil_off(card, house, solved, batch, targets).map(|water_g| {
        let left_g = batch.total_grams() - water_g;
        format!("boil off {water_g:.0} g of water: the pan then holds {left_g:.0} g")
    });
    let ways: Vec<String> = would.into_iter().chain(boil).collect();
    let with: Vec<_> = on_shelf.iter().map(|part| format!("`{}`", part.label)).collect();
    let title = format!(
        "adding {} cannot bring this batch to {}: {}",
        if with.is_empty() { "nothing".to_owned() } else { with.join(", ") },
        wish(targets),
        targets.iter().filter_map(|target| Some(how_far_off(target, has(target)?))).collect::<Vec<_>>().join("; ")
    );
    Diagnostic::error(Code::OutOfReach, title).help(if ways.is_empty() {
        "what is in it would have to be taken out again, and that cannot be done: draw off a part of it, and \
         blend the rest into a fresh batch that is made weaker in what this one has too much of"
            .to_owned()
    } else {
        ways.join(", or ")
    })
}

pub(super) fn wish(targets: &[TargetValue]) -> String {
    targets.iter().map(|&(kind, value)| target_words(kind, value)).collect::<Vec<_>>().join(" and ")
}

fn how_far_off(&(kind, asked): &TargetValue, has: f64) -> String {
    let too = if has > asked { "much" } else { "little" };
    format!("it has {}, {} too {too}", target_words(kind, has), target_words(kind, (asked - has).abs()))
}

/// What would do it if every part of the card that can be stirred in, a sugar and water were at hand.
fn with_everything(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    shelf: &[ShelfChoice],
    targets: &[TargetValue],
) -> Option<Vec<SolvedPart>> {
    let mut all = shelf.to_vec();
    for p in solved.parts().filter(|p| p.feed.holds.is_none() && p.stage().is_none()) {
        put(&mut all, vec![SolvedPart::added(&p.label, p.found.clone(), 1.0)]);
    }
    for name in ["water", "white sugar"] {
        if let Ok(found) = card::find(card, house, name, solved) {
            put(&mut all, vec![SolvedPart::added(name, found, 1.0)]);
        }
    }
    all.truncate(MOST_PARTS);
    least(batch, &all, targets).ok()
}

/// Water whose loss alone would do it: for one property of a batch without spirit.
fn water_to_boil_off(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    targets: &[TargetValue],
) -> Option<f64> {
    if targets.len() != 1 || batch.grams_of(Component::Ethanol) > 0.0 {
        return None;
    }
    let water = vec![SolvedPart::added("water", card::find(card, house, "water", solved).ok()?, 1.0)];
    let lines = lines(batch, &[&water]);
    let masses = MassBalance { lines: &lines, targets, yields: None, left_behind: 0.0 }.solve_signed().ok()?;
    let gone = -masses.last()?;
    (gone > 0.0 && gone < batch.grams_of(Component::Water)).then_some(gone)
}
