//! How warm a part is when it meets the ice: as its card says it, by a word that says hot, or as a bar has it on the shelf.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::mixture::Mixture;
use crate::mixture::heat::kj_per_kelvin;
use crate::spelling::{fold, words};
use crate::units::display::span;
use crate::vocabulary::Kind;
use crate::vocabulary::table::rows;

use super::super::resolve::Material;
use super::super::solved::{InnerCard, SolvedPart};

/// What a word says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SaysWarm {
    /// That it is hot.
    Hot,
    /// That it comes hot from a machine, and may have cooled.
    Fresh,
}

#[derive(Debug, Deserialize)]
struct WarmWord {
    word: String,
    low: f64,
    high: f64,
    is: SaysWarm,
}

static WARM: LazyLock<HashMap<String, (SaysWarm, (f64, f64))>> = LazyLock::new(|| {
    let all: Vec<WarmWord> = rows("hot-words.csv", include_str!("../hot-words.csv"));
    all.into_iter().map(|row| (fold(&row.word), (row.is, (row.low, row.high)))).collect()
});

/// What a word of its name says of water, tea or coffee.
fn said(part: &SolvedPart) -> Option<(SaysWarm, (f64, f64))> {
    let brewed = matches!(&part.found.what, Material::Ingredient(of)
        if matches!(of.kind, Some(Kind::Water | Kind::Tea | Kind::Coffee)));
    let mut names = [&part.label, &part.of].into_iter().flat_map(|name| words(name)).filter(|_| brewed);
    names.find_map(|word| WARM.get(&word).copied())
}

/// "Boiling water".
pub(super) fn says_hot(name: &str) -> bool {
    words(name).iter().any(|word| WARM.get(word).is_some_and(|(is, _)| *is == SaysWarm::Hot))
}

/// Warmer than this nobody calls cold, °C (ours).
const HOT_C: f64 = 50.0;

/// Whether it is poured hot: by its card, or by a word of its name.
pub(crate) fn is_hot(part: &SolvedPart) -> bool {
    part.at_c.map_or_else(|| said(part).is_some_and(|(is, _)| is == SaysWarm::Hot), |at| at >= HOT_C)
}

/// Whether it may come warm, and its card does not say how warm it is.
pub(crate) fn may_be_warm(part: &SolvedPart) -> bool {
    part.at_c.map_or_else(|| said(part).is_some(), |at| at >= HOT_C)
}

/// From what to what the parts together are warm, °C, where those that do not say it are as warm as `rest_c`: heat is kept as they
/// are poured together. `inner` are the cards among them.
pub(super) fn poured_c<'a>(
    parts: impl Iterator<Item = &'a SolvedPart>,
    inner: &[InnerCard],
    rest_c: (f64, f64),
) -> (f64, f64) {
    let (mut heat, mut all) = ((0.0, 0.0), 0.0);
    for part in parts {
        let each: Mixture = part.feed.per_gram * part.mass_g;
        let takes = kj_per_kelvin(&each);
        let stated = part.at_c.map(|at| (at, at)).or_else(|| said(part).map(|(_, warm)| warm));
        let warm = stated.or_else(|| of_drink(part, inner, rest_c)).unwrap_or(rest_c);
        heat = (heat.0 + takes * warm.0, heat.1 + takes * warm.1);
        all += takes;
    }
    if all > 0.0 { (heat.0 / all, heat.1 / all) } else { rest_c }
}

/// How warm a drink is that goes in, where something hot is in it and it met no ice.
fn of_drink(part: &SolvedPart, inner: &[InnerCard], rest_c: (f64, f64)) -> Option<(f64, f64)> {
    let Material::Card(place) = part.found.what else { return None };
    let drink = &inner.get(place)?.card;
    let is_warm = drink.card.is_drink() && drink.ice_water.is_none();
    is_warm.then(|| poured_c(drink.last().parts.iter(), &drink.inner, rest_c))
}

/// What a word, or what is hot in a drink, made of a part, in words: "espresso at 60 to 85 °C".
pub(super) fn assumed(part: &SolvedPart, inner: &[InnerCard], rest_c: (f64, f64)) -> Option<String> {
    let of_hot_drink = || of_drink(part, inner, rest_c).filter(|warm| *warm != rest_c);
    let warm = said(part).map(|(_, warm)| warm).or_else(of_hot_drink);
    let (low, high) = warm.filter(|_| part.at_c.is_none())?;
    Some(format!("{} at {} °C (else write at = \"20 °C\" with it)", part.label, span(low, high, 0)))
}
