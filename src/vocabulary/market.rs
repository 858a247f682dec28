//! The markets whose lists and limits are known.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Word;

super::words! {
    /// A market. A house that names none is shown the rules of all. Australia and New Zealand share one food code.
    Market, "market":
    Us = "US" | "USA",
    Uk = "UK" | "GB",
    Eu = "EU",
    AuNz = "AU/NZ" | "AU" | "NZ",
    Ca = "CA",
}

impl Market {
    /// The short name that a house file uses and a trigger looks for.
    pub(crate) fn code(self) -> &'static str {
        self.word()
    }
}

/// The markets to judge by: those named, or all where none is.
pub(crate) fn or_all(named: &[Market]) -> &[Market] {
    if named.is_empty() { Market::ALL } else { named }
}

/// Where a rule of the data holds: in some markets ("EU,UK"), or in any.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scope {
    written: String,
    markets: Vec<Market>,
}

impl Scope {
    /// Reads `EU,UK`, or `any`; none where a name is not that of a market.
    pub fn parse(written: &str) -> Option<Self> {
        let markets = match written {
            "any" => Some(Market::ALL.to_vec()),
            named => named.split(',').map(Market::parse).collect(),
        };
        markets.map(|markets| Self { written: written.to_owned(), markets })
    }

    /// Whether it holds in this market.
    pub fn holds_in(&self, market: Market) -> bool {
        self.markets.contains(&market)
    }

    /// Whether it holds in one of these markets (none named: in any at all).
    pub(crate) fn holds_in_any(&self, named: &[Market]) -> bool {
        or_all(named).iter().any(|&market| self.holds_in(market))
    }

    /// Whether it holds wherever it is.
    pub(crate) fn is_any(&self) -> bool {
        Market::ALL.iter().all(|market| self.holds_in(*market))
    }

    /// As the data has it.
    pub(crate) fn as_str(&self) -> &str {
        &self.written
    }
}

impl std::fmt::Display for Scope {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(&self.written)
    }
}

impl Serialize for Scope {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.written)
    }
}

impl<'de> Deserialize<'de> for Scope {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = String::deserialize(deserializer)?;
        Self::parse(&written).ok_or_else(|| de::Error::custom(format!("`{written}` names no markets")))
    }
}
