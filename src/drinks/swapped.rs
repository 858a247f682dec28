//! Another part in a drink: poured alike, and in the jigger steps that bring the glass nearest to what it was.

use rust_decimal::Decimal;

use crate::assessment::swapped::{SwapJudgement, compare};
use crate::card::{Amount, Card};
use crate::cost::{Currency, SellAsked};
use crate::diagnostic::{Code, Diagnostic, Spanned, any_error};
use crate::house::House;
use crate::mixture::{Component, Mixture};
use crate::solver::{Options, Solved, SolvedPart, not_on_card, solve};
use crate::spelling::fold;
use crate::units::jigger::{STEP_ML, nearest_step};
use crate::units::{literal, millilitres};

use super::figures::Figures;
use super::glass::{drink, glass_cost};

/// A drink with another part in it.
#[derive(Clone, Debug)]
pub struct GlassSwap {
    /// The old part as the card calls it.
    pub old: String,
    /// The new one.
    pub new: String,
    /// What was poured, line by line, millilitres: as it stands, with the new part poured alike, and nearest.
    pub lines: Vec<SwappedPour>,
    /// The glass as it stands.
    pub before: SwappedGlass,
    /// The new part poured alike.
    pub alike: SwappedGlass,
    /// Nearest to what it was.
    pub nearest: SwappedGlass,
    /// Allergens and stops that came and went.
    pub judged: SwapJudgement,
}

/// One line of it.
#[derive(Clone, Debug, PartialEq)]
pub struct SwappedPour {
    /// What is poured: the new part in the place of the old.
    pub of: String,
    /// Whether it is the one that was swapped.
    pub swapped: bool,
    /// As the card pours it, ml; `None` where it is not poured.
    pub before_ml: Option<f64>,
    /// In the nearest glass, ml.
    pub nearest_ml: Option<f64>,
}

/// What a glass of it holds and costs.
#[derive(Clone, Debug)]
pub struct SwappedGlass {
    /// What it holds.
    pub figures: Figures,
    /// Of one glass before tax, where all of it has a price.
    pub cost: Option<(Decimal, Currency)>,
}

/// What a guest tells apart: grams of alcohol, sugar and acid in one glass, and millilitres of it (ours).
const TOLD_APART: [f64; 4] = [1.0, 1.0, 0.15, 10.0];
/// Each step by which another part is moved counts as much as this share of what is told apart (ours).
const MOVED: f64 = 0.02;
/// Other parts are moved by so many steps at most, and so many of them: a drink stays itself (ours).
const MOST_STEPS: i32 = 3;
const MOST_MOVED: usize = 4;
/// Less than this is dosed and not moved, ml (ours: the least of a jigger).
const LEAST_ML: f64 = 3.7;

/// What a millilitre brings: alcohol, sugar, acid, volume.
type PerMillilitre = [f64; 4];

fn brings(part: &SolvedPart) -> Option<PerMillilitre> {
    let per_ml: Mixture = part.feed.per_gram * part.found.g_per_ml?;
    part.volume_ml()?;
    Some([per_ml.grams_of(Component::Ethanol), per_ml.sugar_grams(), per_ml.grams_of_all(&Component::ACIDS), 1.0])
}

