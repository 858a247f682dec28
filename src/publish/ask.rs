//! What the page asks its solver, and the answer: texts in, JSON out. The texts are those of the house and of one card; the
//! answer is what the page shows, as markup that is written by the same functions as the page itself, and the report that
//! it was written from.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::card::{self, TargetKind, target_value};
use crate::diagnostic::{Code, Diagnostic};
use crate::drinks::WaterOfIce;
use crate::house::{House, SourceFile};
use crate::input;
use crate::render::page;
use crate::report::adjust::AdjustView;
use crate::report::batch::{AheadAsked, DrinkBatchView};
use crate::report::{Report, View};
use crate::solver::adjust::AdjustRequest;
use crate::solver::asked::{from, makes, target};
use crate::solver::{BatchSize, Options};
use crate::units::Customs;

use super::card::PageCard;

/// A question of the page.
#[derive(Deserialize)]
struct PageQuestion {
    /// What `house.toml` says, if there is one.
    house: Option<String>,
    /// The card with all that it is made of.
    card: String,
    /// The day that is today where the page is read.
    today: String,
    #[serde(default)]
    with_costs: bool,
    /// The earliest age in days at which something grew in a lot of the product, as the house knew it.
    #[serde(default)]
    grew_days: Option<f64>,
    #[serde(flatten)]
    ask: PageAsked,
}

#[derive(Deserialize)]
#[serde(tag = "ask", rename_all = "snake_case")]
enum PageAsked {
    /// The sheet of another size, another target, what there is of one part, today's titration.
    Sheet(SheetAsked),
    /// What to add to a batch that reads something else.
    Adjust(ReadingsAsked),
    /// By when a batch of a day goes.
    Dates { made: String },
    /// A drink, so many glasses of it bottled ahead.
    Ahead(AheadWritten),
}

