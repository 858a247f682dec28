//! What a line of the list says besides an amount and a name: a strength, a weight in brackets, how many drinks. All invented.

use crate::pasting::{holds, holds_in};
use stillroom::house::House;
use stillroom::solver::resolve::Material;

#[test]
fn a_ratio_in_brackets_is_that_of_the_syrup() {
    let mix = |line: &str| format!("Mix\n{line}\n3 g salt\n");
    holds(&mix("100 ml simple syrup (2:1)"), &["\"2:1 simple syrup\" = \"100 ml\""]);
    holds(&mix("100 ml agave syrup (1:1)"), &["\"agave syrup 1:1\" = \"100 ml\"  # assumed"]);
    holds(&mix("100 ml honey syrup (3:1)"), &["\"honey syrup 3:1\" = \"100 ml\"  # assumed"]);
    holds(&mix("100 ml Zuckersirup (2:1)"), &["Zuckersirup = \"100 ml\"  # ? \"2:1\": of what to what?"]);
}

#[test]
fn what_the_author_weighed_counts() {
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    let mix = |line: &str| format!("Mix\n{line}\n1 kg water\n");
    holds_in(&us, &mix("2 cups sugar (450 g)"), &["sugar = \"450 g\"  # assumed: the recipe's own weight of 2 cups"]);
    holds_in(&us, &mix("2 cups (450 g) sugar"), &["sugar = \"2 cups (450 g)\""]);
    for line in ["8 oz honey by weight", "8 oz honey (by weight)", "8 oz (by weight) honey"] {
        holds_in(&us, &mix(line), &["honey = \"8 oz (by weight)\""]);
    }
    holds(&mix("1kg 200g sugar"), &["# ? 1kg 200g sugar: 1kg 200g is one amount"]);
    holds(&mix("about 900g sugar"), &["sugar = \"900g\"  # assumed: about so much"]);
    holds(&mix("ca. 500 g Zucker"), &["Zucker = \"500 g\"  # assumed: ca. so much"]);
}

/// Rum is 40 % in the larder, vodka too: 80 proof are 40 %.
#[test]
fn a_strength_is_that_of_the_spirit() {
    holds("X\n500 ml rum, 54% abv\n100 g sugar\n", &["\"rum, 54% abv\" = \"500 ml\"", "!not known here", "![target]"]);
    holds("X\n500 ml rum (54%)\n100 g sugar\n", &["\"rum 54%\" = \"500 ml\""]);
    holds("X\n500 ml vodka (80 proof)\n100 g sugar\n", &["vodka = \"500 ml\"  # 80 proof"]);
    holds("X\n500 ml bourbon (45% ABV)\n100 g sugar\n", &["bourbon = \"500 ml\"  # 45% ABV"]);
    holds("Syrup\n60% sugar\nwater\nmakes 1 kg\n", &["sugar = \"60%\"", "water = \"as needed\"", "![target]"]);
}

#[test]
fn what_is_taken_of_fruit_may_stand_in_brackets() {
    holds("X\n3 lemons (juiced)\n100 g sugar\n", &["\"lemon juice\" = \"juice of 3 lemons\""]);
    holds("X\n3 lemons (juice)\n100 g sugar\n", &["\"lemon juice\" = \"juice of 3 lemons\""]);
    holds("X\n3 Zitronen (Saft)\n100 g Zucker\n", &["Zitronensaft = \"juice of 3 "]);
}

#[test]
fn the_amounts_of_one_drink_are_asked_for_all_of_them() {
    let parts = "50 ml tequila\n25 ml triple sec\n25 ml lime juice\n";
    let ten = "then tequila = \"500 ml\", \"triple sec\" = \"250 ml\", \"lime juice\" = \"250 ml\"";
    let twenty = "then tequila = \"1000 ml\", \"triple sec\" = \"500 ml\", \"lime juice\" = \"500 ml\"";
    holds(&format!("Batch margarita x10\n{parts}"), &[ten]);
    holds(&format!("Margarita, makes 10\n{parts}"), &[ten]);
    holds(&format!("Margarita (20 drinks)\n{parts}"), &[twenty]);
    holds(&format!("Margarita\nPer drink:\n{parts}\nx 20. Stir it all, bottle, freezer.\n"), &[twenty]);
    // what is a batch already stays one
    let batch = "Margarita x10\n500 ml tequila\n250 ml triple sec\n250 ml lime juice\n";
    holds(batch, &["tequila = \"500 ml\"", "!one drink?"]);
    holds("Ingredient,Single (ml),Batch x20 (ml)\nGin,50,1000\nDry vermouth,20,400\n", &["Gin = \"1000 ml\""]);
    holds("Ingredient,1 drink (ml),20 drinks (ml)\nGin,50,1000\nLime juice,25,500\n", &["Gin = \"1000 ml\""]);
}

