//! What a person mistypes, or a house has in it: each says what it is, to whom it concerns, and nothing else.

use crate::kitchen::Kitchen;

const SYRUP: &str = "makes = \"1 L\"\n[parts]\n\"white sugar\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n";

fn one_syrup(larder: &str) -> Kitchen {
    Kitchen::new(larder).with(&[("syrup", &format!("name = \"Syrup\"\n{SYRUP}"))])
}

#[test]
fn a_quantity_below_zero_reaches_its_reader() {
    let house = one_syrup("");
    for (said, arguments) in [
        ("--make \"-1L\": `-1` is below zero", &["solve", "syrup.toml", "--make", "-1L"][..]),
        ("--make \"-3L\": `-3` is below zero", &["cost", "syrup.toml", "--make", "-3L"]),
        ("--make \"-1L\": `-1` is below zero", &["square", "--strong", "63", "--target", "40", "--make", "-1L"]),
        ("--have \"-2L\": `-2` is below zero", &["adjust", "syrup.toml", "--have", "-2L"]),
        ("--brix \"-3\": `brix` is -3", &["adjust", "syrup.toml", "--have", "2L", "--brix", "-3"]),
        ("--ph \"-1\": `-1` is below zero", &["read", "--ph", "-1"]),
        ("--titre \"-12ml\": `-12` is below zero", &["read", "--titre", "-12ml", "--sample", "15ml"]),
        ("--against \"-3 GBP / 1 L\": `-3 GBP` is below nothing", &["cost", "syrup.toml", "--against", "-3 GBP / 1 L"]),
    ] {
        let (code, _, error) = house.run(arguments);
        assert!(code == Some(2) && error.contains(said), "{arguments:?}\n{error}");
    }
    // a freezer is a place like any other
    let (code, out, error) = house.run(&["solve", "syrup.toml", "--at", "-18C"]);
    assert!(code == Some(0) && !out.is_empty(), "{error}");
}

#[test]
fn a_day_is_of_a_year_in_which_a_bar_can_work() {
    let house = one_syrup("");
    house.write("plan.toml", "[product.Syrup]\nuse = \"1 L a week\"\n");
    for written in ["9999-12-31", "0001-01-01", "+10000-01-01"] {
        for (option, arguments) in [
            ("--made", &["date", "syrup.toml"][..]),
            ("--made", &["solve", "syrup.toml"]),
            ("--today", &["cost", "syrup.toml"]),
            ("--from", &["plan", "."]),
        ] {
            let (code, _, error) = house.run(&[arguments, &[option, written]].concat());
            let said = format!("{option} \"{written}\": not a day from the year 1900 to 9000");
            assert!(code == Some(2) && error.contains(&said), "{arguments:?}\n{error}");
        }
    }
    assert_eq!(house.run(&["date", "syrup.toml", "--made", "9000-12-31"]).0, Some(0));
}

#[test]
fn what_is_there_already_is_not_asked_for_by_its_own_name() {
    let house = one_syrup("");
    house.write("afile", "");
    let (code, _, error) = house.run(&["new", "afile"]);
    assert!(code == Some(1) && error.contains("afile is a file") && !error.contains("house.toml"), "{error}");
    std::fs::write(house.folder().join("picture.toml"), [0xff, 0xd8]).unwrap();
    let (code, _, error) = house.run(&["solve", "picture.toml"]);
    assert!(code == Some(2) && error.contains("is not plain text") && !error.contains("did you mean"), "{error}");
}

#[test]
fn no_name_turns_the_text_round_it() {
    let house = Kitchen::new("[ingredient.\"rum\\u202E\"]\nabv = 40\n");
    for hidden in ["\\u202E", "\\u001b[31m", "\\u200b"] {
        house.write("card.toml", &format!("name = \"Sy{hidden}rup\"\n{SYRUP}"));
        let (code, out, error) = house.run(&["solve", "card.toml"]);
        assert!(
            code == Some(1) && error.contains("error[hidden-character]") && error.contains("card.toml:1:8"),
            "{error}"
        );
        assert!(!format!("{out}{error}").contains(['\u{202e}', '\u{1b}', '\u{200b}']), "{error}");
    }
    // the embeddings, overrides and isolates of Unicode Standard Annex 9, sections 2.1 to 2.5
    for explicit in ('\u{202a}'..='\u{202e}').chain('\u{2066}'..='\u{2069}') {
        house.write("card.toml", &format!("name = \"Sy{explicit}rup\"\nsteps = [\"Stir{explicit}it.\"]\n{SYRUP}"));
        let (code, out, error) = house.run(&["solve", "card.toml"]);
        assert!(code == Some(1) && error.contains("error[hidden-character]"), "{explicit:?} {error}");
        assert!(!format!("{out}{error}").contains(explicit), "{explicit:?} {error}");
    }
    // what is written elsewhere is shown, and obeyed by no terminal
    house.write("card.toml", &format!("name = \"Syrup\"\nsteps = [\"Stir\\u001b[2J\\u202Eit.\"]\n{SYRUP}"));
    let (_, out, _) = house.run(&["solve", "card.toml"]);
    assert!(out.contains("Stir\u{fffd}[2J\u{fffd}it."), "{out}");
    let (_, _, error) = house.run(&["solve", "no\u{202e}where.toml"]);
    assert!(error.contains("no\u{fffd}where.toml"), "{error}");
}

