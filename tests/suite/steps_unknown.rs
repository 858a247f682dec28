//! A thing that a step puts in and that no line, no tool, no place and no ordinary word explains is asked about, whatever the verb and
//! with or without an amount; ordinary words are not.

use crate::kitchen::Kitchen;
use stillroom::assessment::Assessment;
use stillroom::diagnostic::Code;
use stillroom::solver::Options;

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n";
const LIQUEUR: &str = "vodka = \"500 ml\"\nsugar = \"100 g\"\nmint = { amount = \"10 g\", strained = true }\n";

fn judged(steps: &str, parts: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}");
    kitchen.solve(&card, &Options::default()).dated(2_000)
}

fn asked(steps: &str, parts: &str) -> Vec<String> {
    judged(steps, parts).unidentified.into_iter().map(|open| open.question).collect()
}

#[test]
fn what_nobody_knows_is_asked_whatever_the_verb() {
    for (step, says) in [
        ("Infuse with zorblat.", "zorblat = "),
        ("Steep with moon crystals.", "\"moon crystals\" = "),
        ("Macerate with monkey puzzle for a week.", "\"monkey puzzle\" = "),
        ("Drop in the AirTag.", "AirTag = "),
        ("Add the vodka and the brake cleaner.", "\"brake cleaner\" = "),
        ("Add some zorblat.", "zorblat = "),
        ("Stir in zorblat.", "zorblat = "),
        ("Rub the jar with zorblat.", "zorblat = "),
        ("Colour it with wood stain.", "\"wood stain\" = "),
        ("Whisk in the green powder from the blue tub.", "\"green powder\" = "),
        ("Mit Klarspüler abrunden.", "\"Klarspüler\" = "),
        ("Mit Zirbenzapfen ansetzen.", "Zirbenzapfen = "),
        ("Einen Kiesel hineinlegen.", "Kiesel = "),
        ("Terminer avec du vernis.", "vernis = "),
        ("Echar una piedra de alumbre.", "piedra de alumbre"),
        ("Macerar con pétalos de dalia.", "pétalos de dalia"),
        ("Finire con lucido da scarpe.", "lucido = "),
        ("Metterci dentro una moneta.", "moneta = "),
        // what the house knows and no line has
        ("Infuse with thyme.", "thyme = "),
        ("Finish with orange zest.", "\"orange zest\" = "),
        ("Finish with cinnamon.", "cinnamon = "),
        ("Smooth with a little glycerine.", "glycerine = "),
        ("Let down with milk to the thickness of cream.", "milk = "),
        ("Top with champagne.", "champagne = "),
    ] {
        let asked = asked(step, LIQUEUR);
        assert!(asked.iter().any(|asked| asked.contains(says)), "{step}: {asked:?}");
    }
}

/// An amount that no line has is the same whatever its verb.
#[test]
fn an_amount_of_no_line_is_not_complete_whatever_the_verb() {
    for (step, says) in [
        ("Spike with 30 ml overproof rum.", "30 ml overproof rum"),
        ("Loosen with a cup of hot water.", "cup of hot water"),
        ("Beat in two egg whites.", "two egg whites"),
        ("Mount with a knob of butter.", "knob of butter"),
        ("Sweeten with a spoonful of honey.", "spoonful of honey"),
        ("Squeeze in half a grapefruit.", "half a grapefruit"),
        ("Blend with the flesh of two mangoes.", "two mangoes"),
        ("Float 100 ml of overproof.", "100 ml of overproof"),
        ("Dose with 1 g sodium benzoate.", "1 g sodium benzoate"),
        ("Clarify with 200 ml of milk.", "200 ml of milk"),
        ("5 g rosemary.", "5 g rosemary"),
    ] {
        let asked = asked(step, LIQUEUR);
        assert!(asked.iter().any(|asked| asked.contains(says)), "{step}: {asked:?}");
    }
}

