//! Shares beside amounts: "1000 ml orange juice, citric acid 3.2 %". A card takes a share of the finished weight, and a recipe may
//! mean one of the juice: that is a tenth more of an acid, and nobody but the maker knows.

use crate::input::key;
use crate::units::display::short;
use crate::units::{Literal, in_grams, in_millilitres};

use super::draft::{Draft, DraftPart, Remark};
use super::names::Names;
use super::words::WordList;

pub(super) fn asked(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    for stage in draft.stages.iter_mut().chain([&mut draft.last]) {
        let size = |part: &DraftPart| match names.reads(part.amount.as_deref()?) {
            Ok(Literal::Mass(mass)) => Some((in_grams(mass), "of 100 g")),
            Ok(Literal::Volume(volume)) => Some((in_millilitres(volume), "in 100 ml")),
            _ => None,
        };
        let sized = stage.parts.iter().filter_map(|part| Some((part.of().to_owned(), size(part)?)));
        let Some((of, (whole, unit))) = sized.max_by(|(_, (a, _)), (_, (b, _))| a.total_cmp(b)) else { continue };
        for part in &mut stage.parts {
            let Some(amount) = &part.amount else { continue };
            // "0.5 % of total" is what a card takes it for
            let is_whole = |remark: &Remark| matches!(remark, Remark::Said(said) if WordList::OfAll.is_said_in(said));
            if part.remarks.iter().any(is_whole) {
                continue;
            }
            let Ok(Literal::Percent(share)) = names.reads(amount) else { continue };
            let grams = short(share * whole).replace(',', "");
            let asks = format!(
                "{amount} of what? as it stands, of the finished weight; of the {of} (grams {unit}): {} = \"{grams} g\"",
                key(&part.label)
            );
            part.remarks.push(Remark::Question(asks));
        }
    }
}

/// "Citric acid 3.2 % of the juice": the line without what it is a share of, and that.
pub(super) fn without_whole(line: &str) -> Option<(&str, &str)> {
    let at = line.find('%')? + '%'.len_utf8();
    let (front, whole) = line.split_at_checked(at)?;
    let whole = whole.trim().trim_end_matches('.');
    let mut words = whole.split_whitespace();
    let begins = words.next().is_some_and(|of| of.eq_ignore_ascii_case("of") || WordList::OfThe.has(of));
    // "5 % of gin" is so much gin
    let is_of_it = words.next().is_some_and(|the| the.eq_ignore_ascii_case("the")) || whole.split(' ').count() == 2;
    let is_named = front.trim_start().starts_with(char::is_alphabetic);
    (begins && is_of_it && is_named).then_some((front, whole))
}
