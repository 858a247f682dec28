//! What a swap changes in the judgement of a card: which allergens come and go, and what now says stop.

use std::sync::Arc;

use crate::card::Measured;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::safety::{Caution, Level};
use crate::solver::Solved;

use super::{Assessment, IdentityQuestion, declared, undated};

/// What is different once a part was swapped for another.
#[derive(Clone, Debug, serde::Serialize)]
pub struct SwapJudgement {
    /// Allergens that were not there, as they are said by the lists of the house.
    pub added: Vec<String>,
    /// Allergens that are no longer there.
    pub lost: Vec<String>,
    /// Ingredients that came in and of which nobody has stated the allergens.
    #[serde(rename = "not_stated_for")]
    pub not_stated: Vec<String>,
    /// What now says stop, surely or as far as is stated, and did not before.
    #[serde(skip)]
    pub stops: Vec<Caution>,
    /// Its ingredients of which nothing says that they are food.
    #[serde(skip)]
    pub unidentified: Vec<IdentityQuestion>,
}

/// The judgement of both cards, compared. What was read of the old batch says nothing of the new one, and neither
/// allergens nor stops hang on the day or on the digits of a date.
pub fn compare(before: &Solved, after: &Solved, house: &House) -> SwapJudgement {
    let judge = |solved: &Solved| -> Assessment {
        let mut solved = solved.clone();
        Arc::make_mut(&mut solved.card).measured = Measured::default();
        undated(&solved, house).0
    };
    let (was, is) = (judge(before), judge(after));
    let only_in =
        |a: &[String], b: &[String]| -> Vec<String> { a.iter().filter(|one| !b.contains(one)).cloned().collect() };
    SwapJudgement {
        added: only_in(&declared::named(&is.lists), &declared::named(&was.lists)),
        lost: only_in(&declared::named(&was.lists), &declared::named(&is.lists)),
        not_stated: only_in(&is.allergens_open, &was.allergens_open),
        unidentified: is.unidentified,
        stops: is
            .cautions
            .into_iter()
            .filter(|c| c.severity == Level::Stop && !was.cautions.iter().any(|old| old.code == c.code))
            .collect(),
    }
}

impl SwapJudgement {
    /// What is said of it, where `new` went in.
    pub fn findings(&self, new: &str) -> Vec<Diagnostic> {
        let words = |allergens: &[String]| allergens.join(", ").replace('_', " ");
        let mut found = Vec::new();
        if !self.added.is_empty() {
            let title = format!("`{new}` brings an allergen that was not there: {}", words(&self.added));
            found.push(
                Diagnostic::warning(Code::AllergenAdded, title).help("change the label and tell whoever serves it"),
            );
        }
        if !self.not_stated.is_empty() {
            let names: Vec<String> = self.not_stated.iter().map(|name| format!("`{name}`")).collect();
            let title = format!("nobody has stated which allergens {} brings", names.join(", "));
            found.push(
                Diagnostic::warning(Code::AllergenAdded, title)
                    .help("ask its maker, and write `allergens` into larder.toml ([] if there are none)"),
            );
        }
        if !self.lost.is_empty() {
            found.push(Diagnostic::note(Code::Assumed, format!("no longer in it: {}", words(&self.lost))));
        }
        let stop = |c: &Caution| Diagnostic::warning(Code::StopAdded, format!("with `{new}`: STOP  {c}"));
        found.extend(self.stops.iter().map(stop));
        found.extend(self.unidentified.iter().map(IdentityQuestion::diagnostic));
        found
    }
}
