//! `plan.toml`: the board in the kitchen. What is wrong is reported with its place, all of it in one run.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::{NaiveDate, Weekday};

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::larder::amounts::amount;
use crate::quantity::{Literal, LiteralError, in_grams, in_millilitres, literal, readers};
use crate::text::{self, Table, Value, wrong_type};

use super::model::Unit;

/// An amount as it is written on the board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// Millilitres or grams.
    pub amount: f64,
    /// Which.
    pub unit: Unit,
}

/// What is written on the board.
#[derive(Clone, Debug, Default)]
pub struct Board {
    /// The first day.
    pub from: Option<NaiveDate>,
    /// How many days.
    pub days: i32,
    /// Weekdays on which the house is closed, Monday first.
    pub closed: [bool; 7],
    /// Single days on which it is closed.
    pub closed_on: BTreeSet<NaiveDate>,
    /// The products.
    pub products: Vec<Entry>,
    /// The ingredients of which the board says something.
    pub ingredients: Vec<Shelf>,
}

/// A product on the board.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its name.
    pub name: Spanned<String>,
    /// What stands ready when the doors open.
    pub par: Option<Spanned<Quantity>>,
    /// What is used a week or a day.
    pub uses: Option<Spanned<Rate>>,
    /// What is used on a weekday, Monday first.
    pub use_on: [Option<Spanned<Quantity>>; 7],
    /// What is there.
    pub on_hand: Vec<Held>,
    /// Where it is kept.
    pub store: Option<Spanned<String>>,
    /// The smallest batch, and the largest if one is named.
    pub batch: Option<(Spanned<Quantity>, Option<Quantity>)>,
}

/// A use, as it is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rate {
    /// So much a week.
    Week(Quantity),
    /// So much on every open day.
    Day(Quantity),
}

/// What is there of a product.
#[derive(Clone, Debug)]
pub struct Held {
    /// How much.
    pub amount: Spanned<Quantity>,
    /// Its date.
    pub dated: HeldDate,
}

/// The date of what is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeldDate {
    /// The last day it may be used.
    UseBy(NaiveDate),
    /// The day it was made.
    Made(NaiveDate),
}

/// An ingredient on the board.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// Its name.
    pub name: Spanned<String>,
    /// What a pack holds.
    pub pack: Option<Spanned<Quantity>>,
    /// What is there.
    pub on_hand: Option<Spanned<Quantity>>,
    /// Days from the order to the delivery.
    pub lead: i32,
    /// Weekdays of delivery.
    pub deliver: Option<[bool; 7]>,
}

const PLAN: &[&str] = &["from", "days", "weeks", "closed", "closed_on"];
const PRODUCT: &[&str] = &["par", "use", "use_on", "on_hand", "store", "batch"];
const INGREDIENT: &[&str] = &["pack", "lead", "deliver", "on_hand"];
/// The longest plan, days: a year.
const MOST_DAYS: f64 = 366.0;
/// A week, where the board does not say how long.
const DAYS: i32 = 7;
/// The weekdays as they are written.
const WEEKDAYS: [&str; 14] = [
    "Mon",
    "Tue",
    "Wed",
    "Thu",
    "Fri",
    "Sat",
    "Sun",
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];

/// Reads a board.
pub fn read(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Board {
    let first = found.len();
    let table = text::parse(text, found);
    table.check_keys("a plan", &["plan", "product", "ingredient"], found);
    let mut board = Board { days: DAYS, ..Board::default() };
    if let Some(plan) = table.table("plan", found) {
        read_days(plan.value, &mut board, found);
    }
    let closed = board.closed;
    board.products = entries(&table, "product", found).map(|(name, t)| entry(name, t, &closed, found)).collect();
    let shelves = entries(&table, "ingredient", found).collect::<Vec<_>>();
    board.ingredients = shelves.into_iter().map(|(name, t)| shelf(name, t, found)).collect();
    if board.products.is_empty() && found.len() == first {
        found.push(
            Diagnostic::error(Code::MissingKey, "no product is on the board")
                .help("add one: [product.\"Lime cordial\"] with par = \"2 L\" and use = \"6 L a week\" below it"),
        );
    }
    for diagnostic in found.iter_mut().skip(first) {
        diagnostic.file.get_or_insert_with(|| Arc::clone(file));
    }
    board
}

fn entries<'a>(
    table: &'a Table,
    key: &'static str,
    found: &mut Vec<Diagnostic>,
) -> std::vec::IntoIter<(&'a Spanned<String>, &'a Table)> {
    let mut entries = Vec::new();
    for (name, value) in table.table(key, found).iter().flat_map(|t| &t.value.entries) {
        match &value.value {
            Value::Table(table) => entries.push((name, table)),
            _ => found.push(
                wrong_type(&name.value, value, "a table")
                    .help(format!("begin it with [{key}.{}], its keys below", text::quoted(&name.value))),
            ),
        }
    }
    entries.into_iter()
}

