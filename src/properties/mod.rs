//! What is said of a liquid, and what stands behind each number.

mod equation;

pub use equation::{Equation, methods};
