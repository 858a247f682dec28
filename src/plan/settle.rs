//! A plan with what is bought for it. A batch that would be past its date before what it waits for has come is not
//! planned: it is said to be missing, and why.

use std::collections::BTreeSet;

use super::calendar::{Calendar, Day};
use super::model::PrepProduct;
use super::orders::{Order, Stocked, orders};
use super::planned::Plan;
use super::schedule::schedule_without;
use super::waits::waits;

/// A plan, and what is ordered for it.
#[derive(Clone, Debug)]
pub struct SettledPlan {
    /// What is made.
    pub plan: Plan,
    /// What is bought.
    pub orders: Vec<Order>,
    /// What is not made because its ingredient comes too late for it.
    pub(crate) given_up: Vec<GivenUp>,
}

/// A product of which batches are given up.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct GivenUp {
    /// The product.
    pub(crate) product: String,
    /// What would have been ordered for it.
    pub(crate) order: Order,
}

/// Plans and orders. The order of the products does not matter.
///
/// # Errors
/// The names in a cycle of products that go into each other.
pub fn settle(
    calendar: &Calendar,
    products: Vec<PrepProduct>,
    stocked: &[Stocked],
) -> Result<SettledPlan, Vec<String>> {
    let mut barred: BTreeSet<(usize, Day)> = BTreeSet::new();
    let mut given_up: Vec<GivenUp> = Vec::new();
    loop {
        let plan = schedule_without(calendar, products.clone(), barred.clone())?;
        let orders = orders(&plan, stocked);
        let before = barred.len();
        for ((place, ready), waits) in waits(&plan, &orders) {
            let Some(planned) = plan.products.get(place) else { continue };
            let made: Vec<_> = planned.lots.iter().filter_map(|lot| Some((lot.ready?, lot.use_by))).collect();
            let Some(use_by) = made.iter().filter(|(day, _)| *day == ready).map(|(_, last)| *last).min() else {
                continue;
            };
            // what is begun for later begins when what it takes has come
            if ready >= calendar.days && waits.iter().any(|wait| wait.until.is_some_and(|until| until > ready)) {
                barred.insert((place, ready));
                continue;
            }
            let is_past = |last: Day, until: Option<Day>| until.is_none_or(|until| last < until);
            let Some(wait) = waits.iter().find(|wait| is_past(use_by, wait.until)) else { continue };
            barred.insert((place, ready));
            // Any other day of the same wait is no better; what is already made on one has its ingredient or its own wait.
            let alike = (wait.from..wait.until.unwrap_or(calendar.days)).filter(|day| {
                is_past(day.saturating_add(planned.product.life), wait.until) && made.iter().all(|(of, _)| of != day)
            });
            barred.extend(alike.map(|day| (place, day)));
            let name = &planned.product.name;
            let is_said = given_up.iter().any(|said| said.product == *name && said.order.of.name == wait.of);
            let order = orders.iter().find(|order| order.of.name == wait.of).filter(|_| !is_said);
            given_up.extend(order.map(|order| GivenUp { product: name.clone(), order: order.clone() }));
        }
        if barred.len() == before {
            return Ok(SettledPlan { plan, orders, given_up });
        }
    }
}
