//! A house's own larder: what each way of describing an ingredient gives, and what wrong entries are told.

use std::sync::Arc;

use proptest::prelude::*;
use stillroom::diagnostic::{Diagnostic, Severity, any_error};
use stillroom::larder::{Form, Ingredient, Larder, Origin, house_file};
use stillroom::mixture::acidity::ph;
use stillroom::mixture::{Component, Mixture, alcohol};
use stillroom::units::{Abv, celsius, in_grams, in_grams_per_litre, in_kg_per_m3};
use stillroom::vocabulary::{Open, Tag};

use crate::generated::config;

fn read(text: &str) -> (Vec<Ingredient>, Vec<Diagnostic>) {
    let mut found = Vec::new();
    let ingredients = house_file::read(text, &Arc::from("larder.toml"), &mut found);
    (ingredients, found)
}

fn one(text: &str) -> Ingredient {
    let (mut ingredients, found) = read(text);
    assert!(!any_error(&found), "{found:?}");
    ingredients.pop().expect("an ingredient")
}

/// Title, help and the text under the first label of the only diagnostic.
fn told(text: &str) -> (String, String, String) {
    let (_, found) = read(text);
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!(found[0].file.as_deref(), Some("larder.toml"));
    let span = found[0].labels[0].span;
    (found[0].title.clone(), found[0].help.clone().unwrap_or_default(), text[span.start..span.end].to_owned())
}

fn close(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} is not {b}");
}

fn abv(mixture: &Mixture) -> f64 {
    mixture.abv().unwrap().value.get()
}

fn sugar_g_l(mixture: &Mixture) -> f64 {
    in_grams_per_litre(mixture.sugar_concentration().unwrap().value)
}

fn acid_g_l(mixture: &Mixture) -> f64 {
    let rho = in_kg_per_m3(mixture.density(celsius(20.0)).unwrap().value);
    mixture.titratable_acid_grams() / mixture.total_grams() * rho
}

/// Whoever writes down what the gin costs, or how strong that bottle is, says nothing else of it: it is what is built in under that
/// name, with its sugar and with what nobody has stated of it. Of another name a strength says no more than that.
#[test]
fn a_known_name_with_a_price_or_a_spirit_with_its_strength_is_itself() {
    let known = Larder::built_in();
    let sugar = one("[ingredient.\"white sugar\"]\nprice = \"1.30 GBP / 1 kg\"");
    assert_eq!(sugar.per_gram, known.find("white sugar").unwrap().per_gram);
    assert_eq!(sugar.price.as_deref(), Some("1.30 GBP / 1 kg"));
    let gin = one("[ingredient.gin]\nabv = 41.2\nprice = \"19.50 GBP / 700 ml\"");
    close(abv(&gin.per_gram), 41.2, 1e-6);
    assert!(gin.allergens_stated && gin.allergens.is_empty());
    for other in ["[ingredient.\"house water\"]\nabv = 41.2", "[ingredient.amaretto]\nabv = 24"] {
        assert!(!one(other).allergens_stated, "{other}");
    }
    let [built_in, own] = [known.find("amaretto").unwrap().clone(), one("[ingredient.amaretto]\nabv = 28")];
    close(abv(&own.per_gram), 28.0, 0.01);
    close(sugar_g_l(&own.per_gram), sugar_g_l(&built_in.per_gram), 0.03 * sugar_g_l(&built_in.per_gram));
}

