//! Columns that line up: the first to the left, the others to the right, by the width of letters on a screen.

use unicode_width::UnicodeWidthStr;

use super::page::HANG;

#[derive(Clone, Copy, PartialEq)]
enum Side {
    Left,
    Right,
}

/// Rows under each other, indented by two; every row has the same number of cells.
pub(crate) fn columns(rows: &[Vec<String>]) -> String {
    aligned(rows, |c, _| if c == 0 { Side::Left } else { Side::Right })
}

/// The same, with a note at the end of each row, to the left if there is more than one cell before it.
pub(crate) fn columns_noted(rows: &[Vec<String>]) -> String {
    aligned(rows, |c, count| if c == 0 || (c > 1 && c + 1 == count) { Side::Left } else { Side::Right })
}

/// Names and what is said of them, both to the left.
pub(crate) fn pairs<A: AsRef<str>, B: AsRef<str>>(rows: &[(A, B)]) -> String {
    let rows: Vec<[&str; 2]> = rows.iter().map(|(name, said)| [name.as_ref(), said.as_ref()]).collect();
    aligned(&rows, |_, _| Side::Left)
}

/// Columns of words, all to the left.
pub(crate) fn columns_left(rows: &[Vec<String>]) -> String {
    aligned(rows, |_, _| Side::Left)
}

/// A name and what is said of it to the left, an amount to the right.
pub(crate) fn pairs_and_note(rows: &[Vec<String>]) -> String {
    aligned(rows, |c, _| if c > 1 { Side::Right } else { Side::Left })
}

/// Rows of a list: a word and a name to the left, amounts to the right, a note behind them.
pub(crate) fn listed<const N: usize>(rows: &[[String; N]]) -> String {
    aligned(rows, |c, count| if c > 1 && c + 1 < count { Side::Right } else { Side::Left })
}

fn aligned<T: AsRef<str>>(rows: &[impl AsRef<[T]>], side: impl Fn(usize, usize) -> Side) -> String {
    let count = rows.iter().map(|row| row.as_ref().len()).max().unwrap_or(0);
    let mut widths = vec![0; count];
    for row in rows {
        for (width, cell) in widths.iter_mut().zip(row.as_ref()) {
            *width = cell.as_ref().width().max(*width);
        }
    }
    let line = |row: &[T]| {
        let cells = row.iter().map(AsRef::as_ref).zip(&widths).enumerate().map(|(c, (cell, width))| {
            let pad = " ".repeat(width - cell.width());
            if side(c, count) == Side::Right { pad + cell } else { cell.to_owned() + &pad }
        });
        format!("  {}", cells.collect::<Vec<_>>().join("   ")).trim_end().to_owned() + "\n"
    };
    rows.iter().map(|row| line(row.as_ref())).collect()
}

/// A text under a first line that begins with `head`; what does not fit on the page goes on, indented as far.
pub(crate) fn wrapped(head: &str, text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    format!("{head}{HANG}{}\n", words.join(" "))
}
