//! The doubt of everything that growth hangs on, drawn many times over. Each draw has one store temperature, one pH, one
//! initial count…; the first organism to reach the level that counts as spoiled gives its time.
//!
//! What a draw takes from its luck alone is kept for the seed; what no store changes is reckoned once for all stores.

use std::sync::{Arc, LazyLock, Mutex};

use super::data;
use super::draws::normals;
use super::growth;
use super::organisms::{ACETIC_PK, MODELLED, Organism};
use crate::mixture::alcohol::ETHANOL_G_PER_ML;

/// How many draws, and from which seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draws {
    /// Draws.
    pub draws: u32,
    /// The seed: the same seed gives the same digits.
    pub seed: u64,
}

impl Draws {
    /// For what does not hang on the digits of a date.
    pub(crate) const FEW: Self = Self { draws: 20, seed: 20261125 };
}

impl Default for Draws {
    fn default() -> Self {
        Self { draws: 20_000, ..Self::FEW }
    }
}

/// One product, in the numbers that the model takes.
#[derive(Clone, Copy, Debug)]
pub struct Conditions {
    /// pH; unknown counts as the optimum.
    pub ph: Option<f64>,
    /// Its standard deviation; never less than the model's own.
    pub ph_sd: f64,
    /// Water activity.
    pub aw: f64,
    /// Its standard deviation; never less than the model's own.
    pub aw_sd: f64,
    /// % vol.
    pub abv_pct: f64,
    /// log10 CFU/mL at the start.
    pub log10_n0: f64,
    /// mu · lag.
    pub h0: f64,
    /// Which of the organisms can grow at all, in the order of the table.
    pub grow: [bool; 4],
}

/// The days to spoilage of every draw in one store, and which organism was first. Infinite where nothing grew.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lives {
    days: Vec<f64>,
    first: Vec<Option<u8>>,
}

impl Lives {
    /// The time by which a share of the draws is spoiled: the order statistic at or below it, never later than an
    /// interpolated one. No draws give no days.
    pub fn quantile(&self, share: f64) -> f64 {
        let mut days = self.days.clone();
        let place = (share.clamp(0.0, 1.0) * days.len().saturating_sub(1) as f64).floor() as usize;
        if days.is_empty() {
            return 0.0;
        }
        *days.select_nth_unstable_by(place, f64::total_cmp).1
    }

    /// The times at which 0, 1, 2 … 100 % are spoiled.
    pub fn percents(&self) -> Vec<f64> {
        let mut days = self.days.clone();
        days.sort_unstable_by(f64::total_cmp);
        let last = days.len().saturating_sub(1) as f64;
        let nth = |p: u32| days.get((f64::from(p) / 100.0 * last).floor() as usize).copied();
        (0..=100).map(|p| nth(p).unwrap_or(f64::INFINITY)).collect()
    }

    /// The share of draws in which nothing grew.
    pub fn never(&self) -> f64 {
        self.days.iter().filter(|d| d.is_infinite()).count() as f64 / self.days.len().max(1) as f64
    }

    /// The code of the organism that was first most often, and in what share of the draws.
    pub fn first(&self) -> Option<(&'static str, f64)> {
        let mut counts = [0_usize; 4];
        for place in self.first.iter().flatten() {
            counts[usize::from(*place)] += 1;
        }
        let (place, most) = counts.iter().enumerate().max_by_key(|(_, n)| **n)?;
        (*most > 0).then(|| (MODELLED[place], *most as f64 / self.days.len() as f64))
    }
}

/// The scatter of a store's temperature: 1 K in a fridge (5 °C and below), 2 K in a room (20 °C and above), straight in
/// between. The two ends are assumed; the line is ours: a step would let a warmer store be colder in an unlucky draw.
pub fn store_sd(t_c: f64, fridge_sd: f64, room_sd: f64) -> f64 {
    fridge_sd + (room_sd - fridge_sd) * ((t_c - 5.0) / 15.0).clamp(0.0, 1.0)
}

/// Seven common slots, five for each of the four organisms, one that is free (a draw keeps its place in the stream).
const SLOTS: usize = 7 + 5 * 4 + 1;

/// What a draw takes from its luck alone.
#[derive(Clone, Copy)]
struct Luck {
    t: f64,
    ph: f64,
    aw: f64,
    n0: f64,
    level: f64,
    /// Factor on h0.
    h0: f64,
    /// The constants of the organisms as drawn, with the common error of the model in their rate.
    organisms: [DrawnOrganism; 4],
}

#[derive(Clone, Copy, Default)]
struct DrawnOrganism {
    mu_opt: f64,
    t_min: f64,
    ph_min: f64,
    aw_min: f64,
    ethanol_max: f64,
}

fn luck(seed: u64, draw: u64) -> Luck {
    let u = &data::tables().organisms.uncertainty;
    let z = normals::<SLOTS>(seed, draw);
    let [z_t, z_ph, z_aw, z_n0, z_level, z_h0, z_bias, of_organisms @ .., _] = &z;
    let bias = (z_bias * u.ln_model_bias_sd).exp();
    let mut organisms = [DrawnOrganism::default(); 4];
    for ((drawn, organism), z) in organisms.iter_mut().zip(modelled()).zip(of_organisms.chunks_exact(5)) {
        *drawn = DrawnOrganism {
            mu_opt: organism.mu_opt * (z[0] * u.ln_mu_opt_sd).exp() * bias,
            t_min: organism.t_min + z[1] * u.t_min_sd,
            ph_min: organism.ph_min + z[2] * u.ph_min_sd,
            aw_min: organism.aw_min + z[3] * organism.aw_min_sd,
            ethanol_max: organism.ethanol_max * (z[4] * organism.ethanol_ln_sd).exp(),
        };
    }
    Luck { t: *z_t, ph: *z_ph, aw: *z_aw, n0: *z_n0, level: *z_level, h0: (z_h0 * u.ln_h0_sd).exp(), organisms }
}

