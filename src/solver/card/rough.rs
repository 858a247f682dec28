//! What one weighs where its line says how big it is ("a large bunch") or no one number of them ("2-3 sprigs").

use crate::card::{Amount, Part};
use crate::units::display::short;
use crate::vocabulary::Portion;

use super::super::resolve::PieceWeight;

/// How big one is.
pub(super) const SIZES: [Portion; 4] = [Portion::Small, Portion::Medium, Portion::Large, Portion::ExtraLarge];

/// A small one and a large one, as shares of one, where the larder says nothing of how they differ (common practice, no source).
const SIZE_RANGE: (f64, f64) = (0.5, 1.5);

/// How long a piece is.
const LENGTHS: [Portion; 2] = [Portion::Inch, Portion::Centimetre];

/// Which of the portions that a line names is looked up first: of a length nothing else, and a piece last, for "piece" says least.
pub(super) fn in_order(portions: &[Portion]) -> Vec<Portion> {
    if let Some(length) = portions.iter().find(|portion| LENGTHS.contains(portion)) {
        return vec![*length];
    }
    let (pieces, more): (Vec<Portion>, Vec<Portion>) = portions.iter().partition(|portion| **portion == Portion::Piece);
    more.into_iter().chain(pieces).collect()
}

/// A large one lies between one and the heaviest, a small one between the lightest and one.
pub(super) fn sized(one: PieceWeight, size: Portion) -> PieceWeight {
    let (low, high) = one.range_g.unwrap_or((SIZE_RANGE.0 * one.each_g, SIZE_RANGE.1 * one.each_g));
    let (low, high) = match size {
        Portion::Small => (low, one.each_g),
        Portion::Large | Portion::ExtraLarge => (one.each_g, high),
        _ => return one,
    };
    PieceWeight {
        each_g: 0.5 * (low + high),
        half_width_g: Some(0.5 * (high - low)),
        range_g: Some((low, high)),
        status: format!("{}; a {size} one", one.status),
    }
}

/// The same where nobody says how many: the spread of the count is that of one.
pub(super) fn so_many(one: PieceWeight, between: (f64, f64), part: &Part) -> PieceWeight {
    let Amount::Pieces(count) = part.amount.value else { return one };
    let (light, heavy) = one.range_g.unwrap_or((one.each_g, one.each_g));
    let (low, high) = (light * between.0 / count, heavy * between.1 / count);
    PieceWeight {
        half_width_g: Some(0.5 * (high - low)),
        range_g: Some((low, high)),
        status: format!("{}; {} to {} are counted as {}", one.status, short(between.0), short(between.1), short(count)),
        ..one
    }
}
