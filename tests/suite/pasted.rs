//! Recipes as people write and send them, pasted: what stands on each card, how much is asked, and that the card solves.

use std::path::Path;

use crate::kitchen::{house_of, made};
use stillroom::card;
use stillroom::diagnostic::any_error;
use stillroom::house::House;
use stillroom::paste::{Pasted, paste, text};
use stillroom::solver::{Options, solve};

fn pasted(name: &str) -> (Pasted, House) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recipes");
    let (house, _) = house_of(&folder);
    let text = std::fs::read_to_string(folder.join(name).with_extension("txt")).unwrap();
    (paste(&text, &house), house)
}

/// By what is written there: the lines that the card must have, and how many questions are truly open.
const RECIPES: [(&str, &[&str], usize); 83] = [
    (
        "coffee-liqueur-in-two",
        &["name = \"cold brew\"", "\"vanilla pod\" = { amount = \"½ vanilla pod\", strained = true }"],
        0,
    ),
    (
        // a narrow range, and what ran through is heated with all of it
        "ginger-cordial-hot",
        &[
            "ginger = { amount = \"500g\", strained = true }",
            "heated = \"85 °C for 20 min\"",
            "infusion = \"",
            "\"golden caster sugar\" = \"700g\"",
        ],
        0,
    ),
    // by weight or by volume
    ("honey-mix", &["makes = \"1 litre\"", "honey = \"3 parts\""], 1),
    (
        "curacao",
        &[
            "cognac = \"1 bottle (70cl)\"",
            "\"orange peel\" = { amount = \"peel of 4 oranges\", strained = true }",
            "name = \"infusion\"",
            "\"simple syrup 2:1\" = \"200ml\"",
        ],
        0,
    ),
    ("verbena-tincture", &["\"dried lemon verbena\" = ", "\"vodka 50%\" = \"500 ml\""], 0),
    // a handful
    ("mint-cordial", &["sugar = \"500g\"", "\"lemon juice\" = \"40 ml\""], 0),
    ("negroni-in-ml", &["Gin = \"300 ml\"", "Water = \"150 ml\""], 0),
    // how much of the oleo goes in
    ("orange-sherbet", &["\"orange juice\" = \"350ml\"", "name = \"oleo\""], 1),
    (
        "pineapple-cordial",
        &["pineapple = { amount = \"1 pineapple\", strained = true }", "name = \"infusion\"", "sugar = \"500g\""],
        0,
    ),
    (
        "spiced-syrup-table",
        &["\"cinnamon sticks\" = { amount = \"4 each\"", "\"star anise\" = { amount = \"6 each\""],
        0,
    ),
    (
        "strawberry-shrub",
        &[
            "name = \"Strawberry shrub\"",
            "sugar = \"1 part by weight\"",
            "strawberries = { amount = \"2 parts by weight\", strained = true }",
        ],
        0,
    ),
    ("tamarind-syrup", &["sugar = \"1 1/2 cups\"", "ginger = { amount = \"1-inch piece of ginger\""], 0),
    (
        "passionfruit-syrup",
        &[
            "name = \"Passionfruit syrup\"",
            "# the recipe says \"75cl\"",
            "\"lime juice\" = \"juice of half a lime\"",
            "\"passion fruit puree\" = \"400g\"",
        ],
        0,
    ),
    (
        "jalapeno-marg-batch",
        &[
            "name = \"SPICY MARG BATCH\"",
            "makes = \"3 litres\"",
            "water = \"as needed\"",
            "salt = \"1 pinch\"",
            "jalapenos = { amount = \"4 jalapenos\", strained = true }",
        ],
        0,
    ),
    // whether all of it boiled
    (
        "lavender-honey",
        &[
            "\"dried lavender\" = { amount = \"2 heaped tsp\", strained = true }",
            "honey = \"1 cup\"",
            "name = \"infusion\"",
        ],
        0,
    ),
    // whether the first line is the name
    (
        "coldbrew",
        &[
            "name = \"Cold brew concentrate\"",
            "\"ground coffee\" = { amount = \"250g\", strained = true }",
            "takes = \"18 hours\"\nat = \"4 °C\"",
        ],
        1,
    ),
    (
        "orangello",
        &[
            "\"orange zest\" = { amount = \"zest of 10 unwaxed oranges\", strained = true }",
            "name = \"infusion\"",
            "takes = \"10 days\"",
        ],
        0,
    ),
    ("sage-pineapple-shrub", &["amount = \"12.5g\"", "the middle of 10-15g", "name = \"infusion\""], 0),
    // of what boiled the step names sugar and water alone
    ("holunder", &["Zucker = \"1 kg\"", "takes = \"2 Tage\"", "strained = true", "not counted for the whole"], 0),
    ("vin-chaud", &["\"vin rouge\" = \"1 bouteille (75 cl)\"", "\"3 clous de girofle\", strained = true"], 0),
    // a green walnut weighs 25 g, give or take (common practice, no source)
    ("nocino", &["\"lemon peel\" = { amount = \"peel of 1 lemon\", strained = true }"], 0),
    // whether the milk curdles and stays behind
    ("milk-punch-english", &["name = \"English milk punch\"", "\"strong black tea\" = \"150 ml\""], 1),
    // what steams off is a doubt, and no question
    ("cola-syrup", &["\"star anise\" = { amount = \"1 star anise\", strained = true }"], 0),
    ("foamer", &["saline = \"1 dash\""], 0),
    // how many bottles of which size
    ("negroni-bottled", &["\"sweet vermouth\" = \"600 ml\""], 1),
    (
        "raspberry-gin",
        &["\"lemon peel\" = { amount = \"1 strip of lemon peel\", strained = true }", "takes = \"a week\""],
        0,
    ),
    ("sour-mix", &["makes = \"1 litre\"", "water = \"as needed\"", "\"egg whites\" = \"2 egg whites\""], 0),
    // the milk alone was heated
    ("milk-punch-hot", &["# assumed: heated = \"70 C\": of what that step names alone"], 0),
    // the syrup is heated alone
    ("lemon-liqueur-syrup", &["name = \"syrup\"\nheated = \"95 °C for 5 minutes\"", "name = \"infusion\""], 0),
    ("honey-off-heat", &["name = \"base\"\nheated = \"85 °C for 15 min\"", "base = \"all\"", "\nhoney = \"500 g\""], 0),
    (
        "creme-whisky",
        &["name = \"base\"\nheated = \"80 °C for 10 minutes\"", "base = \"all\"", "\nwhisky = \"350 ml\""],
        0,
    ),
    // a share is asked, and so is whether the sugar was in the pan
    ("raspberry-same-weight", &["measure the rest first: \"caster sugar\" = \"… g\""], 1),
    ("agave-for-each-cup", &["measure the rest first: \"agave nectar\" = \"… ml\""], 1),
    ("quince-each-litre", &["measure the rest first: sugar = \"… g\""], 1),
    ("apple-reduced", &["heated = \"… °C for 25 min\"", "[loss] evaporated = \"… %\""], 2),
    ("limoncello-peels", &["\"lemon peel\" = { amount = \"peel of 12 lemons\", strained = true }"], 0),
    // how cold a walk-in is
    (
        "citrus-pared",
        &[
            "\"lemon zest\" = { amount = \"zest of 3 lemons\"",
            "\"lime juice\" = \"juice of 4 limes\"",
            "\"grapefruit juice\" = \"juice of 4 grapefruit\"",
        ],
        1,
    ),
    ("butter-washed-rum", &["washed = \"fat\"", "butter = { amount = \"150 g\", strained = true }"], 0),
    ("butterscotch-not-lifted", &["is it lifted off again?"], 1),
    (
        "spice-own-weight",
        &[
            "\"grapefruit peel\" = { amount = \"90g\"",
            "ginger = { amount = \"30 g\"",
            "\"cinnamon sticks\" = { amount = \"10 g\"",
            "\"lime juice\" = \"120 ml\"",
        ],
        0,
    ),
    ("assam-punch", &["\"assam tea\" = { of = \"black tea\", amount = \"1.2 L\" }"], 0),
    // what steams off is none, here and in the next four
    ("cordial-filled-hot", &["heated = \"90 °C\"", "not counted as filled hot"], 0),
    (
        "holundersirup",
        &["# the recipe says \"ca. 1,4 Liter\"", "heated = \"85 °C for 10 Minuten\"", "not counted as filled hot"],
        0,
    ),
    ("sirop-simple", &["# the recipe says \"environ 1 litre\"", "heated = \"85 °C for 10 minutes\""], 0),
    ("jarabe-canela", &["# the recipe says \"1 litro\"", "heated = \"85 °C for 15 minutos\""], 0),
    ("sciroppo", &["# the recipe says \"1 litro\"", "heated = \"85 °C for 5 minuti\""], 0),
    // how much of the infusion goes in
    (
        "falernum-staged-table",
        &[
            "name = \"Infusion\"\n[stage.parts]\n\"overproof rum\" = \"250 ml\"",
            "[parts]\n\"simple syrup\" = \"400 ml\"",
        ],
        1,
    ),
    (
        "batch-columns",
        &["gin = \"300 ml\"", "\"dry vermouth\" = \"300 ml\"", "# the recipe says \"about 750 ml\"", "notes = \"Keeps"],
        0,
    ),
    ("gross-and-net", &["\"pineapple juice\" = \"1000 g\"", "# the recipe says \"950 ml\""], 0),
    (
        "cinnamon-in-step",
        &["does it go in? \"cinnamon sticks\" = { amount = \"4 cinnamon sticks\", strained = true }"],
        1,
    ),
    ("ginger-combine-with", &["name = \"infusion\"", "infusion = \"", "sugar = \"500 g\""], 0),
    // how cold a walk-in is
    (
        "hibiscus-strain-line",
        &["takes = \"18 hrs\"", "honey = \"20 oz (wt)\"", "\"demerara sugar\" = \"200 g\"", "Salz = \"1 Msp.\""],
        1,
    ),
    (
        "chai-boil-simmer",
        &[
            "# the recipe says \"roughly 2 litres\"",
            "heated = \"85 °C for 20 minutes\"",
            "\"whole allspice berries\" = { amount = \"5 g\"",
            "\"fresh ginger\" = { amount = \"100 g\"",
            "\"cass sticks\" = { amount = ",
        ],
        0,
    ),
    // how hot the rest was, that neither the boil nor the simmer names
    (
        "orange-shares",
        &[
            "# ? heated = \"85 °C for 20 min\": was all of it so hot?",
            "# ? equal volume of gin: ",
            "# ? 600 g sugar per litre of juice: ",
            "# ? 3/4 cup agave nectar for each cup of juice: ",
            "not counted as filled hot",
        ],
        4,
    ),
    // what steams off is a doubt, and no question
    ("orange-whole-in-water", &["heated = \"95 °C for 30 min\"", "oranges = { amount = \"6 oranges\", strained"], 0),
    ("butter-wash-table", &["washed = \"fat\"", "wash = \"650 ml\"", "# the recipe says \"680 ml\""], 0),
    // how much sugar, once, and whether all of it was so warm
    (
        "orgeat-equal-weight",
        &["name = \"base\"\nheated = \"45 C\"", "sugar = \"… g\"", "\"orange flower water\" = \"2 tbsp\""],
        1,
    ),
    // the vodka goes in behind the heat of the infusion
    ("pandan-fortified", &["heated = \"85 °C for 15 mins\"", "name = \"infusion\"", "vodka = \"10 ml\""], 0),
    (
        "arancello",
        &["name = \"syrup\"", "\"scorza di arancia\" = { amount = \"zest of 6 arance\", strained = true }"],
        0,
    ),
    (
        // T and t in one list
        "bitters-notebook",
        &[
            "\"dried orange peel\" = { amount = \"2 tbsp\"",
            "\"cardamom pods\" = { amount = \"1 tsp\"",
            "\"rich syrup\" = \"60 ml\"",
        ],
        0,
    ),
    ("cold-brew-coffee-liqueur", &["\"demerara sugar\" = \"250 g\"", "syrup = \"all\"", "vodka = \"500 ml\""], 0),
    (
        // packed, and a narrow range
        "cranberry-shrub-us",
        &[
            "\"light brown sugar\" = \"1 cup\"",
            "amount = \"2.5 strips orange peel\"",
            "the middle of 2-3",
            "at = \"4 °C\"",
        ],
        0,
    ),
    ("demerara-two-to-one", &["name = \"2:1 demerara\"", "demerara = \"1000g\"", "water = \"500g\""], 0),
    ("falernum-friend", &["ginger = { amount = \"40g\", strained = true }", "\"rich syrup\" = \"400ml\""], 0),
    ("ginger-beer-base", &["\"lemon juice\" = \"juice of 2 lemons\"", "\"lime juice\" = \"juice of 1 lime\""], 0),
    ("haselnuss-stammtisch", &["infusion = \"all\"", "Zucker = \"300 g\"", "not counted for the whole"], 0),
    ("honey-chamomile", &["\"boiling water\" = \"300 ml\"", "honey = \"300 g\""], 0),
    ("jarabe-de-jengibre", &["heated = \"95 °C for 15 minutos\"", "\"azúcar\" = \"500 g\""], 0),
    ("johannisbeersirup", &["heated = \"85 °C for 10 Minuten\"", "Zucker = \"600 g\""], 0),
    ("lemon-liqueur-nonna", &["amount = \"zest of 10 unwaxed lemons\"", "\"vodka 50%\" = \"1 litre\""], 0),
    ("licor-de-cafe", &["takes = \"5 días\"", "\"ron blanco\" = \"700 ml\"", "not counted for the whole"], 0),
    ("liqueur-de-framboises", &["sucre = \"300 g\"", "vodka = \"70 cl\""], 0),
    ("negroni-batch-fridge", &["notes = \"Serve 100 ml over ice with an orange slice.\"", "water = \"150 ml\""], 0),
    (
        // what ran through is heated with all that goes into it
        "plum-and-bay-syrup",
        &["name = \"Plum & bay syrup\"\n", "heated = \"85 °C\"", "heated = \"85 °C for 25 minutes\""],
        0,
    ),
    (
        "pomegranate-syrup-quart",
        &["\"pomegranate juice\" = \"3 cups\"  # unsweetened", "the recipe says \"1 quart\""],
        0,
    ),
    ("raspberry-vinegar-imp", &["heated = \"95 °C for 10 minutes\"", "at = \"4 °C\"", "sugar = \"400g\""], 0),
    ("rhubarb-cordial-note", &["Rhubarb = { amount = \"1 kg\", strained = true }", "\"Citric acid\" = \"12 g\""], 0),
    ("rosmarinsirup", &["name = \"Rosmarinsirup\"", "base = \"all\"", "the recipe says \"ca. 700 ml\""], 0),
    ("sciroppo-di-menta", &["takes = \"1 ora\"", "\"succo di limone\" = \"juice of 1 limone\""], 0),
    ("sirop-de-romarin", &["takes = \"20 minutes\"", "\"jus de citron\" = \"juice of 1 citron\""], 0),
    ("spiced-rum-jar", &["\"white rum\" = \"70cl\"", "\"dark muscovado sugar\" = \"2 tbsp\""], 0),
    ("table-lemon-sherbet", &["\"Citric acid\" = \"10 g\"", "takes = \"1 hr\""], 0),
    ("tonic-light", &["thyme = { amount = \"6 sprigs thyme\", strained = true }", "\"citric acid\" = \"8 g\""], 0),
];

