//! The markets whose lists and limits are known.

/// A market. A house that names none is shown the rules of all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Market {
    /// The United States.
    Us,
    /// The United Kingdom.
    Uk,
    /// The European Union.
    Eu,
    /// Australia and New Zealand, which share one food code.
    AuNz,
    /// Canada.
    Ca,
}

impl Market {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Us, Self::Uk, Self::Eu, Self::AuNz, Self::Ca];

    /// The short name that a house file uses and a trigger looks for.
    pub fn code(self) -> &'static str {
        match self {
            Self::Us => "US",
            Self::Uk => "UK",
            Self::Eu => "EU",
            Self::AuNz => "AU/NZ",
            Self::Ca => "CA",
        }
    }

    /// The market with this short name, in any case; `AU` and `NZ` alone mean both.
    pub fn from_code(code: &str) -> Option<Self> {
        match code.trim().to_ascii_uppercase().as_str() {
            "US" | "USA" => Some(Self::Us),
            "UK" | "GB" => Some(Self::Uk),
            "EU" => Some(Self::Eu),
            "AU" | "NZ" | "AU/NZ" | "AUNZ" => Some(Self::AuNz),
            "CA" => Some(Self::Ca),
            _ => None,
        }
    }

    /// Whether a market column of the data ("EU,UK", "any") speaks of this market.
    pub fn is_in(self, column: &str) -> bool {
        column.split(',').map(str::trim).any(|name| name == "any" || Self::from_code(name) == Some(self))
    }
}

/// The markets to judge by: those named, or all where none is.
pub fn or_all(named: &[Market]) -> &[Market] {
    if named.is_empty() { &Market::ALL } else { named }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_of_the_data_names_its_markets() {
        assert!(Market::Uk.is_in("EU,UK") && Market::AuNz.is_in("AU,NZ") && Market::Ca.is_in("any"));
        assert!(!Market::Us.is_in("EU,UK") && !Market::Us.is_in("CODEX") && !Market::Us.is_in(""));
        for market in Market::ALL {
            assert_eq!(Market::from_code(market.code()), Some(market));
        }
    }

    #[test]
    fn no_market_means_all() {
        assert_eq!(or_all(&[]), Market::ALL);
        assert_eq!(or_all(&[Market::Uk]), [Market::Uk]);
    }
}
