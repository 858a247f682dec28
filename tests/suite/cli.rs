//! The command as a person or a program meets it: what it prints, how it ends. Whole outputs are snapshots
//! in `tests/suite/snapshots`; `INSTA_UPDATE=always` writes them anew: read every one of them.

use std::collections::BTreeSet;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use crate::kitchen::Kitchen;
use serde_json::Value;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");
const VERBS: [&str; 11] =
    ["solve", "square", "adjust", "swap", "date", "read", "cost", "check", "larder", "explain", "new"];

fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
    command.args(arguments).current_dir(folder).env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE");
    command
}

fn run_in(folder: &Path, arguments: &[&str]) -> Output {
    command(folder, arguments).output().unwrap()
}

fn run(arguments: &[&str]) -> Output {
    run_in(Path::new(ROOT), arguments)
}

/// Everything that a run says, with its exit code.
fn whole(output: &Output) -> String {
    let said = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).unwrap();
    let mut text = format!("exit code {}\n", output.status.code().unwrap());
    for (name, bytes) in [("stdout", &output.stdout), ("stderr", &output.stderr)] {
        if !bytes.is_empty() {
            text.push_str(&format!("---- {name}\n{}", said(bytes)));
        }
    }
    text
}

fn code(arguments: &[&str]) -> i32 {
    run(arguments).status.code().unwrap()
}

fn json(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert!(output.stderr.is_empty(), "{arguments:?} {}", whole(&output));
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{arguments:?}: {e}\n{}", whole(&output)))
}

#[test]
fn weigh_sheets() {
    for name in ["rich-plain-syrup", "lime-and-clove-liqueur", "lime-cordial", "dried-lime-wheels"] {
        let output = run(&["solve", &format!("formulas/{name}.toml"), "--made", "2026-11-25"]);
        insta::assert_snapshot!(format!("solve-{name}"), whole(&output));
    }
    let output = run(&["solve", "formulas/saline.toml", "--made", "2026-11-25", "--json"]);
    insta::assert_snapshot!("solve-saline-json", whole(&output));
}

#[test]
fn squares() {
    let abv = run(&["square", "--strong", "63", "--target", "40", "--make", "1L"]);
    insta::assert_snapshot!("square-abv", whole(&abv));
    let brix = run(&["square", "--of", "brix", "--strong", "65", "--weak", "12", "--target", "24"]);
    insta::assert_snapshot!("square-brix", whole(&brix));
    let sugar = run(&["square", "--of", "brix", "--strong", "100", "--weak", "12", "--target", "24"]);
    insta::assert_snapshot!("square-dry-sugar", whole(&sugar));
    let outside = run(&["square", "--strong", "40", "--target", "45"]);
    insta::assert_snapshot!("square-outside", whole(&outside));
}

/// One guest's glass of each demo drink, a batch, a swap: what the bench reads fits on a pinned-up half sheet.
#[test]
fn drinks() {
    for name in ["clove-daiquiri", "almond-sour", "honey-old-fashioned", "spiced-swizzle", "lime-collins"] {
        let output = run(&["serve", &format!("formulas/{name}.toml")]);
        let text = String::from_utf8_lossy(&output.stdout);
        assert!(text.lines().count() <= 30 && text.lines().all(|line| line.chars().count() <= 60), "{text}");
        insta::assert_snapshot!(format!("serve-{name}"), whole(&output));
    }
    let forty = ["--make", "40", "--store", "freezer", "--made", "2026-11-25"];
    for name in ["clove-daiquiri", "honey-old-fashioned"] {
        let output = run(&[&["serve", &format!("formulas/{name}.toml")][..], &forty].concat());
        insta::assert_snapshot!(format!("batch-{name}"), whole(&output));
    }
    let card = "formulas/clove-daiquiri.toml";
    let light = ["swap", card, "--old", "Lime and clove liqueur", "--new", "Lime and clove liqueur, light"];
    insta::assert_snapshot!("swap-in-glass", whole(&run(&light)));
    insta::assert_snapshot!("solve-a-drink", whole(&run(&["solve", card, "--made", "2026-11-25"])));
    insta::assert_snapshot!("date-of-a-drink", whole(&run(&["date", card, "--made", "2026-11-25"])));
    for arguments in [
        &["serve", card, "--make", "0"][..],
        &["serve", card, "--make", "2.5"],
        &["serve", card, "--make", "4", "--store", "attic"],
    ] {
        assert_eq!(code(arguments), 2, "{arguments:?}");
    }
    // an ounce is what the house of the card says
    let (us, uk) = ("examples/hotel-bar/late-checkout.toml", "formulas/honey-old-fashioned.toml");
    let bottles = |card| ["serve", card, "--make", "20", "--bottle", "25 oz", "--json"];
    assert_eq!(json(&bottles(us))["bottle_ml"].as_f64().map(f64::round), Some(739.0));
    assert_eq!(code(&bottles(uk)), 2, "a mass, where no house says that it is a volume");
    let none = run(&["serve", "formulas/lime-cordial.toml"]);
    insta::assert_snapshot!("serve-no-drink", whole(&none));
    has(
        &json(&["serve", card, "--json"]),
        &["lines", "ice_water", "abv_pct", "uk_units", "allergens", "cost", "cautions"],
    );
}

