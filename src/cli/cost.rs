//! `cost`: what a batch costs, and whether to make it or to buy it.

use std::path::PathBuf;

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::cost::trade::{self, Selling};
use crate::cost::{
    Asked, Bought, Comparison, Costing, Currency, Habits, Price, Tax, compare, cost_of, currency, price,
};
use crate::dated::{self, Which};
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::formula::Formula;
use crate::house::House;
use crate::quantity::readers::{self, Strength};
use crate::quantity::{in_millilitres, literal::LiteralError};
use crate::render;
use crate::shelf_life::Settings;
use crate::solve::{Options, Size, Solved, solve};

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

/// What was asked beside the batch.
#[derive(Default)]
struct Extra {
    bought: Option<Bought>,
    sell_ml: Option<f64>,
    sell_at: Option<(Decimal, Currency)>,
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let mut diagnostics = Vec::new();
    let options = options(args, &mut diagnostics);
    let extra = extra(args, &mut diagnostics);
    let opened = open::card(&args.file);
    diagnostics.extend(opened.diagnostics);
    let (mut costing, mut compared, mut selling, mut life) = (None, None, None, args.life);
    if let (Some(card), false) = (&opened.card, any_error(&diagnostics)) {
        let outcome = solve(card, &opened.house, &options);
        diagnostics.extend(outcome.diagnostics);
        if let Some(solved) = outcome.solved.filter(|_| !any_error(&diagnostics)) {
            let asked = asked(args, card, &solved, &opened.house, &options, &mut diagnostics);
            if args.weekly.is_some() && life.is_none() {
                life = days_of(&solved, &opened.house);
            }
            let (made, found) = cost_of(&solved, &opened.house, &asked);
            diagnostics.extend(found);
            costing = made;
        }
    }
    if let Some(costing) = &costing {
        compared = against((args.weekly, life), costing, &opened.house, &extra, &mut diagnostics);
        selling = sell(costing, &opened.house, &extra, &mut diagnostics);
    }
    if let (Some(path), Some(costing)) = (&args.chart, &costing) {
        let chart = What::Chart(render::chart::where_the_money_goes(costing));
        diagnostics.extend(output::write(vec![Output { option: "--chart", path, what: chart }], &[args.file.as_ref()]));
    }
    let name = opened.card.as_ref().map(|c| c.name.value.as_str());
    if args.json {
        let out = render::json::cost(name, costing.as_ref(), compared.as_ref(), selling.as_ref(), &diagnostics);
        return Reply::whole(out, &diagnostics);
    }
    diagnostics.retain(|d| d.severity > Severity::Note);
    let out = costing.map_or_else(String::new, |c| render::text::cost(&c, compared.as_ref(), selling.as_ref()));
    Reply::new(out, diagnostics)
}

/// The days that it keeps in the store that it is planned for.
fn days_of(solved: &Solved, house: &House) -> Option<u32> {
    let (dated, _) = dated::of(solved, house, NaiveDate::default(), Which::Planned, Settings::default());
    dated.stores.get(dated.planned).and_then(|store| store.days)
}

fn options(args: &Args, found: &mut Vec<Diagnostic>) -> Options {
    let size = args.make.as_ref().and_then(|written| match super::solve::makes(written) {
        Ok(makes) => Some(Size::Makes(makes)),
        Err(why) => {
            let help = "write for example --make 2L, --make \"1.5 kg\" or --make \"6 x 250 ml\"";
            found.push(bad_argument("--make", written, &why, help));
            None
        }
    });
    Options { size, ..Options::default() }
}

fn extra(args: &Args, found: &mut Vec<Diagnostic>) -> Extra {
    let mut bad = |option: &str, written: &str, why: &str, help: &str| {
        found.push(bad_argument(option, written, why, help));
    };
    let mut extra = Extra::default();
    let mut abv_pct = None;
    if let Some(written) = &args.against_abv {
        match readers::abv(written) {
            Ok(Strength::Abv(abv)) => abv_pct = Some(abv.get()),
            Ok(Strength::Proof(_)) => {
                bad("--against-abv", written, "percent by volume was expected", "write for example --against-abv 20")
            }
            Err(why) => bad("--against-abv", written, &why.title, "write for example --against-abv 20"),
        }
    }
    if let Some(written) = &args.against {
        match Price::parse(written) {
            Ok(price) => extra.bought = Some(Bought { price, abv_pct }),
            Err(why) => {
                bad("--against", written, &why.title, &help_of(&why, "write for example --against \"24 GBP / 700 ml\""))
            }
        }
    }
    if let Some(weekly) = args.weekly.filter(|w| !(*w > 0.0 && *w < 1e6)) {
        bad(
            "--weekly",
            &weekly.to_string(),
            "a number of bottles above nothing was expected",
            "write for example --weekly 3",
        );
    }
    if args.life == Some(0) {
        bad("--life", "0", "it keeps at least a day, or it need not be compared", "write for example --life 30");
    }
    if let Some(written) = &args.sell_measure {
        match readers::volume(written) {
            Ok(volume) if volume.value > 0.0 => extra.sell_ml = Some(in_millilitres(volume)),
            Ok(_) => {
                bad("--sell-measure", written, "nothing would be sold", "write for example --sell-measure \"25 ml\"")
            }
            Err(why) => bad("--sell-measure", written, &why.title, "write for example --sell-measure \"25 ml\""),
        }
    }
    if let Some(written) = &args.sell_at {
        match price::amount(written) {
            Ok(amount) => extra.sell_at = Some(amount),
            Err(why) => bad("--sell-at", written, &why.title, "write for example --sell-at \"8.50 GBP\""),
        }
    }
    extra
}

