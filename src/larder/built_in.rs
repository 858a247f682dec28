//! The embedded larder: rows of tables, made into ingredients by one loader.

use std::collections::HashMap;

use serde::Deserialize;

use crate::mixture::{Component, Mineral, Mixture};
use crate::units::{grams, kg_per_m3};
use crate::vocabulary::table::{List, rows};
use crate::vocabulary::{Evidence, Kind, Open, Status, Tag};

use super::analysis::{Analysis, minerals};
use super::ingredient::{Form, Ingredient, Origin, Stated};

/// What has its fibre dissolved: gums, and clear syrups, whose "fibre" is oligosaccharides. All of it is dissolved
/// carbohydrate. In every other row `fibre` is
/// what a strainer holds.
const FIBRE_DISSOLVES: [&str; 5] = ["gum-arabic", "xanthan-gum", "honey", "maple-syrup", "agave-syrup"];

/// Grams of components and milligrams of minerals in 100 g as used, by column. A column that a table lacks is blank.
#[derive(Deserialize)]
struct CompositionRow(HashMap<String, String>);

/// What an ingredient is called, and what cautions look for in it.
#[derive(Deserialize)]
struct NamesRow {
    id: String,
    form: Form,
    aliases: List<String>,
    tags: List<Tag>,
    allergens: List<String>,
    notes: Option<String>,
}

#[derive(Deserialize)]
struct KindRow {
    id: String,
    kind: Kind,
}

/// What a measure and a piece weigh, and what strained solids hold.
#[derive(Deserialize)]
struct MeasuresRow {
    id: String,
    bulk_g: Option<f64>,
    bulk_ml: Option<f64>,
    piece_g: Option<f64>,
    holds: Option<f64>,
    holds_source: Option<String>,
}

/// Every ingredient of the embedded tables.
pub(super) fn ingredients() -> Vec<Ingredient> {
    let names: Vec<NamesRow> = rows("names.csv", include_str!("data/names.csv"));
    let measures: Vec<MeasuresRow> = rows("measures.csv", include_str!("data/measures.csv"));
    let names: HashMap<&str, &NamesRow> = names.iter().map(|row| (row.id.as_str(), row)).collect();
    let measures: HashMap<&str, &MeasuresRow> = measures.iter().map(|row| (row.id.as_str(), row)).collect();
    let kinds: Vec<KindRow> = rows("kinds.csv", include_str!("data/kinds.csv"));
    let kinds: HashMap<&str, Kind> = kinds.iter().map(|row| (row.id.as_str(), row.kind)).collect();
    let by_id = |row| {
        let id = CompositionRow::id(&row);
        let (names, measures) = (names.get(id).copied(), measures.get(id).copied());
        Ingredient { kind: kinds.get(id).copied(), ..ingredient(&row, names, measures) }
    };
    composition().into_iter().map(by_id).collect()
}

fn composition() -> Vec<CompositionRow> {
    let mut all: Vec<CompositionRow> = rows("composition.csv", include_str!("data/composition.csv"));
    all.extend(rows::<CompositionRow>("dry-goods.csv", include_str!("data/dry-goods.csv")));
    all
}

fn ingredient(row: &CompositionRow, names: Option<&NamesRow>, measures: Option<&MeasuresRow>) -> Ingredient {
    let analysis = row.analysis();
    let measure = |get: fn(&MeasuresRow) -> Option<f64>| measures.and_then(get);
    let said = |column| row.cell(column).map(str::to_owned);
    let notes = [said("notes"), names.and_then(|n| n.notes.clone()), closing_note(&analysis)];
    Ingredient {
        id: row.id().to_owned(),
        name: said("name").unwrap_or_default(),
        aliases: names.map(|n| n.aliases.to_vec()).unwrap_or_default(),
        kind: None,
        per_gram: analysis.per_gram(),
        form: names.map_or(Form::Liquid, |n| n.form),
        bulk_density: measure(|m| m.bulk_g).zip(measure(|m| m.bulk_ml)).map(|(g, ml)| kg_per_m3(1000.0 * g / ml)),
        piece: measure(|m| m.piece_g).map(grams),
        portions: Vec::new(),
        holds: measure(|m| m.holds),
        holds_status: measures.and_then(|m| m.holds_source.clone()),
        ph_published: said("ph_published"),
        tags: names.map(|n| n.tags.iter().copied().map(Open::Known).collect()).unwrap_or_default(),
        allergens: names.map(|n| n.allergens.to_vec()).unwrap_or_default(),
        allergens_stated: true,
        food: None,
        named_at: None,
        price: None,
        price_at: None,
        usable: None,
        priced_on: None,
        status: row.status().unwrap_or(Evidence::FromMemory.into()),
        source: said("source").unwrap_or_default(),
        notes: notes.into_iter().flatten().collect::<Vec<_>>().join("; "),
        like: Vec::new(),
        origin: Origin::BuiltIn,
        stated: Stated::default(),
    }
}

