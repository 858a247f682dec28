//! The units that an amount can be written in, as data, and the ones that are refused because they
//! mean more than one thing.

use crate::references::{self, Standing};

/// Whether a ratio counts grams or millilitres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// By weight.
    Weight,
    /// By volume.
    Volume,
}

/// What a unit measures, and so what its factor is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Factor in grams.
    Mass,
    /// Factor in millilitres.
    Volume,
    /// Factor in seconds.
    Time,
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Pieces.
    Pieces,
    /// Shares of a ratio.
    Parts(Option<Basis>),
    /// Percent of something that the unit does not name.
    Percent,
    /// Percent alcohol by volume at 20 °C.
    Abv,
    /// US proof.
    Proof,
    /// Grams of dissolved solids per 100 g.
    Brix,
}

/// One unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// The name that is printed for one.
    pub name: &'static str,
    /// The name that is printed for several.
    pub plural: &'static str,
    /// Every spelling that is read, in the form that [`normalised`] gives.
    pub spellings: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// One of it, in the unit of its dimension.
    pub factor: f64,
    /// The key of its source in the bibliography.
    pub source: &'static str,
    /// Which of several possible definitions this is, where a reader may wonder.
    pub definition: Option<&'static str>,
}

impl Measure {
    /// Whether no source stands behind its size: only the habit of the trade.
    pub fn is_common_practice(&self) -> bool {
        references::find(self.source).is_some_and(|s| s.standing == Standing::CommonPractice)
    }
}

/// A word that is understood and still refused.
#[derive(Clone, Copy, Debug)]
pub struct AmbiguousUnit {
    /// Every spelling, normalised.
    pub spellings: &'static [&'static str],
    /// What can be written in its place; empty where no unit says the same.
    pub choices: &'static [&'static str],
    /// What to do where there are no choices.
    pub advice: &'static str,
}

/// US gallon: 231 cubic inches. NIST Handbook 44, appendix C; from memory.
const US_GALLON_ML: f64 = 3785.411784;
/// US fluid ounce: a gallon is 128.
const US_FL_OZ_ML: f64 = US_GALLON_ML / 128.0;
/// US teaspoon: a fluid ounce is 6.
/// A US cup, ml (half a pint: 231 in³ / 16): the cup of the household weights.
pub(crate) const US_CUP_ML: f64 = 8.0 * US_FL_OZ_ML;
const US_TSP_ML: f64 = US_FL_OZ_ML / 6.0;
/// Imperial gallon: Weights and Measures Act 1985, schedule 1; from memory.
const IMP_GALLON_ML: f64 = 4546.09;
/// Avoirdupois pound: Weights and Measures Act 1985, section 1; from memory.
const POUND_G: f64 = 453.59237;

macro_rules! measures {
    ($($dimension:expr => {
        $($name:literal / $plural:literal, $factor:expr, $source:literal $(, $definition:literal)?; [$($spelling:literal),* $(,)?];)*
    })*) => {
        &[$($(Measure {
            name: $name,
            plural: $plural,
            spellings: &[$($spelling),*],
            dimension: $dimension,
            factor: $factor,
            source: $source,
            definition: [$(Some($definition),)? None][0],
        },)*)*]
    };
}

