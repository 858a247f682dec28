//! Rules of a date that the worked rows do not show.

use stillroom::instruments::ph_reading::{PhInstrument, PhSaid, with_reading};
use stillroom::mixture::acidity::bounds::PhBounds;
use stillroom::safety::alcohol_bands::alcohol_keeps;
use stillroom::shelf_life::reason::{DateRule, Mark, Note};
use stillroom::shelf_life::staling::Stale;
use stillroom::shelf_life::{Asked, Authority, Contents, Dairy, Egg, Filled, Product, StageWarmth, Verdict, verdicts};
use stillroom::units::celsius;

fn at(product: &Product, t_c: f64, authority: &Authority) -> Verdict {
    verdicts(product, &[celsius(t_c)], authority, Asked::default()).remove(0)
}

fn date(product: &Product, t_c: f64) -> Verdict {
    at(product, t_c, &Authority::default())
}

fn plain() -> Product {
    let (brix, aw) = (Some(50.0), Some(0.9347));
    Product { sugar_g_l: 615.0, brix, aw, aw_doubt: 0.008, closed: true, ..Product::default() }
}

fn spirit(abv_pct: f64, sugar_g_l: f64) -> Product {
    Product {
        abv_pct,
        sugar_g_l,
        brix: Some(25.0),
        aw: Some(0.98),
        aw_doubt: 0.008,
        closed: true,
        ..Product::default()
    }
}

/// `dates.md` B2, each row and just below it.
#[test]
fn alcohol_counts_by_the_published_rows() {
    for (abv, ph, aw, keeps) in [
        (14.0, None, 1.0, true),
        (13.9, None, 1.0, false),
        (12.5, Some(5.0), 1.0, true),
        (12.5, Some(5.1), 0.97, false),
        (12.5, None, 0.96, true),
        (12.4, Some(4.5), 0.96, false),
        (10.0, Some(4.4), 1.0, true),
        (10.0, Some(4.5), 0.96, false),
        (10.0, Some(5.0), 0.95, true),
        (10.0, None, 0.95, false),
        (9.9, Some(3.0), 0.90, false),
    ] {
        assert_eq!(alcohol_keeps(abv, ph, aw), keeps, "{abv} % vol, pH {ph:?}, water activity {aw}");
    }
}

/// `dates.md` K: no step but those of the law on a line of strengths.
#[test]
fn the_line_of_strengths_has_no_step_at_twenty() {
    let plant = Contents { plant: true, ..Contents::default() };
    let line = [(13.9, 7), (14.4, 112), (15.0, 150), (16.0, 242), (17.0, 391), (18.0, 632), (20.0, 730), (20.4, 730)];
    for (abv, days) in line {
        // 250 g/L, no acid, spice only
        let product = Product { contents: plant, ..spirit(abv, 250.0) };
        let got = date(&product, 4.0).days.unwrap();
        assert!(got.abs_diff(days) <= 1, "{abv} % vol: {got} for {days}");
    }
}

#[test]
fn raw_egg_is_refused_at_any_strength_and_cream_is_kept_cold() {
    let egg = |egg, abv| Product { contents: Contents { egg: Some(egg), ..Contents::default() }, ..spirit(abv, 200.0) };
    for abv in [0.0, 20.0, 60.0] {
        let refused = date(&egg(Egg::Raw, abv), 4.0);
        assert!(refused.days.is_none() && refused.refusals().next().unwrap().to_string().contains("raw egg"), "{abv}");
    }
    let cream =
        Product { contents: Contents { dairy: Some(Dairy::Cream), ..Contents::default() }, ..spirit(17.0, 200.0) };
    assert_eq!((date(&cream, 4.0).days, date(&cream, 4.0).mark), (Some(21), Mark::UseBy));
    assert_eq!(date(&cream, 12.0).days, None);
    assert_eq!(date(&egg(Egg::Pasteurised, 20.0), 4.0).days, Some(28));
}

#[test]
fn what_stood_warm_and_weak_is_refused_whatever_it_ends_at() {
    let steep = |hours, t_c, abv, ph_up| StageWarmth { t_c, hours, abv, ph_up, aw_up: 1.0 };
    let with = |stages: Vec<StageWarmth>| date(&Product { stages, ..spirit(40.0, 0.0) }, 4.0).days;
    assert!(with(vec![steep(24.0, 45.0, 0.0, None)]).is_none());
    // together more than four hours
    assert!(with(vec![steep(3.0, 21.0, 0.0, None), steep(2.0, 30.0, 5.0, None)]).is_none());
    // short, cold, hot, sour or strong
    assert!(with(vec![steep(4.0, 21.0, 0.0, None)]).is_some());
    assert!(with(vec![steep(24.0, 4.0, 0.0, None)]).is_some());
    assert!(with(vec![steep(24.0, 60.0, 0.0, None)]).is_some());
    assert!(with(vec![steep(24.0, 21.0, 0.0, Some(3.5))]).is_some());
    assert!(with(vec![steep(72.0, 21.0, 40.0, None)]).is_some());
}

