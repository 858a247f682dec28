//! What is asked of a plan: the board, what is on hand, what is sold, from which day.

use std::sync::Arc;

use chrono::{Days, NaiveDate};

use crate::diagnostic::{Diagnostic, any_error};
use crate::house::{House, SourceFile};
use crate::lots::on_shelf::{bottled_ahead, not_counted, on_shelf, undated};
use crate::lots::sheet::FrozenSheet;
use crate::lots::{FOLDER, LotBook, LotState};
use crate::menu::{self, OccasionAsked, Party, Sales};
use crate::plan::board::Board;
use crate::plan::{board, on_hand};

use super::plan::PlanView;

#[derive(Clone, Copy)]
pub(crate) struct PlanQuestion<'a> {
    /// The board; without one what the menu takes is planned.
    pub(crate) board: Option<&'a SourceFile>,
    pub(crate) counted: Option<&'a SourceFile>,
    /// The book of lots.
    pub(crate) book: Option<&'a LotBook>,
    /// Reads what a lot was made from.
    pub(crate) sheet: &'a dyn Fn(&LotState) -> Option<FrozenSheet>,
    /// Whether what the book has left is on hand.
    pub(crate) by_book: bool,
    /// What is sold.
    pub(crate) menu: Option<&'a SourceFile>,
    pub(crate) from: Option<NaiveDate>,
    /// The first day where neither says one.
    pub today: NaiveDate,
}

impl PlanView {
    /// Plans a board. `None` where something must be mended first.
    pub(crate) fn of_board(question: PlanQuestion<'_>, house: &House, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let customs = house.customs();
        let mut board = match question.board {
            Some(source) => board::read(&source.text, &source.file, &customs, found),
            None => Board::bare(),
        };
        if let Some(counted) = question.counted {
            let rows = on_hand::read(&counted.text, &counted.file, &customs, found);
            on_hand::put_on(&mut board, rows, &counted.file, house, found);
        }
        let from = question.from.or(board.from).unwrap_or(question.today);
        let of_book = question.book.map_or_else(Vec::new, |book| on_shelf(book, from, house, question.sheet));
        let menu = question.menu.map(|source| menu::read(&source.text, &source.file, found));
        let mut of_book = on_hand::not_counted(&board, of_book);
        if question.by_book {
            found.extend(question.book.iter().flat_map(|book| undated(book, from)));
            on_hand::put_on(&mut board, std::mem::take(&mut of_book), &FOLDER.into(), house, found);
        }
        if any_error(found) {
            return None;
        }
        let file = Arc::clone(&question.board.or(question.menu)?.file);
        if board.products.is_empty() && menu.as_ref().is_none_or(|menu| !menu.takes_anything()) {
            return menu::nothing_to_plan(menu.as_ref()).in_file(&file).refused(found);
        }
        let Some(menu) = menu else {
            let view = Self::planned(&board, &file, house, from, found)?;
            found.extend(not_counted(&of_book, view.names()));
            return Some(view);
        };
        let party = Party::settle(&menu, OccasionAsked::default(), found);
        let last = from.checked_add_days(Days::new(board.days.unsigned_abs().into())).unwrap_or(from);
        let on = party.and_then(|party| party.on).filter(|on| (from..last).contains(on));
        let at_event = party.filter(|_| on.is_some()).and_then(|party| menu::served(&menu, &party, &[], found));
        let sales = Sales { weekly: true, event: on.zip(at_event.as_deref()) };
        menu::put_on(&mut board, &menu, sales, house, found);
        let drinks = board.pours.iter().flat_map(|pour| pour.drink.with_inner());
        let help = "the plan makes those glasses again: --by-book pours the bottles first";
        found.extend(bottled_ahead(&of_book, drinks.map(|(drink, _)| drink.name.as_str()), house, help));
        let mut view = Self::planned(&board, &file, house, from, found)?;
        found.extend(not_counted(&of_book, view.names()));
        if let Some(sales) = &mut view.menu {
            sales.file = menu.file.to_string();
            // of an event without shares nothing is added, and that is said
            sales.event_on = on.filter(|_| at_event.is_some());
            sales.event_elsewhere = party.is_some() && on.is_none();
            sales.event_not_planned = on.filter(|_| at_event.is_none());
        }
        Some(view)
    }
}
