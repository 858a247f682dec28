//! Cards by the ways people name them, cards that are handed over, everything that is wrong in one run: as the command does it.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use crate::kitchen::Kitchen;
use serde_json::Value;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
    command.args(arguments).current_dir(folder).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    command.output().unwrap()
}

fn fed(folder: &Path, arguments: &[&str], input: &str) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
    command.args(arguments).current_dir(folder).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}\n{}{}", out(output), err(output)))
}

/// A folder with nothing of a house in it, but for the settings of the demo house where they are asked for.
fn empty(with_settings: bool) -> Kitchen {
    let kitchen = Kitchen::unstated("");
    fs::remove_file(kitchen.folder().join("larder.toml")).unwrap();
    match with_settings {
        true => fs::copy(Path::new(ROOT).join("formulas/house.toml"), kitchen.folder().join("house.toml")).map(|_| ()),
        false => fs::remove_file(kitchen.folder().join("house.toml")),
    }
    .unwrap();
    kitchen
}

/// Without the files that it was read with or speaks of, and without places: a line of the bundle is another line.
fn comparable(mut report: Value) -> Value {
    fn clean(value: &mut Value) {
        match value {
            Value::Object(map) => {
                for key in ["file", "line", "column", "labels"] {
                    map.remove(key);
                }
                map.values_mut().for_each(clean);
            }
            Value::Array(items) => {
                items.retain(|item| item["code"] != "files-used");
                items.iter_mut().for_each(clean);
            }
            _ => {}
        }
    }
    clean(&mut report);
    report
}

#[test]
fn a_bundle_is_the_card_in_another_house() {
    let root = Path::new(ROOT).join("formulas");
    for name in
        ["allspice-dram", "spiced-orange-liqueur", "split-lime-juice", "coffee-liqueur", "honey-syrup", "plain-syrup"]
    {
        let bundle = run(&root, &["card", "bundle", &format!("{name}.toml")]);
        assert!(bundle.status.success(), "{}", err(&bundle));
        let kitchen = empty(true);
        kitchen.write("theirs.toml", &out(&bundle));
        for verb in ["solve", "date"] {
            let made = ["--made", "2026-11-25", "--json"];
            let ours = run(&root, &[&[verb, &format!("{name}.toml")], &made[..]].concat());
            let theirs = run(kitchen.folder(), &[&[verb, "theirs.toml"], &made[..]].concat());
            assert_eq!(comparable(json(&ours)), comparable(json(&theirs)), "{name} {verb}");
        }
        let check = run(kitchen.folder(), &["check", "theirs.toml"]);
        let own = run(&root, &["check", &format!("{name}.toml")]);
        assert_eq!(check.status.code(), own.status.code(), "{name}\n{}", err(&check));
    }
}

#[test]
fn a_bundle_says_nothing_of_money() {
    let root = Path::new(ROOT).join("formulas");
    let text = out(&run(&root, &["card", "bundle", "coffee-liqueur.toml"]));
    assert!(
        text.contains("[ingredient.\"cold coffee concentrate\"]") && text.contains("like = \"espresso\""),
        "{text}"
    );
    assert!(!text.contains("GBP") && !text.contains("price"), "{text}");
    // the card's own remarks go with it
    assert!(text.contains("# a point above 20"), "{text}");
    let priced = out(&run(&root, &["card", "bundle", "coffee-liqueur.toml", "--with-prices"]));
    assert!(priced.contains("price = \"11.00 GBP / 1 L\""), "{priced}");
}

#[test]
fn what_a_bundle_brings_wins_in_it_and_a_clash_is_said() {
    let root = Path::new(ROOT).join("formulas");
    let bundle = out(&run(&root, &["card", "bundle", "allspice-dram.toml"]));
    let kitchen = empty(false);
    kitchen.write("larder.toml", "[ingredient.\"overproof white rum\"]\nabv = 75.5\n");
    kitchen.write("dram.toml", &bundle);
    let solved = run(kitchen.folder(), &["solve", "dram", "--json"]);
    let alone = empty(false);
    alone.write("dram.toml", &bundle);
    let without = run(alone.folder(), &["solve", "dram", "--json"]);
    assert_eq!(json(&solved)["parts"], json(&without)["parts"]);
    let said = json(&solved)["diagnostics"].as_array().unwrap().iter().filter(|d| d["code"] == "bundle-wins").count();
    assert_eq!(said, 1, "{}", out(&solved));
}