#[test]
fn recipes_become_cards_that_ask_only_what_is_open() {
    let mut wrong = Vec::new();
    for (name, lines, questions) in RECIPES {
        let (Pasted { card, questions: asked, .. }, _) = pasted(name);
        let missing: Vec<_> = lines.iter().filter(|line| !card.contains(**line)).collect();
        if !missing.is_empty() || asked.len() != questions {
            wrong.push(format!("{name}: {missing:?}, {} asked\n{card}", asked.len()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A card without a question among its parts solves as it is.
#[test]
fn what_asks_nothing_solves() {
    for (name, _, questions) in RECIPES {
        let (Pasted { card: text, .. }, house) = pasted(name);
        if questions > 0 {
            continue;
        }
        let (card, found) = card::read_by("x".into(), text.as_str().into(), &house.customs());
        let outcome = solve(&card.unwrap(), &house, &Options::default());
        let all: Vec<_> = found.into_iter().chain(outcome.diagnostics).collect();
        assert!(outcome.solved.is_some() && !any_error(&all), "{name}: {all:#?}\n{text}");
    }
}

/// What was strained before the sugar went in takes none of it away: 700 g of sugar are all in the cordial.
#[test]
fn sugar_that_goes_in_behind_the_straining_is_not_strained_out() {
    let (Pasted { card: text, .. }, house) = pasted("pineapple-cordial");
    let (card, _) = card::read_by("x".into(), text.as_str().into(), &house.customs());
    let solved = solve(&card.unwrap(), &house, &Options::default()).solved.unwrap();
    let last = solved.stages.last().unwrap();
    let sugar = last.parts.iter().find(|part| part.label == "sugar").unwrap();
    assert!((sugar.mass_g - 500.0).abs() < 1e-6 && last.course.strained_out_g == 0.0);
}

/// What is shaken on ice and has no yield is a glass; what makes a litre, or is only stirred in a pan, is none.
#[test]
fn a_recipe_of_one_glass_says_how_it_is_made() {
    let how = |text: &str| {
        let card = paste(text, &House::default()).card;
        card.lines().find(|line| line.starts_with("how = ")).map(|line| line.split('"').nth(1).unwrap().to_owned())
    };
    let parts = "60 ml gin\n25 ml lemon juice\n20 ml simple syrup\n";
    for (steps, expected) in [
        ("Dry shake, then shake with ice and strain into a coupe.", Some("shaken")),
        ("Stir over ice, strain into a rocks glass.", Some("stirred")),
        ("Build in a highball over ice.", Some("built")),
        ("Blend with crushed ice.", Some("blended")),
        ("Stir until it is clear, then bottle.", None),
        ("Makes 1 litre\nStir, bottle, and serve over ice.", None),
    ] {
        assert_eq!(how(&format!("House sour\n{parts}{steps}\n")).as_deref(), expected, "{steps}");
    }
}

/// What the text of a card cannot give back is told in the words of the card.
#[test]
fn what_a_text_leaves_out_is_told_in_plain_words() {
    let mut told = 0;
    for file in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recipes")).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|end| end != "toml") || path.ends_with("larder.toml") {
            continue;
        }
        let made = made(&path, &Options::default());
        let Some(card) = made.card.filter(|_| !any_error(&made.found)) else { continue };
        let (plain, unsaid) = text(&card, &made.house);
        told += unsaid.len();
        let said = format!("{plain}{unsaid:?}");
        for inside in ["Some(", "None", "Pieces(", "Parts {", "Volume(", "m^3"] {
            assert!(!said.contains(inside), "{}: {said}", path.display());
        }
    }
    assert!(told > 10, "{told}");
}
