//! What the steps of a typed card do and no line of it says is asked, in five languages, as it is of a pasted recipe; what the lines do
//! say is not. The cards are ours; what a person expects of each is beside it.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::diagnostic::{Code, Diagnostic, Severity};
use stillroom::house::House;
use stillroom::paste::paste;
use stillroom::solver::Options;

const HOUSE: &str =
    "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
const LIQUEUR: &str = "\"overproof white rum\" = \"700 ml\"\n\"orange peel\" = { amount = \"30 g\", strained = true }\n\
                       sugar = \"200 g\"\nwater = \"300 ml\"\n";

fn judged(card: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    kitchen.solve(card, &Options::default()).dated(2_000)
}

fn asked(step: &str, parts: &str) -> Vec<String> {
    let judged = judged(&format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\n{parts}"));
    judged.unidentified.into_iter().map(|open| open.question).collect()
}

#[test]
fn what_a_step_adds_cuts_and_boils_down_is_asked() {
    for (step, says) in [
        ("Macerate 2 weeks, strain, cut to 30 % with water.", "abv = 30"),
        ("Macerate 2 weeks, strain. Proof down to 80 proof.", "abv = 40"),
        ("Macerate 2 weeks, strain. Dilute to 25 % with water.", "abv = 25"),
        ("Zwei Wochen ziehen lassen, abseihen. Auf 30 % verdünnen.", "abv = 30"),
        ("Macérer 2 semaines, filtrer. Ramener à 30 %.", "abv = 30"),
        ("Macerar 2 semanas, colar. Rebajar con agua al 30 %.", "abv = 30"),
        ("Macerate 2 weeks, strain. Top up with water to 2 L.", "fills up with water to 2 L"),
        ("Zwei Wochen ziehen lassen, abseihen. Mit Wasser auf 2 L auffüllen.", "2 L"),
        ("Macerate 2 weeks, strain. Add 500 ml of water.", "\"water, more\""),
        ("Zwei Wochen ziehen lassen, abseihen. 500 ml Wasser zugeben.", "\"Wasser, more\""),
        ("Macérer 2 semaines, filtrer. Ajouter 500 ml d'eau.", "\"eau, more\""),
        ("Macerar 2 semanas, colar. Añadir 500 ml de agua.", "\"agua, more\""),
        ("Macerate 2 weeks, strain. Stir in the juice of 4 lemons.", "\"lemon juice\" = \"juice of 4 lemons\""),
        ("Macerate 2 weeks, strain. Add 200 ml lemon juice.", "\"lemon juice\" = \"200 ml\""),
        ("Macerate 2 weeks, strain. Stir in the sugar and lemon juice.", "\"lemon juice\" = "),
        ("Zwei Wochen ziehen lassen, abseihen. Den Saft von 4 Zitronen zugeben.", "Zitronensaft = "),
        ("Macérer 2 semaines, filtrer. Ajouter le jus de 4 citrons.", "\"jus de citrons\" = "),
        ("Macerar 2 semanas, colar. Añadir el zumo de 4 limones.", "\"zumo de limon\" = "),
        ("Macerate 2 settimane, filtrare. Aggiungere il succo di 4 limoni.", "\"succo di limone\" = "),
        ("Macerate 2 weeks, strain. Stir in the honey.", "honey = "),
        ("Macerate 2 weeks, strain. Add honey to taste.", "honey = "),
        ("Macerate 2 weeks, strain. Add grapefruit juice and a splash of rum.", "\"grapefruit juice\" = "),
        ("Zwei Wochen ziehen lassen, abseihen. Honig einrühren.", "Honig = "),
        ("Macérer 2 semaines, filtrer. Ajouter le miel.", "miel = "),
        ("Macerar 2 semanas, colar. Añadir la miel.", "miel = "),
        ("Macerate 2 settimane, filtrare. Unire il miele.", "miele = "),
        ("Macerate 2 weeks, strain. Reduce by half first.", "evaporated"),
        ("Zwei Wochen ziehen lassen, abseihen. Auf die Hälfte einkochen.", "evaporated"),
        ("Macérer 2 semaines, filtrer. Réduire de moitié.", "evaporated"),
        ("Macerar 2 semanas, colar. Reducir a la mitad.", "evaporated"),
        ("Macerate 2 settimane, filtrare. Ridurre della metà.", "evaporated"),
    ] {
        let asked = asked(step, LIQUEUR);
        assert!(asked.iter().any(|asked| asked.contains("NOT COMPLETE") && asked.contains(says)), "{step}: {asked:?}");
    }
}

const INFUSED: &str =
    "\"overproof white rum\" = \"700 ml\"\n\"orange peel\" = { amount = \"30 g\", strained = true }\n";

/// The same words in a pasted recipe, and on a card.
#[test]
fn what_is_cut_or_sweetened_with_what_nobody_measured_is_asked() {
    for (step, says) in [
        ("Macerate 2 weeks. Strain and sweeten to taste.", "sugar = "),
        ("Zwei Wochen ziehen lassen, abseihen, mit Läuterzucker süßen.", "\"Läuterzucker\" = "),
        ("Macérer 2 semaines, filtrer, couper avec moitié d'eau.", "eau = "),
        ("Macérer 2 semaines, filtrer, sucrer à votre goût.", "sugar = "),
        ("Macerar 2 semanas, colar, rebajar con agua al 50 %.", "abv = 50"),
        ("Macerar 2 semanas, colar, mezclar con igual cantidad de almíbar.", "\"almíbar\" = "),
        ("Macerare 2 settimane, filtrare, portare a 30 gradi con acqua.", "abv = 30"),
        ("Macerare 2 settimane, filtrare, unire pari peso di zucchero.", "zucchero = "),
    ] {
        let typed = asked(step, INFUSED);
        assert!(typed.iter().any(|asked| asked.contains(says)), "{step}: {typed:?}");
        let text = format!("Rum thing\n700 ml rum 63%\n50 g orange peel\n\n{step}\n");
        let pasted = paste(&text, &House::default());
        assert!(pasted.questions.iter().any(|asked| asked.contains(says)), "{step}: {:?}", pasted.questions);
    }
    let listed = format!("{INFUSED}sugar = \"200 g\"\n");
    assert!(asked("Macerate 2 weeks. Strain and sweeten to taste.", &listed).is_empty());
    assert!(asked("Porter l'eau avec le sucre à ébullition.", &format!("{listed}water = \"1 L\"\n")).is_empty());
}

/// "Bottle" begins a step, and a line of the list too.
/// A share of the batch that the list's own water does not make, in five languages.
#[test]
fn what_is_thinned_by_a_share_is_asked_where_the_list_has_another() {
    let syrup = "\"white sugar\" = \"660 g\"\nwater = \"340 g\"\n";
    for step in [
        "Dilute 1:1 with water.",
        "Mit Wasser 1:1 verdünnen.",
        "Um die Hälfte strecken.",
        "Diluer de moitié.",
        "Rebajar a la mitad.",
        "Aguar un poco.",
        "Diluire a metà.",
    ] {
        assert!(!asked(step, syrup).is_empty(), "{step}");
    }
    let half = "\"elderflower cordial\" = \"500 g\"\nwater = \"500 g\"\n";
    for step in ["Dilute 1:1 with water.", "Mit Wasser 1:1 verdünnen.", "Dilute with the water."] {
        assert_eq!(asked(step, half), Vec::<String>::new(), "{step}");
    }
}

#[test]
fn a_bottle_of_the_list_is_not_lost() {
    let pasted = paste("Vanilla\n100 g sugar\nbottle vodka\n", &House::default());
    assert!(pasted.card.contains("vodka") && !pasted.card.contains("steps"), "{}", pasted.card);
}

#[test]
fn what_the_lines_say_too_is_not_asked() {
    for step in [
        "Macerate 2 weeks, strain, dissolve the sugar in the water, combine.",
        "Macerate 2 weeks, strain. Add the water and sugar.",
        "Macerate 2 weeks, strain. Add 300 ml water and 200 g of the sugar.",
        "Macerate 2 weeks, strain. Dilute with the water.",
        "Macerate 2 weeks, strain. Do not add water. Stir in the syrup.",
        "Zwei Wochen ziehen lassen, abseihen. Zucker und Wasser zugeben.",
        "Macérer 2 semaines, filtrer. Ajouter le sucre et l'eau.",
        "Reduce the heat and stir, strain. Bottle in 500 ml bottles.",
        "Shake with the rum for 10 minutes, strain. Pour 50 ml to serve.",
    ] {
        assert_eq!(asked(step, LIQUEUR), Vec::<String>::new(), "{step}");
    }
    let card = "name = \"T\"\nmakes = \"1 L\"\nsteps = [\"Macerate, strain, cut to 30 % with water. Top up with water to 1 L.\"]\n\
                [target]\nabv = 30\n[parts]\n\"overproof white rum\" = \"as needed\"\nwater = \"as needed\"\n\
                \"orange peel\" = { amount = \"20 g\", strained = true }\n";
    assert!(judged(card).unidentified.is_empty());
    let reduced = "name = \"T\"\nsteps = [\"Reduce by half.\"]\n[parts]\n\"apple juice\" = \"1 L\"\n[loss]\nevaporated = \"50 %\"\n";
    assert!(judged(reduced).unidentified.is_empty());
}

/// The second line of water that the question offers answers it.
#[test]
fn the_line_that_is_offered_answers() {
    let more = "\"water, more\" = { of = \"water\", amount = \"500 ml\" }\n";
    let step = "Macerate 2 weeks, strain. Add 500 ml of water.";
    assert!(asked(step, &format!("{LIQUEUR}{more}")).is_empty());
    let honey = "honey = \"100 g\"\n";
    assert!(asked("Macerate 2 weeks, strain. Stir in the honey.", &format!("{LIQUEUR}{honey}")).is_empty());
}

/// Until it is answered nothing is dated or labelled, and the sheet says so.
#[test]
fn such_a_card_is_not_complete() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let step = "Macerate 2 weeks, strain, dilute to 30 % with water.";
    kitchen.write("t.toml", &format!("name = \"T\"\nclass = \"liqueur\"\nsteps = [\"{step}\"]\n[parts]\n{LIQUEUR}"));
    let (code, sheet, said) = kitchen.run(&["solve", "t.toml"]);
    assert_eq!(code, Some(1), "{sheet}{said}");
    assert!(sheet.contains("NOT COMPLETE, the card still asks: dilute to 30 % with"), "{sheet}");
    assert!(said.contains("write the line, or have the step say what is done"), "{said}");
    let (code, label, _) = kitchen.run(&["label", "t.toml"]);
    assert!(code == Some(1) && !label.contains("best before"), "{label}");
}

