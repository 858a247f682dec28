//! Readings to true values: published tables, there and back over a grid, uncertainties, and every refusal.

use crate::generated::config;
use crate::table::{Largest, rows};
use proptest::prelude::*;
use stillroom::diagnostic::{Code, Diagnostic, Severity};
use stillroom::instruments::{Density, InstrumentUncertainty, LiquidKind, PhReading, Readings, Titration, Told, tell};
use stillroom::mixture::acidity::{Acid, acids};
use stillroom::mixture::root::bracketed;
use stillroom::mixture::{Component, Mixture, density, refraction};
use stillroom::units::{
    Abv, Brix, MassFraction, Ph, Temperature, celsius, degrees_celsius, grams, in_grams_per_litre, in_kg_per_m3,
    in_millilitres, millilitres,
};

/// What the reference states for two instruments at their best: ±0.6 % vol and ±3 g/L.
const MODEL_ABV: f64 = 0.6;
const MODEL_SUGAR_G_L: f64 = 3.0;

fn brix(value: f64) -> Brix {
    Brix::new(value).unwrap()
}

fn abv(value: f64) -> Abv {
    Abv::new(value).unwrap()
}

fn told(readings: &Readings) -> Told {
    tell(readings, &InstrumentUncertainty::default())
}

/// The one error of a refusal.
fn error(readings: &Readings) -> Diagnostic {
    let told = told(readings);
    let mut errors: Vec<_> = told.diagnostics.into_iter().filter(|d| d.severity == Severity::Error).collect();
    assert_eq!(errors.len(), 1, "{errors:?}");
    let error = errors.remove(0);
    assert!(error.help.is_some(), "{error:?}");
    error
}

fn says(told: &Told, code: Code) -> Option<&Diagnostic> {
    told.diagnostics.iter().find(|d| d.code == code)
}

/// A litre at 20 °C of this strength and sugar; none where there would be no room for water.
fn liqueur(abv: f64, sugar_g_l: f64) -> Option<Mixture> {
    let pure = in_kg_per_m3(density::ethanol_water(MassFraction::new(1.0).unwrap(), celsius(20.0)).unwrap().value);
    let with = |water: f64| {
        Mixture::of(&[
            (Component::Ethanol, abv / 100.0 * pure),
            (Component::Sucrose, sugar_g_l),
            (Component::Water, water),
        ])
    };
    let room = |water: f64| in_millilitres(with(water).volume(celsius(20.0)).unwrap().value) - 1000.0;
    bracketed(room, 60.0, 1000.0, 1e-10).ok().map(with)
}

/// The specific gravity that a glass hydrometer for 20 °C shows.
fn gravity(liquid: &Mixture, t: Temperature) -> f64 {
    let rho = in_kg_per_m3(liquid.density(t).unwrap().value) * (1.0 + 25e-6 * (degrees_celsius(t) - 20.0));
    let water = in_kg_per_m3(density::water(celsius(20.0)).unwrap().value);
    (rho - 1.2) / (water - 1.2)
}

/// What a refractometer shows, with or without compensation.
fn shown(liquid: &Mixture, t: Temperature, compensated: bool) -> Brix {
    if compensated {
        refraction::brix_of_index(liquid.refractive_index(t).unwrap().value, t).unwrap().value
    } else {
        liquid.refractometer_reading(t).unwrap().value
    }
}

fn both(reading: Brix, sg: f64, t_c: f64) -> Readings {
    Readings {
        temperature: celsius(t_c),
        refractometer: Some(reading),
        density: Some(Density::SpecificGravity(sg)),
        ..Readings::default()
    }
}

#[test]
fn a_refractometer_is_corrected_as_the_oiv_table_does() {
    let mut largest = Largest::of("OIV-MA-AS2-02 table I, °Bx");
    let mut count = 0;
    for row in rows("sugar-refractometer-tempcorr").iter().filter(|row| row.text("table") == "oiv_2004") {
        let (shown, t) = (row.number("brix_measured_pct"), row.number("temperature_c"));
        let readings = Readings { temperature: celsius(t), refractometer: Some(brix(shown)), ..Readings::default() };
        let found = told(&readings).brix.unwrap().value.get();
        largest.within(found - shown, row.number("correction_brix"), 0.05, (t, shown));
        count += 1;
    }
    assert!(count > 80, "{count}");
}

