//! Fire: when the vapour of a spirit burns.

use std::sync::LazyLock;

use crate::mixture::{Estimate, OutOfRange};
use crate::quantity::{Abv, Temperature, celsius};

use super::table;

const TABLE: &str = include_str!("data/flash-point.csv");

/// The stated error of the table, in °C: its copies and others disagree by about this much.
const ERROR_C: f64 = 5.0;

/// Strength and flash point, weakest first.
static POINTS: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
    table::rows(TABLE)
        .iter()
        .filter_map(|row| Some((row.number("abv_pct_vol")?, row.number("flash_point_c")?)))
        .collect()
});

/// The flash point of a mixture of ethanol and water.
///
/// Linear between the rows of a widely reproduced encyclopaedia table (primary method not stated; two copies agree;
/// others give up to 5 °C less for pure ethanol). Valid from 10 to 96 % vol, not to be extrapolated below. Stated
/// error 5 °C. Trap: sugar and aroma oils shift it.
pub fn flash_point(abv: Abv) -> Result<Estimate<Temperature>, OutOfRange> {
    let strength = abv.get();
    let between = POINTS.iter().zip(POINTS.iter().skip(1)).find(|(low, high)| (low.0..=high.0).contains(&strength));
    match between {
        Some((low, high)) => {
            let flash_point_c = low.1 + (high.1 - low.1) * (strength - low.0) / (high.0 - low.0);
            // an error is a difference of temperatures, so it is counted from absolute zero
            let error = celsius(ERROR_C - 273.15);
            Ok(Estimate::new(celsius(flash_point_c), error))
        }
        None => Err(OutOfRange {
            property: "flash point",
            why: format!("asked for {strength} % vol; the table reaches from 10 to 96 % vol"),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_whole() {
        assert_eq!(POINTS.len(), table::lines(TABLE));
        assert!(POINTS.windows(2).all(|w| w[0].0 < w[1].0 && w[0].1 >= w[1].1));
    }
}
