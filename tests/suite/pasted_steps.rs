//! What the sentences of a method say, one thing a table: a text, and what its card must hold or must not. All invented.

use crate::pasting::holds;

#[test]
fn however_a_time_is_written_the_card_has_it() {
    let takes = [
        ("Put hibiscus and water in a jar. After 24 hours strain.", "24 hours"),
        ("Put hibiscus and water in a jar. Strain after 2 days.", "2 days"),
        ("Put it in a jar, come back in 24 h. Strain.", "24 h"),
        ("Put it in a jar. Next day, strain.", "24 h"),
        ("Leave until the next day. Strain.", "24 h"),
        ("Leave till tomorrow. Strain.", "24 h"),
        ("Steep for 12-24 hours, strain.", "24 hours"),
        ("Steep 2-3 days, strain.", "3 days"),
        ("Steep 2 to 3 days, strain.", "3 days"),
        ("Steep a couple of days. Strain.", "2 days"),
        ("Steep for 3 nights, strain.", "3 days"),
        ("Steep for forty-eight hours, strain.", "48 h"),
        ("Steep all day, strain.", "12 h"),
        ("Steep for 3 months, strain.", "90 days"),
        ("Soak the hibiscus, orange peel in the water for 24 h. Strain.", "24 h"),
        ("Steep the hibiscus, the mint in the water for 20 min. Strain.", "20 min"),
        ("Im Wasser quellen lassen 4 Stunden, abseihen.", "4 Stunden"),
        ("Hibiskus 24 Std. im Wasser ziehen lassen, abseihen.", "24 Std"),
        ("Über Nacht ziehen lassen, abseihen.", "12 h"),
        ("2-3 Wochen ansetzen. Abseihen.", "3 Wochen"),
        ("Laisser infuser toute la nuit, filtrer.", "12 h"),
        ("Dejar reposar toda la noche, colar.", "12 h"),
        ("Mettere in infusione per 20 giorni. Filtrare.", "20 giorni"),
        ("Lasciare in frigo una notte. Filtrare.", "12 h"),
        ("Steep 2 days, strain. Keeps 3 weeks chilled.", "2 days"),
        ("Steep 2 days, strain. Use within 10 days.", "2 days"),
        ("Steep 2 days in a jar, strain. 3 wks in the walk-in.", "2 days"),
        ("Steep for 2 days, strain into a bottle and store in the fridge for up to 3 weeks.", "2 days"),
        ("Keep in a jar for 2 days and strain.", "2 days"),
        ("Dejar en nevera 1 semana. Colar.", "1 semana"),
        ("Lasciare una notte. Filtrare. In bottiglia, in frigo, 1 mese.", "12 h"),
    ];
    for (steps, long) in takes {
        let takes = format!("takes = \"{long}\"");
        holds(&format!("Tea\n40 g hibiscus\n1 l water\n\n{steps}\n"), &[&takes, "!which one counts"]);
    }
    holds(
        "Tea\n40 g hibiscus\n1 l water\nSteep for a few days, strain.",
        &["for a few days: how long? takes = \"… days\""],
    );
}

#[test]
fn a_fridge_and_a_freezer_are_so_cold_and_a_walk_in_is_asked() {
    let tea = |steps: &str| format!("Tea\n40 g hibiscus\n1 l water\n\n{steps}\n");
    holds(&tea("Steep overnight in the fridge, strain."), &["at = \"4 °C\"", "!how cold"]);
    holds(&tea("Steep for 24 h, in the refrigerator. Strain."), &["at = \"4 °C\""]);
    holds(&tea("24 h im Kühlschrank ziehen lassen, abseihen."), &["at = \"4 °C\""]);
    holds(&tea("Stand 3 h in the freezer, strain."), &["at = \"-18 °C\""]);
    holds(&tea("Steep 24 h in the walk-in, strain."), &["how cold does it stand?"]);
    let cream =
        "Cream\n350 ml whiskey\n300 ml double cream\n\nWhizz.\nBottle and keep in the fridge, up to 2 weeks. Shake.\n";
    holds(cream, &["!takes ="]);
    holds(&tea("Steep for 24 h, strain, refrigerate."), &["takes = \"24 h\"", "!at = "]);
}

