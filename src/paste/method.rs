//! What the steps of a recipe say of heat, of time, and of what is strained out again.

use crate::input::key;
use crate::spelling::fold;
use crate::units::told::{Clause, OVERNIGHT_H, clauses, first_told as first, is_overnight};
use crate::units::{Literal, Reading, literal};

use super::amounts::is_size;
use super::draft::{Draft, DraftLine, DraftPart, Remark};
use super::keys;
use super::names::Names;
use super::words::WordList;

/// How hot a simmer and a boil are at the least, °C: 85 to 95 and 100 at sea level (common practice, no source). A pan
/// in the hills boils cooler, and a heat that was not reached must not be counted.
const SIMMER_C: u32 = 85;
const BOIL_C: u32 = 95;
/// Reads the steps into keys of the last stage, and marks what is strained.
pub(super) fn read(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    strained(draft, &all_steps(draft), names);
    for stage in &mut draft.stages {
        heat_and_time(&stage.steps.clone(), true, &mut stage.keys);
    }
    // the steps below stages are of all of them: which one is heated they do not say
    heat_and_time(&draft.steps, draft.stages.is_empty(), &mut draft.last.keys);
}

fn strained(draft: &mut Draft, steps: &[String], names: Names<'_>) {
    let strains = |steps: &[String]| steps.iter().any(|step| WordList::Strain.within(step));
    let anywhere = strains(steps);
    for stage in draft.stages.iter_mut().chain([&mut draft.last]) {
        for part in &mut stage.parts {
            // "2 tbsp black tea" in what is strained are leaves: the brew is poured
            if anywhere
                && !is_poured(part)
                && let Some(leaves) = names.leaves_of(part.of())
            {
                part.remarks.push(Remark::Assumed(format!("{} is strained out: {leaves}", part.of())));
                part.label = leaves;
            }
            if anywhere && part.strained.is_none() && names.may_curdle(part.of()) {
                let asks = "does it curdle and stay behind? then strained = true here and washed = \"milk\" above";
                part.remarks.push(Remark::Question(asks.to_owned()));
            }
            let knows = names.knows(part.of());
            if part.strained.is_some() || knows && !names.is_strained_out(part.of()) {
                continue;
            }
            match (knows, anywhere) {
                (true, true) => {
                    part.strained = Some(true);
                    part.remarks.push(Remark::Assumed("strained out with the rest".to_owned()));
                }
                (true, false) => {
                    part.remarks.push(Remark::Question("does it stay in? else strained = true".to_owned()))
                }
                (false, true) if !is_poured(part) => {
                    part.remarks.push(Remark::Question("is it strained out? then strained = true".to_owned()));
                }
                (false, _) => {}
            }
        }
    }
}

fn all_steps(draft: &Draft) -> Vec<String> {
    draft.stages.iter().flat_map(|stage| &stage.steps).chain(&draft.steps).cloned().collect()
}

/// What a step puts in that no line of the list has: "Add 350 ml orange juice". Where it only names it, it is asked.
pub(super) fn poured_in(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    for step in all_steps(draft) {
        let mut adds = false;
        for clause in clauses(&step).iter().flat_map(|clause| one_by_one(clause.text)) {
            adds = named_in(&clause, adds, draft, names);
        }
    }
}

/// "Add 800 g sugar and 10 g citric acid" in two: each with its own amount.
fn one_by_one(clause: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for piece in clause.split(" and ") {
        match all.last_mut() {
            Some(before) if !piece.starts_with(|c: char| c.is_numeric()) => {
                before.push_str(" and ");
                before.push_str(piece);
            }
            _ => all.push(piece.to_owned()),
        }
    }
    all
}

