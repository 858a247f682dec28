//! Amounts as people write them: what each is worth, and what each refusal says.

use proptest::prelude::*;

use stillroom::diagnostic::Code;
use stillroom::units::literal::{parse, read, read_by};
use stillroom::units::measures::{Dimension, MEASURES, REFUSED};
use stillroom::units::{
    Basis, Comma, Customs, Literal, LiteralError, celsius, comma_of, degrees_celsius, display, grams, grams_per_litre,
    in_grams, in_grams_per_litre, in_millilitres, measure, millilitres, read_of, readers,
};
use stillroom::vocabulary::{MeasureSystem, Portion};

use crate::generated::runner;

/// A literal as its kind and one number, to compare within rounding.
fn plain(literal: Literal) -> (&'static str, f64) {
    match literal {
        Literal::Mass(m) => ("g", in_grams(m)),
        Literal::Volume(v) => ("ml", in_millilitres(v)),
        Literal::Pieces(n) => ("pieces", n),
        Literal::Parts(n, None) => ("parts", n),
        Literal::Parts(n, Some(Basis::Weight)) => ("parts by weight", n),
        Literal::Parts(n, Some(Basis::Volume)) => ("parts by volume", n),
        Literal::Concentration(c) => ("g/L", in_grams_per_litre(c)),
        Literal::VolumeShare(x) => ("share by volume", x),
        Literal::Percent(x) => ("fraction", x),
        Literal::Abv(x) => ("% vol", x),
        Literal::Proof(x) => ("proof", x),
        Literal::Brix(x) => ("Brix", x),
        Literal::Temperature(t) => ("C", degrees_celsius(t)),
        Literal::Time(t) => ("s", t.value),
        Literal::Bottles(n, each) => ("ml in bottles", n * in_millilitres(each)),
        Literal::AsNeeded => ("as needed", 0.0),
        Literal::All => ("all", 0.0),
        Literal::Number(x) => ("number", x),
    }
}

