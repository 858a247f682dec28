//! What a bottle of a thing holds, where a line counts bottles and says no size: the house's bottle is that of its spirits.

use crate::card::{Card, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::Settings;
use crate::larder::Ingredient;
use crate::units::measures::Dimension;
use crate::units::{BOTTLE_UNTIL_KNOWN_ML, Literal, in_millilitres};
use crate::vocabulary::{Kind, MeasureSystem, Word};

/// A bottle of wine, sparkling or fortified, in every country, ml: the one size of 27 CFR 4.72 and of Directive 2007/45/EC that nearly all
/// of it is sold in (the sizes from memory; that it is this one, common practice, no source).
const WINE_ML: f64 = 750.0;

/// A bottle of spirit or of liqueur where nobody says which, ml: in the US and elsewhere, of the sizes of 27 CFR 5.203 and of Directive
/// 2007/45/EC the one that is usual (the sizes from memory; that it is this one, common practice, no source).
const SPIRIT_US_ML: f64 = 750.0;
const SPIRIT_ML: f64 = 700.0;

/// What one holds, and how many times the house's own that is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct BottleHolds {
    /// Millilitres.
    pub ml: f64,
    /// Times what the card or the house says of bottles.
    pub times: f64,
}

/// Of a line that counts bottles, of an ingredient or of what is none; beer, cider and soda come in too many. A size on the card itself
/// is believed.
pub(super) fn of_part(
    card: &Card,
    part: &Part,
    ingredient: Option<&Ingredient>,
    house: &Settings,
) -> Result<Option<BottleHolds>, Diagnostic> {
    let counts = part.written.measure.is_some_and(|measure| measure.dimension == Dimension::Bottles);
    let is_amount = matches!(part.written.literal, Literal::Bottles(..) | Literal::Volume(_));
    if !(counts && is_amount) {
        return Ok(None);
    }
    let stated = card.bottle.or(house.bottle).map(in_millilitres);
    let own = stated.unwrap_or(BOTTLE_UNTIL_KNOWN_ML);
    let holds = |ml: f64| Ok(Some(BottleHolds { ml, times: ml / own }));
    let asks = |title: String, label: String, help: &str| {
        Err(Diagnostic::error(Code::AmbiguousUnit, title).at(part.amount.span, label).help(help))
    };
    let line = format!("`{}` = \"{}\"", part.label.value, part.written.text.trim());
    match ingredient.and_then(|ingredient| ingredient.kind) {
        _ if card.bottle.is_some() || ingredient.is_none() && stated.is_some() => holds(own),
        Some(Kind::Wine | Kind::Fortified) => holds(WINE_ML),
        Some(kind @ (Kind::Beer | Kind::Cider | Kind::Soda)) => asks(
            format!("{line}: how much is in it?"),
            format!("bottles of {} come in several sizes", kind.word()),
            "write what its label says: \"1 bottle (330 ml)\", \"1 bottle (500 ml)\"",
        ),
        _ if stated.is_some() => holds(own),
        Some(Kind::Spirit | Kind::Liqueur) if house.measures == Some(MeasureSystem::Us) => holds(SPIRIT_US_ML),
        Some(Kind::Spirit | Kind::Liqueur) => holds(SPIRIT_ML),
        _ => asks(
            format!("{line} does not say what one holds"),
            "which size?".to_owned(),
            "write what its label says: \"1 bottle (500 ml)\"; or say it once: bottle = \"700 ml\" on the card, or under [house] in house.toml",
        ),
    }
}