#[test]
fn a_ring_is_handed_over_as_it_is_and_said_where_it_is_made() {
    let kitchen = empty(false);
    let card = |name: &str, other: &str| {
        format!(
            "name = \"{name}\"\nmakes = \"1 L\"\n[parts]\n{other} = \"1 part by weight\"\nwater = \"1 part by weight\"\n"
        )
    };
    kitchen.write("a.toml", &card("Aa", "Bb"));
    kitchen.write("b.toml", &card("Bb", "Aa"));
    let bundle = run(kitchen.folder(), &["card", "bundle", "a"]);
    assert_eq!(out(&bundle).matches("[[card]]").count(), 1);
    let other = empty(false);
    other.write("a.toml", &out(&bundle));
    let solved = run(other.folder(), &["solve", "a"]);
    assert_eq!(solved.status.code(), Some(1), "{}", err(&solved));
    assert!(err(&solved).contains("formula-ring"), "{}", err(&solved));
}

#[test]
fn a_bundle_is_never_written_over_a_file() {
    let kitchen = empty(false);
    let card = "name = \"Syrup\"\n[parts]\nwater = \"1 kg\"\n\"white sugar\" = \"1 kg\"\n";
    kitchen.write("syrup.toml", card);
    let written = run(kitchen.folder(), &["card", "bundle", "syrup", "-o", "syrup.toml"]);
    assert!(!written.status.success());
    assert_eq!(fs::read_to_string(kitchen.folder().join("syrup.toml")).unwrap(), card);
    let written = run(kitchen.folder(), &["card", "bundle", "syrup", "-o", "given.toml"]);
    assert!(written.status.success(), "{}", err(&written));
    assert_eq!(fs::read_to_string(kitchen.folder().join("given.toml")).unwrap(), card);
}

/// An unknown unit hides no unknown ingredient, and neither hides a piece that nobody has weighed.
#[test]
fn all_faults_are_heard_in_one_run() {
    let kitchen = empty(false);
    let card = "name = \"Faulty\"\nmakes = \"1 L\"\nserving = \"a glass\"\n\n[parts]\n\"white sugar\" = \"2 flagons\"\n\
        \"quince nectar of the hill\" = \"300 ml\"\n\"nettle dust of the moor\" = \"3 shovels\"\nwater = \"3 each\"\n\
        almonds = { amount = \"20 g\", strained = true }\n";
    kitchen.write("faulty.toml", card);
    let found = json(&run(kitchen.folder(), &["solve", "faulty.toml", "--json"]))["diagnostics"].clone();
    let found = found.as_array().unwrap();
    let count = |code: &str| found.iter().filter(|d| d["code"] == code).count();
    let serving = |d: &&Value| d["message"].as_str().unwrap().contains("a serving of `a glass`");
    assert_eq!(found.iter().filter(serving).count(), 1, "{found:#?}");
    assert_eq!(count("unknown-ingredient"), 2, "{found:#?}");
    assert_eq!(count("piece-unknown"), 2, "a flagon, and a piece of water: {found:#?}");
    for finding in found {
        let same = |d: &&Value| {
            (&d["code"], &d["line"], &d["message"]) == (&finding["code"], &finding["line"], &finding["message"])
        };
        assert_eq!(found.iter().filter(same).count(), 1, "{finding}");
    }
    let check = err(&run(kitchen.folder(), &["check", "faulty.toml"]));
    assert!(check.contains("quince nectar") && check.contains("nettle dust") && check.contains("flagons"), "{check}");
}

/// With a bad word elsewhere on the card an impossible size is still heard.
#[test]
fn an_impossible_yield_is_heard_beside_a_bad_serving() {
    let kitchen = empty(false);
    kitchen.write("little.toml", "name = \"Little\"\nmakes = \"5 L\"\nserving = \"a glass\"\n[parts]\nwater = \"1 kg\"\n\"white sugar\" = \"1 kg\"\n");
    let said = err(&run(kitchen.folder(), &["solve", "little"]));
    assert!(said.contains("yield-impossible") && said.contains("serving"), "{said}");
}

#[test]
fn a_part_with_the_name_of_the_card_is_the_ingredient() {
    let kitchen = empty(false);
    kitchen.write(
        "honey.toml",
        "name = \"Honey\"\nmakes = \"1 L\"\n[parts]\nhoney = \"2 parts by weight\"\nwater = \"1 part by weight\"\n",
    );
    let solved = run(kitchen.folder(), &["solve", "honey"]);
    assert!(solved.status.success() || !err(&solved).contains("part of itself"), "{}", err(&solved));
    assert!(out(&solved).contains("honey"), "{}", err(&solved));
    kitchen.write("zz.toml", "name = \"Moor blend\"\nmakes = \"1 L\"\n[parts]\n\"moor blend\" = \"2 parts by weight\"\nwater = \"1 part by weight\"\n");
    let refused = err(&run(kitchen.folder(), &["solve", "zz"]));
    assert!(refused.contains("own-part") && refused.contains("call one of them otherwise"), "{refused}");
}

