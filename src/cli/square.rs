//! `square`: the Pearson square, and the exact answer beside it.

use crate::card::{Makes, TargetKind, target_value};
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::render;
use crate::solver::square::{NoSquare, Square, SquareKind, draw};

use super::Reply;
use super::open::bad_argument;
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
pub struct Args {
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
pub fn run(args: &Args) -> Reply {
    let of = match args.of {
        Kind::Abv => SquareKind::Abv,
        Kind::Brix => SquareKind::Brix,
    };
    let sides = [("--strong", &args.strong), ("--weak", &args.weak), ("--target", &args.target)];
    let strengths = sides.map(|(option, written)| strength(of, option, written));
    let drawn = match strengths {
        [Ok(strong), Ok(weak), Ok(target)] => {
            size(&args.make).and_then(|make| draw(of, strong, weak, target, make).map_err(|why| refused(of, &why)))
        }
        [Err(why), ..] | [_, Err(why), _] | [.., Err(why)] => Err(why),
    };
    match (drawn, args.json) {
        (Ok(square), as_json) => {
            let found = remarks(&square);
            match as_json {
                true => Reply::whole(render::json::square(Some(&square), &found), &found),
                false => {
                    let told = found.into_iter().filter(|d| d.severity > Severity::Note).collect();
                    Reply::new(render::text::square(&square), told)
                }
            }
        }
        (Err(why), true) => {
            let all = [why];
            Reply::whole(render::json::square(None, &all), &all)
        }
        (Err(why), false) => Reply::new(String::new(), vec![why]),
    }
}

/// "63", "63 %", "126 proof", "65 °Bx".
fn strength(of: SquareKind, option: &str, written: &str) -> Result<f64, Diagnostic> {
    let kind = match of {
        SquareKind::Abv => TargetKind::Abv,
        SquareKind::Brix => TargetKind::Brix,
    };
    let example = format!("write for example {option} 63, or \"63 %\", \"126 proof\", \"65 °Bx\"");
    target_value(kind, written.trim()).map_err(|why| bad_argument(option, written, &why.title, &example))
}

fn size(written: &str) -> Result<Makes, Diagnostic> {
    makes(written).map_err(|why| bad_argument("--make", written, &why, "write for example --make 1L or --make 1kg"))
}

/// What else there is to know of it.
fn remarks(square: &Square) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    if let Some(why) = square.stretched {
        found.push(Diagnostic::warning(Code::PropertyExtrapolated, format!("the density is stretched: {why}")));
    }
    if square.gives.is_none() {
        found.push(Diagnostic::note(
            Code::PropertyUnknown,
            "what the square would give is not known: a side has no volume to pour",
        ));
    }
    if square.of == SquareKind::Brix {
        found.push(Diagnostic::note(Code::DoesNotApply, "gives_abv_pct does not apply: the square is drawn for Brix"));
    }
    found
}

fn refused(of: SquareKind, why: &NoSquare) -> Diagnostic {
    let unit = match of {
        SquareKind::Abv => "% vol",
        SquareKind::Brix => "°Bx",
    };
    let code = if *why == NoSquare::Target { Code::OutOfReach } else { Code::BadArgument };
    let (title, help) = match why {
        NoSquare::OutOfRange(x) => {
            (format!("{x} {unit} is not a possible strength"), "strengths run from 0 to 100".to_owned())
        }
        NoSquare::Sides => (
            "the strong side is not stronger than the weak side".to_owned(),
            "give the stronger one with --strong and the weaker one with --weak".to_owned(),
        ),
        NoSquare::Target => (
            "the target does not lie between the two sides".to_owned(),
            "a blend is never stronger than its strong side nor weaker than its weak side".to_owned(),
        ),
        NoSquare::Engine(trouble) => {
            (format!("no exact answer was found: {trouble}"), "check the three strengths".to_owned())
        }
    };
    Diagnostic::error(code, title).help(help)
}
