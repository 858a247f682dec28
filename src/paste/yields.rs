//! How much the amounts below or above are for: "Per litre of tomato water:", "Für 2 Liter:", "Total 100 %".

use crate::units::Literal;

use super::draft::{DraftLine, DraftStage, Remark};
use super::names::Names;
use super::part::{PartSaid, part};
use super::words::WordList;

/// What a line above a list says its amounts are for.
pub(super) struct ForSize {
    pub size: String,
    /// Of what, where that is no line of the list: "per kg of olives".
    pub of: Option<String>,
}

/// "Per litre:", "For 1 L:", "Pour 1 L :", "Für 2 Liter:", "Per kg of olives:", "Dosi per 1 litro", "Zutaten für 1 Liter".
pub(super) fn for_size(text: &str, names: Names<'_>) -> Option<ForSize> {
    let list = text.split_once(' ').filter(|(list, _)| WordList::Body.has_singular(&list.to_lowercase()));
    let bare = match list {
        Some((_, rest)) => rest.trim_end_matches(':').trim(),
        None => text.strip_suffix(':')?.trim(),
    };
    let (first, rest) = bare.split_once(' ')?;
    let is_small = |word: &&str| WordList::About.has(word) || WordList::Each.has(word);
    let words: Vec<&str> = rest.split(' ').filter(|word| !is_small(word)).collect();
    if !(WordList::MakesFor.has(first) || WordList::Each.has(first)) {
        return None;
    }
    let is_size = |size: &String| matches!(names.reads(size), Ok(Literal::Volume(_) | Literal::Mass(_)));
    let (size, behind) = (1..=words.len()).rev().find_map(|n| {
        let said = words.get(..n)?.join(" ");
        let one = format!("1 {said}");
        [said, one].into_iter().find(is_size).map(|size| (size, n))
    })?;
    let of = words.get(behind..)?.join(" ").replace("d'", "").replace("d’", "");
    let is_joint = |word: &&str| WordList::Of.has(word) || WordList::Article.has(word) || matches!(*word, "of" | "the");
    let of = of.split(' ').skip_while(is_joint).collect::<Vec<_>>().join(" ");
    Some(ForSize { size, of: Some(of).filter(|of| !of.is_empty()) })
}

/// What a size above the list is of goes in as its first part; where it is of the whole, the line that says how much is made.
pub(super) fn put(text: &str, found: ForSize, stage: &mut DraftStage, names: Names<'_>) -> Option<String> {
    let Some(of) = found.of else { return Some(format!("makes: {}", found.size)) };
    match part(&format!("{} {of}", found.size), names) {
        PartSaid::Part(mut part) => {
            part.remarks.push(Remark::Assumed(format!("the recipe says \"{text}\"")));
            stage.parts.push(part);
        }
        _ => stage.asked.push(DraftLine::question(text, "how much of it, or is it a step?")),
    }
    None
}

/// What the sum of a list says: how much all of it is, or nothing more than that it is all.
pub(super) enum SumSaid {
    Size(String),
    Whole,
}

/// "Total 100 %", "Total: 1.2 kg", "Summe 2 l".
pub(super) fn sum(text: &str, names: Names<'_>) -> Option<SumSaid> {
    let (first, rest) = text.split_once([' ', ':'])?;
    let size = rest.trim_start_matches([' ', ':', '=']).trim();
    match names.reads(size).ok().filter(|_| WordList::Sum.has(first))? {
        Literal::Percent(_) => Some(SumSaid::Whole),
        Literal::Volume(_) | Literal::Mass(_) => Some(SumSaid::Size(size.to_owned())),
        _ => None,
    }
}
