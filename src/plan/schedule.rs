//! What is made on which day.
//!
//! Outer products come first: what goes into them is drawn from the inner ones on the day that it goes in. A product is
//! made as late as it can be for the first day that would go short, and as large as `batch_amount` says.

use std::collections::{BTreeMap, BTreeSet};

use super::batch::{BatchAmount, batch_amount};
use super::calendar::{Calendar, Day};
use super::model::{Draw, Goes, PrepLot, PrepProduct};
use super::planned::{Plan, Planned, Short, Why};
use super::poured::poured_on;
use super::ready::{InnerPart, Ready};
use super::stock::{self, Run};

/// The days of use beyond the plan that a batch may count on.
pub(super) const MOST_LIFE: Day = 366;

/// Plans. The order of the products does not matter.
///
/// # Errors
/// The names in a cycle of products that go into each other.
pub fn schedule(calendar: &Calendar, products: Vec<PrepProduct>) -> Result<Plan, Vec<String>> {
    schedule_without(calendar, products, BTreeSet::new())
}

/// The same, where a product (by its place among their names) cannot be finished on the `barred` days.
pub(super) fn schedule_without(
    calendar: &Calendar,
    mut products: Vec<PrepProduct>,
    mut barred: BTreeSet<(usize, Day)>,
) -> Result<Plan, Vec<String>> {
    products.sort_by(|a, b| a.name.cmp(&b.name));
    let goes = places_of_parts(&products);
    let inner: Vec<Vec<InnerPart>> =
        goes.iter().map(|parts| parts.iter().map(|(part, goes)| (*part, goes.days_before)).collect()).collect();
    let order = inner_first(&inner).map_err(|cycle| names(&products, &cycle))?;
    loop {
        let ready = Ready::ahead(calendar, &products, &inner, &order, &barred);
        let round = Round { calendar, products: &products, goes: &goes, ready: &ready };
        let planned = round.plan(&order);
        // An outer batch whose part cannot be there is not made on that day: one at a time, so that what there is
        // goes as far as it can.
        let more = planned.iter().filter_map(|inner| cannot_be_filled(inner, calendar.days));
        let more: Vec<_> = more.filter(|bar| !barred.contains(bar)).collect();
        if more.is_empty() {
            let mut planned = planned;
            date_by_parts(&mut planned, &order);
            return Ok(Plan { calendar: calendar.clone(), products: planned });
        }
        barred.extend(more);
    }
}

/// The latest batch of another product that this one has not enough for; what goes in behind the plan is made by the next one.
fn cannot_be_filled(inner: &Planned, days: Day) -> Option<(usize, Day)> {
    let short = inner.draws.iter().zip(&inner.run.short).filter(|(draw, short)| **short > 0 && draw.day < days);
    short.filter_map(|(draw, _)| draw.into).max_by_key(|(outer, ready)| (*ready, *outer))
}

fn places_of_parts(products: &[PrepProduct]) -> Vec<Vec<(usize, &Goes)>> {
    let places: BTreeMap<&str, usize> = products.iter().enumerate().map(|(i, p)| (p.name.as_str(), i)).collect();
    let parts = |p: &'_ PrepProduct| -> Vec<usize> {
        p.parts.iter().map(|part| places.get(part.of.as_str()).copied().unwrap_or(usize::MAX)).collect()
    };
    products
        .iter()
        .map(|p| parts(p).into_iter().zip(&p.parts).filter(|(place, _)| *place < products.len()).collect())
        .collect()
}

fn names(products: &[PrepProduct], places: &[usize]) -> Vec<String> {
    places.iter().filter_map(|p| products.get(*p)).map(|p| p.name.clone()).collect()
}

/// The places of the products, what goes into a product before it; or a cycle.
fn inner_first(inner: &[Vec<InnerPart>]) -> Result<Vec<usize>, Vec<usize>> {
    let mut order = Vec::new();
    let mut done = vec![false; inner.len()];
    for start in 0..inner.len() {
        // the way down: a product, and how many of its parts have been looked at
        let mut way: Vec<(usize, usize)> = vec![(start, 0)];
        while let Some((place, looked_at)) = way.last().copied() {
            if done.get(place) != Some(&false) {
                way.pop();
                continue;
            }
            match inner.get(place).and_then(|parts| parts.get(looked_at)) {
                Some(&(part, _)) => {
                    if let Some(top) = way.last_mut() {
                        top.1 += 1;
                    }
                    if let Some(at) = way.iter().position(|(p, _)| *p == part) {
                        let cycle = way.iter().skip(at).map(|(p, _)| *p);
                        return Err(cycle.chain([part]).collect());
                    }
                    way.push((part, 0));
                }
                None => {
                    order.push(place);
                    if let Some(done) = done.get_mut(place) {
                        *done = true;
                    }
                    way.pop();
                }
            }
        }
    }
    Ok(order)
}

