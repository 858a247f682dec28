//! Lines that say of the whole what a key of the card says: "Makes about 700 ml", "Target: 64 °Bx", "Loss: 3 % evaporated".

use crate::card;
use crate::diagnostic::{Diagnostic, Severity};
use crate::input::quoted;
use crate::units::{Literal, literal};
use crate::vocabulary::Word;

use super::draft::{Draft, DraftLine, Remark};
use super::words::WordList;

crate::vocabulary::words! {
    /// A key as a recipe has it, before a colon.
    PlainKey, "key of a recipe":
    Name = "name" | "title" | "recipe" | "recipe name",
    Makes = "makes" | "yield" | "yields" | "batch" | "batch size" | "quantity",
    Serves = "serves" | "servings" | "portions",
    Class = "class" | "type",
    Process = "process",
    Serving = "serving" | "measure" | "one measure",
    Labour = "labour" | "labor" | "work" | "active time" | "hands-on time",
    Source = "source" | "from" | "adapted from" | "recipe by",
    Notes = "notes" | "note" | "tip",
    Target = "target" | "targets" | "aim" | "aim for" | "make it" | "bring it to" | "bring to",
    Ratio = "ratio",
    Loss = "loss" | "losses",
    Heated = "heated",
    Takes = "takes" | "time",
    At = "at",
    Washed = "washed",
    Keep = "keep",
    Pours = "pours",
    ForAGuest = "for a guest",
    Measured = "measured",
    Step = "step",
    FromACard = "from a card",
}

/// What a text of a card says so that nothing is read out of its steps.
pub(super) const COMPLETE: &str = "heat, time and straining are as stated above";

/// Reads a line that is one; whether it was.
pub(super) fn read(line: &str, draft: &mut Draft, in_stage: bool) -> bool {
    let Some((of, value)) = parted(line) else { return is_figure(line, draft) };
    let stage = match draft.stages.last_mut() {
        Some(stage) if in_stage => stage,
        _ => &mut draft.last,
    };
    match of {
        PlainKey::Name if draft.name.is_none() => draft.name = Some(value.to_owned()),
        PlainKey::Name => draft.keys.push(DraftLine::question(line, "which of the two is it called?")),
        PlainKey::Makes => makes(line, value, draft),
        PlainKey::Serves => {
            // "Serves: makes roughly 2 litres"
            match value.split_once(' ').filter(|(word, _)| WordList::Makes.has(word)) {
                Some((_, made)) => makes(line, made, draft),
                None => draft.keys.push(DraftLine::question(line, "how much is one serving? serving = \"… ml\"")),
            }
        }
        PlainKey::Class => draft.keys.push(checked("", DraftLine::text("class", &value.to_lowercase()), line)),
        PlainKey::Process => {
            let words: Vec<String> = value.split(',').map(|word| quoted(word.trim())).collect();
            draft.keys.push(checked("", DraftLine::of("process", &format!("[{}]", words.join(", "))), line));
        }
        PlainKey::Serving => draft.keys.push(checked("", DraftLine::text("serving", value), line)),
        PlainKey::Labour => draft.keys.push(checked("", DraftLine::text("labour", value), line)),
        PlainKey::Source => draft.source = Some(value.to_owned()),
        // a card has one note: a second one stands with the steps
        PlainKey::Notes if draft.keys.iter().any(|line| line.toml.starts_with("notes")) => {
            draft.steps.push(value.to_owned());
        }
        PlainKey::Notes => draft.keys.push(DraftLine::text("notes", value)),
        PlainKey::Target => value.split("; ").for_each(|value| target(line, value, draft)),
        PlainKey::Ratio => match basis(value) {
            Some(basis) => draft.basis = Some(basis),
            None => return false,
        },
        PlainKey::Loss => value.split("; ").for_each(|value| stage.loss.push(loss(line, value))),
        PlainKey::Heated => stage.keys.push(checked("", DraftLine::text("heated", value), line)),
        PlainKey::Takes => stage.keys.push(checked("", DraftLine::text("takes", value), line)),
        PlainKey::At => stage.keys.push(checked("", DraftLine::text("at", value), line)),
        PlainKey::Washed => stage.keys.push(checked("", DraftLine::text("washed", value), line)),
        PlainKey::Pours => draft.keys.push(DraftLine::text("pours", value)),
        PlainKey::ForAGuest => draft.keys.push(DraftLine::text("for_a_guest", value)),
        PlainKey::Keep => value.split("; ").for_each(|value| draft.keep.push(keep(line, value))),
        PlainKey::Measured => value.split("; ").for_each(|value| draft.measured.push(measured(line, value))),
        PlainKey::Step => {
            let steps = if in_stage { &mut stage.steps } else { &mut draft.steps };
            steps.push(value.to_owned());
        }
        PlainKey::FromACard => draft.is_complete = true,
    }
    true
}

