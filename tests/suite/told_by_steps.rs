//! Dangers that only a sentence of the method tells, in five languages: each is asked about or stops, and no date stands beside
//! it; the same words of an ordinary kitchen raise nothing. What the words mean: from memory; why each is dangerous: hazards.csv and
//! cautions.toml.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const HOUSE: &str =
    "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
const SPIRIT: &str = "vodka = \"500 ml\"\n\"white sugar\" = \"150 g\"\nmint = { amount = \"10 g\", strained = true }";
const TEA: &str =
    "\"white sugar\" = \"400 g\"\nwater = \"600 ml\"\n\"ceylon cinnamon\" = { amount = \"10 g\", strained = true }";
const JUICE: &str = "\"white sugar\" = \"300 g\"\nwater = \"600 ml\"\n\"carrot juice\" = \"400 ml\"";

fn told(step: &str, parts: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let keep = "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"";
    let card = format!("name = \"x\"\nsteps = [\"{step}\"]\n[parts]\n{parts}\n{keep}\n");
    kitchen.solve(&card, &Options::default()).dated(2_000)
}

fn is_dated(step: &str, parts: &str) -> bool {
    at(&told(step, parts), "fridge").days.is_some()
}

#[test]
fn what_a_step_puts_in_that_is_no_food_stops_the_date() {
    for step in [
        "Clean the jar with bleach, do not rinse, fill.",
        "Sterilise the bottles with methylated spirit and fill.",
        "Sanitise with isopropanol, do not rinse.",
        "Mix bleach and vinegar to clean the jar.",
        "Spülmaschinentab ins Glas, dann füllen.",
        "Colour with fabric dye.",
        "Smoke with painted wood.",
        "Steep with the stones of the cherries, cracked.",
        "Die Kerne der Aprikosen knacken und zugeben.",
        "Con los huesos de las cerezas, machacados.",
        "Noccioli di ciliegia schiacciati.",
        "Add the leaves of the rhubarb.",
        "Die Blätter vom Rhabarber mitkochen.",
        "Add mushrooms from the forest.",
        "Setas del monte.",
        "Skim mould off the top and carry on.",
        "Run it through the rotovap.",
        "Freeze overnight and drain the strong part from the ice.",
    ] {
        assert!(!is_dated(step, SPIRIT), "{step}");
    }
    for step in [
        "Wash the jars with bleach, rinse twice.",
        "Sanitise the bottles and fill.",
        "Remove the stones from the cherries.",
        "Die Kerne der Aprikosen entfernen.",
        "Strain through a nut milk bag.",
        "Kühl lagern.",
        "Porter l'eau à ébullition.",
        "Serve with micro herbs.",
        "Nicht über Feuer erhitzen.",
        "Fish out the peel.",
        "Discard if mould appears.",
        "Discard the rhubarb leaves.",
        "Rhabarberblätter entfernen und wegwerfen.",
        "Dénoyauter les cerises, jeter les noyaux.",
        "Do not forget to remove the cherry stones.",
        "Beat with an egg whisk.",
        "Ei-förmig.",
        "Cream of tartar, none.",
        "Stir with a walnut wood spoon.",
        "Peanut jar, washed.",
        "Champagne cork.",
        "Botella de vino limpia.",
        "Strain through a flour sack towel.",
        "Smells of yeast extract.",
        "Servir à côté de la crème de cassis.",
        "Le parfum se développe.",
    ] {
        let judged = told(step, SPIRIT);
        assert!(at(&judged, "fridge").days.is_some(), "{step}");
        assert!(judged.allergens_open.is_empty(), "{step}: {:?}", judged.allergens_open);
    }
}

