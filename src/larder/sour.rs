//! How much acid a thing may have that is said to be another: a word in the larder makes no carrot as sour as a lime.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::Table;
use crate::mixture::Mixture;
use crate::vocabulary::Kind;

use super::Ingredient;

/// More acid than so many times what the larder has is no reading of the same thing (ours: juices of a season differ by half).
const MOST_TIMES_ACID: f64 = 3.0;
/// Grams of acid in a gram of what has none, at most: what a slip of the pen writes is more (ours).
const NEXT_TO_NOTHING: f64 = 0.002;

/// Why one gram of something cannot be `known`, where it has far more acid.
pub(super) fn too_sour(per_gram: &Mixture, known: &Ingredient) -> Option<String> {
    // what a titration finds: the acid that minerals hold makes nothing sour
    let acid = |of: &Mixture| of.titratable_acid_grams().max(0.0);
    let own = acid(&known.per_gram);
    let name = &known.name;
    (acid(per_gram) > MOST_TIMES_ACID * own + NEXT_TO_NOTHING).then(|| match own > 0.0 {
        true => format!("that is more than {MOST_TIMES_ACID:.0} times the acid that `{name}` has"),
        false => format!("`{name}` has no acid"),
    })
}

/// The same of what spoils: its acid would be what keeps it.
pub(super) fn spoils_too_sour(per_gram: &Mixture, known: &Ingredient) -> Option<String> {
    known.kind.filter(|kind| Kind::spoils(*kind)).and_then(|_| too_sour(per_gram, known))
}

/// What is told to an entry that bears the name of a thing which is never so sour.
pub(super) fn refused(
    name: &Spanned<String>,
    table: &Table,
    per_gram: &Mixture,
    known: &Ingredient,
) -> Option<Diagnostic> {
    let why = spoils_too_sour(per_gram, known)?;
    let at = table.get("acid").map_or(name.span, |(_, value)| value.span);
    let help = "acid that is put in is a part of the card, \"citric acid\" = \"5 g\"; what is bought acidified has a name of its own";
    let title = format!("`{}` cannot be so sour: {why}", name.value);
    Some(Diagnostic::error(Code::OutOfRange, title).at(at, "of the thing itself?").help(help))
}
