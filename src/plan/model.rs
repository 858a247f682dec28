//! Products, lots and what draws on them, in whole millilitres or grams.

use super::calendar::{Day, Uses};
use super::poured::Poured;

/// What the amounts of a product count.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PrepUnit {
    /// Millilitres at 20 °C.
    #[default]
    Ml,
    /// Grams.
    G,
    /// Pieces: only of what is bought.
    Pieces,
}

impl PrepUnit {
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Ml => "ml",
            Self::G => "g",
            Self::Pieces => "each",
        }
    }
}

/// A product as the plan sees it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PrepProduct {
    /// Its name.
    pub name: String,
    /// What its amounts count.
    pub unit: PrepUnit,
    /// On how many days after the day it is finished it may still be used; 0 is that day alone.
    pub life: Day,
    /// Whether it is only better before its last day.
    pub best_before: bool,
    /// Its clock runs from the day that it is finished, whatever the days of its parts: each need only be in date on the day it goes in.
    pub own_clock: bool,
    /// What stands ready when the doors open.
    pub par: u64,
    /// What goes over the bar.
    pub uses: Uses,
    /// What goes into the drinks of a menu.
    pub poured: Vec<Poured>,
    /// The smallest batch that is worth the work.
    pub smallest: u64,
    /// The largest batch that can be made at once.
    pub largest: Option<u64>,
    /// What its batches are whole times of.
    pub step: Option<u64>,
    /// What making it costs, where that is known.
    pub cost: Option<BatchCost>,
    /// What is there already.
    pub on_hand: Vec<OnHand>,
    /// The days on which hands are needed, the last of them the day it is finished.
    pub works: Vec<Work>,
    /// Other products of the house that go in.
    pub parts: Vec<Goes>,
    /// Ingredients that go in.
    pub takes: Vec<Take>,
}

impl PrepProduct {
    /// How many days before it is finished the work begins.
    pub fn lead(&self) -> Day {
        self.works.iter().map(|w| w.days_before).max().unwrap_or(0)
    }

    /// Whether what has this last day is only better before it: of what is there its own word counts.
    pub(crate) fn is_best_before(&self, last: Day) -> bool {
        let there = self.on_hand.iter().filter(|held| held.use_by == last);
        let mut marks = there.map(|held| held.best_before.unwrap_or(self.best_before)).peekable();
        if marks.peek().is_some() { marks.all(|mark| mark) } else { self.best_before }
    }
}

/// What making a product costs, before tax, in the currency of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BatchCost {
    /// A batch, however large it is: the work.
    pub each_batch: f64,
    /// A millilitre or gram of it.
    pub each_unit: f64,
}

/// A bottle on the shelf: how much, and the last day it may be used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OnHand {
    /// How much.
    pub amount: u64,
    /// The last day.
    pub use_by: Day,
    /// Its place among what is there, where it was made by another card than that of today.
    pub by_old_card: Option<usize>,
    /// Whether it is only better before that day; `None` where the book does not say it.
    pub best_before: Option<bool>,
}

/// A day on which hands are needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Work {
    /// The stage that begins; `None` for the product itself.
    pub stage: Option<String>,
    /// How many days before the product is finished.
    pub days_before: Day,
    /// How long it then takes, as the card says.
    pub takes: Option<String>,
}

/// A product of the house that goes into another.
#[derive(Clone, Debug, PartialEq)]
pub struct Goes {
    /// Its name.
    pub of: String,
    /// How many days before the outer product is finished it goes in.
    pub days_before: Day,
    /// Its millilitres or grams in one of the outer product's.
    pub per_unit: f64,
}

/// An ingredient that goes into a product.
#[derive(Clone, Debug, PartialEq)]
pub struct Take {
    /// Its name in the larder.
    pub of: String,
    /// How many days before the product is finished it goes in.
    pub days_before: Day,
    /// Its grams in one millilitre or gram of the product.
    pub grams_per_unit: f64,
}

/// What is made on a day, or was there before the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrepLot {
    /// The day it is finished; `None` for what was there already.
    pub ready: Option<Day>,
    /// How much.
    pub amount: u64,
    /// The last day it may be used, and is labelled with.
    pub use_by: Day,
}

/// What takes from the stock of a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Draw {
    /// On which day.
    pub day: Day,
    /// The day that what is taken must keep to: the day itself, or the date of the product that it goes into.
    pub until: Day,
    /// The product (by its place) and the day that it is finished, if it goes into one.
    pub into: Option<(usize, Day)>,
    /// How much.
    pub amount: u64,
}
