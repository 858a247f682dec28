//! One line of the list of parts: how much, of what, and what else it says.

use super::amounts::{Split, split};
use super::beside::{bracket, more, says_strained_out, without_brackets};
use super::double::{bought_or_goes_in, each_or_all};
use super::draft::{DraftPart, Remark};
use super::multiplied::{all_of_them, so_many_times};
use super::names::Names;
use super::packed_or_long::{PackSaid, out_of_a_pack, sized_container, so_long_a_piece, without_stop};
use super::percents::without_whole;
use super::strength::{by_its_strength, of_strength};
use super::words::WordList;
use crate::larder::Form;
use crate::larder::spoken::{taken_of, without_preparation};
use crate::units::{Literal, is_container};

/// What a line of the list is.
pub(super) enum PartSaid {
    /// A part; without an amount where the recipe gives none.
    Part(DraftPart),
    /// It cannot be read: what to ask.
    Asked(String),
    /// No part.
    Nothing,
}

pub(super) fn part(line: &str, names: Names<'_>) -> PartSaid {
    if let Some((share, whole)) = without_whole(line)
        && let PartSaid::Part(mut part) = part(share, names)
    {
        part.remarks.push(Remark::Said(whole.to_owned()));
        return PartSaid::Part(part);
    }
    let Ok(all) = all_of_them(line).filter(|_| !names.knows(line)).transpose() else {
        return PartSaid::Asked("how much is that in all?".to_owned());
    };
    if let Some((all, said)) = all
        && let PartSaid::Part(mut part) = part(&all, names)
    {
        part.remarks.push(Remark::Assumed(said));
        return PartSaid::Part(part);
    }
    if let Some(found) = out_of_a_pack(line, names) {
        return match found {
            PackSaid::Size(line, note) => match part(&line, names) {
                PartSaid::Part(mut part) => {
                    part.remarks.push(Remark::Said(note));
                    PartSaid::Part(part)
                }
                said => said,
            },
            PackSaid::Open(asked) => PartSaid::Asked(asked),
        };
    }
    let line = sized_container(line, names).unwrap_or_else(|| line.to_owned());
    let (line, in_grams) = in_grams(&so_many_times(&without_stop(&line.replace("(s)", "s"))));
    let (line, about) = without_about(&line);
    let taken = [
        in_grams.then(|| "gr is taken as grams".to_owned()),
        about.map(|about| format!("{} so much, as the recipe says", about.to_lowercase())),
    ];
    match said(line, names) {
        PartSaid::Part(mut part) if part.amount.is_some() => {
            part.remarks.extend(taken.into_iter().flatten().map(Remark::Assumed));
            PartSaid::Part(part)
        }
        said => said,
    }
}

/// "About 900 g sugar", "ca. 500 g": the amount, and the word in front of it.
fn without_about(line: &str) -> (&str, Option<&str>) {
    let begins = line
        .split_once(' ')
        .filter(|(about, rest)| WordList::About.has(about) && rest.starts_with(|c: char| c.is_numeric()));
    // "300 g de sucre environ"
    let ends = || {
        line.rsplit_once(' ').filter(|(front, about)| {
            WordList::About.has(about)
                && about.chars().all(char::is_alphabetic)
                && front.starts_with(|c: char| c.is_numeric())
        })
    };
    begins
        .or_else(|| ends().map(|(front, about)| (about, front)))
        .map_or((line, None), |(about, rest)| (rest, Some(about)))
}

/// "200 gr sugar": a card asks, for a grain is written so too; nobody behind a bar weighs in grains.
fn in_grams(line: &str) -> (String, bool) {
    let mut found = false;
    let mut before = "";
    let ends_in_digits = |text: &str| text.ends_with(char::is_numeric);
    let words = line.split(' ').map(|word| {
        let bare = word.trim_end_matches('.');
        let number = bare.strip_suffix("grs").or_else(|| bare.strip_suffix("gr"));
        let grams = number.filter(|number| ends_in_digits(if number.is_empty() { before } else { number }));
        before = word;
        found |= grams.is_some();
        grams.map_or_else(|| word.to_owned(), |number| format!("{number}g"))
    });
    let words = words.collect::<Vec<_>>().join(" ");
    (words, found)
}