/// Reads one amount and its thing; `adds` says whether what stood before it in the step was put in, and the answer
/// whether this is.
fn named_in(clause: &str, adds: bool, draft: &mut Draft, names: Names<'_>) -> bool {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let Some((amount, ())) = first(&words, |literal| is_size(literal).then_some(())) else { return false };
    // "squeeze through a cloth -> 700 g milk" is what it gives
    if clause.contains("->") || clause.contains('→') {
        return false;
    }
    let words = words.join(" ");
    let Some((front, behind)) = words.split_once(&amount) else { return false };
    let front = front.trim().to_lowercase();
    let verbs = ["add", "stir in", "pour in", "mix in", "whisk in"];
    let adds = adds && front.is_empty() || verbs.iter().any(|end| front.ends_with(end));
    let behind = behind.trim().trim_start_matches("of ").trim_start_matches("the ");
    let thing: Vec<&str> = behind.split(' ').collect();
    let known = (1..=thing.len().min(MOST_NAME_WORDS)).rev().find_map(|n| {
        let name = thing.get(..n)?.join(" ");
        // a clause ends at the bracket that closes
        let open = name.contains('(') && !name.contains(')');
        let name = if open { format!("{name})") } else { name };
        if names.knows(&name) { Some(name) } else { names.plain(&name) }
    });
    let Some(name) = known else { return adds };
    let parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    if parts().any(|part| fold(part.of()) == fold(&name)) {
        return adds;
    }
    if adds {
        let remarks = vec![Remark::Assumed("a step adds it".to_owned())];
        draft.last.parts.push(DraftPart { label: name, amount: Some(amount), remarks, ..DraftPart::default() });
    } else {
        let asks = format!("does {amount} of it go in? {} = \"{amount}\"", key(&name));
        draft.last.asked.push(DraftLine::question(clause, asks));
    }
    adds
}

/// A name has at most so many words (ours).
const MOST_NAME_WORDS: usize = 4;

/// What is measured by volume is seldom strained out, but for spoons of it.
fn is_poured(part: &DraftPart) -> bool {
    let read = part.amount.as_deref().and_then(|amount| literal::read(amount).ok());
    let by_spoon = |read: &Reading| read.measure.is_some_and(|m| m.portion.is_some() && m.spread().is_some());
    read.is_some_and(|read| matches!(read.literal, Literal::Volume(_)) && !by_spoon(&read))
}

/// "18 hours in the fridge", "a week in a jar": what only says how long says that it stands.
pub(super) fn begins_with_time(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_end_matches([',', ':', ';'])).collect();
    let is_time = |n: &usize| {
        words.get(..*n).is_some_and(|front| matches!(literal::parse(&front.join(" ")), Ok(Literal::Time(_))))
    };
    [1, 2].iter().any(is_time)
}

fn time(words: &[&str]) -> Option<(String, Option<Remark>)> {
    let is_time = |literal| if let Literal::Time(time) = literal { Some(time) } else { None };
    if let Some((text, _)) = first(words, is_time) {
        return Some((text, None));
    }
    let said = || Remark::Assumed(format!("overnight is {OVERNIGHT_H} hours"));
    is_overnight(words).then(|| (format!("{OVERNIGHT_H} h"), Some(said())))
}

