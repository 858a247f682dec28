//! `schema`: what a file may hold, for an editor.

use crate::plan::board;
use crate::{card, house, larder, menu};

use super::{MET, Reply};

/// Print the JSON Schema of a kind of file, for an editor that checks and completes while you write.
///
/// It comes from the same list of keys that reads the files. Save it and name it in your editor's settings for TOML.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom schema card > card.schema.json")]
pub(crate) struct Args {
    /// The kind of file
    file: File,
}

#[derive(Clone, Copy, clap::ValueEnum)]
enum File {
    /// A card
    Card,
    /// The settings of a house: house.toml
    House,
    /// The larder of a house: larder.toml
    Larder,
    /// The board of a plan: plan.toml
    Board,
    /// The menu of a house: menu.toml
    Menu,
}

pub(crate) fn run(args: &Args) -> Reply {
    let schema = match args.file {
        File::Card => card::schema(),
        File::House => house::schema(),
        File::Larder => larder::schema(),
        File::Board => board::schema(),
        File::Menu => menu::schema(),
    };
    Reply { out: format!("{schema:#}\n"), diagnostics: Vec::new(), code: MET }
}
