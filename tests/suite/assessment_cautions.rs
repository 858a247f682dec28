//! What is taken for granted between a card and its cautions: readings, uncertainties, what is not stated.

use std::collections::BTreeSet;
use std::process::Command;

use crate::kitchen::{Kitchen, at, wednesday};
use stillroom::assessment::{self, Assessment, Which, batch, facts, product};
use stillroom::card::TargetKind;
use stillroom::diagnostic::{Code, Diagnostic};
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::{Caution, Fact, Level, Member};
use stillroom::shelf_life::Draws;
use stillroom::shelf_life::reason::Mark;
use stillroom::solver::Options;
use stillroom::vocabulary::{Process, StatedProcess, Tag, Word};

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n\
                     freezer = \"-18 °C\"\n";
const LARDER: &str = r#"
[ingredient."pure sucrose"]
per_100g = { sucrose = 100 }
allergens = []
[ingredient."pure spirit"]
abv = 96
allergens = []
[ingredient."olive oil"]
per_100g = { fat = 100 }
form = "liquid"
allergens = []
[ingredient."rosemary"]
per_100g = { insoluble = 100 }
allergens = []
[ingredient."our nut paste"]
per_100g = { fat = 50, insoluble = 50 }
aliases = ["hazelnut paste"]
allergens = []
[ingredient."mystery paste"]
per_100g = { fat = 50, insoluble = 50 }
[ingredient."potassium sorbate"]
per_100g = { insoluble = 100 }
allergens = []
[ingredient."praline syrup"]
brix = 60
allergens = []
[ingredient."cinchona syrup"]
brix = 60
allergens = []
[ingredient."preserving powder"]
per_100g = { insoluble = 100 }
tags = ["sorbate"]
allergens = []
"#;

fn kitchen() -> Kitchen {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn judged_in(kitchen: &Kitchen, card: &str, options: &Options, which: Which) -> (Assessment, Vec<Diagnostic>) {
    let made = kitchen.solve(card, options);
    assessment::assess(made.solved(), &made.house, wednesday(), which, Draws { draws: 200, ..Draws::default() })
}

fn judged(card: &str) -> (Assessment, Vec<Diagnostic>) {
    judged_in(&kitchen(), card, &Options::default(), Which::All)
}

fn facts_of(card: &str) -> stillroom::safety::Facts {
    let made = kitchen().solve(card, &Options::default());
    let solved = made.solved();
    let mut of = facts::from_parts(solved, &made.house);
    let batch = batch::judged_batch(solved, &made.house, None);
    let inputs = product::date_inputs(solved, &made.house, &batch, &of, &[]);
    facts::add_product(&mut of, solved, &made.house, &inputs, None);
    of.conclude();
    of
}

fn known(fact: Fact<f64>) -> f64 {
    match fact {
        Fact::Known(value) => value,
        other => panic!("{other:?}"),
    }
}

fn find<'a>(dated: &'a Assessment, code: &str) -> Option<&'a Caution> {
    dated.cautions.iter().find(|c| c.code == code)
}

fn syrup(brix: f64, more: &str) -> String {
    format!(
        "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = {brix}\n[parts]\n\"pure sucrose\" = \"as needed\"\nwater = \"as needed\"\n{more}\n"
    )
}

fn liqueur(abv: f64, more: &str) -> String {
    format!(
        "name = \"Liqueur\"\nmakes = \"1 L\"\nclass = \"liqueur\"\n[target]\nabv = {abv}\nsugar = \"250 g/L\"\n[parts]\n\"pure spirit\" = \
         \"as needed\"\n\"pure sucrose\" = \"as needed\"\nwater = \"as needed\"\n{more}\n"
    )
}

