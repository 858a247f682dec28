//! Where the amount of a line ends and the name begins. What an amount is the readers of `units` and of the card say.

use crate::input::{key, quoted};
use crate::larder::spoken::taken_of;
use crate::units::display::short;
use crate::units::literal::read;
use crate::units::{Literal, in_grams, in_millilitres, measured_by_hand};

use super::double::{MOST_WORDS, asked_at_the_end, asked_at_the_start, is_double, question};
use super::how_many::counts;
use super::names::Names;
use super::number_behind::number_behind;
use super::of_fruit::of_fruit;
use super::words::WordList;
use crate::units::amount_range::{AmountRange, range};

/// What a line says of how much.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Split {
    /// An amount as a card takes it, what it is of, and what was taken for granted.
    Amount { amount: String, name: String, assumed: Option<String> },
    /// There is one that cannot be read: what to ask.
    Unread(String),
    /// None.
    Nothing,
}

/// What is measured by hand has so many words at the most: "cuillère à soupe".
const MOST_MEASURE_WORDS: usize = 3;

pub(super) fn split(text: &str, names: Names<'_>) -> Split {
    if let Some((amount, name)) = of_fruit(text, names) {
        return Split::Amount { amount, name, assumed: None };
    }
    let words: Vec<&str> = text.split(' ').collect();
    if let Some(range) = range(&words) {
        return in_the_middle(&range, names);
    }
    if let Some(found) = said_twice(text, names) {
        return found;
    }
    if let Some(sum) = summed(text, names) {
        return sum;
    }
    if let Some(counted) = number_behind(&words, names) {
        return split(&counted, names);
    }
    if let Some(half) = of_half(&words, names) {
        return split(&half, names);
    }
    if let Some(one) = of_one(&words, names) {
        return split(&one, names);
    }
    let behind = at_the_end(&words, names);
    let before = at_the_start(&words, names);
    let found = match (before, behind) {
        // "40 % vodka 700 ml": a share of the weight is seldom meant where there is another amount
        (Some((Literal::Percent(_), ..)), Some(behind)) => Some(behind),
        (Some((_, amount, name)), _) => Some((amount, name)),
        (None, behind) => behind,
    };
    if let Some((amount, name)) = found {
        if let Some(asks) = two_amounts(&name, &amount, names) {
            return Split::Unread(asks);
        }
        let name = without_measure(bare_name(&name), names);
        let name = names.without_packed(&name).map_or(name.clone(), str::to_owned);
        if let Some((amount, name)) = in_pounds_and_ounces(&amount, &name, names) {
            return split(&format!("{amount} {name}"), names);
        }
        if let Some(more) = in_two_units(&amount, &name, names) {
            return Split::Unread(format!("{amount} {more} is one amount: write it in one unit"));
        }
        if name.is_empty() {
            return Split::Unread(format!("{amount} of what?"));
        }
        let plain = names.plainly(&amount);
        if plain.is_none()
            && let Some([thousands, as_it_stands]) = names.with_a_point(&amount)
        {
            let of = key(&name);
            let both = format!("{of} = \"{thousands}\", or {of} = \"{as_it_stands}\"");
            return Split::Unread(format!("{amount} has two readings: {both}"));
        }
        let assumed = plain.as_ref().map(|_| format!("{amount}, as the other numbers of the text show their commas"));
        let amount = plain.unwrap_or(amount);
        return match names.refusal(&name, &amount) {
            None => Split::Amount { amount, name, assumed },
            Some(why) => Split::Unread(question(&why)),
        };
    }
    if let Some(why) = asked_at_the_start(&words, names).or_else(|| asked_at_the_end(&words, names)) {
        return Split::Unread(why);
    }
    if let Some(thing) = taken_of(text) {
        let name = names.plain(&thing).unwrap_or(thing);
        let amount = taken_from_the_fruit(text);
        return match names.refusal(&name, &amount) {
            None => Split::Amount { amount, name, assumed: None },
            Some(_) => Split::Unread(format!("how many g or ml of {name} is that?")),
        };
    }
    counted(text, &words, names)
}