/// All units.
#[rustfmt::skip]
pub const MEASURES: &[Measure] = measures! {
    Dimension::Mass => {
        "g" / "g", 1.0, "si"; ["g", "gm", "gms", "gram", "grams", "gramme", "grammes"];
        "kg" / "kg", 1000.0, "si";
            ["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"];
        "mg" / "mg", 0.001, "si"; ["mg", "milligram", "milligrams", "milligramme", "milligrammes"];
        "lb" / "lb", POUND_G, "uk-measures-act"; ["lb", "lbs", "pound", "pounds"];
        "oz wt" / "oz wt", POUND_G / 16.0, "uk-measures-act";
            ["oz wt", "wt oz", "oz by weight", "ounce by weight", "ounces by weight", "ounce weight", "ounces weight",
             "weight ounce", "weight ounces", "oz av", "oz avdp", "avdp oz", "avoirdupois ounce", "avoirdupois ounces"];
        "label oz wt" / "label oz wt", 28.0, "21-cfr-101.9", "the ounce of US nutrition labels";
            ["label oz wt", "label oz", "label ounce", "label ounces"];
    }
    Dimension::Volume => {
        "ml" / "ml", 1.0, "si";
            ["ml", "mls", "millilitre", "millilitres", "milliliter", "milliliters", "cc", "cm3", "cm³"];
        "cl" / "cl", 10.0, "si"; ["cl", "centilitre", "centilitres", "centiliter", "centiliters"];
        "dl" / "dl", 100.0, "si"; ["dl", "decilitre", "decilitres", "deciliter", "deciliters"];
        "L" / "L", 1000.0, "si"; ["l", "lt", "ltr", "ltrs", "litre", "litres", "liter", "liters"];

        "fl oz (US)" / "fl oz (US)", US_FL_OZ_ML, "nist-hb44";
            ["fl oz", "floz", "fl ozs", "fl ounce", "fl ounces", "fluid oz", "fluid ounce", "fluid ounces", "fl oz us",
             "us fl oz", "us floz", "us fluid oz", "us fluid ounce", "us fluid ounces"];
        "US tsp" / "US tsp", US_TSP_ML, "nist-hb44"; ["us tsp", "us tsps", "us teaspoon", "us teaspoons"];
        "US tbsp" / "US tbsp", US_FL_OZ_ML / 2.0, "nist-hb44";
            ["us tbsp", "us tbsps", "us tbs", "us tablespoon", "us tablespoons"];
        "US cup" / "US cups", US_CUP_ML, "nist-hb44"; ["us cup", "us cups"];
        "US pint" / "US pints", US_GALLON_ML / 8.0, "nist-hb44"; ["us pint", "us pints", "us pt"];
        "US quart" / "US quarts", US_GALLON_ML / 4.0, "nist-hb44"; ["us quart", "us quarts", "us qt"];
        "US gal" / "US gal", US_GALLON_ML, "nist-hb44"; ["us gal", "us gals", "us gallon", "us gallons"];

        "fl oz (imp)" / "fl oz (imp)", IMP_GALLON_ML / 160.0, "uk-measures-act";
            ["fl oz imp", "imp fl oz", "imp floz", "imp fluid ounce", "imp fluid ounces", "imperial fl oz",
             "imperial fluid ounce", "imperial fluid ounces", "uk fl oz", "uk fluid ounce", "uk fluid ounces", "fl oz uk"];
        "imp pint" / "imp pints", IMP_GALLON_ML / 8.0, "uk-measures-act";
            ["imp pint", "imp pints", "imp pt", "imperial pint", "imperial pints", "uk pint", "uk pints"];
        "imp quart" / "imp quarts", IMP_GALLON_ML / 4.0, "uk-measures-act";
            ["imp quart", "imp quarts", "imp qt", "imperial quart", "imperial quarts", "uk quart", "uk quarts"];
        "imp gal" / "imp gal", IMP_GALLON_ML, "uk-measures-act";
            ["imp gal", "imp gals", "imp gallon", "imp gallons", "imperial gallon", "imperial gallons", "uk gal",
             "uk gallon", "uk gallons"];

        "tsp" / "tsp", 5.0, "21-cfr-101.9", "the 5 ml spoon of labels; the customary one is `US tsp`, 4.93 ml";
            ["tsp", "tsps", "teaspoon", "teaspoons", "label tsp", "metric tsp", "metric teaspoon", "metric teaspoons"];
        "tbsp" / "tbsp", 15.0, "21-cfr-101.9",
            "the 15 ml spoon of labels; others are `US tbsp`, 14.8 ml, and `AU tbsp`, 20 ml";
            ["tbsp", "tbsps", "tbs", "tablespoon", "tablespoons", "label tbsp", "metric tbsp", "metric tablespoon",
             "metric tablespoons"];
        "label cup" / "label cups", 240.0, "21-cfr-101.9", "the cup of US nutrition labels"; ["label cup", "label cups"];
        "label fl oz" / "label fl oz", 30.0, "21-cfr-101.9", "the fluid ounce of US nutrition labels";
            ["label fl oz", "label fluid ounce", "label fluid ounces"];
        "metric cup" / "metric cups", 250.0, "metric-kitchen"; ["metric cup", "metric cups", "au cup", "au cups"];
        "AU tbsp" / "AU tbsp", 20.0, "metric-kitchen";
            ["au tbsp", "au tablespoon", "au tablespoons", "australian tbsp", "australian tablespoon",
             "australian tablespoons"];
        "kitchen dash" / "kitchen dashes", US_TSP_ML / 8.0, "kitchen-convention", "an eighth of a US teaspoon";
            ["kitchen dash", "kitchen dashes"];
        "pinch" / "pinches", US_TSP_ML / 16.0, "kitchen-convention", "a sixteenth of a US teaspoon";
            ["pinch", "pinches"];

        "jigger oz" / "jigger oz", 30.0, "common-practice";
            ["jigger oz", "jigger ounce", "jigger ounces", "bar oz", "bar ounce", "bar ounces"];
        "US jigger" / "US jiggers", US_FL_OZ_ML * 1.5, "usda-sr26"; ["us jigger", "us jiggers"];
        "pony" / "ponies", US_FL_OZ_ML, "common-practice"; ["pony", "ponies"];
        "bar spoon" / "bar spoons", 5.0, "common-practice", "real spoons hold 2.5 to 5 ml";
            ["bar spoon", "bar spoons", "barspoon", "barspoons", "bsp"];
        "dash" / "dashes", 0.9, "common-practice", "0.6 to 0.92 ml are quoted: weigh ten of yours";
            ["dash", "dashes", "bitters dash", "bitters dashes"];
        "drop" / "drops", 0.05, "usp-1101", "20 to the ml"; ["drop", "drops"];
        "splash" / "splashes", 3.7, "common-practice"; ["splash", "splashes"];
    }
    Dimension::Time => {
        "s" / "s", 1.0, "si"; ["s", "sec", "secs", "second", "seconds"];
        "min" / "min", 60.0, "si"; ["min", "mins", "minute", "minutes"];
        "h" / "h", 3600.0, "si"; ["h", "hr", "hrs", "hour", "hours"];
        "day" / "days", 86_400.0, "si"; ["d", "day", "days"];
        "week" / "weeks", 604_800.0, "si"; ["wk", "wks", "week", "weeks"];
    }
    // The capital alone is a temperature; a small `c` may be a cup.
    Dimension::Celsius => {
        "°C" / "°C", 1.0, "si"; ["°c", "C", "celsius", "deg c", "degree c", "degrees c", "degree celsius", "degrees celsius", "°celsius"];
    }
    Dimension::Fahrenheit => {
        "°F" / "°F", 1.0, "definition"; ["°f", "f", "fahrenheit", "deg f", "degree f", "degrees f", "degree fahrenheit", "degrees fahrenheit", "°fahrenheit"];
    }
    Dimension::Pieces => {
        "piece" / "pieces", 1.0, "definition"; ["each", "ea", "piece", "pieces", "pc", "pcs"];
    }
    Dimension::Parts(None) => {
        "part" / "parts", 1.0, "definition"; ["part", "parts"];
    }
    Dimension::Parts(Some(Basis::Weight)) => {
        "part by weight" / "parts by weight", 1.0, "definition";
            ["part by weight", "parts by weight", "part by mass", "parts by mass"];
    }
    Dimension::Parts(Some(Basis::Volume)) => {
        "part by volume" / "parts by volume", 1.0, "definition"; ["part by volume", "parts by volume"];
    }
    Dimension::Percent => {
        "%" / "%", 0.01, "definition"; ["%", "percent", "per cent", "pct"];
    }
    Dimension::Abv => {
        "% vol" / "% vol", 1.0, "definition";
            ["% vol", "%vol", "vol %", "vol%", "% abv", "%abv", "abv", "% by vol", "% by volume", "% alc by vol",
             "% alc/vol", "% alc", "% v/v", "%v/v", "percent abv", "percent vol", "percent by volume"];
    }
    Dimension::Proof => {
        "proof" / "proof", 1.0, "27cfr30"; ["proof", "°proof", "us proof", "degrees proof"];
    }
    Dimension::Brix => {
        "°Bx" / "°Bx", 1.0, "definition"; ["°bx", "bx", "brix", "°brix", "deg bx", "deg brix", "degrees bx", "degrees brix"];
    }
};

