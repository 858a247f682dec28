//! Our equations against general-purpose libraries of other people. The tables stand in `tests/reference/libraries`, beside the
//! scripts and the versions that they were made with; a tolerance is the error that we state, or that the library has.
//! The linear programs against HiGHS stand in `room.rs`.

use crate::table::{Largest, Row, rows};
use stillroom::mixture::acidity::{Acid, Solution};
use stillroom::mixture::heat::kj_per_kelvin;
use stillroom::mixture::{Component, Mixture, boiling};
use stillroom::shelf_life::survival::{Law, Observation, fit, turnbull};
use stillroom::units::{Pressure, celsius, degrees_celsius, in_kg_per_m3};
use uom::si::dynamic_viscosity::millipascal_second;
use uom::si::pressure::kilopascal;

fn spirit(percent: f64) -> Mixture {
    Mixture::of(&[(Component::Ethanol, percent), (Component::Water, 100.0 - percent)])
}

#[test]
fn water_is_that_of_iapws() {
    /// Refractive index of air, by which that of IAPWS, in a vacuum, is divided (as in `mixture/refraction.rs`).
    const AIR: f64 = 1.000271;
    let water = spirit(0.0);
    for row in rows("libraries/water") {
        let (what, at, expected) = (row.text("quantity"), row.number("at"), row.number("value"));
        let (found, expected, stated) = match what {
            "density_kg_m3" => {
                let ours = water.density(celsius(at)).unwrap();
                (in_kg_per_m3(ours.value), expected, in_kg_per_m3(ours.error))
            }
            "index_589_nm" => {
                let ours = water.refractive_index(celsius(at)).unwrap();
                (ours.value, expected / AIR, ours.error)
            }
            "viscosity_mpa_s" => {
                let ours = water.viscosity(celsius(at)).unwrap();
                let [value, error] = [ours.value, ours.error].map(|v| v.get::<millipascal_second>());
                (value, expected, error)
            }
            "boils_c" => {
                let ours = boiling::water(Pressure::new::<kilopascal>(at)).unwrap();
                (degrees_celsius(ours.value), expected, ours.error.value)
            }
            // one number for all temperatures of a kitchen; a syrup is stated to be within 1 %
            "heat_kj_kg_k" if (20.0..=90.0).contains(&at) => (10.0 * kj_per_kelvin(&water), expected, 0.01 * expected),
            "heat_kj_kg_k" => continue,
            other => panic!("{other}"),
        };
        assert!((found - expected).abs() <= stated, "{what} at {at}: {found} ± {stated} for {expected}");
    }
}

#[test]
fn spirit_and_glycerol_are_those_of_coolprop() {
    let mut off = Largest::of("density of spirit, kg/m³");
    for row in rows("libraries/spirit") {
        let (percent, expected) = (row.number("mass_pct"), row.number("value"));
        match row.text("quantity") {
            "density_kg_m3" => {
                let t_c = row.number("temperature_c");
                let ours = spirit(percent).density(celsius(t_c)).unwrap();
                let tolerance = row.number("tolerance") + in_kg_per_m3(ours.error);
                off.within(in_kg_per_m3(ours.value), expected, tolerance, (percent, t_c));
            }
            "glycerol_freezes_c" => {
                let glycerol = Mixture::of(&[(Component::Glycerol, percent), (Component::Water, 100.0 - percent)]);
                let ours = glycerol.freezing_point().unwrap();
                let (value, stated) = (degrees_celsius(ours.value), ours.error.value);
                assert!((value - expected).abs() <= stated, "glycerol {percent} %: {value} ± {stated} for {expected}");
            }
            // two decimals of a number from memory: half a percent
            "heat_kj_kg_k" => assert!((10.0 * kj_per_kelvin(&spirit(percent)) / expected - 1.0).abs() < 0.005),
            other => panic!("{other}"),
        }
    }
}

#[test]
fn acids_are_those_of_phreeqc() {
    // PHREEQC has ion sizes of its own for H+ and K+ where we have Davies: 0.017 apart at most (acid-solutions.csv)
    const TOLERANCE: f64 = 0.02;
    let mut off = Largest::of("pH");
    for row in rows("libraries/acids") {
        let of = |part: &str| {
            let (name, molality) = part.split_once(':').unwrap();
            (Acid::named(name).unwrap(), molality.parse().unwrap())
        };
        let acids: Vec<_> = row.text("acids_molal").split(';').map(of).collect();
        let (cation, t_c) = (row.number("strong_cation_eq_per_kg"), row.number("temperature_c"));
        let balance = Solution::new(&acids, cation, 0.0, celsius(t_c)).unwrap().balance().unwrap();
        let at = (row.text("acids_molal").to_owned(), cation, t_c);
        off.within(balance.ph.get(), row.number("ph"), TOLERANCE, &at);
    }
}

fn intervals(row: &Row) -> Vec<Observation> {
    let one = |text: &str| {
        let (after, up_to) = text.split_once(' ').unwrap();
        Observation::between(after.parse().unwrap(), up_to.parse().unwrap())
    };
    row.text("intervals").split(';').map(one).collect()
}

#[test]
fn refusals_are_those_of_two_survival_libraries() {
    for row in rows("libraries/survival") {
        let (set, data) = (row.text("set"), intervals(&row));
        let fitted = fit(Law::Weibull, &data).unwrap();
        let [scale, shape] = fitted.parameters.map(f64::exp);
        for library in ["lifelines", "surpyval"] {
            // the two are 5e-6 apart, by where each stops
            for (of, found) in [("scale", scale), ("shape", shape), ("loglik", fitted.log_likelihood)] {
                let expected = row.number(&format!("{of}_{library}"));
                assert!((found / expected - 1.0).abs() < 1e-5, "{set} {of} by {library}: {found} for {expected}");
            }
        }
        let masses = turnbull(&data);
        let expected: Vec<_> = row.text("masses").split(';').collect();
        assert_eq!(masses.len(), expected.len(), "{set} {masses:?}");
        let mut left = 1.0;
        for (mass, written) in masses.iter().zip(expected) {
            let [after, up_to, share, survival] =
                written.split(' ').map(|n| n.parse::<f64>().unwrap()).collect::<Vec<_>>()[..]
            else {
                panic!("{written}")
            };
            left -= mass.share;
            assert_eq!((mass.after, mass.up_to), (after, up_to), "{set}");
            // seven decimals are written
            assert!((mass.share - share).abs() < 1e-6 && (left - survival).abs() < 1e-6, "{set} {written}: {mass:?}");
        }
    }
}
