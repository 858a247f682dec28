//! What somebody states of a thing that no list knows as food: what it is sold or named as, and who says so.

use std::fmt;

use serde::{Serialize, Serializer};

use crate::spelling;

/// A statement that a thing is food, in the words of who made it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoodStatement(String);

/// Why a text states nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoStatement {
    /// It says what or who, not both.
    TooShort,
    /// It denies, or leaves open, with this word.
    Doubtful(String),
    /// It names what is not sold to be eaten or drunk, with this word.
    NotSoldAsFood(String),
}

/// What it is and who says so take two words at the least (ours).
const FEWEST_WORDS: usize = 2;

/// Words that leave a statement open, in the languages of the table of names; `from memory`.
const OPEN: &[&str] = &[
    "unknown",
    "idea",
    "gone",
    "lost",
    "missing",
    "illegible",
    "ask",
    "unsure",
    "unclear",
    "maybe",
    "perhaps",
    "possibly",
    "probably",
    "guess",
    "think",
    "hope",
    "todo",
    "tbd",
    "unbekannt",
    "vielleicht",
    "wohl",
    "inconnu",
    "peut",
    "sconosciuto",
    "forse",
    "desconocido",
    "quiza",
];
/// Words that deny.
const DENY: &[&str] = &[
    "not",
    "non",
    "never",
    "without",
    "unfit",
    "unsuitable",
    "impropre",
    "inapte",
    "inadatto",
    "impropio",
    "ungeeignet",
    "ungeniessbar",
    "inedible",
    "unidentified",
    "nicht",
    "kein",
    "keine",
    "pas",
    "ne",
    "sin",
    "senza",
    "mai",
];
/// Grades and uses of what is not made to be eaten or drunk; `from memory`.
const OTHER_USE: &[&str] = &[
    "technical",
    "industrial",
    "laboratory",
    "lab",
    "reagent",
    "analytical",
    "cosmetic",
    "denatured",
    "denaturated",
    "fuel",
    "solvent",
    "cleaning",
    "cleaner",
    "ornamental",
    "decorative",
    "decoration",
    "decoratif",
    "decorativo",
    "deko",
    "vergallt",
    "aquarium",
    "external",
    "externe",
    "esterno",
    "externo",
    "ausserlich",
    "aeusserlich",
    "fodder",
    "veterinary",
    "soap",
    "candle",
    "perfume",
    "perfumery",
    "aromatherapy",
    "technisch",
    "technische",
    "technischer",
    "industriell",
    "labor",
    "kosmetik",
    "vergallt",
    "brennspiritus",
    "cosmetique",
    "denature",
    "laboratoire",
    "tecnico",
    "tecnica",
    "industriale",
    "cosmetico",
    "denaturato",
    "desnaturalizado",
    "laboratorio",
];

impl FoodStatement {
    /// Reads a statement.
    ///
    /// # Errors
    /// Where the text states nothing that could be held to.
    pub(crate) fn read(written: &str) -> Result<Self, NoStatement> {
        let words = spelling::words(written);
        let among = |list: &[&str]| words.iter().find(|word| list.contains(&word.as_str())).cloned();
        if let Some(word) = among(OTHER_USE) {
            return Err(NoStatement::NotSoldAsFood(word));
        }
        let doubt = among(OPEN).or_else(|| among(DENY)).or_else(|| written.contains('?').then(|| "?".to_owned()));
        match doubt {
            Some(word) => Err(NoStatement::Doubtful(word)),
            None if words.len() < FEWEST_WORDS => Err(NoStatement::TooShort),
            None => Ok(Self(written.trim().to_owned())),
        }
    }
}

impl fmt::Display for FoodStatement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Serialize for FoodStatement {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.0)
    }
}

impl fmt::Display for NoStatement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort => f.write_str("what it is sold or named as, and who says so, were expected"),
            Self::Doubtful(word) => write!(f, "`{word}` states nothing that one could be held to"),
            Self::NotSoldAsFood(word) => write!(f, "`{word}` is of what is not sold to be eaten or drunk"),
        }
    }
}
