//! A card that was handed over, with the cards inside it and its own ingredients in one file: `[[card]]` and `[ingredient."x"]`
//! below the card itself. Each is read from the whole text with the rest left blank, so that every place is that of the file.

use crate::diagnostic::Span;
use crate::input;

/// The file, taken apart: texts as long as it is.
pub(crate) struct Bundle {
    /// The card that was handed over.
    pub outer: String,
    /// Those inside it.
    pub cards: Vec<String>,
    /// The ingredients that they are made of.
    pub larder: String,
}

/// What a line of a bundle belongs to.
#[derive(Clone, Copy, PartialEq)]
enum Owner {
    Outer,
    Card(usize),
    Larder,
}

/// The key of a card inside a bundle, before its own headings.
const INNER: &str = "card.";

impl Bundle {
    /// `None` of a card alone, and of what is no card: a board that was kept under another name has `[ingredient."x"]` too, and says of
    /// them how they are bought.
    pub(crate) fn of(text: &str) -> Option<Self> {
        let headings = input::headings(text);
        let is_own = |heading: &str| heading == "[[card]]" || heading.starts_with("[ingredient");
        let is_card = headings.iter().any(|span| inside(text, *span).starts_with("[parts"));
        if !is_card || !headings.iter().any(|span| is_own(inside(text, *span))) {
            return None;
        }
        let mut owner = Owner::Outer;
        let mut cards = 0;
        let mut pieces = vec![(0, owner, None)];
        for span in headings {
            let heading = inside(text, span);
            owner = match heading {
                "[[card]]" => {
                    cards += 1;
                    Owner::Card(cards - 1)
                }
                _ if heading.starts_with("[ingredient") => Owner::Larder,
                _ if heading.trim_start_matches('[').starts_with(INNER) && cards > 0 => Owner::Card(cards - 1),
                _ => Owner::Outer,
            };
            pieces.push((span.start, owner, Some(span)));
        }
        let ends = pieces.iter().skip(1).map(|piece| piece.0).chain([text.len()]).collect::<Vec<_>>();
        let of = |wanted: Owner| {
            let mut own = blank(text);
            for ((start, owner, heading), end) in pieces.iter().zip(&ends) {
                let piece = text.get(*start..*end).unwrap_or_default();
                if *owner == wanted {
                    let own_piece = own_heading(piece, heading.map(|span| span.end - span.start));
                    own.replace_range(*start..*end, &own_piece);
                }
            }
            own
        };
        let inner = (0..cards).map(|n| of(Owner::Card(n))).collect();
        Some(Self { outer: of(Owner::Outer), cards: inner, larder: of(Owner::Larder) })
    }
}

/// Whether a text is more than a card alone.
pub(crate) fn is_bundle(text: &str) -> bool {
    Bundle::of(text).is_some()
}

fn inside(text: &str, span: Span) -> &str {
    text.get(span.start..span.end).unwrap_or_default()
}

/// The text with every letter blank and every line where it was.
fn blank(text: &str) -> String {
    text.bytes().map(|byte| if byte == b'\n' { '\n' } else { ' ' }).collect()
}

/// `[card.parts]` as the card itself has it, in as many bytes: `[parts]` and blanks behind the heading.
fn own_heading(piece: &str, heading: Option<usize>) -> String {
    let Some((heading, rest)) = heading.and_then(|end| piece.split_at_checked(end)) else { return piece.to_owned() };
    let marks = heading.len() - heading.trim_start_matches('[').len();
    let (open, name) = heading.split_at(marks);
    if name.starts_with("card]") {
        return format!("{}{rest}", blank(heading));
    }
    match name.strip_prefix(INNER) {
        Some(own) => format!("{open}{own}{}{rest}", " ".repeat(INNER.len())),
        None => piece.to_owned(),
    }
}
