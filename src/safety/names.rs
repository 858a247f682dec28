//! What the name of an ingredient gives away: tags and allergens to add to what its larder entry states.

use std::collections::{BTreeSet, HashMap, HashSet};
use std::sync::LazyLock;

use serde::Deserialize;

use crate::spelling::{NameWord, is_slip_of, name_words, singular, words as fold};
use crate::vocabulary::table::{self, List};
use crate::vocabulary::{Allergen, Open, Tag, Word};

use super::hazards;

const NAMES: &str = include_str!("data/names.csv");
const PLANTS: &str = include_str!("data/names-plants.csv");
const FALSE_FRIENDS: &str = include_str!("data/false-friends.csv");

#[derive(Deserialize)]
struct NameRow {
    words: String,
    tags: List<Tag>,
    allergens: List<Allergen>,
    unsure: List<Tag>,
}

/// A row of the false friends: `phrase` keeps the word `masks` within it from being found.
#[derive(Deserialize)]
struct FriendRow {
    phrase: String,
    masks: String,
    how: FriendStands,
}

/// How a false friend stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FriendStands {
    /// Its words side by side, in this order.
    Adjacent,
    /// All of its words somewhere in the name.
    Anywhere,
    /// It covers nothing and is only right as it is written.
    Ordinary,
}

/// What to add. Nothing is ever to be removed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Found {
    /// Tags that cautions look for.
    pub tags: BTreeSet<Tag>,
    /// Allergens, `milk` or `tree_nuts (almond)`.
    pub allergens: BTreeSet<Allergen>,
    /// Tags that may apply and that nobody stated.
    pub unsure: BTreeSet<Tag>,
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
    /// Words that are right as they are written, of both tables here; see also [`OF_LARDER`].
    ordinary: HashSet<String>,
}

static DATA: LazyLock<Data> = LazyLock::new(|| {
    let row = |row: &NameRow| Name {
        words: fold(&row.words),
        gives: Found {
            tags: row.tags.iter().copied().collect(),
            allergens: row.allergens.iter().copied().collect(),
            unsure: row.unsure.iter().copied().collect(),
        },
    };
    let mut names: Vec<Name> = table::rows("names.csv", NAMES).iter().map(row).collect();
    names.extend(table::rows("names-plants.csv", PLANTS).iter().map(row));
    names.extend(hazards::all().iter().flat_map(|hazard| hazard.ingredient_tags.iter()).map(|&tag| Name {
        words: fold(tag.word()),
        gives: Found { tags: BTreeSet::from([tag]), ..Found::default() },
    }));
    let mut ordinary: HashSet<String> = names.iter().flat_map(|name| name.words.iter().cloned()).collect();
    let mut friends: HashMap<String, Vec<FalseFriend>> = HashMap::new();
    for row in table::rows::<FriendRow>("false-friends.csv", FALSE_FRIENDS) {
        let adjacent = row.how == FriendStands::Adjacent;
        let friend = FalseFriend { words: name_words(&row.phrase), adjacent };
        ordinary.extend(friend.words.iter().map(|word| word.text.clone()));
        if !friend.words.is_empty() && row.how != FriendStands::Ordinary {
            friends.entry(singular(&row.masks)).or_default().push(friend);
        }
    }
    let mut by_first_word: HashMap<String, Vec<usize>> = HashMap::new();
    for (place, name) in names.iter().enumerate() {
        by_first_word.entry(name.words.first().cloned().unwrap_or_default()).or_default().push(place);
    }
    Data { names, by_first_word, friends, ordinary }
});

/// Words of the names of the embedded larder.
static OF_LARDER: LazyLock<HashSet<&'static str>> = LazyLock::new(|| crate::larder::built_in_words().collect());

/// Everything that a name gives away.
pub fn find(name: &str) -> Found {
    let words = name_words(name);
    find_by(&words, |row| is_in(&row.words, &words))
}

/// What a clause of a method gives away: there the words of a name stand together, with one other between them at most.
pub(super) fn find_near(words: &[NameWord]) -> Found {
    find_by(words, |row| {
        let reach = row.words.len() + 1;
        match row.words.len() {
            0 | 1 => is_in(&row.words, words),
            _ if words.len() < reach => is_in(&row.words, words),
            _ => words.windows(reach).any(|window| is_in(&row.words, window)),
        }
    })
}

fn find_by(words: &[NameWord], is_named: impl Fn(&Name) -> bool) -> Found {
    let mut found = Found::default();
    let begin_so = words
        .iter()
        .map(|word| &word.text)
        .collect::<BTreeSet<_>>()
        .into_iter()
        .filter_map(|word| DATA.by_first_word.get(word));
    let rows = begin_so.flatten().filter_map(|&place| DATA.names.get(place));
    for row in rows.filter(|row| is_named(row)) {
        found.tags.extend(&row.gives.tags);
        found.allergens.extend(&row.gives.allergens);
        found.unsure.extend(&row.gives.unsure);
    }
    let groups: Vec<Allergen> = found.allergens.iter().filter_map(|allergen| allergen.group()).collect();
    found.allergens.retain(|allergen| !groups.contains(allergen));
    found
}

/// What a name may mean: rows of which a word is a slip of the pen away from one of its words, where that word is none
/// that is known. What the name gives away as it stands is not among them.
pub fn find_misspelt(name: &str) -> Vec<Maybe> {
    let words = fold(name);
    let strange: Vec<&String> =
        words.iter().filter(|word| !DATA.ordinary.contains(*word) && !OF_LARDER.contains(word.as_str())).collect();
    let slip = |wanted: &String| strange.iter().any(|word| is_slip_of(word, wanted));
    let misspelt = |row: &&Name| {
        row.words.iter().any(slip) && row.words.iter().all(|wanted| words.contains(wanted) || slip(wanted))
    };
    let rows = DATA.names.iter().filter(|_| !strange.is_empty()).filter(misspelt);
    rows.map(|row| Maybe { meant: row.words.join(" "), gives: row.gives.clone() }).collect()
}

/// An allergen as somebody stated it ("Tree nut (almond)"), in the names that are used here. One that no list knows
/// is kept as it was stated.
pub fn read_allergen(stated: &str) -> BTreeSet<Open<Allergen>> {
    let found = find(stated).allergens;
    if found.is_empty() && !stated.trim().is_empty() {
        return BTreeSet::from([Open::read(&stated.trim().to_lowercase())]);
    }
    found.into_iter().map(Open::Known).collect()
}

/// A group says nothing more where one of its kinds stands.
pub(super) fn drop_generic(allergens: &mut BTreeSet<Open<Allergen>>) {
    let groups: Vec<Allergen> = allergens.iter().filter_map(|a| a.known()?.group()).collect();
    allergens.retain(|a| !groups.iter().any(|group| a == group));
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
