//! Amounts with more than one reading: what is asked of them.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::{key, quoted};
use crate::units::told::first_told;
use crate::units::{Literal, LiteralError};

use super::draft::{Draft, Remark};
use super::names::Names;
use super::words::WordList;

/// So many words an amount has at most: "2 parts by weight", "1 1/2 imp fl oz".
pub(super) const MOST_WORDS: usize = 6;

/// A sentence that asks what a reader of amounts could not decide.
pub(super) fn question(why: &Diagnostic) -> String {
    match &why.help {
        Some(help) => format!("{}: {}", why.title, help.lines().collect::<Vec<_>>().join("; ")),
        None => why.title.clone(),
    }
}

/// "2 oz gin": a unit with more than one reading.
pub(super) fn asked_at_the_start(words: &[&str], names: Names<'_>) -> Option<String> {
    words.first().filter(|word| word.starts_with(|c: char| c.is_numeric()))?;
    let front = (1..=MOST_WORDS.min(words.len())).filter_map(|n| words.get(..n));
    let why = front.filter_map(|words| names.reads(&words.join(" ")).err()).find(is_double)?;
    Some(question(&why.at(Span::default(), "")))
}

/// "sugar 1,250 g": an amount behind the name that has two readings.
pub(super) fn asked_at_the_end(words: &[&str], names: Names<'_>) -> Option<String> {
    let fewest = words.len().saturating_sub(MOST_WORDS).max(1);
    let starts_with_digit = |n: &usize| words.get(*n).is_some_and(|word| word.starts_with(|c: char| c.is_numeric()));
    let behind = (fewest..words.len()).filter(starts_with_digit).filter_map(|n| words.get(n..));
    let why = behind.filter_map(|words| names.reads(&words.join(" ")).err()).find(is_double)?;
    Some(question(&why.at(Span::default(), "")))
}

/// What is said of ounces and cups behind what can be written.
const SETTLED: &str = "; or settle it for the house";

/// How the house settles them is said once: of every later line no more than what can be written.
pub(super) fn settled_once(draft: &mut Draft) {
    let lines = draft.stages.iter_mut().chain([&mut draft.last]).flat_map(|stage| &mut stage.asked);
    let remarks = lines.flat_map(|line| &mut line.remarks);
    let asked = remarks.filter_map(|remark| if let Remark::Question(asked) = remark { Some(asked) } else { None });
    for asked in asked.filter(|asked| asked.contains(SETTLED)).skip(1) {
        asked.truncate(asked.find(SETTLED).unwrap_or(asked.len()));
    }
}

pub(super) fn is_double(why: &LiteralError) -> bool {
    matches!(why.code, Code::AmbiguousUnit | Code::AmbiguousNumber | Code::EachOrAll)
}

/// "2 tins (400 g)": the question whether that is each, wherever it stands in a line.
pub(super) fn each_or_all(line: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = line.split(' ').collect();
    let ends = (1..=words.len()).filter(|end| words.get(end - 1).is_some_and(|word| word.ends_with(')')));
    let amounts = ends.flat_map(|end| (end.saturating_sub(MOST_WORDS)..end).map(move |n| (n, end)));
    let mut read = amounts.filter_map(|(n, end)| names.reads(&words.get(n..end)?.join(" ")).err());
    let why = read.find(|why| why.code == Code::EachOrAll)?;
    Some(question(&why.at(Span::default(), "")))
}

/// "1 kg pineapple (peeled weight 600 g)", "3 mangoes (about 600 g flesh)": what was bought and what goes in; which of them counts the
/// maker says.
pub(super) fn bought_or_goes_in(amount: &str, name: &str, brackets: &[String], names: Names<'_>) -> Option<String> {
    let told = |inside: &String| {
        let words: Vec<&str> = inside.split_whitespace().collect();
        let is_weight = |literal| matches!(literal, Literal::Mass(_)).then_some(());
        let (weight, ()) = first_told(&words, is_weight)?;
        WordList::GoesIn.within(inside).then_some(weight)
    };
    let weight =
        brackets.iter().find_map(told).filter(|weight| names.reads(weight).ok() != names.reads(amount).ok())?;
    let (of, amount, weight) = (key(name), quoted(amount), quoted(&weight));
    Some(format!("two amounts: which one goes in? {of} = {amount}, or {of} = {weight}"))
}
