//! The embedded larder: rows of tables, made into ingredients by one loader.

use std::collections::HashMap;
use std::sync::{LazyLock, OnceLock};

use memchr::memmem::Finder;
use memchr::memrchr;

use crate::mixture::{Component, Mineral, Mixture};
use crate::spelling::{Memo, fold};
use crate::units::kg_per_m3;
use crate::vocabulary::table::{LongTable, Row, body, first_cell, lines_of};
use crate::vocabulary::{Evidence, Kind, Open, Status, Tag, Word};

use super::analysis::{Analysis, minerals};
use super::finings;
use super::ingredient::{Alkali, Form, Ingredient, Origin, Stated};
use super::packs;
use super::portion::{self, PortionWeight};
use super::strained::{self, Strained};
use super::sugars::SugarRange;

/// What neutralises acid though no composition shows it: the id, words of names that are those of it, how much.
static ALKALIS: LazyLock<Vec<(String, Vec<String>, Alkali)>> = LazyLock::new(|| {
    let table = LongTable::read("alkalis.csv", include_str!("data/alkalis.csv"));
    let alkali = |row: Row<'_>| {
        let words = row.items("words").map(str::to_owned).collect();
        let most = row.number("meq_per_g").unwrap_or_default() / 1000.0;
        let sure = most * row.number("sure").unwrap_or_default();
        let gas = row.number("gas").unwrap_or_default();
        (
            row.text("id").to_owned(),
            words,
            Alkali { most_eq_per_gram: most, sure_eq_per_gram: sure, gas_mol_per_eq: gas },
        )
    };
    table.rows().map(alkali).collect()
});

/// Words of names that are those of an alkali, and what it neutralises.
pub(crate) fn alkali_words() -> impl Iterator<Item = (&'static str, Alkali)> {
    ALKALIS.iter().flat_map(|(_, words, alkali)| words.iter().map(move |words| (words.as_str(), *alkali)))
}

/// The embedded tables, of which a row is made into an ingredient when it is first asked for.
struct Tables {
    sheets: [(LongTable, Columns); 3],
    about: LongTable,
    names: LongTable,
    /// Where each ingredient stands: its sheet, and its line there.
    places: Vec<(usize, &'static str)>,
    by_id: HashMap<&'static str, usize>,
    made: Vec<OnceLock<Box<Ingredient>>>,
    /// Folded names and the id of what they name, sorted by their bytes; neither holds a comma or a quote.
    keys: &'static str,
}

static TABLES: LazyLock<Tables> = LazyLock::new(Tables::read);

impl Tables {
    fn read() -> Self {
        let sheets = [
            LongTable::read("composition.csv", include_str!("data/composition.csv")),
            LongTable::read("dry-goods.csv", include_str!("data/dry-goods.csv")),
            LongTable::read("composition-second.csv", include_str!("data/composition-second.csv")),
        ]
        .map(|sheet| {
            let columns = Columns::of(&sheet);
            (sheet, columns)
        });
        let (mut places, mut by_id) = (Vec::new(), HashMap::new());
        for (sheet, (table, _)) in sheets.iter().enumerate() {
            for line in table.lines() {
                by_id.insert(first_cell(line), places.len());
                places.push((sheet, line));
            }
        }
        Self {
            about: LongTable::read("about.csv", include_str!("data/about.csv")),
            names: LongTable::read("names.csv", include_str!("data/names.csv")),
            made: places.iter().map(|_| OnceLock::new()).collect(),
            keys: body(include_str!("data/keys.csv")),
            sheets,
            places,
            by_id,
        }
    }

    fn ingredient(&self, place: usize) -> Option<&Ingredient> {
        let (cell, &(sheet, line)) = (self.made.get(place)?, self.places.get(place)?);
        if let Some(made) = cell.get() {
            return Some(made);
        }
        let (table, columns) = self.sheets.get(sheet)?;
        let row = table.row(line);
        Some(cell.get_or_init(|| {
            let id = row.text("id");
            let about = self.about.rows_of(id).next().unwrap_or_else(|| row.wrong(id));
            Box::new(Ingredient {
                aliases: self.names.rows_of(id).map(|row| row.text("name").to_owned()).collect(),
                alkali: ALKALIS.iter().find(|(of, ..)| of == id).map_or(Alkali::default(), |(_, _, alkali)| *alkali),
                ..ingredient(&row, columns, &about, portion::built_in(id))
            })
        }))
    }
}

/// How many ingredients are embedded.
pub(super) fn count() -> usize {
    TABLES.places.len()
}

/// Whether an embedded ingredient has this id.
pub(super) fn has_id(id: &str) -> bool {
    TABLES.by_id.contains_key(id)
}

/// The embedded ingredient at a place of their order.
pub(super) fn at(place: usize) -> Option<&'static Ingredient> {
    TABLES.ingredient(place)
}

/// Every folded name.
pub(super) fn keys() -> impl Iterator<Item = &'static str> {
    TABLES.keys.lines().map(first_cell)
}