#[test]
fn a_reading_that_contradicts_the_card_is_said_and_the_less_favourable_counts() {
    let aw = |card: &str| known(facts_of(card).aw);
    // A thinner batch than the card makes has the water activity of the thinner batch; a richer one is not believed.
    let thin = aw(&syrup(65.0, "[measured]\nbrix = 50"));
    assert!((thin - aw(&syrup(50.0, ""))).abs() < 0.002 && thin > aw(&syrup(65.0, "")) + 0.03);
    assert!((aw(&syrup(50.0, "[measured]\nbrix = 65")) - aw(&syrup(50.0, ""))).abs() < 1e-9);
    let strength = |read: f64| known(facts_of(&liqueur(8.0, &format!("[measured]\nabv = {read}"))).abv);
    assert!(strength(22.0) < 8.0 && strength(5.0) < 5.0);
    for (card, says) in [
        (syrup(65.0, "[measured]\nbrix = 50"), Some("read 50.0 °Bx")),
        (syrup(65.0, "[measured]\nbrix = 65.1"), None),
        (liqueur(8.0, "[measured]\nabv = 22"), Some("read 22.0 % ABV")),
        (liqueur(8.0, "[measured]\nabv = 8.1"), None),
        (syrup(65.0, "[measured]\nacid = \"9 g/L\""), Some("read 9.0 g/L acid")),
    ] {
        let found = judged(&card).1;
        let said = found.iter().find(|d| d.code == Code::ReadingDiffers).map(|d| d.title.clone());
        assert_eq!(said.is_some(), says.is_some(), "{card}: {said:?}");
        assert!(said.unwrap_or_default().contains(says.unwrap_or_default()), "{card}");
    }
}

#[test]
fn a_reading_says_when_and_speaks_of_no_other_batch() {
    let sour = "name = \"Sour\"\nmakes = \"1 L\"\n[target]\nacid = \"6 g/L\"\n[parts]\n\"citric acid\" = \"as needed\"\n\"pure sucrose\" = \"300 g\"\n\
                water = \"as needed\"\n[measured]\nph = 3.2\non = 2026-11-25\n";
    let kitchen = kitchen();
    let of = |set: &[(TargetKind, f64)]| {
        judged_in(&kitchen, sour, &Options { set: set.to_vec(), ..Options::default() }, Which::All).0.readings
    };
    assert_eq!(of(&[]).as_deref(), Some("as read on 2026-11-25: pH 3.20"));
    assert_eq!(of(&[(TargetKind::Acid, 1.0)]), None);
}

#[test]
fn strength_counts_at_the_lower_end_of_its_doubt() {
    let facts = facts_of(&liqueur(20.0, ""));
    assert!(known(facts.abv) < 20.0 && known(facts.abv) > 19.0);
}

#[test]
fn hot_spirit_is_judged_by_what_burns() {
    let stop = |head: &str, parts: &str, rest: &str| {
        let (dated, _) = judged(&format!("name = \"Hot\"\n{head}\n[parts]\n{parts}\n{rest}\n"));
        find(&dated, "hot_spirit").map(Caution::is_certain)
    };
    // 8 % vol of a rich syrup, 15 % of its water: the vapour does not know of the sugar.
    let sweet = "\"pure spirit\" = \"60 g\"\n\"pure sucrose\" = \"600 g\"\nwater = \"400 g\"";
    assert_eq!(stop("heated = \"70 °C\"", sweet, ""), Some(true));
    assert_eq!(stop("", sweet, "[loss]\nevaporated = \"10 %\""), Some(false));
    assert_eq!(stop("", sweet, ""), None);
    // One stage that is surely heated beside one that may be.
    let two = "[[stage]]\nname = \"first\"\nparts = { \"pure spirit\" = \"200 g\", water = \"200 g\" }\nloss = { evaporated = \"5 %\" }\n\
               [[stage]]\nname = \"second\"\nheated = \"60 °C\"\nparts = { \"pure spirit\" = \"200 g\", water = \"200 g\" }";
    assert_eq!(stop(two, "first = \"100 g\"\nsecond = \"100 g\"", ""), Some(true));
}