/// By hand: 1 kg of water, and of 500 g of root what common practice says that it gives; 900 g of sugar go in behind it.
#[test]
fn what_is_put_in_in_the_sentence_of_the_straining_goes_in_behind_it() {
    let ginger = |last: &str| {
        format!(
            "Ginger syrup\n500 g ginger\n1 l water\n900 g sugar\n\nSimmer the ginger in the water for 20 minutes.\n{last}\n"
        )
    };
    for last in
        ["Strain and stir in the sugar.", "Strain, stir in the sugar.", "Strain off the ginger and add the sugar."]
    {
        holds(&ginger(last), &["[parts]\ninfusion = \"all\"", "that it gives\nsugar = \"900 g\""]);
    }
    let shrub = "Shrub\n500 g strawberries\n500 g sugar\n250 ml cider vinegar\n2 g basil\n\nCover the strawberries with the sugar for 24 h.\n";
    let two = [
        "name = \"infusion\"",
        "[parts]\ninfusion = ",
        "\"cider vinegar\" = \"250 ml\"\nbasil = { amount = \"2 g\", strained",
    ];
    holds(&format!("{shrub}Strain, add the vinegar and the basil. After 2 hours take out the basil."), &two);
    let vinegar = "500 g Himbeeren\n500 g Zucker\n250 ml Apfelessig\n\nHimbeeren mit dem Zucker 2 Tage ziehen lassen.";
    let behind = ["infusion = ", "[parts]\ninfusion = \"all\"", "Apfelessig = \"250 ml\""];
    holds(&format!("Shrub\n{vinegar} Abseihen und den Essig dazugeben."), &behind);
    let fragole = "Shrub\n500 g fragole\n500 g zucchero\n250 ml aceto di mele\n2 g basilico\n\nCoprire le fragole con lo zucchero \
                   per una notte.\nFiltrare e aggiungere l'aceto e il basilico.\nDopo 2 ore togliere il basilico.\n";
    holds(
        fragole,
        &["[parts]\ninfusion = ", "\"aceto di mele\" = \"250 ml\"\nbasilico = { amount = \"2 g\", strained"],
    );
    let wine = "Vermouth\n500 ml white wine\n100 ml brandy\n10 g gentian root\n80 g sugar\n\n";
    holds(
        &format!("{wine}Steep the gentian in the brandy for 3 days, then strain into the wine and stir in the sugar."),
        &["[stage.parts]\nbrandy = \"100 ml\"\n\"gentian root\"", "\"white wine\" = \"500 ml\"\nsugar = \"80 g\""],
    );
}

#[test]
fn do_not_strain_does_not_strain() {
    let puree = |last: &str| {
        format!("Puree\n1 kg strawberries\n500 g sugar\n\nBlend the strawberries with the sugar. {last}\n")
    };
    for last in [
        "Do not strain.",
        "Don't strain.",
        "No need to strain.",
        "Bottle without straining.",
        "Never strain it.",
        "There is no straining.",
        "Skip the strainer.",
        "Nicht abseihen.",
        "No colar.",
        "Non filtrare.",
        "Ne pas filtrer.",
        "Leave unstrained.",
    ] {
        holds(&puree(last), &["strawberries = \"1 kg\"  # assumed: stays in", "!strained = true"]);
    }
    for last in ["Strain if you like.", "Strain, if desired.", "Colar si se desea."] {
        holds(&puree(last), &["strawberries = \"1 kg\"  # ? does it stay in?"]);
    }
    for sieve in ["Pass through a fine sieve.", "Pass through a chinois.", "Put it through a chinois."] {
        holds(&puree(sieve), &["strawberries = \"1 kg\"  # ? most of what is blended passes a sieve"]);
    }
    holds(&puree("Strain."), &["strawberries = { amount = \"1 kg\", strained = true }"]);
}

#[test]
fn what_is_taken_out_is_strained_out() {
    let zest = |steps: &str| format!("Vodka\n500 ml vodka\n20 g lemon zest\n1 l water\n\n{steps}\n");
    let out = "\"lemon zest\" = { amount = \"20 g\", strained = true }";
    holds(
        &zest("Steep the zest in the vodka for 24 h. Then take it out. Add the water."),
        &[out, "[parts]\ninfusion = "],
    );
    holds(&zest("Put the zest in the vodka for 24 h. Remove the zest and add the water."), &[out, "!does it stay in"]);
}

