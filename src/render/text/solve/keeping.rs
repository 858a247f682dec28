//! The date where it is planned to be kept, and the cautions.

use crate::render::text::date;
use crate::report::caution::waiting;
use crate::report::solve::SolveView;
use crate::safety::Level;

use super::table;

/// The date where it is planned to be kept, and the cautions: a stop in full, a warning in its words, and so a note of which
/// a guest has to be told; other notes counted.
pub(super) fn keeping(view: &SolveView) -> String {
    let mut out = String::from("\nKeeping\n");
    if let Some(keeping) = &view.keeping {
        out.push_str(&table::wrapped("  ", &keeping.says));
        if let Some(rule) = &keeping.rule {
            out.push_str(&table::wrapped("  decided by ", rule));
        }
    }
    if let Some(read) = &view.readings {
        out.push_str(&table::wrapped("  ", read));
    }
    if let Some(words) = date::allergens(&view.allergens) {
        out.push_str(&table::wrapped("  ALLERGENS: ", &words));
    }
    let mut notes = 0;
    for caution in view.cautions.iter().filter(|c| c.is_said_in_full()) {
        match caution.severity {
            Level::Stop => out.push_str(&table::wrapped("  STOP  ", &caution.message)),
            Level::Warn => out.push_str(&table::wrapped("  warn  ", &caution.message)),
            Level::Note if caution.tell => out.push_str(&table::wrapped("  tell  ", &caution.message)),
            Level::Note => notes += 1,
        }
    }
    if notes > 0 {
        out.push_str(&format!("  and {notes} note{}\n", if notes == 1 { "" } else { "s" }));
    }
    for (asked, waits) in waiting(&view.cautions) {
        let many = waits.len();
        let wait = if many == 1 { "1 caution waits".to_owned() } else { format!("{many} cautions wait") };
        out.push_str(&table::wrapped("  state: ", &format!("{asked} ({wait} on it: stillroom date)")));
    }
    out.push_str(&table::wrapped("  ", "Every store, source and whom to ask: stillroom date, with this card."));
    out.push_str(&table::wrapped("  ", view.standing_note));
    out
}
