//! What a plan begins for later, what a drink inside a drink takes of the house, and the stock of the board at an event.

use serde_json::Value;

use crate::kitchen::Kitchen;

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nallergens = []\n";

/// By hand: 100 ml a day, 1.7 L on the shelf: the 17 days from the Monday on are covered, the eighteenth is not. What takes 14
/// days and is to be there on the eighteenth is begun on the fourth, though the plan looks a week ahead.
#[test]
fn what_takes_longer_than_the_plan_is_begun_in_time() {
    let kitchen = Kitchen::new(LARDER);
    let card = "name = \"Slow rum\"\nmakes = \"1 L\"\ntakes = \"14 days\"\n[parts]\n\"house rum\" = \"as needed\"\n";
    kitchen.write("slow.toml", card);
    let board = |on_hand: &str| {
        format!(
            "[plan]\nfrom = 2026-11-30\ndays = 7\n[product.\"Slow rum\"]\nuse = \"100 ml a day\"\nbatch = \"500 ml up to 2 L\"\n\
             on_hand = [{{ amount = \"{on_hand}\", use_by = 2027-11-30 }}]\n"
        )
    };
    kitchen.write("plan.toml", &board("1.7 L"));
    let plan = kitchen.json(&["plan", "."]);
    let prep = plan["prep"].as_array().unwrap();
    let started: Vec<_> =
        prep.iter().filter(|row| row["what"] == "start").map(|row| (&row["date"], &row["ready"])).collect();
    assert_eq!(started, [(&"2026-12-03".into(), &"2026-12-17".into())], "{plan}");
    assert!(prep.iter().all(|row| row["date"].as_str().unwrap() <= "2026-12-06"), "{plan}");
    assert_eq!(plan["short"].as_array().map(Vec::len), Some(0), "{plan}");
    // what lasts until the next plan can begin it is left to that
    kitchen.write("plan.toml", &board("3 L"));
    assert!(kitchen.json(&["plan", "."])["prep"].as_array().unwrap().is_empty());
}

/// By hand: the batch of the Thursday is used to the Saturday, its syrup ends on the Thursday: new syrup goes in, the old one is left,
/// and nobody is told to use first what nothing takes. Where the bar pours of it too, that is told.
#[test]
fn a_part_too_old_for_what_it_goes_into_is_left_and_not_used_first() {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write(
        "syrup.toml",
        "name = \"Plain syrup\"\nmakes = \"500 ml\"\n[parts]\n\"white sugar\" = \"300 g\"\nwater = \"300 g\"\n",
    );
    kitchen.write(
        "mix.toml",
        "name = \"Mix\"\nmakes = \"500 ml\"\n[parts]\n\"Plain syrup\" = \"300 ml\"\nwater = \"200 ml\"\n",
    );
    let board = |of_syrup: &str| {
        format!(
            "[plan]\nfrom = 2026-11-30\ndays = 7\n[product.Mix]\nuse_on = {{ Thu = \"100 ml\", Sat = \"100 ml\" }}\n\
             [product.\"Plain syrup\"]\n{of_syrup}on_hand = [{{ amount = \"400 ml\", use_by = 2026-12-03 }}]\n"
        )
    };
    let steps = |of_syrup: &str| -> Vec<String> {
        kitchen.write("plan.toml", &board(of_syrup));
        let plan = kitchen.json(&["plan", "."]);
        let of_syrup = plan["prep"].as_array().unwrap().iter().filter(|row| row["of"] == "Plain syrup");
        of_syrup
            .map(|row| format!("{} {}", &row["date"].as_str().unwrap()[8..], row["what"].as_str().unwrap()))
            .collect()
    };
    assert_eq!(steps(""), ["03 leave", "03 make", "03 take", "04 throw away"]);
    assert_eq!(
        steps("use_on = { Thu = \"50 ml\" }\n"),
        ["03 use first", "03 leave", "03 make", "03 take", "04 throw away"]
    );
}

/// By hand: 70 glasses, in each 40 g of a drink that is half rum: 70 x 20 g of rum.
#[test]
fn a_drink_in_a_drink_is_ordered_by_what_is_in_it() {
    let kitchen = Kitchen::new(LARDER);
    let inner = "name = \"Inner\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"30 g\"\n\"lime juice\" = \"30 g\"\n";
    let outer = "name = \"Outer\"\nhow = \"built\"\n[parts]\nInner = \"40 g\"\n\"soda water\" = \"60 g\"\n";
    kitchen.write("inner.toml", inner);
    kitchen.write("outer.toml", outer);
    kitchen.write("menu.toml", "[drink.Outer]\nsold = 70\n");
    kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\ndays = 7\n[ingredient.\"house rum\"]\npack = \"1 g\"\n");
    let plan = kitchen.json(&["plan", "."]);
    assert_eq!(plan["left_out"].as_array().map(Vec::len), Some(0), "{plan}");
    let order =
        |of: &str| plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == of).cloned().unwrap_or_default();
    assert_eq!(order("house rum")["need"], 1400.0, "{plan}");
    assert!(!order("Lime juice, fresh").is_null(), "{plan}");
}