#[test]
fn ordinary_words_are_not_asked_about() {
    for step in [
        "Add all and stir with a long spoon.",
        "Add the powders and the sugar, shake hard.",
        "Add the mint leaves, cover with a lid, leave in a dark cupboard.",
        "Add everything to a clean jar. Hang in a cloth in the fridge overnight.",
        "Heat nothing. Sit the jar in a bowl of ice.",
        "Stir with a hand blender until clear. Cover with cling film, prick it with a pin.",
        "Rinse the bottles with boiling water. Scald the jar with boiling water and let it dry.",
        "Mix with care, finish with a quick stir, label with the date.",
        "Nice with tonic and a wedge of lime.",
        "Write the date on with a marker.",
        "Steep with the lid on. Strain with a fine sieve. Press with a spoon.",
        "Die Blätter zugeben und schütteln. Mit einem Löffel umrühren.",
        "Mit dem Zucker verrühren, mit Deckel ziehen lassen.",
        "Ajouter l'alcool et les feuilles. Mélanger avec une cuillère.",
        "Añadir el alcohol y las hojas, remover con una cuchara.",
        "Aggiungere l'alcol e le foglie, mescolare con un cucchiaio.",
        "Boil the sugar with the vodka, keep going for 5 minutes and stir.",
        "Aufkochen, abkühlen lassen und dazugeben. Auskühlen lassen, dazugeben.",
        "Préparer un sirop, laisser refroidir et ajouter.",
        "Hacer un almíbar, dejar enfriar y añadir.",
        "Preparare uno sciroppo, far raffreddare e unire. Lasciar raffreddare e unire.",
        "Put the mint in a small saucepot. Put the mint in a 2 litre Kilner with the vodka.",
        "Put the mint in a Kilner with the vodka. Put mint and sugar in a pan and bring it up.",
        "Add 1 litre of vodka? No: add the 500 ml of vodka.",
    ] {
        let asked = asked(step, LIQUEUR);
        let only = asked.iter().all(|asked| asked.contains("1 litre of vodka"));
        assert!(only, "{step}: {asked:?}");
    }
    // a short name of so much is that of the list
    let rum = "\"dark rum\" = \"1 L\"\n\"vanilla extract\" = \"1 tsp\"\nsugar = \"300 g\"\n";
    assert_eq!(
        asked("Pour 1 litre of rum over the sugar; 1 tsp vanilla. Add a teaspoon of vanilla.", rum),
        Vec::<String>::new()
    );
    assert!(!asked("Pour 1 litre of rum over the sugar; 2 tsp vanilla.", rum).is_empty());
}

/// An amount and its thing are a sentence without a verb, and a thing may be spoken of without being named.
#[test]
fn what_is_put_in_without_a_verb_or_a_name_is_asked() {
    let parts = "vodka = \"500 ml\"\nsugar = \"100 g\"\nmint = { amount = \"10 g\", strained = true }\n";
    for step in [
        "A sprig of zorblat.",
        "Un chorrito de limpiacristales.",
        "Uno spruzzo di sgrassatore.",
        "Ein Spritzer Danklorix.",
        "Eine Handvoll Waldbeeren vom Wegrand.",
        "Une poignée de baies du talus.",
        "Un puñado de bayas del monte.",
        "Una manciata di bacche del bosco.",
        "Naphthalin-Kügelchen hinein.",
        "Mettre un bâton lumineux dedans.",
        "Teñir con anilina.",
        "Infuse the herbs the guests brought.",
        "Throw in the flowers from the funeral wreath.",
        "Add the leaves from the pot plant in the lobby.",
        "Add a capful of the pink stuff.",
        "A squirt from the unlabelled bottle.",
        "Aus der Flasche ohne Etikett auffüllen.",
        "Compléter avec la bouteille sans étiquette.",
        "Rellenar con la botella sin etiqueta.",
        "Rabboccare con la bottiglia senza etichetta.",
    ] {
        assert!(!asked(step, parts).is_empty(), "{step}");
    }
    for step in [
        "A sprig of mint per glass.",
        "Un chorrito de vodka.",
        "A week of patience.",
        "Store in the unlabelled bottle.",
        "2 dashes per drink.",
    ] {
        assert_eq!(asked(step, parts), Vec::<String>::new(), "{step}");
    }
}

