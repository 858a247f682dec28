//! What stands round the list of a pasted recipe: bullets, how much it is for, a title, a mail, a spreadsheet's heading. All invented.

use crate::pasting::holds;

#[test]
fn a_picture_in_front_of_a_line_is_a_bullet() {
    let cooler = "Lime cooler\n🍸 1 bottle (700ml) gin\n👉 200 ml lime juice\n✅ 300 g sugar\n➡️ 1 L water\n";
    holds(
        cooler,
        &[
            "gin = \"1 bottle (700ml)\"",
            "\"lime juice\" = \"200 ml\"",
            "sugar = \"300 g\"",
            "water = \"1 L\"",
            "!steps",
        ],
    );
    holds(
        "RUM 🥥🍹\n👉 150 g sugar\n👉 1 L water\n#bartender #fatwash\n",
        &["name = \"RUM\"", "![[stage]]", "!bartender"],
    );
    holds("Syrup\n600 g sugar\n400 g water\n#syrup\n", &["![[stage]]"]);
}

/// A size above the list is what all of it makes; of something, that is its first part.
#[test]
fn a_size_above_the_list_is_read() {
    for (line, makes) in [
        ("Per litre:", "1 litre"),
        ("For 1 L:", "1 L"),
        ("Pour 1 L :", "1 L"),
        ("Für 2 Liter:", "2 Liter"),
        ("Para 1 litro:", "1 litro"),
        ("Per 2 litri:", "2 litri"),
    ] {
        // the amounts make what they make: what the recipe says stays beside it
        let said = format!("the recipe says \"{makes}\"");
        holds(&format!("Vanilla syrup\n{line}\n600 g sugar\n400 g water\n"), &[said.as_str(), "![[stage]]"]);
        let open = format!("Vanilla syrup\n{line}\n600 g sugar\nwater\n");
        holds(&open, &[format!("makes = \"{makes}\"").as_str(), "![[stage]]"]);
    }
    let water = "Seasoning\nPer litre of tomato water:\nsalt 8 g\nsugar 12 g\n";
    holds(water, &["\"tomato water\" = \"1 litre\"  # assumed: the recipe says", "salt = \"8 g\"", "!makes"]);
    holds("Brine\nPer kg of olives:\n60 g salt\n1 l water\n", &["olives = \"1 kg\""]);
    holds("Sirop\nPour 1 kg de fraises :\n600 g sucre\n400 g eau\n", &["fraises = \"1 kg\""]);
}

#[test]
fn a_sum_is_how_much_it_makes() {
    let formula = "Cola syrup\nSugar 55.0%\nWater 45.0%\nTotal 100%\nbatch 5 kg\n";
    holds(formula, &["5 kg\"", "Sugar = \"55.0%\"", "Water = \"45.0%\"", "!Total", "![target]"]);
    holds("Mix\n500 ml gin\n500 ml water\nTotal: 1 L\n", &["# the recipe says \"about 1 L\"", "!Total ="]);
    holds("Mischung\n500 ml Gin\n500 ml Wasser\nSumme 1 l\n", &["# the recipe says \"about 1 l\"", "!Summe ="]);
}

#[test]
fn what_a_guest_gets_is_none_of_the_batch() {
    let toddy = "Toddy mix\njuice of 5 lemons\n200 g honey\n1 litre boiling water\nTo serve: 50ml whisky + 120ml mix\n";
    holds(toddy, &["notes = \"To serve: 50ml whisky + 120ml mix\"", "!whisky =", "!mix ="]);
    holds(
        "Toddy\n200 g Honig\n1 l Wasser\nZum Servieren: 5 cl Whisky\n",
        &["notes = \"Zum Servieren: 5 cl Whisky\"", "!Whisky ="],
    );
}

/// A title may begin with a measure; where it names what is known, it is asked.
#[test]
fn a_title_may_begin_with_a_measure() {
    for title in ["Pinch of Summer", "Splash Mountain", "Drop of Gold", "Spritz base", "Spritz on tap (20 L keg)"] {
        let name = format!("name = \"{title}\"");
        holds(&format!("{title}\n500 ml gin\n100 g sugar\n"), &[name.as_str(), "gin = \"500 ml\""]);
    }
    let asked = "is that what the recipe is called (then delete this line), or its first part?";
    holds("Dash bitters\n500 ml gin\n100 g sugar\n", &["name = \"Dash bitters\"", asked, "!bitters = "]);
    holds("Juice of 2 limes\n500 ml gin\n", &["\"lime juice\" = "]);
}

#[test]
fn a_mail_is_none_of_the_recipe() {
    let mail = "From: bar@example.com\nTo: prep@example.com\nSubject: Re: ginger syrup\n\nHi Sam,\n\n1.2 kg ginger juice\n1.8 kg demerara\n\nThanks,\nJo\nSent from my phone\n";
    holds(mail, &["name = \"ginger syrup\"", "demerara = \"1.8 kg\"", "!Sam", "!Jo", "!phone", "!example", "!Thanks"]);
    let gruss = "Hallo Tom,\nSirup\n600 g Zucker\n400 g Wasser\nLG Nina\n";
    holds(gruss, &["name = \"Sirup\"", "!Tom", "!Nina"]);
    holds("Bonjour,\nSirop\n600 g sucre\n400 g eau\nMerci\nAnne\n", &["name = \"Sirop\"", "!Merci", "!Anne"]);
}