fn modelled() -> &'static [Organism; 4] {
    static ORGANISMS: LazyLock<[Organism; 4]> = LazyLock::new(|| data::tables().organisms.modelled());
    &ORGANISMS
}

/// The luck of the first draws of a seed, kept for the seed that was asked for last.
fn lucks(settings: Draws) -> Arc<Vec<Luck>> {
    static KEPT: Mutex<(u64, Option<Arc<Vec<Luck>>>)> = Mutex::new((0, None));
    let mut kept = KEPT.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    let have = kept.1.clone().filter(|_| kept.0 == settings.seed);
    if let Some(lucks) = have.as_ref().filter(|lucks| lucks.len() >= settings.draws as usize) {
        return lucks.clone();
    }
    let mut lucks = have.map_or_else(Vec::new, |lucks| lucks.to_vec());
    lucks.extend((lucks.len() as u64..u64::from(settings.draws)).map(|draw| luck(settings.seed, draw)));
    let lucks = Arc::new(lucks);
    *kept = (settings.seed, Some(lucks.clone()));
    lucks
}

/// The lives of a product in each of several stores (°C), all from the same draws.
pub fn simulate(product: &Conditions, stores_c: &[f64], settings: Draws) -> Vec<Lives> {
    simulate_with_acetic(product, 0.0, stores_c, settings)
}

/// The same with acetic acid in it, g per 100 g: the undissociated share of it slows those of which it is known. It counts on the whole of
/// the product and not on its water, in which there is more of it.
pub(crate) fn simulate_with_acetic(
    product: &Conditions,
    acetic_pct: f64,
    stores_c: &[f64],
    settings: Draws,
) -> Vec<Lives> {
    let table = &data::tables().organisms;
    let u = &table.uncertainty;
    let grows_to = table.acetic_pct();
    let draws = settings.draws as usize;
    let mut lives: Vec<Lives> =
        stores_c.iter().map(|_| Lives { days: Vec::with_capacity(draws), first: Vec::with_capacity(draws) }).collect();
    let scatter: Vec<f64> = stores_c.iter().map(|&t| store_sd(t, u.storage_t_sd_fridge, u.storage_t_sd_room)).collect();
    let (ph_sd, aw_sd) = (product.ph_sd.max(u.ph_sd), product.aw_sd.max(u.aw_sd));
    let ethanol = 10.0 * product.abv_pct * *ETHANOL_G_PER_ML;
    for luck in lucks(settings).iter().take(draws) {
        let log10_n0 = product.log10_n0 + luck.n0 * u.log10_n0_sd;
        // a level drawn at or above the end of growth would never be reached: favourable, so not allowed
        let level = (table.model.log10_ncrit + luck.level * u.log10_ncrit_sd).min(table.model.log10_nmax - 0.1);
        let work = growth_to(log10_n0, table.model.log10_nmax, product.h0 * luck.h0, level);
        let ph = product.ph.map(|ph| ph + luck.ph * ph_sd);
        let aw = (product.aw + luck.aw * aw_sd).min(1.0);
        // of an unknown pH nobody knows how much of the acid is one
        let acetic = ph.map_or(0.0, |ph| acetic_pct * growth::undissociated(ph, ACETIC_PK));
        // the rate of each organism but for the temperature
        let mut rates = [0.0; 4];
        for (place, (rate, organism)) in rates.iter_mut().zip(modelled()).enumerate() {
            if product.grow[place] {
                let drawn = &luck.organisms[place];
                *rate = drawn.mu_opt
                    * growth::cpm_for_a_date(ph, drawn.ph_min, organism.ph_opt, organism.ph_max)
                    * growth::water_activity(aw, drawn.aw_min, organism.aw_opt)
                    * growth::ethanol(ethanol, drawn.ethanol_max, organism.ethanol_n)
                    * grows_to[place].map_or(1.0, |pct| growth::weak_acid(acetic, pct));
            }
        }
        for ((lives, &t_c), sd) in lives.iter_mut().zip(stores_c).zip(&scatter) {
            let t = t_c + luck.t * sd;
            let mut fastest = (0.0, None);
            for (place, organism) in modelled().iter().enumerate() {
                if rates[place] > fastest.0 {
                    let drawn = &luck.organisms[place];
                    let rate = rates[place] * growth::ctmi_for_a_date(t, drawn.t_min, organism.t_opt, organism.t_max);
                    if rate > fastest.0 {
                        fastest = (rate, Some(place as u8));
                    }
                }
            }
            lives.days.push(if work <= 0.0 { 0.0 } else { work / fastest.0 / 24.0 });
            lives.first.push(fastest.1);
        }
    }
    lives
}

/// Growth to be done until a level is reached, in units of rate × hours: see [`super::time_to_level`].
fn growth_to(log10_n0: f64, log10_nmax: f64, h0: f64, level: f64) -> f64 {
    let population = super::time_to_level::Population { log10_n0, log10_nmax, h0 };
    super::time_to_level::hours_to_level(1.0, population, level)
}
