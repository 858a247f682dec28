//! `menu`: the drinks that are sold, side by side, and what an event of them takes.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use serde::Serialize;

use crate::assessment::IdentityQuestion;
use crate::cost::{SoldMeasure, quantity};
use crate::diagnostic::once::without_repeats;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::drinks::{Figures, Glass, bottles_to_state};
use crate::house::{House, SourceFile};
use crate::lots::LotBook;
use crate::lots::on_shelf::{bottled_ahead, on_shelf};
use crate::menu::{
    self, AllergenMark, Gone, ListedDrink, Menu, OccasionAsked, Party, Sales, Served, TakenDown, Undressed, listed,
    mark, rows, served, undressed, without,
};
use crate::plan::{LeftOut, board};
use crate::safety::STANDING_NOTE;
use crate::spelling::fold;
use crate::vocabulary::Market;

use super::caution::CautionView;
use super::date::AllergenView;
use super::money::{Money, ShareOfMoney};
use super::plan::PlanView;
use super::serve::refused_parts;
use super::{Report, View};

/// The answer of `menu`.
pub type MenuReport = Report<MenuView>;

/// A menu.
#[derive(Clone, Debug, Serialize)]
pub struct MenuView {
    pub(crate) house: Option<String>,
    /// The markets whose lists the allergens are of; all, where the house names none.
    pub(crate) markets: Vec<Market>,
    /// The drinks, in its order.
    pub drinks: Vec<MenuDrinkView>,
    /// The drinks of it that cannot be made.
    pub left_out: Vec<LeftOut>,
    /// The drink that leaves most when it is sold, of those whose cost is whole and whose price is known.
    pub(crate) earns_most: Option<String>,
    /// The one that leaves most for each minute of the work on its card.
    pub(crate) earns_most_a_minute: Option<String>,
    /// Which bought bottles to state, and how.
    pub(crate) bottles_to_state: Option<String>,
    pub(crate) without: Vec<WithoutView>,
    pub(crate) event: Option<EventView>,
    pub(crate) note: &'static str,
}

/// A drink of a menu.
#[derive(Clone, Debug, Serialize)]
pub struct MenuDrinkView {
    /// What it is called.
    pub of: String,
    /// What a guest pays, tax in it; null where nothing says it.
    pub(crate) price: Option<Money>,
    /// Whether the margin of the house gives that price, and not the menu.
    pub(crate) price_by_margin: bool,
    pub(crate) cost: Option<Money>,
    /// Whether everything in it has a price; if not it costs at least as much.
    pub(crate) cost_complete: bool,
    /// The work in that cost; null where nobody has said what it costs, and then it is not in it.
    pub(crate) labour: Option<Money>,
    pub(crate) pour_cost: Option<ShareOfMoney>,
    /// What stays of the price without tax after the cost of the glass.
    pub(crate) earns: Option<Money>,
    /// The work on its card, minutes.
    pub(crate) minutes: Option<f64>,
    pub(crate) earns_a_minute: Option<Money>,
    /// What one glass holds.
    #[serde(flatten)]
    pub figures: Figures,
    /// With the most and with the least water that its ice may give, % vol.
    pub(crate) abv_range_pct: (f64, f64),
    /// With the least and with the most of it, ml.
    pub(crate) volume_range_ml: (f64, f64),
    /// Ends that lie apart only where what is poured has itself more or less water.
    pub(crate) uk_units_range: (f64, f64),
    pub(crate) kcal_range: (f64, f64),
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    /// How each allergen of the lists stands to it.
    pub matrix: Vec<MarkView>,
    pub(crate) cautions: Vec<CautionView>,
    /// What a part of it is refused for in every store: it is not served.
    pub(crate) refused_parts: Vec<String>,
    /// What its card still asks: of a line that lacks the figures are too low.
    pub(crate) unidentified: Vec<IdentityQuestion>,
}

