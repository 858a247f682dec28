//! From days to a day.

use chrono::{Datelike, NaiveDate, Weekday};
use stillroom::shelf_life::calendar::{DayOne, Frozen, LastDay, clock_start, in_words, last_day, last_day_frozen};

fn day(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).unwrap()
}

#[test]
fn the_day_made_is_day_one() {
    let monday = day(11, 23);
    assert_eq!(monday.weekday(), Weekday::Mon);
    assert_eq!(last_day(monday, 3, None, DayOne::DayMade).unwrap().weekday(), Weekday::Wed);
    assert_eq!(last_day(monday, 3, None, DayOne::DayAfter).unwrap().weekday(), Weekday::Thu);
    assert_eq!(last_day(day(11, 25), 30, None, DayOne::DayMade), Some(day(12, 24)));
    assert_eq!(last_day(monday, 0, None, DayOne::DayMade), Some(monday));
    assert_eq!(last_day(NaiveDate::MAX, 2, None, DayOne::DayMade), None);
}

#[test]
fn the_law_counts_its_own_way() {
    // 7 days by the food code end on the seventh day, also in a house that starts the day after
    let made = day(11, 25);
    assert_eq!(last_day(made, 7, Some(7), DayOne::DayAfter), Some(day(12, 1)));
    assert_eq!(last_day(made, 3, Some(7), DayOne::DayAfter), Some(day(11, 28)));
}

#[test]
fn freezing_stops_the_clock() {
    let last = day(12, 1);
    let stay = |from, to| Frozen { from, to };
    let thawed = [stay(day(11, 27), Some(day(12, 7)))];
    assert_eq!(last_day_frozen(last, &thawed), Some(LastDay::On(day(12, 11))));
    // two stays, one within the other: counted once
    let twice = [stay(day(11, 30), Some(day(12, 5))), stay(day(11, 27), Some(day(12, 7)))];
    assert_eq!(last_day_frozen(last, &twice), Some(LastDay::On(day(12, 11))));
    // still in: 27, 28, 29, 30 November and 1 December are left
    assert_eq!(last_day_frozen(last, &[stay(day(11, 27), None)]), Some(LastDay::Frozen { days_left: 5 }));
    // too late, or backwards
    assert_eq!(last_day_frozen(last, &[stay(day(12, 2), None)]), Some(LastDay::On(last)));
    assert_eq!(last_day_frozen(last, &[stay(day(11, 30), Some(day(11, 26)))]), Some(LastDay::On(last)));
    assert_eq!(last_day_frozen(last, &[]), Some(LastDay::On(last)));
}

#[test]
fn the_clock_runs_from_the_earliest_ingredient() {
    assert_eq!(clock_start(day(11, 25), Some(day(11, 23))), day(11, 23));
    assert_eq!(clock_start(day(11, 25), Some(day(11, 28))), day(11, 25));
    assert_eq!(clock_start(day(11, 25), None), day(11, 25));
}

#[test]
fn words_round_down_and_have_no_decimal() {
    let cases = [
        (0, "use at once"),
        (1, "about 1 day"),
        (13, "about 13 days"),
        (14, "about 2 weeks"),
        (83, "about 11 weeks"),
        (84, "about 2 months"),
        (137, "about 4 months"),
        (144, "about 4 months"),
        (364, "about 11 months"),
        (365, "about 12 months"),
    ];
    for (days, words) in cases {
        assert_eq!(in_words(days), words);
    }
}
