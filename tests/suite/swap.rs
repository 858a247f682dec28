//! Swapping a part: story numbers, round trips, and what is refused.

use proptest::prelude::*;
use stillroom::assessment::swapped::{SwapJudgement, compare};
use stillroom::card::{self, TargetKind};
use stillroom::diagnostic::{Code, Diagnostic, Severity, any_error};
use stillroom::house::House;
use stillroom::larder::house_file;
use stillroom::properties::{amount_for, value_of};
use stillroom::solver::Solved;
use stillroom::solver::swap::{KEPT, Swapped, swap};
use stillroom::solver::target::volume_ml;

use crate::generated::runner;
use crate::kitchen::{Folder, card, run_in};

/// Honey at 82 °Bx, and two rums by their labels.
const LARDER: &str = "[ingredient.\"honey 82\"]\nlike = \"honey\"\nbrix = 82\nallergens = [\"sulphites\"]\n\
    [ingredient.\"rum 63\"]\nabv = 63\n[ingredient.\"rum 57\"]\nabv = 57\n\
    [ingredient.\"syrup 1:1\"]\nbrix = 50\n[ingredient.\"syrup 2:1\"]\nbrix = 66.7\n";

fn house() -> House {
    let mut found = Vec::new();
    let entries = house_file::read(LARDER, &"larder.toml".into(), &mut found);
    assert!(!any_error(&found), "{found:?}");
    let mut house = House::default();
    house.larder = house.larder.overlay(entries);
    house
}

fn swapped(text: &str, old: &str, new: &str) -> (Swapped, Vec<Diagnostic>) {
    let (swapped, found) = swap(&card(text), &house(), old, new);
    (swapped.unwrap_or_else(|| panic!("{found:?}")), found)
}

fn refused(text: &str, old: &str, new: &str) -> Diagnostic {
    let (swapped, found) = swap(&card(text), &house(), old, new);
    assert!(swapped.is_none());
    found.into_iter().find(|d| d.severity == Severity::Error).unwrap()
}

fn grams(solved: &Solved, name: &str) -> f64 {
    solved.stages.iter().flat_map(|s| &s.parts).filter(|p| p.label == name).map(|p| p.mass_g).sum()
}

/// The same card with the masses of a solved one written in, so that it can be swapped back.
fn written(solved: &Solved) -> String {
    let mut text = format!("name = \"{}, again\"\n", solved.name);
    let part = |p: &stillroom::solver::SolvedPart| {
        let strained = p.feed.holds.map_or_else(String::new, |h| format!(", strained = true, holds = {h}"));
        format!("{:?} = {{ amount = \"{:.9} g\"{strained} }}\n", p.label, p.mass_g)
    };
    for stage in &solved.stages {
        match &stage.name {
            Some(name) => {
                text.push_str(&format!("[[stage]]\nname = {name:?}\n[stage.parts]\n"));
                text.extend(stage.parts.iter().map(part));
                text.push_str(&format!("[stage.loss]\nleft_behind = \"{} %\"\n", 100.0 * stage.lost.left_behind));
            }
            None => {
                text.push_str("[parts]\n");
                text.extend(stage.parts.iter().map(part));
                text.push_str(&format!(
                    "[loss]\nevaporated = \"{} %\"\nleft_behind = \"{} %\"\n",
                    100.0 * stage.lost.evaporated,
                    100.0 * stage.lost.left_behind
                ));
            }
        }
    }
    text
}

const SYRUP: &str = "name = \"Syrup\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n\
    [loss]\nevaporated = \"2 %\"\nleft_behind = \"1 %\"\n";

const LIQUEUR: &str = "name = \"Liqueur\"\nmakes = \"3 L\"\n[target]\nabv = 18\nsugar = \"250 g/L\"\nacid = \"4 g/L\"\n\
    [[stage]]\nname = \"maceration\"\n[stage.parts]\n\"rum 63\" = \"1 L\"\n\
    clove = { amount = \"12 g\", strained = true, holds = 1.2 }\n\
    [parts]\nmaceration = \"as needed\"\n\"white sugar\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n";