/// Any wood that is not one of those that food is smoked with is asked about: treated, painted, poisonous or unnamed.
#[test]
fn wood_that_nobody_names_is_asked_about() {
    let parts = "vodka = \"500 ml\"\nsugar = \"100 g\"\n";
    for step in [
        "Smoke with chipboard.",
        "Smoke with MDF offcuts.",
        "Über Spanplattenholz räuchern.",
        "Mit Möbelholz räuchern.",
        "Räuchern mit Eibenholz.",
        "Fumer avec des chutes de contreplaqué.",
        "Ahumar con restos de aglomerado.",
        "Affumicare con legno verniciato.",
    ] {
        assert!(asked(step, parts).iter().any(|asks| asks.contains("what wood is that?")), "{step}");
    }
    for step in [
        "Smoke with oak chips.",
        "Smoke with applewood.",
        "Smoke over hay.",
        "Smoke with rosemary.",
        "Smoke under a cloche with the smoke gun.",
        "Über Buchenholzspänen räuchern.",
        "Mit der Räucherpistole räuchern.",
        "Fumer au bois de hêtre.",
        "Ahumar con virutas de roble.",
        "Affumicare con trucioli di faggio.",
        "Cover with a lid and smoke for two minutes.",
    ] {
        assert_eq!(asked(step, parts), Vec::<String>::new(), "{step}");
    }
}

/// Slices of the fruit of the list, and "the acids" of its acids, are no new thing.
#[test]
fn what_the_list_has_under_another_word_is_not_asked() {
    let parts = "sugar = \"500 g\"\nwater = \"500 g\"\nZitronen = \"2\"\n\"citric acid\" = \"10 g\"\n";
    for step in ["Zitronenscheiben zugeben.", "Stir in the acids.", "Add the sugar and the acids."] {
        assert_eq!(asked(step, parts), Vec::<String>::new(), "{step}");
    }
    assert!(!asked("Zorblatscheiben zugeben.", parts).is_empty());
}

/// A drink is dressed and topped for a guest; what nobody knows is asked of it too.
#[test]
fn a_drink_asks_what_nobody_knows() {
    let drink = |step: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let card = format!(
            "name = \"T\"\nhow = \"shaken\"\nsteps = [\"Shake with the ice.\", \"{step}\"]\n[parts]\nvodka = \"50 ml\"\n\
             \"lime juice\" = \"25 ml\"\n\"simple syrup\" = \"20 ml\"\n"
        );
        let judged = kitchen.solve(&card, &Options::default()).dated(2_000);
        judged.unidentified.into_iter().map(|open| open.question).collect::<Vec<_>>()
    };
    for step in [
        "Add 5 ml of zorblat.",
        "Add a sprig of zorblat.",
        "Drop in the AirTag.",
        "Rinse the glass with shoe polish.",
        "Top with zorblat.",
    ] {
        assert_eq!(drink(step).len(), 1, "{step}: {:?}", drink(step));
    }
    for step in [
        "Garnish with a mint sprig.",
        "Rim the glass with salt.",
        "Rinse the glass with absinthe.",
        "Serve with a straw.",
        "Add a few drops of saline.",
        "Drop in a cherry.",
        "Strain into the cold coupe.",
        "Express a lemon twist over it.",
    ] {
        assert_eq!(drink(step), Vec::<String>::new(), "{step}");
    }
}

/// Some of what the list has goes in by a step, and none of it is more; more of it, in no figures, is not on the list.
#[test]
fn some_of_the_list_is_no_more_and_more_of_it_is() {
    let sour = "\"lime juice\" = \"600 ml\"\nsugar = \"500 g\"\nwater = \"500 ml\"\n";
    for step in [
        "Dissolve the sugar in 300 ml of the water, add the remaining 200 ml cold.",
        "Dissolve the sugar in 100 ml of the juice. Add this back to the rest of the juice.",
        "Add half of the sugar, then the remaining half.",
        "Ajouter les 200 ml d'eau restants.",
        "Añadir los 200 ml restantes de agua.",
        "Aggiungere i restanti 200 ml di acqua.",
        "Die restlichen 200 ml Wasser zugeben.",
        "Stir until reduced to no lumps.",
        "Reduce the speed of the blender, pour in the water.",
        "Bring the juice down with the 500 ml of water.",
        "Add 20 % dilution.",
    ] {
        let judged = judged(step, sour);
        assert!(judged.unidentified.is_empty(), "{step}: {:?}", judged.unidentified);
    }
    for (step, says) in [
        ("Stir. Add the juice of 4 oranges.", "\"orange juice\" = "),
        ("Stir. Add half as much water again.", "\"water, more\""),
        ("Stir. Add double the water if too strong.", "\"water, more\""),
        ("Stir, add more sugar until it balances.", "\"sugar, more\""),
        ("Stir. Add more water if too strong.", "\"water, more\""),
        ("Mélanger. Couper avec moitié d'eau.", "eau = "),
        ("Mischen. Doppelt so viel Wasser zugeben.", "Wasser"),
    ] {
        let asked = asked(step, sour);
        assert!(asked.iter().any(|asked| asked.contains(says)), "{step}: {asked:?}");
    }
    // a share of water is no strength
    let dry = asked("Stir. Add 20 % dilution.", "vodka = \"500 ml\"\n\"dry vermouth\" = \"100 ml\"\n").concat();
    assert!(dry.contains("water = ") && !dry.contains("abv"), "{dry}");
    // an hour off the heat boils nothing away
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let steamed = |step: &str| {
        let card = format!("name = \"T\"\nsteps = [\"{step}\"]\n[parts]\n{sour}");
        kitchen.solve(&card, &Options::default()).codes().contains(&Code::Understood)
    };
    assert!(!steamed("Bring to a simmer, cover, take off the heat for an hour."));
    assert!(steamed("Bring to a simmer, and simmer for an hour."));
}

