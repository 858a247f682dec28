//! The register of the sources that cautions, limits and lists stand on.

use std::sync::LazyLock;

use super::table;

const TABLE: &str = include_str!("data/sources.csv");

/// One source.
#[derive(Clone, Debug)]
pub struct Reference {
    /// Its key in the data.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Who wrote or issued it.
    pub author: String,
    /// When; empty where there is no such thing.
    pub year: String,
    /// How far it was read.
    pub status: String,
}

impl Reference {
    /// The words that are printed: title, author, year.
    pub fn words(&self) -> String {
        let known = |part: &&str| !part.is_empty() && *part != "none";
        [self.title.as_str(), &self.author, &self.year].into_iter().filter(known).collect::<Vec<_>>().join(", ")
    }
}

static REFERENCES: LazyLock<Vec<Reference>> = LazyLock::new(|| {
    table::rows(TABLE)
        .iter()
        .map(|row| Reference {
            id: row.cell("source_id").to_owned(),
            title: row.cell("title").to_owned(),
            author: row.cell("body_or_author").to_owned(),
            year: row.cell("year").to_owned(),
            status: row.cell("status").to_owned(),
        })
        .collect()
});

/// The source with this key.
pub fn find(id: &str) -> Option<&'static Reference> {
    REFERENCES.iter().find(|r| r.id == id)
}

/// All of them.
pub fn all() -> &'static [Reference] {
    &REFERENCES
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_a_source_with_its_own_key() {
        assert_eq!(all().len(), table::lines(TABLE));
        let keys: std::collections::HashSet<_> = all().iter().map(|r| &r.id).collect();
        assert_eq!(keys.len(), all().len());
        assert!(find("CFR114").unwrap().words().contains("21 CFR 114.3"));
        assert_eq!(find("MEM").unwrap().words(), "from memory");
    }
}
