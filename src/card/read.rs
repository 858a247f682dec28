//! A card from its text.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Span, Spanned, keep_first, line_and_column};
use crate::input::{self, Table, Value, nearest, quoted};

use super::amount::{self, CARD_PARTS};
use super::model::{Card, Keep, Loss, Measured, Stage};
use super::reader::Reader;
use super::{check, keys, process, property, ratio};

/// A card is a page of text: no file larger than this is read (bytes).
pub const LARGEST: usize = 256_000;

/// The classes that choose the ceiling on a product's life.
pub const CLASSES: &[&str] = &[
    "plain syrup",
    "rich syrup",
    "fruit syrup",
    "processed fruit syrup",
    "nut syrup",
    "nut milk",
    "spice syrup",
    "oleo-saccharum",
    "cordial",
    "juice",
    "orange or grapefruit juice",
    "fresh herbs",
    "shrub",
    "infused spirit",
    "liqueur",
    "vermouth",
    "bitters",
    "dried fruit",
    "saline",
    "acid solution",
];

/// What a card may say was done to it, where that is dangerous in a way of its own. A card lists what was done: what it
/// does not list, and no word of its method hints at, is taken as not done.
pub const PROCESSES: &[&str] =
    &["fermented", "distilled", "fortified", "pressure infusion", "sous vide", "vacuum packed", "carbonated"];

/// Reads a card and says everything that is wrong with it and can be known without a larder. There
/// is a card whenever its name and at least one part could be read, so that later checks can go on;
/// it may be solved only where none of the findings is an error.
pub fn read(file: Arc<str>, text: Arc<str>) -> (Option<Card>, Vec<Diagnostic>) {
    if text.len() > LARGEST {
        let title = format!("the file is {} kB; a card has at most {} kB", text.len().div_ceil(1000), LARGEST / 1000);
        let found = Diagnostic::error(Code::TooLarge, title).help("it was not read: is it really a card?");
        return (None, vec![found.in_file(&file)]);
    }
    let mut found = Vec::new();
    let table = input::parse(&text, &mut found);
    let broken = !found.is_empty();
    let mut reader = Reader { text: &text, found, no_basis: Vec::new() };
    let (formula, named) = card(&mut reader, &table, &file, &text);
    check::check(&formula, &table, &mut reader);
    let mut found = reader.found;
    if broken {
        drop_consequences(&text, &mut found);
    }
    found.sort_by_key(|d| d.labels.first().map_or(0, |label| label.span.start));
    keep_first(&mut found);
    let found = found.into_iter().map(|d| d.in_file(&file)).collect();
    let readable = named && !formula.last.parts.is_empty();
    (readable.then_some(formula), found)
}

/// Drops what may follow from a line that could not be read: something that seems to be missing,
/// and a second finding about the same value.
fn drop_consequences(text: &str, found: &mut Vec<Diagnostic>) {
    use Code::{LoneRatio, MissingKey, NoParts, OpenAmounts, Syntax, Unused, WrongType};
    let line = |d: &Diagnostic| d.labels.first().map(|label| line_and_column(text, label.span.start).0);
    let unread: Vec<_> = found.iter().filter(|d| d.code == Syntax).map(line).collect();
    found.retain(|d| match d.code {
        MissingKey | NoParts | Unused | LoneRatio | OpenAmounts => false,
        WrongType => !unread.contains(&line(d)),
        _ => true,
    });
}

/// The card, and whether it has a name.
fn card(reader: &mut Reader<'_>, table: &Table, file: &Arc<str>, text: &Arc<str>) -> (Card, bool) {
    keys::check(table, "a card", keys::CARD, &mut reader.found);
    let name = name(reader, table, "the card", "name = \"Rich muscovado syrup\"", Span::default());
    let subtable = |key: &str, reader: &mut Reader<'_>| table.table(key, &mut reader.found).map(|t| t.value);
    let tables = table.tables("stage", &mut reader.found);
    let stages = tables.into_iter().map(|table| named_stage(reader, &table)).collect();
    let last = stage(reader, table, None, CARD_PARTS);
    let targets = subtable("target", reader).map_or_else(Vec::new, |t| property::targets(reader, t));
    let keep = subtable("keep", reader).map_or_else(Keep::default, |t| reader.laid(t));
    let measured = subtable("measured", reader).map_or_else(Measured::default, |t| property::measured(reader, t));
    let mut words = |key| table.text(key, &mut reader.found).map(|text| text.value.to_owned());
    let (source, notes) = (words("source"), words("notes"));
    let formula = Card {
        file: Arc::clone(file),
        text: Arc::clone(text),
        name: name.clone().unwrap_or_default(),
        makes: table.get("makes").and_then(|(_, value)| amount::makes(reader, value)),
        targets,
        stages,
        last,
        keep,
        class: class(reader, table),
        process: processes(reader, table),
        serving: table.get("serving").and_then(|(_, value)| amount::serving(reader, value)),
        labour: process::labour(reader, table),
        steps: steps(reader, table),
        source,
        notes,
        measured,
    };
    (formula, name.is_some())
}