#[test]
fn a_spirit_by_its_strength() {
    let rum =
        one("[ingredient.\"harbour overproof rum\"]\nabv = 63\nprice = \"34.50 GBP / 700 ml\"\npriced_on = 2026-11-01");
    assert_eq!(rum.form, Form::Liquid);
    assert_eq!(rum.price.as_deref(), Some("34.50 GBP / 700 ml"));
    assert_eq!(rum.priced_on.as_deref(), Some("2026-11-01"));
    assert_eq!(rum.origin, Origin::House("larder.toml".into()));
    assert_eq!((rum.status.as_str(), rum.per_gram.unaccounted_ash_g), ("label", 0.0));
    // OIML R 22, as the embedded 63 % rum has it
    close(100.0 * rum.per_gram.grams_of(Component::Ethanol), 55.105, 0.001);
    let oiml = alcohol::mass_fraction_of(Abv::new(63.0).unwrap()).get();
    // (the model joins them to the water of the sugar tables, which is 1.1e-6 denser)
    close(rum.per_gram.grams_of(Component::Ethanol), oiml, 1e-6);
    close(rum.per_gram.total_grams(), 1.0, 1e-12);
    close(abv(&one("[ingredient.x]\nabv = \"126 proof\"").per_gram), 63.0, 0.1);
    close(one("[ingredient.x]\nabv = 100").per_gram.grams_of(Component::Ethanol), 1.0, 1e-9);
}

#[test]
fn a_liqueur_by_its_label() {
    let liqueur = one("[ingredient.\"bottled curaçao\"]\nabv = 40\nsugar = \"250 g/L\"").per_gram;
    close(abv(&liqueur), 40.0, 1e-6);
    close(sugar_g_l(&liqueur), 250.0, 1e-6);
    close(liqueur.total_grams(), 1.0, 1e-12);
    // nobody knows its minerals, so no pH may be computed from it
    assert!(liqueur.unaccounted_ash_g > 0.0);
    let sour = one("[ingredient.x]\nabv = 20\nsugar = \"100 g/L\"\nacid = \"6 %\"");
    close(acid_g_l(&sour.per_gram), 60.0, 1e-6);
    close(abv(&sour.per_gram), 20.0, 1e-6);
    assert!(sour.notes.contains("acid in % was read as grams in 100 ml: 60 g/L"), "{}", sour.notes);
}

#[test]
fn a_syrup_by_its_brix() {
    let syrup = one("[ingredient.\"house syrup\"]\nbrix = \"65 °Bx\"").per_gram;
    close(syrup.grams_of(Component::Sucrose), 0.65, 1e-12);
    close(syrup.grams_of(Component::Water), 0.35, 1e-12);
    // 70 °Bx weighs 1347.2 kg/m3 and has 943.1 g/L (tests/reference/sugar-density-20c.csv)
    close(one("[ingredient.x]\nsugar = \"943.1 g/L\"").per_gram.brix().get(), 70.0, 0.05);
    // Brix and sugar: what is dissolved and no sugar is not known
    let cordial = one("[ingredient.x]\nbrix = 50\nsugar = \"500 g/L\"\nacid = \"20 g/L\"").per_gram;
    close(cordial.brix().get(), 50.0, 1e-6);
    close(sugar_g_l(&cordial), 500.0, 1e-6);
    close(acid_g_l(&cordial), 20.0, 1e-6);
    assert!(cordial.grams_of(Component::Other) > 0.05);
    // Brix and acid: the rest is sugar
    let juice = one("[ingredient.x]\nbrix = 9\nacid = \"60 g/L\"").per_gram;
    close(juice.brix().get(), 9.0, 1e-6);
    close(acid_g_l(&juice), 60.0, 1e-6);
    assert!(juice.grams_of(Component::Sucrose) > 0.0 && juice.grams_of(Component::Other) == 0.0);
}

#[test]
fn like_another_with_its_own_brix() {
    let own = one(
        "[ingredient.\"mill lane honey\"]\nlike = \"honey\"\nbrix = 81.5\nprice = \"9.20 GBP / 1 kg\"\nsource = \"label\"\n\
         tags = [\"local\"]\nallergens = [\"pollen\"]",
    );
    let honey = Larder::built_in().find("honey").unwrap();
    // of the liquid: a little of a honey does not dissolve
    close(own.per_gram.brix().get(), 81.5, 1e-9);
    close(own.per_gram.total_grams(), 1.0, 1e-12);
    let ratio = |m: &Mixture| m.grams_of(Component::Fructose) / m.grams_of(Component::Glucose);
    close(ratio(&own.per_gram), ratio(&honey.per_gram), 1e-12);
    let ash = |m: &Mixture| m.unaccounted_ash_g / m.grams_of(Component::Ash);
    close(ash(&own.per_gram), ash(&honey.per_gram), 1e-12);
    assert_eq!(own.tags, ["honey", "local"].map(Open::<Tag>::read));
    assert_eq!(own.allergens, ["pollen"]);
    assert_eq!((own.form, own.source.as_str()), (Form::Liquid, "label"));
}

