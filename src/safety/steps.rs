//! What the words of a method tell: processes, what a drink meets, and what goes in that no part names. What a step
//! forbids ("keep away from dry ice", "never carbonate") it tells nothing of.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::spelling::{Claim, NameWord, name_words, pasteurised, words};
use crate::vocabulary::table;
use crate::vocabulary::{Process, Tag};

use super::names::{self, Found};

#[derive(Deserialize)]
struct MethodWordRow {
    words: String,
    process: Option<Process>,
    tag: Option<Tag>,
    sure: Option<Sure>,
}

#[derive(Clone, Copy, Deserialize)]
enum Sure {
    #[serde(rename = "yes")]
    Yes,
}

struct MethodWord {
    words: Vec<String>,
    process: Option<Process>,
    tag: Option<Tag>,
    sure: bool,
}

static METHOD: LazyLock<Vec<MethodWord>> = LazyLock::new(|| {
    let rows: Vec<MethodWordRow> = table::rows("method-words.csv", include_str!("data/method-words.csv"));
    let read = |row: MethodWordRow| MethodWord {
        words: words(&row.words),
        process: row.process,
        tag: row.tag,
        sure: row.sure.is_some(),
    };
    rows.into_iter().map(read).collect()
});

/// Words that forbid what follows them.
const FORBID: &[&str] = &[
    "not", "dont", "never", "no", "without", "avoid", "away", "instead", "nicht", "nie", "niemal", "ohne", "kein",
    "keine", "keinen", "pas", "jamai", "san", "sans", "sin", "nunca", "non", "mai", "senza",
];
/// What may stand between one of these and what it forbids; anything else ends it ("do not boil the hemlock").
const BETWEEN: &[&str] = &[
    "use", "add", "let", "it", "the", "a", "an", "any", "in", "into", "to", "with", "put", "serve", "on", "of", "near",
    "be", "them", "or", "and", "from", "set", "leave", "touch", "allow", "this", "open", "store", "keep", "more",
    "der", "die", "das", "den", "dem", "mit", "in", "von", "und", "oder", "le", "la", "l", "les", "de", "du", "avec",
    "el", "con", "il", "lo", "di",
];
/// Words that join one thing to another.
const JOIN: &[&str] = &["and", "or", "und", "oder", "et", "ou", "y", "e", "o"];
/// Words that forbid the whole of their clause, wherever they stand.
const FORBID_ALL: &[&str] = &[
    "avoid",
    "avoiding",
    "forbidden",
    "fernhalten",
    "fern",
    "vermeiden",
    "vermeide",
    "verboten",
    "eviter",
    "evitez",
    "evitar",
    "evite",
    "evitare",
    "lontano",
    "lejo",
];
/// Words of clauses about cleaning: what is not food is at home there.
const CLEANING: &[&str] = &[
    "clean",
    "cleaning",
    "wash",
    "sanitise",
    "sanitize",
    "sterilise",
    "sterilize",
    "rinse",
    "wipe",
    "reinigen",
    "spulen",
    "nettoyer",
    "rincer",
    "limpiar",
    "pulire",
];

/// What one text of a method, or a note, tells.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct StepSays {
    /// What names in it give away: of what may go in.
    pub found: Found,
    /// What is surely done, and what the drink surely meets.
    pub done: BTreeSet<Process>,
    pub meets: BTreeSet<Tag>,
    /// What may be done.
    pub perhaps: BTreeSet<Process>,
}

/// Reads a text, clause by clause: "freeze in dry, clean trays; add ice" is not of dry ice.
pub(crate) fn read(text: &str) -> StepSays {
    let mut says = StepSays::default();
    for clause in text.split([',', ';', '.', ':', '(', ')', '!']) {
        let words = not_forbidden(name_words(clause));
        let mut found = names::find_near(&words);
        if pasteurised(clause) == Some(Claim::Made) {
            found.tags.remove(&Tag::RawEgg);
            found.unsure.remove(&Tag::RawEgg);
        }
        if words.iter().any(|word| CLEANING.contains(&word.text.as_str())) {
            found.tags.remove(&Tag::NotFood);
            found.unsure.remove(&Tag::NotFood);
        }
        says.found.tags.extend(found.tags);
        says.found.allergens.extend(found.allergens);
        says.found.unsure.extend(found.unsure);
        let stands = |row: &&MethodWord| {
            let is = |at: &[NameWord]| at.iter().map(|word| &word.text).eq(&row.words);
            words.windows(row.words.len().max(1)).any(is)
        };
        for row in METHOD.iter().filter(stands) {
            says.meets.extend(row.tag);
            if row.sure { says.done.extend(row.process) } else { says.perhaps.extend(row.process) }
        }
    }
    says
}

/// The words that no other forbids; of the forbidden ones nothing is left but a gap.
fn not_forbidden(words: Vec<NameWord>) -> Vec<NameWord> {
    let is_in = |list: &[&str], word: &NameWord| list.contains(&word.text.as_str());
    if words.iter().any(|word| is_in(FORBID_ALL, word)) {
        return Vec::new();
    }
    /// How far a forbidding reaches that no word of a thing has been read of yet.
    const WHOLE: u8 = 3;
    let mut kept = Vec::new();
    let mut forbidding = 0;
    for word in words {
        // A thing has a name of two words ("dry ice"): the forbidding holds for those, and for what is joined to them.
        forbidding = match forbidding {
            _ if is_in(FORBID, &word) => WHOLE,
            0 => 0,
            _ if is_in(JOIN, &word) => WHOLE,
            WHOLE if is_in(BETWEEN, &word) => WHOLE,
            _ if is_in(BETWEEN, &word) => 0,
            n => n - 1,
        };
        let gap = forbidding > 0 || word.denied;
        kept.push(if gap { NameWord { text: String::new(), denied: true } } else { word });
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::Allergen;

    #[test]
    fn what_is_told_is_read_and_what_is_forbidden_is_not() {
        assert!(read("Rim with crushed peanuts").found.allergens.contains(&Allergen::Peanut));
        assert!(read("Drop in dry ice and serve").found.tags.contains(&Tag::DryIce));
        assert!(read("Force carbonate at 3 bar").done.contains(&Process::Carbonated));
        assert!(read("Flambé at the table").perhaps.contains(&Process::Flambe));
        assert!(read("Rest in a lead crystal decanter").meets.contains(&Tag::LeadContact));
        assert!(read("Run it through the still twice").perhaps.contains(&Process::Distil));
        for nothing in [
            "Keep away from dry ice",
            "Never carbonate it",
            "Do not let it ferment",
            "do not set it alight",
            "Let it stand still above the still water",
            "Serve in a lead-free crystal glass",
            "Freeze in dry, clean trays; add ice",
            "Dry shake over the ice",
            "Vor Trockeneis fernhalten",
        ] {
            assert_eq!(read(nothing), StepSays::default(), "{nothing}");
        }
        assert!(read("Do not boil the hemlock for long").found.tags.contains(&Tag::ToxicPlant));
    }
}
