//! Where a step lets it stand, for how long and in what: what may begin to work there, what dissolves, what bursts.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n";
const BERRIES: &str = "strawberries = \"300 g\"\n\"white sugar\" = \"150 g\"\nwater = \"500 g\"\n";
const SPIRIT: &str = "\"neutral spirit 96 %\" = \"500 ml\"\n\"lemon zest\" = { amount = \"30 g\", strained = true }\n";
const SOUR: &str = "\"lime juice\" = \"300 ml\"\n\"white sugar\" = \"300 g\"\n";
const BOTTLE: &str = "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn judged(step: &str, parts: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let card = format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\n{parts}{BOTTLE}");
    kitchen.solve(&card, &Options::default()).dated(2_000)
}

fn says(step: &str, parts: &str, code: &str) -> bool {
    judged(step, parts).cautions.iter().any(|caution| caution.code == code)
}

/// Sweet, wet and weak: whatever the verb, what stands more than a day in the warm is asked about, and so is what a step opens to let
/// gas out.
#[test]
fn what_may_begin_to_work_is_asked_about_whatever_the_verb() {
    for step in [
        "Cover with a cloth and leave till it starts to work, then bottle.",
        "Leave in a jar on the sill until bubbles rise, then cork.",
        "Keep it in a demijohn for a fortnight, then bottle.",
        "Put it in a crock with a weight on top for ten days.",
        "Leave covered under a tea towel, Monday to Thursday.",
        "Forget it on the shelf till next week.",
        "Leave at room temperature for 5 days.",
        "Leave out till Friday.",
        "Leave the strawberries in the sugar for 2 days, strain.",
        "Boil the jar, leave the strawberries in the sugar for 2 days, strain.",
        "Burp daily for five days.",
        "Feed the bug daily for a week.",
        "Fünf Tage im Gärballon.",
        "Lass es bis nächste Woche stehen.",
        "Täglich entlüften, eine Woche lang.",
        "Dégazer chaque jour pendant cinq jours.",
        "Attendre que ça pétille et boucher.",
        "Oublier une semaine sur l'étagère.",
        "Abrir la tapa cada día durante una semana.",
        "Olvidarlo una semana en la estantería.",
        "Sfiatare ogni giorno per una settimana.",
        "Lasciar fare le bollicine e tappare.",
        "Dimenticarlo una settimana sulla mensola.",
    ] {
        assert!(says(step, BERRIES, "gas_burst"), "{step}");
    }
    for step in [
        "Leave the berries in the sugar overnight, add the water, strain.",
        "Macerate for 24 hours, strain.",
        "Macerate for 3 days in the fridge, strain.",
        "Put in the fridge for five days.",
        "Use within a week.",
        "Put a date of 5 days on it.",
    ] {
        assert!(!says(step, BERRIES, "gas_burst"), "{step}");
    }
    for step in ["Shake daily for two weeks, strain.", "Put everything in a demijohn for a month, strain."] {
        assert!(at(&judged(step, SPIRIT), "fridge").days > Some(100), "{step}");
    }
    let shrub = format!("{BERRIES}\"cider vinegar\" = \"300 ml\"\n");
    assert!(!says("Leave at room temperature for 5 days, strain.", &shrub, "gas_burst"));
}

/// A metal or a plastic and a vessel in one clause, in five languages, in one German word or in two.
#[test]
fn a_vessel_is_read_with_what_it_is_made_of() {
    for (code, steps) in [
        (
            "reactive_metal",
            vec![
                "Leave in the aluminium pot overnight.",
                "Mix in a foil tray.",
                "In der Alukanne ziehen lassen.",
                "Laisser dans la casserole en alu.",
                "Dejar en la olla de aluminio toda la noche.",
                "Lasciare nella pentola di alluminio.",
                "Store in a tin can, lid off.",
            ],
        ),
        ("copper", vec!["Laisser dans la bassine de cuivre.", "Im Kupferkessel.", "En un caldero grande de cobre."]),
        (
            "galvanised",
            vec!["Laisser dans le seau zingué.", "Im Zinkeimer.", "Im verzinkten Eimer.", "Nel secchio zincato."],
        ),
        (
            "lead",
            vec![
                "In der Zinnkanne aufbewahren.",
                "Garder dans le pichet d'étain.",
                "Im alten glasierten Tontopf stehen lassen.",
                "Garder dans la vieille jarre vernissée.",
                "Guardar en la orza de barro vidriado.",
                "Tenere nell'orcio smaltato vecchio.",
            ],
        ),
    ] {
        for step in steps {
            assert!(says(step, SOUR, code), "{step}");
        }
    }
    for step in [
        "Store in a polystyrene cup.",
        "In einem Joghurtbecher ziehen lassen.",
        "Macerar en un bidón de plástico.",
        "Im Gefrierbeutel vier Wochen ziehen lassen.",
        "Vacuum-bag it for a month.",
    ] {
        assert!(says(step, SPIRIT, "spirit_in_plastic"), "{step}");
    }
    for step in [
        "Wrap the jar in aluminium foil.",
        "Cover the bowl with foil.",
        "In Alufolie wickeln, Glas verschließen.",
        "Shake in a tin and strain into a glass bottle.",
        "Keep in a lead-free glass jar.",
        "Serve in a glazed bowl.",
    ] {
        let said = judged(step, SOUR).cautions;
        let metals = ["reactive_metal", "copper", "galvanised", "lead"];
        assert!(!said.iter().any(|caution| metals.contains(&caution.code)), "{step}");
    }
}

