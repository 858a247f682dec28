//! What is known of a product when its cautions are sought: a plain struct. Everything starts unknown.
//!
//! Its fields are the variables of the trigger language, so they carry their unit in their name.

use std::collections::{BTreeMap, BTreeSet};

use super::market::Market;
use super::trigger::Missing;
use super::{names, variables};

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
            /// From which ingredients each tag and allergen was read.
            pub read_from: BTreeMap<String, BTreeSet<String>>,
            /// What is to be asked of a tag or an allergen that is in doubt.
            pub questions: BTreeMap<String, BTreeSet<String>>,
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
    /// names gives away. Names only ever add, and what may be a misspelt name only ever asks. Begin with `tags` and
    /// `allergens` at [`Members::none`]. The first of the names is the one that it is spoken of by. The tag `identified`
    /// states that somebody who knows has named it, as it is written: then nothing is asked of the name.
    pub fn add_ingredient(&mut self, names: &[&str], tags: &[impl AsRef<str>], allergens: &[impl AsRef<str>]) {
        let mut all_tags: BTreeSet<String> = tags.iter().map(|tag| tag.as_ref().to_owned()).collect();
        let identified = all_tags.contains("identified");
        let mut brings: BTreeSet<String> = allergens.iter().flat_map(|a| names::read_allergen(a.as_ref())).collect();
        for name in names {
            let found = names::find(name);
            all_tags.extend(found.tags);
            brings.extend(found.allergens);
            if identified {
                continue;
            }
            for tag in found.unsure {
                let question = variables::ask_of(name, &tag);
                self.doubt(&tag, question);
                self.tags.doubt(tag);
            }
            for maybe in names::find_misspelt(name) {
                let question = format!("whether `{name}` is {}", maybe.meant);
                for tag in maybe.gives.tags.into_iter().chain(maybe.gives.unsure) {
                    self.doubt(&tag, question.clone());
                    self.tags.doubt(tag);
                }
                for allergen in maybe.gives.allergens {
                    self.doubt(&allergen, question.clone());
                    self.allergens.doubt(allergen);
                }
            }
        }
        names::drop_generic(&mut brings);
        if let Some(name) = names.first() {
            for read in all_tags.iter().chain(&brings) {
                self.read_from.entry(read.clone()).or_default().insert(format!("`{name}`"));
            }
        }
        self.tags.present.extend(all_tags);
        self.allergens.present.extend(brings);
    }

    fn doubt(&mut self, what: &str, question: String) {
        self.questions.entry(what.to_owned()).or_default().insert(question);
    }

    /// What has to be stated, in words: of a doubtful name that name, else what the variable means.
    pub fn ask(&self, missing: &Missing) -> Vec<String> {
        let of = |what: &String| self.questions.get(what).into_iter().flatten().cloned();
        let mut asked: Vec<String> = missing.member.iter().flat_map(of).collect();
        let mut open = asked.is_empty();
        if missing.variable == "allergens" {
            asked.extend(self.allergens.unsure.iter().flat_map(of));
            open = self.allergens.open || asked.is_empty();
        }
        asked.extend(open.then(|| variables::ask(missing.variable, missing.member.as_deref())));
        asked.sort();
        asked.dedup();
        asked
    }

    /// Takes in another formula that is a part of this one: tags and allergens travel, its other properties do not.
    pub fn take_in(&mut self, inner: &Self) {
        self.tags.unite(&inner.tags);
        self.allergens.unite(&inner.allergens);
        for (mine, theirs) in [(&mut self.read_from, &inner.read_from), (&mut self.questions, &inner.questions)] {
            for (what, said) in theirs {
                mine.entry(what.clone()).or_default().extend(said.iter().cloned());
            }
        }
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
