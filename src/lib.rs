//! `stillroom`: formulation and shelf life for people who make their own bar ingredients.
//!
//! The rooms, in the order in which they may use each other (each may use those above it):
//!
//! 1. [`units`]: amounts as people write them, as typed quantities.
//! 2. [`mixture`]: what a mixture is made of and how it behaves. Pure functions.
//! 3. [`instruments`]: what instruments show, as true values with their doubt.
//! 4. [`larder`]: ingredients and where their numbers come from.
//! 5. [`card`]: the text file that a maker writes.
//! 6. [`house`]: the folder of a house: its settings and its formulas by name.
//! 7. [`solver`]: unknown amounts from targets.
//! 8. [`uncertainty`]: how sure each number is, and what spoils it most.
//! 9. [`safety`]: cautions as data, judged with answers of yes, no and not known.
//! 10. [`shelf_life`]: how long it keeps: one date with its reason.
//! 11. [`assessment`]: the verdicts and cautions of a solved card.
//! 12. [`cost`]: what a batch costs, and whether it is worth making. Decimals only.
//! 13. [`plan`]: pars, lead times and dates: a prep list and an order list.
//! 15. [`report`]: one view a verb: what it prints is what its JSON says.
//! 16. [`render`]: text and charts of a report.
//! 17. [`cli`]: the verbs; the only room that knows a terminal and an exit code.
//!
//! [`diagnostic`], [`references`], [`vocabulary`], [`spelling`] and [`input`] may be used by all. The library returns data and
//! diagnostics; it never prints and never exits.

pub mod diagnostic;
pub mod input;
pub mod references;
pub mod spelling;
pub mod vocabulary;

pub mod units;

pub mod mixture;

pub mod properties;

pub mod instruments;

pub mod larder;

pub mod card;

pub mod house;

pub mod solver;

pub mod uncertainty;

pub mod safety;

pub mod shelf_life;

pub mod assessment;

pub mod cost;

pub mod plan;

pub mod report;

pub mod render;

#[cfg(feature = "cli")]
pub mod cli;
