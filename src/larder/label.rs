//! Composition from what a label or an instrument says: strength, Brix, sugar, acid.

use crate::mixture::acidity::{Acid, juice};
use crate::mixture::alcohol::ETHANOL_G_PER_ML;
use crate::mixture::root::bracketed;
use crate::mixture::{Component, Mixture};
use crate::units::{MassFraction, Ph, celsius, in_kg_per_m3};

/// What the label says; what it does not say stays as in the ingredient that it is like.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct LabelFigures {
    /// Percent by volume at 20 °C.
    pub(crate) abv: Option<f64>,
    /// Dissolved solids, a share by mass.
    pub(crate) brix: Option<f64>,
    /// Sugars as weighed, g/L at 20 °C.
    pub(crate) sugar_g_l: Option<f64>,
    /// Titratable acid as citric, g/L at 20 °C.
    pub(crate) acid_g_l: Option<f64>,
    /// A reading of the pH. With the acid it tells how much of it the minerals hold; alone it tells nothing.
    pub(crate) ph: Option<Ph>,
}

impl LabelFigures {
    pub(crate) fn is_empty(&self) -> bool {
        Self { ph: None, ..*self } == Self::default()
    }

    /// Both readings that calibrate an acid: titratable acid, g/L, and pH.
    pub(crate) fn acid_and_ph(&self) -> Option<(f64, Ph)> {
        self.acid_g_l.zip(self.ph).filter(|(acid, _)| *acid > 0.0)
    }
}

/// Ash that may stand unseen behind a label with sugar or acid on it, grams in each gram: the juices and
/// unrefined sugars of the embedded table hold 0.002 to 0.008. It is counted as not accounted for, so that no pH
/// is computed from a label alone; it enters no other result. `common practice, no source`.
const UNSEEN_ASH: f64 = 0.005;

/// Temperature that a reading of pH is taken to stand for, °C: the constants of the acids and the buffers that a meter
/// is set by are stated at 25 °C. Had it been 20 °C, all acid of a lemon would be 0.01 g in 100 g less.
const READ_AT_C: f64 = 25.0;

/// Why there is no such liquid.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Impossible(pub(crate) String);

impl Impossible {
    fn because(why: &str) -> Self {
        Self(why.to_owned())
    }
}

/// One gram of what the label speaks of: `base` (one gram; water where it is like nothing) with what
/// the label says in place of its own.
///
/// At a trial density every figure on the label is a mass in one gram: ethanol `abv rho_e / rho`, sugars and
/// acid `g/L / rho`. What is dissolved and not on the label is scaled to the Brix, or stays; water fills the
/// gram. The density is the bracketed root at which the model gives back the trial. A strength alone gives the
/// composition of the OIML tables (R 22).
///
/// Acid and pH together are a calibration ([`juice::calibrate`]): they tell all acid, free and bound, and the cations
/// that hold the bound part, and both replace what the base had. More acid leaves less water, and that moves the
/// calibration a little: it is repeated until it stays.
pub(crate) fn composition(base: Option<&Mixture>, label: &LabelFigures) -> Result<Mixture, Impossible> {
    let water = Mixture::of(&[(Component::Water, 1.0)]);
    let mut groups = Base::of(base.unwrap_or(&water), label, base.is_some());
    let mut mixture = groups.closed(label)?;
    let Some((acid_g_l, ph)) = label.acid_and_ph() else { return Ok(mixture) };
    // Each round shrinks what is left by the share of acid in the juice: ten are far more than enough.
    for _ in 0..10 {
        let before = groups.calibrated.map_or(0.0, |c| c.acid_g);
        let calibrated = Calibrated::of(&mixture, acid_g_l, ph)?;
        groups.calibrated = Some(calibrated);
        mixture = groups.closed(label)?;
        if (calibrated.acid_g - before).abs() < 1e-9 {
            break;
        }
    }
    Ok(mixture)
}

