//! What is read, and how far each instrument may be off.

use crate::mixture::acidity::Acid;
use crate::units::{Abv, Brix, Mass, MassFraction, Ph, Temperature, Volume, celsius, grams};

/// 20 °C, to which Brix scales, strength and sugar by volume refer.
pub(crate) fn standard_temperature() -> Temperature {
    celsius(20.0)
}

/// What the liquid is, where the maker knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LiquidKind {
    /// Sugar in water, no alcohol.
    Syrup,
    /// Alcohol in water, no sugar.
    Spirit,
    /// Both.
    Liqueur,
}

/// What tells a density.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Density {
    /// A hydrometer in specific gravity (20/20 unless calibrated elsewhere).
    SpecificGravity(f64),
    /// A hydrometer in °Bx or °P at 20 °C, which are one scale.
    Brix(Brix),
    /// A hydrometer in degrees Baumé, modulus 145.
    Baume(f64),
    /// An alcoholometer in % vol at 20 °C.
    Alcohol(Abv),
    /// A hydrometer in US proof, at 60 °F.
    Proof(f64),
    /// The weight of a known volume.
    Weighed {
        /// Net, on the scale.
        mass: Mass,
        /// To the mark.
        volume: Volume,
    },
}

/// What tells a pH.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PhReading {
    /// A meter, in the liquid as it is.
    Meter(f64),
    /// A meter, in the liquid thinned 1:1 by weight with distilled water.
    Diluted(f64),
    /// A test strip.
    Strip(f64),
}

/// A titration with a base.
#[derive(Clone, Copy, Debug)]
pub struct Titration {
    /// Base used.
    pub titre: Volume,
    /// Sample taken.
    pub sample: Volume,
    /// Equivalents of base in a litre.
    pub normality: f64,
    /// pH at which it was stopped.
    pub endpoint: Ph,
    /// The acid that it is told as.
    pub as_acid: &'static Acid,
}

/// All that was read of one liquid.
#[derive(Clone, Copy, Debug)]
pub struct Readings {
    /// The temperature of the liquid when it was read.
    pub temperature: Temperature,
    /// What a refractometer scaled in sucrose shows.
    pub refractometer: Option<Brix>,
    /// Whether the refractometer compensates for temperature by itself (ATC).
    pub compensated: bool,
    /// Acid in the liquid as anhydrous citric, for the correction of a refractometer.
    pub acid: Option<MassFraction>,
    /// What a hydrometer or a scale shows.
    pub density: Option<Density>,
    /// The temperature for which a hydrometer in specific gravity or Baumé is made.
    pub calibrated: Temperature,
    /// The strength, where it is known.
    pub abv: Option<Abv>,
    /// What the liquid is, where it is known.
    pub of: Option<LiquidKind>,
    /// What tells a pH.
    pub ph: Option<PhReading>,
    /// A titration.
    pub titration: Option<Titration>,
}

impl Default for Readings {
    fn default() -> Self {
        Self {
            temperature: standard_temperature(),
            refractometer: None,
            compensated: false,
            acid: None,
            density: None,
            calibrated: standard_temperature(),
            abv: None,
            of: None,
            ph: None,
            titration: None,
        }
    }
}

/// How far an instrument may be off: half-widths at 95 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InstrumentUncertainty {
    /// Refractometer, °Bx.
    pub refractometer_brix: f64,
    /// Hydrometer of any scale, as specific gravity.
    pub hydrometer_sg: f64,
    /// pH meter.
    pub ph_meter: f64,
    /// A strength that is known, points.
    pub abv: f64,
    /// The scale on which a volume is weighed.
    pub scale: Mass,
}

/// A kitchen refractometer of 0.2 °Bx, a hydrometer of 0.001, a scale of 1 g: `common practice, no source`. A label may be 0.3 % vol off (Regulation (EU) 1169/2011, Annex XII; 27 CFR 19.356(c)).
impl Default for InstrumentUncertainty {
    fn default() -> Self {
        Self { refractometer_brix: 0.2, hydrometer_sg: 0.001, ph_meter: PH_METER, abv: LABEL_ABV, scale: grams(1.0) }
    }
}

/// A pocket pH meter that was calibrated at two points today (common practice, no source).
pub(crate) const PH_METER: f64 = 0.1;

/// How far the strength on a label may be from the truth, % vol: Regulation (EU) 1169/2011, Annex XII; 27 CFR 19.356(c).
pub(crate) const LABEL_ABV: f64 = 0.3;
