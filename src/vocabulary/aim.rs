//! What a card with room is to come out best in.

super::words! {
    /// What there shall be least of.
    Spared, "aim":
    Cost = "cost",
    Waste = "waste",
}

super::words! {
    /// What there shall be most of.
    Prized, "aim":
    Life = "life" | "shelf life",
}
