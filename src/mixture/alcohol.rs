//! Strength: by volume, by mass, in US proof, and what happens when spirits are mixed.

use std::sync::LazyLock;

use crate::units::{
    Abv, Mass, MassDensity, MassFraction, Temperature, Volume, celsius, degrees_celsius, grams, in_grams, in_kg_per_m3,
    in_millilitres, millilitres,
};

use super::ethanol_water::{ethanol_water_kg_m3, pure_ethanol_kg_m3};
use super::root::bracketed;
use super::{Component, Estimate, Mixture, OutOfRange};

/// 20 °C: percent by volume of OIML R 22 and of EU law.
const STANDARD_C: f64 = 20.0;
/// 60 °F: US proof (27 CFR 30.11).
const SIXTY_FAHRENHEIT_C: f64 = 140.0 / 9.0;
const TOLERANCE: f64 = 1e-12;

/// Pure ethanol at 20 °C, g/ml: what percent by volume refers to (OIML R 22; its formula gives 0.78924).
pub(crate) static ETHANOL_G_PER_ML: LazyLock<f64> = LazyLock::new(|| pure_ethanol_kg_m3(STANDARD_C) / 1000.0);

/// Ethanol by volume, 0 to 1, in a spirit of the mass fraction `p`: `q = p rho(p)/rho(1)`.
fn volume_fraction(p: f64, t_c: f64) -> f64 {
    p * ethanol_water_kg_m3(p, t_c) / pure_ethanol_kg_m3(t_c)
}

fn mass_fraction_at(volume_fraction_wanted: f64, t_c: f64) -> MassFraction {
    let wanted = volume_fraction_wanted.clamp(0.0, 1.0);
    // q runs from 0 to 1 with p, so this is always bracketed; the ends are their own answer.
    let p = bracketed(|p| volume_fraction(p, t_c) - wanted, 0.0, 1.0, TOLERANCE).unwrap_or(wanted);
    MassFraction::saturating(p)
}

/// Mass fraction of ethanol in a spirit of this strength.
pub fn mass_fraction_of(strength: Abv) -> MassFraction {
    mass_fraction_at(strength.get() / 100.0, STANDARD_C)
}

/// Percent by volume at 20 °C of a spirit with this mass fraction of ethanol.
pub fn abv_of(share: MassFraction) -> Abv {
    Abv::saturating(100.0 * volume_fraction(share.get(), STANDARD_C))
}

/// Strength of the water and alcohol of a mixture without all else, % vol at 20 °C: what acids feel and what burns.
/// Higher than the strength of a sweetened drink, so limits that are held against it are cautious.
pub fn solvent_abv(mixture: &Mixture) -> Abv {
    let (water, ethanol) = (mixture.grams_of(Component::Water), mixture.grams_of(Component::Ethanol));
    abv_of(MassFraction::saturating(if ethanol > 0.0 { ethanol / (water + ethanol) } else { 0.0 }))
}

/// Percent by volume at 60 °F: half the US proof. Up to 0.07 points below the percent at 20 °C.
pub fn percent_at_60f(share: MassFraction) -> f64 {
    100.0 * volume_fraction(share.get(), SIXTY_FAHRENHEIT_C)
}

/// US proof: twice the percent by volume at 60 °F (27 CFR 30.11).
pub fn proof_of(share: MassFraction) -> f64 {
    2.0 * percent_at_60f(share)
}

/// Mass fraction of ethanol in a spirit of this US proof; none outside 0 to 200.
pub fn mass_fraction_of_proof(proof: f64) -> Option<MassFraction> {
    (0.0..=200.0).contains(&proof).then(|| mass_fraction_at(proof / 200.0, SIXTY_FAHRENHEIT_C))
}

