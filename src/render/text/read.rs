//! What readings tell: ranges first, then what to do with them.

use crate::diagnostic::{Code, Severity};
use crate::instruments::LiquidKind;
use crate::report::read::{ReadReport, ReadView};
use crate::units::celsius;
use crate::units::display::{grouped, rounded_to_uncertainty, temperature_text};

use super::table;

pub(crate) fn read(report: &ReadReport) -> String {
    let Some(told) = report.answer().filter(|told| told.tells()) else { return String::new() };
    let at = temperature_text(celsius(told.temperature_c));
    let mut out = format!("\nread at {at}: {}\n\n", told.read.join(", "));
    out.push_str(&table::pairs(&values(told)));
    out.push_str(&card_line(told));
    let notes = report.findings().iter().filter(|f| f.severity == Severity::Note);
    let (assumed, others): (Vec<_>, Vec<_>) = notes.partition(|note| note.code == Code::Assumed);
    out.push('\n');
    for note in others {
        let help = note.help.as_ref().map_or(String::new(), |h| format!(": {h}"));
        out.push_str(&format!("- {}{help}\n", note.message));
    }
    for note in assumed {
        out.push_str(&format!("- assumed: {}\n", note.message));
    }
    out.push_str("- the ranges hold 19 times in 20 if the instruments are as good as that\n");
    out
}

/// `29.2 to 30.8 % vol   (30.0 ± 0.8)`
fn range(value: f64, uncertainty: f64, unit: &str) -> String {
    let round = |x: f64| rounded_to_uncertainty(x.max(0.0), uncertainty);
    format!(
        "{} to {} {unit}   ({} ± {})",
        round(value - uncertainty),
        round(value + uncertainty),
        round(value),
        round(uncertainty)
    )
}

fn values(told: &ReadView) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, said: Option<String>| rows.extend(said.map(|said| (name.to_owned(), said)));
    let ranged = |value: Option<f64>, uncertainty: Option<f64>, unit: &str| {
        value.zip(uncertainty).map(|(value, uncertainty)| range(value, uncertainty, unit))
    };
    let uncertainty = &told.doubt;
    say("alcohol", ranged(told.abv_pct, uncertainty.abv_pct, "% vol"));
    say("", told.proof_us.map(|proof| format!("{} US proof", grouped(proof, 1))));
    say("Brix", ranged(told.brix, uncertainty.brix, "°Bx"));
    say("", told.brix_if_invert.map(|brix| format!("{} if all of the sugar is invert sugar", grouped(brix, 1))));
    say("sugar", ranged(told.sugar_g_l, uncertainty.sugar_g_l, "g/L at 20 °C"));
    say("density", ranged(told.density_kg_m3, uncertainty.density_kg_m3, "kg/m³ at 20 °C"));
    if let (Some(low), Some(high), Some(clears)) = (told.ph_low, told.ph_high, told.ph_clears_limits) {
        let limit =
            if clears { format!("hold {} against a limit", grouped(high, 2)) } else { "clears no limit".to_owned() };
        say("pH", Some(format!("{} to {}   ({limit})", grouped(low, 2), grouped(high, 2))));
    }
    if let Some(acid) = &told.acid_as {
        let as_citric = ranged(told.acid_g_l, uncertainty.acid_g_l, "g/L");
        say("acid", as_citric.map(|range| format!("{range} as citric, to pH {}", acid.endpoint_ph)));
        let other =
            (acid.acid != "citric").then(|| format!("{} as {}", range(acid.g_l, acid.doubt_g_l, "g/L"), acid.acid));
        say("", other);
    }
    rows
}

/// What a card takes over. A strength read like this is not for a card, nor is a strip.
fn card_line(told: &ReadView) -> String {
    let mut keys = Vec::new();
    if let (Some(brix), Some(uncertainty), Some(LiquidKind::Syrup)) = (told.brix, told.doubt.brix, told.of) {
        keys.push(format!("brix = {}", rounded_to_uncertainty(brix, uncertainty)));
    }
    if let (Some(ph), Some(true)) = (told.ph, told.ph_clears_limits) {
        keys.push(format!("ph = {}", grouped(ph, 2)));
    }
    if let Some(acid) = told.acid_g_l {
        keys.push(format!("acid = \"{} g/L\"", grouped(acid, 1)));
    }
    if keys.is_empty() { String::new() } else { format!("\n  on the card, under [measured]:  {}\n", keys.join(",  ")) }
}
