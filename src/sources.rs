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
    // shelf life
    Source {
        key: "food-code-2022",
        citation: "FDA Food Code 2022: 1-201.10(B) Tables A and B, 3-501.16, 3-501.17 (read in state adoptions; that the day made is day 1, from memory)",
        standing: Standing::Read,
    },
    Source {
        key: "zwietering-1992",
        citation: "Zwietering, Wijtzes, de Wit & van 't Riet 1992, J Food Prot 55:973, the gamma concept (structure confirmed in Pinon et al. 2004)",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "rosso-1993",
        citation: "Rosso, Lobry & Flandrois 1993, J Theor Biol 162:447, cardinal temperatures",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "rosso-1995",
        citation: "Rosso et al. 1995, Appl Environ Microbiol 61:610, cardinal temperatures and pH (abstract)",
        standing: Standing::Read,
    },
    Source {
        key: "rosso-robinson-2001",
        citation: "Rosso & Robinson 2001, Int J Food Microbiol 63:265, water activity",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "baranyi-roberts-1994",
        citation: "Baranyi & Roberts 1994, growth with lag; checked against curves fitted here",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "warren-1990",
        citation: "Warren, Hill & Macdonald 1990, Biotechnol Prog 6:319, ethanol and S. cerevisiae (abstract)",
        standing: Standing::Read,
    },
    Source {
        key: "amerine-kunkee-1965",
        citation: "Amerine & Kunkee 1965, Vitis 5:187, Delle units (abstract)",
        standing: Standing::Read,
    },
    Source {
        key: "breidt-2010",
        citation: "Breidt, Sandeep & Arritt 2010, Food Protection Trends 30(5):268, as tabulated in a university extension hand-out",
        standing: Standing::Read,
    },
    Source {
        key: "breidt-2014",
        citation: "Breidt, Kay, Osborne, Ingham & Arritt 2014, Food Protection Trends 34(3):132, Table 4",
        standing: Standing::Read,
    },
    Source {
        key: "cfa-2006",
        citation: "Chilled Food Association, Best Practice Guidelines, 4th ed. 2006, table reproduced by the UK Food Standards Agency",
        standing: Standing::Read,
    },
    Source {
        key: "milani-2015",
        citation: "Milani, Gardner & Silva 2015, thermal resistance of Saccharomyces ascospores in beers (year from memory)",
        standing: Standing::Read,
    },
    Source {
        key: "arkansas-fill",
        citation: "University of Arkansas food-processing reference sheet, minimum fill temperature by pH",
        standing: Standing::Read,
    },
    Source {
        key: "fellers-1988",
        citation: "Fellers 1988, J Food Sci 53:1699, life of unpasteurised citrus juice",
        standing: Standing::Read,
    },
    Source {
        key: "zhang-2016",
        citation: "Zhang et al. 2016, Adv J Food Sci Technol 10:555, vitamin C in orange juice",
        standing: Standing::Read,
    },
    Source {
        key: "wang-xu-2007",
        citation: "Wang & Xu 2007, anthocyanin in blackberry juice (authors and year from memory)",
        standing: Standing::Read,
    },
    Source {
        key: "so-easy-to-preserve",
        citation: "National Center for Home Food Preservation / University of Georgia, So Easy to Preserve, dried fruit",
        standing: Standing::Read,
    },
    Source {
        key: "wichura-1988",
        citation: "Wichura 1988, Algorithm AS 241, Appl Stat 37:477, normal quantile",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "splitmix64",
        citation: "Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA",
        standing: Standing::FromMemory,
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
