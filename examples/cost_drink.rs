//! What a drink of the demo house costs, how strong it is, and for what it would be sold.
//!
//! `cargo run --example cost_drink clove-daiquiri`

use std::path::Path;

use stillroom::cost::SellAsked;
use stillroom::drinks::{Glass, glass};
use stillroom::house::{self, House};

/// One glass of the drink on this card.
pub fn poured(card: &Path) -> Glass {
    let (house, mut found) = House::find(card);
    let source = house::read(card).unwrap_or_else(|unread| panic!("{}", unread.title));
    let card = stillroom::card::read(source.file, source.text).0.expect("a card");
    glass(&card, &house, None, SellAsked::default(), &mut found).unwrap_or_else(|| panic!("no drink: {found:?}"))
}

fn main() {
    let name = std::env::args().nth(1).unwrap_or_else(|| "clove-daiquiri".to_owned());
    let glass = poured(&Path::new("formulas").join(name).with_extension("toml"));
    println!("{}: {:.0} ml of {:.1} % vol", glass.solved.name, glass.figures.volume_ml, glass.figures.abv_pct);
    if let Some(cost) = &glass.cost {
        println!("costs {:.2}", cost.each);
        if let Some(sold) = &cost.sold {
            println!("sold at {:.2} before tax", sold.selling.net);
        }
    }
}