#[test]
fn honey_in_place_of_sugar_keeps_the_sugar() {
    let (s, found) = swapped(SYRUP, "white sugar", "honey 82");
    // By hand: the sugar in a gram of each decides the mass.
    let house = house();
    let sugar = |name: &str| house.larder.find(name).unwrap().per_gram.sugar_grams();
    let by_hand = grams(&s.before, "white sugar") * sugar("white sugar") / sugar("honey 82");
    assert!((grams(&s.after, "honey 82") / by_hand - 1.0).abs() < 1e-9);
    let (before, after) = (s.before.bottled(), s.after.bottled());
    assert!((after.sugar_grams() / before.sugar_grams() - 1.0).abs() < 1e-9);
    assert!((volume_ml(after).unwrap() / volume_ml(before).unwrap() - 1.0).abs() < 1e-9);
    // The water that honey brings is not poured in again.
    assert!(grams(&s.after, "water") < grams(&s.before, "water"));
    let judged = compare(&s.before, &s.after, &house).findings("honey 82");
    let warned = judged.iter().find(|d| d.code == Code::AllergenAdded).unwrap();
    assert!(warned.title.contains("sulphites"));
    assert!(found.iter().any(|d| d.title.contains("flavour, colour and texture are not kept")));
    assert!(found.iter().any(|d| d.title.starts_with("not kept: ") && d.title.contains("°Bx becomes")));
}

#[test]
fn the_way_back_gives_the_card_as_it_was() {
    let cordial = "name = \"Cordial\"\nmakes = \"1 L\"\n[target]\nbrix = 46\nacid = \"30 g/L\"\n[parts]\n\"lime juice\" = \"350 ml\"\n\
        \"white sugar\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n";
    let sour = "name = \"Sour\"\nmakes = \"1 L\"\n[target]\nbrix = 20\nsugar = \"200 g/L\"\n[parts]\n\"syrup 1:1\" = \"as needed\"\n\
        \"lime juice\" = \"200 g\"\nwater = \"as needed\"\n";
    for (text, old, new) in [
        (SYRUP, "white sugar", "honey 82"),
        (LIQUEUR, "rum 63", "rum 57"),
        (LIQUEUR, "white sugar", "honey 82"),
        (LIQUEUR, "white sugar", "syrup 2:1"),
        (cordial, "citric acid", "lemon juice"),
        (cordial, "citric acid", "malic acid"),
        (&sour.replace("brix = 20\n", ""), "syrup 1:1", "syrup 2:1"),
    ] {
        let (there, _) = swapped(text, old, new);
        let (back, _) = swapped(&written(&there.after), new, old);
        for (stage, again) in there.before.stages.iter().zip(&back.after.stages) {
            for (was, is) in stage.parts.iter().zip(&again.parts) {
                assert_eq!(was.label, is.label);
                assert!(
                    (is.mass_g / was.mass_g - 1.0).abs() < 1e-3,
                    "{old}/{new}: {} {} {}",
                    was.label,
                    was.mass_g,
                    is.mass_g
                );
            }
        }
    }
}

#[test]
fn a_weaker_rum_goes_into_the_stage_where_it_is_used() {
    let (s, _) = swapped(LIQUEUR, "rum 63", "rum 57");
    for kind in KEPT {
        let (was, is) = (value_of(kind, s.before.bottled()).unwrap(), value_of(kind, s.after.bottled()).unwrap());
        assert!((is / was - 1.0).abs() < 1e-9, "{kind:?} {was} {is}");
    }
    assert!((volume_ml(s.after.bottled()).unwrap() - 3000.0).abs() < 1e-6);
    // Alcohol that goes in: the same, but for the little less that weaker rum leaves in the clove.
    let alcohol = |s: &Solved, name: &str| {
        let part = s.stages[0].parts.iter().find(|p| p.label == name).unwrap();
        amount_for(TargetKind::Abv, &part.found.per_gram) * part.mass_g
    };
    let ratio = alcohol(&s.after, "rum 57") / alcohol(&s.before, "rum 63");
    assert!(ratio < 1.0 && ratio > 0.995, "{ratio}");
    assert!((grams(&s.after, "clove") / grams(&s.before, "clove") - 1.0).abs() < 0.01);
    assert!(grams(&s.after, "water") < grams(&s.before, "water"));
}

