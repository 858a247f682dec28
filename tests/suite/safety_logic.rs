//! The trigger language and its three answers, over thousands of generated texts and facts.

use std::collections::BTreeSet;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::facts::Quantity;
use stillroom::safety::trigger::{Missing, Truth, parse};
use stillroom::safety::variables::Variable;
use stillroom::safety::{Caution, Fact, Facts, Level, Market, Member, Members, Storage, Tcs, evaluate};
use stillroom::vocabulary::{Allergen, Open, Process, Tag, Word};

/// The same cases at every run.
fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

fn answer(when: &str, facts: &Facts) -> Truth {
    parse(when).unwrap_or_else(|error| panic!("{when}: {error}")).evaluate(facts, Market::Us)
}

fn unknown(names: &[&'static str]) -> Truth {
    let missing = |name: &&str| Missing { variable: Variable::from_name(name).unwrap(), member: None };
    Truth::Unknown(names.iter().map(missing).collect())
}

fn some_facts() -> Facts {
    Facts {
        ph: Fact::Known(4.5),
        ph_u: Fact::Known(0.2),
        aw: Fact::Known(0.9),
        abv: Fact::Known(0.0),
        quinine_mg_kg: Fact::None,
        sale: Fact::Known(true),
        tcs: Fact::Known(Tcs::Pa),
        process: Members { present: [Process::Boil].into(), unsure: [Process::Sealed].into(), open: false },
        allergens: Members {
            present: [Allergen::Milk.into()].into(),
            unsure: [Allergen::Egg.into()].into(),
            open: false,
        },
        ..Facts::default()
    }
}

#[test]
fn what_a_trigger_means() {
    let facts = some_facts();
    for (when, expected) in [
        ("ph + ph_u > 4.6", true),
        ("ph > 4.6", false),
        ("ph - ph_u >= 4.3", true),
        ("ph * 2 == 9", true),
        ("(ph + ph_u) * 10 < 47.1 and not abv > 0", true),
        ("((ph + ph_u) > 4.6)", true),
        ("not sale or abv != 0", false),
        ("tcs == \"pa\" and tcs != \"non_tcs\"", true),
        ("\"boil\" in process and \"heat\" not in process", true),
        ("quinine_mg_kg is None", true),
        ("ph is not None", true),
        ("\"US\" in market and \"EU\" not in market", true),
        ("len(allergens) > 0", true),
        ("len(allergens) > 2", false),
        // `and` binds closer than `or`
        ("sale or ph > 9 and ph < 0", true),
        ("(sale or ph > 9) and ph < 0", false),
    ] {
        assert_eq!(answer(when, &facts), Truth::from(expected), "{when}");
    }
}

#[test]
fn what_is_not_known_is_neither_yes_nor_no_and_says_what_it_hangs_on() {
    let facts = some_facts();
    assert_eq!(answer("brix > 10", &facts), unknown(&["brix"]));
    assert_eq!(answer("not brix > 10", &facts), unknown(&["brix"]));
    assert_eq!(answer("brix > 10 and days < 3", &facts), unknown(&["brix", "days"]));
    assert_eq!(answer("brix > 10 and ph > 9", &facts), Truth::False);
    assert_eq!(answer("brix > 10 or ph < 9", &facts), Truth::True);
    assert_eq!(answer("pasteurised or packaged", &facts), unknown(&["packaged", "pasteurised"]));
    assert_eq!(answer("storage == \"chill\"", &facts), unknown(&["storage"]));
    assert_eq!(answer("scale_g is None", &facts), unknown(&["scale_g"]));
    assert_eq!(answer("len(allergens) > 1", &facts), unknown(&["allergens"]));
    // an uncertainty adds, it never takes away; and nothing is wetter than water
    assert_eq!(answer("aw + aw_u > 0.85", &facts), Truth::True);
    assert_eq!(answer("aw + aw_u > 0.92", &facts), unknown(&["aw_u"]));
    assert_eq!(answer("sorbic_mg_kg + 1 > 0", &facts), Truth::True);
    assert_eq!(answer("brix > 100", &facts), Truth::False);
    let Truth::Unknown(missing) = answer("\"sealed\" in process", &facts) else { panic!() };
    assert_eq!(missing.into_iter().next().unwrap().member, Some(Member::Process(Process::Sealed)));
    // there is no figure: it cannot pass for one
    assert_eq!(answer("quinine_mg_kg < 83", &facts), unknown(&["quinine_mg_kg"]));
    let broken = Facts { ph: Fact::Known(f64::NAN), aw: Fact::Known(f64::INFINITY), ..some_facts() };
    assert_eq!(answer("ph > 4.6", &broken), unknown(&["ph"]));
    assert_eq!(answer("aw <= 0.85", &broken), unknown(&["aw"]));
}

#[test]
fn a_trigger_that_makes_no_sense_is_refused_at_its_place() {
    for (when, at) in [
        ("", 0),
        ("pH > 4.6", 0),
        ("ph >", 4),
        ("ph > 4.6 and", 12),
        ("ph > 4.6 sale", 9),
        ("(ph > 4.6", 9),
        ("tcs == \"PA\"", 7),
        ("\"seald\" in process", 0),
        ("sale and \"FR\" in market", 9),
        ("\"x\" in ph", 7),
        ("sale > 1", 5),
        ("tags", 0),
        ("len(ph) > 1", 4),
        ("ph ? 3", 3),
        ("\"open", 0),
        ("ph > 1.2.3", 5),
    ] {
        let error = parse(when).expect_err(when);
        assert_eq!(error.at, at, "{when}: {error}");
    }
    let deep = format!("{}ph > 1{}", "(".repeat(5000), ")".repeat(5000));
    assert!(parse(&deep).is_err());
    assert!(parse(&format!("{}sale", "not ".repeat(5000))).is_err());
    assert!(parse(&format!("ph > 0{}", " + 1".repeat(100_000))).is_err());
}

#[test]
fn every_trigger_parses_and_every_variable_has_one_origin_and_a_use() {
    let names: BTreeSet<&str> = Variable::all().map(Variable::name).collect();
    assert_eq!(names.len(), Variable::all().count(), "two variables of one name");
    let mut used = BTreeSet::new();
    assert_eq!(catalogue().rules.len(), 99);
    for rule in &catalogue().rules {
        let condition = parse(&rule.when).unwrap();
        assert_eq!(condition, rule.condition);
        used.extend(condition.variables().into_iter().map(Variable::name));
    }
    assert_eq!(used, names);
    assert!(Variable::all().all(|variable| !variable.asked().is_empty()));
}

#[test]
fn no_text_makes_a_reader_panic() {
    runner(4000)
        .run(&"\\PC{0,40}", |text| {
            stillroom::safety::names::find(&text);
            stillroom::safety::names::read_allergen(&text);
            Ok(())
        })
        .unwrap();
    runner(4000)
        .run(&"\\PC{0,60}", |text| {
            let _ = parse(&text);
            Ok(())
        })
        .unwrap();
    let words = prop::sample::select(vec![
        "ph", "aw", "tcs", "sale", "tags", "process", "market", "and", "or", "not", "in", "is", "None", "len", "(",
        ")", "<", "<=", "==", "!=", ">", "+", "-", "*", "4.6", "\"pa\"", "\"boil\"", "\"US\"", "\"", "é", ".", "1e9",
    ]);
    let texts = prop::collection::vec(words, 0..40).prop_map(|words| words.join(" "));
    runner(4000)
        .run(&texts, |text| {
            if let Ok(condition) = parse(&text) {
                condition.evaluate(&some_facts(), Market::Eu);
            }
            Ok(())
        })
        .unwrap();
}

/// What the cautions look for in the sets.
fn members() -> Vec<Member> {
    catalogue().rules.iter().flat_map(|r| r.condition.members()).collect()
}

fn tags() -> Vec<Tag> {
    let tag = |member| match member {
        Member::Tag(tag) => Some(tag),
        _ => None,
    };
    members().into_iter().filter_map(tag).collect()
}

fn some<T: Ord + Clone + std::fmt::Debug + 'static>(of: Vec<T>) -> impl Strategy<Value = Members<T>> {
    let some = prop::collection::btree_set(prop::sample::select(of.clone()), 0..6);
    let few = prop::collection::btree_set(prop::sample::select(of), 0..3);
    (some, few, prop::bool::weighted(0.2)).prop_map(|(present, unsure, open)| Members { present, unsure, open })
}