#[test]
fn published_worked_examples() {
    let mut count = 0;
    for row in rows("trade-worked-examples") {
        let (id, expected, tolerance) = (row.text("id"), row.maybe("expected_value"), row.maybe("tolerance_abs"));
        let input = |key: &str| {
            let inputs = row.text("inputs_unit_in_key");
            let part = inputs.split("; ").find_map(|part| part.strip_prefix(key)?.strip_prefix('='));
            part.unwrap_or_else(|| panic!("{key} in {inputs}")).to_owned()
        };
        let number = |key: &str| input(key).parse::<f64>().unwrap();
        let found = match id {
            "E09" => {
                let t = (number("temp_f") - 32.0) / 1.8;
                let readings = Readings {
                    temperature: celsius(t),
                    density: Some(Density::Proof(number("hydrometer_proof"))),
                    ..Readings::default()
                };
                told(&readings).proof.unwrap()
            }
            // the source's rows below 8 °C are irregular
            "E31" if number("temp_c") >= 8.0 => {
                let (shown, t) = (number("reading_brix_pct"), number("temp_c"));
                let readings =
                    Readings { temperature: celsius(t), refractometer: Some(brix(shown)), ..Readings::default() };
                told(&readings).brix.unwrap().value.get() - shown
            }
            "E33" => {
                let acid = Acid::named(&input("acid")).unwrap();
                let titration = Titration {
                    normality: number("naoh_normality"),
                    as_acid: acid,
                    ..titration(number("titre_ml"), number("sample_ml"))
                };
                let readings = Readings { titration: Some(titration), ..Readings::default() };
                in_grams_per_litre(told(&readings).acid.unwrap().as_named.value)
            }
            _ => continue,
        };
        let (expected, tolerance) = (expected.unwrap(), tolerance.unwrap());
        assert!((found - expected).abs() <= tolerance, "{id}: {found} for {expected} ± {tolerance}");
        println!("{id}: {found:.4} for {expected}");
        count += 1;
    }
    assert_eq!(count, 9);
}

fn titration(titre_ml: f64, sample_ml: f64) -> Titration {
    Titration {
        titre: millilitres(titre_ml),
        sample: millilitres(sample_ml),
        normality: 0.1,
        endpoint: Ph::new(8.1).unwrap(),
        as_acid: &acids::CITRIC,
    }
}

/// Forward and back where the sugar dissolves; the two facts, at every temperature, with and without compensation.
#[test]
fn two_instruments_give_back_what_was_mixed() {
    let mut strength = Largest::of("ABV by two instruments, % vol");
    let mut sugar = Largest::of("sugar by two instruments, g/L");
    let mut by_strength = Largest::of("sugar by strength and one instrument, g/L");
    let mut count = 0;
    for t_c in [5.0, 15.0, 20.0, 25.0, 35.0] {
        let t = celsius(t_c);
        for a in (5..=55).step_by(5).map(f64::from) {
            for s in (20..=500).step_by(40).map(f64::from) {
                let Some(liquid) = liqueur(a, s) else { continue };
                if liquid.saturation_brix(t).map_or(true, |limit| liquid.brix() > limit.value) {
                    continue;
                }
                count += 1;
                let compensated = count % 2 == 0;
                let sg = gravity(&liquid, t);
                let reading = shown(&liquid, t, compensated);
                let all = Readings { compensated, ..both(reading, sg, t_c) };
                let found = told(&all);
                strength.within(found.abv.unwrap().value.get(), a, 0.01, (t_c, a, s));
                sugar.within(in_grams_per_litre(found.sugar.unwrap().value), s, 0.1, (t_c, a, s));
                assert!((found.brix.unwrap().value.get() - liquid.brix().get()).abs() < 0.01);
                for one in [Readings { density: None, ..all }, Readings { refractometer: None, ..all }] {
                    let found = told(&Readings { abv: Some(abv(a)), ..one });
                    by_strength.within(in_grams_per_litre(found.sugar.unwrap().value), s, 0.1, (t_c, a, s));
                }
            }
        }
    }
    println!("{count} liqueurs");
    assert!(count > 400, "{count}");
}

/// Beyond liqueurs, where the index of spirit is flat in its strength.
#[test]
fn strong_spirit_with_a_little_sugar_is_told_too() {
    for a in (60..=85).step_by(5).map(f64::from) {
        for s in [2.0, 5.0, 20.0, 60.0] {
            let liquid = liqueur(a, s).unwrap();
            let found = told(&both(shown(&liquid, celsius(20.0), false), gravity(&liquid, celsius(20.0)), 20.0));
            assert!((found.abv.unwrap().value.get() - a).abs() < 0.01, "{a} {s} {found:?}");
            assert!((in_grams_per_litre(found.sugar.unwrap().value) - s).abs() < 0.1, "{a} {s} {found:?}");
        }
    }
}