/// By hand: 100 guests for an hour at one drink and 10 % more are 110 glasses of 50 g of rum and 20 g of syrup: 5.5 kg and 2.2 kg. With
/// 3 kg of rum and 1 kg of syrup there, 2.5 kg of rum are bought and 1.2 kg of syrup made.
#[test]
fn an_event_counts_what_the_board_has() {
    let kitchen = Kitchen::new(LARDER);
    let syrup = "name = \"Syrup\"\nmakes = \"1 kg\"\nclass = \"syrup\"\n[parts]\n\"white sugar\" = \"650 g\"\nwater = \"350 g\"\n\
                 [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
    kitchen.write("syrup.toml", syrup);
    kitchen
        .write("sour.toml", "name = \"Sour\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"50 g\"\nSyrup = \"20 g\"\n");
    kitchen.write("menu.toml", "[drink.Sour]\nshare = \"100 %\"\n[event]\nguests = 100\nhours = 1\non = 2026-12-12\n");
    kitchen.write(
        "plan.toml",
        "[plan]\nfrom = 2026-11-30\ndays = 7\n[product.Syrup]\npar = \"500 g\"\nuse = \"2 kg a week\"\n\
         on_hand = [{ amount = \"1 kg\", made = 2026-11-25 }]\n[ingredient.\"house rum\"]\npack = \"1 g\"\non_hand = \"3 kg\"\n",
    );
    let menu = kitchen.json(&["menu", "."]);
    let plan = &menu["event"]["plan"];
    let rum = plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == "house rum").unwrap();
    assert_eq!((&rum["need"], &rum["amount"]), (&5500.0.into(), &2500.0.into()), "{plan}");
    let made: u64 = plan["prep"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|row| row["what"] == "make")
        .map(|row| row["amount"].as_u64().unwrap())
        .sum();
    assert_eq!(made, 1200, "{plan}");
}

/// By hand: a glass is 40 g of rum and 20 g of water for its ice out of the bottle, and 20 g of lime juice. 1.2 kg are 20 glasses;
/// 70 a week, ten a day: in date for the week they save 20 x 40 g, on their last day ten of them. The juice is fresh in every glass.
#[test]
fn what_is_bottled_ahead_is_poured_and_not_ordered_again() {
    let kitchen = Kitchen::new(LARDER);
    let drink = "name = \"Dusk\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\n\"house rum\" = \"40 g\"\n\"lime juice\" = \"20 g\"\n";
    kitchen.write("dusk.toml", drink);
    kitchen.write("menu.toml", "[drink.Dusk]\nsold = 70\n");
    kitchen.run(&["serve", "dusk.toml", "--make", "20", "-o", "batch.toml"]);
    let plan = |of_batch: &str| {
        let board = "[plan]\nfrom = 2026-11-30\ndays = 7\n[ingredient.\"house rum\"]\npack = \"1 g\"\n\
             [ingredient.\"lime juice\"]\npack = \"1 g\"\n";
        kitchen.write("plan.toml", &format!("{board}[product.\"Dusk, batch\"]\n{of_batch}"));
        kitchen.json(&["plan", "."])
    };
    let need = |plan: &Value, of: &str| {
        let order =
            plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == of).unwrap_or_else(|| panic!("{plan}"));
        order["need"].as_f64().unwrap()
    };
    for (use_by, poured, rum) in [("2026-12-20", 20, 2000.0), ("2026-11-30", 10, 2400.0)] {
        let plan = plan(&format!("on_hand = [{{ amount = \"1200 g\", use_by = {use_by} }}]\n"));
        assert_eq!(plan["of_bottles"]["Dusk"], poured, "{plan}");
        assert_eq!((need(&plan, "house rum"), need(&plan, "Lime juice, fresh")), (rum, 1400.0), "{plan}");
    }
    // a bottle that the board has made is made for the glasses: 50 more of them in the week
    let plan = plan("par = \"60 g\"\non_hand = [{ amount = \"1200 g\", use_by = 2026-12-20 }]\n");
    let made =
        plan["prep"].as_array().unwrap().iter().filter(|row| row["what"] == "make" && row["of"] == "Dusk, batch");
    let made: f64 = made.map(|row| row["amount"].as_f64().unwrap()).sum();
    assert!((3000.0..3200.0).contains(&made), "{plan}");
    assert!((need(&plan, "house rum") - made * 40.0 / 60.0).abs() < 2.0, "{plan}");
    assert_eq!(need(&plan, "Lime juice, fresh"), 1400.0, "{plan}");
}

