//! The worked table: what each case gives, and by which rule.

use stillroom::shelf_life::reason::{DateRule, Mark, Note};
use stillroom::shelf_life::screen::{ScreenClass, ScreenTable};
use stillroom::shelf_life::{Authority, Contents, Draws, Product, Treatment, UncertainValue, Verdict, verdicts};
use stillroom::units::{Abv, Brix, Ph, WaterActivity, celsius, grams_per_litre};
use stillroom::vocabulary::{ProductClass, Word};

use super::table::assert_close;

pub fn ph(value: f64, uncertainty: f64) -> Option<UncertainValue<Ph>> {
    Ph::new(value).map(|value| UncertainValue { value, uncertainty })
}

pub fn aw(value: f64, uncertainty: f64) -> Option<UncertainValue<WaterActivity>> {
    WaterActivity::new(value).map(|value| UncertainValue { value, uncertainty })
}

pub fn at(product: &Product, t_c: f64, authority: &Authority) -> Verdict {
    verdicts(product, &[celsius(t_c)], authority, Draws::default()).remove(0)
}

pub fn date(product: &Product, t_c: f64) -> Verdict {
    at(product, t_c, &Authority::default())
}

/// White sugar dissolved hot in water, in a clean bottle.
pub fn syrup(brix: f64, water_activity: f64, sugar_g_l: f64, class: &str) -> Product {
    Product {
        ph: ph(6.0, 0.1),
        water_activity: aw(water_activity, 0.005),
        abv: Abv::new(0.0),
        sugar: Some(grams_per_litre(sugar_g_l)),
        brix: Brix::new(brix),
        class: ProductClass::parse(class),
        contents: Some(Contents::default()),
        process: Treatment { hot_dissolved: true, ..Treatment::default() },
        ..Product::default()
    }
}

pub fn rich() -> Product {
    syrup(65.0, 0.8654154, 855.0, "rich syrup")
}

pub fn simple() -> Product {
    syrup(50.0, 0.9347607, 615.0, "plain syrup")
}

pub fn lime() -> Product {
    let contents = Contents { juice: true, fruit_or_wine: true, ..Contents::default() };
    Product {
        ph: ph(2.35, 0.1),
        contents: Some(contents),
        process: Treatment::default(),
        ..syrup(8.5, 0.99, 15.0, "juice")
    }
}

pub fn liqueur() -> Product {
    Product {
        ph: ph(4.0, 0.1),
        water_activity: aw(0.92, 0.03),
        abv: Abv::new(18.0),
        ..syrup(23.7, 0.92, 250.0, "liqueur")
    }
}

pub fn almond() -> Product {
    let contents = Contents { nut: true, ..Contents::default() };
    Product { ph: ph(6.3, 0.1), contents: Some(contents), class: ProductClass::parse("nut syrup"), ..simple() }
}

#[track_caller]
fn refused(verdict: &Verdict, words: &str) {
    assert_eq!((verdict.days, verdict.mark, &verdict.decided_by), (None, Mark::None, &None));
    assert!(verdict.refused.iter().any(|r| r.to_string().contains(words)), "{:?}", verdict.refused);
}

#[test]
fn a_rich_syrup_in_the_fridge_by_the_model() {
    let v = date(&rich(), 5.0);
    assert_eq!((v.screen.table, v.screen.class), (ScreenTable::B, ScreenClass::NonTcs));
    // 137 d; 20,000 draws agree within 6 %
    assert_close(f64::from(v.days.unwrap()), 137.0, 0.06 * 137.0, "days");
    assert!(matches!(v.decided_by, Some(DateRule::Growth { organism }) if organism.contains("rouxii")));
    assert_eq!(v.ceiling_days, Some(180.0));
    let growth = v.growth.unwrap();
    assert_close(growth.p_no_growth, 0.11, 0.015, "P(no growth)");
    // never in the last twentieth: the middle is not shown
    assert_eq!((growth.q50_days, growth.q95_days), (None, None));
    assert!(v.notes.contains(&Note::ModelCannotTell) && v.notes.contains(&Note::FridgeIsNoProof));
    assert_eq!(v.mark, Mark::UseBy);
}

#[test]
fn b_simple_syrup_in_the_fridge_by_the_food_code() {
    let unknown = Product { ph: None, ..simple() };
    for product in [simple(), unknown] {
        let v = date(&product, 5.0);
        assert_eq!(v.screen.class, ScreenClass::Pa);
        assert_eq!((v.days, v.legal_days, v.ceiling_days), (Some(7), Some(7), Some(7.0)));
        assert!(v.decided_by.unwrap().to_string().starts_with("food code"));
    }
    let assessed = Authority { assessed: true, ..Authority::default() };
    let v = at(&simple(), 5.0, &assessed);
    assert_eq!(v.days, Some(30));
    assert!(v.decided_by.unwrap().to_string().starts_with("class"));
    assert!(v.notes.contains(&Note::HouseResponsibility));
}

#[test]
fn b_simple_syrup_in_the_room_is_refused() {
    let v = date(&simple(), 20.0);
    refused(&v, "keep at 5 °C or below");
    assert_close(v.growth.unwrap().q50_days.unwrap(), 4.0, 0.24, "q50");
}

#[test]
fn c_lime_juice_by_its_class() {
    let v = date(&lime(), 4.0);
    assert_eq!(v.screen.class, ScreenClass::NonTcs);
    assert_eq!(v.days, Some(3));
    assert!(matches!(v.decided_by, Some(DateRule::Class { class: ProductClass::Juice, .. })));
    let quality = v.quality.unwrap();
    assert_close(quality.q10_days, 3.1, 0.06 * 3.1, "q10");
    assert_close(quality.q50_days, 7.2, 0.06 * 7.2, "q50");
    assert!(v.notes.contains(&Note::JuiceModelNotTrusted));
    refused(&date(&lime(), 21.0), "no figure is known for this juice above 5 °C");
}

#[test]
fn d_liqueur_by_quality() {
    let v = date(&liqueur(), 20.0);
    assert_close(liqueur().delle_units(), 106.0, 1e-9, "Delle units");
    assert_eq!(v.screen.class, ScreenClass::NonTcs);
    assert_close(f64::from(v.days.unwrap()), 144.0, 0.15 * 144.0, "days");
    assert!(v.decided_by.clone().unwrap().to_string().contains("quality guess, learn from lots"));
    assert_close(v.growth.unwrap().p_no_growth, 0.77, 0.015, "P(no growth)");
    assert_eq!(v.mark, Mark::BestBefore);
}

#[test]
fn e_almond_syrup_by_the_food_code() {
    assert_eq!(date(&almond(), 4.0).days, Some(7));
    assert!(date(&almond(), 4.0).decided_by.unwrap().to_string().starts_with("food code"));
    refused(&date(&almond(), 20.0), "because of what is in it (nut");
}

#[test]
fn f_rich_syrup_in_the_room_by_the_model() {
    let v = date(&rich(), 20.0);
    assert_eq!(v.screen.class, ScreenClass::NonTcs);
    assert_eq!(v.days, Some(3));
    assert!(matches!(v.decided_by, Some(DateRule::Growth { .. })));
    assert!(v.notes.contains(&Note::YeastMustGetIn));
}

#[test]
fn what_one_change_buys() {
    // simple syrup brought below pH 4.2 by measured acid: 30 days by class
    let sour = Product { ph: ph(3.9, 0.1), class: ProductClass::parse("cordial"), ..simple() };
    let v = date(&sour, 5.0);
    assert_eq!((v.screen.class, v.days), (ScreenClass::NonTcs, Some(30)));
}