const GIN: &str = "gin = \"700 ml\"\nstrawberries = { amount = \"300 g\", strained = true }\n";
const WINE: &str = "\"red wine\" = \"750 ml\"\n\"white sugar\" = \"100 g\"\n";

fn is_asked_how_hot(step: &str, parts: &str) -> bool {
    let judged = judged(&format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\n{parts}"));
    let hot = ["hot_spirit", "hot_spirit_bath", "boiled_spirit", "hot_wine"];
    judged.cautions.iter().any(|caution| hot.contains(&caution.code))
}

/// More than 40 °C is no room: whatever the verb, spirit that a step holds so is asked about.
#[test]
fn so_many_degrees_heat_spirit_and_wine() {
    for step in [
        "Sous vide at 60 °C for 2 hours, strain.",
        "In the circulator at 57 °C, strain.",
        "Circulate at 140 °F for 2 hours, strain.",
        "Infuse in a water bath at 60 °C, strain.",
        "Infuse at 60 °C for 2 hours, strain.",
        "Put the jar in the oven at 60 °C for 3 hours, strain.",
        "Vakuumieren, 2 Stunden bei 60 °C, abseihen.",
        "Im Wasserbad bei 60 Grad ziehen lassen, abseihen.",
        "Au bain-marie à 60 °C, 2 heures, filtrer.",
        "Al baño maría a 60 °C, colar.",
        "A bagnomaria per 2 ore, filtrare.",
        "Keep in the urn at 70 °C.",
    ] {
        assert!(is_asked_how_hot(step, GIN), "{step}");
    }
    for step in [
        "Infuse for 2 days at 20 °C, strain.",
        "Leave somewhere warm at 30 °C for 2 days, strain.",
        "Sterilise the bottles at 120 °C. Macerate 2 days, strain.",
        "Macerate 2 days, strain.",
    ] {
        assert!(!is_asked_how_hot(step, GIN), "{step}");
    }
    for step in ["Simmer the wine with the sugar for 10 minutes.", "Den Wein erwärmen.", "Keep in the urn at 70 °C."]
    {
        assert!(is_asked_how_hot(step, WINE), "{step}");
    }
    assert!(!is_asked_how_hot("Stir the sugar into the wine.", WINE));
    // what goes in behind the heat is not in the hot pan
    let syrup = "rum = \"500 ml\"\nsugar = \"300 g\"\nwater = \"300 ml\"\n";
    for step in [
        "Heat the water and sugar to 80 °C, off the heat add the rum.",
        "Heat to 80 °C for 5 minutes. Off the heat, add the rum.",
        "Dissolve the sugar in the water at 60 °C, cool to 45 °C, add the rum.",
    ] {
        assert!(!is_asked_how_hot(step, syrup), "{step}");
    }
}

/// The heat of a stage that stands above the whole card is that of the stage: the sugar that goes in behind it was not heated.
#[test]
fn heat_above_the_card_is_of_the_stage_that_its_steps_heat() {
    const HEAT: &str = "heated = \"90 °C for 20 min\"\n";
    let card = |above: &str, of_stage: &str| {
        format!(
            "name = \"Rhubarb cordial\"\n{above}steps = [\"Chop the rhubarb, cook gently with the water until soft.\", \"Strain.\", \
             \"Dissolve the sugar and the acid in the hot juice. Bottle hot.\"]\n[[stage]]\nname = \"rhubarb juice\"\n{of_stage}\
             [stage.parts]\nrhubarb = {{ amount = \"1 kg\", strained = true }}\nwater = \"300 ml\"\n[parts]\n\
             \"rhubarb juice\" = \"all\"\n\"white sugar\" = \"700 g\"\n\"citric acid\" = \"8 g\"\n[keep]\nfill = \"hot\"\n\
             closed = true\nin = \"glass\"\n"
        )
    };
    let days = |card: &str| {
        let judged = judged(card);
        [at(&judged, "fridge").days, at(&judged, "back bar").days]
    };
    let (typed, moved) = (card(HEAT, ""), card("", HEAT));
    assert_eq!(days(&typed), days(&moved));
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    kitchen.write("t.toml", &typed);
    let (_, sheet, said) = kitchen.run(&["solve", "t.toml"]);
    let told = "by the steps `rhubarb juice` is heated and `white sugar` and `citric acid` go in behind it";
    assert!(said.contains(told) && said.contains("move `heated`"), "{said}");
    let [juice, then] =
        ["> heat to 90 °C", "add  "].map(|words| sheet.find(words).unwrap_or_else(|| panic!("{sheet}")));
    assert!(juice < then, "{sheet}");
    // where all of it is heated again, the key is right
    let again = typed.replace("Bottle hot.", "Heat all of it to 90 °C for 20 minutes, bottle hot.");
    let (_, _, said) = {
        kitchen.write("t.toml", &again);
        kitchen.run(&["solve", "t.toml"])
    };
    assert!(!said.contains("is heated and"), "{said}");
}

/// A wait in the fridge stands there, at what the house says that it has; a shrub of 27 g/L acid is not to be used at once.
#[test]
fn a_fridge_that_a_step_names_is_where_it_stands() {
    let card = |step: &str, at: &str| {
        format!(
            "name = \"Shrub\"\ntakes = \"2 days\"\n{at}steps = [\"{step}\", \"Stir in the vinegar, strain, bottle.\"]\n[parts]\n\
             blackcurrants = {{ amount = \"500 g\", strained = true }}\nsugar = \"400 g\"\n\"red wine vinegar\" = \"350 ml\"\n\
             [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n"
        )
    };
    let days = |card: &str| at(&judged(card), "fridge").days.unwrap_or_default();
    let fridge = days(&card("Crush the blackcurrants with the sugar, leave in the fridge for 2 days.", ""));
    assert_eq!(fridge, days(&card("Crush the blackcurrants with the sugar.", "at = \"4 °C\"\n")));
    assert!(fridge > days(&card("Crush the blackcurrants with the sugar, leave on the counter for 2 days.", "")));
}

/// "Leave 3 days", in a kitchen, with cold water: fruit, water and sugar stood warm.
#[test]
fn leave_three_days_stands_in_the_room() {
    let berries = "water = \"1 L\"\nsugar = \"500 g\"\nstrawberries = { amount = \"500 g\", strained = true }\n";
    let days = |step: &str| {
        let judged = judged(&format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\n{berries}"));
        at(&judged, "fridge").days
    };
    let told = days("Pour the cold water on the berries and sugar, leave for 3 days, strain.");
    for step in
        ["Pour the cold water on the berries and sugar, leave 3 days in the kitchen, strain.", "Leave 3 days, strain."]
    {
        assert_eq!(days(step), told, "{step}");
    }
    assert_ne!(days("Leave 3 days in the fridge, strain."), told);
}

#[test]
fn porter_with_water_in_french_is_no_beer() {
    for step in ["Porter l'eau et le sucre à 90 °C.", "Porter l’eau à 90 °C.", "Porter les fruits à ébullition."]
    {
        let judged =
            judged(&format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\nsugar = \"200 g\"\nwater = \"300 ml\"\n"));
        assert!(judged.allergens_open.is_empty() && judged.allergens_doubted.is_empty(), "{step}");
    }
}

/// By hand: 250 ml of vodka less what 8 g of beans keep; everybody writes what is poured in.
#[test]
fn what_is_poured_in_as_the_yield_is_a_note() {
    let found = |makes: &str| {
        let vanilla = "\"vanilla beans\" = { amount = \"10 each\", strained = true }";
        let card = format!("name = \"T\"\nmakes = \"{makes}\"\n[parts]\n{vanilla}\nvodka = \"250 ml\"\n");
        Kitchen::unstated("").solve(&card, &Options::default()).found
    };
    let of = |found: &[Diagnostic], code: Code| found.iter().find(|d| d.code == code).map(|d| d.severity);
    let poured = found("250 ml");
    assert_eq!((of(&poured, Code::YieldLower), of(&poured, Code::YieldImpossible)), (Some(Severity::Note), None));
    assert_eq!(of(&found("320 ml"), Code::YieldImpossible), Some(Severity::Error));
}

/// A liqueur is not strained out: by the kilo, and strained, `cassis` is the fruit and `anis` the seed.
#[test]
fn what_is_strained_out_is_the_plant() {
    let kitchen = Kitchen::unstated("");
    let card = |part: &str| format!("name = \"T\"\n[parts]\nvodka = \"1 L\"\n{part}\n");
    for (part, is) in [
        ("cassis = { amount = \"500 g\", strained = true }", "cassis fruit"),
        ("Anis = { amount = \"5 g\", strained = true }", "Anissamen"),
    ] {
        let made = kitchen.solve(&card(part), &Options::default());
        assert!(
            made.solved.as_ref().is_some_and(|solved| solved
                .stages
                .iter()
                .flat_map(|stage| &stage.parts)
                .any(|part| part.of == is)),
            "{}",
            made.plain()
        );
    }
    for open in ["cassis = \"100 g\"", "piment = \"10 g\"", "rabarbaro = { amount = \"10 g\", strained = true }"] {
        assert!(kitchen.solve(&card(open), &Options::default()).plain().contains("which of these is it"), "{open}");
    }
}

/// A quince of a shop, 200 to 350 g, whole; of pressed fruit `holds` is below zero.
#[test]
fn pressed_quinces_are_answered_by_what_they_weigh_wet() {
    let kitchen = Kitchen::unstated("");
    let card = |holds: &str| {
        format!("name = \"T\"\n[parts]\nquince = {{ amount = \"4 each\", strained = true, holds = {holds} }}\n")
    };
    let made = kitchen.solve(&card("-0.4"), &Options::default());
    assert!(made.solved.is_some_and(|solved| (solved.bottled().total_grams() - 400.0).abs() < 1.0));
    assert!(kitchen.solve(&card("0.3"), &Options::default()).plain().contains("holds = -0.4"));
}

/// Whatever the name: what nobody knows is asked as what everybody knows.
#[test]
fn what_a_step_adds_and_nobody_knows_is_asked() {
    for said in [
        "Add a sprig of zorblat.",
        "Add a handful of zorblat and stir.",
        "Infuse with a handful of zorblat.",
        "Steep with a sprig of zorblat for a week.",
        "Drop in three zorblats.",
        "Finish with a spoon of zorblat.",
        "Eine Handvoll Zorblat dazugeben.",
        "Ajouter une poignée de zorblat.",
        "Ajouter un brin de zorblat.",
        "Añadir un puñado de zorblat.",
        "Aggiungere una manciata di zorblat.",
    ] {
        for name in ["zorblat", "rosemary"] {
            let step = said.replace("zorblat", name).replace("Zorblat", name);
            let asked = asked(&step, LIQUEUR);
            assert!(
                asked.iter().any(|asked| asked.contains("NOT COMPLETE") && asked.contains(name)),
                "{step}: {asked:?}"
            );
        }
    }
    for step in [
        "Add a sprig of the peel.",
        "Infuse with the orange peel for a week.",
        "Add the orange peel in a bag of cloth.",
        "Add a spoon of the mixture to the sugar.",
        "Add two thirds of the sugar.",
        "Add three times.",
        "Add in two batches.",
        "Finish with the sugar.",
    ] {
        assert_eq!(asked(step, LIQUEUR), Vec::<String>::new(), "{step}");
    }
}

/// A guest's glass, a date on a label, and a part under its name in another language.
#[test]
fn what_is_served_written_or_listed_is_not_asked() {
    for step in [
        "To serve, add soda and a slice of lemon.",
        "Para servir, añadir hielo y agua con gas.",
        "Per servire, aggiungere ghiaccio e acqua tonica.",
        "Add the date to the bottle.",
    ] {
        assert_eq!(asked(step, LIQUEUR), Vec::<String>::new(), "{step}");
    }
    assert!(!asked("Bottle. To serve, add ice. Add the lemon juice.", LIQUEUR).is_empty());
    assert!(!asked("Add the dates.", LIQUEUR).is_empty());
    let spiced = "sugar = \"600 g\"\nwater = \"600 g\"\nclove = { amount = \"4 g\", strained = true }\n\
                  \"ceylon cinnamon\" = { amount = \"10 g\", strained = true }\n";
    for step in ["Aggiungere la cannella.", "Añadir la canela y el clavo."] {
        assert_eq!(asked(step, spiced), Vec::<String>::new(), "{step}");
        assert!(!asked(step, LIQUEUR).is_empty(), "{step}");
    }
}

/// What remains of the list, and a strength that water lowers, are boiled down by nobody.
#[test]
fn what_is_left_of_the_list_steams_off_nowhere() {
    for step in [
        "Macerate 2 weeks, strain, dissolve the sugar in 100 ml of the water, add the remaining 200 ml cold.",
        "Add two thirds of the sugar, taste, add the remaining third.",
        "Add a third of the rum first, then the remaining two thirds.",
        "Reduce the strength with the water.",
        "Reduce the speed of the blender.",
        "Bring the rum down with the 300 ml of water.",
        "Ajouter les 200 ml d'eau restants.",
        "Aggiungere i restanti 200 ml di acqua.",
    ] {
        assert_eq!(asked(step, LIQUEUR), Vec::<String>::new(), "{step}");
        assert!(!is_asked_how_hot(step, LIQUEUR), "{step}");
    }
    for step in
        ["Boil it down until the remaining syrup is 300 ml.", "Cook down with the sugar by half.", "Reduce by a third."]
    {
        let asked = asked(step, LIQUEUR);
        assert!(asked.iter().any(|asked| asked.contains("evaporated")), "{step}: {asked:?}");
    }
}
