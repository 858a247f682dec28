//! The steps of a jigger, and what they are called: millilitres with the bar's ounce of 30 ml beside.

use crate::vocabulary::MeasureSystem;

use super::display::short;

/// A jigger is marked in steps of a quarter ounce, and between them by thirds: all of them are multiples of this, ml (common
/// practice, no source).
pub const STEP_ML: f64 = 2.5;
/// The ounce of a jigger, ml: that of `jigger oz` (common practice, no source).
const OUNCE_ML: f64 = 30.0;
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

/// What a measure of so many millilitres is called in ounces ("3/4 oz"), or "1 bar spoon"; `None` where it is too little for
/// a jigger. A third, a quarter or a sixth is printed as such, what is half a bar spoon more with that, any other amount in decimals.
///
/// ```
/// use stillroom::units::jigger::in_ounces;
/// assert_eq!(in_ounces(22.5).unwrap(), "3/4 oz");
/// assert_eq!(in_ounces(50.0).unwrap(), "1 2/3 oz");
/// assert_eq!(in_ounces(59.147059125).unwrap(), "2 oz");
/// assert_eq!(in_ounces(47.5).unwrap(), "1 1/2 oz + 1/2 bar spoon");
/// assert_eq!(in_ounces(5.0).unwrap(), "1 bar spoon");
/// assert_eq!(in_ounces(0.9), None);
/// ```
pub fn in_ounces(ml: f64) -> Option<String> {
    let is = |a: f64, b: f64| (a - b).abs() < 1e-6;
    if ml < LEAST_ML || !ml.is_finite() {
        return None;
    }
    if is(ml, BAR_SPOON_ML) {
        return Some("1 bar spoon".to_owned());
    }
    let whole = |ounces: f64| {
        [1_u32, 2, 3, 4, 6].into_iter().find_map(|parts| {
            let count = ounces * f64::from(parts);
            is(count, count.round()).then(|| format!("{} oz", fraction(count.round() as u32, parts)))
        })
    };
    // A card that writes fluid ounces means the same mark of the jigger.
    let oz = |ml: f64| whole(ml / OUNCE_ML).or_else(|| whole(ml / US_FLUID_OUNCE_ML));
    let with_half_a_spoon = || Some(format!("{} + 1/2 bar spoon", oz(ml - 0.5 * BAR_SPOON_ML)?));
    oz(ml).or_else(with_half_a_spoon).or_else(|| Some(format!("{} oz", short(ml / OUNCE_ML))))
}

fn fraction(count: u32, parts: u32) -> String {
    match (count / parts, count % parts) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{parts}"),
        (whole, rest) => format!("{whole} {rest}/{parts}"),
    }
}
