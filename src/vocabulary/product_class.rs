//! What a product may be called. A class is earned by composition and changes no date.

super::words! {
    /// What a card calls its product.
    ProductClass, "class":
    PlainSyrup = "plain syrup",
    RichSyrup = "rich syrup",
    FruitSyrup = "fruit syrup" | "processed fruit syrup",
    SpiceSyrup = "spice syrup",
    NutSyrup = "nut syrup",
    NutMilk = "nut milk",
    OleoSaccharum = "oleo-saccharum",
    Cordial = "cordial",
    Shrub = "shrub",
    Juice = "juice" | "orange or grapefruit juice",
    JuiceDrink = "juice drink",
    InfusedSpirit = "infused spirit",
    Bitters = "bitters",
    Tincture = "tincture",
    Liqueur = "liqueur",
    CreamLiqueur = "cream liqueur",
    MilkPunch = "milk punch",
    Vermouth = "vermouth",
    BottledDrink = "bottled drink",
    DriedFruit = "dried fruit",
    AcidSolution = "acid solution",
    Saline = "saline",
}
