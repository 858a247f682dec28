//! What is sold or used for something else than eating is no food, whatever noun follows; and what a word of a card says that its line
//! says too.

use crate::kitchen::Kitchen;
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const HOUSE: &str = "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n";
const LIQUEUR: &str = "vodka = \"500 ml\"\nsugar = \"100 g\"\nmint = { amount = \"10 g\", strained = true }\n";

fn card(above: &str, parts: &str, larder: &str) -> Assessment {
    let kitchen = Kitchen::unstated(larder);
    kitchen.write("house.toml", HOUSE);
    kitchen.solve(&format!("name = \"T\"\n{above}\n[parts]\n{parts}"), &Options::default()).dated(2_000)
}

fn codes(judged: &Assessment) -> Vec<&'static str> {
    judged.cautions.iter().map(|caution| caution.code).collect()
}

fn of_step(step: &str) -> Vec<&'static str> {
    codes(&card(&format!("steps = [\"{step}\"]"), LIQUEUR, ""))
}

fn has_date(judged: &Assessment) -> bool {
    judged.stores.iter().any(|store| store.date.is_some())
}

#[test]
fn what_is_sold_for_another_use_is_asked_about_in_a_step() {
    for step in [
        "Star anise from the garden centre.",
        "Sternanis aus dem Bastelladen.",
        "Pine cones from the Christmas decorations.",
        "Pétales de roses du fleuriste.",
        "Birdseed, toasted.",
        "Mit Aquariumkohle filtern.",
        "Pool flocculant to clear it.",
        "Filter through kitchen sponge.",
        "Use the cleaning-grade ethanol if the vodka runs out.",
        "Thin with windscreen concentrate.",
        "Age it on creosoted oak chips.",
        "Chiarificare con la colla d'ossa.",
    ] {
        assert!(of_step(step).contains(&"not_food"), "{step}: {:?}", of_step(step));
    }
    for step in ["Age over barrel staves that were painted inside.", "Keep it in the old oil can."] {
        assert!(of_step(step).contains(&"unfit_vessel"), "{step}: {:?}", of_step(step));
    }
    // what cleans a vessel and is rinsed off is at home there
    for step in [
        "Clean the jar with bleach and rinse it.",
        "Stir the oil, it can be skimmed later.",
        "Let it pool on the tray.",
    ] {
        assert!(!of_step(step).contains(&"not_food"), "{step}: {:?}", of_step(step));
    }
}

#[test]
fn a_powder_of_no_label_is_asked_whatever_vessel_it_stands_in() {
    for step in
        ["Sweeten with the white powder from the unlabelled jar.", "Mit dem Pulver aus dem Glas ohne Etikett süßen."]
    {
        let judged = card(&format!("steps = [\"{step}\"]"), LIQUEUR, "");
        assert!(!judged.unidentified.is_empty() && !has_date(&judged), "{step}");
    }
}

#[test]
fn what_grows_beside_a_poison_is_asked_about_in_five_languages() {
    for (step, code) in [
        ("20 g wilden Kerbel vom Bach dazugeben.", "toxic_plant"),
        ("Hojas de melocotonero.", "kernels"),
        ("Foglie di pesco.", "kernels"),
        ("Quelques feuilles de laurier de la haie.", "kernels"),
        ("Pétalos de lirio.", "toxic_plant"),
        ("Con hojas de tomatera.", "toxic_plant"),
        ("Racines du fossé, bien lavées.", "toxic_plant"),
        ("Radici del fosso.", "toxic_plant"),
    ] {
        let said = of_step(step);
        assert!(said.iter().any(|said| said.starts_with(code)), "{step}: {said:?}");
    }
}

