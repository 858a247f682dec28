//! What a step puts in that no line of the list has: "Add 350 ml orange juice", "simmer 4 cinnamon sticks in the water".

use crate::input::{key, quoted};
use crate::spelling::{fold, words};
use crate::units::told::{Clause, clauses};
use crate::units::{Literal, in_grams, in_millilitres};

use super::alike::{alike, near};
use super::amount_in_step::{InStep, told_at};
use super::diluted::diluted;
use super::draft::{Draft, DraftLine, DraftPart, Remark};
use super::method::all_steps;
use super::more_in_step::more_of_list;
use super::named_in_step::{named_alone, sweetened};
use super::names::Names;
use super::of_nobody::{of_nobody, smoked_with};
use super::ordinary::{is_one, is_vessel};
use super::parted::asked_of;
use super::putting::{ends_in_pair, ends_in_verb, is_small, is_verbless, puts_in, without_what_follows};
use super::served::is_served;
use super::share::{is_for_each, share};
use super::size_alone::{loss_told, ratio_alone, size_alone, strength_alone};
use super::speaks::names_it;
use super::strains::strains;
use super::words::WordList;

/// Where a step only names it, it is asked.
pub(super) fn poured_in(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    // a recipe without a list has its parts in its sentences
    let is_prose = !draft.is_typed && draft.stages.is_empty() && draft.last.parts.is_empty();
    let mut all_told = Vec::new();
    let mut before = String::new();
    for step in all_steps(draft) {
        let (mut adds, mut of_each) = (false, None);
        let mut all = clauses(&step);
        if draft.is_typed {
            all = all.into_iter().map(without_what_follows).collect();
        }
        let at_the_guest = |at: usize| draft.is_typed && is_served(&all, at);
        let told = all.iter().enumerate().filter(|(at, _)| !at_the_guest(*at)).flat_map(|(at, clause)| {
            let ends = ends_in_verb(&all, at) || draft.is_typed && is_verbless(&all, at);
            let elsewhere = |word: &&str| WordList::NotPutIn.within(word) && !(is_prose && WordList::Gathers.has(word));
            let is_taken = clause.words.iter().any(elsewhere) && !WordList::EveryBottle.is_said_in(clause.text);
            let is_sure = !is_taken && !WordList::AsLiked.is_said_in(clause.text);
            let put = put_into_each(clause).filter(|_| draft.is_typed);
            let ends = ends || put.is_some();
            let text = put.as_deref().unwrap_or(clause.text);
            one_by_one(text).into_iter().map(move |piece| (ends, is_sure, piece))
        });
        for (ends, is_sure, PieceOfClause { joint, text: clause }) in told {
            let is_share = is_for_each(&clause, names);
            // "to each litre of juice, add 600 g sugar and 10 g citric acid"
            let whole = of_each.as_ref().map_or_else(|| clause.clone(), |front| format!("{front}, {clause}"));
            match share(&whole, names) {
                // the list may have asked it before
                Some(asks) if is_asked(draft, &asks) || is_given(draft, &asks) => {}
                Some(asks) => draft.last.asked.push(DraftLine::question(&whole, asks)),
                None if is_share || of_each.is_some() => {}
                None => match diluted(&clause, names) {
                    // "dilute with the water"; "dilute to 15 % with the water" ends at what its line need not make
                    Some(told) if told.is_of_list(&clause, draft, names) => {
                        all_told.extend(strength_alone(&clause, draft, names).map(SaidAmount::Open));
                    }
                    Some(told) => draft.last.asked.push(DraftLine::question(&clause, told.asks)),
                    None => {
                        let (told, left);
                        (told, left, adds) = named_in(&clause, (adds, ends, joint, is_sure), names);
                        // "steep the peel in a litre of vodka" is no place where there is no list
                        let told = if is_prose && is_sure { all_sure(told, names) } else { told };
                        let told_one = told.len();
                        // "réduire à 15 % avec de l'eau": some water takes no strength of it away
                        let is_sized = told.iter().any(SaidAmount::is_sized);
                        all_told.extend(told);
                        draft.last.loss.extend(loss_told(&clause));
                        if told_one == 0 {
                            let mut asked = named_alone(&left, ends, draft, names);
                            asked.extend(sweetened(&left, draft, names));
                            if draft.is_typed {
                                asked.extend(smoked_with(&left, names).or_else(|| of_nobody(&left)));
                            }
                            adds |= !asked.is_empty();
                            all_told.extend(asked.into_iter().map(SaidAmount::Open));
                        }
                        if told_one == 0 && draft.is_typed {
                            let asked = more_of_list(&clause, draft, names);
                            all_told.extend(asked.map(SaidAmount::Open));
                        }
                        let is_place = joint == Some(Joint::Place) && told_one == 0;
                        let open = Some(())
                            .filter(|()| !is_place)
                            .and_then(|()| size_alone(&left, &before, draft, names))
                            .or_else(|| ratio_alone(&left, draft, names))
                            .or_else(|| strength_alone(if is_sized { &left } else { &clause }, draft, names));
                        all_told.extend(open.map(SaidAmount::Open));
                    }
                },
            }
            if is_share {
                of_each = Some(clause.clone());
            }
            before = clause;
        }
    }
    let whole = whole_in_steps(&all_told, draft, names);
    for told in all_told {
        match told {
            SaidAmount::Amount { found, .. } if whole.contains(&fold(&found.name)) => {}
            SaidAmount::Amount { found, is_added, is_sure } => {
                put(found, (is_added || is_prose && is_sure, is_sure), draft, names);
            }
            SaidAmount::Open(line) => draft.last.asked.push(line),
        }
    }
}

