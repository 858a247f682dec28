//! How a TOML text is cut into lines and words.

use super::*;

fn lines(text: &str) -> Vec<Line> {
    Scan::of(text).lines.into_iter().map(|(_, line)| line).collect()
}

#[test]
fn lines_are_told_apart_by_their_marks() {
    let found =
        lines("[parts] # ours\n\"white sugar\" = \"1 kg\" sifted\na.b = [\n  1, # =\n]\nwhite sugar = 1\n[open\n");
    let entry = |equals, value, end| Line::Entry { equals, value, end };
    assert_eq!(
        found,
        [Line::Heading(Some(7)), entry(29, 31, 37), entry(49, 51, 63), Line::Neither, Line::Heading(None)]
    );
}

#[test]
fn a_bracket_in_quotes_or_behind_a_value_is_not_open() {
    for closed in ["a = \"{\"", "a = 1 {", "a = '''\n[\n'''", "a {", "# [", "a = [[1], {b = 2}]"] {
        assert_eq!(Scan::of(closed).open, None, "{closed}");
    }
    assert_eq!(Scan::of("a = 1\nb = { c = [1, 2\nd = 3").open, Some(10));
}

#[test]
fn quotes_end_on_their_line_and_three_of_them_anywhere() {
    assert_eq!(in_quotes("\"a\\\"b\" c"), (6, true));
    assert_eq!(in_quotes("'a\nb'"), (2, false));
    assert_eq!(in_quotes("\"\"\"a\nb\"\"\"\"\" c"), (11, true));
}
