//! When a caution speaks: a condition over [`Facts`], answered true, false or not known.

mod parse;
mod truth;

use std::collections::{BTreeSet, HashSet};

pub use parse::parse;
pub use truth::{Missing, Truth};

use crate::vocabulary::Market;

use super::facts::{Fact, Facts, Flag, Member, Quantity, Storage, Tcs};
use super::members::Members;
use super::variables::Variable;

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
    Flag(Flag),
    /// A word is this one.
    Is(Choice),
    /// A set holds this.
    Holds(Member),
    /// There is no such figure.
    IsNone(Quantity),
    /// Two numbers compared.
    Compare(NumberTerm, Relation, NumberTerm),
}

impl Default for Condition {
    fn default() -> Self {
        Self::Or(Vec::new())
    }
}

/// A word that a fact may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// The class of the pH and water activity table.
    Tcs(Tcs),
    /// The class that it would have without the added acid.
    TcsWithoutAcid(Tcs),
    /// Where it is kept.
    Storage(Storage),
}

impl Choice {
    fn variable(self) -> Variable {
        match self {
            Self::Tcs(_) => Variable::Tcs,
            Self::TcsWithoutAcid(_) => Variable::TcsWithoutAcid,
            Self::Storage(_) => Variable::Storage,
        }
    }

    fn evaluate(self, facts: &Facts) -> Truth {
        fn is<T: PartialEq>(fact: Fact<T>, wanted: T, variable: Variable) -> Truth {
            match fact {
                Fact::Known(value) => (value == wanted).into(),
                Fact::None | Fact::Unknown => Truth::hangs_on(variable, None),
            }
        }
        match self {
            Self::Tcs(class) => is(facts.tcs, class, self.variable()),
            Self::TcsWithoutAcid(class) => is(facts.tcs_no_acid, class, self.variable()),
            Self::Storage(storage) => is(facts.storage, storage, self.variable()),
        }
    }
}

/// A set whose members can be counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum CountedSet {
    Tags,
    Allergens,
    Process,
}

impl CountedSet {
    fn variable(self) -> Variable {
        match self {
            Self::Tags => Variable::Tags,
            Self::Allergens => Variable::Allergens,
            Self::Process => Variable::Process,
        }
    }

    fn count(self, facts: &Facts) -> (usize, Option<usize>) {
        match self {
            Self::Tags => facts.tags.count(),
            Self::Allergens => facts.allergens.count(),
            Self::Process => facts.process.count(),
        }
    }
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
pub enum NumberTerm {
    /// Written in the trigger.
    Constant(f64),
    /// A fact.
    Fact(Quantity),
    /// How many a set holds.
    Count(CountedSet),
    /// `a + b`
    Sum(Box<NumberTerm>, Box<NumberTerm>),
    /// `a - b`
    Difference(Box<NumberTerm>, Box<NumberTerm>),
    /// `a * b`
    Product(Box<NumberTerm>, Box<NumberTerm>),
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

