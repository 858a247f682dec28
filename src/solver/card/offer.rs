//! A card with room as the engine sees it, for the room that knows what is best; and the card with what was chosen.

use std::collections::BTreeSet;

use crate::card::{Amount, Card, Part, PartBounds, Stage};
use crate::diagnostic::Span;
use crate::house::House;
use crate::larder::Ingredient;
use crate::mixture::Component;
use crate::properties::TargetKind;
use crate::spelling::fold;

use super::super::Solved;
use super::super::balance::{MassRule, Yield};
use super::super::resolve::{FoundPart, Material};
use super::super::room::{BestCorner, LineBound, Pin, Room, Rule};
use super::cook::{BatchSize, Cook, Options, yield_of};

/// Less than this share of a batch is none.
pub(crate) const NONE: f64 = 1e-6;

/// A card with room, looked up and ready.
#[derive(Clone, Debug)]
pub struct Offer {
    /// Its last stage.
    pub room: Room,
    /// What each part of it is.
    pub parts: Vec<FoundPart>,
    /// Its earlier stages and the cards inside it.
    made: Solved,
    /// Share of the water that evaporates in the last stage.
    evaporated: f64,
    /// The bounds of the card as the room counts them: part, and whether the upper one.
    bounds: Vec<(usize, bool)>,
}

/// What a card leaves open, with what is asked beyond it. `None` where that is for the ordinary solver to say: a name that
/// nothing has, no size, water that boils off as needed, a pH that is aimed at.
pub fn offer(card: &Card, house: &House, options: &Options) -> Option<Offer> {
    let mut cook = Cook::new(card, house);
    let (made, ready) = cook.begun(card, options)?;
    let makes = match &options.size {
        Some(BatchSize::Makes(makes)) if card.makes.is_none() => Some(*makes),
        _ => card.makes.map(|makes| makes.value),
    };
    let is_anchored = ready.lines.iter().any(|line| matches!(line.rule, MassRule::Fixed(g) if g > 0.0));
    let any_size = (options.size.is_some() && !is_anchored).then_some(Yield::Grams(1000.0));
    let yields = makes.map(|makes| yield_of(&makes)).or(any_size);
    let is_beyond = card.last.loss.evaporated_as_needed.is_some()
        || made.targets.iter().any(|(kind, _)| *kind == TargetKind::Ph)
        || (yields.is_none() && !is_anchored);
    if is_beyond {
        return None;
    }
    let mut bounds = Vec::new();
    let mut rules = Vec::new();
    for (at, (part, (found, _))) in card.last.parts.iter().zip(&ready.parts).enumerate() {
        for (upper, bound) in [(false, part.bounds.at_least), (true, part.bounds.at_most)] {
            if let Some(bound) = bound {
                let written = Part { amount: bound, ..part.clone() };
                rules.push(LineBound { line: at, upper, rule: found.rule(&written).ok()? });
                bounds.push((at, upper));
            }
        }
    }
    let is_set = |kind| made.targets.iter().any(|(own, _)| *own == kind);
    let room = Room {
        lines: ready.lines,
        targets: made.targets.clone(),
        ranges: card.ranges.iter().filter(|range| !is_set(range.kind)).copied().collect(),
        bounds: rules,
        yields,
        left_behind: ready.lost.left_behind,
    };
    Some(Offer {
        room,
        parts: ready.parts.into_iter().map(|(found, _)| found).collect(),
        made,
        evaporated: ready.lost.evaporated,
        bounds,
    })
}

impl Offer {
    /// The ingredients of a gram of a part, with their grams, through stages and cards.
    pub fn ingredients(&self, part: usize) -> Vec<(&Ingredient, f64)> {
        self.parts.get(part).map_or_else(Vec::new, |found| self.of(&found.what))
    }

