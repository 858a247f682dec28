//! The inputs of a batch and how far each may be off, as half-widths at 95 %.

use std::collections::{BTreeMap, BTreeSet};

use crate::diagnostic::listed;
use crate::house::Instruments;
use crate::larder::Strained;
use crate::mixture::{Component, Mixture};
use crate::solver::by_hand;
pub(crate) use crate::solver::by_hand::JUG;
use crate::solver::evaporation::unstated;
use crate::solver::resolve::Material;
use crate::solver::weighing::{self, How, Weighing};
use crate::solver::{InnerCard, Solved, SolvedPart};
use crate::units::{Literal, Reading};

use super::forward::{Change, Forward, Identity};
use super::{Cause, ingredient};

/// Uncertainty of a strength that was read: a hydrometer or a small still, % vol (common practice, no source).
pub(crate) const READ_ABV: f64 = 0.5;
/// Uncertainty of sugar that was read by hydrometer and refractometer together, g/L: what the two claim at best.
pub(crate) const READ_SUGAR_G_L: f64 = 3.0;
/// Share by which a default for what strained solids keep may be off where no range is known (common practice, no source).
const HOLDS: f64 = 0.25;

/// One input that may be off.
#[derive(Clone, Debug)]
pub struct Input {
    /// In words.
    pub what: String,
    /// Why.
    pub cause: Cause,
    /// The share of its half-width that is left once its remedy has been followed; `None` where no remedy is known.
    pub left_by_remedy: Option<f64>,
    /// What it is the uncertainty of, where that may stand in several places of a card and of the cards inside it.
    of: Option<InputOrigin>,
    changes: Vec<Change>,
}

/// Where a uncertainty comes from, the same in every card that it reaches.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum InputOrigin {
    Ingredient(String),
    /// What was measured into an inner card, by its name and its input's place there. However many cards lie between,
    /// it is one batch of that card.
    Measured(String, usize),
}

impl Input {
    fn new(what: String, cause: Cause, change: Change) -> Self {
        Self { what, cause, left_by_remedy: None, of: None, changes: vec![change] }
    }

    /// What is bottled when the input is off by `side` half-widths.
    pub fn run(&self, solved: &Solved, side: f64) -> Mixture {
        self.moves(&Forward::new(solved), side)
    }

    pub(super) fn moves(&self, forward: &Forward<'_>, side: f64) -> Mixture {
        forward.run(self.changes.iter().map(|change| (change, side)))
    }
}

/// What is bottled when each of these inputs is off by so many half-widths.
pub fn run<'a>(solved: &Solved, off: impl IntoIterator<Item = (&'a Input, f64)>) -> Mixture {
    Forward::new(solved)
        .run(off.into_iter().flat_map(|(input, side)| input.changes.iter().map(move |change| (change, side))))
}

/// How far off a default for what strained solids keep may be: by its own range, else by a share of it.
fn holds_spread(strained: Option<&Strained>, holds: f64) -> Option<f64> {
    let by = strained.map_or(HOLDS * holds, Strained::half_width);
    Some(by).filter(|by| *by > 0.0)
}

/// Every input of a solved card.
pub fn inputs(solved: &Solved, instruments: &Instruments) -> Vec<Input> {
    let mut known = vec![Vec::new(); solved.index + 1];
    // Inner cards first: what is known of one goes into all that use it.
    for (card, _) in solved.with_inner().into_iter().rev() {
        known[card.index] = of_card(card, instruments, &known);
    }
    known.pop().unwrap_or_default()
}

fn of_card(solved: &Solved, instruments: &Instruments, inside: &[Vec<Input>]) -> Vec<Input> {
    let mut all: Vec<Input> = Vec::new();
    let mut known: BTreeSet<Identity> = BTreeSet::new();
    let mut places = BTreeMap::new();
    for ((s, stage), hows) in solved.stages.iter().enumerate().zip(weighing::ways(solved, instruments)) {
        if let Some(open) = solved.card.all_stages().nth(s).and_then(|written| unstated(&solved.card, written)) {
            let what = format!("what goes up {}", open.during());
            all.push(Input::new(what, Cause::Evaporation, Change::Evaporated(s, open.most_of(&stage.course.combined))));
        }
        let late = stage.behind.iter().filter_map(|&at| stage.parts.get(at));
        let late: Vec<&str> = late.map(|part| part.label.as_str()).collect();
        if !late.is_empty() {
            let what = format!("whether {} goes in after the straining", listed(late));
            all.push(Input::new(what, Cause::Behind, Change::Behind(s)));
        }
        for ((p, part), how) in stage.parts.iter().enumerate().zip(&hows).filter(|((_, part), _)| part.mass_g > 0.0) {
            all.extend(measuring(part, how, s, p));
            if let (Some(holds), Material::Ingredient(ingredient)) = (part.feed.holds, &part.found.what)
                && ingredient.holds == Some(holds)
                && let Some(by) = holds_spread(ingredient.strained, holds)
            {
                let what = format!("what the strained {} keeps", part.label);
                let row = ingredient.strained.filter(|_| stage.pressed.contains(&p));
                let most = row.and_then(|row| row.most_pressed(ingredient.per_gram.grams_of(Component::Water)));
                let by = most.map_or(by, |most| by.max(holds + most));
                // No strainer keeps less than nothing.
                let by = by.min(part.feed.keeps());
                all.push(Input::new(what, Cause::Holds, Change::Holds(s, p, by)));
            }
            if let (Some(_), Material::Ingredient(ingredient)) = (part.feed.holds, &part.found.what)
                && let Some(delta) = ingredient::gives(ingredient, &part.found.per_gram)
            {
                let what = format!("what comes out of the strained {}", part.label);
                all.push(Input::new(what, Cause::Gives, Change::Gives(s, p, delta)));
            }
            if Identity::of(part).is_some_and(|of| known.insert(of)) {
                for input in composition(part, solved, instruments, inside) {
                    add(&mut all, &mut places, input);
                }
            }
        }
    }
    all
}

