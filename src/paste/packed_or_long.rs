//! Lines of the list whose number is of something else than the thing: of the tin that it is poured off, of how long a piece is.

use crate::input::key;
use crate::units::is_container;
use crate::vocabulary::{Portion, Word};

use super::amounts::is_size;
use super::beside::without_brackets;
use super::names::Names;
use super::words::WordList;

/// What is poured off something that is bought in a pack.
pub(super) enum PackSaid {
    /// The line with how much comes out, and what the rest of it says.
    Size(String, String),
    /// What to ask.
    Open(String),
}

/// In what a thing is bought that another is poured off.
const PACKS: [Portion; 3] = [Portion::Can, Portion::Jar, Portion::Carton];

/// "Aquafaba from 1 x 400 g tin of chickpeas (about 130 ml)": what the tin holds is no amount of what comes out of it.
pub(super) fn out_of_a_pack(line: &str, names: Names<'_>) -> Option<PackSaid> {
    let (text, brackets) = without_brackets(line);
    let (name, pack) = text.split_once(" from ").or_else(|| text.split_once(" aus "))?;
    let is_pack = |word: &str| Portion::parse(&word.to_lowercase()).is_some_and(|portion| PACKS.contains(&portion));
    if !names.knows(name) || !pack.split(' ').any(is_pack) {
        return None;
    }
    let bare = |inside: &String| match inside.split_once(' ') {
        Some((about, size)) if WordList::About.has(about) => size.to_owned(),
        _ => inside.clone(),
    };
    let size = brackets.iter().map(bare).find(|size| names.reads(size).is_ok_and(is_size));
    Some(match size {
        Some(size) => PackSaid::Size(format!("{size} {name}"), format!("from {pack}")),
        None => PackSaid::Open(format!("how much? {} = \"… g\"", key(name))),
    })
}

/// "1 (1-inch) piece ginger" is so long a piece of it.
pub(super) fn so_long_a_piece(text: &str, brackets: &[String]) -> Option<String> {
    let (piece, rest) = text.strip_prefix("1 ").and_then(|behind| behind.split_once(' '))?;
    let [long] = brackets else { return None };
    let unit = long.trim_start_matches(|c: char| c.is_numeric() || matches!(c, '.' | ',' | '/' | ' ' | '-'));
    let is_length = matches!(Portion::parse(unit), Some(Portion::Inch | Portion::Centimetre));
    let is_it = is_length && long.starts_with(|c: char| c.is_numeric());
    (is_it && Portion::parse(piece) == Some(Portion::Piece)).then(|| format!("{long} {piece} {rest}"))
}

/// "1 Pck. Vanillezucker": what a pack is called, written short.
pub(super) fn without_stop(line: &str) -> String {
    let mut words: Vec<&str> = line.split(' ').collect();
    if let Some(pack) = words.get_mut(1).filter(|pack| pack.ends_with('.')) {
        let bare = pack.trim_end_matches('.');
        *pack = if is_container(bare) { bare } else { pack };
    }
    words.join(" ")
}

/// "1 lata de 397 g de leche condensada" as "1 lata (397 g) leche condensada".
pub(super) fn sized_container(line: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = line.split(' ').collect();
    let is_of = |word: &&&str| WordList::Of.has(word) || word.eq_ignore_ascii_case("of");
    let (front, rest) = words.split_at_checked(2)?;
    let counts = front.first().is_some_and(|number| number.chars().all(|c| c.is_ascii_digit()));
    let rest = rest.get(rest.iter().take(1).take_while(is_of).count()..)?;
    let size =
        (1..=2).rev().find(|n| rest.get(..*n).is_some_and(|size| names.reads(&size.join(" ")).is_ok_and(is_size)))?;
    let (size, name) = rest.split_at_checked(size)?;
    let name = name.get(name.iter().take(1).take_while(is_of).count()..)?;
    let is_it = counts && is_container(front.last()?) && !name.is_empty();
    is_it.then(|| format!("{} ({}) {}", front.join(" "), size.join(" "), name.join(" ")))
}
