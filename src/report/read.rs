//! `read`: what instruments show, as true values at 20 °C. Uncertainties are half-widths at 95 %.

use serde::Serialize;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::Instruments;
use crate::instruments::{Density, InstrumentUncertainty, LiquidKind, PhReading, Readings, Told};
use crate::mixture::Estimate;
use crate::units::display::grouped;
use crate::units::{Brix, MassDensity, degrees_celsius, in_grams, in_kg_per_m3, in_millilitres};

use super::{Report, View};

pub(crate) type ReadReport = Report<ReadView>;

/// What readings tell. Where there is no number: null.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct ReadView {
    pub(crate) read: Vec<String>,
    pub(crate) temperature_c: f64,
    /// What the liquid was taken for: "syrup", "spirit" or "liqueur".
    #[serde(serialize_with = "kind_word")]
    pub of: Option<LiquidKind>,
    pub(crate) brix: Option<f64>,
    pub(crate) abv_pct: Option<f64>,
    pub(crate) sugar_g_l: Option<f64>,
    /// Density at 20 °C.
    pub(crate) density_kg_m3: Option<f64>,
    pub(crate) measured_density_kg_m3: Option<f64>,
    /// Of a spirit without sugar.
    pub(crate) proof_us: Option<f64>,
    /// What the same reading means if all of the sugar is invert sugar.
    pub(crate) brix_if_invert: Option<f64>,
    pub(crate) ph: Option<f64>,
    pub(crate) ph_low: Option<f64>,
    /// The upper end: what counts against a limit.
    pub(crate) ph_high: Option<f64>,
    /// Whether the reading is good enough to be held against a limit.
    pub(crate) ph_clears_limits: Option<bool>,
    /// Titratable acid, as anhydrous citric.
    pub(crate) acid_g_l: Option<f64>,
    pub(crate) acid_as: Option<AcidView>,
    /// Half-widths at 95 %.
    pub doubt: ReadUncertainties,
    /// A reading of one's own is no gauging for a label.
    pub(crate) label_grade: bool,
    pub(crate) assumed: Vec<String>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct AcidView {
    pub(crate) acid: &'static str,
    pub(crate) g_l: f64,
    /// Half-width at 95 %.
    pub(crate) doubt_g_l: f64,
    pub(crate) endpoint_ph: f64,
}

/// Half-widths at 95 %, in the units of the values.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct ReadUncertainties {
    pub(crate) brix: Option<f64>,
    pub(crate) abv_pct: Option<f64>,
    pub(crate) sugar_g_l: Option<f64>,
    pub(crate) density_kg_m3: Option<f64>,
    pub(crate) measured_density_kg_m3: Option<f64>,
    pub(crate) acid_g_l: Option<f64>,
    pub(crate) coverage: f64,
}

fn kind_word<S: serde::Serializer>(kind: &Option<LiquidKind>, serializer: S) -> Result<S::Ok, S::Error> {
    let word = kind.map(|kind| match kind {
        LiquidKind::Syrup => "syrup",
        LiquidKind::Spirit => "spirit",
        LiquidKind::Liqueur => "liqueur",
    });
    word.serialize(serializer)
}

impl View for ReadView {
    const VERB: &'static str = "read";
    const KEYS: &'static str = "";
}

