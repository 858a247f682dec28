//! What a class of product must be by law to bear its name. Laws differ and change: each finding says so.

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;
use crate::safety::Market;
use crate::safety::label::{self, INVERT_PER_SUCROSE, LabelProduct, LabelRuleKind};
use crate::solver::Solved;
use crate::vocabulary::ProductClass;

/// The least of something that EU and UK law ask of a liqueur.
fn least(kind: LabelRuleKind) -> Option<f64> {
    label::rules(Market::Eu, kind).find(|rule| rule.product == LabelProduct::Liqueur).map(|rule| rule.value)
}

/// Names under which a liqueur is sold, where a card states no class (common practice, no source; the other languages from memory).
const LIQUEURS: &[&str] = &["liqueur", "dram", "likör", "licor", "liquore"];
/// Names of the liqueur of egg, which the least strength leaves out (`label-rules.csv`: category 39 excepted).
const OF_EGG: &[&str] = &["advocaat", "advocat", "avocat", "eierlikör"];

/// Where a card says that it is a liqueur: by its class, or by its name where it states none.
fn says_liqueur(card: &Card) -> Option<Span> {
    let is_called = |names: &[&str]| {
        let named = |word: &str| names.contains(&word.to_lowercase().as_str());
        card.name.value.split(|c: char| !c.is_alphanumeric()).any(named)
    };
    if is_called(OF_EGG) {
        return None;
    }
    match &card.class {
        // of cream or not, it is one
        Some(class) => {
            let is_liqueur = class.value == ProductClass::Liqueur || class.value == ProductClass::CreamLiqueur;
            is_liqueur.then_some(class.span)
        }
        None => is_called(LIQUEURS).then_some(card.name.span),
    }
}

/// The sugar of a liquid as the law counts it: invert sugar, g/L.
pub(crate) fn sugar_as_invert(liquid: &Mixture) -> Option<f64> {
    let disaccharides = liquid.grams_of(Component::Sucrose) / liquid.sugar_grams().max(f64::MIN_POSITIVE);
    Some(value_of(TargetKind::Sugar, liquid)? * (1.0 + (INVERT_PER_SUCROSE - 1.0) * disaccharides))
}

/// Whether a liqueur may be called one.
pub fn of_class(card: &Card, solved: &Solved) -> Vec<Diagnostic> {
    /// What the arithmetic of a target may leave off: a card that asks for 15 % is not told that 15.0 % are too few.
    const ROUNDING: f64 = 1e-6;
    let Some(said) = says_liqueur(card) else { return Vec::new() };
    let liquid = solved.bottled();
    let (Some(abv), Some(as_invert)) = (value_of(TargetKind::Abv, liquid), sugar_as_invert(liquid)) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut below = |words: String| {
        found.push(
            Diagnostic::warning(Code::BelowLegalMinimum, words)
                .in_file(&card.file)
                .at(said, "EU and UK law ask more of a liqueur")
                .help("Reg (EC) 110/2008 Annex II category 32, today Reg (EU) 2019/787 Annex I category 33; check your local rule, or call it something else"),
        );
    };
    if let Some(least) = least(LabelRuleKind::MinimumAbv).filter(|least| abv < *least * (1.0 - ROUNDING)) {
        below(format!("this computes to {abv:.1} % ABV; a liqueur has at least {least:.0} %"));
    }
    if let Some(least) = least(LabelRuleKind::MinimumSugar).filter(|least| as_invert < *least * (1.0 - ROUNDING)) {
        below(format!(
            "this computes to {as_invert:.0} g/L sugar as invert sugar; a liqueur has at least {least:.0} g/L"
        ));
    }
    found
}
