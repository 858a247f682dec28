//! What a batch costs, and whether to make it or to buy it. Money is decimal from the text to the print; it is
//! rounded once, to the smallest coin, halves away from zero, and a total is the sum of its rounded lines.

mod against;
mod asked;
mod bill;
mod book;
mod costing;
mod currency;
pub mod heat;
mod line;
mod losses;
mod parts;
pub mod price;
mod rates;
mod selling;
mod tax;
mod usable;

pub use against::{Assumption, BoughtBottle, BreakEven, Comparison, Flip, Habits, Sides, Waste, compare};
pub use asked::{CostAsked, ingredient_meant};
pub use bill::{Bill, bill};
pub use costing::{Costing, MeasureCost, cost_of};
pub use currency::{Currency, quantity, round};
pub use line::{CostKind, CostLine};
pub use losses::Losses;
pub use price::{Price, PriceUnit};
pub use selling::{SellAsked, Selling, SoldMeasure, sell};
pub use tax::Tax;
pub(crate) use usable::usable_kg_in_larder;