/// What is left when the ice is taken off is stronger: that is distilling by cold.
#[test]
fn ice_that_is_taken_off_leaves_it_stronger() {
    for step in [
        "Steep, strain. Freeze, take off the ice.",
        "Einfrieren, das Eis abheben.",
        "Congeler, retirer la glace.",
        "Congelar, quitar el hielo.",
        "Congelare, togliere il ghiaccio.",
    ] {
        assert!(judged(step, LIQUEUR).stopped(), "{step}");
    }
    for step in
        ["Freeze overnight, lift the fat off.", "Shake with ice, take the ice out.", "Freeze in ice cube trays."]
    {
        assert!(!judged(step, LIQUEUR).stopped(), "{step}");
    }
    // a juice has no alcohol to leave behind
    let juice = "\"apple juice\" = \"1 L\"\nsugar = \"50 g\"\n";
    assert!(!judged("Freeze the juice, let half of it melt, throw the ice away.", juice).stopped());
}

/// What smoke is made over for food is no wood that is asked about, what a drink is let down with in the glass none of the bottle, and a
/// demijohn of spirit ferments nothing.
#[test]
fn ordinary_smoke_and_ordinary_serving_ask_nothing() {
    for step in [
        "Über Buchenholz räuchern.",
        "Fumer au foin.",
        "Affumicare con fieno.",
        "Mit Wacholderzweigen räuchern.",
        "Smoke over vine cuttings.",
        "In einem Gärballon ansetzen.",
        "1:6 mit Wasser verdünnt trinken.",
    ] {
        let kitchen = Kitchen::new("");
        let card = format!(
            "name = \"Spirit\"\nsteps = [\"{step}\"]\n[parts]\nvodka = \"500 ml\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n"
        );
        kitchen.write("card.toml", &card);
        let (code, page, said) = kitchen.run(&["solve", "card.toml"]);
        assert!(code == Some(0) && !page.contains("STOP") && !page.contains("NOT COMPLETE"), "{step}: {page}{said}");
    }
}

/// What a step pours into a drink is in the glass: so much of what no line has is asked; a few drops and the ice are not.
#[test]
fn what_a_step_pours_into_a_drink_is_asked() {
    let kitchen = Kitchen::new("");
    let asks = |step: &str| {
        let card = format!(
            "name = \"Sour\"\nhow = \"shaken\"\nsteps = [\"{step}\"]\n[parts]\ngin = \"50 ml\"\n\"lime juice\" = \"25 ml\"\n"
        );
        kitchen.write("card.toml", &card);
        kitchen.run(&["serve", "card.toml"]).1.contains("NOT COMPLETE")
    };
    let poured = [
        "Float 15 ml of overproof rum.",
        "Build over ice, top with prosecco.",
        "Top with 60 ml soda water.",
        "Top with soda.",
        "Mit Sekt auffüllen.",
        "Allonger de crémant.",
        "Rellenar con tónica.",
        "Colmare con prosecco.",
        "Fill up with hot water.",
        "Float red wine.",
    ];
    for step in poured {
        assert!(asks(step), "{step}");
    }
    let dressed = [
        "Shake the 50 ml gin with the lime.",
        "Add a few drops of saline.",
        "Add 100 g of ice, shake.",
        "Top with crushed ice and a mint sprig.",
        "Top with the lime juice.",
        "Float a lime wheel.",
        "Add a dash of absinthe.",
    ];
    for step in dressed {
        assert!(!asks(step), "{step}");
    }
}