/// Mass fraction of ethanol in a spirit, from its density at a temperature: what an alcoholometer does.
/// Sugar must not be there. Error: 0.1 kg/m³ is 0.03 to 0.1 points of mass percent.
pub fn mass_fraction_of_density(density: MassDensity, temperature: Temperature) -> Result<MassFraction, OutOfRange> {
    let (rho, t_c) = (in_kg_per_m3(density), degrees_celsius(temperature));
    let refusal = |why: String| OutOfRange { property: "strength", why };
    // Below 0 °C the density of weak spirit is not monotonic, and such spirit is ice.
    if !(0.0..=40.0).contains(&t_c) {
        return Err(refusal(format!("a spirit is read between 0 and 40 °C, not at {t_c:.1} °C")));
    }
    bracketed(|p| ethanol_water_kg_m3(p, t_c) - rho, 0.0, 1.0, TOLERANCE).map(MassFraction::saturating).map_err(|end| {
        refusal(format!("no spirit weighs {rho:.1} kg/m³: {:.1} to {:.1} do", end.at_hi + rho, end.at_lo + rho))
    })
}

/// The pure alcohol in a volume, at 20 °C.
pub fn pure_alcohol(volume: Volume, strength: Abv) -> Volume {
    volume * (strength.get() / 100.0)
}

/// How much smaller the mixture is than its ethanol and water apart: 0.035 is 3.5 %.
///
/// ```
/// use stillroom::mixture::alcohol::contraction;
/// use stillroom::units::{MassFraction, celsius};
///
/// let at_its_largest = contraction(MassFraction::saturating(0.466), celsius(20.0)).unwrap();
/// assert!((at_its_largest - 0.0355).abs() < 5e-5);
/// ```
pub fn contraction(share: MassFraction, temperature: Temperature) -> Result<f64, OutOfRange> {
    let mixed = in_kg_per_m3(super::density::ethanol_water(share, temperature)?.value);
    let t_c = degrees_celsius(temperature);
    let p = share.get();
    let apart = p / pure_ethanol_kg_m3(t_c) + (1.0 - p) / ethanol_water_kg_m3(0.0, t_c);
    Ok(1.0 - 1.0 / (mixed * apart))
}

/// A strong and a weak spirit (or water) mixed to a strength between them, at 20 °C.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpiritBlend {
    /// The strong one.
    pub strong_mass: Mass,
    /// The strong one, by volume.
    pub strong_volume: Volume,
    /// The weak one.
    pub weak_mass: Mass,
    /// The weak one, by volume.
    pub weak_volume: Volume,
    /// What they make.
    pub volume: Volume,
    /// How much less that is than the two volumes added.
    pub contraction: Volume,
}

/// The exact blend: masses of water and of ethanol add, volumes do not.
/// None if the target is not between the two strengths.
///
/// ```
/// use stillroom::mixture::alcohol::blend;
/// use stillroom::units::{Abv, in_millilitres, millilitres};
///
/// let abv = Abv::saturating;
/// let made = blend(abv(63.0), abv(0.0), abv(40.0), millilitres(1000.0)).unwrap();
/// assert!((in_millilitres(made.strong_volume) - 400.0 / 0.63).abs() < 0.01);
/// assert!(in_millilitres(made.contraction) > 10.0);
/// ```
pub fn blend(strong: Abv, weak: Abv, target: Abv, make: Volume) -> Option<SpiritBlend> {
    let between = weak < strong && weak <= target && target <= strong;
    if !between {
        return None;
    }
    let [p_strong, p_weak, p] = [strong, weak, target].map(|abv| mass_fraction_of(abv).get());
    let rho = |p: f64| ethanol_water_kg_m3(p, STANDARD_C) / 1000.0;
    let mass_g = in_millilitres(make) * rho(p);
    let strong_g = mass_g * (p - p_weak) / (p_strong - p_weak);
    let weak_g = mass_g - strong_g;
    let (strong_ml, weak_ml) = (strong_g / rho(p_strong), weak_g / rho(p_weak));
    Some(SpiritBlend {
        strong_mass: grams(strong_g),
        strong_volume: millilitres(strong_ml),
        weak_mass: grams(weak_g),
        weak_volume: millilitres(weak_ml),
        volume: make,
        contraction: millilitres(strong_ml + weak_ml - in_millilitres(make)),
    })
}

