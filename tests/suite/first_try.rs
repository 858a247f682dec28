//! Names and amounts as people write them on a card, at the first try: what each is read as, and what is still asked.

use crate::kitchen::{Kitchen, Made};
use stillroom::card;
use stillroom::diagnostic::Code;
use stillroom::larder::Larder;
use stillroom::render::text::{Page, solve};
use stillroom::report::Report;
use stillroom::solver::Options;

const US: &str = "[house]\nname = \"x\"\nmeasures = \"US\"\n";

/// The sheet for the bench.
fn bench(made: &Made) -> String {
    solve(&Report::new(Some(made.sheet()), &[], |_| None), Page::default())
}

fn grams(line: &str, part: &str) -> f64 {
    let text = format!("name = \"x\"\n[parts]\nwater = \"1 kg\"\n{line}\n");
    Kitchen::new("").makes(&text).grams(part)
}

#[test]
fn what_is_said_besides_a_name_changes_nothing_of_it() {
    for (written, known) in [
        ("ginger, fresh, peeled", "fresh ginger"),
        ("limes, zested", "limes"),
        ("freshly squeezed lime juice", "lime juice"),
        ("almonds, toasted", "almonds"),
        ("zest of 8 limes", "lime zest"),
        ("juice of half a lemon", "lemon juice"),
        ("1 bottle (70cl) cognac", "cognac"),
        ("sugar syrup 1:1", "simple syrup"),
        ("simple syrup (2:1)", "2:1 syrup"),
        ("rich syrup 2:1", "2:1 syrup"),
        ("butter, at room temperature", "butter"),
        ("orange, juice of", "orange juice"),
        ("fresh mint, leaves picked", "fresh mint"),
        ("coconut cream (1 tin)", "coconut cream"),
    ] {
        let kitchen = Kitchen::new("");
        let brix = |name: &str| {
            let text = format!("name = \"x\"\n[parts]\nwater = \"1 kg\"\n{name:?} = \"100 g\"\n");
            let made = kitchen.makes(&text);
            (*made.solved().bottled(), made.text())
        };
        let ((said, sheet), (plain, _)) = (brix(written), brix(known));
        assert_eq!(said, plain, "{written}");
        let is_a_name = Larder::built_in().find(written).is_some();
        assert!(is_a_name || sheet.contains(" is read as "), "{written}: {sheet}");
    }
}

/// What says which thing it is stays part of the name: a strength, a kind, another fruit, what it lies in.
#[test]
fn what_may_be_another_thing_is_asked() {
    for name in ["peaches in brandy", "simple syrup 1:1 by volume", "hemlock, chopped", "limes, pickled"] {
        let text = format!("name = \"x\"\n[parts]\nwater = \"1 kg\"\n{name:?} = \"100 g\"\n");
        let made = Kitchen::new("").solve(&text, &Options::default());
        assert!(made.found.iter().any(|d| d.code == Code::UnknownIngredient), "{name}: {}", made.plain());
    }
}

/// By the rows of the larder: a cinnamon stick 3.5 g, a bay leaf 0.2 g, the zest of a lime 3 g, its juice 28 g, a sprig of
/// rosemary 1.5 g.
#[test]
fn what_is_counted_by_its_own_name_is_counted() {
    for (line, part, weighs) in [
        ("\"cinnamon stick\" = { amount = \"2\", strained = true }", "cinnamon stick", 7.0),
        ("\"bay leaf\" = { amount = \"2\", strained = true }", "bay leaf", 0.4),
        ("\"lime zest\" = { amount = \"8 limes\", strained = true }", "lime zest", 24.0),
        ("\"lime juice\" = \"8 limes\"", "lime juice", 224.0),
        ("\"rosemary sprigs\" = { amount = \"3\", strained = true }", "rosemary sprigs", 4.5),
        ("rosemary = { amount = \"4 sprigs, picked\", strained = true }", "rosemary", 6.0),
        ("\"orange peel\" = { amount = \"6 oranges\", strained = true }", "orange peel", 120.0),
    ] {
        assert!((grams(line, part) - weighs).abs() < 0.5, "{line}: {}", grams(line, part));
    }
}