#[test]
fn weak_tea_that_a_step_leaves_warm_has_no_date() {
    for step in [
        "Leave in a slow cooker on warm overnight.",
        "Keep in a thermos overnight.",
        "Let stand on top of the fridge for three days.",
        "Keep at 45° for ten hours.",
        "Keep warm till the evening.",
        "Auf der Heizung stehen lassen, einen Tag.",
        "Im Dörrgerät bei 42 Grad neun Stunden.",
        "Toute la nuit près du radiateur.",
        "Toda la noche en el horno apagado.",
        "Lasciare vicino al forno per dodici ore.",
        "Park the pan by the wood burner while you sleep.",
        "Keep on the heat lamp through service.",
        "Float the bag in the sink of hot water all day.",
        "In der Thermoskanne bis morgen.",
        "Bei Zimmerwärme 48 Stunden.",
        "Eine Woche auf dem Regal.",
        "Toute une journée à température ambiante.",
        "Quince días al sol.",
        "Quindici giorni al sole.",
        "Age for a month in the cupboard.",
    ] {
        assert!(!is_dated(step, TEA), "{step}");
    }
    for step in ["Stand in the fridge overnight.", "Keep it warm while it dissolves.", "Im Kühlschrank zwei Tage."] {
        assert!(is_dated(step, TEA), "{step}");
    }
}

/// Low in acid and moist, closed and in a room: what 21 CFR 113 asks a pressure process by an authority for.
#[test]
fn canning_and_shelves_told_in_a_step_stop_what_a_room_cannot_keep() {
    for step in [
        "Process the jars in a boiling water bath 20 minutes, keep in the larder for a year.",
        "Pressure-can at 15 psi for ten minutes, shelf.",
        "Vacuum-pack and keep on the shelf.",
        "Einwecken und im Keller lagern.",
        "Stériliser les bocaux 30 min, conserver au placard.",
        "Sin refrigerar.",
        "Sterilizzare i vasetti e tenere in dispensa.",
        "Boil the sealed jars for half an hour and shelve them.",
        "Steam the filled jars; they keep for months unopened.",
        "Einkochen und in die Speisekammer.",
        "Envasar al vacío y a la estantería.",
        "Bollire i vasetti 40 minuti e tenere in dispensa.",
    ] {
        assert!(!is_dated(step, JUICE), "{step}");
    }
    // spirit keeps itself
    assert!(is_dated("Keep in the cupboard.", "vodka = \"500 ml\"\nmint = { amount = \"10 g\", strained = true }"));
    for step in ["Bottle, keep in the fridge.", "Do not freeze.", "Sterilise the jars for 30 min."] {
        assert!(is_dated(step, JUICE), "{step}");
    }
}

/// A name and a note that call it free of what it holds: Regulation (EU) 1169/2011, article 7, misleads a guest.
#[test]
fn a_claim_that_is_not_so_stops_it() {
    let with = |name: &str, note: &str, parts: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let card = format!("name = \"{name}\"\nnotes = \"{note}\"\n[parts]\n{parts}\n");
        kitchen.solve(&card, &Options::default()).dated(2_000).stopped()
    };
    let almond = "vodka = \"500 ml\"\n\"almond syrup\" = \"100 g\"";
    for name in
        ["Nut-free liqueur", "Almond-free orgeat", "Likör, mandelfrei", "Liqueur sans noix", "Alcohol-free cordial"]
    {
        assert!(with(name, "x", almond), "{name}");
    }
    assert!(with("Cordial", "Contains no alcohol, for children.", almond));
    assert!(with("Cordial", "Contains no allergens.", almond));
    for (name, note) in
        [("Egg-free sour", "x"), ("Liqueur", "Contains no milk."), ("Liqueur", "Without nuts it is flat.")]
    {
        assert!(!with(name, note, almond), "{name}, {note}");
    }
    let syrup = "\"white sugar\" = \"500 g\"\nwater = \"500 g\"";
    assert!(!with("Alcohol-free syrup", "x", syrup));
    for name in [
        "Children's fruit punch",
        "Kids party slush",
        "Mum-to-be mule",
        "Designated driver cordial",
        "Mocktail base",
        "Zero proof spritz",
        "Kinderpunsch",
        "Punch pour les enfants",
        "Ponche para niños",
        "Bevanda per bambini",
        "Vegan almond sour",
        "Sugar-free liqueur",
    ] {
        let egg = "vodka = \"500 ml\"\n\"egg white\" = \"30 g\"\n\"white sugar\" = \"50 g\"";
        assert!(with(name, "x", egg), "{name}");
    }
    assert!(with("Punch", "For the under-tens table.", almond));
    for name in ["Zuckerfreier Sirup", "Sirop sans sucre", "Jarabe sin azúcar", "Sciroppo senza zucchero"] {
        assert!(with(name, "x", syrup), "{name}");
    }
    let milk = "\"whole milk\" = \"500 g\"\n\"white sugar\" = \"50 g\"";
    for name in ["Lactose-free milk base", "Senza lattosio", "Vegan milk"] {
        assert!(with(name, "x", milk), "{name}");
    }
    // for whom it is not, what an oil is called, and what holds none
    for (name, note) in [
        ("Punch", "Not for children."),
        ("Punch", "For children leave out the vodka."),
        ("Punch", "Too strong for children."),
        ("Punch", "Für Kinder ungeeignet."),
        ("Punch", "Sconsigliato in gravidanza."),
        ("Punch", "Keep it under 12 C in the cellar, stir it in under ten minutes."),
        ("Virgin olive oil gin", "x"),
        ("Vegan punch", "x"),
        ("Children of the sun", "x"),
    ] {
        assert!(!with(name, note, "vodka = \"500 ml\"\nwater = \"500 g\""), "{name}, {note}");
    }
    // an s at the end is that of an adjective too
    assert!(with("Zuckerfreies Wasser", "x", "\"white sugar\" = \"50 g\"\nwater = \"500 g\""));
    // what is said of added sugar takes nothing back of the rest
    let nuts = "\"almond milk\" = \"500 g\"\n\"white sugar\" = \"50 g\"";
    assert!(with("Nut-free cordial, no added sugar", "x", nuts));
    for name in ["Virgin mary base", "Children's punch", "Cordial with no added sugar", "Vegan syrup"] {
        assert!(!with(name, "For kids and the designated driver.", syrup), "{name}");
    }
}

