//! Cards with room: the best corner against an independent solver and against a grid of exact answers, every range on the
//! exact answer, the same answer every time, and what is said where there is none.

use proptest::prelude::*;
use stillroom::aim;
use stillroom::card::{self, Card, TargetKind};
use stillroom::diagnostic::{Code, Diagnostic, any_error};
use stillroom::house::House;
use stillroom::properties::value_of;
use stillroom::solver::simplex::{LinearRow, NoVertex, Sense, best};
use stillroom::solver::{BatchSize, Options, Solved, solve};
use stillroom::uncertainty::{find, of_headlines};
use stillroom::units::millilitres;

/// Prices by weight, so that a test can reckon what an answer costs by itself.
const PRICES: [(&str, f64); 4] =
    [("overproof rum 63 %", 40.0), ("white sugar", 1.2), ("honey", 9.0), ("citric acid", 7.0)];

fn house() -> House {
    let entry = |(name, price): &(&str, f64)| {
        format!(
            "[ingredient.{name:?}]\nlike = {name:?}\nfood = \"sold as food, label\"\nprice = \"{price:.2} GBP / 1 kg\"\n"
        )
    };
    let larder: String = PRICES.iter().map(entry).collect();
    House::from_texts([("house.toml", "[house]\nname = \"x\"\ncurrency = \"GBP\"\n"), ("larder.toml", larder.as_str())])
        .0
}

fn read(text: &str) -> Card {
    let (card, found) = card::read("card.toml".into(), text.into());
    assert!(!any_error(&found), "{text}\n{found:?}");
    card.unwrap()
}

/// What is chosen and solved, or why not.
fn made(text: &str, house: &House) -> Result<(Card, Solved), Vec<Diagnostic>> {
    let card = read(text);
    let mut found = Vec::new();
    let chosen = aim::chosen(&card, house, &Options::default(), &mut found).map(|made| made.card.into_owned());
    let Some(chosen) = chosen else { return Err(found) };
    let outcome = solve(&chosen, house, &Options::default());
    found.extend(outcome.diagnostics);
    match outcome.solved.filter(|_| !any_error(&found)) {
        Some(solved) => Ok((chosen, solved)),
        None => Err(found),
    }
}

/// What the parts of a card are called, in its order.
fn card_labels(text: &str) -> Vec<String> {
    read(text).last.parts.iter().map(|part| part.label.value.clone()).collect()
}

/// The grams of parts by their labels; nothing of what was left out.
fn grams_of(solved: &Solved, labels: &[String]) -> Vec<f64> {
    let of = |label: &String| solved.last().parts.iter().find(|part| part.label == *label);
    labels.iter().map(|label| of(label).map_or(0.0, |part| part.mass_g)).collect()
}

fn cost(solved: &Solved) -> f64 {
    let price = |of: &str| PRICES.iter().find(|(name, _)| *name == of).map_or(0.0, |(_, price)| price / 1000.0);
    solved.last().parts.iter().map(|part| part.mass_g * price(&part.label)).sum()
}

#[test]
fn small_programs_agree_with_highs() {
    let table = include_str!("../reference/linear-programs.csv");
    let (mut met, mut none) = (0, 0);
    for line in table.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let [cost, rows, least] = line.split(',').collect::<Vec<_>>()[..] else { panic!("{line}") };
        let number = |text: &str| text.parse::<f64>().unwrap();
        let cost: Vec<f64> = cost.split(' ').map(number).collect();
        let row = |text: &str| {
            let words: Vec<&str> = text.split(' ').collect();
            let sense = match words[cost.len()] {
                "=" => Sense::Equal,
                ">=" => Sense::AtLeast,
                _ => Sense::AtMost,
            };
            LinearRow {
                of: words[..cost.len()].iter().map(|x| number(x)).collect(),
                sense,
                right: number(words[cost.len() + 1]),
            }
        };
        let rows: Vec<LinearRow> = rows.split('|').map(row).collect();
        match best(&rows, std::slice::from_ref(&cost)) {
            Ok(corner) => {
                let sum: f64 = cost.iter().zip(&corner.x).map(|(c, x)| c * x).sum();
                assert!((sum - number(least)).abs() < 1e-7, "{sum} against {least}: {line}");
                met += 1;
            }
            Err(why) => {
                assert_eq!((why, least), (NoVertex::Infeasible, "infeasible"), "{line}");
                none += 1;
            }
        }
    }
    assert!(met > 30 && none > 10, "{met} {none}");
}

