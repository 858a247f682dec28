//! What a batch costs, and whether to make it.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::cost::{Assumption, round};
use crate::report::cost::{
    AgainstView, BatchCostView, CostLineView, CostReport, FlipView, MeasureView, SellingView, SidesView,
};
use crate::report::money::{ExactMoney, Money};
use crate::units::display::{grouped, percent_text, short};

use super::table;

pub(crate) fn cost(report: &CostReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.stops);
    let Some(c) = &view.batch.0 else { return out };
    out.push_str(&format!("{} · {}\n\n", report.product(), made(c)));
    out.push_str(&table::columns_noted(&lines(c)));
    out.push_str(&format!("\n{}", table::pairs(&unit_rows(c))));
    out.push_str(&where_it_goes(c));
    out.push_str(&c.against.as_ref().map_or_else(String::new, against));
    out.push_str(&c.selling.as_ref().map_or_else(String::new, selling));
    if !c.assumed.is_empty() {
        out.push_str(&format!("\nAssumed: {}\n", c.assumed.join("; ")));
    }
    out
}

fn made(c: &BatchCostView) -> String {
    let ml = c.yields.volume_ml;
    ml.map_or_else(|| format!("{} g", grouped(c.yields.mass_g, 0)), super::ml_text)
}

pub(in crate::render) fn lines(c: &BatchCostView) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new(), "g".to_owned(), c.currency.code().to_owned(), String::new()]];
    rows.extend(c.lines.iter().map(line_row));
    let total = match (c.complete, c.without_labour) {
        (false, _) => "batch, INCOMPLETE",
        (true, true) => "batch, without labour",
        (true, false) => "batch",
    };
    let before_tax = if c.complete { "before tax" } else { "at least, before tax" };
    rows.push(vec![total.to_owned(), String::new(), c.batch.coins(), before_tax.to_owned()]);
    if !c.tax_apart.amount.is_zero() {
        let kept_apart = "what a house that cannot claim it back pays on top";
        rows.push(vec!["tax, apart".to_owned(), String::new(), c.tax_apart.coins(), kept_apart.to_owned()]);
    }
    rows
}

fn line_row(line: &CostLineView) -> Vec<String> {
    let grams = line.mass_g.map_or_else(String::new, |g| grouped(g, if g < 20.0 { 1 } else { 0 }));
    let cost = line.cost.map_or_else(|| "?".to_owned(), Money::coins);
    vec![line.of.clone(), grams, cost, line.why_missing.clone().unwrap_or_else(|| line.basis.clone())]
}

/// The batch, a litre and a bottle, for a card.
pub(in crate::render) fn cost_in_a_line(c: &BatchCostView) -> String {
    let apart = if c.without_labour { ", without labour" } else { "" };
    let of = |name: &str, cost: Option<Money>| cost.map(|cost| format!("{} a {name}", cost.to_coin()));
    let each: Vec<String> = [of("litre", c.per_litre), of("bottle", c.per_bottle)].into_iter().flatten().collect();
    let each = if each.is_empty() { String::new() } else { format!(" ({})", each.join(", ")) };
    format!("{}{} the batch{each}, before tax{apart}", at_least(c), c.batch.to_coin())
}

/// What stands before a figure that rests on an incomplete total.
fn at_least(c: &BatchCostView) -> &'static str {
    if c.complete { "" } else { "at least " }
}

/// What each measure costs.
pub(in crate::render) fn unit_rows(c: &BatchCostView) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = Vec::new();
    // Less than a coin is printed finer: a dash costs something too.
    let mut say = |name: &str, amount: Option<Money>| {
        rows.extend(amount.map(|amount| (name.to_owned(), format!("{}{}", at_least(c), amount.fine()))));
    };
    match c.yields.volume_ml {
        Some(_) => say("a litre", c.per_litre),
        None => say("a kilogram", c.per_kg),
    }
    say("a bottle", c.per_bottle);
    say("one serving", c.per_piece);
    for measure in &c.measures {
        say(&measure_name(measure), Some(measure.cost));
    }
    let exact = |amount: Option<ExactMoney>| amount.map(|amount| amount.0);
    say("a gram of sugar", exact(c.per_gram_of_sugar));
    say("a UK unit", exact(c.per_uk_unit));
    rows
}

fn measure_name(measure: &MeasureView) -> String {
    let ml = format!("{} ml", short(measure.ml));
    measure.name.map_or_else(|| ml.clone(), |name| format!("{name} ({ml})"))
}

