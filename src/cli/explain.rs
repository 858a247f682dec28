//! `explain`: where a number comes from.

use std::path::Path;

use crate::diagnostic::any_error;
use crate::render;
use crate::report::Report;
use crate::report::explain::{BudgetView, ExplainView};

use super::{Reply, open};

/// Say where a number comes from: the equation, its range, its stated error and its source.
///
/// Without a word: the properties that can be asked for. The code of a finding (as in error[no-size])
/// can be asked for too.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom explain brix

Example: the Brix of one card, how sure it is, and what spoils it
  stillroom explain brix --of formulas/lime-cordial.toml

Example: what the law of your markets asks of who makes, packs or sells
  stillroom explain rules

Example: what a finding means
  stillroom explain out-of-reach")]
pub(crate) struct Args {
    /// A property (brix, abv, water activity, …), the code of a finding, or `rules`
    word: Option<String>,
    /// Of this card: its brix, abv, sugar or acid, with the doubt of it and what the doubt comes from
    #[arg(long, value_name = "CARD", requires = "word")]
    of: Option<String>,
    /// A reading of an ingredient of that card, as in solve; may be given more than once
    #[arg(long, value_name = "INGREDIENT: READINGS", requires = "of")]
    measured: Vec<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub(crate) fn run(args: &Args) -> Reply {
    if let (Some(word), Some(card)) = (&args.word, &args.of) {
        return of_card(word, card, args);
    }
    let mut found = Vec::new();
    let view = match args.word.as_deref() {
        None => ExplainView::names(),
        Some("rules") => {
            let (house, of_house) = open::house(Path::new("."));
            found.extend(of_house);
            ExplainView::rules(&house)
        }
        Some(word) => ExplainView::find(word, &mut found),
    };
    let report = Report::new(Some(view), &found, open::text_of);
    Reply::painted(&report, found, args.json, render::text::explain)
}

/// One number of one card.
fn of_card(word: &str, which: &str, args: &Args) -> Reply {
    let mut opened = open::card(which);
    opened.measured(&args.measured);
    let mut found = opened.diagnostics;
    let view = match &opened.card {
        Some(card) if !any_error(&found) => BudgetView::of_card(word, card, &opened.house, &mut found),
        _ => {
            found.extend(BudgetView::kind(word).err());
            None
        }
    };
    let name = opened.card.as_ref().map(|c| c.name.value.as_str());
    let report = Report::new(view, &found, open::text_of).of_product(name);
    Reply::painted(&report, found, args.json, render::text::budget)
}
