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
    NotComputable = "not computable",
}

/// How something is known, with what there is to add: `measured; split from memory`. It begins with its evidence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Status {
    /// The kind.
    pub evidence: Evidence,
    /// Whether nobody knows how much of its carbohydrate is sugar.
    pub(crate) is_split_unknown: bool,
    written: String,
}

/// Said of an analysis that has carbohydrate and no sugars by name.
const SPLIT_UNKNOWN: &str = "split unknown";

impl Status {
    /// Reads a status by the words that it begins with; none where they are of no kind.
    pub fn parse(written: &str) -> Option<Self> {
        let begins =
            |e: &Evidence| written.strip_prefix(e.word()).is_some_and(|rest| !rest.starts_with(char::is_alphabetic));
        let evidence = Evidence::ALL.iter().copied().filter(begins).max_by_key(|e| e.word().len())?;
        let is_split_unknown = written.split(';').any(|said| said.trim() == SPLIT_UNKNOWN);
        Some(Self { evidence, is_split_unknown, written: written.to_owned() })
    }

    /// As it was written.
    pub fn as_str(&self) -> &str {
        &self.written
    }
}

impl From<Evidence> for Status {
    fn from(evidence: Evidence) -> Self {
        Self { evidence, is_split_unknown: false, written: evidence.word().to_owned() }
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
