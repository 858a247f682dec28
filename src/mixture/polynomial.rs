//! Polynomials and tables, evaluated the way their sources print them.

/// `c[0] + c[1] x + c[2] x² + …` by Horner's rule.
pub(super) fn horner(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// The straight line between the two rows of a table (arguments rising) that enclose `x`;
/// none outside the table.
pub(super) fn between_rows(rows: &[(f64, f64)], x: f64) -> Option<f64> {
    rows.windows(2).find_map(|pair| match *pair {
        [(x0, y0), (x1, y1)] if (x0..=x1).contains(&x) => Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0)),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn horner_is_the_polynomial() {
        assert_eq!(horner(&[1.0, 2.0, 3.0], 2.0), 17.0);
        assert_eq!(horner(&[], 2.0), 0.0);
    }

    #[test]
    fn a_table_ends_where_it_ends() {
        let rows = [(0.0, 1.0), (10.0, 3.0)];
        assert_eq!(between_rows(&rows, 5.0), Some(2.0));
        assert_eq!(between_rows(&rows, 10.0), Some(3.0));
        assert_eq!(between_rows(&rows, 10.1), None);
        assert_eq!(between_rows(&rows, f64::NAN), None);
    }
}
