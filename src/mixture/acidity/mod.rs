//! Acids: the pH of a mixture with its uncertainty, titratable acidity, what the minerals of a juice
//! bind, and the powder that brings a juice to a strength.

pub mod acids;
mod activity;
pub mod blend;
pub(crate) mod charge_balance;
mod in_mixture;
pub mod juice;
pub mod ph;
pub mod titration;

pub use acids::Acid;
pub(crate) use charge_balance::Balance;
pub use charge_balance::Solution;

/// Straight lines between the rows (x rising) of a table; beyond its ends, the end.
fn between_rows(rows: &[(f64, f64)], x: f64) -> f64 {
    let ends = rows.first().zip(rows.last());
    rows.windows(2)
        .find_map(|pair| match pair {
            &[(x0, y0), (x1, y1)] if (x0..=x1).contains(&x) => Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0)),
            _ => None,
        })
        .or_else(|| ends.map(|(first, last)| if x < first.0 { first.1 } else { last.1 }))
        .unwrap_or(f64::NAN)
}
