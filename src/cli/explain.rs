//! `explain`: where a number comes from.

use std::path::Path;

use crate::assessment::{self, Which};
use crate::render;
use crate::report::explain::{BudgetView, ExplainView};
use crate::report::explain_date::DateStepsView;
use crate::shelf_life::Draws;
use crate::solver::{Options, solve};

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

Example: how its date was reached
  stillroom explain date formulas/lime-cordial.toml

Example: what the law of your markets asks of who makes, packs or sells
  stillroom explain rules

Example: what a finding means
  stillroom explain out-of-reach")]
pub(crate) struct Args {
    /// A property (brix, abv, water activity, …), the code of a finding, `rules`, or `date` with a card
    word: Option<String>,
    /// The card whose date is asked for
    #[arg(requires = "word", conflicts_with = "of")]
    card: Option<String>,
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

pub(crate) fn run(args: &Args) -> Reply {
    if let (Some(word), Some(card)) = (&args.word, args.card.as_ref().or(args.of.as_ref())) {
        if word == "date" {
            return date(card, args);
        }
        let mut opened = open::card(card, &args.measured, Vec::new());
        let kind = BudgetView::kind(word).map_err(|unknown| opened.found.push(unknown));
        return opened.reply(args.json, render::text::budget, |card, house, found| {
            BudgetView::of_card(kind.ok()?, card, house, found)
        });
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
    open::reply(Some(view), found, args.json, render::text::explain)
}

/// How the date of a card that is made today is reached.
fn date(card: &str, args: &Args) -> Reply {
    let opened = open::card(card, &args.measured, Vec::new());
    opened.reply(args.json, render::text::explain_date, |card, house, found| {
        let solved = solve(card, house, &Options::default()).told(found)?;
        let (judged, said) = assessment::assess(&solved, house, open::today(), Which::All, Draws::default());
        found.extend(said);
        Some(DateStepsView::new(&judged))
    })
}