/// Swaps one part of a drink for another.
pub fn swap_in_glass(
    card: &Card,
    house: &House,
    old: &str,
    new: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<GlassSwap> {
    let before = drink(card, house, found)?;
    let parts = &before.last().parts;
    let is_it = |part: &&SolvedPart| [&part.label, &part.of].iter().any(|name| fold(name) == fold(old));
    let Some(place) = parts.iter().position(|part| is_it(&part) && part.melts.is_none()) else {
        found.push(not_on_card(old, parts.iter().filter(|p| p.melts.is_none()).map(|p| p.label.as_str())));
        return None;
    };
    let poured = |solved: &Solved| -> Vec<Option<f64>> {
        solved.last().parts.iter().filter(|part| part.melts.is_none()).map(SolvedPart::volume_ml).collect()
    };
    let was = poured(&before);
    let not_poured = |name: &str| {
        Diagnostic::error(
            Code::WrongDimension,
            format!("`{name}` is not poured: in a glass a liquid is swapped for a liquid"),
        )
        .help("swap a spirit, a liqueur, a syrup or a juice; on the card of a product any sugar: stillroom swap")
    };
    let Some(old_ml) = was.get(place).copied().flatten() else { return not_poured(old).refused(found) };
    let alike_card = with_part(card, house, place, Some(new), old_ml);
    let alike = solved(&alike_card, house, found)?;
    let Some(nearest_ml) = nearest(&before, &alike, place) else { return not_poured(new).refused(found) };
    let mut nearest_card = alike_card.clone();
    for (at, ml) in nearest_ml.iter().enumerate().filter(|(at, ml)| **ml != was.get(*at).copied().flatten()) {
        if let Some(ml) = ml {
            nearest_card = with_part(&nearest_card, house, at, None, *ml);
        }
    }
    let nearest = solved(&nearest_card, house, found)?;
    let lines = parts.iter().filter(|part| part.melts.is_none()).enumerate().map(|(at, part)| SwappedPour {
        of: if at == place { new.to_owned() } else { part.label.clone() },
        swapped: at == place,
        before_ml: was.get(at).copied().flatten(),
        nearest_ml: nearest_ml.get(at).copied().flatten(),
    });
    Some(GlassSwap {
        old: parts.get(place)?.label.clone(),
        new: new.to_owned(),
        lines: lines.collect(),
        judged: compare(&before, &nearest, house),
        before: SwappedGlass::of(&before, house)?,
        alike: SwappedGlass::of(&alike, house)?,
        nearest: SwappedGlass::of(&nearest, house)?,
    })
}

impl SwappedGlass {
    fn of(solved: &Solved, house: &House) -> Option<Self> {
        let cost = glass_cost(solved, house, None, SellAsked::default(), &mut Vec::new());
        let cost = cost.filter(|cost| cost.of_many.complete).map(|cost| (cost.each, cost.of_many.currency));
        Some(Self { figures: Figures::of(solved.bottled())?, cost })
    }
}

/// The card with another amount, or another thing, in one of its lines.
fn with_part(card: &Card, house: &House, place: usize, new: Option<&str>, ml: f64) -> Card {
    let mut card = card.clone();
    if let Some(part) = card.last.parts.get_mut(place) {
        if let Some(new) = new {
            part.label = Spanned::new(new.to_owned(), part.label.span);
            part.of = Spanned::new(new.to_owned(), part.of.span);
            part.food = None;
        }
        part.amount.value = Amount::Volume(millilitres(ml));
        if let Ok(read) = literal::read_by(&format!("{ml} ml"), &house.customs()) {
            part.written = read;
        }
    }
    card
}

fn solved(card: &Card, house: &House, found: &mut Vec<Diagnostic>) -> Option<Solved> {
    let outcome = solve(card, house, &Options::default());
    // A name that the house has not got stands in no line of the card.
    let own = outcome.diagnostics.into_iter().map(|d| match d.code {
        Code::UnknownIngredient => Diagnostic { labels: Vec::new(), fix: None, ..d },
        _ => d,
    });
    found.extend(own.filter(|d| !found.contains(d)).collect::<Vec<_>>());
    outcome.solved.filter(|_| !any_error(found))
}

/// The millilitres of each line that bring the glass nearest: the new part in whole steps, the largest of the others moved
/// by a few; `None` where the new part is not poured. Every choice is tried, in one order, so the same answer comes each time.
fn nearest(before: &Solved, alike: &Solved, place: usize) -> Option<Vec<Option<f64>>> {
    let of = |solved: &Solved| -> Vec<(Option<PerMillilitre>, Option<f64>)> {
        let poured = solved.last().parts.iter().filter(|part| part.melts.is_none());
        poured.map(|part| (brings(part), part.volume_ml())).collect()
    };
    let sum = |lines: &[(Option<PerMillilitre>, Option<f64>)]| {
        let mut sum = [0.0; 4];
        for (brings, ml) in lines.iter().filter_map(|(brings, ml)| Some(((*brings)?, (*ml)?))) {
            sum.iter_mut().zip(brings).for_each(|(sum, per_ml)| *sum += per_ml * ml);
        }
        sum
    };
    let (was, lines) = (of(before), of(alike));
    let (new, old_ml) = lines.get(place).and_then(|(brings, ml)| Some(((*brings)?, (*ml)?)))?;
    let wanted = sum(&was);
    let mut rest = lines.clone();
    rest.get_mut(place)?.1 = None;
    let rest = sum(&rest);
    let mut others: Vec<(usize, PerMillilitre, f64)> = lines
        .iter()
        .enumerate()
        .filter(|(at, _)| *at != place)
        .filter_map(|(at, (brings, ml))| Some((at, (*brings)?, (*ml)?)))
        .filter(|(_, _, ml)| *ml >= LEAST_ML)
        .collect();
    others.sort_by(|a, b| b.2.total_cmp(&a.2).then(a.0.cmp(&b.0)));
    others.truncate(MOST_MOVED);
    let choices = (2 * MOST_STEPS + 1).pow(u32::try_from(others.len()).ok()?);
    let most = (nearest_step(3.0 * old_ml) / STEP_ML) as i32;
    let mut best: Option<(f64, i32, i32)> = None;
    for steps in 1..=most.max(1) {
        for choice in 0..choices {
            let mut held = rest;
            let add = |held: &mut PerMillilitre, brings: &PerMillilitre, ml: f64| {
                held.iter_mut().zip(brings).for_each(|(sum, per_ml)| *sum += per_ml * ml);
            };
            add(&mut held, &new, f64::from(steps) * STEP_ML);
            let mut moved = 0.0;
            let mut is_possible = true;
            for (i, (_, brings, ml)) in others.iter().enumerate() {
                let by = moved_by(choice, i);
                is_possible &= ml + f64::from(by) * STEP_ML >= LEAST_ML;
                moved += f64::from(by.abs());
                add(&mut held, brings, f64::from(by) * STEP_ML);
            }
            let apart = held.iter().zip(wanted).zip(TOLD_APART).map(|((is, was), told)| ((is - was) / told).powi(2));
            let score = apart.sum::<f64>() + MOVED * moved;
            if is_possible && best.is_none_or(|(least, ..)| score < least - 1e-12) {
                best = Some((score, steps, choice));
            }
        }
    }
    let (_, steps, choice) = best?;
    let mut ml: Vec<Option<f64>> = lines.iter().map(|(_, ml)| *ml).collect();
    *ml.get_mut(place)? = Some(f64::from(steps) * STEP_ML);
    for (i, (at, _, own)) in others.iter().enumerate() {
        *ml.get_mut(*at)? = Some(own + f64::from(moved_by(choice, i)) * STEP_ML);
    }
    Some(ml)
}

/// By how many steps a choice moves the other part at a place.
fn moved_by(choice: i32, place: usize) -> i32 {
    let base = 2 * MOST_STEPS + 1;
    let place = u32::try_from(place).unwrap_or_default();
    choice / base.pow(place) % base - MOST_STEPS
}
