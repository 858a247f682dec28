//! A recipe from a spreadsheet: columns of ingredient, amount and unit in any order, parted by tabs, semicolons or commas.

use crate::units::Literal;
use crate::units::spans::{SpanEnd, time};
use crate::units::told::first_told;
use crate::vocabulary::Word;

use super::pipes;
use super::words::WordList;

crate::vocabulary::words! {
    /// What a column holds.
    Column, "column":
    Ingredient = "ingredient" | "ingredients" | "item" | "name" | "product" | "what" | "part" | "component" | "zutat" | "zutaten" | "artikel" | "produkt" | "ingrédient" | "ingrédients" | "produit" | "ingrediente" | "ingredientes" | "producto" | "ingredienti" | "prodotto",
    Net = "net" | "net qty" | "net quantity" | "net weight" | "net amount",
    Batch = "batch" | "per batch" | "batch qty" | "batch size" | "for the batch" | "total" | "batch amount",
    Amount = "amount" | "quantity" | "qty" | "weight" | "volume" | "how much" | "amt" | "menge" | "anzahl" | "gewicht" | "quantité" | "quantités" | "qté" | "poids" | "cantidad" | "cant." | "peso" | "quantità" | "qtà" | "dose",
    Gross = "gross" | "gross qty" | "gross quantity" | "gross weight" | "gross amount",
    Serve = "serve" | "per serve" | "per serving" | "serving" | "per drink" | "drink" | "single" | "per cocktail",
    Unit = "unit" | "units" | "uom" | "measure" | "einheit" | "maß" | "unité" | "unidad" | "medida" | "unità" | "misura" | "u.m.",
    Note = "note" | "notes" | "comment" | "comments" | "remark" | "prep" | "preparation" | "bemerkung" | "bemerkungen" | "notiz" | "remarque" | "remarques" | "nota" | "notas" | "hinweis",
    Stage = "stage" | "phase" | "section" | "group" | "sub-recipe" | "subrecipe" | "for",
}

/// Which of several amounts of a row counts, the first one that it has: what goes into the batch.
const AMOUNTS: [Column; 5] = [Column::Net, Column::Batch, Column::Amount, Column::Gross, Column::Serve];

/// A column, and the unit that its heading says: "batch (ml)", "g".
#[derive(Clone, Debug, PartialEq)]
struct SheetColumn {
    of: Option<Column>,
    unit: Option<String>,
}

/// The text with the rows of a table turned into lines of a recipe; `None` where it is no table.
pub(super) fn as_lines(text: &str) -> Option<String> {
    let alike = pipes::rows_alike(text);
    let text = alike.as_deref().unwrap_or(text);
    let header = text.lines().enumerate().find_map(|(at, line)| Some((at, header(line)?)));
    let Some((at, (mark, columns))) = header else { return without_header(text) };
    let before: Vec<&str> = text.lines().take(at).collect();
    let rest: Vec<&str> = text.lines().skip(at + 1).collect();
    let mut lines: Vec<String> = before.iter().enumerate().flat_map(|(at, line)| above(line, mark, at == 0)).collect();
    // the rows of each stage together, in the order in which the stages are met
    let mut stages: Vec<(String, Vec<String>)> = vec![(String::new(), Vec::new())];
    let mut of_whole = Vec::new();
    let mut at_stage = 0;
    let rows = rest.join("\n");
    let of_stages: Vec<String> =
        reader(&rows, mark).records().flatten().map(|row| cell(&row, &columns, Column::Stage)).collect();
    for row in reader(&rows, mark).records() {
        let Ok(row) = row.as_ref() else {
            of_whole.extend(row.err().map(|why| why.to_string()));
            continue;
        };
        let stage = without_number(&cell(row, &columns, Column::Stage)).to_owned();
        let line = match told_below(row, &columns, mark) {
            Some(told) => SheetRow::Whole(told),
            None => line(row, &columns, &of_stages),
        };
        if let Some(named) = stages.iter().position(|(name, _)| *name == stage).filter(|_| !stage.is_empty()) {
            at_stage = named;
        } else if !stage.is_empty() {
            at_stage = stages.len();
            stages.push((stage, Vec::new()));
        }
        // what is no part says something of the whole
        match (line, stages.get_mut(at_stage)) {
            (SheetRow::Part(line), Some((_, lines))) => {
                lines.push(line);
                lines.extend(told(row, &columns));
            }
            (SheetRow::Part(line) | SheetRow::Whole(line), _) => of_whole.push(line),
        }
    }
    let has_stages = stages.len() > 1;
    for (name, rows) in stages {
        lines.extend((!name.is_empty() && !rows.is_empty()).then(|| format!("For the {name}:")));
        lines.extend(rows);
    }
    // below a stage a line would be of that stage
    if has_stages {
        lines.splice(at..at, of_whole)
    } else {
        lines.splice(lines.len().., of_whole)
    };
    Some(lines.join("\n"))
}

