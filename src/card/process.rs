//! What happens to a batch: losses, heat, time, and how the product is kept.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{FLAG, Laid, Layout, TEXT, Table, Value, Word, layout, word, wrong_type};
use crate::units::{Literal, Time, degrees_celsius, literal};

use super::keys;
use super::model::{Heated, Keep, Loss};
use super::reader::Reader;

/// How hot a kitchen heats what it makes, °C: from a warm water bath to caramel. A plausible range,
/// common practice, no source.
const HEAT_C: std::ops::RangeInclusive<f64> = 30.0..=200.0;

/// `[loss]`.
pub(super) fn loss(reader: &mut Reader<'_>, table: &Table) -> Loss {
    keys::check(table, "[loss]", keys::LOSS, &mut reader.found);
    let as_needed = table.get("evaporated").filter(
        |(_, value)| matches!(&value.value, Value::Text(written) if literal::parse(written) == Ok(Literal::AsNeeded)),
    );
    Loss {
        evaporated: if as_needed.is_some() { None } else { share(reader, table, "evaporated") },
        evaporated_as_needed: as_needed.map(|(_, value)| value.span),
        left_behind: share(reader, table, "left_behind"),
    }
}

fn share(reader: &mut Reader<'_>, table: &Table, key: &str) -> Option<Spanned<f64>> {
    let (_, value) = table.get(key)?;
    let expected = "a percentage";
    let of = if key == "evaporated" { "of the water" } else { "of the batch" };
    let literal = reader.literal(key, value, expected)?;
    match literal {
        Literal::Percent(share) if (0.0..1.0).contains(&share) || (share == 1.0 && key == "evaporated") => {
            Some(Spanned { value: share, span: value.span })
        }
        Literal::Percent(share) => {
            reader.out_of_range(
                format!("`{key}` is {} %; 0 to 100 % was expected", share * 100.0),
                value.span,
                &format!("a share {of}"),
                "write what is lost, not what is left: \"3 %\"",
            );
            None
        }
        Literal::Number(number) => {
            reader.no_unit(key, number, value.span, &["%"]);
            None
        }
        _ => {
            let help = format!("write the share {of}: {key} = \"3 %\" is 3 g of each 100 g");
            reader.wrong(key, &literal, value.span, expected, &help);
            None
        }
    }
}

/// `heated = "85 °C for 5 min"`.
pub(super) fn heated(reader: &mut Reader<'_>, value: &Spanned<Value>) -> Option<Spanned<Heated>> {
    const HELP: &str = "write how hot it gets and for how long: \"85 °C for 5 min\", or \"85 °C\" alone";
    let written = match &value.value {
        Value::Text(written) => written,
        Value::Number(number) => {
            reader.no_unit("heated", *number, value.span, &["°C", "°F"]);
            return None;
        }
        _ => {
            reader.found.push(wrong_type("heated", value, "a temperature in quotes").help(HELP));
            return None;
        }
    };
    let (hot, long) = match written.split_once(" for ") {
        Some((hot, long)) => (hot, Some(long)),
        None => (written.as_str(), None),
    };
    let to = match literal::parse(hot.trim()) {
        Ok(Literal::Temperature(to)) => to,
        Ok(Literal::Number(number)) => {
            reader.no_unit("heated", number, value.span, &["°C", "°F"]);
            return None;
        }
        _ => {
            reader.found.push(
                Diagnostic::error(Code::WrongDimension, format!("`heated` is `{written}`; a temperature was expected"))
                    .at(value.span, "how hot is not known from this")
                    .help(HELP),
            );
            return None;
        }
    };
    if !HEAT_C.contains(&degrees_celsius(to)) {
        reader.out_of_range(
            format!("`heated` is {:.0} °C; 30 to 200 °C was expected", degrees_celsius(to)),
            value.span,
            "not a heat that a kitchen uses",
            "is it °F? \"185 °F\" is 85 °C; leave `heated` out of a card that is not heated",
        );
        return None;
    }
    let hold = match long {
        Some(long) => Some(time(reader, "heated", long, value, HELP)?),
        None => None,
    };
    Some(Spanned { value: Heated { to, hold }, span: value.span })
}

/// `takes = "7 days"`, kept as written.
pub(super) fn takes(reader: &mut Reader<'_>, table: &Table) -> Option<String> {
    let written = table.text("takes", &mut reader.found)?.value.to_owned();
    let (_, value) = table.get("takes")?;
    time(reader, "takes", &written, value, "write a number and a unit: \"12 h\", \"7 days\"")?;
    Some(written)
}

/// `labour = "20 min"`: the work for one batch.
pub(super) fn labour(reader: &mut Reader<'_>, table: &Table) -> Option<Spanned<Time>> {
    let written = table.text("labour", &mut reader.found)?.value.to_owned();
    let (_, value) = table.get("labour")?;
    let time = time(reader, "labour", &written, value, "write the work for one batch: \"20 min\", \"1.5 h\"")?;
    Some(Spanned { value: time, span: value.span })
}

fn time(reader: &mut Reader<'_>, key: &str, written: &str, value: &Spanned<Value>, help: &str) -> Option<Time> {
    match literal::parse(written.trim()) {
        Ok(Literal::Time(time)) if time > Time::default() => return Some(time),
        _ => reader.found.push(
            Diagnostic::error(Code::WrongDimension, format!("`{key}`: `{}` is not a time", written.trim()))
                .at(value.span, "a number of minutes, hours or days was expected")
                .help(help),
        ),
    }
    None
}

/// How it is filled.
#[derive(Clone, Copy, PartialEq)]
enum Fill {
    Hot,
    Cold,
}

impl Word for Fill {
    const ALL: &'static [Self] = &[Self::Hot, Self::Cold];

    fn word(self) -> &'static str {
        match self {
            Self::Hot => "hot",
            Self::Cold => "cold",
        }
    }
}

/// What it is filled into.
#[derive(Clone, Copy)]
enum Container {
    Glass,
    Plastic,
    Bag,
}

impl Word for Container {
    const ALL: &'static [Self] = &[Self::Glass, Self::Plastic, Self::Bag];

    fn word(self) -> &'static str {
        match self {
            Self::Glass => "glass",
            Self::Plastic => "plastic",
            Self::Bag => "bag",
        }
    }
}

impl Laid for Keep {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[keep]",
        "under [keep]",
        [],
        [
            ("fill", word::<Fill>(), "\"hot\"", "filled hot or cold", |keep, fill| {
                keep.hot_filled = Some(fill.value == Fill::Hot)
            }),
            ("closed", FLAG, "true", "closed as soon as it is filled", |keep, closed| keep.closed = Some(closed.value)),
            ("in", word::<Container>(), "\"glass\"", "what it is filled into", |keep, container| {
                keep.container = Some(Spanned { value: container.value.word().to_owned(), span: container.span })
            }),
            ("for_sale", FLAG, "true", "sold in that container", |keep, sold| keep.for_sale = Some(sold.value)),
            ("opened", FLAG, "false", "has been opened", |keep, opened| keep.opened = Some(opened.value)),
            ("store", TEXT, "\"fridge\"", "the store of the house that it is planned for", |keep, store| {
                keep.store = Some(store)
            }),
        ]
    );
}
