//! Amounts as people write them: a number, a unit from one table, and the little words around them.

use std::ops::Range;

use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::second;

use crate::diagnostic::Code;
use crate::text::nearest;

use super::measures::{self, Dimension, Measure, measure, normalised};
use super::number::{LARGEST, leading, skip_spaces};
use super::{Mass, MassDensity, Temperature, Time, Volume, celsius, grams, grams_per_litre, millilitres};

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
    /// The number and the unit in its full name ("0.75 fl oz (US)").
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
    let unit_start = skip_spaces(text, after);
    let reading = if let Some(each) = after_times(text, unit_start) {
        bottles(text, count, unsigned..after, each..end)?
    } else if unit_start >= end {
        Reading { literal: Literal::Number(count), named: count.to_string(), measure: None }
    } else {
        let unit = Unit::read(text, unit_start..end)?;
        unit.times(text, if negative { -count } else { count }, start..end)?
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

fn replaced(text: &str, at: &Range<usize>, by: &str) -> String {
    let before = text.get(..at.start).unwrap_or_default();
    // `2oz` becomes `2 fl oz`, not `2fl oz`; `85c` stays close.
    let gap = if before.ends_with(|c: char| c.is_ascii_digit()) && !by.starts_with(|c: char| c.is_ascii_digit()) {
        " "
    } else {
        ""
    };
    format!("{before}{gap}{by}{}", text.get(at.end..).unwrap_or_default()).trim().to_owned()
}

fn out_of_range(text: &str, at: Range<usize>, why: &str) -> LiteralError {
    LiteralError::new(Code::OutOfRange, format!("{} {why}", quoted(text, at.clone())), at)
}

fn not_a_number(text: &str, at: Range<usize>) -> LiteralError {
    let title = format!("{} does not begin with a number", quoted(text, at.clone()));
    let error = LiteralError::new(Code::NotANumber, title, at.clone());
    let written = text.get(at.clone()).unwrap_or_default();
    if measure(written).is_some() {
        error.replace(text, &format!("1 {}", written.trim()))
    } else if is_slip_of(&normalised(written), AS_NEEDED) {
        error.replace(text, AS_NEEDED)
    } else {
        error.help(EXAMPLES)
    }
}

/// Where the amount of one bottle begins: after `x` or `×`, if a number follows.
fn after_times(text: &str, at: usize) -> Option<usize> {
    let rest = text.get(at..)?.strip_prefix(['x', 'X', '×'])?;
    let each = skip_spaces(text, text.len() - rest.len());
    matches!(leading(text, each), Ok(Some(_)) | Err(_)).then_some(each)
}

fn bottles(text: &str, count: f64, counted: Range<usize>, each: Range<usize>) -> Result<Reading, LiteralError> {
    if count.fract() != 0.0 {
        return Err(out_of_range(text, counted, "is not a whole number of bottles"));
    }
    // `leading` is asked again, so that an error in the second number speaks of that number.
    let Some((size, after)) = leading(text, each.start)? else { return Err(not_a_number(text, each)) };
    let unit_start = skip_spaces(text, after);
    let one = if unit_start < each.end {
        Unit::read(text, unit_start..each.end)?.times(text, size, each.clone())?
    } else {
        Reading { literal: Literal::Number(size), named: size.to_string(), measure: None }
    };
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

/// A unit, or a ratio of a unit to an amount of volume.
struct Unit {
    measure: &'static Measure,
    per: Option<(f64, &'static Measure)>,
}

impl Unit {
    fn read(text: &str, at: Range<usize>) -> Result<Self, LiteralError> {
        let written = &text[at.clone()];
        if measure(written).is_none()
            && measures::refusal(written).is_none()
            && let Some((upper, lower)) = ratio(written)
        {
            return Self::read_ratio(text, at.start..at.start + upper, at.start + lower..at.end);
        }
        Ok(Self { measure: named_unit(text, at)?, per: None })
    }

    fn read_ratio(text: &str, upper: Range<usize>, lower: Range<usize>) -> Result<Self, LiteralError> {
        let measure = named_unit(text, upper.clone())?;
        let lower = skip_spaces(text, lower.start)..lower.end;
        let (count, after) = leading(text, lower.start)?.unwrap_or((1.0, lower.start));
        let per = named_unit(text, skip_spaces(text, after)..lower.end)?;
        let whole = upper.start..lower.end;
        match (measure.dimension, per.dimension) {
            (Dimension::Mass | Dimension::Volume, Dimension::Volume) if count > 0.0 => {
                Ok(Self { measure, per: Some((count, per)) })
            }
            (_, Dimension::Volume) if count == 0.0 => Err(out_of_range(text, whole, "divides by zero")),
            (Dimension::Mass, Dimension::Mass) => {
                let title = format!("{} is a share by weight", quoted(text, whole.clone()));
                Err(LiteralError::new(Code::UnknownUnit, title, whole)
                    .help("write it in percent: 10 g/kg of the finished weight is \"1 %\""))
            }
            _ => {
                let title = format!("{} is not mass or volume for each volume", quoted(text, whole.clone()));
                Err(LiteralError::new(Code::UnknownUnit, title, whole).help("for example \"6 g/L\" or \"20 ml/L\""))
            }
        }
    }

    /// So many of it; `at` is the whole amount.
    fn times(&self, text: &str, count: f64, at: Range<usize>) -> Result<Reading, LiteralError> {
        let measure = self.measure;
        let value = count * measure.factor;
        let within = |highest: f64, what: &str| {
            if value <= highest { Ok(value) } else { Err(out_of_range(text, at.clone(), what)) }
        };
        let literal = match (self.per, measure.dimension) {
            (Some((of, per)), dimension) => {
                let share = value / (of * per.factor);
                if !share.is_finite() || share.abs() > LARGEST {
                    return Err(out_of_range(text, at, "is more than any amount can be"));
                }
                match dimension {
                    // g/ml to g/L
                    Dimension::Mass => Literal::Concentration(grams_per_litre(1000.0 * share)),
                    _ => Literal::VolumeShare(share),
                }
            }
            (None, Dimension::Mass) => Literal::Mass(grams(value)),
            (None, Dimension::Volume) => Literal::Volume(millilitres(value)),
            (None, Dimension::Time) => Literal::Time(Time::new::<second>(value)),
            (None, Dimension::Celsius) => temperature(text, celsius(value), at)?,
            (None, Dimension::Fahrenheit) => temperature(text, Temperature::new::<degree_fahrenheit>(value), at)?,
            (None, Dimension::Pieces) => Literal::Pieces(value),
            (None, Dimension::Parts(basis)) => Literal::Parts(value, basis),
            (None, Dimension::Percent) => Literal::Percent(value),
            (None, Dimension::Abv) => Literal::Abv(within(100.0, "is more than pure alcohol")?),
            (None, Dimension::Proof) => Literal::Proof(within(200.0, "is more than pure alcohol, which is 200 proof")?),
            (None, Dimension::Brix) => Literal::Brix(within(100.0, "is more than 100 g of solids in 100 g")?),
        };
        let name = if count == 1.0 { measure.name } else { measure.plural };
        let named = match self.per {
            None => format!("{count} {name}"),
            Some((1.0, per)) => format!("{count} {name}/{}", per.name),
            Some((of, per)) => format!("{count} {name}/{of} {}", per.plural),
        };
        Ok(Reading { literal, named, measure: Some(measure) })
    }
}

fn temperature(text: &str, read: Temperature, at: Range<usize>) -> Result<Literal, LiteralError> {
    const ABSOLUTE_ZERO_C: f64 = -273.15;
    if read.get::<degree_celsius>() < ABSOLUTE_ZERO_C {
        return Err(out_of_range(text, at, "is colder than absolute zero, -273.15 °C"));
    }
    Ok(Literal::Temperature(read))
}

/// Where the upper unit ends and the lower amount begins, at `/` or `per`.
fn ratio(written: &str) -> Option<(usize, usize)> {
    if let Some(slash) = written.find('/') {
        return Some((slash, slash + 1));
    }
    let mut from = 0;
    for word in written.split_whitespace() {
        let start = from + written.get(from..)?.find(word)?;
        from = start + word.len();
        if word.eq_ignore_ascii_case("per") {
            return Some((start, from));
        }
    }
    None
}

/// The unit that is written here, and nothing else.
fn named_unit(text: &str, at: Range<usize>) -> Result<&'static Measure, LiteralError> {
    let written = text.get(at.clone()).unwrap_or_default();
    let at = at.start..at.start + written.trim_end().len();
    if let Some(found) = known_unit(text, at.clone()) {
        return found;
    }
    // A unit and then more: the ingredient, another amount.
    const LONGEST_UNIT_WORDS: usize = 4;
    let ends = written.char_indices().filter(|(_, c)| c.is_whitespace()).map(|(i, _)| at.start + i);
    let ends: Vec<_> = ends.take(LONGEST_UNIT_WORDS).collect();
    for end in ends.into_iter().rev() {
        match known_unit(text, at.start..end) {
            Some(Ok(_)) => {
                let rest = skip_spaces(text, end)..at.end;
                let title = format!("{} is left over after {}", quoted(text, rest.clone()), quoted(text, 0..end));
                let mut error = LiteralError::new(Code::UnknownUnit, title, rest);
                error.fix = text.get(..end).map(|kept| kept.trim().to_owned());
                return Err(error.help("an amount is one number and one unit"));
            }
            Some(refused) => return refused,
            None => {}
        }
    }
    let title = if at.is_empty() {
        "a unit was expected".to_owned()
    } else {
        format!("{} is not a unit", quoted(text, at.clone()))
    };
    let error = LiteralError::new(Code::UnknownUnit, title, at);
    let spelling = normalised(written);
    let spellings = measures::MEASURES.iter().flat_map(|m| m.spellings).copied();
    Err(match nearest_slip(&spelling, spellings) {
        Some(meant) => error.replace(text, meant),
        None => error.help(
            "units are: g, kg, oz wt, lb, ml, L, fl oz, tsp, dash, each, parts by weight, %, g/L, °Bx, °C, min, days",
        ),
    })
}

/// The unit that is written like this, or why it is refused; none if it is no unit at all.
fn known_unit(text: &str, at: Range<usize>) -> Option<Result<&'static Measure, LiteralError>> {
    let written = text.get(at.clone())?;
    let Some(refused) = measures::refusal(written) else { return measure(written).map(Ok) };
    let shown = quoted(text, at.clone());
    if refused.choices.is_empty() {
        let error = LiteralError::new(Code::UnknownUnit, format!("{shown} is not a unit that is read here"), at);
        return Some(Err(error.help(refused.advice)));
    }
    let choices: Vec<_> = refused
        .choices
        .iter()
        .map(|choice| {
            let whole = replaced(text, &at, choice);
            match read(&whole) {
                Ok(reading) => format!("`{whole}`{}", size(&reading)),
                Err(_) => format!("`{choice}`"),
            }
        })
        .collect();
    let help = match choices.split_last() {
        Some((last, [])) => format!("write {last}"),
        Some((last, others)) => format!("write {} or {last}", others.join(", ")),
        None => String::new(),
    };
    Some(Err(LiteralError::new(Code::AmbiguousUnit, format!("{shown} can mean more than one unit"), at).help(help)))
}

/// How much that is, in brackets, where the unit alone does not say it.
fn size(reading: &Reading) -> String {
    match reading.measure {
        Some(m) if m.factor != 1.0 => format!(" ({})", super::echo::echo(&reading.literal)),
        _ => String::new(),
    }
}

/// One letter wrong, missing, too many or swapped; two in a long word. Further away is a guess.
fn is_slip_of(written: &str, known: &str) -> bool {
    let allowed = if known.len() < 8 { 1 } else { 2 };
    strsim::damerau_levenshtein(written, known) <= allowed
}

fn nearest_slip<'a>(written: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    const LONGEST: usize = 40;
    if written.len() > LONGEST {
        return None;
    }
    nearest(written, known.filter(|k| is_slip_of(written, k)))
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