/// The words that are refused.
pub const REFUSED: &[AmbiguousUnit] = &[
    AmbiguousUnit {
        spellings: &["oz", "ozs", "ounce", "ounces"],
        choices: &["fl oz", "imp fl oz", "oz wt", "jigger oz"],
        advice: "",
    },
    AmbiguousUnit { spellings: &["cup", "cups"], choices: &["US cup", "metric cup"], advice: "" },
    AmbiguousUnit { spellings: &["c"], choices: &["°C", "US cup", "metric cup"], advice: "" },
    AmbiguousUnit { spellings: &["pint", "pints", "pt", "pts"], choices: &["US pint", "imp pint"], advice: "" },
    AmbiguousUnit { spellings: &["quart", "quarts", "qt", "qts"], choices: &["US quart", "imp quart"], advice: "" },
    AmbiguousUnit { spellings: &["gal", "gals", "gallon", "gallons"], choices: &["US gal", "imp gal"], advice: "" },
    AmbiguousUnit { spellings: &["t"], choices: &["tsp", "tbsp"], advice: "" },
    AmbiguousUnit { spellings: &["gr", "grs"], choices: &["g"], advice: "" },
    AmbiguousUnit { spellings: &["m"], choices: &["ml", "min"], advice: "" },
    AmbiguousUnit { spellings: &["jigger", "jiggers"], choices: &["US jigger", "jigger oz"], advice: "" },
    AmbiguousUnit { spellings: &["°", "deg", "degree", "degrees"], choices: &["°C", "°F", "°Bx"], advice: "" },
    AmbiguousUnit {
        spellings: &["grain", "grains"],
        choices: &[],
        advice: "a grain, 1/7000 lb, is 64.8 mg: write grams or milligrams",
    },
    AmbiguousUnit {
        spellings: &["shot", "shots"],
        choices: &[],
        advice: "a shot has no size of its own: write \"30 ml\" or \"1 jigger oz\"",
    },
    AmbiguousUnit {
        spellings: &["month", "months", "mo", "year", "years", "yr", "yrs"],
        choices: &[],
        advice: "months and years differ in length: write \"90 days\" or \"12 weeks\"",
    },
    AmbiguousUnit {
        spellings: &["uk proof", "imp proof", "imperial proof", "british proof", "°uk proof"],
        choices: &[],
        advice: "the old UK scale is not the US one: write the percent by volume, as \"40 % vol\"",
    },
    AmbiguousUnit {
        spellings: &["% w/w", "%w/w", "% by weight", "% by wt", "% wt", "wt %", "% w/v", "%w/v"],
        choices: &[],
        advice: "a share of the finished weight is \"5 %\", a strength \"40 % vol\", a mass per volume \"50 g/L\"",
    },
    AmbiguousUnit { spellings: &["ppm"], choices: &[], advice: "write mass per volume, as \"200 mg/L\"" },
    AmbiguousUnit {
        spellings: &["bottle", "bottles"],
        choices: &[],
        advice: "say what one bottle holds, as \"6 x 700 ml\"",
    },
];

