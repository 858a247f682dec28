//! `plan`: what is done on each day, what is ordered for it, and what cannot be met.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use serde::{Serialize, Serializer};

use crate::cost::{Bill, Currency, bill};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::plan::board::Board;
use crate::plan::calendar;
use crate::plan::findings::plan_findings;
use crate::plan::orders::{Order, Timing, by_fruit};
use crate::plan::tables::tasks;
use crate::plan::{Glasses, Kitchen, LeftOut, Plan, Pour, PrepUnit, Why, settle};
use crate::safety::STANDING_NOTE;
use crate::shelf_life::Draws;

use super::money::Money;
use super::plan_bottles::{InsideOfBottles, of_bottles};
use super::plan_fresh::FreshView;
pub(crate) use super::plan_fresh::InThousandths;
use super::plan_not_ordered::NotOrderedView;
use super::plan_product::PlanProductView;
use super::plan_step::PrepView;
use super::{Report, View};

pub(crate) type PlanReport = Report<PlanView>;

/// A dated plan with its order list.
#[derive(Clone, Debug, Serialize)]
pub struct PlanView {
    pub(crate) house: Option<String>,
    pub(crate) from: NaiveDate,
    pub(crate) days: i32,
    pub(crate) closed: Vec<NaiveDate>,
    pub(crate) prep: Vec<PrepView>,
    pub(crate) orders: Vec<OrderView>,
    pub(crate) cost: Option<Money>,
    /// The same without what has no price; null where nothing can be added up.
    pub(crate) cost_at_least: Option<Money>,
    pub(crate) currency: Option<Currency>,
    /// Whether nothing that is ordered has a price.
    pub(crate) nothing_priced: bool,
    pub(crate) short: Vec<ShortView>,
    /// Drinks and products that cannot be planned: nothing is made or ordered for them.
    pub(crate) left_out: Vec<LeftOut>,
    /// What is sold beside the board; null where no menu stands beside it.
    pub(crate) menu: Option<SalesView>,
    /// The drinks that are poured of bottles that stand there, and how many glasses of each.
    pub(crate) of_bottles: BTreeMap<String, u64>,
    /// The drinks of which a drink inside is poured of bottles of its own.
    pub(crate) inside_of_bottles: Vec<InsideOfBottles>,
    /// What its glasses take and no order has; null where they take no ice and no garnish.
    pub(crate) not_ordered: Option<NotOrderedView>,
    /// What is judged of each product of the board and of those that go into it; of those not planned as well.
    pub(crate) products: Vec<PlanProductView>,
    pub(crate) note: &'static str,
}

/// What a menu gives a plan, and of which products the board's own use counts in its place.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct SalesView {
    pub(crate) file: String,
    pub(crate) glasses_a_week: u64,
    pub(crate) use_on_board_counts: Vec<CountedView>,
    /// The day of its event, where that is one of the plan.
    pub(crate) event_on: Option<NaiveDate>,
    /// Whether it writes of an event that is on no day of the plan.
    pub(crate) event_elsewhere: bool,
    /// The day of an event of which it does not say what is served.
    pub(crate) event_not_planned: Option<NaiveDate>,
}

/// A product of which the board says a use.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct CountedView {
    pub(crate) of: String,
    /// What the menu would take of it in a week.
    pub(crate) menu_a_week: u64,
    pub(crate) unit: PrepUnit,
}

