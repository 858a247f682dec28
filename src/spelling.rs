//! How names are compared: one folding, one singular, one search for the nearest name, one measure of a slip of the pen.

mod claim;
mod memo;

pub(crate) use claim::NameWord;
pub(crate) use claim::spelled_out;
pub use claim::{Claim, name_words, pasteurised};
pub(crate) use memo::Memo;

use unicode_normalization::UnicodeNormalization;

/// The form under which a name is looked up: its [`words`], a space between them.
pub fn fold(name: &str) -> String {
    words(name).join(" ")
}

/// The words of a text in small letters, without accents, in the singular. Whatever is not a letter or a digit parts
/// them, but for a point between digits and a percent sign behind one (`rum-overproof-75.5`, `cream 35%`).
pub fn words(text: &str) -> Vec<String> {
    split(&plain(text)).map(singular).collect()
}

/// The same letters, each with its accents in one.
pub(crate) fn composed(text: &str) -> String {
    text.nfc().collect()
}

/// The words of all these names, each once.
pub(crate) fn words_of_names<'a>(names: impl Iterator<Item = &'a str>) -> Vec<String> {
    let mut all: Vec<String> = names.flat_map(words).collect();
    all.sort();
    all.dedup();
    all
}

/// Several of what one word names: as regular as the words by which a bar counts.
pub(crate) fn plural(word: &str) -> String {
    match word {
        _ if word.ends_with(['s', 'x']) || word.ends_with("ch") || word.ends_with("sh") => format!("{word}es"),
        _ if word.ends_with("eaf") || word.ends_with("alf") => format!("{}ves", &word[..word.len() - 1]),
        _ if word.ends_with("rry") => format!("{}ies", &word[..word.len() - 1]),
        _ => format!("{word}s"),
    }
}

/// Articles and prepositions that French and Italian join to the next word with an apostrophe ("blanc d'œuf").
const ELIDED: &[&str] = &["d", "l", "all", "dell", "nell"];

