//! What of a drink is bottled, part by part, as the card of a batch calls it.

use crate::house::House;
use crate::solver::{PouredPart, Solved, poured_out};

use super::parted::parted;
use super::poured_out::{WaterOfIce, lines};

/// A part of what is bottled of one glass.
pub(crate) struct BottledPart<'a> {
    pub(crate) label: String,
    pub(crate) of: String,
    pub(crate) mass_g: f64,
    /// Whether it is the water of ice.
    pub(crate) is_ice: bool,
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
        let as_written = lines(&[of]).into_iter();
        as_written.map(move |line| BottledPart { label: line.label, of: line.of, mass_g: line.mass_g, is_ice, within })
    };
    poured.flat_map(line).collect()
}
