//! The classes that choose the ceiling on a product's life.

super::words! {
    /// What a card calls its product, for the ceiling on its life.
    ProductClass, "class":
    PlainSyrup = "plain syrup",
    RichSyrup = "rich syrup",
    FruitSyrup = "fruit syrup",
    ProcessedFruitSyrup = "processed fruit syrup",
    NutSyrup = "nut syrup",
    NutMilk = "nut milk",
    SpiceSyrup = "spice syrup",
    OleoSaccharum = "oleo-saccharum",
    Cordial = "cordial",
    Juice = "juice",
    OrangeOrGrapefruitJuice = "orange or grapefruit juice",
    FreshHerbs = "fresh herbs",
    Shrub = "shrub",
    InfusedSpirit = "infused spirit",
    Liqueur = "liqueur",
    Vermouth = "vermouth",
    Bitters = "bitters",
    DriedFruit = "dried fruit",
    Saline = "saline",
    AcidSolution = "acid solution",
}
