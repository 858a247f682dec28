//! What stands behind a number: each has its equation, range, error and sources, and every target is a property that can be told.

use std::collections::HashSet;

use crate::kitchen::Kitchen;
use crate::table::rows_of;
use stillroom::card::TargetKind;
use stillroom::properties::headlines;
use stillroom::references;

#[test]
fn every_number_says_what_stands_behind_it() {
    let rows = rows_of(include_str!("../../src/properties/equations.csv"));
    let names: HashSet<&str> = rows.iter().map(|row| row.text("name")).collect();
    assert_eq!(names.len(), rows.len(), "a number is told twice");
    for row in &rows {
        for column in ["equation", "range", "error", "sources"] {
            assert!(!row.text(column).is_empty(), "{} of {}", column, row.text("name"));
        }
        for source in row.text("sources").split(';').map(str::trim) {
            assert!(references::find(source).is_some(), "{source} of {}", row.text("name"));
        }
    }
    let kitchen = Kitchen::new("");
    let told = kitchen.json(&["explain"]);
    assert_eq!(told["equations"].as_array().unwrap().len(), rows.len());
}

/// Four of the five targets carry an uncertainty; of each the budget of a card is told.
#[test]
fn every_target_is_a_property() {
    let kitchen = Kitchen::new("");
    kitchen.write(
        "x.toml",
        "name = \"x\"\n[parts]\nrum = \"400 g\"\n\"white sugar\" = \"200 g\"\nwater = \"400 g\"\n\"citric acid\" = \"5 g\"\n",
    );
    let with: Vec<TargetKind> = headlines().map(|(kind, _)| kind).collect();
    assert_eq!(with.len(), 4);
    for kind in TargetKind::ALL {
        let (code, page, said) = kitchen.run(&["explain", kind.key(), "--of", "x.toml"]);
        let is_told = page.contains("Where it comes from") && page.contains("stated error");
        assert_eq!(
            (code == Some(0) && is_told, code == Some(3)),
            (with.contains(&kind), false),
            "{kind:?}: {page}{said}"
        );
    }
    for (_, headline) in headlines() {
        assert!(!headline.unit.is_empty() && !headline.counts.is_empty(), "{headline:?}");
    }
}

/// What a page of drinks, plans and batches says in one word is told.
#[test]
fn the_words_of_drinks_and_plans_are_told() {
    let kitchen = Kitchen::new("");
    for word in ["waste", "aim", "pour", "earns", "share", "par", "undiluted", "slush", "pour cost", "a min"] {
        let told = kitchen.json(&["explain", word]);
        assert!(told["meaning"].as_str().is_some_and(|meaning| meaning.len() > 40), "{word}: {told}");
    }
}
