//! Parts that an answer has none of though others, as good in what is aimed at, have some. Which of equal answers is taken
//! must not empty what the card names: how much of it goes in is then asked.

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::solver::room::{BestCorner, NoRoom, Pin};
use crate::solver::{NONE, Offer};
use crate::units::display::grouped;
use crate::vocabulary::Kind;

use super::Best;

/// The parts that a corner has none of and of which the card does not say that none may be right: no least stands with them,
/// and they are no water.
pub(super) fn emptied<'c>(
    card: &'c Card,
    offer: &'c Offer,
    corner: &'c BestCorner,
) -> impl Iterator<Item = usize> + 'c {
    let named = |part: &usize| {
        let is_water = offer.ingredients(*part).iter().all(|(of, _)| of.kind == Some(Kind::Water));
        let has_least = card.last.parts.get(*part).is_some_and(|part| part.bounds.at_least.is_some());
        offer.room.is_open(*part) && !is_water && !has_least
    };
    let zeros = corner.pins.iter().filter_map(|pin| if let Pin::Zero(part) = pin { Some(*part) } else { None });
    zeros.filter(named)
}

/// A question for each part that only the choice among equals empties.
pub(super) fn asked(card: &Card, offer: &Offer, best: &Best) -> Vec<Diagnostic> {
    let parts = emptied(card, offer, &best.corner);
    parts.filter_map(|part| as_good_with(offer, best, part).map(|most| question(card, part, most))).collect()
}

/// The most of a part that an answer as good has, grams, or without an end; `None` where none of those has any.
fn as_good_with(offer: &Offer, best: &Best, part: usize) -> Option<Option<f64>> {
    let in_it = |corner: &BestCorner| corner.masses.get(part).copied().unwrap_or(0.0);
    let is_some = |g: &f64| *g > NONE * best.corner.masses.iter().sum::<f64>();
    let Some(goal) = &best.goal else {
        return best.alike.iter().map(in_it).filter(is_some).reduce(f64::max).map(Some);
    };
    let most_of_it: Vec<f64> = (0..offer.room.lines.len()).map(|at| if at == part { -1.0 } else { 0.0 }).collect();
    match offer.room.land(&[goal.per_gram.clone(), most_of_it]) {
        Ok(other) if goal.is_less(&best.corner.masses, &other.masses).is_none() => {
            Some(in_it(&other)).filter(is_some).map(Some)
        }
        Err(NoRoom::Unbounded) => Some(None),
        Ok(_) | Err(_) => None,
    }
}

fn question(card: &Card, part: usize, most: Option<f64>) -> Diagnostic {
    let aim = card.aim.map_or_else(String::new, |aim| aim.value.words());
    let Some(part) = card.last.parts.get(part) else { return Diagnostic::error(Code::TooManyOpen, aim) };
    let name = &part.label.value;
    let some = most.map_or_else(|| "any amount of it".to_owned(), |g| format!("any up to {} g", grouped(g, 0)));
    Diagnostic::error(Code::TooManyOpen, format!("{aim} does not say how much `{name}` goes in: none is as good as {some}"))
        .at(part.label.span, "nothing says that any of it is wanted")
        .help(format!(
            "write the least that makes it what it is: {} = {{ amount = \"as needed\", at_least = \"...\" }}; at_least = \"0 g\" if none may be right",
            crate::input::key(name)
        ))
}

/// That an answer has none of a part, where the aim asks for that: what it is made of need not be made.
pub(super) fn told(card: &Card, offer: &Offer, best: &Best) -> Vec<Diagnostic> {
    let of = |part: usize| {
        let part = card.last.parts.get(part)?;
        let title = format!("nothing of `{}` is needed for these targets", part.label.value);
        let help = "do not make or buy it for this batch; or write the least that shall be in it: at_least = \"...\"";
        Some(Diagnostic::warning(Code::Unused, title).at(part.label.span, "0 g of it").help(help))
    };
    emptied(card, offer, &best.corner).filter_map(of).collect()
}
