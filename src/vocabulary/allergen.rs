//! What makes some guests ill and has to be declared.

super::words! {
    /// An allergen, or one kind of it: `tree_nuts` of which the kind is not stated, `tree_nuts (almond)`.
    Allergen, "allergen":
    BeeProducts = "bee_products",
    Celery = "celery",
    Chestnut = "chestnut" | "tree_nuts (chestnut)" | "tree nut (chestnut)",
    Coconut = "coconut" | "tree_nuts (coconut)" | "tree nut (coconut)",
    Crustaceans = "crustaceans",
    Egg = "egg",
    Fish = "fish",
    GlutenCereals = "gluten_cereals",
    Barley = "gluten_cereals (barley)" | "barley",
    Oats = "gluten_cereals (oats)" | "oats",
    Rye = "gluten_cereals (rye)" | "rye",
    Wheat = "gluten_cereals (wheat)" | "wheat",
    Lupin = "lupin",
    Milk = "milk",
    Molluscs = "molluscs",
    Mustard = "mustard",
    Peanut = "peanut",
    PineNut = "pine_nut" | "pine nut" | "tree_nuts (pine nut)" | "tree nut (pine nut)",
    Sesame = "sesame",
    Soy = "soy" | "soya",
    Sulphites = "sulphites",
    TreeNuts = "tree_nuts",
    Almond = "tree_nuts (almond)" | "tree nut (almond)" | "almond",
    BrazilNut = "tree_nuts (brazil nut)" | "tree nut (brazil nut)" | "brazil nut",
    Cashew = "tree_nuts (cashew)" | "tree nut (cashew)" | "cashew",
    Hazelnut = "tree_nuts (hazelnut)" | "tree nut (hazelnut)" | "hazelnut",
    Macadamia = "tree_nuts (macadamia)" | "tree nut (macadamia)" | "macadamia",
    Pecan = "tree_nuts (pecan)" | "tree nut (pecan)" | "pecan",
    Pistachio = "tree_nuts (pistachio)" | "tree nut (pistachio)" | "pistachio",
    Walnut = "tree_nuts (walnut)" | "tree nut (walnut)" | "walnut",
}

impl Allergen {
    /// What it is a kind of; nothing for what has no kinds, or states none.
    pub fn group(self) -> Option<Self> {
        Some(match self {
            Self::Barley | Self::Oats | Self::Rye | Self::Wheat => Self::GlutenCereals,
            Self::Almond
            | Self::BrazilNut
            | Self::Cashew
            | Self::Hazelnut
            | Self::Macadamia
            | Self::Pecan
            | Self::Pistachio
            | Self::Walnut => Self::TreeNuts,
            _ => return None,
        })
    }

    /// What a guest takes it for: its group, or the tree nuts where it is called a nut and is one by the lists of some markets alone, or
    /// of none. Such a nut is named by its own word in every market.
    pub fn family(self) -> Self {
        match self {
            Self::Chestnut | Self::Coconut | Self::PineNut => Self::TreeNuts,
            _ => self.group().unwrap_or(self),
        }
    }
}