/// An allergen of the lists, and how it stands to a drink.
#[derive(Clone, Debug, Serialize)]
pub struct MarkView {
    /// As the list has it.
    pub allergen: &'static str,
    /// How it stands.
    pub mark: AllergenMark,
}

/// What falls away with something that is not there.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct WithoutView {
    pub(crate) without: String,
    pub(crate) drinks: Vec<TakenDown>,
    /// Drinks that are made without it, and lack it as a garnish.
    pub(crate) undressed: Vec<Undressed>,
}

/// An event: what is served, and the plan of it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct EventView {
    pub(crate) guests: u64,
    pub(crate) hours: f64,
    pub(crate) drinks_per_guest_and_hour: f64,
    pub(crate) drinks_per_guest_and_hour_stated: bool,
    pub(crate) reserve: f64,
    pub(crate) reserve_stated: bool,
    pub(crate) on: NaiveDate,
    pub(crate) on_stated: bool,
    pub(crate) glasses: u64,
    pub(crate) drinks: Vec<ServedView>,
    /// Drinks with a share that fall away with what is not there: the others take it.
    pub(crate) fallen: Vec<String>,
    /// What is made and ordered for it, what the board has on hand counted.
    pub(crate) plan: PlanView,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct ServedView {
    /// The drink.
    pub of: String,
    pub(crate) share: f64,
    pub(crate) glasses: u64,
}

impl View for MenuView {
    const VERB: &'static str = "menu";
    const KEYS: &'static str =
        "house markets drinks left_out earns_most earns_most_a_minute bottles_to_state without event note";

    fn stops(&self) -> bool {
        let stops = |drink: &MenuDrinkView| drink.stops().next().is_some();
        self.drinks.iter().any(|drink| stops(drink) || !drink.unidentified.is_empty())
    }

    fn leaves_out(&self) -> bool {
        !self.left_out.is_empty() || self.event.as_ref().is_some_and(|event| event.plan.leaves_out())
    }
}

/// What is asked of a menu.
#[derive(Clone, Copy, Debug)]
pub struct MenuQuestion<'a> {
    /// The menu.
    pub source: &'a SourceFile,
    /// The board beside it: closed days, and how things are bought for an event.
    pub board: Option<&'a SourceFile>,
    /// What is not there.
    pub without: &'a [String],
    /// The book of lots.
    pub book: Option<&'a LotBook>,
    /// Of an event.
    pub event: OccasionAsked,
    /// From this day on things can be made; prices are as old as they are on it.
    pub today: NaiveDate,
}

impl MenuView {
    /// The menu of a house. `None` where it cannot be read.
    pub fn of(question: MenuQuestion<'_>, house: &House, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let menu = menu::read(&question.source.text, &question.source.file, found);
        if any_error(found) {
            return None;
        }
        let (drinks, left_out) = listed(&menu, house, Some(question.today), found);
        let missing = question.without.iter().filter_map(|name| Gone::find(name, house, &drinks, found));
        let without: Vec<WithoutView> =
            missing.collect::<Vec<_>>().iter().map(|gone| WithoutView::new(gone, &drinks)).collect();
        let party = Party::settle(&menu, question.event, found);
        let party = party.filter(|party| !is_over(party, question, &menu, found));
        let fallen: Vec<String> = without.iter().flat_map(|gone| &gone.drinks).map(|of| of.drink.clone()).collect();
        let event = party.and_then(|party| EventView::of(&menu, party, question, &fallen, house, found));
        let markets = &house.settings.markets;
        let rows = rows(markets);
        let bottles_to_state =
            bottles_to_state(drinks.iter().map(|drink| &drink.glass.solved), &house.settings.markets);
        let drinks: Vec<MenuDrinkView> = drinks.iter().map(|drink| MenuDrinkView::new(drink, &rows)).collect();
        // one without its work earns more than one with it only on paper
        let has_work = drinks.iter().any(|drink| drink.labour.is_some());
        let is_fair = |drink: &MenuDrinkView| !has_work || drink.labour.is_some();
        let most = |of: fn(&MenuDrinkView) -> Option<Money>| {
            let known =
                drinks.iter().filter(|d| d.is_whole() && is_fair(d)).filter_map(|d| Some((of(d)?.amount, &d.of)));
            // of two alike the first of the menu
            known.rev().max_by_key(|(amount, _)| *amount).map(|(_, name)| name.clone())
        };
        // what the plan of an event finds, the list of the drinks has found
        *found = without_repeats(std::mem::take(found));
        Some(Self {
            house: house.settings.name.clone(),
            markets: markets.clone(),
            left_out,
            earns_most: most(|drink| drink.earns),
            earns_most_a_minute: most(|drink| drink.earns_a_minute),
            drinks,
            bottles_to_state,
            without,
            event,
            note: STANDING_NOTE,
        })
    }
}

