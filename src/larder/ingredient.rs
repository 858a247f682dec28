//! One ingredient and all that is known of it.

use std::ops::RangeInclusive;
use std::sync::Arc;

use crate::diagnostic::Span;
use crate::mixture::{Component, Mixture};
use crate::units::{Mass, MassDensity};
use crate::vocabulary::{FoodStatement, Kind, Open, Portion, Status, Tag};

use super::packs::SoldIn;
use super::sugars::SugarRange;
use super::{Larder, PortionWeight, Strained};

/// What strained solids may hold, against slips of the pen only (common practice, no source). Below zero for pressed
/// fruit, which comes out lighter than it went in.
pub(crate) const HOLDS: RangeInclusive<f64> = -1.0..=20.0;

crate::vocabulary::words! {
    /// Whether it is poured, its volume following from its composition, or piled and weighed: then a volume needs a bulk
    /// density, and the weigh sheet has none.
    Form, "form":
    Liquid = "liquid",
    Solid = "solid",
}

/// Which larder it comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// The embedded larder.
    BuiltIn,
    /// A house's own file.
    House(Arc<str>),
}

impl Origin {
    pub(crate) fn file(&self) -> Option<&Arc<str>> {
        match self {
            Self::BuiltIn => None,
            Self::House(file) => Some(file),
        }
    }
}

/// What the house states of an ingredient by its own label or reading; the rest is as in a table.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Stated {
    /// Its Brix.
    pub brix: bool,
    /// Its titratable acid.
    pub acid: bool,
    /// Its titratable acid and its pH, so that the minerals that hold acid are known too.
    pub acid_and_ph: bool,
}

impl Stated {
    /// With what an ingredient that it is like states.
    #[must_use]
    pub(crate) fn over(self, like: Self) -> Self {
        Self {
            brix: self.brix || like.brix,
            acid: self.acid || like.acid,
            // A new acid parts from the old pH; a new Brix scales the minerals and keeps neither reading.
            acid_and_ph: self.acid_and_ph,
        }
    }
}

/// What neutralises acid, equivalents a gram.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Alkali {
    /// At most.
    pub most_eq_per_gram: f64,
    /// Surely, down to pH 5.
    pub sure_eq_per_gram: f64,
    /// Carbon dioxide that an equivalent gives off, mol.
    pub gas_mol_per_eq: f64,
}

/// An ingredient.
#[derive(Clone, Debug)]
pub struct Ingredient {
    /// Its stable id in the embedded larder, or its name in the house's.
    pub id: String,
    /// The name that is printed.
    pub name: String,
    /// Other names that people use.
    pub aliases: Vec<String>,
    /// Composition for one gram as used.
    pub per_gram: Mixture,
    /// What kind of thing it is; `None` where nobody has said.
    pub kind: Option<Kind>,
    /// Poured or piled.
    pub form: Form,
    /// Bulk density of a solid (for cups and spoons), and what was recorded of a strong acid, which no formula here reaches; where
    /// known.
    pub bulk_density: Option<MassDensity>,
    /// What one piece weighs, where known.
    pub piece: Option<Mass>,
    /// What its portions weigh: a piece, the juice of one fruit, a sprig, a spoon.
    pub portions: Vec<PortionWeight>,
    /// The cans, jars and tubs that it is sold in.
    pub packs: &'static [SoldIn],
    /// Liquid that its strained solids hold beyond their own weight:
    /// (wet weight out - weight in) / weight in. `None` where it must be asked for.
    pub holds: Option<f64>,
    /// Where `holds` comes from, in words.
    pub holds_status: Option<String>,
    /// What its strained solids keep, give and dissolve, where the embedded tables say it.
    pub strained: Option<&'static Strained>,
    /// What it neutralises though no composition shows it.
    pub alkali: Alkali,
    /// How much of it may be sugar, where its record does not tell; `None` where it does, or the house has.
    pub sugar_range: Option<SugarRange>,
    /// A measured or published pH, as it was written.
    pub ph_published: Option<String>,
    /// Tags that cautions look for, and those that a house adds for itself.
    pub tags: Vec<Open<Tag>>,
    /// Allergens as somebody stated them ("tree nut (almond)"), in any words: nothing that is stated is lost.
    pub allergens: Vec<String>,
    /// Whether anybody has said which: an empty list then means none, else that nobody knows.
    pub allergens_stated: bool,
    /// The kind of drink that its maker may have cleared or brewed with an allergen (`finings.csv`), where nobody has read its label.
    pub label_unread: Option<Kind>,
    /// What states that it is food, where its name is none that is known.
    pub food: Option<FoodStatement>,
    /// The file and the place of its name in the house's larder; `None` in the embedded larder.
    pub named_at: Option<(Arc<str>, Span)>,
    /// The price as it was written.
    pub price: Option<String>,
    /// Where the price stands in the house's file.
    pub price_at: Option<Span>,
    /// What is usable of what is bought, as a fraction; `None` where nothing is said.
    pub usable: Option<f64>,
    /// The day of that price, ISO 8601, as written.
    pub priced_on: Option<String>,
    /// How the composition is known.
    pub status: Status,
    /// Where the composition comes from.
    pub source: String,
    /// What else a maker should know.
    pub notes: String,
    /// What the house says of it in words of its own: notes, a source, a statement.
    pub own_words: Vec<String>,
    /// The names of what it is written like, the nearest first: what they give away it has too.
    pub like: Vec<String>,
    /// Which larder it stands in.
    pub origin: Origin,
    /// What the house states of it.
    pub stated: Stated,
}

