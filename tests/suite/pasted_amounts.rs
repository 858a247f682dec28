//! Amounts that a sentence of the method says beside the list: a liquid that is measured there, what a press gives, how far a pan is
//! boiled down, a ratio. None of it is lost. All invented.

use crate::kitchen::Kitchen;
use crate::pasting::{holds, holds_in};
use stillroom::card;
use stillroom::house::House;
use stillroom::solver::{Options, solve};

fn syrup(steps: &str) -> String {
    format!("Syrup\n500 g sugar\n500 ml water\n20 g gum arabic\n\n{steps}\n")
}

#[test]
fn a_liquid_that_a_step_measures_is_asked_whatever_stands_before_it() {
    for (step, more) in [
        ("Hydrate the gum in 100 ml of hot water.", "\"hot water, more\""),
        ("Dissolve the gum in 100 ml water and stir in.", "\"water, more\""),
        ("Loosen with 100 ml water.", "\"water, more\""),
        ("Das Gummi in 100 ml Wasser quellen lassen.", "\"Wasser, more\""),
        ("Faire gonfler la gomme dans 100 ml d'eau chaude.", "\"eau chaude, more\""),
        ("Sciogliere la gomma in 100 ml di acqua.", "\"acqua, more\""),
        ("Disolver la goma en 100 ml de agua.", "\"agua, more\""),
    ] {
        holds(&syrup(step), &[&format!("beside what the list has of it? {more} = {{ of = "), "amount = \"100 ml\""]);
    }
    holds(&syrup("Loosen with 2 oz hot water."), &["# ? 2 oz hot water: `oz` can mean more than one unit"]);
    holds(&syrup("Bloom the gum in 1/2 cup water."), &["# ? 1/2 cup water: `cup` can mean"]);
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    holds_in(&us, &syrup("Hydrate the gum in 4 oz of hot water."), &["does 4 oz of it go in beside"]);
    holds(&syrup("Soak the gum in 50 g of moon dust."), &["# ? 50 g of moon dust: does 50 g of it go in?"]);
}

#[test]
fn a_size_beside_several_packs_is_asked_as_each_or_all() {
    for line in [
        "Strawberries (hulled) - 2 punnets (800 g)",
        "2 punnets (800 g) strawberries",
        "2 punnets strawberries (800 g)",
    ] {
        let text = format!("Syrup\n{line}\n500 g sugar\n500 ml water\n");
        holds(
            &text,
            &["is so much each, or all together?", "2 punnets (800 g each)", "!strawberries = ", "!Strawberries = "],
        );
    }
    let each = "Syrup\n2 punnets (400 g each) strawberries\n500 g sugar\n";
    holds(each, &["\"2 punnets (400 g each)\"", "!all together"]);
}

#[test]
fn the_point_in_front_of_a_number_is_no_leader() {
    let text =
        "Mix\nGin .75 L\nTonka bean - .5 g\nSalt: .25 tsp\nLime juice   .25L\nWater ..... 50 ml\nSugar....20 g\n";
    holds(
        text,
        &[
            "Gin = \".75 L\"",
            "\".5 g\"",
            "Salt = \".25 tsp\"",
            "\".25L\"",
            "Water = \"50 ml\"",
            "!\"75 L\"",
            "!\"5 g\"",
        ],
    );
}

#[test]
fn two_amounts_of_one_line_are_asked() {
    let columns = "Cold brew   x1   x4\nCoffee, coarse  120 g  480 g\nWater   250 ml   1 L\nGum Q\t250 g\t1 kg\nSalt 2 g\n\nSteep \
                   the coffee in the water, strain.\n";
    holds(
        columns,
        &[
            "name = \"Cold brew\"",
            "\"ground coffee\" = { amount = \"120 g\", strained = true }",
            "\"Gum Q\" = \"250 g\"",
            "which one is made? These are of x1 (then delete this line); of x4: \"ground coffee\" = { amount = \"480 g\", strained = \
             true } | Water = \"1 L\" | \"Gum Q\" = \"1 kg\"",
        ],
    );
    holds(
        "Mix\nVodka 40% 500 ml 2 L\nSalt 2 g\n",
        &["which one? \"Vodka 40%\" = \"500 ml\", or \"Vodka 40%\" = \"2 L\""],
    );
    let spaced = "Sirop\nEau 2 500 g\nSel 1 000 g\n1 050 g sucre\n";
    holds(spaced, &["Eau = \"2500 g\", or Eau = \"500 g\"", "Sel = \"1 000 g\"", "sucre = \"1 050 g\"", "!Eau 2\""]);
    holds("Mix\nGin 500 ml (x2)\nWater 1 L\n", &["? \"x2\": is the amount that of one, or of all?"]);
}

