//! The second demo house: every card of it holds, and its page leads from an empty folder to a menu.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use stillroom::drinks;
use stillroom::house::House;
use stillroom::lots::sheet::content_hash;
use stillroom::lots::{LotBook, files};

use crate::kitchen::Folder;
use crate::readme::split;

fn house() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/hotel-bar")
}

/// Runs a command as the page shows it; the letter of this device is kept in the folder `home`, not in that of who runs it.
fn run(line: &str, folder: &Path, home: &Path) -> Output {
    let arguments = split(line.strip_prefix("$ stillroom ").expect(line));
    Command::new(env!("CARGO_BIN_EXE_stillroom"))
        .args(arguments)
        .current_dir(folder)
        .env("HOME", home)
        .env("XDG_CONFIG_HOME", home)
        .env("XDG_DATA_HOME", home)
        .env("XDG_STATE_HOME", home)
        .output()
        .unwrap()
}

#[test]
fn every_card_of_the_second_house_holds() {
    let home = Folder::new();
    for line in ["$ stillroom check", "$ stillroom menu", "$ stillroom plan --from 2026-11-30"] {
        let output = run(line, &house(), &home.0);
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{line}: {said}");
    }
    let cards = stillroom::house::card_paths(&house());
    assert!(cards.len() >= 20, "{}", cards.len());
}

/// The page is followed from top to bottom in a folder that begins empty: each file written where it is met, each command
/// run, what it prints compared. `STILLROOM_BLESS=1` rewrites it; `…` stands for what changes from day to day.
#[test]
fn the_page_leads_from_an_empty_folder_to_a_menu() {
    let (folder, home) = (Folder::new(), Folder::new());
    let path = house().join("README.md");
    let text = fs::read_to_string(&path).unwrap();
    let (mut made, mut rest, mut commands) = (String::new(), text.as_str(), 0);
    while let Some(start) = rest.find("```") {
        let (before, block) = rest.split_at(start);
        let body = block.find('\n').unwrap() + 1;
        let end = body + block[body..].find("```").unwrap();
        let (kind, inside) = (block[3..body].trim(), &block[body..end]);
        made.push_str(before);
        made.push_str(&block[..body]);
        match kind {
            "toml" => {
                let line = before.trim_end().lines().last().unwrap_or_default();
                let name = line.strip_suffix("`:").and_then(|line| line.rsplit('`').next());
                if let Some(name) = name {
                    fs::write(folder.0.join(name), inside).unwrap();
                }
                made.push_str(inside);
            }
            "console" => {
                let command = inside.lines().next().unwrap();
                // what speaks of this folder is run where the page says, at the root of the project
                let is_of_root = command.contains("-C examples/");
                let root = if is_of_root { Path::new(env!("CARGO_MANIFEST_DIR")) } else { &folder.0 };
                let output = run(command, root, &home.0);
                let error = String::from_utf8_lossy(&output.stderr);
                assert!(output.status.success(), "{command}: {error}");
                commands += 1;
                if inside.lines().nth(1) == Some("…") {
                    made.push_str(inside);
                } else {
                    made.push_str(&format!("{command}\n{}", String::from_utf8(output.stdout).unwrap()));
                }
            }
            _ => made.push_str(inside),
        }
        made.push_str("```");
        rest = &block[end + 3..];
    }
    made.push_str(rest);
    assert!(commands >= 8, "{commands}");
    if std::env::var_os("STILLROOM_BLESS").is_some() {
        fs::write(&path, &made).unwrap();
    }
    let differs = text.lines().zip(made.lines()).find(|(old, new)| old != new);
    assert!(text == made, "the page shows another output than the program (first line: {differs:?})");
}

