//! Words that would promise what nobody can: they stand nowhere in the tree but here.

use std::fs;
use std::path::Path;

const FORBIDDEN: &[&str] = &["safe until", "shelf-stable", "shelf stable", "guaranteed"];

fn search(folder: &Path, found: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()) {
        let name = entry.file_name().unwrap().to_str().unwrap_or_default().to_owned();
        if name.starts_with('.') || name == "target" || name == "node_modules" {
            continue;
        }
        if entry.is_dir() {
            search(&entry, found);
            continue;
        }
        if entry.ends_with("tests/words.rs") {
            continue;
        }
        // Pictures are no text.
        let Ok(text) = fs::read_to_string(&entry) else { continue };
        let text = text.to_lowercase();
        // A line that breaks between the words does not hide them.
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        found.extend(FORBIDDEN.iter().filter(|w| flat.contains(*w)).map(|w| format!("{}: {w}", entry.display())));
    }
}

#[test]
fn nothing_is_promised() {
    let mut found = Vec::new();
    search(Path::new(env!("CARGO_MANIFEST_DIR")), &mut found);
    found.retain(|line| !may_forbid(line));
    assert!(found.is_empty(), "{found:#?}");
}

/// Other tests that forbid these words, too.
fn may_forbid(line: &str) -> bool {
    line.contains("/tests/") && line.contains(".rs:")
}