#[test]
fn every_process_of_a_trigger_can_be_stated_on_a_card() {
    let mut reached: BTreeSet<Process> = BTreeSet::new();
    for head in StatedProcess::words().map(|p| format!("process = [\"{p}\"]")).chain(["heated = \"95 °C\"".to_owned()])
    {
        let keep = "[keep]\nfill = \"hot\"\nclosed = true\nin = \"glass\"";
        let card = format!("{head}\n{}", syrup(50.0, keep));
        let facts = facts_of(&card);
        assert!(head.starts_with("heated") || facts.process.present.len() > 3, "{head}: {:?}", facts.process.present);
        reached.extend(facts.process.present);
    }
    let infused = "name = \"Tincture\"\n[parts]\nclove = { amount = \"5 g\", strained = true }\n\"pure spirit\" = \"300 g\"\n\
                   \"citric acid\" = \"1 g\"\n";
    reached.extend(facts_of(infused).process.present);
    let kept = format!("steps = [\"Keep in the larder.\"]\n{}", syrup(50.0, ""));
    reached.extend(facts_of(&kept).process.present);
    reached.extend(facts_of(&syrup(50.0, "[keep]\nin = \"plastic\"\nfill = \"hot\"\n")).process.present);
    // Judged stage by stage, see above.
    reached.insert(Process::Heat);
    let process = |member| match member {
        Member::Process(process) => Some(process),
        _ => None,
    };
    let asked: BTreeSet<Process> =
        catalogue().rules.iter().flat_map(|r| r.condition.members()).filter_map(process).collect();
    assert!(asked.is_subset(&reached), "{:?}", asked.difference(&reached).collect::<Vec<_>>());
}

#[test]
fn what_a_card_says_was_done_is_cautioned() {
    for (done, code, level) in [
        ("fermented", "gas_burst", Level::Stop),
        ("distilled", "distil", Level::Stop),
        ("pressure infusion", "siphon", Level::Warn),
        ("carbonated", "carbonated", Level::Warn),
    ] {
        let keep = "[measured]\nph = 3\n[keep]\nclosed = true\nin = \"glass\"";
        let (dated, _) = judged(&format!("process = [\"{done}\"]\n{}", syrup(50.0, keep)));
        let caution = find(&dated, code).unwrap_or_else(|| panic!("{done}"));
        assert!(caution.severity == level && caution.is_certain(), "{done}");
    }
}

#[test]
fn solve_and_date_carry_the_same_cautions_of_an_inner_card() {
    let kitchen = kitchen();
    let inner = "name = \"Low acid\"\n[parts]\n\"pure sucrose\" = \"500 g\"\nwater = \"500 g\"\n[measured]\nph = 6\n\
                 [keep]\nstore = \"back bar\"\nclosed = true\nin = \"plastic\"\n";
    kitchen.write("inner.toml", inner);
    for store in ["fridge", "back bar", "freezer"] {
        let outer = format!(
            "name = \"Outer\"\n[parts]\n\"Low acid\" = \"100 g\"\nwater = \"100 g\"\n[keep]\nstore = \"{store}\"\n"
        );
        let of = |which| -> BTreeSet<String> {
            let dated = judged_in(&kitchen, &outer, &Options::default(), which).0;
            dated.cautions.iter().map(ToString::to_string).collect()
        };
        let (all, planned) = (of(Which::All), of(Which::Planned));
        assert_eq!(all, planned, "{store}");
        assert!(planned.iter().any(|c| c.contains("Low acid") && c.contains("botulism")), "{store}: {planned:?}");
    }
}