#[test]
fn the_published_model_table_is_met() {
    let mut strength = Largest::of("ABV of the model table, % vol");
    let mut sugar = Largest::of("sugar of the model table, g/L");
    for row in rows("ethanol-ternary-model") {
        let (a, s) = (row.number("abv_pct"), row.number("sucrose_g_per_l"));
        // the table gives true specific gravity, a hydrometer shows that in air
        let sg = (row.number("density_kg_m3") - 1.2) / (998.203 - 1.2);
        let found = told(&both(brix(row.number("brix_reading")), sg, 20.0));
        // the table: density to 0.3 kg/m³ (0.11 points), reading to 0.1 °Bx (0.2 points and 1 g/L)
        strength.within(found.abv.unwrap().value.get(), a, 0.25, (a, s));
        sugar.within(in_grams_per_litre(found.sugar.unwrap().value), s, 1.2, (a, s));
    }
}

#[test]
fn no_doubt_is_smaller_than_the_error_of_the_equations() {
    let fine = InstrumentUncertainty {
        refractometer_brix: 1e-6,
        hydrometer_sg: 1e-9,
        abv: 1e-6,
        ..InstrumentUncertainty::default()
    };
    let mut kitchen: (f64, f64) = (9.0, 0.0);
    for a in (15..=55).step_by(5).map(f64::from) {
        for s in (50..=400).step_by(50).map(f64::from) {
            let Some(liquid) = liqueur(a, s) else { continue };
            let readings = both(shown(&liquid, celsius(20.0), false), gravity(&liquid, celsius(20.0)), 20.0);
            let best = tell(&readings, &fine);
            assert!(best.abv.unwrap().error.get() >= MODEL_ABV, "{a} {s}");
            assert!(in_grams_per_litre(best.sugar.unwrap().error) >= MODEL_SUGAR_G_L);
            let usual = told(&readings);
            let off = usual.abv.unwrap().error.get();
            if a <= 40.0 {
                kitchen = (kitchen.0.min(off), kitchen.1.max(off));
            }
            assert!(says(&usual, Code::NotLabelGrade).is_some());
            for one in [Readings { density: None, ..readings }, Readings { refractometer: None, ..readings }] {
                let found = tell(&Readings { abv: Some(abv(a)), ..one }, &fine);
                assert!(in_grams_per_litre(found.sugar.unwrap().error) >= MODEL_SUGAR_G_L);
            }
        }
    }
    println!("kitchen instruments, 15 to 40 % vol: ± {:.2} to {:.2} % vol", kitchen.0, kitchen.1);
    assert!(kitchen.0 > 0.7 && kitchen.1 < 1.05, "{kitchen:?}");
    let water = told(&Readings { refractometer: Some(brix(30.0)), ..Readings::default() });
    assert!(water.brix.unwrap().error.get() >= 0.2);
}

/// The stated uncertainty is what a change of the readings does.
#[test]
fn the_doubt_is_what_the_readings_do() {
    let liquid = liqueur(30.0, 250.0).unwrap();
    let (reading, sg) = (shown(&liquid, celsius(20.0), false).get(), gravity(&liquid, celsius(20.0)));
    let at = |db: f64, dsg: f64| {
        let found = told(&both(brix(reading + db), sg + dsg, 20.0));
        (found.abv.unwrap().value.get(), in_grams_per_litre(found.sugar.unwrap().value))
    };
    let slope = |a: (f64, f64), b: (f64, f64)| ((a.0 - b.0) / 2.0, (a.1 - b.1) / 2.0);
    let (by_reading, by_gravity) = (slope(at(0.2, 0.0), at(-0.2, 0.0)), slope(at(0.0, 0.001), at(0.0, -0.001)));
    // sensitivities as the reference states them
    assert!(
        (0.32..=0.40).contains(&by_reading.0) && (-0.40..=-0.34).contains(&by_gravity.0),
        "{by_reading:?} {by_gravity:?}"
    );
    let (best, usual) = {
        let fine = InstrumentUncertainty {
            refractometer_brix: 1e-9,
            hydrometer_sg: 1e-12,
            ..InstrumentUncertainty::default()
        };
        let readings = both(brix(reading), sg, 20.0);
        (tell(&readings, &fine), told(&readings))
    };
    let instruments = by_reading.0.hypot(by_gravity.0);
    let expected = instruments.hypot(best.abv.unwrap().error.get());
    assert!((usual.abv.unwrap().error.get() - expected).abs() < 0.01);
    let expected = by_reading.1.hypot(by_gravity.1).hypot(in_grams_per_litre(best.sugar.unwrap().error));
    assert!((in_grams_per_litre(usual.sugar.unwrap().error) - expected).abs() < 0.05);
}

