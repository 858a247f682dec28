//! Carbon dioxide in a closed bottle: how much of it stays dissolved, and the pressure of the rest.

/// What dissolves in water at 25 °C, mol/L for each bar above it: Henry's constant of 3.3e-4 mol/(m³ Pa) (from memory; sugar and
/// spirit change it by a tenth or two).
const DISSOLVES: f64 = 0.033;
/// Gas constant, L bar/(mol K), and that temperature, K.
const R: f64 = 0.083_145;
const T: f64 = 298.15;
/// Room above the liquid, for each litre of it, L: a twentieth (ours; a bottle filled to its neck).
const HEADSPACE: f64 = 0.05;

/// The pressure over that of the air that so much carbon dioxide makes in a closed bottle at 25 °C, bar. `mol_per_l`: mol for each litre
/// of the liquid, 0 or more.
#[must_use]
pub fn gauge_bar(mol_per_l: f64) -> f64 {
    mol_per_l.max(0.0) / (DISSOLVES + HEADSPACE / (R * T))
}