const WRITTEN: &[(&str, &str, f64)] = &[
    ("750ml", "ml", 750.0),
    ("750 mL", "ml", 750.0),
    ("750 ML", "ml", 750.0),
    ("0.75 l", "ml", 750.0),
    (".75 L", "ml", 750.0),
    ("0,75 l", "ml", 750.0),
    ("0,500 kg", "g", 500.0),
    ("1500,250 g", "g", 1500.25),
    ("75 cl", "ml", 750.0),
    ("7.5 dl", "ml", 750.0),
    ("750\u{a0}ml", "ml", 750.0),
    ("750\u{2009}ml", "ml", 750.0),
    ("750\u{202f}ml", "ml", 750.0),
    ("  750   ml  ", "ml", 750.0),
    ("25.4 fl oz", "ml", 751.1676508875),
    ("25.4 US fl oz", "ml", 751.1676508875),
    ("25.4 fl. oz.", "ml", 751.1676508875),
    ("25.4 floz", "ml", 751.1676508875),
    ("1 fl oz (US)", "ml", 29.5735295625),
    ("1 imp fl oz", "ml", 28.4130625),
    ("1/2 US cup", "ml", 118.29411825),
    ("½ US cup", "ml", 118.29411825),
    ("½US cup", "ml", 118.29411825),
    ("1⁄2 U.S. cup", "ml", 118.29411825),
    ("1 metric cup", "ml", 250.0),
    ("1 1/2 jigger oz", "ml", 45.0),
    ("1½ jigger oz", "ml", 45.0),
    ("1 ½ jigger oz", "ml", 45.0),
    ("2 jigger oz", "ml", 60.0),
    ("1 jigger oz", "ml", 30.0),
    ("3/4 jigger oz", "ml", 22.5),
    ("1/2 jigger oz", "ml", 15.0),
    ("1/3 jigger oz", "ml", 10.0),
    ("1/6 jigger oz", "ml", 5.0),
    ("1 bar spoon", "ml", 5.0),
    ("1 bar-spoon", "ml", 5.0),
    ("1 barspoon", "ml", 5.0),
    ("1 dash", "ml", 0.9),
    ("2 dashes", "ml", 1.8),
    ("1 kitchen dash", "ml", 0.61611519921875),
    ("3 drops", "ml", 0.15),
    ("2 tsp", "ml", 10.0),
    ("1 tbsp", "ml", 15.0),
    ("2 US tsp", "ml", 9.8578431875),
    ("1 US tbsp", "ml", 14.78676478125),
    ("1 AU tbsp", "ml", 20.0),
    ("1 imp pint", "ml", 568.26125),
    ("1 US pint", "ml", 473.176473),
    ("1 US gal", "ml", 3785.411784),
    ("1 imp gal", "ml", 4546.09),
    ("2 lb", "g", 907.18474),
    ("4 oz wt", "g", 113.3980925),
    ("1,5 kg", "g", 1500.0),
    ("250 mg", "g", 0.25),
    ("0 g", "g", 0.0),
    ("6 x 250 ml", "ml in bottles", 1500.0),
    ("6 × 250 ml", "ml in bottles", 1500.0),
    ("6x250ml", "ml in bottles", 1500.0),
    ("2 parts by weight", "parts by weight", 2.0),
    ("1 part by volume", "parts by volume", 1.0),
    ("2 parts", "parts", 2.0),
    ("43 %", "fraction", 0.43),
    ("43%", "fraction", 0.43),
    ("43 per cent", "fraction", 0.43),
    ("43% ABV", "% vol", 43.0),
    ("43 % vol", "% vol", 43.0),
    ("43% alc/vol", "% vol", 43.0),
    ("86 proof", "proof", 86.0),
    ("86 US proof", "proof", 86.0),
    ("6 g/L", "g/L", 6.0),
    ("6 g / l", "g/L", 6.0),
    ("6 g per litre", "g/L", 6.0),
    ("0.6 g/100 ml", "g/L", 6.0),
    ("200 mg/L", "g/L", 0.2),
    ("1 oz wt per US gal", "g/L", 7.489151707306039),
    ("20 ml/L", "share by volume", 0.02),
    ("2 dashes/L", "share by volume", 0.0018),
    ("64 °Bx", "Brix", 64.0),
    ("64 ° Bx", "Brix", 64.0),
    ("64 Bx", "Brix", 64.0),
    ("64 brix", "Brix", 64.0),
    ("85 °C", "C", 85.0),
    ("85C", "C", 85.0),
    ("85 ℃", "C", 85.0),
    ("-18 °C", "C", -18.0),
    ("−18 °C", "C", -18.0),
    ("185 °F", "C", 85.0),
    ("185F", "C", 85.0),
    ("185f", "C", 85.0),
    ("0 °F", "C", -17.77777777777778),
    ("5 min", "s", 300.0),
    ("2 h", "s", 7200.0),
    ("7 days", "s", 604800.0),
    ("3 weeks", "s", 1814400.0),
    ("3 each", "pieces", 3.0),
    ("3 pieces", "pieces", 3.0),
    ("as needed", "as needed", 0.0),
    ("  As  Needed ", "as needed", 0.0),
    ("the rest", "as needed", 0.0),
    ("Remainder", "as needed", 0.0),
    ("64", "number", 64.0),
    ("70cl", "ml", 700.0),
    ("1 litre", "ml", 1000.0),
    ("½ litre", "ml", 500.0),
    ("half a litre", "ml", 500.0),
    ("a litre", "ml", 1000.0),
    ("One and a half litres", "ml", 1500.0),
    ("two tsp", "ml", 10.0),
    ("a half tsp", "ml", 2.5),
    ("a dozen drops", "ml", 0.6),
    ("2 dozen drops", "ml", 1.2),
    ("a pinch", "ml", 0.308057599609375),
    ("twelve dashes", "ml", 10.8),
    ("3 sprays", "ml", 0.45),
    ("1 pipette", "ml", 0.75),
    ("a splash", "ml", 3.7),
    ("1 imp cup", "ml", 284.130625),
    ("602.502 g", "g", 602.502),
    ("1.500 g", "g", 1.5),
    ("12,345,678 g", "g", 12_345_678.0),
    ("1,250.5 g", "g", 1250.5),
    ("1.250,5 g", "g", 1250.5),
    ("1.250.000 g", "g", 1_250_000.0),
    ("12,5 g", "g", 12.5),
];

