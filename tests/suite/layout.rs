//! The rules of the house that no compiler keeps: arrows one way, no circle of files, each third-party crate behind its
//! room, one meaning a type name, no file that nobody can read at one sitting.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// No file of the source is longer, in lines.
const LONGEST_FILE: usize = 400;

/// Crates and the rooms that may name them; `lib.rs` may name none.
const CRATES: &[(&str, &[&str])] = &[
    ("clap", &["cli"]),
    ("clap_complete", &["cli"]),
    ("clap_mangen", &["cli"]),
    ("anstream", &["cli"]),
    ("annotate_snippets", &["cli"]),
    ("plotters", &["render"]),
    ("resvg", &["render"]),
    ("base64", &["publish"]),
    ("dejavu", &["render"]),
    ("krilla", &["render"]),
    ("skrifa", &["render"]),
    ("fast_qr", &["render"]),
    ("postgres", &["lots"]),
    ("tokio_postgres_rustls", &["lots"]),
    ("toml", &["input", "references", "safety", "shelf_life"]),
];

/// What only the rooms named may ask of the machine: files, today's date, output.
const MACHINE: &[(&str, &[&str])] = &[
    ("std::fs", &["house/files.rs", "lots/files.rs", "lots/files/lines.rs", "cli"]),
    ("Local::now", &["cli"]),
    ("println!", &["cli"]),
    ("std::process", &["house/files.rs", "cli", "main.rs"]),
];

/// One file of the source: its module path and what it says, remarks left out.
struct Source {
    file: String,
    lines: usize,
    module: Vec<String>,
    tokens: Vec<String>,
    text: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut folders = vec![root.clone()];
    let mut all = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|e| e == "rs") {
                let file = path.strip_prefix(&root).unwrap().to_str().unwrap().replace('\\', "/");
                let whole = fs::read_to_string(&path).unwrap();
                let text = without_remarks(&whole);
                let module = file.trim_end_matches(".rs").split('/').filter(|part| !matches!(*part, "mod" | "lib"));
                let module = module.map(str::to_owned).collect();
                all.push(Source { tokens: tokens(&text), lines: whole.lines().count(), file, module, text });
            }
        }
    }
    all.sort_by(|a, b| a.file.cmp(&b.file));
    all
}

fn without_remarks(text: &str) -> String {
    text.lines().map(|line| line.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n")
}

/// Words and signs; the letters of a text in quotes are words too, which does no harm here.
fn tokens(text: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut in_word = false;
    for c in text.chars() {
        let is_word = c.is_alphanumeric() || c == '_';
        match all.last_mut() {
            Some(last) if is_word && in_word => last.push(c),
            _ if c.is_whitespace() => {}
            _ => all.push(c.to_string()),
        }
        in_word = is_word;
    }
    all
}

/// Every path of a token list that begins at `at`: `crate::a::{b, c::d}` is two.
fn paths_from(tokens: &[String], at: &mut usize, before: &[String], all: &mut Vec<Vec<String>>) {
    let mut path = before.to_vec();
    while let Some(token) = tokens.get(*at) {
        if token == "{" {
            *at += 1;
            while tokens.get(*at).is_some_and(|t| t != "}") {
                paths_from(tokens, at, &path, all);
                if tokens.get(*at).is_some_and(|t| t == ",") {
                    *at += 1;
                } else if tokens.get(*at).is_some_and(|t| t != "}") {
                    return;
                }
            }
            *at += 1;
            return;
        }
        path.push(token.clone());
        *at += 1;
        let next = |n: usize| tokens.get(*at + n).map(String::as_str);
        if (next(0), next(1)) == (Some(":"), Some(":")) {
            *at += 2;
            continue;
        }
        if next(0) == Some("as") {
            *at += 2;
        }
        break;
    }
    all.push(path);
}

/// The paths of a file with whether they are passed on (`pub use`).
fn paths(source: &Source, modules: &BTreeSet<Vec<String>>) -> Vec<(Vec<String>, bool)> {
    let tokens = &source.tokens;
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let is_use = at > 0 && tokens[at - 1] == "use";
        let anchored =
            matches!(tokens[at].as_str(), "crate" | "super" | "self") && tokens.get(at + 1).is_some_and(|t| t == ":");
        let child: Vec<String> = source.module.iter().chain([&tokens[at]]).cloned().collect();
        let to_child = is_use && modules.contains(&child);
        if !(anchored || to_child) {
            at += 1;
            continue;
        }
        let passed_on = is_use && at > 1 && matches!(tokens[at - 2].as_str(), "pub" | ")");
        let mut all = Vec::new();
        paths_from(tokens, &mut at, &[], &mut all);
        found.extend(all.into_iter().map(|path| (absolute(&path, &source.module), passed_on)));
    }
    found
}

