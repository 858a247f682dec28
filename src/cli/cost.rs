//! `cost`: what a batch costs, and whether to make it or to buy it.

mod asked;

use std::path::PathBuf;

use chrono::NaiveDate;

use crate::assessment::{self, Which};
use crate::cost::{BoughtBottle, Comparison, Costing, Habits, Tax, compare, cost_of, sell};
use crate::diagnostic::{Diagnostic, Severity, any_error};
use crate::house::House;
use crate::render;
use crate::report::caution::CautionView;
use crate::shelf_life::Draws;
use crate::solver::{Solved, solve};

use super::Reply;
use super::open;
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
pub struct Args {
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
pub fn run(args: &Args) -> Reply {
    let mut diagnostics = Vec::new();
    let options = asked::options(args, &mut diagnostics);
    let extra = asked::extra(args, &mut diagnostics);
    let opened = open::card(&args.file);
    diagnostics.extend(opened.diagnostics);
    let (mut costing, mut compared, mut selling, mut life) = (None, None, None, args.life);
    let mut stops = Vec::new();
    if let (Some(card), false) = (&opened.card, any_error(&diagnostics)) {
        let outcome = solve(card, &opened.house, &options);
        diagnostics.extend(outcome.diagnostics);
        if let Some(solved) = outcome.solved.filter(|_| !any_error(&diagnostics)) {
            let asked = asked::asked(args, card, &solved, &opened.house, &options, &mut diagnostics);
            if args.weekly.is_some() && life.is_none() {
                life = days_of(&solved, &opened.house);
            }
            stops = assessment::stops(&solved, &opened.house).0;
            // With a price that could not be read the answer would be of another question.
            if !any_error(&diagnostics) {
                let (made, found) = cost_of(&solved, &opened.house, &asked);
                diagnostics.extend(found);
                costing = made;
            }
        }
    }
    if let Some(costing) = &costing {
        compared = against((args.weekly, life), costing, &opened.house, &extra, &mut diagnostics);
        selling = sell(costing, &opened.house, extra.sell, &mut diagnostics);
    }
    if let (Some(path), Some(costing)) = (&args.chart, &costing) {
        let chart = What::Chart(render::chart::where_the_money_goes(costing));
        diagnostics.extend(output::write(vec![Output { option: "--chart", path, what: chart }], &[args.file.as_ref()]));
    }
    let name = opened.card.as_ref().map(|c| c.name.value.as_str());
    if args.json {
        let out = render::json::cost(name, costing.as_ref(), compared.as_ref(), selling.as_ref(), &stops, &diagnostics);
        return Reply::whole(out, &diagnostics).stopped_if(!stops.is_empty());
    }
    diagnostics.retain(|d| d.severity > Severity::Note);
    let text = |c: &Costing| render::text::cost(c, compared.as_ref(), selling.as_ref());
    let out = render::text::stops(&CautionView::all(&stops)) + &costing.as_ref().map_or_else(String::new, text);
    Reply::new(out, diagnostics).stopped_if(!stops.is_empty())
}

/// The days that it keeps in the store that it is planned for.
fn days_of(solved: &Solved, house: &House) -> Option<u32> {
    let (dated, _) = assessment::assess(solved, house, NaiveDate::default(), Which::Planned, Draws::default());
    dated.stores.get(dated.planned).and_then(|store| store.days)
}

fn against(
    (weekly, life_days): (Option<f64>, Option<u32>),
    costing: &Costing,
    house: &House,
    extra: &asked::Extra,
    found: &mut Vec<Diagnostic>,
) -> Option<Comparison> {
    let habits = Habits { weekly, life_days };
    let bought = extra.bought?;
    // like with like: what the house says of the tax in its prices holds for this one too
    let of_house = house.settings.costs.prices.as_ref().and_then(|written| Tax::parse(&written.value).ok());
    let bought = BoughtBottle { price: bought.price.or_tax(of_house.unwrap_or_default()), ..bought };
    match compare(costing, &bought, habits) {
        Ok(compared) => Some(compared),
        Err(why) => {
            found.push(*why);
            None
        }
    }
}
