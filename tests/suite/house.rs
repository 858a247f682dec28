//! The folder of a house.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use crate::generated::config;
use crate::kitchen::Folder;
use proptest::prelude::*;
use stillroom::diagnostic::{Code, Diagnostic, Severity, any_error};
use stillroom::house::{DayOne, House, settings};
use stillroom::units::{degrees_celsius, in_grams, in_millilitres};
use stillroom::vocabulary::Market;

const HOUSE: &str = r#"
[house]
name = "The Lantern House"
currency = "GBP"
day_one = "day after"
market = ["UK", "EU"]
altitude = "1600 m"

[instruments]
scale = "2 g up to 10 kg"
fine_scale = "0.1 g up to 500 g"
refractometer = "0.5 °Bx"
jug = "10 ml up to 2 L"
hydrometer = 0.001
ph_meter = 0.05

[stores]
"walk-in" = "3 °C"
shelf = "70 °F"

[[local_code]]
authority = "the council"
days = 3
"#;

#[test]
fn without_files_every_default_is_said() {
    let folder = Folder::new().with("formulas/one.toml", "name = \"One\"");
    let (house, found) = folder.find("formulas/one.toml");
    assert!(house.is_default && house.settings.name.is_none());
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].code, found[0].severity), (Code::Assumed, Severity::Note));
    assert_eq!(found[0].title, "no house.toml here or in a folder above");
    assert_eq!(
        found[0].help.as_deref(),
        Some(
            "assumed: a scale of 1 g up to 5 kg; a refractometer of 0.2 °Bx; fridge at 4 °C; cellar at 12 °C; \
             back bar at 21 °C; freezer at -18 °C"
        )
    );
    assert!(house.larder.find("white sugar").is_some());
}

#[test]
fn settings_are_read() {
    let folder = Folder::new().with("house.toml", HOUSE);
    let (house, found) = folder.find("house.toml");
    assert!(found.is_empty(), "{found:?}");
    let settings = house.settings;
    assert_eq!(settings.name.as_deref(), Some("The Lantern House"));
    assert_eq!(settings.currency.as_deref(), Some("GBP"));
    assert_eq!(settings.day_one, DayOne::DayAfter);
    assert_eq!(settings.markets, [Market::Uk, Market::Eu]);
    assert_eq!(settings.altitude.unwrap().value, 1600.0);
    let instruments = settings.instruments;
    assert_eq!((in_grams(instruments.scale.step).round(), in_grams(instruments.scale.up_to).round()), (2.0, 10000.0));
    assert!(!instruments.scale_assumed && !instruments.refractometer_assumed);
    assert!((in_grams(instruments.fine_scale.unwrap().step) - 0.1).abs() < 1e-12);
    assert_eq!(instruments.refractometer_brix, 0.5);
    assert_eq!(in_millilitres(instruments.jug.unwrap().up_to).round(), 2000.0);
    assert_eq!((instruments.hydrometer_sg, instruments.ph_meter), (Some(0.001), Some(0.05)));
    let stores: Vec<_> =
        settings.stores.iter().map(|s| (s.name.as_str(), degrees_celsius(s.temperature).round())).collect();
    assert_eq!(stores, [("walk-in", 3.0), ("shelf", 21.0)]);
    let code = &settings.local_code[0];
    assert_eq!(code.authority.as_deref(), Some("the council"));
    assert_eq!(code.days, Some(3));
}

#[test]
fn files_beside_or_above_are_found_and_the_nearest_counts() {
    let folder = Folder::new()
        .with("house.toml", "[house]\nname = \"above\"")
        .with("larder.toml", "[ingredient.\"house rum\"]\nabv = 57")
        .with("bar/larder.toml", "[ingredient.\"bar rum\"]\nabv = 63")
        .with("bar/formulas/one.toml", "name = \"One\"");
    let (house, found) = folder.find("bar/formulas/one.toml");
    assert!(found.is_empty(), "{found:?}");
    assert_eq!(house.settings.name.as_deref(), Some("above"));
    assert!(house.larder.find("bar rum").is_some() && house.larder.find("house rum").is_none());
    assert_eq!(house.sources.len(), 2);
    assert!(!house.is_default);
}

