//! Whole fruit on the list of which the steps take only the peel, or the juice: "12 lemons", "peel the lemons, steep the peels in
//! the vodka".

use crate::input::key;
use crate::larder::Form;
use crate::spelling::words;
use crate::units::told::clauses;
use crate::vocabulary::Kind;

use super::draft::{Draft, DraftPart, Remark};
use super::names::Names;
use super::speaks::names_it;
use super::words::WordList;

pub(super) fn of_whole_fruit(draft: &mut Draft, steps: &[String], names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    let clauses: Vec<&str> = steps.iter().flat_map(|step| clauses(step)).map(|clause| clause.text).collect();
    let of = |list: WordList| clauses.iter().copied().filter(|clause| list.within(clause)).collect::<Vec<_>>();
    let (peels, juices, is_flesh) = (of(WordList::Peel), of(WordList::Squeezed), !of(WordList::Flesh).is_empty());
    for part in draft.stages.iter_mut().chain([&mut draft.last]).flat_map(|stage| &mut stage.parts) {
        let known = names.house.larder.find(part.of()).filter(|_| part.of.is_none());
        if !known.is_some_and(|known| known.form == Form::Solid && known.kind == Some(Kind::Fruit)) {
            continue;
        }
        let named = |clauses: &[&str]| clauses.iter().any(|clause| names_it(&part.label, clause));
        // "add 100 ml of their juice"
        let is_theirs = named(&peels) && juices.iter().any(|clause| WordList::Same.within(clause));
        if named(&juices) || is_theirs {
            let taken = if named(&peels) { &["juice", "zest"][..] } else { &["juice"] };
            let asked = taken_of(taken, part, names);
            part.remarks.extend(asked);
        } else if named(&peels) && !is_flesh {
            peel_of(part, &peels, names);
        }
    }
}

/// "12 lemons", of which a step takes the juice: what of the rest goes in too, nobody but the maker knows.
fn taken_of(taken: &[&str], part: &DraftPart, names: Names<'_>) -> Option<Remark> {
    let amount = part.amount.as_deref()?;
    let line = |taken: &&str| {
        let name = format!("{} {taken}", words(&part.label).join(" "));
        let counted = counted(amount, taken, part, names).filter(|counted| names.refusal(&name, counted).is_none());
        let amount = counted.unwrap_or_else(|| "… g".to_owned());
        names.knows(&name).then(|| format!("{} = \"{amount}\"", key(&name)))
    };
    let lines: Option<Vec<String>> = taken.iter().map(line).collect();
    Some(Remark::Question(format!("only its {}? then {} in place of it", taken.join(" and "), lines?.join(" and "))))
}

/// "Peel of 12 lemons" of "12 lemons".
fn counted(amount: &str, taken: &str, part: &DraftPart, names: Names<'_>) -> Option<String> {
    let number = amount.split(' ').next().filter(|_| names.weighs_nothing(amount))?;
    Some(format!("{taken} of {number} {}", part.label))
}

fn peel_of(part: &mut DraftPart, of_peel: &[&str], names: Names<'_>) {
    let is_zest = of_peel.iter().any(|clause| clause.to_lowercase().contains("zest"));
    let taken = if is_zest { "zest" } else { "peel" };
    let peel = format!("{} {taken}", words(&part.label).join(" "));
    let Some(amount) = part.amount.as_deref().filter(|_| names.knows(&peel)) else { return };
    match counted(amount, taken, part, names).filter(|counted| names.refusal(&peel, counted).is_none()) {
        Some(counted) => {
            part.remarks.push(Remark::Assumed("only its peel, as the steps have it".to_owned()));
            part.amount = Some(counted);
            part.label = peel;
        }
        None => {
            let asks = format!("only its peel? then {} = \"… g\" in place of it", key(&peel));
            part.remarks.push(Remark::Question(asks));
        }
    }
}
