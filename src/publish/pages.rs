//! What stands on the page of a house: its cards and drinks, its menu, its book of lots.

use std::collections::BTreeSet;
use std::path::PathBuf;

use chrono::NaiveDate;

use crate::assessment::most;
use crate::card::Card;
use crate::cost::SellAsked;
use crate::diagnostic::{Diagnostic, Severity, Topic};
use crate::house::{self, House, SourceFile};
use crate::lots::LotBook;
use crate::lots::ahead::poured_as;
use crate::lots::not_on_book::NotOnBook;
use crate::lots::recall::{PulledLot, chain, pulled};
use crate::menu::{self, OccasionAsked};
use crate::render::page::{self, PageEntry, SheetHtml};
use crate::render::pulled_words;
use crate::report::lots::{DueView, RecallView};
use crate::report::menu::{MenuQuestion, MenuView};
use crate::report::publish::{PageKind, PublishedPage};
use crate::report::{Report, View};
use crate::solver::{Options, solve};
use crate::spelling::fold;

use super::card::PageCard;
use super::site::{CardTexts, place};

/// What was opened of a house.
pub(crate) struct OpenedHouse {
    pub(crate) house: House,
    /// The folder of its book.
    pub(crate) root: PathBuf,
    pub(crate) book: LotBook,
    /// What it sells, of a house that is published whole.
    pub(crate) menu: Option<SourceFile>,
    /// The cards by their names.
    pub(crate) cards: Vec<(String, PageCard)>,
}

impl OpenedHouse {
    /// More of its cards.
    pub(crate) fn add(&mut self, cards: Vec<(String, PageCard)>, menu: Option<SourceFile>) {
        self.cards.extend(cards);
        self.menu = self.menu.take().or(menu);
    }
}

/// What a page is written with.
#[derive(Clone, Copy)]
pub(crate) struct PageWith {
    pub(crate) today: NaiveDate,
    pub(crate) with_costs: bool,
    pub(crate) with_lots: bool,
}

/// All that stands on a page, as it grows.
#[derive(Default)]
pub(crate) struct Pages {
    pub(crate) entries: Vec<PageEntry>,
    pub(crate) listed: Vec<PublishedPage>,
    /// What the solver of the page is given.
    pub(crate) texts: Vec<CardTexts>,
    /// What `house.toml` says.
    pub(crate) settings: Option<String>,
}

impl Pages {
    /// A house on the page.
    pub(crate) fn take(&mut self, of: &OpenedHouse, asked: PageWith, found: &mut Vec<Diagnostic>) {
        let first = self.entries.len();
        let pulled = pulled(&of.book);
        // what is wrong with it stands on its own page
        let read = |source: &SourceFile| menu::read(&source.text, &source.file, &mut Vec::new());
        let menu = of.menu.as_ref().map(read).unwrap_or_default();
        for (name, card) in &of.cards {
            let names = within(name, card, of);
            // a drink is poured of what was bottled of it
            let is_in = |product: &str| {
                names.contains(&fold(product))
                    || poured_as(product, &of.house).is_some_and(|drink| names.contains(&drink))
            };
            let lots: Vec<_> = pulled.iter().filter(|of| is_in(&of.lot.recorded.product)).collect();
            self.card((name, card), &lots, (asked, menu.sells_at(name)), found);
        }
        if let Some(source) = &of.menu {
            self.menu(source, (&of.house, first), &pulled, asked, found);
        }
        if asked.with_lots {
            self.lots(of, &pulled, asked);
        }
    }

