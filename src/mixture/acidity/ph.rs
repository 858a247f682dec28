//! The pH of a mixture: a value with its uncertainty, or the reason why none can be given.
//!
//! Whatever guards against growth uses the upper edge, never the middle, and treats a missing pH as the worst
//! case. The water is taken as free of bicarbonate: hard tap water raises the pH of a weak acid solution.

use std::fmt;

use super::in_mixture::{acid_eq, acids, water_kg};
use super::juice::SHARE_HELD;
use super::{Balance, Solution};
use crate::mixture::{Component, Mixture, OutOfRange, alcohol};
use crate::units::{Ph, Temperature};

/// A pH and its uncertainty.
#[derive(Clone, Debug, PartialEq)]
pub struct PhEstimate {
    /// The middle value.
    pub value: Ph,
    /// The lower edge: minerals hold as little acid as they may, less the error.
    pub low: Ph,
    /// The upper edge: minerals hold as much acid as they may, plus the error.
    pub high: Ph,
    /// The error of the equations and of what they were given, without the band of the minerals.
    pub error: f64,
}

/// Why there is no pH. A reading with a meter is the way out of all of them.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPh {
    /// No water.
    NoWater,
    /// No acid, or next to none.
    NoAcid,
    /// Ash or cations of ingredients whose acids or minerals are not known.
    Unaccounted,
    /// The minerals hold more acid than there is.
    MineralsOutweighAcid,
    /// Protein above 1 %.
    Protein,
    /// Above 45 % alcohol in its water and alcohol.
    Strong,
    /// Ionic strength above [`MOST_IONIC_STRENGTH`].
    Salty,
    /// Outside the equations: temperature, mostly.
    OutOfRange(OutOfRange),
}

impl NoPh {
    /// The reason, to be printed.
    pub fn words(&self) -> &str {
        match self {
            Self::NoWater => "without water there is no pH",
            Self::NoAcid => {
                "there is no acid, or next to none: sugar and water alone have no pH that can be computed: measure it"
            }
            Self::Unaccounted => "too little is known of its minerals and acids: measure it",
            Self::MineralsOutweighAcid => "its minerals could hold more acid than is listed: measure it",
            Self::Protein => "more than 1 % protein holds acid that cannot be counted: measure it",
            Self::Strong => "above 45 % alcohol a pH has no meaning that a meter would show",
            Self::Salty => "so much salt is beyond what the equations hold for: measure it",
            Self::OutOfRange(reason) => &reason.why,
        }
    }
}

impl fmt::Display for NoPh {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.words())
    }
}

impl std::error::Error for NoPh {}

/// Protein above this share of the mass: no pH (milk would come out at 12.8).
const MOST_PROTEIN: f64 = 0.01;
/// Share of the ash, or of the bound cations, that may come from ingredients of which too little is known.
const MOST_UNACCOUNTED: f64 = 0.05;
/// If all of it were there after all and moved the pH by less than this, there is a pH.
const LEAST_MOVE: f64 = 0.05;
/// What a gram of ash is taken to bring at worst: potassium carbonate, 2 / 138.205 equivalents. An assumption of
/// ours, true of ash of potassium; ash rich in calcium brings more where it was measured (molasses 1.4 times, maple
/// syrup 1.8 times), so what rests on it alone must not move the pH by more than [`LEAST_MOVE`].
const WORST_ASH_EQ_PER_GRAM: f64 = 2.0 / 138.205;
/// Acid below this many equivalents per kg of water gives no pH: the bicarbonate of tap water is of the same
/// size. Ours.
const LEAST_ACID_EQ_PER_KG: f64 = 0.001;
/// Davies holds to 0.5; to here with a larger error; beyond, no pH. The upper limit is ours.
pub const MOST_IONIC_STRENGTH: f64 = 1.0;
const MOST_ABV: f64 = 45.0;

