//! Polynomials and tables, evaluated the way their sources print them.

/// `c[0] + c[1] x + c[2] x² + …` by Horner's rule; 0 without any.
pub fn horner(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// The straight line between the two rows of a table (arguments rising) that enclose `x`;
/// none outside the table, and where `x` is not a number.
pub fn between_rows(rows: &[(f64, f64)], x: f64) -> Option<f64> {
    rows.windows(2).find_map(|pair| match *pair {
        [(x0, y0), (x1, y1)] if (x0..=x1).contains(&x) => Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0)),
        _ => None,
    })
}

/// The smooth curve through the rows of a table (arguments rising): in each interval the cubic that has at
/// both rows the slope of the parabola through the row and its neighbours. Outside, the end rows; not a number without any.
pub fn through_rows(rows: &[(f64, f64)], x: f64) -> f64 {
    let after = rows.partition_point(|row| row.0 <= x);
    let (Some(&(x0, y0)), Some(&(x1, y1))) = (rows.get(after.wrapping_sub(1)), rows.get(after)) else {
        let end = if after == 0 { rows.first() } else { rows.last() };
        return end.map_or(f64::NAN, |row| row.1);
    };
    let (width, chord) = (x1 - x0, (y1 - y0) / (x1 - x0));
    let slope_with = |neighbour: Option<&(f64, f64)>, at: (f64, f64)| match neighbour {
        Some(&(xn, yn)) => {
            let (other_width, other_chord) = ((at.0 - xn).abs(), (at.1 - yn) / (at.0 - xn));
            (chord * other_width + other_chord * width) / (width + other_width)
        }
        None => chord,
    };
    let slope0 = slope_with(rows.get(after.wrapping_sub(2)), (x0, y0));
    let slope1 = slope_with(rows.get(after + 1), (x1, y1));
    let s = (x - x0) / width;
    let (left, right) = (1.0 - s, s);
    y0 * left * left * (1.0 + 2.0 * s)
        + y1 * right * right * (3.0 - 2.0 * s)
        + width * s * left * (slope0 * left - slope1 * right)
}
