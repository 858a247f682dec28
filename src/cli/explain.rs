//! `explain`: where a number comes from.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::acidity;
use crate::mixture::equations::{EQUATIONS, Equation};
use crate::render;

use super::Reply;

/// Say where a number comes from: the equation, its range, its stated error and its source.
///
/// Without a word: the properties that can be asked for. The code of a finding (as in error[no-size])
/// can be asked for too.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom explain brix
  stillroom explain out-of-reach")]
pub struct Args {
    /// A property (brix, abv, water activity, …) or the code of a finding
    word: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

fn all() -> impl Iterator<Item = &'static Equation> {
    EQUATIONS.iter().chain(acidity::equations::EQUATIONS).chain(crate::reading::equations::EQUATIONS)
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let Some(word) = &args.word else {
        let equations: Vec<_> = all().collect();
        let out =
            if args.json { render::json::equations(&equations, &[]) } else { render::text::equation_names(&equations) };
        return Reply::new(out, Vec::new());
    };
    let plain = |s: &str| s.to_lowercase().replace(['_', '-'], " ");
    let matching: Vec<_> = all().filter(|e| plain(e.property).contains(&plain(word))).collect();
    let code = Code::ALL.iter().copied().find(|c| c.as_str() == word);
    if let (true, Some(code)) = (matching.is_empty(), code) {
        let out = if args.json { render::json::code(code) } else { format!("{code}: {}\n", code.description()) };
        return Reply::new(out, Vec::new());
    }
    if matching.is_empty() {
        let names = all().map(|e| e.property).chain(Code::ALL.iter().map(|c| c.as_str()));
        let near = crate::text::nearest(word, names);
        let unknown = Diagnostic::error(Code::BadArgument, format!("nothing is called `{word}` here"));
        let unknown = [unknown.help(near.map_or_else(
            || "`stillroom explain` alone lists what can be asked for".to_owned(),
            |near| format!("did you mean `{near}`?"),
        ))];
        if args.json {
            return Reply::whole(render::json::equations(&[], &unknown), &unknown);
        }
        return Reply::new(String::new(), unknown.into());
    }
    Reply::new(
        if args.json { render::json::equations(&matching, &[]) } else { render::text::equations(&matching) },
        Vec::new(),
    )
}