/// "In jede Flasche eine Knoblauchzehe geben": what goes there.
fn put_into_each(clause: &Clause<'_>) -> Option<String> {
    let (front, behind) = WordList::IntoEvery.round(clause.text)?;
    let words = || front.split_whitespace().chain(behind.split_whitespace());
    let is_placed = |word: &&str| WordList::Placed.has(word.trim_end_matches('.'));
    words().any(|word| is_placed(&word)).then(|| words().filter(|word| !is_placed(word)).collect::<Vec<_>>().join(" "))
}

/// What a step says of how much.
enum SaidAmount {
    Amount { found: InStep, is_added: bool, is_sure: bool },
    Open(DraftLine),
}

impl SaidAmount {
    fn is_sized(&self) -> bool {
        matches!(self, Self::Amount { found, .. } if found.amount.is_some())
    }
}

/// The things of the list of which the steps say, in more than one go, how all of it goes in: 300 ml and 200 ml of 500.
fn whole_in_steps(all: &[SaidAmount], draft: &Draft, names: Names<'_>) -> Vec<String> {
    let size = |amount: &str| match names.reads(amount) {
        Ok(Literal::Mass(mass)) => Some((true, in_grams(mass))),
        Ok(Literal::Volume(volume)) => Some((false, in_millilitres(volume))),
        _ => None,
    };
    let sum_of = |of: &str, is_mass: bool| -> f64 {
        let amounts = all.iter().filter_map(|told| match told {
            SaidAmount::Amount { found, .. } if names.same(of, &found.name) => size(found.amount.as_deref()?),
            _ => None,
        });
        amounts.filter(|(other, _)| *other == is_mass).map(|(_, size)| size).sum()
    };
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let whole = parts.filter(|part| {
        let own = part.amount.as_deref().and_then(size);
        own.is_some_and(|(is_mass, size)| near(sum_of(part.of(), is_mass), size))
    });
    let names_of = |told: &SaidAmount, of: &str| match told {
        SaidAmount::Amount { found, .. } if names.same(of, &found.name) => Some(fold(&found.name)),
        _ => None,
    };
    whole.flat_map(|part| all.iter().filter_map(|told| names_of(told, part.of())).collect::<Vec<_>>()).collect()
}

/// Whether the list has already how much that is.
fn is_given(draft: &Draft, asks: &str) -> bool {
    let mut parts = draft.last.parts.iter().filter(|part| part.amount.is_some());
    parts.any(|part| asks.ends_with(&format!(" {} = \"… g\"", key(&part.label))))
}

fn is_asked(draft: &Draft, asks: &str) -> bool {
    let remarks = draft.last.asked.iter().flat_map(|line| &line.remarks);
    remarks.into_iter().any(|remark| matches!(remark, Remark::Question(asked) if asked.ends_with(asks)))
}

/// What stands in front of a piece of a clause.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Joint {
    AndOrWith,
    /// "In a cloth" may be where it hangs.
    In,
    /// "Put the apricots in a 2 litre Kilner": where they are put.
    Place,
}

#[derive(Default)]
struct PieceOfClause {
    joint: Option<Joint>,
    text: String,
}

