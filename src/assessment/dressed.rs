//! What is put on a drink and weighed by nobody: garnish, rim, the last touch of a step. What the house's larder states of it is in
//! the glass; what no larder knows may bring any allergen.

use std::collections::BTreeSet;

use crate::card;
use crate::house::House;
use crate::larder::{Ingredient, Origin};
use crate::safety::dressing::{DressedBy, dressings, heads, is_no_food, usually_brings};
use crate::solver::Solved;
use crate::spelling::{fold, words};
use crate::vocabulary::{Allergen, Open};

/// A product of the house that is put on a drink.
#[derive(Clone, Debug)]
pub(crate) struct ProductOn {
    /// As the card has it: "3 drops of House bitters".
    pub(crate) said: String,
    /// What it is called.
    pub(crate) product: String,
    /// The folded names of all that is in it, and its own.
    pub(crate) holds: BTreeSet<String>,
}

/// The products of the house that are put on a drink.
pub(crate) fn products_on(solved: &Solved, house: &House) -> Vec<ProductOn> {
    of(solved, house).products
}

/// What a drink is dressed with.
#[derive(Debug, Default)]
pub(super) struct Dressed<'h> {
    /// Entries of the house's larder: they bring what they state.
    pub brings: Vec<&'h Ingredient>,
    /// Products of the house: what is in them brings what it states.
    products: Vec<ProductOn>,
    /// What the embedded larder knows, with what it is called there: it may bring what that usually does.
    pub may_bring: Vec<(String, &'h Ingredient)>,
    /// What is called as another thing of the embedded larder is, with what it usually brings.
    pub usually: Vec<(String, Allergen)>,
    /// What nobody has stated the allergens of, as it is written.
    pub unknown: BTreeSet<String>,
}

/// What the card itself says of it; cards inside it have their own.
pub(super) fn of<'h>(solved: &Solved, house: &'h House) -> Dressed<'h> {
    let mut dressed = Dressed::default();
    if !solved.card.is_drink() {
        return dressed;
    }
    let poured: BTreeSet<String> = solved.last().parts.iter().flat_map(|p| [fold(&p.label), fold(&p.of)]).collect();
    // a step tops up with "soda" where soda water is poured; a garnish called so is another thing
    let in_steps: BTreeSet<String> = poured.iter().flat_map(|name| words(name)).chain(poured.iter().cloned()).collect();
    for (piece, by) in dressings(&solved.card) {
        let on_card = if by == DressedBy::Step { &in_steps } else { &poured };
        let mut rest = piece.words.as_slice();
        let mut unknown = false;
        while let Some(first) = rest.first() {
            // the longest name first: "lime zest" is none of "lime"
            let spans = (1..=rest.len()).rev().map(|n| rest.split_at(n));
            let named = spans.filter_map(|(span, after)| Some((known(&span.join(" "), house, on_card)?, after)));
            match named.into_iter().next() {
                Some((Known::Poured, after)) => rest = after,
                Some((Known::Product(card), after)) => {
                    rest = after;
                    let (mut inside, mut holds) = (Dressed::default(), BTreeSet::new());
                    unknown |= !inside.take_in(card, house, &mut holds);
                    holds.extend(inside.brings.iter().map(|of| fold(&of.name)));
                    dressed.brings.extend(inside.brings);
                    dressed.products.push(ProductOn { said: piece.said.clone(), product: card.to_owned(), holds });
                }
                Some((Known::Ingredient(found), after)) => {
                    let name = rest[..rest.len() - after.len()].join(" ");
                    let usual = usually_brings(&name).filter(|_| found.origin == Origin::BuiltIn);
                    dressed.usually.extend(usual.map(|usual| (piece.said.clone(), usual)));
                    rest = after;
                    unknown |= !found.allergens_stated;
                    match found.origin {
                        Origin::BuiltIn => dressed.may_bring.push((piece.said.clone(), found)),
                        Origin::House(_) => dressed.brings.push(found),
                    }
                }
                None => {
                    unknown |= !is_no_food(first);
                    rest = &rest[1..];
                }
            }
        }
        dressed.unknown.extend(unknown.then_some(piece.said));
    }
    dressed
}

/// The same of a card and all inside it, as they are said not to be stated.
pub(super) fn not_stated(solved: &Solved, house: &House) -> Vec<String> {
    // what stands on a drink goes into no bottle
    let many = if solved.card.is_drink() { usize::MAX } else { 1 };
    let cards = solved.with_inner().into_iter().take(many);
    let unknown: BTreeSet<String> = cards.flat_map(|(card, _)| of(card, house).unknown).collect();
    unknown.into_iter().map(|said| format!("what goes on it (`{said}`)")).collect()
}

enum Known<'h> {
    /// A part of the drink, which is judged as such.
    Poured,
    /// A product of the house.
    Product(&'h str),
    /// Of the house's larder, or of the embedded one.
    Ingredient(&'h Ingredient),
}

impl<'h> Dressed<'h> {
    /// What the lots bring that stand there of products of the house.
    pub(super) fn of_lots(&self, house: &'h House) -> impl Iterator<Item = &'h Open<Allergen>> {
        let names = self.products.iter().flat_map(|on_it| &on_it.holds);
        names.flat_map(|name| house.of_book.standing(name)).flat_map(|lot| &lot.allergens)
    }

    /// All that a product of the house is made of, through the products in it, by their names alone: whatever an aim would leave
    /// out. `false` where not all of it is stated.
    fn take_in(&mut self, name: &str, house: &'h House, seen: &mut BTreeSet<String>) -> bool {
        if !seen.insert(fold(name)) {
            return true;
        }
        let Some(source) = house.card(name) else { return false };
        let (Some(card), _) = card::read_by(source.file.clone(), source.text.clone(), &house.customs()) else {
            return false;
        };
        let stages: BTreeSet<String> =
            card.stages.iter().filter_map(|stage| stage.name.as_ref()).map(|name| fold(&name.value)).collect();
        let mut stated = card.open_lines().is_empty();
        for (_, part) in card.all_parts().filter(|(_, part)| !stages.contains(&fold(&part.of.value))) {
            stated &= match (house.card(&part.of.value), house.larder.find(&part.of.value)) {
                (Some(_), _) => self.take_in(&part.of.value, house, seen),
                (None, Some(found)) => {
                    self.brings.push(found);
                    found.allergens_stated
                }
                (None, None) => false,
            };
        }
        stated
    }
}

fn known<'h>(name: &str, house: &'h House, on_card: &BTreeSet<String>) -> Option<Known<'h>> {
    if on_card.contains(name) {
        return Some(Known::Poured);
    }
    // a word of how a thing is cut names nothing by itself, whatever the larder has under it ("peel")
    if is_no_food(name) {
        return None;
    }
    let product = house.name_of_card(name).map(Known::Product);
    let found = product.or_else(|| house.larder.find(name).map(Known::Ingredient));
    found.or_else(|| heads(name).iter().find_map(|head| known(head, house, on_card)))
}
