//! What the words of a card's method and of its notes tell of how it is made, and of what goes in that no part names.

use crate::card::TargetKind;
use crate::larder::Ingredient;
use crate::mixture::Component;
use crate::properties::value_of;
use crate::safety::called::by_whole_names;
use crate::safety::names::read_allergen;
use crate::safety::standing;
use crate::safety::steps::{self, StepSays};
use crate::safety::{Facts, Member};
use crate::shelf_life::delle;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::{self, Claim};
use crate::units::grams_per_litre;
use crate::vocabulary::{Allergen, Kind, Open, Process, Tag};

use super::{declared, nature, plant_parts};

/// Tags of things that a drink meets in its method rather than among its parts: what is written there is done.
const METHOD_TAGS: &[Tag] =
    &[Tag::CopperContact, Tag::DryIce, Tag::GalvanisedContact, Tag::LeadContact, Tag::LiquidNitrogen];

/// Of what a guest has only to be told, which a step or a garnish that names it is enough for.
const TOLD_TAGS: &[Tag] = &[Tag::Grapefruit, Tag::SevilleOrange];

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
    Tag::Medicine,
    Tag::MedicinePlant,
    Tag::MilligramPoison,
    Tag::NotFood,
    Tag::PoisonMetal,
    Tag::Quinine,
    Tag::RawEgg,
    Tag::RawMeat,
    Tag::RawMilk,
    Tag::RedYeastRice,
    Tag::Sassafras,
    Tag::StoneFruitKernel,
    Tag::Tansy,
    Tag::Thuja,
    Tag::Tonka,
    Tag::ToxicPlant,
    Tag::UnfitSmoke,
    Tag::UnfitVessel,
    Tag::Wormwood,
];

/// Those that a note may only speak of, to compare or to warn ("cassia carries more coumarin"): a step puts them in.
const ONLY_OF_STEPS: &[Tag] = &[
    Tag::Cinchona,
    Tag::EssentialOil,
    Tag::MedicinePlant,
    Tag::Quinine,
    Tag::Tansy,
    Tag::Thuja,
    Tag::Tonka,
    Tag::Wormwood,
];

/// Those that a stage is called after where it met them; copper is a colour too.
const NAMED_AS_MET: &[Tag] = &[Tag::DryIce, Tag::LeadContact, Tag::LiquidNitrogen];

/// Those that a product is asked about that bears their name: an "oleander liqueur" holds oleander, or is called wrongly.
const NAMED_AFTER: &[Tag] = &[
    Tag::Medicine,
    Tag::MilligramPoison,
    Tag::NotFood,
    Tag::PoisonMetal,
    Tag::ToxicPlant,
    Tag::UnfitSmoke,
    Tag::UnfitVessel,
];

/// What a step may speak of as done: while nobody has stated it, a stop that hangs on it stands.
const ASKED_OF_STEPS: &[Process] = &[Process::Ferment, Process::Distil];

/// The longest that is said again of a step, in characters.
const LONGEST_STEP: usize = 60;

