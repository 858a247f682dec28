//! Bottles that are bought as a maker mixed, cleared or brewed them, and whose labels nobody has read into the house's larder.

use std::collections::BTreeMap;

use crate::input::quoted;
use crate::larder::{Ingredient, Origin};
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::vocabulary::Market;

/// Which bottles of these drinks to state, by the names that their cards have for them, and how; `None` where all are. One line for
/// all of them. What a bottle may have been cleared with counts by the lists of these markets (none named: of all).
pub fn bottles_to_state<'a>(drinks: impl Iterator<Item = &'a Solved>, markets: &[Market]) -> Option<String> {
    let is_open = |of: &Ingredient| {
        of.origin == Origin::BuiltIn && !of.allergens_stated || of.fined_with(markets).next().is_some()
    };
    let parts = drinks.flat_map(Solved::with_inner).flat_map(|(card, _)| card.parts());
    let open = parts.filter_map(|part| match &part.found.what {
        Material::Ingredient(of) if is_open(of) => Some((&part.of, of)),
        _ => None,
    });
    let open: BTreeMap<&String, &Ingredient> = open.map(|(name, of)| (name, of.as_ref())).collect();
    let (name, of) = open.first_key_value()?;
    let names: Vec<&str> = open.keys().map(|name| name.as_str()).collect();
    // what is usual of such a bottle cannot be taken away
    let usual = of.allergens.iter().map(|of| quoted(of)).collect::<Vec<_>>().join(", ");
    let entry = match of.origin {
        Origin::BuiltIn => {
            let name = quoted(name);
            format!("[ingredient.{name}] with like = {name} and")
        }
        Origin::House(_) => format!("[ingredient.{}] gets", quoted(&of.name)),
    };
    Some(format!(
        "read the label of {}, and state it in larder.toml: {entry} allergens = [{usual}], with all that it names",
        names.join(", ")
    ))
}