#[test]
fn what_was_weighed_counts_before_its_share() {
    let table = "Ingredient,%,g\nSugar,50,500\nWater,49.5,495\nCitric acid,0.5,5\n";
    holds(table, &["Sugar = \"500 g\"", "Water = \"495 g\"", "\"Citric acid\" = \"5 g\"", "![target]"]);
}

#[test]
fn an_amount_may_be_of_several_things_or_said_twice() {
    holds("X\n250 g each of sugar and water\n", &["sugar = \"250 g\"", "water = \"250 g\""]);
    holds("X\nje 100 g Zucker und Wasser\n", &["Zucker = \"100 g\"", "Wasser = \"100 g\""]);
    holds("X\n2x500g sugar\n1 l water\n", &["sugar = \"1000g\""]);
    holds("X\nlimes x 4, juice\n1 kg sugar\n", &["\"lime juice\" = \"juice of 4 limes\""]);
    holds("X\n480ml/2 cups water\n500 g sugar\n", &["# ? 480ml/2 cups water: 480ml or what stands behind it"]);
    holds("X\n480ml/16 fl oz water\n500 g sugar\n", &["water = \"480ml\"  # assumed: 480ml, and not 16 fl oz again"]);
    holds("X\n50 ml gin\n500 ml lemonade to top\n", &["lemonade = \"500 ml\""]);
}

#[test]
fn a_remark_that_makes_no_other_thing_of_a_thing_is_one() {
    let mix = |line: &str| format!("X\n{line}\n500 g sugar\n");
    holds(&mix("250 ml lime juice (8 limes)"), &["\"lime juice\" = \"250 ml\"  # 8 limes"]);
    holds(
        &mix("20 g lemon zest (from the lemons)"),
        &["\"lemon zest\" = { amount = \"20 g\", strained = \"assumed\" }  # from the lemons"],
    );
}

#[test]
fn all_of_a_stage_is_what_it_gives() {
    let text = "X\n\nFor the infusion:\n100 g raspberries\n500 ml vodka\nSteep for 2 days, strain.\n\nTo finish:\nall the infusion\n100 g sugar\n";
    holds(text, &["[parts]\ninfusion = \"all\"", "!how much"]);
}

#[test]
fn what_stands_round_a_table_is_told_as_it_is() {
    let falernum = "Falernum;makes 1 L;;\n;;;\nIngredient;Qty;Unit;Comments\nLime zest;48;g;8 limes\nOverproof rum 63%;180;ml;\nLime \
                    juice;135;ml;\nAlmond extract;5;ml;\n\nStep;;;\n1;Soak the zest in the rum for 24 h;;\n2;Strain, squeeze solids;;\n\
                    3;Add lime juice and extract, shake;;\n";
    let told = [
        "name = \"Falernum\"",
        "\"Strain, squeeze solids.\"",
        "\"Add lime juice and extract, shake\"",
        "\"Almond extract\" = \"5 ml\"",
    ];
    holds(falernum, &told);
    holds(
        "\"Saline 20%\"\n\"qty\",\"unit\",\"item\"\n\"20\",\"g\",\"sea salt\"\n\"80\",\"g\",\"water\"\n",
        &["name = \"Saline 20%\""],
    );
    holds(
        "Recipe\tTea syrup\t\nItem\tQty\tUnit\nWater\t0.5\tkg\nSugar\t0.5\tkg\n",
        &["name = \"Tea syrup\"", "Water = \"0.5 kg\""],
    );
    let table = "| Ingredient | Amount |\n|---|---|\n| water | 500 g |\n| sugar | 500 g |\n";
    holds(table, &["water = \"500 g\"", "!---"]);
}

