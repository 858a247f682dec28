//! The organisms that spoil bottles, and how doubtful their constants are. The values, each with its status and source,
//! stand in `data/organisms.toml`; initial counts and lag are the weakest of them: both are assumed.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::growth;

/// The whole table.
#[derive(Debug, Deserialize)]
pub struct Organisms {
    /// The level that counts as spoiled.
    pub model: SpoilageLevel,
    /// How far the draws scatter.
    pub uncertainty: Scatter,
    organism: BTreeMap<String, OrganismRow>,
    preservative: Preservatives,
}

#[derive(Debug, Deserialize)]
struct Preservatives {
    #[serde(rename = "acetic_pH4")]
    acetic: AceticAtPh4,
}

/// The acetic acid to which growth was seen at pH 4, in percent.
#[derive(Debug, Deserialize)]
struct AceticAtPh4 {
    #[serde(rename = "SC_growth_to_pct")]
    sc: f64,
    #[serde(rename = "ZB_growth_to_pct")]
    zb: f64,
}

/// pK of acetic acid (from memory).
pub(crate) const ACETIC_PK: f64 = 4.76;

/// Spoiled, and the end of growth, log10 CFU/mL.
#[derive(Debug, Deserialize)]
pub struct SpoilageLevel {
    /// Gas and off-flavour are noticed.
    pub log10_ncrit: f64,
    /// Growth ends.
    pub log10_nmax: f64,
}

/// Standard deviations of the draws.
#[derive(Debug, Deserialize)]
pub struct Scatter {
    pub storage_t_sd_fridge: f64,
    pub storage_t_sd_room: f64,
    pub ph_sd: f64,
    pub aw_sd: f64,
    pub log10_n0_sd: f64,
    pub log10_ncrit_sd: f64,
    pub ln_h0_sd: f64,
    pub ln_mu_opt_sd: f64,
    pub ln_model_bias_sd: f64,
    pub t_min_sd: f64,
    pub ph_min_sd: f64,
}

#[derive(Debug, Deserialize)]
struct Constant {
    v: f64,
    sd: Option<f64>,
    n: Option<f64>,
    ln_sd: Option<f64>,
}

/// Some entries are notes only: no rate is known, so they cannot be modelled.
#[derive(Debug, Deserialize)]
struct OrganismRow {
    name: String,
    mu_opt: Option<Constant>,
    t_min: Option<Constant>,
    t_opt: Option<Constant>,
    t_max: Option<Constant>,
    ph_min: Option<Constant>,
    ph_opt: Option<Constant>,
    ph_max: Option<Constant>,
    aw_min: Option<Constant>,
    aw_opt: Option<Constant>,
    ethanol_max: Option<Constant>,
}

/// One organism with a rate. °C, 1/h, g of ethanol per litre.
#[derive(Clone, Debug, PartialEq)]
pub struct Organism {
    pub code: &'static str,
    pub name: &'static str,
    pub mu_opt: f64,
    pub t_min: f64,
    pub t_opt: f64,
    pub t_max: f64,
    pub ph_min: f64,
    pub ph_opt: f64,
    pub ph_max: f64,
    pub aw_min: f64,
    pub aw_min_sd: f64,
    pub aw_opt: f64,
    pub ethanol_max: f64,
    pub ethanol_n: f64,
    pub ethanol_ln_sd: f64,
}

/// The four that have a rate, in the order in which the draws take them.
pub(crate) const MODELLED: [&str; 4] = ["SC", "ZB", "ZR", "LP"];

impl Organisms {
    /// The organisms with a rate.
    ///
    /// # Panics
    /// Where one of them lacks a constant in the embedded table.
    pub fn modelled(&'static self) -> [Organism; 4] {
        MODELLED.map(|code| self.one(code).unwrap_or_else(|| panic!("organisms.toml: {code} lacks a constant")))
    }

    /// Undissociated acetic acid to which each of those with a rate was seen to grow, in percent; none for those of which that is
    /// not known: nothing holds them back.
    pub(crate) fn acetic_pct(&self) -> [Option<f64>; 4] {
        let undissociated = growth::undissociated(4.0, ACETIC_PK);
        let AceticAtPh4 { sc, zb } = self.preservative.acetic;
        [Some(sc), Some(zb), None, None].map(|total: Option<f64>| total.map(|pct| pct * undissociated))
    }

    fn one(&'static self, code: &'static str) -> Option<Organism> {
        let entry = self.organism.get(code)?;
        let value = |c: &Option<Constant>| c.as_ref().map(|c| c.v);
        let (aw_min, ethanol) = (entry.aw_min.as_ref()?, entry.ethanol_max.as_ref()?);
        Some(Organism {
            code,
            name: &entry.name,
            mu_opt: value(&entry.mu_opt)?,
            t_min: value(&entry.t_min)?,
            t_opt: value(&entry.t_opt)?,
            t_max: value(&entry.t_max)?,
            ph_min: value(&entry.ph_min)?,
            ph_opt: value(&entry.ph_opt)?,
            ph_max: value(&entry.ph_max)?,
            aw_min: aw_min.v,
            aw_min_sd: aw_min.sd?,
            aw_opt: value(&entry.aw_opt)?,
            ethanol_max: ethanol.v,
            ethanol_n: ethanol.n?,
            ethanol_ln_sd: ethanol.ln_sd?,
        })
    }
}

impl Organism {
    /// The growth rate in 1/h by the rules of a date (see [`growth`]). An unknown pH counts as the optimum.
    pub fn rate_per_h(&self, t_c: f64, ph: Option<f64>, aw: f64, ethanol_g_per_l: f64) -> f64 {
        self.mu_opt
            * growth::ctmi_for_a_date(t_c, self.t_min, self.t_opt, self.t_max)
            * growth::cpm_for_a_date(ph, self.ph_min, self.ph_opt, self.ph_max)
            * growth::water_activity(aw, self.aw_min, self.aw_opt)
            * growth::ethanol(ethanol_g_per_l, self.ethanol_max, self.ethanol_n)
    }
}
