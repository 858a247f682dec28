//! house