#[test]
fn syrups_by_hydrometer_and_by_weight() {
    for (shown, t) in [(12.0, 20.0), (50.0, 20.0), (64.0, 30.0), (65.0, 10.0)] {
        let syrup = Mixture::of(&[(Component::Sucrose, shown), (Component::Water, 100.0 - shown)]);
        let t = celsius(t);
        let rho = in_kg_per_m3(syrup.density(t).unwrap().value);
        let of = |density| Readings {
            temperature: t,
            density: Some(density),
            of: Some(LiquidKind::Syrup),
            ..Readings::default()
        };
        let sg = gravity(&syrup, t);
        let by_weight = Density::Weighed { mass: grams(rho), volume: millilitres(1000.0) };
        for density in [Density::SpecificGravity(sg), Density::Baume(145.0 - 145.0 / sg), by_weight] {
            let found = told(&of(density));
            assert!((found.brix.unwrap().value.get() - shown).abs() < 1e-3, "{density:?} {found:?}");
            let expected = shown / 100.0 * in_kg_per_m3(syrup.density(celsius(20.0)).unwrap().value);
            assert!((in_grams_per_litre(found.sugar.unwrap().value) - expected).abs() < 0.02);
        }
    }
    // At its own temperature a Brix hydrometer is right; warm, it reads low.
    let of = |t| Readings { temperature: celsius(t), density: Some(Density::Brix(brix(60.0))), ..Readings::default() };
    assert!((told(&of(20.0)).brix.unwrap().value.get() - 60.0).abs() < 1e-6);
    assert!((60.5..61.0).contains(&told(&of(30.0)).brix.unwrap().value.get()));
    // 60/60 °F marks mean a denser water
    let mut sixty = both(brix(0.0), 1.300, 20.0);
    (sixty.refractometer, sixty.of) = (None, Some(LiquidKind::Syrup));
    let at_20 = told(&sixty).brix.unwrap().value.get();
    sixty.calibrated = celsius(140.0 / 9.0);
    assert!(told(&sixty).brix.unwrap().value.get() > at_20 + 0.1);
}

#[test]
fn a_spirit_by_alcoholometer() {
    let of = |density, t| Readings { temperature: celsius(t), density: Some(density), ..Readings::default() };
    assert!((told(&of(Density::Alcohol(abv(40.0)), 20.0)).abv.unwrap().value.get() - 40.0).abs() < 1e-6);
    // warm spirit is lighter and reads strong
    let warm = told(&of(Density::Alcohol(abv(40.0)), 30.0)).abv.unwrap();
    assert!((35.8..36.4).contains(&warm.value.get()), "{warm:?}");
    // 0.001 in gravity is 0.7 points at 40 %
    assert!((0.6..0.8).contains(&warm.error.get()), "{warm:?}");
    let pure_water = told(&Readings { of: Some(LiquidKind::Spirit), ..of(Density::SpecificGravity(1.0005), 20.0) });
    assert_eq!(pure_water.abv.unwrap().value.get(), 0.0);
}

#[test]
fn what_the_syrup_is_made_of_matters_and_is_said() {
    let plain = Readings { refractometer: Some(brix(50.0)), ..Readings::default() };
    let found = told(&plain);
    assert!(says(&found, Code::Assumed).unwrap().title.starts_with("a sugar syrup without alcohol"));
    // an invert syrup of 50 % reads 0.93 low
    let invert = found.brix_if_invert.unwrap().get();
    assert!((50.9..51.0).contains(&invert), "{invert}");
    // 6 % citric: 0.012 + 1.158 - 0.0144
    let acid = told(&Readings { acid: MassFraction::new(0.06), of: Some(LiquidKind::Syrup), ..plain });
    assert!((acid.brix.unwrap().value.get() - 51.1556).abs() < 1e-3);
    assert!(says(&acid, Code::Assumed).is_none());
    // the acid is solids, not sugar
    let sugar = in_grams_per_litre(acid.sugar.unwrap().value);
    assert!((sugar - 0.451556 * in_kg_per_m3(acid.density.unwrap().value)).abs() < 0.05, "{sugar}");
    // an instrument that compensates needs no correction
    let warm = Readings { temperature: celsius(30.0), ..plain };
    assert!(told(&warm).brix.unwrap().value.get() > 50.7);
    assert_eq!(told(&Readings { compensated: true, ..warm }).brix.unwrap().value.get(), 50.0);
}

