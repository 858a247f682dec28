//! What the authority of the place allows, as the house entered it (`[local_code]`). The built-in limits are the cautious
//! published defaults; a longer one is the house's own responsibility and lifts only the limit that it speaks of.

use crate::units::{Temperature, degrees_celsius};

/// The default for food on `pa`: FDA Food Code 3-501.16(A)(2), 5 °C (41 °F) or below.
pub(crate) const PA_MAX_C: f64 = 5.0;
/// The default for food on `pa`: FDA Food Code 3-501.17, 7 days, the day made is day 1 (that count from memory).
pub(crate) const PA_MAX_DAYS: u32 = 7;

/// Limits of the authority; what is absent is the default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Authority {
    /// Who.
    pub name: Option<String>,
    /// Days for food on `pa`.
    pub pa_days: Option<u32>,
    /// The warmest store for food on `pa`.
    pub pa_temperature: Option<Temperature>,
    /// An assessment of this product is on record: `pa` by table no longer limits it.
    pub assessed: bool,
    /// Days for anything at all.
    pub max_days: Option<u32>,
}

impl Authority {
    /// Days for food on `pa`.
    pub(crate) fn days(&self) -> u32 {
        self.pa_days.unwrap_or(PA_MAX_DAYS)
    }

    /// The warmest store for food on `pa`, in °C. A temperature that is no number is not entered.
    pub(crate) fn max_c(&self) -> f64 {
        self.pa_temperature.map(degrees_celsius).filter(|t| t.is_finite()).unwrap_or(PA_MAX_C)
    }

    /// Whether a limit was entered that is longer or warmer than the default.
    pub(crate) fn milder_than_default(&self) -> bool {
        self.days() > PA_MAX_DAYS || self.max_c() > PA_MAX_C
    }
}
