//! What the steps of a recipe say of heat: how hot, how long, and whether all of it was. What was not heated must not count as
//! if it had been.

use crate::units::told::{Clause, clauses};

use super::boiled_down::{is_heated, is_reduced, steamed_off, until_a_size};
use super::degrees::{Degrees, degrees};
use super::draft::{DraftLine, Remark};
use super::heated_parts::{is_of_all, is_of_named, is_of_some, of_half};
use super::keys;
use super::made_hot::is_made_hot;
use super::names::Names;
use super::speaks::speaks_of_one;
use super::strains::strains;
use super::words::WordList;
use crate::house::House;
use crate::units::boiling::boils;
use crate::units::heat_words::{BOIL_C, SIMMER_C};
use crate::units::spans::{SpanEnd, ToldTime, time};

/// Hot water that is poured over something is no bath under it.
const POURED_HOT: [&str; 6] = ["pour", "add", "steep", "with boiling", "in boiling", "in simmering"];

/// One heat that the steps tell.
pub(super) struct ToldHeat {
    line: DraftLine,
    is_timed: bool,
    /// In degrees, and not by the word for a boil.
    is_stated: bool,
    /// Until so much is left.
    is_reduced: bool,
    /// Of some parts that its step names, none of them with alcohol.
    is_of_named: bool,
}

/// "Do not boil": what follows is no heat, and no wait.
pub(super) fn denies(text: &str) -> bool {
    // "stir to 75 °C (do not boil)" is a heat all the same
    let said = text.split_once(" (").map_or(text, |(front, _)| front);
    WordList::Denied.is_said_in(said)
}

/// The heats of a list of steps, as the lines of its stage. `of_one`: the steps are of one pan, that holds these parts.
pub(super) fn heats(steps: &[String], parts: &[&str], of_one: bool, names: Names<'_>) -> Vec<DraftLine> {
    let steps: Vec<Vec<Clause<'_>>> = steps.iter().map(|step| clauses(step)).collect();
    let mut of_all = Vec::new();
    let mut of_some = Vec::new();
    for (n, step) in steps.iter().enumerate() {
        for at in 0..step.len() {
            let Some(mut told) = heat_at(step, at, names) else { continue };
            let end = at + 1 + behind(step, at, names);
            let said = text_of(step.get(first(step, at)..end).unwrap_or_default());
            let before = steps.iter().take(n).flatten().chain(step.iter().take(end));
            let before: Vec<&str> = before.map(|clause| clause.text).collect();
            let later = step.iter().skip(end).chain(steps.iter().skip(n + 1).flatten());
            let later: Vec<&str> = later.map(|clause| clause.text).collect();
            let joins = later.iter().any(|clause| joins(clause, &before, parts, names))
                || goes_in_off_the_heat(&later, parts, names);
            let start = sentence(step, at);
            let elsewhere = steps.iter().take(n).flatten().chain(step.iter().take(start)).map(|clause| clause.text);
            let elsewhere: Vec<&str> = elsewhere.chain(later.iter().copied()).collect();
            let front = text_of(step.get(start..at).unwrap_or_default());
            let is_some = is_of_some(&front, &said, &elsewhere, parts, names);
            let is_all = of_one && !joins && !of_half(&said) && !is_some && is_of_all(&said, &before, parts, names);
            // "combine the agave and the water; bring to a simmer"; of "add the sugar, bring to a simmer" the pan was not empty
            let speaks =
                parts.iter().any(|part| speaks_of_one(part, parts, &said, names)) || WordList::PutIn.is_said_in(&front);
            told.is_of_named = is_of_named(if speaks { &said } else { &front }, parts, names);
            if is_all && !told.line.toml.is_empty() { &mut of_all } else { &mut of_some }.push(told);
        }
    }
    let is_reduced = of_all.iter().chain(&of_some).any(|told| told.is_reduced);
    let mut lines: Vec<DraftLine> = match of_all.is_empty() {
        true => picked(of_some).into_iter().map(asked).collect(),
        // where all of it was hot, what a part of it was besides says nothing more, but that it is boiled down
        false => {
            let reduced = of_some.into_iter().filter(|told| told.is_reduced).map(asked);
            picked(of_all).into_iter().map(|told| told.line).chain(reduced).collect()
        }
    };
    if is_reduced {
        lines.iter_mut().for_each(|line| line.remarks.retain(|remark| *remark != nothing_steamed_off()));
    }
    lines
}

