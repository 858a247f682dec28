//! What a guest gets beside what stands in a bottle, in words.

use crate::assessment::allergens_by_group;
use crate::report::guest::GuestView;

/// What goes in for a guest is drunk with what is in the bottle.
pub(in crate::render) fn also_for_a_guest(added: &[String]) -> String {
    match added {
        [] => String::new(),
        added => format!("; for a guest also {}", allergens_by_group(added)),
    }
}

/// All that a guest gets beside what is said of the bottle.
pub(in crate::render) fn beside_for_a_guest(guest: &GuestView) -> String {
    let open = match guest.allergens_for_a_guest_not_stated.as_slice() {
        [] => String::new(),
        open => format!("; for a guest not stated: {}", open.join(", ")),
    };
    also_for_a_guest(&guest.allergens_for_a_guest) + &open
}
