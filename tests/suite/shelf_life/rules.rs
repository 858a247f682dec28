//! When there is no date, and what an authority may and may not change.

use stillroom::shelf_life::data::tables;
use stillroom::shelf_life::heat::Curve;
use stillroom::shelf_life::reason::{DateRule, Mark, Note};
use stillroom::shelf_life::refusal::Refusal;
use stillroom::shelf_life::screen::{ScreenClass, ScreenTable};
use stillroom::shelf_life::{Authority, Contents, Draws, Product, Treatment, Verdict, verdicts};
use stillroom::units::{Abv, Brix, celsius};
use stillroom::vocabulary::{ProductClass, Word};

use super::worked::{almond, at, aw, date, lime, liqueur, ph, rich, simple};

#[track_caller]
fn refuses(verdict: &Verdict, is: impl Fn(&Refusal) -> bool) {
    assert!(verdict.days.is_none() && verdict.decided_by.is_none() && verdict.mark == Mark::None);
    assert!(verdict.refused.iter().any(is), "{:?}", verdict.refused);
}

#[test]
fn contents_that_need_control_are_held_whatever_the_table_says() {
    type Put = fn(&mut Contents);
    let each: [Put; 5] = [
        |c| c.nut = true,
        |c| c.dairy = true,
        |c| c.egg = true,
        |c| c.cooked_starch = true,
        |c| c.garlic_or_herb = true,
    ];
    for put in each {
        let mut product = rich();
        put(product.contents.as_mut().unwrap());
        assert_eq!(date(&product, 4.0).days, Some(7));
        refuses(&date(&product, 5.1), |r| matches!(r, Refusal::TooWarm { .. }));
    }
    // herb in acid is not held; herb of an unknown pH is
    let herbal = Contents { garlic_or_herb: true, ..Contents::default() };
    let sour = Product { ph: ph(3.0, 0.2), contents: Some(herbal), ..rich() };
    assert!(date(&sour, 5.0).days > Some(7));
    assert_eq!(date(&Product { ph: None, ..sour }, 5.0).days, Some(7));
    // cream and egg are held at any strength
    let cream = Contents { dairy: true, ..Contents::default() };
    let cream = Product { contents: Some(cream), abv: Abv::new(30.0), ..liqueur() };
    refuses(&date(&cream, 20.0), |r| matches!(r, Refusal::TooWarm { .. }));
}

#[test]
fn unknown_contents_count_as_everything() {
    let product = Product { contents: None, ..rich() };
    // raw egg among it, and so no date even in the cold
    refuses(&date(&product, 5.0), |r| *r == Refusal::RawEgg);
    assert_eq!(date(&product, 5.0).ceiling_days, Some(3.0), "a juice, for all that is known");
    refuses(&date(&product, 20.0), |r| matches!(r, Refusal::TooWarm { .. }));
}

#[test]
fn what_is_juice_stays_one_whatever_it_is_called() {
    let mixed = |class: &str, mostly_juice| {
        let contents = Contents { juice: true, mostly_juice, fruit_or_wine: true, ..Contents::default() };
        Product { contents: Some(contents), class: ProductClass::parse(class), ..lime() }
    };
    for class in ["shrub", "cordial", "fruit syrup", "plain syrup", "liqueur", "oleo-saccharum", "fresh herbs"] {
        let most = mixed(class, true);
        assert!(date(&most, 4.0).days.unwrap() <= 3, "{class}");
        refuses(&date(&most, 20.0), |r| matches!(r, Refusal::JuiceTooWarm { .. }));
    }
    // a cordial or a shrub has some of it; a syrup of sugar has none
    assert!(date(&mixed("shrub", false), 4.0).days.unwrap() > 3);
    assert_eq!(date(&mixed("plain syrup", false), 4.0).days, Some(3));
}

#[test]
fn raw_egg_has_no_date_and_pasteurised_egg_the_legal_one() {
    let egg = |raw_egg| {
        let contents = Contents { egg: true, raw_egg, ..Contents::default() };
        Product { contents: Some(contents), ..simple() }
    };
    refuses(&date(&egg(true), 4.0), |r| *r == Refusal::RawEgg);
    assert_eq!(date(&egg(false), 4.0).days, Some(7));
}

