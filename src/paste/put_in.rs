//! What a step puts in that no line of the list has: "Add 350 ml orange juice", "simmer 4 cinnamon sticks in the water".

use crate::input::{key, quoted};
use crate::larder::Form;
use crate::spelling::fold;
use crate::units::told::{Clause, clauses, first_told};
use crate::units::{Literal, in_grams, in_millilitres};
use crate::vocabulary::Kind;

use super::alike::{alike, near};
use super::amount_in_step::{InStep, is_one, told_at};
use super::amounts::is_size;
use super::beside::is_ratio;
use super::draft::{Draft, DraftLine, DraftPart, Remark};
use super::filled::filled;
use super::method::all_steps;
use super::names::Names;
use super::parted::asked_of;
use super::served::is_served;
use super::share::{is_for_each, known, share};
use super::size_alone::{loss_told, ratio_alone, size_alone, strength_alone, strength_in};
use super::speaks::{names_it, told_in};
use super::strains::Piece;
use super::words::WordList;

/// Where a step only names it, it is asked.
pub(super) fn poured_in(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    let mut all_told = Vec::new();
    let mut before = String::new();
    for step in all_steps(draft) {
        let (mut adds, mut of_each) = (false, None);
        let all = clauses(&step);
        let at_the_guest = |at: usize| draft.is_typed && is_served(&all, at);
        let told = all.iter().enumerate().filter(|(at, _)| !at_the_guest(*at)).flat_map(|(at, clause)| {
            let ends = ends_in_verb(&all, at);
            one_by_one(clause.text).into_iter().enumerate().map(move |(n, piece)| (ends, n > 0, piece))
        });
        for (ends, is_joined, clause) in told {
            let is_share = is_for_each(&clause, names);
            // "to each litre of juice, add 600 g sugar and 10 g citric acid"
            let whole = of_each.as_ref().map_or_else(|| clause.clone(), |front| format!("{front}, {clause}"));
            match share(&whole, names) {
                // the list may have asked it before
                Some(asks) if is_asked(draft, &asks) || is_given(draft, &asks) => {}
                Some(asks) => draft.last.asked.push(DraftLine::question(&whole, asks)),
                None if is_share || of_each.is_some() => {}
                None => match diluted(&clause, names) {
                    // "dilute with the water"
                    Some((with, _)) if is_size_told(draft, &with, names) && !clause.split(' ').any(is_ratio) => {}
                    Some((with, asks)) => {
                        let is_guess = is_size_told(draft, &with, names);
                        draft.last.asked.push(DraftLine { is_guess, ..DraftLine::question(&clause, asks) });
                    }
                    None => {
                        let (told, left);
                        (told, left, adds) = named_in(&clause, (adds, ends, is_joined), names);
                        let told_one = told.len();
                        all_told.extend(told);
                        draft.last.loss.extend(loss_told(&clause));
                        if told_one == 0 {
                            let mut asked = named_alone(&left, ends, draft, names);
                            asked.extend(sweetened(&left, draft, names));
                            adds |= !asked.is_empty();
                            all_told.extend(asked.into_iter().map(SaidAmount::Open));
                        }
                        let open = size_alone(&left, &before, draft, names)
                            .or_else(|| ratio_alone(&left, draft, names))
                            .or_else(|| strength_alone(&left, draft, names));
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
            SaidAmount::Amount { found, is_added } => put(found, is_added, draft, names),
            SaidAmount::Open(line) => draft.last.asked.push(line),
        }
    }
}

/// What a step says of how much.
enum SaidAmount {
    Amount { found: InStep, is_added: bool },
    Open(DraftLine),
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

/// "Dilute 1:1 with water": how much that is stands nowhere; what fills up to a size is read elsewhere.
fn diluted(clause: &str, names: Names<'_>) -> Option<(String, String)> {
    if !WordList::Diluted.within(clause) {
        return cut_with(clause, names);
    }
    let words: Vec<&str> = clause.split_whitespace().collect();
    let has_size = first_told(&words, |literal| is_size(literal).then_some(())).is_some();
    // "dilute to 30 % with water" is a strength
    let has_strength = strength_in(&words, names).is_some();
    let is_told = !has_size && !has_strength && filled(clause, names).is_none();
    let with = (0..words.len()).filter(|_| is_told).find_map(|at| known(words.get(at..)?, names))?;
    let asks = format!("how much of it is that? in a line of its own: {} = \"… ml\"", key(&with));
    Some((with, asks))
}

/// "Couper avec moitié d'eau", "mit Läuterzucker süßen": how much of what stands behind "with" goes in.
fn cut_with(clause: &str, names: Names<'_>) -> Option<(String, String)> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let sweetens = WordList::Sweetened.within(clause);
    let is_size = first_told(&words, |literal| is_size(literal).then_some(())).is_some();
    // "cut 3:1 with water" is asked as a ratio
    if is_size
        || words.iter().any(|word| is_ratio(word))
        || strength_in(&words, names).is_some()
        || !(sweetens || WordList::Cut.within(clause))
    {
        return None;
    }
    let with = words.iter().position(|word| WordList::RinsedWith.has(word))?;
    let is_it =
        |name: &String| names.house.larder.find(name).is_some_and(|known| known.form == Form::Liquid || sweetens);
    let with = (with + 1..words.len()).find_map(|at| known(words.get(at..)?, names).filter(is_it))?;
    let asks = format!("how much of it is that? in a line of its own: {} = \"… ml\"", key(&with));
    Some((with, asks))
}

/// Whether the list says how much of it there is, or the engine does.
fn is_size_told(draft: &Draft, name: &str, names: Names<'_>) -> bool {
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    parts.filter(|part| names.same(part.of(), name)).any(|part| draft.is_typed || part.amount.is_some())
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

/// "250 ml Gin, 100 ml Wasser und eine Prise Salz zugeben": whether the verb that puts in ends the clause, or one behind it of its
/// sentence that goes on with the list.
fn ends_in_verb(all: &[Clause<'_>], at: usize) -> bool {
    let has_verb = |clause: &Clause<'_>| clause.words.last().is_some_and(|last| WordList::PutIn.has(last));
    let goes_on = |clause: &Clause<'_>| {
        let begins =
            clause.words.first().is_some_and(|first| first.starts_with(|c: char| c.is_numeric()) || is_one(first));
        begins && !has_verb(clause) && !clause.is_last
    };
    let Some(behind) = all.get(at..) else { return false };
    behind.iter().find(|clause| !goes_on(clause)).is_some_and(has_verb)
}

/// "Add 800 g sugar and 10 g citric acid", "steep 50 g cloves in 1 L rum" in two, each with its own amount.
fn one_by_one(clause: &str) -> Vec<String> {
    let mut all = vec![String::new()];
    // "20 % dilution (200 ml water)"
    let clause = clause.replace(['(', ')'], " ");
    let mut words = clause.split_whitespace().peekable();
    while let Some(word) = words.next() {
        let begins = |next: &&str| next.starts_with(|c: char| c.is_numeric()) || is_one(next);
        let is_between = WordList::And.has(word) || WordList::Between.has(word);
        match all.last_mut() {
            // "infuse with a sprig of thyme" is one verb
            Some(piece) if !(is_between && words.peek().is_some_and(begins)) || ends_in_pair(piece, word) => {
                piece.push_str(if piece.is_empty() { "" } else { " " });
                piece.push_str(word);
            }
            _ => all.push(String::new()),
        }
    }
    all
}

/// "Infuse with", "drop in": a verb of two words.
fn ends_in_pair(piece: &str, word: &str) -> bool {
    let last = piece.rsplit(' ').next().unwrap_or_default();
    WordList::PutIn.has(&format!("{last} {word}"))
}

/// The amounts of a piece with what they are of, what is left of it, and whether this is put in; `adds` says whether what stood
/// before it in the step was, `ends` that its verb ends its clause, `is_joined` that "and", "in" or "with" stands in front of it.
fn named_in(
    piece: &str,
    (adds, ends, is_joined): (bool, bool, bool),
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
        match told_at(front, rest, is_added || is_joined && at == 0, names) {
            Some((found, long)) => {
                all.push(SaidAmount::Amount { found, is_added });
                (from, at, adds) = (at + long, at + long, is_added);
            }
            None => at += 1,
        }
    }
    let left = words.get(from..).unwrap_or_default();
    let adds = if from == 0 { ends || puts_in(left) } else { adds };
    (all, left.join(" "), adds)
}

/// "Stir in the honey", "Honig einrühren": what is put in of which no line and no step has an amount.
fn named_alone(left: &str, ends: bool, draft: &Draft, names: Names<'_>) -> Vec<DraftLine> {
    let words: Vec<&str> = left.split_whitespace().collect();
    let is_denied = words.iter().any(|word| WordList::Unless.has(word));
    let from = match ends {
        true => Some(0),
        false => (1..words.len()).find(|at| puts_in(words.get(..*at).unwrap_or_default())),
    };
    let Some(mut at) = from.filter(|_| !is_denied) else { return Vec::new() };
    let parts: Vec<DraftPart> =
        draft.stages.iter().chain([&draft.last]).flat_map(|stage| stage.parts.iter().cloned()).collect();
    let stages = || draft.stages.iter().filter_map(|stage| stage.name.as_deref());
    let is_named = |name: &str| {
        let piece = Piece { text: name, end: name.len(), is_last: true };
        stages().any(|stage| names_it(stage, name)) || told_in(&parts, &[&piece], names).contains(&true)
    };
    let is_listed = |name: &str| {
        let by_larder = || names.house.larder.find(name).is_some_and(|known| is_named(&known.name));
        parts.iter().any(|part| names.same(part.of(), name)) || is_named(name) || by_larder()
    };
    // "add the date to the bottle" writes it
    let is_written = |name: &str| WordList::Date.has(name) && WordList::Bottled.within(left);
    let mut asked = Vec::new();
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let small = rest.iter().take_while(|word| is_small(word)).count();
        let is_joint = |word: &&str| WordList::And.has(word) || WordList::Between.has(word);
        let behind = rest.get(small..).and_then(|rest| rest.split(is_joint).next()).unwrap_or_default();
        let Some(name) = known(behind, names) else { break };
        // ice cools, and is poured away
        if !is_listed(&name) && !WordList::Glass.has(&name) && !is_written(&name) {
            let asks = format!("how much of it goes in? {} = \"… g\"", key(&name));
            let line = DraftLine::question(&name, asks);
            asked.push(DraftLine { is_guess: WordList::AsLiked.is_said_in(left), ..line });
        }
        let long = behind.iter().position(|word| name.ends_with(word.trim_matches(','))).map_or(1, |last| last + 1);
        at += small + long;
    }
    asked
}

/// "Sweeten to taste", where nothing sweet is on the list.
fn sweetened(left: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let mut parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let is_sweet = |part: &DraftPart| {
        let kind = names.house.larder.find(part.of()).and_then(|known| known.kind);
        matches!(kind, Some(Kind::Sugar | Kind::Syrup | Kind::Honey)) || names.house.card(part.of()).is_some()
    };
    let asks = "with what, and how much of it? a line of its own: sugar = \"… g\"";
    (WordList::Sweetened.within(left) && !parts.any(is_sweet)).then(|| DraftLine::question(left, asks))
}

/// What joins a thing to the one before it, or stands in front of its amount.
fn is_small(word: &&str) -> bool {
    [WordList::Small, WordList::And, WordList::Article, WordList::More].iter().any(|list| list.has(word))
}

/// Whether the words end in a verb that puts in what stands behind them.
fn puts_in(front: &[&str]) -> bool {
    let small = front.iter().rev().take_while(|word| is_small(word) && !WordList::And.has(word)).count();
    let front = front.get(..front.len() - small).unwrap_or_default();
    let ends = |n: usize| front.len().checked_sub(n).and_then(|at| front.get(at..));
    [1, 2].into_iter().filter_map(ends).any(|verb| WordList::PutIn.has(&verb.join(" ")))
}

/// "The rest of the water": what a step says before is some of that of the list.
fn is_rest_told(draft: &Draft, name: &str) -> bool {
    let steps = all_steps(draft);
    let all: Vec<Clause<'_>> = steps.iter().flat_map(|step| clauses(step)).collect();
    all.iter().any(|clause| names_it(name, clause.text) && clause.words.iter().any(|word| WordList::Rest.has(word)))
}

/// What a step has of it goes into the card, or is asked.
fn put(found: InStep, adds: bool, draft: &mut Draft, names: Names<'_>) {
    let InStep { said, amount, name, asks, is_double } = found;
    let is_of_list = WordList::OfThe.is_said_in(&said) || is_rest_told(draft, &name);
    let all_parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let Some(amount) = amount else {
        let stages = || draft.stages.iter().filter_map(|stage| stage.name.as_deref());
        let is_it = |own: &str| fold(own) == fold(&name) || names_it(own, &name);
        let is_listed = all_parts().any(|part| is_it(part.of()) || is_it(&part.label)) || stages().any(is_it);
        // the list may have asked the same line before
        let is_asked = || draft.last.asked.iter().any(|line| fold(&asked_of(line).label).contains(&fold(&said)));
        if !is_listed || is_double && !is_of_list && !is_asked() {
            draft.last.asked.push(DraftLine { is_guess: !adds, ..DraftLine::question(&said, asks) });
        }
        return;
    };
    if let Ok(Literal::Parts(..)) = names.reads(&amount) {
        let asks = "a ratio in a sentence: what it makes is a [[stage]] of its own, and how much of that goes in?";
        draft.last.asked.push(DraftLine::question(&said, asks));
        return;
    }
    // "the 12 limes" are those of the list, whatever is taken of them
    let counts = names.weighs_nothing(&amount);
    let is_it = |part: &&DraftPart| names.same(part.of(), &name) || counts && names_it(part.of(), &name);
    // "cold water" may be other water than that of the list, of the same amount too
    let same = |part: &DraftPart| {
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
        None => format!("{} = {}", key(&name), quoted(&amount)),
    };
    let how_much = if counts { "it".to_owned() } else { format!("{amount} of it") };
    let joint = if listed.is_some() { " " } else { "? " };
    let asks = format!("does {how_much} go in{joint}{line}");
    let line = DraftLine::question(&said, asks);
    draft.last.asked.push(DraftLine { is_guess: !adds, ..line });
}
