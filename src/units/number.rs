//! The number that an amount begins with: `750`, `0.75`, `1,5`, `1/2`, `1 1/2`, `½`, `1½`.

use std::ops::Range;

use crate::diagnostic::Code;

use super::error::{LiteralError, out_of_range, wrong};

/// More of anything than anybody makes.
pub(super) const LARGEST: f64 = 1e9;

/// Where the text goes on after the spaces (no-break and thin ones too).
pub(super) fn skip_spaces(text: &str, from: usize) -> usize {
    let rest = text.get(from..).unwrap_or_default();
    from + (rest.len() - rest.trim_start().len())
}

/// The number that begins at a byte, and where it ends; none if no number begins there.
pub(super) fn leading(text: &str, start: usize) -> Result<Option<(f64, usize)>, LiteralError> {
    let first = run(text, start);
    if first.is_empty() {
        return Ok(None);
    }
    let next = skip_spaces(text, first.end);
    let second = run(text, next);
    let (value, end) = if second.is_empty() || next == first.end {
        (value(text, first.clone())?, first.end)
    } else {
        (mixed(text, first.clone(), second.clone())?, second.end)
    };
    refuse_exponent(text, start..end)?;
    refuse_range(text, start..end)?;
    if value > LARGEST {
        return Err(out_of_range(text, start..end, "is more than any amount can be")
            .help("a number up to 1000000000 was expected"));
    }
    Ok(Some((value, end)))
}

/// The longest stretch that looks like a number; a mark belongs to it if a digit follows.
fn run(text: &str, start: usize) -> Range<usize> {
    let mut end = start;
    let mut rest = text.get(start..).unwrap_or_default().chars().peekable();
    while let Some(c) = rest.next() {
        let before_digit = rest.peek().is_some_and(char::is_ascii_digit);
        let mark = matches!(c, '.' | ',' | '_' | '\'' | '’') || is_slash(c);
        if !(c.is_ascii_digit() || vulgar_fraction(c).is_some() || mark && before_digit) {
            break;
        }
        end += c.len_utf8();
    }
    start..end
}

fn is_slash(c: char) -> bool {
    matches!(c, '/' | '⁄' | '∕')
}

fn vulgar_fraction(c: char) -> Option<f64> {
    let (top, bottom) = match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    };
    Some(f64::from(top) / f64::from(bottom))
}

fn is_whole(written: &str) -> bool {
    !written.is_empty() && written.bytes().all(|b| b.is_ascii_digit())
}

fn is_fraction(written: &str) -> bool {
    written.chars().next().is_some_and(|c| vulgar_fraction(c).is_some()) || written.contains(is_slash)
}

/// `1 1/2`: a whole number and a fraction. Any other two numbers in a row are not one number.
fn mixed(text: &str, first: Range<usize>, second: Range<usize>) -> Result<f64, LiteralError> {
    let (whole, part) = (&text[first.clone()], &text[second.clone()]);
    if is_whole(whole) && is_fraction(part) {
        return Ok(value(text, first)? + value(text, second)?);
    }
    let at = first.start..second.end;
    let error = wrong(Code::NotANumber, text, at, "is two numbers, one was expected");
    Err(if is_whole(whole) && is_whole(part) && part.len() == 3 {
        error.replace(text, &format!("{whole}{part}"))
    } else {
        error.help("one number and its unit, as \"1500 g\" or \"1 1/2 fl oz\"")
    })
}

fn value(text: &str, at: Range<usize>) -> Result<f64, LiteralError> {
    let written = &text[at.clone()];
    if let Some((last, part)) = written.char_indices().last().and_then(|(i, c)| Some((i, vulgar_fraction(c)?))) {
        return match &written[..last] {
            "" => Ok(part),
            whole if is_whole(whole) => Ok(plain(whole) + part),
            _ => Err(not_plain(text, at)),
        };
    }
    if let Some((top, bottom)) = written.split_once(is_slash) {
        if !is_whole(top) || !is_whole(bottom) {
            return Err(not_plain(text, at));
        }
        if plain(bottom) == 0.0 {
            return Err(out_of_range(text, at, "divides by zero").help("a fraction such as 1/2 was expected"));
        }
        return Ok(plain(top) / plain(bottom));
    }
    decimal(text, at)
}

