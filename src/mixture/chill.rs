//! The water that ice gives to a drink, by the balance of heat: the drink cools toward its own freezing point, ice melts.
//!
//! What stands at the end of a long stir is liquid and ice at the freezing point of that liquid (`e`):
//!
//! `c_d (t_d - t_e) + c_v (t_v - t_e) + q - w c_w t_e = m_i c_i (t_e - t_i) + x (L + (c_w - c_i) t_e)`
//!
//! with the heat that drink, vessel and mixing give up on the left (`w` is the water on the ice, at 0 °C), and on the right
//! what warms the ice `m_i` to `t_e` and melts `x` of it. Only that much of the way is gone: `share` of the water has joined
//! when it is strained.

use super::freezing::freezing_c;
use super::heat::{WATER_KJ, kj_per_kelvin};
use super::root::bracketed;
use super::{Component, Mixture};

/// Latent heat of ice at 0 °C, kJ/kg (source `ice-heat`): 6009.5 J/mol.
pub const FUSION_KJ: f64 = 333.6;
/// Specific heat of ice near 0 °C, kJ/(kg K) (source `ice-heat`).
pub const ICE_KJ: f64 = 2.1;

/// A drink before the ice, and what it meets. Heat of hands and of the room is not counted.
#[derive(Clone, Copy, Debug)]
pub struct Chilling<'a> {
    /// What is poured.
    pub drink: &'a Mixture,
    /// How warm it is, °C.
    pub from_c: f64,
    /// Ice, grams, the water on it counted.
    pub ice_g: f64,
    /// How cold the ice is, °C.
    pub ice_c: f64,
    /// The share of it that is water on its surface.
    pub wet: f64,
    /// What the vessel takes up for each degree, kJ.
    pub vessel_kj_per_k: f64,
    /// How warm the vessel is, °C.
    pub vessel_c: f64,
    /// Heat that each kilogram of ethanol gives off as it is let down and cooled, kJ.
    pub mixing_kj_per_kg: f64,
    /// How far the drink gets on the way to its freezing point, 0 to 1.
    pub share: f64,
}

/// What the ice did.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chilled {
    /// Ice that melted into the drink, grams.
    pub melted_g: f64,
    /// Water from its surface, grams.
    pub surface_g: f64,
    /// How cold the drink is then, °C.
    pub at_c: f64,
}

impl Chilled {
    /// All the water that the drink took up, grams.
    pub fn water_g(&self) -> f64 {
        self.melted_g + self.surface_g
    }
}

/// A mixture with so much more water, grams.
pub(crate) fn let_down(drink: &Mixture, water_g: f64) -> Mixture {
    *drink + Mixture::of(&[(Component::Water, water_g)])
}

/// The end of the way: ice that melted, grams, and the temperature at which the rest of it stands in the drink.
struct End {
    melted_g: f64,
    at_c: f64,
    /// What the ice took up, kJ.
    taken_kj: f64,
}

impl Chilling<'_> {
    fn surface_g(&self) -> f64 {
        self.wet * self.ice_g
    }

    fn solid_g(&self) -> f64 {
        self.ice_g - self.surface_g()
    }

    /// What ice takes up that is brought to `t_c` and of which `melted_g` melt, kJ.
    fn taken_kj(&self, melted_g: f64, t_c: f64) -> f64 {
        let warms = self.solid_g() * ICE_KJ * (t_c - self.ice_c);
        (warms + melted_g * (FUSION_KJ + (WATER_KJ - ICE_KJ) * t_c)) / 1000.0
    }

    /// What drink, vessel, mixing and the water on the ice give up on the way to `t_c`, kJ.
    fn given_kj(&self, t_c: f64, share: f64) -> f64 {
        let ethanol_kg = self.drink.grams_of(Component::Ethanol) / 1000.0;
        kj_per_kelvin(self.drink) * (self.from_c - t_c)
            + self.vessel_kj_per_k * (self.vessel_c - t_c)
            + share * (self.mixing_kj_per_kg * ethanol_kg - self.surface_g() * WATER_KJ / 1000.0 * t_c)
    }

    fn end(&self) -> End {
        let freezes = |melted_g: f64| freezing_c(&let_down(self.drink, self.surface_g() + melted_g));
        let short = |melted_g: f64| {
            let t_c = freezes(melted_g);
            self.taken_kj(melted_g, t_c) - self.given_kj(t_c, 1.0)
        };
        // A drink that comes colder than its own freezing point melts nothing.
        let melted_g = match (short(0.0), short(self.solid_g())) {
            (over, _) if over >= 0.0 => 0.0,
            (_, under) if under <= 0.0 => self.solid_g(),
            _ => bracketed(short, 0.0, self.solid_g(), 1e-9).unwrap_or(0.0),
        };
        let at_c = freezes(melted_g);
        End { melted_g, at_c, taken_kj: self.taken_kj(melted_g, at_c) }
    }

    /// The water that joins the drink, and how cold it is then: whatever share of the way is gone, the heat that the ice
    /// took up is the heat that drink, vessel and mixing gave.
    pub fn run(&self) -> Chilled {
        let end = self.end();
        let share = self.share.clamp(0.0, 1.0);
        // Linear in the temperature: given(t) = share * taken at the end + the melted water on from there.
        let melted_g = share * end.melted_g;
        let melted_kj_per_k = WATER_KJ * melted_g / 1000.0;
        let over = self.given_kj(0.0, share) - share * end.taken_kj + melted_kj_per_k * end.at_c;
        let per_k = kj_per_kelvin(self.drink)
            + self.vessel_kj_per_k
            + share * self.surface_g() * WATER_KJ / 1000.0
            + melted_kj_per_k;
        let at_c = if per_k > 0.0 { over / per_k } else { end.at_c };
        Chilled { melted_g, surface_g: share * self.surface_g(), at_c }
    }
}
