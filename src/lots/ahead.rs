//! What is bottled ahead of a drink of the menu: its lots are lots of that drink.

use std::collections::BTreeSet;

use crate::house::House;
use crate::spelling::fold;

/// The drink that a product is poured for as it was bottled, by its folded name, where its card says so.
pub(crate) fn poured_as(product: &str, house: &House) -> Option<String> {
    Some(fold(&house.read_card(product)?.pours?))
}

/// The products that a drink is bottled as, by their folded names.
pub(super) fn bottled_as(drink: &str, house: &House) -> BTreeSet<String> {
    let folded = fold(drink);
    let names = house.cards().map(|card| card.name.as_str());
    names.filter(|name| poured_as(name, house).as_deref() == Some(&*folded)).map(fold).collect()
}