/// What is settled by the house, the card or the numbers beside it.
#[test]
fn customs_settle_what_means_more_than_one_thing() {
    let by = |measures| Customs { measures: Some(measures), ..Customs::default() };
    let (us, imperial, metric) = (by(MeasureSystem::Us), by(MeasureSystem::Imperial), by(MeasureSystem::Metric));
    let thousands = Customs { comma: Some(Comma::Thousands), ..Customs::default() };
    let decimal = Customs { comma: Some(Comma::Decimal), ..Customs::default() };
    let bottle = Customs { bottle: Some(millilitres(700.0)), ..Customs::default() };
    let ratio = Customs { ratio: Some(Basis::Weight), ..Customs::default() };
    let all: [(&str, &Customs, &str, f64); 22] = [
        ("1 cup", &us, "ml", 236.5882365),
        ("1 cup", &imperial, "ml", 284.130625),
        ("1 cup", &metric, "ml", 250.0),
        ("2 oz", &us, "ml", 59.147059125),
        ("2 oz", &imperial, "ml", 56.826125),
        ("2 oz", &metric, "ml", 60.0),
        ("1 fl oz", &us, "ml", 29.5735295625),
        ("1 fl oz", &imperial, "ml", 28.4130625),
        ("1 US fl oz", &imperial, "ml", 29.5735295625),
        ("1 pt", &us, "ml", 473.176473),
        ("1 pint", &imperial, "ml", 568.26125),
        ("1 qt", &us, "ml", 946.352946),
        ("1 qt", &imperial, "ml", 1136.5225),
        ("1 gal", &us, "ml", 3785.411784),
        ("1 gal", &imperial, "ml", 4546.09),
        ("6 g/gal", &us, "g/L", 6.0 / 3.785411784),
        ("1,250 g", &thousands, "g", 1250.0),
        ("1,250 g", &decimal, "g", 1.25),
        ("6 bottles", &bottle, "ml in bottles", 4200.0),
        ("1 bottle", &bottle, "ml in bottles", 700.0),
        ("half a bottle", &bottle, "ml", 350.0),
        ("3 parts", &ratio, "parts by weight", 3.0),
    ];
    for (written, customs, kind, value) in all {
        let (found, n) = plain(read_by(written, customs).unwrap_or_else(|e| panic!("{written}: {e:?}")).literal);
        assert_eq!(found, kind, "{written}");
        assert!((n - value).abs() <= 1e-12 * value, "{written}: {n}, {value} was expected");
    }
    for (written, customs) in [("1 pint", &metric), ("1 cup sugar", &us), ("1 bottle", &us), ("1 c", &us)] {
        assert!(read_by(written, customs).is_err(), "{written}");
    }
}

#[test]
fn the_numbers_of_a_text_tell_what_its_commas_are() {
    let all: [(&[&str], Option<Comma>); 10] = [
        (&["1,250 g", "0.5 g"], Some(Comma::Thousands)),
        (&["1,250 g", "12.5 g"], Some(Comma::Thousands)),
        (&["1,250 g", "1,250,000 g"], Some(Comma::Thousands)),
        (&["1,250 g", "0,5 g"], Some(Comma::Decimal)),
        (&["1,250 g", "1.250,5 g"], Some(Comma::Decimal)),
        (&["1,250 g", "0,500 kg"], Some(Comma::Decimal)),
        // To some a point parts thousands.
        (&["1,250 g", "1.500 g"], None),
        (&["1,250 g", "500 g"], None),
        (&["1,250 g", "0.5 g", "0,5 g"], None),
        (&["as needed", "", "½ tsp", "1/2 tsp", "2 limes"], None),
    ];
    for (amounts, told) in all {
        assert_eq!(comma_of(amounts.iter().copied()), told, "{amounts:?}");
    }
}

