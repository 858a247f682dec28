//! What is seen: text for the bench, JSON for programs, paper for the bottle. Reads a sheet, computes nothing.

#[cfg(feature = "charts")]
pub mod chart;
pub mod csv;
mod html;
pub(crate) mod page;
#[cfg(any(feature = "charts", feature = "print"))]
mod picture;
#[cfg(feature = "print")]
pub mod print;
mod sheet;
pub mod text;

pub(crate) use html::card::{card as card_page, glass as glass_page};
pub(crate) use html::recall::recall as recall_page;
#[cfg(feature = "cli")]
pub(crate) use text::lot_words::pulled as pulled_words;
