//! What settles an amount that can be read in more than one way: the house, the card, the other amounts beside it.

use super::measures::Basis;
use super::{Volume, millilitres};
use crate::vocabulary::MeasureSystem;

/// What a comma between a number and three more digits means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comma {
    /// `1,250 g` is 1250 g.
    Thousands,
    /// `1,250 g` is 1.25 g, and `1.250 g` is 1250 g.
    Decimal,
}

/// What a bottle is read as holding until the thing in it is known, ml.
pub(crate) const BOTTLE_UNTIL_KNOWN_ML: f64 = 750.0;

/// How amounts are meant here. What is `None` nobody has said, and what hangs on it is asked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Customs {
    /// Which ounces, cups, pints, quarts and gallons.
    pub measures: Option<MeasureSystem>,
    /// What a bottle holds.
    pub bottle: Option<Volume>,
    /// What a ratio counts that does not say.
    pub ratio: Option<Basis>,
    /// What a comma before three digits parts.
    pub comma: Option<Comma>,
}

impl Customs {
    /// The same, where a bottle is read whoever says what it holds: the thing in it is not known yet.
    pub(crate) fn with_a_bottle(self) -> Self {
        Self { bottle: self.bottle.or(Some(millilitres(BOTTLE_UNTIL_KNOWN_ML))), ..self }
    }
}
