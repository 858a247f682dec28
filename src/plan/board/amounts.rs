//! Amounts as a board has them: what is made, used and bought.

use crate::diagnostic::Code;
use crate::units::{Literal, LiteralError, in_grams, in_millilitres, literal};

use super::super::model::PrepUnit;
use super::model::{Quantity, Rate};

/// A volume, a weight or pieces.
pub(super) fn bought(written: &str) -> Result<Quantity, LiteralError> {
    match literal::parse(written)? {
        Literal::Pieces(count) if count <= MOST => Ok(Quantity { amount: count, unit: PrepUnit::Pieces }),
        _ => quantity(written),
    }
}

/// A volume or a weight.
pub(in crate::plan) fn quantity(written: &str) -> Result<Quantity, LiteralError> {
    match literal::parse(written)? {
        Literal::Volume(volume) => Ok(Quantity { amount: in_millilitres(volume), unit: PrepUnit::Ml }),
        Literal::Bottles(count, each) => Ok(Quantity { amount: count * in_millilitres(each), unit: PrepUnit::Ml }),
        Literal::Mass(mass) => Ok(Quantity { amount: in_grams(mass), unit: PrepUnit::G }),
        Literal::Number(_) => Err(wrong(Code::NoUnit, written, "has no unit")),
        other => Err(wrong(Code::WrongDimension, written, &format!("is {}", other.kind()))),
    }
    .and_then(|quantity| match quantity.amount <= MOST {
        true => Ok(quantity),
        false => Err(wrong(Code::OutOfRange, written, "is more than any bar makes")),
    })
}

const MOST: f64 = 1e7;

fn wrong(code: Code, written: &str, why: &str) -> LiteralError {
    let title = format!("`{}` {why}; a volume or a weight was expected", written.trim());
    LiteralError::new(code, title, 0..written.len())
        .help("for example \"2 L\", \"700 ml\", \"6 x 250 ml\" or \"500 g\"")
}

/// "6 L a week", "900 ml a day", "6 L/week".
pub(super) fn rate(written: &str) -> Result<Rate, LiteralError> {
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
        None => {
            let title = format!("`{}` does not say in what time it is used", written.trim());
            let error = LiteralError::new(Code::NoUnit, title, 0..written.len());
            Err(error.help("write \"6 L a week\" or \"900 ml a day\""))
        }
    }
}

/// "1 L" or "1 L up to 4 L".
pub(super) fn batch(written: &str) -> Result<(Quantity, Option<Quantity>), LiteralError> {
    let Some((least, most)) = written.split_once("up to") else { return Ok((quantity(written)?, None)) };
    let (least, most) = (if least.trim().is_empty() { None } else { Some(quantity(least)?) }, quantity(most)?);
    let least = least.unwrap_or(Quantity { amount: 0.0, unit: most.unit });
    if least.unit != most.unit || least.amount > most.amount || most.amount <= 0.0 {
        let title = format!("`{}` does not go from a smaller batch to a larger one", written.trim());
        let error = LiteralError::new(Code::OutOfRange, title, 0..written.len());
        return Err(error.help("for example batch = \"1 L up to 4 L\""));
    }
    Ok((least, Some(most)))
}
