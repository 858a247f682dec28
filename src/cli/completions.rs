//! `completions` and `man`: what a shell offers at the tab key, and the pages of the manual.

use std::ffi::OsStr;
use std::path::PathBuf;

use clap::builder::ValueHint;
use clap_complete::engine::{ArgValueCompleter, CompletionCandidate, PathCompleter, ValueCompleter};
use clap_complete::env::Shells;

use crate::diagnostic::{Code, Diagnostic};
use crate::house;

use super::{Reply, exit_code, locate};

/// Print what a shell needs to complete verbs, options and the products of the house.
#[derive(clap::Args)]
#[command(after_help = "\
Example: for this and every later session of bash
  stillroom completions bash >> ~/.bashrc

Example: for fish
  stillroom completions fish > ~/.config/fish/completions/stillroom.fish")]
pub(crate) struct Args {
    /// The shell
    #[arg(value_parser = ["bash", "elvish", "fish", "powershell", "zsh"])]
    shell: String,
}

/// The variable by which a shell asks this program what to offer.
pub(crate) const ASKED_BY: &str = "COMPLETE";

pub(crate) fn run(args: &Args) -> Reply {
    let mut script = Vec::new();
    let shell = Shells::builtins();
    let written = shell.completer(&args.shell).map(|shell| {
        let name = "stillroom";
        shell.write_registration(ASKED_BY, name, name, name, &mut script)
    });
    let diagnostics = match written {
        Some(Ok(())) => Vec::new(),
        _ => vec![
            Diagnostic::error(Code::BadArgument, format!("nothing is known of the shell {}", args.shell))
                .help("bash, elvish, fish, powershell or zsh"),
        ],
    };
    let code = exit_code(&diagnostics);
    Reply { out: String::from_utf8_lossy(&script).into_owned(), diagnostics, code }
}

/// The pages of the manual, one for the whole and one a verb.
pub(crate) mod man {
    use clap_mangen::Man;

    use super::{Code, Diagnostic, PathBuf, Reply, exit_code, house};

    /// Write the pages of the manual into a folder: stillroom.1, and one for each verb.
    #[derive(clap::Args)]
    #[command(after_help = "\
Example:
  stillroom man ~/.local/share/man/man1
  man stillroom-solve")]
    pub(crate) struct Args {
        /// The folder; it is made if it is not there. Pages that are there are replaced
        folder: PathBuf,
    }

    pub(crate) fn run(args: &Args, command: clap::Command) -> Reply {
        let mut diagnostics = Vec::new();
        let mut out = String::new();
        for (name, page) in pages(command) {
            let path = args.folder.join(format!("{name}.1"));
            let written = match path.is_file() {
                true => house::replace(&path, &page),
                false => house::write_new(&path, &String::from_utf8_lossy(&page)),
            };
            match written {
                Ok(()) => out.push_str(&format!("{}\n", path.display())),
                Err(error) => diagnostics.push(
                    Diagnostic::error(
                        Code::CannotWrite,
                        format!("{} could not be written: {}", path.display(), house::reason(&error)),
                    )
                    .help("check the folder's name and that you may write there"),
                ),
            }
        }
        let code = exit_code(&diagnostics);
        Reply { out, diagnostics, code }
    }

    fn pages(mut command: clap::Command) -> Vec<(String, Vec<u8>)> {
        command.build();
        let verbs = command.get_subcommands().filter(|verb| verb.get_name() != "help").cloned();
        let all: Vec<clap::Command> = verbs.chain([command.clone()]).collect();
        let page = |command: clap::Command| {
            // built, a verb is displayed with the name of the whole before its own
            let name = command.get_display_name().unwrap_or(command.get_name()).to_owned();
            let mut page = Vec::new();
            // writing to memory does not fail
            let _ = Man::new(command).render(&mut page);
            (name, page)
        };
        all.into_iter().map(page).collect()
    }
}

/// The cards that a verb can be asked for, beside the files: what the shell shows behind `stillroom solve `.
#[derive(Clone)]
struct Products;

impl ValueCompleter for Products {
    fn complete(&self, current: &OsStr) -> Vec<CompletionCandidate> {
        let begun = current.to_string_lossy().to_lowercase();
        let products = locate::products().into_iter().filter(|name| name.to_lowercase().starts_with(&begun));
        let files = PathCompleter::file().complete(current);
        products.map(CompletionCandidate::new).chain(files).collect()
    }
}

/// With the products of the house for every argument that names a card.
pub(crate) fn knowing_products(command: clap::Command) -> clap::Command {
    command.mut_subcommands(|verb| {
        let verb = if verb.has_subcommands() { knowing_products(verb) } else { verb };
        verb.mut_args(|argument| match argument.get_id().as_str() {
            "file" => argument.add(ArgValueCompleter::new(Products)).value_hint(ValueHint::FilePath),
            _ => argument,
        })
    })
}
