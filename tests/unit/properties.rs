//! What is inside the room `properties` and cannot be asked from outside it.

use std::collections::HashSet;

use super::*;

#[test]
fn every_target_is_a_property_and_every_number_says_what_stands_behind_it() {
    assert!(TargetKind::ALL.into_iter().all(|kind| of_target(kind).target == Some(kind)));
    let names: HashSet<_> = equations().iter().map(|e| &e.name).collect();
    assert_eq!(names.len(), equations().len(), "a number is told twice");
    assert!(
        equations()
            .iter()
            .all(|e| !e.sources.is_empty() && ![&e.equation, &e.range, &e.error].contains(&&String::new()))
    );
    assert!(headlines().all(|(_, headline)| !headline.equation().sources.is_empty()));
    assert_eq!(headlines().count(), 4);
}
