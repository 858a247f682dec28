//! What a name says, and what it denies: from the card and the larder of a house to the date.

use crate::kitchen::{Kitchen, at};
use stillroom::solver::Options;
use stillroom::spelling::{Claim, fold, is_near, is_slip_of, name_words, pasteurised, singular, words};

/// What the fridge says of a card of one part: its days, and whether raw juice is warned of.
fn in_the_fridge(name: &str, of: &str, like: &str, class: &str) -> (Option<u32>, bool) {
    let kitchen = Kitchen::new(&format!("[ingredient.\"{of}\"]\nlike = \"{like}\"\n"));
    kitchen.write("house.toml", "[stores]\nfridge = \"4 °C\"\n");
    let card = format!("name = \"Ours\"\n{class}[parts]\n\"{name}\" = {{ of = \"{of}\", amount = \"500 g\" }}\n");
    let dated = kitchen.solve(&card, &Options::default()).dated(200);
    (at(&dated, "fridge").days, dated.cautions.iter().any(|c| c.code == "raw_juice"))
}

const PASTEURISED: [&str; 6] =
    ["pasteurised", "Pasteurized", "flash-pasteurised", "pasteurisiertes", "pasteurizado", "pastorizzato"];
const NOT: [&str; 12] = [
    "unpasteurised",
    "un-pasteurized",
    "non-pasteurised",
    "nonpasteurized",
    "not pasteurised",
    "raw",
    "pasteurisation unknown",
    "pasteurised or raw",
    "non pasteurisé",
    "nicht pasteurisiertes",
    "no pasteurizado",
    "non pastorizzato",
];

#[test]
fn raw_egg_is_refused_however_its_name_denies_that_it_was_pasteurised() {
    for how in PASTEURISED {
        let egg = format!("{how} egg white");
        assert_eq!(in_the_fridge(&egg, &egg, "egg white", "").0, Some(7), "{egg}");
    }
    for how in NOT {
        let egg = format!("{how} egg white");
        assert_eq!(in_the_fridge(&egg, &egg, "egg white", "").0, None, "{egg}");
    }
    // What the card calls it can take the claim away, never make it.
    assert_eq!(in_the_fridge("unpasteurised egg white", "pasteurised egg white", "egg white", "").0, None);
    assert_eq!(in_the_fridge("pasteurised egg white", "our egg white", "egg white", "").0, None);
}

#[test]
fn raw_juice_stays_raw_however_its_name_denies_that_it_was_treated() {
    for how in PASTEURISED.into_iter().chain(["bottled"]) {
        let juice = format!("{how} lime juice");
        let (days, warned) = in_the_fridge(&juice, &juice, "bottled lime juice", "");
        assert!(days > Some(3) && !warned, "{juice}: {days:?}");
    }
    for how in NOT.into_iter().chain(["non-bottled", "not canned"]) {
        let juice = format!("{how} lime juice");
        let (days, warned) = in_the_fridge(&juice, &juice, "bottled lime juice", "");
        assert!(days <= Some(3) && warned, "{juice}: {days:?}");
    }
}

#[test]
fn a_plural_in_the_larder_is_found_by_its_singular_on_the_card() {
    let kitchen = Kitchen::new("[ingredient.\"peaches in syrup\"]\nbrix = 20\nallergens = []\n");
    for name in ["peach in syrup", "Peaches in syrup"] {
        let made = kitchen.solve(&format!("name = \"Ours\"\n[parts]\n\"{name}\" = \"500 g\"\n"), &Options::default());
        assert!(made.solved.is_some(), "{name}: {}", made.plain());
    }
}

#[test]
fn spellings_of_one_name_fold_to_one() {
    for (a, b) in [
        ("Cloves", "clove"),
        ("lime-juice", "Lime  juice"),
        ("Lime juice, fresh", "lime juice fresh"),
        ("juniper berries", "Juniper-berry"),
        ("confectioner’s glucose", "confectioners glucose"),
        ("peaches in syrup", "Peach in syrup"),
        ("Crème de Cassis", "CREME DE CASSIS"),
        ("Cre\u{300}me de cassis", "crème de cassis"),
        ("Smørrebrød spice", "smorrebrod spice"),
        ("blanc d'œuf", "blanc d oeuf"),
        ("Żubrówka, biała", "zubrowka biala"),
        ("weiße Schokolade", "weisse schokolade"),
    ] {
        assert_eq!(fold(a), fold(b));
    }
    assert_eq!(fold("hibiscus"), "hibiscus");
    assert_eq!(fold("rum-overproof-75.5"), "rum overproof 75.5");
    assert_eq!(words("Apricot-kernels, chopped."), ["apricot", "kernel", "chopped"]);
    assert_ne!(fold("cream 35%"), fold("cream 35"));
    assert_ne!(fold("がり"), fold("かり"));
}

