//! Linear programming for a few dozen rows: the best corner of what a set of linear rules allows.
//!
//! A dense tableau with Bland's rule (R. G. Bland, Mathematics of Operations Research 2 (1977) 103): of the columns that
//! better an aim the first one enters, of the rows that stop it the one whose variable stands first leaves. So it ends, and
//! gives the same corner every time. Aims are followed one after the other: among the answers that are as good in the
//! first the best in the second is taken, and so on. Written here and not taken from a crate: those in reach bring
//! `js-sys` into the library for the web, and say neither which rules decide the corner nor which of equal ones it is.

/// How a row stands to its right side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// As much.
    Equal,
    /// As much or more.
    AtLeast,
    /// As much or less.
    AtMost,
}

/// A rule: the sum of `of` times the variables, against `right`.
#[derive(Clone, Debug)]
pub struct LinearRow {
    /// A factor for each variable.
    pub of: Vec<f64>,
    /// How it stands to the right side.
    pub sense: Sense,
    /// The right side.
    pub right: f64,
}

/// The best corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Vertex {
    /// The variables, none below zero.
    pub x: Vec<f64>,
    /// Variables that stand at zero and are no part of the corner's equations.
    pub at_zero: Vec<bool>,
    /// Rows that the corner is the crossing of.
    pub tight: Vec<bool>,
}

/// Why there is no best corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoVertex {
    /// No variables fit all rows.
    Infeasible,
    /// It can be bettered without end.
    Unbounded,
}

/// What is smaller is nothing; every row and aim is scaled to a largest factor of 1.
const NOTHING: f64 = 1e-10;
/// What all artificial variables together may keep, once they are as small as they get.
const FEASIBLE: f64 = 1e-9;
/// Bland's rule ends; rounding might not let it.
const MOST_STEPS: usize = 10_000;

struct Tableau {
    /// A row of factors for each rule, the right side last.
    rows: Vec<Vec<f64>>,
    /// The column that each rule gives.
    basis: Vec<usize>,
    /// Columns that may enter.
    open: Vec<bool>,
}

/// The corner that is the least in each of the `aims`, one after the other, with all variables at zero or above.
///
/// # Errors
/// Where the rows cannot be met together, or an aim has no least.
pub fn best(rows: &[LinearRow], aims: &[Vec<f64>]) -> Result<Vertex, NoVertex> {
    let n = rows.first().map_or(0, |row| row.of.len());
    let slacks = rows.iter().filter(|row| row.sense != Sense::Equal).count();
    let (first_own, width) = (n + slacks, n + slacks + rows.len());
    let mut slack_of = vec![None; rows.len()];
    let mut tableau = Tableau { rows: Vec::new(), basis: Vec::new(), open: vec![true; width] };
    let mut next = n;
    for (at, row) in rows.iter().enumerate() {
        let scale = row.of.iter().fold(0.0_f64, |m, x| m.max(x.abs())).max(f64::MIN_POSITIVE);
        let sign = if row.right < 0.0 { -1.0 } else { 1.0 };
        let mut line = vec![0.0; width + 1];
        for (to, x) in line.iter_mut().zip(&row.of) {
            *to = sign * x / scale;
        }
        if row.sense != Sense::Equal {
            line[next] = if row.sense == Sense::AtMost { sign } else { -sign };
            slack_of[at] = Some(next);
            next += 1;
        }
        line[first_own + at] = 1.0;
        line[width] = sign * row.right / scale;
        tableau.rows.push(line);
        tableau.basis.push(first_own + at);
    }
    let mut own = vec![0.0; width];
    own[first_own..].fill(1.0);
    tableau.lessen(&own)?;
    let left: f64 =
        tableau.rows.iter().zip(&tableau.basis).filter(|(_, b)| **b >= first_own).map(|(r, _)| r[width]).sum();
    if left > FEASIBLE {
        return Err(NoVertex::Infeasible);
    }
    tableau.drive_out(first_own);
    tableau.open = (0..width).map(|column| column < first_own).collect();
    for aim in aims {
        let scale = aim.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
        if scale > 0.0 {
            let mut costs = vec![0.0; width];
            costs.iter_mut().zip(aim).for_each(|(to, x)| *to = x / scale);
            tableau.lessen(&costs)?;
        }
    }
    let mut x = vec![0.0; width];
    let mut basic = vec![false; width];
    for (row, &column) in tableau.rows.iter().zip(&tableau.basis) {
        x[column] = row[width].max(0.0);
        basic[column] = true;
    }
    let tight =
        (0..rows.len()).map(|at| !basic[first_own + at] && slack_of[at].is_none_or(|slack: usize| !basic[slack]));
    Ok(Vertex { at_zero: basic[..n].iter().map(|basic| !basic).collect(), tight: tight.collect(), x: x[..n].to_vec() })
}

impl Tableau {
    fn right(&self, row: usize) -> f64 {
        self.rows[row].last().copied().unwrap_or_default()
    }

    fn reduced(&self, costs: &[f64], column: usize) -> f64 {
        costs[column] - self.basis.iter().zip(&self.rows).map(|(&b, row)| costs[b] * row[column]).sum::<f64>()
    }

    /// Makes the sum of `costs` as small as it gets; what would make it larger again may no longer enter.
    fn lessen(&mut self, costs: &[f64]) -> Result<(), NoVertex> {
        for _ in 0..MOST_STEPS {
            let betters = |column: &usize| self.open[*column] && self.reduced(costs, *column) < -NOTHING;
            let Some(enters) = (0..self.open.len()).filter(|c| !self.basis.contains(c)).find(betters) else { break };
            let stops = (0..self.rows.len()).filter(|&row| self.rows[row][enters] > NOTHING);
            let ratio = |row: usize| self.right(row) / self.rows[row][enters];
            let leaves = stops.reduce(|a, b| {
                let (at_a, at_b) = (ratio(a), ratio(b));
                let same = (at_a - at_b).abs() <= 1e-13 * (1.0 + at_a.abs());
                if (same && self.basis[b] < self.basis[a]) || (!same && at_b < at_a) { b } else { a }
            });
            let Some(leaves) = leaves else { return Err(NoVertex::Unbounded) };
            self.pivot(leaves, enters);
        }
        for column in 0..self.open.len() {
            let worsens = !self.basis.contains(&column) && self.reduced(costs, column) > NOTHING;
            self.open[column] &= !worsens;
        }
        Ok(())
    }

    fn pivot(&mut self, row: usize, column: usize) {
        let by = self.rows[row][column];
        self.rows[row].iter_mut().for_each(|x| *x /= by);
        let pivot = self.rows[row].clone();
        for (at, line) in self.rows.iter_mut().enumerate() {
            let factor = line[column];
            if at != row && factor != 0.0 {
                line.iter_mut().zip(&pivot).for_each(|(x, p)| *x -= factor * p);
            }
        }
        self.basis[row] = column;
    }

    /// Takes artificial variables at zero out of the basis; one that stays stands in a rule that says nothing new.
    fn drive_out(&mut self, first_own: usize) {
        for row in 0..self.rows.len() {
            if self.basis[row] >= first_own
                && let Some(column) = (0..first_own).find(|&c| self.rows[row][c].abs() > 1e-8)
            {
                self.pivot(row, column);
            }
        }
    }
}