impl MenuDrinkView {
    /// A drink of a menu, with its marks for these allergens.
    pub fn new(drink: &ListedDrink<'_>, rows: &[&'static str]) -> Self {
        let Glass { figures, range, judged, cost, .. } = &drink.glass;
        let selling = cost.as_ref().and_then(|cost| cost.sold).map(|SoldMeasure { selling, .. }| selling);
        let money = |amount: Decimal| cost.as_ref().map(|cost| Money { amount, currency: cost.of_many.currency });
        let written = drink.written.price.map(|price| Money { amount: price.value.0, currency: price.value.1 });
        let by_margin = || selling.and_then(|selling| money(selling.with_tax.unwrap_or(selling.net)));
        let each = cost.as_ref().map(|cost| cost.each);
        let earns = selling.and_then(|selling| selling.net.checked_sub(each?));
        let minutes = drink.glass.minutes_at_the_bar();
        let a_minute = minutes.and_then(quantity).and_then(|minutes| earns?.checked_div(minutes));
        let ends = |of: fn(&Figures) -> f64| {
            let (dry, wet) = (of(&range.0), of(&range.1));
            (dry.min(wet), dry.max(wet))
        };
        Self {
            of: drink.card.name.value.clone(),
            price: written.or_else(by_margin),
            price_by_margin: written.is_none(),
            cost: each.and_then(money),
            cost_complete: cost.as_ref().is_some_and(|cost| cost.of_many.complete),
            labour: cost.as_ref().and_then(|cost| money(cost.labour?)),
            pour_cost: selling.map(|selling| ShareOfMoney(selling.pour_cost)),
            earns: earns.and_then(money),
            minutes,
            earns_a_minute: a_minute.and_then(money),
            figures: *figures,
            abv_range_pct: ends(|f| f.abv_pct),
            volume_range_ml: ends(|f| f.volume_ml),
            uk_units_range: ends(|f| f.uk_units),
            kcal_range: ends(|f| f.kcal),
            allergens: AllergenView::from(judged),
            matrix: rows.iter().map(|&allergen| MarkView { allergen, mark: mark(allergen, judged) }).collect(),
            cautions: CautionView::parted(&judged.cautions).0,
            refused_parts: refused_parts(judged),
            unidentified: judged.unidentified.clone(),
        }
    }

    /// Why it is not served.
    pub(crate) fn stops(&self) -> impl Iterator<Item = &str> {
        let stops = self.cautions.iter().filter(|caution| caution.stops()).map(|caution| &*caution.message);
        stops.chain(self.refused_parts.iter().map(String::as_str))
    }

    /// Whether all that is in it is on its card and has a price.
    fn is_whole(&self) -> bool {
        self.cost_complete && self.unidentified.is_empty()
    }
}