#[test]
fn the_other_verbs() {
    for (name, arguments) in [
        ("check-formulas", vec!["check", "formulas"]),
        (
            "check-broken",
            vec!["check", "tests/bad/solve/abv-above-the-strongest.toml", "tests/bad/solve/yield-impossible.toml"],
        ),
        ("larder-honey", vec!["larder", "honey"]),
        ("larder-unknown", vec!["larder", "hony"]),
        ("explain-brix", vec!["explain", "brix"]),
        ("explain-code", vec!["explain", "out-of-reach"]),
        ("explain-unknown", vec!["explain", "brixx"]),
        ("help", vec!["--help"]),
        ("help-solve", vec!["solve", "--help"]),
    ] {
        insta::assert_snapshot!(name, whole(&run(&arguments)));
    }
}

/// What people say and a program would rather not hear.
#[test]
fn words_are_taken_as_they_are_said() {
    // "fill 8 x 700 ml" is eight bottles
    let said = json(&["solve", "formulas/rich-plain-syrup.toml", "--make", "fill 8 x 700 ml", "--json"]);
    assert!((said["yield"]["volume_ml"].as_f64().unwrap() - 5600.0).abs() < 3.0, "{}", said["yield"]);
    // eight bottles and what stays behind are in the pan
    let loss = json(&["solve", "formulas/plain-syrup.toml", "--make", "8 x 700 ml", "--json"]);
    let (pan, made) = (loss["pan"]["volume_ml"].as_f64().unwrap(), loss["yield"]["volume_ml"].as_f64().unwrap());
    // what is in the pan was weighed to the gram
    assert!((pan * 0.99 - made).abs() < 1.5, "1 % of {pan} stays behind, and {made} is bottled");
    // nobody weighs a ten-thousandth of a millilitre
    assert_eq!(code(&["solve", "formulas/plain-syrup.toml", "--make", "0.0001 ml"]), 1);
    // "rum" is the only rum of the card
    let rum = json(&["cost", "formulas/coffee-liqueur.toml", "--price", "rum=38 GBP/700 ml", "--json"]);
    let line = rum["lines"].as_array().unwrap().iter().find(|l| l["of"] == "overproof white rum").unwrap();
    let ml = json(&["solve", "formulas/coffee-liqueur.toml", "--json"])["parts"].as_array().unwrap().clone();
    let ml = ml.iter().find(|p| p["of"] == "overproof white rum").unwrap()["volume_ml"].as_f64().unwrap();
    let paid: f64 = line["cost"].as_str().unwrap().parse().unwrap();
    assert!((paid - 38.0 * ml / 700.0).abs() < 0.05, "{paid} for {ml} ml");
    // a price that cannot be read gives no costing at the old one
    let bad = run(&["cost", "formulas/coffee-liqueur.toml", "--price", "rum=3 XYZ / 1 kg"]);
    assert!(bad.status.code() == Some(2) && bad.stdout.is_empty());
    // a kilogram of 40 % from 96.2 %: 35.36 g of 100 g, as the worked example of the trade has it
    let square = json(&["square", "--strong", "96.2", "--target", "40", "--make", "1kg", "--json"]);
    let strong = square["exact"]["strong_mass_g"].as_f64().unwrap();
    assert!((strong / 10.0 - 35.36).abs() < 0.06, "{strong}");
    assert!((strong + square["exact"]["weak_mass_g"].as_f64().unwrap() - 1000.0).abs() < 1e-6);
    // a freezer is below zero, and nothing is known at 500 °C
    assert_eq!(code(&["solve", "formulas/rich-plain-syrup.toml", "--at", "-18C"]), 0);
    assert_eq!(code(&["solve", "formulas/rich-plain-syrup.toml", "--at", "500C"]), 2);
}

