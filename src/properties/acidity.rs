//! Titratable acid, and the pH with its cautious edges.

use crate::mixture::acidity::ph::{self, NoPh};
use crate::units::display::grouped;

use super::{Properties, Subject, TargetKind, value_of};

/// Less titratable acid than this is none, g/L (ours: a drop of lemon in a litre).
const NO_ACID_G_L: f64 = 0.05;
/// Limits that a product may rest on: FDA Food Code 2022 table 1-201.10(B) of potentially hazardous food, 4.2 and 4.6.
const LIMITS: [f64; 2] = [4.2, 4.6];
/// Nearer than this to a limit a computed pH is not enough (ours: twice the error of a pocket meter, and some).
const NEAR: f64 = 0.3;

/// g/L. None where it would be next to nothing, but for parts of which no acid is listed.
pub(super) fn acid_g_l(of: &Subject<'_>) -> Option<f64> {
    // Plus nothing: a negative zero is not printed.
    let acid = value_of(TargetKind::Acid, of.liquid).map(|acid| acid.max(0.0) + 0.0)?;
    (of.acidity.unknown.is_empty() || acid >= NO_ACID_G_L).then_some(acid)
}

/// The middle, the lower and the upper edge; a reading beats what is computed.
pub(super) fn ph(of: &mut Subject<'_>, acid_given: bool) -> [Option<f64>; 3] {
    let unknown = of.acidity.unknown.join(", ");
    let three = match ph::estimate(of.liquid, of.at) {
        _ if let Some((read, uncertainty)) = of.acidity.read => {
            [read, read - uncertainty, read + uncertainty].map(Some)
        }
        Ok(ph) => [ph.value, ph.low, ph.high].map(|ph| Some(ph.get())),
        Err(NoPh::NoAcid) if !unknown.is_empty() => {
            let what = if acid_given { "pH" } else { "pH or acid" };
            let why = format!("nothing is known of the acids of {unknown}, so it cannot be computed: measure it");
            of.refused(what, &why);
            [None; 3]
        }
        Err(why) => {
            of.refused("pH", &why);
            [None; 3]
        }
    };
    if !acid_given && three[0].is_some() {
        of.refused("acid", &format!("nothing is known of the acids of {unknown}: titrate it"));
    }
    three
}

/// The edges, rounded outwards; with the advice to measure where one comes near a limit.
pub(super) fn edges(p: &Properties) -> String {
    let Some((low, high)) = p.ph_low.zip(p.ph_high) else { return String::new() };
    let (low_shown, high_shown) = ((10.0 * low + 1e-9).floor() / 10.0, (10.0 * high - 1e-9).ceil() / 10.0);
    let near = LIMITS.into_iter().find(|limit| low - NEAR <= *limit && *limit <= high + NEAR);
    let advice = near.map_or_else(String::new, |limit| format!(": near {limit}, measure it"));
    format!(" ({} to {}){advice}", grouped(low_shown, 1), grouped(high_shown, 1))
}
