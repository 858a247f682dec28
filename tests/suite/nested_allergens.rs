//! Forty allergens two cards deep: none is missed, and the text says what the JSON says. What each name brings is that of
//! Regulation (EU) No 1169/2011, Annex II.

use serde_json::Value;

use crate::kitchen::{DAY, FULL, Kitchen};
use stillroom::assessment::{Which, assess};
use stillroom::render::text;
use stillroom::report::Report;
use stillroom::report::date::DateView;
use stillroom::report::solve::SolveView;
use stillroom::shelf_life::Draws;
use stillroom::solver::Options;
use stillroom::units::celsius;

/// A name as a bar writes it, and the word of the list that it stands under.
const CARRIERS: [(&str, &str); 20] = [
    ("almonds", "almond"),
    ("toasted hazelnuts", "hazelnut"),
    ("walnuts", "walnut"),
    ("cashew nuts", "cashew"),
    ("pecans", "pecan"),
    ("pistachios", "pistachio"),
    ("macadamia nuts", "macadamia"),
    ("roasted peanuts", "peanut"),
    ("sesame seeds", "sesame"),
    ("whole milk", "milk"),
    ("double cream", "milk"),
    ("unsalted butter", "milk"),
    ("egg white", "egg"),
    ("egg yolks", "egg"),
    ("soy sauce", "soy"),
    ("wheat beer", "gluten_cereals"),
    ("malted barley", "gluten_cereals"),
    ("celery seed", "celery"),
    ("mustard seeds", "mustard"),
    ("fish sauce", "fish"),
];

/// The innermost card, the card that it goes into, and the drink: strained out on its way or not.
fn cards(name: &str, strained: bool) -> [String; 3] {
    let part = format!("{{ amount = \"40 g\", strained = {strained}{} }}", if strained { ", holds = 0.5" } else { "" });
    let card = |name: &str, parts: &str| format!("name = \"{name}\"\n[parts]\n{parts}");
    [
        card("The base", &format!("\"white sugar\" = \"400 g\"\nwater = \"600 g\"\n\"{name}\" = {part}\n")),
        card("The mix", "\"The base\" = \"300 g\"\n\"white rum 40 %\" = \"500 ml\"\n"),
        card("The drink", "\"The mix\" = \"60 ml\"\nwater = \"30 ml\"\n"),
    ]
}

#[test]
fn no_allergen_is_lost_on_its_way_into_a_drink() {
    for (name, allergen) in CARRIERS {
        for strained in [true, false] {
            let larder =
                format!("[ingredient.\"{name}\"]\nper_100g = {{ water = 40, insoluble = 60 }}\nform = \"solid\"\n");
            let kitchen = Kitchen::new(&larder);
            let [base, mix, drink] = cards(name, strained);
            kitchen.write("base.toml", &base);
            kitchen.write("mix.toml", &mix);
            let made = kitchen.solve(&drink, &Options::default());
            let solved = made.solved();
            let (judged, _) = assess(solved, &made.house, DAY, Which::All, Draws { draws: 20, ..Draws::default() });
            assert!(judged.allergens.iter().any(|a| a.contains(allergen)), "{name}: {:?}", judged.allergens);

            let date = Report::new(Some(DateView::new(&judged)), &[], |_| None);
            let (view, _) = SolveView::new(made.card.as_ref().unwrap(), solved, &made.house, None, celsius(20.0), DAY);
            let solve = Report::new(Some(view), &[], |_| None);
            for (printed, json) in [(text::date(&date, FULL), date.json()), (text::solve(&solve, FULL), solve.json())] {
                let json: Value = serde_json::from_str(&json).unwrap();
                let listed: Vec<&str> =
                    json["allergens"].as_array().unwrap().iter().map(|a| a.as_str().unwrap()).collect();
                assert_eq!(listed, judged.allergens, "{name}");
                let line = printed.lines().find(|line| line.to_lowercase().contains("allergens: ")).unwrap();
                // the kinds of a group stand together in its brackets
                for one in &listed {
                    let words = one.replace('_', " ");
                    let (group, kind) = words.trim_end_matches(')').split_once(" (").unwrap_or((&words, ""));
                    let said = line.split(group).nth(1).unwrap_or_else(|| panic!("{name}: {line}"));
                    assert!(said.split(')').next().unwrap().contains(kind), "{name}: {line}");
                }
            }
        }
    }
}