/// The key and its value; "makes", "yields" and "serves" need no colon. "Keeps 2 weeks chilled" is a note.
fn parted(line: &str) -> Option<(PlainKey, &str)> {
    let (before, value) = line.split_once([':', '=']).unwrap_or((line, ""));
    let is_made = || WordList::Makes.has(before.trim()).then_some(PlainKey::Makes);
    if let Some(found) = PlainKey::parse(before).or_else(is_made).filter(|_| !value.trim().is_empty()) {
        return Some((found, value.trim()));
    }
    // "se garde 1 mois", "si mantiene 1 mese"
    let own = line.strip_prefix("Se ").or_else(|| line.strip_prefix("Si ")).unwrap_or(line);
    let (word, value) = own.split_once(' ')?;
    let value = value.trim();
    let has_number =
        || value.split(' ').any(|word| word.trim_start_matches(NEARLY).starts_with(|c: char| c.is_numeric()));
    // "pour environ 1 litre", and "pour 500 ml into it", which is a step
    let is_size = || {
        let words: Vec<&str> =
            value.trim_end_matches('.').split(' ').filter(|word| !WordList::About.has(word)).collect();
        matches!(literal::parse(&words.join(" ")), Ok(Literal::Volume(_)))
    };
    match () {
        () if WordList::Makes.has(word) && has_number() => Some((PlainKey::Makes, value)),
        () if word.eq_ignore_ascii_case("serves") && has_number() => Some((PlainKey::Serves, value)),
        () if WordList::MakesFor.has(word) && is_size() => Some((PlainKey::Makes, value)),
        () if WordList::Keeps.has(word) && has_number() => Some((PlainKey::Notes, line)),
        () => None,
    }
}

/// Signs in front of a number that say that it is about so.
const NEARLY: [char; 3] = ['~', '≈', '±'];

/// The line, if a card can be read with it under this heading; else what is wrong as a question.
pub(super) fn checked(heading: &str, line: DraftLine, read: &str) -> DraftLine {
    match refusal(heading, &line.toml) {
        None => line,
        Some(why) => {
            let help = why.help.as_deref().and_then(|help| help.lines().next()).unwrap_or_default();
            DraftLine::question(read, format!("{}; {help}", why.title))
        }
    }
}

fn refusal(heading: &str, line: &str) -> Option<Diagnostic> {
    let text = match heading {
        "" => format!("name = \"-\"\n{line}\n[parts]\nwater = \"1 kg\"\n"),
        heading => format!("name = \"-\"\n[parts]\nwater = \"1 kg\"\n[{heading}]\n{line}\n"),
    };
    let (_, found) = card::read("".into(), text.into());
    found.into_iter().find(|d| d.severity == Severity::Error)
}