#[test]
fn what_is_boiled_down_asks_what_steamed_off() {
    for step in [
        "Let the juice bubble down to 500 ml.",
        "Cook the juice until half is left.",
        "Boil the juice down to 500 ml.",
        "Simmer until reduced to 500 ml.",
        "Simmer until it is reduced by a third.",
        "Boil until syrupy.",
        "Saft auf die Hälfte reduzieren.",
        "Reduce by half.",
    ] {
        let text = format!("Grenadine\n1 l pomegranate juice\n500 g sugar\n\n{step}\nStir in the sugar.\n");
        holds(&text, &["what steamed off? weigh the pan"]);
    }
    let simmered = "Cordial\n1 l water\n500 g sugar\n\nSimmer for 20 minutes with the lid on.\n";
    holds(simmered, &["assumed: a simmer is at least 85 °C; measure yours; assumed: nothing steamed off", "!?"]);
}

#[test]
fn a_syrup_that_is_made_apart_is_heated_alone() {
    let apart = [
        "name = \"syrup\"\nheated = \"95 °C for 5 min",
        "[stage.parts]\nwater = \"1 l\"\nsugar = \"800 g\"",
        "[stage.parts]\nvodka = \"1 l\"\n\"lemon zest\"",
        "[parts]\ninfusion = \"all\"",
        "syrup = \"all\"",
    ];
    let liqueur = "Lemon liqueur\n1 l vodka\n1 l water\n800 g sugar\n50 g lemon zest\n\n";
    let steps = "Steep the zest in the vodka for 20 days.\nMake a syrup with the water and sugar, boil it 5 minutes and let it go \
                 cold.\nStrain the alcohol and mix with the syrup.\n";
    holds(&format!("{liqueur}{steps}"), &apart);
    let italian = "Limoncello\n80 g scorza di limone\n1 l vodka\n1 l acqua\n800 g zucchero\n\nMettere le scorze nella vodka per 20 \
                   giorni.\nPreparare lo sciroppo con acqua e zucchero, far bollire 5 minuti.\nFiltrare la vodka, unire allo \
                   sciroppo.\n";
    holds(
        italian,
        &["name = \"syrup\"\nheated = ", "[stage.parts]\nacqua = \"1 l\"\nzucchero = \"800 g\"", "infusion = \"all\""],
    );
    // where no word says that it is made apart, its heat is that of what the step names, and of nothing else
    let boiled =
        "Mix\n1 l vodka\n1 l water\n800 g sugar\n\nStir the water and sugar, boil it 5 minutes. Add to the vodka.\n";
    let of_those = "# assumed: heated = \"95 °C for 5 minutes\": of what that step names alone";
    holds(boiled, &[of_those, "!\nheated = "]);
}

#[test]
fn what_everything_does_not_mean_goes_in_behind_it() {
    let bitters =
        |steps: &str| format!("Bitters\n500 ml vodka\n20 g orange peel\n250 ml water\n50 g sugar\n\n{steps}\n");
    let first = "[stage.parts]\nvodka = \"500 ml\"\n\"orange peel\" = { amount = \"20 g\", strained = true }";
    for steps in [
        "Steep everything except the water and sugar for 2 weeks. Strain.\nAdd the water and sugar.",
        "Steep all but the water and sugar for 2 weeks. Strain.\nAdd the water and sugar.",
        "Steep everything except the water and sugar for 2 weeks. Strain.\nAdd the rest.",
        "Alles außer water und sugar 2-3 Wochen ansetzen. Abseihen.\nDann water und sugar zugeben.",
        "Make a syrup of the water and sugar.\nSteep the peel in the vodka for 2 weeks, strain, and mix with the syrup.",
    ] {
        holds(&bitters(steps), &[first, "[parts]\ninfusion = \"all\""]);
    }
}

/// 400 g of sugar, and 2 l of water: half before and half behind.
#[test]
fn what_a_method_shares_goes_in_twice() {
    let gin = "Sloe gin\n1 kg sloes\n1 l gin\n400 g sugar\n\nPut the sloes in the gin with half the sugar for 10 days.\nStrain off the \
               sloes. Add the rest of the sugar.\n";
    holds(gin, &["gin = \"1 l\"\nsugar = \"200 g\"", "[parts]\ninfusion = \"all\"", "gives\nsugar = \"200 g\""]);
    let ginger = "Syrup\n500 g ginger\n2 l water\n900 g sugar\n\nBoil the ginger and half the water 10 min. Strain.\nAdd the sugar and \
                  the rest of the water.\n";
    holds(ginger, &["water = \"1000 ml\"", "[parts]\ninfusion = \"all\""]);
    let wine = "Vermut\n1 l vino blanco\n150 ml brandy\n5 g genciana\n\nMacerar las hierbas en el brandy con un vaso de vino 3 \
                días. Colar.\nMezclar con el vino restante.\n";
    holds(wine, &["# ? vino blanco: how much of it goes in before it is strained"]);
    let some = ginger.replace("half the water", "a glass of the water");
    holds(&some, &["# ? water: how much of it goes in before it is strained"]);
}

