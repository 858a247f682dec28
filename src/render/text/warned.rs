//! The cautions of a page that is not the full one, a line each.

use crate::report::caution::{CautionView, asked_for};
use crate::safety::Level;

use super::table::wrapped;

/// Every warning, every note of which a guest has to be told, and everything that is not stated, a line each.
pub(super) fn warnings(cautions: &[CautionView]) -> String {
    let mut out: String = briefs(cautions).iter().map(|(sign, brief)| wrapped(&format!("  {sign} "), brief)).collect();
    out.extend(asked_for(cautions).map(|asked| wrapped("  ? ", &asked)));
    out
}

/// What cautions that are certain say in a line, each once with its sign: of every part that brings it it is the same.
pub(in crate::render) fn briefs(cautions: &[CautionView]) -> Vec<(char, &'static str)> {
    let mut said: Vec<(char, &str)> = Vec::new();
    for caution in cautions.iter().filter(|c| c.is_told_in_a_line()) {
        if said.iter().all(|(_, brief)| *brief != caution.brief) {
            said.push((if caution.severity < Level::Note { '!' } else { '-' }, caution.brief));
        }
    }
    said
}