/// What the steps, the notes, the name and the parts tell of how it is made.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    let of_stages = solved.card.all_stages().flat_map(|stage| &stage.steps);
    let of_card: Vec<&String> = of_stages.chain(&solved.card.steps).collect();
    let steps = of_card.iter().map(|step| (*step, STEEPED_TAGS, true));
    let is_pasteurised_egg = |i: &Ingredient| {
        i.kind == Some(Kind::Egg) && i.all_names().any(|name| spelling::pasteurised(name) == Some(Claim::Made))
    };
    let has_pasteurised_egg = solved.ingredients().into_iter().any(|(i, _)| is_pasteurised_egg(i));
    let of_notes: Vec<Tag> = STEEPED_TAGS.iter().copied().filter(|tag| !ONLY_OF_STEPS.contains(tag)).collect();
    let notes = solved.card.notes.iter().map(|note| (note, of_notes.as_slice(), false));
    // What a house writes of an ingredient in its larder may name what is in it.
    let told: Vec<String> = solved.ingredients().into_iter().flat_map(|(i, _)| i.own_words.clone()).collect();
    if solved.ingredients().into_iter().any(|(i, _)| is_raw_by_its_words(i)) {
        facts.tags.add(Tag::RawMilk);
    }
    // what a statement says of where it grew is answered by the statement
    let of_entries = of_notes.iter().copied().filter(|tag| *tag != Tag::ForagedUnsure);
    // an entry speaks of what is in the thing: "quinine 5 %"
    let of_entries: Vec<Tag> = of_entries.chain([Tag::Quinine]).collect();
    let entries = told.iter().map(|text| (text, of_entries.as_slice(), false));
    // A garnish and what the glass is dressed with reach the guest, and nobody weighs them.
    let drink = &solved.card.drink;
    let dressed = drink.garnish.iter().chain(&drink.glass).map(|text| (text, STEEPED_TAGS, false));
    let put_on = drink.garnish.iter().chain(&drink.glass).chain(&solved.card.for_a_guest);
    let told = of_card.iter().copied().chain(put_on).flat_map(|text| steps::read(text).found.tags.clone());
    facts.tags.present.extend(told.filter(|tag| TOLD_TAGS.contains(tag)));
    let spirits = spirits_of(solved);
    let has_alcohol = solved.stages.iter().any(|made| made.course.combined.grams_of(Component::Ethanol) > 0.0);
    for (text, asked_of, is_step) in steps.chain(notes).chain(entries).chain(dressed) {
        let mut says = if is_step { steps::read(&by_whole_names(text, &spirits)) } else { steps::read(text) };
        if is_step {
            says.found.add(plant_parts::pointed_at(text, solved));
        }
        if says.freezes_out && (has_alcohol || facts.process.may_hold(Process::Ferment)) {
            says.perhaps.insert(Process::Distil);
        }
        // What a note speaks of need not be done.
        for process in says.done.iter().filter(|_| is_step) {
            facts.process.add(*process);
        }
        if is_step && standing::is_kept_warm(text) {
            facts.process.add(Process::KeptWarm);
        }
        doubt_processes(facts, &says);
        let step: String = text.chars().take(LONGEST_STEP).collect();
        // a note raises the question that a step answers
        let of_notes = says.done.iter().filter(|_| !is_step);
        let said = says.perhaps.iter().chain(of_notes);
        for process in said.filter(|process| ASKED_OF_STEPS.contains(process)) {
            let question = format!("whether \"{step}\" means that it is {}", process.asked());
            facts.questions.entry(Member::Process(*process)).or_default().insert(question);
        }
        // What grows in soil goes into oil by a step as well as by a line.
        let into_oil = is_step && facts.tags.has(Tag::Oil) && !facts.tags.has(Tag::FreshPlant);
        if into_oil && says.found.tags.iter().any(|tag| matches!(tag, Tag::FreshPlant | Tag::Garlic)) {
            let question = format!("whether \"{step}\" puts garlic, herb or vegetable under the oil");
            facts.doubt_tag(Tag::OilInfusion, question);
        }
        let meets = says.found.tags.iter().filter(|tag| METHOD_TAGS.contains(tag));
        facts.tags.present.extend(says.meets.iter().chain(meets));
        let asked = says.found.tags.iter().chain(&says.found.unsure).filter(|tag| asked_of.contains(tag));
        // "beat the yolks" are those of the card, which are pasteurised
        let is_of_card = |tag: Tag| {
            tag == Tag::RawEgg
                && has_pasteurised_egg
                && !says.egg_in_shell
                && !steps::says_raw(text)
                && spelling::pasteurised(text) != Some(Claim::Denied)
        };
        let tags = asked
            .filter(|tag| !facts.tags.has(**tag) && !is_of_card(**tag))
            .map(|&tag| Member::Tag(tag))
            .collect::<Vec<_>>();
        let allergens = says.found.allergens.iter().map(|&allergen| Open::Known(allergen));
        let allergens = allergens.filter(|a| !declared::is_named(facts, a)).map(Member::Allergen);
        for member in tags.into_iter().chain(allergens.collect::<Vec<_>>()) {
            let question = format!("whether \"{step}\" puts {} into it", member.said());
            match member {
                Member::Tag(tag) => facts.doubt_tag(tag, question),
                Member::Allergen(allergen) => facts.doubt_allergen(allergen, question),
                Member::Market(_) | Member::Process(_) => {}
            }
        }
    }
    // fruit that is not stoned, and crushed by the same step or another
    let whole = of_card.iter().find(|step| steps::read(step).stones_stay);
    let is_crushed = !facts.tags.has(Tag::StoneFruitKernel) && of_card.iter().any(|step| steps::read(step).crushes);
    if let Some(step) = whole.filter(|_| is_crushed) {
        let step: String = step.chars().take(LONGEST_STEP).collect();
        let question = format!("whether with \"{step}\" stones of fruit are crushed");
        facts.doubt_tag(Tag::StoneFruitKernel, question);
    }
    // nothing frozen by gas, no lead and no copper reaches a guest by another way than a step
    if let Some(text) = &solved.card.for_a_guest {
        let says = steps::read(text);
        let meets = says.found.tags.iter().filter(|tag| METHOD_TAGS.contains(tag));
        facts.tags.present.extend(says.meets.iter().chain(meets));
        doubt_processes(facts, &says);
        for process in says.perhaps.iter().chain(&says.done).filter(|process| ASKED_OF_STEPS.contains(process)) {
            let question = format!("whether \"{text}\" means that it is {}", process.asked());
            facts.questions.entry(Member::Process(*process)).or_default().insert(question);
        }
    }
    // What a stage is called, and what is done for a guest: none of it is a line, and all of it is drunk. An egg for the guest is told there.
    let called = || solved.card.all_stages().filter_map(|stage| stage.name.as_ref()).map(|name| &name.value);
    for name in called() {
        let mut says = steps::read(name);
        if steps::is_called_distilled(name) {
            says.perhaps.insert(Process::Distil);
        }
        doubt_processes(facts, &says);
        // what a stage is called it may have met, and hold
        let meets = says.found.tags.iter().filter(|tag| NAMED_AS_MET.contains(tag));
        facts.tags.present.extend(says.meets.iter().chain(meets));
        let allergens = says.found.allergens.iter().map(|&allergen| Open::Known(allergen));
        for allergen in allergens.filter(|a| !declared::is_named(facts, a)).collect::<Vec<_>>() {
            let question = format!("whether `{name}` brings {}", Member::Allergen(allergen.clone()).said());
            facts.doubt_allergen(allergen, question);
        }
        let has_egg = facts.tags.has(Tag::RawEgg) || has_pasteurised_egg;
        if !has_egg && says.found.tags.contains(&Tag::RawEgg) && steps::says_raw(name) {
            facts.doubt_tag(Tag::RawEgg, format!("whether the egg in `{name}` is raw"));
        }
        for process in says.perhaps.iter().filter(|process| ASKED_OF_STEPS.contains(process)) {
            let question = format!("whether `{name}` is {}", process.asked());
            facts.questions.entry(Member::Process(*process)).or_default().insert(question);
        }
    }
    for text in called().chain(&solved.card.for_a_guest) {
        for tag in
            steps::read(text).found.tags.iter().filter(|tag| of_notes.contains(tag) && **tag != Tag::RawEgg).copied()
        {
            if !facts.tags.has(tag) {
                facts.doubt_tag(tag, format!("whether \"{text}\" puts {} into it", Member::Tag(tag).said()));
            }
        }
    }
    let is_left_to_work =
        solved.card.last.heated.is_none() && solved.card.keep.closed == Some(true) && feeds_yeast(solved);
    let parts = solved.card.all_stages().zip(&solved.stages).flat_map(|(stage, made)| {
        let may_work = is_left_to_work && stage.heated.is_none();
        made.parts.iter().map(move |part| (part, works(part) || may_work && lives(part)))
    });
    for (name, works) in parts.flat_map(|(part, works)| [(&part.label, works), (&part.of, works)]) {
        // "cider, live": a comma parts no two clauses of a name
        let mut says = steps::read(&name.replace(',', " "));
        if steps::is_cut(name) {
            says.perhaps.insert(Process::Distil);
        }
        doubt_processes(facts, &says);
        // A yeast that goes in is there to work: while nobody has stated it, a stop that hangs on it stands.
        for process in says.perhaps.iter().chain(&says.done).filter(|process| works && ASKED_OF_STEPS.contains(process))
        {
            let question = format!("whether with {name} it is {}", process.asked());
            facts.questions.entry(Member::Process(*process)).or_default().insert(question);
        }
    }
    let says = steps::read(&solved.name);
    doubt_processes(facts, &says);
    // a drink has a fancy name, and so may a bottle; a liqueur of a plant is called after what is in it
    let is_told = steps::names_a_product(&solved.name) && !solved.card.is_drink();
    let of_name = NAMED_AFTER.iter().filter(|tag| is_told && says.found.tags.contains(tag));
    for &tag in of_name.collect::<Vec<_>>() {
        if !facts.tags.has(tag) {
            let question =
                format!("whether what `{}` is called after is in it; if not, call it otherwise", solved.name);
            facts.doubt_tag(tag, question);
        }
    }
}

