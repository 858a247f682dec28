//! What speaks for a product counts only where nothing of the card, its steps, its notes or its larder speaks against it.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::safety::names::find;
use stillroom::solver::Options;
use stillroom::vocabulary::Tag;

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
    let near = of_vegetable(&peas(2.5), "");
    assert!(near.hurdles.ph_up.is_some_and(|up| up > 4.0 && up <= 4.6), "{:?}", near.hurdles.ph_up);
    assert!(at(&near, "fridge").days.is_some() && !keeps_warm(&near));
    assert!(keeps_warm(&of_vegetable(&peas(2.5), read)));
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

/// What a name gives away, surely or perhaps.
fn is_tagged(name: &str, tag: Tag) -> bool {
    let found = find(name);
    found.tags.contains(&tag) || found.unsure.contains(&tag)
}

#[test]
fn what_harms_is_found_by_its_number_and_in_each_language() {
    for (tag, names) in [
        (
            Tag::MilligramPoison,
            "E250|E 250|E-251|curing salt E252|e249|sel rose|sal rosa|sale rosa|sel de salaison|Pökelsalz|sal de cura",
        ),
        (Tag::Sulphite, "E220|E 223|E-224|e228"),
        (Tag::AzoColour, "E 123|E151"),
        (Tag::NotFood, "E 240|E525|alcol rosa"),
        (
            Tag::ToxicPlant,
            "badiane du Japon|anis estrellado japonés|anice stellato giapponese|ébulo|bayas de saúco enano|sambuco ebbio",
        ),
        (
            Tag::ControlledPlant,
            "weed butter|space butter|Hanfbutter|beurre de Marrakech|mantequilla de marihuana|burro alla cannabis",
        ),
        (Tag::ForagedUnsure, "from the river bank|raccolti nel bosco da un amico|o hojas parecidas del monte"),
    ] {
        for name in names.split('|') {
            assert!(is_tagged(name, tag), "{name}");
        }
    }
    for harmless in
        ["limone e 250 g di zucchero", "nitrite free salt", "sel de mer", "badiane", "anis", "beurre noisette", "sauco"]
    {
        for tag in [Tag::MilligramPoison, Tag::ToxicPlant, Tag::ControlledPlant, Tag::NotFood] {
            assert!(!is_tagged(harmless, tag), "{harmless}: {tag:?}");
        }
    }
}

/// Raspberries in a sour syrup, with a step that says what became of them.
fn of_raspberries(step: &str) -> Assessment {
    let parts = "raspberries = { amount = \"500 g\", strained = true, holds = -0.6 }\n\"white sugar\" = \"300 g\"\nwater = \"300 g\"\n\"citric acid\" = \"8 g\"";
    judged("", &format!("steps = [\"{step}\"]\n[parts]\n{parts}\n[keep]\nclosed = true\nin = \"glass\"\n"))
}

#[test]
fn rot_and_what_still_works_stop_in_each_language() {
    for (code, steps) in [
        (
            "mouldy",
            "If there is mould on top, skim it off and boil it again.|Retirer la moisissure et refaire bouillir.|The apricots were going \
             mouldy, cut the bad bits out.|Die faulen Stellen der Früchte ausschneiden.|Couper les parties pourries des fruits.|Quitar las \
             partes podridas de la fruta.|Togliere le parti marce della frutta.",
        ),
        (
            "gas_burst",
            "Bottle while it is still fermenting.|Noch gärend in Bügelflaschen füllen.|Embouteiller pendant que ça fermente.|Embotellar mientras \
             fermenta.|Imbottigliare mentre fermenta.|Leave in the sun until it fizzes.|In der Sonne stehen lassen, bis es perlt.|Lasciare al sole \
             finché non fa le bollicine.",
        ),
    ] {
        for step in steps.split('|') {
            let dated = of_raspberries(step);
            assert!(dated.cautions.iter().any(|c| c.code == code), "{step}: {:?}", dated.cautions);
            assert!(dated.stores.iter().all(|store| store.days.is_none()), "{step}");
        }
    }
    for step in [
        "Sort the berries, throw rotten ones away.",
        "Throw a bulging tin away unopened.",
        "Reject any swollen can.",
        "Never use a bulging tin.",
        "If there is broken glass in it throw it away.",
        "Strain into a glass, no shards of ice.",
        "Rinse, top with the sugar, skim the foam off.",
        "Die Beeren verlesen und waschen.",
    ] {
        let dated = of_raspberries(step);
        assert!(at(&dated, "fridge").days.is_some(), "{step}: {:?}", dated.cautions);
    }
}

