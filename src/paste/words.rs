//! The words that a pasted recipe is read by, from one table.

use std::collections::{HashMap, HashSet};
use std::sync::{LazyLock, OnceLock};

use crate::spelling::{self, Memo};
use crate::units::boiling::{BOILING_WORDS, Boiling, is_end_of};
use crate::vocabulary::Word;
use crate::vocabulary::table::lists;

crate::vocabulary::words! {
    /// A list of the table.
    WordList, "list of words":
    Step = "step",
    InIt = "in_it",
    Stays = "stays",
    MailHeader = "mail_header",
    MailSubject = "mail_subject",
    Answers = "answers",
    Greeting = "greeting",
    SignedOff = "signed_off",
    SentFrom = "sent_from",
    Wait = "wait",
    Heat = "heat",
    Strain = "strain",
    About = "about",
    Counted = "counted",
    Body = "body",
    Method = "method",
    Final = "final",
    Open = "open",
    Fill = "fill",
    Size = "size",
    ToppedUp = "topped_up",
    Handful = "handful",
    Glass = "glass",
    Juice = "juice",
    Zest = "zest",
    Of = "of",
    Article = "article",
    One = "one",
    More = "more",
    Join = "join",
    Half = "half",
    HalfOf = "half_of",
    Simmer = "simmer",
    Boil = "boil",
    Reduce = "reduce",
    Everything = "everything",
    Plants = "plants",
    Mixed = "mixed",
    RinsedWith = "rinsed_with",
    Into = "into",
    Cold = "cold",
    Hot = "hot",
    Bottled = "bottled",
    Lift = "lift",
    Same = "same",
    Measure = "measure",
    Each = "each",
    Peel = "peel",
    Flesh = "flesh",
    Behind = "behind",
    OfUnit = "of_unit",
    Makes = "makes",
    MakesFor = "makes_for",
    Keeps = "keeps",
    Denied = "denied",
    OffHeat = "off_heat",
    Squeezed = "squeezed",
    Paring = "paring",
    Pared = "pared",
    AnyFruit = "any_fruit",
    OffOf = "off_of",
    Gave = "gave",
    Pressed = "pressed",
    Dehydrated = "dehydrated",
    Unless = "unless",
    Unstrained = "unstrained",
    AsLiked = "as_liked",
    And = "and",
    Except = "except",
    Rest = "rest",
    Others = "others",
    After = "after",
    Sweet = "sweet",
    Strong = "strong",
    Syrup = "syrup",
    Alone = "alone",
    Make = "make",
    Sieve = "sieve",
    Fridge = "fridge",
    Freezer = "freezer",
    Down = "down",
    Thick = "thick",
    TakenOut = "out",
    Life = "life",
    Blended = "blended",
    Diluted = "diluted",
    ToDrink = "to_drink",
    Beside = "beside",
    Extra = "extra",
    Drinks = "drinks",
    Sum = "sum",
    PutIn = "put_in",
    Kitchen = "kitchen",
    Sprig = "sprig",
    ToServe = "to_serve",
    Unsweetened = "unsweetened",
    Packed = "packed",
    Serves = "serves",
    AtGuest = "at_guest",
    Date = "date",
    Between = "between",
    Small = "small",
    OfThe = "of_the",
    Degrees = "degrees",
    DegreesCelsius = "degrees_celsius",
    Warm = "warm",
    Until = "until",
    HeatEnds = "heat_ends",
    DownTo = "down_to",
    Water = "water",
    Browned = "browned",
    Vessel = "vessel",
    Gives = "gives",
    EqualParts = "equal_parts",
    Poured = "poured",
    Bath = "bath",
    OfAll = "of_all",
    Whole = "whole",
    Doubled = "doubled",
    TheLot = "the_lot",
    Loses = "loses",
    Cut = "cut",
    Sweetened = "sweetened",
    Stove = "stove",
    CalledHot = "called_hot",
    CalledHotBehind = "called_hot_behind",
    Steeped = "steeped",
    Apart = "apart",
    SugarStage = "sugar_stage",
    BoilingSign = "boiling_sign",
    Roasted = "roasted",
    NotPutIn = "not_put_in",
    Flavours = "flavours",
    Coats = "coats",
    Dilution = "dilution",
    MoreAgain = "more_again",
    Again = "again",
    OpenEnd = "open_end",
    BeforeThing = "before_thing",
    PhraseEnds = "phrase_ends",
    Steeps = "steeps",
    CalledHow = "called_how",
    HotThing = "hot_thing",
    Deglazed = "deglazed",
    Bubbles = "bubbles",
    NotBehind = "not_behind",
    ASide = "a_side",
    Burns = "burns",
    Solids = "solids",
    CalledBoiled = "called_boiled",
    EveryBottle = "every_bottle",
    IntoEvery = "into_every",
    Vague = "vague",
    Nobody = "nobody",
    Smokes = "smokes",
    SmokedOver = "smoked_over",
    SmokeWood = "smoke_wood",
    Thing = "thing",
    How = "how",
    InsteadOf = "instead_of",
    Swapped = "swapped",
    LeftOut = "left_out",
    NoneOf = "none_of",
    AnotherSize = "another_size",
    DoubleOf = "double_of",
    FillsGlass = "fills_glass",
    DoseOf = "dose_of",
    ADouble = "a_double",
    AGlass = "a_glass",
    FilledWith = "filled_with",
    JustOne = "just_one",
    Twice = "twice",
    WithoutAlcohol = "without_alcohol",
    BottleOf = "bottle_of",
    ToTheTop = "to_the_top",
    Tops = "tops",
    MayBe = "may_be",
    Lets = "lets",
    Placed = "placed",
    AlreadyIn = "already_in",
    Pulls = "pulls",
    Takes = "takes",
    OutAgain = "out_again",
    PouredOff = "poured_off",
    OffAgain = "off_again",
    Spun = "spun",
    Through = "through",
    Passed = "passed",
    Apiece = "apiece",
    GoesIn = "goes_in",
    TakesSome = "takes_some",
    Onto = "onto",
    Gathers = "gathers",
    Gelled = "gelled",
}

