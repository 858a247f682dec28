//! The verbs. The only room that knows a command line, a terminal and an exit code.

mod adjust;
mod ascii;
mod bench_card;
mod book;
mod book_file;
mod card;
mod check;
pub mod clock;
mod completions;
mod cost;
mod date;
mod due;
mod explain;
mod group;
mod label;
mod larder;
mod learn;
mod locate;
mod lots;
mod mark;
mod menu;
mod new;
mod open;
mod output;
mod paint;
mod plan;
mod publish;
mod read;
mod record;
mod schema;
mod serve;
mod solve;
mod square;
mod strike;
mod swap;

use std::io::{self, IsTerminal, Write};
use std::panic::{self, UnwindSafe};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};
use clap_complete::CompleteEnv;

use crate::diagnostic::tamed;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house;
use crate::render::text::Page;
use crate::report::{Report, View};

/// Exit codes, as `--help` states them.
const MET: u8 = 0;
const NOT_MET: u8 = 1;
const UNREADABLE: u8 = 2;
const OUR_BUG: u8 = 3;

/// Formulation for people who make their own bar ingredients.
///
/// A formula is a text file that reads like a recipe card. stillroom turns it into grams to weigh,
/// says what the batch will be, and where each number comes from.
///
/// Start with:  stillroom new my-bar
#[derive(Parser)]
#[command(name = "stillroom", version, max_term_width = 100, after_help = AFTER_HELP)]
struct Cli {
    /// The folder of the house, in place of this one: every name is looked for there
    #[arg(short = 'C', long = "house", value_name = "FOLDER", global = true, help_heading = "Of every verb")]
    house: Option<PathBuf>,
    /// Colour, in place of what the terminal takes
    #[arg(
        long,
        value_name = "WHEN",
        global = true,
        default_value = "auto",
        hide_default_value = true,
        help_heading = "Of every verb"
    )]
    color: Colour,
    #[command(subcommand)]
    verb: Verb,
}