#[test]
fn what_nobody_heats_is_not_filled_hot() {
    let of = |parts: &str, fill: &str| {
        let dated = judged(
            "",
            &format!("heated = \"no\"\n[parts]\n{parts}\n[keep]\nfill = \"{fill}\"\nclosed = true\nin = \"glass\"\n"),
        );
        dated.stores.iter().map(|store| store.days).collect::<Vec<_>>()
    };
    let hibiscus = "hibiscus = { amount = \"20 g\", strained = true }\n\"white sugar\" = \"500 g\"\nwater = \"450 g\"\n\"citric acid\" = \"4 g\"";
    for parts in ["honey = \"600 g\"\nwater = \"200 g\"", hibiscus] {
        assert_eq!(of(parts, "hot"), of(parts, "cold"), "{parts}");
    }
}

#[test]
fn what_a_table_does_not_say_is_not_cited_and_what_may_pass_a_limit_is_marked() {
    let printed = |card: &str| {
        let kitchen = Kitchen::new("");
        kitchen.write("house.toml", STORES);
        kitchen.write("x.toml", &format!("name = \"X\"\n{card}"));
        kitchen.run(&["date", "x.toml", "--made", "2026-11-25"]).1
    };
    let thin = printed("[parts]\nsalt = \"10 g\"\nwater = \"990 g\"\n");
    assert!(thin.contains("nothing in it feeds growth") && !thin.contains("table B"), "{thin}");
    let thick = printed("[parts]\nsalt = \"250 g\"\nwater = \"750 g\"\n");
    assert!(thick.contains("Food Code 2022, table B"), "{thick}");
    let poppy = |grams: u32| {
        let parts =
            format!("\"poppy seed\" = {{ amount = \"{grams} g\", strained = true }}\n\"gin 40 %\" = \"700 ml\"\n");
        printed(&format!("serving = \"30 ml\"\n[parts]\n{parts}"))
    };
    assert!(poppy(300).contains("\n  ! morphine from 300 g"), "{}", poppy(300));
    assert!(poppy(10).contains("\n  morphine from 10 g"), "{}", poppy(10));
}

/// What something is free of is not in it; what the same clause goes on to put in is.
#[test]
fn what_is_free_of_one_thing_may_have_another() {
    let days = |step: &str| {
        at(&judged("", &format!("steps = [\"{step}\"]\n[parts]\nvodka = \"500 ml\"\nsugar = \"100 g\"\n")), "fridge")
            .days
    };
    for step in [
        "Free of milk.",
        "Free of milk and nuts.",
        "Free of tree nuts.",
        "Free of nuts and milk powder.",
        "Frei von Nüssen.",
    ] {
        assert!(days(step).is_some(), "{step}");
    }
    for step in [
        "Free of milk and made with almond paste and raw egg white.",
        "Free of milk and add almonds.",
        "Free of milk but with raw egg white.",
        "Frei von Nüssen und mit rohem Eiweiß geschüttelt.",
    ] {
        assert_eq!(days(step), None, "{step}");
    }
    let asks = |step: &str| {
        let dated = judged("", &format!("steps = [\"{step}\"]\n[parts]\nvodka = \"500 ml\"\nsugar = \"100 g\"\n"));
        dated.cautions.iter().any(|c| c.code == "allergen")
    };
    assert!(asks("Free of milk and almonds added.") && !asks("Free of milk and almonds."));
}

#[test]
fn a_full_fridge_cools_nothing() {
    let almonds = "\"blanched almonds\" = { amount = \"250 g\", strained = true, holds = 0.9 }\nwater = \"700 g\"";
    let of = |step: &str| at(&judged("", &format!("steps = [\"{step}\"]\n[parts]\n{almonds}\n")), "fridge").days;
    let steps = "Leave overnight; the fridge is full, so on the sill.|Über Nacht stehen lassen, der Kühlschrank ist voll.|Laisser une nuit, le \
        frigo est plein.|Dejar toda la noche, la nevera está llena.|Lasciare tutta la notte, il frigo è pieno.";
    for step in steps.split('|') {
        assert_eq!(of(step), None, "{step}");
    }
    assert!(of("Leave overnight in the fridge.").is_some());
}