#[test]
fn the_signs_of_tables_and_fractions_are_no_part_of_a_name() {
    let table =
        "| Batch | |\n|---|:--|\n| Gin | 250ml |\n| Sweet vermouth | 250ml |\n| 150 ml | Water |\n\nCombine, bottle.\n";
    let parts = ["name = \"Batch\"", "Gin = \"250ml\"", "\"Sweet vermouth\" = \"250ml\"", "Water = \"150 ml\"", "!# ?"];
    holds(table, &parts);
    holds("Mix\n1-1/2 tsp salt\nWater: 1-1/2 L\n", &["salt = \"1 1/2 tsp\"", "Water = \"1 1/2 L\"", "!range"]);
    // a narrow range is its middle; which end of a wide one is asked
    holds("Mix\n2-3 lemons\n1 L water\n", &["lemons = \"2.5 lemons\"", "assumed: the middle of 2-3"]);
    holds("Mix\n1-2 tsp salt\n1 L water\n", &["1-2 is a range"]);
}

#[test]
fn words_of_cookbooks_are_no_question() {
    let text = "Rhubarb syrup\n\nFor the syrup:\n1kg rhubarb\n500g caster sugar, plus extra to taste\n600ml water\n\nPut the rhubarb \
                and water in a large pan. Simmer 20 minutes, then 2 more minutes. Strain. Stir in the sugar.\n";
    let parts =
        ["water = \"600ml\"", "\"caster sugar\" = \"500g\"  # plus extra", "!name = \"syrup\"", "!pan = ", "!# ?"];
    holds(text, &parts);
    holds("Sugar 500 g\nWater 1 L\nSalt 5 g\n", &["Sugar = \"500 g\"", "![target]"]);
    holds("Mix\nsugar 250 g/L\nWater 1 L\n", &["[target]"]);
}

#[test]
fn what_a_step_says_of_the_list_is_no_more_of_it() {
    for step in [
        "Stir in 300 ml of the water.",
        "Stir in the 500 ml water.",
        "Stir 300 ml water into the sugar, then stir in 200 ml water and the gum.",
        "Stir 300 ml water into the sugar. Stir in the gum and the rest of the water.",
        "Pour into 250 ml bottles.",
        "Pour it into bottles, 250 ml each.",
        "Strain into a 2 l jug.",
        "Stir the sugar (500 g) into the water.",
        "Serve 20 ml over ice.",
        "Stand it in a 500 ml jar.",
    ] {
        holds(&syrup(step), &["!# ?"]);
    }
}

#[test]
fn what_the_recipe_says_that_comes_out_is_asked() {
    let english = "Quince liqueur\n1.5 kg quinces\n700 ml brandy\n300 g sugar\n\nGrate the quinces, leave for 24 hours, then press them. Boil \
                   the juice (about 600 ml) for a minute and let it cool.\nMix with the brandy and sugar and leave 6 weeks.\n";
    let asks = "about 600 ml: is that how much comes out?";
    holds(english, &["name = \"base\"\nheated = \"95 °C for a minute\"", asks, "!takes = \"a minute\""]);
    let german = "Quittenlikör\n3 Pfund Quitten\n1 Flasche Doppelkorn 38 % (0,7 l)\n300 g Kandiszucker\n3 Nelken\n\nDie Quitten raspeln und 24 \
                  Stunden stehen lassen, dann auspressen.\nSaft (gibt etwa 600 ml) kurz aufkochen und abkühlen lassen.\nMit Korn, Kandis und \
                  Gewürzen in ein Glas, 6 Wochen ziehen lassen. Filtern.\n";
    holds(
        german,
        &[
            "name = \"base\"\nheated = \"95 °C\"",
            "[stage.parts]\nQuitten = { amount = \"3 Pfund\", strained = true }  # assumed: strained out with the rest\n# ? Saft gibt",
            "base = \"all\"",
            "Nelken = { amount = \"3 Nelken\", strained = true }",
            "# ? Saft gibt etwa 600 ml: is that how much comes out?",
        ],
    );
    holds(&syrup("Squeeze, you should have 500 ml of juice."), &["500 ml of juice: is that how much comes out?"]);
    for line in ["Es ergibt ca. 900 ml.", "On obtient 900 ml.", "Se obtienen 900 ml.", "Si ottengono 900 ml."] {
        holds(&syrup(line), &["# the recipe says \"about 900 ml\"", "!\"900 ml.\""]);
    }
}

