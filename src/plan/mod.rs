//! The plan of a week (or of twelve): from pars to a dated prep list and an order list.
//!
//! [`board`] reads `plan.toml`, `kitchen` brings each product of it (and each house product inside it) from its card
//! to plain numbers, [`mod@schedule`] says what is made on which day, [`orders`] what is bought for it, [`mod@settle`] both together.
//!
//! Inside, a day is a number counted from the first day of the plan, and an amount is a whole number of millilitres or
//! grams, so that nothing is lost in rounding and the same board gives the same plan to the drop.
//!
//! What a plan keeps, or says that it cannot keep:
//! - Hands are needed on the day that a stage begins and on the day that the product is finished; never on a closed day,
//!   never before the plan begins. A waiting time is kept to the day: nothing macerates a day longer than its card says.
//! - What is finished on a day can be used on that day.
//! - A batch for which something comes too late stands where it is wanted, and says what it waits for; one that would be
//!   past its date by then is not planned.
//! - What the drinks of a menu take counts like any use; of what the board says a use of its own for, that counts.
//! - Stock goes first-expired-first-out. What goes into another product must keep as long as that product shall.
//! - A batch is as large as its use until the end of the plan, or until the end of its life if that comes first; it is larger
//!   only where the house's own prices say that what is thrown away costs less than the work that it saves.

pub(crate) mod batch;
pub mod board;
pub(crate) mod calendar;
pub mod findings;
pub(crate) mod kitchen;
pub(crate) mod left_out;
pub mod model;
pub mod on_hand;
pub mod orders;
pub(crate) mod planned;
pub(crate) mod poured;
pub(crate) mod ready;
pub mod schedule;
pub mod settle;
pub mod stock;
pub mod tables;
pub(crate) mod waits;

pub use calendar::{Calendar, Uses};
pub use kitchen::Kitchen;
pub use left_out::LeftOut;
pub use model::{BatchCost, Goes, OnHand, PrepLot, PrepProduct, PrepUnit, Take, Work};
pub use orders::Stocked;
pub use planned::{Plan, Planned, Short, Why};
pub use poured::{Glasses, OnIce, Pour, Poured};
pub use schedule::schedule;
pub use settle::{SettledPlan, settle};