#[test]
fn allergens_that_nobody_stated_may_be_any() {
    let of = |part: &str| {
        judged(&format!("name = \"Paste\"\n[parts]\n\"{part}\" = \"100 g\"\n\"pure spirit\" = \"500 g\"\n")).0
    };
    let mystery = of("mystery paste");
    assert_eq!(mystery.allergens_open, ["mystery paste"]);
    assert!(find(&mystery, "allergen").is_some_and(|c| !c.is_certain()));
    // Other names speak too, and an empty list means that there are none.
    assert_eq!(of("our nut paste").allergens, ["tree_nuts (hazelnut)"]);
    let stated = of("olive oil");
    assert!(stated.allergens_open.is_empty() && find(&stated, "allergen").is_none());
}

#[test]
fn a_preservative_of_no_name_counts_as_the_acid_itself() {
    let sorbic = |part: &str| {
        known(facts_of(&format!("name = \"Kept\"\n[parts]\n\"{part}\" = \"1 g\"\nwater = \"999 g\"\n")).sorbic_mg_kg)
    };
    assert!((sorbic("preserving powder") - 1000.0).abs() < 1e-6);
    // molar masses 112.13 and 150.22
    assert!((sorbic("potassium sorbate") - 746.4).abs() < 0.5);
}

#[test]
fn starch_is_found_by_any_name() {
    for label in ["cornflour slurry", "arrowroot", "tapioca pearls", "rice"] {
        let card = format!(
            "name = \"Thick\"\n[parts]\n\"{label}\" = {{ of = \"pure sucrose\", amount = \"20 g\" }}\nwater = \"900 g\"\n"
        );
        assert!(facts_of(&card).tags.has(Tag::Starch), "{label}");
    }
    assert!(!facts_of("name = \"Sour\"\n[parts]\n\"rice vinegar\" = { of = \"cider vinegar\", amount = \"20 g\" }\nwater = \"900 g\"\n").tags.has(Tag::Starch));
}

#[test]
fn a_vessel_larger_than_a_kitchens_is_still_a_large_vessel() {
    let (dated, _) = judged(&liqueur(40.0, "").replace("1 L", "120 L"));
    assert!(find(&dated, "spirit_store").is_some());
}

#[test]
fn sulphites_of_unknown_amount_show() {
    let (dated, _) = judged("name = \"Shrub\"\n[parts]\n\"cider vinegar\" = \"300 g\"\n\"pure sucrose\" = \"300 g\"\n");
    assert!(find(&dated, "sulphite").is_some_and(|c| !c.is_certain() && c.severity == Level::Warn));
}

#[test]
fn a_strong_infusion_of_a_plant_and_a_little_oil_is_no_oil_infusion() {
    let card = |spirit: u32| {
        format!(
            "name = \"Oil\"\n[parts]\n\"olive oil\" = \"20 g\"\nrosemary = {{ amount = \"20 g\", strained = true, holds = 1 }}\n\
                 \"pure spirit\" = \"{spirit} g\"\nwater = \"300 g\"\n"
        )
    };
    assert!(find(&judged(&card(300)).0, "oil_infusion").is_none());
    assert!(find(&judged(&card(10)).0, "oil_infusion").is_some());
}

#[test]
fn a_store_where_a_date_is_refused_is_not_kept_for_no_days() {
    let (dated, _) = judged(&liqueur(8.0, ""));
    let bar = at(&dated, "back bar");
    assert!(bar.days.is_none() && bar.cautions.iter().any(|c| c.code == "low_alcohol"));
}

#[test]
fn a_dry_product_is_not_asked_for_its_ph() {
    let dry = judged("name = \"Rim\"\n[parts]\nsalt = \"100 g\"\n\"pure sucrose\" = \"100 g\"\n").0;
    assert!(dry.cautions.iter().all(|c| !c.not_stated.iter().any(|n| n.contains("the pH"))), "{:?}", dry.cautions);
    let strong = judged(&liqueur(40.0, "")).0;
    assert!(find(&strong, "hot_fill").is_none());
}

