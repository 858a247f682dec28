//! The cautions of a page that is not the full one, a line each.

use crate::report::caution::{CautionView, waiting};
use crate::safety::Level;

use super::table::wrapped;

/// Every warning, every note of which a guest has to be told, and everything that is not stated, a line each.
pub(super) fn warnings(cautions: &[CautionView]) -> String {
    let told = |c: &&CautionView| c.is_certain() && !c.stops() && (c.severity < Level::Note || c.tell);
    let mut out = String::new();
    let mut said = Vec::new();
    for caution in cautions.iter().filter(told) {
        // of every part that brings it the same line
        if said.contains(&caution.brief) {
            continue;
        }
        said.push(caution.brief);
        let mark = if caution.severity < Level::Note { "!" } else { "-" };
        out.push_str(&wrapped(&format!("  {mark} "), caution.brief));
    }
    for (asked, waits) in waiting(cautions) {
        let brief: Vec<&str> = waits.iter().map(|c| c.brief).collect();
        out.push_str(&wrapped("  ? ", &format!("{asked} ({})", brief.join("; "))));
    }
    let in_doubt = cautions.iter().filter(|c| c.severity == Level::Stop && !c.stops());
    out.extend(in_doubt.map(|c| wrapped("  STOP? ", &c.message)));
    out
}
