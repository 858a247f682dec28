//! Cards with room that go into others: each is chosen by its own aim, the innermost first, and goes in as chosen.

use std::borrow::Cow;
use std::collections::BTreeSet;

use crate::card::{self, Card, Makes};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::House;
use crate::paste::in_order;
use crate::solver::target::target_words;
use crate::solver::{BatchSize, DEEPEST, Options};
use crate::spelling::fold;
use crate::units::grams;

use super::choose;

/// The house with every card chosen that goes into this one and leaves room. `None` where one of them cannot be, which is
/// said; one without an aim the solver asks for it.
pub(super) fn with_chosen<'a>(card: &Card, house: &'a House, found: &mut Vec<Diagnostic>) -> Option<Cow<'a, House>> {
    let mut settled = Cow::Borrowed(house);
    // a house without an aim or a strainer anywhere reads nothing twice for it
    let is_said = |text: &str| text.contains("aim") || text.contains("strained");
    if !house.cards().any(|card| is_said(&card.source.text)) {
        return Some(settled);
    }
    let mut seen = BTreeSet::from([fold(&card.name.value)]);
    settle(card, &mut settled, &mut seen, DEEPEST, found).then_some(settled)
}

/// The house with the card of this name chosen, where it leaves room, and what goes into it: a new part, that stands on no
/// card yet. `None` where it cannot be, which is said.
pub fn with_product<'a>(name: &str, house: &'a House, found: &mut Vec<Diagnostic>) -> Option<Cow<'a, House>> {
    let mut settled = Cow::Borrowed(house);
    let known = house.chosen(name).is_some();
    let mut seen = BTreeSet::from([fold(name)]);
    (known || settle_one(name, &mut settled, &mut seen, DEEPEST, found)).then_some(settled)
}

fn settle(
    card: &Card,
    house: &mut Cow<'_, House>,
    seen: &mut BTreeSet<String>,
    deeper: usize,
    found: &mut Vec<Diagnostic>,
) -> bool {
    let mut all = true;
    let stages: BTreeSet<String> = card.stages.iter().filter_map(|s| s.name.as_ref()).map(|n| fold(&n.value)).collect();
    for (_, part) in card.all_parts() {
        let key = fold(&part.of.value);
        if deeper == 0 || stages.contains(&key) || !seen.insert(key) {
            continue;
        }
        all &= settle_one(&part.of.value, house, seen, deeper, found);
    }
    all
}

/// The card of this name, where the house has it, with what goes into it.
fn settle_one(
    name: &str,
    house: &mut Cow<'_, House>,
    seen: &mut BTreeSet<String>,
    deeper: usize,
    found: &mut Vec<Diagnostic>,
) -> bool {
    let Some(source) = house.card(name).cloned() else { return true };
    let (Some(inner), read) = card::read_by(source.file, source.text, &house.customs()) else { return true };
    // what is wrong with it the solver says, where it is used
    if any_error(&read) {
        return true;
    }
    if !settle(&inner, house, seen, deeper - 1, found) {
        return false;
    }
    if inner.aim.is_none() || !inner.has_room() {
        if let Some(inner) = in_order(&inner, house) {
            house.to_mut().settle_on(inner);
        }
        return true;
    }
    let size = inner.makes.is_none().then(|| BatchSize::Makes(Makes::Mass(grams(1000.0))));
    match choose(&inner, house, &Options { size, ..Options::default() }) {
        Ok((Cow::Owned(chosen), _)) => {
            found.push(as_chosen(&chosen));
            house.to_mut().settle_on(chosen);
            true
        }
        Ok((Cow::Borrowed(_), _)) => true,
        Err(why) => {
            found.extend(why.into_iter().map(|d| d.in_file(&inner.file)));
            false
        }
    }
}

fn as_chosen(card: &Card) -> Diagnostic {
    let landed = card.landed.as_ref();
    let at = landed.into_iter().flat_map(|l| &l.ranges).map(|range| target_words(range.range.kind, range.value));
    let at = at.collect::<Vec<_>>().join(", ");
    let aim = landed.and_then(|landed| landed.aim).map_or_else(String::new, |aim| aim.words());
    let title = format!("`{}` goes in as its aim chooses it, {aim}: {at}", card.name.value);
    Diagnostic::note(Code::Understood, title.trim_end_matches([':', ' ']).to_owned())
        .at(card.aim.map_or(card.name.span, |aim| aim.span), "chosen by this")
        .in_file(&card.file)
}
