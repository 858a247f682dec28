//! How much of a card is asked for and what it shall be, as people write it: on a command line, in a field of the page.

use crate::card::{Amount, Makes, TargetKind, target_value};
use crate::units::{Customs, Literal, literal};

use super::BatchSize;

/// A volume, a weight, or bottles, by the measures of a house.
pub(crate) fn makes(written: &str, customs: &Customs) -> Result<Makes, String> {
    // "fill 8 x 700 ml", as it is said.
    let written = written.trim();
    let written = written.strip_prefix("fill ").unwrap_or(written);
    let makes = match literal::read_by(written, customs).map_err(String::from)?.literal {
        Literal::Volume(v) => Makes::Volume(v),
        Literal::Mass(m) => Makes::Mass(m),
        Literal::Bottles(count, each) => Makes::Bottles { count, each },
        _ => return Err("a volume, a weight or bottles were expected".to_owned()),
    };
    let some = match makes {
        Makes::Volume(v) => v.value > 0.0,
        Makes::Mass(m) => m.value > 0.0,
        Makes::Bottles { count, each } => count > 0.0 && each.value > 0.0,
    };
    if some { Ok(makes) } else { Err("nothing would be made".to_owned()) }
}

/// A pot by its size.
#[cfg(feature = "cli")]
pub(crate) fn pot(written: &str, customs: &Customs) -> Result<BatchSize, String> {
    match makes(written, customs)? {
        Makes::Volume(pot) => Ok(BatchSize::Pot(pot)),
        _ => Err("a volume was expected".to_owned()),
    }
}

/// As much as this much of one part allows ("white sugar=3 kg").
pub(crate) fn from(written: &str, customs: &Customs) -> Result<BatchSize, String> {
    let (part, amount) = written.split_once('=').ok_or("a part, `=` and an amount were expected")?;
    let amount = match literal::read_by(amount.trim(), customs).map_err(String::from)?.literal {
        Literal::Mass(m) if m.value > 0.0 => Amount::Mass(m),
        Literal::Volume(v) if v.value > 0.0 => Amount::Volume(v),
        _ => return Err("the amount must be a weight or a volume above nothing".to_owned()),
    };
    Ok(BatchSize::From(part.trim().to_owned(), amount))
}

/// A target as a command gives it ("brix=50").
pub(crate) fn target(written: &str) -> Result<(TargetKind, f64), String> {
    let (key, value) = written.split_once('=').ok_or("a target, `=` and a value were expected")?;
    let kind = TargetKind::from_key(key.trim()).ok_or("the targets are brix, abv, sugar, acid and ph")?;
    target_value(kind, value.trim()).map(|value| (kind, value)).map_err(|d| d.title)
}