    fn of<'a>(&'a self, what: &'a Material) -> Vec<(&'a Ingredient, f64)> {
        match what {
            Material::Ingredient(ingredient) => vec![(ingredient.as_ref(), 1.0)],
            Material::Card(place) => {
                let inner = &self.made.inner[*place].card;
                let made = inner.bottled().total_grams();
                inner.ingredients().into_iter().map(|(ingredient, g)| (ingredient, g / made)).collect()
            }
            Material::Stage(place) => {
                let stage = &self.made.stages[*place];
                let made = stage.course.out.total_grams();
                let parts = stage.parts.iter();
                parts
                    .flat_map(|part| {
                        self.of(&part.found.what).into_iter().map(move |(i, g)| (i, g * part.mass_g / made))
                    })
                    .collect()
            }
        }
    }

    /// The product of the house that a part is.
    pub fn product(&self, part: usize) -> Option<&str> {
        match &self.parts.get(part)?.what {
            Material::Card(place) => self.made.inner.get(*place).map(|inner| inner.card.name.as_str()),
            Material::Ingredient(_) | Material::Stage(_) => None,
        }
    }

    /// Grams of water that go up from a gram of a part in the last stage.
    pub fn evaporates(&self, part: usize) -> f64 {
        let water = self.parts.get(part).map_or(0.0, |found| found.per_gram.grams_of(Component::Water));
        self.evaporated * water
    }

    /// The bound of the card that a bound of the room is: the part, and whether the upper one.
    pub fn bound(&self, at: usize) -> Option<(usize, bool)> {
        self.bounds.get(at).copied()
    }

    /// The card with what a corner chose: the ends and bounds that decide it as targets and amounts, what is not needed left
    /// out. The ordinary solver finds the rest.
    pub fn chosen(&self, card: &Card, corner: &BestCorner) -> Card {
        let mut chosen = card.clone();
        for pin in &corner.pins {
            match *pin {
                Pin::Zero(_) => {}
                Pin::Rule(Rule::Bound(i)) => {
                    let (part, upper) = self.bounds[i];
                    let part = &mut chosen.last.parts[part];
                    let PartBounds { at_least, at_most } = part.bounds;
                    part.amount.value = (if upper { at_most } else { at_least }).map_or(Amount::AsNeeded, |b| b.value);
                }
                Pin::Rule(rule @ Rule::End(i, _)) => {
                    let span = self.room.ranges.get(i).map_or(Span::default(), |range| range.span);
                    let target = self.room.target_of(rule);
                    chosen.targets.extend(target.map(|(kind, value)| crate::card::Target { kind, value, span }));
                }
                Pin::Rule(Rule::Exact(_)) => {}
            }
        }
        chosen.targets.sort_by_key(|target| target.span.start);
        leave_out(&mut chosen, &self.left_out(corner));
        chosen
    }

    /// The parts that a corner has none of: a least of none is none.
    pub(crate) fn left_out(&self, corner: &BestCorner) -> BTreeSet<usize> {
        let none = NONE * corner.masses.iter().sum::<f64>();
        let is_none = |part: &usize| corner.masses.get(*part).is_some_and(|g| *g <= none);
        let of = |pin: &Pin| match *pin {
            Pin::Zero(part) => Some(part),
            Pin::Rule(Rule::Bound(at)) => self.bound(at).map(|(part, _)| part).filter(is_none),
            Pin::Rule(_) => None,
        };
        corner.pins.iter().filter_map(of).collect()
    }
}

/// Takes parts of the last stage off a card, and the stages that nothing takes then: what there is none of is in no bottle, and
/// nothing is to be said of it.
fn leave_out(card: &mut Card, parts: &BTreeSet<usize>) {
    let taken = |card: &Card| -> BTreeSet<String> { card.all_parts().map(|(_, part)| fold(&part.of.value)).collect() };
    let mut before = taken(card);
    let mut place = 0..card.last.parts.len();
    card.last.parts.retain(|_| !place.next().is_some_and(|at| parts.contains(&at)));
    loop {
        let now = taken(card);
        let is_idle = |stage: &Stage| {
            let name = stage.name.as_ref().map(|name| fold(&name.value));
            name.is_some_and(|name| before.contains(&name) && !now.contains(&name))
        };
        let many = card.stages.len();
        card.stages.retain(|stage| !is_idle(stage));
        if card.stages.len() == many {
            break;
        }
        before = now;
    }
}
