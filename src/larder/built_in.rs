//! The embedded larder: rows of tables, made into ingredients by one loader.

use std::collections::HashMap;

use crate::mixture::{Component, Mineral};
use crate::units::{grams, kg_per_m3};

use super::analysis::{Analysis, minerals};
use super::ingredient::{Form, Ingredient, Origin, Stated};
use super::table::{Row, rows};

const COMPOSITION: &str = include_str!("data/composition.csv");
const DRY_GOODS: &str = include_str!("data/dry-goods.csv");
const NAMES: &str = include_str!("data/names.csv");
const MEASURES: &str = include_str!("data/measures.csv");

/// What has its fibre dissolved: gums, and clear syrups, whose "fibre" is oligosaccharides. All of it is dissolved
/// carbohydrate. In every other row `fibre` is
/// what a strainer holds.
const FIBRE_DISSOLVES: [&str; 5] = ["gum-arabic", "xanthan-gum", "honey", "maple-syrup", "agave-syrup"];

/// Every ingredient of the embedded tables.
pub(super) fn ingredients() -> Vec<Ingredient> {
    let by_id = |csv| rows(csv).into_iter().map(|row| (row.text("id").to_owned(), row)).collect::<HashMap<_, _>>();
    let (names, measures) = (by_id(NAMES), by_id(MEASURES));
    let all = rows(COMPOSITION).into_iter().chain(rows(DRY_GOODS));
    all.map(|row| ingredient(&row, names.get(row.text("id")), measures.get(row.text("id")))).collect()
}

fn ingredient(row: &Row, names: Option<&Row>, measures: Option<&Row>) -> Ingredient {
    let analysis = analysis(row);
    let list = |column| names.map(|n| n.list(column)).unwrap_or_default();
    let measure = |column| measures.and_then(|m| m.number(column));
    let solid = names.is_some_and(|n| n.text("form") == "solid");
    let notes = [row.filled("notes"), names.and_then(|n| n.filled("notes")), closing_note(&analysis)];
    Ingredient {
        id: row.text("id").to_owned(),
        name: row.text("name").to_owned(),
        aliases: list("aliases"),
        per_gram: analysis.per_gram(),
        form: if solid { Form::Solid } else { Form::Liquid },
        bulk_density: measure("bulk_g").zip(measure("bulk_ml")).map(|(g, ml)| kg_per_m3(1000.0 * g / ml)),
        piece: measure("piece_g").map(grams),
        holds: measure("holds"),
        holds_status: measures.and_then(|m| m.filled("holds_source")),
        ph_published: row.filled("ph_published"),
        tags: list("tags"),
        allergens: list("allergens"),
        allergens_stated: true,
        price: None,
        price_at: None,
        usable: None,
        priced_on: None,
        status: row.text("status").to_owned(),
        source: row.text("source").to_owned(),
        notes: notes.into_iter().flatten().collect::<Vec<_>>().join("; "),
        like: Vec::new(),
        origin: Origin::BuiltIn,
        stated: Stated::default(),
    }
}

/// What the row says of 100 g: columns `<component>_g` and `<mineral>_mg`, and the three that a table of
/// foods counts in its own way.
fn analysis(row: &Row) -> Analysis {
    let mut analysis = Analysis::default();
    let put = |analysis: &mut Analysis, component, g: f64| {
        analysis.grams.set_grams(component, analysis.grams.grams_of(component) + g);
    };
    for &component in Component::ALL {
        if let Some(g) = row.number(&format!("{}_g", component.key())) {
            put(&mut analysis, component, g);
        }
    }
    // Carbohydrate, fibre and acid come from different samples: fibre may not exceed what carbohydrate leaves.
    let other_carbohydrate = row.number("other_carb_g").unwrap_or(0.0);
    let fibre = match FIBRE_DISSOLVES.contains(&row.text("id")) {
        true => 0.0,
        false => row.number("fibre_memo_g").unwrap_or(0.0).min(other_carbohydrate),
    };
    put(&mut analysis, Component::Fibre, fibre);
    put(&mut analysis, Component::OtherCarbohydrate, other_carbohydrate - fibre);
    let acid = row.number("acid_g").unwrap_or(0.0);
    for (component, share) in acid_kinds(row.text("acid_kinds_mass_share")) {
        put(&mut analysis, component, share * acid);
    }
    // A blank is unknown, but in what is only its name (a pure substance, a spirit, what does not dissolve).
    let blank = is_pure(row).then_some(0.0);
    analysis.minerals = minerals(|mineral| row.number(mineral.key()).or(blank));
    if row.text("id") == "salt" {
        // Its ash is the salt. The little potassium and calcium in it come as chloride and sulphate, which hold no acid.
        let ash = analysis.grams.grams_of(Component::Ash);
        put(&mut analysis, Component::Salt, ash);
        analysis.grams.set_grams(Component::Ash, 0.0);
        let sodium = row.number(Mineral::Sodium.key());
        analysis.minerals = minerals(|mineral| if mineral == Mineral::Sodium { sodium } else { Some(0.0) });
    }
    analysis
}

fn is_pure(row: &Row) -> bool {
    let no_ash = row.number("ash_g").unwrap_or(0.0) == 0.0;
    no_ash && matches!(row.text("status"), "definition" | "computed" | "assumed insoluble")
}

/// `citric:0.92+malic:0.08`
fn acid_kinds(written: &str) -> impl Iterator<Item = (Component, f64)> {
    written.split('+').filter_map(|kind| {
        let (acid, share) = kind.split_once(':')?;
        Some((Component::from_key(acid)?, share.parse().ok()?))
    })
}

/// Sums are printed to 0.01; what is within 0.05 of 100 is rounding and not worth a word.
fn closing_note(analysis: &Analysis) -> Option<String> {
    let gap = analysis.gap_grams();
    match gap {
        0.05.. => Some(format!("{gap:.2} g per 100 g are not known and stand as `other`")),
        ..-0.05 => Some(format!("the table adds to {:.2} g per 100 g and is scaled down to 100", 100.0 - gap)),
        _ => None,
    }
}
