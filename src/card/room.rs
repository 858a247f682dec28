//! Room: a target that may lie in a range, a part that has bounds, and what the card shall come out best in.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FieldKind, FieldShape, FileReader, Given, Laid, Layout, Value, layout, quoted, word};
use crate::units::{in_grams, in_grams_per_litre, in_millilitres};
use crate::vocabulary::{Prized, Spared};

use super::landed::Aim;
use super::model::{Amount, PartBounds};

/// What stands under a target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Wanted {
    Exactly(f64),
    Between { least: Option<f64>, most: Option<f64> },
}

/// The two sides of a range as they are written: "18 to 20 %", "18-20 %", "at least 18 %", "at most 20 %".
pub(super) fn sides(written: &str) -> Option<[Option<String>; 2]> {
    let text = written.trim();
    let lower = text.to_lowercase();
    let behind = |words: &[&str]| {
        let word = words.iter().find(|word| lower.starts_with(**word))?;
        text.get(word.len()..).map(|rest| rest.trim().to_owned())
    };
    if let Some(least) = behind(&["at least ", "from at least ", "min ", ">= ", "≥"]) {
        return Some([Some(least), None]);
    }
    if let Some(most) = behind(&["at most ", "up to ", "max ", "<= ", "≤"]) {
        return Some([None, Some(most)]);
    }
    let text = behind(&["between ", "from "]).unwrap_or_else(|| text.to_owned());
    let parted = |between: &str| text.split_once(between).map(|(a, b)| (a.trim().to_owned(), b.trim().to_owned()));
    let parted = [" to ", " and ", "–", "—", "-"].into_iter().find_map(parted);
    // one below nothing is a number too: that it is out of range is said of it, and not that there are two
    let is_number = |text: &str| text.strip_prefix(['-', '−']).unwrap_or(text).starts_with(is_digit);
    let (least, most) = parted.filter(|(a, b)| is_number(a) && is_number(b))?;
    // "18 to 20 %": the unit stands once, behind the second number.
    let unit =
        |text: &str| text.trim_start_matches(|c: char| is_digit(c) || matches!(c, '.' | ',' | '-' | '−')).to_owned();
    let least = if unit(&least).is_empty() { format!("{least}{}", unit(&most)) } else { least };
    Some([Some(least), Some(most)])
}

fn is_digit(c: char) -> bool {
    c.is_ascii_digit()
}

