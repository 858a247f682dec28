//! What is sold: the drinks of a house with their prices, what goes of each in a week, and its share of an event.
//!
//! [`read`] reads `menu.toml`, [`listed`] brings each drink of it to one guest's glass, [`mark`] says of an allergen whether
//! it is in one, [`without`] which drinks fall away with a product, `put_on` brings what is sold to the board of a plan.

mod file;
mod listed;
mod matrix;
mod occasion;
mod pours;
mod without;

pub use file::{Menu, MenuDrink, Occasion, read, schema};
pub use listed::{ListedDrink, listed};
pub(crate) use matrix::is_within;
pub use matrix::{AllergenMark, mark, rows};
pub use occasion::{OccasionAsked, Party, Served, served};
pub(crate) use pours::{Sales, board_of, day_of, nothing_to_plan, put_on, when_closed};
pub use without::{Gone, TakenDown, Undressed, undressed, without};
