//! What the drinks of a menu take: of the products of the house, and of what is bought, as it is.

use std::collections::BTreeMap;

use crate::solver::resolve::Material;
use crate::spelling::fold;

use super::super::board::Board;
use super::super::calendar::Calendar;
use super::super::model::PrepProduct;
use super::super::orders::Stocked;
use super::super::poured::{Glasses, Poured, taken_by};

/// Puts it on the products and on the shelf. A use on the board was counted at the shelf and has these drinks in it: it counts,
/// and the menu is not added to it. An event comes on top of either. Gives the products of which the board's use counts, with
/// what the menu would take of them in a week.
pub(super) fn pour(
    board: &Board,
    calendar: &Calendar,
    grams_per_unit: &BTreeMap<String, f64>,
    products: &mut [PrepProduct],
    stocked: &mut [Stocked],
) -> BTreeMap<String, f64> {
    let mut by_board: BTreeMap<String, f64> = BTreeMap::new();
    let counted = |name: &str| board.products.iter().any(|e| e.has_use() && fold(&e.name.value) == fold(name));
    for pour in &board.pours {
        let of = |each| Poured { glasses: pour.glasses.clone(), each };
        for (drink, part, grams) in taken_by(&pour.drink) {
            match &part.found.what {
                Material::Stage(_) => {}
                Material::Ingredient(ingredient) => {
                    let shelf = stocked.iter_mut().find(|shelf| shelf.name == ingredient.name);
                    shelf.into_iter().for_each(|shelf| shelf.poured.push(of(grams)));
                }
                Material::Card(place) => {
                    let Some(name) = drink.inner.get(*place).map(|inner| inner.card.name.as_str()) else {
                        continue;
                    };
                    let each = grams / grams_per_unit.get(name).copied().unwrap_or(1.0);
                    match &pour.glasses {
                        Glasses::Weekly(uses) if counted(name) => {
                            *by_board.entry(name.to_owned()).or_default() += each * uses.in_a_week(calendar) as f64;
                        }
                        _ => {
                            let product = products.iter_mut().find(|product| product.name == name);
                            product.into_iter().for_each(|product| product.poured.push(of(each)));
                        }
                    }
                }
            }
        }
    }
    by_board
}