#[test]
fn a_store_nearly_spelt_is_offered() {
    let found = judged(&syrup(50.0, "[keep]\nstore = \"frdge\"")).1;
    assert!(found[0].fix.is_some() && found[0].title.contains("no store `frdge`"), "{found:?}");
}

#[test]
fn what_may_apply_does_not_read_as_an_order() {
    let kitchen = kitchen();
    let file = kitchen
        .write("card.toml", "name = \"Shrub\"\n[parts]\nwater = \"300 g\"\n\"white sugar\" = \"300 g\"\ncinnamon = { amount = \"10 g\", strained = true }\n");
    let say = |verb: &str, more: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_stillroom"))
            .args([verb, "--made", "2026-11-25"])
            .arg(&file)
            .args(more)
            .output()
            .unwrap();
        (String::from_utf8(out.stdout).unwrap(), out.status.code())
    };
    let (date, code) = say("date", &[]);
    assert_eq!(code, Some(0));
    assert!(!date.contains("may apply") && date.contains("  ? how much is served"), "{date}");
    let (date, _) = say("date", &["--full"]);
    let (sure, open) = date.split_once("Not stated\n").unwrap();
    assert!(!sure.contains("warn  may apply") && sure.contains("fridge"), "{sure}");
    assert!(open.contains("- how much is served"), "{open}");
    let (solve, _) = say("solve", &[]);
    assert!(solve.contains("  ? how much is served") && !solve.contains("! may apply"), "{solve}");
    let (nowhere, code) = say("date", &["--store", "garage"]);
    assert!(!nowhere.contains("use by") && code != Some(0), "{nowhere}");
}

#[test]
fn a_swap_says_what_dangers_come_in() {
    let kitchen = kitchen();
    let file = kitchen.write("card.toml", &syrup(30.0, ""));
    let swap = |new: &str| {
        let out = Command::new(env!("CARGO_BIN_EXE_stillroom"))
            .args(["swap", "--json", "--old", "pure sucrose", "--new", new])
            .arg(&file)
            .output()
            .unwrap();
        let told: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        let codes = told["diagnostics"].as_array().unwrap().iter().filter_map(|d| d["code"].as_str());
        codes.map(str::to_owned).collect::<Vec<_>>()
    };
    let has = |codes: &[String], code: &str| codes.iter().any(|c| c == code);
    let nuts = swap("praline syrup");
    assert!(has(&nuts, "allergen-added") && !has(&nuts, "stop-added"), "{nuts:?}");
    let bark = swap("cinchona syrup");
    assert!(has(&bark, "stop-added") && !has(&bark, "allergen-added"), "{bark:?}");
}

#[test]
fn a_juice_that_was_only_warmed_stays_raw() {
    let raw = |head: &str| {
        let card = format!("name = \"Juice\"\n{head}\n[parts]\n\"apple juice\" = \"900 g\"\n[measured]\nph = 3.4\n");
        find(&judged(&card).0, "raw_juice").is_some()
    };
    assert!(raw("") && raw("heated = \"45 °C for 1 min\"") && raw("heated = \"95 °C\""));
    assert!(!raw("heated = \"85 °C for 5 min\""));
}

/// A card, its house's planned store, and what comes of it.
type Row = (&'static str, &'static str, &'static [&'static str], bool, Mark);

#[rustfmt::skip]
const TABLE: &[Row] = &[
    ("\"pure sucrose\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"5 g\"\n[keep]\nfill = \"cold\"\nclosed = false\nstore = \"fridge\"", "", &[], false, Mark::BestBefore),
    ("\"pure sucrose\" = \"500 g\"\nwater = \"500 g\"\n[measured]\nph = 6\nph_by = \"meter\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"plastic\"\nstore = \"back bar\"", "", &["sealed_low_acid", "tcs_pa"], true, Mark::None),
    ("\"pure spirit\" = \"300 g\"\nwater = \"300 g\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\nstore = \"back bar\"", "class = \"infused spirit\"", &[], false, Mark::BestBefore),
];

