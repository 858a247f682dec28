//! `record`: a batch was made.

use std::path::Path;
use std::sync::Arc;

use crate::card::{Makes, TargetKind, target_value};
use crate::diagnostic::{Diagnostic, any_error};
use crate::lots::event::{BatchReading, Happened, PartFrom, Pressed};
use crate::lots::record::{RecordRequest, record};
use crate::lots::{LotBook, code, files};
use crate::render;
use crate::report::lots::LotView;
use crate::solver::{BatchSize, Options};
use crate::units::{NumberRange, in_grams, in_millilitres, readers};
use crate::vocabulary::{PhBy, Word};

use super::Reply;
use super::open::{self, argument, bad_argument};
use super::solve::{MAKE, makes};
use super::{book, book_file};

/// Write down that a batch was made: what went in, what it read, where it is kept; it gets a lot code and a date.
///
/// Card, larder values and program version are kept with it. Where the day of a fresh juice or of a product of the house
/// in it is not told, the lot has no date until it is. Only where the book has one lot in date of such a product it is taken
/// as that one, and said to be.
#[derive(clap::Args)]
#[command(after_help = "\
Example: six bottles of a cordial from limes that were pressed today
  stillroom record formulas/lime-cordial.toml --make \"6 x 250 ml\" --fresh --by Ana

Example: with the lot that went in, and what was read
  stillroom record formulas/aromatic-bitters.toml --part \"Rich muscovado syrup=261127-A1\" --read abv=44.8")]
pub(crate) struct Args {
    /// The formula file, or the product's name
    file: String,
    /// How much was made: a volume, a weight, or bottles (\"6 x 250 ml\")
    #[arg(long, value_name = "AMOUNT")]
    make: Option<String>,
    /// The day on which it was finished (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    made: Option<String>,
    /// Who made it
    #[arg(long, value_name = "NAME")]
    by: Option<String>,
    /// Where it is kept; where the card says, if not given
    #[arg(long = "in", value_name = "STORE")]
    store: Option<String>,
    /// Where a part is from: a lot, a day, or what its maker printed on it; may be given more than once
    #[arg(long, value_name = "PART=FROM")]
    part: Vec<String>,
    /// Every fresh juice was pressed, and every bottle opened, on the day it was made
    #[arg(long)]
    fresh: bool,
    /// What was read of it (\"brix=63.8\", \"abv=18.1\", \"acid=5.8 g/L\", \"ph=3.2 by meter\"); may be given more than once
    #[arg(long, value_name = "READING")]
    read: Vec<String>,
    /// How many fruits gave a juice of it ("lime juice=14"); may be given more than once
    #[arg(long, value_name = "JUICE=FRUITS")]
    pressed: Vec<String>,
    /// What the batch weighed in the end
    #[arg(long, value_name = "WEIGHT")]
    weighed: Option<String>,
    /// How many bottles of it are kept to be tasted, not for service
    #[arg(long, value_name = "N", default_value = "0")]
    keep_back: String,
    /// The letter of this device in lot codes, from now on
    #[arg(long, value_name = "LETTER")]
    letter: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = open::card(&args.file, &[], Vec::new());
    let customs = opened.house.customs();
    let size = argument(args.make.as_deref(), MAKE, |make| makes(make, &customs), &mut opened.found);
    let options = Options { size: size.map(BatchSize::Makes), ..Options::default() };
    let opened = opened.asked(&options);
    let folder = Path::new(&args.file).parent().filter(|_| Path::new(&args.file).exists());
    let root = book_file::root(&opened.house, folder.unwrap_or(Path::new("")));
    let mut of_book = Vec::new();
    let book = book_file::read(&root, &mut of_book);
    opened.reply(args.json, render::text::lot, |card, house, found| {
        found.extend(of_book);
        if card.is_drink() {
            let title = format!("`{}` is a drink: it is served at once, and no lot is kept of it", card.name.value);
            let help = "bottle a batch of it: stillroom serve DRINK --make 40 -o FILE, then stillroom record FILE";
            return Diagnostic::error(crate::diagnostic::Code::DrinkRule, title).help(help).refused(found);
        }
        let device = argument(args.letter.as_deref(), "--letter B", letter, found);
        let request = request(args, size, &book, found)?;
        let (recorded, of_record) = record(card, house, &book, &request);
        let refused = any_error(&of_record);
        found.extend(of_record);
        let (recorded, sheet) = recorded.filter(|_| !refused && !any_error(found))?;
        let writer = book::writer(device, found)?;
        let kept = files::keep_sheet(&root, &recorded.sheet, &sheet.text());
        kept.map_err(|error| {
            let why = format!("the sheet cannot be kept in {}: {error}", root.join(files::FOLDER).display());
            found.push(Diagnostic::error(crate::diagnostic::Code::CannotWrite, why));
        })
        .ok()?;
        let make = |taken: &[String]| {
            let lot = code::next(recorded.made, writer.letter, taken.iter().map(String::as_str));
            book::event(&writer, &lot, Happened::Recorded(Arc::new(recorded)))
        };
        let event = book::written(writer.append_new(&root, make), (&writer, &root), found)?;
        let lot = event.lot.clone();
        let mut events = book.events.clone();
        events.push(event);
        let book = LotBook::of(events);
        Some(LotView::new(&book, book.lot(&lot)?, open::today()).for_a_guest(house))
    })
}