fn absolute(path: &[String], module: &[String]) -> Vec<String> {
    let mut base: Vec<String> = module.to_vec();
    let mut rest = path;
    match path.first().map(String::as_str) {
        Some("crate") => (base, rest) = (Vec::new(), &path[1..]),
        Some("self") => rest = &path[1..],
        _ => {}
    }
    while rest.first().is_some_and(|part| part == "super") {
        base.pop();
        rest = &rest[1..];
    }
    base.extend(rest.iter().filter(|part| *part != "self").cloned());
    base
}

/// Which file uses which, through the names that a `mod.rs` passes on.
fn arrows(all: &[Source]) -> BTreeMap<String, BTreeSet<String>> {
    let modules: BTreeSet<Vec<String>> = all.iter().map(|s| s.module.clone()).collect();
    let file_of: BTreeMap<&[String], &str> = all.iter().map(|s| (s.module.as_slice(), s.file.as_str())).collect();
    let mut passed_on: BTreeMap<Vec<String>, Vec<String>> = BTreeMap::new();
    for source in all {
        for (path, _) in paths(source, &modules).into_iter().filter(|(_, passed_on)| *passed_on) {
            let name = path.last().unwrap().clone();
            passed_on.insert(source.module.iter().cloned().chain([name]).collect(), path);
        }
    }
    let mut arrows: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for source in all {
        for (mut path, _) in paths(source, &modules).into_iter().filter(|(_, passed_on)| !passed_on) {
            // A name that is passed on is followed to where it is at home.
            for _ in 0..4 {
                let Some(end) = (1..=path.len()).find(|&end| passed_on.contains_key(&path[..end])) else { break };
                path = passed_on[&path[..end]].iter().chain(&path[end..]).cloned().collect();
            }
            let home = (0..=path.len()).rev().find(|&end| file_of.contains_key(&path[..end]));
            let Some(file) = home.map(|end| file_of[&path[..end]]) else { continue };
            if file != source.file {
                arrows.entry(source.file.clone()).or_default().insert(file.to_owned());
            }
        }
    }
    arrows
}

/// The files that reach themselves, circle by circle.
fn circles(arrows: &BTreeMap<String, BTreeSet<String>>) -> BTreeSet<BTreeSet<&str>> {
    let reach = |from: &str| -> BTreeSet<&str> {
        let mut reached = BTreeSet::new();
        let mut next: Vec<&str> = arrows.get(from).into_iter().flatten().map(String::as_str).collect();
        while let Some(file) = next.pop() {
            if reached.insert(file) {
                next.extend(arrows.get(file).into_iter().flatten().map(String::as_str));
            }
        }
        reached
    };
    let all: BTreeMap<&str, BTreeSet<&str>> = arrows.keys().map(|file| (file.as_str(), reach(file))).collect();
    let back = |from: &str, to: &str| all.get(to).is_some_and(|reached| reached.contains(from));
    all.iter()
        .filter(|(file, reached)| reached.contains(**file))
        .map(|(file, reached)| reached.iter().copied().filter(|to| back(file, to)).collect())
        .collect()
}

fn room(file: &str) -> &str {
    file.split('/').next().unwrap().trim_end_matches(".rs")
}

