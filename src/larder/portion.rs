//! What one piece, one fruit's juice, a sprig or a spoon of an ingredient weighs.

use crate::units::{Mass, MassDensity, in_grams};
use crate::vocabulary::{Evidence, Portion, Status};

use super::Ingredient;

/// What one of it weighs, and between what it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct PortionWeight {
    /// What is counted.
    pub portion: Portion,
    /// Which of them: "grated", "with a peeler", "8 cm"; empty where there is only one.
    pub said: String,
    /// What one weighs.
    pub grams: Mass,
    /// The volume of one, where it was filled into a measure or poured, ml.
    pub ml: Option<f64>,
    /// What a light one weighs, where it is known.
    pub low: Option<Mass>,
    /// What a heavy one weighs, where it is known.
    pub high: Option<Mass>,
    /// Where the figure comes from.
    pub source: String,
    /// How it is known.
    pub status: Status,
}

impl PortionWeight {
    /// How far one may be from `grams`, each way; none where nobody has said.
    pub fn half_width(&self) -> Option<f64> {
        let (low, high) = (in_grams(self.low?), in_grams(self.high?));
        Some((high - low) / 2.0)
    }
}

impl Ingredient {
    /// What one weighs, a spoon of it, or the juice of one; where there are several (a cup sliced, a cup whole) the one that is usually
    /// meant.
    pub fn portion(&self, portion: Portion) -> Option<&PortionWeight> {
        self.portions.iter().find(|known| known.portion == portion)
    }
}

/// The portions of an entry of the house: those of what it is like, but for what it states itself.
pub(super) fn of_entry(like: &[PortionWeight], piece: Option<Mass>, bulk: Option<MassDensity>) -> Vec<PortionWeight> {
    let of_house = piece.map(|grams| PortionWeight {
        portion: Portion::Piece,
        said: String::new(),
        grams,
        ml: None,
        low: None,
        high: None,
        source: "of this house".to_owned(),
        status: Evidence::MeasuredByTheHouse.into(),
    });
    let is_stated = |portion: Portion| match portion {
        Portion::Piece | Portion::Small | Portion::Medium | Portion::Large | Portion::ExtraLarge => piece.is_some(),
        Portion::Teaspoon | Portion::Tablespoon | Portion::FluidOunce | Portion::Jigger | Portion::Cup => {
            bulk.is_some()
        }
        _ => false,
    };
    of_house.into_iter().chain(like.iter().filter(|known| !is_stated(known.portion)).cloned()).collect()
}
