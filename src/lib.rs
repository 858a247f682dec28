//! `stillroom`: formulation and shelf life for people who make their own bar ingredients.
//!
//! The rooms, in the order in which they may use each other (each may use those above it):
//!
//! 1. [`quantity`]: amounts as people write them, as typed quantities.
//! 2. [`mixture`]: what a mixture is made of and how it behaves. Pure functions.
//! 3. [`larder`]: ingredients and where their numbers come from.
//! 4. [`formula`]: the text file that a maker writes.
//! 5. [`house`]: the folder of a house: its settings and its formulas by name.
//! 6. [`solve`]: unknown amounts from targets.
//! 7. [`doubt`]: how sure each number is, and what spoils it most.
//! 8. [`shelf_life`]: how long it keeps: one date with its reason.
//! 9. [`cost`]: what a batch costs, and whether to make it or to buy it.
//! 10. [`sheet`]: everything that is said of one solved formula, put together once.
//! 11. [`render`]: text and JSON of a sheet.
//! 12. [`cli`]: the verbs; the only room that knows a terminal and an exit code.
//!
//! [`diagnostic`], [`sources`] and [`text`] may be used by all. The library returns data and
//! diagnostics; it never prints and never exits.

pub mod diagnostic;
pub mod sources;
pub mod text;

pub mod quantity;

pub mod mixture;

pub mod larder;

pub mod formula;

pub mod house;

pub mod solve;

pub mod doubt;

pub mod shelf_life;

pub mod cost;

pub mod sheet;

pub mod render;

pub mod cli;
