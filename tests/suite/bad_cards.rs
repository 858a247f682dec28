//! Broken cards and the diagnostics that they must give, odd cards that must read, and the promise
//! that no text makes the reader panic. `STILLROOM_BLESS=1` writes the expected diagnostics anew:
//! read every one of them.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::sample::Index;
use stillroom::card::{self, Card};
use stillroom::diagnostic::{Code, Topic, any_error};

use crate::generated::config;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The files with this ending right below a folder of the project, by name.
fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut files: Vec<_> = fs::read_dir(root().join(folder))
        .unwrap_or_else(|e| panic!("{folder}: {e}"))
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .collect();
    files.sort();
    files
}

/// Reads a card; gives it and its diagnostics as plain text.
fn read(path: &Path) -> (Option<Card>, String, bool) {
    let text = fs::read_to_string(path).unwrap();
    let name = path.file_name().unwrap().to_string_lossy();
    let (card, found) = card::read(name.as_ref().into(), text.as_str().into());
    let plain = found.iter().map(|d| d.plain(&text)).collect::<Vec<_>>().join("\n");
    (card, plain, any_error(&found))
}

#[test]
fn broken_cards_give_the_diagnostics_beside_them() {
    let bless = std::env::var_os("STILLROOM_BLESS").is_some();
    let cards = files("tests/bad/card", "toml");
    assert!(cards.len() >= 45, "{} broken cards", cards.len());
    let mut wrong = String::new();
    for card in &cards {
        let (_, found, _) = read(card);
        assert!(!found.is_empty(), "{} is not broken", card.display());
        let beside = card.with_extension("txt");
        if bless {
            fs::write(&beside, &found).unwrap();
        }
        let expected = fs::read_to_string(&beside).unwrap_or_default();
        if found != expected {
            wrong.push_str(&format!("{}\n--- expected\n{expected}\n--- found\n{found}\n", card.display()));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn odd_cards_read_without_errors() {
    for card in files("tests/odd", "toml") {
        let (read, found, error) = read(&card);
        assert!(read.is_some() && !error, "{}\n{found}", card.display());
    }
}

#[test]
fn a_file_that_is_too_large_is_not_read() {
    let text = format!("name = \"x\"\n# {}\n", "x".repeat(card::LARGEST));
    let (card, found) = card::read("big.toml".into(), text.into());
    assert!(card.is_none());
    assert_eq!(found.iter().map(|d| d.code).collect::<Vec<_>>(), [Code::TooLarge]);
}

#[test]
fn a_card_of_more_parts_than_anybody_weighs_is_not_read() {
    let of = |parts: usize| {
        let lines: String = (0..parts).map(|n| format!("\"part {n}\" = \"1 g\"\n")).collect();
        card::read("long.toml".into(), format!("name = \"Long\"\nmakes = \"9 kg\"\n[parts]\n{lines}").into())
    };
    assert!(of(card::MOST_PARTS).0.is_some());
    let (card, found) = of(card::MOST_PARTS + 1);
    assert!(card.is_none());
    assert_eq!(found.iter().map(|d| d.code).collect::<Vec<_>>(), [Code::TooLarge]);
    assert_eq!(found[0].title, "the card has 1,001 parts; at most 1,000 are read");
}

#[test]
fn a_method_of_many_pages_is_refused() {
    let of = |words: usize| {
        let step = "stir ".repeat(words - 10);
        let tenth = "strain it ten times through a cloth and then rest";
        let text = format!("name = \"Long\"\nsteps = [{:?}, {tenth:?}]\n[parts]\nwater = \"1 kg\"\n", step.trim());
        card::read("long.toml".into(), text.into())
    };
    assert!(of(card::MOST_WORDS).0.is_some());
    let (card, found) = of(card::MOST_WORDS + 1);
    assert!(card.is_none());
    assert_eq!(found[0].title, "the card has 3,001 words of method; at most 3,000 are read");
    // with no space between them they are as many
    let text = format!("name = \"Long\"\nsteps = [{:?}]\n[parts]\nwater = \"1 kg\"\n", "(1)".repeat(4000));
    assert!(card::read("long.toml".into(), text.into()).0.is_none());
}

/// What has no spaces counts as well: a page of digits is read for long.
#[test]
fn a_method_of_many_letters_is_refused() {
    let of = |letters: usize| {
        let text = format!("name = \"Long\"\nsteps = [{:?}]\n[parts]\nwater = \"1 kg\"\n", "1".repeat(letters));
        card::read("long.toml".into(), text.into())
    };
    let (card, found) = of(card::MOST_LETTERS + 2);
    assert!(card.is_none());
    assert_eq!(found[0].title, "the card has 30,002 letters of method; at most 30,000 are read");
}

/// Every code that is about a text, its amounts or a card has a broken card.
#[test]
fn every_code_of_the_reader_has_a_broken_card() {
    let given: String =
        files("tests/bad/card", "txt").into_iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    let of_a_card = |code: &&Code| matches!(code.topic(), Topic::Text | Topic::Amounts | Topic::Card);
    let missing: Vec<_> =
        Code::ALL.iter().filter(of_a_card).filter(|code| !given.contains(&format!("[{code}]"))).collect();
    assert!(missing.is_empty(), "no broken card for {missing:?}");
}

/// Reading gives an answer, and every place and every fix lies inside the text.
fn reads(text: &str) {
    let (_, found) = card::read("card.toml".into(), text.into());
    for d in &found {
        for span in d.labels.iter().map(|l| l.span).chain(d.fix.iter().map(|(span, _)| *span)) {
            assert!(text.get(span.start..span.end).is_some(), "{d:?}\n{text:?}");
        }
        assert!(d.file.is_some() && !d.title.is_empty());
        assert!(!d.plain(text).is_empty());
    }
}

static CARDS: LazyLock<Vec<String>> = LazyLock::new(|| {
    ["tests/odd", "tests/bad/card"]
        .into_iter()
        .flat_map(|folder| files(folder, "toml"))
        .map(|path| fs::read_to_string(path).unwrap())
        .collect()
});

/// Deep nesting must not use up the stack.
#[test]
fn deep_nesting_is_refused() {
    for (open, close) in [("[", "]"), ("{ a = ", "}")] {
        reads(&format!("a = {}{}", open.repeat(20_000), close.repeat(20_000)));
        reads(&format!("a = {}", open.repeat(20_000)));
    }
    reads(&format!("{}a = 1", "a.".repeat(20_000)));
    reads(&format!("[{}a]", "a.".repeat(20_000)));
}

proptest! {
    #![proptest_config(config(3000, 7))]

    #[test]
    fn any_text_is_read(text in "\\PC{0,120}") {
        reads(&text);
    }

    #[test]
    fn any_text_of_card_characters_is_read(text in "[a-c\\[\\]{}=\"'\\\\#,.:0-9 %°é\u{feff}\r\n-]{0,80}") {
        reads(&text);
    }

    #[test]
    fn any_value_is_read(key in "(name|makes|class|serving|heated|takes|steps|parts|stage|target|loss|keep|measured)", value in "\\PC{0,30}") {
        reads(&format!("{key} = {value}\n[parts]\nwater = {value}\nx = \"{value}\"\n"));
    }

    #[test]
    fn a_card_that_was_damaged_is_read(
        card in any::<Index>(), at in any::<Index>(), length in 0usize..12, put in "[\\PC\n]{0,6}",
    ) {
        let chars: Vec<char> = card.get(&CARDS).chars().collect();
        let from = at.index(chars.len() + 1);
        let to = (from + length).min(chars.len());
        let damaged: String = chars[..from].iter().copied().chain(put.chars()).chain(chars[to..].iter().copied()).collect();
        reads(&damaged);
    }

    #[test]
    fn lines_in_any_order_are_read(card in any::<Index>(), other in any::<Index>(), at in any::<Index>()) {
        let mut lines: Vec<&str> = card.get(&CARDS).lines().chain(other.get(&CARDS).lines()).collect();
        if !lines.is_empty() {
            let at = at.index(lines.len());
            lines.rotate_left(at);
        }
        reads(&lines.join("\n"));
    }
}