#[test]
fn a_syrup_read_with_both_has_no_alcohol_to_be_seen() {
    let syrup = Mixture::of(&[(Component::Sucrose, 40.0), (Component::Water, 60.0)]);
    let (reading, sg) = (shown(&syrup, celsius(20.0), false).get(), gravity(&syrup, celsius(20.0)));
    for off in [-0.3, 0.0] {
        let found = told(&both(brix(reading + off), sg, 20.0));
        assert!(found.abv.is_some_and(|abv| abv.value.get() < 0.01), "{off} {found:?}");
        assert!((found.brix.unwrap().value.get() - 40.0).abs() < 0.5);
    }
    let of_syrup = Readings { of: Some(LiquidKind::Syrup), ..both(brix(reading), sg, 20.0) };
    assert!(says(&told(&of_syrup), Code::ReadingsContradict).is_none());
    let liquid = liqueur(20.0, 300.0).unwrap();
    let off = both(shown(&liquid, celsius(20.0), false), gravity(&liquid, celsius(20.0)), 20.0);
    assert!(says(&told(&Readings { of: Some(LiquidKind::Syrup), ..off }), Code::ReadingsContradict).is_some());
    assert!(says(&told(&Readings { abv: Some(abv(20.0)), ..off }), Code::ReadingsContradict).is_none());
    let wrong = told(&Readings { abv: Some(abv(25.0)), ..off });
    assert_eq!(
        says(&wrong, Code::ReadingsContradict).unwrap().title,
        "the two instruments say 20.0 ± 0.8 % vol, --abv says 25.0"
    );
}

#[test]
fn ph_has_an_upper_edge_and_a_strip_clears_nothing() {
    let of = |ph| Readings { ph: Some(ph), ..Readings::default() };
    let meter = told(&of(PhReading::Meter(3.4))).ph.unwrap();
    assert!(meter.clears_limits && (meter.high.get() - 3.5).abs() < 1e-9 && (meter.low.get() - 3.3).abs() < 1e-9);
    let thinned = told(&of(PhReading::Diluted(3.4)));
    let ph = thinned.ph.unwrap();
    assert!((ph.high.get() - 3.5).abs() < 1e-9 && (ph.low.get() - 3.0).abs() < 1e-9);
    assert_eq!(
        says(&thinned, Code::PhCaution).unwrap().title,
        "thinned 1:1 a cordial reads 0.1 to 0.15 high, a syrup of pure acid up to 0.3: the acids are not known, so the true pH may be that much lower"
    );
    let strip = told(&of(PhReading::Strip(3.5)));
    let ph = strip.ph.unwrap();
    assert!(!ph.clears_limits && ph.high.get() == 4.0);
    assert_eq!(says(&strip, Code::PhCaution).unwrap().title, "a test strip is good for 0.5 and never clears a limit");
    let spirit = told(&Readings { abv: Some(abv(30.0)), ..of(PhReading::Meter(3.4)) }).ph.unwrap();
    assert!((spirit.high.get() - 3.7).abs() < 1e-9);
}

