//! What a board says of a product, and of an ingredient that is bought.

use chrono::NaiveDate;
use uom::si::time::day;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{
    AMOUNT, FieldKind, FieldShape, FileReader, Given, Laid, Layout, TEXT, Table, Value, layout, wrong_type,
};
use crate::units::display::as_read;
use crate::units::{NumberRange, readers};

use super::model::{Entry, Held, HeldDate, Pack, Quantity, Shelf};
use super::values::{DATE, MOST_DAYS, WEEKDAYS, batch, bought, quantity, rate, weekday_once};

impl Laid for Entry {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a product of the plan",
        ("par", FieldKind::amount_by(quantity), "\"2 L\"", "what stands ready when the doors open", par),
        ("use", FieldKind::amount_by(rate), "\"6 L a week\"", "how fast it goes", uses),
        ("use_on", USE_ON, "{ Fri = \"2 L\" }", "what is used on a weekday", use_on),
        ("on_hand", ON_HAND, "[{ amount = \"1.2 L\", use_by = 2026-12-03 }]", "what is there", on_hand),
        ("store", TEXT, "\"fridge\"", "the store of the house that it is kept in", store),
        (
            "batch",
            FieldKind::amount_by(batch),
            "\"1 L up to 4 L\"",
            "how large its batches are: \"at least 1 L\", \"at most 4 L\", \"steps of 2 L\"",
            batch
        ),
    );
}

pub(super) fn entry(name: &Spanned<String>, table: &Table, reader: &mut FileReader<'_>) -> Entry {
    Entry { name: name.clone(), ..Entry::LAYOUT.read(table, reader) }
}

const USE_ON: FieldKind<[Option<Spanned<Quantity>>; 7]> =
    FieldKind::new(FieldShape::Named(&AMOUNT), |given, reader| {
        let Value::Table(on) = &given.value.value else {
            return reader.refuse(given.wrong_type("days with amounts").help("write use_on = { Fri = \"2 L\" }"));
        };
        let (mut days, mut first) = ([None; 7], [None; 7]);
        for (key, value) in &on.entries {
            let Some(place) = weekday_once("use_on", key, &mut first, &mut reader.found) else { continue };
            let read = Given { key, value, ..*given }.amount_by(reader, quantity);
            days[place] = read.map(|amount| Spanned::new(amount, value.span));
        }
        Some(days)
    });

/// What is there, before its date is chosen.
#[derive(Default)]
struct WrittenStock {
    amount: Option<Spanned<Quantity>>,
    use_by: Option<NaiveDate>,
    made: Option<NaiveDate>,
}

impl Laid for WrittenStock {
    const LAYOUT: &'static Layout<Self> = layout!(
        "an entry of `on_hand`",
        ("amount", FieldKind::amount_by(quantity), "\"1.2 L\"", "how much", amount),
        ("use_by", DATE, "2026-12-03", "the last day it may be used", use_by),
        ("made", DATE, "2026-11-26", "the day it was made", made),
    );
}

const ON_HAND: FieldKind<Vec<Held>> =
    FieldKind::new(FieldShape::List(&FieldShape::Table(WrittenStock::LAYOUT)), |given, reader| {
        const HELP: &str = "write on_hand = [{ amount = \"1.2 L\", use_by = 2026-12-03 }]";
        let Value::List(items) = &given.value.value else {
            return reader.refuse(given.wrong_type("a list, one entry a bottle or a date,").help(HELP));
        };
        let mut all = Vec::new();
        for item in items {
            let Value::Table(held) = &item.value else {
                reader.found.push(wrong_type("on_hand", item, "an amount with its date").help(HELP));
                continue;
            };
            let before = reader.found.len();
            let WrittenStock { amount, use_by, made } = WrittenStock::LAYOUT.read(held, reader);
            let missing = match (amount, use_by.map(HeldDate::UseBy).or(made.map(HeldDate::Made))) {
                (Some(amount), Some(dated)) => {
                    all.push(Held { amount, dated, made_by: None, best_before: None });
                    continue;
                }
                _ if reader.found.len() > before => continue,
                (None, _) => Diagnostic::error(Code::MissingKey, "what is on hand has no amount")
                    .at(item.span, "how much?")
                    .help(HELP),
                (_, None) => Diagnostic::error(Code::MissingKey, "what is on hand has no date")
                    .at(item.span, "how old is it?")
                    .help("add use_by = 2026-12-03 or made = 2026-11-26: what has no date is not counted on"),
            };
            reader.found.push(missing);
        }
        Some(all)
    });

impl Laid for Shelf {
    const LAYOUT: &'static Layout<Self> = layout!(
        "an ingredient of the plan",
        ("pack", PACK, "\"1 kg\"", "what a pack holds", pack),
        ("lead", LEAD, "\"2 days\"", "the time from the order to the delivery", lead),
        ("deliver", WEEKDAYS, "[\"Tue\", \"Fri\"]", "weekdays of delivery", |shelf, days| {
            shelf.deliver = Some(days.value).filter(|days| days.contains(&true))
        }),
        ("on_hand", FieldKind::amount_by(bought), "\"3 kg\"", "what is there", on_hand),
    );
}

const PACK: FieldKind<Pack> = FieldKind::new(AMOUNT, |given, reader| {
    let holds = given.amount_by(reader, bought)?;
    let times = given.value.value.text().and_then(|text| text.split_once(['x', '×']));
    let of = times.and_then(|(of, _)| of.trim().parse().ok()).filter(|of| *of > 0).unwrap_or(1);
    if holds.amount <= 0.0 {
        let nothing = Diagnostic::error(Code::OutOfRange, "a pack of nothing");
        reader.found.push(nothing.at(given.value.span, "more than 0 was expected"));
    }
    Some(Pack { holds, of }).filter(|pack| pack.holds.amount > 0.0)
});

const LEAD_DAYS: NumberRange = NumberRange::all(0.0, MOST_DAYS, "days");
const LEAD: FieldKind<i32> = FieldKind::new(AMOUNT, |given, reader| {
    let days = given.amount(reader, readers::duration)?.get::<day>();
    if LEAD_DAYS.holds(days) {
        // whole days that it takes up
        return Some((days - 1e-9).ceil().max(0.0) as i32);
    }
    let title = format!("`{}` is {} days", given.key.value, as_read(days));
    reader.refuse(given.out_of_range(title, &LEAD_DAYS.expected(), "write the time to the delivery: lead = \"2 days\""))
});
