//! What the sentences of a method tell, one by one: what is heated, what goes in, what is done, how long something stands, how
//! long it simmers. Each is read through a card that hangs on it.

use std::collections::BTreeSet;

use crate::kitchen::{Kitchen, Made, close};
use stillroom::assessment::{Assessment, facts};
use stillroom::card::TargetKind;
use stillroom::safety::{Facts, Members};
use stillroom::shelf_life::StageWarmth;
use stillroom::solver::Options;
use stillroom::vocabulary::{Allergen, Process, Tag};

/// What a step that names no place stands at, °C.
const ROOM_C: f64 = 21.0;

fn made(card: &str) -> Made {
    Kitchen::unstated("").solve(card, &Options::default())
}

fn assessed(card: &str) -> Assessment {
    made(card).dated(1)
}

/// A card of one pan with one step.
fn card(above: &str, step: &str, parts: &str) -> String {
    format!("name = \"x\"\n{above}\nsteps = [\"{step}\"]\n[parts]\n{parts}\n")
}

/// Whether it is asked how hot the spirit of this pan gets.
fn heats(step: &str, parts: &str) -> bool {
    let cautions = assessed(&card("", step, parts)).cautions;
    cautions.iter().any(|caution| caution.not_stated.iter().any(|asked| asked.contains("heats it, and how hot")))
}

/// Vodka beside another liquid is heated by its name alone.
#[test]
fn what_is_heated_is_the_thing_of_the_verb() {
    let of_vodka = |step| heats(step, "vodka = \"500 ml\"\nwater = \"500 ml\"\n\"white sugar\" = \"100 g\"");
    assert!(of_vodka("Simmer the vodka with the spices over an open flame"));
    assert!(of_vodka("Gently stir, warm the vodka on the hob"));
    for other in ["Boil the water and add the vodka", "Do not heat the vodka", "Boil the sugar, cool, then the vodka"] {
        assert!(!of_vodka(other), "{other}");
    }
}

/// Rum alone with butter is heated by whatever does not name the butter.
#[test]
fn what_warms_the_butter_warms_none_of_the_rum() {
    let of_rum = |step| heats(step, "\"white rum\" = \"500 ml\"\nbutter = \"100 g\"");
    for other in [
        "Stir warm butter in, a night in the freezer",
        "Warm the butter until liquid, off the heat add the rum",
        "Warm the jar before filling",
    ] {
        assert!(!of_rum(other), "{other}");
    }
    assert!(of_rum("Warm gently, then freeze"));
    assert!(heats("Warm it with the butter gone", "\"white rum\" = \"500 ml\"\n\"white sugar\" = \"100 g\""));
}

fn is_asked(above: &str, below: &str, step: &str, question: &str) -> bool {
    let text = card(above, step, &format!("water = \"1 kg\"\n\"white sugar\" = \"500 g\"\n{below}"));
    assessed(&text).unidentified.iter().any(|asked| asked.question.contains(question))
}

/// Of a third of the water that is gone some step has to tell.
#[test]
fn what_drives_water_off_is_heard() {
    let is_silent = |step| is_asked("", "[loss]\nevaporated = \"30 %\"", step, "no step boils, reduces or dries");
    for driven in ["Auf dem Gasherd erwärmen", "Reduce by half", "Trocknen lassen"] {
        assert!(!is_silent(driven), "{driven}");
    }
    for none in ["Nicht über Feuer erhitzen", "Leave in a warm place for two weeks", "Stir cold, bottle."] {
        assert!(is_silent(none), "{none}");
    }
}

#[test]
fn a_step_that_denies_all_heat_is_held_against_the_key() {
    let is_denied = |step| is_asked("heated = \"85 °C for 5 min\"", "", step, "and a step says");
    assert!(is_denied("Stir until clear without heat.") && is_denied("Nicht erhitzen"));
    for not in ["Do not heat above 85 °C", "Do not boil", "Take it off the heat", "Heat without a lid"] {
        assert!(!is_denied(not), "{not}");
    }
}

/// What the steps of a spirit tell of it.
fn told(step: &str) -> Facts {
    let made = made(&card("", step, "vodka = \"500 ml\"\n\"white sugar\" = \"150 g\""));
    facts::from_parts(made.solved(), &made.house)
}

