//! What is seen: text for the bench, JSON for programs. Reads a sheet, computes nothing.

#[cfg(feature = "charts")]
pub mod chart;
pub mod csv;
pub mod text;
