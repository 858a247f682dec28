//! Whether a clause of the method heats, and how far it says that something is boiled down: "until 750 ml are left", "reduce by half".

use crate::units::told::{Clause, first_told};
use crate::units::{Literal, is_container};

use super::draft::Remark;
use super::words::WordList;

pub(super) fn is_heated(text: &str) -> bool {
    let kept: Vec<&str> = text.split_whitespace().collect();
    if is_let_down(&kept) {
        let others = kept.into_iter().filter(|word| !WordList::Reduce.within(word)).collect::<Vec<_>>().join(" ");
        return is_heated(&others);
    }
    [WordList::Heat, WordList::Simmer, WordList::Boil, WordList::Reduce].into_iter().any(|list| list.within(text))
}

/// "Réduire à 30 % vol avec de l'eau": let down to a strength with water, and not boiled.
fn is_let_down(words: &[&str]) -> bool {
    let Some(at) = words.iter().position(|word| WordList::Reduce.within(word)) else { return false };
    let is_percent = |place: usize| {
        let said = |place: usize| words.get(place).copied().unwrap_or_default();
        let number = said(place).trim_end_matches('%');
        let is_number = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ','));
        is_number && (said(place).ends_with('%') || said(place + 1).starts_with('%'))
    };
    let is_to = |place: usize| WordList::DownTo.has(words[place]) && is_percent(place + 1);
    let with = words.iter().position(|word| WordList::RinsedWith.has(word));
    let is_water = |word: &&str| WordList::Water.within(word);
    // "auf 30 % reduzieren" has its verb at the end
    (at.saturating_sub(MOST_BEFORE)..words.len()).any(is_to)
        && with.and_then(|with| words.get(with + 1..)).is_some_and(|behind| behind.iter().any(is_water))
}

/// So many words at the most stand between the strength and a verb at its end (ours).
const MOST_BEFORE: usize = 6;

/// What steamed off of a pan in which something is boiled down; the size that it is boiled down to finds it as well.
pub(super) fn steamed_off(clause: &Clause<'_>) -> Remark {
    let size = size_in(&clause.words).filter(|size| size.starts_with(|c: char| c.is_numeric())).map_or_else(
        String::new,
        |size| {
            let found = format!("makes = \"{size}\" above and evaporated = \"as needed\"");
            format!("; or, where nothing goes in behind it, {found}")
        },
    );
    let weigh = "what steamed off? weigh the pan before and after: [loss] evaporated = \"… %\" of its water";
    Remark::Question(format!("{weigh}{size}"))
}

fn size_in(words: &[&str]) -> Option<String> {
    // "in a 500 ml jar" is no size of what is in it
    first_told(words, |literal| matches!(literal, Literal::Volume(_) | Literal::Mass(_)).then_some(()))
        .map(|(size, ())| size)
        .filter(|size| !is_container(size))
}

/// "Until you have 750 ml", "hasta obtener 750 ml", "bis auf 750 ml".
pub(super) fn until_a_size(words: &[&str]) -> bool {
    let begins = |word: &&str| word.split(['\'', '’']).next().is_some_and(|word| WordList::Until.has(word));
    let until = words.iter().position(begins).and_then(|at| words.get(at + 1..));
    until.is_some_and(|behind| size_in(behind).is_some())
}

/// "Boil the juice to 500 ml", "auf 500 ml einkochen".
fn is_to_a_size(words: &[&str]) -> bool {
    const TO: [&str; 3] = ["to", "auf", "à"];
    let to = words.iter().position(|word| TO.contains(&word.to_lowercase().as_str()));
    let behind = to.and_then(|at| words.get(at + 1..)).unwrap_or_default();
    behind.first().is_some_and(|first| first.starts_with(|c: char| c.is_numeric())) && size_in(behind).is_some()
}

/// "Bubble down to 500 ml", "cook until half is left", "until syrupy"; "make it up to 500 ml with water" is none.
fn boils_down(words: &[&str]) -> bool {
    const SHARES: [&str; 13] = [
        "half", "third", "thirds", "quarter", "quarters", "drittel", "viertel", "tiers", "quart", "tercio", "cuarto",
        "terzo", "quarto",
    ];
    let text = words.join(" ");
    let is_share = |word: &&str| WordList::Half.has(word) || SHARES.contains(word);
    let so_much = || size_in(words).is_some() || words.iter().any(is_share);
    // "pour it down into 250 ml bottles"
    let is_into = |pair: &[&str]| match pair {
        [into, size] => {
            WordList::Into.has(into)
                && !["in", "en"].contains(&into.to_lowercase().as_str())
                && size.starts_with(|c: char| c.is_numeric())
        }
        _ => false,
    };
    let is_filled = || words.windows(2).any(is_into) || WordList::ToppedUp.is_said_in(&text);
    // "add the remaining 200 ml", "bring the rum down with the water"
    // "bring" alone heats nothing
    let is_cooked = || is_heated(&text.to_lowercase().replacen("bring ", "", 1));
    let is_said_of_more = |pair: &[&str]| match pair {
        [the, remaining] => {
            the.eq_ignore_ascii_case("the") && remaining.eq_ignore_ascii_case("remaining")
                || !is_cooked() && the.eq_ignore_ascii_case("down") && WordList::RinsedWith.has(remaining)
        }
        _ => false,
    };
    // "let it down with a splash of the wine" makes it thinner
    let is_let = || {
        let with = |pair: &[&str]| pair[0].eq_ignore_ascii_case("down") && WordList::RinsedWith.has(pair[1]);
        words.iter().any(|word| word.eq_ignore_ascii_case("let")) && words.windows(2).any(with)
    };
    let is_left = WordList::Down.within(&text)
        && !is_let()
        && !WordList::ASide.is_said_in(&text)
        && so_much()
        && !is_filled()
        && !words.windows(2).any(is_said_of_more);
    // "boil until it has lost a third"
    let is_lost = || WordList::Loses.within(&text) && words.iter().any(is_share);
    is_left
        || is_heated(&text) && is_lost()
        || is_heated(&text)
            && (WordList::Thick.within(&text) || (until_a_size(words) || is_to_a_size(words)) && !is_filled())
}

/// "Reduce the juice by half"; what reduces the heat reduces nothing else.
pub(super) fn is_reduced(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    boils_down(&words) || is_word_of_reducing(&words)
}

fn is_word_of_reducing(words: &[&str]) -> bool {
    // "so that nothing evaporates"
    let mut before = words.iter().take_while(|word| !WordList::Reduce.within(word));
    let is_denied = before.any(|word| WordList::Unless.has(word));
    let mut behind = words.iter().skip_while(|word| !WordList::Reduce.within(word)).skip(1);
    let next = behind.find(|word| !WordList::Article.has(word) && !word.eq_ignore_ascii_case("the"));
    // "until reduced to no lumps"
    let mut behind_it = words.iter().skip_while(|word| !WordList::Reduce.within(word)).skip(1).take(2);
    let is_denied = is_denied || behind_it.any(|word| WordList::Unless.has(word));
    const OF_NO_PAN: [&str; 8] = ["heat", "flame", "temperature", "feu", "hitze", "strength", "proof", "speed"];
    let is_of_heat = |word: &&str| OF_NO_PAN.contains(&word.to_lowercase().as_str());
    let reduces = words.iter().any(|word| WordList::Reduce.within(word)) && !is_let_down(words);
    reduces && !is_denied && !next.is_some_and(is_of_heat)
}