#[test]
fn a_part_is_named_by_what_parts_it_from_the_others() {
    let coffee = |sugar: &str| {
        format!(
            "Liqueur\n200 g coffee beans\n700 ml vodka\n400 g {sugar}\n400 ml water\n\nSteep the coffee in the vodka for 24 hours and \
             strain.\nBoil the sugar and water for 5 minutes, cool and add.\n"
        )
    };
    holds(&coffee("demerara"), &["[parts]\ninfusion = \"all\"", "demerara = \"400 g\"\nwater = \"400 ml\""]);
    holds(&coffee("muscovado"), &["muscovado = \"400 g\"\nwater = \"400 ml\""]);
    let almond = "Almond\n100 g almonds\n500 ml vodka\n100 ml water\n2 g almond extract\n\nSoak the almonds in the vodka for 3 days and \
                  strain.\nAdd the water and extract.\n";
    holds(almond, &["water = \"100 ml\"\n\"almond extract\" = \"2 g\""]);
}

#[test]
fn water_in_a_step_is_asked() {
    let tea = "Tea syrup\n500 g water\n20 g earl grey tea\n500 g sugar\n\nSteep the tea in the water for 5 min.\nStrain and top up to \
               500 g with water.\nDissolve the sugar in it.\n";
    holds(tea, &["[parts]\ninfusion = ", "sugar = \"500 g\"", "how much of it was that? weigh: water = \"… g\""]);
    let batch =
        "Batch\n500 ml tequila\n250 ml triple sec\n250 ml lime juice\n\nStir and add 20% dilution (200 ml water).\n";
    holds(batch, &["does 200 ml of it go in? water = \"200 ml\""]);
    let brew = "Cold brew\n250 g ground coffee\n1.75 l water\n\nSteep for 18 hours, strain.\nDilute 1:1 with water.\n";
    holds(brew, &["Dilute 1:1 with water: how much of it is that?"]);
}

#[test]
fn the_juice_of_fruit_that_is_peeled_is_asked() {
    let lemons = "X\n3 lemons\n100 g sugar\n\nPeel the lemons, rub the peel into the sugar. Add 100 ml of their juice. Strain.\n";
    holds(lemons, &["only its juice and zest? then \"lemon juice\" = \"juice of 3 lemons\""]);
}

#[test]
fn an_unknown_fat_that_is_lifted_is_asked() {
    let bourbon = "Bourbon\n700 ml bourbon\n120 g Nussbutter\n\nVerrühren, 3 h stehen lassen. Fett abheben.\n";
    holds(bourbon, &["Nussbutter = \"120 g\"  # ! not known here", "is it lifted off again?"]);
}

/// What nobody can say before it is strained goes in behind it, whatever it comes to.
#[test]
fn a_share_of_what_is_strained_goes_in_behind_it() {
    let ginger = "Syrup\n500 g ginger\n1 l water\n\nSimmer the ginger in the water for 20 minutes. Strain. Weigh it and add the same \
                  weight of sugar.\n";
    holds(ginger, &["[parts]\ninfusion = \"all\"", "measure the rest first: sugar = \"… g\""]);
    let told = ginger.replace("1 l water\n", "1 l water\n900 g sugar\n");
    holds(&told, &["that it gives\nsugar = \"900 g\"", "!measure the rest"]);
}

#[test]
fn degrees_for_a_time_are_a_heat_whatever_the_verb() {
    let eggs = |step: &str| format!("Likör\n8 Eigelb\n250 g Zucker\n250 ml Korn 38 %\n\n{step}\n");
    for step in ["Über dem Wasserbad bei 70 °C 10 Minuten dickschlagen.", "Bei 70 °C 10 Minuten rühren."] {
        holds(&eggs(step), &["heated = \"70 °C for 10 Minuten\"", "!takes"]);
    }
    holds(&eggs("Auf 30 °C 10 Minuten abkühlen lassen."), &["!heated"]);
    holds(&eggs("Scaldare a fuoco basso (max 60°)."), &["(max 60°): °C or °F, was all of it so hot"]);
}