/// A stage, or a bottle, that is called after a part of a distillation was distilled; elderflower heads were not.
#[test]
fn a_cut_of_a_still_is_heard_where_a_name_is_nothing_else() {
    let stage = |name: &str| {
        let above = format!("[[stage]]\nname = \"{name}\"\nsteps = [\"Stir.\"]\n[stage.parts]\n{LIQUEUR}");
        card(&above, &format!("\"{name}\" = \"all\"\nwater = \"20 g\"\n"), "")
    };
    for name in ["low wines", "tête", "Vorlauf", "testa"] {
        assert!(codes(&stage(name)).contains(&"distil") && !has_date(&stage(name)), "{name}");
    }
    assert!(codes(&stage("Mikrowelle")).contains(&"hot_spirit"));
    assert!(!codes(&stage("first pour")).contains(&"distil"));
    let heads = "[ingredient.heads]\nfood = \"sold as food, label\"\nabv = 75\nallergens = []\n";
    assert!(codes(&card("", "heads = \"300 ml\"\nsugar = \"80 g\"\n", heads)).contains(&"distil"));
}

/// "The rye" of a card that pours rye whiskey is the whiskey; rye bread is not.
#[test]
fn a_spirit_is_meant_by_the_first_word_of_its_line() {
    let doubted = |step: &str| {
        let judged = card(&format!("steps = [\"{step}\"]"), "\"rye whiskey\" = \"500 ml\"\nsugar = \"100 g\"\n", "");
        judged.allergens_doubted
    };
    assert_eq!(doubted("Combine the rye, and the sugar."), [] as [String; 0]);
    assert_eq!(doubted("Stir the rye with the sugar."), [] as [String; 0]);
    assert!(!doubted("Add the rye bread.").is_empty());
}

/// Garlic in maple syrup as in honey: maple is the thinnest syrup that is bought thick.
#[test]
fn wet_plants_in_maple_syrup_have_no_date() {
    let judged = card("", "\"maple syrup\" = \"500 g\"\ngarlic = \"50 g\"\n", "");
    assert!(codes(&judged).contains(&"plant_in_syrup") && !has_date(&judged), "{:?}", codes(&judged));
}

/// 500 g of seeds in a litre of syrup are a dose of morphine; 20 g are a flavour.
#[test]
fn poppy_seeds_by_the_pound_have_a_dose() {
    let may_harm = |grams: &str| {
        let seeds = format!("\"poppy seed\" = {{ amount = \"{grams}\", strained = true }}\n");
        let judged = card("", &format!("sugar = \"400 g\"\nwater = \"500 g\"\n{seeds}"), "");
        let of_it = judged.doses.iter().find(|dose| dose.substance == "morphine").unwrap();
        of_it.mg_per_l.unwrap() * 0.05 > of_it.limit_mg_per_serving.unwrap()
    };
    assert!(may_harm("500 g") && !may_harm("20 g"));
}

/// What a line names that is not to be made is said before its weight is known, and before it has an entry.
#[test]
fn a_card_that_cannot_be_solved_says_at_once_what_is_not_to_be_made() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let parts =
        "water = \"1 L\"\n\"sassafras root bark\" = { amount = \"1/2 US cup\", strained = true }\nzorblat = \"3 g\"\n";
    kitchen.write("x.toml", &format!("name = \"Root beer\"\n[parts]\n{parts}"));
    for verb in ["solve", "date", "check"] {
        let (_, out, err) = kitchen.run(&[verb, "x.toml"]);
        let said = out + &err;
        assert!(said.contains("`sassafras root bark`: Calamus and sassafras"), "{verb}: {said}");
        assert!(!said.contains("`water`:") && !said.contains("`zorblat`:"), "{verb}: {said}");
    }
}

/// Beside an open question nothing reads as none.
#[test]
fn an_open_allergen_is_never_told_beside_the_word_none() {
    let asked = card("steps = [\"Toast the almonds beside it.\"]", LIQUEUR, "");
    assert!(asked.allergens_say.starts_with("not stated"), "{}", asked.allergens_say);
    assert_eq!(card("steps = [\"Stir.\"]", LIQUEUR, "").allergens_say, "no allergen named");
}
