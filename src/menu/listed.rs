//! The drinks of a menu as their guests get them.

use std::borrow::Cow;
use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::aim::{self, Chosen};
use crate::card::Card;
use crate::cost::{CostKind, entries_to_price};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::drinks::{Glass, glass};
use crate::house::House;
use crate::plan::LeftOut;
use crate::plan::kitchen::card_named;
use crate::solver::Options;

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
        let made = opened(written, house, &mut own);
        let sell = written.sells_at();
        let glass = made.as_ref().and_then(|(card, house)| glass(card, house, today, sell, &mut own));
        // what has no price is said once of all drinks
        own.retain(|said| said.code != Code::NoPrice || said.severity == Severity::Error);
        own = own.into_iter().map(|said| said.in_file(&menu.file)).collect();
        let drink = made.zip(glass).map(|((card, _), glass)| ListedDrink { written, card, glass });
        if drink.is_none() {
            left_out.push(LeftOut::by(&written.name.value, &own));
        }
        found.append(&mut own);
        drink
    };
    let drinks: Vec<ListedDrink<'a>> = menu.drinks.iter().filter_map(of).collect();
    found.extend(unpriced(&drinks, house).map(|said| said.in_file(&menu.file)));
    (drinks, left_out)
}

/// What has no price, once for all drinks that it goes into.
fn unpriced(drinks: &[ListedDrink<'_>], house: &House) -> Option<Diagnostic> {
    let (mut names, mut of) = (BTreeSet::new(), Vec::new());
    for drink in drinks {
        let lines = drink.glass.cost.iter().flat_map(|cost| &cost.of_many.lines);
        let gaps: Vec<&str> = lines
            .filter(|line| line.cost.is_none() && line.kind == CostKind::Part)
            .map(|line| line.of.as_str())
            .collect();
        of.extend((!gaps.is_empty()).then_some(drink.card.name.value.as_str()));
        names.extend(gaps);
    }
    let list: Vec<&str> = names.iter().copied().collect();
    let title =
        format!("there is no price of {}: the cost of a glass is not known of {}", list.join(", "), of.join(", "));
    let help = format!("state a price in larder.toml{}", entries_to_price(names, house));
    (!of.is_empty()).then(|| Diagnostic::warning(Code::NoPrice, title).help(help))
}

/// The card of a drink of the menu, and the house that it is made in, with everything chosen that they leave room for.
pub(super) fn opened<'h>(
    drink: &MenuDrink,
    house: &'h House,
    found: &mut Vec<Diagnostic>,
) -> Option<(Card, Cow<'h, House>)> {
    let otherwise = "a menu is made of the drink cards that lie beside it: write the name as on the card";
    let card = card_named(&drink.name, house, otherwise, found)?;
    let Chosen { card, house } = aim::chosen(&card, house, &Options::default(), found)?;
    Some((card.into_owned(), house))
}
