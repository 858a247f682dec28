//! Dates of cards, as a maker writes them: text, house, solver, date. The numbers are those of the worked dates
//! (`reference/dates-worked.csv`), with the bounds that stand there for other draws.

use std::process::Command;

use crate::kitchen::{Kitchen, Made, at, wednesday};
use stillroom::assessment::{self, Assessment, DatedStore, Lot, Which};
use stillroom::safety::Market;
use stillroom::shelf_life::Draws;
use stillroom::shelf_life::calendar::Frozen;
use stillroom::shelf_life::reason::Mark;
use stillroom::shelf_life::screen::{ScreenClass, ScreenTable};
use stillroom::solver::Options;

const HOUSE: &str = r#"
[instruments]
scale = "0.1 g up to 5 kg"
[stores]
fridge = "5 °C"
cold = "4 °C"
room = "20 °C"
"back bar" = "21 °C"
freezer = "-18 °C"
"#;
const LARDER: &str = r#"
[ingredient."pure sucrose"]
per_100g = { sucrose = 100 }
[ingredient."pure spirit"]
abv = 96
"#;

fn kitchen() -> Kitchen {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn made(card: &str) -> Made {
    let made = kitchen().solve(card, &Options::default());
    assert!(made.solved.is_some(), "{}", made.plain());
    made
}

fn date(card: &str) -> Assessment {
    made(card).dated(Draws::default().draws)
}

/// White sugar and water, with what else the card says above its headings and in its own.
fn syrup(brix: f64, class: &str, head: &str, more: &str) -> String {
    format!(
        "name = \"Syrup\"\nmakes = \"1 L\"\nclass = \"{class}\"\n{head}\n[target]\nbrix = {brix}\n[parts]\n\"pure sucrose\" = \
         \"as needed\"\nwater = \"as needed\"\n{more}\n"
    )
}

const LIQUEUR: &str = r#"
name = "Liqueur"
makes = "1 L"
class = "liqueur"
[target]
abv = 18
sugar = "250 g/L"
[parts]
"pure spirit" = "as needed"
"pure sucrose" = "as needed"
water = "as needed"
[keep]
store = "room"
"#;

const ALMOND: &str = r#"
name = "Almond syrup"
makes = "1 L"
class = "nut syrup"
[[stage]]
name = "almond milk"
takes = "12 h"
at = "4 °C"
[stage.parts]
"blanched almonds" = { amount = "250 g", strained = true, holds = 0.9 }
water = "1 kg"
[target]
brix = 50
[parts]
"almond milk" = "as needed"
"pure sucrose" = "as needed"
"#;

const LIME: &str = "name = \"Lime\"\nmakes = \"1 L\"\nclass = \"juice\"\n[parts]\n\"lime juice\" = \"as needed\"\n";

#[track_caller]
/// The rule that decided, in words.
fn words(store: &DatedStore) -> String {
    store.decided_by.as_ref().map(ToString::to_string).unwrap_or_default()
}

fn decided(dated: &Assessment, store: &str, days: u32, by: &str) {
    let s = at(dated, store);
    assert_eq!((s.days, &s.refused), (Some(days), &Vec::new()), "{store}: {:?}", s.decided_by);
    assert!(words(s).starts_with(by), "{:?}", s.decided_by);
}

#[track_caller]
fn refused(dated: &Assessment, store: &str, why: &str) {
    let s = at(dated, store);
    assert_eq!((s.days, s.date, s.mark, &s.decided_by), (None, None, Mark::None, &None), "{store}");
    assert!(s.refused.iter().any(|r| r.to_string().contains(why)), "{:?}", s.refused);
}

#[test]
fn a_rich_syrup_tires_in_the_cold_and_ferments_in_the_warm() {
    // row d34
    let dated = date(&syrup(65.1, "rich syrup", "heated = \"80 °C\"", ""));
    assert_eq!((dated.hurdles.table, dated.hurdles.by_table), (ScreenTable::B, ScreenClass::NonTcs));
    decided(&dated, "cold", 180, "a syrup tires");
    let bar = at(&dated, "back bar");
    assert!((7..=12).contains(&bar.days.unwrap()), "{:?}", bar.days);
    assert!(words(bar).contains("1 of 10 of all lots"), "{}", words(bar));
}

#[test]
fn b_plain_syrup_by_the_food_code() {
    // row d29
    let dated = date(&syrup(50.0, "plain syrup", "", ""));
    decided(&dated, "fridge", 7, "its pH is not known");
    // Wednesday is day 1: the seventh is Tuesday.
    assert_eq!(at(&dated, "fridge").date.unwrap().to_string(), "2026-12-01");
    refused(&dated, "room", "keep at 5 °C or below, because its pH is not known; no acid in it can show in a reading");
    let read = "[measured]\nph = 5.5\nph_by = \"meter\"";
    refused(&date(&syrup(50.0, "plain syrup", "", read)), "room", "do not rule out growth");
}

#[test]
fn c_lime_juice_goes_stale() {
    // row d53
    let dated = date(LIME);
    decided(&dated, "cold", 3, "fresh juice goes stale");
    refused(&dated, "room", "not kept above 8 °C");
    // Warming it is no heat treatment: it stays a raw juice, whatever it is called.
    let warmed = LIME.replace("class = \"juice\"", "heated = \"40 °C for 1 min\"");
    refused(&date(&warmed), "room", "not kept above 8 °C");
}

#[test]
fn d_liqueur_by_its_strength() {
    // dates.md K: 250 g/L, no acid, spice only, 18 % vol: 632 days in the fridge, 187 at 21 °C
    let dated = date(LIQUEUR);
    decided(&dated, "cold", 632, "aroma fades: its strength slows it");
    decided(&dated, "back bar", 187, "aroma fades: its strength slows it");
    assert_eq!(at(&dated, "back bar").mark, Mark::BestBefore);
    // a pH that nothing in it makes is rejected and changes nothing
    let sour = LIQUEUR.replace("[keep]", "[measured]\nph = 2.5\n[keep]");
    decided(&date(&sour), "cold", 632, "aroma fades: its strength slows it");
}

#[test]
fn e_almond_syrup_by_the_food_code() {
    // row d50; row d86 where nobody says how warm the nuts stood
    let dated = date(ALMOND);
    decided(&dated, "cold", 7, "its pH is not known");
    refused(&dated, "room", "keep at 5 °C or below");
    assert_eq!(dated.allergens, ["tree_nuts (almond)"]);
    let warm = ALMOND.replace("at = \"4 °C\"\n", "");
    refused(&date(&warm), "cold", "stood 12 h at up to 21 °C while weak and not sour");
}

#[test]
fn lists_and_rules_are_those_of_the_market() {
    let of = |market: &str| {
        let kitchen = kitchen();
        kitchen.write("house.toml", &format!("[house]\nname = \"Ours\"\n{market}{HOUSE}"));
        kitchen.write("larder.toml", "[ingredient.\"celery\"]\nper_100g = { water = 95, insoluble = 5 }\n");
        let card = "name = \"x\"\nmakes = \"1 kg\"\n[parts]\ncelery = \"10 g\"\n\"white sugar\" = \"as needed\"\n";
        let listed = kitchen.solve(card, &Options::default()).dated(20).lists;
        let out = Command::new(env!("CARGO_BIN_EXE_stillroom"))
            .args(["explain", "rules", "--json"])
            .current_dir(kitchen.folder())
            .output()
            .unwrap();
        let told: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        let ids: Vec<String> =
            told["rules"].as_array().unwrap().iter().map(|r| r["id"].as_str().unwrap().to_owned()).collect();
        (listed[0].markets.clone(), ids)
    };
    // Celery is on the list of Regulation (EU) No 1169/2011, Annex II, and not among the nine of the United States.
    let (uk, uk_rules) = of("market = \"UK\"\n");
    assert_eq!(uk, [Market::Uk]);
    assert!(uk_rules.iter().any(|id| id == "uk_ppds") && !uk_rules.iter().any(|id| id == "us_acidified"));
    let (us, us_rules) = of("market = \"US\"\n");
    assert_eq!(us, []);
    assert!(us_rules.iter().any(|id| id == "us_acidified") && !us_rules.iter().any(|id| id == "uk_ppds"));
    let (all, all_rules) = of("");
    assert!(all.contains(&Market::Eu) && !all.contains(&Market::Us));
    assert!(all_rules.len() > uk_rules.len() && all_rules.len() > us_rules.len());
}

#[test]
fn the_command_line_says_the_same() {
    let kitchen = kitchen();
    let json = |name: &str, card: &str| {
        let path = kitchen.write(name, card);
        let out = Command::new(env!("CARGO_BIN_EXE_stillroom"))
            .args(["date", "--json", "--made", "2026-11-25"])
            .arg(path)
            .output()
            .unwrap();
        assert_eq!(out.status.code(), Some(0), "{name}");
        serde_json::from_slice::<serde_json::Value>(&out.stdout).unwrap()
    };
    let cards = [
        ("rich.toml", syrup(65.1, "rich syrup", "heated = \"80 °C\"", ""), "cold", "non_tcs", 180, "a syrup tires"),
        ("plain.toml", syrup(50.0, "plain syrup", "", ""), "fridge", "pa", 7, "its pH is not known"),
        ("lime.toml", LIME.to_owned(), "cold", "non_tcs", 3, "fresh juice"),
        ("almond.toml", ALMOND.to_owned(), "cold", "pa", 7, "its pH is not known"),
    ];
    for (name, card, store, class, days, by) in cards {
        let told = json(name, &card);
        assert_eq!((&told["made"], &told["screen"]["class"]), (&"2026-11-25".into(), &class.into()), "{name}");
        let stores = told["stores"].as_array().unwrap();
        let s = stores.iter().find(|s| s["store"] == store).unwrap();
        let mark = if days == 180 { "best_before" } else { "use_by" };
        assert_eq!((&s["days"], &s["refused"], &s["mark"]), (&days.into(), &().into(), &mark.into()), "{name}");
        assert!(s["decided_by"].as_str().unwrap().starts_with(by), "{name}");
        let freezer = stores.iter().find(|s| s["store"] == "freezer").unwrap();
        assert_eq!((&freezer["frozen"], &freezer["days"]), (&true.into(), &().into()));
        let warm = stores.iter().find(|s| s["store"] == "back bar").unwrap();
        assert_eq!(warm["refused"].is_null(), warm["days"].is_u64(), "{name}");
    }
    let told = json("liqueur.toml", LIQUEUR);
    assert_eq!((&told["planned"], &told["stores"][2]["mark"]), (&"room".into(), &"best_before".into()));
}

#[test]
fn monday_and_three_days_is_wednesday() {
    let monday = wednesday() - chrono::Days::new(2);
    let date = |house: &str| {
        let kitchen = kitchen();
        kitchen.write("house.toml", &format!("{house}\n{HOUSE}"));
        let made = kitchen.solve(LIME, &Options::default());
        let draws = Draws { draws: 200, ..Draws::default() };
        assessment::assess(made.solved(), &made.house, monday, Which::All, draws).0.stores[1].date.unwrap()
    };
    assert_eq!(date(""), wednesday());
    assert_eq!(date("[house]\nname = \"Ours\"\nday_one = \"day after\""), wednesday() + chrono::Days::new(1));
}

#[test]
fn the_freezer_stops_the_clock() {
    let dated = date(&syrup(50.0, "plain syrup", "", ""));
    let freezer = at(&dated, "freezer");
    assert!(freezer.verdict.is_none() && freezer.days.is_none() && freezer.refused.is_empty());
}

#[test]
fn what_is_dangerous_by_itself_has_no_months_in_the_freezer() {
    // FDA Food Code 2022, 3-502.11: garlic in oil; raw egg by what it is
    let oil = "name = \"Oil\"\n[parts]\n\"olive oil\" = \"450 g\"\ngarlic = \"50 g\"\n[keep]\nclosed = true\n";
    let egg = "name = \"Egg\"\n[parts]\n\"egg white\" = \"200 g\"\nsugar = \"100 g\"\n";
    for card in [oil, egg] {
        let dated = date(card);
        let freezer = at(&dated, "freezer");
        assert!(freezer.verdict.is_none() && !freezer.refused.is_empty(), "{card}");
        assert!(freezer.refused.iter().all(|why| at(&dated, "cold").refused.contains(why)), "{card}");
    }
}

#[test]
fn a_lot_starts_with_its_oldest_part_and_rests_in_the_freezer() {
    let kitchen = kitchen();
    let made = kitchen.solve(LIME, &Options::default());
    let day = |n: u64| wednesday() + chrono::Days::new(n);
    let fridge = |lot: Lot| {
        let draws = Draws { draws: 200, ..Draws::default() };
        assessment::assess(made.solved(), &made.house, lot, Which::All, draws).0.stores.swap_remove(1)
    };
    let fresh = || Lot::from(wednesday());
    assert_eq!(fridge(fresh()).date, Some(day(2)));
    // pressed the day before it was mixed: a day less; a part younger than the lot changes nothing
    let yesterday = wednesday() - chrono::Days::new(1);
    assert_eq!(fridge(Lot { oldest_part: Some(yesterday), ..fresh() }).date, Some(day(1)));
    assert!(made.dated(200).assumed[0].contains("pressed on the day"));
    assert_eq!(fridge(Lot { oldest_part: Some(day(1)), ..fresh() }).date, Some(day(2)));
    // the day it goes in is used: one day is left, the day it is thawed
    let stay = |from, to| Lot { frozen: vec![Frozen { from, to }], ..fresh() };
    assert_eq!(fridge(stay(day(1), Some(day(7)))).date, Some(day(7)));
    let still_in = fridge(stay(day(1), None));
    assert_eq!((still_in.date, still_in.left_when_thawed), (None, Some(1)));
    // twice, or for longer than its quality lasts: no date
    let twice = Lot {
        frozen: vec![Frozen { from: wednesday(), to: Some(day(3)) }, Frozen { from: day(3), to: None }],
        ..fresh()
    };
    assert!(fridge(twice).refused[0].why.contains("frozen twice"));
    assert!(fridge(stay(day(1), Some(day(120)))).refused[0].why.contains("longer than 90 days"));
    // frozen too late saves nothing
    assert_eq!(fridge(stay(day(3), Some(day(9)))).date, Some(day(2)));
    // a lot that showed gas at two days sets the date below that
    let spoiled = fridge(Lot { spoiled_days: Some(2.0), ..fresh() });
    assert_eq!(spoiled.days, Some(1));
    assert!(words(&spoiled).starts_with("a lot of it spoiled"));
}

#[test]
fn a_bottle_filled_hot_has_two_lives_closed_and_opened() {
    let dated = |keep: &str| {
        let keep = format!("[measured]\nph = 4.4\nph_by = \"laboratory\"\n[keep]\n{keep}");
        date(&sour_syrup("heated = \"85 °C for 5 min\"", &keep))
    };
    let closed = dated("fill = \"hot\"\nclosed = true");
    let cold = at(&closed, "cold");
    let opened = cold.opened.as_ref().unwrap();
    assert_eq!((cold.days.map(|d| d / 30), opened.days), (Some(3), Some(7)));
    assert!(opened.because.contains("Food Code"), "{}", opened.because);
    let was_opened = dated("fill = \"hot\"\nclosed = true\nopened = true");
    // what softens in the heat is not closed
    let days = |of: &Assessment| of.stores.iter().map(|store| store.days).collect::<Vec<_>>();
    let in_plastic = |word: &str| dated(&format!("fill = \"hot\"\nclosed = true\nin = \"{word}\""));
    let softens = |of: &Assessment| of.cautions.iter().any(|caution| caution.code == "hot_in_plastic");
    assert!(softens(&in_plastic("PET")) && !softens(&in_plastic("hot-fill plastic")) && !softens(&closed));
    assert_eq!(days(&in_plastic("hot-fill plastic")), days(&closed));
    assert_ne!(days(&in_plastic("PET")), days(&closed));
    assert_eq!((at(&was_opened, "cold").days, &at(&was_opened, "cold").opened), (Some(7), &None));
}

/// White sugar and water with a pinch of citric acid, whose upper bound lies above 4.6.
fn sour_syrup(head: &str, more: &str) -> String {
    let parts = "\"pure sucrose\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"0.7 g\"";
    format!("name = \"Syrup\"\n{head}\n[parts]\n{parts}\n{more}\n")
}

#[test]
fn what_must_stop_has_no_date_in_any_store_nor_has_what_uses_it() {
    let kitchen = kitchen();
    kitchen.write("larder.toml", "[ingredient.\"foxglove leaf\"]\nlike = \"gentian root\"\nallergens = []\n");
    let drops = "name = \"Drops\"\nclass = \"bitters\"\nmakes = \"500 ml\"\n[parts]\n\
                 \"foxglove leaf\" = { amount = \"10 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"as needed\"\n";
    kitchen.write("drops.toml", drops);
    let outer =
        "name = \"Outer\"\nmakes = \"1 L\"\n[parts]\n\"Drops\" = \"100 g\"\n\"overproof white rum\" = \"as needed\"\n";
    for card in [drops, outer] {
        let dated = kitchen.solve(card, &Options::default()).dated(50);
        assert!(dated.stopped());
        for store in dated.stores.iter().filter(|s| s.verdict.is_some()) {
            assert_eq!((store.days, store.date, store.mark), (None, None, Mark::None));
            assert_eq!(store.refused.iter().filter(|r| r.why.contains("poison")).count(), 1, "{:?}", store.refused);
        }
    }
}

#[test]
fn what_goes_in_by_two_ways_is_counted_and_warned_of_once() {
    let kitchen = kitchen();
    let card = |name: &str, parts: &str| {
        format!("name = \"{name}\"\nmakes = \"1 kg\"\n[parts]\n{parts}\nwater = \"as needed\"\n")
    };
    kitchen.write("base.toml", &card("Base", "\"fresh lime juice\" = \"500 g\""));
    for side in ["Left", "Right"] {
        kitchen.write(&format!("{side}.toml"), &card(side, "\"Base\" = \"500 g\""));
    }
    let made = kitchen.solve(&card("Top", "\"Left\" = \"400 g\"\n\"Right\" = \"200 g\""), &Options::default());
    let lime: f64 = made.solved().ingredients().iter().filter(|(i, _)| i.id == "lime-juice").map(|(_, g)| g).sum();
    // 600 g of them are half Base, which is half juice
    assert!((lime - 150.0).abs() < 1e-6, "{lime}");
    let dated = made.dated(50);
    let of_base = |c: &&stillroom::safety::Caution| c.code == "raw_juice" && c.to_string().contains("Base");
    assert_eq!(dated.cautions.iter().filter(of_base).count(), 1);
}

#[test]
fn table_a_asks_for_heat_hot_fill_and_a_lid_that_stays_on() {
    let table = |head: &str, keep: &str| {
        let card = sour_syrup(head, &format!("[measured]\nph = 4.4\nph_by = \"laboratory\"\n[keep]\n{keep}"));
        made(&card).dated(100).hurdles
    };
    let heated = "heated = \"85 °C for 5 min\"";
    let whole = "fill = \"hot\"\nclosed = true";
    let a = table(heated, whole);
    assert_eq!((a.table, a.by_table), (ScreenTable::A, ScreenClass::NonTcs));
    for (head, keep) in [
        ("", whole),
        (heated, "closed = true"),
        (heated, "fill = \"cold\"\nclosed = true"),
        (heated, "fill = \"hot\""),
        (heated, "fill = \"hot\"\nclosed = false"),
        (heated, "fill = \"hot\"\nclosed = true\nopened = true"),
        ("heated = \"85 °C\"", whole),
        ("heated = \"62 °C for 5 min\"", whole),
    ] {
        let b = table(head, keep);
        assert_eq!((b.table, b.by_table), (ScreenTable::B, ScreenClass::Pa), "{head} {keep}");
    }
}

#[test]
fn a_word_changes_no_date_and_is_reported_where_it_is_not_earned() {
    let days = |class: &str| date(&syrup(50.0, class, "", "")).stores.iter().map(|s| s.days).collect::<Vec<_>>();
    for class in ["shrub", "bitters", "liqueur", "dried fruit", "juice", "rich syrup", "saline"] {
        assert_eq!(days(class), days("plain syrup"), "{class}");
    }
    let shrub = date(&syrup(50.0, "shrub", "", ""));
    let said = shrub.named.ignored.unwrap();
    assert_eq!(
        said,
        "called shrub, but it has less than 1.0 % of acetic acid: what is in it dates it, and not the word"
    );
    assert_eq!(date(&syrup(50.0, "plain syrup", "", "")).named.ignored, None);
}

#[test]
fn a_reading_counts_where_the_card_can_have_it() {
    let acid = "[measured]\nph = 3.5\nph_by = \"meter\"\ncalibrated = true\n";
    // nothing makes sugar and water that sour
    let (dated, found) = judged_on(&syrup(50.0, "cordial", "", acid), wednesday());
    decided(&dated, "fridge", 7, "its pH is not known");
    assert!(found.iter().any(|d| d.title.contains("the reading is rejected")), "{found:?}");
    // with a pinch of acid the calculation alone leaves it open, and the reading decides
    decided(&date(&sour_syrup("", "")), "fridge", 7, "its acid, sugar and strength do not rule out growth");
    assert!(at(&date(&sour_syrup("", acid)), "fridge").days.unwrap() > 7);
    // a strip at that value does not count: its doubt reaches above 4.0
    let strip = "[measured]\nph = 3.6\n";
    let (dated, found) = judged_on(&sour_syrup("", strip), wednesday());
    decided(&dated, "fridge", 7, "its acid, sugar and strength do not rule out growth");
    assert!(found.iter().any(|d| d.title.contains("a meter is required")), "{found:?}");
    // a reading of a day before the batch was made is of another batch
    let (dated, found) = judged_on(&sour_syrup("", &format!("{acid}on = 2026-11-20\n")), wednesday());
    decided(&dated, "fridge", 7, "its acid, sugar and strength do not rule out growth");
    assert!(found.iter().any(|d| d.title.contains("before this batch was made")), "{found:?}");
    // A strength that was read lower than reckoned loses the alcohol's credit.
    let weak = LIQUEUR.replace("[keep]", "[measured]\nabv = 9\n[keep]");
    assert!(at(&date(&weak), "room").days < at(&date(LIQUEUR), "room").days);
}

fn judged_on(card: &str, day: chrono::NaiveDate) -> (Assessment, Vec<stillroom::diagnostic::Diagnostic>) {
    let made = made(card);
    assessment::assess(made.solved(), &made.house, day, Which::All, Draws { draws: 500, ..Draws::default() })
}

#[test]
fn the_local_code_is_a_block_a_product_and_needs_who_when_and_where() {
    let with = |code: &str| {
        let kitchen = kitchen();
        kitchen.write("house.toml", &format!("{HOUSE}\n[[local_code]]\n{code}"));
        let made = kitchen.solve(&syrup(50.0, "plain syrup", "", ""), &Options::default());
        let settings = Draws { draws: 500, ..Draws::default() };
        let (dated, found) = assessment::assess(made.solved(), &made.house, wednesday(), Which::All, settings);
        (dated, found.iter().map(|d| d.title.clone()).collect::<Vec<_>>().join("\n"))
    };
    let who = "product = \"syrup\"\nauthority = \"Ours\"\nentered_by = \"A. Maker\"\non = 2026-01-02\nreference = \"letter 7\"\n";
    for missing in ["product", "authority", "entered_by", "on", "reference"] {
        let less: String = who.lines().filter(|l| !l.starts_with(missing)).map(|l| format!("{l}\n")).collect();
        let (dated, said) = with(&format!("{less}days = 14"));
        assert!(said.contains("[[local_code]]"), "{said}");
        decided(&dated, "fridge", 7, "its pH is not known");
        // the seven days are not those of the letter
        assert!(!words(at(&dated, "fridge")).contains("local code"), "{}", words(at(&dated, "fridge")));
        // what shortens a date needs nobody to answer for it
        decided(&with(&format!("{less}days = 3")).0, "fridge", 3, "its pH is not known: 3 days");
    }
    assert!(with(&format!("{}days = 14", who.replace("syrup", "surup"))).1.contains("the house has no such card"));
    assert!(with(&format!("{}days = 14", who.replace("2026-01-02", "2027-01-02"))).1.contains("a day to come"));
    let (dated, _) = with(&format!("{who}days = 14\ntemperature = \"8 °C\""));
    let fridge = at(&dated, "fridge");
    decided(&dated, "fridge", 14, "its pH is not known: 14 days at 8 °C or below");
    assert!(words(fridge).contains("Ours, letter 7; entered by A. Maker on 2026-01-02"));
    let mild = fridge.verdict.as_ref().unwrap().notes.iter().any(|n| n.words().contains("the house answers"));
    assert!(mild);
}

#[test]
fn a_longer_limit_lifts_no_other_refusal_and_no_stop() {
    let kitchen = kitchen();
    let code = |product: &str| {
        format!(
            "[[local_code]]\nproduct = \"{product}\"\nauthority = \"Ours\"\nentered_by = \"A. Maker\"\non = 2026-01-02\n\
             reference = \"letter 7\"\ndays = 300\ntemperature = \"8 °C\"\nassessed = true\n"
        )
    };
    kitchen.write("house.toml", &format!("{HOUSE}\n{}{}{}", code("Lime"), code("Syrup"), code("Almond syrup")));
    let draws = 500;
    let juice = kitchen.solve(LIME, &Options::default()).dated(draws);
    refused(&juice, "room", "not kept above 8 °C");
    assert!(at(&juice, "fridge").days.unwrap() <= 3);
    let sealed = syrup(50.0, "plain syrup", "", "[keep]\nclosed = true\nin = \"glass\"\nstore = \"room\"");
    let sealed = kitchen.solve(&sealed, &Options::default()).dated(draws);
    refused(&sealed, "room", "keep at 8 °C or below");
    // Nothing about it lengthens what stales, nor lifts a nut.
    assert!(at(&sealed, "cold").days.unwrap() <= 28);
    let nut = kitchen.solve(ALMOND, &Options::default()).dated(draws);
    assert_eq!(at(&nut, "cold").days, Some(7));
}

/// A card that uses another one of the house.
fn house_syrup(kitchen: &Kitchen, card: &str) {
    kitchen.write("inner.toml", card);
}

#[test]
fn what_a_part_is_passes_on_and_its_days_do_not() {
    let kitchen = kitchen();
    house_syrup(&kitchen, ALMOND);
    let outer = r#"
name = "Almond liqueur"
makes = "1 L"
class = "liqueur"
[target]
abv = 25
sugar = "300 g/L"
[parts]
"pure spirit" = "as needed"
"Almond syrup" = "as needed"
water = "as needed"
[keep]
store = "room"
"#;
    let dated = kitchen.solve(outer, &Options::default()).dated(500);
    let cold = at(&dated, "cold");
    // a nut in it still stales, and its own 7 days do not hold here
    assert_eq!((cold.days, cold.mark), (Some(60), Mark::UseBy));
    assert!(dated.assumed[0].contains("use only Almond syrup that is in date"), "{:?}", dated.assumed);
    assert!(at(&dated, "room").days.is_some(), "{:?}", at(&dated, "room").refused);
    assert_eq!(dated.allergens, ["tree_nuts (almond)"]);
    assert!(dated.cautions.iter().any(|c| c.code == "allergen"));
    // And once more around it.
    kitchen.write("middle.toml", outer);
    let menu = "name = \"Drink\"\n[parts]\n\"Almond liqueur\" = \"50 ml\"\nwater = \"20 ml\"\n";
    let drink = kitchen.solve(menu, &Options::default()).dated(500);
    assert_eq!(drink.allergens, ["tree_nuts (almond)"]);
    // What stood too warm is refused in whatever it goes into.
    house_syrup(&kitchen, &ALMOND.replace("at = \"4 °C\"\n", ""));
    let dated = kitchen.solve(outer, &Options::default()).dated(500);
    refused(&dated, "cold", "Almond syrup, which goes in: stood 12 h");
    let drink = kitchen.solve(menu, &Options::default()).dated(500);
    refused(&drink, "cold", "Almond syrup, which goes in: stood 12 h");
}

#[test]
fn a_store_that_the_house_does_not_have_is_an_error() {
    let made = made(&syrup(50.0, "plain syrup", "", "[keep]\nstore = \"bakc bar\""));
    let found = assessment::assess(
        made.solved(),
        &made.house,
        wednesday(),
        Which::All,
        Draws { draws: 10, ..Draws::default() },
    )
    .1;
    assert_eq!(found.len(), 1);
    assert!(found[0].title.contains("the house has no store `bakc bar`"));
}

#[test]
fn sealed_glass_that_would_burst_in_a_store_has_no_date_there() {
    let parts = "\"pure sucrose\" = \"400 g\"\nwater = \"600 g\"\n\"citric acid\" = \"20 g\"";
    let card = format!("name = \"Sour\"\n[parts]\n{parts}\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n");
    let dated = date(&card);
    refused(&dated, "room", "may burst");
    assert!(at(&dated, "fridge").days.is_some() && !dated.stopped());
    assert!(date(&format!("{card}store = \"room\"\n")).stopped());
}

#[test]
fn one_change_is_dated_by_the_same_rules() {
    let made = made(&syrup(50.0, "plain syrup", "heated = \"80 °C\"", ""));
    let draws = Draws::default();
    let now = made.dated(draws.draws);
    let changes = assessment::whatif::what_if(made.solved(), &made.house, &now, draws);
    let bought = |words: &str, store: &str| {
        let change = changes.iter().find(|c| c.words.contains(words)).unwrap_or_else(|| panic!("{words}: {changes:?}"));
        change.buys.iter().find(|b| b.store == store).map(|b| (b.days, b.instead_of))
    };
    assert_eq!(bought("65 °Bx", "cold"), Some((180, Some(7))));
    // row d30 is 48 days with 2 g/L
    assert_eq!(bought("2 g/L citric", "cold"), Some((48, Some(7))));
    // A nut syrup is offered nothing that buys nothing.
    let nut = self::made(ALMOND);
    let now = nut.dated(500);
    let changes = assessment::whatif::what_if(nut.solved(), &nut.house, &now, Draws { draws: 500, ..draws });
    assert!(changes.iter().all(|c| !c.buys.is_empty()), "{changes:?}");
}

/// An alkali is known by its name: what a house says it is like, or made of, must not hide it.
#[test]
fn an_alkali_takes_the_acid_away_whatever_it_is_like() {
    let kitchen = kitchen();
    kitchen.write(
        "larder.toml",
        &format!("{LARDER}[ingredient.\"baking soda\"]\nlike = \"salt\"\nfood = \"sold as food, label\"\n"),
    );
    let parts = "\"pure sucrose\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"5 g\"\n";
    let dated =
        |more: &str| kitchen.solve(&format!("name = \"Sour\"\n[parts]\n{parts}{more}"), &Options::default()).dated(200);
    assert!(dated("").hurdles.ph_up.is_some_and(|ph| ph < 4.2));
    assert!(dated("\"baking soda\" = \"6 g\"\n").hurdles.ph_up.is_none_or(|ph| ph > 4.6));
}

/// A cure is named where one word or one reading is all that a date hangs on, and it is what the card so changed then gets: fruit that is
/// strained out again, the pH of a shrub, and a reading low enough for a meter above 40 °Bx.
#[test]
fn one_word_or_reading_that_would_change_the_date_is_named() {
    let wine = |orange: &str| {
        format!(
            "name = \"W\"\n[parts]\n\"dry white wine\" = \"750 ml\"\nvodka = \"90 ml\"\n\"white sugar\" = \"150 g\"\norange = {orange}\n[keep]\nclosed = true\n"
        )
    };
    let hibiscus = |more: &str| {
        format!(
            "name = \"H\"\n[parts]\n\"dried hibiscus\" = {{ amount = \"30 g\", strained = true }}\nwater = \"600 ml\"\nsugar = \"600 g\"\n{more}"
        )
    };
    let shrub = |more: &str| {
        format!(
            "name = \"S\"\n[parts]\n\"cider vinegar\" = \"400 g\"\n\"white sugar\" = \"400 g\"\nginger = {{ amount = \"100 g\", strained = true }}\n{more}"
        )
    };
    let read = |ph: f64| format!("[measured]\nph = {ph}\nph_by = \"meter\"\ncalibrated = true\n");
    let draws = Draws { draws: 500, ..Draws::default() };
    for (before, words, after) in [
        (wine("\"300 g\""), "strained = true", wine("{ amount = \"300 g\", strained = true }")),
        (hibiscus(""), "meter reads pH 3.8 or less", hibiscus(&read(3.8))),
        (shrub(""), "meter reads pH 3.4 or less", shrub(&read(3.4))),
    ] {
        let kitchen = Kitchen::new("");
        let made = kitchen.solve(&before, &Options::default());
        let now = made.dated(500);
        let changes = assessment::whatif::what_if(made.solved(), &made.house, &now, draws);
        let change = changes.iter().find(|change| change.words.contains(words));
        let change = change.unwrap_or_else(|| panic!("{words}: {changes:?}"));
        let then = kitchen.solve(&after, &Options::default()).dated(500);
        let days = change.buys.iter().find(|buys| buys.store == "fridge").unwrap().days;
        assert_eq!(Some(days), at(&then, "fridge").days, "{words}");
    }
}
