//! What the name of an ingredient gives away: tags and allergens to add to what its larder entry states.

use std::collections::{BTreeSet, HashMap, HashSet};
use std::sync::LazyLock;

use crate::larder::{Ingredient, Larder};
use crate::spelling::{NameWord, is_slip_of, name_words, singular, words as fold};

use crate::vocabulary::Word;

use super::{hazards, table};

const NAMES: &str = include_str!("data/names.csv");
const FALSE_FRIENDS: &str = include_str!("data/false-friends.csv");

/// How a false friend stands that covers nothing and is only right as it is written.
const ORDINARY: &str = "ordinary";

/// What to add. Nothing is ever to be removed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// Tags that cautions look for.
    pub tags: BTreeSet<String>,
    /// Allergens, `milk` or `tree_nuts (almond)`.
    pub allergens: BTreeSet<String>,
    /// Tags that may apply and that nobody stated.
    pub unsure: BTreeSet<String>,
}

/// What a name may mean if one of its words is misspelt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Maybe {
    /// The words that it may mean ("almond").
    pub meant: String,
    /// What they give away.
    pub gives: Found,
}

/// A row of the data, its words folded.
struct Name {
    words: Vec<String>,
    gives: Found,
}

/// A phrase of the data. What a name denies in it ("non-bottled juice") is not that phrase.
struct FalseFriend {
    words: Vec<NameWord>,
    adjacent: bool,
}

struct Data {
    names: Vec<Name>,
    /// The places of the names that begin with a word: most of them need not be looked at.
    by_first_word: HashMap<String, Vec<usize>>,
    /// By the word that they cover.
    friends: HashMap<String, Vec<FalseFriend>>,
    /// Words that are right as they are written: of the embedded larder, and of both tables here.
    ordinary: HashSet<String>,
}

static DATA: LazyLock<Data> = LazyLock::new(|| {
    let owned = |row: &table::Row, heading: &str| row.list(heading).map(str::to_owned).collect();
    let mut names: Vec<Name> = table::rows(NAMES)
        .iter()
        .map(|row| Name {
            words: fold(row.cell("words")),
            gives: Found { tags: owned(row, "tags"), allergens: owned(row, "allergens"), unsure: owned(row, "unsure") },
        })
        .collect();
    names.extend(hazards::all().iter().flat_map(|hazard| hazard.ingredient_tags.iter()).map(|tag| Name {
        words: fold(tag.word()),
        gives: Found { tags: BTreeSet::from([tag.word().to_owned()]), ..Found::default() },
    }));
    let mut ordinary: HashSet<String> = names.iter().flat_map(|name| name.words.iter().cloned()).collect();
    ordinary.extend(Larder::built_in().iter().flat_map(Ingredient::all_names).flat_map(fold));
    let mut friends: HashMap<String, Vec<FalseFriend>> = HashMap::new();
    for row in table::rows(FALSE_FRIENDS) {
        let friend = FalseFriend { words: name_words(row.cell("phrase")), adjacent: row.cell("how") == "adjacent" };
        ordinary.extend(friend.words.iter().map(|word| word.text.clone()));
        if !friend.words.is_empty() && row.cell("how") != ORDINARY {
            friends.entry(singular(row.cell("masks"))).or_default().push(friend);
        }
    }
    let mut by_first_word: HashMap<String, Vec<usize>> = HashMap::new();
    for (place, name) in names.iter().enumerate() {
        by_first_word.entry(name.words.first().cloned().unwrap_or_default()).or_default().push(place);
    }
    Data { names, by_first_word, friends, ordinary }
});

/// Everything that a name gives away.
pub fn find(name: &str) -> Found {
    let words = name_words(name);
    let mut found = Found::default();
    let begin_so = words
        .iter()
        .map(|word| &word.text)
        .collect::<BTreeSet<_>>()
        .into_iter()
        .filter_map(|word| DATA.by_first_word.get(word));
    let rows = begin_so.flatten().filter_map(|&place| DATA.names.get(place));
    for row in rows.filter(|row| is_in(&row.words, &words)) {
        found.tags.extend(row.gives.tags.iter().cloned());
        found.allergens.extend(row.gives.allergens.iter().cloned());
        found.unsure.extend(row.gives.unsure.iter().cloned());
    }
    drop_generic(&mut found.allergens);
    found
}

/// What a name may mean: rows of which a word is a slip of the pen away from one of its words, where that word is none
/// that is known. What the name gives away as it stands is not among them.
pub fn find_misspelt(name: &str) -> Vec<Maybe> {
    let words = fold(name);
    let strange: Vec<&String> = words.iter().filter(|word| !DATA.ordinary.contains(*word)).collect();
    let slip = |wanted: &String| strange.iter().any(|word| is_slip_of(word, wanted));
    let misspelt = |row: &&Name| {
        row.words.iter().any(slip) && row.words.iter().all(|wanted| words.contains(wanted) || slip(wanted))
    };
    let rows = DATA.names.iter().filter(|_| !strange.is_empty()).filter(misspelt);
    rows.map(|row| Maybe { meant: row.words.join(" "), gives: row.gives.clone() }).collect()
}

/// Whether no word of a name is one that is known here, of an ingredient or of a danger.
pub fn is_strange(name: &str) -> bool {
    fold(name).iter().all(|word| !DATA.ordinary.contains(word))
}

/// An allergen as somebody stated it ("Tree nut (almond)"), in the names that are used here. One that no list knows
/// is kept as it was stated.
pub fn read_allergen(stated: &str) -> BTreeSet<String> {
    let found = find(stated).allergens;
    if found.is_empty() && !stated.trim().is_empty() { BTreeSet::from([stated.trim().to_lowercase()]) } else { found }
}

/// `tree_nuts` says nothing more where `tree_nuts (almond)` stands.
pub(super) fn drop_generic(allergens: &mut BTreeSet<String>) {
    let generic: Vec<String> =
        allergens.iter().filter_map(|a| a.split_once(" (")).map(|(kind, _)| kind.to_owned()).collect();
    allergens.retain(|a| !generic.contains(a));
}

fn is_in(wanted: &[String], words: &[NameWord]) -> bool {
    match wanted {
        [] => false,
        [word] => {
            let covered = covered(word, words);
            words.iter().enumerate().any(|(at, w)| w.text == *word && !covered.contains(&at))
        }
        several => several.iter().all(|wanted| words.iter().any(|word| word.text == *wanted)),
    }
}

/// Where in a name this word means something else.
fn covered(word: &str, words: &[NameWord]) -> BTreeSet<usize> {
    let mut places = BTreeSet::new();
    for friend in DATA.friends.get(word).into_iter().flatten() {
        if friend.adjacent {
            let starts = words.windows(friend.words.len()).enumerate().filter(|(_, w)| *w == friend.words.as_slice());
            places.extend(starts.flat_map(|(at, w)| at..at + w.len()));
        } else if friend.words.iter().all(|w| words.contains(w)) {
            places.extend(0..words.len());
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_read_and_has_words() {
        assert_eq!(table::rows(NAMES).len(), table::lines(NAMES));
        assert_eq!(table::rows(FALSE_FRIENDS).len(), table::lines(FALSE_FRIENDS));
        assert!(DATA.names.iter().all(|row| !row.words.is_empty()));
    }

    #[test]
    fn a_false_friend_covers_a_word_that_there_is() {
        for (word, friends) in &DATA.friends {
            assert!(DATA.names.iter().any(|row| row.words == [word.clone()]), "nothing looks for `{word}` alone");
            assert!(friends.iter().all(|f| f.words.iter().any(|w| w.text == *word)), "`{word}`");
        }
    }
}
