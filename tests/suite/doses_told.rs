//! Doses are computed and printed, with the limit that they are held against, in text and JSON alike.

use crate::kitchen::Kitchen;
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

fn judged(entry: &str, part: &str) -> Assessment {
    let rum = "[ingredient.\"overproof white rum\"]\nabv = 63\nallergens = []\n";
    let kitchen = Kitchen::new(&format!("{rum}{entry}"));
    let card = format!("name = \"Test\"\nserving = \"50 ml\"\n[parts]\n\"overproof white rum\" = \"1 L\"\n{part}\n");
    kitchen.solve(&card, &Options::default()).dated(100)
}

#[test]
fn what_is_weighed_in_is_said_for_a_litre_and_a_serving() {
    let dry = |name: &str| format!("[ingredient.\"{name}\"]\nper_100g = {{ insoluble = 100 }}\n");
    for (name, grams, substance, may_pass) in [
        ("guarana powder", 10.0, "caffeine", true),
        ("liquorice root", 1.0, "glycyrrhizin", true),
        ("wormwood", 2.0, "thujone", false),
        ("wormwood herb", 20.0, "thujone", true),
        ("apricot kernels", 50.0, "hydrocyanic acid", true),
        ("tonka beans", 1.0, "coumarin", false),
        ("chilli flakes", 5.0, "capsaicin", false),
        ("nutmeg", 4.0, "nutmeg", false),
        // 2.5 mg of iodine a gram, of which 0.6 mg a day are tolerable: some 20 servings
        ("kombu", 4.0, "iodine", false),
        ("kelp", 6.0, "iodine", true),
        ("Seetang", 6.0, "iodine", true),
    ] {
        let part = format!("\"{name}\" = {{ amount = \"{grams} g\", strained = true, holds = 1 }}");
        let judged = judged(&dry(name), &part);
        let dose = judged.doses.iter().find(|d| d.substance == substance).unwrap_or_else(|| panic!("{name}"));
        assert_eq!((dose.grams, dose.may_pass), (grams, may_pass), "{name}: {dose}");
        assert!(dose.mg_per_l.is_some() && dose.mg_per_serving.is_some(), "{name}: {dose}");
    }
    let bark = judged(&dry("cinchona bark"), "\"cinchona bark\" = { amount = \"12 g\", strained = true, holds = 1 }");
    assert!(bark.doses[0].to_string().contains("12 g of cinchona: not known from its weight"));
    let coffee = judged("", "espresso = \"200 g\"");
    assert!(coffee.doses.iter().all(|d| d.mg_per_l.is_none()), "a drink is not beans: {:?}", coffee.doses);
}

/// A pure substance holds all of itself, and what a house says a thing is like makes no dry plant a wet one.
#[test]
fn a_pure_substance_counts_whole_and_a_lent_wetness_not_at_all() {
    let dose = |name: &str, like: &str, substance: &str| {
        let entry =
            format!("[ingredient.\"{name}\"]\nlike = \"{like}\"\nfood = \"food grade, label\"\nallergens = []\n");
        let judged = judged(&entry, &format!("\"{name}\" = \"5 g\""));
        let dose = judged.doses.iter().find(|dose| dose.substance == substance).unwrap_or_else(|| panic!("{name}"));
        dose.mg_per_l.unwrap_or_else(|| panic!("{name}: {dose}"))
    };
    let pure = dose("glycyrrhizin", "white sugar", "glycyrrhizin");
    let root = dose("liquorice root", "gentian", "glycyrrhizin");
    assert!((9.9..10.1).contains(&(pure / root)), "{pure} {root}");
    assert!((4_700.0..5_000.0).contains(&pure), "{pure}");
    for name in ["matcha", "guaraná en polvo", "Kolanuss", "yerba mate"] {
        assert!(dose(name, "mint", "caffeine") > 50.0, "{name}");
    }
    assert!(dose("Muskatnuss, gemahlen", "mint", "nutmeg") > 4_000.0);
    assert!(dose("mace", "mint", "nutmeg") > 4_000.0);
}

