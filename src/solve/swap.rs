//! One sugar, spirit, syrup or acid in place of another: the same grams of sugar, acid and alcohol in the
//! same volume.
//!
//! Both parts are rows of the one engine. What the old part was taken for fixes the mass of the new one,
//! the volume of the batch fixes the water; what else either of them brings (the sugar of a juice that
//! replaces a powder) is made good by another part of the card that brings it, if there is one.

use std::collections::BTreeSet;

use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::formula::{Formula, TargetKind};
use crate::house::House;
use crate::larder::names;

use super::balance::{Balance, Goal, Line, Rule, Trouble, Yield, amount_for, value_of};
use super::card::{self, Options, back_through_stages, volume_ml};
use super::resolve::{Found, What};
use super::stage::Feed;
use super::{Solved, SolvedPart, stage};

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

impl Swapped {
    /// Allergens that come in, and allergens that go.
    pub fn allergens(&self) -> (Vec<String>, Vec<String>) {
        let of = |solved: &Solved| -> BTreeSet<String> {
            solved.ingredients().into_iter().filter(|(_, g)| *g > 0.0).flat_map(|(i, _)| i.allergens.clone()).collect()
        };
        let (before, after) = (of(&self.before), of(&self.after));
        (after.difference(&before).cloned().collect(), before.difference(&after).cloned().collect())
    }
}

/// Swaps one part for another.
pub fn swap(card: &Formula, house: &House, old: &str, new: &str) -> (Option<Swapped>, Vec<Diagnostic>) {
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
            found.extend(why);
            (None, found)
        }
    }
}

/// The place of a part: its stage, and where it stands in it.
type Place = (usize, usize);

fn swapped(card: &Formula, house: &House, before: Solved, old: &str, new: &str) -> Result<Swapped, Vec<Diagnostic>> {
    let place = place_of(house, &before, old).map_err(one)?;
    let old_part = part_at(&before, place).ok_or_else(Vec::new)?.clone();
    if old_part.feed.holds.is_some() {
        return Err(one(Diagnostic::error(
            Code::BadArgument,
            format!(
                "`{}` is strained out again: what it leaves behind is flavour, which is not computed",
                old_part.label
            ),
        )
        .help("swap a sugar, a syrup, a spirit, a juice or an acid")));
    }
    let mut after = before.clone();
    let found = card::find(card, house, new, &mut after)?;
    let kind = taken_for(&old_part.found).ok_or_else(|| {
        one(Diagnostic::error(
            Code::BadArgument,
            format!("`{}` brings no sugar, no acid and no alcohol that could be kept", old_part.label),
        )
        .help("swap a sugar, a syrup, a spirit, a juice or an acid"))
    })?;
    let brings = amount_for(kind, &found.per_gram);
    if brings < TAKEN_FOR {
        return Err(one(Diagnostic::error(
            Code::OutOfReach,
            format!("`{new}` brings no {}, which is what `{}` is there for", words(kind), old_part.label),
        )
        .help(format!("take a part that brings {}", words(kind)))));
    }
    let fewer = amount_for(kind, &old_part.found.per_gram) / brings;
    put_new(&mut after, place, new, found, old_part.mass_g * fewer);
    let water = water_place(card, house, &mut after)?;
    let carrier = carrier(&after, place).ok_or_else(|| {
        one(Diagnostic::error(Code::Unused, format!("`{}` never comes into the finished batch", old_part.label))
            .help("use its stage, or take it off the card"))
    })?;
    let kept = solve_last(&before, &mut after, kind, &old_part, carrier, water).map_err(one)?;
    back_through_stages(&mut after);
    Ok(Swapped { before, after, old: old_part.label, new: new.to_owned(), kept })
}

fn one(diagnostic: Diagnostic) -> Vec<Diagnostic> {
    vec![diagnostic]
}

fn part_at(solved: &Solved, (stage, part): Place) -> Option<&SolvedPart> {
    solved.stages.get(stage)?.parts.get(part)
}

