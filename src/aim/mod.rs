//! What a card with room chooses: its aim as numbers, the best corner of what it allows, and the card with that chosen. The
//! ordinary solver makes the rest of it: no sheet, date or cost knows that there was a choice.

mod dissolved;
mod emptied;
mod goal;
mod inside;
mod margin;
mod ties;
mod told;

use std::borrow::Cow;
use std::cmp::Ordering;

use crate::assessment::{self, Which};
use crate::card::{Aim, Card};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house::House;
use crate::paste::in_order;
use crate::properties::amount_for;
use crate::shelf_life::Draws;
use crate::solver::room::{BestCorner, NoRoom, Room};
use crate::solver::{self, Offer, Options, Solved, no_room, offer, solve};
use crate::vocabulary::{Prized, Spared};

use goal::Goal;
pub use inside::with_product;
use ties::Ties;

/// A card, and the house that it is made in, with everything chosen that they leave room for.
#[derive(Clone, Debug)]
pub struct Chosen<'c, 'h> {
    /// The card.
    pub card: Cow<'c, Card>,
    /// The house, in which every card with room that goes into this one is as its own aim chose it.
    pub house: Cow<'h, House>,
}

/// The card with everything chosen that it leaves room for, and its house with what goes into it chosen; without room they
/// are as they were, but for the order in which their steps put things in. `None` where nothing can be chosen, which is said.
pub fn chosen<'c, 'h>(
    card: &'c Card,
    house: &'h House,
    options: &Options,
    found: &mut Vec<Diagnostic>,
) -> Option<Chosen<'c, 'h>> {
    let house = inside::with_chosen(card, house, found)?;
    if !card.has_room() {
        let card = in_order(card, &house).map_or(Cow::Borrowed(card), Cow::Owned);
        return Some(Chosen { card, house });
    }
    let (chosen, said) = match choose(card, &house, options) {
        Ok((chosen, notes)) => (Some(chosen), notes),
        Err(why) => (None, why),
    };
    found.extend(said.into_iter().map(|d| d.in_file(&card.file)));
    Some(Chosen { card: chosen?, house })
}

/// What else is wrong with a card that cannot be solved for what is wrong with it: see [`solver::faults`]. What goes into
/// it is as its own aim chose it, so that nothing is wrong with it only because nothing was chosen.
pub(crate) fn faults(card: &Card, house: &House) -> Vec<Diagnostic> {
    let mut of_inner = Vec::new();
    let chosen = inside::with_chosen(card, house, &mut of_inner);
    of_inner.retain(|d| d.severity == Severity::Error);
    let others = solver::faults(card, chosen.as_deref().unwrap_or(house));
    // a card of which nothing could be chosen has told why
    let is_told = |d: &Diagnostic| of_inner.iter().any(|told| told.file == d.file);
    let others: Vec<Diagnostic> = others.into_iter().filter(|d| !is_told(d)).collect();
    of_inner.into_iter().chain(others).collect()
}

