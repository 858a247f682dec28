//! Milk, cream and fat as they are left in what is bottled.

use crate::card::TargetKind;
use crate::larder::Ingredient;
use crate::mixture::Component;
use crate::properties::value_of;
use crate::shelf_life::Dairy;
use crate::solver::Solved;
use crate::vocabulary::{Allergen, Kind, Open, Tag, Washed, Word};

/// A dairy with more fat is cream (Codex Stan 288: 10 % at least).
const CREAM_FAT: f64 = 0.10;
/// What is mostly fat is lifted off what it was washed with and does not curdle: butter has 80 % of it or more (Codex Stan 279), cream less.
pub(super) const MOSTLY_FAT: f64 = 0.70;
/// Milk with so much sugar in a gram is condensed (Codex Stan 282 has 40 to 45 % in what is sold; from memory).
const CONDENSED_SUGAR: f64 = 0.35;

/// Milk in the worst shape that it may have. Washed with fat counts where the stage is 20 % vol or more; washed with milk
/// where the curd was strained off. `shapes` are those of what goes in as a card.
pub(super) fn dairy(solved: &Solved, tagged: bool, allergen: bool, mut shapes: Vec<Dairy>) -> Option<Dairy> {
    const WASHED_ABV: f64 = 20.0;
    let milky = |i: &Ingredient| {
        let milk = |stated: &String| Allergen::parse(stated) == Some(Allergen::Milk);
        matches!(i.kind, Some(Kind::Dairy | Kind::Fat))
            || i.tags.contains(&Open::Known(Tag::Dairy))
            || (i.kind.is_none() && i.allergens.iter().any(milk))
    };
    for (stage, made) in solved.card.all_stages().zip(&solved.stages) {
        for (part, milk) in
            made.parts.iter().filter_map(|part| Some((part, part.found.what.ingredient()?))).filter(|(_, i)| milky(i))
        {
            let strong = value_of(TargetKind::Abv, &made.course.combined).is_some_and(|abv| abv >= WASHED_ABV);
            let fat = milk.kind == Some(Kind::Fat) || milk.per_gram.grams_of(Component::Fat) >= MOSTLY_FAT;
            shapes.push(match stage.washed {
                // No word clears a drink: the curd, or the fat, has to be strained off.
                Some(Washed::Milk) if part.feed.holds.is_some() => Dairy::Clarified,
                Some(Washed::Fat) if strong && part.feed.holds.is_some() => Dairy::FatWashed,
                // Oil, lard or butter that a spirit is strained from is lifted off it, whether the card says so or not.
                _ if strong && fat && part.feed.holds.is_some() => Dairy::FatWashed,
                _ if milk.kind != Some(Kind::Fat)
                    && (milk.per_gram.grams_of(Component::Fat) >= CREAM_FAT || condensed(milk)) =>
                {
                    Dairy::Cream
                }
                _ => Dairy::Milk,
            });
        }
    }
    if shapes.is_empty() && (tagged || allergen) {
        shapes.push(Dairy::Milk);
    }
    let worst = [Dairy::Milk, Dairy::Cream, Dairy::Clarified, Dairy::FatWashed];
    worst.into_iter().find(|shape| shapes.contains(shape))
}

/// Milk that is boiled down with sugar is sterile in its tin and nearly as rich as thin cream: it keeps as cream does.
fn condensed(milk: &Ingredient) -> bool {
    milk.per_gram.sugar_grams() >= CONDENSED_SUGAR
}
