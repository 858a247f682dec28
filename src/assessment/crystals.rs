//! What lies at the bottom: sugar or salt beyond what the water holds. It keeps nothing, and its date is that of the liquid above.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::{Component, Mixture};
use crate::units::celsius;

/// Fewer crystals than this are not worth a word: a syrup of 2 to 1 sits at its saturation in a warm room (ours).
pub(crate) const LEAST_CRYSTALS_G_PER_KG: f64 = 10.0;

/// A batch with more sucrose or salt than stays dissolved at 20 °C: it was never clear, or it was read or asked for wrongly.
pub fn over_saturated(batch: &Mixture) -> Option<Diagnostic> {
    let held = batch.above_crystals(celsius(20.0));
    let lies = |of| 1000.0 * (batch.grams_of(of) - held.grams_of(of)) / batch.total_grams();
    let said = |title: String, help| Some(Diagnostic::warning(Code::OverSaturated, title).help(help));
    let (sugar, salt) = (lies(Component::Sucrose), lies(Component::Salt));
    if sugar > LEAST_CRYSTALS_G_PER_KG {
        let (brix, holds) = (batch.brix().get(), held.brix().get());
        let title = format!(
            "{brix:.1} °Bx is more than stays dissolved: {sugar:.0} g of each kg are crystals at 20 °C, the liquid above them \
             has {holds:.1}"
        );
        said(
            title,
            "its date is that of the liquid; ask for less, keep it hot, or put glucose or invert sugar in place of a part of the sugar",
        )
    } else if salt > LEAST_CRYSTALS_G_PER_KG {
        said(
            format!("more salt than stays dissolved: {salt:.0} g of each kg lie at the bottom at 20 °C"),
            "put in less salt, or more water: 100 g of water hold 35.9 g",
        )
    } else {
        None
    }
}