/// The folded names that have all of these words, of which there is one at least, and the place of what each names. Searched as one
/// text: a start does without a list of all names.
pub(super) fn with_words(words: &[&str]) -> impl Iterator<Item = (&'static str, usize)> {
    let longest = words.iter().copied().max_by_key(|word| word.len()).unwrap_or_default();
    // no word at all is in none
    let text = if longest.is_empty() { "" } else { TABLES.keys };
    let line_around = move |at: usize| {
        let start = memrchr(b'\n', text.as_bytes().get(..at)?).map_or(0, |end| end + 1);
        text.get(start..)?.lines().next()
    };
    let finder = Finder::new(longest);
    let mut lines: Vec<&str> = finder.find_iter(text.as_bytes()).filter_map(line_around).collect();
    // a word that stands twice in a line
    lines.dedup();
    let has = |key: &str, word: &str| key.split(' ').any(|of_key| of_key == word);
    lines.retain(|line| words.iter().all(|word| has(first_cell(line), word)));
    lines.into_iter().map(|line| (first_cell(line), place_in(line)))
}

/// How many folded names each ingredient has, in the order of their places.
pub(super) fn names_of_each() -> Vec<usize> {
    static NAMES: LazyLock<Vec<usize>> = LazyLock::new(|| {
        let mut names = vec![0; count()];
        TABLES.keys.lines().for_each(|line| names[place_in(line)] += 1);
        names
    });
    NAMES.clone()
}

/// The place of what has this folded name.
pub(super) fn place_of(key: &str) -> Option<usize> {
    static PLACES: Memo<Option<usize>> = Memo::new();
    *PLACES.of(key, |key| lines_of(TABLES.keys, key).next().map(place_in))
}

/// The language of a folded name of the ingredient at a place; none, where it is none of its other names.
pub(super) fn language_of(place: usize, key: &str) -> Option<String> {
    let mut rows = TABLES.names.rows_of(&at(place)?.id);
    rows.find(|row| fold(row.text("name")) == key).map(|row| row.text("lang").to_owned())
}

/// The table is part of the program, and a test reads every line of it: it cannot fail where the tests passed.
fn place_in(line: &str) -> usize {
    let place = line.split_once(',').and_then(|(_, id)| TABLES.by_id.get(id));
    *place.unwrap_or_else(|| panic!("keys.csv: `{line}`"))
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

/// Kinds of what is bought as its maker mixed it. What of allergens stands in the table is usual of such a bottle; which of them
/// the one on the shelf brings, and what else, its label says.
const COMPOUNDED: [Kind; 3] = [Kind::Liqueur, Kind::Bitters, Kind::Fortified];

fn ingredient(row: &Row<'_>, columns: &Columns, about: &Row<'_>, portions: Vec<PortionWeight>) -> Ingredient {
    let status = status(row);
    let strained = about.said("holds_as").map(|name| strained::of(&name).unwrap_or_else(|| about.wrong(&name)));
    let sugar_range = SugarRange::of(row.text("id"));
    let analysis = dissolving(analysis(row, columns, &status), &status, strained);
    let analysis = sugar_range.map_or(analysis, |range| with_sugars(analysis, range));
    let notes = [row.said("notes"), about.said("notes"), closing_note(&analysis)];
    let form: Form = about.word("form");
    let kind: Kind = about.word("kind");
    let tag = |written: &str| Open::Known(Tag::parse(written).unwrap_or_else(|| about.wrong(written)));
    let tags: Vec<Open<Tag>> = about.items("tags").map(tag).collect();
    let compounded = COMPOUNDED.contains(&kind) || tags.iter().any(|tag| *tag == Tag::Compounded);
    Ingredient {
        id: row.text("id").to_owned(),
        name: row.text("name").to_owned(),
        aliases: Vec::new(),
        kind: Some(kind),
        per_gram: analysis.per_gram(),
        form,
        bulk_density: match form {
            Form::Solid => portion::bulk_density(&portions),
            Form::Liquid if kind == Kind::Acid => {
                row.number("density_g_per_ml").map(|g_per_ml| kg_per_m3(1000.0 * g_per_ml))
            }
            Form::Liquid => None,
        },
        piece: portion::piece(&portions),
        portions,
        packs: packs::of(row.text("id")),
        holds: strained.map(Strained::net),
        holds_status: strained.map(Strained::said),
        strained,
        alkali: Alkali::default(),
        sugar_range,
        ph_published: row.said("ph_published"),
        tags,
        allergens: about.items("allergens").map(str::to_owned).collect(),
        allergens_stated: !compounded,
        label_unread: Some(kind).filter(|kind| !compounded && finings::are_of(*kind)),
        food: None,
        named_at: None,
        price: None,
        price_at: None,
        usable: None,
        priced_on: None,
        status,
        source: row.text("source").to_owned(),
        notes: notes.into_iter().flatten().collect::<Vec<_>>().join("; "),
        own_words: Vec::new(),
        like: Vec::new(),
        origin: Origin::BuiltIn,
        stated: Stated::default(),
    }
}

fn status(row: &Row<'_>) -> Status {
    let written = row.text("status");
    Status::parse(written).unwrap_or_else(|| row.wrong(written))
}

/// What the row says of 100 g, and the three that a table of foods counts in its own way.
fn analysis(row: &Row<'_>, columns: &Columns, status: &Status) -> Analysis {
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

/// Of what stands as other carbohydrate, the middle of what may be sugar is.
fn with_sugars(mut analysis: Analysis, range: SugarRange) -> Analysis {
    let sugars = 100.0 * range.middle();
    let other = analysis.grams.grams_of(Component::OtherCarbohydrate);
    analysis.grams.set_grams(Component::Sugars, sugars);
    analysis.grams.set_grams(Component::OtherCarbohydrate, other - sugars);
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