/// A name may be a promise and may be only a name: it is warned of, and not stopped.
#[test]
fn a_name_that_sounds_free_of_alcohol_is_warned_of() {
    let said = |name: &str, part: &str| {
        let kitchen = Kitchen::new("");
        let card = format!("name = \"{name}\"\n[parts]\n{part} = \"200 g\"\nwater = \"500 g\"\n");
        let dated = kitchen.solve(&card, &Options::default()).dated(200);
        (dated.stopped(), dated.cautions.iter().any(|caution| caution.code == "sounds_sober"))
    };
    for name in ["Virgin collins", "Virgin honey highball", "Vierge collins"] {
        assert_eq!(said(name, "vodka"), (false, true), "{name}");
        assert_eq!(said(name, "\"apple juice\""), (false, false), "{name}");
    }
    assert_eq!(said("Virgin olive oil gin", "vodka"), (false, false));
}

/// Honey may carry the spores of infant botulism, heated or not.
#[test]
fn honey_that_is_said_to_be_for_infants_stops() {
    let stopped = |note: &str, part: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let card = format!("name = \"Water\"\nnotes = \"{note}\"\n[parts]\n{part} = \"50 g\"\nwater = \"400 g\"\n");
        kitchen.solve(&card, &Options::default()).dated(2_000).stopped()
    };
    for note in
        ["For infants at the Sunday brunch.", "Für Babys.", "Pour les nourrissons.", "Para bebés.", "Per lattanti."]
    {
        assert!(stopped(note, "honey"), "{note}");
        assert!(!stopped(note, "\"white sugar\""), "{note}");
    }
    assert!(!stopped("Not for infants.", "honey"));
}

/// What the label of a bought thing names is its maker's, within its maker's limit: Regulation (EC) 1333/2008, annex II.
#[test]
fn a_bought_thing_that_names_its_preservative_is_declared_and_stops_nothing() {
    let judged = |name: &str, grams: &str| {
        let entry = format!("[ingredient.\"{name}\"]\nlike = \"lemon juice\"\nfood = \"sold as food, label\"\n");
        let kitchen = Kitchen::unstated(&entry);
        kitchen.write("house.toml", HOUSE);
        let card = format!(
            "name = \"Mix\"\n[parts]\n\"{name}\" = \"{grams}\"\n\"white sugar\" = \"200 g\"\nwater = \"300 g\"\n"
        );
        kitchen.solve(&card, &Options::default()).dated(2_000)
    };
    for name in [
        "lemon juice with E 224",
        "lime juice with E 223",
        "lemon juice (contains sodium metabisulphite)",
        "lemon juice, preserved with sulphite",
        "cordial with E 202",
        "squash with E 211",
        "Zitronensaft mit E 224",
    ] {
        let made = judged(name, "100 g");
        assert!(!made.stopped(), "{name}: {:?}", made.cautions.iter().map(|c| c.code).collect::<Vec<_>>());
        let is_sulphite = !name.contains("E 202") && !name.contains("E 211");
        assert!(!is_sulphite || made.allergens_say.contains("sulphites"), "{name}: {}", made.allergens_say);
    }
}

