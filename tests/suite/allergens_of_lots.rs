//! A card is changed, and lots of the old one stand there still: what is poured of them brings what they bring.

use serde_json::{Value, json};

use crate::bar::Bar;

const HOUSE: &str = "[house]\nmarket = [\"EU\"]\n[stores]\nfridge = \"4 °C\"\n";

fn cordial(seed: &str) -> String {
    format!(
        "name = \"Cordial\"\n[parts]\n\"white sugar\" = \"600 g\"\n\"lemon juice\" = \"500 g\"\n\
         \"{seed} seed\" = {{ amount = \"5 g\", strained = true, holds = 1.0 }}\n[keep]\nclosed = true\nin = \"glass\"\n"
    )
}

const SOUR: &str = "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\nvodka = \"45 ml\"\n\"lemon juice\" = \"15 ml\"\n\
                    Cordial = \"25 ml\"\n\"egg white\" = \"15 ml\"\n";

/// A bottle that says in its own words what is added, and not for which drink it is poured.
const LOOSE: &str = "name = \"Loose\"\nserving = \"45 ml\"\nfor_a_guest = \"pour 45 ml, add 25 ml Cordial, 15 ml egg white, shake hard\"\n\
                     [parts]\nvodka = \"450 g\"\n[keep]\nclosed = true\nin = \"glass\"\n";

/// A bar that bottled a sour, made the cordial with celery seed, and makes it with mustard seed now; its lot of the old one.
fn changed() -> (Bar, String) {
    let bar = Bar::new(HOUSE, "");
    bar.kitchen.write("cordial.toml", &cordial("celery"));
    bar.kitchen.write("sour.toml", SOUR);
    bar.kitchen.write("loose.toml", LOOSE);
    bar.kitchen.write("menu.toml", "[drink.Sour]\nsold = 20\n");
    let old = bar.lot(&["cordial.toml", "--fresh"]);
    bar.json(&["serve", "sour.toml", "--make", "10", "-o", "ahead.toml"]);
    bar.kitchen.write("cordial.toml", &cordial("mustard"));
    (bar, old)
}

fn told(view: &Value, key: &str) -> Value {
    view[key].clone()
}

/// Label, record, plan and glass name the celery as long as that lot may be poured, and no longer.
#[test]
fn what_is_added_for_a_guest_may_be_of_a_lot_of_the_old_card() {
    let (bar, old) = changed();
    let (bottle, recorded) = bar.record(&["ahead.toml"]);
    let all = json!(["celery", "egg", "mustard"]);
    assert_eq!(told(&recorded, "allergens_for_a_guest"), all, "{recorded}");
    assert_eq!(told(&bar.json(&["label", &bottle]), "allergens_for_a_guest"), all);
    assert_eq!(told(&bar.json(&["serve", "sour.toml"]), "allergens"), all);
    assert_eq!(told(&bar.json(&["menu", "."])["drinks"][0], "allergens"), all);
    let plan = bar.json(&["plan", ".", "--by-book"]);
    let of = |name: &str| plan["products"].as_array().unwrap().iter().find(|of| of["of"] == name).unwrap().clone();
    assert_eq!(told(&of("Cordial"), "allergens"), json!(["celery", "mustard"]), "{plan}");
    assert_eq!(told(&of("Sour, batch"), "allergens_for_a_guest"), all, "{plan}");
    // it says which lot, and what ends it
    let said = String::from_utf8(bar.run(&["label", &bottle]).stderr).unwrap();
    assert!(said.contains(&format!("lot {old} of Cordial brings celery")), "{said}");
    assert!(said.contains(&format!("stillroom use-up {old}")), "{said}");
    bar.json(&["use-up", &old]);
    let now = json!(["egg", "mustard"]);
    assert_eq!(told(&bar.json(&["label", &bottle]), "allergens_for_a_guest"), now);
    assert_eq!(told(&bar.json(&["serve", "sour.toml"]), "allergens"), now);
}