#[test]
fn every_refusal_has_its_words() {
    let none = Readings::default();
    let density = |density| Readings { density: Some(density), ..none };
    let of = |kind, readings: Readings| Readings { of: Some(kind), ..readings };
    let sg = |x| density(Density::SpecificGravity(x));
    let refracted = |x: f64| Readings { refractometer: Some(brix(x)), ..none };
    let ph = |x| Readings { ph: Some(PhReading::Meter(x)), ..none };
    let titrated = |t| Readings { titration: Some(t), ..none };
    let weighed = |g, ml| density(Density::Weighed { mass: grams(g), volume: millilitres(ml) });
    let alone = "a hydrometer alone cannot tell sugar from alcohol";
    let cases: Vec<(Readings, Code, &str)> = vec![
        (none, Code::NeedsAnother, "there is no reading to work from"),
        (Readings { abv: Some(abv(40.0)), ..none }, Code::NeedsAnother, "there is no reading to work from"),
        (sg(1.05), Code::NeedsAnother, alone),
        (density(Density::Baume(20.0)), Code::NeedsAnother, alone),
        (of(LiquidKind::Liqueur, sg(1.05)), Code::NeedsAnother, alone),
        (
            of(LiquidKind::Liqueur, refracted(30.0)),
            Code::NeedsAnother,
            "a refractometer alone cannot tell sugar from alcohol",
        ),
        (
            of(LiquidKind::Spirit, refracted(30.0)),
            Code::NeedsAnother,
            "a refractometer alone cannot tell sugar from alcohol",
        ),
        (
            of(LiquidKind::Syrup, sg(0.99)),
            Code::OutOfRange,
            "988.2 kg/m³ is lighter than water (998.2): it cannot be a syrup",
        ),
        (
            of(LiquidKind::Syrup, sg(0.9975)),
            Code::OutOfRange,
            "995.7 kg/m³ is lighter than water (998.2): it cannot be a syrup",
        ),
        (
            of(LiquidKind::Spirit, sg(1.05)),
            Code::OutOfRange,
            "strength: no spirit weighs 1048.1 kg/m³: 789.2 to 998.2 do",
        ),
        (sg(1058.0), Code::OutOfRange, "SG 1058 lies outside 0.78 to 1.46"),
        (sg(f64::NAN), Code::OutOfRange, "SG NaN lies outside 0.78 to 1.46"),
        (sg(-1.0), Code::OutOfRange, "SG -1 lies outside 0.78 to 1.46"),
        (density(Density::Baume(60.0)), Code::OutOfRange, "60 °Bé lies off the scale of 0 to 45"),
        (density(Density::Baume(f64::NAN)), Code::OutOfRange, "NaN °Bé lies off the scale of 0 to 45"),
        (density(Density::Brix(brix(90.0))), Code::OutOfRange, "90 °Bx lies off the scale of 0 to 85 °Bx"),
        (density(Density::Proof(201.0)), Code::OutOfRange, "201 proof lies off the scale of 0 to 200"),
        (weighed(-1.0, 100.0), Code::OutOfRange, "-1 g in 100 ml is no density"),
        (weighed(100.0, 0.0), Code::OutOfRange, "100 g in 0 ml is no density"),
        (weighed(f64::NAN, 100.0), Code::OutOfRange, "NaN g in 100 ml is no density"),
        (weighed(231.0, 100.0), Code::OutOfRange, "231 g in 100 ml is 2310 kg/m³, which no syrup or spirit weighs"),
        (refracted(90.0), Code::OutOfRange, "refractive index: known to 85 °Bx"),
        (
            Readings { temperature: celsius(f64::NAN), ..refracted(50.0) },
            Code::OutOfRange,
            "the temperature is not a number",
        ),
        (
            Readings { temperature: celsius(70.0), ..refracted(50.0) },
            Code::OutOfRange,
            "corrected reading: known from 0 to 60 °C; 70.0 °C was asked for",
        ),
        (
            Readings { temperature: celsius(10.0), ..refracted(0.1) },
            Code::OutOfRange,
            "corrected reading: a reading of 0.1 °Bx at 10.0 °C is no sucrose solution",
        ),
        (both(brix(30.0), 1.06, 45.0), Code::OutOfRange, "sweet spirit is read between 0 and 40 °C, not at 45.0 °C"),
        (
            both(brix(30.0), 1.2, 20.0),
            Code::ReadingsContradict,
            "a density of 1197.6 kg/m³ and a refractometer at 30.0 °Bx contradict each other: without any alcohol the second would be 44.1 °Bx, and sugar or alcohol only raises it",
        ),
        (
            both(brix(5.0), 0.95, 20.0),
            Code::ReadingsContradict,
            "a density of 948.4 kg/m³ and a refractometer at 5.0 °Bx contradict each other: without any sugar the second would be 14.7 °Bx, and sugar or alcohol only raises it",
        ),
        (
            both(brix(84.0), 0.95, 20.0),
            Code::ReadingsContradict,
            "a density of 948.4 kg/m³ and a refractometer at 84.0 °Bx contradict each other: no sugar and alcohol in water have both: the second is too high for the first",
        ),
        (
            Readings { abv: Some(abv(40.0)), ..refracted(10.0) },
            Code::ReadingsContradict,
            "a strength of 40.0 % vol and a refractometer at 10.0 °Bx contradict each other: without any sugar the second would be 14.8 °Bx, and sugar only raises it",
        ),
        (
            Readings { abv: Some(abv(40.0)), ..sg(0.9) },
            Code::ReadingsContradict,
            "a strength of 40.0 % vol and a density of 898.5 kg/m³ contradict each other: without any sugar the second would be 948.0 kg/m³, and sugar only raises it",
        ),
        (
            Readings { acid: MassFraction::new(0.4), ..refracted(20.0) },
            Code::ReadingsContradict,
            "40.0 % of acid is more than all dissolved solids, 27.1 °Bx",
        ),
        (ph(0.5), Code::OutOfRange, "pH 0.5 lies outside 1 to 9"),
        (ph(9.5), Code::OutOfRange, "pH 9.5 lies outside 1 to 9"),
        (ph(f64::NAN), Code::OutOfRange, "pH NaN lies outside 1 to 9"),
        (
            Readings { abv: Some(abv(63.0)), ..ph(4.0) },
            Code::OutOfRange,
            "at 63 % vol a pH has no meaning that a meter would show",
        ),
        (titrated(titration(-1.0, 15.0)), Code::OutOfRange, "a titre of -1 ml on a sample of 15 ml tells nothing"),
        (titrated(titration(12.0, 0.0)), Code::OutOfRange, "a titre of 12 ml on a sample of 0 ml tells nothing"),
        (titrated(titration(f64::NAN, 5.0)), Code::OutOfRange, "a titre of NaN ml on a sample of 5 ml tells nothing"),
        (
            titrated(Titration { normality: 0.0, ..titration(12.0, 15.0) }),
            Code::OutOfRange,
            "a base of 0 equivalents in a litre is not used for titration; more than 0 and at most 10 N were expected",
        ),
        (
            titrated(Titration { endpoint: Ph::new(4.0).unwrap(), ..titration(12.0, 15.0) }),
            Code::OutOfRange,
            "pH 4 is no endpoint for titratable acid; 6.9 to 8.5 was expected",
        ),
    ];
    for (readings, code, title) in cases {
        let error = error(&readings);
        assert_eq!((error.code, error.title.as_str()), (code, title));
    }
}