/// Where the old part stands: by its name on the card or in the larder, the last stage first.
fn place_of(house: &House, solved: &Solved, old: &str) -> Result<Place, Diagnostic> {
    let id = house.larder.find(old).map(|i| i.id.as_str());
    let means = |part: &SolvedPart| {
        let same_id = matches!(&part.found.what, What::Ingredient(i) if Some(i.id.as_str()) == id);
        same_id || [&part.label, &part.of].iter().any(|name| names::fold(name) == names::fold(old))
    };
    let places = || {
        let stages = solved.stages.iter().enumerate().rev();
        stages.flat_map(|(s, stage)| stage.parts.iter().enumerate().map(move |(p, part)| ((s, p), part)))
    };
    places().find(|(_, part)| means(part)).map(|(place, _)| place).ok_or_else(|| {
        let near = crate::text::nearest(old, places().map(|(_, p)| p.label.as_str()));
        let listed: Vec<_> = places().map(|(_, p)| p.label.as_str()).collect();
        Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{old}`")).help(
            near.map_or_else(|| format!("its parts are: {}", listed.join(", ")), |n| format!("did you mean `{n}`?")),
        )
    })
}

/// What a part is taken for: of sugar, acid and alcohol that which it brings most of.
fn taken_for(found: &Found) -> Option<TargetKind> {
    let most =
        |a: &TargetKind, b: &TargetKind| amount_for(*a, &found.per_gram).total_cmp(&amount_for(*b, &found.per_gram));
    KEPT.into_iter().filter(|kind| amount_for(*kind, &found.per_gram) >= TAKEN_FOR).max_by(most)
}

/// The word for what is kept.
pub fn words(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Sugar => "sugar",
        TargetKind::Acid => "acid",
        TargetKind::Abv => "alcohol",
        TargetKind::Brix | TargetKind::Ph => "of that",
    }
}

/// Puts the new part where the old one stood and runs the earlier stages forward.
fn put_new(after: &mut Solved, place: Place, new: &str, found: Found, mass_g: f64) {
    let part = after.stages.get_mut(place.0).and_then(|s| s.parts.get_mut(place.1));
    if let Some(part) = part {
        *part = SolvedPart {
            label: new.to_owned(),
            of: new.to_owned(),
            feed: Feed { per_gram: found.per_gram, holds: None },
            found,
            mass_g,
            solved: true,
            written: String::new(),
        };
    }
    *after = after.weighed(|part| part.mass_g);
}

/// The water of the last stage; none of it is put there if the card has not got any.
fn water_place(card: &Formula, house: &House, after: &mut Solved) -> Result<usize, Vec<Diagnostic>> {
    let water = card::find(card, house, "water", after)?;
    let Some(last) = after.stages.last_mut() else { return Ok(0) };
    let is_water = |part: &SolvedPart| part.found.per_gram == water.per_gram && part.feed.holds.is_none();
    if let Some(place) = last.parts.iter().position(is_water) {
        return Ok(place);
    }
    last.parts.push(SolvedPart {
        label: "water".to_owned(),
        of: "water".to_owned(),
        feed: Feed { per_gram: water.per_gram, holds: None },
        found: water,
        mass_g: 0.0,
        solved: true,
        written: String::new(),
    });
    Ok(last.parts.len() - 1)
}

/// The part of the last stage that has the new part in it: itself, or the stage that it went into.
fn carrier(after: &Solved, place: Place) -> Option<usize> {
    let last = after.stages.len().checked_sub(1)?;
    if place.0 == last {
        return Some(place.1);
    }
    let mut holding = BTreeSet::from([place.0]);
    for (i, stage) in after.stages.iter().enumerate().take(last) {
        if stage.parts.iter().any(|p| p.stage().is_some_and(|s| holding.contains(&s))) {
            holding.insert(i);
        }
    }
    after.stages.get(last)?.parts.iter().position(|p| p.stage().is_some_and(|s| holding.contains(&s)))
}

/// The masses of the last stage; what they keep.
fn solve_last(
    before: &Solved,
    after: &mut Solved,
    kind: TargetKind,
    old: &SolvedPart,
    carrier: usize,
    water: usize,
) -> Result<Vec<TargetKind>, Diagnostic> {
    let batch = *before.bottled();
    let Some(ml) = volume_ml(&batch) else {
        return Err(Diagnostic::error(Code::NoDensity, "the volume of the batch cannot be computed")
            .help("swap in the card by hand: the same grams of sugar, acid or alcohol"));
    };
    let Some(last) = after.stages.last_mut() else { return Ok(Vec::new()) };
    let goal = |kind| value_of(kind, &batch).map(|value| (kind, value));
    let mut goals: Vec<Goal> = goal(kind).into_iter().collect();
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
        if let (Some((i, _)), Some(goal)) = (made_good, goal(other)) {
            open.push(i);
            goals.push(goal);
        }
    }
    let lines: Vec<Line> = last
        .parts
        .iter()
        .enumerate()
        .map(|(i, p)| {
            p.feed.line(last.lost.evaporated, if open.contains(&i) { Rule::Open } else { Rule::Fixed(p.mass_g) })
        })
        .collect();
    let balance = Balance {
        lines: &lines,
        goals: &goals,
        yields: Some(Yield::Millilitres(ml)),
        left_behind: last.lost.left_behind,
    };
    let label = |i: usize| last.parts.get(i).map_or("?", |p| p.label.as_str());
    let masses = match balance.solve() {
        Ok(masses) => masses,
        Err(Trouble::Negative(short)) => {
            let signed = balance.solve_signed().unwrap_or_default();
            return Err(too_much(old, &label, &short, &signed, water, &last.parts));
        }
        Err(why) => {
            return Err(Diagnostic::error(Code::OutOfReach, format!("no masses keep this batch as it is ({why:?})"))
                .help("the new part may be too like another part of the card: take that one off first"));
        }
    };
    for (part, mass) in last.parts.iter_mut().zip(masses) {
        part.mass_g = mass;
    }
    last.course = stage::run(last.parts.iter().map(|p| (&p.feed, p.mass_g)), last.lost);
    Ok(goals.into_iter().map(|(kind, _)| kind).collect())
}

/// Something would have to be taken out again.
fn too_much<'a>(
    old: &SolvedPart,
    label: &impl Fn(usize) -> &'a str,
    short: &[usize],
    signed: &[f64],
    water: usize,
    parts: &[SolvedPart],
) -> Diagnostic {
    let lacking = |i: usize| -signed.get(i).copied().unwrap_or_default();
    let said: Vec<_> = short.iter().map(|&i| format!("{:.0} g less than no `{}`", lacking(i), label(i))).collect();
    // The masses move in a straight line, or nearly: this share of the old part can go before the first runs out.
    let share = short
        .iter()
        .filter_map(|&i| {
            let had = parts.get(i)?.mass_g;
            Some(had / (had + lacking(i)))
        })
        .fold(1.0, f64::min);
    let diagnostic =
        Diagnostic::error(Code::OutOfReach, format!("the batch would need {} to stay as it is", said.join(" and ")));
    diagnostic.help(if short.contains(&water) {
        format!(
            "the new part brings more water than the card has to give: at most about {:.0} g of the {:.0} g `{}` can be \
             swapped, or take a stronger part",
            (share * old.mass_g).floor(),
            old.mass_g,
            old.label
        )
    } else {
        format!(
            "the new part brings too much of it: at most about {:.0} g of the {:.0} g `{}` can be swapped",
            (share * old.mass_g).floor(),
            old.mass_g,
            old.label
        )
    })
}

/// What is not kept.
fn remarks(swapped: &Swapped) -> Vec<Diagnostic> {
    let mut found = vec![Diagnostic::note(
        Code::Assumed,
        format!("flavour, colour and texture are not kept: taste the batch with `{}` before it is served", swapped.new),
    )];
    let (came, went) = swapped.allergens();
    if !came.is_empty() {
        found.push(
            Diagnostic::warning(
                Code::AllergenAdded,
                format!("`{}` brings an allergen that was not there: {}", swapped.new, came.join(", ")),
            )
            .help("change the label and tell whoever serves it"),
        );
    }
    if !went.is_empty() {
        found.push(Diagnostic::note(Code::Assumed, format!("no longer in it: {}", went.join(", "))));
    }
    let (before, after) = (swapped.before.bottled(), swapped.after.bottled());
    for kind in [TargetKind::Brix, TargetKind::Sugar, TargetKind::Acid, TargetKind::Abv] {
        let (Some(was), Some(is)) = (value_of(kind, before), value_of(kind, after)) else { continue };
        // Minerals without acid count below nothing: there is no acid to speak of.
        let (was_words, is_words) = (card::goal_words(kind, was.max(0.0)), card::goal_words(kind, is.max(0.0)));
        if was_words != is_words {
            found.push(Diagnostic::note(Code::Assumed, format!("not kept: {was_words} becomes {is_words}")));
        }
    }
    found
}
