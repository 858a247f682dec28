//! The cost of a solved card, line by line.

use std::collections::HashMap;

use chrono::NaiveDate;
use rust_decimal::Decimal;
use uom::si::time::hour;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::formula::{Makes, TargetKind};
use crate::house::House;
use crate::larder::Ingredient;
use crate::quantity::display::{grouped, percent_text, short};
use crate::solve::balance::amount_for;
use crate::solve::card::volume_ml;
use crate::solve::resolve::What;
use crate::solve::{Solved, SolvedPart};

use super::book::{Book, Charge, Found};
use super::currency::{Currency, quantity};
use super::heat;
use super::losses::{self, Losses};
use super::price::{Per, Price, Tax};

/// What is asked beside the card and the house.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// Prices over the larder's: id of the ingredient, the price, and how it was written.
    pub prices: Vec<(String, Price, String)>,
    /// The day on which the age of prices is counted.
    pub today: Option<NaiveDate>,
    /// What was asked for: bottles are paid for.
    pub makes: Option<Makes>,
    /// The card's own measure, millilitres.
    pub serving_ml: Option<f64>,
}

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// An ingredient.
    Part,
    /// Work.
    Labour,
    /// Energy for heating.
    Heat,
    /// Bottles.
    Containers,
    /// Duty on alcohol.
    Duty,
}

impl Kind {
    /// Its word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Part => "part",
            Self::Labour => "labour",
            Self::Heat => "heat",
            Self::Containers => "containers",
            Self::Duty => "duty",
        }
    }

    /// What its line is called, what a rate of it is for, and how one is written.
    fn rate(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Part => ("part", "a weight, a volume or pieces", "9.20 GBP / 1 kg"),
            Self::Labour => ("labour", "an hour of work", "14.00 GBP / h"),
            Self::Heat => ("heat", "a kilowatt-hour", "0.28 GBP / kWh"),
            Self::Containers => ("bottles", "each bottle", "0.60 GBP / each"),
            Self::Duty => ("duty", "a litre of pure alcohol", "30.00 GBP / L pure alcohol"),
        }
    }

    /// Whether a price is for what the line counts.
    fn counts(self, per: Per) -> bool {
        match self {
            Self::Part => matches!(per, Per::Grams(_) | Per::Millilitres(_) | Per::Pieces(_)),
            Self::Labour => matches!(per, Per::Hours(_)),
            Self::Heat => matches!(per, Per::KilowattHours(_)),
            Self::Containers => matches!(per, Per::Pieces(_)),
            Self::Duty => matches!(per, Per::PureAlcohol(_)),
        }
    }
}

/// One line.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is for.
    pub kind: Kind,
    /// What is paid for.
    pub of: String,
    /// Grams that go in, of an ingredient.
    pub grams: Option<f64>,
    /// What it costs before tax, to the smallest coin.
    pub cost: Option<Decimal>,
    /// The tax on it, to the smallest coin, where its rate is known.
    pub tax: Option<Decimal>,
    /// The price and the yield that it rests on, in words.
    pub basis: String,
    /// Why there is no cost.
    pub why_missing: Option<String>,
}

/// What one measure costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
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
    pub lines: Vec<Line>,
    /// The sum of the lines, before tax.
    pub batch: Decimal,
    /// The sum of the taxes that are known.
    pub tax: Decimal,
    /// Whether everything that costs money has a cost.
    pub complete: bool,
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
    /// Measures.
    pub measures: Vec<Measure>,
    /// The measure that the card serves, or 30 ml.
    pub serving: Option<Measure>,
    /// Cost of a gram of sugar in it, not rounded.
    pub per_gram_of_sugar: Option<Decimal>,
    /// Cost of a UK unit (10 ml of pure alcohol) in it, not rounded.
    pub per_uk_unit: Option<Decimal>,
    /// What is lost on the way; inside the lines.
    pub losses: Losses,
    /// Where most of the money goes: the line, and its share of the batch.
    pub most: Option<(String, Decimal)>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
}

impl Costing {
    /// The line for labour, heat, containers or duty, if there is one.
    pub fn line(&self, kind: Kind) -> Option<&Line> {
        self.lines.iter().find(|line| line.kind == kind)
    }

    /// What so many millilitres cost, not rounded.
    pub fn of_ml(&self, ml: f64) -> Option<Decimal> {
        let made = quantity(self.yield_ml?)?;
        self.batch.checked_mul(quantity(ml)?)?.checked_div(made)
    }
}

