//! The charge balance, titratable acidity, juices, calibration and acid-adjusting against the check tables.

use stillroom::mixture::acidity::{Acid, Solution};
use stillroom::quantity::celsius;

type Row = std::collections::HashMap<String, String>;

/// The rows of a table in `tests/reference`, by column name; lines that begin with # are its sources.
fn rows(table: &str) -> Vec<Row> {
    let path = format!("{}/tests/reference/{table}.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).flexible(true).from_path(path).unwrap();
    let rows: Vec<Row> = reader.deserialize().map(Result::unwrap).collect();
    assert!(rows.len() > 5, "{table}: {} rows", rows.len());
    rows
}

fn number(row: &Row, column: &str) -> f64 {
    known(row, column).unwrap_or_else(|| panic!("no {column} in {row:?}"))
}

fn known(row: &Row, column: &str) -> Option<f64> {
    row[column].parse().ok()
}

/// `citric:0.25;malic:0.05`
fn amounts(text: &str) -> Vec<(&'static Acid, f64)> {
    text.split([';', '+'])
        .map(|part| {
            let (name, amount) = part.split_once(':').unwrap();
            (Acid::named(name).unwrap(), amount.parse().unwrap())
        })
        .collect()
}

fn solution(row: &Row) -> Solution {
    let cation = number(row, "strong_cation_eq_per_kg");
    Solution::new(&amounts(&row["acids_molal"]), cation, 0.0, celsius(number(row, "temperature_c"))).unwrap()
}

fn ph(solution: &Solution) -> f64 {
    solution.balance().unwrap().ph.get()
}

/// Keeps the largest deviation and says which row it was.
#[derive(Default)]
struct Worst(f64, String);

impl Worst {
    fn see(&mut self, got: f64, expected: f64, tolerance: f64, row: &Row) {
        let off = (got - expected).abs();
        assert!(off <= tolerance, "got {got:.4}, expected {expected} +- {tolerance}: {row:?}");
        if off > self.0 {
            *self = Self(off, format!("{row:?}"));
        }
    }
}

impl Worst {
    fn say(&self, what: &str) {
        println!("{what}: worst {:.4} at {}", self.0, self.1);
    }
}

#[test]
fn primary_standard_buffers() {
    let (mut model, mut standard) = (Worst::default(), Worst::default());
    for row in rows("acid-buffers") {
        let got = ph(&solution(&row));
        model.see(got, number(&row, "ph_model"), 0.005, &row);
        standard.see(got, number(&row, "ph_standard"), 0.02, &row);
    }
    model.say("buffers, reference implementation");
    standard.say("buffers, standard");
}

#[test]
fn solutions_of_acids() {
    let (mut davies, mut ideal, mut phreeqc) = (Worst::default(), Worst::default(), Worst::default());
    for row in rows("acid-solutions") {
        let solution = solution(&row);
        let balance = solution.balance().unwrap();
        davies.see(balance.ph.get(), number(&row, "ph_davies"), 0.005, &row);
        let strength = number(&row, "ionic_strength_molal");
        // the table prints four decimals
        assert!((balance.ionic_strength_molal - strength).abs() <= 0.01 * strength + 0.00005, "{row:?}");
        if let Some(expected) = known(&row, "ph_phreeqc") {
            phreeqc.see(balance.ph.get(), expected, 0.02, &row);
        }
        ideal.see(ph(&solution.ideal()), number(&row, "ph_ideal"), 0.002, &row);
    }
    davies.say("solutions");
    ideal.say("solutions, ideal");
    phreeqc.say("solutions, PHREEQC");
}
