//! Strained fruit that the steps press or blend: it gives more of its juice than pieces that only lie in a liquid.

use crate::card::{Card, Part, Stage};
use crate::house::House;
use crate::larder::Ingredient;
use crate::mixture::Component;
use crate::units::told::clauses;
use crate::vocabulary::Kind;

use super::draft::DraftLine;
use super::names::Names;
use super::speaks::names_it;
use super::words::WordList;

/// Of each stage the places of the parts that are pressed, while what is counted of their solids is that of pieces.
pub(crate) fn pressed(card: &Card, house: &House) -> Vec<Vec<usize>> {
    let names = Names::of(house, "");
    let of_stage = |stage: &Stage| {
        let parts = stage.parts.iter().enumerate();
        parts.filter(|(_, part)| is_pressed(part, stage, card, names)).map(|(at, _)| at).collect()
    };
    card.all_stages().map(of_stage).collect()
}

/// A question for each of them.
pub(super) fn asked_of(card: &Card, names: Names<'_>) -> Vec<DraftLine> {
    let all = card.all_parts().filter(|(stage, part)| is_pressed(part, stage, card, names));
    let asked = |(_, part): (&Stage, &Part)| {
        let what = row_of(part, names)?;
        let asks = format!(
            "pressed or blended, and counted as \"{what}\": weigh what stays in the cloth: holds = (that weight - weight in) / weight in"
        );
        Some(DraftLine::guess(&part.label.value, asks))
    };
    all.filter_map(asked).collect()
}

/// What is counted of its solids, where that is less than pressing gives.
fn row_of<'n>(part: &Part, names: Names<'n>) -> Option<&'n str> {
    let name = &part.of.value;
    let known: &Ingredient = names.house.larder.find(name).filter(|_| names.house.card(name).is_none())?;
    let row = known.strained.filter(|_| part.is_strained() && part.holds.is_none())?;
    row.most_pressed(known.per_gram.grams_of(Component::Water))?;
    matches!(known.kind, Some(Kind::Fruit | Kind::Vegetable)).then_some(row.what.as_str())
}

fn is_pressed(part: &Part, stage: &Stage, card: &Card, names: Names<'_>) -> bool {
    if card.is_drink() || row_of(part, names).is_none() {
        return false;
    }
    let steps = if card.stages.is_empty() { &card.steps } else { &stage.steps };
    let label = &part.label.value;
    steps.iter().flat_map(|step| clauses(step)).any(|clause| {
        let is_denied = clause.words.iter().any(|word| WordList::Unless.has(word));
        let names_one = stage.parts.iter().any(|other| names_it(&other.label.value, clause.text));
        let is_it = names_it(label, clause.text) || !names_one;
        let does = WordList::Pressed.within(clause.text) || WordList::Blended.within(clause.text);
        does && is_it && !is_denied
    })
}