#[test]
fn like_another_with_its_own_strength_sugar_or_acid() {
    let port = one("[ingredient.port]\nlike = \"port\"\nabv = 20\nsugar = \"100 g/L\"");
    close(abv(&port.per_gram), 20.0, 1e-6);
    close(sugar_g_l(&port.per_gram), 100.0, 1e-6);
    assert_eq!(port.allergens, ["sulphites"]);
    assert!(port.notes.contains("stands in place of the embedded `Ruby port 19.5 %, 100 g/L`"), "{}", port.notes);
    let lime = one("[ingredient.\"our lime\"]\nlike = \"lime juice\"\nacid = \"46 g/L\"").per_gram;
    close(acid_g_l(&lime), 46.0, 1e-6);
    let kinds = |m: &Mixture| m.grams_of(Component::Malic) / m.grams_of(Component::Citric);
    close(kinds(&lime), kinds(&Larder::built_in().find("lime juice").unwrap().per_gram), 1e-12);
    assert_eq!(lime.unaccounted_ash_g, 0.0);
    // nothing of its own but the price: the same to the last digit where it is that very thing, else its acid is in doubt
    let known = Larder::built_in().find("lime juice").unwrap();
    let same = one("[ingredient.\"Lime juice\"]\nlike = \"lime juice\"\nprice = \"1 GBP / 100 ml\"");
    assert_eq!(same.per_gram, known.per_gram);
    assert!(same.allergens_stated);
    let same = one("[ingredient.\"corner shop lime\"]\nlike = \"lime juice\"\nprice = \"1 GBP / 100 ml\"");
    assert_eq!(same.per_gram.titratable_acid_grams(), known.per_gram.titratable_acid_grams());
    assert!(same.per_gram.unaccounted_ash_g > known.per_gram.unaccounted_ash_g && !same.allergens_stated);
    assert!(
        ph::estimate(&same.per_gram, celsius(20.0)).is_err() && ph::estimate(&known.per_gram, celsius(20.0)).is_ok()
    );
    assert_eq!(same.piece.map(in_grams), Some(28.0));
}

#[test]
fn by_analysis() {
    let pure = one("[ingredient.\"pure sucrose\"]\nper_100g = { sucrose = 100.0 }");
    assert_eq!((pure.form, pure.per_gram.unaccounted_ash_g, pure.status.as_str()), (Form::Solid, 0.0, "analysis"));
    assert_eq!(pure.per_gram.grams_of(Component::Sucrose), 1.0);
    let brine = one("[ingredient.brine]\nper_100g = { water = 80, salt = 20 }").per_gram;
    close(brine.sodium_mol, 0.2 / 58.443, 1e-12);
    assert_eq!(brine.unaccounted_ash_g, 0.0);
    // ash without minerals is not accounted for; with all five of them it is
    let ash = "water = 89.2, sucrose = 9, citric = 1, ash = 0.8";
    let minerals = "potassium_mg = 200, sodium_mg = 1, calcium_mg = 11, magnesium_mg = 11, phosphorus_mg = 17";
    let unknown = one(&format!("[ingredient.x]\nper_100g = {{ {ash} }}")).per_gram;
    close(unknown.unaccounted_ash_g, 0.008, 1e-12);
    let known = one(&format!("[ingredient.x]\nper_100g = {{ {ash}, {minerals} }}")).per_gram;
    assert_eq!(known.unaccounted_ash_g, 0.0);
    let charge = (200.0 / 39.0983 + 22.0 / 40.078 + 22.0 / 24.305 - 17.0 / 30.9738) / 1000.0 / 100.0;
    for (bound, share) in known.bound_cations_eq.into_iter().zip([0.5, 0.7, 1.0]) {
        close(bound, share * charge, 1e-12);
    }
    let measures = one("[ingredient.x]\nper_100g = { sucrose = 100 }\ncup = \"200 g\"\npiece = \"4 g\"\nholds = 1.5");
    close(in_kg_per_m3(measures.bulk_density.unwrap()), 845.35, 0.01);
    assert_eq!((measures.piece.map(in_grams), measures.holds), (Some(4.0), Some(1.5)));
}

