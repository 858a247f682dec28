//! The number that an amount begins with: `750`, `0.75`, `1,5`, `1/2`, `1 1/2`, `½`, `1½`, `two`, `half a`.

use std::ops::Range;

use crate::diagnostic::Code;

use super::customs::{Comma, Customs};
use super::display::short;
use super::error::{LiteralError, out_of_range, wrong};
use super::number_words;
use super::spaces::skip_spaces;

/// More of anything than anybody makes.
pub(super) const LARGEST: f64 = 1e9;

/// The number that begins at a byte, and where it ends; none if no number begins there.
pub(super) fn leading(text: &str, start: usize, customs: &Customs) -> Result<Option<(f64, usize)>, LiteralError> {
    let first = run(text, start);
    if first.is_empty() {
        return Ok(number_words::leading(text, start));
    }
    let next = skip_spaces(text, first.end);
    let second = run(text, next);
    let (value, end) = if second.is_empty() || next == first.end {
        (value(text, first.clone(), customs)?, first.end)
    } else {
        (mixed(text, first.clone(), second.clone(), customs)?, second.end)
    };
    let (value, end) = match number_words::dozens(text, end) {
        Some(after) => (12.0 * value, after),
        None => (value, end),
    };
    refuse_exponent(text, start..end)?;
    refuse_range(text, start..end, customs)?;
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
fn mixed(text: &str, first: Range<usize>, second: Range<usize>, customs: &Customs) -> Result<f64, LiteralError> {
    let (whole, part) = (&text[first.clone()], &text[second.clone()]);
    if is_whole(whole) && is_fraction(part) {
        return Ok(value(text, first, customs)? + value(text, second, customs)?);
    }
    // `1 050 g`: no other number begins with a zero and has three digits
    if is_first_group(whole) && is_whole(part) && part.len() == 3 && part.starts_with('0') {
        return Ok(plain(&format!("{whole}{part}")));
    }
    let at = first.start..second.end;
    let error = wrong(Code::NotANumber, text, at, "is two numbers, one was expected");
    Err(if is_whole(whole) && is_whole(part) && part.len() == 3 {
        error.replace(text, &format!("{whole}{part}"))
    } else {
        error.help("one number and its unit, as \"1500 g\" or \"1 1/2 fl oz\"")
    })
}

fn value(text: &str, at: Range<usize>, customs: &Customs) -> Result<f64, LiteralError> {
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
    decimal(text, at, customs)
}

/// Digits with at most one point. Others have been sent away, so that this always reads.
fn plain(digits: &str) -> f64 {
    digits.parse().unwrap_or(f64::INFINITY)
}

fn is_plain(written: &str) -> bool {
    let digits = written.replacen('.', "", 1);
    is_whole(&digits)
}

fn decimal(text: &str, at: Range<usize>, customs: &Customs) -> Result<f64, LiteralError> {
    let written = &text[at.clone()];
    if customs.comma == Some(Comma::Decimal)
        && of_small_unit(text, at.end)
        && let Some(thousands) = point_of_thousands(written)
    {
        return Ok(plain(&thousands));
    }
    if is_plain(written) {
        return Ok(plain(written));
    }
    if let Some(clear) = grouped(written) {
        return Ok(plain(&clear));
    }
    let Some((whole, part)) = written.split_once(',') else { return Err(not_plain(text, at)) };
    if !is_whole(part) || !(whole.is_empty() || is_whole(whole)) {
        return Err(not_plain(text, at));
    }
    // `1,500` may be fifteen hundred or one and a half; `0,500` and `1500,250` can only be decimals.
    if is_first_group(whole) && part.len() == 3 {
        return match customs.comma {
            Some(Comma::Thousands) => Ok(plain(&format!("{whole}{part}"))),
            Some(Comma::Decimal) => Ok(plain(&format!("{whole}.{part}"))),
            // `1,000 g` is no gram to three decimals, of which a kilogram (`1,000 kg`) might be one
            None if part == "000" && of_small_unit(text, at.end) => Ok(plain(&format!("{whole}{part}"))),
            None => Err(two_readings(text, at, whole, part)),
        };
    }
    Ok(plain(&format!("{whole}.{part}")))
}

/// Whether grams or millilitres follow, which no scale of a bar shows to a thousandth as whole ones (common practice, no source).
fn of_small_unit(text: &str, end: usize) -> bool {
    let unit = text.get(end..).unwrap_or_default().trim_start().split(|c: char| !c.is_alphabetic()).next();
    unit.is_some_and(|unit| matches!(unit.to_lowercase().as_str(), "g" | "ml" | "gram" | "grams"))
}

/// The digits of `1.500` without the point that some write between thousands. Nobody writes the third decimal to say that it is
/// nought; a scale of milligrams may, and its last digit is another.
fn point_of_thousands(written: &str) -> Option<String> {
    let (whole, part) = written.split_once('.')?;
    let is_group = is_whole(part) && part.len() == 3 && part.ends_with('0');
    (is_first_group(whole) && is_group).then(|| format!("{whole}{part}"))
}

/// Both readings of an amount with such a point, the whole of it: `1500 g` and `1.5 g`.
pub(crate) fn with_a_point(amount: &str) -> Option<[String; 2]> {
    let at = run(amount, skip_spaces(amount, 0));
    let written = amount.get(at.clone())?;
    let rest = amount.get(at.end..)?;
    Some([format!("{}{rest}", point_of_thousands(written)?), format!("{}{rest}", plain(written))])
}

/// The same of grams and millilitres alone: a litre is measured to a thousandth.
pub(crate) fn with_a_doubtful_point(amount: &str) -> Option<[String; 2]> {
    with_a_point(amount).filter(|_| of_small_unit(amount, run(amount, skip_spaces(amount, 0)).end))
}

fn two_readings(text: &str, at: Range<usize>, whole: &str, part: &str) -> LiteralError {
    let put = |number: String| format!("{}{number}{}", &text[..at.start], &text[at.end..]);
    let (thousands, point) = (put(format!("{whole}{part}")), put(plain(&format!("{whole}.{part}")).to_string()));
    let help = format!("write `{}` or `{}`", thousands.trim(), point.trim());
    wrong(Code::AmbiguousNumber, text, at, "can be read in two ways").help(help)
}

fn is_first_group(digits: &str) -> bool {
    is_whole(digits) && digits.len() <= 3 && !digits.starts_with('0')
}

/// A number whose thousands are parted by commas or points and cannot be anything else: two groups of three or more
/// (`1,250,000`), or one and then a decimal mark of the other kind (`1,250.5`, `1.250,5`). The same without its marks.
fn grouped(written: &str) -> Option<String> {
    let mark = written.chars().find(|c| matches!(c, ',' | '.'))?;
    let (whole, decimals) = match written.split_once(|c| matches!(c, ',' | '.') && c != mark) {
        Some((whole, decimals)) if is_whole(decimals) => (whole, decimals),
        Some(_) => return None,
        None => (written, ""),
    };
    let (first, groups) = whole.split_once(mark)?;
    let several = !decimals.is_empty() || groups.contains(mark);
    let of_three = groups.split(mark).all(|group| is_whole(group) && group.len() == 3);
    (several && of_three && is_first_group(first)).then(|| format!("{}.{decimals}", whole.replace(mark, "")))
}

/// What the amounts of one text tell of its commas: `0,5 kg` and `12,5 g` that a comma is a decimal mark, `0.5 kg` and
/// `1,250.5 g` that it parts thousands. Nothing where they tell both, or neither.
pub fn comma_of<'a>(amounts: impl IntoIterator<Item = &'a str>) -> Option<Comma> {
    let mut told = None;
    for text in amounts {
        let Some(shown) = shows(&text[run(text, skip_spaces(text, 0))]) else { continue };
        if told.is_some_and(|before| before != shown) {
            return None;
        }
        told = Some(shown);
    }
    told
}

