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
    // acidity
    Source {
        key: "davies-1962",
        citation: "C. W. Davies, Ion Association, 1962: activity coefficients with 0.3 I",
        standing: Standing::FromMemoryChecked,
    },
    Source {
        key: "nist-srd46",
        citation: "NIST Standard Reference Database 46, as carried by the MINTEQ v4 data file of US EPA/USGS: pK and enthalpy of citric, phosphoric, acetic, tartaric and carbonic acid",
        standing: Standing::Read,
    },
    Source {
        key: "eden-bates-1959",
        citation: "Eden and Bates, J. Res. Natl. Bur. Stand. 62:161, 1959: malic acid, 0 to 50 °C",
        standing: Standing::Read,
    },
    Source {
        key: "martin-tartar-1937",
        citation: "Martin and Tartar, 1937: lactic acid by temperature, as quoted in an ECHA dossier",
        standing: Standing::Read,
    },
    Source {
        key: "goldberg-2002",
        citation: "Goldberg, Kishore and Lennen, J. Phys. Chem. Ref. Data 31:231, 2002: enthalpy and heat capacity of dissociation",
        standing: Standing::FromMemory,
    },
    Source {
        key: "prenesti-2012",
        citation: "Prenesti et al., The Scientific World Journal 2012, 249041, Table 4: pK in 12 % ethanol",
        standing: Standing::Read,
    },
    Source {
        key: "sinclair-eny",
        citation: "Sinclair and Eny, papers on the buffer system of citrus juices: share of the cations held by organic acids",
        standing: Standing::Read,
    },
    Source {
        key: "ifu-3",
        citation: "International Fruit and Vegetable Juice Association, method 3, 2017: titratable acidity",
        standing: Standing::Read,
    },
    Source {
        key: "oiv-as313-01",
        citation: "OIV-MA-AS313-01: total acidity of wine to pH 7",
        standing: Standing::Read,
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
