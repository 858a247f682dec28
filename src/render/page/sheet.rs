//! One card: what stops it first, then what to weigh, what to tell a guest, how to make it, what to check.

use crate::diagnostic::Code;
use crate::render::html::escaped;
use crate::render::sheet::card::{CardWords, in_parts};
use crate::render::sheet::{PaperPara, SaidKind, StepFact};
use crate::render::text::{behind_words, bench_words, cost_rows, unit_rows};
use crate::report::caution::{CautionView, waiting};
use crate::report::cost::CostReport;
use crate::report::solve::SolveReport;
use crate::report::{Report, View};

use super::volume::{in_ounces, volume};
use super::{findings, list, rows, section};

/// A card in two parts: what is seen of it first, and the work. Between the two a page with a solver asks what is wanted.
pub(crate) struct SheetHtml {
    pub(crate) top: String,
    pub(crate) rest: String,
    /// Whether it takes smaller letters to bring it on one side of small paper: for who writes the whole page.
    #[cfg_attr(not(feature = "cli"), allow(dead_code))]
    pub(crate) long: bool,
}

/// A line of small paper has room for so many letters, and a side for so many lines beside its heads, as a browser sets them
/// (measured on the demo house).
const LETTERS: usize = 62;
const LINES: usize = 36;

fn is_long<'a>(words: impl Iterator<Item = &'a PaperPara>, lists: impl Iterator<Item = &'a String>) -> bool {
    let letters = words.map(|said| said.whole().chars().count()).chain(lists.map(|said| said.chars().count()));
    letters.map(|letters| letters.div_ceil(LETTERS).max(1)).sum::<usize>() > LINES
}

/// A card; its cost where one is given.
pub(crate) fn sheet(report: &SolveReport, cost: Option<&CostReport>) -> SheetHtml {
    let Some((view, words)) = report.answer().zip(in_parts(report)) else { return unsolved(report) };
    let CardWords { stops, head, warnings, bench, method, for_a_guest, keeping } = words;
    let top = [&stops[..], &head, &warnings].concat();
    let [dosing, made_up, needs] = bench_words::finish_words(view);
    let then: Vec<PaperPara> =
        dosing.into_iter().chain(made_up).chain(needs).map(|said| PaperPara::new(SaidKind::Note, "", said)).collect();
    let is = bench_words::is(view).map(|is| PaperPara::new(SaidKind::Note, "Is", is));
    let keeping: Vec<PaperPara> = keeping.into_iter().chain(is).collect();
    let note = view.note.iter().map(|note| PaperPara::new(SaidKind::Note, "Note:", note));
    let note: Vec<PaperPara> = note.chain(for_a_guest).collect();
    let checks = bench_words::checks(view);
    let told = || report.findings().iter().filter(|finding| finding.code != Code::DoesNotApply);
    let all = [&top, &bench, &then, &keeping, &method, &note].into_iter().flatten();
    let long = is_long(all, checks.iter().chain(told().map(|finding| &finding.message)));
    let rest = [
        section("Weigh", &paragraphs(&bench, true), &paragraphs(&then, false)),
        section("Tell and keep", &paragraphs(&keeping, false), ""),
        section("Method", &paragraphs(&method, true), &paragraphs(&note, false)),
        section("Check", &list(&checks), ""),
        section("Cautions", &cautions(&view.cautions), ""),
        cost.map_or_else(String::new, |cost| section("Cost", &costs(cost, report), "")),
        findings(told()),
    ];
    SheetHtml { top: paragraphs(&top, false), rest: rest.concat(), long }
}

/// A card that cannot be made as it stands: what is wrong with it.
pub(super) fn unsolved<V: View>(report: &Report<V>) -> SheetHtml {
    let said = [
        PaperPara::new(SaidKind::Stop, "STOP: this card cannot be made as it stands", ""),
        PaperPara::new(SaidKind::Title, report.product(), ""),
    ];
    SheetHtml { top: paragraphs(&said, false), rest: findings(report.findings().iter()), long: false }
}

