//! From days to a day.

use chrono::{Datelike, NaiveDate, Weekday};
use stillroom::shelf_life::calendar::{DayOne, Frozen, LastDay, in_words, last_day, last_day_frozen, span_in_words};

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

/// `dates.md` H2: made day 1, frozen day 3, life 7: 4 days left, the thaw day the first of them.
#[test]
fn the_count_of_the_freezer_is_strict() {
    let stay = |from, to| Frozen { from, to };
    // made on the 1st with 7 days, last day the 7th
    let last = day(12, 7);
    assert_eq!(last_day_frozen(last, &[stay(day(12, 3), None)]), Some(LastDay::Frozen { days_left: 4 }));
    assert_eq!(last_day_frozen(last, &[stay(day(12, 3), Some(day(12, 20)))]), Some(LastDay::On(day(12, 23))));
    // made on the 6th with 7 days, frozen on the 9th: 3 are left, not 4 (the last day is the 12th)
    assert_eq!(last_day_frozen(day(12, 12), &[stay(day(12, 9), None)]), Some(LastDay::Frozen { days_left: 3 }));
    // frozen on its last day: use at once when it comes out
    assert_eq!(last_day_frozen(last, &[stay(day(12, 7), None)]), Some(LastDay::Frozen { days_left: 0 }));
    assert_eq!(last_day_frozen(last, &[stay(day(12, 7), Some(day(12, 9)))]), Some(LastDay::On(day(12, 9))));
    // too late, backwards, or never
    assert_eq!(last_day_frozen(last, &[stay(day(12, 8), None)]), Some(LastDay::On(last)));
    assert_eq!(last_day_frozen(last, &[stay(day(12, 5), Some(day(12, 2)))]), Some(LastDay::On(last)));
    assert_eq!(last_day_frozen(last, &[]), Some(LastDay::On(last)));
}

#[test]
fn words_round_down_and_have_no_decimal() {
    let cases = [
        (0, "use at once"),
        (1, "1 day"),
        (13, "13 days"),
        (14, "14 days"),
        (19, "19 days"),
        (23, "23 days"),
        (56, "56 days"),
        (57, "8 weeks (57 days)"),
        (60, "2 months"),
        (83, "11 weeks (83 days)"),
        (180, "6 months"),
        (364, "52 weeks (364 days)"),
        (719, "102 weeks (719 days)"),
        (730, "2 years"),
        (731, "2 years (731 days)"),
        (1825, "5 years"),
    ];
    for (days, words) in cases {
        assert_eq!(in_words(days), words);
    }
    assert_eq!(span_in_words(14, 30), "2 to 4 weeks");
    assert_eq!(span_in_words(1, 30), "1 day to 4 weeks");
}