/// Any facts: every one of them known, none, or not known.
fn facts() -> impl Strategy<Value = Facts> {
    let allergens: Vec<Open<Allergen>> = Allergen::ALL.iter().map(|&a| a.into()).collect();
    let number = (0..10u8, -0.2..1.2f64);
    (
        prop::collection::vec(number, Variable::all().count()),
        (some(tags()), some(allergens), some(Process::ALL.to_vec())),
        prop::collection::vec(prop::sample::select(Market::ALL.to_vec()), 0..3),
    )
        .prop_map(|(numbers, (tags, allergens, process), market)| {
            let mut facts = Facts { tags, allergens, process, market, ..Facts::default() };
            for (variable, (choice, share)) in Variable::all().zip(numbers) {
                set(&mut facts, variable, choice, share);
            }
            facts
        })
}

fn set(facts: &mut Facts, variable: Variable, choice: u8, share: f64) {
    let fact = match choice {
        0 | 1 => Fact::Unknown,
        2 => Fact::None,
        3 if share < 0.0 => Fact::Known(f64::NAN),
        _ => Fact::Known(share),
    };
    let flag = match fact {
        Fact::Known(share) => Fact::Known(share > 0.5),
        Fact::None => Fact::None,
        Fact::Unknown => Fact::Unknown,
    };
    let class = match flag {
        Fact::Known(yes) => Fact::Known(if yes { Tcs::Pa } else { Tcs::NonTcs }),
        _ => Fact::Unknown,
    };
    match variable {
        Variable::Quantity(quantity) => {
            let (low, scale) = match quantity {
                Quantity::Ph => (2.0, 6.0),
                Quantity::WaterActivity => (0.7, 0.3),
                Quantity::PhUncertainty => (0.0, 0.5),
                Quantity::WaterActivityUncertainty => (0.0, 0.05),
                Quantity::Abv => (0.0, 30.0),
                _ => (0.0, 100.0),
            };
            *facts.number_mut(quantity) = match fact {
                // nothing that is weighed or allowed is less than nothing
                Fact::Known(share) => Fact::Known((low + scale * share).max(0.0)),
                other => other,
            };
        }
        Variable::Flag(of) => *facts.flag_mut(of) = flag,
        Variable::Tcs => facts.tcs = class,
        Variable::TcsWithoutAcid => facts.tcs_no_acid = class,
        Variable::Storage => {
            facts.storage = match fact {
                Fact::Known(share) if share > 0.6 => Fact::Known(Storage::Chill),
                Fact::Known(_) => Fact::Known(Storage::Ambient),
                _ => Fact::Unknown,
            }
        }
        Variable::Tags | Variable::Allergens | Variable::Process | Variable::Market => {}
    }
}

