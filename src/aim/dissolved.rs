//! No more sugar than stays dissolved in the store that a card is kept in.
//!
//! A range without an upper end lets an aim put in sugar until nothing is left to dissolve it. Where no upper end is written
//! there is this one: first what can still be reckoned as a liquid, then what the answers show that their own water holds.

use crate::assessment::store::planned;
use crate::card::TargetRange;
use crate::diagnostic::Span;
use crate::house::House;
use crate::mixture::solubility;
use crate::properties::{TargetKind, amount_for};
use crate::solver::Solved;
use crate::solver::room::Room;
use crate::units::{celsius, degrees_celsius, in_grams};

/// Beyond it a sugar solution is no liquid that could be reckoned, °Bx (ours: syrups are boiled to 80).
const STILL_A_LIQUID: f64 = 82.0;
/// Fewer crystals than this come of rounding, grams from each kilogram.
const ROUNDING_G_PER_KG: f64 = 0.1;

/// An upper end of Brix, as a range of its own behind those of the card.
fn capped_at(most: f64) -> TargetRange {
    TargetRange { kind: TargetKind::Brix, least: None, most: Some(most), span: Span::default() }
}

/// The room with that end, where the card leaves its sweetness open upward and does not ask for more.
pub(super) fn cap(room: &mut Room) {
    let of_sugar = |kind| matches!(kind, TargetKind::Brix | TargetKind::Sugar);
    let is_set = room.targets.iter().any(|(kind, _)| of_sugar(*kind));
    let has_end = room.ranges.iter().any(|range| of_sugar(range.kind) && range.most.is_some());
    if !is_set && !has_end && asked_for(room) < STILL_A_LIQUID {
        room.ranges.push(capped_at(STILL_A_LIQUID));
    }
}

/// The least Brix that the card asks for.
fn asked_for(room: &Room) -> f64 {
    let brix = room.ranges.iter().filter(|range| range.kind == TargetKind::Brix);
    brix.filter_map(|range| range.least).fold(0.0, f64::max)
}

/// The aim that leads to the sweetest answer.
pub(super) fn sweetest(room: &Room) -> Vec<f64> {
    room.lines.iter().map(|line| -amount_for(TargetKind::Sugar, &line.joins)).collect()
}

/// Lowers that end to the Brix at which the water of this answer holds its sugar. `false` where there is no such end, or it
/// holds it already.
pub(super) fn lower(room: &mut Room, written: usize, solved: &Solved, house: &House) -> bool {
    let asked = asked_for(room);
    let Some(cap) = room.ranges.get_mut(written) else { return false };
    let batch = solved.bottled();
    let store = planned(solved, &house.settings.stores).and_then(|at| house.settings.stores.get(at));
    // of what freezes nothing is known below the ice
    let at = store.map_or(20.0, |store| degrees_celsius(store.temperature)).max(0.0);
    let crystals = solubility::crystals(batch, celsius(at)).map_or(0.0, |of| in_grams(of.value));
    let Ok(holds) = batch.saturation_brix(celsius(at)) else { return false };
    let most = holds.value.get();
    if crystals <= ROUNDING_G_PER_KG || most <= asked || cap.most.is_some_and(|now| most >= now) {
        return false;
    }
    cap.most = Some(most);
    true
}