/// By the place of the list.
static WORDS: LazyLock<Vec<Vec<&'static str>>> = LazyLock::new(|| {
    let mut words: Vec<Vec<&str>> = WordList::ALL.iter().map(|_| Vec::new()).collect();
    let boiling = BOILING_WORDS.iter().filter_map(|(boiling, word)| match boiling {
        Boiling::Simmer => Some((WordList::Simmer, *word)),
        Boiling::Boil => Some((WordList::Boil, *word)),
        _ => None,
    });
    for (list, word) in lists("words.csv", include_str!("words.csv")).into_iter().chain(boiling) {
        words[list as usize].push(word);
    }
    words
});

/// The same without accents and in the singular, as the words of names are compared.
static FOLDED: LazyLock<Vec<OnceLock<HashSet<String>>>> =
    LazyLock::new(|| WordList::ALL.iter().map(|_| OnceLock::new()).collect());

impl WordList {
    /// Whether the word stands in the list, where both are folded: "gewurze" is "Gewürze".
    pub(super) fn has_folded(self, word: &str) -> bool {
        let folded = || WORDS[self as usize].iter().map(|word| spelling::fold(word)).collect();
        FOLDED[self as usize].get_or_init(folded).contains(word)
    }

    /// Whether the word, or words, stand in the list as they are.
    pub(super) fn has(self, word: &str) -> bool {
        let bare = word.trim_matches(|c: char| matches!(c, ',' | ';' | ':' | '!' | '(' | ')' | '"'));
        if bare.contains(char::is_uppercase) { self.has_small(&bare.to_lowercase()) } else { self.has_small(bare) }
    }

    /// The same of a bare word in small letters.
    fn has_small(self, word: &str) -> bool {
        let has = |word: &str| LISTS_OF.get(word).is_some_and(|lists| lists.contains(&self));
        has(word) || word.ends_with('.') && has(word.trim_end_matches('.'))
    }

    /// The same in small letters alone: "el" is an article, "EL" a spoon.
    pub(super) fn has_as_written(self, word: &str) -> bool {
        self.has(word) && word.to_lowercase() == word
    }

    /// The same for any number of it ("cloves").
    pub(super) fn has_singular(self, word: &str) -> bool {
        self.has(word) || self.has(&spelling::singular(&word.to_lowercase()))
    }

    /// Whether one of them stands in a text as a word of it; a verb counts with `-s`, `-ed`, `-ing`.
    pub(super) fn within(self, text: &str) -> bool {
        WITHIN.of(text, lists_within)[self as usize]
    }

    /// Whether one of them stands anywhere in a text, whatever stands round it; one word alone ("never") is no part of another
    /// ("nevera").
    pub(super) fn is_said_in(self, text: &str) -> bool {
        self.end_in(text).is_some()
    }