/// What a line counts: how many, what is taken of each, what is counted.
#[test]
fn what_is_counted_is_read_where_a_line_may_name_it() {
    let all: [(&str, &str, f64, Option<Portion>, &[&str]); 19] = [
        ("20 cloves", "cloves", 20.0, None, &["clove"]),
        ("2 cinnamon sticks", "cinnamon", 2.0, None, &["cinnamon", "stick"]),
        ("2 sticks", "cinnamon", 2.0, None, &["stick"]),
        ("1 vanilla pod", "vanilla", 1.0, None, &["vanilla", "pod"]),
        ("a bunch", "mint", 1.0, None, &["bunch"]),
        ("a bunch of mint", "mint", 1.0, None, &["bunch", "mint"]),
        ("10 sprigs", "thyme", 10.0, None, &["sprig"]),
        ("1 handful", "basil", 1.0, None, &["handful"]),
        ("half a lemon", "lemon", 0.5, None, &["lemon"]),
        ("1 1/2 lemons", "lemon", 1.5, None, &["lemon"]),
        ("two egg whites", "egg white", 2.0, None, &["egg", "white"]),
        ("12 bay leaves", "bay", 12.0, None, &["bay", "leaf"]),
        ("3 dates", "dates", 3.0, None, &["date"]),
        ("juice of 2 limes", "lime juice", 2.0, Some(Portion::Juice), &["lime"]),
        ("Juice of 2", "limes", 2.0, Some(Portion::Juice), &[]),
        ("the juice of half a lemon", "lemon", 0.5, Some(Portion::Juice), &["lemon"]),
        ("peel of 8 lemons", "lemon peel", 8.0, Some(Portion::Peel), &["lemon"]),
        ("zest of 6 limes", "lime zest", 6.0, Some(Portion::Zest), &["lime"]),
        ("zest from a lime", "lime zest", 1.0, Some(Portion::Zest), &["lime"]),
    ];
    for (written, name, count, taken, said) in all {
        let reading = read_of(written, name, &Customs::default()).unwrap_or_else(|e| panic!("{written}: {e:?}"));
        assert_eq!(plain(reading.literal), ("pieces", count), "{written}");
        let counted = reading.counted.unwrap_or_else(|| panic!("{written}"));
        assert_eq!(
            (counted.taken, counted.words.as_slice()),
            (taken, said.iter().map(|s| (*s).to_owned()).collect::<Vec<_>>().as_slice()),
            "{written}"
        );
    }
    // The amount says again what the line is called.
    for (written, name, same) in
        [("2 dashes of bitters", "aromatic bitters", "2 dashes"), ("250 ml lime juice", "lime juice", "250 ml")]
    {
        let read = read_of(written, name, &Customs::default()).unwrap_or_else(|e| panic!("{written}: {e:?}"));
        assert_eq!(Ok(read.literal), parse(same), "{written}");
    }
    for (written, name) in [
        ("250 ml lime juice", "rum"),
        ("750 mililitres", "rum"),
        ("2 dahses", "bitters"),
        ("2 limes, juiced", "lime"),
        ("1 lb 4 oz", "lime"),
    ] {
        assert!(read_of(written, name, &Customs::default()).is_err(), "{written}");
    }
}

#[test]
fn what_people_write_is_read() {
    for (written, kind, value) in WRITTEN {
        let (found, n) = plain(parse(written).unwrap_or_else(|e| panic!("{written}: {e:?}")));
        assert_eq!(found, *kind, "{written}");
        assert!((n - value).abs() <= 1e-12 * value.abs().max(1.0), "{written}: {n}, {value} was expected");
    }
}

#[test]
fn every_fraction_character_is_its_fraction() {
    let signs = "½1/2 ⅓1/3 ⅔2/3 ¼1/4 ¾3/4 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅐1/7 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8 ⅑1/9 ⅒1/10";
    for pair in signs.split(' ') {
        let (sign, spelt) = pair.split_at(pair.chars().next().unwrap().len_utf8());
        assert_eq!(parse(sign), parse(spelt), "{pair}");
        assert_eq!(parse(&format!("2{sign} ml")), parse(&format!("2 {spelt} ml")), "{pair}");
    }
}

