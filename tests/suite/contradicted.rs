//! Where a key of a card is kind and its steps say otherwise: it is asked, or what keeps it worse counts. And crystals keep nothing.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::crystals::over_saturated;
use stillroom::diagnostic::Code;
use stillroom::solver::Options;

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\ncellar = \"12 °C\"\n\
                     \"back bar\" = \"21 °C\"\n";

const CORDIAL: &str = "\"lime juice\" = \"300 ml\"\n\"white sugar\" = \"300 g\"\nwater = \"300 g\"\n";
const HOT: &str = "fill = \"hot\"\nclosed = true\nin = \"glass\"\n";
const COLD: &str = "fill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const HEATED: &str = "heated = \"90 °C for 10 min\"\n";
const PUNCH: &str = "\"white rum\" = \"500 ml\"\n\"lemon juice\" = \"150 ml\"\n\"white sugar\" = \"150 g\"\nwater = \"300 g\"\n\
                     milk = { amount = \"250 g\", strained = true, holds = 0.5 }\n";
const BUTTER_RUM: &str = "\"white rum\" = \"700 ml\"\nbutter = { amount = \"100 g\", strained = true, holds = 0 }\n";
const MINT_WATER: &str =
    "mint = { amount = \"20 g\", strained = true }\nwater = \"500 g\"\n\"white sugar\" = \"100 g\"\n";
const SYRUP: &str = "\"white sugar\" = \"660 g\"\nwater = \"340 g\"\n";

fn kitchen() -> Kitchen {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    kitchen
}

fn card(keys: &str, step: &str, parts: &str, keep: &str) -> String {
    format!("name = \"x\"\n{keys}steps = [\"{step}\"]\n[parts]\n{parts}[keep]\n{keep}")
}

/// What the card asks, and its days in the fridge.
fn asks(card: &str) -> (Vec<String>, Option<u32>) {
    let judged = kitchen().solve(card, &Options::default()).dated(100);
    let asked = judged.unidentified.iter().map(|question| question.question.clone()).collect();
    (asked, at(&judged, "fridge").days)
}

/// Each of these steps, parted by `|`, is asked about and leaves no date.
#[track_caller]
fn all_ask(keys: &str, steps: &str, parts: &str, keep: &str) {
    let is_silent = |step: &&str| {
        let (asked, days) = asks(&card(keys, step, parts, keep));
        asked.is_empty() || days.is_some()
    };
    let silent: Vec<&str> = steps.split('|').filter(is_silent).collect();
    assert!(silent.is_empty(), "{silent:#?}");
}

/// None of these is.
#[track_caller]
fn none_asks(keys: &str, steps: &str, parts: &str, keep: &str) {
    for step in steps.split('|') {
        let (asked, days) = asks(&card(keys, step, parts, keep));
        assert!(asked.is_empty() && days.is_some(), "{step}: {asked:?} {days:?}");
    }
}

#[test]
fn a_lower_heat_or_none_beside_heated_is_asked() {
    all_ask(
        HEATED,
        "Warm gently to 60 °C only.|Nur auf 60 °C erwärmen.|Ne pas dépasser 60 °C.|No pasar de 60 °C.|Non superare i 60 °C.|\
         Heat to 90 °C and take it straight off.|Cold process.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Heat to 90 °C, hold for 10 min.|Warm to 60 °C to dissolve, then heat to 90 °C for 10 min.|Simmer gently, bottle hot.|\
         Heat to 90 °C, cool to 70 °C, bottle hot.",
        CORDIAL,
        HOT,
    );
}

#[test]
fn a_hot_fill_that_the_steps_let_cool_is_asked() {
    all_ask(
        HEATED,
        "Fill cold.|Kalt abfüllen.|Mettre en bouteille à froid.|Embotellar en frío.|Imbottigliare a freddo.|\
         Leave the bottles open overnight.|Flaschen über Nacht offen stehen lassen.|Laisser les bouteilles ouvertes la nuit.|\
         Dejar las botellas abiertas toda la noche.|Lasciare le bottiglie aperte tutta la notte.|\
         Chill in an ice bath, then bottle.|Im Eisbad abkühlen, dann abfüllen.|\
         Heat, cool overnight, fill into bottles next day.|Scaldare, lasciare raffreddare tutta la notte e imbottigliare.|\
         Refill bottles that were not washed.|Put a fresh mint sprig in each bottle.|In jede Flasche einen Minzzweig geben.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Never fill cold.|Heat, fill hot, close, let cool.|Cool the bottles in an ice bath.|Fill hot into each bottle.|\
         Heiß abfüllen, verschließen, abkühlen lassen.|Cool, reheat to 90 °C, bottle hot.|\
         Pour it hot, leaving some headspace in each bottle.|In jeder Flasche etwas Luft lassen.|Remplir à chaud, laisser refroidir.",
        CORDIAL,
        HOT,
    );
}

