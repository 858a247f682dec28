//! What a garnish, the rim of a glass and a last step put on a drink, in words: how it is cut and on what it lies left out.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::spelling::{fold, words};
use crate::vocabulary::table;

use super::foods;

#[derive(Deserialize)]
struct DressingRow {
    word: String,
    says: Option<Says>,
}

/// What a word says beside that it is no food.
#[derive(Clone, Copy, PartialEq, Eq, Deserialize)]
enum Says {
    #[serde(rename = "puts on")]
    PutsOn,
    #[serde(rename = "rim")]
    Rim,
    #[serde(rename = "ends")]
    Ends,
}

static WORDS: LazyLock<HashMap<String, Option<Says>>> = LazyLock::new(|| {
    let rows: Vec<DressingRow> = table::rows("dressing-words.csv", include_str!("data/dressing-words.csv"));
    rows.into_iter().map(|row| (fold(&row.word), row.says)).collect()
});

/// Where it is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum DressedBy {
    /// All of it is put on.
    Garnish,
    /// What stands behind "with", or beside a rim.
    Glass,
    /// What stands behind a word that puts it on ("garnish with").
    Step,
}

/// Whether a word by itself names no food.
pub(crate) fn is_no_food(word: &str) -> bool {
    WORDS.contains_key(word)
        || foods::is_qualifier(word)
        || word.chars().all(|c| c.is_ascii_digit() || "./%".contains(c))
}

/// The pieces of a text that are put on a drink, each in its folded words.
pub(crate) fn put_on(text: &str, by: DressedBy) -> Vec<Vec<String>> {
    let pieces = text.split([',', ';', '.', ':', '(', ')', '!', '+', '&', '/']).map(words);
    let of = pieces.map(|piece| put_on_by(piece, by));
    of.filter(|piece| !piece.is_empty()).collect()
}

fn put_on_by(piece: Vec<String>, by: DressedBy) -> Vec<String> {
    let says = |word: &String| WORDS.get(word.as_str()).copied().flatten();
    let behind = |at: usize| piece.get(at + 1..).unwrap_or_default().to_vec();
    match by {
        DressedBy::Garnish => piece,
        DressedBy::Glass if piece.iter().any(|word| says(word) == Some(Says::Rim)) => piece,
        DressedBy::Glass => piece.iter().position(|word| word == "with").map(behind).unwrap_or_default(),
        DressedBy::Step => {
            let begins = |word| matches!(says(word), Some(Says::PutsOn | Says::Rim));
            let of = piece.iter().position(begins).map(behind).unwrap_or_default();
            of.into_iter().take_while(|word| says(word) != Some(Says::Ends)).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_put_on_is_read_by_where_it_stands() {
        let said = |text, by| put_on(text, by).into_iter().map(|piece| piece.join(" ")).collect::<Vec<_>>();
        assert_eq!(said("lime wheel, zorbo", DressedBy::Garnish), ["lime wheel", "zorbo"]);
        assert_eq!(said("coupe with a zorbo", DressedBy::Glass), ["a zorbo"]);
        assert_eq!(said("coupe, zorbo rim", DressedBy::Glass), ["zorbo rim"]);
        assert!(said("the blue one", DressedBy::Glass).is_empty());
        assert_eq!(said("Strain. Dust with zorbo over the foam.", DressedBy::Step), ["with zorbo"]);
        assert_eq!(said("Rim the glass with zorbo", DressedBy::Step), ["the glass with zorbo"]);
        assert!(said("Shake with gusto", DressedBy::Step).is_empty());
        assert!(is_no_food("wedge") && is_no_food("3") && is_no_food("fresh") && !is_no_food("zorbo"));
    }
}
