//! How the amounts of a card are meant: as the house says, as the card says, as its other amounts show.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::{Table, Value};
use crate::units::{Basis, Comma, Customs, Literal, comma_of, literal, readers, with_a_doubtful_point};
use crate::vocabulary::Word;

/// Texts of a card that are no amounts.
const NO_AMOUNTS: [&str; 7] = ["name", "steps", "source", "notes", "food", "for_a_guest", "pours"];

/// Read before anything else: an amount in the first line may be settled by the last.
pub(super) fn of(table: &Table, house: &Customs) -> Customs {
    let text = |key: &str| table.get(key).and_then(|(_, value)| value.value.text());
    let amounts: Vec<&str> = all_amounts(table).into_iter().map(|(text, _)| text).collect();
    Customs {
        bottle: text("bottle").and_then(|bottle| readers::volume(bottle).ok()).or(house.bottle),
        ratio: text("ratio").map_or_else(|| basis_of(&amounts), Basis::parse),
        comma: comma_of(amounts),
        ..*house
    }
}

fn all_amounts(table: &Table) -> Vec<(&str, Span)> {
    let mut amounts = Vec::new();
    amounts_in(table, &mut amounts);
    amounts
}

/// A note of the numbers whose comma was settled by the others of the card; nothing where there is none.
pub(super) fn comma_said(table: &Table, customs: &Customs) -> Option<Diagnostic> {
    let said = match customs.comma? {
        Comma::Thousands => "parts thousands: other numbers of this card have a decimal point",
        Comma::Decimal => "is a decimal mark: other numbers of this card show it",
    };
    let is_asked =
        |text: &str| text.contains(',') && literal::parse(text).is_err_and(|error| error.code == Code::AmbiguousNumber);
    let settled: Vec<_> = all_amounts(table).into_iter().filter(|(text, _)| is_asked(text)).collect();
    let (first, _) = settled.first()?;
    let note = Diagnostic::note(Code::Understood, format!("the comma of `{}` {said}", first.trim()));
    Some(settled.iter().fold(note, |note, (_, span)| note.at(*span, "read so")))
}

/// The amounts with a point before three digits, to some a mark of thousands: a note where the commas of the card show that it is one,
/// asked where nothing shows it.
pub(super) fn point_said(table: &Table, customs: &Customs) -> Option<Diagnostic> {
    let all = all_amounts(table).into_iter();
    let all: Vec<_> =
        all.filter_map(|(text, span)| Some((text.trim(), with_a_doubtful_point(text.trim())?, span))).collect();
    let (first, [thousands, as_it_stands], _) = all.first()?;
    let (said, read) = match customs.comma {
        Some(Comma::Thousands) => return None,
        Some(Comma::Decimal) => {
            let title =
                format!("the point of `{first}` parts thousands: other numbers of this card have a decimal comma");
            (Diagnostic::note(Code::Understood, title), "read so")
        }
        None => {
            let title = format!("`{first}` can be read in two ways");
            let help = format!("write `{thousands}` where the point parts thousands, or `{as_it_stands}`");
            (Diagnostic::error(Code::AmbiguousNumber, title).help(help), "which of the two?")
        }
    };
    Some(all.iter().fold(said, |said, (.., span)| said.at(*span, read)))
}

fn amounts_in<'a>(table: &'a Table, amounts: &mut Vec<(&'a str, Span)>) {
    let no_amount = |key: &str| NO_AMOUNTS.contains(&key);
    for (_, value) in table.entries.iter().filter(|(key, _)| !no_amount(&key.value)) {
        match &value.value {
            Value::Text(text) => amounts.push((text, value.span)),
            Value::Table(inner) => amounts_in(inner, amounts),
            Value::List(items) => {
                items.iter().filter_map(|item| item.value.table()).for_each(|inner| amounts_in(inner, amounts));
            }
            _ => {}
        }
    }
}

/// The basis that every ratio of the card that names one has.
fn basis_of(amounts: &[&str]) -> Option<Basis> {
    let told = |text: &&str| match literal::parse(text) {
        Ok(Literal::Parts(_, basis)) => basis,
        _ => None,
    };
    let mut all = amounts.iter().filter_map(told);
    let first = all.next()?;
    all.all(|other| other == first).then_some(first)
}

/// A number that can be read in two ways, and a unit that the house settles, are asked of once, with every place where the answer
/// counts.
pub(super) fn ask_once(found: &mut Vec<Diagnostic>) {
    let of_house = |d: &Diagnostic| d.help.as_deref().is_some_and(|help| help.contains("[house] measures"));
    let asks = |d: &Diagnostic| match d.code {
        Code::AmbiguousNumber => Some(String::new()),
        // `cup` and `cups`
        Code::AmbiguousUnit if of_house(d) => Some(d.title.replace("s`", "`")),
        _ => None,
    };
    let mut kept: Vec<Diagnostic> = Vec::new();
    for one in found.drain(..) {
        let asked = asks(&one);
        match kept.iter_mut().find(|before| asked.is_some() && asks(before) == asked) {
            Some(before) => before.labels.extend(one.labels),
            None => kept.push(one),
        }
    }
    for asked in kept.iter_mut().filter(|d| asks(d).is_some() && d.labels.len() > 1) {
        asked.help = asked.help.take().map(|help| format!("{help}, and the others alike"));
    }
    *found = kept;
}
