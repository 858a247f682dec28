//! `date`: how long it keeps, store by store, and what to look out for.

use std::path::PathBuf;

use crate::dated::{self, Which};
use crate::diagnostic::{Severity, any_error};
use crate::render;
use crate::shelf_life::Settings;
use crate::solve::{Options, solve};

use super::Reply;
use super::open;
use super::output::{self, Output, What};

/// Say how long a product keeps in each store of the house: the date, the one rule that decided it,
/// or why there is no honest date.
///
/// The growth model speaks of spoilage, not of illness; the screen by pH and water activity and the
/// cautions come first. The house and its food authority decide.
#[derive(clap::Args)]
#[command(after_help = "\
Example: made today, with the chart beside it
  stillroom date formulas/lime-cordial.toml --chart lime-cordial.svg

Example: made on a day, in one store
  stillroom date formulas/plain-syrup.toml --made 2026-11-25 --store fridge")]
pub struct Args {
    /// The formula file, or the product's name
    file: String,
    /// The day it is made (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    made: Option<String>,
    /// Only this store
    #[arg(long, value_name = "STORE")]
    store: Option<String>,
    /// Draw the expected life as an SVG or PNG file
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// A reading of an ingredient, in place of the larder's value: titrated acid as citric and pH together
    /// calibrate it ("lime juice: acid=58 g/L, ph=2.3"); may be given more than once
    #[arg(long, value_name = "INGREDIENT: READINGS")]
    measured: Vec<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file);
    opened.measured(&args.measured);
    let mut diagnostics = opened.diagnostics;
    let made = open::day("--made", args.made.as_deref(), &mut diagnostics).unwrap_or_else(open::today);
    let which = if args.chart.is_some() { Which::AllWithBands } else { Which::All };
    let mut dated = None;
    if let (Some(card), false) = (&opened.card, any_error(&diagnostics)) {
        let outcome = solve(card, &opened.house, &Options::default());
        diagnostics.extend(outcome.diagnostics);
        if let Some(solved) = outcome.solved {
            let (mut judged, found) = dated::of(&solved, &opened.house, made, which, Settings::default());
            judged.what_if = dated::whatif::of(&solved, &opened.house, &judged, Settings::default());
            diagnostics.extend(found);
            dated = Some((solved, judged));
        }
    }
    if let (Some(wanted), Some((_, dated))) = (&args.store, &mut dated)
        && let Some(unknown) = dated.keep_only(wanted)
    {
        diagnostics.push(unknown);
    }
    if any_error(&diagnostics) {
        dated = None;
    }
    if let (Some(path), Some((solved, dated))) = (&args.chart, &dated) {
        let chart = What::Chart(render::chart::expected_life(&solved.name, dated));
        diagnostics.extend(output::write(vec![Output { option: "--chart", path, what: chart }], &[args.file.as_ref()]));
    }
    let dated = dated.map(|(solved, dated)| (solved.name, dated));
    let stopped = dated.as_ref().is_some_and(|(_, d)| d.stopped());
    let reply = if args.json {
        Reply::whole(render::json::date(dated.as_ref().map(|(n, d)| (n.as_str(), d)), &diagnostics), &diagnostics)
    } else {
        let out = dated.map_or_else(String::new, |(name, dated)| render::text::date(&name, &dated));
        Reply::new(out, diagnostics.into_iter().filter(|d| d.severity > Severity::Note).collect())
    };
    reply.stopped_if(stopped)
}
