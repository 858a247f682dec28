//! Amounts and days as a board has them: what is made, used and bought, and when.

use std::collections::BTreeSet;

use chrono::{NaiveDate, Weekday};

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::input::{self, FieldKind, FieldShape, Layout, TEXTS, Value, layout, wrong_type};
use crate::spelling::{meant_or, nearest};
use crate::units::{Customs, Literal, LiteralError, NumberRange, in_grams, in_millilitres, literal};

use super::super::model::PrepUnit;
use super::model::{BatchRule, Board, Quantity, Rate};

pub(super) fn bought(written: &str, customs: &Customs) -> Result<Quantity, LiteralError> {
    match literal::read_by(written, customs)?.literal {
        Literal::Pieces(count) => up_to_most(written, Quantity { amount: count, unit: PrepUnit::Pieces }),
        _ => quantity(written, customs),
    }
}

pub(in crate::plan) fn quantity(written: &str, customs: &Customs) -> Result<Quantity, LiteralError> {
    match literal::read_by(written, customs)?.literal {
        Literal::Volume(volume) => Ok(Quantity { amount: in_millilitres(volume), unit: PrepUnit::Ml }),
        Literal::Bottles(count, each) => Ok(Quantity { amount: count * in_millilitres(each), unit: PrepUnit::Ml }),
        Literal::Mass(mass) => Ok(Quantity { amount: in_grams(mass), unit: PrepUnit::G }),
        Literal::Number(_) => Err(wrong(Code::NoUnit, written, "has no unit")),
        other => Err(wrong(Code::WrongDimension, written, &format!("is {}", other.kind()))),
    }
    .and_then(|quantity| up_to_most(written, quantity))
}

fn up_to_most(written: &str, quantity: Quantity) -> Result<Quantity, LiteralError> {
    if quantity.amount <= MOST {
        return Ok(quantity);
    }
    let title = format!("`{}` is more than any bar makes", written.trim());
    let most = match quantity.unit {
        PrepUnit::Ml => "at most 10,000 L was expected",
        PrepUnit::G => "at most 10,000 kg was expected",
        PrepUnit::Pieces => "at most 10,000,000 pieces were expected",
    };
    Err(LiteralError::new(Code::OutOfRange, title, 0..written.len()).help(most))
}

/// Millilitres, grams or pieces (ours).
const MOST: f64 = 1e7;

fn wrong(code: Code, written: &str, why: &str) -> LiteralError {
    let title = format!("`{}` {why}; a volume or a weight was expected", written.trim());
    LiteralError::new(code, title, 0..written.len())
        .help("for example \"2 L\", \"700 ml\", \"6 x 250 ml\" or \"500 g\"")
}

/// "6 L a week", "900 ml a day", "6 L/week".
pub(super) fn rate(written: &str, customs: &Customs) -> Result<Rate, LiteralError> {
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
        Some((amount, of)) => quantity(amount, customs).map(of),
        None => {
            let title = format!("`{}` does not say in what time it is used", written.trim());
            let error = LiteralError::new(Code::NoUnit, title, 0..written.len());
            Err(error.help("write \"6 L a week\" or \"900 ml a day\""))
        }
    }
}

/// "1 L up to 4 L", "at least 1 L", "at most 4 L", "steps of 2 L"; "1 L" alone is the least.
pub(super) fn batch(written: &str, customs: &Customs) -> Result<BatchRule, LiteralError> {
    const LEAST: [&str; 4] = ["at least ", "from ", "least ", "min "];
    const MOST: [&str; 5] = ["at most ", "up to ", "most ", "max ", "no more than "];
    const STEP: [&str; 4] = ["in steps of ", "steps of ", "step ", "times "];
    let text = written.trim().to_lowercase();
    let behind = |words: &[&str]| {
        words.iter().find_map(|word| text.strip_prefix(word)).map(|rest| quantity(rest, customs)).transpose()
    };
    let rule = BatchRule { least: None, most: None, step: None, is_bare: false };
    if let Some(step) = behind(&STEP)? {
        return match step.amount > 0.0 {
            true => Ok(BatchRule { least: Some(step), step: Some(step), ..rule }),
            false => Err(wrong(Code::OutOfRange, written, "makes nothing")),
        };
    }
    if let (Some((least, most)), false) = (text.split_once(" up to "), text.starts_with("up to ")) {
        let (least, most) = (
            quantity(LEAST.iter().find_map(|w| least.strip_prefix(w)).unwrap_or(least), customs)?,
            quantity(most, customs)?,
        );
        if least.unit != most.unit || least.amount > most.amount || most.amount <= 0.0 {
            let title = format!("`{}` does not go from a smaller batch to a larger one", written.trim());
            let error = LiteralError::new(Code::OutOfRange, title, 0..written.len());
            return Err(error.help("for example batch = \"1 L up to 4 L\""));
        }
        return Ok(BatchRule { least: Some(least), most: Some(most), ..rule });
    }
    if let Some(most) = behind(&MOST)? {
        return match most.amount > 0.0 {
            true => Ok(BatchRule { most: Some(most), ..rule }),
            false => Err(wrong(Code::OutOfRange, written, "makes nothing")),
        };
    }
    match behind(&LEAST)? {
        Some(least) => Ok(BatchRule { least: Some(least), ..rule }),
        None => Ok(BatchRule { least: Some(quantity(written, customs)?), is_bare: true, ..rule }),
    }
}

