//! Cards that could hurt somebody: none passes in silence. And cards that could not: none is stopped.

use std::path::Path;
use std::process::Command;

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::safety::Level;
use stillroom::solver::Options;

const HOUSE: &str = r#"
[instruments]
scale = "0.1 g up to 5 kg"
[stores]
fridge = "4 °C"
"back bar" = "21 °C"
"#;
/// Solids that the built-in larder does not have; what they are made of does not matter here.
const SOLIDS: &[&str] = &[
    "garlic",
    "rosemary",
    "tonka bean",
    "wormwood",
    "cinchona bark",
    "bitter almond",
    "sassafras bark",
    "calamus root",
    "comfrey leaf",
    "raw elderberries",
    "dry ice",
    "liquid nitrogen",
    "potassium sorbate",
    "sodium benzoate",
    "sesame paste",
    "peanut butter",
    "foraged berries",
    "yew berries",
    "activated charcoal",
    "peach kernels",
    "woodruff",
    "quinine bark",
    "lemon essential oil",
    "rue",
    "mandrake root",
    "ivy",
    "quassia wood",
    "kina bark",
    "red bark",
    "melilot",
    "kratom leaf",
    "senna pods",
    "caffeine powder",
    "borax",
    "monkshod",
    "almnds",
    "mandeln",
    "cassava",
    "lily of the valley",
];

