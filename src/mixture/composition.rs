//! A mixture as masses of components. Everything here adds and scales, so mass is kept exactly.

use std::ops::{Add, AddAssign, Mul};

use crate::units::{Mass, grams};

macro_rules! components {
    ($($name:ident = $key:literal $words:literal,)*) => {
        /// What an ingredient is made of.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Component {
            $(#[doc = $words] $name,)*
        }

        impl Component {
            /// All of them, in the order in which a [`Mixture`] keeps them.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];
            const COUNT: usize = Self::ALL.len();

            /// The name used in `per_100g`.
            pub fn key(self) -> &'static str {
                match self { $(Self::$name => $key,)* }
            }

            pub(crate) fn words(self) -> &'static str {
                match self { $(Self::$name => $words,)* }
            }
        }
    };
}

components! {
    Water = "water" "water",
    Ethanol = "ethanol" "ethanol",
    Sucrose = "sucrose" "sucrose",
    Glucose = "glucose" "glucose",
    Fructose = "fructose" "fructose",
    Maltose = "maltose" "maltose",
    Lactose = "lactose" "lactose",
    Sugars = "sugars" "sugars of kinds not told",
    OtherCarbohydrate = "other_carbohydrate" "other dissolved carbohydrate",
    Glycerol = "glycerol" "glycerol",
    Fibre = "fibre" "fibre (not dissolved)",
    Insoluble = "insoluble" "insoluble matter",
    Citric = "citric" "citric acid",
    Malic = "malic" "malic acid",
    Tartaric = "tartaric" "tartaric acid",
    Acetic = "acetic" "acetic acid",
    Lactic = "lactic" "lactic acid",
    Ascorbic = "ascorbic" "ascorbic acid",
    Succinic = "succinic" "succinic acid",
    Phosphoric = "phosphoric" "phosphoric acid",
    Salt = "salt" "salt",
    Protein = "protein" "protein",
    Fat = "fat" "fat",
    Ash = "ash" "ash (minerals)",
    Other = "other" "other, not known",
}

impl Component {
    /// The sugars as weighed: what `[target] sugar` means.
    pub(crate) const SUGARS: [Self; 6] =
        [Self::Sucrose, Self::Glucose, Self::Fructose, Self::Maltose, Self::Lactose, Self::Sugars];
    /// The acids.
    pub const ACIDS: [Self; 8] = [
        Self::Citric,
        Self::Malic,
        Self::Tartaric,
        Self::Acetic,
        Self::Lactic,
        Self::Ascorbic,
        Self::Succinic,
        Self::Phosphoric,
    ];
    pub(crate) const UNDISSOLVED: [Self; 2] = [Self::Fibre, Self::Insoluble];
    /// What stays behind when a part is strained out: what does not dissolve, and the fat and protein of nuts,
    /// which hold no spirit. A nut milk carries some of both over; how much was not found (an assumption).
    pub(crate) const STAYS_IN_STRAINER: [Self; 4] = [Self::Fibre, Self::Insoluble, Self::Fat, Self::Protein];
    /// The component with this key.
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|c| c.key() == key)
    }

    /// The share of it that counts as dissolved non-volatile solids in Brix. Acetic acid is volatile;
    /// about half of the protein of a juice is dissolved (rule checked against the average Brix of
    /// juices in 19 CFR 151.91).
    pub(crate) fn share_in_brix(self) -> f64 {
        match self {
            Self::Water | Self::Ethanol | Self::Fat | Self::Fibre | Self::Insoluble | Self::Acetic => 0.0,
            Self::Protein => 0.5,
            _ => 1.0,
        }
    }
}

/// A mineral that the pH of a juice depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Mineral {
    Potassium,
    Sodium,
    Calcium,
    Magnesium,
    Phosphorus,
}

impl Mineral {
    pub(crate) const ALL: [Self; 5] = [Self::Potassium, Self::Sodium, Self::Calcium, Self::Magnesium, Self::Phosphorus];

    /// The name used in `per_100g`, in milligrams.
    pub(crate) fn key(self) -> &'static str {
        match self {
            Self::Potassium => "potassium_mg",
            Self::Sodium => "sodium_mg",
            Self::Calcium => "calcium_mg",
            Self::Magnesium => "magnesium_mg",
            Self::Phosphorus => "phosphorus_mg",
        }
    }
}

/// Masses of components. Two mixtures add, a mixture scales; nothing else is kept, so the
/// order of parts cannot matter.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Mixture {
    grams: [f64; Component::COUNT],
    /// Strong cations that hold acid as salt, in equivalents: cautious low, middle and high value
    /// (0.5, 0.7 and 1.0 of the mineral charge, see `acidity::juice`; all three alike when measured).
    pub bound_cations_eq: [f64; 3],
    /// Sodium that came as table salt, in moles: it adds ions but binds no acid.
    pub sodium_mol: f64,
    /// Ash that came with ingredients whose minerals or acids are not known, in grams.
    pub unaccounted_ash_g: f64,
    /// Bound cations (middle value) of ingredients whose acids are not known, in equivalents.
    pub unaccounted_cations_eq: f64,
}

