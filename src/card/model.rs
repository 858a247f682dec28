//! A recipe card as data. Every value remembers its place in the text.

use std::sync::Arc;

use chrono::NaiveDate;
use serde::Serialize;

use crate::diagnostic::{Span, Spanned};
use crate::properties::TargetKind;
use crate::units::{Basis, Mass, MassDensity, Reading, Temperature, Time, Volume};
use crate::vocabulary::{
    Bubbles, Container, DrinkHow, FoodStatement, GoesInAfter, IceKind, Open, PhBy, ProductClass, StatedProcess, Washed,
};

use super::landed::{Aim, Landed, TargetRange};

/// How much of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// That much, for the yield in `makes`; scales with it.
    Mass(Mass),
    /// That much by volume at 20 °C.
    Volume(Volume),
    /// Pieces; the larder knows what one weighs.
    Pieces(f64),
    /// A share of a ratio between all parts so written.
    Parts {
        /// How many parts.
        parts: f64,
        /// By weight or by volume.
        basis: Basis,
    },
    /// Mass for each volume of the finished liquid ("6 g/L").
    Dose(MassDensity),
    /// Volume for each volume of the finished liquid ("20 ml/L"), as a fraction.
    VolumeDose(f64),
    /// A share of the finished weight, as a fraction ("5 %").
    Share(f64),
    /// Solve for it.
    AsNeeded,
    /// All that an earlier stage of the card gives.
    All,
}

/// What the card makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Makes {
    /// A volume at 20 °C.
    Volume(Volume),
    /// A mass.
    Mass(Mass),
    /// Bottles.
    Bottles {
        /// How many.
        count: f64,
        /// What one holds.
        each: Volume,
    },
}

/// A target: `value` in °Bx, % vol, g/L, g/L or pH units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Target {
    /// Which property.
    pub kind: TargetKind,
    /// The number, in the unit of the kind.
    pub value: f64,
    /// Where it stands.
    pub span: Span,
}

/// How much of a part there may be.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PartBounds {
    /// No less than this.
    pub at_least: Option<Spanned<Amount>>,
    /// No more than this.
    pub at_most: Option<Spanned<Amount>>,
}

/// One line of the card.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The key as written ("water, to top up").
    pub label: Spanned<String>,
    /// What it is: an ingredient, an earlier stage, or another card ("water").
    pub of: Spanned<String>,
    /// How much.
    pub amount: Spanned<Amount>,
    /// The amount as it was written.
    pub written: Reading,
    /// Whether its solids are strained out again; `None` where the card does not say, and then they stay in.
    pub strained: Option<bool>,
    /// Whether nobody has said that it is strained out, but the reader of its recipe.
    pub strained_is_assumed: bool,
    /// What the strained solids hold, if the card says so.
    pub holds: Option<Spanned<f64>>,
    /// What states that it is food, where its name is none that is known.
    pub food: Option<FoodStatement>,
    /// How much of it there may be, where it is as needed.
    pub bounds: PartBounds,
    /// Behind what it goes into the glass, where the card of a drink says so: a float.
    pub after: Option<Spanned<GoesInAfter>>,
    /// How warm it is poured, where the card of a drink says so.
    pub at: Option<Spanned<Temperature>>,
}

impl Part {
    /// Whether its solids are strained out again.
    pub(crate) fn is_strained(&self) -> bool {
        self.strained == Some(true)
    }

    /// Whether its amount is so much, and no share of the rest.
    pub(crate) fn has_size(&self) -> bool {
        use Amount::{All, Mass, Pieces, Volume};
        matches!(self.amount.value, Mass(_) | Volume(_) | Pieces(_) | All)
    }
}

/// What is lost on the way, as fractions; `None` where the card says nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Loss {
    /// Of the water, on the stove or in the dryer.
    pub evaporated: Option<Spanned<f64>>,
    /// Where the card leaves open what evaporates: boiled down until a target is met.
    pub evaporated_as_needed: Option<Span>,
    /// Of the batch, in the pan and the funnel.
    pub left_behind: Option<Spanned<f64>>,
}