/// A line of the order list; amounts in its unit.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct OrderView {
    /// What is bought.
    pub of: String,
    /// The fruit that it is pressed or peeled from, where its pieces are bought.
    pub(crate) fruit: Option<String>,
    pub(crate) unit: PrepUnit,
    pub(crate) packs: Option<u64>,
    pub(crate) pack: Option<InThousandths>,
    /// Whether a pack is what its price is of, and the board does not say that it is sold so.
    pub(crate) pack_by_price: bool,
    /// How many bottles or bags are in one.
    pub(crate) in_pack: u64,
    pub(crate) amount: InThousandths,
    pub(crate) need: InThousandths,
    pub(crate) on_hand: InThousandths,
    /// Of what is late, the first day on which somebody is there.
    pub(crate) order_by: NaiveDate,
    pub(crate) needed: NaiveDate,
    /// None where that is out of sight.
    pub(crate) arrives: Option<NaiveDate>,
    pub(crate) late: bool,
    /// Of what keeps for days only, what is bought for which day; empty where one delivery does for all.
    pub(crate) fresh: Vec<FreshView>,
    pub(crate) cost: Option<Money>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct ShortView {
    pub(crate) date: NaiveDate,
    /// The product.
    pub of: String,
    pub(crate) amount: u64,
    pub(crate) unit: PrepUnit,
    pub(crate) why: ShortOf,
    pub(crate) first_ready: Option<NaiveDate>,
}

/// What a product is short of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ShortOf {
    /// What is used of it.
    Use,
    /// What is kept in stock of it.
    Par,
    /// The same, for no life of it is so long.
    ParBeyondLife,
}

impl Serialize for PrepUnit {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.word())
    }
}

impl View for PlanView {
    const VERB: &'static str = "plan";
    const TELLS_NOTES: bool = false;
    const KEYS: &'static str = "house from days closed prep orders cost cost_at_least currency nothing_priced short left_out menu of_bottles inside_of_bottles not_ordered products note";

    fn leaves_out(&self) -> bool {
        !self.left_out.is_empty()
    }
}

impl PlanView {
    /// What is planned.
    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        self.products.iter().map(|product| product.of.as_str())
    }

    /// Plans a board that was read. What of it cannot be planned is reported and left out.
    pub(super) fn planned(
        board: &Board,
        file: &Arc<str>,
        house: &House,
        from: NaiveDate,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        let (kitchen, more) = Kitchen::gather(board, file, house, from, Draws::default());
        found.extend(more);
        let in_a_cycle = |names: Vec<String>| {
            let title = format!("these go into each other in a ring: {}", names.join(" -> "));
            Diagnostic::error(Code::PlanCycle, title).help("take one of them out of the other's card")
        };
        let settled = settle(&kitchen.calendar, kitchen.products, &kitchen.stocked);
        let settled = settled.map_err(|names| found.push(in_a_cycle(names))).ok()?;
        let (plan, orders) = (&settled.plan, &settled.orders);
        let bought = |order: &Order| Some((kitchen.ingredients.get(&order.of.name)?, order.usable_grams()));
        let lines = by_fruit(orders, &plan.calendar);
        let list: Vec<_> = lines.iter().filter_map(bought).collect();
        let (bill, of_prices) = bill(&list, house, Some(kitchen.calendar.from));
        found.extend(of_prices);
        found.extend(plan_findings(&settled));
        let products = kitchen.judged.iter().map(|of| PlanProductView::new(of, house)).collect();
        let menu = (!board.pours.is_empty()).then(|| SalesView::new(board, plan, &kitchen.by_board));
        let view = Self::new(house.settings.name.as_deref(), plan, orders, bill.as_ref());
        let nothing_priced = !list.is_empty() && list.iter().all(|(ingredient, _)| ingredient.price.is_none());
        let not_ordered = NotOrderedView::new(&board.pours, &kitchen.on_ice, &plan.calendar);
        let (of_bottles, inside_of_bottles) = of_bottles(kitchen.of_bottles);
        let left_out = kitchen.left_out;
        Some(Self { products, menu, of_bottles, inside_of_bottles, not_ordered, nothing_priced, left_out, ..view })
    }

    /// The view of a plan.
    pub fn new(house: Option<&str>, plan: &Plan, orders: &[Order], bill: Option<&Bill>) -> Self {
        let calendar = &plan.calendar;
        let date = |day| calendar.date(day);
        let money = |bill: &Bill, amount| Money { amount, currency: bill.currency };
        // where nothing has a price nothing can be added up
        let total = bill.filter(|bill| bill.lines.iter().any(Option::is_some)).map(|bill| money(bill, bill.total));
        let cost = |place: usize| bill.and_then(|bill| Some(money(bill, (*bill.lines.get(place)?)?)));
        Self {
            house: house.map(str::to_owned),
            from: date(0),
            days: calendar.days,
            closed: (0..calendar.days).filter(|day| !calendar.is_open(*day)).map(date).collect(),
            prep: tasks(plan, orders).iter().map(|task| PrepView::new(plan, task)).collect(),
            orders: by_fruit(orders, calendar)
                .iter()
                .enumerate()
                .map(|(place, order)| OrderView::new(plan, order, cost(place)))
                .collect(),
            cost: total.filter(|_| bill.is_some_and(|bill| bill.complete)),
            cost_at_least: total,
            currency: bill.map(|bill| bill.currency),
            nothing_priced: false,
            short: short(plan),
            left_out: Vec::new(),
            menu: None,
            of_bottles: BTreeMap::new(),
            inside_of_bottles: Vec::new(),
            not_ordered: None,
            products: Vec::new(),
            note: STANDING_NOTE,
        }
    }

    pub(crate) fn all_days(&self) -> impl Iterator<Item = NaiveDate> + use<> {
        self.from.iter_days().take(usize::try_from(self.days).unwrap_or(0))
    }
}