/// A batch that is made now is by its card; a lot that is told to have gone into another is what that one holds.
#[test]
fn what_is_made_now_brings_what_its_card_and_its_told_lots_bring() {
    let (bar, old) = changed();
    let (new, cordial) = bar.record(&["cordial.toml", "--fresh"]);
    assert_eq!(told(&cordial, "allergens"), json!(["mustard"]));
    bar.kitchen.write(
        "punch.toml",
        "name = \"Punch\"\n[parts]\nvodka = \"300 g\"\nCordial = \"100 g\"\n[keep]\nclosed = true\nin = \"glass\"\n",
    );
    let of = |lot: &str| told(&bar.record(&["punch.toml", "--part", &format!("Cordial={lot}")]).1, "allergens");
    assert_eq!(of(&new), json!(["mustard"]));
    assert_eq!(of(&old), json!(["celery", "mustard"]));
    // of the others nobody has said which it was
    assert_eq!(told(&bar.record(&["punch.toml"]).1, "allergens"), json!(["celery", "mustard"]));
    // nor is the label of a lot made of the new one to be printed again for the old one
    let first = told(&bar.record(&["punch.toml", "--part", &format!("Cordial={new}")]).1, "lot");
    assert_eq!(told(&bar.json(&["label", first.as_str().unwrap()]), "allergens"), json!(["mustard"]));
}

/// A product of the house that a bottle's own words put into the glass is looked up, with its lots.
#[test]
fn what_the_words_of_a_bottle_add_is_looked_up() {
    let (bar, _) = changed();
    let label = bar.json(&["label", "loose.toml", "--fresh"]);
    assert_eq!(told(&label, "allergens_for_a_guest"), json!(["celery", "egg", "mustard"]), "{label}");
    // what nobody has stated is asked, as it is of what is in the bottle
    bar.kitchen.write("loose.toml", &LOOSE.replace("Cordial", "amaro"));
    let said = String::from_utf8(bar.run(&["label", "loose.toml", "--fresh"]).stderr).unwrap();
    assert!(said.contains("what is added for a guest are not stated: Bitter herbal liqueur (amaro)"), "{said}");
    let out = bar.run(&["record", "loose.toml", "--fresh"]);
    let page = String::from_utf8(out.stdout).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("for a guest also egg; for a guest not stated: Bitter herbal liqueur (amaro)"), "{page}");
    // words that name nothing to drink ask nothing
    bar.kitchen.write("loose.toml", &LOOSE.replace("add 25 ml Cordial, 15 ml egg white", "add 20 ml water to taste"));
    assert_eq!(told(&bar.json(&["label", "loose.toml", "--fresh"]), "allergens_for_a_guest"), json!([]));
}

/// What of an old lot nobody stated stays open, until its label is read into the larder.
#[test]
fn what_an_old_lot_left_open_stays_open() {
    let bar = Bar::new(HOUSE, "");
    let cordial = |of: &str| cordial("mustard").replace("[keep]", &format!("{of} = \"20 g\"\n[keep]"));
    bar.kitchen.write("cordial.toml", &cordial("amaro"));
    bar.kitchen.write("sour.toml", SOUR);
    let old = bar.lot(&["cordial.toml", "--fresh"]);
    bar.kitchen.write("cordial.toml", &cordial("gin"));
    let open = told(&bar.json(&["serve", "sour.toml"]), "allergens_not_stated");
    assert_eq!(open, json!([format!("lot {old} of Cordial (Bitter herbal liqueur (amaro) 28 %, 200 g/L)")]));
    bar.kitchen.write("larder.toml", "[ingredient.amaro]\nlike = \"amaro\"\nallergens = [\"milk\"]\n");
    let glass = bar.json(&["serve", "sour.toml"]);
    assert_eq!(told(&glass, "allergens_not_stated"), json!([]), "{glass}");
    assert_eq!(told(&glass, "allergens"), json!(["egg", "milk", "mustard"]), "{glass}");
}

