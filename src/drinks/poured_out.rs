//! The lines of a batch: a drink that goes into a drink is poured out into what it is made of, for no lot is kept of a drink.

use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};

/// The water that the drinks inside have from their own ice.
const OF_INNER_ICE: &str = "water, in place of the ice inside";

/// A line of the card of a batch, of one glass.
pub(super) struct BatchLine {
    pub(super) label: String,
    pub(super) of: String,
    pub(super) mass_g: f64,
}

/// The lines of what is bottled of a drink; what stands in it twice, by itself and in a drink, is weighed once.
pub(super) fn lines(bottled: &[&SolvedPart], drink: &Solved) -> Vec<BatchLine> {
    let mut lines = Vec::new();
    for part in bottled {
        add(part, part.mass_g, drink, &mut lines);
    }
    lines
}

fn add(part: &SolvedPart, mass_g: f64, within: &Solved, lines: &mut Vec<BatchLine>) {
    let inner = match part.found.what {
        Material::Card(place) => within.inner.get(place).map(|inner| &inner.card),
        Material::Ingredient(_) | Material::Stage(_) => None,
    };
    // what is made in a stage of a drink has no name outside it
    if let Some(inner) = inner.filter(|inner| inner.card.is_drink() && inner.card.stages.is_empty()) {
        let share = mass_g / inner.bottled().total_grams();
        for own in inner.last().parts.iter().filter(|own| own.mass_g > 0.0) {
            add(own, own.mass_g * share, inner, lines);
        }
        return;
    }
    let (label, of) = match part.melts {
        Some(_) => (OF_INNER_ICE.to_owned(), "water".to_owned()),
        None => (part.label.clone(), part.of.clone()),
    };
    match lines.iter_mut().find(|line| line.of == of && line.label == label) {
        Some(line) => line.mass_g += mass_g,
        None => lines.push(BatchLine { label: own_label(label, within, lines), of, mass_g }),
    }
}

/// Two lines of a card have two names.
fn own_label(label: String, within: &Solved, lines: &[BatchLine]) -> String {
    let is_taken = lines.iter().any(|line| line.label == label);
    if is_taken { format!("{label}, of {}", within.name) } else { label }
}
