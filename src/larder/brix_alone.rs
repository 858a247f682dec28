//! A Brix that no word and no likeness says to be of sugar: a stock that was boiled down has one too.

use std::sync::LazyLock;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::mixture::{Component, Mixture};
use crate::spelling::words;
use crate::vocabulary::table::LongTable;

use super::label::{self, Impossible, LabelFigures};

static SYRUPS: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("syrup-words.csv", include_str!("data/syrup-words.csv")));

/// With less than this dissolved nothing is kept by its sugar, as a share: 30 °Bx of it leave a water activity of 0.98.
const THIN: f64 = 0.30;

/// One gram of what a label speaks of: see [`label::composition`]. Of a Brix alone the kinds of what is dissolved count as not told.
pub(super) fn composed(
    name: &Spanned<String>,
    base: Option<&Mixture>,
    label: &LabelFigures,
    found: &mut Vec<Diagnostic>,
) -> Result<Mixture, Impossible> {
    let mut gram = label::composition(base, label)?;
    let is_of_brix = base.is_none() && label.sugar_g_l.is_none() && label.brix.is_some_and(|brix| brix > THIN);
    if is_of_brix && !is_sweet(&name.value) {
        let title = format!("nothing says that the Brix of `{}` is sugar: no date rests on it", name.value);
        let help = "give its sugar as well (sugar = \"… g/L\", from its label), or say what it is like";
        found.push(Diagnostic::note(Code::Assumed, title).at(name.span, "of what?").help(help));
        let told = gram.grams_of(Component::Sucrose);
        gram.set_grams(Component::Sugars, gram.grams_of(Component::Sugars) + told);
        gram.set_grams(Component::Sucrose, 0.0);
    }
    Ok(gram)
}

fn is_sweet(name: &str) -> bool {
    let said = words(name);
    SYRUPS.rows().any(|row| said.iter().any(|word| word.ends_with(row.text("word"))))
}
