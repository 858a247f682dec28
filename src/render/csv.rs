//! A plan, a menu, a weigh sheet and a cost for people with spreadsheets.

use crate::menu::AllergenMark;
use crate::plan::LeftOut;
use crate::plan::findings::amount_text;
use crate::plan::on_hand::RUN_BY_SPREADSHEETS;
use crate::plan::tables::thousandths;
use crate::report::cost::CostView;
use crate::report::menu::MenuView;
use crate::report::money::Money;
use crate::report::plan::{InThousandths, PlanView, ShortOf, ShortView};
use crate::report::plan_step::StepView;
use crate::report::solve::SolveView;

/// A cell that no spreadsheet runs.
fn cell(text: &str) -> String {
    if text.starts_with(RUN_BY_SPREADSHEETS) { format!("'{text}") } else { text.to_owned() }
}

/// The prep list as CSV.
pub fn prep_csv(plan: &PlanView) -> String {
    let rows = plan.prep.iter().map(|task| {
        let detail = match &task.step {
            StepView::ThrowAway(_) | StepView::UseFirst(_) | StepView::Make(_) => String::new(),
            StepView::Leave { into, .. } => format!("too old for {into}"),
            StepView::Start { stage, takes, ready } => {
                let stage: Vec<_> = stage.iter().chain(takes).map(String::as_str).collect();
                format!("{}; ready {ready}", stage.join(", "))
            }
            StepView::GoesInto { into } => format!("for {into}"),
        };
        let last = task.step.last_day();
        [
            task.date.to_string(),
            task.step.word().into(),
            task.of.clone(),
            task.amount.to_string(),
            task.unit.word().into(),
            last.map_or_else(String::new, |last| last.use_by.to_string()),
            last.map_or_else(String::new, |last| last.mark().to_owned()),
            detail,
            task.note.clone().unwrap_or_default(),
        ]
    });
    let heads = ["date", "what", "product", "amount", "unit", "use_by", "date_is", "detail", "note"];
    let left_out = left_out(&heads, "product", "note", &plan.left_out);
    let missing = missing(&heads, "product", "note", &plan.short);
    csv(heads, rows.map(Vec::from).chain(left_out).chain(missing))
}

/// The order list as CSV: whole grams, millilitres or pieces, rounded so that there is enough.
pub fn order_csv(plan: &PlanView) -> String {
    let rows = plan.orders.iter().map(|order| {
        let comes = order.arrives.map_or("late".to_owned(), |day| format!("late: comes {}", day));
        let up = |amount: InThousandths| amount.0.div_ceil(1000).to_string();
        [
            order.order_by.to_string(),
            order.of.clone(),
            // what is bought loose has no packs
            order.packs.map_or_else(String::new, |packs| packs.to_string()),
            order.pack.map_or_else(String::new, |pack| thousandths(pack.0)),
            up(order.amount),
            order.unit.word().into(),
            up(order.need),
            (order.on_hand.0 / 1000).to_string(),
            order.needed.to_string(),
            order.cost.map(Money::coins).unwrap_or_default(),
            plan.currency.map_or_else(String::new, |currency| currency.code().to_owned()),
            if order.late { comes } else { String::new() },
            String::new(),
        ]
    });
    let heads = ["order_by", "ingredient", "packs", "pack", "amount", "unit", "need", "on_hand", "needed"];
    let heads = [heads.as_slice(), &["cost", "currency", "late", "left_out"]].concat();
    let left_out = left_out(&heads, "ingredient", "left_out", &plan.left_out);
    let missing = missing(&heads, "ingredient", "left_out", &plan.short);
    csv(heads, rows.map(Vec::from).chain(left_out).chain(missing))
}

/// The weigh sheet as CSV, as it is weighed: a line a part, stage by stage.
pub fn solve_csv(sheet: &SolveView) -> String {
    let rows = sheet.stages.iter().flat_map(|stage| {
        stage.lines.iter().map(|line| {
            [
                stage.stage.clone().unwrap_or_default(),
                line.of.clone(),
                number(line.mass_g),
                line.volume_ml.map(number).unwrap_or_default(),
                number(line.reads_g),
                line.written.clone(),
                if line.strained { "yes" } else { "" }.to_owned(),
            ]
        })
    });
    csv(["stage", "part", "g", "ml_at_20_c", "scale_reads_g", "card_says", "strained"], rows)
}

/// The cost of a batch as CSV: a line for each thing that is paid for, and the sum.
pub fn cost_csv(cost: &CostView) -> String {
    let Some(batch) = &cost.batch.0 else { return String::new() };
    let currency = || batch.currency.code().to_owned();
    let lines = batch.lines.iter().map(|line| {
        [
            line.of.clone(),
            line.mass_g.map(number).unwrap_or_default(),
            line.cost.map(Money::coins).unwrap_or_default(),
            currency(),
            line.basis.clone(),
            line.why_missing.clone().unwrap_or_default(),
        ]
    });
    let missing = if batch.complete { "" } else { "not everything has a price: at least this much" };
    let sum = ["batch".to_owned(), String::new(), batch.batch.coins(), currency(), String::new(), missing.to_owned()];
    csv(["of", "g", "cost", "currency", "basis", "missing"], lines.chain([sum]))
}

