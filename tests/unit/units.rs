//! What is inside the room `units` and cannot be asked from outside it.

mod measures {
    use std::collections::HashSet;

    use crate::units::measures::*;

    #[test]
    fn every_spelling_is_normalised_and_stands_once() {
        let mut seen = HashSet::new();
        let spellings =
            MEASURES.iter().flat_map(|m| m.spellings.iter()).chain(REFUSED.iter().flat_map(|r| r.spellings.iter()));
        for spelling in spellings {
            assert!(seen.insert(spelling), "`{spelling}` stands twice");
            assert!(spelling == "C" || normalised(spelling) == *spelling, "`{spelling}` is never looked up");
        }
    }

    #[test]
    fn every_printed_name_reads_as_itself() {
        for m in MEASURES.iter() {
            for name in [&m.name, &m.plural] {
                assert_eq!(measure(name).map(|found| &found.name), Some(&m.name), "{name}");
            }
            assert!(m.factor.is_finite() && m.factor > 0.0);
            assert!(crate::references::find(&m.source).is_some(), "`{}` has no source `{}`", m.name, m.source);
        }
    }

    #[test]
    fn every_choice_of_a_refusal_is_a_unit() {
        for refused in REFUSED.iter() {
            assert!(refused.choices.iter().all(|c| measure(c).is_some() && refusal(c).is_none()), "{refused:?}");
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
}

mod readers {
    use crate::diagnostic::Code;
    use crate::units::readers::*;
    use crate::units::{degrees_celsius, in_grams};

    #[test]
    fn each_reader_takes_its_kind() {
        assert_eq!(in_grams(mass("1.2 kg").unwrap()).round(), 1200.0);
        assert!((degrees_celsius(temperature("185F").unwrap()) - 85.0).abs() < 1e-9);
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
}

mod taken {
    use crate::units::literal;
    use crate::units::taken::*;

    fn taken_of(written: &[&str]) -> Option<String> {
        taken(&written.iter().filter_map(|text| literal::read(text).ok()).collect::<Vec<_>>())
    }

    #[test]
    fn only_what_has_two_readings_and_names_no_country() {
        let said =
            |amounts: &str| format!("{amounts} read as US fluid ounces of 29.57 ml; write `imp fl oz` for 28.41 ml");
        assert_eq!(taken_of(&["8 fl oz"]), Some(said("8 fl oz is")));
        assert_eq!(taken_of(&["8 fl oz", "1 L", "6 x 8 fl oz"]), Some(said("8 fl oz, 6 x 8 fl oz are")));
        for two in ["0.5 fl. oz.", "2 fl oz/L", "1 fluid ounce"] {
            let subject = format!("{two} is");
            assert_eq!(taken_of(&[two]), Some(said(&subject)));
        }
        let one =
            ["8 US fl oz", "8 fl oz (US)", "8 imp fl oz", "8 fl oz UK", "240 ml", "1 jigger oz", "1 label fl oz", ""];
        assert!(taken_of(&one).is_none());
    }
}
