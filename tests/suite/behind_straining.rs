//! What the steps put in behind a straining while the lines strain it with the rest: asked by whatever name the step gives to what ran
//! through, and held by the ± of the sheet even where it is too little to ask.

use crate::kitchen::Kitchen;
use stillroom::card::TargetKind;
use stillroom::solver::Options;

fn asked(steps: &str, parts: &str) -> bool {
    let kitchen = Kitchen::unstated("");
    let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}\nsugar = \"400 g\"\n");
    let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
    found.iter().any(|found| found.title.contains("sugar`") && found.title.contains(" in after the straining"))
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

/// The sheet gives what the same card gives with a stage of its own for what is strained, and its ± reaches what it would be with all
/// of it in the strainer; what is solved for is solved as the lines stand, and the ± reaches the stage.
#[test]
fn the_order_of_the_steps_is_counted_and_the_spread_holds_both() {
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
    for (in_order, in_stages, kind) in [orgeat, dram] {
        let kitchen = Kitchen::unstated("");
        let of = |card: &str| {
            let made = kitchen.solve(card, &Options::default());
            let by = made.sheet().doubt.iter().find(|doubt| doubt.kind == kind).unwrap().half_width;
            (made.is(kind), by)
        };
        let all_strained = in_order.lines().filter(|line| !line.starts_with("steps")).collect::<Vec<_>>().join("\n");
        let ((told, by), (stages, _), (lines, _)) = (of(in_order), of(in_stages), of(&all_strained));
        assert!((lines - stages).abs() > 0.5, "{kind:?}: the two readings differ");
        assert!((told - stages).abs() < 1e-6, "{kind:?}: {told:.2} is {stages:.2}");
        assert!((told - lines).abs() <= by, "{kind:?}: {told:.1} ± {by:.1} reaches {lines:.1}");
        // inside another card it is the same liquid
        kitchen.write("inside.toml", &in_order.replace("\"T\"", "\"Inside\""));
        let outer = "name = \"Outer\"\n[parts]\nInside = \"500 g\"\n";
        assert!((of(outer).0 - stages).abs() < 1e-6, "{kind:?} inside");
    }
}

/// What has a target is solved as its lines stand, and the ± reaches the same card with a stage.
#[test]
fn what_is_solved_for_holds_the_order_as_doubt() {
    let kitchen = Kitchen::unstated("");
    let parts = "\"allspice berries\" = { amount = \"40 g\", strained = true }\n\"overproof rum\" = \"500 ml\"\n";
    let rest = "sugar = \"350 g\"\nwater = \"as needed\"\n";
    let steps = "steps = [\"Steep the allspice in the rum, strain.\", \"Boil the water and the sugar, cool, mix.\"]\n";
    let card = format!("name = \"T\"\n{steps}[target]\nabv = 22\n[parts]\n{parts}{rest}");
    let made = kitchen.solve(&card, &Options::default());
    assert!((made.is(TargetKind::Abv) - 22.0).abs() < 1e-6);
    assert!(made.sheet().doubt.iter().any(|doubt| doubt.kind == TargetKind::Abv && doubt.half_width > 0.5));
}

