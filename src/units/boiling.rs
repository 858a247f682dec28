//! The words by which a step says that something boils or simmers, and for how long.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::vocabulary::table::lists;

use super::spans::{SpanEnd, time};
use super::told::{Clause, clauses, first_told};
use super::{Literal, degrees_celsius};

/// What a pan does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Boiling {
    Simmer,
    Boil,
    /// Stands on the stove for a while.
    Cook,
    /// Has a lid on: next to nothing of its water goes up (common practice, no source).
    Covered,
    /// Stands for a while off the stove.
    Stands,
    /// Is sugar that browns.
    Caramel,
    /// The same by its colour alone, which mint gives to cold vodka as well.
    Amber,
    /// Stands in a hot pan.
    Melts,
    /// Says nothing of it.
    Idle,
    /// Denies it.
    Not,
    /// Says that nothing was heated, where a card says no more of its heat.
    Unheated,
    /// Begins how far it goes.
    Until,
}

/// All of them, in small letters.
pub(crate) static BOILING_WORDS: LazyLock<Vec<(Boiling, &str)>> =
    LazyLock::new(|| lists("boiling-words.csv", include_str!("boiling-words.csv")));

/// Whether a text boils, simmers or cooks something.
pub(crate) fn boils(text: &str) -> bool {
    any_said(text.split_whitespace())
}

fn any_said<'w>(mut words: impl Iterator<Item = &'w str>) -> bool {
    let mut before = "";
    words.any(|word| {
        let is_end = is_end_of(before, word);
        before = word;
        !is_end && is_said(word)
    })
}

/// "Au bout de cinq jours", "le bout du bec": an end, which boils nothing.
pub(crate) fn is_end_of(before: &str, word: &str) -> bool {
    ["au", "le", "du", "un"].iter().any(|article| before.eq_ignore_ascii_case(article))
        && word.eq_ignore_ascii_case("bout")
}

fn is_said(word: &str) -> bool {
    [Boiling::Simmer, Boiling::Boil, Boiling::Cook].into_iter().any(|what| is_one_of(what, word))
}

pub(super) fn is_one_of(what: Boiling, word: &str) -> bool {
    let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    BOILING_WORDS.iter().any(|(list, own)| *list == what && *own == word)
}

/// Nothing boils for a day: what bubbles so long works (ours), seconds.
const LONGEST_S: f64 = 86_400.0;

/// How many seconds a step boils or simmers something, at the least: by the time in the same clause, or by one that stands alone behind
/// it ("cook over medium heat, mashing the berries, about 12 minutes").
pub(crate) fn boiled_seconds(step: &str) -> Option<f64> {
    let clauses = clauses(step);
    let boils = |clause: &Clause<'_>| any_said(clause.words.iter().copied()) && !is_cooler(clause);
    let behind = |at: usize| {
        let sentence = clauses.iter().skip(at).take_while(|clause| !clause.is_last).count();
        let rest = clauses.get(at + 1..at + 1 + sentence).unwrap_or_default();
        rest.iter().take_while(|clause| !boils(clause)).find_map(time_alone)
    };
    let mut boil = clauses.iter().enumerate().filter(|(_, clause)| boils(clause));
    let told = boil
        .find_map(|(at, clause)| time(&clause.words, SpanEnd::Least).map(|told| told.seconds).or_else(|| behind(at)));
    told.filter(|seconds| *seconds < LONGEST_S)
}

/// "Cook at 55 °C for 2 hours": less than this is no simmer, °C (ours).
const SIMMERS_C: f64 = 85.0;

fn is_cooler(clause: &Clause<'_>) -> bool {
    let cooler = |literal| matches!(literal, Literal::Temperature(t) if degrees_celsius(t) < SIMMERS_C).then_some(());
    first_told(&clause.words, cooler).is_some()
}

/// A time that stands alone has so many words at the most, and so many of them in front of its number (ours).
const MOST_WORDS: usize = 5;
const BEFORE_TIME: usize = 2;

/// The seconds of a clause that is a time and little more: "about 12 minutes", "for 20 minutes or so".
fn time_alone(clause: &Clause<'_>) -> Option<f64> {
    let number = clause.words.iter().position(|word| word.starts_with(|c: char| c.is_numeric()))?;
    let stands = clause.words.iter().any(|word| is_one_of(Boiling::Stands, word));
    let is_alone = number <= BEFORE_TIME && clause.words.len() <= MOST_WORDS && !stands;
    Some(time(&clause.words, SpanEnd::Least).filter(|_| is_alone)?.seconds)
}

/// Whether these steps make caramel: what is poured on it boils up.
pub(crate) fn make_caramel(steps: &[String]) -> bool {
    let any = |what| steps.iter().any(|step| says(step, what));
    any(Boiling::Caramel) || any(Boiling::Amber) && (any(Boiling::Melts) || steps.iter().any(|step| boils(step)))
}

/// Whether a text tells of a lid on the pan: "covered", "with the lid on", "zugedeckt".
pub(crate) fn is_covered(text: &str) -> bool {
    says(text, Boiling::Covered)
}

/// Whether words of a list stand in a text, side by side.
fn says(text: &str, what: Boiling) -> bool {
    let words: Vec<String> = text.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let said = format!(" {} ", words.join(" "));
    BOILING_WORDS.iter().any(|(list, own)| *list == what && said.contains(&format!(" {own} ")))
}
