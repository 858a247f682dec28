//! Activity coefficients of ions in water.

use super::super::polynomial::between_rows;

/// The Debye-Hückel coefficient A by temperature: (°C, kg^0.5 mol^-0.5).
///
/// A = 1.82483e6 √ρ / (ε T)^1.5 with ρ in g/cm³, T in kelvin and
/// ε = 87.740 − 0.40008 t + 9.398e-4 t² − 1.410e-6 t³ (t in °C; Malmberg and Maryott, J. Res. NBS 56:1, 1956,
/// from memory); tabulated, because straight lines between the rows keep A to 0.0003.
const DEBYE_HUCKEL: [(f64, f64); 8] = [
    (0.0, 0.4918),
    (10.0, 0.4989),
    (20.0, 0.5067),
    (25.0, 0.5108),
    (30.0, 0.5151),
    (40.0, 0.5243),
    (50.0, 0.5342),
    (60.0, 0.5449),
];

/// A at a temperature in °C, kg^0.5 mol^-0.5; below and above the table of 0 to 60 °C, its end.
pub fn debye_huckel(celsius: f64) -> f64 {
    between_rows(&DEBYE_HUCKEL, celsius.clamp(0.0, 60.0)).unwrap_or(f64::NAN)
}

/// Davies (Ion Association, 1962): log10 g(z) = −A z² [ √I/(1+√I) − 0.3 I ], I in mol per kg of water.
/// The activity coefficients g of species with z = 0, 1, 2 and 3; neutral ones have 1. Good to I = 0.5; beyond, the caller says
/// so. With A = 0 the solution is ideal.
///
/// Trap: 0.2 instead of 0.3 also stands in books; 0.3 meets the primary buffers better (carbonate 10.00
/// against 9.99 for a standard of 10.01).
pub fn davies(a: f64, ionic_strength: f64) -> [f64; 4] {
    let root = ionic_strength.max(0.0).sqrt();
    let unit = -a * (root / (1.0 + root) - 0.3 * ionic_strength);
    let single = 10f64.powf(unit);
    // z² = 1, 4, 9
    let (fourth, eighth) = (single.powi(4), single.powi(8));
    [1.0, single, fourth, eighth * single]
}
