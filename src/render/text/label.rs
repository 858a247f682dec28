//! The words of a label and of a card, before they have a size.

use crate::render::sheet::{PaperPara, SaidKind, card as card_words, glass as glass_words, label as label_words};
use crate::report::label::LabelReport;
use crate::report::serve::ServeReport;
use crate::report::solve::SolveReport;

use super::table::wrapped;

pub(crate) fn label(report: &LabelReport) -> String {
    report.answer().map_or_else(String::new, |view| {
        let (opened, day) = label_words::opened(view);
        let foot = format!("{opened} {}", day.as_deref().unwrap_or("__________"));
        let said: String = label_words::label(view).iter().map(paragraph).collect();
        format!("\n{said}{}", wrapped("  ", &foot))
    })
}

pub(crate) fn bench_card(report: &SolveReport) -> String {
    card_words::card(report).iter().map(paragraph).collect()
}

pub(crate) fn bar_card(report: &ServeReport, with_cost: bool) -> String {
    glass_words::glass(report, with_cost).iter().map(paragraph).collect()
}

fn paragraph(said: &PaperPara) -> String {
    let before = match said.kind {
        SaidKind::Title | SaidKind::Stop | SaidKind::Head => "",
        SaidKind::Step => "  [ ] ",
        _ => "  ",
    };
    wrapped(before, &said.whole())
}
