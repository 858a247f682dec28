//! `card print`: a card for the bench, on paper.

use std::path::PathBuf;

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::drinks;
use crate::render;
use crate::render::print::{CardSize, NotPrinted, PrintSheet};
use crate::report::Report;
use crate::report::cost::CostView;
use crate::report::cost_question::CostQuestion;
use crate::report::serve::{ServeReport, ServeView};
use crate::report::solve::SolveView;
use crate::solver::{BatchSize, Options, solve};
use crate::units::celsius;
use crate::vocabulary::Word;

use super::Reply;
use super::label::unprinted;
use super::open::{self, argument, bad_argument};
use super::output::{self, Output, What};
use super::serve::on_menu;
use super::solve::{MAKE, makes};

#[derive(clap::Args)]
pub(crate) struct Printing {
    /// The formula file, or the product's name
    file: String,
    /// The file to write: .pdf, .html, .png or .svg; without it the words are shown
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The paper: A6 or A5
    #[arg(long, value_name = "PAPER", default_value = "A6")]
    size: String,
    /// How much to make: a volume, a weight, or bottles (\"6 x 250 ml\")
    #[arg(long, value_name = "AMOUNT")]
    make: Option<String>,
    /// What it costs stands on it as well
    #[arg(long)]
    cost: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Printing) -> Reply {
    let mut opened = open::card(&args.file, &[], Vec::new());
    let customs = opened.house.customs();
    let found = &mut opened.found;
    let size = argument(args.make.as_deref(), MAKE, |make| makes(make, &customs), found).map(BatchSize::Makes);
    let paper = CardSize::parse(&args.size);
    if paper.is_none() {
        let all: Vec<&str> = CardSize::words().collect();
        let help = format!("write one of: {}", all.join(", "));
        found.push(bad_argument("--size", &args.size, "there is no such paper", &help));
    }
    if opened.card.as_ref().is_some_and(Card::is_drink) {
        return of_a_drink(args, opened, paper);
    }
    let options = Options { size, ..Options::default() };
    opened.asked(&options).reply(args.json, render::text::bench_card, |card, house, found| {
        let solved = solve(card, house, &options).told(found)?;
        let asked = options.asked(card);
        let (mut view, of_view) = SolveView::new(card, &solved, house, asked, celsius(20.0), open::today());
        // what nothing says is food stands on the card itself, larger than all else
        let (open, others): (Vec<_>, Vec<_>) = of_view.into_iter().partition(|d| d.code == Code::IdentityOpen);
        found.extend(others);
        if args.cost {
            let question =
                CostQuestion { options: options.clone(), today: Some(open::today()), ..CostQuestion::default() };
            let cost = CostView::of_card(card, house, &question, found);
            view.cost = cost.and_then(|cost| cost.batch.0).map(Box::new);
        }
        let report = Report::new(Some(view), found, open::text_of).of_product(Some(&card.name.value));
        if !any_error(found) {
            let printed = render::print::card(&report, paper?);
            written(args, printed, || render::card_page(&report), found);
        }
        found.extend(open);
        report.into_answer()
    })
}

/// What hangs at the bar: one guest's glass.
fn of_a_drink(args: &Printing, mut opened: open::Opened, paper: Option<CardSize>) -> Reply {
    if let Some(make) = &args.make {
        let help = "stillroom serve DRINK --make 40 -o batch.toml writes the card of a batch, and that is printed";
        opened.found.push(bad_argument("--make", make, "the card of a drink is one guest's glass", help));
    }
    let text = |report: &ServeReport| render::text::bar_card(report, args.cost);
    opened.reply(args.json, text, |card, house, found| {
        let glass = drinks::glass(card, house, Some(open::today()), on_menu(card), found)?;
        let view = ServeView::new(card, &glass, house);
        let report = Report::new(Some(view), found, open::text_of).of_product(Some(&card.name.value));
        if !any_error(found) {
            let printed = render::print::glass(&report, args.cost, paper?);
            written(args, printed, || render::glass_page(&report, args.cost), found);
        }
        report.into_answer()
    })
}

/// Writes what was laid out where a file is asked for.
fn written(
    args: &Printing,
    printed: Result<PrintSheet, NotPrinted>,
    page: impl FnOnce() -> String,
    found: &mut Vec<Diagnostic>,
) {
    match printed {
        Ok(_) if args.output.as_ref().is_some_and(|path| output::ends_in(path, "html")) => {
            let what = What::Page(page());
            let output = args.output.as_ref().map(|path| Output { option: "-o", path, what });
            found.extend(output::write(output.into_iter().collect(), &[args.file.as_ref()]));
        }
        Ok(sheet) => found.extend(args.output.iter().flat_map(|path| output::paper(path, &sheet))),
        Err(why) => found.push(unprinted(&why, "take a larger paper, --size A5, or a shorter method")),
    }
}
