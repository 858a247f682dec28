//! What is bought for a plan: everything that its batches and the drinks of a menu take, less what is on hand, in whole packs.
//!
//! Amounts are whole thousandths of a millilitre, a gram or a piece: bitters take less than a gram of some things.

use std::collections::BTreeMap;

use chrono::Weekday;

use super::calendar::{Calendar, Day};
use super::model::PrepUnit;
use super::planned::Plan;
use super::poured::{Poured, poured_on};

/// A thousandth of a millilitre, a gram or a piece.
pub(crate) type Thousandths = u64;

/// How an ingredient is bought and what there is of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stocked {
    /// The name that is printed.
    pub name: String,
    /// What it is bought by.
    pub unit: PrepUnit,
    /// Grams in one of these that can be used: of whole fruit, what is left when it is peeled.
    pub grams_per_unit: f64,
    /// What a pack holds; none where it is bought loose, to the gram.
    pub pack: Option<Thousandths>,
    /// Whether that is what its price is of, and nobody says that it is sold so.
    pub pack_by_price: bool,
    /// How many bottles or bags are in it.
    pub in_pack: u64,
    /// Days from the order to the delivery.
    pub lead: Day,
    /// Weekdays of delivery, Monday first; none: any open day.
    pub deliver: Option<[bool; 7]>,
    /// What is there.
    pub on_hand: Thousandths,
    /// The fruit by whose pieces it is bought.
    pub fruit: Option<OfFruit>,
    /// On how many days after the day it comes it may still go in; `None` where it keeps longer than a plan looks ahead.
    pub keeps: Option<Day>,
    /// What goes into the drinks of a menu as it is, grams a glass.
    pub poured: Vec<Poured>,
}

/// A fruit that is counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OfFruit {
    /// What it is called at the market.
    pub name: String,
    /// Whether the whole fruit is used as well, and not only what is pressed or peeled from it.
    pub whole: bool,
}

/// A line of the order list.
#[derive(Clone, Debug, PartialEq)]
pub struct Order {
    /// What is bought.
    pub of: Stocked,
    /// What all batches take.
    pub need: Thousandths,
    /// How many packs; of what is bought loose, grams or millilitres.
    pub packs: u64,
    /// The first day on which what is on hand is not enough.
    pub needed: Day,
    /// When it is ordered and when it comes.
    pub timing: Timing,
    /// Of what keeps for days only, what is bought for which day; nothing where one delivery does for all.
    pub fresh: Vec<BoughtFresh>,
}

/// A delivery of what keeps for days only.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoughtFresh {
    /// The first day that it is for.
    pub day: Day,
    /// The last delivery before that, if there is one.
    pub comes: Option<Day>,
    /// How much.
    pub amount: Thousandths,
    /// Whether what comes then is past its days on the day that it is for.
    pub is_past: bool,
}

/// When something is ordered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Timing {
    /// The last day to order it, and the day it comes.
    By(Day, Day),
    /// Too late: the first day on which it can come, if that is in sight.
    Late {
        /// The first day on which somebody is there to order it.
        ordered: Day,
        /// The day on which it then comes, if it is delivered at all.
        comes: Option<Day>,
    },
}

impl Order {
    /// What one pack holds, or 1 ml or 1 g.
    pub fn pack(&self) -> Thousandths {
        self.of.pack.unwrap_or(1000).max(1)
    }

    pub(crate) fn usable_grams(&self) -> f64 {
        self.amount() as f64 / 1000.0 * self.of.grams_per_unit
    }

    /// All that is bought.
    pub fn amount(&self) -> Thousandths {
        self.packs.saturating_mul(self.pack())
    }

    fn packs_needed(&self) -> u64 {
        self.need.saturating_sub(self.of.on_hand).div_ceil(self.pack())
    }

    /// The day on which it is ordered: what is late, as soon as somebody is there.
    pub(crate) fn day(&self) -> Day {
        match self.timing {
            Timing::By(day, _) => day,
            Timing::Late { ordered, .. } => ordered,
        }
    }
}

/// What the batches of a plan take of each ingredient, day by day, in grams.
pub(crate) fn grams_taken(plan: &Plan) -> BTreeMap<&str, BTreeMap<Day, f64>> {
    let mut taken: BTreeMap<&str, BTreeMap<Day, f64>> = BTreeMap::new();
    for planned in &plan.products {
        for lot in &planned.lots {
            let Some(ready) = lot.ready else { continue };
            for take in &planned.product.takes {
                let of_day = taken.entry(take.of.as_str()).or_default().entry(ready - take.days_before).or_default();
                *of_day += lot.amount as f64 * take.grams_per_unit;
            }
        }
    }
    taken
}

/// The order list, by the day of the order. What is in no entry of `stocked` is not bought (tap water).
pub fn orders(plan: &Plan, stocked: &[Stocked]) -> Vec<Order> {
    let taken = grams_taken(plan);
    let mut orders: Vec<Order> = stocked
        .iter()
        .filter_map(|of| {
            let mut days = taken.get(of.name.as_str()).cloned().unwrap_or_default();
            for day in (0..plan.calendar.days).filter(|_| !of.poured.is_empty()) {
                *days.entry(day).or_default() += poured_on(&of.poured, &plan.calendar, day);
            }
            let mut need: Thousandths = 0;
            let mut needed = None;
            for (day, grams) in &days {
                need = need.saturating_add((grams / of.grams_per_unit * 1000.0 - 1e-6).ceil() as u64);
                if need > of.on_hand {
                    needed = needed.or(Some(*day));
                }
            }
            let needed = needed?;
            let timing = timing(&plan.calendar, of, needed);
            let fresh = bought_fresh(&plan.calendar, of, &days);
            let mut order = Order { of: of.clone(), need, packs: 0, needed, timing, fresh };
            order.packs = order.packs_needed();
            Some(order)
        })
        .collect();
    sort(&mut orders);
    orders
}

