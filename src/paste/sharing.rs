//! A part of which some goes in before the straining and the rest behind it: "half the sugar … the rest of the sugar".

use crate::units::display::short;
use crate::units::{Literal, in_grams, in_millilitres};

use super::draft::{DraftLine, DraftPart, Remark};
use super::names::Names;
use super::speaks::names_it;
use super::strains::Piece;
use super::words::WordList;

/// So many words behind the share its part is named (ours): "half of the caster sugar".
const MOST_BETWEEN: usize = 5;

/// The share that goes in first and the one that goes in behind it, of a part that both name; `None` where nothing is shared.
pub(super) fn shared(
    part: &DraftPart,
    before: &[&Piece<'_>],
    after: &[&Piece<'_>],
    names: Names<'_>,
) -> Option<SharedPart> {
    let is_rest = |piece: &&&Piece<'_>| {
        let words: Vec<&str> = piece.text.split_whitespace().collect();
        let rest = words.iter().position(|word| WordList::Rest.has(word) || share_of(word, None).is_some());
        let Some((front, behind)) = rest.and_then(|at| words.split_at_checked(at)) else { return false };
        // "el vino restante"
        let noun = front.last().is_some_and(|noun| names_it(part.of(), noun));
        noun || is_named_soon(part, behind.get(1..).unwrap_or_default())
    };
    after.iter().find(|piece| is_rest(piece))?;
    let share = before.iter().find_map(|piece| {
        let words: Vec<&str> = piece.text.split_whitespace().collect();
        words.iter().enumerate().find_map(|(at, word)| {
            let share = share_of(word, at.checked_sub(1).and_then(|at| words.get(at)).copied())?;
            is_named_soon(part, words.get(at + 1..)?).then_some(share)
        })
    });
    let shares = share.and_then(|share| {
        let (amount, unit) = match names.reads(part.amount.as_deref()?) {
            Ok(Literal::Mass(mass)) => (in_grams(mass), "g"),
            Ok(Literal::Volume(volume)) => (in_millilitres(volume), "ml"),
            _ => return None,
        };
        Some([share, 1.0 - share].map(|share| format!("{} {unit}", short(amount * share).replace(',', ""))))
    });
    Some(match shares {
        Some(shares) => SharedPart::Told(shares.map(|amount| {
            let said =
                Remark::Assumed(format!("of {}, as the steps share it", part.amount.as_deref().unwrap_or_default()));
            let remarks = part.remarks.iter().cloned().chain([said]).collect();
            DraftPart { amount: Some(amount), remarks, ..part.clone() }
        })),
        None => {
            let asks = "how much of it goes in before it is strained, and how much behind? a line each";
            SharedPart::Asked(DraftLine::question(part.of(), asks))
        }
    })
}

/// What becomes of a part that is shared.
pub(super) enum SharedPart {
    Told([DraftPart; 2]),
    Asked(DraftLine),
}

/// "Half", "a third", "two thirds".
fn share_of(word: &str, before: Option<&str>) -> Option<f64> {
    let times = if before.is_some_and(|word| word.eq_ignore_ascii_case("two")) { 2.0 } else { 1.0 };
    match word.to_lowercase().as_str() {
        "half" => Some(0.5),
        "third" | "thirds" => Some(times / 3.0),
        "quarter" | "quarters" => Some(0.25),
        _ => WordList::Half.has(word).then_some(0.5),
    }
}

fn is_named_soon(part: &DraftPart, words: &[&str]) -> bool {
    let small = |word: &&&str| WordList::Of.has(word) || WordList::Article.has(word) || matches!(**word, "of" | "the");
    let behind: Vec<&str> = words.iter().skip_while(small).take(MOST_BETWEEN).copied().collect();
    let until = behind.iter().position(|word| WordList::And.has(word) || WordList::Into.has(word));
    names_it(part.of(), &behind.get(..until.unwrap_or(behind.len())).unwrap_or_default().join(" "))
}