/// The tables are compiled in: a cell that is not what its column holds fails every test that touches it.
impl CompositionRow {
    fn cell(&self, column: &str) -> Option<&str> {
        self.0.get(column).map(String::as_str).filter(|cell| !cell.is_empty())
    }

    fn id(&self) -> &str {
        self.cell("id").unwrap_or_default()
    }

    fn wrong<T>(&self, column: &str) -> T {
        panic!("composition of {}: `{}` is no {column}", self.id(), self.cell(column).unwrap_or_default())
    }

    fn number(&self, column: &str) -> Option<f64> {
        self.cell(column).map(|cell| cell.parse().unwrap_or_else(|_| self.wrong(column)))
    }

    fn status(&self) -> Option<Status> {
        self.cell("status").map(|written| Status::parse(written).unwrap_or_else(|| self.wrong("status")))
    }

    /// Shares by mass of the acids: `citric:0.92+malic:0.08`.
    fn acids(&self) -> Vec<(Component, f64)> {
        let column = "acid_kinds_mass_share";
        let kind = |kind: &str| {
            let (acid, share) = kind.split_once(':')?;
            Some((Component::from_key(acid)?, share.parse().ok()?))
        };
        let kinds: Option<_> = self.cell(column).into_iter().flat_map(|kinds| kinds.split('+')).map(kind).collect();
        kinds.unwrap_or_else(|| self.wrong(column))
    }

    /// What the row says of 100 g, and the three that a table of foods counts in its own way.
    fn analysis(&self) -> Analysis {
        let g = |column: &str| self.number(column).unwrap_or(0.0);
        let mut grams = Mixture::default();
        for &component in Component::ALL {
            grams.set_grams(component, g(&format!("{}_g", component.key())));
        }
        // Carbohydrate, fibre and acid come from different samples: fibre may not exceed what carbohydrate leaves.
        let other_carbohydrate = g("other_carb_g");
        let fibre = match FIBRE_DISSOLVES.contains(&self.id()) {
            true => 0.0,
            false => g("fibre_memo_g").min(other_carbohydrate),
        };
        grams.set_grams(Component::Fibre, fibre);
        grams.set_grams(Component::OtherCarbohydrate, other_carbohydrate - fibre);
        for (acid, share) in self.acids() {
            grams.set_grams(acid, grams.grams_of(acid) + share * g("acid_g"));
        }
        let is_salt = self.id() == "salt";
        if is_salt {
            grams.set_grams(Component::Salt, g("ash_g"));
            grams.set_grams(Component::Ash, 0.0);
        }
        // A blank is unknown, but in what is only its name (a pure substance, a spirit, what does not dissolve).
        let blank = self.is_pure().then_some(0.0);
        let minerals = minerals(|mineral| match (is_salt, mineral) {
            (true, Mineral::Sodium) => self.number(mineral.key()),
            // The little potassium and calcium in it come as chloride and sulphate, which hold no acid.
            (true, _) => Some(0.0),
            (false, _) => self.number(mineral.key()).or(blank),
        });
        Analysis { grams, minerals }
    }

    fn is_pure(&self) -> bool {
        let by_name = [Evidence::Definition, Evidence::Computed, Evidence::AssumedInsoluble];
        let status = self.status().is_some_and(|status| by_name.contains(&status.evidence));
        self.number("ash_g").unwrap_or(0.0) == 0.0 && status
    }
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

#[cfg(test)]
#[path = "../../tests/unit/built_in.rs"]
mod tests;