#[test]
fn a_new_house_is_a_house_to_work_in() {
    let kitchen = Kitchen::new("");
    let made = run_in(kitchen.folder(), &["new", "my bar é"]);
    insta::assert_snapshot!("new", whole(&made));
    assert_eq!(run_in(kitchen.folder(), &["check", "my bar é"]).status.code(), Some(0));
    assert_eq!(run_in(kitchen.folder(), &["solve", "my bar é/plain-syrup.toml"]).status.code(), Some(0));
    // by the product's name, from inside
    assert_eq!(run_in(&kitchen.folder().join("my bar é"), &["solve", "plain SYRUP"]).status.code(), Some(0));
    // what is there stays as it is
    let again = run_in(kitchen.folder(), &["new", "my bar é"]);
    insta::assert_snapshot!("new-again", whole(&again));
}

#[test]
fn exit_codes() {
    assert_eq!(code(&["solve", "formulas/plain-syrup.toml"]), 0);
    assert_eq!(code(&["solve", "formulas/lime-cordial.toml", "--set", "brix=99"]), 1);
    assert_eq!(code(&["check", "tests/bad/solve/yield-impossible.toml"]), 1);
    for unreadable in [
        &["solve", "nowhere.toml"][..],
        &["solve", "formulas"],
        &["solve", ""],
        &["solve", "formulas/plain-syrup.toml", "--make", "plenty"],
        &["solve", "formulas/plain-syrup.toml", "--make", "0 L"],
        &["solve", "formulas/plain-syrup.toml", "--from", "sugar"],
        &["solve", "formulas/plain-syrup.toml", "--set", "sweet=3"],
        &["solve", "formulas/plain-syrup.toml", "--at", "warm"],
        &["solve", "formulas/plain-syrup.toml", "--made", "yesterday"],
        &["solve"],
        &["check", "nowhere.toml"],
        &["check", "tests/bad/card/heading-not-closed.toml"],
        &["square", "--strong", "x", "--target", "1"],
        &["explain", "nonsense"],
        &["sovle", "x"],
        &[],
    ] {
        assert_eq!(code(unreadable), 2, "{unreadable:?}");
    }
}

#[test]
fn what_cannot_be_opened_says_what_to_do() {
    for (name, arguments) in [
        ("missing-file", &["solve", "formulas/lime-cordail.toml"][..]),
        ("a-folder-as-a-card", &["solve", "formulas"]),
        ("unknown-verb", &["sovle", "x"]),
        ("bad-arguments", &["solve", "formulas/plain-syrup.toml", "--make", "plenty", "--set", "brix", "--at", "warm"]),
        ("unknown-part-to-size-by", &["solve", "formulas/plain-syrup.toml", "--from", "white suger=3 kg"]),
    ] {
        insta::assert_snapshot!(name, whole(&run(arguments)));
    }
}

#[test]
fn every_verb_helps_with_an_example() {
    for verb in VERBS {
        let help = run(&[verb, "--help"]);
        assert!(help.status.success());
        let text = String::from_utf8(help.stdout).unwrap();
        assert!(text.contains("Example") && text.contains(&format!("stillroom {verb}")), "{verb}\n{text}");
        assert!(text.contains("--json"), "{verb} has no --json");
    }
}

