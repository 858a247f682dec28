//! The uncertainty of a batch: first-order budgets against derivatives, against a Monte Carlo, and against common sense.

use std::path::Path;

use stillroom::house::Instruments;
use stillroom::properties::value_of;
use stillroom::properties::{TargetKind, headlines};
use stillroom::solver::{Options, Solved};
use stillroom::uncertainty::{self, Cause, Uncertainty, spread};
use stillroom::units::grams;

use crate::kitchen::{Kitchen, close, made, run_in};

/// Cards of the demo house of every kind: by weight, with juice, with a spirit, strained, with another card inside.
const CARDS: [&str; 7] = [
    "almond-syrup",
    "plain-syrup",
    "lime-cordial",
    "lime-and-clove-liqueur",
    "spiced-orange-liqueur",
    "raspberry-syrup",
    "split-lime-juice",
];

fn demo(card: &str) -> (Solved, Instruments) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas").join(card).with_extension("toml");
    let made = made(&path, &Options::default());
    (made.solved().clone(), made.house.settings.instruments)
}

fn own_equations(uncertainty: &Uncertainty) -> f64 {
    uncertainty.shares.iter().find(|s| s.cause.is_none()).map_or(0.0, |s| s.half_width)
}

#[test]
fn a_contribution_is_the_slope_times_the_half_width() {
    let mut checked = 0;
    for card in CARDS {
        let (solved, instruments) = demo(card);
        let inputs = spread::inputs(&solved, &instruments);
        for uncertainty in uncertainty::of_headlines(&solved, &instruments) {
            for share in uncertainty.shares.iter().filter(|s| s.cause.is_some()) {
                let input = inputs.iter().find(|i| i.what == share.what && Some(i.cause) == share.cause).unwrap();
                let at = |side| value_of(uncertainty.kind, &input.run(&solved, side)).unwrap();
                let slope = (at(0.5) - at(-0.5)).abs();
                assert!(
                    (slope / share.half_width - 1.0).abs() < 0.01,
                    "{card} {}: {slope} {share:?}",
                    uncertainty.kind.key()
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 60, "{checked}");
}

/// A fixed sequence of numbers from the standard normal distribution (splitmix64, Box and Muller).
struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn draw(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// Every input drawn at once, each normally with its half-width / 1.96, and the card run forward: half of the range that
/// holds 95 % of what comes out.
#[test]
fn the_first_order_agrees_with_a_monte_carlo() {
    const DRAWS: usize = 6000;
    for card in CARDS {
        let (solved, instruments) = demo(card);
        let inputs = spread::inputs(&solved, &instruments);
        let mut normal = Normal(20261125);
        let mut found: Vec<Vec<f64>> = headlines().map(|_| Vec::with_capacity(DRAWS)).collect();
        for _ in 0..DRAWS {
            let off = inputs.iter().map(|input| (input, normal.draw() / 1.96));
            let liquid = spread::run(&solved, off);
            for ((kind, _), values) in headlines().zip(&mut found) {
                values.push(value_of(kind, &liquid).unwrap());
            }
        }
        for ((kind, _), values) in headlines().zip(&mut found) {
            let Some(uncertainty) = uncertainty::find(&uncertainty::of_headlines(&solved, &instruments), kind).cloned()
            else {
                continue;
            };
            values.sort_by(f64::total_cmp);
            let drawn = 0.5 * (values[DRAWS * 975 / 1000] - values[DRAWS * 25 / 1000]);
            let first_order = (uncertainty.half_width.powi(2) - own_equations(&uncertainty).powi(2)).sqrt();
            println!("{card} {}: drawn {drawn:.4}, first order {first_order:.4}", kind.key());
            assert!((drawn / first_order - 1.0).abs() < 0.05, "{card} {}: {drawn} {first_order}", kind.key());
        }
    }
}

fn of_scale(uncertainty: &Uncertainty) -> f64 {
    uncertainty.half_width.hypot(0.0).powi(2) - uncertainty.without(Cause::Scale).powi(2)
}

#[test]
fn doubt_grows_with_the_step_of_the_scale() {
    let kitchen = Kitchen::new("");
    let made = kitchen.makes("name = \"S\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n");
    let with = |step: f64| {
        let mut instruments = made.house.settings.instruments;
        instruments.scale.step = grams(step);
        uncertainty::find(&uncertainty::of_headlines(made.solved(), &instruments), TargetKind::Brix).cloned().unwrap()
    };
    close((of_scale(&with(2.0)) / of_scale(&with(1.0))).sqrt(), 2.0, 0.01);
    close((of_scale(&with(20.0)) / of_scale(&with(10.0))).sqrt(), 2.0, 0.01);
    assert!(with(2.0).half_width > with(1.0).half_width);
}

const HONEY: &str = "[ingredient.\"read honey\"]\nlike = \"honey\"\nbrix = 81.5\n";

#[test]
fn doubt_grows_with_the_step_of_the_refractometer_where_the_house_read_and_only_there() {
    let kitchen = Kitchen::new(HONEY);
    let with = |name: &str, step: f64| {
        let made = kitchen.makes(&format!(
            "name = \"S\"\nmakes = \"1 L\"\n[parts]\n\"{name}\" = \"3 parts by weight\"\nwater = \"1 part by weight\"\n"
        ));
        let mut instruments = made.house.settings.instruments;
        instruments.refractometer_brix = step;
        let brix = uncertainty::find(&uncertainty::of_headlines(made.solved(), &instruments), TargetKind::Brix)
            .cloned()
            .unwrap();
        brix.shares.iter().find(|s| s.cause == Some(Cause::Composition)).unwrap().half_width
    };
    close(with("read honey", 0.2), 0.15, 0.001);
    close(with("read honey", 0.4) / with("read honey", 0.2), 2.0, 1e-6);
    close(with("honey", 0.4), with("honey", 0.2), 0.0);
    assert!(with("honey", 0.2) > 10.0 * with("read honey", 0.2));
}

#[test]
fn a_cup_spoils_a_syrup_and_the_scale_mends_it() {
    let kitchen = Kitchen::new("");
    let made = kitchen.makes("name = \"S\"\n[parts]\n\"white sugar\" = \"2 US cups\"\nwater = \"400 g\"\n");
    let instruments = &made.house.settings.instruments;
    let brix =
        uncertainty::find(&uncertainty::of_headlines(made.solved(), instruments), TargetKind::Brix).cloned().unwrap();
    let most = &brix.shares[0];
    assert_eq!(
        (most.what.as_str(), most.remedy),
        ("measuring white sugar by volume, as the card writes it", "weigh it, as the sheet does")
    );
    assert!(most.of_variance > 0.75, "{most:?}");
    let better = uncertainty::better(made.solved(), instruments, &brix).unwrap();
    assert_eq!(better.with, "weighing it");
    // As good as the card that weighs it.
    let g = made.grams("white sugar");
    let weighed = kitchen.makes(&format!("name = \"S\"\n[parts]\n\"white sugar\" = \"{g} g\"\nwater = \"400 g\"\n"));
    let of_weighed = uncertainty::find(&uncertainty::of_headlines(weighed.solved(), instruments), TargetKind::Brix)
        .cloned()
        .unwrap();
    close(better.half_width, of_weighed.half_width, 1e-3 * brix.half_width);
    let text = made.text().split_whitespace().collect::<Vec<_>>().join(" ");
    let then = (10.0 * better.half_width - 1e-9).ceil() / 10.0;
    let said = format!("by volume, as the card writes it; weigh it, as the sheet does: then ± {then:.1}");
    assert!(text.contains(&said), "{said}\n{text}");
}

#[test]
fn a_finer_scale_buys_what_is_said() {
    let kitchen = Kitchen::new("[ingredient.\"pure sucrose\"]\nper_100g = { sucrose = 100.0 }\n");
    let mut made = kitchen.makes("name = \"S\"\nmakes = \"100 g\"\n[parts]\n\"pure sucrose\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n");
    made.house.settings.instruments.scale.step = grams(1.0);
    let instruments = &made.house.settings.instruments;
    let brix =
        uncertainty::find(&uncertainty::of_headlines(made.solved(), instruments), TargetKind::Brix).cloned().unwrap();
    let better = uncertainty::better(made.solved(), instruments, &brix).unwrap();
    assert_eq!(better.with, "a 0.1 g scale");
    // 50 g ± 1 g on either side: 50 * 50 / 100 of each percent.
    close(brix.half_width, 0.5_f64.hypot(0.5), 0.001);
    close(better.half_width, 0.1 * brix.half_width, 0.001);
}

#[test]
fn what_is_so_by_definition_is_not_in_doubt() {
    let kitchen = Kitchen::new("");
    let made =
        kitchen.makes("name = \"S\"\nmakes = \"1 L\"\n[parts]\n\"citric acid\" = \"60 g/L\"\nwater = \"as needed\"\n");
    let of = |what: &str| {
        spread::inputs(made.solved(), &made.house.settings.instruments).iter().any(|i| i.what.contains(what))
    };
    assert!(of("weighing citric acid") && of("weighing water"));
    assert!(!of("made of") && !of("the acid of"));
}

#[test]
fn the_order_of_parts_does_not_matter() {
    let parts =
        ["\"lime juice\" = \"300 g\"", "\"white sugar\" = \"400 g\"", "honey = \"100 g\"", "brandy = \"200 ml\""];
    let kitchen = Kitchen::new("[ingredient.brandy]\nabv = 40\n");
    let of = |order: [usize; 4]| {
        let lines: Vec<&str> = order.iter().map(|&i| parts[i]).collect();
        let made = kitchen.makes(&format!("name = \"S\"\n[parts]\n{}\n", lines.join("\n")));
        let all = uncertainty::of_headlines(made.solved(), &made.house.settings.instruments);
        all.iter().map(|d| d.half_width).collect::<Vec<_>>()
    };
    let first = of([0, 1, 2, 3]);
    assert_eq!(first.len(), 4);
    for order in [[3, 2, 1, 0], [1, 3, 0, 2], [2, 0, 3, 1]] {
        for (a, b) in first.iter().zip(of(order)) {
            close(*a, b, 1e-9);
        }
    }
}

#[test]
fn one_ingredient_is_one_input_wherever_it_stands() {
    let kitchen = Kitchen::new("");
    kitchen.write(
        "inner.toml",
        "name = \"Inner\"\nmakes = \"1 L\"\n[parts]\nhoney = \"3 parts by weight\"\nwater = \"1 part by weight\"\n",
    );
    let made = kitchen.makes("name = \"S\"\n[parts]\nhoney = \"300 g\"\nInner = \"400 g\"\nwater = \"50 g\"\n");
    let inputs = spread::inputs(made.solved(), &made.house.settings.instruments);
    assert_eq!(inputs.iter().filter(|i| i.what.contains("is made of") && i.what.contains("oney")).count(), 1);
    // As if all of the honey stood on the card: 600 g in 750 g.
    let plain = kitchen.makes("name = \"P\"\n[parts]\nhoney = \"600 g\"\nwater = \"150 g\"\n");
    let of = |made: &crate::kitchen::Made| {
        let all = uncertainty::of_headlines(made.solved(), &made.house.settings.instruments);
        let brix = uncertainty::find(&all, TargetKind::Brix).unwrap().clone();
        brix.shares.iter().find(|s| s.cause == Some(Cause::Composition)).unwrap().half_width
    };
    close(of(&made), of(&plain), 1e-6);
}

#[test]
fn what_a_strained_spice_keeps_is_missing_later() {
    let (solved, instruments) = demo("lime-and-clove-liqueur");
    let inputs = spread::inputs(&solved, &instruments);
    let keeps = inputs.iter().find(|i| i.cause == Cause::Holds).expect("clove and zest hold spirit back");
    let abv = |side| value_of(TargetKind::Abv, &keeps.run(&solved, side)).unwrap();
    assert!(abv(1.0) < abv(0.0) && abv(0.0) < abv(-1.0));
    close(abv(0.0), value_of(TargetKind::Abv, solved.bottled()).unwrap(), 1e-9);
}

/// Every "12.3 ± 0.4" of a sheet is no smaller than what was computed.
#[test]
fn a_printed_half_width_is_never_smaller_than_the_computed_one() {
    for card in CARDS {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas").join(card).with_extension("toml");
        let made = made(&path, &Options::default());
        let text = made.text();
        for doubt in made.sheet().doubt {
            let name = match doubt.kind {
                TargetKind::Brix => "  Brix ",
                TargetKind::Abv => "  ABV ",
                TargetKind::Sugar => "  sugar ",
                TargetKind::Acid => "  acid ",
                TargetKind::Ph => continue,
            };
            let Some(line) = text.lines().find(|l| l.starts_with(name) && l.contains('±')) else { continue };
            let printed = line.split('±').nth(1).unwrap().split_whitespace().next().unwrap().replace(',', "");
            let printed: f64 = printed.parse().unwrap();
            let unit = if printed.fract() == 0.0 && doubt.kind == TargetKind::Sugar { 1.0 } else { 0.1 };
            assert!(
                printed >= doubt.half_width - 1e-9 && printed < doubt.half_width + unit,
                "{card}: {line} {doubt:?}"
            );
        }
    }
}

const RUM: &str = "[ingredient.rum]\nabv = 63\n";

fn label_lines(card: &str) -> Vec<String> {
    let text = Kitchen::new(RUM).makes(card).text();
    let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
    joined.match_indices("label tolerance").map(|(at, _)| joined[at..].chars().take(170).collect()).collect()
}

#[test]
fn a_strength_is_held_against_the_tolerance_of_a_label() {
    let card = |rum: &str, water: &str| format!("name = \"S\"\n[parts]\nrum = \"{rum}\"\nwater = \"{water}\"\n");
    let weighed = label_lines(&card("400 g", "600 g"));
    assert_eq!(weighed.len(), 1, "{weighed:?}");
    assert!(weighed[0].contains("0.3 points (US/UK/EU): the doubt is within it, if the label strength"), "{weighed:?}");
    let poured = label_lines(&card("400 ml", "600 g"));
    assert!(poured[0].contains("the doubt is larger: not good enough for a label"), "{poured:?}");
    // A neat spirit is as sure as its label, and the equations come on top.
    let neat = label_lines(&card("1000 g", "1 g"));
    assert!(neat[0].contains("only if the label strength of the spirit is exact"), "{neat:?}");
    assert!(label_lines(&card("10 g", "990 g")).is_empty(), "below 1.2 % no label states it");
}

#[test]
fn a_bottle_with_plants_in_it_has_the_wide_tolerance() {
    let steeped = label_lines("name = \"S\"\n[parts]\nrum = \"800 g\"\n\"lime zest\" = \"200 g\"\n");
    assert!(steeped.iter().any(|l| l.contains("1.5 points (UK/EU)")), "{steeped:?}");
    assert!(steeped.iter().any(|l| l.contains("0.3 points (US)")), "{steeped:?}");
}

fn explain(arguments: &[&str]) -> (Option<i32>, String, String) {
    run_in(Path::new("."), &[&["explain"], arguments].concat())
}

#[test]
fn explain_tells_the_budget_of_a_card() {
    let (code, out, err) = explain(&["brix", "--of", "formulas/lime-cordial.toml"]);
    assert_eq!(code, Some(0), "{err}");
    for said in [
        "Lime cordial: Brix 46.00 ±",
        "the acid of lime juice",
        "titrate what you have",
        "a titration of it would make it ±",
        " g of dissolved solids in 1,2",
        "<- dissolved non-volatile solids/mass",
        "holds for 0 to 100; stated error",
    ] {
        assert!(out.contains(said), "{said}\n{out}");
    }
    for (kind, unit) in [("abv", "% vol"), ("sugar", "g/L")] {
        let (_, out, _) = explain(&[kind, "--of", "formulas/spiced-orange-liqueur.toml"]);
        assert!(out.contains(unit) && out.contains("Where it comes from"), "{out}");
    }
    let (code, _, err) = explain(&["viscosity", "--of", "formulas/lime-cordial.toml"]);
    assert!(code == Some(2) && err.contains("ask for one of brix, abv, sugar, acid"), "{code:?} {err}");
    let (code, out, err) = explain(&["abv", "--of", "formulas/lime-cordial.toml"]);
    assert!(code == Some(0) && out.is_empty() && err.contains("has no abv that can be given"), "{code:?} {out} {err}");
}

#[test]
fn the_budget_for_programs_adds_up() {
    let (_, out, _) = explain(&["acid", "--of", "formulas/lime-cordial.toml", "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!((json["formula"].as_str(), json["property"].as_str()), (Some("Lime cordial"), Some("acid_g_l")));
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    close(number(&json["amount"]) / number(&json["whole"]) * 1000.0, number(&json["value"]), 1e-6);
    let budget = json["doubt"]["budget"].as_array().unwrap();
    let squares: f64 = budget.iter().map(|s| number(&s["half_width"]).powi(2)).sum();
    let half_width = number(&json["doubt"]["half_width"]);
    // What is too small to be listed is less than a hundredth of the whole.
    close(squares / half_width.powi(2), 1.0, 0.01);
    assert!(number(&json["better"]["half_width"]) < half_width);
    let (_, measured, _) = explain(&[
        "acid",
        "--of",
        "formulas/lime-cordial.toml",
        "--json",
        "--measured",
        "lime juice: acid=58 g/L, ph=2.3",
    ]);
    let measured: serde_json::Value = serde_json::from_str(&measured).unwrap();
    // Other limes than those of the table, so nearly the same.
    close(number(&measured["doubt"]["half_width"]), number(&json["better"]["half_width"]), 0.1);
}

#[test]
fn a_counted_piece_is_in_doubt_by_its_spread_and_not_by_the_scale() {
    let instruments = Instruments::default();
    let of = |amount: &str| {
        let made = Kitchen::new("").makes(&format!(
            "name = \"x\"\n[parts]\nlime = {{ amount = \"{amount}\", strained = true, holds = -0.5 }}\nwater = \"500 g\"\n"
        ));
        let grams = made.grams("lime");
        (spread::inputs(made.solved(), &instruments).into_iter().find(|i| i.what.contains(" lime")).unwrap(), grams)
    };
    let (counted, grams) = of("4 each");
    assert_eq!((counted.what.as_str(), counted.cause), ("counting lime, as the card writes it", Cause::Volume));
    // The larder has 50 to 90 g for one: 20 g, of which half is common to a box; by the root of four it is as much.
    close(counted.left_by_remedy.unwrap(), 1.0 / (20.0 * 4.0 * 0.5), 0.5 / grams);
    let (weighed, _) = of(&format!("{grams:.0} g"));
    assert_eq!((weighed.what.as_str(), weighed.cause), ("weighing lime", Cause::Scale));
}

#[test]
fn a_label_of_one_figure_leaves_the_others_as_doubtful_as_the_table() {
    let causes = |larder: &str| -> Vec<Cause> {
        let kitchen = Kitchen::new(&format!("[ingredient.own]\n{larder}\n"));
        let made = kitchen.makes("name = \"x\"\n[parts]\nown = \"500 g\"\nwater = \"500 g\"\n");
        spread::inputs(made.solved(), &Instruments::default()).iter().map(|i| i.cause).collect()
    };
    assert!(causes("like = \"lime juice\"\nbrix = 9").contains(&Cause::Acid));
}

#[test]
fn the_strength_and_the_acid_of_a_card_inside_are_in_doubt_too() {
    let kitchen = Kitchen::new("[ingredient.\"rum 63\"]\nabv = 63\n");
    kitchen.write(
        "base.toml",
        "name = \"Base\"\nmakes = \"1 kg\"\n[parts]\n\"rum 63\" = \"500 g\"\n\"lime juice\" = \"500 g\"\n",
    );
    let made = kitchen.makes("name = \"x\"\n[parts]\nBase = \"500 g\"\n\"rum 63\" = \"500 g\"\n");
    let inputs = spread::inputs(made.solved(), &Instruments::default());
    let of = |cause| inputs.iter().filter(|i| i.cause == cause).count();
    // The rum stands in both cards and is one input.
    assert_eq!((of(Cause::Label), of(Cause::Acid)), (1, 1), "{inputs:?}");
}

#[test]
fn what_comes_out_of_strained_nuts_is_less_sure_than_their_weight() {
    let (solved, instruments) = demo("almond-syrup");
    let brix = uncertainty::find(&uncertainty::of_headlines(&solved, &instruments), TargetKind::Brix).cloned().unwrap();
    let most = &brix.shares[0];
    assert_eq!((most.cause, most.remedy), (Some(Cause::Gives), "measure the Brix of the strained liquid"), "{most:?}");
    // Half of the soluble solids of the nuts, as far as the liquid is not held back with them, in the whole syrup.
    let (stage, last) = (&solved.stages[0], solved.last());
    let nuts = &stage.parts[0];
    let soluble = nuts.mass_g * nuts.found.per_gram.dissolved().solids_grams();
    let goes_on = stage.course.out.total_grams() / (stage.course.out.total_grams() + stage.course.kept.total_grams());
    let expected = 100.0 * 0.5 * soluble * goes_on / last.course.combined.total_grams();
    close(most.half_width / expected, 1.0, 0.3);
    // Nothing is strained out of a plain syrup.
    let (plain, instruments) = demo("plain-syrup");
    assert!(spread::inputs(&plain, &instruments).iter().all(|i| i.cause != Cause::Gives));
}

#[test]
fn nobody_is_sent_to_read_dry_sugar_with_a_refractometer() {
    let remedy = |name: &str| {
        let made =
            Kitchen::new("").makes(&format!("name = \"x\"\n[parts]\n\"{name}\" = \"500 g\"\nwater = \"500 g\"\n"));
        let all = uncertainty::of_headlines(made.solved(), &Instruments::default());
        let brix = uncertainty::find(&all, TargetKind::Brix).unwrap();
        brix.shares.iter().find(|s| s.what.ends_with("made of")).unwrap().remedy
    };
    assert_eq!(remedy("white sugar"), "nothing worth doing: dry sugar differs by 0.1 to 0.3 g in 100 g");
    assert_eq!(
        remedy("dark muscovado sugar"),
        "dissolve 10 g in 10 g of water, read that, and give twice its Brix in larder.toml"
    );
    assert_eq!(remedy("honey"), "read the Brix of what you have, and give it in larder.toml");
}
