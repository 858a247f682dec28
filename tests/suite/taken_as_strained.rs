//! Spices and peel of a pasted recipe that says neither that they are strained out nor that they stay in: nobody bottles them, so they are
//! taken as strained out, and dated by the shorter of the two. All invented.

use crate::kitchen::Kitchen;
use crate::pasting::holds;
use stillroom::solver::Options;

const TAKEN: &str =
    "strained = \"assumed\" }  # assumed: strained out before bottling; true where it is, false where it stays in";

#[test]
fn what_nobody_bottles_is_not_asked() {
    for spice in [
        "4 cinnamon sticks",
        "10 cloves",
        "2 vanilla pods",
        "20 g ground coffee",
        "zest of 2 lemons",
        "3 Zimtstangen",
        "2 gousses de vanille",
    ] {
        holds(&format!("Syrup\n500 g sugar\n500 g water\n{spice}\n"), &[TAKEN, "!stay in?"]);
    }
    // what may be eaten is asked
    holds("Syrup\n500 g sugar\n500 g water\n5 g ground cinnamon\n", &["? does it stay in?", "!strained = true }"]);
}

#[test]
fn what_may_stay_in_is_asked_once() {
    let syrup = "Syrup\n500 g sugar\n500 g water\n100 g strawberries\n20 g mint\n10 g basil\n";
    let once = "strawberries = \"100 g\"  # ? do `strawberries`, `mint` and `basil` stay in? else strained = true on each of these lines";
    holds(syrup, &[once, "mint = \"20 g\"\n", "basil = \"10 g\"\n"]);
}

#[test]
fn what_the_steps_leave_in_stays_in() {
    let rum = |steps: &str| format!("Rum\n700 ml rum\n200 g raisins\n1 vanilla pod\n\n{steps}\n");
    let stays = "\"vanilla pod\" = \"1 vanilla pod\"  # assumed: stays in, as the recipe says";
    holds(&rum("Steep 3 weeks. Strain. Leave the vanilla pod in the bottle."), &[stays]);
    // in front of the straining it only steeps there
    holds(&rum("Leave the vanilla pod in the jar. Strain."), &["!stays in"]);
    holds(&rum("Strain. Leave the vanilla pod in the bottle for 3 days."), &["!stays in"]);
}

/// The sheet names it among what was assumed; a line that was typed is nobody's assumption.
#[test]
fn the_sheet_says_what_was_taken_as_strained() {
    let card = |line: &str| format!("name = \"x\"\n[parts]\nsugar = \"500 g\"\nwater = \"500 g\"\n{line}\n");
    let said = |line: &str| Kitchen::new("").solve(&card(line), &Options::default()).text();
    let typed = "cloves = { amount = \"10 g\", strained = true }";
    let taken = typed.replace("= true", "= \"assumed\"");
    assert!(said(&taken).contains("`cloves` strained out before bottling"), "{}", said(&taken));
    assert!(!said(typed).contains("strained out before bottling"), "{}", said(typed));
}

/// It is the value that says so, wherever it stands, and never a remark of somebody.
#[test]
fn a_remark_says_nothing_and_a_table_says_the_same() {
    let kitchen = Kitchen::new("");
    let stores = |part: &str| {
        let card = format!("name = \"x\"\n[parts]\nwater = \"300 g\"\nsugar = \"600 g\"\n{part}\n");
        let dated = kitchen.solve(&card, &Options::default()).dated(200);
        dated.stores.iter().map(|store| (store.days, store.refused.is_empty())).collect::<Vec<_>>()
    };
    let [said, assumed] = ["true", "\"assumed\""].map(|strained| {
        let line = format!("\"ground coffee\" = {{ amount = \"60 g\", strained = {strained} }}");
        let table = format!("[parts.\"ground coffee\"]\namount = \"60 g\"\nstrained = {strained}");
        let days = stores(&line);
        assert_eq!(stores(&format!("{line}  # I checked: always strained out before bottling")), days);
        assert_eq!(stores(&table), days);
        days
    });
    assert_ne!(said, assumed);
}

/// Two sticks of 7 g in a litre are no share of it that anybody sees: the sheet says that they count as bottled.
#[test]
fn what_a_card_leaves_in_is_said_however_little() {
    let card = |line: &str| format!("name = \"x\"\n[parts]\nsugar = \"500 g\"\nwater = \"1 L\"\n{line}\n");
    let said = |line: &str| serde_json::to_string(&Kitchen::new("").makes(&card(line)).sheet()).unwrap();
    let stays = "stays in the product with its solids";
    assert!(said("\"cinnamon sticks\" = \"2\"").contains(stays));
    let told = said("\"cinnamon sticks\" = { amount = \"2\", strained = false }");
    assert!(!told.contains(stays), "{told}");
}

/// Whatever the spice and what it is in: nobody has said that it is strained, so no date is later than with it left in.
#[test]
fn the_date_is_no_later_than_with_it_left_in() {
    const BASES: &[&str] = &[
        "water = \"500 g\"\nsugar = \"500 g\"",
        "water = \"300 g\"\nsugar = \"600 g\"",
        "vodka = \"700 ml\"",
        "\"white wine\" = \"750 ml\"\nsugar = \"100 g\"",
        "\"cider vinegar\" = \"500 g\"\nsugar = \"200 g\"",
        "\"lemon juice\" = \"500 g\"\nsugar = \"500 g\"",
    ];
    const SPICES: &[(&str, &str)] = &[
        ("cinnamon sticks", "4 cinnamon sticks"),
        ("cloves", "20 g"),
        ("vanilla pods", "2 vanilla pods"),
        ("ground coffee", "60 g"),
        ("coffee beans", "50 g"),
        ("cacao nibs", "30 g"),
        ("lemon peel", "40 g"),
        ("dried hibiscus", "30 g"),
        ("oak chips", "10 g"),
    ];
    let kitchen = Kitchen::new("");
    let days = |card: &str| {
        let dated = kitchen.solve(card, &Options::default()).dated(200);
        let of_store = |store: &stillroom::assessment::DatedStore| match store.refused.as_slice() {
            [] => store.days,
            _ => Some(0),
        };
        dated.stores.iter().map(of_store).collect::<Vec<_>>()
    };
    let mut differs = 0;
    for base in BASES {
        for heated in ["", "heated = \"95 °C for 10 min\"\n"] {
            for (spice, amount) in SPICES {
                let card = |line: &str| format!("name = \"x\"\n{heated}[parts]\n{base}\n\"{spice}\" = {line}\n");
                let strained = format!("{{ amount = \"{amount}\", strained = true }}");
                let [left_in, out, taken] = [
                    format!("{{ amount = \"{amount}\" }}"),
                    strained.clone(),
                    strained.replace("= true", "= \"assumed\""),
                ]
                .map(|line| days(&card(&line)));
                for ((left_in, out), taken) in left_in.iter().zip(&out).zip(&taken) {
                    // no date at all is the freezer's
                    assert_eq!(*taken, left_in.zip(*out).map(|(one, other)| one.min(other)), "{base} {heated} {spice}");
                    differs += usize::from(left_in < out);
                }
            }
        }
    }
    // else the two were never apart, and nothing was shown
    assert!(differs > 10, "{differs}");
}
