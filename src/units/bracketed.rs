//! Amounts that say their size beside the word that has none: `1 bottle (70cl)`, `2 tins (400 g each)`, `1 cup (240 ml)`,
//! `2 x 70cl bottles`.

use std::ops::RangeInclusive;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::diagnostic::Code;
use crate::spelling::{Memo, fold, singular};
use crate::vocabulary::table::lists;
use crate::vocabulary::{Portion, Word};

use super::about::without_about;
use super::amount::{Literal, Reading};
use super::customs::Customs;
use super::error::{LiteralError, wrong};
use super::number::leading;
use super::spaces::skip_spaces;
use super::{grams, in_grams, in_millilitres, millilitres};

/// What an amount in brackets is of: of one, or of all that is counted.
#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum EachWord {
    Each,
    All,
}

static EACH: LazyLock<Vec<(EachWord, &str)>> =
    LazyLock::new(|| lists("each-words.csv", include_str!("each-words.csv")));

/// What has no size of its own, beside the packs that a portion names; a size beside one of it is what that holds.
const CONTAINERS: [&str; 9] = ["carton", "pack", "box", "tube", "glass", "pouch", "brick", "flask", "dosen"];
const BOTTLES: [&str; 7] = ["bottle", "flasche", "flaschen", "bouteille", "botella", "bottiglia", "bottiglie"];
/// Packs that a shop sells by what is on their label.
const PACKS: [Portion; 9] = [
    Portion::Bag,
    Portion::Packet,
    Portion::Can,
    Portion::Jar,
    Portion::Tub,
    Portion::Punnet,
    Portion::Carton,
    Portion::Block,
    Portion::Dose,
];
/// What a bottle of spirit or wine holds, and what a shot, ml (common practice, no source).
const BOTTLE_ML: RangeInclusive<f64> = 500.0..=1000.0;
const SHOT_ML: RangeInclusive<f64> = 20.0..=60.0;
/// An amount and its size in brackets differ by no more than this where both are right, as a share (ours: a cup in a metric
/// cookbook is 240 or 250 ml).
const ALIKE: f64 = 0.1;

/// The reader of amounts that say nothing in brackets.
type Plain<'a> = &'a dyn Fn(&str) -> Result<Reading, LiteralError>;

/// The amount, where it is one of these; what it may be where it has two readings.
pub(super) fn read(text: &str, customs: &Customs, plain: Plain<'_>) -> Option<Result<Reading, LiteralError>> {
    let trimmed = text.trim();
    let found = match trimmed.strip_suffix(')').and_then(|rest| rest.rsplit_once('(')) {
        Some((front, inside)) => in_brackets(text, front.trim(), inside.trim(), customs, plain),
        None => before_its_container(trimmed, customs, plain).map(Ok),
    };
    found.map(|read| read.map(|reading| Reading { text: text.to_owned(), ..reading }))
}

/// `1 bottle (70cl)`, `10 shots (30 ml each)`, `4 limes (120 ml)`.
fn in_brackets(
    text: &str,
    front: &str,
    inside: &str,
    customs: &Customs,
    plain: Plain<'_>,
) -> Option<Result<Reading, LiteralError>> {
    let (said, is_of) = without_each(inside);
    let said = without_about(said.strip_prefix("= ").unwrap_or(said)).trim();
    let size = plain(said).ok().filter(|size| amount(size).is_some())?;
    let counted = leading(front, 0, customs).ok()?;
    if let Ok(whole) = plain(front)
        && let (Some((mass, told)), Some((of_size, sized))) = (amount(&whole), amount(&size))
    {
        let is_near = |told: f64| (told / sized - 1.0).abs() <= ALIKE;
        // `2 cups (480 ml)` says one thing twice; what contradicts itself is left to the reader.
        let agrees = mass != of_size || is_near(told);
        // the bottle of a house gives way to the one that stands there
        if agrees || !is_container(front) {
            return (agrees && is_of != Some(EachWord::Each)).then_some(Ok(size));
        }
        // `2 bottles (70cl)`: the house has bottles of that size
        if is_of.is_none() && counted.is_some_and(|(count, _)| is_near(told / count)) {
            return counted.and_then(|(count, _)| times(count, size)).map(Ok);
        }
    }
    // what is not counted is a container, or a name: "cordial (750 ml)"
    let (count, end) = counted.or_else(|| is_container(front).then_some((1.0, 0)))?;
    let words = front.get(end..)?.trim();
    let in_words = !words.is_empty() && words.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || c == '-');
    if !in_words {
        return None;
    }
    let is_of = is_of.or_else(|| if count > 1.0 { told_by_itself(words, count, &size) } else { Some(EachWord::Each) });
    match is_of {
        Some(EachWord::Each) => times(count, size).map(Ok),
        Some(EachWord::All) => Some(Ok(size)),
        None => Some(Err(each_or_all(text, front, said))),
    }
}

