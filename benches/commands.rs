//! Whole commands, from start to exit: how long they take and how much memory they need at most. Not a test:
//! figures depend on the machine, so that they are printed and compared by eye.
//!
//! ```sh
//! cargo bench --bench commands
//! ```

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const BINARY: &str = env!("CARGO_BIN_EXE_stillroom");
/// GNU time, where there is one: it tells the peak of the memory.
const TIME: &str = "/usr/bin/time";

fn main() {
    // `cargo test --benches` runs this too: then there is nothing to measure.
    if std::env::args().any(|a| a == "--test") {
        return;
    }
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    println!("{:<36} {:>10} {:>10} {:>10}", "command", "best", "median", "peak");
    report("solve of a card", &["solve", "lime-and-clove-liqueur.toml"], &demo, 30);
    report("solve of a card of a card", &["solve", "split-lime-juice.toml"], &demo, 30);
    report("check of the demo house", &["check", "."], &demo, 30);
    report("square", &["square", "--strong", "63", "--target", "40"], &demo, 30);
    for count in [1_000, 10_000] {
        let folder = house_of(count, "white sugar");
        report(&format!("check of {count} cards"), &["check", "."], &folder, 3);
        report(&format!("solve of a card among {count}"), &["solve", "card-7.toml"], &folder, 5);
        let _ = fs::remove_dir_all(folder);
        let folder = house_of(count, "a sugar that nobody knows");
        report(&format!("check of {count} broken cards"), &["check", "."], &folder, 1);
        let _ = fs::remove_dir_all(folder);
    }
}

/// A folder with so many cards, every tenth made from another one, and every one a little different.
fn house_of(count: usize, sugar: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("stillroom {count} {}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder to work in");
    let put = |name: String, text: String| fs::write(folder.join(name), text).expect("a card is written");
    put("house.toml".to_owned(), "[house]\nname = \"A house of many cards\"\n".to_owned());
    for i in 0..count {
        let brix = 40 + i % 25;
        let inner = if i % 10 == 3 { "\"Card 0\" = \"20 g/L\"\n" } else { "" };
        put(
            format!("card-{i}.toml"),
            format!(
                "name = \"Card {i}\"\nmakes = \"{} ml\"\nclass = \"cordial\"\n[target]\nbrix = {brix}\nacid = \"9 g/L\"\n[parts]\n\
                 {inner}\"{sugar}\" = \"as needed\"\n\"citric acid\" = \"as needed\"\n\"lime juice\" = \"100 ml/L\"\nwater = \"as needed\"\n\
                 [loss]\nleft_behind = \"1 %\"\n",
                500 + i
            ),
        );
    }
    folder
}

fn report(what: &str, arguments: &[&str], folder: &Path, times: usize) {
    let mut took: Vec<Duration> = (0..times).map(|_| timed(arguments, folder)).collect();
    took.sort();
    let shown = |d: Option<&Duration>| d.map_or_else(String::new, |d| format!("{:.1} ms", 1000.0 * d.as_secs_f64()));
    let peak = peak_kb(arguments, folder).map_or_else(|| "unknown".to_owned(), |kb| format!("{:.1} MB", kb / 1024.0));
    println!("{what:<36} {:>10} {:>10} {peak:>10}", shown(took.first()), shown(took.get(times / 2)));
}

fn timed(arguments: &[&str], folder: &Path) -> Duration {
    let start = Instant::now();
    let quiet =
        Command::new(BINARY).args(arguments).current_dir(folder).stdout(Stdio::null()).stderr(Stdio::null()).status();
    quiet.expect("the command runs");
    start.elapsed()
}

fn peak_kb(arguments: &[&str], folder: &Path) -> Option<f64> {
    let output = Command::new(TIME)
        .args(["-f", "peak %M", BINARY])
        .args(arguments)
        .current_dir(folder)
        .stdout(Stdio::null())
        .output()
        .ok()?;
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    said.lines().rev().find_map(|line| line.strip_prefix("peak ")?.parse().ok())
}
