//! The embedded tables of safety, line by line: sorted, folded, each word known, each row found by what looks for it.

use std::collections::{BTreeSet, HashSet};

use stillroom::larder::{Ingredient, Larder, Origin};
use stillroom::references;
use stillroom::safety::alcohol_bands::{BANDS, tolerances};
use stillroom::safety::allergens::list;
use stillroom::safety::catalogue;
use stillroom::safety::identity::{FoodIdentity, identity};
use stillroom::safety::names::find;
use stillroom::safety::{Market, hazards};
use stillroom::spelling::{fold, singular, words};
use stillroom::vocabulary::{Allergen, FoodStatement, Tag, Word};

use crate::table::Row;

/// All rows of a table of `src/safety/data`.
fn rows(text: &str) -> Vec<Row> {
    let rows = crate::table::rows_of(text);
    assert!(!rows.is_empty());
    rows
}

const FOODS: &str = include_str!("../../src/safety/data/foods-known.csv");
const NAMES: &str = include_str!("../../src/safety/data/names.csv");
const PLANTS: &str = include_str!("../../src/safety/data/names-plants.csv");
const METHOD: &str = include_str!("../../src/safety/data/method-words.csv");

/// A thing of the house with this name, that is otherwise a clove.
fn named(name: &str) -> Ingredient {
    let clove = Larder::built_in().find("clove").unwrap().clone();
    let origin = Origin::House("larder.toml".into());
    Ingredient { id: name.to_owned(), name: name.to_owned(), aliases: Vec::new(), origin, ..clove }
}

fn of(name: &str) -> FoodIdentity {
    identity(&named(name), None)
}

#[test]
fn a_name_is_known_stated_or_asked_about() {
    assert!(Larder::built_in().iter().all(|row| identity(row, None).question().is_none()));
    assert_eq!(of("fresh basil"), FoodIdentity::Known { restricted: None });
    assert!(matches!(of("yarrow"), FoodIdentity::Known { restricted: Some(_) }));
    assert!(matches!(of("brown powder"), FoodIdentity::Open { .. }));
    assert!(matches!(of("lemon essential oil"), FoodIdentity::GradeOpen { .. }));
    assert!(matches!(of("Digitalis purpurea"), FoodIdentity::NotUsed { .. }));
}

#[test]
fn nothing_that_is_stated_makes_a_poison_food() {
    let stated = FoodStatement::read("sold as food, label").unwrap();
    let of = |name: &str| identity(&named(name), Some(&stated));
    assert!(matches!(of("foxglove"), FoodIdentity::NotUsed { .. }));
    assert_eq!(of("brown powder").question(), None);
    assert_eq!(of("lemon essential oil").question(), None);
}

#[test]
fn the_known_foods_are_sorted_by_the_fold_of_their_names() {
    let all = rows(FOODS);
    assert!(all.len() > 8000);
    for row in &all {
        assert_eq!(row.text("key"), fold(row.text("name")));
    }
    assert!(all.is_sorted_by_key(|row| row.text("key").as_bytes().to_vec()));
}

#[test]
fn the_words_that_names_and_steps_give_away_are_sorted_by_the_first_one_folded() {
    for (table, text) in [("names.csv", NAMES), ("names-plants.csv", PLANTS), ("method-words.csv", METHOD)] {
        let first = |row: &Row| singular(row.text("words").split(' ').next().unwrap_or_default()).into_bytes();
        let all = rows(text);
        let strays = all.windows(2).filter(|pair| first(&pair[0]) > first(&pair[1]));
        let strays: Vec<&str> = strays.map(|pair| pair[1].text("words")).collect();
        assert!(strays.is_empty(), "{table} is searched by halving, and these stand too far down: {strays:?}");
    }
}