    fn unknown(variable: Variable, (low, high): (f64, f64)) -> Self {
        Self { low, high, missing: BTreeSet::from([Missing { variable, member: None }]) }
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

impl NumberTerm {
    fn bounds(&self, facts: &Facts) -> Bounds {
        match self {
            Self::Constant(value) => Bounds::exactly(*value),
            Self::Fact(quantity) => match facts.number(*quantity) {
                Fact::Known(value) => Bounds::exactly(value),
                Fact::None | Fact::Unknown => Bounds::unknown(Variable::Quantity(*quantity), quantity.bounds()),
            },
            Self::Count(set) => match set.count(facts) {
                (least, Some(most)) if least == most => Bounds::exactly(least as f64),
                (least, most) => {
                    Bounds::unknown(set.variable(), (least as f64, most.map_or(f64::INFINITY, |most| most as f64)))
                }
            },
            Self::Sum(a, b) => a.bounds(facts).combine(b.bounds(facts), |a, b| a + b),
            Self::Difference(a, b) => a.bounds(facts).combine(b.bounds(facts), |a, b| a - b),
            // nothing of it is nothing, however much it might be
            Self::Product(a, b) => {
                a.bounds(facts).combine(b.bounds(facts), |a, b| if a == 0.0 || b == 0.0 { 0.0 } else { a * b })
            }
        }
    }

    fn variables(&self, found: &mut Vec<Variable>) {
        match self {
            Self::Constant(_) => {}
            Self::Fact(quantity) => found.push(Variable::Quantity(*quantity)),
            Self::Count(set) => found.push(set.variable()),
            Self::Sum(a, b) | Self::Difference(a, b) | Self::Product(a, b) => {
                a.variables(found);
                b.variables(found);
            }
        }
    }
}

impl Member {
    fn variable(&self) -> Variable {
        match self {
            Self::Market(_) => Variable::Market,
            Self::Tag(_) => Variable::Tags,
            Self::Allergen(_) => Variable::Allergens,
            Self::Process(_) => Variable::Process,
        }
    }

    fn evaluate(&self, facts: &Facts, market: Market) -> Truth {
        let holds = |has: bool, may: bool| match (has, may) {
            (true, _) => Truth::True,
            (_, false) => Truth::False,
            _ => Truth::hangs_on(self.variable(), Some(self.clone())),
        };
        fn in_set<T: Ord + Clone>(set: &Members<T>, member: &T) -> (bool, bool) {
            (set.has(member.clone()), set.may_hold(member.clone()))
        }
        let (has, may) = match self {
            Self::Market(wanted) => return (market == *wanted).into(),
            Self::Tag(tag) => in_set(&facts.tags, tag),
            Self::Allergen(allergen) => in_set(&facts.allergens, allergen),
            Self::Process(process) => in_set(&facts.process, process),
        };
        holds(has, may)
    }
}

impl Condition {
    /// Whether it holds in one market.
    pub fn evaluate(&self, facts: &Facts, market: Market) -> Truth {
        match self {
            Self::Or(any) => any.iter().fold(Truth::False, |truth, c| truth.or(c.evaluate(facts, market))),
            Self::And(all) => all.iter().fold(Truth::True, |truth, c| truth.and(c.evaluate(facts, market))),
            Self::Not(inner) => inner.evaluate(facts, market).negate(),
            Self::Flag(flag) => match facts.flag(*flag) {
                Fact::Known(yes) => yes.into(),
                Fact::None | Fact::Unknown => Truth::hangs_on(Variable::Flag(*flag), None),
            },
            Self::Is(choice) => choice.evaluate(facts),
            Self::Holds(member) => member.evaluate(facts, market),
            Self::IsNone(quantity) => match facts.number(*quantity) {
                Fact::None => Truth::True,
                Fact::Known(_) => Truth::False,
                Fact::Unknown => Truth::hangs_on(Variable::Quantity(*quantity), None),
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
    pub fn variables(&self) -> Vec<Variable> {
        let mut found = Vec::new();
        self.walk(&mut |condition| match condition {
            Self::Flag(flag) => found.push(Variable::Flag(*flag)),
            Self::Is(choice) => found.push(choice.variable()),
            Self::Holds(member) => found.push(member.variable()),
            Self::IsNone(quantity) => found.push(Variable::Quantity(*quantity)),
            Self::Compare(a, _, b) => {
                a.variables(&mut found);
                b.variables(&mut found);
            }
            Self::Or(_) | Self::And(_) | Self::Not(_) => {}
        });
        let mut seen = HashSet::new();
        found.retain(|v| seen.insert(*v));
        found
    }

    /// Every member that it looks for in a set.
    pub fn members(&self) -> Vec<Member> {
        let mut found = Vec::new();
        self.walk(&mut |condition| {
            if let Self::Holds(member) = condition {
                found.push(member.clone());
            }
        });
        found
    }
}
