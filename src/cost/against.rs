//! Make it or buy it: the batch against a bottle from a shelf, with the waste that is likely, and the one
//! assumption that would turn the answer.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::diagnostic::{Code, Diagnostic};

use super::costing::{Costing, withheld};
use super::currency::quantity;
use super::line::CostKind;
use super::price::{Price, PriceUnit};

/// A bought bottle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoughtBottle {
    /// What it costs, for a volume.
    pub price: Price,
    /// Its strength, % vol, if it is known.
    pub abv_pct: Option<f64>,
}

/// How it is used.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Habits {
    /// Bottles of the bought size that are used in a week.
    pub weekly: Option<f64>,
    /// Days that the house's own keeps.
    pub life_days: Option<u32>,
}

/// Ours, theirs, and what making it saves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sides {
    /// Cost of ours.
    pub ours: Decimal,
    /// Cost of theirs.
    pub theirs: Decimal,
}

impl Sides {
    /// What making it saves; below zero where it costs more.
    pub fn saving(&self) -> Decimal {
        self.theirs - self.ours
    }
}

/// From how many bottles a week making it pays, the rest of each batch being thrown away at the end of its life.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BreakEven {
    /// Even a batch that is used to the last drop costs more than the bought bottles.
    Never,
    /// How long it keeps is not known.
    NoLife,
    /// This many.
    PerWeek(f64),
}

/// The waste that batch, use and life make likely. An estimate: use is taken as even.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waste {
    /// The share of a batch that is thrown away, as a fraction.
    pub share: f64,
    /// Cost of a bottle of what is used, against the bought one.
    pub bottle: Sides,
    /// What making it saves in a week.
    pub per_week: Decimal,
}

/// What an answer rests on.
#[derive(Clone, Debug, PartialEq)]
pub enum Assumption {
    /// The money for labour in a batch.
    Labour,
    /// The money for the dearest part in a batch.
    Part(String),
    /// The share of a batch that is thrown away.
    Waste,
}

/// The assumption that turns the answer with the least change, and the value at which it does.
#[derive(Clone, Debug, PartialEq)]
pub struct Flip {
    /// Which.
    pub what: Assumption,
    /// What it is now: money a batch, or a fraction.
    pub now: Decimal,
    /// Where the answer turns.
    pub at: Decimal,
}

/// Make or buy.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// Millilitres of the bought bottle.
    pub bottle_ml: f64,
    /// A bottle of that size.
    pub bottle: Sides,
    /// One measure, and its millilitres.
    pub measure: (f64, Sides),
    /// A UK unit of alcohol, where both strengths are known.
    pub uk_unit: Option<Sides>,
    /// With the waste that is likely, where use and life are known.
    pub waste: Option<Waste>,
    /// From how many bottles a week it pays.
    pub break_even: BreakEven,
    /// What would turn the answer.
    pub flip: Option<Flip>,
}

const DAYS_IN_WEEK: f64 = 7.0;

/// Compares a costing with a bought bottle, both before tax where the tax is known.
///
/// # Errors
/// Where the two cannot be compared: another currency, a bottle without a volume, a product that is no liquid. Where ours
/// is incomplete no answer is given: a warning.
pub fn compare(costing: &Costing, bought: &BoughtBottle, habits: Habits) -> Result<Comparison, Box<Diagnostic>> {
    let refused = |code, title: String, help: &str| Box::new(Diagnostic::error(code, title).help(help));
    if bought.price.currency != costing.currency {
        let title = format!(
            "the bought bottle is priced in {}, ours in {}",
            bought.price.currency.code(),
            costing.currency.code()
        );
        return Err(refused(Code::MixedCurrencies, title, "write both in one currency, at the rate that is paid"));
    }
    if !costing.complete {
        return Err(Box::new(withheld("whether to make or to buy it")));
    }
    let PriceUnit::Millilitres(bottle_ml) = bought.price.per else {
        let title = "the price of the bought bottle is not for a volume".to_owned();
        return Err(refused(Code::WrongDimension, title, "write for example --against \"24 GBP / 700 ml\""));
    };
    let too_large = || refused(Code::OutOfRange, "these amounts cannot be compared".to_owned(), "check the figures");
    let Some(yield_ml) = costing.yield_ml else {
        let title = format!("{} is not a liquid: a bottle of it cannot be compared", costing.name);
        return Err(refused(Code::WrongDimension, title, "compare it by weight instead"));
    };
    let made = || {
        let (theirs, _) = bought.price.net()?;
        let bottles_made = quantity(yield_ml)?.checked_div(bottle_ml)?;
        let bottle = Sides { ours: costing.batch.checked_div(bottles_made)?, theirs };
        let measure_ml = costing.serving.as_ref().map_or(30.0, |m| m.ml);
        let share = quantity(measure_ml)?.checked_div(bottle_ml)?;
        let measure = Sides { ours: bottle.ours.checked_mul(share)?, theirs: theirs.checked_mul(share)? };
        let wasted = waste(costing, bottle_ml, bottles_made, theirs, habits);
        Some(Comparison {
            bottle_ml: bottle_ml.to_f64()?,
            bottle,
            measure: (measure_ml, measure),
            uk_unit: uk_unit(costing, bought, bottle_ml, theirs),
            waste: wasted,
            break_even: break_even(costing, bottles_made, theirs, habits),
            flip: flip(costing, bottles_made, theirs, wasted),
        })
    };
    made().ok_or_else(too_large)
}