/// In small letters, without accents; of an apostrophe nothing is left, or a space behind an elided word.
fn plain(text: &str) -> String {
    let lower = text.to_lowercase();
    if lower.is_ascii() && !lower.contains('\'') {
        return lower;
    }
    let mut plain = String::with_capacity(lower.len());
    let put = |c: char, plain: &mut String| match c {
        '\'' | '’' => {
            let word = plain.rsplit(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
            if ELIDED.contains(&word) {
                plain.push(' ');
            }
        }
        // What the decomposition of Unicode leaves whole.
        'œ' => plain.push_str("oe"),
        'æ' => plain.push_str("ae"),
        'ß' => plain.push_str("ss"),
        'þ' => plain.push_str("th"),
        'ø' => plain.push('o'),
        'ł' => plain.push('l'),
        'đ' | 'ð' => plain.push('d'),
        'ħ' => plain.push('h'),
        'ı' => plain.push('i'),
        // what nobody sees parts no word: a soft hyphen, joiners and spaces of no width
        '\u{ad}' | '\u{34f}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{2064}' | '\u{feff}' => {}
        other => plain.push(other),
    };
    if lower.is_ascii() {
        lower.chars().for_each(|c| put(c, &mut plain));
    } else {
        // The accents of Latin, Greek and Cyrillic; marks of other scripts are letters and are put together again.
        let unaccented = lower.nfkd().filter(|c| !matches!(c, '\u{300}'..='\u{36f}')).nfc();
        unaccented.for_each(|c| put(c, &mut plain));
    }
    plain
}

fn split(plain: &str) -> impl Iterator<Item = &str> {
    let mut words = Vec::new();
    let mut start = None;
    let mut before = false;
    let mut letters = plain.char_indices().peekable();
    while let Some((at, c)) = letters.next() {
        let mut point = || c == '.' && letters.peek().is_some_and(|(_, next)| next.is_ascii_digit());
        if c.is_alphanumeric() || before && (c == '%' || point()) {
            start.get_or_insert(at);
        } else if let Some(start) = start.take() {
            words.extend(plain.get(start..at));
        }
        before = c.is_ascii_digit();
    }
    words.extend(start.and_then(|start| plain.get(start..)));
    words.into_iter()
}

/// Plurals that no rule gives, and words that look like plurals.
const IRREGULAR: &[(&str, &str)] = &[
    ("leaves", "leaf"),
    ("halves", "half"),
    ("loaves", "loaf"),
    ("molasses", "molasses"),
    ("sloes", "sloe"),
    ("aloes", "aloe"),
    ("chillies", "chilli"),
    ("chilies", "chili"),
    ("cookies", "cookie"),
    ("brownies", "brownie"),
    ("smoothies", "smoothie"),
    ("brioches", "brioche"),
    ("quiches", "quiche"),
    ("ganaches", "ganache"),
    ("pistaches", "pistache"),
    ("baies", "baie"),
    ("orties", "ortie"),
];

/// The singular of an English plural, well enough: both sides of a comparison are folded alike.
pub fn singular(word: &str) -> String {
    if !word.ends_with('s') {
        return word.to_owned();
    }
    if let Some((_, one)) = IRREGULAR.iter().find(|(many, _)| *many == word) {
        return (*one).to_owned();
    }
    let ends = |tails: &[&str]| tails.iter().any(|tail| word.ends_with(tail));
    let cut = |letters: usize, put: &str| format!("{}{put}", word.get(..word.len() - letters).unwrap_or(word));
    match word.len() {
        ..=3 => word.to_owned(),
        _ if ends(&["ss", "us", "is"]) => word.to_owned(),
        5.. if ends(&["ies"]) => cut(3, "y"),
        _ if ends(&["ches", "shes", "xes", "oes", "sses"]) => cut(2, ""),
        _ => cut(1, ""),
    }
}

/// What to say of a name that is not known: the one that was probably meant, or else what there is to write.
pub(crate) fn meant_or(near: Option<&str>, otherwise: impl Into<String>) -> String {
    near.map_or_else(|| otherwise.into(), |near| format!("did you mean `{near}`?"))
}

/// The name among `known` that was probably meant; none when it is not clear.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// From this likeness on (Jaro and Winkler, 0 to 1) one is taken for the other; ours.
    const ALIKE: f64 = 0.84;
    let word = word.to_lowercase();
    known
        .into_iter()
        .map(|name| (strsim::jaro_winkler(&word, &name.to_lowercase()), name))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// Whether a word may be the known one with a slip of the pen. Of fewer than five letters every other word is as near,
/// and none is.
pub fn is_slip_of(word: &str, known: &str) -> bool {
    word.chars().count().min(known.chars().count()) >= 5 && is_near(word, known)
}

/// Whether one letter wrong, missing, too many or swapped makes one of the other; two in a word of nine letters and more.
pub fn is_near(word: &str, known: &str) -> bool {
    let (letters, others) = (word.chars().count(), known.chars().count());
    let slips = if letters < 9 { 1 } else { 2 };
    // The distance is never less than what the lengths differ by, and takes longer to find.
    letters.abs_diff(others) <= slips && strsim::damerau_levenshtein(word, known) <= slips
}

/// The name among `known` that was probably meant by something to put into a drink: whatever is written must be in it,
/// but for slips of the pen, and those are seldom in the first letter (toffee is not coffee). A name that is only alike
/// (cinchona, cinnamon) may be that of a poison.
pub(crate) fn nearest_name<'a>(written: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let lower = written.to_lowercase();
    let wanted: Vec<&str> = split_words(&lower).collect();
    // Of a short word alone another letter makes another thing (soja is no soju), and so do two in one of nine
    // (baneberry is no blueberry).
    let alone = wanted.len() == 1 && lower.chars().count() < 7;
    let slips = |word: &str, other: &str| {
        let two = || word.chars().count() < 10 && strsim::damerau_levenshtein(word, other) > 1;
        let another =
            || alone && strsim::levenshtein(word, other) == 1 && word.chars().count() == other.chars().count();
        begins_alike(word, other) && is_slip_of(word, other) && !two() && !another()
    };
    let is_meant = |name: &&str| {
        // Most names have no word with one of the letters that the words begin with, and are not looked at further.
        let may_have = |word: &&str| split_words(name).any(|other| begins_alike(word, other));
        if !wanted.iter().all(may_have) && !begins_alike(&lower, name) {
            return false;
        }
        let name = name.to_lowercase();
        let has = |word: &&str| split_words(&name).any(|other| *word == other || slips(word, other));
        // As the whole of a name a word of four letters is known again too where it misses one (hony), and of eight
        // where one is another.
        let (letters, others) = (lower.chars().count(), name.chars().count());
        let one_off = letters >= 8 || letters >= 4 && letters < others;
        let whole = || letters.abs_diff(others) <= 1 && strsim::damerau_levenshtein(&lower, &name) == 1;
        begins_alike(&lower, &name) && one_off && whole() || wanted.iter().all(has)
    };
    nearest(written, known.into_iter().filter(is_meant))
}

fn split_words(name: &str) -> impl Iterator<Item = &str> {
    name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

/// Whether two words have one first letter, capital or small.
fn begins_alike(a: &str, b: &str) -> bool {
    match (a.chars().next(), b.chars().next()) {
        (Some(a), Some(b)) => a == b || a.to_lowercase().eq(b.to_lowercase()),
        (a, b) => a == b,
    }
}