#[test]
fn an_amount_in_a_step_is_that_of_a_bare_name() {
    holds(
        "X\n500 ml gin\nlemon juice\n\nStir. Add 10 ml lemon juice.\n",
        &["\"lemon juice\" = \"10 ml\"", "!how much"],
    );
    holds("X\n500 ml agua\nuna pizca de sal\n", &["sal = \"1 pizca\""]);
    holds("X\n500 ml acqua\nun pizzico di sale\n", &["sale = \"1 pizzico\""]);
}

#[test]
fn a_table_has_stages_a_sum_and_a_method() {
    let stages = "Ingredient,Amount,Unit,Stage\nCinnamon sticks,20,g,1\nWater,500,g,1\nSugar,750,g,2\nTotal,1270,g,\n";
    holds(stages, &["name = \"1\"\n[stage.parts]\n\"Cinnamon sticks\"", "[parts]\nSugar = \"750 g\"", "!Total"]);
    let brew = "Stage,Ingredient,Amount,Unit\nA,Ground coffee,200,g\nA,Water,1000,g\nB,Cold brew (from A),700,g\nB,Sugar,500,g\n";
    holds(brew, &["name = \"A\"", "[parts]\nA = \"700 g\"", "!as needed"]);
    let method = "Mix\nIngredient;Amount;Unit\nOverproof rum;180;ml\nGinger;40;g\nSugar syrup;420;ml\n\
                  Method;Rum, zest and ginger in a jar 24 hours. Strain. Add the syrup.\n";
    holds(method, &["takes = \"24 hours\"", "!how much?"]);
    let commas = method.replace(';', ",");
    holds(&commas, &["takes = \"24 hours\"", "!how much?"]);
}

#[test]
fn what_is_done_behind_a_list_on_one_line_is_a_step() {
    holds(
        "Mix\nHoney syrup: 200 g honey, 100 g water. Warm and stir.",
        &["honey = \"200 g\"\nwater = \"100 g\"", "\"Warm and stir."],
    );
}

#[test]
fn a_note_below_the_list_is_asked_whole() {
    let drink = "Drink\n300 ml gin *\n100 ml sweet vermouth\n\nStir.\n\n*20 g coffee beans in 350 ml gin, 12 hours in the fridge, strain\n";
    holds(
        drink,
        &[
            "gin = \"300 ml\"",
            "!takes",
            "# ? 20 g coffee beans in 350 ml gin, 12 hours in the fridge, strain: that makes",
        ],
    );
    holds("Mix\n* 300 ml gin\n* 100 ml water\n", &["gin = \"300 ml\"\nwater"]);
}

#[test]
fn half_a_unit_and_untreated_fruit_are_read() {
    let mix = |line: &str| format!("Mix\n{line}\n3 g salt\n");
    holds(&mix("mezzo litro di acqua"), &["acqua = \"mezzo litro\""]);
    holds(&mix("mezzo litro d'acqua"), &["acqua = \"mezzo litro\""]);
    holds(&mix("half a litre of milk"), &["milk = \"half a litre\""]);
    holds(&mix("ein halber Liter Milch"), &["Milch = \"ein halber Liter\""]);
    holds(&mix("la scorza di 8 limoni non trattati"), &["\"scorza di limone\" = { amount = \"zest of 8 "]);
    for line in ["500 g granulated", "500 g fresh root ginger", "500 g mandorle pelate", "500 g zucchero semolato"] {
        holds(&mix(line), &["!not known here"]);
    }
    holds(
        "Mix\n2 parts sugar\n1 part water\nBy weight. Make 2 litres.\n",
        &["makes = \"2 litres\"", "2 parts by weight"],
    );
}

#[test]
fn a_share_beside_an_amount_is_asked_of_what() {
    let orange = "Orange\n1000 ml orange juice\nCitric acid 3.2 % of the juice\nMalic acid 2.0 %\n";
    let asks = ["of the orange juice (grams in 100 ml): \"Citric acid\" = \"32 g\"", "\"Malic acid\" = \"20 g\""];
    holds(orange, &asks);
    // of nothing else it is the finished weight, and salt that is named by its strength is no share
    holds("Syrup\n60% sugar\n40% water\nmakes 1 kg\n", &["!of what?"]);
    holds("Mix\n100 ml Saline 20 %\n1 l water\n", &["!of what?"]);
}

