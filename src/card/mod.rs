//! The text file that a maker writes: read with the place of every value, and checked for what
//! can be known without a larder.

pub(crate) mod model;

mod amount;
mod check;
mod customs;
mod drink;
mod heat;
mod label_on_a_line;
mod landed;
mod layout;
mod lifted;
mod open_lines;
mod property;
mod ratio;
mod room;
mod servings;
mod taken_as_strained;
mod treatment;
mod unread;

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, keep_first, line_and_column};
use crate::input::{self, FileReader, Laid};
use crate::units::Customs;
use crate::units::display::short;
use layout::HINTS;

pub use crate::properties::TargetKind;
pub(crate) use drink::ICE;
pub use landed::{Aim, Landed, LandedPart, LandedRange, OneMore, TargetRange};
pub use model::{Amount, AskedOf, Card, Drink, Ice, Keep, Loss, Makes, Part, PartBounds, Target};
pub(crate) use model::{Heated, Measured, OnNoLine, Stage};
pub(crate) use open_lines::OpenLine;
pub(crate) use property::target_value;
pub(crate) use taken_as_strained::ASSUMED;
pub(crate) use unread::unread_parts;

/// The keys of a card as a JSON Schema (draft 2020-12), from the list of keys that reads it.
///
/// ```
/// let schema = stillroom::card::schema();
/// assert_eq!(schema["properties"]["parts"]["description"], "what it is made of");
/// ```
pub fn schema() -> serde_json::Value {
    input::schema("a card", Card::LAYOUT)
}

/// A card is a page of text: no file larger than this is read (bytes).
pub const LARGEST: usize = 256_000;

/// No batch is made of more parts, those of all stages counted (ours).
pub const MOST_PARTS: usize = 1000;

/// No method is longer, in words, the steps of all stages counted (ours: six pages of it).
pub const MOST_WORDS: usize = 3000;
/// As many letters (bytes) of method as so many words have: a page of digits is no method.
pub const MOST_LETTERS: usize = 10 * MOST_WORDS;

/// Reads a card and says everything that is wrong with it and can be known without a larder. There
/// is a card whenever its name and at least one part could be read, so that later checks can go on;
/// it may be solved only where none of the findings is an error.
pub fn read(file: Arc<str>, text: Arc<str>) -> (Option<Card>, Vec<Diagnostic>) {
    read_by(file, text, &Customs::default())
}

/// The same in a house that settles how amounts are meant ([`crate::house::House::customs`]).
pub fn read_by(file: Arc<str>, text: Arc<str>, customs: &Customs) -> (Option<Card>, Vec<Diagnostic>) {
    if text.len() > LARGEST {
        let title = format!("the file is {} kB; a card has at most {} kB", text.len().div_ceil(1000), LARGEST / 1000);
        let found = Diagnostic::error(Code::TooLarge, title).help("it was not read: is it really a card?");
        return (None, vec![found.in_file(&file)]);
    }
    let mut found = Vec::new();
    let mut table = input::parse(&text, &mut found);
    let broken = !found.is_empty();
    lifted::lift(&mut table, &mut found);
    lifted::under_keep(&mut table, &mut found);
    let mut reader = FileReader::new(&text, &HINTS, found);
    reader.customs = customs::of(&table, customs);
    let read = Card::LAYOUT.read(&table, &mut reader);
    let mut card = Card { file: Arc::clone(&file), text: Arc::clone(&text), ..read };
    servings::settle(&mut card, &mut reader);
    heat::settle(&mut card);
    if let Some(too_large) = too_large(&card) {
        return (None, vec![too_large.in_file(&file)]);
    }
    reader.found.extend(customs::comma_said(&table, &reader.customs));
    reader.found.extend(customs::point_said(&table, &reader.customs));
    check::named::<Card>(&table, "the card", Span::default(), &mut reader);
    check::check(&card, &table, &mut reader);
    drink::check(&card, &table, &mut reader);
    let mut found = reader.found;
    if broken {
        drop_consequences(&text, &mut found);
    }
    found.sort_by_key(|d| d.labels.first().map_or(0, |label| label.span.start));
    customs::ask_once(&mut found);
    keep_first(&mut found);
    let found = found.into_iter().map(|d| d.in_file(&file)).collect();
    let readable = !card.name.value.is_empty() && !card.last.parts.is_empty();
    (readable.then_some(card), found)
}

/// More parts, or a longer method, than any batch has.
fn too_large(card: &Card) -> Option<Diagnostic> {
    let said = |many: usize, what: &str, most: usize, help: &str| {
        let title = format!("the card has {} {what}; at most {} are read", short(many as f64), short(most as f64));
        (many > most).then(|| Diagnostic::error(Code::TooLarge, title).help(help))
    };
    let steps = card.stages.iter().flat_map(|stage| &stage.steps).chain(&card.last.steps).chain(&card.steps);
    // "(1)(1)" is two: what is read is read word by word, spaces or not
    let words_of = |step: &str| step.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).count();
    let (words, letters) = steps.fold((0, 0), |(words, letters), step| (words + words_of(step), letters + step.len()));
    said(
        card.all_parts().count(),
        "parts",
        MOST_PARTS,
        "nobody weighs so many into one batch: put what belongs together on cards of its own, or is it no card?",
    )
    .or_else(|| {
        said(
            words,
            "words of method",
            MOST_WORDS,
            "a method fits on a page: what is remembered beside it stands in `notes`",
        )
    })
    .or_else(|| {
        said(
            letters,
            "letters of method",
            MOST_LETTERS,
            "a method fits on a page: what is remembered beside it stands in `notes`",
        )
    })
}

/// Drops what may follow from a line that could not be read: something that seems to be missing,
/// and a second finding about the same value.
fn drop_consequences(text: &str, found: &mut Vec<Diagnostic>) {
    use Code::{LoneRatio, MissingKey, NoParts, OpenAmounts, Syntax, Unused, WrongType};
    let line = |d: &Diagnostic| d.labels.first().map(|label| line_and_column(text, label.span.start).0);
    let unread: Vec<_> = found.iter().filter(|d| d.code == Syntax).map(line).collect();
    found.retain(|d| match d.code {
        MissingKey | NoParts | Unused | LoneRatio | OpenAmounts => false,
        WrongType => !unread.contains(&line(d)),
        _ => true,
    });
}
