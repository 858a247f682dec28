//! Adjusting a batch that is off: story numbers, and identities over generated batches.

use proptest::prelude::*;
use stillroom::card::{Makes, TargetKind};
use stillroom::diagnostic::{Code, Diagnostic};
use stillroom::house::House;
use stillroom::properties::value_of;
use stillroom::solver::adjust::{AdjustRequest, Adjusted, adjust};
use stillroom::solver::target::TargetValue;
use stillroom::solver::target::volume_ml;
use stillroom::uncertainty;
use stillroom::units::{grams, millilitres};

use crate::generated::check;
use crate::kitchen::{Folder, card, run_in};

const SYRUP: &str = "name = \"Syrup\"\nmakes = \"2 L\"\n[target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";

const LIQUEUR: &str = "name = \"Liqueur\"\nmakes = \"4 x 700 ml\"\n[target]\nabv = 18\nbrix = 30\n[parts]\n\
    \"overproof rum 63 %\" = \"as needed\"\n\"white sugar\" = \"as needed\"\n\"citric acid\" = \"4 g/L\"\nwater = \"as needed\"\n";

const CORDIAL: &str = "name = \"Cordial\"\nmakes = \"1 L\"\n[target]\nbrix = 38\nacid = \"60 g/L\"\n[parts]\n\
    \"orange juice\" = \"as needed\"\n\"white sugar\" = \"as needed\"\n\
    \"citric acid\" = \"2 parts by weight\"\n\"malic acid\" = \"1 part by weight\"\n";

fn litres(l: f64) -> Makes {
    Makes::Volume(millilitres(1000.0 * l))
}

fn asked(have: Makes, readings: &[TargetValue], with: Option<&[&str]>) -> AdjustRequest {
    AdjustRequest {
        have,
        readings: readings.to_vec(),
        with: with.map(|names| names.iter().map(|n| (*n).to_owned()).collect()),
        vessel: None,
        set: Vec::new(),
    }
}

fn answer(text: &str, asked: &AdjustRequest) -> (Adjusted, Vec<Diagnostic>) {
    let (adjusted, found) = adjust(&card(text), &House::default(), asked);
    (adjusted.unwrap_or_else(|| panic!("{found:?}")), found)
}

fn refused(text: &str, asked: &AdjustRequest) -> Diagnostic {
    let (adjusted, found) = adjust(&card(text), &House::default(), asked);
    assert!(adjusted.is_none());
    found.into_iter().find(|d| d.severity == stillroom::diagnostic::Severity::Error).unwrap()
}

fn added(adjusted: &Adjusted) -> Vec<(&str, f64)> {
    adjusted.add.iter().map(|p| (p.label.as_str(), p.mass_g)).collect()
}

#[test]
fn where_it_lands_is_as_sure_as_its_readings() {
    let landing = |have: Makes, refractometer_brix: f64| {
        let (adjusted, _) = answer(SYRUP, &asked(have, &[(TargetKind::Brix, 54.0)], None));
        let mut instruments = House::default().settings.instruments;
        instruments.refractometer_brix = refractometer_brix;
        let landing = uncertainty::adjusted::landings(&adjusted, &instruments);
        assert_eq!(landing.len(), 1, "what nobody read has no doubt that is known");
        (adjusted, landing[0])
    };
    // By hand, weighed: 0.2 °Bx of the syrup is 0.2 × m/(m + w) of both; a gram of m is 54/(m + w) less 50/(m + w)
    // points, and a gram of water 50/(m + w).
    let (adjusted, found) = landing(Makes::Mass(grams(2600.0)), 0.2);
    let (m, w) = (2600.0, adjusted.add[0].mass_g);
    let by_hand = [0.2 * m, 54.0 - 50.0, 50.0].map(|x| x / (m + w)).iter().map(|x| x * x).sum::<f64>().sqrt();
    assert_eq!(found.before, 0.2);
    assert!((found.after - by_hand).abs() < 1e-4, "{} {by_hand}", found.after);
    // A worse refractometer gives a uncertainty that is as much larger; a jug is worse than a scale.
    let (_, coarse) = landing(Makes::Mass(grams(2600.0)), 2.0);
    assert!((coarse.after / found.after - 10.0).abs() < 0.1);
    assert!(landing(litres(2.1), 0.2).1.after > found.after);
}

#[test]
fn a_syrup_that_is_too_sweet_takes_water() {
    // By hand: sucrose of 54 % has 1251.8 kg/m³ at 20 °C (CRC Handbook, tests/reference/sugar-density-20c.csv), so
    // 2.1 L weigh 2628.8 g, and 54/50 - 1 of that, 210.3 g, of water bring it to 50 °Bx.
    let (adjusted, _) = answer(SYRUP, &asked(litres(2.1), &[(TargetKind::Brix, 54.0)], None));
    let by_hand = adjusted.batch.total_grams() * (54.0 / 50.0 - 1.0);
    assert_eq!(adjusted.add.len(), 1);
    assert_eq!(adjusted.add[0].label, "water");
    assert!((adjusted.add[0].mass_g - by_hand).abs() < 1e-6);
    assert!((adjusted.add[0].mass_g - 210.3).abs() < 0.1);
    assert!((value_of(TargetKind::Brix, &adjusted.after()).unwrap() - 50.0).abs() < 1e-9);
    // Weighed to the gram it still lands on 50.0.
    let rounded = adjusted.with(|p| p.mass_g.round());
    assert!((value_of(TargetKind::Brix, &rounded).unwrap() - 50.0).abs() < 0.02);
    assert!((volume_ml(&rounded).unwrap() / 1000.0 - 2.31).abs() < 0.005);
}