#[test]
fn two_ratios_by_another_measure_each_are_asked() {
    let both = "Mix\n8 parts sugar syrup\n1 part lime juice\n(parts by volume)\n\nSteep 1 part cloves in 5 parts rum (by weight).\n";
    holds(both, &["\"sugar syrup\" = \"8 parts\"", "# ? the ratio: by weight or by volume?"]);
    let header = "Mix\nTINCTURE by weight\n8 parts sugar syrup\n1 part lime juice\n(parts by volume)\n";
    holds(header, &["\"sugar syrup\" = \"8 parts\"", "# ? the ratio: by weight or by volume?"]);
    let line = "Mix\n500 ml gin\nTINCTURE: 1 part cloves : 5 parts rum, total 120 g, 24 h, strain\n";
    holds(line, &["a ratio in a sentence: what it makes is a [[stage]] of its own"]);
}

#[test]
fn an_amount_in_two_units_is_added_up() {
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    holds_in(&us, "Mix\n2 qt + 1/2 cup water\n", &["water = \"2011 ml\"  # assumed: 2 qt and 1/2 cup together"]);
    holds_in(&us, "Mix\n3 cups + 2 Tbsp sugar\n", &["sugar = \"740 ml\""]);
    holds("Mix\n2 qt + 1/2 cup water\n", &["are one amount: write it in one unit", "!\"+ 1/2"]);
    holds("Mix\n5 oranges + 1 lemon, quartered\n1 l water\n", &["oranges = \"5 ", "lemon = \"1 "]);
    holds(
        "Mix\n1 Pfund Zucker\n25 dag Honig\n1 Zweig Rosmarin\n",
        &["Zucker = \"1 Pfund\"", "Honig = \"25 dag\"", "Rosmarin = "],
    );
    holds("Mix\na thumb of fresh ginger, about 40g, sliced\n1 l water\n", &["\"fresh ginger\" = \"40g\""]);
}

#[test]
fn a_bottle_is_known_by_its_strength_behind_a_small_word() {
    holds("X\n1/2 litro alcol a 95°\n100 g zucchero\n", &["\"alcol a 95°\" = \"1/2 litro\"", "!not known"]);
    holds("X\n1 l vin blanc sec à 12 %\n100 g sucre de canne\n", &["\"vin blanc sec à 12 %\" = \"1 l\"", "!not known"]);
    holds("X\n3/8 l Apfelessig 5 %\n100 g Staubzucker\n1/4 l Obers\n", &["!not known"]);
}

#[test]
fn stages_of_a_table_have_their_names_and_what_is_done() {
    let brew = "Liqueur\nStage,Ingredient,Amount,Unit,Note\n1 Cold brew,Ground coffee,200,g,\n1 Cold brew,Water,1000,ml,steep 16 h in fridge then \
                filter\n2 Liqueur,Cold brew,600,ml,\n2 Liqueur,Demerara sugar,350,g,from the sack\n";
    let made = [
        "name = \"Cold brew\"\ntakes = \"16 h\"\nat = \"4 °C\"",
        "Water: steep 16 h in fridge then filter",
        "# from the sack",
    ];
    holds(brew, &[&made[..], &["[parts]\n\"Cold brew\" = \"600 ml\"", "!# ?"]].concat());
    holds(
        "Ingredient\tper drink (ml)\tx 24 (ml)\nGin 40 %\t45\t1080\nLemon juice\t22.5\t540\n",
        &["\"1080 ml\"", "\"540 ml\""],
    );
    holds("Name: Sour, bottled\n50 ml gin\n25 ml lime juice\n", &["name = \"Sour, bottled\""]);
}