/// A boil that so many minutes of a simmer follow is how those begin.
fn picked(mut all: Vec<ToldHeat>) -> Vec<ToldHeat> {
    if all.iter().any(|told| told.is_timed) {
        all.retain(|told| told.is_timed || told.is_stated || told.is_reduced);
    }
    all
}

fn asked(told: ToldHeat) -> DraftLine {
    let line = told.line;
    if line.toml.is_empty() {
        return line;
    }
    if told.is_of_named && !told.is_reduced {
        let said = format!("{}: of what that step names alone, and not counted for the whole", line.toml);
        return DraftLine::default().with(Remark::Assumed(said));
    }
    let asks = format!("{}: was all of it so hot? where none of the liquid was, heated = \"no\"", line.toml);
    let steamed = line.remarks.into_iter().filter(|remark| matches!(remark, Remark::Question(_)));
    steamed.fold(DraftLine::question("", asks), DraftLine::with)
}

fn text_of(clauses: &[Clause<'_>]) -> String {
    clauses.iter().map(|clause| clause.text).collect::<Vec<_>>().join(" ")
}

fn begins(clause: &Clause<'_>) -> bool {
    clause.words.first().is_some_and(|first| WordList::Step.has(first))
}

/// Whether a sentence ends behind it; behind "approx." none does.
fn ends(clause: &Clause<'_>) -> bool {
    clause.is_last && !clause.words.last().is_some_and(|last| WordList::About.has(last))
}

/// Where the sentence part begins that a heat stands in: "bring the sugar, the water and the peel to a boil"; where the verb stands
/// last, the names in front of it are of it: "Zucker, Wasser und Schale aufkochen".
fn first(step: &[Clause<'_>], at: usize) -> usize {
    let in_sentence = sentence(step, at);
    let is_name = |n: &usize| step.get(*n).is_some_and(|clause| clause.words.len() <= MOST_NAME_WORDS);
    let named = || (in_sentence..at).rev().take_while(is_name).last().unwrap_or(at);
    (in_sentence..=at).rev().find(|&n| step.get(n).is_some_and(begins)).unwrap_or_else(named)
}

/// Where its sentence begins.
fn sentence(step: &[Clause<'_>], at: usize) -> usize {
    (0..at).rev().take_while(|&n| !step.get(n).is_some_and(ends)).last().unwrap_or(at)
}

/// What is named in a list of names has so many words at the most (ours).
const MOST_NAME_WORDS: usize = 3;

/// "For a minute", with the word in front of it.
const MOST_TIME_WORDS: usize = 3;

/// How many clauses behind it are of the same heat: "warm to 85 °C, and hold it for 5 minutes", "simmer the peel, the cloves and
/// the water for 20 minutes".
fn behind(step: &[Clause<'_>], at: usize, names: Names<'_>) -> usize {
    let holds = |clause: &Clause<'_>| clause.text.to_lowercase().contains("hold");
    // "…, abkühlen lassen, Zitronensaft zugeben" is of it no more
    let puts_in = |clause: &Clause<'_>| {
        clause.words.iter().any(|word| WordList::Join.within(word) && !word.eq_ignore_ascii_case("together"))
    };
    // "boil it, then hold it at 80 °C for 20 minutes": those are of the hold
    let has_its_own = |clause: &Clause<'_>| degrees(clause, names).is_some();
    let is_other = |clause: &Clause<'_>| begins(clause) || puts_in(clause) || WordList::OffHeat.within(clause.text);
    // "boil the juice (about 600 ml) for a minute and let it cool"
    let is_time = |clause: &Clause<'_>| {
        let front = clause.words.get(..clause.words.len().min(MOST_TIME_WORDS)).unwrap_or_default();
        !begins(clause) && time(front, SpanEnd::Least).is_some_and(|told| !told.is_phrase)
    };
    let is_same = |n: &usize| {
        let is_in_sentence = !step.get(n - 1).is_some_and(ends);
        step.get(*n).is_some_and(|next| {
            !has_its_own(next) && (holds(next) || is_in_sentence && (is_time(next) || !is_other(next)))
        })
    };
    (at + 1..step.len()).take_while(is_same).count()
}

/// Whether a clause behind a heat puts in what was not in the pan.
fn joins(clause: &str, before: &[&str], parts: &[&str], names: Names<'_>) -> bool {
    const PUTS_IN: [&str; 6] = ["stir in ", "mix in ", "pour in ", "blend in ", " goes in", " go in"];
    let lower = clause.to_lowercase();
    let takes_out = strains(clause) || WordList::Lift.within(clause);
    let is_new = |part: &&&str| !before.iter().any(|text| speaks_of_one(part, parts, text, names));
    let mut named = parts.iter().filter(|part| speaks_of_one(part, parts, clause, names)).peekable();
    let into = WordList::Mixed.within(clause) && WordList::Into.within(clause) && named.peek().is_some();
    let is_first_named = before.iter().any(|text| parts.iter().any(|part| speaks_of_one(part, parts, text, names)))
        && !takes_out
        && named.any(|part| is_new(&part));
    WordList::Join.within(clause) || PUTS_IN.iter().any(|phrase| lower.contains(phrase)) || into || is_first_named
}

/// What is so hot is heated, whatever the verb (ours): "stir at 70 °C for 10 minutes". Below the lesser of the two what steeps so is
/// a wait; above 57 °C nothing that spoils grows (as `heated` counts it).
const SURELY_HEATED_C: f64 = 45.0;
const SURELY_NO_STEEP_C: f64 = 57.0;

/// What a clause tells, °C; nothing is as cold as that.
fn celsius_of(told: Option<&Degrees>) -> f64 {
    told.and_then(Degrees::celsius).unwrap_or(f64::NEG_INFINITY)
}

/// Whether a clause tells of something so hot that it is heated, for a time or as far as that.
fn is_held(clause: &Clause<'_>, names: Names<'_>) -> bool {
    let Some(celsius) = degrees(clause, names).and_then(|told| told.celsius()) else { return false };
    let is_timed = time(&clause.words, SpanEnd::Least).is_some();
    let waits = WordList::Wait.within(clause.text);
    let is_reached = WordList::Mixed.within(clause.text) || WordList::Blended.within(clause.text);
    match () {
        () if cools(clause.text) => false,
        () if waits => celsius >= SURELY_NO_STEEP_C && is_timed,
        () => celsius >= SURELY_HEATED_C && (is_timed || is_reached),
    }
}

/// Nobody heats to less, °C: a room may be so warm (ours).
const COOLEST_HEAT_C: f64 = 25.0;

/// What a step makes hotter than this it heats, whatever its verb, °C: no room is so warm (ours).
const WARMEST_PLACE_C: f64 = 40.0;

/// The clauses of a step that heat, and whether they say so in degrees or by a bath, and not by their verb alone.
pub(crate) fn hot_clauses<'s>(step: &'s str, house: &House) -> Vec<(&'s str, bool)> {
    let names = Names::of(house, "");
    let all = clauses(step);
    let hot = |at: usize| {
        let clause = all.get(at).filter(|clause| !denies(clause.text) && !cools(clause.text))?;
        let by_degrees = match degrees(clause, names) {
            Some(Degrees::Told { celsius, .. }) => celsius > WARMEST_PLACE_C,
            // "rum at 54°" is strong
            Some(Degrees::Open(_)) => {
                WordList::Wait.within(clause.text) || is_held(clause, names) || is_setting(clause, names)
            }
            None => WordList::Bath.is_said_in(clause.text) || is_made_hot(clause.text),
        };
        // "hold at 4 °C"
        let is_cold =
            matches!(degrees(clause, names), Some(Degrees::Told { celsius, .. }) if celsius <= WARMEST_PLACE_C);
        let is_hot = by_degrees || (!is_cold || boils(clause.text)) && heat_at(&all, at, names).is_some();
        is_hot.then_some((clause.text, by_degrees))
    };
    (0..all.len()).filter_map(hot).collect()
}

/// "…, 60 degrees, …": what a machine is set to, where nothing of that clause is so strong.
fn is_setting(clause: &Clause<'_>, names: Names<'_>) -> bool {
    const MOST_WORDS: usize = 3;
    clause.words.len() <= MOST_WORDS && celsius_of(degrees(clause, names).as_ref()) >= SURELY_HEATED_C
}

/// "Laisser tiédir à 40 °C" lets it cool; "tiédir à 60 °C" warms it.
fn cools(text: &str) -> bool {
    (WordList::Wait.within(text) || !WordList::Warm.within(text)) && WordList::OffHeat.within(text)
}

/// "Off heat, honey in while warm".
fn goes_in_off_the_heat(later: &[&str], parts: &[&str], names: Names<'_>) -> bool {
    let mut behind = later.iter().skip_while(|clause| !WordList::OffHeat.within(clause)).skip(1);
    let takes_out = |clause: &str| strains(clause) || WordList::Lift.within(clause);
    behind.any(|clause| !takes_out(clause) && parts.iter().any(|part| speaks_of_one(part, parts, clause, names)))
}

/// The heat that a clause tells.
pub(super) fn heat_at(step: &[Clause<'_>], at: usize, names: Names<'_>) -> Option<ToldHeat> {
    let clause = step.get(at).filter(|clause| !denies(clause.text))?;
    let before = at.checked_sub(1).and_then(|before| step.get(before)).filter(|before| !ends(before));
    let stirs = |text: &str| WordList::Bath.is_said_in(text) || WordList::Mixed.within(text);
    let is_hot_before = before.is_some_and(|before| is_heated(before.text));
    let is_reduced = is_reduced(clause.text) || is_hot_before && until_a_size(&clause.words);
    let told = degrees(clause, names).filter(|_| !cools(clause.text));
    if let Some(Degrees::Open(hot)) = &told
        && (is_heated(clause.text)
            || is_hot_before
            || before.is_some_and(|before| stirs(before.text))
            || is_held(clause, names))
    {
        let behind = step.iter().skip(at).take(1 + behind(step, at, names)).flat_map(|next| next.words.iter().copied());
        let long =
            time(&behind.collect::<Vec<_>>(), SpanEnd::Least).map_or_else(|| "… min".to_owned(), |told| told.long);
        let asks = format!("°C or °F, was all of it so hot, and how long? heated = \"{hot} °C for {long}\"");
        let line = DraftLine::question(clause.text, asks);
        return Some(ToldHeat { line, is_timed: false, is_stated: true, is_reduced: false, is_of_named: false });
    }
    // "leave it somewhere warm at 30 °C for 2 days" is a wait
    let is_warm_wait = || {
        let celsius = told.as_ref().and_then(Degrees::celsius);
        celsius.is_some_and(|at| at < SURELY_NO_STEEP_C) && WordList::Wait.within(clause.text)
    };
    // "hold at 4 °C" heats nothing
    let is_cold = told.as_ref().and_then(Degrees::celsius).is_some_and(|celsius| celsius < COOLEST_HEAT_C);
    if is_cold && !boils(clause.text) {
        return None;
    }
    // "over simmering water, 75 °C on the probe"
    let is_stirred_before =
        before.is_some_and(|before| stirs(before.text)) && celsius_of(told.as_ref()) >= SURELY_HEATED_C;
    let goes_on = (is_hot_before || is_stirred_before)
        && told.is_some()
        && before.is_some_and(|before| degrees(before, names).is_none());
    if !is_heated(clause.text) && !is_reduced && !is_held(clause, names) && !goes_on || is_warm_wait() {
        return None;
    }
    // of the water of a bath, and not of what stands over it, is a simmer that a step tells so
    let of_bath = WordList::Bath.is_said_in(clause.text);
    let next = step.get(at + 1).filter(|_| !ends(clause));
    let is_told_next =
        next.is_some_and(|next| degrees(next, names).is_some() && !cools(next.text) && !is_heated(next.text));
    if told.is_none() && (of_bath || !is_reduced) && is_told_next {
        return None;
    }
    let is_word = |list: WordList| list.within(clause.text);
    let behind = step.iter().skip(at + 1).take(behind(step, at, names)).flat_map(|next| next.words.iter().copied());
    let long = |words: &[&str]| time(words, SpanEnd::Least).filter(|told| !told.is_phrase);
    let long: Option<ToldTime> = long(&clause.words).or_else(|| long(&behind.collect::<Vec<_>>()));
    let is_timed = long.is_some();
    let is_stated = told.is_some();
    let for_so_long = || long.as_ref().map_or_else(String::new, |told| format!(" for {}", told.long));
    let (hot, assumed) = match told {
        Some(Degrees::Told { written, assumed, .. }) => (written, assumed),
        _ if is_word(WordList::Simmer) && !of_bath => {
            let said = format!("a simmer is at least {SIMMER_C} °C; measure yours");
            (format!("{SIMMER_C} °C"), Some(said))
        }
        _ if is_word(WordList::Boil) && !of_bath => {
            let said = format!("a boil is at least {BOIL_C} °C; measure yours");
            (format!("{BOIL_C} °C"), Some(said))
        }
        _ if is_reduced => {
            let asks = format!("how hot was all of it, and how long? heated = \"… °C{}\"", for_so_long());
            let line = DraftLine::question(clause.text, asks).with(steamed_off(clause));
            return Some(ToldHeat { line, is_timed, is_stated, is_reduced, is_of_named: false });
        }
        // "warm gently for 20 minutes", "whisk over simmering water until it thickens"
        _ if of_bath && !POURED_HOT.iter().any(|hot| clause.text.to_lowercase().contains(hot))
            || is_timed
                && !is_word(WordList::Wait)
                && clause.words.iter().any(|word| WordList::Warm.has(word))
                && !cools(clause.text) =>
        {
            let asks = format!("how hot was it, and was all of it? heated = \"… °C{}\"", for_so_long());
            return Some(ToldHeat {
                line: DraftLine::question(clause.text, asks),
                is_timed,
                is_stated,
                is_reduced,
                is_of_named: false,
            });
        }
        _ => return None,
    };
    let written = match &long {
        Some(told) => format!("{hot} for {}", told.long),
        None => hot,
    };
    let mut line = keys::checked("", DraftLine::text("heated", &written), clause.text);
    if !line.toml.is_empty() {
        let of_range = long.and_then(|told| told.assumed);
        line.remarks.extend(assumed.into_iter().chain(of_range).map(Remark::Assumed));
        line = line.with(if is_reduced { steamed_off(clause) } else { nothing_steamed_off() });
    }
    Some(ToldHeat { line, is_timed, is_stated, is_reduced, is_of_named: false })
}

/// Whether a clause tells no more than how long the heat before it was held: "heat to 85 °C, 5 minutes".
pub(super) fn is_of_heat(step: &[Clause<'_>], at: usize, names: Names<'_>) -> bool {
    let told = |n: usize| step.get(n).and_then(|clause| time(&clause.words, SpanEnd::Least));
    let before = (0..at).rfind(|&n| heat_at(step, n, names).is_some());
    let of_heat = before.filter(|&n| at <= n + behind(step, n, names) && (n..at).all(|n| told(n).is_none()));
    of_heat.is_some() && told(at).is_some_and(|told| !told.is_phrase)
}

/// What a pan loses that nothing is boiled down in is a doubt of the sheet, and no question that its date waits for.
fn nothing_steamed_off() -> Remark {
    let weigh = "nothing steamed off; weigh the pan before and after, and write [loss] evaporated = \"… %\"";
    Remark::Assumed(weigh.to_owned())
}
