//! What keeps a product, each hurdle at its cautious end, and what the screen says of it: acid, sugar and salt by the tables
//! of the Food Code, then alcohol by published growth limits, then the want of any food.

use serde::Serialize;

use super::delle;
use super::product::{Filled, Product};
use super::screen::{ScreenClass, ScreenTable, look_up};
use crate::safety::alcohol_bands::alcohol_keeps;
use crate::units::{Abv, grams_per_litre};

/// The least doubt of a strength, % vol: the tolerance of a label (Regulation (EU) No 1169/2011 Annex XII).
pub(crate) const LEAST_ABV_DOUBT: f64 = 0.3;

/// Between what the water activity of dried fruit with 20 % of water or less lies (from memory).
pub(crate) const DRIED_AW: (f64, f64) = (0.60, 0.75);

/// What the screen says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Screened {
    /// Acid, sugar and salt keep it, by the tables of the Food Code.
    Stable,
    /// Alcohol keeps it, by published growth limits; the tables give it no credit.
    Alcohol,
    /// There is nothing in it to grow on.
    NoFood,
    /// It needs time and temperature control, or nobody has shown that it does not.
    Control,
}

/// The hurdles of a product at their cautious ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hurdles {
    /// Strength at its lower end, % vol.
    pub abv: f64,
    /// pH at its upper end.
    pub ph_up: Option<f64>,
    /// Water activity at its upper end; unknown is that of water.
    pub aw_up: f64,
    /// Delle units, of the sugar and the lower strength.
    pub delle: f64,
    /// Which table of the Food Code was read.
    pub table: ScreenTable,
    /// What that table says, before anything else speaks.
    pub by_table: ScreenClass,
    /// What the screen says.
    pub screened: Screened,
}

/// A value that is no number counts as not known.
fn known(value: Option<f64>) -> Option<f64> {
    value.filter(|v| v.is_finite())
}

/// What may be off by `doubt`, in the same unit; a doubt that is no number makes the value unknown.
fn upper(value: Option<f64>, doubt: f64) -> Option<f64> {
    known(value).filter(|_| doubt.is_finite() && doubt >= 0.0).map(|v| v + doubt)
}

impl Hurdles {
    /// The hurdles of the finished product.
    pub fn of(product: &Product) -> Self {
        let doubt = if product.abv_doubt.is_finite() { product.abv_doubt.max(LEAST_ABV_DOUBT) } else { f64::INFINITY };
        let abv = (known(Some(product.abv_pct)).unwrap_or(0.0) - doubt).max(0.0);
        let ph_up = known(product.ph_up);
        let aw_up = upper(product.aw, product.aw_doubt).map_or(1.0, |aw| aw.min(1.0));
        let aw_up = if product.is_dry_enough() && product.aw.is_none() { DRIED_AW.1 } else { aw_up };
        let sugar = known(Some(product.sugar_g_l)).unwrap_or(0.0).max(0.0);
        let delle = Abv::new(abv).map_or(0.0, |abv| delle::units(grams_per_litre(sugar), abv));
        let sealed_hot = product.filled == Filled::HotClosed && product.closed && !product.opened;
        let table = if sealed_hot { ScreenTable::A } else { ScreenTable::B };
        let by_table = look_up(table, ph_up, Some(aw_up));
        let screened = if by_table == ScreenClass::NonTcs {
            Screened::Stable
        } else if alcohol_keeps(abv, ph_up, aw_up) {
            Screened::Alcohol
        } else if product.contents.no_food {
            Screened::NoFood
        } else {
            Screened::Control
        };
        Self { abv, ph_up, aw_up, delle, table, by_table, screened }
    }

    /// Whether it needs control.
    pub(crate) fn control(&self) -> bool {
        self.screened == Screened::Control
    }
}
