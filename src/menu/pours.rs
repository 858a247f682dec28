//! From what is sold to the board of a plan.

use std::sync::Arc;

use chrono::{Datelike, Days, NaiveDate, Weekday};

use crate::assessment::{IdentityQuestion, undated};
use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::drinks::glass::drink;
use crate::house::House;
use crate::plan::board::{Board, Entry};
use crate::plan::findings::day_text;
use crate::plan::{Glasses, LeftOut, Pour, Uses};
use crate::solver::Solved;

use super::file::{Menu, MenuDrink};
use super::listed::opened;
use super::occasion::{Party, Served};

/// What of a menu goes on a board.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sales<'a> {
    /// What is sold every week.
    pub weekly: bool,
    /// What an event takes on its day.
    pub event: Option<(NaiveDate, &'a [Served])>,
}

/// That nobody is there on the day of an event; there is no plan of it then.
pub(crate) fn when_closed(board: &Board, menu: &Menu, on: NaiveDate) -> Option<Diagnostic> {
    let place = menu.event.as_ref().and_then(|event| event.on).map_or_else(Span::default, |on| on.span);
    is_closed(board, on).then(|| {
        let title = format!("the event is on {}, when the house is closed", day_text(on));
        Diagnostic::error(Code::Contradiction, title)
            .at(place, "nobody is there to make it")
            .help("where the house opens for it, take the day out of `closed` and `closed_on` of plan.toml; or move the event")
            .in_file(&menu.file)
    })
}

/// Puts what is sold on a board. A drink that cannot be made, or that a caution stops, is reported and left out.
pub(crate) fn put_on(board: &mut Board, menu: &Menu, sales: Sales<'_>, house: &House, found: &mut Vec<Diagnostic>) {
    let event = sales.event.filter(|(on, _)| {
        let closed = when_closed(board, menu, *on);
        let is_open = closed.is_none();
        found.extend(closed);
        is_open
    });
    for (place, written) in menu.drinks.iter().enumerate() {
        let weekly = written.sold.as_ref().filter(|sold| sales.weekly && sold.value != Uses::default());
        found.extend(
            weekly.and_then(|sold| sold_when_closed(&written.name.value, sold, board)).map(|d| d.in_file(&menu.file)),
        );
        let weekly = weekly.map(|sold| Glasses::Weekly(sold.value.clone()));
        let at_event = event.and_then(|(on, served)| {
            let of = served.iter().find(|of| of.place == place)?;
            Some(Glasses::Once(on, of.glasses))
        });
        let asked: Vec<Glasses> = weekly.into_iter().chain(at_event).collect();
        if asked.is_empty() {
            continue;
        }
        let mut own = Vec::new();
        let solved = pourable(written, house, &mut own).map(Arc::new);
        own = own.into_iter().map(|said| said.in_file(&menu.file)).collect();
        if solved.is_none() {
            board.left_out.push(LeftOut::by(&written.name.value, &own));
        }
        found.append(&mut own);
        let Some(solved) = solved else { continue };
        board.pours.extend(asked.into_iter().map(|glasses| Pour {
            drink: Arc::clone(&solved),
            glasses,
            asked_at: (Arc::clone(&menu.file), written.name.span),
        }));
    }
}

/// Neither a board nor a menu says of anything how much of it goes.
pub(crate) fn nothing_to_plan(menu: Option<&Menu>) -> Diagnostic {
    const ADD: &str = "[product.\"Lime cordial\"] with par = \"2 L\" and use = \"6 L a week\" below it";
    let (title, help) = match menu {
        Some(menu) => (
            "nothing is planned: no product is on the board, and the menu does not say what is sold",
            format!("in {}, below a drink: sold = 70, the glasses of a week; or in plan.toml: {ADD}", menu.file),
        ),
        None => ("no product is on the board", format!("add one: {ADD}; or say in menu.toml beside it what is sold")),
    };
    Diagnostic::error(Code::MissingKey, title).help(help)
}

/// What is sold on a weekday on which the house is closed.
fn sold_when_closed(name: &str, sold: &Spanned<Uses>, board: &Board) -> Option<Diagnostic> {
    let days = sold.value.on.iter().zip(board.closed).zip(0u8..);
    let day = days.filter(|((sold, closed), _)| *closed && sold.is_some_and(|n| n > 0)).map(|(_, day)| day).next()?;
    let day = Weekday::try_from(day).ok()?;
    Some(
        Diagnostic::error(Code::Contradiction, format!("`{name}` is sold on {day}, when the house is closed"))
            .at(sold.span, "nothing is sold on a closed day")
            .help("take the day out of `sold`, or out of `closed` in plan.toml"),
    )
}

fn is_closed(board: &Board, on: NaiveDate) -> bool {
    let weekday = on.weekday().num_days_from_monday() as usize;
    board.closed.get(weekday) == Some(&true) || board.closed_on.contains(&on)
}

fn pourable(written: &MenuDrink, house: &House, found: &mut Vec<Diagnostic>) -> Option<Solved> {
    let (card, house) = opened(written, house, found)?;
    let solved = drink(&card, &house, found)?;
    let (judged, _) = undated(&solved, &house);
    let name = &written.name;
    if let Some(stop) = judged.stops().next() {
        return Diagnostic::error(Code::Stopped, format!("`{}` is not planned: a caution says stop", name.value))
            .at(name.span, stop.to_string())
            .help(format!("stillroom serve \"{}\" says more", name.value))
            .refused(found);
    }
    let open: Vec<Diagnostic> = judged.unidentified.iter().map(IdentityQuestion::diagnostic).collect();
    let is_known = open.is_empty();
    found.extend(open);
    is_known.then_some(solved)
}

/// The board of an event alone: its glasses, the house's closed days, how things are bought and what is on hand. What the week takes
/// until then is not on it.
pub(crate) fn board_of(of_house: Option<Board>, from: NaiveDate, on: NaiveDate) -> Board {
    let of_house = of_house.unwrap_or_default();
    let days = (on - from).num_days().clamp(0, 365) as i32 + 1;
    let on_hand = |entry: Entry| Entry { par: None, uses: None, use_on: Default::default(), ..entry };
    Board {
        from: Some(from),
        days,
        closed: of_house.closed,
        closed_on: of_house.closed_on,
        ingredients: of_house.ingredients,
        products: of_house.products.into_iter().map(on_hand).collect(),
        ..Board::default()
    }
}

/// Where nobody says on which day an event is, it is counted as so many days ahead (ours).
const AHEAD: Days = Days::new(14);

/// The day that an event is counted on: where none is stated, the first open one from then on.
pub(crate) fn day_of(party: &Party, from: NaiveDate, board: Option<&Board>) -> NaiveDate {
    let ahead = from.checked_add_days(AHEAD).unwrap_or(from);
    let open = || ahead.iter_days().take(28).find(|day| board.is_none_or(|board| !is_closed(board, *day)));
    party.on.or_else(open).unwrap_or(ahead)
}
