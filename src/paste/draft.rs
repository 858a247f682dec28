//! A card in the making: lines as they will stand in it, each with what was taken for granted and what is asked.

use crate::card::ASSUMED;
use crate::input::{key, quoted};
use crate::units::Customs;

/// What stands in a remark behind a line, or alone.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Remark {
    /// Taken for granted.
    Assumed(String),
    /// What nobody but the maker knows: the card is not complete while it stands there.
    Question(String),
    /// A name that the house does not know: no question any more once it does.
    Unknown(String),
    /// Said in the recipe, and no part of the card.
    Said(String),
}

/// A line of the card, or a remark alone.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct DraftLine {
    /// As TOML; empty for a remark alone.
    pub toml: String,
    pub remarks: Vec<Remark>,
    /// Whether what it asks of may be nothing that goes in.
    pub is_guess: bool,
    /// Whether nobody knows what it is that goes in.
    pub is_unknown: bool,
    /// Whether it is of what the lines have, and not as they have it.
    pub is_change: bool,
}

impl DraftLine {
    pub(super) fn of(name: &str, toml_value: &str) -> Self {
        Self { toml: format!("{} = {toml_value}", key(name)), ..Self::default() }
    }

    pub(super) fn text(name: &str, value: &str) -> Self {
        Self::of(name, &quoted(value))
    }

    pub(super) fn question(read: &str, question: impl Into<String>) -> Self {
        let question = question.into();
        let asked = if read.is_empty() { question } else { format!("{read}: {question}") };
        Self { remarks: vec![Remark::Question(asked)], ..Self::default() }
    }

    /// A question of what may be nothing that goes in.
    pub(super) fn guess(read: &str, question: impl Into<String>) -> Self {
        Self { is_guess: true, ..Self::question(read, question) }
    }

    #[must_use]
    pub(super) fn with(mut self, remark: Remark) -> Self {
        self.remarks.push(remark);
        self
    }
}

/// One part.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct DraftPart {
    /// The key of its line.
    pub label: String,
    /// What it is, where that is not the label.
    pub of: Option<String>,
    /// As a card takes it; `None` where the recipe gives none.
    pub amount: Option<String>,
    pub strained: Option<bool>,
    /// Whether that is what nobody does otherwise, and not what the recipe says.
    pub strained_is_assumed: bool,
    pub holds: Option<String>,
    pub food: Option<String>,
    pub remarks: Vec<Remark>,
    /// Whether the list has it below the line that strains what stands above.
    pub is_behind: bool,
    /// Whether no line of the list has it, but a step that adds it.
    pub is_added: bool,
    /// Whether it is what a stage of this very card gives.
    pub is_stage: bool,
}

impl DraftPart {
    /// What it is.
    pub(super) fn of(&self) -> &str {
        self.of.as_deref().unwrap_or(&self.label)
    }

    /// As a line; `amount` is there.
    pub(super) fn line(&self, amount: &str) -> DraftLine {
        let mut keys = Vec::new();
        keys.extend(self.of.as_ref().map(|of| format!("of = {}", quoted(of))));
        keys.push(format!("amount = {}", quoted(amount)));
        keys.extend((self.strained == Some(true)).then(|| match self.strained_is_assumed {
            true => format!("strained = {}", quoted(ASSUMED)),
            false => "strained = true".to_owned(),
        }));
        keys.extend(self.holds.as_ref().map(|holds| format!("holds = {holds}")));
        keys.extend(self.food.as_ref().map(|food| format!("food = {}", quoted(food))));
        let value = if keys.len() == 1 { quoted(amount) } else { format!("{{ {} }}", keys.join(", ")) };
        DraftLine { remarks: self.remarks.clone(), ..DraftLine::of(&self.label, &value) }
    }
}

/// What stands under one heading of the recipe: a stage, or what is put together last.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct DraftStage {
    pub name: Option<String>,
    /// Its keys (`takes`, `heated`).
    pub keys: Vec<DraftLine>,
    pub parts: Vec<DraftPart>,
    /// Lines among the parts that are none yet.
    pub asked: Vec<DraftLine>,
    pub loss: Vec<DraftLine>,
    pub steps: Vec<String>,
    /// Whether no heading of the recipe makes it, but its steps.
    pub is_ours: bool,
}

/// The whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Draft {
    pub name: Option<String>,
    /// Keys above the first heading.
    pub keys: Vec<DraftLine>,
    pub targets: Vec<DraftLine>,
    pub stages: Vec<DraftStage>,
    pub last: DraftStage,
    pub keep: Vec<DraftLine>,
    pub measured: Vec<DraftLine>,
    pub source: Option<String>,
    pub steps: Vec<String>,
    /// Set where the text says itself what is heated, takes its time and is strained: then nothing is read from the steps.
    pub is_complete: bool,
    /// Whether it is no recipe but a card as it was typed: the engine knows how much its lines without an amount are.
    pub is_typed: bool,
    /// A ratio says by weight or by volume somewhere on the card.
    pub basis: Option<&'static str>,
    /// It says both: of which ratio which, nobody can tell.
    pub is_of_two: bool,
    /// Whether `makes` is among the keys.
    pub makes: bool,
    /// Whether the recipe says a size at all.
    pub sized: bool,
    /// How amounts are meant in the house.
    pub customs: Customs,
}
