//! The README tells the truth: its commands are run, its output compared.
//! `STILLROOM_BLESS=1` rewrites the output; read it before it is committed.

use std::path::Path;
use std::process::Command;

const PROMPT: &str = "$ cargo run --release -- ";

fn run(arguments: &str) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_stillroom"))
        .args(split(arguments))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{arguments}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Words of a command line; quotes keep spaces.
pub fn split(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for c in line.trim().chars() {
        match c {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            _ => words.last_mut().unwrap().push(c),
        }
    }
    words
}

/// Every console block with its output made new.
fn renewed(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(start) = rest.find("```console\n") {
        let body = start + "```console\n".len();
        let end = body + rest[body..].find("```").unwrap();
        let block = &rest[body..end];
        let command = block.lines().next().unwrap();
        let arguments = command.strip_prefix(PROMPT).expect(command);
        out.push_str(&rest[..body]);
        out.push_str(&format!("{command}\n{}", run(arguments)));
        rest = &rest[end..];
    }
    out + rest
}

#[test]
fn commands_of_the_readme_print_what_it_shows() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let text = std::fs::read_to_string(&path).unwrap();
    let made = renewed(&text);
    assert!(made.matches(PROMPT).count() >= 1);
    if std::env::var_os("STILLROOM_BLESS").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let differs = text.lines().zip(made.lines()).find(|(old, new)| old != new);
    assert!(
        text == made,
        "the README shows another output than the program (first line: {differs:?}); STILLROOM_BLESS=1 renews it"
    );
}

#[test]
fn the_card_in_the_readme_is_the_one_in_the_demo_house() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).unwrap();
    let card = std::fs::read_to_string(root.join("formulas/rich-muscovado-syrup.toml")).unwrap();
    assert!(readme.contains(&card));
}

/// The answer at both ends of a range of prices, in one sentence each.
#[test]
fn the_bought_bottle_is_compared_as_the_readme_says() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = std::fs::read_to_string(path).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    for price in ["15 GBP / 700 ml incl. 20 % VAT", "28 GBP / 700 ml incl. 20 % VAT"] {
        let out = run(&format!("cost formulas/lime-and-clove-liqueur.toml --json --against \"{price}\""));
        let told: serde_json::Value = serde_json::from_str(&out).unwrap();
        let money = |key: &str| told["against"]["bottle"][key].as_str().unwrap().to_owned();
        let saving = money("saving");
        let verdict = match saving.strip_prefix('-') {
            Some(more) => format!("dearer by {more} GBP"),
            None => format!("saves {saving} GBP"),
        };
        let (made, bought) = (money("made"), money("bought"));
        let says = format!("`--against \"{price}\"` a bottle made is {made} GBP, bought {bought} GBP: {verdict}.");
        assert!(readme.contains(&says), "the README does not say: {says}");
    }
}
