//! The embedded larder: rows of tables, made into ingredients by one loader.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::mixture::{Component, Mineral, Mixture};
use crate::vocabulary::table::{LongTable, Row};
use crate::vocabulary::{Evidence, Kind, Open, Status, Tag, Word};

use super::analysis::{Analysis, minerals};
use super::ingredient::{Form, Ingredient, Origin, Stated};
use super::portion::{self, PortionWeight};
use super::strained::{self, Strained};

/// What neutralises acid though no composition shows it.
static ALKALIS: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("alkalis.csv", include_str!("data/alkalis.csv")));

/// Words of names that are those of an alkali, and what it neutralises, equivalents a gram.
pub(crate) fn alkali_words() -> impl Iterator<Item = (&'static str, f64)> {
    ALKALIS.rows().flat_map(|row| row.items("words").map(move |words| (words, eq_per_gram(row))))
}

fn eq_per_gram(alkali: Row<'_>) -> f64 {
    alkali.number("meq_per_g").unwrap_or_default() / 1000.0
}

fn compositions() -> [LongTable; 3] {
    [
        LongTable::read("composition.csv", include_str!("data/composition.csv")),
        LongTable::read("dry-goods.csv", include_str!("data/dry-goods.csv")),
        LongTable::read("composition-second.csv", include_str!("data/composition-second.csv")),
    ]
}

fn abouts() -> LongTable {
    LongTable::read("about.csv", include_str!("data/about.csv"))
}

/// Every ingredient of the embedded tables.
pub(super) fn ingredients() -> Vec<Ingredient> {
    let abouts = abouts();
    let about: HashMap<&str, Row<'_>> = abouts.rows().map(|row| (row.text("id"), row)).collect();
    let names = LongTable::read("names.csv", include_str!("data/names.csv"));
    let mut aliases: HashMap<&str, Vec<String>> = HashMap::new();
    for row in names.rows() {
        aliases.entry(row.text("id")).or_default().push(row.text("name").to_owned());
    }
    let mut portions = portion::built_in();
    let alkalis: HashMap<&str, f64> = ALKALIS.rows().map(|row| (row.text("id"), eq_per_gram(row))).collect();
    let mut all = Vec::new();
    for sheet in &compositions() {
        let columns = Columns::of(sheet);
        for row in sheet.rows() {
            let id = row.text("id");
            let Some(about) = about.get(id) else { row.wrong(id) };
            let portions = portions.remove(id).unwrap_or_default();
            all.push(Ingredient {
                aliases: aliases.remove(id).unwrap_or_default(),
                alkali_eq_per_gram: alkalis.get(id).copied().unwrap_or(0.0),
                ..ingredient(row, &columns, *about, portions)
            });
        }
    }
    all
}

/// The folded names, and the place of what they name.
pub(super) fn keys(place: impl Fn(&str) -> Option<usize>) -> HashMap<String, usize> {
    // A key has neither comma nor quote: the longest of the tables needs no reader of CSV.
    let rows = include_str!("data/keys.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    let key = |row: &str| {
        let read = row.split_once(',').and_then(|(key, id)| Some((key.to_owned(), place(id)?)));
        read.unwrap_or_else(|| panic!("keys.csv: `{row}`"))
    };
    rows.map(key).collect()
}

/// Where a table of compositions has its numbers: grams of components and milligrams of minerals in 100 g as used. A
/// column that it lacks is blank.
struct Columns {
    grams: Vec<(Component, usize)>,
    minerals: Vec<(Mineral, usize)>,
}

impl Columns {
    fn of(sheet: &LongTable) -> Self {
        let grams = |&c: &Component| Some((c, sheet.column(&format!("{}_g", c.key()))?));
        let mg = |m: Mineral| Some((m, sheet.column(m.key())?));
        Self {
            grams: Component::ALL.iter().filter_map(grams).collect(),
            minerals: Mineral::ALL.into_iter().filter_map(mg).collect(),
        }
    }
}

