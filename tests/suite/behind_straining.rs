//! What the steps put in behind a straining while the lines strain it with the rest: asked by whatever name the step gives to what ran
//! through, and held by the ± of the sheet even where it is too little to ask.

use crate::kitchen::Kitchen;
use stillroom::card::TargetKind;
use stillroom::solver::Options;

fn asked(steps: &str, parts: &str) -> bool {
    let kitchen = Kitchen::unstated("");
    let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}\nsugar = \"400 g\"\n");
    let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
    found.iter().any(|found| found.title.contains("sugar` goes in behind the straining"))
}

const ALMONDS: &str = "almonds = { amount = \"290 g\", strained = true }\nwater = \"700 ml\"";
const BERRIES: &str = "raspberries = { amount = \"500 g\", strained = true }\nwater = \"300 ml\"";

#[test]
fn what_ran_through_may_be_called_by_its_fruit() {
    for (steps, parts) in [
        (
            "Soak the almonds in the water for 4 hours, squeeze through a nut milk bag. Heat the almond milk with the sugar.",
            ALMONDS,
        ),
        ("Soak the almonds in the water, strain. Add the sugar to the almond milk.", ALMONDS),
        ("Soak the almonds in the water, strain. Discard the almonds. Stir in the sugar.", ALMONDS),
        (
            "Blend the raspberries with the water and strain. Heat the raspberry juice with the sugar. Fine-strain, bottle.",
            BERRIES,
        ),
        ("Blend the raspberries with the water and strain. Stir the sugar into the raspberry liquid.", BERRIES),
        (
            "Steep the hibiscus in the boiling water 15 minutes and strain. Stir the sugar into the hibiscus tea.",
            "hibiscus = { amount = \"40 g\", strained = true }\nwater = \"500 ml\"",
        ),
        (
            "Steep the damsons in the gin for 8 weeks, strain. Stir the sugar into the damson gin.",
            "damsons = { amount = \"500 g\", strained = true }\ngin = \"700 ml\"",
        ),
        (
            "Mixer les framboises avec l'eau, filtrer. Chauffer le jus de framboises avec le sucre.",
            "framboises = { amount = \"500 g\", strained = true }\neau = \"300 ml\"",
        ),
    ] {
        assert!(asked(steps, parts), "{steps}");
    }
    for steps in [
        "Simmer the raspberries with the sugar and the water, strain. Heat the raspberry juice.",
        "Stir the sugar into the raspberries and the water. Strain the raspberry juice, bottle.",
    ] {
        assert!(!asked(steps, BERRIES), "{steps}");
    }
}

/// The sheet strains all of it; its ± reaches what the same card gives with a stage of its own for what is strained.
#[test]
fn the_spread_holds_both_ways_of_reading_it() {
    let orgeat = (
        "name = \"T\"\nsteps = [\"Soak the almonds in the water, strain.\", \"Heat the almond milk with the sugar.\"]\n[parts]\n\
         almonds = { amount = \"290 g\", strained = true }\nwater = \"700 ml\"\nsugar = \"600 g\"\n",
        "name = \"T\"\n[[stage]]\nname = \"almond milk\"\n[stage.parts]\nalmonds = { amount = \"290 g\", strained = true }\n\
         water = \"700 ml\"\n[parts]\n\"almond milk\" = \"all\"\nsugar = \"600 g\"\n",
        TargetKind::Brix,
    );
    let dram = (
        "name = \"T\"\nsteps = [\"Steep the allspice in the rum for 10 days, strain.\", \"Boil the water and sugar, cool, mix.\"]\n\
         [parts]\n\"allspice berries\" = { amount = \"40 g\", strained = true }\n\"overproof rum\" = \"500 ml\"\n\
         sugar = \"350 g\"\nwater = \"350 ml\"\n",
        "name = \"T\"\n[[stage]]\nname = \"spiced rum\"\n[stage.parts]\n\"allspice berries\" = { amount = \"40 g\", strained = \
         true }\n\"overproof rum\" = \"500 ml\"\n[parts]\n\"spiced rum\" = \"all\"\nsugar = \"350 g\"\nwater = \"350 ml\"\n",
        TargetKind::Abv,
    );
    for (as_lines, in_stages, kind) in [orgeat, dram] {
        let kitchen = Kitchen::unstated("");
        let [(lines, by), (stages, _)] = [as_lines, in_stages].map(|card| {
            let made = kitchen.solve(card, &Options::default());
            let by = made.sheet().doubt.iter().find(|doubt| doubt.kind == kind).unwrap().half_width;
            (made.is(kind), by)
        });
        assert!((lines - stages).abs() > 0.5, "{kind:?}: the two readings differ");
        assert!((lines - stages).abs() <= by, "{kind:?}: {lines:.1} ± {by:.1} reaches {stages:.1}");
    }
}

/// Fruit that is pressed gives more than pieces that lie in a liquid: asked, and inside the ±.
#[test]
fn pressed_fruit_is_no_fruit_in_pieces() {
    let kitchen = Kitchen::unstated("");
    let card = |step: &str, holds: &str| {
        format!(
            "name = \"T\"\n[[stage]]\nname = \"juice\"\nsteps = [\"{step}\"]\n[stage.parts]\nquinces = {{ amount = \"1 kg\", strained = \
             true{holds} }}\n[parts]\njuice = \"all\"\nKorn = \"1 L\"\n"
        )
    };
    let asks = |text: &str| {
        let (_, found) = kitchen.solve(text, &Options::default()).sheet_and_found();
        found.iter().any(|found| found.title.contains("weigh what stays in the cloth"))
    };
    for step in [
        "Quitten raspeln. Auspressen.",
        "Grate the quinces and press them.",
        "Blend the quinces, strain through a cloth.",
    ] {
        assert!(asks(&card(step, "")), "{step}");
        let made = kitchen.solve(&card(step, ""), &Options::default());
        let by = made.sheet().doubt.iter().find(|doubt| doubt.kind == TargetKind::Abv).unwrap().half_width;
        // a kitchen press gives about 450 g of the kilo
        let pressed = kitchen.solve(&card(step, ", holds = -0.45"), &Options::default());
        let (counted, pressed) = (made.is(TargetKind::Abv), pressed.is(TargetKind::Abv));
        assert!(
            counted - pressed > 2.0 && counted - by <= pressed,
            "{step}: {counted:.1} ± {by:.1}, pressed {pressed:.1}"
        );
        assert!(!asks(&card(step, ", holds = -0.45")));
    }
    for step in ["Grate the quinces, steep for a week, strain.", "Grate the quinces, strain, do not press them."] {
        assert!(!asks(&card(step, "")), "{step}");
    }
}
