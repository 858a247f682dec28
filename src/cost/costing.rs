//! The cost of a solved card.

use rust_decimal::Decimal;

use crate::card::{Makes, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::properties::amount_for;
use crate::solver::Solved;
use crate::solver::target::volume_ml;

use super::asked::CostAsked;
use super::book::Book;
use super::currency::{Currency, quantity};
use super::line::{CostKind, CostLine};
use super::losses::{Losses, losses_of};
use super::parts::parts;
use super::rates::rates;

/// What one measure costs.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureCost {
    /// Its name, where it has one beside its millilitres.
    pub name: Option<&'static str>,
    /// Millilitres.
    pub ml: f64,
    /// Cost before tax, not rounded.
    pub cost: Decimal,
}

/// What a batch costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Costing {
    /// The product's name.
    pub name: String,
    /// The currency of every figure.
    pub currency: Currency,
    /// The lines: the ingredients in card order, then labour, heat, bottles, duty.
    pub lines: Vec<CostLine>,
    /// The sum of the lines, before tax.
    pub batch: Decimal,
    /// The sum of the taxes that are known.
    pub tax: Decimal,
    /// Whether everything that costs money has a cost; if not, every figure is at least as high as it says.
    pub complete: bool,
    /// Whether the work is not in it, because nobody has said what an hour or the card takes: it is compared and priced all the
    /// same, and says so.
    pub without_labour: bool,
    /// What is bottled, grams.
    pub yield_g: f64,
    /// What is bottled at 20 °C, millilitres; `None` for what is dried.
    pub yield_ml: Option<f64>,
    /// Cost of a litre, not rounded.
    pub per_litre: Option<Decimal>,
    /// Cost of a kilogram, not rounded.
    pub per_kg: Option<Decimal>,
    /// Cost of a bottle, not rounded, where bottles are made.
    pub per_bottle: Option<Decimal>,
    /// For a serving, where servings are counted.
    pub per_piece: Option<Decimal>,
    /// Measures.
    pub measures: Vec<MeasureCost>,
    /// The measure that the card serves, or 30 ml.
    pub serving: Option<MeasureCost>,
    /// Cost of a gram of sugar in it, not rounded.
    pub per_gram_of_sugar: Option<Decimal>,
    /// Cost of a UK unit (10 ml of pure alcohol) in it, not rounded.
    pub per_uk_unit: Option<Decimal>,
    /// What is lost on the way; inside the lines.
    pub losses: Losses,
    /// Where most of the money goes: the line, and its share of the batch. None where not all is known.
    pub most: Option<(String, Decimal)>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
}

impl Costing {
    /// The line for labour, heat, containers or duty, if there is one.
    pub fn line(&self, kind: CostKind) -> Option<&CostLine> {
        self.lines.iter().find(|line| line.kind == kind)
    }

    /// What so many millilitres cost, not rounded.
    pub fn of_ml(&self, ml: f64) -> Option<Decimal> {
        self.share_of_ml(self.batch, ml)
    }

    /// What the ingredients of so many millilitres cost, not rounded: no work, heat, bottle or duty.
    pub fn ingredients_of_ml(&self, ml: f64) -> Option<Decimal> {
        let parts = self.lines.iter().filter(|line| line.kind == CostKind::Part);
        let all = parts.filter_map(|line| line.cost).try_fold(Decimal::ZERO, Decimal::checked_add)?;
        self.share_of_ml(all, ml)
    }

    fn share_of_ml(&self, of_all: Decimal, ml: f64) -> Option<Decimal> {
        of_all.checked_mul(quantity(ml)?)?.checked_div(quantity(self.yield_ml?)?)
    }
}

/// Measures of the bar, ml: metric jiggers, the US fluid ounce, and the dash (common practice, no source).
const MEASURES: [(Option<&str>, f64); 5] =
    [(None, 15.0), (None, 22.5), (Some("1 fl oz"), 29.5735295625), (None, 30.0), (Some("1 dash"), 0.9)];
/// The measure where the card names none, ml (common practice, no source).
const SERVING_ML: f64 = 30.0;