#[test]
fn more_sugar_than_dissolves_is_said() {
    let found = told(&Readings { refractometer: Some(brix(72.0)), ..Readings::default() });
    assert_eq!(
        says(&found, Code::OverSaturated).unwrap().title,
        "72.0 °Bx is more than sucrose can hold dissolved at 20 °C, 66.7 °Bx"
    );
    let hot = Readings { temperature: celsius(50.0), refractometer: Some(brix(70.0)), ..Readings::default() };
    assert!(says(&told(&hot), Code::OverSaturated).is_none());
    let syrup = told(&Readings { refractometer: Some(brix(66.5)), ..Readings::default() });
    assert!(says(&syrup, Code::OverSaturated).is_none());
}

/// Anything that an instrument or a finger can give.
fn anything() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -10.0..250.0f64,
        4 => 0.7..1.5f64,
        1 => Just(f64::NAN),
        1 => Just(f64::INFINITY),
        1 => Just(0.0),
        1 => any::<f64>(),
    ]
}

proptest! {
    #![proptest_config(config(3000, 7))]

    /// No reading panics, every number told is finite with a uncertainty above nothing, and nothing told comes without a word
    /// when it is refused.
    #[test]
    fn nothing_that_is_read_breaks_it(
        t in prop_oneof![6 => -5.0..70.0f64, 1 => anything()],
        reading in proptest::option::of(0.0..=100.0f64),
        which in 0..7u8,
        x in anything(),
        y in anything(),
        strength in proptest::option::of(0.0..=100.0f64),
        of in proptest::option::of(prop_oneof![Just(LiquidKind::Syrup), Just(LiquidKind::Spirit), Just(LiquidKind::Liqueur)]),
        compensated: bool,
        acidity in proptest::option::of(0.0..0.5f64),
        ph in proptest::option::of(anything()),
    ) {
        let density = match which {
            0 => None,
            1 => Some(Density::SpecificGravity(x)),
            2 => Some(Density::Brix(Brix::saturating(x))),
            3 => Some(Density::Baume(x)),
            4 => Some(Density::Alcohol(Abv::saturating(x))),
            5 => Some(Density::Proof(x)),
            _ => Some(Density::Weighed { mass: grams(x), volume: millilitres(y) }),
        };
        let readings = Readings {
            temperature: celsius(t),
            refractometer: reading.map(Brix::saturating),
            compensated,
            acid: acidity.and_then(MassFraction::new),
            density,
            abv: strength.map(Abv::saturating),
            of,
            ph: ph.map(PhReading::Diluted),
            titration: Some(titration(x, y)),
            ..Readings::default()
        };
        let told = told(&readings);
        let numbers = [
            told.brix.map(|e| (e.value.get(), e.error.get())),
            told.abv.map(|e| (e.value.get(), e.error.get())),
            told.sugar.map(|e| (in_kg_per_m3(e.value), in_kg_per_m3(e.error))),
            told.density.map(|e| (in_kg_per_m3(e.value), in_kg_per_m3(e.error))),
        ];
        for (value, uncertainty) in numbers.into_iter().flatten() {
            prop_assert!(value.is_finite() && value >= 0.0 && uncertainty.is_finite() && uncertainty > 0.0, "{readings:?} {told:?}");
        }
        if told.brix.is_none() && told.abv.is_none() && (readings.refractometer.is_some() || readings.density.is_some()) {
            prop_assert!(told.diagnostics.iter().any(|d| d.severity == Severity::Error));
        }
    }

    /// A sweeter reading at one density is a stronger and a sweeter liquid; a denser liquid at one reading a weaker one.
    #[test]
    fn more_is_more(a in 8.0..50.0f64, s in 40.0..400.0f64, t in 8.0..32.0f64) {
        let liquid = liqueur(a, s).unwrap();
        let (reading, sg) = (shown(&liquid, celsius(t), false).get(), gravity(&liquid, celsius(t)));
        let at = |db: f64, dsg: f64| {
            let found = told(&both(brix(reading + db), sg + dsg, t));
            (found.abv.unwrap().value.get(), in_grams_per_litre(found.sugar.unwrap().value))
        };
        let (here, sweeter, denser) = (at(0.0, 0.0), at(0.1, 0.0), at(0.0, 0.0005));
        prop_assert!(sweeter.0 > here.0 && sweeter.1 > here.1);
        prop_assert!(denser.0 < here.0 && denser.1 > here.1);
    }
}