/// A pH and a titration tell of an unknown liquid neither which acid it is nor what buffers it.
#[test]
fn the_word_of_an_entry_makes_no_unknown_liquid_as_sour_as_its_ph() {
    let up = |readings: &str| {
        let larder = format!("[ingredient.\"sour base\"]\nsugar = \"50 g/L\"\n{readings}allergens = []\n");
        judged(&larder, "[parts]\n\"sour base\" = \"500 g\"\nwater = \"300 g\"\n").hurdles.ph_up.unwrap_or(14.0)
    };
    let (acid, both) = (up("acid = \"40 g/L\"\n"), up("acid = \"40 g/L\"\nph = 2.5\n"));
    // fruit or juice has 1 % of ash at most, 20 meq/g: 0.2 of the 0.6 eq/L of 40 g/L of citric acid
    assert!(both > 3.3 && both > acid - 0.2, "{acid:.2} {both:.2}");
}

/// Oranges that stand in wine, and are strained out, leave wine that tastes of oranges; pressed they leave juice.
#[test]
fn fruit_steeped_in_wine_is_no_pressed_juice() {
    let raw = |step: &str, wine: &str| {
        let parts = format!("{wine}oranges = {{ amount = \"1 kg\", strained = true }}\n\"white sugar\" = \"300 g\"\n");
        judged("", &format!("steps = [\"{step}\"]\n[parts]\n{parts}")).product.raw_juice
    };
    let strong = "\"white wine\" = \"3 L\"\nvodka = \"500 ml\"\n";
    assert_eq!(raw("Four weeks in the cellar, then strain.", strong), 0.0);
    assert!(raw("Four weeks in the cellar, then press the oranges out.", strong) > 0.05);
    // too weak to hold anything back by itself
    let weak = "\"white wine\" = \"1.5 L\"\nwater = \"1.5 L\"\n";
    assert!(raw("A week in the fridge, then strain.", weak) > 0.05);
}

/// Approximate pH of Foods and Food Products (US FDA, 2003): apricots 3.30 to 4.80, Californian cherries 4.01 to 4.54, blueberries 3.12 to 3.33, apple
/// juice 3.35 to 4.00, lemon juice 2.00 to 2.60; plums 2.8 to 4.6 (Handbook of Food Preparation, 1993). Lime juice, 2.00 to 2.35, and
/// orange juice, 3.30 to 4.19, are no sourer by their records.
#[test]
fn no_fruit_is_dated_as_sourer_than_it_was_found() {
    let up = |of: &str| {
        let larder =
            "[ingredient.\"apricots of our tree\"]\nlike = \"apricot\"\nfood = \"own garden\"\nallergens = []\n";
        judged(larder, &format!("[parts]\n\"{of}\" = \"500 g\"\n")).hurdles.ph_up
    };
    for (juice, highest) in [
        ("apricot juice", 4.80),
        ("apricot puree", 4.80),
        ("plum juice", 4.60),
        ("cherry juice", 4.54),
        ("blueberry juice", 3.33),
        ("apple juice", 4.00),
        ("lemon juice", 2.60),
        ("lime juice", 2.35),
        ("orange juice", 4.19),
        ("apricots of our tree", 4.80),
    ] {
        assert!(up(juice).is_none_or(|up| up >= highest - 0.01), "{juice}: {:?}", up(juice));
    }
    // what is put in makes it sour all the same
    let soured = judged("", "[parts]\n\"apricot juice\" = \"500 g\"\n\"citric acid\" = \"10 g\"\n").hurdles.ph_up;
    assert!(soured.is_some_and(|up| up < 3.8), "{soured:?}");
}

/// A stock that is boiled down to 70 °Bx is no syrup: the water activity of sugar is that of what says that it is one.
#[test]
fn a_brix_alone_is_not_yet_sugar() {
    let dated = |name: &str, more: &str| {
        let larder = format!("[ingredient.\"{name}\"]\n{more}allergens = []\n");
        judged(&larder, &format!("[parts]\n\"{name}\" = \"500 g\"\n"))
    };
    for name in ["beef reduction", "demi glace", "house base", "Fond"] {
        assert!(!keeps_warm(&dated(name, "brix = 70\n")), "{name}");
    }
    for name in ["vanilla syrup", "Vanillesirup", "sirop de menthe", "jarabe de menta", "honey mix"] {
        assert!(keeps_warm(&dated(name, "brix = 70\n")), "{name}");
    }
    // said to be sugar
    assert!(keeps_warm(&dated("house base", "brix = 70\nlike = \"golden syrup\"\n")));
    assert!(keeps_warm(&dated("house base", "sugar = \"900 g/L\"\n")));
}