fn tags(step: &str) -> BTreeSet<Tag> {
    let Members { present, unsure, .. } = told(step).tags;
    present.union(&unsure).copied().collect()
}

fn done(step: &str) -> BTreeSet<Process> {
    let Members { present, unsure, .. } = told(step).process;
    present.union(&unsure).copied().collect()
}

#[test]
fn what_is_told_is_read() {
    assert!(told("Rim with crushed peanuts").allergens.may_hold(Allergen::Peanut));
    assert!(told("Drop in dry ice and serve").tags.has(Tag::DryIce));
    assert!(told("Force carbonate at 3 bar").process.has(Process::Carbonated));
    assert!(done("Flambé at the table").contains(&Process::Flambe));
    assert!(told("Rest in a lead crystal decanter").tags.has(Tag::LeadContact));
    for step in [
        "Run it through the still twice",
        "Redistiller avec les zestes",
        "Redestilar con las pieles",
        "Ridistillare con le scorze",
        "Couper les têtes et les queues",
        "Testa e coda via, tenere il cuore",
    ] {
        assert!(done(step).contains(&Process::Distil), "{step}");
    }
    for (step, tag) in [
        ("Add 2 g of orange oil", Tag::EssentialOil),
        ("Crush the stones of the cherries", Tag::StoneFruitKernel),
        ("Steep with the leaves of the rhubarb", Tag::ToxicPlant),
        ("Add the crushed kernels from the apricots", Tag::StoneFruitKernel),
        ("Die Kerne der Aprikosen knacken und zugeben", Tag::StoneFruitKernel),
        ("Con los huesos de las cerezas, machacados", Tag::StoneFruitKernel),
        ("Clean the jar with bleach, do not rinse", Tag::NotFood),
        ("Sanitise with meths and fill", Tag::NotFood),
        ("Rinse in line cleaner", Tag::NotFood),
        ("Discard the foxglove when it is soft", Tag::ToxicPlant),
        ("Do not boil the hemlock for long", Tag::ToxicPlant),
    ] {
        assert!(tags(step).contains(&tag), "{step}");
    }
}

#[test]
fn what_is_forbidden_taken_out_or_only_likened_is_not_read() {
    let nothing_told = told("Stir cold, bottle.");
    for nothing in [
        "Keep away from dry ice",
        "Never carbonate it",
        "Do not let it ferment",
        "do not set it alight",
        "Let it stand still above the still water",
        "Serve in a lead-free crystal glass",
        "Freeze in dry, clean trays; add ice",
        "Dry shake over the ice",
        "Vor Trockeneis fernhalten",
        "Discard if it ferments",
        "Champagne yeast is not needed",
        "Discard the yeast when it has fermented",
        "Stone the cherries",
        "Halve and stone the plums",
        "Remove the stones from the cherries",
        "Discard the apricot stones",
        "Die Kerne der Aprikosen entfernen",
        "Quitar los huesos de las cerezas",
        "A walnut-sized piece, as smooth as butter",
        "Until copper-coloured",
        "Mit der digitalen Waage abwiegen",
        "Peser sur la balance digitale",
        "Wash the jars with bleach, rinse twice",
        "Kühl lagern",
        "Porter l'eau à ébullition",
        "Fish out the peel",
        "Strain thru a nut milk bag",
        "Whisk till it looks like cream",
    ] {
        assert_eq!(told(nothing), nothing_told, "{nothing}");
    }
    let charged = told("Charge it in a cream whipper with half the gas").allergens;
    assert_eq!(charged, nothing_told.allergens);
    assert!(!tags("Express the orange oil over the glass").contains(&Tag::EssentialOil));
}

#[test]
fn a_step_tells_that_it_is_kept_in_a_room() {
    let is_kept_warm = |step| done(step).contains(&Process::KeptWarm);
    for kept in [
        "Vacuum-pack and keep on the shelf.",
        "Process the jars, keep in the larder for a year",
        "Einkochen und im Keller lagern",
        "conserver au placard",
        "guardar en la despensa",
        "tenere in dispensa",
        "Keeps in the cupboard for months",
        "store at room temp",
        "Vacuum-seal, back bar",
        "No need to refrigerate",
        "Nicht kühlen",
        "Sin refrigerar",
        "Non serve il frigo",
        "Ungekühlt haltbar",
    ] {
        assert!(is_kept_warm(kept), "{kept}");
    }
    for not in [
        "Keep in the fridge",
        "Keep on the top shelf of the fridge",
        "Do not store at room temperature",
        "Keep at room temperature overnight",
        "Bring to room temperature, keep stirring",
        "Kühl lagern",
        "Do not refrigerate until it has cooled",
        "Do not freeze",
        "Take it from the shelf",
    ] {
        assert!(!is_kept_warm(not), "{not}");
    }
}