const LIQUEUR: &str = "name = \"Liqueur\"\nmakes = \"1 L\"\n[target]\nabv = \"18 to 20 %\"\nsugar = \"200 to 300 g/L\"\n\
    acid = \"4 g/L\"\n[parts]\n\"overproof rum 63 %\" = \"as needed\"\n\"white sugar\" = \"as needed\"\n\
    honey = { amount = \"as needed\", at_least = \"50 g\", at_most = \"150 g\" }\n\"citric acid\" = \"as needed\"\n\
    water = \"as needed\"\n[aim]\nleast = \"cost\"\n";

#[test]
fn the_cheapest_liqueur_is_the_weakest_with_the_least_honey() {
    let (card, solved) = made(LIQUEUR, &house()).unwrap();
    let is = |kind| value_of(kind, solved.bottled()).unwrap();
    // as far inside the range as the sheet says that the batch may be off, within a tenth of it
    let unsure = of_headlines(&solved, &house().settings.instruments);
    let margin =
        |kind| card.landed.as_ref().unwrap().ranges.iter().find(|l| l.range.kind == kind).unwrap().margin.unwrap();
    for (kind, end) in [(TargetKind::Abv, 18.0), (TargetKind::Sugar, 200.0)] {
        let half = find(&unsure, kind).unwrap().half_width;
        assert!((is(kind) - end - margin(kind)).abs() < 1e-5, "{} {}", is(kind), margin(kind));
        assert!((margin(kind) / half - 1.0).abs() < 0.1, "{} against {half}", margin(kind));
    }
    assert!((is(TargetKind::Acid) - 4.0).abs() < 1e-7);
    let of = |name: &str| solved.last().parts.iter().find(|part| part.label == name).unwrap();
    assert!((of("honey").mass_g - 50.0).abs() < 1e-9);
    assert!(solved.last().parts.iter().all(|part| part.solved));
    let landed = card.landed.unwrap();
    assert_eq!(landed.ranges.iter().map(|range| range.binds).collect::<Vec<_>>(), [[true, false]; 2]);
    assert_eq!(landed.parts[0].binds, [true, false]);
    // one point of strength more, solved by hand: the same card a point above where it landed
    let exact = |more: f64| {
        LIQUEUR
            .replace("\"18 to 20 %\"", &format!("{}", is(TargetKind::Abv) + more))
            .replace("\"200 to 300 g/L\"", &format!("\"{} g/L\"", is(TargetKind::Sugar)))
    };
    let (_, stronger) = made(&exact(1.0), &house()).unwrap();
    assert_eq!(landed.one_more[0].adds, format!("{:.2} GBP", cost(&stronger) - cost(&solved)));
}

#[test]
fn a_target_that_is_set_stands_in_the_place_of_its_range() {
    let card = read(LIQUEUR);
    let options = Options { set: vec![(TargetKind::Abv, 25.0)], ..Options::default() };
    let mut found = Vec::new();
    let house = house();
    let chosen = aim::chosen(&card, &house, &options, &mut found).unwrap();
    let outcome = solve(&chosen.card, &house, &options);
    assert!(!any_error(&outcome.diagnostics), "{:?}", outcome.diagnostics);
    assert!((value_of(TargetKind::Abv, outcome.solved.unwrap().bottled()).unwrap() - 25.0).abs() < 1e-7);
}

/// Neither is thrown away: of equal answers the cheaper one, wherever it stands on the card; of what costs the same that which
/// stands first.
#[test]
fn equal_answers_are_told_apart_by_their_price_and_by_the_card() {
    let card = |parts: [&str; 2]| {
        format!(
            "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 50\n[parts]\n{}\n{}\nwater = \"as needed\"\n[aim]\nleast = \"waste\"\n",
            parts[0], parts[1]
        )
    };
    let grams = |text: &str| grams_of(&made(text, &house()).unwrap().1, &card_labels(text));
    let sugar = "\"white sugar\" = { amount = \"as needed\", at_least = \"0 g\" }";
    let honey = "honey = { amount = \"as needed\", at_least = \"0 g\" }";
    for (place, parts) in [(0, [sugar, honey]), (1, [honey, sugar])] {
        let masses = grams(&card(parts));
        assert!(masses[place] > 100.0 && masses[1 - place] == 0.0, "{masses:?}");
        assert_eq!(masses, grams(&card(parts)));
    }
    let named =
        |label: &str| format!("{label} = {{ of = \"white sugar\", amount = \"as needed\", at_least = \"0 g\" }}");
    let masses = grams(&card([&named("one"), &named("other")]));
    assert!(masses[0] > 100.0 && masses[1] == 0.0, "{masses:?}");
}