/// "2 c. milk": in front of a thing of a list it is a cup, where the house says which.
fn in_cups(line: &str, names: Names<'_>) -> Option<String> {
    let (number, thing) = line.split_once(" c. ").or_else(|| line.split_once(" c "))?;
    let cups = format!("{number} cup");
    // "1 c. à soupe" is a spoon
    let is_spoon = thing.split(' ').next().is_some_and(|first| WordList::CalledHow.has(first));
    let is_number = matches!(names.reads(number), Ok(Literal::Number(_))) && !is_spoon;
    (is_number && names.reads(&cups).is_ok()).then(|| format!("{cups} {thing}"))
}

fn said(line: &str, names: Names<'_>) -> PartSaid {
    if let Some(line) = in_cups(line, names) {
        return said(&line, names);
    }
    let (text, brackets) = without_brackets(line);
    // "1 (1-inch) piece ginger" is so long a piece of it
    if let Some(line) = so_long_a_piece(&text, &brackets) {
        return said(&line, names);
    }
    if let Some(question) = to_a_strength(&text, names) {
        return PartSaid::Asked(question);
    }
    if let Some(open) = WordList::Open.at_an_end(&text) {
        return open_part(&text, open, names);
    }
    // "500 g ginger, peeled and chopped": how it is cut is no part of its name
    let (text, cut) = without_taken(&text).unwrap_or_else(|| without_preparation(&text));
    // "1 bottle (70cl) cognac", "2 tins (400 g) pineapple": what stands in brackets is the size of what is counted
    let is_strength =
        |inside: &String| matches!(names.reads(inside), Ok(Literal::Percent(_) | Literal::Abv(_) | Literal::Proof(_)));
    let is_size = |inside: &String| {
        (inside.starts_with(|c: char| c.is_ascii_digit()) || WordList::OfUnit.has(inside)) && !is_strength(inside)
    };
    let brackets: Vec<String> = brackets.iter().flat_map(|inside| size_and_strength(inside, names)).collect();
    let is_sized = brackets.iter().any(is_size) && taken_of(text).is_none();
    let size = brackets.iter().find(|inside| is_size(inside)).filter(|_| is_sized);
    let behind = || each_or_all(&before_its_name(text, size?)?, names);
    if let Some(asked) = size.and_then(|_| each_or_all(line, names)).or_else(behind) {
        return PartSaid::Asked(asked);
    }
    let sized = is_sized.then(|| split(without_preparation(line).0, names));
    let sized = match sized {
        Some(Split::Amount { ref amount, .. }) if amount.contains('(') => sized,
        _ => behind_its_container(text, brackets.iter().find(|inside| is_size(inside)), names),
    };
    let (split, brackets) = match sized {
        Some(Split::Amount { amount, name, assumed }) if amount.contains('(') => {
            let rest = brackets.into_iter().filter(|inside| !amount.contains(&format!("({inside})"))).collect();
            (Split::Amount { amount, name, assumed }, rest)
        }
        _ => of_fruit_in_brackets(text, cut, brackets, names),
    };
    match split {
        Split::Amount { amount, name, assumed } => {
            let (amount, name, brackets) = by_weight(amount, name, brackets, names);
            if let Some(asked) = bought_or_goes_in(&amount, &name, &brackets, names) {
                return PartSaid::Asked(asked);
            }
            let (amount, assumed, brackets) = match as_weighed(&amount, &name, &brackets, names) {
                Some((weighed, at)) => {
                    let said = format!("the recipe's own weight of {amount}");
                    let rest = brackets.iter().enumerate().filter(|(n, _)| *n != at).map(|(_, inside)| inside.clone());
                    (weighed, Some(said), rest.collect())
                }
                None => (amount, assumed, brackets),
            };
            let is_whole = brackets.iter().any(|inside| inside.starts_with("of \""));
            let mut part = if is_whole { whole(&name) } else { named(&name, names) };
            part.amount = Some(amount);
            part.remarks.extend(cut.map(|cut| Remark::Said(cut.to_owned())));
            part.remarks.extend(assumed.map(Remark::Assumed));
            brackets.iter().for_each(|inside| bracket(inside, &mut part, names));
            part.remarks.extend(names.not_known(part.of()));
            PartSaid::Part(part)
        }
        Split::Unread(question) => PartSaid::Asked(question),
        Split::Nothing => {
            let mut part = named(text.trim_end_matches([':', '.', ',']), names);
            if !names.knows(part.of()) {
                return PartSaid::Nothing;
            }
            brackets.iter().for_each(|inside| bracket(inside, &mut part, names));
            PartSaid::Part(part)
        }
    }
}

