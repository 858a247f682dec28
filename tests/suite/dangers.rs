//! The corpus of cards that could hurt somebody (`tests/dangers/cards.csv`): none is silent, and none has a date while
//! a question of identity is open. And the ordinary ones (`ordinary.csv`): none is stopped, none is asked what it is.

use std::process::Command;

use serde::Deserialize;

use crate::kitchen::{Kitchen, Made};
use stillroom::assessment::Assessment;
use stillroom::diagnostic::Code;
use stillroom::solver::Options;
use stillroom::units::degrees_celsius;
use stillroom::vocabulary::{ProductClass, Word};

#[derive(Debug, Deserialize)]
struct Danger {
    what: String,
    entry: String,
    amount: String,
    base: Base,
    rest: Rest,
    nested: Nested,
    expect: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Base {
    Spirit,
    Syrup,
    Sour,
    Oil,
    Honey,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
enum Rest {
    #[serde(rename = "")]
    Nothing,
    #[serde(rename = "steps")]
    Steps,
}

#[derive(Clone, Copy, Debug, PartialEq, Deserialize)]
enum Nested {
    #[serde(rename = "")]
    No,
    #[serde(rename = "yes")]
    Yes,
}

impl Base {
    fn parts(self) -> &'static str {
        match self {
            Self::Spirit => "\"overproof white rum\" = \"700 ml\"\n",
            Self::Syrup => "\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n",
            Self::Oil => "\"olive oil\" = \"500 ml\"\n",
            Self::Honey => "honey = \"500 g\"\n",
            Self::Sour => "\"white sugar\" = \"300 g\"\nwater = \"700 g\"\n\"citric acid\" = \"8 g\"\n",
        }
    }
}

fn dangers() -> Vec<Danger> {
    let text = include_str!("../dangers/cards.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().map(|row| row.unwrap()).collect()
}

impl Danger {
    fn judged(&self) -> Assessment {
        let rum = "[ingredient.\"overproof white rum\"]\nabv = 63\nallergens = []\n";
        let entry = match self.entry.is_empty() {
            true => String::new(),
            false => format!("[ingredient.\"{}\"]\n{}\n", self.what, self.entry),
        };
        let kitchen = Kitchen::unstated(&format!("{rum}{entry}"));
        let base = self.base.parts();
        let (part, steps) = match self.rest {
            Rest::Nothing => (format!("\"{}\" = {}\n", self.what, self.part()), String::new()),
            Rest::Steps => (String::new(), format!("steps = [\"{}\"]\n", self.what)),
        };
        let card = |name: &str, part: &str| format!("name = \"{name}\"\n{steps}[parts]\n{base}{part}");
        let outer = match self.nested {
            Nested::No => card("Test", &part),
            Nested::Yes => {
                kitchen.write("inside.toml", &card("inside", &part));
                "name = \"Test\"\n[parts]\ninside = \"200 g\"\nwater = \"300 g\"\n\"white sugar\" = \"100 g\"\n"
                    .to_owned()
            }
        };
        let made = kitchen.solve(&outer, &Options::default());
        assert!(made.solved.is_some(), "{}\n{outer}\n{}", self.what, made.plain());
        made.dated(100)
    }

    /// What stays behind is strained out again.
    fn part(&self) -> String {
        let solid = self.entry.contains("insoluble")
            || self.entry.contains("like = \"clove\"")
            || self.entry.contains("like = \"gentian\"");
        match solid {
            true => format!("{{ amount = \"{}\", strained = true, holds = 1 }}", self.amount),
            false => format!("\"{}\"", self.amount),
        }
    }
}

#[test]
fn none_of_the_corpus_is_silent() {
    let all = dangers();
    assert!(all.len() >= 200, "{}", all.len());
    let mut silent = Vec::new();
    for danger in &all {
        let judged = danger.judged();
        let codes: Vec<&str> = judged.cautions.iter().map(|c| c.code).collect();
        let said = danger.expect.split('|').any(|expected| match expected {
            "identity" => !judged.unidentified.is_empty(),
            code => codes.contains(&code),
        });
        if !said {
            silent.push(format!("{}: {} expected, {codes:?} said", danger.what, danger.expect));
        }
    }
    assert!(silent.is_empty(), "{} of {}:\n{}", silent.len(), all.len(), silent.join("\n"));
}

#[test]
fn none_of_the_corpus_has_a_date_while_a_question_is_open_or_a_stop_is_certain() {
    let mut dated = Vec::new();
    let mut open = 0;
    for danger in dangers() {
        let judged = danger.judged();
        let may_not = !judged.unidentified.is_empty() || judged.stopped();
        open += usize::from(!judged.unidentified.is_empty());
        if may_not && judged.stores.iter().any(|s| s.days.is_some() || s.date.is_some() || s.refused.is_empty()) {
            dated.push(danger.what.clone());
        }
    }
    assert!(open >= 80, "{open}");
    assert!(dated.is_empty(), "{dated:#?}");
}

#[derive(Debug, Deserialize)]
struct Ordinary {
    what: String,
    parts: String,
    rest: String,
    entries: String,
}

fn ordinary() -> Vec<Ordinary> {
    let text = include_str!("../dangers/ordinary.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().map(|row| row.unwrap()).collect()
}

impl Ordinary {
    fn made(&self, more: &str) -> Made {
        let larder = self.entries.replace("; ", "\n").replace("\\n", "\n").replace("] ", "]\n");
        let parts = self.parts.replace("; ", "\n");
        let card = format!("name = \"{}\"\n{more}{}\n[parts]\n{parts}\n", self.what, self.rest);
        Kitchen::unstated(&larder).solve(&card, &Options::default())
    }
}

#[test]
fn no_ordinary_card_is_stopped_or_asked_what_it_is() {
    let all = ordinary();
    assert!(all.len() >= 60, "{}", all.len());
    let (mut wrong, mut told) = (Vec::new(), 0);
    for card in &all {
        let (what, made) = (&card.what, card.made(""));
        if made.solved.is_none() {
            wrong.push(format!("{what}: not solved\n{}", made.plain()));
            continue;
        }
        let judged = made.dated(100);
        let stops: Vec<&str> = judged.cautions.iter().filter(|c| c.stops()).map(|c| c.code).collect();
        if !stops.is_empty() || !judged.unidentified.is_empty() {
            wrong.push(format!("{what}: {stops:?} {:?}", judged.unidentified));
        }
        told += judged.cautions.iter().filter(|c| !c.is_said_elsewhere()).count();
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), all.len(), wrong.join("\n"));
    // what is told of everything is read of nothing
    let each = told as f64 / all.len() as f64;
    assert!(each <= 1.2, "{each} cautions a card");
}

/// A date that differs from what is usually quoted has its reason beside it, and so has none at all.
#[test]
fn every_ordinary_date_is_inside_what_is_quoted_or_says_why() {
    let mut compared = 0;
    for card in ordinary() {
        let judged = card.made("").dated(100);
        for store in judged.stores.iter().filter(|s| s.verdict.is_some()) {
            match store.days {
                Some(_) => assert!(store.decided_by.is_some(), "{}: {}", card.what, store.store.name),
                None => assert!(!store.refused.is_empty(), "{}: {}", card.what, store.store.name),
            }
            compared += usize::from(!judged.named.quoted.is_empty());
        }
    }
    assert!(compared > 30, "{compared}");
}

/// `dates.md` K: of any two words for one product both give the date that it has without a word.
#[test]
fn no_word_for_a_product_changes_its_date() {
    let days = |made: Made| -> Vec<Option<u32>> { made.dated(100).stores.iter().map(|s| s.days).collect() };
    for card in ordinary().iter().filter(|card| !card.rest.contains("class")).step_by(5) {
        let plain = days(card.made(""));
        for class in ProductClass::ALL {
            assert_eq!(days(card.made(&format!("class = \"{class}\"\n"))), plain, "{} as {class}", card.what);
        }
    }
}

/// The exit code of the command in a house, and all that it prints.
fn command(kitchen: &Kitchen, arguments: &[&str]) -> (i32, String) {
    let out =
        Command::new(env!("CARGO_BIN_EXE_stillroom")).args(arguments).current_dir(kitchen.folder()).output().unwrap();
    let said = format!("{}{}", String::from_utf8_lossy(&out.stdout), String::from_utf8_lossy(&out.stderr));
    (out.status.code().unwrap(), said)
}

const POWDER: &str =
    "name = \"Powder syrup\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n\"brown powder\" = \"5 g\"\n";
const BOARD: &str = "[product.\"Powder syrup\"]\npar = \"1 L\"\nuse = \"200 ml a day\"\n";

#[test]
fn an_open_identity_is_asked_where_it_is_to_be_answered_and_fails_every_verb_that_dates() {
    let kitchen = Kitchen::unstated("[ingredient.\"brown powder\"]\nlike = \"white sugar\"\nallergens = []\n");
    kitchen.write("powder.toml", POWDER);
    kitchen.write("plan.toml", BOARD);
    for arguments in [
        &["date", "powder.toml"][..],
        &["solve", "powder.toml"],
        &["check", "powder.toml"],
        &["plan", "."],
        &["cost", "powder.toml"],
        &["adjust", "powder.toml", "--have", "900 ml", "--brix", "48"],
        &["swap", "powder.toml", "--old", "white sugar", "--new", "honey"],
    ] {
        let (code, said) = command(&kitchen, arguments);
        assert_eq!(code, 1, "{arguments:?}\n{said}");
        assert!(said.contains("say what `brown powder` is: food = "), "{arguments:?}\n{said}");
        assert!(!said.contains("use by ") && !said.contains("best before "), "{arguments:?}\n{said}");
    }
    let (code, said) = command(&kitchen, &["date", "powder.toml", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&said).unwrap();
    assert_eq!((code, &told["unidentified"][0]["name"]), (1, &"brown powder".into()));
    let finding = told["diagnostics"].as_array().or(told["findings"].as_array()).unwrap();
    assert!(finding.iter().any(|d| d["code"] == "identity-open" && d["line"] == 1), "{said}");
    assert!(told["stores"].as_array().unwrap().iter().all(|s| s["date"].is_null() && s["days"].is_null()), "{said}");
}

#[test]
fn what_is_stated_once_in_the_larder_or_on_the_card_is_asked_no_more() {
    let food = "food = \"sold as food, label\"\n";
    let stated = format!("[ingredient.\"brown powder\"]\nlike = \"white sugar\"\n{food}");
    let kitchen = Kitchen::unstated(&stated);
    assert!(kitchen.solve(POWDER, &Options::default()).dated(100).unidentified.is_empty());
    let kitchen = Kitchen::unstated("[ingredient.\"brown powder\"]\nlike = \"white sugar\"\n");
    let on_card = POWDER.replace("\"5 g\"", "{ amount = \"5 g\", food = \"bought as muscovado, grocer's label\" }");
    assert!(kitchen.solve(&on_card, &Options::default()).dated(100).unidentified.is_empty());
    let asked = kitchen.solve(POWDER, &Options::default()).dated(100).unidentified;
    assert_eq!(asked.len(), 1);
    assert!(asked[0].file.as_deref().unwrap().ends_with("larder.toml") && asked[0].place.is_some());
}

#[test]
fn what_an_entry_is_like_lends_it_no_answer() {
    let kitchen = Kitchen::unstated(
        "[ingredient.\"first powder\"]\nlike = \"white sugar\"\nfood = \"sold as food, label\"\n\
         [ingredient.\"brown powder\"]\nlike = \"first powder\"\n",
    );
    assert_eq!(kitchen.solve(POWDER, &Options::default()).dated(100).unidentified.len(), 1);
}

#[test]
fn allergens_read_the_same_in_text_and_json_and_an_open_question_is_none_of_none() {
    let kitchen =
        Kitchen::unstated("[ingredient.\"brown powder\"]\nlike = \"white sugar\"\nfood = \"sold as food, label\"\n");
    kitchen.write("powder.toml", POWDER);
    kitchen.write("plain.toml", &POWDER.replace("\"brown powder\" = \"5 g\"\n", ""));
    for (card, says) in [("powder.toml", "not stated for brown powder"), ("plain.toml", "no allergen named")] {
        for verb in ["date", "solve"] {
            let (_, json) = command(&kitchen, &[verb, card, "--json"]);
            let told: serde_json::Value = serde_json::from_str(&json).unwrap();
            assert_eq!(told["allergens_say"], says, "{verb} {card}");
            assert!(command(&kitchen, &[verb, card]).1.contains(says), "{verb} {card}");
        }
    }
}

#[test]
fn yeast_and_gas_of_an_inner_card_go_on_in_the_one_around_it() {
    for (step, code) in [("Let it ferment for two days.", "gas_burst"), ("Force carbonate at 3 bar.", "carbonated")] {
        let kitchen = Kitchen::new("");
        let inner = format!(
            "name = \"inside\"\nsteps = [\"{step}\"]\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n"
        );
        kitchen.write("inside.toml", &inner);
        let outer =
            "name = \"Test\"\n[parts]\ninside = \"200 g\"\nwater = \"300 g\"\n[keep]\nclosed = true\nin = \"glass\"\n";
        let judged = kitchen.solve(outer, &Options::default()).dated(100);
        assert!(judged.cautions.iter().any(|c| c.code == code && c.carried.is_none()), "{code}");
    }
}

#[test]
fn a_restricted_food_carries_its_reason_in_text_and_json() {
    let yarrow = "[ingredient.yarrow]\nper_100g = { insoluble = 100 }\nallergens = []\n";
    let kitchen = Kitchen::unstated(yarrow);
    let part = "yarrow = { amount = \"2 g\", strained = true, holds = 1 }";
    kitchen
        .write("a.toml", &format!("name = \"A\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n{part}\n"));
    let (code, text) = command(&kitchen, &["date", "a.toml"]);
    assert!(text.contains("`yarrow` is restricted: thujone traces") && code == 0, "{text}");
    let (_, json) = command(&kitchen, &["date", "a.toml", "--json"]);
    assert!(json.contains("restricted-food"), "{json}");
}

#[test]
fn a_known_name_brings_the_allergen_of_its_kind_or_the_question() {
    let of = |name: &str| {
        let entry =
            format!("[ingredient.\"{name}\"]\nper_100g = {{ water = 60, fat = 20, protein = 20 }}\nallergens = []\n");
        let card = format!("name = \"A\"\n[parts]\nwater = \"500 g\"\n\"{name}\" = \"5 g\"\n");
        Kitchen::unstated(&entry).solve(&card, &Options::default()).dated(100)
    };
    for (name, allergen) in [("roquefort", "milk"), ("abbey ale", "gluten_cereals"), ("cabernet", "sulphites")] {
        assert!(of(name).allergens.iter().any(|a| a.starts_with(allergen)), "{name}: {:?}", of(name).allergens);
    }
    for (name, question) in [("hake", "whether `hake` brings fish"), ("burrata", "whether `burrata` brings milk")] {
        assert_eq!(of(name).allergens_doubted, [question]);
    }
    for nothing in ["quinoa", "eggplant", "dried orange peel", "sunflower lecithin", "coconut milk"] {
        assert_eq!(of(nothing).allergens_doubted, [""; 0], "{nothing}");
        let wrong = ["egg", "fish", "soy", "milk"];
        assert!(of(nothing).allergens.iter().all(|a| !wrong.contains(&a.as_str())), "{nothing}");
    }
}

/// A plain name with spirit in it: water of 40 % would live two years.
#[test]
fn a_plain_name_that_holds_spirit_is_asked_about() {
    let card = "name = \"Thin\"\nmakes = \"1 L\"\n[target]\nbrix = 20\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
    let open = |larder: &str| Kitchen::unstated(larder).solve(card, &Options::default()).dated(50).unidentified.len();
    assert_eq!(open("[ingredient.water]\nabv = 40\n"), 1);
    assert_eq!(open("[ingredient.water]\nlike = \"water\"\nprice = \"1 GBP / 1 L\"\n"), 0);
}

#[test]
fn what_is_only_like_water_is_no_water() {
    // stock, aquafaba and a leaf of tea feed what grows: no warm weeks, whatever numbers they borrow
    for name in ["chicken stock", "aquafaba", "bone broth", "green tea"] {
        let kitchen = Kitchen::unstated(&format!("[ingredient.\"{name}\"]\nlike = \"water\"\nallergens = []\n"));
        kitchen.write("house.toml", "[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n");
        let card = format!("name = \"Test\"\n[parts]\n\"{name}\" = \"700 ml\"\n[keep]\nclosed = true\n");
        let judged = kitchen.solve(&card, &Options::default()).dated(100);
        let warm: Vec<_> = judged.stores.iter().filter(|s| degrees_celsius(s.store.temperature) > 10.0).collect();
        assert!(!warm.is_empty() && warm.iter().all(|s| s.days.is_none()), "{name}: {warm:?}");
    }
}

#[test]
fn what_says_that_it_has_no_alcohol_is_not_like_gin() {
    for name in ["alcohol-free gin", "alkoholfreier Rum", "rhum sans alcool", "ginebra sin alcohol", "gin analcolico"] {
        let kitchen = Kitchen::unstated(&format!("[ingredient.\"{name}\"]\nlike = \"gin\"\n"));
        let made = kitchen.solve(&format!("name = \"Test\"\n[parts]\n\"{name}\" = \"700 ml\"\n"), &Options::default());
        assert!(made.solved.is_none() && made.plain().contains("no alcohol in it"), "{name}\n{}", made.plain());
    }
    let kitchen = Kitchen::unstated("[ingredient.\"alcohol-free gin\"]\nbrix = 2\nfood = \"sold as food, label\"\n");
    let made = kitchen.solve("name = \"Test\"\n[parts]\n\"alcohol-free gin\" = \"700 ml\"\n", &Options::default());
    assert!(made.solved.is_some(), "{}", made.plain());
}

#[test]
fn a_steep_that_stood_too_warm_is_refused_in_whatever_it_goes_into() {
    let kitchen = Kitchen::unstated("");
    kitchen.write(
        "tea.toml",
        "name = \"Warm tea\"\n[[stage]]\nname = \"tea\"\ntakes = \"24 h\"\nat = \"40 °C\"\n[stage.parts]\nwater = \"900 g\"\n\"black tea\" = { \
         amount = \"20 g\", strained = true }\n[parts]\ntea = \"800 g\"\n",
    );
    let outer = "name = \"Test\"\n[parts]\n\"Warm tea\" = \"400 ml\"\nvodka = \"600 ml\"\n";
    let judged = kitchen.solve(outer, &Options::default()).dated(100);
    for store in &judged.stores {
        let refused = store.refused.iter().any(|why| why.of.as_deref() == Some("Warm tea"));
        assert!(refused && store.days.is_none(), "{}: {:?}", store.store.name, store.refused);
    }
}

#[test]
fn a_step_that_tells_of_standing_warm_counts_as_a_stage_that_does() {
    let kitchen = Kitchen::unstated("");
    let card = |step: &str, parts: &str| {
        let card = format!("name = \"Test\"\nsteps = [\"{step}\"]\n[parts]\n{parts}");
        let judged = kitchen.solve(&card, &Options::default()).dated(50);
        judged.stores.iter().map(|s| s.days.is_some() || s.date.is_some()).collect::<Vec<_>>()
    };
    let weak = "cucumber = { amount = \"300 g\", strained = true, holds = 0.5 }\nwater = \"900 g\"\n\"white sugar\" = \"100 g\"\n";
    for step in
        ["Leave overnight on the counter.", "Blend and hold at 45 °C for 24 h", "Steep 2 days at room temperature"]
    {
        assert!(card(step, weak).iter().all(|dated| !dated), "{step}");
        let strong = format!("{weak}\"overproof white rum\" = \"1.2 kg\"\n");
        // spirit at 45 °C gives off vapour that lights: that stops it
        assert_eq!(card(step, &strong).contains(&true), !step.contains("45 °C"), "{step}: spirit keeps it");
    }
    // of two pans that hold produce the one that bears it worst is taken
    let both = "name = \"Test\"\nsteps = [\"Leave overnight on the counter.\"]\n[[stage]]\nname = \"peel rum\"\n[stage.parts]\n\"overproof white rum\" = \"500 g\"\n\
                \"lime peel\" = { amount = \"20 g\", strained = true }\n[parts]\n\"peel rum\" = \"50 g\"\ncucumber = { amount = \"300 g\", strained = true, holds = 0.5 }\nwater = \"900 g\"\n";
    let judged = kitchen.solve(both, &Options::default()).dated(50);
    assert!(judged.stores.iter().all(|store| store.days.is_none() && store.date.is_none()));
    for step in
        ["Leave overnight in the fridge.", "Never leave it on the counter overnight", "Serve at room temperature"]
    {
        assert!(card(step, weak).contains(&true), "{step}");
    }
}

#[test]
fn a_reading_that_the_alkali_on_the_card_denies_unlocks_nothing() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", "[stores]\nroom = \"21 °C\"\n");
    let days = |alkali: &str, measured: &str| {
        let card = format!(
            "name = \"Test\"\nmakes = \"1 L\"\nheated = \"90 °C for 10 min\"\n[target]\nbrix = 40\n[parts]\n\"white sugar\" = \"as needed\"\n\
             water = \"as needed\"\n\"citric acid\" = \"1 g\"\n{alkali}[loss]\nevaporated = \"2 %\"\n{measured}[keep]\nfill = \"hot\"\nclosed = true\nin = \"glass\"\n"
        );
        let judged = kitchen.solve(&card, &Options::default()).dated(50);
        judged.stores.iter().map(|store| store.days).collect::<Vec<_>>()
    };
    let read = "[measured]\nph = 3.0\nph_by = \"meter\"\ncalibrated = true\n";
    assert!(!days("", read).contains(&None), "without an alkali the reading counts");
    for alkali in ["sodium bicarbonate", "potassium carbonate", "calcium hydroxide", "sodium citrate"] {
        let line = format!("\"{alkali}\" = \"100 g\"\n");
        assert_eq!(days(&line, read), days(&line, ""), "{alkali}");
        assert!(days(&line, read).contains(&None), "{alkali}: sealed, warm and not sour");
    }
}

#[test]
fn a_true_reading_is_not_denied_for_the_minerals_of_a_juice() {
    let card = "name = \"Test\"\n[parts]\n\"carrot juice\" = \"600 g\"\n\"white sugar\" = \"400 g\"\n\"citric acid\" = \"0.5 g\"\n\
                [measured]\nph = 6.0\nph_by = \"meter\"\ncalibrated = true\n";
    let judged = Kitchen::unstated("").solve(card, &Options::default());
    assert!(!judged.codes().contains(&Code::ReadingDiffers), "{}", judged.plain());
}

#[test]
fn what_harms_at_once_in_one_serving_stops_it() {
    let kitchen = Kitchen::unstated("");
    let stopped = |line: &str| {
        let card = format!("name = \"Test\"\nserving = \"50 ml\"\n[parts]\nvodka = \"500 ml\"\n{line}\n");
        let judged = kitchen.solve(&card, &Options::default()).dated(50);
        let overdose = judged.cautions.iter().find(|c| c.code == "overdose");
        // from how much on, and who says so, stands beside it
        assert!(overdose.is_none_or(|c| c.figures.iter().any(|figure| figure.contains("in a serving"))), "{line}");
        overdose.is_some_and(|c| c.stops())
    };
    // a tenth of the batch is about a serving: ten times the line, and less than it
    for (what, too_much, little) in [
        ("potassium chloride", 150, 20),
        ("nutmeg", 80, 5),
        ("saffron", 80, 2),
        ("magnesium sulphate", 150, 20),
        ("sodium carbonate", 40, 10),
    ] {
        assert!(stopped(&format!("\"{what}\" = {{ amount = \"{too_much} g\", strained = false }}")), "{what}");
        assert!(!stopped(&format!("\"{what}\" = {{ amount = \"{little} g\", strained = false }}")), "{what}");
    }
}

#[test]
fn a_statement_answers_what_it_says_and_a_word_of_another_use_none() {
    let asked = |food: &str| {
        let entry =
            format!("[ingredient.\"hill berries\"]\nlike = \"blackberries\"\nallergens = []\nfood = \"{food}\"\n");
        let card =
            "name = \"Test\"\n[parts]\nvodka = \"500 ml\"\n\"hill berries\" = { amount = \"50 g\", strained = true }\n";
        let made = Kitchen::unstated(&entry).solve(card, &Options::default());
        made.solved.is_none() || made.dated(50).stores.iter().all(|store| store.days.is_none())
    };
    for fine in [
        "foraged, identified by the chef",
        "from our own garden",
        "Als Lebensmittel verkauft, Etikett",
        "supplier's food grade certificate",
    ] {
        assert!(!asked(fine), "{fine}");
    }
    for none in [
        "my uncle said",
        "see notes",
        "picked in the park",
        "bought at the garden centre",
        "labelled as poison, sold as food",
        "sold as plant food, label",
        "sold as food, no label",
        "food waste, label",
    ] {
        assert!(asked(none), "{none}");
    }
}

#[test]
fn egg_that_a_step_calls_pasteurised_raises_no_question_of_raw_egg() {
    let card = |step: &str| {
        format!(
            "name = \"Nog\"\nsteps = [\"{step}\"]\n[parts]\n\"pasteurised egg yolk\" = \"120 g\"\n\"white sugar\" = \"120 g\"\n\"whole milk\" = \"500 ml\"\n\"dark rum\" = \"400 ml\"\n"
        )
    };
    let days = |step: &str| {
        let judged = Kitchen::unstated("").solve(&card(step), &Options::default()).dated(50);
        judged.stores.iter().map(|store| store.days).collect::<Vec<_>>()
    };
    assert_eq!(days("Whisk the pasteurised egg yolk with sugar, add milk and rum."), days("Whisk all, chill."));
    assert!(days("Whisk all, chill.").iter().any(Option::is_some));
    assert!(days("Whisk in raw eggs.").iter().all(Option::is_none));
}

#[test]
fn a_stricter_rule_of_the_place_counts_where_nothing_needs_control_too() {
    let kitchen = Kitchen::unstated("");
    let days = |rule: &str| {
        kitchen.write("house.toml", &format!("[stores]\nfridge = \"4 °C\"\n{rule}"));
        let made = kitchen.solve("name = \"Pressed lime\"\n[parts]\n\"lime juice\" = \"500 g\"\n", &Options::default());
        made.dated(50).stores[0].days
    };
    let own = days("");
    assert!(own > Some(1));
    assert_eq!(days("[[local_code]]\nproduct = \"Pressed lime\"\ndays = 1\n"), Some(1));
    assert_eq!(days("[[local_code]]\nproduct = \"Pressed lime\"\ndays = 30\n"), own, "a milder one lifts nothing");
    assert_eq!(
        days("[[local_code]]\nproduct = \"Pressed lime\"\ntemperature = \"2 °C\"\n"),
        None,
        "colder than the fridge"
    );
}

#[test]
fn an_extract_of_nuts_brings_their_allergen_and_not_their_oil() {
    let judged = |part: &str| {
        let card = format!("name = \"Test\"\n[parts]\nvodka = \"700 ml\"\n\"white sugar\" = \"200 g\"\n{part}\n");
        Kitchen::unstated("").solve(&card, &Options::default()).dated(50)
    };
    let extract = judged("\"almond extract\" = \"10 ml\"");
    let nuts = judged("almonds = { amount = \"100 g\", strained = true }");
    assert!(extract.stores[0].days > nuts.stores[0].days, "{:?}", extract.stores[0].days);
    for of in [&extract, &nuts] {
        assert!(of.cautions.iter().any(|c| c.code == "allergen"));
    }
}

#[test]
fn salt_water_feeds_nothing_and_needs_no_acid() {
    let judged = Kitchen::unstated("")
        .solve(
            "name = \"Saline\"\nmakes = \"1 kg\"\n[parts]\nsalt = \"5 %\"\nwater = \"as needed\"\n[keep]\nclosed = true\n",
            &Options::default(),
        )
        .dated(50);
    let warm = judged.stores.iter().flat_map(|store| &store.cautions).filter(|c| c.code == "sealed_low_acid");
    assert_eq!(warm.count(), 0);
    assert!(judged.stores.iter().all(|store| store.refused.is_empty()));
}

#[test]
fn a_question_behind_a_part_leaves_no_date() {
    let kitchen = Kitchen::unstated("");
    let card = |remark: &str| format!("name = \"Test\"\n[parts]\nvodka = \"500 ml\"  # {remark}\nsugar = \"100 g\"\n");
    let open = |remark: &str| kitchen.solve(&card(remark), &Options::default()).dated(50);
    for remark in ["? \"with almonds\": is it this, or another thing?", "assumed: one bottle; ? is it strained out?"] {
        let judged = open(remark);
        assert_eq!(judged.unidentified.len(), 1, "{remark}");
        assert!(judged.stores.iter().all(|s| s.days.is_none() && s.date.is_none()), "{remark}");
    }
    for answered in ["assumed: one bottle", "! not known here: stillroom larder add \"vodka\"", "good?"] {
        assert!(open(answered).unidentified.is_empty(), "{answered}");
    }
}

#[test]
fn yeast_in_a_step_stands_until_somebody_says_that_it_does_not_ferment() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", "[stores]\nfridge = \"4 °C\"\nfreezer = \"-18 °C\"\n");
    let card = "name = \"Fizz\"\nsteps = [\"Add a pinch of yeast, leave three days, bottle and close.\"]\n[parts]\nwater = \"900 g\"\nsugar = \
                \"100 g\"\n\"citric acid\" = \"5 g\"\n[keep]\nclosed = true\nin = \"glass\"\n";
    let judged = kitchen.solve(card, &Options::default()).dated(50);
    assert!(judged.stopped() && judged.stores.iter().all(|s| s.days.is_none()), "{:?}", judged.cautions);
    let frozen: Vec<_> = judged.stores.iter().filter(|s| s.verdict.is_none()).collect();
    assert!(frozen.iter().all(|s| !s.refused.is_empty()), "{frozen:?}");
}

