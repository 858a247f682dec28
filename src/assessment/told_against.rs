//! What a clause of the steps says against a key of its card, by the words of `told-against.csv`.

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

/// Whether a phrase stands in these words from this place on.
fn stands(phrase: &[PhrasePiece], said: &[String], at: usize) -> bool {
    let Some((first, behind)) = phrase.split_first() else { return true };
    match first {
        PhrasePiece::Start => at == 0 && stands(behind, said, at),
        PhrasePiece::End => at == said.len(),
        PhrasePiece::Gap => (at..=said.len().min(at + GAP)).any(|at| stands(behind, said, at)),
        PhrasePiece::Word(wanted) => said.get(at) == Some(wanted) && stands(behind, said, at + 1),
    }
}

/// A clause of the steps, as it is written and folded.
pub(super) struct SaidClause<'s> {
    /// The step that it stands in.
    pub step: &'s str,
    pub text: &'s str,
    pub written: Vec<&'s str>,
    words: Vec<String>,
}

/// The clauses of these steps, in their order.
pub(super) fn said<'s>(steps: impl Iterator<Item = &'s String>) -> Vec<SaidClause<'s>> {
    let clause = |step: &'s String| {
        clauses(step).into_iter().map(move |clause| SaidClause {
            step,
            text: clause.text,
            words: words(clause.text),
            written: clause.words,
        })
    };
    steps.flat_map(clause).collect()
}

impl SaidClause<'_> {
    /// Whether it says so, and nothing in front forbids it ("never fill cold"); "do not strain" has its own "not".
    pub(super) fn says(&self, list: Against) -> bool {
        let is_at = |at: usize| PHRASES[list as usize].iter().any(|phrase| stands(phrase, &self.words, at));
        let forbids = |word: &String| StepWord::Not.has(word) || StepWord::Forbid.has(word);
        // "do not strain until it has curdled"
        let counts = |at: usize| list == Against::Until || !self.words[..at].iter().any(forbids);
        (0..self.words.len()).any(|at| is_at(at) && counts(at))
    }
}
