//! What a terminal is told: in letters that it has, in columns that line up, whose fault it is, and on which day.

use std::process::{Command, ExitCode};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use crate::kitchen::Kitchen;
use stillroom::cli;
use stillroom::cli::clock::moment;
use stillroom::render::print::printable;
use stillroom::render::text::{self, Page};
use stillroom::report::Report;
use unicode_width::UnicodeWidthStr;

/// The sheet of a card on a terminal with these variables set and no other of the locale.
#[cfg(target_os = "linux")]
fn on_a_terminal(set: &[(&str, &str)]) -> String {
    let kitchen = Kitchen::new("");
    kitchen.write("x.toml", "name = \"Crème\"\n[parts]\n\"white sugar\" = \"1.2 kg\"\nwater = \"800 g\"\n");
    let mut command = Command::new("script");
    let run = format!("'{}' solve x.toml --full", env!("CARGO_BIN_EXE_stillroom"));
    command.args(["-qec", &run, "/dev/null"]).current_dir(kitchen.folder());
    for name in ["LC_ALL", "LC_CTYPE", "LANG"] {
        command.env_remove(name);
    }
    let out = command.envs(set.iter().copied()).stdin(std::process::Stdio::null()).output().unwrap();
    assert!(out.status.success(), "{out:?}");
    String::from_utf8(out.stdout).unwrap()
}

/// The first that is set decides; signs become letters, and names stay.
#[cfg(target_os = "linux")]
#[test]
fn the_first_locale_that_is_set_decides() {
    if Command::new("script").arg("--version").output().is_err() {
        eprintln!("not tested: there is no `script` here to make a terminal with");
        return;
    }
    for set in [
        &[][..],
        &[("LANG", "en_GB.UTF-8")],
        &[("LANG", "C.utf8")],
        &[("LC_ALL", ""), ("LC_CTYPE", "en_GB.UTF-8"), ("LANG", "C")],
    ] {
        let page = on_a_terminal(set);
        for sign in ["Crème", "°Bx", " ± ", "kg/m³", "20 °C"] {
            assert!(page.contains(sign), "{sign}, {set:?}: {page}");
        }
    }
    for set in [&[("LANG", "C")][..], &[("LANG", "de_DE.ISO-8859-1")], &[("LANG", "en_GB.UTF-8"), ("LC_ALL", "POSIX")]]
    {
        let page = on_a_terminal(set);
        for letters in ["Crème", " Bx", " +/- ", "kg/m3", "20 C"] {
            assert!(page.contains(letters), "{letters}, {set:?}: {page}");
        }
        assert!(!page.contains(['°', '±', '³', '·']), "{set:?}: {page}");
    }
}

const PANICS: &str = "STILLROOM_TEST_PANICS";

/// Not a test of its own: what a process does that was begun by the test below. It takes the hook of panics.
#[test]
fn as_a_process_that_panics() {
    if std::env::var_os(PANICS).is_some() {
        let codes = [cli::caught(|| panic!("a drawn line has no end")), cli::caught(|| ExitCode::from(1))];
        let _ = std::panic::take_hook();
        assert_eq!(codes, [ExitCode::from(3), ExitCode::from(1)]);
    }
}

#[test]
fn a_panic_ends_with_3_and_says_whose_fault_it_is() {
    let arguments = ["--exact", "terminal::as_a_process_that_panics", "--nocapture"];
    let this = std::env::current_exe().unwrap();
    let out = Command::new(this).args(arguments).env(PANICS, "1").output().unwrap();
    let said = [out.stdout, out.stderr].map(|bytes| String::from_utf8(bytes).unwrap()).concat();
    assert!(out.status.success() && said.contains("1 passed"), "{said}");
    assert!(said.contains("not of your card") && said.contains("a drawn line has no end"), "{said}");
}

/// 30 December 9999, midnight.
const LAST: u64 = 253_402_128_000;

#[test]
fn no_clock_panics() {
    let day = |time: Option<SystemTime>| time.map(|time| moment(time).date_naive().to_string());
    let second = Duration::from_secs(1);
    let after = |seconds: u64| UNIX_EPOCH.checked_add(Duration::from_secs(seconds));
    assert_eq!(day(UNIX_EPOCH.checked_sub(second)).as_deref(), Some("1970-01-01"));
    assert_eq!(day(UNIX_EPOCH.checked_sub(Duration::from_secs(1 << 40))).as_deref(), Some("1970-01-01"));
    assert_eq!(day(after(1_795_651_200)).as_deref(), Some("2026-11-26"));
    for seconds in [LAST, LAST + 1, 1 << 45, i64::MAX.unsigned_abs()] {
        assert_eq!(day(after(seconds)).unwrap_or("9999-12-30".to_owned()), "9999-12-30", "{seconds}");
    }
}

/// The sheet of a card on a narrow page.
fn narrow(card: &str, larder: &str) -> String {
    let sheet = Kitchen::new(larder).makes(card).sheet();
    text::solve(&Report::new(Some(sheet), &[], |_| None), Page::default())
}

#[test]
fn letters_of_two_columns_and_of_none_line_up() {
    let larder =
        "[ingredient.\"梅酒\"]\nlike = \"white sugar\"\n[ingredient.\"Cre\u{300}me\"]\nlike = \"white sugar\"\n";
    let parts = "\"梅酒\" = \"100 g\"\n\"Cre\u{300}me\" = \"1000 g\"\nwater = \"4 kg\"\n";
    let page = narrow(&format!("name = \"x\"\n[parts]\n{parts}"), larder);
    // how wide a line is until its first number ends
    let end_of_grams = |name: &str| {
        let line = page.lines().find(|line| line.trim_start().starts_with(name)).unwrap_or_else(|| panic!("{page}"));
        let at = line.find(|c: char| c.is_ascii_digit()).unwrap_or_else(|| panic!("{page}"));
        let number = line[at..].split(' ').next().unwrap();
        line[..at + number.len()].width()
    };
    let ends: Vec<usize> = ["梅酒", "Cr", "water"].map(end_of_grams).to_vec();
    assert!(ends.windows(2).all(|pair| pair[0] == pair[1]), "{ends:?}\n{page}");
}

#[test]
fn text_goes_on_under_its_head() {
    let words = "word ".repeat(30);
    let page = narrow(&format!("name = \"x\"\nsteps = [\"{words}\"]\n[parts]\nwater = \"400 g\"\n"), "");
    let lines: Vec<&str> = page.lines().filter(|line| line.contains("word")).collect();
    assert!(lines.len() > 2 && lines.iter().all(|line| line.width() <= 60), "{page}");
    assert!(lines[0].starts_with("Method: ") && lines[1..].iter().all(|line| line.starts_with("    word")), "{page}");
}

#[test]
fn words_are_tidied_and_scripts_that_need_shaping_refused() {
    assert_eq!(printable("Cre\u{300}me\n de \u{202e}cassis\u{200f}").unwrap(), "Crème de cassis");
    assert!(printable("Ρακόμελο, Хреновуха ½ °C – ± é").is_ok());
    for refused in ["ערק", "عرق", "नींबू", "レモン", "🍋", "e\u{301}\u{323}\u{301}"] {
        assert!(printable(refused).is_err(), "{refused}");
    }
}
