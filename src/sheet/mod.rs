//! What a liquid is, and what is known of its acidity.

pub mod acids;
pub mod properties;

pub use properties::Properties;
