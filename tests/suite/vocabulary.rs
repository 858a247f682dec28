//! The closed lists of words, and the embedded tables that are read by them.

use std::collections::BTreeSet;
use std::fmt::Debug;

use crate::table::rows_of;
use stillroom::safety::hazards;
use stillroom::vocabulary::{
    Allergen, Container, Evidence, Fill, FoodStatement, Market, NoStatement, Open, Process, ProductClass, Scope,
    StatedProcess, Status, Tag, Word,
};

fn holds_together<T: Word + Debug>() {
    let mut seen = BTreeSet::new();
    for &word in T::ALL {
        for written in [word.word()].iter().chain(word.also()) {
            assert!(seen.insert(written.to_lowercase()), "`{written}` stands twice");
            assert_eq!(T::parse(&format!(" {} ", written.to_uppercase())), Some(word));
        }
        assert_eq!(T::nearest(word.word()), Some(word));
    }
    assert_eq!(T::parse("no such word"), None);
}

#[test]
fn every_word_is_read_as_it_is_printed_and_no_two_are_alike() {
    holds_together::<ProductClass>();
    holds_together::<StatedProcess>();
    holds_together::<Process>();
    holds_together::<Container>();
    holds_together::<Fill>();
    holds_together::<Market>();
    holds_together::<Tag>();
    holds_together::<Allergen>();
    holds_together::<Evidence>();
}

#[test]
fn sets_of_them_are_printed_in_the_order_of_the_alphabet() {
    assert!(Tag::words().is_sorted() && Allergen::words().is_sorted() && Process::words().is_sorted());
}

#[test]
fn what_a_maker_states_is_kept_whatever_it_is() {
    let own: Open<Allergen> = Open::read("Kiwi");
    assert_eq!((own.as_str(), &own), ("Kiwi", &Open::Other("Kiwi".to_owned())));
    assert_eq!(Open::read("soya"), Open::Known(Allergen::Soy));
}

#[test]
fn a_kind_is_printed_behind_its_group() {
    for &allergen in Allergen::ALL {
        let printed = allergen.word().split_once(" (").map(|(group, _)| group);
        assert_eq!(printed, allergen.group().map(Word::word), "{allergen}");
    }
}

#[test]
fn a_status_begins_with_its_evidence_and_is_kept_as_it_was_written() {
    for (written, evidence) in [
        ("measured; split from memory", Evidence::Measured),
        ("measured by the house", Evidence::MeasuredByTheHouse),
        ("assumed as lemon peel", Evidence::Assumed),
        ("assumed insoluble", Evidence::AssumedInsoluble),
        ("range midpoint", Evidence::RangeMidpoint),
    ] {
        let status = Status::parse(written).unwrap();
        assert_eq!((status.evidence, status.as_str()), (evidence, written));
    }
    assert_eq!((Status::parse("measuredly"), Status::parse("guessed"), Status::parse("")), (None, None, None));
}

#[test]
fn a_column_of_the_data_names_its_markets() {
    let holds = |written, market| Scope::parse(written).is_some_and(|scope| scope.holds_in(market));
    assert!(holds("EU,UK", Market::Uk) && holds("AU,NZ", Market::AuNz) && holds("any", Market::Ca));
    assert!(!holds("EU,UK", Market::Us));
    assert_eq!((Scope::parse("CODEX"), Scope::parse("")), (None, None));
}

/// Commas and quotes within a cell, lists, numbers and blanks, as an independent reader has them.
#[test]
fn a_row_is_read_by_its_heading() {
    let rows = rows_of(include_str!("../../src/safety/data/hazards.csv"));
    assert_eq!(rows.len(), hazards::all().len());
    let mut quoted = 0;
    for (row, hazard) in rows.iter().zip(hazards::all()) {
        let texts = [&hazard.hazard, &hazard.applies_to, &hazard.unit, &hazard.rule, &hazard.status, &hazard.note];
        let cells = ["hazard", "applies_to", "limit_unit", "rule", "status", "note"].map(|column| row.text(column));
        assert_eq!(texts.map(String::as_str), cells, "{hazard:?}");
        let tags: Vec<&str> = hazard.ingredient_tags.iter().map(|tag| tag.word()).collect();
        assert_eq!(tags, row.text("ingredient_tags").split(';').map(str::trim).collect::<Vec<_>>());
        assert_eq!(hazard.limit, row.maybe("limit_value"));
        quoted += usize::from(cells.concat().contains('"')) + usize::from(cells.concat().contains(','));
    }
    assert!(quoted > 1 && hazards::all().iter().any(|hazard| hazard.limit.is_none()));
}

#[test]
fn what_and_by_whom_is_a_statement_and_a_yes_is_none() {
    for good in ["sold as food, label", "distiller's, food grade", "foraged, identified by the county botanist"] {
        assert_eq!(FoodStatement::read(good).unwrap().to_string(), good);
    }
    for short in ["", "yes", "food", " label "] {
        assert_eq!(FoodStatement::read(short), Err(NoStatement::Unvouched), "{short}");
    }
    for doubt in [
        "not sold as food",
        "maybe food, label",
        "is it food?",
        "unbekannt, vom Markt",
        "unlabelled jar, shop",
        "recalled, label",
    ] {
        assert!(matches!(FoodStatement::read(doubt), Err(NoStatement::Doubtful(_))), "{doubt}");
    }
    for other in [
        "technical grade, label",
        "sold for aromatherapy",
        "vergällt, Etikett",
        "research chemical, label",
        "zur Dekoration, Etikett",
    ] {
        assert!(matches!(FoodStatement::read(other), Err(NoStatement::NotSoldAsFood(_))), "{other}");
    }
}