struct Round<'a> {
    calendar: &'a Calendar,
    products: &'a [PrepProduct],
    goes: &'a [Vec<(usize, &'a Goes)>],
    ready: &'a Ready,
}

impl Round<'_> {
    fn plan(&self, order: &[usize]) -> Vec<Planned> {
        let mut draws: Vec<Vec<Draw>> = self.products.iter().map(|p| self.service(p)).collect();
        let mut planned: Vec<Option<Planned>> = vec![None; self.products.len()];
        for &place in order.iter().rev() {
            let Some(product) = self.products.get(place) else { continue };
            let mut own = draws.get_mut(place).map(std::mem::take).unwrap_or_default();
            own.sort_unstable();
            let made = self.product(place, product, own);
            let last_uses = last_uses(&made);
            for (part, goes) in self.goes.get(place).into_iter().flatten() {
                if let Some(draws) = draws.get_mut(*part) {
                    let lots = made.lots.iter().zip(&last_uses);
                    let until = |last_use: Day| (!product.own_clock).then_some(last_use);
                    draws.extend(lots.filter_map(|(lot, last_use)| goes_into(place, lot, until(*last_use), goes)));
                }
            }
            if let Some(slot) = planned.get_mut(place) {
                *slot = Some(made);
            }
        }
        planned.into_iter().flatten().collect()
    }

    /// What goes over the bar, day by day, as far beyond the plan as the product lives.
    fn service(&self, product: &PrepProduct) -> Vec<Draw> {
        let end = self.calendar.days.saturating_add(product.life.max(product.lead()).clamp(0, MOST_LIFE));
        let poured = |day| (poured_on(&product.poured, self.calendar, day) - 1e-6).ceil() as u64;
        let amount = |day| product.uses.on_day(self.calendar, day).saturating_add(poured(day));
        let of_day = |day| Draw { day, until: day, into: None, amount: amount(day) };
        (0..end).map(of_day).filter(|draw| draw.amount > 0).collect()
    }

    fn product(&self, place: usize, product: &PrepProduct, draws: Vec<Draw>) -> Planned {
        let days = self.calendar.days;
        let mut lots = Vec::new();
        for held in &product.on_hand {
            stock::put(&mut lots, PrepLot { ready: None, amount: held.amount, use_by: held.use_by });
        }
        let mut made = Planned {
            product: product.clone(),
            lots,
            draws,
            run: Run::default(),
            short: Vec::new(),
            small: Vec::new(),
        };
        let mut left_short = BTreeSet::new();
        let mut left_low = BTreeSet::new();
        loop {
            made.run = stock::run(&made.lots, &made.draws, days);
            let Some(trouble) = self.first_trouble(&made, &left_short, &left_low) else {
                match self.begun_for_later(place, &made) {
                    Some(lot) => stock::put(&mut made.lots, lot),
                    None => return made,
                };
                continue;
            };
            let batch = self.ready.latest(place, trouble.day, trouble.until).and_then(|ready| {
                let use_by = self.ready.use_by(place, ready)?;
                Some((ready, use_by, batch_amount(self.calendar, &made, ready, use_by)))
            });
            match batch {
                Some((ready, use_by, size)) if size.amount > 0 => {
                    if size.amount < product.smallest && size.amount == size.used_in_life {
                        made.small.push((ready, size.amount));
                    }
                    stock::put(&mut made.lots, PrepLot { ready: Some(ready), amount: size.amount, use_by });
                }
                _ => {
                    let first = self.ready.first_after(place, trouble.day);
                    let why = match trouble.draw {
                        Some(_) => Why::Use(first),
                        None if batch.is_some() => Why::ParBeyondLife,
                        None => Why::Par(first),
                    };
                    made.short.push(Short { day: trouble.day, amount: trouble.missing, why });
                    match trouble.draw {
                        Some(draw) => left_short.insert(draw),
                        None => left_low.insert(trouble.day),
                    };
                }
            }
        }
    }

    /// What takes longer than the plan looks ahead is begun in it for the use behind it: a batch that begins on a day of the plan.
    fn begun_for_later(&self, place: usize, made: &Planned) -> Option<PrepLot> {
        let (days, lead) = (self.calendar.days, made.product.lead());
        if lead < days {
            return None;
        }
        let ahead = Calendar { days: days.saturating_add(lead), ..self.calendar.clone() };
        let short = made.draws.iter().zip(&made.run.short).filter(|(_, short)| **short > 0).map(|(draw, _)| draw);
        short.filter(|draw| (days..ahead.days).contains(&draw.day)).find_map(|draw| {
            let ready = self.ready.latest(place, draw.day, draw.until).filter(|ready| ready - lead < days)?;
            let use_by = self.ready.use_by(place, ready)?;
            let BatchAmount { amount, .. } = batch_amount(&ahead, made, ready, use_by);
            (amount > 0).then_some(PrepLot { ready: Some(ready), amount, use_by })
        })
    }

    /// The first day of the plan on which a draw goes short or the house opens below par.
    fn first_trouble(&self, made: &Planned, left_short: &BTreeSet<usize>, left_low: &BTreeSet<Day>) -> Option<Trouble> {
        let days = self.calendar.days;
        let draws = made.draws.iter().zip(&made.run.short).enumerate();
        let short = draws
            .take_while(|(_, (draw, _))| draw.day < days)
            .find(|(i, (_, short))| **short > 0 && !left_short.contains(i))
            .map(|(i, (draw, short))| Trouble { day: draw.day, until: draw.until, missing: *short, draw: Some(i) });
        let par = made.product.par;
        let low = (0..days)
            .zip(&made.run.opening)
            .filter(|(day, opening)| **opening < par && !left_low.contains(day))
            .find(|(day, _)| self.calendar.is_open(*day))
            .map(|(day, opening)| Trouble { day, until: day, missing: par - opening, draw: None });
        match (short, low) {
            (Some(short), Some(low)) if low.day < short.day => Some(low),
            (None, low) => low,
            (short, _) => short,
        }
    }
}

