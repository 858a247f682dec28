//! What of a product a label warns of: by what is in it, and by how much.

use crate::safety::Facts;
use crate::safety::intake::Intake;
use crate::safety::warnings::{Holds, WarnedOf};
use crate::solver::Solved;
use crate::units::display::grouped;
use crate::vocabulary::Tag;

use super::doses::BRING_CAFFEINE;
use super::ingredients::{grams_tagged, tagged};

/// Grams of polyols in a gram above which their effect is named (Regulation (EU) No 1169/2011, Annex III (2.4)).
const MUCH_POLYOL: f64 = 0.1;
/// Caffeine above which a drink is said to be high in it, mg/L (the same, Annex III (4.1)).
const MUCH_CAFFEINE_MG_L: f64 = 150.0;
/// What says in the name of a drink that it has caffeine, so that the law wants no more (the same); words, and ends of German ones.
const CALLED_COFFEE: [&str; 7] = ["coffee", "café", "cafe", "caffè", "tea", "thé", "tè"];
const ENDS_AS_COFFEE: [&str; 2] = ["kaffee", "tee"];

/// All of it.
pub(super) fn of(solved: &Solved, facts: &Facts, doses: &[Intake]) -> Vec<Holds> {
    let mut held: Vec<Holds> = of_liquorice(doses).map(Holds::plain).into_iter().collect();
    held.extend(named(solved, Tag::AzoColour).map(|said| Holds { of: WarnedOf::AzoColour, said }));
    held.extend(caffeine(solved, doses));
    let polyols = grams_tagged(solved, &[Tag::Polyol]) / solved.bottled().total_grams();
    let has = |tags: &[Tag]| tags.iter().any(|tag| facts.tags.names(*tag));
    let plain = [
        (WarnedOf::Aspartame, has(&[Tag::Aspartame])),
        (WarnedOf::Polyols, polyols > MUCH_POLYOL),
        (WarnedOf::Quinine, has(&[Tag::Quinine, Tag::Cinchona])),
        (WarnedOf::Honey, has(&[Tag::Honey])),
        (WarnedOf::Grapefruit, has(&[Tag::Grapefruit])),
        (WarnedOf::SevilleOrange, has(&[Tag::SevilleOrange])),
    ];
    held.extend(plain.into_iter().filter(|(_, is_held)| *is_held).map(|(of, _)| Holds::plain(of)));
    held
}

/// The longer of the two statements says the shorter one.
fn of_liquorice(doses: &[Intake]) -> Option<WarnedOf> {
    let mut warned = doses.iter().filter_map(|dose| dose.warned);
    warned.by_ref().reduce(|one, other| if one == WarnedOf::MuchLiquorice { one } else { other })
}

/// What is called so, by the names of its ingredients.
fn named(solved: &Solved, tag: Tag) -> Option<String> {
    let names: Vec<&str> = tagged(solved, &[tag]).into_iter().map(|(of, _)| of.name.as_str()).collect();
    (!names.is_empty()).then(|| names.join(", "))
}

/// The most caffeine that the weights can bring, mg in 100 ml, where a drink has much and does not say so by its name.
fn caffeine(solved: &Solved, doses: &[Intake]) -> Option<Holds> {
    let mg_l: f64 = doses.iter().filter(|of| BRING_CAFFEINE.contains(&of.from)).filter_map(|of| of.mg_per_l).sum();
    let name = solved.name.to_lowercase();
    let is_coffee = |word: &str| CALLED_COFFEE.contains(&word) || ENDS_AS_COFFEE.iter().any(|end| word.ends_with(end));
    let says_so = name.split(|c: char| !c.is_alphabetic()).any(is_coffee);
    (mg_l > MUCH_CAFFEINE_MG_L && !says_so)
        .then(|| Holds { of: WarnedOf::Caffeine, said: grouped((mg_l / 10.0).ceil(), 0) })
}
