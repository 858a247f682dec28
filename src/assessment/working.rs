//! What a step lets stand in the warm so long that it may begin to work, whatever the verb: sweet, wet and weak.

use crate::card::{Stage, TargetKind};
use crate::house::House;
use crate::properties::value_of;
use crate::safety::standing::{Stood, standing};
use crate::safety::steps::heats_more_than_vessels;
use crate::safety::{Facts, Member};
use crate::shelf_life::{COLD_C, HOT_C, delle};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedStage};
use crate::units::boiling::boils;
use crate::units::told::clauses;
use crate::units::{degrees_celsius, grams_per_litre};
use crate::vocabulary::{Kind, Process};

use super::activity::water_activity;
use super::as_it_stood::{PanThen, as_it_stood};

/// Fruit and sugar that stand in a room for more than a day show the first gas (common practice, no source), hours.
const QUIET_H: f64 = 24.0;
/// Drier no wild yeast works: the limit of the caution on gas in sealed glass.
const WET_AW: f64 = 0.90;
/// What is less sweet makes no gas worth asking of, g/L (ours).
const SWEET_G_L: f64 = 30.0;

/// Asks whether it is left to ferment where a step lets it.
pub(super) fn doubt(facts: &mut Facts, solved: &Solved, house: &House) {
    let stages = || solved.card.all_stages().zip(&solved.stages).enumerate();
    let of_card = stages().last().map(|(place, (stage, made))| (&solved.card.steps, place, stage, made));
    let of_stages = stages().map(|(place, (stage, made))| (&stage.steps, place, stage, made));
    for (steps, place, stage, made) in of_stages.chain(of_card) {
        let is_left = |step: &String| standing(step).is_some_and(|stood| is_warm_and_long(stood, stage));
        // what is boiled or filled hot behind it works no more
        let kills = |text: &str| boils(text) && heats_more_than_vessels(text);
        // "leave for 2 days, then strain and boil for 5 minutes"
        let in_step = |step: &str| {
            let behind = clauses(step).into_iter().skip_while(|clause| standing(clause.text).is_none()).skip(1);
            behind.into_iter().any(|clause| kills(clause.text))
        };
        let is_killed = |at: usize| in_step(&steps[at]) || steps.iter().skip(at + 1).any(|step| kills(step));
        let mut left = steps.iter().enumerate().filter(|(at, step)| is_left(step) && !is_killed(*at)).peekable();
        if solved.card.keep.hot_filled == Some(true) || left.peek().is_none() {
            continue;
        }
        // fruit that stood in spirit did not work, whatever went in behind it; what stood in wine may have
        let then = as_it_stood(solved, place, house);
        let feeds = |step: &String| {
            let is_warm = |then: &PanThen<'_>| then.stood().is_some_and(|stood| is_warm_and_long(stood, stage));
            let told: Vec<&PanThen<'_>> = then.iter().filter(|then| then.is_in(step) && is_warm(then)).collect();
            let pans = told.iter().map(|then| &then.made).chain(told.is_empty().then_some(made));
            pans.filter_map(weak_for_yeast).max_by(|(_, a), (_, b)| a.total_cmp(b))
        };
        let Some((step, (abv, still))) = left.find_map(|(_, step)| Some((step, feeds(step)?))) else { continue };
        facts.process.doubt(Process::Ferment);
        let question = format!(
            "whether \"{step}\" means that it is {}: not where it stood cold (at = \"4 °C\"), is boiled behind it, or \
             had {:.1} % vol from the first day, all that is in it counted (here {abv:.1})",
            Process::Ferment.asked(),
            (still * 10.0).ceil() / 10.0
        );
        facts.questions.entry(Member::Process(Process::Ferment)).or_default().insert(question);
    }
}

fn is_warm_and_long(stood: Stood, stage: &Stage) -> bool {
    let is_cold = !stood.is_placed && stage.at.is_some_and(|at| degrees_celsius(at) <= COLD_C);
    let is_warm = stood.t_c > COLD_C && stood.t_c < HOT_C;
    stood.hours > QUIET_H && is_warm && !is_cold
}

/// The strength of what is sweet, wet and weak, with something grown in it that brings its own yeast and no vinegar, % vol, and that
/// from which it lies still.
fn weak_for_yeast(made: &SolvedStage) -> Option<(f64, f64)> {
    let liquid = &made.course.combined;
    let value = |kind| value_of(kind, liquid).unwrap_or(0.0);
    let kinds = || {
        made.parts.iter().filter_map(|part| match &part.found.what {
            Material::Ingredient(ingredient) => ingredient.kind,
            _ => None,
        })
    };
    let brings_yeast = |kind| {
        matches!(
            kind,
            Kind::Fruit
                | Kind::Puree
                | Kind::Juice
                | Kind::SweetCitrusJuice
                | Kind::Flower
                | Kind::Vegetable
                | Kind::Root
        )
    };
    let is_wet = water_activity(&liquid.dissolved()).is_none_or(|(aw, _)| aw > WET_AW);
    let (abv, sugar) = (value(TargetKind::Abv), value(TargetKind::Sugar));
    let still = delle::still_from_abv(grams_per_litre(sugar.max(0.0)));
    let feeds = kinds().any(brings_yeast)
        && !kinds().any(|kind| kind == Kind::Vinegar)
        && abv < still
        && sugar > SWEET_G_L
        && is_wet;
    feeds.then_some((abv, still))
}
