//! What is known of a product when its cautions are sought: a plain struct. Everything starts unknown.
//!
//! Its fields are the variables of the trigger language, so they carry their unit in their name.

use std::collections::{BTreeMap, BTreeSet};

use crate::vocabulary::{Allergen, Market, Open, Process, Tag, Word, words};

use super::alcohol_bands::alcohol_keeps;
use super::members::Members;

/// A fact that may be known, known not to exist, or not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Fact<T> {
    /// Nothing was stated.
    #[default]
    Unknown,
    /// There is none: no figure exists (a bark that was not assayed), nothing is dosed.
    None,
    /// It is this.
    Known(T),
}

impl<T> From<Option<T>> for Fact<T> {
    /// What is not there is not known.
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Unknown, Self::Known)
    }
}

words! {
    /// The answer of the pH and water activity table (FDA Food Code 2022, 1-201.10(B)), looked up elsewhere: product
    /// assessment required, to be treated as perishable; or no time and temperature control needed.
    Tcs, "class of the table":
    Pa = "pa",
    NonTcs = "non_tcs",
}

words! {
    /// How it is kept: at room temperature, cold at 5 °C or below, frozen.
    Storage, "storage":
    Ambient = "ambient",
    Chill = "chill",
    Frozen = "frozen",
}

/// Where a fact comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum FactOrigin {
    Card,
    Larder,
    /// A setting of the house.
    House,
    /// Computed from the solved card, or the screen and the dates made of it.
    Computed,
}

/// One of the things that the sets of [`Facts`] hold.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Member {
    Market(Market),
    Tag(Tag),
    Allergen(Open<Allergen>),
    Process(Process),
}

impl Member {
    /// The word in a sentence.
    pub(crate) fn said(&self) -> String {
        self.word().replace('_', " ")
    }

    /// Its word in a trigger.
    pub(crate) fn word(&self) -> &str {
        match self {
            Self::Market(market) => market.word(),
            Self::Tag(tag) => tag.word(),
            Self::Allergen(allergen) => allergen.as_str(),
            Self::Process(process) => process.word(),
        }
    }
}