/// "Add 800 g sugar and 10 g citric acid", "steep 50 g cloves in 1 L rum" in two, each with its own amount.
fn one_by_one(clause: &str) -> Vec<PieceOfClause> {
    let mut all = vec![PieceOfClause::default()];
    // "20 % dilution (200 ml water)"
    let clause = clause.replace(['(', ')'], " ");
    let mut words = clause.split_whitespace().peekable();
    while let Some(word) = words.next() {
        let begins = |next: &&str| next.starts_with(|c: char| c.is_numeric()) || is_one(next);
        let is_between = WordList::And.has(word) || WordList::Between.has(word);
        match all.last_mut() {
            // "infuse with a sprig of thyme" is one verb
            Some(PieceOfClause { text, .. })
                if !(is_between && words.peek().is_some_and(begins)) || ends_in_pair(text, word) =>
            {
                text.push_str(if text.is_empty() { "" } else { " " });
                text.push_str(word);
            }
            _ => {
                let joins = WordList::And.has(word) || WordList::RinsedWith.has(word);
                let is_put = all.last().is_some_and(|before| WordList::Placed.within(&before.text));
                let joint = match joins {
                    true => Some(Joint::AndOrWith),
                    false if is_put && words.peek().is_some_and(|next| is_one(next)) => Some(Joint::Place),
                    false => Some(Joint::In),
                };
                all.push(PieceOfClause { joint, text: String::new() });
            }
        }
    }
    all
}

/// The amounts of a piece with what they are of, what is left of it, and whether this is put in; `adds` says whether what stood
/// before it in the step was, `ends` that its verb ends its clause, `is_sure` that no verb of its clause takes it elsewhere.
fn named_in(
    piece: &str,
    (adds, ends, joint, is_sure): (bool, bool, Option<Joint>, bool),
    names: Names<'_>,
) -> (Vec<SaidAmount>, String, bool) {
    // "squeeze through a cloth -> 700 g milk" is what it gives
    if piece.contains("->") || piece.contains('→') {
        return (Vec::new(), piece.to_owned(), false);
    }
    let words: Vec<&str> = piece.split_whitespace().collect();
    let mut all = Vec::new();
    let (mut from, mut at, mut adds) = (0, 0, adds);
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let front = words.get(from..at).unwrap_or_default();
        let is_added = ends || puts_in(front) || adds && front.iter().all(is_small);
        let is_joined = joint.is_some() && at == 0;
        let stands_in = matches!(joint, Some(Joint::In | Joint::Place)) && at == 0 && is_one(rest[0]);
        let is_place = |name: &str| joint == Some(Joint::Place) && at <= 1 && !names.knows(name);
        match told_at(front, rest, is_added || is_joined, names) {
            Some((found, long)) if is_place(&found.name) => (from, at) = (at + long, at + long),
            Some((found, long)) => {
                // "an egg whisk"
                let mut next = rest.iter().skip(long).take(2);
                let is_of_tool = next.any(|next| WordList::Thing.has(next) || is_vessel(next));
                let is_sure = is_added || is_sure && !stands_in && !is_of_tool;
                all.push(SaidAmount::Amount { found, is_added, is_sure });
                (from, at, adds) = (at + long, at + long, is_added);
            }
            None => at += 1,
        }
    }
    let left = words.get(from..).unwrap_or_default();
    let adds = if from == 0 { ends || puts_in(left) } else { adds };
    (all, left.join(" "), adds)
}

/// What has a size, and is known, goes in.
fn all_sure(told: Vec<SaidAmount>, names: Names<'_>) -> Vec<SaidAmount> {
    let sure = |told| match told {
        SaidAmount::Amount { found, is_added, is_sure } => {
            let is_so_much = found.amount.as_ref().is_some_and(|amount| !amount.ends_with(" each"));
            let is_sure = is_sure || is_so_much && names.knows(&found.name);
            SaidAmount::Amount { found, is_added, is_sure }
        }
        open => open,
    };
    told.into_iter().map(sure).collect()
}

/// "The rest of the water": what a step says before is some of that of the list.
fn is_rest_told(draft: &Draft, name: &str) -> bool {
    let steps = all_steps(draft);
    let all: Vec<Clause<'_>> = steps.iter().flat_map(|step| clauses(step)).collect();
    all.iter().any(|clause| names_it(name, clause.text) && clause.words.iter().any(|word| WordList::Rest.has(word)))
}

