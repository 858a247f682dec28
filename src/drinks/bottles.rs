//! Bottles that are bought as a maker mixed them, and whose labels nobody has read into the house's larder.

use std::collections::BTreeMap;

use crate::input::quoted;
use crate::larder::Origin;
use crate::solver::Solved;

/// Which bottles of these drinks to state, and how; `None` where all are. One line for all of them.
pub fn bottles_to_state<'a>(drinks: impl Iterator<Item = &'a Solved>) -> Option<String> {
    let of = drinks.flat_map(Solved::ingredients).map(|(ingredient, _)| ingredient);
    let open = of.filter(|of| of.origin == Origin::BuiltIn && !of.allergens_stated);
    // what is usual of such a bottle cannot be taken away
    let open: BTreeMap<&str, String> = open
        .map(|of| (of.name.as_str(), of.allergens.iter().map(|of| quoted(of)).collect::<Vec<_>>().join(", ")))
        .collect();
    let (name, usual) = open.first_key_value()?;
    let names: Vec<&str> = open.keys().copied().collect();
    let name = quoted(name);
    Some(format!(
        "read the label of {}, and state it in larder.toml: [ingredient.{name}] with like = {name} and allergens = [{usual}], \
         with all that it names",
        names.join(", ")
    ))
}
