//! The shelf-life room against its check tables, its worked examples, and its promises.

mod calendar;
mod decay;
mod examples;
mod growth;
mod heat;
mod never_longer;
mod rules;
mod screen;
mod table;
mod worked;