#[test]
fn what_is_boiled_down_is_asked_with_its_size() {
    let size = "makes = \"750 ml\" above and evaporated = \"as needed\"";
    for step in [
        "Boil until 750 ml are left.",
        "Simmer until you have 750 ml.",
        "Boil the syrup with the gum down to 750 ml.",
        "Köcheln, bis 750 ml übrig sind.",
        "Cuire jusqu'à obtenir 750 ml.",
        "Sobbollire fino a ottenere 750 ml.",
        "Cocer 20 minutos hasta que quede en 750 ml.",
        "Cocer con el azúcar hasta obtener 750 ml.",
    ] {
        holds(&syrup(step), &["what steamed off? weigh the pan", size, "!nothing steamed off"]);
    }
    for step in [
        "Heat to 70 °C. Strain, let it reduce by a quarter.",
        "Chauffer à 70 °C pour dissoudre. Filtrer, laisser réduire d'un quart.",
        "Auf 70 °C erhitzen und um ein Viertel einkochen.",
        "Auf 70 °C erhitzen. Auf die Hälfte einkochen.",
        "Scaldare a 70 °C. Far ridurre di un quarto.",
        "Calentar a 70 °C. Dejar reducir un cuarto.",
    ] {
        holds(&syrup(step), &["# ? ", "what steamed off? weigh the pan", "of its water", "!nothing steamed off"]);
    }
    // by hand: 998 g of water and 400 g of sugar, boiled down to 750 ml of about 45 °Bx, which weigh 900 g
    let card = "name = \"x\"\nmakes = \"750 ml\"\n[parts]\nwater = \"1 l\"\nsugar = \"400 g\"\n[loss]\nevaporated = \"as needed\"\n";
    let (card, _) = card::read("x".into(), card.into());
    let solved = solve(&card.unwrap(), &House::default(), &Options::default()).solved.unwrap();
    assert!((solved.bottled().total_grams() - 900.0).abs() < 2.0, "{}", solved.bottled().total_grams());
}

#[test]
fn the_simmer_of_a_bath_is_not_that_of_what_stands_over_it() {
    let eggs =
        |step: &str| format!("Custard\n10 egg yolks\n250 g sugar\n350 ml brandy\n\nBeat all of it together. {step}\n");
    for (step, heated) in [
        ("Stir over a pan of simmering water, 75 °C on the probe, about 10 minutes.", "75 °C for 10 minutes"),
        ("Über siedendem Wasser rühren, 75 °C, etwa 10 Minuten.", "75 °C for 10 Minuten"),
    ] {
        holds(&eggs(step), &[&format!("heated = \"{heated}\""), "!85 °C", "!95 °C"]);
    }
    let probe = "Stir over a pan of simmering water, 75 degrees on the probe, about 10 minutes.";
    holds(&eggs(probe), &["°C or °F, was all of it so hot, and how long? heated = \"75 °C for 10 minutes\"", "!85 °C"]);
    holds(&eggs("A bagnomaria, 70 °C, per 15 minuti."), &["heated = \"70 °C"]);
    holds(&eggs("Whisk over simmering water for 10 minutes."), &["heated = \"… °C for 10 minutes\"", "!85 °C"]);
}

