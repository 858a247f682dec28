//! What a card says is what the reader gives, in the unit that the model promises.

use std::path::Path;

use stillroom::card::{self, Amount, Card, Makes, TargetKind};
use stillroom::diagnostic::{Severity, Spanned, any_error};
use stillroom::units::{Basis, degrees_celsius, in_grams, in_grams_per_litre, in_millilitres};
use stillroom::vocabulary::{Bubbles, Container, ProductClass, StatedProcess};

fn read(text: &str) -> Card {
    let (card, found) = card::read("card.toml".into(), text.into());
    assert!(!any_error(&found), "{found:?}");
    card.unwrap()
}

fn odd(name: &str) -> Card {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/odd").join(name);
    read(&std::fs::read_to_string(path).unwrap())
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9 * b.abs().max(1.0)
}

fn number(value: Option<Spanned<f64>>) -> f64 {
    value.unwrap().value
}

#[test]
fn every_key_of_a_card() {
    let card = odd("every-key.toml");
    assert_eq!(card.name.value, "Rich muscovado syrup");
    assert!(matches!(card.makes.unwrap().value, Makes::Volume(v) if near(in_millilitres(v), 1500.0)));
    assert_eq!(card.class.as_ref().unwrap().value, ProductClass::RichSyrup);
    assert!(near(in_millilitres(card.serving.unwrap().value), 15.0));
    let targets: Vec<_> = card.targets.iter().map(|t| (t.kind, t.value)).collect();
    use TargetKind::{Abv, Acid, Brix, Ph, Sugar};
    assert_eq!(targets, [(Brix, 64.0), (Abv, 18.0), (Sugar, 250.0), (Acid, 4.0), (Ph, 3.4)]);
    assert_eq!(card.steps, ["boil", "cool", "bottle"]);
    assert_eq!(
        (card.source.as_deref(), card.notes.as_deref()),
        (Some("our own"), Some("keeps its colour in the dark"))
    );

    assert_eq!(card.process, [StatedProcess::VacuumPacked, StatedProcess::Carbonated]);
    let heated = card.last.heated.unwrap().value;
    assert!(near(degrees_celsius(heated.to), 85.0) && near(heated.hold.unwrap().value, 300.0));
    assert_eq!(card.last.takes.as_ref().map(|takes| takes.written.as_str()), Some("2 h"));
    assert!(near(number(card.last.loss.evaporated), 0.03) && near(number(card.last.loss.left_behind), 0.01));

    let [tea] = card.stages.as_slice() else { panic!("{:?}", card.stages) };
    let leaves = &tea.parts[1];
    assert_eq!((leaves.label.value.as_str(), leaves.of.value.as_str()), ("black tea", "tea leaves"));
    assert!(leaves.strained == Some(true) && number(leaves.holds) == 2.5 && leaves.written.text == "20 g");
    assert!(near(degrees_celsius(tea.heated.unwrap().value.to), 95.0) && tea.heated.unwrap().value.hold.is_none());
    assert_eq!(
        (tea.takes.as_ref().map(|takes| takes.written.as_str()), tea.steps.as_slice()),
        (Some("12 h"), &["steep".to_owned(), "strain".into()][..])
    );

    let keep = &card.keep;
    assert_eq!(
        (keep.hot_filled, keep.closed, keep.for_sale, keep.opened),
        (Some(true), Some(true), Some(false), Some(false))
    );
    assert_eq!(keep.container.unwrap().value, Container::Glass);
    let measured = &card.measured;
    assert_eq!((number(measured.ph), number(measured.brix)), (3.4, 63.8));
    assert!(near(number(measured.abv), 17.9) && near(number(measured.acid), 5.8));
    assert_eq!(measured.on.unwrap().value.to_string(), "2026-11-20");
}