/// The longest plan, days: a year.
pub(super) const MOST_DAYS: f64 = 366.0;
/// A week, where the board does not say how long.
pub(super) const DAYS: i32 = 7;
const NAMES: [&str; 14] = [
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

pub(super) const PLAN: FieldKind<Board> = FieldKind::new(FieldShape::Table(KEYS), |given, reader| {
    let table = given.table(reader)?;
    let before = reader.found.len();
    let board = KEYS.read(table, reader);
    let place = |key| table.get(key).map(|(_, value)| value.span);
    if let (Some(days), Some(weeks), true) = (place("days"), place("weeks"), reader.found.len() == before) {
        reader.found.push(
            Diagnostic::error(Code::Contradiction, "`days` and `weeks` both say how long the plan is")
                .at(days, "days")
                .at(weeks, "weeks")
                .help("keep one of them"),
        );
    }
    if board.closed == [true; 7] {
        reader.found.push(
            Diagnostic::error(Code::OutOfRange, "the house is closed on every day of the week")
                .at(place("closed").unwrap_or_default(), "all seven days")
                .help("leave out the days on which it is open"),
        );
    }
    Some(board)
});

const KEYS: &Layout<Board> = layout!(
    "[plan]",
    ("from", DATE, "2026-11-30", "the first day", from),
    ("weeks", WEEKS, "2", "how many weeks", days),
    ("days", DAYS_LONG, "7", "how many days", days),
    ("closed", WEEKDAYS, "[\"Mon\"]", "weekdays on which the house is closed", closed),
    ("closed_on", DATES, "[2026-12-25]", "single days on which it is closed", closed_on),
);

pub(crate) const DATE: FieldKind<NaiveDate> = FieldKind::new(FieldShape::Day, |given, reader| {
    let written = Spanned::new(given.day(reader)?, given.value.span);
    date(&given.key.value, written, &mut reader.found)
});

const DATES: FieldKind<BTreeSet<NaiveDate>> = FieldKind::new(FieldShape::List(&FieldShape::Day), |given, reader| {
    let Value::List(items) = &given.value.value else {
        return reader.refuse(given.wrong_type("a list of days").help("write closed_on = [2026-12-25]"));
    };
    let mut days = BTreeSet::new();
    for day in items {
        match &day.value {
            Value::Date(written) | Value::Text(written) => {
                days.extend(date("closed_on", Spanned::new(written.as_str(), day.span), &mut reader.found));
            }
            _ => reader.found.push(wrong_type("closed_on", day, "a day (2026-12-25)")),
        }
    }
    Some(days)
});

const LENGTH: NumberRange = NumberRange::whole(1.0, MOST_DAYS, "days");
const LENGTH_WEEKS: NumberRange = NumberRange::whole(1.0, 52.0, "weeks");
const LENGTH_HELP: &str = "write days = 7 or weeks = 2";

const DAYS_LONG: FieldKind<i32> = FieldKind::new(FieldShape::within(&LENGTH), |given, reader| {
    given.within(reader, &LENGTH, LENGTH_HELP).map(|days| days as i32)
});
const WEEKS: FieldKind<i32> = FieldKind::new(FieldShape::within(&LENGTH_WEEKS), |given, reader| {
    given.within(reader, &LENGTH_WEEKS, LENGTH_HELP).map(|weeks| 7 * weeks as i32)
});

/// A list of weekdays, as a week of yes and no, Monday first.
pub(super) const WEEKDAYS: FieldKind<[bool; 7]> =
    FieldKind::new(FieldShape::List(&FieldShape::Words(|| NAMES.into())), |given, reader| {
        let mut days = [false; 7];
        for day in TEXTS.read(given, reader)? {
            if let Some(place) = weekday(&given.key.value, &day.value, day.span, &mut reader.found) {
                days[place] = true;
            }
        }
        Some(days)
    });

pub(crate) fn date(key: &str, written: Spanned<&str>, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let day = input::day(written.value);
    if day.is_none() {
        found.push(
            Diagnostic::error(Code::NotADate, format!("`{key}` is `{}`, which is not a day", written.value))
                .at(written.span, "a day, year first, was expected")
                .help(format!(
                    "write it year first: {key} = {}",
                    input::day_meant(written.value).map_or_else(|| "2026-11-30".to_owned(), |day| day.to_string())
                )),
        );
    }
    day
}

/// The same of a table with a key a day: "Fri" and "Friday" are one day, and only one of them would count.
pub(crate) fn weekday_once(
    key: &str,
    written: &Spanned<String>,
    first: &mut [Option<Span>; 7],
    found: &mut Vec<Diagnostic>,
) -> Option<usize> {
    let place = weekday(key, &written.value, written.span, found)?;
    let Some(before) = first[place].replace(written.span) else { return Some(place) };
    Diagnostic::error(Code::SameName, format!("`{key}`: `{}` is a day that stands there already", written.value))
        .at(written.span, "again here")
        .at(before, "first here")
        .help("write each day once, with all that goes on it")
        .refused(found)
}

fn weekday(key: &str, written: &str, span: Span, found: &mut Vec<Diagnostic>) -> Option<usize> {
    if let Ok(day) = written.trim().parse::<Weekday>() {
        return Some(day.num_days_from_monday() as usize);
    }
    let diagnostic = Diagnostic::error(Code::UnknownWord, format!("`{key}`: `{written}` is not a day of the week"))
        .at(span, "Mon, Tue, Wed, Thu, Fri, Sat or Sun was expected");
    diagnostic.help(meant_or(nearest(written, NAMES), "a single day goes into closed_on = [2026-12-25]")).refused(found)
}