#[test]
fn a_card_in_its_house() {
    for (parts, head, codes, stopped, mark) in TABLE {
        let (dated, _) = judged(&format!("name = \"Row\"\n{head}\n[parts]\n{parts}\n"));
        let certain = dated.cautions.iter().filter(|c| c.is_certain() && c.severity < Level::Note);
        assert_eq!(certain.map(|c| c.code).collect::<Vec<_>>(), *codes, "{parts}");
        assert_eq!((dated.stopped(), dated.stores[dated.planned].mark), (*stopped, *mark), "{parts}");
    }
}

/// Tonic water that the house has with a price and a label of its own is bought as any is: no more quinine than its maker may put
/// in (21 CFR 172.575).
#[test]
fn a_bought_tonic_is_no_quinine_of_unknown_strength() {
    let kitchen = Kitchen::new("[ingredient.\"tonic water\"]\nlike = \"tonic water\"\nallergens = []\n");
    let card = "name = \"x\"\n[parts]\ngin = \"50 ml\"\n\"tonic water\" = \"150 ml\"\n";
    let dated = judged_in(&kitchen, card, &Options::default(), Which::All).0;
    assert!(find(&dated, "quinine_over").is_none() && find(&dated, "cinchona").is_none(), "{:?}", dated.cautions);
}

#[test]
fn what_is_weighed_of_a_salt_gives_its_dose() {
    let larder = "[ingredient.\"quinine sulphate\"]\nper_100g = { insoluble = 100 }\nallergens = []\n\
                  [ingredient.\"quinine sulphate solution\"]\nper_100g = { water = 99, insoluble = 1 }\nallergens = []\n\
                  [ingredient.\"potassium metabisulphite\"]\nper_100g = { insoluble = 100 }\nallergens = []\n";
    let kitchen = Kitchen::new(larder);
    let dated = |part: &str| {
        let card =
            format!("name = \"x\"\n[parts]\n\"white sugar\" = \"400 g\"\n{part} = \"0.2 g\"\nwater = \"599.8 g\"\n");
        judged_in(&kitchen, &card, &Options::default(), Which::All).0
    };
    // By the molar masses: quinine 324.42, the sulphate 782.94 g/mol with two of it; and 57.63 % of SO2.
    let strong = dated("\"quinine sulphate\"");
    let over = find(&strong, "quinine_over").unwrap();
    assert!(over.is_certain() && over.figures == ["166 mg/kg of quinine"], "{over:?}");
    let limit = strong.hazards.iter().find(|limit| limit.id == "quinine").unwrap();
    assert!((limit.dose.unwrap() - 200.0 * 2.0 * 324.42 / 782.94).abs() < 0.1, "{limit:?}");
    // Of a solution nobody said how strong it is.
    assert!(!find(&dated("\"quinine sulphate solution\""), "quinine_over").unwrap().is_certain());
    let preserved = dated("\"potassium metabisulphite\"");
    let sulphite = find(&preserved, "sulphite").unwrap();
    assert!(
        sulphite.is_certain() && sulphite.figures == ["115 mg/kg of sulphur dioxide was weighed in"],
        "{sulphite:?}"
    );
    // A little of it beside what the card calls a wine: how much the wine brings, nobody said.
    let little = |other: &str| {
        let card = format!(
            "name = \"x\"\n[parts]\n\"white sugar\" = \"400 g\"\n\"potassium metabisulphite\" = \"0.01 g\"\n{other}\nwater = \"500 g\"\n"
        );
        judged_in(&kitchen, &card, &Options::default(), Which::All).0
    };
    assert!(find(&little("\"more water\" = { of = \"water\", amount = \"100 g\" }"), "sulphite").is_none());
    assert!(find(&little("\"white wine\" = { of = \"water\", amount = \"100 g\" }"), "sulphite").is_some());
}
