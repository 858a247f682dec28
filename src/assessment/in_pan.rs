//! Whether the steps heat what is in a pan: spirit or wine by its name, by the place that it stands in, or without a word.

use std::sync::Arc;

use crate::card::{Part, Stage};
use crate::house::{HotClause, House};
use crate::larder::Form;
use crate::mixture::alcohol;
use crate::paste;
use crate::safety::steps;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart, SolvedStage};
use crate::spelling::words;

/// What is stronger than this is a drink with alcohol, % vol (Regulation (EU) 1169/2011, article 16).
const ALCOHOLIC_ABV: f64 = 1.2;

/// A word of a name has so many letters at the least: gin, rum.
const FEWEST_LETTERS: usize = 3;

/// How many minutes the steps boil what is in this pan and no key says how hot it was; nothing where a step says no time.
pub(super) fn boiled_by(solved: &Solved, stage: &Stage, made: &SolvedStage, house: &House) -> Option<Option<f64>> {
    let mut steps = stage.steps.iter().chain(&solved.card.steps);
    if stage.not_heated.is_some() || !steps.any(|step| paste::boils(step)) {
        return None;
    }
    let step = heated_by(solved, stage, made, house)?;
    paste::boils(step).then(|| paste::minutes_told(step))
}

/// The step that tells of spirit or wine being heated in this pan. The steps of a card are those of all its pans.
pub(super) fn heated_by<'a>(
    solved: &'a Solved,
    stage: &'a Stage,
    made: &SolvedStage,
    house: &House,
) -> Option<&'a String> {
    let spirits: Vec<Vec<String>> = made
        .parts
        .iter()
        .filter(|part| part.mass_g > 0.0 && alcohol::solvent_abv(&part.found.per_gram).get() > ALCOHOLIC_ABV)
        .map(|part| words(&part.label))
        .collect();
    // where there is nothing else to heat, a step that names nothing heats the spirit
    let liquid = |part: &&SolvedPart| part.found.form == Form::Liquid && part.mass_g > 0.0;
    let one_pan = solved.stages.len() == 1;
    let alone = stage.not_heated.is_none()
        && one_pan
        && !spirits.is_empty()
        && made.parts.iter().filter(liquid).count() == spirits.len();
    // "warm the butter" warms none of the rum that it goes into
    let is_spirit = |part: &&SolvedPart| spirits.iter().any(|name| *name == words(&part.label));
    let others: Vec<String> =
        made.parts.iter().filter(|part| !is_spirit(part)).flat_map(|part| words(&part.label)).collect();
    // what goes in behind the heat is not in the hot pan
    let is_in_pan = || {
        let late = behind_the_heat(solved, house);
        spirits.iter().any(|name| !late.iter().any(|label| words(label) == *name))
    };
    let in_pan = || alone || stage.not_heated.is_none() && one_pan && is_in_pan();
    // of "alcool a 95°" the "a" is no word of it
    let tells = |word: &String| word.chars().count() >= FEWEST_LETTERS;
    let own_words = |name: &Vec<String>| -> Vec<String> { name.iter().filter(|word| tells(word)).cloned().collect() };
    let of_spirits: Vec<String> = spirits.iter().flat_map(&own_words).collect();
    let is_so_hot = |step: &String| {
        hot_clauses(step, house).iter().any(|&(ref clause, by_degrees)| {
            let said = words(clause);
            let names = |name: &Vec<String>| said.iter().any(|word| tells(word) && name.contains(word));
            // of "boil the water and add the vodka" the verb is that of the water
            let is_named = spirits.iter().any(names);
            is_named && (by_degrees || !names(&others)) || by_degrees && !names(&others) && in_pan()
        })
    };
    let is_lit = |step: &String| {
        let said = words(step);
        let names_it = || of_spirits.iter().any(|word| said.contains(word));
        !spirits.is_empty() && burns(solved, step) && (names_it() || in_pan())
    };
    let tells_it = |step: &&String| {
        is_lit(step)
            || spirits.iter().any(|name| steps::heats(step, &own_words(name)))
            || alone && steps::heats_but(step, &others) && !steps::heats_on(step, &others, &of_spirits)
            || !spirits.is_empty() && is_so_hot(step)
    };
    let told = stage.steps.iter().chain(&solved.card.steps).find(tells_it);
    told.or_else(|| in_its_pan(solved, stage, made, house).filter(|_| stage.not_heated.is_none()))
        .or_else(|| with_its_solids(solved, stage, made, house))
        .or_else(|| {
            let name = stage.name.as_ref().map(|name| &name.value);
            name.filter(|name| !spirits.is_empty() && stage.not_heated.is_none() && paste::is_called_boiled(name))
        })
}

