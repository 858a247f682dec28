//! What the options of `cost` ask for.

use crate::card::Card;
use crate::cli::open::{self, bad_argument};
use crate::cost::{BoughtBottle, CostAsked, Price, SellAsked, ingredient_meant, price};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::solver::{BatchSize, Options, Solved};
use crate::units::in_millilitres;
use crate::units::literal::LiteralError;
use crate::units::readers::{self, Strength};

use super::Args;

/// What was asked beside the batch.
#[derive(Default)]
pub(super) struct Extra {
    pub bought: Option<BoughtBottle>,
    pub sell: SellAsked,
}

pub(super) fn options(args: &Args, found: &mut Vec<Diagnostic>) -> Options {
    let size = args.make.as_ref().and_then(|written| match crate::cli::solve::makes(written) {
        Ok(makes) => Some(BatchSize::Makes(makes)),
        Err(why) => {
            let help = "write for example --make 2L, --make \"1.5 kg\" or --make \"6 x 250 ml\"";
            found.push(bad_argument("--make", written, &why, help));
            None
        }
    });
    Options { size, ..Options::default() }
}

pub(super) fn extra(args: &Args, found: &mut Vec<Diagnostic>) -> Extra {
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
            Ok(price) => extra.bought = Some(BoughtBottle { price, abv_pct }),
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
            Ok(volume) if volume.value > 0.0 => extra.sell.ml = Some(in_millilitres(volume)),
            Ok(_) => {
                bad("--sell-measure", written, "nothing would be sold", "write for example --sell-measure \"25 ml\"")
            }
            Err(why) => bad("--sell-measure", written, &why.title, "write for example --sell-measure \"25 ml\""),
        }
    }
    if let Some(written) = &args.sell_at {
        match price::amount(written) {
            Ok(amount) => extra.sell.at = Some(amount),
            Err(why) => bad("--sell-at", written, &why.title, "write for example --sell-at \"8.50 GBP\""),
        }
    }
    extra
}

fn help_of(why: &LiteralError, otherwise: &str) -> String {
    why.help.clone().unwrap_or_else(|| otherwise.to_owned())
}

pub(super) fn asked(
    args: &Args,
    card: &Card,
    solved: &Solved,
    house: &House,
    options: &Options,
    found: &mut Vec<Diagnostic>,
) -> CostAsked {
    CostAsked {
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
    let Some(ingredient) = ingredient_meant(name, &used, house, found) else {
        let near = crate::input::nearest(name, used.iter().map(|(i, _)| i.name.as_str()));
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
