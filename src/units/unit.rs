//! The unit behind the number: one from the table, or a ratio of two.

use std::ops::Range;
use std::sync::Arc;

use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::second;

use crate::diagnostic::Code;
use crate::spelling::{Memo, is_near, nearest};

use super::amount::{Literal, Reading};
use super::customs::Customs;
use super::error::{LiteralError, out_of_range, quoted, wrong};
use super::measures::{self, AmbiguousUnit, Basis, Dimension, Measure, Settled, measure};
use super::number::{LARGEST, leading};
use super::spaces::skip_spaces;
use super::taken::fluid_ounce;
use super::{Temperature, Time, celsius, grams, grams_per_litre, millilitres};

pub(super) enum UnitError {
    Unknown(LiteralError),
    /// It is a word that is understood and refused, and where it stands.
    Refused(&'static AmbiguousUnit, Range<usize>),
}

impl From<LiteralError> for UnitError {
    fn from(error: LiteralError) -> Self {
        Self::Unknown(error)
    }
}

pub(super) struct Unit {
    measure: &'static Measure,
    settled: Option<Settled>,
    per: Option<(f64, &'static Measure)>,
}

impl Unit {
    pub(super) fn read(text: &str, at: Range<usize>, customs: &Customs) -> Result<Self, UnitError> {
        let written = &text[at.clone()];
        if measure(written).is_none()
            && measures::refusal(written).is_none()
            && let Some((upper, lower)) = ratio(written)
        {
            return Self::read_ratio(text, at.start..at.start + upper, at.start + lower..at.end, customs);
        }
        let (measure, settled) = settled_unit(text, at, customs)?;
        Ok(Self { measure, settled, per: None })
    }

    fn read_ratio(text: &str, upper: Range<usize>, lower: Range<usize>, customs: &Customs) -> Result<Self, UnitError> {
        let (measure, of_upper) = settled_unit(text, upper.clone(), customs)?;
        let lower = skip_spaces(text, lower.start)..lower.end;
        let (count, after) = leading(text, lower.start, customs)?.unwrap_or((1.0, lower.start));
        let (per, of_lower) = settled_unit(text, skip_spaces(text, after)..lower.end, customs)?;
        let whole = upper.start..lower.end;
        match (measure.dimension, per.dimension) {
            (Dimension::Mass | Dimension::Volume, Dimension::Volume) if count > 0.0 => {
                Ok(Self { measure, settled: of_upper.or(of_lower), per: Some((count, per)) })
            }
            (_, Dimension::Volume) if count == 0.0 => Err(out_of_range(text, whole, "divides by zero").into()),
            (Dimension::Mass, Dimension::Mass) => {
                let error = wrong(Code::UnknownUnit, text, whole, "is a share by weight");
                Err(error.help("write it in percent: 10 g/kg of the finished weight is \"1 %\"").into())
            }
            _ => {
                let error = wrong(Code::UnknownUnit, text, whole, "is not mass or volume for each volume");
                Err(error.help("for example \"6 g/L\" or \"20 ml/L\"").into())
            }
        }
    }

