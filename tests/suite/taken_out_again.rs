//! What a typed card takes out again in words that are none of straining, while no line is strained: asked; and what is only filled into
//! bottles, or hulled, is not. All invented.

use crate::kitchen::Kitchen;
use stillroom::solver::Options;

/// Whether it is asked what of the beans is strained out.
fn asked(parts: &str, steps: [&str; 2]) -> bool {
    let kitchen = Kitchen::unstated("");
    let card = format!("name = \"T\"\nsteps = {steps:?}\n[parts]\n{parts}\n");
    let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
    found.iter().any(|found| found.title.contains("no line says what is strained out"))
}

#[test]
fn what_takes_the_beans_out_is_heard_in_five_languages() {
    let of_rum = |spirit: &str, beans: &str| format!("{spirit} = \"700 ml\"\n\"{beans}\" = \"50 g\"");
    let kitchens = [
        (
            of_rum("rum", "coffee beans"),
            "Put the coffee beans into the rum; leave 2 weeks.",
            vec![
                "Remove the beans and bottle.",
                "Take the beans out, bottle.",
                "Pull the beans after 2 weeks and bottle.",
                "Discard the beans and bottle.",
                "Decant off the beans and bottle.",
                "Decant, bottle.",
                "Rack off into a clean bottle.",
                "Pour off the liquid and bottle.",
                "Run through a chemex.",
                "Pass through a nut milk bag.",
                "Remove the solids and bottle.",
                "Separate the beans from the rum.",
                "Tip through a tea towel.",
                "Pour through a V60 paper.",
                "Siphon the rum off the solids.",
            ],
        ),
        (
            of_rum("Rum", "Kaffeebohnen"),
            "Kaffeebohnen in den Rum geben, 2 Wochen ziehen lassen.",
            vec![
                "Abtropfen lassen und abfüllen.",
                "Abgießen und abfüllen.",
                "Durch ein Tuch gießen.",
                "Die Bohnen entfernen und abfüllen.",
                "Durch einen Kaffeefilter laufen lassen.",
                "Die Bohnen rausfischen.",
                "Vom Bodensatz abziehen.",
            ],
        ),
        (
            of_rum("rhum", "café en grains"),
            "Mettre le café en grains dans le rhum, laisser macérer 2 semaines.",
            vec![
                "Retirer les grains.",
                "Enlever les grains et mettre en bouteille.",
                "Ôter les grains.",
                "Tamiser.",
                "Décanter et mettre en bouteille.",
                "Soutirer et mettre en bouteille.",
            ],
        ),
        (
            of_rum("ron", "granos de café"),
            "Poner los granos de café en el ron, dejar 2 semanas.",
            vec![
                "Retirar los granos.",
                "Sacar los granos y embotellar.",
                "Quitar los granos.",
                "Pasar por un chino.",
                "Pasar por una estameña.",
                "Decantar y embotellar.",
                "Tamizar.",
            ],
        ),
        (
            of_rum("rum", "caffè in grani"),
            "Mettere il caffè in grani nel rum, lasciare 2 settimane.",
            vec![
                "Togliere i grani.",
                "Eliminare i grani e imbottigliare.",
                "Rimuovere i grani.",
                "Decantare e imbottigliare.",
                "Passare attraverso un panno.",
            ],
        ),
    ];
    for (parts, steeps, all) in &kitchens {
        let silent: Vec<&&str> = all.iter().filter(|out| !asked(parts, [*steeps, **out])).collect();
        assert!(silent.is_empty(), "{silent:?}");
    }
}

#[test]
fn what_fills_a_vessel_or_was_never_in_takes_nothing_out() {
    let rum = "rum = \"700 ml\"\n\"coffee beans\" = \"50 g\"";
    for steps in [
        ["Put the coffee beans into the rum; leave 2 weeks.", "Decant into bottles."],
        ["Put the coffee beans into the rum; leave 2 weeks.", "Remove the lid and stir."],
        ["Remove the husks of the coffee beans.", "Put them into the rum; leave 2 weeks and bottle."],
        ["Warm the rum with the coffee beans for 5 minutes.", "Remove from the heat, cool, bottle."],
    ] {
        assert!(!asked(rum, steps), "{steps:?}");
    }
    let berries = "strawberries = \"300 g\"\nsugar = \"300 g\"\nwater = \"300 ml\"";
    let hulled =
        ["Simmer the sugar and the water for 10 minutes.", "Remove the stalks from the strawberries, blend all."];
    assert!(!asked(berries, hulled));
}