fn where_it_goes(c: &BatchCostView) -> String {
    let mut out = String::new();
    if let Some(most) = &c.most {
        out.push_str(&format!("\n  most of the money: {}, {}\n", most.of, percent(most.share.0)));
    }
    let lost = [
        ("what was thrown away (peel, core, stalks)", c.lost.trimmed),
        ("the wet solids", c.lost.strained),
        ("pan and funnel", c.lost.left_behind),
    ];
    let said: Vec<String> = lost
        .iter()
        .filter(|(_, cost)| !cost.currency.round(cost.amount).is_zero())
        .map(|(what, cost)| format!("{what} {}{}", at_least(c), cost.coins()))
        .collect();
    if !said.is_empty() {
        out.push_str(&format!("  lost on the way, in the lines above: {}\n", said.join(", ")));
    }
    out
}

fn percent(share: Decimal) -> String {
    format!("{} %", round(share.saturating_mul(Decimal::ONE_HUNDRED), 1).normalize())
}

/// What is added to a cost; from ten times on as what it is a multiple of.
fn added_to_them(share: Decimal) -> String {
    if share < Decimal::TEN {
        return format!("{} on the ingredients", percent(share));
    }
    let times = share.round_sf_with_strategy(3, RoundingStrategy::MidpointAwayFromZero).unwrap_or(share);
    format!("{} times the ingredients", times.normalize())
}

fn against(x: &AgainstView) -> String {
    let row = |name: String, sides: &SidesView| {
        let saving = sides.saving;
        let word = if saving.amount.is_sign_negative() { "dearer by" } else { "saves" };
        vec![name, sides.made.fine(), sides.bought.fine(), format!("{word} {}", saving.abs().fine())]
    };
    let mut rows = vec![vec![String::new(), "made".to_owned(), "bought".to_owned(), String::new()]];
    rows.push(row(format!("{} ml", short(x.bottle_ml)), &x.bottle));
    rows.push(row(format!("{} ml", short(x.measure.ml)), &x.measure.sides));
    rows.extend(x.uk_unit.as_ref().map(|sides| row("a UK unit".to_owned(), sides)));
    if let Some(waste) = x.waste.as_ref().filter(|w| w.share > 0.0) {
        rows.push(row(format!("{} ml, {} thrown away", short(x.bottle_ml), percent_text(waste.share)), &waste.bottle));
    }
    let mut out = format!("\nMade or bought\n{}", table::columns_noted(&rows));
    if let Some(saved) = x.waste.as_ref().map(|waste| waste.saving_per_week) {
        let word = if saved.amount.is_sign_negative() { "costs" } else { "saves" };
        out.push_str(&format!("  making it {word} {} a week (estimate)\n", saved.abs().fine()));
    }
    out.push_str(&match x.break_even_bottles_per_week {
        _ if x.never_breaks_even => {
            "  never breaks even: a batch costs more than the same in bought bottles\n".to_owned()
        }
        None => "  from how many bottles a week it pays is not known: --life says how many days it keeps\n".to_owned(),
        Some(bottles) => format!(
            "  pays from {} bottles of {} ml a week: what is left at the end of its life is thrown away (estimate)\n",
            grouped((10.0 * bottles - 1e-9).ceil() / 10.0, 1),
            short(x.bottle_ml)
        ),
    });
    out.push_str(&x.turns_on.as_ref().map_or_else(String::new, |flip| format!("  {}\n", flipped(flip))));
    out
}

fn flipped(flip: &FlipView) -> String {
    let (now, at) = (flip.now.0, flip.at.0);
    let money =
        |what: &str| format!("the answer turns if {what} costs {} a batch instead of {}", at.fine(), now.fine());
    match &flip.what {
        Assumption::Labour => money("labour"),
        Assumption::Part(of) => money(of),
        Assumption::Waste => format!(
            "the answer turns if {} of a batch is thrown away instead of {}",
            percent(at.amount),
            percent(now.amount)
        ),
    }
}

fn selling(s: &SellingView) -> String {
    let taxed = s
        .with_tax
        .map_or_else(|| "; [costs] states no `sales_tax`".to_owned(), |gross| format!(", {} with tax", gross.fine()));
    let added = s.markup.map_or_else(String::new, |m| format!(", a markup of {}", added_to_them(m.0)));
    format!(
        "\nSelling {} ml that cost {}, its ingredients {}\n  {} before tax{taxed}\n  gross profit {} = pour cost {}: what the ingredients leave and take of the price before tax{added}\n",
        short(s.ml),
        s.cost.fine(),
        s.ingredients.fine(),
        s.before_tax.fine(),
        percent(s.gross_profit.0),
        percent(s.pour_cost.0),
    )
}