/// The columns of a drink before its allergens.
const OF_A_DRINK: &str = "drink price by_margin cost cost_at_least labour pour_cost earns minutes earns_a_minute currency ml ml_least ml_most abv abv_least abv_most uk_units uk_units_least uk_units_most kcal kcal_least kcal_most left_out stop first_say";

/// A menu as CSV: a line a drink, a column for each allergen of the lists. What costs at least something has no cost.
pub fn menu_csv(menu: &MenuView) -> String {
    let allergens = menu.drinks.first().map_or(&[][..], |drink| &drink.matrix).iter().map(|row| row.allergen);
    let heads: Vec<&str> = OF_A_DRINK.split(' ').chain(allergens).collect();
    let rows = menu.drinks.iter().map(|drink| {
        let coins = |money: Option<Money>| money.map(Money::coins).unwrap_or_default();
        let currency = drink.price.or(drink.cost).map_or("", |money| money.currency.code());
        let cells = [
            drink.of.clone(),
            coins(drink.price),
            if drink.price.is_some() && drink.price_by_margin { "yes" } else { "" }.to_owned(),
            coins(drink.cost.filter(|_| drink.cost_complete)),
            coins(drink.cost),
            coins(drink.labour),
            drink.pour_cost.map(|share| share.0.round_dp(4).normalize().to_string()).unwrap_or_default(),
            coins(drink.earns),
            drink.minutes.map(number).unwrap_or_default(),
            coins(drink.earns_a_minute),
            currency.to_owned(),
        ];
        let of = &drink.figures;
        let held = [
            (of.volume_ml, drink.volume_range_ml),
            (of.abv_pct, drink.abv_range_pct),
            (of.uk_units, drink.uk_units_range),
            (of.kcal, drink.kcal_range),
        ];
        let held = held.into_iter().flat_map(|(middle, (least, most))| [middle, least, most]).map(number);
        let stops: Vec<&str> = drink.stops().collect();
        let asked: Vec<&str> = drink.unidentified.iter().map(|open| open.question.as_str()).collect();
        let cells = cells.into_iter().chain(held).chain([String::new(), stops.join("; "), asked.join("; ")]);
        let marks = drink.matrix.iter().map(|row| match row.mark {
            AllergenMark::Contains => "contains".to_owned(),
            AllergenMark::NotStated => "not stated".to_owned(),
            AllergenMark::None => "no".to_owned(),
        });
        cells.chain(marks).collect::<Vec<_>>()
    });
    let left_out = left_out(&heads, "drink", "left_out", &menu.left_out);
    csv(heads.iter().copied(), rows.chain(left_out))
}

/// A row for each thing that is left out: its name under one heading, its first fault under another.
fn left_out(heads: &[&str], name_under: &str, why_under: &str, all: &[LeftOut]) -> Vec<Vec<String>> {
    let row = |left: &LeftOut| {
        let of = |head: &&str| match *head {
            head if head == name_under => left.of.clone(),
            head if head == why_under => left.why.clone(),
            "what" => "left out".to_owned(),
            _ => String::new(),
        };
        heads.iter().map(of).collect()
    };
    all.iter().map(row).collect()
}

/// A row for each day on which a product is missing: who works from the spreadsheet has to know.
fn missing(heads: &[&str], name_under: &str, why_under: &str, all: &[ShortView]) -> Vec<Vec<String>> {
    // what is missing of a product is nothing to order: in the sum of that column it would be bought
    let is_prep = heads.contains(&"what");
    let row = |short: &ShortView| {
        let ready = short.first_ready.map_or_else(String::new, |day| format!("; ready {day} at the earliest"));
        let of = |head: &&str| match *head {
            head if head == name_under => short.of.clone(),
            head if head == why_under => {
                format!("missing: {} on {}{ready}", amount_text(short.amount, short.unit), short.date)
            }
            "what" => "missing".to_owned(),
            "date" | "needed" => short.date.to_string(),
            "amount" if is_prep => short.amount.to_string(),
            "unit" if is_prep => short.unit.word().to_owned(),
            _ => String::new(),
        };
        heads.iter().map(of).collect()
    };
    all.iter().filter(|short| short.why == ShortOf::Use).map(row).collect()
}

/// A number to the thousandth, without zeros behind.
fn number(n: f64) -> String {
    let written = format!("{n:.3}");
    written.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn csv<'a>(
    heads: impl IntoIterator<Item = &'a str>,
    rows: impl Iterator<Item = impl IntoIterator<Item = String>>,
) -> String {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    // Writing to memory does not fail; a row that did would be missing, which the tests would see.
    let _ = writer.write_record(heads.into_iter().map(str::as_bytes));
    for row in rows {
        let _ = writer.write_record(row.into_iter().map(|text| cell(&text)));
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}
