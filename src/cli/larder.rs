//! `larder`: what is known of an ingredient, and from where.

use std::path::Path;

use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::render;

use super::{Reply, open};

/// Show what is known of an ingredient, and from where. Without a word: all of them.
#[derive(clap::Args)]
#[command(after_help = "\
Example: what does the larder know of honey?
  stillroom larder honey")]
pub struct Args {
    /// An ingredient, or part of its name
    word: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let (house, mut diagnostics) = open::house(Path::new("."));
    // What is assumed of scales and stores does not matter here.
    diagnostics.retain(|d| d.severity > Severity::Note);
    let larder = &house.larder;
    let found: Vec<_> = match &args.word {
        None => larder.iter().collect(),
        Some(word) => match larder.find(word) {
            Some(ingredient) => vec![ingredient],
            None => larder
                .iter()
                .filter(|i| i.all_names().any(|n| n.to_lowercase().contains(&word.to_lowercase())))
                .collect(),
        },
    };
    if let (Some(word), true) = (&args.word, found.is_empty()) {
        let diagnostic = Diagnostic::error(Code::UnknownIngredient, format!("the larder knows no `{word}`"));
        diagnostics.push(match larder.suggest(word) {
            Some(near) => diagnostic.help(format!("did you mean `{near}`?")),
            None => diagnostic.help(format!(
                "describe it in larder.toml beside the formulas: [ingredient.{word:?}] with per_100g, abv, brix, or like = \"…\""
            )),
        });
    }
    if args.json {
        return Reply::whole(render::json::larder(&found, &diagnostics), &diagnostics);
    }
    let out = match found.as_slice() {
        [] => String::new(),
        [one] if args.word.is_some() => render::text::ingredient(one),
        many => render::text::ingredients(many),
    };
    Reply::new(out, diagnostics)
}
