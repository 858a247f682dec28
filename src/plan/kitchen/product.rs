//! A product of the board in plain numbers.

use chrono::NaiveDate;
use rust_decimal::prelude::ToPrimitive;
use uom::si::time::hour;

use crate::assessment::{self, DatedStore, IdentityQuestion, Lot, LotsCounted, Which};
use crate::cost::{CostAsked, CostKind, cost_of};
use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::house::{Store, which_store};
use crate::shelf_life::calendar::last_day;
use crate::shelf_life::reason::Mark;
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::solver::target::g_per_ml;
use crate::spelling::fold;
use crate::units::Time;

use super::super::board::{Entry, Held, HeldDate, Quantity, Rate};
use super::super::calendar::{Day, Uses};
use super::super::model::{BatchCost, Goes, OnHand, PrepProduct, PrepUnit, Take, Work};
use super::super::poured::taken_of;
use super::{BoardCard, Gathering};

/// More batches of one product in a week than this are a slip of the unit (ours: twenty a day).
const MOST_BATCHES_A_WEEK: u64 = 140;

impl Gathering<'_> {
    /// A product, and the grams in one of what it counts. Its parts are still in grams.
    pub(super) fn product(&mut self, card: &BoardCard<'_>) -> Option<(PrepProduct, f64)> {
        let solved = &card.solved;
        let g_per_ml = g_per_ml(&solved.bottled().per_gram());
        let written = card.entry.and_then(first_quantity).map(|q| q.unit);
        let unit = written.unwrap_or(if g_per_ml.is_some() { PrepUnit::Ml } else { PrepUnit::G });
        let store = self.store(card)?;
        let (last, by_oldest_part, best_before) = self.last_day(card, store)?;
        let grams_per_unit = match unit {
            PrepUnit::G => 1.0,
            PrepUnit::Ml | PrepUnit::Pieces => g_per_ml.or_else(|| self.no_density(&solved.name, card.asked_at))?,
        };
        let mut product = PrepProduct {
            name: solved.name.clone(),
            unit,
            life: last(NaiveDate::default()).map_or(0, |day| (day - NaiveDate::default()).num_days() as Day),
            works: works(solved),
            best_before,
            own_clock: !by_oldest_part,
            cost: self.batch_cost(solved, grams_per_unit),
            ..PrepProduct::default()
        };
        self.parts(solved, grams_per_unit, &mut product);
        if let Some(entry) = card.entry {
            let counted = |q: Quantity| counted(q, unit, g_per_ml);
            let all = self.of_board(entry, &counted, &last, &mut product);
            if all.is_none() {
                self.no_density(&solved.name, card.asked_at);
            }
        }
        Some((product, grams_per_unit))
    }

    /// What is thrown away is weighed against the work only where every price is known.
    fn batch_cost(&self, solved: &Solved, grams_per_unit: f64) -> Option<BatchCost> {
        let costing = cost_of(solved, self.house, &CostAsked::default()).0.filter(|costing| costing.complete)?;
        let work = costing.line(CostKind::Labour)?.cost?;
        let each_gram = (costing.batch - work).to_f64()? / costing.yield_g;
        let cost = BatchCost { each_batch: work.to_f64()?, each_unit: each_gram * grams_per_unit };
        Some(cost).filter(|cost| cost.each_unit.is_finite())
    }

    pub(super) fn no_density(&mut self, name: &str, at: Span) -> Option<f64> {
        Diagnostic::error(
            Code::DensityUnknown,
            format!("`{name}` is measured by volume or by the piece, and what that weighs is not known"),
        )
        .at(at, "a volume, a weight and pieces of it cannot be compared")
        .help("write every amount of it by weight: \"500 g\"")
        .refused(&mut self.found)
    }

    /// What the board says, in whole units. `None` where a volume and a weight cannot be compared.
    fn of_board(
        &mut self,
        entry: &Entry,
        counted: &impl Fn(Quantity) -> Option<f64>,
        last: &impl Fn(NaiveDate) -> Option<NaiveDate>,
        product: &mut PrepProduct,
    ) -> Option<()> {
        let whole = |q: Quantity| counted(q).map(|x| x.round() as u64);
        product.par = entry.par.map_or(Some(0), |par| whole(par.value))?;
        if let Some(Spanned { value: rule, .. }) = entry.batch {
            let at_least_one =
                |amount: Option<Quantity>| amount.map_or(Some(None), |q| whole(q).map(|m| Some(m.max(1))));
            product.smallest = rule.least.map_or(Some(0), whole)?;
            product.largest = at_least_one(rule.most)?;
            product.step = at_least_one(rule.step)?;
            self.bare_batch(entry);
        }
        product.uses = self.uses(entry, &whole)?;
        self.enough_in_a_batch(entry, product);
        for (place, held) in entry.on_hand.iter().enumerate() {
            product.on_hand.push(OnHand {
                amount: counted(held.amount.value)?.floor() as u64,
                use_by: self.use_by(held, last),
                by_old_card: held.made_by.as_ref().map(|_| place),
                best_before: held.best_before,
            });
        }
        Some(())
    }

    /// An amount alone is taken as the least, and that is said: it may be what the pot holds.
    fn bare_batch(&mut self, entry: &Entry) {
        let Some(batch) = entry.batch.filter(|batch| batch.value.is_bare) else { return };
        let title = format!("the batch of `{}` is taken as the least that is made at once", entry.name.value);
        self.found.push(
            Diagnostic::note(Code::Understood, title).at(batch.span, "at least this").help(
                "write \"at least 1 L\", or if it is another: \"at most 1 L\", \"steps of 1 L\", \"1 L up to 4 L\"",
            ),
        );
    }

    /// Batches so small that a week takes more than anybody makes are a slip of the unit.
    fn enough_in_a_batch(&mut self, entry: &Entry, product: &PrepProduct) {
        let batches = product.uses.in_a_week(self.calendar) / product.largest.unwrap_or(u64::MAX);
        if batches <= MOST_BATCHES_A_WEEK {
            return;
        }
        let title = format!("`{}`: a week uses {batches} batches of the largest size", entry.name.value);
        self.found.push(
            Diagnostic::error(Code::OutOfRange, title)
                .at(entry.batch.map_or(entry.name.span, |batch| batch.span), "too little for what is used")
                .help("write a larger batch, or correct the use: \"1 L up to 5 L\""),
        );
    }

    fn use_by(&self, held: &Held, last: &impl Fn(NaiveDate) -> Option<NaiveDate>) -> Day {
        let last = match held.dated {
            HeldDate::UseBy(day) => day,
            HeldDate::Made(day) => last(day).unwrap_or(day),
        };
        self.calendar.day(last)
    }

    fn uses(&mut self, entry: &Entry, whole: &impl Fn(Quantity) -> Option<u64>) -> Option<Uses> {
        let mut uses = Uses::default();
        for (on, written) in uses.on.iter_mut().zip(&entry.use_on) {
            *on = written.map_or(Some(None), |q| whole(q.value).map(Some))?;
        }
        let of_days: u64 = uses.on.iter().flatten().sum();
        match entry.uses.map(|u| (u.value, u.span)) {
            None => {}
            Some((Rate::Day(q), _)) => {
                let each = whole(q)?;
                uses.on.iter_mut().for_each(|on| *on = on.or(Some(each)));
            }
            Some((Rate::Week(q), span)) => match whole(q)?.checked_sub(of_days) {
                Some(rest) => uses.week = rest,
                None => self.found.push(
                    Diagnostic::error(
                        Code::Contradiction,
                        format!("`{}`: single days use more than the week", entry.name.value),
                    )
                    .at(span, "less than the days of `use_on` together")
                    .help("`use` is for the whole week, the days of `use_on` counted in"),
                ),
            },
        }
        Some(uses)
    }

    /// The store of the board, else of the card, else the coldest that is not frozen.
    fn store(&mut self, card: &BoardCard<'_>) -> Option<Store> {
        let stores = &self.house.settings.stores;
        let Some(wanted) = card.entry.and_then(|e| e.store.as_ref()) else {
            return assessment::planned(&card.solved, stores).and_then(|place| stores.get(place)).cloned();
        };
        let found = stores.iter().find(|s| fold(&s.name) == fold(&wanted.value)).cloned();
        if found.is_none() {
            let diagnostic = Diagnostic::error(Code::UnknownWord, format!("the house has no store `{}`", wanted.value))
                .at(wanted.span, "not in house.toml");
            self.found.push(diagnostic.help(which_store(stores.iter(), &wanted.value)));
        }
        found
    }

    /// From the day made to the last day of use, in a store; and whether that is counted from its oldest part.
    fn last_day(
        &mut self,
        card: &BoardCard<'_>,
        store: Store,
    ) -> Option<(impl Fn(NaiveDate) -> Option<NaiveDate> + use<>, bool, bool)> {
        // The board may keep it elsewhere than its card.
        let asked = Which::Only(&store);
        let lot = Lot { counted: LotsCounted::OwnToo, ..Lot::from(self.calendar.from) };
        let (dated, found) = assessment::assess(&card.solved, self.house, lot, asked, self.draws);
        self.found.extend(found);
        let name = &card.solved.name;
        let place = dated.stores.first()?.clone();
        let at = card.entry.and_then(|e| e.store.as_ref()).map_or(card.asked_at, |s| s.span);
        let (made, stop) = (dated.lot.made, dated.stops().next().cloned());
        let unidentified: Vec<Diagnostic> = dated.unidentified.iter().map(IdentityQuestion::diagnostic).collect();
        self.judged.push((name.clone(), dated));
        if let Some(stop) = stop {
            return Diagnostic::error(Code::Stopped, format!("`{name}` is not planned: a caution says stop"))
                .at(at, stop.to_string())
                .help(format!("stillroom date \"{name}\" says more"))
                .refused(&mut self.found);
        }
        if !unidentified.is_empty() {
            self.found.extend(unidentified);
            return None;
        }
        let Some(life) = place.date.map(|last| (last - made).num_days()) else {
            return no_date(name, &place, at).refused(&mut self.found);
        };
        let (days, legal) = (place.days?, place.verdict.as_ref().and_then(|v| v.legal_days));
        let day_one = self.house.settings.day_one;
        // What an inner part decides is counted from the day made, as the date itself says.
        let last = move |made: NaiveDate| {
            let own = last_day(made, days, legal, day_one)?;
            Some(own.min(made.checked_add_signed(chrono::TimeDelta::days(life))?))
        };
        Some((last, place.by_oldest_part, place.mark == Mark::BestBefore))
    }

    fn parts(&mut self, solved: &Solved, grams_per_unit: f64, product: &mut PrepProduct) {
        let out = solved.bottled().total_grams();
        let of_gram = |grams: f64| if out > 0.0 { grams / out * grams_per_unit } else { 0.0 };
        for (stage, days_before) in solved.stages.iter().zip(days_before(solved)) {
            // no drink is made ahead: what is in it is
            for (within, part, grams) in stage.parts.iter().flat_map(|part| taken_of(solved, part)) {
                let of_unit = of_gram(grams);
                match &part.found.what {
                    Material::Stage(_) => {}
                    Material::Ingredient(ingredient) => {
                        product.takes.push(Take { of: ingredient.name.clone(), days_before, grams_per_unit: of_unit })
                    }
                    Material::Card(place) => {
                        let Some(inner) = within.inner.get(*place) else { continue };
                        product.parts.push(Goes { of: inner.card.name.clone(), days_before, per_unit: of_unit });
                    }
                }
            }
        }
    }
}