#[test]
fn what_else_the_new_part_brings_is_made_good() {
    let cordial = "name = \"Cordial\"\nmakes = \"1 L\"\n[target]\nbrix = 30\nacid = \"10 g/L\"\n[parts]\n\
        \"white sugar\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n";
    let (s, _) = swapped(cordial, "citric acid", "lemon juice");
    assert_eq!(s.kept, [TargetKind::Acid, TargetKind::Sugar]);
    assert!(grams(&s.after, "white sugar") < grams(&s.before, "white sugar"));
    for kind in [TargetKind::Sugar, TargetKind::Acid] {
        let of = |s: &Solved| value_of(kind, s.bottled()).unwrap();
        assert!((of(&s.after) / of(&s.before) - 1.0).abs() < 1e-9);
    }
}

#[test]
fn water_cannot_go_below_none() {
    let rich = "name = \"Rich\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
    let thin = refused(rich, "white sugar", "syrup 1:1");
    assert_eq!(thin.code, Code::OutOfReach);
    assert!(thin.title.contains("less than no `water`"), "{}", thin.title);
    // The limit that it names: that much of the sugar as a syrup uses up the water to the drop.
    let help = thin.help.unwrap();
    let words: Vec<&str> = help.split_whitespace().collect();
    let limit: f64 = words[words.iter().position(|w| *w == "most").unwrap() + 1].parse().unwrap();
    let (card, _) = card::read("card.toml".into(), rich.into());
    let solved =
        stillroom::solver::solve(&card.unwrap(), &house(), &stillroom::solver::Options::default()).solved.unwrap();
    // A gram of sugar as 50 °Bx syrup brings 0.998 g of water (the sugar of the larder is 99.8 % sucrose): as much of
    // that as there is water can go.
    assert!((limit - grams(&solved, "water") / 0.998).abs() < 2.0, "{help}");
}

#[test]
fn what_cannot_be_swapped_is_told() {
    for (old, new, code) in [
        ("brown sugar", "honey 82", Code::UnknownIngredient),
        ("white sugar", "hony 82", Code::UnknownIngredient),
        ("clove", "cinnamon", Code::BadArgument),
        ("water", "honey 82", Code::BadArgument),
        ("white sugar", "water", Code::OutOfReach),
        ("white sugar", "rum 57", Code::OutOfReach),
        ("", "", Code::UnknownIngredient),
    ] {
        let why = refused(LIQUEUR, old, new);
        assert_eq!(why.code, code, "{old} {new}: {why:?}");
        assert!(why.help.is_some(), "{why:?}");
    }
}