#[test]
fn glass_with_no_room_in_it_bursts_by_heat_and_by_frost() {
    for step in [
        "Boil in the closed bottle for an hour.",
        "In der verschlossenen Flasche kochen.",
        "Faire bouillir la bouteille fermée.",
        "Hervir la botella cerrada.",
        "Bollire la bottiglia chiusa.",
        "Microwave the closed jar.",
        "Freeze the full glass bottle solid.",
        "Die volle Glasflasche einfrieren.",
        "Congelar la botella llena.",
    ] {
        assert!(says(step, SOUR, "bursting_glass"), "{step}");
    }
    for step in ["Boil the bottles, fill and seal.", "Freeze in a sealed container.", "Do not boil the closed bottle."]
    {
        assert!(!says(step, SOUR, "bursting_glass"), "{step}");
    }
}

/// Solid carbon dioxide is snow in most languages.
#[test]
fn snow_of_carbon_dioxide_is_dry_ice() {
    for step in [
        "CO2-Schnee in die Flasche geben.",
        "Neige carbonique dans la bouteille.",
        "Nieve carbónica en la botella.",
        "Neve carbonica nella bottiglia.",
    ] {
        assert!(says(step, BERRIES, "cryogen"), "{step}");
    }
}

/// `takes` is no longer than what a step says, and what a step keeps at room temperature is no matter of the fridge.
#[test]
fn a_step_that_leaves_it_out_counts_beside_the_keys() {
    let tea = "\"white sugar\" = \"400 g\"\nwater = \"600 ml\"\n\"ceylon cinnamon\" = { amount = \"10 g\", strained = true }\n";
    let days = |keys: &str, step: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let card = format!("name = \"T\"\n{keys}steps = [\"{step}\"]\n[parts]\n{tea}{BOTTLE}");
        at(&kitchen.solve(&card, &Options::default()).dated(2_000), "fridge").days
    };
    for step in ["Leave it out for three days.", "Macerate 5 days.", "Leave it till Thursday."] {
        assert_eq!(days("takes = \"1 h\"\n", step), None, "{step}");
    }
    for step in [
        "Keep at 21 °C.",
        "Bei Raumtemperatur.",
        "À température ambiante.",
        "A temperatura ambiente.",
        "Tenere fuori dal frigo.",
        "Keep it out of the fridge.",
    ] {
        assert_eq!(days("takes = \"1 h\"\n", step), None, "{step}");
    }
    for step in ["Macerate an hour.", "Serve at room temperature.", "Cool to room temperature, then chill."] {
        assert!(days("takes = \"1 h\"\n", step).is_some(), "{step}");
    }
    assert!(days("takes = \"1 h\"\nat = \"4 °C\"\n", "Macerate 2 days.").is_some());
}

/// What is boiled behind works no more; bottles that are boiled kill nothing in it.
#[test]
fn what_is_boiled_behind_works_no_more() {
    let card = |last: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let text = format!(
            "name = \"T\"\nsteps = [\"Cover and leave to steep at room temperature for 3 days.\", \"{last}\"]\n[parts]\n{BERRIES}{BOTTLE}"
        );
        kitchen.solve(&text, &Options::default()).dated(2_000)
    };
    let asks = |last: &str| card(last).cautions.iter().any(|caution| caution.code == "gas_burst");
    assert!(!asks("Strain, bring back to the boil and bottle hot."));
    for last in ["Strain and bottle.", "Boil the bottles, strain and fill.", "Die Flaschen kochen, abseihen, abfüllen."]
    {
        assert!(asks(last), "{last}");
    }
}

