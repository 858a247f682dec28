//! Words for what is served, folded and in the singular: so a yield is counted ("20 drinks").

super::words! {
    /// One of what is served.
    CountedDrink, "serving":
    Serving = "serving" | "serve" | "drink" | "cocktail" | "portion" | "glass" | "getrank" | "verre" | "cocktel" | "vaso" | "copa"
        | "racion" | "bibita" | "bicchiere" | "porzione" | "bevanda",
}