/// The pH of a mixture by the charge balance, at a temperature from 0 to 60 °C.
///
/// Errors: solution of acids ±0.05 (buffers verified to 0.02); concentrated ±0.15; juice from the table ±0.4
/// (12 juices: 8 inside the published range, worst miss 0.38); calibrated juice ±0.1; with sugar another 0.1;
/// with alcohol another 0.1, above 20 % another 0.3.
///
/// ```
/// use stillroom::mixture::{Component, Mixture, acidity::ph};
/// use stillroom::units::celsius;
///
/// let sour = Mixture::of(&[(Component::Citric, 5.0), (Component::Water, 95.0)]);
/// let found = ph::estimate(&sour, celsius(25.0)).unwrap();
/// assert!(found.low < found.value && found.value < found.high);
/// assert!((1.7..2.0).contains(&found.value.get()));
/// ```
pub fn estimate(mixture: &Mixture, temperature: Temperature) -> Result<PhEstimate, NoPh> {
    refuse(mixture)?;
    let [low_eq, mid_eq, high_eq] = mixture.bound_cations_eq;
    let at = |cation_eq: f64| {
        Solution::of(mixture, cation_eq, temperature).map_err(NoPh::OutOfRange).map(|solution| solution.balance())
    };
    let Some(Balance { ph, ionic_strength_molal }) = at(mid_eq)? else { return Err(NoPh::Salty) };
    if ionic_strength_molal > MOST_IONIC_STRENGTH {
        return Err(NoPh::Salty);
    }
    let edge =
        |cation_eq: f64, if_none: f64| -> Result<f64, NoPh> { Ok(at(cation_eq)?.map_or(if_none, |b| b.ph.get())) };
    // What is not listed may bring base, or be acid that holds the cations counted for it.
    let more = edge(mid_eq + unaccounted_worst_eq(mixture), Ph::MAX)? - ph.get();
    let less = ph.get() - edge(mid_eq - mixture.unaccounted_cations_eq, Ph::MIN)?;
    let moved = more.max(less);
    if moved >= LEAST_MOVE && too_much_unaccounted(mixture) {
        return Err(NoPh::Unaccounted);
    }
    // Minerals or acids of which too little is known.
    let error = error(mixture, ionic_strength_molal) + if moved > 0.005 { moved } else { 0.0 };
    let within = |ph: f64| Ph::new(ph.clamp(Ph::MIN, Ph::MAX)).ok_or(NoPh::Salty);
    Ok(PhEstimate {
        value: ph,
        low: within(edge(low_eq, Ph::MIN)? - error)?,
        high: within(edge(high_eq, Ph::MAX)? + error)?,
        error,
    })
}

/// What needs no balance to be refused.
fn refuse(mixture: &Mixture) -> Result<(), NoPh> {
    let (water, acid) = (water_kg(mixture), acid_eq(mixture));
    if water <= 0.0 {
        Err(NoPh::NoWater)
    } else if acid < LEAST_ACID_EQ_PER_KG * water {
        Err(NoPh::NoAcid)
    } else if alcohol::solvent_abv(mixture).get() > MOST_ABV {
        Err(NoPh::Strong)
    } else if mixture.grams_of(Component::Protein) > MOST_PROTEIN * mixture.total_grams() {
        Err(NoPh::Protein)
    } else if mixture.bound_cations_eq[1] >= acid {
        Err(NoPh::MineralsOutweighAcid)
    } else {
        Ok(())
    }
}

fn too_much_unaccounted(mixture: &Mixture) -> bool {
    mixture.unaccounted_ash_g > MOST_UNACCOUNTED * mixture.grams_of(Component::Ash)
        || mixture.unaccounted_cations_eq > MOST_UNACCOUNTED * mixture.bound_cations_eq[1]
}

/// The mixture with all acid that it holds now in doubt: as much ash may stand unseen behind it as holds all of it.
pub(crate) fn with_acid_in_doubt(mut mixture: Mixture) -> Mixture {
    mixture.unaccounted_ash_g += acid_eq(&mixture) / WORST_ASH_EQ_PER_GRAM;
    mixture
}

