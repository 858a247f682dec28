//! What a card with room chooses: its aim as numbers, the best corner of what it allows, and the card with that chosen. The
//! ordinary solver makes the rest of it: no sheet, date or cost knows that there was a choice.

mod goal;
mod told;

use std::borrow::Cow;

use crate::assessment::{self, Which};
use crate::card::{Aim, Card};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::shelf_life::Draws;
use crate::solver::room::{BestCorner, NoRoom, Room};
use crate::solver::{Offer, Options, no_room, offer, solve};
use crate::vocabulary::Prized;

use goal::Goal;

/// The card with everything chosen that it leaves room for; a card without room as it is. `None` where nothing can be chosen,
/// which is said.
pub fn chosen<'a>(
    card: &'a Card,
    house: &House,
    options: &Options,
    found: &mut Vec<Diagnostic>,
) -> Option<Cow<'a, Card>> {
    if !card.has_room() {
        return Some(Cow::Borrowed(card));
    }
    match choose(card, house, options) {
        Ok((chosen, notes)) => {
            found.extend(notes.into_iter().map(|d| d.in_file(&card.file)));
            Some(chosen)
        }
        Err(why) => {
            found.extend(why.into_iter().map(|d| d.in_file(&card.file)));
            None
        }
    }
}

fn choose<'a>(
    card: &'a Card,
    house: &House,
    options: &Options,
) -> Result<(Cow<'a, Card>, Vec<Diagnostic>), Vec<Diagnostic>> {
    // What cannot even be looked up, and a card without an aim, the ordinary solver says.
    let Some(offer) = offer(card, house, options) else {
        return beyond(card).map_or(Ok((Cow::Borrowed(card), Vec::new())), |d| Err(vec![d]));
    };
    if offer.room.freedoms() == 0 {
        return Ok((Cow::Borrowed(card), nothing_free(card).into_iter().collect()));
    }
    let Some(aim) = &card.aim else { return Ok((Cow::Borrowed(card), Vec::new())) };
    let refuse = |why: NoRoom| no_room(card, &offer.room, &why);
    let (corner, goal, how) = match aim.value {
        Aim::Least(of) => {
            let goal = Goal::of(of, card, &offer, house)?;
            (offer.room.land(std::slice::from_ref(&goal.per_gram)).map_err(refuse)?, Some(goal), None)
        }
        Aim::Most(Prized::Life) => {
            let (corner, how) = longest(card, house, options, &offer).map_err(refuse)?;
            (corner, None, Some(how))
        }
    };
    let mut chosen = offer.chosen(card, &corner);
    chosen.landed = Some(told::landed(card, &offer, &corner, goal.as_ref(), how));
    Ok((Cow::Owned(chosen), Vec::new()))
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

/// The corner that keeps longest in the store that the card is planned for; of equal ones the first. Life goes in steps, so
/// no slope leads to it: the ends of every range and of every open part are dated, each by the one judgement.
fn longest(card: &Card, house: &House, options: &Options, offer: &Offer) -> Result<(BestCorner, String), NoRoom> {
    let corners = corners(&offer.room)?;
    let days = |corner: &BestCorner| {
        let solved = solve(&marked(offer.chosen(card, corner)), house, options).solved?;
        let draws = Draws { draws: DRAWS, ..Draws::default() };
        let (judged, _) = assessment::assess(&solved, house, chrono::NaiveDate::default(), Which::Planned, draws);
        judged.stores.get(judged.planned)?.days
    };
    let dated: Vec<(Option<u32>, BestCorner)> = corners.into_iter().map(|corner| (days(&corner), corner)).collect();
    let many = dated.len();
    let (most, least) = (dated.iter().filter_map(|d| d.0).max(), dated.iter().filter_map(|d| d.0).min());
    let has_none = dated.iter().any(|(days, _)| days.is_none());
    let how = match (most, least) {
        (Some(most), Some(least)) if most > least => {
            format!("of {many} corners dated the longest: {least} to {most} days")
        }
        (Some(most), _) if has_none => format!("of {many} corners dated one that has a date: {most} days"),
        (Some(most), _) => format!("all {many} corners that were dated keep {most} days: the first of them"),
        (None, _) => format!("none of {many} corners has a date: the first of them"),
    };
    let first = dated.into_iter().find(|(days, _)| *days == most);
    first.map(|(_, corner)| (corner, how)).ok_or(NoRoom::Crowded)
}

/// A card of which everything is chosen, so that the solver takes it.
fn marked(card: Card) -> Card {
    Card { landed: Some(crate::card::Landed::default()), ..card }
}

/// The corners at the ends of each range and of each open part, each once, in card order.
fn corners(room: &Room) -> Result<Vec<BestCorner>, NoRoom> {
    let n = room.lines.len();
    let kinds = room.ranges.iter().map(|range| {
        room.lines.iter().map(|line| crate::properties::amount_for(range.kind, &line.joins)).collect::<Vec<f64>>()
    });
    let parts = (0..n).filter(|&i| room.is_open(i)).map(|i| (0..n).map(|j| f64::from(u8::from(i == j))).collect());
    let mut all: Vec<BestCorner> = Vec::new();
    let mut why = None;
    for aim in kinds.chain(parts) {
        for sign in [-1.0, 1.0] {
            match room.land(&[aim.iter().map(|x| sign * x).collect()]) {
                Ok(corner) if all.iter().any(|known| known.pins == corner.pins) => {}
                Ok(corner) => all.push(corner),
                Err(NoRoom::Unbounded) => {}
                Err(missed) => why = why.or(Some(missed)),
            }
        }
    }
    match (all.is_empty(), why) {
        (true, why) => Err(why.unwrap_or(NoRoom::Unbounded)),
        (false, _) => Ok(all),
    }
}
