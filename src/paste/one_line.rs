//! A list of parts on one line, and what is done behind it.

use crate::units::{Literal, literal};

use super::amounts::is_size;
use super::beside::is_ratio;
use super::clean::PastedLine;
use super::double::is_double;
use super::each::each;
use super::keys;
use super::names::Names;
use super::one_in_other::one_in_other;
use super::part::{PartSaid, part};
use super::served::told_above;
use super::waited::begins_with_time;
use super::words::WordList;
use crate::larder::spoken::{is_said_apart, taken_of};

/// A list of parts on one line, a line each: "2 parts sugar / 1 part water"; a title may stand before it.
pub(super) fn one_by_one(line: PastedLine, names: Names<'_>) -> Vec<PastedLine> {
    if told_above(&line.text).is_some() {
        return vec![line];
    }
    let begins_with_ratio = line.text.split(' ').next().is_some_and(is_ratio);
    let parted = || line.text.split_once([':', '–', '—']).filter(|_| !begins_with_ratio);
    let (title, list) = match parted().or_else(|| line.text.split_once(" - ")) {
        Some((title, list)) if !title.trim().is_empty() => (Some(title.trim()), list.trim()),
        _ => (None, line.text.as_str()),
    };
    let is_part = |piece: &str| {
        let begins = piece.starts_with(|c: char| c.is_numeric());
        // "500 ml rum, 54% abv"
        let is_strength =
            matches!(literal::parse(piece), Ok(Literal::Abv(_) | Literal::Proof(_) | Literal::Percent(_)));
        begins && !is_strength && has_amount(piece, names)
    };
    // "250 ml Gin, 20 ml Rum und eine Prise Salz dazugeben" is a sentence
    let is_told = line.text.split(' ').any(|word| WordList::PutIn.has(word));
    let pieces = |list: &str| {
        // "2:1 demerara - 1000 g demerara : 500 g water"
        let colon = begins_with_ratio.then_some(" : ");
        [" / ", " + ", "; ", ", "].into_iter().chain(colon).find_map(|mark| {
            let mut pieces: Vec<String> = list.split(mark).map(|piece| piece.trim().to_owned()).collect();
            // "500 g sugar, 500 ml water and 20 g citric acid"
            if let Some(last) = pieces.pop_if(|_| mark == ", ") {
                let both = parted_by_and(&last).filter(|both| both.iter().all(|piece| is_part(piece)));
                pieces.extend(both.map_or_else(|| vec![last], Vec::from));
            }
            pieces.iter_mut().for_each(|piece| *piece = piece.trim_end_matches('.').to_owned());
            (pieces.len() > 1 && pieces.iter().all(|piece| is_part(piece))).then_some(pieces)
        })
    };
    // "1/2 vanilla pod, 5 cloves, almonds 50 g, juice of a lime": most pieces have a number, and what cannot be read of them is asked
    let by_comma = |text: &str| {
        let pieces: Vec<String> = text.split(", ").map(|piece| piece.trim().trim_end_matches('.').to_owned()).collect();
        let has_number = |piece: &String| {
            let words = piece.split(|c: char| !c.is_alphabetic()).any(|word| word.chars().count() > 2);
            words && piece.contains(|c: char| c.is_ascii_digit() || "½¼¾⅓⅔".contains(c))
        };
        let read = pieces.iter().filter(|piece| has_amount(piece, names)).count();
        let begins = pieces.first().is_some_and(has_number);
        let is_list =
            pieces.len() > 2 && read > 1 && (pieces.iter().all(has_number) || begins && 2 * read > pieces.len());
        // "250 g ginger, peeled and grated, 500 ml water"
        let together = |mut all: Vec<String>, piece: String| {
            match all.last_mut().filter(|_| is_said_apart(&piece)) {
                Some(before) => *before = format!("{before}, {piece}"),
                None => all.push(piece),
            }
            all
        };
        is_list.then(|| pieces.into_iter().fold(Vec::new(), together))
    };
    let plain = |text: String| PastedLine { text, numbered: false, heading: false };
    // "2 cups honey, 1 cup water. Warm and stir."
    if let Some((front, steps)) = steps_behind(&line.text).filter(|(front, _)| is_list(front) && !line.numbered) {
        let front = one_by_one(PastedLine { text: front.to_owned(), ..line.clone() }, names);
        return front.into_iter().chain([plain(steps.to_owned())]).collect();
    }
    if let Some(all) = each(&line.text, names).filter(|_| !line.numbered) {
        return all.into_iter().map(plain).collect();
    }
    if let Some(both) = both_of_fruit(&line.text).filter(|both| both.iter().all(|piece| is_part_of_fruit(piece, names)))
    {
        return both.map(plain).into();
    }
    if let Some(all) = of_each_fruit(&line.text).filter(|all| all.iter().all(|piece| is_part_of_fruit(piece, names))) {
        return all.into_iter().map(plain).collect();
    }
    if let Some(both) = one_in_other(&line.text, names).filter(|_| !line.numbered) {
        return both.map(plain).into();
    }
    // the list may end in its basis behind a comma: "…/ 1 part vinegar, by weight"
    let list = list.trim_end_matches('.');
    let (list, basis) = match list.rsplit_once(", ").filter(|(_, last)| pieces_basis(last)) {
        Some((list, basis)) => (list, Some(basis.to_owned())),
        None => (list, None),
    };
    // "Milk punch; 500 ml milk; 200 ml rum; nutmeg": most of what is parted so is read, and the rest is asked by itself
    let by_semicolon = |text: &str| {
        let pieces: Vec<String> = text.split("; ").map(|piece| piece.trim().trim_end_matches('.').to_owned()).collect();
        let read = pieces.iter().filter(|piece| has_amount(piece, names)).count();
        (pieces.len() > 2 && read > 1 && 2 * read >= pieces.len()).then_some(pieces)
    };
    // "5 oranges amères + 1 citron": what cannot be read of them is asked, each by itself
    let by_plus = |text: &str| {
        let pieces: Vec<String> = text.split(" + ").map(|piece| piece.trim().to_owned()).collect();
        let counts = |piece: &String| {
            let mut words = piece.split(' ').filter(|word| !word.is_empty());
            let is_number = words.next().is_some_and(|number| number.chars().all(|c| c.is_ascii_digit()));
            let is_amount = names.reads(piece).map_or_else(|e| is_double(&e), is_size);
            is_number && !is_amount && words.next().is_some_and(|word| word.chars().count() > 2)
        };
        (pieces.len() > 1 && pieces.iter().all(counts)).then_some(pieces)
    };
    // "2 parts demerara to 1 part water"
    let in_other = || one_in_other(list, names).map(Vec::from);
    match pieces(list)
        .or_else(|| by_semicolon(list))
        .or_else(|| by_comma(list))
        .or_else(|| by_plus(list))
        .or_else(in_other)
    {
        Some(pieces) if !line.numbered && !is_told => {
            // "2:1 demerara" in front of a list is what it is called
            let is_heading = line.heading || begins_with_ratio;
            let title = title.map(|title| PastedLine { heading: is_heading, ..plain(title.to_owned()) });
            title.into_iter().chain(pieces.into_iter().chain(basis).map(plain)).collect()
        }
        _ => vec![line],
    }
}