#[test]
fn a_bottle_that_is_filled_once_cold_or_the_next_day_is_asked() {
    all_ask(
        HEATED,
        "Cool to room temperature before bottling.|Bottle once cold.|Fill when hand-warm.|Heat to 90 °C. Cool to 25 °C, bottle.|\
         Handwarm abfüllen.|Lauwarm einfüllen.|Erst am nächsten Tag abfüllen.|Laisser tiédir puis mettre en bouteille.|\
         Embouteiller le lendemain.|Dejar templar y embotellar.|Embotellar al día siguiente.|\
         Lasciare intiepidire e imbottigliare.|Imbottigliare il giorno dopo.|Cover with a cloth, close tomorrow.|\
         Erst morgen verschließen.|Ne boucher que demain.|Une rondelle de citron vert par bouteille.|\
         Reuse the empties from the bar as they are.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Bottle and keep cold.|Bottle hot and keep cold.|Cool for 5 minutes, bottle.|Fill hot. Label the bottles the next day.|\
         Infuse in the fridge; the next day strain, heat to 90 °C, hold 10 min and fill hot.|Open a bottle the next day and taste.|\
         Heiß abfüllen, verschließen. Am nächsten Tag etikettieren.|Calentar a 90 °C, embotellar caliente y dejar enfriar.|\
         Off the heat, skim, pour into hot bottles, close.",
        CORDIAL,
        HOT,
    );
}

#[test]
fn juice_that_goes_in_cold_or_of_which_nothing_is_heated_is_asked() {
    all_ask(
        HEATED,
        "Off the heat, add the juice.|Take it off the hob and stir the lime juice in last.|Agregar el zumo cuando esté frío.|\
         Unire il succo a freddo.|Syrup first; juice goes in cold.|Only the sugar and water are heated.|Nur Zucker und Wasser erhitzen.|\
         Chauffer uniquement l'eau et le sucre.|Just warm it, do not cook.|Nur lauwarm rühren.|Blend raw and fine-strain.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Strain the juice at the end.|Den Saft am Ende abseihen.|Heat, fill hot, finish with a label.|Top up with water, heat to 90 °C.|\
         Juice last, cold, then heat all to 90 °C.|The juice stays cold until it is pressed, then heat to 90 °C.|Juice, sugar, water.|\
         Heat only to 90 °C, skim the syrup.|\
         Add the juice cold, heat all to 90 °C for 10 minutes, fill hot.|Only heat to 90 °C, never boil.|Nur bis 90 °C erhitzen.|\
         Off the heat, add the juice, then heat again to 90 °C.",
        CORDIAL,
        HOT,
    );
}

#[test]
fn juice_that_goes_in_behind_the_heat_is_asked() {
    all_ask(
        HEATED,
        "Stir in fresh lime juice at the end.|Zum Schluss frischen Limettensaft einrühren.|\
         Ajouter du jus de citron vert frais à la fin.|Al final añadir zumo de lima fresco.|Alla fine unire succo di lime fresco.|\
         Abkühlen lassen, dann den Saft dazugeben.|Laisser refroidir, puis ajouter le jus.",
        CORDIAL,
        COLD,
    );
    none_asks(HEATED, "Stir all, heat, cool, bottle.|Stir the juice in, simmer, strain at the end.", CORDIAL, COLD);
    // under the name of its line it is dated as not heated
    let named = card(HEATED, "Heat the white sugar and the water. Cool, then add the lime juice.", CORDIAL, COLD);
    let (asked, days) = asks(&named);
    assert!(asked.is_empty() && days.is_some_and(|days| days < 20), "{asked:?} {days:?}");
}

