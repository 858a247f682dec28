//! The days of a board.

use chrono::{NaiveDate, Weekday};

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::input::{self, Table, Value, wrong_type};
use crate::spelling::nearest;

use super::Board;

const PLAN: &[&str] = &["from", "days", "weeks", "closed", "closed_on"];
/// The longest plan, days: a year.
pub(super) const MOST_DAYS: f64 = 366.0;
/// A week, where the board does not say how long.
pub(super) const DAYS: i32 = 7;
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

pub(super) fn read_days(table: &Table, board: &mut Board, found: &mut Vec<Diagnostic>) {
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
    let day = input::day(written.value);
    if day.is_none() {
        found.push(
            Diagnostic::error(Code::NotADate, format!("`{key}` is `{}`, which is not a day", written.value))
                .at(written.span, "a day, year first, was expected")
                .help(format!("write it year first: {key} = 2026-11-30")),
        );
    }
    day
}

pub(super) fn weekday(key: &str, written: &str, span: Span, found: &mut Vec<Diagnostic>) -> Option<usize> {
    if let Ok(day) = written.trim().parse::<Weekday>() {
        return Some(day.num_days_from_monday() as usize);
    }
    let diagnostic = Diagnostic::error(Code::UnknownWord, format!("`{key}`: `{written}` is not a day of the week"))
        .at(span, "Mon, Tue, Wed, Thu, Fri, Sat or Sun was expected");
    found.push(match nearest(written, WEEKDAYS) {
        Some(day) => diagnostic.help(format!("did you mean `{day}`?")),
        None => diagnostic.help("a single day goes into closed_on = [2026-12-25]"),
    });
    None
}
