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
pub const SOURCES: &[Source] =
    &[Source { key: "common-practice", citation: "Habit of the trade", standing: Standing::CommonPractice }];

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
