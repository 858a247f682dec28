//! Whether a computed strength is good enough to be printed on a label.

use serde::Serialize;

use crate::card::TargetKind;
use crate::mixture::{Component, Mixture};
use crate::safety::label::{LabelRuleKind, rules, strength_tolerance};
use crate::safety::{Market, or_all};
use crate::uncertainty::{self, Cause, Uncertainty};

/// From this share of undissolved matter on there are plants or fruit in the bottle, not a haze (ours).
const PLANTS_IN_BOTTLE: f64 = 0.01;

/// How the uncertainty of a strength stands to what a label may be off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum LabelStanding {
    /// Within it, that of every spirit's label counted in.
    Within,
    /// Within it but for what the label of a spirit may be off.
    WithinButForSpirit,
    Larger,
}

/// One tolerance and the markets where it holds.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct LabelGrade {
    /// Points of % vol that a label may be off.
    pub(crate) points: f64,
    /// Where: "EU/UK/US".
    pub(crate) markets: String,
    pub(crate) within: bool,
    pub(crate) standing: LabelStanding,
}

/// The tolerances of the markets of the house, one for each value; none at or below the strength from which a label must
/// state it (1.2 % in Regulation (EU) No 1169/2011).
pub(super) fn grades(
    liquid: &Mixture,
    abv_pct: Option<f64>,
    uncertainties: &[Uncertainty],
    markets: &[Market],
) -> Vec<LabelGrade> {
    let stated_from = rules(Market::Eu, LabelRuleKind::StatedFrom).next().map_or(0.0, |rule| rule.value);
    let Some((_, uncertainty)) =
        abv_pct.filter(|abv| *abv > stated_from).zip(uncertainty::find(uncertainties, TargetKind::Abv))
    else {
        return Vec::new();
    };
    let undissolved = liquid.grams_of_all(&Component::UNDISSOLVED) / liquid.total_grams();
    let mut grades: Vec<LabelGrade> = Vec::new();
    for &market in or_all(markets) {
        let Some(rule) = strength_tolerance(market, undissolved > PLANTS_IN_BOTTLE) else { continue };
        match grades.iter_mut().find(|g| g.points == rule.value) {
            Some(same) => same.markets = format!("{}/{}", same.markets, market.code()),
            None => {
                let standing = standing(uncertainty, rule.value);
                let (points, markets) = (rule.value, market.code().to_owned());
                grades.push(LabelGrade { points, markets, within: standing == LabelStanding::Within, standing });
            }
        }
    }
    grades
}

fn standing(uncertainty: &Uncertainty, tolerance: f64) -> LabelStanding {
    if uncertainty.half_width <= tolerance {
        LabelStanding::Within
    } else if uncertainty.without(Cause::Label) <= tolerance {
        LabelStanding::WithinButForSpirit
    } else {
        LabelStanding::Larger
    }
}