/// Equivalents of the acid that is in doubt, see [`with_acid_in_doubt`].
pub(crate) fn in_doubt_eq(mixture: &Mixture) -> f64 {
    mixture.unaccounted_ash_g * WORST_ASH_EQ_PER_GRAM
}

/// Equivalents that the unaccounted ash could bring at worst, beyond those of its cations that are counted already.
fn unaccounted_worst_eq(mixture: &Mixture) -> f64 {
    (mixture.unaccounted_ash_g * WORST_ASH_EQ_PER_GRAM - mixture.unaccounted_cations_eq).max(0.0)
}

/// The error of acids in water, or of a juice if that is larger, with what sugar and alcohol add. Ours are: a juice
/// counts in full from 2 % bound acid (lemon and lime have 3 %), in proportion below; sugar counts from 15 % (more than
/// a juice brings), alcohol from 0.5 %; between ionic strength 0.2 and 0.5 the larger error counts.
fn error(mixture: &Mixture, ionic_strength: f64) -> f64 {
    let acid_g_per_kg = acids(mixture).map(|(_, g)| g).sum::<f64>() / water_kg(mixture);
    let [low_eq, mid_eq, high_eq] = mixture.bound_cations_eq;
    let juiciness = (mid_eq / acid_eq(mixture) / 0.02).clamp(0.0, 1.0);

    // Much acid or salt for its water.
    let water = if ionic_strength > 0.2 || acid_g_per_kg > 100.0 { 0.15 } else { 0.05 };
    // As measured, and more by the share of its minerals that the table speaks of: the traces in sugar beside a measured
    // juice are none of its doubt.
    let [low, mid, high] = SHARE_HELD;
    let from_table = ((high_eq - low_eq) / mid_eq.max(f64::MIN_POSITIVE) / ((high - low) / mid)).clamp(0.0, 1.0);
    let juice = juiciness * (0.1 + 0.3 * from_table);
    // More than 60 % sugar no reading was checked for.
    let sugar = match mixture.sugar_grams() / mixture.total_grams() {
        share if share > 0.6 => 0.2,
        share if share > 0.15 => 0.1,
        _ => 0.0,
    };
    // With much alcohol it is an apparent pH.
    let alcohol = match alcohol::solvent_abv(mixture).get() {
        abv if abv > 20.0 => 0.3,
        abv if abv > 0.5 => 0.1,
        _ => 0.0,
    };
    (if juice > water { juice } else { water }) + sugar + alcohol
}

/// The pH of a mixture whose pH was read after diluting it 1:1 by mass with distilled water.
///
/// Dilution raises the pH: computed for 60 % sugar, by 0.07 in an orange cordial, 0.16 in a lime cordial, up to
/// 0.3 in a syrup of pure acid. The cations are found from the reading at the diluted strength, then put back
/// into the water that there really is.
///
/// ```
/// use stillroom::mixture::{Component, Mixture, acidity::ph};
/// use stillroom::units::{Ph, celsius};
///
/// let syrup = Mixture::of(&[(Component::Citric, 5.0), (Component::Sucrose, 60.0), (Component::Water, 35.0)]);
/// let shown = Ph::new(2.0).unwrap();
/// assert!(ph::undilute(&syrup, shown, celsius(20.0)).unwrap() < shown);
/// ```
pub fn undilute(mixture: &Mixture, reading: Ph, temperature: Temperature) -> Result<Ph, NoPh> {
    // the reading answers for everything else that is not known
    if let Err(reason @ (NoPh::NoWater | NoPh::NoAcid | NoPh::Strong)) = refuse(mixture) {
        return Err(reason);
    }
    let diluted = *mixture + Mixture::of(&[(Component::Water, mixture.total_grams())]);
    let read = Solution::of(&diluted, 0.0, temperature).map_err(NoPh::OutOfRange)?;
    let cation_eq = read.strong_cation_at(reading).ok_or(NoPh::Salty)? * water_kg(&diluted);
    let undiluted = Solution::of(mixture, cation_eq, temperature).map_err(NoPh::OutOfRange)?;
    Ok(undiluted.balance().ok_or(NoPh::Salty)?.ph)
}