    /// So many of it; the number stands in the text, and the amount ends at a byte.
    pub(super) fn times(
        &self,
        text: &str,
        count: f64,
        number: Range<usize>,
        end: usize,
        customs: &Customs,
    ) -> Result<Reading, LiteralError> {
        let at = number.start..end;
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
            (None, Dimension::Parts) => Literal::Parts(value, customs.ratio),
            (None, Dimension::PartsByWeight) => Literal::Parts(value, Some(Basis::Weight)),
            (None, Dimension::PartsByVolume) => Literal::Parts(value, Some(Basis::Volume)),
            (None, Dimension::Percent) => Literal::Percent(value),
            (None, Dimension::Abv) => Literal::Abv(within(100.0, "is more than pure alcohol")?),
            (None, Dimension::Proof) => Literal::Proof(within(200.0, "is more than pure alcohol, which is 200 proof")?),
            (None, Dimension::Bottles) => match customs.bottle {
                Some(each) if count.fract() == 0.0 => Literal::Bottles(count, each),
                // What is poured of one and not filled into some.
                Some(each) => Literal::Volume(each * count),
                None => return Err(bottle_of_what_size(text, skip_spaces(text, number.end)..end)),
            },
            (None, Dimension::Brix) => Literal::Brix(within(100.0, "is more than 100 g of solids in 100 g")?),
        };
        let name = if count == 1.0 { &measure.name } else { &measure.plural };
        // `1/3` says more than 0.3333333333333333.
        let decimal = count.to_string();
        let written = text.get(number).unwrap_or_default();
        let number = if written.chars().count() < decimal.len() { written } else { &decimal };
        let named = match self.per {
            None => format!("{number} {name}"),
            Some((1.0, per)) => format!("{number} {name}/{}", per.name),
            Some((of, per)) => format!("{number} {name}/{of} {}", per.plural),
        };
        let settled = self.settled;
        Ok(Reading { text: text.to_owned(), literal, named, measure: Some(measure), settled, counted: None })
    }
}

fn bottle_of_what_size(text: &str, at: Range<usize>) -> LiteralError {
    wrong(Code::UnknownUnit, text, at, "does not say what one holds").help(
        "say it once: bottle = \"700 ml\" on the card, or under [house] in house.toml; or here, as \"6 x 700 ml\"",
    )
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

/// The unit, and how the house settles it where the word alone means more than one.
fn settled_unit(
    text: &str,
    at: Range<usize>,
    customs: &Customs,
) -> Result<(&'static Measure, Option<Settled>), UnitError> {
    let settled = match named_unit(text, at.clone()) {
        Ok(measure) => match fluid_ounce(measure, text, customs.measures) {
            Some(settled) => settled,
            None => return Ok((measure, None)),
        },
        Err(UnitError::Refused(refusal, of_unit)) => {
            let settled = customs.measures.and_then(|system| refusal.settled(system));
            let Some(settled) = settled else { return Err(UnitError::Refused(refusal, of_unit)) };
            if text.get(of_unit.end..at.end).is_some_and(|rest| !rest.trim().is_empty()) {
                return Err(left_over(text, of_unit.end, at.end).into());
            }
            settled
        }
        Err(unknown) => return Err(unknown),
    };
    Ok((settled.measure, Some(settled)))
}

fn named_unit(text: &str, at: Range<usize>) -> Result<&'static Measure, UnitError> {
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
            Some(Ok(_)) => return Err(left_over(text, end, at.end).into()),
            Some(refused) => return refused,
            None => {}
        }
    }
    let error = match at.is_empty() {
        true => LiteralError::new(Code::UnknownUnit, "a unit was expected", at),
        false => wrong(Code::UnknownUnit, text, at, "is not a unit"),
    };
    let error = match *nearest_slip(&measures::normalised(written)) {
        Some(meant) => error.replace(text, meant),
        None => error.help(
            "units are: g, kg, oz wt, lb, ml, L, fl oz, tsp, dash, each, parts by weight, %, g/L, °Bx, °C, min, days",
        ),
    };
    Err(error.into())
}

/// An amount that ends at a byte, and more behind it.
fn left_over(text: &str, from: usize, end: usize) -> LiteralError {
    let rest = skip_spaces(text, from)..end;
    let title = format!("{} is left over after {}", quoted(text, rest.clone()), quoted(text, 0..from));
    let mut error = LiteralError::new(Code::UnknownUnit, title, rest);
    error.fix = text.get(..from).map(|kept| kept.trim().to_owned());
    error.help("an amount is one number and one unit")
}

/// The unit that is written like this, or why it is refused; none if it is no unit at all.
fn known_unit(text: &str, at: Range<usize>) -> Option<Result<&'static Measure, UnitError>> {
    let written = text.get(at.clone())?;
    match measures::refusal(written) {
        Some(refusal) => Some(Err(UnitError::Refused(refusal, at))),
        None => measure(written).map(Ok),
    }
}

/// The spelling of a unit that was probably meant. Looked for once: the words of a step are tried as a unit in many places.
fn nearest_slip(written: &str) -> Arc<Option<&'static str>> {
    const LONGEST: usize = 40;
    static SLIPS: Memo<Option<&'static str>> = Memo::new();
    if written.len() > LONGEST {
        return Arc::default();
    }
    SLIPS.of(written, |written| {
        let spellings = measures::MEASURES.iter().flat_map(|m| m.spellings.iter()).map(String::as_str);
        nearest(written, spellings.filter(|known| is_near(written, known)))
    })
}