/// By hand: half a glass of Dusk, 30 g, goes into a Long: 1.2 kg of it are 40 glasses of 70, and 30 x 20 g of rum are bought. On its last
/// day ten of them are poured, and the other 900 g thrown away. The ice: 150 g under each of 70; 100 g for a whole Dusk, of which
/// the bottle has the water, and of which an undiluted one has not.
#[test]
fn what_is_bottled_of_a_drink_inside_is_poured_for_it() {
    let kitchen = Kitchen::new(LARDER);
    let drink = "name = \"Dusk\"\nhow = \"stirred\"\nwater = \"20 g\"\n[ice]\ngrams = \"100 g\"\n[parts]\n\"house rum\" = \"40 g\"\n";
    kitchen.write("dusk.toml", drink);
    let long = "name = \"Long\"\nhow = \"built\"\n[ice]\ngrams = \"150 g\"\n[parts]\nDusk = \"30 g\"\n\"soda water\" = \"60 g\"\n";
    kitchen.write("long.toml", long);
    kitchen.write("menu.toml", "[drink.Long]\nsold = 70\n");
    let plan = |bottle: &str, amount: &str, use_by: &str| {
        let board = format!(
            "[plan]\nfrom = 2026-11-30\ndays = 7\n[ingredient.\"house rum\"]\npack = \"1 g\"\n\
             [product.\"{bottle}\"]\non_hand = [{{ amount = \"{amount}\", use_by = {use_by} }}]\n"
        );
        kitchen.write("plan.toml", &board);
        kitchen.json(&["plan", "."])
    };
    let rum = |plan: &Value| {
        let order = plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == "house rum").cloned();
        order.unwrap_or_else(|| panic!("{plan}"))["need"].as_f64().unwrap()
    };
    let thrown = |plan: &Value| -> f64 {
        let rows = plan["prep"].as_array().unwrap().iter().filter(|row| row["what"] == "throw away");
        rows.map(|row| row["amount"].as_f64().unwrap()).sum()
    };
    let inside = |plan: &Value, glasses: u64| {
        let of = plan["inside_of_bottles"].as_array().unwrap();
        assert_eq!((of.len(), &of[0]["drink"], &of[0]["inside"]), (1, &"Long".into(), &"Dusk".into()), "{plan}");
        assert_eq!((&of[0]["glasses"], &plan["of_bottles"]), (&glasses.into(), &serde_json::json!({})), "{plan}");
        ["each", "water_g"].map(|key| of[0][key].as_f64().unwrap().round())
    };
    kitchen.run(&["serve", "dusk.toml", "--make", "20", "-o", "batch.toml"]);
    let week = plan("Dusk, batch", "1200 g", "2026-12-20");
    assert_eq!(inside(&week, 40), [30.0, 0.0], "all of it is in the bottle");
    assert_eq!((rum(&week), thrown(&week)), (600.0, 0.0), "{week}");
    assert_eq!(week["not_ordered"]["ice_g"], 70.0 * 150.0 + 30.0 * 50.0, "{week}");
    let day = plan("Dusk, batch", "1200 g", "2026-11-30");
    inside(&day, 10);
    assert_eq!((rum(&day), thrown(&day)), (1200.0, 900.0), "{day}");
    let (_, page, _) = kitchen.run(&["plan", "."]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("the Dusk in 10 glasses of Long (in each 30 g of \"Dusk, batch\")"), "{page}");
    std::fs::remove_file(kitchen.folder().join("batch.toml")).unwrap();
    kitchen.run(&["serve", "dusk.toml", "--make", "20", "--undiluted", "-o", "neat.toml"]);
    let neat = plan("Dusk, undiluted", "800 g", "2026-12-20");
    assert_eq!(inside(&neat, 40), [20.0, 10.0], "half of the 20 g of water that the ice gives a Dusk");
    assert_eq!((rum(&neat), neat["not_ordered"]["ice_g"].as_f64().unwrap()), (600.0, 70.0 * 200.0), "{neat}");
    let (_, page, said) = kitchen.run(&["plan", "."]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("(in each 20 g of \"Dusk, undiluted\" and 10 ml water)"), "{page}");
    assert!(!said.contains("was changed after"), "{said}");
    // the card of the drink is changed: the bottles are poured for it until they are gone, and are not what it is
    kitchen.write("dusk.toml", &drink.replace("40 g", "50 g"));
    let (_, _, said) = kitchen.run(&["plan", "."]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains("a glass of the bottle has 40.0 g house rum, a glass by the card 50.0 g house rum"),
        "{said}"
    );
}

