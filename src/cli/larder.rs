//! `larder`: what is known of an ingredient, and from where.

use std::path::Path;

use crate::diagnostic::Severity;
use crate::render;
use crate::report::Report;
use crate::report::larder::LarderView;

use super::{Reply, open};

/// Show what is known of an ingredient, and from where. Without a word: all of them.
#[derive(clap::Args)]
#[command(after_help = "\
Example: what does the larder know of honey?
  stillroom larder honey")]
pub(crate) struct Args {
    /// An ingredient, or part of its name
    word: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let (house, mut diagnostics) = open::house(Path::new("."));
    // What is assumed of scales and stores does not matter here.
    diagnostics.retain(|d| d.severity > Severity::Note);
    let view = LarderView::find(&house.larder, args.word.as_deref(), &mut diagnostics);
    let report = Report::new(Some(view), &diagnostics, open::text_of);
    Reply::of(&report, diagnostics, args.json, render::text::larder)
}
