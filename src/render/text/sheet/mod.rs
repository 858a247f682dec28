//! The weigh sheet.

mod checks;
mod keeping;
mod lines;
mod properties;
mod summary;

use crate::card::Makes;
use crate::diagnostic::{Code, Diagnostic};
use crate::sheet::Sheet;
use crate::units::display::{grouped, volume_text};
use crate::units::{in_grams, in_millilitres};

pub(super) use lines::by_stock;
pub(super) use properties::{doubt_name, half_width};

use super::{maybe, table};

/// The whole sheet, one screen.
pub fn sheet(s: &Sheet, notes: &[Diagnostic]) -> String {
    let mut out = super::stops(s.dated.stops());
    out.push_str(&format!("\n{}{}\n", s.name, asked(s).map_or_else(String::new, |a| format!(" · {a}"))));
    for stage in &s.stages {
        out.push('\n');
        out.push_str(&lines::stage_text(stage));
    }
    out.push_str(&summary::dosing(s));
    out.push_str(&summary::yield_text(s));
    out.push('\n');
    out.push_str(&properties::properties(s));
    out.push_str(&checks::checks(s));
    out.push_str(&checks::crystals(s));
    out.push_str(&checks::method(s));
    out.push_str(&remarks(notes));
    out.push_str(&keeping::keeping(s));
    out
}

fn asked(s: &Sheet) -> Option<String> {
    Some(match s.makes? {
        Makes::Volume(v) => volume_text(v),
        Makes::Mass(m) => format!("{} g", grouped(in_grams(m), 0)),
        Makes::Bottles { count, each } => format!("{} x {} ml", grouped(count, 0), grouped(in_millilitres(each), 0)),
    })
}

/// What could not be given or was stretched, a line each.
fn remarks(notes: &[Diagnostic]) -> String {
    let told = |note: &&Diagnostic| note.code != Code::DoesNotApply;
    notes.iter().filter(told).map(|note| format!("- {}\n", note.title)).collect()
}
