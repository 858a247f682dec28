//! `card print`: a card for the bench, on paper.

use std::path::PathBuf;

use crate::diagnostic::any_error;
use crate::render;
use crate::render::print::CardSize;
use crate::report::Report;
use crate::report::cost::CostView;
use crate::report::cost_question::CostQuestion;
use crate::report::solve::{SolveReport, SolveView};
use crate::solver::{BatchSize, Options, solve};
use crate::units::celsius;
use crate::vocabulary::Word;

use super::Reply;
use super::label::unprinted;
use super::open::{self, argument, bad_argument};
use super::output::{self, Output, What};
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
    let options = Options { size, ..Options::default() };
    opened.asked(&options).reply(args.json, render::text::bench_card, |card, house, found| {
        let outcome = solve(card, house, &options);
        found.extend(outcome.diagnostics);
        let asked = options.asked(card);
        let (mut view, of_view) = SolveView::new(card, &outcome.solved?, house, asked, celsius(20.0), open::today());
        // what nothing says is food stands on the card itself, larger than all else
        let (open, others): (Vec<_>, Vec<_>) =
            of_view.into_iter().partition(|d| d.code == crate::diagnostic::Code::IdentityOpen);
        found.extend(others);
        if args.cost {
            let question =
                CostQuestion { options: options.clone(), today: Some(open::today()), ..CostQuestion::default() };
            let cost = CostView::of_card(card, house, &question, found);
            view.cost = cost.and_then(|cost| cost.batch.0).map(Box::new);
        }
        let report = Report::new(Some(view), found, open::text_of).of_product(Some(&card.name.value));
        if !any_error(found) {
            written(args, paper?, &report, found);
        }
        found.extend(open);
        report.into_answer()
    })
}

/// Lays it out, and writes it where a file is asked for.
fn written(args: &Printing, paper: CardSize, report: &SolveReport, found: &mut Vec<crate::diagnostic::Diagnostic>) {
    match render::print::card(report, paper) {
        Ok(_) if args.output.as_ref().is_some_and(|path| output::ends_in(path, "html")) => {
            let what = What::Page(render::card_page(report));
            let output = args.output.as_ref().map(|path| Output { option: "-o", path, what });
            found.extend(output::write(output.into_iter().collect(), &[args.file.as_ref()]));
        }
        Ok(sheet) => found.extend(args.output.iter().flat_map(|path| output::paper(path, &sheet))),
        Err(why) => found.push(unprinted(&why, "take a larger paper, --size A5, or a shorter method")),
    }
}
