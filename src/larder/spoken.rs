//! A name as people write it, and what they say besides: how it is cut ("ginger, peeled"), how much of it there is
//! ("zest of 8 limes", "1 bottle (70cl) cognac"), by which ratio it is made ("sugar syrup 2:1").

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::{Ingredient, Larder};
use crate::spelling::words;
use crate::units::{Customs, Literal, literal, millilitres};
use crate::vocabulary::table::rows;
use crate::vocabulary::{Portion, Word};

#[derive(Deserialize)]
struct PreparationRow {
    word: String,
    apart: String,
}

/// The words, and whether they are one only in a piece of a name that holds nothing else.
static PREPARATIONS: LazyLock<HashMap<String, bool>> = LazyLock::new(|| {
    let all: Vec<PreparationRow> = rows("preparations.csv", include_str!("data/preparations.csv"));
    all.into_iter().map(|row| (row.word, !row.apart.is_empty())).collect()
});

fn is_preparation(word: &str, apart: bool) -> bool {
    let lower = word.to_lowercase();
    PREPARATIONS.get(lower.as_str()).is_some_and(|only_apart| apart || !only_apart)
}

/// Whether a piece of a name says nothing but how the thing is cut or brought.
pub(crate) fn is_said_apart(piece: &str) -> bool {
    !piece.trim().is_empty() && piece.split_whitespace().all(|word| is_preparation(word, true))
}

/// A line or an amount without the pieces at its end that say how the thing is cut or brought, and those.
pub(crate) fn without_preparation(text: &str) -> (&str, Option<&str>) {
    let mut kept = text;
    while let Some((front, _)) = kept.rsplit_once(", ").filter(|(_, last)| is_said_apart(last)) {
        kept = front;
    }
    let cut = text.get(kept.len()..).map(|cut| cut.trim_start_matches([',', ' '])).filter(|cut| !cut.is_empty());
    (kept, cut)
}

/// The name that is known in one that says more: "fresh ginger" of "ginger (fresh), finely grated". Whatever says what a thing
/// is must be in it: of "vodka (50 %)" there is none where only vodka is known.
pub(crate) fn understood(name: &str, knows: impl Fn(&str) -> bool) -> Option<String> {
    // "Bio-Zitronen" are lemons
    let bare = without_amount(name).replace("Bio-", "Bio ");
    let pieces = without_cut(&bare).replace(['(', ')'], ", ");
    let mut pieces = pieces.split(", ").map(str::trim).filter(|piece| !piece.is_empty());
    let head = pieces.next()?;
    let mut ratio = None;
    let mut told = Vec::new();
    let mut head = taken_of(head).unwrap_or_else(|| head.to_owned());
    // a juice is the same juice once it has run through a sieve; "strained yogurt" is another thing
    let is_sieved = |head: &str, piece: &str| {
        let is_juice = head.rsplit(' ').next().is_some_and(|last| last.eq_ignore_ascii_case("juice"));
        is_juice && piece.split_whitespace().all(|word| SIEVED.contains(&word.to_lowercase().as_str()))
    };
    let says_more = |piece: &&str| !is_said_apart(piece) && !is_how_many(piece) && !is_sieved(&head, piece);
    let pieces: Vec<&str> = pieces.filter(says_more).collect();
    for piece in pieces {
        match (ratio_in(piece), piece.strip_suffix(" of").filter(|part| is_taken(part))) {
            (Some((found, rest)), _) if rest.is_empty() => ratio = Some(found),
            // "orange, juice of"
            (_, Some(part)) => head = format!("{head} {part}"),
            _ => told.push(piece),
        }
    }
    let head = match ratio_in(&head) {
        Some((found, rest)) if ratio.is_none() => {
            ratio = Some(found);
            rest
        }
        _ => head,
    };
    let told = told.join(" ");
    let with_ratio = |thing: String| match &ratio {
        Some(ratio) => vec![format!("{ratio} {thing}"), format!("{thing} {ratio}")],
        None => vec![thing],
    };
    let orders = [format!("{told} {head}"), format!("{head} {told}")];
    let kept = |name: &str| {
        let kept =
            name.split_whitespace().filter(|word| !is_preparation(word, false) && !word.eq_ignore_ascii_case("and"));
        kept.collect::<Vec<_>>().join(" ")
    };
    let plain = orders.iter().map(|one| one.trim().to_owned());
    let cut = orders.iter().map(|one| kept(one));
    plain.chain(cut).flat_map(with_ratio).find(|one| *one != name && !one.is_empty() && knows(one))
}

/// "Zitronen in Scheiben", "limones en rodajas": the name without how it is cut, where a small word joins that to it.
fn without_cut(name: &str) -> &str {
    let joints = name.match_indices(' ').filter_map(|(at, _)| name.split_at_checked(at));
    let is_cut = |behind: &str| {
        let mut words = behind.split_whitespace();
        words.next().is_some_and(|joint| ["in", "into", "en", "a", "à"].contains(&joint))
            && words.clone().next().is_some()
            && words.all(|word| is_preparation(word, false))
    };
    joints.into_iter().find(|(_, behind)| is_cut(behind)).map_or(name, |(front, _)| front)
}

