//! What must hold for every mixture, over thousands of generated ones.

use proptest::prelude::*;
use stillroom::card::Makes;
use stillroom::mixture::{
    Component, Mixture, alcohol, boiling, density, flash_point, refraction, solubility, sweetness,
};
use stillroom::solver::square::{self, SquareKind};
use stillroom::units::{
    Abv, Brix, Length, MassFraction, Pressure, celsius, degrees_celsius, in_grams, in_kg_per_m3, in_millilitres,
    millilitres,
};
use uom::si::length::meter;
use uom::si::pressure::kilopascal;

use crate::generated::check;

const CASES: u32 = 4000;

fn close(a: f64, b: f64, tolerance: f64) -> Result<(), TestCaseError> {
    prop_assert!((a - b).abs() <= tolerance, "{a} and {b}");
    Ok(())
}

/// Any masses at all, most of them none, of very different sizes.
fn any_mixture() -> impl Strategy<Value = Mixture> {
    let mass = prop_oneof![3 => Just(0.0), 3 => 0.0..1000.0f64, 1 => 0.0..1e-9f64, 1 => 1e3..1e9f64];
    prop::collection::vec(mass, Component::ALL.len()).prop_map(|masses| {
        let parts: Vec<_> = Component::ALL.iter().copied().zip(masses).collect();
        Mixture::of(&parts)
    })
}

/// A drinkable liquid: water, spirit, sugars, a little acid.
fn liquid() -> impl Strategy<Value = Mixture> {
    (0.2..1.0f64, 0.0..0.8f64, 0.0..1.0f64, 0.0..0.5f64, 0.0..0.5f64, 0.0..0.05f64).prop_map(
        |(water, ethanol, sucrose, glucose, fructose, citric)| {
            Mixture::of(&[
                (Component::Water, water),
                (Component::Ethanol, ethanol),
                (Component::Sucrose, sucrose),
                (Component::Glucose, glucose),
                (Component::Fructose, fructose),
                (Component::Citric, citric),
            ]) * 1000.0
        },
    )
}

#[test]
fn strength_to_density_and_back() {
    check(CASES, (0.0..=100.0f64, 0.0..=40.0f64), |(percent, t_c)| {
        let share = alcohol::mass_fraction_of(Abv::new(percent).unwrap());
        close(alcohol::abv_of(share).get(), percent, 1e-8)?;
        let rho = density::ethanol_water(share, celsius(t_c)).unwrap().value;
        let back = alcohol::mass_fraction_of_density(rho, celsius(t_c)).unwrap();
        close(alcohol::abv_of(back).get(), percent, 1e-6)?;
        let again = alcohol::mass_fraction_of_proof(alcohol::proof_of(share)).unwrap();
        close(again.get(), share.get(), 1e-9)
    });
}

#[test]
fn brix_to_index_and_to_density_and_back() {
    check(CASES, (0.0..=85.0f64, 0.0..=60.0f64), |(percent, t_c)| {
        let brix = Brix::new(percent).unwrap();
        let t = celsius(t_c);
        let n = refraction::sucrose_solution(brix, t).unwrap().value;
        close(refraction::brix_of_index(n, t).unwrap().value.get(), percent, 1e-6)?;
        let rho = density::sucrose_solution(sweetness::mass_fraction_of(brix), t).unwrap().value;
        close(sweetness::brix_of_density(rho, t).unwrap().value.get(), percent, 1e-6)
    });
}

#[test]
fn mass_adds_and_scales_and_volume_scales_with_it() {
    check(CASES, (liquid(), liquid(), 1e-3..1e3f64), |(a, b, factor)| {
        let both = a + b;
        close(both.total_grams(), a.total_grams() + b.total_grams(), 1e-9 * both.total_grams())?;
        close(both.sugar_grams(), a.sugar_grams() + b.sugar_grams(), 1e-9 * both.total_grams())?;
        let t = celsius(20.0);
        let volume = |m: &Mixture| in_millilitres(m.volume(t).unwrap().value);
        close(volume(&(both * factor)), factor * volume(&both), 1e-9 * factor * volume(&both))?;
        close((both * factor).brix().get(), both.brix().get(), 1e-9)?;
        close(volume(&(a + b)), volume(&(b + a)), 1e-9 * volume(&both))
    });
}

#[test]
fn water_never_raises_brix_and_sugar_never_lowers_density() {
    check(CASES, (liquid(), 0.0..500.0f64), |(liquid, g)| {
        let with_water = liquid + Mixture::of(&[(Component::Water, g)]);
        prop_assert!(with_water.brix().get() <= liquid.brix().get() + 1e-12);
        prop_assert!(with_water.abv().unwrap().value.get() <= liquid.abv().unwrap().value.get() + 1e-9);
        let rho = |m: &Mixture| in_kg_per_m3(m.density(celsius(20.0)).unwrap().value);
        let sweeter = liquid + Mixture::of(&[(Component::Sucrose, g)]);
        prop_assert!(rho(&sweeter) >= rho(&liquid) - 1e-9, "{} after {}", rho(&sweeter), rho(&liquid));
        Ok(())
    });
}

