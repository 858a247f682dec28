//! The shelf-life room against its check tables, its worked dates, and its promises.

mod calendar;
mod dates_worked;
mod decay;
mod draws;
mod examples;
mod growth;
mod heat;
mod never_longer;
mod rules;
mod screen;
mod survival;
mod table;
