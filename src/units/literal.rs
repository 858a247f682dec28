//! Amounts as people write them: a number, a unit from one table, and the little words around them.

use std::ops::Range;

use crate::diagnostic::Code;

use super::about::{is_about, is_left_open, without_about};
use super::amount::{Literal, Reading, echo};
use super::bracketed;
use super::customs::Customs;
use super::error::{LiteralError, out_of_range, replaced, wrong};
use super::measures::{AmbiguousUnit, measure, measured_by_hand, normalised};
use super::number::leading;
use super::spaces::skip_spaces;
use super::unit::{Unit, UnitError};
use crate::spelling::{Memo, is_near};

/// Reads an amount.
pub fn parse(text: &str) -> Result<Literal, LiteralError> {
    read(text).map(|reading| reading.literal)
}

/// Reads an amount and keeps which unit was understood.
pub fn read(text: &str) -> Result<Reading, LiteralError> {
    read_by(text, &Customs::default())
}

/// Reads an amount where customs settle what can mean more than one thing.
pub fn read_by(text: &str, customs: &Customs) -> Result<Reading, LiteralError> {
    // each reader of a step asks for the same few words, most of which are no amount
    static READ: Memo<Result<Reading, LiteralError>> = Memo::new();
    if *customs == Customs::default() {
        return READ.of(text, |text| read_anew(text, customs)).as_ref().clone();
    }
    read_anew(text, customs)
}

fn read_anew(text: &str, customs: &Customs) -> Result<Reading, LiteralError> {
    let plain = |text: &str| read_plain(text, customs);
    plain(text).or_else(|error| bracketed::read(text, customs, &plain).unwrap_or(Err(error)))
}

/// The same of an amount that says nothing in brackets.
fn read_plain(text: &str, customs: &Customs) -> Result<Reading, LiteralError> {
    let (start, end) = (skip_spaces(text, 0), text.trim_end().len());
    if start >= end {
        return Err(LiteralError::new(Code::NotANumber, "the amount is empty", 0..text.len()).help(EXAMPLES));
    }
    if let Some((i, c)) = text.char_indices().find(|(_, c)| c.is_control()) {
        let at = i..i + c.len_utf8();
        return Err(wrong(Code::NotANumber, text, at, "is a control character, not part of an amount"));
    }
    let written = normalised(&text[start..end]);
    if written == AS_NEEDED || THE_REST.contains(&written.strip_prefix("the ").unwrap_or(&written)) {
        return Ok(Reading::without_unit(text, Literal::AsNeeded, AS_NEEDED));
    }
    if ALL.contains(&written.as_str()) {
        return Ok(Reading::without_unit(text, Literal::All, "all of it"));
    }
    if let Some((count, unit)) = one_or_half(&text[start..end]) {
        let one = read_plain(&format!("{count} {unit}"), customs)?;
        return Ok(Reading { text: text.to_owned(), ..one });
    }
    let unsigned =
        text[start..end].strip_prefix(['-', '−', '–']).map_or(start, |rest| skip_spaces(text, end - rest.len()));
    let Some((count, after)) = leading(text, unsigned, customs)? else { return Err(not_a_number(text, start..end)) };
    let negative = unsigned > start;
    if let Some(after) = text.get(after..).map(str::trim_start).and_then(|rest| rest.strip_prefix(':')) {
        let of = after.trim();
        let error = wrong(Code::RatioBasis, text, start..end, "is a whole ratio; one part of it was expected");
        return Err(error.help(format!(
            "give each part its own share: \"{count} parts by weight\" here and \"{of} parts by weight\" for the other (or by volume)"
        )));
    }
    let reading = match after_times(text, skip_spaces(text, after), customs) {
        Some(each) => bottles(text, count, unsigned..after, each..end, customs)?,
        None => single(text, if negative { -count } else { count }, start..after, end, customs)?,
    };
    if negative && !matches!(reading.literal, Literal::Temperature(_)) {
        return Err(out_of_range(text, start..after, "is below zero; an amount cannot be negative"));
    }
    Ok(reading)
}

/// Words for one and for a half before a unit, in German, French, Spanish and Italian: from memory.
const ONES: [&str; 9] = ["ein", "eine", "einen", "un", "une", "una", "uno", "unos", "einer"];
const HALVES: [&str; 9] = ["halber", "halbe", "halbes", "halben", "demi", "medio", "media", "mezzo", "mezza"];

/// "Prise", "eine Prise", "une pincée", "mezzo litro": how many, and the unit. What is measured by hand says one by itself.
fn one_or_half(written: &str) -> Option<(&'static str, &str)> {
    if measured_by_hand(written) {
        return Some(("1", written));
    }
    let is = |words: &[&str], first: &str| words.contains(&first.to_lowercase().as_str());
    let (first, rest) = written.split_once(' ')?;
    let half = |text: &'_ str| text.split_once(' ').filter(|(half, _)| is(&HALVES, half)).map(|(_, unit)| unit.len());
    let behind = |length: usize| written.get(written.len() - length..);
    let (count, unit) = match half(written).or_else(|| half(rest).filter(|_| is(&ONES, first))) {
        Some(length) => ("0.5", behind(length)?),
        None => ("1", Some(rest).filter(|_| is(&ONES, first))?),
    };
    measure(unit).map(|_| (count, unit))
}

