//! Amounts as kitchens say them on a typed card: sizes, a few, ranges, lengths, cups of four languages. What has one meaning is read and
//! said; what has several is asked.

use crate::kitchen::{Kitchen, close};
use stillroom::house::House;
use stillroom::paste::paste;
use stillroom::solver::Options;

fn card(part: &str, amount: &str) -> String {
    format!("name = \"T\"\n[parts]\n{part:?} = {amount:?}\nwater = \"1 L\"\n")
}

fn grams(part: &str, amount: &str) -> f64 {
    Kitchen::unstated("").makes(&card(part, amount)).grams(part)
}

#[test]
fn pieces_are_read_as_kitchens_count_them() {
    for (part, amount, expected) in [
        ("pineapple", "1 whole pineapple", 905.0),
        ("pineapple", "1 whole", 905.0),
        ("Holunderblüten", "20 Dolden", 200.0),
        ("elderflowers", "20 umbels", 200.0),
        ("oranges amères", "6", 960.0),
        ("Seville oranges", "6 each", 960.0),
        ("leche condensada", "1 bote (370 g)", 370.0),
        ("saffron", "10 threads", 0.025),
        // a root of 2 to 3 cm across is a cylinder of 5 ml a centimetre
        ("ginger", "1 inch", 12.0),
        ("ginger", "2 inch piece", 24.0),
        ("ginger", "2-inch piece of ginger", 24.0),
        ("ginger", "5 cm piece", 25.0),
        ("ginger", "thumb-sized piece", 15.0),
        ("ginger", "1 thumb-sized piece", 15.0),
        ("rum", "a fifth", 750.0 * 0.9481),
    ] {
        close(grams(part, amount), expected, 0.002 * expected);
    }
}

/// A size moves the weight toward the heavy or the light end of its range, and what is no one number widens it.
#[test]
fn a_size_and_a_few_move_and_widen_what_is_counted() {
    let bunch = grams("mint", "1 bunch");
    assert!(grams("mint", "1 large bunch") > bunch && grams("mint", "large bunch") > bunch);
    assert!(grams("mint", "1 small bunch") < bunch);
    assert!(grams("oranges", "3 large") > 3.0 * grams("oranges", "1"));
    assert!(grams("beetroot", "1 large") > grams("beetroot", "1"));
    let sprig = grams("mint", "1 sprig");
    for (amount, count) in [
        ("few sprigs", 3.0),
        ("a few sprigs", 3.0),
        ("2-3 sprigs", 2.5),
        ("2 to 3 sprigs", 2.5),
        ("ein paar Zweige", 3.0),
    ] {
        close(grams("mint", amount), count * sprig, 1e-6);
        let text = Kitchen::unstated("").makes(&card("mint", amount)).text();
        assert!(text.contains("are counted as"), "{amount}: {text}");
    }
}

#[test]
fn what_means_several_things_is_asked() {
    for (part, amount, says) in [
        ("raspberries", "1 punnet", "write what its label says"),
        ("orange juice", "1 carton", "write what its label says"),
        ("gin", "a double", "50 or 70 ml"),
        ("Zucker", "1 Tasse", "metric cup"),
        ("sucre", "1 tasse", "metric cup"),
        ("azúcar", "1 taza", "metric cup"),
        ("zucchero", "1 tazza", "metric cup"),
        // no length of it is known
        ("lemongrass", "3 inch piece", "weigh one"),
        ("limes", "2-3", "is a range"),
    ] {
        let text = Kitchen::unstated("").refuses(&card(part, amount)).plain();
        assert!(text.contains(says), "{part} {amount}: {text}");
    }
    let us = Kitchen::unstated("");
    us.write("house.toml", "[house]\nmeasures = \"US\"\n");
    close(
        us.makes(&card("water", "1 Tasse").replace("\nwater = \"1 L\"", "")).part("water").volume_ml().unwrap(),
        236.6,
        0.1,
    );
}

