//! The salts of a juice: its minerals hold part of its acid.

/// Shares of the mineral charge that the organic acids hold: low, middle, high. Above 0.5 in
/// grapefruit and above 0.7 in oranges: Sinclair and Eny (papers on the buffer system of citrus juice), read;
/// the band 0.5 to 1.0 is taken from that.
pub const SHARE_HELD: [f64; 3] = [0.5, 0.7, 1.0];

/// The minerals of an amount of juice, in milligrams; `None` where the table is blank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Minerals {
    /// Potassium.
    pub potassium_mg: Option<f64>,
    /// Sodium.
    pub sodium_mg: Option<f64>,
    /// Calcium.
    pub calcium_mg: Option<f64>,
    /// Magnesium.
    pub magnesium_mg: Option<f64>,
    /// Phosphorus.
    pub phosphorus_mg: Option<f64>,
}

/// What the minerals of a juice do to its acid; the two fields of a mixture of those names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// Strong cations that hold acid as salt, in equivalents, for each share of [`SHARE_HELD`].
    pub bound_cations_eq: [f64; 3],
    /// Sodium, taken as table salt, in moles.
    pub sodium_mol: f64,
}

/// Bound cations = k (K/39.0983 + 2 Ca/40.078 + 2 Mg/24.305 − P/30.9738), in milliequivalents from
/// milligrams, for k of [`SHARE_HELD`]: phosphate (one charge at the pH of a juice) is a strong anion's
/// share, sodium counts as table salt. Never below none. `None` when one of the five is not known: a blank is
/// not zero.
pub fn bound_cations(minerals: &Minerals) -> Option<Bound> {
    let charge_meq =
        minerals.potassium_mg? / 39.0983 + 2.0 * minerals.calcium_mg? / 40.078 + 2.0 * minerals.magnesium_mg? / 24.305
            - minerals.phosphorus_mg? / 30.9738;
    let charge_eq = charge_meq.max(0.0) / 1000.0;
    Some(Bound {
        bound_cations_eq: SHARE_HELD.map(|k| k * charge_eq),
        sodium_mol: minerals.sodium_mg? / 22.9898 / 1000.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hundred_milligrams_of_potassium() {
        let all = Minerals {
            potassium_mg: Some(100.0),
            sodium_mg: Some(0.0),
            calcium_mg: Some(0.0),
            magnesium_mg: Some(0.0),
            phosphorus_mg: Some(0.0),
        };
        let [low, mid, high] = bound_cations(&all).unwrap().bound_cations_eq;
        assert!((high / 0.090 - 0.02842).abs() < 5e-6, "in 90 g of water: {}", high / 0.090);
        assert!((low - 0.5 * high).abs() < 1e-12 && (mid - 0.7 * high).abs() < 1e-12);
    }

    #[test]
    fn a_blank_is_not_zero() {
        let but_one = Minerals { potassium_mg: Some(100.0), ..Minerals::default() };
        assert_eq!(bound_cations(&but_one), None);
    }
}
