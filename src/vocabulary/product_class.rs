//! What a product may be called. A class is earned by composition and changes no date.

use super::Word;
use crate::spelling::singular;

super::words! {
    /// What a card calls its product.
    ProductClass, "class":
    PlainSyrup = "plain syrup" | "simple syrup" | "Zuckersirup" | "sirop de sucre" | "sirop simple" | "jarabe simple" | "sciroppo semplice",
    RichSyrup = "rich syrup" | "gomme" | "gum syrup",
    FruitSyrup = "fruit syrup" | "processed fruit syrup" | "grenadine" | "Fruchtsirup" | "sirop de fruits" | "sirop de fruit"
        | "sirope de frutas" | "jarabe de frutas" | "sciroppo di frutta",
    SpiceSyrup = "spice syrup" | "spiced syrup" | "herb syrup" | "herbal syrup" | "tonic syrup" | "ginger syrup" | "Gewürzsirup"
        | "Kräutersirup",
    NutSyrup = "nut syrup" | "orgeat",
    NutMilk = "nut milk",
    OleoSaccharum = "oleo-saccharum" | "oleo saccharum" | "oleo" | "sherbet",
    Cordial = "cordial" | "squash",
    Shrub = "shrub",
    Juice = "juice" | "orange or grapefruit juice",
    JuiceDrink = "juice drink" | "lemonade",
    InfusedSpirit = "infused spirit" | "infusion" | "spirit infusion" | "fat-washed spirit" | "fat-washed" | "fat washed spirit" | "fat wash" | "fat-wash" | "maceration"
        | "Ansatz",
    Bitters = "bitters" | "bitter",
    Tincture = "tincture" | "extract",
    Liqueur = "liqueur" | "ratafia" | "nut liqueur" | "fruit liqueur" | "coffee liqueur" | "spiced liqueur"
        | "Likör" | "Fruchtlikör" | "Kräuterlikör" | "liqueur de fruits" | "licor" | "licor de frutas" | "licor de hierbas" | "liquore"
        | "liquore alla frutta" | "rosolio" | "crème" | "crème de fruits",
    CreamLiqueur = "cream liqueur" | "Sahnelikör" | "liqueur à la crème" | "licor de crema" | "liquore alla crema",
    MilkPunch = "milk punch" | "clarified punch" | "clarified milk punch",
    Vermouth = "vermouth" | "aromatised wine" | "aromatized wine" | "Wermut" | "vermut",
    BottledDrink = "bottled drink" | "cocktail" | "bottled cocktail" | "batched cocktail" | "drink" | "mixed drink",
    DriedFruit = "dried fruit" | "dried citrus" | "dehydrated fruit" | "dehydrated citrus" | "dried garnish" | "dehydrated garnish",
    AcidSolution = "acid solution" | "acid" | "acid blend",
    Saline = "saline" | "saline solution" | "salt solution",
}

/// What people call a product without claiming anything of it that its composition has to earn: taken as it is written.
const GENERAL: [&str; 43] = [
    "syrup",
    "sirup",
    "sirop",
    "jarabe",
    "sciroppo",
    "honey syrup",
    "flavoured syrup",
    "flavored syrup",
    "falernum",
    "dram",
    "spice dram",
    "allspice dram",
    "purée",
    "puree",
    "fruit purée",
    "fruit puree",
    "coulis",
    "tea",
    "coffee",
    "cold brew",
    "brew",
    "punch",
    "mulled wine",
    "sangria",
    "sangría",
    "eggnog",
    "batch",
    "mix",
    "base",
    "premix",
    "aperitif",
    "aperitivo",
    "hot drink",
    "ferment",
    "fermented drink",
    "tepache",
    "kombucha",
    "kvass",
    "soda",
    "horchata",
    "switchel",
    "garnish",
    "stock",
];

/// Whether a word is one that people use for a product and that says nothing of its class.
pub(crate) fn is_general(word: &str) -> bool {
    GENERAL.contains(&word)
}

/// Whether people use the word for what they make, in whatever number of it, and seldom for what they put into it.
pub(crate) fn is_made(word: &str) -> bool {
    use ProductClass::{Bitters, Juice, JuiceDrink, Liqueur, Tincture, Vermouth};
    let one = singular(&word.to_lowercase());
    let is_brew = matches!(one.as_str(), "tea" | "coffee" | "brew");
    let class = ProductClass::parse(&one);
    let is_bought = matches!(class, Some(Bitters | Juice | JuiceDrink | Liqueur | Tincture | Vermouth));
    (class.is_some() && !is_bought) || (is_general(&one) && !is_brew)
}
