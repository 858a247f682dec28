//! One guest's glass: what is poured, what it holds, whom to tell what, what it costs.

use crate::cost::PricedBy;
use crate::drinks::Figures;
use crate::report::caution::{CautionView, waiting};
use crate::report::serve::{GlassCostView, IceWaterView, PouredView, ServeReport, ServeView};
use crate::units::display::{percent_text, short, span};

use super::page::Page;
use super::table::{self, wrapped};
use super::warned::briefs;

pub(crate) fn serve(report: &ServeReport, page: Page) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.cautions);
    out.extend(view.refused_parts.iter().map(|refused| wrapped("STOP  ", refused)));
    out.push_str(&wrapped(&format!("\n{} · ", report.product()), &head(view)));
    let in_order = |line| {
        let [ounces, ml, of] = poured(line);
        if view.by_ounces { [ounces, ml, of] } else { [ml, ounces, of] }
    };
    out.push_str(&table::listed(&view.lines.iter().map(in_order).collect::<Vec<_>>()));
    let water = view.ice_water.as_ref().map_or_else(Vec::new, |water| ice_water(water, page.full));
    out.extend(water.iter().map(|said| wrapped("  ", said)));
    out.extend(view.garnish.iter().map(|garnish| wrapped("  garnish: ", garnish)));
    out.extend(view.steps.iter().enumerate().map(|(i, step)| wrapped(&format!("  {}. ", i + 1), step)));
    out.push('\n');
    out.push_str(&table::pairs(&holds(view)));
    out.push_str(&view.cost.as_ref().map_or_else(String::new, costs));
    out.extend(view.unidentified.iter().map(|open| wrapped("  first say: ", &open.question)));
    out.push_str(&wrapped("Allergens: ", &view.allergens.told()));
    out.extend(view.bottles_to_state.iter().map(|bottles| wrapped("  ? ", bottles)));
    out.push_str(&match page.full {
        true => super::cautions(&view.cautions, true),
        false => cautions(&view.cautions),
    });
    out.push_str(&super::doses::doses(&view.doses));
    page.fit(&out)
}

/// A line each, and each once: whoever serves it reads them before the guest orders. A stop stands above everything.
pub(super) fn cautions(all: &[CautionView]) -> String {
    let mut out: String = briefs(all).iter().map(|(sign, brief)| wrapped(&format!("  {sign} "), brief)).collect();
    if let Some(open) = not_stated(all) {
        out.push_str(&wrapped("  ? not stated: ", &format!("{open} (--full)")));
    }
    out
}

/// What cautions wait for.
pub(in crate::render) fn not_stated(all: &[CautionView]) -> Option<String> {
    let open: Vec<String> = waiting(all).into_iter().map(|(asked, _)| asked).collect();
    (!open.is_empty()).then(|| open.join("; "))
}

pub(in crate::render) fn head(view: &ServeView) -> String {
    let how = view.how.map(|how| how.to_string());
    let said = ["one glass".to_owned()].into_iter().chain(how).chain(view.glass.clone());
    said.collect::<Vec<_>>().join(", ")
}

/// Ounces, millilitres, and what it is; of what is counted the count.
pub(in crate::render) fn poured(line: &PouredView) -> [String; 3] {
    let ml = line.ml.map(|ml| format!("{} ml", short(ml)));
    let at = line.at_c.map_or_else(String::new, |at| format!(", at {} °C", short(at)));
    let after = |of: &String| format!("{of}{at}{}", if line.after_ice { ", after the ice" } else { "" });
    match &line.counted {
        Some(counted) => [String::new(), ml.unwrap_or_else(|| grams(line.mass_g)), after(counted)],
        None => [line.in_ounces.clone().unwrap_or_default(), ml.unwrap_or_else(|| grams(line.mass_g)), after(&line.of)],
    }
}

fn grams(g: f64) -> String {
    format!("{} g", short(g))
}

pub(in crate::render) fn ice_water(water: &IceWaterView, full: bool) -> Vec<String> {
    let doubts = in_doubt(water.weighed, (water.grams, water.glasses_weighed), water.outside_balance_g);
    if water.weighed {
        let weighed = format!("+ {} g of water from the ice, as weighed", short(water.grams));
        return [weighed].into_iter().chain(doubts).collect();
    }
    let at = water.at_c.map_or_else(String::new, |(low, high)| format!(", cooled to {} °C", span(low, high, 0)));
    let range = span(water.least_g, water.most_g, 0);
    let mut said = match water.house_weighed {
        Some(own) => format!("+ {range} g of water from the ice, {}{at}", weighed_alike(own.drinks)),
        None => format!("+ {range} g of water from the ice by the balance of heat, not weighed{at}"),
    };
    if full {
        said = format!("{said}; taken for granted: {}", water.assumed.join(", "));
    }
    let warm = (!water.warm.is_empty()).then(|| format!("taken: {}", water.warm.join(", ")));
    [said].into_iter().chain(warm).chain(doubts).collect()
}

