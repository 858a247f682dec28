//! What a step changes of the lines of its card, what it points at of a listed plant, and the gas of what is weighed. The cards are ours; what a
//! person expects of each is beside it.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::mixture::gas::gauge_bar;
use stillroom::solver::Options;

const HOUSE: &str =
    "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
const LIQUEUR: &str = "\"vodka 40 %\" = \"500 ml\"\n\"white sugar\" = \"100 g\"\nwater = \"200 g\"\n\
                       mint = { amount = \"10 g\", strained = true }\n";
const GLASS: &str = "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn judged(keys: &str, steps: &str, parts: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let card = format!("name = \"T\"\n{keys}steps = [\"{steps}\"]\n[parts]\n{parts}{GLASS}");
    kitchen.solve(&card, &Options::default()).dated(100)
}

fn asked(keys: &str, step: &str, parts: &str) -> Vec<String> {
    judged(keys, step, parts).unidentified.into_iter().map(|open| open.question).collect()
}

#[test]
fn another_thing_in_the_place_of_a_line_is_asked() {
    for (step, says) in [
        ("Swap the vodka for apple juice.", "vodka 40 %: which"),
        ("Wodka durch Apfelsaft ersetzen.", "vodka 40 %: which"),
        ("Remplacer la vodka par du jus de pomme.", "vodka 40 %: which"),
        ("Use milk instead of water.", "water: which"),
        ("Milch statt Wasser nehmen.", "water: which"),
        ("Du lait à la place de l'eau.", "water: which"),
        ("Leche en vez de agua.", "water: which"),
        ("Latte al posto dell'acqua.", "water: which"),
        ("Use the 20 % vodka.", "vodka 40 %: which"),
        ("Use alcohol-free vodka.", "vodka 40 %: which"),
        ("Pour off half and replace it with water.", "how much water"),
    ] {
        let asked = asked("", step, LIQUEUR);
        assert!(asked.iter().any(|question| question.contains(says)), "{step}: {asked:?}");
    }
    for step in [
        "Use the mint instead of the sugar.",
        "Use a sieve instead of a cloth.",
        "Stir rather than shake.",
        "You can use lemon balm instead of mint.",
        "Statt Minze geht auch Melisse.",
        "Replace the lid, shake, strain.",
        "Add 40 g of the sugar first, then the rest.",
    ] {
        let asked = asked("", step, LIQUEUR);
        assert!(asked.is_empty(), "{step}: {asked:?}");
    }
}

#[test]
fn more_less_or_none_of_a_line_is_asked() {
    for step in [
        "Stir in more vodka.",
        "Double the vodka for the strong one.",
        "Leave half of the vodka out.",
        "Skip the sugar.",
        "Leave out the sugar.",
        "Zucker weglassen.",
        "Sans sucre cette fois.",
        "Sin azúcar esta vez.",
        "Senza zucchero stavolta.",
        "Half again as much sugar this time.",
    ] {
        let asked = asked("", step, LIQUEUR);
        assert!(asked.iter().any(|question| question.contains("the lines have")), "{step}: {asked:?}");
    }
    for step in ["Fill to the top with rum.", "Bis oben mit Rum füllen.", "Remplir de rhum jusqu'en haut."] {
        assert!(!asked("", step, LIQUEUR).is_empty(), "{step}");
    }
    for step in ["Llenar de ron hasta arriba.", "Riempire di rum fino all'orlo.", "Add half a bottle of wine."] {
        assert!(!asked("", step, LIQUEUR).is_empty(), "{step}");
    }
    for step in ["Une demi-bouteille de vin.", "Media botella de vino.", "Eine halbe Flasche Wein dazu."] {
        assert!(!asked("", step, LIQUEUR).is_empty(), "{step}");
    }
    for step in [
        "Add half the sugar, stir, add more sugar until it is all in.",
        "Steep without the lid.",
        "Shake without ice.",
        "Pour it into a bottle.",
        "Open a bottle the next day and taste.",
        "Fill the jar to the top with the vodka.",
    ] {
        let asked = asked("", step, LIQUEUR);
        assert!(!asked.iter().any(|question| question.contains("the line")), "{step}: {asked:?}");
        assert!(!asked.iter().any(|question| question.contains("no line has")), "{step}: {asked:?}");
    }
}

