//! Menus: what is said of a broken one, which allergen is in which drink, and from what is sold to what is made and bought.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use serde_json::Value;
use stillroom::diagnostic::Diagnostic;
use stillroom::house::{self, House};
use stillroom::menu::OccasionAsked;
use stillroom::render::csv::menu_csv;
use stillroom::render::text;
use stillroom::report::Report;
use stillroom::report::menu::{MenuQuestion, MenuView};

use crate::kitchen::{DAY, Kitchen, plain, run_in};

const LARDER: &str = r#"
[ingredient."house rum"]
abv = 40
price = "20.00 GBP / 700 ml"
allergens = []
[ingredient."white sugar"]
like = "white sugar"
price = "1.10 GBP / 1 kg"
[ingredient."lime juice"]
like = "lime juice"
price = "0.30 GBP / each"
"#;

const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\nclass = \"syrup\"\n[target]\nbrix = 50\n[parts]\n\
                     \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n\
                     [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const SOUR: &str = "name = \"Lime sour\"\nhow = \"shaken\"\nlabour = \"2 min\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\
                    \"lime juice\" = \"25 ml\"\n\"House syrup\" = \"15 ml\"\n";
const SODA: &str = "name = \"Syrup soda\"\nhow = \"built\"\nlabour = \"1 min\"\nwater = \"20 g\"\n[parts]\n\"House syrup\" = \"30 ml\"\n\
                    \"soda water\" = \"120 ml\"\n";

/// A house with a syrup and two drinks.
fn house(larder: &str) -> Kitchen {
    Kitchen::new(larder).with(&[("syrup", SYRUP), ("sour", SOUR), ("soda", SODA)])
}

fn view(kitchen: &Kitchen, menu: &Path, without: &[&str], event: OccasionAsked) -> (Option<MenuView>, Vec<Diagnostic>) {
    let (of, mut found) = House::find(kitchen.folder());
    let source = house::read(menu).unwrap();
    let without: Vec<String> = without.iter().map(|name| (*name).to_owned()).collect();
    let question = MenuQuestion { source: &source, board: None, without: &without, book: None, event, today: DAY };
    let view = MenuView::of(question, &of, &mut found);
    (view, found)
}

