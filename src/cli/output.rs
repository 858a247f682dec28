//! The files that a verb writes beside what it prints: charts, tables, pages and what goes on paper. Nothing that a house wrote itself is ever
//! lost to one.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic};
use crate::house;
use crate::publish::site::SiteFile;
use crate::render;
use crate::render::print::PrintSheet;

use super::mark::{self, FileMark};
use super::open::bad_argument;

pub(crate) enum What {
    Chart(String),
    Table(String),
    /// One page of it as a picture, or all of them as a document.
    Paper(PrintSheet, usize),
    Page(String),
    /// A file of a folder that is written whole.
    Part(SiteFile),
}

/// So many letters that are missing are named.
const MOST_NAMED: usize = 8;

impl What {
    /// What a file of it may be called, by the ends of names.
    fn ends(&self) -> &'static [&'static str] {
        match self {
            Self::Chart(_) => &["svg", "png"],
            Self::Table(_) => &["csv"],
            Self::Paper(..) => &["pdf", "png", "svg"],
            Self::Page(_) => &["html"],
            Self::Part(_) => SiteFile::ENDS,
        }
    }

    /// What of its words a picture cannot say.
    fn not_said(&self, path: &Path) -> Option<Diagnostic> {
        let Self::Chart(svg) = self else { return None };
        let missing = if ends_in(path, "png") { render::chart::missing_letters(svg) } else { Vec::new() };
        let letters: Vec<String> = missing.iter().take(MOST_NAMED).map(|letter| format!("`{letter}`")).collect();
        let more = if missing.len() > MOST_NAMED { " and others" } else { "" };
        let title =
            format!("{} is drawn without {}{more}: its letters do not have them", path.display(), letters.join(", "));
        let help = "write it as .svg, which is shown with the letters of whoever opens it; or name the card in Latin, Greek or Cyrillic letters";
        (!missing.is_empty()).then(|| Diagnostic::warning(Code::MissingLetters, title).help(help))
    }

    fn bytes(self, path: &Path) -> Option<Vec<u8>> {
        match self {
            Self::Chart(svg) if ends_in(path, "png") => {
                let missing = render::chart::missing_letters(&svg);
                render::chart::png(&svg.replace(|letter| missing.contains(&letter), ""))
            }
            Self::Paper(sheet, _) if ends_in(path, "pdf") => render::print::pdf(&sheet).ok(),
            Self::Paper(sheet, page) if ends_in(path, "png") => render::print::png(&sheet, page),
            Self::Paper(sheet, page) => Some(render::print::svg(&sheet, page).into_bytes()),
            Self::Chart(text) | Self::Table(text) | Self::Page(text) => Some(text.into_bytes()),
            Self::Part(file) => Some(file.bytes),
        }
    }

    /// By so many of its first bytes an earlier one of its kind is known, where its words say who wrote it: a page in its
    /// first line, a table by all of its heads.
    fn known_by(&self) -> Option<usize> {
        match self {
            Self::Page(_) => Some(40),
            Self::Part(_) => Some(SiteFile::MARKED),
            Self::Table(text) => Some(text.find('\n').unwrap_or(text.len())),
            Self::Chart(_) | Self::Paper(..) => None,
        }
    }
}

pub(crate) struct Output<'a> {
    /// The option that asks for it.
    pub option: &'static str,
    /// Where to.
    pub path: &'a Path,
    /// What.
    pub what: What,
}

/// Writes the drawing of what was read from `file`, where one is asked for.
pub(crate) fn chart(path: Option<&PathBuf>, draw: impl FnOnce() -> String, file: &str) -> Vec<Diagnostic> {
    let asked = path.map(|path| Output { option: "--chart", path, what: What::Chart(draw()) });
    write(asked.into_iter().collect(), &[file.as_ref()])
}

/// What goes on paper: as PDF all of it, as a picture each page in a file of its own (`label.png`, `label-2.png`).
pub(crate) fn paper(path: &Path, sheet: &PrintSheet) -> Vec<Diagnostic> {
    let pictures = if ends_in(path, "pdf") { 1 } else { sheet.pages.len() };
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let end = path.extension().unwrap_or_default().to_string_lossy().into_owned();
    let name = |page: usize| match page {
        0 => path.to_owned(),
        _ => path.with_file_name(format!("{stem}-{}.{end}", page + 1)),
    };
    let paths: Vec<PathBuf> = (0..pictures).map(name).collect();
    let outputs = paths.iter().enumerate();
    let what = |page| What::Paper(sheet.clone(), page);
    write(outputs.map(|(page, path)| Output { option: "-o", path, what: what(page) }).collect(), &[])
}

/// Writes them all, or none where one of them has no place: `read` are the files that this run was told to read.
pub(crate) fn write(outputs: Vec<Output<'_>>, read: &[&Path]) -> Vec<Diagnostic> {
    let read: Vec<PathBuf> = read.iter().filter_map(|path| path.canonicalize().ok()).collect();
    let (mut found, mut ready, mut taken, mut said) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for Output { option, path, what } in outputs {
        let refused = |why: &str, help: &str| bad_argument(option, &path.display().to_string(), why, help);
        let (ends, known_by) = (what.ends(), what.known_by());
        let place = house::place(path);
        if !ends.iter().any(|end| ends_in(path, end)) {
            let ends = ends.join(" or .");
            found.push(refused(&format!("a file that ends in .{ends} was expected"), "give it a name of that kind"));
        } else if read.contains(&place) {
            found.push(refused("it was read in this run and would be lost", "write to another file"));
        } else if taken.contains(&place) {
            found.push(refused("another output of this run goes to the same file", "give each its own file"));
        } else if let (not_said, Some(bytes)) = (what.not_said(path), what.bytes(path)) {
            said.extend(not_said);
            let begins = |length| FileMark::first(&bytes, length);
            let (bytes, mark) = match known_by.map(begins) {
                Some(mark) => (bytes, mark),
                None => mark::drawing(bytes),
            };
            match is_other(&place, &mark) {
                Some(why) => found.push(cannot(path, why, "it was left as it is: write to another file")),
                None => ready.push((path, bytes)),
            }
        } else {
            found.push(cannot(path, "the drawing could not be turned into a picture", "write it as .svg"));
        }
        taken.push(place);
    }
    if found.is_empty() {
        let help = "check the folder's name and that you may write there";
        let written = ready.into_iter().map(|(path, bytes)| (path, house::replace(path, &bytes)));
        found.extend(written.filter_map(|(path, done)| Some(cannot(path, &house::reason(&done.err()?), help))));
    }
    found.extend(said);
    found
}

pub(crate) fn ends_in(path: &Path, end: &str) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case(end))
}

/// Why what is there already may not be replaced: it is not an earlier one of the same kind.
fn is_other(place: &Path, mark: &FileMark) -> Option<&'static str> {
    let there = house::first_bytes(place, mark.among)?;
    match there {
        Err(_) => Some("something is there that cannot be looked into"),
        Ok(first) if first.is_empty() || mark.stands_in(&first) => None,
        Ok(_) => Some("another file is there, which this program did not write"),
    }
}

fn cannot(path: &Path, why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code::CannotWrite, format!("{} could not be written: {why}", path.display())).help(help)
}