/// By its name, but for those that by themselves name no one thing.
#[test]
fn every_known_food_is_found() {
    let vague: HashSet<String> =
        rows(include_str!("../../src/safety/data/vague-names.csv")).iter().map(|row| fold(row.text("word"))).collect();
    let unfound: Vec<_> = rows(FOODS)
        .iter()
        .filter(|row| !vague.contains(row.text("key")) && matches!(of(row.text("name")), FoodIdentity::Open { .. }))
        .map(|row| row.text("name").to_owned())
        .collect();
    assert!(unfound.is_empty(), "{unfound:?}");
    for nothing in ["", "zzz", "0", "brown powder", "mystery root"] {
        assert!(matches!(of(nothing), FoodIdentity::Open { .. }), "{nothing}");
    }
}

#[test]
fn a_name_is_known_with_words_that_change_nothing() {
    for name in ["Fresh limes", "house gin 45 %", "getrocknete Aprikosen", "abricots secs", "madagascar cloves"] {
        assert!(matches!(of(name), FoodIdentity::Known { .. }), "{name}");
    }
    for name in ["wild berries", "foraged basil-like herb", "not basil", "basil substitute", "ethanol", "alcohol"] {
        assert!(matches!(of(name), FoodIdentity::Open { .. } | FoodIdentity::GradeOpen { .. }), "{name}");
    }
}

#[test]
fn what_is_not_to_be_used_stops_by_its_name() {
    const STOPPING: &[Tag] = &[
        Tag::ToxicPlant,
        Tag::ControlledPlant,
        Tag::Comfrey,
        Tag::NotFood,
        Tag::Medicine,
        Tag::PoisonMetal,
        Tag::UnfitSmoke,
        Tag::MilligramPoison,
        Tag::StoneFruitKernel,
    ];
    let all = rows(FOODS);
    let unused: Vec<&Row> = all.iter().filter(|row| row.text("status") == "not to be used").collect();
    assert!(unused.len() > 50, "{}", unused.len());
    for row in unused {
        let name = row.text("name");
        let tags = &find(name).tags;
        assert!(tags.iter().any(|tag| STOPPING.contains(tag)), "{name}: {tags:?}");
        assert!(matches!(of(name), FoodIdentity::NotUsed { .. }), "{name}");
    }
}

/// The words of a line as they are looked for: what may be a plural is not.
fn looked_for(row: &Row) -> Vec<String> {
    let one = |word: &str| if word.ends_with('s') { singular(word) } else { word.to_owned() };
    row.text("words").split(' ').map(one).collect()
}

fn known<T: Word>(cell: &str) -> BTreeSet<T> {
    let parts = cell.split(';').map(str::trim).filter(|part| !part.is_empty());
    parts.map(|part| T::parse(part).unwrap_or_else(|| panic!("`{part}` of `{cell}` is no word of its list"))).collect()
}

#[test]
fn every_line_of_names_is_folded_and_gives_what_its_name_is_found_by() {
    let heading = |text: &str| text.lines().find(|line| !line.starts_with('#')).unwrap().to_owned();
    assert_eq!(heading(PLANTS), heading(NAMES));
    for row in [rows(NAMES), rows(PLANTS)].iter().flatten() {
        let line = looked_for(row);
        assert!(!line.concat().is_empty());
        assert_eq!(line, words(&line.join(" ")));
        let found = find(row.text("words"));
        let (tags, allergens, unsure) = (
            known::<Tag>(row.text("tags")),
            known::<Allergen>(row.text("allergens")),
            known::<Tag>(row.text("unsure")),
        );
        assert!(tags.is_subset(&found.tags) && unsure.is_subset(&found.unsure), "{line:?}: {found:?}");
        let named = |of: &Allergen| found.allergens.iter().any(|is| is == of || is.group() == Some(*of));
        assert!(allergens.iter().all(named), "{line:?}: {found:?}");
    }
}