impl SalesView {
    fn new(board: &Board, plan: &Plan, by_board: &BTreeMap<String, f64>) -> Self {
        let a_week = |pour: &Pour| match &pour.glasses {
            Glasses::Weekly(uses) => uses.in_a_week(&plan.calendar),
            Glasses::Once(..) | Glasses::OfBottles(_) => 0,
        };
        let unit = |name: &str| plan.products.iter().find(|p| p.product.name == name).map(|p| p.product.unit);
        let counted = by_board.iter().map(|(of, amount)| CountedView {
            of: of.clone(),
            menu_a_week: amount.round() as u64,
            unit: unit(of).unwrap_or_default(),
        });
        Self {
            file: String::new(),
            glasses_a_week: board.pours.iter().map(a_week).sum(),
            use_on_board_counts: counted.collect(),
            event_on: None,
            event_elsewhere: false,
            event_not_planned: None,
        }
    }
}

impl OrderView {
    fn new(plan: &Plan, order: &Order, cost: Option<Money>) -> Self {
        let date = |day: calendar::Day| plan.calendar.date(day);
        let (arrives, late) = match order.timing {
            Timing::By(_, day) => (Some(day), false),
            Timing::Late { comes, .. } => (comes, true),
        };
        let fruit = |whole| order.of.fruit.as_ref().filter(|of| of.whole == whole).map(|of| of.name.clone());
        Self {
            of: fruit(true).unwrap_or_else(|| order.of.name.clone()),
            fruit: fruit(false),
            unit: order.of.unit,
            packs: order.of.pack.map(|_| order.packs),
            pack: order.of.pack.map(InThousandths),
            pack_by_price: order.of.pack.is_some() && order.of.pack_by_price,
            in_pack: order.of.in_pack,
            amount: InThousandths(order.amount()),
            need: InThousandths(order.need),
            on_hand: InThousandths(order.of.on_hand),
            order_by: date(order.day()),
            needed: date(order.needed),
            arrives: arrives.map(date),
            late,
            fresh: order.fresh.iter().map(|of| FreshView::new(of, date)).collect(),
            cost,
        }
    }
}

fn short(plan: &Plan) -> Vec<ShortView> {
    let rows = plan.products.iter().flat_map(|p| p.short.iter().map(move |s| (p, s)));
    let view = rows.map(|(planned, short)| {
        let (why, first) = match short.why {
            Why::Use(first) => (ShortOf::Use, first),
            Why::Par(first) => (ShortOf::Par, first),
            Why::ParBeyondLife => (ShortOf::ParBeyondLife, None),
        };
        ShortView {
            date: plan.calendar.date(short.day),
            of: planned.product.name.clone(),
            amount: short.amount,
            unit: planned.product.unit,
            why,
            first_ready: first.map(|day| plan.calendar.date(day)),
        }
    });
    view.collect()
}