#[test]
fn a_table_of_another_language_is_read() {
    let german = "Zutat;Menge;Einheit\nGin;1,4;l\nLimettensaft;700;ml\nMinze;2;Bund\nWasser;400;ml\n";
    holds(german, &["Gin = \"1,4 l\"", "Limettensaft = \"700 ml\"", "Minze = \"2 Bund Minze\"", "!Zutat"]);
    holds("Ingrédient;Quantité;Unité\nGin;50;cl\nSucre;300;g\n", &["Gin = \"50 cl\"", "Sucre = \"300 g\"", "!Ingr"]);
    holds("Ingrediente;Cantidad;Unidad\nGinebra;500;ml\nAzúcar;300;g\n", &["Ginebra = \"500 ml\"", "!Ingrediente"]);
    holds("Ingrediente;Quantità;Unità\nGin;500;ml\nZucchero;300;g\n", &["Gin = \"500 ml\"", "Zucchero = \"300 g\""]);
}

/// Spirit by the degrees of its label, in brackets and without.
#[test]
fn degrees_beside_a_spirit_are_its_strength() {
    holds("Liqueur\n1 l vodka (50°)\n100 g sugar\n", &["\"vodka 50%\" = \"1 l\"  # 50°"]);
    holds("Crema\n½ litro de orujo (37,5º)\n100 g azúcar\n", &["\"orujo 37.5%\" = \"½ litro\""]);
    holds("Punch\n50 cl rhum 50°\n100 g sucre\n", &["\"rhum 50°\" = \"50 cl\"", "!not known"]);
    holds("Punch\n50 cl rhum (50 degrés)\n100 g sucre\n", &["\"rhum 50%\" = \"50 cl\""]);
}

/// "Orange flower water" stands behind the straining, however hot the water before it was.
#[test]
fn what_a_step_adds_goes_in_where_it_stands() {
    let orgeat = "Orgeat\nStep 1: Blend 250 g almonds with 500 ml hot water, rest 4 hours.\nStep 2: Squeeze through nut bag.\n\
                  Step 3: Add 630 g sugar, 10 ml orange flower water, 15 ml cognac.\n";
    let behind = "[parts]\ninfusion = \"all\"  # assumed: all that it gives\nsugar = \"630 g\"  # assumed: a step adds it\n\
                  \"orange flower water\" = \"10 ml\"";
    let first = "almonds = { amount = \"250 g\", strained = true }  # assumed: a step adds it; assumed: strained out with the rest\n\"hot water\" = \"500 ml\"  # assumed: a step adds it\n\n";
    holds(orgeat, &[behind, first]);
}

#[test]
fn what_the_text_says_is_strained_out_is_not_asked() {
    let out = "strained = true";
    holds("Mint vodka\n500 ml vodka\n20 g mint, strained\n", &[out, "!is it this", "!stay in"]);
    holds("Syrup\n500 g sugar\n500 g water\n2 vanilla pods (split, take out)\n", &[out, "!stay in"]);
    holds(
        "Syrup\n600 g sugar\n400 g water\n2 vanilla pods\nSteep overnight then remove the pods.\n",
        &[out, "!stay in"],
    );
    holds("Sirup\n600 g Zucker\n400 g Wasser\n20 Nelken\nEine Stunde ziehen lassen, passieren.\n", &[out, "!stay in"]);
}

#[test]
fn a_percentage_beside_a_name_asks_for_a_strength() {
    holds("Spritz\n6 L zorbo aperitif (11%)\n4 L soda\n", &["? \"11%\": is that its strength", "!is it this"]);
}

/// Which cups is one question for the house: it is told once, and of each line what can be written.
#[test]
fn cups_are_settled_once() {
    let text = "Liqueur\n1 cup vodka\n2 cups water\n1 cup sugar\n";
    let card = stillroom::paste::paste(text, &stillroom::house::House::default()).card;
    assert_eq!(card.matches("settle it for the house").count(), 1, "{card}");
    assert_eq!(card.matches("US cup").count(), 3, "{card}");
}

#[test]
fn a_title_says_about_how_much_it_makes() {
    holds("Bark bitters (makes ~400 ml)\n500 ml gin\n10 g gentian root\n", &["name = \"Bark bitters\"\n", "400 ml"]);
    let grog = "Sirup: 600 g Zucker, 400 g Wasser, 20 Nelken. 1 Std. ziehen lassen, passieren.\n";
    holds(grog, &["passieren", "!passieren: how much"]);
}

/// 600 g and 400 g are a litre at the most: two of them make no two litres, and 600 ml no keg.
#[test]
fn a_yield_that_the_lines_cannot_come_to_is_asked() {
    holds(
        "Sirup\nFür 2 Liter:\n600 g Zucker\n400 g Wasser\n",
        &["# ? the recipe says \"2 Liter\", and the lines come to no more than 1,000 ml"],
    );
    holds("Mist of Avalon (2 L)\n500 ml gin\n100 ml water\n", &["no more than 600 ml"]);
    holds("Sirup\nFür 1 Liter:\n600 g Zucker\n400 g Wasser\n", &["!no more than"]);
    // fruit that is pressed, and what boils down, make less
    holds("Cordial\nMakes 500 ml\n1 kg plums\n500 g sugar\n", &["!no more than"]);
    holds("Punch\nMakes 2 L\n1 bottle (70cl) rum\n6 lemons\n1 L tea\n", &["!no more than"]);
}