fn choose<'a>(
    card: &'a Card,
    house: &House,
    options: &Options,
) -> Result<(Cow<'a, Card>, Vec<Diagnostic>), Vec<Diagnostic>> {
    // What cannot even be looked up, and a card without an aim, the ordinary solver says.
    let Some(mut offer) = offer(card, house, options) else {
        return beyond(card).map_or(Ok((Cow::Borrowed(card), Vec::new())), |d| Err(vec![d]));
    };
    if offer.room.freedoms() == 0 {
        return Ok((Cow::Borrowed(card), nothing_free(card).into_iter().collect()));
    }
    let Some(aim) = &card.aim else { return Ok((Cow::Borrowed(card), Vec::new())) };
    let best_of = |offer: &Offer| -> Result<Best, Vec<Diagnostic>> {
        let ties = Ties::of(card, offer, house);
        match aim.value {
            Aim::Least(of) => {
                let goal = Goal::of(of, card, offer, house)?;
                let aims: Vec<Vec<f64>> = std::iter::once(&goal).chain(&ties.0).map(|g| g.per_gram.clone()).collect();
                let corner = offer.room.land(&aims).map_err(|why| no_room(card, &offer.room, &why))?;
                Ok(Best { corner, goal: Some(goal), ties, how: None, is_tie: false, alike: Vec::new() })
            }
            Aim::Most(Prized::Life) => {
                longest(card, house, options, offer, ties).map_err(|why| no_room(card, &offer.room, &why))
            }
        }
    };
    let written = offer.room.ranges.clone();
    // of all answers the one with the most water surely is a liquid
    let beside_water = ties::beside_water(&offer);
    let any = offer.room.land(std::slice::from_ref(&beside_water));
    let any = any.map_err(|why| no_room(card, &offer.room, &why))?;
    let mut narrow = margin::inside(&offer.room, &solved_at(&offer, card, &any, house, options), beside_water, house);
    dissolved::cap(&mut narrow);
    let wide = std::mem::replace(&mut offer.room, narrow);
    // lowers the end of the sugar by an answer; `false` where its water holds all of it
    let crystallises = |offer: &mut Offer, corner: &BestCorner| {
        let solved = solved_at(offer, card, corner, house, options);
        solved.is_some_and(|solved| dissolved::lower(&mut offer.room, written.len(), &solved, house))
    };
    for _ in 0..ROUNDS {
        let sweetest = offer.room.land(&[dissolved::sweetest(&offer.room)]);
        if !sweetest.is_ok_and(|corner| crystallises(&mut offer, &corner)) {
            break;
        }
    }
    let mut best = best_of(&offer);
    for _ in 0..ROUNDS {
        let Some(found) = best.as_ref().ok().map(|best| best.corner.clone()) else { break };
        if !crystallises(&mut offer, &found) {
            break;
        }
        best = best_of(&offer);
    }
    // what is narrower than what cannot be told is met as far as it can be
    let best = match best {
        Ok(best) => best,
        Err(_) => {
            offer.room = wide;
            best_of(&offer)?
        }
    };
    if aim.value != Aim::Least(Spared::Cost) {
        let asked = emptied::asked(card, &offer, &best);
        if !asked.is_empty() {
            return Err(asked);
        }
    }
    let mut chosen = offer.chosen(card, &best.corner);
    // of the size that the card states nothing has to be solved again
    let of_another_size = options.size.as_ref().map(|_| solved_at(&offer, card, &best.corner, house, options));
    let asked_for = of_another_size.flatten();
    chosen.landed = Some(told::landed(card, &offer, &written, &best, asked_for.as_ref()));
    Ok((Cow::Owned(chosen), emptied::told(card, &offer, &best)))
}

/// The end of the sugar settles in two or three rounds: what dissolves less beside spirit makes room for more of it.
const ROUNDS: usize = 5;

/// The best answer, and how it is the best.
struct Best {
    corner: BestCorner,
    /// What there is the least of; `None` where that has no numbers.
    goal: Option<Goal>,
    ties: Ties,
    how: Option<String>,
    /// Whether every answer is as good.
    is_tie: bool,
    /// Answers that were looked at and are as good, where what is aimed at has no numbers.
    alike: Vec<BestCorner>,
}

fn solved_at(offer: &Offer, card: &Card, corner: &BestCorner, house: &House, options: &Options) -> Option<Solved> {
    solve(&marked(offer.chosen(card, corner)), house, options).solved
}

/// Room and an outer search at once are not reckoned with.
fn beyond(card: &Card) -> Option<Diagnostic> {
    let aim = card.aim?;
    let (span, what) = match card.last.loss.evaporated_as_needed {
        Some(span) => (span, "water that boils off as needed"),
        None => (card.targets.iter().find(|t| t.kind == crate::card::TargetKind::Ph)?.span, "a pH that is aimed at"),
    };
    Some(
        Diagnostic::error(Code::TooManyOpen, format!("room and {what} cannot be found at once"))
            .at(span, "found by a search of its own")
            .at(aim.span, "chooses among many answers")
            .help("write a number here and leave the room, or one number for each range and no [aim]"),
    )
}

fn nothing_free(card: &Card) -> Option<Diagnostic> {
    let aim = card.aim?;
    Some(
        Diagnostic::warning(Code::Unused, "the aim changes nothing: targets, amounts and the size decide everything")
            .at(aim.span, "nothing is left to choose")
            .help("give a target room (abv = \"18 to 20 %\") or leave another part open, or delete [aim]"),
    )
}

/// Few draws tell which of some corners keeps longest; the date itself is drawn in full afterwards.
const DRAWS: u32 = 4_000;

