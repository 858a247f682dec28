//! pH as the root of the charge balance of a solution, all per kilogram of water.

use super::acids::{Acid, Step};
use super::activity::{davies, debye_huckel};
use crate::mixture::OutOfRange;
use crate::units::{Ph, Temperature, degrees_celsius};

/// Gas constant, J/mol/K (CODATA 2018).
const R: f64 = 8.314462618;
const T_25C: f64 = 298.15;
/// The temperatures of the pK equation, °C.
const CELSIUS: std::ops::RangeInclusive<f64> = 0.0..=60.0;
const LOWEST_PH: f64 = -1.0;
const HIGHEST_PH: f64 = 14.0;
/// Largest ionic strength at which the passes are followed; far beyond what Davies is good for.
const MOST_IONIC_STRENGTH: f64 = 5.0;

/// The dissociation constant of a step on the molality scale at a temperature in K, at ionic strength 0:
/// ln K(T) = ln K(298.15) + (dH/R)(1/298.15 − 1/T) + (dCp/R)(298.15/T − 1 + ln(T/298.15)), 0 to 60 °C.
/// Against the fits of Bates and Pinching (1949) for citric acid within 0.004, of Eden and Bates (1959) for
/// malic within 0.002, 0 to 50 °C.
pub fn constant(step: &Step, kelvin: f64) -> f64 {
    let (dh, dcp) = step.heat.unwrap_or((0.0, 0.0));
    let shift = dh / R * (1.0 / T_25C - 1.0 / kelvin) + dcp / R * (T_25C / kelvin - 1.0 + (kelvin / T_25C).ln());
    10f64.powf(-step.pk_25c) * shift.exp()
}

/// The ion product of water on the molality scale at a temperature in K:
/// pKw = 4471/T + 0.01706 T − 6.0875 (form of Harned and Owen, from memory); gives 14.94, 13.995 and 13.26 at
/// 0, 25 and 50 °C. Of no weight below pH 6.
pub fn water_constant(kelvin: f64) -> f64 {
    10f64.powf(-(4471.0 / kelvin + 0.01706 * kelvin - 6.0875))
}

#[derive(Clone, Copy, Debug)]
struct Dissolved {
    molality: f64,
    /// K of each step; zero for a step that the acid has not.
    constants: [f64; 3],
    carboxylic: bool,
}

/// What is dissolved in one kilogram of water.
#[derive(Clone, Debug)]
pub struct Solution {
    acids: Vec<Dissolved>,
    strong_cation_eq: f64,
    salt_molal: f64,
    water_constant: f64,
    debye_huckel: f64,
}

/// pH (as a meter reads: from the activity of H+) and ionic strength.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// pH.
    pub ph: Ph,
    /// Ionic strength, mol per kg of water.
    pub ionic_strength_molal: f64,
}

/// Charges of all acid anions at one pH.
struct Anions {
    /// Σ c z, eq/kg.
    charge: f64,
    /// Σ c z², for the ionic strength.
    squared: f64,
    /// Σ c (mean of z² − square of mean z): minus d(charge)/d ln a.
    spread: f64,
}

impl Solution {
    /// Acids in mol, strong cations less strong anions in equivalents, and table salt in mol, per kg of water.
    /// 0 to 60 °C.
    pub fn new(
        acids: &[(&Acid, f64)],
        strong_cation_eq: f64,
        salt_molal: f64,
        temperature: Temperature,
    ) -> Result<Self, OutOfRange> {
        let celsius = degrees_celsius(temperature);
        if !CELSIUS.contains(&celsius) {
            let why = format!("{celsius:.0} °C was asked for; the pK of acids is known from 0 to 60 °C");
            return Err(OutOfRange::new("pH", why));
        }
        let amounts = acids.iter().map(|&(_, molality)| molality).chain([salt_molal]);
        if !strong_cation_eq.is_finite() || amounts.into_iter().any(|m| !(m.is_finite() && m >= 0.0)) {
            return Err(OutOfRange::new("pH", "an amount is not a number, or below zero"));
        }
        let kelvin = celsius + 273.15;
        let k = |acid: &Acid, step: usize| acid.steps.get(step).map_or(0.0, |step| constant(step, kelvin));
        let dissolved = |&(acid, molality): &(&Acid, f64)| Dissolved {
            molality,
            constants: [0, 1, 2].map(|step| k(acid, step)),
            carboxylic: acid.carboxylic,
        };
        Ok(Self {
            acids: acids.iter().map(dissolved).collect(),
            strong_cation_eq,
            salt_molal,
            water_constant: water_constant(kelvin),
            debye_huckel: debye_huckel(celsius),
        })
    }

    /// The same solution with every activity coefficient at one: what a textbook formula gives.
    #[must_use]
    pub fn ideal(self) -> Self {
        Self { debye_huckel: 0.0, ..self }
    }