#[test]
fn an_unknown_ph_is_held_and_an_unknown_water_activity_refused() {
    // where the tables ask for a pH, an unknown one is the worst case: the legal limit and no day more
    let product = Product { ph: None, ..simple() };
    assert_eq!(product.screen(tables()).class, ScreenClass::Pa);
    assert_eq!(date(&product, 5.0).days, Some(7));
    refuses(&date(&product, 20.0), |r| r.to_string().contains("measure the pH"));
    // where they ask for none, it is dated as at its worst, and never longer than with any pH
    let rich_unknown = Product { ph: None, ..rich() };
    assert_eq!(rich_unknown.screen(tables()).class, ScreenClass::NonTcs);
    for known in [2.0, 4.0, 6.0, 6.9] {
        let days = date(&Product { ph: ph(known, 0.1), ..rich() }, 5.0).days;
        assert!(date(&rich_unknown, 5.0).days <= days, "{known}: {days:?}");
    }
    let drier = Product { ph: None, water_activity: aw(0.82, 0.01), ..rich() };
    assert!(date(&drier, 20.0).refused.is_empty());

    refuses(&date(&Product { water_activity: None, ..rich() }, 5.0), |r| *r == Refusal::WaterActivityUnknown);
    refuses(&date(&Product { water_activity: aw(0.86, f64::NAN), ..rich() }, 5.0), |r| {
        *r == Refusal::WaterActivityUnknown
    });
    refuses(&date(&Product { brix: None, ..rich() }, 5.0), |r| *r == Refusal::BrixUnknown);
    refuses(&date(&Product { abv: None, brix: None, ..liqueur() }, 5.0), |r| *r == Refusal::BrixUnknown);
    let bitters = Product {
        abv: Abv::new(45.0),
        brix: None,
        water_activity: None,
        ph: None,
        class: ProductClass::parse("bitters"),
        ..liqueur()
    };
    let v = date(&bitters, 20.0);
    assert_eq!(v.days, Some(1825));
    assert!(v.notes.contains(&Note::TableIgnoresAlcohol));
    assert_eq!(v.mark, Mark::BestBefore);
}

#[test]
fn outside_the_model_there_is_no_date() {
    let out = |what: &'static str| move |r: &Refusal| matches!(r, Refusal::OutOfRange { what: w, .. } if *w == what);
    for t in [-18.0, -0.1, 30.1, f64::NAN, f64::INFINITY] {
        refuses(&date(&rich(), t), out("temperature"));
    }
    for value in [1.7, 7.1] {
        refuses(&date(&Product { ph: ph(value, 0.1), ..rich() }, 5.0), out("pH"));
    }
    refuses(&date(&Product { brix: Brix::new(80.5), ..rich() }, 5.0), out("Brix"));
    refuses(&date(&Product { preservatives: 2, ..rich() }, 5.0), |r| *r == Refusal::PreservativeBlend);
    // one preservative earns nothing
    let one = date(&Product { preservatives: 1, ..rich() }, 5.0);
    assert_eq!(one.days, date(&rich(), 5.0).days);
    assert!(one.notes.contains(&Note::PreservativeEarnsNothing));
}

#[test]
fn all_reasons_in_one_run() {
    let product = Product { brix: None, water_activity: None, preservatives: 3, ..simple() };
    assert!(date(&product, 31.0).refused.len() >= 5);
}

#[test]
fn lactic_bacteria_leave_the_ceiling_only() {
    // 12 % vol and 250 g/L: 79 Delle units
    let grey = Product { abv: Abv::new(12.0), ..liqueur() };
    let v = date(&grey, 5.0);
    assert!(v.notes.contains(&Note::LacticBacteria));
    assert_eq!(v.growth.unwrap().q50_days, None);
    // and a liqueur below 85 units cannot claim the figure of its class
    assert!(v.ceiling_days <= Some(30.0));
    let wine = Contents { fruit_or_wine: true, ..Contents::default() };
    // where the draws alone would show a middle value, lactic bacteria hide it
    let sour = Product { ph: ph(3.9, 0.1), ..simple() };
    let fruit_syrup = Product { contents: Some(wine), ..sour.clone() };
    assert!(date(&sour, 20.0).growth.unwrap().q50_days.is_some());
    assert_eq!(date(&fruit_syrup, 20.0).growth.unwrap().q50_days, None);
    let fruity = Product { contents: Some(wine), ..liqueur() };
    assert!(date(&fruity, 20.0).notes.contains(&Note::LacticBacteria));
    assert!(!date(&Product { ph: ph(3.3, 0.1), ..fruity }, 20.0).notes.contains(&Note::LacticBacteria));
}

