//! What a swap changes in the judgement of a card: which allergens come and go, and what now says stop.

use std::sync::Arc;

use crate::card::{Measured, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::TRACE_OF_ALCOHOL;
use crate::mixture::Component;
use crate::properties::value_of;
use crate::safety::{Caution, Level};
use crate::solver::Solved;
use crate::units::display::grouped;

use super::declared::allergens_by_group;
use super::{Assessment, IdentityQuestion, undated};

/// What is different once a part was swapped for another.
#[derive(Clone, Debug, serde::Serialize)]
pub struct SwapJudgement {
    /// Allergens that were not there.
    pub added: Vec<String>,
    /// Allergens that nothing in it is known to bring any more.
    pub lost: Vec<String>,
    /// Ingredients of which nobody has stated the allergens, those that were there before among them: they may bring what is lost.
    #[serde(rename = "still_not_stated_for")]
    pub open: Vec<String>,
    /// Ingredients that came in and of which nobody has stated the allergens.
    #[serde(rename = "not_stated_for")]
    pub not_stated: Vec<String>,
    /// The strength of what was free of alcohol and is so no more, % vol.
    pub alcohol_added_pct: Option<f64>,
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
    let is_free =
        |of: &Solved| of.bottled().grams_of(Component::Ethanol) <= TRACE_OF_ALCOHOL * of.bottled().total_grams();
    let strength = value_of(TargetKind::Abv, after.bottled());
    let only_in =
        |a: &[String], b: &[String]| -> Vec<String> { a.iter().filter(|one| !b.contains(one)).cloned().collect() };
    SwapJudgement {
        added: only_in(&is.allergens, &was.allergens),
        lost: only_in(&was.allergens, &is.allergens),
        not_stated: only_in(&is.allergens_open, &was.allergens_open),
        open: is.allergens_open.iter().chain(&is.allergens_doubted).cloned().collect(),
        unidentified: is.unidentified,
        alcohol_added_pct: strength.filter(|_| is_free(before) && !is_free(after)),
        stops: is
            .cautions
            .into_iter()
            .filter(|c| c.severity == Level::Stop && !was.cautions.iter().any(|old| old.code == c.code))
            .collect(),
    }
}

impl SwapJudgement {
    /// Which allergens went out. As long as nobody has stated those of something in it, none is said to be gone.
    pub(crate) fn lost_words(&self) -> Option<String> {
        let lost = allergens_by_group(&self.lost);
        let said = match self.open.as_slice() {
            [] => format!("no longer in it: {lost}"),
            open => format!("{lost}: no longer named, and not stated for {}", open.join(", ")),
        };
        (!self.lost.is_empty()).then_some(said)
    }

    /// What is said of it, where `new` went in.
    pub fn findings(&self, new: &str) -> Vec<Diagnostic> {
        let mut found = Vec::new();
        if !self.added.is_empty() {
            let title = format!("`{new}` brings an allergen that was not there: {}", allergens_by_group(&self.added));
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
        if let Some(pct) = self.alcohol_added_pct {
            let title = format!("it was free of alcohol, and with `{new}` it has {} % vol", grouped(pct, 1));
            let help = "who orders a drink without alcohol must not get this one";
            found.push(Diagnostic::warning(Code::AlcoholAdded, title).help(help));
        }
        if let Some(lost) = self.lost_words() {
            found.push(Diagnostic::note(Code::Assumed, lost));
        }
        let stop = |c: &Caution| Diagnostic::warning(Code::StopAdded, format!("with `{new}`: STOP  {c}"));
        found.extend(self.stops.iter().map(stop));
        found.extend(self.unidentified.iter().map(IdentityQuestion::diagnostic));
        found
    }
}