#[test]
fn the_rest_is_what_nothing_before_has_named() {
    let two = [
        "[stage.parts]\n\"overproof rum\" = \"180 ml\"\nginger = { amount",
        "\"sugar syrup\" = \"420 ml\"\n\"lime juice\"",
    ];
    let list = "Mix\n180 ml overproof rum\n40 g ginger\n420 ml sugar syrup\n130 ml lime juice\n";
    for last in
        ["Add the rest and shake.", "Add everything else and shake.", "Den Rest zugeben.", "Aggiungere il resto."]
    {
        holds(&format!("{list}\nRum and ginger in a jar for 24 hours. Strain. {last}\n"), &two);
    }
    let line = "Rum and ginger in a jar 24 hours. Strain. Add the rest.";
    holds(&format!("{list}{line}\n"), &[&two[..], &["takes = \"24 hours\"", "!\"the rest"]].concat());
    let table = "Mix\nIngredient;Amount;Unit;Notes\noverproof rum;180;ml;\nginger;40;g;\nsugar syrup;420;ml;add after straining\n\
                 lime juice;130;ml;add after straining\n\nRum and ginger in a jar 24 hours. Strain.\n";
    holds(table, &[two[0], "\"sugar syrup\" = \"420 ml\"  # add after straining"]);
}

#[test]
fn a_question_stands_under_the_stage_that_its_steps_name() {
    let shrub = "Shrub\n500 g Himbeeren\n400 g Zucker\n1 Ästchen Rosmarin\n400 ml Apfelessig\n\nHimbeeren mit Zucker und Rosmarin \
                 vermengen, 24 Std. ziehen lassen. Durch ein feines Sieb abseihen. Essig dazugeben.\n";
    holds(shrub, &["Zucker = \"400 g\"\n# ? 1 Ästchen Rosmarin: ", "Apfelessig = \"400 ml\"\n"]);
}

#[test]
fn what_nobody_knows_is_placed_by_its_words() {
    let root = |last: &str| {
        format!("Syrup\n500 g knobroot\n1 l water\n800 g sugar\n\nSimmer the knobroot in the water 20 min. {last}\n")
    };
    holds(
        &root("Strain. Stir in the sugar."),
        &["[stage.parts]\nknobroot = \"500 g\"", "[parts]\ninfusion = \"all\"", "gives\nsugar = \"800 g\""],
    );
    let sweet = "Syrup\n500 g ginger\n1 l water\n800 g zuckrine\n\nSimmer the ginger in the water 20 min. Strain. Stir in the sugar.\n";
    holds(sweet, &["[parts]\ninfusion = \"all\"", "zuckrine: the steps do not name it"]);
    let nuts = "Latte\n250 g noci strane\n1 l acqua\n\nFrullare le noci. Strizzare bene in un telo.\n";
    holds(nuts, &["is it strained out? then strained = true"]);
    let lemons = "Syrup\n500 g ginger\n1 l water\n2 lemons - juice and peel\n\nSimmer the ginger and the lemon peel in the water 20 \
                  min. Strain. Add the lemon juice.\n";
    holds(lemons, &["gives\n\"lemon juice\" = \"juice of 2 lemons\""]);
}

#[test]
fn what_is_strained_out_and_used_again_is_asked() {
    let again = "the steps use it again once it is strained";
    let bitters = "Bitters\n200 ml rum\n20 g orange peel\n5 g gentian root\n200 ml water\n45 g sugar\n\nSteep the peel and gentian in the \
                   rum for 14 days and strain. Simmer the strained peel in the water for 10 minutes, cool, strain and add to the rum. \
                   Stir in the sugar.\n";
    let twice = ["[parts]\nbase = \"all\"", "# ? infusion: is it in the hot pan too?"];
    holds(bitters, &[&twice[..], &["[stage.parts]\nwater = \"200 ml\"", again]].concat());
    let german = "Bitter\n200 ml Rum\n20 g Orangenschale\n200 ml Wasser\n\nSchale im Rum 14 Tage ziehen lassen, abseihen. Die abgeseihte \
                  Schale im Wasser 10 Minuten köcheln, abseihen und zum Rum geben.\n";
    holds(german, &[again]);
}

