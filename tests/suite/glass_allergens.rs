//! What a glass brings beyond its bottles, and what nobody has stated of it: garnish, rim, bought bottles, one doubt a row.

use serde_json::Value;

use crate::kitchen::Kitchen;

/// A house of one drink on its menu: 50 ml of vodka and the parts, garnish and steps that are given.
fn bar(above: &str, parts: &str, larder: &str) -> Kitchen {
    let sour = format!("name = \"Sour\"\nhow = \"shaken\"\n{above}\n[parts]\nvodka = \"50 ml\"\n{parts}");
    let house = "[house]\nmarket = [\"EU\"]\n";
    Kitchen::new(larder).with(&[("house", house), ("sour", &sour), ("menu", "[drink.\"Sour\"]\n")])
}

/// The marks of the one drink, by the names of the list.
fn marks(kitchen: &Kitchen) -> Vec<(String, String)> {
    let menu = kitchen.json(&["menu", "."]);
    let rows = menu["drinks"][0]["matrix"].as_array().unwrap_or_else(|| panic!("{menu}")).iter();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    rows.map(|row| (text(&row["allergen"]), text(&row["mark"]))).collect()
}

/// A word of food that nobody knows is no "none"; what is plainly known stays one.
#[test]
fn a_garnish_that_nobody_knows_may_bring_any_allergen() {
    for line in [
        "garnish = \"speculoos crumb\"",
        "garnish = \"a biscotti dust\"",
        "garnish = \"lime wheel, zorbo sprinkles\"",
        "glass = \"coupe with a zorbo rim\"",
        "glass = \"coupe, rimmed with zorbo\"",
        "steps = [\"Shake hard with ice.\", \"Dust with zorbo.\"]",
        "steps = \"Strain and garnish with a praline shard.\"",
        "garnish = \"chocolate shavings\"",
        "garnish = \"brandied cherry\"",
        "garnish = \"Zorboscheibe\"",
        "garnish = \"une rondelle de zorbo\"",
        "steps = \"Rim the coupe with zorbo.\"",
        "steps = \"Top with a zorbo foam and serve.\"",
    ] {
        let marks = marks(&bar(line, "", ""));
        assert_eq!(marks.len(), 14, "the fourteen of Regulation (EU) No 1169/2011, Annex II");
        assert!(marks.iter().all(|(_, mark)| mark != "none"), "{line}: {marks:?}");
    }
    for line in [
        "garnish = \"lime wedge\"",
        "garnish = \"an orange twist\"",
        "garnish = \"a mint sprig\"",
        "garnish = \"lime wheel and a sprig of fresh mint\"",
        "garnish = \"three coffee beans\"",
        "garnish = \"grated nutmeg, cinnamon stick\"",
        "garnish = \"half a dehydrated orange slice on a pick\"",
        "garnish = \"expressed lemon peel (discard)\"",
        "garnish = \"none\"",
        "garnish = \"no garnish\"",
        "garnish = \"Limettenscheibe\"",
        "garnish = \"Gurkenscheibe\"",
        "garnish = \"Orangenscheibe\"",
        "garnish = \"Apfelfächer\"",
        "garnish = \"éventail de pomme\"",
        "garnish = \"feuille de basilic\"",
        "garnish = \"rodaja de naranja\"",
        "steps = [\"Wipe the rim clean.\"]",
        "garnish = \"Minzzweig\"",
        "garnish = \"une rondelle de citron vert\"",
        "garnish = \"brin de menthe\"",
        "garnish = \"una rodaja de lima\"",
        "garnish = \"una fetta di lime\"",
        "garnish = \"rametto di timo\"",
        "glass = \"Nick and Nora\"",
        "glass = \"coupe with a salt rim\"",
        "glass = \"tumbler over a block of ice\"",
        "steps = \"Strain over fresh ice. Top up with vodka, rim the glass with salt and grate nutmeg over the top.\"",
        "steps = [\"Shake everything with gusto.\", \"Garnish with a lime wheel.\"]",
    ] {
        let marks = marks(&bar(line, "", ""));
        assert!(marks.iter().all(|(_, mark)| mark == "none"), "{line}: {marks:?}");
    }
}

/// A garnish that the house's larder states is stated.
#[test]
fn a_garnish_of_the_larder_brings_what_the_larder_states() {
    let larder = "[ingredient.\"zorbo dust\"]\nper_100g = { sucrose = 90, water = 10 }\nfood = \"sold as food, label\"\n\
                  allergens = [\"milk\"]\n";
    let marks = marks(&bar("garnish = \"a zorbo dust\"", "", larder));
    for (allergen, mark) in &marks {
        assert_eq!(mark, if allergen == "milk" { "contains" } else { "none" }, "{allergen}");
    }
}

/// What may be almond turns the row of tree nuts, and no other.
#[test]
fn a_doubt_turns_the_row_of_its_allergen_alone() {
    for (allergen, mark) in marks(&bar("garnish = \"flaked almonds\"", "", "")) {
        assert_eq!(mark, if allergen == "tree_nuts" { "not_stated" } else { "none" }, "{allergen}");
    }
}

