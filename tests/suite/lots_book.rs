//! What a lot is after all that happened to it, in whatever order it is read; its code, why it was thrown away, and how a server
//! of several sites is spoken with.

use std::sync::Arc;

use chrono::{NaiveDate, TimeZone, Utc};
use stillroom::lots::book::{Fault, LotBook, LotStanding};
use stillroom::lots::cause::DiscardCause;
use stillroom::lots::code;
use stillroom::lots::event::{Event, Happened, PartFrom, PartUsed, Recorded, Taste, UseBy};

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
        parts: vec![PartUsed {
            of: "syrup".into(),
            mass_g: 100.0,
            from,
            dated: true,
            assumed: false,
            product: None,
            made_of: Vec::new(),
        }],
        readings: Vec::new(),
        use_by: UseBy { day: Some(day(20)), ..UseBy::default() },
        needs_cold: None,
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

#[test]
fn the_next_code_follows_the_highest_of_its_letter_and_day() {
    let day = NaiveDate::from_ymd_opt(2026, 11, 29).unwrap();
    assert_eq!(code::next(day, 'A', []), "261129-A1");
    let taken = ["261129-A1", "261129-A9", "261129-B12", "261128-A40", "odd"];
    assert_eq!(code::next(day, 'A', taken), "261129-A10");
    assert!(code::is_one("261129-A2") && !code::is_one("261129-A") && !code::is_one("a-card"));
    assert_eq!(code::tidy(" 261129 - a2 "), "261129-A2");
}

#[test]
fn what_pulls_is_heard_anywhere_and_what_does_not_only_where_it_is_all_that_is_said() {
    let read = |why: &str| DiscardCause::read(why).map(|cause| (cause.word(), cause.pulls()));
    for (why, cause) in [
        ("film", Some(("film", true))),
        ("The film on it", Some(("film", true))),
        ("smelt; moldy at the neck", Some(("mould", true))),
        ("swollen cap", Some(("swollen cap", true))),
        ("Past its date", Some(("past its date", false))),
        ("spilt: the shelf gave way", Some(("spilt", false))),
        ("stale", Some(("stale", false))),
        // what else is said may be the danger
        ("spilt bleach into it", None),
        ("spilt: unsafe", Some(("unsafe", true))),
        ("no film, only old", None),
        ("glass in it", None),
        ("", None),
    ] {
        assert_eq!(read(why), cause, "{why}");
    }
    assert!(DiscardCause::words(true).contains(&"unsafe") && DiscardCause::words(false).contains(&"not needed"));
}

/// Another machine is never spoken with in clear unless it is said: what a server at the other end hears first.
#[cfg(all(feature = "group", target_os = "linux"))]
mod in_clear {
    use std::io::{Read, Write};
    use std::net::TcpListener;
    use std::os::unix::net::UnixListener;
    use std::thread;

    use crate::kitchen::Folder;
    use stillroom::lots::group::{GroupFault, connect};

    /// What a client of the protocol sends before all else where it wants TLS (PostgreSQL manual, 55.7 SSLRequest).
    const TLS_ASKED: [u8; 8] = [0, 0, 0, 8, 4, 210, 22, 47];

    /// The first bytes of whoever calls, who gets no TLS; and that nothing follows where TLS was asked.
    fn heard(mut call: impl Read + Write) -> bool {
        let mut first = [0; 8];
        call.read_exact(&mut first).unwrap();
        let is_tls = first == TLS_ASKED;
        if is_tls {
            call.write_all(b"N").unwrap();
            assert_eq!(call.read(&mut first).unwrap_or(0), 0, "it went on in clear");
        }
        is_tls
    }

    /// Whether a connection string that leads to this listener asks for TLS; where this machine has no certificates at all it
    /// ends before that.
    fn asks_for_tls(written: &str) -> bool {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let hosts = written.split(' ').find_map(|word| word.strip_prefix("host=")).map_or(1, |h| h.split(',').count());
        let [addresses, ports] = ["127.0.0.1".to_owned(), port.to_string()].map(|one| vec![one; hosts].join(","));
        let written = match written.contains("://") {
            true => {
                let mark = if written.contains('?') { '&' } else { '?' };
                format!("{written}{mark}hostaddr={addresses}").replace("/bars", &format!(":{ports}/bars"))
            }
            false => format!("{written} hostaddr={addresses} port={ports}"),
        };
        let asked = thread::spawn(move || connect(&written).err());
        let is_done = move || asked.join().unwrap();
        listener.set_nonblocking(true).unwrap();
        for _ in 0..2000 {
            if let Ok((call, _)) = listener.accept() {
                call.set_nonblocking(false).unwrap();
                return heard(call);
            }
            thread::sleep(std::time::Duration::from_millis(5));
        }
        let fault = is_done();
        assert!(matches!(fault, Some(GroupFault::NoCertificates)), "{fault:?}");
        true
    }

    #[test]
    fn another_machine_is_never_spoken_with_in_clear_unless_it_is_said() {
        for written in [
            "postgres://a:b@db.example.com/bars",
            "postgres://a:b@db.example.com/bars?sslmode=prefer",
            "host=127.0.0.1,10.0.0.7 user=a",
            "host=localhost.example.com user=a",
            "host=localhost user=a sslmode=require",
        ] {
            assert!(asks_for_tls(written), "{written}");
        }
        for written in ["host=localhost user=a", "host=::1 user=a", "host=10.0.0.7 user=a sslmode=disable"] {
            assert!(!asks_for_tls(written), "{written}");
        }
        assert!(matches!(connect("user=a"), Err(GroupFault::NotAConnection)));
    }

    #[test]
    fn a_socket_of_this_machine_is_spoken_with_in_clear() {
        let folder = Folder::new();
        let listener = UnixListener::bind(folder.0.join(".s.PGSQL.5432")).unwrap();
        let written = format!("host={} user=a", folder.0.display());
        thread::spawn(move || connect(&written).err());
        assert!(!heard(listener.accept().unwrap().0));
    }
}
