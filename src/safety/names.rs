//! What the name of an ingredient gives away: tags and allergens to add to what its larder entry states.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::sync::{Arc, LazyLock};

use serde::Deserialize;

use crate::larder::Larder;
use crate::spelling::{Memo, NameWord, is_slip_of, name_words, singular, spelled_out, words as fold};
use crate::vocabulary::table::{self, List, LongTable, Row};
use crate::vocabulary::{Allergen, Open, Tag, Word, words};

use super::e_numbers;
use super::hazards;
use super::heads::{heads_of, with_heads};
use super::makers_own;
use super::raw_milk;

static NAMES: LazyLock<LongTable> = LazyLock::new(|| LongTable::read("names.csv", include_str!("data/names.csv")));
static PLANTS: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("names-plants.csv", include_str!("data/names-plants.csv")));

#[derive(Deserialize)]
struct NameRow {
    tags: List<Tag>,
    allergens: List<Allergen>,
    unsure: List<Tag>,
}

words! {
    /// How a false friend stands.
    FriendStands, "how a false friend stands":
    // its words side by side, in this order
    Adjacent = "adjacent",
    // all of its words somewhere in the name
    Anywhere = "anywhere",
    // it covers nothing and is only right as it is written
    Ordinary = "ordinary",
}

/// A row: what it begins with is not found in its `phrase`.
static FRIENDS: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("false-friends.csv", include_str!("data/false-friends.csv")));

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

impl Found {
    /// What another reading gives away as well.
    pub(crate) fn add(&mut self, other: Self) {
        self.tags.extend(other.tags);
        self.allergens.extend(other.allergens);
        self.unsure.extend(other.unsure);
    }
}

/// What a name may mean if one of its words is misspelt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Maybe {
    /// The words that it may mean ("almond").
    pub meant: String,
    /// What they give away.
    pub gives: Found,
}

/// A row of the data, read when its first word is met: a start has them all.
#[derive(Clone, Copy)]
enum Name {
    /// A line of the tables.
    Line(&'static str),
    /// A tag of the hazards, found by its own name.
    Tag(Tag),
}

impl Name {
    fn words(self) -> impl Iterator<Item = Cow<'static, str>> {
        table::words_of(match self {
            Self::Line(line) => table::first_cell(line),
            Self::Tag(tag) => tag.word(),
        })
    }

    fn gives(self) -> Found {
        match self {
            Self::Tag(tag) => Found { tags: BTreeSet::from([tag]), ..Found::default() },
            Self::Line(line) => {
                // both tables have one heading
                let row: NameRow = NAMES.read_line(line);
                Found {
                    tags: row.tags.0.into_iter().collect(),
                    allergens: row.allergens.0.into_iter().collect(),
                    unsure: row.unsure.0.into_iter().collect(),
                }
            }
        }
    }
}

/// A phrase of the data. What a name denies in it ("non-bottled juice") is not that phrase.
struct FalseFriend {
    words: Vec<NameWord>,
    adjacent: bool,
}

fn tags() -> impl Iterator<Item = Tag> {
    hazards::all().iter().flat_map(|hazard| hazard.ingredient_tags.iter().copied())
}

fn rows() -> impl Iterator<Item = Name> {
    NAMES.lines().chain(PLANTS.lines()).map(Name::Line).chain(tags().map(Name::Tag))
}

fn beginning_with(word: &str) -> impl Iterator<Item = Name> {
    static TAGS: LazyLock<Vec<(String, Tag)>> = LazyLock::new(|| {
        let first = |tag: Tag| Some((Name::Tag(tag).words().next()?.into_owned(), tag));
        tags().filter_map(first).collect()
    });
    let lines = NAMES.beginning_with(word).chain(PLANTS.beginning_with(word)).map(Name::Line);
    lines.chain(TAGS.iter().filter(move |(first, _)| first == word).map(|(_, tag)| Name::Tag(*tag)))
}

/// The phrases that cover a word.
fn friends_of(word: &str) -> Arc<Vec<FalseFriend>> {
    static COVERING: Memo<Vec<FalseFriend>> = Memo::new();
    COVERING.of(word, |word| {
        let read = |row: Row<'_>| {
            let adjacent = match row.word::<FriendStands>("how") {
                FriendStands::Adjacent => true,
                FriendStands::Anywhere => false,
                FriendStands::Ordinary => return None,
            };
            Some(FalseFriend { words: name_words(row.text("phrase")), adjacent })
        };
        FRIENDS.rows_of(word).filter_map(read).collect()
    })
}

/// Words that are right as they are written, of all tables here; see also [`OF_LARDER`].
static ORDINARY: LazyLock<HashSet<String>> = LazyLock::new(|| {
    let mut ordinary: HashSet<String> = rows().flat_map(Name::words).map(Cow::into_owned).collect();
    ordinary.extend(FRIENDS.rows().flat_map(|row| name_words(row.text("phrase"))).map(|word| word.text));
    ordinary
});

