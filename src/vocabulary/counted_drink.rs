//! Words for what is served, folded, and in the singular where English makes it: so a yield is counted ("20 drinks").

super::words! {
    /// One of what is served.
    CountedDrink, "serving":
    Serving = "serving" | "serve" | "drink" | "cocktail" | "portion" | "glass" | "portionen" | "getrank" | "getranke" | "verre"
        | "verres" | "vaso" | "vasos" | "copa" | "copas" | "racion" | "raciones" | "bibita" | "bibite" | "bicchiere" | "bicchieri"
        | "porzione" | "porzioni" | "bevanda" | "bevande",
}
