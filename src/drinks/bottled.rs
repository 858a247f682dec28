//! What of a drink is bottled, part by part, as the card of a batch calls it.

use std::collections::BTreeMap;

use crate::house::House;
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{PouredPart, Solved, SolvedPart, poured_out};
use crate::units::in_millilitres;

use super::parted::parted;
use super::poured_out::{BatchLine, WaterOfIce, lines};

/// A part of what is bottled of one glass.
pub(crate) struct BottledPart<'a> {
    pub(crate) label: String,
    pub(crate) of: String,
    pub(crate) mass_g: f64,
    /// Whether it is the water of ice.
    pub(crate) is_ice: bool,
    /// What it is called where it is bought or made; `None` of water, which a bottle may have more or less of.
    pub(crate) name: Option<String>,
    /// The card of the drink, or of the drink inside it, that it stands on.
    pub(crate) within: &'a Solved,
}

impl BottledPart<'_> {
    /// Whether it is, or is in, a line of the card of the batch.
    pub(crate) fn is_line(&self, label: &str, of: &str) -> bool {
        self.label == label && self.of == of
    }
}

/// All that is bottled of one glass, the water of the ice of drinks inside with it.
pub(crate) fn bottled_parts<'a>(drink: &'a Solved, house: &House) -> Vec<BottledPart<'a>> {
    let (_, bottled) = parted(drink, house, WaterOfIce::InTheBottle);
    let poured = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
    let line = |of: PouredPart<'a>| {
        let (is_ice, within) = (of.part.melts.is_some(), of.within);
        let name = dry_name(of.within, of.part);
        lines(&[of]).into_iter().map(move |BatchLine { label, of, mass_g }| BottledPart {
            label,
            of,
            mass_g,
            is_ice,
            name: name.clone(),
            within,
        })
    };
    poured.flat_map(line).collect()
}

fn dry_name(within: &Solved, part: &SolvedPart) -> Option<String> {
    match &part.found.what {
        Material::Ingredient(of) => (!part.is_water()).then(|| of.name.clone()),
        Material::Card(place) => within.inner.get(*place).map(|inner| inner.card.name.clone()),
        Material::Stage(_) => None,
    }
}

/// What the bottle of a drink holds of a part for a glass, and what the drink has of it now, grams.
pub(crate) struct HeldOtherwise {
    pub(crate) part: String,
    pub(crate) held_g: f64,
    pub(crate) now_g: f64,
}

/// What a scale and a rounded measure leave between the two, as a share, and a tenth of a gram (ours).
const ROUNDED_OFF: f64 = 0.02;
const ROUNDED_OFF_G: f64 = 0.1;

/// The parts of which a bottle, by its card, does not hold for a glass what its drink has by its own as it stands now. Water is none: a
/// bottle may be undiluted.
pub(crate) fn held_otherwise(batch: &Solved, drink: &Solved, house: &House) -> Vec<HeldOtherwise> {
    let all_ml = volume_ml(batch.bottled());
    let Some((serving, all_ml)) = batch.card.serving.zip(all_ml) else { return Vec::new() };
    let share = in_millilitres(serving.value) / all_ml;
    let mut parts: BTreeMap<String, (f64, f64)> = BTreeMap::new();
    for (name, grams) in batch.parts().filter_map(|part| Some((dry_name(batch, part)?, part.mass_g * share))) {
        parts.entry(name).or_default().0 += grams;
    }
    for (name, grams) in bottled_parts(drink, house).into_iter().filter_map(|part| Some((part.name?, part.mass_g))) {
        parts.entry(name).or_default().1 += grams;
    }
    let differ =
        |(_, (held, now)): &(String, (f64, f64))| (held - now).abs() > ROUNDED_OFF * held.max(*now) + ROUNDED_OFF_G;
    let otherwise = parts.into_iter().filter(differ);
    otherwise.map(|(part, (held_g, now_g))| HeldOtherwise { part, held_g, now_g }).collect()
}