const AS_NEEDED: &str = "as needed";
/// What people write for it.
const THE_REST: &[&str] = &[
    "rest",
    "remainder",
    "balance",
    "remaining",
    "top",
    "top up",
    "to top",
    "to top up",
    "fill up",
    "to fill",
    "to fill up",
    "qs",
    "quantum satis",
    "auffüllen",
    "zum auffüllen",
    "nach bedarf",
    "compléter",
    "pour compléter",
    "para completar",
    "completar",
    "per completare",
    "a completare",
];
/// What people write for all that a stage gives.
const ALL: [&str; 3] = ["all", "all of it", "everything"];
const EXAMPLES: &str =
    "an amount is written as \"750 g\", \"700 ml\", \"0.75 fl oz\", \"6 g/L\", \"3 each\" or \"as needed\"";

/// What to do where nobody has measured it.
const OPEN: &str = "weigh what goes in this time and write it, \"2 g\" or \"20 ml\"; or delete the line here and say it in the steps: \
    then it is not counted; what fills up to a size is \"as needed\", with makes = \"1 L\"";

fn not_a_number(text: &str, at: Range<usize>) -> LiteralError {
    let error = wrong(Code::NotANumber, text, at.clone(), "does not begin with a number");
    let written = text.get(at.clone()).unwrap_or_default();
    if measure(written).is_some() {
        error.replace(text, &format!("1 {}", written.trim()))
    } else if is_about(written) {
        error.replace(text, without_about(written))
    } else if is_left_open(written) {
        error.help(OPEN)
    } else if is_near(&normalised(written), AS_NEEDED) {
        error.replace(text, AS_NEEDED)
    } else {
        error.help(EXAMPLES)
    }
}

/// A number and its unit, which ends at a byte; or a number alone.
fn single(
    text: &str,
    count: f64,
    number: Range<usize>,
    end: usize,
    customs: &Customs,
) -> Result<Reading, LiteralError> {
    let unit_start = skip_spaces(text, number.end);
    if unit_start >= end {
        return Ok(Reading::without_unit(text, Literal::Number(count), count.to_string()));
    }
    let unit = Unit::read(text, unit_start..end, customs).map_err(|error| match error {
        UnitError::Unknown(error) => error,
        UnitError::Refused(refusal, at) => refused(text, refusal, at, customs),
    })?;
    unit.times(text, count, number, end, customs)
}

/// Why a word is refused that is no unit, or more than one.
fn refused(text: &str, refusal: &AmbiguousUnit, at: Range<usize>, customs: &Customs) -> LiteralError {
    if refusal.choices.is_empty() {
        return wrong(Code::UnknownUnit, text, at, "is not a unit that is read here").help(&refusal.advice);
    }
    let choice = |choice: &String| {
        let whole = replaced(text, &at, choice);
        match read_by(&whole, customs) {
            Ok(reading) => format!("`{whole}`{}", size(&reading)),
            Err(_) => format!("`{choice}`"),
        }
    };
    let choices: Vec<_> = refusal.choices.iter().map(choice).collect();
    let help = match choices.split_last() {
        Some((last, [])) => format!("write {last}"),
        Some((last, others)) => format!("write {} or {last}", others.join(", ")),
        None => String::new(),
    };
    let help = match customs.measures {
        None if refusal.can_be_settled() => {
            format!(
                "{help}; or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml"
            )
        }
        _ => help,
    };
    wrong(Code::AmbiguousUnit, text, at, "can mean more than one unit").help(help)
}

/// How much that is, in brackets, where the unit alone does not say it.
fn size(reading: &Reading) -> String {
    match reading.measure {
        Some(m) if m.factor != 1.0 => format!(" ({})", echo(&reading.literal)),
        _ => String::new(),
    }
}

/// Where the amount of one bottle begins: after `x` or `×`, if a number follows.
fn after_times(text: &str, at: usize, customs: &Customs) -> Option<usize> {
    let rest = text.get(at..)?.strip_prefix(['x', 'X', '×'])?;
    let each = skip_spaces(text, text.len() - rest.len());
    (!matches!(leading(text, each, customs), Ok(None))).then_some(each)
}

fn bottles(
    text: &str,
    count: f64,
    counted: Range<usize>,
    each: Range<usize>,
    customs: &Customs,
) -> Result<Reading, LiteralError> {
    if count.fract() != 0.0 {
        return Err(out_of_range(text, counted, "is not a whole number of bottles"));
    }
    let Some((size, after)) = leading(text, each.start, customs)? else { return Err(not_a_number(text, each)) };
    let one = single(text, size, each.start..after, each.end, customs)?;
    match one.literal {
        Literal::Volume(volume) => {
            Ok(Reading { literal: Literal::Bottles(count, volume), named: format!("{count} x {}", one.named), ..one })
        }
        other => {
            let why = format!("is {}; what one bottle holds is a volume", other.kind());
            Err(wrong(Code::WrongDimension, text, each, &why).help("for example \"6 x 250 ml\""))
        }
    }
}