#[test]
fn plurals_are_one_name_with_their_singular() {
    for (many, one) in [
        ("cherries", "cherry"),
        ("peaches", "peach"),
        ("radishes", "radish"),
        ("boxes", "box"),
        ("mangoes", "mango"),
        ("sloes", "sloe"),
        ("leaves", "leaf"),
        ("eggs", "egg"),
        ("pies", "pie"),
        ("glasses", "glass"),
    ] {
        assert_eq!((singular(many).as_str(), singular(one).as_str()), (one, one));
    }
    for word in ["calamus", "cassis", "watercress", "molasses"] {
        assert_eq!(singular(word), word);
    }
}

#[test]
fn a_slip_is_one_letter_and_two_in_a_long_word() {
    assert!(is_slip_of("almnd", "almond") && is_slip_of("belladnona", "belladonna"));
    assert!(!is_slip_of("alnd", "almond") && !is_slip_of("hony", "honey") && is_near("hony", "honey"));
}

#[test]
fn a_name_says_denies_or_leaves_open_that_it_was_pasteurised() {
    for name in [
        "pasteurised egg white",
        "Pasteurized egg whites",
        "lime juice, flash-pasteurised",
        "flash pasteurised lime juice",
        "jus de citron pasteurisé",
        "crème pasteurisée",
        "pasteurisiertes Eiweiß",
        "clara de huevo pasteurizada",
        "albume pastorizzato",
        "lime juice (pasteurised, not from concentrate)",
    ] {
        assert_eq!(pasteurised(name), Some(Claim::Made), "{name}");
    }
    for name in [
        "unpasteurised egg white",
        "un-pasteurized egg white",
        "non-pasteurised lime juice",
        "nonpasteurised lime juice",
        "lime juice, not pasteurised",
        "not yet pasteurised egg white",
        "lime juice that has never been pasteurised",
        "egg white (pasteurised: no)",
        "raw egg white, pasteurised",
        "pasteurisation-free lime juice, raw",
        "jus de citron non pasteurisé",
        "jus pas pasteurisé",
        "nicht pasteurisiertes Eiweiß",
        "unpasteurisiertes Eiweiß",
        "clara de huevo no pasteurizada",
        "albume non pastorizzato",
        "albume senza pastorizzazione",
        "egg white, isn't pasteurised",
    ] {
        assert_eq!(pasteurised(name), Some(Claim::Denied), "{name}");
    }
    for name in [
        "egg white, pasteurisation unknown",
        "pasteurised? egg white",
        "maybe pasteurised egg white",
        "egg white to be pasteurised",
        "blanc d'œuf à pasteuriser",
        "half-pasteurised cream",
        "pseudopasteurised egg",
    ] {
        assert_eq!(pasteurised(name), Some(Claim::Open), "{name}");
    }
    assert_eq!((pasteurised("egg white"), pasteurised("raw egg white")), (None, None));
}

#[test]
fn what_is_denied_is_the_next_word_or_the_one_before_free() {
    let denied =
        |name: &str| -> Vec<String> { name_words(name).into_iter().filter(|w| w.denied).map(|w| w.text).collect() };
    assert_eq!(denied("caffeine-free tea"), ["caffeine"]);
    assert_eq!(denied("non-bottled lime juice"), ["bottled"]);
    assert_eq!(denied("lime juice without added sugars"), ["added"]);
    assert_eq!(denied("non pasteurised lime juice"), ["pasteurised"]);
    assert_eq!(denied("lime juice, pasteurised or raw"), ["pasteurised"]);
    assert!(denied("pasteurised lime juice").is_empty());
}