#[test]
fn what_is_wrong_in_the_house_is_said_to_whom_it_concerns() {
    let house = one_syrup("");
    house.write("a.toml", &format!("name = \"Twin\"\n{SYRUP}"));
    house.write("b.toml", &format!("name = \"Twin\"\n{SYRUP}"));
    house.write("huge.toml", &"#".repeat(5 << 20));
    house.write("user.toml", "name = \"User\"\nmakes = \"1 L\"\n[parts]\nTwin = \"500 g\"\nwater = \"as needed\"\n");
    house.write("plan.toml", "[product.Syrup]\nuse = \"1 L a week\"\n");
    for arguments in [
        &["solve", "syrup.toml"][..],
        &["date", "syrup.toml"],
        &["larder", "honey"],
        &["swap", "syrup.toml", "--old", "white sugar", "--new", "honey"],
        &["plan", "."],
        &["read", "--refractometer", "50"],
    ] {
        let (code, _, error) = house.run(arguments);
        assert!(code == Some(0) && !error.contains("Twin") && !error.contains("huge"), "{arguments:?}\n{error}");
    }
    for arguments in [&["solve", "user.toml"][..], &["solve", "twin"], &["check", "."]] {
        let error = house.run(arguments).2;
        assert_eq!(error.matches("two formulas have the name `Twin`").count(), 1, "{arguments:?}\n{error}");
    }
    assert!(house.run(&["check", "."]).2.contains("huge.toml is larger than 4 MiB"));
}

#[test]
fn an_entry_with_a_mistake_stops_only_the_cards_that_use_it() {
    let house = one_syrup(
        "[ingredient.\"bar honey\"]\nlike = \"honey\"\nbrixx = 80\n[ingredient.\"spiced honey\"]\nlike = \"bar honey\"\n\
         [ingredient.gin]\nabv = 40\n[ingredient.\"caster sugar\"]\nlike = \"caster sugar\"\nusable = \"130 %\"\n",
    );
    let (code, out, error) = house.run(&["solve", "syrup.toml"]);
    assert!(code == Some(0) && !out.is_empty(), "{error}");
    let left_out = "left out of the larder, for what is wrong with it: `bar honey`, `spiced honey`, `caster sugar`";
    assert!(error.contains(left_out) && error.matches("warning").count() == 1, "{error}");
    // also by way of `like`, and of a card inside; an embedded ingredient of the name does not stand in
    let card =
        |of: &str| format!("name = \"X\"\nmakes = \"1 L\"\n[parts]\n\"{of}\" = \"500 g\"\nwater = \"as needed\"\n");
    house.write("inner.toml", &card("spiced honey").replace("\"X\"", "\"Inner\""));
    for (of, said) in [
        ("bar honey", "has no key `brixx`"),
        ("spiced honey", "has no key `brixx`"),
        ("Inner", "has no key `brixx`"),
        ("caster sugar", "`130 %` is more than the whole"),
    ] {
        house.write("x.toml", &card(of));
        let (code, out, error) = house.run(&["solve", "x.toml"]);
        assert!(code == Some(1) && out.is_empty() && error.contains(said), "{of}: {code:?}\n{error}");
        assert_eq!(error.matches(said).count(), 1, "{error}");
        assert!(!error.contains("unknown-ingredient"), "{error}");
    }
    let (code, _, error) = house.run(&["check", "syrup.toml"]);
    assert!(code == Some(1) && error.contains("has no key `brixx`"), "{error}");
    // what does not parse at all is no larder
    let house = one_syrup("[ingredient.gin\nabv = 40\n");
    assert_eq!(house.run(&["solve", "syrup.toml"]).0, Some(2));
}