/// The strength of what this step heats apart from the rest of the pan, % vol: "warm the wine with the sugar, cool and add" warms none of
/// the spirit that it goes to. Nothing where the wine may be in it already.
pub(super) fn heated_apart(
    solved: &Solved,
    stage: &Stage,
    made: &SolvedStage,
    step: &String,
    house: &House,
) -> Option<f64> {
    let abv = |part: &SolvedPart| alcohol::solvent_abv(&part.found.per_gram).get();
    let names = |part: &SolvedPart| paste::called(&[&part.label, &part.of], house);
    let (spirits, sober): (Vec<&SolvedPart>, Vec<&SolvedPart>) =
        made.parts.iter().filter(|part| part.mass_g > 0.0).partition(|part| abv(part) > ALCOHOLIC_ABV);
    let of_spirits: Vec<String> = spirits.iter().flat_map(|part| names(part)).collect();
    let others: Vec<String> = sober.into_iter().flat_map(names).filter(|word| !of_spirits.contains(word)).collect();
    let is_hot = |text: &str| steps::heats_all(text) || !hot_clauses(text, house).is_empty();
    // "take it off the heat and add the rum", by a step of its own
    let late = paste::put_in_behind(&solved.card, house, is_hot);
    let is_late = |part: &&SolvedPart| late.iter().any(|late| late.label.value == part.label);
    let added = paste::heated_and_added(step, &others, is_hot);
    let said = words(added.as_ref().or(Some(step).filter(|_| spirits.iter().any(is_late)))?);
    // "den Wein" is the Rotwein of the list
    let is_of = |name: &String, word: &String| name == word || is_head_of(word, name);
    let is_said = |part: &&SolvedPart| names(part).iter().any(|name| said.iter().any(|word| is_of(name, word)));
    let (hot, rest): (Vec<&SolvedPart>, Vec<&SolvedPart>) = spirits.into_iter().partition(is_said);
    if added.is_none() && !rest.iter().all(is_late) {
        return None;
    }
    let of_hot: Vec<String> = hot.iter().flat_map(|part| names(part)).collect();
    let before = stage.steps.iter().chain(&solved.card.steps).take_while(|told| !std::ptr::eq(*told, step));
    let was_named = before.flat_map(|told| words(told)).any(|word| of_hot.contains(&word));
    (!hot.is_empty() && !rest.is_empty() && !was_named).then(|| hot.into_iter().map(abv).fold(0.0, f64::max))
}

/// Whether a word is what a longer one ends with.
fn is_head_of(word: &str, name: &str) -> bool {
    word.chars().count() > FEWEST_LETTERS && name.len() > word.len() && name.ends_with(word)
}

/// The parts that the steps put in behind the last heat.
pub(super) fn behind_the_heat(solved: &Solved, house: &House) -> Vec<String> {
    let late = paste::put_in_behind(&solved.card, house, |text| !hot_clauses(text, house).is_empty());
    late.into_iter().map(|part| part.label.value.clone()).collect()
}

/// A batch that is lit; what burns on a guest's glass is a caution of its own.
fn burns(solved: &Solved, text: &str) -> bool {
    !solved.card.is_drink() && paste::burns(text)
}