/// As a notebook has it. The least that a simmer and a boil are is counted (85 to 95 °C, 100 at sea level: common practice, no source).
#[test]
fn heat_in_the_words_of_a_kitchen() {
    for (written, to, minutes, bubbles) in [
        ("simmer 10 min", 85.0, Some(10.0), Some(Bubbles::Simmer)),
        ("simmered for 20 minutes", 85.0, Some(20.0), Some(Bubbles::Simmer)),
        ("bring to the boil", 95.0, None, Some(Bubbles::Boil)),
        ("bring to the boil, then simmer gently 10 minutes", 85.0, Some(10.0), Some(Bubbles::Simmer)),
        ("boiled 5 min", 95.0, Some(5.0), Some(Bubbles::Boil)),
        ("aufkochen", 95.0, None, Some(Bubbles::Boil)),
        ("20 min köcheln", 85.0, Some(20.0), Some(Bubbles::Simmer)),
        ("hervir 5 min", 95.0, Some(5.0), Some(Bubbles::Boil)),
        ("far bollire 10 minuti", 95.0, Some(10.0), Some(Bubbles::Boil)),
        ("porter à ébullition", 95.0, None, Some(Bubbles::Boil)),
        ("gently until dissolved, about 70 °C", 70.0, None, None),
        ("82-85 °C", 82.0, None, None),
        ("70 to 75 °C for 10 min", 70.0, Some(10.0), None),
        ("5 min at 85 °C", 85.0, Some(5.0), None),
        ("65 °C, don't boil", 65.0, None, None),
        ("einmal aufkochen", 95.0, None, Some(Bubbles::Boil)),
        ("bring to the boil, then off", 95.0, None, Some(Bubbles::Boil)),
        ("bollire 5 minuti alla fine", 95.0, Some(5.0), Some(Bubbles::Boil)),
        ("simmer until the berries pop, about 10 minutes", 85.0, Some(10.0), Some(Bubbles::Simmer)),
        ("heat until boiling", 95.0, None, Some(Bubbles::Boil)),
        ("sous vide 60 °C 2 h", 60.0, Some(120.0), None),
    ] {
        let card = read(&format!("name = \"x\"\nheated = \"{written}\"\n[parts]\nwater = \"1 kg\"\n"));
        let heated = card.last.heated.unwrap_or_else(|| panic!("{written}")).value;
        assert!(near(degrees_celsius(heated.to), to), "{written}: {}", degrees_celsius(heated.to));
        assert_eq!(heated.hold.map(|hold| hold.value / 60.0), minutes, "{written}");
        assert_eq!(heated.bubbles, bubbles, "{written}");
    }
    for written in ["none", "not heated", "unheated", "cold", "kalt"] {
        let card = read(&format!("name = \"x\"\nheated = \"{written}\"\n[parts]\nwater = \"1 kg\"\n"));
        assert!(card.last.heated.is_none() && card.last.not_heated.is_some(), "{written}");
    }
}

/// What may say another thing counts as not said: nothing is heated by half a sentence, which is read as a step.
#[test]
fn heat_that_may_mean_another_thing_is_a_step() {
    for written in [
        "do not boil",
        "nicht kochen",
        "below the boil",
        "never above 70 °C",
        "boiling water over the sugar",
        "gently",
        "low heat",
        "boil the water, not the juice",
        "boil 5 min, then simmer 20 min",
        "boil, then steep off heat 20 min",
        "latte a 80 °C",
        "85 degrees",
    ] {
        let text = format!("name = \"x\"\nheated = \"{written}\"\nsteps = [\"Bottle.\"]\n[parts]\nwater = \"1 kg\"\n");
        let (card, found) = card::read("card.toml".into(), text.as_str().into());
        assert!(
            !any_error(&found) && found.iter().any(|d| d.title.contains("how hot all of it gets")),
            "{written}: {found:?}"
        );
        let card = card.unwrap();
        assert!(card.last.heated.is_none() && card.last.not_heated.is_none(), "{written}");
        assert_eq!(card.steps, [written, "Bottle."]);
    }
}

#[test]
fn what_a_card_does_not_say_stays_unknown() {
    let card = odd("fixed-without-makes.toml");
    assert!(card.makes.is_none() && card.serving.is_none() && card.targets.is_empty());
    assert_eq!(card.keep, card::Keep::default());
    assert_eq!(card.last.loss, card::Loss::default());
    assert!(card.last.heated.is_none() && card.last.parts[0].holds.is_none());
}

#[test]
fn every_form_of_an_amount() {
    let card = read(
        "name = \"x\"\nmakes = \"6 x 250 ml\"\n[parts]\na = \"750 g\"\nb = \"0.7 L\"\nc = \"3 each\"\nd = \"2 parts by weight\"\n\
         e = \"1 part by weight\"\nf = \"6 g/L\"\ng = \"20 ml/L\"\nh = \"5 %\"\ni = \"as needed\"\nj = \"2 x 700 ml\"\n",
    );
    assert!(
        matches!(card.makes.unwrap().value, Makes::Bottles { count: 6.0, each } if near(in_millilitres(each), 250.0))
    );
    let amounts: Vec<Amount> = card.last.parts.iter().map(|p| p.amount.value).collect();
    assert!(matches!(amounts[0], Amount::Mass(m) if near(in_grams(m), 750.0)));
    assert!(matches!(amounts[1], Amount::Volume(v) if near(in_millilitres(v), 700.0)));
    assert_eq!(amounts[2], Amount::Pieces(3.0));
    assert_eq!(amounts[3], Amount::Parts { parts: 2.0, basis: Basis::Weight });
    assert_eq!(amounts[4], Amount::Parts { parts: 1.0, basis: Basis::Weight });
    assert!(matches!(amounts[5], Amount::Dose(d) if near(in_grams_per_litre(d), 6.0)));
    assert!(matches!(amounts[6], Amount::VolumeDose(d) if near(d, 0.02)));
    assert!(matches!(amounts[7], Amount::Share(s) if near(s, 0.05)));
    assert_eq!(amounts[8], Amount::AsNeeded);
    assert!(matches!(amounts[9], Amount::Volume(v) if near(in_millilitres(v), 1400.0)));
}

