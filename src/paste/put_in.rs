//! What a step puts in that no line of the list has: "Add 350 ml orange juice", "simmer 4 cinnamon sticks in the water".

use crate::input::key;
use crate::spelling::fold;
use crate::units::told::{clauses, first_told};
use crate::units::{Literal, literal};

use super::amounts::is_size;
use super::draft::{Draft, DraftLine, DraftPart, Remark};
use super::filled::filled;
use super::method::all_steps;
use super::names::Names;
use super::share::{is_for_each, known, share};
use super::speaks::names_it;
use super::words::WordList;

/// Where a step only names it, it is asked.
pub(super) fn poured_in(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    for step in all_steps(draft) {
        let (mut adds, mut of_each) = (false, None);
        for clause in clauses(&step).iter().flat_map(|clause| one_by_one(clause.text)) {
            let is_share = is_for_each(&clause, names);
            // "to each litre of juice, add 600 g sugar and 10 g citric acid"
            let whole = of_each.as_ref().map_or_else(|| clause.clone(), |front| format!("{front}, {clause}"));
            match share(&whole, names) {
                // the list may have asked it before
                Some(asks) if is_asked(draft, &asks) || is_given(draft, &asks) => {}
                Some(asks) => draft.last.asked.push(DraftLine::question(&whole, asks)),
                None if is_share || of_each.is_some() => {}
                None => match diluted(&clause, names) {
                    Some(asks) => draft.last.asked.push(DraftLine::question(&clause, asks)),
                    None => adds = named_in(&clause, adds, draft, names),
                },
            }
            if is_share {
                of_each = Some(clause);
            }
        }
    }
}

/// "Dilute 1:1 with water": how much that is stands nowhere; what fills up to a size is read elsewhere.
fn diluted(clause: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let has_size = first_told(&words, |literal| is_size(literal).then_some(())).is_some();
    let is_told = WordList::Diluted.within(clause) && !has_size && filled(clause, names).is_none();
    let with = (0..words.len()).filter(|_| is_told).find_map(|at| known(words.get(at..)?, names))?;
    Some(format!("how much of it is that? in a line of its own: {} = \"… ml\"", key(&with)))
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

/// "Add 800 g sugar and 10 g citric acid", "steep 50 g cloves in 1 L rum" in two: each with its own amount.
fn one_by_one(clause: &str) -> Vec<String> {
    const BETWEEN: [&str; 5] = ["and", "in", "with", "into", "+"];
    let mut all = vec![String::new()];
    // "20 % dilution (200 ml water)"
    let clause = clause.replace(['(', ')'], " ");
    let mut words = clause.split_whitespace().peekable();
    while let Some(word) = words.next() {
        let is_next = words.peek().is_some_and(|next| next.starts_with(|c: char| c.is_numeric()));
        match all.last_mut() {
            Some(piece) if !(is_next && BETWEEN.contains(&word)) => {
                piece.push_str(if piece.is_empty() { "" } else { " " });
                piece.push_str(word);
            }
            _ => all.push(String::new()),
        }
    }
    all
}

/// An amount in a clause: as it is written, as a card has it, and of what.
struct PutIn {
    written: String,
    amount: String,
    name: String,
}

/// Reads one amount and its thing; `adds` says whether what stood before it in the step was put in, and the answer
/// whether this is.
fn named_in(clause: &str, adds: bool, draft: &mut Draft, names: Names<'_>) -> bool {
    // "squeeze through a cloth -> 700 g milk" is what it gives
    if clause.contains("->") || clause.contains('→') {
        return false;
    }
    let words: Vec<&str> = clause.split_whitespace().collect();
    let sized = first_told(&words, |literal| is_size(literal).then_some(())).map(|(amount, ())| amount);
    let found = match &sized {
        Some(amount) => measured(&words, amount, names),
        None => counted(&words, names),
    };
    let text = words.join(" ");
    let written = found.as_ref().map(|found| &found.written).or(sized.as_ref());
    let Some(front) = written.and_then(|written| text.split_once(written)).map(|(front, _)| front) else {
        return false;
    };
    let front = front.trim().to_lowercase();
    let verbs = ["add", "stir in", "pour in", "mix in", "whisk in"];
    let adds = adds && front.is_empty() || verbs.iter().any(|end| front.ends_with(end));
    let Some(PutIn { written, amount, name }) = found else { return adds };
    // the list has it without an amount
    let open = |part: &&mut DraftPart| part.amount.is_none() && fold(part.of()) == fold(&name);
    if adds && let Some(part) = draft.last.parts.iter_mut().find(open) {
        part.amount = Some(amount);
        part.remarks.push(Remark::Assumed("so much of it, as a step adds it".to_owned()));
        return adds;
    }
    // "the 12 limes" are those of the list, whatever is taken of them
    let is_it = |part: &DraftPart| fold(part.of()) == fold(&name) || sized.is_none() && names_it(part.of(), &name);
    if draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts).any(is_it) {
        return adds;
    }
    if adds {
        let remarks = vec![Remark::Assumed("a step adds it".to_owned())];
        draft.last.parts.push(DraftPart { label: name, amount: Some(amount), remarks, ..DraftPart::default() });
    } else {
        let asks = format!("does {written} of it go in? {} = \"{amount}\"", key(&name));
        draft.last.asked.push(DraftLine::question(clause, asks));
    }
    adds
}

/// "350 ml of orange juice".
fn measured(words: &[&str], amount: &str, names: Names<'_>) -> Option<PutIn> {
    let text = words.join(" ");
    let (_, behind) = text.split_once(amount)?;
    let name = known(&behind.split_whitespace().collect::<Vec<_>>(), names)?;
    Some(PutIn { written: amount.to_owned(), amount: amount.to_owned(), name })
}

/// "4 cinnamon sticks".
fn counted(words: &[&str], names: Names<'_>) -> Option<PutIn> {
    words.iter().enumerate().find_map(|(at, number)| {
        let is_number = number.starts_with(|c: char| c.is_numeric());
        let name = known(words.get(at + 1..)?, names)?;
        let amount = format!("{number} each");
        let reads = is_number && matches!(literal::parse(number), Ok(Literal::Number(_)));
        let found = PutIn { written: (*number).to_owned(), amount, name };
        (reads && names.refusal(&found.name, &found.amount).is_none()).then_some(found)
    })
}
