//! `square`: the Pearson square, and the exact answer beside it.

use crate::card::{Makes, TargetKind, target_value};
use crate::diagnostic::Diagnostic;
use crate::render;
use crate::report::Report;
use crate::report::square::SquareView;
use crate::solver::square::SquareKind;

use super::Reply;
use super::open::{self, bad_argument};
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
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum Kind {
    Abv,
    Brix,
}

/// Runs the verb.
pub(crate) fn run(args: &Args) -> Reply {
    let of = match args.of {
        Kind::Abv => SquareKind::Abv,
        Kind::Brix => SquareKind::Brix,
    };
    let drawn = asked(of, args).and_then(|(strengths, make)| SquareView::drawn(of, strengths, make));
    let (view, found) = match drawn {
        Ok((view, found)) => (Some(view), found),
        Err(why) => (None, vec![*why]),
    };
    let report = Report::new(view, &found, open::text_of);
    Reply::of(&report, found, args.json, render::text::square)
}

/// The three strengths and the size.
fn asked(of: SquareKind, args: &Args) -> Result<([f64; 3], Makes), Box<Diagnostic>> {
    let strength = |option, written| strength(of, option, written);
    let strengths =
        [strength("--strong", &args.strong)?, strength("--weak", &args.weak)?, strength("--target", &args.target)?];
    let make = makes(&args.make).map_err(|why| {
        Box::new(bad_argument("--make", &args.make, &why, "write for example --make 1L or --make 1kg"))
    })?;
    Ok((strengths, make))
}

/// "63", "63 %", "126 proof", "65 °Bx".
fn strength(of: SquareKind, option: &str, written: &str) -> Result<f64, Box<Diagnostic>> {
    let kind = match of {
        SquareKind::Abv => TargetKind::Abv,
        SquareKind::Brix => TargetKind::Brix,
    };
    let example = format!("write for example {option} 63, or \"63 %\", \"126 proof\", \"65 °Bx\"");
    target_value(kind, written.trim()).map_err(|why| Box::new(bad_argument(option, written, &why.title, &example)))
}