/// The seeds of the fruit are thrown away whatever else is in it: what is left open takes the least that has to be bought, and so
/// the water of the card, priced or not.
#[test]
fn least_waste_does_not_run_dry() {
    let card = "name = \"Syrup\"\nmakes = \"2 L\"\n[target]\nbrix = \"at least 60\"\n[aim]\nleast = \"waste\"\n[parts]\n\
                raspberries = { amount = \"as needed\", at_least = \"500 g\", strained = true, holds = -0.5 }\n\
                \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
    for house in [house(), House::from_texts([]).0] {
        let (chosen, solved) = made(card, &house).unwrap();
        let brix = value_of(TargetKind::Brix, solved.bottled()).unwrap();
        assert!((60.0..62.0).contains(&brix), "{brix}");
        let range = &chosen.landed.as_ref().unwrap().ranges[0];
        assert!(range.is_tie && range.binds == [false, false], "{range:?}");
        assert!(chosen.landed.unwrap().one_more.is_empty());
    }
}

/// What is as good without a part that the card names is asked about, where the aim does not ask for none of it.
#[test]
fn a_tie_empties_no_part_that_the_card_names() {
    let card = |aim: &str, berries: &str| {
        format!(
            "name = \"Cordial\"\nmakes = \"1 L\"\n[target]\nbrix = \"50 to 55\"\n[aim]\n{aim}\n[parts]\n\
             \"lime juice\" = {{ amount = \"as needed\"{berries} }}\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n"
        )
    };
    let asked = refusal(&card("least = \"waste\"", ""));
    assert!(asked.code == Code::TooManyOpen && asked.title.contains("how much `lime juice` goes in"), "{asked:?}");
    assert!(asked.help.unwrap().contains("at_least = \"0 g\""));
    for (least, g) in [("0 g", 0.0), ("200 g", 200.0)] {
        let (_, solved) = made(&card("least = \"waste\"", &format!(", at_least = \"{least}\"")), &house()).unwrap();
        let part = solved.last().parts.iter().find(|part| part.label == "lime juice");
        assert!((part.map_or(0.0, |part| part.mass_g) - g).abs() < 1e-6);
    }
}

/// What an aim takes none of is not in the product: it brings no allergen, no juice, and its stage is not made.
#[test]
fn what_an_aim_leaves_out_is_not_in_it() {
    let card = "name = \"Liqueur\"\nmakes = \"1 L\"\n[target]\nabv = \"18 to 20 %\"\nsugar = \"200 to 300 g/L\"\n[aim]\nleast = \"cost\"\n\
                [[stage]]\nname = \"nut wash\"\n[stage.parts]\nalmonds = { amount = \"100 g\", strained = true }\nhoney = \"300 g\"\n\
                water = \"300 g\"\n[parts]\n\"overproof rum 63 %\" = \"as needed\"\n\"white sugar\" = \"as needed\"\n\
                \"nut wash\" = \"as needed\"\nwater = \"as needed\"\n";
    let house = House::from_texts([
        ("house.toml", "[house]\nname = \"x\"\ncurrency = \"GBP\"\n"),
        ("larder.toml", &PRICES.iter().map(|(name, price)| format!("[ingredient.{name:?}]\nlike = {name:?}\nallergens = []\nfood = \"sold as food, label\"\nprice = \"{price:.2} GBP / 1 kg\"\n")).chain(["[ingredient.almonds]\nlike = \"almonds\"\nprice = \"20 GBP / 1 kg\"\n".to_owned()]).collect::<String>()),
    ])
    .0;
    let (chosen, solved) = made(card, &house).unwrap();
    assert_eq!(chosen.landed.unwrap().without, ["nut wash"]);
    assert_eq!(solved.stages.len(), 1);
    assert!(solved.ingredients().iter().all(|(of, _)| !of.name.contains("lmond")), "{:?}", solved.ingredients());
    let draws = stillroom::shelf_life::Draws { draws: 10, ..Default::default() };
    let day = chrono::NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();
    let (judged, _) = stillroom::assessment::assess(&solved, &house, day, stillroom::assessment::Which::Planned, draws);
    assert!(judged.allergens.is_empty() && judged.allergens_open.is_empty(), "{:?}", judged.allergens);
    let mut found = Vec::new();
    aim::chosen(&read(card), &house, &Options::default(), &mut found).unwrap();
    assert!(found.iter().any(|d| d.code == Code::Unused && d.title.contains("nut wash")), "{found:?}");
}

