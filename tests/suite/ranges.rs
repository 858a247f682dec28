//! A range that a refusal names is the range that is kept: its ends are taken, what lies just beyond is refused with them.

use crate::kitchen::{Folder, run_in};

/// What is asked, with `#` for the number; what is said of a number that is refused; numbers that are taken and that are not.
type Asked = (&'static [&'static str], &'static str, &'static [&'static str], &'static [&'static str]);

const CARD: &str = "name = \"Plain syrup\"\nmakes = \"1 L\"\nclass = \"plain syrup\"\n[parts]\n\"white sugar\" = \"as needed\"\n\
                    water = \"as needed\"\n[target]\nbrix = 50\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const DRINK: &str =
    "name = \"Sweet water\"\nhow = \"shaken\"\n[parts]\n\"Plain syrup\" = \"20 ml\"\nwater = \"40 ml\"\n";
const MENU: &str = "[drink.\"Sweet water\"]\nsold = 70\nshare = \"100 %\"\n";
const AGAINST: [&str; 4] = ["cost", "card.toml", "--against", "24 GBP / 700 ml"];

const OPTIONS: &[Asked] = &[
    (
        &["menu", ".", "--hours", "3", "--guests", "#"],
        "a whole number of guests from 1 to 100,000 was expected",
        &["1", "100000"],
        &["0", "0.5", "1.5", "100001", "x", "-1", "1e3"],
    ),
    (
        &["menu", ".", "--guests", "9", "--hours", "#"],
        "more than 0 and at most 72 hours were expected",
        &["0.1", "72"],
        &["0", "72.01", "x"],
    ),
    (
        &["menu", ".", "--guests", "9", "--hours", "3", "--per-hour", "#"],
        "more than 0 and at most 10 drinks for each guest in an hour were expected",
        &["0.1", "10"],
        &["0", "10.1", "x"],
    ),
    (
        &["menu", ".", "--guests", "9", "--hours", "3", "--reserve", "#"],
        "a share from 0 % to 100 % was expected",
        &["0 %", "100 %"],
        &["100.1 %"],
    ),
    (
        &["serve", "drink.toml", "--make", "#"],
        "a whole number of glasses from 1 to 100,000 was expected",
        &["1", "100000"],
        &["0", "1.5", "100001", "x"],
    ),
    (
        &[AGAINST[0], AGAINST[1], AGAINST[2], AGAINST[3], "--weekly", "#"],
        "more than 0 and at most 100,000 bottles were expected",
        &["0.5", "100000"],
        &["0", "100000.5", "x", "-1"],
    ),
    (
        &[AGAINST[0], AGAINST[1], AGAINST[2], AGAINST[3], "--life", "#"],
        "a whole number of days from 1 to 36,500 was expected",
        &["1", "36500"],
        &["0", "1.5", "36501", "x", "99999999999999999999"],
    ),
    (
        &[AGAINST[0], AGAINST[1], AGAINST[2], AGAINST[3], "--against-abv", "#"],
        "a strength from 0 to 100 % vol was expected",
        &["0", "100"],
        &["100.1"],
    ),
    (&["cost", "card.toml", "--sell-at", "# GBP"], "at most 1000000000 was expected", &["1000000000"], &["1000000001"]),
    (&["solve", "card.toml", "--set", "brix=#"], "0 to 100 was expected", &["0", "85"], &["-0.1", "100.1"]),
    (&["solve", "card.toml", "--set", "brix=#"], "these parts reach at most 85.0 °Bx", &["85"], &["100"]),
    (&["solve", "card.toml", "--set", "ph=#"], "1 to 9 was expected", &["1", "9"], &["0.9", "9.1"]),
    (&["solve", "card.toml", "--set", "sugar=# g/L"], "0 to 1600 was expected", &["1600"], &["1600.1"]),
    (&["solve", "card.toml", "--at", "# C"], "from -40 °C to 110 °C", &["-40", "110"], &["-40.1", "110.1"]),
    (&["solve", "card.toml", "--make", "# L"], "a number up to 1000000000", &["1000000000"], &["1000000001"]),
    (&["square", "--weak", "0", "--target", "0", "--strong", "#"], "0 to 100 was expected", &["100"], &["100.1", "-1"]),
    (&["read", "--of", "syrup", "--sg", "#"], "lies outside 0.78 to 1.46", &["1.0", "1.42"], &["0.77", "1.47"]),
    (&["read", "--brix-hydrometer", "#"], "lies off the scale of 0 to 85 °Bx", &["0", "85"], &["85.1"]),
    (&["read", "--of", "syrup", "--baume", "#"], "lies off the scale of 0 to 45", &["0", "43"], &["45.1"]),
    (&["read", "--proof", "#"], "lies off the scale of 0 to 200", &["0", "200"], &["200.1"]),
    (&["read", "--refractometer", "#"], "known to 85 °Bx", &["0", "85"], &["85.1"]),
    (&["read", "--ph", "#"], "lies outside 1 to 9", &["1", "9"], &["0.9", "9.1"]),
    (&["read", "--refractometer", "50", "--at", "# C"], "known from 0 to 60 °C", &["0", "60"], &["-0.1", "60.1"]),
    (
        &["read", "--titre", "12ml", "--sample", "15ml", "--normality", "#"],
        "more than 0 and at most 10 N were expected",
        &["0.001", "10"],
        &["0", "10.1"],
    ),
    (
        &["read", "--titre", "12ml", "--sample", "15ml", "--endpoint", "#"],
        "6.9 to 8.5 was expected",
        &["6.9", "8.5"],
        &["6.8", "8.6"],
    ),
    (&["date", "card.toml", "--spoiled", "#"], "days from 0 to 36,500 was expected", &["12"], &["0.5", "36501", "x"]),
    (
        &["label", "card.toml", "-o", "#.svg", "--copies", "#"],
        "labels from 1 to 1,000 was expected",
        &["1"],
        &["0", "1001", "x"],
    ),
    (
        &["label", "card.toml", "-o", "#.svg", "--size", "sheet", "--start", "#"],
        "places of a sheet from 1 to 21 was expected",
        &["1", "21"],
        &["0", "22", "x"],
    ),
    (
        &["record", "card.toml", "--keep-back", "#"],
        "bottles from 0 to 10,000 was expected",
        &[],
        &["0.5", "10001", "x"],
    ),
    (&["record", "card.toml", "--letter", "#"], "one letter from A to Z was expected", &[], &["AB", "1", ""]),
    (&["record", "card.toml", "--pressed", "lime juice=#"], "at most 100,000 fruits were expected", &[], &["0", "x"]),
];

/// The same for a line of a file: the verb that reads it, the file, its text with `#`.
type Written = (
    &'static [&'static str],
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

const BOARD: &str = "[product.\"Plain syrup\"]\nuse = \"1 L a week\"\n";
const KEYS: &[Written] = &[
    (
        &["menu", "."],
        "menu.toml",
        "[drink.\"Sweet water\"]\nsold = #\n",
        "a whole number of glasses from 0 to 100,000 was expected",
        &["0", "100000"],
        &["100001", "999999", "1.5"],
    ),
    (
        &["menu", "."],
        "menu.toml",
        "[drink.\"Sweet water\"]\nshare = \"100 %\"\n[event]\nhours = 3\nguests = #\n",
        "a whole number of guests from 1 to 100,000 was expected",
        &["1", "100000"],
        &["0", "100001", "1.5"],
    ),
    (
        &["menu", "."],
        "menu.toml",
        "[drink.\"Sweet water\"]\nshare = \"100 %\"\n[event]\nguests = 9\nhours = #\n",
        "more than 0 and at most 72 hours were expected",
        &["0.5", "72"],
        &["0", "72.5"],
    ),
    (
        &["plan", "."],
        "plan.toml",
        "[plan]\ndays = #\n",
        "days from 1 to 366 was expected",
        &["1", "366"],
        &["0", "367", "1.5"],
    ),
    (
        &["plan", "."],
        "plan.toml",
        "[plan]\nweeks = #\n",
        "weeks from 1 to 52 was expected",
        &["1", "52"],
        &["0", "53", "0.5"],
    ),
    (
        &["plan", "."],
        "plan.toml",
        "[ingredient.\"white sugar\"]\nlead = \"# days\"\n",
        "0 to 366 days were expected",
        &["0", "366"],
        &["366.5", "1000"],
    ),
    (
        &["plan", "."],
        "plan.toml",
        "[ingredient.\"white sugar\"]\non_hand = \"# kg\"\n",
        "at most 10,000 kg was expected",
        &["10000"],
        &["10000.1"],
    ),
    (
        &["solve", "card.toml"],
        "house.toml",
        "[house]\nwater_alkalinity = #\n",
        "0 to 1,000 mg/L as calcium carbonate were expected",
        &["0", "1000"],
        &["1000.5"],
    ),
    (
        &["cost", "card.toml"],
        "house.toml",
        "[costs]\ngross_profit = \"# %\"\n",
        "0 or more and less than 100 % were expected",
        &["0", "99.9"],
        &["100"],
    ),
    (
        &["cost", "card.toml"],
        "house.toml",
        "[costs]\npour_cost = \"# %\"\n",
        "more than 0 and at most 100 % were expected",
        &["0.1", "100"],
        &["0"],
    ),
    (
        &["solve", "other.toml"],
        "other.toml",
        "name = \"Other\"\nmakes = \"1 L\"\n[parts]\nwater = \"as needed\"\n[loss]\nleft_behind = \"# %\"\n",
        "0 or more and less than 100 % were expected",
        &["0", "50"],
        &["100"],
    ),
    (
        &["solve", "other.toml"],
        "other.toml",
        "name = \"Other\"\nmakes = \"1 L\"\nheated = \"# °C\"\n[parts]\nwater = \"as needed\"\n",
        "30 to 200 °C was expected",
        &["30", "90"],
        &["29.6", "200.4"],
    ),
    (
        &["serve", "drink.toml"],
        "drink.toml",
        "name = \"Sweet water\"\nhow = \"shaken\"\n[parts]\n\"Plain syrup\" = \"20 ml\"\n[ice]\ngrams = \"# g\"\n",
        "0 to 5,000 g for one drink were expected",
        &["200", "5000"],
        &["5000.5", "1000000"],
    ),
];

/// What the program says in a house of one syrup and one drink; `file` is written over what is there.
fn said(arguments: &[&str], file: Option<(&str, String)>) -> String {
    let folder = Folder::new().with("card.toml", CARD).with("drink.toml", DRINK).with("menu.toml", MENU);
    let folder = folder.with("larder.toml", "").with("plan.toml", BOARD);
    let folder = match file {
        Some((name, text)) => folder.with(name, &text),
        None => folder,
    };
    let (_, page, said) = run_in(&folder.0, arguments);
    let said = said + &page;
    for raw in ["invalid float", "invalid digit", "too many characters", "panicked"] {
        assert!(!said.contains(raw), "{arguments:?}: {said}");
    }
    assert!(!said.contains("333333333"), "{arguments:?}: {said}");
    said
}

/// As one line, for a sentence may be broken.
fn in_a_line(said: &str) -> String {
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn check(asked: &str, range: &str, said: &str, is_taken: bool) {
    let names_it = in_a_line(said).contains(range);
    assert_eq!(names_it, !is_taken, "{asked}: `{range}` in\n{said}");
}

#[test]
fn options_keep_the_range_that_they_name() {
    for (arguments, range, taken, refused) in OPTIONS {
        for (number, is_taken) in taken.iter().map(|n| (n, true)).chain(refused.iter().map(|n| (n, false))) {
            let arguments: Vec<String> = arguments.iter().map(|word| word.replace('#', number)).collect();
            // a number below zero is the value of its option
            let mut words: Vec<String> = Vec::new();
            for word in arguments {
                match words.last_mut().filter(|last| last.starts_with("--") && word.starts_with('-')) {
                    Some(last) => *last = format!("{last}={word}"),
                    None => words.push(word),
                }
            }
            let words: Vec<&str> = words.iter().map(String::as_str).collect();
            check(&words.join(" "), range, &said(&words, None), is_taken);
        }
    }
}

#[test]
fn keys_keep_the_range_that_they_name() {
    for (arguments, file, text, range, taken, refused) in KEYS {
        for (number, is_taken) in taken.iter().map(|n| (n, true)).chain(refused.iter().map(|n| (n, false))) {
            let mut text = text.replace('#', number);
            if *file == "plan.toml" {
                text.push_str(BOARD);
            }
            check(&format!("{file} {text}"), range, &said(arguments, Some((file, text.clone()))), is_taken);
        }
    }
}

#[test]
fn thirds_are_printed_rounded() {
    for text in ["makes = \"1/3\"\n", "brix = \"1/3 %\"\n"] {
        let card = CARD.replace("makes = \"1 L\"\n", text);
        let said = said(&["solve", "other.toml"], Some(("other.toml", card)));
        assert!(said.contains("0.333333") || !said.contains("0.3333"), "{said}");
    }
}
