//! `cost`: what a batch costs, and whether to make it or to buy it.

use std::path::PathBuf;

use crate::cost::{BoughtBottle, Habits, Price, SellAsked, price};
use crate::diagnostic::Diagnostic;
use crate::render;
use crate::report::Report;
use crate::report::cost::CostView;
use crate::report::cost_question::{CostQuestion, PriceOver};
use crate::solver::{BatchSize, Options};
use crate::units::readers::{self, Strength};
use crate::units::{Customs, LiteralError, NumberRange, in_millilitres};

use super::Reply;
use super::open::{self, argument, bad_argument};
use super::output;
use super::solve::{MAKE, makes};

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
    weekly: Option<String>,
    /// Days that your own keeps, for the waste that is likely; by its date if none is given
    #[arg(long, value_name = "DAYS", requires = "against")]
    life: Option<String>,
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
    /// For a spreadsheet
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// What is printed: the sheet, or its lines for a spreadsheet.
fn as_csv_or_text(csv: bool) -> fn(&Report<CostView>) -> String {
    match csv {
        true => |report| report.answer().map_or_else(String::new, render::csv::cost_csv),
        false => render::text::cost,
    }
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file, &[], Vec::new());
    let question = question(args, &opened.house.customs(), &mut opened.found);
    let opened = opened.asked(&question.options);
    opened.reply(args.json, as_csv_or_text(args.csv), |card, house, found| {
        let view = CostView::of_card(card, house, &question, found)?;
        if let Some(batch) = &view.batch.0 {
            let chart = || render::chart::where_the_money_goes(&card.name.value, batch);
            found.extend(output::chart(args.chart.as_ref(), chart, &args.file));
        }
        Some(view)
    })
}

/// More bottles no house empties in a week (ours).
const WEEKLY: NumberRange = NumberRange::above(0.0, 100_000.0, "bottles");
/// A hundred years (ours): it keeps at least a day, or it need not be compared.
const LIFE: NumberRange = NumberRange::whole(1.0, 36_500.0, "days");

fn question(args: &Args, customs: &Customs, found: &mut Vec<Diagnostic>) -> CostQuestion {
    let size = argument(args.make.as_deref(), MAKE, |make| makes(make, customs), found);
    let abv_pct = argument(args.against_abv.as_deref(), "--against-abv 20", strength, found);
    let against = args.against.as_ref();
    let against = against.and_then(|price| price_of((price, price), customs, "--against \"24 GBP / 700 ml\"", found));
    let weekly = argument(args.weekly.as_deref(), "--weekly 3", |n| WEEKLY.read(n), found);
    let life = argument(args.life.as_deref(), "--life 30", |n| LIFE.read(n), found);
    let ml = argument(args.sell_measure.as_deref(), "--sell-measure \"25 ml\"", |ml| measure(ml, customs), found);
    let at = argument(args.sell_at.as_deref(), "--sell-at \"8.50 GBP\"", price::amount, found);
    CostQuestion {
        options: Options { size: size.map(BatchSize::Makes), ..Options::default() },
        prices: args.price.iter().filter_map(|written| price_over(written, customs, found)).collect(),
        today: Some(open::day("--today", args.today.as_deref(), found).unwrap_or_else(open::today)),
        bought: against.map(|price| BoughtBottle { price, abv_pct }),
        habits: Habits { weekly, life_days: life.map(|days| days as u32) },
        sell: SellAsked { ml, at, ..SellAsked::default() },
    }
}

fn strength(written: &str) -> Result<f64, String> {
    match readers::abv(written)? {
        Strength::Abv(abv) => Ok(abv.get()),
        Strength::Proof(_) => Err("percent by volume was expected".to_owned()),
    }
}

fn measure(written: &str, customs: &Customs) -> Result<f64, String> {
    let volume = readers::volume_by(written, customs)?;
    if volume.value > 0.0 { Ok(in_millilitres(volume)) } else { Err("nothing would be sold".to_owned()) }
}

/// `rum=38 GBP / 700 ml`
fn price_over(written: &str, customs: &Customs, found: &mut Vec<Diagnostic>) -> Option<PriceOver> {
    const EXAMPLE: &str = "--price \"white sugar=1.20 GBP / 1 kg\"";
    let parted = |written: &str| {
        let (part, price) = written.split_once('=').ok_or("a part, `=` and a price were expected")?;
        Ok::<_, &str>((part.trim().to_owned(), price.trim().to_owned()))
    };
    let (part, price) = argument(Some(written), EXAMPLE, parted, found)?;
    Some(PriceOver { price: price_of((&price, written), customs, EXAMPLE, found)?, part, written: price })
}

/// A price, of an option that was written so; the reader of prices may know better than the example what to write.
fn price_of(
    (price, written): (&str, &str),
    customs: &Customs,
    example: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<Price> {
    let refused = |why: LiteralError| {
        let option = example.split(' ').next().unwrap_or(example);
        let help = why.help.unwrap_or_else(|| format!("write for example {example}"));
        found.push(bad_argument(option, written, &why.title, &help));
    };
    Price::parse_by(price, customs).map_err(refused).ok()
}