/// From inside the folder, from outside, by name: the same house, its other cards, the settings above it.
#[test]
fn the_house_is_found_from_anywhere() {
    let inside = Path::new(ROOT).join("formulas");
    let from_inside = run_in(&inside, &["solve", "split-lime-juice.toml", "--made", "2026-11-25"]);
    assert!(from_inside.status.success(), "{}", whole(&from_inside));
    for arguments in [
        &["solve", "./split-lime-juice.toml", "--made", "2026-11-25"][..],
        &["solve", "split lime juice", "--made", "2026-11-25"],
        &["solve", "../formulas/split-lime-juice.toml", "--made", "2026-11-25"],
    ] {
        assert_eq!(run_in(&inside, arguments).stdout, from_inside.stdout, "{arguments:?}");
    }
    assert_eq!(run(&["solve", "formulas/split-lime-juice.toml", "--made", "2026-11-25"]).stdout, from_inside.stdout);
    assert!(run_in(&inside, &["check", "split-lime-juice.toml"]).status.success());
    let kitchen = Kitchen::new("[ingredient.\"syrup of the house\"]\nbrix = 50\n");
    let below = kitchen.folder().join("cards");
    std::fs::create_dir(&below).unwrap();
    std::fs::write(below.join("x.toml"), "name = \"x\"\n[parts]\n\"syrup of the house\" = \"1 kg\"\n").unwrap();
    let output = run_in(&below, &["solve", "x.toml"]);
    assert!(output.status.success(), "{}", whole(&output));
}

/// The keys that programs may rely on.
#[test]
fn json_has_its_keys() {
    let solve = json(&["solve", "formulas/lime-and-clove-liqueur.toml", "--json", "--made", "2026-11-25"]);
    has(&solve, &["formula", "parts", "yield", "properties", "cautions", "diagnostics"]);
    has(&solve["parts"][0], &["of", "stage", "mass_g", "volume_ml", "solved"]);
    has(&solve["yield"], &["mass_g", "volume_ml"]);
    has(
        &solve["properties"],
        &[
            "temperature_c",
            "density_kg_m3",
            "brix",
            "abv_pct",
            "sugar_g_l",
            "acid_g_l",
            "ph",
            "water_activity",
            "water_activity_upper",
            "refractive_index",
            "refractometer_brix",
            "boiling_point_c",
            "saturation_brix",
        ],
    );
    for caution in solve["cautions"].as_array().into_iter().flatten() {
        has(caution, &["code", "severity", "message", "source"]);
        assert!(["stop", "warn", "note"].contains(&caution["severity"].as_str().unwrap()), "{caution}");
    }
    assert_eq!(solve["parts"][0]["stage"], "maceration");
    let sugar = solve["parts"].as_array().unwrap().iter().find(|p| p["of"] == "white sugar").unwrap();
    assert!(sugar["volume_ml"].is_null() && sugar["stage"].is_null() && sugar["solved"] == true);
    // what was read stands in place of what is computed
    assert_eq!(solve["properties"]["ph"], 3.0);
    // what cannot be given is null, and said
    let muscovado = json(&["solve", "formulas/rich-muscovado-syrup.toml", "--json"]);
    assert!(muscovado["properties"]["ph"].is_null() && muscovado["properties"]["acid_g_l"].is_null());
    let said = muscovado["diagnostics"].to_string();
    assert!(said.contains("no pH or acid is given: nothing is known of the acids of dark muscovado sugar"), "{said}");
    let saline = json(&["solve", "formulas/saline.toml", "--json"]);
    assert!(saline["properties"]["saturation_brix"].is_null());
    assert!(saline["diagnostics"].to_string().contains("no saturation is given"), "{}", saline["diagnostics"]);

    let square = json(&["square", "--strong", "63", "--target", "40", "--json"]);
    has(&square, &["square", "exact"]);
    has(&square["square"], &["strong_parts", "weak_parts", "gives_abv_pct"]);
    has(
        &square["exact"],
        &["strong_mass_g", "strong_volume_ml", "weak_mass_g", "weak_volume_ml", "yield_volume_ml", "contraction_ml"],
    );

    let read = json(&["read", "--refractometer", "50", "--at", "10C", "--json"]);
    has(&read, &["brix", "abv_pct", "sugar_g_l", "doubt", "diagnostics"]);
    has(&read["doubt"], &["brix", "abv_pct", "sugar_g_l"]);

    let date = json(&["date", "formulas/plain-syrup.toml", "--made", "2026-11-25", "--json"]);
    has(&date, &["made", "screen", "stores", "cautions"]);
    has(&date["screen"], &["table", "class"]);
    has(
        &date["stores"][0],
        &[
            "store",
            "temperature_c",
            "days",
            "date",
            "mark",
            "decided_by",
            "refused",
            "ceiling_days",
            "growth_days",
            "quality_days",
        ],
    );

    let adjust = json(&["adjust", "formulas/rich-muscovado-syrup.toml", "--have", "2.1L", "--brix", "66", "--json"]);
    has(&adjust, &["add", "after", "yield"]);
    has(&adjust["add"][0], &["of", "mass_g", "volume_ml"]);
    has(&adjust["after"], &["brix", "density_kg_m3"]);
    has(&adjust["yield"], &["mass_g", "volume_ml"]);

    json(&["swap", "formulas/plain-syrup.toml", "--old", "white sugar", "--new", "honey", "--json"]);

    let cost = json(&["cost", "formulas/lime-and-clove-liqueur.toml", "--json"]);
    has(&cost, &["currency", "batch", "per_litre", "lines", "measures"]);
    has(&cost["lines"][0], &["of", "cost"]);
    assert!(cost["batch"].is_string(), "money is a decimal text: {}", cost["batch"]);

    has(&json(&["check", "formulas", "--json"]), &["files", "diagnostics"]);
    has(&json(&["larder", "honey", "--json"]), &["ingredients", "diagnostics"]);
    has(&json(&["explain", "brix", "--json"]), &["equations"]);
    has(&json(&["explain", "--json"]), &["equations"]);
    has(&json(&["explain", "no-size", "--json"]), &["code", "description"]);
    for word in ["use by", "Best before", "holds", "cost", "±", "table B", "tare"] {
        has(&json(&["explain", word, "--json"]), &["word", "meaning"]);
    }
    let kitchen = Kitchen::new("");
    let new = run_in(kitchen.folder(), &["new", "bar", "--json"]);
    has(&serde_json::from_slice(&new.stdout).unwrap(), &["made", "diagnostics"]);
}