fn name(reader: &mut Reader<'_>, table: &Table, whose: &str, example: &str, place: Span) -> Option<Spanned<String>> {
    let text = match table.get("name") {
        Some(_) => table.text("name", &mut reader.found)?,
        None if reader.is_renamed("name") => return None,
        None => Spanned { value: "", span: place },
    };
    let name = text.value.trim();
    if name.is_empty() {
        reader.found.push(
            Diagnostic::error(Code::MissingKey, format!("{whose} has no name"))
                .at(text.span, "a name was expected")
                .help(format!("write for example {example}")),
        );
        return None;
    }
    Some(Spanned { value: name.to_owned(), span: text.span })
}

fn named_stage(reader: &mut Reader<'_>, table: &Spanned<&Table>) -> Stage {
    let name = name(reader, table.value, "a stage", "name = \"maceration\"", table.span);
    let place = name.as_ref().map_or_else(|| "a stage".to_owned(), |name| format!("the stage `{}`", name.value));
    keys::check_but(table.value, &place, keys::STAGE, "target", &mut reader.found);
    if let Some((key, _)) = table.value.get("target") {
        reader.found.push(
            Diagnostic::error(Code::StageRule, format!("{place} has a target"))
                .at(key.span, "only the finished product has targets")
                .help(
                    "give the parts of the stage amounts or one ratio, and put the target under [target] of the card",
                ),
        );
    }
    let parts_place = format!("the parts of {place}");
    let stage = stage(reader, table.value, name, &parts_place);
    check::stage(&stage, &place, table.span, reader);
    stage
}

/// What a stage and the card itself have in common.
fn stage(reader: &mut Reader<'_>, table: &Table, name: Option<Spanned<String>>, parts_place: &str) -> Stage {
    let parts =
        table.table("parts", &mut reader.found).map_or_else(Vec::new, |t| amount::parts(reader, t.value, parts_place));
    ratio::check(reader, &parts);
    Stage {
        parts,
        loss: table.table("loss", &mut reader.found).map_or_else(Loss::default, |t| process::loss(reader, t.value)),
        heated: table.get("heated").and_then(|(_, value)| process::heated(reader, value)),
        takes: process::takes(reader, table),
        steps: name.as_ref().map_or_else(Vec::new, |_| steps(reader, table)),
        name,
    }
}

/// The method: a list of texts, or one text.
fn steps(reader: &mut Reader<'_>, table: &Table) -> Vec<String> {
    match table.get("steps") {
        Some((_, Spanned { value: Value::Text(step), .. })) => vec![step.clone()],
        _ => table.texts("steps", &mut reader.found).into_iter().map(|step| step.value).collect(),
    }
}

/// What was done, of the words that are known.
fn processes(reader: &mut Reader<'_>, table: &Table) -> Vec<String> {
    let mut done = Vec::new();
    for text in table.texts("process", &mut reader.found) {
        let word = text.value.trim().to_lowercase();
        if PROCESSES.contains(&word.as_str()) {
            done.push(word);
            continue;
        }
        let diagnostic = Diagnostic::error(Code::UnknownWord, format!("the process `{}` is not known", text.value))
            .at(text.span, "what was done decides what is dangerous");
        reader.found.push(match nearest(&word, PROCESSES.iter().copied()) {
            Some(meant) => diagnostic.help(format!("did you mean `{meant}`?")).fix(text.span, quoted(meant)),
            None => diagnostic.help(format!("the processes are: {}", PROCESSES.join(", "))),
        });
    }
    done
}

fn class(reader: &mut Reader<'_>, table: &Table) -> Option<Spanned<String>> {
    let text = table.text("class", &mut reader.found)?;
    let class = text.value.trim().to_lowercase();
    if !CLASSES.contains(&class.as_str()) {
        let diagnostic = Diagnostic::warning(Code::UnknownWord, format!("the class `{}` is not known", text.value))
            .at(text.span, "it gives no ceiling on the life of the product");
        reader.found.push(match nearest(&class, CLASSES.iter().copied()) {
            Some(meant) => diagnostic.help(format!("did you mean `{meant}`?")).fix(text.span, quoted(meant)),
            None => diagnostic.help(format!("the classes are: {}", CLASSES.join(", "))),
        });
    }
    Some(Spanned { value: class, span: text.span })
}
