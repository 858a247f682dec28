//! The stages that stood somewhere before it was bottled, each as it then was: by their keys, or by what a step tells.

use uom::si::time::hour;

use crate::card::TargetKind;
use crate::house::House;
use crate::properties::value_of;
use crate::safety::standing::{ROOM_C, Stood, standing, steeps_at};
use crate::shelf_life::{HOT_C, Product, StageWarmth};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedStage};
use crate::units::degrees_celsius;
use crate::vocabulary::Kind;

use super::activity::{AW_DOUBT, water_activity};
use super::as_it_stood::{PanThen, as_it_stood};
use super::lent_sugar::without_sugar;
use super::ph::{self, Unlisted};

/// From so many hours on plain sugar and water count as well, where neither their sugar nor an acid keeps them (ours).
const A_DAY_H: f64 = 24.0;

/// Above this water activity a drink is thin: the row of what is dated by its water (ours).
const THIN_AW: f64 = 0.95;
/// As a share: less is no sugar water (ours).
const LEAST_SUGAR: f64 = 0.01;

/// The stages that stood somewhere, each as it then was.
pub(super) fn stood(
    solved: &Solved,
    product: &Product,
    house: &House,
    unlisted: impl Fn(&[SolvedStage]) -> Unlisted,
) -> Vec<StageWarmth> {
    let perishes = |kind: Option<Kind>| {
        !matches!(
            kind,
            Some(
                Kind::Water
                    | Kind::Sugar
                    | Kind::Syrup
                    | Kind::Honey
                    | Kind::Acid
                    | Kind::Salt
                    | Kind::Spirit
                    | Kind::Gum
                    | Kind::Vinegar
                    | Kind::Liqueur
                    | Kind::Bitters
                    | Kind::Alkali
                    | Kind::Fining
                    | Kind::Preservative
            )
        )
    };
    let has_produce = |made: &SolvedStage| {
        made.parts.iter().any(|part| matches!(&part.found.what, Material::Ingredient(i) if perishes(i.kind)))
    };
    // a syrup that is stirred cold stands for a night and no longer; thin sugar water does not where a step names a warm place
    let counts = |made: &SolvedStage, stood: Stood| {
        has_produce(made) || stood.hours >= A_DAY_H || stood.is_placed && is_sugar_water(made)
    };
    let mut all: Vec<StageWarmth> = Vec::new();
    let mut of_card: Vec<StageWarmth> = Vec::new();
    let no_keys = solved.card.all_stages().all(|stage| stage.takes.is_none());
    let told_of_card = told(&solved.card.steps).filter(|_| no_keys);
    for (place, (stage, whole)) in solved.card.all_stages().zip(&solved.stages).enumerate() {
        let then = as_it_stood(solved, place, house);
        let longest = |of: &dyn Fn(&PanThen<'_>) -> bool| {
            let all = then.iter().filter(|then| of(then));
            all.max_by(|a, b| a.hours().total_cmp(&b.hours())).map_or(whole, |then| &then.made)
        };
        let told = told(&stage.steps).filter(|_| stage.takes.is_none());
        let made = match told {
            Some((step, _)) => longest(&|then| then.is_in(step)),
            // the time is a key: that of the piece that tells of most of it
            None => longest(&|_| stage.takes.is_some()),
        };
        let as_it_was =
            |made: &SolvedStage, stood: Stood| as_it_was(made, unlisted(&solved.stages[..=place]), stood, product);
        let told = told.map(|(_, stood)| stood);
        let produce = has_produce(made);
        // "3 days in the water, add the spirit, two weeks more": the shorter time counts as well where it was weak
        // a step of the card is counted below, once
        let of_all = told_of_card.map(|(step, _)| longest(&|then| then.is_in(step)));
        let is_counted = |of: &SolvedStage| std::ptr::eq(of, made) || of_all.is_some_and(|all| std::ptr::eq(of, all));
        let is_other = |then: &&PanThen<'_>| {
            !is_counted(&then.made) && then.made.parts.len() < whole.parts.len() && standing(then.step).is_some()
        };
        let weak = then.iter().filter(|then| is_other(then) && has_produce(&then.made));
        all.extend(weak.filter_map(|then| {
            let stood = then.stood()?;
            let t_c = stage.at.map(degrees_celsius).filter(|_| !stood.is_placed).unwrap_or(stood.t_c);
            Some(as_it_was(&then.made, Stood { t_c, ..stood })).filter(StageWarmth::in_danger)
        }));
        // What is held warm rather than hot stood there, whatever its key is called.
        all.extend(stage.heated.filter(|_| produce).and_then(|heated| {
            let stood = Stood {
                t_c: degrees_celsius(heated.value.to),
                hours: heated.value.hold?.get::<hour>(),
                is_placed: true,
            };
            (stood.t_c < HOT_C).then(|| as_it_was(whole, stood))
        }));
        let Some(stated) = stage.takes.as_ref().map(|takes| takes.time.get::<hour>()).or(told.map(|told| told.hours))
        else {
            of_card.extend(told_of_card.and_then(|(step, told)| {
                let made = longest(&|then| then.is_in(step));
                counts(made, told).then(|| as_it_was(made, told))
            }));
            continue;
        };
        let hold_told = told.is_some_and(|told| counts(made, told));
        if stage.at.is_none() && !produce && !hold_told {
            continue;
        }
        let hold = stage.heated.and_then(|h| h.value.hold).map_or(0.0, |hold| hold.get::<hour>());
        let t_c = stage.at.map(degrees_celsius).or(told.map(|told| told.t_c)).unwrap_or(ROOM_C);
        let hours = (stated - hold).max(0.0);
        // "three days on the bar" beside takes = "1 h", "steep at 21 °C" beside at = "4 °C": that which keeps it worse
        let of_all = solved.card.steps.iter().filter(|_| solved.card.stages.is_empty());
        let warmer = stage.takes.is_some().then(|| told_warmer(stage.steps.iter().chain(of_all), hours, t_c)).flatten();
        let warmer = warmer.filter(|told| produce && (told.t_c > t_c || told.hours > hours));
        let rest = hours - warmer.map_or(0.0, |told| told.hours);
        all.extend(warmer.map(|told| as_it_was(made, told)));
        if warmer.is_none() || rest > 0.0 {
            all.push(as_it_was(made, Stood { t_c, hours: rest, is_placed: stage.at.is_some() }));
        }
    }
    // The card's own steps do not say which pan stood: that which bears it worst.
    all.extend(of_card.into_iter().min_by(|a, b| {
        let (safe, of_safe) = (!a.in_danger(), !b.in_danger());
        safe.cmp(&of_safe).then(a.abv.total_cmp(&b.abv))
    }));
    all
}

