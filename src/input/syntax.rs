//! Says in a maker's words what the TOML reader says in its own.

use std::borrow::Cow;

use toml::de::{DeTable, Error};

use crate::diagnostic::{Code, Diagnostic, MOST_FINDINGS, Span};

use super::raw::{Bare, bare, is_word, key_text, line_at, quoted, slice, straighten, unclosed, unwrapped, value_of};

/// Every syntax error of a text, one for each line, in the order of the lines.
pub(super) fn explain_all(text: &str, errors: &[Error]) -> Vec<Diagnostic> {
    let place = |e: &Error| e.span().unwrap_or_default();
    // a bracket that is never closed also makes the lines below it look wrong
    let end = last_sound_byte(text, errors);
    let mut ordered: Vec<_> =
        errors.iter().filter(|e| e.message().starts_with("unclosed") || place(e).start <= end).collect();
    ordered.sort_by_key(|e| place(e).start);
    ordered.dedup_by_key(|e| line_at(text, place(e).start).start);
    let mut found: Vec<_> =
        ordered.into_iter().take(MOST_FINDINGS + 1).map(|e| explain(text, e.message(), place(e).into())).collect();
    let line = |d: &mut Diagnostic| d.labels.first().map(|label| line_at(text, label.span.start).start);
    found.sort_by_key(|d| d.labels.first().map(|label| label.span.start));
    found.dedup_by_key(line);
    found
}

/// The text with every line blanked at which the parser loses the rest of a table (a name of two
/// words without quotes), and the errors of those lines. Every other byte keeps its place.
pub(super) fn without_lost_lines(text: &str) -> (Cow<'_, str>, Vec<Error>) {
    /// Each round shows one more such line of a table; a card with more of them is no card.
    const MOST_ROUNDS: usize = 40;
    let mut sound = Cow::Borrowed(text);
    let mut lost = Vec::new();
    for _ in 0..MOST_ROUNDS {
        let (_, errors) = DeTable::parse_recoverable(&sound);
        let new: Vec<_> = errors.into_iter().filter(|e| e.message().starts_with("key with no value")).collect();
        if new.is_empty() {
            break;
        }
        for error in &new {
            let line = line_at(&sound, error.span().unwrap_or_default().start);
            let blank = " ".repeat(line.end - line.start);
            sound.to_mut().replace_range(line.start..line.end, &blank);
        }
        lost.extend(new);
    }
    (sound, lost)
}

/// Where the text stops making sense: the end of the line with a bracket that is never closed.
pub(super) fn last_sound_byte(text: &str, errors: &[Error]) -> usize {
    let is_open = errors.iter().any(|e| e.message().starts_with("unclosed"));
    match unclosed(text).filter(|_| is_open) {
        Some(open) => line_at(text, open).end,
        None => text.len(),
    }
}

fn explain(text: &str, message: &str, span: Span) -> Diagnostic {
    let line = line_at(text, span.start);
    let is = |start: &str| message.starts_with(start);
    if is("key with no value") || is("unquoted keys cannot be empty") || is("invalid unquoted key") {
        return bad_key(text, span, line);
    }
    if is("string values must be quoted") || (is("invalid") && is_word(slice(text, span)) && span.start > line.start) {
        return unquoted(text, span);
    }
    if is("duplicate key") {
        return duplicate(text, span, line);
    }
    if is("unexpected key or value") {
        return left_over(text, span, line);
    }
    if is("unclosed") {
        return not_closed(text, line);
    }
    if is("missing comma") {
        return syntax("a comma is missing").at(span, "before this").help("put a comma between the two");
    }
    if is("missing escaped value") {
        return syntax("a backslash means something special between double quotes")
            .at(Span { start: span.start.saturating_sub(1), end: span.start }, "this backslash")
            .help("write two of them (\\\\), or put the text in single quotes: 'like this'");
    }
    if is("invalid multi-line") {
        return syntax("a text that was opened with three quote marks is never closed")
            .at(span, "the file ends here")
            .help("close it with the same three quote marks");
    }
    if is("invalid basic string") || is("invalid literal string") {
        return if span.start == span.end {
            let mark = if is("invalid basic") { "\"" } else { "'" };
            let value = value_of(text, line);
            let diagnostic =
                syntax("the quote marks are not closed on this line").at(value, "opened here and not closed");
            let written = slice(text, value);
            match written.strip_prefix(mark).is_some_and(|rest| !rest.contains(mark)) {
                true => diagnostic.fix(value, format!("{written}{mark}")),
                false => diagnostic.help(format!("every text ends with {mark} on the line where it begins")),
            }
        } else {
            syntax("a text holds a character that cannot be shown").at(span, "here").help("delete it and type it again")
        };
    }
    if is("invalid date") || is("invalid time") || is("invalid datetime") {
        return date(span, slice(text, span));
    }
    if is("unexpected leading zero") {
        let whole = value_of(text, line);
        return syntax("a number does not begin with a zero")
            .at(whole, "write it without the zeros in front")
            .help("a text of digits, such as a lot number, stands in quotes");
    }
    if is("carriage return") {
        return syntax("a line ends in a way that cannot be read (a lone carriage return)")
            .at(span, "here")
            .help("save the file as plain text, with the line endings of this computer");
    }
    if is("invalid fraction") || is("invalid exponent") || is("invalid number") || is("invalid mantissa") {
        return syntax("this number is not complete").at(value_of(text, line), "digits are missing");
    }
    let reason = message.lines().next().unwrap_or("cannot be read");
    syntax(format!("this cannot be read: {reason}"))
        .at(span, "here")
        .help("a line is `key = value`; texts and amounts stand in quotes, a name with spaces too: \"white sugar\" = \"1 kg\"")
}