#[test]
fn an_entry_to_fill_in_offers_no_figure() {
    let kitchen = empty(false);
    kitchen.write("larder.toml", "# ours\n[ingredient.\"house gin\"]\nabv = 41\n");
    let printed = run(kitchen.folder(), &["larder", "add", "hill farm honey"]);
    let text = out(&printed);
    assert!(text.starts_with("[ingredient.\"hill farm honey\"]\n"), "{text}");
    assert!(text.contains("# like = \"Honey\""), "{text}");
    for line in text.lines().skip(1) {
        assert!(line.starts_with('#'), "nothing is stated: {line}");
    }
    for never in ["food =", "allergens =", "ph ="] {
        assert!(!text.contains(never), "{never}\n{text}");
    }
    let written = run(kitchen.folder(), &["larder", "add", "hill farm honey", "--write"]);
    assert!(written.status.success(), "{}", err(&written));
    let larder = fs::read_to_string(kitchen.folder().join("larder.toml")).unwrap();
    assert!(
        larder.starts_with("# ours\n[ingredient.\"house gin\"]\nabv = 41\n\n[ingredient.\"hill farm honey\"]\n"),
        "{larder}"
    );
    // what is not filled in is not used
    let shown = run(kitchen.folder(), &["larder", "add", "hill farm honey", "--write"]);
    assert_eq!(shown.status.code(), Some(1), "{}", err(&shown));
    kitchen.write(
        "card.toml",
        "name = \"Card\"\nmakes = \"1 L\"\n[parts]\n\"hill farm honey\" = \"1 kg\"\nwater = \"as needed\"\n",
    );
    assert_eq!(run(kitchen.folder(), &["solve", "card"]).status.code(), Some(1));
    // one that is known built in is taken as it is, to say more of it
    let known = out(&run(kitchen.folder(), &["larder", "add", "white sugar"]));
    assert!(known.contains("like = \"white sugar\"") && !known.contains("abv"), "{known}");
    let unknown = err(&run(kitchen.folder(), &["larder", "moor dust"]));
    assert!(unknown.contains("stillroom larder add \"moor dust\""), "{unknown}");
}

/// One card by every name that it has.
#[test]
fn a_card_is_found_by_its_file_its_stem_and_its_name() {
    let kitchen = empty(false);
    let card = "name = \"Lane syrup\"\n[parts]\nwater = \"1 kg\"\n\"white sugar\" = \"1 kg\"\n";
    fs::create_dir(kitchen.folder().join("formulas")).unwrap();
    kitchen.write("formulas/one-to-one.toml", card);
    let here = kitchen.folder();
    let from = |folder: &Path, arguments: &[&str]| {
        let solved = run(folder, arguments);
        assert!(solved.status.success(), "{arguments:?} {}", err(&solved));
        assert!(out(&solved).contains("Lane syrup"), "{}", out(&solved));
    };
    for which in [
        "formulas/one-to-one.toml",
        "formulas/one-to-one",
        "one-to-one.toml",
        "one-to-one",
        "Lane syrup",
        "lane syrups",
    ] {
        from(here, &["solve", which]);
    }
    let elsewhere = std::env::temp_dir();
    let folder = here.to_str().unwrap();
    from(&elsewhere, &["-C", folder, "solve", "one-to-one"]);
    from(&elsewhere, &["solve", "one-to-one", "--house", folder]);
    let piped = fed(here, &["solve", "-"], card);
    assert!(out(&piped).contains("Lane syrup"), "{}", err(&piped));
    let broken = fed(here, &["solve", "-"], "name = \"x\"\n[parts]\nwater = \"1 flagon\"\n");
    assert!(err(&broken).contains("standard input:3:") && err(&broken).contains("1 flagon"), "{}", err(&broken));
    let missing = run(here, &["solve", "nothing-of-that-name"]);
    assert_eq!(missing.status.code(), Some(2));
    assert!(err(&missing).contains("there is no file `nothing-of-that-name` here"), "{}", err(&missing));
    let missing = run(here, &["-C", "no-such-house", "check"]);
    assert!(err(&missing).contains("there is no folder `no-such-house` here"), "{}", err(&missing));
    assert!(!err(&missing).contains("os error"));
}

#[test]
fn a_recipe_is_pasted_from_a_file_or_from_standard_input() {
    let kitchen = empty(false);
    let recipe = "Lane syrup\n1 kg water\n1 kg white sugar\n";
    kitchen.write("recipe.txt", recipe);
    let of_file = out(&run(kitchen.folder(), &["card", "paste", "recipe.txt"]));
    assert_eq!(of_file, out(&fed(kitchen.folder(), &["card", "paste"], recipe)));
    kitchen.write("lane.toml", &of_file);
    assert!(run(kitchen.folder(), &["solve", "lane"]).status.success());
    let asks = run(kitchen.folder(), &["card", "paste", "no-such.txt"]);
    assert_eq!(asks.status.code(), Some(2));
    let asks = fed(kitchen.folder(), &["card", "paste", "--json"], "3 glugs of rum\n");
    assert_eq!(json(&asks)["schema"], "stillroom.card/1");
    assert!(!json(&asks)["questions"].as_array().unwrap().is_empty());
}

