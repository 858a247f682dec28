//! What a lot is after all that happened to it, in whatever order it is read.

use super::*;
use crate::lots::event::PartUsed;
use chrono::TimeZone;
use std::sync::Arc;

fn day(d: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, d).unwrap()
}

fn event(id: &str, d: u32, lot: &str, happened: Happened) -> Event {
    Event {
        id: id.into(),
        at: Utc.with_ymd_and_hms(2026, 11, d, 12, 0, 0).unwrap(),
        zone_min: 0,
        lot: lot.into(),
        happened,
    }
}

fn recorded(product: &str, made: u32, from: PartFrom) -> Happened {
    Happened::Recorded(Arc::new(Recorded {
        product: product.into(),
        sheet: "0".into(),
        recipe: "0".into(),
        made: day(made),
        weighed: false,
        pressed: Vec::new(),
        mass_g: 1000.0,
        volume_ml: Some(900.0),
        filled: None,
        kept_back: 0,
        maker: None,
        store: "fridge".into(),
        parts: vec![PartUsed { of: "syrup".into(), mass_g: 100.0, from, dated: true }],
        readings: Vec::new(),
        use_by: UseBy { day: Some(day(20)), ..UseBy::default() },
        allergens: Vec::new(),
        allergens_not_stated: Vec::new(),
        abv_pct: None,
    }))
}

fn moved(to: &str, frozen: bool) -> Happened {
    Happened::Moved { to: to.into(), frozen, use_by: UseBy { day: Some(day(18)), ..UseBy::default() } }
}

/// Three devices, one file synced twice, one clock an hour before the recording.
fn events() -> Vec<Event> {
    vec![
        event("a1", 6, "L1", recorded("Syrup", 6, PartFrom::NotTold)),
        event("b1", 7, "L2", recorded("Liqueur", 7, PartFrom::Lot("L1".into()))),
        event("b0", 5, "L2", Happened::Tasted { taste: Taste::Fine, signs: vec![], note: None }),
        event("c1", 9, "L1", moved("freezer", true)),
        event("c2", 12, "L1", moved("fridge", false)),
        event("a2", 13, "L1", Happened::UsedUp),
        event("a3", 14, "L1", Happened::Withdrawn { event: "a2".into(), why: "another bottle".into(), by: None }),
        event("a1", 6, "L1", recorded("Syrup", 6, PartFrom::NotTold)),
    ]
}

#[test]
fn events_make_the_same_book_in_any_order_and_however_often_they_are_read() {
    let of = |events: Vec<Event>| {
        let book = LotBook::of(events);
        (book.lots().cloned().collect::<Vec<_>>(), book.faults.clone(), book.events.len())
    };
    let forward = of(events());
    assert_eq!(forward.2, 7, "the event that was synced twice is one");
    let mut turned = events();
    for _ in 0..turned.len() {
        turned.rotate_left(1);
        assert_eq!(of(turned.clone()), forward);
    }
    turned.reverse();
    assert_eq!(of(turned), forward);
}

#[test]
fn a_lot_is_what_happened_to_it() {
    let book = LotBook::of(events());
    let syrup = book.lot("L1").unwrap();
    assert_eq!(syrup.standing, LotStanding::InUse, "the using up was withdrawn");
    assert_eq!(syrup.frozen, [(day(9), Some(day(12)))]);
    assert_eq!((syrup.store.as_str(), syrup.stores.len()), ("fridge", 2));
    assert_eq!(book.lot("L2").unwrap().tasted, Some((day(5), Taste::Fine)));
    assert_eq!(book.uses()["L1"], ["L2"]);
    assert!(book.faults.is_empty());
}

#[test]
fn a_code_given_twice_and_a_lot_that_nobody_recorded_are_named() {
    let mut all = events();
    all.push(event("z1", 8, "L1", recorded("Cordial", 8, PartFrom::NotTold)));
    all.push(event("z2", 8, "L9", Happened::UsedUp));
    let book = LotBook::of(all);
    assert_eq!(book.lot("L1").unwrap().recorded.product, "Syrup");
    let unknown = Fault::UnknownLot { lot: "L9".into(), event: "z2".into() };
    assert_eq!(book.faults, [Fault::SameCode("L1".into()), unknown]);
}

#[test]
fn an_event_is_read_as_it_was_written() {
    for event in events() {
        let line = serde_json::to_string(&event).unwrap();
        assert_eq!(Event::of_line(line.as_bytes()).unwrap(), event, "{line}");
    }
}