/// What stands in brackets without the words that say of what it is, and what they say.
fn without_each(inside: &str) -> (&str, Option<EachWord>) {
    let found = EACH.iter().find_map(|(of, word)| {
        let behind = inside.strip_suffix(*word).filter(|rest| !rest.ends_with(char::is_alphabetic));
        let before = || inside.strip_prefix(*word).filter(|rest| rest.starts_with([' ', ':']));
        behind.or_else(before).map(|said| (said.trim_matches([' ', ':', ',']), Some(*of)))
    });
    found.unwrap_or((inside, None))
}

/// `4 limes (120 ml)` are so much together. Of `10 shots (30 ml)` and `2 bottles (1.4 L)` one of the readings is a usual size; of packs,
/// that a shop sells in any, nobody can tell.
fn told_by_itself(words: &str, count: f64, size: &Reading) -> Option<EachWord> {
    if !is_container(words) {
        return Some(EachWord::All);
    }
    let is = |of: fn(&str) -> bool| words.split(' ').any(of);
    let usual = match () {
        () if is(is_bottle) => BOTTLE_ML,
        () if is(|word| portion(word) == Some(Portion::Dose)) => SHOT_ML,
        () => return None,
    };
    let (is_mass, size) = amount(size)?;
    match (usual.contains(&size), usual.contains(&(size / count))) {
        _ if is_mass => None,
        (true, false) => Some(EachWord::Each),
        (false, true) => Some(EachWord::All),
        _ => None,
    }
}

/// `2 tins (400 g)`: asked, with both answers.
fn each_or_all(text: &str, front: &str, said: &str) -> LiteralError {
    let at = text.len() - text.trim_start().len()..text.trim_end().len();
    let asks = wrong(Code::EachOrAll, text, at, "is so much each, or all together?");
    asks.help(format!("for each write \"{front} ({said} each)\"; for all of it \"{said}\""))
}

/// `70cl bottle`, `1 x 70cl bottle`, `two 400 g tins`.
fn before_its_container(text: &str, customs: &Customs, plain: Plain<'_>) -> Option<Reading> {
    let (size, last) = text.rsplit_once(' ').filter(|(_, last)| is_container(last))?;
    let size = size.trim();
    if let Ok(one) = plain(size)
        && amount(&one).is_some()
    {
        return Some(one);
    }
    let (first, rest) = size.split_once([' ', 'x', 'X', '×'])?;
    let (count, end) = leading(first, 0, customs).ok()??;
    let rest = rest.trim().trim_start_matches(['x', 'X', '×']);
    let one = plain(rest.get(skip_spaces(rest, 0)..)?).ok()?;
    (end == first.len() && !last.is_empty()).then(|| times(count, one)).flatten()
}

/// Every stretch of words of every step is asked whether it ends in one.
static IS_CONTAINER: Memo<bool> = Memo::new();

/// Whether the last of some words is what has no size of its own.
pub(crate) fn is_container(words: &str) -> bool {
    *IS_CONTAINER.of(words.rsplit(' ').next().unwrap_or_default(), has_no_size)
}

fn has_no_size(last: &str) -> bool {
    let is_pack = portion(last).is_some_and(|portion| PACKS.contains(&portion));
    is_pack || is_bottle(last) || CONTAINERS.contains(&singular(&last.to_lowercase()).as_str())
}

fn is_bottle(word: &str) -> bool {
    BOTTLES.contains(&singular(&word.to_lowercase()).as_str())
}

fn portion(word: &str) -> Option<Portion> {
    Portion::parse(&fold(word))
}

/// Whether it is a mass, and how much in grams or millilitres.
fn amount(reading: &Reading) -> Option<(bool, f64)> {
    match reading.literal {
        Literal::Mass(mass) => Some((true, in_grams(mass))),
        Literal::Volume(volume) => Some((false, in_millilitres(volume))),
        Literal::Bottles(count, each) => Some((false, count * in_millilitres(each))),
        _ => None,
    }
}

fn times(count: f64, one: Reading) -> Option<Reading> {
    let (is_mass, size) = amount(&one)?;
    let literal = if is_mass { Literal::Mass(grams(count * size)) } else { Literal::Volume(millilitres(count * size)) };
    let named = if count == 1.0 { one.named.clone() } else { format!("{count} x {}", one.named) };
    Some(Reading { literal, named, ..one })
}
