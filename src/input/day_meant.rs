//! A day that is written another way than year first, for what to write in its place.

use chrono::NaiveDate;

use super::day;

/// The day that three numbers mean, the day before the month ("30.11.2026", "30/11/26") or the year first ("2026/11/30"); `None` of
/// all else. It is only ever offered.
pub(crate) fn day_meant(written: &str) -> Option<NaiveDate> {
    let parts: Vec<&str> = written.trim().split(['.', '/', '-', ' ']).filter(|part| !part.is_empty()).collect();
    let is_number = |part: &&str| part.len() <= 4 && part.bytes().all(|b| b.is_ascii_digit());
    let [first, month, last] = parts.as_slice() else { return None };
    if !parts.iter().all(is_number) {
        return None;
    }
    match (first.len(), last.len()) {
        (4, _) => day(&format!("{first}-{month}-{last}")),
        (_, 4) => day(&format!("{last}-{month}-{first}")),
        (_, 2) => day(&format!("20{last}-{month}-{first}")),
        _ => None,
    }
}