fn uk_unit(costing: &Costing, bought: &BoughtBottle, bottle_ml: Decimal, theirs: Decimal) -> Option<Sides> {
    let abv = quantity(bought.abv_pct.filter(|abv| *abv > 0.0)?)?;
    // 10 ml of pure alcohol each
    let units = bottle_ml.checked_mul(abv)?.checked_div(Decimal::ONE_THOUSAND)?;
    Some(Sides { ours: costing.per_uk_unit?, theirs: theirs.checked_div(units)? })
}

fn waste(
    costing: &Costing,
    bottle_ml: Decimal,
    bottles_made: Decimal,
    theirs: Decimal,
    habits: Habits,
) -> Option<Waste> {
    let weekly = habits.weekly.filter(|w| *w > 0.0)?;
    let life_weeks = f64::from(habits.life_days.filter(|d| *d > 0)?) / DAYS_IN_WEEK;
    let used_share = (weekly * life_weeks * bottle_ml.to_f64()? / costing.yield_ml?).min(1.0);
    let used = bottles_made.checked_mul(quantity(used_share)?)?;
    let bottle = Sides { ours: costing.batch.checked_div(used)?, theirs };
    Some(Waste { share: 1.0 - used_share, bottle, per_week: bottle.saving().checked_mul(quantity(weekly)?)? })
}

fn break_even(costing: &Costing, bottles_made: Decimal, theirs: Decimal, habits: Habits) -> BreakEven {
    // bottles that must be used of a batch so that they cost no more than bought ones
    let needed = costing.batch.checked_div(theirs).unwrap_or(Decimal::MAX);
    if needed > bottles_made {
        return BreakEven::Never;
    }
    match (habits.life_days.filter(|d| *d > 0), needed.to_f64()) {
        (Some(days), Some(needed)) => BreakEven::PerWeek(needed * DAYS_IN_WEEK / f64::from(days)),
        _ => BreakEven::NoLife,
    }
}

/// Each assumption moved alone until ours costs what theirs does; the one that moves least, as a ratio, is named.
fn flip(costing: &Costing, bottles_made: Decimal, theirs: Decimal, waste: Option<Waste>) -> Option<Flip> {
    let used = quantity(waste.map_or(1.0, |w| 1.0 - w.share))?;
    // what the batch may cost so that the bottles used cost what theirs do
    let slack = theirs.checked_mul(bottles_made)?.checked_mul(used)?.checked_sub(costing.batch)?;
    let money = |what, now: Decimal| {
        let at = now.checked_add(slack)?;
        (!now.is_zero() && !at.is_sign_negative()).then_some(Flip { what, now, at })
    };
    let labour = costing.line(CostKind::Labour).and_then(|line| money(Assumption::Labour, line.cost?));
    let dearest = costing
        .lines
        .iter()
        .filter(|l| l.kind == CostKind::Part)
        .filter_map(|l| Some((l, l.cost?)))
        .max_by(|a, b| a.1.cmp(&b.1));
    let part = dearest.and_then(|(line, cost)| money(Assumption::Part(line.of.clone()), cost));
    let most_waste = || {
        let used_at = costing.batch.checked_div(theirs.checked_mul(bottles_made)?)?;
        (used_at <= Decimal::ONE).then(|| Flip {
            what: Assumption::Waste,
            now: Decimal::ONE - used,
            at: Decimal::ONE - used_at,
        })
    };
    [labour, part, most_waste()].into_iter().flatten().min_by(|a, b| change(a).total_cmp(&change(b)))
}

/// How far an assumption must move, as the logarithm of a ratio; of waste, what is used moves.
fn change(flip: &Flip) -> f64 {
    let (from, to) = match flip.what {
        Assumption::Waste => (Decimal::ONE - flip.now, Decimal::ONE - flip.at),
        _ => (flip.now, flip.at),
    };
    match (from.to_f64(), to.to_f64()) {
        (Some(from), Some(to)) if from > 0.0 && to > 0.0 => (to / from).ln().abs(),
        _ => f64::INFINITY,
    }
}