#[test]
fn a_container_says_its_size_beside_it() {
    // water weighs 0.998 g/ml
    for (amount, weighs) in [
        ("1 bottle (70cl)", 698.8),
        ("10 shots (30 ml)", 299.5),
        ("2 tins (400 g each)", 800.0),
        ("1 jar (340 g)", 340.0),
        ("2 cups (480 ml)", 479.2),
        ("70cl bottle", 698.8),
        ("2 x 70cl bottles", 1397.5),
        ("a 500 ml carton", 499.1),
        ("4 spoons (60 ml in all)", 59.9),
        ("2 tins (800 g in total)", 800.0),
        ("2 Dosen (je 400 g)", 800.0),
        ("2 boîtes (400 g chacune)", 800.0),
        ("3 punnets (600 g insgesamt)", 600.0),
        ("2 bottles (70cl)", 1397.5),
        ("2 bottles (1.4 L)", 1397.5),
        ("2 bunches (60 g)", 60.0),
    ] {
        let of = grams(&format!("\"still water\" = {amount:?}"), "still water");
        assert!((of - weighs).abs() < 0.2, "{amount}: {of}");
    }
    // a size beside several packs is asked, whatever the pack is called
    for amount in [
        "2 tins (400 g)",
        "2 punnets (800g)",
        "4 bags (10 g)",
        "2 Dosen (800 g)",
        "2 boîtes (800 g)",
        "2 latas (800 g)",
        "2 bottles (1 L)",
    ] {
        let (_, found) = card::read("x".into(), format!("name = \"x\"\n[parts]\nwater = {amount:?}\n").into());
        assert_eq!(found.iter().map(|d| d.code).collect::<Vec<_>>(), [Code::EachOrAll], "{amount}");
    }
    // What contradicts itself is not read.
    let text = "name = \"x\"\n[parts]\nwater = \"2 L (480 ml)\"\n";
    Kitchen::new("").refuses(text);
    Kitchen::new("").refuses("name = \"x\"\n[parts]\nhoney = \"1 bottle\"\nwater = \"1 L\"\n");
}

#[test]
fn a_share_of_the_weight_says_so_on_its_line() {
    let card = "name = \"x\"\nmakes = \"1 kg\"\n[parts]\ngin = \"as needed\"\nwater = \"20 %\"\n";
    let sheet = bench(&Kitchen::new("").makes(card));
    assert!(sheet.contains("water, 20 % of the weight   200"), "{sheet}");
}

/// How a product is served is advice to the guest, and no part of it; what goes into the pan is asked all the same.
#[test]
fn how_it_is_served_is_no_part() {
    let asked = |step: &str| {
        let card = format!(
            "name = \"T\"\nsteps = [\"Boil the sugar and the water, cool.\", {step:?}]\n[parts]\nsugar = \"500 g\"\nwater = \"500 ml\"\n"
        );
        let (_, found) = Kitchen::new("").solve(&card, &Options::default()).sheet_and_found();
        found
            .into_iter()
            .filter(|found| {
                ["go in", "no line has it", "with what", "how much"].iter().any(|said| found.title.contains(said))
            })
            .count()
    };
    for step in [
        "Bottle. Use 30 ml in a highball, top it with ginger beer.",
        "Pour 25 ml over ice and top up with soda water.",
        "30 ml in a highball, top with ginger beer and a wedge of lime.",
        "Add 30 ml to a glass of prosecco.",
        "Good in a gin fizz: 20 ml with 50 ml gin and 25 ml lemon juice.",
        "Use 20 ml in a G&T.",
        "Serve with tonic and a slice of lemon over ice.",
        "Servir 3 cl dans un verre et compléter avec de l'eau gazeuse.",
    ] {
        assert_eq!(asked(step), 0, "{step}");
    }
    for step in [
        "Add a glass of white wine and bottle.",
        "Stir in 30 ml vodka in each glass jar.",
        "Top up with soda water to 1 litre.",
        "Add 30 ml lemon juice over ice, strain and bottle.",
    ] {
        assert!(asked(step) > 0, "{step}");
    }
}