/// The tour of `lib.rs` is the order: a room uses those above it.
#[test]
fn arrows_between_rooms_run_one_way() {
    let all = sources();
    let lib = &all.iter().find(|s| s.file == "lib.rs").unwrap().tokens;
    let order: Vec<&str> = (1..lib.len()).filter(|&at| lib[at - 1] == "mod").map(|at| lib[at].as_str()).collect();
    let floor = |file: &str| order.iter().position(|name| *name == room(file));
    let wrong: Vec<String> = arrows(&all)
        .iter()
        .flat_map(|(from, to)| to.iter().map(move |to| (from.clone(), to.clone())))
        .filter(|(from, to)| floor(from) < floor(to) && floor(from).is_some())
        .map(|(from, to)| format!("{from} -> {to}"))
        .collect();
    assert!(order.len() > 10 && wrong.is_empty(), "these arrows run back up:\n{}", wrong.join("\n"));
}

#[test]
fn no_files_stand_in_a_circle() {
    let mut arrows = arrows(&sources());
    assert!(circles(&arrows).is_empty(), "{:#?}", circles(&arrows));
    // and one would be seen
    let (from, to) = arrows.iter().map(|(from, to)| (from.clone(), to.first().unwrap().clone())).next().unwrap();
    arrows.entry(to).or_default().insert(from);
    assert_eq!(circles(&arrows).len(), 1);
}

#[test]
fn crates_and_the_machine_stay_behind_their_rooms() {
    let mut wrong = Vec::new();
    for source in sources() {
        let allowed = |rooms: &[&str]| rooms.iter().any(|r| *r == source.file || *r == room(&source.file));
        let uses = |name: &str| {
            source.tokens.windows(3).any(|w| w[0] == name && w[1] == ":" && w[2] == ":")
                || source.text.contains(&format!("use {name};"))
        };
        for (name, rooms) in CRATES.iter().filter(|(name, rooms)| uses(name) && !allowed(rooms)) {
            wrong.push(format!("{}: {name} belongs to {rooms:?}", source.file));
        }
        for (asked, rooms) in MACHINE.iter().filter(|(asked, rooms)| source.text.contains(asked) && !allowed(rooms)) {
            wrong.push(format!("{}: {asked} belongs to {rooms:?}", source.file));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// With a test in it the library would be built a second time, for its tests alone.
#[test]
fn no_test_stands_in_the_source() {
    let is_test = |tokens: &[String]| matches!(tokens, [a, b, c] if (a == "cfg" && b == "(" || a == "#" && b == "[") && c == "test");
    let with: Vec<_> = sources().into_iter().filter(|s| s.tokens.windows(3).any(is_test)).map(|s| s.file).collect();
    assert!(with.is_empty(), "these belong to tests/suite: {with:?}");
}

#[test]
fn no_file_is_longer_than_one_sitting() {
    let long = sources().into_iter().filter(|s| s.lines > LONGEST_FILE);
    let long: Vec<_> = long.map(|s| format!("{} has {} lines", s.file, s.lines)).collect();
    assert!(long.is_empty(), "more than one idea? {long:#?}");
}

/// One word for one thing: two types of one name are two ideas. The verbs' `Args` are the convention of clap.
#[test]
fn every_type_has_a_name_of_its_own() {
    let mut homes: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for source in sources() {
        for line in source.text.lines() {
            let line = line.strip_prefix("pub(crate) ").or(line.strip_prefix("pub(super) ")).unwrap_or(line);
            let line = line.strip_prefix("pub ").unwrap_or(line);
            let Some((kind, rest)) = line.split_once(' ') else { continue };
            if matches!(kind, "struct" | "enum" | "trait" | "type") {
                let name: String = rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                homes.entry(name).or_default().insert(source.file.clone());
            }
        }
    }
    let shared: Vec<_> = homes.iter().filter(|(name, homes)| homes.len() > 1 && *name != "Args").collect();
    assert!(homes.len() > 100 && shared.is_empty(), "{} names: {shared:#?}", shared.len());
}
