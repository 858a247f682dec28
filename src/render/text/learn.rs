//! What the lots say, and what of it can be taken.

use crate::input::quoted;
use crate::lots::losses::{HeldLoss, Pressing};
use crate::report::learn::{LearnReport, LessonView};
use crate::units::display::{grouped, short};

use super::table::wrapped;

pub(crate) fn learn(report: &LearnReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = match view.lessons.is_empty() {
        true => {
            "\nNo lot has been tasted or finished on a later day than it was made: nothing is learned of quality.\n"
                .to_owned()
        }
        false => "\nWhat the lots say of quality; no lot lifts a date of safety\n".to_owned(),
    };
    out.extend(view.lessons.iter().map(lesson));
    if !view.losses.is_empty() {
        out.push_str("\nWhat strained solids held, by what was weighed\n");
        out.extend(view.losses.iter().map(held));
    }
    if !view.pressed.is_empty() {
        out.push_str("\nWhat juice a fruit gave\n");
        out.extend(view.pressed.iter().map(pressing));
    }
    out
}

fn lesson(view: &LessonView) -> String {
    let lesson = &view.lesson;
    let days = |days: f64| grouped(days, usize::from(days < 10.0));
    let mut out =
        format!("{}, {}: {} lots, {} of them going or off\n", view.product, lesson.store, lesson.lots, lesson.refused);
    let said = format!(
        "1 in 10 goes by {} days (expected {}), half by {}",
        days(lesson.q10_days),
        days(lesson.expected_q10_days),
        days(lesson.q50_days)
    );
    out.push_str(&wrapped("  ", &said));
    let looked = format!("looked at and fine up to {} days: nothing is said beyond", days(lesson.oldest_fine_days));
    out.push_str(&wrapped("  ", &looked));
    if lesson.expected_rules {
        out.push_str(&wrapped("  ", "fewer than 3 went off: what was expected rules"));
    }
    for other in &lesson.elsewhere {
        let said = format!(
            "{} lots of the {} counted, a day there as {:.2} here ({:.0} kJ/mol, as the rules of date have it)",
            other.lots, other.store, other.day_counts, other.ea_kj_per_mol
        );
        out.push_str(&wrapped("  ", &said));
    }
    let now = view.days_now.map_or_else(|| "no date".to_owned(), |days| format!("{days} days"));
    out.push_str(&wrapped("  ", &format!("bears {} days; its date is {now}", lesson.offered_days)));
    match lesson.accepted_days {
        Some(days) => {
            out.push_str(&wrapped("  ", &format!("the house has taken {days} days of quality from its lots")))
        }
        None if lesson.offered_days > 0 => out.push_str(&wrapped(
            "  ",
            &format!("to take it: stillroom learn {} --in {} --accept", quoted(&view.product), quoted(&lesson.store)),
        )),
        None => {}
    }
    out
}

fn held(loss: &HeldLoss) -> String {
    let batches = |n: usize| if n == 1 { "1 batch".to_owned() } else { format!("{n} batches") };
    let by = loss.deviation.map_or_else(String::new, |by| format!(" ± {by:.1}"));
    let said = match loss.assumed_by {
        Some(by) => format!("the larder says {:.1} ± {by:.1}", loss.assumed),
        None => format!("the card or the house says {:.1}", loss.assumed),
    };
    let words = format!("your strainer holds {:.1}{by} g/g, {said} ({})", loss.holds, batches(loss.batches));
    format!("{}\n{}{}", loss.of, wrapped("  ", &words), offered(loss.entry.as_deref()))
}

fn pressing(of: &Pressing) -> String {
    let month = of.month.format("%B %Y");
    let words = format!("{month}: {:.0} g a fruit ({} fruits)", of.grams_a_piece, short(of.pieces));
    format!("{}{}", wrapped("  ", &format!("{}, {words}", of.of)), offered(of.entry.as_deref()))
}

/// An entry to copy; it is never written by itself.
fn offered(entry: Option<&str>) -> String {
    let Some(entry) = entry else { return String::new() };
    let lines: String = entry.lines().map(|line| format!("    {line}\n")).collect();
    format!("  for larder.toml, if you want it:\n{lines}")
}