/// Feed for yeast is a salt: nobody who looks for yeast means it.
#[test]
fn what_is_named_for_yeast_is_no_yeast() {
    let card = "name = \"Beer\"\n[parts]\nwater = \"1 L\"\nyeast = \"1 g\"\n";
    let (card, _) = stillroom::card::read("x".into(), card.into());
    let made = stillroom::solver::solve(&card.unwrap(), &House::default(), &stillroom::solver::Options::default());
    let said: Vec<String> = made.diagnostics.iter().filter_map(|d| d.help.clone()).collect();
    assert!(said.iter().all(|help| !help.contains("yeast nutrient")), "{said:?}");
    let solved = made.solved.expect("yeast is a food");
    let Material::Ingredient(yeast) = &solved.last().parts[1].found.what else { panic!("no ingredient") };
    assert_eq!(yeast.name, "Yeast, dried");
}

/// One amount behind several things is the amount of each of them: no bottle is lost.
#[test]
fn an_amount_behind_a_list_is_that_of_each() {
    for (line, all) in [
        ("gin, sweet vermouth: 300 ml each", ["gin = \"300 ml\"", "\"sweet vermouth\" = \"300 ml\""]),
        ("Gin and sweet vermouth, 300 ml each", ["Gin = \"300 ml\"", "\"sweet vermouth\" = \"300 ml\""]),
        ("Gin und Wodka, je 300 ml", ["Gin = \"300 ml\"", "Wodka = \"300 ml\""]),
        ("gin, vodka: 300 ml chacun", ["gin = \"300 ml\"", "vodka = \"300 ml\""]),
        ("Ginebra y vodka: 300 ml cada uno", ["Ginebra = \"300 ml\"", "vodka = \"300 ml\""]),
        ("gin e vodka, 300 ml ciascuno", ["gin = \"300 ml\"", "vodka = \"300 ml\""]),
        ("Equal parts gin and vodka, 200 ml of each", ["gin = \"200 ml\"", "vodka = \"200 ml\""]),
    ] {
        holds(&format!("Batch\n\n{line}\nwater 200 ml\n\nCombine and bottle.\n"), &all);
    }
    let unknown =
        "Batch\n\nGin, Campari-style bitter and sweet vermouth, 300 ml each\nwater 200 ml\n\nCombine and bottle.\n";
    holds(unknown, &["Gin = \"300 ml\"", "\"Campari-style bitter\" = \"300 ml\"", "\"sweet vermouth\" = \"300 ml\""]);
    holds("Batch\n500 ml water\n30 g sugar, 10 g each\n", &["!10 g = "]);
}

/// What was bought and what goes in are two weights: which of them counts is asked.
#[test]
fn a_second_weight_in_brackets_that_goes_in_is_asked() {
    for (line, asks) in [
        ("1kg pineapple (peeled weight 600g)", "pineapple = \"1kg\", or pineapple = \"600g\""),
        ("3 mangoes (about 600 g flesh)", "mangoes = \"3 mangoes\", or mangoes = \"600 g\""),
        ("500 g cherries (400 g pitted)", "cherries = \"500 g\", or cherries = \"400 g\""),
        ("1 kg Kirschen (entsteint 800 g)", "Kirschen = \"1 kg\", or Kirschen = \"800 g\""),
    ] {
        holds(&format!("Syrup\n{line}\n500 g sugar\n"), &[asks]);
    }
    holds("Syrup\n1 kg pineapple (peeled)\n500 g sugar\n", &["pineapple = \"1 kg\"", "!which one goes in"]);
}

/// A sentence under a table with commas is no row of it.
#[test]
fn a_step_below_a_table_with_commas_is_whole() {
    let step = "Simmer pulp, sugar, water and vanilla for 5 minutes, cool. Strain, stir in the citric acid and bottle.";
    let table = "Passion fruit syrup\nName,Amount,Unit\nPassion fruit pulp,250,g\nCaster sugar,400,g\nWater,300,ml\nCitric acid,4,g\nVanilla pod,1,each\n";
    holds(&format!("{table}\n{step}\n"), &["Simmer pulp, sugar, water and vanilla for 5 minutes, cool. Strain"]);
    let method = "Method: simmer all for 5 minutes, strain, bottle.";
    let table = "Syrup\nIngredient,g\nRaspberries,250\nCaster sugar,400\nWater,300\n";
    holds(
        &format!("{table}\n{method}\n"),
        &["simmer all for 5 minutes, strain, bottle.", "Raspberries = { amount = \"250 g\", strained = true"],
    );
    let table = "Rum liqueur\nIngredient,Quantity\nDark rum,\"1,5 l\"\nSugar,\"1,000 g\"\nWater,500 ml\nVanilla pods,2\nSalt,a pinch of it.\n";
    let step = "Heat sugar, water, and vanilla, cool, strain, add rum, bottle.";
    holds(&format!("{table}\n{step}\n"), &["Heat sugar, water, and vanilla, cool, strain", "!water Heat sugar"]);
}

