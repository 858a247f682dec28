//! The weigh sheet.

mod checks;
mod keeping;
pub(super) mod lines;
mod properties;
mod summary;

use crate::diagnostic::{Code, Severity};
use crate::report::Finding;
use crate::report::solve::{MakesView, SolveReport};
use crate::units::display::{grouped, volume_text};
use crate::units::millilitres;

pub(super) use properties::half_width;

use super::table;

/// The whole sheet, one screen.
pub fn solve(report: &SolveReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.cautions);
    let asked = view.makes.map_or_else(String::new, |makes| format!(" · {}", size(makes)));
    out.push_str(&format!("\n{}{asked}\n", report.product()));
    for stage in &view.stages {
        out.push('\n');
        out.push_str(&lines::stage_text(stage));
    }
    out.push_str(&summary::dosing(&view.dosing));
    out.push_str(&summary::yield_text(view));
    out.push('\n');
    out.push_str(&properties::properties(view));
    out.push_str(&checks::checks(view));
    out.push_str(&checks::crystals(view));
    out.push_str(&checks::method(view));
    out.push_str(&remarks(report.findings()));
    out.push_str(&keeping::keeping(view));
    out
}

fn size(makes: MakesView) -> String {
    match makes {
        MakesView::Volume { volume_ml } => volume_text(millilitres(volume_ml)),
        MakesView::Mass { mass_g } => format!("{} g", grouped(mass_g, 0)),
        MakesView::Bottles { count, each_ml } => format!("{} x {} ml", grouped(count, 0), grouped(each_ml, 0)),
    }
}

/// What could not be given or was stretched, a line each.
fn remarks(findings: &[Finding]) -> String {
    let told = |note: &&Finding| note.severity == Severity::Note && note.code != Code::DoesNotApply;
    findings.iter().filter(told).map(|note| format!("- {}\n", note.message)).collect()
}