struct Trouble {
    day: Day,
    until: Day,
    missing: u64,
    draw: Option<usize>,
}

/// The last day on which each lot is used, or to which what it goes into must keep. Batches of one day are made from the
/// same bottles and have one date.
fn last_uses(made: &Planned) -> Vec<Day> {
    let mut last: Vec<Day> = made.lots.iter().map(|lot| lot.ready.unwrap_or(0)).collect();
    for (draw, lot, _) in &made.run.taken {
        if let (Some(draw), Some(last)) = (made.draws.get(*draw), last.get_mut(*lot)) {
            *last = (*last).max(draw.day).max(draw.until);
        }
    }
    let alike = |ready: Option<Day>| made.lots.iter().zip(&last).filter(move |(lot, _)| lot.ready == ready);
    made.lots.iter().map(|lot| alike(lot.ready).map(|(_, last)| *last).max().unwrap_or(0)).collect()
}

/// What a batch draws from a part: on the day that it goes in, and it must keep `until` the batch is used up where its day counts there.
fn goes_into(outer: usize, lot: &PrepLot, until: Option<Day>, goes: &Goes) -> Option<Draw> {
    let ready = lot.ready?;
    let amount = (lot.amount as f64 * goes.per_unit).ceil() as u64;
    let day = ready - goes.days_before;
    let draw = Draw { day, until: until.unwrap_or(day), into: Some((outer, ready)), amount };
    (amount > 0).then_some(draw)
}

/// No batch that counts from its oldest part is dated later than what went into it: an older bottle of a part is used if it keeps as
/// long as the batch is used, and then the batch has its date.
fn date_by_parts(planned: &mut [Planned], order: &[usize]) {
    for &part in order {
        let Some(inner) = planned.get(part) else { continue };
        let of_taken = inner
            .run
            .taken
            .iter()
            .filter_map(|(draw, lot, _)| Some((inner.draws.get(*draw)?.into?, inner.lots.get(*lot)?.use_by)));
        let dates: Vec<((usize, Day), Day)> = of_taken.collect();
        for ((outer, ready), use_by) in dates {
            let by_part = planned.get_mut(outer).filter(|outer| !outer.product.own_clock);
            let lots = by_part.into_iter().flat_map(|p| &mut p.lots);
            for lot in lots.filter(|lot| lot.ready == Some(ready)) {
                lot.use_by = lot.use_by.min(use_by);
            }
        }
    }
}