fn makes(line: &str, value: &str, draft: &mut Draft) {
    draft.sized = true;
    let all: Vec<&str> = value.split(' ').collect();
    // "2L ish"
    let words = all.iter().filter(|word| !WordList::About.has(word) && **word != "ish");
    let words: Vec<&str> = words.map(|word| word.trim_end_matches("-ish").trim_start_matches(NEARLY)).collect();
    let is_about = words.join(" ") != value;
    let customs = draft.customs;
    let read = |text: &str| literal::read_by(text, &customs).map(|read| read.literal);
    let is_size = |text: &str| matches!(read(text), Ok(Literal::Volume(_) | Literal::Mass(_) | Literal::Bottles(..)));
    let size = (1..=words.len()).rev().filter_map(|n| Some(words.get(..n)?.join(" "))).find(|size| is_size(size));
    let Some(size) = size else {
        draft.keys.push(DraftLine::question(line, "how much is that? makes = \"… ml\""));
        return;
    };
    let says_more = size != words.join(" ");
    let mut made = DraftLine::text("makes", &size);
    if is_about {
        made = made.with(Remark::Assumed(format!("the recipe says \"{value}\"")));
    } else if says_more {
        made = made.with(Remark::Said(value.to_owned()));
    }
    draft.makes |= !is_about;
    draft.keys.retain(|line| !line.toml.starts_with("makes = "));
    // what only the house settles ("2 cups") no reader without one can check
    let is_settled = literal::parse(&size).is_err();
    draft.keys.push(if is_settled { made } else { checked("", made, line) });
}

/// "make it 18 % ABV", "64 °Bx" or "6 x 250 ml" alone on a line.
fn is_figure(line: &str, draft: &mut Draft) -> bool {
    if let Ok(Literal::Bottles(..)) = literal::parse(line) {
        makes(line, line, draft);
        return true;
    }
    let lower = line.to_lowercase();
    let begins =
        ["make it ", "bring it to ", "bring to ", "aim for ", "aim at ", "target ", "should be ", "finish at "];
    let aimed = begins.iter().find_map(|begin| lower.strip_prefix(begin));
    // "60% sugar", "Sugar 55.0%" in a list is a part of it
    if aimed.is_none() && (lower.ends_with(" sugar") || lower.starts_with("sugar ") && lower.ends_with('%')) {
        return false;
    }
    let value = aimed.unwrap_or(&lower);
    let value = value.trim_end_matches('.').trim();
    let value = value.strip_prefix("about ").unwrap_or(value);
    match target_line(value) {
        Some(read) => {
            draft.targets.push(checked("target", read, line));
            true
        }
        None => false,
    }
}

fn target(line: &str, value: &str, draft: &mut Draft) {
    let read = target_line(value).map(|read| checked("target", read, line));
    let asked = || DraftLine::question(line, "which target? brix, abv, sugar, acid or ph, and how much");
    draft.targets.push(read.unwrap_or_else(asked));
}

/// "64 °Bx", "18 % ABV", "sugar 250 g/L", "pH 3.4", "6 % acid".
fn target_line(value: &str) -> Option<DraftLine> {
    let lower = value.to_lowercase();
    if let Some((of, amount)) = lower.split_once(' ')
        && let Some(kind) = card::TargetKind::from_key(of)
        && amount.starts_with(|c: char| c.is_ascii_digit())
    {
        let amount = value.get(of.len() + 1..).unwrap_or_default();
        // "Sugar 500 g" is a line of the list
        if is_weighed(amount) {
            return None;
        }
        return Some(number_or_text(kind.key(), amount));
    }
    if let Some((amount, of)) = lower.rsplit_once(' ')
        && matches!(of, "acid" | "acidity" | "sugar")
        && let Ok(Literal::Percent(share)) = literal::parse(amount)
    {
        let of = if of == "sugar" { "sugar" } else { "acid" };
        let said = format!("{value} taken as grams in 100 ml");
        let g_l = (share * 1e7).round() / 1e4;
        return Some(DraftLine::text(of, &format!("{g_l} g/L")).with(Remark::Assumed(said)));
    }
    match literal::parse(value) {
        Ok(Literal::Brix(_)) => Some(figure("brix", value)),
        Ok(Literal::Abv(_) | Literal::Proof(_)) => Some(figure("abv", value)),
        _ => None,
    }
}

fn is_weighed(amount: &str) -> bool {
    let last = amount.split(|c: char| c.is_ascii_digit()).next_back().unwrap_or_default();
    matches!(literal::parse(&format!("1 {last}")), Ok(Literal::Mass(_) | Literal::Volume(_)))
}