#[test]
fn values_know_their_place_behind_a_mark_and_line_ends() {
    let card = odd("byte-order-mark-and-crlf.toml");
    let slice = |span: stillroom::diagnostic::Span| &card.text[span.start..span.end];
    assert_eq!(slice(card.name.span), "\"House syrup\"");
    assert_eq!(slice(card.last.parts[0].label.span), "\"white sugar\"");
    assert_eq!(slice(card.last.parts[1].amount.span), "\"1 part by weight\"");
}

#[test]
fn a_line_and_what_it_is_made_of_may_have_two_names() {
    assert_eq!(odd("stage-by-headings.toml").all_parts().count(), 5);
    let twice = odd("water-twice.toml");
    let names: Vec<_> =
        twice.all_parts().map(|(_, part)| (part.label.value.as_str(), part.of.value.as_str())).collect();
    assert_eq!(names[2], ("water, to top up", "water"));
}

/// A card that cannot be solved is still given, so that what is known of it can be checked.
#[test]
fn a_card_with_errors_is_given_when_it_has_a_name_and_parts() {
    let text = "name = \"x\"\nmakes = 750 ml\n[parts]\nwater = \"1 L\"\nlime = \"3 oz\"\n";
    let (card, found) = card::read("card.toml".into(), text.into());
    assert_eq!(found.iter().filter(|d| d.severity == Severity::Error).count(), 2, "{found:?}");
    let card = card.unwrap();
    assert!(card.makes.is_some() && card.last.parts.len() == 1);
    let (card, _) = card::read("card.toml".into(), "makes = \"1 L\"\n[parts]\nwater = \"1 L\"\n".into());
    assert!(card.is_none());
}

/// The ends of the range that stands under this target.
fn range(target: &str) -> Option<(Option<f64>, Option<f64>)> {
    let text = format!("name = \"x\"\n[target]\n{target}\n[parts]\nrum = \"as needed\"\nwater = \"as needed\"\n");
    let (card, _) = card::read("card.toml".into(), text.into());
    card.and_then(|card| card.ranges.first().map(|range| (range.least, range.most)))
}

#[test]
fn a_range_is_read_as_people_write_it() {
    for (written, least, most) in [
        ("abv = \"18 to 20 %\"", Some(18.0), Some(20.0)),
        ("abv = \"18-20 %\"", Some(18.0), Some(20.0)),
        ("abv = \"18.5 – 20 % ABV\"", Some(18.5), Some(20.0)),
        ("abv = \"from 18 % to 20 %\"", Some(18.0), Some(20.0)),
        ("brix = \"between 62 and 65\"", Some(62.0), Some(65.0)),
        ("abv = \"At least 18 %\"", Some(18.0), None),
        ("abv = \"at most 20 %\"", None, Some(20.0)),
        ("sugar = \"at least 250\"", Some(250.0), None),
    ] {
        assert_eq!(range(written), Some((least, most)), "{written}");
    }
    for one in ["abv = \"-5 %\"", "sugar = \"250 g/L\"", "abv = \"80 proof\""] {
        assert_eq!(range(one), None, "{one}");
    }
}

/// No per cent is above a hundred: sugar of 250 is in grams a litre. Of 12 it is asked, and the mend that is offered for a side of a
/// range is not put in the place of both.
#[test]
fn sugar_without_a_unit_is_grams_a_litre_where_it_can_be_nothing_else() {
    let card = |sugar: &str| format!("name = \"x\"\n[target]\nsugar = {sugar}\n[parts]\nwater = \"as needed\"\n");
    assert_eq!(read(&card("250")).targets.first().map(|target| target.value), Some(250.0));
    let fixes = |sugar: &str| {
        let (_, found) = card::read("card.toml".into(), card(sugar).into());
        found.into_iter().find(|d| d.severity == Severity::Error).unwrap().fix.map(|(_, text)| text)
    };
    assert_eq!(fixes("12").as_deref(), Some("\"12 g/L\""));
    assert_eq!(fixes("\"at least 12\""), None);
}

/// 2 parts of sugar to 1 of water: 66.7 °Bx by weight; by US cups of 200 g and 236.6 ml of 0.998207 g/ml, 62.9.
#[test]
fn a_ratio_that_does_not_say_of_what_is_told_both_ways() {
    let text = "name = \"x\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"2 parts\"\nwater = \"1 part\"\n";
    let (_, found) = card::read("card.toml".into(), text.into());
    let told = found.iter().filter_map(|d| d.help.as_deref()).collect::<String>();
    assert!(told.contains("2:1 by weight is 66.7 °Bx, by cups 62.9 °Bx"), "{found:?}");
}