/// A lid over the pan that gives what drips off it is a still, and so is a freezer of which only the liquid is kept.
#[test]
fn what_drips_off_a_lid_or_stays_liquid_in_the_freezer_is_distilled() {
    for step in [
        "Collect what drips from the lid of the pot and keep only that.",
        "Nur das auffangen, was vom Deckel tropft.",
        "Recueillir ce qui goutte du couvercle.",
        "Recoger lo que gotea de la tapa.",
        "Raccogliere ciò che gocciola dal coperchio.",
        "Freeze, pour off what stays liquid, and keep only that.",
        "Einfrieren, abgießen was flüssig bleibt.",
        "Congeler et garder ce qui reste liquide.",
        "Congelar y guardar solo lo que queda líquido.",
        "Congelare e tenere solo ciò che resta liquido.",
    ] {
        assert!(says(step, SPIRIT, "distil"), "{step}");
    }
    for step in ["It stays liquid in the freezer.", "Den Deckel abtropfen lassen.", "Conservare in freezer, non gela."]
    {
        assert!(!says(step, SPIRIT, "distil"), "{step}");
    }
}

/// "Au bout de" is the end of a time; wine that boils is hot.
#[test]
fn the_end_of_a_time_boils_nothing() {
    let asks = |step: &str| says(step, SPIRIT, "hot_spirit");
    assert!(!asks("Goûter au bout de cinq jours.") && !asks("Filtrer au bout d'une semaine."));
    assert!(!asks("Le bout du bec verseur doit être propre."));
    assert!(asks("Quand l'alcool bout, filtrer."));
}

/// What stood is what was in the pan then: spirit that goes in later kept nothing, and water that goes in later weakened nothing.
#[test]
fn what_stood_is_judged_at_the_strength_that_it_had_then() {
    let stood =
        |judged: &Assessment| at(judged, "fridge").refused.iter().any(|why| format!("{why}").starts_with("stood"));
    let mint =
        "mint = { amount = \"40 g\", strained = true }\nwater = \"400 ml\"\n\"neutral spirit 96 %\" = \"300 ml\"\n";
    for step in [
        "Steep the mint in the water for 3 days. Then add the spirit, strain.",
        "Steep the mint in the water for 3 days.\", \"Strain. Stir in the neutral spirit.",
        "Steep the mint in the water for 3 days. Add the spirit and steep for two weeks. Strain.",
        "Die Minze im Wasser 3 Tage ziehen lassen. Dann den Alkohol zugeben, abseihen.",
        "Laisser macérer la menthe dans l'eau 3 jours. Ajouter l'alcool, filtrer.",
        "Macerar la menta en el agua 3 días. Añadir el alcohol, colar.",
        "Macerare la menta nell'acqua per 3 giorni. Aggiungere l'alcol, filtrare.",
    ] {
        assert!(stood(&judged(step, mint)), "{step}");
    }
    for step in ["Steep the mint in the spirit and the water for 3 days, strain.", "Steep for 3 days, strain."] {
        assert!(!stood(&judged(step, mint)) && at(&judged(step, mint), "fridge").days.is_some(), "{step}");
    }
    // with the time as a key of the card
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let card = format!(
        "name = \"T\"\ntakes = \"3 days\"\nsteps = [\"Steep the mint in the water. Then add the spirit, strain.\"]\n[parts]\n{mint}{BOTTLE}"
    );
    assert!(stood(&kitchen.solve(&card, &Options::default()).dated(2_000)));
    // fruit in wine that is fortified later may have worked; fortified from the first day it did not
    let wine = "strawberries = { amount = \"300 g\", strained = true }\n\"white sugar\" = \"100 g\"\n\"red wine\" = \"500 \
                ml\"\n\"neutral spirit 96 %\" = \"200 ml\"\n";
    let works = |step: &str, parts: &str| says(step, parts, "gas_burst");
    assert!(works("Let the strawberries stand in the wine for a week. Strain. Then add the spirit.", wine));
    assert!(!works("Let the strawberries stand in the wine and the spirit for a week. Strain.", wine));
    // and what was let down later stood strong
    for (berries, sugar, spirit, water, step) in [
        (
            "strawberries",
            "white sugar",
            "vodka",
            "water",
            "Steep the strawberries in the vodka for a week, strain. Add the water and the sugar.",
        ),
        (
            "Erdbeeren",
            "Zucker",
            "Wodka",
            "Wasser",
            "Die Erdbeeren im Wodka eine Woche ziehen lassen, abseihen. Wasser und Zucker zugeben.",
        ),
    ] {
        let parts = format!(
            "{berries} = {{ amount = \"200 g\", strained = true }}\n\"{sugar}\" = \"100 g\"\n{spirit} = \"400 ml\"\n{water} = \"500 ml\"\n"
        );
        let judged = judged(step, &parts);
        assert!(judged.cautions.iter().all(|caution| caution.code != "gas_burst"), "{step}");
        assert!(at(&judged, "fridge").days.is_some_and(|days| days > 3), "{step}");
    }
}