/// A row above the table: the title and what else its row says, each by itself; below it one thing a row.
fn above(row: &str, mark: char, is_first: bool) -> Vec<String> {
    let Some(Ok(row)) = reader(row, mark).records().next() else { return vec![String::new()] };
    let cells: Vec<String> = row.iter().map(|cell| cell.trim().to_owned()).filter(|cell| !cell.is_empty()).collect();
    match cells.as_slice() {
        [key, title] if is_first && key.eq_ignore_ascii_case("recipe") => vec![title.clone()],
        _ if is_first => cells,
        _ => vec![cells.join(" ")],
    }
}

enum SheetRow {
    Part(String),
    Whole(String),
}

fn reader(text: &str, mark: char) -> csv::Reader<std::io::Cursor<String>> {
    let mark = u8::try_from(mark).unwrap_or(b',');
    let mut builder = csv::ReaderBuilder::new();
    builder.has_headers(false).flexible(true).delimiter(mark);
    builder.from_reader(std::io::Cursor::new(text.to_owned()))
}

/// "250;ml;lime juice" in every line that has the mark: read as it stands.
fn without_header(text: &str) -> Option<String> {
    if text.lines().filter(|line| line.contains('|')).count() > 1 {
        return Some(text.lines().map(pipes::as_line).collect::<Vec<_>>().join("\n"));
    }
    let is_row = |line: &str, mark: char| {
        line.split(mark).count() == 3 && line.trim_start().starts_with(|c: char| c.is_numeric())
    };
    let mark = [';', '\t'].into_iter().find(|&mark| text.lines().filter(|line| is_row(line, mark)).count() > 1)?;
    let rows = text.lines().map(|line| if is_row(line, mark) { line.replace(mark, " ") } else { line.to_owned() });
    Some(rows.collect::<Vec<_>>().join("\n"))
}

fn header(line: &str) -> Option<(char, Vec<SheetColumn>)> {
    ['\t', ';', ',', '|'].into_iter().find_map(|mark| {
        let row = reader(line, mark).records().next()?.ok()?;
        let columns: Vec<SheetColumn> = row.iter().map(column).collect();
        let has = |wanted| columns.iter().any(|column| column.of == Some(wanted));
        (has(Column::Ingredient) && AMOUNTS.into_iter().any(has)).then_some((mark, columns))
    })
}

/// "Amount", "batch (ml)", "g".
fn column(cell: &str) -> SheetColumn {
    let cell = cell.trim().trim_start_matches('\u{feff}').trim_matches(['"', ' ']);
    let (name, unit) = match cell.strip_suffix(')').and_then(|cell| cell.split_once('(')) {
        Some((name, unit)) => (name.trim(), Some(unit.trim())),
        None => (cell, None),
    };
    let is_unit = |unit: &&str| crate::units::measure(unit.trim_end_matches('.')).is_some();
    match (Column::parse(name).or_else(|| of_drinks(name)), unit.filter(is_unit)) {
        (None, Some(unit)) if name.is_empty() => SheetColumn { of: Some(Column::Amount), unit: Some(unit.to_owned()) },
        (None, None) if is_unit(&name) => {
            SheetColumn { of: Some(Column::Amount), unit: Some(name.trim_end_matches('.').to_owned()) }
        }
        (of, unit) => SheetColumn { of, unit: unit.map(str::to_owned) },
    }
}

