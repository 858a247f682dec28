//! The water that a drink has from its ice: taken, weighed, or a range by the balance of heat.

/// The water that a drink has from its ice, in grams.
#[derive(Clone, Debug, PartialEq)]
pub struct IceWater {
    /// What was taken.
    pub grams: f64,
    /// The least that it may be.
    pub least_g: f64,
    /// The most.
    pub most_g: f64,
    /// Whether the house weighed it; else it is a range by the balance of heat.
    pub weighed: bool,
    /// How cold the drink may be then, °C.
    pub at_c: Option<(f64, f64)>,
    /// What was taken for granted, in words.
    pub assumed: Vec<String>,
    /// How warm what goes in warm was taken to be, where the card does not say it.
    pub warm: Vec<String>,
    /// What the house weighed of drinks made alike, where that set it.
    pub alike: Option<WeighedAlike>,
    /// The least and the most by the balance of heat.
    pub balance_g: (f64, f64),
    /// Of how many glasses the weighing may be, by what the drink weighed before its ice.
    pub glasses: u32,
}

/// What the house weighed of its drinks that are made alike, brought to as much as one of them pours.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct WeighedAlike {
    /// How many drinks were weighed.
    pub drinks: usize,
    /// The one in the middle, grams of water in this drink.
    pub middle_g: f64,
    /// The least of them.
    pub least_g: f64,
    /// The most.
    pub most_g: f64,
}

/// No way of making a drink is this many times beyond what its ice can give or must give (ours).
const FAR_OFF: f64 = 1.5;

impl IceWater {
    /// Whether the house weighed it, or drinks made alike; else only the balance of heat tells it.
    pub fn is_told(&self) -> bool {
        self.weighed || self.alike.is_some()
    }

    /// The water that it surely gives, g: what is told, else the least of the range.
    pub(crate) fn sure_g(&self) -> f64 {
        if self.is_told() { self.grams } else { self.least_g }
    }

    /// What the part is called.
    pub(crate) const LABEL: &str = "water from ice";

    /// Whether what was weighed of it, or of drinks made alike, lies beyond what the balance of heat allows, with what that is.
    pub(crate) fn beyond_balance(&self) -> Option<(f64, f64)> {
        let balance = self.balance_g;
        (self.most_g < balance.0 || self.least_g > balance.1).then_some(balance)
    }

    /// Whether it was weighed, and of several glasses at once, or so far beyond the balance of heat that another thing was weighed, or
    /// written.
    pub(crate) fn is_implausible(&self) -> bool {
        let (least, most) = self.balance_g;
        self.weighed && (self.glasses > 1 || self.grams < least / FAR_OFF || self.grams > most * FAR_OFF)
    }

    /// The middle of what the balance of heat gives.
    pub(super) fn middle_g(&self) -> f64 {
        0.5 * (self.balance_g.0 + self.balance_g.1)
    }
}
