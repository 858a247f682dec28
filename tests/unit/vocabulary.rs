//! The closed lists of words.

use super::table::{List, rows};
use super::*;

fn holds_together<T: Word + fmt::Debug>() {
    let mut seen = std::collections::BTreeSet::new();
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
    assert_eq!((own.as_str(), own.known()), ("Kiwi", None));
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

#[test]
fn no_market_means_all() {
    assert_eq!(or_all(&[]), Market::ALL);
    assert_eq!(or_all(&[Market::Uk]), [Market::Uk]);
}

#[derive(Debug, Deserialize)]
struct Line {
    tags: List<Tag>,
    limit: Option<f64>,
}

#[test]
fn a_row_is_read_by_its_heading() {
    let read: Vec<Line> = rows("t", "# remark\ntags,limit\ntonka; cassia,\n,2.5\n");
    assert_eq!(*read[0].tags, [Tag::Tonka, Tag::Cassia]);
    assert_eq!((read[0].limit, read[1].limit, read[1].tags.len()), (None, Some(2.5), 0));
}

#[test]
#[should_panic(expected = "no tag is called `tonca`")]
fn a_word_that_no_list_has_fails() {
    rows::<Line>("t", "tags,limit\ntonca,\n");
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
