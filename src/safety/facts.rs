//! What is known of a product when its cautions are sought: a plain struct. Everything starts unknown.
//!
//! Its fields are the variables of the trigger language, so they carry their unit in their name.

use std::collections::BTreeSet;

use super::market::Market;
use super::names;

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

/// The answer of the pH and water activity table (FDA Food Code 2022, 1-201.10(B)), looked up elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tcs {
    /// Product assessment required: treat as perishable.
    Pa,
    /// No time and temperature control needed.
    NonTcs,
}

impl Tcs {
    /// The words of the trigger language.
    pub const WORDS: &'static [&'static str] = &["pa", "non_tcs"];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Pa => "pa",
            Self::NonTcs => "non_tcs",
        }
    }
}

/// How it is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Storage {
    /// At room temperature.
    Ambient,
    /// Cold, at 5 °C or below.
    Chill,
    /// Frozen.
    Frozen,
}

impl Storage {
    /// The words of the trigger language.
    pub const WORDS: &'static [&'static str] = &["ambient", "chill", "frozen"];

    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ambient => "ambient",
            Self::Chill => "chill",
            Self::Frozen => "frozen",
        }
    }
}

/// A set of tags of which some may be in doubt. The default is that nothing is known of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Members {
    /// Surely in it.
    pub present: BTreeSet<String>,
    /// Perhaps in it.
    pub unsure: BTreeSet<String>,
    /// Whether anything else may be in it as well.
    pub open: bool,
}

impl Default for Members {
    fn default() -> Self {
        Self { present: BTreeSet::new(), unsure: BTreeSet::new(), open: true }
    }
}

impl Members {
    /// Exactly these, and nothing else.
    pub fn known<S: Into<String>>(tags: impl IntoIterator<Item = S>) -> Self {
        Self { present: tags.into_iter().map(Into::into).collect(), unsure: BTreeSet::new(), open: false }
    }

    /// Nothing, surely.
    pub fn none() -> Self {
        Self::known::<String>([])
    }

    /// Adds one that is surely there.
    pub fn add(&mut self, tag: impl Into<String>) {
        self.present.insert(tag.into());
    }

    /// Adds one that may be there.
    pub fn doubt(&mut self, tag: impl Into<String>) {
        self.unsure.insert(tag.into());
    }

    /// Whether it may hold this one.
    pub fn may_hold(&self, tag: &str) -> bool {
        self.open || self.present.contains(tag) || self.unsure.contains(tag)
    }

    /// All that either holds, and the doubt of both.
    pub fn unite(&mut self, other: &Self) {
        self.present.extend(other.present.iter().cloned());
        self.unsure.extend(other.unsure.iter().cloned());
        self.open |= other.open;
    }
}

macro_rules! facts {
    (numbers: $($number:ident)*; flags: $($flag:ident)*; words: $($word:ident: $type:ty)*; sets: $($set:ident)*;) => {
        /// Everything that a trigger may ask for; what each field means stands in [`super::variables::VARIABLES`].
        #[derive(Clone, Debug, Default, PartialEq)]
        #[allow(missing_docs)]
        pub struct Facts {
            $(pub $number: Fact<f64>,)*
            $(pub $flag: Fact<bool>,)*
            $(pub $word: Fact<$type>,)*
            $(pub $set: Members,)*
            /// Where it is served or sold; empty: not stated, judged by the rules of all.
            pub market: Vec<Market>,
        }

        impl Facts {
            /// The number with this name. What is not finite is not known.
            pub fn number(&self, name: &str) -> Fact<f64> {
                let fact = match name { $(stringify!($number) => self.$number,)* _ => Fact::Unknown };
                match fact {
                    Fact::Known(value) if !value.is_finite() => Fact::Unknown,
                    fact => fact,
                }
            }

            /// The place of the number with this name.
            pub fn number_mut(&mut self, name: &str) -> Option<&mut Fact<f64>> {
                match name { $(stringify!($number) => Some(&mut self.$number),)* _ => None }
            }

            /// The yes or no with this name.
            pub fn flag(&self, name: &str) -> Fact<bool> {
                match name { $(stringify!($flag) => self.$flag,)* _ => Fact::Unknown }
            }

            /// The word with this name.
            pub fn word(&self, name: &str) -> Fact<&'static str> {
                let word = match name {
                    $(stringify!($word) => match self.$word {
                        Fact::Known(value) => Fact::Known(value.word()),
                        Fact::None => Fact::None,
                        Fact::Unknown => Fact::Unknown,
                    },)*
                    _ => Fact::Unknown,
                };
                word
            }

            /// The set with this name.
            pub fn set(&self, name: &str) -> Option<&Members> {
                match name { $(stringify!($set) => Some(&self.$set),)* _ => None }
            }

            /// Makes the fact with this name unknown; `false` where there is no such fact.
            pub fn forget(&mut self, name: &str) -> bool {
                match name {
                    $(stringify!($number) => self.$number = Fact::Unknown,)*
                    $(stringify!($flag) => self.$flag = Fact::Unknown,)*
                    $(stringify!($word) => self.$word = Fact::Unknown,)*
                    $(stringify!($set) => self.$set = Members::default(),)*
                    "market" => self.market.clear(),
                    _ => return false,
                }
                true
            }
        }
    };
}

