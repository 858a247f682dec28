//! How sure it is where a batch lands that was put right: its readings, how much there is, and what is weighed in.

use crate::card::{Makes, TargetKind};
use crate::house::Instruments;
use crate::larder::label;
use crate::mixture::Mixture;
use crate::properties::value_of;
use crate::solver::adjust::{Adjusted, label_of};
use crate::solver::target::TargetValue;
use crate::solver::target::volume_ml;
use crate::units::in_grams;

use super::equation_error;
use super::ingredient::TITRATED;
use super::spread::{JUG, READ_ABV, READ_SUGAR_G_L};

/// The half-widths at 95 % of a number.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Landing {
    /// Which number; only what was read has an uncertainty that is known.
    #[serde(rename = "of")]
    pub kind: TargetKind,
    /// Of the batch in hand.
    #[serde(rename = "in_hand")]
    pub before: f64,
    /// Of the batch once all is added.
    pub after: f64,
}

/// The uncertainties of every number that was read of a batch.
pub fn landings(adjusted: &Adjusted, instruments: &Instruments) -> Vec<Landing> {
    let inputs = inputs(adjusted, instruments);
    let kinds = adjusted.readings.iter().map(|(kind, _)| *kind);
    let landing = |kind| {
        let lands = |input: &AdjustedInput, side: f64| value_of(kind, &after(adjusted, input, side)?);
        let of_input = |input: &AdjustedInput| Some(0.5 * (lands(input, 1.0)? - lands(input, -1.0)?));
        let squares: f64 = inputs.iter().filter_map(of_input).map(|half| half * half).sum();
        let own = equation_error(kind, value_of(kind, &adjusted.after()).unwrap_or(0.0));
        let value = value_of(kind, &adjusted.batch)?;
        Some(Landing { kind, before: of_reading(kind, value, instruments), after: own.hypot(squares.sqrt()) })
    };
    kinds.filter_map(landing).collect()
}

enum AdjustedInput {
    Reading(TargetKind, f64),
    /// How much there is, as a share.
    Amount(f64),
    /// Grams of an addition, by its place.
    Weighing(usize, f64),
}

fn inputs(adjusted: &Adjusted, instruments: &Instruments) -> Vec<AdjustedInput> {
    let step = in_grams(instruments.scale.step);
    let amount = match adjusted.have {
        Makes::Mass(_) => step / adjusted.batch.total_grams(),
        Makes::Volume(_) | Makes::Bottles { .. } => JUG,
    };
    let readings = adjusted
        .readings
        .iter()
        .map(|&(kind, value)| AdjustedInput::Reading(kind, of_reading(kind, value, instruments)));
    let weighings = (0..adjusted.add.len()).map(|place| AdjustedInput::Weighing(place, step));
    readings.chain([AdjustedInput::Amount(amount)]).chain(weighings).collect()
}

fn of_reading(kind: TargetKind, value: f64, instruments: &Instruments) -> f64 {
    match kind {
        TargetKind::Brix => instruments.refractometer_brix,
        TargetKind::Abv => READ_ABV,
        TargetKind::Sugar => READ_SUGAR_G_L,
        TargetKind::Acid => TITRATED * value,
        TargetKind::Ph => 0.0,
    }
}

/// The batch with all added, when this input is off by `side` half-widths.
fn after(adjusted: &Adjusted, input: &AdjustedInput, side: f64) -> Option<Mixture> {
    let (mut batch, mut weigh) = (adjusted.batch, None);
    match *input {
        AdjustedInput::Amount(share) => batch = batch * (1.0 + side * share),
        AdjustedInput::Weighing(place, g) => weigh = Some((place, side * g)),
        AdjustedInput::Reading(kind, half) => {
            let moved = |v: f64| (v + side * half).max(0.0);
            let readings: Vec<TargetValue> =
                adjusted.readings.iter().map(|&(of, v)| (of, if of == kind { moved(v) } else { v })).collect();
            let gram = label::composition(Some(&batch.per_gram()), &label_of(&readings)).ok()?;
            let grams = match adjusted.have {
                Makes::Mass(_) => batch.total_grams(),
                Makes::Volume(_) | Makes::Bottles { .. } => volume_ml(&batch)? / volume_ml(&gram)?,
            };
            batch = gram * grams;
        }
    }
    let added = adjusted.add.iter().enumerate().map(|(place, part)| {
        let off = weigh.filter(|(own, _)| *own == place).map_or(0.0, |(_, g)| g);
        part.found.per_gram * (part.mass_g + off).max(0.0)
    });
    Some(batch + added.sum())
}
