//! What is not there, and what an aim chose, wherever a drink is asked about: swaps, events.

use crate::kitchen::Kitchen;

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nprice = \"20.00 GBP / 700 ml\"\nallergens = []\n\
    [ingredient.\"house gin\"]\nabv = 44\nprice = \"22.00 GBP / 700 ml\"\nallergens = []\n\
    [ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1.10 GBP / 1 kg\"\n\
    [ingredient.\"lime juice\"]\nlike = \"lime juice\"\nprice = \"5 GBP / 1 L\"\n";
const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\nclass = \"syrup\"\n[target]\nbrix = \"48 to 52\"\n[parts]\n\
    \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[aim]\nleast = \"cost\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn drink(name: &str, spirit: &str) -> String {
    format!(
        "name = {name:?}\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house {spirit}\" = \"50 ml\"\n\"lime juice\" = \"20 ml\"\nhoney = \"15 ml\"\n"
    )
}

fn house() -> Kitchen {
    let drinks = [drink("Rum one", "rum"), drink("Gin one", "gin"), drink("Gin two", "gin")];
    Kitchen::new(LARDER).with(&[("syrup", SYRUP), ("a", &drinks[0]), ("b", &drinks[1]), ("c", &drinks[2])])
}

/// A product with an aim goes in as that chose it, though no card of the drink names it yet.
#[test]
fn a_swap_takes_a_product_as_its_aim_chose_it() {
    let kitchen = house();
    let (code, page, said) = kitchen.run(&["swap", "a.toml", "--old", "honey", "--new", "House syrup"]);
    assert!(code == Some(0) && page.contains("House syrup in place of honey"), "{page}{said}");
    let all = format!("{page}{said}").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(all.contains("goes in as its aim chooses it"), "{all}");
    kitchen.write("cordial.toml", "name = \"Cordial\"\nmakes = \"1 L\"\n[target]\nbrix = 40\n[parts]\nhoney = \"as needed\"\nwater = \"as needed\"\n");
    let (code, page, said) = kitchen.run(&["swap", "cordial.toml", "--old", "honey", "--new", "House syrup"]);
    assert!(code == Some(0) && page.contains("House syrup"), "{page}{said}");
}

/// 40 guests for 2 h and a tenth more are 88 glasses: 60 and 20 of the shares that are left are 66 and 22.
#[test]
fn an_event_serves_nothing_that_cannot_be_made() {
    let kitchen = house();
    kitchen.write(
        "menu.toml",
        "[drink.\"Rum one\"]\nshare = \"20 %\"\n[drink.\"Gin one\"]\nshare = \"60 %\"\n[drink.\"Gin two\"]\nshare = \"20 %\"\n",
    );
    let asked = ["menu", ".", "--guests", "40", "--hours", "2", "--without", "house rum"];
    let json = kitchen.json(&asked);
    let event = &json["event"];
    let served: Vec<(&str, u64)> = event["drinks"]
        .as_array()
        .unwrap()
        .iter()
        .map(|drink| (drink["of"].as_str().unwrap(), drink["glasses"].as_u64().unwrap()))
        .collect();
    assert_eq!(served, [("Gin one", 66), ("Gin two", 22)]);
    assert_eq!(event["fallen"], serde_json::json!(["Rum one"]));
    assert!(!event["plan"].to_string().contains("house rum"), "{event}");
    let (_, page, _) = kitchen.run(&asked);
    assert!(page.contains("Not served: Rum one."), "{page}");
    let (code, _, said) = kitchen.run(&["menu", ".", "--guests", "40", "--hours", "2", "--without", "lime juice"]);
    assert!(code == Some(1) && said.contains("every drink that the event serves"), "{said}");
}

