//! Where the keys of a card and its steps tell two things: a heat that a step denies, water that nothing drives off.

use crate::card::{AskedOf, Card, OpenLine, Stage};
use crate::diagnostic::{Span, Spanned};
use crate::safety::steps;
use crate::units::degrees_celsius;

/// As much of the water as this does not go by itself (ours).
const DRIVEN_OFF: f64 = 0.2;

/// What has to be settled before its date rests on either.
pub(super) fn asked(card: &Card) -> Vec<OpenLine> {
    let is_driven = |stage: &&Stage| stage.loss.evaporated.is_some_and(|share| share.value >= DRIVEN_OFF);
    if !card.all_stages().any(|stage| stage.heated.is_some() || is_driven(&stage)) {
        return Vec::new();
    }
    let told = || card.all_stages().flat_map(|stage| &stage.steps).chain(&card.steps);
    if told().next().is_none() || told().any(|step| steps::heats_all(step)) {
        return Vec::new();
    }
    let open = |value: String, span: Span| OpenLine { asked: Spanned { value, span }, of: AskedOf::Steps };
    let cold = told().find(|step| steps::denies_heat(step));
    let hot = card.all_stages().filter_map(|stage| stage.heated).zip(cold).next();
    let heated = hot.map(|(heated, step)| {
        let to = degrees_celsius(heated.value.to);
        open(format!("heated says {to:.0} °C, and a step says \"{step}\": which is done?"), heated.span)
    });
    let dries = || told().any(|step| steps::drives_off(step));
    let driven = card.all_stages().find(is_driven).filter(|stage| stage.heated.is_none() && !dries());
    let evaporated = driven.and_then(|stage| stage.loss.evaporated).map(|share| {
        let percent = 100.0 * share.value;
        open(
            format!(
                "evaporated says {percent:.0} % of the water, and no step boils, reduces or dries: how does it go?"
            ),
            share.span,
        )
    });
    heated.into_iter().chain(evaporated).collect()
}