fn syntax(title: impl Into<String>) -> Diagnostic {
    Diagnostic::error(Code::Syntax, title)
}

fn date(span: Span, raw: &str) -> Diagnostic {
    syntax(format!("`{raw}` is not a day written year first"))
        .at(span, "year, month, day, with no quotes")
        .help("write the year first: 2026-11-20 is the 20th of November 2026")
}

fn unquoted(text: &str, span: Span) -> Diagnostic {
    let raw = slice(text, span).trim();
    if raw.is_empty() {
        return syntax("nothing stands after the `=`")
            .at(span, "a value was expected")
            .help("write the value in quotes, or delete the line");
    }
    match bare(raw) {
        Bare::Flag(flag) => {
            syntax(format!("`{raw}` is written {flag} here")).at(span, "true or false").fix(span, flag.to_string())
        }
        Bare::Date => date(span, raw),
        Bare::Text => {
            let title = if straighten(raw) == raw {
                format!("`{raw}` must stand in quotes")
            } else {
                "these are curly quotes; straight ones were expected".to_owned()
            };
            syntax(title).at(span, "straight quote marks round all of it").fix(span, quoted(&unwrapped(raw)))
        }
    }
}

fn bad_key(text: &str, span: Span, line: Span) -> Diagnostic {
    let whole = slice(text, line);
    let start = line.start + (whole.len() - whole.trim_start().len());
    let trimmed = whole.trim();
    if trimmed.starts_with("//") || trimmed.starts_with("--") || trimmed.starts_with(';') {
        return syntax("a remark begins with #")
            .at(Span { start, end: start + trimmed.len() }, "this line is not read")
            .fix(
                Span { start, end: start + trimmed.len() },
                format!("# {}", trimmed.trim_start_matches(['/', '-', ';']).trim_start()),
            );
    }
    let Some((before, _)) = trimmed.split_once('=') else {
        return match trimmed.split_once(':') {
            Some((key, value)) if !key.contains(['"', '\'']) => syntax("between a name and its value stands =, not :")
                .at(Span { start: start + key.len(), end: start + key.len() + 1 }, "an = belongs here")
                .fix(Span { start, end: start + trimmed.len() }, format!("{} = {}", key_text(key), value.trim())),
            _ => syntax("this line has no `=`")
                .at(Span { start, end: start + trimmed.len() }, "neither a heading nor `name = value`")
                .help("a heading stands in brackets, [parts]; a part is \"white sugar\" = \"1 kg\"; a remark begins with #"),
        };
    };
    let before = before.trim_end();
    let key = Span { start, end: start + before.len() };
    if before.is_empty() {
        return syntax("nothing stands before the `=`")
            .at(key, "a name was expected")
            .help("write what the value is of");
    }
    if before.starts_with(['[', '{']) || !(key.start..=key.end).contains(&span.start) {
        // inside a `{ … }`: point at the place alone
        return syntax("a name was expected here")
            .at(span, "here")
            .help("names with spaces or accents stand in quotes");
    }
    syntax(format!("the name {} must stand in quotes", key_text(before)))
        .at(key, "only a to z, digits, - and _ may stand without")
        .fix(key, key_text(before))
}

