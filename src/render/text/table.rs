//! Columns that line up: the first to the left, the others to the right, by the width of letters.

/// Rows under each other, indented by two; every row has the same number of cells.
pub fn columns(rows: &[Vec<String>]) -> String {
    aligned(rows, 1)
}

/// The same, with a note at the end of each row, to the left.
pub fn columns_noted(rows: &[Vec<String>]) -> String {
    let last = rows.iter().map(Vec::len).max().unwrap_or(0).saturating_sub(1);
    aligned(rows, last)
}

/// The first column to the left, and from `note` on too if there is more than one before it.
fn aligned(rows: &[Vec<String>], note: usize) -> String {
    let wide = |s: &str| s.chars().count();
    let count = rows.iter().map(Vec::len).max().unwrap_or(0);
    let widths: Vec<usize> =
        (0..count).map(|c| rows.iter().filter_map(|r| r.get(c)).map(|s| wide(s)).max().unwrap_or(0)).collect();
    let mut text = String::new();
    for row in rows {
        let mut line = String::from("  ");
        for (c, cell) in row.iter().enumerate() {
            let pad = " ".repeat(widths[c].saturating_sub(wide(cell)));
            if c > 1 && c == note {
                line.push_str("   ");
                line.push_str(cell);
            } else if c == 0 {
                line.push_str(cell);
                line.push_str(&pad);
            } else {
                line.push_str("   ");
                line.push_str(&pad);
                line.push_str(cell);
            }
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// Names and what is said of them, both to the left.
pub fn pairs(rows: &[(String, String)]) -> String {
    let width = rows.iter().map(|(name, _)| name.chars().count()).max().unwrap_or(0);
    rows.iter()
        .map(|(name, said)| {
            let pad = " ".repeat(width - name.chars().count());
            format!("  {name}{pad}   {said}").trim_end().to_owned() + "\n"
        })
        .collect()
}

/// Rows of a list: a word and a name to the left, amounts to the right, a note behind them.
pub fn listed<const N: usize>(rows: &[[String; N]]) -> String {
    let wide = |s: &String| s.chars().count();
    let widths: Vec<usize> =
        (0..N).map(|c| rows.iter().filter_map(|r| r.get(c)).map(wide).max().unwrap_or(0)).collect();
    let line = |row: &[String; N]| {
        let cells = row.iter().zip(&widths).enumerate().map(|(c, (cell, width))| {
            let pad = " ".repeat(width - wide(cell));
            if c > 1 && c + 1 < N { pad + cell } else { cell.clone() + &pad }
        });
        format!("  {}", cells.collect::<Vec<_>>().join("   ")).trim_end().to_owned() + "\n"
    };
    rows.iter().map(line).collect()
}

/// The width of a page of text, in letters.
const PAGE: usize = 100;

/// A text under a first line that begins with `head`; what does not fit goes on, indented as far.
pub fn wrapped(head: &str, text: &str) -> String {
    let indent = " ".repeat(head.chars().count());
    let mut out = String::from(head);
    let mut column = head.chars().count();
    let mut first = true;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if !first && column + 1 + length > PAGE {
            out.push('\n');
            out.push_str(&indent);
            column = indent.len();
        } else if !first {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += length;
        first = false;
    }
    out.push('\n');
    out
}
