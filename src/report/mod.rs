//! One view a verb: what a verb prints is what its JSON says.
//!
//! A [`Report`] is the answer of a verb, put together once from what was solved and judged, and what was found on the
//! way. Its text is written from it alone, and its JSON is the report itself: numbers at full precision (the text
//! rounds), null where there is no number, and a finding that says why.
//!
//! ```
//! use stillroom::house::House;
//! use stillroom::report::{Report, solve::SolveView};
//! use stillroom::{card, render, solver, units::celsius};
//!
//! let text = "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
//! let (card, _) = card::read("syrup.toml".into(), text.into());
//! let (card, house) = (card.unwrap(), House::default());
//! let solved = solver::solve(&card, &house, &solver::Options::default()).solved.unwrap();
//! let (view, found) = SolveView::new(&card, &solved, &house, None, celsius(20.0), chrono::NaiveDate::default());
//! assert!((view.properties.brix.unwrap() - 50.0).abs() < 1e-6);
//! let report = Report::new(Some(view), &found, |_| Some(text.into())).of_product(Some("Syrup"));
//! assert!(report.json().starts_with("{\n  \"schema\": \"stillroom.solve/1\""));
//! assert!(render::text::solve(&report, render::text::Page::default()).contains("white sugar"));
//! ```

pub(crate) mod adjust;
pub mod batch;
pub(crate) mod card;
pub(crate) mod caution;
pub(crate) mod check;
pub mod cost;
pub mod cost_question;
pub mod date;
pub(crate) mod explain;
pub(crate) mod explain_date;
mod finding;
pub(crate) mod glass_swap;
#[cfg(feature = "group")]
pub(crate) mod group;
pub(crate) mod guest;
pub mod label;
pub(crate) mod larder;
pub mod learn;
pub mod lots;
pub mod menu;
pub(crate) mod money;
pub(crate) mod new;
pub(crate) mod parts;
pub mod plan;
mod plan_bottles;
pub(crate) mod plan_fresh;
pub(crate) mod plan_not_ordered;
mod plan_product;
pub(crate) mod plan_question;
pub(crate) mod plan_step;
#[cfg(feature = "cli")]
pub(crate) mod publish;
pub(crate) mod read;
pub mod serve;
pub mod solve;
pub(crate) mod square;
pub(crate) mod store;
pub(crate) mod swap;
pub(crate) mod weigh;

use std::sync::Arc;

use serde::{Serialize, Serializer};

use crate::diagnostic::Diagnostic;

pub(crate) use finding::Finding;

/// The answer of a verb.
pub trait View: Serialize {
    /// The verb, as it is typed.
    const VERB: &'static str;
    /// The keys of the answer, parted by spaces: null where the verb has none.
    const KEYS: &'static str;
    /// Whether its text tells the notes among the findings; those that it does not tell are painted.
    const TELLS_NOTES: bool = true;

    /// Whether a caution surely says not to make or serve it as planned.
    fn stops(&self) -> bool {
        false
    }

    /// Whether the answer leaves out something that was asked for. What of that cannot be read is then no fault of the
    /// command, which was answered.
    fn leaves_out(&self) -> bool {
        false
    }
}

/// What a verb says.
#[derive(Clone, Debug, Serialize)]
#[serde(bound = "V: View")]
pub struct Report<V> {
    schema: String,
    /// The product that was asked for, of a verb that takes a card: null where no card could be read.
    #[serde(rename = "formula", skip_serializing_if = "Option::is_none")]
    product: Option<Option<String>>,
    #[serde(flatten)]
    answer: Answer<V>,
    diagnostics: Vec<Finding>,
}

impl<V: View> Report<V> {
    /// A report of what was answered, if anything was, and of what was found; `text_of` gives the text of a file that a
    /// finding speaks of.
    pub fn new(answer: Option<V>, found: &[Diagnostic], text_of: impl Fn(&str) -> Option<Arc<str>>) -> Self {
        Self {
            schema: format!("stillroom.{}/1", V::VERB),
            product: None,
            answer: Answer(answer),
            diagnostics: finding::all(found, text_of),
        }
    }

    /// Names the product that a verb on a card was asked for.
    #[must_use]
    pub fn of_product(mut self, name: Option<&str>) -> Self {
        self.product = Some(name.map(str::to_owned));
        self
    }

    /// With what was found after the answer: a file that could not be written.
    pub(crate) fn with_findings(self, found: &[Diagnostic], text_of: impl Fn(&str) -> Option<Arc<str>>) -> Self {
        Self { diagnostics: finding::all(found, text_of), ..self }
    }

    pub(crate) fn into_answer(self) -> Option<V> {
        self.answer.0
    }

    pub(crate) fn answer(&self) -> Option<&V> {
        self.answer.0.as_ref()
    }

    pub(crate) fn product(&self) -> &str {
        self.product.as_ref().and_then(Option::as_deref).unwrap_or_default()
    }

    pub(crate) fn findings(&self) -> &[Finding] {
        &self.diagnostics
    }

    /// The report for programs.
    pub fn json(&self) -> String {
        // A tree of plain values always has a text.
        serde_json::to_string_pretty(self).unwrap_or_default() + "\n"
    }
}

/// An answer, or the keys of the one that there is not.
#[derive(Clone, Debug)]
pub struct Answer<V>(pub Option<V>);

impl<V: View> Serialize for Answer<V> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.0 {
            Some(answer) => answer.serialize(serializer),
            None => serializer.collect_map(V::KEYS.split_whitespace().map(|key| (key, ()))),
        }
    }
}