/// "Steep for 3 weeks" names nothing, and the syrup that is added behind the straining was in no strainer all the same.
#[test]
fn a_steep_that_names_nothing_is_strained_before_the_syrup() {
    let kitchen = Kitchen::unstated("");
    let parts =
        "damsons = { amount = \"500 g\", strained = true }\ngin = \"700 ml\"\nsugar = \"300 g\"\nwater = \"150 ml\"\n";
    let asks = |steps: &[&str]| {
        let card = format!("name = \"T\"\nsteps = {steps:?}\n[parts]\n{parts}");
        let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
        found.iter().any(|found| found.title.contains("`sugar` and `water` go in after the straining"))
    };
    let boil = "Boil the sugar with the water and let it cool.";
    for steps in [
        ["Steep for 3 weeks.", boil, "Strain, add the syrup."],
        ["Leave the fruit for 3 weeks in a jar.", boil, "Strain and stir in the syrup."],
        [boil, "Steep for 3 weeks.", "Strain, add the syrup and bottle."],
    ] {
        assert!(asks(&steps), "{steps:?}");
    }
    for steps in [
        [boil, "Add the fruit and the gin. Steep for 3 weeks.", "Strain, bottle."],
        [boil, "Pour the syrup over the fruit, steep for 3 weeks.", "Strain, mix well and bottle."],
        [boil, "Steep for 3 weeks.", "Strain, pour into bottles."],
        ["Put everything in a jar.", "Steep for 3 weeks.", "Strain and bottle the syrup."],
    ] {
        assert!(!asks(&steps), "{steps:?}");
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
    // a watermelon of 4.6 kg gives about 4 L through a cloth, and 2.5 kg of what lies in sugar
    let melon = |step: &str| {
        let text = format!(
            "name = \"T\"\nsteps = [\"{step}\"]\n[parts]\nwatermelon = {{ amount = \"1\", strained = true }}\nsalt = \"1 g\"\n"
        );
        asks(&text)
    };
    assert!(melon("Cube the flesh. Blend on high and strain through cheesecloth."));
    assert!(
        melon("Press the watermelon through a cloth.") && !melon("Cube the watermelon, leave in the fridge, strain.")
    );
    for step in ["Grate the quinces, steep for a week, strain.", "Grate the quinces, strain, do not press them."] {
        assert!(!asks(&card(step, "")), "{step}");
    }
}

/// The classic order of a liqueur: the syrup is boiled and cools while the spirit still stands on its peel.
#[test]
fn a_syrup_boiled_in_front_of_the_straining_goes_in_behind_it() {
    let kitchen = Kitchen::unstated("");
    let parts = "\"lemon peel\" = { amount = \"peel of 8 lemons\", strained = true }\n\"neutral spirit\" = \"500 ml\"\n\
                 sugar = \"400 g\"\nwater = \"500 ml\"\n";
    let card = |steps: &[&str]| format!("name = \"T\"\nsteps = {steps:?}\n[parts]\n{parts}");
    let asks = |steps: &[&str]| {
        let (_, found) = kitchen.solve(&card(steps), &Options::default()).sheet_and_found();
        found.iter().any(|found| found.title.contains("`sugar` and `water` go in after the straining"))
    };
    let steep = "Leave the peel in the spirit for 10 days.";
    for steps in [
        [steep, "Boil the water and sugar and let it cool.", "Strain the alcohol, add the syrup and bottle."],
        [steep, "Make a syrup with the sugar and water.", "Strain the spirit through muslin, stir in the cold syrup."],
        [
            steep,
            "Meanwhile dissolve the sugar in the hot water and cool.",
            "Strain out the peel and mix with the syrup.",
        ],
        [steep, "Bring the water to the boil. Stir the sugar into the water.", "Strain, combine the two, rest a week."],
        ["Boil the sugar with the water, cool.", steep, "Filter the spirit, mix both."],
    ] {
        assert!(asks(&steps), "{steps:?}");
    }
    for steps in [
        [steep, "Boil the water and sugar, cool, and add.", "Strain, bottle the syrup."],
        [steep, "Boil the water and sugar. Pour the syrup over the peel and the spirit.", "Strain, bottle."],
        ["Boil the water and sugar. Add the peel.", "Cool, stir in the spirit, leave a week.", "Strain, bottle."],
        [steep, "Boil the water and sugar. Mix everything.", "Strain, bottle."],
        ["Stir the peel, the spirit, the sugar and the water together.", "Leave a week.", "Strain, bottle."],
    ] {
        assert!(!asks(&steps), "{steps:?}");
    }
    assert!(asked(
        "Mettere la scorza in infusione nell'alcool per 10 giorni. Portare a ebollizione l'acqua con lo zucchero e lasciare \
         raffreddare. Filtrare l'alcool, unire lo sciroppo e imbottigliare.",
        "\"scorza di limone\" = { amount = \"scorza di 8 limoni\", strained = true }\n\"alcool 95°\" = \"500 ml\"\nacqua = \"500 ml\""
    ));
    // 94 of the 475 ml of spirit and juice stay in the peel: 31.6 % in a stage of its own
    let steps = [steep, "Boil the water and sugar and let it cool.", "Strain the alcohol, add the syrup."];
    let in_stages = "name = \"T\"\n[[stage]]\nname = \"strained\"\n[stage.parts]\n\"lemon peel\" = { amount = \"peel of 8 \
                     lemons\", strained = true }\n\"neutral spirit\" = \"500 ml\"\n[parts]\nstrained = \"all\"\nsugar = \
                     \"400 g\"\nwater = \"500 ml\"\n";
    let made = kitchen.solve(&card(&steps), &Options::default());
    let by = made.sheet().doubt.iter().find(|doubt| doubt.kind == TargetKind::Abv).unwrap().half_width;
    let stages = kitchen.solve(in_stages, &Options::default()).is(TargetKind::Abv);
    let told = made.is(TargetKind::Abv);
    assert!(
        (stages - 31.6).abs() < 0.5 && (told - stages).abs() < 1e-6 && by > 5.0,
        "{told:.1} ± {by:.1}, {stages:.1}"
    );
}

/// A syrup that no line is called is the sugar and the water of the list, and "the rest" all that no step named.
#[test]
fn a_syrup_of_the_list_that_goes_in_behind_the_straining_is_its_sugar_and_water() {
    let kitchen = Kitchen::unstated("");
    let parts = "\"coffee beans\" = { amount = \"150 g\", strained = true }\nvodka = \"700 ml\"\nsugar = \"300 g\"\nwater = \"400 ml\"\n";
    let late = |steps: &str| {
        let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}");
        let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
        let title =
            |what: &str| found.iter().any(|f| f.title.contains(what) && f.title.contains("in after the straining"));
        (title("`sugar`"), title("`water`"))
    };
    for steps in [
        "Steep the coffee in the vodka overnight, strain. Add the syrup.",
        "Steep the coffee in the vodka overnight. Strain, mix with syrup, rest a week.",
        "Steep the coffee in the vodka overnight. Strain and cut with simple syrup.",
        "Steep the coffee in the vodka overnight, strain. Dilute and sweeten.",
        "Steep the coffee in the vodka overnight, strain. Add everything else.",
        "Den Kaffee 2 Tage im Wodka ziehen lassen, abseihen. Mit Läuterzucker mischen.",
        "Infuser le café dans la vodka 2 jours. Filtrer, ajouter le sirop.",
        "Macerar el café en el vodka 15 días. Colar, añadir el almíbar.",
        "Macerare il caffè nella vodka 10 giorni. Filtrare, unire lo sciroppo.",
    ] {
        assert_eq!(late(steps), (true, true), "{steps}");
    }
    for steps in [
        "Simmer the coffee, the sugar and the water, strain. Mix the syrup with the vodka.",
        "Simmer the coffee for 5 minutes, strain. Stir the vodka into the syrup.",
        "Put everything in a jar, leave overnight, strain. Pour the syrup into bottles.",
    ] {
        assert_eq!(late(steps), (false, false), "{steps}");
    }
}

