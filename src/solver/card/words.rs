//! Targets in words.

use crate::card::TargetKind;
use crate::units::display::grouped;

/// A target for a message.
pub fn target_words(kind: TargetKind, value: f64) -> String {
    let figure = target_figure(kind, value);
    match kind {
        TargetKind::Brix => format!("{figure} °Bx"),
        TargetKind::Abv => format!("{figure} % ABV"),
        TargetKind::Sugar => format!("{figure} g/L sugar"),
        TargetKind::Acid => format!("{figure} g/L acid"),
        TargetKind::Ph => format!("pH {figure}"),
    }
}

/// Its number alone.
pub fn target_figure(kind: TargetKind, value: f64) -> String {
    let decimals = match kind {
        TargetKind::Brix | TargetKind::Abv | TargetKind::Acid => 1,
        TargetKind::Sugar => 0,
        TargetKind::Ph => 2,
    };
    grouped(value, decimals)
}
