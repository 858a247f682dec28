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
