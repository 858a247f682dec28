//! What is bottled ahead of a drink of the menu: its lots are lots of that drink.

use crate::house::House;
use crate::spelling::fold;

/// The drink that a product is poured for as it was bottled, by its folded name, where its card says so.
pub(super) fn poured_as(product: &str, house: &House) -> Option<String> {
    Some(fold(&house.read_card(product)?.pours?))
}
