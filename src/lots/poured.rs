//! Which drinks of the menu may have had a lot in them. What goes over the bar is not on the book: the menu says what pours
//! it, and the book on which days it was there.

use std::collections::{BTreeSet, HashMap};

use chrono::NaiveDate;
use serde::Serialize;

use super::ahead::poured_as;
use super::book::{LotStanding, LotState};
use super::recall::Chain;
use crate::house::House;
use crate::menu::ListedDrink;
use crate::plan::Uses;
use crate::solver::resolve::Material;
use crate::solver::{InnerCard, Solved};
use crate::spelling::fold;

/// A drink that may have had it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PouredDrink {
    /// Its name.
    pub drink: String,
    /// The lots that it pours, the lot itself among them or what it went into.
    pub lots: Vec<String>,
    /// Those that may hold it: nobody has said which lot went in.
    pub perhaps: Vec<String>,
    /// The first day on which one of them was there.
    pub from: NaiveDate,
    /// The last; of one that is still there, the day of the recall.
    pub to: NaiveDate,
    /// Glasses that are sold of it in a week, by the menu; `None` where it does not say.
    pub sold_a_week: Option<u64>,
}

/// The drinks that pour a lot, one that it went into, or one that may hold it, in the order of the menu.
pub fn poured(chain: &Chain<'_>, drinks: &[ListedDrink<'_>], house: &House, on: NaiveDate) -> Vec<PouredDrink> {
    let mut by_product: HashMap<String, Vec<&LotState>> = HashMap::new();
    for lot in [chain.lot].into_iter().chain(chain.into.iter().chain(&chain.perhaps).copied()) {
        let product = &lot.recorded.product;
        for name in poured_as(product, house).into_iter().chain([fold(product)]) {
            by_product.entry(name).or_default().push(lot);
        }
    }
    let of = |drink: &ListedDrink<'_>| {
        let products = products(drink);
        let poured: Vec<&LotState> =
            products.iter().filter_map(|product| by_product.get(product)).flatten().copied().collect();
        let is_doubt = |lot: &LotState| chain.perhaps.iter().any(|of| of.lot == lot.lot);
        let codes = |of: &[&LotState], doubts: bool| -> Vec<String> {
            of.iter().filter(|lot| is_doubt(lot) == doubts).map(|lot| lot.lot.clone()).collect()
        };
        let gone = |lot: &&LotState| if lot.standing == LotStanding::InUse { on } else { lot.since };
        Some(PouredDrink {
            drink: drink.card.name.value.clone(),
            from: poured.iter().map(|lot| lot.recorded.made).min()?,
            to: poured.iter().map(gone).max()?,
            lots: codes(&poured, false),
            perhaps: codes(&poured, true),
            sold_a_week: drink.written.sold.as_ref().map(|sold| a_week(&sold.value)),
        })
    };
    drinks.iter().filter_map(of).collect()
}

/// The drink itself, for what was bottled ahead of it, and what is poured into the glass or put on it, by their folded names: what
/// went into that before has a lot of its own.
pub(super) fn products(listed: &ListedDrink<'_>) -> BTreeSet<String> {
    let on_it = listed.glass.on_it.iter().map(|of| fold(&of.product));
    let mut names: BTreeSet<String> = on_it.chain([fold(&listed.card.name.value)]).collect();
    add_poured(&listed.glass.solved, &mut names);
    names
}

/// A drink inside is no lot itself: what is poured into it is poured into the outer one.
fn add_poured(drink: &Solved, names: &mut BTreeSet<String>) {
    for part in drink.parts().filter(|part| part.mass_g > 0.0) {
        match &part.found.what {
            Material::Ingredient(ingredient) => {
                names.insert(fold(&ingredient.name));
            }
            Material::Card(place) => {
                let Some(InnerCard { card: inner, .. }) = drink.inner.get(*place) else { continue };
                names.insert(fold(&inner.name));
                if inner.card.is_drink() {
                    add_poured(inner, names);
                }
            }
            Material::Stage(_) => {}
        }
    }
}

fn a_week(sold: &Uses) -> u64 {
    sold.on.iter().flatten().fold(sold.week, |sum, day| sum.saturating_add(*day))
}