/// What a recipe says itself of how long it keeps stands beside the date, and changes nothing of it.
#[test]
fn what_the_recipe_says_of_its_life_stands_beside_the_date() {
    let card = |step: &str, note: &str| {
        format!(
            "name = \"T\"\n{note}steps = [\"Boil the ginger with the sugar and the water, strain.\", {step:?}]\n[parts]\nginger = \
             {{ amount = \"200 g\", strained = true }}\nsugar = \"500 g\"\nwater = \"500 ml\"\n"
        )
    };
    let kitchen = Kitchen::new("");
    let sheet = |step: &str, note: &str| bench(&kitchen.solve(&card(step, note), &Options::default()));
    let keep = |sheet: &str| sheet.lines().find(|line| line.starts_with("Keep:")).unwrap().to_owned();
    let plain = keep(&sheet("Bottle.", ""));
    for (step, note, said) in [
        ("Bottle. Keeps 2 weeks in the fridge.", "", "Keeps 2 weeks in the fridge"),
        ("Hält sich im Kühlschrank etwa 3 Wochen.", "", "Hält sich im Kühlschrank etwa 3 Wochen"),
        ("Bottle.", "notes = \"Use within 10 days.\"\n", "Use within 10 days"),
    ] {
        let sheet = sheet(step, note);
        let told = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(&format!("the recipe says \"{said}\"; by the rules ")), "{step}: {sheet}");
        assert_eq!(keep(&sheet), plain, "{step}");
    }
    for step in ["Leave in the fridge for 3 days, then bottle.", "Keep warm for 20 minutes.", "Steep for 3 weeks."] {
        assert!(!sheet(step, "").contains("the recipe says"), "{step}");
    }
}

/// A text where a heading was expected is written out as one.
#[test]
fn a_text_for_a_heading_is_written_out() {
    let card = "name = \"x\"\nhow = \"shaken\"\nice = \"150 g\"\n[parts]\ngin = \"50 ml\"\n";
    let (_, found) = card::read("x".into(), card.into());
    let [found] = found.as_slice() else { panic!("{found:?}") };
    assert_eq!(found.help.as_deref(), Some("write ice = { grams = \"150 g\" }"));
    let (span, fix) = found.fix.as_ref().unwrap();
    let mended = format!("{}{fix}{}", &card[..span.start], &card[span.end..]);
    assert!(card::read("x".into(), mended.as_str().into()).1.is_empty(), "{mended}");
}

#[test]
fn what_is_counted_makes_pieces() {
    let made = Kitchen::new("").makes(
        "name = \"Wheels\"\nmakes = \"100 pieces\"\nserving = \"1 wheel\"\nclass = \"dried fruit\"\n[parts]\nlimes = \"10 each\"\n[loss]\nevaporated = \"95 %\"\n",
    );
    assert!(made.text().contains("= 100 pieces of about"), "{}", made.text());
    Kitchen::new("").refuses("name = \"x\"\nmakes = \"12 glugs\"\n[parts]\nwater = \"1 L\"\n");
}

#[test]
fn filled_warm_earns_nothing_and_is_no_error() {
    let card = |fill: &str| {
        format!("name = \"x\"\nfill = \"{fill}\"\n[parts]\n\"lime juice\" = \"1 L\"\n\"white sugar\" = \"1 kg\"\n")
    };
    let (warm, cold) = (Kitchen::new("").makes(&card("warm")), Kitchen::new("").makes(&card("cold")));
    assert_eq!(warm.text(), cold.text());
    assert!(warm.found.iter().any(|d| d.title.contains("filled warm")), "{}", warm.plain());
}

#[test]
fn a_us_house_reads_ounces_and_fahrenheit_beside() {
    let text =
        "name = \"x\"\nheated = \"85 °C for 5 min\"\n[parts]\nwater = \"16 fl oz\"\n\"white sugar\" = \"500 g\"\n";
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", US);
    let sheet = bench(&kitchen.makes(text));
    assert!(sheet.contains("16 fl oz") && sheet.contains("17.6 oz wt") && sheet.contains("85 °C (185 °F)"), "{sheet}");
    let metric = bench(&Kitchen::new("").makes(text));
    assert!(!metric.contains("oz wt") && !metric.contains("°F"), "{metric}");
}

