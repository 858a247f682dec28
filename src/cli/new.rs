//! `new`: a house to start from.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic};
use crate::house;
use crate::render;
use crate::report::new::NewView;

use super::{Reply, open};

/// Make a folder with a house to start from: its settings, its larder, and two cards.
///
/// Nothing that is already there is touched.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom new my-bar
  stillroom solve my-bar/plain-syrup.toml")]
pub(crate) struct Args {
    /// The folder to make
    dir: PathBuf,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// The files of a new house: name and text. The cards are the demo house's own.
const FILES: &[(&str, &str)] = &[
    ("house.toml", include_str!("new/house.toml")),
    ("larder.toml", include_str!("new/larder.toml")),
    ("plain-syrup.toml", include_str!("../../formulas/plain-syrup.toml")),
    ("rich-muscovado-syrup.toml", include_str!("../../formulas/rich-muscovado-syrup.toml")),
];

pub(crate) fn run(args: &Args) -> Reply {
    let mut made = Vec::new();
    let mut diagnostics = Vec::new();
    // A folder cannot be made where a file is.
    let in_the_way = args.dir.symlink_metadata().is_ok() && !args.dir.is_dir();
    if in_the_way {
        let title = format!("{} is a file: no folder can be made of that name", args.dir.display());
        diagnostics.push(Diagnostic::error(Code::CannotWrite, title).help("take another name for the folder"));
    }
    for (name, text) in FILES.iter().filter(|_| !in_the_way) {
        let path = args.dir.join(name);
        match house::write_new(&path, text) {
            Ok(()) => made.push(path.display().to_string()),
            Err(error) => diagnostics.push(refusal(&path, &error)),
        }
    }
    let view = NewView { made, first_card: args.dir.join("plain-syrup.toml").display().to_string() };
    open::reply(Some(view), diagnostics, args.json, render::text::new)
}

fn refusal(path: &Path, error: &std::io::Error) -> Diagnostic {
    let (title, help) = match error.kind() {
        std::io::ErrorKind::AlreadyExists => (
            format!("{} is there already and was left as it is", path.display()),
            "take another folder, or move it away first",
        ),
        _ => (
            format!("{} could not be written: {}", path.display(), house::reason(error)),
            "check the folder's name and that you may write there",
        ),
    };
    Diagnostic::error(Code::CannotWrite, title).help(help)
}
