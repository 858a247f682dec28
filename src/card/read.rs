//! A card from its text.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, keep_first, line_and_column};
use crate::input::{self, FileReader, Laid};

use super::check;
use super::layout::HINTS;
use super::model::Card;

/// A card is a page of text: no file larger than this is read (bytes).
pub const LARGEST: usize = 256_000;

/// Reads a card and says everything that is wrong with it and can be known without a larder. There
/// is a card whenever its name and at least one part could be read, so that later checks can go on;
/// it may be solved only where none of the findings is an error.
pub fn read(file: Arc<str>, text: Arc<str>) -> (Option<Card>, Vec<Diagnostic>) {
    if text.len() > LARGEST {
        let title = format!("the file is {} kB; a card has at most {} kB", text.len().div_ceil(1000), LARGEST / 1000);
        let found = Diagnostic::error(Code::TooLarge, title).help("it was not read: is it really a card?");
        return (None, vec![found.in_file(&file)]);
    }
    let mut found = Vec::new();
    let table = input::parse(&text, &mut found);
    let broken = !found.is_empty();
    let mut reader = FileReader { text: &text, hints: &HINTS, found };
    let read = Card::LAYOUT.read(&table, &mut reader);
    let card = Card { file: Arc::clone(&file), text: Arc::clone(&text), ..read };
    check::named::<Card>(&table, "the card", Span::default(), &mut reader);
    check::check(&card, &table, &mut reader);
    let mut found = reader.found;
    if broken {
        drop_consequences(&text, &mut found);
    }
    found.sort_by_key(|d| d.labels.first().map_or(0, |label| label.span.start));
    keep_first(&mut found);
    let found = found.into_iter().map(|d| d.in_file(&file)).collect();
    let readable = !card.name.value.is_empty() && !card.last.parts.is_empty();
    (readable.then_some(card), found)
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