#[test]
fn cold_days_before_bottling_are_used_days() {
    let stages = vec![StageWarmth { t_c: 4.0, hours: 48.0, abv: 0.0, ph_up: None, aw_up: 1.0 }];
    assert_eq!(date(&Product { stages, ..plain() }, 4.0).days, Some(5));
}

#[test]
fn a_local_code_lifts_the_legal_days_and_nothing_else() {
    let letter = |days| Authority {
        entered: Some("the council, letter 7; entered by A. Maker on 2026-01-02".into()),
        answered_for: true,
        days: Some(days),
        ..Authority::default()
    };
    // what is milder lifts to staling at most; what nobody answers for lifts nothing; what is stricter always counts
    let v = at(&plain(), 4.0, &letter(30));
    assert!(matches!(v.decided_by, Some(DateRule::Stale(Stale::SugarSyrup))), "{:?}", v.decided_by);
    assert_eq!((v.days, v.notes.contains(&Note::HouseResponsibility)), (Some(28), true));
    assert_eq!(at(&plain(), 4.0, &Authority { answered_for: false, ..letter(30) }).days, Some(7));
    assert_eq!(at(&plain(), 4.0, &Authority { answered_for: false, ..letter(3) }).days, Some(3));
    assert_eq!(at(&plain(), 12.0, &letter(30)).days, None);
    // milk, nut and garlic stay at 7
    let with = |contents| Product { contents, ..plain() };
    let nut = Contents { nut: true, nutrient: true, ..Contents::default() };
    let milk = Contents { dairy: Some(Dairy::Milk), ..Contents::default() };
    let garlic = Contents { plant: true, low_acid_plant: true, ..Contents::default() };
    for contents in [nut, milk, garlic] {
        assert!(at(&with(contents), 4.0, &letter(30)).days.unwrap() <= 7, "{contents:?}");
    }
}

#[test]
fn readings_that_a_product_cannot_have_are_rejected() {
    let sober = PhBounds { low: Some(5.0), up: None };
    assert_eq!(with_reading(sober, 2.5, 0.5, PhInstrument::Strip), (None, PhSaid::Impossible));
    // a strip counts only to 4.0, at its upper end
    let open = PhBounds::default();
    assert_eq!(with_reading(open, 3.5, 0.5, PhInstrument::Strip), (Some(4.0), PhSaid::Accepted));
    assert_eq!(with_reading(open, 3.6, 0.5, PhInstrument::Strip), (None, PhSaid::StripTooHigh));
    // higher than what was weighed allows: the reading counts
    let sour = PhBounds { low: Some(2.2), up: Some(3.0) };
    let meter = PhInstrument::Meter { calibrated: true };
    assert_eq!(with_reading(sour, 3.5, 0.1, meter), (Some(3.6), PhSaid::HigherThanWeighed));
    // lower than the bound: it counts
    assert_eq!(with_reading(sour, 2.6, 0.1, meter), (Some(2.7), PhSaid::Accepted));
    // thick and strong are harder to read
    assert!((meter.doubt(0.0, 50.0, 0.0) - 0.2).abs() < 1e-12 && (meter.doubt(0.01, 10.0, 5.0) - 0.1).abs() < 1e-12);
    assert!((PhInstrument::Meter { calibrated: false }.doubt(0.01, 0.0, 0.0) - 0.2).abs() < 1e-12);
}

#[test]
fn a_closed_sweet_weak_bottle_in_the_warm_is_refused() {
    let sour = Product { ph_up: Some(3.5), ..plain() };
    assert!(date(&sour, 21.0).refusals().next().unwrap().to_string().contains("may burst"));
    assert!(date(&Product { closed: false, ..sour.clone() }, 21.0).days.is_some());
    assert!(date(&Product { filled: Filled::HotClosed, ..sour }, 21.0).days.is_some());
}

#[test]
fn one_lot_that_spoiled_brings_the_date_below_its_age() {
    let rich = Product { brix: Some(65.1), aw: Some(0.8645), sugar_g_l: 858.0, filled: Filled::HotClean, ..plain() };
    for (age, days) in [(20.0, 19), (20.5, 20), (0.5, 0), (f64::NAN, 0)] {
        let spoiled = Product { spoiled_lot_days: Some(age), ..rich.clone() };
        let v = date(&spoiled, 4.0);
        assert_eq!((v.days, v.decided_by), (Some(days), Some(DateRule::SpoiledLot)), "{age}");
        assert!(v.notes.contains(&Note::DiscardTheLot));
    }
}

#[test]
fn what_is_no_number_is_never_favourable() {
    let nan = Product { abv_pct: f64::NAN, aw: Some(f64::NAN), aw_doubt: f64::NAN, ph_up: Some(f64::NAN), ..plain() };
    assert!(date(&nan, 4.0).days.unwrap() <= 7);
    assert_eq!(date(&nan, 21.0).days, None);
    assert_eq!(date(&plain(), f64::NAN).days, None);
}
