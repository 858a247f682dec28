//! `cost`: what a batch costs, and whether to make it or to buy it.

use std::path::PathBuf;

use crate::cost::{BoughtBottle, Habits, Price, SellAsked, price};
use crate::diagnostic::{Diagnostic, any_error};
use crate::render;
use crate::report::Report;
use crate::report::cost::CostView;
use crate::report::cost_question::{CostQuestion, PriceOver};
use crate::solver::{BatchSize, Options};
use crate::units::readers::{self, Strength};
use crate::units::{LiteralError, in_millilitres};

use super::Reply;
use super::open::{self, bad_argument};
use super::output::{self, Output, What};

/// Say what a batch costs: parts at their price and yield, labour, heat, bottles; per litre and per measure.
///
/// Prices stand in the house's larder.toml, rates under [costs] of house.toml. What has no price is named, and
/// the total is marked incomplete.
#[derive(clap::Args)]
#[command(after_help = "\
Example: what a batch costs
  stillroom cost formulas/lime-cordial.toml

Example: against a bought bottle, at three bottles a week and a life of 30 days
  stillroom cost formulas/coffee-liqueur.toml --against \"24 GBP / 700 ml\" --against-abv 20 --weekly 3 --life 30")]
pub(crate) struct Args {
    /// The formula file, or the product's name
    file: String,
    /// How much to make: a volume, a weight, or bottles ("6 x 250 ml")
    #[arg(long, value_name = "AMOUNT")]
    make: Option<String>,
    /// Another price than the larder's ("rum=38 GBP / 700 ml"); may be given more than once
    #[arg(long, value_name = "PART=PRICE")]
    price: Vec<String>,
    /// A bought bottle to compare with ("24 GBP / 700 ml")
    #[arg(long, value_name = "PRICE")]
    against: Option<String>,
    /// The strength of the bought bottle, % vol
    #[arg(long, value_name = "STRENGTH", requires = "against")]
    against_abv: Option<String>,
    /// Bottles of the bought size that are used in a week
    #[arg(long, value_name = "BOTTLES", requires = "against")]
    weekly: Option<f64>,
    /// Days that your own keeps, for the waste that is likely; by its date if none is given
    #[arg(long, value_name = "DAYS", requires = "against")]
    life: Option<u32>,
    /// The measure to give a selling price for; the card's own if none is given
    #[arg(long, value_name = "VOLUME")]
    sell_measure: Option<String>,
    /// What the guest pays for that measure, tax in it ("8.50 GBP"): what stays of it
    #[arg(long, value_name = "MONEY")]
    sell_at: Option<String>,
    /// The day on which the age of prices is counted; today if none is given
    #[arg(long, value_name = "YYYY-MM-DD")]
    today: Option<String>,
    /// Draw where the money goes as an SVG or PNG file
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub(crate) fn run(args: &Args) -> Reply {
    let mut diagnostics = Vec::new();
    let question = question(args, &mut diagnostics);
    let opened = open::card(&args.file);
    diagnostics.extend(opened.diagnostics);
    let view = match &opened.card {
        Some(card) if !any_error(&diagnostics) => CostView::of_card(card, &opened.house, &question, &mut diagnostics),
        _ => None,
    };
    let name = opened.card.as_ref().map(|c| c.name.value.as_str());
    let batch = view.as_ref().and_then(|view| view.batch.0.as_ref());
    if let (Some(path), Some(batch)) = (&args.chart, batch) {
        let chart = What::Chart(render::chart::where_the_money_goes(name.unwrap_or_default(), batch));
        diagnostics.extend(output::write(vec![Output { option: "--chart", path, what: chart }], &[args.file.as_ref()]));
    }
    let stopped = view.as_ref().is_some_and(|view| !view.stops.is_empty());
    let report = Report::new(view, &diagnostics, open::text_of).of_product(name);
    Reply::of(&report, diagnostics, args.json, render::text::cost).stopped_if(stopped)
}

fn question(args: &Args, found: &mut Vec<Diagnostic>) -> CostQuestion {
    let mut bad = |option: &str, written: &str, why: &str, help: &str| {
        found.push(bad_argument(option, written, why, help));
    };
    let size = args.make.as_ref().and_then(|written| {
        let help = "write for example --make 2L, --make \"1.5 kg\" or --make \"6 x 250 ml\"";
        super::solve::makes(written).map_err(|why| bad("--make", written, &why, help)).ok()
    });
    let against_abv = args.against_abv.as_ref().and_then(|written| {
        let why = match readers::abv(written) {
            Ok(Strength::Abv(abv)) => return Some(abv.get()),
            Ok(Strength::Proof(_)) => "percent by volume was expected".to_owned(),
            Err(why) => why.title,
        };
        bad("--against-abv", written, &why, "write for example --against-abv 20");
        None
    });
    let against = args.against.as_ref().and_then(|written| {
        let bad = |why: LiteralError| {
            let help = why.help.as_deref().unwrap_or("write for example --against \"24 GBP / 700 ml\"");
            bad("--against", written, &why.title, help);
        };
        Price::parse(written).map_err(bad).ok()
    });
    if let Some(weekly) = args.weekly.filter(|w| !(*w > 0.0 && *w < 1e6)) {
        let why = "a number of bottles above nothing was expected";
        bad("--weekly", &weekly.to_string(), why, "write for example --weekly 3");
    }
    if args.life == Some(0) {
        bad("--life", "0", "it keeps at least a day, or it need not be compared", "write for example --life 30");
    }
    let ml = args.sell_measure.as_ref().and_then(|written| {
        let why = match readers::volume(written) {
            Ok(volume) if volume.value > 0.0 => return Some(in_millilitres(volume)),
            Ok(_) => "nothing would be sold".to_owned(),
            Err(why) => why.title,
        };
        bad("--sell-measure", written, &why, "write for example --sell-measure \"25 ml\"");
        None
    });
    let at = args.sell_at.as_ref().and_then(|written| {
        let help = "write for example --sell-at \"8.50 GBP\"";
        price::amount(written).map_err(|why| bad("--sell-at", written, &why.title, help)).ok()
    });
    CostQuestion {
        options: Options { size: size.map(BatchSize::Makes), ..Options::default() },
        prices: args.price.iter().filter_map(|written| price_over(written, found)).collect(),
        today: Some(open::day("--today", args.today.as_deref(), found).unwrap_or_else(open::today)),
        bought: against.map(|price| BoughtBottle { price, abv_pct: against_abv }),
        habits: Habits { weekly: args.weekly, life_days: args.life },
        sell: SellAsked { ml, at },
    }
}

/// `rum=38 GBP / 700 ml`
fn price_over(written: &str, found: &mut Vec<Diagnostic>) -> Option<PriceOver> {
    const EXAMPLE: &str = "write for example --price \"white sugar=1.20 GBP / 1 kg\"";
    let Some((part, price)) = written.split_once('=') else {
        found.push(bad_argument("--price", written, "a part, `=` and a price were expected", EXAMPLE));
        return None;
    };
    let (part, written_price) = (part.trim().to_owned(), price.trim().to_owned());
    match Price::parse(&written_price) {
        Ok(price) => Some(PriceOver { part, price, written: written_price }),
        Err(why) => {
            found.push(bad_argument("--price", written, &why.title, why.help.as_deref().unwrap_or(EXAMPLE)));
            None
        }
    }
}
