//! One sugar, spirit, syrup or acid in place of another: the same grams of sugar, acid and alcohol in the
//! same volume.
//!
//! Both parts are rows of the one engine. What the old part was taken for fixes the mass of the new one,
//! the volume of the batch fixes the water; what else either of them brings (the sugar of a juice that
//! replaces a powder) is made good by another part of the card that brings it, if there is one.

use std::collections::BTreeSet;

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::House;
use crate::properties::{amount_for, value_of};
use crate::spelling::fold;

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule, Yield};
use super::card::{self, Options};
use super::explain::not_on_card;
use super::resolve::{FoundPart, Material};
use super::target::{TargetValue, row, target_words, volume_ml};
use super::{Solved, SolvedPart};

/// What is kept.
pub const KEPT: [TargetKind; 3] = [TargetKind::Sugar, TargetKind::Acid, TargetKind::Abv];
/// Less than this in a gram of a part is not what it is taken for, and is not made good (ours).
const TAKEN_FOR: f64 = 0.002;
/// From this share on a part is there for its sugar, acid or alcohol (ours).
const IS_FOR_IT: f64 = 0.3;
const SWAPPABLE: &str = "swap a sugar, a syrup, a spirit, a juice or an acid";

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
            found.extend(why);
            (None, found)
        }
    }
}

fn refused(code: Code, title: impl Into<String>, help: impl Into<String>) -> Vec<Diagnostic> {
    vec![Diagnostic::error(code, title).help(help)]
}

fn swapped(card: &Card, house: &House, before: Solved, old: &str, new: &str) -> Result<Swapped, Vec<Diagnostic>> {
    let place = place_of(house, &before, old)?;
    let old_part = part_at(&before, place).clone();
    let label = &old_part.label;
    if old_part.feed.holds.is_some() {
        let title = format!("`{label}` is strained out again: what it leaves behind is flavour, which is not computed");
        return Err(refused(Code::BadArgument, title, SWAPPABLE));
    }
    let mut after = before.clone();
    let found = card::find(card, house, new, &mut after)?;
    let kind = taken_for(&old_part.found).ok_or_else(|| {
        let title = format!("`{label}` brings no sugar, no acid and no alcohol that could be kept");
        refused(Code::BadArgument, title, SWAPPABLE)
    })?;
    let brings = amount_for(kind, &found.per_gram);
    if brings < TAKEN_FOR {
        let what = row(kind).brings;
        let title = format!("`{new}` brings no {what}, which is what `{label}` is there for");
        return Err(refused(Code::OutOfReach, title, format!("take a part that brings {what}")));
    }
    let fewer = amount_for(kind, &old_part.found.per_gram) / brings;
    put_new(&mut after, place, new, found, old_part.mass_g * fewer);
    let water = water_place(card, house, &mut after)?;
    let carrier = carrier(&after, place).ok_or_else(|| {
        let title = format!("`{label}` never comes into the finished batch");
        refused(Code::Unused, title, "use its stage, or take it off the card")
    })?;
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

pub(crate) fn words(kind: TargetKind) -> &'static str {
    row(kind).brings
}

