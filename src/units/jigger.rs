//! The steps of a jigger, and what they are called: millilitres with the bar's ounce of 30 ml beside.

use crate::vocabulary::MeasureSystem;

use super::Measure;
use super::display::short;

/// A jigger is marked in steps of a quarter ounce, and between them by thirds: all of them are multiples of this, ml (common
/// practice, no source).
pub const STEP_ML: f64 = 2.5;
/// The ounce of a jigger, ml: that of `jigger oz` (common practice, no source).
const OUNCE_ML: f64 = 30.0;
/// The imperial fluid ounce, ml (Weights and Measures Act 1985: a gallon of 4.546 09 L has 160).
const IMPERIAL_FLUID_OUNCE_ML: f64 = 28.413_062_5;
/// The US fluid ounce, ml (NIST Handbook 44, 2024, appendix C: 29.573 529 562 5 exactly).
const US_FLUID_OUNCE_ML: f64 = 29.573_529_562_5;
/// A bar spoon, ml (common practice, no source).
const BAR_SPOON_ML: f64 = 5.0;
/// Less than this is dashed, dropped or sprayed and not poured into a jigger, ml (ours).
const LEAST_ML: f64 = 3.7;

/// A quarter ounce: the marks of a jigger that is read in ounces, ml (common practice, no source).
const STEP_OF_OUNCES_ML: f64 = 7.5;

/// By what a house pours more or less, ml: the marks of its jigger.
pub(crate) fn step_ml(measures: Option<MeasureSystem>) -> f64 {
    if measures == Some(MeasureSystem::Us) { STEP_OF_OUNCES_ML } else { STEP_ML }
}

/// Whether a measure is the jigger: what it measures is poured, and read off in ounces.
pub(crate) fn is_jigger(measure: &Measure) -> bool {
    measure.spread().is_some() && (measure.factor - OUNCE_ML).abs() < 1e-6
}

/// What a measure of so many millilitres is called in the ounces of a house ("3/4 oz"), or "1 bar spoon". A third or a quarter is
/// printed as such, what is half a bar spoon or a whole one more with that; `None` where no jigger has it: that is measured in
/// millilitres.
///
/// ```
/// use stillroom::units::jigger::in_ounces;
/// use stillroom::vocabulary::MeasureSystem;
/// assert_eq!(in_ounces(22.5, None).unwrap(), "3/4 oz");
/// assert_eq!(in_ounces(50.0, None).unwrap(), "1 2/3 oz");
/// assert_eq!(in_ounces(59.147059125, None).unwrap(), "2 oz");
/// assert_eq!(in_ounces(56.826125, Some(MeasureSystem::Imperial)).unwrap(), "2 oz");
/// assert_eq!(in_ounces(25.0, None).unwrap(), "3/4 oz + 1/2 bsp");
/// assert_eq!(in_ounces(5.0, None).unwrap(), "1 bar spoon");
/// assert_eq!(in_ounces(0.9, None), None);
/// ```
pub fn in_ounces(ml: f64, measures: Option<MeasureSystem>) -> Option<String> {
    let is = |a: f64, b: f64| (a - b).abs() < 1e-6;
    if ml < LEAST_ML || !ml.is_finite() {
        return None;
    }
    if is(ml, BAR_SPOON_ML) {
        return Some("1 bar spoon".to_owned());
    }
    // A card that writes fluid ounces means the same mark of the jigger.
    let ounces: &[f64] = match measures {
        Some(MeasureSystem::Imperial) => &[IMPERIAL_FLUID_OUNCE_ML],
        Some(MeasureSystem::Us | MeasureSystem::Metric) | None => &[OUNCE_ML, US_FLUID_OUNCE_ML],
    };
    let whole = |ounces: f64| {
        [1_u32, 2, 3, 4].into_iter().find_map(|parts| {
            let count = ounces * f64::from(parts);
            is(count, count.round()).then(|| format!("{} oz", fraction(count.round() as u32, parts)))
        })
    };
    let oz = |ml: f64| ounces.iter().find_map(|ounce| whole(ml / ounce));
    let and_a_spoon = |(spoons, said): (f64, &str)| Some(format!("{} + {said}", oz(ml - spoons * BAR_SPOON_ML)?));
    oz(ml).or_else(|| [(0.5, "1/2 bsp"), (1.0, "1 bsp")].into_iter().find_map(and_a_spoon))
}

/// What nobody wrote to be poured, in what a bar can measure: the nearest step of a jigger ("7.5 ml"), less than the least of them in
/// parts of a bar spoon. What is less than a quarter of that stays as it is. `ml` in millilitres.
///
/// ```
/// use stillroom::units::jigger::as_measured;
/// assert_eq!(as_measured(6.78), "7.5 ml");
/// assert_eq!(as_measured(11.2), "10 ml");
/// assert_eq!(as_measured(1.67), "1/3 bar spoon");
/// assert_eq!(as_measured(0.4), "0.4 ml");
/// ```
pub fn as_measured(ml: f64) -> String {
    /// Parts of a bar spoon that the eye can tell (ours).
    const OF_A_SPOON: [(u32, u32); 5] = [(1, 4), (1, 3), (1, 2), (2, 3), (3, 4)];
    if ml >= LEAST_ML {
        return format!("{} ml", short((ml / STEP_ML).round() * STEP_ML));
    }
    let off = |(count, parts): &(u32, u32)| (f64::from(*count) / f64::from(*parts) * BAR_SPOON_ML - ml).abs();
    let nearest = OF_A_SPOON.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
    match nearest.filter(|_| ml >= BAR_SPOON_ML / 5.0) {
        Some((count, parts)) => format!("{} bar spoon", fraction(*count, *parts)),
        None => format!("{} ml", short(ml)),
    }
}

fn fraction(count: u32, parts: u32) -> String {
    match (count / parts, count % parts) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{parts}"),
        (whole, rest) => format!("{whole} {rest}/{parts}"),
    }
}