/// Digits with at most one point. Others have been sent away, so that this always reads.
fn plain(digits: &str) -> f64 {
    digits.parse().unwrap_or(f64::INFINITY)
}

fn is_plain(written: &str) -> bool {
    let digits = written.replacen('.', "", 1);
    is_whole(&digits)
}

fn decimal(text: &str, at: Range<usize>) -> Result<f64, LiteralError> {
    let written = &text[at.clone()];
    if is_plain(written) {
        return Ok(plain(written));
    }
    let Some((whole, part)) = written.split_once(',') else { return Err(not_plain(text, at)) };
    if !is_whole(part) || !(whole.is_empty() || is_whole(whole)) {
        return Err(not_plain(text, at));
    }
    // `1,500` may be fifteen hundred or one and a half; `0,500` and `1500,250` can only be decimals.
    if part.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0') {
        let put = |number: String| format!("{}{number}{}", &text[..at.start], &text[at.end..]);
        let (thousands, point) = (put(format!("{whole}{part}")), put(plain(&format!("{whole}.{part}")).to_string()));
        let help = format!("write `{}` or `{}`", thousands.trim(), point.trim());
        return Err(wrong(Code::AmbiguousNumber, text, at, "can be read in two ways").help(help));
    }
    Ok(plain(&format!("{whole}.{part}")))
}

/// A number with marks in it, and the same number without them where that is clear.
fn not_plain(text: &str, at: Range<usize>) -> LiteralError {
    let written = &text[at.clone()];
    let error = wrong(Code::NotANumber, text, at, "is not a plain number");
    // Marks between groups of three only tidy the number up; a last mark of another kind is the decimal one.
    let marks = ['_', '\'', '’', ',', '.'];
    let is_grouped = |s: &str| s.split(marks).skip(1).all(|group| group.len() == 3);
    let digits = |s: &str| if is_grouped(s) { s.replace(marks, "") } else { String::new() };
    let clear = match written.rsplit_once(['.', ',']) {
        Some((head, tail)) if !head.contains(&written[head.len()..=head.len()]) => match digits(head).as_str() {
            "" => String::new(),
            whole => format!("{whole}.{tail}"),
        },
        _ => digits(written),
    };
    if is_plain(&clear) {
        error.replace(text, &clear)
    } else {
        error.help("a number such as 750, 0.75, 1/2 or 1 1/2 was expected")
    }
}

fn refuse_exponent(text: &str, number: Range<usize>) -> Result<(), LiteralError> {
    let rest = text.get(number.end..).unwrap_or_default();
    let Some(power) = rest.strip_prefix(['e', 'E']) else { return Ok(()) };
    let digits = power.strip_prefix(['+', '-']).unwrap_or(power);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 {
        return Ok(());
    }
    let at = number.start..number.end + 1 + (power.len() - digits.len()) + count;
    let error = wrong(Code::NotANumber, text, at, "is written with an exponent");
    Err(error.help("write the number out, as \"1500 g\""))
}

fn refuse_range(text: &str, number: Range<usize>) -> Result<(), LiteralError> {
    let after = skip_spaces(text, number.end);
    let rest = text.get(after..).unwrap_or_default();
    let Some(upper) = rest.strip_prefix(['-', '–', '—']).or_else(|| rest.strip_prefix("to ")) else {
        return Ok(());
    };
    let second = run(text, skip_spaces(text, text.len() - upper.len()));
    if second.is_empty() {
        return Ok(());
    }
    let at = number.start..second.end;
    let (low, high) = (&text[number], &text[second]);
    if is_whole(low) && is_fraction(high) {
        let error = wrong(Code::NotANumber, text, at, "is not a plain number");
        return Err(error.replace(text, &format!("{low} {high}")));
    }
    let error = wrong(Code::NotANumber, text, at, "is a range, one amount was expected");
    Err(error.help(format!("write the amount you use: `{low}` or `{high}`")))
}