fn read_days(table: &Table, board: &mut Board, found: &mut Vec<Diagnostic>) {
    table.check_keys("[plan]", PLAN, found);
    board.from = table.date("from", found).and_then(|d| date("from", d, found));
    let days = whole_days(table, "days", 1.0, found);
    let weeks = whole_days(table, "weeks", 7.0, found);
    if let (Some(days), Some(weeks)) = (days, weeks) {
        found.push(
            Diagnostic::error(Code::Contradiction, "`days` and `weeks` both say how long the plan is")
                .at(days.span, "days")
                .at(weeks.span, "weeks")
                .help("keep one of them"),
        );
    }
    board.days = days.or(weeks).map_or(DAYS, |d| d.value);
    for day in table.texts("closed", found) {
        if let Some(day) = weekday("closed", &day.value, day.span, found) {
            board.closed[day] = true;
        }
    }
    if board.closed == [true; 7] {
        let span = table.get("closed").map_or(Span::default(), |(_, v)| v.span);
        found.push(
            Diagnostic::error(Code::OutOfRange, "the house is closed on every day of the week")
                .at(span, "all seven days")
                .help("leave out the days on which it is open"),
        );
    }
    if let Some((_, list)) = table.get("closed_on") {
        let Value::List(days) = &list.value else {
            found.push(wrong_type("closed_on", list, "a list of days").help("write closed_on = [2026-12-25]"));
            return;
        };
        for day in days {
            match &day.value {
                Value::Date(written) | Value::Text(written) => {
                    let written = Spanned { value: written.as_str(), span: day.span };
                    board.closed_on.extend(date("closed_on", written, found));
                }
                _ => found.push(wrong_type("closed_on", day, "a day (2026-12-25)")),
            }
        }
    }
}

fn whole_days(table: &Table, key: &str, each: f64, found: &mut Vec<Diagnostic>) -> Option<Spanned<i32>> {
    let number = table.number(key, found)?;
    let days = number.value * each;
    if number.value.fract() == 0.0 && (1.0..=MOST_DAYS).contains(&days) {
        return Some(Spanned { value: days as i32, span: number.span });
    }
    found.push(
        Diagnostic::error(Code::OutOfRange, format!("`{key}` is {}", number.value))
            .at(number.span, "a whole number, from one day to a year, was expected")
            .help("write days = 7 or weeks = 2"),
    );
    None
}

/// A day, year first.
pub fn date(key: &str, written: Spanned<&str>, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let day = text::day(written.value);
    if day.is_none() {
        found.push(
            Diagnostic::error(Code::NotADate, format!("`{key}` is `{}`, which is not a day", written.value))
                .at(written.span, "a day, year first, was expected")
                .help(format!("write it year first: {key} = 2026-11-30")),
        );
    }
    day
}

fn weekday(key: &str, written: &str, span: Span, found: &mut Vec<Diagnostic>) -> Option<usize> {
    if let Ok(day) = written.trim().parse::<Weekday>() {
        return Some(day.num_days_from_monday() as usize);
    }
    let diagnostic = Diagnostic::error(Code::UnknownWord, format!("`{key}`: `{written}` is not a day of the week"))
        .at(span, "Mon, Tue, Wed, Thu, Fri, Sat or Sun was expected");
    found.push(match text::nearest(written, WEEKDAYS) {
        Some(day) => diagnostic.help(format!("did you mean `{day}`?")),
        None => diagnostic.help("a single day goes into closed_on = [2026-12-25]"),
    });
    None
}