/// A list on one line keeps all that stands in it, also where one piece of it cannot be read or its first name is known by an adjective less.
#[test]
fn a_list_on_one_line_loses_nothing() {
    let whole = |list: &str, expected: &[&str]| holds(&format!("Mix\n{list}\nSimmer 20 min, strain.\n"), expected);
    let ginger = "\"fresh ginger\" = { amount = \"250 g\"";
    whole(
        "250 g fresh grated ginger, 500ml water, 400g sugar, juice of a lime",
        &[ginger, "water = \"500ml\"", "sugar = \"400g\"", "\"lime juice\" = \"juice of a lime\""],
    );
    whole(
        "250 g fresh grated ginger, 500 ml water, 400 g sugar, salt to taste",
        &[ginger, "water = \"500 ml\"", "sugar = \"400 g\"", "# ? salt to taste"],
    );
    whole(
        "250 g ginger, peeled and grated, 500 ml water, 400 g sugar, some nutmeg",
        &[
            "ginger = { amount = \"250 g\", strained = true }  # peeled and grated",
            "water = \"500 ml\"",
            "# ? some nutmeg",
        ],
    );
    whole(
        "250 g fresh sliced strawberries, 200 g almonds, 300 ml double cream, 700 ml rum, juice of a lemon",
        &["almonds = { amount = \"200 g\"", "\"double cream\" = \"300 ml\"", "rum = \"700 ml\"", "\"lemon juice\""],
    );
    whole(
        "200 g geröstete gehackte Haselnüsse, 1/2 l Korn, 200 ml Sahne, 150 g Zucker, Prise Salz",
        &[
            "\"geröstete Haselnüsse\"",
            "Korn = \"1/2 l\"",
            "Sahne = \"200 ml\"",
            "Zucker = \"150 g\"",
            "Salz = \"1 Prise\"",
        ],
    );
    // behind a comma stands something else: it is asked, and no part of the name
    whole("250 g fresh grated ginger, juice of a lime", &[ginger, "? \"juice of a lime\""]);
}

#[test]
fn the_peel_alone_is_not_the_fruit() {
    for (line, expected) in [
        ("8 lemons, rind only", "\"lemon rind\" = { amount = \"rind of 8 lemons\""),
        ("8 lemons, just the peel", "\"lemon peel\" = { amount = \"peel of 8 lemons\""),
        ("8 Bio-Zitronen, nur die Schale", "Zitronenschale = { amount = \"zest of 8 Zitronen\""),
        ("8 Zitronen (die Schale davon)", "Zitronenschale = { amount = \"zest of 8 Zitronen\""),
        ("8 limoni, solo la scorza", "\"scorza di limone\" = { amount = \"zest of 8 limoni\""),
    ] {
        holds(&format!("Likör\n{line}\n700 ml vodka\n\nSteep for two weeks, strain.\n"), &[expected]);
    }
}

#[test]
fn a_count_in_the_words_of_a_kitchen_is_read() {
    let syrup = |line: &str| format!("Syrup\n500 g sugar\n500 ml water\n{line}\n\nSimmer for 10 minutes, strain.\n");
    for (line, part) in [
        ("4 belles branches de romarin", "romarin = { amount = \"4 belles branches de romarin\""),
        ("4 large sprigs rosemary", "rosemary = { amount = \"4 large sprigs rosemary\""),
        ("un mazzetto di menta", "menta = { amount = \"1 mazzetto di menta\""),
        ("eine Handvoll Minze", "Minze = { amount = \"1 Handvoll Minze\""),
        ("une poignée de menthe", "menthe = { amount = \"1 poignée de menthe\""),
        ("1 (1-inch) piece ginger, sliced", "ginger = { amount = \"1-inch piece ginger\""),
    ] {
        holds(&syrup(line), &[part, "!# ?"]);
    }
    holds(&syrup("3 cloves and pepper"), &["# ? 3 cloves and pepper"]);
}

