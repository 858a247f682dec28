//! `square`: the Pearson square, and the exact answer beside it.

use std::path::PathBuf;

use crate::card::{TargetKind, target_value};
use crate::diagnostic::Diagnostic;
use crate::render;
use crate::report::square::SquareView;
use crate::solver::square::SquareKind;
use crate::units::Customs;

use super::Reply;
use super::open::{self, argument};
use super::output;
use super::solve::makes;

/// Draw the Pearson square, and beside it what it would really give and what to take instead.
///
/// The square adds volumes; spirit and water contract, and Brix counts grams. The exact answer is a
/// mass balance at 20 °C.
#[derive(clap::Args)]
#[command(after_help = "\
Example: bring a 63 % rum down to 40 %, one litre of it
  stillroom square --strong 63 --weak 0 --target 40 --make 1L

Example: blend a 65 °Bx and a 12 °Bx syrup to 24 °Bx
  stillroom square --of brix --strong 65 --weak 12 --target 24")]
pub(crate) struct Args {
    /// Strength of the strong side, % vol or °Bx
    #[arg(long, value_name = "STRENGTH")]
    strong: String,
    /// Strength of the weak side (0 for water)
    #[arg(long, value_name = "STRENGTH", default_value = "0")]
    weak: String,
    /// The strength that is wanted
    #[arg(long, value_name = "STRENGTH")]
    target: String,
    /// What the strengths are
    #[arg(long, value_enum, default_value_t = Kind::Abv)]
    of: Kind,
    /// How much to make
    #[arg(long, value_name = "AMOUNT", default_value = "1 L")]
    make: String,
    /// Draw it, as .svg or .png
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Kind {
    Abv,
    Brix,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut found = Vec::new();
    let view = drawn(args, &mut found);
    if let Some(view) = &view {
        found.extend(output::chart(args.chart.as_ref(), || render::chart::pearson_square(view), ""));
    }
    open::reply(view, found, args.json, render::text::square)
}

fn drawn(args: &Args, found: &mut Vec<Diagnostic>) -> Option<SquareView> {
    let (of, kind) = match args.of {
        Kind::Abv => (SquareKind::Abv, TargetKind::Abv),
        Kind::Brix => (SquareKind::Brix, TargetKind::Brix),
    };
    // "63", "63 %", "126 proof", "65 °Bx"
    let value = |written: &str| target_value(kind, written.trim()).map_err(|why| why.title);
    let mut strength = |option, written| {
        let example = format!("{option} 63, or \"63 %\", \"126 proof\", \"65 °Bx\"");
        argument(Some(written), &example, value, found)
    };
    let (strong, weak) = (strength("--strong", &args.strong)?, strength("--weak", &args.weak)?);
    let target = strength("--target", &args.target)?;
    let make = argument(Some(&args.make), "--make 1L or --make 1kg", |make| makes(make, &Customs::default()), found)?;
    SquareView::drawn(of, [strong, weak, target], make, found)
}