/// The words of all rows, by how many letters they have: so many more or fewer a slip makes at the most, see [`is_slip_of`].
static BY_LENGTH: LazyLock<BTreeMap<usize, BTreeSet<Cow<'static, str>>>> = LazyLock::new(|| {
    let mut by_length: BTreeMap<usize, BTreeSet<_>> = BTreeMap::new();
    for word in rows().flat_map(Name::words) {
        by_length.entry(word.chars().count()).or_default().insert(word);
    }
    by_length
});
const MOST_SLIPS: usize = 2;

/// Words of the names of the embedded larder.
static OF_LARDER: LazyLock<HashSet<&'static str>> = LazyLock::new(|| crate::larder::built_in_words().collect());

/// Everything that a name gives away.
pub fn find(name: &str) -> Arc<Found> {
    static FOUND: Memo<Found> = Memo::new();
    FOUND.of(name, |name| {
        let said = name_words(name);
        let mut words = with_heads(said.clone());
        let numbers = e_numbers::joined(name, &words);
        // "lemon juice with E 224" is no e juice
        if numbers.len() >= words.iter().filter(|word| word.text == e_numbers::LETTER).count() {
            words.retain(|word| word.text != e_numbers::LETTER);
        }
        words.extend(numbers);
        words.extend(spelled_out(&words));
        words.extend(in_one_word(name));
        let mut found = find_by(&words, |wanted| is_in(wanted, &words));
        if let Some(thing) = makers_own::thing(&said) {
            let weighed = find_by(thing, |wanted| is_in(wanted, thing)).tags;
            found.tags.retain(|tag| !makers_own::ITS_OWN.contains(tag) || weighed.contains(tag));
        }
        found
    })
}

/// How many of these words are a name in front: one of the tables or of the embedded larder, the longest that stands there.
pub(super) fn name_in_front(words: &[NameWord]) -> Option<usize> {
    const LONGEST: usize = 3;
    let is_name = |words: &[NameWord]| {
        let texts = || words.iter().map(|word| word.text.as_str());
        let is_row = || beginning_with(&words[0].text).any(|row| row.words().eq(texts()));
        let by_larder = || Larder::built_in().find(&texts().collect::<Vec<_>>().join(" ")).is_some();
        match words {
            [word] => *find(&word.text) != Found::default() || by_larder(),
            _ => is_row() || by_larder(),
        }
    };
    (1..=LONGEST.min(words.len())).rev().find(|&count| is_name(&words[..count]))
}

/// A name that is parted where it should not be ("digi-talis"), in one word.
fn in_one_word(name: &str) -> Option<NameWord> {
    let words = fold(name);
    (words.len() > 1).then(|| NameWord { text: singular(&words.concat()), denied: false })
}

