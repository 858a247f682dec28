//! A solved card: the masses of every part at every stage, what is bottled, and the cards inside it by index.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::card::Card;
use crate::diagnostic::Spanned;
use crate::larder::{Form, Ingredient};
use crate::mixture::Mixture;
use crate::units::{Reading, celsius, in_kg_per_m3, millilitres};
use crate::vocabulary::{Kind, ProductClass};

use super::ice_water::IceWater;
use super::resolve::{FoundPart, Material};
use super::stage::{self, Course, Feed, Shares};
use super::target::{TargetValue, volume_ml};

/// A solved card: masses of every part at every stage, and the finished liquid.
#[derive(Clone, Debug)]
pub struct Solved {
    /// The card that it was made from.
    pub card: Arc<Card>,
    /// The product's name.
    pub name: String,
    /// The stages in card order; the last is the card's own.
    pub stages: Vec<SolvedStage>,
    /// The cards inside it, each once.
    pub inner: Vec<InnerCard>,
    /// Its place among the cards that were solved together: no two of them have the same, and a card stands behind
    /// all that are inside it. A table of it and of those has `index + 1` places.
    pub index: usize,
    /// The targets it was solved for, in the unit of their kind.
    pub targets: Vec<TargetValue>,
    /// Of a drink that meets ice: the water in it that the ice gave.
    pub ice_water: Option<IceWater>,
}

/// A card inside another, as its own card makes it. What several cards have inside is solved once and shared.
#[derive(Clone, Debug)]
pub struct InnerCard {
    /// The solved card; [`Solved::index`] tells it from all others.
    pub card: Arc<Solved>,
    /// What goes into the parts, grams.
    pub grams: f64,
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
    /// The places of the parts that its steps put in behind the straining, while its lines strain them with the rest.
    pub(crate) behind: Vec<usize>,
    /// Whether they are counted so; else they are doubt alone.
    pub(crate) in_order: bool,
    /// The places of the strained parts that its steps press: what is known of their solids is that of pieces.
    pub(crate) pressed: Vec<usize>,
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
    /// The amount as it was written; `None` of a part that no card writes.
    pub written: Option<Reading>,
    /// Of a drink: whether it goes in behind the ice.
    pub after_ice: bool,
    /// Of a drink: how warm it is poured, °C, where its card says so.
    pub at_c: Option<f64>,
    /// Of water that melts from ice: how far it may be off, as a share. Nobody weighs it in.
    pub melts: Option<f64>,
}

impl SolvedPart {
    /// A part that no card writes: a new one, water that is missing.
    pub(super) fn added(name: &str, found: FoundPart, mass_g: f64) -> Self {
        Self {
            label: name.to_owned(),
            of: name.to_owned(),
            feed: Feed { per_gram: found.per_gram, holds: None },
            found,
            mass_g,
            solved: true,
            written: None,
            after_ice: false,
            at_c: None,
            melts: None,
        }
    }

    /// The same in a batch so many times the size.
    pub(super) fn scaled(&self, factor: f64) -> Self {
        Self { mass_g: factor * self.mass_g, ..self.clone() }
    }

    /// So many grams of it, as nobody wrote it on a card.
    pub(crate) fn so_much(&self, mass_g: f64) -> Self {
        Self { mass_g, written: None, ..self.clone() }
    }

    /// Millilitres as poured at 20 °C; `None` for a solid.
    pub fn volume_ml(&self) -> Option<f64> {
        match self.found.form {
            Form::Liquid => self.found.g_per_ml.map(|d| self.mass_g / d),
            Form::Solid => None,
        }
    }

    /// Whether it is what the larder calls water: a flower water or a cold brew is none, whatever it is made of.
    pub(crate) fn is_water(&self) -> bool {
        match &self.found.what {
            Material::Ingredient(ingredient) => ingredient.kind == Some(Kind::Water),
            _ => false,
        }
    }

    pub(crate) fn stage(&self) -> Option<usize> {
        match self.found.what {
            Material::Stage(place) => Some(place),
            _ => None,
        }
    }
}

impl SolvedStage {
    /// The same stage for a batch this many times as large.
    fn scale(&mut self, factor: f64) {
        for part in &mut self.parts {
            part.mass_g *= factor;
        }
        self.course = self.course.scaled(factor);
    }

    /// Runs it forward from its masses.
    pub(crate) fn run_again(&mut self) {
        let lines: Vec<(&Feed, f64)> = self.parts.iter().map(|p| (&p.feed, p.mass_g)).collect();
        self.course = stage::run_in_order(&lines, self.lost, if self.in_order { &self.behind } else { &[] });
    }
}

impl Solved {
    /// A card of which nothing is solved yet.
    pub(super) fn begun(card: &Card, targets: Vec<TargetValue>) -> Self {
        Self {
            card: Arc::new(card.clone()),
            name: card.name.value.clone(),
            stages: Vec::new(),
            inner: Vec::new(),
            index: 0,
            targets,
            ice_water: None,
        }
    }

    /// Of a drink the glass is the measure by which doses and costs are told.
    pub(super) fn serve_as_one_glass(&mut self, made: &SolvedStage) {
        if let Some(ml) = volume_ml(&made.course.out) {
            let serving = Spanned::new(millilitres(ml), self.card.name.span);
            Arc::make_mut(&mut self.card).serving = Some(serving);
        }
    }