impl ReadView {
    pub(crate) fn new(readings: &Readings, told: &Told, found: &[Diagnostic]) -> Self {
        let (brix, abv, ph, acid) = (told.brix, told.abv, told.ph, told.acid.as_ref());
        let value = |e: Option<Estimate<MassDensity>>| e.map(|e| in_kg_per_m3(e.value));
        let half_width = |e: Option<Estimate<MassDensity>>| e.map(|e| in_kg_per_m3(e.error));
        Self {
            read: understood(readings),
            temperature_c: degrees_celsius(readings.temperature),
            of: told.kind,
            brix: brix.map(|e| e.value.get()),
            abv_pct: abv.map(|e| e.value.get()),
            sugar_g_l: value(told.sugar),
            density_kg_m3: value(told.density),
            measured_density_kg_m3: value(told.measured_density),
            proof_us: told.proof,
            brix_if_invert: told.brix_if_invert.map(Brix::get),
            ph: ph.map(|p| p.value.get()),
            ph_low: ph.map(|p| p.low.get()),
            ph_high: ph.map(|p| p.high.get()),
            ph_clears_limits: ph.map(|p| p.clears_limits),
            acid_g_l: acid.map(|a| in_kg_per_m3(a.as_citric.value)),
            acid_as: acid.map(|a| AcidView {
                acid: a.named.name,
                g_l: in_kg_per_m3(a.as_named.value),
                doubt_g_l: in_kg_per_m3(a.as_named.error),
                endpoint_ph: a.endpoint.get(),
            }),
            doubt: ReadUncertainties {
                brix: brix.map(|e| e.error.get()),
                abv_pct: abv.map(|e| e.error.get()),
                sugar_g_l: half_width(told.sugar),
                density_kg_m3: half_width(told.density),
                measured_density_kg_m3: half_width(told.measured_density),
                acid_g_l: acid.map(|a| in_kg_per_m3(a.as_citric.error)),
                coverage: 0.95,
            },
            label_grade: false,
            assumed: found.iter().filter(|d| d.code == Code::Assumed).map(|d| d.title.clone()).collect(),
        }
    }

    pub(crate) fn tells(&self) -> bool {
        self.of.is_some() || self.ph.is_some() || self.acid_g_l.is_some()
    }
}

/// What the instruments of a house tell apart, the usual where it does not say.
pub(crate) fn uncertainty_of_house(own: &Instruments) -> InstrumentUncertainty {
    let usual = InstrumentUncertainty::default();
    InstrumentUncertainty {
        refractometer_brix: own.refractometer_brix,
        hydrometer_sg: own.hydrometer_sg.unwrap_or(usual.hydrometer_sg),
        ph_meter: own.ph_meter.unwrap_or(usual.ph_meter),
        scale: own.scale.step,
        ..usual
    }
}

fn understood(read: &Readings) -> Vec<String> {
    let mut parts = Vec::new();
    if let Some(shown) = read.refractometer {
        let atc = if read.compensated { " (ATC)" } else { "" };
        parts.push(format!("refractometer {} °Bx{atc}", shown.get()));
    }
    match read.density {
        None => {}
        Some(Density::SpecificGravity(sg)) => parts.push(format!("hydrometer SG {sg}")),
        Some(Density::Brix(brix)) => parts.push(format!("hydrometer {} °Bx", brix.get())),
        Some(Density::Baume(degrees)) => parts.push(format!("hydrometer {degrees} °Bé")),
        Some(Density::Alcohol(abv)) => parts.push(format!("alcoholometer {} % vol", abv.get())),
        Some(Density::Proof(proof)) => parts.push(format!("hydrometer {proof} US proof")),
        Some(Density::Weighed { mass, volume }) => {
            parts.push(format!("{} g in {} ml", grouped(in_grams(mass), 1), grouped(in_millilitres(volume), 1)))
        }
    }
    if let Some(abv) = read.abv {
        parts.push(format!("strength {} % vol", grouped(abv.get(), 1)));
    }
    match read.ph {
        None => {}
        Some(PhReading::Meter(ph)) => parts.push(format!("pH {ph}")),
        Some(PhReading::Diluted(ph)) => parts.push(format!("pH {ph} thinned 1:1")),
        Some(PhReading::Strip(ph)) => parts.push(format!("test strip pH {ph}")),
    }
    if let Some(t) = &read.titration {
        parts.push(format!(
            "titre {} ml of {} N on {} ml",
            grouped(in_millilitres(t.titre), 1),
            t.normality,
            grouped(in_millilitres(t.sample), 1)
        ));
    }
    parts
}