/// Paragraphs as they come; what is to be done stands in lists, with boxes to tick.
fn paragraphs(all: &[PaperPara], ticked: bool) -> String {
    let mut out = String::new();
    let mut in_list = false;
    for said in all {
        let is_step = said.kind == SaidKind::Step && ticked;
        // a remark on what is weighed belongs to the line above it
        let goes_on = in_list && said.kind == SaidKind::Note && ticked;
        if (is_step || goes_on) != in_list {
            out.push_str(if in_list { "</ol>\n" } else { "<ol class=\"ticks\">\n" });
            in_list = !in_list;
        }
        out.push_str(&if in_list && !is_step { item(said) } else { element(said) });
    }
    out + if in_list { "</ol>\n" } else { "" }
}

fn element(said: &PaperPara) -> String {
    let [lead, words] = [escaped(&said.lead), escaped(&said.words)];
    let (mut more, mut hold) = (String::new(), String::new());
    match said.fact {
        // the title says its litres itself
        Some(StepFact::Volume(ml)) if said.kind == SaidKind::Note => more = in_ounces(ml),
        Some(StepFact::Volume(ml)) => more = volume(ml),
        Some(StepFact::Hold(minutes)) => hold = format!(" data-hold=\"{minutes}\""),
        None => {}
    }
    match said.kind {
        SaidKind::Stop => format!("<p class=\"stop\">{lead} {words}</p>\n"),
        SaidKind::Title => format!("<h2>{lead}</h2>\n"),
        SaidKind::Head => format!("<h4>{lead} {words}</h4>\n"),
        SaidKind::Step => {
            format!("<li{hold}><label><input type=\"checkbox\"> <span>{lead}{words}{more}</span></label></li>\n")
        }
        SaidKind::Note if lead.is_empty() => format!("<p>{words}{more}</p>\n"),
        SaidKind::Warning => format!("<p class=\"warning\"><b>{lead}</b> {words}</p>\n"),
        SaidKind::Date | SaidKind::Allergens | SaidKind::Lot | SaidKind::Note => {
            format!("<p><b>{lead}</b> {words}</p>\n")
        }
    }
}

fn item(said: &PaperPara) -> String {
    format!("<li class=\"note\">{}</li>\n", escaped(&said.whole()))
}

/// Every caution in full, with whom to ask and where it comes from; what is not stated last.
pub(super) fn cautions(all: &[CautionView]) -> String {
    let said_in_full = all.iter().filter(|caution| caution.is_said_in_full());
    let one = |caution: &CautionView, says: &str| {
        let behind = behind_words(caution);
        let behind = if behind.is_empty() { behind } else { format!("<br><small>{}</small>", escaped(&behind)) };
        let word = caution.severity.word();
        format!("<li><b>{}:</b> {}{behind}</li>\n", escaped(word), escaped(says))
    };
    let mut said: String = said_in_full.map(|caution| one(caution, &caution.message)).collect();
    for (asked, waits) in waiting(all) {
        said.push_str(&format!("<li><b>not stated:</b> {}</li>\n", escaped(&asked)));
        said.extend(waits.into_iter().map(|caution| one(caution, &caution.says)));
    }
    if said.is_empty() { said } else { format!("<ul class=\"cautions\">\n{said}</ul>\n") }
}

/// What it costs; what was found of the card itself stands under the whole sheet.
fn costs(report: &CostReport, of_card: &SolveReport) -> String {
    let found = findings(report.findings().iter().filter(|finding| !of_card.findings().contains(finding)));
    let Some(batch) = report.answer().and_then(|view| view.batch.0.as_ref()) else { return found };
    let lines = cost_rows(batch);
    let (head, lines) = lines.split_first().map_or((&[][..], &[][..]), |(head, lines)| (&head[..], lines));
    let units: Vec<Vec<String>> = unit_rows(batch).into_iter().map(|(of, costs)| vec![of, costs]).collect();
    rows(head, lines) + &rows(&[], &units) + &super::paragraphs(&batch.assumed) + &found
}
