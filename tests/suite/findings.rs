//! Findings as plain lines, their places, their codes, and what no terminal may be told; the keys of the bibliography.

use std::collections::HashSet;

use crate::kitchen::Kitchen;
use stillroom::card;
use stillroom::diagnostic::Code;
use stillroom::references;

/// The findings of a card in plain lines.
fn plain(text: &str) -> Vec<String> {
    card::read("card.toml".into(), text.into()).1.iter().map(|found| found.plain(text)).collect()
}

#[test]
fn a_place_counts_characters_and_passes_over_a_byte_order_mark() {
    let said = plain("\u{feff}name = 1\r\n[parts]\r\ncafé = 2\n");
    let has = |place: &str| said.iter().any(|said| said.lines().next().unwrap().contains(place));
    assert!(has("card.toml:1:8 ") && has("card.toml:3:8 "), "{said:?}");
    let said = plain("\u{feff}nam = \"x\"\n[parts]\nwater = \"1 L\"\n");
    assert!(said.iter().any(|said| said.contains("card.toml:1:1 ")), "{said:?}");
}

#[test]
fn plain_lines_name_place_reading_and_remedy() {
    let said = plain("name = \"x\"\n[parts]\nwater = 750\n");
    let [said] = &said[..] else { panic!("{said:?}") };
    let lines: Vec<&str> = said.lines().collect();
    assert!(lines[0].starts_with("error[no-unit] card.toml:3:9 "), "{said}");
    assert!(lines[1].starts_with("  3:9 750  <- "), "{said}");
    assert!(lines[2].starts_with("  help: ") && said.ends_with('\n'), "{said}");
}

#[test]
fn codes_are_unique_and_described() {
    let names: HashSet<String> = Code::ALL.iter().map(Code::to_string).collect();
    assert_eq!(names.len(), Code::ALL.len());
    let kitchen = Kitchen::new("");
    for name in names {
        let told = kitchen.json(&["explain", &name]);
        assert!(told["description"].as_str().is_some_and(|said| said.ends_with('.')), "{name}: {told}");
    }
}

#[test]
fn lines_and_tabs_stay_and_what_steers_a_terminal_goes() {
    let said = plain("name = \"x\"\n[parts]\nwater = [\"a\",\t\"b\u{202e}\"]\n").concat();
    assert!(
        said.contains("[\"a\",\t\"b\u{fffd}\"]") && !said.contains('\u{202e}') && said.contains("\n  "),
        "{said:?}"
    );
    let said = plain("name = \"x\"\n[parts]\nwater = \"1 \u{1b}[31mml\"\n").concat();
    assert!(said.contains('\u{fffd}') && !said.contains('\u{1b}'), "{said:?}");
}

/// Half a key is none: that is held where the keys are read, when it is compiled.
#[test]
fn every_entry_of_the_bibliography_has_a_key_of_its_own_and_something_to_say() {
    let keys: HashSet<_> = references::all().iter().map(|r| &r.key).collect();
    assert_eq!(keys.len(), references::all().len());
    assert!(keys.iter().all(|key| !key.is_empty() && references::find(key).is_some()));
    let rows = crate::table::rows_of(include_str!("../../src/references/references.csv"));
    assert_eq!(rows.len(), references::all().len());
    let kitchen = Kitchen::new("");
    let (_, page, _) = kitchen.run(&["explain", "rules"]);
    assert!(!page.is_empty());
    // an entry without a citation says how far it was followed, and no more
    for row in rows.iter().filter(|row| row.text("citation").is_empty()) {
        assert!(["from memory", "common practice, no source"].contains(&row.text("standing")), "{}", row.text("key"));
    }
}
