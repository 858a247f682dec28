//! What is on hand, from a spreadsheet: a CSV file with the columns product, amount, use_by.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, Spanned, keep_first};
use crate::house::House;
use crate::spelling::{fold, meant_or, nearest};
use crate::units::Customs;

use super::board::{Board, Entry, Held, HeldDate, date, quantity};

const COLUMNS: [&str; 3] = ["product", "amount", "use_by"];
const HELP: &str = "the first line is: product,amount,use_by — below it for example: Lime cordial,1.2 L,2026-12-03";
/// The byte-order mark that spreadsheets put before UTF-8.
const MARK: char = '\u{feff}';

/// What a spreadsheet would run as a formula if a cell began with it.
pub(crate) const RUN_BY_SPREADSHEETS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// A row of the stock list.
#[derive(Clone, Debug)]
pub struct CountedRow {
    /// The product.
    pub product: Spanned<String>,
    /// What there is of it.
    pub held: Held,
}

/// Reads a stock list.
pub fn read(text: &str, file: &Arc<str>, customs: &Customs, found: &mut Vec<Diagnostic>) -> Vec<CountedRow> {
    let mut own = Vec::new();
    let rows = rows(text, customs, &mut own);
    keep_first(&mut own);
    found.extend(own.into_iter().map(|d| d.in_file(file)));
    rows
}

fn rows(text: &str, customs: &Customs, found: &mut Vec<Diagnostic>) -> Vec<CountedRow> {
    let body = text.strip_prefix(MARK).unwrap_or(text);
    let offset = text.len() - body.len();
    if offset > 0 {
        found.push(Diagnostic::note(Code::Understood, "the file begins with a byte-order mark, which is passed over"));
    }
    let head = body.lines().next().unwrap_or_default();
    let head_at = Span { start: offset, end: offset + head.len() };
    for (mark, name) in [(';', "semicolons"), ('\t', "tabs")] {
        if head.contains(mark) && !head.contains(',') {
            found.push(
                Diagnostic::error(Code::WrongSeparator, format!("the cells are parted by {name}"))
                    .at(head_at, "commas were expected")
                    .help("save it as \"CSV (comma separated)\"; where the spreadsheet writes decimal commas, choose the field delimiter , when exporting"),
            );
            return Vec::new();
        }
    }
    let mut reader = ::csv::ReaderBuilder::new().flexible(true).trim(::csv::Trim::All).from_reader(body.as_bytes());
    let places = match reader.headers() {
        Ok(heads) => columns(heads, head_at, found),
        Err(error) => broken(&error, head_at).refused(found),
    };
    let Some(places) = places else { return Vec::new() };
    let mut rows = Vec::new();
    for record in reader.records() {
        match record {
            Ok(record) => rows.extend(row(&record, places, (body, offset), customs, found)),
            Err(error) => found.push(broken(&error, head_at)),
        }
    }
    rows
}

fn broken(error: &::csv::Error, at: Span) -> Diagnostic {
    Diagnostic::error(Code::Syntax, format!("the table cannot be read: {error}")).at(at, "in this table").help(HELP)
}

fn columns(heads: &::csv::StringRecord, at: Span, found: &mut Vec<Diagnostic>) -> Option<[usize; 3]> {
    let before = found.len();
    for head in heads {
        if !COLUMNS.contains(&head.to_lowercase().as_str()) {
            let diagnostic = Diagnostic::error(Code::WrongColumn, format!("a column `{head}` is not read here"))
                .at(at, format!("{} were expected", COLUMNS.join(", ")));
            found.push(diagnostic.help(meant_or(nearest(head, COLUMNS), HELP)));
        }
    }
    let place = |column: &str| heads.iter().position(|h| h.eq_ignore_ascii_case(column));
    let places = COLUMNS.map(place);
    let missing: Vec<_> = COLUMNS.iter().zip(&places).filter(|(_, p)| p.is_none()).map(|(c, _)| *c).collect();
    if found.len() == before && !missing.is_empty() {
        let title = format!("there is no column {}", missing.join(", "));
        found.push(Diagnostic::error(Code::WrongColumn, title).at(at, "the columns of the file").help(HELP));
    }
    match places {
        [Some(product), Some(amount), Some(use_by)] if found.len() == before => Some([product, amount, use_by]),
        _ => None,
    }
}

