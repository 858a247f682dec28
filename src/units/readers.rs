//! Readers that take one kind of amount and refuse every other.

use crate::diagnostic::Code;

use super::error::{LiteralError, quoted};
use super::literal::parse;
use super::{Abv, Brix, Literal, Mass, MassDensity, Temperature, Time, Volume};

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
    expect(text, "a mass", "\"750 g\" or \"2 lb\"", |literal| match literal {
        Literal::Mass(mass) => Some(mass),
        _ => None,
    })
}

/// A volume: "700 ml", "0.75 fl oz".
pub fn volume(text: &str) -> Result<Volume, LiteralError> {
    expect(text, "a volume", "\"700 ml\" or \"0.75 fl oz\"", |literal| match literal {
        Literal::Volume(volume) => Some(volume),
        _ => None,
    })
}

/// A temperature: "4 °C", "185 F".
pub fn temperature(text: &str) -> Result<Temperature, LiteralError> {
    expect(text, "a temperature", "\"4 °C\" or \"185 °F\"", |literal| match literal {
        Literal::Temperature(temperature) => Some(temperature),
        _ => None,
    })
}

/// A length of time: "5 min", "7 days".
pub fn duration(text: &str) -> Result<Time, LiteralError> {
    expect(text, "a length of time", "\"5 min\" or \"7 days\"", |literal| match literal {
        Literal::Time(time) => Some(time),
        _ => None,
    })
}

/// A share as a fraction, 0 to 1, written in percent: "3 %" is 0.03.
pub fn fraction(text: &str) -> Result<f64, LiteralError> {
    let share = expect(text, "a share in percent", "\"3 %\"", |literal| match literal {
        Literal::Percent(fraction) => Some(fraction),
        _ => None,
    })?;
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
    expect(text, "a mass for each volume", "\"6 g/L\"", |literal| match literal {
        Literal::Concentration(concentration) => Some(concentration),
        _ => None,
    })
}

/// A number alone: "1.058", "3.4".
pub(crate) fn number(text: &str) -> Result<f64, LiteralError> {
    expect(text, "a plain number", "\"3.4\"", |literal| match literal {
        Literal::Number(number) => Some(number),
        _ => None,
    })
}

fn expect<T>(
    text: &str,
    what: &str,
    example: &str,
    pick: impl FnOnce(Literal) -> Option<T>,
) -> Result<T, LiteralError> {
    let literal = parse(text)?;
    pick(literal).ok_or_else(|| {
        let at = 0..text.len();
        let shown = quoted(text, at.clone());
        let (code, title) = match literal {
            Literal::Number(_) => (Code::NoUnit, format!("{shown} has no unit; {what} was expected")),
            _ => (Code::WrongDimension, format!("{shown} is {}; {what} was expected", literal.kind())),
        };
        LiteralError::new(code, title, at).help(format!("for example {example}"))
    })
}

fn beyond(text: &str, why: &str, help: &str) -> LiteralError {
    LiteralError::new(Code::OutOfRange, format!("{} {why}", quoted(text, 0..text.len())), 0..text.len()).help(help)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{degrees_celsius, in_grams};

    #[test]
    fn each_reader_takes_its_kind() {
        assert_eq!(in_grams(mass("1.2 kg").unwrap()).round(), 1200.0);
        assert!((degrees_celsius(temperature("185F").unwrap()) - 85.0).abs() < 1e-9);
        assert_eq!(fraction("3 %"), Ok(0.03));
        assert_eq!(abv("36 proof"), Ok(Strength::Proof(36.0)));
        assert_eq!(abv("18 % vol"), abv("18"));
        assert_eq!(brix("64").unwrap().get(), 64.0);
    }

    #[test]
    fn each_reader_shows_what_it_takes() {
        let error = volume("750 g").unwrap_err();
        assert_eq!(error.code, Code::WrongDimension);
        assert_eq!(error.title, "`750 g` is a mass; a volume was expected");
        assert_eq!(error.help.as_deref(), Some("for example \"700 ml\" or \"0.75 fl oz\""));
        assert_eq!(fraction("0.03").unwrap_err().code, Code::NoUnit);
        assert_eq!(fraction("40 % vol").unwrap_err().code, Code::WrongDimension);
        assert_eq!(fraction("130 %").unwrap_err().code, Code::OutOfRange);
        assert_eq!(abv("101").unwrap_err().code, Code::OutOfRange);
    }
}
