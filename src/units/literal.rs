//! Amounts as people write them: a number, a unit from one table, and the little words around them.

use std::ops::Range;

use crate::diagnostic::Code;

use super::measures::{Measure, measure, normalised};
use super::number::{leading, skip_spaces};
use super::unit::Unit;
use super::{Mass, MassDensity, Temperature, Time, Volume};
use crate::spelling::is_near;

/// Whether a ratio counts grams or millilitres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// By weight.
    Weight,
    /// By volume.
    Volume,
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Literal {
    /// `750 g`, `2 lb`, `1.5 oz wt`
    Mass(Mass),
    /// `700 ml`, `0.75 fl oz`, `1/2 US cup`, `2 dashes`
    Volume(Volume),
    /// `3 each`
    Pieces(f64),
    /// `2 parts by weight`; without a basis the reader of a card must ask
    Parts(f64, Option<Basis>),
    /// `6 g/L`: mass for each volume
    Concentration(MassDensity),
    /// `20 ml/L`: volume for each volume, as a fraction
    VolumeShare(f64),
    /// `43 %`, as a fraction; of what, the reader of the key knows
    Percent(f64),
    /// `43 % vol`, `43 % ABV`: percent by volume at 20 °C, so that a strength is never taken for a share
    Abv(f64),
    /// `86 proof`: the US proof as written; percent by volume at 60 °F is half of it
    Proof(f64),
    /// `64 °Bx`
    Brix(f64),
    /// `85 °C`, `185 °F`
    Temperature(Temperature),
    /// `5 min`, `7 days`
    Time(Time),
    /// `6 x 250 ml`
    Bottles(f64, Volume),
    /// `as needed`
    AsNeeded,
    /// `64`: a number alone
    Number(f64),
}

/// Why a text is not an amount.
#[derive(Clone, Debug, PartialEq)]
pub struct LiteralError {
    /// Its kind: not a number, ambiguous number, no unit, unknown unit, ambiguous unit, out of range.
    pub code: Code,
    /// What was read and what was expected.
    pub title: String,
    /// The bytes of the text that are at fault.
    pub at: Range<usize>,
    /// What to write instead.
    pub help: Option<String>,
    /// The whole text as it should be, where that is clear.
    pub fix: Option<String>,
}

impl LiteralError {
    pub(super) fn new(code: Code, title: impl Into<String>, at: Range<usize>) -> Self {
        Self { code, title: title.into(), at, help: None, fix: None }
    }

    pub(super) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers the text with what is at fault replaced.
    pub(super) fn replace(self, text: &str, by: &str) -> Self {
        let fix = replaced(text, &self.at, by);
        let help = format!("did you mean `{fix}`?");
        Self { fix: Some(fix), ..self }.help(help)
    }
}

/// An amount with the words that say how it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// What it is.
    pub literal: Literal,
    /// The number, as a fraction if it was written so, and the unit in its full name ("0.75 fl oz (US)").
    pub named: String,
    /// The unit, where there is one; of a ratio, the upper one.
    pub measure: Option<&'static Measure>,
}

/// Reads an amount.
pub fn parse(text: &str) -> Result<Literal, LiteralError> {
    read(text).map(|reading| reading.literal)
}

/// Reads an amount and keeps which unit was understood.
pub fn read(text: &str) -> Result<Reading, LiteralError> {
    let (start, end) = (skip_spaces(text, 0), text.trim_end().len());
    if start >= end {
        return Err(LiteralError::new(Code::NotANumber, "the amount is empty", 0..text.len()).help(EXAMPLES));
    }
    if let Some((i, c)) = text.char_indices().find(|(_, c)| c.is_control()) {
        let at = i..i + c.len_utf8();
        let title = format!("{} is a control character, not part of an amount", quoted(text, at.clone()));
        return Err(LiteralError::new(Code::NotANumber, title, at));
    }
    if normalised(&text[start..end]) == AS_NEEDED {
        return Ok(Reading { literal: Literal::AsNeeded, named: AS_NEEDED.to_owned(), measure: None });
    }
    let unsigned =
        text[start..end].strip_prefix(['-', '−', '–']).map_or(start, |rest| skip_spaces(text, end - rest.len()));
    let Some((count, after)) = leading(text, unsigned)? else { return Err(not_a_number(text, start..end)) };
    let negative = unsigned > start;
    if let Some(after) = text.get(after..).map(str::trim_start).and_then(|rest| rest.strip_prefix(':')) {
        let of = after.trim();
        let title = format!("{} is a whole ratio; one part of it was expected", quoted(text, start..end));
        return Err(LiteralError::new(Code::RatioBasis, title, start..end).help(format!(
            "give each part its own share: \"{count} parts by weight\" here and \"{of} parts by weight\" for the other (or by volume)"
        )));
    }
    let reading = match after_times(text, skip_spaces(text, after)) {
        Some(each) => bottles(text, count, unsigned..after, each..end)?,
        None => single(text, if negative { -count } else { count }, start..after, end)?,
    };
    if negative && !matches!(reading.literal, Literal::Temperature(_)) {
        return Err(out_of_range(text, start..after, "is below zero; an amount cannot be negative"));
    }
    Ok(reading)
}

