//! Density of water, of sugar in water, of ethanol in water, and of all of them together.

use crate::units::{MassDensity, MassFraction, Temperature, Volume, celsius, degrees_celsius, kg_per_m3};

use super::ethanol_water::{ethanol_water_kg_m3, pure_ethanol_kg_m3};
use super::ethanol_water_table::freezing_depression_k;
use super::phase::Phase;
use super::polynomial::{between_rows, horner};
use super::sugar_water::{sucrose_solution_kg_m3, sucrose_volume_ml_g, water_kg_m3};
use super::{Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "density";
/// Largest difference of OIML R 22 from the US Bureau of Standards determinations of 1913.
const SPIRIT_ERROR_KG_M3: f64 = 0.12;

/// Volume of the ethanol and water of a phase, mL.
///
/// The water of the sugar equation and that of the alcohol tables differ by up to 0.004 kg/m³ (0.02
/// below 0 °C). The difference is faded out in proportion to the ethanol, so that sugar in water is exactly SPS-4, ethanol
/// in water OIML R 22 to that, and the mixture of all three has no jump.
pub(super) fn spirit_volume_ml(phase: &Phase, t_c: f64) -> f64 {
    let water = water_kg_m3(t_c);
    if phase.ethanol <= 0.0 {
        return 1000.0 * phase.water / water;
    }
    let p = phase.ethanol_in_water();
    let density = ethanol_water_kg_m3(p, t_c) + (1.0 - p) * (water - ethanol_water_kg_m3(0.0, t_c));
    1000.0 * (phase.ethanol + phase.water) / density
}

/// Volume of a phase, mL: each kind of matter brings its apparent volume in water.
///
/// - sugars: SPS-4 for sucrose and what is treated like it; glucose and fructose `v0 + v1 W + v2 W²` at
///   20 °C, fitted to CRC 102nd ed. (2021), to 60 % and 48 %, density within 0.3 and 0.07 kg/m³, and at
///   other temperatures with sucrose's own change added (an assumption). `W` is the share of all
///   sugars in sugars and water, whatever ethanol is there (model A).
/// - glycerol 0.7673 + 0.0257 g² mL/g, g its share in glycerol and water (fitted to 1022.1, 1126.3 and 1261.1 kg/m³ at 10,
///   50 and 100 %), fat 1.09 mL/g (vegetable oil 920 kg/m³), acetic
///   acid 0.86 mL/g (solutions of 5 to 10 %): `from memory`.
/// - salt 0.2907 + 0.3600 s - 0.3403 s² mL/g, s its share in salt and water: fitted to the CRC densities of 1 to 26 % by mass at
///   20 °C (`from memory`), within 0.1 kg/m³.
/// - what is not dissolved 0.65 mL/g: cellulose, about 1500 kg/m³, `from memory`.
pub(super) fn volume_ml(phase: &Phase, t_c: f64) -> f64 {
    const GLUCOSE: [f64; 3] = [0.61895516, 0.02541750, 0.00347579];
    const FRUCTOSE: [f64; 3] = [0.61001042, 0.02617013, 0.00698380];
    const GLYCEROL: [f64; 3] = [0.7673, 0.0, 0.0257];
    const SALT: [f64; 3] = [0.29067, 0.36001, -0.34030];
    const ACETIC_ML_G: f64 = 0.86;
    const FAT_ML_G: f64 = 1.09;
    const UNDISSOLVED_ML_G: f64 = 0.65;

    let w = phase.sugar_in_water();
    let sucrose = sucrose_volume_ml_g(w, t_c);
    let mut volume = spirit_volume_ml(phase, t_c) + phase.sucrose_like * sucrose;
    let hexoses = phase.glucose + phase.fructose;
    if hexoses > 0.0 {
        let warmer = if t_c == 20.0 { 0.0 } else { sucrose - sucrose_volume_ml_g(w, 20.0) };
        volume += phase.glucose * horner(&GLUCOSE, w) + phase.fructose * horner(&FRUCTOSE, w) + hexoses * warmer;
    }
    if phase.glycerol > 0.0 {
        volume += phase.glycerol * horner(&GLYCEROL, phase.glycerol / (phase.glycerol + phase.water));
    }
    if phase.salt > 0.0 {
        volume += phase.salt * horner(&SALT, phase.salt / (phase.salt + phase.water));
    }
    volume + phase.acetic * ACETIC_ML_G + phase.fat * FAT_ML_G + phase.undissolved * UNDISSOLVED_ML_G
}

/// Density of pure water, 0 to 100 °C, ±0.01 kg/m³ (Kell on ITS-90).
pub fn water(temperature: Temperature) -> Result<Estimate<MassDensity>, OutOfRange> {
    let t_c = degrees_celsius(temperature);
    check_temperature(t_c, 0.0, 100.0, "water")?;
    Ok(Estimate::new(kg_per_m3(water_kg_m3(t_c)), kg_per_m3(0.01)))
}

/// Density of sucrose in water (ICUMSA SPS-4), 0 to 85 %, 0 to 80 °C (range `from memory`).
///
/// Checked: CRC table at 20 °C within 0.3 kg/m³ to 70 % and 0.9 to 84 % (the CRC figures descend from older
/// measurements), Laliberté 2009 at 15 to 55 °C within 0.3. Above 55 °C and 50 % there was nothing to check
/// against: 1 kg/m³ is stated there.
pub fn sucrose_solution(share: MassFraction, temperature: Temperature) -> Result<Estimate<MassDensity>, OutOfRange> {
    let (w, t_c) = (share.get(), degrees_celsius(temperature));
    check_temperature(t_c, 0.0, 80.0, "sugar in water")?;
    let value = kg_per_m3(sucrose_solution_kg_m3(w, t_c));
    Ok(graded(value, sugar_water_grade(w, t_c)))
}

/// Density of ethanol in water (OIML R 22), -20 to 40 °C and liquid.
///
/// Checked: alcoholometric tables within 0.005 kg/m³, US Bureau of Standards 1913 within 0.12, which is stated.
/// Where ice would form (freezing points: CRC 102nd ed.) it refuses.
pub fn ethanol_water(share: MassFraction, temperature: Temperature) -> Result<Estimate<MassDensity>, OutOfRange> {
    let (p, t_c) = (share.get(), degrees_celsius(temperature));
    check_spirit(p, t_c)?;
    Ok(Estimate::new(kg_per_m3(ethanol_water_kg_m3(p, t_c)), kg_per_m3(SPIRIT_ERROR_KG_M3)))
}

/// A stated error in kg/m³ and why the value is stretched, if it is.
type Grade = (f64, Option<&'static str>);

fn graded(value: MassDensity, (error, extrapolated): Grade) -> Estimate<MassDensity> {
    Estimate { value, error: kg_per_m3(error), extrapolated }
}

fn sugar_water_grade(w: f64, t_c: f64) -> Grade {
    match w {
        _ if w > 0.85 => (15.0, Some("the density of sugar in water is known to 85 %")),
        _ if w > 0.5 && t_c > 55.0 => (1.0, None),
        _ if w > 0.7 => (0.9, None),
        _ => (0.3, None),
    }
}

/// The same with glucose and fructose in it: their volumes were fitted to 60 and 48 %.
fn syrup_grade(phase: &Phase, t_c: f64) -> Grade {
    let w = phase.sugar_in_water();
    let (error, extrapolated) = sugar_water_grade(w, t_c);
    let hexoses = phase.glucose + phase.fructose > 0.0;
    (if hexoses && w > 0.48 { error.max(0.6) } else { error }, extrapolated)
}

/// The error of model A: 1 kg/m³ for 15 to 40 % alcohol and to 400 g/L of sugar, 2 elsewhere, from
/// sucrose-saturated spirits at 14 °C (Scheibler, `from memory`). It was checked near 20 °C only.
fn ternary_grade(phase: &Phase, volume_ml: f64, t_c: f64) -> Grade {
    let abv = 100.0 * 1000.0 * phase.ethanol / pure_ethanol_kg_m3(t_c) / volume_ml;
    let sugar_g_l = 1000.0 * phase.sugars() / volume_ml;
    let error = if (15.0..=40.0).contains(&abv) && sugar_g_l <= 400.0 { 1.0 } else { 2.0 };
    if phase.sugar_in_water() > 0.85 {
        (15.0, Some("sugar in a spirit with hardly any water has not been measured"))
    } else if (t_c - 20.0).abs() > 10.0 {
        (2.0, Some("the density of sugar in spirit is checked near 20 °C only"))
    } else {
        (error, None)
    }
}

fn check_temperature(t_c: f64, lowest: f64, highest: f64, what: &str) -> Result<(), OutOfRange> {
    if (lowest..=highest).contains(&t_c) {
        return Ok(());
    }
    Err(OutOfRange::new(PROPERTY, format!("{what} is known from {lowest} to {highest} °C; {t_c:.1} °C was asked for")))
}

fn check_spirit(p: f64, t_c: f64) -> Result<(), OutOfRange> {
    check_temperature(t_c, -20.0, 40.0, "ethanol in water")?;
    // Beyond the last row ice appears far below -20 °C.
    let frozen = t_c < 0.0 && between_rows(freezing_depression_k(), p).is_some_and(|depression| t_c < -depression);
    if frozen {
        return Err(OutOfRange::new(
            PROPERTY,
            format!("a spirit of {:.1} % by mass freezes above {t_c:.1} °C", 100.0 * p),
        ));
    }
    Ok(())
}

pub(super) fn of_phase(phase: &Phase, t_c: f64) -> Result<Estimate<MassDensity>, OutOfRange> {
    let total = phase.total();
    if !(total > 0.0 && total.is_finite()) {
        return Err(OutOfRange::new(PROPERTY, "there is nothing to weigh"));
    }
    if phase.sugars() + phase.salt + phase.undissolved > 0.95 * total {
        return Err(OutOfRange::new(PROPERTY, "this is a solid, not a solution"));
    }
    let spirit = phase.ethanol > 0.0;
    if spirit {
        check_spirit(phase.ethanol_in_water(), t_c)?;
    } else {
        check_temperature(t_c, 0.0, 80.0, "sugar in water")?;
    }
    let volume = volume_ml(phase, t_c);
    let grade = match (spirit, phase.sugars() > 0.0) {
        (true, true) => ternary_grade(phase, volume, t_c),
        (true, false) => (SPIRIT_ERROR_KG_M3, None),
        (false, true) => syrup_grade(phase, t_c),
        (false, false) => (0.01, None),
    };
    Ok(graded(kg_per_m3(1000.0 * total / volume), grade))
}

impl Mixture {
    /// Density of the mixture as it is, undissolved matter and fat included.
    ///
    /// Sugar in water: [`sucrose_solution`], exactly. Ethanol in water: [`ethanol_water`]. All three, model A:
    /// `V = (m_e + m_w)/rho(p) + m_s phi(b)`, `p` the ethanol in ethanol and water, `b` the sugar in
    /// sugar and water, `phi` the apparent volume of the sugar in water: exact in both limits, ±1 kg/m³
    /// for 15 to 40 % alcohol and to 400 g/L, ±2 elsewhere. Maltose, lactose, other carbohydrate, acids, dissolved
    /// protein, ash and what is not known are given sucrose's volume: an assumption that the stated
    /// error does not cover.
    ///
    /// Refused: nothing at all; a solid (more than 95 % that is not liquid by itself); without ethanol
    /// outside 0 to 80 °C; with ethanol outside -20 to 40 °C or frozen.
    pub fn density(&self, temperature: Temperature) -> Result<Estimate<MassDensity>, OutOfRange> {
        of_phase(&Phase::sorted(self), degrees_celsius(temperature))
    }

    /// Volume of the mixture, from its density.
    pub fn volume(&self, temperature: Temperature) -> Result<Estimate<Volume>, OutOfRange> {
        let density = self.density(temperature)?;
        let value = self.mass() / density.value;
        Ok(Estimate { value, error: value * (density.error / density.value), extrapolated: density.extrapolated })
    }

    /// Volume at 20 °C, to which strength, sugar and yield refer.
    pub(super) fn volume_at_20c(&self) -> Result<Estimate<Volume>, OutOfRange> {
        self.volume(celsius(20.0))
    }
}
