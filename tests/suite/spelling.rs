//! What a name says, and what it denies: from the card and the larder of a house to the date.

use crate::kitchen::{Kitchen, at};
use stillroom::solver::Options;

/// What the fridge says of a card of one part: its days, and whether raw juice is warned of.
fn in_the_fridge(name: &str, of: &str, like: &str, class: &str) -> (Option<u32>, bool) {
    let kitchen = Kitchen::new(&format!("[ingredient.\"{of}\"]\nlike = \"{like}\"\n"));
    kitchen.write("house.toml", "[stores]\nfridge = \"4 °C\"\n");
    let card = format!("name = \"Ours\"\n{class}[parts]\n\"{name}\" = {{ of = \"{of}\", amount = \"500 g\" }}\n");
    let dated = kitchen.solve(&card, &Options::default()).dated(200);
    (at(&dated, "fridge").days, dated.cautions.iter().any(|c| c.code == "raw_juice"))
}

const PASTEURISED: [&str; 6] =
    ["pasteurised", "Pasteurized", "flash-pasteurised", "pasteurisiertes", "pasteurizado", "pastorizzato"];
const NOT: [&str; 12] = [
    "unpasteurised",
    "un-pasteurized",
    "non-pasteurised",
    "nonpasteurized",
    "not pasteurised",
    "raw",
    "pasteurisation unknown",
    "pasteurised or raw",
    "non pasteurisé",
    "nicht pasteurisiertes",
    "no pasteurizado",
    "non pastorizzato",
];

#[test]
fn raw_egg_is_refused_however_its_name_denies_that_it_was_pasteurised() {
    for how in PASTEURISED {
        let egg = format!("{how} egg white");
        assert_eq!(in_the_fridge(&egg, &egg, "egg white", "").0, Some(7), "{egg}");
    }
    for how in NOT {
        let egg = format!("{how} egg white");
        assert_eq!(in_the_fridge(&egg, &egg, "egg white", "").0, None, "{egg}");
    }
    // What the card calls it can take the claim away, never make it.
    assert_eq!(in_the_fridge("unpasteurised egg white", "pasteurised egg white", "egg white", "").0, None);
    assert_eq!(in_the_fridge("pasteurised egg white", "our egg white", "egg white", "").0, None);
}

#[test]
fn raw_juice_stays_raw_however_its_name_denies_that_it_was_treated() {
    for how in PASTEURISED.into_iter().chain(["bottled"]) {
        let juice = format!("{how} lime juice");
        let (days, warned) = in_the_fridge(&juice, &juice, "bottled lime juice", "");
        assert!(days > Some(3) && !warned, "{juice}: {days:?}");
    }
    for how in NOT.into_iter().chain(["non-bottled", "not canned"]) {
        let juice = format!("{how} lime juice");
        let (days, warned) = in_the_fridge(&juice, &juice, "bottled lime juice", "");
        assert!(days <= Some(3) && warned, "{juice}: {days:?}");
    }
}

#[test]
fn a_plural_in_the_larder_is_found_by_its_singular_on_the_card() {
    let kitchen = Kitchen::new("[ingredient.\"peaches in syrup\"]\nbrix = 20\nallergens = []\n");
    for name in ["peach in syrup", "Peaches in syrup"] {
        let made = kitchen.solve(&format!("name = \"Ours\"\n[parts]\n\"{name}\" = \"500 g\"\n"), &Options::default());
        assert!(made.solved.is_some(), "{name}: {}", made.plain());
    }
}