/// What acid and pH tell of one gram.
#[derive(Clone, Copy)]
struct Calibrated {
    /// All acid, free and bound, grams.
    acid_g: f64,
    /// Cations that hold the bound part, equivalents.
    cations_eq: f64,
}

impl Calibrated {
    /// Of one gram that is nearly what was read: its water, density and kinds of acid count.
    fn of(mixture: &Mixture, acid_g_l: f64, ph: Ph) -> Result<Self, Impossible> {
        let kinds: Vec<(&Acid, f64)> = Component::ACIDS
            .into_iter()
            .filter_map(|c| Some((Acid::of_component(c)?, mixture.grams_of(c))))
            .filter(|(_, g)| *g > 0.0)
            .collect();
        let water = mixture.grams_of(Component::Water);
        let titratable = density_kg_m3(mixture).and_then(|rho| MassFraction::new(acid_g_l / rho));
        let (Some(titratable), Some(share)) = (titratable, MassFraction::new(water)) else {
            return Err(Impossible::because("the density of such a liquid is not known"));
        };
        let found =
            juice::calibrate(&kinds, titratable, ph, share, celsius(READ_AT_C)).map_err(|e| Impossible(e.why))?;
        Ok(Self { acid_g: found.acid_total.get(), cations_eq: found.strong_cation_eq_per_kg_water * water / 1000.0 })
    }
}

fn density_kg_m3(mixture: &Mixture) -> Option<f64> {
    mixture.density(celsius(20.0)).ok().map(|estimate| in_kg_per_m3(estimate.value))
}

/// The base in the groups that a label moves, each in one gram.
struct Base {
    /// What no label speaks of: undissolved, fat; and ethanol where the label gives none.
    fixed: Mixture,
    /// Sugars and acids, where the label gives their amount: only their kinds count.
    sugars: Mixture,
    acids: Mixture,
    /// The other dissolved solids: scaled to a Brix.
    free: Mixture,
    /// Whether minerals are unknown because there is nothing that it is like.
    unseen: bool,
    /// The acids and what holds them, where they were read.
    calibrated: Option<Calibrated>,
}

impl Base {
    fn of(base: &Mixture, label: &LabelFigures, is_like: bool) -> Self {
        let mut groups = Self {
            fixed: Mixture::EMPTY,
            sugars: Mixture::EMPTY,
            acids: Mixture::EMPTY,
            free: Mixture::EMPTY,
            unseen: !is_like && (label.brix.is_some() || label.sugar_g_l.is_some() || label.acid_g_l.is_some()),
            calibrated: None,
        };
        for &component in Component::ALL {
            let group = match component {
                Component::Water => continue,
                Component::Ethanol if label.abv.is_some() => continue,
                c if Component::SUGARS.contains(&c) && label.sugar_g_l.is_some() => &mut groups.sugars,
                c if Component::ACIDS.contains(&c) && label.acid_g_l.is_some() => &mut groups.acids,
                c if c.share_in_brix() > 0.0 => &mut groups.free,
                _ => &mut groups.fixed,
            };
            group.set_grams(component, base.grams_of(component));
        }
        let free = &mut groups.free;
        (free.bound_cations_eq, free.sodium_mol) = (base.bound_cations_eq, base.sodium_mol);
        if label.acid_g_l.is_some() && base.bound_cations_eq[0] == base.bound_cations_eq[2] {
            // Read beside another acid: beside this one they are in doubt again.
            let [low, middle, high] = juice::SHARE_HELD;
            free.bound_cations_eq = [low, middle, high].map(|k| k / middle * base.bound_cations_eq[1]);
        }
        (free.unaccounted_ash_g, free.unaccounted_cations_eq) = (base.unaccounted_ash_g, base.unaccounted_cations_eq);
        if groups.sugars.total_grams() == 0.0 {
            groups.sugars = Mixture::of(&[(Component::Sucrose, 1.0)]);
        }
        if groups.acids.total_grams() == 0.0 {
            groups.acids = Mixture::of(&[(Component::Citric, 1.0)]);
        }
        if label.brix.is_some() && groups.free.total_grams() == 0.0 {
            // The rest of the Brix is sugar, unless the sugar is known: then nobody knows what it is.
            let rest = if label.sugar_g_l.is_some() { Component::Other } else { Component::Sucrose };
            groups.free = Mixture::of(&[(rest, 1.0)]);
        }
        groups
    }

