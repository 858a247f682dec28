//! What a lot was made from, kept with it: with these texts and this program its numbers come out again.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use chrono::NaiveDate;
use sha2::{Digest, Sha256};

use crate::aim;
use crate::card::{self, Card, Measured, TargetKind};
use crate::diagnostic::{Span, Spanned};
use crate::house::{House, LARDER, OF_HOUSE};
use crate::mixture::Component;
use crate::solver::{Options, Solved, solve};

use super::book::LotState;
use super::event::BatchReading;

/// The hash under which a text is kept: SHA-256.
pub fn content_hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// What a lot was made from, kept once: with these texts and this program its numbers come out again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FrozenSheet {
    /// The version of the program.
    pub program: String,
    /// The name of the card's file among the texts.
    pub card: String,
    /// The card, the cards inside it, and the files of the house.
    pub texts: BTreeMap<String, String>,
    /// What the built-in ingredients in it were taken to be: grams of components in a gram, and their source.
    pub larder: BTreeMap<String, String>,
}

/// The name of a file without its folders.
fn base(file: &str) -> String {
    file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned()
}

impl FrozenSheet {
    pub(crate) fn of(card: &Card, solved: &Solved, house: &House) -> Self {
        let mut texts: BTreeMap<String, String> =
            house.sources.iter().map(|source| (base(&source.file), source.text.to_string())).collect();
        for (inner, _) in solved.with_inner() {
            texts.insert(base(&inner.card.file), inner.card.text.to_string());
        }
        let larder = solved.ingredients().into_iter().map(|(i, _)| {
            let held = |c: &&Component| i.per_gram.grams_of(**c) != 0.0;
            let grams = Component::ALL.iter().filter(held).map(|c| format!("{} {}", c.key(), i.per_gram.grams_of(*c)));
            (i.id.clone(), format!("{}; {}", grams.collect::<Vec<_>>().join(", "), i.source))
        });
        Self { program: env!("CARGO_PKG_VERSION").to_owned(), card: base(&card.file), texts, larder: larder.collect() }
    }

    /// Its text, the same for the same content.
    pub fn text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The hash of what decides what the product is: the cards, and what their ingredients were taken to be.
    pub fn recipe(&self) -> String {
        let cards = self.texts.iter().filter(|(name, _)| !OF_HOUSE.contains(&name.as_str()));
        let all: Vec<&str> =
            cards.map(|(_, text)| text.as_str()).chain(self.larder.values().map(String::as_str)).collect();
        content_hash(&all.join("\n"))
    }

    /// The same cards with the larder of a house as it stands now.
    pub(super) fn with_larder_of(&self, house: &House) -> Self {
        let larder = house.sources.iter().filter(|source| base(&source.file) == LARDER);
        let larder = larder.map(|source| (LARDER.to_owned(), source.text.to_string()));
        Self { texts: self.texts.clone().into_iter().chain(larder).collect(), ..self.clone() }
    }

    /// The text of its card.
    pub(super) fn card_text(&self) -> Option<&str> {
        self.texts.get(&self.card).map(String::as_str)
    }

    /// The house that is kept in it, and the card solved with what was read of a lot; `None` where it cannot be any more.
    pub(super) fn solved(&self, lot: &LotState) -> Option<(House, Solved)> {
        let (house, mut card) = self.opened()?;
        with_readings(&mut card, &lot.recorded.readings, lot.recorded.made);
        let made = aim::chosen(&card, &house, &Options::default(), &mut Vec::new())?;
        let solved = solve(&made.card, &made.house, &Options::default()).solved?;
        let house = made.house.into_owned();
        Some((house, solved))
    }

    /// The house and the card that are kept in it.
    pub fn opened(&self) -> Option<(House, Card)> {
        let texts = self.texts.iter().map(|(name, text)| (name.as_str(), text.as_str()));
        let (house, _) = House::from_texts(texts);
        let text = self.texts.get(&self.card)?.as_str();
        let card = card::read_by(self.card.as_str().into(), text.into(), &house.customs()).0?;
        Some((house, card))
    }
}

/// The readings of a batch in the place of those of its card.
pub(super) fn with_readings(card: &mut Card, readings: &[BatchReading], on: NaiveDate) {
    if readings.is_empty() {
        return;
    }
    let spanned = |value| Spanned { value, span: Span::default() };
    let mut measured = Measured { on: Some(Spanned { value: on, span: Span::default() }), ..Measured::default() };
    for reading in readings {
        match reading.of {
            TargetKind::Brix => measured.brix = Some(spanned(reading.value)),
            TargetKind::Abv => measured.abv = Some(spanned(reading.value)),
            TargetKind::Acid => measured.acid = Some(spanned(reading.value)),
            TargetKind::Ph => (measured.ph, measured.ph_by) = (Some(spanned(reading.value)), reading.by),
            TargetKind::Sugar => {}
        }
    }
    card.measured = measured;
}