/// The lines of spirits, by what they are called.
fn spirits_of(solved: &Solved) -> Vec<&str> {
    let is_spirit = |part: &&SolvedPart| match &part.found.what {
        Material::Ingredient(ingredient) => ingredient.kind == Some(Kind::Spirit),
        _ => false,
    };
    solved.stages.iter().flat_map(|stage| &stage.parts).filter(is_spirit).map(|part| part.label.as_str()).collect()
}

/// What may be put in to work on the rest. A drink that was fermented once is bought as it is.
fn works(part: &SolvedPart) -> bool {
    let Material::Ingredient(ingredient) = &part.found.what else { return false };
    !matches!(
        ingredient.kind,
        Some(Kind::Beer | Kind::Cider | Kind::Wine | Kind::Fortified | Kind::Soda | Kind::Juice | Kind::Vinegar)
    )
}

/// Milk or cream of which the house writes that nobody pasteurised it.
fn is_raw_by_its_words(ingredient: &Ingredient) -> bool {
    let is_dairy = ingredient.tags.contains(&Open::Known(Tag::Dairy))
        || ingredient.allergens.iter().any(|said| read_allergen(said).contains(&Open::Known(Allergen::Milk)));
    is_dairy && ingredient.own_words.iter().any(|text| spelling::pasteurised(text) == Some(Claim::Denied))
}