/// Text, code, the piece at fault, title, help.
const REFUSALS: &[(&str, Code, &str, &str, &str)] = &[
    (
        "2 oz",
        Code::AmbiguousUnit,
        "oz",
        "`oz` can mean more than one unit",
        "write `2 fl oz` (59.1 ml), `2 imp fl oz` (56.8 ml), `2 oz wt` (56.7 g) or `2 jigger oz` (60 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "2 tins (400 g)",
        Code::EachOrAll,
        "2 tins (400 g)",
        "`2 tins (400 g)` is so much each, or all together?",
        "for each write \"2 tins (400 g each)\"; for all of it \"400 g\"",
    ),
    ("2oz lime juice", Code::AmbiguousUnit, "oz", "`oz` can mean more than one unit", ""),
    (
        "1/2 cup",
        Code::AmbiguousUnit,
        "cup",
        "`cup` can mean more than one unit",
        "write `1/2 US cup` (118 ml) or `1/2 metric cup` (125 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "1 c",
        Code::AmbiguousUnit,
        "c",
        "`c` can mean more than one unit",
        "write `1 °C`, `1 US cup` (237 ml) or `1 metric cup` (250 ml)",
    ),
    (
        "1 Pint",
        Code::AmbiguousUnit,
        "Pint",
        "`Pint` can mean more than one unit",
        "write `1 US pint` (473 ml) or `1 imp pint` (568 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "1 pt",
        Code::AmbiguousUnit,
        "pt",
        "`pt` can mean more than one unit",
        "write `1 US pint` (473 ml) or `1 imp pint` (568 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "2 gallons",
        Code::AmbiguousUnit,
        "gallons",
        "`gallons` can mean more than one unit",
        "write `2 US gal` (7,571 ml) or `2 imp gal` (9,092 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "1 quart",
        Code::AmbiguousUnit,
        "quart",
        "`quart` can mean more than one unit",
        "write `1 US quart` (946 ml) or `1 imp quart` (1,137 ml); or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "6 g/gal",
        Code::AmbiguousUnit,
        "gal",
        "`gal` can mean more than one unit",
        "write `6 g/US gal` or `6 g/imp gal`; or settle it for the house: [house] measures = \"US\" (\"imperial\", \"metric\") in house.toml",
    ),
    (
        "3 months",
        Code::UnknownUnit,
        "months",
        "`months` is not a unit that is read here",
        "months and years differ in length: write \"90 days\" or \"12 weeks\"",
    ),
    ("5. g", Code::UnknownUnit, ". g", "`. g` is not a unit", UNITS),
    ("1 gr", Code::AmbiguousUnit, "gr", "`gr` can mean more than one unit", "write `1 g`"),
    (
        "70 UK proof",
        Code::UnknownUnit,
        "UK proof",
        "`UK proof` is not a unit that is read here",
        "the old UK scale is not the US one: write the percent by volume, as \"40 % vol\"",
    ),
    (
        "40 % w/w",
        Code::UnknownUnit,
        "% w/w",
        "`% w/w` is not a unit that is read here",
        "a share of the finished weight is \"5 %\", a strength \"40 % vol\", a mass per volume \"50 g/L\"",
    ),
    (
        "6 bottles",
        Code::UnknownUnit,
        "bottles",
        "`bottles` does not say what one holds",
        "say it once: bottle = \"700 ml\" on the card, or under [house] in house.toml; or here, as \"6 x 700 ml\"",
    ),
    ("1,500 g", Code::AmbiguousNumber, "1,500", "`1,500` can be read in two ways", "write `1500 g` or `1.5 g`"),
    ("1_000 g", Code::NotANumber, "1_000", "`1_000` is not a plain number", "did you mean `1000 g`?"),
    (
        "1.5.2 g",
        Code::NotANumber,
        "1.5.2",
        "`1.5.2` is not a plain number",
        "a number such as 750, 0.75, 1/2 or 1 1/2 was expected",
    ),
    ("1 500 g", Code::NotANumber, "1 500", "`1 500` is two numbers, one was expected", "did you mean `1500 g`?"),
    ("1-1/2 fl oz", Code::NotANumber, "1-1/2", "`1-1/2` is not a plain number", "did you mean `1 1/2 fl oz`?"),
    (
        "2-3 dashes",
        Code::NotANumber,
        "2-3",
        "`2-3` is a range, one amount was expected",
        "write the amount you use: `2` or `3`; in the middle: \"2.5 dashes\"",
    ),
    (
        "2 to 3 dashes",
        Code::NotANumber,
        "2 to 3",
        "`2 to 3` is a range, one amount was expected",
        "write the amount you use: `2` or `3`; in the middle: \"2.5 dashes\"",
    ),
    ("1e3 g", Code::NotANumber, "1e3", "`1e3` is written with an exponent", "write the number out, as \"1500 g\""),
    ("1e999", Code::NotANumber, "1e999", "`1e999` is written with an exponent", "write the number out, as \"1500 g\""),
    ("1/0 g", Code::OutOfRange, "1/0", "`1/0` divides by zero", "a fraction such as 1/2 was expected"),
    ("NaN g", Code::NotANumber, "NaN g", "`NaN g` does not begin with a number", EXAMPLES),
    ("inf", Code::NotANumber, "inf", "`inf` does not begin with a number", EXAMPLES),
    ("some", Code::NotANumber, "some", "`some` does not begin with a number", EXAMPLES),
    ("litre", Code::NotANumber, "litre", "`litre` does not begin with a number", "did you mean `1 litre`?"),
    ("as neded", Code::NotANumber, "as neded", "`as neded` does not begin with a number", "did you mean `as needed`?"),
    ("", Code::NotANumber, "", "the amount is empty", EXAMPLES),
    (" \u{a0} ", Code::NotANumber, " \u{a0} ", "the amount is empty", EXAMPLES),
    ("750\u{7}ml", Code::NotANumber, "\u{7}", "`\\u{7}` is a control character, not part of an amount", ""),
    ("🍋", Code::NotANumber, "🍋", "`🍋` does not begin with a number", EXAMPLES),
    ("3 🍋", Code::UnknownUnit, "🍋", "`🍋` is not a unit", UNITS),
    ("750", Code::NoUnit, "750", "`750` has no unit; a mass was expected", "for example \"750 g\" or \"2 lb\""),
    ("-5 g", Code::OutOfRange, "-5", "`-5` is below zero; an amount cannot be negative", ""),
    ("-300 °C", Code::OutOfRange, "-300 °C", "`-300 °C` is colder than absolute zero, -273.15 °C", ""),
    (
        "1000000001 g",
        Code::OutOfRange,
        "1000000001",
        "`1000000001` is more than any amount can be",
        "a number up to 1000000000 was expected",
    ),
    ("101 °Bx", Code::OutOfRange, "101 °Bx", "`101 °Bx` is more than 100 g of solids in 100 g", ""),
    ("201 proof", Code::OutOfRange, "201 proof", "`201 proof` is more than pure alcohol, which is 200 proof", ""),
    (
        "750 mililitres",
        Code::UnknownUnit,
        "mililitres",
        "`mililitres` is not a unit",
        "did you mean `750 millilitres`?",
    ),
    ("2 dahses", Code::UnknownUnit, "dahses", "`dahses` is not a unit", "did you mean `2 dashes`?"),
    ("3 limes", Code::UnknownUnit, "limes", "`limes` is not a unit", UNITS),
    ("5 /L", Code::UnknownUnit, "", "a unit was expected", UNITS),
    (
        "750 ml rum",
        Code::UnknownUnit,
        "rum",
        "`rum` is left over after `750 ml`",
        "an amount is one number and one unit",
    ),
    (
        "1 lb 4 oz",
        Code::UnknownUnit,
        "4 oz",
        "`4 oz` is left over after `1 lb`",
        "an amount is one number and one unit",
    ),
    (
        "10 g/kg",
        Code::UnknownUnit,
        "g/kg",
        "`g/kg` is a share by weight",
        "write it in percent: 10 g/kg of the finished weight is \"1 %\"",
    ),
    (
        "6 g/day",
        Code::UnknownUnit,
        "g/day",
        "`g/day` is not mass or volume for each volume",
        "for example \"6 g/L\" or \"20 ml/L\"",
    ),
    ("6 g/0 L", Code::OutOfRange, "g/0 L", "`g/0 L` divides by zero", ""),
    (
        "6 x 250 g",
        Code::WrongDimension,
        "250 g",
        "`250 g` is a mass; what one bottle holds is a volume",
        "for example \"6 x 250 ml\"",
    ),
    ("2.5 x 250 ml", Code::OutOfRange, "2.5", "`2.5` is not a whole number of bottles", ""),
];
const EXAMPLES: &str =
    "an amount is written as \"750 g\", \"700 ml\", \"0.75 fl oz\", \"6 g/L\", \"3 each\" or \"as needed\"";
