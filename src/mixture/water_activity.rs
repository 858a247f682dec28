//! Water activity: an estimate, and a cautious value that is not exceeded.

use crate::units::{Temperature, WaterActivity, in_kelvins};

use super::{Component, Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "water activity";
const WATER_G_PER_MOL: f64 = 18.015;
const ETHANOL_G_PER_MOL: f64 = 46.068;
const ZERO_C_K: f64 = 273.15;

/// How strongly a solute holds water: K of Norrish, `ln aw = ln xw - K xs²`.
#[derive(Clone, Copy)]
enum Hold {
    /// Starzak and Peacock's equation for sucrose, as a K that changes with share and temperature.
    Sucrose,
    Norrish(f64),
}

#[derive(Clone, Copy)]
struct Solute {
    component: Component,
    g_per_mol: f64,
    /// Particles for each formula unit.
    particles: f64,
    hold: Hold,
    /// Whether it is surely there as small molecules: only such matter lowers the cautious value.
    certain: bool,
}

const fn solute(component: Component, g_per_mol: f64, particles: f64, hold: Hold, certain: bool) -> Solute {
    Solute { component, g_per_mol, particles, hold, certain }
}

/// K: Norrish 1966 and Ferro Fontán, Chirife and Boquet 1981, as carried by public codes (glucose `from memory`);
/// maltose checked with sucrose's K, lactose taken like it. Acids have K = 0 (ideal, the drier direction is not
/// claimed) and salt its two ions with K = 0: assumptions. Sugars of kinds not told, other carbohydrate and what is not known are
/// counted as disaccharides in the estimate and not at all in the cautious value; protein and ash in neither.
const SOLUTES: [Solute; 18] = [
    solute(Component::Sucrose, 342.297, 1.0, Hold::Sucrose, true),
    solute(Component::Glucose, 180.156, 1.0, Hold::Norrish(2.25), true),
    solute(Component::Fructose, 180.156, 1.0, Hold::Norrish(2.15), true),
    solute(Component::Maltose, 342.297, 1.0, Hold::Norrish(6.47), true),
    solute(Component::Lactose, 342.297, 1.0, Hold::Norrish(6.47), true),
    solute(Component::Glycerol, 92.094, 1.0, Hold::Norrish(1.16), true),
    solute(Component::Salt, 58.44, 2.0, Hold::Norrish(0.0), true),
    solute(Component::Citric, 192.12, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Malic, 134.09, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Tartaric, 150.09, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Acetic, 60.05, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Lactic, 90.08, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Ascorbic, 176.12, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Succinic, 118.09, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Phosphoric, 97.99, 1.0, Hold::Norrish(0.0), true),
    solute(Component::Sugars, 342.297, 1.0, Hold::Norrish(6.47), false),
    solute(Component::OtherCarbohydrate, 342.297, 1.0, Hold::Norrish(6.47), false),
    solute(Component::Other, 342.297, 1.0, Hold::Norrish(6.47), false),
];

impl Hold {
    /// K at a mole fraction of all solutes and a temperature.
    ///
    /// Starzak and Peacock: `ln aw = ln(1-x) + Q/(RT) x² (1 + a x + b x²)`, Q = -17638 J/mol, a = -1.0038,
    /// b = -0.24653; so K = `-Q/(RT) (1 + a x + b x²)`.
    fn k(self, x: f64, t_k: f64) -> f64 {
        const Q_J_PER_MOL: f64 = -17638.0;
        const R_J_PER_MOL_K: f64 = 8.3145;
        const A: f64 = -1.0038;
        const B: f64 = -0.24653;
        match self {
            Self::Sucrose => -Q_J_PER_MOL / (R_J_PER_MOL_K * t_k) * (1.0 + x * (A + B * x)),
            Self::Norrish(k) => k,
        }
    }
}

/// What is dissolved in the water of a mixture, in moles.
pub(super) struct AqueousSolution {
    water_mol: f64,
    solute_mol: [f64; SOLUTES.len()],
}

impl AqueousSolution {
    pub(super) fn of(mixture: &Mixture) -> Option<Self> {
        let water_mol = mixture.grams_of(Component::Water) / WATER_G_PER_MOL;
        let solute_mol = SOLUTES.map(|s| s.particles * mixture.grams_of(s.component) / s.g_per_mol);
        let sum: f64 = solute_mol.iter().sum();
        (water_mol > 0.0 && (water_mol + sum).is_finite()).then_some(Self { water_mol, solute_mol })
    }

    fn certain(&self) -> Self {
        let surely = |i: usize| if SOLUTES[i].certain { self.solute_mol[i] } else { 0.0 };
        Self { water_mol: self.water_mol, solute_mol: std::array::from_fn(surely) }
    }

    /// The linear rule: `ln aw = ln xw - K xs²`, K the mean of the solutes' K by moles (Ferro Fontán, Chirife,
    /// Boquet 1981, form `from memory`). One solute alone keeps its own K.
    pub(super) fn linear(&self, t_k: f64) -> f64 {
        let solute_mol: f64 = self.solute_mol.iter().sum();
        if solute_mol <= 0.0 {
            return 1.0;
        }
        let x = solute_mol / (solute_mol + self.water_mol);
        let k = self.solute_mol.iter().zip(SOLUTES).map(|(mol, s)| mol / solute_mol * s.hold.k(x, t_k)).sum::<f64>();
        alone(x, k)
    }

    /// Ross 1975: the product of what each solute would give alone in all the water (form `from memory`).
    /// It errs high, which is the cautious side.
    pub(super) fn ross(&self, t_k: f64) -> f64 {
        let each = self.solute_mol.iter().zip(SOLUTES).filter(|(mol, _)| **mol > 0.0);
        each.map(|(mol, s)| {
            let x = mol / (mol + self.water_mol);
            alone(x, s.hold.k(x, t_k))
        })
        .product()
    }
}

fn alone(x: f64, k: f64) -> f64 {
    (1.0 - x) * (-k * x * x).exp()
}

/// Activity coefficients of ethanol and water, van Laar:
/// `ln g_w = A_we [A_ew x_e/(A_ew x_e + A_we x_w)]²`, `ln g_e` the other way round.
pub(super) fn van_laar(x_ethanol: f64, a_ew: f64, a_we: f64) -> (f64, f64) {
    let (e, w) = (a_ew * x_ethanol, a_we * (1.0 - x_ethanol));
    let sum = e + w;
    ((a_ew * (w / sum).powi(2)).exp(), (a_we * (e / sum).powi(2)).exp())
}

/// Mole fraction of ethanol in the ethanol and water of a mixture; 0 where there is neither.
pub(super) fn ethanol_mole_fraction(mixture: &Mixture) -> f64 {
    let ethanol = mixture.grams_of(Component::Ethanol) / ETHANOL_G_PER_MOL;
    let water = mixture.grams_of(Component::Water) / WATER_G_PER_MOL;
    if ethanol > 0.0 { ethanol / (ethanol + water) } else { 0.0 }
}

/// Activity of water beside ethanol alone. A_ew and A_we fitted to modified UNIFAC (Dortmund) at 20 and 25 °C,
/// between them linear, beyond them held.
fn beside_ethanol(x_ethanol: f64, t_k: f64) -> f64 {
    let s = ((t_k - ZERO_C_K - 20.0) / 5.0).clamp(0.0, 1.0);
    let (_, gamma) = van_laar(x_ethanol, 1.5255 + s * (1.5503 - 1.5255), 0.9441 + s * (0.9510 - 0.9441));
    ((1.0 - x_ethanol) * gamma).min(1.0)
}

/// Water activity with its cautious bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoundedActivity {
    /// The best estimate and its error.
    pub estimate: Estimate<WaterActivity>,
    /// The cautious value that safety uses: never below the estimate.
    pub upper: WaterActivity,
}

