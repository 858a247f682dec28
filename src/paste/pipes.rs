//! A table whose cells bars part, as a page, a wiki or a chat has it: the same rows, one bar between two cells and none round them.

use crate::units::measure;

/// A table has so many rows at the least (ours): a bar alone is a mark like another.
const FEWEST_ROWS: usize = 2;

/// The text with its rows made alike; `None` where it has no such table.
pub(super) fn rows_alike(text: &str) -> Option<String> {
    let text = if text.contains("{|") { of_wiki(text) } else { text.to_owned() };
    let is_row = |line: &str| cells(line).filter(|cell| !cell.is_empty()).count() > 1 && line.contains('|');
    (text.lines().filter(|line| is_row(line)).count() >= FEWEST_ROWS).then(|| {
        let rows = text.lines().filter(|line| !is_ruled(line));
        let rows = rows.map(|line| if line.contains('|') { joined(cells(line)) } else { line.to_owned() });
        rows.collect::<Vec<_>>().join("\n")
    })
}

/// A row as a line of a recipe, where no heading says which cell is what: "200 ml ginger juice (pressed today)". What is no part loses
/// its bars.
pub(super) fn as_line(row: &str) -> String {
    as_part(row).unwrap_or_else(|| row.replace('|', " "))
}

fn as_part(row: &str) -> Option<String> {
    let mut cells: Vec<&str> = cells(row).collect();
    let is_amount = |cell: &&str| cell.starts_with(|c: char| c.is_numeric());
    // two amounts are of two columns
    let is_one = cells.len() > 1 && cells.iter().filter(|cell| is_amount(cell)).count() == 1;
    let at = cells.iter().position(is_amount).filter(|_| is_one)?;
    let amount = cells.remove(at);
    let is_unit = cells.get(at).is_some_and(|unit| measure(unit.trim_end_matches('.')).is_some());
    let unit = is_unit.then(|| cells.remove(at));
    let mut rest = cells.into_iter().filter(|cell| !cell.is_empty());
    let name = rest.next()?;
    let front = [Some(amount), unit, Some(name)].into_iter().flatten().map(str::to_owned);
    Some(front.chain(rest.map(|said| format!("({said})"))).collect::<Vec<_>>().join(" "))
}

fn cells(line: &str) -> impl Iterator<Item = &str> {
    let line = line.trim();
    let line = line.strip_prefix('|').unwrap_or(line);
    line.strip_suffix('|').unwrap_or(line).split('|').map(str::trim)
}

fn joined<'c>(cells: impl Iterator<Item = &'c str>) -> String {
    cells.collect::<Vec<_>>().join(" | ").trim_end_matches([' ', '|']).to_owned()
}

/// The line below the heading of a table.
fn is_ruled(line: &str) -> bool {
    line.contains('-') && line.chars().all(|c| matches!(c, '-' | ':' | '|' | '+' | '=' | ' '))
}

/// The rows of a wiki, whose cells may stand each on a line of its own.
fn of_wiki(text: &str) -> String {
    let mut lines: Vec<String> = Vec::new();
    let mut row: Vec<String> = Vec::new();
    let mut is_inside = false;
    for line in text.lines().map(str::trim) {
        let (starts, ends) = (line.starts_with("{|"), line.starts_with("|}"));
        if starts || ends || line.starts_with("|-") {
            lines.extend((!row.is_empty()).then(|| std::mem::take(&mut row).join(" | ")));
            is_inside = is_inside && !ends || starts;
            continue;
        }
        match line.strip_prefix("|+").or_else(|| line.strip_prefix(['|', '!'])).filter(|_| is_inside) {
            Some(title) if line.starts_with("|+") => lines.push(title.trim().to_owned()),
            Some(cells) => {
                let cells = cells.replace("!!", "||");
                row.extend(cells.split("||").map(|cell| cell.rsplit('|').next().unwrap_or(cell).trim().to_owned()));
            }
            None => lines.push(line.to_owned()),
        }
    }
    lines.extend((!row.is_empty()).then(|| row.join(" | ")));
    lines.join("\n")
}