/// What is poured in the week is not thrown away at the end of it: 1.2 kg are 20 glasses of 60 g, ten a day.
#[test]
fn what_is_poured_of_a_bottle_is_taken_off_it() {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write(
        "dusk.toml",
        "name = \"Dusk\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\n\"house rum\" = \"40 g\"\n",
    );
    kitchen.write("menu.toml", "[drink.Dusk]\nsold = 70\n");
    kitchen.run(&["serve", "dusk.toml", "--make", "20", "-o", "batch.toml"]);
    for (use_by, left) in [("2026-11-30", Some(600.0)), ("2026-12-01", None)] {
        let board = format!(
            "[plan]\nfrom = 2026-11-30\ndays = 7\n[product.\"Dusk, batch\"]\non_hand = [{{ amount = \"1200 g\", use_by = {use_by} }}]\n"
        );
        kitchen.write("plan.toml", &board);
        let plan = kitchen.json(&["plan", "."]);
        let thrown = plan["prep"].as_array().unwrap().iter().find(|row| row["what"] == "throw away");
        assert_eq!(thrown.map(|row| row["amount"].as_f64().unwrap()), left, "{plan}");
        let made = plan["prep"].as_array().unwrap().iter().filter(|row| row["what"] == "make");
        assert_eq!(made.count(), 0, "{plan}");
    }
}

/// By hand: ten glasses a day with 20 g of lime juice each. What the juice's own date allows is bought at once; the rest for the days behind
/// that, and what is delivered on one day of the week alone is past its days by the end of it, which is said.
#[test]
fn juice_for_the_whole_week_is_not_bought_on_its_first_day() {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write(
        "sharp.toml",
        "name = \"Sharp\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"40 g\"\n\"lime juice\" = \"20 g\"\n",
    );
    kitchen.write("menu.toml", "[drink.Sharp]\nsold = 70\n");
    let plan = |shelf: &str| {
        let board =
            format!("[plan]\nfrom = 2026-11-30\ndays = 7\n[ingredient.\"lime juice\"]\npack = \"1 g\"\n{shelf}");
        kitchen.write("plan.toml", &board);
        kitchen.json(&["plan", "."])
    };
    let fresh = |plan: &Value| {
        let order = plan["orders"].as_array().unwrap().iter().find(|row| row["of"] == "Lime juice, fresh");
        order.unwrap_or_else(|| panic!("{plan}"))["fresh"].as_array().unwrap().clone()
    };
    let juice = kitchen.write("juice.toml", "name = \"Juice\"\n[parts]\n\"lime juice\" = \"1 kg\"\n");
    let date = kitchen.json(&["date", juice.to_str().unwrap(), "--made", "2026-11-30"]);
    let days = date["stores"][0]["days"].as_u64().unwrap_or_else(|| panic!("{date}"));
    assert!((2..7).contains(&days), "{date}");
    let any_day = plan("");
    let bought = fresh(&any_day);
    let amounts: Vec<f64> = bought.iter().map(|of| of["amount"].as_f64().unwrap()).collect();
    assert_eq!((amounts[0], amounts.iter().sum::<f64>()), (days as f64 * 200.0, 1400.0), "{any_day}");
    assert!(bought.iter().all(|of| of["arrives"] == of["needed"] && of["is_past"] == false), "{any_day}");
    let (_, page, _) = kitchen.run(&["plan", "."]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("Lime juice, fresh does not keep so long, buy it fresh: "), "{page}");
    let mondays = plan("deliver = [\"Mon\"]\n");
    let past: Vec<bool> = fresh(&mondays).iter().map(|of| of["is_past"].as_bool().unwrap()).collect();
    assert!(!past[0] && past.len() > 1 && past[1..].iter().all(|past| *past), "{mondays}");
    // what is there for the first days leaves less to buy, and a week's rum is bought at once
    let there = plan("on_hand = \"1400 g\"\n[ingredient.\"house rum\"]\npack = \"1 g\"\n");
    let orders = there["orders"].as_array().unwrap();
    assert!(orders.iter().all(|row| row["of"] == "house rum" && row["fresh"] == serde_json::json!([])), "{there}");
}
