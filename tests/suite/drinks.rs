//! Drinks: the water from their ice, one guest's glass, a batch of it, another part in it.

use crate::kitchen::Kitchen;
use stillroom::card::Card;
use stillroom::cost::SellAsked;
use stillroom::drinks::{self, Figures, Glass};
use stillroom::house::House;
use stillroom::mixture::Mixture;
use stillroom::mixture::nutrition::{uk_units, us_standard_drinks};
use stillroom::solver::{Melt, Options, Solved, solve};
use stillroom::units::jigger::in_ounces;
use stillroom::units::{Abv, in_millilitres, millilitres};

fn house() -> House {
    House::find(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas")).0
}

fn read(text: &str, house: &House) -> Card {
    let (card, found) = stillroom::card::read_by("drink.toml".into(), text.into(), &house.customs());
    card.unwrap_or_else(|| panic!("{found:?}"))
}

/// A drink of the demo house.
fn demo(name: &str, house: &House) -> Card {
    let path = format!("{}/formulas/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    read(&std::fs::read_to_string(path).unwrap(), house)
}

fn served(card: &Card, house: &House) -> Glass {
    let mut found = Vec::new();
    let glass = drinks::glass(card, house, None, SellAsked::default(), &mut found);
    glass.unwrap_or_else(|| panic!("{found:?}"))
}

fn solved(card: &Card, house: &House, melt: Melt) -> Solved {
    solve(card, house, &Options { melt, ..Options::default() }).solved.unwrap()
}

const DEMO: [&str; 5] = ["clove-daiquiri", "almond-sour", "honey-old-fashioned", "spiced-swizzle", "lime-collins"];

/// 10 ml of pure alcohol is a UK unit, 0.6 fl oz of it a US standard drink, which NIAAA gives as about 14 g.
#[test]
fn units_by_their_definitions() {
    let abv = |pct| Abv::new(pct).unwrap();
    assert!((uk_units(millilitres(25.0), abv(40.0)) - 1.0).abs() < 1e-12);
    let house = house();
    let brandy = "name = \"Measure\"\nhow = \"built\"\n[parts]\n\"house brandy\" = \"25 ml\"\n";
    let figures = served(&read(brandy, &house), &house).figures;
    assert!((figures.uk_units - 1.0).abs() < 1e-6 && (figures.volume_ml - 25.0).abs() < 1e-6, "{figures:?}");
    // 14 g of ethanol: 14 / 0.78924 ml of it in 100 ml.
    let pct = 14.0 / 0.78924;
    assert!((us_standard_drinks(millilitres(100.0), abv(pct)) - 1.0).abs() < 0.001);
    assert!((figures.alcohol_g / figures.us_standard_drinks - 14.0).abs() < 0.02, "{figures:?}");
}

/// The pairs that are printed in the trade (common practice, no source).
#[test]
fn jigger_steps_have_ounces_beside_them() {
    for (ml, ounces) in [
        (5.0, "1 bar spoon"),
        (7.5, "1/4 oz"),
        (10.0, "1/3 oz"),
        (15.0, "1/2 oz"),
        (20.0, "2/3 oz"),
        (22.5, "3/4 oz"),
        (30.0, "1 oz"),
        (37.5, "1 1/4 oz"),
        (45.0, "1 1/2 oz"),
        (50.0, "1 2/3 oz"),
        (60.0, "2 oz"),
    ] {
        assert_eq!(in_ounces(ml, None).unwrap(), ounces);
    }
    assert_eq!(in_ounces(0.15, None), None);
}

/// What is said of a glass comes out of its grams, counted anew; and nothing is lost between the parts and the glass.
#[test]
fn a_glass_is_the_sum_of_its_parts() {
    let house = house();
    for name in DEMO {
        let glass = served(&demo(name, &house), &house);
        let sum: Mixture = glass.solved.last().parts.iter().map(|part| part.feed.per_gram * part.mass_g).sum();
        let again = Figures::of(&sum).unwrap();
        let of = glass.figures;
        assert!((again.alcohol_g - of.alcohol_g).abs() < 1e-9 && (again.sugar_g - of.sugar_g).abs() < 1e-9, "{name}");
        assert!((again.mass_g - of.mass_g).abs() < 1e-9, "{name}");
        assert!((of.sugar_g - of.sugar_g_l * of.volume_ml / 1000.0).abs() < 1e-9, "{name}");
        // 10 ml of pure alcohol, 0.78924 g/ml: the units of the grams.
        assert!((of.uk_units - of.alcohol_g / 7.8924).abs() < 1e-3, "{name}: {of:?}");
        let (dry, wet) = glass.range;
        assert!(
            dry.abv_pct >= of.abv_pct && of.abv_pct >= wet.abv_pct && (dry.alcohol_g - wet.alcohol_g).abs() < 1e-9,
            "{name}"
        );
        assert_eq!(glass.solved.card.serving.map(|s| in_millilitres(s.value).round()), Some(of.volume_ml.round()));
    }
}

/// Bartenders say that a shaken drink takes about a quarter to a third of what is strained from its ice, a stirred one less
/// (common practice, no source): what the balance allows reaches both.
#[test]
fn what_ice_gives_is_what_bartenders_say() {
    let house = House::default();
    let share = |how: &str, melt| {
        let text = format!(
            "name = \"Sour\"\nhow = \"{how}\"\n[ice]\nkind = \"cubes\"\n[parts]\n\"white rum\" = \"60 ml\"\n\"lime juice\" = \"25 ml\"\n\"simple syrup\" = \"20 ml\"\n"
        );
        let made = solved(&read(&text, &house), &house, melt);
        made.ice_water.as_ref().unwrap().grams / made.bottled().total_grams()
    };
    let (least, most) = (share("shaken", Melt::Least), share("shaken", Melt::Most));
    assert!(least < 0.28 && most > 0.30 && (0.2..0.45).contains(&most), "{least} {most}");
    let (stirred, shaken) = (share("stirred", Melt::Least), share("shaken", Melt::Least));
    assert!(stirred < shaken, "{stirred} {shaken}");
    assert!(share("thrown", Melt::Usual) < share("shaken", Melt::Usual));
}

/// A weighing wins over the balance, by both of its spellings; without ice a built drink takes no water.
#[test]
fn what_is_weighed_wins() {
    let house = House::default();
    let with = |keys: &str, how: &str| {
        let text = format!(
            "name = \"Sour\"\nhow = \"{how}\"\n{keys}\n[parts]\n\"white rum\" = \"50 ml\"\n\"lime juice\" = \"25 ml\"\n"
        );
        solved(&read(&text, &house), &house, Melt::Usual)
    };
    for keys in ["water = \"32 g\"", "[ice]\nbefore = \"95 g\"\nafter = \"127 g\""] {
        let made = with(keys, "shaken");
        let water = made.ice_water.clone().unwrap();
        assert!(water.weighed && (water.grams - 32.0).abs() < 1e-9 && water.least_g == water.most_g);
        let poured = solved(&made.card, &house, Melt::None);
        assert!((made.bottled().total_grams() - poured.bottled().total_grams() - 32.0).abs() < 1e-9);
    }
    assert!(with("", "built").ice_water.is_none());
    let balance = with("", "shaken").ice_water.unwrap();
    assert!(!balance.weighed && balance.least_g < balance.grams && balance.grams < balance.most_g);
    // All of what is blended in is drunk.
    let blended = with("[ice]\ngrams = \"150 g\"", "blended").ice_water.unwrap();
    assert!((blended.grams - 150.0).abs() < 1e-9, "{blended:?}");
}

/// Allergens come out of house products and bottles at any depth; what nobody stated is kept apart.
#[test]
fn allergens_travel_into_the_glass() {
    let house = house();
    let sour = served(&demo("almond-sour", &house), &house).judged;
    assert!(
        sour.allergens.iter().any(|a| a.contains("almond")) && sour.allergens.iter().any(|a| a == "egg"),
        "{:?}",
        sour.allergens
    );
    let honey = served(&demo("honey-old-fashioned", &house), &house).judged;
    assert!(honey.allergens_open.iter().any(|name| name == "mill lane honey"), "{:?}", honey.allergens_open);
    assert!(honey.allergens_say.contains("not stated"), "{}", honey.allergens_say);
}

/// A drink has no date; a batch of it has, with what spoils left out and the water of its ice put in.
#[test]
fn a_batch_is_a_card_of_its_own() {
    let house = house();
    let mut found = Vec::new();
    let card = demo("clove-daiquiri", &house);
    let glass = served(&card, &house);
    let batch = drinks::batch(&card, &house, (40.0, drinks::WaterOfIce::InTheBottle), None, &mut found).unwrap();
    let added: Vec<_> = batch.at_service.iter().map(|added| added.part.label.as_str()).collect();
    assert_eq!(added, ["lime juice"]);
    // Bottle and juice together are forty glasses, to the tenth of a gram that a card is written to.
    let added_g: f64 = batch.at_service.iter().map(|added| added.part.mass_g).sum();
    let whole = batch.solved.bottled().total_grams() + 40.0 * added_g;
    assert!((whole - 40.0 * glass.figures.mass_g).abs() < 1.0, "{whole}");
    assert!(
        (batch.solved.bottled().grams_of(stillroom::mixture::Component::Ethanol) - 40.0 * glass.figures.alcohol_g)
            .abs()
            < 0.5
    );
    // What is written is what is solved.
    let (again, of_text) = stillroom::card::read_by("batch.toml".into(), batch.text.as_str().into(), &house.customs());
    let again = again.unwrap_or_else(|| panic!("{of_text:?}"));
    assert_eq!(again.name.value, batch.card.name.value);
    assert!(!again.is_drink());
}

/// The new part in whole steps of a jigger, the glass nearer to what it was than poured alike; a swap for itself is no swap.
#[test]
fn a_swap_in_the_glass_comes_near() {
    let house = house();
    let card = demo("clove-daiquiri", &house);
    let mut found = Vec::new();
    let (old, new) = ("Lime and clove liqueur", "Lime and clove liqueur, light");
    let swap = drinks::swap_in_glass(&card, &house, old, new, &mut found).unwrap();
    let apart = |f: &Figures| {
        let was = swap.before.figures;
        (f.alcohol_g - was.alcohol_g).powi(2) + (f.sugar_g - was.sugar_g).powi(2)
    };
    assert!(apart(&swap.nearest.figures) <= apart(&swap.alike.figures), "{swap:?}");
    let line = swap.lines.iter().find(|line| line.swapped).unwrap();
    let steps = line.nearest_ml.unwrap() / 2.5;
    assert!((steps - steps.round()).abs() < 1e-9, "{line:?}");
    // the others are the drink, and stay
    for other in swap.lines.iter().filter(|line| !line.swapped) {
        assert!((other.nearest_ml.unwrap() - other.before_ml.unwrap()).abs() < 1e-9, "{other:?}");
    }
    let same = drinks::swap_in_glass(&card, &house, old, old, &mut found).unwrap();
    assert!(
        same.lines.iter().all(|line| (line.before_ml.unwrap() - line.nearest_ml.unwrap()).abs() < 1e-9),
        "{same:?}"
    );
    assert!(drinks::swap_in_glass(&card, &house, old, "white sugar", &mut found).is_none());
}

/// What is bought pasteurised is no raw egg, under every name that the larder has for it; what only sounds so is.
#[test]
fn a_pasteurised_egg_is_not_called_raw() {
    for (name, raw) in [
        ("pasteurised egg white", false),
        ("egg white, pasteurised", false),
        ("liquid egg white", false),
        ("egg white", true),
        ("raw egg white", true),
        ("egg yolk", true),
    ] {
        let house = Kitchen::new("");
        let card = format!(
            "name = \"Sour\"\nhow = \"shaken\"\n[parts]\nbourbon = \"60 ml\"\n\"lemon juice\" = \"20 ml\"\n\"{name}\" = \"15 ml\"\n"
        );
        house.write("sour.toml", &card);
        let (_, said, _) = house.run(&["serve", "sour.toml", "--json"]);
        assert_eq!(said.contains("raw egg from"), raw, "{name}: {said}");
    }
}

/// By hand: 45 g of water and 48 g where the balance of heat gives as much to both, so 46.5 g over its middle, and as much over
/// the middle of another drink. A stirred drink, one on other ice and one of which nothing was weighed teach nothing.
#[test]
fn what_the_house_weighed_of_drinks_made_alike_is_said() {
    let drink = |name: &str, how: &str, rest: &str, grams: u32| {
        format!("name = {name:?}\nhow = {how:?}\n{rest}\n[parts]\nvodka = \"{grams} g\"\n")
    };
    let cards = [
        ("a.toml", drink("A", "shaken", "water = \"45 g\"", 100)),
        ("b.toml", drink("B", "shaken", "[ice]\nbefore = \"100 g\"\nafter = \"148 g\"", 100)),
        ("c.toml", drink("C", "stirred", "water = \"20 g\"", 100)),
        ("d.toml", drink("D", "shaken", "water = \"90 g\"\n[ice]\nkind = \"crushed\"", 100)),
        ("e.toml", drink("E", "shaken", "", 100)),
    ];
    let (house, _) = House::from_texts(cards.iter().map(|(name, text)| (*name, text.as_str())));
    let of = |text: &str| {
        let (card, found) = stillroom::card::read("own.toml".into(), text.into());
        let solved = drinks::glass::drink(&card.unwrap(), &house, &mut Vec::new());
        solved.unwrap_or_else(|| panic!("{found:?}")).ice_water.unwrap()
    };
    let middle = |(least, most): (f64, f64)| 0.5 * (least + most);
    let taught = middle(of(&drink("Own", "shaken", "water = \"10 g\"", 100)).balance_g);
    for grams in [50, 100] {
        let water = of(&drink("Own", "shaken", "", grams));
        let own = water.alike.unwrap();
        assert_eq!(own.drinks, 2);
        let hand = |weighed: f64| weighed / taught * middle(water.balance_g);
        for (is, hand) in [(own.middle_g, hand(46.5)), (own.least_g, hand(45.0)), (own.most_g, hand(48.0))] {
            assert!((is - hand).abs() < 1e-6, "{own:?}");
        }
        assert!(grams == 50 || (own.middle_g - 46.5).abs() < 1e-9, "one that is poured as they are has what they have");
    }
    assert_eq!(of(&drink("Own", "thrown", "", 50)).alike, None);
    assert_eq!(of(&drink("Own", "shaken", "water = \"10 g\"", 50)).alike, None);
}

/// Nobody weighs a garnish or the rim of a glass, and both reach the guest.
#[test]
fn a_garnish_and_a_rim_are_asked_about() {
    let said = |line: &str| {
        let house = Kitchen::new("");
        let card = format!(
            "name = \"Sour\"\nhow = \"shaken\"\n{line}\n[parts]\nvodka = \"50 ml\"\n\"white sugar\" = \"5 g\"\n"
        );
        house.write("sour.toml", &card);
        house.run(&["serve", "sour.toml"]).1
    };
    for (line, word) in [
        ("garnish = \"flaked almonds\"", "almond"),
        ("glass = \"coupe with a milk powder rim\"", "milk"),
        ("garnish = \"oleander\"", "oleander"),
    ] {
        let said = said(line);
        assert!(said.lines().any(|l| !l.contains("garnish:") && !l.contains(" · ") && l.contains(word)), "{said}");
    }
    assert!(said("garnish = \"a strip of lime zest\"").contains("no allergen named"));
}
