//! What a batch costs, and whether to make it.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::cost::{
    Assumption, BreakEven, Comparison, CostLine, Costing, Currency, Flip, MeasureCost, Sides, SoldMeasure,
};
use crate::units::display::{grouped, percent_text, short, volume_text};
use crate::units::millilitres;

use super::table;

/// The costing; the comparison and the selling price where they were asked for.
pub fn cost(c: &Costing, compared: Option<&Comparison>, selling: Option<&SoldMeasure>) -> String {
    let mut out = format!("{} · {}\n\n", c.name, made(c));
    out.push_str(&lines(c));
    out.push_str(&units(c));
    out.push_str(&where_it_goes(c));
    if let Some(compared) = compared {
        out.push_str(&against(c, compared));
    }
    if let Some(sold) = selling {
        out.push_str(&selling_text(c.currency, sold));
    }
    if !c.assumed.is_empty() {
        out.push_str(&format!("\nAssumed: {}\n", c.assumed.join("; ")));
    }
    out
}

fn made(c: &Costing) -> String {
    c.yield_ml.map_or_else(|| format!("{} g", grouped(c.yield_g, 0)), |ml| volume_text(millilitres(ml)))
}

fn lines(c: &Costing) -> String {
    let mut rows = vec![vec![String::new(), "g".to_owned(), c.currency.code().to_owned(), String::new()]];
    rows.extend(c.lines.iter().map(|line| line_row(c.currency, line)));
    let total = if c.complete { "batch" } else { "batch, INCOMPLETE" };
    let before_tax = if c.complete { "before tax" } else { "at least, before tax" };
    rows.push(vec![total.to_owned(), String::new(), c.currency.text(c.batch), before_tax.to_owned()]);
    if !c.tax.is_zero() {
        let kept_apart = "what a house that cannot claim it back pays on top";
        rows.push(vec!["tax, apart".to_owned(), String::new(), c.currency.text(c.tax), kept_apart.to_owned()]);
    }
    table::columns_noted(&rows)
}

fn line_row(currency: Currency, line: &CostLine) -> Vec<String> {
    let grams = line.grams.map_or_else(String::new, |g| grouped(g, if g < 20.0 { 1 } else { 0 }));
    let cost = line.cost.map_or_else(|| "?".to_owned(), |cost| currency.text(cost));
    vec![line.of.clone(), grams, cost, line.why_missing.clone().unwrap_or_else(|| line.basis.clone())]
}

/// Less than a coin is printed finer: a dash costs something too.
fn money(currency: Currency, amount: Decimal) -> String {
    format!("{} {}", currency.fine_text(amount), currency.code())
}

/// What stands before a figure that rests on an incomplete total.
fn at_least(c: &Costing) -> &'static str {
    if c.complete { "" } else { "at least " }
}

fn units(c: &Costing) -> String {
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, amount: Option<Decimal>| {
        if let Some(amount) = amount {
            rows.push((name.to_owned(), format!("{}{}", at_least(c), money(c.currency, amount))));
        }
    };
    match c.yield_ml {
        Some(_) => say("a litre", c.per_litre),
        None => say("a kilogram", c.per_kg),
    }
    say("a bottle", c.per_bottle);
    for measure in c.measures.iter().chain(&c.serving) {
        say(&measure_name(measure), Some(measure.cost));
    }
    say("a gram of sugar", c.per_gram_of_sugar);
    say("a UK unit", c.per_uk_unit);
    format!("\n{}", table::pairs(&rows))
}

fn measure_name(measure: &MeasureCost) -> String {
    let ml = format!("{} ml", short(measure.ml));
    measure.name.map_or_else(|| ml.clone(), |name| format!("{name} ({ml})"))
}

fn where_it_goes(c: &Costing) -> String {
    let mut out = String::new();
    if let Some((of, share)) = &c.most {
        out.push_str(&format!("\n  most of the money: {of}, {}\n", percent(*share)));
    }
    let lost = [
        ("what was thrown away (peel, core, stalks)", c.losses.trimmed),
        ("the wet solids", c.losses.strained),
        ("pan and funnel", c.losses.left_behind),
    ];
    let said: Vec<String> = lost
        .iter()
        .filter(|(_, cost)| !c.currency.round(*cost).is_zero())
        .map(|(what, cost)| format!("{what} {}{}", at_least(c), c.currency.text(*cost)))
        .collect();
    if !said.is_empty() {
        out.push_str(&format!("  lost on the way, in the lines above: {}\n", said.join(", ")));
    }
    out
}