fn kitchen() -> Kitchen {
    let mut larder = String::from(
        "[ingredient.\"olive oil\"]\nper_100g = { fat = 100 }\nform = \"liquid\"\n\
         [ingredient.\"saigon cassia\"]\nlike = \"clove\"\n[ingredient.\"apricot kernels\"]\nlike = \"clove\"\n\
         [ingredient.\"bitter bark, cinchona\"]\nlike = \"gentian\"\n\
         [ingredient.\"overproof white rum\"]\nabv = 63\n\
         [ingredient.\"house nut base\"]\nlike = \"almonds\"\n\
         [ingredient.\"moo juice\"]\nallergens = []\n\
         per_100g = { water = 88, fat = 4, lactose = 5, protein = 3 }\n\
         [ingredient.\"methylated spirit\"]\nabv = 90\nallergens = []\n\
         [ingredient.\"madagascar cloves\"]\nlike = \"clove\"\n\
         [ingredient.\"sweet bush\"]\nlike = \"gentian\"\n\
         [ingredient.\"meadow bush\"]\nlike = \"sweet bush\"\ntags = [\"identified\"]\n",
    );
    for solid in SOLIDS {
        larder += &format!("[ingredient.\"{solid}\"]\nper_100g = {{ insoluble = 100 }}\n");
    }
    let kitchen = Kitchen::new(&larder);
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn judge(head: &str, parts: &str, rest: &str) -> Assessment {
    let card = format!("name = \"Test\"\n{head}\n[parts]\n{parts}\n{rest}\n");
    let made = kitchen().solve(&card, &Options::default());
    assert!(made.solved.is_some(), "{card}\n{}", made.plain());
    made.dated(200)
}

const SYRUP: &str = "\"white sugar\" = \"500 g\"\nwater = \"500 g\"";
const RUM: &str = "\"overproof white rum\" = \"700 ml\"";
const ON_BAR: &str = "[keep]\nstore = \"back bar\"";
const SEALED: &str = "[keep]\nstore = \"back bar\"\nclosed = true\nin = \"glass\"";

/// What a card is, its head, its parts, its other tables, and the caution that must name the danger.
type Danger = (&'static str, &'static str, &'static str, &'static str, &'static str, Level);

#[rustfmt::skip]
const DANGERS: &[Danger] = &[
    ("garlic in oil", "", "\"olive oil\" = \"500 g\"\ngarlic = \"50 g\"", "", "oil_infusion", Level::Stop),
    ("rosemary in oil, strained", "", "\"olive oil\" = \"500 g\"\nrosemary = { amount = \"20 g\", strained = true, holds = 1 }", ON_BAR, "oil_infusion", Level::Stop),
    ("cream liqueur at room temperature", "", "\"heavy cream\" = \"400 g\"\n\"overproof white rum\" = \"200 ml\"\n\"white sugar\" = \"200 g\"", ON_BAR, "dairy_egg", Level::Warn),
    ("raw egg liqueur", "", "\"egg yolk\" = \"300 g\"\n\"overproof white rum\" = \"150 ml\"\n\"white sugar\" = \"200 g\"", ON_BAR, "dairy_egg", Level::Warn),
    ("raw egg, strong", "", "\"egg yolk\" = \"100 g\"\n\"overproof white rum\" = \"300 ml\"", ON_BAR, "allergen", Level::Warn),
    ("egg white foam", "", "\"egg white\" = \"100 g\"\n\"white sugar\" = \"100 g\"\nwater = \"100 g\"", "", "dairy_egg", Level::Warn),
    ("cassia by the handful", "serving = \"30 ml\"", "\"cassia bark\" = { amount = \"60 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "coumarin_dose", Level::Warn),
    ("cinnamon, serving not stated", "", "\"cinnamon\" = { amount = \"60 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "coumarin_dose", Level::Warn),
    ("cassia under the guise of clove", "serving = \"30 ml\"", "\"saigon cassia\" = { amount = \"60 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "coumarin_dose", Level::Warn),
    ("nutmeg by the spoon", "serving = \"60 ml\"", "nutmeg = { amount = \"30 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "nutmeg", Level::Warn),
    ("cinchona bark", "", "\"cinchona bark\" = { amount = \"20 g\", strained = true, holds = 1 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "cinchona", Level::Stop),
    ("cinchona under the guise of gentian", "", "\"bitter bark, cinchona\" = { amount = \"20 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "cinchona", Level::Stop),
    ("tonka, market not stated", "", "\"tonka bean\" = { amount = \"5 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "tonka", Level::Stop),
    ("wormwood", "", "wormwood = { amount = \"5 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "wormwood", Level::Warn),
    ("apricot kernels under the guise of clove", "", "\"apricot kernels\" = { amount = \"50 g\", strained = true }\n\"overproof white rum\" = \"700 ml\"", "", "kernels", Level::Stop),
    ("peach kernels", "", "\"peach kernels\" = { amount = \"50 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "kernels", Level::Stop),
    ("bitter almond", "", "\"bitter almond\" = { amount = \"50 g\", strained = true, holds = 1 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "kernels", Level::Stop),
    ("sassafras", "", "\"sassafras bark\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "banned_roots", Level::Stop),
    ("calamus", "", "\"calamus root\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "banned_roots", Level::Stop),
    ("comfrey", "", "\"comfrey leaf\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "toxic_plant", Level::Stop),
    ("lily of the valley", "", "\"lily of the valley\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "toxic_plant", Level::Stop),
    ("yew", "", "\"yew berries\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "toxic_plant", Level::Stop),
    ("foraged, named by nobody", "", "\"foraged berries\" = { amount = \"90 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "toxic_plant", Level::Stop),
    ("woodruff", "", "woodruff = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "tonka_elsewhere", Level::Warn),
    ("essential oil", "", "\"lemon essential oil\" = \"1 g\"\n\"overproof white rum\" = \"700 ml\"", "", "essential_oil", Level::Warn),
    ("raw elderberry", "", "\"raw elderberries\" = { amount = \"400 g\", strained = true, holds = 0 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "elderberry", Level::Warn),
    ("charcoal", "", "\"activated charcoal\" = { amount = \"5 g\", strained = true, holds = 1 }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "charcoal", Level::Warn),
    ("almond syrup sealed on the bar", "", "\"blanched almonds\" = { amount = \"250 g\", strained = true, holds = 0.9 }\nwater = \"900 g\"\n\"white sugar\" = \"700 g\"", SEALED, "sealed_low_acid", Level::Stop),
    ("plain syrup sealed on the bar, low acid read", "", SYRUP, "[measured]\nph = 6.0\nph_by = \"meter\"\n[keep]\nstore = \"back bar\"\nclosed = true\nin = \"plastic\"", "sealed_low_acid", Level::Stop),
    ("the same with the lid not stated", "", SYRUP, ON_BAR, "sealed_low_acid", Level::Stop),
    ("a warm bath after a boil", "process = [\"sous vide\"]\nheated = \"55 °C for 8 h\"", "boiled = \"500 g\"\n\"almonds\" = { amount = \"50 g\", strained = true, holds = 1 }", "[[stage]]\nname = \"boiled\"\nheated = \"95 °C for 5 min\"\nparts = { water = \"500 g\", \"white sugar\" = \"100 g\" }", "low_heat", Level::Warn),
    ("sugar and yeast in sealed glass", "steps = [\"Add the yeast and let it ferment for two days in the closed bottle.\"]", SYRUP, "[keep]\nclosed = true\nin = \"glass\"", "gas_burst", Level::Stop),
    ("sour sweet drink sealed in glass on the bar", "", "\"white sugar\" = \"300 g\"\nwater = \"700 g\"\n\"citric acid\" = \"8 g\"", SEALED, "gas_burst", Level::Stop),
    ("benzoate over every limit", "", "\"sodium benzoate\" = \"9 g\"\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "preservative_over", Level::Stop),
    ("sulphite by the spoon", "", "\"potassium metabisulphite\" = \"9 g\"\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "sulphite_over", Level::Stop),
    ("sorbate over every limit", "", "\"potassium sorbate\" = \"9 g\"\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "", "preservative_over", Level::Stop),
    ("benzoate with orange juice", "", "\"sodium benzoate\" = \"0.1 g\"\n\"orange juice\" = \"900 g\"", "", "benzoate_vitc", Level::Warn),
    ("sorbate with raw juice", "", "\"potassium sorbate\" = \"0.1 g\"\n\"lime juice\" = \"900 g\"", "", "raw_juice", Level::Warn),
    ("overproof rum at 60 °C", "heated = \"60 °C for 20 min\"", RUM, "", "hot_spirit", Level::Stop),
    ("overproof rum filled hot", "", RUM, "[keep]\nfill = \"hot\"", "hot_spirit", Level::Stop),
    ("low-acid syrup boiled", "heated = \"100 °C for 5 min\"", SYRUP, "", "cooling", Level::Warn),
    ("raw juice for sale", "", "\"apple juice\" = \"900 g\"", "[keep]\nfor_sale = true", "raw_juice", Level::Warn),
    ("raw juice warmed a little", "heated = \"45 °C for 1 min\"", "\"lime juice\" = \"900 g\"", "", "raw_juice", Level::Warn),
    ("vacuum bag on the bar", "", SYRUP, "[measured]\nph = 6\nph_by = \"meter\"\n[keep]\nin = \"bag\"\nclosed = true\nstore = \"back bar\"", "rop_ambient", Level::Stop),
    ("vacuum in the method only", "steps = [\"Seal it under vacuum and leave it out.\"]", SYRUP, "[measured]\nph = 6\nph_by = \"meter\"\n[keep]\nstore = \"back bar\"", "rop_ambient", Level::Stop),
    ("dry ice", "", "\"dry ice\" = \"100 g\"\n\"lime juice\" = \"100 g\"\nwater = \"900 g\"", "", "cryogen", Level::Stop),
    ("liquid nitrogen in the method", "steps = [\"Freeze the top with liquid nitrogen and serve.\"]", SYRUP, "", "cryogen", Level::Stop),
    ("copper mug in the method", "steps = [\"Pour into a copper mug.\"]", "\"lime juice\" = \"100 g\"\nwater = \"300 g\"", "[measured]\nph = 2.6", "copper", Level::Warn),
    ("siphon in the method", "steps = [\"Charge the siphon with two capsules.\"]", RUM, "", "siphon", Level::Warn),
    ("distilling in the method", "steps = [\"Distil slowly and discard the first cut.\"]", RUM, "", "distil", Level::Stop),
    ("hot fill that is not hot", "heated = \"62 °C for 1 min\"", SYRUP, "[measured]\nph = 3.8\n[keep]\nfill = \"hot\"\nclosed = true", "hot_fill", Level::Warn),
    ("peanut", "", "\"peanut butter\" = { amount = \"100 g\", strained = true, holds = 0.5 }\n\"overproof white rum\" = \"700 ml\"", "", "allergen", Level::Warn),
    ("sesame", "", "\"sesame paste\" = { amount = \"100 g\", strained = true, holds = 0.5 }\n\"overproof white rum\" = \"700 ml\"", "", "allergen", Level::Warn),
    ("milk-clarified punch", "", "milk = { amount = \"200 g\", strained = true, holds = -0.5 }\n\"lime juice\" = \"100 g\"\n\"overproof white rum\" = \"300 ml\"", "", "allergen", Level::Warn),
    ("a nut base with a quiet name", "", "\"house nut base\" = { amount = \"100 g\", strained = true, holds = 0.5 }\n\"overproof white rum\" = \"700 ml\"", "", "allergen", Level::Warn),
    ("weak liqueur kept for weeks", "class = \"shrub\"", "\"white sugar\" = \"300 g\"\nwater = \"700 g\"\n\"citric acid\" = \"20 g\"\n\"overproof white rum\" = \"120 ml\"", "[measured]\nph = 2.5", "low_alcohol", Level::Warn),
    ("milk by its analysis only", "", "\"moo juice\" = \"500 g\"\n\"white sugar\" = \"100 g\"", "", "dairy_egg", Level::Warn),
    ("milk by its analysis only, its allergen", "", "\"moo juice\" = \"500 g\"\n\"white sugar\" = \"100 g\"", "", "allergen", Level::Warn),
    ("spirit that is not for drinking", "", "\"methylated spirit\" = \"300 g\"\nwater = \"300 g\"", "", "not_food", Level::Stop),
    ("a cleaner", "", "\"borax\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "not_food", Level::Stop),
    ("caffeine by the spoon", "", "\"caffeine powder\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "milligram_poison", Level::Stop),
    ("ivy", "", "\"ivy\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "toxic_plant", Level::Stop),
    ("quassia", "", "\"quassia wood\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "quassia", Level::Warn),
    ("cinchona by another name", "", "\"kina bark\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "cinchona", Level::Stop),
    ("a bark that may be cinchona", "", "\"red bark\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "cinchona", Level::Stop),
    ("melilot", "", "\"melilot\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "tonka_elsewhere", Level::Warn),
    ("a controlled plant", "", "\"kratom leaf\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "controlled_plant", Level::Stop),
    ("a medicine", "", "\"senna pods\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "medicine_plant", Level::Warn),
    ("cassava", "", "\"cassava\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "cassava", Level::Warn),
    ("a poison misspelt", "", "\"monkshod\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "toxic_plant", Level::Stop),
    ("an allergen misspelt", "", "\"almnds\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "allergen", Level::Warn),
    ("an allergen in German", "", "\"mandeln\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "allergen", Level::Warn),
    ("a plant computed as another", "", "\"sweet bush\" = { amount = \"9 g\", strained = true, holds = 1 }\n\"overproof white rum\" = \"700 ml\"", "", "unchecked_plant", Level::Note),
    ("dried fruit that is not dry", "class = \"dried fruit\"", "lime = \"1 kg\"", "[loss]\nevaporated = \"60 %\"\n[keep]\nclosed = true", "dried_mould", Level::Warn),
];

#[test]
fn none_passes_in_silence() {
    assert!(DANGERS.len() >= 50);
    let mut silent = Vec::new();
    for (what, head, parts, rest, code, level) in DANGERS {
        let dated = judge(head, parts, rest);
        match dated.cautions.iter().find(|c| c.code == *code) {
            Some(caution) => assert_eq!(caution.severity, *level, "{what}"),
            None => silent.push((what, code, dated.cautions.iter().map(|c| c.code).collect::<Vec<_>>())),
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}

#[test]
fn what_is_stated_in_full_stops_for_certain() {
    for what in [
        "garlic in oil",
        "cinchona bark",
        "bitter almond",
        "comfrey",
        "almond syrup sealed on the bar",
        "dry ice",
        "overproof rum at 60 °C",
        "benzoate over every limit",
        "sour sweet drink sealed in glass on the bar",
        "apricot kernels under the guise of clove",
        "plain syrup sealed on the bar, low acid read",
    ] {
        let (_, head, parts, rest, code, _) = DANGERS.iter().find(|d| d.0 == what).unwrap();
        let dated = judge(head, parts, rest);
        let caution = dated.cautions.iter().find(|c| c.code == *code).unwrap();
        assert!(dated.stopped() && (caution.is_certain() || what.starts_with("almond")), "{what}: {caution}");
    }
}

#[test]
fn allergens_are_named() {
    for (what, allergen) in [
        ("peanut", "peanut"),
        ("sesame", "sesame"),
        ("milk-clarified punch", "milk"),
        ("a nut base with a quiet name", "tree_nuts (almond)"),
        ("egg white foam", "egg"),
        ("cream liqueur at room temperature", "milk"),
        ("milk by its analysis only", "milk"),
        ("an allergen in German", "tree_nuts (almond)"),
    ] {
        let (_, head, parts, rest, ..) = DANGERS.iter().find(|d| d.0 == what).unwrap();
        assert!(judge(head, parts, rest).allergens.iter().any(|a| a.starts_with(allergen)), "{what}");
    }
}

#[test]
fn what_a_misspelt_name_may_be_is_asked_and_not_said() {
    let of = |what: &str| {
        let (_, head, parts, rest, ..) = DANGERS.iter().find(|d| d.0 == what).unwrap();
        judge(head, parts, rest)
    };
    let dated = of("an allergen misspelt");
    assert_eq!(dated.allergens_doubted, ["whether `almnds` is almond"]);
    assert!(dated.allergens.is_empty());
    let dated = of("a poison misspelt");
    let plant = dated.cautions.iter().find(|c| c.code == "toxic_plant").unwrap();
    assert_eq!(plant.not_stated, ["whether `monkshod` is monkshood"]);
    // until somebody says that it is not, it stops, and nothing is dated
    assert!(dated.stopped());
}

#[test]
fn a_product_is_not_made_of_its_name() {
    for name in ["Night porter bitters", "Copper almond wherry", "Milk of the yew"] {
        let card = format!("name = \"{name}\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n");
        let dated = kitchen().solve(&card, &Options::default()).dated(200);
        assert!(dated.allergens.is_empty(), "{name}: {:?}", dated.allergens);
        for code in ["copper", "toxic_plant", "allergen", "dairy_egg"] {
            assert!(dated.cautions.iter().all(|c| c.code != code), "{name}: {code}");
        }
    }
    // but how it is made may be in it
    let card = "name = \"Kombucha\"\n[parts]\n\"white sugar\" = \"80 g\"\nwater = \"900 g\"\n[keep]\nin = \"glass\"\nclosed = true\n";
    let dated = kitchen().solve(card, &Options::default()).dated(200);
    assert!(dated.cautions.iter().any(|c| c.code == "gas_burst"));
}

#[test]
fn what_else_an_embedded_ingredient_is_called_says_nothing_of_this_one() {
    for (part, expected) in [("apple juice", &[] as &[&str]), ("sweet cider", &["sulphites"])] {
        assert_eq!(judge("", &format!("\"{part}\" = \"900 g\""), "").allergens, expected, "{part}");
    }
}

#[test]
fn a_plant_computed_as_another_is_said_to_be_unchecked() {
    let raised = |part: &str| {
        let dated = judge("", &format!("\"{part}\" = {{ amount = \"9 g\", strained = true }}\n{RUM}"), "");
        dated.cautions.into_iter().find(|c| c.code == "unchecked_plant")
    };
    let caution = raised("sweet bush").unwrap();
    assert_eq!(caution.because, ["unchecked plant from `sweet bush`"]);
    // of a known kind, or named by somebody who knows
    for known in ["madagascar cloves", "meadow bush", "gentian"] {
        assert_eq!(raised(known), None, "{known}");
    }
}

#[test]
fn what_needs_the_cold_has_no_date_on_the_bar() {
    for what in [
        "cream liqueur at room temperature",
        "raw egg liqueur",
        "raw egg, strong",
        "almond syrup sealed on the bar",
        "the same with the lid not stated",
    ] {
        let (_, head, parts, rest, ..) = DANGERS.iter().find(|d| d.0 == what).unwrap();
        let dated = judge(head, parts, rest);
        let bar = at(&dated, "back bar");
        assert!(bar.days.is_none() && !bar.refused.is_empty(), "{what}");
    }
}

/// Cards that a house makes every week, stated in full.
#[rustfmt::skip]
const ORDINARY: &[(&str, &str, &str)] = &[
    ("class = \"plain syrup\"", SYRUP, "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\""),
    ("class = \"rich syrup\"", "\"white sugar\" = \"1 kg\"\nwater = \"500 g\"", "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\""),
    ("class = \"spice syrup\"\nserving = \"15 ml\"", "clove = { amount = \"5 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"", "[keep]\nclosed = true\nin = \"glass\""),
    ("class = \"infused spirit\"", "cardamom = { amount = \"5 g\", strained = true }\n\"white rum\" = \"700 ml\"", "[keep]\nclosed = true\nin = \"glass\"\nstore = \"back bar\""),
    ("class = \"cordial\"", "\"lemon juice\" = \"300 g\"\n\"white sugar\" = \"500 g\"\nwater = \"200 g\"", "[measured]\nph = 2.6\n[keep]\nclosed = true\nin = \"glass\""),
    ("class = \"liqueur\"\nserving = \"25 ml\"", "\"orange peel\" = { amount = \"50 g\", strained = true }\n\"overproof white rum\" = \"500 ml\"\n\"white sugar\" = \"300 g\"\nwater = \"300 g\"", "[keep]\nclosed = true\nin = \"glass\"\nstore = \"back bar\""),
    ("class = \"juice\"", "\"grapefruit juice\" = \"1 kg\"", "[keep]\nclosed = true\nin = \"glass\""),
    ("class = \"bitters\"\nserving = \"1 ml\"", "gentian = { amount = \"20 g\", strained = true }\n\"overproof white rum\" = \"500 ml\"", "[keep]\nclosed = true\nin = \"glass\"\nstore = \"back bar\""),
];

/// What an entry of the house is written like gives its name on, through any number of entries, and nothing takes it away.
#[test]
fn like_never_takes_a_danger_away() {
    let kitchen = Kitchen::new(
        "[ingredient.\"apricot kernels\"]\nlike = \"clove\"\n[ingredient.\"kernel base\"]\nlike = \"apricot kernels\"\n\
         [ingredient.\"base no 2\"]\nlike = \"kernel base\"\nallergens = []\n\
         [ingredient.\"gianduja\"]\nper_100g = { fat = 40, sucrose = 40, insoluble = 20 }\n\
         [ingredient.\"brown base\"]\nlike = \"gianduja\"\nallergens = []\n\
         [ingredient.\"moo juice\"]\nper_100g = { water = 88, fat = 4, lactose = 5, protein = 3 }\nallergens = []\n",
    );
    let dated = |part: &str| {
        let card = format!(
            "name = \"x\"\nmakes = \"1 kg\"\n[parts]\n\"{part}\" = \"100 g\"\n\"white sugar\" = \"as needed\"\n"
        );
        kitchen.solve(&card, &Options::default()).dated(20)
    };
    for part in ["apricot kernels", "kernel base", "base no 2"] {
        assert!(dated(part).cautions.iter().any(|c| c.code == "kernels" && c.stops()), "{part}");
    }
    assert!(dated("brown base").allergens.iter().any(|a| a.contains("hazelnut")));
    // Lactose is milk, whatever it is called and whoever says that it brings nothing.
    let milk = dated("moo juice");
    assert_eq!(milk.allergens, ["milk"]);
    assert!(milk.cautions.iter().any(|c| c.code == "dairy_egg"));
}

/// A title is no ingredient.
#[test]
fn a_title_brings_no_allergen() {
    let kitchen = Kitchen::new("");
    for name in ["Night porter bitters", "Copper wherry drops", "Almond Lane cordial"] {
        let card = format!(
            "name = \"{name}\"\nmakes = \"1 kg\"\n[parts]\nwater = \"1 part by weight\"\n\"white sugar\" = \"1 part by weight\"\n"
        );
        let dated = kitchen.solve(&card, &Options::default()).dated(20);
        assert!(dated.allergens.is_empty() && !dated.cautions.iter().any(|c| c.code == "copper"), "{name}");
    }
}

#[test]
fn ordinary_cards_are_not_stopped() {
    for (head, parts, rest) in ORDINARY {
        let dated = judge(head, parts, rest);
        let stops: Vec<_> = dated.cautions.iter().filter(|c| c.severity == Level::Stop).collect();
        assert!(stops.is_empty(), "{head}: {stops:?}");
        assert!(dated.allergens.is_empty(), "{head}: {:?}", dated.allergens);
        assert!(at(&dated, "fridge").days.is_some(), "{head}");
    }
}

#[test]
fn no_card_of_the_demo_house_is_stopped_or_given_a_false_allergen() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let mut cards = 0;
    for file in std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path()).filter(|path| path.is_file()) {
        let name = file.file_stem().unwrap().to_str().unwrap().to_owned();
        if ["house", "larder", "plan", "menu"].contains(&name.as_str()) {
            continue;
        }
        cards += 1;
        // A drink is served at once: it has cautions and allergens, and no date.
        let is_drink = std::fs::read_to_string(&file).unwrap().contains("\nhow ");
        let verb: &[&str] = if is_drink { &["serve", "--json"] } else { &["date", "--json", "--made", "2026-11-25"] };
        let out = Command::new(env!("CARGO_BIN_EXE_stillroom")).args(verb).arg(&file).output().unwrap();
        assert_eq!(out.status.code(), Some(0), "{name}");
        let told: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        let cautions = told["cautions"].as_array().unwrap();
        assert!(cautions.iter().all(|c| c["severity"] != "stop"), "{name}");
        // Almonds are tree nuts; cider vinegar may hold sulphites; nothing else of the house is on a list.
        let expected: &[&str] = match name.as_str() {
            "almond-syrup" => &["tree_nuts (almond)"],
            "almond-sour" => &["egg", "tree_nuts (almond)"],
            "raspberry-shrub" => &["sulphites"],
            _ => &[],
        };
        let allergens: Vec<&str> = told["allergens"].as_array().unwrap().iter().filter_map(|a| a.as_str()).collect();
        assert_eq!(allergens, expected, "{name}");
        // and no name of it is taken for a misspelt one, or for a plant that nobody knows
        assert_eq!(told["allergens_doubted"], serde_json::json!([]), "{name}");
        let asked = cautions.iter().flat_map(|c| c["not_stated"].as_array().unwrap()).filter_map(|q| q.as_str());
        assert!(asked.clone().all(|q| !q.starts_with("whether `")), "{name}: {:?}", asked.collect::<Vec<_>>());
        assert!(cautions.iter().all(|c| c["code"] != "unchecked_plant"), "{name}");
        assert!(is_drink || told["stores"][0]["days"].is_u64(), "{name}: no date in the fridge");
    }
    assert!(cards >= 20);
}