fn duplicate(text: &str, span: Span, line: Span) -> Diagnostic {
    let key = slice(text, span);
    let name = key.trim_matches(['"', '\'']);
    let heading = slice(text, line).trim_start().starts_with('[');
    let first = first_use(text, key, heading, line.start);
    let mut diagnostic =
        syntax(format!("{} stands twice", if heading { format!("the heading [{name}]") } else { format!("`{name}`") }))
            .at(span, "a second time");
    if let Some(first) = first {
        diagnostic = diagnostic.at(first, "first here");
    }
    let parts = text.get(..line.start).unwrap_or_default().lines().rfind(|l| l.trim_start().starts_with('['));
    diagnostic.help(if heading {
        "put all of it under one heading; every stage begins with [[stage]], in double brackets".to_owned()
    } else if parts.is_some_and(|heading| heading.contains("parts")) {
        format!(
            "delete one; to use an ingredient twice name the second line: \"{name}, second\" = {{ of = \"{name}\", amount = \"…\" }}"
        )
    } else {
        "delete one of them".to_owned()
    })
}

/// The earlier line that a key or a heading was first used on.
fn first_use(text: &str, key: &str, heading: bool, before: usize) -> Option<Span> {
    let mut start = before;
    let mut found = None;
    for line in text.get(..before)?.split_inclusive('\n').rev() {
        start -= line.len();
        let trimmed = line.trim_start();
        let indent = line.len() - trimmed.len();
        let at = if heading {
            let inner = trimmed.trim_start_matches('[');
            (inner.len() < trimmed.len() && inner.starts_with(key)).then_some(indent + trimmed.len() - inner.len())
        } else if trimmed.starts_with('[') {
            return found;
        } else {
            trimmed.strip_prefix(key).is_some_and(|rest| rest.trim_start().starts_with('=')).then_some(indent)
        };
        if let Some(at) = at {
            found = Some(Span { start: start + at, end: start + at + key.len() });
        }
    }
    found
}

fn left_over(text: &str, span: Span, line: Span) -> Diagnostic {
    let rest = Span { start: span.start.min(line.end), end: line.end };
    let raw = slice(text, rest).trim_end();
    let rest = Span { start: rest.start, end: rest.start + raw.len() };
    let whole = slice(text, line);
    if whole.trim_start().starts_with('[') {
        return syntax("something follows the heading on its line")
            .at(rest, "not expected here")
            .help("a heading stands alone on its line: one pair of brackets for [parts], two for [[stage]]");
    }
    if raw == "," {
        return syntax("a line does not end with a comma").at(rest, "delete it").fix(rest, "");
    }
    if let Some(decimals) = raw.strip_prefix(',').filter(|d| !d.is_empty() && d.chars().all(|c| c.is_ascii_digit())) {
        let value = value_of(text, line);
        let number = slice(text, Span { start: value.start, end: rest.start });
        return syntax("a number without quotes takes a point, not a comma")
            .at(value, "one number was expected")
            .fix(value, format!("{number}.{decimals}"));
    }
    if raw.contains('=') {
        return syntax("two entries stand on one line").at(rest, "give this a line of its own");
    }
    if slice(text, value_of(text, line)).matches('"').count() > 2 {
        return syntax("a quote mark inside a text ends it")
            .at(rest, "this is already outside the quotes")
            .help("put single quotes round the whole text: 'the \"good\" rum'");
    }
    syntax(format!("`{raw}` stands after the value"))
        .at(rest, "not expected here")
        .help("put it inside the quotes, or make it a remark: # goes in front")
}

fn not_closed(text: &str, line: Span) -> Diagnostic {
    if let Some(open) = unclosed(text) {
        let (name, close) = if text.get(open..).is_some_and(|t| t.starts_with('{')) { ("{", "}") } else { ("[", "]") };
        return syntax(format!("`{name}` is never closed"))
            .at(Span { start: open, end: open + 1 }, "opened here")
            .help(format!("put the {close} that belongs to it; commas go between what it holds"));
    }
    let whole = slice(text, line).trim_end();
    let end = line.start + whole.len();
    let here = Span { start: line.start, end };
    let inner = whole.trim().trim_matches(['[', ']']).trim();
    if whole.contains(']') {
        let quoted: Vec<_> = inner.split('.').map(key_text).collect();
        syntax("a name of more than one word in a heading must stand in quotes")
            .at(here, "this heading cannot be read")
            .help("a heading is one word, [parts], or a word and a name: [ingredient.\"pure sucrose\"]")
            .fix(here, whole.trim_start().replacen(inner, &quoted.join("."), 1))
    } else {
        let close = if whole.trim_start().starts_with("[[") { "]]" } else { "]" };
        syntax("the heading is not closed")
            .at(here, "a bracket is missing at the end")
            .fix(here, format!("{whole}{close}"))
    }
}
