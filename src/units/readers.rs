//! Readers that take one kind of amount and refuse every other.

use crate::diagnostic::Code;

use super::error::{LiteralError, wrong};
use super::literal::{parse, read_by};
use super::{Abv, Brix, Customs, Literal, Mass, MassDensity, Temperature, Time, Volume};

/// A strength as a label states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Strength {
    /// Percent by volume at 20 °C.
    Abv(Abv),
    /// US proof: half of it is percent by volume at 60 °F, which is not quite the same.
    Proof(f64),
}

/// A mass: "750 g", "2 lb".
pub fn mass(text: &str) -> Result<Mass, LiteralError> {
    expect(text, "a mass", "\"750 g\" or \"2 lb\"", |l| if let Literal::Mass(x) = l { Some(x) } else { None })
}

/// A volume: "700 ml", "0.75 fl oz".
pub fn volume(text: &str) -> Result<Volume, LiteralError> {
    volume_by(text, &Customs::default())
}

/// The same in a house that settles what an ounce, a cup or a pint is.
pub fn volume_by(text: &str, customs: &Customs) -> Result<Volume, LiteralError> {
    let literal = read_by(text, customs)?.literal;
    let volume = if let Literal::Volume(x) = literal { Some(x) } else { None };
    volume.ok_or_else(|| unexpected(text, literal, "a volume", "\"700 ml\" or \"0.75 fl oz\""))
}

/// A temperature: "4 °C", "185 F".
pub fn temperature(text: &str) -> Result<Temperature, LiteralError> {
    expect(text, "a temperature", "\"4 °C\" or \"185 °F\"", |l| {
        if let Literal::Temperature(x) = l { Some(x) } else { None }
    })
}

/// A length of time: "5 min", "7 days".
pub fn duration(text: &str) -> Result<Time, LiteralError> {
    expect(
        text,
        "a length of time",
        "\"5 min\" or \"7 days\"",
        |l| if let Literal::Time(x) = l { Some(x) } else { None },
    )
}

/// A share as a fraction, 0 to 1, written in percent: "3 %" is 0.03.
pub fn fraction(text: &str) -> Result<f64, LiteralError> {
    let share =
        expect(text, "a share in percent", "\"3 %\"", |l| if let Literal::Percent(x) = l { Some(x) } else { None })?;
    if share > 1.0 {
        return Err(beyond(text, "is more than the whole", "a share from 0 % to 100 % was expected"));
    }
    Ok(share)
}

/// A strength: "18", "18 %", "18 % vol", "36 proof".
pub fn abv(text: &str) -> Result<Strength, LiteralError> {
    let percent = expect(text, "a strength", "\"18 % vol\" or \"36 proof\"", |literal| match literal {
        Literal::Number(percent) | Literal::Abv(percent) => Some(Ok(percent)),
        Literal::Percent(fraction) => Some(Ok(100.0 * fraction)),
        Literal::Proof(proof) => Some(Err(proof)),
        _ => None,
    })?;
    match percent {
        Err(proof) => Ok(Strength::Proof(proof)),
        Ok(percent) => Abv::new(percent)
            .map(Strength::Abv)
            .ok_or_else(|| beyond(text, "is more than pure alcohol", "a strength from 0 to 100 % vol was expected")),
    }
}

/// Dissolved solids: "64", "64 °Bx".
pub fn brix(text: &str) -> Result<Brix, LiteralError> {
    let brix = expect(text, "a Brix", "\"64 °Bx\"", |literal| match literal {
        Literal::Number(brix) | Literal::Brix(brix) => Some(brix),
        _ => None,
    })?;
    Brix::new(brix).ok_or_else(|| beyond(text, "is more than 100 g of solids in 100 g", "0 to 100 °Bx was expected"))
}

/// A mass for each volume: "250 g/L".
pub fn concentration(text: &str) -> Result<MassDensity, LiteralError> {
    expect(
        text,
        "a mass for each volume",
        "\"6 g/L\"",
        |l| if let Literal::Concentration(x) = l { Some(x) } else { None },
    )
}

/// A number alone: "1.058", "3.4".
pub(crate) fn number(text: &str) -> Result<f64, LiteralError> {
    expect(text, "a plain number", "\"3.4\"", |l| if let Literal::Number(x) = l { Some(x) } else { None })
}

fn expect<T>(
    text: &str,
    what: &str,
    example: &str,
    pick: impl FnOnce(Literal) -> Option<T>,
) -> Result<T, LiteralError> {
    let literal = parse(text)?;
    pick(literal).ok_or_else(|| unexpected(text, literal, what, example))
}

fn unexpected(text: &str, literal: Literal, what: &str, example: &str) -> LiteralError {
    let (code, why) = match literal {
        Literal::Number(_) => (Code::NoUnit, format!("has no unit; {what} was expected")),
        _ => (Code::WrongDimension, format!("is {}; {what} was expected", literal.kind())),
    };
    wrong(code, text, 0..text.len(), &why).help(format!("for example {example}"))
}

fn beyond(text: &str, why: &str, help: &str) -> LiteralError {
    wrong(Code::OutOfRange, text, 0..text.len(), why).help(help)
}