/// Plastic hides no fermenting: a closed bottle or bag of it bursts as well, and is no safer by its name.
#[test]
fn what_works_in_closed_plastic_is_stopped_too() {
    let steps = "Leave the strawberries in the sugar for 4 days, strain.";
    for (container, code) in [("glass", "gas_burst"), ("plastic", "gas_in_plastic"), ("bag", "gas_in_plastic")] {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let keep = BOTTLE.replace("glass", container);
        let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{BERRIES}{keep}");
        let judged = kitchen.solve(&card, &Options::default()).dated(200);
        assert!(
            judged.cautions.iter().any(|caution| caution.code == code && caution.stops()),
            "{container}: {:?}",
            judged.cautions
        );
        assert!(at(&judged, "fridge").days.is_none(), "{container}");
    }
}

/// Weak, no acid: what stands a night in the room has no date, in whatever words the night is told; in the fridge it has one.
#[test]
fn a_night_is_a_night_in_whatever_words() {
    const NUTS: &str =
        "hazelnuts = { amount = \"200 g\", strained = true }\nwater = \"500 ml\"\n\"white sugar\" = \"450 g\"\n";
    for step in [
        "Leave overnight, strain.",
        "Leave over night, strain.",
        "Leave all night, strain.",
        "Leave till the morning, strain.",
        "Leave until tomorrow, strain.",
        "Leave from close till open, strain.",
        "6 hours in the window, strain.",
        "Forget about it for 12 hours, strain.",
        "Leave it on the side till close, strain.",
        "Leave out for a shift, strain.",
        "Steep from open to close, strain.",
        "Den Tag über ziehen lassen, abseihen.",
        "Dejar de un día para otro, colar.",
        "Lasciare dalla sera alla mattina, filtrare.",
        "Laisser infuser du soir au matin, filtrer.",
        "Leave to cool overnight. Strain.",
        "Cool overnight, strain.",
        "Allow to cool overnight in the pan, strain.",
        "Let cool completely, overnight, strain.",
        "Laisser jusqu'au matin, filtrer.",
        "Far raffreddare per una notte, filtrare.",
        "Lasciare fino al mattino, filtrare.",
        "Cold infuse 24 hours, strain.",
        "Cold steep for 12 hours, strain.",
        "Infuser à froid 24 heures, filtrer.",
        "Macerare a freddo 24 ore, filtrare.",
        "Kalt ansetzen, 24 Stunden ziehen lassen, abseihen.",
    ] {
        let judged = judged(step, NUTS);
        assert!(at(&judged, "fridge").days.is_none(), "{step}");
    }
    for step in [
        "Leave in the fridge over night, strain.",
        "Leave to cool, then into the fridge overnight, strain.",
        "Cold infuse in the fridge for 24 hours, strain.",
        "Cool, strain, use within 2 weeks.",
        "Strain and keep cool for 2 weeks.",
        "Infuser à froid au réfrigérateur 24 heures, filtrer.",
    ] {
        let judged = judged(step, NUTS);
        assert!(at(&judged, "fridge").days.is_some(), "{step}");
    }
}

/// Eight hours of it would be too long, four are not (F of the dating rules: 4 h above 21 °C in sum); the stage and the card are one pan.
#[test]
fn what_stands_once_is_counted_once() {
    let parts =
        "hazelnuts = { amount = \"200 g\", strained = true }\nwater = \"500 ml\"\n\"white sugar\" = \"450 g\"\n";
    let steps = "Boil the water, pour over, leave 4 hours.\", \"Strain, stir in the white sugar.";
    let judged = judged(steps, parts);
    assert!(at(&judged, "fridge").days.is_some(), "{:?}", at(&judged, "fridge"));
}