/// Without an upper end there is as much sugar as the water holds in the store, and never a lump with no liquid.
#[test]
fn sugar_stays_dissolved() {
    let card = |target: &str, aim: &str| {
        format!(
            "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\n{target}\n[aim]\n{aim}\n[parts]\n\"white sugar\" = \"as needed\"\n\
             water = {{ amount = \"as needed\", at_least = \"0 g\" }}\n"
        )
    };
    let brix = |target: &str, aim: &str| {
        value_of(TargetKind::Brix, made(&card(target, aim), &house()).unwrap().1.bottled()).unwrap()
    };
    // a saturated syrup at 5 °C, by the equation that `sucrose_saturation` names
    let of_house = house();
    let fridge = of_house.settings.stores.iter().find(|store| store.name == "fridge").unwrap();
    let held = stillroom::mixture::solubility::sucrose_saturation(fridge.temperature).unwrap().value.get();
    assert!((brix("brix = \"at least 50\"", "most = \"life\"") - held).abs() < 0.05);
    assert!((50.0..50.5).contains(&brix("brix = \"at least 50\"", "least = \"cost\"")));
    assert!((49.0..49.5).contains(&brix("sugar = \"at least 600 g/L\"", "least = \"cost\"")));
}

/// The seeds of what is weighed in are thrown away as well as those of what is as needed.
#[test]
fn waste_counts_what_is_strained_out_of_all_parts() {
    let card = "name = \"Syrup\"\nmakes = \"2 L\"\n[target]\nbrix = \"at least 60\"\n[aim]\nleast = \"waste\"\n[parts]\n\
                raspberries = { amount = \"500 g\", strained = true, holds = -0.5 }\n\
                \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
    let (chosen, _) = made(card, &house()).unwrap();
    assert_eq!(chosen.landed.unwrap().comes_to.unwrap(), "250.0 g");
}

/// What the aim comes to is of the batch that was asked for: five times as much as of the card's own.
#[test]
fn the_aim_comes_to_what_the_batch_asked_for_does() {
    let (card, house) = (read(LIQUEUR), house());
    let landed = |litres: f64| {
        let size = Some(BatchSize::Makes(card::Makes::Volume(millilitres(1000.0 * litres))));
        let options = Options { size, ..Options::default() };
        let chosen = aim::chosen(&card, &house, &options, &mut Vec::new()).unwrap().card.into_owned();
        let total = cost(&solve(&chosen, &house, &options).solved.unwrap());
        (chosen.landed.unwrap(), total)
    };
    for litres in [1.0, 5.0] {
        let (landed, total) = landed(litres);
        let said = landed.comes_to.unwrap();
        let amount: f64 = said.split(' ').next().unwrap().replace(',', "").parse().unwrap();
        assert!((amount - total).abs() < 0.006, "{said} against {total}");
    }
}

/// The acid has no room inside its range, for there is no more of what brings it; the Brix has, and keeps its margin.
#[test]
fn one_range_without_room_takes_none_from_the_others() {
    let card = "name = \"Cordial\"\nmakes = \"2 L\"\n[target]\nbrix = \"40 to 45\"\nacid = \"20 to 25 g/L\"\n[aim]\nleast = \"cost\"\n\
                [parts]\n\"lemon juice\" = \"650 ml\"\n\"white sugar\" = \"as needed\"\n\
                \"citric acid\" = { amount = \"as needed\", at_most = \"10 g\" }\nwater = \"as needed\"\n";
    let (chosen, _) = made(card, &house()).unwrap();
    let [brix, acid] = &chosen.landed.unwrap().ranges[..] else { panic!() };
    assert!(brix.binds[0] && brix.margin.is_some_and(|margin| margin > 0.1), "{brix:?}");
    assert!(acid.margin.is_none_or(|margin| margin < 3.0), "{acid:?}");
}