fn solve_last(
    before: &Solved,
    after: &mut Solved,
    kind: TargetKind,
    old: &SolvedPart,
    carrier: usize,
    water: usize,
) -> Result<Vec<TargetKind>, Vec<Diagnostic>> {
    let batch = *before.bottled();
    let ml = volume_ml(&batch).ok_or_else(|| {
        let help = "swap in the card by hand: the same grams of sugar, acid or alcohol";
        refused(Code::NoDensity, "the volume of the batch cannot be computed", help)
    })?;
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
            // an amount that the card fixes is a dose, but of what is there for just that: a cold brew is left alone
            let is_for_it = p.solved || amount_for(other, &p.found.per_gram) > IS_FOR_IT;
            let may = is_for_it && p.feed.holds.is_none() && p.stage().is_none();
            may && !open.contains(&i) && taken_for(&p.found) == Some(other)
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
    let line = |(i, p): (usize, &SolvedPart)| {
        let rule = if open.contains(&i) { MassRule::Open } else { MassRule::Fixed(p.mass_g) };
        p.feed.line(last.lost.evaporated, rule)
    };
    let lines: Vec<BalanceLine> = last.parts.iter().enumerate().map(line).collect();
    let balance = MassBalance {
        lines: &lines,
        targets: &targets,
        yields: Some(Yield::Millilitres(ml)),
        left_behind: last.lost.left_behind,
    };
    // In an earlier stage old and new cannot stand side by side in the last one.
    let in_place = last.parts.get(carrier).is_some_and(|p| p.stage().is_none());
    let masses = balance.solve().map_err(|why| match why {
        BalanceError::Negative(short) => {
            let names: Vec<_> = short.iter().filter_map(|&i| Some(format!("`{}`", last.parts.get(i)?.label))).collect();
            let most_g = in_place.then(|| most_that_can_go(&balance, old, last.lost.evaporated, &short)).flatten();
            let title =
                format!("to keep this batch as it is, less than no {} would have to go in", names.join(" and "));
            refused(Code::OutOfReach, title, runs_short(old, short.contains(&water), most_g))
        }
        why => refused(
            Code::OutOfReach,
            format!("no masses keep this batch as it is: {why}"),
            "the new part may be too like another part of the card: take that one off first",
        ),
    })?;
    for (part, mass) in last.parts.iter_mut().zip(masses) {
        part.mass_g = mass;
    }
    last.run_again();
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

/// What the new part brings too much of, and the grams of the old one that can go before something runs short.
fn runs_short(old: &SolvedPart, water: bool, most_g: Option<f64>) -> String {
    // Below a gram there is nothing to give.
    let some = most_g.filter(|most| *most >= 1.0);
    let why = match water {
        true if most_g.is_some() && some.is_none() => "water, and this card has no water to give up",
        true => "more water than the card has to give",
        false => "too much of it",
    };
    let limit = some.map_or_else(String::new, |most| {
        format!("at most {:.0} g of the {:.0} g `{}` can be swapped, or ", most.floor(), old.mass_g, old.label)
    });
    format!("the new part brings {why}: {limit}take a stronger part")
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

/// The place of a part: its stage, and where it stands in it.
type PartPlace = (usize, usize);

fn part_at(solved: &Solved, (stage, part): PartPlace) -> &SolvedPart {
    &solved.stages[stage].parts[part]
}

/// Where the old part stands: by its name on the card or in the larder, the last stage first.
fn place_of(house: &House, solved: &Solved, old: &str) -> Result<PartPlace, Vec<Diagnostic>> {
    let id = house.larder.find(old).map(|i| i.id.as_str());
    let means = |part: &SolvedPart| {
        let same_id = matches!(&part.found.what, Material::Ingredient(i) if Some(i.id.as_str()) == id);
        same_id || [&part.label, &part.of].iter().any(|name| fold(name) == fold(old))
    };
    let places = || {
        let stages = solved.stages.iter().enumerate().rev();
        stages.flat_map(|(s, stage)| stage.parts.iter().enumerate().map(move |(p, part)| ((s, p), part)))
    };
    places()
        .find(|(_, part)| means(part))
        .map(|(place, _)| place)
        .ok_or_else(|| vec![not_on_card(old, places().map(|(_, p)| p.label.as_str()))])
}

/// Puts the new part where the old one stood and runs the earlier stages forward.
fn put_new(after: &mut Solved, place: PartPlace, new: &str, found: FoundPart, mass_g: f64) {
    let part = after.stages.get_mut(place.0).and_then(|s| s.parts.get_mut(place.1));
    if let Some(part) = part {
        *part = SolvedPart::added(new, found, mass_g);
    }
    *after = after.weighed(|_, mass_g| mass_g);
}

/// The water of the last stage; none of it is put there if the card has not got any.
fn water_place(card: &Card, house: &House, after: &mut Solved) -> Result<usize, Vec<Diagnostic>> {
    let water = card::find(card, house, "water", after)?;
    let Some(last) = after.stages.last_mut() else { return Ok(0) };
    if let Some(place) = last.parts.iter().position(|part| part.is_water() && part.feed.holds.is_none()) {
        return Ok(place);
    }
    last.parts.push(SolvedPart::added("water", water, 0.0));
    Ok(last.parts.len() - 1)
}

/// The part of the last stage that has the new part in it: itself, or the stage that it went into.
fn carrier(after: &Solved, place: PartPlace) -> Option<usize> {
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