/// The size of a tin is none of what is poured off it.
#[test]
fn what_comes_out_of_a_tin_has_its_own_size() {
    let foam = |line: &str| format!("Foamer\n{line}\n0.3 g xanthan\n\nBlend 30 secs. Fridge. 4 days max\n");
    let tin = "aquafaba from 1 x 400g tin chickpeas (approx 130ml)";
    holds(&foam(tin), &["aquafaba = \"130ml\"  # from 1 x 400g tin chickpeas", "!400g\"", "!takes"]);
    holds(&foam("aquafaba from a tin of chickpeas"), &["# ? aquafaba from a tin of chickpeas: how much?"]);
}

/// A list of dry spices is no stage: nothing is poured there.
#[test]
fn spices_under_a_heading_of_their_own_go_in_with_the_rest() {
    let text = |steps: &str| {
        format!(
            "Cider syrup\n\nFor the spice mix:\n2 cinnamon sticks\n6 cloves\n\nFor the syrup:\n1 litre cider\n500 g sugar\n\n\
             Method\n{steps}\n"
        )
    };
    let stirred =
        text("Toast the spices in a dry pan for 2 minutes. Stir in the cider and the sugar, strain and bottle.");
    holds(
        &stirred,
        &[
            "!spice mix\"",
            "!# ?",
            "cloves = { amount = \"6 cloves\", strained = true }  # assumed: all of the spice mix",
            "!takes",
        ],
    );
    let some = text("Grind the spices. Stir in the cider, the sugar and 1 tsp of the spice mix, strain and bottle.");
    holds(&some, &["name = \"spice mix\""]);
}

#[test]
fn the_row_over_two_columns_names_them() {
    let text = "| Ingredient | 1 bottle | 10 bottles |\n|---|---|---|\n| Gin | 400 ml | 4 L |\n| Fino sherry | 150 ml | 1.5 L |\n\nMix.\n";
    holds(text, &["!Ingredient", "These are of 1 bottle (then delete this line); of 10 bottles: Gin = \"4 L\""]);
}

/// Curd stays in a strainer only where something curdles the milk in front of it.
#[test]
fn cream_that_nothing_curdles_is_not_asked_for_its_curd() {
    let crema = |steps: &str| {
        format!("Crema\n370 g leche condensada\n500 ml nata para montar\n400 ml orujo\n1 rama de canela\n\n{steps}\n")
    };
    let behind = "Calentar la nata con la canela y dejar enfriar. Colar, mezclar con la leche condensada, añadir el orujo y batir.";
    holds(&crema(behind), &["!curdle"]);
    let with_it = "Mezclar la nata con el orujo y la canela, dejar 2 días. Colar, mezclar con la leche condensada.";
    holds(&crema(with_it), &["\"nata para montar\" = \"500 ml\"  # ? does it curdle"]);
    let punch =
        "Punch\n500 ml whole milk\n100 ml lemon juice\n500 ml rum\n\nMix everything, leave for 2 hours, strain.\n";
    holds(punch, &["does it curdle"]);
}

/// Greetings of a mail, the weight of a tin behind its word, packs written short, spoons in a house of US cups, a ratio in a sentence.
#[test]
fn lines_as_people_send_them() {
    let mail = "Elderflower cordial\nHey!\n1 kg sugar\n1 l water\n50 g citric acid\nStir until dissolved.\nCheers\n";
    holds(mail, &["sugar = \"1 kg\"", "!Hey", "!Cheers"]);
    holds("Crema\n1 lata de 397 g de leche condensada\n400 ml orujo\n", &["\"leche condensada\" = \"1 lata (397 g)\""]);
    holds("Likör\n1 Pck. Vanillezucker\n400 ml Korn\n", &["Vanillezucker = \"1 Pck"]);
    holds("Demerara syrup: 2 parts demerara to 1 part water, by weight.\n", &["demerara = \"2 parts by weight\""]);
    let peel = "Limoncello\n- 8 limoni\n- 1 l di alcool 95°\n\nPelare i limoni e mettere le scorze nell'alcool per 10 giorni. Filtrare.\n";
    holds(peel, &["\"lemon peel\" = { amount = \"peel of 8", "only its peel"]);
}