fn has(value: &Value, keys: &[&str]) {
    for key in keys {
        assert!(value.get(key).is_some(), "no {key} in {value}");
    }
}

/// A program that asks for JSON gets JSON, whatever is wrong.
#[test]
fn json_is_json_when_things_go_wrong() {
    for arguments in [
        &["solve", "nowhere.toml", "--json"][..],
        &["solve", "tests/bad/solve/too-many-open.toml", "--json"],
        &["solve", "tests/bad/card/heading-not-closed.toml", "--json"],
        &["solve", "formulas/plain-syrup.toml", "--make", "plenty", "--json"],
        &["square", "--strong", "40", "--target", "45", "--json"],
        &["check", "nowhere.toml", "--json"],
        &["larder", "xyzzy", "--json"],
        &["explain", "xyzzy", "--json"],
        &["date", "nowhere.toml", "--json"],
        &["adjust", "nowhere.toml", "--have", "1L", "--brix", "50", "--json"],
        &["swap", "formulas/plain-syrup.toml", "--old", "white sugar", "--new", "xyzzy", "--json"],
        &["cost", "nowhere.toml", "--json"],
        &["date", "tests/bad/solve/too-many-open.toml", "--json"],
        &["read", "--json"],
        &["new", "formulas", "--json"],
    ] {
        let value = json(arguments);
        let found = value["diagnostics"].as_array().unwrap_or_else(|| panic!("{arguments:?}: {value}"));
        assert!(found.iter().any(|d| d["severity"] == "error"), "{arguments:?}: {value}");
        assert_ne!(code(arguments), 0, "{arguments:?}");
    }
}

#[test]
fn colour_is_for_terminals_only() {
    for arguments in
        [&["solve", "tests/bad/solve/too-many-open.toml"][..], &["solve", "formulas/plain-syrup.toml"], &["sovle"]]
    {
        for no_colour in [None, Some("1")] {
            let mut command = command(Path::new(ROOT), arguments);
            if let Some(value) = no_colour {
                command.env("NO_COLOR", value);
            }
            let output = command.output().unwrap();
            assert!(!output.stdout.contains(&0x1b) && !output.stderr.contains(&0x1b), "{arguments:?}");
        }
    }
    // where colour is forced the words stay the same
    let forced = command(Path::new(ROOT), &["solve", "tests/bad/solve/too-many-open.toml"])
        .env("CLICOLOR_FORCE", "1")
        .output()
        .unwrap();
    let plain = run(&["solve", "tests/bad/solve/too-many-open.toml"]);
    assert!(forced.stderr.contains(&0x1b));
    assert_eq!(without_colour(&forced.stderr), String::from_utf8(plain.stderr).unwrap());
}