fn ingredient(row: Row<'_>, columns: &Columns, about: Row<'_>, portions: Vec<PortionWeight>) -> Ingredient {
    let status = status(row);
    let strained = about.said("holds_as").map(|name| strained::of(&name).unwrap_or_else(|| about.wrong(&name)));
    let analysis = dissolving(analysis(row, columns, &status), &status, strained);
    let notes = [row.said("notes"), about.said("notes"), closing_note(&analysis)];
    let form: Form = about.word("form");
    let kind: Kind = about.word("kind");
    let tag = |written: &str| Open::Known(Tag::parse(written).unwrap_or_else(|| about.wrong(written)));
    Ingredient {
        id: row.text("id").to_owned(),
        name: row.text("name").to_owned(),
        aliases: Vec::new(),
        kind: Some(kind),
        per_gram: analysis.per_gram(),
        form,
        bulk_density: Some(&portions).filter(|_| form == Form::Solid).and_then(|all| portion::bulk_density(all)),
        piece: portion::piece(&portions),
        portions,
        holds: strained.map(Strained::net),
        holds_status: strained.map(Strained::said),
        strained,
        alkali_eq_per_gram: 0.0,
        ph_published: row.said("ph_published"),
        tags: about.items("tags").map(tag).collect(),
        allergens: about.items("allergens").map(str::to_owned).collect(),
        allergens_stated: true,
        food: None,
        named_at: None,
        price: None,
        price_at: None,
        usable: None,
        priced_on: None,
        status,
        source: row.text("source").to_owned(),
        notes: notes.into_iter().flatten().collect::<Vec<_>>().join("; "),
        like: Vec::new(),
        origin: Origin::BuiltIn,
        stated: Stated::default(),
    }
}

fn status(row: Row<'_>) -> Status {
    let written = row.text("status");
    Status::parse(written).unwrap_or_else(|| row.wrong(written))
}

/// What the row says of 100 g, and the three that a table of foods counts in its own way.
fn analysis(row: Row<'_>, columns: &Columns, status: &Status) -> Analysis {
    let g = |column: &str| row.number(column).unwrap_or(0.0);
    let mut grams = Mixture::default();
    for &(component, place) in &columns.grams {
        grams.set_grams(component, row.number_at(place).unwrap_or(0.0));
    }
    // Carbohydrate, fibre and acid come from different samples: fibre may not exceed what carbohydrate leaves.
    let other_carbohydrate = g("other_carb_g");
    let fibre = g("fibre_memo_g").min(other_carbohydrate);
    grams.set_grams(Component::Fibre, fibre);
    grams.set_grams(Component::OtherCarbohydrate, other_carbohydrate - fibre);
    let acid_g = g("acid_g");
    for kind in row.text("acid_kinds_mass_share").split('+').filter(|kind| !kind.is_empty()) {
        // Shares by mass of the acids: `citric:0.92+malic:0.08`.
        let read = || {
            let (acid, share) = kind.split_once(':')?;
            Some((Component::from_key(acid)?, share.parse::<f64>().ok()?))
        };
        let (acid, share) = read().unwrap_or_else(|| row.wrong(kind));
        grams.set_grams(acid, grams.grams_of(acid) + share * acid_g);
    }
    // A blank is unknown, but in what is only its name (a pure substance, a spirit, what does not dissolve).
    let by_name = [Evidence::Definition, Evidence::Computed, Evidence::AssumedInsoluble].map(Word::word);
    let pure = grams.grams_of(Component::Ash) == 0.0 && by_name.contains(&status.as_str());
    let mg =
        |mineral| columns.minerals.iter().find(|(m, _)| *m == mineral).and_then(|(_, place)| row.number_at(*place));
    let mut analysis = Analysis { grams, minerals: minerals(mg) };
    if pure {
        analysis.take_blanks_as_none();
    }
    analysis
}

/// Of what stands as insoluble for want of an analysis, the share that is known to dissolve does.
fn dissolving(mut analysis: Analysis, status: &Status, strained: Option<&Strained>) -> Analysis {
    if let (Evidence::AssumedInsoluble, Some(solubles)) = (status.evidence, strained.and_then(|s| s.solubles)) {
        let dry = analysis.grams.grams_of(Component::Insoluble);
        analysis.grams.set_grams(Component::Insoluble, dry * (1.0 - solubles.usual));
        let other = analysis.grams.grams_of(Component::OtherCarbohydrate);
        analysis.grams.set_grams(Component::OtherCarbohydrate, other + dry * solubles.usual);
    }
    analysis
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