/// A target as one of its kind, or a range of two such.
pub(super) fn wanted(kind: &FieldKind<f64>, given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<Wanted> {
    let Some(sides) = given.value.value.text().and_then(sides) else {
        return kind.read(given, reader).map(Wanted::Exactly);
    };
    let mut read = |side: Option<String>| match side {
        None => Some(None),
        Some(text) => {
            let value = text.parse().map_or(Value::Text(text), Value::Number);
            let value = Spanned { value, span: given.value.span };
            let said = reader.found.len();
            let read = kind.read(&Given { value: &value, ..*given }, reader);
            // what mends one side would take the place of both
            reader.found.iter_mut().skip(said).for_each(|found| found.fix = None);
            read.map(Some)
        }
    };
    let [least, most] = sides;
    let (least, most) = (read(least)?, read(most)?);
    match (least, most) {
        (Some(low), Some(high)) if low > high => {
            let key = &given.key.value;
            let title = format!("the range of `{key}` stands upside down: from {low} to {high}");
            let written = given.value.value.text().unwrap_or_default();
            let turned = written.split_once(" to ").map(|(a, b)| {
                let unit = b.trim_start_matches(|c: char| is_digit(c) || matches!(c, '.' | ','));
                format!(
                    "{} to {}{unit}",
                    b.trim_end_matches(unit).trim(),
                    a.trim().trim_end_matches(unit.trim()).trim()
                )
            });
            let found = given.out_of_range(title, "the smaller number stands first", "write the smaller number first");
            reader.refuse(match turned {
                Some(turned) => found.fix(given.value.span, quoted(&turned)),
                None => found,
            })
        }
        (Some(low), Some(high)) if low == high => Some(Wanted::Exactly(low)),
        _ => Some(Wanted::Between { least, most }),
    }
}

/// A bound that can be one: of an amount that is as needed, and itself an amount.
pub(super) fn bound(
    amount: Amount,
    written: &Spanned<Value>,
    bound: Amount,
    label: &Spanned<String>,
    reader: &mut FileReader<'_>,
) -> Option<Spanned<Amount>> {
    let name = &label.value;
    if matches!(bound, Amount::AsNeeded | Amount::All | Amount::Parts { .. }) {
        return reader.refuse(
            Diagnostic::error(Code::WrongDimension, format!("the bound of `{name}` is no amount"))
                .at(written.span, "a weight, a volume, a dose or a share was expected")
                .help("write for example { amount = \"as needed\", at_most = \"300 ml\" }"),
        );
    }
    if amount != Amount::AsNeeded {
        reader.found.push(
            Diagnostic::warning(Code::Unused, format!("the bound of `{name}` changes nothing: its amount is written"))
                .at(written.span, "read only with amount = \"as needed\"")
                .help("write amount = \"as needed\", or delete the bound"),
        );
        return None;
    }
    Some(Spanned { value: bound, span: written.span })
}

/// The size of an amount among those of its own kind.
fn size(amount: Amount) -> Option<(u8, f64)> {
    match amount {
        Amount::Mass(mass) => Some((0, in_grams(mass))),
        Amount::Volume(volume) => Some((1, in_millilitres(volume))),
        Amount::Pieces(count) => Some((2, count)),
        Amount::Dose(dose) => Some((3, in_grams_per_litre(dose))),
        Amount::VolumeDose(share) => Some((4, share)),
        Amount::Share(share) => Some((5, share)),
        Amount::AsNeeded | Amount::All | Amount::Parts { .. } => None,
    }
}

pub(super) fn check_bounds(bounds: &PartBounds, label: &Spanned<String>, reader: &mut FileReader<'_>) {
    let (Some(least), Some(most)) = (bounds.at_least, bounds.at_most) else { return };
    let upside_down = size(least.value).zip(size(most.value)).is_some_and(|(a, b)| a.0 == b.0 && a.1 > b.1);
    if upside_down {
        reader.found.push(
            Diagnostic::error(Code::OutOfRange, format!("the bounds of `{}` stand upside down", label.value))
                .at(least.span, "at least this")
                .at(most.span, "and at most that, which is less")
                .help("write the smaller amount under at_least"),
        );
    }
}

/// What stands under `[aim]`.
#[derive(Default)]
pub(super) struct AimTable {
    least: Option<Spanned<Spared>>,
    most: Option<Spanned<Prized>>,
}

impl Laid for AimTable {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[aim]",
        "under [aim]",
        ("least", word::<Spared>(), "\"cost\"", "what there shall be least of", least),
        ("most", word::<Prized>(), "\"life\"", "what there shall be most of", most),
    );
}

pub(super) const AIM: FieldKind<Aim> = FieldKind::new(FieldShape::Table(AimTable::LAYOUT), |given, reader| {
    let before = reader.found.len();
    let read = AimTable::LAYOUT.read(given.table(reader)?, reader);
    match (read.least, read.most) {
        (Some(least), None) => Some(Aim::Least(least.value)),
        (None, Some(most)) => Some(Aim::Most(most.value)),
        (Some(least), Some(most)) => reader.refuse(
            Diagnostic::error(Code::Contradiction, "the card has two aims, and no answer is the best in both")
                .at(least.span, "this")
                .at(most.span, "and this")
                .help(
                    "keep the one that decides, and give the other a bound: a range under [target], at_most on a part",
                ),
        ),
        (None, None) if reader.found.len() > before => None,
        (None, None) => reader.refuse(
            Diagnostic::error(Code::MissingKey, "[aim] says nothing")
                .at(given.key.span, "an aim was expected")
                .help("write below it least = \"cost\", or least = \"waste\", or most = \"life\""),
        ),
    }
});
