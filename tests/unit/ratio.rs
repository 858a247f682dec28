//! What a ratio means by weight and by cups.

use super::readings;

#[test]
fn two_to_one_by_weight_and_by_cups() {
    let (weight, cups) = readings(2.0, 1.0);
    assert_eq!(format!("{weight:.1} {cups:.1}"), "66.7 62.9");
}