/// What the keys say and the steps deny is asked before a date rests on it.
#[test]
fn keys_and_steps_that_tell_two_things_are_asked_about() {
    let dated = |keys: &str, step: &str, loss: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let parts = "\"white sugar\" = \"300 g\"\nwater = \"700 g\"\n\"citric acid\" = \"5 g\"";
        let card = format!("name = \"x\"\n{keys}\nsteps = [\"{step}\"]\n[parts]\n{parts}\n{loss}");
        at(&kitchen.solve(&card, &Options::default()).dated(2_000), "fridge").days.is_some()
    };
    let hot = "heated = \"90 °C for 10 min\"";
    assert!(!dated(hot, "Stir until clear without heat.", ""));
    assert!(dated(hot, "Heat it without a lid, do not boil.", ""));
    assert!(dated(hot, "Bottle.", ""));
    let gone = "[loss]\nevaporated = \"80 %\"\n";
    assert!(!dated("", "Stir cold, bottle.", gone));
    assert!(dated("", "Reduce it to a fifth.", gone));
}

/// No water and no wine holds so much alcohol, whoever states it; what a thing is like is followed to its end.
#[test]
fn what_is_stated_of_a_thing_does_not_change_what_it_is() {
    let dated = |larder: &str, name: &str| {
        let kitchen = Kitchen::unstated(larder);
        kitchen.write("house.toml", HOUSE);
        let card = format!("name = \"x\"\n[parts]\n\"{name}\" = \"500 g\"\n\"white sugar\" = \"50 g\"\n");
        at(&kitchen.solve(&card, &Options::default()).dated(2_000), "fridge").days.is_some()
    };
    let entry = |name: &str, more: &str| format!("[ingredient.\"{name}\"]\n{more}\nfood = \"sold as food, label\"\n");
    assert!(!dated(&entry("house water", "like = \"water\"\nabv = 40"), "house water"));
    assert!(!dated(&entry("table wine", "like = \"red wine\"\nabv = 60"), "table wine"));
    assert!(dated(&entry("table wine", "like = \"red wine\"\nabv = 14"), "table wine"));
    let chain = entry("house leaf", "like = \"inner leaf\"")
        + &entry("inner leaf", "like = \"mint\"\naliases = [\"monkshood\"]");
    assert!(!dated(&chain, "house leaf"));
}

/// A drink inside a drink is no kilogram of it: what goes into the glass is counted.
#[test]
fn a_dose_is_that_of_the_glass() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let inner = |grams: f64| {
        format!(
            "name = \"Inner\"\nhow = \"built\"\n[parts]\nvodka = \"30 g\"\n\"white sugar\" = \"30 g\"\nnutmeg = \"{grams} g\"\n"
        )
    };
    let outer = "name = \"Outer\"\nhow = \"built\"\n[parts]\nInner = \"40 g\"\nwater = \"60 g\"\n";
    kitchen.write("inner.toml", &inner(0.4));
    assert!(!kitchen.solve(outer, &Options::default()).dated(2_000).stopped());
    // 8 g in 68 g: 4.7 g of it in 40 g; 12 g in 72: 6.7
    kitchen.write("inner.toml", &inner(8.0));
    assert!(!kitchen.solve(outer, &Options::default()).dated(2_000).stopped());
    kitchen.write("inner.toml", &inner(12.0));
    assert!(kitchen.solve(outer, &Options::default()).dated(2_000).stopped());
}