#[test]
fn colour_is_used_when_it_is_asked_for() {
    let root = Path::new(ROOT);
    let coloured = |when: &str| err(&run(root, &["--color", when, "solve", "nothing"])).contains('\u{1b}');
    assert_eq!([coloured("always"), coloured("never"), coloured("auto")], [true, false, false]);
}

#[test]
fn a_shell_is_told_of_the_products() {
    let root = Path::new(ROOT).join("formulas");
    let script = out(&run(&root, &["completions", "bash"]));
    assert!(script.contains("stillroom") && script.contains("COMPLETE"), "{script}");
    let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
    command.args(["--", "stillroom", "solve", "Lime c"]).env("COMPLETE", "fish").current_dir(&root);
    let offered = out(&command.output().unwrap());
    assert!(offered.contains("Lime cordial"), "{offered}");
}

#[test]
fn every_verb_has_a_page_of_the_manual() {
    let kitchen = empty(false);
    let written = run(kitchen.folder(), &["man", "pages"]);
    assert!(written.status.success(), "{}", err(&written));
    for page in ["stillroom.1", "stillroom-solve.1", "stillroom-card.1", "stillroom-larder.1"] {
        let text = fs::read_to_string(kitchen.folder().join("pages").join(page)).unwrap();
        assert!(text.contains(".TH") && text.contains("stillroom"), "{page}\n{text}");
    }
}

#[test]
fn tables_are_safe_in_a_spreadsheet() {
    let kitchen = empty(false);
    let like = "like = \"white sugar\"\nfood = \"sold as food, label\"\nprice = \"1 GBP / 1 kg\"\n";
    kitchen.write("larder.toml", &format!("[ingredient.\"=1+1\"]\n{like}[ingredient.\"@sum, of two\"]\n{like}"));
    kitchen.write(
        "odd.toml",
        "name = \"Odd\"\n[parts]\n\"=1+1\" = \"1 kg\"\n\"@sum, of two\" = \"1 kg\"\nwater = \"1 kg\"\n",
    );
    for verb in ["solve", "cost"] {
        let table = out(&run(kitchen.folder(), &[verb, "odd", "--csv"]));
        let mut rows = csv::Reader::from_reader(table.as_bytes());
        let rows: Vec<_> = rows.records().map(Result::unwrap).collect();
        assert!(rows.len() >= 2, "{table}");
        let cells: Vec<&str> = rows.iter().flatten().collect();
        assert!(cells.contains(&"'=1+1") && cells.contains(&"'@sum, of two"), "{table}");
        assert!(cells.iter().all(|cell| !cell.starts_with(['=', '+', '@', '\t'])), "{table}");
    }
    let table = out(&run(Path::new(ROOT), &["solve", "formulas/plain-syrup.toml", "--csv"]));
    assert!(table.starts_with("stage,part,g,ml_at_20_c,scale_reads_g,card_says,strained\n,white sugar,"), "{table}");
}

/// What a bottle says of its drink and of the guest goes into the text of its card, and comes back out of it.
#[test]
fn the_text_of_a_bottle_says_what_it_pours_and_how_a_guest_gets_it() {
    let kitchen = Kitchen::new("");
    let card = "name = \"Ferry, batch\"\nserving = \"75.7 ml\"\npours = \"Ferry\"\n\
                for_a_guest = \"pour 75.7 ml (73 g), add 25 ml ginger beer, serve it cold, no ice\"\n\
                [parts]\nvodka = \"400 g\"\nwater = \"300 g\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\nmore_water = \"41.5 %\"\n";
    kitchen.write("bottle.toml", card);
    let (code, text, said) = kitchen.run(&["card", "text", "bottle.toml"]);
    assert_eq!(code, Some(0), "{said}");
    for line in ["Pours: Ferry", "For a guest: pour 75.7 ml (73 g), add 25 ml ginger beer", "more water 41.5 %"] {
        assert!(text.contains(line), "{text}");
    }
    let house = crate::kitchen::house_of(kitchen.folder()).0;
    let pasted = stillroom::paste::paste(&text, &house).card;
    for key in ["pours = \"Ferry\"", "for_a_guest = \"pour 75.7 ml", "more_water = \"41.5 %\""] {
        assert!(pasted.contains(key), "{pasted}");
    }
}