#[test]
fn a_wash_that_the_steps_leave_in_is_asked() {
    let milk = "class = \"milk punch\"\nwashed = \"milk\"\n";
    all_ask(
        milk,
        "Do not strain, it is creamy.|Nicht abseihen, es bleibt cremig.|Ne pas filtrer.|No colar, queda cremoso.|Non filtrare.|\
         Stir in cream at the end.|Top with a spoon of the curd.",
        PUNCH,
        COLD,
    );
    none_asks(
        milk,
        "Let it curdle and strain clear.|Pour into the milk, do not filter until it has curdled.|Add the milk, strain off the curd.",
        PUNCH,
        COLD,
    );
    let fat = "washed = \"fat\"\n";
    all_ask(
        fat,
        "Leave the butter in.|Die Butter bleibt drin.|Laisser le beurre dedans.|Shake the butter up again.",
        BUTTER_RUM,
        COLD,
    );
    none_asks(fat, "Leave the butter in the rum overnight, freeze, lift the fat off.", BUTTER_RUM, COLD);
}

/// Butter that a spirit is strained from is lifted off whatever the card calls it; of strained milk the word is asked for by its key.
#[test]
fn a_wash_that_no_key_names_is_found_or_asked() {
    let kitchen = kitchen();
    let rum = kitchen.makes(&format!("name = \"x\"\n[parts]\n{BUTTER_RUM}")).dated(200);
    let washed = kitchen.makes(&format!("name = \"x\"\nwashed = \"fat\"\n[parts]\n{BUTTER_RUM}")).dated(200);
    assert_eq!(at(&rum, "fridge").days, at(&washed, "fridge").days);
    assert!(at(&rum, "fridge").days.is_some_and(|days| days > 100), "{:?}", at(&rum, "fridge").days);
    let punch = kitchen.makes(&format!("name = \"x\"\nclass = \"milk punch\"\n[parts]\n{PUNCH}"));
    let asked = punch.sheet_and_found().1.iter().filter_map(|d| d.help.clone()).collect::<String>();
    assert!(asked.contains("washed = \"milk\" on the card"), "{asked}");
}

#[test]
fn as_much_water_again_is_asked_how_much() {
    all_ask(
        "",
        "Dilute with as much water again before bottling.|Allonger de moitié avec de l'eau.|Rebajar con agua a partes iguales.|\
         Allungare con acqua in parti uguali.|Vor dem Abfüllen mit der gleichen Menge Wasser verdünnen.",
        SYRUP,
        COLD,
    );
    none_asks(
        "",
        "Stir the sugar into the water.|Dilute with as much water to serve.|Never dilute with water.",
        SYRUP,
        COLD,
    );
}

/// No verb, a squeeze on top, or what is left raw.
#[test]
fn juice_that_goes_in_last_without_a_verb_is_asked() {
    all_ask(
        HEATED,
        "Juice last, cold.|Den Saft zum Schluss kalt.|Le jus à la fin, à froid.|El zumo al final, en frío.|Il succo alla fine, a freddo.|\
         Au dernier moment, le jus.|Add the lime juice last.|Finish with a squeeze of fresh lime.|\
         Finish with fresh lime.|Top up with raw juice.|Zum Schluss mit rohem Saft auffüllen.|Compléter avec du jus cru.|\
         Completar con zumo crudo.|Completare con succo crudo.|El zumo se echa frío.|Il succo va dentro da freddo.|\
         Only the syrup is boiled, the juice stays raw.|Nur der Sirup wird gekocht.|Seul le sirop est chauffé, le jus reste cru.|\
         Solo el almíbar se hierve.|Si scalda solo lo zucchero, il succo resta crudo.|The juice is left raw.|\
         Half the juice goes in after the fire is out.|Wenn das Feuer aus ist, den Saft dazugeben.|\
         Pour through the bar sieve into the bottles when lukewarm.|\
         Mix; the lime goes in raw.|Syrup hot, lime cold, bottle.|Sirup heiß, Saft roh, abfüllen.|Le citron vert cru pour finir.|\
         Lima cruda al final.|Lime crudo alla fine.|Ne chauffer que l'eau.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Squeeze the lime, heat, bottle hot.|Lime, sugar, water: all in the pan, heat to 90 °C.",
        CORDIAL,
        HOT,
    );
}

/// Cold water that nobody heated comes into it.
#[test]
fn ice_in_what_is_filled_hot_is_asked() {
    all_ask(
        HEATED,
        "Bottle with ice.|Add ice to bring it down, then bottle.|Mit Eis herunterkühlen, abfüllen.|\
         Refroidir avec des glaçons, mettre en bouteille.|Enfriar con hielo, embotellar.|Raffreddare con ghiaccio, imbottigliare.|\
         Into bottles straight from the rack, unwashed.",
        CORDIAL,
        HOT,
    );
    none_asks(
        HEATED,
        "Bottle hot, then cool the bottles in a bath with ice.|Bottle hot. Serve with ice.",
        CORDIAL,
        HOT,
    );
}

