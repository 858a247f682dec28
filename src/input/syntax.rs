//! Says in a maker's words what is wrong with the syntax of a text. The parser gives the places; what is wrong there
//! is seen in the text itself.

use std::borrow::Cow;

use toml::de::Error;

use crate::diagnostic::{Diagnostic, MOST_FINDINGS, Span};

use super::raw::{key_text, line_at, slice, value_of};
use super::remedy::{
    bad_key, date, duplicate, escape, left_over, never_closed, no_name, not_closed, not_ended, syntax, unquoted,
    unreadable,
};
use super::scan::{Line, Scan, TomlMark, TomlToken, in_braces};

/// Every syntax error of a text, one for each line, in the order of the lines.
pub(super) fn explain_all(text: &str, scan: &Scan, errors: &[Error]) -> Vec<Diagnostic> {
    // a bracket that is never closed also makes the lines below it look wrong
    let end = last_sound_byte(text, scan);
    let mut places: Vec<_> = errors.iter().map(|e| (Span::from(e.span().unwrap_or_default()), e.message())).collect();
    places.retain(|(span, _)| span.start <= end);
    places.sort_by_key(|(span, _)| span.start);
    places.dedup_by_key(|(span, _)| line_at(text, span.start).start);
    let mut found: Vec<_> =
        places.into_iter().take(MOST_FINDINGS + 1).map(|(span, reason)| explain(text, scan, span, reason)).collect();
    let lost = lost_lines(scan).take(MOST_FINDINGS + 1);
    found.extend(lost.map(|line| bad_key(text, line, line_at(text, line.start))));
    found.extend(scan.open.map(|open| never_closed(text, open)));
    let place = |d: &Diagnostic| d.labels.first().map(|label| label.span.start);
    found.sort_by_key(place);
    found.dedup_by_key(|d| place(d).map(|at| line_at(text, at).start));
    found
}

/// Lines that are neither a heading nor `name = value`: the parser loses the rest of the table behind them.
fn lost_lines(scan: &Scan) -> impl Iterator<Item = Span> {
    scan.lines.iter().filter(|(_, line)| *line == Line::Neither).map(|(span, _)| *span)
}

/// The text with every such line blanked. Every other byte keeps its place.
pub(super) fn without_lost_lines<'a>(text: &'a str, scan: &Scan) -> Cow<'a, str> {
    let mut sound = Cow::Borrowed(text);
    for line in lost_lines(scan) {
        sound.to_mut().replace_range(line.start..line.end, &" ".repeat(line.end - line.start));
    }
    sound
}

/// Where the text stops making sense: the end of the line with a bracket that is never closed.
pub(super) fn last_sound_byte(text: &str, scan: &Scan) -> usize {
    scan.open.map_or(text.len(), |open| line_at(text, open).end)
}

fn explain(text: &str, scan: &Scan, span: Span, reason: &str) -> Diagnostic {
    let (at, raw, line) = (span.start, slice(text, span), line_at(text, span.start));
    let rest = text.get(at..).unwrap_or_default();
    let is_lone = |end: &str| end.starts_with('\r') && !end.starts_with("\r\n");
    if is_lone(rest) && raw.is_empty() || at > 0 && text.get(at - 1..).is_some_and(is_lone) {
        return syntax("a line ends in a way that cannot be read (a lone carriage return)")
            .at(span, "here")
            .help("save the file as plain text, with the line endings of this computer");
    }
    let (before, here, _) = scan.around(at);
    if rest.starts_with(|c: char| c.is_control() && !matches!(c, '\t' | '\n' | '\r')) || raw == "\r" {
        return syntax("a text holds a character that cannot be shown")
            .at(span, "here")
            .help("delete it and type it again");
    }
    match (before.last(), here) {
        (Some(TomlToken { mark: TomlMark::Quoted { closed: false }, start, end }), _) if *end == at => {
            return not_ended(text, *start, span, line);
        }
        (_, Some(TomlToken { mark: TomlMark::Quoted { .. }, start, .. })) if start < at => return escape(text, at),
        _ => {}
    }
    let follows = here.is_some_and(|token| !matches!(token.mark, TomlMark::End | TomlMark::Remark));
    let is_comma = here.is_some_and(|token| token.mark == TomlMark::Comma);
    match scan.line_of(at) {
        Some((_, Line::Heading(Some(end)))) if at >= end => left_over(text, span, line),
        Some((_, Line::Heading(Some(_)))) if is_key(raw) => duplicate(text, span, line),
        Some((_, Line::Heading(_))) => not_closed(text, line),
        Some((_, Line::Entry { equals, .. })) if at <= equals => match is_key(raw) {
            true => duplicate(text, span, line),
            false => bad_key(text, span, line),
        },
        Some((_, Line::Entry { value, end, .. }))
            if at > value
                && slice(text, Span { start: value, end: at.min(end) }).starts_with(['[', '{'])
                && at < end =>
        {
            inside(text, scan, span, reason)
        }
        Some((_, Line::Entry { value, end, .. })) if at >= end && follows && (end > value || is_comma) => {
            left_over(text, span, line)
        }
        Some((_, Line::Entry { value, end, .. })) => {
            let whole = if raw.is_empty() && end > value { Span { start: value, end } } else { span };
            match here.map(|token| token.mark) {
                Some(TomlMark::Equals | TomlMark::Close(_)) => unreadable(span, reason),
                _ => bare_value(text, span, whole, reason),
            }
        }
        _ => bad_key(text, span, line),
    }
}