fn refusal(text: &str) -> Diagnostic {
    made(text, &house())
        .unwrap_err()
        .into_iter()
        .find(|d| d.severity == stillroom::diagnostic::Severity::Error)
        .unwrap()
}

#[test]
fn what_cannot_be_had_says_what_to_give_up() {
    let weak = LIQUEUR.replace(
        "\"overproof rum 63 %\" = \"as needed\"",
        "\"overproof rum 63 %\" = { amount = \"as needed\", at_most = \"100 g\" }",
    );
    let said = refusal(&weak);
    assert_eq!(said.code, Code::OutOfReach);
    // 100 g of rum of 63 % (0.902 g/ml) bring 69.8 ml of alcohol into the litre
    assert!(said.help.as_ref().unwrap().starts_with("give up 11.0 points of abv"), "{said:?}");
    // it names the bound that is in the way, and what would do: 18 % of 1 L ask for 257.7 g
    assert!(said.help.as_ref().unwrap().contains("or write at_most = \"258 g\" for `overproof rum 63 %`"), "{said:?}");
    let enough = weak.replace("\"100 g\"", "\"258 g\"");
    assert!(made(&enough, &house()).is_ok(), "what it names is enough");
    assert!(made(&weak.replace("\"100 g\"", "\"257 g\""), &house()).is_err(), "and no less is");
    let unpriced = LIQUEUR.replace("water = ", "\"agave syrup\" = \"as needed\"\nwater = ");
    let said = refusal(&unpriced);
    assert!(said.code == Code::NoPrice && said.title.contains("Agave"), "{said:?}");
    let aimless = LIQUEUR.replace("[aim]\nleast = \"cost\"\n", "");
    let said = refusal(&aimless);
    assert!(said.code == Code::TooManyOpen && said.help.as_ref().unwrap().contains("[aim]"), "{said:?}");
}

/// The longest life of a syrup between two sweetnesses is that of the sweeter.
#[test]
fn the_longest_life_is_found_by_dating() {
    let card = "name = \"Syrup\"\nmakes = \"1 L\"\n[target]\nbrix = \"50 to 66\"\n[parts]\n\"white sugar\" = \"as needed\"\n\
                water = \"as needed\"\n[aim]\nmost = \"life\"\n";
    let (card, solved) = made(card, &house()).unwrap();
    let margin = card.landed.unwrap().ranges[0].margin.unwrap();
    assert!((value_of(TargetKind::Brix, solved.bottled()).unwrap() - (66.0 - margin)).abs() < 1e-7);
    assert!((0.02..2.0).contains(&margin), "{margin}");
}

