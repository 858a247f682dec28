//! What may stand under a key, and how it is read.

use chrono::{Datelike, NaiveDate};

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::spelling::nearest;
use crate::units::{Customs, LiteralError};
use crate::vocabulary::{FoodStatement, Word};

use super::given::{FileReader, Given};
use super::raw::quoted;
use super::shape::{AMOUNT, FieldShape};
use super::table::{Value, wrong_type};

/// What may stand under a key, and how a `T` is read from it.
pub(crate) struct FieldKind<T: 'static> {
    pub shape: FieldShape,
    pub how: ReadBy<T>,
}

pub(crate) enum ReadBy<T: 'static> {
    /// By its own reader, which reports what it cannot read.
    Given(fn(&Given<'_>, &mut FileReader<'_>) -> Option<T>),
    /// As a text in quotes, or a bare number as if it stood in quotes.
    Amount(fn(&str) -> Result<T, LiteralError>),
    /// The same, where the house settles which ounce and which comma is meant.
    AmountBy(fn(&str, &Customs) -> Result<T, LiteralError>),
}

impl<T> FieldKind<T> {
    pub(crate) const fn new(shape: FieldShape, read: fn(&Given<'_>, &mut FileReader<'_>) -> Option<T>) -> Self {
        Self { shape, how: ReadBy::Given(read) }
    }

    /// An amount, as one of the readers of [`crate::units`] takes it.
    pub(crate) const fn amount(read: fn(&str) -> Result<T, LiteralError>) -> Self {
        Self { shape: AMOUNT, how: ReadBy::Amount(read) }
    }

    pub(crate) const fn amount_by(read: fn(&str, &Customs) -> Result<T, LiteralError>) -> Self {
        Self { shape: AMOUNT, how: ReadBy::AmountBy(read) }
    }

    /// What was read; `None` where it cannot be read, which is reported.
    pub(crate) fn read(&self, given: &Given<'_>, reader: &mut FileReader<'_>) -> Option<T> {
        match self.how {
            ReadBy::Given(read) => read(given, reader),
            ReadBy::Amount(read) => given.amount(reader, read),
            ReadBy::AmountBy(read) => given.amount_by(reader, read),
        }
    }
}

pub(crate) const TEXT: FieldKind<String> =
    FieldKind::new(FieldShape::Text, |given, reader| given.text(reader).map(str::to_owned));

/// What states that a thing is food, in words that somebody can be held to.
pub(crate) const FOOD: FieldKind<FoodStatement> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = given.text(reader)?;
    FoodStatement::read(written).map_err(|why| {
        reader.found.push(
            Diagnostic::error(Code::NotAStatement, format!("`{}` is `{written}`: {why}", given.key.value))
                .at(given.value.span, "what it is and who says so were expected")
                .help("write for example food = \"sold as food, label\" or food = \"foraged, identified by …\"; or leave the line out: then it is asked"),
        );
    }).ok()
});

pub(crate) const FLAG: FieldKind<bool> = FieldKind::new(FieldShape::Flag, |given, reader| given.flag(reader));

pub(crate) const DAY: FieldKind<NaiveDate> = FieldKind::new(FieldShape::Day, |given, reader| {
    let written = given.day(reader)?;
    let day = day(written);
    if day.is_none() {
        let shape = |c: char| if c.is_ascii_digit() { '0' } else { c };
        let title = match (written.chars().map(shape).eq("0000-00-00".chars()), written.parse::<NaiveDate>()) {
            (true, Err(_)) => format!("there is no {written} in the calendar"),
            (true, Ok(_)) => format!("`{written}` is {}", NO_DAY),
            (false, _) => format!("`{written}` is not a day written year first"),
        };
        let help = format!("write the year first: {} = 2026-11-20 is the 20th of November 2026", given.key.value);
        reader.found.push(Diagnostic::error(Code::NotADate, title).at(given.value.span, "year, month, day").help(help));
    }
    day
});

/// A list of texts; what is no text is reported and left out.
pub(crate) const TEXTS: FieldKind<Vec<Spanned<String>>> =
    FieldKind::new(FieldShape::List(&FieldShape::Text), |given, reader| {
        let mut texts = Vec::new();
        for item in given.list("a list of texts", reader)? {
            match &item.value {
                Value::Text(text) => texts.push(Spanned { value: text.clone(), span: item.span }),
                _ => reader.found.push(wrong_type(&given.key.value, item, "a text in quotes")),
            }
        }
        Some(texts)
    });

pub(crate) const fn word<W: Word>() -> FieldKind<W> {
    FieldKind::new(FieldShape::Words(|| W::words().collect()), |given, reader| {
        let written = given.text(reader)?;
        let lower = written.trim().to_lowercase();
        let found = W::parse(&lower);
        if found.is_none() {
            let choices: Vec<_> = W::words().map(quoted).collect();
            let title = format!("`{}` is `{written}`", given.key.value);
            let diagnostic = Diagnostic::error(Code::UnknownWord, title)
                .at(given.value.span, format!("{} was expected", choices.join(" or ")));
            reader.found.push(match nearest(&lower, W::words()) {
                Some(meant) => diagnostic.fix(given.value.span, quoted(meant)),
                None => diagnostic
                    .help("choose the one that is true, or leave the line out: what is not known is not assumed"),
            });
        }
        found
    })
}

/// The years in which a bar can work, as far as arithmetic with days goes: four digits before and after.
pub(crate) const YEARS: std::ops::RangeInclusive<i32> = 1900..=9000;

pub(crate) const NO_DAY: &str = "not a day from the year 1900 to 9000";

/// The day that is written, year first ("2026-11-30").
pub(crate) fn day(written: &str) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(written.trim(), "%Y-%m-%d").ok();
    day.filter(|day| YEARS.contains(&day.year()))
}
