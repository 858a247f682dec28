//! Sour, measured and put right: readings of an acid, what they do to a card, and what stays unknown.

use stillroom::formula::TargetKind;
use stillroom::larder::Larder;
use stillroom::mixture::acidity::ph;
use stillroom::mixture::{Component, Mixture};
use stillroom::quantity::{celsius, in_kg_per_m3};
use stillroom::solve::Options;

mod kitchen;
mod table;

use kitchen::{Kitchen, close};
use table::{Largest, rows};

/// The card of the demo house.
const LIME_CORDIAL: &str = include_str!("../formulas/lime-cordial.toml");

fn density_g_per_ml(of: &Mixture) -> f64 {
    in_kg_per_m3(of.density(celsius(20.0)).unwrap().value) / 1000.0
}

fn ph_of(mixture: &Mixture) -> f64 {
    ph::of(mixture, celsius(25.0)).unwrap().value.get()
}

/// The rows of the check table as entries of a larder: base by analysis, then a house's readings over it.
#[test]
fn a_titration_and_a_ph_calibrate_an_ingredient() {
    let (mut acids, mut cations) = (Largest::of("total acid, g/100 g"), Largest::of("cations, eq/kg of water"));
    let (mut reading, mut after) = (Largest::of("pH read"), Largest::of("pH after"));
    for row in rows("acid-calibrate") {
        let (total, water) = (row.number("acid_total_g_per_100g"), row.number("water_pct"));
        // The solution of pure citric acid is printed as 95.0 + 5.028 in 100.
        let water = water.min(100.0 - total);
        let mut grams = vec![(Component::Water, water)];
        for kind in row.text("acid_kinds_mass_share").split('+') {
            let (acid, share) = kind.split_once(':').unwrap();
            grams.push((Component::from_key(acid).unwrap(), total * share.parse::<f64>().unwrap()));
        }
        grams.push((Component::Sucrose, 100.0 - water - total));
        let (ta, read) = (row.number("ta_g_per_100g_as_citric"), row.number("ph_measured"));
        let g_l = 10.0 * ta * density_g_per_ml(&Mixture::of(&grams));
        let per_100g: Vec<String> = grams.iter().map(|(c, g)| format!("{} = {g:.6}", c.key())).collect();
        let kitchen = Kitchen::new(&format!(
            "[ingredient.\"a base\"]\nper_100g = {{ {} }}\n[ingredient.\"today's\"]\nlike = \"a base\"\nacid = \"{g_l:.6} g/L\"\nph = {read}\n",
            per_100g.join(", ")
        ));
        let made = kitchen.makes("name = \"C\"\nmakes = \"1 L\"\n[parts]\n\"today's\" = \"1 L\"\n");
        let found = made.part("today's").feed.per_gram * 100.0;
        let case = row.text("case");
        let [low, middle, high] = found.bound_cations_eq.map(|eq| eq / (found.grams_of(Component::Water) / 1000.0));
        assert!(low == middle && middle == high, "{case}");
        acids.within(found.grams_of_all(&Component::ACIDS), total, 0.005, case);
        cations.within(middle, row.number("strong_cation_eq_per_kg_water"), 0.0005, case);
        reading.within(ph_of(&found), read, 0.02, case);
        let thinned = found + Mixture::of(&[(Component::Water, found.grams_of(Component::Water))]);
        after.within(ph_of(&thinned), row.number("ph_half_strength"), 0.02, case);
        let soured = found + Mixture::of(&[(Component::Citric, 5.0)]);
        after.within(ph_of(&soured), row.number("ph_plus_5g_citric_per_100g"), 0.02, case);
        // What is read is what is there, but for the last proton of citric acid that pH 8.1 does not reach.
        close(found.titratable_acid_grams() / ta, 1.0, 0.01);
    }
}

const TODAYS: &str = "[ingredient.\"today's limes\"]\nlike = \"lime juice\"\n";

fn lime(larder: &str) -> (Kitchen, kitchen::Made) {
    let kitchen = Kitchen::new(&format!("{TODAYS}{larder}"));
    let made = kitchen.solve(&LIME_CORDIAL.replace("\"lime juice\"", "\"today's limes\""), &Options::default());
    (kitchen, made)
}

