//! Small dense linear systems.

/// Solves `rows * x = right` by elimination with row scaling and partial pivoting. `None` where the
/// rows do not fix every unknown (no pivot above 1e-11 of its row) or the system is not square.
pub fn solve(rows: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let n = right.len();
    if rows.len() != n || rows.iter().any(|row| row.len() != n) {
        return None;
    }
    let mut a: Vec<Vec<f64>> = Vec::with_capacity(n);
    for (row, &r) in rows.iter().zip(right) {
        let scale = row.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
        if !(scale > 0.0 && scale.is_finite() && r.is_finite()) {
            return None;
        }
        a.push(row.iter().chain([&r]).map(|x| x / scale).collect());
    }
    for column in 0..n {
        let pivot = (column..n).max_by(|&i, &j| a[i][column].abs().total_cmp(&a[j][column].abs()))?;
        a.swap(column, pivot);
        if a[column][column].abs() < 1e-11 {
            return None;
        }
        let (done, below) = a.split_at_mut(column + 1);
        let top = &done[column];
        for row in below {
            let factor = row[column] / top[column];
            if factor != 0.0 {
                for (x, t) in row[column..].iter_mut().zip(&top[column..]) {
                    *x -= factor * t;
                }
            }
        }
    }
    let mut x = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|j| a[i][j] * x[j]).sum();
        x[i] = (a[i][n] - known) / a[i][i];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn solves_and_refuses() {
        let x = solve(&[vec![2.0, 1.0], vec![1.0, -1.0]], &[5.0, 1.0]).unwrap();
        assert!((x[0] - 2.0).abs() < 1e-14 && (x[1] - 1.0).abs() < 1e-14);
        assert!(solve(&[vec![1.0, 1.0], vec![2.0, 2.0]], &[1.0, 2.0]).is_none());
        assert!(solve(&[vec![0.0]], &[1.0]).is_none());
        assert!(solve(&[vec![f64::NAN]], &[1.0]).is_none());
    }
}