impl Mixture {
    /// Water activity, -10 to 110 °C.
    ///
    /// Sucrose alone: Starzak and Peacock (measured freezing points within 0.0004). Several solutes: the linear
    /// rule as the estimate; the cautious value is the larger of it and Ross's product, plus the error.
    /// Stated: 0.002 to 70 % of solids, 0.006 with glycerol (0.010 above half), 0.03 above 70 %, where the equations
    /// disagree, and never less than the two rules differ. With ethanol the product with the activity beside
    /// ethanol, ±0.03: not tested by any measurement, for display and not for safety.
    pub fn water_activity(&self, temperature: Temperature) -> Result<BoundedActivity, OutOfRange> {
        let t_k = in_kelvins(temperature);
        OutOfRange::check_celsius(PROPERTY, -10.0..=110.0, t_k - ZERO_C_K)?;
        let solution = AqueousSolution::of(self).ok_or_else(|| OutOfRange::new(PROPERTY, "there is no water"))?;
        let certain = solution.certain();
        let x_ethanol = ethanol_mole_fraction(self);
        let ethanol = beside_ethanol(x_ethanol, t_k);
        let linear = solution.linear(t_k);
        let cautious = linear.max(certain.linear(t_k)).max(certain.ross(t_k));
        let (own_error, extrapolated) = self.activity_grade(x_ethanol > 0.0);
        let value = ethanol * linear;
        Ok(BoundedActivity {
            estimate: Estimate {
                value: WaterActivity::saturating(value),
                error: WaterActivity::saturating(own_error.max(ethanol * (cautious - linear))),
                extrapolated,
            },
            upper: WaterActivity::saturating(ethanol * cautious + own_error),
        })
    }

    fn activity_grade(&self, ethanol: bool) -> (f64, Option<&'static str>) {
        let water = self.grams_of(Component::Water);
        let share = |g: f64| g / (g + water);
        if ethanol {
            return (
                0.03,
                Some("with ethanol for display only: no measurement of a sweet spirit was there to test it"),
            );
        }
        if share(self.solids_grams()) > 0.7 {
            return (0.03, Some("above 70 % of solids the equations disagree"));
        }
        match share(self.grams_of(Component::Glycerol)) {
            glycerol if glycerol > 0.5 => (0.010, None),
            glycerol if glycerol > 0.0 => (0.006, None),
            _ => (0.002, None),
        }
    }
}