#[test]
fn a_cordial_takes_as_much_more_acid_as_the_limes_have_less() {
    let book = lime("").1;
    for (g_l, ph) in [(50.0, 2.35), (58.0, 2.3), (66.0, 2.2)] {
        let today = lime(&format!("acid = \"{g_l} g/L\"\nph = {ph}\n")).1;
        let brought = |made: &kitchen::Made| {
            let juice = made.part("today's limes");
            juice.feed.per_gram.titratable_acid_grams() * juice.mass_g
        };
        let less = brought(&book) - brought(&today);
        close(today.grams("citric acid") - book.grams("citric acid"), less, 0.15);
        close(today.is(TargetKind::Acid), 30.0, 1e-6);
        close(brought(&today) / 0.35, g_l, 0.01 * g_l);
    }
}

#[test]
fn both_readings_take_the_doubt_of_a_table_away() {
    let of = |larder: &str| {
        let made = lime(larder).1;
        let juice = made.part("today's limes").feed.per_gram;
        let found = ph::of(&juice, celsius(25.0)).unwrap();
        (found.error, found.low.get(), found.value.get(), found.high.get())
    };
    let (table, ..) = of("");
    let (acid_alone, low, _, high) = of("acid = \"58 g/L\"\n");
    assert!(high - low > 2.0 * acid_alone, "the band of the minerals is kept");
    let (both, low, value, high) = of("acid = \"58 g/L\"\nph = 2.3\n");
    close(table, 0.4, 1e-9);
    close(acid_alone, 0.4, 1e-9);
    close(both, 0.1, 1e-9);
    close(value, 2.3, 0.001);
    close(low, 2.2, 0.001);
    close(high, 2.4, 0.001);
}

#[test]
fn what_was_read_says_so_and_a_ph_alone_says_what_it_lacks() {
    let kitchen = Kitchen::new(&format!("{TODAYS}acid = \"58 g/L\"\nph = 2.3\n"));
    let (house, found) = stillroom::house::House::find(kitchen.folder());
    assert!(found.is_empty(), "{found:?}");
    let limes = house.larder.find("today's limes").unwrap();
    assert_eq!(limes.status, "measured by the house");
    assert!(limes.stated.acid && limes.stated.acid_and_ph && !limes.stated.brix);
    assert!(limes.tags.contains(&"raw_juice".to_owned()));

    let made = lime("ph = 2.3\n").1;
    assert!(made.plain().contains("the pH of `today's limes` alone changes nothing"), "{}", made.plain());
    close(made.grams("citric acid"), lime("").1.grams("citric acid"), 1e-12);
}

#[test]
fn a_reading_that_cannot_be_is_refused_where_it_stands() {
    let made = lime("acid = \"58 g/L\"\nph = 0.8\n").1;
    assert!(made.solved.is_none());
    assert!(made.plain().contains("the pH is lower than so much of these acids can give"), "{}", made.plain());
}

#[test]
fn a_reading_for_one_run_answers_to_every_name() {
    let house = Larder::built_in();
    let from = "--measured".into();
    let read = house.measured("fresh lime juice: acid=58 g/L, ph=2.3", &from).unwrap();
    let over = house.clone().overlay(vec![read]);
    for name in ["lime juice", "Fresh lime juice", "freshly squeezed lime juice", "lime-juice"] {
        assert_eq!(over.find(name).unwrap().status, "measured by the house", "{name}");
    }
    // The same as an entry of the house's own file.
    let entry = lime("acid = \"58 g/L\"\nph = 2.3\n").1;
    assert_eq!(over.find("lime juice").unwrap().per_gram, entry.part("today's limes").feed.per_gram);

    for (written, says) in [
        ("lime juice", "is not a name, a colon, and readings"),
        ("lime juice: 58", "is not a name, a colon, and readings"),
        ("lime juice: acid=58 g/L, acid=60 g/L", "given twice"),
        ("lime juice: acidity=58 g/L", "is not a reading"),
        ("lime juice: acid=58", "no unit"),
        ("lime juice: ph=23", "is not possible"),
        ("lime juise: ph=2.3", "is not in the larder"),
        ("lime juice: acid=58 g/L, ph=2,3", "is not a name, a colon, and readings"),
    ] {
        let why = house.measured(written, &from).unwrap_err();
        assert!(why[0].title.contains(says), "{written}: {why:?}");
    }
}
