//! The variables of the triggers: what each means, and the one place it comes from.

use super::facts::{Storage, Tcs};

/// Where a fact comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FactOrigin {
    /// Written on the formula's card.
    Card,
    /// From the ingredients.
    Larder,
    /// A setting of the house.
    House,
    /// Computed from the solved formula, or the screen and the dates made of it.
    Computed,
}

/// What kind of value it takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FactKind {
    /// A number between two bounds that nothing in nature passes: all that is known of it when it is not stated.
    Number {
        /// The least it can be.
        low: f64,
        /// The most it can be.
        high: f64,
    },
    /// Yes or no.
    Flag,
    /// One of these words.
    Word(&'static [&'static str]),
    /// Any number of tags.
    Set,
}

/// One variable.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variable {
    /// The name in a trigger and in [`super::Facts`].
    pub name: &'static str,
    /// What it is, for "not stated: …".
    pub words: &'static str,
    /// What kind of value it takes.
    pub kind: FactKind,
    /// Where it comes from.
    pub origin: FactOrigin,
}

const fn number(name: &'static str, low: f64, high: f64, origin: FactOrigin, words: &'static str) -> Variable {
    Variable { name, words, kind: FactKind::Number { low, high }, origin }
}

const fn amount(name: &'static str, origin: FactOrigin, words: &'static str) -> Variable {
    number(name, 0.0, f64::INFINITY, origin, words)
}

const fn other(name: &'static str, kind: FactKind, origin: FactOrigin, words: &'static str) -> Variable {
    Variable { name, words, kind, origin }
}

/// Every variable, with exactly one origin each.
pub const VARIABLES: &[Variable] = {
    use FactOrigin::{Card, Computed, House, Larder};
    &[
        number("ph", -1.0, 15.0, Computed, "the pH (read it, and write on the card: [measured] ph = 3.4)"),
        amount("ph_u", Computed, "the doubt of the pH"),
        number("aw", 0.0, 1.0, Computed, "the water activity"),
        number("aw_u", 0.0, 1.0, Computed, "the doubt of the water activity"),
        number("abv", 0.0, 100.0, Computed, "the strength"),
        number("brix", 0.0, 100.0, Computed, "the Brix"),
        amount("days", Computed, "how many days it is kept"),
        amount("so2_mg_kg", Computed, "sulphur dioxide in mg/kg"),
        amount("benzoic_mg_kg", Computed, "benzoic acid in mg/kg"),
        amount("sorbic_mg_kg", Computed, "sorbic acid in mg/kg"),
        amount("limit_benzoic", House, "the limit for benzoic acid in mg/kg"),
        amount("limit_sorbic", House, "the limit for sorbic acid in mg/kg"),
        number("active_pct", 0.0, 100.0, Computed, "the active share of the preservative"),
        amount("quinine_mg_kg", Computed, "quinine in mg/kg"),
        amount("coumarin_mg_per_serving", Computed, "how much is served (on the card: serving = \"25 ml\")"),
        amount("nutmeg_g_per_serving", Computed, "how much is served (on the card: serving = \"25 ml\")"),
        amount("body_mass_kg", House, "the body mass to reckon with"),
        number(
            "liquid_temp_c",
            -273.15,
            f64::INFINITY,
            Card,
            "how hot the liquid gets (on the card: heated = \"85 °C for 5 min\")",
        ),
        number("flash_point_c", -273.15, f64::INFINITY, Computed, "the flash point"),
        amount("hours_hot", Card, "for how long it is held hot (on the card: heated = \"85 °C for 5 min\")"),
        amount(
            "hold_min",
            Card,
            "for how many minutes the fill is held hot (on the card: heated = \"85 °C for 5 min\")",
        ),
        amount("need_min", Computed, "the pH (read it, and write on the card: [measured] ph = 3.4)"),
        amount("vessel_l", Computed, "the size of the largest vessel"),
        amount("smallest_dose_g", Computed, "the smallest dose to weigh"),
        amount("scale_g", House, "the step of the scale"),
        other("heat_5log", FactKind::Flag, Computed, "whether a 5-log heat treatment is given"),
        other("pasteurised", FactKind::Flag, Computed, "whether it is pasteurised in its closed bottle"),
        other("sale", FactKind::Flag, Card, "whether it is for sale (on the card: [keep] for_sale = false)"),
        other("packaged", FactKind::Flag, Card, "whether it is packed (on the card: [keep] closed = false)"),
        other("tcs", FactKind::Word(Tcs::WORDS), Computed, "the class of the pH and water activity table"),
        other(
            "tcs_no_acid",
            FactKind::Word(Tcs::WORDS),
            Computed,
            "the class that it would have without the added acid",
        ),
        other("storage", FactKind::Word(Storage::WORDS), House, "where it is kept"),
        other("market", FactKind::Set, House, "the market (in house.toml: [house] market = \"UK\")"),
        other("tags", FactKind::Set, Larder, "what the ingredients are"),
        other("allergens", FactKind::Set, Larder, "the allergens of the ingredients"),
        other("process", FactKind::Set, Card, "how it is made and packed"),
    ]
};

/// What a product may have gone through: the tag in a trigger, and its words.
pub const PROCESSES: &[(&str, &str)] = &[
    ("acidified", "acidified in order to keep"),
    ("blend", "blended from spirits"),
    ("boil", "boiled"),
    ("carbonated", "carbonated"),
    ("distil", "distilled"),
    ("ferment", "left to ferment"),
    ("fortify", "fortified"),
    ("heat", "heated with its alcohol in it"),
    ("hot_fill", "filled hot"),
    ("infuse", "infused in spirit"),
    ("pressure_infusion", "infused under gas pressure"),
    ("rop", "packed under vacuum or gas"),
    ("sealed", "closed airtight"),
    ("sealed_glass", "closed in glass"),
    ("sous_vide", "cooked in a bag"),
];

/// The variable with this name.
pub fn find(name: &str) -> Option<&'static Variable> {
    VARIABLES.iter().find(|v| v.name == name)
}

/// What has to be stated of a thing whose name leaves it open, in words.
pub fn ask_of(name: &str, tag: &str) -> String {
    match tag {
        "foraged_unsure" => format!("whether an expert has named the foraged plant `{name}`"),
        tag => format!("whether `{name}` is or holds {}", tag.replace('_', " ")),
    }
}

/// What has to be stated, in words.
pub fn ask(variable: &str, member: Option<&str>) -> String {
    match (variable, member) {
        ("process", Some(tag)) => match PROCESSES.iter().find(|(name, _)| *name == tag) {
            Some((_, words)) => format!("whether it is {words}"),
            None => format!("whether it is {}", tag.replace('_', " ")),
        },
        ("tags", Some("foraged_unsure")) => "whether an expert has named the foraged plant".to_owned(),
        ("tags", Some(tag)) => format!("whether an ingredient is or holds {}", tag.replace('_', " ")),
        (name, _) => find(name).map_or(name, |v| v.words).to_owned(),
    }
}
