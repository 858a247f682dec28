//! The pH bounds of a product, from what was weighed into it, and what a reading makes of them.

use crate::card::Measured;
use crate::house::House;
use crate::instruments::ph_reading::{PhInstrument, PhSaid, with_reading};
use crate::larder::{Form, Ingredient};
use crate::mixture::acidity::bounds::{
    self, ASH_EQ_PER_GRAM, Beside, PROTEIN_EQ_PER_GRAM, PhBounds, TAP_WATER_EQ_PER_KG,
};
use crate::mixture::acidity::charge_balance::Solution;
use crate::mixture::acidity::{Acid, ph};
use crate::mixture::{Component, Mixture};
use crate::solver::SolvedPart;
use crate::solver::resolve::Material;
use crate::units::{Abv, celsius, grams_per_litre};
use crate::vocabulary::{Kind, PhBy};

use super::lent_sugar::lent_sugar;
use super::nature;

/// Where the pK of the acids and of water are best known, °C.
const AT_C: f64 = 25.0;
/// Above this share by mass what is left in it undissolved makes the calculated bounds worthless.
const MOST_SOLIDS: f64 = 0.05;

/// Grams of water in a gram from which a plant is a wet piece, and no dry spice (ours).
const WET_PIECE: f64 = 0.35;

/// Alkali beyond what a mixture knows of its minerals, and whether something sour has no acid listed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Unlisted {
    /// The most that may hold acid, equivalents.
    pub base_eq: f64,
    /// What of it surely does.
    pub sure_eq: f64,
    /// There is something sour of which nobody knows how sour.
    pub sour: bool,
    /// Pieces of fresh vegetable or herb that stay in it, grams.
    pub pieces_g: f64,
    /// Sugar that only a likeness lends, grams.
    pub lent_sugar_g: f64,
}

impl Unlisted {
    /// What one part of a card's own brings; nothing of a stage or of another card.
    pub(super) fn of_part(part: &SolvedPart, house: &House) -> Self {
        let Material::Ingredient(ingredient) = &part.found.what else { return Self::default() };
        let nature = nature::of(ingredient);
        let tap = house.settings.water_alkalinity_eq_per_kg.unwrap_or(TAP_WATER_EQ_PER_KG) / 1000.0;
        let names = [part.label.as_str(), part.of.as_str()].into_iter().chain(ingredient.own_names());
        let alkali = nature::alkali(names, ingredient.alkali);
        let per_gram = match ingredient.kind {
            Some(Kind::Water) => tap,
            _ if alkali.most_eq_per_gram > 0.0 => alkali.most_eq_per_gram,
            _ if nature::minerals_known(ingredient) => 0.0,
            _ => nature.ash.max(ingredient.per_gram.grams_of(Component::Ash)) * ASH_EQ_PER_GRAM,
        };
        let acid = ingredient.per_gram.grams_of_all(&Component::ACIDS);
        // Acid that is only lent by what it is like may be missing altogether.
        let lent = !ingredient.like.is_empty() && acid > 0.0 && ingredient.per_gram.unaccounted_ash_g > 0.0;
        let missing = if lent { ph::in_doubt_eq(&ingredient.per_gram) } else { 0.0 };
        let sour = nature.sour && (acid <= 0.0 || lent);
        let unseen = (held_eq(ingredient) - per_gram).max(missing);
        Self {
            base_eq: part.mass_g * (per_gram + unseen),
            sure_eq: part.mass_g * alkali.sure_eq_per_gram,
            sour: part.mass_g > 0.0 && sour,
            pieces_g: if part.feed.holds.is_none() && is_piece(ingredient) { part.mass_g } else { 0.0 },
            lent_sugar_g: part.mass_g * lent_sugar(ingredient, house),
        }
    }

    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            base_eq: self.base_eq + other.base_eq,
            sure_eq: self.sure_eq + other.sure_eq,
            sour: self.sour || other.sour,
            pieces_g: self.pieces_g + other.pieces_g,
            lent_sugar_g: self.lent_sugar_g + other.lent_sugar_g,
        }
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            base_eq: self.base_eq * factor,
            sure_eq: self.sure_eq * factor,
            pieces_g: self.pieces_g * factor,
            lent_sugar_g: self.lent_sugar_g * factor,
            ..self
        }
    }
}

/// What holds acid in a gram of it and stands in no record, where the highest pH that is published of it is above that of its acids and
/// minerals; equivalents.
fn held_eq(of: &Ingredient) -> f64 {
    let held = of.ph_at_most().and_then(|ph| {
        let acids = Solution::of(&of.per_gram, 0.0, celsius(AT_C)).ok()?;
        Some(acids.strong_cation_at(ph)? * of.per_gram.grams_of(Component::Water) / 1000.0)
    });
    held.map_or(0.0, |held| (held - of.per_gram.bound_cations_eq[2]).max(0.0))
}