fn no_date(name: &str, place: &DatedStore, at: Span) -> Diagnostic {
    let store = &place.store.name;
    let why = match (&place.verdict, place.refused.first()) {
        (_, Some(why)) => why.to_string(),
        (None, None) => "the clock stops there: plan it for the store in which it is used".to_owned(),
        (Some(_), None) => "its life is not known".to_owned(),
    };
    Diagnostic::error(Code::NoDate, format!("`{name}` cannot be planned for the {store}: it has no date there"))
        .at(at, why)
        .help(format!("stillroom date \"{name}\" says in which store it keeps, and for how long"))
}

fn first_quantity(entry: &Entry) -> Option<Quantity> {
    let of_rate = |rate: Rate| match rate {
        Rate::Week(q) | Rate::Day(q) => q,
    };
    let par = entry.par.map(|q| q.value);
    let uses = entry.uses.map(|u| of_rate(u.value));
    let on = entry.use_on.iter().flatten().next().map(|q| q.value);
    par.or(uses).or(on).or_else(|| entry.on_hand.first().map(|h| h.amount.value))
}

/// An amount in the unit that a product is counted in.
fn counted(quantity: Quantity, unit: PrepUnit, g_per_ml: Option<f64>) -> Option<f64> {
    match (quantity.unit, unit) {
        (PrepUnit::Ml, PrepUnit::G) => Some(quantity.amount * g_per_ml?),
        (PrepUnit::G, PrepUnit::Ml) => Some(quantity.amount / g_per_ml?),
        _ => Some(quantity.amount),
    }
}