/// What makes water from ice doubtful that somebody weighed, in this drink or in those made alike: of several glasses at once, or
/// beyond what the balance of heat allows.
pub(super) fn in_doubt(weighed: bool, (grams, glasses): (f64, u32), outside_g: Option<(f64, f64)>) -> Vec<String> {
    let several = (glasses > 1).then(|| {
        let each = short(grams / f64::from(glasses));
        format!("{glasses} glasses in one tin? Then it is {each} g for each: weigh one")
    });
    let outside = outside_g.map(|(least, most)| span(least, most, 0)).map(|balance| match weighed {
        true => format!("the balance of heat gives {balance} g: weigh it once more"),
        false => format!(
            "that lies outside the {balance} g of the balance of heat: weigh again, and state the ice: [ice] grams, kind, at"
        ),
    });
    several.into_iter().chain(outside).collect()
}

/// What set the water, where the house weighed other drinks.
pub(super) fn weighed_alike(drinks: usize) -> String {
    format!("as the house weighed {drinks} {} made alike", if drinks == 1 { "drink" } else { "drinks" })
}

/// Columns that are left beside what a line is called, on a page of 60.
const WIDEST: usize = 43;

/// A figure of the glass with the least and the most water; only of what pours a drink that is watered itself do all of them have
/// two ends.
fn range(view: &ServeView, of: fn(&Figures) -> f64, decimals: usize) -> String {
    span(of(&view.with_least_water), of(&view.with_most_water), decimals)
}

/// How much is in the glass, and how strong.
pub(in crate::render) fn in_the_glass(view: &ServeView) -> String {
    format!("{} ml at {} %", range(view, |f| f.volume_ml, 0), range(view, |f| f.abv_pct, 1))
}

/// Its alcohol: grams, and the units of two countries.
pub(in crate::render) fn alcohol(view: &ServeView) -> [String; 3] {
    [
        format!("{} g", range(view, |f| f.alcohol_g, 1)),
        format!("= {} UK units", range(view, |f| f.uk_units, 2)),
        format!("= {} US drinks", range(view, |f| f.us_standard_drinks, 2)),
    ]
}

pub(in crate::render) fn holds(view: &ServeView) -> Vec<(&'static str, String)> {
    let (dry, wet) = (&view.with_least_water, &view.with_most_water);
    let range = |of, decimals| range(view, of, decimals);
    let acid = match view.figures.acid_g {
        Some(_) => {
            let known = |of: Option<f64>| of.unwrap_or(f64::NAN);
            let (g, g_l) = ((known(dry.acid_g), known(wet.acid_g)), (known(dry.acid_g_l), known(wet.acid_g_l)));
            format!("{} g, {} g/L", span(g.0, g.1, 1), span(g_l.0, g_l.1, 0))
        }
        None => "not known".to_owned(),
    };
    let mut rows = vec![("in the glass", in_the_glass(view))];
    let alcohol = alcohol(view);
    let in_one = alcohol.join(" ");
    if in_one.chars().count() <= WIDEST {
        rows.push(("alcohol", in_one));
    } else {
        let heads = std::iter::once("alcohol").chain(std::iter::repeat(""));
        rows.extend(heads.zip(alcohol));
    }
    rows.extend([
        ("sugar", format!("{} g, {} g/L", range(|f| f.sugar_g, 1), range(|f| f.sugar_g_l, 0))),
        ("acid", acid),
        ("energy", format!("{} kcal, {} kJ", range(|f| f.kcal, 0), range(|f| f.kj, 0))),
    ]);
    rows
}

fn costs(of: &GlassCostView) -> String {
    let mut out = wrapped("  costs ", &cost(of));
    out.extend((!of.missing.is_empty()).then(|| wrapped("  no price of ", &of.missing.join("; "))));
    out
}

pub(in crate::render) fn cost(cost: &GlassCostView) -> String {
    let at_least = if cost.complete { "" } else { "at least " };
    let labour = match cost.labour.filter(|labour| !labour.amount.is_zero()) {
        Some(labour) => format!(", {} of it work", labour.to_coin()),
        None if cost.without_labour => ", without labour".to_owned(),
        None => String::new(),
    };
    let mut said = format!("{at_least}{}{labour}", cost.glass.to_coin());
    if let (Some(price), Some(profit), Some(pour)) =
        (cost.sells_at.or(cost.sells_at_before_tax), cost.gross_profit, cost.pour_cost)
    {
        let share = |share: rust_decimal::Decimal| percent_text(share.try_into().unwrap_or(f64::NAN));
        let tax = if cost.sells_at.is_some() { "with" } else { "before" };
        let by = match cost.priced_by {
            PricedBy::Asked => "",
            PricedBy::Menu => " by the menu",
            PricedBy::Margin => " by the house's margin",
        };
        said = format!(
            "{said}; sells at {} {tax} tax{by}: gross {}, pour cost {} (ingredients only)",
            price.coins(),
            share(profit.0),
            share(pour.0)
        );
    }
    said
}