/// A spelling as the table has it: small letters, single spaces, no abbreviation points, hyphens or brackets.
pub(crate) fn normalised(written: &str) -> String {
    let mut plain = String::with_capacity(written.len());
    let mut after_letter = false;
    for c in written.chars().flat_map(char::to_lowercase) {
        match c {
            '.' if after_letter => {}
            '(' | ')' => {}
            '℃' => plain.push_str("°c"),
            '℉' => plain.push_str("°f"),
            'º' | '˚' => plain.push('°'),
            '-' => plain.push(' '),
            c => plain.push(c),
        }
        after_letter = c.is_alphabetic();
    }
    let words: Vec<_> = plain.split_whitespace().collect();
    words.join(" ").replace("° ", "°")
}

/// The unit that is written like this, in any case and spacing.
pub fn measure(written: &str) -> Option<&'static Measure> {
    let find = |spelling: &str| MEASURES.iter().find(|m| m.spellings.contains(&spelling));
    find(written.trim()).or_else(|| find(&normalised(written)))
}

/// The refusal that a word meets, if it does.
pub(crate) fn refusal(written: &str) -> Option<&'static AmbiguousUnit> {
    // An exact spelling wins: `C` is a temperature, `c` may be a cup.
    if MEASURES.iter().any(|m| m.spellings.contains(&written.trim())) {
        return None;
    }
    let spelling = normalised(written);
    REFUSED.iter().find(|r| r.spellings.contains(&spelling.as_str()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_spelling_is_normalised_and_stands_once() {
        let mut seen = HashSet::new();
        let spellings = MEASURES.iter().flat_map(|m| m.spellings).chain(REFUSED.iter().flat_map(|r| r.spellings));
        for spelling in spellings {
            assert!(seen.insert(*spelling), "`{spelling}` stands twice");
            assert!(*spelling == "C" || normalised(spelling) == *spelling, "`{spelling}` is never looked up");
        }
    }

    #[test]
    fn every_printed_name_reads_as_itself() {
        for m in MEASURES {
            for name in [m.name, m.plural] {
                assert_eq!(measure(name).map(|found| found.name), Some(m.name), "{name}");
            }
            assert!(m.factor.is_finite() && m.factor > 0.0);
            assert!(references::find(m.source).is_some(), "`{}` has no source `{}`", m.name, m.source);
        }
    }

    #[test]
    fn every_choice_of_a_refusal_is_a_unit() {
        for refused in REFUSED {
            assert!(refused.choices.iter().all(|c| measure(c).is_some() && refusal(c).is_none()), "{refused:?}");
            assert_eq!(refused.choices.is_empty(), !refused.advice.is_empty(), "{refused:?}");
        }
    }

    #[test]
    fn what_only_habit_stands_behind_can_be_told() {
        for name in ["dash", "jigger oz", "bar spoon", "splash", "pony"] {
            assert!(measure(name).unwrap().is_common_practice(), "{name}");
        }
        for name in ["ml", "fl oz", "US cup", "tsp", "oz wt"] {
            assert!(!measure(name).unwrap().is_common_practice(), "{name}");
        }
    }
}