macro_rules! facts {
    (quantities { $($quantity:ident $number:ident ($low:expr, $high:expr) $from:ident $asked:literal;)* }
     flags { $($flag:ident $yes:ident $flag_from:ident $flag_asked:literal;)* }) => {
        /// A number that a trigger may compare.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)]
        pub enum Quantity { $($quantity,)* }

        impl Quantity {
            pub(crate) const ALL: &'static [Self] = &[$(Self::$quantity,)*];

            /// Its name in a trigger.
            pub(crate) fn name(self) -> &'static str {
                match self { $(Self::$quantity => stringify!($number),)* }
            }

            /// What it is, for "not stated: …".
            pub(crate) fn asked(self) -> &'static str {
                match self { $(Self::$quantity => $asked,)* }
            }

            /// The bounds that nothing in nature passes: all that is known of it when it is not stated.
            pub(crate) fn bounds(self) -> (f64, f64) {
                match self { $(Self::$quantity => ($low, $high),)* }
            }

            pub(crate) fn origin(self) -> FactOrigin {
                match self { $(Self::$quantity => FactOrigin::$from,)* }
            }
        }

        /// A yes or no that a trigger may ask for.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)]
        pub enum Flag { $($flag,)* }

        impl Flag {
            pub(crate) const ALL: &'static [Self] = &[$(Self::$flag,)*];

            /// Its name in a trigger.
            pub(crate) fn name(self) -> &'static str {
                match self { $(Self::$flag => stringify!($yes),)* }
            }

            /// What it is, for "not stated: …".
            pub(crate) fn asked(self) -> &'static str {
                match self { $(Self::$flag => $flag_asked,)* }
            }

            pub(crate) fn origin(self) -> FactOrigin {
                match self { $(Self::$flag => FactOrigin::$flag_from,)* }
            }
        }

        /// Everything that a trigger may ask for; what a field means stands in `Quantity::asked` and `Flag::asked`.
        #[derive(Clone, Debug, Default, PartialEq)]
        #[allow(missing_docs)]
        pub struct Facts {
            $(pub $number: Fact<f64>,)*
            $(pub $yes: Fact<bool>,)*
            /// The class of the pH and water activity table.
            pub tcs: Fact<Tcs>,
            /// The class that it would have without the added acid.
            pub tcs_no_acid: Fact<Tcs>,
            /// How it is kept.
            pub storage: Fact<Storage>,
            /// What the ingredients are.
            pub tags: Members<Tag>,
            /// The allergens of the ingredients; one that no list knows is kept as it was stated.
            pub allergens: Members<Open<Allergen>>,
            /// Those in doubt only by what a bought drink may have been cleared or brewed with: a trace, and no milk or egg in it.
            pub fined: BTreeSet<Open<Allergen>>,
            /// How it is made and packed.
            pub process: Members<Process>,
            /// Where it is served or sold; empty: not stated, judged by the rules of all.
            pub market: Vec<Market>,
            /// From which ingredients each tag and allergen was read.
            pub read_from: BTreeMap<Member, BTreeSet<String>>,
            /// What is to be asked of a tag or an allergen that is in doubt.
            pub questions: BTreeMap<Member, BTreeSet<String>>,
        }

        impl Facts {
            /// A number. What is not finite is not known.
            pub(crate) fn number(&self, quantity: Quantity) -> Fact<f64> {
                let fact = match quantity { $(Quantity::$quantity => self.$number,)* };
                match fact {
                    Fact::Known(value) if !value.is_finite() => Fact::Unknown,
                    fact => fact,
                }
            }

            /// The place of a number.
            pub fn number_mut(&mut self, quantity: Quantity) -> &mut Fact<f64> {
                match quantity { $(Quantity::$quantity => &mut self.$number,)* }
            }

            pub(crate) fn flag(&self, flag: Flag) -> Fact<bool> {
                let stated = match flag { $(Flag::$flag => self.$yes,)* };
                match (flag, stated) {
                    // follows from the strength, and is never stated
                    (Flag::AlcoholKeeps, _) => self.alcohol_holds(),
                    // nobody is asked whether there is food in it: there is, unless all its parts are known
                    (Flag::NoFood, Fact::Unknown) => Fact::Known(false),
                    // nor whether a step told of a bath
                    (Flag::InBath, Fact::Unknown) => Fact::Known(false),
                    _ => stated,
                }
            }

            /// The place of a yes or no.
            pub fn flag_mut(&mut self, flag: Flag) -> &mut Fact<bool> {
                match flag { $(Flag::$flag => &mut self.$yes,)* }
            }
        }
    };
}

impl Facts {
    /// Whether its alcohol holds growth back, by its acid and water as far as they are known; what is not known of those
    /// counts as the worst.
    fn alcohol_holds(&self) -> Fact<bool> {
        let known = |quantity| match self.number(quantity) {
            Fact::Known(value) => Some(value),
            _ => None,
        };
        let up = |value, doubt| Some(known(value)? + known(doubt)?);
        match self.number(Quantity::Abv) {
            Fact::Known(abv) => Fact::Known(alcohol_keeps(
                abv,
                up(Quantity::Ph, Quantity::PhUncertainty),
                up(Quantity::WaterActivity, Quantity::WaterActivityUncertainty).unwrap_or(1.0),
            )),
            Fact::None => Fact::Known(false),
            Fact::Unknown => Fact::Unknown,
        }
    }
}

/// Nothing bounds it from above.
const ANY: f64 = f64::INFINITY;

