//! Doses and limits by hand, the hazards that a product carries, the figures that a caution is said with, and the tables of
//! Kleene that judge what is not known.

use std::collections::BTreeSet;

use stillroom::safety::allergens::declared;
use stillroom::safety::doses::{
    BODY_MASS_KG, COUMARIN_DAILY, LiquoriceLabel, Preservative, QuinineSource, Salt, coumarin_per_serving,
    cyanide_acute_dose, liquorice_label, named, preservative_limit_mg_kg,
};
use stillroom::safety::hazards::carried_by;
use stillroom::safety::intake::{Carrier, Intake, intakes};
use stillroom::safety::trigger::{Missing, Truth, parse};
use stillroom::safety::variables::Variable;
use stillroom::safety::{Fact, Facts, Market, Members, evaluate};
use stillroom::units::{Abv, MassFraction, grams, grams_per_litre, in_grams, kg_per_m3};
use stillroom::vocabulary::{Allergen, Tag, Word};

fn intakes_of(tag: Tag, grams: f64, abv: f64) -> Vec<Intake> {
    let carrier = Carrier { tag, grams, is_dry: true, litres: Some(1.0), servings: Some(20.0), abv: Abv::new(abv) };
    intakes(&carrier)
}

#[test]
fn intakes_by_hand() {
    // 20 g of coffee at 12 mg/g in 1 L of 20 servings
    let [coffee] = &intakes_of(Tag::Coffee, 20.0, 0.0)[..] else { panic!() };
    assert_eq!((coffee.mg_per_l, coffee.mg_per_serving, coffee.may_pass), (Some(240.0), Some(12.0), true));
    // 0.375 g of raw apricot kernel is what an adult of 60 kg may take (EFSA 2016 says 0.37)
    let [kernel] = &intakes_of(Tag::StoneFruitKernel, 7.5, 0.0)[..] else { panic!() };
    assert!((kernel.mg_per_serving.unwrap() - 1.2).abs() < 1e-9 && !kernel.may_pass);
    // one row of the two holds, by the strength
    assert_eq!(intakes_of(Tag::Wormwood, 1.0, 45.0)[0].limit_mg_per_l, Some(35.0));
    assert_eq!(intakes_of(Tag::Wormwood, 1.0, 0.0)[0].limit_mg_per_l, Some(0.5));
}

#[test]
fn bark_is_said_in_grams_and_liquorice_has_its_label() {
    let [bark] = &intakes_of(Tag::Cinchona, 12.0, 0.0)[..] else { panic!() };
    assert!(bark.mg_per_l.is_none() && bark.to_string().contains("12 g of cinchona: not known from its weight"));
    assert_eq!(intakes_of(Tag::Liquorice, 0.05, 0.0)[0].label, None);
    assert_eq!(intakes_of(Tag::Liquorice, 0.2, 0.0)[0].label, Some("contains liquorice"));
    assert!(intakes_of(Tag::Liquorice, 2.0, 0.0)[0].label.unwrap().contains("hypertension"));
    assert_eq!(intakes_of(Tag::Liquorice, 2.0, 20.0)[0].label, Some("contains liquorice"));
}

#[test]
fn a_thousandfold_slip_is_asked_about() {
    let [tonka] = &intakes_of(Tag::Tonka, 500.0, 40.0)[..] else { panic!() };
    assert!(tonka.grams_for_milligrams && tonka.to_string().contains("were milligrams meant?"));
    assert!(!intakes_of(Tag::Tonka, 5.0, 40.0)[0].grams_for_milligrams);
}

#[test]
fn free_acid_of_the_salts() {
    // as printed in the sources, to four decimals
    let printed = [
        (Salt::PotassiumSorbate, 0.7464),
        (Salt::SodiumBenzoate, 0.8475),
        (Salt::PotassiumMetabisulphite, 0.5763),
        (Salt::SodiumMetabisulphite, 0.6740),
    ];
    for (salt, share) in printed {
        assert!((in_grams(salt.free_acid(grams(1.0))) - share).abs() < 5.1e-5, "{salt:?}");
    }
    // supplier text: 1.18 g of sodium benzoate is 1 g of benzoic acid
    assert!((1.0 / in_grams(Salt::SodiumBenzoate.free_acid(grams(1.0))) - 1.18).abs() < 0.005);
}

