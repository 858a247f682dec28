//! Ingredients: composition, tags, allergens, where each number comes from. An embedded
//! larder, and the house's own `larder.toml` over it.

pub mod ingredient;

pub use ingredient::{Form, Ingredient, Origin};