/// Each end of a range is moved inward, never beyond its middle; where there is one end alone, by all of the margin.
#[test]
fn an_end_moves_inward_and_never_beyond_the_middle() {
    let abv = |range: &str| {
        let (card, solved) = made(&LIQUEUR.replace("18 to 20 %", range), &house()).unwrap();
        let margin = card.landed.unwrap().ranges.iter().find(|l| l.range.kind == TargetKind::Abv).unwrap().margin;
        (value_of(TargetKind::Abv, solved.bottled()).unwrap(), margin.unwrap_or(0.0))
    };
    let near = |a: f64, b: f64| (a - b).abs() < 1e-5;
    for range in ["18 to 20 %", "at least 18 %"] {
        let (is, margin) = abv(range);
        assert!(margin > 0.01 && near(is, 18.0 + margin), "{range}: {is} {margin}");
    }
    let (middle, _) = abv("18 to 18.002 %");
    assert!(near(middle, 18.001), "{middle}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every range and bound is kept on the exact answer, its mass closes, and no exact answer of a grid inside the room
    /// costs less.
    #[test]
    fn nothing_inside_the_room_is_cheaper(
        abv in 10.0..25.0_f64, wide in 0.5..6.0_f64, sugar in 100.0..300.0_f64, room in 10.0..150.0_f64, honey in 0.0..150.0_f64,
    ) {
        let house = house();
        let range = |low: f64, high: f64, unit: &str| format!("\"{low:.2} to {high:.2}{unit}\"");
        let text = LIQUEUR
            .replace("\"18 to 20 %\"", &range(abv, abv + wide, " %"))
            .replace("\"200 to 300 g/L\"", &range(sugar, sugar + room, " g/L"))
            .replace("\"50 g\"", &format!("\"{honey:.1} g\""));
        let (card, solved) = made(&text, &house).map_err(|why| TestCaseError::fail(format!("{why:?}\n{text}")))?;
        for range in &card.ranges {
            let value = value_of(range.kind, solved.bottled()).unwrap();
            prop_assert!(value >= range.least.unwrap() - 1e-6 && value <= range.most.unwrap() + 1e-6);
        }
        let parts: f64 = solved.last().parts.iter().map(|part| part.mass_g).sum();
        prop_assert!((parts - solved.bottled().total_grams()).abs() < 1e-9 * parts);
        let least = cost(&solved);
        let margin = |n: usize| card.landed.as_ref().unwrap().ranges[n].margin.unwrap_or(0.0);
        // not below where a batch may be beyond the end
        let (abv, wide) = (abv + margin(0), wide - margin(0));
        let (sugar, room) = (sugar + margin(1), room - margin(1));
        for step in 0..27 {
            let at = |n: u32, low: f64, high: f64| low + (high - low) * f64::from(step / 3_u32.pow(n) % 3) / 2.0;
            let exact = LIQUEUR
                .replace("\"18 to 20 %\"", &format!("{}", at(0, abv, abv + wide)))
                .replace("\"200 to 300 g/L\"", &format!("\"{} g/L\"", at(1, sugar, sugar + room)))
                .replace("{ amount = \"as needed\", at_least = \"50 g\", at_most = \"150 g\" }", &format!("\"{} g\"", at(2, honey, 150.0)))
                .replace("[aim]\nleast = \"cost\"\n", "");
            if let Ok((_, other)) = made(&exact, &house) {
                prop_assert!(cost(&other) >= least - 1e-2, "{} is cheaper than {least}: {exact}", cost(&other));
            }
        }
    }
}

const SYRUP_WITH_ROOM: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = \"48 to 52\"\n[parts]\n\
    \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[aim]\nleast = \"cost\"\n";

/// A house of these cards, with prices.
fn of_houseof(cards: &[(&str, &str)]) -> House {
    let entry = |(name, price): &(&str, f64)| {
        format!("[ingredient.{name:?}]\nlike = {name:?}\nprice = \"{price} GBP / 1 kg\"\n")
    };
    let larder: String = PRICES.iter().map(entry).collect();
    let of_house = [("house.toml", "[house]\nname = \"x\"\ncurrency = \"GBP\"\n"), ("larder.toml", larder.as_str())];
    House::from_texts(of_house.into_iter().chain(cards.iter().copied())).0
}

/// A card with room goes into others as it is chosen alone, at any depth; the outer card is then solved like any.
#[test]
fn a_card_with_room_goes_in_as_its_aim_chooses_it() {
    let middle = "name = \"Middle\"\nmakes = \"1 L\"\n[parts]\n\"House syrup\" = \"500 g\"\nwater = \"as needed\"\n";
    let outer =
        "name = \"Drink\"\nhow = \"built\"\nwater = \"10 g\"\n[parts]\nMiddle = \"50 g\"\n\"House syrup\" = \"20 g\"\n";
    let house = of_houseof(&[("syrup.toml", SYRUP_WITH_ROOM), ("middle.toml", middle)]);
    let (alone, syrup) = made(SYRUP_WITH_ROOM, &house).unwrap();
    let card = read(outer);
    let mut found = Vec::new();
    let made = aim::chosen(&card, &house, &Options::default(), &mut found).unwrap();
    let notes: Vec<_> =
        found.iter().filter(|d| d.title.starts_with("`House syrup` goes in as its aim chooses it")).collect();
    assert_eq!(notes.len(), 1, "{found:?}");
    let solved = solve(&made.card, &made.house, &Options::default()).solved.unwrap();
    let inside = &solved.inner.iter().find(|inner| inner.card.name == "House syrup").unwrap().card;
    let brix = |liquid| value_of(TargetKind::Brix, liquid).unwrap();
    assert!((brix(inside.bottled()) - brix(syrup.bottled())).abs() < 1e-9);
    assert!((brix(inside.bottled()) - 48.0 - alone.landed.unwrap().ranges[0].margin.unwrap()).abs() < 1e-6);
}

#[test]
fn without_an_aim_a_card_that_goes_in_asks_for_one() {
    let outer = read("name = \"Drink\"\nhow = \"built\"\nwater = \"10 g\"\n[parts]\n\"House syrup\" = \"20 g\"\n");
    let aimless = SYRUP_WITH_ROOM.replace("[aim]\nleast = \"cost\"\n", "");
    let house = of_houseof(&[("syrup.toml", &aimless)]);
    let made = aim::chosen(&outer, &house, &Options::default(), &mut Vec::new()).unwrap();
    let found = solve(&made.card, &made.house, &Options::default()).diagnostics;
    let said = found.iter().find(|d| d.code == Code::TooManyOpen).unwrap();
    assert!(said.help.as_ref().unwrap().ends_with("\n[aim]\nleast = \"cost\""), "{said:?}");
    // an aim that counts what has no price is asked of the card that has it
    let unpriced = SYRUP_WITH_ROOM.replace("white sugar", "agave syrup").replace("48 to 52", "30 to 40");
    let house = of_houseof(&[("syrup.toml", &unpriced)]);
    let mut found = Vec::new();
    assert!(aim::chosen(&outer, &house, &Options::default(), &mut found).is_none());
    assert!(found.iter().any(|d| d.code == Code::NoPrice && d.file.as_deref() == Some("syrup.toml")), "{found:?}");
}

/// What may be none and is none is in no bottle: it brings no allergen, and the answer says that it goes without.
#[test]
fn a_least_of_none_leaves_a_part_out() {
    let card = "name = \"Mix\"\nmakes = \"1 L\"\n[target]\nbrix = \"20 to 22\"\n[parts]\n\"white sugar\" = \"as needed\"\n\
                hazelnut = { amount = \"as needed\", at_least = \"0 g\" }\nwater = \"as needed\"\n[aim]\nleast = \"waste\"\n";
    let (chosen, solved) = made(card, &house()).unwrap();
    let landed = chosen.landed.as_ref().unwrap();
    assert_eq!(landed.without, ["hazelnut"]);
    assert!(landed.parts.is_empty(), "{landed:?}");
    assert!(solved.last().parts.iter().all(|part| part.label != "hazelnut"), "{solved:?}");
}

/// Of two syrups that do alike that one goes in of which a lot ends soon, and the lot is named.
#[test]
fn the_least_waste_uses_up_what_ends_soon() {
    let inner = |name: &str| {
        format!("name = {name:?}\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"as needed\"\n")
    };
    let mut house = of_houseof(&[("one.toml", &inner("One syrup")), ("other.toml", &inner("Other syrup"))]);
    let card = "name = \"Mix\"\nmakes = \"1 L\"\n[target]\nbrix = \"20 to 22\"\n[parts]\n\"One syrup\" = { amount = \"as needed\", at_least = \"0 g\" }\n\
                \"Other syrup\" = { amount = \"as needed\", at_least = \"0 g\" }\nwater = \"as needed\"\n[aim]\nleast = \"waste\"\n";
    let grams = |house: &House| grams_of(&made(card, house).unwrap().1, &card_labels(card));
    let before = grams(&house);
    assert!(before[0] > 100.0 && before[1] == 0.0, "{before:?}");
    house.of_book.saw_ending("Other syrup", "B7", chrono::NaiveDate::from_ymd_opt(2026, 12, 1).unwrap());
    let after = grams(&house);
    assert!(after[0] == 0.0 && after[1] >= before[0] - 1e-6, "{after:?}");
    let landed = made(card, &house).unwrap().0.landed.unwrap();
    assert_eq!(landed.use_up, ["Other syrup, lot B7, ends Tue 1 Dec 2026"]);
    assert_eq!(landed.comes_to.unwrap(), "0.0 g");
}
