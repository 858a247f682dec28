//! Products of the house that are made with a lot's product and have no lot on the book themselves: nobody has written which
//! batch went into them, so whoever makes them is asked.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::aim;
use crate::card::Card;
use crate::house::House;
use crate::menu::ListedDrink;
use crate::spelling::fold;

use super::book::LotBook;
use super::poured::products;
use super::recall::Chain;

/// A product that may hold a lot, for all that the book says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AskedProduct {
    /// The product.
    pub product: String,
    /// What of the chain goes into it.
    pub made_with: String,
    /// The drinks of the menu that have it.
    pub drinks: Vec<String>,
}

/// A product of the house, and what its card makes it of.
#[derive(Clone, Debug)]
struct MadeOf {
    product: String,
    parts: Vec<String>,
    /// The drink that it is bottled of, by its folded name.
    pours: Option<String>,
}

/// The products of a house that have no lot on the book.
#[derive(Clone, Debug, Default)]
pub struct NotOnBook(Vec<MadeOf>);

impl NotOnBook {
    /// Reads the cards of a house, each as its aim chooses it.
    pub fn of(house: &House, book: &LotBook) -> Self {
        let on_book: BTreeSet<String> = book.lots().map(|lot| fold(&lot.recorded.product)).collect();
        let made_of = |name: &str| -> Option<MadeOf> {
            let read = house.read_card(name)?;
            let settled = aim::with_product(name, house, &mut Vec::new());
            let card = settled.as_ref().and_then(|house| house.chosen(name)).unwrap_or(&read);
            let mut parts: Vec<String> = card.all_parts().map(|(_, part)| part.of.value.clone()).collect();
            // what is in a drink is in what it goes into
            let mut seen = 0;
            while let Some(part) = parts.get(seen).cloned() {
                seen += 1;
                for own in drink_parts(&part, house) {
                    if !parts.contains(&own) {
                        parts.push(own);
                    }
                }
            }
            let pours = card.pours.as_deref().map(fold);
            // no lot is kept of a drink
            (!card.is_drink()).then(|| MadeOf { product: name.to_owned(), parts, pours })
        };
        let names = house.cards().map(|card| card.name.as_str());
        Self(names.filter(|name| !on_book.contains(&fold(name))).filter_map(made_of).collect())
    }

    /// Those that a lot may have gone into, by itself, by what it went into, or by another of them.
    pub fn asked(&self, chain: &Chain<'_>, drinks: &[ListedDrink<'_>]) -> Vec<AskedProduct> {
        let lots = [chain.lot].into_iter().chain(chain.into.iter().chain(&chain.perhaps).copied());
        let mut hold: BTreeSet<String> = lots.map(|lot| fold(&lot.recorded.product)).collect();
        let mut asked: Vec<AskedProduct> = Vec::new();
        loop {
            let next = self.0.iter().find_map(|of| {
                let made_with = of.parts.iter().find(|part| hold.contains(&fold(part)))?;
                (!hold.contains(&fold(&of.product))).then_some((of, made_with))
            });
            let Some((of, made_with)) = next else { return asked };
            let folded = fold(&of.product);
            let has_it = |drink: &&ListedDrink<'_>| {
                let products = products(drink);
                [Some(&folded), of.pours.as_ref()].into_iter().flatten().any(|name| products.contains(name))
            };
            asked.push(AskedProduct {
                product: of.product.clone(),
                made_with: made_with.clone(),
                drinks: drinks.iter().filter(has_it).map(|drink| drink.card.name.value.clone()).collect(),
            });
            hold.insert(folded);
        }
    }
}

/// What a drink of the house is made of; nothing of what is none.
fn drink_parts(name: &str, house: &House) -> Vec<String> {
    let drink = house.read_card(name).filter(Card::is_drink);
    drink.iter().flat_map(|card| card.all_parts()).map(|(_, part)| part.of.value.clone()).collect()
}