    fn add(&mut self, kind: PageKind, name: &str, stops: bool, lots: &[&PulledLot<'_>], html: SheetHtml) -> String {
        let place = place(kind, name, &self.entries);
        self.listed.push(PublishedPage {
            kind,
            product: name.to_owned(),
            place: place.clone(),
            stopped: stops,
            pulled_lots: lots.iter().map(|of| of.lot.lot.clone()).collect(),
        });
        let pulled = lots.iter().map(|of| pulled_words(of)).collect();
        self.entries.push(PageEntry {
            kind,
            place: place.clone(),
            name: name.to_owned(),
            stops,
            pulled,
            html,
            charts: Vec::new(),
        });
        place
    }

    fn card(
        &mut self,
        (name, card): (&str, &PageCard),
        lots: &[&PulledLot<'_>],
        (asked, sell): (PageWith, SellAsked),
        found: &mut Vec<Diagnostic>,
    ) {
        // what is wrong stands on the page of the card; here it is said that something is
        let wrong = card.found.iter().filter(|d| d.severity > Severity::Note);
        found.extend(wrong.map(|d| Diagnostic { severity: Severity::Warning, ..d.clone() }));
        if card.card.as_ref().is_some_and(Card::is_drink) {
            let report = card.served(sell, asked.today).of_product(Some(name));
            let stops = report.answer().is_none_or(|view| view.stops() || !view.unidentified.is_empty());
            let id = self.add(PageKind::Drink, name, stops, lots, page::glass(&report, asked.with_costs));
            self.carry(PageKind::Drink, id, card, asked);
            return;
        }
        let options = Options::default();
        let report = card.solved(&options, asked.today).of_product(Some(name));
        let cost = asked.with_costs.then(|| card.costed(&options, asked.today));
        let stops = report.answer().is_none_or(|view| view.stops() || !view.unidentified.is_empty());
        let id = self.add(PageKind::Card, name, stops, lots, page::sheet(&report, cost.as_ref()));
        if let Some(entry) = self.entries.last_mut() {
            entry.charts = card.charts();
        }
        self.carry(PageKind::Card, id, card, asked);
    }

    /// Gives the solver what a card or a drink is made of.
    fn carry(&mut self, kind: PageKind, id: String, card: &PageCard, asked: PageWith) {
        if let Some(of) = &card.card
            && let Ok((settings, card_text)) = house::for_page(of, &card.house, asked.with_costs)
        {
            self.settings = self.settings.take().or(settings);
            // most books have nothing that grew, and no card is solved for it
            let solved = card
                .house
                .of_book
                .saw_any_growth()
                .then(|| solve(of, &card.house, &Options::default()).solved)
                .flatten();
            let grew_days = solved.and_then(|solved| most::grew_days(&solved, &card.house));
            self.texts.push(CardTexts { kind, id, card: card_text, grew_days });
        }
    }

    /// The menu of the house whose cards stand from `first` on.
    fn menu(
        &mut self,
        source: &SourceFile,
        (house, first): (&House, usize),
        pulled: &[PulledLot<'_>],
        asked: PageWith,
        found: &mut Vec<Diagnostic>,
    ) {
        let (without, event) = (&[][..], OccasionAsked::default());
        let question = MenuQuestion { source, board: None, without, book: None, event, today: asked.today };
        let mut of_menu = Vec::new();
        let view = MenuView::of(question, house, &mut of_menu);
        let wrong = of_menu.iter().filter(|d| d.severity > Severity::Note && d.code.topic() != Topic::Cost);
        found.extend(wrong.map(|d| Diagnostic { severity: Severity::Warning, ..d.clone() }));
        let report = Report::new(view, &of_menu, |_| None).of_product(Some(MENU));
        let drinks: Vec<_> = self.entries.iter().skip(first).filter(|of| of.kind == PageKind::Drink).collect();
        let place = |name: &str| Some(drinks.iter().find(|of| fold(&of.name) == fold(name))?.place.clone());
        let html = page::menu(&report, asked.with_costs, place);
        let stops = report.answer().is_none_or(View::stops);
        // what is pulled of a drink is pulled of the menu
        let sold: Vec<String> = report.answer().iter().flat_map(|view| &view.drinks).map(|of| fold(&of.of)).collect();
        let pages = self.listed.iter().skip(first).filter(|page| sold.contains(&fold(&page.product)));
        let codes: Vec<&String> = pages.flat_map(|page| &page.pulled_lots).collect();
        let lots: Vec<_> = pulled.iter().filter(|of| codes.contains(&&of.lot.lot)).collect();
        self.add(PageKind::Menu, MENU, stops, &lots, html);
    }

    /// The board of a book, and every lot that is on it.
    fn lots(&mut self, of: &OpenedHouse, pulled: &[PulledLot<'_>], asked: PageWith) {
        let OpenedHouse { house, book, menu, .. } = of;
        // what is wrong with the menu stands on its page
        let mut of_menu = Vec::new();
        let read = menu.as_ref().map(|source| menu::read(&source.text, &source.file, &mut of_menu)).unwrap_or_default();
        let (drinks, _) = menu::listed(&read, house, None, &mut of_menu);
        let not_on_book = NotOnBook::of(house, book);
        let view = DueView::new(book, house, asked.today);
        let board = Report::new(Some(view), &[], |_| None).of_product(Some(BOARD));
        let mut places = Vec::new();
        for line in board.answer().iter().flat_map(|view| &view.lots) {
            let chain = chain(book, &line.lot);
            let view = chain.map(|chain| RecallView::new(house, book, &chain, (&drinks, &not_on_book), asked.today));
            let report = Report::new(view, &[], |_| None).of_product(Some(&line.lot));
            let lots: Vec<_> = pulled.iter().filter(|of| of.lot.lot == line.lot).collect();
            places.push((line.lot.clone(), self.add(PageKind::Lot, &line.lot, false, &lots, page::lot(&report))));
        }
        let place = |lot: &str| Some(places.iter().find(|(code, _)| code == lot)?.1.clone());
        let html = page::board(&board, place);
        self.add(PageKind::Board, BOARD, false, &[], html);
    }
}

/// What the menu and the board are called in the list.
const MENU: &str = "The menu";
const BOARD: &str = "What is due";

/// The folded names of a card and of all that goes into it, through the cards of the house.
fn within(name: &str, card: &PageCard, of: &OpenedHouse) -> BTreeSet<String> {
    let mut names = BTreeSet::from([fold(name)]);
    let mut open: Vec<&PageCard> = vec![card];
    while let Some(card) = open.pop() {
        for part in card.parts().map(fold).chain(card.put_on().into_iter().map(|name| fold(&name))) {
            let inner = of.cards.iter().find(|(name, _)| fold(name) == part);
            if names.insert(part) {
                open.extend(inner.map(|(_, card)| card));
            }
        }
    }
    names
}