#[test]
fn an_analysis_that_does_not_add_to_100_is_closed_and_said_so() {
    let short = "[ingredient.x]\nper_100g = { water = 40, sucrose = 50 }";
    let (ingredients, found) = read(short);
    assert_eq!(found[0].severity, Severity::Note);
    assert_eq!(told(short).0, "per_100g of `x` adds to 90.00 g");
    assert_eq!(told(short).1, "the rest stands as `other`: it counts in Brix and keeps a pH from being computed");
    close(ingredients[0].per_gram.grams_of(Component::Other), 0.1, 1e-12);
    close(ingredients[0].per_gram.unaccounted_ash_g, 0.1, 1e-12);
    let long = "[ingredient.x]\nper_100g = { water = 50, sucrose = 75 }";
    let (ingredients, found) = read(long);
    assert_eq!(found[0].severity, Severity::Warning);
    assert_eq!(told(long).0, "per_100g of `x` adds to 125.00 g");
    close(ingredients[0].per_gram.grams_of(Component::Sucrose), 0.6, 1e-12);
}

#[test]
fn wrong_entries_are_told_what_to_do() {
    for (text, title, help, at) in [
        ("[ingredient.x]\nlike = \"hony\"", "`hony` is not in the larder", "did you mean `Honey`?", "\"hony\""),
        (
            "[ingredient.x]\nlike = \"zzzzz\"",
            "`zzzzz` is not in the larder",
            "`like` takes the name of an embedded ingredient or of another one of this file",
            "\"zzzzz\"",
        ),
        (
            "[ingredient.a]\nlike = \"b\"\n[ingredient.b]\nlike = \"c\"\n[ingredient.c]\nlike = \"a\"",
            "`like` runs in a ring: a -> b -> c -> a",
            "one of them must say what it is made of: `per_100g`, `abv` or `brix`",
            "\"b\"",
        ),
        (
            "[ingredient.x]\nlike = \"almonds\"\nallergens = []",
            "`allergens` cannot take away what the ingredient brings: tree nut (almond)",
            "leave `allergens` out; if it is another thing altogether, give its `per_100g` or its label without `like`",
            "[]",
        ),
        (
            "[ingredient.x]\nprice = \"3 GBP / 1 kg\"",
            "`x` does not say what it is made of",
            "give `abv` (a spirit), `brix` (a syrup), `per_100g` (an analysis) or `like = \"…\"` (an ingredient that is known)",
            "x",
        ),
        (
            "[ingredient.x]\nabv = 40\nper_100g = { water = 100 }",
            "`x` says twice what it is made of: by `per_100g` and by its label",
            "keep `per_100g`, or keep `abv`, `brix`, `sugar` and `acid`",
            "{ water = 100 }",
        ),
        (
            "[ingredient.x]\nper_100g = { sucrose = -5, water = 100 }",
            "sucrose of `x` is -5 in 100 g; 0 to 100 is possible",
            "",
            "-5",
        ),
        (
            "[ingredient.x]\nper_100g = { sucros = 100 }",
            "per_100g has no key `sucros`",
            "did you mean `sucrose`?",
            "sucros",
        ),
        (
            "[ingredient.x]\nabv = 60\nsugar = \"900 g/L\"",
            "`x` cannot be what its label says: its alcohol, sugar and acid leave no room for water",
            "check the figures and their units; strength is in % by volume, sugar and acid in g/L",
            "x",
        ),
        (
            "[ingredient.x]\nbrix = 10\nsugar = \"400 g/L\"",
            "`x` cannot be what its label says: its sugar and acid alone are more than its Brix",
            "check the figures and their units; strength is in % by volume, sugar and acid in g/L",
            "x",
        ),
        (
            "[ingredient.Clove]\nlike = \"clove\"\n[ingredient.cloves]\nlike = \"mace\"",
            "`Clove` and `cloves` are the same name",
            "capitals, hyphens and plurals do not tell names apart: rename one",
            "cloves",
        ),
        (
            "[ingredient.x]\nabv = 40\nform = \"liquidd\"",
            "a form is liquid or solid, not `liquidd`",
            "did you mean `liquid`?",
            "\"liquidd\"",
        ),
        (
            "[ingredients.x]\nabv = 40",
            "a larder file has no key `ingredients`",
            "did you mean `ingredient`?",
            "ingredients",
        ),
        ("[ingredient.x]\nabv = 40\nholds = 200", "holds is 200; -1 to 20 is possible", "", "200"),
    ] {
        assert_eq!(told(text), (title.to_owned(), help.to_owned(), at.to_owned()), "{text}");
    }
}

