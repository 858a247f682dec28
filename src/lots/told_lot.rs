//! A lot that is told to be a part of another: whether it can be, and whether it is as strong as the card of that one counts it.

use std::collections::BTreeSet;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::properties::{TargetKind, value_of};
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::spelling::fold;
use crate::units::display::grouped;

use super::ahead::{bottled_as, poured_as};
use super::book::{LotBook, LotState};
use super::event::{PartFrom, PartUsed};
use super::sheet::FrozenSheet;

/// What was weighed of two batches, and what was read of one, may be so far apart, % vol (ours).
pub(super) const STRONGER_BY: f64 = 2.0;

/// A lot of another product is refused. One that is stronger or weaker than what the card was solved with is said: what it went into has
/// another strength than its label. `sheet` is what the lot `into` was made from.
pub(crate) fn told_lot(
    into: &LotState,
    (part, from): (&PartUsed, &PartFrom),
    sheet: Option<&FrozenSheet>,
    (book, house): (&LotBook, &House),
) -> Option<Diagnostic> {
    let PartFrom::Lot(code) = from else { return None };
    let lot = book.lot(code)?;
    let product = &lot.recorded.product;
    if !called(part, house).contains(&fold(product)) {
        let title = format!("lot {code} is {product}, not {}", part.of);
        return Some(Diagnostic::error(Code::BadArgument, title).help("name a lot of it: stillroom due shows them"));
    }
    let is = lot.recorded.abv_pct?;
    let (_, solved) = sheet?.solved(into)?;
    let (least, most) = counted(&solved, &part.of)?;
    let counts = match most - least < 0.05 {
        true => grouped(least, 1),
        false => format!("{} to {}", grouped(least, 1), grouped(most, 1)),
    };
    let title = format!(
        "{product}, lot {code}, is {} % vol, and lot {} counts {} with {counts} %",
        grouped(is, 1),
        into.lot,
        part.of
    );
    let help = "its strength and its label are not those of what is in it: read it, or fill another";
    let differs = is > most + STRONGER_BY || is < least - STRONGER_BY;
    differs.then(|| Diagnostic::warning(Code::ReadingDiffers, title).help(help))
}

/// What lots of a part may be called, folded: of a drink, what it is bottled as.
fn called(part: &PartUsed, house: &House) -> BTreeSet<String> {
    let own = [fold(&part.of), fold(part.product())];
    let drinks = own.clone().into_iter().chain(poured_as(part.product(), house));
    own.iter().cloned().chain(drinks.flat_map(|drink| bottled_as(&drink, house))).collect()
}

/// The least and the most strength with which a card counts a product of the house that goes in, % vol: the bottle of a drink whose ice
/// nobody weighed has the least water that it may be.
fn counted(solved: &Solved, label: &str) -> Option<(f64, f64)> {
    let inner = solved.with_inner().into_iter().find_map(|(card, _)| {
        let part = card.parts().find(|part| fold(&part.label) == fold(label))?;
        let Material::Card(place) = part.found.what else { return None };
        Some(&card.inner.get(place)?.card)
    })?;
    strengths(inner)
}

/// The same of a product by its card.
pub(super) fn strengths(product: &Solved) -> Option<(f64, f64)> {
    let middle = value_of(TargetKind::Abv, product.bottled())?;
    let all_g = product.bottled().total_grams();
    let with = |more_g: f64| middle * all_g / (all_g + more_g);
    let ice = product.ice_water.as_ref();
    Some((with(ice.map_or(0.0, |ice| ice.most_g - ice.grams)), with(ice.map_or(0.0, |ice| ice.least_g - ice.grams))))
}
