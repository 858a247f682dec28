//! Bottles that are bought as a maker mixed them, and whose labels nobody has read into the house's larder.

use std::collections::BTreeMap;

use crate::input::quoted;
use crate::larder::Origin;
use crate::solver::Solved;
use crate::solver::resolve::Material;

/// Which bottles of these drinks to state, by the names that their cards have for them, and how; `None` where all are. One line for
/// all of them.
pub fn bottles_to_state<'a>(drinks: impl Iterator<Item = &'a Solved>) -> Option<String> {
    let parts = drinks.flat_map(Solved::with_inner).flat_map(|(card, _)| card.parts());
    let open = parts.filter_map(|part| match &part.found.what {
        Material::Ingredient(of) if of.origin == Origin::BuiltIn && !of.allergens_stated => Some((&part.of, of)),
        _ => None,
    });
    // what is usual of such a bottle cannot be taken away
    let usual = open.map(|(name, of)| (name, of.allergens.iter().map(|of| quoted(of)).collect::<Vec<_>>().join(", ")));
    let open: BTreeMap<&String, String> = usual.collect();
    let (name, usual) = open.first_key_value()?;
    let names: Vec<&str> = open.keys().map(|name| name.as_str()).collect();
    let name = quoted(name);
    Some(format!(
        "read the label of {}, and state it in larder.toml: [ingredient.{name}] with like = {name} and allergens = [{usual}], \
         with all that it names",
        names.join(", ")
    ))
}