fn without_colour(bytes: &[u8]) -> String {
    let mut text = String::new();
    let mut rest = std::str::from_utf8(bytes).unwrap();
    while let Some(at) = rest.find('\u{1b}') {
        text.push_str(&rest[..at]);
        rest = &rest[at..];
        rest = &rest[rest.find('m').unwrap() + 1..];
    }
    text + rest
}

/// A pipe is not a terminal: what goes into it is UTF-8 in any locale.
#[test]
fn a_pipe_gets_utf8_in_any_locale() {
    let output =
        command(Path::new(ROOT), &["square", "--strong", "63", "--target", "40"]).env("LC_ALL", "C").output().unwrap();
    assert!(String::from_utf8(output.stdout).unwrap().contains("°C"));
}

#[test]
fn a_reader_that_goes_away_ends_it_quietly() {
    for arguments in [&["larder"][..], &["larder", "--json"], &["--help"], &["solve", "formulas/plain-syrup.toml"]] {
        let mut child =
            command(Path::new(ROOT), arguments).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        let mut said = String::new();
        child.stderr.take().unwrap().read_to_string(&mut said).unwrap();
        assert_eq!(child.wait().unwrap().code(), Some(0), "{arguments:?}: {said}");
        assert!(said.is_empty(), "{arguments:?}: {said}");
    }
}

#[test]
fn names_of_files_may_be_anything() {
    let kitchen = Kitchen::new("");
    for name in ["sirop à l'orange.toml", "シロップ.toml", "-dash.toml", " two  spaces .toml"] {
        kitchen.write(name, "name = \"Sirop d'été\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n");
        let output = run_in(kitchen.folder(), &["solve", "--", name]);
        assert!(output.status.success(), "{name}: {}", whole(&output));
        assert!(whole(&output).contains("Sirop d'été · makes 1,230 g = 1.00 L"));
        std::fs::remove_file(kitchen.folder().join(name)).unwrap();
    }
    // a card with no end of line, one with Windows lines, an empty one
    kitchen.write("windows.toml", "name = \"x\"\r\nmakes = \"1 L\"\r\n[parts]\r\nwater = \"1 L\"");
    assert_eq!(run_in(kitchen.folder(), &["solve", "windows.toml"]).status.code(), Some(0));
    kitchen.write("empty.toml", "");
    assert_eq!(run_in(kitchen.folder(), &["solve", "empty.toml"]).status.code(), Some(1));
    std::fs::write(kitchen.folder().join("bytes.toml"), [0xff, 0xfe, 0x00]).unwrap();
    assert_eq!(run_in(kitchen.folder(), &["solve", "bytes.toml"]).status.code(), Some(2));
}

#[test]
fn an_answer_for_programs_has_the_same_keys_with_and_without_a_sheet() {
    let verbs: [&[&str]; 4] = [
        &["solve", "--made", "2026-11-25"],
        &["date", "--made", "2026-11-25"],
        &["adjust", "--have", "1L", "--brix", "40"],
        &["swap", "--old", "white sugar", "--new", "honey"],
    ];
    for verb in verbs {
        let keys = |card: &str| -> BTreeSet<String> {
            let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("keys-{}-{}.toml", verb[0], card.len()));
            std::fs::write(&file, card).unwrap();
            let run =
                Command::new(env!("CARGO_BIN_EXE_stillroom")).args(verb).arg("--json").arg(&file).output().unwrap();
            let schema = format!("{{\n  \"schema\": \"stillroom.{}/1\",\n  \"formula\": \"x\"", verb[0]);
            assert!(run.stdout.starts_with(schema.as_bytes()), "{verb:?}");
            let json: Value = serde_json::from_slice(&run.stdout).unwrap();
            json.as_object().unwrap().keys().cloned().collect()
        };
        let solved =
            keys("name = \"x\"\n[target]\nbrix = 50\n[parts]\nwater = \"500 g\"\n\"white sugar\" = \"500 g\"\n");
        assert_eq!(keys("name = \"x\"\n[parts]\n\"no such thing\" = \"500 g\"\n"), solved, "{verb:?}");
        assert!(solved.len() > 8);
    }
}

