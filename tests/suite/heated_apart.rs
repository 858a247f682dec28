//! What the steps heat apart from the spirit: the wine, the fat of a wash, a bag in hot water.

use crate::kitchen::Kitchen;
use stillroom::solver::Options;

const CHERRIES: &str =
    "[parts]\nbrandy = \"700 ml\"\n\"sour cherries\" = { amount = \"600 g\", strained = true }\nsugar = \"200 g\"\n";

fn says(steps: &str, parts: &str, code: &str) -> bool {
    let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n{parts}");
    let judged = Kitchen::unstated("").solve(&card, &Options::default()).dated(2_000);
    judged.cautions.iter().any(|caution| caution.code == code)
}

/// Wine that is warmed apart and added behind is judged by its own strength, and not by that of the spirit that it goes to.
#[test]
fn wine_warmed_apart_is_hot_wine() {
    let parts = "[parts]\n\"lemon peel\" = { amount = \"40 g\", strained = true }\nvodka = \"300 ml\"\n\"white wine\" = \"750 ml\"\n\
                 sugar = \"250 g\"\n";
    let says = |step: &str, code: &str| {
        says(&format!("Put the peel in a jar with the vodka, leave for 5 days, strain.\", \"{step}"), parts, code)
    };
    for step in [
        "Warm the wine with the sugar, cool and add.",
        "Warm the wine, cool and add to the vodka.",
        "Den Weißwein mit dem Zucker erwärmen, abkühlen lassen und zugeben.",
    ] {
        assert!(!says(step, "hot_spirit") && says(step, "hot_wine"), "{step}");
    }
    for step in [
        "Warm the wine and the vodka with the sugar, cool and add.",
        "Warm the infusion with the wine, cool and add.",
        "Warm it with the sugar, cool and add.",
        "Add the wine, warm gently and add the sugar.",
    ] {
        assert!(says(step, "hot_spirit"), "{step}");
    }
}

/// "Over a low heat" is no verb: what it heats is named in front. A bag that is circulated hangs in hot water.
#[test]
fn the_fat_of_a_wash_is_melted_without_the_spirit() {
    let fat = "[parts]\n\"bacon fat\" = { amount = \"45 ml\", strained = true }\nbourbon = \"750 ml\"\n";
    for (step, hot) in [
        ("Warm the fat over low heat until liquid.", false),
        ("Melt the fat over a low heat.", false),
        ("Warm the bourbon with the fat over low heat.", true),
        ("Melt the fat in the bourbon over low heat.", true),
        ("Stir over low heat.", true),
    ] {
        let steps =
            format!("{step}\", \"Combine with the bourbon and leave for 4 hours. Freeze, lift off the fat and strain.");
        assert_eq!(says(&steps, fat, "hot_spirit"), hot, "{step}");
    }
    for step in ["Circulate at 55 °C for 2 hours.", "Im Einhängethermostat bei 55 °C 2 Stunden halten."] {
        let steps = format!("Seal the cherries and the brandy in a vacuum bag.\", \"{step}");
        let cherries = format!("heated = \"55 °C for 120 min\"\n{CHERRIES}");
        assert!(says(&steps, &cherries, "hot_spirit_bath") && !says(&steps, &cherries, "hot_spirit"), "{step}");
    }
}

/// A small word in the name of a spirit is none of its words: "alcool a 95°" is not what stands "a fuoco basso".
#[test]
fn a_small_word_of_a_name_names_no_spirit() {
    let of = |spirit: &str, fire: &str, add: &str| {
        let parts = format!("[parts]\nsugar = \"600 g\"\nwater = \"1 L\"\n\"{spirit}\" = \"600 ml\"\n");
        says(&format!("{fire}\", \"{add}"), &parts, "hot_spirit")
    };
    let add = "Far raffreddare. Aggiungere l'alcool.";
    assert!(!of("alcool a 95°", "Sciogliere lo zucchero nell'acqua, mescolando a fuoco basso.", add));
    assert!(of("alcool a 95°", "Sciogliere lo zucchero nell'alcool, mescolando a fuoco basso.", ""));
    assert!(of("alcool a 95°", "Scaldare l'alcool a fuoco basso con lo zucchero.", ""));
}

/// A verb that names nothing goes on with what its sentence named before.
#[test]
fn butter_that_is_melted_and_cooked_heats_no_spirit() {
    let butter = "[parts]\n\"unsalted butter\" = { amount = \"113 g\", strained = true }\nbourbon = \"750 ml\"\n";
    for (step, hot) in [
        ("In a skillet, melt the butter over medium heat and cook until brown and nutty, ~6 minutes.", false),
        ("Melt the butter and cook until brown.", false),
        ("Put the butter in the bourbon and heat.", true),
        ("Add the butter and heat.", true),
        ("Melt the butter, pour in and heat gently.", true),
        ("Melt the butter. Cook until hot.", true),
    ] {
        let steps = format!("{step}\", \"Pour into the bourbon, leave for 2 hours, freeze and strain.");
        assert_eq!(says(&steps, butter, "hot_spirit"), hot, "{step}");
    }
}

/// Rum that a step of its own puts in off the heat was not in the hot pan: the wine is judged by itself.
#[test]
fn rum_put_in_off_the_heat_by_a_step_of_its_own_was_not_hot() {
    let pan = |wine: &str, rum: &str, sugar: &str| {
        format!("[parts]\n{wine} = \"1.5 L\"\n{rum} = \"300 ml\"\n{sugar} = \"150 g\"\n")
    };
    let mulled = [
        (
            "Warm the wine with the sugar, do not boil.",
            "Take off the heat, add the rum.",
            pan("\"red wine\"", "rum", "sugar"),
        ),
        ("Den Wein mit dem Zucker erwärmen.", "Vom Herd nehmen, den Rum zugeben.", pan("Rotwein", "Rum", "Zucker")),
        ("Chauffer le vin avec le sucre.", "Hors du feu, ajouter le rhum.", pan("\"vin rouge\"", "rhum", "sucre")),
        ("Calentar el vino con el azúcar.", "Fuera del fuego añadir el ron.", pan("\"vino tinto\"", "ron", "azúcar")),
        (
            "Scaldare il vino con lo zucchero.",
            "Fuori dal fuoco aggiungere il rum.",
            pan("\"vino rosso\"", "rum", "zucchero"),
        ),
    ];
    for (warmed, added, parts) in mulled {
        let steps = format!("{warmed}\", \"{added}");
        assert!(!says(&steps, &parts, "hot_spirit") && says(&steps, &parts, "hot_wine"), "{steps}");
    }
    let parts = pan("\"red wine\"", "rum", "sugar");
    for steps in [
        "Warm the wine with the rum and the sugar.\", \"Take off the heat and strain.",
        "Warm the rum with the sugar.\", \"Off the heat add the wine.",
        "Warm everything.\", \"Take off the heat, add the rum.",
        "Add the rum.\", \"Warm the wine with the sugar.",
    ] {
        assert!(says(steps, &parts, "hot_spirit"), "{steps}");
    }
}
