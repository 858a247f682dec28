//! Amounts that say their size beside the word that has none: `1 bottle (70cl)`, `2 tins (400 g each)`, `1 cup (240 ml)`,
//! `2 x 70cl bottles`.

use super::amount::{Literal, Reading};
use super::customs::Customs;
use super::error::LiteralError;
use super::number::leading;
use super::spaces::skip_spaces;
use super::{grams, in_grams, in_millilitres, millilitres};
use crate::spelling::singular;

/// What has no size of its own; a size beside it is that of one.
const CONTAINERS: [&str; 24] = [
    "bottle",
    "jar",
    "can",
    "tin",
    "carton",
    "pack",
    "packet",
    "bag",
    "box",
    "tub",
    "tube",
    "shot",
    "glass",
    "sachet",
    "pouch",
    "punnet",
    "block",
    "brick",
    "flask",
    "flasche",
    "flaschen",
    "bouteille",
    "botella",
    "bottiglia",
];
/// Words round a size that change nothing of it.
pub(super) const ABOUT: [&str; 6] = ["about ", "approx ", "approx. ", "ca. ", "~", "= "];
/// An amount and its size in brackets differ by no more than this where both are right, as a share (ours: a cup in a metric
/// cookbook is 240 or 250 ml).
const ALIKE: f64 = 0.1;

/// The reader of amounts that say nothing in brackets.
type Plain<'a> = &'a dyn Fn(&str) -> Result<Reading, LiteralError>;

/// The amount, where it is one of these.
pub(super) fn read(text: &str, customs: &Customs, plain: Plain<'_>) -> Option<Reading> {
    let trimmed = text.trim();
    let found = match trimmed.strip_suffix(')').and_then(|rest| rest.rsplit_once('(')) {
        Some((front, inside)) => in_brackets(front.trim(), inside.trim(), customs, plain),
        None => before_its_container(trimmed, customs, plain),
    };
    found.map(|reading| Reading { text: text.to_owned(), ..reading })
}

/// `1 bottle (70cl)`, `10 shots (30 ml each)`, `4 limes (120 ml)`.
fn in_brackets(front: &str, inside: &str, customs: &Customs, plain: Plain<'_>) -> Option<Reading> {
    let (said, of_each) = match ["each", "apiece"].iter().find_map(|each| inside.strip_suffix(each)) {
        Some(said) => (said.trim(), Some(true)),
        None => match ["in all", "in total", "total"].iter().find_map(|all| inside.strip_suffix(all)) {
            Some(said) => (said.trim(), Some(false)),
            None => (inside, None),
        },
    };
    let said = ABOUT.iter().find_map(|about| said.strip_prefix(about)).unwrap_or(said).trim();
    let size = plain(said).ok().filter(|size| amount(size).is_some())?;
    if let Ok(whole) = plain(front)
        && let (Some((mass, told)), Some((of_size, sized))) = (amount(&whole), amount(&size))
    {
        // `2 cups (480 ml)` says one thing twice; what contradicts itself is left to the reader.
        let agrees = mass != of_size || (told / sized - 1.0).abs() <= ALIKE;
        // the bottle of a house gives way to the one that stands there
        if agrees || !is_container(front) {
            return (agrees && of_each != Some(true)).then_some(size);
        }
    }
    // what is not counted is a container, or a name: "cordial (750 ml)"
    let counted = leading(front, 0, customs).ok()?;
    let (count, end) = counted.or_else(|| is_container(front).then_some((1.0, 0)))?;
    let words = front.get(end..)?.trim();
    let in_words = !words.is_empty() && words.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || c == '-');
    let each = of_each.unwrap_or_else(|| count == 1.0 || is_container(words));
    in_words.then(|| if each { times(count, size) } else { Some(size) }).flatten()
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

/// An amount without the word that says it is none to the millilitre.
pub(crate) fn without_about(text: &str) -> &str {
    ABOUT.iter().find_map(|about| text.trim_start().strip_prefix(about)).unwrap_or(text)
}

/// Whether the last of some words is what has no size of its own.
pub(crate) fn is_container(words: &str) -> bool {
    let last = words.rsplit(' ').next().unwrap_or_default();
    CONTAINERS.contains(&singular(&last.to_lowercase()).as_str())
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
