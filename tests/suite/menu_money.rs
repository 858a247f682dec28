//! What a glass costs, what of it is poured and what is work; and what a spreadsheet is told of it.

use std::fs;

use serde_json::Value;

use crate::kitchen::Kitchen;

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nprice = \"21.00 GBP / 700 ml\"\nallergens = []\n";

fn bar(costs: &str, parts: &str) -> Kitchen {
    let house = format!("[house]\ncurrency = \"GBP\"\nmarket = [\"UK\"]\n[costs]\n{costs}");
    let rum =
        format!("name = \"Rum\"\nhow = \"stirred\"\nlabour = \"2 min\"\n[parts]\n\"house rum\" = \"50 ml\"\n{parts}");
    let menu = "[drink.\"Rum\"]\nprice = \"9.00 GBP\"\n";
    Kitchen::new(LARDER).with(&[("house", &house), ("rum", &rum), ("menu", menu)])
}

fn menu(kitchen: &Kitchen) -> Value {
    kitchen.json(&["menu", "."])["drinks"][0].clone()
}

fn table(kitchen: &Kitchen) -> Vec<(String, String)> {
    let said = kitchen.says(&["menu", ".", "--csv", "menu.csv"]);
    let text = fs::read_to_string(kitchen.folder().join("menu.csv")).unwrap_or_else(|why| panic!("{why}: {said}"));
    let mut table = csv::Reader::from_reader(text.as_bytes());
    let heads = table.headers().unwrap().clone();
    let row = table.records().next().unwrap().unwrap();
    heads.iter().zip(row.iter()).map(|(head, cell)| (head.to_owned(), cell.to_owned())).collect()
}

fn cell<'a>(table: &'a [(String, String)], head: &str) -> &'a str {
    &table.iter().find(|(own, _)| own == head).unwrap_or_else(|| panic!("{head}: {table:?}")).1
}

/// By hand: 50 ml at 21 GBP for 700 ml are 1.50; 2 min at 15 GBP an hour 0.50. Of 9.00 the rum takes 1/6, and 7.00 stay.
#[test]
fn pour_cost_is_what_is_poured_and_work_stands_beside_it() {
    let kitchen = bar("labour = \"15.00 GBP / h\"\n", "");
    let table = table(&kitchen);
    for (head, hand) in [("cost", "2.00"), ("labour", "0.50"), ("pour_cost", "0.1667"), ("earns", "7.00")] {
        assert_eq!(cell(&table, head), hand, "{head}");
    }
    let page = kitchen.says(&["serve", "rum.toml", "--sell-at", "9 GBP"]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("0.50 of it work") || page.contains("0.50 GBP of it work"), "{page}");
    assert!(!kitchen.says(&["menu", "."]).contains("no work is counted"));
}

/// By hand: at a pour cost of 20 % the same glass is sold for 1.50 / 0.2 = 7.50.
#[test]
fn a_price_by_the_margin_of_the_house_is_by_what_is_poured() {
    let kitchen = bar("labour = \"15.00 GBP / h\"\npour_cost = \"20 %\"\n", "");
    kitchen.write("menu.toml", "[drink.\"Rum\"]\n");
    assert_eq!(cell(&table(&kitchen), "price"), "7.50");
}

/// One glass has one price: the menu's where it stands on it, else by the margin of the house.
#[test]
fn a_glass_is_served_at_the_price_of_the_menu() {
    let kitchen = bar("labour = \"15.00 GBP / h\"\npour_cost = \"20 %\"\n", "");
    let serve = |arguments: &[&str]| {
        let page = kitchen.says(&[&["serve", "rum.toml", "--json"], arguments].concat());
        let cost = serde_json::from_str::<Value>(&page).unwrap_or_else(|why| panic!("{why}: {page}"))["cost"].clone();
        let price = ["sells_at", "sells_at_before_tax"].iter().find_map(|key| cost[key].as_str());
        (price.unwrap_or_else(|| panic!("{cost}")).to_owned(), cost["priced_by"].as_str().unwrap().to_owned())
    };
    let is = |at: &str, by: &str| (at.to_owned(), by.to_owned());
    kitchen.write("menu.toml", "[drink.\"Rum\"]\n");
    assert_eq!(serve(&[]), is("7.50", "margin"));
    kitchen.write("menu.toml", "[drink.\"Rum\"]\nprice = \"9.00 GBP\"\n");
    assert_eq!(serve(&[]), is("9.00", "menu"));
    assert_eq!(serve(&["--sell-at", "8 GBP"]), is("8.00", "asked"));
}

/// Where nobody says what an hour costs the work is marked as missing.
#[test]
fn missing_work_is_marked() {
    let kitchen = bar("", "");
    assert_eq!(menu(&kitchen)["labour"], Value::Null);
    assert_eq!((cell(&table(&kitchen), "cost"), cell(&table(&kitchen), "labour")), ("1.50", ""));
    let page = kitchen.says(&["menu", "."]).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("no work is counted in Rum"), "{page}");
}