/// What one number shows of its commas. A point before three digits shows nothing: to some it parts thousands.
fn shows(written: &str) -> Option<Comma> {
    let last = written.rfind([',', '.'])?;
    let (is_point, decimals) = (written[last..].starts_with('.'), &written[last + 1..]);
    if grouped(written).is_some() {
        let several = written.matches([',', '.']).all(|mark| written[last..].starts_with(mark));
        return Some(if is_point == several { Comma::Decimal } else { Comma::Thousands });
    }
    if !is_whole(decimals) || (decimals.len() == 3 && is_first_group(&written[..last])) {
        return None;
    }
    Some(if is_point { Comma::Thousands } else { Comma::Decimal })
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

fn refuse_range(text: &str, number: Range<usize>, customs: &Customs) -> Result<(), LiteralError> {
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
    let (low, high) = (&text[number.clone()], &text[second.clone()]);
    if is_whole(low) && is_fraction(high) {
        let error = wrong(Code::NotANumber, text, at, "is not a plain number");
        return Err(error.replace(text, &format!("{low} {high}")));
    }
    let error = wrong(Code::NotANumber, text, at, "is a range, one amount was expected");
    let middle = match (value(text, number.clone(), customs), value(text, second.clone(), customs)) {
        (Ok(low), Ok(high)) => {
            let rest = text.get(second.end..).unwrap_or_default().trim_end();
            format!("; in the middle: \"{}{rest}\"", short((low + high) / 2.0))
        }
        _ => String::new(),
    };
    Err(error.help(format!("write the amount you use: `{low}` or `{high}`{middle}")))
}
