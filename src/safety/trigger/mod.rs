//! When a caution speaks: a condition over [`Facts`], answered true, false or not known.

mod parse;
mod truth;

use std::collections::BTreeSet;

pub use parse::{TriggerError, parse};
pub use truth::{Missing, Truth};

use super::facts::{Fact, Facts, Members};
use super::market::Market;
use super::variables::{FactKind, Variable};

/// A condition.
#[derive(Clone, Debug, PartialEq)]
pub enum Condition {
    /// One of these at least.
    Or(Vec<Condition>),
    /// All of these.
    And(Vec<Condition>),
    /// Not this.
    Not(Box<Condition>),
    /// A yes or no.
    Flag(&'static Variable),
    /// A word is this one.
    WordIs(&'static Variable, String),
    /// A set holds this tag.
    Holds(&'static Variable, String),
    /// There is no such figure.
    IsNone(&'static Variable),
    /// Two numbers compared.
    Compare(Number, Relation, Number),
}

/// How two numbers are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// `<`
    Less,
    /// `<=`
    LessOrEqual,
    /// `==`
    Equal,
}

/// A number.
#[derive(Clone, Debug, PartialEq)]
pub enum Number {
    /// Written in the trigger.
    Constant(f64),
    /// A fact.
    Variable(&'static Variable),
    /// How many tags a set holds.
    Count(&'static Variable),
    /// `a + b`
    Sum(Box<Number>, Box<Number>),
    /// `a - b`
    Difference(Box<Number>, Box<Number>),
    /// `a * b`
    Product(Box<Number>, Box<Number>),
}

/// What is known of a number: it lies between two bounds, and what to state to know more.
struct Bounds {
    low: f64,
    high: f64,
    missing: BTreeSet<Missing>,
}

impl Bounds {
    fn exactly(value: f64) -> Self {
        Self { low: value, high: value, missing: BTreeSet::new() }
    }

    fn unknown(variable: &'static Variable, low: f64, high: f64) -> Self {
        Self { low, high, missing: BTreeSet::from([Missing { variable: variable.name, member: None }]) }
    }

    /// The bounds of a result that is extreme where its arguments are.
    fn combine(mut self, other: Self, apply: impl Fn(f64, f64) -> f64) -> Self {
        self.missing.extend(other.missing);
        let corners = [
            apply(self.low, other.low),
            apply(self.low, other.high),
            apply(self.high, other.low),
            apply(self.high, other.high),
        ];
        // infinity minus infinity says nothing
        let bound = |of: fn(f64, f64) -> f64, open: f64| {
            if corners.iter().any(|c| c.is_nan()) { open } else { corners.into_iter().fold(-open, of) }
        };
        self.low = bound(f64::min, f64::NEG_INFINITY);
        self.high = bound(f64::max, f64::INFINITY);
        self
    }

    fn compare(mut self, order: Relation, other: Self) -> Truth {
        let (surely, never) = match order {
            Relation::Less => (self.high < other.low, self.low >= other.high),
            Relation::LessOrEqual => (self.high <= other.low, self.low > other.high),
            Relation::Equal => {
                (self.low == other.high && self.high == other.low, self.high < other.low || self.low > other.high)
            }
        };
        match (surely, never) {
            (true, _) => Truth::True,
            (_, true) => Truth::False,
            _ => {
                self.missing.extend(other.missing);
                Truth::Unknown(self.missing)
            }
        }
    }
}

impl Number {
    fn bounds(&self, facts: &Facts) -> Bounds {
        match self {
            Self::Constant(value) => Bounds::exactly(*value),
            Self::Variable(variable) => match (facts.number(variable.name), variable.kind) {
                (Fact::Known(value), _) => Bounds::exactly(value),
                (_, FactKind::Number { low, high }) => Bounds::unknown(variable, low, high),
                _ => Bounds::unknown(variable, f64::NEG_INFINITY, f64::INFINITY),
            },
            Self::Count(variable) => match facts.set(variable.name) {
                Some(set) if set.open => Bounds::unknown(variable, set.present.len() as f64, f64::INFINITY),
                Some(set) if set.unsure.is_subset(&set.present) => Bounds::exactly(set.present.len() as f64),
                Some(set) => {
                    let most = set.present.union(&set.unsure).count();
                    Bounds::unknown(variable, set.present.len() as f64, most as f64)
                }
                None => Bounds::unknown(variable, 0.0, f64::INFINITY),
            },
            Self::Sum(a, b) => a.bounds(facts).combine(b.bounds(facts), |a, b| a + b),
            Self::Difference(a, b) => a.bounds(facts).combine(b.bounds(facts), |a, b| a - b),
            // nothing of it is nothing, however much it might be
            Self::Product(a, b) => {
                a.bounds(facts).combine(b.bounds(facts), |a, b| if a == 0.0 || b == 0.0 { 0.0 } else { a * b })
            }
        }
    }

    fn variables(&self, found: &mut Vec<&'static Variable>) {
        match self {
            Self::Constant(_) => {}
            Self::Variable(variable) | Self::Count(variable) => found.push(variable),
            Self::Sum(a, b) | Self::Difference(a, b) | Self::Product(a, b) => {
                a.variables(found);
                b.variables(found);
            }
        }
    }
}

fn holds(variable: &'static Variable, set: Option<&Members>, tag: &str) -> Truth {
    match set {
        Some(set) if set.present.contains(tag) => Truth::True,
        Some(set) if !set.may_hold(tag) => Truth::False,
        _ => Truth::hangs_on(variable.name, Some(tag)),
    }
}

impl Condition {
    /// Whether it holds in one market.
    pub fn evaluate(&self, facts: &Facts, market: Market) -> Truth {
        match self {
            Self::Or(any) => any.iter().fold(Truth::False, |truth, c| truth.or(c.evaluate(facts, market))),
            Self::And(all) => all.iter().fold(Truth::True, |truth, c| truth.and(c.evaluate(facts, market))),
            Self::Not(inner) => inner.evaluate(facts, market).negate(),
            Self::Flag(variable) => match facts.flag(variable.name) {
                Fact::Known(yes) => yes.into(),
                Fact::None | Fact::Unknown => Truth::hangs_on(variable.name, None),
            },
            Self::WordIs(variable, word) => match facts.word(variable.name) {
                Fact::Known(is) => (is == word).into(),
                Fact::None | Fact::Unknown => Truth::hangs_on(variable.name, None),
            },
            Self::Holds(variable, tag) if variable.name == "market" => (market.code() == tag).into(),
            Self::Holds(variable, tag) => holds(variable, facts.set(variable.name), tag),
            Self::IsNone(variable) => match facts.number(variable.name) {
                Fact::None => Truth::True,
                Fact::Known(_) => Truth::False,
                Fact::Unknown => Truth::hangs_on(variable.name, None),
            },
            Self::Compare(a, order, b) => a.bounds(facts).compare(*order, b.bounds(facts)),
        }
    }

    fn walk(&self, see: &mut impl FnMut(&Self)) {
        see(self);
        match self {
            Self::Or(all) | Self::And(all) => all.iter().for_each(|c| c.walk(see)),
            Self::Not(inner) => inner.walk(see),
            _ => {}
        }
    }

    /// Every variable it asks for, each once.
    pub fn variables(&self) -> Vec<&'static Variable> {
        let mut found = Vec::new();
        self.walk(&mut |condition| match condition {
            Self::Flag(v) | Self::WordIs(v, _) | Self::Holds(v, _) | Self::IsNone(v) => found.push(*v),
            Self::Compare(a, _, b) => {
                a.variables(&mut found);
                b.variables(&mut found);
            }
            Self::Or(_) | Self::And(_) | Self::Not(_) => {}
        });
        let mut seen = BTreeSet::new();
        found.retain(|v| seen.insert(v.name));
        found
    }

    /// Every tag it looks for, with the set in which it looks.
    pub fn tags(&self) -> Vec<(&'static str, String)> {
        let mut found = Vec::new();
        self.walk(&mut |condition| {
            if let Self::Holds(variable, tag) = condition {
                found.push((variable.name, tag.clone()));
            }
        });
        found
    }
}