/// A compounded bottle of which nobody read the label may bring any; one of which the house did, brings what it says. A juice, a
/// sugar and a plain spirit stay as the larder has them.
#[test]
fn a_bought_bottle_brings_what_its_label_says() {
    for bottle in ["amaro", "sweet vermouth", "aromatic bitters", "coffee liqueur", "almond liqueur"] {
        let kitchen = bar("", &format!("{bottle:?} = \"20 ml\"\n"), "");
        let of = marks(&kitchen);
        assert!(of.iter().all(|(_, mark)| mark != "none"), "{bottle}: {of:?}");
        for page in [kitchen.says(&["menu", "."]), kitchen.says(&["serve", "sour.toml"])] {
            let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
            // by the name on the card: so it is found again
            let entry = format!("[ingredient.{bottle:?}] with like = {bottle:?} and allergens = [");
            assert!(page.contains(&entry) && page.contains("larder.toml"), "{page}");
        }
        let usual = match bottle {
            "sweet vermouth" => "\"sulphites\"",
            "almond liqueur" => "\"tree_nuts\"",
            _ => "",
        };
        let stated = format!("[ingredient.{bottle:?}]\nlike = {bottle:?}\nallergens = [{usual}]\n");
        let of = marks(&bar("", &format!("{bottle:?} = \"20 ml\"\n"), &stated));
        assert!(of.iter().all(|(_, mark)| mark != "not_stated"), "{bottle}: {of:?}");
    }
    let plain = bar("", "\"lime juice\" = \"20 ml\"\n\"white sugar\" = \"5 g\"\ngin = \"10 ml\"\n", "");
    assert!(marks(&plain).iter().all(|(_, mark)| mark == "none"));
    assert!(!plain.says(&["menu", "."]).contains("allergens = ["));
}

/// What comes in by a swap stands on the page itself.
#[test]
fn a_swap_says_on_its_page_what_comes_in() {
    let kitchen = bar(
        "",
        "\"white rum\" = \"20 ml\"\n",
        "[ingredient.\"nut cordial\"]\nabv = 20\nallergens = [\"tree nuts\"]\nfood = \"sold as food, label\"\n",
    );
    let (_, page, _) = kitchen.run(&["swap", "sour.toml", "--old", "white rum", "--new", "nut cordial"]);
    assert!(page.contains("comes in: tree nuts"), "{page}");
    let (_, page, _) = kitchen.run(&["swap", "sour.toml", "--old", "white rum", "--new", "egg white"]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("comes in: egg") && page.contains("raw egg: Salmonella"), "{page}");
}

/// Regulation (EU) No 1169/2011 Annex II 4(b) exempts isinglass in beer and wine and nothing else of a fining; the old list of
/// exemptions, withdrawn since, named egg and casein in wine and cider. Of a bottle whose label nobody read these are open, and no more.
#[test]
fn what_a_wine_a_cider_or_a_beer_was_cleared_with_is_open_until_its_label_is_read() {
    let open = |parts: &str, larder: &str, market: &str| {
        let kitchen = bar("", parts, larder);
        kitchen.write("house.toml", &format!("[house]\nmarket = [\"{market}\"]\n"));
        let marks = marks(&kitchen).into_iter();
        let open: Vec<String> = marks.filter(|(_, mark)| mark == "not_stated").map(|(name, _)| name).collect();
        open.join(" ")
    };
    let unread = "[ingredient.\"sparkling wine\"]\nlike = \"sparkling wine\"\nprice = \"9 EUR / 750 ml\"\n";
    let read = format!("{unread}allergens = [\"sulphites\"]\n");
    let wine = "\"sparkling wine\" = \"90 ml\"";
    assert_eq!(open(wine, "", "EU"), "gluten_cereals egg milk");
    assert_eq!(open(wine, unread, "EU"), "gluten_cereals egg milk");
    assert_eq!(open(wine, &read, "EU"), "");
    assert_eq!(open(wine, unread, "US"), "milk egg fish wheat");
    assert_eq!(open("cider = \"90 ml\"", "", "EU"), "egg fish milk");
    assert_eq!(open("beer = \"90 ml\"", "", "EU"), "milk sulphites");
    assert_eq!(open("\"soda water\" = \"90 ml\"", "", "EU"), "", "water was cleared with nothing");
}

/// One line says which labels to read, and how to write what they say: where the house has an entry it gets one key.
#[test]
fn one_line_names_the_bottles_whose_labels_to_read() {
    let entry = "[ingredient.\"sparkling wine\"]\nlike = \"sparkling wine\"\n";
    let said = bar("", "\"sparkling wine\" = \"90 ml\"\nbeer = \"20 ml\"", entry).says(&["menu", "."]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("read the label of beer, sparkling wine, and state it in larder.toml"), "{said}");
    let said = bar("", "\"sparkling wine\" = \"90 ml\"", entry).says(&["serve", "sour.toml"]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let key = "[ingredient.\"sparkling wine\"] gets allergens = [\"sulphites\"], with all that it names";
    assert!(said.contains(key), "{said}");
}

/// Two nuts are one word with both of them.
#[test]
fn the_kinds_of_a_group_stand_together() {
    let parts = "\"walnut liqueur\" = \"10 ml\"\n\"hazelnut liqueur\" = \"10 ml\"\n\"celery bitters\" = \"1 dash\"\n";
    let said = bar("", parts, "").says(&["serve", "sour.toml"]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("tree nuts (hazelnut, walnut)"), "{said}");
}

/// What nobody knows is asked about in the words of the card.
#[test]
fn a_garnish_is_spoken_of_as_it_is_written() {
    let said = bar("garnish = \"3 sprays of zorbos, no nuts\"", "", "").says(&["serve", "sour.toml"]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("`3 sprays of zorbos`"), "{said}");
}