const AS_NEEDED: &str = "as needed";
const EXAMPLES: &str =
    "an amount is written as \"750 g\", \"700 ml\", \"0.75 fl oz\", \"6 g/L\", \"3 each\" or \"as needed\"";

/// A piece of a text as a message shows it: short, and nothing in it that a terminal would obey.
pub(super) fn quoted(text: &str, at: Range<usize>) -> String {
    const LONGEST: usize = 40;
    let piece = text.get(at).unwrap_or_default().trim();
    let mut shown = String::new();
    for c in piece.chars().take(LONGEST) {
        if c.is_control() { shown.extend(c.escape_default()) } else { shown.push(c) }
    }
    let more = if piece.chars().count() > LONGEST { "…" } else { "" };
    format!("`{shown}{more}`")
}

/// The whole text with one piece of it replaced.
pub(super) fn replaced(text: &str, at: &Range<usize>, by: &str) -> String {
    let before = text.get(..at.start).unwrap_or_default();
    // `2oz` becomes `2 fl oz`, not `2fl oz`; `85c` stays close.
    let gap = if before.ends_with(|c: char| c.is_ascii_digit()) && !by.starts_with(|c: char| c.is_ascii_digit()) {
        " "
    } else {
        ""
    };
    format!("{before}{gap}{by}{}", text.get(at.end..).unwrap_or_default()).trim().to_owned()
}

pub(super) fn out_of_range(text: &str, at: Range<usize>, why: &str) -> LiteralError {
    LiteralError::new(Code::OutOfRange, format!("{} {why}", quoted(text, at.clone())), at)
}

fn not_a_number(text: &str, at: Range<usize>) -> LiteralError {
    let title = format!("{} does not begin with a number", quoted(text, at.clone()));
    let error = LiteralError::new(Code::NotANumber, title, at.clone());
    let written = text.get(at.clone()).unwrap_or_default();
    if measure(written).is_some() {
        error.replace(text, &format!("1 {}", written.trim()))
    } else if is_near(&normalised(written), AS_NEEDED) {
        error.replace(text, AS_NEEDED)
    } else {
        error.help(EXAMPLES)
    }
}

/// A number and its unit, which ends at a byte; or a number alone.
fn single(text: &str, count: f64, number: Range<usize>, end: usize) -> Result<Reading, LiteralError> {
    let unit_start = skip_spaces(text, number.end);
    if unit_start >= end {
        return Ok(Reading { literal: Literal::Number(count), named: count.to_string(), measure: None });
    }
    Unit::read(text, unit_start..end)?.times(text, count, number, end)
}

/// Where the amount of one bottle begins: after `x` or `×`, if a number follows.
fn after_times(text: &str, at: usize) -> Option<usize> {
    let rest = text.get(at..)?.strip_prefix(['x', 'X', '×'])?;
    let each = skip_spaces(text, text.len() - rest.len());
    (!matches!(leading(text, each), Ok(None))).then_some(each)
}

fn bottles(text: &str, count: f64, counted: Range<usize>, each: Range<usize>) -> Result<Reading, LiteralError> {
    if count.fract() != 0.0 {
        return Err(out_of_range(text, counted, "is not a whole number of bottles"));
    }
    let Some((size, after)) = leading(text, each.start)? else { return Err(not_a_number(text, each)) };
    let one = single(text, size, each.start..after, each.end)?;
    match one.literal {
        Literal::Volume(volume) => Ok(Reading {
            literal: Literal::Bottles(count, volume),
            named: format!("{count} x {}", one.named),
            measure: one.measure,
        }),
        other => {
            let title =
                format!("{} is {}; what one bottle holds is a volume", quoted(text, each.clone()), other.kind());
            Err(LiteralError::new(Code::WrongDimension, title, each).help("for example \"6 x 250 ml\""))
        }
    }
}

impl Literal {
    /// What it is, for a message.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Mass(_) => "a mass",
            Self::Volume(_) => "a volume",
            Self::Pieces(_) => "a number of pieces",
            Self::Parts(..) => "a share of a ratio",
            Self::Concentration(_) => "a mass for each volume",
            Self::VolumeShare(_) => "a volume for each volume",
            Self::Percent(_) => "a percentage",
            Self::Abv(_) => "a strength",
            Self::Proof(_) => "a US proof",
            Self::Brix(_) => "a Brix",
            Self::Temperature(_) => "a temperature",
            Self::Time(_) => "a time",
            Self::Bottles(..) => "a number of bottles",
            Self::AsNeeded => "an amount to be solved for",
            Self::Number(_) => "a number without a unit",
        }
    }
}