/// "Batch x20", "20 drinks", "1 drink": what goes into so many.
fn of_drinks(name: &str) -> Option<Column> {
    let is_number = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    // "x 24"
    if name.strip_prefix(['x', 'X', '×']).is_some_and(|times| is_number(times.trim())) {
        return Some(Column::Batch);
    }
    let (front, last) = name.rsplit_once(' ')?;
    if is_number(last.trim_start_matches(['x', '×'])) {
        return Column::parse(front.trim_end_matches(['x', '×', ' ']));
    }
    let counts = is_number(front) && WordList::Drinks.has(last);
    counts.then(|| if front == "1" { Column::Serve } else { Column::Batch })
}

/// What the columns of a kind hold of a row; of two alike, the first that holds something.
fn cell(row: &csv::StringRecord, columns: &[SheetColumn], wanted: Column) -> String {
    let mut cells =
        columns.iter().zip(row).filter(|(column, _)| column.of == Some(wanted)).map(|(_, cell)| cell.trim());
    cells.find(|cell| !cell.is_empty()).unwrap_or_default().to_owned()
}

/// "1 Cold brew" is the first stage, and called cold brew.
fn without_number(stage: &str) -> &str {
    let rest = stage.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ')' | ':' | ' '));
    if rest.starts_with(char::is_alphabetic) { rest } else { stage }
}

/// Whether a note says what is done, how hot or for how long: "steep 16 h in the fridge then filter", "80 °C for 20 min".
fn is_told(note: &str) -> bool {
    let words: Vec<&str> = note.split_whitespace().collect();
    let begins = words.first().is_some_and(|first| WordList::Step.has(first));
    let is_time = || time(&words, SpanEnd::Most).is_some();
    let is_hot = || first_told(&words, |told| matches!(told, Literal::Temperature(_)).then_some(())).is_some();
    // "bruised, then strain"; a word of a strainer alone may say what a thing is
    let strains = words.windows(2).any(|pair| match pair {
        [joint, verb] => {
            let is_joint = joint.eq_ignore_ascii_case("then") || WordList::And.has(joint) || joint.ends_with(',');
            is_joint && WordList::Step.has(verb) && WordList::Strain.has(verb)
        }
        _ => false,
    });
    let is_strained = || words.len() == 1 && begins && words.iter().any(|word| WordList::Strain.has(word));
    is_hot() || strains || is_strained() || begins && (words.len() >= FEWEST_STEP_WORDS || is_time())
}

/// A note with so many words is a step, where it begins as one (ours).
const FEWEST_STEP_WORDS: usize = 4;

/// What the note of a row says is done, as a step of its stage.
fn told(row: &csv::StringRecord, columns: &[SheetColumn]) -> Option<String> {
    let note = Some(cell(row, columns, Column::Note)).filter(|note| is_told(note))?;
    Some(format!("Step: {}: {note}", cell(row, columns, Column::Ingredient)))
}

/// A sentence below the table, whose commas part no cells: "Simmer pulp, sugar and water, cool. Strain."
fn told_below(row: &csv::StringRecord, columns: &[SheetColumn], mark: char) -> Option<String> {
    let said = row.iter().collect::<Vec<_>>().join(&mark.to_string());
    let said = said.trim();
    let has_cells = row.iter().filter(|cell| !cell.trim().is_empty()).count() > 1;
    let is_amount = |cell: &str| cell.starts_with(|c: char| c.is_numeric());
    let has_amount = AMOUNTS.into_iter().any(|of| is_amount(&cell(row, columns, of)));
    let begins = || said.split(' ').next().is_some_and(|first| WordList::Step.has(first));
    let is_told = said.ends_with(['.', '!']) || row.len() > columns.len() && begins();
    let is_long = said.split_whitespace().count() >= FEWEST_STEP_WORDS;
    (has_cells && !has_amount && is_told && is_long).then(|| said.to_owned())
}

