//! What a batch costs, and whether to make it or to buy it. Money is decimal from the text to the print; it is
//! rounded once, to the smallest coin, halves away from zero, and a total is the sum of its rounded lines.

mod against;
mod asked;
mod bill;
mod book;
mod costing;
mod currency;
mod each;
pub mod heat;
mod line;
mod losses;
mod parts;
pub(crate) mod price;
mod rates;
mod selling;
mod stated;
mod usable;

pub use against::{Assumption, BoughtBottle, BreakEven, Habits, Waste, compare};
pub(crate) use against::{Comparison, Sides};
pub use asked::CostAsked;
pub(crate) use asked::ingredient_meant;
pub(crate) use bill::{Bill, bill};
pub use costing::{Costing, cost_of};
pub(crate) use costing::{MeasureCost, entries_to_price};
pub use currency::{Currency, quantity, round};
pub use each::{PerGram, per_gram};
pub use line::{CostKind, CostLine};
pub use price::{Price, PriceUnit, Tax};
pub use selling::{PricedBy, SellAsked, SoldMeasure};
pub use selling::{Selling, sell};
pub(crate) use stated::faults_of_prices;
pub(crate) use usable::usable_kg_in_larder;
