//! What speaks for a product counts only where nothing of the card, its steps, its notes or its larder speaks against it.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const STORES: &str =
    "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";

fn judged(larder: &str, card: &str) -> Assessment {
    let kitchen = Kitchen::new(larder);
    kitchen.write("house.toml", STORES);
    let made = kitchen.solve(&format!("name = \"Test\"\n{card}"), &Options::default());
    assert!(made.solved.is_some(), "{card}\n{}", made.plain());
    made.dated(200)
}

/// Whether no acid on the card is known to hold anything back.
fn is_not_sour(dated: &Assessment) -> bool {
    dated.hurdles.ph_up.is_none_or(|up| up > 7.0)
}

/// Whether it may stand in a room.
fn keeps_warm(dated: &Assessment) -> bool {
    at(dated, "back bar").days.is_some()
}

/// 2 g/L of acid, hot and closed: of water that is a safe drink, of a stock it holds no botulism back.
fn soured(name: &str, like: &str) -> Assessment {
    let larder = match like {
        "" => String::new(),
        like => format!("[ingredient.\"{name}\"]\nlike = \"{like}\"\nallergens = []\n"),
    };
    let parts = format!("\"{name}\" = \"900 g\"\n\"citric acid\" = \"2 g\"\n\"white sugar\" = \"50 g\"");
    judged(
        &larder,
        &format!("heated = \"90 °C for 10 min\"\n[parts]\n{parts}\n[keep]\nfill = \"hot\"\nclosed = true\n"),
    )
}

#[test]
fn what_is_only_like_water_has_no_ph_of_water() {
    for name in
        ["fish stock", "horchata", "latte di mandorla", "bouillon de légumes", "jus de viande", "tiger nut milk"]
    {
        let dated = soured(name, "water");
        assert!(is_not_sour(&dated) && !keeps_warm(&dated), "{name}: {:?}", dated.hurdles.ph_up);
    }
    // a name with water in it is not yet of water
    for name in ["celery water", "almond water", "infused water", "Kartoffelwasser"] {
        let dated = soured(name, "water");
        assert!(is_not_sour(&dated) && !keeps_warm(&dated), "{name}: {:?}", dated.hurdles.ph_up);
    }
    for name in ["tap water", "eau du robinet", "house tap water"] {
        let dated = soured(name, "water");
        assert!(dated.hurdles.ph_up.is_some_and(|up| up < 4.0) && keeps_warm(&dated), "{name}");
    }
}

#[test]
fn what_is_only_like_sugar_has_the_minerals_of_a_raw_one() {
    let sour = |name: &str| {
        let larder = format!("[ingredient.\"{name}\"]\nlike = \"white sugar\"\nallergens = []\n");
        let parts = format!("\"{name}\" = \"400 g\"\nwater = \"600 g\"\n\"citric acid\" = \"3 g\"");
        !is_not_sour(&judged(&larder, &format!("[parts]\n{parts}\n")))
    };
    assert!(!sour("house whey sweetener"));
    assert!(sour("fine white sugar"));
}
