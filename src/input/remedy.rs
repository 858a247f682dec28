//! What is wrong with the syntax of a line, in a maker's words, and what to do.

use crate::diagnostic::{Code, Diagnostic, Span};

use super::raw::{Bare, bare, key_text, quoted, slice, straighten, unwrapped, value_of};

/// A text that was opened and is not closed, with the place of its end.
pub(super) fn not_ended(text: &str, start: usize, end: Span, line: Span) -> Diagnostic {
    let opened = text.get(start..).unwrap_or_default();
    if opened.starts_with("\"\"\"") || opened.starts_with("'''") {
        return syntax("a text that was opened with three quote marks is never closed")
            .at(end, "the file ends here")
            .help("close it with the same three quote marks");
    }
    let mark = if opened.starts_with('"') { "\"" } else { "'" };
    let value = value_of(text, line);
    let diagnostic = syntax("the quote marks are not closed on this line").at(value, "opened here and not closed");
    let written = slice(text, value);
    match written.strip_prefix(mark).is_some_and(|rest| !rest.contains(mark)) {
        true => diagnostic.fix(value, format!("{written}{mark}")),
        false => diagnostic.help(format!("every text ends with {mark} on the line where it begins")),
    }
}

/// A backslash at or before a place.
pub(super) fn escape(text: &str, at: usize) -> Diagnostic {
    let backslash = text.get(..at).and_then(|before| before.rfind('\\')).unwrap_or(at);
    syntax("a backslash means something special between double quotes")
        .at(Span { start: backslash, end: at.min(backslash + 1) }, "this backslash")
        .help("write two of them (\\\\), or put the text in single quotes: 'like this'")
}

pub(super) fn unreadable(span: Span, reason: &str) -> Diagnostic {
    let reason = reason.lines().next().unwrap_or("cannot be read");
    syntax(format!("this cannot be read: {reason}"))
        .at(span, "here")
        .help("a line is `key = value`; texts and amounts stand in quotes, a name with spaces too: \"white sugar\" = \"1 kg\"")
}

pub(super) fn no_name(span: Span) -> Diagnostic {
    syntax("a name was expected here").at(span, "here").help("names with spaces or accents stand in quotes")
}

pub(super) fn never_closed(text: &str, open: usize) -> Diagnostic {
    let (name, close) = if text.get(open..).is_some_and(|t| t.starts_with('{')) { ("{", "}") } else { ("[", "]") };
    syntax(format!("`{name}` is never closed"))
        .at(Span { start: open, end: open + 1 }, "opened here")
        .help(format!("put the {close} that belongs to it; commas go between what it holds"))
}

pub(super) fn syntax(title: impl Into<String>) -> Diagnostic {
    Diagnostic::error(Code::Syntax, title)
}

pub(super) fn date(span: Span, raw: &str) -> Diagnostic {
    syntax(format!("`{raw}` is not a day written year first"))
        .at(span, "year, month, day, with no quotes")
        .help("write the year first: 2026-11-20 is the 20th of November 2026")
}

pub(super) fn unquoted(text: &str, span: Span) -> Diagnostic {
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

pub(super) fn bad_key(text: &str, span: Span, line: Span) -> Diagnostic {
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
        return no_name(span);
    }
    syntax(format!("the name {} must stand in quotes", key_text(before)))
        .at(key, "only a to z, digits, - and _ may stand without")
        .fix(key, key_text(before))
}

pub(super) fn duplicate(text: &str, span: Span, line: Span) -> Diagnostic {
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

pub(super) fn left_over(text: &str, span: Span, line: Span) -> Diagnostic {
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

pub(super) fn not_closed(text: &str, line: Span) -> Diagnostic {
    let whole = slice(text, line).trim_end();
    let end = line.start + whole.len();
    let here = Span { start: line.start, end };
    let inner = whole.trim().trim_matches(['[', ']']).trim();
    let is_double = whole.trim_start().starts_with("[[");
    if whole.contains(if is_double { "]]" } else { "]" }) {
        let quoted: Vec<_> = inner.split('.').map(key_text).collect();
        let which =
            if inner.contains(char::is_whitespace) { "of more than one word" } else { "with other signs than - and _" };
        syntax(format!("a name {which} in a heading must stand in quotes"))
            .at(here, "this heading cannot be read")
            .help("a heading is one word, [parts], or a word and a name: [ingredient.\"pure sucrose\"]")
            .fix(here, whole.trim_start().replacen(inner, &quoted.join("."), 1))
    } else {
        let close = if is_double && !whole.ends_with(']') { "]]" } else { "]" };
        syntax("the heading is not closed")
            .at(here, "a bracket is missing at the end")
            .fix(here, format!("{whole}{close}"))
    }
}