#[test]
fn weeks_in_the_cold_at_the_end_are_how_long_it_keeps() {
    let syrup = |last: &str| format!("Syrup\n500 g sugar\n500 g water\n\nStir until it is dissolved. {last}\n");
    for last in [
        "In the fridge 3 weeks.",
        "3 weeks in the fridge.",
        "Fridge, 3 weeks.",
        "3 weeks in the walk-in.",
        "Im Kühlschrank 3 Wochen.",
        "In frigo 2 settimane.",
        "En la nevera 2 semanas.",
        "Au frigo 3 semaines.",
        "In the fridge 3 weeks. Shake before use.",
    ] {
        holds(&syrup(last), &["!takes", "!at ="]);
    }
    // a night is no keeping, nor is what a plant stands in, what goes on, or what a verb says that it waits
    holds(&syrup("In the fridge 24 hours."), &["takes = \"24 hours\""]);
    holds(&syrup("Rest in the fridge for 3 weeks."), &["takes = \"3 weeks\"", "at = \"4 °C\""]);
    holds(&syrup("In the fridge 3 weeks. Add more water."), &["takes = \"3 weeks\""]);
    let vodka = "Vodka\n700 ml vodka\n50 g sloes\n\nPut the sloes in the vodka. In the fridge 3 weeks.\n";
    holds(vodka, &["takes = \"3 weeks\""]);
}

#[test]
fn a_syrup_boiled_while_the_rest_stands_is_made_apart() {
    let apart =
        ["name = \"syrup\"\nheated = \"95 °C for 5 min", "takes = \"10 ", "!was all of it so hot", "infusion = "];
    let english = "Liqueur\n50 g lemon zest\n1 l vodka\n800 g sugar\n1 l water\n\nSteep the zest in the vodka for 10 days. Boil the \
                   water with the sugar for 5 minutes and let it cool. Strain the vodka and stir it into the cold syrup.\n";
    holds(english, &[&apart[..], &["[stage.parts]\nsugar = \"800 g\"\nwater = \"1 l\""]].concat());
    let italian = "Liquore\nscorza di 8 limoni\n1 litro di alcol 95%\n800 g di zucchero\n1,2 litri d'acqua\n\nLasciare macerare le \
                   scorze nell'alcol per 10 giorni. Far bollire l'acqua con lo zucchero 5 minuti e far raffreddare. Filtrare l'alcol \
                   e unirlo allo sciroppo freddo.\n";
    holds(italian, &[&apart[..], &["[stage.parts]\nzucchero = \"800 g\"\nacqua"]].concat());
}

#[test]
fn what_is_filled_up_to_a_size_is_asked() {
    let tea = |last: &str| {
        format!(
            "Tea\n500 ml water\n20 g black tea\n500 g sugar\n\nSteep the tea in the hot water for 5 minutes. Strain. {last}\n"
        )
    };
    let asks = "how much of it was that? weigh: water = \"… g\"";
    holds(&tea("Top up to a litre with water. Stir in the sugar."), &[asks]);
    for last in ["Auf 500 ml auffüllen.", "Top up to 1 litre.", "Top up to a litre."] {
        holds(&tea(last), &["with what, and how much of it was that?"]);
    }
    // in the sentence of the straining, and under the heading of a stage
    let strained = "Tee\n500 ml Wasser\n20 g Hibiskus\n500 g Zucker\n\nHibiskus im Wasser 2 h ziehen lassen.\nDurch einen Filter abseihen und auf \
                    500 ml auffüllen.\nZucker zugeben.\n";
    holds(strained, &["[parts]\ninfusion = \"all\"", "with what, and how much of it was that?"]);
    let staged = "Tea\n\nFor the tea:\n400 ml water\n20 g hibiscus\nSteep 2 h, strain, top up with water to 1 litre.\n\nTo finish:\nall the tea\n500 g sugar\n";
    holds(staged, &["how much of it was that? weigh: water = \"… g\""]);
}

/// How it is served stands in the note of a product; of a drink it is how it is made.
#[test]
fn advice_to_the_guest_is_a_note() {
    let text = "Ginger cordial\n200 g ginger\n500 g sugar\n500 ml water\n\nBoil the ginger with the sugar and the water, strain. \
                Bottle. Use 30 ml in a highball, top it with ginger beer.\n";
    holds(text, &["notes = \"Use 30 ml in a highball, top it with ginger beer.\"", "!ginger beer =", "!does it go in"]);
    holds("Highball\n50 ml gin\n20 ml lime juice\nBuild over ice in a glass, stir.\n", &["how = \"built\"", "!notes"]);
}