#[test]
fn a_ratio_in_a_step_is_asked() {
    holds(
        &syrup("Strain, mix kombucha : sugar 1:1 by weight."),
        &["a ratio: how much of each goes in?", "kombucha = \"… g\""],
    );
    holds(&syrup("Mix equal parts syrup and rum."), &["a ratio: how much of each goes in?", "rum = \"… g\""]);
    holds(&syrup("Saft und Rum zu gleichen Teilen mischen."), &["a ratio: how much of each goes in?"]);
    holds(&syrup("Mélanger le sirop et le rhum à parts égales."), &["a ratio: how much of each goes in?"]);
    holds(&syrup("Stir the sugar and the water 1:1."), &["!# ?"]);
}

#[test]
fn a_strength_that_a_step_ends_at_is_asked() {
    let steep = |step: &str| format!("Liqueur\n1 l vodka 50%\n100 g sloes\n\nSteep for 3 days. Strain. {step}\n");
    for step in [
        "Bring it down to 25% with water.",
        "Réduire à 25 % avec de l'eau.",
        "Mettre à 25 degrés avec de l'eau.",
        "Proof down to 25 % abv.",
        "Auf 25 % herabsetzen.",
        "Couper à 25 %.",
        "Rebajar hasta 25 % con agua.",
        "Portare a 25 %.",
    ] {
        holds(
            &steep(step),
            &["is that the strength it ends at? then water = \"as needed\" and abv = 25 under [target]"],
        );
    }
    holds(&steep("Stir in the 50% vodka."), &["!ends at"]);
    holds(&steep("Cut 3:1 with water."), &["a ratio: how much of each goes in? a line each: water = \"… g\""]);
}

#[test]
fn a_part_that_begins_like_a_step_is_none() {
    holds("Punch\nbottle of gin\n500 g sugar\n", &["# ? bottle of gin: "]);
    holds("Punch\npound of sugar\n500 ml water\n", &["# ? pound of sugar: "]);
}

#[test]
fn a_table_that_says_what_is_done_loses_none_of_it() {
    let table = "stage,ingredient,amount,unit,note\n1 infusion,lemongrass,80,g,bruised and sliced\n1 infusion,water,600,ml,80 °C for 20 min then \
                 strain\n2 cordial,infusion,all,,\n2 cordial,white sugar,500,g,\n2 cordial,salt,0.5,%,of total\n,,,,x 4 for the class\n";
    holds(
        table,
        &[
            "name = \"Pasted recipe\"  # assumed: the text has no title",
            "# ? x 4 for the class: are the amounts those of one batch?",
            "heated = \"80 °C for 20 min\"",
            "lemongrass = { amount = \"80 g\", strained = true }  # bruised and sliced",
            "[parts]\ninfusion = \"all\"",
            "salt = \"0.5 %\"  # of total\n",
            "!how much of it",
            "!0.5 % of what",
        ],
    );
    for line in ["x4", "4 x", "double batch", "× 3 for Friday"] {
        let text = format!("Syrup\n{line}\n500 g sugar\n500 ml water\n");
        holds(&text, &[&format!("# ? {line}: are the amounts those of one batch?")]);
    }
    for all in ["all infusion", "all of the infusion", "die ganze infusion", "toute l'infusion", "tutta l'infusione"] {
        let name = if all.ends_with("one") { "infusione" } else { "infusion" };
        let text = format!(
            "Cordial\n\nFor the {name}:\n20 g hibiscus\n1 l water\n\nTo finish:\n{all}\n500 g sugar\n\nStrain.\n"
        );
        holds(&text, &[&format!("[parts]\n{name} = \"all\""), "!# ?"]);
    }
}

#[test]
fn a_bottle_says_its_size_and_its_strength_in_one_bracket() {
    let text =
        "Mix\n1 bottle of gin (70cl, 37.5%)\n1 Flasche Wodka (0,7 l, 37,5 %)\n1 bouteille de rhum (70 cl, 54 %)\n";
    holds(
        text,
        &[
            "\"gin 37.5%\" = \"1 bottle (70cl)\"",
            "\"Wodka 37.5%\" = \"1 Flasche (0,7 l)\"",
            "\"rhum 54%\" = \"1 bouteille (70 cl)\"",
            "!# ?",
        ],
    );
}

