//! How sure a number is, and what spoils it most, as every report shows it.

use serde::{Serialize, Serializer};

use crate::card::TargetKind;
use crate::uncertainty::Uncertainty;

/// The uncertainty of one number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UncertaintyView {
    /// Which number.
    #[serde(skip)]
    pub kind: TargetKind,
    /// Half-width.
    pub half_width: f64,
    /// Of how many cases it is true.
    pub coverage: f64,
    /// What it comes from, the largest first.
    pub budget: Vec<ShareView>,
}

/// One input's part in it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ShareView {
    /// The input.
    pub what: String,
    /// Half-width that it alone gives.
    pub half_width: f64,
    /// Its share of the variance, 0 to 1.
    pub of_variance: f64,
    /// What to do about it.
    pub remedy: &'static str,
    /// The half-width of the number once that is done.
    pub then_half_width: Option<f64>,
}

impl From<&Uncertainty> for UncertaintyView {
    fn from(uncertainty: &Uncertainty) -> Self {
        let budget = uncertainty.shares.iter().map(|share| ShareView {
            what: share.what.clone(),
            half_width: share.half_width,
            of_variance: share.of_variance,
            remedy: share.remedy,
            then_half_width: uncertainty.mended(share),
        });
        Self { kind: uncertainty.kind, half_width: uncertainty.half_width, coverage: 0.95, budget: budget.collect() }
    }
}

/// The uncertainties of the headline numbers, by the key of the property.
#[derive(Clone, Debug, PartialEq)]
pub struct UncertaintyViews(pub Vec<UncertaintyView>);

impl UncertaintyViews {
    /// That of one number, where it has one.
    pub(crate) fn find(&self, kind: TargetKind) -> Option<&UncertaintyView> {
        self.0.iter().find(|uncertainty| uncertainty.kind == kind)
    }
}

impl Serialize for UncertaintyViews {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|uncertainty| (property_key(uncertainty.kind), uncertainty)))
    }
}

/// The key of a target among the properties.
pub(crate) fn property_key(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Brix => "brix",
        TargetKind::Abv => "abv_pct",
        TargetKind::Sugar => "sugar_g_l",
        TargetKind::Acid => "acid_g_l",
        TargetKind::Ph => "ph",
    }
}
