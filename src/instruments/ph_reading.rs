//! What a pH that somebody read is worth: by what it was read, and whether the product can have it at all.

use crate::mixture::acidity::bounds::PhBounds;

/// What a pH was read with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PhInstrument {
    /// A strip, or nobody said what.
    #[default]
    Strip,
    /// A meter.
    Meter {
        /// In two buffers, that day.
        calibrated: bool,
    },
    /// A laboratory.
    Laboratory,
}

/// A strip counts only where it and its doubt are at most this: above 4.0 a meter is required (21 CFR 114.80(a)(2)).
pub const STRIP_COUNTS_TO: f64 = 4.0;
/// A reading that lies this far below what the product can have is rejected.
const IMPOSSIBLE_BELOW: f64 = 0.3;

impl PhInstrument {
    /// How far off a reading may be: its own doubt or its step, whichever is more. A resolution is never a doubt. Syrups
    /// above 40 °Bx and spirits above 20 % vol are harder to read, by 0.1.
    pub fn doubt(self, step: f64, brix: f64, abv_pct: f64) -> f64 {
        let own = match self {
            Self::Strip => 0.5_f64,
            Self::Meter { calibrated: true } => 0.1,
            Self::Meter { calibrated: false } => 0.2,
            Self::Laboratory => 0.03,
        };
        let harder = if brix > 40.0 || abv_pct > 20.0 { 0.1 } else { 0.0 };
        own.max(step) + harder
    }
}

/// What becomes of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhSaid {
    /// It counts, at its upper end.
    Accepted,
    /// It counts though it is higher than what was weighed allows: something sour is missing, or the batch differs.
    HigherThanWeighed,
    /// A strip counts only up to 4.0.
    StripTooHigh,
    /// Nothing on the card makes it that sour: the bounds stand.
    Impossible,
}

/// The highest pH that a product can have with this reading, and what became of it. The bounds stand where it does not
/// count.
pub fn with_reading(bounds: PhBounds, value: f64, doubt: f64, by: PhInstrument) -> (Option<f64>, PhSaid) {
    let high = value + doubt;
    if bounds.low.is_some_and(|low| high < low - IMPOSSIBLE_BELOW) {
        (bounds.up, PhSaid::Impossible)
    } else if by == PhInstrument::Strip && high > STRIP_COUNTS_TO + 1e-9 {
        (bounds.up, PhSaid::StripTooHigh)
    } else if bounds.up.is_some_and(|up| value - doubt > up) {
        (Some(high), PhSaid::HigherThanWeighed)
    } else {
        (Some(bounds.up.map_or(high, |up| up.min(high))), PhSaid::Accepted)
    }
}
