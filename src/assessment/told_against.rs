//! What a clause of the steps says against a key of its card, by the words of `told-against.csv`.

use std::ops::Range;
use std::sync::LazyLock;

use crate::safety::step_words::StepWord;
use crate::spelling::words;
use crate::units::told::clauses;
use crate::vocabulary::table::lists;
use crate::vocabulary::{Word, words};

words! {
    /// A list of `told-against.csv`, which says what each is of.
    Against, "list of what a step says against a key":
    Cold = "cold",
    Straight = "straight",
    FilledCold = "filled_cold",
    Open = "open",
    Unclean = "unclean",
    InEach = "in_each",
    Headroom = "headroom",
    Cools = "cools",
    Fills = "fills",
    Hot = "hot",
    NotStrained = "not_strained",
    KeptIn = "kept_in",
    Until = "until",
    Late = "late",
    PutsIn = "puts_in",
    Juice = "juice",
    Served = "served",
    OffHeat = "off_heat",
    GoesInCold = "goes_in_cold",
    IsCold = "is_cold",
    When = "when",
    Once = "once",
    NextDay = "next_day",
    Closes = "closes",
    Only = "only",
    Heated = "heated",
    Degassed = "degassed",
    Tops = "tops",
    Squeezed = "squeezed",
    Bare = "bare",
    StaysRaw = "stays_raw",
    OnlySyrup = "only_syrup",
    Fruit = "fruit",
    Ice = "ice",
    IceRound = "ice_round",
    ToppedUp = "topped_up",
    LastBatch = "last_batch",
    OldPart = "old_part",
    Refills = "refills",
}

/// A piece of a phrase.
enum PhrasePiece {
    Word(String),
    /// Two other words at the most.
    Gap,
    /// Nothing stands in front of it.
    Start,
    /// Nothing stands behind it.
    End,
}

/// So many words a gap holds at the most.
const GAP: usize = 2;

/// The phrases of each list; the lists in the order of the enum.
static PHRASES: LazyLock<Vec<Vec<Vec<PhrasePiece>>>> = LazyLock::new(|| {
    let piece = |written: &str| match written {
        "*" => vec![PhrasePiece::Gap],
        "^" => vec![PhrasePiece::Start],
        "$" => vec![PhrasePiece::End],
        word => words(word).into_iter().map(PhrasePiece::Word).collect(),
    };
    let mut all: Vec<Vec<Vec<PhrasePiece>>> = Against::ALL.iter().map(|_| Vec::new()).collect();
    for (list, phrase) in lists::<Against>("told-against.csv", include_str!("told-against.csv")) {
        all[list as usize].push(phrase.split(' ').flat_map(piece).collect());
    }
    all
});

/// Where a phrase ends that stands in these words from this place on.
fn end_of(phrase: &[PhrasePiece], said: &[String], at: usize) -> Option<usize> {
    let Some((first, behind)) = phrase.split_first() else { return Some(at) };
    match first {
        PhrasePiece::Start => (at == 0).then(|| end_of(behind, said, at))?,
        PhrasePiece::End => (at == said.len()).then_some(at),
        PhrasePiece::Gap => (at..=said.len().min(at + GAP)).find_map(|at| end_of(behind, said, at)),
        PhrasePiece::Word(wanted) => (said.get(at) == Some(wanted)).then(|| end_of(behind, said, at + 1))?,
    }
}

/// A clause of the steps, as it is written and folded.
pub(super) struct SaidClause<'s> {
    /// The step that it stands in.
    pub step: &'s str,
    pub text: &'s str,
    pub written: Vec<&'s str>,
    words: Vec<String>,
    /// So many of its words stand in front of a word that forbids, and that one.
    allowed: usize,
}

/// The clauses of these steps, in their order.
pub(super) fn said<'s>(steps: impl Iterator<Item = &'s String>) -> Vec<SaidClause<'s>> {
    let forbids = |word: &String| StepWord::Not.has(word) || StepWord::Forbid.has(word);
    let clause = |step: &'s String| {
        clauses(step).into_iter().map(move |clause| {
            let words = words(clause.text);
            let allowed = words.iter().position(forbids).map_or(words.len(), |at| at + 1);
            SaidClause { step, text: clause.text, words, written: clause.words, allowed }
        })
    };
    steps.flat_map(clause).collect()
}

impl SaidClause<'_> {
    /// Whether it says so, and nothing in front forbids it ("never fill cold"); "do not strain" has its own "not".
    pub(super) fn says(&self, list: Against) -> bool {
        self.places(list).next().is_some()
    }

    /// Where it says so.
    fn places(&self, list: Against) -> impl Iterator<Item = Range<usize>> {
        // "do not strain until it has curdled"
        let most = if list == Against::Until { self.words.len() } else { self.allowed };
        let ends = move |at: usize| PHRASES[list as usize].iter().find_map(|phrase| end_of(phrase, &self.words, at));
        (0..most).filter_map(move |at| Some(at..ends(at)?))
    }

    /// Whether nothing stands in it but juice and what a sentence without a verb says of it: "juice last", "zum Schluss kalt".
    pub(super) fn is_bare(&self) -> bool {
        let lists = [Against::Bare, Against::Juice, Against::Late, Against::GoesInCold];
        let all: Vec<Range<usize>> = lists.iter().flat_map(|list| self.places(*list)).collect();
        (0..self.words.len()).all(|at| all.iter().any(|place| place.contains(&at)))
    }

    /// "Bottle once cold", "handwarm abfüllen": it is filled, or filled and what is filled cools first.
    pub(super) fn fills_cold(&self) -> bool {
        let is_cold = |at: &Range<usize>| {
            self.places(Against::IsCold)
                .any(|cold| self.is_when(at.end..cold.start) || self.is_when(cold.end..at.start))
        };
        self.says(Against::FilledCold) || self.places(Against::Fills).any(|at| is_cold(&at))
    }

    /// "Once cold", "when the syrup is cool".
    pub(super) fn is_cold_by_then(&self) -> bool {
        self.colds().next().is_some()
    }

    /// Whether it cools before it is filled, as far as it tells of both.
    pub(super) fn cools_first(&self) -> bool {
        let fills = self.places(Against::Fills).map(|at| at.start).max();
        let cools = self.places(Against::Cools).chain(self.colds());
        cools.into_iter().any(|at| fills.is_none_or(|fills| at.start < fills))
    }

    fn colds(&self) -> impl Iterator<Item = Range<usize>> {
        let once = self.places(Against::Once).map(|at| at.end).min();
        self.places(Against::IsCold).filter(move |at| once.is_some_and(|once| once <= at.start))
    }

    /// Whether nothing but small words of when stand there. None do where the range is turned round.
    fn is_when(&self, range: Range<usize>) -> bool {
        let words = self.words.get(range);
        let is_small = |word: &String| {
            let mut small = PHRASES[Against::When as usize].iter().flatten();
            small.any(|piece| matches!(piece, PhrasePiece::Word(own) if own == word))
        };
        words.is_some_and(|words| words.iter().all(is_small))
    }
}
