//! Cards that read well and cannot be met, and what is said of each. A card alone, or a folder with a house of its
//! own and a `card.toml`. `STILLROOM_BLESS=1` writes the expected findings anew: read every one of them.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use stillroom::diagnostic::{Code, Severity, Topic};
use stillroom::solver::Options;

const FOLDER: &str = "tests/bad/solve";

/// The cards, by the name of their case.
fn cases() -> Vec<(String, PathBuf)> {
    let mut cases: Vec<_> = fs::read_dir(Path::new(FOLDER))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| {
            path.is_dir() || (path.extension().is_some_and(|e| e == "toml") && !path.ends_with("house.toml"))
        })
        .map(|path| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            let card = if path.is_dir() { path.join("card.toml") } else { path };
            (name, card)
        })
        .collect();
    cases.sort();
    cases
}

#[test]
fn cards_that_cannot_be_met_say_why() {
    let bless = std::env::var_os("STILLROOM_BLESS").is_some();
    let cases = cases();
    assert!(cases.len() >= 30, "{} cards", cases.len());
    let mut wrong = String::new();
    for (name, card) in cases {
        let made = crate::kitchen::made(&card, &Options::default());
        let law = made.solved.as_ref().zip(made.card.as_ref());
        let law = law.map(|(solved, card)| stillroom::report::solve::law::of_class(card, solved)).unwrap_or_default();
        let said = made
            .found
            .iter()
            .chain(&law)
            .filter(|d| !matches!(d.code, Code::Understood | Code::Assumed | Code::SameName));
        let said: Vec<String> = said.map(crate::kitchen::plain).collect();
        assert!(!said.is_empty(), "{name} has nothing wrong");
        let said = said.join("\n");
        let beside = Path::new(FOLDER).join(format!("{name}.txt"));
        if bless {
            fs::write(&beside, &said).unwrap();
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        if said != expected {
            wrong.push_str(&format!("{name}\n--- expected\n{expected}\n--- found\n{said}\n"));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// Every code that the solver can give has a card; every finding says what to do.
#[test]
fn every_code_of_the_solver_has_a_card_and_a_remedy() {
    let mut given = BTreeSet::new();
    for (name, card) in cases() {
        for found in crate::kitchen::made(&card, &Options::default()).found {
            given.insert(found.code);
            let remedy = found.help.is_some() || found.severity == Severity::Note || found.code == Code::Syntax;
            assert!(remedy, "{name}: {} says not what to do", found.title);
        }
    }
    // a tower of cards has a test of its own
    let used = Code::ALL.iter().filter(|code| code.topic() == Topic::Solving && **code != Code::CardDepth);
    let missing: Vec<_> = used.filter(|code| !given.contains(*code)).collect();
    assert!(missing.is_empty(), "no card for {missing:?}");
}