fn parted_by_and(text: &str) -> Option<[String; 2]> {
    let words: Vec<&str> = text.split(' ').collect();
    let at = words.iter().position(|word| WordList::And.has(word) && !word.starts_with('('))?;
    Some([words.get(..at)?.join(" "), words.get(at + 1..)?.join(" ")])
}

/// A line in two, where behind a full stop a sentence begins that does something, or says how long.
pub(super) fn steps_behind(text: &str) -> Option<(&str, &str)> {
    let mut stops =
        text.match_indices(". ").filter_map(|(at, stop)| Some((text.get(..at)?, text.get(at + stop.len()..)?)));
    let begins = |behind: &str| behind.split(' ').next().is_some_and(|first| WordList::Step.has(first));
    stops.find(|(_, behind)| begins(behind) || begins_with_time(behind))
}

/// Whether it begins with an amount, behind a title or without one.
pub(super) fn is_list(text: &str) -> bool {
    let begins = |text: &str| text.trim_start().starts_with(|c: char| c.is_numeric());
    begins(text) || text.split_once(':').is_some_and(|(_, list)| begins(list))
}

/// "Zest and juice of 2 limes", "2 limes, zest & juice" are two parts.
fn both_of_fruit(text: &str) -> Option<[String; 2]> {
    let behind = || text.split_once(", ").or_else(|| text.split_once(" - ")).map(|(fruit, both)| (both, fruit));
    let (both, of) = text.split_once(" of ").or_else(behind)?;
    let both = both.to_lowercase().replace("finely ", "").replace("grated ", "").replace(['&', '+'], "and");
    let (one, other) = both.split_once(" and ")?;
    Some([format!("{one} of {of}"), format!("{other} of {of}")])
}

/// "Juice of 2 lemons + 1 lime", "zest of 1 orange and 2 limes": the same of each.
fn of_each_fruit(text: &str) -> Option<Vec<String>> {
    let (taken, fruit) = text.split_once(" of ")?;
    let fruit = fruit.replace([',', '&'], " + ").replace(" and ", " + ");
    let all: Vec<&str> = fruit.split(" + ").map(str::trim).filter(|piece| !piece.is_empty()).collect();
    let counts = |piece: &&str| piece.starts_with(|c: char| c.is_numeric());
    (all.len() > 1 && all.iter().all(counts)).then(|| all.iter().map(|piece| format!("{taken} of {piece}")).collect())
}

fn is_part_of_fruit(piece: &str, names: Names<'_>) -> bool {
    taken_of(piece).is_some() && has_amount(piece, names)
}

fn has_amount(piece: &str, names: Names<'_>) -> bool {
    matches!(part(piece, names), PartSaid::Part(part) if part.amount.is_some())
}

fn pieces_basis(text: &str) -> bool {
    keys::basis(text).is_some() && text.split(' ').count() <= 3
}