fn request(args: &Args, size: Option<Makes>, book: &LotBook, found: &mut Vec<Diagnostic>) -> Option<RecordRequest> {
    let made = open::day("--made", args.made.as_deref(), found).unwrap_or_else(open::today);
    if made > open::today() {
        let why = "that day has not come yet";
        found.push(bad_argument("--made", &made.to_string(), why, "write the day on which it was finished"));
    }
    let kept_back = argument(Some(&args.keep_back), "--keep-back 2", |n| KEPT_BACK.read(n), found);
    let parted = |written: &str| {
        let (part, from) = written.split_once('=').ok_or("a part, `=` and where it is from were expected")?;
        Ok::<_, String>((part.trim().to_owned(), book::part_from(from, book)?))
    };
    let part = "--part \"lime juice=2026-11-28\"";
    let parts: Vec<(String, PartFrom)> =
        args.part.iter().filter_map(|written| argument(Some(written), part, parted, found)).collect();
    let readings = args.read.iter().filter_map(|written| argument(Some(written), "--read brix=63.8", reading, found));
    let readings: Vec<BatchReading> = readings.collect();
    let fruits = "--pressed \"lime juice=14\"";
    let pressed: Vec<Pressed> =
        args.pressed.iter().filter_map(|written| argument(Some(written), fruits, pressed, found)).collect();
    let weight = |written: &str| {
        let mass = readers::mass(written)?;
        if mass.value > 0.0 { Ok(mass) } else { Err("a batch that was made weighs something".to_owned()) }
    };
    let weighed = argument(args.weighed.as_deref(), "--weighed \"1.96 kg\"", weight, found);
    let filled = match size {
        Some(Makes::Bottles { count, each }) => Some((count as u32, in_millilitres(each))),
        _ => None,
    };
    if any_error(found) {
        return None;
    }
    Some(RecordRequest {
        options: Options { size: size.map(BatchSize::Makes), ..Options::default() },
        made,
        maker: args.by.clone(),
        store: args.store.clone(),
        parts,
        fresh: args.fresh,
        readings,
        pressed,
        weighed_g: weighed.map(in_grams),
        filled,
        kept_back: kept_back.unwrap_or_default() as u32,
    })
}

/// More bottles no batch of a bar fills (ours).
const KEPT_BACK: NumberRange = NumberRange::whole(0.0, 10_000.0, "bottles");
/// More fruits no bar presses for a batch (ours).
const FRUITS: NumberRange = NumberRange::above(0.0, 100_000.0, "fruits");

fn letter(written: &str) -> Result<char, &'static str> {
    let mut letters = written.trim().chars();
    let first = letters.next().filter(char::is_ascii_alphabetic).filter(|_| letters.next().is_none());
    first.map(|letter| letter.to_ascii_uppercase()).ok_or("one letter from A to Z was expected")
}

/// `lime juice=14`
fn pressed(written: &str) -> Result<Pressed, String> {
    let (of, pieces) = written.split_once('=').ok_or("a juice, `=` and how many fruits were expected")?;
    Ok(Pressed { of: of.trim().to_owned(), pieces: FRUITS.read(pieces)? })
}

/// `ph=3.2 by meter`
fn reading(written: &str) -> Result<BatchReading, String> {
    let (key, value) = written.split_once('=').ok_or("a reading, `=` and its value were expected")?;
    let of = TargetKind::from_key(key.trim()).filter(|kind| *kind != TargetKind::Sugar);
    let of = of.ok_or("what is read of a batch is brix, abv, acid or ph")?;
    let (value, by) = match value.split_once(" by ") {
        Some((value, by)) => {
            let by = PhBy::parse(by.trim()).ok_or("a pH is read by strip, meter or laboratory")?;
            (value, Some(by))
        }
        None => (value, None),
    };
    if by.is_some() && of != TargetKind::Ph {
        return Err("only of a pH it is said by what it was read".to_owned());
    }
    Ok(BatchReading { of, value: target_value(of, value.trim()).map_err(|why| why.title)?, by })
}