#[test]
fn a_name_tells_which_salt_it_is() {
    assert_eq!(named(["Campden powder", "Potassium Metabisulfite (food grade)"]), Some(Salt::PotassiumMetabisulphite));
    assert_eq!(named(["preservative E202"]), Some(Salt::PotassiumSorbate));
    assert_eq!(named::<Salt>(["potassium bitartrate", "sorbates"]), None);
    assert_eq!(named(["quinine sulfate USP"]), Some(QuinineSource::SulphateDihydrate));
    assert_eq!(named::<QuinineSource>(["quinine"]), None);
}

#[test]
fn bark_is_refused() {
    assert_eq!(QuinineSource::Bark.quinine(grams(10.0)), None);
    assert_eq!(QuinineSource::Bark.quinine_mg_kg(grams(10.0), grams(1000.0)), Fact::None);
    // molar masses from memory: quinine 324.4, sulphate dihydrate 782.9, hydrochloride dihydrate 396.9 g/mol
    let share = |source: QuinineSource| in_grams(source.quinine(grams(1.0)).unwrap());
    assert!((share(QuinineSource::SulphateDihydrate) - 2.0 * 324.42 / 782.94).abs() < 1e-4);
    assert!((share(QuinineSource::HydrochlorideDihydrate) - 324.42 / 396.91).abs() < 1e-4);
    let Fact::Known(mg_kg) = QuinineSource::Base.quinine_mg_kg(grams(0.083), grams(1000.0)) else { panic!() };
    assert!((mg_kg - 83.0).abs() < 1e-9);
    assert_eq!(QuinineSource::Base.quinine_mg_kg(grams(1.0), grams(0.0)), Fact::Unknown);
}

#[test]
fn limits_by_market_and_strength() {
    let of = |markets: &[Market], abv, both| {
        let abv = Abv::new(abv).unwrap();
        preservative_limit_mg_kg(Preservative::Benzoic, markets, abv, both, kg_per_m3(1250.0))
    };
    assert_eq!(of(&[Market::Us], 0.0, false), Fact::Known(847.5));
    assert_eq!(of(&[Market::Eu], 0.0, false), Fact::Known(120.0));
    assert_eq!(of(&[], 0.0, false), Fact::Known(120.0));
    assert_eq!(of(&[Market::Uk], 10.0, false), Fact::Known(160.0));
    assert_eq!(of(&[Market::Uk], 15.0, false), Fact::Unknown);
    assert_eq!(of(&[Market::Us, Market::AuNz], 0.0, false), Fact::Unknown);
    let sorbic = |both| {
        let (markets, abv) = (&[Market::Eu], Abv::new(0.0).unwrap());
        preservative_limit_mg_kg(Preservative::Sorbic, markets, abv, both, kg_per_m3(1000.0))
    };
    assert_eq!((sorbic(false), sorbic(true)), (Fact::Known(300.0), Fact::Known(250.0)));
}

#[test]
fn coumarin_of_sixty_kilograms() {
    // 60 kg: 6 mg a day, that is 0.86 g of cassia at 7 mg/g
    let content = MassFraction::new(0.007).unwrap();
    let coumarin = coumarin_per_serving(grams(0.86), content, None, 1.0).unwrap();
    assert!((in_grams(coumarin) * 1000.0 - 6.0).abs() < 0.03);
    assert!((BODY_MASS_KG * 1e6 * COUMARIN_DAILY - 6.0).abs() < 1e-9);
    assert_eq!(coumarin_per_serving(grams(1.0), content, None, 0.0), None);
}