    #[must_use]
    pub(crate) fn with_carboxylic_pk_raised(mut self, by: f64) -> Self {
        let factor = 10f64.powf(-by);
        for acid in self.acids.iter_mut().filter(|acid| acid.carboxylic) {
            acid.constants = acid.constants.map(|k| k * factor);
        }
        self
    }

    /// The same solution with another charge of strong cations, eq/kg.
    #[must_use]
    pub fn with_strong_cation(self, eq_per_kg_water: f64) -> Self {
        Self { strong_cation_eq: eq_per_kg_water, ..self }
    }

    /// Strong cations less strong anions, eq/kg.
    pub(crate) fn strong_cation_eq(&self) -> f64 {
        self.strong_cation_eq
    }

    /// The root of Q(pH) = a/g1 − Kw/(a g1) − Σ c Σ j fraction_j + C, a = 10^−pH, with
    /// fraction_j = term_j / Σ term and term_j = (Π K_i / a) / g(j).
    ///
    /// Passes over the ionic strength; within each, Newton's steps on pH kept in a bracket (Q falls
    /// steadily). Within 0.02 of the primary standard buffers from 0 to 50 °C, and within 0.02 of PHREEQC 3.
    /// `None` outside pH −1 to 14, or where the passes do not settle (ionic strength beyond all sense).
    pub fn balance(&self) -> Option<Balance> {
        let mut ph = 3.0;
        let ionic_strength = self.settle(|g| {
            ph = self.root(g, ph)?;
            let a = 10f64.powf(-ph);
            Some((a, self.strong_cation_eq, self.anions(a, g).squared))
        })?;
        Some(Balance { ph: Ph::new(ph)?, ionic_strength_molal: ionic_strength })
    }

    /// The strong cation charge, eq/kg, with which the solution would have this pH.
    pub fn strong_cation_at(&self, ph: Ph) -> Option<f64> {
        let a = 10f64.powf(-ph.get());
        let mut cation = 0.0;
        self.settle(|g| {
            let anions = self.anions(a, g);
            cation = anions.charge + (self.water_constant / a - a) / g[1];
            Some((a, cation, anions.squared))
        })?;
        Some(cation)
    }

    /// Repeats a pass (activity coefficients in; a of H+, strong cations and Σ c z² of the anions out) until the ionic
    /// strength I = ½ Σ m z² stays.
    fn settle(&self, mut pass: impl FnMut(&[f64; 4]) -> Option<(f64, f64, f64)>) -> Option<f64> {
        let mut ionic_strength = 0.1;
        for _ in 0..100 {
            let g = davies(self.debye_huckel, ionic_strength);
            let (a, cation, anions_squared) = pass(&g)?;
            let hydrogen_and_hydroxide = (a + self.water_constant / a) / g[1];
            let found = 0.5 * (hydrogen_and_hydroxide + anions_squared + cation.abs()) + self.salt_molal;
            if !(0.0..=MOST_IONIC_STRENGTH).contains(&found) {
                return None;
            }
            if (found - ionic_strength).abs() < 1e-9 {
                return Some(found);
            }
            ionic_strength = 0.25 * ionic_strength + 0.75 * found;
        }
        None
    }

    fn root(&self, g: &[f64; 4], guess: f64) -> Option<f64> {
        let charge_and_slope = |ph: f64| {
            let a = 10f64.powf(-ph);
            let (hydrogen, hydroxide) = (a / g[1], self.water_constant / a / g[1]);
            let anions = self.anions(a, g);
            let charge = hydrogen - hydroxide - anions.charge + self.strong_cation_eq;
            (charge, -std::f64::consts::LN_10 * (hydrogen + hydroxide + anions.spread))
        };
        let (mut low, mut high, mut ph) = (LOWEST_PH, HIGHEST_PH, guess);
        if charge_and_slope(low).0 < 0.0 || charge_and_slope(high).0 > 0.0 {
            return None;
        }
        for _ in 0..100 {
            let (charge, slope) = charge_and_slope(ph);
            if charge > 0.0 {
                low = ph
            } else {
                high = ph
            }
            let newton = ph - charge / slope;
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if (next - ph).abs() < 1e-9 {
                return Some(next);
            }
            ph = next;
        }
        Some(ph)
    }

    fn anions(&self, a: f64, g: &[f64; 4]) -> Anions {
        let mut sum = Anions { charge: 0.0, squared: 0.0, spread: 0.0 };
        for acid in &self.acids {
            let [k1, k2, k3] = acid.constants;
            let first = k1 / a;
            let second = first * k2 / a;
            let third = second * k3 / a;
            let [one, two, three] = [first / g[1], second / g[2], third / g[3]];
            let all = 1.0 + one + two + three;
            let mean = (one + 2.0 * two + 3.0 * three) / all;
            let mean_square = (one + 4.0 * two + 9.0 * three) / all;
            sum.charge += acid.molality * mean;
            sum.squared += acid.molality * mean_square;
            sum.spread += acid.molality * (mean_square - mean * mean);
        }
        sum
    }
}