/// In spoons vanilla is the extract, as a cupboard has it; by the pod it is the pod.
#[test]
fn a_spoon_of_vanilla_is_the_extract() {
    for (name, amount) in [("vanilla", "1 tsp"), ("vainilla", "1 cucharadita")] {
        let made = Kitchen::unstated("").makes(&card(name, amount));
        assert!(made.text().contains("is read as vanilla extract"), "{}", made.text());
    }
    assert!(!Kitchen::unstated("").makes(&card("vanilla", "1 pod")).text().contains("extract"));
    let pasted = paste("Cream\n500 ml cream 30 %\n1 tsp vanilla\n\nMix. Strain.\n", &House::default()).card;
    assert!(pasted.contains("vanilla = { of = \"vanilla extract\", amount = \"1 tsp\" }"), "{pasted}");
}

/// A bar that pours lemon pours its juice, by the ml or by the spoon: 25 ml of the table's 1.026 g/ml (`measures.csv`: 42 g in 41 ml).
#[test]
fn a_citrus_fruit_by_volume_is_its_juice() {
    for name in [
        "lemon",
        "fresh lemon",
        "Zitrone",
        "citron",
        "limón",
        "limone",
        "lime",
        "lima",
        "Limette",
        "citron vert",
        "orange",
        "naranja",
        "arancia",
        "grapefruit",
        "pamplemousse",
        "mandarin",
    ] {
        for amount in ["25 ml", "2 cl", "1 tbsp", "1 tsp", "1 fl oz"] {
            let made = Kitchen::unstated("").makes(&card(name, amount));
            assert!(made.text().contains(" juice"), "{name} {amount}: {}", made.text());
        }
    }
    close(Kitchen::unstated("").makes(&card("lemon", "25 ml")).part("lemon").mass_g, 25.0 * 1.03, 0.3);
    assert!(Kitchen::unstated("").makes(&card("lemon extract", "1 tsp")).text().contains("ABV"));
    let pasted = paste("Sour\n50 ml gin\n25 ml lemon\n", &House::default()).card;
    assert!(pasted.contains("lemon = { of = \"lemon juice\", amount = \"25 ml\" }"), "{pasted}");
}

/// The short sheet has room for one line of what is assumed: that a fruit is its juice stands there.
#[test]
fn the_sheet_says_which_juice_was_taken() {
    let kitchen = Kitchen::unstated("");
    kitchen.write(
        "sour.toml",
        "name = \"T\"\nhow = \"shaken\"\n[parts]\ngin = \"40 ml\"\nbrandy = \"10 ml\"\nZitrone = \"2 cl\"\n",
    );
    let (code, sheet, said) = kitchen.run(&["solve", "sour.toml"]);
    assert_eq!(code, Some(0), "{said}");
    assert!(sheet.contains("Zitrone is read as") && sheet.contains("is taken as"), "{sheet}");
}

/// Of each allergen the full page names the lines that it comes from; a distillate that is called after wine brings none.
#[test]
fn the_full_page_says_which_line_an_allergen_comes_from() {
    let text =
        |parts: &str| Kitchen::unstated("").makes(&format!("name = \"T\"\n[parts]\nwater = \"1 L\"\n{parts}")).text();
    let both = text("\"red wine\" = \"100 ml\"\n\"double cream\" = \"50 ml\"\nalmonds = \"20 g\"\n");
    for from in ["milk from double cream", "sulphites from red wine", "tree nuts (almond) from almonds"] {
        assert!(both.contains(from), "{from}: {both}");
    }
    for name in ["Weingeist 96 %", "Weingeist"] {
        let none = text(&format!("{name:?} = \"100 ml\"\n"));
        assert!(!none.contains("sulphites") && !none.contains("allergens: "), "{none}");
    }
    assert!(text("Rotwein = \"100 ml\"\n").contains("sulphites from Rotwein"));
}