    /// What stands in front of the first of them, and behind it.
    pub(super) fn round(self, text: &str) -> Option<(&str, &str)> {
        let end = self.end_in(text)?;
        let begins = |at: &usize| text.get(*at..end).is_some_and(|said| self.has(said));
        let start = (0..end).find(begins)?;
        Some((text.get(..start)?, text.get(end..)?))
    }

    /// Where the first of them ends that stands in a text so.
    pub(super) fn end_in(self, text: &str) -> Option<usize> {
        SAID.of(text, ends_of_lists).get(&self).copied()
    }

    /// Whether one of them begins a text, as words of it.
    pub(super) fn at_the_start(self, text: &str) -> bool {
        let lower = text.trim().to_lowercase();
        let begins =
            |word: &&str| lower.strip_prefix(*word).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric));
        WORDS[self as usize].iter().any(begins)
    }

    /// Which of them begins or ends a text.
    pub(super) fn at_an_end(self, text: &str) -> Option<&'static str> {
        let lower = text.trim().to_lowercase();
        let words = WORDS[self as usize].iter().copied().filter(|word| {
            let inside = |rest: Option<&str>| rest.is_some_and(|rest| !rest.starts_with(char::is_alphanumeric));
            inside(lower.strip_prefix(word))
                || lower.strip_suffix(word).is_some_and(|rest| !rest.ends_with(char::is_alphanumeric))
        });
        words.max_by_key(|word| word.len())
    }
}

/// A clause is asked for most lists, and by many readers.
static WITHIN: Memo<Vec<bool>> = Memo::new();
static SAID: Memo<HashMap<WordList, usize>> = Memo::new();

/// The lists in which a word stands: every word of every step is looked for in most of them.
static LISTS_OF: LazyLock<HashMap<&str, Vec<WordList>>> = LazyLock::new(|| {
    let mut lists: HashMap<&str, Vec<WordList>> = HashMap::new();
    for (list, words) in WordList::ALL.iter().zip(WORDS.iter()) {
        words.iter().for_each(|word| lists.entry(word).or_default().push(*list));
    }
    lists
});

/// Which lists have a word of a text, by the place of the list.
fn lists_within(text: &str) -> Vec<bool> {
    let lower = text.to_lowercase();
    let mut before = "";
    let mut found = vec![false; WordList::ALL.len()];
    for word in lower.split(|c: char| !(c.is_alphanumeric() || c == '-')).filter(|word| !word.is_empty()) {
        if !is_end_of(before, word) {
            let of_stems = stems(word).filter_map(|stem| LISTS_OF.get(stem.as_str()));
            LISTS_OF.get(word).into_iter().chain(of_stems).flatten().for_each(|list| found[*list as usize] = true);
        }
        before = word;
    }
    found
}

/// What is written of each list, by its first word.
static BY_FIRST_WORD: LazyLock<HashMap<&str, Vec<(&str, WordList)>>> = LazyLock::new(|| {
    let mut by_word: HashMap<&str, Vec<(&str, WordList)>> = HashMap::new();
    for (written, lists) in LISTS_OF.iter() {
        let all = lists.iter().map(|list| (*written, *list));
        by_word.entry(first_word(written)).or_default().extend(all);
    }
    by_word
});

fn first_word(text: &str) -> &str {
    text.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default()
}

/// Where in a text the first of each list ends.
fn ends_of_lists(text: &str) -> HashMap<WordList, usize> {
    let lower = text.to_lowercase();
    let mut ends: HashMap<WordList, usize> = HashMap::new();
    let mut is_inside = false;
    for (at, c) in lower.char_indices() {
        let rest = lower.get(at..).unwrap_or_default();
        let here = if is_inside { None } else { BY_FIRST_WORD.get(first_word(rest)) };
        for (written, list) in here.into_iter().flatten() {
            let behind = rest.strip_prefix(written);
            let goes_on = |behind: &str| !written.contains(' ') && behind.starts_with(char::is_alphanumeric);
            if behind.is_some_and(|behind| !goes_on(behind)) {
                let end = at + written.len();
                ends.entry(*list).and_modify(|first| *first = end.min(*first)).or_insert(end);
            }
        }
        is_inside = c.is_alphanumeric();
    }
    ends
}

fn stems(word: &str) -> impl Iterator<Item = String> {
    let cut = ["s", "ed", "d", "ing"].into_iter().filter_map(move |end| word.strip_suffix(end)).map(str::to_owned);
    // "leaving" of leave
    cut.chain(word.strip_suffix("ing").map(|stem| format!("{stem}e")))
}
