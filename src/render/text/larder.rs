//! An ingredient and where its numbers come from; or a line each.

use crate::larder::{DATA_NOTICE, Practice};
use crate::mixture::Component;
use crate::report::Report;
use crate::report::larder::{IngredientView, LarderEntryView, LarderReport, PortionView};
use crate::units::display::{grouped, percent_text};
use crate::vocabulary::{Portion, Word};

use super::table;

/// The entry that was written, or where it stands now.
pub(crate) fn larder_entry(report: &Report<LarderEntryView>) -> String {
    match report.answer() {
        Some(LarderEntryView { text, file: Some(file) }) => {
            format!("{text}\nadded to {file}: answer its questions there\n")
        }
        Some(LarderEntryView { text, file: None }) => text.clone(),
        None => String::new(),
    }
}

pub(crate) fn larder(report: &LarderReport) -> String {
    match report.answer().map(|view| (view.ingredients.as_slice(), view.one)) {
        None | Some(([], _)) => String::new(),
        Some(([one], true)) => ingredient(one),
        Some((many, _)) => listed(many),
    }
}

fn ingredient(i: &IngredientView) -> String {
    let mut rows: Vec<Vec<String>> = vec![vec!["in 100 g".to_owned(), "g".to_owned()]];
    rows.extend(i.per_100g.iter().map(|(component, g)| {
        let decimals = if *g < 0.1 { 3 } else { 2 };
        vec![component.words().to_owned(), grouped(*g, decimals)]
    }));
    let mut said: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, text: Option<String>| said.extend(text.map(|text| (name.to_owned(), text)));
    let computed = |rho: f64| format!("{} g (computed, 20 °C)", grouped(rho / 10.0, 1));
    say("100 ml weighs", i.density_kg_m3.map(computed));
    say("Brix", i.brix.filter(|brix| *brix > 0.1).map(|brix| grouped(brix, 1)));
    say("ABV", i.abv_pct.map(|abv| format!("{} %", grouped(abv, 1))));
    let acid = |g: f64| format!("{} g in 100 g, titratable to pH 8.1, as citric", grouped(g, 2));
    say("acid", Some(i.acid_per_100g).filter(|g| *g > 0.05).map(acid));
    let ph = |ph: &String| {
        let own = i.file.is_some() && ph.ends_with("(of this house)");
        if own { ph.clone() } else { format!("{ph} (published; your own reading is better)") }
    };
    say("pH", i.ph.as_ref().map(ph));
    let piled = |rho: f64| format!("{} g (cups and spoons err by 5 to 15 %: weigh it)", grouped(rho / 10.0, 0));
    say("100 ml piled", i.bulk_density_kg_m3.map(piled));
    let is_listed = |g: f64| i.portions.iter().any(|p| (p.grams - g).abs() < 1e-9);
    say("one piece", i.piece_g.filter(|g| !is_listed(*g)).map(|g| format!("{} g", grouped(g, 0))));
    for p in &i.portions {
        say(&portion_name(p), Some(portion(p)));
    }
    let status = i.holds_status.as_deref().unwrap_or_default();
    let holds = |g: f64| match g {
        0.0.. => format!("keeps {} g of liquid a gram ({status})", grouped(g, 1)),
        _ => format!("comes out as {} g of each 100 g ({status})", grouped(100.0 * (1.0 + g), 0)),
    };
    say("strained out, it", i.holds.map(holds));
    let range =
        |r: &Practice| format!("{} g a gram ({} to {})", grouped(r.usual, 2), grouped(r.low, 2), grouped(r.high, 2));
    say("gives juice", i.gives.as_ref().filter(|r| r.usual > 0.0).map(range));
    let percent =
        |r: &Practice| format!("{} ({} to {})", percent_text(r.usual), percent_text(r.low), percent_text(r.high));
    say("dissolves of it", i.solubles.as_ref().map(percent));
    say("recovered of it", i.recovered.as_ref().map(percent));
    let neutralises = |meq: f64| format!("{} meq of acid a gram at most", grouped(meq, 1));
    say("neutralises", i.neutralises_meq_per_g.map(neutralises));
    say("allergens", Some(i.allergens.join(", ")).filter(|all| !all.is_empty()));
    let price = |price: &String| {
        let day = i.priced_on.as_ref().map_or_else(String::new, |day| format!(", of {day}"));
        let usable = i.usable.map_or_else(String::new, |share| format!(", {} of it usable", percent_text(share)));
        let costs = i.per_usable_kg.map_or_else(String::new, |cost| format!(" = {} per usable kg", cost.to_coin()));
        format!("{price}{day}{usable}{costs}")
    };
    say("price", i.price.as_ref().map(price));
    let others: Vec<&str> =
        [&i.id].into_iter().chain(&i.aliases).filter(|name| **name != i.name).map(String::as_str).collect();
    say("also called", Some(others.join(", ")).filter(|all| !all.is_empty()));
    say("known by", Some(i.status.as_str().to_owned()));
    say("source", Some(i.source.clone()));
    say("note", Some(i.notes.clone()).filter(|notes| !notes.is_empty()));
    say("stands in", Some(i.file.clone().unwrap_or_else(|| "the built-in larder".to_owned())));
    format!("\n{}\n\n{}\n{}", i.name, table::columns(&rows), table::pairs(&said))
}

fn listed(all: &[IngredientView]) -> String {
    let head = ["g in 100 g", "sugar", "acid", "ethanol", "water"].map(str::to_owned).to_vec();
    let rows = all.iter().map(|i| {
        let g = |x: f64| if x > 0.05 { grouped(x, 1) } else { "-".to_owned() };
        let of = |component| i.per_100g.iter().find(|(c, _)| *c == component).map_or(0.0, |(_, g)| *g);
        vec![
            i.name.clone(),
            g(i.sugar_per_100g),
            g(i.acid_per_100g),
            g(of(Component::Ethanol)),
            g(of(Component::Water)),
        ]
    });
    let table = table::columns(&[head].into_iter().chain(rows).collect::<Vec<_>>());
    let notice = if all.iter().any(|i| i.file.is_none()) { table::wrapped("", DATA_NOTICE) } else { String::new() };
    if notice.is_empty() { format!("\n{table}") } else { format!("\n{table}\n{notice}") }
}

/// "zest of one, grated", "one sprig", "one cup, sliced".
fn portion_name(p: &PortionView) -> String {
    let name = match p.portion {
        Portion::Juice | Portion::Zest | Portion::Peel | Portion::Seeds => format!("{} of one", p.portion.word()),
        Portion::JuiceOfWedge | Portion::FromKilo => p.portion.word().to_owned(),
        Portion::Millilitre => "a millilitre".to_owned(),
        _ => format!("one {}", p.portion.word()),
    };
    if p.said.is_empty() { name } else { format!("{name}, {}", p.said) }
}

fn portion(p: &PortionView) -> String {
    let g = |g: f64| {
        let decimals = match g {
            100.0.. => 0,
            1.0.. => 1,
            _ => 3,
        };
        let text = grouped(g, decimals);
        if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
    };
    let range = p.low_g.zip(p.high_g).map_or_else(String::new, |(low, high)| format!("{} to {}; ", g(low), g(high)));
    format!("{} g ({range}{})", g(p.grams), p.status.as_str())
}