/// As it was typed; what is empty was not asked.
#[derive(Default, Deserialize)]
#[serde(default)]
struct SheetAsked {
    make: String,
    from: String,
    set: Vec<String>,
    measured: Vec<String>,
    made: String,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct ReadingsAsked {
    have: String,
    brix: String,
    abv: String,
    sugar: String,
    acid: String,
    with: String,
    set: Vec<String>,
}

#[derive(Default, Deserialize)]
#[serde(default)]
struct AheadWritten {
    glasses: String,
    store: String,
    bottle: String,
    made: String,
}

/// What the page shows.
#[derive(Serialize)]
struct PageAnswer {
    /// What is seen of a card first; else empty.
    top: String,
    rest: String,
    report: Value,
}

/// Answers a question of the page.
///
/// ```
/// let card = "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
/// let question = serde_json::json!({ "ask": "sheet", "card": card, "today": "2026-11-29", "make": "2 L" });
/// let answer = stillroom::publish::answer(&question.to_string());
/// assert!(answer.contains("2.00 L"), "{answer}");
/// ```
pub fn answer(question: &str) -> String {
    let answered = serde_json::from_str(question).map(answered);
    let answered = answered.unwrap_or_else(|why| said(page::fault(&why.to_string()), Value::Null));
    serde_json::to_string(&answered).unwrap_or_default()
}

fn said(rest: String, report: Value) -> PageAnswer {
    PageAnswer { top: String::new(), rest, report }
}

fn as_json<V: View>(report: &Report<V>) -> Value {
    serde_json::to_value(report).unwrap_or_default()
}

fn answered(question: PageQuestion) -> PageAnswer {
    let mut found = Vec::new();
    let settings = question.house.as_deref().map(|text| ("house.toml", text));
    let (mut house, of_house) = House::from_texts(settings);
    found.extend(of_house);
    let source = house.unbundled(SourceFile { file: "card".into(), text: question.card.into() }, &mut found);
    let (card, of_card) = card::read_by(source.file, source.text, &house.customs());
    found.extend(of_card);
    if let (Some(card), Some(days)) = (&card, question.grew_days) {
        house.of_book.saw_growth(&card.name.value, days);
    }
    let today = read(&question.today, "2026-11-25", |day| input::day(day).ok_or(input::NO_DAY), &mut found);
    let today = today.unwrap_or_default();
    match question.ask {
        PageAsked::Sheet(asked) => {
            let options = asked.options(&mut house, &mut found);
            let made = read(&asked.made, "2026-11-25", |day| input::day(day).ok_or(input::NO_DAY), &mut found);
            let card = PageCard { card, house, found };
            let report = card.solved(&options, made.unwrap_or(today));
            let cost = question.with_costs.then(|| card.costed(&options, today));
            let page::SheetHtml { top, rest, .. } = page::sheet(&report, cost.as_ref());
            PageAnswer { top, rest, report: as_json(&report) }
        }
        PageAsked::Adjust(asked) => {
            let request = asked.request(&house.customs(), &mut found);
            let report = PageCard { card, house, found }
                .report(&Options::default(), |card, house, found| AdjustView::of_card(card, house, &request?, found));
            said(page::adjusted(&report), as_json(&report))
        }
        PageAsked::Dates { made } => {
            let made = read(&made, "2026-11-25", |day| input::day(day).ok_or(input::NO_DAY), &mut found);
            let report = PageCard { card, house, found }.dated(made.unwrap_or(today));
            said(page::dates(&report), as_json(&report))
        }
        PageAsked::Ahead(asked) => {
            let made = read(&asked.made, "2026-11-25", |day| input::day(day).ok_or(input::NO_DAY), &mut found);
            let glasses = read(&asked.glasses, "20", |glasses| AheadAsked::GLASSES.read(glasses), &mut found);
            let bottle_ml =
                read(&asked.bottle, "500 ml", |bottle| AheadAsked::bottle(bottle, &house.customs()), &mut found);
            if asked.glasses.trim().is_empty() {
                let title = "how many glasses was not said";
                found.push(Diagnostic::error(Code::BadArgument, title).help("write for example 20"));
            }
            let store = Some(asked.store.trim()).filter(|store| !store.is_empty());
            let made = made.unwrap_or(today);
            let report = PageCard { card, house, found }.report(&Options::default(), |card, house, found| {
                let asked = AheadAsked { glasses: glasses?, dilution: WaterOfIce::default(), store, bottle_ml, made };
                DrinkBatchView::of_drink(card, house, &asked, found)
            });
            said(page::ahead(&report), as_json(&report))
        }
    }
}

/// What a field of the page says, if anything stands in it; what cannot be understood is found.
fn read<T, E: Into<String>>(
    written: &str,
    example: &str,
    read: impl FnOnce(&str) -> Result<T, E>,
    found: &mut Vec<Diagnostic>,
) -> Option<T> {
    let written = Some(written.trim()).filter(|written| !written.is_empty())?;
    let refused = |why: E| {
        Diagnostic::error(Code::BadArgument, format!("\"{written}\": {}", why.into()))
            .help(format!("write for example {example}"))
    };
    read(written).map_err(|why| found.push(refused(why))).ok()
}

impl SheetAsked {
    fn options(&self, house: &mut House, found: &mut Vec<Diagnostic>) -> Options {
        let customs = house.customs();
        let make = |make: &str| makes(make, &customs);
        let make = read(&self.make, "2 L, 1.5 kg or 6 x 250 ml", make, found).map(BatchSize::Makes);
        let from = read(&self.from, "white sugar=3 kg", |part| from(part, &customs), found);
        for written in self.measured.iter().filter(|written| !written.trim().is_empty()) {
            match house.larder.measured(written, &"card".into()) {
                Ok(ingredient) => house.larder = std::mem::take(&mut house.larder).overlay(vec![ingredient]),
                Err(why) => found.extend(why),
            }
        }
        Options { set: targets(&self.set, found), size: make.or(from), ..Options::default() }
    }
}

fn targets(written: &[String], found: &mut Vec<Diagnostic>) -> Vec<(TargetKind, f64)> {
    written.iter().filter_map(|written| read(written, "brix=62 or sugar=250 g/L", target, found)).collect()
}

impl ReadingsAsked {
    fn request(&self, customs: &Customs, found: &mut Vec<Diagnostic>) -> Option<AdjustRequest> {
        let readings = [
            (TargetKind::Brix, &self.brix, "54"),
            (TargetKind::Abv, &self.abv, "17.1"),
            (TargetKind::Sugar, &self.sugar, "250 g/L"),
            (TargetKind::Acid, &self.acid, "6 g/L"),
        ];
        let readings = readings.into_iter().filter_map(|(kind, written, example)| {
            let value = |written: &str| target_value(kind, written).map_err(|why| why.title);
            Some((kind, read(written, example, value, found)?))
        });
        let readings = readings.collect();
        let with = Some(self.with.as_str()).filter(|with| !with.trim().is_empty());
        let with = with.map(|with| with.split(',').map(|part| part.trim().to_owned()).collect());
        let set = targets(&self.set, found);
        let have = read(&self.have, "2.1 L or 2.6 kg", |have| makes(have, customs), found);
        if have.is_none() && self.have.trim().is_empty() {
            let title = "how much of it there is was not said";
            found.push(Diagnostic::error(Code::BadArgument, title).help("write for example 2.1 L or 2.6 kg"));
        }
        Some(AdjustRequest { have: have?, readings, with, vessel: None, set })
    }
}