/// What a step has of it goes into the card, or is asked.
fn put(found: InStep, (adds, is_sure): (bool, bool), draft: &mut Draft, names: Names<'_>) {
    let InStep { said, amount, name, asks, is_double } = found;
    let is_of_list = WordList::OfThe.is_said_in(&said) || is_rest_told(draft, &name);
    let all_parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let Some(amount) = amount else {
        let stages = || draft.stages.iter().filter_map(|stage| stage.name.as_deref());
        let is_it = |own: &str| names.same(own, &name) || names_it(own, &name);
        let is_listed = all_parts().any(|part| is_it(part.of()) || is_it(&part.label)) || stages().any(is_it);
        // the list may have asked the same line before
        let is_asked = || draft.last.asked.iter().any(|line| fold(&asked_of(line).label).contains(&fold(&said)));
        if !is_listed || is_double && !is_of_list && !is_asked() {
            let is_unknown = !names.knows(&name);
            draft.last.asked.push(DraftLine { is_guess: !is_sure, is_unknown, ..DraftLine::question(&said, asks) });
        }
        return;
    };
    if let Ok(Literal::Parts(..)) = names.reads(&amount) {
        let asks = "a ratio in a sentence: what it makes is a [[stage]] of its own, and how much of that goes in?";
        draft.last.asked.push(DraftLine::question(&said, asks));
        return;
    }
    // "sit the jar in a bowl of ice"
    if draft.is_typed && WordList::Glass.has_singular(&name) {
        return;
    }
    // "the 12 limes" are those of the list, whatever is taken of them
    let counts = names.weighs_nothing(&amount);
    // "1 litre of rum" where the list has so much dark rum
    let is_short = |part: &DraftPart| {
        let own = words(part.of());
        let is_said = words(&name).iter().all(|word| own.contains(word));
        draft.is_typed && is_said && part.amount.as_deref().is_some_and(|own| alike(own, &amount, names))
    };
    let is_it =
        |part: &&DraftPart| names.same(part.of(), &name) || counts && is_of_same(part.of(), &name) || is_short(part);
    // "cold water" may be other water than that of the list, of the same amount too
    let same = |part: &DraftPart| {
        if is_short(part) {
            return true;
        }
        let is_so_much = part.amount.as_deref().is_some_and(|own| alike(own, &amount, names));
        is_so_much && (!adds || fold(&said).ends_with(&fold(part.of())))
    };
    let of_typed = |part: &DraftPart| draft.is_typed && part.amount.is_none();
    let listed =
        all_parts().filter(is_it).map(|part| counts || same(part) || of_typed(part)).reduce(|one, other| one || other);
    // the list has it without an amount
    let open = |part: &&mut DraftPart| part.amount.is_none() && fold(part.of()) == fold(&name);
    if adds
        && !draft.is_typed
        && let Some(part) = draft.last.parts.iter_mut().find(open)
    {
        part.amount = Some(amount);
        part.remarks.push(Remark::Assumed("so much of it, as a step adds it".to_owned()));
        return;
    }
    let line = match listed {
        // "add 100 ml of cold water", "soak it in 100 ml of hot water" is no word of the water that the list has
        Some(false) if !is_of_list => {
            let label = key(&format!("{name}, more"));
            format!(
                "beside what the list has of it? {label} = {{ of = {}, amount = {} }}",
                quoted(&name),
                quoted(&amount)
            )
        }
        Some(_) => return,
        None if adds && names.knows(&name) => {
            let remarks = vec![Remark::Assumed("a step adds it".to_owned())];
            draft.last.parts.push(DraftPart {
                label: name,
                amount: Some(amount),
                remarks,
                is_added: true,
                ..DraftPart::default()
            });
            return;
        }
        None if names.is_strained_out(&name) && all_steps(draft).iter().any(|step| strains(step)) => {
            format!("{} = {{ amount = {}, strained = true }}", key(&name), quoted(&amount))
        }
        None => format!("{} = {}", key(&name), quoted(&amount)),
    };
    let how_much = if counts { "it".to_owned() } else { format!("{amount} of it") };
    let joint = if listed.is_some() { " " } else { "? " };
    let asks = format!("does {how_much} go in{joint}{line}");
    let line = DraftLine::question(&said, asks);
    let is_change = is_sure && listed.is_some();
    draft.last.asked.push(DraftLine { is_guess: !is_sure, is_unknown: !names.knows(&name), is_change, ..line });
}

/// "The 12 limes" of lime juice, and never the juice of oranges: one name holds all that the other says of what it is.
fn is_of_same(part: &str, name: &str) -> bool {
    let of = |name: &str| -> Vec<String> {
        words(name).into_iter().filter(|word| !WordList::Counted.has(word) && !WordList::Handful.has(word)).collect()
    };
    let (own, said) = (of(part), of(name));
    let holds = |all: &[String], some: &[String]| some.iter().all(|word| all.contains(word));
    names_it(part, name) && (holds(&own, &said) || holds(&said, &own))
}
