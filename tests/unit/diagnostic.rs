//! Findings as plain lines, their places, their codes, and what no terminal may be told.

use std::collections::HashSet;

use super::*;

#[test]
fn a_place_counts_characters_and_passes_over_a_byte_order_mark() {
    let text = "\u{feff}a = 1\r\ncafé = 2\n";
    assert_eq!(line_and_column(text, 3), (1, 1));
    assert_eq!(line_and_column(text, text.find('=').unwrap()), (1, 3));
    assert_eq!(line_and_column(text, text.rfind('=').unwrap()), (2, 6));
}

#[test]
fn plain_lines_name_place_reading_and_remedy() {
    let file: Arc<str> = "card.toml".into();
    let plain = Diagnostic::error(Code::NoUnit, "a number alone")
        .at(6..9, "of what?")
        .help("write \"750 ml\"")
        .in_file(&file)
        .plain("x = 1\n750\n");
    assert_eq!(
        plain,
        "error[no-unit] card.toml:2:1 a number alone\n  2:1 750  <- of what?\n  help: write \"750 ml\"\n"
    );
}

#[test]
fn codes_are_unique_and_described() {
    let names: HashSet<_> = Code::ALL.iter().map(|c| c.as_str()).collect();
    assert_eq!(names.len(), Code::ALL.len());
    assert!(Code::ALL.iter().all(|c| c.description().ends_with('.')));
}

#[test]
fn lines_and_tabs_stay_and_what_steers_a_terminal_goes() {
    assert_eq!(tamed("a\n\tb"), "a\n\tb");
    assert_eq!(tamed("a\u{1b}[31m\u{202e}b"), "a\u{fffd}[31m\u{fffd}b");
}
