//! The promise: a higher pH, water activity or temperature, less alcohol, less heating, or knowing less, never lengthens a
//! date and never makes the screen or a refusal milder. The draws are the same for both, so it must hold to the day.

use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use stillroom::shelf_life::data::tables;
use stillroom::shelf_life::heat::Curve;
use stillroom::shelf_life::screen::ScreenClass;
use stillroom::shelf_life::{Authority, Contents, Draws, Product, Treatment, verdicts};
use stillroom::units::{Abv, Brix, celsius, grams_per_litre};
use stillroom::vocabulary::ProductClass;

use super::worked::{aw, ph};

const FEW: Draws = Draws { draws: 100, seed: 20261125 };

/// The screen; days, -1 where refused; and, below the whole days, what growth and quality say.
#[derive(Debug)]
struct Outcome {
    screen: ScreenClass,
    days: i64,
    ceiling_days: f64,
    growth_days: f64,
    p_no_growth: f64,
    quality_days: f64,
}

fn outcome(product: &Product, t_c: f64) -> Outcome {
    let verdict = verdicts(product, &[celsius(t_c)], &Authority::default(), FEW).remove(0);
    let growth = verdict.growth;
    Outcome {
        screen: verdict.screen.class,
        days: verdict.days.map_or(-1, i64::from),
        // not shown where the law refuses the store
        ceiling_days: verdict.ceiling_days.unwrap_or(0.0),
        growth_days: growth.as_ref().and_then(|g| g.q05_days).unwrap_or(f64::INFINITY),
        p_no_growth: growth.map_or(1.0, |g| g.p_no_growth),
        quality_days: verdict.quality.map_or(f64::INFINITY, |q| q.q10_days),
    }
}

fn contents() -> impl Strategy<Value = Option<Contents>> {
    // mostly plain: what is held by its contents hides everything else
    prop_oneof![
        3 => Just(Some(Contents::default())),
        1 => Just(Some(Contents { juice: true, fruit_or_wine: true, ..Contents::default() })),
        1 => Just(Some(Contents { fruit_or_wine: true, ..Contents::default() })),
        1 => Just(Some(Contents { garlic_or_herb: true, ..Contents::default() })),
        1 => Just(Some(Contents { nut: true, ..Contents::default() })),
        1 => Just(None),
    ]
}

fn process() -> impl Strategy<Value = Treatment> {
    let yes = || prop_oneof![3 => Just(Some(true)), 1 => Just(Some(false)), 1 => Just(None)];
    let heating = prop_oneof![
        1 => Just(None),
        3 => (60.0..100.0f64, 0.0..30.0f64).prop_map(|(t, minutes)| Some(Curve::hold(t, minutes))),
    ];
    (any::<bool>(), heating, yes(), yes(), prop::bool::weighted(0.2)).prop_map(
        |(hot_dissolved, heating, hot_filled, closed, opened)| Treatment {
            hot_dissolved,
            heating,
            hot_filled,
            closed,
            opened,
        },
    )
}

fn class() -> impl Strategy<Value = Option<ProductClass>> {
    let names: Vec<ProductClass> = tables().ceilings.names().collect();
    prop_oneof![1 => Just(None), 3 => prop::sample::select(names).prop_map(Some)]
}

/// Inside the ranges of the model: beyond their favourable ends (frozen, pH below 1.8) nothing is known, so that coming in
/// from there does give a date.
fn product() -> impl Strategy<Value = Product> {
    let ph_value = prop_oneof![4 => (1.8..7.0f64, 0.0..0.3f64).prop_map(Some), 1 => Just(None)];
    let aw_value = prop_oneof![8 => (0.5..1.0f64, 0.0..0.03f64).prop_map(Some), 1 => Just(None)];
    let abv = prop_oneof![2 => Just(0.0), 3 => 0.0..45.0f64];
    let brix = prop_oneof![8 => (0.0..80.0f64).prop_map(Some), 1 => Just(None)];
    (ph_value, aw_value, abv, 0.0..900.0f64, brix, class(), contents(), process()).prop_map(
        |(ph_value, aw_value, abv, sugar, brix, class, contents, process)| Product {
            ph: ph_value.and_then(|(value, uncertainty)| ph(value, uncertainty)),
            water_activity: aw_value.and_then(|(value, uncertainty)| aw(value, uncertainty)),
            abv: Abv::new(abv),
            sugar: Some(grams_per_litre(sugar)),
            brix: brix.and_then(Brix::new),
            class,
            contents,
            process,
            ..Product::default()
        },
    )
}