/// Three days on the bar in water are refused, whatever `takes` and `at` say; two hours there beside a night in the fridge are not.
#[test]
fn the_warmer_and_longer_of_key_and_step_counts() {
    for keys in ["takes = \"1 h\"\n", "takes = \"72 h\"\nat = \"4 °C\"\n"] {
        for step in [
            "Steep on the bar for three days.",
            "Drei Tage bei Zimmertemperatur ziehen lassen.",
            "Laisser infuser trois jours à température ambiante.",
            "Dejar infusionar tres días a temperatura ambiente.",
            "Lasciare in infusione tre giorni a temperatura ambiente.",
        ] {
            assert_eq!(asks(&card(keys, step, MINT_WATER, COLD)).1, None, "{keys}{step}");
        }
    }
    let cold = "takes = \"72 h\"\nat = \"4 °C\"\n";
    assert_eq!(asks(&card(cold, "Steep at 21 °C.", MINT_WATER, COLD)).1, None);
    assert!(asks(&card(cold, "Steep in the fridge for three days.", MINT_WATER, COLD)).1.is_some());
    let both = "Steep 2 h at room temperature. Then overnight in the fridge.";
    assert!(asks(&card("takes = \"14 h\"\nat = \"4 °C\"\n", both, MINT_WATER, COLD)).1.is_some());
    for step in ["Leave covered three days, strain.", "Leave for a long weekend.", "Über das Wochenende stehen lassen."]
    {
        assert_eq!(asks(&card("", step, MINT_WATER, COLD)).1, None, "{step}");
    }
}

/// Saturated at 66.7 °Bx at 20 °C (tests/reference/sugar-solubility-sucrose.csv): more sugar than that lies at the bottom and keeps
/// nothing.
#[test]
fn sugar_and_salt_that_cannot_dissolve_keep_nothing() {
    let days = |sugar: u32| {
        let parts = format!("\"white sugar\" = \"{sugar} g\"\nwater = \"{} g\"\n", 1000 - sugar);
        let made = kitchen().solve(&card("", "Stir.", &parts, COLD), &Options::default());
        let judged = made.dated(2_000);
        let told = over_saturated(made.solved().bottled()).map(|found| found.code);
        let is_told = told == Some(Code::OverSaturated);
        let aw = judged.product.aw.unwrap();
        (at(&judged, "cellar").days.unwrap(), at(&judged, "back bar").days.unwrap(), aw, is_told)
    };
    let (full, more) = (days(667), days(900));
    assert_eq!((full.0, full.1), (more.0, more.1));
    assert!((full.2 - more.2).abs() < 1e-3 && more.2 > 0.85, "{full:?} {more:?}");
    assert!(!full.3 && more.3);
    let salt = |grams: u32| {
        let parts = format!("salt = \"{grams} g\"\nwater = \"100 g\"\n");
        kitchen().solve(&card("", "Stir.", &parts, COLD), &Options::default()).dated(100).product
    };
    assert!((salt(36).aw.unwrap() - salt(80).aw.unwrap()).abs() < 1e-3);
    assert!(salt(80).salt_pct < 27.0);
}

/// What is told of a dose, a vessel and a guest as well.
#[test]
fn a_dose_that_passes_what_a_body_bears_has_no_label() {
    let kitchen = kitchen();
    let nutmeg = |grams: u32| {
        let parts = format!("vodka = \"500 ml\"\n\"white sugar\" = \"100 g\"\nnutmeg = \"{grams} g\"\n");
        kitchen.write("mix.toml", &card("serving = \"25 ml\"\n", "Mix, strain and bottle.", &parts, COLD));
        kitchen.run(&["label", "mix.toml", "--made", "2026-11-25"])
    };
    let (code, _, said) = nutmeg(60);
    assert!(code == Some(1) && said.contains("a serving may hold more nutmeg than it should"), "{code:?} {said}");
    let (code, page, said) = nutmeg(2);
    assert!(code == Some(0) && page.contains("BEST BEFORE"), "{code:?} {page}{said}");
}