/// The bare number where the unit says no more than the key does.
fn figure(of: &str, value: &str) -> DraftLine {
    let number = value.split(' ').next().unwrap_or_default();
    match value.split_once(' ') {
        Some((_, "°Bx" | "% ABV" | "°bx" | "% abv")) => number_or_text(of, number),
        _ => DraftLine::text(of, value),
    }
}

fn number_or_text(of: &str, value: &str) -> DraftLine {
    let is_plain = value.bytes().all(|b| b.is_ascii_digit() || b == b'.') && value.parse::<f64>().is_ok();
    let is_toml = is_plain && !value.starts_with('.') && !value.ends_with('.');
    let leads = value.starts_with('0') && value.len() > 1 && !value.starts_with("0.");
    if is_toml && !leads { DraftLine::of(of, value) } else { DraftLine::text(of, value) }
}

/// "by weight" or "by volume".
pub(super) fn basis(text: &str) -> Option<&'static str> {
    let lower = text.to_lowercase();
    let by = |names: &[&str]| names.iter().any(|name| lower.contains(name));
    match (by(&["by weight", "by mass", "equal weights"]), by(&["by volume", "equal volumes"])) {
        (true, false) => Some("by weight"),
        (false, true) => Some("by volume"),
        _ => None,
    }
}

fn loss(line: &str, value: &str) -> DraftLine {
    let lost = [("evaporated", "evaporated"), ("left behind", "left_behind")];
    let read = lost.into_iter().find_map(|(said, key)| {
        let share = value.strip_suffix(said).or(value.strip_prefix(said))?.trim();
        Some(DraftLine::text(key, share))
    });
    match read {
        Some(read) => checked("loss", read, line),
        None => DraftLine::question(line, "evaporated, or left behind in the pan? Loss: 3 % evaporated"),
    }
}

/// "more water 41 %", behind its first word.
const MORE_WATER: &str = "water ";

fn keep(line: &str, value: &str) -> DraftLine {
    let flag = |key: &str, on: bool| DraftLine::of(key, if on { "true" } else { "false" });
    let read = match value {
        "closed" => flag("closed", true),
        "not closed" => flag("closed", false),
        "for sale" => flag("for_sale", true),
        "not for sale" => flag("for_sale", false),
        "opened" => flag("opened", true),
        "not opened" => flag("opened", false),
        _ => match value.split_once(' ') {
            Some(("filled", fill)) => DraftLine::text("fill", fill),
            Some(("in", container)) => DraftLine::text("in", container),
            Some(("store", store)) => DraftLine::text("store", store),
            Some(("more", water)) if water.starts_with(MORE_WATER) => {
                DraftLine::text("more_water", water.trim_start_matches(MORE_WATER))
            }
            _ => {
                let forms = "Keep: filled hot; closed; in glass; store fridge";
                return DraftLine::question(line, format!("how is it kept? {forms}"));
            }
        },
    };
    checked("keep", read, line)
}

fn measured(line: &str, value: &str) -> DraftLine {
    let read = match value {
        "calibrated" => DraftLine::of("calibrated", "true"),
        _ => match value.split_once(' ') {
            Some(("by", with)) => DraftLine::text("ph_by", with),
            Some(("on", day)) => DraftLine::of("on", day),
            Some(("pH", ph)) => number_or_text("ph", ph),
            Some(("acid", acid)) => number_or_text("acid", acid),
            _ => match target_line(value) {
                Some(read) => read,
                None => return DraftLine::question(line, "what was read? Measured: pH 3.4; 64 °Bx; on 2026-11-20"),
            },
        },
    };
    checked("measured", read, line)
}

/// A key and a value as a recipe has them, for what is written from a card.
pub(super) fn said(of: PlainKey, value: &str) -> String {
    let word = of.word();
    let (first, rest) = word.split_at(1);
    format!("{}{rest}: {value}", first.to_uppercase())
}