/// "Water 250 ml 1 L" of two columns, "Eau 2 500 g" with a space between the thousands: which of the two, nobody but the maker knows.
fn two_amounts(name: &str, amount: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = name.split(' ').collect();
    let is_all_size = |all: [&str; 2]| all.iter().all(|said| names.reads(said).is_ok_and(is_size));
    let is_size_too = |other: &str| !names.is_from_a_card() && is_all_size([other, amount]);
    let cut = |n: usize| {
        let (front, other) = words.split_at_checked(n)?;
        let other = joined(other);
        other.starts_with(|c: char| c.is_numeric()).then(|| (bare_name(&joined(front)), other))
    };
    let mut cuts = (1..words.len()).filter_map(cut);
    let sized = cuts.clone().find(|(front, other)| front.contains(char::is_alphabetic) && is_size_too(other));
    let (front, other) = sized.or_else(|| cuts.find(|(front, _)| names.knows(front)))?;
    let of = key(&front);
    if is_size_too(&other) {
        return Some(format!("two amounts: which one? {of} = {}, or {of} = {}", quoted(&other), quoted(amount)));
    }
    let digits = |text: &str| text.chars().take_while(char::is_ascii_digit).count();
    let is_group = digits(amount) == 3 && !amount.chars().nth(3).is_some_and(|c| matches!(c, '.' | ',' | '/'));
    let is_parted = digits(&other) == other.len() && other.len() <= 3 && is_group;
    let whole = format!("{other}{amount}");
    let both = || format!("{other} {amount} has two readings: {of} = {}, or {of} = {}", quoted(&whole), quoted(amount));
    (is_parted && names.reads(amount).is_ok_and(is_size)).then(both)
}

/// "2-3 lemons" are two and a half, near enough for what a kitchen counts; which end of a wide one nobody but the maker knows.
fn in_the_middle(range: &AmountRange, names: Names<'_>) -> Split {
    let Split::Amount { amount, name, .. } = split(&range.middle, names) else {
        return Split::Unread(format!("{} is a range: which one?", range.said));
    };
    let middle = format!("{} = {}", key(&name), quoted(&amount));
    match range.is_narrow {
        true => Split::Amount { amount, name, assumed: Some(format!("the middle of {}", range.said)) },
        false => Split::Unread(format!("{} is a range: which one? In the middle: {middle}", range.said)),
    }
}

/// "2 qt + 1/2 cup water": both are of one thing.
fn summed(text: &str, names: Names<'_>) -> Option<Split> {
    let (first, rest) = text.split_once(" + ")?;
    let begins = |text: &str| text.starts_with(|c: char| c.is_numeric());
    let one = names.reads(first);
    let is_amount = one.as_ref().map_or_else(is_double, |read| is_size(*read));
    if !begins(first) || !begins(rest) || !is_amount {
        return None;
    }
    let asks =
        || Split::Unread(format!("{first} and what stands behind it are one amount: write it in one unit, g or ml"));
    let Split::Amount { amount, name, .. } = split(rest, names) else { return Some(asks()) };
    let sum = match (one, names.reads(&amount)) {
        (Ok(Literal::Mass(a)), Ok(Literal::Mass(b))) => format!("{} g", short(in_grams(a + b))),
        (Ok(Literal::Volume(a)), Ok(Literal::Volume(b))) => format!("{} ml", short(in_millilitres(a + b))),
        _ => return Some(asks()),
    };
    let assumed = Some(format!("{first} and {amount} together"));
    Some(Split::Amount { amount: sum.replace(',', ""), name, assumed })
}

/// "Mezzo litro di acqua", "half a litre of water" in figures.
fn of_half(words: &[&str], names: Names<'_>) -> Option<String> {
    // what a card reads so stands as it is
    if at_the_start(words, names).is_some() {
        return None;
    }
    let words = if words.first().is_some_and(|one| WordList::One.has(one)) { words.get(1..)? } else { words };
    let (half, rest) = words.split_first()?;
    let is_small = |word: &&&str| WordList::One.has(word) || word.eq_ignore_ascii_case("a");
    let rest = rest.get(rest.iter().take(1).take_while(is_small).count()..)?;
    let text = format!("0.5 {}", joined(rest));
    let is_read = || at_the_start(&text.split(' ').collect::<Vec<_>>(), names).is_some_and(|(read, ..)| is_size(read));
    (WordList::HalfOf.has(half) && is_read()).then_some(text)
}