/// What is to be used at once says where the cure stands, and what it hangs on: two days at room temperature.
#[test]
fn what_is_used_at_once_says_what_buys_days() {
    let card = |at: &str| {
        format!(
            "name = \"Elderflower cordial\"\nclass = \"cordial\"\ntakes = \"2 days\"\n{at}[parts]\n\"elderflower heads\" = {{ amount = \"25 each\", \
             strained = true }}\nsugar = \"1.5 kg\"\n\"boiling water\" = \"1.2 L\"\nlemons = {{ amount = \"2 each\", strained = true }}\n\"citric acid\" = \"50 g\"\n"
        )
    };
    let warm = Kitchen::unstated("").makes(&card("")).text();
    assert!(warm.contains("use at once") && warm.contains("at = \"4 °C\"; what buys days: stillroom date"), "{warm}");
    let cold = Kitchen::unstated("").makes(&card("at = \"4 °C\"\n")).text();
    assert!(!cold.contains("use at once") && !cold.contains("what buys days"), "{cold}");
}

#[test]
fn names_of_shops_are_known() {
    for name in ["nata líquida", "orujo blanco", "alcool a 95°", "alcool à 90°"] {
        assert!(grams(name, "500 ml") > 350.0, "{name}");
    }
}

#[test]
fn a_size_that_is_about_so_much_contradicts_no_amount() {
    let kitchen = Kitchen::unstated("");
    let card =
        |makes: &str| format!("name = \"T\"\nmakes = \"{makes}\"\n[parts]\nsugar = \"100 g\"\nwater = \"700 ml\"\n");
    for makes in ["about 700 ml", "ca. 800 ml"] {
        close(kitchen.makes(&card(makes)).millilitres(), 765.0, 5.0);
    }
    kitchen.refuses(&card("about 1500 ml"));
    let served = "name = \"T\"\nserving = \"1 spoon\"\n[parts]\nsugar = \"100 g\"\nwater = \"700 ml\"\n";
    let made = kitchen.solve(served, &Options::default());
    assert!(made.solved.is_some() && made.plain().contains("how much a serving of `1 spoon` is"), "{}", made.plain());
}

/// One behind the other they are one time; the same said twice is told once.
#[test]
fn two_waits_one_after_the_other_are_added() {
    let pasted = |text: &str| paste(text, &House::default());
    let gin = "Rhubarb gin\n500 g rhubarb\n200 g sugar\n700 ml gin\n\nPut the rhubarb and sugar in a jar and leave overnight.\nAdd the gin. Leave \
               for 4 weeks.\nStrain.\n";
    let card = pasted(gin).card;
    assert!(card.contains("takes = \"28.5 days\"  # assumed: 12 h and 4 weeks, one after the other"), "{card}");
    let once = pasted("Tea\n40 g hibiscus\n1 l water\n\nSteep 12 h. After 12 hours strain.\n").card;
    assert!(once.contains("takes = \"12 h\"") && !once.contains("one after"), "{once}");
}

/// What dries has another weight and another date than fresh fruit: without its weight the card is not complete.
#[test]
fn what_is_dried_asks_what_it_weighs() {
    let card = |keys: &str, loss: &str| {
        format!(
            "name = \"T\"\n{keys}steps = [\"Dehydrate the limes at 60 °C for 12 hours.\"]\n[parts]\nlimes = \"12\"\n{loss}"
        )
    };
    let open = |text: &str| {
        let made = Kitchen::unstated("").solve(text, &Options::default());
        made.dated(2_000).unidentified.iter().any(|open| open.question.contains("what does it weigh dried?"))
    };
    assert!(open(&card("", "")) && open(&card("class = \"dried fruit\"\n", "")));
    assert!(!open(&card("makes = \"180 g\"\nclass = \"dried fruit\"\n", "[loss]\nevaporated = \"as needed\"\n")));
}
