//! Whether a syrup stays clear in the stores of the house.

use serde::Serialize;

use crate::assessment::crystals::LEAST_CRYSTALS_G_PER_KG;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::mixture::{Component, solubility};
use crate::solver::Solved;
use crate::units::{celsius, degrees_celsius, in_grams};

/// Below this share of its saturation a syrup needs no word about crystals.
const WORTH_SAYING: f64 = 0.85;

/// One store.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StoreCrystals {
    /// Its name.
    pub store: String,
    pub(crate) temperature_c: f64,
    /// Sucrose that crystallises at rest, grams from each kilogram.
    pub crystals_g_per_kg: Option<f64>,
}

/// What is said of crystals.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Crystals {
    /// Below this temperature they can form, °C.
    pub starts_c: Option<f64>,
    /// The stores of the house that are not below freezing.
    pub stores: Vec<StoreCrystals>,
    /// The richest ratio of sucrose to water that stays clear in the coldest of them; for a plain syrup only.
    pub richest_ratio: Option<f64>,
    /// The Brix of that ratio.
    pub richest_brix: Option<f64>,
    /// The store.
    pub richest_in: Option<String>,
    pub(crate) note: Option<&'static str>,
}

impl Crystals {
    /// That it crystallises in the store that it is planned for, or in the coldest where none is planned.
    pub(super) fn warning(&self, planned: Option<&str>) -> Option<Diagnostic> {
        let here = |store: &&StoreCrystals| planned.is_none_or(|planned| store.store == planned);
        let coldest = self.stores.iter().filter(here).min_by(|a, b| a.temperature_c.total_cmp(&b.temperature_c))?;
        let grams = coldest.crystals_g_per_kg.filter(|grams| *grams > LEAST_CRYSTALS_G_PER_KG)?;
        let from = self.starts_c.map_or_else(String::new, |from| format!(", from {from:.0} °C down"));
        let title = format!("sugar crystallises in the {}: {grams:.0} g of each kg{from}", coldest.store);
        let ratio = self.richest_ratio.map_or_else(String::new, |ratio| format!("; {ratio:.1} : 1 stays clear"));
        Some(Diagnostic::warning(Code::OverSaturated, title).help(format!("keep it warmer, or make it weaker{ratio}")))
    }

    /// Said only of a sweet liquid that comes near its saturation in one of the stores.
    pub(super) fn of(weighed: &Solved, house: &House) -> Option<Self> {
        let batch = weighed.bottled();
        if batch.grams_of(Component::Sucrose) <= 0.0 || batch.grams_of(Component::Water) <= 0.0 {
            return None;
        }
        // Below 0 °C ice takes part as well, and nothing here speaks of that.
        let stores: Vec<_> = house.settings.stores.iter().filter(|s| degrees_celsius(s.temperature) >= 0.0).collect();
        let coldest = stores.iter().min_by(|a, b| a.temperature.value.total_cmp(&b.temperature.value))?;
        let saturated = batch.saturation_brix(coldest.temperature).ok()?;
        if batch.brix().get() < WORTH_SAYING * saturated.value.get() {
            return None;
        }
        let plain = batch.solids_grams() <= 1.01 * batch.grams_of(Component::Sucrose)
            && batch.grams_of(Component::Ethanol) == 0.0;
        let richest_ratio = solubility::richest_ratio(coldest.temperature).ok().filter(|_| plain).map(|ratio| {
            // Rounded down: a ratio rounded up would not stay clear.
            (ratio.value * 10.0).floor() / 10.0
        });
        Some(Self {
            starts_c: batch.saturation_temperature().ok().map(|t| degrees_celsius(t.value)),
            stores: stores
                .iter()
                .map(|store| StoreCrystals {
                    store: store.name.clone(),
                    temperature_c: degrees_celsius(store.temperature),
                    crystals_g_per_kg: solubility::crystals(batch, store.temperature).ok().map(|g| in_grams(g.value)),
                })
                .collect(),
            richest_ratio,
            richest_brix: richest_ratio.map(|ratio| 100.0 * ratio / (1.0 + ratio)),
            richest_in: richest_ratio.map(|_| coldest.name.clone()),
            note: solubility::crystals(batch, celsius(20.0)).ok().and_then(|g| g.extrapolated),
        })
    }
}
