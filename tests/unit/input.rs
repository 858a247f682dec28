//! A text as tables, with what is wrong in it.

use toml::de::DeTable;

use super::raw::{hidden_in, without_hidden};
use super::*;
use crate::diagnostic::Code;

#[test]
fn entries_keep_the_order_and_place_of_the_text() {
    let mut found = Vec::new();
    let text = "b = \"x\"\na = 2\n[t]\nflag = true\n";
    let table = parse(text, &mut found);
    assert!(found.is_empty());
    let keys: Vec<_> = table.entries.iter().map(|(k, _)| k.value.as_str()).collect();
    assert_eq!(keys, ["b", "a", "t"]);
    let (key, value) = table.get("a").unwrap();
    assert_eq!(&text[key.span.start..key.span.end], "a");
    assert_eq!(value.value, Value::Number(2.0));
}

#[test]
fn all_errors_in_one_run_and_the_rest_is_read() {
    let mut found = Vec::new();
    let table = parse("name = \"ok\"\nmakes = 750 ml\nbrix = nan\n", &mut found);
    assert!(found.len() >= 2, "{found:?}");
    assert_eq!(table.get("name").unwrap().1.value, Value::Text("ok".to_owned()));
}

#[test]
fn a_misspelt_key_gets_the_name_that_was_meant() {
    let mut found = Vec::new();
    let table = parse("nmae = \"x\"", &mut found);
    let said = table.unknown_key(&table.entries[0].0, "a formula", &["name", "makes"]);
    assert_eq!(said.help.as_deref(), Some("did you mean `name`?"));
}

#[test]
fn a_name_without_quotes_does_not_hide_what_follows() {
    let mut found = Vec::new();
    let table = parse("white sugar = 1\nlime juice = 2\nwater = 3\n[keep]\nfill = 4\nbad key = 5\n", &mut found);
    assert_eq!(found.len(), 3, "{found:?}");
    assert!(table.get("water").unwrap().1.value.number().is_some() && table.get("keep").is_some());
}

#[test]
fn places_count_from_the_start_of_the_text_with_its_mark_and_line_ends() {
    let mut found = Vec::new();
    let text = "\u{feff}name = \"é\"\r\nwater = 3\r\n";
    let table = parse(text, &mut found);
    let (key, value) = table.get("water").unwrap();
    assert_eq!((&text[key.span.start..key.span.end], &text[value.span.start..value.span.end]), ("water", "3"));
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig {
        cases: 4000,
        failure_persistence: None,
        rng_seed: proptest::test_runner::RngSeed::Fixed(3),
        ..Default::default()
    })]

    /// What the parser refuses is reported, however the report is worded.
    #[test]
    fn no_syntax_error_is_lost(text in "[a-c\\[\\]{}=\"'\\\\#,.:0-9 é\u{feff}\r\n-]{0,60}") {
        let mut found = Vec::new();
        parse(&text, &mut found);
        let (_, errors) = DeTable::parse_recoverable(&text);
        proptest::prop_assert!(errors.is_empty() || found.iter().any(|d| d.code == Code::Syntax), "{text:?}");
    }
}

#[test]
fn what_is_hidden_is_found_and_what_scripts_need_is_left() {
    for name in ["plain\u{202e}purys", "a\u{1b}[31m", "sugar\u{200b}", "\u{9b}31m"] {
        assert!(hidden_in(name).is_some(), "{name:?}");
        assert_eq!(hidden_in(&without_hidden(name)), None);
    }
    for name in ["sirop d'été", "می\u{200c}خواهم", "שקד", "シロップ"] {
        assert_eq!(hidden_in(name), None);
    }
}
