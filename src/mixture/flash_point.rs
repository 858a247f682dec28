//! The temperature from which the vapour of a spirit can be lit.

use crate::units::{Abv, Temperature, celsius, kelvins};

use super::polynomial::between_rows;
use super::{Estimate, OutOfRange};

/// Percent by volume and flash point, °C: a widely reproduced encyclopaedia table, test method not stated. Other copies
/// give 12 to 13 °C for pure ethanol: ±5 K.
const ROWS: &[(f64, f64)] =
    &[(10.0, 49.0), (20.0, 36.0), (40.0, 26.0), (60.0, 22.0), (70.0, 21.0), (90.0, 17.0), (96.0, 17.0)];

/// Flash point of ethanol and water by strength, linear between the rows of the table, ±5 K. Above 96 % the last row is
/// held; below 10 % the table ends and none is given, which does not mean that there is none.
pub fn of_strength(strength: Abv) -> Result<Estimate<Temperature>, OutOfRange> {
    const ERROR_K: f64 = 5.0;
    let abv = strength.get();
    let t_c = between_rows(ROWS, abv.min(96.0)).ok_or_else(|| {
        OutOfRange::new("flash point", format!("the table begins at 10 % alcohol; {abv:.1} % was asked for"))
    })?;
    let extrapolated = (abv > 96.0).then_some("the table ends at 96 % alcohol");
    Ok(Estimate { value: celsius(t_c), error: kelvins(ERROR_K), extrapolated })
}