/// A bottle of a drink whose card was changed is poured for it, and for what the drink goes into.
#[test]
fn a_bottle_of_the_old_drink_is_poured_for_the_new_one() {
    let bar = Bar::new(HOUSE, "");
    bar.kitchen.write("cordial.toml", &cordial("celery").replace("lemon juice", "water"));
    let drink =
        "name = \"Short\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nvodka = \"45 ml\"\nCordial = \"10 ml\"\n";
    bar.kitchen.write("short.toml", drink);
    bar.kitchen.write(
        "long.toml",
        "name = \"Long\"\nhow = \"built\"\n[parts]\nShort = \"60 ml\"\n\"soda water\" = \"90 ml\"\n",
    );
    bar.json(&["serve", "short.toml", "--make", "10", "-o", "ahead.toml"]);
    bar.record(&["ahead.toml"]);
    bar.kitchen.write("short.toml", &drink.replace("Cordial", "gin"));
    for card in ["short.toml", "long.toml"] {
        assert_eq!(told(&bar.json(&["serve", card]), "allergens"), json!(["celery"]), "{card}");
    }
    // what is bottled now is not of that bottle
    assert_eq!(told(&bar.json(&["serve", "short.toml", "--make", "10"]), "allergens"), json!([]));
}

/// Coconut and chestnut are tree nuts by no list, pine nuts by those of the United States, Canada, Australia and New Zealand: matrix and
/// words of every output have the same answer.
#[test]
fn a_nut_that_no_list_has_is_no_tree_nut_in_any_output() {
    for (nut, market, said, expected) in [
        ("coconut cream", "UK", "coconut", "none"),
        ("coconut cream", "EU", "coconut", "none"),
        ("coconut cream", "US", "coconut", "none"),
        ("chestnut", "US", "chestnut", "none"),
        ("pine nuts", "UK", "pine nut", "none"),
        ("pine nuts", "US", "pine nut", "contains"),
        ("almonds", "US", "tree nuts (almond)", "contains"),
    ] {
        let house = format!("[house]\nmarket = [\"{market}\"]\n[stores]\nfridge = \"4 °C\"\n");
        let larder =
            "[ingredient.\"hill rum\"]\nlike = \"white rum 40 %\"\nallergens = []\nfood = \"sold as food, label\"\n";
        let bar = Bar::new(&house, larder);
        let rum = format!(
            "name = \"Grove rum\"\n[parts]\n\"hill rum\" = \"1 kg\"\n{nut:?} = {{ amount = \"50 g\", strained = true, holds = 1 }}\n\
             [keep]\nclosed = true\nin = \"glass\"\n"
        );
        let old = "name = \"Old\"\nhow = \"stirred\"\nwater = \"30 g\"\n[parts]\n\"Grove rum\" = \"50 ml\"\n";
        let bar = bar.with(&[("rum", &rum), ("old", old), ("menu", "[drink.Old]\n")]);
        let menu = bar.json(&["menu", "."]);
        let drink = &menu["drinks"][0];
        let mark = drink["matrix"].as_array().unwrap().iter().find(|row| row["allergen"] == "tree_nuts").unwrap();
        assert_eq!((&mark["mark"], &drink["allergens_say"]), (&json!(expected), &json!(said)), "{menu}");
        let lot = bar.lot(&["rum.toml"]);
        for (verb, of) in
            [("label", &*lot), ("serve", "old.toml"), ("solve", "rum.toml"), ("date", "rum.toml"), ("recall", &*lot)]
        {
            let told = bar.json(&[verb, of]).to_string().replace('_', " ");
            assert!(told.contains(&format!("\"{said}\"")), "{verb}: {told}");
            let page = String::from_utf8(bar.run(&[verb, of]).stdout).unwrap().to_lowercase();
            assert!(page.contains(said), "{verb}: {page}");
            assert_eq!(page.contains("tree nut"), said.contains("tree nut"), "{verb}: {page}");
        }
        bar.run(&["menu", ".", "--csv", "menu.csv"]);
        let csv = bar.text("menu.csv");
        let lines: Vec<Vec<&str>> = csv.lines().map(|line| line.split(',').collect()).collect();
        let place = lines[0].iter().position(|column| *column == "tree_nuts").unwrap_or_else(|| panic!("{csv}"));
        assert_eq!(lines[1][place], if expected == "none" { "no" } else { "contains" }, "{csv}");
    }
}