/// Where a tea of cucumber stood.
fn stood(step: &str) -> Option<StageWarmth> {
    let tea = card("", step, "water = \"1 kg\"\ncucumber = { amount = \"300 g\", strained = true }");
    assessed(&tea).product.stages.first().copied()
}

#[test]
fn a_step_tells_how_long_it_stands_warm() {
    for (step, hours, t_c) in [
        ("Blend and hold at 45 °C for 24 h.", 24.0, 45.0),
        ("Warm to 45 °C and hold for 24 h", 24.0, 45.0),
        ("Leave overnight on the counter.", 12.0, ROOM_C),
        ("Leave 3 days, strain.", 72.0, ROOM_C),
        ("Pour the water on, leave 3 days in the kitchen, stir.", 72.0, ROOM_C),
        ("Steep 2 days at room temperature, then strain", 48.0, ROOM_C),
        ("Steep for 24 h, then strain", 24.0, ROOM_C),
        ("Warm to 45 °C and strain, steep 24 h", 24.0, ROOM_C),
        ("Über Nacht; 18 h bei Raumtemperatur ziehen lassen", 18.0, ROOM_C),
        ("Auf der Heizung stehen lassen, einen Tag.", 24.0, ROOM_C),
        ("Lasciare vicino al forno per dodici ore.", 12.0, ROOM_C),
        ("Let stand on top of the fridge for three days", 72.0, ROOM_C),
        ("Leave out of the fridge overnight", 12.0, ROOM_C),
        ("Keep at 45° for ten hours.", 10.0, 45.0),
        ("Im Dörrgerät bei 42 Grad neun Stunden.", 9.0, 42.0),
        ("Keep at 104 degrees for 10 hours", 10.0, 40.0),
        ("Keep warm till the evening", 12.0, ROOM_C),
        ("Circulate at 48 for half a day", 12.0, ROOM_C),
    ] {
        let told = stood(step).unwrap_or_else(|| panic!("{step}"));
        close(told.hours, hours, 1e-9);
        close(told.t_c, t_c, 1e-9);
    }
    for nothing in [
        "Leave overnight in the fridge",
        "Leave 3 days in the fridge.",
        "Add the mint leaves 2 days later.",
        "Heat to 50 °C, cool, refrigerate for 24 h",
        "Do not leave it on the counter overnight",
        "Bring to room temperature, then stir",
        "Steep for 24 h. Keep it in the fridge.",
        "Simmer for 24 h",
    ] {
        assert_eq!(stood(nothing), None, "{nothing}");
    }
}

/// How long a pan of syrup simmers, by the question of what it loses.
fn simmers(step: &str) -> Option<String> {
    let made = made(&card("", step, "water = \"1 kg\"\n\"white sugar\" = \"500 g\""));
    let asked = made.found.iter().find_map(|found| found.title.split_once(" min at a simmer or a boil take about"));
    asked.map(|(minutes, _)| minutes.to_owned())
}

/// What `heated` says for the date is the least that a simmer is: the water that steams off is that of a simmer all the same.
#[test]
fn a_heat_for_the_date_takes_nothing_from_what_steams_off() {
    let asked = |keys: &str, step: &str| {
        let text = format!("name = \"T\"\n{keys}\nsteps = [\"{step}\"]\n[parts]\nwater = \"1 kg\"\nsugar = \"500 g\"");
        let found = made(&text).found;
        let asked = found.iter().find_map(|found| found.title.split_once(" of the water, and the card"));
        asked.map(|(range, _)| range.to_owned())
    };
    let simmer = "Boil. Turn down and simmer 30 min.";
    let open = asked("", simmer).unwrap();
    assert_eq!(open, "30 min at a simmer or a boil take about 6 to 18 %");
    assert_eq!(asked("heated = \"85 °C for 30 min\"", simmer).as_ref(), Some(&open));
    assert_eq!(asked("heated = \"85 °C for 30 min\"", "Auf kleiner Flamme 30 Minuten köcheln.").as_ref(), Some(&open));
    assert_eq!(asked("heated = \"85 °C\"", simmer).as_ref(), Some(&open));
    // what is held warm and not simmered steams as warm as that
    assert_eq!(asked("heated = \"85 °C for 30 min\"", "Keep warm.").unwrap(), "30 min at 85 °C take about 2 to 5 %");
}

