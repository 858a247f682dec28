//! The files of a page: one folder for a host of static files, or one file for a memory stick. Nothing in them is loaded from
//! anywhere else, and the browser is told to run and to show nothing but what is in them.

use base64::prelude::{BASE64_STANDARD, Engine as _};
use chrono::NaiveDate;
use serde::Serialize;
use sha2::{Digest, Sha256};

use crate::render::page::{self, Document, PageEntry};
use crate::report::publish::PageKind;

/// A file of the folder.
pub(crate) struct SiteFile {
    pub(crate) name: &'static str,
    pub(crate) bytes: Vec<u8>,
}

impl SiteFile {
    /// What its files end in.
    pub(crate) const ENDS: &'static [&'static str] = &["html", "js", "webmanifest", "svg"];
    /// By so many of its first bytes each says who wrote it.
    pub(crate) const MARKED: usize = 24;
}

/// The page itself: by it a folder that was written before is known.
pub(crate) const INDEX: &str = "index.html";

/// What is built beside the program for a page that solves.
#[derive(Clone)]
pub(crate) struct PageSolver {
    /// The library as WebAssembly, packed by gzip.
    pub(crate) packed: Vec<u8>,
    /// The script of the page.
    pub(crate) script: String,
    /// The script that keeps a page that was served, for when there is no signal.
    pub(crate) keeper: String,
}

/// What a card gives its solver.
#[derive(Serialize)]
pub(crate) struct CardTexts {
    /// Which tools it has.
    pub(crate) kind: PageKind,
    pub(crate) id: String,
    /// What it is made of, with all that its house has of it.
    pub(crate) card: String,
    /// The earliest age in days at which something grew in a lot of it.
    pub(crate) grew_days: Option<f64>,
}

/// What is to be on the page.
pub(crate) struct SitePlan<'a> {
    pub(crate) house: Option<&'a str>,
    pub(crate) written: NaiveDate,
    pub(crate) entries: Vec<PageEntry>,
    /// What `house.toml` says.
    pub(crate) settings: Option<String>,
    pub(crate) texts: Vec<CardTexts>,
    pub(crate) with_costs: bool,
    pub(crate) solver: Option<&'a PageSolver>,
}

/// What the script takes up: the texts and the solver, and by what it knows that they belong to the page.
#[derive(Serialize)]
struct StampedParts<'a> {
    stamp: &'a str,
    parts: String,
}

#[derive(Serialize)]
struct CarriedParts<'a> {
    house: &'a Option<String>,
    cards: &'a [CardTexts],
    with_costs: bool,
    /// The solver as base64 of gzip.
    solver: String,
}

fn sha256(bytes: &[u8]) -> String {
    BASE64_STANDARD.encode(Sha256::digest(bytes))
}

/// JSON that can stand in a script of a page: nothing in it ends the script.
fn in_script(value: &impl Serialize) -> String {
    // A tree of plain values always has a text.
    serde_json::to_string(value).unwrap_or_default().replace('<', "\\u003c")
}

/// The files, the page itself last: whoever writes them in this order never shows a page without its parts.
pub(crate) fn files(plan: SitePlan<'_>, one_file: bool) -> Vec<SiteFile> {
    let style = sha256(page::STYLE.as_bytes());
    let mut policy = format!("default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-{style}'");
    let (mut files, mut scripts, mut head, mut stamp) = (Vec::new(), String::new(), String::new(), String::new());
    if let Some(solver) = plan.solver {
        let parts = CarriedParts {
            house: &plan.settings,
            cards: &plan.texts,
            with_costs: plan.with_costs,
            solver: BASE64_STANDARD.encode(&solver.packed),
        };
        let parts = serde_json::to_string(&parts).unwrap_or_default();
        stamp = sha256(parts.as_bytes());
        let carried = in_script(&StampedParts { stamp: &stamp, parts });
        let hash = sha256(solver.script.as_bytes());
        policy.push_str(&format!("; script-src 'sha256-{hash}' 'wasm-unsafe-eval'"));
        scripts = page::TOOLS.to_owned();
        if one_file {
            scripts.push_str(&format!("<script type=\"application/json\" id=\"carried\">{carried}</script>\n"));
        } else {
            policy.push_str(" 'self'; worker-src 'self'; manifest-src 'self'; img-src 'self'");
            head.push_str(
                "<link rel=\"manifest\" href=\"manifest.webmanifest\">\n<link rel=\"icon\" href=\"icon.svg\">\n",
            );
            scripts.push_str("<script src=\"solver.js\"></script>\n");
            let file = |name, text: String| SiteFile { name, bytes: text.into_bytes() };
            files
                .push(file("solver.js", format!("// a page of stillroom\nglobalThis.stillroomCarried = {carried};\n")));
            let keeper = format!(
                "// a page of stillroom\nglobalThis.stillroomStamp = {};\n{}",
                in_script(&stamp),
                solver.keeper
            );
            files.push(file("sw.js", keeper));
            files.push(file("manifest.webmanifest", page::manifest(plan.house)));
            files.push(file("icon.svg", page::ICON.to_owned()));
        }
        scripts.push_str(&format!("<script>{}</script>\n", solver.script));
    }
    let document = Document {
        house: plan.house,
        written: plan.written,
        entries: plan.entries,
        policy,
        head,
        solver: if plan.solver.is_some() { page::SOLVES } else { page::READ_ONLY },
        scripts,
        stamp,
    };
    files.push(SiteFile { name: INDEX, bytes: page::document(&document).into_bytes() });
    files
}

/// Where a part of the page stands: of its name what every browser takes, and no two alike.
pub(crate) fn place(kind: PageKind, name: &str, taken: &[PageEntry]) -> String {
    /// Longer, nobody reads it (ours).
    const LONGEST: usize = 40;
    let letters = name.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' });
    let letters: String = letters.collect();
    let words: Vec<&str> = letters.split('-').filter(|word| !word.is_empty()).collect();
    let mut slug = match kind {
        PageKind::Menu => "menu".to_owned(),
        PageKind::Board => "board".to_owned(),
        PageKind::Drink => format!("drink-{}", words.join("-")),
        PageKind::Card => format!("card-{}", words.join("-")),
        PageKind::Lot => format!("lot-{}", words.join("-")),
    };
    slug.truncate(LONGEST);
    let numbered = (2..).map(|number| format!("{slug}-{number}"));
    let mut all = [slug.clone()].into_iter().chain(numbered);
    all.find(|place| taken.iter().all(|entry| entry.place != *place)).unwrap_or(slug)
}
