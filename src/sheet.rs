//! sheet