#[test]
fn so_many_may_stand_behind_the_name() {
    let mix = |line: &str| format!("Mix\n500 ml vodka\n{line}\nStrain.\n");
    for (line, part) in [
        ("vanilla pod 1", "\"vanilla pod\" = { amount = \"1 vanilla pod\""),
        ("Zimtstangen 3", "Zimtstangen = { amount = \"3 Zimtstangen\""),
        ("fresh basil 5 leaves", "\"fresh basil\" = { amount = \"5 leaves fresh basil\""),
        ("basil .... 2 bunches", "basil = { amount = \"2 bunches basil\""),
        ("orange peel, 2 strips", "\"orange peel\" = { amount = \"2 strips orange peel\""),
        ("cloves: 4", "cloves = { amount = \"4 cloves\""),
    ] {
        holds(&mix(line), &[part, "!# ?"]);
    }
}

#[test]
fn what_stands_behind_each_line_multiplies_it() {
    let batch = "Batch\n60 ml bourbon x 9\n5 ml 2:1 syrup x9\n2 dashes aromatic bitters × 9\n";
    let bourbon = "bourbon = \"540 ml\"  # assumed: 9 times 60";
    holds(batch, &[bourbon, "\"2:1 syrup\" = \"45 ml\"", "\"aromatic bitters\" = \"18 dashes\"", "!# ?"]);
    // never the front of an amount alone
    for line in
        ["1 1/2 kg sugar", "1½ kg sugar", "1,5 kg sugar", "0,5 kg sugar", "500 - 600 g sugar", "500-600 g sugar"]
    {
        holds(&format!("Batch\n{line} x 2\n1 l water\n"), &["how much is that in all?", "!sugar = "]);
    }
}

#[test]
fn a_list_may_say_for_how_much_it_is() {
    for list in
        ["Dosi per 1 litro", "Zutaten für ca. 1 Liter:", "Ingrédients pour 1 litre :", "Ingredienti per 1 litro"]
    {
        let limoncello = format!("Sciroppo\n{list}\n500 g zucchero\n500 g acqua\n");
        holds(&limoncello, &["# the recipe says \"1 ", "!not known", "!# ?"]);
    }
}

#[test]
fn fruit_may_be_one_or_named_twice() {
    holds("Sirup\n200 g Zucker\n200 g Wasser\nSaft einer Zitrone\n", &["Zitronensaft = \"juice of 1 Zitrone\""]);
    let peel = "Orangenschale = { amount = \"zest of 1 Orange\"";
    holds("Sirup\n200 g Zucker\n200 g Wasser\nOrangenschale von 1 Orange\nAbseihen.\n", &[peel]);
}

#[test]
fn a_list_parted_by_semicolons_keeps_its_title_and_every_name() {
    let punch = "Milk punch; 500 ml milk; 200 ml rum; 100 g sugar; nutmeg\n";
    holds(punch, &["name = \"Milk punch\"", "milk = \"500 ml\"", "rum = \"200 ml\"", "? nutmeg: how much?"]);
    holds(
        "Espresso syrup; 250 ml espresso; 250 g sugar; pinch of salt\n",
        &["name = \"Espresso syrup\"", "espresso = "],
    );
}

/// A table wine of the larder has 12.5 % or near it: that is no salt in water.
#[test]
fn a_percentage_behind_a_wine_is_its_strength() {
    holds("Vin d'orange\n1 bouteille de vin blanc sec (75 cl, 12,5 %)\n100 g de sucre\n", &["!is that its strength"]);
}

#[test]
fn a_wait_behind_a_list_is_a_step() {
    let liqueur =
        "Likör: 700 ml Korn (38 %), 1 Zimtstange, 200 g Kandiszucker. 4 Wochen ziehen lassen, dann filtern.\n";
    holds(liqueur, &["Kandiszucker = \"200 g\"", "takes = \"4 Wochen\"", "!# ?"]);
}
