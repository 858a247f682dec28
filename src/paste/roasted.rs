//! Fruit and roots that a step of a typed card roasts or grills: what goes off as steam no line says.

use crate::card::{Card, Part};
use crate::input::{key, quoted};
use crate::mixture::Component;
use crate::spelling::words;
use crate::units::told::clauses;

use super::draft::DraftLine;
use super::names::Names;
use super::speaks::names_it;
use super::words::WordList;

/// Half of its weight or more is water: what is drier loses little in an oven (ours).
const LEAST_WATER: f64 = 0.5;

/// A question for each line of which a step roasts what it weighs raw.
pub(super) fn asked_of(card: &Card, names: Names<'_>) -> Vec<DraftLine> {
    let is_said = card.all_stages().any(|stage| stage.loss.evaporated.is_some());
    let steps = card.stages.iter().flat_map(|stage| &stage.steps).chain(&card.steps);
    let roasts = |clause: &&str| clause.split_whitespace().any(|word| WordList::Roasted.has(word));
    let roasted: Vec<&str> = steps.flat_map(|step| clauses(step)).map(|clause| clause.text).filter(roasts).collect();
    if is_said || roasted.is_empty() || card.is_drink() {
        return Vec::new();
    }
    let is_it = |part: &&Part| {
        let known = names.house.larder.find(&part.of.value).filter(|_| names.house.card(&part.of.value).is_none());
        let is_wet = known
            .is_some_and(|known| known.is_plant_matter() && known.per_gram.grams_of(Component::Water) >= LEAST_WATER);
        let is_told = words(&part.label.value).iter().any(|word| WordList::Roasted.has(word));
        let is_roasted = || roasted.iter().any(|clause| names_it(&part.of.value, clause));
        is_wet && part.has_size() && part.holds.is_none() && !is_told && is_roasted()
    };
    let asks = |part: &Part| {
        let label = &part.label.value;
        let line = key(&format!("{label}, roasted"));
        let of = quoted(&part.of.value);
        let asks = format!(
            "a step roasts it, and its line weighs it raw: weigh it roasted, and write {line} = {{ of = {of}, amount = \"… g\" }} in its \
             place, or what went off as steam: [loss] evaporated = \"… %\""
        );
        DraftLine::guess(label, asks)
    };
    card.all_parts().map(|(_, part)| part).filter(is_it).map(asks).collect()
}
