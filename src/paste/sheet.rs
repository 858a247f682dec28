//! A recipe from a spreadsheet: columns of ingredient, amount and unit in any order, parted by tabs, semicolons or commas.

use crate::vocabulary::Word;

crate::vocabulary::words! {
    /// What a column holds.
    Column, "column":
    Ingredient = "ingredient" | "ingredients" | "item" | "name" | "product" | "what" | "part" | "component",
    Amount = "amount" | "quantity" | "qty" | "weight" | "volume" | "how much" | "amt",
    Unit = "unit" | "units" | "uom" | "measure",
    Note = "note" | "notes" | "comment" | "comments" | "remark" | "prep" | "preparation",
    Grams = "g" | "grams" | "grammes" | "amount (g)" | "weight (g)" | "g.",
    Millilitres = "ml" | "amount (ml)" | "volume (ml)" | "millilitres" | "milliliters",
}

/// The text with the rows of a table turned into lines of a recipe; `None` where it is no table.
pub(super) fn as_lines(text: &str) -> Option<String> {
    let header = text.lines().enumerate().find_map(|(at, line)| Some((at, header(line)?)));
    let Some((at, (mark, columns))) = header else { return without_header(text) };
    let before: Vec<&str> = text.lines().take(at).collect();
    let rest: Vec<&str> = text.lines().skip(at + 1).collect();
    let mut lines: Vec<String> = before.iter().map(|line| line.trim_matches(mark).to_owned()).collect();
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(u8::try_from(mark).ok()?)
        .from_reader(std::io::Cursor::new(rest.join("\n")));
    for row in reader.records() {
        lines.push(match row {
            Ok(row) => line(&row, &columns),
            Err(why) => why.to_string(),
        });
    }
    Some(lines.join("\n"))
}

/// "250;ml;lime juice" in every line that has the mark: read as it stands.
fn without_header(text: &str) -> Option<String> {
    let is_row = |line: &str, mark: char| {
        line.split(mark).count() == 3 && line.trim_start().starts_with(|c: char| c.is_numeric())
    };
    let mark = [';', '\t', '|'].into_iter().find(|&mark| text.lines().filter(|line| is_row(line, mark)).count() > 1)?;
    let rows = text.lines().map(|line| if is_row(line, mark) { line.replace(mark, " ") } else { line.to_owned() });
    Some(rows.collect::<Vec<_>>().join("\n"))
}

fn header(line: &str) -> Option<(char, Vec<Option<Column>>)> {
    ['\t', ';', ',', '|'].into_iter().find_map(|mark| {
        let cells: Vec<Option<Column>> = line.split(mark).map(column).collect();
        let has = |column| cells.contains(&Some(column));
        let amount = has(Column::Amount) || has(Column::Grams) || has(Column::Millilitres);
        (has(Column::Ingredient) && amount).then_some((mark, cells))
    })
}

fn column(cell: &str) -> Option<Column> {
    Column::parse(cell.trim().trim_start_matches('\u{feff}').trim_matches('"'))
}

fn line(row: &csv::StringRecord, columns: &[Option<Column>]) -> String {
    let cell = |wanted: Column| {
        let cells = columns.iter().zip(row).filter(|(column, _)| **column == Some(wanted)).map(|(_, cell)| cell.trim());
        cells.filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" ")
    };
    let of = |column, unit: &str| Some(cell(column)).filter(|cell| !cell.is_empty()).map(|n| format!("{n} {unit}"));
    let written = format!("{} {}", cell(Column::Amount), cell(Column::Unit)).trim().to_owned();
    let written = Some(written).filter(|written| !written.is_empty());
    let amount =
        written.or_else(|| of(Column::Grams, "g")).or_else(|| of(Column::Millilitres, "ml")).unwrap_or_default();
    let note = Some(cell(Column::Note)).filter(|note| !note.is_empty()).map(|note| format!(" ({note})"));
    let name = cell(Column::Ingredient);
    if name.is_empty() {
        // a row that is no part: a step below the table, or a blank one
        return row.iter().map(str::trim).filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" ");
    }
    format!("{amount} {name}{}", note.unwrap_or_default()).trim().to_owned()
}
