//! Letters line up by their width on a screen.

use super::super::page::Page;
use super::*;

#[test]
fn letters_of_two_columns_and_of_none_line_up() {
    let rows = [["梅酒", "1"], ["Cre\u{300}me", "10"]].map(|row| row.map(str::to_owned).to_vec());
    assert_eq!(columns(&rows), "  梅酒     1\n  Cre\u{300}me   10\n");
}

#[test]
fn text_goes_on_under_its_head() {
    let text = "word ".repeat(30);
    let out = Page::default().fit(&wrapped("note: ", &text));
    assert!(out.lines().all(|line| line.len() <= 60) && out.lines().nth(1).unwrap().starts_with("    word"));
    assert!(Page::default().fit(&wrapped("- ", &text)).lines().nth(1).unwrap().starts_with("  word"));
}