/// "Cold brew (from A)" is what the stage A gives.
fn of_stage(name: &str, stages: &[String]) -> Option<String> {
    let (_, from) = name.strip_suffix(')')?.rsplit_once('(')?;
    let (from_word, stage) = from.split_once(' ')?;
    let found = stages.iter().find(|named| !named.is_empty() && named.eq_ignore_ascii_case(stage.trim()))?;
    WordList::Beside.has(from_word).then(|| found.clone())
}

fn line(row: &csv::StringRecord, columns: &[SheetColumn], stages: &[String]) -> SheetRow {
    let name = cell(row, columns, Column::Ingredient);
    let name = of_stage(&name, stages).unwrap_or(name);
    if name.is_empty() {
        // a row that is no part: a step below the table, or a blank one
        let all = row.iter().map(str::trim).filter(|cell| !cell.is_empty()).collect::<Vec<_>>().join(" ");
        return SheetRow::Whole(all);
    }
    // "1;Soak the zest in the rum": a step with its number
    let rest = row.iter().map(str::trim).filter(|cell| !cell.is_empty()).skip(1).collect::<Vec<_>>().join(" ");
    let is_number = name.chars().all(|c| c.is_ascii_digit() || c == '.');
    if is_number && rest.starts_with(char::is_alphabetic) {
        return SheetRow::Whole(format!("{}. {rest}", name.trim_end_matches('.')));
    }
    // "Method;Rum and ginger in a jar. Strain."
    if WordList::Method.has_singular(&name) && !rest.is_empty() {
        let cells = row.iter().map(str::trim).filter(|cell| !cell.is_empty()).skip(1).collect::<Vec<_>>().join(", ");
        return SheetRow::Whole(format!("Step: {cells}"));
    }
    // the sum of the rows is no row of its own
    if WordList::Sum.has(name.trim_end_matches(':')) {
        return SheetRow::Whole(String::new());
    }
    let amount = AMOUNTS.into_iter().find_map(|of| amount(row, columns, of)).unwrap_or_default();
    if WordList::Makes.has(&name) && !amount.is_empty() {
        return SheetRow::Whole(format!("Makes: {amount}"));
    }
    let note = Some(cell(row, columns, Column::Note))
        .filter(|note| !note.is_empty() && !is_told(note))
        .map(|note| format!(" ({note})"));
    let line = format!("{amount} {name}{}", note.unwrap_or_default()).trim().to_owned();
    if amount.is_empty() && name.ends_with('.') { SheetRow::Whole(line) } else { SheetRow::Part(line) }
}

/// An amount with its unit: that of its heading, else that of the next column of units.
fn amount(row: &csv::StringRecord, columns: &[SheetColumn], of: Column) -> Option<String> {
    let held = |at: &usize| row.get(*at).is_some_and(|cell| !cell.trim().is_empty());
    // where what was weighed stands beside its share, the share says nothing more
    let is_share = |at: &usize| columns.get(*at).and_then(|column| column.unit.as_deref()) == Some("%");
    let of_kind = |kind: Column| columns.iter().enumerate().filter(move |(_, c)| c.of == Some(kind)).map(|(at, _)| at);
    let at = of_kind(of).filter(held).min_by_key(is_share)?;
    let unit_of_heading = columns.get(at)?.unit.as_deref();
    let unit_beside = of_kind(Column::Unit).find(|unit| *unit > at).or_else(|| of_kind(Column::Unit).next());
    let unit = unit_of_heading.or_else(|| unit_beside.and_then(|unit| row.get(unit))).unwrap_or_default().trim();
    Some(format!("{} {unit}", row.get(at)?.trim()).trim().to_owned())
}
