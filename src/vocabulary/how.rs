//! How a drink is made, and the ice that it meets.

super::words! {
    /// How a drink is made in front of the guest.
    DrinkHow, "method":
    Shaken = "shaken" | "shake",
    Stirred = "stirred" | "stir",
    Thrown = "thrown" | "throw",
    Built = "built" | "build",
    Swizzled = "swizzled" | "swizzle",
    Blended = "blended" | "blend",
}

impl DrinkHow {
    /// Whether it is strained off its ice, so that a batch of it can be let down before it meets any; of the others the ice
    /// stays in the glass.
    pub(crate) fn is_strained(self) -> bool {
        matches!(self, Self::Shaken | Self::Stirred | Self::Thrown)
    }

    /// Whether what holds gas goes in behind the ice: worked on ice it would lose it. Built in the glass it is poured on it.
    pub(crate) fn drives_gas_out(self) -> bool {
        self != Self::Built
    }
}

super::words! {
    /// Behind what a part goes into the glass.
    GoesInAfter, "after":
    Ice = "ice",
}

super::words! {
    /// What ice is broken or cast to.
    IceKind, "ice":
    Block = "block" | "large cube" | "large cubes" | "rock",
    Cubes = "cubes" | "cube" | "cubed",
    Cracked = "cracked",
    Pebble = "pebble" | "nugget",
    Crushed = "crushed",
}

impl IceKind {
    /// The edge of a piece, mm (common practice, no source; a cube of 32 mm weighs the 30 g of the larder).
    fn edge_mm(self) -> f64 {
        match self {
            Self::Block => 50.0,
            Self::Cubes => 32.0,
            Self::Cracked => 15.0,
            Self::Pebble => 9.0,
            Self::Crushed => 6.0,
        }
    }

    /// The share of wet ice that is water on its surface, where that is a film so thick: that of a cube,
    /// `6 film / (edge x 0.917)`.
    pub(crate) fn wet(self, film_mm: f64) -> f64 {
        const ICE_G_PER_ML: f64 = 0.917;
        (6.0 * film_mm / (self.edge_mm() * ICE_G_PER_ML)).min(0.5)
    }
}