/// Runs thousands of fixed cases of one change; `dates` counts those that had a date before, so that the test is not empty.
fn never_milder(change: impl Fn(&Product, f64, f64) -> Option<(Product, f64)>) {
    let config = Config { cases: 5000, failure_persistence: None, max_shrink_iters: 2000, ..Config::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRunner::deterministic().rng().clone());
    let (dates, shorter) = (std::cell::Cell::new(0), std::cell::Cell::new(0));
    runner
        .run(&(product(), 0.0..30.0f64, 0.0..1.0f64), |(product, t_c, how_far)| {
            let Some((changed, changed_t_c)) = change(&product, t_c, how_far) else { return Ok(()) };
            let (before, after) = (outcome(&product, t_c), outcome(&changed, changed_t_c));
            dates.set(dates.get() + usize::from(before.days >= 0));
            shorter.set(shorter.get() + usize::from(after.days < before.days));
            prop_assert!(
                after.screen >= before.screen
                    && after.days <= before.days
                    && after.ceiling_days <= before.ceiling_days
                    && after.growth_days <= before.growth_days
                    && after.p_no_growth <= before.p_no_growth
                    && after.quality_days <= before.quality_days,
                "milder:\n{before:?}\n{after:?}"
            );
            Ok(())
        })
        .unwrap();
    println!("{} had a date, {} got shorter or were refused", dates.get(), shorter.get());
    assert!(dates.get() > 100 && shorter.get() > 5);
}

#[test]
fn warmer() {
    never_milder(|p, t, far| Some((p.clone(), t + 15.0 * far)));
}

#[test]
fn less_acid() {
    never_milder(|p, t, far| {
        let was = p.ph?;
        Some((Product { ph: ph(was.value.get() + 4.0 * far * far, was.uncertainty), ..p.clone() }, t))
    });
}

#[test]
fn wetter() {
    never_milder(|p, t, far| {
        let was = p.water_activity?;
        let value = was.value.get() + far * (1.0 - was.value.get());
        Some((Product { water_activity: aw(value, was.uncertainty), ..p.clone() }, t))
    });
}

#[test]
fn weaker() {
    never_milder(|p, t, far| Some((Product { abv: Abv::new(p.abv?.get() * (1.0 - far)), ..p.clone() }, t)));
}

#[test]
fn heated_for_less() {
    never_milder(|p, t, far| {
        let mut changed = p.clone();
        for point in &mut changed.process.heating.as_mut()?.0 {
            point.0 *= 1.0 - far;
        }
        Some((changed, t))
    });
}

#[test]
fn heated_less_hot() {
    never_milder(|p, t, far| {
        let mut changed = p.clone();
        for point in &mut changed.process.heating.as_mut()?.0 {
            point.1 -= 40.0 * far;
        }
        Some((changed, t))
    });
}

#[test]
fn knowing_less() {
    never_milder(|p, t, far| {
        let mut changed = p.clone();
        match (far * 7.0) as u32 {
            0 => changed.ph = None,
            // dried fruit of unknown water activity has a published pair of its own
            1 if p.class != Some(ProductClass::DriedFruit) => changed.water_activity = None,
            2 => changed.abv = None,
            3 => changed.contents = None,
            4 => changed.process.heating = None,
            5 => changed.process.hot_filled = None,
            _ => changed.process.closed = None,
        }
        Some((changed, t))
    });
}

#[test]
fn opened() {
    never_milder(|p, t, _| {
        Some((Product { process: Treatment { opened: true, ..p.process.clone() }, ..p.clone() }, t))
    });
}