facts! {
    numbers: ph ph_u aw aw_u abv brix days so2_mg_kg benzoic_mg_kg sorbic_mg_kg limit_benzoic limit_sorbic
        active_pct quinine_mg_kg coumarin_mg_per_serving nutmeg_g_per_serving body_mass_kg liquid_temp_c
        flash_point_c hours_hot hold_min need_min vessel_l smallest_dose_g scale_g;
    flags: heat_5log pasteurised sale packaged;
    words: tcs: Tcs tcs_no_acid: Tcs storage: Storage;
    sets: tags allergens process;
}

/// What can only come with one of these tags: without them there is none of it.
const CARRIERS: &[(&str, Fact<f64>, &[&str])] = &[
    ("benzoic_mg_kg", Fact::Known(0.0), &["benzoate"]),
    ("sorbic_mg_kg", Fact::Known(0.0), &["sorbate"]),
    ("quinine_mg_kg", Fact::None, &["cinchona", "quinine"]),
    ("coumarin_mg_per_serving", Fact::Known(0.0), &["cassia", "tonka", "woodruff"]),
    ("nutmeg_g_per_serving", Fact::Known(0.0), &["nutmeg", "mace"]),
];

/// Below this strength the pathogens studied are not all held back by alcohol (see `alcohol_bands`).
const PATHOGENS_STOP_ABV: f64 = 12.5;

impl Facts {
    /// Takes in one ingredient: the tags and allergens that its larder entry states, and those that any of its
    /// names gives away. Names only ever add. Begin with `tags` and `allergens` at [`Members::none`].
    pub fn add_ingredient(&mut self, names: &[&str], tags: &[impl AsRef<str>], allergens: &[impl AsRef<str>]) {
        for tag in tags {
            self.tags.add(tag.as_ref());
        }
        let mut brings: BTreeSet<String> = BTreeSet::new();
        for stated in allergens {
            brings.extend(names::read_allergen(stated.as_ref()));
        }
        let identified = tags.iter().any(|t| t.as_ref() == "identified");
        for name in names {
            let found = names::find(name);
            self.tags.present.extend(found.tags);
            brings.extend(found.allergens);
            if !identified {
                self.tags.unsure.extend(found.unsure);
            }
            // A slip of the pen must not hide a nut or a poison.
            for maybe in names::find_misspelt(name) {
                self.tags.unsure.extend(maybe.gives.tags.into_iter().chain(maybe.gives.unsure));
                self.allergens.unsure.extend(maybe.gives.allergens);
            }
        }
        names::drop_generic(&mut brings);
        self.allergens.present.extend(brings);
    }

    /// Takes in another formula that is a part of this one: tags and allergens travel, its other properties do not.
    pub fn take_in(&mut self, inner: &Self) {
        self.tags.unite(&inner.tags);
        self.allergens.unite(&inner.allergens);
    }

    /// Draws what follows from the tags once all parts are in: plants in oil of a mixture too weak to hold growth
    /// back are an oil infusion, and a poison none of whose carriers can be there is not there.
    pub fn conclude(&mut self) {
        let weak = !matches!(self.number("abv"), Fact::Known(abv) if abv >= PATHOGENS_STOP_ABV);
        if weak && self.tags.present.contains("oil") && self.tags.present.contains("fresh_plant") {
            self.tags.add("oil_infusion");
        }
        for (variable, absent, carriers) in CARRIERS {
            if carriers.iter().any(|tag| self.tags.may_hold(tag)) {
                continue;
            }
            if let Some(fact @ Fact::Unknown) = self.number_mut(variable) {
                *fact = *absent;
            }
        }
    }
}