/// Adds an input, or what it changes where the same one came in by another line.
fn add(all: &mut Vec<Input>, places: &mut BTreeMap<(InputOrigin, Cause), usize>, input: Input) {
    let place = input.of.clone().map(|of| *places.entry((of, input.cause)).or_insert(all.len()));
    match place.and_then(|place| all.get_mut(place)) {
        Some(same) => same.changes.extend(input.changes),
        None => all.push(input),
    }
}

/// How far the amount of a line may be off: by the scale, unless its card measures it by volume or counts it. The sheet
/// weighs it all the same; whoever works from the card does not, and that is the larger uncertainty. What an earlier stage
/// gave is not measured: all of it goes in.
fn measuring(part: &SolvedPart, how: &How, s: usize, p: usize) -> Option<Input> {
    if how.by == Weighing::Stage {
        return None;
    }
    if let Some(share) = part.melts {
        let half = share * part.mass_g;
        let what = "how much water the ice gives".to_owned();
        return (half > 0.0).then(|| Input::new(what, Cause::Ice, Change::Mass(s, p, half)));
    }
    let by_scale = how.half_width_g;
    let counted = matches!(&part.written, Some(Reading { literal: Literal::Pieces(_), .. }));
    let Some(share) = by_hand::share_off(part) else {
        let what = format!("weighing {}", part.label);
        return Some(Input::new(what, Cause::Scale, Change::Mass(s, p, by_scale)));
    };
    let is_weighed = matches!(&part.written, Some(Reading { literal: Literal::Mass(_), .. }));
    let what = match counted {
        _ if is_weighed => format!("how much {} goes in, about so much on the card", part.label),
        true => format!("counting {}, as the card writes it", part.label),
        false => format!("measuring {} by volume, as the card writes it", part.label),
    };
    let half = share * part.mass_g;
    Some(Input {
        left_by_remedy: Some(by_scale / half).filter(|left| *left < 1.0),
        ..Input::new(what, Cause::Volume, Change::Mass(s, p, half))
    })
}

/// How far a gram of an ingredient or of an inner card may differ from what is known of it.
fn composition(part: &SolvedPart, solved: &Solved, instruments: &Instruments, inside: &[Vec<Input>]) -> Vec<Input> {
    match &part.found.what {
        Material::Ingredient(of) => {
            let input = |d: ingredient::Differs| Input {
                left_by_remedy: d.left_by_remedy,
                of: Some(InputOrigin::Ingredient(of.id.clone())),
                ..Input::new(d.what, d.cause, Change::Composition(Identity::Ingredient(of.id.clone()), d.delta))
            };
            ingredient::differs(of, &part.feed.per_gram, instruments).into_iter().map(input).collect()
        }
        Material::Card(place) => {
            let Some(InnerCard { card: inner, .. }) = solved.inner.get(*place) else { return Vec::new() };
            let forward = Forward::new(inner);
            let halved = |input: &Input, side: f64| input.moves(&forward, side).per_gram() * (0.5 * side);
            let bring = |(index, input): (usize, &Input)| {
                let delta = halved(input, 1.0) + halved(input, -1.0);
                let (what, of) = match &input.of {
                    Some(of) => (input.what.clone(), of.clone()),
                    None => {
                        (format!("{}, in {}", input.what, part.of), InputOrigin::Measured(inner.name.clone(), index))
                    }
                };
                let changes = vec![Change::Composition(Identity::Inner(*place), delta)];
                Input { what, of: Some(of), changes, ..input.clone() }
            };
            inside.get(inner.index).into_iter().flatten().enumerate().map(bring).collect()
        }
        Material::Stage(_) => Vec::new(),
    }
}
