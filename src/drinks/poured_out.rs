//! The lines of a batch: a drink that goes into a drink is poured out into what it is made of.

use crate::solver::{PouredPart, Solved, poured_out};

/// The water that the drinks inside have from their own ice.
const OF_INNER_ICE: &str = "water, in place of the ice inside";

/// A line of the card of a batch, of one glass.
pub(super) struct BatchLine {
    pub(super) label: String,
    pub(super) of: String,
    pub(super) mass_g: f64,
}

/// The lines of what is bottled of a drink; what stands in it twice, by itself and in a drink, is weighed once.
pub(super) fn lines(bottled: &[PouredPart<'_>]) -> Vec<BatchLine> {
    let mut lines: Vec<BatchLine> = Vec::new();
    let poured = bottled.iter().flat_map(|of| poured_out(of.part, of.mass_g, of.within));
    for PouredPart { part, mass_g, within } in poured {
        let (label, of) = match part.melts {
            Some(_) => (OF_INNER_ICE.to_owned(), "water".to_owned()),
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
