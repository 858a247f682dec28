//! `date`: how long it keeps, store by store, and what to look out for.

use std::path::PathBuf;

use chrono::NaiveDate;

use crate::assessment::{self, IdentityQuestion, Lot, Which};
use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::render;
use crate::report::date::{DateReport, DateView};
use crate::shelf_life::Draws;
use crate::shelf_life::calendar::Frozen;
use crate::solver::{Options, solve};
use crate::units::NumberRange;

use super::Reply;
use super::book;
use super::open::{self, argument};
use super::output;

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
  stillroom date formulas/plain-syrup.toml --made 2026-11-25 --store fridge

Example: the limes were pressed the day before, and the bottle was in the freezer
  stillroom date formulas/fresh-lime-juice.toml --made 2026-11-25 --oldest-part 2026-11-24 --frozen \"2026-11-25 to 2026-12-01\"")]
pub(crate) struct Args {
    /// The formula file, or the product's name
    file: String,
    /// The day it is made (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    made: Option<String>,
    /// The day on which the oldest juice in it was pressed or the oldest bottle in it opened, if before it was made
    #[arg(long, value_name = "YYYY-MM-DD")]
    oldest_part: Option<String>,
    /// Days in the freezer, which do not count ("2026-11-27 to 2026-12-10", or one day if it is still in); may be
    /// given more than once
    #[arg(long, value_name = "FROM to THAWED")]
    frozen: Vec<String>,
    /// The age in days at which a lot of it showed gas, haze, film, mould or a swollen cap
    #[arg(long, value_name = "DAYS")]
    spoiled: Option<String>,
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
    /// Every reason and caution in full, with its sources and whom to ask
    #[arg(long)]
    full: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// A hundred years (ours).
const AGE: NumberRange = NumberRange::whole(0.0, 36_500.0, "days");

fn lot(args: &Args, found: &mut Vec<Diagnostic>) -> Lot {
    let made = open::day("--made", args.made.as_deref(), found).unwrap_or_else(open::today);
    let oldest_part = open::day("--oldest-part", args.oldest_part.as_deref(), found);
    if let Some(written) = args.oldest_part.as_ref().filter(|_| oldest_part.is_some_and(|day| day > made)) {
        let why = format!("no part of it can be younger than the lot, which was made on {made}");
        found.push(open::bad_argument(
            "--oldest-part",
            written,
            &why,
            "write the day on which its oldest part was made",
        ));
    }
    let frozen = args.frozen.iter().filter_map(|written| stay(written, made, found)).collect();
    let spoiled_days = argument(args.spoiled.as_deref(), "--spoiled 12", |n| AGE.read(n), found);
    Lot { made, oldest_part, frozen, spoiled_days, ..Lot::default() }
}

fn stay(written: &str, made: NaiveDate, found: &mut Vec<Diagnostic>) -> Option<Frozen> {
    let (from, to) = match written.split_once(" to ") {
        Some((from, to)) => (open::day("--frozen", Some(from), found)?, Some(open::day("--frozen", Some(to), found)?)),
        None => (open::day("--frozen", Some(written), found)?, None),
    };
    if from < made || to.is_some_and(|to| to < from) {
        let why = "it is frozen after it is made, and thawed after that";
        let help = "write it as \"2026-11-27 to 2026-12-10\"";
        return open::bad_argument("--frozen", written, why, help).refused(found);
    }
    Some(Frozen { from, to })
}

/// A reading of a day to come is a slip of the pen.
fn read_in_the_future(card: &Card, today: NaiveDate) -> Option<Diagnostic> {
    let on = card.measured.on.as_ref().filter(|on| on.value > today)?;
    let title = format!("the readings are of {}, a day to come", on.value);
    Some(
        Diagnostic::error(Code::OutOfRange, title)
            .at(on.span, "in the future")
            .help("write the day on which it was read")
            .in_file(&card.file),
    )
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file, &args.measured, Vec::new());
    let lot = lot(args, &mut opened.found);
    let which = if args.chart.is_some() { Which::AllWithBands } else { Which::All };
    let today = open::today();
    let text = |report: &DateReport| render::text::date(report, super::page().with_full(args.full));
    opened.reply(args.json, text, |card, house, found| {
        if let Some(why) = read_in_the_future(card, today) {
            return why.refused(found);
        }
        let solved = solve(card, house, &Options::default()).told(found)?;
        let taught = book::taught(&args.file, &solved, house, found);
        let lot = Lot { of_lots: taught.of_lots, ..lot };
        // A size that the amounts do not make is an error, and what they make has its date.
        let said = found.len();
        let (mut judged, of_judgement) = assessment::assess(&solved, house, lot, which, Draws::default());
        // With an open question no change buys a date.
        if judged.unidentified.is_empty() {
            // what is bought is told in weeks and months: fewer draws will do
            let few = Draws { draws: 4_000, ..Draws::default() };
            judged.what_if = assessment::whatif::what_if(&solved, house, &judged, few);
        }
        found.extend(of_judgement);
        found.extend(args.store.as_ref().and_then(|wanted| judged.keep_only(wanted)));
        if any_error(found.get(said..).unwrap_or_default()) {
            return None;
        }
        let chart = || render::chart::expected_life(&solved.name, &judged);
        found.extend(output::chart(args.chart.as_ref(), chart, &args.file));
        let mut view = DateView::new(&judged).beside_recipe(&judged, card).for_a_guest((card, &judged), house);
        view.say_what_has_passed(today);
        found.extend(view.without_date());
        found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
        Some(view)
    })
}