/// Sugar that is tossed with fruit which the step does not name draws its juice: it was in front of the straining.
#[test]
fn sugar_that_is_tossed_with_what_is_there_goes_in_behind_nothing() {
    let parts = "strawberries = { amount = \"600 g\", strained = true }\nwater = \"150 ml\"";
    for steps in [
        "Hull the strawberries. Toss with the sugar and leave overnight. Strain, add the water to the syrup.",
        "Hull the strawberries. Tip into a tub with the sugar and leave for 24 hours. Strain off the syrup. Rinse the fruit with the \
         water and add that to the syrup.",
        "Die Erdbeeren putzen. Mit dem Zucker mischen, über Nacht stehen lassen. Abseihen, das Wasser zum Sirup geben.",
        "Simmer the strawberries with the sugar and the water. Strain; taste, more sugar if needed.",
    ] {
        assert!(!asked(&steps.replace("         ", ""), parts), "{steps}");
    }
    assert!(asked("Cover the strawberries with the water and leave overnight. Strain, stir in the sugar.", parts));
}

/// Flowers and citric acid that go into a syrup stand in the syrup, and it was strained with them.
#[test]
fn a_syrup_that_the_flowers_stand_in_is_strained_with_them() {
    let kitchen = Kitchen::unstated("");
    let parts = "elderflowers = { amount = \"20 heads\", strained = true }\nlemons = { amount = \"2\", strained = true }\n\
                 sugar = \"1 kg\"\nwater = \"1 L\"\n\"citric acid\" = \"30 g\"\n";
    for add in [
        "Add the elderflowers, lemon slices and citric acid, cover and leave to steep for 3 days.",
        "Add the elderflowers and the lemons, sliced. Stir in the citric acid, steep for 3 days.",
    ] {
        let steps =
            ["Boil the water and sugar and let it cool.", add, "Strain, bring back to the boil and bottle hot."];
        let card = format!("name = \"T\"\nsteps = {steps:?}\n[parts]\n{parts}");
        let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
        let says = found.iter().any(|found| found.title.contains("after the straining"));
        assert!(!says, "{add}: {found:?}");
    }
}