/// 30 ml of gin beside the 50 of the line: the units of the sheet would be those of the line alone.
#[test]
fn more_of_what_a_drink_has_is_asked() {
    let drink = "\"gin 40 %\" = \"50 ml\"\n\"lime juice\" = \"20 ml\"\n\"white sugar\" = \"10 g\"\n";
    for step in [
        "Add another 30 ml of gin.",
        "Noch 30 ml Gin dazu.",
        "Encore 30 ml de gin.",
        "Otros 30 ml de ginebra.",
        "Altri 30 ml di gin.",
        "Use double the gin.",
    ] {
        assert!(!asked("how = \"shaken\"\n", step, drink).is_empty(), "{step}");
    }
    for step in ["Add the 50 ml of gin, shake.", "Shake hard for 12 seconds.", "Double-strain."] {
        let asked = asked("how = \"shaken\"\n", step, drink);
        assert!(asked.is_empty(), "{step}: {asked:?}");
    }
}

#[test]
fn parts_of_a_listed_plant_are_read_with_its_name() {
    let with =
        |plant: &str| format!("\"vodka 40 %\" = \"500 ml\"\n\"{plant}\" = {{ amount = \"100 g\", strained = true }}\n");
    let stops = |step: &str, plant: &str| judged("", step, &with(plant)).cautions.iter().any(|caution| caution.stops());
    for (plant, step) in [
        ("apricot", "Leave the stones in, cracked."),
        ("cherries", "Mit den Kernen zerstampfen."),
        ("cherries", "Con los huesos."),
        ("rhubarb", "Use the whole plant, leaf and stalk."),
        ("rhubarb", "Mit den Blättern verarbeiten."),
        ("lychee", "Crush with the seeds."),
        ("almonds", "Use bitter ones."),
        ("star anise", "Japanese ones will do."),
    ] {
        assert!(stops(step, plant), "{plant}: {step}");
    }
    for (plant, step) in [
        ("cherries", "Pit the cherries, steep a week, strain."),
        ("cherries", "Wash, pit, steep a week, strain."),
        ("cherries", "Steep for a week, strain off the stones."),
        ("cherries", "Ohne die Kerne ansetzen."),
        ("cherries", "Abseihen, die Kerne absieben."),
        ("rhubarb", "Cut off and discard the leaves, steep a week."),
        ("almonds", "Steep until it tastes bitter, strain."),
    ] {
        assert!(!stops(step, plant), "{plant}: {step}");
    }
}

/// 20 g of sodium bicarbonate are 0.238 mol, less than 20 g of citric acid could set free; in 0.8 L that is 8 to 9 bar by hand:
/// 0.3 mol/L over what 0.033 mol/L/bar of water and a twentieth of room take up.
#[test]
fn soda_and_acid_in_a_closed_bottle_burst_it() {
    assert!((gauge_bar(0.3) - 0.3 / (0.033 + 0.05 / 24.79)).abs() < 0.01);
    let parts = |soda: &str| {
        format!(
            "\"white sugar\" = \"400 g\"\nwater = \"500 g\"\n\"citric acid\" = \"20 g\"\n\"sodium bicarbonate\" = \"{soda}\"\n"
        )
    };
    let bursts = |step: &str, soda: &str| {
        judged("", step, &parts(soda)).cautions.iter().any(|caution| caution.code == "gas_of_soda" && caution.stops())
    };
    assert!(bursts("Mix, bottle.", "20 g"));
    assert!(!bursts("Mix, bottle.", "1 g"), "a pinch");
    assert!(bursts(
        "Boil the sugar and the water. Cool, add the citric acid and the sodium bicarbonate, bottle.",
        "20 g"
    ));
    for step in [
        "Boil everything for five minutes, bottle.",
        "Stir in an open pan until it stops foaming, bottle.",
        "Offen rühren, bis es nicht mehr schäumt, abfüllen.",
    ] {
        assert!(!bursts(step, "20 g"), "{step}");
    }
    let no_acid = "\"white sugar\" = \"400 g\"\nwater = \"500 g\"\n\"sodium bicarbonate\" = \"5 g\"\n";
    let quiet = judged("", "Mix, bottle.", no_acid);
    assert!(!quiet.cautions.iter().any(|caution| caution.code == "gas_of_soda"), "{:?}", at(&quiet, "fridge").days);
}