/// A cost that is not complete is none in the table: it stands as a lower bound. The water from the ice has both ends.
#[test]
fn a_spreadsheet_is_told_no_cost_that_is_not_complete() {
    let table = table(&bar("", "\"lime juice\" = \"20 ml\"\n"));
    assert_eq!((cell(&table, "cost"), cell(&table, "cost_at_least")), ("", "1.50"));
    let number = |head: &str| cell(&table, head).parse::<f64>().unwrap();
    for of in ["ml", "abv"] {
        let [least, is, most] = [format!("{of}_least"), of.to_owned(), format!("{of}_most")].map(|head| number(&head));
        assert!(least < is && is < most, "{least} {is} {most}");
    }
}

/// Of two drinks the one whose card counts no work seems to leave more: it is not held against the other.
#[test]
fn what_earns_most_is_told_of_drinks_whose_work_is_counted() {
    let kitchen = bar("labour = \"15.00 GBP / h\"\n", "");
    let rum = fs::read_to_string(kitchen.folder().join("rum.toml")).unwrap();
    kitchen.write("free.toml", &rum.replace("\"Rum\"", "\"Free\"").replace("labour = \"2 min\"\n", ""));
    kitchen.write("menu.toml", "[drink.Free]\nprice = \"9.00 GBP\"\n[drink.Rum]\nprice = \"9.00 GBP\"\n");
    let menu = kitchen.json(&["menu", "."]);
    assert_eq!(menu["earns_most"], "Rum", "{menu}");
}

/// A price for the kilogram is taken as a pack of a kilogram, and that is said where far less is needed.
#[test]
fn a_pack_that_is_only_a_price_is_said_to_be() {
    let kitchen = bar("", "");
    kitchen.write("bitter.toml", "name = \"Bitter\"\n[parts]\ngentian = \"2 g\"\nvodka = \"500 g\"\n");
    kitchen.write(
        "larder.toml",
        "[ingredient.gentian]\nlike = \"gentian root\"\nfood = \"sold as food, label\"\nprice = \"60.00 GBP / 1 kg\"\n",
    );
    let said = |pack: &str| {
        kitchen.write("plan.toml", &format!("[plan]\ndays = 7\n[product.Bitter]\nuse = \"500 g a week\"\n{pack}"));
        kitchen.says(&["plan", "."]).split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert!(said("").contains("a pack of gentian is what its price is of"), "{}", said(""));
    assert!(!said("[ingredient.gentian]\npack = \"50 g\"\n").contains("a pack of"));
}

/// A hot coffee is poured hot: the glass says so where its card does.
#[test]
fn how_warm_a_part_is_poured_is_said() {
    let kitchen = bar("", "");
    kitchen.write("hot.toml", "name = \"Hot\"\nhow = \"shaken\"\n[parts]\nvodka = \"40 ml\"\nespresso = { amount = \"30 ml\", at = \"80 °C\" }\n");
    assert!(kitchen.says(&["serve", "hot.toml"]).contains("espresso, at 80 °C"));
}

/// A drink that is topped with what no line has is not shown as a whole one: its units and its cost are too low.
#[test]
fn a_drink_that_lacks_a_line_is_no_whole_drink_on_a_menu_and_in_a_bottle() {
    let kitchen = bar("labour = \"15.00 GBP / h\"\n", "");
    kitchen.write(
        "royal.toml",
        "name = \"Royal\"\nhow = \"stirred\"\nlabour = \"1 min\"\nsteps = [\"Stir.\", \"Top with champagne.\"]\n[parts]\n\"house rum\" = \"50 ml\"\n",
    );
    kitchen.write("menu.toml", "[drink.Royal]\nprice = \"20.00 GBP\"\n[drink.Rum]\nprice = \"9.00 GBP\"\n");
    let table = table(&kitchen);
    assert!(cell(&table, "first_say").contains("NOT COMPLETE"), "{table:?}");
    assert_eq!(cell(&table, "stop"), "");
    let page = kitchen.says(&["menu", "."]);
    assert!(page.contains("Royal, first say: NOT COMPLETE"), "{page}");
    assert!(page.contains("earns most a glass: Rum"), "{page}");
    let ahead = kitchen.says(&["serve", "royal.toml", "--make", "10", "-o", "bottled.toml"]);
    assert!(ahead.contains("first say: NOT COMPLETE") && ahead.contains("is not written"), "{ahead}");
    assert!(!kitchen.folder().join("bottled.toml").exists());
}

/// A row of a longer name than the others has its marks under the numbers of the drinks all the same.
#[test]
fn marks_stand_under_the_number_of_their_drink() {
    let kitchen = bar("", "");
    kitchen.write("house.toml", "[house]\ncurrency = \"GBP\"\nmarket = [\"UK\", \"CA\"]\n");
    kitchen.write(
        "sea.toml",
        "name = \"Sea\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"50 ml\"\n\"Clam and tomato juice, canned\" = \"20 ml\"\n",
    );
    kitchen.write("menu.toml", "[drink.Rum]\n[drink.Sea]\n");
    let page = kitchen.says(&["menu", "."]);
    let line = |begins: &str| {
        page.lines().find(|line| line.trim_start().starts_with(begins)).unwrap_or_else(|| panic!("{begins}: {page}"))
    };
    let at = |line: &str, sign: char| line.chars().collect::<Vec<_>>().iter().rposition(|c| *c == sign);
    assert!(at(line("Allergens "), '2').is_some(), "{page}");
    assert_eq!(at(line("Allergens "), '2'), at(line("crustaceans and molluscs"), 'C'), "{page}");
}