/// The corner that keeps longest in the store that the card is planned for; of equal ones one that lacks the fewest parts, and of
/// those the one that [`Ties`] take. Life
/// goes in steps, so no slope leads to it: every way in which the ranges can stand at their ends, and the ends of every open
/// part, are dated, each by the one judgement.
fn longest(card: &Card, house: &House, options: &Options, offer: &Offer, ties: Ties) -> Result<Best, NoRoom> {
    let corners = corners(&offer.room)?;
    let days = |corner: &BestCorner| {
        let solved = solved_at(offer, card, corner, house, options)?;
        let draws = Draws { draws: DRAWS, ..Draws::default() };
        let (judged, _) = assessment::assess(&solved, house, chrono::NaiveDate::default(), Which::Planned, draws);
        judged.stores.get(judged.planned)?.days
    };
    let dated: Vec<(Option<u32>, BestCorner)> = corners.into_iter().map(|corner| (days(&corner), corner)).collect();
    let many = dated.len();
    let (most, least) = (dated.iter().filter_map(|d| d.0).max(), dated.iter().filter_map(|d| d.0).min());
    let has_none = dated.iter().any(|(days, _)| days.is_none());
    let taken = ties.taken();
    let how = match (most, least) {
        (Some(most), Some(least)) if most > least => {
            format!("of {many} corners dated the longest: {least} to {most} days")
        }
        (Some(most), _) if has_none => format!("of {many} corners dated one that has a date: {most} days"),
        (Some(most), _) => format!("all {many} corners that were dated keep {most} days: {taken} of them"),
        (None, _) => format!("none of {many} corners has a date: {taken} of them"),
    };
    let is_tie = !has_none && most == least;
    let alike: Vec<BestCorner> =
        dated.into_iter().filter(|(days, _)| *days == most).map(|(_, corner)| corner).collect();
    let lacks = |corner: &BestCorner| emptied::emptied(card, offer, corner).count();
    let is_before = |one: &BestCorner, other: &BestCorner| match lacks(one).cmp(&lacks(other)) {
        Ordering::Equal => ties.prefer(one, other),
        fewer => fewer == Ordering::Less,
    };
    let corner = alike.iter().reduce(|a, b| if is_before(b, a) { b } else { a }).ok_or(NoRoom::Crowded)?.clone();
    Ok(Best { corner, goal: None, ties, how: Some(how), is_tie, alike })
}

/// A card of which everything is chosen, so that the solver takes it.
fn marked(card: Card) -> Card {
    Card { landed: Some(crate::card::Landed::default()), ..card }
}

/// More ranges than this stand at their ends together in more ways than are worth dating (ours): of the others each is taken
/// to its ends alone.
const TOGETHER: usize = 4;

/// The corners at the ends of the ranges, in every way together, and at those of each open part; each once, in card order.
fn corners(room: &Room) -> Result<Vec<BestCorner>, NoRoom> {
    let n = room.lines.len();
    let toward = |sign: f64, of: &[f64]| of.iter().map(|x| sign * x).collect::<Vec<f64>>();
    let kinds: Vec<Vec<f64>> = room
        .ranges
        .iter()
        .map(|range| room.lines.iter().map(|line| amount_for(range.kind, &line.joins)).collect())
        .collect();
    let parts = (0..n).filter(|&i| room.is_open(i)).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect());
    let alone = kinds.iter().cloned().chain(parts).flat_map(|of| [-1.0, 1.0].map(|sign| vec![toward(sign, &of)]));
    let few = &kinds[..kinds.len().min(TOGETHER)];
    let together = (0..few.len()).flat_map(|first| {
        (0..1_u32 << few.len()).map(move |signs| {
            let sign = |i: usize| if signs >> i & 1 == 0 { -1.0 } else { 1.0 };
            let order = (0..few.len()).map(|i| (first + i) % few.len());
            order.map(|i| toward(sign(i), &few[i])).collect::<Vec<_>>()
        })
    });
    let mut all: Vec<BestCorner> = Vec::new();
    let mut why = None;
    for aims in alone.chain(together) {
        match room.land(&aims) {
            Ok(corner) if all.iter().any(|known| known.pins == corner.pins) => {}
            Ok(corner) => all.push(corner),
            Err(NoRoom::Unbounded) => {}
            Err(missed) => why = why.or(Some(missed)),
        }
    }
    match (all.is_empty(), why) {
        (true, why) => Err(why.unwrap_or(NoRoom::Unbounded)),
        (false, _) => Ok(all),
    }
}
