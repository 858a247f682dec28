//! What the words of a card's method and of its notes tell of how it is made, and of what goes in that no part names.

use crate::safety::steps::{self, StepSays};
use crate::safety::{Facts, Member};
use crate::solver::Solved;
use crate::vocabulary::{Open, Process, Tag};

use super::declared;

/// Tags of things that a drink meets in its method rather than among its parts: what is written there is done.
const METHOD_TAGS: &[Tag] =
    &[Tag::CopperContact, Tag::DryIce, Tag::GalvanisedContact, Tag::LeadContact, Tag::LiquidNitrogen];

/// Tags of things that a method may let into a drink without their being weighed; a step may also throw them away, so it
/// only raises the question.
const STEEPED_TAGS: &[Tag] = &[
    Tag::ActivatedCharcoal,
    Tag::BitterAlmond,
    Tag::Calamus,
    Tag::Cinchona,
    Tag::Comfrey,
    Tag::ControlledPlant,
    Tag::ElderberryRaw,
    Tag::EssentialOil,
    Tag::ForagedUnsure,
    Tag::MedicinePlant,
    Tag::MilligramPoison,
    Tag::NotFood,
    Tag::Quinine,
    Tag::RawEgg,
    Tag::RawMeat,
    Tag::Sassafras,
    Tag::StoneFruitKernel,
    Tag::Tonka,
    Tag::ToxicPlant,
    Tag::Wormwood,
];

/// Those that a note may only speak of, to compare or to warn ("cassia carries more coumarin"): a step puts them in.
const ONLY_OF_STEPS: &[Tag] =
    &[Tag::Cinchona, Tag::EssentialOil, Tag::MedicinePlant, Tag::Quinine, Tag::Tonka, Tag::Wormwood];

/// What a step may speak of as done: while nobody has stated it, a stop that hangs on it stands.
const ASKED_OF_STEPS: &[Process] = &[Process::Ferment, Process::Distil];

/// The longest that is said again of a step, in characters.
const LONGEST_STEP: usize = 60;

/// What the steps, the notes, the name and the parts tell of how it is made.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    let stages = solved.card.all_stages().flat_map(|stage| &stage.steps);
    let steps = stages.chain(&solved.card.steps).map(|step| (step, STEEPED_TAGS, true));
    let of_notes: Vec<Tag> = STEEPED_TAGS.iter().copied().filter(|tag| !ONLY_OF_STEPS.contains(tag)).collect();
    let notes = solved.card.notes.iter().map(|note| (note, of_notes.as_slice(), false));
    // What a house writes of an ingredient in its larder may name what is in it.
    let told: Vec<String> = solved.ingredients().into_iter().flat_map(|(i, _)| i.own_words.clone()).collect();
    // what a statement says of where it grew is answered by the statement
    let of_entries: Vec<Tag> = of_notes.iter().copied().filter(|tag| *tag != Tag::ForagedUnsure).collect();
    let entries = told.iter().map(|text| (text, of_entries.as_slice(), false));
    // A garnish and what the glass is dressed with reach the guest, and nobody weighs them.
    let drink = &solved.card.drink;
    let dressed = drink.garnish.iter().chain(&drink.glass).map(|text| (text, STEEPED_TAGS, false));
    for (text, asked_of, is_step) in steps.chain(notes).chain(entries).chain(dressed) {
        let says = steps::read(text);
        // What a note speaks of need not be done.
        for process in says.done.iter().filter(|_| is_step) {
            facts.process.add(*process);
        }
        doubt_processes(facts, &says);
        let step: String = text.chars().take(LONGEST_STEP).collect();
        for process in says.perhaps.iter().filter(|process| is_step && ASKED_OF_STEPS.contains(process)) {
            let question = format!("whether \"{step}\" means that it is {}", process.asked());
            facts.questions.entry(Member::Process(*process)).or_default().insert(question);
        }
        let meets = says.found.tags.iter().filter(|tag| METHOD_TAGS.contains(tag));
        facts.tags.present.extend(says.meets.iter().chain(meets));
        let asked = says.found.tags.iter().chain(&says.found.unsure).filter(|tag| asked_of.contains(tag));
        let tags = asked.filter(|tag| !facts.tags.has(**tag)).map(|&tag| Member::Tag(tag)).collect::<Vec<_>>();
        let allergens = says.found.allergens.iter().map(|&allergen| Open::Known(allergen));
        let allergens = allergens.filter(|a| !declared::is_named(facts, a)).map(Member::Allergen);
        for member in tags.into_iter().chain(allergens.collect::<Vec<_>>()) {
            let question = format!("whether \"{step}\" puts {} into it", member.said());
            facts.questions.entry(member.clone()).or_default().insert(question);
            match member {
                Member::Tag(tag) => facts.tags.doubt(tag),
                Member::Allergen(allergen) => facts.allergens.doubt(allergen),
                Member::Market(_) | Member::Process(_) => {}
            }
        }
    }
    let parts = solved.stages.iter().flat_map(|s| &s.parts).flat_map(|p| [p.label.as_str(), p.of.as_str()]);
    for name in parts.chain([solved.name.as_str()]) {
        doubt_processes(facts, &steps::read(name));
    }
}

/// A name only raises the question, whatever it tells.
fn doubt_processes(facts: &mut Facts, says: &StepSays) {
    for process in says.perhaps.iter().chain(&says.done) {
        facts.process.doubt(*process);
    }
}
