//! The lines of a batch: a drink that goes into a drink is poured out into what it is made of.

use crate::solver::{PouredPart, Solved, poured_out};

/// What the larder calls it.
pub(super) const WATER: &str = "water";
/// The water that the drinks inside have from their own ice.
const OF_INNER_ICE: &str = "water, in place of the ice inside";

/// A line of the card of a batch, of one glass.
pub(super) struct BatchLine {
    pub(super) label: String,
    pub(super) of: String,
    pub(super) mass_g: f64,
}

/// Where the water of the ice of a shaken, stirred or thrown drink is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WaterOfIce {
    /// In the bottle: it is poured as it is.
    #[default]
    InTheBottle,
    /// Not in it: it meets its ice for each guest.
    OnItsIce,
}

/// The water from the ice of the drinks inside, for one glass, grams.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct IceInside {
    /// What of it is in the bottle: as weighed, else the least that it may be.
    pub in_bottle_g: f64,
    /// The most that it may be.
    pub most_g: f64,
}

impl IceInside {
    /// What may still go in, to taste.
    pub fn more_g(&self) -> f64 {
        self.most_g - self.in_bottle_g
    }

    fn of(poured: &PouredPart<'_>) -> Option<Self> {
        let ice = poured.within.ice_water.as_ref().filter(|ice| poured.part.melts.is_some() && ice.grams > 0.0)?;
        let share = poured.mass_g / ice.grams;
        let all_g =
            if ice.is_told() { (poured.mass_g, poured.mass_g) } else { (share * ice.least_g, share * ice.most_g) };
        Some(Self { in_bottle_g: all_g.0, most_g: all_g.1 })
    }

    /// Of all that is bottled of one glass.
    pub(super) fn of_all(bottled: &[PouredPart<'_>]) -> Self {
        let inside = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
        inside.filter_map(|of| Self::of(&of)).fold(Self::default(), |sum, of| Self {
            in_bottle_g: sum.in_bottle_g + of.in_bottle_g,
            most_g: sum.most_g + of.most_g,
        })
    }
}

/// The lines of what is bottled of a drink; what stands in it twice, by itself and in a drink, is weighed once.
pub(super) fn lines(bottled: &[PouredPart<'_>]) -> Vec<BatchLine> {
    let mut lines: Vec<BatchLine> = Vec::new();
    let poured = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
    for of in poured {
        // water is added, and never taken out
        let mass_g = IceInside::of(&of).map_or(of.mass_g, |ice| ice.in_bottle_g);
        let PouredPart { part, within, .. } = of;
        let (label, of) = match part.melts {
            Some(_) => (OF_INNER_ICE.to_owned(), WATER.to_owned()),
            None => (part.label.clone(), part.of.clone()),
        };
        match lines.iter_mut().find(|line| line.of == of && line.label == label) {
            Some(line) => line.mass_g += mass_g,
            None => lines.push(BatchLine { label: own_label(label, within, &lines), of, mass_g }),
        }
    }
    lines
}

/// Two lines of a card have two names.
fn own_label(label: String, within: &Solved, lines: &[BatchLine]) -> String {
    let is_taken = lines.iter().any(|line| line.label == label);
    if is_taken { format!("{label}, of {}", within.name) } else { label }
}
