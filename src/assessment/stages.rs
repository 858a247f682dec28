//! The cautions of the stages, each judged by what is in its own pan.

use uom::si::time::hour;

use crate::card::Stage;
use crate::house::House;
use crate::larder::Form;
use crate::mixture::{alcohol, flash_point};
use crate::paste;
use crate::safety::{self, Caution, Fact, Facts, Member, steps};
use crate::solver::{Solved, SolvedPart, SolvedStage};
use crate::spelling::words;
use crate::units::degrees_celsius;
use crate::vocabulary::Process;

use super::facts::vessel;

/// What is stronger than this is a drink with alcohol, % vol (Regulation (EU) 1169/2011, article 16).
const ALCOHOLIC_ABV: f64 = 1.2;

/// What is heated in a stage is judged by that stage: spirit by its own strength, for the product may be far weaker (what
/// burns is the solvent, so sugar in the pan counts for nothing), and a long warm bath by its own temperature and time.
/// `product` tells what the product is by the tables.
pub(super) fn cautions_of_stages(solved: &Solved, product: &Facts, house: &House) -> Vec<Caution> {
    let last = solved.stages.len().saturating_sub(1);
    let mut all: Vec<Caution> = Vec::new();
    for (place, (stage, made)) in solved.card.all_stages().zip(&solved.stages).enumerate() {
        let abv = alcohol::solvent_abv(&made.course.combined);
        let mut facts = Facts::of_nothing();
        facts.market.clone_from(&product.market);
        facts.abv = Fact::Known(abv.get());
        facts.conclude();
        facts.vessel_l = vessel(solved);
        facts.in_bath = product.in_bath;
        match stage.heated {
            Some(heated) => {
                facts.process.add(Process::Heat);
                facts.liquid_temp_c = Fact::Known(degrees_celsius(heated.value.to));
                let hours = heated.value.hold.map(|hold| hold.get::<hour>());
                facts.hours_hot = hours.into();
                facts.tcs = product.tcs;
                if product.process.has(Process::SousVide) {
                    facts.process.add(Process::SousVide);
                }
            }
            // The last stage of a card that is filled hot was heated, to what nobody says.
            None if place == last && solved.card.keep.hot_filled == Some(true) => facts.process.add(Process::Heat),
            None if let Some(step) = heated_by(solved, stage, made, house) => {
                facts.process.doubt(Process::Heat);
                let question = format!("whether \"{step}\" heats it, and how hot");
                facts.questions.entry(Member::Process(Process::Heat)).or_default().insert(question);
            }
            // a step may heat the butter, and none of what it goes into; what heats the spirit by its name is asked about all the same
            None if stage.not_heated.is_some() => {}
            // Something made its water go, and the card does not say what.
            None if made.lost.evaporated > 0.0 => facts.process.doubt(Process::Heat),
            None => {}
        }
        let flash = flash_point::of_strength(abv).ok();
        facts.flash_point_c = flash.map(|t| degrees_celsius(t.value)).into();
        for caution in safety::evaluate_stage(&facts, abv.get() > 0.0, stage.heated.is_some()) {
            match all.iter_mut().find(|known| known.code == caution.code) {
                Some(known) if !known.is_certain() => *known = caution,
                Some(_) => {}
                None => all.push(caution),
            }
        }
    }
    all
}

/// The step that tells of spirit or wine being heated in this pan. The steps of a card are those of all its pans.
fn heated_by<'a>(solved: &'a Solved, stage: &'a Stage, made: &SolvedStage, house: &House) -> Option<&'a String> {
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
        let late = paste::put_in_behind(&solved.card, house, |text| !hot_clauses(text, house).is_empty());
        spirits.iter().any(|name| !late.iter().any(|part| words(&part.label.value) == *name))
    };
    let in_pan = || alone || stage.not_heated.is_none() && one_pan && is_in_pan();
    let is_so_hot = |step: &String| {
        hot_clauses(step, house).into_iter().any(|(clause, by_degrees)| {
            let said = words(clause);
            let names = |name: &Vec<String>| said.iter().any(|word| name.contains(word));
            // of "boil the water and add the vodka" the verb is that of the water
            let is_named = spirits.iter().any(names);
            is_named && (by_degrees || !names(&others)) || by_degrees && !names(&others) && in_pan()
        })
    };
    let tells = |step: &&String| {
        spirits.iter().any(|name| steps::heats(step, name))
            || alone && steps::heats_but(step, &others)
            || !spirits.is_empty() && is_so_hot(step)
    };
    stage.steps.iter().chain(&solved.card.steps).find(tells)
}

/// The clauses that heat something, and no vessel that is cleaned.
fn hot_clauses<'s>(text: &'s str, house: &House) -> Vec<(&'s str, bool)> {
    let clauses = paste::hot_clauses(text, house);
    clauses.into_iter().filter(|(clause, _)| !steps::told_clauses(clause).is_empty()).collect()
}