#[test]
fn what_is_wrong_is_left_out_and_the_rest_is_read() {
    let (ingredients, found) = read(
        "[ingredient.a]\nabv = \"strong\"\n[ingredient.b]\nlike = \"a\"\n[ingredient.c]\nabv = 40\n[ingredient.d]\nlike = \"c\"\nabv = 50",
    );
    assert_eq!(found.len(), 1, "{found:?}");
    let names: Vec<_> = ingredients.iter().map(|i| i.name.as_str()).collect();
    assert_eq!(names, ["c", "d"]);
}

/// Each entry has the names and the dangers of all behind it: a long chain is refused at its end, and what hangs on that as well.
#[test]
fn a_long_chain_of_likes_is_followed_so_far() {
    let chain = |many: usize| {
        let mut text = "[ingredient.i0]\nlike = \"honey\"\n".to_owned();
        for i in (1..many).rev() {
            text += &format!("[ingredient.i{i}]\nlike = \"i{}\"\n", i - 1);
        }
        read(&text)
    };
    let (ingredients, found) = chain(51);
    assert!(found.is_empty(), "{found:?}");
    assert_eq!(ingredients.len(), 51);
    assert!(ingredients.iter().all(|i| i.tags == [Open::Known(Tag::Honey)]));
    let (ingredients, found) = chain(3000);
    assert_eq!(ingredients.len(), 51);
    assert!(found.iter().any(|found| found.title == "`i51` is like another by more than 50 entries"));
}

#[test]
fn the_house_stands_over_the_embedded_larder() {
    let (house, _) = read("[ingredient.\"White rum\"]\nabv = 42\naliases = [\"rum\", \"house rum\"]");
    let larder = Larder::built_in().clone().overlay(house);
    close(abv(&larder.find("white rum").unwrap().per_gram), 42.0, 1e-6);
    assert_eq!(larder.find("House-Rum").unwrap().name, "White rum");
    assert_eq!(larder.find("rum-white-40").unwrap().id, "rum-white-40");
    assert_eq!(larder.suggest("hous rum").as_deref(), Some("house rum"));
    assert!(larder.find("white sugar").is_some());
}

