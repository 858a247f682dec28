//! How long the properties of one mixture take.

use divan::{Bencher, black_box};
use stillroom::mixture::{Component, Mixture, alcohol};
use stillroom::units::{Abv, Pressure, celsius};
use uom::si::pressure::kilopascal;

fn main() {
    divan::main();
}

fn liqueur() -> Mixture {
    Mixture::of(&[
        (Component::Ethanol, 142.0),
        (Component::Water, 677.0),
        (Component::Sucrose, 240.0),
        (Component::Glucose, 5.0),
        (Component::Fructose, 5.0),
        (Component::Citric, 4.0),
    ])
}

fn syrup() -> Mixture {
    Mixture::of(&[(Component::Sucrose, 640.0), (Component::Water, 360.0)])
}

#[divan::bench(args = [20.0, 4.0])]
fn density_of_a_liqueur(bencher: Bencher, t_c: f64) {
    let mixture = liqueur();
    bencher.bench(|| black_box(&mixture).density(celsius(black_box(t_c))));
}

#[divan::bench(args = [20.0, 4.0])]
fn density_of_a_syrup(bencher: Bencher, t_c: f64) {
    let mixture = syrup();
    bencher.bench(|| black_box(&mixture).density(celsius(black_box(t_c))));
}

#[divan::bench]
fn strength_to_mass(bencher: Bencher) {
    let strength = Abv::saturating(63.0);
    bencher.bench(|| alcohol::mass_fraction_of(black_box(strength)));
}

#[divan::bench]
fn refractometer_reading(bencher: Bencher) {
    let mixture = liqueur();
    bencher.bench(|| black_box(&mixture).refractometer_reading(celsius(20.0)));
}

#[divan::bench]
fn boiling_point(bencher: Bencher) {
    let mixture = liqueur();
    let air = Pressure::new::<kilopascal>(101.325);
    bencher.bench(|| black_box(&mixture).boiling_point(black_box(air)));
}

/// What a sheet asks of the finished liquid.
#[divan::bench(args = ["liqueur", "syrup"])]
fn full_set(bencher: Bencher, which: &str) {
    let mixture = if which == "syrup" { syrup() } else { liqueur() };
    let air = Pressure::new::<kilopascal>(101.325);
    bencher.bench(|| {
        let mixture = black_box(&mixture);
        let t = black_box(celsius(20.0));
        black_box((
            mixture.density(t),
            mixture.abv(),
            mixture.brix(),
            mixture.sugar_concentration(),
            mixture.refractometer_reading(t),
            mixture.water_activity(t),
            mixture.boiling_point(air),
            mixture.saturation_brix(t),
        ))
    });
}
