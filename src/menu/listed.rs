//! The drinks of a menu as their guests get them.

use chrono::NaiveDate;

use crate::card::Card;
use crate::cost::SellAsked;
use crate::diagnostic::Diagnostic;
use crate::drinks::{Glass, glass};
use crate::house::House;
use crate::plan::LeftOut;
use crate::plan::kitchen::card_named;

use super::file::{Menu, MenuDrink};

/// A drink of a menu, solved, judged and priced.
#[derive(Clone, Debug)]
pub struct ListedDrink<'a> {
    /// What the menu says of it.
    pub written: &'a MenuDrink,
    /// Its card.
    pub card: Card,
    /// One glass.
    pub glass: Glass,
}

/// Every drink of a menu that can be made; of the others why not.
pub fn listed<'a>(
    menu: &'a Menu,
    house: &House,
    today: Option<NaiveDate>,
    found: &mut Vec<Diagnostic>,
) -> (Vec<ListedDrink<'a>>, Vec<LeftOut>) {
    let mut left_out = Vec::new();
    let of = |written: &'a MenuDrink| {
        let mut own = Vec::new();
        let card = opened(written, house, &mut own);
        let sell = SellAsked { at: written.price.map(|price| price.value), ..SellAsked::default() };
        let glass = card.as_ref().and_then(|card| glass(card, house, today, sell, &mut own));
        own = own.into_iter().map(|said| said.in_file(&menu.file)).collect();
        let drink = card.zip(glass).map(|(card, glass)| ListedDrink { written, card, glass });
        if drink.is_none() {
            left_out.push(LeftOut::by(&written.name.value, &own));
        }
        found.append(&mut own);
        drink
    };
    let drinks = menu.drinks.iter().filter_map(of).collect();
    (drinks, left_out)
}

/// The card of a drink of the menu.
pub(super) fn opened(drink: &MenuDrink, house: &House, found: &mut Vec<Diagnostic>) -> Option<Card> {
    card_named(
        &drink.name,
        house,
        "a menu is made of the drink cards that lie beside it: write the name as on the card",
        found,
    )
}