/// The step that boils what was strained off spirit, and what it still holds of that.
fn with_its_solids<'a>(solved: &'a Solved, stage: &'a Stage, made: &SolvedStage, house: &House) -> Option<&'a String> {
    let holds_spirit = alcohol::solvent_abv(&made.course.combined).get() > ALCOHOLIC_ABV;
    let is_strained = stage.parts.iter().any(Part::is_strained);
    let is_hot = |text: &str| steps::heats_all(text) || !hot_clauses(text, house).is_empty();
    let steps = stage.steps.iter().chain(&solved.card.steps);
    paste::heats_solids(steps, is_hot).filter(|_| holds_spirit && is_strained && stage.not_heated.is_none())
}

/// The step that heats the pan that this spirit stands in, by its own name or without one: what a stage gave is in the pan of the steps
/// behind it.
fn in_its_pan<'a>(solved: &'a Solved, stage: &'a Stage, made: &SolvedStage, house: &House) -> Option<&'a String> {
    let of_stage = |part: &SolvedPart| match part.found.what {
        Material::Stage(place) => solved.card.stages.get(place),
        _ => None,
    };
    let is_spirit =
        |part: &&SolvedPart| part.mass_g > 0.0 && alcohol::solvent_abv(&part.found.per_gram).get() > ALCOHOLIC_ABV;
    let spirits: Vec<&SolvedPart> = made.parts.iter().filter(is_spirit).collect();
    if spirits.is_empty() {
        return None;
    }
    let is_hot = |text: &str| steps::heats_all(text) || !hot_clauses(text, house).is_empty() || burns(solved, text);
    let mut told = stage.steps.iter().chain(&solved.card.steps);
    if !told.any(|step| paste::calls_hot(step) || is_hot(step)) {
        return None;
    }
    let inner: Vec<&Stage> = spirits.iter().filter_map(|part| of_stage(part)).collect();
    let called: Vec<&str> = spirits.iter().flat_map(|part| [part.label.as_str(), part.of.as_str()]).collect();
    let labels = |stage: &'a Stage| stage.parts.iter().map(|part| part.label.value.as_str());
    let inside: Vec<&str> = inner.iter().flat_map(|stage| labels(stage)).collect();
    let is_inside = |of: &Stage| inner.iter().any(|inner| std::ptr::eq(*inner, of));
    let other_stages = || solved.card.all_stages().filter(|of| !std::ptr::eq(*of, stage) && !is_inside(of));
    let names_of = |of: &'a Stage| of.name.iter().map(|name| name.value.as_str()).chain(labels(of));
    let own = made.parts.iter().filter(|part| !is_spirit(part)).map(|part| part.label.as_str());
    let beside: Vec<&str> = own.chain(other_stages().flat_map(names_of)).collect();
    // the steps of a card are those of all its pans; a stage that tells its own is done before them
    let of_card = stage.steps.is_empty() || std::ptr::eq(stage, &solved.card.last);
    let is_last = std::ptr::eq(stage, &solved.card.last);
    let may_be_theirs = |of: &Stage| of.steps.is_empty() || of.heated.is_some();
    let is_lone = !of_card || is_last && !other_stages().any(may_be_theirs);
    let steps = stage.steps.iter().chain(solved.card.steps.iter().filter(|_| of_card));
    paste::Pan::new(&called, &inside, &beside, is_lone, house).heated_by(steps, is_hot)
}

/// The clauses that heat something, and no vessel that is cleaned.
fn hot_clauses(text: &str, house: &House) -> Arc<Vec<HotClause>> {
    house.hot_clauses(text, || {
        let clauses = paste::hot_clauses(text, house).into_iter();
        let heats = clauses.filter(|(clause, _)| !steps::told_clauses(clause).is_empty());
        heats.map(|(clause, by_degrees)| (clause.to_owned(), by_degrees)).collect()
    })
}