/// Whether what is bottled is weak enough for yeast.
fn feeds_yeast(solved: &Solved) -> bool {
    let liquid = solved.bottled();
    let value = |kind| value_of(kind, liquid).unwrap_or(0.0);
    value(TargetKind::Abv) < delle::still_from_abv(grams_per_litre(value(TargetKind::Sugar).max(0.0)))
}

/// A culture that nothing killed.
fn lives(part: &SolvedPart) -> bool {
    let Material::Ingredient(ingredient) = &part.found.what else { return false };
    let names = ingredient.all_names().chain([part.label.as_str(), part.of.as_str()]);
    names.into_iter().any(nature::is_live_culture)
}

/// A name only raises the question, whatever it tells.
fn doubt_processes(facts: &mut Facts, says: &StepSays) {
    // what charges soda is no infusion under pressure
    let is_soda = |process: &Process| *process == Process::PressureInfusion && says.done.contains(&Process::Carbonated);
    for process in says.perhaps.iter().chain(&says.done).filter(|process| !is_soda(process)) {
        facts.process.doubt(*process);
    }
}

/// An alkali that a step puts in and no line weighs, by its name: nobody knows how much of the acid it takes.
pub(super) fn unweighed_alkali(solved: &Solved) -> Option<&'static str> {
    let told = solved.card.all_stages().flat_map(|stage| &stage.steps).chain(&solved.card.steps);
    let named = |step: &String| steps::told_clauses(step).iter().find_map(|said| nature::alkali_in(said));
    let alkali = told.into_iter().find_map(named)?;
    let is_alkali = |part: &SolvedPart| match &part.found.what {
        Material::Ingredient(ingredient) => nature::is_alkali([&part.label, &part.of], ingredient),
        _ => false,
    };
    (!solved.stages.iter().flat_map(|s| &s.parts).any(is_alkali)).then_some(alkali)
}
