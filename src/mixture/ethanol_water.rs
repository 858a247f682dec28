//! The equation of ethanol in water, in plain numbers: kg/m³, °C, mass fractions.

use super::polynomial::horner;

/// Density of ethanol-water, kg/m³, `p` the mass fraction of ethanol.
///
/// OIML R 22, International Alcoholometric Tables; the same formula in Council Directive 76/766/EEC,
/// Annex, point 4: `A₁ + Σ A_k p^(k-1) + Σ B_k (t-20)^k + Σᵢ (t-20)ⁱ Σ_k C_ik p^k`.
/// Valid -20 to 40 °C, 0 to 100 %, liquid only. The signs alternate: Horner in f64.
pub(super) fn ethanol_water_kg_m3(p: f64, t_c: f64) -> f64 {
    const A: [f64; 12] = [
        9.982012300e2,
        -1.929769495e2,
        3.891238958e2,
        -1.668103923e3,
        1.352215441e4,
        -8.829278388e4,
        3.062874042e5,
        -6.138381234e5,
        7.470172998e5,
        -5.478461354e5,
        2.234460334e5,
        -3.903285426e4,
    ];
    const B: [f64; 7] = [0.0, -2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.1693540e-9, -9.9739231e-11];
    const C1: [f64; 11] = [
        1.693443461530087e-1,
        -1.046914743455169e1,
        7.196353469546523e1,
        -7.047478054272792e2,
        3.924090430035045e3,
        -1.210164659068747e4,
        2.248646550400788e4,
        -2.605562982188164e4,
        1.852373922069467e4,
        -7.420201433430137e3,
        1.285617841998974e3,
    ];
    const C2: [f64; 10] = [
        -1.193013005057010e-2,
        2.517399633803461e-1,
        -2.170575700536993,
        1.353034988843029e1,
        -5.029988758547014e1,
        1.096355666577570e2,
        -1.422753946421155e2,
        1.080435942856230e2,
        -4.414153236817392e1,
        7.442971530188783,
    ];
    const C3: [f64; 9] = [
        -6.802995733503803e-4,
        1.876837790289664e-2,
        -2.002561813734156e-1,
        1.022992966719220,
        -2.895696483903638,
        4.810060584300675,
        -4.672147440794683,
        2.458043105903461,
        -5.411227621436812e-1,
    ];
    const C4: [f64; 4] = [4.075376675622027e-6, -8.763058573471110e-6, 6.515031360099368e-6, -1.515784836987210e-6];
    const C5: [f64; 2] = [-2.788074354782409e-8, 1.345612883493354e-8];
    let at_20 = horner(&A, p);
    if t_c == 20.0 {
        return at_20;
    }
    let u = t_c - 20.0;
    let c = horner(&C1, p) + u * (horner(&C2, p) + u * (horner(&C3, p) + u * (horner(&C4, p) + u * horner(&C5, p))));
    at_20 + horner(&B, u) + u * p * c
}

/// Density of pure ethanol by the same formula, kg/m³: what percent by volume refers to (789.24 at 20 °C).
pub(super) fn pure_ethanol_kg_m3(t_c: f64) -> f64 {
    ethanol_water_kg_m3(1.0, t_c)
}