/// Heated to a temperature for a time ("85 °C for 5 min").
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heated {
    /// How hot.
    pub to: Temperature,
    /// How long, if the card says so.
    pub hold: Option<Time>,
    /// Said by what the pan does ("simmer 10 min") and not in degrees: it steams so, whatever least heat that is.
    pub bubbles: Option<Bubbles>,
}

/// How long a stage takes ("7 days").
#[derive(Clone, Debug, PartialEq)]
pub struct Takes {
    /// As it was written.
    pub written: String,
    /// In seconds, above zero.
    pub time: Time,
}

/// Parts that are combined, reduced, strained: a named stage, or the last one (the card's own parts).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stage {
    /// The name; `None` for the card's own parts.
    pub name: Option<Spanned<String>>,
    /// The lines, in card order.
    pub parts: Vec<Part>,
    /// What is lost.
    pub loss: Loss,
    /// How it is heated.
    pub heated: Option<Spanned<Heated>>,
    /// Where the card says that what is in this pan is not heated, whatever its steps speak of.
    pub not_heated: Option<Span>,
    /// What it says of its heat in words that do not say how hot all of it gets, until they stand among the steps.
    pub(crate) heat_untold: Option<String>,
    /// How long it takes, waiting counted.
    pub takes: Option<Takes>,
    /// How warm it stands meanwhile.
    pub at: Option<Temperature>,
    /// What was lifted or strained off again after the spirit or drink was washed with it.
    pub washed: Option<Washed>,
    /// The method of a named stage, a step a line; the card's own stands in [`Card::steps`].
    pub steps: Vec<String>,
    /// The places of the parts that the steps put in behind the straining; `None` where nobody has read them for it.
    pub(crate) behind: Option<Vec<usize>>,
}

/// How the product is kept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Keep {
    /// Hot (`true`) or cold filled.
    pub hot_filled: Option<bool>,
    /// Closed at once.
    pub closed: Option<bool>,
    /// Glass, plastic, bag.
    pub container: Option<Spanned<Container>>,
    /// Sold in that container.
    pub for_sale: Option<bool>,
    /// Has been opened.
    pub opened: Option<bool>,
    /// The store that it is planned for.
    pub store: Option<Spanned<String>>,
    /// Water that may still go in, to taste, as a share of what is bottled.
    pub more_water: Option<f64>,
}

/// What the maker measured in the batch.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measured {
    /// pH.
    pub ph: Option<Spanned<f64>>,
    /// °Bx, corrected to 20 °C.
    pub brix: Option<Spanned<f64>>,
    /// % vol.
    pub abv: Option<Spanned<f64>>,
    /// Titratable acid, g/L as citric.
    pub acid: Option<Spanned<f64>>,
    /// What the pH was read with; a strip, where nobody says.
    pub ph_by: Option<PhBy>,
    /// The meter was calibrated in two buffers that day.
    pub calibrated: bool,
    /// The day.
    pub on: Option<Spanned<NaiveDate>>,
}

/// What a drink says beside its parts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drink {
    /// How it is made; `None` of a card that is no drink.
    pub how: Option<Spanned<DrinkHow>>,
    /// The ice.
    pub ice: Option<Ice>,
    /// What it gained from the ice, weighed.
    pub water: Option<Spanned<Mass>>,
    /// What it is served in.
    pub glass: Option<String>,
    /// What goes on it.
    pub garnish: Option<String>,
}

/// The ice that a drink meets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ice {
    /// How much, the water on it counted.
    pub grams: Option<Mass>,
    /// What it is broken or cast to.
    pub kind: Option<IceKind>,
    /// How cold it is; from the bin it is wet and at 0 °C.
    pub at: Option<Temperature>,
    /// What the drink weighed before it met the ice.
    pub before: Option<Spanned<Mass>>,
    /// What it weighed strained.
    pub after: Option<Spanned<Mass>>,
}

