//! What is lost when spirit and water are poured together: 500 ml of pure alcohol and more and more water, at 20 °C.
//!
//! `cargo run --example contraction`

use stillroom::mixture::{Component, Mixture};
use stillroom::units::{celsius, in_millilitres};

/// Pure ethanol at 20 °C, g/ml (OIML R 22, 1975).
pub const ETHANOL: f64 = 0.78924;

/// Millilitres of alcohol, of water, of both together, and by how much that is less; and the strength, % vol.
pub fn row(water_g: f64) -> [f64; 5] {
    let ml = |parts: &[(Component, f64)]| {
        let volume = Mixture::of(parts).volume(celsius(20.0));
        in_millilitres(volume.expect("known at 20 °C").value)
    };
    let (alcohol, water) = ((Component::Ethanol, 500.0 * ETHANOL), (Component::Water, water_g));
    let (a, w, both) = (ml(&[alcohol]), ml(&[water]), ml(&[alcohol, water]));
    [a, w, both, a + w - both, 100.0 * a / both]
}

fn main() {
    println!("alcohol    water together  shrinks   % vol");
    for water_g in [50.0, 100.0, 200.0, 300.0, 400.0, 500.0, 750.0, 1000.0, 2000.0] {
        let [alcohol, water, both, shrinks, abv] = row(water_g);
        println!("{alcohol:>7.1} {water:>8.1} {both:>8.1} {shrinks:>8.1} {abv:>7.1}");
    }
}