/// What waits no longer than this is done on the same working day (common practice, no source).
const SAME_DAY_H: f64 = 6.0;

/// The days that a stage takes: none within a working day, else every night that it begins; "12 h" is overnight.
fn days(takes: Option<Time>) -> Day {
    let hours = takes.map_or(0.0, |time| time.get::<hour>());
    if hours <= SAME_DAY_H { 0 } else { (hours / 24.0 - 1e-9).ceil().min(3660.0) as Day }
}

/// How many days before the product is finished each of its stages begins.
fn days_before(solved: &Solved) -> Vec<Day> {
    let takes: Vec<Day> = solved.card.all_stages().map(|s| days(s.takes.as_ref().map(|t| t.time))).collect();
    let mut before = takes.clone();
    for place in (0..solved.stages.len()).rev() {
        let users = solved.stages.iter().enumerate().skip(place + 1);
        let used_in = users.filter(|(_, s)| s.parts.iter().any(|p| p.stage() == Some(place))).map(|(user, _)| user);
        let wanted = used_in.filter_map(|user| before.get(user).copied()).max().unwrap_or(0);
        if let (Some(own), Some(takes)) = (before.get_mut(place), takes.get(place)) {
            *own = wanted + takes;
        }
    }
    before
}

/// The work of a card: each stage that waits, and the day that the product is finished.
fn works(solved: &Solved) -> Vec<Work> {
    let waits = solved.card.all_stages().zip(days_before(solved)).filter(|(_, before)| *before > 0);
    let begun = waits.map(|(stage, days_before)| Work {
        stage: stage.name.as_ref().map(|n| n.value.clone()),
        days_before,
        takes: stage.takes.as_ref().map(|takes| takes.written.clone()),
    });
    begun.chain([Work { stage: None, days_before: 0, takes: None }]).collect()
}
