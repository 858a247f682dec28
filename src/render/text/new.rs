//! What was made, and what to do with it.

use crate::report::new::NewReport;

/// The files, and a command to try.
pub(crate) fn new(report: &NewReport) -> String {
    let Some(view) = report.answer().filter(|view| !view.made.is_empty()) else { return String::new() };
    let card = &view.first_card;
    let card = if card.contains(char::is_whitespace) { format!("\"{card}\"") } else { card.clone() };
    format!("made {}\n\nnow try:  stillroom solve {card}\n", view.made.join(", "))
}
