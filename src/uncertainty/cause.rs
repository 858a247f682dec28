//! Why an input is in uncertainty, and what to do about it.

/// Why an input is in uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// The scale.
    Scale,
    /// A cup, a spoon, a jug, a dash, a piece.
    Volume,
    /// What a liquid or a juicy ingredient is made of.
    Composition,
    /// What a dry ingredient is made of that dissolves and varies.
    Solid,
    /// What a dry, crystalline ingredient is made of.
    Crystals,
    /// Its acid.
    Acid,
    /// What a label says of its strength.
    Label,
    /// How much of it is sugar, where its record does not tell.
    Sugar,
    /// Water that goes up, of which the card says nothing.
    Evaporation,
    /// Water that ice gives to a drink.
    Ice,
    /// What strained solids keep.
    Holds,
    /// What strained solids give to the liquid.
    Gives,
    /// What goes in behind a straining, where the lines strain it with the rest.
    Behind,
}

impl Cause {
    pub(crate) fn remedy(self) -> &'static str {
        match self {
            Self::Scale => "weigh it on a finer scale, or make a larger batch",
            Self::Volume => "weigh it, as the sheet does",
            Self::Composition => "read the Brix of what you have, and give it in larder.toml",
            Self::Solid => "dissolve 10 g in 10 g of water, read that, and give twice its Brix in larder.toml",
            Self::Crystals => "nothing worth doing: dry sugar differs by 0.1 to 0.3 g in 100 g",
            Self::Acid => "titrate what you have, and give its acid in larder.toml",
            Self::Label => "nothing the house can do: labels may be off by this much",
            Self::Sugar => "give the sugar that its label states in larder.toml",
            Self::Evaporation => "weigh the pan before and after, and give `evaporated` on the card",
            Self::Ice => "weigh the drink before the ice and strained: [ice] before = \"95 g\", after = \"127 g\"",
            Self::Holds => "weigh the wet solids once, and give `holds` on the card",
            Self::Gives => "measure the Brix of the strained liquid",
            Self::Behind => "give what is strained a stage of its own on the card",
        }
    }
}