#[test]
fn spirits_keep_their_water_and_ethanol_when_they_mix() {
    check(CASES, (0.0..=100.0f64, 0.0..=100.0f64, 0.0..=1.0f64), |(a, b, share)| {
        let (strong, weak) = (Abv::new(a.max(b)).unwrap(), Abv::new(a.min(b)).unwrap());
        let target = Abv::saturating(weak.get() + share * (strong.get() - weak.get()));
        let make = Makes::Volume(millilitres(1000.0));
        let Ok(square) = square::draw(SquareKind::Abv, strong.get(), weak.get(), target.get(), make) else {
            prop_assert!(strong.get() - weak.get() < 1e-6 || target > strong);
            return Ok(());
        };
        let pure = |ml: Option<f64>, s| in_millilitres(alcohol::pure_alcohol(millilitres(ml.unwrap()), s));
        let exact = square.exact;
        // The water of the sugar equation, which fills the glass, is up to 4e-6 off that of the alcohol tables.
        close(
            pure(exact.strong_volume_ml, strong) + pure(exact.weak_volume_ml, weak),
            pure(Some(exact.yield_volume_ml), target),
            5e-3,
        )?;
        prop_assert!(exact.strong_mass_g >= -1e-6 && exact.weak_mass_g >= -1e-6);
        // Two strong spirits may gain a trace of volume; nothing swells by more than that.
        prop_assert!(exact.contraction_ml.unwrap() > -2.0, "{:?}", exact.contraction_ml);
        prop_assert!(square.gives.unwrap().is_finite());
        Ok(())
    });
}

#[test]
fn water_activity_is_a_share_and_the_cautious_value_is_above() {
    check(CASES, (any_mixture(), -10.0..110.0f64), |(mixture, t_c)| {
        if let Ok(found) = mixture.water_activity(celsius(t_c)) {
            let value = found.estimate.value.get();
            prop_assert!((0.0..=1.0).contains(&value), "{value}");
            prop_assert!(found.upper.get() >= value && found.upper.get() <= 1.0);
        } else {
            prop_assert_eq!(mixture.grams_of(Component::Water), 0.0);
        }
        Ok(())
    });
}

#[test]
fn more_sugar_is_drier_and_boils_hotter() {
    let air = Pressure::new::<kilopascal>(101.325);
    check(CASES, (0.0..0.7f64, 0.001..0.1f64), |(w, more)| {
        let syrup = |w: f64| Mixture::of(&[(Component::Sucrose, w), (Component::Water, 1.0 - w)]);
        let activity = |w: f64| syrup(w).water_activity(celsius(25.0)).unwrap();
        prop_assert!(activity(w + more).estimate.value < activity(w).estimate.value);
        let boils = |w: f64| degrees_celsius(syrup(w).boiling_point(air).unwrap().value);
        prop_assert!(boils(w + more) > boils(w));
        Ok(())
    });
}

#[test]
fn nothing_is_ever_not_a_number() {
    check(CASES, (any_mixture(), -30.0..130.0f64, 40.0..120.0f64), |(mixture, t_c, kpa)| {
        let t = celsius(t_c);
        let pressure = Pressure::new::<kilopascal>(kpa);
        let mut numbers = vec![mixture.brix().get(), mixture.abw().get()];
        let kg_m3 = |d| in_kg_per_m3(d);
        numbers.extend(mixture.density(t).map(|e| [kg_m3(e.value), kg_m3(e.error)]).into_iter().flatten());
        numbers.extend(mixture.volume(t).map(|e| in_millilitres(e.value)));
        numbers.extend(mixture.abv().map(|e| e.value.get()));
        numbers.extend(mixture.us_proof().map(|e| e.value));
        numbers.extend(mixture.sugar_concentration().map(|e| kg_m3(e.value)));
        numbers.extend(mixture.specific_gravity().map(|e| e.value));
        numbers.extend(mixture.refractive_index(t).map(|e| e.value));
        numbers.extend(mixture.refractometer_reading(t).map(|e| e.value.get()));
        numbers.extend(mixture.water_activity(t).map(|a| a.estimate.value.get()));
        numbers.extend(mixture.boiling_point(pressure).map(|e| degrees_celsius(e.value)));
        numbers.extend(mixture.boiling_elevation(pressure).map(|e| e.value.value));
        numbers.extend(mixture.vapour_ethanol(pressure).map(|e| e.value));
        numbers.extend(mixture.saturation_brix(t).map(|e| e.value.get()));
        numbers.extend(mixture.saturation_temperature().map(|e| degrees_celsius(e.value)));
        numbers.extend(solubility::crystals(&mixture, t).map(|e| in_grams(e.value)));
        numbers.extend(mixture.viscosity(t).map(|e| e.value.value));
        numbers.extend(mixture.energy_per_100_ml().map(|e| e.kilojoules.value));
        for (i, number) in numbers.iter().enumerate() {
            prop_assert!(number.is_finite(), "value {i} of {numbers:?}");
        }
        Ok(())
    });
}

#[test]
fn arguments_that_are_not_numbers_are_refused() {
    let nan = celsius(f64::NAN);
    let syrup = Mixture::of(&[(Component::Sucrose, 1.0), (Component::Water, 1.0)]);
    assert!(syrup.density(nan).is_err());
    assert!(syrup.refractive_index(nan).is_err());
    assert!(syrup.water_activity(nan).is_err());
    assert!(syrup.saturation_brix(nan).is_err());
    assert!(syrup.viscosity(nan).is_err());
    assert!(syrup.boiling_point(Pressure::new::<kilopascal>(f64::NAN)).is_err());
    assert!(boiling::pressure_at_altitude(Length::new::<meter>(f64::NAN)).is_err());
    assert!(density::water(nan).is_err());
    assert!(density::ethanol_water(MassFraction::saturating(f64::NAN), nan).is_err());
    assert!(flash_point::of_strength(Abv::saturating(f64::NAN)).is_err());
    assert!(alcohol::mass_fraction_of_proof(f64::NAN).is_none());
}