/// "Peel of 4 grapefruit (about 90 g)", "juice of 4 limes (120 ml)": what the author weighed or measured, and which bracket says it.
fn as_weighed(amount: &str, name: &str, brackets: &[String], names: Names<'_>) -> Option<(String, usize)> {
    // of "2 cups sugar (450 g)" the author weighed it; of "1 lb (450 ml)" nothing
    let is_poured = matches!(names.reads(amount), Ok(Literal::Volume(_)));
    if !names.weighs_nothing(amount) && !is_poured
        || matches!(names.reads(amount), Ok(Literal::Parts(..) | Literal::AsNeeded | Literal::Percent(_)))
    {
        return None;
    }
    let is_liquid = || names.house.larder.find(name).is_some_and(|known| known.form == Form::Liquid);
    brackets.iter().enumerate().find_map(|(at, inside)| {
        let words = inside.split(' ').filter(|word| !WordList::About.has(word));
        let size = words.collect::<Vec<_>>().join(" ");
        let size = size.trim_start_matches(['~', '≈', '=', ' ']).trim_end_matches(" in all").trim_end_matches(" total");
        let is_size = match names.reads(size) {
            Ok(Literal::Mass(_)) => true,
            Ok(Literal::Volume(_)) => is_liquid() && !is_poured,
            _ => false,
        };
        is_size.then(|| (size.to_owned(), at))
    })
}

/// "Water to 45 %", "water to bring it down to 45 % ABV": what is poured until a strength is reached is solved for, and no share.
fn to_a_strength(text: &str, names: Names<'_>) -> Option<String> {
    let (front, reached) = text.rsplit_once(" to ").or_else(|| text.rsplit_once(", to "))?;
    let (number, behind) = reached.split_once('%')?;
    let number = number.trim().replace(',', ".");
    let value: f64 = number.parse().ok().filter(|value| (0.0..=96.0).contains(value))?;
    let lower = behind.trim().trim_start_matches('.').to_lowercase();
    let is_strength = ["", "abv", "vol", "vol.", "alcohol", "alc"].contains(&lower.as_str());
    let name = front.split([',', ' ']).next().filter(|name| is_strength && names.knows(name))?;
    Some(format!(
        "is that the strength it ends at? then {} = \"as needed\" here and abv = {value} under [target]",
        crate::input::key(name)
    ))
}

/// "70cl, 37.5%" in brackets behind a bottle are two things.
fn size_and_strength(inside: &str, names: Names<'_>) -> Vec<String> {
    let pieces: Vec<&str> = inside.split([',', ';', '/']).map(str::trim).collect();
    // "0,7 l" is one number
    let pieces = if inside.contains(", ") { inside.split(", ").map(str::trim).collect() } else { pieces };
    let reads = |piece: &&str| names.reads(piece).ok();
    let is_size = |piece: &&str| reads(piece).is_some_and(super::amounts::is_size);
    let is_strength =
        |piece: &&str| matches!(reads(piece), Some(Literal::Percent(_) | Literal::Abv(_) | Literal::Proof(_)));
    let is_both = pieces.len() == 2 && pieces.iter().any(is_size) && pieces.iter().any(is_strength);
    if is_both { pieces.into_iter().map(str::to_owned).collect() } else { vec![inside.to_owned()] }
}

