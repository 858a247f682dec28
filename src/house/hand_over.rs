//! A card as one file for another house: with the cards inside it and what the house's own larder says of their parts. What
//! things cost, and remarks in the larder, stay at home unless they are asked for.

use std::collections::HashSet;

use crate::card::{self, Card};
use crate::diagnostic::{Diagnostic, any_error};
use crate::input::{self, Table, key, toml};
use crate::larder::Origin;
use crate::spelling::fold;

use super::texts::House;

/// What an entry of the larder says of money and of who sells it.
const OF_MONEY: &[&str] = &["price", "priced_on", "bought", "usable", "notes"];

/// What is gathered on the way through a card.
struct Baggage<'a> {
    house: &'a House,
    /// The entries of the house's larder, by their tables.
    larder: Vec<(String, Table)>,
    /// Folded names of cards and entries that are in it already.
    met: HashSet<String>,
    cards: Vec<String>,
    entries: Vec<String>,
    with_prices: bool,
}

/// The text of one file that holds a card and all that it is made of.
///
/// # Errors
/// What is wrong with a card inside it: nobody could read that one.
pub fn hand_over(card: &Card, house: &House, with_prices: bool) -> Result<String, Vec<Diagnostic>> {
    let texts = house.sources.iter().map(|source| input::parse(&source.text, &mut Vec::new()));
    let entries = texts.filter_map(|table| Some(table.get("ingredient")?.1.value.table()?.entries.clone()));
    let entries = entries.flatten().filter_map(|(name, entry)| Some((name.value, entry.value.table()?.clone())));
    let met = HashSet::from([fold(&card.name.value)]);
    let mut baggage =
        Baggage { house, larder: entries.collect(), met, cards: Vec::new(), entries: Vec::new(), with_prices };
    baggage.pack(card)?;
    let mut text = tidy(&card.text);
    for inner in &baggage.cards {
        text.push_str("\n[[card]]\n");
        text.push_str(inner);
    }
    for entry in &baggage.entries {
        text.push('\n');
        text.push_str(entry);
    }
    Ok(text)
}

impl Baggage<'_> {
    /// Takes what the parts of a card are; each once, so that no ring is walked twice.
    fn pack(&mut self, card: &Card) -> Result<(), Vec<Diagnostic>> {
        let stages: HashSet<String> =
            card.stages.iter().filter_map(|stage| Some(fold(&stage.name.as_ref()?.value))).collect();
        for (_, part) in card.all_parts() {
            let name = &part.of.value;
            let folded = fold(name);
            let is_own = folded == fold(&card.name.value);
            if stages.contains(&folded) {
                continue;
            }
            match self.house.card(name).filter(|_| !is_own) {
                Some(source) if self.met.insert(folded) => {
                    let (inner, found) = card::read_by(source.file.clone(), source.text.clone(), &self.house.customs());
                    let Some(inner) = inner.filter(|_| !any_error(&found)) else { return Err(found) };
                    self.cards.push(inside(&tidy(&inner.text)));
                    self.pack(&inner)?;
                }
                Some(_) => {}
                None => {
                    let found = self.house.larder.find(name).filter(|found| found.origin != Origin::BuiltIn);
                    if let Some(found) = found {
                        self.entry(&found.name);
                    }
                }
            }
        }
        Ok(())
    }

    /// Takes an entry of the larder, and those that it is like.
    fn entry(&mut self, name: &str) {
        let folded = fold(name);
        let Some((name, table)) = self.larder.iter().rev().find(|(own, _)| fold(own) == folded).cloned() else {
            return;
        };
        // an entry and a card may have one name: they are two things
        if !self.met.insert(format!("ingredient {folded}")) {
            return;
        }
        let like = table.get("like").and_then(|(_, like)| like.value.text());
        if let Some(like) = like.filter(|like| fold(like) != folded) {
            self.entry(like);
        }
        let kept = |key: &str| self.with_prices || !OF_MONEY.contains(&key);
        let kept: Vec<_> = table.entries.iter().filter(|(key, _)| kept(&key.value)).collect();
        let lines = kept.iter().map(|(name, value)| format!("{} = {}\n", key(&name.value), toml(&value.value)));
        self.entries.push(format!("[ingredient.{}]\n{}", key(&name), lines.collect::<String>()));
    }
}

/// Without blank lines above and blanks behind.
fn tidy(text: &str) -> String {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let lines: Vec<&str> = text.lines().map(str::trim_end).skip_while(|line| line.is_empty()).collect();
    lines.join("\n").trim_end().to_owned() + "\n"
}

/// A card as a table of another one: `[parts]` becomes `[card.parts]`.
fn inside(text: &str) -> String {
    let mut inside = String::with_capacity(text.len());
    let mut from = 0;
    for heading in input::headings(text) {
        let brackets = text.get(heading.start..heading.end).map_or(0, |h| h.len() - h.trim_start_matches('[').len());
        let name = heading.start + brackets;
        inside.push_str(text.get(from..name).unwrap_or_default());
        inside.push_str("card.");
        from = name;
    }
    inside.push_str(text.get(from..).unwrap_or_default());
    inside
}
