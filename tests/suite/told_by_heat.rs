//! What heat, a wash, and the words of a method do to a date: what is not sure is not counted, and what is told is.

use std::process::Command;

use crate::kitchen::{Kitchen, at, wednesday};
use stillroom::assessment::{self, Assessment, Lot, Which};
use stillroom::shelf_life::Draws;
use stillroom::solver::Options;

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\ncellar = \"12 °C\"\n\
                     \"back bar\" = \"21 °C\"\n";

fn kitchen(larder: &str) -> Kitchen {
    let kitchen = Kitchen::unstated(larder);
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn dated(card: &str) -> Assessment {
    kitchen("").solve(card, &Options::default()).dated(2_000)
}

fn days(card: &str, store: &str) -> Option<u32> {
    at(&dated(card), store).days
}

/// A card of one pan, with steps.
fn card(step: &str, parts: &str) -> String {
    format!("name = \"x\"\nsteps = [\"{step}\"]\n[parts]\n{parts}\n")
}

const CUCUMBER: &str = "water = \"1 kg\"\ncucumber = { amount = \"300 g\", strained = true }";

/// 1 L of stout boiled down: at 5 % vol or so it began, and of its alcohol a quarter is left after an hour (USDA retention
/// factors, Release 6: 25 %). With four fifths of the water gone no more of it is sure.
#[test]
fn alcohol_that_may_have_boiled_off_keeps_nothing() {
    let boiled = |more: &str| {
        format!(
            "name = \"x\"\nheated = \"100 °C for 60 min\"\n[parts]\nstout = \"1 L\"\n\"white sugar\" = \"100 g\"\n{more}"
        )
    };
    let down = boiled("[loss]\nevaporated = \"80 %\"\n");
    let hurdles = at(&dated(&down), "fridge").verdict.as_ref().unwrap().hurdles;
    assert!(hurdles.abv < 0.5, "{hurdles:?}");
    assert_eq!((days(&down, "fridge"), days(&down, "back bar")), (Some(7), None));
    // a strength that was read is of what is left
    let read = format!("{down}[measured]\nabv = 13.0\n");
    assert!(at(&dated(&read), "fridge").verdict.as_ref().unwrap().hurdles.abv > 10.0);
    // spirit that goes in behind the boiling pan is all there
    let behind = "name = \"x\"\n[[stage]]\nname = \"syrup\"\nheated = \"100 °C for 30 min\"\n[stage.parts]\nwater = \"500 g\"\n\
                  \"white sugar\" = \"100 g\"\n[parts]\nsyrup = \"600 g\"\nvodka = \"600 ml\"\n";
    assert!(at(&dated(behind), "fridge").verdict.as_ref().unwrap().hurdles.abv > 18.0);
}

#[test]
fn what_is_held_warm_by_its_heated_key_stood_warm() {
    let tea = |heated: &str| {
        format!(
            "name = \"x\"\n[[stage]]\nname = \"tea\"\n{heated}\n[stage.parts]\n{CUCUMBER}\n[parts]\ntea = \"500 g\"\nvodka = \
             \"500 ml\"\n"
        )
    };
    assert_eq!(days(&tea("heated = \"45 °C for 24 h\""), "fridge"), None);
    assert_eq!(days(&tea("takes = \"24 h\"\nat = \"45 °C\""), "fridge"), None);
    assert!(days(&tea("heated = \"60 °C for 24 h\""), "fridge").is_some());
}

#[test]
fn no_word_washes_what_is_not_strained() {
    let washed = |word: &str, with: &str| format!("name = \"x\"\n{word}\n[parts]\nbourbon = \"500 ml\"\n{with}\n");
    let plain = days(&washed("", "milk = \"200 g\""), "fridge");
    assert_eq!(plain, Some(7));
    assert_eq!(days(&washed("washed = \"fat\"", "milk = \"200 g\""), "fridge"), plain);
    assert_eq!(days(&washed("washed = \"milk\"", "milk = \"200 g\"\n\"lemon juice\" = \"50 g\""), "fridge"), plain);
    let lifted = "butter = { amount = \"100 g\", strained = true }";
    assert!(days(&washed("washed = \"fat\"", lifted), "fridge") > Some(60));
}

/// The days fall with the degrees in a store, whatever stood warm before (dates.md, K): a cordial of a day's steep keeps no
/// shorter in a fridge than in a cellar.
#[test]
fn a_colder_store_never_shortens_what_steeped() {
    let cordial = "name = \"x\"\ntakes = \"24 h\"\n[parts]\nwater = \"1 kg\"\n\"white sugar\" = \"1 kg\"\nelderflower = { amount = \
                   \"100 g\", strained = true }\n\"citric acid\" = \"50 g\"\n[keep]\nclosed = false\nin = \"plastic\"\n";
    let kitchen = Kitchen::unstated("");
    let stores: String = (0..=30).map(|t| format!("s{t} = \"{t} °C\"\n")).collect();
    kitchen.write("house.toml", &format!("[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\n{stores}"));
    let dated = kitchen.solve(cordial, &Options::default()).dated(2_000);
    let days: Vec<u32> = (0..=30).map(|t| at(&dated, &format!("s{t}")).days.unwrap_or(0)).collect();
    assert!(days.is_sorted_by(|a, b| a >= b), "{days:?}");
    assert!(days[4] >= 21, "{days:?}");
}

#[test]
fn a_steep_in_words_stands_where_nothing_cold_is_named() {
    for warm in [
        "Macerate for 3 days, strain.",
        "Infuse 16 hours, strain.",
        "Leave in the sun for 12 h",
        "Über Nacht stehen lassen",
        "Macerare due giorni sul bancone",
    ] {
        assert_eq!(days(&card(warm, CUCUMBER), "fridge"), None, "{warm}");
    }
    for cold in ["Steep for 24 h in the fridge.", "Chill, and steep 12 hours."] {
        assert_eq!(days(&card(cold, CUCUMBER), "fridge"), Some(7), "{cold}");
    }
    let strong =
        card("Steep for 3 days, strain.", "vodka = \"1 L\"\ncucumber = { amount = \"100 g\", strained = true }");
    assert!(days(&strong, "fridge").is_some());
}

#[test]
fn what_a_step_puts_in_is_asked_about() {
    let sour = "\"white sugar\" = \"500 g\"\nwater = \"500 g\"\n\"citric acid\" = \"10 g\"";
    assert!(days(&card("Stir.", sour), "fridge") > Some(7));
    // what is stirred in by the gram and stands in no line leaves the card not complete
    assert_eq!(days(&card("Stir in 15 g of baking soda to mellow it.", sour), "fridge"), None);
    let soda = card("Mellow it with baking soda.", sour);
    assert_eq!(days(&soda, "fridge"), Some(7));
    assert!(days(&card("Clean the jug with baking soda.", sour), "fridge") > Some(7));

    let stops = |card: &str, id: &str| dated(card).cautions.iter().any(|c| c.code == id && c.stops());
    let oil = |step: &str| card(step, "\"olive oil\" = \"500 ml\"");
    assert!(stops(&oil("Put raw garlic into the oil."), "oil_infusion"));
    assert!(!stops(&oil("Pour it into a bottle."), "oil_infusion"));

    let spirit = "vodka = \"700 ml\"\nwater = \"200 g\"\ncinnamon = { amount = \"10 g\", strained = true }";
    assert!(stops(&card("Simmer the vodka with the spices.", spirit), "hot_spirit"));
    assert!(stops(&card("Simmer for 20 minutes.", "vodka = \"700 ml\"\n\"white sugar\" = \"100 g\""), "hot_spirit"));
    assert!(!stops(&card("Boil the water with the cinnamon, cool and add the vodka.", spirit), "hot_spirit"));
}

#[test]
fn a_line_is_one_thing() {
    let open = |line: &str| !dated(&format!("name = \"x\"\n[parts]\n{line}\n")).unidentified.is_empty();
    assert!(open("\"almond milk\" = { of = \"water\", amount = \"500 g\" }"));
    assert!(open("\"chicken stock\" = { of = \"vodka\", amount = \"500 ml\" }"));
    for one in [
        "\"ice water\" = { of = \"water\", amount = \"500 g\" }",
        "\"house rum\" = { of = \"white rum\", amount = \"500 ml\" }",
        "\"lime, pressed\" = { of = \"lime juice\", amount = \"500 g\" }",
    ] {
        assert!(!open(one), "{one}");
    }
    let kept = "[ingredient.\"jus de navet\"]\nlike = \"salt\"\nallergens = []\n";
    let made = kitchen(kept).solve("name = \"x\"\n[parts]\n\"jus de navet\" = \"300 g\"\n", &Options::default());
    assert!(!made.dated(200).unidentified.is_empty());
}

/// A part of the house that was past its own date on the day it went in is refused (dates.md, C2).
#[test]
fn a_part_past_its_date_does_not_go_in() {
    let kitchen = kitchen("");
    kitchen.write(
        "basil.toml",
        "name = \"Basil syrup\"\n[parts]\nwater = \"500 g\"\n\"white sugar\" = \"500 g\"\nbasil = { amount = \"30 g\", strained \
         = true }\n",
    );
    let made =
        kitchen.solve("name = \"x\"\n[parts]\n\"Basil syrup\" = \"100 g\"\nvodka = \"500 ml\"\n", &Options::default());
    let with_part_of = |days_before: u64| {
        let day = wednesday() - chrono::Days::new(days_before);
        let lot = Lot { oldest_part: Some(day), ..Lot::from(wednesday()) };
        assessment::assess(made.solved(), &made.house, lot, Which::All, Draws { draws: 200, ..Draws::default() }).0
    };
    assert!(at(&with_part_of(2), "fridge").date.is_some());
    let past = with_part_of(15);
    assert!(at(&past, "fridge").date.is_none());
    assert!(at(&past, "fridge").refused[0].to_string().contains("past its date on the day it went in"));
}

/// A yeast in a sweet bottle of closed glass: while nobody says that it is not left to work, there is no date.
#[test]
fn a_yeast_that_goes_in_stops_until_somebody_speaks() {
    let larder = "[ingredient.\"Bierhefe\"]\nlike = \"white sugar\"\nfood = \"sold as food, label\"\nallergens = []\n";
    let mead = "name = \"x\"\n[parts]\nhoney = \"500 g\"\nwater = \"1 kg\"\nBierhefe = \"5 g\"\n[keep]\nclosed = true\nin = \"glass\"\n";
    let dated = kitchen(larder).solve(mead, &Options::default()).dated(200);
    assert!(dated.cautions.iter().any(|c| c.code == "gas_burst" && c.stops()));
    assert!(dated.stores.iter().all(|store| store.date.is_none()));
}

/// A drink of which a part is refused in every store stands on the menu with the reason first, and the verb fails.
#[test]
fn a_menu_says_what_is_not_to_be_served() {
    let kitchen = kitchen("");
    kitchen.write(
        "water.toml",
        &format!(
            "name = \"Warm water\"\n[[stage]]\nname = \"tea\"\ntakes = \"24 h\"\nat = \"40 °C\"\n[stage.parts]\n{CUCUMBER}\n\
             [parts]\ntea = \"1 kg\"\n"
        ),
    );
    kitchen.write(
        "highball.toml",
        "name = \"Highball\"\nhow = \"built\"\nsteps = [\"x\"]\n[ice]\ngrams = \"100 g\"\n[parts]\nvodka = \"50 ml\"\n\"Warm \
         water\" = \"100 ml\"\n",
    );
    kitchen.write("menu.toml", "[drink.Highball]\nprice = \"10 GBP\"\n");
    let menu =
        Command::new(env!("CARGO_BIN_EXE_stillroom")).arg("menu").current_dir(kitchen.folder()).output().unwrap();
    let said = String::from_utf8(menu.stdout).unwrap();
    assert!(said.starts_with("STOP, Highball: Warm water, which goes in: stood 24 h"), "{said}");
    assert_eq!(menu.status.code(), Some(1));
}

/// A question of a key leaves the card not complete as one of a part does, and speaks of no allergen.
#[test]
fn a_question_of_a_key_is_open_too() {
    let asked = |key: &str| format!("name = \"x\"\n{key}\n[parts]\nwater = \"500 g\"\n\"white sugar\" = \"500 g\"\n");
    for key in ["# ? heated = \"85 °C\": was all of it so hot?", "takes = \"3 h\"  # ? how cold does it stand?"] {
        let dated = dated(&asked(key));
        assert_eq!(dated.unidentified.len(), 1, "{key}");
        assert!(dated.stores.iter().all(|store| store.date.is_none()), "{key}");
        assert!(dated.allergens_open.is_empty(), "{key}: {:?}", dated.allergens_open);
    }
    assert!(dated(&asked("# heated how?")).unidentified.is_empty());
}

/// The butter is warmed, and the rum that it goes into is not: what a step leaves open the card can say.
#[test]
fn what_is_said_not_to_be_heated_is_not() {
    let wash = |said: &str| {
        let parts = "\"aged rum\" = \"1 L\"\nbutter = { amount = \"100 g\", strained = true }";
        let card = card("Heat gently until brown. Strain off the fat.", parts);
        card.replace("[parts]", &format!("washed = \"fat\"\ntakes = \"4 h\"\n{said}\n[parts]"))
    };
    assert_eq!(days(&wash(""), "fridge"), None);
    assert!(days(&wash("heated = \"no\""), "fridge").is_some());
}

/// The key of the pan says hot, and the steps put the juice in once it is cool: it is as raw as it was.
#[test]
fn what_goes_in_behind_the_heat_is_not_heated() {
    let cordial = |steps: &str| {
        format!(
            "name = \"x\"\nheated = \"85 °C for 5 min\"\nsteps = [{steps}]\n[parts]\n\"white sugar\" = \"400 g\"\nwater = \"200 g\"\n\
             \"lemon juice\" = \"300 ml\"\n[keep]\nfill = \"hot\"\nclosed = true\n"
        )
    };
    let is_raw = |steps: &str| {
        let dated = dated(&cordial(steps));
        let told = dated.cautions.iter().any(|caution| caution.code == "raw_juice");
        assert_eq!(told, dated.product.raw_juice > 0.0, "{steps}");
        (told, at(&dated, "fridge").days)
    };
    for behind in [
        "\"Heat the sugar and the water to 85 °C for 5 minutes.\", \"Cool, then add the lemon juice.\"",
        "\"Zucker und Wasser erhitzen, abkühlen.\", \"Den Juice zugeben, abfüllen.\"",
        "\"Hold sugar and water at 85 °C for 5 min\", \"off the heat stir in the juice\"",
    ] {
        let (raw, days) = is_raw(behind);
        assert!(raw && days.is_some_and(|days| days <= 14), "{behind}: {days:?}");
    }
    for hot in [
        "\"Heat everything to 85 °C for 5 minutes.\", \"Fill the lemon juice cordial hot.\"",
        "\"Stir sugar, water and juice, heat to 85 °C for 5 min, fill.\"",
        "\"Warm water and sugar.\", \"Add the juice.\", \"Bring to 85 °C for 5 min, fill hot.\"",
        "\"Fill hot.\"",
        "\"Boil the water with the sugar, the peel and the juice for 5 minutes.\", \"Fill.\"",
    ] {
        assert!(!is_raw(hot).0, "{hot}");
    }
}

/// The peel of a stage bears the name of the fruit too, and is not the juice that goes in once it is cool.
#[test]
fn the_peel_of_a_stage_is_not_the_juice_of_the_card() {
    let water = "name = \"x\"\nheated = \"98 °C for 30 min\"\nsteps = [\"Simmer the barley in the water for half an hour with the lemon \
                 peel.\", \"Strain, stir in the sugar and let it cool.\", \"Add the lemon juice and bottle.\"]\n[[stage]]\nname = \"barley \
                 water\"\nheated = \"98 °C for 30 min\"\n[stage.parts]\n\"pearl barley\" = { amount = \"150 g\", strained = true }\nwater = \
                 \"2 kg\"\n\"lemon peel\" = { amount = \"20 g\", strained = true }\n[parts]\n\"barley water\" = \"all\"\n\
                 \"white sugar\" = \"250 g\"\n\"lemon juice\" = \"120 g\"\n";
    let dated = dated(water);
    assert!(dated.product.raw_juice > 0.0 && dated.cautions.iter().any(|caution| caution.code == "raw_juice"));
}

/// A wine that its maker may have cleared with milk holds a trace of an allergen, and no milk.
#[test]
fn what_a_wine_was_cleared_with_is_no_milk_in_it() {
    let vermouth =
        "name = \"x\"\n[parts]\n\"white wine\" = \"750 ml\"\nvodka = \"150 ml\"\n\"white sugar\" = \"120 g\"\n";
    let outer = format!("name = \"y\"\n[parts]\nx = \"500 ml\"\n{}", "gin = \"100 ml\"\n");
    let kitchen = kitchen("");
    kitchen.write("x.toml", vermouth);
    for card in [vermouth, outer.as_str()] {
        let dated = kitchen.solve(card, &Options::default()).dated(2_000);
        assert_eq!(dated.product.contents.dairy, None);
        assert!(at(&dated, "fridge").days.is_some_and(|days| days > 30), "{:?}", at(&dated, "fridge").days);
        assert!(!dated.allergens_doubted.is_empty(), "its label is still to be read");
    }
    let milk = dated(&vermouth.replace("\"white sugar\"", "\"whole milk\" = \"50 ml\"\n\"white sugar\""));
    assert!(milk.product.contents.dairy.is_some());
}

/// The butter of a wash is warm, and none of the rum.
#[test]
fn warm_fat_or_a_warm_jar_heats_no_spirit() {
    let wash = |step: &str| {
        card(step, "\"aged rum 40 %\" = \"700 ml\"\n\"brown butter\" = { amount = \"120 g\", strained = true }")
    };
    for step in [
        "Stir warm butter in, a night in the freezer, lift the fat off, filter.",
        "Warm the butter until liquid, off the heat add the rum, freeze, filter.",
        "Warm the jar before filling.",
    ] {
        assert!(!dated(&wash(step)).stopped(), "{step}");
    }
    for step in ["Warm gently, then freeze, filter.", "Warm the rum with the butter, freeze, filter."] {
        assert!(dated(&wash(step)).stopped(), "{step}");
    }
}

/// Hot water in an empty jar heats no spirit, and a ladle that skims brings no milk.
#[test]
fn a_scalded_jar_heats_no_spirit() {
    let spirit = "\"vodka 40 %\" = \"500 ml\"\n\"white sugar\" = \"100 g\"";
    for step in [
        "Scald the jar with boiling water and let it dry.",
        "Flaschen mit kochendem Wasser ausspülen.",
        "Gläser mit kochendem Wasser ausspülen.",
        "Rincer les bouteilles à l'eau bouillante.",
        "Stérilisez le bocal à l'eau bouillante.",
        "Enjuagar las botellas con agua hirviendo.",
        "Sciacquare le bottiglie con acqua bollente.",
        "Sterilise the tools in boiling water.",
    ] {
        assert!(!dated(&card(step, spirit)).stopped(), "{step}");
    }
    for step in ["Scald the vodka in the pan, boil.", "Scald the jar and boil the vodka in it.", "Hervir el vodka."] {
        assert!(dated(&card(step, spirit)).stopped(), "{step}");
    }
    let cordial = "\"white sugar\" = \"500 g\"\nwater = \"300 g\"\n\"lemon juice\" = \"200 g\"";
    let skimmed = |step: &str| days(&card(step, cordial), "fridge");
    assert_eq!(skimmed("Skim with a ladle."), skimmed("Stir."));
    assert_ne!(skimmed("Top up with skim."), skimmed("Stir."));
}
