//! The inputs of a batch and how far each may be off, as half-widths at 95 %.

use crate::house::Instruments;
use crate::larder::Strained;
use crate::mixture::Mixture;
use crate::solver::by_hand;
pub(crate) use crate::solver::by_hand::JUG;
use crate::solver::evaporation::unstated;
use crate::solver::resolve::Material;
use crate::solver::weighing::{self, How, Weighing};
use crate::solver::{InnerCard, Solved, SolvedPart};
use crate::units::display::grouped;
use crate::units::{Literal, Reading};

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
#[derive(Clone, Debug, PartialEq)]
enum InputOrigin {
    Ingredient(String),
    /// What was measured into an inner card, by its name and its input's place there. However many cards lie between,
    /// it is one batch of that card.
    Measured(String, usize),
}

/// What is the same thing wherever it stands, however a line writes its name.
#[derive(Clone, Debug, PartialEq)]
enum Identity {
    Ingredient(String),
    /// A card, by its place among those inside the card.
    Inner(usize),
}

#[derive(Clone, Debug)]
enum Change {
    /// Grams of one line: (stage, part, half-width).
    Mass(usize, usize, f64),
    /// Composition of one gram of an ingredient or inner card, wherever it stands.
    Composition(Identity, Mixture),
    /// The share of the water of a stage that goes up: (stage, half-width).
    Evaporated(usize, f64),
    /// What a line keeps: (stage, part, half-width).
    Holds(usize, usize, f64),
    /// What one gram of a strained line gives: (stage, part, change at one half-width).
    Gives(usize, usize, Mixture),
}

impl Input {
    fn new(what: String, cause: Cause, change: Change) -> Self {
        Self { what, cause, left_by_remedy: None, of: None, changes: vec![change] }
    }

    /// What is bottled when the input is off by `side` half-widths.
    pub fn run(&self, solved: &Solved, side: f64) -> Mixture {
        run(solved, [(self, side)])
    }
}

/// What is bottled when each of these inputs is off by so many half-widths.
pub fn run<'a>(solved: &Solved, off: impl IntoIterator<Item = (&'a Input, f64)>) -> Mixture {
    let mut moved = solved.clone();
    for (input, side) in off {
        for change in &input.changes {
            change.make(&mut moved, side);
        }
    }
    forward(moved, solved)
}

impl Change {
    fn make(&self, moved: &mut Solved, side: f64) {
        let mut at = |stage: usize, part: usize, change: &dyn Fn(&mut SolvedPart)| {
            if let Some(part) = moved.stages.get_mut(stage).and_then(|s| s.parts.get_mut(part)) {
                change(part);
            }
        };
        match self {
            Self::Mass(stage, part, g) => at(*stage, *part, &|p| p.mass_g = (p.mass_g + side * g).max(0.0)),
            Self::Holds(stage, part, by) => at(*stage, *part, &|p| p.feed.holds = p.feed.holds.map(|h| h + side * by)),
            Self::Evaporated(stage, by) => {
                if let Some(stage) = moved.stages.get_mut(*stage) {
                    stage.lost.evaporated += side * by;
                }
            }
            Self::Gives(stage, part, delta) => at(*stage, *part, &|p| p.feed.per_gram += *delta * side),
            Self::Composition(of, delta) => {
                for part in moved.stages.iter_mut().flat_map(|s| &mut s.parts) {
                    if identity(part).as_ref() == Some(of) {
                        part.feed.per_gram += *delta * side;
                    }
                }
            }
        }
    }
}

/// Runs the stages again. What an earlier stage gives goes on whole, as the sheet says: a gram more in, a gram more
/// on, and what its strained solids keep is missing later.
fn forward(mut moved: Solved, before: &Solved) -> Mixture {
    for place in 0..moved.stages.len() {
        let (earlier, later) = moved.stages.split_at_mut(place);
        let Some(stage) = later.first_mut() else { continue };
        for part in &mut stage.parts {
            let Some(from) = part.stage() else { continue };
            if let (Some(now), Some(was)) = (earlier.get(from), before.stages.get(from)) {
                let made = was.course.out.total_grams();
                part.mass_g *= if made > 0.0 { now.course.out.total_grams() / made } else { 1.0 };
                part.feed.per_gram = now.course.out.per_gram();
            }
        }
        stage.run_again();
    }
    *moved.bottled()
}

/// How far off a default for what strained solids keep may be: by its own range, else by a share of it.
fn holds_spread(strained: Option<&Strained>, holds: f64) -> Option<f64> {
    let by = strained.map_or(HOLDS * holds, Strained::half_width);
    Some(by).filter(|by| *by > 0.0)
}

fn identity(part: &SolvedPart) -> Option<Identity> {
    match &part.found.what {
        Material::Ingredient(ingredient) => Some(Identity::Ingredient(ingredient.id.clone())),
        Material::Card(place) => Some(Identity::Inner(*place)),
        Material::Stage(_) => None,
    }
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
    for ((s, stage), hows) in solved.stages.iter().enumerate().zip(weighing::ways(solved, instruments)) {
        if let Some(open) = solved.card.all_stages().nth(s).and_then(|written| unstated(&solved.card, written)) {
            let what = format!("what goes up in {} min at {} °C", grouped(open.minutes, 0), grouped(open.to_c, 0));
            all.push(Input::new(what, Cause::Evaporation, Change::Evaporated(s, open.high)));
        }
        for ((p, part), how) in stage.parts.iter().enumerate().zip(&hows).filter(|((_, part), _)| part.mass_g > 0.0) {
            all.extend(measuring(part, how, s, p));
            if let (Some(holds), Material::Ingredient(ingredient)) = (part.feed.holds, &part.found.what)
                && ingredient.holds == Some(holds)
                && let Some(by) = holds_spread(ingredient.strained, holds)
            {
                let what = format!("what the strained {} keeps", part.label);
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
            let known = identity(part).is_some_and(|of| {
                let moves = |change: &Change| matches!(change, Change::Composition(own, _) if *own == of);
                all.iter().any(|input| input.changes.iter().any(moves))
            });
            if !known {
                for input in composition(part, solved, instruments, inside) {
                    add(&mut all, input);
                }
            }
        }
    }
    all
}

/// Adds an input, or what it changes where the same one came in by another line.
fn add(all: &mut Vec<Input>, input: Input) {
    match all.iter_mut().find(|i| i.of.is_some() && i.of == input.of && i.cause == input.cause) {
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
    let what = match counted {
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
            let halved = |input: &Input, side: f64| input.run(inner, side).per_gram() * (0.5 * side);
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