fn help_of(why: &LiteralError, otherwise: &str) -> String {
    why.help.clone().unwrap_or_else(|| otherwise.to_owned())
}

fn asked(
    args: &Args,
    card: &Formula,
    solved: &Solved,
    house: &House,
    options: &Options,
    found: &mut Vec<Diagnostic>,
) -> Asked {
    Asked {
        prices: args.price.iter().filter_map(|written| over(written, solved, house, found)).collect(),
        today: Some(open::day("--today", args.today.as_deref(), found).unwrap_or_else(open::today)),
        makes: options.asked(card),
        serving_ml: card.serving.map(|s| in_millilitres(s.value)),
    }
}

/// `rum=38 GBP / 700 ml`
fn over(written: &str, solved: &Solved, house: &House, found: &mut Vec<Diagnostic>) -> Option<(String, Price, String)> {
    const EXAMPLE: &str = "write for example --price \"white sugar=1.20 GBP / 1 kg\"";
    let Some((name, price)) = written.split_once('=') else {
        found.push(bad_argument("--price", written, "a part, `=` and a price were expected", EXAMPLE));
        return None;
    };
    let (name, price) = (name.trim(), price.trim());
    let used = solved.ingredients();
    let id = house.larder.find(name).map(|i| i.id.as_str());
    let Some((ingredient, _)) = used.iter().find(|(i, _)| Some(i.id.as_str()) == id) else {
        let near = crate::text::nearest(name, used.iter().map(|(i, _)| i.name.as_str()));
        let listed: Vec<_> = used.iter().map(|(i, _)| i.name.as_str()).collect();
        let help = near
            .map_or_else(|| format!("its ingredients are: {}", listed.join(", ")), |n| format!("did you mean `{n}`?"));
        found.push(Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`")).help(help));
        return None;
    };
    match Price::parse(price) {
        Ok(read) => Some((ingredient.id.clone(), read, price.to_owned())),
        Err(why) => {
            found.push(bad_argument("--price", written, &why.title, &help_of(&why, EXAMPLE)));
            None
        }
    }
}

fn against(
    (weekly, life_days): (Option<f64>, Option<u32>),
    costing: &Costing,
    house: &House,
    extra: &Extra,
    found: &mut Vec<Diagnostic>,
) -> Option<Comparison> {
    let habits = Habits { weekly, life_days };
    let bought = extra.bought?;
    // like with like: what the house says of the tax in its prices holds for this one too
    let of_house = house.settings.costs.prices.as_ref().and_then(|written| Tax::parse(&written.value).ok());
    let bought = Bought { price: bought.price.or_tax(of_house.unwrap_or_default()), ..bought };
    match compare(costing, &bought, habits) {
        Ok(compared) => Some(compared),
        Err(why) => {
            found.push(*why);
            None
        }
    }
}

/// The price of a measure: what one leaves, or the one that leaves what the house means to earn.
fn sell(
    costing: &Costing,
    house: &House,
    extra: &Extra,
    found: &mut Vec<Diagnostic>,
) -> Option<(f64, Decimal, Selling)> {
    let costs = &house.settings.costs;
    let target = costs.gross_profit.or(costs.pour_cost.map(|pour| 1.0 - pour));
    let ml = extra.sell_ml.or(costing.serving.as_ref().map(|m| m.ml))?;
    let cost = costing.of_ml(ml)?;
    let tax = costs.sales_tax.and_then(currency::quantity);
    let selling = match (extra.sell_at, target) {
        (Some((_, currency)), _) if currency != costing.currency => {
            let title = format!("the selling price is in {}, the cost in {}", currency.code(), costing.currency.code());
            found.push(Diagnostic::error(Code::MixedCurrencies, title).help("write both in one currency"));
            None
        }
        (Some((guest_pays, _)), _) => trade::sold_at(cost, guest_pays, tax),
        (None, Some(target)) => trade::selling(cost, currency::quantity(target)?, tax),
        (None, None) => {
            if extra.sell_ml.is_some() {
                let title = "nothing says what the house means to earn on a measure";
                let help = "under [costs] in house.toml: gross_profit = \"80 %\"; or here: --sell-at \"8.50 GBP\"";
                found.push(Diagnostic::error(Code::MissingKey, title).help(help));
            }
            None
        }
    };
    Some((ml, cost, selling?))
}
