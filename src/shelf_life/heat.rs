//! What a heating kills: D, z, the equivalent time P, and the published 5-log processes.
//!
//! Kernels in minutes and °C. A curve is a logged list of (minute, °C), taken as straight between readings.

use serde::Deserialize;

/// A logged heating: (minute, °C), in the order of time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve(pub Vec<(f64, f64)>);

impl Curve {
    /// Held at one temperature.
    pub fn hold(t_c: f64, minutes: f64) -> Self {
        Self(vec![(0.0, t_c), (minutes, t_c)])
    }

    /// (minutes, °C at the start, °C at the end) of every stretch. One that runs backwards, is no number or that no bottle
    /// could stand counts for nothing.
    fn stretches(&self) -> impl Iterator<Item = (f64, f64, f64)> {
        self.0
            .iter()
            .zip(self.0.iter().skip(1))
            .map(|(&(m1, t1), &(m2, t2))| (m2 - m1, t1, t2))
            .filter(|&(minutes, t1, t2)| minutes > 0.0 && minutes.is_finite() && t1.abs() < 300.0 && t2.abs() < 300.0)
    }
}

/// D at `t_c`: `D_ref · 10^((Tref-T)/z)`, the minutes for one log10.
pub fn d_at(t_c: f64, d_ref_min: f64, t_ref_c: f64, z_c: f64) -> f64 {
    d_ref_min * 10f64.powf((t_ref_c - t_c) / z_c)
}

/// The equivalent minutes at `t_ref_c`: `P = ∫ 10^((T-Tref)/z) dt`, in closed form for straight stretches. The beer
/// pasteurisation unit is P at 60 °C with z 7 K (the trade writes `1.393^(T-60)`, z 6.947 K: 3 % more at 72 °C).
pub fn equivalent_minutes(curve: &Curve, t_ref_c: f64, z_c: f64) -> f64 {
    let rate = |t: f64| 10f64.powf((t - t_ref_c) / z_c);
    curve
        .stretches()
        .map(|(minutes, t1, t2)| {
            if (t2 - t1).abs() < 1e-9 {
                minutes * rate(t1)
            } else {
                minutes * z_c / ((t2 - t1) * std::f64::consts::LN_10) * (rate(t2) - rate(t1))
            }
        })
        .sum()
}

/// Pasteurisation units: [`equivalent_minutes`] at 60 °C with z 7 K.
pub fn pasteurisation_units(curve: &Curve) -> f64 {
    equivalent_minutes(curve, 60.0, 7.0)
}

/// The log10 reduction of an organism with this D at `t_ref_c`.
pub fn log_reduction(curve: &Curve, d_ref_min: f64, t_ref_c: f64, z_c: f64) -> f64 {
    equivalent_minutes(curve, t_ref_c, z_c) / d_ref_min
}

/// The embedded processes.
#[derive(Debug, Deserialize)]
pub struct HeatProcesses {
    process: Vec<HeatProcess>,
    /// The most heat-resistant spoilage yeast.
    pub yeast: Resistance,
    /// The count that no heating goes below.
    pub recontamination: Recontamination,
    fill: Vec<Fill>,
}

/// A hold that is known to be enough.
#[derive(Debug, Deserialize)]
pub struct HeatProcess {
    /// What it is for.
    pub name: String,
    /// The highest pH that it is for; none where it stands for all above.
    pub ph_up_to: Option<f64>,
    t_ref_c: f64,
    f_ref_min: f64,
    z_below_c: f64,
    z_above_c: f64,
    low_c: f64,
    high_c: f64,
    /// Where it comes from.
    pub source: String,
}

/// D and z of an organism.
#[derive(Debug, Deserialize)]
pub struct Resistance {
    /// Which.
    pub name: String,
    /// The reference temperature.
    pub t_ref_c: f64,
    /// Minutes for one log10 there.
    pub d_ref_min: f64,
    /// Kelvin for ten times.
    pub z_c: f64,
}

/// log10 CFU/mL that gets in again on the way to the bottle (assumed).
#[derive(Debug, Deserialize)]
pub struct Recontamination {
    /// Filled hot and closed.
    pub hot_bottled: f64,
    /// Filled cold after heating.
    pub re_bottled: f64,
}

#[derive(Debug, Deserialize)]
struct Fill {
    ph: f64,
    c: f64,
}

impl HeatProcess {
    /// The hold at `t_c` in minutes; none below the range, and above it that of its upper end.
    pub fn hold_min(&self, t_c: f64) -> Option<f64> {
        (t_c >= self.low_c).then(|| {
            let t_c = t_c.min(self.high_c);
            let z_c = if t_c > self.t_ref_c { self.z_above_c } else { self.z_below_c };
            self.f_ref_min * 10f64.powf((self.t_ref_c - t_c) / z_c)
        })
    }

    /// How many times over a curve fulfils it. Between two readings the cooler one counts.
    pub fn fulfilled(&self, curve: &Curve) -> f64 {
        curve.stretches().filter_map(|(minutes, t1, t2)| Some(minutes / self.hold_min(t1.min(t2))?)).sum()
    }
}

impl HeatProcesses {
    /// The process for a product of this pH (at its cautious end; none where it is not known).
    pub fn for_ph(&self, cautious_ph: Option<f64>) -> Option<&HeatProcess> {
        self.process.iter().find(|p| match (p.ph_up_to, cautious_ph) {
            (Some(limit), Some(ph)) => ph <= limit,
            (Some(_), None) => false,
            (None, _) => true,
        })
    }

    /// The most severe process against vegetative pathogens (the row of the highest pH).
    pub fn severest_vegetative(&self) -> Option<&HeatProcess> {
        let row_ph = |p: &&HeatProcess| p.ph_up_to.unwrap_or(f64::NEG_INFINITY);
        self.process.iter().filter(|p| p.ph_up_to.is_some()).max_by(|a, b| row_ph(a).total_cmp(&row_ph(b)))
    }

    /// log10 N0 of a product after heating: never below what gets in again, never above what was there.
    pub fn count_after(&self, log10_n0: f64, curve: &Curve, hot_bottled: bool) -> f64 {
        let floor = if hot_bottled { self.recontamination.hot_bottled } else { self.recontamination.re_bottled };
        let reduction = log_reduction(curve, self.yeast.d_ref_min, self.yeast.t_ref_c, self.yeast.z_c);
        (log10_n0 - reduction).max(floor).min(log10_n0)
    }

    /// The lowest advised fill temperature in °C (extension advice, not law), the row of the next higher pH; none above
    /// pH 4.5, where no hot fill is enough.
    pub fn fill_c(&self, ph: f64) -> Option<f64> {
        self.fill.iter().rev().find(|row| ph <= row.ph).map(|row| row.c)
    }
}
