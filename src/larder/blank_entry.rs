//! The entry that an ingredient needs which nobody has described yet: what a label says is asked for, and what nobody can say
//! of a name alone is left open.

use crate::input::{key, quoted};
use crate::spelling::{fold, words};

use super::Larder;

/// The text of an entry to be filled in. No value is offered for what only the label or the maker knows: its strength, its
/// sugar, its pH, its allergens, and that it is food at all.
pub(crate) fn blank_entry(name: &str, larder: &Larder, currency: Option<&str>) -> String {
    let name: String = name.chars().filter(|c| !c.is_control()).collect();
    let name = name.trim();
    let mut lines = vec![format!("[ingredient.{}]", key(name))];
    let own = larder.find(name);
    let of = match own {
        Some(_) => {
            lines.push(format!("like = {}  # the built-in one: what stands below is said besides", quoted(name)));
            None
        }
        None => head(name, larder),
    };
    if own.is_none() {
        lines.push("# ? What is it made of? Keep what its label or your reading says, without the `# `:".to_owned());
        lines.push("# abv = \"… % vol\"  # a spirit, a liqueur: its strength; with `sugar` if it is sweet".to_owned());
        lines.push("# sugar = \"… g/L\"".to_owned());
        lines.push("# brix = \"… °Bx\"  # a syrup, a juice: what a refractometer shows".to_owned());
        lines.push("# per_100g = { sucrose = …, water = … }  # the table on the pack, grams in 100 g".to_owned());
    }
    if let Some(like) = of {
        let question = "# ? is it of this kind? It lends its numbers and its dangers, never what speaks for it";
        lines.push(format!("# like = {}  {question}", quoted(like)));
    }
    let price = currency.map_or("… (with its currency)".to_owned(), |currency| format!("… {currency}"));
    lines.push(format!("# price = \"{price} / 700 ml\"  # or / 1 kg, / each: what you pay"));
    if own.is_none() {
        lines.push("# ? food: what is it sold as, and who says so? Until that is stated it has no date".to_owned());
        lines
            .push("# ? allergens: which ones does its label name? An empty list states that it brings none".to_owned());
        lines.push("# ? ph: only as read with a meter, together with a titrated `acid`".to_owned());
    }
    lines.push("# source = \"…\"  # where the figures come from".to_owned());
    lines.join("\n") + "\n"
}

/// What its last words name: "mill lane honey" is honey. The first words only say which.
fn head<'a>(name: &str, larder: &'a Larder) -> Option<&'a str> {
    let words = words(name);
    let found = (1..words.len()).find_map(|from| larder.find(&words.get(from..)?.join(" ")))?;
    (fold(&found.name) != fold(name)).then_some(found.name.as_str())
}