proptest! {
    #![proptest_config(config(3000, 7))]

    #[test]
    fn any_text_is_read_without_panic(text in "\\PC{0,200}") {
        let _ = read(&text);
    }

    #[test]
    fn any_values_under_known_keys_are_read_without_panic(
        entries in prop::collection::vec(
            ("[a-c]", prop::collection::vec((
                prop::sample::select(vec!["like", "per_100g", "abv", "brix", "sugar", "acid", "ph", "price", "form", "density", "cup", "piece", "holds", "tags", "allergens"]),
                prop::sample::select(vec!["\"a\"", "\"b\"", "\"c\"", "\"honey\"", "40", "-1", "1e300", "\"6 %\"", "\"250 g/L\"", "\"1e300 g/L\"", "[]", "[\"x\"]", "{ water = 50, sucrose = 1e9 }", "{ sucrose = 20, ash = 3 }", "{}", "true", "2026-01-01", "\"200 proof\"", "\"400 proof\"", "nan"]),
            ), 0..5)),
            0..4,
        )
    ) {
        let text: String = entries.iter().map(|(name, keys)| {
            let keys: String = keys.iter().map(|(k, v)| format!("{k} = {v}\n")).collect();
            format!("[ingredient.{name}]\n{keys}")
        }).collect();
        let (ingredients, _) = read(&text);
        for ingredient in ingredients {
            prop_assert!((ingredient.per_gram.total_grams() - 1.0).abs() < 1e-9, "{text}");
            for &c in Component::ALL {
                prop_assert!(ingredient.per_gram.grams_of(c) >= 0.0, "{c:?} in {text}");
            }
        }
    }

    #[test]
    fn a_label_is_met(strength in 0.0..60.0f64, sugar in 0.0..400.0f64, acid in 0.0..60.0f64) {
        let text = format!("[ingredient.x]\nabv = {strength}\nsugar = \"{sugar} g/L\"\nacid = \"{acid} g/L\"");
        let (ingredients, found) = read(&text);
        prop_assert!(found.is_empty(), "{found:?}");
        let mixture = ingredients[0].per_gram;
        prop_assert!((mixture.total_grams() - 1.0).abs() < 1e-12);
        prop_assert!((abv(&mixture) - strength).abs() < 1e-6);
        prop_assert!((sugar_g_l(&mixture) - sugar).abs() < 1e-6);
        prop_assert!((acid_g_l(&mixture) - acid).abs() < 1e-6);
    }
}

/// What the embedded larder has under the very name of an entry brings what it brings, whatever that is like; and what
/// would keep it for years is not believed.
#[test]
fn a_name_that_the_larder_has_keeps_its_dangers() {
    let read = |name: &str, like: &str| {
        let text = format!("[ingredient.\"{name}\"]\nlike = \"{like}\"\nfood = \"sold as food, label\"\n");
        stillroom::house::House::from_texts([("larder.toml", text.as_str())]).0
    };
    for (name, like, tag) in [("Zitronensaft", "apple juice", Tag::RawJuice), ("Eiklar", "whole milk", Tag::RawEgg)] {
        let house = read(name, like);
        let entry = house.larder.find(name).unwrap_or_else(|| panic!("{name}"));
        assert!(entry.tags.contains(&Open::Known(tag)), "{name}: {:?}", entry.tags);
    }
    for (name, like) in [
        ("sunflower oil", "vodka"),
        ("aceite de oliva", "vodka"),
        ("jus de citron", "vodka"),
        ("zumo de limón", "white sugar"),
        ("Eiklar", "white sugar"),
    ] {
        let house = read(name, like);
        let found: Vec<_> = house.said_of(name).map(|d| d.code).collect();
        assert!(
            house.larder.find(name).is_none() && found.contains(&stillroom::diagnostic::Code::Contradiction),
            "{name}: {found:?}"
        );
    }
    // a bottle of its own is what its name says
    assert!(read("white rum", "white rum").larder.find("white rum").is_some());
    assert!(read("demerara sugar", "muscovado sugar").larder.find("demerara sugar").is_some());
}

/// Carrot juice has 1.2 g of acid in a litre: what a word in the larder says beyond three times that and 2 g makes it no lime.
#[test]
fn a_number_in_the_larder_makes_nothing_sour_that_is_not() {
    let entry = |name: &str, acid: &str| format!("[ingredient.\"{name}\"]\nlike = \"carrot juice\"\n{acid}\n");
    for acid in ["acid = \"10 g/L\"", "acid = \"60 g/L\"\nph = 2.3"] {
        let (title, help, at) = told(&entry("carrot juice", acid));
        assert!(title.contains("cannot be so sour") && help.contains("a part of the card") && acid.contains(&at));
    }
    one(&entry("carrot juice", "acid = \"3 g/L\""));
    // another name is not refused, and no pH rests on its acid
    let renamed = one(&entry("harvest base", "acid = \"10 g/L\""));
    assert!(renamed.notes.contains("no pH is computed"), "{}", renamed.notes);
    one("[ingredient.\"lime juice\"]\nlike = \"lime juice\"\nacid = \"70 g/L\"\n");
}
