//! The small programs of `examples/`: what they say.

use std::path::{Path, PathBuf};

use rust_decimal::Decimal;

#[path = "../../examples/contraction.rs"]
#[allow(dead_code)]
mod contraction;
#[path = "../../examples/cost_drink.rs"]
#[allow(dead_code)]
mod cost_drink;
#[path = "../../examples/date_card.rs"]
#[allow(dead_code)]
mod date_card;
#[path = "../../examples/solve_syrup.rs"]
#[allow(dead_code)]
mod solve_syrup;

fn card(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas").join(name)
}

/// 65 g in 100 g, and the density of the table beside the other checks of sugar, within what that file gives it.
#[test]
fn a_syrup_is_solved() {
    let said = solve_syrup::said();
    let number = |line: &str| line.split_whitespace().rev().nth(1).and_then(|n| n.parse::<f64>().ok()).unwrap();
    let (sugar, water, weighs) = (number(&said[0]), number(&said[1]), number(&said[2]));
    // as it is bought it holds 0.02 % of water
    assert!((0.9998 * sugar / (sugar + water) - 0.65).abs() < 5e-5, "{said:?}");
    assert!((sugar + water - 2.0 * weighs).abs() < 0.2, "{said:?}");
    // 64 °Bx is the nearest row; a degree more is 6.05 kg/m3 there, between the rows of 62 and of 68
    assert!((weighs - TABLE_64 - 6.05).abs() < 0.3, "{weighs}");
}

/// Sucrose of 64 °Bx at 20 °C, kg/m3 (CRC Handbook, Concentrative Properties of Aqueous Solutions).
const TABLE_64: f64 = 1310.3;

/// The density of half alcohol and half water by weight, 0.91384 g/ml at 20 °C (Bureau of Standards, as reprinted beside
/// the other checks of ethanol), and of water, 0.99820.
#[test]
fn spirit_and_water_shrink() {
    let water_g = 500.0 * contraction::ETHANOL;
    let [alcohol, water, both, shrinks, _] = contraction::row(water_g);
    assert!((alcohol - 500.0).abs() < 0.01 && (water - water_g / 0.99820).abs() < 0.01);
    assert!((both - 2.0 * water_g / 0.91384).abs() < 0.1, "{both}");
    assert!((shrinks - 31.7).abs() < 0.1, "{shrinks}");
    assert!(contraction::row(50.0)[3] < shrinks);
}

#[test]
fn a_card_is_dated_in_each_store() {
    let said = date_card::said(&card("lime-cordial.toml"), "2026-11-25".parse().unwrap());
    assert_eq!(said.len(), 4, "{said:?}");
    assert!(said[0].starts_with("fridge") && said[0].contains("2026-12-"), "{said:?}");
}

#[test]
fn a_drink_costs_and_sells() {
    let glass = cost_drink::poured(&card("clove-daiquiri.toml"));
    assert!(glass.figures.volume_ml > 120.0 && glass.figures.abv_pct > 12.0);
    let cost = glass.cost.unwrap();
    let sold = cost.sold.unwrap().selling;
    // 80 % gross profit, as the house asks: a fifth of the price are the ingredients, the work comes on top
    let share = (cost.each - cost.labour.unwrap()) / sold.net;
    assert_eq!(share.round_dp(2), Decimal::new(20, 2), "{share}");
}