    /// One gram at the density that it has.
    fn closed(&self, label: &LabelFigures) -> Result<Mixture, Impossible> {
        let by_volume = label.abv.is_some() || label.sugar_g_l.is_some() || label.acid_g_l.is_some();
        let rho = if by_volume {
            let excess = |rho: f64| density_kg_m3(&self.liquid(label, rho).0).map_or(f64::NAN, |model| model - rho);
            // a litre of rich syrup has no room for its sugar at the density of spirit
            let lightest = (75..165).map(|rho| 10.0 * f64::from(rho)).find(|rho| excess(*rho).is_finite());
            bracketed(excess, lightest.unwrap_or(750.0), 1650.0, 1e-10)
                .map_err(|_| Impossible::because("the density of such a liquid is not known"))?
        } else {
            1000.0
        };
        let (mixture, water, scale) = self.liquid(label, rho);
        const ROUNDING: f64 = 1e-6;
        if scale < -ROUNDING {
            return Err(Impossible::because("its sugar and acid alone are more than its Brix"));
        }
        if water < -ROUNDING {
            return Err(Impossible::because("its alcohol, sugar and acid leave no room for water"));
        }
        Ok(mixture.per_gram())
    }

    /// The liquid at a trial density, with the water that it has room for and the scale of its free solids; what
    /// would be negative is left out of the mixture.
    fn liquid(&self, label: &LabelFigures, rho_kg_m3: f64) -> (Mixture, f64, f64) {
        let alone = |g_l: Option<f64>| g_l.unwrap_or(0.0) / rho_kg_m3;
        let ethanol = label.abv.map_or(0.0, |abv| abv / 100.0 * *ETHANOL_G_PER_ML * 1000.0 / rho_kg_m3);
        let sugars = self.sugars.per_gram() * alone(label.sugar_g_l);
        let kinds = self.acids.per_gram();
        // Titratable acid is less than the acid by what the minerals hold, and those scale with the free solids.
        let as_citric = kinds.titratable_acid_grams();
        let (acid_free, acid_bound) = match (self.calibrated, label.acid_g_l) {
            (Some(read), _) => (read.acid_g, 0.0),
            (None, Some(_)) => (alone(label.acid_g_l) / as_citric, -self.free.titratable_acid_grams() / as_citric),
            (None, None) => (0.0, 0.0),
        };
        let scale = label.brix.map_or(1.0, |brix| {
            let undissolved = self.fixed.grams_of_all(&Component::UNDISSOLVED);
            let others = sugars.solids_grams() + kinds.solids_grams() * acid_free;
            let each = self.free.solids_grams() + kinds.solids_grams() * acid_bound;
            (brix * (1.0 - undissolved) - others) / each
        });
        let taken = scale.max(0.0);
        let mut mixture = self.fixed + sugars + kinds * (acid_free + acid_bound * taken) + self.free * taken;
        mixture += Mixture::of(&[(Component::Ethanol, ethanol)]);
        let water = 1.0 - mixture.total_grams();
        mixture += Mixture::of(&[(Component::Water, water.max(0.0))]);
        if let Some(read) = self.calibrated {
            // The reading answers for every mineral and acid that no table lists, for the kinds of acid it cannot.
            mixture.bound_cations_eq = [read.cations_eq; 3];
            (mixture.unaccounted_ash_g, mixture.unaccounted_cations_eq) = (0.0, 0.0);
        }
        if self.unseen {
            mixture.unaccounted_ash_g += UNSEEN_ASH;
        }
        (mixture, water, scale)
    }
}
