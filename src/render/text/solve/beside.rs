//! What a house of US or imperial measures reads beside grams, millilitres and degrees Celsius.

use crate::render::text::page::HANG;
use crate::report::solve::stage::SheetLine;
use crate::units::display::{grouped, short};
use crate::units::measures::measure;
use crate::vocabulary::MeasureSystem;

/// The fluid ounce of such a house; none in a metric one.
fn fluid_ounce(system: MeasureSystem) -> Option<&'static str> {
    match system {
        MeasureSystem::Us => Some("us fl oz"),
        MeasureSystem::Imperial => Some("imp fl oz"),
        MeasureSystem::Metric => None,
    }
}

/// "16.9 fl oz".
pub(super) fn ounces_of(ml: f64, system: MeasureSystem) -> Option<String> {
    let ounce = measure(fluid_ounce(system)?)?;
    Some(format!("{} fl oz", ounces(ml / ounce.factor)))
}

/// What is poured in fluid ounces, what is weighed in ounces by weight.
pub(super) fn line(line: &SheetLine, system: MeasureSystem) -> Option<String> {
    /// Less than this is weighed in grams alone (ours); what is counted or spooned says so itself.
    const LEAST_G: f64 = 1.0;
    fluid_ounce(system)?;
    match line.poured_ml().filter(|_| !line.by_label) {
        _ if line.mass_g < LEAST_G || line.by_hand.is_some() => Some("-".to_owned()),
        Some(ml) => ounces_of(ml, system),
        None => Some(format!("{} oz wt", ounces(line.poured_g / measure("oz wt")?.factor))),
    }
}

/// No jigger and no jug shows less than a hundredth.
fn ounces(count: f64) -> String {
    short((count * 100.0).round() / 100.0)
}

/// The same under a heading that says ounces: "16.9 fl", "14.1 wt".
pub(super) fn short_ounces(cell: &str) -> String {
    cell.replace("fl oz", "fl").replace("oz wt", "wt")
}

/// The text with "(185 °F)" behind each "85 °C" of its paragraphs, where a house reads so; tables stay as they are.
pub(super) fn with_fahrenheit(text: &str, system: Option<MeasureSystem>) -> String {
    if system != Some(MeasureSystem::Us) {
        return text.to_owned();
    }
    let lines = text.split_inclusive('\n');
    lines.map(|line| if line.contains(HANG) { in_a_paragraph(line) } else { line.to_owned() }).collect()
}

fn in_a_paragraph(line: &str) -> String {
    const UNIT: &str = " °C";
    let mut out = String::with_capacity(line.len());
    let mut rest = line;
    while let Some(at) = rest.find(UNIT) {
        let (before, behind) = rest.split_at(at + UNIT.len());
        out.push_str(before);
        let number = before.trim_end_matches(UNIT).rsplit([' ', '(', HANG]).next().unwrap_or_default();
        if let Ok(c) = number.replace('−', "-").parse::<f64>()
            && !behind.contains("°F")
        {
            let f = 1.8 * c + 32.0;
            let f = grouped(f, 0);
            out.push_str(&if behind.starts_with(')') { format!(", {f} °F") } else { format!(" ({f} °F)") });
        }
        rest = behind;
    }
    out + rest
}