/// What stands between the brackets of a value.
fn inside(text: &str, scan: &Scan, span: Span, reason: &str) -> Diagnostic {
    let (before, here, behind) = scan.around(span.start);
    let mut marks =
        before.iter().rev().map(|token| token.mark).filter(|mark| !matches!(mark, TomlMark::End | TomlMark::Remark));
    let last = marks.next();
    let is_bare = |mark: TomlMark| matches!(mark, TomlMark::Word | TomlMark::Dot);
    // what stands before the last name or value
    let prior = if last.is_some_and(is_bare) { marks.find(|mark| !is_bare(*mark)) } else { marks.next() };
    let is_name = in_braces(before) && ![last, prior].contains(&Some(TomlMark::Equals));
    let whole = |token: Option<&TomlToken>| token.map_or(span, |token| Span { start: token.start, end: token.end });
    let raw = slice(text, span);
    match (last, here.map(|token| token.mark)) {
        _ if is_name && is_key(raw) && matches!(behind, Some(TomlMark::Equals | TomlMark::Dot)) => {
            duplicate(text, span, line_at(text, span.start))
        }
        _ if is_name && !raw.is_empty() => no_name(span),
        (Some(TomlMark::Open(_) | TomlMark::Comma), Some(TomlMark::Equals)) if is_name => no_name(span),
        (Some(TomlMark::Equals), Some(TomlMark::Close(_) | TomlMark::Comma) | None) => unquoted(text, span),
        (
            Some(TomlMark::Word | TomlMark::Quoted { .. } | TomlMark::Close(_)),
            Some(TomlMark::Word | TomlMark::Quoted { .. } | TomlMark::Open(_)),
        ) if raw.is_empty() => match is_name {
            true => syntax("an `=` is missing").at(span, "before this"),
            false => syntax("a comma is missing").at(span, "before this").help("put a comma between the two"),
        },
        (_, Some(mark)) if is_bare(mark) && !is_name => {
            bare_value(text, span, if raw.is_empty() { whole(here.as_ref()) } else { span }, reason)
        }
        (Some(mark), _) if is_bare(mark) && !is_name => bare_value(text, span, whole(before.last()), reason),
        _ => unreadable(span, reason),
    }
}

/// A value without quotes that is none. `whole` is all of it where the parser names a place in it.
fn bare_value(text: &str, span: Span, whole: Span, reason: &str) -> Diagnostic {
    let (raw, word) = (slice(text, span), slice(text, whole));
    let digits = word.trim_start_matches(|c: char| c.is_ascii_digit());
    let is_number = word.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '_' | '+' | '-'))
        && word.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '.' | '_' | '+' | '-'));
    if digits.len() < word.len() && digits.starts_with(['-', ':']) {
        return date(span, raw);
    }
    if is_number && !raw.is_empty() && raw.chars().all(|c| c == '0') {
        return syntax("a number does not begin with a zero")
            .at(value_of(text, line_at(text, span.start)), "write it without the zeros in front")
            .help("a text of digits, such as a lot number, stands in quotes");
    }
    match is_number && span != whole {
        true if raw.is_empty() => {
            syntax("this number is not complete").at(value_of(text, line_at(text, span.start)), "digits are missing")
        }
        true => unreadable(span, reason),
        false => unquoted(text, whole),
    }
}

/// Whether a name could stand as it is written.
fn is_key(raw: &str) -> bool {
    match raw.bytes().next().filter(|first| matches!(first, b'"' | b'\'')) {
        Some(quote) => raw.len() > 1 && raw.bytes().filter(|b| *b == quote).count() == 2,
        None => !raw.is_empty() && key_text(raw) == raw,
    }
}
