//! The keys of the bibliography.

use super::*;

#[test]
fn every_entry_has_a_key_of_its_own_and_something_to_say() {
    let keys: std::collections::HashSet<_> = all().iter().map(|r| &r.key).collect();
    assert_eq!(keys.len(), all().len());
    assert!(all().iter().all(|r| begins_a_row(&r.key) && !r.words().is_empty()));
    assert!(!begins_a_row("kell") && !begins_a_row("kell-1975,"));
    assert_eq!(Key::new("common-practice").reference().with_standing(), "common practice, no source");
    assert_eq!(find("MEM").map(Reference::words), Some("from memory"));
}