    /// All parts, stage by stage.
    pub(crate) fn parts(&self) -> impl Iterator<Item = &SolvedPart> + Clone {
        self.stages.iter().flat_map(|s| &s.parts)
    }

    /// The card's own, last stage.
    pub fn last(&self) -> &SolvedStage {
        &self.stages[self.stages.len() - 1]
    }

    /// What is bottled.
    pub fn bottled(&self) -> &Mixture {
        &self.last().course.out
    }

    /// Whether it was solved for the card's own targets, and not for others that were asked for.
    pub(crate) fn as_the_card_stands(&self) -> bool {
        self.targets.iter().copied().eq(self.card.targets.iter().map(|t| (t.kind, t.value)))
    }

    /// Whether it is a dried product, to which the properties of a liquid do not apply: by its class, or by what
    /// little water is left; or a heap of peel, nuts or herbs, which nobody pours.
    pub(crate) fn is_dry(&self) -> bool {
        let is_dried = self.card.class.as_ref().is_some_and(|class| class.value == ProductClass::DriedFruit);
        is_dried || self.bottled().is_dry() || self.is_heap()
    }

    fn is_heap(&self) -> bool {
        let lies = |part: &SolvedPart| match &part.found.what {
            // fruit may be blended
            Material::Ingredient(i) => i.is_plant_matter() && !matches!(i.kind, Some(Kind::Fruit | Kind::Vegetable)),
            _ => false,
        };
        let all = || self.stages.last().into_iter().flat_map(|last| &last.parts);
        all().next().is_some() && all().all(|part| part.feed.holds.is_none() && lies(part))
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
        self.stages.iter_mut().for_each(|stage| stage.scale(factor));
        for inner in &mut self.inner {
            inner.grams *= factor;
        }
        if let Some(water) = &mut self.ice_water {
            for g in [&mut water.grams, &mut water.least_g, &mut water.most_g] {
                *g *= factor;
            }
        }
        self
    }

    /// The same with so much more water in what is bottled, grams.
    #[must_use]
    pub(crate) fn with_water(&self, water: FoundPart, grams: f64) -> Self {
        let mut again = self.clone();
        if let Some(last) = again.stages.last_mut() {
            last.parts.push(SolvedPart::added("more water, to taste", water, grams));
            last.run_again();
        }
        again
    }

    /// The same with nothing put on it: what is poured into another thing is not garnished.
    #[must_use]
    pub(crate) fn ungarnished(&self) -> Self {
        let mut bare = self.clone();
        let drink = &mut Arc::make_mut(&mut bare.card).drink;
        (drink.garnish, drink.glass) = (None, None);
        bare
    }

    /// The card run forward from other masses: `weigh` gives the mass of each part by its place (stage and part) and
    /// its mass, for example rounded to a scale. Stages pass their new liquid on.
    #[must_use]
    pub(crate) fn weighed(&self, weigh: impl Fn((usize, usize), f64) -> f64) -> Self {
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
            stage.run_again();
        }
        again
    }

    /// Scales every earlier stage to what the later ones take of it, and counts the inner cards.
    pub(super) fn back_through_stages(&mut self) {
        for place in (0..self.stages.len().saturating_sub(1)).rev() {
            let later = self.stages[place + 1..].iter().flat_map(|s| &s.parts);
            let takes: Vec<f64> = later.filter(|p| p.stage() == Some(place)).map(|p| p.mass_g).collect();
            let stage = &mut self.stages[place];
            let made = stage.course.out.total_grams();
            // A stage that nothing uses is left as its card states it: the reader of the card has said so.
            if !takes.is_empty() && made > 0.0 {
                stage.scale(takes.iter().sum::<f64>() / made);
            }
        }
        for place in 0..self.inner.len() {
            let own = self.parts().filter(|p| matches!(p.found.what, Material::Card(own) if own == place));
            self.inner[place].grams = own.map(|p| p.mass_g).sum();
        }
    }

    /// This card and every card inside it, each once and after all that use it, with the share of its own batch that
    /// goes in (1 for this card). A card that is reached in many ways costs no more than one that is reached in one.
    pub(crate) fn with_inner(&self) -> Vec<(&Self, f64)> {
        let mut open = BTreeMap::from([(self.index, (self, 1.0))]);
        let mut all = Vec::new();
        // What uses a card has a higher index: by then all of its share is known.
        while let Some((_, (card, share))) = open.pop_last() {
            for InnerCard { card: inner, grams } in &card.inner {
                let made = inner.bottled().total_grams();
                let of_inner = if made > 0.0 { share * grams / made } else { 0.0 };
                open.entry(inner.index).or_insert((inner, 0.0)).1 += of_inner;
            }
            all.push((card, share));
        }
        all
    }

    /// Every ingredient that goes in, through all stages and inner cards, with its grams.
    pub fn ingredients(&self) -> Vec<(&Ingredient, f64)> {
        let mut all = Vec::new();
        for (card, share) in self.with_inner() {
            for part in card.parts() {
                if let Material::Ingredient(ingredient) = &part.found.what {
                    all.push((ingredient.as_ref(), part.mass_g * share));
                }
            }
        }
        all
    }
}
