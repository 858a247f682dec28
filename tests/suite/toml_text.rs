//! A TOML text as tables: order and places are kept, everything wrong is said in one run, what is sound is read all the same, and
//! what nobody sees is found. Read as a card or as a house.

use std::sync::Arc;

use stillroom::card::{self, Card};
use stillroom::diagnostic::{Code, Diagnostic};
use stillroom::house::settings::{self, Settings};
use toml::de::DeTable;

use crate::generated::config;

fn card(text: &str) -> (Option<Card>, Vec<Diagnostic>) {
    card::read("card.toml".into(), text.into())
}

fn house(text: &str) -> (Settings, Vec<Diagnostic>) {
    let mut found = Vec::new();
    let read = settings::read(text, &Arc::from("house.toml"), &mut found);
    (read, found)
}

/// What each finding of a code points at.
fn at<'t>(text: &'t str, found: &[Diagnostic], code: Code) -> Vec<&'t str> {
    let of = found.iter().filter(|d| d.code == code);
    of.filter_map(|d| d.labels.first()).map(|label| &text[label.span.start..label.span.end]).collect()
}

#[test]
fn entries_keep_the_order_and_place_of_the_text() {
    let text = "name = \"x\"\n[parts]\nwater = \"2 g\"\nacacia = \"3 g\"\nbasil = \"1 g\"\n";
    let (read, found) = card(text);
    assert!(found.is_empty(), "{found:?}");
    let parts = read.unwrap().last.parts;
    let written: Vec<_> = parts.iter().map(|part| &text[part.label.span.start..part.label.span.end]).collect();
    assert_eq!(written, ["water", "acacia", "basil"]);
}

#[test]
fn all_errors_in_one_run_and_the_rest_is_read() {
    let (read, found) =
        house("[house]\nname = \"ok\"\ncurrency = 750 ml\n[stores]\nfridge = nan\ncellar = \"12 °C\"\n");
    assert!(found.len() >= 2, "{found:?}");
    assert_eq!(read.name.as_deref(), Some("ok"));
    assert!(read.stores.iter().any(|store| store.name == "cellar"), "{found:?}");
}

#[test]
fn a_misspelt_key_gets_the_name_that_was_meant() {
    let (_, found) = card("nmae = \"x\"\n[parts]\nwater = \"1 L\"\n");
    assert!(found.iter().any(|d| d.help.as_deref() == Some("did you mean `name`?")), "{found:?}");
}

#[test]
fn a_name_without_quotes_does_not_hide_what_follows() {
    let text = "name = \"x\"\n[parts]\nwhite sugar = 1\nlime juice = 2\nwater = 3\n[keep]\nfill = 4\nbad key = 5\n";
    let (_, found) = card(text);
    let lines: Vec<&str> =
        at(text, &found, Code::Syntax).into_iter().map(|at| at.split(" =").next().unwrap()).collect();
    assert_eq!(lines, ["white sugar", "lime juice", "bad key"]);
    for read in ["3", "4"] {
        let is_at = |d: &Diagnostic| d.labels.iter().any(|l| &text[l.span.start..l.span.end] == read);
        assert!(found.iter().any(is_at), "{read}: {found:?}");
    }
}

#[test]
fn places_count_from_the_start_of_the_text_with_its_mark_and_line_ends() {
    let text = "\u{feff}name = \"é\"\r\nwater = 3\r\n";
    let (_, found) = card(text);
    assert!(found.iter().any(|d| d.labels.iter().any(|l| &text[l.span.start..l.span.end] == "water")), "{found:?}");
}

proptest::proptest! {
    #![proptest_config(config(4000, 3))]

    /// What the parser refuses is reported, however the report is worded.
    #[test]
    fn no_syntax_error_is_lost(text in "[a-c\\[\\]{}=\"'\\\\#,.:0-9 é\u{feff}\r\n-]{0,60}") {
        let (_, found) = house(&text);
        let (_, errors) = DeTable::parse_recoverable(&text);
        proptest::prop_assert!(errors.is_empty() || found.iter().any(|d| d.code == Code::Syntax), "{text:?}");
    }
}

/// What is hidden in the name of a part.
fn hidden(name: &str) -> Option<String> {
    let name: String = name
        .chars()
        .map(|c| if c < ' ' || c == '\u{9b}' { format!("\\u{:04x}", u32::from(c)) } else { c.into() })
        .collect();
    let text = format!("name = \"x\"\n[parts]\n\"{name}\" = \"1 g\"\n");
    let (_, found) = card(&text);
    found.into_iter().find(|d| d.code == Code::HiddenCharacter).map(|d| d.title)
}

#[test]
fn what_is_hidden_is_found_and_what_scripts_need_is_left() {
    for (name, seen) in [
        ("plain\u{202e}purys", "plainpurys"),
        ("a\u{1b}[31m", "a[31m"),
        ("sugar\u{200b}", "sugar"),
        ("\u{9b}31m", "31m"),
    ] {
        let said = hidden(name).unwrap_or_else(|| panic!("{name:?}"));
        assert!(said.contains(&format!("`{seen}`")), "{said:?}");
    }
    for name in ["sirop d'été", "می\u{200c}خواهم", "שקד", "シロップ"] {
        assert_eq!(hidden(name), None);
    }
}

/// The titles of what is wrong with the syntax of a house, and where.
fn syntax(text: &str) -> Vec<(String, usize)> {
    let (_, found) = house(text);
    let of = found.into_iter().filter(|d| d.code == Code::Syntax);
    of.map(|d| (d.title, d.labels.first().map_or(0, |label| label.span.start))).collect()
}

fn places(text: &str) -> Vec<usize> {
    syntax(text).into_iter().map(|(_, at)| at).collect()
}

#[test]
fn lines_are_told_apart_by_their_marks() {
    let text = "[parts] # ours\n\"white sugar\" = \"1 kg\" sifted\na.b = [\n  1, # =\n]\nwhite sugar = 1\n[open\n";
    let of = |piece: &str| text.rfind(piece).unwrap();
    assert_eq!(places(text), [of("sifted"), of("white sugar"), of("[open")], "{:?}", syntax(text));
}

#[test]
fn a_bracket_in_quotes_or_behind_a_value_is_not_open() {
    let is_open = |text: &str| syntax(text).into_iter().find(|(title, _)| title.contains("is never closed"));
    for closed in [
        "a = \"{\"",
        "a = 1 {",
        "a = '''\n[\n'''",
        "a {",
        "# [",
        "a = [[1], {b = 2}]",
        "a = [\"\"\"x\"\"\"\", 1]\nb = 2",
    ] {
        assert_eq!(is_open(closed), None, "{closed}");
    }
    let open = "a = 1\nb = { c = [1, 2\nd = 3";
    assert_eq!(is_open(open).map(|(_, at)| at), Some(10), "{:?}", syntax(open));
}

#[test]
fn quotes_end_on_their_line_and_three_of_them_anywhere() {
    for left_over in ["x = \"a\\\"b\" c", "x = \"\"\"a\nb\"\"\"\"\" c"] {
        assert_eq!(places(left_over), [left_over.len() - 1], "{left_over}");
    }
    let not_ended = "x = 'a\ny'";
    assert_eq!(places(not_ended).len(), 2, "{:?}", syntax(not_ended));
}
