//! The lines of a pasted text, without bullets, numbers, markup and what nobody sees.

use std::borrow::Cow;

use crate::diagnostic::is_unruly;

/// Of a line no more is read, in characters: what is longer is no line of a recipe.
const LONGEST_LINE: usize = 2000;

/// One line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PastedLine {
    pub text: String,
    /// Whether it had a number in front ("1)", "2.").
    pub numbered: bool,
    /// Whether it was marked as a heading.
    pub heading: bool,
}

/// The lines that say something.
pub(super) fn lines(text: &str) -> Vec<PastedLine> {
    text.split(['\n', '\r', '\u{2028}', '\u{2029}', '\u{b}', '\u{c}']).filter_map(line).collect()
}

fn line(raw: &str) -> Option<PastedLine> {
    let seen: String = raw.chars().take(LONGEST_LINE).filter_map(shown).collect();
    let text = without_tags(&seen);
    let row = text.trim().strip_prefix('|').map(|row| row.replace('|', " "));
    let mut rest = row.as_deref().unwrap_or(&text).trim();
    if is_tags(rest) {
        return None;
    }
    // "== Ginger syrup =="
    let of_wiki = rest.strip_prefix("==").and_then(|rest| rest.strip_suffix("=="));
    let heading = rest.starts_with('#') || of_wiki.is_some();
    rest = of_wiki.map_or(rest, |name| name.trim_matches('='));
    rest = rest.trim_start_matches(['#', '>', ' ']).trim_end();
    rest = [
        "- ", "* ", "• ", "· ", "– ", "— ", "+ ", "▪ ", "◦ ", "‣ ", "o ", "[ ] ", "[x] ", "☐ ", "□ ", "•", "▪", "◦",
        "☐", "□", "»", "›", "✻",
    ]
    .into_iter()
    .find_map(|mark| rest.strip_prefix(mark))
    .unwrap_or(rest)
    .trim_start();
    let (rest, numbered) = numberless(rest).or_else(|| stepless(rest)).map_or((rest, false), |rest| (rest, true));
    let strong = rest.starts_with("**") || rest.starts_with("__");
    let text: String = rest.replace("**", "").replace("__", "").replace('`', "");
    let text = text.split_whitespace().map(of_fraction).collect::<Vec<_>>().join(" ");
    (!text.is_empty()).then_some(PastedLine { text, numbered, heading: heading || strong && !numbered })
}

/// "#bartender #fatwash": what a post is found by, and nothing of the recipe.
fn is_tags(text: &str) -> bool {
    let is_tag = |word: &str| word.strip_prefix('#').is_some_and(|tag| tag.starts_with(|c: char| c.is_lowercase()));
    !text.is_empty() && text.split_whitespace().all(is_tag)
}

/// "1-1/2" is one and a half: no range falls.
fn of_fraction(word: &str) -> Cow<'_, str> {
    let is_number = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    let parted = word.split_once('-').filter(|(whole, _)| is_number(whole));
    let fraction = parted.and_then(|(whole, part)| Some((whole, part.split_once('/')?)));
    match fraction {
        Some((whole, (top, bottom)))
            if top.parse::<u32>().ok().zip(bottom.parse().ok()).is_some_and(|(top, bottom)| top < bottom) =>
        {
            Cow::Owned(format!("{whole} {top}/{bottom}"))
        }
        _ => Cow::Borrowed(word),
    }
}

/// A character as it is kept: a blank for one that parts words, nothing for one that nobody sees.
fn shown(c: char) -> Option<char> {
    match c {
        '\t' => Some(' '),
        '\u{fffd}' => None,
        c if c.is_whitespace() => Some(' '),
        c if c.is_control() || is_unruly(c) => None,
        '\u{ad}' | '\u{61c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2060}'..='\u{2065}' | '\u{feff}' => None,
        // pictures, which stand for a bullet or for nothing
        '\u{20e3}' | '\u{fe0e}' | '\u{fe0f}' | '\u{e0020}'..='\u{e007f}' => None,
        '\u{2190}'..='\u{21ff}' | '\u{2300}'..='\u{23ff}' | '\u{25a0}'..='\u{27bf}' | '\u{2b00}'..='\u{2bff}' => {
            Some(' ')
        }
        '\u{1f000}'..='\u{1faff}' => Some(' '),
        '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}' => None,
        c => Some(c),
    }
}

/// Behind "1)", "2.", "(3)"; a decimal number is none.
fn numberless(text: &str) -> Option<&str> {
    let inner = text.strip_prefix('(').unwrap_or(text);
    let digits = inner.len() - inner.trim_start_matches(|c: char| c.is_ascii_digit()).len();
    let rest = inner.get(digits..)?.strip_prefix([')', '.'])?;
    ((1..=2).contains(&digits) && rest.starts_with(' ')).then_some(rest.trim_start())
}

/// Behind "Step 1:".
fn stepless(text: &str) -> Option<&str> {
    let front = text.get(.."step ".len()).filter(|front| front.eq_ignore_ascii_case("step "))?;
    let rest = text.get(front.len()..)?;
    let behind = rest.trim_start_matches(|c: char| c.is_ascii_digit());
    (behind.len() < rest.len()).then(|| behind.strip_prefix([':', '.', ')', ' '])).flatten().map(str::trim_start)
}

/// Without `<li>` and its like, and the few signs that a page writes in letters.
fn without_tags(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('<') {
        let (before, tag) = rest.split_at(at);
        plain.push_str(before);
        let is_tag = tag.get(1..).is_some_and(|t| t.starts_with(|c: char| c.is_ascii_alphabetic() || c == '/'));
        match tag.find('>').filter(|_| is_tag) {
            Some(end) => {
                plain.push(' ');
                rest = tag.get(end + 1..).unwrap_or_default();
            }
            None => {
                plain.push('<');
                rest = tag.get(1..).unwrap_or_default();
            }
        }
    }
    plain.push_str(rest);
    let signs =
        [("&nbsp;", " "), ("&amp;", "&"), ("&frac12;", "½"), ("&frac14;", "¼"), ("&frac34;", "¾"), ("&deg;", "°")];
    signs.into_iter().fold(plain, |text, (name, sign)| text.replace(name, sign))
}