/// A row of the false friends: its word is looked for, stands in the phrase, and is not found there for itself alone.
#[test]
fn a_false_friend_covers_a_word_that_there_is() {
    let tags = hazards::all().iter().flat_map(|hazard| hazard.ingredient_tags.iter());
    let tags = tags.map(|tag| tag.word().split('_').map(singular).collect::<Vec<_>>());
    let names = [rows(NAMES), rows(PLANTS)];
    let wanted: HashSet<Vec<String>> = names.iter().flatten().map(looked_for).chain(tags).collect();
    let friends = rows(include_str!("../../src/safety/data/false-friends.csv"));
    for row in &friends {
        let (phrase, masks, how) = (row.text("phrase"), row.text("masks"), row.text("how"));
        match how {
            "ordinary" => continue,
            "adjacent" | "anywhere" => {}
            other => panic!("{phrase}: {other}"),
        }
        let masked: Vec<String> = masks.split(' ').map(str::to_owned).collect();
        assert!(wanted.contains(&masked), "nothing looks for `{masks}`");
    }
    assert!(friends.is_sorted_by_key(|row| row.text("masks").as_bytes().to_vec()));
}

#[test]
fn every_entry_of_the_allergens_matches_something() {
    let all = rows(include_str!("../../src/safety/data/allergens.csv"));
    assert_eq!(all.len(), 50);
    for row in &all {
        let names: BTreeSet<Allergen> = known(row.text("matches"));
        assert!(!names.is_empty(), "{}", row.text("allergen"));
    }
    assert_eq!(list(Market::Eu).count(), 14);
    let of_markets: usize = all.iter().filter(|row| row.text("market").split(',').any(|m| m == "EU")).count();
    assert_eq!(of_markets, 14);
}

#[test]
fn every_line_of_the_hazards_has_a_key_of_its_own() {
    let keys: HashSet<_> = hazards::all().iter().map(|h| &h.id).collect();
    let lines = rows(include_str!("../../src/safety/data/hazards.csv"));
    assert_eq!((keys.len(), hazards::all().len(), lines.len()), (55, 55, 55));
    assert!(hazards::all().iter().all(|h| !h.ingredient_tags.is_empty()));
}

#[test]
fn bands_meet_and_every_reported_limit_is_read() {
    assert_eq!(tolerances().len(), 16);
    assert!(BANDS.windows(2).all(|pair| pair[0].below_abv == pair[1].from_abv));
}

#[test]
fn every_rule_of_law_has_its_words_and_a_source() {
    let text = include_str!("../../src/safety/data/rules.toml");
    let file: toml::Table = toml::from_str(text).unwrap();
    let rules = file["rule"].as_array().unwrap();
    let mut ids = HashSet::new();
    for rule in rules {
        let said = |key: &str| rule.get(key).and_then(toml::Value::as_str).unwrap_or_default();
        assert!(!said("id").is_empty() && !said("meaning").is_empty(), "{rule:?}");
        assert!(ids.insert(said("id")), "{rule:?}");
        assert!(references::find(said("source")).is_some(), "{rule:?}");
    }
    assert!(ids.contains("uk_ppds"));
}

#[test]
fn the_figures_of_labels_are_all_there() {
    let all = rows(include_str!("../../src/safety/data/label-rules.csv"));
    assert_eq!(all.len(), 23);
    let eu = all.iter().filter(|row| row.text("market").contains("EU") && row.text("kind") == "min_abv");
    assert_eq!(eu.map(|row| row.number("value")).fold(0.0, f64::max), 15.0);
    assert_eq!(rows(include_str!("../../src/safety/data/preservative-limits.csv")).len(), 6);
}

#[test]
fn a_caution_that_cannot_be_read_is_a_problem_and_not_a_silence() {
    let good = "[[caution]]\nid = \"a\"\nseverity = \"stop\"\npriority = 1\nwhen = \"ph > 4.6\"\nmessage = \"m\"\nbrief = \"b\"\n\
                source_ids = [\"MEM\"]\ndefer_to = \"\"\nstatus = \"\"\n";
    let read = catalogue::read;
    assert_eq!((read(good).rules.len(), read(good).problems.len()), (1, 0));
    for (from, to) in [("ph >", "pH >"), ("\"stop\"", "\"halt\""), ("MEM", "NOWHERE"), ("message", "massage")] {
        assert!(!read(&good.replace(from, to)).problems.is_empty(), "{to}");
    }
    assert!(!read(&format!("{good}{good}")).problems.is_empty());
}
