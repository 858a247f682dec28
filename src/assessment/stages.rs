//! The cautions of the stages, each judged by what is in its own pan.

use uom::si::time::hour;

use crate::house::House;
use crate::mixture::{alcohol, flash_point};
use crate::safety::{self, Caution, Fact, Facts, Member};
use crate::solver::Solved;
use crate::units::{Abv, degrees_celsius};
use crate::vocabulary::Process;

use super::facts::vessel;
use super::in_pan;

/// What is heated in a stage is judged by that stage: spirit by its own strength, for the product may be far weaker (what
/// burns is the solvent, so sugar in the pan counts for nothing), and a long warm bath by its own temperature and time.
/// `product` tells what the product is by the tables.
pub(super) fn cautions_of_stages(solved: &Solved, product: &Facts, house: &House) -> Vec<Caution> {
    let last = solved.stages.len().saturating_sub(1);
    let mut all: Vec<Caution> = Vec::new();
    for (place, (stage, made)) in solved.card.all_stages().zip(&solved.stages).enumerate() {
        let abv = alcohol::solvent_abv(&made.course.combined);
        let mut hot_abv = abv.get();
        let mut facts = Facts::of_nothing();
        facts.market.clone_from(&product.market);
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
            None if let Some(step) = in_pan::heated_by(solved, stage, made, house) => {
                facts.process.doubt(Process::Heat);
                let question = format!("whether \"{step}\" heats it, and how hot");
                hot_abv = in_pan::heated_apart(solved, stage, made, step, house).unwrap_or(hot_abv);
                facts.questions.entry(Member::Process(Process::Heat)).or_default().insert(question);
            }
            // a step may heat the butter, and none of what it goes into; what heats the spirit by its name is asked about all the same
            None if stage.not_heated.is_some() => {}
            // Something made its water go, and the card does not say what.
            None if made.lost.evaporated > 0.0 => facts.process.doubt(Process::Heat),
            None => {}
        }
        facts.abv = Fact::Known(hot_abv);
        facts.conclude();
        let flash = flash_point::of_strength(Abv::saturating(hot_abv)).ok();
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
