//! What a plan says of each product beside its days: what it brings to a guest, and what keeps it from being planned.

use serde::Serialize;

use crate::assessment::{Assessment, IdentityQuestion};
use crate::house::House;

use super::caution::CautionView;
use super::date::AllergenView;
use super::guest::{Guest, GuestView};

/// What is judged of a product, and what takes it out of the plan.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PlanProductView {
    pub(crate) of: String,
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    #[serde(flatten)]
    pub(crate) guest: GuestView,
    pub(crate) stops: Vec<CautionView>,
    pub(crate) unidentified: Vec<IdentityQuestion>,
    /// What is not stated and may change what is said of it.
    pub(crate) not_stated: Vec<String>,
}

impl PlanProductView {
    pub(super) fn new((name, judged): &(String, Assessment), house: &House) -> Self {
        let mut not_stated: Vec<String> = judged.cautions.iter().flat_map(|c| c.not_stated.clone()).collect();
        not_stated.sort();
        not_stated.dedup();
        Self {
            of: name.clone(),
            allergens: AllergenView::from(judged),
            guest: Guest::of_product(name, house).beside_judged(judged),
            stops: CautionView::all(judged.stops()),
            unidentified: judged.unidentified.clone(),
            not_stated,
        }
    }
}