#[test]
fn a_spoiled_lot_sets_the_date_below_its_age() {
    for (age, most) in [(21.0, 20), (20.5, 20), (0.4, 0), (f64::NAN, 0)] {
        let v = date(&Product { spoiled_lot_days: Some(age), ..rich() }, 5.0);
        assert_eq!(v.days, Some(most), "{age}");
        assert_eq!(v.decided_by, Some(DateRule::SpoiledLot));
        assert!(v.notes.contains(&Note::DiscardTheLot));
    }
}

#[test]
fn dried_fruit_by_its_published_pair() {
    let dried = Product {
        class: ProductClass::parse("dried fruit"),
        contents: Some(Contents { fruit_or_wine: true, ..Contents::default() }),
        process: Treatment { closed: Some(true), ..Treatment::default() },
        ..Product::default()
    };
    assert_eq!(date(&dried, 15.0).days, Some(365));
    assert_eq!(date(&dried, 21.0).days, Some(180));
    assert!(date(&dried, 21.0).growth.is_none());
    let dry = Product { water_activity: aw(0.55, 0.02), ..dried.clone() };
    assert_eq!(date(&dry, 21.0).days, Some(180));
    // measured and not that dry: the model speaks, and from 0.85 an unknown pH counts
    let soft = Product { water_activity: aw(0.84, 0.0), ..dried.clone() };
    assert!(date(&soft, 21.0).days < Some(180));
    refuses(&date(&Product { water_activity: aw(0.9, 0.02), ..dried.clone() }, 21.0), |r| {
        matches!(r, Refusal::TooWarm { .. })
    });
    let open = Product { process: Treatment::default(), ..dried };
    refuses(&date(&open, 15.0), |r| *r == Refusal::NotAirtight);
}

#[test]
fn table_a_asks_for_heat_and_hot_fill_and_closure() {
    let all = Treatment {
        hot_dissolved: true,
        heating: Some(Curve::hold(85.0, 5.0)),
        hot_filled: Some(true),
        closed: Some(true),
        opened: false,
    };
    let product = |process: &Treatment| Product { ph: ph(4.4, 0.1), process: process.clone(), ..simple() };
    let screen = |process: &Treatment| product(process).screen(tables());
    assert_eq!((screen(&all).table, screen(&all).class), (ScreenTable::A, ScreenClass::NonTcs));
    let less: [Treatment; 5] = [
        Treatment { heating: None, ..all.clone() },
        Treatment { heating: Some(Curve::hold(60.0, 5.0)), ..all.clone() },
        Treatment { hot_filled: None, ..all.clone() },
        Treatment { closed: None, ..all.clone() },
        Treatment { opened: true, ..all.clone() },
    ];
    for process in &less {
        assert_eq!((screen(process).table, screen(process).class), (ScreenTable::B, ScreenClass::Pa), "{process:?}");
    }
    // at pH above 5.6 and this moist table A speaks of spores: still in need of control
    let mild = Product { ph: ph(5.6, 0.1), ..product(&all) }.screen(tables());
    assert_eq!((mild.table, mild.class), (ScreenTable::A, ScreenClass::Pa));
    // and the milder hold that is enough at pH 4.1 or below is not enough here
    let short = Treatment { heating: Some(Curve::hold(71.2, 1.3)), ..all.clone() };
    assert_eq!(Product { ph: ph(4.4, 0.1), ..product(&short) }.screen(tables()).table, ScreenTable::B);
    assert_eq!(Product { ph: ph(3.9, 0.1), ..product(&short) }.screen(tables()).table, ScreenTable::A);
}

