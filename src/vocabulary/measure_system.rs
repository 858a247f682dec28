//! The countries whose pint is meant.

super::words! {
    /// Which ounces, cups, pints, quarts and gallons a house means.
    MeasureSystem, "measures":
    Us = "US" | "USA" | "American",
    Imperial = "imperial" | "UK",
    Metric = "metric",
}
