//! What kind of thing an ingredient is, as far as its keeping and its minerals go.

super::words! {
    /// What kind of thing an ingredient is.
    Kind, "kind":
    Water = "water",
    Sugar = "sugar",
    Syrup = "syrup",
    Honey = "honey",
    Acid = "acid",
    Alkali = "alkali",
    Salt = "salt",
    Vinegar = "vinegar",
    Spirit = "spirit",
    Liqueur = "liqueur",
    Bitters = "bitters",
    Wine = "wine",
    Fortified = "fortified",
    Beer = "beer",
    Cider = "cider",
    Soda = "soda",
    Juice = "juice",
    SweetCitrusJuice = "orange or grapefruit juice",
    Fruit = "fruit",
    Puree = "puree",
    Peel = "peel",
    Vegetable = "vegetable",
    Legume = "legume",
    Herb = "herb",
    Leaf = "leaf",
    Flower = "flower",
    Spice = "spice",
    Bark = "bark",
    Root = "root",
    Seed = "seed",
    Tea = "tea",
    Coffee = "coffee",
    Cacao = "cacao",
    Nut = "nut",
    PlantMilk = "plant_milk",
    Cereal = "cereal",
    Dairy = "dairy",
    Egg = "egg",
    Fat = "fat",
    Gum = "gum",
    Extract = "extract",
    FlowerWater = "flower water",
    Preservative = "preservative",
    ProcessAid = "process_aid",
    Fining = "fining",
}

impl Kind {
    /// Whether a thing of this kind spoils as it is: nothing in it keeps it.
    pub(crate) fn spoils(self) -> bool {
        use Kind::{
            Dairy, Egg, Fat, Flower, Fruit, Herb, Juice, Leaf, Legume, PlantMilk, Puree, SweetCitrusJuice, Vegetable,
        };
        [Dairy, Egg, Fat, Flower, Fruit, Herb, Juice, Leaf, Legume, PlantMilk, Puree, SweetCitrusJuice, Vegetable]
            .contains(&self)
    }

    /// Whether it is a fruit or what is made of one.
    pub(crate) fn is_of_fruit(self) -> bool {
        [Self::Fruit, Self::Juice, Self::SweetCitrusJuice, Self::Puree].contains(&self)
    }

    /// Whether a thing of this kind is neither sour nor strong, nor splits the protein of milk as fresh ginger does (common practice, no
    /// source).
    pub(crate) fn curdles_no_milk(self) -> bool {
        use Kind::{Bark, Cacao, Cereal, Coffee, Gum, Nut, Salt, Seed, Spice, Sugar, Tea, Water};
        [Bark, Cacao, Cereal, Coffee, Gum, Nut, Salt, Seed, Spice, Sugar, Tea, Water].contains(&self)
    }

    /// Whether it keeps by itself.
    pub(crate) fn keeps(self) -> bool {
        use Kind::{Acid, Bitters, Fortified, Honey, Liqueur, Salt, Spirit, Sugar, Syrup, Vinegar, Wine};
        [Acid, Bitters, Fortified, Honey, Liqueur, Salt, Spirit, Sugar, Syrup, Vinegar, Wine].contains(&self)
    }
}