/// The command in a folder of its own, with a house that says what it measures with, or none.
fn run(name: &str, house: Option<&str>, args: &[&str]) -> std::process::Output {
    let folder = std::env::temp_dir().join(format!("stillroom-read-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    if let Some(house) = house {
        std::fs::write(folder.join("house.toml"), house).unwrap();
    }
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_stillroom"))
        .arg("read")
        .args(args)
        .current_dir(&folder)
        .output()
        .unwrap();
    std::fs::remove_dir_all(&folder).unwrap();
    output
}

fn json(output: &std::process::Output) -> serde_json::Value {
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn the_command_gives_the_promised_keys() {
    let args = ["--refractometer", "32.60", "--sg", "1.0588", "--at", "20C", "--json"];
    let output = run("keys", None, &args);
    assert_eq!(output.status.code(), Some(0));
    let whole = json(&output);
    for key in ["brix", "abv_pct", "sugar_g_l"] {
        assert!(whole[key].is_f64() && whole["doubt"][key].is_f64(), "{key}: {whole}");
    }
    assert!(whole["diagnostics"].is_array() && whole["label_grade"] == false);
    assert!((whole["abv_pct"].as_f64().unwrap() - 30.0).abs() < 0.1);
    assert!((whole["sugar_g_l"].as_f64().unwrap() - 250.0).abs() < 1.0);
    // a house with finer instruments is in less uncertainty
    let house = "[instruments]\nrefractometer = \"0.1 °Bx\"\nhydrometer = 0.0005\n";
    let finer = json(&run("finer", Some(house), &args));
    let off = |whole: &serde_json::Value| whole["doubt"]["abv_pct"].as_f64().unwrap();
    assert!(off(&finer) < off(&whole) && off(&finer) >= MODEL_ABV, "{} {}", off(&finer), off(&whole));
    // a syrup has no strength to tell
    let syrup = json(&run("syrup", None, &["--refractometer", "50", "--json"]));
    assert!(
        syrup["abv_pct"].is_null()
            && syrup["doubt"]["abv_pct"].is_null()
            && (syrup["brix"].as_f64().unwrap() - 50.0).abs() < 1e-6
    );
    assert!(!syrup["assumed"].as_array().unwrap().is_empty());
}

#[test]
fn the_command_answers_with_its_exit_code() {
    for (name, args, code, word) in [
        (
            "alone",
            &["--sg", "1.05"][..],
            1,
            "error[needs-another-reading]: a hydrometer alone cannot tell sugar from alcohol",
        ),
        ("none", &[], 1, "error[needs-another-reading]: there is no reading to work from"),
        ("apart", &["--sg", "1.2", "--refractometer", "30"], 1, "error[readings-contradict]"),
        ("acid", &["--ph", "12"], 1, "error[out-of-range]: pH 12 lies outside 1 to 9"),
        ("nan", &["--sg", "NaN"], 2, "error[bad-argument]: --sg \"NaN\""),
        ("below", &["--refractometer", "-3"], 2, "error[bad-argument]: --refractometer \"-3\""),
        ("unit", &["--refractometer", "30", "--at", "25"], 2, "error[bad-argument]: --at \"25\""),
        ("two", &["--sg", "1.05", "--baume", "4"], 2, "cannot be used with"),
        ("half", &["--titre", "12ml"], 2, "--sample"),
        ("who", &["--titre", "12ml", "--sample", "15ml", "--as", "tartric"], 2, "did you mean tartaric?"),
    ] {
        let output = run(name, None, args);
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(code), "{name}: {said}");
        assert!(said.contains(word), "{name}: {said}");
        assert!(output.stdout.is_empty(), "{name}");
    }
}

#[test]
fn the_bench_gets_a_range_and_what_to_do() {
    let output = run("bench", None, &["--refractometer", "32.6", "--sg", "1.0588"]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    for line in [
        "read at 20 °C: refractometer 32.6 °Bx, hydrometer SG 1.0588",
        "  alcohol   29.2 to 30.8 % vol   (30.0 ± 0.8)",
        "- not label grade: a label must be within 0.3 % vol, this is good for 0.8",
        "- assumed: read at 20 °C (--at)",
        "- assumed: all that is dissolved is sucrose",
    ] {
        assert!(said.contains(line), "{line}\n{said}");
    }
}
