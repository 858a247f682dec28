//! How quality is lost: zero and first order, and what temperature does to the rate.
//!
//! One Arrhenius line must not cross a change of what fails first: the published mid-points for bottled orange juice
//! (21.5, 19, 13, 6.5 days at -1.7, 1.1, 4.4, 7.8 °C, Fellers 1988) give Q10 1.6, 3.2, 7.7. Fit each failure by itself.

/// The gas constant, J/(mol·K): CODATA 2018, exact.
pub const GAS_CONSTANT: f64 = 8.314462618;

fn kelvin(t_c: f64) -> f64 {
    t_c + 273.15
}

/// Zero order: `A = A0 - k t`.
pub fn zero_order(a0: f64, k: f64, t: f64) -> f64 {
    a0 - k * t
}

/// Zero order, time until `a`: `(A0 - A)/k`.
pub fn zero_order_time(a0: f64, a: f64, k: f64) -> f64 {
    (a0 - a) / k
}

/// First order: `A = A0 e^(-k t)`.
pub fn first_order(a0: f64, k: f64, t: f64) -> f64 {
    a0 * (-k * t).exp()
}

/// First order, time until `a`: `ln(A0/A)/k`. The rate from two readings is `first_order_time(a0, a, t)`.
pub fn first_order_time(a0: f64, a: f64, k: f64) -> f64 {
    (a0 / a).ln() / k
}

/// How many times faster at `t_c` than at `ref_c`: Arrhenius, `exp[-(Ea/R)(1/T - 1/Tref)]`.
pub fn arrhenius(ea_j_per_mol: f64, ref_c: f64, t_c: f64) -> f64 {
    (-(ea_j_per_mol / GAS_CONSTANT) * (1.0 / kelvin(t_c) - 1.0 / kelvin(ref_c))).exp()
}

/// How many times faster 10 K above `t_c`: `exp[10 Ea/(R T (T+10))]`. Not constant: Ea 80 kJ/mol is 3.32 at 5 °C and
/// 2.85 at 25 °C.
pub fn q10(ea_j_per_mol: f64, t_c: f64) -> f64 {
    arrhenius(ea_j_per_mol, t_c, t_c + 10.0)
}

/// Ea in J/mol from a Q10 between `t_c` and 10 K above: `R ln Q10 · T(T+10)/10`.
pub fn ea_from_q10(q10: f64, t_c: f64) -> f64 {
    GAS_CONSTANT * q10.ln() * kelvin(t_c) * kelvin(t_c + 10.0) / 10.0
}

/// A time at `t1_c` brought to `t2_c` by Q10: `t(T2) = t(T1) Q10^((T1-T2)/10)`.
pub fn time_by_q10(time_at_t1: f64, q10: f64, t1_c: f64, t2_c: f64) -> f64 {
    time_at_t1 * q10.powf((t1_c - t2_c) / 10.0)
}

/// Ea in J/mol from two rates: `R ln(k2/k1)/(1/T1 - 1/T2)`.
pub fn ea_from_two(k1: f64, t1_c: f64, k2: f64, t2_c: f64) -> f64 {
    GAS_CONSTANT * (k2 / k1).ln() / (1.0 / kelvin(t1_c) - 1.0 / kelvin(t2_c))
}
