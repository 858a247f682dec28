//! The equations of water and of sucrose in water, in plain numbers: kg/m³, °C, mass fractions.

use super::polynomial::horner;

/// Density of water, kg/m³ with `t` in °C, 0 to 100 °C.
///
/// G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, on ITS-90, the water that the ICUMSA sucrose equation
/// stands on: `(Σ nᵢ tⁱ) / (1 + 16.887236e-3 t)`. Within 0.006 kg/m³ of IAPWS-95 at 0 to 95 °C.
pub(super) fn water_kg_m3(t_c: f64) -> f64 {
    const NUMERATOR: [f64; 6] = [999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12];
    horner(&NUMERATOR, t_c) / (1.0 + 16.887236e-3 * t_c)
}

/// What dissolved sucrose adds to the density of water, for each unit of its mass fraction:
/// `(rho(w, t) - rho(0, t)) / w`, kg/m³.
///
/// ICUMSA SPS-4 form: Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual (Bartens 1995):
/// `Σ aₘwᵐ + x Σ bₘwᵐ + x² Σ cₘwᵐ + x³ Σ dₘwᵐ + x⁴ Σ eₘwᵐ`, `x = (t - 20)/100`.
pub(super) fn sucrose_increment_kg_m3(w: f64, t_c: f64) -> f64 {
    const A: [f64; 6] = [385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890];
    const B: [f64; 5] = [-46.2720, -7.1720, 1.1597, 5.1126, 17.5254];
    const C: [f64; 4] = [59.7712, 7.2491, 12.3630, -35.4791];
    const D: [f64; 3] = [-47.2207, -21.6977, 27.6301];
    const E: [f64; 2] = [18.3184, 12.3081];
    let at_20 = horner(&A, w);
    if t_c == 20.0 {
        return at_20;
    }
    let x = (t_c - 20.0) / 100.0;
    at_20 + x * (horner(&B, w) + x * (horner(&C, w) + x * (horner(&D, w) + x * horner(&E, w))))
}

pub(super) fn sucrose_solution_kg_m3(w: f64, t_c: f64) -> f64 {
    water_kg_m3(t_c) + w * sucrose_increment_kg_m3(w, t_c)
}

/// Apparent specific volume of dissolved sucrose, mL/g: `(1/rho - (1-w)/rho_w)/w`, written so that
/// nothing is divided by `w`.
pub(super) fn sucrose_volume_ml_g(w: f64, t_c: f64) -> f64 {
    let water = water_kg_m3(t_c);
    let increment = sucrose_increment_kg_m3(w, t_c);
    1000.0 * (water - (1.0 - w) * increment) / (water * (water + w * increment))
}