#[test]
fn a_failed_json_keeps_every_key_of_a_met_one() {
    let keys = |arguments: &[&str]| -> BTreeSet<String> {
        let told: Value = serde_json::from_slice(&run(&[arguments, &["--json"]].concat()).stdout).unwrap();
        assert_eq!(told["schema"], format!("stillroom.{}/1", arguments[0]));
        told.as_object().unwrap().keys().cloned().collect()
    };
    let card = "formulas/lime-cordial.toml";
    for (met, failed) in [
        (vec!["cost", card], vec!["cost", "no-such-card.toml"]),
        (vec!["cost", card], vec!["cost", card, "--price", "white sugar=nothing"]),
        (vec!["plan", "formulas"], vec!["plan", "no-such-plan.toml"]),
        (vec!["menu", "formulas"], vec!["menu", "no-such-menu.toml"]),
        (vec!["square", "--strong", "63", "--target", "40"], vec!["square", "--strong", "40", "--target", "63"]),
        (vec!["read", "--ph", "3.2"], vec!["read"]),
        (vec!["larder", "honey"], vec!["larder", "xqzw"]),
        (vec!["explain", "brix"], vec!["explain", "xqzw"]),
        (vec!["explain", "brix", "--of", card], vec!["explain", "brix", "--of", "no-such-card.toml"]),
        (vec!["check", card], vec!["check", "no-such-card.toml"]),
    ] {
        assert_eq!(keys(&met), keys(&failed), "{failed:?}");
    }
}

/// Egg that is added at the bar is no part of the bottle, and is in the glass of every guest.
#[test]
fn a_batch_tells_the_allergens_of_the_glass() {
    let output = run(&["serve", "formulas/almond-sour.toml", "--make", "40", "--json"]);
    let batch: Value = serde_json::from_slice(&output.stdout).unwrap();
    let said = batch["allergens_say"].as_str().unwrap();
    assert!(said.contains("egg") && said.contains("almond"), "{said}");
    let (head, parts) = batch["card"].as_str().unwrap().split_once("[parts]").unwrap();
    assert!(!parts.contains("egg white") && head.contains("egg white"), "it is added at the bar, and the card says so");
}

/// What is wrong with the house's own files is found without a card that needs them.
#[test]
fn check_reads_the_houses_own_files() {
    let house = Kitchen::new("[ingredient.\"house rum\"]\nlike = \"white rum\"\nprice = \"-1\"\n");
    house.write("house.toml", "[house]\ncurrency = \"GBP\"\n[costs]\nlabour = \"lots\"\n");
    house.write(
        "syrup.toml",
        "name = \"Syrup\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"800 g\"\nwater = \"as needed\"\n",
    );
    house.write("plan.toml", "[plan]\ndays = \"many\"\n[product.Syrop]\npar = \"2 apples\"\n");
    house.write("menu.toml", "[drink.Nothing]\nprice = \"dear\"\n");
    let output = run_in(house.folder(), &["check"]);
    let said = whole(&output);
    assert_eq!(output.status.code(), Some(1), "{said}");
    for (file, word) in [
        ("house.toml:4", "labour"),
        ("larder.toml:3", "house rum"),
        ("plan.toml:2", "days"),
        ("plan.toml:4", "par"),
        ("plan.toml:3", "`Syrop`"),
        ("menu.toml:2", "price"),
        ("menu.toml:1", "`Nothing`"),
    ] {
        assert!(said.contains(file) && said.contains(word), "{file} {word}\n{said}");
    }
    // one error is said once, and a house without any passes
    assert_eq!(said.matches("the house has no formula `Nothing`").count(), 1, "{said}");
    assert_eq!(code(&["check", "formulas"]), 0);
}

/// A full disk, or a reader that cannot take it: a sentence, and the exit code of what cannot be written.
#[cfg(target_os = "linux")]
#[test]
fn what_cannot_be_printed_is_said() {
    let full = || Stdio::from(std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap());
    let output = command(Path::new(ROOT), &["solve", "formulas/saline.toml"]).stdout(full()).output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.code() == Some(2) && said.contains("cannot be written: the disk is full"), "{said}");
}