/// Who types a card writes "strain" in the steps, and the lines do not say what: 800 g of berries were bottled in silence.
#[test]
fn steps_that_strain_are_held_to_the_lines() {
    let told = |parts: &str, steps: &str| {
        let text = format!("name = \"x\"\nsteps = [{steps}]\n[parts]\n{parts}\n");
        let kitchen = Kitchen::new("");
        let made = kitchen.makes(&text);
        let (_, found) = made.sheet_and_found();
        let of_steps = found
            .into_iter()
            .filter(|d| d.code == Code::NotStated && d.title.contains("straining") || d.title.contains("strained out"));
        of_steps.map(|d| format!("{} {}", d.title, d.help.unwrap_or_default())).collect::<Vec<_>>()
    };
    let berries = "strawberries = \"800 g\"\n\"white sugar\" = \"400 g\"\n\"cider vinegar\" = \"300 ml\"";
    for steps in [
        "\"Leave it overnight.\", \"Strain, bottle.\"",
        "\"Abseihen und abfüllen.\"",
        "\"Filtrer.\"",
        "\"Colar.\"",
        "\"Filtrare.\"",
    ] {
        let said = told(berries, steps);
        assert!(said.len() == 1 && said[0].contains("`strawberries` counts as bottled"), "{steps}: {said:?}");
        assert!(said[0].contains("\"strawberries\" = { amount = \"800 g\", strained = true }"), "{said:?}");
    }
    let stays = berries.replace("\"800 g\"", "{ amount = \"800 g\", strained = false }");
    for (parts, steps) in [
        (berries, "\"Blend. Do not strain.\""),
        (berries, "\"Blend and bottle.\""),
        (&*stays, "\"Strain, bottle.\""),
        ("\"lime juice\" = \"300 g\"\n\"white sugar\" = \"300 g\"", "\"Juice the limes, strain, stir in the sugar.\""),
    ] {
        assert!(told(parts, steps).is_empty(), "{steps}: {:?}", told(parts, steps));
    }
    let sheet = |parts: &str| {
        let card = format!("name = \"x\"\nsteps = [\"Leave it overnight, strain.\"]\n[parts]\n{parts}\n");
        bench(&Kitchen::new("").makes(&card))
    };
    assert!(
        sheet(berries).contains("  ? the steps strain and no line says what is strained out"),
        "{}",
        sheet(berries)
    );
    let cucumber = "cucumber = { amount = \"500 g\", strained = true }\nwater = \"500 g\"\n\"white sugar\" = \"49 g\"\nsalt = \"2 g\"";
    let said = told(cucumber, "\"Blend with the water, strain through muslin.\", \"Add salt and sugar.\"");
    assert!(said.len() == 1 && said[0].contains("`white sugar` and `salt` go in after the straining"), "{said:?}");
    for steps in [
        "\"Blend everything, strain.\"",
        "\"Blend with water, sugar and salt, strain.\"",
        "\"Blend with sugar and salt, strain with the water.\"",
        "\"Filter the water.\", \"Stir in salt and sugar, put the cucumber in.\", \"Strain.\"",
    ] {
        assert!(told(cucumber, steps).is_empty(), "{steps}: {:?}", told(cucumber, steps));
    }
}

/// The bottle that stands on the line is that bottle, and not the one of the house.
#[test]
fn a_size_in_brackets_goes_before_the_bottle_of_the_house() {
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", "[house]\nname = \"x\"\nbottle = \"750 ml\"\n");
    let ml = |amount: &str| {
        let made = kitchen.makes(&format!("name = \"x\"\n[parts]\nrum = \"{amount}\"\nwater = \"1 kg\"\n"));
        made.solved().last().parts[0].volume_ml().unwrap()
    };
    for (amount, is) in
        [("1 bottle", 750.0), ("1 bottle (1 L)", 1000.0), ("2 bottles (70cl)", 1400.0), ("2 bottles (1.5 L)", 1500.0)]
    {
        assert!((ml(amount) - is).abs() < 1e-6, "{amount}: {}", ml(amount));
    }
}

/// How long and how hot, as people write it; what was taken is said.
#[test]
fn times_and_heats_are_read_as_people_write_them() {
    let stage = |key: &str| {
        let made = Kitchen::new("").makes(&format!("name = \"x\"\n{key}\n[parts]\nvodka = \"1 L\"\nwater = \"1 L\"\n"));
        let noted = made.found.iter().any(|d| d.code == Code::Understood);
        let last = made.card.as_ref().unwrap().last.clone();
        (last, noted)
    };
    for (written, days, noted) in [
        ("3 months", 90.0, true),
        ("2 Monate", 60.0, true),
        ("4 to 6 weeks", 42.0, true),
        ("2-3 days", 3.0, true),
        ("overnight", 0.5, true),
        ("10 days", 10.0, false),
    ] {
        let (last, said) = stage(&format!("takes = \"{written}\""));
        assert!((last.takes.unwrap().time.get::<uom::si::time::day>() - days).abs() < 1e-9, "{written}");
        assert_eq!(said, noted, "{written}");
    }
    for written in ["90 °C for 5 min", "90 °C, 5 min", "90 °C 5 min", "90C 5min"] {
        let heated = stage(&format!("heated = \"{written}\"")).0.heated.unwrap().value;
        assert!((heated.hold.unwrap().get::<uom::si::time::minute>() - 5.0).abs() < 1e-9, "{written}");
    }
}