impl WithoutView {
    fn new(gone: &Gone, drinks: &[ListedDrink<'_>]) -> Self {
        Self { without: gone.name.clone(), drinks: without(gone, drinks), undressed: undressed(gone, drinks) }
    }
}

impl EventView {
    fn of(
        menu: &Menu,
        party: Party,
        question: MenuQuestion<'_>,
        fallen: &[String],
        house: &House,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        let from = question.today;
        let of_house = question.board.map(|source| board::read(&source.text, &source.file, &house.customs(), found));
        let on = menu::day_of(&party, from, of_house.as_ref());
        if on < from || (on - from).num_days() > MOST_AHEAD {
            let title = format!("the event is on {on}, which is not from today to a year ahead");
            return Diagnostic::error(Code::OutOfRange, title)
                .help("write its day year first: --on 2026-12-12, or on = 2026-12-12 under [event]")
                .in_file(&menu.file)
                .refused(found);
        }
        let served = served(menu, &party, fallen, found)?;
        let is_fallen = |drink: &&menu::MenuDrink| fallen.iter().any(|of| fold(of) == fold(&drink.name.value));
        let fallen = menu.drinks.iter().filter(|drink| drink.share.is_some()).filter(is_fallen);
        let fallen = fallen.map(|drink| drink.name.value.clone()).collect();
        let mut board = menu::board_of(of_house, from, on);
        if let Some(closed) = menu::when_closed(&board, menu, on) {
            return closed.refused(found);
        }
        menu::put_on(&mut board, menu, Sales { weekly: false, event: Some((on, &served)) }, house, found);
        let on_the_day = question.book.map_or_else(Vec::new, |book| on_shelf(book, on, house, |_| None));
        let poured = board.pours.iter().flat_map(|pour| pour.drink.with_inner());
        let of_event = "the page of an event makes those glasses again; where its day is in the plan, stillroom plan --by-book pours the bottles first";
        found.extend(bottled_ahead(&on_the_day, poured.map(|(drink, _)| drink.name.as_str()), house, of_event));
        // of the board's products only what the event takes
        let inside = |entry: &board::Entry| {
            let cards = board.pours.iter().flat_map(|pour| pour.drink.with_inner());
            cards.into_iter().any(|(card, _)| fold(&card.name) == fold(&entry.name.value))
        };
        let kept: Vec<bool> = board.products.iter().map(inside).collect();
        let mut kept = kept.into_iter();
        board.products.retain(|_| kept.next() == Some(true));
        let plan = PlanView::planned(&board, &menu.file, house, from, found)?;
        let name = |place: usize| menu.drinks.get(place).map(|drink| drink.name.value.clone()).unwrap_or_default();
        let drinks =
            served.iter().map(|&Served { place, share, glasses }| ServedView { of: name(place), share, glasses });
        Some(Self {
            guests: party.guests,
            hours: party.hours,
            drinks_per_guest_and_hour: party.per_hour,
            drinks_per_guest_and_hour_stated: party.per_hour_stated,
            reserve: party.reserve,
            reserve_stated: party.reserve_stated,
            on,
            on_stated: party.on.is_some(),
            glasses: served.iter().map(|of| of.glasses).sum(),
            drinks: drinks.collect(),
            fallen,
            plan: PlanView { menu: None, ..plan },
        })
    }
}

/// Whether the menu still writes of an event that was; the drinks are shown without it. A day that is asked for is no
/// oversight.
fn is_over(party: &Party, question: MenuQuestion<'_>, menu: &Menu, found: &mut Vec<Diagnostic>) -> bool {
    let written = party.on.filter(|on| question.event.on.is_none() && *on < question.today);
    if let Some(on) = written {
        let title = format!("the event of {on} is over, and was left out");
        found.push(
            Diagnostic::warning(Code::OutOfRange, title)
                .help("take [event] out of the menu, or give it a new day")
                .in_file(&menu.file),
        );
    }
    written.is_some()
}

/// A year: as far as a plan reaches, days.
const MOST_AHEAD: i64 = 365;
