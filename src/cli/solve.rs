//! `solve`: from a card to a weigh sheet.

use std::path::PathBuf;

use crate::diagnostic::{Code, Diagnostic};
use crate::render;
use crate::report::solve::{SolveReport, SolveView};
use crate::solver::asked::{from, pot};
pub(super) use crate::solver::asked::{makes, target};
use crate::solver::{BatchSize, Options, solve};
use crate::units::{Customs, Temperature, celsius, degrees_celsius, literal, readers, settled, taken};

use super::Reply;
use super::open::{self, argument, bad_argument};
use super::output;

/// Turn a card into grams to weigh, and say what the batch will be.
///
/// FILE is a formula file, or the name of a product of the house in this folder. A card with room (abv = "18 to 20 %", [aim]
/// least = "cost") gets the best answer that it allows, with what decides it.
#[derive(clap::Args)]
#[command(after_help = "\
Example: two litres of a card, at another sweetness
  stillroom solve formulas/rich-muscovado-syrup.toml --make 2L --set brix=62

Example: as much as three kilos of sugar give
  stillroom solve formulas/rich-plain-syrup.toml --from \"white sugar=3 kg\"

Example: with the acid and the pH of today's limes
  stillroom solve formulas/lime-cordial.toml --measured \"lime juice: acid=58 g/L, ph=2.3\"")]
pub(crate) struct Args {
    /// The formula file, or the product's name
    file: String,
    /// How much to make: a volume, a weight, or bottles ("6 x 250 ml")
    #[arg(long, value_name = "AMOUNT", conflicts_with = "from")]
    make: Option<String>,
    /// Make as much as this much of one part allows ("white sugar=3 kg")
    #[arg(long, value_name = "PART=AMOUNT")]
    from: Option<String>,
    /// Make as much as a pot of this size takes, with room to stir ("5 L")
    #[arg(long, value_name = "VOLUME", conflicts_with_all = ["make", "from"])]
    pot: Option<String>,
    /// Another target than the card's ("brix=62"); may be given more than once
    #[arg(long, value_name = "TARGET=VALUE")]
    set: Vec<String>,
    /// The temperature that properties are given at
    #[arg(long, value_name = "TEMPERATURE", default_value = "20 °C")]
    at: String,
    /// The day it is made (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    made: Option<String>,
    /// A reading of an ingredient, in place of the larder's value: titrated acid as citric and pH together
    /// calibrate it ("lime juice: acid=58 g/L, ph=2.3"); may be given more than once
    #[arg(long, value_name = "INGREDIENT: READINGS")]
    measured: Vec<String>,
    /// Every number, uncertainty, assumption and caution, not only what the bench needs
    #[arg(long)]
    full: bool,
    /// Draw where it stands, as .svg or .png: how sweet and strong beside what the law asks of a liqueur; of a syrup what
    /// stays dissolved in each store
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// For a spreadsheet
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file, &args.measured, Vec::new());
    let customs = opened.house.customs();
    let found = &mut opened.found;
    let (options, at) = read_options(args, &customs, found);
    let made = open::day("--made", args.made.as_deref(), found).unwrap_or_else(open::today);
    let text = |report: &SolveReport| match args.csv {
        true => report.answer().map_or_else(String::new, render::csv::solve_csv),
        false => render::text::solve(report, super::page().with_full(args.full)),
    };
    opened.asked(&options).reply(args.json, text, |card, house, found| {
        let solved = solve(card, house, &options).told(found)?;
        if let Some(path) = &args.chart {
            found.extend(match render::chart::of_card(&solved, house).into_iter().next() {
                Some(svg) => output::chart(Some(path), || svg, &args.file),
                None => {
                    vec![Diagnostic::error(Code::BadArgument, NO_CHART).help("stillroom date CARD --chart life.svg")]
                }
            });
        }
        let (mut sheet, of_sheet) = SolveView::new(card, &solved, house, options.asked(card), at, made);
        found.extend(of_sheet);
        let from = args.from.as_ref().and_then(|from| from.split_once('=')).map(|(_, amount)| amount);
        let amounts = [args.make.as_deref(), args.pot.as_deref(), from].into_iter().flatten();
        let read: Vec<_> = amounts.filter_map(|amount| literal::read_by(amount, &customs).ok()).collect();
        sheet.assumed.extend(taken(&read).into_iter().chain(settled(&read)));
        // The card counts the pieces of its own size.
        sheet.pieces = sheet.pieces.filter(|_| options.size.is_none());
        Some(sheet)
    })
}

const NO_CHART: &str = "no chart: it has no alcohol, is too thin to crystallise and is not mixed from two";

/// The examples of a size, for the verbs that make something.
pub(super) const MAKE: &str = "--make 2L, --make \"1.5 kg\" or --make \"6 x 250 ml\"";

fn read_options(args: &Args, customs: &Customs, found: &mut Vec<Diagnostic>) -> (Options, Temperature) {
    let make = argument(args.make.as_deref(), MAKE, |make| makes(make, customs), found).map(BatchSize::Makes);
    let from = argument(args.from.as_deref(), "--from \"white sugar=3 kg\"", |part| from(part, customs), found);
    let pot = argument(args.pot.as_deref(), "--pot 5L", |size| pot(size, customs), found);
    let other = "--set brix=62, --set \"sugar=250 g/L\"";
    let set = args.set.iter().filter_map(|written| argument(Some(written), other, target, found)).collect();
    let at = argument(Some(&args.at), "--at 4C", readers::temperature, found).unwrap_or(celsius(20.0));
    if !KITCHEN_C.contains(&degrees_celsius(at)) {
        let why = "no property of a liquid can be given there";
        found.push(bad_argument("--at", &args.at, why, "from -40 °C to 110 °C; boiling and freezing are told apart"));
    }
    (Options { set, size: make.or(from).or(pot), ..Options::default() }, at)
}

/// From a hard freezer to a boiling syrup: outside is a slip of the finger (ours).
const KITCHEN_C: std::ops::RangeInclusive<f64> = -40.0..=110.0;
