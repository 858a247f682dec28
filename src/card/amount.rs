//! How much: the amounts of the parts, the yield and the measure.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{Table, Value, wrong_type};
use crate::larder::HOLDS;
use crate::units::{Basis, Literal, Volume, in_grams, in_grams_per_litre, in_millilitres, literal};

use super::keys;
use super::model::{Amount, Makes, Part};
use super::reader::Reader;

/// What can be written as the amount of a part.
const FORMS: &str =
    "an amount is one of: \"750 g\", \"700 ml\", \"3 each\", \"2 parts by weight\", \"6 g/L\", \"5 %\", \"as needed\"";

/// What the card's own table of parts is called.
pub(super) const CARD_PARTS: &str = "[parts]";

/// The lines under `[parts]`, in card order. `place` names the table in messages.
pub(super) fn parts(reader: &mut Reader<'_>, table: &Table, place: &str) -> Vec<Part> {
    table.entries.iter().filter_map(|(label, value)| part(reader, label, value, place)).collect()
}

fn part(reader: &mut Reader<'_>, label: &Spanned<String>, value: &Spanned<Value>, place: &str) -> Option<Part> {
    if label.value.trim().is_empty() {
        reader.found.push(
            Diagnostic::error(Code::MissingKey, "a part has no name")
                .at(label.span, "the name of an ingredient was expected"),
        );
        return None;
    }
    let table = match &value.value {
        Value::Table(table) => Some(table),
        _ => None,
    };
    if table.is_none()
        && let Some(home) = slid(&label.value, &value.value, place)
    {
        reader.found.push(keys::misplaced(label, place, home));
        return None;
    }
    let Some(table) = table else {
        let amount = amount(reader, &label.value, value)?;
        return Some(Part {
            label: label.clone(),
            of: label.clone(),
            amount,
            written: written(value),
            strained: false,
            holds: None,
        });
    };
    keys::check(table, &format!("the part `{}`", label.value), keys::PART, &mut reader.found);
    let of = of(reader, table);
    let strained = table.flag("strained", &mut reader.found);
    let holds = table.number("holds", &mut reader.found).filter(|holds| in_range(reader, *holds));
    if holds.is_some() && strained.is_none_or(|s| !s.value) {
        let key = table.get("holds").map_or(value.span, |(key, _)| key.span);
        reader.found.push(
            Diagnostic::warning(
                Code::Unused,
                format!("`holds` changes nothing: `{}` is not strained out", label.value),
            )
            .at(key, "read only with strained = true")
            .help("add strained = true, or delete `holds`"),
        );
    }
    let Some((_, given)) = table.get("amount") else {
        reader.found.push(
            Diagnostic::error(Code::MissingKey, format!("`{}` has no amount", label.value))
                .at(value.span, "`amount` was expected in here")
                .help("write for example { amount = \"12 g\", strained = true }"),
        );
        return None;
    };
    Some(Part {
        label: label.clone(),
        of: of.unwrap_or_else(|| label.clone()),
        amount: amount(reader, &label.value, given)?,
        written: written(given),
        strained: strained.is_some_and(|s| s.value),
        holds,
    })
}

fn of(reader: &mut Reader<'_>, table: &Table) -> Option<Spanned<String>> {
    let of = table.text("of", &mut reader.found)?;
    if of.value.trim().is_empty() {
        reader.found.push(
            Diagnostic::error(Code::MissingKey, "`of` names no ingredient")
                .at(of.span, "the name of an ingredient was expected")
                .help("write for example of = \"water\""),
        );
        return None;
    }
    Some(Spanned { value: of.value.to_owned(), span: of.span })
}

/// Where a key of the card belongs that slid under the heading of the parts; none for an ingredient.
fn slid(label: &str, value: &Value, place: &str) -> Option<&'static str> {
    if place != CARD_PARTS && keys::STAGE.contains(&label) {
        return Some("above [stage.parts]");
    }
    let is_amount = matches!(value, Value::Text(text) if literal::parse(text).is_ok());
    // sugar is an ingredient too
    let is_ingredient = matches!(label, "sugar" | "acid") || (is_amount && !keys::CARD.contains(&label));
    keys::home(label).filter(|_| !is_ingredient)
}

fn in_range(reader: &mut Reader<'_>, holds: Spanned<f64>) -> bool {
    let fits = HOLDS.contains(&holds.value);
    if !fits {
        let (least, most) = HOLDS.into_inner();
        reader.out_of_range(
            format!("`holds` is {}; {least} to {most} was expected", holds.value),
            holds.span,
            "what one gram gains in the strainer; below zero for pressed fruit, which comes out lighter",
            "weigh what you strain out: (wet weight out - weight in) / weight in; 12 g in and 26.4 g out is holds = 1.2",
        );
    }
    fits
}

fn written(value: &Spanned<Value>) -> String {
    match &value.value {
        Value::Text(text) => text.clone(),
        _ => String::new(),
    }
}