facts! {
    quantities {
    Ph ph (-1.0, 15.0) Computed "the pH (read it, and write on the card: [measured] ph = ?, ph_by = \"meter\", calibrated = true)";
    PhUncertainty ph_u (0.0, ANY) Computed "the doubt of the pH";
    WaterActivity aw (0.0, 1.0) Computed "the water activity";
    WaterActivityUncertainty aw_u (0.0, 1.0) Computed "the doubt of the water activity";
    Abv abv (0.0, 100.0) Computed "the strength";
    Brix brix (0.0, 100.0) Computed "the Brix";
    FermentedAbv fermented_abv (0.0, 100.0) Computed "how sweet it is";
    Days days (0.0, ANY) Computed "how many days it is kept";
    SulphurDioxide so2_mg_kg (0.0, ANY) Computed "sulphur dioxide in mg/kg";
    Benzoic benzoic_mg_kg (0.0, ANY) Computed "benzoic acid in mg/kg";
    Sorbic sorbic_mg_kg (0.0, ANY) Computed "sorbic acid in mg/kg";
    BenzoicLimit limit_benzoic (0.0, ANY) House "the limit for benzoic acid in mg/kg";
    SorbicLimit limit_sorbic (0.0, ANY) House "the limit for sorbic acid in mg/kg";
    ActiveShare active_pct (0.0, 100.0) Computed "the active share of the preservative";
    Quinine quinine_mg_kg (0.0, ANY) Computed "quinine in mg/kg";
    Coumarin coumarin_mg_per_serving (0.0, ANY) Computed "how much is served (on the card: serving = \"25 ml\")";
    Nutmeg nutmeg_g_per_serving (0.0, ANY) Computed "how much is served (on the card: serving = \"25 ml\")";
    Corrosive corrosive_g (0.0, ANY) Computed "how many grams of it go in";
    StrongestSpirit strongest_abv (0.0, 100.0) Computed "the strength of the spirits";
    SpiritVolume spirit_ml (0.0, ANY) Computed "how much of the strongest spirit goes in";
    BodyMass body_mass_kg (0.0, ANY) House "the body mass to reckon with";
    LiquidTemperature liquid_temp_c (-273.15, ANY) Card
        "how hot the liquid gets (on the card: heated = \"85 °C for 5 min\", or \"no\")";
    FlashPoint flash_point_c (-273.15, ANY) Computed "the flash point";
    HoursHot hours_hot (0.0, ANY) Card
        "for how long it is held hot (on the card: heated = \"85 °C for 5 min\")";
    Hold hold_min (0.0, ANY) Card
        "for how many minutes the fill is held hot (on the card: heated = \"85 °C for 5 min\")";
    HoldNeeded need_min (0.0, ANY) Computed "the pH (read it, and write on the card: [measured] ph = ?, ph_by = \"meter\", calibrated = true)";
    Vessel vessel_l (0.0, ANY) Computed "the size of the largest vessel";
    Gas gas_bar (0.0, ANY) Computed "the pressure of the gas that its soda gives off with its acid";
    SmallestDose smallest_dose_g (0.0, ANY) Computed "the smallest dose to weigh";
    ScaleStep scale_g (0.0, ANY) House "the step of the scale";
    }
    flags {
    AlcoholKeeps alcohol_keeps Computed "the strength";
    NoFood no_food Computed "whether anything in it feeds growth";
    FiveLogHeat heat_5log Computed "whether a 5-log heat treatment is given";
    InBath in_bath Computed "whether it is warmed in a water bath";
    FromCold from_cold Computed "whether a drink takes milk, cream or egg out of the cold";
    Pasteurised pasteurised Computed "whether it is pasteurised in its closed bottle";
    Sale sale Card "whether it is for sale (on the card: [keep] for_sale = false)";
    Packaged packaged Card "whether it is packed (on the card: [keep] closed = false)";
    }
}

impl Quantity {
    /// What it is the uncertainty of: who is asked for a value is not asked for its uncertainty as well.
    pub(crate) fn uncertainty_of(self) -> Option<Self> {
        match self {
            Self::PhUncertainty => Some(Self::Ph),
            Self::WaterActivityUncertainty => Some(Self::WaterActivity),
            _ => None,
        }
    }
}