#[test]
fn a_swap_keeps_what_it_says_and_comes_back() {
    let sugars = ["white sugar", "honey 82", "maple syrup", "syrup 2:1", "agave syrup", "fructose"];
    let strategy = (0..sugars.len(), 0..sugars.len(), 20.0..40.0f64, 0.0..12.0f64);
    let house = house();
    runner(400)
        .run(&strategy, |(old, new, brix, abv)| {
            prop_assume!(old != new);
            let (old, new) = (sugars[old], sugars[new]);
            let text = format!(
                "name = \"Any\"\nmakes = \"1 L\"\n[target]\nbrix = {brix}\nabv = {abv}\n[parts]\n{old:?} = \"as needed\"\n\
                 \"rum 63\" = \"as needed\"\nwater = \"as needed\"\n"
            );
            let (there, found) = swap(&card(&text), &house, old, new);
            let Some(there) = there else { return Err(TestCaseError::fail(format!("{found:?}"))) };
            for &kind in &there.kept {
                let of = |s: &Solved| value_of(kind, s.bottled()).unwrap();
                prop_assert!((of(&there.after) / of(&there.before) - 1.0).abs() < 1e-9);
            }
            let (back, found) = swap(&card(&written(&there.after)), &house, new, old);
            let Some(back) = back else { return Err(TestCaseError::fail(format!("{found:?}"))) };
            for name in [old, "rum 63", "water"] {
                let (was, is) = (grams(&there.before, name), grams(&back.after, name));
                prop_assert!((was - is).abs() <= 1e-3 * was + 1e-6, "{name} {was} {is}");
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn the_command_prints_old_and_new_and_answers_programs() {
    let folder = Folder::new().with("syrup.toml", SYRUP);
    let run = |more: &[&str]| {
        let (code, page, _) = run_in(&folder.0, &[&["swap", "syrup.toml"], more].concat());
        (code, page)
    };
    let (code, out) = run(&["--old", "white sugar", "--new", "honey", "--json"]);
    assert_eq!(code, Some(0));
    let json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(json["parts"][0]["of"], "honey");
    assert_eq!(json["before"]["parts"][0]["of"], "white sugar");
    assert!(json["properties"]["brix"].is_number() && json["yield"]["volume_ml"].is_number());
    let (code, text) = run(&["--old", "white sugar", "--new", "honey"]);
    assert_eq!(code, Some(0));
    assert!(text.contains("g, old") && text.contains("honey in place of white sugar"), "{text}");
    assert_eq!(run(&["--old", "white sugar", "--new", "nothing of that name"]).0, Some(1));
}

#[test]
fn a_card_without_water_has_none_to_give_up() {
    let text = "name = \"Dry\"\nmakes = \"1 kg\"\n[parts]\n\"white sugar\" = \"300 g\"\n\"rum 63\" = \"700 g\"\n";
    let why = refused(text, "white sugar", "honey 82");
    assert!(why.help.as_ref().unwrap().contains("this card has no water to give up"), "{why:?}");
    assert!(!why.help.unwrap().contains("at most"));
}

/// What the judgement of a swap is, in a house with these entries in its larder.
fn judged(entries: &str, text: &str, old: &str, new: &str) -> (SwapJudgement, Vec<Diagnostic>) {
    let mut found = Vec::new();
    let mut house = House::default();
    house.larder = house.larder.overlay(house_file::read(entries, &"larder.toml".into(), &mut found));
    let (swapped, found) = swap(&card(text), &house, old, new);
    let swapped = swapped.unwrap_or_else(|| panic!("{found:?}"));
    let judged = compare(&swapped.before, &swapped.after, &house);
    let said = judged.findings(new);
    (judged, said)
}

#[test]
fn what_nobody_stated_of_the_new_part_is_said() {
    let kitchen = "[ingredient.\"one rum\"]\nabv = 63\nallergens = []\n[ingredient.\"other rum\"]\nabv = 57\n";
    let text = "name = \"x\"\nmakes = \"1 L\"\n[target]\nabv = 20\n[parts]\n\"one rum\" = \"as needed\"\nwater = \"as needed\"\n";
    let (judged, said) = judged(kitchen, text, "one rum", "other rum");
    assert_eq!(judged.not_stated, ["other rum"]);
    assert!(said.iter().any(|d| d.code == Code::AllergenAdded && d.title.contains("nobody has stated")), "{said:?}");
}

#[test]
fn what_is_warned_of_is_what_programs_are_told() {
    // The larder states no allergen: the name alone tells of the almond, and of the barley that goes.
    let kitchen = "[ingredient.\"almond syrup\"]\nbrix = 60\nallergens = []\n\
                   [ingredient.\"barley syrup\"]\nbrix = 60\nallergens = []\n";
    let text = "name = \"x\"\nmakes = \"1 L\"\n[target]\nbrix = 40\n[parts]\n\"barley syrup\" = \"as needed\"\nwater = \"as needed\"\n";
    let (judged, said) = judged(kitchen, text, "barley syrup", "almond syrup");
    assert_eq!(judged.added, ["tree_nuts (almond)"]);
    assert_eq!(judged.lost, ["gluten_cereals (barley)"]);
    let warned: Vec<&str> = said.iter().filter(|d| d.code == Code::AllergenAdded).map(|d| d.title.as_str()).collect();
    assert_eq!(warned, ["`almond syrup` brings an allergen that was not there: tree nuts (almond)"]);
}