/// What is bought for which day of what keeps for days only: each delivery as late as it can come, for as many days as it keeps.
fn bought_fresh(calendar: &Calendar, of: &Stocked, grams: &BTreeMap<Day, f64>) -> Vec<BoughtFresh> {
    let Some(keeps) = of.keeps else { return Vec::new() };
    let mut there = of.on_hand;
    let mut bought: Vec<BoughtFresh> = Vec::new();
    for (&day, grams) in grams.range(0..calendar.days) {
        let need = (grams / of.grams_per_unit * 1000.0 - 1e-6).ceil() as Thousandths;
        let short = need.saturating_sub(there);
        there = there.saturating_sub(need);
        if short == 0 {
            continue;
        }
        let holds = |last: &&mut BoughtFresh| last.comes.is_some_and(|comes| day - comes <= keeps) && !last.is_past;
        match bought.last_mut().filter(holds) {
            Some(last) => last.amount += short,
            None => {
                let comes = (0..=day).rev().find(|on| comes(calendar, of, *on));
                let is_past = comes.is_some_and(|comes| day - comes > keeps);
                bought.push(BoughtFresh { day, comes, amount: short, is_past });
            }
        }
    }
    let says_more = bought.len() > 1 || bought.iter().any(|one| one.is_past);
    if says_more { bought } else { Vec::new() }
}

fn sort(orders: &mut [Order]) {
    orders.sort_by(|a, b| (a.day(), &a.of.name).cmp(&(b.day(), &b.of.name)));
}

/// What is bought as pieces of one fruit is one line, at the price of the first that has one: a lime for its juice is not the lime for
/// its wheels, so the pieces are added up.
pub(crate) fn by_fruit(orders: &[Order], calendar: &Calendar) -> Vec<Order> {
    let mut lines: Vec<Order> = Vec::new();
    for order in orders {
        let name = |order: &Order| order.of.fruit.as_ref().map(|fruit| fruit.name.clone());
        let same = |line: &&mut Order| name(order).is_some() && name(line) == name(order);
        let Some(line) = lines.iter_mut().find(same) else {
            lines.push(order.clone());
            continue;
        };
        let whole = [&*line, order].iter().any(|order| order.of.fruit.as_ref().is_some_and(|fruit| fruit.whole));
        let fruit = name(order).map(|name| OfFruit { name, whole });
        let (need, on_hand) = (line.need + order.need, line.of.on_hand + order.of.on_hand);
        let needed = line.needed.min(order.needed);
        // what has a pack has a price, or the board says how it is bought
        let by = if line.of.pack.is_none() { &order.of } else { &line.of };
        let of = Stocked { on_hand, fruit, ..by.clone() };
        // fruit keeps for a week and more
        *line = Order { timing: timing(calendar, &of, needed), of, need, packs: 0, needed, fresh: Vec::new() };
        line.packs = line.packs_needed();
    }
    sort(&mut lines);
    lines
}

/// Whether it can be taken in on a day: an open one, on which it is delivered.
fn comes(calendar: &Calendar, of: &Stocked, day: Day) -> bool {
    calendar.is_open(day) && delivered(of, calendar.weekday(day))
}

fn delivered(of: &Stocked, weekday: usize) -> bool {
    of.deliver.is_none_or(|days| days.get(weekday) == Some(&true))
}

/// A delivery is taken in on an open day, in the morning; an order is given on an open day.
fn timing(calendar: &Calendar, of: &Stocked, needed: Day) -> Timing {
    let comes = |day: &Day| comes(calendar, of, *day);
    let in_time =
        (0..=needed).rev().filter(comes).find_map(|day| Some(Timing::By(calendar.last_open(day - of.lead)?, day)));
    in_time.unwrap_or_else(|| {
        let first_order = (0..calendar.days).find(|day| calendar.is_open(*day));
        let first = first_order.and_then(|first| (first + of.lead..first + of.lead + 60).find(comes));
        Timing::Late { ordered: first_order.unwrap_or(0), comes: first }
    })
}

/// What the day of a late delivery hangs on, in words: its days, the time it takes, the days on which nobody is there.
pub(crate) fn rules(calendar: &Calendar, order: &Order) -> Vec<String> {
    let of = &order.of;
    let date = |day: Day| calendar.date(day).format("%a %-d %b").to_string();
    let mut rules = Vec::new();
    if of.deliver.is_some() {
        let days = (0..7u8).filter(|day| delivered(of, usize::from(*day)));
        let names: Vec<String> = days.filter_map(|d| Some(Weekday::try_from(d).ok()?.to_string())).collect();
        rules.push(format!("it is delivered on {}", names.join(" and ")));
    }
    if of.lead > 0 {
        rules.push(format!("{} day{} after the order", of.lead, if of.lead == 1 { "" } else { "s" }));
    }
    if let Some(day) = (0..=order.needed).rev().find(|day| comes(calendar, of, *day)) {
        rules.push(format!("for {} it had to be ordered by {}", date(day), date(day - of.lead)));
    }
    let last = match order.timing {
        Timing::By(_, day) | Timing::Late { comes: Some(day), .. } => day,
        Timing::Late { comes: None, .. } => order.needed,
    };
    let closed: Vec<String> = (0..last).filter(|day| !calendar.is_open(*day)).map(date).collect();
    if !closed.is_empty() {
        rules.push(format!("the house is closed on {}", closed.join(" and ")));
    }
    rules
}