/// One number from a label leads to what went in and to where it went, and the book of three months has nothing wrong in it.
#[test]
fn an_inspector_follows_one_lot_number() {
    let home = Folder::new();
    let recall = |lot: &str| -> serde_json::Value {
        let output = run(&format!("$ stillroom recall {lot} --json"), &house(), &home.0);
        assert!(output.status.success(), "{output:?}");
        serde_json::from_slice(&output.stdout).unwrap()
    };
    let (bitters, syrup) = (recall("261014-k5"), recall("261013-K2"));
    let lots = |told: &serde_json::Value, way: &str| -> Vec<String> {
        told[way].as_array().unwrap().iter().map(|lot| lot["lot"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!((lots(&bitters, "from"), lots(&syrup, "into")), (vec!["261013-K2".into()], vec!["261014-K5".into()]));
    assert_eq!(syrup["lot"]["pulled"]["thrown"], serde_json::json!({"cause": "unsafe", "on": "2026-10-26"}));
    assert_eq!(bitters["lot"]["standing"], "discarded");
    let warned = bitters["diagnostics"].as_array().unwrap().iter().any(|found| found["severity"] != "note");
    assert!(!warned, "{bitters}");
    let page = home.0.join("lot.html");
    let output = run(&format!("$ stillroom recall 261014-K5 --page \"{}\"", page.display()), &house(), &home.0);
    assert!(output.status.success() && fs::read_to_string(page).unwrap().contains("a chip of the jar in it"));

    let (events, unreadable) = files::read(&house()).unwrap();
    let book = LotBook::of(events);
    assert!(unreadable.is_empty() && book.faults.is_empty(), "{unreadable:?} {:?}", book.faults);
    let made: Vec<_> = book.lots().map(|lot| lot.recorded.made).collect();
    let days = (*made.iter().max().unwrap() - *made.iter().min().unwrap()).num_days();
    assert!(made.len() > 80 && (85..92).contains(&days), "{} lots in {days} days", made.len());
    for lot in book.lots() {
        let sheet = files::sheet(&house(), &lot.recorded.sheet).unwrap();
        assert_eq!(content_hash(&sheet), lot.recorded.sheet, "{}", lot.lot);
    }
}

/// A drop of a house salt that states no work takes away no more than its own: the rest of the labour is counted.
#[test]
fn what_states_no_work_takes_away_its_own_alone() {
    let salt = "name = \"Salt\"\n[parts]\nsalt = \"20 g\"\nwater = \"80 g\"\n";
    let drink = |labour: &str| {
        format!(
            "name = \"D\"\nhow = \"built\"\n{labour}\n[parts]\nvodka = \"50 ml\"\nSalt = \"1 ml\"\nwater = \"50 ml\"\n"
        )
    };
    let hour = "[house]\ncurrency = \"GBP\"\n[costs]\nlabour = \"60 GBP / h\"\n";
    let cost = |labour: &str| {
        let text = drink(labour);
        let (of, _) = House::from_texts([("house.toml", hour), ("salt.toml", salt), ("d.toml", &text)]);
        let card = stillroom::card::read("d.toml".into(), text.as_str().into()).0.unwrap();
        let solved = stillroom::solver::solve(&card, &of, &Default::default()).solved.unwrap();
        let (costing, _) = stillroom::cost::cost_of(&solved, &of, &Default::default());
        let costing = costing.unwrap();
        let labour = costing.line(stillroom::cost::CostKind::Labour).is_some_and(|line| line.cost.is_some());
        (labour, costing.assumed.iter().any(|said| said.contains("no work is counted of Salt")))
    };
    assert_eq!(cost("labour = \"2 min\""), (true, true));
    assert!(!cost("").0, "a drink that states none itself is without labour");
}

/// Butter is dairy, and a bourbon that was washed with it is bottled with the rest; what is fresh is added for the guest.
#[test]
fn a_washed_spirit_goes_into_the_bottle() {
    let (of_house, _) = House::find(&house());
    let added = |name: &str| {
        let source = stillroom::house::read(&house().join(name)).unwrap();
        let card = stillroom::card::read_by(source.file, source.text, &of_house.customs()).0.unwrap();
        let batch =
            drinks::batch(&card, &of_house, (20.0, drinks::WaterOfIce::InTheBottle), None, &mut Vec::new()).unwrap();
        batch.at_service.iter().map(|added| added.part.label.clone()).collect::<Vec<_>>()
    };
    assert_eq!(added("turndown.toml"), Vec::<String>::new());
    assert_eq!(added("bell-captain.toml"), ["lime juice"]);
}
