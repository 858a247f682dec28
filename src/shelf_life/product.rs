//! The plain inputs of a date: what the finished product is, each value with how far off it may be. What is not known is
//! `None` and counts as the worst it could be. No word of a card is among them.

use super::warmth::StageWarmth;

/// What milk has become in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dairy {
    /// Milk that stays in.
    Milk,
    /// Cream that stays in.
    Cream,
    /// Fat that a spirit was washed with and that was lifted off.
    FatWashed,
    /// Curd that was strained off.
    Clarified,
}

/// What egg is in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Egg {
    /// Not pasteurised, or not said to be.
    Raw,
    /// Pasteurised, bought or by a 5-log heating here.
    Pasteurised,
}

/// What is in it, as far as a date cares, its own and what its parts bring.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Contents {
    /// Strained herb, spice, peel or fruit.
    pub plant: bool,
    /// Food for lactic bacteria: fruit, juice, wine, tea, coffee, malt, dairy, nut.
    pub nutrient: bool,
    /// Nuts.
    pub nut: bool,
    /// Wine.
    pub wine: bool,
    /// Coffee.
    pub coffee: bool,
    /// Oil of citrus peel.
    pub peel: bool,
    /// Nothing but water, salt, acid and spirit: no sugar, plant, juice or protein.
    pub no_food: bool,
    /// Poured by the drop or the dash: 2 ml or less a serving.
    pub drops: bool,
    /// No liquid is left.
    pub dried: bool,
    /// Herb, garlic, vegetable or fruit under oil.
    pub in_oil: bool,
    /// Garlic, herbs or vegetables, which a local code may not lift beyond 7 days in low acid.
    pub low_acid_plant: bool,
    /// Meat or fish.
    pub meat_or_fish: bool,
    /// Milk, in what shape.
    pub dairy: Option<Dairy>,
    /// Egg, and which.
    pub egg: Option<Egg>,
}

impl Contents {
    /// Milk or cream that stays in it, or egg.
    pub(crate) fn emulsion_or_milk(&self) -> bool {
        self.egg.is_some() || matches!(self.dairy, Some(Dairy::Milk | Dairy::Cream))
    }
}

/// How clean it is when it is closed, the worst of its unheated parts unless the whole is heated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Filled {
    /// Five decades of pathogens killed by its pH, filled hot and closed.
    HotClosed,
    /// Dissolved at 60 °C or hotter, or heated as its pH asks, and bottled cooler in clean glass.
    HotClean,
    /// White sugar, no heat.
    #[default]
    Cold,
    /// Plant, honey or raw sugar, no heat.
    ColdPlant,
    /// Raw juice, pulp or nut.
    Raw,
}

impl Product {
    /// Dried, and known to be dry: 20 % of water or less by mass, or a water activity of 0.70 or less.
    pub(crate) fn is_dry_enough(&self) -> bool {
        let dry = self.water_pct.is_some_and(|water| water <= 20.0) || self.aw.is_some_and(|aw| aw <= 0.70);
        self.contents.dried && dry
    }
}

/// A product to be dated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Product {
    /// Its strength, % vol.
    pub abv_pct: f64,
    /// How far off that may be, % vol; never counted as less than `super::hurdles::LEAST_ABV_DOUBT`.
    pub abv_doubt: f64,
    /// Sugar, g/L.
    pub sugar_g_l: f64,
    /// Dissolved solids, g per 100 g; unknown counts as none.
    pub brix: Option<f64>,
    /// Water activity of its sugar and salt in its water alone; alcohol counts once, through the strength.
    pub aw: Option<f64>,
    /// How far too low that may be.
    pub aw_doubt: f64,
    /// The highest pH that it can have; `None` where nobody knows.
    pub ph_up: Option<f64>,
    /// Salt, g per 100 g.
    pub salt_pct: f64,
    /// Acetic acid, g per 100 g.
    pub acetic_pct: f64,
    /// Acid of all kinds, g/L.
    pub acid_g_l: f64,
    /// Share of raw juice by mass, through all its parts, 0 to 1.
    pub raw_juice: f64,
    /// That juice is orange or grapefruit, of which there are published days.
    pub sweet_citrus: bool,
    /// Share of pasteurised juice from an opened bottle, 0 to 1.
    pub pasteurised_juice: f64,
    /// What is in it.
    pub contents: Contents,
    /// How it was filled.
    pub filled: Filled,
    /// Has been opened.
    pub opened: bool,
    /// Closed airtight.
    pub closed: bool,
    /// What it went through before it was bottled.
    pub stages: Vec<StageWarmth>,
    /// Water by mass of what has no liquid left, g per 100 g.
    pub water_pct: Option<f64>,
    /// The earliest age in days at which a lot of it showed gas, haze, film, mould or a swollen cap.
    pub spoiled_lot_days: Option<f64>,
    /// What its own lots say of its quality, where the house has accepted it, store by store.
    pub of_lots: Vec<HouseQuality>,
}

/// How long a product stays good in a store, by the house's own lots, as the house has accepted it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct HouseQuality {
    /// The store.
    pub store: String,
    /// How warm it is there, °C.
    pub t_c: f64,
    /// Whole days, never beyond the oldest age at which a lot was looked at and found fine.
    pub days: u32,
    /// How many lots say so.
    pub lots: usize,
}