/// `heated = "no"` is of a card whose fat alone is hot: it does not answer a step that heats the spirit.
#[test]
fn that_nothing_is_heated_is_not_believed_of_spirit_that_a_step_heats() {
    let stopped = |step: &str| {
        let kitchen = Kitchen::unstated("");
        kitchen.write("house.toml", HOUSE);
        let parts = "vodka = \"500 ml\"\nbutter = { amount = \"100 g\", strained = true }";
        let card = format!("name = \"x\"\nheated = \"no\"\nwashed = \"fat\"\nsteps = [\"{step}\"]\n[parts]\n{parts}\n");
        let judged = kitchen.solve(&card, &Options::default()).dated(2_000);
        judged.cautions.iter().any(|caution| caution.code == "hot_spirit")
    };
    assert!(stopped("Warm the vodka on the hob, add the butter."));
    assert!(!stopped("Brown the butter over a low heat. Stir it into the vodka, freeze, lift off the fat."));
}

/// "Half" and "and" of one sentence are no half and half, the cream.
#[test]
fn a_half_and_a_half_are_no_cream() {
    for step in [
        "Rest half an hour and filter.",
        "Cut the lemons in half and zest them.",
        "Use half and keep half.",
        "Two and a half days.",
    ] {
        let judged = told(step, SPIRIT);
        assert!(judged.allergens_doubted.is_empty() && judged.product.contents.dairy.is_none(), "{step}");
    }
    assert!(!told("Stir in the half and half.", SPIRIT).allergens_doubted.is_empty());
}

/// What a stage is called and what is done for a guest is drunk as well.
#[test]
fn a_stage_and_what_is_done_for_a_guest_are_read() {
    let made = |guest: &str, stage: &str| {
        let kitchen = Kitchen::unstated("");
        let card = format!(
            "name = \"x\"\nfor_a_guest = \"{guest}\"\n[[stage]]\nname = \"{stage}\"\n[stage.parts]\n{SPIRIT}\n[parts]\n\"{stage}\" = \"400 g\"\n"
        );
        kitchen.solve(&card, &Options::default()).dated(100)
    };
    assert!(!made("pour 40 ml over ice", "mint tea").stopped());
    assert!(made("pour 40 ml over a leaf of yew", "mint tea").stopped());
    assert!(made("pour 40 ml over ice", "foxglove tea").stopped());
}

/// What nobody has stated is never favourable: a stop that may apply stops.
/// A stage is called after what was done to it, and after what is in it.
#[test]
fn what_a_stage_is_called_is_read() {
    let judged = |name: &str| {
        let card = format!(
            "name = \"x\"\n[[stage]]\nname = \"{name}\"\n[stage.parts]\nvodka = \"500 ml\"\nmint = {{ amount = \"10 g\", strained = \
             true }}\n[parts]\n\"{name}\" = \"all\"\nsugar = \"100 g\"\n"
        );
        Kitchen::unstated("").solve(&card, &Options::default()).dated(2_000)
    };
    for name in
        ["boiled spirit", "gekochter Rum", "rhum bouilli", "cuvée distillée", "lead decanter rest", "dry ice chill"]
    {
        assert!(judged(name).stopped(), "{name}");
    }
    for (name, asks) in [("peanut base", "peanut"), ("raw egg base", "egg"), ("smoked over pallets", "wood")] {
        let judged = judged(name);
        let woods = judged.unidentified.iter().map(|open| open.question.as_str());
        assert!(woods.chain([judged.allergens_say.as_str()]).any(|said| said.contains(asks)), "{name}");
    }
    for name in ["mint spirit", "first run", "copper mint", "smoked over oak"] {
        assert!(!judged(name).stopped(), "{name}");
    }
}

