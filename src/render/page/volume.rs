//! A volume in millilitres and in fluid ounces: the page shows the one or the other.

use crate::render::html::escaped;
use crate::render::text::ml_text;
use crate::units::display::grouped;
use crate::units::{in_us_fluid_ounces, millilitres};

/// Both, the second hidden until it is asked for.
pub(super) fn volume(ml: f64) -> String {
    let [ml, ounces] = [ml_text(ml), ounces(ml)].map(|said| escaped(&said));
    format!(" <span class=\"volume\">(<span class=\"ml\">{ml}</span><span class=\"oz\">{ounces}</span>)</span>")
}

/// The ounces alone, where the millilitres are said already.
pub(super) fn in_ounces(ml: f64) -> String {
    format!(" <span class=\"oz\">({})</span>", escaped(&ounces(ml)))
}

fn ounces(ml: f64) -> String {
    let ounces = in_us_fluid_ounces(millilitres(ml));
    format!("{} US fl oz", grouped(ounces, if ounces < 10.0 { 2 } else { 1 }))
}