/// "1 bottle gin (70cl)": the size belongs to the bottle.
fn behind_its_container(text: &str, size: Option<&String>, names: Names<'_>) -> Option<Split> {
    let found = split(&before_its_name(text, size?)?, names);
    matches!(found, Split::Amount { ref amount, .. } if amount.contains('(')).then_some(found)
}

fn before_its_name(text: &str, size: &str) -> Option<String> {
    let mut words: Vec<&str> = text.split(' ').collect();
    if words.get(2).is_some_and(|word| WordList::Of.has(word)) {
        words.remove(2);
    }
    let (front, rest) = words.split_at_checked(2).filter(|(front, _)| is_container(&front.join(" ")))?;
    Some(format!("{} ({size}) {}", front.join(" "), rest.join(" ")))
}

/// "8 oz honey by weight", "8 oz honey (by weight)" is "8 oz (by weight) honey".
fn by_weight(amount: String, name: String, brackets: Vec<String>, names: Names<'_>) -> (String, String, Vec<String>) {
    const BY_WEIGHT: &str = "by weight";
    let weighed = format!("{amount} ({BY_WEIGHT})");
    let behind = name.strip_suffix(BY_WEIGHT).map(|name| name.trim_end_matches([' ', ',']).to_owned());
    let is_said = behind.is_some() || brackets.iter().any(|inside| inside == BY_WEIGHT);
    if !is_said || !matches!(names.reads(&weighed), Ok(Literal::Mass(_))) {
        return (amount, name, brackets);
    }
    let rest = brackets.into_iter().filter(|inside| inside != BY_WEIGHT).collect();
    (weighed, behind.unwrap_or(name), rest)
}

/// "3 lemons (juiced)", "3 Zitronen (Saft)": what is taken of them may stand in brackets.
fn of_fruit_in_brackets(
    text: &str,
    cut: Option<&str>,
    mut brackets: Vec<String>,
    names: Names<'_>,
) -> (Split, Vec<String>) {
    let of_bracket = |(at, inside): (usize, &String)| Some((at, taken(text, Some(inside), names)?));
    if let Some(split) = taken(text, cut, names) {
        return (split, brackets);
    }
    if let Some((at, split)) = brackets.iter().enumerate().find_map(of_bracket) {
        brackets.remove(at);
        return (split, brackets);
    }
    (split(text, names), brackets)
}

/// "4 limes, juice", "4 limes, zest only".
fn without_taken(text: &str) -> Option<(&str, Option<&str>)> {
    let (front, cut) = text.rsplit_once(", ")?;
    let is_taken = ["juice", "juice only", "zest", "zest only"].contains(&cut) || only_taken(cut).is_some();
    is_taken.then_some((front, Some(cut)))
}

/// "Solo la scorza", "nur die Schale", "le jus", "rind only", "die Schale davon": the word of what is taken, where nothing else is said.
fn only_taken(cut: &str) -> Option<&str> {
    let is_small = |word: &&str| {
        [WordList::Article, WordList::Alone, WordList::Of].into_iter().any(|small| small.has(word))
            || ["", "the"].contains(word)
    };
    let mut said = cut.split([' ', '\'', '’']).filter(|word| !is_small(word));
    let taken = said.next().filter(|word| [WordList::Juice, WordList::Zest].into_iter().any(|list| list.has(word)))?;
    said.next().is_none().then_some(taken)
}

