//! What is on the shelf to adjust a batch with.

use crate::card::{Amount, Card};
use crate::diagnostic::Diagnostic;
use crate::house::House;

use super::super::{Solved, SolvedPart, card};

/// More parts than this on the shelf are not searched: every set of them is tried.
pub(crate) const MOST_PARTS: usize = 16;
/// Above this share of sugar a part is a sugar or a syrup.
const IS_SWEET: f64 = 0.3;

/// What is taken together from the shelf: one part, or a blend in its ratio (the masses are the shares).
pub(super) type ShelfChoice = Vec<SolvedPart>;

/// The parts that the command names, in an order of their own: how they were named must not matter.
pub(super) fn named(
    card: &Card,
    house: &House,
    names: &[String],
    solved: &mut Solved,
) -> Result<Vec<ShelfChoice>, Vec<Diagnostic>> {
    let mut sorted: Vec<&str> = names.iter().map(|n| n.trim()).filter(|n| !n.is_empty()).collect();
    sorted.sort_unstable();
    let mut shelf = Vec::new();
    let mut wrong = Vec::new();
    for name in sorted {
        match card::find(card, house, name, solved) {
            Ok(found) => put(&mut shelf, vec![SolvedPart::added(name, found, 1.0)]),
            Err(why) => wrong.extend(why),
        }
    }
    if wrong.is_empty() { Ok(shelf) } else { Err(wrong) }
}

/// The parts that the card leaves open, its sugar, and water. Acids that it gives in a ratio stay in it.
pub(super) fn of_card(card: &Card, house: &House, solved: &mut Solved) -> Result<Vec<ShelfChoice>, Vec<Diagnostic>> {
    let mut shelf: Vec<ShelfChoice> = Vec::new();
    let mut blend: ShelfChoice = Vec::new();
    for (part, written) in solved.last().parts.iter().zip(&card.last.parts) {
        let again = |share| SolvedPart::added(&part.label, part.found.clone(), share);
        let in_ratio = matches!(written.amount.value, Amount::Parts { .. });
        if written.strained {
            continue;
        }
        if in_ratio && part.found.per_gram.is_acid() {
            blend.push(again(part.mass_g));
        } else if in_ratio || part.solved || part.found.per_gram.sugar_grams() > IS_SWEET {
            put(&mut shelf, vec![again(1.0)]);
        }
    }
    if !blend.is_empty() {
        shelf.push(blend);
    }
    let water = card::find(card, house, "water", solved)?;
    put(&mut shelf, vec![SolvedPart::added("water", water, 1.0)]);
    Ok(shelf)
}

/// Puts a part on the shelf that is not there yet.
pub(super) fn put(shelf: &mut Vec<ShelfChoice>, choice: ShelfChoice) {
    let same = |a: &ShelfChoice, b: &ShelfChoice| {
        a.len() == b.len() && a.iter().zip(b).all(|(x, y)| x.found.per_gram == y.found.per_gram)
    };
    if !shelf.iter().any(|there| same(there, &choice)) {
        shelf.push(choice);
    }
}