/// Whether it is a fresh plant in pieces that is not sour.
fn is_piece(of: &Ingredient) -> bool {
    let is_low_acid = matches!(of.kind, Some(Kind::Vegetable | Kind::Herb | Kind::Legume | Kind::Root));
    is_low_acid && of.form == Form::Solid && of.per_gram.grams_of(Component::Water) > WET_PIECE
}

/// The bounds of a mixture. Without water, with solids left in it, or outside the equations there are none.
pub(super) fn bounds_of(mixture: &Mixture, unlisted: Unlisted, sugar_g_l: f64, abv_pct: f64) -> PhBounds {
    let water_kg = mixture.grams_of(Component::Water) / 1000.0;
    let solids = mixture.grams_of_all(&Component::UNDISSOLVED).max(unlisted.pieces_g);
    if water_kg <= 0.0 || solids > MOST_SOLIDS * mixture.total_grams() {
        return PhBounds::default();
    }
    let acids: Vec<(&Acid, f64)> = Component::ACIDS
        .iter()
        .filter_map(|&c| Some((Acid::of_component(c)?, mixture.grams_of(c))))
        .map(|(acid, g)| (acid, g / acid.molar_mass / water_kg))
        .collect();
    let protein_eq = mixture.grams_of(Component::Protein) * PROTEIN_EQ_PER_GRAM;
    let [least, _, most] = mixture.bound_cations_eq;
    let charge = ((least + unlisted.sure_eq) / water_kg, (most + unlisted.base_eq + protein_eq) / water_kg);
    let beside = Beside { sugar: grams_per_litre(sugar_g_l.max(0.0)), abv: Abv::saturating(abv_pct) };
    let found = bounds::bounds(&acids, charge, beside, celsius(AT_C)).unwrap_or_default();
    // what is sour and not listed can only make it more sour: the upper end stands, the lower one does not
    if unlisted.sour { PhBounds { low: None, ..found } } else { found }
}

/// The highest pH with what was read, and what became of the reading.
pub(super) fn read(bounds: PhBounds, measured: &Measured, brix: f64, abv_pct: f64) -> (Option<f64>, Option<ReadPh>) {
    let Some(value) = measured.ph.map(|ph| ph.value) else { return (bounds.up, None) };
    let by = match measured.ph_by {
        Some(PhBy::Meter) => PhInstrument::Meter { calibrated: measured.calibrated },
        Some(PhBy::Laboratory) => PhInstrument::Laboratory,
        Some(PhBy::Strip) | None => PhInstrument::Strip,
    };
    let doubt = by.doubt(0.0, brix, abv_pct);
    let (up, said) = with_reading(bounds, value, doubt, by);
    // a strip that proves no acid still shows that what was weighed is not what is in the bottle
    let is_above = said == PhSaid::StripTooHigh && bounds.up.is_some_and(|up| value - doubt > up);
    (up.filter(|_| !is_above), Some(ReadPh { value, doubt, said, low: bounds.low, is_above }))
}

/// A pH that was read, and what became of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadPh {
    /// As read.
    pub value: f64,
    /// How far off it may be.
    pub doubt: f64,
    /// What became of it.
    pub said: PhSaid,
    /// The lowest that what was weighed allows.
    pub low: Option<f64>,
    /// It does not count, and is higher than what was weighed allows: the pH is not known.
    pub is_above: bool,
}

impl ReadPh {
    /// Whether it counts.
    pub(crate) fn counts(&self) -> bool {
        matches!(self.said, PhSaid::Accepted | PhSaid::HigherThanWeighed)
    }

    /// What must be said of a reading that does not count as it is; `None` of one that does.
    pub(crate) fn objection(&self) -> Option<String> {
        let Self { value, doubt, said, low, is_above } = *self;
        match said {
            PhSaid::Accepted => None,
            PhSaid::HigherThanWeighed => Some(format!(
                "pH {value:.2} was read, higher than what was weighed allows: something sour is missing, or the batch differs; \
                 the reading counts"
            )),
            PhSaid::StripTooHigh if is_above => Some(format!(
                "pH {value:.2} ± {doubt:.1} by a strip is higher than what was weighed allows: something sour is missing, or the batch \
                 differs; until a meter reads it its pH is not known (`ph_by = \"meter\"`, `calibrated = true`)"
            )),
            PhSaid::StripTooHigh => Some(format!(
                "pH {value:.2} ± {doubt:.1} by a strip does not count: above 4.0 a meter is required (21 CFR 114.80); say \
                 `ph_by = \"meter\"` and `calibrated = true`"
            )),
            PhSaid::Impossible => Some(format!(
                "pH {value:.2} was read, but nothing on the card makes it that sour{}: the reading is rejected",
                low.map_or_else(String::new, |low| format!(" (not below {low:.1})"))
            )),
        }
    }
}