#[test]
fn a_strong_drink_by_name_is_warned_of_and_not_stopped_and_an_acid_says_its_weight() {
    let strong = judged("", "water = \"100 g\"");
    let vapour = strong.cautions.iter().find(|c| c.code == "spirit_vapour").unwrap();
    assert!(!strong.stopped() && vapour.tell && vapour.figures == ["1,000 ml at 63.0 % vol"], "{:?}", vapour.figures);
    let weak = Kitchen::new("").solve("name = \"T\"\n[parts]\ngin = \"1 L\"\nwater = \"1 L\"\n", &Options::default());
    assert!(weak.dated(100).cautions.iter().all(|c| c.code != "spirit_vapour"));
    let acid = judged("[ingredient.\"sulphuric acid\"]\nper_100g = { other = 100 }\n", "\"sulphuric acid\" = \"3 g\"");
    let corrosive = acid.cautions.iter().find(|c| c.code == "corrosive").unwrap();
    assert_eq!(corrosive.figures, ["3.00 g of it go in"]);
}

/// What harms at once: 3 g of potassium chloride (40 mmol), 15 g of acid, 1.2 g of caffeine (US FDA) in a serving of 50 ml.
#[test]
fn what_harms_at_once_stops_and_a_kitchen_dose_does_not() {
    let salt = "[ingredient.\"Kaliumchlorid\"]\nlike = \"salt\"\nfood = \"food grade, label\"\n";
    let guarana = "[ingredient.\"guarana powder\"]\nper_100g = { insoluble = 100 }\nfood = \"food grade, label\"\n";
    let in_batch = |entry: &str, part: &str, grams: f64| {
        let judged = judged(entry, &format!("\"{part}\" = \"{grams} g\""));
        judged.cautions.iter().any(|caution| caution.code == "overdose")
    };
    for (entry, part, little, much) in [
        (salt, "Kaliumchlorid", 20.0, 100.0),
        ("", "potassium chloride", 20.0, 100.0),
        ("", "citric acid", 60.0, 600.0),
        (guarana, "guarana powder", 5.0, 700.0),
        ("", "salt", 60.0, 300.0),
    ] {
        assert!(!in_batch(entry, part, little), "{little} g of {part}");
        assert!(in_batch(entry, part, much), "{much} g of {part}");
    }
}

#[test]
fn glycerol_is_told_where_a_child_may_drink_it() {
    let told = |base: &str| {
        let card = format!("name = \"Test\"\n[parts]\n{base} = \"1 L\"\nglycerol = \"60 g\"\n");
        let judged = Kitchen::new("").solve(&card, &Options::default()).dated(100);
        judged.cautions.iter().any(|caution| caution.code == "glycerol_children" && caution.tell)
    };
    assert!(told("water"));
    assert!(!told("gin"));
}

/// Cinnamon of which half a litre at once stays below what is tolerable in a day asks nobody how much is served. By hand: 7.0 mg a gram
/// of cassia, 1 g in 0.8 L are 4.3 mg in half a litre, 10 g are 43 mg; 6 mg are tolerable for 60 kg.
#[test]
fn a_gram_of_cinnamon_asks_for_no_serving() {
    let asks = |grams: u32| {
        let card = format!(
            "name = \"T\"\n[parts]\nwater = \"500 g\"\nsugar = \"500 g\"\ncinnamon = {{ amount = \"{grams} g\", strained = true }}\n"
        );
        let judged = Kitchen::unstated("").solve(&card, &Options::default()).dated(100);
        judged.cautions.iter().any(|caution| caution.code == "coumarin_dose")
    };
    assert!(!asks(1) && asks(10));
}

/// 100 g of sugar in 1,000 g at some 1.04 g/ml are 104 g/L: of Gay-Lussac's 0.511 g of alcohol a gram and 0.789 g/ml, 6.7 % vol. The doubt of
/// the strength, half a percent at the most, is on top.
#[test]
fn what_ferments_says_how_strong_it_may_get() {
    let kitchen = Kitchen::new("");
    let card = "name = \"Test\"\nprocess = [\"fermented\"]\n[parts]\n\"white sugar\" = \"100 g\"\nwater = \"900 g\"\n";
    let dated = kitchen.solve(card, &Options::default()).dated(100);
    let told = dated.cautions.iter().find(|c| c.code == "ferments_on").unwrap();
    let said = told.figures.iter().find(|said| said.starts_with("at most")).unwrap();
    let abv: f64 = said.split(' ').nth(2).unwrap().parse().unwrap();
    assert!((6.7..=7.2).contains(&abv), "{said}");
}