/// "2:1 sugar syrup" of "sugar syrup 2:1 by weight": the ratio, and what is left of the name.
fn ratio_in(name: &str) -> Option<(String, String)> {
    let is_share = |share: &str| !share.is_empty() && share.chars().all(|c| c.is_ascii_digit() || c == '.');
    let is_ratio = |word: &str| word.split_once(':').is_some_and(|(of, to)| is_share(of) && is_share(to));
    let words: Vec<&str> = name.split_whitespace().collect();
    let at = words.iter().position(|word| is_ratio(word))?;
    let (front, behind) = (words.get(..at)?, words.get(at + 1..)?);
    // by volume it is another syrup
    let behind = match behind {
        [by, of, rest @ ..] if by.eq_ignore_ascii_case("by") && ["weight", "mass"].contains(of) => rest,
        behind => behind,
    };
    Some(((*words.get(at)?).to_owned(), [front, behind].concat().join(" ")))
}

const SIEVED: [&str; 5] = ["strained", "fine-strained", "sieved", "filtered", "double-strained"];

/// Whether a word is of what is taken of a fruit.
fn is_taken(part: &str) -> bool {
    matches!(part.to_lowercase().as_str(), "juice" | "zest" | "peel" | "rind" | "peels" | "zests")
}

/// "1 tin", "2 large", "400 g": how many or how much of it there is, which changes nothing of what it is.
fn is_how_many(piece: &str) -> bool {
    let read = literal::parse(piece).ok();
    let is_amount = matches!(read, Some(Literal::Mass(_) | Literal::Volume(_) | Literal::Pieces(_)));
    let counted = piece.split_once(' ').filter(|(number, _)| matches!(literal::parse(number), Ok(Literal::Number(_))));
    is_amount || counted.is_some_and(|(_, of)| Portion::parse(&of.to_lowercase()).is_some() || is_said_apart(of))
}

/// "lime zest" of "zest of 8 limes".
pub(crate) fn taken_of(name: &str) -> Option<String> {
    let of: Vec<&str> = name.split_whitespace().collect();
    let at = of.iter().position(|word| ["of", "from"].contains(word))?;
    let part = of.get(at.checked_sub(1)?)?.to_lowercase();
    let before = of.get(..at - 1)?;
    if !is_taken(&part) || !before.iter().all(|word| is_preparation(word, true)) {
        return None;
    }
    let rest = of.get(at + 1..)?;
    // "juice of the 4 grapefruit"
    let rest = if rest.first().is_some_and(|word| *word == "the") { rest.get(1..)? } else { rest };
    let count = (0..rest.len()).rev().find(|&n| {
        let number = rest.get(..n).map(|number| literal::parse(&number.join(" ")));
        n == 0 || matches!(number, Some(Ok(Literal::Number(_))))
    })?;
    let thing = rest.get(count..).unwrap_or_default().iter().filter(|word| !["the", "a", "an"].contains(word));
    let thing = thing.copied().collect::<Vec<_>>().join(" ");
    (!thing.is_empty()).then(|| format!("{} {}", words(&thing).join(" "), words(&part).join(" ")))
}

/// The name without an amount that it begins with: "cognac" of "1 bottle (70cl) cognac".
fn without_amount(name: &str) -> &str {
    const MOST_WORDS: usize = 6;
    if !name.starts_with(|c: char| c.is_ascii_digit()) {
        return name;
    }
    // which size a bottle has changes nothing of what is in it
    let customs = Customs { bottle: Some(millilitres(700.0)), ..Customs::default() };
    let ends: Vec<usize> = name.char_indices().filter(|(_, c)| *c == ' ').map(|(at, _)| at).take(MOST_WORDS).collect();
    let is_amount = |end: &usize| {
        let read = name.get(..*end).map(|amount| literal::read_by(amount, &customs).map(|read| read.literal));
        matches!(read, Some(Ok(Literal::Mass(_) | Literal::Volume(_) | Literal::Bottles(..))))
    };
    let Some(end) = ends.into_iter().rev().find(is_amount) else { return name };
    let rest = name.get(end..).unwrap_or_default().trim();
    rest.strip_prefix("of ").unwrap_or(rest)
}

impl Larder {
    /// What a name counts by itself, and by what: leaves of "bay leaf", sprigs of "mint sprigs", pieces of "star anise".
    pub(crate) fn counted(&self, name: &str) -> Option<(&Ingredient, Portion)> {
        let thing = self.find(name).or_else(|| self.find(&understood(name, |known| self.find(known).is_some())?));
        match thing {
            Some(thing) => Some((thing, thing.counted_as(name)?)),
            None => self.of_portion(name),
        }
    }

    /// The thing in "mint sprigs", and the portion, where the larder knows what one of them weighs.
    pub(crate) fn of_portion(&self, name: &str) -> Option<(&Ingredient, Portion)> {
        let (thing, last) = name.trim().rsplit_once(' ')?;
        let portion = Portion::parse(&last.to_lowercase())?;
        let thing = self.find(thing).filter(|thing| thing.portion(portion).is_some())?;
        Some((thing, portion))
    }
}

impl Ingredient {
    /// The portion that a name says by its last word ("bay leaf", "lime zest"), else a piece; none where nobody knows what
    /// one weighs.
    pub(crate) fn counted_as(&self, name: &str) -> Option<Portion> {
        let said = words(name).pop().and_then(|last| Portion::parse(&last));
        let is_piece = self.piece.is_some() || self.portion(Portion::Piece).is_some();
        said.filter(|portion| self.portion(*portion).is_some()).or_else(|| is_piece.then_some(Portion::Piece))
    }
}
