//! Whole commands over a house of which one file was changed, or with an argument that was.

use std::fmt;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use crate::kitchen::Folder;

use super::mutate::{Dice, Pieces};
use super::{ROOT, numbers_only};

/// Commands of one file each: what stands for FILE is what was changed.
const OF_A_FILE: [(&str, &[&[&str]]); 6] = [
    ("house.toml", &[&["check", "."], &["plan", "."], &["menu", "."]]),
    ("larder.toml", &[&["check", "."], &["plan", "."], &["menu", "."]]),
    ("plan.toml", &[&["check", "."], &["plan", "."]]),
    ("menu.toml", &[&["menu", "."], &["plan", "."]]),
    ("lots/demo.jsonl", &[&["lots"], &["due"], &["learn"], &["plan", "."]]),
    (
        "",
        &[
            &["check", "FILE"],
            &["solve", "FILE", "--full"],
            &["date", "FILE"],
            &["cost", "FILE"],
            &["serve", "FILE"],
            &["label", "FILE"],
        ],
    ),
];
/// Commands with an argument in place of AMOUNT that people write wrongly.
const OF_AN_AMOUNT: [&[&str]; 16] = [
    &["solve", "CARD", "--make", "AMOUNT"],
    &["solve", "CARD", "--from", "water=AMOUNT"],
    &["solve", "CARD", "--set", "brix=AMOUNT"],
    &["solve", "CARD", "--set", "abv=AMOUNT"],
    &["adjust", "CARD", "--have", "AMOUNT", "--brix", "50"],
    &["adjust", "CARD", "--have", "2 L", "--brix", "AMOUNT"],
    &["square", "--strong", "AMOUNT", "--target", "40", "--make", "1L"],
    &["square", "--strong", "63", "--target", "AMOUNT"],
    &["read", "--refractometer", "AMOUNT"],
    &["read", "--refractometer", "32.6", "--sg", "AMOUNT"],
    &["read", "--abv", "28", "--refractometer", "AMOUNT", "--at", "20C"],
    &["read", "--proof", "AMOUNT", "--at", "75F"],
    &["read", "--weight", "AMOUNT", "--volume", "100 ml"],
    &["cost", "CARD", "--against", "AMOUNT", "--against-abv", "20"],
    &["serve", "CARD", "--sell-at", "AMOUNT"],
    &["date", "CARD", "--made", "AMOUNT"],
];

/// A command, with the file that was changed for it.
pub struct Case {
    house: usize,
    changed: Option<(String, String)>,
    arguments: Vec<String>,
}

impl fmt::Display for Case {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        writeln!(out, "house {}: {:?}", self.house, self.arguments)?;
        self.changed.iter().try_for_each(|(file, text)| write!(out, "---- {file}\n{text}"))
    }
}

/// Copies of shipped houses.
pub struct Bar {
    houses: Vec<(Folder, Vec<(String, String)>)>,
}

impl Bar {
    pub fn new(folders: &[&str]) -> Self {
        let of = |folder: &&str| {
            let mut files = Vec::new();
            let mut house = Folder::new();
            let from = Path::new(ROOT).join(folder);
            let names =
                fs::read_dir(&from).unwrap().map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned());
            let names = names.filter(|name| name.ends_with(".toml")).chain(["lots/demo.jsonl".to_owned()]);
            for (name, text) in names.filter_map(|name| Some((name.clone(), fs::read_to_string(from.join(name)).ok()?)))
            {
                house = house.with(&name, &text);
                files.push((name, text));
            }
            files.sort();
            (house, files)
        };
        Self { houses: folders.iter().map(of).collect() }
    }

    pub fn case(&self, pieces: &Pieces, dice: &mut Dice) -> Case {
        let house = dice.below(self.houses.len());
        let files = &self.houses[house].1;
        let own = |name: &str| OF_A_FILE.iter().find(|(of, _)| *of == name).unwrap_or(&OF_A_FILE[OF_A_FILE.len() - 1]);
        let (name, text) = dice.of(files);
        if dice.below(3) > 0 {
            let arguments =
                dice.of(own(name).1).iter().map(|word| if *word == "FILE" { name } else { *word }.to_owned());
            let changed = Some((name.clone(), pieces.mutated(text, dice)));
            return Case { house, changed, arguments: arguments.collect() };
        }
        let amount = dice.of(pieces.quoted()).clone();
        let amount = pieces.mutated(&amount, dice).replace('\0', "");
        let cards: Vec<_> = files.iter().filter(|(name, _)| own(name).0.is_empty()).collect();
        let card = &dice.of(&cards).0;
        let arguments =
            dice.of(&OF_AN_AMOUNT).iter().map(|word| word.replace("AMOUNT", &amount).replace("CARD", card)).collect();
        Case { house, changed: None, arguments }
    }

    /// Ends with a code that `--help` states, prints numbers, and tells a program what it tells a person.
    pub fn run(&self, case: &Case) {
        let (folder, files) = &self.houses[case.house];
        if let Some((name, text)) = &case.changed {
            fs::write(folder.0.join(name), text).unwrap();
        }
        let command = |json: &[&str]| {
            let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
            command
                .args(&case.arguments)
                .args(json)
                .current_dir(&folder.0)
                .env("XDG_CONFIG_HOME", folder.0.join("device"));
            command.output().unwrap()
        };
        let (text, json) = (command(&[]), command(&["--json"]));
        if let Some((name, _)) = &case.changed {
            let shipped = files.iter().find(|(of, _)| of == name).unwrap();
            fs::write(folder.0.join(name), &shipped.1).unwrap();
        }
        let said =
            |of: &Output| format!("{}{}", String::from_utf8_lossy(&of.stdout), String::from_utf8_lossy(&of.stderr));
        for of in [&text, &json] {
            let code = of.status.code();
            assert!(code.is_some_and(|code| (0..=2).contains(&code)), "{code:?} {case}\n{}", said(of));
            numbers_only(&said(of), &case.to_string());
        }
        assert_eq!(text.status.code(), json.status.code(), "{case}\n{}\n{}", said(&text), said(&json));
        // what the arguments themselves are refused for is said by the parser of the command line, in words
        let of_arguments = json.status.code() == Some(2) && json.stdout.is_empty();
        let is_json = serde_json::from_slice::<serde_json::Value>(&json.stdout).is_ok();
        assert!(of_arguments || is_json, "{case}\n{}", said(&json));
    }
}