fn stops(cautions: &[Caution]) -> BTreeSet<&'static str> {
    cautions.iter().filter(|c| c.severity == Level::Stop).map(|c| c.code).collect()
}

#[test]
fn more_in_it_never_takes_a_stop_away() {
    let more = (
        prop::sample::select(tags()),
        prop::sample::select(Allergen::ALL.to_vec()),
        prop::sample::select(Process::ALL.to_vec()),
    );
    runner(3000)
        .run(&(facts(), more, 0..5u8), |(before, (tag, allergen, process), way)| {
            let mut after = before.clone();
            match way {
                0 => after.tags.add(tag),
                1 => after.allergens.add(allergen),
                2 => after.process.add(process),
                3 => after.tags.doubt(tag),
                _ => after.take_in(&Facts { tags: Members::known([tag]), ..Facts::default() }),
            }
            let (before, after) = (evaluate(&before), evaluate(&after));
            let mut after = stops(&after);
            // of garlic in honey one stop speaks, and not the one of plants in honey beside it
            if after.contains("garlic_honey") {
                after.insert("plant_in_syrup");
            }
            prop_assert!(stops(&before).is_subset(&after));
            Ok(())
        })
        .unwrap();
}

#[test]
fn knowing_less_never_takes_a_stop_or_a_warning_away() {
    let serious = |cautions: &[Caution]| -> BTreeSet<&'static str> {
        cautions.iter().filter(|c| c.severity < Level::Note).map(|c| c.code).collect()
    };
    let any = prop::sample::select(Variable::all().collect::<Vec<_>>());
    runner(4000)
        .run(&(facts(), any), |(before, variable)| {
            let mut after = before.clone();
            after.forget(variable);
            let (before, after) = (evaluate(&before), evaluate(&after));
            prop_assert!(serious(&before).is_subset(&serious(&after)), "{}", variable.name());
            Ok(())
        })
        .unwrap();
}

#[test]
fn less_acid_more_water_or_less_alcohol_never_calms_a_growth_stop() {
    /// The stops that speak of growth.
    const GROWTH: [&str; 3] = ["sealed_low_acid", "rop_ambient", "gas_burst"];
    let grows = |facts: &Facts| -> BTreeSet<&'static str> {
        stops(&evaluate(facts)).into_iter().filter(|code| GROWTH.contains(code)).collect()
    };
    runner(4000)
        .run(&(facts(), 0.0..4.0f64, 0.0..0.2f64, 0.0..20.0f64), |(before, ph, aw, abv)| {
            let mut after = before.clone();
            for (fact, change) in [(&mut after.ph, ph), (&mut after.aw, aw), (&mut after.abv, -abv)] {
                if let Fact::Known(value) = fact {
                    *value += change;
                }
            }
            prop_assert!(grows(&before).is_subset(&grows(&after)));
            Ok(())
        })
        .unwrap();
}

#[test]
fn cautions_are_ordered_unique_and_repeatable_whatever_the_facts() {
    runner(2000)
        .run(&facts(), |facts| {
            let cautions = evaluate(&facts);
            let codes: BTreeSet<_> = cautions.iter().map(|c| c.code).collect();
            prop_assert_eq!(codes.len(), cautions.len());
            prop_assert!(cautions.windows(2).all(|pair| pair[0].severity <= pair[1].severity));
            prop_assert!(cautions.iter().all(|c| c.severity < Level::Note || c.is_certain()));
            prop_assert_eq!(evaluate(&facts), cautions);
            Ok(())
        })
        .unwrap();
}