/// What is said to be in already, or is forbidden to go in, goes in behind nothing.
#[test]
fn a_clause_that_puts_nothing_in_puts_nothing_in_behind_the_straining() {
    let parts = "almonds = { amount = \"200 g\", strained = true }\nwater = \"500 ml\"";
    for behind in [
        "Strain; add no sugar.",
        "Strain. Never add the sugar after this.",
        "Strain. The sugar is already in.",
        "Abseihen. Zucker nie danach zugeben!",
        "Abseihen, nachdem der Zucker gelöst ist.",
        "Filtrer; le sucre est déjà fondu.",
        "Colar; el azúcar ya está dentro.",
        "Filtrare; lo zucchero è già sciolto.",
    ] {
        assert!(!asked(&format!("Soak the almonds in the water. {behind}"), parts), "{behind}");
    }
    assert!(asked("Soak the almonds in the water. Strain, add the sugar, do not boil.", parts));
}

/// What solids keep is a guess: more than half of what they stand in is not left to it, and a date stands on its thin end.
#[test]
fn a_guess_of_what_solids_keep_makes_nothing_keep() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", "[stores]\nbar = \"21 °C\"\n");
    let card = |solids: &str, liquid: &str, behind: &str| {
        format!(
            "name = \"T\"\nsteps = [\"Steep the {solids} in the {liquid}, strain, {behind}.\"]\n[parts]\n{solids} = {{ amount = \"80 g\", \
             strained = true }}\n\"{liquid}\" = \"300 ml\"\nsugar = \"500 g\"\n"
        )
    };
    // flowers of 80 g do not drink 300 ml of spirit: no order of the steps is counted, and the flowers keep of all that there is
    let strength = |behind: &str| {
        kitchen.solve(&card("hibiscus", "neutral spirit", behind), &Options::default()).is(TargetKind::Abv)
    };
    assert_eq!(strength("add the sugar"), strength("the sugar is already in"));
    // oats keep 1 to 3 times their weight of the water: the syrup may have 60 °Bx, which no water activity keeps warm
    let thin = kitchen.solve(&card("oats", "water", "dissolve the sugar"), &Options::default());
    let dated = thin.dated(200);
    assert!(dated.stores.iter().all(|store| store.days.is_none()), "{:?}", dated.stores);
}

/// Where the sugar and the water go in behind it, in whatever words that is told, the batch is the one with a stage for what is strained.
#[test]
fn what_takes_the_plants_out_strains_in_whatever_words() {
    let kitchen = Kitchen::unstated("");
    let made = |steps: &str, stage: &str, parts: &str| {
        kitchen.solve(&format!("name = \"T\"\n{steps}\n{stage}\n[parts]\n{parts}\n"), &Options::default())
    };
    let strained = "walnuts = { amount = \"300 g\", strained = true, holds = 0.3 }\nvodka = \"700 ml\"\n";
    let stage = format!("[[stage]]\nname = \"strained\"\n[stage.parts]\n{strained}");
    let apart = made("", &stage, "strained = \"all\"\n\"white sugar\" = \"300 g\"\nwater = \"150 ml\"");
    let english = ["walnuts", "vodka", "sugar", "water"];
    let german = ["Walnüsse", "Wodka", "Zucker", "Wasser"];
    for (steps, [nuts, spirit, sugar, water]) in [
        ("Walnuts in the vodka for 6 weeks.|Pour off.|Dissolve the sugar in the water and add.", english),
        ("Walnuts in the vodka for 6 weeks.|Remove the nuts, stir the sugar and water in.", english),
        ("Nüsse in den Wodka, 6 Wochen.|Abgießen.|Zucker im Wasser auflösen und dazugeben.", german),
        ("Nüsse in den Wodka, 6 Wochen, dann abseihen und mit Zucker und Wasser abschmecken.", german),
        ("Nüsse in den Wodka, 6 Wochen.|Abseihen, mit dem Zuckersirup vermischen.", german),
        (
            "Noix dans la vodka 6 semaines.|Retirer les noix.|Ajouter le sucre fondu dans l’eau.",
            ["noix", "vodka", "sucre", "eau"],
        ),
        (
            "Nueces en el vodka 6 semanas.|Retirar las nueces, endulzar con el azúcar disuelto en el agua.",
            ["nueces", "vodka", "azúcar", "agua"],
        ),
    ] {
        let told = steps.split('|').map(|step| format!("{step:?}")).collect::<Vec<_>>().join(", ");
        let parts = strained.replace("walnuts", nuts).replace("vodka", spirit);
        let parts = format!("{parts}{sugar:?} = \"300 g\"\n{water:?} = \"150 ml\"");
        let one = made(&format!("steps = [{told}]"), "", &parts);
        for kind in [TargetKind::Abv, TargetKind::Sugar] {
            assert!(
                (one.is(kind) / apart.is(kind) - 1.0).abs() < 0.01,
                "{steps}: {} for {}",
                one.is(kind),
                apart.is(kind)
            );
        }
    }
}