const UNITS: &str =
    "units are: g, kg, oz wt, lb, ml, L, fl oz, tsp, dash, each, parts by weight, %, g/L, °Bx, °C, min, days";

/// The error of `parse`, or of the reader of masses for what `parse` accepts.
fn refused(written: &str) -> LiteralError {
    parse(written).and_then(|_| readers::mass(written)).map_or_else(|e| e, |m| panic!("{written}: read as {m:?}"))
}

#[test]
fn every_refusal_points_at_the_fault_and_says_what_to_write() {
    for (written, code, fault, title, help) in REFUSALS {
        let error = refused(written);
        assert_eq!((error.code, error.title.as_str()), (*code, *title), "{written}");
        assert_eq!(&written[error.at.clone()], *fault, "{written}");
        if !help.is_empty() {
            assert_eq!(error.help.as_deref(), Some(*help), "{written}");
        }
    }
}

#[test]
fn a_fix_reads() {
    let mut fixes = 0;
    for (written, ..) in REFUSALS {
        if let Some(fix) = refused(written).fix {
            fixes += 1;
            assert!(parse(&fix).is_ok(), "{written}: the fix `{fix}` is not read");
        }
    }
    assert!(fixes > 8);
}

/// The reference table of measures and the words that they are read by.
#[test]
fn every_measure_has_the_size_of_the_reference_table() {
    let names = [
        ("us_fl_oz", "fl oz"),
        ("imp_fl_oz", "imp fl oz"),
        ("label_fl_oz_us", "label fl oz"),
        ("bar_oz", "jigger oz"),
        ("label_tsp_us", "tsp"),
        ("label_cup_us", "label cup"),
        ("label_oz_us", "label oz wt"),
        ("us_tsp", "US tsp"),
        ("us_tbsp", "US tbsp"),
        ("us_cup", "US cup"),
        ("us_quart", "US quart"),
        ("us_gallon", "US gal"),
        ("imp_gallon", "imp gal"),
        ("metric_cup", "metric cup"),
        ("au_tbsp", "AU tbsp"),
        ("avdp_oz", "oz wt"),
        ("bar_spoon", "bar spoon"),
        ("dash_kitchen", "kitchen dash"),
        ("dash_bitters", "dash"),
        ("drop_metric", "drop"),
        ("splash", "splash"),
        ("pony", "pony"),
        ("jigger_us", "US jigger"),
        ("pinch", "pinch"),
    ];
    let mut table = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/measures.csv"))
        .unwrap();
    let mut checked = 0;
    for row in table.records().map(Result::unwrap) {
        let (unit, size) = (&row[0], &row[2]);
        let name = names.iter().find(|n| n.0 == unit).unwrap_or_else(|| panic!("`{unit}` is not read")).1;
        let found = measure(name).unwrap();
        let kind = if &row[3] == "g" { Dimension::Mass } else { Dimension::Volume };
        assert_eq!(found.dimension, kind, "{unit}");
        // To half a unit in the last digit that the table prints; full length where it is exact.
        let decimals = size.split_once('.').map_or(0, |(_, d)| d.len() as i32);
        let tolerance = 0.5 * 10f64.powi(-decimals) + 1e-12;
        let difference = found.factor - size.parse::<f64>().unwrap();
        assert!(difference.abs() <= tolerance, "{unit}: {} against {size}", found.factor);
        assert_eq!(
            found.is_common_practice(),
            row[4].contains("common practice") || row[4].contains("convention"),
            "{unit}"
        );
        checked += 1;
    }
    assert_eq!(checked, names.len());
}