#[test]
fn a_vessel_that_is_too_small_is_said_and_what_to_draw_off() {
    let mut asked = asked(litres(2.1), &[(TargetKind::Brix, 54.0)], None);
    asked.vessel = Some(millilitres(2500.0));
    let (fits, found) = answer(SYRUP, &asked);
    assert_eq!(fits.share_that_fits(), None);
    assert!(found.iter().all(|d| d.code != Code::DoesNotFit));
    asked.vessel = Some(millilitres(2200.0));
    let (full, found) = answer(SYRUP, &asked);
    let share = full.share_that_fits().unwrap();
    // What is left of the batch with its share of the water fills the vessel to the brim.
    assert!((volume_ml(&(full.after() * share)).unwrap() - 2200.0).abs() < 1e-6);
    let said = found.iter().find(|d| d.code == Code::DoesNotFit).unwrap();
    assert!(
        said.help.as_ref().unwrap().contains("draw off 124 g of the batch first (99 ml) and add only 200 g `water`")
    );
    // The bottles of the card are its vessel.
    let full = answer(LIQUEUR, &self::asked(litres(2.8), &[(TargetKind::Abv, 19.0)], None));
    assert_eq!(full.0.vessel_ml, Some(2800.0));
    assert!(full.1.iter().any(|d| d.code == Code::DoesNotFit));
}

#[test]
fn a_liqueur_that_is_weak_and_sweet_takes_spirit_and_water() {
    let readings = [(TargetKind::Abv, 17.1), (TargetKind::Brix, 31.0)];
    let (adjusted, _) = answer(LIQUEUR, &asked(litres(2.0), &readings, None));
    let names: Vec<_> = added(&adjusted).into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["overproof rum 63 %", "water"]);
    let after = adjusted.after();
    assert!((value_of(TargetKind::Abv, &after).unwrap() - 18.0).abs() < 1e-9);
    assert!((value_of(TargetKind::Brix, &after).unwrap() - 30.0).abs() < 1e-9);
    // The readings hold for the batch in hand.
    assert!((value_of(TargetKind::Abv, &adjusted.batch).unwrap() - 17.1).abs() < 1e-9);
    assert!((value_of(TargetKind::Brix, &adjusted.batch).unwrap() - 31.0).abs() < 1e-9);
    assert!((volume_ml(&adjusted.batch).unwrap() - 2000.0).abs() < 1e-6);
}

#[test]
fn a_blend_of_acids_stays_in_its_ratio() {
    let readings = [(TargetKind::Brix, 38.0), (TargetKind::Acid, 52.0)];
    let (adjusted, _) = answer(CORDIAL, &asked(litres(1.0), &readings, None));
    let of = |name: &str| added(&adjusted).iter().find(|(n, _)| *n == name).map(|(_, g)| *g).unwrap();
    assert!((of("citric acid") / of("malic acid") - 2.0).abs() < 1e-9);
    assert!((value_of(TargetKind::Acid, &adjusted.after()).unwrap() - 60.0).abs() < 1e-9);
}

#[test]
fn what_is_on_target_needs_nothing() {
    let (adjusted, _) = answer(SYRUP, &asked(Makes::Mass(grams(2500.0)), &[(TargetKind::Brix, 50.0)], None));
    assert!(adjusted.add.is_empty());
    assert!((adjusted.after().total_grams() - 2500.0).abs() < 1e-9);
}

#[test]
fn what_nothing_at_hand_can_mend_says_what_would() {
    let thin = refused(SYRUP, &asked(litres(2.1), &[(TargetKind::Brix, 45.0)], Some(&["water"])));
    assert_eq!(thin.code, Code::OutOfReach);
    let help = thin.help.unwrap();
    assert!(help.contains("`white sugar` (missing)") && help.contains("boil off"), "{help}");
    let readings = [(TargetKind::Abv, 17.1), (TargetKind::Brix, 30.0)];
    let weak = refused(LIQUEUR, &asked(litres(2.0), &readings, Some(&["water", "white sugar"])));
    assert!(weak.title.contains("0.9 % ABV too little"), "{}", weak.title);
    let help = weak.help.unwrap();
    assert!(help.contains("`overproof rum 63 %` (missing)") && !help.contains("boil"), "{help}");
    let sour = refused(CORDIAL, &asked(litres(1.0), &[(TargetKind::Acid, 70.0)], Some(&["citric acid"])));
    assert!(sour.help.unwrap().contains("`water` (missing)"));
}