/// Measures of the bar, ml: metric jiggers, the US fluid ounce, and the dash (common practice, no source).
const MEASURES: [(Option<&str>, f64); 5] =
    [(None, 15.0), (None, 22.5), (Some("1 fl oz"), 29.5735295625), (None, 30.0), (Some("1 dash"), 0.9)];
/// The measure where the card names none, ml (common practice, no source).
const SERVING_ML: f64 = 30.0;

/// What a batch costs in its house. `None` where nothing can be added up: no price, or more than one currency.
pub fn cost_of(solved: &Solved, house: &House, asked: &Asked) -> (Option<Costing>, Vec<Diagnostic>) {
    let mut book = Book::open(house, asked);
    let mut assumed = Vec::new();
    let parts = parts(solved, &mut book, &mut assumed);
    let losses = losses_of(solved, &parts);
    let mut lines: Vec<Line> = parts.into_iter().map(|(_, line)| line).collect();
    lines.extend(labour(solved, &mut book, &mut assumed));
    lines.extend(heating(solved, &mut book, &mut assumed));
    lines.extend(containers(&mut book, &mut assumed));
    lines.extend(duty(solved, &mut book));
    report_missing(&lines, &mut book);
    let Some(currency) = book.currency().filter(|_| !book.mixed) else {
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
    let most = lines
        .iter()
        .filter_map(|line| Some((line.of.clone(), line.cost?.checked_div(batch)?)))
        .filter(|(_, share)| !share.is_zero())
        .max_by(|a, b| a.1.cmp(&b.1));
    let bottled = solved.bottled();
    let yield_ml = volume_ml(bottled).filter(|ml| !bottled.is_dry() && *ml > 0.0);
    let bottles = match asked.makes {
        Some(Makes::Bottles { count, .. }) => quantity(count),
        _ => None,
    };
    let each = |units: f64| batch.checked_div(quantity(units)?);
    let mut costing = Costing {
        name: solved.name.clone(),
        currency,
        complete: lines.iter().all(|line| line.cost.is_some()),
        lines,
        batch,
        tax,
        yield_g: bottled.total_grams(),
        yield_ml,
        per_litre: yield_ml.and_then(|ml| each(ml / 1000.0)),
        per_kg: each(bottled.total_grams() / 1000.0),
        per_bottle: bottles.and_then(|count| batch.checked_div(count)),
        measures: Vec::new(),
        serving: None,
        per_gram_of_sugar: each(bottled.sugar_grams()),
        per_uk_unit: each(amount_for(TargetKind::Abv, bottled) / 10.0),
        losses,
        most,
        assumed,
    };
    let measure = |name, ml| costing.of_ml(ml).map(|cost| Measure { name, ml, cost });
    let measures = MEASURES.iter().filter_map(|&(name, ml)| measure(name, ml)).collect();
    let serving = measure(Some("serving"), asked.serving_ml.unwrap_or(SERVING_ML));
    (costing.measures, costing.serving) = (measures, serving);
    (Some(costing), book.found)
}

/// A line whose cost is known.
fn priced(kind: Kind, of: impl Into<String>, currency: Currency, charge: Charge, basis: String) -> Line {
    let cost = currency.round(charge.net);
    let tax = charge.tax_rate.and_then(|rate| cost.checked_mul(rate)).map(|tax| currency.round(tax));
    Line { kind, of: of.into(), grams: None, cost: Some(cost), tax, basis, why_missing: None }
}

/// A line whose cost is not known.
fn missing(kind: Kind, of: impl Into<String>, why: impl Into<String>) -> Line {
    Line {
        kind,
        of: of.into(),
        grams: None,
        cost: None,
        tax: None,
        basis: String::new(),
        why_missing: Some(why.into()),
    }
}

/// One line an ingredient (its id and the line), through all stages and the formulas inside, in card order.
fn parts<'a>(solved: &'a Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Vec<(&'a str, Line)> {
    let mut names = HashMap::new();
    names_on_cards(solved, &mut names);
    let mut places: HashMap<&str, usize> = HashMap::new();
    let mut all: Vec<(&Ingredient, f64)> = Vec::new();
    for (ingredient, grams) in solved.ingredients() {
        let place = *places.entry(ingredient.id.as_str()).or_insert(all.len());
        match all.get_mut(place) {
            Some(so_far) => so_far.1 += grams,
            None => all.push((ingredient, grams)),
        }
    }
    let lines = all.into_iter().map(|(ingredient, grams)| {
        let id = ingredient.id.as_str();
        let line = part(names.get(id).unwrap_or(&id), ingredient, grams, book, assumed);
        (id, Line { grams: Some(grams), ..line })
    });
    lines.collect()
}

/// What the cards call each ingredient, by its id; the first that names it counts.
fn names_on_cards<'a>(solved: &'a Solved, names: &mut HashMap<&'a str, &'a str>) {
    for part in solved.stages.iter().flat_map(|s| &s.parts) {
        if let What::Ingredient(ingredient) = &part.found.what {
            names.entry(&ingredient.id).or_insert(&part.of);
        }
    }
    for (inner, _) in &solved.inner {
        names_on_cards(inner, names);
    }
}

