//! What the words of a method tell: processes, what a drink meets, and what goes in that no part names. What a step
//! forbids ("keep away from dry ice", "never carbonate") it tells nothing of.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::spelling::{Claim, NameWord, name_words, pasteurised, words};
use crate::units::told::clauses;
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

/// What is said not to be so is not needed either: "yeast is not needed".
const NEEDED: &[&str] =
    &["needed", "necessary", "required", "notig", "necessaire", "necesario", "necesaria", "necessario", "necessaria"];
/// Words of throwing away, and those of a case: "discard if it ferments" tells of nothing that is done.
const DISCARD: &[&str] =
    &["discard", "throw", "bin", "wegwerfen", "entsorgen", "jeter", "jetez", "tirar", "desechar", "buttare"];
const IN_CASE: &[&str] = &["if", "when", "once", "wenn", "fall", "sobald", "si", "se", "quand", "cuando", "quando"];
/// Words behind a thing that only lends its size, shape or colour ("walnut-sized").
const LIKENESS: &[&str] =
    &["sized", "size", "shaped", "coloured", "colored", "yellow", "brown", "flavoured", "flavored", "like", "grosse"];
/// What is done to fruit so that its stones are out: "stone the cherries", never "crush the stone".
const STONING: &[&str] = &["stone", "pit"];
/// What a twist of peel gives is pressed out of it, and no oil out of a bottle.
const EXPRESSING: &[&str] = &["express", "twist", "spritz", "presse", "exprimer", "exprimir", "esprimere"];
/// Words that stand behind a verb and before its thing.
const DETERMINERS: &[&str] = &["the", "your", "all", "them", "each"];

/// Verbs of heating.
const HEATING: &[&str] = &[
    "simmer",
    "boil",
    "heat",
    "cook",
    "microwave",
    "kochen",
    "aufkochen",
    "erhitzen",
    "kocheln",
    "bouillir",
    "mijoter",
    "chauffer",
    "hervir",
    "calentar",
    "cocer",
    "bollire",
    "scaldare",
    "cuocere",
    "sobbollire",
];
/// Words with which another thing is done.
const NEXT: &[&str] = &["add", "cool", "pour", "stir", "then", "into", "before", "without", "until"];

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
        let has = |list: &[&str]| words.iter().any(|word| list.contains(&word.text.as_str()));
        let is_of_a_fault = has(DISCARD) && has(IN_CASE);
        for row in METHOD.iter().filter(stands) {
            says.meets.extend(row.tag);
            if is_of_a_fault {
                continue;
            }
            if row.sure { says.done.extend(row.process) } else { says.perhaps.extend(row.process) }
        }
    }
    says
}

/// The words of each clause that are not forbidden and not about cleaning.
pub(crate) fn told_clauses(text: &str) -> Vec<Vec<String>> {
    let texts = |words: Vec<NameWord>| words.into_iter().map(|word| word.text).collect::<Vec<_>>();
    let all = clauses(text).into_iter().map(|clause| texts(not_forbidden(name_words(clause.text))));
    all.filter(|words| !words.iter().any(|word| CLEANING.contains(&word.as_str()))).collect()
}

/// Whether a text tells that a thing of this name is heated: "simmer the vodka with the spices", never "boil the water and
/// add the vodka".
pub(crate) fn heats(text: &str, name: &[String]) -> bool {
    /// So many words at the most stand between the verb and its thing.
    const REACH: usize = 5;
    told_clauses(text).iter().any(|words| {
        let verbs = words.iter().enumerate().filter(|(_, word)| HEATING.contains(&word.as_str()));
        verbs.into_iter().any(|(at, _)| {
            let behind = words.iter().skip(at + 1).take(REACH);
            let its: Vec<&String> = behind.take_while(|word| !NEXT.contains(&word.as_str())).collect();
            name.iter().any(|wanted| its.contains(&wanted))
        })
    })
}

/// Whether a text tells of heating, whatever is heated.
pub(crate) fn heats_all(text: &str) -> bool {
    told_clauses(text).iter().flatten().any(|word| HEATING.contains(&word.as_str()))
}

/// The words that no other forbids; of the forbidden ones nothing is left but a gap.
fn not_forbidden(words: Vec<NameWord>) -> Vec<NameWord> {
    let is_in = |list: &[&str], word: &NameWord| list.contains(&word.text.as_str());
    if words.iter().any(|word| is_in(FORBID_ALL, word)) {
        return Vec::new();
    }
    let needless = words.windows(2).any(|pair| is_in(FORBID, &pair[0]) && is_in(NEEDED, &pair[1]));
    if needless {
        return Vec::new();
    }
    let words = without_likeness(words);
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

/// The words of a clause without those that only lend a likeness ("as smooth as butter", "copper-coloured"), and without the
/// verbs that take stones out.
fn without_likeness(words: Vec<NameWord>) -> Vec<NameWord> {
    let text = |place: Option<usize>| place.and_then(|place| words.get(place)).map_or("", |word| word.text.as_str());
    let is_pressed = words.iter().any(|word| EXPRESSING.contains(&word.text.as_str()));
    let only_likens = |place: usize| {
        let (before, after) = (text(place.checked_sub(1)), text(Some(place + 1)));
        let compared = before == "as" && place >= 3 && text(Some(place - 3)) == "as";
        let stones =
            STONING.contains(&text(Some(place))) && DETERMINERS.contains(&after) && !DETERMINERS.contains(&before);
        let halved = text(Some(place)) == "half" && (after == "of" || DETERMINERS.contains(&after));
        compared || stones || halved || LIKENESS.contains(&after) || is_pressed && text(Some(place)) == "oil"
    };
    let gaps: Vec<bool> = (0..words.len()).map(only_likens).collect();
    let gap = |word: NameWord, is_gap: bool| if is_gap { NameWord { text: String::new(), denied: true } } else { word };
    words.into_iter().zip(gaps).map(|(word, is_gap)| gap(word, is_gap)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::Allergen;

    #[test]
    fn what_is_heated_is_the_thing_of_the_verb() {
        let vodka = ["vodka".to_owned()];
        assert!(heats("Simmer the vodka with the spices over an open flame", &vodka));
        assert!(!heats("Boil the water and add the vodka", &vodka));
        assert!(!heats("Do not heat the vodka", &vodka));
        assert!(!heats("Boil the sugar, cool, then the vodka", &vodka));
    }

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
            "Discard if it ferments",
            "Champagne yeast is not needed",
            "Stone the cherries",
            "Halve and stone the plums",
            "A walnut-sized piece, as smooth as butter",
            "Until copper-coloured",
            "Mit der digitalen Waage abwiegen",
            "Peser sur la balance digitale",
        ] {
            assert_eq!(read(nothing), StepSays::default(), "{nothing}");
        }
        assert!(read("Charge it in a cream whipper with half the gas").found.allergens.is_empty());
        assert!(!read("Express the orange oil over the glass").found.tags.contains(&Tag::EssentialOil));
        assert!(read("Add 2 g of orange oil").found.tags.contains(&Tag::EssentialOil));
        assert!(read("Crush the stones of the cherries").meets.contains(&Tag::StoneFruitKernel));
        assert!(read("Discard the yeast when it has fermented").perhaps.is_empty());
        assert!(read("Discard the foxglove when it is soft").found.tags.contains(&Tag::ToxicPlant));
        assert!(read("Do not boil the hemlock for long").found.tags.contains(&Tag::ToxicPlant));
    }
}
