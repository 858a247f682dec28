//! The acids as data.
//!
//! Dissociation constants at 25 °C, ionic strength 0, molality scale. pK and enthalpy of citric,
//! phosphoric, acetic, tartaric and carbonic acid: NIST Standard Reference Database 46, as carried by
//! the MINTEQ v4 data file (US EPA/USGS), read; where the enthalpies differ in the last digit those of
//! Goldberg, Kishore and Lennen (J. Phys. Chem. Ref. Data 31:231, 2002, from memory) stand here. Malic:
//! Eden and Bates (J. Res. NBS 62:161, 1959), read. Lactic: the formula of Martin and Tartar (1937), read
//! second-hand. Succinic pK: two public tables, read; its enthalpy, all heat capacities and ascorbic
//! acid: from memory. Molar masses: IUPAC atomic weights.
//!
//! Trap: an older public list gives 5.60 for the third pK of citric acid; the modern value is 6.396.

use crate::mixture::Component;

/// One step of dissociation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// pK at 25 °C and ionic strength 0.
    pub pk_25c: f64,
    /// Enthalpy (J/mol) and heat capacity (J/mol/K) of the step; where they are not known the pK is taken
    /// as the same at every temperature.
    pub heat: Option<(f64, f64)>,
}

const fn step(pk_25c: f64, dh_kj_per_mol: f64, dcp_j_per_mol_k: f64) -> Step {
    Step { pk_25c, heat: Some((dh_kj_per_mol * 1000.0, dcp_j_per_mol_k)) }
}

const fn step_without_heat(pk_25c: f64) -> Step {
    Step { pk_25c, heat: None }
}

/// An acid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Acid {
    /// The name that is printed.
    pub name: &'static str,
    /// The component of a mixture that it is; none for carbonic acid, which only the buffers that check
    /// the model hold.
    pub component: Option<Component>,
    /// Molar mass, g/mol, without water of crystallisation.
    pub molar_mass: f64,
    /// Protons that count in titratable acidity to pH 8.1. All of them, but: one of ascorbic acid (the
    /// second has pK 11.6), and of phosphoric acid the share that the charge balance gives at pH 8.1 for
    /// 0.05 mol per kg of water at 25 °C (1.937 to 1.953 from 0.02 to 0.3 mol/kg).
    pub titrated_protons: f64,
    /// A carboxylic acid: its pK rises with ethanol.
    pub carboxylic: bool,
    /// The steps, the strongest first.
    pub steps: &'static [Step],
}

const fn acid(
    name: &'static str,
    component: Option<Component>,
    molar_mass: f64,
    titrated_protons: f64,
    steps: &'static [Step],
) -> Acid {
    Acid { name, component, molar_mass, titrated_protons, carboxylic: false, steps }
}

impl Acid {
    const fn carboxylic(self) -> Self {
        Self { carboxylic: true, ..self }
    }

    /// Grams that give one mole of protons to pH 8.1.
    pub(crate) fn grams_per_equivalent(&self) -> f64 {
        self.molar_mass / self.titrated_protons
    }

    pub(crate) fn of_component(component: Component) -> Option<&'static Self> {
        ALL.iter().copied().find(|acid| acid.component == Some(component))
    }

    /// The acid with this name.
    pub fn named(name: &str) -> Option<&'static Self> {
        ALL.iter().copied().find(|acid| acid.name == name)
    }
}

pub(crate) const ALL: [&Acid; 9] =
    [&CITRIC, &MALIC, &TARTARIC, &ACETIC, &LACTIC, &ASCORBIC, &SUCCINIC, &PHOSPHORIC, &CARBONIC];

/// Citric acid.
pub const CITRIC: Acid = acid(
    "citric",
    Some(Component::Citric),
    192.1235,
    3.0,
    &[step(3.128, 4.07, -131.0), step(4.761, 2.23, -178.0), step(6.396, -3.38, -254.0)],
)
.carboxylic();

/// Malic acid.
pub const MALIC: Acid =
    acid("malic", Some(Component::Malic), 134.0874, 2.0, &[step(3.459, 2.95, -155.0), step(5.097, -1.18, -221.0)])
        .carboxylic();

/// Tartaric acid.
pub const TARTARIC: Acid =
    acid("tartaric", Some(Component::Tartaric), 150.0868, 2.0, &[step(3.036, 3.19, -147.0), step(4.366, 0.93, -218.0)])
        .carboxylic();

/// Acetic acid.
pub const ACETIC: Acid =
    acid("acetic", Some(Component::Acetic), 60.052, 1.0, &[step(4.757, -0.41, -142.0)]).carboxylic();

/// Lactic acid.
pub const LACTIC: Acid =
    acid("lactic", Some(Component::Lactic), 90.0779, 1.0, &[step(3.857, -0.43, -173.0)]).carboxylic();

/// Ascorbic acid. Sources disagree on its first pK (4.04 or 4.17); its heats are not known here.
pub(crate) const ASCORBIC: Acid =
    acid("ascorbic", Some(Component::Ascorbic), 176.1241, 1.0, &[step_without_heat(4.17), step_without_heat(11.57)]);

pub(crate) const SUCCINIC: Acid =
    acid("succinic", Some(Component::Succinic), 118.088, 2.0, &[step(4.207, 3.0, -121.0), step(5.636, -0.5, -217.0)])
        .carboxylic();

/// Phosphoric acid.
pub const PHOSPHORIC: Acid = acid(
    "phosphoric",
    Some(Component::Phosphoric),
    97.9952,
    1.948,
    &[step(2.148, -8.0, -141.0), step(7.198, 3.6, -230.0), step(12.375, 16.0, -242.0)],
);

/// Carbonic acid; its first pK is that of dissolved carbon dioxide and carbonic acid together.
pub(crate) const CARBONIC: Acid =
    acid("carbonic", None, 62.0248, 1.0, &[step(6.352, 9.15, -371.0), step(10.329, 14.7, -249.0)]);
