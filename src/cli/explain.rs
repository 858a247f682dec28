//! `explain`: where a number comes from.

use std::path::Path;

use crate::card::TargetKind;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::mixture::equations::EQUATIONS;
use crate::properties::{Equation, methods};
use crate::render;
use crate::safety::{Market, law};
use crate::solver::{Options, solve};
use crate::uncertainty::{Budget, HEADLINES};

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
pub struct Args {
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

fn all() -> impl Iterator<Item = &'static Equation> {
    EQUATIONS.iter().chain(methods())
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let Some(word) = &args.word else {
        let equations: Vec<_> = all().collect();
        let out =
            if args.json { render::json::equations(&equations, &[]) } else { render::text::equation_names(&equations) };
        return Reply::new(out, Vec::new());
    };
    if let Some(card) = &args.of {
        return of_card(word, card, args);
    }
    if word == "rules" {
        return rules(args.json);
    }
    let plain = |s: &str| s.to_lowercase().replace(['_', '-'], " ");
    let matching: Vec<_> = all().filter(|e| plain(e.name).contains(&plain(word))).collect();
    let code = Code::ALL.iter().copied().find(|c| c.as_str() == word);
    if let (true, Some(code)) = (matching.is_empty(), code) {
        let out = if args.json { render::json::code(code) } else { format!("{code}: {}\n", code.description()) };
        return Reply::new(out, Vec::new());
    }
    if matching.is_empty() {
        let names = all().map(|e| e.name).chain(Code::ALL.iter().map(|c| c.as_str()));
        let near = crate::input::nearest(word, names);
        let unknown = Diagnostic::error(Code::BadArgument, format!("nothing is called `{word}` here"));
        let unknown = [unknown.help(near.map_or_else(
            || "`stillroom explain` alone lists what can be asked for".to_owned(),
            |near| format!("did you mean `{near}`?"),
        ))];
        if args.json {
            return Reply::whole(render::json::equations(&[], &unknown), &unknown);
        }
        return Reply::new(String::new(), unknown.into());
    }
    Reply::new(
        if args.json { render::json::equations(&matching, &[]) } else { render::text::equations(&matching) },
        Vec::new(),
    )
}

/// The rules of the house's markets; of all, where it names none.
fn rules(as_json: bool) -> Reply {
    let (house, diagnostics) = open::house(Path::new("."));
    let markets: Vec<Market> = house.settings.markets.iter().filter_map(|code| Market::from_code(code)).collect();
    let rules = law::rules(&markets);
    if as_json {
        return Reply::whole(render::json::rules(&rules, &diagnostics), &diagnostics);
    }
    Reply::new(render::text::rules(&rules, &markets), diagnostics)
}

/// One number of one card.
fn of_card(word: &str, which: &str, args: &Args) -> Reply {
    let mut opened = open::card(which);
    opened.measured(&args.measured);
    let mut diagnostics = opened.diagnostics;
    let kind = TargetKind::from_key(&word.to_lowercase()).filter(|kind| HEADLINES.contains(kind));
    if kind.is_none() {
        let keys = HEADLINES.map(TargetKind::key).join(", ");
        let near = crate::input::nearest(word, HEADLINES.map(TargetKind::key));
        diagnostics.push(Diagnostic::error(Code::BadArgument, format!("`{word}` of a card has no budget")).help(
            near.map_or_else(
                || format!("ask for one of {keys}; `stillroom explain {word}` tells its equation"),
                |near| format!("did you mean `{near}`?"),
            ),
        ));
    }
    let mut budget = None;
    if let (Some(card), Some(kind), false) = (&opened.card, kind, any_error(&diagnostics)) {
        let outcome = solve(card, &opened.house, &Options::default());
        diagnostics.extend(outcome.diagnostics);
        if let Some(solved) = &outcome.solved {
            budget = Budget::of(solved, &opened.house.settings.instruments, kind);
            if budget.is_none() {
                diagnostics.push(Diagnostic::note(
                    Code::PropertyUnknown,
                    format!("{} has no {} that can be given", solved.name, kind.key()),
                ));
            }
        }
    }
    let name = opened.card.as_ref().map(|c| c.name.value.as_str());
    if args.json {
        return Reply::whole(render::json::budget(name, budget.as_ref(), &diagnostics), &diagnostics);
    }
    Reply::new(budget.as_ref().map_or_else(String::new, render::text::budget), diagnostics)
}