impl Mixture {
    /// Nothing.
    pub const EMPTY: Self = Self {
        grams: [0.0; Component::COUNT],
        bound_cations_eq: [0.0; 3],
        sodium_mol: 0.0,
        unaccounted_ash_g: 0.0,
        unaccounted_cations_eq: 0.0,
    };

    /// A mixture of these components, in grams.
    pub fn of(parts: &[(Component, f64)]) -> Self {
        let mut mixture = Self::EMPTY;
        for &(component, g) in parts {
            mixture.grams[component as usize] += g;
        }
        mixture
    }

    /// Grams of one component.
    pub fn grams_of(&self, component: Component) -> f64 {
        self.grams[component as usize]
    }

    /// Puts the grams of one component.
    pub fn set_grams(&mut self, component: Component, g: f64) {
        self.grams[component as usize] = g;
    }

    /// Total mass in grams.
    pub fn total_grams(&self) -> f64 {
        self.grams.iter().sum()
    }

    /// Total mass.
    pub(crate) fn mass(&self) -> Mass {
        grams(self.total_grams())
    }

    /// Grams of all these components together.
    pub fn grams_of_all(&self, components: &[Component]) -> f64 {
        components.iter().map(|&c| self.grams_of(c)).sum()
    }

    /// Whether it is an acid and not something sour: more than half of it is acid (ours).
    pub(crate) fn is_acid(&self) -> bool {
        self.grams_of_all(&Component::ACIDS) > 0.5 * self.total_grams()
    }

    /// Grams of sugars as weighed.
    pub fn sugar_grams(&self) -> f64 {
        self.grams_of_all(&Component::SUGARS)
    }

    /// Grams of dissolved non-volatile solids: what Brix counts.
    pub fn solids_grams(&self) -> f64 {
        Component::ALL.iter().map(|&c| c.share_in_brix() * self.grams_of(c)).sum()
    }

    /// Whether this is a dried product, to which the properties of a liquid do not apply: below 15 % of water
    /// and spirit (honey has 17; ours).
    pub(crate) fn is_dry(&self) -> bool {
        const LEAST_LIQUID: f64 = 0.15;
        let liquid = [Component::Water, Component::Ethanol, Component::Glycerol];
        self.grams_of_all(&liquid) < LEAST_LIQUID * self.total_grams()
    }

    /// The same mixture for a total of one gram; empty stays empty.
    #[must_use]
    pub fn per_gram(&self) -> Self {
        let total = self.total_grams();
        if total > 0.0 { *self * (1.0 / total) } else { Self::EMPTY }
    }

    /// With this much less water, in grams (not below none).
    #[must_use]
    pub(crate) fn without_water(mut self, g: f64) -> Self {
        let left = (self.grams_of(Component::Water) - g).max(0.0);
        self.set_grams(Component::Water, left);
        self
    }

    /// What passes a strainer: without what stays in it.
    #[must_use]
    pub fn dissolved(mut self) -> Self {
        for component in Component::STAYS_IN_STRAINER {
            self.set_grams(component, 0.0);
        }
        self
    }
}

impl Add for Mixture {
    type Output = Self;
    fn add(mut self, other: Self) -> Self {
        self += other;
        self
    }
}

impl AddAssign for Mixture {
    fn add_assign(&mut self, other: Self) {
        for (mine, theirs) in self.grams.iter_mut().zip(other.grams) {
            *mine += theirs;
        }
        for (mine, theirs) in self.bound_cations_eq.iter_mut().zip(other.bound_cations_eq) {
            *mine += theirs;
        }
        self.sodium_mol += other.sodium_mol;
        self.unaccounted_ash_g += other.unaccounted_ash_g;
        self.unaccounted_cations_eq += other.unaccounted_cations_eq;
    }
}

impl Mul<f64> for Mixture {
    type Output = Self;
    fn mul(mut self, factor: f64) -> Self {
        for g in &mut self.grams {
            *g *= factor;
        }
        for eq in &mut self.bound_cations_eq {
            *eq *= factor;
        }
        self.sodium_mol *= factor;
        self.unaccounted_ash_g *= factor;
        self.unaccounted_cations_eq *= factor;
        self
    }
}

impl std::iter::Sum for Mixture {
    fn sum<I: Iterator<Item = Self>>(mixtures: I) -> Self {
        mixtures.fold(Self::EMPTY, Add::add)
    }
}