#[test]
fn bad_input_is_told_what_to_do() {
    let none = refused(SYRUP, &asked(litres(2.0), &[], None));
    assert_eq!(none.code, Code::BadArgument);
    let unknown = refused(SYRUP, &asked(litres(2.0), &[(TargetKind::Brix, 54.0)], Some(&["white sugr"])));
    assert_eq!(unknown.code, Code::UnknownIngredient);
    assert!(unknown.help.unwrap().contains("`white sugar`") && unknown.labels.is_empty());
    let never = refused(LIQUEUR, &asked(litres(2.0), &[(TargetKind::Abv, 60.0), (TargetKind::Brix, 80.0)], None));
    assert_eq!(never.code, Code::Contradiction);
    let many: Vec<_> = stillroom::larder::Larder::built_in().iter().map(|i| i.name.clone()).take(40).collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    assert_eq!(refused(SYRUP, &asked(litres(2.0), &[(TargetKind::Brix, 54.0)], Some(&many))).code, Code::BadArgument);
    for amount in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for reading in [-5.0, f64::NAN, 1e9] {
            let _ =
                adjust(&card(SYRUP), &House::default(), &asked(litres(amount), &[(TargetKind::Brix, reading)], None));
        }
    }
}

#[test]
fn an_adjusted_batch_lands_on_its_targets() {
    let (card, house) = (card(LIQUEUR), House::default());
    check(1000, (5.0..35.0f64, 10.0..50.0f64, 0.1..20.0f64), |(abv, brix, l)| {
        let readings = [(TargetKind::Abv, abv), (TargetKind::Brix, brix)];
        let (adjusted, found) = adjust(&card, &house, &asked(litres(l), &readings, None));
        let Some(adjusted) = adjusted else { return Err(TestCaseError::fail(format!("{found:?}"))) };
        let after = adjusted.after();
        for (kind, wanted) in [(TargetKind::Abv, 18.0), (TargetKind::Brix, 30.0)] {
            let lands = value_of(kind, &after).unwrap();
            prop_assert!((lands - wanted).abs() < 1e-6, "{kind:?} {lands}");
        }
        prop_assert!(adjusted.add.iter().all(|p| p.mass_g > 0.0) && adjusted.add.len() <= 2);
        let total = adjusted.batch.total_grams() + adjusted.add.iter().map(|p| p.mass_g).sum::<f64>();
        prop_assert!((after.total_grams() / total - 1.0).abs() < 1e-12);
        Ok(())
    });
}

#[test]
fn the_order_of_what_is_at_hand_does_not_matter_and_more_never_costs_more() {
    let (card, house) = (card(LIQUEUR), House::default());
    let shelf = ["water", "white sugar", "overproof rum 63 %", "neutral spirit 96 %", "honey"];
    let order = Just(shelf.to_vec()).prop_shuffle();
    check(1000, (10.0..30.0f64, 15.0..45.0f64, order), |(abv, brix, order)| {
        let readings = [(TargetKind::Abv, abv), (TargetKind::Brix, brix)];
        let with = |names: &[&str]| adjust(&card, &house, &asked(litres(2.0), &readings, Some(names))).0;
        let (as_named, shuffled) = (with(&shelf), with(&order));
        let (as_named, shuffled) = (as_named.unwrap(), shuffled.unwrap());
        prop_assert_eq!(added(&as_named), added(&shuffled));
        let weight = |a: &Adjusted| a.add.iter().map(|p| p.mass_g).sum::<f64>();
        if let Some(fewer) = with(&shelf[..3]) {
            prop_assert!(weight(&as_named) <= weight(&fewer) * (1.0 + 1e-9));
        }
        Ok(())
    });
}

#[test]
fn the_command_answers_with_the_keys_that_programs_read() {
    let folder = Folder::new().with("syrup.toml", SYRUP);
    let run = |more: &[&str]| {
        let (code, page, _) = run_in(&folder.0, &[&["adjust", "syrup.toml"], more].concat());
        (code, page)
    };
    let (code, out) = run(&["--have", "2.1L", "--brix", "54", "--json"]);
    assert_eq!(code, Some(0));
    let json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(json["add"][0]["of"], "water");
    assert_eq!(json["add"][0]["mass_g"].as_f64().unwrap().round(), 210.0);
    assert!(json["add"][0]["volume_ml"].is_number());
    assert!((json["after"]["brix"].as_f64().unwrap() - 50.0).abs() < 1e-6);
    assert!(json["yield"]["mass_g"].is_number() && json["yield"]["volume_ml"].is_number());
    assert!(json["diagnostics"].is_array());
    let (code, out) = run(&["--have", "2.1L", "--brix", "45", "--with", "water", "--json"]);
    assert_eq!(code, Some(1));
    let json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert!(
        json["add"].is_null() && json["diagnostics"].as_array().unwrap().iter().any(|d| d["code"] == "out-of-reach")
    );
    assert_eq!(run(&["--have", "much", "--brix", "45"]).0, Some(2));
    let (_, text) = run(&["--have", "2.1L", "--brix", "54", "--vessel", "2.5L"]);
    assert!(text.contains("you will have 2.31 L") && text.contains("it fits 2.50 L"), "{text}");
}
