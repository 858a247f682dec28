//! What a batch costs, and whether to make it or to buy it. Money is decimal from the text to the print; it is
//! rounded once, to the smallest coin, halves away from zero, and a total is the sum of its rounded lines.

pub mod against;
mod bill;
mod book;
mod costing;
pub mod currency;
pub mod heat;
mod line;
mod losses;
mod parts;
pub mod price;
mod rates;
pub mod trade;
pub mod usable;

pub use against::{Assumption, Bought, BreakEven, Comparison, Flip, Habits, Sides, Waste, compare, withheld};
pub use bill::{Bill, bill};
pub use costing::{Asked, Costing, Measure, cost_of};
pub use currency::Currency;
pub use line::{Kind, Line};
pub use losses::Losses;
pub use price::{Per, Price, Tax};
