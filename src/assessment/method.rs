//! What the words of a card's method tell of how it is made.

use crate::safety::{self, Facts};
use crate::solver::Solved;
use crate::vocabulary::{Process, Tag};

/// Words of a method that tell of a process; a step may also forbid it, so each only raises the question.
const METHOD_WORDS: &[(&str, Process)] = &[
    ("distil", Process::Distil),
    ("distill", Process::Distil),
    ("distilling", Process::Distil),
    ("distillation", Process::Distil),
    ("ferment", Process::Ferment),
    ("fermented", Process::Ferment),
    ("fermenting", Process::Ferment),
    ("fermentation", Process::Ferment),
    ("yeast", Process::Ferment),
    ("kombucha", Process::Ferment),
    ("scoby", Process::Ferment),
    ("tepache", Process::Ferment),
    ("tibicos", Process::Ferment),
    ("siphon", Process::PressureInfusion),
    ("whipper", Process::PressureInfusion),
    ("n2o", Process::PressureInfusion),
    ("nitrous", Process::PressureInfusion),
    ("vide", Process::SousVide),
    ("vide", Process::ReducedOxygen),
    ("vacuum", Process::ReducedOxygen),
    ("vac", Process::ReducedOxygen),
];
/// Tags of things that a drink meets in its method rather than among its parts.
const METHOD_TAGS: &[Tag] = &[Tag::CopperContact, Tag::DryIce, Tag::LiquidNitrogen];

/// Tags of things that a method may let into a drink without their being weighed; a step may also throw them away, so it
/// only raises the question.
const STEEPED_TAGS: &[Tag] = &[Tag::StoneFruitKernel, Tag::ToxicPlant, Tag::ControlledPlant, Tag::Cinchona, Tag::Tonka];

/// What the steps, the name and the parts tell of how it is made.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    let steps =
        || solved.card.all_stages().flat_map(|stage| &stage.steps).chain(&solved.card.steps).map(String::as_str);
    let parts = solved.stages.iter().flat_map(|s| &s.parts).flat_map(|p| [p.label.as_str(), p.of.as_str()]);
    for text in steps().chain(parts).chain([solved.name.as_str()]) {
        let text = text.to_lowercase();
        let words: Vec<&str> = text.split(|c: char| !c.is_alphanumeric()).collect();
        for (_, process) in METHOD_WORDS.iter().filter(|(word, _)| words.contains(word)) {
            facts.process.doubt(*process);
        }
    }
    // Clause by clause: "freeze in dry, clean trays; add ice" is not of dry ice.
    let clauses = |text: &str| -> Vec<Tag> {
        let clauses = text.split([',', ';', '.', ':', '(', ')']);
        clauses.flat_map(|clause| safety::names::find(clause).tags).collect()
    };
    let of_steps: Vec<Tag> = steps().flat_map(clauses).collect();
    // What a note warns of is not what is done.
    let of_notes = solved.card.notes.iter().flat_map(|note| clauses(note));
    facts.tags.unsure.extend(of_steps.iter().filter(|tag| STEEPED_TAGS.contains(tag)));
    facts.tags.present.extend(of_steps.into_iter().chain(of_notes).filter(|tag| METHOD_TAGS.contains(tag)));
}
