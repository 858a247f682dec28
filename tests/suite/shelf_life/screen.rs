//! The two tables of the food code, cell by cell and edge by edge.

use stillroom::shelf_life::screen::{ScreenClass, ScreenTable, look_up};

use super::table::rows;

#[test]
fn every_cell_and_edge() {
    for row in rows("safety-tcs-check.csv") {
        let table = if row.text("table") == "A" { ScreenTable::A } else { ScreenTable::B };
        let expected = if row.text("result") == "pa" { ScreenClass::Pa } else { ScreenClass::NonTcs };
        let (ph, aw) = (row.number("ph"), row.number("aw"));
        assert_eq!(look_up(table, Some(ph), Some(aw)), expected, "{table:?} pH {ph} aw {aw}");
    }
}

#[test]
fn the_open_edges_of_table_b() {
    // pH 4.2 and aw 0.88 fall in the second class
    assert_eq!(look_up(ScreenTable::B, Some(4.1999), Some(0.99)), ScreenClass::NonTcs);
    assert_eq!(look_up(ScreenTable::B, Some(4.2), Some(0.99)), ScreenClass::Pa);
    assert_eq!(look_up(ScreenTable::B, Some(4.1 + 0.1), Some(0.99)), ScreenClass::Pa, "4.1 + 0.1 is 4.2");
    assert_eq!(look_up(ScreenTable::B, Some(6.0), Some(0.8799)), ScreenClass::NonTcs);
    assert_eq!(look_up(ScreenTable::B, Some(6.0), Some(0.88)), ScreenClass::Pa);
}

#[test]
fn unknown_is_the_worst() {
    for table in [ScreenTable::A, ScreenTable::B] {
        assert_eq!(look_up(table, None, None), ScreenClass::Pa);
        assert_eq!(look_up(table, None, Some(0.99)), ScreenClass::Pa);
        assert_eq!(look_up(table, Some(7.0), None), ScreenClass::Pa);
    }
    assert_eq!(look_up(ScreenTable::B, None, Some(0.87)), ScreenClass::NonTcs);
    assert_eq!(look_up(ScreenTable::B, Some(4.0), None), ScreenClass::NonTcs);
}

#[test]
fn table_a_is_never_stricter_than_table_b() {
    for ph in 10..80 {
        for aw in 500..=1000 {
            let at = |table| look_up(table, Some(f64::from(ph) / 10.0), Some(f64::from(aw) / 1000.0));
            assert!(at(ScreenTable::A) <= at(ScreenTable::B), "pH {ph} aw {aw}");
        }
    }
}