/// A bottle is called after what is in it, and a drink as its bar likes.
#[test]
fn a_product_that_is_called_after_a_poison_is_asked_what_of_it_is_in_it() {
    let judged = |name: &str, drink: &str| {
        let card = format!("name = \"{name}\"\n{drink}[parts]\n{SPIRIT}");
        Kitchen::unstated("").solve(&card, &Options::default()).dated(100)
    };
    for name in [
        "Oleander liqueur",
        "Methanol punch",
        "Eisenhutbitter",
        "Elixir de muguet",
        "Licor de adelfa",
        "Liquore di oleandro",
    ] {
        let judged = judged(name, "");
        assert!(judged.stopped(), "{name}");
        let mut asked = judged.cautions.iter().flat_map(|caution| &caution.not_stated);
        assert!(asked.any(|asked| asked.contains("call it otherwise")), "{name}");
    }
    for name in ["Mint liqueur", "Rose punch", "Enzianbitter", "Elixir de menthe", "Elderflower syrup", "Nutty bitters"]
    {
        assert!(!judged(name, "").stopped(), "{name}");
    }
    // "Milk of the yew" says of nothing what it is
    assert!(!judged("Foxglove nights", "").stopped());
    assert!(!judged("Foxglove punch", "how = \"built\"\nglass = \"coupe\"\n").stopped());
}

#[test]
fn a_stop_that_may_apply_leaves_no_date() {
    let oil = "\"olive oil\" = \"300 ml\"\nwater = \"300 g\"\n\"white sugar\" = \"300 g\"";
    for (step, parts) in
        [("Warm basil in the olive oil, jar it.", oil), ("Steep with quinine tonic concentrate.", SPIRIT)]
    {
        let judged = told(step, parts);
        assert!(judged.stopped() && judged.stores.iter().all(|store| store.days.is_none()), "{step}");
    }
    let spritz = "\"Orange bitter aperitif 11 %, 250 g/L\" = \"300 ml\"\n\"sparkling wine, dry\" = \"600 ml\"";
    assert!(!told("Stir, bottle.", spritz).stopped(), "a bottle that is sold keeps the limit of quinine");
}

/// Salt in a brine is salt; no cider has 22 % and no espresso 40 %; what the larder warns of stays whatever it is said to be like.
#[test]
fn a_name_buys_neither_a_dose_nor_a_strength() {
    let made = |larder: &str, parts: &str| {
        let kitchen = Kitchen::unstated(larder);
        kitchen
            .solve(&format!("name = \"x\"\nserving = \"100 ml\"\n[parts]\n{parts}\n"), &Options::default())
            .dated(100)
    };
    let brine = "[ingredient.\"house brine\"]\nper_100g = { water = 75, salt = 25 }\nfood = \"sold as food, label\"\nallergens = []\n";
    let salted = |grams: u32| {
        made(brine, &format!("\"house brine\" = \"{grams} g\"\nwater = \"400 g\"\n\"white sugar\" = \"200 g\""))
    };
    assert!(salted(800).cautions.iter().any(|caution| caution.code == "overdose"));
    assert!(salted(100).cautions.iter().all(|caution| caution.code != "overdose"));
    for (like, abv) in [("cider", 22), ("espresso", 40), ("cider vinegar", 40), ("carrot juice", 45)] {
        let entry =
            format!("[ingredient.\"house {like}\"]\nlike = \"{like}\"\nabv = {abv}\nfood = \"sold as food, label\"\n");
        let judged = made(&entry, &format!("\"house {like}\" = \"500 g\""));
        assert!(!judged.unidentified.is_empty(), "{like} of {abv} %");
    }
    let root = "[ingredient.\"rhubarb root\"]\nlike = \"mint\"\nfood = \"sold as food, label\"\n";
    let judged =
        made(root, &format!("{SPIRIT}\n\"rhubarb root\" = {{ amount = \"5 g\", strained = true, holds = 1 }}"));
    assert!(judged.cautions.iter().any(|caution| caution.code == "medicine_plant"), "{:?}", judged.cautions);
}

/// The yolks that a step beats are those of the card.
#[test]
fn the_egg_of_a_step_is_the_egg_of_the_card() {
    let custard = |egg: &str, step: &str| {
        told(step, &format!("\"{egg}\" = \"170 g\"\n\"white sugar\" = \"150 g\"\nbrandy = \"300 ml\""))
    };
    let raw = |judged: &Assessment| judged.product.contents.egg == Some(stillroom::shelf_life::Egg::Raw);
    assert!(!raw(&custard("pasteurised egg yolk", "Beat the yolks with the sugar, stir in the brandy.")));
    assert!(raw(&custard("egg yolk", "Beat the yolks with the sugar, stir in the brandy.")));
    assert!(raw(&custard("pasteurised egg yolk", "Beat in the unpasteurised egg yolks too.")));
}
