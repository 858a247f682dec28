//! A recipe that gives the amounts of one drink and says of how many it is: "Batch margarita x10", "(20 drinks)", "x 20, stir".

use crate::input::{key, quoted};
use crate::units::display::short;
use crate::units::{Literal, in_millilitres, literal};

use super::clean::PastedLine;
use super::draft::{Draft, DraftLine};
use super::names::Names;
use super::parted::asked_of;
use super::words::WordList;

/// What a glass holds at the most, ml (ours): larger amounts are those of the batch.
const LARGEST_GLASS_ML: f64 = 400.0;

/// Asks for the amounts of the batch, and writes them out.
pub(super) fn asked(lines: &[PastedLine], draft: &mut Draft, names: Names<'_>) {
    let Some((said, times)) = lines.iter().enumerate().find_map(|(at, line)| so_many(&line.text, at == 0)) else {
        return;
    };
    if draft.is_complete || draft.makes || !draft.stages.is_empty() || draft.last.parts.is_empty() {
        return;
    }
    let volume = |amount: &str| match names.reads(amount) {
        Ok(Literal::Volume(volume)) => in_millilitres(volume),
        _ => 0.0,
    };
    let amounts = draft.last.parts.iter().filter_map(|part| Some((&part.label, part.amount.as_deref()?)));
    let poured: f64 = amounts.clone().map(|(_, amount)| volume(amount)).sum();
    if poured == 0.0 || poured > LARGEST_GLASS_ML {
        return;
    }
    let each = |(label, amount): (&String, &str)| {
        let (number, unit) = amount.split_once(' ')?;
        let Ok(Literal::Number(number)) = literal::parse(number) else { return None };
        Some(format!("{} = {}", key(label), quoted(&format!("{} {unit}", short(number * times).replace(',', "")))))
    };
    let all: Vec<String> = amounts.filter_map(each).collect();
    // what was asked of the line by itself is said better here
    draft.keys.retain(|line| !(line.toml.is_empty() && asked_of(line).label.starts_with(&said)));
    let asks = format!("are the amounts those of one drink? then {}", all.join(", "));
    draft.last.asked.push(DraftLine::question(&said, asks));
}

/// "x 4 for the class", "4 x", "double batch": what a line asks that says no more than how many times all of it is made.
pub(super) fn so_many_times(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_matches(['(', ')', '.', ',', ':'])).collect();
    let is_times =
        |word: &str| matches!(word.to_lowercase().as_str(), "x" | "×" | "times" | "mal" | "fois" | "veces" | "volte");
    let is_number = |word: &str| word.parse::<f64>().is_ok_and(|n| n > 1.0 && n.fract() == 0.0);
    let says_it = match words.as_slice() {
        [first, rest @ ..] => {
            let joined = first.strip_prefix(['x', 'X', '×']).is_some_and(is_number);
            let next = rest.first().copied().unwrap_or_default();
            // "4 x 250 ml" is a size
            let has_size = rest.iter().any(|word| is_number(word.trim_end_matches(char::is_alphabetic)));
            let is_parted = is_times(first) && is_number(next);
            joined && !has_size || is_parted || is_number(first) && is_times(next) && !has_size
        }
        [] => false,
    };
    let asks = "are the amounts those of one batch? write them so many times, or the batch on the way: stillroom solve \
                CARD --make \"… L\"";
    let says_it = says_it && !text.contains(". ");
    (says_it || WordList::Doubled.is_said_in(text) && words.len() <= MOST_WORDS).then(|| asks.to_owned())
}

/// A line that says no more than that has so many words (ours).
const MOST_WORDS: usize = 4;

/// How many drinks a title, or a line that begins so, says; a number behind a unit or before one counts something else.
fn so_many(text: &str, is_title: bool) -> Option<(String, f64)> {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_matches(['(', ')', '.', ',', ':'])).collect();
    let number = |word: &str| {
        let is_whole = !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
        word.parse::<f64>().ok().filter(|n| is_whole && *n > 1.0)
    };
    let last = words.len().checked_sub(1)?;
    words.iter().enumerate().find_map(|(at, word)| {
        let next = words.get(at + 1).copied();
        let stands = is_title || at == 0;
        let is_times = |word: &str| matches!(word.to_lowercase().as_str(), "x" | "×");
        let joined = word.strip_prefix(['x', 'X', '×']).and_then(number);
        let parted = next.filter(|_| is_times(word)).and_then(number);
        if let Some(times) = joined.or(parted).filter(|_| stands) {
            return Some((words.get(at..=at + usize::from(joined.is_none()))?.join(" "), times));
        }
        let counts = next.filter(|next| WordList::Drinks.has(next)).and_then(|_| number(word));
        let begins = is_title || at == 0 || words.get(at - 1).is_some_and(|word| is_key(word));
        if let Some(times) = counts.filter(|_| begins) {
            return Some((format!("{word} {}", next?), times));
        }
        let made = next.filter(|_| is_key(word) && at + 1 == last).and_then(number)?;
        Some((format!("{word} {}", next?), made))
    })
}

/// "Makes 10", "for 10".
fn is_key(word: &str) -> bool {
    WordList::Makes.has(word) || WordList::MakesFor.has(word) || word.eq_ignore_ascii_case("for")
}