/// Where nothing joins the batch behind a heat, all of it was heated; else it is asked: what was not heated must not count
/// as if it had been.
fn heat_and_time(steps: &[String], of_one: bool, keys: &mut Vec<DraftLine>) {
    let has = |key: &str, keys: &[DraftLine]| keys.iter().any(|line| line.toml.starts_with(key));
    let denies = |text: &str| {
        let lower = text.to_lowercase();
        ["do not ", "don't ", "never ", "without heat", "no heat", "not boil"].iter().any(|no| lower.contains(no))
    };
    let (mut heats, mut waits): (Vec<DraftLine>, Vec<DraftLine>) = (Vec::new(), Vec::new());
    let says = |text: &str, phrases: &[&str]| phrases.iter().any(|phrase| text.to_lowercase().contains(phrase));
    let joins =
        |text: &str| WordList::Join.within(text) || says(text, &["stir in ", "mix in ", "pour in ", "blend in "]);
    // half an hour is a time
    let of_half = |text: &str| WordList::Half.within(text) || says(text, &["half of ", "half the "]);
    for (n, step) in steps.iter().enumerate() {
        let all = clauses(step);
        for (at, clause) in all.iter().enumerate().filter(|(_, clause)| !denies(clause.text)) {
            // "warm to 85 °C, and hold it for 5 minutes", "simmer the peel, the cloves and the water for 20 minutes"
            let begins = |next: &Clause<'_>| next.words.first().is_some_and(|first| WordList::Step.has(first));
            let same = |next: &&Clause<'_>| next.text.to_lowercase().contains("hold") || !begins(next);
            let behind = all.get(at + 1..).unwrap_or_default().iter().take_while(same);
            let behind: Vec<&str> = behind.flat_map(|next| next.words.iter().copied()).collect();
            if WordList::Heat.within(clause.text)
                && let Some(heat) = heat(clause, &behind)
            {
                let later = all.get(at + 1..).unwrap_or_default().iter().any(|clause| joins(clause.text));
                let later = later
                    || of_half(clause.text)
                    || steps.get(n + 1..).unwrap_or_default().iter().any(|step| joins(step));
                heats.push(match of_one && !later || heat.toml.is_empty() {
                    true => heat,
                    false => DraftLine::question("", format!("{}: was all of it so hot?", heat.toml)),
                });
            } else if WordList::Wait.within(clause.text) || begins_with_time(clause.text) {
                waits.extend(wait(clause));
            }
        }
    }
    for (key, found) in [("heated", heats), ("takes", waits)] {
        if has(key, keys) {
            continue;
        }
        let mut found = found.into_iter();
        keys.extend(found.next());
        for other in found {
            let again = format!("the steps also say {}", other.toml);
            keys.push(DraftLine::question("", format!("{again}: which one counts?")));
        }
    }
}

fn heat(clause: &Clause<'_>, behind: &[&str]) -> Option<DraftLine> {
    let is_heat = |literal| if let Literal::Temperature(to) = literal { Some(to) } else { None };
    let lower = clause.text.to_lowercase();
    let long = time(&clause.words).or_else(|| time(behind));
    let (hot, assumed) = match first(&clause.words, is_heat) {
        Some((hot, _)) => (hot, None),
        None if lower.contains("simmer") => {
            let said = format!("a simmer is at least {SIMMER_C} °C; measure yours");
            (format!("{SIMMER_C} °C"), Some(said))
        }
        None if lower.contains("boil") && !lower.contains("boiling water") => {
            let said = format!("a boil is at least {BOIL_C} °C; measure yours");
            (format!("{BOIL_C} °C"), Some(said))
        }
        None => return None,
    };
    let written = match &long {
        Some((long, None)) => format!("{hot} for {long}"),
        _ => hot,
    };
    let mut line = keys::checked("", DraftLine::text("heated", &written), clause.text);
    if line.toml.is_empty() {
        return Some(line);
    }
    line.remarks.extend(assumed.map(Remark::Assumed));
    let asks = "what steamed off? weigh the pan before and after: [loss] evaporated = \"… %\"";
    Some(line.with(Remark::Question(asks.to_owned())))
}

fn wait(clause: &Clause<'_>) -> Option<DraftLine> {
    let (long, assumed) = time(&clause.words)?;
    let mut line = keys::checked("", DraftLine::text("takes", &long), clause.text);
    line.remarks.extend(assumed);
    let lower = clause.text.to_lowercase();
    let is_cold = |word: &str| {
        ["fridge", "cold", "chill", "chilled", "freezer"].contains(&word) || word.starts_with("refrigerat")
    };
    if lower.split(|c: char| !c.is_alphabetic()).any(is_cold) {
        line = line.with(Remark::Question("how cold does it stand? at = \"… °C\"".to_owned()));
    }
    Some(line)
}