/// What two volumes at 20 °C really make: the strength and the volume.
pub fn mix_volumes(strong: Abv, strong_volume: Volume, weak: Abv, weak_volume: Volume) -> (Abv, Volume) {
    let mass = |abv: Abv, volume: Volume| {
        let p = mass_fraction_of(abv).get();
        (p, in_millilitres(volume) * ethanol_water_kg_m3(p, STANDARD_C) / 1000.0)
    };
    let ((p1, g1), (p2, g2)) = (mass(strong, strong_volume), mass(weak, weak_volume));
    let total = g1 + g2;
    let p = if total > 0.0 { (p1 * g1 + p2 * g2) / total } else { 0.0 };
    (abv_of(MassFraction::saturating(p)), millilitres(1000.0 * total / ethanol_water_kg_m3(p, STANDARD_C)))
}

/// The Pearson square as the trade draws it: parts by volume of the strong and of the weak one,
/// as if volumes added, and the strength that these parts really give.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PearsonSquare {
    /// Parts by volume of the strong one: target less weak.
    pub strong_parts: f64,
    /// Parts by volume of the weak one: strong less target.
    pub weak_parts: f64,
    /// The strength that these parts really give.
    pub gives: Abv,
}

/// The Pearson square of strengths. None if the target is not between them.
///
/// ```
/// use stillroom::mixture::alcohol::pearson_square;
/// use stillroom::units::Abv;
///
/// let square = pearson_square(Abv::saturating(63.0), Abv::saturating(0.0), Abv::saturating(40.0)).unwrap();
/// assert_eq!((square.strong_parts, square.weak_parts), (40.0, 23.0));
/// assert!(square.gives.get() > 40.0, "volumes shrink");
/// ```
pub fn pearson_square(strong: Abv, weak: Abv, target: Abv) -> Option<PearsonSquare> {
    let strong_parts = target.get() - weak.get();
    let weak_parts = strong.get() - target.get();
    if strong_parts < 0.0 || weak_parts < 0.0 || strong_parts + weak_parts <= 0.0 {
        return None;
    }
    let (gives, _) = mix_volumes(strong, millilitres(strong_parts), weak, millilitres(weak_parts));
    Some(PearsonSquare { strong_parts, weak_parts, gives })
}

impl Mixture {
    /// Percent alcohol by volume at 20 °C. From known masses it errs by the density alone: ±0.05 points
    /// where model A is at its best.
    pub fn abv(&self) -> Result<Estimate<Abv>, OutOfRange> {
        let fraction = self.volume_fraction_of_ethanol(STANDARD_C)?;
        Ok(Estimate {
            value: Abv::saturating(100.0 * fraction.value),
            error: Abv::saturating(100.0 * fraction.error),
            extrapolated: fraction.extrapolated,
        })
    }

    /// US proof: twice the percent by volume at 60 °F.
    pub fn us_proof(&self) -> Result<Estimate<f64>, OutOfRange> {
        let fraction = self.volume_fraction_of_ethanol(SIXTY_FAHRENHEIT_C)?;
        Ok(Estimate {
            value: 200.0 * fraction.value,
            error: 200.0 * fraction.error,
            extrapolated: fraction.extrapolated,
        })
    }

    /// Alcohol by mass of the whole; an empty mixture has none.
    pub fn abw(&self) -> MassFraction {
        MassFraction::saturating(self.per_gram().grams_of(Component::Ethanol))
    }

    fn volume_fraction_of_ethanol(&self, t_c: f64) -> Result<Estimate<f64>, OutOfRange> {
        let ethanol_g = self.grams_of(Component::Ethanol);
        if ethanol_g == 0.0 {
            return Ok(Estimate::new(0.0, 0.0));
        }
        let density = self.density(celsius(t_c))?;
        let rho = in_kg_per_m3(density.value);
        let value = ethanol_g / in_grams(self.mass()) * rho / pure_ethanol_kg_m3(t_c);
        Ok(Estimate { value, error: value * in_kg_per_m3(density.error) / rho, extrapolated: density.extrapolated })
    }
}
