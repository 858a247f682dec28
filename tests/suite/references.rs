//! The bibliography: what is used stands in it, and what stands in it is used.

use std::collections::HashSet;
use std::fs;
use std::path::{Path, PathBuf};

use stillroom::references;

/// All files below `src` but the bibliography itself.
fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let path = entry.path();
        match path.is_dir() {
            true if path.ends_with("src/references") => {}
            true => files(&path, found),
            false => found.push(path),
        }
    }
}

fn with_extension(extension: &str) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut found);
    found.retain(|path| path.extension().is_some_and(|e| e == extension));
    found.into_iter().map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect()
}

/// Every cell of the column `source_id` or `sources` of a table, with its table.
fn cells() -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    for (path, text) in with_extension("csv") {
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let column = reader.headers().unwrap().iter().position(|h| matches!(h, "source_id" | "sources"));
        let Some(column) = column else { continue };
        for row in reader.records() {
            found.extend(row.unwrap()[column].split(';').map(|key| (path.clone(), key.to_owned())));
        }
    }
    found
}

#[test]
fn every_key_of_a_table_stands_in_the_bibliography() {
    let cells = cells();
    assert!(cells.len() > 150);
    for (table, key) in cells {
        assert!(references::find(&key).is_some(), "{}: `{key}`", table.display());
    }
}

#[test]
fn every_entry_of_the_bibliography_is_used() {
    let cut = |text: &str, at: fn(char) -> bool| text.split(at).map(str::to_owned).collect::<Vec<_>>();
    // In code a key stands in quotes; in a table it is a word of its columns of sources or of its remarks.
    let quoted = |(_, text): (PathBuf, String)| cut(&text, |c| c == '"');
    let word = |(_, text): (PathBuf, String)| cut(&text, |c| !c.is_alphanumeric() && !"_-.".contains(c));
    let mut used: HashSet<String> = ["rs", "toml"].into_iter().flat_map(with_extension).flat_map(quoted).collect();
    used.extend(with_extension("csv").into_iter().flat_map(word));
    let unused: Vec<_> = references::all().iter().map(|r| r.key.as_str()).filter(|key| !used.contains(*key)).collect();
    assert!(unused.is_empty(), "nothing rests on {unused:?}: name them where they belong, or take them out");
}
