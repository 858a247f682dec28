//! Writes a lot book as large as a group of bars fills in years: a hundred thousand events, all of them invented, by plain
//! counting, so that it is the same each time. Five events a lot: made, labelled, opened, tasted, finished. Of each ten lots
//! one is a syrup that goes into the nine after it; the lots of the last month are still there.
//!
//! `cargo run --release --example many_lots FOLDER`, then `stillroom due` and `stillroom recall LOT` in that folder.

use std::fs;
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::Arc;

use chrono::{Days, NaiveDate, TimeDelta};
use stillroom::lots::event::{OnLabel, UseBy};
use stillroom::lots::{Event, Happened, PartFrom, PartUsed, Recorded, Taste, files};

/// So many events are what the command is held to.
pub const EVENTS: usize = 100_000;
/// Events of a lot.
const A_LOT: usize = 5;
/// Lots of a day.
const A_DAY: usize = 20;
const FIRST: NaiveDate = NaiveDate::from_ymd_opt(2024, 3, 4).unwrap();
/// Lots younger than this on the last day are still there.
const THERE_DAYS: usize = 30;

/// The code of a lot by its number.
pub fn code(lot: usize) -> String {
    let made = FIRST + Days::new((lot / A_DAY) as u64);
    format!("{}-M{}", made.format("%y%m%d"), lot % A_DAY + 1)
}

fn recorded(lot: usize, made: NaiveDate, use_by: UseBy) -> Recorded {
    let part = |of: &str, mass_g: f64, from| PartUsed {
        of: of.to_owned(),
        mass_g,
        from,
        dated: true,
        assumed: false,
        product: None,
        made_of: Vec::new(),
    };
    let is_syrup = lot.is_multiple_of(10);
    Recorded {
        product: if is_syrup { "House syrup".to_owned() } else { format!("Cordial {}", lot % 10) },
        sheet: format!("{:064x}", lot % 10),
        recipe: format!("{:064x}", lot % 10),
        made,
        mass_g: 1200.0,
        weighed: false,
        volume_ml: Some(1000.0),
        filled: Some((4, 250.0)),
        kept_back: 0,
        maker: Some("Ana".to_owned()),
        store: "fridge".to_owned(),
        parts: match is_syrup {
            true => vec![part("white sugar", 650.0, PartFrom::NotTold), part("water", 350.0, PartFrom::NotTold)],
            false => vec![
                part("House syrup", 800.0, PartFrom::Lot(code(lot - lot % 10))),
                part("lime juice", 400.0, PartFrom::Day(made)),
            ],
        },
        pressed: Vec::new(),
        readings: Vec::new(),
        use_by,
        needs_cold: None,
        allergens: Vec::new(),
        allergens_not_stated: Vec::new(),
        abv_pct: Some(0.0),
    }
}

/// The lines of a book of so many events.
pub fn lines(events: usize) -> String {
    let mut out = String::new();
    let lots = events / A_LOT;
    let mut put = |lot: usize, n: usize, on: NaiveDate, happened: Happened| {
        let at =
            on.and_hms_opt(9, 0, 0).unwrap_or_default().and_utc() + TimeDelta::seconds((lot * A_LOT + n) as i64 % 3600);
        let event = Event { id: format!("many-{:06}", lot * A_LOT + n), at, zone_min: 0, lot: code(lot), happened };
        out.push_str(&serde_json::to_string(&event).unwrap_or_default());
        out.push('\n');
    };
    for lot in 0..lots {
        let made = FIRST + Days::new((lot / A_DAY) as u64);
        let after = |days: u64| made + Days::new(days);
        let use_by = |days| UseBy {
            day: Some(after(days)),
            because: Some("fresh juice goes stale".to_owned()),
            ..UseBy::default()
        };
        put(lot, 0, made, Happened::Recorded(Arc::new(recorded(lot, made, use_by(40)))));
        put(lot, 1, made, Happened::Labelled(OnLabel { day: Some(after(40)), ..OnLabel::default() }));
        put(lot, 2, after(1), Happened::Opened { use_by: use_by(40) });
        put(lot, 3, after(7), Happened::Tasted { taste: Taste::Fine, signs: Vec::new(), note: None });
        let last = match lot + THERE_DAYS * A_DAY < lots {
            true => Happened::UsedUp,
            false => Happened::Tasted { taste: Taste::Fine, signs: Vec::new(), note: Some("still good".to_owned()) },
        };
        put(lot, 4, after(14), last);
    }
    out
}

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("name the folder of the house to write into");
        return ExitCode::FAILURE;
    };
    let folder = folder.join(files::FOLDER);
    let written = fs::create_dir_all(&folder).and_then(|()| fs::write(folder.join("many.jsonl"), lines(EVENTS)));
    match written {
        Ok(()) => {
            println!("{EVENTS} events, the last lot is {}", code(EVENTS / A_LOT - 1));
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{}: {error}", folder.display());
            ExitCode::FAILURE
        }
    }
}