/// Oranges in wine: the acid of the wine and of the fruit counts, so that it did not stand weak and not sour; whether it worked is
/// asked with the strength from which it lies still, 78 Delle units.
#[test]
fn fruit_in_wine_is_asked_with_the_strength_that_keeps_it_still() {
    let orange = |spirit: &str| {
        let parts = format!(
            "\"vin rosé\" = \"5 l\"\n\"eau-de-vie\" = \"{spirit}\"\n\"oranges amères\" = {{ amount = \"960 g\", strained = true }}\n\
             sucre = \"1 kg\"\n"
        );
        judged("Mettre les oranges dans le vin, l'eau-de-vie et le sucre. Laisser macérer 40 jours, filtrer.", &parts)
    };
    let stood = |judged: &Assessment| {
        let refused = &at(judged, "fridge").refused;
        refused.iter().any(|why| format!("{why}").starts_with("stood"))
    };
    let asks = |judged: &Assessment| judged.cautions.iter().any(|caution| caution.code == "gas_burst");
    // by hand: 132 g/L of sugar, (78 - 13.2) / 4.5 = 14.4
    let weak = orange("1 l");
    assert!(weak.hurdles.ph_up.is_some_and(|ph| ph < 4.4) && !stood(&weak), "{:?}", weak.hurdles);
    let said = format!("{:?}", weak.cautions);
    assert!(asks(&weak) && said.contains("14.4 % vol from the first day") && said.contains("here 13.1"), "{said}");
    // by hand: 122 g/L of sugar, (78 - 12.2) / 4.5 = 14.6
    let strong = orange("1.7 l");
    assert!(!asks(&strong) && !stood(&strong) && at(&strong, "fridge").days.is_some(), "{:?}", strong.cautions);
}

/// Sugar water is dated as what needs the cold, and so has no date where a step had it warm for a day; a syrup that is stirred cold
/// overnight keeps its own.
#[test]
fn what_needs_the_cold_has_no_date_behind_a_day_in_the_warm() {
    const THIN: &str = "\"white sugar\" = \"250 g\"\nwater = \"750 g\"\n";
    const RICH: &str = "\"white sugar\" = \"650 g\"\nwater = \"350 g\"\n";
    for step in [
        "Keep in a warm water bath for three days.",
        "Drei Tage auf der Heizung stehen lassen.",
        "Laisser trois jours au soleil.",
        "Dejar tres días al sol.",
        "Lasciare tre giorni al sole.",
        "Leave for 48 hours at 30 °C.",
        "Leave on the counter overnight.",
    ] {
        assert_eq!(at(&judged(step, THIN), "fridge").days, None, "{step}");
    }
    for (step, parts) in [
        ("Leave in the fridge for three days.", THIN),
        // dry enough by the tables of the Food Code
        ("Leave on the counter for three days.", RICH),
    ] {
        assert!(at(&judged(step, parts), "fridge").days.is_some(), "{step}");
    }
}

/// A syrup that is stirred cold stands for a night; thin sugar water that is left somewhere warm is food for what grows in it (FDA Food Code
/// 2022, 3-501.16: out of the cold no longer than four hours).
#[test]
fn thin_sugar_water_does_not_stand_in_the_warm_for_a_night() {
    let thin = "\"white sugar\" = \"60 g\"\nwater = \"540 g\"\n";
    let steps = "Leave on the counter overnight.|Leave overnight beside the oven.|Keep the pot warm for a night.|Eine Nacht an einem warmen Ort \
        stehen lassen.|Laisser une nuit au chaud.|Dejar una noche en un sitio caliente.|Lasciare una notte al caldo.|Deixar uma noite ao calor.";
    for step in steps.split('|') {
        assert_eq!(at(&judged(step, thin), "fridge").days, None, "{step}");
    }
    assert!(at(&judged("Leave overnight in the fridge.", thin), "fridge").days.is_some());
    assert!(at(&judged("Leave on the counter for 2 h.", thin), "fridge").days.is_some());
    let (syrup, plain) = ("\"white sugar\" = \"600 g\"\nwater = \"400 g\"\n", "water = \"600 g\"\nsalt = \"6 g\"\n");
    assert!(at(&judged("Leave on the counter overnight, stirring.", syrup), "fridge").days.is_some());
    assert!(at(&judged("Leave on the counter overnight.", plain), "fridge").days.is_some());
}