fn row(
    record: &::csv::StringRecord,
    places: [usize; 3],
    (body, offset): (&str, usize),
    customs: &Customs,
    found: &mut Vec<Diagnostic>,
) -> Option<CountedRow> {
    let start = record.position().and_then(|p| usize::try_from(p.byte()).ok()).unwrap_or(0);
    let rest = body.get(start..).unwrap_or_default();
    // the reader's place may be the end of the line before
    let blank = rest.len() - rest.trim_start_matches(['\r', '\n']).len();
    let line = rest.get(blank..).and_then(|r| r.lines().next()).unwrap_or_default();
    let at = Span { start: offset + start + blank, end: offset + start + blank + line.len() };
    let [product, amount, use_by] = places.map(|place| plain(record.get(place).unwrap_or_default()));
    if product.is_empty() && amount.is_empty() && use_by.is_empty() {
        return None;
    }
    for (column, cell) in COLUMNS.iter().zip([product, amount, use_by]) {
        if cell.is_empty() {
            return Diagnostic::error(Code::WrongColumn, format!("a row has no {column}"))
                .at(at, "this row")
                .help(HELP)
                .refused(found);
        }
    }
    let how_much = quantity(amount, customs).map_err(|error| found.push(error.at(at, "in this row"))).ok();
    let last = date("use_by", Spanned { value: use_by, span: at }, found);
    Some(CountedRow {
        product: Spanned { value: product.to_owned(), span: at },
        held: Held {
            amount: Spanned { value: how_much?, span: at },
            dated: HeldDate::UseBy(last?),
            made_by: None,
            best_before: None,
        },
    })
}

/// A cell without the mark that keeps a spreadsheet from running it.
fn plain(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(RUN_BY_SPREADSHEETS) => rest,
        _ => cell,
    }
}

/// What of a stock list the board says nothing of.
pub(crate) fn not_counted(board: &Board, rows: Vec<CountedRow>) -> Vec<CountedRow> {
    let is_counted = |row: &CountedRow| {
        let name = fold(&row.product.value);
        board.products.iter().any(|entry| !entry.on_hand.is_empty() && fold(&entry.name.value) == name)
    };
    rows.into_iter().filter(|row| !is_counted(row)).collect()
}

/// Puts a stock list on the board, in place of what the board says of the same products. A house product that is not on
/// the board may be on the shelf: it can go into others.
pub(crate) fn put_on(
    board: &mut Board,
    rows: Vec<CountedRow>,
    file: &Arc<str>,
    house: &House,
    found: &mut Vec<Diagnostic>,
) {
    let mut counted = std::collections::BTreeSet::new();
    for row in rows {
        let name = fold(&row.product.value);
        if let Some(entry) = board.products.iter_mut().find(|e| fold(&e.name.value) == name) {
            if counted.insert(name) {
                entry.on_hand.clear();
            }
            entry.on_hand.push(row.held);
        } else if house.card(&row.product.value).is_some() {
            counted.insert(name);
            board.products.push(Entry {
                name: Spanned { value: row.product.value, span: Span::default() },
                on_hand: vec![row.held],
                ..Entry::default()
            });
        } else {
            let written = &row.product.value;
            let known = house.cards().map(|f| f.name.as_str());
            found.push(
                Diagnostic::error(Code::UnknownProduct, format!("the house has no formula `{written}`"))
                    .at(row.product.span, "in this row")
                    .help(meant_or(nearest(written, known), "write the name as on its card"))
                    .in_file(file),
            );
        }
    }
}