fn entry(name: &Spanned<String>, table: &Table, closed: &[bool; 7], found: &mut Vec<Diagnostic>) -> Entry {
    table.check_keys("a product of the plan", PRODUCT, found);
    let uses = amount(table, "use", rate, found);
    let entry = Entry {
        name: name.clone(),
        par: amount(table, "par", quantity, found),
        uses,
        use_on: use_on(table, closed, found),
        on_hand: on_hand(table, found),
        store: table.text("store", found).map(|s| Spanned { value: s.value.to_owned(), span: s.span }),
        batch: amount(table, "batch", batch, found).map(|b| (Spanned { value: b.value.0, span: b.span }, b.value.1)),
    };
    if entry.par.is_some() && table.get("use").is_none() && table.get("use_on").is_none() {
        let span = entry.par.map_or(name.span, |p| p.span);
        found.push(
            Diagnostic::error(Code::ParWithoutUse, format!("`{}` has a par and no use", name.value))
                .at(span, "how fast does it go?")
                .help("add use = \"6 L a week\" or use = \"900 ml a day\": without it nobody can say when it runs out or how much its life allows"),
        );
    }
    entry
}

fn use_on(table: &Table, closed: &[bool; 7], found: &mut Vec<Diagnostic>) -> [Option<Spanned<Quantity>>; 7] {
    let mut days = [None; 7];
    let Some((_, value)) = table.get("use_on") else { return days };
    let Value::Table(on) = &value.value else {
        found.push(wrong_type("use_on", value, "days with amounts").help("write use_on = { Fri = \"2 L\" }"));
        return days;
    };
    for (day, written) in &on.entries {
        let Some(place) = weekday("use_on", &day.value, day.span, found) else { continue };
        let read = amount(on, &day.value, quantity, found);
        if read.is_some_and(|q| q.value.amount > 0.0) && closed[place] {
            found.push(
                Diagnostic::error(
                    Code::Contradiction,
                    format!("it is used on {}, when the house is closed", day.value),
                )
                .at(written.span, "nothing is used on a closed day")
                .help("take the day out of `closed` or out of `use_on`"),
            );
        }
        days[place] = read;
    }
    days
}

fn on_hand(table: &Table, found: &mut Vec<Diagnostic>) -> Vec<Held> {
    const HELP: &str = "write on_hand = [{ amount = \"1.2 L\", use_by = 2026-12-03 }]";
    let Some((_, value)) = table.get("on_hand") else { return Vec::new() };
    let Value::List(items) = &value.value else {
        found.push(wrong_type("on_hand", value, "a list, one entry a bottle or a date,").help(HELP));
        return Vec::new();
    };
    let mut all = Vec::new();
    for item in items {
        let Value::Table(held) = &item.value else {
            found.push(wrong_type("on_hand", item, "an amount with its date").help(HELP));
            continue;
        };
        held.check_keys("an entry of `on_hand`", &["amount", "use_by", "made"], found);
        let before = found.len();
        let how_much = amount(held, "amount", quantity, found);
        let use_by = held.date("use_by", found).and_then(|d| date("use_by", d, found)).map(HeldDate::UseBy);
        let made = held.date("made", found).and_then(|d| date("made", d, found)).map(HeldDate::Made);
        match (how_much, use_by.or(made)) {
            (Some(amount), Some(dated)) => all.push(Held { amount, dated }),
            _ if found.len() > before => {}
            (None, _) => found.push(
                Diagnostic::error(Code::MissingKey, "what is on hand has no amount")
                    .at(item.span, "how much?")
                    .help(HELP),
            ),
            (_, None) => found.push(
                Diagnostic::error(Code::MissingKey, "what is on hand has no date")
                    .at(item.span, "how old is it?")
                    .help("add use_by = 2026-12-03 or made = 2026-11-26: what has no date is not counted on"),
            ),
        }
    }
    all
}