/// "480ml/2 cups water": one amount in two units; the first of them counts.
fn said_twice(text: &str, names: Names<'_>) -> Option<Split> {
    let (first, again) = text.split_once('/')?;
    let (first, again) = (first.trim(), again.trim());
    let is_twice = names.reads(first).is_ok_and(is_size) && again.starts_with(|c: char| c.is_numeric());
    let asks = || Split::Unread(format!("{first} or what stands behind it: write one of them"));
    is_twice.then(|| match split(again, names) {
        Split::Amount { amount, name, .. } => {
            let assumed = Some(format!("{first}, and not {amount} again"));
            Split::Amount { amount: first.to_owned(), name, assumed }
        }
        _ => asks(),
    })
}

/// "Juice of 4 limes" of "freshly squeezed juice of the 4 limes".
fn taken_from_the_fruit(text: &str) -> String {
    let (front, behind) = text.split_once(" of ").or_else(|| text.split_once(" from ")).unwrap_or((text, ""));
    let taken = front.rsplit(' ').next().unwrap_or(front);
    let counts = |rest: &&str| rest.starts_with(|c: char| c.is_numeric());
    let behind = behind.strip_prefix("the ").filter(counts).unwrap_or(behind);
    if behind.is_empty() { text.to_owned() } else { format!("{} of {behind}", taken.to_lowercase()) }
}

/// "1 lb 4 oz sugar": what stands between the first amount and the name is more of the same.
fn in_two_units(amount: &str, name: &str, names: Names<'_>) -> Option<String> {
    let mut words = name.split(' ');
    let number = words.next().filter(|number| number.starts_with(|c: char| c.is_ascii_digit()))?;
    // "1kg 200g sugar"
    let more = match number.parse::<f64>() {
        Ok(_) => format!("{number} {}", words.next()?),
        Err(_) => number.to_owned(),
    };
    let is_more = names.reads(&more).map_or_else(|e| is_double(&e), is_size);
    (is_more && words.next().is_some() && names.reads(amount).is_ok_and(is_size)).then_some(more)
}

/// "1lb 2oz sugar": behind pounds an ounce is one by weight, and both are one amount in grams.
fn in_pounds_and_ounces(amount: &str, name: &str, names: Names<'_>) -> Option<(String, String)> {
    let more = in_two_units(amount, name, names)?;
    let is_pounds = read(amount).is_ok_and(|read| read.measure.is_some_and(|measure| measure.name == "lb"));
    let Ok(Literal::Mass(pounds)) = names.reads(amount) else { return None };
    let ounces = more.trim_end_matches('.').strip_suffix("oz").map(|number| format!("{} oz wt", number.trim()))?;
    let Ok(Literal::Mass(ounces)) = names.reads(&ounces) else { return None };
    let rest = name.strip_prefix(&*more).filter(|_| is_pounds)?.trim_start();
    Some((format!("{} g", short(in_grams(pounds + ounces)).replace(',', "")), rest.to_owned()))
}

pub(super) fn is_size(literal: Literal) -> bool {
    matches!(literal, Literal::Mass(_) | Literal::Volume(_))
}

/// What stands for an amount in a list; "all the sugar" is one only in the text of a card.
fn is_amount(literal: Literal, names: Names<'_>) -> bool {
    use Literal::{AsNeeded, Bottles, Concentration, Mass, Parts, Percent, Pieces, Volume, VolumeShare};
    matches!(
        literal,
        Mass(_)
            | Volume(_)
            | Bottles(..)
            | Pieces(_)
            | Parts(..)
            | Concentration(_)
            | VolumeShare(_)
            | Percent(_)
            | AsNeeded
    ) || literal == Literal::All && names.is_from_a_card()
}

fn joined(words: &[&str]) -> String {
    words.join(" ")
}

