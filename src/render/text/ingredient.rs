//! An ingredient and where its numbers come from.

use crate::cost::{usable_kg_in_larder, usable_kg_text};
use crate::larder::{DATA_NOTICE, Form, Ingredient, Origin};
use crate::mixture::Component;
use crate::units::display::{grouped, percent_text};
use crate::units::{celsius, in_grams, in_kg_per_m3};

use super::table;

/// Everything that is known of one.
pub fn ingredient(i: &Ingredient) -> String {
    let mut out = format!("\n{}\n\n", i.name);
    let mut rows: Vec<Vec<String>> = vec![vec!["in 100 g".to_owned(), "g".to_owned()]];
    for &component in Component::ALL {
        let g = 100.0 * i.per_gram.grams_of(component);
        if g > 0.0 {
            let decimals = if g < 0.1 { 3 } else { 2 };
            rows.push(vec![component.words().to_owned(), grouped(g, decimals)]);
        }
    }
    out.push_str(&table::columns(&rows));
    out.push('\n');
    let mut said: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, text: String| said.push((name.to_owned(), text));
    if let Ok(density) = i.per_gram.density(celsius(20.0))
        && i.form == Form::Liquid
    {
        say("100 ml weighs", format!("{} g (computed, 20 °C)", grouped(in_kg_per_m3(density.value) / 10.0, 1)));
    }
    if i.per_gram.solids_grams() > 0.001 && i.form == Form::Liquid {
        say("Brix", grouped(100.0 * i.per_gram.solids_grams(), 1));
    }
    if let (Ok(abv), true) = (i.per_gram.abv(), i.per_gram.grams_of(Component::Ethanol) > 0.0) {
        say("ABV", format!("{} %", grouped(abv.value.get(), 1)));
    }
    let acid = i.per_gram.titratable_acid_grams();
    if acid > 0.0005 {
        say("acid", format!("{} g in 100 g, titratable to pH 8.1, as citric", grouped(100.0 * acid, 2)));
    }
    if let Some(ph) = &i.ph_published {
        let own = matches!(i.origin, Origin::House(_)) && ph.ends_with("(of this house)");
        say("pH", if own { ph.clone() } else { format!("{ph} (published; your own reading is better)") });
    }
    if let Some(bulk) = i.bulk_density {
        say(
            "100 ml piled",
            format!("{} g (cups and spoons err by 5 to 15 %: weigh it)", grouped(in_kg_per_m3(bulk) / 10.0, 0)),
        );
    }
    if let Some(piece) = i.piece {
        say("one piece", format!("{} g", grouped(in_grams(piece), 0)));
    }
    if let Some(holds) = i.holds {
        let status = i.holds_status.clone().unwrap_or_default();
        say("strained out, it keeps", format!("{} g of liquid a gram ({status})", grouped(holds, 1)));
    }
    if !i.allergens.is_empty() {
        say("allergens", i.allergens.join(", "));
    }
    if let Some(price) = &i.price {
        let day = i.priced_on.as_ref().map_or_else(String::new, |day| format!(", of {day}"));
        let usable = i.usable.map_or_else(String::new, |share| format!(", {} of it usable", percent_text(share)));
        let costs = usable_kg_in_larder(i).map(|(currency, cost)| format!(" = {}", usable_kg_text(currency, cost)));
        say("price", format!("{price}{day}{usable}{}", costs.unwrap_or_default()));
    }
    let names: Vec<&str> = i.all_names().filter(|n| *n != i.name).collect();
    if !names.is_empty() {
        say("also called", names.join(", "));
    }
    say("known by", i.status.clone());
    say("source", i.source.clone());
    if !i.notes.is_empty() {
        say("note", i.notes.clone());
    }
    say(
        "stands in",
        match &i.origin {
            Origin::BuiltIn => "the built-in larder".to_owned(),
            Origin::House(file) => file.to_string(),
        },
    );
    out.push_str(&table::pairs(&said));
    out
}

/// A line each.
pub fn ingredients(all: &[&Ingredient]) -> String {
    let rows: Vec<Vec<String>> = all
        .iter()
        .map(|i| {
            let g = |x: f64| if x > 0.0005 { grouped(100.0 * x, 1) } else { "-".to_owned() };
            vec![
                i.name.clone(),
                g(i.per_gram.sugar_grams()),
                g(i.per_gram.titratable_acid_grams()),
                g(i.per_gram.grams_of(Component::Ethanol)),
                g(i.per_gram.grams_of(Component::Water)),
            ]
        })
        .collect();
    let head = ["g in 100 g", "sugar", "acid", "ethanol", "water"].map(str::to_owned).to_vec();
    let mut text = String::from("\n");
    text.push_str(&table::columns(&[vec![head], rows].concat()));
    if all.iter().any(|i| i.origin == Origin::BuiltIn) {
        text.push('\n');
        text.push_str(&table::wrapped("", DATA_NOTICE));
    }
    text
}
