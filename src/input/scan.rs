//! A TOML text cut into words and lines: where a name ends, where a value does, and which bracket is never closed.
//! The parser says only that something is wrong at a place; what stands there is seen here.

use crate::diagnostic::Span;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TomlMark {
    /// `[` or `{`
    Open(u8),
    Close(u8),
    Comma,
    Equals,
    Dot,
    /// In quotes, which may be missing at its end.
    Quoted {
        closed: bool,
    },
    Word,
    Remark,
    /// The end of a line.
    End,
}

/// A piece of the text that is not blank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TomlToken {
    pub(super) mark: TomlMark,
    pub(super) start: usize,
    pub(super) end: usize,
}

/// What a line that is not blank is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Line {
    /// `[parts]`: where it ends, when its brackets are closed.
    Heading(Option<usize>),
    /// `name = value`, and the further lines of a list: where the `=` stands, where the value begins and where it ends.
    Entry {
        equals: usize,
        value: usize,
        end: usize,
    },
    Neither,
}

pub(super) struct Scan {
    tokens: Vec<TomlToken>,
    /// Every line that is not blank, by the place of its first token.
    pub(super) lines: Vec<(Span, Line)>,
    /// The first bracket of a value that is never closed.
    pub(super) open: Option<usize>,
}

impl Scan {
    pub(super) fn of(text: &str) -> Self {
        let mut scan = Self { tokens: tokens(text), lines: Vec::new(), open: None };
        let mut i = 0;
        while let Some(first) = scan.tokens.get(i).copied() {
            if matches!(first.mark, TomlMark::End | TomlMark::Remark) {
                i += 1;
                continue;
            }
            let (line, next) = scan.line(i, first);
            i = scan.first_from(next, |mark| matches!(mark, TomlMark::End | TomlMark::Remark));
            let end = scan.tokens.get(i.saturating_sub(1)).map_or(first.end, |last| last.end);
            scan.lines.push((Span { start: first.start, end }, line));
        }
        scan
    }

    /// Where its remarks stand.
    #[cfg(feature = "cli")]
    pub(super) fn remarks(&self) -> impl Iterator<Item = Span> {
        let remarks = self.tokens.iter().filter(|token| token.mark == TomlMark::Remark);
        remarks.map(|token| Span { start: token.start, end: token.end })
    }

    /// The line that begins with a token, and the token behind what was understood of it.
    fn line(&mut self, i: usize, first: TomlToken) -> (Line, usize) {
        if first.mark == TomlMark::Open(b'[') {
            let second = self.tokens.get(i + 1).filter(|token| token.mark == first.mark && token.start == first.end);
            let key = if second.is_some() { i + 2 } else { i + 1 };
            let mut last = self.past_key(key);
            let named = last > key;
            let closed = (i..key).all(|_| {
                let closes = self.mark(last) == Some(TomlMark::Close(b']'));
                last += usize::from(closes);
                closes
            });
            let end = self.tokens.get(last - 1).map(|close| close.end).filter(|_| named && closed);
            return (Line::Heading(end), last);
        }
        let equals = self.past_key(i);
        let Some(TomlToken { mark: TomlMark::Equals, start, end }) = self.tokens.get(equals).copied() else {
            return (Line::Neither, i);
        };
        let value = self.first_from(equals, |mark| mark != TomlMark::Equals);
        let behind = match self.mark(value) {
            Some(TomlMark::Open(_)) => self.past_brackets(value),
            Some(TomlMark::Quoted { .. }) => value + 1,
            Some(TomlMark::Word | TomlMark::Dot) => {
                self.first_from(value, |mark| !matches!(mark, TomlMark::Word | TomlMark::Dot))
            }
            _ => value,
        };
        let end = self.tokens.get(behind - 1).map_or(end, |last| last.end);
        let begin = self.tokens.get(value).filter(|_| behind > value).map_or(end, |first| first.start);
        (Line::Entry { equals: start, value: begin, end }, behind)
    }

    /// The token behind a name, whose parts may be parted by dots.
    fn past_key(&self, from: usize) -> usize {
        let is_name = |i| matches!(self.mark(i), Some(TomlMark::Word | TomlMark::Quoted { .. }));
        let mut i = if is_name(from) { from + 1 } else { from };
        while self.mark(i) == Some(TomlMark::Dot) {
            i += if is_name(i + 1) { 2 } else { 1 };
        }
        i
    }