#[test]
fn steps_of_liquorice_and_the_dose_of_cyanide() {
    let of = |mg_l: f64, abv| liquorice_label(Some(grams_per_litre(mg_l / 1000.0)), Abv::new(abv).unwrap());
    assert_eq!(of(9.9, 0.0), Some(LiquoriceLabel::Nothing));
    assert_eq!(of(10.0, 0.0), Some(LiquoriceLabel::Name));
    assert_eq!(of(50.0, 0.0), Some(LiquoriceLabel::BloodPressure));
    assert_eq!(of(50.0, 20.0), Some(LiquoriceLabel::Name));
    assert_eq!(of(300.0, 20.0), Some(LiquoriceLabel::BloodPressure));
    assert_eq!(liquorice_label(None, Abv::new(20.0).unwrap()), None);
    assert!((in_grams(cyanide_acute_dose(grams(60_000.0))) * 1000.0 - 1.2).abs() < 1e-12);
}

fn facts(tag: Tag, market: Market, abv: f64) -> Facts {
    Facts {
        tags: Members::known([tag]),
        process: Members::none(),
        market: vec![market],
        abv: Fact::Known(abv),
        ..Facts::default()
    }
}

#[test]
fn limits_are_those_of_the_market_and_of_the_strength() {
    let limits = |facts: &Facts| -> Vec<f64> { carried_by(facts).iter().filter_map(|h| h.limit).collect() };
    assert_eq!(limits(&facts(Tag::Quinine, Market::Us, 0.0)), [83.0]);
    assert_eq!(limits(&facts(Tag::Quinine, Market::Eu, 0.0)), [85.0]);
    assert_eq!(limits(&facts(Tag::Liquorice, Market::Eu, 0.0)), [10.0, 50.0]);
    assert_eq!(limits(&facts(Tag::Liquorice, Market::Uk, 20.0)), [10.0, 300.0]);
    // A herb or a spice alone is excepted from the limits on what it holds.
    assert!(limits(&facts(Tag::Clove, Market::Eu, 0.0)).is_empty());
    assert!(carried_by(&Facts { tags: Members::none(), ..Facts::default() }).is_empty());
}

#[test]
fn a_dose_stands_beside_the_limit_that_is_meant() {
    let tonic = Facts { quinine_mg_kg: Fact::Known(62.4), ..facts(Tag::Quinine, Market::Us, 0.0) };
    let [limit] = &carried_by(&tonic)[..] else { panic!() };
    assert_eq!((limit.dose, limit.limit), (Some(62.4), Some(83.0)));
    assert_eq!(serde_json::json!(limit.source), "CFR172_575");
    assert_eq!(
        limit.to_string(),
        "quinine (US): 83 mg/kg as quinine; here 62; max; label must name quinine; carbonated beverages"
    );
}

fn is_declared(market: Market, allergen: Allergen) -> bool {
    !declared(market, &allergen.into(), Fact::Unknown).is_empty()
}

#[test]
fn only_a_distillate_is_exempt_and_only_where_the_list_says_so() {
    let entry = |market| declared(market, &Allergen::Almond.into(), Fact::Unknown)[0];
    assert!(Market::ALL.iter().all(|&market| is_declared(market, Allergen::Almond)));
    assert!(entry(Market::Eu).distillate_exempt && !entry(Market::Us).distillate_exempt);
}

#[test]
fn markets_differ_in_what_they_list() {
    assert!(Market::ALL.iter().all(|&market| !is_declared(market, Allergen::Coconut)));
    assert!(is_declared(Market::Us, Allergen::PineNut) && !is_declared(Market::Eu, Allergen::PineNut));
    assert!(is_declared(Market::Ca, Allergen::PineNut));
    assert!(is_declared(Market::Eu, Allergen::TreeNuts), "a kind that is not stated always counts");
    assert!(is_declared(Market::Eu, Allergen::Celery) && !is_declared(Market::Us, Allergen::Celery));
    assert!(is_declared(Market::Us, Allergen::Wheat));
    assert!(!is_declared(Market::Us, Allergen::Barley));
    assert!(is_declared(Market::Ca, Allergen::Molluscs));
}