/// What a batch costs in its house. `None` where nothing can be added up: no price, or more than one currency.
pub fn cost_of(solved: &Solved, house: &House, asked: &CostAsked) -> (Option<Costing>, Vec<Diagnostic>) {
    let mut book = Book::open(house, asked);
    let mut assumed = Vec::new();
    let parts = parts(solved, &mut book, &mut assumed);
    let losses = losses_of(solved, &parts);
    let mut lines: Vec<CostLine> = parts.into_iter().map(|(_, line)| line).collect();
    lines.extend(rates(solved, &mut book, &mut assumed));
    report_missing(&lines, &mut book);
    if book.mixed {
        return (None, book.found);
    }
    let Some(currency) = book.currency() else {
        book.found.push(
            Diagnostic::error(Code::NoPrice, "no price of anything is known, so nothing can be added up")
                .help("give the ingredients a `price` in larder.toml, and the house its `currency` in house.toml"),
        );
        return (None, book.found);
    };
    if book.tax_unstated {
        assumed.push("prices as they stand: whether tax is in them is not said".to_owned());
    }
    let (mut batch, mut tax) = (Decimal::ZERO, Decimal::ZERO);
    for line in &lines {
        let sums = batch.checked_add(line.cost.unwrap_or_default()).zip(tax.checked_add(line.tax.unwrap_or_default()));
        let Some(sums) = sums else { return (None, book.found) };
        (batch, tax) = sums;
    }
    let labour = lines.iter().find(|line| line.kind == CostKind::Labour && line.cost.is_none());
    let without_labour = labour.is_some();
    assumed.extend(labour.map(|line| format!("without labour: {}", line.why_missing.as_deref().unwrap_or_default())));
    let complete = lines.iter().all(|line| line.cost.is_some() || line.kind == CostKind::Labour);
    // where something has no price nobody knows where most of the money goes
    let priced = lines.iter().filter(|_| complete);
    let most = priced
        .filter_map(|line| Some((line.of.clone(), line.cost?.checked_div(batch)?)))
        .filter(|(_, share)| !share.is_zero())
        .max_by(|a, b| a.1.cmp(&b.1));
    let bottled = solved.bottled();
    let yield_ml = volume_ml(bottled).filter(|ml| !solved.is_dry() && *ml > 0.0);
    let bottles = match asked.makes {
        Some(Makes::Bottles { count, .. }) => quantity(count),
        _ => None,
    };
    let each = |units: f64| batch.checked_div(quantity(units)?);
    let mut costing = Costing {
        name: solved.name.clone(),
        currency,
        complete,
        without_labour,
        lines,
        batch,
        tax,
        yield_g: bottled.total_grams(),
        yield_ml,
        per_litre: yield_ml.and_then(|ml| each(ml / 1000.0)),
        per_kg: each(bottled.total_grams() / 1000.0),
        per_piece: asked.servings.and_then(each),
        per_bottle: bottles.and_then(|count| batch.checked_div(count)),
        measures: Vec::new(),
        serving: None,
        per_gram_of_sugar: each(bottled.sugar_grams()),
        per_uk_unit: each(amount_for(TargetKind::Abv, bottled) / 10.0),
        losses,
        most,
        assumed,
    };
    let measure = |name, ml| costing.of_ml(ml).map(|cost| MeasureCost { name, ml, cost });
    let measures = MEASURES.iter().filter_map(|&(name, ml)| measure(name, ml)).collect();
    let serving = measure(Some("serving"), asked.serving_ml.unwrap_or(SERVING_ML));
    (costing.measures, costing.serving) = (measures, serving);
    (Some(costing), book.found)
}

fn report_missing(lines: &[CostLine], book: &mut Book<'_>) {
    let gaps: Vec<&CostLine> =
        lines.iter().filter(|line| line.cost.is_none() && line.kind != CostKind::Labour).collect();
    if gaps.is_empty() {
        return;
    }
    let currency = book.currency().map_or_else(|| "GBP".to_owned(), |currency| currency.code().to_owned());
    let named: Vec<String> =
        gaps.iter().map(|line| format!("{} ({})", line.of, line.why_missing.as_deref().unwrap_or_default())).collect();
    let example = gaps.iter().find(|line| line.kind == CostKind::Part).map_or_else(String::new, |line| {
        format!(
            "; in larder.toml: [ingredient.{0:?}] like = {0:?}, price = \"… {1} / 1 kg\", or here: --price \"{0}=… {1} / 1 kg\"",
            line.of, currency
        )
    });
    book.found.push(
        Diagnostic::warning(Code::NoPrice, format!("the total is incomplete, without {}", named.join(", ")))
            .help(format!("state what is missing{example}")),
    );
}

/// Entries of a larder with prices to be filled in: a number that stands there would be taken for one.
pub(crate) fn entries_to_price<'a>(names: impl IntoIterator<Item = &'a str>, house: &House) -> String {
    let currency = house.settings.currency.as_deref().unwrap_or("GBP");
    let entry = |name: &str| format!("\n[ingredient.{name:?}]\nlike = {name:?}\nprice = \"… {currency} / 1 kg\"");
    names.into_iter().map(entry).collect()
}

/// What is not said, because a part of the cost is not known.
pub(super) fn withheld(what: &str) -> Diagnostic {
    Diagnostic::warning(Code::NoPrice, format!("not said: {what}, since a part of the cost is not known"))
        .help("state what is missing above")
}
