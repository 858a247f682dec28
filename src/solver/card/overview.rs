//! A card that cannot be solved for what is wrong with its text: what else is wrong with it, all in one run.

use crate::card::{Card, unread_parts};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house::House;

use super::super::Solved;
use super::cook::{Cook, Options};

/// What the larder and the amounts that could be read show to be wrong: names that nothing has, pieces that nobody has
/// weighed, solids of which nobody knows what they hold; and, where every part could be read, a size that cannot be.
pub(crate) fn faults(card: &Card, house: &House) -> Vec<Diagnostic> {
    let mut cook = Cook::new(card, house);
    let unread = unread_parts(card);
    let _ = cook.card(card, &Options::default());
    let mut beside = Solved::begun(card, Vec::new());
    for name in &unread {
        if let Err(Some(why)) = cook.look_for(card, name, &mut beside) {
            cook.found.push(why);
        }
    }
    let of_card = |d: &Diagnostic| d.file.is_none() && is_independent(d.code, unread.is_empty());
    let of_others = |d: &Diagnostic| d.file.is_some() && d.severity == Severity::Error;
    let found = cook.found.into_iter().filter(|d| of_card(d) || of_others(d));
    found.map(|d| d.in_file(&card.file)).collect()
}

/// Whether it is so whatever else of the card could not be read.
fn is_independent(code: Code, all_parts: bool) -> bool {
    match code {
        Code::UnknownIngredient
        | Code::HoldsUnknown
        | Code::PieceUnknown
        | Code::DensityUnknown
        | Code::InnerCard
        | Code::CardCycle
        | Code::CardDepth
        | Code::OwnPart => true,
        Code::YieldImpossible | Code::YieldLower => all_parts,
        _ => false,
    }
}