    /// The token behind a value in brackets. One that is never closed reaches to the end of the text.
    fn past_brackets(&mut self, from: usize) -> usize {
        let mut open: Vec<TomlToken> = Vec::new();
        for (i, token) in self.tokens.iter().enumerate().skip(from) {
            match token.mark {
                TomlMark::Open(_) => open.push(*token),
                TomlMark::Close(close) if open.last().is_some_and(|last| last.mark == TomlMark::Open(close - 2)) => {
                    open.pop();
                }
                _ => {}
            }
            if open.is_empty() {
                return i + 1;
            }
        }
        self.open = open.first().map(|first| first.start);
        self.tokens.len()
    }

    fn mark(&self, i: usize) -> Option<TomlMark> {
        self.tokens.get(i).map(|token| token.mark)
    }

    fn first_from(&self, from: usize, is: impl Fn(TomlMark) -> bool) -> usize {
        self.tokens.iter().skip(from).position(|token| is(token.mark)).map_or(self.tokens.len(), |n| from + n)
    }

    pub(super) fn line_of(&self, at: usize) -> Option<(Span, Line)> {
        let behind = self.lines.partition_point(|(span, _)| span.start <= at);
        self.lines.get(behind.saturating_sub(1)).copied()
    }

    /// The token that a place stands in or right before, if one does, and those before and behind it, nearest first.
    pub(super) fn around(&self, at: usize) -> (&[TomlToken], Option<TomlToken>, Option<TomlMark>) {
        let n = self.tokens.partition_point(|token| token.end <= at);
        let here = self.tokens.get(n).copied().filter(|token| token.start <= at);
        (self.tokens.get(..n).unwrap_or_default(), here, self.mark(n + usize::from(here.is_some())))
    }
}

/// Whether the last bracket that is open behind these tokens is a `{`.
pub(super) fn in_braces(before: &[TomlToken]) -> bool {
    let mut closed = 0;
    before.iter().rev().find_map(|token| match token.mark {
        TomlMark::Close(_) => {
            closed += 1;
            None
        }
        TomlMark::Open(bracket) if closed == 0 => Some(bracket == b'{'),
        TomlMark::Open(_) => {
            closed -= 1;
            None
        }
        _ => None,
    }) == Some(true)
}

fn tokens(text: &str) -> Vec<TomlToken> {
    let mut tokens = Vec::new();
    let mut start = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    while let Some(rest) = text.get(start..).filter(|rest| !rest.is_empty()) {
        let to = |stops: &[char]| rest.find(stops).unwrap_or(rest.len());
        let (mark, length) = match rest.as_bytes()[0] {
            b' ' | b'\t' => (None, 1),
            b'\r' | b'\n' => (Some(TomlMark::End), 1),
            b'#' => (Some(TomlMark::Remark), to(&['\r', '\n'])),
            b'=' => (Some(TomlMark::Equals), 1),
            b',' => (Some(TomlMark::Comma), 1),
            b'.' => (Some(TomlMark::Dot), 1),
            bracket @ (b'[' | b'{') => (Some(TomlMark::Open(bracket)), 1),
            bracket @ (b']' | b'}') => (Some(TomlMark::Close(bracket)), 1),
            b'"' | b'\'' => {
                let (length, closed) = in_quotes(rest);
                (Some(TomlMark::Quoted { closed }), length)
            }
            _ => (Some(TomlMark::Word), to(&['.', '=', ',', '[', ']', '{', '}', ' ', '\t', '#', '\r', '\n'])),
        };
        tokens.extend(mark.map(|mark| TomlToken { mark, start, end: start + length }));
        start += length;
    }
    tokens
}

/// How long a text in quotes is, and whether they are closed: on the line, or anywhere below where there are three.
fn in_quotes(rest: &str) -> (usize, bool) {
    let quote = rest.get(..1).unwrap_or_default();
    let three = quote.repeat(3);
    let (close, begin) = if rest.starts_with(&three) { (three.as_str(), 3) } else { (quote, 1) };
    let mut at = begin;
    // nothing else in it matters: the quote, what makes a quote no end, and the end of the line
    while let Some(found) = rest.get(at..).and_then(|left| left.find(['"', '\'', '\\', '\n'])) {
        at += found;
        let here = rest.get(at..).unwrap_or_default();
        if here.starts_with('\n') && begin == 1 {
            return (at, false);
        }
        if here.starts_with(close) {
            // a text in three quote marks may end with two of its own
            let more = if begin == 3 {
                here.get(3..).unwrap_or_default().bytes().take(2).take_while(|b| quote.as_bytes() == [*b]).count()
            } else {
                0
            };
            return (at + close.len() + more, true);
        }
        let escaped = here.chars().nth(1).filter(|&c| quote == "\"" && here.starts_with('\\') && c != '\n');
        at += 1 + escaped.map_or(0, char::len_utf8);
    }
    (rest.len(), false)
}