#[test]
fn a_larder_above_the_house_is_not_its_own() {
    let rum = "[ingredient.\"brindle rum\"]\nabv = 57";
    let folder = Folder::new().with("larder.toml", rum).with("bar/house.toml", "[house]\nname = \"bar\"");
    let (house, found) = folder.find("bar/one.toml");
    assert!(house.larder.find("brindle rum").is_none());
    assert_eq!(
        found.iter().map(|d| (d.code, d.severity)).collect::<Vec<_>>(),
        [(Code::OutsideHouse, Severity::Warning)]
    );
    assert!(found[0].title.ends_with("larder.toml lies above this house, and was not used"), "{found:?}");
    // above a card of no house it is used, and asked about; beside the card nobody has to ask
    let folder = Folder::new().with("larder.toml", rum).with("cards/one.toml", "name = \"One\"");
    let (house, found) = folder.find("cards/one.toml");
    assert!(house.larder.find("brindle rum").is_some());
    assert!(found.iter().any(|d| d.code == Code::OutsideHouse && d.title.ends_with("is it meant?")), "{found:?}");
    assert!(folder.find("two.toml").1.iter().all(|d| d.code != Code::OutsideHouse));
}

#[test]
fn cards_are_found_by_name_and_read_when_asked_for() {
    let folder = Folder::new()
        .with("house.toml", "")
        .with("plan.toml", "name = \"not a formula\"")
        .with("muscovado.toml", "name = \"Rich muscovado syrup\"\nmakes = \"1 L\"\n[parts]\nname = \"2 g\"\n")
        .with("nameless.toml", "[parts]\nname = \"2 g\"")
        .with("broken.toml", "makes = 3 L\nname = \"Broken one\"\n[parts")
        .with("notes.txt", "name = \"no\"")
        .with("second.toml", "name = \"rich Muscovado-syrups\"");
    let (house, found) = folder.find("nameless.toml");
    let names: Vec<_> = house.cards().map(|f| f.name.as_str()).collect();
    assert_eq!(names, ["Broken one", "nameless", "Rich muscovado syrup"]);
    let card = house.card("rich muscovado syrup").expect("known");
    assert!(card.text.contains("makes = \"1 L\"") && card.file.ends_with("muscovado.toml"));
    assert!(house.card("water").is_none());
    // a matter of those who use that name, and of nobody else
    assert!(found.is_empty(), "{found:?}");
    let found: Vec<_> = house.said_of("Rich muscovado syrup").collect();
    assert_eq!((house.said().count(), house.said_of("nameless").count()), (1, 0));
    assert_eq!((found[0].code, found[0].severity), (Code::SameName, Severity::Warning));
    assert_eq!(found[0].title, "two formulas have the name `rich Muscovado-syrups`");
    assert!(found[0].file.as_deref().is_some_and(|f| f.ends_with("second.toml")));
}

#[test]
fn unreadable_files_are_named() {
    let folder = Folder::new();
    fs::write(folder.0.join("house.toml"), b"[house]\nname = \"\xff\"").unwrap();
    fs::create_dir(folder.0.join("larder.toml")).unwrap();
    let (house, found) = folder.find("x.toml");
    assert!(house.is_default && any_error(&found));
    let titles: Vec<_> = found.iter().map(|d| (d.code, d.title.rsplit('/').next().unwrap().to_owned())).collect();
    assert_eq!(
        titles,
        [
            (Code::CannotRead, "house.toml is not plain text (byte 16): a picture or another kind of file? Save a card as plain text, UTF-8".to_owned()),
            (Code::CannotRead, "larder.toml is a folder".to_owned()),
        ]
    );
    assert!(found.iter().all(|d| d.file.is_some()));
    let (house, found) = Folder::new().with("larder.toml", "[ingredient.x]\nlike = \"hony\"").find("x.toml");
    assert!(!any_error(&found), "{found:?}");
    assert!(
        house.said_of("x").any(|d| d.code == Code::UnknownLike && d.file.as_deref().unwrap().ends_with("larder.toml"))
    );
}

#[test]
fn a_file_that_is_too_large_is_refused() {
    let folder = Folder::new().with("larder.toml", &"#".repeat(5 << 20));
    let (_, found) = folder.find("x.toml");
    assert!(found.iter().any(|d| d.code == Code::TooLarge), "{found:?}");
}

