//! The embedded larder: rows of tables, made into ingredients by one loader.

use std::collections::HashMap;

use serde::{Deserialize, Deserializer, de};

use crate::mixture::acidity::juice::Minerals;
use crate::mixture::{Component, Mixture};
use crate::units::{grams, kg_per_m3};
use crate::vocabulary::table::{List, rows};
use crate::vocabulary::{Evidence, Open, Status, Tag};

use super::analysis::Analysis;
use super::ingredient::{Form, Ingredient, Origin, Stated};

/// What has its fibre dissolved: gums, and clear syrups, whose "fibre" is oligosaccharides. All of it is dissolved
/// carbohydrate. In every other row `fibre` is
/// what a strainer holds.
const FIBRE_DISSOLVES: [&str; 5] = ["gum-arabic", "xanthan-gum", "honey", "maple-syrup", "agave-syrup"];

/// Grams of components in 100 g as used. A column that a table lacks, and a blank, are none of it.
#[derive(Default, Deserialize)]
#[serde(default)]
struct CompositionRow {
    id: String,
    name: String,
    water_g: Option<f64>,
    sucrose_g: Option<f64>,
    glucose_g: Option<f64>,
    fructose_g: Option<f64>,
    maltose_g: Option<f64>,
    lactose_g: Option<f64>,
    other_carb_g: Option<f64>,
    fibre_memo_g: Option<f64>,
    acid_g: Option<f64>,
    acid_kinds_mass_share: AcidKinds,
    protein_g: Option<f64>,
    fat_g: Option<f64>,
    ash_g: Option<f64>,
    ethanol_g: Option<f64>,
    glycerol_g: Option<f64>,
    insoluble_g: Option<f64>,
    potassium_mg: Option<f64>,
    sodium_mg: Option<f64>,
    calcium_mg: Option<f64>,
    magnesium_mg: Option<f64>,
    phosphorus_mg: Option<f64>,
    ph_published: Option<String>,
    status: Option<Status>,
    source: String,
    notes: Option<String>,
}

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

/// Shares by mass of the acids: `citric:0.92+malic:0.08`.
#[derive(Default)]
struct AcidKinds(Vec<(Component, f64)>);

impl<'de> Deserialize<'de> for AcidKinds {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = String::deserialize(deserializer)?;
        let kind = |kind: &str| {
            let (acid, share) = kind.split_once(':')?;
            Some((Component::from_key(acid)?, share.parse().ok()?))
        };
        let kinds: Option<_> = written.split('+').filter(|kind| !kind.is_empty()).map(kind).collect();
        kinds.map(Self).ok_or_else(|| de::Error::custom(format!("`{written}` is not acids and their shares")))
    }
}

/// Every ingredient of the embedded tables.
pub(super) fn ingredients() -> Vec<Ingredient> {
    let names: Vec<NamesRow> = rows("names.csv", include_str!("data/names.csv"));
    let measures: Vec<MeasuresRow> = rows("measures.csv", include_str!("data/measures.csv"));
    let names: HashMap<&str, &NamesRow> = names.iter().map(|row| (row.id.as_str(), row)).collect();
    let measures: HashMap<&str, &MeasuresRow> = measures.iter().map(|row| (row.id.as_str(), row)).collect();
    let composition: Vec<CompositionRow> = rows("composition.csv", include_str!("data/composition.csv"));
    let dry: Vec<CompositionRow> = rows("dry-goods.csv", include_str!("data/dry-goods.csv"));
    let all = composition.into_iter().chain(dry);
    all.map(|row| {
        let (names, measures) = (names.get(row.id.as_str()).copied(), measures.get(row.id.as_str()).copied());
        ingredient(row, names, measures)
    })
    .collect()
}

fn ingredient(row: CompositionRow, names: Option<&NamesRow>, measures: Option<&MeasuresRow>) -> Ingredient {
    let analysis = row.analysis();
    let measure = |get: fn(&MeasuresRow) -> Option<f64>| measures.and_then(get);
    let notes = [row.notes, names.and_then(|n| n.notes.clone()), closing_note(&analysis)];
    Ingredient {
        id: row.id,
        name: row.name,
        aliases: names.map(|n| n.aliases.to_vec()).unwrap_or_default(),
        per_gram: analysis.per_gram(),
        form: names.map_or(Form::Liquid, |n| n.form),
        bulk_density: measure(|m| m.bulk_g).zip(measure(|m| m.bulk_ml)).map(|(g, ml)| kg_per_m3(1000.0 * g / ml)),
        piece: measure(|m| m.piece_g).map(grams),
        holds: measure(|m| m.holds),
        holds_status: measures.and_then(|m| m.holds_source.clone()),
        ph_published: row.ph_published,
        tags: names.map(|n| n.tags.iter().copied().map(Open::Known).collect()).unwrap_or_default(),
        allergens: names.map(|n| n.allergens.to_vec()).unwrap_or_default(),
        allergens_stated: true,
        price: None,
        price_at: None,
        usable: None,
        priced_on: None,
        status: row.status.unwrap_or(Status::from(Evidence::FromMemory)),
        source: row.source,
        notes: notes.into_iter().flatten().collect::<Vec<_>>().join("; "),
        like: Vec::new(),
        origin: Origin::BuiltIn,
        stated: Stated::default(),
    }
}