#[test]
fn a_step_says_how_long_it_simmers() {
    for (step, minutes) in [
        ("Simmer the sticks in the water for 10 minutes.", "10"),
        ("Bring up, simmer gently 1 hour, strain.", "60"),
        ("Simmer for half an hour with the lid off.", "30"),
        ("Simmer it for a quarter of an hour", "15"),
        ("Simmer an hour and a half", "90"),
        ("Simmer for two and a half hours", "150"),
        ("Simmer half an hour", "30"),
        ("Simmer one and a half hours", "90"),
        ("Simmer a day and a half", "2,160"),
        ("Simmer for an hour", "60"),
        ("Simmer, eine Viertelstunde lang", "15"),
        ("Simmer per mezz'ora", "30"),
        ("Boil hard for 20 minutes.", "20"),
        ("Alles aufkochen und 30 Minuten offen köcheln lassen.", "30"),
        ("Porter à ébullition et laisser frémir 30 minutes à découvert.", "30"),
        ("Llevar a ebullición y cocer a fuego lento 30 minutos.", "30"),
        ("Portare a bollore e far sobbollire 30 minuti.", "30"),
        ("Cook over medium heat, mashing the berries, about 12 minutes.", "12"),
    ] {
        assert_eq!(simmers(step).as_deref(), Some(minutes), "{step}");
    }
    for none in [
        "Simmer for half an hour with the lid on.",
        "Warm without simmering. Rest 30 minutes.",
        "Pour on boiling water, 4 minutes, strain.",
        "Aufkochen, dann 30 Minuten ziehen lassen.",
        "Boil, then cool for 20 minutes.",
        "Mit kochendem Wasser 10 Minuten ziehen lassen.",
    ] {
        assert_eq!(simmers(none), None, "{none}");
    }
}

/// Of a range the longer end stands.
#[test]
fn what_takes_from_twelve_to_a_day_takes_a_day() {
    let tea = "name = \"x\"\n[[stage]]\nname = \"tea\"\ntakes = \"12-24 h\"\nat = \"45 °C\"\n[stage.parts]\nwater = \"1 kg\"\n\
               cucumber = { amount = \"300 g\", strained = true }\n[parts]\ntea = \"500 g\"\nvodka = \"500 ml\"\n";
    let stood = assessed(tea).product.stages;
    close(stood[0].hours, 24.0, 1e-9);
}

/// 1 L of stout at the boil, no water lost. By the USDA's retention factors 85 % of the alcohol is left at once, 40 % after a
/// quarter of an hour, 35 % after half an hour and 25 % after an hour, 10 % after two; 15 points less are sure.
#[test]
fn the_longer_it_simmers_the_less_of_its_alcohol_is_sure() {
    let product = |heated: &str| {
        let keys = "[loss]\nevaporated = \"0 %\"";
        assessed(&format!("name = \"x\"\n{heated}\n[parts]\nstout = \"1 L\"\n\"white sugar\" = \"100 g\"\n{keys}\n"))
            .product
    };
    let cold = product("");
    for (minutes, sure) in [("1 s", 0.70), ("15 min", 0.25), ("45 min", 0.15), ("2 h", 0.0), ("100 h", 0.0)] {
        let hot = product(&format!("heated = \"100 °C for {minutes}\""));
        close(1.0 - (hot.abv_doubt - cold.abv_doubt) / cold.abv_pct, sure, 1e-3);
    }
}

/// Half a litre of stout that is left of one was never stronger than the stout: 22 ml of alcohol in 0.82 L at the most.
#[test]
fn what_is_boiled_down_is_no_stronger_than_it_was() {
    let card = "name = \"x\"\nheated = \"100 °C for 30 min\"\nsteps = [\"Boil the stout for 30 minutes, whisk in the \
                sugar.\"]\n[parts]\nstout = \"1 L\"\n\"white sugar\" = \"500 g\"\n[loss]\nevaporated = \"50 %\"\n";
    let kitchen = Kitchen::unstated("");
    kitchen.write("t.toml", card);
    let sheet = kitchen.run(&["solve", "t.toml"]).1;
    assert!(sheet.contains("Is 0 to 2."), "{sheet}");
}

