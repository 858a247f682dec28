//! A syrup of 65 °Bx from its card: what to weigh, and how heavy a litre of it is.
//!
//! `cargo run --example solve_syrup`

use stillroom::house::House;
use stillroom::solver::{Options, solve};
use stillroom::units::{celsius, in_kg_per_m3};

const CARD: &str = r#"
name  = "Rich syrup"
makes = "2 L"
[target]
brix = 65
[parts]
"white sugar" = "as needed"
water         = "as needed"
"#;

/// What it says, a line each.
pub fn said() -> Vec<String> {
    let (card, found) = stillroom::card::read("rich-syrup.toml".into(), CARD.into());
    let card = card.unwrap_or_else(|| panic!("the card cannot be read: {found:?}"));
    let outcome = solve(&card, &House::default(), &Options::default());
    let solved = outcome.solved.unwrap_or_else(|| panic!("it cannot be made: {:?}", outcome.diagnostics));
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts);
    let mut said: Vec<String> = parts.map(|part| format!("{:<12} {:>7.1} g", part.label, part.mass_g)).collect();
    let density = solved.bottled().density(celsius(20.0)).expect("known of sugar and water").value;
    said.push(format!("{:<12} {:>7.1} g/L", "weighs", in_kg_per_m3(density)));
    said
}

fn main() {
    said().iter().for_each(|line| println!("{line}"));
}