fn percent(share: Decimal) -> String {
    format!("{} %", crate::cost::round(share.saturating_mul(Decimal::ONE_HUNDRED), 1).normalize())
}

/// What is added to a cost; from ten times on as what it is a multiple of.
fn added_to_cost(share: Decimal) -> String {
    if share < Decimal::TEN {
        return format!("{} on the cost", percent(share));
    }
    let times = share.round_sf_with_strategy(3, RoundingStrategy::MidpointAwayFromZero).unwrap_or(share);
    format!("{} times the cost", times.normalize())
}

fn against(c: &Costing, x: &Comparison) -> String {
    let row = |name: String, sides: &Sides| {
        let saving = sides.saving();
        let word = if saving.is_sign_negative() { "dearer by" } else { "saves" };
        let text = |amount| money(c.currency, amount);
        vec![name, text(sides.ours), text(sides.theirs), format!("{word} {}", text(saving.abs()))]
    };
    let mut rows = vec![vec![String::new(), "made".to_owned(), "bought".to_owned(), String::new()]];
    rows.push(row(format!("{} ml", short(x.bottle_ml)), &x.bottle));
    rows.push(row(format!("{} ml", short(x.measure.0)), &x.measure.1));
    rows.extend(x.uk_unit.as_ref().map(|sides| row("a UK unit".to_owned(), sides)));
    if let Some(waste) = x.waste.as_ref().filter(|w| w.share > 0.0) {
        rows.push(row(format!("{} ml, {} thrown away", short(x.bottle_ml), percent_text(waste.share)), &waste.bottle));
    }
    let mut out = format!("\nMade or bought\n{}", table::columns_noted(&rows));
    if let Some(waste) = &x.waste {
        let word = if waste.per_week.is_sign_negative() { "costs" } else { "saves" };
        out.push_str(&format!("  making it {word} {} a week (estimate)\n", money(c.currency, waste.per_week.abs())));
    }
    out.push_str(&match x.break_even {
        BreakEven::Never => "  never breaks even: a batch costs more than the same in bought bottles\n".to_owned(),
        BreakEven::NoLife => {
            "  from how many bottles a week it pays is not known: --life says how many days it keeps\n".to_owned()
        }
        BreakEven::PerWeek(bottles) => format!(
            "  pays from {} bottles of {} ml a week: what is left at the end of its life is thrown away (estimate)\n",
            grouped((10.0 * bottles - 1e-9).ceil() / 10.0, 1),
            short(x.bottle_ml)
        ),
    });
    if let Some(flip) = &x.flip {
        out.push_str(&format!("  {}\n", flipped(c, flip)));
    }
    out
}

fn flipped(c: &Costing, flip: &Flip) -> String {
    let money = |what: &str| {
        format!(
            "the answer turns if {what} costs {} a batch instead of {}",
            money(c.currency, flip.at),
            money(c.currency, flip.now)
        )
    };
    match &flip.what {
        Assumption::Labour => money("labour"),
        Assumption::Part(of) => money(of),
        Assumption::Waste => format!(
            "the answer turns if {} of a batch is thrown away instead of {}",
            percent(flip.at),
            percent(flip.now)
        ),
    }
}

fn selling_text(currency: Currency, sold: &SoldMeasure) -> String {
    let SoldMeasure { ml, cost, selling: s } = *sold;
    let taxed = s.with_tax.map_or_else(
        || "; [costs] states no `sales_tax`".to_owned(),
        |gross| format!(", {} with tax", money(currency, gross)),
    );
    let added = s.markup.map_or_else(String::new, |m| format!(", a markup of {}", added_to_cost(m)));
    format!(
        "\nSelling {} ml that cost {}\n  {} before tax{taxed}\n  gross profit {} = pour cost {}, both of the price before tax{added}\n",
        short(ml),
        money(currency, cost),
        money(currency, s.net),
        percent(s.gross_profit),
        percent(s.pour_cost),
    )
}
