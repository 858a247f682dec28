//! Two columns of amounts, a batch beside four of them: "Water  250 ml  1 L" in one row after the other. Which one is made nobody
//! but the maker knows; the card has the first, and the other is written out behind one question.

use super::amounts::is_size;
use super::clean::PastedLine;
use super::double::is_double;
use super::draft::{Draft, DraftLine, DraftPart};
use super::names::Names;
use super::speaks::names_it;
use super::words::WordList;
use crate::spelling::words as words_of;

/// An amount in a column has so many words at the most: "1 fl oz".
const MOST_WORDS: usize = 3;

/// One row alone may say the same amount twice.
const FEWEST_ROWS: usize = 2;

/// The two amounts of a row.
struct ColumnRow {
    name: String,
    first: String,
    second: String,
}

/// What the rows of a text have besides the first column.
pub(super) struct TwoColumns {
    rows: Vec<ColumnRow>,
    /// What stands over the two, where the text says it.
    heads: Option<[String; 2]>,
}

/// The lines with the first of two columns alone, and what the second holds; `None` where there are no two.
pub(super) fn first_of_two(lines: &[PastedLine], names: Names<'_>) -> Option<(Vec<PastedLine>, TwoColumns)> {
    let of_line = |line: &PastedLine| if line.numbered { None } else { row(&line.text, names) };
    let rows: Vec<Option<ColumnRow>> = lines.iter().map(of_line).collect();
    let is_table = !names.is_from_a_card() && rows.iter().flatten().count() >= FEWEST_ROWS;
    let from = rows.iter().position(Option::is_some).filter(|_| is_table)?;
    let mut heads = None;
    let first = |(at, (line, row)): (usize, (&PastedLine, &Option<ColumnRow>))| {
        let text = match row {
            Some(row) => format!("{} {}", row.name, row.first),
            None if at < from => match headed(&line.text) {
                Some((title, found)) => {
                    heads = Some(found);
                    title
                }
                None => line.text.clone(),
            },
            None => line.text.clone(),
        };
        (!text.is_empty()).then(|| PastedLine { text, ..line.clone() })
    };
    let kept = lines.iter().zip(&rows).enumerate().filter_map(first).collect();
    Some((kept, TwoColumns { rows: rows.into_iter().flatten().collect(), heads }))
}

fn row(text: &str, names: Names<'_>) -> Option<ColumnRow> {
    let words: Vec<&str> = text.split(' ').collect();
    let (rest, second) = amount_behind(&words, names)?;
    let (name, first) = amount_behind(rest, names)?;
    let name = name.join(" ");
    // "2 cups sugar 400 g 1 lb" has one in front as well
    let is_name = name.starts_with(|c: char| !c.is_numeric()) && name.contains(char::is_alphabetic);
    is_name.then_some(ColumnRow { name, first, second })
}

/// A mass or a volume at the end of the words, and what stands in front of it.
fn amount_behind<'w, 't>(words: &'w [&'t str], names: Names<'_>) -> Option<(&'w [&'t str], String)> {
    (1..=MOST_WORDS.min(words.len())).find_map(|n| {
        let (front, amount) = words.split_at_checked(words.len() - n)?;
        let amount = amount.join(" ");
        let begins = amount.starts_with(|c: char| c.is_numeric());
        let is_read = || names.reads(&amount).map_or_else(|why| is_double(&why), is_size);
        (begins && is_read()).then_some((front, amount))
    })
}

/// "Cold brew liqueur x1 x4", "Ingredient 1 bottle 10 bottles": the title, and the heads of the columns.
fn headed(text: &str) -> Option<(String, [String; 2])> {
    let words: Vec<&str> = text.split(' ').collect();
    let is_number = |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
    if let [title @ .., one, of, other, of_other] = words.as_slice()
        && is_number(one)
        && is_number(other)
        && words_of(of) == words_of(of_other)
    {
        let title = title.join(" ");
        let is_body = title.is_empty() || WordList::Body.has_singular(&title.to_lowercase());
        let title = if is_body { String::new() } else { title };
        return Some((title, [format!("{one} {of}"), format!("{other} {of_other}")]));
    }
    let (title, heads) = words.split_at_checked(words.len().checked_sub(2)?)?;
    let is_head = |word: &&str| {
        let number = word.trim_matches(['x', 'X', '×']);
        number.len() < word.len() && !number.is_empty() && number.chars().all(|c| c.is_ascii_digit())
    };
    match heads {
        [one, other] if heads.iter().all(is_head) => Some((title.join(" "), [(*one).to_owned(), (*other).to_owned()])),
        _ => None,
    }
}

impl TwoColumns {
    /// Asks which of the two is made, with the lines of the second to be copied.
    pub(super) fn asked(&self, draft: &mut Draft) {
        let parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
        let of_row = |row: &ColumnRow| {
            let is_its = |part: &&DraftPart| {
                part.amount.as_deref() == Some(&row.first)
                    && (names_it(part.of(), &row.name) || names_it(&part.label, &row.name))
            };
            let plain = || DraftPart { label: row.name.clone(), ..DraftPart::default() };
            parts().find(is_its).cloned().unwrap_or_else(plain).line(&row.second).toml
        };
        let second: Vec<String> = self.rows.iter().map(of_row).collect();
        let [one, other] = self.heads.clone().unwrap_or_else(|| ["the first".to_owned(), "the second".to_owned()]);
        let second = second.join(" | ");
        let asks = format!(
            "two columns of amounts: which one is made? These are of {one} (then delete this line); of {other}: {second}"
        );
        draft.last.asked.push(DraftLine::question("", asks));
    }
}