/// The worse the reading, the shorter the date, whoever read it. A strip is good for 0.5 (`PhInstrument::doubt`).
#[test]
fn a_reading_above_what_was_weighed_gives_no_longer_date() {
    let days = |reading: &str| {
        let card = format!(
            "[parts]\n\"lime juice\" = \"200 ml\"\n\"white sugar\" = \"400 g\"\nwater = \"400 g\"\n[measured]\n{reading}"
        );
        at(&judged("", &card), "fridge").days
    };
    let meter = |ph: &str| days(&format!("ph = {ph}\nph_by = \"meter\"\ncalibrated = true\n"));
    let strip = |ph: &str| days(&format!("ph = {ph}\nph_by = \"strip\"\n"));
    assert!(strip("2.9") > Some(7) && meter("2.9") > Some(7));
    // Food Code 2022, 3-501.17: where the pH is not known, 7 days
    assert_eq!((strip("6.0"), strip("7.0"), meter("6.0")), (Some(7), Some(7), Some(7)));
    let read: Vec<_> = ["2.9", "3.4", "4.0", "5.0", "6.0", "7.0"].iter().map(|ph| strip(ph)).collect();
    assert!(read.is_sorted_by(|a, b| a >= b), "{read:?}");
}

/// Kombucha and water kefir work on in the bottle until something kills them.
#[test]
fn a_live_culture_stops_in_closed_glass_until_it_is_answered() {
    let of = |name: &str, above: &str| {
        let parts = format!("\"{name}\" = \"500 ml\"\n\"white sugar\" = \"200 g\"\n");
        judged("", &format!("{above}[parts]\n{parts}[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n"))
    };
    let stops = |dated: &Assessment| dated.cautions.iter().any(|c| c.code == "gas_burst" && c.stops());
    let dated = of("kombucha", "");
    assert!(stops(&dated) && dated.stores.iter().all(|store| store.days.is_none()), "{:?}", dated.cautions);
    assert!(!stops(&of("kombucha", "heated = \"85 °C for 5 min\"\n")));
    assert!(!stops(&of("ginger beer", "")));
    // stronger than any yeast works in
    let strong = "vodka = \"500 ml\"\nkombucha = \"100 ml\"\n\"white sugar\" = \"200 g\"\n";
    assert!(!stops(&judged("", &format!("[parts]\n{strong}[keep]\nclosed = true\nin = \"glass\"\n"))));
}

/// What has no date says so where its days would stand.
#[test]
fn the_steps_of_a_refused_date_end_in_no_date() {
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", STORES);
    let card = "name = \"T\"\nsteps = [\"If mould forms, scrape it off and go on.\"]\n[parts]\nvodka = \"500 ml\"\n";
    let path = kitchen.write("t.toml", card);
    let (_, said, _) = kitchen.run(&["explain", "date", path.to_str().unwrap()]);
    assert!(said.contains("no store has a date") && !said.contains("nothing refuses it"), "{said}");
}

/// Sugar that only a likeness lends holds nothing back: of a paste of dates, which may be half water, nobody read the Brix. What is honey
/// by its name, and what has a Brix of its own, does.
#[test]
fn what_is_only_like_honey_is_not_as_dry() {
    let of = |name: &str, more: &str, card: &str| {
        let larder = format!(
            "[ingredient.\"{name}\"]\nlike = \"honey\"\nallergens = []\nfood = \"sold as food, label\"\n{more}\n"
        );
        judged(&larder, &format!("{card}\n[parts]\n\"{name}\" = \"900 g\"\n"))
    };
    let paste = of("date paste", "", "");
    assert!(!keeps_warm(&paste) && paste.hurdles.aw_up > 0.95, "{:?}", paste.hurdles);
    for (name, more, card) in
        [("heather honey", "", ""), ("date paste", "brix = 80", ""), ("date paste", "", "[measured]\nbrix = 80")]
    {
        let dated = of(name, more, card);
        assert!(keeps_warm(&dated) && dated.hurdles.aw_up < 0.88, "{name} {more} {card}: {:?}", dated.hurdles);
    }
    let kitchen =
        Kitchen::new("[ingredient.\"date paste\"]\nlike = \"honey\"\nallergens = []\nfood = \"sold as food, label\"\n");
    kitchen.write("paste.toml", "name = \"Paste\"\n[parts]\n\"date paste\" = \"900 g\"\n");
    let (_, page, said) = kitchen.run(&["date", "paste.toml"]);
    let all = format!("{page}{said}").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(all.contains("`date paste` has its sugar of Honey"), "{all}");
}