/// By hand: of 88 glasses 20 and 20 of the shares that are left are 44 each. A drink that is out is not served itself.
#[test]
fn a_drink_that_is_out_is_served_to_nobody() {
    let kitchen = house();
    kitchen
        .write("long.toml", "name = \"Long\"\nhow = \"built\"\n[parts]\n\"Rum one\" = \"60 ml\"\nwater = \"60 ml\"\n");
    kitchen.write(
        "menu.toml",
        "[drink.\"Rum one\"]\nshare = \"40 %\"\n[drink.Long]\nshare = \"20 %\"\n[drink.\"Gin one\"]\nshare = \"20 %\"\n[drink.\"Gin two\"]\nshare = \"20 %\"\n",
    );
    let out = |without: &str| {
        let json = kitchen.json(&["menu", ".", "--guests", "40", "--hours", "2", "--without", without]);
        let drinks = json["event"]["drinks"].as_array().unwrap().clone();
        let served =
            drinks.iter().map(|drink| (drink["of"].as_str().unwrap().to_owned(), drink["glasses"].as_u64().unwrap()));
        (json["event"]["fallen"].clone(), served.collect::<Vec<_>>())
    };
    let glasses = |all: &[(&str, u64)]| all.iter().map(|(of, n)| ((*of).to_owned(), *n)).collect::<Vec<_>>();
    assert_eq!(out("Rum one"), (serde_json::json!(["Rum one", "Long"]), glasses(&[("Gin one", 44), ("Gin two", 44)])));
    // 40, 20 and 20 of the 88 that are left
    let (fallen, served) = out("Long");
    assert_eq!(
        (fallen, served),
        (serde_json::json!(["Long"]), glasses(&[("Rum one", 44), ("Gin one", 22), ("Gin two", 22)]))
    );
}

/// Nobody has said how much of each drink the guests take: nothing is added, and no page says that it is. What is not ready in time
/// stands on the page as well.
#[test]
fn a_page_says_what_it_lacks() {
    let kitchen = house();
    kitchen.write("menu.toml", "[drink.\"Rum one\"]\nsold = 10\n[event]\nguests = 20\nhours = 2\non = 2026-12-03\n");
    let page = kitchen.run(&["plan", "--from", "2026-11-30"]).1;
    assert!(page.contains("Sold: 10 glasses a week") && !page.contains("is added"), "{page}");
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("the event of Thu 3 Dec 2026 is NOT in it"), "{page}");
    kitchen.write("a.toml", &drink("Rum one", "rum").replace("honey =", "\"House syrup\" ="));
    kitchen.write("syrup.toml", &SYRUP.replacen("class", "takes = \"24 h\"\nclass", 1));
    let page = kitchen.run(&["plan", "--from", "2026-11-30"]).1;
    assert!(page.contains("MISSING, House syrup: 15 ml, Mon 30 Nov; ready Tue 1 Dec"), "{page}");
    // and the spreadsheets, of which that of the orders adds nothing up
    let asked = ["plan", "--from", "2026-11-30", "--csv-prep", "prep.csv", "--csv-order", "order.csv"];
    kitchen.run(&asked);
    let [prep, order] =
        ["prep.csv", "order.csv"].map(|file| std::fs::read_to_string(kitchen.folder().join(file)).unwrap());
    let missing = "missing: 15 ml on 2026-11-30; ready 2026-12-01 at the earliest";
    assert!(prep.contains(&format!("2026-11-30,missing,House syrup,15,ml,,,,{missing}\n")), "{prep}");
    assert!(order.contains(&format!(",House syrup,,,,,,,2026-11-30,,,,{missing}\n")), "{order}");
}

/// Of two words for one day one would be lost in silence.
#[test]
fn a_day_stands_once() {
    let kitchen = house();
    kitchen.write("menu.toml", "[drink.\"Rum one\"]\nsold = { Fri = 2, Friday = 3 }\n");
    let (code, _, said) = kitchen.run(&["plan", "--from", "2026-11-30"]);
    assert!(code == Some(1) && said.contains("`Friday` is a day that stands there already"), "{said}");
    kitchen.write("menu.toml", "[drink.\"Rum one\"]\nsold = 2\n");
    let board = "[plan]\ndays = 7\n[product.\"House syrup\"]\nuse_on = { Fri = \"1 L\", friday = \"2 L\" }\n";
    kitchen.write("plan.toml", board);
    assert!(kitchen.run(&["plan", "."]).2.contains("is a day that stands there already"));
}