#[test]
fn an_authority_lifts_only_the_limit_it_speaks_of() {
    let ten = Authority { pa_days: Some(10), pa_temperature: Some(celsius(8.0)), ..Authority::default() };
    let v = at(&simple(), 8.0, &ten);
    assert_eq!((v.days, v.legal_days), (Some(7), Some(10)), "the class at 8 °C is shorter than the law");
    assert!(v.notes.contains(&Note::HouseResponsibility));
    assert_eq!(at(&simple(), 5.0, &ten).days, Some(10));
    refuses(&at(&simple(), 8.1, &ten), |r| matches!(r, Refusal::TooWarm { max_c: 8.0, .. }));

    let five = Authority { pa_days: Some(5), pa_temperature: Some(celsius(3.0)), ..Authority::default() };
    assert_eq!(at(&simple(), 3.0, &five).days, Some(5));
    assert!(!at(&simple(), 3.0, &five).notes.contains(&Note::HouseResponsibility));
    refuses(&at(&simple(), 4.0, &five), |r| matches!(r, Refusal::TooWarm { .. }));

    // an assessment of the table's word lifts neither contents nor an unknown pH nor anything else
    let assessed = Authority { assessed: true, ..Authority::default() };
    refuses(&at(&almond(), 20.0, &assessed), |r| matches!(r, Refusal::TooWarm { .. }));
    refuses(&at(&Product { ph: None, ..simple() }, 20.0, &assessed), |r| matches!(r, Refusal::TooWarm { .. }));
    // with an unknown pH the days of its class hold in the cold (shelf-life notes, section 6, row b)
    let unread = at(&Product { ph: None, ..simple() }, 5.0, &assessed);
    assert_eq!((unread.days, unread.ceiling_days), (Some(30), Some(30.0)));
    refuses(&at(&Product { brix: None, ..simple() }, 5.0, &assessed), |r| *r == Refusal::BrixUnknown);
    refuses(&at(&lime(), 20.0, &assessed), |r| matches!(r, Refusal::JuiceTooWarm { .. }));
    // a limit on everything only shortens
    let two = Authority { max_days: Some(2), ..Authority::default() };
    assert_eq!(at(&rich(), 5.0, &two).days, Some(2));
    let many = Authority { max_days: Some(9999), ..Authority::default() };
    assert_eq!(at(&rich(), 5.0, &many).days, date(&rich(), 5.0).days);
    // a temperature that is no number is not entered
    let none = Authority { pa_temperature: Some(celsius(f64::NAN)), ..Authority::default() };
    refuses(&at(&simple(), 20.0, &none), |r| matches!(r, Refusal::TooWarm { max_c: 5.0, .. }));
}

#[test]
fn a_class_caps_and_a_warmer_store_never_gets_more() {
    let ceilings = &tables().ceilings;
    for name in ceilings.names() {
        let product = Product {
            class: Some(name),
            process: Treatment { closed: Some(true), ..Treatment::default() },
            ..liqueur()
        };
        let days: Vec<f64> =
            (-5..=35).map(|t| ceilings.ceiling(&product, f64::from(t), true).unwrap().row.high_days).collect();
        assert!(days.windows(2).all(|w| w[1] <= w[0]), "{name}: {days:?}");
    }
    // a class without figures is no class: the shortest that fits
    let odd = Product { class: Some(ProductClass::Saline), ph: ph(3.5, 0.1), ..simple() };
    let v = date(&odd, 5.0);
    assert_eq!(v.days, Some(30));
    assert!(v.notes.contains(&Note::ShortestThatFits));
}

#[test]
fn nothing_at_all_is_known() {
    let stores = [celsius(4.0), celsius(21.0)];
    for v in verdicts(&Product::default(), &stores, &Authority::default(), Draws::default()) {
        assert!(v.days.is_none() && !v.refused.is_empty());
        assert_eq!(v.screen.class, ScreenClass::Pa);
    }
    assert!(verdicts(&rich(), &[], &Authority::default(), Draws::default()).is_empty());
}

#[test]
fn no_words_that_promise() {
    let mut words: Vec<String> = vec![];
    for product in [rich(), simple(), lime(), liqueur(), almond(), Product::default()] {
        for t in [-1.0, 4.0, 21.0, 35.0] {
            let v = date(&product, t);
            words.extend(v.refused.iter().map(ToString::to_string));
            words.extend(v.decided_by.iter().map(ToString::to_string));
            words.extend(v.notes.iter().map(|n| n.words().to_owned()));
        }
    }
    for word in ["safe until", "shelf-stable", "shelf stable", "guaranteed"] {
        assert!(words.iter().all(|w| !w.contains(word)));
    }
}