/// What is poured on hot caramel boils up: 500 g of sugar take 10 to 50 g of the 300, 62 to 66 °Bx.
#[test]
fn caramel_takes_water() {
    let card = |step: &str| {
        format!(
            "name = \"x\"\nsteps = [\"{step}\", \"Pour in the hot water.\"]\n[parts]\nsugar = \"500 g\"\nwater = \"300 ml\"\n"
        )
    };
    let doubt = |step: &str| {
        let made = Kitchen::unstated("").solve(&card(step), &Options::default());
        made.sheet().doubt.iter().find(|doubt| doubt.kind == TargetKind::Brix).unwrap().half_width
    };
    for step in [
        "Melt the sugar in a heavy pan until it goes deep amber.",
        "Make a dry caramel of the sugar.",
        "Den Zucker karamellisieren.",
        "Caraméliser le sucre.",
        "Carameliza el azúcar.",
        "Caramellare lo zucchero.",
    ] {
        assert!((2.0..6.0).contains(&doubt(step)), "{step} {:.1}", doubt(step));
    }
    assert!(doubt("Stir the sugar and the water.") < 1.0);
}

/// The lid that a step of the card tells of is on the pan that is a stage of it.
#[test]
fn a_lid_told_above_is_on_the_pan_of_the_stage() {
    let doubt = |step: &str| {
        let card = format!(
            "name = \"x\"\nsteps = [\"{step}\"]\n[[stage]]\nname = \"syrup\"\nheated = \"100 °C for 30 min\"\n[stage.parts]\nsugar = \
             \"500 g\"\nwater = \"500 g\"\n[parts]\nsyrup = \"all\"\nsalt = \"1 g\"\n"
        );
        let made = Kitchen::unstated("").solve(&card, &Options::default());
        made.sheet().doubt.iter().find(|doubt| doubt.kind == TargetKind::Brix).unwrap().half_width
    };
    let (open, covered) = (doubt("Simmer for 30 minutes."), doubt("Simmer for 30 minutes with the lid on."));
    assert!(open > 3.0 && covered < 1.0, "open ± {open:.1}, covered ± {covered:.1}");
}

/// Crushing sets free what the stones of fruit hold: where it was not stoned, by one step or by two.
#[test]
fn fruit_that_is_not_stoned_and_crushed_is_asked_about() {
    let asked = |steps: &str| {
        let parts =
            "cherries = { amount = \"500 g\", strained = true }\nvodka = \"700 ml\"\n\"white sugar\" = \"200 g\"";
        let dated = assessed(&format!("name = \"x\"\nsteps = [{steps}]\n[parts]\n{parts}\n"));
        dated.cautions.iter().any(|caution| caution.code == "kernels")
    };
    for steps in [
        "\"The cherries are not pitted. Crush them.\"",
        "\"Unpitted fruit, blended to a pulp.\"",
        "\"Blend the cherries whole, stones and all, macerate and strain.\"",
        "\"Do not stone the fruit.\", \"Crush all, macerate 4 weeks and strain.\"",
        "\"Nicht entsteinen, alles zerstoßen, 4 Wochen ansetzen, abseihen.\"",
        "\"Kirschen samt Steinen mixen.\"",
        "\"Ne pas dénoyauter, concasser, macérer 4 semaines, filtrer.\"",
        "\"Sin deshuesar, machacar, macerar 4 semanas, colar.\"",
        "\"Non snocciolare, pestare, macerare 4 settimane, filtrare.\"",
    ] {
        assert!(asked(steps), "{steps}");
    }
    for steps in [
        "\"Pit the cherries, crush them, macerate 4 weeks and strain.\"",
        "\"Macerate the whole cherries, not pitted, 4 weeks and strain.\"",
        "\"Kirschen entsteinen und zerstoßen.\"",
        "\"Dénoyauter et écraser les cerises.\"",
        "\"Crush the pitted cherries, not too fine.\"",
        "\"Remove all the stones and crush the fruit.\"",
        "\"Alle Steine entfernen, die Kirschen mixen.\"",
    ] {
        assert!(!asked(steps), "{steps}");
    }
}