#[test]
fn every_spelling_reads_in_any_case() {
    let sized = Customs { bottle: Some(millilitres(700.0)), ..Customs::default() };
    for m in MEASURES.iter() {
        for spelling in m.spellings.iter() {
            for written in [spelling.clone(), spelling.to_uppercase(), spelling.replace(' ', "\u{a0} ")] {
                let text = format!("1 {written}");
                let reading = read_by(&text, &sized).unwrap_or_else(|e| panic!("{text}: {e:?}"));
                assert_eq!(reading.measure.map(|m| &m.name), Some(&m.name), "{text}");
            }
        }
    }
    for refused in REFUSED.iter() {
        for spelling in refused.spellings.iter() {
            let error = parse(&format!("1 {spelling}")).unwrap_err();
            assert!(error.help.is_some_and(|h| !h.is_empty()), "{spelling}");
        }
    }
}

#[test]
fn every_choice_that_a_help_offers_is_read() {
    for refused in REFUSED.iter().filter(|r| !r.choices.is_empty()) {
        let help = parse(&format!("2 {}", refused.spellings[0])).unwrap_err().help.unwrap();
        let offered: Vec<_> = help.split('`').skip(1).step_by(2).collect();
        assert_eq!(offered.len(), refused.choices.len());
        for choice in offered {
            assert!(parse(choice).is_ok(), "{choice}");
        }
    }
}

#[test]
fn a_long_text_is_refused_at_once() {
    for piece in ["9", "x", "9 ", "1/", "oz ", "é", ".,", "6x", "g/", "per "] {
        let text = piece.repeat(50_000);
        assert!(parse(&text).is_err());
        assert!(parse(&format!("1 {text}")).is_err());
    }
}

#[test]
fn readers_take_one_kind() {
    assert_eq!(readers::mass("1,5 kg").map(in_grams).map(f64::round), Ok(1500.0));
    assert_eq!(readers::volume("70 cl"), Ok(millilitres(700.0)));
    assert_eq!(readers::temperature("4 °C"), Ok(celsius(4.0)));
    assert_eq!(readers::concentration("250 g/L"), Ok(grams_per_litre(250.0)));
    assert_eq!(readers::duration("2 h").map(|t| t.value), Ok(7200.0));
    for error in [
        readers::volume("2 lb").unwrap_err(),
        readers::temperature("5 min").unwrap_err(),
        readers::duration("4 °C").unwrap_err(),
        readers::concentration("5 %").unwrap_err(),
        readers::brix("5 %").unwrap_err(),
        readers::abv("64 °Bx").unwrap_err(),
        readers::fraction("as needed").unwrap_err(),
    ] {
        assert_eq!(error.code, Code::WrongDimension);
        let example = error.help.unwrap();
        let shown = example.split('"').nth(1).unwrap();
        assert!(parse(shown).is_ok(), "{shown}");
    }
}

