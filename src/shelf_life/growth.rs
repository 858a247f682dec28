//! How fast a spoilage organism grows: the gamma concept.
//!
//! `mu = mu_opt · g_T · g_pH · g_aw · g_E · Π g_HA` in 1/h (natural logarithm): Zwietering, Wijtzes, de Wit & van 't Riet
//! 1992 J Food Prot 55:973 (reference from memory; structure confirmed in Pinon et al. 2004 Appl Environ Microbiol 70:1081).
//! No interaction term: it would only lower the rate, and a date must not be lengthened by it.
//!
//! Kernels in °C, pH, water activity and g/L. Spoilage only: pathogens are not modelled.

pub use crate::mixture::acidity::undissociated;

/// The temperature factor, CTMI: Rosso, Lobry & Flandrois 1993 J Theor Biol 162:447; Rosso et al. 1995 Appl Environ
/// Microbiol 61:610. Asks for `opt > (min + max) / 2`; zero at and outside the limits. Fitted to 27 measured *E. coli*
/// rates, 7.6 to 47.4 °C (Ross et al. 2003), it leaves a residual standard error of 0.031 on √mu.
///
/// `g = (T-max)(T-min)² / {(opt-min)[(opt-min)(T-opt) - (opt-max)(opt+min-2T)]}`
pub fn ctmi(t_c: f64, min: f64, opt: f64, max: f64) -> f64 {
    if !(min < t_c && t_c < max) {
        return 0.0;
    }
    let above = (opt - min) * (t_c - opt) - (opt - max) * (opt + min - 2.0 * t_c);
    ((t_c - max) * (t_c - min).powi(2) / ((opt - min) * above)).clamp(0.0, 1.0)
}

/// The temperature factor as a date uses it: held at 1 above the optimum, so that a warmer store never lengthens a date
/// (ours, cautious: the published curve falls again above the optimum).
pub fn ctmi_for_a_date(t_c: f64, min: f64, opt: f64, max: f64) -> f64 {
    if t_c >= opt { 1.0 } else { ctmi(t_c, min, opt, max) }
}

/// The pH factor, CPM: Rosso et al. 1995 Appl Environ Microbiol 61:610. Zero at and outside the limits.
///
/// `g = (pH-min)(pH-max) / [(pH-min)(pH-max) - (pH-opt)²]`
pub fn cpm(ph: f64, min: f64, opt: f64, max: f64) -> f64 {
    if !(min < ph && ph < max) {
        return 0.0;
    }
    let inside = (ph - min) * (ph - max);
    inside / (inside - (ph - opt).powi(2))
}

/// The pH factor as a date uses it: held at 1 above the optimum, and at 1 for an unknown pH (ours, cautious), so that a
/// high or doubtful pH never lengthens a date.
pub fn cpm_for_a_date(ph: Option<f64>, min: f64, opt: f64, max: f64) -> f64 {
    match ph {
        Some(ph) if ph < opt => cpm(ph, min, opt, max),
        _ => 1.0,
    }
}

/// The water activity factor: the two-parameter form of Rosso & Robinson 2001 Int J Food Microbiol 63:265 with a plateau
/// above the optimum (ours, cautious for sugar-loving yeasts). On 53 measured rates the square leaves a residual standard
/// error of 0.0463 where the first power of the original gamma concept leaves 0.0527.
///
/// `g = min(1, ((aw-min)/(opt-min))²)`
pub fn water_activity(aw: f64, min: f64, opt: f64) -> f64 {
    if aw >= opt {
        1.0
    } else if aw <= min {
        0.0
    } else {
        ((aw - min) / (opt - min)).powi(2)
    }
}

/// The ethanol factor that dates use: `1 - (E/Emax)^n`, Warren, Hill & Macdonald 1990 Biotechnol Prog 6:319
/// (*S. cerevisiae* Emax 101.6 g/L, n 1.95). Zero at and above Emax.
pub fn ethanol(e_g_per_l: f64, max_g_per_l: f64, n: f64) -> f64 {
    if e_g_per_l >= max_g_per_l { 0.0 } else { 1.0 - (e_g_per_l.max(0.0) / max_g_per_l).powf(n) }
}

/// The factor of a weak acid, by what of it is not dissociated and the level to which growth was seen, in the same unit:
/// `max(0, 1 - [HA]/MIC)`, of the gamma concept, with the first power (the power from memory).
pub fn weak_acid(undissociated: f64, grows_to: f64) -> f64 {
    (1.0 - undissociated.max(0.0) / grows_to).max(0.0)
}
