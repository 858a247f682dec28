//! What a terminal is told: in letters that it has, and whose fault it is.

use super::ascii::{fitted, takes_utf8};
use super::*;

#[test]
fn the_first_locale_that_is_set_decides() {
    let takes = |set: &[(&str, &str)]| {
        takes_utf8(|name| set.iter().find(|(n, _)| *n == name).map(|(_, value)| (*value).to_owned()))
    };
    assert!(takes(&[]));
    assert!(takes(&[("LANG", "en_GB.UTF-8")]) && takes(&[("LANG", "C.utf8")]));
    assert!(!takes(&[("LANG", "C")]) && !takes(&[("LANG", "de_DE.ISO-8859-1")]));
    assert!(!takes(&[("LANG", "en_GB.UTF-8"), ("LC_ALL", "POSIX")]));
    assert!(takes(&[("LC_ALL", ""), ("LC_CTYPE", "en_GB.UTF-8"), ("LANG", "C")]));
}

#[test]
fn signs_become_letters_and_names_stay() {
    let text = "Crème · 64 °Bx ± 0.2, 1,310 kg/m³ at 20 °C";
    assert_eq!(fitted(text, false), "Crème - 64 Bx +/- 0.2, 1,310 kg/m3 at 20 C");
    assert_eq!(fitted(text, true), text);
}

#[test]
fn a_panic_ends_with_3_and_says_whose_fault_it_is() {
    let before = panic::take_hook();
    let codes = [caught(|| panic!("a drawn line has no end")), caught(|| ExitCode::from(1))];
    panic::set_hook(before);
    assert_eq!(codes, [ExitCode::from(3), ExitCode::from(1)]);
    let said = fault("src/x.rs:1: a drawn line has no end");
    assert!(said.contains("not of your card") && said.contains("a drawn line has no end"), "{said}");
}
