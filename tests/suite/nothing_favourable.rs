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

/// A liqueur of pasteurised egg white, with a text of its method.
fn of_egg(key: &str, text: &str) -> Assessment {
    let parts = "\"pasteurised egg white\" = \"100 g\"\n\"brandy 40 %\" = \"300 ml\"\n\"white sugar\" = \"100 g\"\nwater = \"100 g\"";
    judged("", &format!("{key} = {text}\n[parts]\n{parts}\n"))
}

#[test]
fn eggs_that_are_broken_are_not_those_of_the_carton() {
    let steps = "Break six eggs and use the whites.|Separate six eggs.|Sechs frische Eier aufschlagen.|Eier trennen, Eiweiß schlagen.|\
        Casser six œufs et séparer les blancs.|Battre quatre œufs.|Cascar seis huevos y batir las claras.|Montare gli albumi di sei uova.|\
        Rompere otto uova fresche e separare i tuorli.|Use shell eggs if the carton is out.";
    for step in steps.split('|') {
        let dated = of_egg("steps", &format!("[\"{step}\"]"));
        assert_eq!(at(&dated, "fridge").days, None, "{step}");
        assert!(dated.cautions.iter().any(|c| c.code == "raw_egg"), "{step}");
    }
    assert_eq!(at(&of_egg("notes", "\"Con huevos del corral de mi abuela\""), "fridge").days, None);
    // what speaks of the carton, or says that those in the shell are pasteurised
    for step in [
        "Add the egg white and shake.",
        "Beat 2 egg whites with the fresh lemon.",
        "Break the pasteurised eggs and use the whites.",
        "Eiweiß schlagen.",
        "Monter les blancs en neige.",
    ] {
        assert_eq!(at(&of_egg("steps", &format!("[\"{step}\"]")), "fridge").days, Some(28), "{step}");
    }
}

#[test]
fn raw_milk_is_found_wherever_it_is_named() {
    let of = |larder: &str, milk: &str, more: &str| {
        let parts = format!("\"{milk}\" = \"300 g\"\n\"brandy 40 %\" = \"500 ml\"\n\"white sugar\" = \"150 g\"");
        judged(larder, &format!("{more}\n[parts]\n{parts}\n"))
    };
    let is_found = |dated: &Assessment| {
        dated.cautions.iter().any(|c| c.code == "raw_milk") && dated.stores.iter().all(|store| store.days.is_none())
    };
    let notes = "Rohmilch vom Hof|Milk straight from the cow.|Latte crudo della malga.|Lait non pasteurisé.|Leche recién ordeñada, sin hervir.|\
        Frische Kuhmilch, nicht erhitzt.|Lait de la ferme, non pasteurisé.|With raw whole milk if there is any.|Crème crue de Normandie";
    for note in notes.split('|') {
        assert!(is_found(&of("", "whole milk", &format!("notes = \"{note}\""))), "{note}");
    }
    for (name, like) in [
        ("raw milk", "whole milk"),
        ("lait cru", "whole milk"),
        ("Rohmilch", "whole milk"),
        ("raw cream", "heavy cream"),
        ("leche cruda", "whole milk"),
    ] {
        let entry = format!("[ingredient.\"{name}\"]\nlike = \"{like}\"\n");
        assert!(is_found(&of(&entry, name, "")), "{name}");
    }
    let entry = "[ingredient.\"house milk\"]\nlike = \"whole milk\"\nfood = \"raw milk from the farm shop\"\n";
    assert!(is_found(&of(entry, "house milk", "")));
    for note in [
        "Dissolve the raw sugar in the milk.",
        "Pasteurised milk, never raw milk.",
        "Soak the raw almonds, then add the milk.",
        "Whole milk, fresh.",
    ] {
        assert!(!is_found(&of("", "whole milk", &format!("steps = [\"{note}\"]"))), "{note}");
    }
}

/// A vegetable in a sour syrup, hot and closed.
fn of_vegetable(parts: &str, more: &str) -> Assessment {
    judged(
        "",
        &format!("heated = \"90 °C for 10 min\"\n[parts]\n{parts}\n[keep]\nfill = \"hot\"\nclosed = true\n{more}"),
    )
}

#[test]
fn a_calculated_ph_gives_no_vegetable_a_warm_date() {
    let strained = "\"green peas\" = { amount = \"200 g\", strained = true, holds = 0.3 }";
    let peas = |acid: f64| {
        format!("{strained}\n\"white sugar\" = \"150 g\"\nwater = \"800 g\"\n\"citric acid\" = \"{acid} g\"")
    };
    let read = "[measured]\nph = 3.9\nph_by = \"meter\"\ncalibrated = true\n";
    // at the edge of what the sum allows the fridge alone is dated, until a meter has read it
    let near = of_vegetable(&peas(2.2), "");
    assert!(near.hurdles.ph_up.is_some_and(|up| up > 4.2 && up <= 4.6), "{:?}", near.hurdles.ph_up);
    assert!(at(&near, "fridge").days.is_some() && !keeps_warm(&near));
    assert!(keeps_warm(&of_vegetable(&peas(2.2), read)));
    assert!(keeps_warm(&of_vegetable(&peas(8.0), "")));
    // whole peas and cloves that stay in it are not as sour as the liquid
    let whole = "\"green peas\" = \"200 g\"\n\"white sugar\" = \"150 g\"\nwater = \"800 g\"\n\"citric acid\" = \"4 g\"";
    let cloves = "garlic = \"100 g\"\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"6 g\"";
    let few = "garlic = \"20 g\"\n\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"6 g\"";
    for parts in [whole, cloves, few] {
        assert!(!keeps_warm(&of_vegetable(parts, "")), "{parts}");
    }
    assert!(keeps_warm(&of_vegetable(few, "[measured]\nph = 3.2\nph_by = \"meter\"\ncalibrated = true\n")));
    // above a twentieth of its mass in pieces no sum tells its pH
    assert_eq!(of_vegetable(whole, "").hurdles.ph_up, None);
    // strong spirit keeps both
    let spirit = judged("", "[parts]\ngarlic = \"50 g\"\nvodka = \"700 ml\"\n\"citric acid\" = \"1 g\"\n");
    assert!(keeps_warm(&spirit));
}
