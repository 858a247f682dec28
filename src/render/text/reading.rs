//! What readings tell: ranges first, then what to do with them.

use crate::diagnostic::{Code, Diagnostic};
use crate::instruments::{Density, Kind, PhReading, Readings, Told};
use crate::units::display::{grouped, rounded_to_doubt, temperature_text};
use crate::units::{in_grams, in_grams_per_litre, in_kg_per_m3, in_millilitres};

use super::table;

/// The readings as they were understood, what they tell, and the remarks on it.
pub fn reading(read: &Readings, told: &Told, notes: &[Diagnostic]) -> String {
    let mut out = format!("\nread {}\n\n", understood(read));
    out.push_str(&table::pairs(&values(told)));
    out.push_str(&card_line(told));
    let (assumed, others): (Vec<_>, Vec<_>) = notes.iter().partition(|note| note.code == Code::Assumed);
    out.push('\n');
    for note in others {
        out.push_str(&format!("- {}{}\n", note.title, note.help.as_ref().map_or(String::new(), |h| format!(": {h}"))));
    }
    for note in assumed {
        out.push_str(&format!("- assumed: {}\n", note.title));
    }
    out.push_str("- the ranges hold 19 times in 20 if the instruments are as good as that\n");
    out
}

fn understood(read: &Readings) -> String {
    let mut parts = Vec::new();
    if let Some(shown) = read.refractometer {
        let atc = if read.compensated { " (ATC)" } else { "" };
        parts.push(format!("refractometer {} °Bx{atc}", shown.get()));
    }
    match read.density {
        None => {}
        Some(Density::SpecificGravity(sg)) => parts.push(format!("hydrometer SG {sg}")),
        Some(Density::Brix(brix)) => parts.push(format!("hydrometer {} °Bx", brix.get())),
        Some(Density::Baume(degrees)) => parts.push(format!("hydrometer {degrees} °Bé")),
        Some(Density::Alcohol(abv)) => parts.push(format!("alcoholometer {} % vol", abv.get())),
        Some(Density::Proof(proof)) => parts.push(format!("hydrometer {proof} US proof")),
        Some(Density::Weighed { mass, volume }) => {
            parts.push(format!("{} g in {} ml", grouped(in_grams(mass), 1), grouped(in_millilitres(volume), 1)))
        }
    }
    if let Some(abv) = read.abv {
        parts.push(format!("strength {} % vol", grouped(abv.get(), 1)));
    }
    match read.ph {
        None => {}
        Some(PhReading::Meter(ph)) => parts.push(format!("pH {ph}")),
        Some(PhReading::Diluted(ph)) => parts.push(format!("pH {ph} thinned 1:1")),
        Some(PhReading::Strip(ph)) => parts.push(format!("test strip pH {ph}")),
    }
    if let Some(t) = &read.titration {
        parts.push(format!(
            "titre {} ml of {} N on {} ml",
            grouped(in_millilitres(t.titre), 1),
            t.normality,
            grouped(in_millilitres(t.sample), 1)
        ));
    }
    format!("at {}: {}", temperature_text(read.temperature), parts.join(", "))
}

/// `29.2 to 30.8 % vol   (30.0 ± 0.8)`
fn range(value: f64, doubt: f64, unit: &str) -> String {
    let round = |x: f64| rounded_to_doubt(x.max(0.0), doubt);
    format!("{} to {} {unit}   ({} ± {})", round(value - doubt), round(value + doubt), round(value), round(doubt))
}

fn values(told: &Told) -> Vec<(String, String)> {
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, said: String| rows.push((name.to_owned(), said));
    if let Some(abv) = told.abv {
        say("alcohol", range(abv.value.get(), abv.error.get(), "% vol"));
    }
    if let Some(proof) = told.proof {
        say("", format!("{} US proof", grouped(proof, 1)));
    }
    if let Some(brix) = told.brix {
        say("Brix", range(brix.value.get(), brix.error.get(), "°Bx"));
    }
    if let Some(invert) = told.brix_if_invert {
        say("", format!("{} if all of the sugar is invert sugar", grouped(invert.get(), 1)));
    }
    if let Some(sugar) = told.sugar {
        say("sugar", range(in_grams_per_litre(sugar.value), in_grams_per_litre(sugar.error), "g/L at 20 °C"));
    }
    if let Some(rho) = told.density {
        say("density", range(in_kg_per_m3(rho.value), in_kg_per_m3(rho.error), "kg/m³ at 20 °C"));
    }
    if let Some(ph) = told.ph {
        let limit = if ph.clears_limits {
            format!("hold {} against a limit", grouped(ph.high.get(), 2))
        } else {
            "clears no limit".to_owned()
        };
        say("pH", format!("{} to {}   ({limit})", grouped(ph.low.get(), 2), grouped(ph.high.get(), 2)));
    }
    if let Some(acid) = &told.acid {
        let g_l =
            |e: crate::mixture::Estimate<_>| range(in_grams_per_litre(e.value), in_grams_per_litre(e.error), "g/L");
        say("acid", format!("{} as citric, to pH {}", g_l(acid.as_citric), acid.endpoint.get()));
        if acid.named.name != "citric" {
            say("", format!("{} as {}", g_l(acid.as_named), acid.named.name));
        }
    }
    rows
}

/// What a card takes over. A strength read like this is not for a card, nor is a strip.
fn card_line(told: &Told) -> String {
    let mut keys = Vec::new();
    if let Some(brix) = told.brix.filter(|_| told.kind == Some(Kind::Syrup)) {
        keys.push(format!("brix = {}", rounded_to_doubt(brix.value.get(), brix.error.get())));
    }
    if let Some(ph) = told.ph.filter(|ph| ph.clears_limits) {
        keys.push(format!("ph = {}", grouped(ph.value.get(), 2)));
    }
    if let Some(acid) = &told.acid {
        keys.push(format!("acid = \"{} g/L\"", grouped(in_grams_per_litre(acid.as_citric.value), 1)));
    }
    if keys.is_empty() { String::new() } else { format!("\n  on the card, under [measured]:  {}\n", keys.join(",  ")) }
}