/// What a clause of a method gives away by names of at least so many words: there the words of a name stand together, with
/// one other between them at most.
pub(super) fn find_near(words: &[NameWord], fewest: usize) -> Found {
    let heads =
        words.iter().enumerate().flat_map(|(place, word)| heads_of(word).into_iter().map(move |head| (place, head)));
    let (places, words): (Vec<usize>, Vec<NameWord>) = words.iter().cloned().enumerate().chain(heads).unzip();
    let near = |wanted: &[Cow<'static, str>]| wanted.len() < 2 || is_near(wanted, &words, &places);
    find_by(&words, |wanted| wanted.len() >= fewest && is_in(wanted, &words) && near(wanted))
}

/// Whether several words stand together, where none of them means something else. `places`: where each word, or the one that it
/// is the head of, stands in the clause.
fn is_near(wanted: &[Cow<'static, str>], words: &[NameWord], places: &[usize]) -> bool {
    let covered = covered(&wanted.join(" "), words);
    let standing = |wanted: &str| -> Vec<usize> {
        let all = words.iter().zip(places).enumerate();
        let its = all.filter(|(at, (word, _))| word.text == wanted && !covered.contains(at));
        its.map(|(_, (_, place))| *place).collect()
    };
    let all: Vec<Vec<usize>> = wanted.iter().map(|word| standing(word)).collect();
    let together =
        |from: usize| all.iter().all(|places| places.iter().any(|place| (from..=from + wanted.len()).contains(place)));
    all.iter().flatten().any(|&from| together(from))
}

fn find_by(words: &[NameWord], is_named: impl Fn(&[Cow<'static, str>]) -> bool) -> Found {
    let mut found = Found::default();
    let distinct: BTreeSet<&str> = words.iter().map(|word| word.text.as_str()).collect();
    let rows = distinct.into_iter().flat_map(beginning_with);
    let is_named = |row: &Name| is_named(&row.words().collect::<Vec<_>>());
    rows.filter(is_named).map(Name::gives).for_each(|gives| found.add(gives));
    if is_dairy(&found) && calls_milk_raw(words) {
        found.tags.insert(Tag::RawMilk);
    }
    let kinds = found.allergens.iter().filter(|allergen| allergen.family() != **allergen);
    let families: Vec<Allergen> = kinds.map(|allergen| allergen.family()).collect();
    found.allergens.retain(|allergen| !families.contains(allergen));
    found
}

fn is_dairy(found: &Found) -> bool {
    found.tags.contains(&Tag::Dairy) || found.allergens.contains(&Allergen::Milk)
}

/// Whether these words call a milk or a cream raw, or deny that it is pasteurised.
pub(super) fn calls_milk_raw(words: &[NameWord]) -> bool {
    raw_milk::is_named(words, |at| words.get(at).is_some_and(|word| is_dairy(&alone(word, words))))
}

/// What one word gives away that stands among these and means nothing else there.
fn alone(word: &NameWord, words: &[NameWord]) -> Found {
    let mut found = Found::default();
    let is_it = |row: &Name| {
        row.words().eq([Cow::Borrowed(word.text.as_str())]) && is_in(&row.words().collect::<Vec<_>>(), words)
    };
    beginning_with(&word.text).filter(is_it).map(Name::gives).for_each(|gives| found.add(gives));
    found
}

/// What a name may mean: rows of which a word is a slip of the pen away from one of its words, where that word is none
/// that is known. What the name gives away as it stands is not among them.
pub fn find_misspelt(name: &str) -> Arc<Vec<Maybe>> {
    static MISSPELT: Memo<Vec<Maybe>> = Memo::new();
    MISSPELT.of(name, look_for_misspelt)
}

fn look_for_misspelt(name: &str) -> Vec<Maybe> {
    let words = fold(name);
    let is_ordinary = |word: &String| ORDINARY.contains(word) || OF_LARDER.contains(word.as_str());
    let is_near = |word: &str| {
        let letters = word.chars().count();
        let as_long = BY_LENGTH.range(letters.saturating_sub(MOST_SLIPS)..=letters + MOST_SLIPS);
        as_long.flat_map(|(_, known)| known).any(|known| is_slip_of(word, known))
    };
    let strange: Vec<&String> = words.iter().filter(|word| !is_ordinary(word) && is_near(word)).collect();
    if strange.is_empty() {
        return Vec::new();
    }
    let slip = |wanted: &str| strange.iter().any(|word| is_slip_of(word, wanted));
    let there = |wanted: &str| words.iter().any(|word| word == wanted) || slip(wanted);
    let misspelt = |row: &Name| row.words().any(|w| slip(&w)) && row.words().all(|wanted| there(&wanted));
    rows()
        .filter(misspelt)
        .map(|row| Maybe { meant: row.words().collect::<Vec<_>>().join(" "), gives: row.gives() })
        .collect()
}

/// An allergen as somebody stated it ("Tree nut (almond)"), in the names that are used here. One that no list knows
/// is kept as it was stated.
pub fn read_allergen(stated: &str) -> BTreeSet<Open<Allergen>> {
    let found = &find(stated).allergens;
    if found.is_empty() && !stated.trim().is_empty() {
        return BTreeSet::from([Open::read(&stated.trim().to_lowercase())]);
    }
    found.iter().copied().map(Open::Known).collect()
}

/// A group says nothing more where one of its kinds stands.
pub(super) fn drop_generic(allergens: &mut BTreeSet<Open<Allergen>>) {
    let groups: Vec<Allergen> = allergens.iter().filter_map(|a| a.known()?.group()).collect();
    allergens.retain(|a| !groups.iter().any(|group| a == group));
}

fn is_in(wanted: &[Cow<'static, str>], words: &[NameWord]) -> bool {
    let stands = |wanted: &str, covered: &BTreeSet<usize>| {
        words.iter().enumerate().any(|(at, word)| word.text == wanted && !covered.contains(&at))
    };
    match wanted {
        [] => false,
        [word] => stands(word, &covered(word, words)),
        // "cut in half and chop" is no half and half: a name that says a word twice is said word by word
        [first, rest @ ..] if rest.contains(first) => {
            words.windows(wanted.len()).any(|said| said.iter().zip(wanted).all(|(said, wanted)| said.text == *wanted))
        }
        several => {
            let all = |covered: &BTreeSet<usize>| several.iter().all(|wanted| stands(wanted, covered));
            all(&BTreeSet::new()) && all(&covered(&several.join(" "), words))
        }
    }
}

/// Where in a name this word, or these words, mean something else.
fn covered(word: &str, words: &[NameWord]) -> BTreeSet<usize> {
    let mut places = BTreeSet::new();
    for friend in friends_of(word).iter() {
        if friend.adjacent {
            let starts = words.windows(friend.words.len()).enumerate().filter(|(_, w)| *w == friend.words.as_slice());
            places.extend(starts.flat_map(|(at, w)| at..at + w.len()));
        } else if friend.words.iter().all(|w| words.contains(w)) {
            places.extend(0..words.len());
        }
    }
    places
}