impl CompositionRow {
    /// What the row says of 100 g, and the three that a table of foods counts in its own way.
    fn analysis(&self) -> Analysis {
        let g = |cell: Option<f64>| cell.unwrap_or(0.0);
        // Carbohydrate, fibre and acid come from different samples: fibre may not exceed what carbohydrate leaves.
        let other_carbohydrate = g(self.other_carb_g);
        let fibre = match FIBRE_DISSOLVES.contains(&self.id.as_str()) {
            true => 0.0,
            false => g(self.fibre_memo_g).min(other_carbohydrate),
        };
        let mut grams = Mixture::of(&[
            (Component::Water, g(self.water_g)),
            (Component::Sucrose, g(self.sucrose_g)),
            (Component::Glucose, g(self.glucose_g)),
            (Component::Fructose, g(self.fructose_g)),
            (Component::Maltose, g(self.maltose_g)),
            (Component::Lactose, g(self.lactose_g)),
            (Component::Protein, g(self.protein_g)),
            (Component::Fat, g(self.fat_g)),
            (Component::Ethanol, g(self.ethanol_g)),
            (Component::Glycerol, g(self.glycerol_g)),
            (Component::Insoluble, g(self.insoluble_g)),
            (Component::Fibre, fibre),
            (Component::OtherCarbohydrate, other_carbohydrate - fibre),
        ]);
        for &(acid, share) in &self.acid_kinds_mass_share.0 {
            grams.set_grams(acid, grams.grams_of(acid) + share * g(self.acid_g));
        }
        let is_salt = self.id == "salt";
        grams.set_grams(if is_salt { Component::Salt } else { Component::Ash }, g(self.ash_g));
        // A blank is unknown, but in what is only its name (a pure substance, a spirit, what does not dissolve).
        let blank = self.is_pure().then_some(0.0);
        let minerals = match is_salt {
            // The little potassium and calcium in it come as chloride and sulphate, which hold no acid.
            true => Minerals {
                potassium_mg: Some(0.0),
                sodium_mg: self.sodium_mg,
                calcium_mg: Some(0.0),
                magnesium_mg: Some(0.0),
                phosphorus_mg: Some(0.0),
            },
            false => Minerals {
                potassium_mg: self.potassium_mg.or(blank),
                sodium_mg: self.sodium_mg.or(blank),
                calcium_mg: self.calcium_mg.or(blank),
                magnesium_mg: self.magnesium_mg.or(blank),
                phosphorus_mg: self.phosphorus_mg.or(blank),
            },
        };
        Analysis { grams, minerals }
    }

    fn is_pure(&self) -> bool {
        let by_name = [Evidence::Definition, Evidence::Computed, Evidence::AssumedInsoluble];
        let status = self.status.as_ref().is_some_and(|status| by_name.contains(&status.evidence));
        self.ash_g.unwrap_or(0.0) == 0.0 && status
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
mod tests {
    use super::*;
    use crate::vocabulary::{Allergen, Word};

    #[test]
    fn every_row_of_the_tables_has_its_ingredient_its_status_and_known_allergens() {
        let composition: Vec<CompositionRow> = rows("composition.csv", include_str!("data/composition.csv"));
        let dry: Vec<CompositionRow> = rows("dry-goods.csv", include_str!("data/dry-goods.csv"));
        let ids: Vec<&str> = composition.iter().chain(&dry).map(|row| row.id.as_str()).collect();
        assert!(composition.iter().chain(&dry).all(|row| row.status.is_some() && !row.source.is_empty()));
        let names: Vec<NamesRow> = rows("names.csv", include_str!("data/names.csv"));
        let measures: Vec<MeasuresRow> = rows("measures.csv", include_str!("data/measures.csv"));
        for id in names.iter().map(|n| &n.id).chain(measures.iter().map(|m| &m.id)) {
            assert!(ids.contains(&id.as_str()), "{id}");
        }
        for allergen in names.iter().flat_map(|n| n.allergens.iter()) {
            assert!(Allergen::parse(allergen).is_some(), "{allergen}");
        }
    }
}