impl Ingredient {
    /// Whether it is matter of a plant that does not dissolve: peel, tea, coffee, nuts, herbs, fruit as it grows.
    pub(crate) fn is_plant_matter(&self) -> bool {
        use Kind::{
            Bark, Cacao, Cereal, Coffee, Flower, Fruit, Herb, Leaf, Legume, Nut, Peel, Root, Seed, Spice, Tea,
            Vegetable,
        };
        let is_plant = |kind| {
            matches!(
                kind,
                Peel | Herb
                    | Leaf
                    | Flower
                    | Spice
                    | Bark
                    | Root
                    | Seed
                    | Tea
                    | Coffee
                    | Cacao
                    | Cereal
                    | Legume
                    | Nut
                    | Fruit
                    | Vegetable
            )
        };
        self.form == Form::Solid && self.kind.map_or(self.per_gram.grams_of(Component::Insoluble) > 0.5, is_plant)
    }

    /// A distillate, of which the house has stated which allergens it brings: as strong as a spirit is sold (37.5 % vol and
    /// more, vodka and gin: Regulation (EU) 2019/787 Annex I, from memory), and nothing in it but water.
    pub(crate) fn is_stated_distillate(&self) -> bool {
        const SPIRIT: f64 = 0.308;
        let ethanol = self.per_gram.grams_of(Component::Ethanol);
        let is_plain = ethanol + self.per_gram.grams_of(Component::Water) >= 0.999;
        let is_spirit = self.kind.is_none_or(|kind| kind == Kind::Spirit);
        self.allergens_stated && self.origin != Origin::BuiltIn && is_spirit && is_plain && ethanol >= SPIRIT
    }

    /// What one of a portion weighs, a spoon of it, or the juice of one; where there are several (a cup sliced, a cup
    /// whole) the one that is usually meant.
    pub fn portion(&self, portion: Portion) -> Option<&PortionWeight> {
        self.portions.iter().find(|known| known.portion == portion)
    }

    /// Its id, its name and its aliases.
    pub fn all_names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(self.id.as_str()).chain(self.written_names())
    }

    /// Its name and its aliases: an id is a key of the tables, and nothing that people write.
    pub(crate) fn written_names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(self.name.as_str()).chain(self.aliases.iter().map(String::as_str))
    }

    /// Its name, and the other names that the house gave it. What else an embedded ingredient may be called is said of
    /// things of other kinds too (`sweet cider` of apple juice): what it brings stands in its row.
    pub(crate) fn own_names(&self) -> impl Iterator<Item = &str> {
        // an embedded one that was read anew keeps its id
        let read_anew = matches!(self.origin, Origin::House(_)) && Larder::embeds(&self.id);
        let of_the_table = move |alias: &&str| match self.origin {
            Origin::BuiltIn => true,
            Origin::House(_) => read_anew && Larder::built_in().find(alias).is_some_and(|known| known.id == self.id),
        };
        let other = self.aliases.iter().chain(&self.like);
        let aliases = other.map(String::as_str).filter(move |alias| !of_the_table(alias));
        std::iter::once(self.name.as_str()).chain(aliases)
    }
}
