//! How a number is known.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Word;

super::words! {
    /// How the composition of an ingredient is known.
    Evidence, "evidence":
    Measured = "measured",
    MeasuredByTheHouse = "measured by the house",
    Analysis = "analysis",
    Label = "label",
    Definition = "definition",
    Computed = "computed",
    Derived = "derived",
    RangeMidpoint = "range midpoint",
    Limit = "limit",
    MoistureMeasured = "moisture measured",
    AssumedInsoluble = "assumed insoluble",
    Assumed = "assumed",
    CommonPractice = "common practice, no source",
    FromMemory = "from memory",
}

/// How something is known, with what there is to add: `measured; split from memory`. It begins with its evidence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Status {
    /// The kind.
    pub evidence: Evidence,
    written: String,
}

impl Status {
    /// Reads a status by the words that it begins with; none where they are of no kind.
    pub(crate) fn parse(written: &str) -> Option<Self> {
        let begins =
            |e: &Evidence| written.strip_prefix(e.word()).is_some_and(|rest| !rest.starts_with(char::is_alphabetic));
        let evidence = Evidence::ALL.iter().copied().filter(begins).max_by_key(|e| e.word().len())?;
        Some(Self { evidence, written: written.to_owned() })
    }

    /// As it was written.
    pub fn as_str(&self) -> &str {
        &self.written
    }
}

impl From<Evidence> for Status {
    fn from(evidence: Evidence) -> Self {
        Self { evidence, written: evidence.word().to_owned() }
    }
}

impl Serialize for Status {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.written)
    }
}

impl<'de> Deserialize<'de> for Status {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = String::deserialize(deserializer)?;
        Self::parse(&written).ok_or_else(|| de::Error::custom(format!("`{written}` begins with no kind of evidence")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_status_begins_with_its_evidence_and_is_kept_as_it_was_written() {
        for (written, evidence) in [
            ("measured; split from memory", Evidence::Measured),
            ("measured by the house", Evidence::MeasuredByTheHouse),
            ("assumed as lemon peel", Evidence::Assumed),
            ("assumed insoluble", Evidence::AssumedInsoluble),
            ("range midpoint", Evidence::RangeMidpoint),
        ] {
            let status = Status::parse(written).unwrap();
            assert_eq!((status.evidence, status.as_str()), (evidence, written));
        }
        assert_eq!((Status::parse("measuredly"), Status::parse("guessed"), Status::parse("")), (None, None, None));
    }
}
