//! The components sorted by how they behave in the liquid: what density and refraction need of a mixture.

use super::{Component, Mixture};

#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Phase {
    pub water: f64,
    pub ethanol: f64,
    /// Sucrose, and dissolved matter of which no volume or refraction is known: given sucrose's.
    pub sucrose_like: f64,
    pub glucose: f64,
    pub fructose: f64,
    pub glycerol: f64,
    pub salt: f64,
    pub acetic: f64,
    pub fat: f64,
    pub undissolved: f64,
}

impl Phase {
    pub(super) fn sorted(mixture: &Mixture) -> Self {
        let mut phase = Self::default();
        for &component in Component::ALL {
            let g = mixture.grams_of(component);
            match component {
                Component::Water => phase.water = g,
                Component::Ethanol => phase.ethanol = g,
                Component::Glucose => phase.glucose = g,
                Component::Fructose => phase.fructose = g,
                Component::Glycerol => phase.glycerol = g,
                Component::Salt => phase.salt = g,
                Component::Acetic => phase.acetic = g,
                Component::Fat => phase.fat = g,
                _ => {
                    let dissolved = component.share_in_brix();
                    phase.sucrose_like += dissolved * g;
                    phase.undissolved += (1.0 - dissolved) * g;
                }
            }
        }
        phase
    }

    /// The liquid alone, as it stands on the prism of a refractometer: no fat, nothing undissolved.
    pub(super) fn clear(self) -> Self {
        Self { fat: 0.0, undissolved: 0.0, ..self }
    }

    /// Dissolved sugars and what is treated like them.
    pub(super) fn sugars(&self) -> f64 {
        self.sucrose_like + self.glucose + self.fructose
    }

    /// `b`: sugars as a share of sugars and water, 0 where there is neither.
    pub(super) fn sugar_in_water(&self) -> f64 {
        share(self.sugars(), self.water)
    }

    /// `p`: ethanol as a share of ethanol and water, 0 where there is neither.
    pub(super) fn ethanol_in_water(&self) -> f64 {
        share(self.ethanol, self.water)
    }

    pub(super) fn total(&self) -> f64 {
        self.water
            + self.ethanol
            + self.sugars()
            + self.glycerol
            + self.salt
            + self.acetic
            + self.fat
            + self.undissolved
    }
}

fn share(part: f64, rest: f64) -> f64 {
    if part > 0.0 { part / (part + rest) } else { 0.0 }
}