/// How long that takes is measured by `cargo bench --bench commands`.
#[test]
fn every_card_of_a_large_folder_is_found() {
    let folder = Folder::new().with("house.toml", "");
    let card =
        "makes = \"3 L\"\n\n[target]\nabv = 18\nsugar = \"250 g/L\"\n\n[parts]\n\"white rum\" = \"1 L\"\n".to_owned();
    for i in 0..10_000 {
        fs::write(
            folder.0.join(format!("{i}.toml")),
            format!("name = \"Card {i}\"\n{card}{}", "# a step\n".repeat(100)),
        )
        .unwrap();
    }
    let (house, _) = folder.find("1.toml");
    assert_eq!(house.cards().count(), 10_000);
}

#[test]
fn a_folder_that_is_not_there_gives_the_defaults() {
    let (house, found) = House::find(Path::new("/nowhere/at/all/x.toml"));
    assert!(house.is_default && !any_error(&found));
}

#[test]
fn wrong_settings_are_told_what_to_do() {
    for (text, title, help) in [
        ("[house]\ncurrency = \"pounds\"", "`pounds` is not the code of a currency", "for example currency = \"GBP\""),
        ("[house]\nday_one = \"day aftr\"", "`day_one` is not `day aftr`", "did you mean `day after`?"),
        ("[house]\nmarket = \"France\"", "`market` is not `France`", ""),
        ("[house]\naltitude = \"high\"", "`high` is not the altitude of a house", "for example altitude = \"1600 m\""),
        (
            "[instruments]\nscale = \"1 g\"",
            "`scale` does not say how far it goes",
            "for example scale = \"1 g up to 5 kg\"",
        ),
        (
            "[instruments]\nscale = \"5 kg up to 1 g\"",
            "`scale` goes from its step upwards; `5 kg up to 1 g` does not",
            "for example scale = \"1 g up to 5 kg\"",
        ),
        ("[instruments]\nrefractometer = 0", "the step of `refractometer` is 0", ""),
        (
            "[stores]\nfridge = 4",
            "`fridge` is a bare number; a temperature in quotes was expected",
            "for example \"fridge\" = \"4 °C\"",
        ),
        ("[stores]\noven = \"180 °C\"", "`oven` is at 180 °C", ""),
        ("[store]\nfridge = \"4 °C\"", "a house file has no key `store`", "did you mean `stores`?"),
        (
            "[[local_code]]\ntemperature = \"50 °C\"",
            "`temperature` is 50 °C; 0 to 10 °C was expected",
            "write the warmest at which the authority lets perishable food be kept: \"5 °C\"",
        ),
        (
            "[[local_code]]\ntemperature = \"11 °C\"",
            "`temperature` is 11 °C; 0 to 10 °C was expected",
            "write the warmest at which the authority lets perishable food be kept: \"5 °C\"",
        ),
        ("[[local_code]]\ndays = 2.5", "`days` is 2.5", "write the days that the authority states"),
        (
            "[[local_code]]\non = 0001-01-02",
            "`0001-01-02` is not a day from the year 1900 to 9000",
            "write the year first: on = 2026-11-20 is the 20th of November 2026",
        ),
    ] {
        let mut found = Vec::new();
        settings::read(text, &Arc::from("house.toml"), &mut found);
        assert_eq!(found.len(), 1, "{text}: {found:#?}");
        assert_eq!((found[0].title.as_str(), found[0].help.as_deref().unwrap_or_default()), (title, help));
        assert_eq!(found[0].file.as_deref(), Some("house.toml"));
    }
}

#[test]
fn deep_nesting_does_not_overflow() {
    for open in ["[", "{a=", "[[", "a."] {
        let text = format!("[house]\nname = {}", open.repeat(200_000));
        settings::read(&text, &Arc::from("house.toml"), &mut Vec::new());
        settings::read(&open.repeat(200_000), &Arc::from("house.toml"), &mut Vec::new());
    }
}

