//! Unknown amounts from targets. One engine ([`balance`]) for every verb; [`card`] brings a card to
//! it, [`stage`] runs the answer forward.

pub mod adjust;
pub mod balance;
pub mod batch_size;
pub mod card;
mod explain;
mod linear;
pub mod ph;
pub mod reach;
pub mod resolve;
pub mod square;
pub mod stage;
pub mod swap;
mod unknowns;
pub mod vessel;
pub mod weighing;

use std::collections::{HashMap, HashSet};
use std::sync::Arc;

use crate::card::{Card, TargetKind};
use crate::mixture::Mixture;
use crate::units::{celsius, in_kg_per_m3};

pub use card::{BatchSize, Options, SolveOutcome, solve};
use resolve::{FoundPart, Inner, Material};
use stage::{Course, Feed, Shares};

/// A vessel is this many times as large as what is stirred in it (common practice, no source).
pub const HEADROOM: f64 = 1.25;

/// A solved card: masses of every part at every stage, and the finished liquid.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The card that it was made from.
    pub card: Arc<Card>,
    /// The product's name.
    pub name: String,
    /// The stages in card order; the last is the card's own.
    pub stages: Vec<SolvedStage>,
    /// The formulas inside it, each as its own card makes it, and the grams that go in.
    pub inner: Inner,
    /// The targets it was solved for, in the unit of their kind.
    pub targets: Vec<(TargetKind, f64)>,
}

/// A stage with its masses.
#[derive(Clone, Debug)]
pub struct SolvedStage {
    /// Its name; `None` for the card's own parts.
    pub name: Option<String>,
    /// Its parts in card order.
    pub parts: Vec<SolvedPart>,
    /// What it loses.
    pub lost: Shares,
    /// What happens to it.
    pub course: Course,
}

/// A part with its mass.
#[derive(Clone, Debug)]
pub struct SolvedPart {
    /// The name on the card.
    pub label: String,
    /// What it is called in the larder.
    pub of: String,
    /// What it is.
    pub found: FoundPart,
    /// How it goes into the pan.
    pub feed: Feed,
    /// Grams.
    pub mass_g: f64,
    /// Whether the mass was found (`as needed`) rather than written.
    pub solved: bool,
    /// The amount as it was written.
    pub written: String,
}

impl SolvedPart {
    /// Millilitres as poured at 20 °C; `None` for a solid.
    pub fn volume_ml(&self) -> Option<f64> {
        match self.found.form {
            crate::larder::Form::Liquid => self.found.g_per_ml.map(|d| self.mass_g / d),
            crate::larder::Form::Solid => None,
        }
    }

    /// The place of the earlier stage that it is, if it is one.
    pub fn stage(&self) -> Option<usize> {
        match self.found.what {
            Material::Stage(place) => Some(place),
            _ => None,
        }
    }
}

impl Solved {
    /// The card's own, last stage.
    pub fn last(&self) -> &SolvedStage {
        &self.stages[self.stages.len() - 1]
    }

    /// What is bottled.
    pub fn bottled(&self) -> &Mixture {
        &self.last().course.out
    }

    /// Whether it was solved for the card's own targets, and not for others that were asked for.
    pub fn as_the_card_stands(&self) -> bool {
        self.targets.iter().copied().eq(self.card.targets.iter().map(|t| (t.kind, t.value)))
    }

    /// Whether it is a dried product, to which the properties of a liquid do not apply: by its class, or by what
    /// little water is left.
    pub fn is_dry(&self) -> bool {
        self.card.class.as_ref().is_some_and(|class| class.value == "dried fruit") || self.bottled().is_dry()
    }

    /// What the fullest stage takes up at 20 °C before anything leaves it, litres; 0 where no density is known.
    pub fn fullest_l(&self) -> f64 {
        self.stages
            .iter()
            .filter_map(|stage| {
                let density = stage.course.combined.density(celsius(20.0)).ok()?;
                Some(stage.course.combined.total_grams() / in_kg_per_m3(density.value))
            })
            .fold(0.0, f64::max)
    }

    /// The same card for a batch this many times as large.
    #[must_use]
    pub fn scaled(mut self, factor: f64) -> Self {
        for stage in &mut self.stages {
            for part in &mut stage.parts {
                part.mass_g *= factor;
            }
            stage.course = stage.course.scaled(factor);
        }
        for (_, grams) in &mut self.inner {
            *grams *= factor;
        }
        self
    }

    /// The card run forward from other masses: `weigh` gives the mass of each part by its place (stage and part) and
    /// its mass, for example rounded to a scale. Stages pass their new liquid on.
    #[must_use]
    pub fn weighed(&self, weigh: impl Fn((usize, usize), f64) -> f64) -> Self {
        let mut again = self.clone();
        for place in 0..again.stages.len() {
            let (earlier, later) = again.stages.split_at_mut(place);
            let Some(stage) = later.first_mut() else { continue };
            for (at, part) in stage.parts.iter_mut().enumerate() {
                part.mass_g = weigh((place, at), part.mass_g);
                if let Some(source) = part.stage().and_then(|i| earlier.get(i)) {
                    part.feed.per_gram = source.course.out.per_gram();
                }
            }
            stage.course = stage::run(stage.parts.iter().map(|p| (&p.feed, p.mass_g)), stage.lost);
        }
        again
    }

    /// Grams of the inner formula at this place that go into the parts.
    fn inner_grams(&self, place: usize) -> f64 {
        let parts = self.stages.iter().flat_map(|s| &s.parts);
        parts.filter(|p| matches!(p.found.what, Material::Card(own) if own == place)).map(|p| p.mass_g).sum()
    }

    /// This card and every card inside it, each once and after all that use it, with the share of its own batch that
    /// goes in (1 for this card). A card that is reached in many ways costs no more than one that is reached in one.
    pub fn with_inner(&self) -> Vec<(&Self, f64)> {
        let mut order = Vec::new();
        self.inner_first(&mut HashSet::new(), &mut order);
        let mut shares = HashMap::from([(std::ptr::from_ref(self), 1.0)]);
        let with_share = order.into_iter().rev().map(|card| {
            let share = shares.get(&std::ptr::from_ref(card)).copied().unwrap_or(0.0);
            for (inner, grams) in &card.inner {
                let made = inner.bottled().total_grams();
                *shares.entry(Arc::as_ptr(inner)).or_insert(0.0) += if made > 0.0 { share * grams / made } else { 0.0 };
            }
            (card, share)
        });
        with_share.collect()
    }

    fn inner_first<'a>(&'a self, seen: &mut HashSet<*const Self>, order: &mut Vec<&'a Self>) {
        if seen.insert(self) {
            for (inner, _) in &self.inner {
                inner.inner_first(seen, order);
            }
            order.push(self);
        }
    }

    /// Every ingredient that goes in, through all stages and inner formulas, with its grams.
    pub fn ingredients(&self) -> Vec<(&crate::larder::Ingredient, f64)> {
        let mut all = Vec::new();
        for (card, share) in self.with_inner() {
            for part in card.stages.iter().flat_map(|s| &s.parts) {
                if let Material::Ingredient(ingredient) = &part.found.what {
                    all.push((ingredient.as_ref(), part.mass_g * share));
                }
            }
        }
        all
    }
}