#[test]
fn a_dried_leaf_makes_no_dried_thing_of_a_syrup() {
    // the line of the moulds (water activity 0.70) is one of dried fruit, not of what a bay leaf was steeped in
    let kitchen = Kitchen::unstated("");
    let said = |leaf: &str| {
        let card = format!(
            "name = \"Syrup\"\n[parts]\n\"{leaf}\" = {{ amount = \"2 g\", strained = true }}\nwater = \"900 g\"\nsugar = \"600 g\"\n"
        );
        let judged = kitchen.solve(&card, &Options::default()).dated(50);
        judged.cautions.iter().any(|caution| caution.code == "dried_mould")
    };
    assert!(!said("bay leaves"));
    let wheels = "name = \"Wheels\"\nclass = \"dried fruit\"\n[parts]\n\"lime slices\" = \"100 g\"\n";
    let kitchen = Kitchen::unstated("[ingredient.\"lime slices\"]\nlike = \"lime\"\n");
    let judged = kitchen.solve(wheels, &Options::default()).dated(50);
    assert!(judged.cautions.iter().any(|caution| caution.code == "dried_mould"), "{:?}", judged.cautions);
}

#[test]
fn letters_that_nobody_sees_hide_no_danger() {
    for step in ["Infuse with yew needles.", "Infuse with y\u{ad}ew needles.", "Infuse with ye\u{200b}w needles."] {
        let card = format!("name = \"Test\"\nsteps = [\"{step}\"]\n[parts]\nvodka = \"500 ml\"\n");
        assert!(Kitchen::unstated("").solve(&card, &Options::default()).dated(50).stopped(), "{step:?}");
    }
}