/// When colour is used. It never says anything alone.
#[derive(Clone, Copy, clap::ValueEnum)]
enum Colour {
    /// On a terminal that takes it
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

impl From<Colour> for anstream::ColorChoice {
    fn from(when: Colour) -> Self {
        match when {
            Colour::Auto => Self::Auto,
            Colour::Always => Self::Always,
            Colour::Never => Self::Never,
        }
    }
}

const AFTER_HELP: &str = "\
Exit codes: 0 fine; 1 the formula cannot be met; 2 bad command line or unreadable input; 3 our own bug.
Figures are advice, not a licence: the house and its food authority decide what is made and served.";

#[derive(Subcommand)]
enum Verb {
    Solve(solve::Args),
    Square(square::Args),
    Date(date::Args),
    Plan(plan::Args),
    Read(read::Args),
    Adjust(adjust::Args),
    Swap(swap::Args),
    Cost(cost::Args),
    Serve(serve::Args),
    Menu(menu::Args),
    Check(check::Args),
    Larder(larder::Args),
    Card(card::Args),
    Explain(explain::Args),
    Schema(schema::Args),
    New(new::Args),
    Record(record::Args),
    Taste(lots::TasteArgs),
    Open(lots::OpenArgs),
    Move(lots::MoveArgs),
    UseUp(lots::UseUpArgs),
    Discard(lots::DiscardArgs),
    Tell(lots::TellArgs),
    Strike(strike::StrikeArgs),
    Label(label::Args),
    Publish(publish::Args),
    Due(due::DueArgs),
    Recall(due::RecallArgs),
    Learn(learn::Args),
    Lots(group::Args),
    Completions(completions::Args),
    Man(completions::man::Args),
}

/// What a verb answers: text for standard output, findings for standard error, and how it went.
struct Reply {
    out: String,
    diagnostics: Vec<Diagnostic>,
    code: u8,
}

impl Reply {
    /// A report as JSON, or as text; what the text does not tell is painted where it stands.
    fn of<V: View>(
        report: &Report<V>,
        mut diagnostics: Vec<Diagnostic>,
        json: bool,
        text: impl Fn(&Report<V>) -> String,
    ) -> Self {
        let stopped = report.answer().is_some_and(View::stops);
        let code = match report.answer().is_some_and(View::leaves_out) {
            true => NOT_MET,
            false => exit_code(&diagnostics).max(if stopped { NOT_MET } else { MET }),
        };
        if json {
            return Self { out: report.json(), diagnostics: Vec::new(), code };
        }
        diagnostics.retain(|d| d.severity > Severity::Note || !V::TELLS_NOTES);
        let text = page().fit(&text(report));
        Self { out: tamed(&text).into_owned(), diagnostics, code }
    }
}

/// The page that is written for: as wide as the terminal, within reason; for a file or a printer the narrow one.
fn page() -> Page {
    let columns = match io::stdout().is_terminal() {
        true => terminal_size::terminal_size().map_or(Page::NARROWEST, |(width, _)| usize::from(width.0)),
        false => Page::NARROWEST,
    };
    Page { width: columns.clamp(Page::NARROWEST, Page::WIDEST), full: false }
}

fn exit_code(diagnostics: &[Diagnostic]) -> u8 {
    let errors = || diagnostics.iter().filter(|d| d.severity == Severity::Error);
    if errors().any(|d| matches!(d.code, Code::CannotRead | Code::Syntax | Code::TooLarge | Code::BadArgument)) {
        UNREADABLE
    } else if errors().next().is_some() {
        NOT_MET
    } else {
        MET
    }
}

/// What an option that takes a quantity calls its value.
const QUANTITIES: &str =
    "AMOUNT BOTTLES BRIX DAYS DEGREES G/L MONEY N PERCENT PH PRICE PROOF SG STRENGTH TEMPERATURE VOLUME WEIGHT";

/// The command line. A quantity may be below zero: a freezer is at -18 °C, and what cannot be is for the reader of the
/// quantity to say, who knows why.
fn command() -> clap::Command {
    Cli::command().mut_subcommands(|verb| {
        verb.mut_args(|option| {
            let is_quantity = |name: &clap::builder::Str| QUANTITIES.split(' ').any(|of| of == name.as_str());
            let negative = option.get_value_names().is_some_and(|names| names.iter().any(is_quantity));
            if negative { option.allow_hyphen_values(true) } else { option }
        })
    })
}

/// Runs the command line.
pub fn run() -> ExitCode {
    caught(run_verb)
}

fn run_verb() -> ExitCode {
    // A shell that asks what to offer is answered, and nothing else is done.
    CompleteEnv::with_factory(|| completions::knowing_products(command())).var(completions::ASKED_BY).complete();
    // Anything that clap refuses exits with 2 from here.
    let matches = command().get_matches();
    let cli = Cli::from_arg_matches(&matches).unwrap_or_else(|refused| refused.exit());
    let refused = cli.house.as_ref().and_then(|folder| go_to(folder));
    let reply = refused.map_or_else(
        || answer(cli.verb),
        |refused| Reply {
            code: exit_code(std::slice::from_ref(&refused)),
            out: String::new(),
            diagnostics: vec![refused],
        },
    );
    let findings = paint::all(&reply.diagnostics);
    match print(&findings, &reply.out, cli.color.into()) {
        // A reader that has gone away has seen enough: that is not an error.
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => ExitCode::from(reply.code),
        Err(error) => {
            anstream::eprintln!("error: what it says cannot be written: {}", house::reason(&error));
            ExitCode::from(UNREADABLE)
        }
        Ok(()) => ExitCode::from(reply.code),
    }
}

/// Makes a folder the one that everything is looked for in.
fn go_to(folder: &Path) -> Option<Diagnostic> {
    let error = std::env::set_current_dir(folder).err()?;
    let (folder, why) = (folder.display(), house::reason(&error));
    let title = match error.kind() {
        io::ErrorKind::NotFound => format!("there is no folder `{folder}` here"),
        _ => format!("{folder} cannot be gone into: {why}"),
    };
    Some(
        Diagnostic::error(Code::CannotRead, title)
            .help("-C takes the folder of a house, with its house.toml or its cards"),
    )
}

fn answer(verb: Verb) -> Reply {
    match verb {
        Verb::Solve(args) => solve::run(&args),
        Verb::Square(args) => square::run(&args),
        Verb::Date(args) => date::run(&args),
        Verb::Plan(args) => plan::run(&args),
        Verb::Read(args) => read::run(&args),
        Verb::Adjust(args) => adjust::run(&args),
        Verb::Swap(args) => swap::run(&args),
        Verb::Cost(args) => cost::run(&args),
        Verb::Serve(args) => serve::run(&args),
        Verb::Menu(args) => menu::run(&args),
        Verb::Check(args) => check::run(&args),
        Verb::Larder(args) => larder::run(&args),
        Verb::Card(args) => card::run(&args),
        Verb::Explain(args) => explain::run(&args),
        Verb::Schema(args) => schema::run(&args),
        Verb::New(args) => new::run(&args),
        Verb::Record(args) => record::run(&args),
        Verb::Taste(args) => lots::taste(&args),
        Verb::Open(args) => lots::open_lot(&args),
        Verb::Move(args) => lots::move_lot(&args),
        Verb::UseUp(args) => lots::use_up(&args),
        Verb::Strike(args) => strike::run(&args),
        Verb::Discard(args) => lots::discard(&args),
        Verb::Tell(args) => lots::tell(&args),
        Verb::Label(args) => label::run(&args),
        Verb::Publish(args) => publish::run(&args),
        Verb::Due(args) => due::due(&args),
        Verb::Recall(args) => due::recall(&args),
        Verb::Learn(args) => learn::run(&args),
        Verb::Lots(args) => group::run(&args),
        Verb::Completions(args) => completions::run(&args),
        Verb::Man(args) => completions::man::run(&args, command()),
    }
}

fn print(findings: &str, out: &str, color: anstream::ColorChoice) -> io::Result<()> {
    // What goes into a file or to a program is always UTF-8.
    let utf8 = |terminal: bool| !terminal || ascii::takes_utf8(|name| std::env::var(name).ok());
    if !findings.is_empty() {
        let findings = ascii::fitted(findings, utf8(io::stderr().is_terminal()));
        anstream::AutoStream::new(io::stderr(), color).write_all(findings.as_bytes())?;
    }
    let out = ascii::fitted(out, utf8(io::stdout().is_terminal()));
    let mut stdout = anstream::AutoStream::new(io::stdout(), color);
    stdout.write_all(out.as_bytes())?;
    stdout.flush()
}

/// Runs `job` and gives its exit code; a panic in it becomes a sentence that says what to send, and exit code 3. It takes the hook
/// of panics for itself.
///
/// Whatever was to be written stays unwritten: files are put in place only when they are whole.
pub fn caught(job: impl FnOnce() -> ExitCode + UnwindSafe) -> ExitCode {
    panic::set_hook(Box::new(|panicked| anstream::eprint!("{}", fault(&panicked.to_string()))));
    panic::catch_unwind(job).unwrap_or(ExitCode::from(OUR_BUG))
}

fn fault(panicked: &str) -> String {
    format!(
        "error: this is a fault of stillroom {}, not of your card\n\
         nothing was written; no figure above this line is to be trusted\n\
         please send the people who make it the command that you typed, the card and these lines:\n\
         {panicked}\n",
        env!("CARGO_PKG_VERSION")
    )
}