/// "half a lime, juiced" is the juice of it.
fn taken(text: &str, cut: Option<&str>, names: Names<'_>) -> Option<Split> {
    let cut = cut?;
    let lines = match cut {
        "juiced" | "squeezed" | "juice only" | "juice" => [format!("juice of {text}"), String::new()],
        "zested" | "grated zest" | "zest only" | "zest" => [format!("zest of {text}"), String::new()],
        _ => {
            let taken = only_taken(cut)?;
            let joint = if ["peel", "rind"].contains(&taken) { "of" } else { "de" };
            [String::new(), format!("{taken} {joint} {text}")]
        }
    };
    let mut found = lines.iter().filter(|line| !line.is_empty()).map(|line| split(line, names));
    found.find(|found| matches!(found, Split::Amount { .. }))
}

/// "salt, to taste", "soda to top".
fn open_part(text: &str, open: &str, names: Names<'_>) -> PartSaid {
    let lower = text.to_lowercase();
    let rest = match lower.starts_with(open) {
        true => text.get(open.len()..),
        false => text.get(..text.len().saturating_sub(open.len())),
    };
    let name = rest.unwrap_or_default().trim_matches([' ', ',', ':', '-', '–', '.']).trim_start_matches("with ");
    // "500 ml lemonade to top"
    if let PartSaid::Part(part) = said(name, names)
        && part.amount.is_some()
    {
        return PartSaid::Part(part);
    }
    if name.is_empty() || name.split(' ').count() > 5 {
        return PartSaid::Nothing;
    }
    let part = named(name, names);
    match open {
        // what fills up to a size is what is solved for; how much is salt to taste nobody can compute
        "to top" | "top up" | "to top up" if names.knows(part.of()) => PartSaid::Part(part),
        _ => PartSaid::Asked(format!("how much? {} = \"… g\"", crate::input::key(name))),
    }
}

/// A name as it stands: what it is of is said beside it.
fn whole(name: &str) -> DraftPart {
    let unquoted = name.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
    DraftPart { label: unquoted.unwrap_or(name).to_owned(), ..DraftPart::default() }
}

/// The part by the name that is known: "lemons, zested", "fresh lime juice". What is left of the words is a remark: a name
/// with more in it would have to be known as food.
fn named(name: &str, names: Names<'_>) -> DraftPart {
    // "fresh ginger by weight": the amount says so already
    let name = name.strip_suffix(" by weight").unwrap_or(name);
    let mut part = whole(name);
    if part.label != name || names.knows(name) {
        return part;
    }
    if let Some(known) = by_its_strength(name, names) {
        part.remarks.push(Remark::Assumed(format!("{name} is {known}")));
        part.label = known;
        return part;
    }
    let (thing, note) = match name.split_once(", ") {
        Some((thing, note)) => (thing.trim(), Some(note)),
        None => (name, None),
    };
    if let Some(known) = names.plain(thing).filter(|_| !names.knows(thing)) {
        // "fresh grated ginger, juice of a lime": what stands behind the comma may be another part
        part.remarks.push(Remark::Assumed(format!("{thing} is {known}")));
        part.remarks.extend(note.map(|note| more(&known, note, names)));
        part.label = known;
        return part;
    }
    match names.plain(name) {
        Some(known) => {
            part.label.clone_from(&known);
            part.remarks.push(Remark::Assumed(format!("{name} is {known}")));
        }
        None => match note.and_then(|note| Some((note, of_strength(thing, note, names)?))) {
            Some((note, named)) => {
                part.remarks.push(Remark::Said(note.to_owned()));
                part.label = named;
            }
            None => {
                part.label = thing.to_owned();
                let is_out = note.is_some_and(|note| says_strained_out(note, &part, names));
                part.strained = is_out.then_some(true);
                let said = |note: &str| if is_out { Remark::Said(note.to_owned()) } else { more(thing, note, names) };
                part.remarks.extend(note.map(said));
            }
        },
    }
    part
}
