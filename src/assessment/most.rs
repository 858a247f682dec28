//! What a product is made of for the most part: what spoils there spoils in it.

use crate::house::House;
use crate::solver::Solved;

/// What grows in a product is feared of whatever has this share of it or more by mass (ours).
pub(crate) const MOST_OF_IT: f64 = 0.5;

/// The earliest age in days at which something grew in a lot of it, or of a product of the house that makes up most of it, at any depth.
pub(crate) fn grew_days(solved: &Solved, house: &House) -> Option<f64> {
    let total = solved.bottled().total_grams();
    let is_most = |card: &Solved, share: f64| share * card.bottled().total_grams() >= MOST_OF_IT * total;
    let most = solved.with_inner().into_iter().filter(|(card, share)| is_most(card, *share));
    most.filter_map(|(card, _)| house.of_book.grew_days(&card.name)).reduce(f64::min)
}