#[test]
fn the_sulphite_line_is_drawn_on_two_sides() {
    let on = |market, so2| declared(market, &Allergen::Sulphites.into(), so2).len();
    let known = |market, mg_kg| on(market, Fact::Known(mg_kg));
    assert_eq!((known(Market::Eu, 10.0), known(Market::Eu, 10.01), known(Market::Eu, f64::NAN)), (0, 1, 1));
    assert_eq!((known(Market::Us, 9.0), known(Market::Us, 10.0), known(Market::AuNz, 9.99)), (0, 1, 0));
    assert_eq!(on(Market::Us, Fact::Unknown), 1);
}

/// The figures of every caution that facts raise which say little else.
fn figures(facts: &Facts) -> BTreeSet<String> {
    evaluate(facts).into_iter().flat_map(|caution| caution.figures).collect()
}

#[test]
fn a_figure_is_said_where_it_is_known() {
    let facts = Facts {
        abv: Fact::Known(18.0),
        quinine_mg_kg: Fact::Known(90.4),
        sorbic_mg_kg: Fact::Known(310.0),
        limit_sorbic: Fact::Known(250.0),
        benzoic_mg_kg: Fact::Known(0.0),
        body_mass_kg: Fact::Known(60.0),
        ..Facts::default()
    };
    let of_liquorice = Facts { tags: Members::known([Tag::Liquorice]), ..facts.clone() };
    let said = &figures(&facts) | &figures(&of_liquorice);
    let begins = |of: &str| said.iter().any(|figure| figure.starts_with(of));
    assert!(begins("18.0 % vol: long life likely, spoilage possible (Lactobacillus"), "{said:?}");
    for whole in [
        "90 mg/kg of quinine",
        "310 mg/kg of sorbic acid; its limit is 250 mg/kg",
        "1.2 mg of hydrocyanic acid on one occasion for 60 kg of body",
    ] {
        assert!(said.contains(whole), "{whole}: {said:?}");
    }
    assert!(
        said.iter().any(|figure| figure.contains("glycyrrhizinic") && figure.contains("from 300 mg/L")),
        "{said:?}"
    );
    for unknown in ["sulphur dioxide", "benzoic"] {
        assert!(!said.iter().any(|figure| figure.contains(unknown)), "{unknown}: {said:?}");
    }
}

fn unknown(names: &[&'static str]) -> Truth {
    let missing = |name: &&str| Missing { variable: Variable::from_name(name).unwrap(), member: None };
    Truth::Unknown(names.iter().map(missing).collect())
}

#[test]
fn the_tables_of_kleene() {
    let facts = Facts { ph: Fact::Known(4.0), ..Facts::default() };
    let answer = |when: &str| parse(when).unwrap().evaluate(&facts, Market::Us);
    let (yes, no, a, b) = ("ph > 3", "ph > 5", "packaged", "pasteurised");
    let (of_a, of_b) = (|| unknown(&["packaged"]), || unknown(&["pasteurised"]));
    let both = || unknown(&["packaged", "pasteurised"]);
    // left, right, and, or
    for (left, right, and, or) in [
        (yes, yes, Truth::True, Truth::True),
        (yes, no, Truth::False, Truth::True),
        (no, yes, Truth::False, Truth::True),
        (no, no, Truth::False, Truth::False),
        (yes, b, of_b(), Truth::True),
        (a, yes, of_a(), Truth::True),
        (no, b, Truth::False, of_b()),
        (a, no, Truth::False, of_a()),
        (a, b, both(), both()),
    ] {
        assert_eq!(answer(&format!("{left} and {right}")), and, "{left} and {right}");
        assert_eq!(answer(&format!("{left} or {right}")), or, "{left} or {right}");
    }
    let not = |of: &str| answer(&format!("not ({of})"));
    assert_eq!((not(yes), not(no), not(a)), (Truth::False, Truth::True, of_a()));
}
