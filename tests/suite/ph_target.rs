//! pH as a target, and juice brought to a sourness by a blend of acids.

use proptest::prelude::*;
use stillroom::card::{self, TargetKind};
use stillroom::diagnostic::{Code, Diagnostic};
use stillroom::house::House;
use stillroom::larder::house_file;
use stillroom::mixture::acidity::ph;
use stillroom::properties::value_of;
use stillroom::solver::{Options, Solved, solve};
use stillroom::units::celsius;

use crate::generated::runner;

fn made_in(house: &House, text: &str) -> (Option<Solved>, Vec<Diagnostic>) {
    let (card, found) = card::read("card.toml".into(), text.into());
    assert!(found.iter().all(|d| d.severity != stillroom::diagnostic::Severity::Error), "{found:?}");
    let outcome = solve(&card.unwrap(), house, &Options::default());
    (outcome.solved, outcome.diagnostics)
}

fn made(text: &str) -> Solved {
    let (solved, found) = made_in(&House::default(), text);
    solved.unwrap_or_else(|| panic!("{found:?}"))
}

fn refused(text: &str) -> Diagnostic {
    let (_, mut found) = made_in(&House::default(), text);
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

fn ph_of(solved: &Solved) -> f64 {
    ph::estimate(solved.bottled(), celsius(20.0)).unwrap().value.get()
}

fn grams(solved: &Solved, name: &str) -> f64 {
    solved.last().parts.iter().find(|p| p.label == name).unwrap().mass_g
}

fn orange(target: &str) -> String {
    format!(
        "name = \"Orange\"\nmakes = \"1 L\"\n[target]\nbrix = 38\n{target}\n[parts]\n\
         \"orange juice\" = \"as needed\"\n\"white sugar\" = \"as needed\"\n\
         \"citric acid\" = \"2 parts by weight\"\n\"malic acid\" = \"1 part by weight\"\n"
    )
}

#[test]
fn a_ph_is_met_in_the_finished_liquid() {
    let ph = |n: f64| made(&orange(&format!("ph = {n}")));
    for target in [2.0, 2.5, 3.0, 3.5] {
        let solved = ph(target);
        assert!((ph_of(&solved) - target).abs() < 1e-6);
        assert!((value_of(TargetKind::Brix, solved.bottled()).unwrap() - 38.0).abs() < 1e-9);
        assert!((stillroom::solver::target::volume_ml(solved.bottled()).unwrap() - 1000.0).abs() < 1e-6);
        assert!((grams(&solved, "citric acid") / grams(&solved, "malic acid") - 2.0).abs() < 1e-9);
    }
}

#[test]
fn one_open_acid_and_fixed_parts_need_no_size() {
    let solved = made(
        "name = \"Sour\"\n[target]\nph = 2.6\n[parts]\n\"grapefruit juice\" = \"1 kg\"\n\"citric acid\" = \"as needed\"\n",
    );
    assert!((ph_of(&solved) - 2.6).abs() < 1e-6);
    // Water is an open part too: it thins the acid until the pH is there.
    let thinned =
        made("name = \"Thin\"\n[target]\nph = 2.5\n[parts]\nwater = \"as needed\"\n\"citric acid\" = \"10 g\"\n");
    assert!((ph_of(&thinned) - 2.5).abs() < 1e-6);
}

#[test]
fn acid_and_ph_together_are_two_rules() {
    // The juice brings its minerals, the powder none: both targets can be met at once.
    let solved = made(
        "name = \"Both\"\nmakes = \"1 L\"\n[target]\nacid = \"20 g/L\"\nph = 2.5\n[parts]\n\
         \"orange juice\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n",
    );
    assert!((ph_of(&solved) - 2.5).abs() < 1e-6);
    assert!((value_of(TargetKind::Acid, solved.bottled()).unwrap() - 20.0).abs() < 1e-6);
    // One too many is compared, not dropped.
    let crowded = refused(&orange("acid = \"60 g/L\"\nph = 3.4"));
    assert_eq!(crowded.code, Code::TargetMissed);
    assert!(crowded.title.contains("not pH 3.40"), "{}", crowded.title);
}

#[test]
fn out_of_reach_tells_the_range_and_what_limits_it() {
    let sour = refused(&orange("ph = 1.1"));
    assert_eq!(sour.code, Code::OutOfReach);
    assert!(sour.title.starts_with("pH 1.10 cannot be reached: these parts reach pH 1."), "{}", sour.title);
    assert!(sour.labels[0].text.contains("`white sugar`"));
    let flat = refused(&orange("ph = 5"));
    assert!(flat.labels[0].text.contains("`citric acid`"), "{flat:?}");
}

#[test]
fn where_no_ph_can_be_given_it_cannot_be_aimed_at() {
    let zest = "name = \"Zest\"\nmakes = \"1 L\"\n[target]\nbrix = 46\nph = 2.5\n[parts]\n\"lime juice\" = \"350 ml\"\n\
                \"white sugar\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n\
                \"lime zest\" = { amount = \"25 g/L\", strained = true }\n";
    let unknown = refused(zest);
    assert_eq!(unknown.code, Code::PropertyUnknown);
    assert!(unknown.title.contains("measure it") && unknown.help.unwrap().contains("titratable acid"));
    let strong = refused(
        "name = \"Strong\"\nmakes = \"1 L\"\n[target]\nabv = 60\nph = 3\n[parts]\n\"overproof rum 75.5 %\" = \"as needed\"\n\
         \"citric acid\" = \"as needed\"\nwater = \"as needed\"\n",
    );
    assert_eq!(strong.code, Code::PropertyUnknown, "{strong:?}");
    // Other targets that contradict each other are told as they are without a pH.
    let other = refused(&orange("ph = 2.5").replace("brix = 38", "brix = 2"));
    assert_eq!(other.code, Code::OutOfReach, "{other:?}");
}

#[test]
fn raising_the_ph_never_asks_for_more_acid() {
    let strategy = (2.0..3.5f64, 0.0..0.5f64, 30.0..55.0f64);
    runner(200)
        .run(&strategy, |(low, more, brix)| {
            let acid = |ph: f64| {
                let text = orange(&format!("ph = {ph}")).replace("brix = 38", &format!("brix = {brix}"));
                let (solved, found) = made_in(&House::default(), &text);
                // The highest pH that a sweet cordial reaches is that of the juice.
                solved.map(|s| grams(&s, "citric acid")).ok_or(found)
            };
            match (acid(low), acid(low + more)) {
                (Ok(sour), Ok(flat)) => prop_assert!(flat <= sour + 1e-6, "{flat} {sour}"),
                (_, Err(found)) => prop_assert!(found.iter().all(|d| d.code == Code::OutOfReach), "{found:?}"),
                (Err(found), _) => prop_assert!(false, "{found:?}"),
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn orange_to_lime_counts_the_volume_that_the_powder_adds() {
    // A juice of 0.8 % acid as weighed. Worked with 0.61 ml for each gram of powder, 33.2 g citric and 20.8 g malic
    // acid bring a litre of it to 6 % as weighed; the trade's 32 and 20 ignore the volume and land at 5.8 %.
    let mut found = Vec::new();
    let entries = house_file::read(
        "[ingredient.\"this orange juice\"]\nper_100g = { water = 89.2, sucrose = 10.0, citric = 0.77 }\n\
         [ingredient.\"pure citric\"]\nper_100g = { citric = 100.0 }\n[ingredient.\"pure malic\"]\nper_100g = { malic = 100.0 }\n",
        &"larder.toml".into(),
        &mut found,
    );
    let mut house = House::default();
    house.larder = house.larder.overlay(entries);
    // 6 % as weighed: what 33.2 and 20.8 g make, told as citric by the engine itself.
    let solved_for = |acid: f64| {
        let text = format!(
            "name = \"Lime-sour orange\"\n[target]\nacid = \"{acid} g/L\"\n[parts]\n\"this orange juice\" = \"1 L\"\n\
             \"pure citric\" = \"32 parts by weight\"\n\"pure malic\" = \"20 parts by weight\"\n"
        );
        let (solved, found) = made_in(&house, &text);
        solved.unwrap_or_else(|| panic!("{found:?}"))
    };
    let as_weighed = |s: &Solved| {
        let acids = stillroom::mixture::Component::ACIDS;
        1000.0 * s.bottled().grams_of_all(&acids) / stillroom::solver::target::volume_ml(s.bottled()).unwrap()
    };
    // Find the target that is 60 g/L as weighed, and look at the powder.
    let (mut low, mut high) = (50.0, 65.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if as_weighed(&solved_for(middle)) < 60.0 { low = middle } else { high = middle }
    }
    let solved = solved_for(low);
    let (citric, malic) = (grams(&solved, "pure citric"), grams(&solved, "pure malic"));
    println!("{citric} {malic} {low}");
    assert!((citric - 33.2).abs() < 0.3, "{citric}");
    assert!((malic - 20.8).abs() < 0.2, "{malic}");
}

#[test]
fn the_sheet_says_to_dose_and_taste() {
    let text = orange("acid = \"60 g/L\"");
    let (card, _) = card::read("card.toml".into(), text.as_str().into());
    let card = card.unwrap();
    let house = House::default();
    let sheet_of = |card: &card::Card| {
        let solved = solve(card, &house, &Options::default()).solved.unwrap();
        stillroom::report::solve::SolveView::new(
            card,
            &solved,
            &house,
            None,
            celsius(20.0),
            chrono::NaiveDate::default(),
        )
        .0
    };
    let sheet = sheet_of(&card);
    let labels: Vec<_> = sheet.dosing.iter().map(|d| d.of.as_str()).collect();
    assert_eq!(labels, ["citric acid", "malic acid"]);
    let juice_l = sheet.as_weighed.parts[0].volume_ml.unwrap() / 1000.0;
    assert_eq!(sheet.dosing[0].g_per_litre_of_juice, Some(sheet.dosing[0].mass_g / juice_l));
    assert!(
        stillroom::render::text::solve(
            &stillroom::report::Report::new(Some(sheet), &[], |_| None),
            crate::kitchen::FULL
        )
        .contains("dose 90 % of the acid (citric acid 3")
    );
    // Without a juice, and where the ratio fixes water as well, nothing waits for the tongue.
    let acid = "name = \"Acid\"\nmakes = \"1 L\"\n[parts]\n\"citric acid\" = \"4 parts by weight\"\n\
                \"malic acid\" = \"2 parts by weight\"\nwater = \"94 parts by weight\"\n";
    for text in [acid.to_owned(), format!("{acid}\"lime juice\" = \"40 parts by weight\"\n")] {
        let (card, _) = card::read("card.toml".into(), text.as_str().into());
        assert!(sheet_of(&card.unwrap()).dosing.is_empty());
    }
}