const DRINK: &str = "name = \"T\"\nhow = \"shaken\"\nglass = \"coupe\"\n";
const SOUR: &str = "[parts]\n\"gin 40 %\" = \"50 ml\"\n\"lime juice\" = \"20 ml\"\n\"white sugar\" = \"10 g\"\n[ice]\ngrams = \"200 g\"\n";

/// More of what makes its strength: by a word, by the verb, or poured on top.
#[test]
fn a_drink_that_gets_more_of_its_spirit_is_asked() {
    let asked = |step: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let card = format!("{DRINK}steps = [\"Shake and strain.\", \"{step}\"]\n{SOUR}");
        let open = kitchen.solve(&card, &Options::default()).dated(100).unidentified;
        open.into_iter().map(|open| open.question).collect::<Vec<_>>()
    };
    for step in [
        "Double gin.",
        "Doppelter Gin.",
        "Repeat the pour of gin.",
        "Pour the gin twice.",
        "Den Gin zweimal eingießen.",
        "Verser le gin deux fois.",
        "Top with 40 ml of overproof rum 63 % and set alight.",
        "Top with 20 ml of white rum.",
        "Double dose de gin.",
        "Doppia dose di gin.",
        "Two shots instead of one.",
        "Zwei Schuss statt einem.",
        "Make it a double.",
        "Fill the glass with gin.",
        "Remplir le verre de vodka.",
        "Llenar el vaso con vodka.",
        "Riempire il bicchiere di vodka.",
        "Flotter 20 ml de rhum.",
        "Flotar 20 ml de ron.",
        "Galleggiare 20 ml di rum.",
        "Drop a shot of rum into it.",
        "Add half a bottle of gin for the table.",
    ] {
        assert!(!asked(step).is_empty(), "{step}");
    }
    for step in [
        "Double-strain over the gin ice.",
        "Strain the gin twice.",
        "Shake twice.",
        "Pour it and serve.",
        "Fill the glass with ice.",
        "Fill the glass with ice and pour the gin over it.",
        "Fill the glass with water to chill it.",
        "Use the double jigger.",
        "Use a cube instead of one from the tray.",
        "Versare due volte da un bicchiere all'altro.",
    ] {
        assert_eq!(asked(step), Vec::<String>::new(), "{step}");
    }
}

/// Half of what the steps have made, while the lines count all of it: what goes in behind it meets half.
#[test]
fn half_of_what_was_made_is_asked() {
    const PARTS: &str = "rum = \"700 ml\"\nsugar = \"500 g\"\nwater = \"500 ml\"\n";
    let says = |first: &str, half: &str, last: &str| {
        let asked = asked("", &format!("{first}\", \"{half}\", \"{last}"), PARTS);
        asked.iter().any(|asked| asked.contains("the lines count all of it"))
    };
    let (first, last) = ("Dissolve the sugar in the water.", "Mix in the rum and bottle.");
    for half in [
        "Use half of the syrup for this.",
        "Keep half the syrup back for service.",
        "Use half of the syrup for this and keep the rest.",
        "Die Hälfte des Sirups verwenden.",
        "Garder la moitié du sirop.",
        "Guardar la mitad del jarabe.",
        "Usare metà dello sciroppo.",
    ] {
        assert!(says(first, half, last), "{half}");
    }
    for (half, last) in [
        ("Reduce the syrup by half.", last),
        ("Use half of the rum to rinse the pan.", last),
        ("Add half of the syrup to the ice.", "Mix in the rum, then add the rest of the syrup."),
        ("Mix in the rum and bottle.", "Use half of the syrup within a week."),
    ] {
        assert!(!says(first, half, last), "{half}");
    }
}
