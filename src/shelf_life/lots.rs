//! Not every lot has the yeast. In which share of lots it is present, how many cells there are, and which organisms can
//! grow at all, by how the product was filled and what is in it. Every figure is ours; beside them: bottlers' sugar has at
//! most 10 yeasts in 10 g, retail powder 100 in 10 g, a light muscovado 100 in a gram.

use super::hurdles::Hurdles;
use super::product::{Filled, Product};
use super::simulate::{Conditions, Draws, Lives, simulate};
use super::warmth::StageWarmth;

/// At and above this strength nothing of the model grows, % vol.
const NO_GROWTH_ABV: f64 = 20.0;
/// Saccharomyces stops here, Delle units; that speaks of wine yeast only.
const NO_WINE_YEAST_DELLE: f64 = 85.0;
/// The share of all lots by which growth decides.
pub(crate) const DECIDING_SHARE: f64 = 0.10;
/// The model's own scatter of pH lies below the upper bound by so much.
const PH_BELOW_UPPER: f64 = 0.1;

/// The lots of a product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lots {
    /// The share of lots that have the yeast.
    pub present: f64,
    /// log10 CFU/mL in those.
    pub log10_n0: f64,
    /// mu · lag.
    pub h0: f64,
    /// Which can grow: SC, ZB, ZR, LP.
    pub grow: [bool; 4],
}

impl Lots {
    /// `None` where growth says nothing: too strong, mostly raw juice (no model may date it), no sugar, dried, or so clean
    /// that fewer than one lot in ten could show it.
    pub fn of(product: &Product, hurdles: &Hurdles) -> Option<Self> {
        let s = product.raw_juice.clamp(0.0, 1.0);
        if hurdles.abv >= NO_GROWTH_ABV || s >= 0.5 || product.contents.dried {
            return None;
        }
        let sweet = product.sugar_g_l >= 5.0 || s > 0.0;
        let wine_yeast = sweet && hurdles.delle < NO_WINE_YEAST_DELLE;
        let grow = [wine_yeast, sweet, sweet, product.contents.nutrient];
        let (mut present, mut log10_n0) = match product.filled {
            Filled::HotClosed => (0.02, -1.0),
            Filled::HotClean => (0.20, 0.0),
            Filled::Cold => (0.30, 0.5),
            Filled::ColdPlant => (0.60, 1.5),
            Filled::Raw => (1.0, 3.5 + s.max(0.003).log10()),
        };
        if product.opened {
            present = f64::max(present, 0.4);
            log10_n0 = f64::max(log10_n0, 0.0);
        }
        (present > 0.10 && grow.contains(&true)).then_some(Self { present, log10_n0, h0: 3.0, grow })
    }

    pub(crate) fn conditions(&self, product: &Product, hurdles: &Hurdles) -> Conditions {
        Conditions {
            ph: hurdles.ph_up.map(|ph| ph - PH_BELOW_UPPER),
            ph_sd: 0.0,
            aw: product.aw.filter(|aw| aw.is_finite()).unwrap_or(1.0),
            aw_sd: 0.0,
            abv_pct: hurdles.abv,
            log10_n0: self.log10_n0,
            h0: self.h0,
            grow: self.grow,
        }
    }

    /// The time by which a share of ALL lots shows growth, from the lives of those that have the yeast.
    pub fn of_all(&self, lives: &Lives, share: f64) -> f64 {
        if share > self.present { f64::INFINITY } else { lives.quantile(share / self.present) }
    }

    pub(crate) fn of_all_percents(&self, percents: &[f64], percent: u32) -> f64 {
        let among = f64::from(percent) / self.present;
        percents.get(among.floor() as usize).copied().filter(|_| among <= 100.0).unwrap_or(f64::INFINITY)
    }
}

/// A strength that lies no further from that of the bottle, % vol, is the same but for its doubt (ours).
const SAME_ABV: f64 = 1.0;

/// The share of a life that the warm stages of a product have used up: their hours over the life at their own temperature,
/// by the same share of lots. Two middle rates in its place would set one yeast's against another's, and near the coldest
/// temperature at which any grows take a whole life for hours that a warmer store hardly feels.
pub(crate) fn warm_share(product: &Product, lots: &Lots, conditions: &Conditions, draws: Draws) -> f64 {
    let stages = product.stages.iter().filter(|s| s.warm_and_stable());
    let (own, as_bottled): (Vec<&StageWarmth>, Vec<&StageWarmth>) =
        stages.partition(|s| (s.abv - conditions.abv_pct).abs() > SAME_ABV);
    let temperatures: Vec<f64> = as_bottled.iter().map(|s| s.t_c).collect();
    let lives = simulate(conditions, &temperatures, draws);
    let of_life = |s: &StageWarmth, lives: &Lives| s.hours / 24.0 / lots.of_all(lives, DECIDING_SHARE);
    let used: f64 = as_bottled.iter().zip(&lives).map(|(s, lives)| of_life(s, lives)).sum();
    // fruit that stood in strong spirit used up nothing, whatever it was let down with later
    let grew = own.into_iter().filter(|s| s.abv < NO_GROWTH_ABV);
    let used_then = grew.map(|s| {
        let then = Conditions { abv_pct: s.abv, ..*conditions };
        simulate(&then, &[s.t_c], draws).iter().map(|lives| of_life(s, lives)).sum::<f64>()
    });
    (used + used_then.sum::<f64>()).min(1.0)
}

/// What a bar calls an organism of the table.
pub(crate) fn trade_name(code: &str) -> &'static str {
    match code {
        "SC" => "a fermenting yeast",
        "LP" => "lactic bacteria",
        _ => "a sugar-loving yeast",
    }
}