proptest! {
    #![proptest_config(config(3000, 7))]

    #[test]
    fn any_text_is_read_without_panic(text in "\\PC{0,200}") {
        settings::read(&text, &Arc::from("house.toml"), &mut Vec::new());
    }

    #[test]
    fn any_values_under_known_keys_are_read_without_panic(
        keys in prop::collection::vec((
            prop::sample::select(vec!["house.name", "house.currency", "house.day_one", "house.market", "house.altitude", "instruments.scale", "instruments.jug", "instruments.refractometer", "instruments.ph_meter", "stores.a", "stores.b",  "house", "stores"]),
            prop::sample::select(vec!["\"1 g up to 5 kg\"", "\"up to\"", "\"é up to ü\"", "\"1e300 m\"", "\"ft\"", "-1", "1e300", "[]", "[\"UK\", 3]", "{}", "true", "\"4 °C\"", "\"GBP\"", "\"€€\""]),
        ), 0..6)
    ) {
        let text: String = keys.iter().map(|(k, v)| format!("{k} = {v}\n")).collect();
        settings::read(&text, &Arc::from("house.toml"), &mut Vec::new());
    }
}

#[test]
fn a_house_of_texts_is_the_house_of_their_folder() {
    let texts = [
        ("house.toml", "[house]\nmarket = \"UK\"\ncurency = \"GBP\"\n"),
        ("larder.toml", "[ingredient.tonic]\nbrix = 9\n[ingredient.fizz]\nlike = \"hony\"\n"),
        ("plan.toml", "name = \"not a card\"\n"),
        ("first.toml", "name = \"Fizz\"\n[parts]\ntonic = \"1 L\"\n"),
        ("second.toml", "name = \"fizz\"\n"),
        ("notes.txt", "name = \"no\"\n"),
    ];
    let folder = texts.iter().fold(Folder::new(), |folder, (name, text)| folder.with(name, text));
    let (there, said_there) = folder.find("first.toml");
    let (here, said_here) = House::from_texts(texts);
    let all = |house: &House, found: &[Diagnostic]| -> Vec<String> {
        let cards = house.cards().map(|card| format!("{} {}", card.name, card.source.text));
        let said = house.said().chain(found).map(|d| format!("{} {} {:?}", d.code, d.title, d.labels));
        let names = house.larder.iter().map(|i| i.name.clone());
        cards.chain(said).chain(names).chain([format!("{:?} {}", house.settings.markets, house.is_default)]).collect()
    };
    assert_eq!(all(&here, &said_here), all(&there, &said_there));
    assert!(here.card("fizz").is_some_and(|card| card.text.contains("tonic")) && !here.is_default);
    assert!(House::from_texts([]).0.is_default);
}

/// `card paste recipe.txt > quince.toml`: the shell opens the file before anything is read.
#[test]
fn a_file_in_which_nothing_stands_yet_is_no_card() {
    let (house, _) = House::from_texts([("quince.toml", "\n"), ("syrup.toml", "name = \"Syrup\"\n")]);
    assert!(house.card("quince").is_none() && house.card("syrup").is_some());
    let pasted = stillroom::paste::paste("Cordial\n500 g quince\n500 g water\nSimmer 10 min, then strain.\n", &house);
    assert!(pasted.card.contains("quince = { amount = \"500 g\", strained = true }"), "{}", pasted.card);
}

/// A backup of the board has `[ingredient."x"]` as well, which says how a thing is bought: it is no card, and hides nothing of the larder.
#[test]
fn a_copy_of_the_board_brings_nothing_into_the_larder() {
    let larder = "[ingredient.\"harbour gin\"]\nabv = 42\nfood = \"sold as food, label\"\n";
    let board = "[plan]\ndays = 7\n[ingredient.\"harbour gin\"]\npack = \"700 ml\"\n[ingredient.\"lime juice\"]\nlead = \"1 day\"\n";
    let card = "name = \"Cup\"\n[parts]\n\"harbour gin\" = \"1 L\"\n\"lime juice\" = \"1 L\"\n";
    let handed =
        "name = \"Own\"\n[parts]\n\"harbour gin\" = \"1 L\"\n[ingredient.\"harbour gin\"]\npack = \"700 ml\"\n";
    let texts = [("larder.toml", larder), ("cup.toml", card), ("plan-old.toml", board), ("own.toml", handed)];
    let (house, _) = House::from_texts(texts);
    assert!(house.larder.find("harbour gin").is_some() && house.larder.find("lime juice").is_some());
}