/// Texts made of the pieces that amounts are made of, so that every branch is met.
fn amountish() -> impl Strategy<Value = String> {
    let pieces = MEASURES
        .iter()
        .flat_map(|m| m.spellings.iter())
        .chain(REFUSED.iter().flat_map(|r| r.spellings.iter()))
        .map(String::as_str);
    let marks = [
        " ",
        "\u{a0}",
        "0",
        "1",
        "7",
        "500",
        "1,500",
        "0.5",
        ".",
        ",",
        "/",
        "⁄",
        "½",
        "⅓",
        "x",
        "×",
        "-",
        "−",
        "–",
        "e9",
        "E",
        "per",
        "to",
        "°",
        "as needed",
        "NaN",
        "inf",
        "🍋",
        "\u{0}",
        "\n",
        "İ",
        "ß",
        "'",
        "_",
        "(",
        ")",
        "+",
        "%",
    ];
    let pieces: Vec<&'static str> = pieces.chain(marks).collect();
    prop::collection::vec(prop::sample::select(pieces), 0..8).prop_map(|p| p.concat())
}

#[test]
fn no_text_panics_and_every_error_can_be_shown() {
    let text = prop_oneof![amountish(), any::<String>(), "[0-9 .,/½x-]{0,12}[a-zA-Z%° ]{0,8}"];
    runner(20_000)
        .run(&text, |text| {
            match read(&text) {
                Ok(reading) => {
                    prop_assert!(plain(reading.literal).1.is_finite());
                    prop_assert!(!reading.echo().contains("unknown"));
                }
                Err(error) => {
                    prop_assert!(text.get(error.at.clone()).is_some(), "{text:?}: {error:?}");
                    prop_assert!(!error.title.is_empty() && !error.title.contains(char::is_control));
                }
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn what_was_understood_reads_as_the_same() {
    runner(20_000)
        .run(&amountish(), |text| {
            if let Ok(reading) = read(&text) {
                let again = read(&reading.named);
                prop_assert!(again.is_ok(), "{text:?} named {:?}: {again:?}", reading.named);
                let ((kind, n), (kind_again, m)) = (plain(reading.literal), plain(again.unwrap().literal));
                prop_assert_eq!(kind, kind_again);
                prop_assert!((n - m).abs() <= 1e-12 * n.abs());
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn a_mass_printed_in_grams_is_read_back() {
    runner(5_000)
        .run(&(0.0..1e9f64), |g| {
            let back = readers::mass(&format!("{} g", in_grams(grams(g)))).map(in_grams);
            prop_assert!(back.is_ok_and(|b| (b - g).abs() <= 4.0 * f64::EPSILON * g));
            Ok(())
        })
        .unwrap();
}

#[test]
fn a_printed_number_is_within_half_a_step_and_never_minus_zero() {
    runner(5_000)
        .run(&(-1e7..1e7f64, 0usize..4), |(n, decimals)| {
            let number = |text: &str| text.replace(',', "").parse::<f64>().unwrap();
            let text = display::grouped(n, decimals);
            prop_assert!((number(&text) - n).abs() <= 0.5 * 10f64.powi(-(decimals as i32)) + 1e-8);
            prop_assert!(!display::grouped(n * 1e-12, decimals).starts_with('-'));
            Ok(())
        })
        .unwrap();
}

#[test]
fn what_was_understood_is_said_with_its_definition() {
    for (written, said) in [
        ("0.75 fl oz", "0.75 fl oz (US) = 22.2 ml"),
        ("1 dash", "1 dash = 0.9 ml, common practice (0.6 to 0.92 ml are quoted: weigh ten of yours)"),
        ("1½ jigger oz", "1½ jigger oz = 45 ml, common practice"),
        ("2 tsp", "2 tsp = 10 ml (the 5 ml spoon of labels; the customary one is `US tsp`, 4.93 ml)"),
        ("750 ml", "750 ml"),
        ("1,5 kg", "1.5 kg = 1,500 g"),
        ("2 dashes / litre", "2 dashes/L = 1.8 ml/L, common practice (0.6 to 0.92 ml are quoted: weigh ten of yours)"),
        ("185F", "185 °F = 85 °C"),
        ("86 proof", "86 proof = 43 % vol at 60 °F"),
        ("90 min", "90 min = 1.5 h"),
        ("6 x 8 imp fl oz", "6 x 8 fl oz (imp) = 6 x 227 ml"),
        ("6x250.4ml", "6 x 250.4 ml"),
        ("64.25 brix", "64.25 °Bx"),
        ("1/3 jigger oz", "1/3 jigger oz = 10 ml, common practice"),
        ("1 each", "1 piece"),
        ("64", "64"),
        ("as needed", "as needed"),
    ] {
        assert_eq!(read(written).map(|r| r.echo()).as_deref(), Ok(said));
    }
}
