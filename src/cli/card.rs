//! `card`: a card from a recipe, a card as plain text, a card for another house.

use std::path::PathBuf;

use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house;
use crate::paste;
use crate::report::card::{CardReport, CardView};

use super::locate::STANDARD_INPUT;
use super::{Reply, bench_card, open};

/// Make a card of a recipe, or hand a card over.
#[derive(clap::Args)]
#[command(after_help = "\
Example: a recipe as it stands in a message or a spreadsheet
  stillroom card paste recipe.txt > ginger-syrup.toml

Example: a card with all that it is made of, for another house
  stillroom card bundle formulas/allspice-dram.toml -o dram-for-a-friend.toml

Example: a card as plain text, which `card paste` reads back
  stillroom card text formulas/lime-cordial.toml

Example: a card for the bench on one side of A6, as a file to print
  stillroom card print formulas/lime-cordial.toml -o lime-cordial.pdf")]
pub(crate) struct Args {
    #[command(subcommand)]
    what: CardVerb,
}

#[derive(clap::Subcommand)]
enum CardVerb {
    /// Turn a recipe as people write it into a card, on standard output
    ///
    /// Plain text or the cells of a spreadsheet. What is not understood stays as a line with a question, `# ?`; what is
    /// taken for granted stands behind its line.
    Paste(Pasting),
    /// Write a card with all that it is made of as one file, for another house
    ///
    /// The cards inside it and the house's own ingredients stand in it. Prices, yields, notes and remarks of the larder
    /// are left out unless they are asked for; the `source` of an ingredient goes with it.
    Bundle(Bundling),
    /// Print a card as plain text that can be sent, and read back with `card paste`
    Text(Telling),
    /// Print a card for the bench on one side of A6 or A5: what to weigh with boxes to tick, cautions, allergens, date rule
    Print(bench_card::Printing),
}

#[derive(clap::Args)]
struct Pasting {
    /// The file with the recipe; standard input if none is given, or `-`
    file: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(clap::Args)]
struct Bundling {
    /// The formula file, or the product's name
    file: String,
    /// The file to write, in place of standard output
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// With what things cost, what is usable of them, and the notes of the larder
    #[arg(long)]
    with_prices: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(clap::Args)]
struct Telling {
    /// The formula file, or the product's name
    file: String,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    match &args.what {
        CardVerb::Paste(args) => pasted(args),
        CardVerb::Bundle(args) => bundled(args),
        CardVerb::Text(args) => told(args),
        CardVerb::Print(args) => bench_card::run(args),
    }
}

fn plain(report: &CardReport) -> String {
    report.answer().map_or_else(String::new, |view| view.text.clone())
}

fn pasted(args: &Pasting) -> Reply {
    let (house, mut found) = open::house_here();
    // what is assumed of scales and stores does not matter here
    found.clear();
    let source = open::source(args.file.as_deref().unwrap_or(STANDARD_INPUT));
    let source = source.map_err(|unread| found.push(*unread)).ok();
    let view = source.map(|source| CardView::from(paste::paste(&source.text, &house)));
    let count = view.as_ref().map_or(0, |view| view.questions.len());
    if count > 0 {
        let title = format!("the card asks {count} question{}", if count == 1 { "" } else { "s" });
        let help = "they stand in it as `# ?`: answer them there, then: stillroom solve";
        found.push(Diagnostic::warning(Code::Asked, title).help(help));
    }
    open::reply(view, found, args.json, plain)
}

fn bundled(args: &Bundling) -> Reply {
    let opened = open::card(&args.file, &[], Vec::new());
    let (mut found, house) = (opened.found, opened.house);
    let card = opened.card.filter(|_| !any_error(&found));
    let text =
        card.and_then(|card| house::hand_over(&card, &house, args.with_prices).map_err(|why| found.extend(why)).ok());
    let view = text.map(CardView::of);
    // of what is assumed of scales and stores nothing goes with it
    found.retain(|d| d.severity > Severity::Note);
    let written =
        args.output.as_ref().zip(view.as_ref()).map(|(path, view)| (path, house::write_new(path, &view.text)));
    if let Some((path, Err(error))) = &written {
        let title = format!("{} could not be written: {}", path.display(), house::reason(error));
        let help = "nothing is ever written over: take another name";
        found.push(Diagnostic::error(Code::CannotWrite, title).help(help));
    }
    let is_written = written.is_some();
    open::reply(view, found, args.json, |report| if is_written { String::new() } else { plain(report) })
}

fn told(args: &Telling) -> Reply {
    let opened = open::card(&args.file, &[], Vec::new());
    let (mut found, house) = (opened.found, opened.house);
    let card = opened.card.filter(|_| !any_error(&found));
    let view = card.map(|card| {
        let (text, unsaid) = paste::text(&card, &house);
        found.extend(unsaid.into_iter().map(|lost| {
            Diagnostic::warning(Code::Asked, format!("plain text cannot say all of this card: {}", lost.0))
                .help("hand it over as the file that it is: stillroom card bundle")
        }));
        CardView::of(text)
    });
    open::reply(view, found, args.json, plain)
}
