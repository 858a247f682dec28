//! The uncertainty of everything that a date hangs on, drawn many times over. Each draw has one store temperature, one pH, one
//! initial count…; the first organism to spoil it and the first quality to go give its two times.

use std::num::NonZero;
use std::panic::resume_unwind;

use super::ceilings::Quality;
use super::decay;
use super::draws::normals;
use crate::mixture::alcohol::ETHANOL_G_PER_ML;

use super::organisms::{Organism, Organisms};
use super::time_to_level::{Population, hours_to_level};

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

/// One product at one store, in the numbers that the model takes.
#[derive(Clone, Debug)]
pub struct Conditions {
    /// °C of the store.
    pub t_c: f64,
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
    /// What goes stale, if that is known.
    pub quality: Option<&'static Quality>,
}

/// What the draws gave, in days. Infinite where nothing grew.
#[derive(Clone, Debug, PartialEq)]
#[expect(missing_docs, reason = "quantiles, by their usual names")]
pub struct Spread {
    pub micro: Quantiles,
    pub quality: Option<Quantiles>,
    /// 5 % quantile of the earlier of the two in each draw.
    pub joint_q05: f64,
    /// The earlier of the two at every whole percent, 0 to 100.
    pub lives: Vec<f64>,
    /// Quality alone at every whole percent.
    pub stale: Vec<f64>,
    pub p_no_growth: f64,
    /// The code of the organism that was first most often, and in what share of the draws.
    pub first: Option<(&'static str, f64)>,
}

/// Quantiles of a time in days.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(missing_docs, reason = "quantiles, by their usual names")]
pub struct Quantiles {
    pub q05: f64,
    pub q10: f64,
    pub q25: f64,
    pub q50: f64,
    pub q95: f64,
}

/// The order statistic at or below a share: never later than an interpolated one.
fn order_statistic(sorted: &[f64], p: f64) -> f64 {
    let index = (p * sorted.len().saturating_sub(1) as f64).floor() as usize;
    sorted.get(index).copied().unwrap_or(0.0)
}

impl Quantiles {
    fn from_sorted(sorted: &[f64]) -> Self {
        let at = |p: f64| order_statistic(sorted, p);
        Self { q05: at(0.05), q10: at(0.10), q25: at(0.25), q50: at(0.50), q95: at(0.95) }
    }
}

/// The scatter of a store's temperature: 1 K in a fridge (5 °C and below), 2 K in a room (20 °C and above), straight in
/// between. The two ends are assumed; the line is ours: a step would let a warmer store be colder in an unlucky draw.
pub fn store_sd(t_c: f64, fridge_sd: f64, room_sd: f64) -> f64 {
    fridge_sd + (room_sd - fridge_sd) * ((t_c - 5.0) / 15.0).clamp(0.0, 1.0)
}

/// Seven common slots, five for each of the four organisms, one for quality.
const SLOTS: usize = 7 + 5 * 4 + 1;

/// (days to spoilage, the organism, days to staleness)
type DrawOutcome = (f64, Option<usize>, f64);

fn one_draw(z: &[f64; SLOTS], c: &Conditions, table: &Organisms, organisms: &[Organism; 4]) -> DrawOutcome {
    let u = &table.uncertainty;
    let [z_t, z_ph, z_aw, z_n0, z_level, z_h0, z_bias, of_organisms @ .., z_quality] = z;
    let t_c = c.t_c + z_t * store_sd(c.t_c, u.storage_t_sd_fridge, u.storage_t_sd_room);
    let ph = c.ph.map(|ph| ph + z_ph * c.ph_sd.max(u.ph_sd));
    let aw = (c.aw + z_aw * c.aw_sd.max(u.aw_sd)).min(1.0);
    let population = Population {
        log10_n0: c.log10_n0 + z_n0 * u.log10_n0_sd,
        log10_nmax: table.model.log10_nmax,
        h0: c.h0 * (z_h0 * u.ln_h0_sd).exp(),
    };
    // a level drawn at or above the end of growth would never be reached: favourable, so not allowed
    let level = (table.model.log10_ncrit + z_level * u.log10_ncrit_sd).min(table.model.log10_nmax - 0.1);
    let bias = (z_bias * u.ln_model_bias_sd).exp();

    let mut first = (f64::INFINITY, None);
    for (i, (organism, z)) in organisms.iter().zip(of_organisms.chunks_exact(5)).enumerate() {
        let [z_mu, z_t_min, z_ph_min, z_aw_min, z_ethanol] = z else { continue };
        let drawn = Organism {
            mu_opt: organism.mu_opt * (z_mu * u.ln_mu_opt_sd).exp() * bias,
            t_min: organism.t_min + z_t_min * u.t_min_sd,
            ph_min: organism.ph_min + z_ph_min * u.ph_min_sd,
            aw_min: organism.aw_min + z_aw_min * organism.aw_min_sd,
            ethanol_max: organism.ethanol_max * (z_ethanol * organism.ethanol_ln_sd).exp(),
            ..*organism
        };
        let rate = drawn.rate_per_h(t_c, ph, aw, 10.0 * c.abv_pct * *ETHANOL_G_PER_ML);
        let days = hours_to_level(rate, population, level) / 24.0;
        if days < first.0 {
            first = (days, Some(i));
        }
    }
    let stale = c.quality.map_or(f64::INFINITY, |q| {
        q.days * (z_quality * q.ln_sd).exp() / decay::arrhenius(q.ea_kj_per_mol * 1000.0, q.t_ref_c, t_c)
    });
    (first.0, first.1, stale)
}

fn spread(outcomes: &[DrawOutcome], c: &Conditions, organisms: &[Organism; 4]) -> Spread {
    let sorted = |time: fn(&DrawOutcome) -> f64| {
        let mut times: Vec<f64> = outcomes.iter().map(time).collect();
        times.sort_unstable_by(f64::total_cmp);
        times
    };
    let percents = |times: &[f64]| (0..=100).map(|p| order_statistic(times, f64::from(p) / 100.0)).collect();
    let (earlier, stale) = (sorted(|o| o.0.min(o.2)), sorted(|o| o.2));
    let n = outcomes.len().max(1) as f64;
    let share = |which: Option<usize>| outcomes.iter().filter(|o| o.1 == which).count() as f64 / n;
    let first = (0..organisms.len()).map(|i| (i, share(Some(i)))).max_by(|a, b| a.1.total_cmp(&b.1));
    Spread {
        micro: Quantiles::from_sorted(&sorted(|o| o.0)),
        quality: c.quality.map(|_| Quantiles::from_sorted(&stale)),
        joint_q05: Quantiles::from_sorted(&earlier).q05,
        lives: percents(&earlier),
        stale: percents(&stale),
        p_no_growth: share(None),
        first: first.filter(|f| f.1 > 0.0).and_then(|(i, share)| Some((organisms.get(i)?.code, share))),
    }
}

/// Fewer draws than this are made where they are asked for.
const FEW_DRAWS: u32 = 2000;

/// The spread for each of several conditions, all from the same draws. Uses the cores there are; the digits do not depend
/// on how many.
pub fn simulate(conditions: &[Conditions], table: &'static Organisms, settings: Draws) -> Vec<Spread> {
    let organisms = table.modelled();
    // To ask for the cores and to start a thread takes longer than a few draws.
    let cores = match settings.draws {
        ..FEW_DRAWS => 1,
        _ => std::thread::available_parallelism().map_or(1, NonZero::get).min(64) as u32,
    };
    let block = settings.draws.div_ceil(cores).max(1);
    let run = |from: u32, to: u32| -> Vec<Vec<DrawOutcome>> {
        let mut outcomes: Vec<_> = conditions.iter().map(|_| Vec::with_capacity((to - from) as usize)).collect();
        for draw in from..to {
            let z = normals::<SLOTS>(settings.seed, u64::from(draw));
            for (outcome, c) in outcomes.iter_mut().zip(conditions) {
                outcome.push(one_draw(&z, c, table, &organisms));
            }
        }
        outcomes
    };
    let run = &run;
    let blocks: Vec<_> = if cores == 1 {
        vec![run(0, settings.draws)]
    } else {
        std::thread::scope(|scope| {
            let starts = (0..settings.draws).step_by(block as usize);
            let handles: Vec<_> = starts
                .map(|from| scope.spawn(move || run(from, from.saturating_add(block).min(settings.draws))))
                .collect();
            handles.into_iter().map(|handle| handle.join().unwrap_or_else(|why| resume_unwind(why))).collect()
        })
    };
    let mut all: Vec<Vec<DrawOutcome>> = conditions.iter().map(|_| Vec::new()).collect();
    for outcomes in blocks {
        let outcomes: Vec<Vec<DrawOutcome>> = outcomes;
        for (all, outcomes) in all.iter_mut().zip(outcomes) {
            all.extend(outcomes);
        }
    }
    all.iter().zip(conditions).map(|(outcomes, c)| spread(outcomes, c, &organisms)).collect()
}
