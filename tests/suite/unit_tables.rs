//! The tables of units, the readers of one kind of amount each, and what is said of a unit with two readings.

use std::collections::HashSet;

use crate::kitchen::{Kitchen, close};
use stillroom::diagnostic::Code;
use stillroom::references;
use stillroom::units::measures::{MEASURES, REFUSED};
use stillroom::units::readers::{Strength, abv, brix, fraction, mass, temperature, volume};
use stillroom::units::{degrees_celsius, in_grams, literal, measure};

#[test]
fn every_spelling_stands_once_and_is_looked_up() {
    let mut seen = HashSet::new();
    for (m, spelling) in MEASURES.iter().flat_map(|m| m.spellings.iter().map(move |spelling| (m, spelling))) {
        assert!(seen.insert(spelling), "`{spelling}` stands twice");
        for written in [spelling.clone(), format!(" {spelling} "), spelling.to_uppercase()] {
            // `C` is a temperature, `c` may be a cup
            if spelling.len() > 1 || written.trim() == spelling {
                assert_eq!(measure(&written).map(|found| &found.name), Some(&m.name), "`{written}` is never looked up");
            }
        }
    }
    for spelling in REFUSED.iter().flat_map(|refused| refused.spellings.iter()) {
        assert!(seen.insert(spelling), "`{spelling}` stands twice");
        let refused = literal::parse(&format!("2 {spelling}")).unwrap_err();
        let as_unknown = literal::parse("2 zorbs").unwrap_err();
        assert!(refused.help != as_unknown.help, "`{spelling}` is never looked up: {refused:?}");
    }
}

#[test]
fn every_printed_name_reads_as_itself() {
    for m in MEASURES.iter() {
        for name in [&m.name, &m.plural] {
            assert_eq!(measure(name).map(|found| &found.name), Some(&m.name), "{name}");
        }
        assert!(m.factor.is_finite() && m.factor > 0.0);
        assert!(references::find(&m.source).is_some(), "`{}` has no source `{}`", m.name, m.source);
    }
}

#[test]
fn every_choice_of_a_refusal_is_a_unit() {
    for refused in REFUSED.iter() {
        let is_refused = |choice: &String| REFUSED.iter().any(|other| other.spellings.contains(choice));
        assert!(refused.choices.iter().all(|c| measure(c).is_some() && !is_refused(c)), "{refused:?}");
        assert_eq!(refused.choices.is_empty(), !refused.advice.is_empty(), "{refused:?}");
    }
}

#[test]
fn what_only_habit_stands_behind_can_be_told() {
    for name in ["dash", "jigger oz", "bar spoon", "splash", "pony"] {
        assert!(measure(name).unwrap().is_common_practice(), "{name}");
    }
    for name in ["ml", "fl oz", "US cup", "tsp", "oz wt"] {
        assert!(!measure(name).unwrap().is_common_practice(), "{name}");
    }
}

#[test]
fn each_reader_takes_its_kind() {
    close(in_grams(mass("1.2 kg").unwrap()), 1200.0, 1e-9);
    close(degrees_celsius(temperature("185F").unwrap()), 85.0, 1e-9);
    assert_eq!(fraction("3 %"), Ok(0.03));
    assert_eq!(abv("36 proof"), Ok(Strength::Proof(36.0)));
    assert_eq!(abv("18 % vol"), abv("18"));
    assert_eq!(brix("64").unwrap().get(), 64.0);
}

#[test]
fn each_reader_shows_what_it_takes() {
    let error = volume("750 g").unwrap_err();
    assert_eq!(error.code, Code::WrongDimension);
    assert_eq!(error.title, "`750 g` is a mass; a volume was expected");
    assert_eq!(error.help.as_deref(), Some("for example \"700 ml\" or \"0.75 fl oz\""));
    assert_eq!(fraction("0.03").unwrap_err().code, Code::NoUnit);
    assert_eq!(fraction("40 % vol").unwrap_err().code, Code::WrongDimension);
    assert_eq!(fraction("130 %").unwrap_err().code, Code::OutOfRange);
    assert_eq!(abv("101").unwrap_err().code, Code::OutOfRange);
}

/// What the sheet of a litre with these amounts of juice in it takes for granted of their units.
fn taken_of(written: &[&str]) -> Option<String> {
    let names = ["lime juice", "lemon juice", "orange juice"];
    let parts: String =
        names.iter().zip(written).map(|(name, amount)| format!("\"{name}\" = \"{amount}\"\n")).collect();
    let sheet =
        Kitchen::new("").makes(&format!("name = \"x\"\nmakes = \"4 L\"\n[parts]\nwater = \"as needed\"\n{parts}"));
    let text = sheet.text();
    let line = text.lines().find(|line| line.contains("US fluid ounces"))?.trim();
    Some(line.trim_start_matches("Assumed: ").trim_start_matches("- ").to_owned())
}

#[test]
fn only_what_has_two_readings_and_names_no_country_is_said() {
    let said =
        |amounts: &str| Some(format!("{amounts} read as US fluid ounces of 29.57 ml; write `imp fl oz` for 28.41 ml"));
    assert_eq!(taken_of(&["8 fl oz"]), said("8 fl oz is"));
    assert_eq!(taken_of(&["8 fl oz", "1 L", "6 x 8 fl oz"]), said("8 fl oz, 6 x 8 fl oz are"));
    for two in ["0.5 fl. oz.", "2 fl oz/L", "1 fluid ounce"] {
        assert_eq!(taken_of(&[two]), said(&format!("{two} is")));
    }
    for one in [
        ["8 US fl oz", "8 fl oz (US)", "8 imp fl oz"],
        ["8 fl oz UK", "240 ml", "1 jigger oz"],
        ["1 label fl oz", "1 ml", "1 g"],
    ] {
        assert_eq!(taken_of(&one), None, "{one:?}");
    }
}
