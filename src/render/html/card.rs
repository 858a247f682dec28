//! A card for the bench as a page.

use crate::render::sheet::card as words;
use crate::render::sheet::glass::glass as of_glass;
use crate::render::sheet::{PaperPara, SaidKind};
use crate::report::serve::ServeReport;
use crate::report::solve::SolveReport;

use super::{escaped, page};

pub(crate) fn card(report: &SolveReport) -> String {
    on_page(report.product(), &words::card(report))
}

/// The same of a drink for the bar.
pub(crate) fn glass(report: &ServeReport, with_cost: bool) -> String {
    on_page(report.product(), &of_glass(report, with_cost))
}

fn on_page(product: &str, said: &[PaperPara]) -> String {
    let mut body = String::new();
    let mut ticking = false;
    for said in said {
        let is_step = said.kind == SaidKind::Step;
        if is_step != ticking {
            body.push_str(if is_step { "<ul class=\"tick\">\n" } else { "</ul>\n" });
            ticking = is_step;
        }
        body.push_str(&element(said));
    }
    if ticking {
        body.push_str("</ul>\n");
    }
    page(product, &body)
}

fn element(said: &PaperPara) -> String {
    let [lead, words] = [escaped(&said.lead), escaped(&said.words)];
    match said.kind {
        SaidKind::Stop => format!("<p class=\"stop\">{lead} {words}</p>\n"),
        SaidKind::Title => format!("<h1>{lead} {words}</h1>\n"),
        SaidKind::Head => format!("<h2>{lead} {words}</h2>\n"),
        SaidKind::Step => format!("<li>{lead}{words}</li>\n"),
        SaidKind::Date | SaidKind::Allergens | SaidKind::Warning | SaidKind::Lot | SaidKind::Note => {
            format!("<p><span class=\"strong\">{lead}</span> {words}</p>\n")
        }
    }
}