fn at_the_start(words: &[&str], names: Names<'_>) -> Option<(Literal, String, String)> {
    let most = MOST_WORDS.min(words.len());
    (1..=most).rev().find_map(|n| {
        let (amount, name) = words.split_at_checked(n)?;
        let amount = joined(amount);
        // "el azúcar" is no spoon of it
        let is_article = WordList::Article.has_as_written(&amount);
        let read =
            names.reads(&amount).ok().filter(|read| is_amount(*read, names) && !is_article && !fills(&amount))?;
        Some((read, amount, joined(name)))
    })
}

fn at_the_end(words: &[&str], names: Names<'_>) -> Option<(String, String)> {
    let fewest = words.len().saturating_sub(MOST_WORDS).max(1);
    (fewest..words.len()).find_map(|n| {
        let (name, amount) = words.split_at_checked(n)?;
        let amount = joined(amount);
        let amount = without_leader(&amount);
        let amount = amount.strip_prefix('(').and_then(|inner| inner.strip_suffix(')')).unwrap_or(amount);
        names.reads(amount).ok().filter(|read| is_amount(*read, names) && !fills(amount))?;
        Some((amount.to_owned(), joined(name)))
    })
}

/// An amount without what leads to it: "Gin ..... 50 ml". The point of ".5 g" belongs to the number.
fn without_leader(amount: &str) -> &str {
    let bare = amount.trim_start_matches(['=', ':', '-', '–', '—', '.', '…', ' ']);
    let led = amount.strip_suffix(bare).unwrap_or_default();
    let is_point = led.ends_with('.') && !led.ends_with("..") && bare.starts_with(|c: char| c.is_ascii_digit());
    if is_point { amount.get(led.len() - 1..).unwrap_or(bare) } else { bare }
}

/// "Auf 500 ml auffüllen": a word that fills up is the verb of a sentence, and no amount of a line.
fn fills(amount: &str) -> bool {
    [WordList::Fill, WordList::ToppedUp, WordList::Open].iter().any(|list| list.has(amount))
}

/// "pinch salt", "a good pinch of salt", "strip of lemon peel": one of it, in the words of an amount.
fn of_one(words: &[&str], names: Names<'_>) -> Option<String> {
    let (begins, rest) = words.split_first()?;
    // the reader of a card takes "a pinch" as it stands, and no "una pizca"
    let is_foreign = WordList::One.has(begins);
    let begins_one = is_foreign || matches!(begins.to_lowercase().as_str(), "a" | "an" | "one" | "1");
    let rest = if begins_one { rest } else { words };
    let sized = rest.first().is_some_and(|word| WordList::Size.has(word));
    let rest = if sized { rest.get(1..)? } else { rest };
    // "cuillère à soupe"
    let is_measure = |n: &usize| rest.get(..*n).is_some_and(|by| measured_by_hand(&joined(by)));
    let (by, of) = rest.split_at_checked((2..=MOST_MEASURE_WORDS).rev().find(is_measure).unwrap_or(1))?;
    let by = &joined(by);
    let is_by_hand = measured_by_hand(by) && !WordList::Article.has_as_written(by)
        || WordList::Handful.has_singular(by)
        || is_foreign && counts(by);
    let has_of = of.first().is_some_and(|word| word.eq_ignore_ascii_case("of") || WordList::Of.has(word));
    // "slice lemon" is a step
    let is_noun = has_of || !WordList::Step.has(by) && names.knows(&joined(of));
    (is_by_hand && is_noun && (sized || is_foreign || !begins_one)).then(|| format!("1 {}", joined(rest)))
}

/// "A thumb of fresh ginger", "a good glug of brandy" of which the weight or the volume is told besides.
fn without_measure(name: String, names: Names<'_>) -> String {
    // "a thumb of fresh ginger, about 40 g", "a good glug of brandy, say 50 ml"
    let bare = name.rsplit_once(", ").filter(|(_, about)| WordList::About.has(about)).map_or(&*name, |(bare, _)| bare);
    let words: Vec<&str> = bare.split(' ').collect();
    let begins = words.first().is_some_and(|one| WordList::One.has(one) || one.eq_ignore_ascii_case("a"));
    let of = words.iter().take(MOST_WORDS).position(|of| of.eq_ignore_ascii_case("of") || WordList::Of.has(of));
    let by_hand = of.and_then(|of| words.get(1..of)).is_some_and(|by| {
        let sized = by.iter().take_while(|word| WordList::Size.has(word)).count();
        by.len() == sized + 1
    });
    let thing = of.filter(|_| begins && by_hand && !names.knows(&name)).and_then(|of| words.get(of + 1..));
    thing.map(joined).filter(|thing| names.knows(thing) || names.plain(thing).is_some()).unwrap_or(name)
}

