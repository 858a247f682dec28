//! A house and a card as a page carries them.

use crate::card::Card;
use crate::diagnostic::Diagnostic;
use crate::input::{self, Value, key, toml};

use super::hand_over::hand_over;
use super::texts::{HOUSE, House};

/// What a page is given of a house and of a card: the settings, if there are any, and the card with all that it is made of.
/// Remarks in the files stay at home, and so does what things cost and who sells them, unless it is asked for.
///
/// # Errors
/// What is wrong with a card inside it.
pub(crate) fn for_page(
    card: &Card,
    house: &House,
    with_prices: bool,
) -> Result<(Option<String>, String), Vec<Diagnostic>> {
    let card = input::without_remarks(&hand_over(card, house, with_prices)?);
    let of_house = house.sources.iter().find(|source| source.file.ends_with(HOUSE));
    let settings = of_house.map(|source| {
        let mut table = input::parse(&source.text, &mut Vec::new());
        table.entries.retain(|(name, _)| with_prices || name.value != "costs");
        for (_, value) in &mut table.entries {
            if let Value::Table(of_house) = &mut value.value {
                of_house.entries.retain(|(name, _)| with_prices || name.value != "currency");
            }
        }
        let lines =
            table.entries.iter().map(|(name, value)| format!("{} = {}\n", key(&name.value), toml(&value.value)));
        lines.collect()
    });
    Ok((settings, card))
}
