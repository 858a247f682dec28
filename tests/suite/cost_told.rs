//! What `cost` and its neighbours tell a person: nothing surer than it is, nothing without the stop that goes before it.

use crate::kitchen::Kitchen;

fn house() -> Kitchen {
    let house = Kitchen::new(
        "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1.10 GBP / 1 kg\"\n\
         [ingredient.\"calamus root\"]\nper_100g = { insoluble = 100 }\nprice = \"30 GBP / 1 kg\"\n\
         [ingredient.raspberries]\nlike = \"raspberries\"\nprice = \"11.95 GBP / 1 kg\"\nusable = \"88.5 %\"\n\
         [ingredient.lime]\nlike = \"lime\"\nprice = \"3.60 GBP / pack of 12\"\npiece = \"80 g\"\nusable = \"80 %\"\n",
    );
    house.write(
        "house.toml",
        "[house]\ncurrency = \"GBP\"\n[costs]\ngross_profit = \"80 %\"\nlabour = \"14 GBP / h\"\n",
    );
    house.write("syrup.toml", &card("labour = \"5 min\"", ""));
    house
}

/// A litre of syrup with something more in it.
fn card(head: &str, more: &str) -> String {
    let parts = "\"white sugar\" = \"400 g\"\nwater = \"as needed\"\n";
    format!("name = \"Syrup\"\nmakes = \"1 L\"\nserving = \"25 ml\"\n{head}\n[parts]\n{more}\n{parts}")
}

#[test]
fn a_stop_goes_before_the_money_and_before_the_mending() {
    let house = house();
    house.write(
        "bad.toml",
        &card("labour = \"5 min\"", "\"calamus root\" = { amount = \"5 g\", strained = true, holds = 1.0 }"),
    );
    let stop = |out: &str| out.lines().find(|line| !line.is_empty()).is_some_and(|line| line.starts_with("STOP  "));
    for arguments in
        [&["cost", "bad.toml"][..], &["adjust", "bad.toml", "--have", "1L", "--brix", "30", "--with", "water"]]
    {
        let adjust = [arguments, if arguments[0] == "adjust" { &["--set", "brix=25"][..] } else { &[] }].concat();
        let (code, out, error) = house.run(&adjust);
        assert!(code == Some(1) && stop(&out) && out.len() > 200, "{adjust:?}: {code:?}\n{out}{error}");
        let told = house.json(&adjust);
        assert_eq!(told["stops"][0]["severity"], "stop", "{told}");
    }
    assert_eq!(house.run(&["solve", "bad.toml"]).0, Some(1), "the same exit code");
    let (code, out, _) = house.run(&["cost", "syrup.toml"]);
    assert!(code == Some(0) && !out.contains("STOP"), "{out}");
}

#[test]
fn what_is_incomplete_is_said_to_be_at_least_and_sells_nothing() {
    let house = house();
    house.write("inc.toml", &card("labour = \"5 min\"", "\"lemon juice\" = \"200 ml\""));
    let arguments = ["cost", "inc.toml", "--against", "10 GBP / 700 ml", "--sell-at", "8 GBP"];
    let (code, out, error) = house.run(&arguments);
    assert_eq!(code, Some(0), "{error}");
    // 0.44 of sugar, 5 min at 14.00
    assert!(
        out.contains("1.61   at least, before tax") && out.contains("a litre             at least 1.61 GBP"),
        "{out}"
    );
    let figures = out.lines().skip_while(|line| !line.contains("a litre")).take_while(|line| line.contains("GBP"));
    assert!(figures.into_iter().all(|line| line.contains("at least")), "{out}");
    for not_said in ["Made or bought", "Selling", "most of the money"] {
        assert!(!out.contains(not_said), "{out}");
    }
    assert!(
        error.contains("not said: whether to make or to buy it") && error.contains("not said: what to sell it for")
    );
    let told = house.json(&arguments);
    assert_eq!(
        (&told["complete"], &told["batch"], &told["per_litre"]),
        (&false.into(), &"1.61".into(), &"1.61".into())
    );
    assert!(told["selling"].is_null() && told["against"].is_null() && told["most"].is_null(), "{told}");
    assert!(house.json(&["cost", "syrup.toml", "--against", "10 GBP / 700 ml"])["against"].is_object());
}

#[test]
fn a_yield_gives_the_price_of_what_can_be_used() {
    let house = house();
    house.write(
        "crush.toml",
        &card(
            "labour = \"5 min\"",
            "raspberries = \"300 g\"\nlime = { amount = \"80 g\", strained = true, holds = 1.0 }",
        ),
    );
    let (_, out, _) = house.run(&["cost", "crush.toml"]);
    assert!(out.contains("11.95 GBP / 1 kg, 88.5 % usable = 13.50 GBP per usable kg"), "{out}");
    // 12.5 fruit of 80 g weigh a kilogram: 15.625 for one that can be used, at 0.30 each
    assert!(out.contains("3.60 GBP / pack of 12, 80 % usable = 4.69 GBP per usable kg"), "{out}");
    assert!(out.contains("what was thrown away (peel, core, stalks) 0.54"), "{out}");
    let told = house.json(&["cost", "crush.toml"]);
    let line = |of: &str| told["lines"].as_array().unwrap().iter().find(|l| l["of"] == of).unwrap().clone();
    assert_eq!(line("raspberries")["per_usable_kg"], "13.50");
    assert!(line("white sugar")["per_usable_kg"].is_null());
    let (_, out, _) = house.run(&["larder", "raspberries"]);
    assert!(out.contains("11.95 GBP / 1 kg, 88.5 % of it usable = 13.50 GBP per usable kg"), "{out}");
    assert_eq!(house.json(&["larder", "raspberries"])["ingredients"][0]["per_usable_kg"], "13.50");
}

#[test]
fn figures_are_as_fine_as_a_person_uses_them() {
    let house = house();
    let (_, out, _) = house.run(&["cost", "syrup.toml", "--sell-at", "9 GBP", "--sell-measure", "5 ml"]);
    // 1.61 a litre, 0.44 of it sugar: 0.00805 and 0.0022 for 5 ml, and 9.00 is 4,091 times as much as the sugar
    assert!(
        out.contains("Selling 5 ml that cost 0.00805 GBP, its ingredients 0.0022")
            && out.contains("a markup of 4090 times the ingredients"),
        "{out}"
    );
    let (_, out, _) = house.run(&["cost", "syrup.toml"]);
    assert!(
        out.contains("a markup of 400 % on the ingredients") && out.contains("1 dash (0.9 ml)     0.00145 GBP"),
        "{out}"
    );
}