#[test]
fn egg_of_an_unknown_name_may_be_raw_and_dry_ice_may_reach_a_guest() {
    let base = "[ingredient.\"yellow base\"]\nper_100g = { water = 50, fat = 27, protein = 16, insoluble = 7 }\nform = \"liquid\"\n\
                food = \"sold as food, label\"\nallergens = [\"egg\"]\n";
    let dated = |larder: &str, rest: &str, part: &str| {
        let kitchen = Kitchen::unstated(larder);
        kitchen.write("house.toml", HOUSE);
        let parts = format!("vodka = \"500 ml\"\n\"white sugar\" = \"100 g\"\n{part}");
        kitchen.solve(&card(rest, "Mix.", &parts, COLD), &Options::default()).dated(100)
    };
    let egg = dated(base, "", "\"yellow base\" = \"200 g\"\n");
    assert!(egg.cautions.iter().any(|caution| caution.code == "raw_egg") && at(&egg, "fridge").days.is_none());
    let named = base.replace("yellow base", "pasteurised yellow base");
    assert!(at(&dated(&named, "", "\"pasteurised yellow base\" = \"200 g\"\n"), "fridge").days.is_some());
    let ice = dated("", "for_a_guest = \"pour 50 ml, drop in a pellet of dry ice\"\n", "");
    assert!(ice.cautions.iter().any(|caution| caution.code == "cryogen"), "{:?}", ice.cautions);
}

/// 60 g of potassium chloride in 300 ml look like any saline; 3 g at once harm.
#[test]
fn a_saline_of_potassium_is_asked_how_much_is_served() {
    let salt = "[ingredient.\"potassium chloride\"]\nlike = \"salt\"\nfood = \"food grade, label\"\nallergens = []\n";
    let dated = |serving: &str, of: &str| {
        let kitchen = Kitchen::unstated(salt);
        kitchen.write("house.toml", HOUSE);
        let parts = format!("\"{of}\" = \"60 g\"\nwater = \"300 g\"\n");
        let judged = kitchen.solve(&card(serving, "Stir.", &parts, COLD), &Options::default()).dated(100);
        at(&judged, "fridge").days.is_some()
    };
    assert!(!dated("", "potassium chloride"));
    assert!(!dated("serving = \"30 ml\"\n", "potassium chloride"));
    assert!(dated("serving = \"2 ml\"\n", "potassium chloride") && dated("", "salt"));
}

/// What goes to the rest of the last batch is as old as that, and nobody says how old that is.
#[test]
fn what_is_topped_up_is_as_old_as_what_was_in_it() {
    let old = "Stir, then add to what is left of the last batch.|Top up the old bottle with the new batch.|Top up the jar with fresh \
               syrup.|Mix with the rest of the old syrup.|Pour the new syrup on a third of the old one, solera style.|Den Rest der \
               letzten Charge zugeben.|Die Flasche mit dem Rest vom alten Sirup auffüllen.|Die angebrochene Flasche nachfüllen.|Ajouter \
               au reste du lot précédent.|Compléter le bocal avec le nouveau sirop.|Mélanger avec le reste de l'ancien \
               sirop.|Añadir al resto del lote anterior.|Rellenar la botella vieja con el jarabe nuevo.|Aggiungere a quello che \
               resta dell'ultimo lotto.|Rabboccare la bottiglia con il nuovo sciroppo.";
    all_ask("", old, SYRUP, COLD);
    let own = "Throw away what is left of the last batch, then stir.|Use up the last batch first.|Never add to what is left of the \
               last batch.|Stir and pour into a clean bottle.|In eine saubere Flasche füllen.|Verser dans une bouteille \
               propre.|Label it with the day of the new batch.|Compare its colour with the last batch.";
    none_asks("", own, SYRUP, COLD);
}

#[test]
fn what_is_past_its_date_makes_nothing_that_is_in_date() {
    let old = "Use the opened syrup from last week.|Use up the expired sugar syrup.|Stir in what is past its date.|Den abgelaufenen Sirup \
               aufbrauchen.|Utiliser le sirop périmé.|Aprovechar el jarabe caducado.|Usare lo sciroppo scaduto.";
    all_ask("", old, SYRUP, COLD);
    let own = "Throw the bottle away when it is past its date.|Stir until clear.|Leave it for two weeks in the fridge.|Never use a syrup \
               that is out of date.|Write the date on it, it keeps a week.";
    none_asks("", own, SYRUP, COLD);
}
