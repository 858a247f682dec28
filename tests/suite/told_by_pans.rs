//! What is in the pan that a step heats, and what leaves it: spirit that a stage gave, alcohol that boils off, water that is boiled
//! down to a number or a sign, and stones that are cracked.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const HOUSE: &str = "[house]\nmarket = [\"UK\"]\n[instruments]\nscale = \"0.1 g up to 5 kg\"\n\
                     [stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
const STEEPED: &str = "[[stage]]\nname = \"peel spirit\"\ntakes = \"7 days\"\n[stage.parts]\n\"overproof rum\" = \"700 ml\"\n\
                       \"lemon peel\" = { amount = \"80 g\", strained = true }\n[parts]\n\"peel spirit\" = \"all\"\n\
                       sugar = \"250 g\"\nwater = \"300 ml\"\n";
const SPIRIT: &str =
    "[parts]\nvodka = \"700 ml\"\nstrawberries = { amount = \"400 g\", strained = true }\nsugar = \"200 g\"\n";
const SYRUP: &str = "[parts]\nwater = \"500 ml\"\nsugar = \"500 g\"\n\"lemon juice\" = \"50 ml\"\n";
const CHERRIES: &str =
    "[parts]\nbrandy = \"700 ml\"\n\"sour cherries\" = { amount = \"600 g\", strained = true }\nsugar = \"200 g\"\n";

fn kitchen() -> Kitchen {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn judged(card: &str) -> Assessment {
    kitchen().solve(card, &Options::default()).dated(2_000)
}

fn card(steps: &str, parts: &str) -> String {
    format!("name = \"T\"\nsteps = [\"{steps}\"]\n{parts}")
}

fn asked(steps: &str, parts: &str) -> Vec<String> {
    judged(&card(steps, parts)).unidentified.into_iter().map(|open| open.question).collect()
}

/// What a stage gave is in the pan of the steps behind it, whether they name it or not.
#[test]
fn a_pan_holds_what_the_stage_gave() {
    for step in [
        "Peel in the rum for a week. Strain.\", \"Add the sugar and water, heat gently until dissolved, bottle.",
        "Strain. Simmer with the sugar on the stove.",
        "Strain. Simmer for an hour.",
        "Strain. Bring to the boil, bottle hot.",
        "Strain. Heat the liqueur gently to 70 °C, bottle.",
        "Strain the peel, add the sugar and warm it on the stove until it dissolves.",
        "Strain. Add the sugar. Heat gently until the sugar dissolves. Let it cool, then add the water.",
        "Mix, pasteurise the bottles at 65 °C for 30 minutes.",
        "Abseihen. Zucker und Wasser zugeben, sanft erhitzen, bis sich alles löst.",
        "Filtrer. Ajouter le sucre et l'eau, chauffer doucement.",
        "Colar. Añadir el azúcar y el agua, calentar suavemente.",
        "Filtrare. Aggiungere zucchero e acqua, scaldare dolcemente.",
    ] {
        assert!(judged(&card(step, STEEPED)).stopped(), "{step}");
    }
    for step in [
        "Peel in the rum for a week. Strain.\", \"Simmer the sugar and water for 5 minutes, cool, add to the rum.",
        "Strain. Make a syrup with the sugar and water, heat until dissolved. Cool. Combine.",
        "Put the sugar and the water in a pan. Bring to a boil. Leave to cool. Pour over the peel spirit.",
        "Strain. Add the sugar and water to a pan, heat until dissolved, cool, stir into the rum.",
        "Strain. Put sugar in a pan, add the water, heat gently. Cool, then mix with the rum.",
        "Strain. Scald the bottles, mix all, fill.",
        "Strain. Warm the bottles. Mix and bottle.",
        "Abseihen. Gläser auskochen. Mischen.",
        "Strain, mix, bottle. Keep off direct heat.",
        "Strain, mix, bottle. To serve, warm gently in a pan.",
        "Abseihen. Zucker und Wasser aufkochen, abkühlen lassen, zum Ansatz geben.",
        "Filtrer. Porter l'eau et le sucre à ébullition, laisser refroidir, ajouter à la macération.",
        "Colar. Hervir el agua con el azúcar, enfriar y añadir al macerado.",
        "Filtrare. Bollire l'acqua e lo zucchero, raffreddare, unire al macerato.",
    ] {
        assert!(!judged(&card(step, STEEPED)).stopped(), "{step}");
    }
}

/// A machine, a flame or a hot thing heats as a verb does.
#[test]
fn a_place_heats_as_a_verb_does() {
    for step in [
        "Put everything in a pan until it just steams, strain.",
        "On the hob for 10 minutes, covered, strain.",
        "Everything in the rice cooker on keep warm overnight, strain.",
        "Steep everything in a slow cooker on low for 2 hours, strain.",
        "In the thermo blender at speed 2, 60 degrees, 20 minutes, strain.",
        "Put all in the dishwasher in a sealed jar for one cycle, strain.",
        "Dissolve the sugar in the hot vodka, add berries, strain.",
        "Alles in den Schnellkochtopf, 15 Minuten, abseihen.",
        "Tout mettre à la mijoteuse pendant deux heures, filtrer.",
        "Todo en la olla lenta dos horas, colar.",
        "Tutto nella pentola a pressione, 15 minuti, filtrare.",
    ] {
        assert!(judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
    for step in ["Steep for a week, not on the stove. Strain.", "Steep for a week away from the hob. Strain."] {
        assert!(!judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
    // what bubbles in a pan boils, and what bubbles in a jar ferments
    let bubbles = |step: &str| {
        let closed = format!("{SYRUP}[keep]\nclosed = true\nin = \"glass\"\n");
        judged(&card(step, &closed)).stopped()
    };
    assert!(!bubbles("Bring to the boil, let it bubble for a minute, strain."));
    assert!(bubbles("Leave in a warm corner until it bubbles, bottle."));
}

/// A boil has many names, a steep may be hot, a pan may be hot when the spirit meets it, and a batch that burns is hot.
#[test]
fn spirit_is_heated_by_a_boil_of_any_name_a_hot_steep_a_hot_pan_and_a_flame() {
    for step in [
        "Porter à gros bouillons avec le sucre.",
        "Donner un bouillon.",
        "Llevar a punto de ebullición.",
        "Appena bolle, spegnere.",
        "Einmal aufwallen lassen.",
        "Auf den Siedepunkt bringen.",
        "Get it rolling on the burner.",
        "Bring up to a gentle bubble.",
        "Bring to a rolling boil with the sugar.",
        "Nuke it for 30 seconds.",
        "Im Dampfgarer 30 Minuten.",
        "Put it through the steam wand.",
        "Bei kleiner Flamme ziehen lassen.",
        "Steep hot for an hour, strain.",
        "Heiß ziehen lassen.",
        "Infuser à chaud.",
        "Infusionar en caliente.",
        "Infondere a caldo.",
        "Keep on the radiator.",
        "Auf die Heizung stellen.",
        "Set the pan on the fire and let the vodka bubble.",
        "Den Topf aufs Feuer, bis der Vodka perlt.",
        "Let the vodka bubble in the pan.",
        "Den Vodka in der Pfanne sprudeln lassen.",
        "Laisser bouillonner la vodka dans la casserole.",
        "Dejar que el vodka burbujee en la olla.",
        "Lasciare che la vodka gorgogli nella pentola.",
        "Pour the vodka over the hot caramel.",
        "Pour the vodka into the hot pan.",
        "Den Vodka in die heiße Pfanne gießen.",
        "Verser la vodka dans la poêle chaude.",
        "Verter el vodka en la sartén caliente.",
        "Versare la vodka nella padella calda.",
        "Caramelise the sugar, then deglaze with the vodka.",
        "Mit dem Vodka ablöschen.",
        "Set fire to it and let it burn for ten seconds.",
        "Anzünden und brennen lassen.",
        "Mettre le feu et laisser brûler.",
        "Prender fuego y dejar arder.",
        "Dare fuoco e lasciar bruciare.",
    ] {
        assert!(judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
    let with_water = format!("{SPIRIT}water = \"200 ml\"\n");
    for step in [
        "Steep a week, strain. Filtrer à chaud.",
        "Keep away from the radiator. Steep a week, strain.",
        "Auf der Heizung nicht stehen lassen. Eine Woche ziehen lassen, abseihen.",
        "Keep away from the fire. Steep a week, strain.",
        "Let the sugar and the water bubble in the pan, cool, stir into the vodka.",
        "Do not let it burn. Steep a week, strain.",
        "Torch the strawberries, then steep them a week, strain.",
        "Infuse the strawberries in the hot water for 10 minutes. Cool. Add the vodka, strain.",
        "Pour into hot jars.",
        "Bring the water to a rolling boil with the sugar, cool, stir into the vodka.",
    ] {
        assert!(!judged(&card(step, &with_water)).stopped(), "{step}");
    }
    // what burns on a glass is told as a flame, and lit by the guest
    let glass = judged("name = \"T\"\nhow = \"built\"\nsteps = [\"Set it alight.\"]\n[parts]\nrum = \"50 ml\"\n");
    assert!(!glass.stopped());
}

/// Bitters are boiled from what was strained off the spirit, and that is wet with it; what was strained off before it met any is not.
#[test]
fn solids_wet_with_spirit_heat_it() {
    let bitters = "[parts]\n\"dried orange peel\" = { amount = \"60 g\", strained = true }\n\"navy strength gin\" = \
                   \"400 ml\"\nwater = \"150 ml\"\n";
    for step in [
        "Steep the peel in the gin 2 weeks, strain. Simmer the solids in the water 10 minutes.",
        "Steep the peel in the gin 2 weeks, strain. Boil the spent peel in the water.",
        "Filtrer. Bouillir les résidus dans l'eau.",
        "Abseihen. Die Rückstände im Wasser aufkochen.",
        "Colar. Hervir los sólidos en el agua.",
        "Filtrare. Bollire i residui nell'acqua.",
    ] {
        assert!(judged(&card(step, bitters)).stopped(), "{step}");
    }
    for step in
        ["Strain and throw the solids away. Boil the water, cool, add.", "Boil the water. Strain off the solids."]
    {
        assert!(!judged(&card(step, bitters)).stopped(), "{step}");
    }
}

/// Vessels and cloths that are boiled empty heat no spirit; what stands in one is heated.
#[test]
fn an_empty_vessel_heats_nothing() {
    for step in [
        "Die Flaschen vorher auskochen.",
        "Gläser und Deckel auskochen.",
        "Bollire i vasetti vuoti.",
        "Boil the muslin before use.",
        "Put the bottles in the dishwasher first.",
        "Run the dishwasher hot with the empty bottles.",
        "Die leeren Flaschen im Wasser kochen.",
        "Faire bouillir les bocaux vides.",
        "Hervir los tarros vacíos antes.",
    ] {
        assert!(!judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
    for step in [
        "Heat before use in the bottle.",
        "Boil it in the empty jar.",
        "Die gefüllten Flaschen vorher kochen.",
        "Heat the vodka in the jar first.",
        "Put the jar with the vodka in the dishwasher first.",
    ] {
        assert!(judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
}

/// Let down to a strength with water is no pan; boiled down to a share is one.
#[test]
fn letting_down_with_water_boils_nothing() {
    for step in [
        "Réduire à 30 % vol avec l'eau.",
        "Réduire à 15 % avec de l'eau.",
        "Reduce to 30 % with water.",
        "Auf 30 % mit Wasser reduzieren.",
        "Reducir a 30 % con agua.",
        "Ridurre a 30 % con acqua.",
    ] {
        assert!(!judged(&card(step, STEEPED)).stopped(), "{step}");
        assert!(asked(step, STEEPED).iter().all(|question| !question.contains("steamed off")), "{step}");
    }
    for step in ["Reduce by half.", "Réduire de 30 % à feu doux.", "Simmer with water to reduce to 30 % of its weight."]
    {
        assert!(judged(&card(step, SPIRIT)).stopped(), "{step}");
    }
}

/// Wine that is boiled for half an hour has 35 ± 15 % of its alcohol left (USDA retention factors); of a pan boiled to half, none is
/// sure. Its label bears no figure until somebody has read one.
#[test]
fn alcohol_that_boils_off_is_no_figure() {
    let wine = |more: &str| format!("name = \"T\"\n{more}[parts]\n\"red wine\" = \"750 ml\"\nsugar = \"300 g\"\n");
    let by_key = judged(&wine("heated = \"100 °C for 30 min\"\n"));
    assert!((by_key.alcohol_sure - 0.20).abs() < 1e-9, "{}", by_key.alcohol_sure);
    let by_step = judged(&wine("steps = [\"Boil the wine with the sugar for 30 minutes, strain.\"]\n"));
    assert!((by_step.alcohol_sure - 0.20).abs() < 1e-9, "{}", by_step.alcohol_sure);
    let unsaid = judged(&wine("steps = [\"Boil the wine with the sugar, strain.\"]\n"));
    assert_eq!(unsaid.alcohol_sure, 0.0);
    let cold = judged(&wine("steps = [\"Stir the sugar into the wine, strain.\"]\n"));
    assert_eq!(cold.alcohol_sure, 1.0);
    // what its label says of allergens is stated: else it has no label
    let kitchen = Kitchen::unstated("[ingredient.\"red wine\"]\nlike = \"red wine\"\nallergens = [\"sulphites\"]\n");
    kitchen.write("house.toml", HOUSE);
    let labelled = |card: &str| {
        kitchen.write("t.toml", card);
        (kitchen.run(&["solve", "t.toml"]).1, kitchen.run(&["label", "t.toml"]).1)
    };
    let (sheet, label) = labelled(&wine("heated = \"100 °C for 30 min\"\n"));
    assert!(sheet.contains("Is 2 to 10.7 % ABV (heat drives it off: read it)"), "{sheet}");
    assert!(label.contains("alc. __________ % vol"), "{label}");
    let read = wine("heated = \"100 °C for 30 min\"\n") + "[measured]\nabv = 4.0\n";
    let label = labelled(&read).1;
    assert!(label.contains("alc. ") && !label.contains("alc. __"), "{label}");
}

#[test]
fn stones_that_are_cracked_are_asked_about() {
    for step in [
        "Crack a few stones, steep all for 4 weeks, strain.",
        "Ein paar Steine knacken, alles vier Wochen ziehen lassen, abseihen.",
        "Concasser quelques noyaux, laisser macérer quatre semaines, filtrer.",
        "Partir unos huesos, macerar cuatro semanas, colar.",
        "Rompere qualche nocciolo, macerare quattro settimane, filtrare.",
    ] {
        let stops = judged(&card(step, CHERRIES)).cautions;
        assert!(stops.iter().any(|caution| caution.to_string().contains("yanid")), "{step}: {stops:?}");
    }
    for step in [
        "Stone the cherries, steep for 4 weeks, strain.",
        "Crush the cherries, discard the stones, steep for 4 weeks, strain.",
        "Crush the fruit without breaking the stones, steep 4 weeks, strain.",
        "Crack the cinnamon, steep for 4 weeks, strain.",
    ] {
        assert!(!judged(&card(step, CHERRIES)).stopped(), "{step}");
    }
}

/// Water left the pan until then, and no amount says how much. Syrup that boils at 105 °C has 70 to 75 °Bx (Browne 1912).
#[test]
fn what_is_boiled_to_a_number_or_a_sign_is_asked() {
    for (step, says) in [
        ("Cook to 110 °C, strain.", "Cook to 110 °C"),
        ("Boil until it reads 70 Brix, strain.", "brix = 70"),
        ("Cook to soft ball.", "soft ball"),
        ("Simmer until it coats the spoon.", "coats the spoon"),
        ("Mix. Evaporate a quarter.", "Evaporate a quarter"),
        ("Bring to the boil, let it bubble until it is syrupy.", "until it is syrupy"),
        ("Auf 110 °C kochen.", "evaporated"),
        ("Zum schwachen Ballen kochen, schwacher Ballen.", "evaporated"),
        ("Cuire au petit boulé.", "evaporated"),
        ("Hervir hasta 112 °C.", "evaporated"),
        ("Cuocere fino a 110 °C.", "evaporated"),
    ] {
        let asked = asked(step, SYRUP);
        assert!(asked.iter().any(|asked| asked.contains(says)), "{step}: {asked:?}");
    }
    let asked_at_105 = asked("Cook to 105 °C.", SYRUP).concat();
    let brix = asked_at_105.split("brix = ").nth(1).and_then(|rest| rest.get(..2)?.parse::<u32>().ok());
    assert!(brix.is_some_and(|brix| (70..=76).contains(&brix)), "{asked_at_105}");
    for step in [
        "Heat to 85 °C, hold 10 minutes, strain.",
        "Dissolve the sugar in the water at a simmer, check it reads 50 Brix, strain.",
        "Simmer 10 minutes with the lid on so that nothing evaporates, strain.",
        "Toast the zest in the oven at 120 °C. Dissolve, strain.",
        "Boil hard for a minute. Strain through a thick cloth.",
    ] {
        assert_eq!(asked(step, SYRUP), Vec::<String>::new(), "{step}");
    }
    // a card that says what is lost is complete
    let told = judged(&(card("Boil until it reads 70 Brix.", SYRUP) + "[loss]\nevaporated = \"30 %\"\n"));
    assert!(told.unidentified.is_empty());
    assert!(at(&told, "fridge").verdict.is_some());
}

/// A pan with a lid on loses next to nothing (common practice, no source), and one without it what it does by any verb.
#[test]
fn a_lid_keeps_the_water_in() {
    let loses = |step: &str| {
        let made = kitchen().solve(&card(step, SYRUP), &Options::default());
        made.found.iter().any(|found| found.title.contains("of the water, and the card states no loss"))
    };
    for step in
        ["Simmer with the lid on for 20 minutes.", "Simmer 20 minutes covered.", "Cover and simmer for 20 minutes."]
    {
        assert!(!loses(step), "{step}");
    }
    for step in [
        "Simmer for 20 minutes.",
        "Simmer for 20 minutes with the lid off.",
        "Cover and stand. Simmer for 20 minutes.",
        "Cook it down for 20 minutes.",
        "Cuire 20 min à feu doux.",
        "Cocerlo todo 20 minutos.",
        "Cuocere 20 minuti a fuoco basso.",
        "Let it bubble away for 20 minutes.",
    ] {
        assert!(loses(step), "{step}");
    }
    assert!(
        !judged(&card(
            "Let it bubble away for 20 minutes.",
            &format!("{SYRUP}[keep]\nclosed = true\nin = \"glass\"\n")
        ))
        .stopped()
    );
    assert!(!judged(&card("Wrap it in a bin bag to keep the light out.", SPIRIT)).stopped());
    assert!(!asked("Boil until it has lost a third.", SYRUP).is_empty());
}

/// A bag stands in a water bath: it boils nothing off, and its spirit meets no flame. An empty bottle ("bouteille vide") is no bag.
#[test]
fn what_cooks_in_a_bag_is_in_a_bath() {
    let bag = "name = \"T\"\nheated = \"55 °C for 120 min\"\nsteps = [\"Put all in a sous vide bag.\", \"Cook at 55 °C for 2 hours. Strain.\"]\n";
    let solved = kitchen().solve(&format!("{bag}{SPIRIT}"), &Options::default());
    let judged = solved.dated(2_000);
    assert!(!judged.stopped(), "{:?}", judged.cautions);
    let pan = bag.replace("Put all in a sous vide bag.", "Put all in a bouteille vide.");
    assert!(kitchen().solve(&format!("{pan}{SPIRIT}"), &Options::default()).dated(2_000).stopped());
    let lost = |step: &str| {
        let kitchen = kitchen();
        let card = card(step, SYRUP);
        kitchen.write("card.toml", &card);
        kitchen.run(&["solve", "card.toml"]).2.contains("of the water")
    };
    assert!(!lost("Cook at 55 °C for 2 hours."));
    assert!(lost("Cook for 2 hours."));
}