/// `STILLROOM_BLESS=1` writes the expected findings anew: read every one of them.
#[test]
fn broken_menus_give_the_diagnostics_beside_them() {
    let bless = std::env::var_os("STILLROOM_BLESS").is_some();
    let kitchen = house(LARDER);
    let mut menus: Vec<_> = fs::read_dir("tests/bad/menu").unwrap().map(|entry| entry.unwrap().path()).collect();
    menus.retain(|path| path.extension().is_some_and(|e| e == "toml"));
    menus.sort();
    assert!(menus.len() >= 15, "{} broken menus", menus.len());
    let mut wrong = String::new();
    for menu in &menus {
        let copy = kitchen.write("menu.toml", &fs::read_to_string(menu).unwrap());
        let (_, found) = view(&kitchen, &copy, &[], OccasionAsked::default());
        let said: Vec<String> =
            found.iter().filter(|d| d.severity == stillroom::diagnostic::Severity::Error).map(plain).collect();
        assert!(!said.is_empty(), "{} is not broken", menu.display());
        let said = said.join("\n").replace(&format!("{}/", kitchen.folder().display()), "");
        let beside = menu.with_extension("txt");
        if bless {
            fs::write(&beside, &said).unwrap();
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        if said != expected {
            wrong.push_str(&format!("{}\n--- expected\n{expected}\n--- found\n{said}\n", menu.display()));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// A name as a bar writes it, and what it stands under on the list of Regulation (EU) No 1169/2011, Annex II.
const CARRIERS: [(&str, &[&str]); 20] = [
    ("almonds", &["tree_nuts"]),
    ("toasted hazelnuts", &["tree_nuts"]),
    ("walnuts", &["tree_nuts"]),
    ("cashew nuts", &["tree_nuts"]),
    ("pistachios", &["tree_nuts"]),
    ("roasted peanuts", &["peanut"]),
    ("sesame seeds", &["sesame"]),
    ("whole milk", &["milk"]),
    ("double cream", &["milk"]),
    ("unsalted butter", &["milk"]),
    ("egg white", &["egg"]),
    ("soy milk", &["soy"]),
    ("malted barley", &["gluten_cereals"]),
    ("wheat bran", &["gluten_cereals"]),
    ("celery seed", &["celery"]),
    ("mustard seeds", &["mustard"]),
    ("fish sauce", &["fish"]),
    ("oyster sauce", &["molluscs"]),
    ("lupin beans", &["lupin"]),
    ("dried shrimp", &["crustaceans"]),
];
const NOTHING_SAID: &str = "mystery cordial";

/// Twenty drinks, each on a mix on a base with a carrier; every third has a second mix, every fourth an ingredient of which nobody
/// has stated anything.
fn nested() -> (Kitchen, Vec<String>) {
    let mut larder = String::from("[ingredient.\"cane spirit\"]\nabv = 40\nallergens = []\n");
    larder.push_str(&format!("[ingredient.\"{NOTHING_SAID}\"]\nper_100g = {{ water = 60, sucrose = 40 }}\n"));
    for (name, lists) in CARRIERS {
        let stated = lists.iter().map(|a| format!("\"{a}\"")).collect::<Vec<_>>().join(", ");
        let body = "per_100g = { water = 40, insoluble = 60 }\nform = \"solid\"\n";
        larder.push_str(&format!("[ingredient.\"{name}\"]\n{body}allergens = [{stated}]\n"));
    }
    let kitchen = Kitchen::new(&larder);
    kitchen.write("house.toml", "[house]\nmarket = [\"EU\"]\n[stores]\nfridge = \"4 °C\"\n");
    let mut names = Vec::new();
    let mut menu = String::new();
    for (n, (carrier, _)) in CARRIERS.iter().enumerate() {
        let base = format!(
            "name = \"Base {n}\"\n[parts]\n\"white sugar\" = \"400 g\"\nwater = \"600 g\"\n\"{carrier}\" = \"40 g\"\n"
        );
        let mix = format!("name = \"Mix {n}\"\n[parts]\n\"Base {n}\" = \"300 g\"\n\"cane spirit\" = \"500 ml\"\n");
        let mut drink =
            format!("name = \"Drink {n}\"\nhow = \"built\"\nwater = \"20 g\"\n[parts]\n\"Mix {n}\" = \"60 ml\"\n");
        if n % 3 == 0 {
            drink.push_str(&format!("\"Mix {}\" = \"20 ml\"\n", (n + 7) % CARRIERS.len()));
        }
        if n % 4 == 0 {
            drink.push_str(&format!("\"{NOTHING_SAID}\" = \"10 ml\"\n"));
        }
        for (kind, text) in [("base", base), ("mix", mix), ("drink", drink)] {
            kitchen.write(&format!("{kind}-{n}.toml"), &text);
        }
        menu.push_str(&format!("[drink.\"Drink {n}\"]\nsold = 10\n"));
        names.push(format!("Drink {n}"));
    }
    kitchen.write("menu.toml", &menu);
    (kitchen, names)
}

/// The names of everything in a card, down to what is bought: by the texts alone.
fn leaves(texts: &BTreeMap<String, toml::Table>, name: &str, all: &mut BTreeSet<String>) {
    match texts.get(name) {
        None => {
            all.insert(name.to_owned());
        }
        Some(card) => card["parts"].as_table().unwrap().keys().for_each(|part| leaves(texts, part, all)),
    }
}

#[test]
fn no_allergen_is_missed_and_what_is_not_stated_is_never_shown_as_none() {
    let (kitchen, names) = nested();
    let mut texts = BTreeMap::new();
    for file in fs::read_dir(kitchen.folder()).unwrap() {
        let card: toml::Table = toml::from_str(&fs::read_to_string(file.unwrap().path()).unwrap()).unwrap();
        if let Some(name) = card.get("name").and_then(toml::Value::as_str) {
            texts.insert(name.to_owned(), card.clone());
        }
    }
    let (view, found) = view(&kitchen, &kitchen.folder().join("menu.toml"), &[], OccasionAsked::default());
    let view = view.unwrap_or_else(|| panic!("{found:?}"));
    assert_eq!(view.drinks.iter().map(|d| d.of.clone()).collect::<Vec<_>>(), names);
    let csv = menu_csv(&view);
    let mut table = csv::Reader::from_reader(csv.as_bytes());
    let heads = table.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = table.records().map(|row| row.unwrap()).collect();
    let report = Report::new(Some(view.clone()), &[], |_| None);
    let page = text::menu(&report);
    let json: Value = serde_json::from_str(&report.json()).unwrap();
    let mut counted = BTreeMap::new();
    for (n, drink) in view.drinks.iter().enumerate() {
        let mut inside = BTreeSet::new();
        leaves(&texts, &drink.of, &mut inside);
        let carried: BTreeSet<&str> =
            CARRIERS.iter().filter(|(name, _)| inside.contains(*name)).flat_map(|(_, lists)| *lists).copied().collect();
        assert_eq!(drink.matrix.len(), 14, "the fourteen of the list");
        for (place, row) in drink.matrix.iter().enumerate() {
            let (letter, word, cell) = match (carried.contains(row.allergen), inside.contains(NOTHING_SAID)) {
                (true, _) => ('C', "contains", "contains"),
                (false, true) => ('?', "not_stated", "not stated"),
                (false, false) => ('-', "none", "no"),
            };
            *counted.entry(letter).or_insert(0) += 1;
            let at = format!("{} in {}: {:?}", row.allergen, drink.of, drink.matrix);
            assert_eq!(json["drinks"][n]["matrix"][place]["mark"], word, "{at}");
            let column = heads.iter().position(|head| head == row.allergen).unwrap();
            assert_eq!(&rows[n][column], cell, "{at}");
            // the tables of twelve and eight stand under each other
            let said = row.allergen.replace('_', " ");
            let mut lines = page.lines().filter(|line| line.trim_start().starts_with(&said) && line.len() > 22);
            let line = lines.nth(n / 12).unwrap();
            assert_eq!(line.chars().nth(22 + 3 * (n % 12) + 2), Some(letter), "{at}\n{page}");
        }
    }
    assert!(counted.values().all(|n| *n >= 20), "{counted:?}");
    assert!(page.lines().filter(|line| !line.contains('\u{1f}')).all(|line| line.chars().count() <= 60), "{page}");
}

/// How the verb ended in a house, and all that it says.
fn run(kitchen: &Kitchen, arguments: &[&str]) -> (Option<i32>, String) {
    let (code, page, said) = kitchen.run(arguments);
    (code, page + &said)
}

/// One lime gives 25 ml: the larder's juice weighs 1.03 g/ml, so a piece of it is 25.8 g, and a little of it stays over.
const LIME_OF_25_ML: &str = "piece = \"25.9 g\"\n";

fn sours(board: &str, menu: &str) -> Kitchen {
    let kitchen = house(&format!("{LARDER}{LIME_OF_25_ML}"));
    kitchen.write("plan.toml", &format!("[plan]\nfrom = 2026-11-30\ndays = 7\n{board}"));
    kitchen.write("menu.toml", menu);
    kitchen
}

const SEVENTY: &str = "[drink.\"Lime sour\"]\nprice = \"9.50 GBP\"\nsold = 70\n";

fn amount(plan: &Value, what: &str, of: &str) -> u64 {
    let rows = plan["prep"].as_array().unwrap().iter();
    rows.filter(|row| row["what"] == what && row["of"] == of).map(|row| row["amount"].as_u64().unwrap()).sum()
}

fn order<'a>(plan: &'a Value, of: &str) -> &'a Value {
    plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == of).unwrap_or_else(|| panic!("{of}: {plan}"))
}

/// By hand: 70 x 15 ml = 1.05 L of syrup, 70 limes of 25 ml for 70 x 25 ml, 70 x 50 ml = 3.5 L = 5 bottles of 700 ml.
#[test]
fn seventy_sours_a_week() {
    let kitchen = sours("[product.\"House syrup\"]\nbatch = \"1 L up to 5 L\"\n", SEVENTY);
    let plan = kitchen.json(&["plan", "."]);
    assert_eq!(amount(&plan, "make", "House syrup"), 1050, "{plan}");
    assert_eq!(order(&plan, "lime juice")["amount"], 70.0, "{plan}");
    let rum = order(&plan, "house rum");
    assert_eq!((&rum["packs"], &rum["pack"], &rum["need"]), (&5.into(), &700.0.into(), &3500.0.into()));
    assert_eq!(plan["menu"]["glasses_a_week"], 70);
    let (code, said) = run(&kitchen, &["plan", "."]);
    assert!(code == Some(0) && said.contains("Sold: 70 glasses a week by ./menu.toml"), "{said}");
    assert!(said.contains("70 pieces of lime") && said.contains("5 x 700 ml") && said.contains("1.05 L"), "{said}");
}

/// What nobody drinks on closed days is drunk on the others; by day it is drunk on that day.
#[test]
fn what_is_sold_by_day_is_needed_on_that_day() {
    let menu = "[drink.\"Lime sour\"]\nsold = { Fri = 20, Sat = 25 }\n";
    let plan = sours("[product.\"House syrup\"]\nbatch = \"100 ml\"\n", menu).json(&["plan", "."]);
    assert_eq!(amount(&plan, "make", "House syrup"), 45 * 15, "{plan}");
    assert_eq!(order(&plan, "lime juice")["needed"], "2026-12-04");
    assert_eq!(order(&plan, "house rum")["need"], 45.0 * 50.0);
    let (code, said) =
        run(&sours("closed = [\"Fri\"]\n[product.\"House syrup\"]\nbatch = \"100 ml\"\n", menu), &["plan", "."]);
    assert!(code == Some(1) && said.contains("`Lime sour` is sold on Fri, when the house is closed"), "{said}");
}

#[test]
fn the_use_on_the_board_counts_and_that_is_said() {
    let kitchen = sours("[product.\"House syrup\"]\nuse = \"2.1 L a week\"\n", SEVENTY);
    let of_board = kitchen.json(&["plan", "."]);
    assert_eq!(amount(&of_board, "make", "House syrup"), 2100, "{of_board}");
    let counted = &of_board["menu"]["use_on_board_counts"][0];
    assert_eq!((&counted["of"], &counted["menu_a_week"]), (&"House syrup".into(), &1050.into()));
    // the limes are of the menu alone
    assert_eq!(order(&of_board, "lime juice")["amount"], 70.0);
    // a par without a use has one where the menu sells it, and none where it does not
    let par = "[product.\"House syrup\"]\npar = \"300 ml\"\n";
    assert_eq!(run(&sours(par, SEVENTY), &["plan", "."]).0, Some(0));
    let (code, said) = run(&sours(par, "[drink.\"Lime sour\"]\nprice = \"9 GBP\"\n"), &["plan", "."]);
    assert!(code == Some(1) && said.contains("par-without-use"), "{said}");
}

/// By hand: 120 guests x 3 h x 1 = 360, a tenth more 396: 0.6 x 396 = 237.6, so 238 sours, and 158.4, so 159 sodas. Syrup
/// 238 x 15 + 159 x 30 = 8,340 ml; rum 238 x 50 = 11.9 L = 17 bottles; 238 limes.
#[test]
fn an_event_is_a_list_of_its_own() {
    let menu = "[drink.\"Lime sour\"]\nsold = 70\nshare = \"60 %\"\n[drink.\"Syrup soda\"]\nshare = \"40 %\"\n";
    let kitchen = sours("[product.\"House syrup\"]\non_hand = [{ amount = \"9 L\", made = 2026-11-30 }]\n", menu);
    let asked = ["menu", ".", "--guests", "120", "--hours", "3", "--json"];
    let (code, out) = run(&kitchen, &asked);
    assert_eq!(code, Some(0), "{out}");
    let event = &serde_json::from_str::<Value>(&out).unwrap()["event"];
    assert_eq!(event["glasses"], 238 + 159);
    assert_eq!(event["drinks_per_guest_and_hour_stated"], false);
    let plan = &event["plan"];
    // made whole, in tens and fifties; a syrup of 50 °Bx that was made two weeks before is past its date by then
    assert_eq!(amount(plan, "make", "House syrup"), 8340, "{plan}");
    assert_eq!(order(plan, "house rum")["packs"], 17);
    assert_eq!(order(plan, "lime juice")["amount"], 238.0);
    let said = kitchen.says(&asked[..6]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("at 1 each an hour (common practice, no source)") && said.contains("17 x 700 ml"), "{said}");
    for (wrong, why) in
        [(["--guests", "0"], "guests from 1 to 100,000"), (["--guests", "2.5"], "a whole number of guests")]
    {
        let (code, said) = run(&kitchen, &[&["menu", ".", "--hours", "3"], wrong.as_slice()].concat());
        assert!(code == Some(2) && said.contains(why), "{said}");
    }
}

/// An event on a day of the plan comes on top of what is sold every week, and of a use on the board.
#[test]
fn an_event_of_the_week_is_added() {
    let menu = |on: &str| {
        format!(
            "{SEVENTY}share = \"100 %\"\n[event]\nguests = 20\nhours = 2\nper_hour = 1\nreserve = \"0 %\"\non = {on}\n"
        )
    };
    let of_board = "[product.\"House syrup\"]\nuse = \"2.1 L a week\"\n";
    let with = sours(of_board, &menu("2026-12-05")).json(&["plan", "."]);
    assert_eq!(amount(&with, "make", "House syrup"), 2100 + 40 * 15, "{with}");
    assert_eq!(order(&with, "lime juice")["amount"], 110.0);
    assert_eq!(with["menu"]["event_on"], "2026-12-05");
    let without = sours(of_board, &menu("2026-12-12")).json(&["plan", "."]);
    assert_eq!((&without["menu"]["event_elsewhere"], amount(&without, "make", "House syrup")), (&true.into(), 2100));
    let closed = sours(&format!("closed = [\"Sat\"]\n{of_board}"), &menu("2026-12-05"));
    let (code, said) = run(&closed, &["plan", "."]);
    assert!(code == Some(1) && said.contains("the event is on Sat 5 Dec 2026, when the house is closed"), "{said}");
}

/// A page of an event on a closed day would say that nothing is needed for it: there is none.
#[test]
fn an_event_on_a_closed_day_has_no_page() {
    let day = (chrono::Local::now().date_naive() + chrono::Days::new(9)).to_string();
    let party = ["menu", ".", "--guests", "100", "--hours", "1", "--on", &day];
    let open = sours("", &format!("{SEVENTY}share = \"100 %\"\n"));
    let said = open.says(&party);
    assert!(said.contains("100 guests"), "{said}");
    let closed = sours(&format!("closed_on = [{day}]\n"), &format!("{SEVENTY}share = \"100 %\"\n"));
    let (code, said) = run(&closed, &party);
    assert!(code == Some(1) && said.contains("when the house is closed") && !said.contains("100 guests"), "{said}");
}

/// A menu that was not cleared after its event still tells its drinks.
#[test]
fn an_event_that_is_over_is_left_out_and_said() {
    let kitchen = sours("", &format!("{SEVENTY}share = \"100 %\"\n[event]\nguests = 20\nhours = 2\non = 2020-02-01\n"));
    let (code, said) = run(&kitchen, &["menu", "."]);
    assert!(code == Some(0) && said.contains("Lime sour") && !said.contains("20 guests"), "{said}");
    assert!(said.contains("the event of 2020-02-01 is over, and was left out"), "{said}");
    let (code, said) = run(&kitchen, &["menu", ".", "--on", "2020-02-01"]);
    assert!(code == Some(1) && said.contains("not from today to a year ahead"), "{said}");
}

#[test]
fn what_is_out_takes_drinks_down_through_every_level() {
    let (kitchen, _) = nested();
    let menu = kitchen.folder().join("menu.toml");
    let (of, found) = view(
        &kitchen,
        &menu,
        &["base 8", "cashew nuts", NOTHING_SAID, "white sugar", "honey"],
        OccasionAsked::default(),
    );
    let json: Value = serde_json::from_str(&Report::new(of, &found, |_| None).json()).unwrap();
    let fallen = |n: usize| -> Vec<(String, Vec<String>)> {
        let drinks = json["without"][n]["drinks"].as_array().unwrap();
        let way = |drink: &Value| {
            drink["by_way_of"].as_array().unwrap().iter().map(|w| w.as_str().unwrap().to_owned()).collect()
        };
        drinks.iter().map(|drink| (drink["of"].as_str().unwrap().to_owned(), way(drink))).collect()
    };
    let ways = |of: &[(&str, &[&str])]| -> Vec<(String, Vec<String>)> {
        of.iter().map(|(name, way)| ((*name).to_owned(), way.iter().map(|w| (*w).to_owned()).collect())).collect()
    };
    assert_eq!(json["without"][0]["without"], "Base 8");
    assert_eq!(fallen(0), ways(&[("Drink 8", &["Mix 8"])]));
    // 16 + 7 = 23, counted from twenty again
    assert_eq!(fallen(1), ways(&[("Drink 3", &["Mix 3", "Base 3"])]));
    assert_eq!(fallen(2).len(), 5);
    assert!(fallen(2).iter().all(|(_, way)| way.is_empty()));
    assert_eq!((fallen(3).len(), fallen(4).len()), (20, 0));
    let (_, found) = view(&kitchen, &menu, &["cashew nutz"], OccasionAsked::default());
    let said: String = found.iter().map(plain).collect();
    assert!(said.contains("did you mean `cashew nuts`?"), "{said}");
}

/// By hand: 9.50 less 20 % tax is 7.92; the one that earns most a glass need not earn most a minute.
#[test]
fn what_is_earned() {
    let kitchen = house(LARDER);
    let costs = "[house]\ncurrency = \"GBP\"\n[costs]\nprices = \"excl. 20 % VAT\"\nsales_tax = \"20 %\"\ngross_profit = \"80 %\"\nlabour = \"12.00 GBP / h\"\n[stores]\nfridge = \"4 °C\"\n";
    kitchen.write("house.toml", costs);
    kitchen.write(
        "larder.toml",
        &format!(
            "{}\n[ingredient.\"soda water\"]\nlike = \"soda water\"\nprice = \"0.90 GBP / 1 L\"\n",
            crate::kitchen::stated_as_food(LARDER)
        ),
    );
    // of the syrup too the work has to be stated, or none of it counts
    kitchen.write("syrup.toml", &SYRUP.replace("class", "labour = \"6 min\"\nclass"));
    let menu = "[drink.\"Lime sour\"]\nprice = \"9.50 GBP\"\n[drink.\"Syrup soda\"]\nprice = \"6.00 GBP\"\n";
    let path = kitchen.write("menu.toml", menu);
    let (of, found) = view(&kitchen, &path, &[], OccasionAsked::default());
    let json: Value = serde_json::from_str(&Report::new(of, &found, |_| None).json()).unwrap();
    let money = |n: usize, key: &str| json["drinks"][n][key].as_str().unwrap().parse::<f64>().unwrap();
    for (n, price, minutes) in [(0, 9.5, 2.0), (1, 6.0, 1.0)] {
        let (cost, earns) = (money(n, "cost"), money(n, "earns"));
        assert!((price / 1.2 - cost - earns).abs() < 0.011, "{json}");
        assert!((earns / minutes - money(n, "earns_a_minute")).abs() < 0.011, "{json}");
        let poured = cost - money(n, "labour");
        assert!((poured / (price / 1.2) - money(n, "pour_cost")).abs() < 0.005, "{json}");
    }
    // 50 ml of 700 for 20.00, 25 of 27 ml of a lime, a few pence of sugar, and 2.1 min at 12.00 an hour
    assert!((money(0, "cost") - (20.0 / 14.0 + 0.28 + 0.01 + 0.42)).abs() < 0.03, "{json}");
    assert_eq!((&json["earns_most"], &json["earns_most_a_minute"]), (&"Lime sour".into(), &"Syrup soda".into()));
}

/// By hand: 70 x 45 + 60 x 25 + 30 x 50 ml of white rum, 60 x 90 ml of soda water; the README says the same.
#[test]
fn the_demo_house_orders_what_it_sells() {
    let (_, page, _) = run_in(Path::new("."), &["plan", "formulas", "--json"]);
    let plan: Value = serde_json::from_str(&page).unwrap();
    assert_eq!(
        (&order(&plan, "white rum 40 %")["need"], &order(&plan, "white rum 40 %")["packs"]),
        (&6150.0.into(), &9.into())
    );
    assert_eq!(order(&plan, "soda water")["need"], 5400.0);
    let readme = fs::read_to_string("README.md").unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    let glasses = plan["menu"]["glasses_a_week"].as_u64().unwrap();
    let said =
        format!("for {glasses} glasses a week among them 6.15 L of white rum, 9 bottles, and 5.40 L of soda water");
    assert!(readme.contains(&said), "{said}");
}

/// The demo menu as it is printed: no day is in it.
#[test]
fn the_demo_menu() {
    let (code, page, said) = run_in(Path::new("."), &["menu", "formulas", "--without", "Rich muscovado syrup"]);
    insta::assert_snapshot!("menu-demo", page);
    assert_eq!(code, Some(0), "{said}");
}

/// Who has no limes has no lime juice, by whatever name the larder knows either.
#[test]
fn a_fruit_that_is_out_takes_its_juice_with_it() {
    let kitchen = house(LARDER);
    let menu = kitchen.write("menu.toml", "[drink.\"Lime sour\"]\n[drink.\"Syrup soda\"]\n");
    let (of, found) = view(&kitchen, &menu, &["lime"], OccasionAsked::default());
    let json: Value = serde_json::from_str(&Report::new(of, &found, |_| None).json()).unwrap();
    let fallen = &json["without"][0]["drinks"];
    assert_eq!((&fallen[0]["of"], &fallen[1]), (&"Lime sour".into(), &Value::Null), "{json}");
    assert_eq!(fallen[0]["by_way_of"][0], "lime juice");
}

/// Whoever has run out of it asks by the name on the crate; the house has it under another, or on the rim of the glass alone.
#[test]
fn what_is_out_is_found_by_any_of_its_names_and_as_a_garnish() {
    let kitchen = Kitchen::new("[ingredient.\"soda water\"]\nlike = \"soda water\"\nprice = \"1 EUR / 1 L\"\n");
    let drink = |name: &str, garnish: &str| {
        format!(
            "name = \"{name}\"\nhow = \"built\"\ngarnish = \"{garnish}\"\n[parts]\ngin = \"50 ml\"\n\"soda water\" = \"90 ml\"\n"
        )
    };
    kitchen.write("long.toml", &drink("Long one", "a sprig of mint"));
    kitchen.write("tall.toml", &drink("Tall one", "lemon zest, 1 nutmeg shaving"));
    kitchen.write("menu.toml", "[drink.\"Long one\"]\n[drink.\"Tall one\"]\n");
    let without = |name: &str| {
        let (code, said) = run(&kitchen, &["menu", ".", "--without", name]);
        (code, said.split_whitespace().collect::<Vec<_>>().join(" "))
    };
    for name in ["soda water", "club soda", "Soda water (club soda)"] {
        let (code, said) = without(name);
        let both = "Without soda water: 2 of 2 drinks cannot be made: Long one; Tall one";
        assert!(code == Some(0) && said.contains(both), "{said}");
    }
    let (_, said) = without("mint");
    assert!(said.contains("only as a garnish, in Long one (a sprig of mint)"), "{said}");
    assert!(without("lemon zest").1.contains("Tall one (lemon zest)"));
    // known to the larder and not on the menu, and known to nobody
    assert!(without("honey").1.contains("nothing on the menu is made with it"));
    let (code, said) = without("zorbo");
    assert!(
        code != Some(0) && said.contains("nothing on the menu, in the house or in its larder is called that"),
        "{said}"
    );
}

/// 70 glasses a week with 200 g of ice each are 14 kg; no order has them, and it says so.
#[test]
fn what_no_order_has_is_said_with_how_much_it_is() {
    let kitchen = Kitchen::new("");
    let drink = |name: &str, ice: &str| {
        format!("name = \"{name}\"\nhow = \"shaken\"\ngarnish = \"lime wheel\"\n{ice}[parts]\nvodka = \"50 ml\"\n")
    };
    kitchen.write("one.toml", &drink("One", "[ice]\ngrams = \"200 g\"\n"));
    kitchen.write("two.toml", &drink("Two", ""));
    kitchen.write("menu.toml", "[drink.\"One\"]\nsold = 70\n[drink.\"Two\"]\nsold = 7\n");
    kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\ndays = 7\n");
    let said = kitchen.says(&["plan", "."]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let list =
        "not on this list: 14.0 kg of ice by the cards; ice of Two, whose cards do not weigh it; 77 x lime wheel";
    assert!(said.contains(list), "{said}");
}

/// A price in another currency says so beside the others, and the numbers of a long list stand apart.
#[test]
fn a_page_is_read_without_guessing() {
    let kitchen = Kitchen::new("[ingredient.vodka]\nabv = 40\nallergens = []\nprice = \"20 GBP / 1 L\"\n");
    kitchen.write("house.toml", "[house]\nmarket = [\"UK\"]\ncurrency = \"GBP\"\n");
    let mut menu = String::new();
    for n in 1..=101 {
        kitchen.write(
            &format!("d{n}.toml"),
            &format!("name = \"Drink {n}\"\nhow = \"built\"\n[parts]\nvodka = \"50 ml\"\n"),
        );
        let currency = if n == 7 { "USD" } else { "GBP" };
        menu.push_str(&format!("[drink.\"Drink {n}\"]\nprice = \"12 {currency}\"\n"));
    }
    kitchen.write("menu.toml", &menu);
    let said = kitchen.says(&["menu", "."]);
    let row = |name: &str| said.lines().find(|line| line.contains(name)).unwrap_or_else(|| panic!("{said}"));
    assert!(row(" 7 Drink 7 ").contains("12.00 USD") && !row(" 8 Drink 8 ").contains("GBP"), "{said}");
    assert!(said.contains("  98  99\n") && said.contains(" 100 101\n"), "{said}");
}
