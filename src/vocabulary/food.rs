//! What somebody states of a thing that no list knows as food: what it is sold or named as, and who says so.

use std::fmt;
use std::sync::LazyLock;

use serde::{Serialize, Serializer};

use super::table::lists;
use crate::spelling;

/// A statement that a thing is food, in the words of who made it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoodStatement(String);

/// Why a text states nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoStatement {
    /// It does not say as what it is sold or named, or nobody who says so.
    Unvouched,
    /// It denies, or leaves open, with this word.
    Doubtful(String),
    /// It grew wild, by this word, and nobody is named who knows it.
    NotIdentified(String),
    /// It names what is not sold to be eaten or drunk, with this word.
    NotSoldAsFood(String),
}

/// What it is and who says so take two words at the least (ours).
const FEWEST_WORDS: usize = 2;

super::words! {
    /// What a word does to a statement.
    FoodWord, "list of words":
    Vouch = "vouch",
    Open = "open",
    Deny = "deny",
    OtherUse = "other_use",
    Wild = "wild",
    Identified = "identified",
    Warned = "warned",
    Misnomer = "misnomer",
}

/// The words, each as the words it is folded to.
static WORDS: LazyLock<Vec<(FoodWord, Vec<String>)>> = LazyLock::new(|| {
    let words = lists("food-words.csv", include_str!("food-words.csv")).into_iter();
    words.map(|(list, words)| (list, spelling::words(words))).collect()
});

impl FoodWord {
    /// The first of its words that stands in a text.
    fn among(self, said: &[String]) -> Option<String> {
        let stands =
            |row: &&(Self, Vec<String>)| row.0 == self && said.windows(row.1.len().max(1)).any(|at| at == row.1);
        WORDS.iter().find(stands).map(|(_, words)| words.join(" "))
    }
}

/// Beginnings of German names of poisonous things ("Gifthäubling", "Satansröhrling"); from memory.
const POISON_BEGINS: [&str; 2] = ["gift", "satan"];

/// The word by which a name says that it is of a poison or of a look-alike.
pub(crate) fn misnomer(name: &str) -> Option<String> {
    let said = spelling::words(name);
    let begins = |word: &&String| POISON_BEGINS.iter().any(|begin| word.len() > begin.len() && word.starts_with(begin));
    FoodWord::Misnomer.among(&said).or_else(|| said.iter().find(begins).cloned())
}

/// The warning that a thing bears by its name or by what is written of it ("not for human consumption", "recalled"), in the words of
/// the list; one that is denied ("never recalled") is none.
pub(crate) fn warned(text: &str) -> Option<String> {
    let said = spelling::words(text);
    let denied_at = |at: usize| {
        let before = at.checked_sub(1).and_then(|before| said.get(before));
        before.is_some_and(|word| FoodWord::Deny.among(std::slice::from_ref(word)).is_some())
    };
    let stands = |words: &[String]| {
        let places = said.windows(words.len().max(1)).enumerate().filter(|(_, at)| *at == words);
        places.map(|(at, _)| at).any(|at| !denied_at(at))
    };
    let found = WORDS.iter().find(|(list, words)| *list == FoodWord::Warned && stands(words));
    found.map(|(_, words)| words.join(" "))
}

impl FoodStatement {
    /// Reads a statement.
    ///
    /// # Errors
    /// Where the text states nothing that could be held to.
    pub fn read(written: &str) -> Result<Self, NoStatement> {
        let words = spelling::words(written);
        if let Some(word) = FoodWord::OtherUse.among(&words) {
            return Err(NoStatement::NotSoldAsFood(word));
        }
        let open = FoodWord::Open.among(&words).or_else(|| FoodWord::Deny.among(&words));
        if let Some(word) = open.or_else(|| written.contains('?').then(|| "?".to_owned())) {
            return Err(NoStatement::Doubtful(word));
        }
        if let Some(word) = warned(written) {
            return Err(NoStatement::NotSoldAsFood(word));
        }
        let is_vouched = FoodWord::Vouch.among(&words).is_some() || FoodWord::Identified.among(&words).is_some();
        match FoodWord::Wild.among(&words) {
            Some(word) if !is_vouched => Err(NoStatement::NotIdentified(word)),
            _ if words.len() < FEWEST_WORDS || !is_vouched => Err(NoStatement::Unvouched),
            _ => Ok(Self(written.trim().to_owned())),
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
            Self::Unvouched => f.write_str("what it is sold or named as, and who says so, were expected"),
            Self::Doubtful(word) => write!(f, "`{word}` states nothing that one could be held to"),
            Self::NotIdentified(word) => write!(f, "`{word}`: of what grew wild, who identified it was expected"),
            Self::NotSoldAsFood(word) => write!(f, "`{word}` is of what is not sold to be eaten or drunk"),
        }
    }
}
