//! The bibliography: one entry for each standard, paper or table that a number comes from.
//! Every property, ingredient and rule names its entry by key.

/// How far a source was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// The figures were read in a copy of the source, or checked against it.
    Read,
    /// Recalled, then checked against independent values.
    FromMemoryChecked,
    /// Recalled and not checked.
    FromMemory,
    /// A habit of the trade that no source stands behind.
    CommonPractice,
}

impl Standing {
    /// The words that are printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::FromMemoryChecked => "from memory, checked",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// One entry.
#[derive(Clone, Copy, Debug)]
pub struct Source {
    /// The short key that properties name.
    pub key: &'static str,
    /// Author or body, title, year, table.
    pub citation: &'static str,
    /// How far it was followed.
    pub standing: Standing,
}

/// All entries, by subject.
pub const SOURCES: &[Source] = &[
    Source { key: "common-practice", citation: "Habit of the trade", standing: Standing::CommonPractice },
    // amounts
    Source { key: "definition", citation: "By definition of the word", standing: Standing::Read },
    Source {
        key: "si",
        citation: "BIPM, The International System of Units (SI Brochure), 9th edition, 2019, and the units accepted with it",
        standing: Standing::FromMemory,
    },
    Source {
        key: "nist-hb44",
        citation: "NIST Handbook 44, Appendix C, General Tables of Units of Measurement: US gallon of 231 cubic inches",
        standing: Standing::FromMemory,
    },
    Source {
        key: "uk-measures-act",
        citation: "Weights and Measures Act 1985 (UK), section 1 and schedule 1: pound 0.45359237 kg, gallon 4.54609 L",
        standing: Standing::FromMemory,
    },
    Source {
        key: "21-cfr-101.9",
        citation: "21 CFR 101.9(b)(5)(viii), household measures of US nutrition labels",
        standing: Standing::Read,
    },
    Source {
        key: "27-cfr-30",
        citation: "27 CFR Part 30, Gauging Manual: US proof is twice the percent by volume at 60 °F",
        standing: Standing::Read,
    },
    Source {
        key: "usda-sr26",
        citation: "USDA National Nutrient Database for Standard Reference, Release 26, 2013, WEIGHT table: a jigger is 1.5 fl oz",
        standing: Standing::Read,
    },
    Source {
        key: "usp-1101",
        citation: "USP General Chapter 1101, Medicine Dropper: a drop of water weighs 45 to 55 mg",
        standing: Standing::Read,
    },
    Source {
        key: "metric-kitchen",
        citation: "Kitchen measures of Australia, New Zealand and Canada: cup 250 ml, Australian tablespoon 20 ml",
        standing: Standing::FromMemory,
    },
    Source {
        key: "kitchen-convention",
        citation: "Kitchen convention: a dash is an eighth of a US teaspoon, a pinch a sixteenth",
        standing: Standing::CommonPractice,
    },
];

/// The entry with this key.
pub fn find(key: &str) -> Option<&'static Source> {
    SOURCES.iter().find(|s| s.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique() {
        let keys: std::collections::HashSet<_> = SOURCES.iter().map(|s| s.key).collect();
        assert_eq!(keys.len(), SOURCES.len());
    }
}