fn part(name: &str, ingredient: &Ingredient, grams: f64, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Line {
    let nothing = |basis: &str| Line {
        cost: Some(Decimal::ZERO),
        why_missing: None,
        basis: basis.to_owned(),
        ..missing(Kind::Part, name, "")
    };
    match book.price_of(ingredient) {
        Found::Free => nothing("free"),
        Found::Water => {
            assumed.push("water costs nothing: [costs] states no price of it".to_owned());
            nothing("costs nothing")
        }
        Found::None(why) => missing(Kind::Part, name, why),
        Found::At(price, written) => match book.charge_grams(ingredient, price, grams) {
            Ok(charge) => {
                let yields = ingredient.usable.map_or_else(String::new, |u| format!(", {} usable", percent_text(u)));
                priced(Kind::Part, name, price.currency, charge, written + &yields)
            }
            Err(why) => missing(Kind::Part, name, why),
        },
    }
}

/// Work: the card's own batch, and its share of the batches of the formulas inside.
fn labour(solved: &Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<Line> {
    let mut silent = Vec::new();
    let hours = hours_of(solved, &mut silent);
    let Some(stated) = &book.house.settings.costs.labour else {
        if hours == 0.0 {
            assumed.push("labour is not counted: neither the card nor [costs] states it".to_owned());
            return None;
        }
        return Some(missing(Kind::Labour, "labour", "[costs] states no price of an hour (`labour`)"));
    };
    if let Some(first) = silent.first() {
        return Some(missing(Kind::Labour, "labour", format!("the card of {first} states no `labour`")));
    }
    let basis = format!("{} min a batch at {}", short(60.0 * hours), stated.value);
    Some(charged(Kind::Labour, stated, hours, basis, book))
}

fn hours_of<'a>(solved: &'a Solved, silent: &mut Vec<&'a str>) -> f64 {
    let own = solved.labour.map(|time| time.get::<hour>());
    if own.is_none() {
        silent.push(&solved.name);
    }
    own.unwrap_or(0.0) + heat::shares(solved).map(|(inner, share)| share * hours_of(inner, silent)).sum::<f64>()
}

fn heating(solved: &Solved, book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<Line> {
    let heat = heat::of(solved);
    if heat.kwh <= 0.0 {
        return None;
    }
    if heat.unstated {
        assumed.push("where water goes up and no `heated` is stated, only its evaporation is counted".to_owned());
    }
    let costs = &book.house.settings.costs;
    let efficiency = costs.heat_efficiency.unwrap_or_else(|| {
        assumed.push(format!("{} of the energy reaches the pan", percent_text(heat::ASSUMED_EFFICIENCY)));
        heat::ASSUMED_EFFICIENCY
    });
    let Some(stated) = &costs.energy else {
        return Some(missing(Kind::Heat, "heat", "[costs] states no price of a kilowatt-hour (`energy`)"));
    };
    let kwh = heat.kwh / efficiency;
    let basis = format!("{} kWh from {} °C at {}", grouped(kwh, 2), heat::FROM_C, stated.value);
    Some(charged(Kind::Heat, stated, kwh, basis, book))
}

fn containers(book: &mut Book<'_>, assumed: &mut Vec<String>) -> Option<Line> {
    let Some(Makes::Bottles { count, .. }) = book.asked.makes else {
        assumed.push("bottles are not counted: the size is not given in bottles".to_owned());
        return None;
    };
    let Some(stated) = &book.house.settings.costs.bottle else {
        return Some(missing(Kind::Containers, "bottles", "[costs] states no price of a `bottle`"));
    };
    let basis = format!("{} at {}", grouped(count, 0), stated.value);
    Some(charged(Kind::Containers, stated, count, basis, book))
}

/// Only where the house states a rate: whether it owes duty on what it makes, its authority knows.
fn duty(solved: &Solved, book: &mut Book<'_>) -> Option<Line> {
    let stated = book.house.settings.costs.duty.as_ref()?;
    let litres = amount_for(TargetKind::Abv, solved.bottled()) / 1000.0;
    let basis = format!("{} L of pure alcohol at {}", grouped(litres, 3), stated.value);
    (litres > 0.0).then(|| charged(Kind::Duty, stated, litres, basis, book))
}

/// A line of so many units at a rate of `[costs]`.
fn charged(kind: Kind, stated: &Spanned<String>, units: f64, basis: String, book: &mut Book<'_>) -> Line {
    let (of, unit, example) = kind.rate();
    let Some(rate) = book.rate(of, stated) else { return missing(kind, of, "its price cannot be read") };
    if !kind.counts(rate.per) {
        let wrong = Diagnostic::error(Code::WrongDimension, format!("the price of {of} is not for {unit}"))
            .at(stated.span, format!("a price for {unit} was expected"))
            .help(format!("write for example \"{example}\""));
        book.report_of_house(wrong);
        return missing(kind, of, format!("its price is not for {unit}"));
    }
    // no tax on wages and on duty, whatever the house says of the tax in its prices
    let rate = if matches!(kind, Kind::Labour | Kind::Duty) { rate.or_tax(Tax::Excluded(None)) } else { rate };
    match quantity(units).and_then(|units| book.charge(rate, units)) {
        Some(charge) => priced(kind, of, rate.currency, charge, basis),
        None => missing(kind, of, "too much of it to count"),
    }
}

fn report_missing(lines: &[Line], book: &mut Book<'_>) {
    let gaps: Vec<&Line> = lines.iter().filter(|line| line.cost.is_none()).collect();
    if gaps.is_empty() {
        return;
    }
    let named: Vec<String> =
        gaps.iter().map(|line| format!("{} ({})", line.of, line.why_missing.as_deref().unwrap_or_default())).collect();
    let example = gaps.iter().find(|line| line.kind == Kind::Part).map_or_else(String::new, |line| {
        format!(
            "; in larder.toml: [ingredient.{0:?}] like = {0:?}, price = \"9.20 GBP / 1 kg\", or here: --price \"{1}=9.20 GBP / 1 kg\"",
            line.of, line.of
        )
    });
    book.found.push(
        Diagnostic::warning(Code::NoPrice, format!("the total is incomplete, without {}", named.join(", ")))
            .help(format!("state what is missing{example}")),
    );
}

/// The cost of what is lost, from the rounded lines: a part has its share of the line of its ingredient.
fn losses_of(solved: &Solved, lines: &[(&str, Line)]) -> Losses {
    let paid: HashMap<&str, (Decimal, f64)> =
        lines.iter().filter_map(|(id, l)| Some((*id, (l.cost?, l.grams?)))).collect();
    let of_part = |part: &SolvedPart| -> Decimal {
        let share = |id: &str, grams: f64| {
            let (cost, all) = paid.get(id)?;
            cost.checked_mul(quantity(if *all > 0.0 { grams / all } else { 0.0 })?)
        };
        match &part.found.what {
            What::Ingredient(ingredient) => share(&ingredient.id, part.mass_g).unwrap_or_default(),
            What::Stage(_) => Decimal::ZERO,
            What::Formula(place) => solved.inner.get(*place).map_or(Decimal::ZERO, |(inner, _)| {
                let made = inner.bottled().total_grams();
                let of_batch = if made > 0.0 { part.mass_g / made } else { 0.0 };
                inner.ingredients().into_iter().filter_map(|(i, grams)| share(&i.id, grams * of_batch)).sum()
            }),
        }
    };
    let at = |stage: usize, part: usize| {
        solved.stages.get(stage).and_then(|s| s.parts.get(part)).map_or(Decimal::ZERO, of_part)
    };
    let mut losses = losses::of(solved, at).unwrap_or_default();
    losses.trimmed = solved
        .ingredients()
        .into_iter()
        .filter_map(|(i, grams)| {
            let (cost, all) = paid.get(i.id.as_str())?;
            let wasted = quantity((1.0 - i.usable?) * if *all > 0.0 { grams / all } else { 0.0 })?;
            cost.checked_mul(wasted)
        })
        .sum();
    losses
}