/// Pounds and ounces are one weight, a number behind its thing counts it, a cup of packed sugar is a cup, and what alone is taken of
/// fruit may stand in brackets.
#[test]
fn amounts_of_kitchens_are_no_question() {
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    for (line, expected) in [
        ("1lb 2oz granulated sugar", "\"granulated sugar\" = \"510 g\""),
        ("1 lb 4 oz sugar", "\nsugar = \"567 g\""),
        ("star anise - 3", "\"star anise\" = { amount = \"3 star anise\""),
        ("2 c. milk", "\nmilk = \"2 cup\""),
        ("1 cup packed dark brown sugar", "\"dark brown sugar\" = \"1 cup\""),
        ("20 g cinchona bark (chips not powder)", "\"cinchona bark\" = { amount = \"20 g\""),
        ("400g raspberries, fresh or frozen", "raspberries = { amount = \"400g\""),
        ("8 limoni non trattati (solo la scorza)", "\"scorza di limone\" = { amount = \"zest of 8 limoni"),
        ("8 limoni (solo la scorza)", "\"scorza di limone\" = { amount = \"zest of 8 limoni"),
        ("le jus d'un demi-citron", "\"jus de citron\" = \"juice of 0.5 citron"),
    ] {
        let text = format!("Mix\n{line}\n500 g honey\n\nMix everything. Strain.\n");
        holds_in(&us, &text, &[expected, if line.contains("milk") { "!can mean" } else { "!# ?" }]);
    }
    let card = "name = \"T\"\n[parts]\n\"dark brown sugar\" = \"1 cup packed\"\nwater = \"1 cup\"\n";
    let made = Kitchen::unstated("");
    made.write("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n");
    let sheet = made.solve(card, &Options::default()).text();
    assert!(sheet.contains("220"), "{sheet}");
    // mint that is packed is another weight than loose leaves
    let mint = card.replace("dark brown sugar", "mint");
    assert!(made.solve(&mint, &Options::default()).plain().contains("packed"));
}

#[test]
fn everyday_words_of_a_list_are_no_question() {
    let text = "Mix\na good glug of brandy, say 50ml\n3 Bio-Zitronen in Scheiben\n500 g sugar\n\nChuck the lot into a jar. Strain.\n";
    holds(text, &["\nbrandy = \"50ml\"", "Zitronen = { amount = \"3 each\"", "!the steps do not name it", "!# ?"]);
    // an article is no spoon, in a line and in a step
    holds("Mezcla\nel zumo de lima\n500 g azúcar\n", &["# ? el zumo de lima: how much of it", "!\"el\""]);
    let spanish = "Mezcla\n30 ml zumo de lima\n500 g azúcar\n\nMezclar. Añadir el zumo de lima.\n";
    holds(spanish, &["!1 el", "!# ?"]);
    holds("Sirop\nLe zeste d'un demi citron\n500 g de sucre\n", &["\"zeste de citron\" = { amount = \"zest of 0.5"]);
    let twice = "Cordial\n1 l water\n20 g hibiscus\n\nSoak overnight. Cover & steep 12 hrs in the walk-in. Strain.\n";
    holds(twice, &["takes = \"12 h\"", "how cold does it stand?", "!which one counts"]);
    for place in ["cooler", "lowboy", "walk-in", "Kühlraum"] {
        holds(&format!("Tea\n1 l water\n20 g hibiscus\n\nSteep 12 h in the {place}. Strain.\n"), &["how cold does it"]);
    }
    let lost = "Bourbon\n1 l bourbon\n200 g butter\n\nMelt, pour in, freeze overnight, skim and filter.\nExpect to lose about 15 %.\n";
    holds(lost, &["# ? Expect to lose about 15 %: is that more than", "then [loss] left_behind = \"15 %\""]);
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    let yields = "Gomme\n500 g sugar\n500 ml water\n20 g lemon zest\n\nSteep the zest. Fine strain.\nYields ~1.5 qts. 2 weeks walk-in.\n";
    holds_in(&us, yields, &["# the recipe says \"~1.5 qts\"", "2 weeks walk-in", "!takes"]);
}