/// Sugar in so much water that bacteria grow in it as they do in water.
fn is_sugar_water(made: &SolvedStage) -> bool {
    let liquid = made.course.combined.dissolved();
    liquid.sugar_grams() >= LEAST_SUGAR * liquid.total_grams()
        && water_activity(&liquid).is_none_or(|(aw, _)| aw > THIN_AW)
}

/// The warm stages of what makes up most of it: what grew there goes in with it. Its cold ones end with its own count.
pub(super) fn warm_before<'p>(inside: impl Iterator<Item = &'p Product>) -> Vec<StageWarmth> {
    inside.flat_map(|of| &of.stages).filter(|stage| stage.in_danger() || stage.warm_and_stable()).copied().collect()
}

/// The step that tells of the longest standing, and that.
fn told(steps: &[String]) -> Option<(&String, Stood)> {
    let all = steps.iter().filter_map(|step| Some((step, standing(step)?)));
    all.max_by(|(_, a), (_, b)| a.hours.total_cmp(&b.hours))
}

/// Where these steps say that it stands, and for how long; of a place without a time for all the hours that it takes, and of a time
/// without a place where the keys have it, °C.
fn told_warmer<'s>(steps: impl Iterator<Item = &'s String>, hours: f64, t_c: f64) -> Option<Stood> {
    let of_step = |step: &String| {
        let placed = |t_c| Stood { t_c, hours, is_placed: true };
        let told = standing(step).map(|told| if told.is_placed { told } else { Stood { t_c, ..told } });
        told.or_else(|| steeps_at(step).map(placed))
    };
    steps.filter_map(of_step).max_by(|a, b| a.hours.total_cmp(&b.hours))
}

/// What stood in a stage, as it then was.
fn as_it_was(made: &SolvedStage, unlisted: Unlisted, stood: Stood, product: &Product) -> StageWarmth {
    let mixture = &made.course.combined;
    let value = |kind| value_of(kind, mixture).unwrap_or(0.0);
    let (abv, sugar) = (value(TargetKind::Abv), value(TargetKind::Sugar));
    let liquid = mixture.dissolved();
    StageWarmth {
        t_c: stood.t_c,
        hours: if product.contents.dried { 0.0 } else { stood.hours },
        abv: (abv - product.abv_doubt.max(0.3)).max(0.0),
        ph_up: ph::bounds_of(&liquid, unlisted, sugar, abv).up,
        aw_up: water_activity(&without_sugar(&liquid, unlisted.lent_sugar_g))
            .map_or(1.0, |(aw, own)| (aw + own.max(AW_DOUBT.1)).min(1.0)),
    }
}