/// A name without what joins it to its amount.
fn bare_name(name: &str) -> String {
    let name = name.trim_matches(|c: char| matches!(c, ' ' | ':' | '=' | '-' | '–' | '—' | '.' | '…' | ',' | ';'));
    let of = ["of ", "Of ", "de ", "d'", "d’", "di "];
    of.iter().find_map(|of| name.strip_prefix(of)).unwrap_or(name).trim().to_owned()
}

/// "2 cinnamon sticks", "3 glugs of rum": a number, and words that are no unit.
fn counted(text: &str, words: &[&str], names: Names<'_>) -> Split {
    let numbers = (1..words.len()).rev().find(|&n| {
        let read = words.get(..n).and_then(|front| names.reads(&joined(front)).ok());
        matches!(read, Some(Literal::Number(_)))
    });
    let whole = numbers.map_or(words, |n| words.get(n..).unwrap_or_default());
    let name = bare_name(&joined(whole));
    // An amount may name the thing again: the reader of a card knows.
    let named = (0..=MOST_MEASURE_WORDS.min(whole.len())).flat_map(|cut| {
        let front = whole.get(..whole.len() - cut).map(joined).filter(|_| cut <= 1);
        // "4 large sprigs rosemary", and no "3:1 with water"
        let is_told = cut <= 1 || whole.iter().take(cut).all(|word| counts(word));
        let back = whole.get(cut..).map(joined).filter(|_| is_told);
        let behind_of = name.split_once(" of ").map(|(_, thing)| thing.to_owned());
        [front, back, behind_of]
    });
    let mut named = named.flatten().map(|name| bare_name(&name)).filter(|name| names.knows(name));
    if let Some(name) = named.find(|name| names.refusal(name, text).is_none()) {
        return Split::Amount { amount: text.to_owned(), name, assumed: None };
    }
    let Some(n) = numbers else { return unreadable(words) };
    let number = joined(words.get(..n).unwrap_or_default());
    let pieces = |name: String, assumed: String| match names.refusal(&name, &format!("{number} each")) {
        None => Split::Amount { amount: format!("{number} each"), name, assumed: Some(assumed) },
        Some(why) => Split::Unread(question(&why)),
    };
    let bare = name.split(',').next().unwrap_or_default().trim();
    if names.knows(bare) || names.plain(bare).is_some() {
        return pieces(name.clone(), "a number without a unit counts pieces".to_owned());
    }
    if let Some((thing, by)) = bare.rsplit_once(' ')
        && WordList::Counted.has_singular(by)
        && names.knows(thing)
    {
        let note = name.get(bare.len()..).unwrap_or_default();
        return pieces(format!("{thing}{note}"), format!("each {by} is a piece of {thing}"));
    }
    match whole {
        [unit, of, thing @ ..] if of.eq_ignore_ascii_case("of") => {
            Split::Unread(format!("how many g or ml of {} are {number} {unit}?", joined(thing)))
        }
        _ => Split::Unread(format!("how much is that in g or ml, or \"{number} each\" of what?")),
    }
}

/// Words in front of which no number stands that could be read: silent unless they begin like an amount.
fn unreadable(words: &[&str]) -> Split {
    const NUMBERS: &[&str] = &["a", "an", "one", "two", "three", "four", "five", "six", "half", "several"];
    let first = words.first().map(|word| word.to_lowercase()).unwrap_or_default();
    let is_number = NUMBERS.contains(&first.as_str()) && words.len() > 1;
    match is_number || first.starts_with(|c: char| c.is_numeric()) {
        true => Split::Unread("how much is that in g or ml?".to_owned()),
        false => Split::Nothing,
    }
}