fn amount(reader: &mut Reader<'_>, key: &str, value: &Spanned<Value>) -> Option<Spanned<Amount>> {
    if !matches!(value.value, Value::Text(_) | Value::Number(_)) {
        reader.found.push(wrong_type(key, value, "an amount in quotes").help(FORMS));
        return None;
    }
    let literal = reader.literal(key, value, "an amount in quotes")?;
    let amount = match literal {
        Literal::Mass(mass) => Amount::Mass(mass),
        Literal::Volume(volume) => Amount::Volume(volume),
        Literal::Pieces(pieces) => Amount::Pieces(pieces),
        Literal::Parts(parts, Some(basis)) => Amount::Parts { parts, basis },
        Literal::Parts(parts, None) => {
            // reported with the whole ratio; the placeholder lets the other checks go on
            reader.no_basis.push(value.span);
            Amount::Parts { parts, basis: Basis::Weight }
        }
        Literal::Concentration(dose) => Amount::Dose(dose),
        Literal::VolumeShare(dose) => Amount::VolumeDose(dose),
        Literal::Percent(share) => Amount::Share(share),
        Literal::Bottles(count, each) => Amount::Volume(each * count),
        Literal::AsNeeded => Amount::AsNeeded,
        Literal::Number(number) => {
            reader.no_unit(key, number, value.span, &["g", "ml"]);
            return None;
        }
        Literal::Abv(_) | Literal::Proof(_) | Literal::Brix(_) | Literal::Temperature(_) | Literal::Time(_) => {
            reader.wrong(key, &literal, value.span, "an amount", FORMS);
            return None;
        }
    };
    let (size, most) = match amount {
        Amount::Mass(mass) => (in_grams(mass), f64::MAX),
        Amount::Volume(volume) => (in_millilitres(volume), f64::MAX),
        Amount::Dose(dose) => (in_grams_per_litre(dose), f64::MAX),
        Amount::Pieces(n) | Amount::Parts { parts: n, .. } => (n, f64::MAX),
        Amount::VolumeDose(share) | Amount::Share(share) => (share, 1.0),
        Amount::AsNeeded => (0.0, f64::MAX),
    };
    if size < 0.0 {
        let title = format!("`{key}` is less than nothing");
        reader.out_of_range(title, value.span, "an amount is never negative", "take away the minus sign");
        return None;
    }
    if size > most {
        reader.out_of_range(
            format!("`{key}` is more than the whole: {:.0} %", size * 100.0),
            value.span,
            "100 % is all of the finished liquid",
            "write a smaller share, or a weight: \"750 g\"",
        );
        return None;
    }
    if size == 0.0 && matches!(amount, Amount::Parts { .. }) {
        let title = format!("`{key}` has no share in the ratio");
        reader.out_of_range(title, value.span, "0 parts", "write how many parts, or delete the line");
        return None;
    }
    Some(Spanned { value: amount, span: value.span })
}

/// The yield.
pub(super) fn makes(reader: &mut Reader<'_>, value: &Spanned<Value>) -> Option<Spanned<Makes>> {
    let expected = "a volume, a weight or a count of bottles";
    let help = "write for example \"1.5 L\", \"2 kg\" or \"6 x 250 ml\"";
    let literal = reader.literal("makes", value, expected)?;
    let (makes, size) = match literal {
        Literal::Volume(volume) => (Makes::Volume(volume), in_millilitres(volume)),
        Literal::Mass(mass) => (Makes::Mass(mass), in_grams(mass)),
        Literal::Bottles(count, each) => (Makes::Bottles { count, each }, count * in_millilitres(each)),
        Literal::Number(number) => {
            reader.no_unit("makes", number, value.span, &["ml", "g"]);
            return None;
        }
        _ => {
            reader.wrong("makes", &literal, value.span, expected, help);
            return None;
        }
    };
    if size > 0.0 {
        return Some(Spanned { value: makes, span: value.span });
    }
    reader.out_of_range("the card makes nothing".to_owned(), value.span, "more than 0 was expected", help);
    None
}

/// One measure of the product.
pub(super) fn serving(reader: &mut Reader<'_>, value: &Spanned<Value>) -> Option<Spanned<Volume>> {
    let help = "write for example \"15 ml\" or \"0.5 fl oz\"";
    let literal = reader.literal("serving", value, "a volume")?;
    match literal {
        Literal::Volume(volume) if in_millilitres(volume) > 0.0 => Some(Spanned { value: volume, span: value.span }),
        Literal::Volume(_) => {
            reader.out_of_range("a measure of nothing".to_owned(), value.span, "more than 0 was expected", help);
            None
        }
        Literal::Number(number) => {
            reader.no_unit("serving", number, value.span, &["ml"]);
            None
        }
        _ => {
            reader.wrong("serving", &literal, value.span, "a volume", help);
            None
        }
    }
}
