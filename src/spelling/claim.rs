//! "un-", "non-", "free", "not" and "without" are words with a meaning: what a name denies is never taken for what it
//! says.

use std::sync::Arc;

use super::{Memo, plain, singular, split};

/// A word of a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NameWord {
    /// The word, folded as [`super::words`] does; `pasteurised` in all its spellings is that.
    pub text: String,
    /// Whether the name says that it is not so ("non-bottled", "caffeine free"), or leaves it open ("pasteurised?").
    pub denied: bool,
}

/// What is written letter by letter among these words ("b e l l a d o n n a"), each in one.
pub(crate) fn spelled_out(words: &[NameWord]) -> Vec<NameWord> {
    /// Letters side by side from which on they are a word (ours).
    const FEWEST: usize = 4;
    let is_letter = |word: &NameWord| word.text.chars().count() == 1 && word.text.chars().all(char::is_alphabetic);
    let runs = words.split(|word| !is_letter(word)).filter(|run| run.len() >= FEWEST);
    let joined = runs.map(|run| run.iter().map(|word| word.text.as_str()).collect::<String>());
    joined.map(|text| NameWord { text: singular(&text), denied: false }).collect()
}

/// What a name says of a treatment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claim {
    /// It was given.
    Made,
    /// It was not.
    Denied,
    /// It speaks of it, and does not say that it was given ("pasteurisation unknown").
    Open,
}

/// Words that deny the next one, in the languages of the table of names.
const DENY_NEXT: &[&str] = &[
    "non", "not", "no", "never", "without", "isnt", "wasnt", "hasnt", "hardly", "nicht", "ohne", "kein", "keine",
    "pas", "sans", "jamais", "sin", "senza", "mai",
];
/// Denies the next one where it is a part of it ("un-bottled", "un bottled"): in French, Spanish and Italian it is "a".
const DENY_JOINED: &str = "un";
/// How a word ends that says what was done.
const PARTICIPLE: &str = "ed";
/// Words between one that denies and what it denies.
const BETWEEN: &[&str] = &["yet", "been", "be", "fully", "properly", "always", "necessarily", "really", "ever"];
/// Words that deny the one before them.
const DENY_LAST: &[&str] = &["free", "frei"];
/// Words that say that nothing was done.
const RAW: &[&str] = &["raw", "roh", "rohe", "rohes", "roher", "rohen", "cru", "crue", "crudo", "cruda"];
/// Words after which nothing is sure.
const DOUBT: &[&str] = &[
    "unknown",
    "unsure",
    "unclear",
    "maybe",
    "perhaps",
    "possibly",
    "probably",
    "may",
    "might",
    "if",
    "or",
    "to",
    "before",
    "until",
    "half",
    "semi",
    "partly",
    "partially",
    "unbekannt",
    "oder",
    "vielleicht",
    "ou",
    "peut",
    "inconnu",
    "o",
    "oppure",
    "forse",
    "quiza",
];
/// How the word begins in English (British and American), French, German, Spanish and Portuguese, and Italian.
const STEMS: &[&str] = &["pasteuris", "pasteuriz", "pastoriz"];
/// What may stand before the stem and denies it.
const DENYING_PREFIXES: &[&str] = &["un", "non", "not", "in"];
/// Endings that say that it was done: `pasteurised`, `pasteurisé`, `pasteurisiert`, `pasteurizado`, `pastorizzato`.
const DONE: &[&str] = &[
    "ed", "e", "ee", "iert", "ierte", "iertes", "ierter", "ierten", "iertem", "ado", "ada", "ato", "ata", "ati", "ate",
    "zato", "zata", "zati", "zate",
];

/// What a word says of pasteurising by itself; none where it does not speak of it.
fn spoken(word: &str) -> Option<Claim> {
    let (before, after) = STEMS.iter().find_map(|stem| word.split_once(stem))?;
    Some(match before {
        "" | "flash" if DONE.contains(&after) => Claim::Made,
        _ if DENYING_PREFIXES.contains(&before) => Claim::Denied,
        _ => Claim::Open,
    })
}

/// The words of a name, each with whether it is denied.
pub fn name_words(name: &str) -> Vec<NameWord> {
    said(name).1.clone()
}

/// What a name says of pasteurising; none where it says nothing. One word that denies it, or leaves it open, decides.
pub fn pasteurised(name: &str) -> Option<Claim> {
    said(name).0
}

fn said(name: &str) -> Arc<(Option<Claim>, Vec<NameWord>)> {
    static SAID: Memo<(Option<Claim>, Vec<NameWord>)> = Memo::new();
    SAID.of(name, read)
}

fn read(name: &str) -> (Option<Claim>, Vec<NameWord>) {
    let plain = plain(name);
    let speaks = STEMS.iter().any(|stem| plain.contains(stem));
    let mut claims: Vec<Claim> = Vec::new();
    let mut words: Vec<NameWord> = Vec::new();
    let breaks = |c: char| matches!(c, ',' | ';' | ':' | '(' | ')' | '[' | ']' | '/' | '?' | '!');
    for clause in plain.split(breaks) {
        let mut denying = false;
        let is_hyphened = clause.contains("un-");
        let mut is_joined = false;
        for word in split(clause) {
            if DENY_LAST.contains(&word)
                && let Some(last) = words.last_mut()
            {
                last.denied = true;
            }
            let denied = denying || is_joined && (is_hyphened || word.ends_with(PARTICIPLE));
            is_joined = word == DENY_JOINED;
            denying = DENY_NEXT.contains(&word) || denying && BETWEEN.contains(&word);
            let text = match spoken(word) {
                Some(claim) => {
                    claims.push(if denied { Claim::Denied } else { claim });
                    if claim == Claim::Made { "pasteurised".to_owned() } else { singular(word) }
                }
                None => {
                    if RAW.contains(&word) {
                        claims.push(Claim::Denied);
                    } else if DOUBT.contains(&word) {
                        claims.push(Claim::Open);
                    }
                    singular(word)
                }
            };
            words.push(NameWord { text, denied });
        }
        // "pasteurised: no"
        if denying {
            claims.push(Claim::Denied);
        }
    }
    if !speaks {
        return (None, words);
    }
    if plain.contains('?') {
        claims.push(Claim::Open);
    }
    let all = |claim| claims.contains(&claim);
    let claim = match () {
        () if all(Claim::Denied) => Claim::Denied,
        () if all(Claim::Open) => Claim::Open,
        () => Claim::Made,
    };
    for word in words.iter_mut().filter(|word| word.text == "pasteurised") {
        word.denied |= claim != Claim::Made;
    }
    (Some(claim), words)
}