fn shelf(name: &Spanned<String>, table: &Table, found: &mut Vec<Diagnostic>) -> Shelf {
    table.check_keys("an ingredient of the plan", INGREDIENT, found);
    let pack = amount(table, "pack", bought, found);
    if let Some(pack) = pack.filter(|p| p.value.amount <= 0.0) {
        found.push(Diagnostic::error(Code::OutOfRange, "a pack of nothing").at(pack.span, "more than 0 was expected"));
    }
    let lead = amount(table, "lead", readers::duration, found).map_or(0, |lead| days_up(lead.value.value));
    let deliver = table.get("deliver").map(|_| {
        let mut days = [false; 7];
        for day in table.texts("deliver", found) {
            if let Some(day) = weekday("deliver", &day.value, day.span, found) {
                days[day] = true;
            }
        }
        days
    });
    Shelf {
        name: name.clone(),
        pack: pack.filter(|p| p.value.amount > 0.0),
        on_hand: amount(table, "on_hand", bought, found),
        lead,
        deliver: deliver.filter(|days| days.contains(&true)),
    }
}

/// Whole days that a time in seconds takes up.
fn days_up(seconds: f64) -> i32 {
    (seconds / 86_400.0 - 1e-9).ceil().clamp(0.0, MOST_DAYS) as i32
}

/// A volume, a weight or pieces.
fn bought(written: &str) -> Result<Quantity, LiteralError> {
    match literal::parse(written)? {
        Literal::Pieces(count) if count <= MOST => Ok(Quantity { amount: count, unit: Unit::Pieces }),
        _ => quantity(written),
    }
}

/// A volume or a weight.
pub(super) fn quantity(written: &str) -> Result<Quantity, LiteralError> {
    match literal::parse(written)? {
        Literal::Volume(volume) => Ok(Quantity { amount: in_millilitres(volume), unit: Unit::Ml }),
        Literal::Bottles(count, each) => Ok(Quantity { amount: count * in_millilitres(each), unit: Unit::Ml }),
        Literal::Mass(mass) => Ok(Quantity { amount: in_grams(mass), unit: Unit::G }),
        Literal::Number(_) => Err(wrong(Code::NoUnit, written, "has no unit")),
        other => Err(wrong(Code::WrongDimension, written, &format!("is {}", other.kind()))),
    }
    .and_then(|quantity| match quantity.amount <= MOST {
        true => Ok(quantity),
        false => Err(wrong(Code::OutOfRange, written, "is more than any bar makes")),
    })
}

/// Ten thousand litres.
const MOST: f64 = 1e7;

fn wrong(code: Code, written: &str, why: &str) -> LiteralError {
    LiteralError {
        code,
        title: format!("`{}` {why}; a volume or a weight was expected", written.trim()),
        at: 0..written.len(),
        help: Some("for example \"2 L\", \"700 ml\", \"6 x 250 ml\" or \"500 g\"".to_owned()),
        fix: None,
    }
}

/// "6 L a week", "900 ml a day", "6 L/week".
fn rate(written: &str) -> Result<Rate, LiteralError> {
    let lower = written.trim_end().to_lowercase();
    let ends: [(&str, fn(Quantity) -> Rate); 6] = [
        (" a week", Rate::Week),
        (" per week", Rate::Week),
        ("/week", Rate::Week),
        (" a day", Rate::Day),
        (" per day", Rate::Day),
        ("/day", Rate::Day),
    ];
    let found = ends.iter().find_map(|(end, of)| lower.strip_suffix(end).map(|rest| (rest.len(), of)));
    match found.and_then(|(length, of)| Some((written.get(..length)?, of))) {
        Some((amount, of)) => quantity(amount).map(of),
        None => Err(LiteralError {
            help: Some("write \"6 L a week\" or \"900 ml a day\"".to_owned()),
            title: format!("`{}` does not say in what time it is used", written.trim()),
            ..wrong(Code::NoUnit, written, "")
        }),
    }
}

/// "1 L" or "1 L up to 4 L".
fn batch(written: &str) -> Result<(Quantity, Option<Quantity>), LiteralError> {
    let Some((least, most)) = written.split_once("up to") else { return Ok((quantity(written)?, None)) };
    let (least, most) = (if least.trim().is_empty() { None } else { Some(quantity(least)?) }, quantity(most)?);
    let least = least.unwrap_or(Quantity { amount: 0.0, unit: most.unit });
    if least.unit != most.unit || least.amount > most.amount || most.amount <= 0.0 {
        return Err(LiteralError {
            title: format!("`{}` does not go from a smaller batch to a larger one", written.trim()),
            help: Some("for example batch = \"1 L up to 4 L\"".to_owned()),
            ..wrong(Code::OutOfRange, written, "")
        });
    }
    Ok((least, Some(most)))
}
