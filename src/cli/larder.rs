//! `larder`: what is known of an ingredient, and from where; the entry that one needs which is not known.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house::{self, House};
use crate::larder::{Origin, blank_entry};
use crate::render;
use crate::report::larder::{LarderEntryView, LarderView};

use super::locate::home;
use super::{Reply, open};

/// Show what is known of an ingredient, and from where. Without a word: all of them.
#[derive(clap::Args)]
#[command(
    args_conflicts_with_subcommands = true,
    after_help = "\
Example: what does the larder know of honey?
  stillroom larder honey

Example: the entry that a bottle of your own needs, with what to read off its label
  stillroom larder add \"harbour overproof rum\" --write"
)]
pub(crate) struct Args {
    #[command(subcommand)]
    what: Option<LarderVerb>,
    /// An ingredient, or part of its name
    word: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

#[derive(clap::Subcommand)]
enum LarderVerb {
    /// Print the entry that an ingredient needs, with what to read off its label
    ///
    /// It offers no figure, and never what states that a thing is food or free of allergens: each is left as a question.
    Add(Adding),
}

#[derive(clap::Args)]
struct Adding {
    /// What it is called
    name: String,
    /// Add it to larder.toml of the house
    #[arg(long)]
    write: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    if let Some(LarderVerb::Add(args)) = &args.what {
        return add(args);
    }
    let (house, mut diagnostics) = open::house_here();
    // What is assumed of scales and stores does not matter here.
    diagnostics.retain(|d| d.severity > Severity::Note);
    let view = LarderView::find(&house, args.word.as_deref(), &mut diagnostics);
    open::reply(Some(view), diagnostics, args.json, render::text::larder)
}

fn add(args: &Adding) -> Reply {
    let (house, mut found) = open::house_here();
    found.retain(|d| d.severity > Severity::Note);
    let name = args.name.trim();
    let view = match refused(name, &house) {
        Some(refused) => {
            found.push(refused);
            None
        }
        None => {
            let text = blank_entry(name, &house.larder, house.settings.currency.as_deref());
            let file = if args.write { append(&text, &house, &mut found) } else { None };
            Some(LarderEntryView { text, file })
        }
    };
    open::reply(view, found, args.json, render::text::larder_entry)
}

/// A name that is none, or one that the house has described already.
fn refused(name: &str, house: &House) -> Option<Diagnostic> {
    if name.is_empty() {
        return Some(open::bad_argument(
            "NAME",
            name,
            "a name was expected",
            "write for example: stillroom larder add \"quince paste\"",
        ));
    }
    let is_left_out = house.larder.said_of(name).next().is_some();
    let there = house.larder.find(name).is_some_and(|own| own.origin != Origin::BuiltIn) || is_left_out;
    there.then(|| {
        let title = format!("`{name}` stands in the larder of the house already");
        Diagnostic::error(Code::SameName, title).help("change it there; see what it says: stillroom larder NAME")
    })
}

/// Adds an entry below the others; the file that it stands in now.
fn append(text: &str, house: &House, found: &mut Vec<Diagnostic>) -> Option<String> {
    let there = house.sources.iter().find(|source| Path::new(&*source.file).ends_with("larder.toml"));
    let path = there.map_or_else(|| home().join("larder.toml"), |source| PathBuf::from(&*source.file));
    let written = match there {
        Some(source) => {
            let gap = if source.text.is_empty() || source.text.ends_with('\n') { "" } else { "\n" };
            house::replace(&path, format!("{}{gap}\n{text}", source.text).as_bytes())
        }
        None => house::write_new(&path, text),
    };
    match written {
        Ok(()) => Some(path.display().to_string()),
        Err(error) => {
            let title = format!("{} could not be written: {}", path.display(), house::reason(&error));
            found.push(
                Diagnostic::error(Code::CannotWrite, title).help("it was left as it is: paste the entry yourself"),
            );
            None
        }
    }
}