/// A card.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Card {
    /// The file it was read from.
    pub file: Arc<str>,
    /// Its text, for painting diagnostics.
    pub text: Arc<str>,
    /// The product's name.
    pub name: Spanned<String>,
    /// The yield and the measure as they were written.
    pub sizes: Vec<Reading>,
    /// What a bottle holds, where it counts bottles.
    pub bottle: Option<Volume>,
    /// What its ratios count, where their parts do not say.
    pub ratio: Option<Basis>,
    /// What it makes, if it says so.
    pub makes: Option<Spanned<Makes>>,
    /// Whether it makes about so much: then its amounts decide.
    pub makes_about: bool,
    /// How many pieces it makes, where it is counted: what they weigh the amounts decide.
    pub pieces: Option<f64>,
    /// How many servings it makes, where it counts them ("20 drinks"); what they come to stands in `makes`.
    pub servings: Option<Spanned<f64>>,
    /// What the finished liquid shall be, in card order.
    pub targets: Vec<Target>,
    /// The targets with room, in card order.
    pub ranges: Vec<TargetRange>,
    /// What it shall come out best in, where that leaves something open.
    pub aim: Option<Spanned<Aim>>,
    /// What was chosen where it leaves room: its targets and amounts then hold what was chosen.
    pub landed: Option<Landed>,
    /// The stages before the last, in card order.
    pub stages: Vec<Stage>,
    /// The card's own parts.
    pub last: Stage,
    /// What it says as a drink.
    pub drink: Drink,
    /// How it is kept.
    pub keep: Keep,
    /// The class that chooses the ceiling on its life.
    pub class: Option<Spanned<Open<ProductClass>>>,
    /// What was done to it ("fermented"), what is not listed is taken as not done.
    pub process: Vec<StatedProcess>,
    /// One measure ("15 ml").
    pub serving: Option<Spanned<Volume>>,
    /// The same of what is counted ("1 wheel").
    pub serving_pieces: Option<f64>,
    /// Work for one batch, waiting not counted.
    pub labour: Option<Spanned<Time>>,
    /// The method, a step a line.
    pub steps: Vec<String>,
    /// Where the card comes from.
    pub source: Option<String>,
    /// What else the maker should know.
    pub notes: Option<String>,
    /// Of what is bottled ahead: how a guest gets it.
    pub for_a_guest: Option<String>,
    /// The drink that is bottled ahead in it: a guest who orders that is poured this.
    pub pours: Option<String>,
    /// Readings of the batch.
    pub measured: Measured,
}

/// One thing that a step does and no line says.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct OnNoLine {
    /// What is read, and the question with the line to write.
    pub asks: String,
    /// Where the step says so; its card, where that cannot be told.
    pub place: Span,
    /// Whether it surely changes what is made; what is not sure is warned of alone.
    pub is_sure: bool,
}

/// What a question is of: what one among the parts would bring, nobody knows; a question of a key brings nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum AskedOf {
    /// A line among the parts.
    Parts,
    /// A key.
    Key,
    /// The steps, which tell what no line does.
    Steps,
}

impl Card {
    /// Whether it is a drink: its parts are those of one glass.
    pub fn is_drink(&self) -> bool {
        self.drink.how.is_some()
    }

    /// Whether anything on it has room that was not yet chosen from.
    pub(crate) fn has_room(&self) -> bool {
        let bounded = |part: &Part| part.bounds != PartBounds::default();
        self.landed.is_none() && (!self.ranges.is_empty() || self.aim.is_some() || self.last.parts.iter().any(bounded))
    }

    /// The stages in the order of the work, the card's own parts last.
    pub(crate) fn all_stages(&self) -> impl Iterator<Item = &Stage> {
        self.stages.iter().chain([&self.last])
    }

    /// Every part with the stage that it stands in, in the order of the work.
    pub fn all_parts(&self) -> impl Iterator<Item = (&Stage, &Part)> {
        self.all_stages().flat_map(|stage| stage.parts.iter().map(move |part| (stage, part)))
    }
}
