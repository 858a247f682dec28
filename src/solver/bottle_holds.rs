//! What a bottle of a thing holds, where a line counts bottles and says no size: the house's bottle is that of its spirits.

use crate::card::{Card, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::larder::Ingredient;
use crate::units::measures::Dimension;
use crate::units::{Literal, Volume, in_millilitres};
use crate::vocabulary::{Kind, Word};

/// A bottle of wine, sparkling or fortified, in every country, ml: the one size of 27 CFR 4.72 and of Directive 2007/45/EC that nearly all
/// of it is sold in (the sizes from memory; that it is this one, common practice, no source).
const WINE_ML: f64 = 750.0;

/// What one holds, and how many times the house's own that is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct BottleHolds {
    /// Millilitres.
    pub ml: f64,
    /// Times what the card or the house says of bottles.
    pub times: f64,
}

/// Of a line that counts bottles; beer, cider and soda come in too many. A size on the card itself is believed.
pub(super) fn of_part(
    card: &Card,
    part: &Part,
    ingredient: &Ingredient,
    of_house: Option<Volume>,
) -> Result<Option<BottleHolds>, Diagnostic> {
    let counts = part.written.measure.is_some_and(|measure| measure.dimension == Dimension::Bottles);
    let is_amount = matches!(part.written.literal, Literal::Bottles(..) | Literal::Volume(_));
    let Some(own) = card.bottle.or(of_house).map(in_millilitres).filter(|_| counts && is_amount) else {
        return Ok(None);
    };
    match ingredient.kind {
        _ if card.bottle.is_some() => Ok(Some(BottleHolds { ml: own, times: 1.0 })),
        Some(Kind::Wine | Kind::Fortified) => Ok(Some(BottleHolds { ml: WINE_ML, times: WINE_ML / own })),
        Some(kind @ (Kind::Beer | Kind::Cider | Kind::Soda)) => {
            let title = format!("`{}` = \"{}\": how much is in it?", part.label.value, part.written.text.trim());
            let label = format!("bottles of {} come in several sizes", kind.word());
            Err(Diagnostic::error(Code::AmbiguousUnit, title)
                .at(part.amount.span, label)
                .help("write what its label says: \"1 bottle (330 ml)\", \"1 bottle (500 ml)\""))
        }
        _ => Ok(Some(BottleHolds { ml: own, times: 1.0 })),
    }
}
