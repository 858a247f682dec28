//! What to add to a batch, and where it lands.

use crate::card::TargetKind;
use crate::diagnostic::Diagnostic;
use crate::house::Instruments;
use crate::solver::adjust::Adjusted;
use crate::solver::balance::value_of;
use crate::solver::card::{target_words, volume_ml};
use crate::solver::weighing::{self, Weighing};
use crate::uncertainty::adjusted::Landing;
use crate::units::display::{grouped, volume_text};
use crate::units::millilitres;

use super::sheet::half_width;
use super::table;

/// The answer, one screen: the weighing is rounded to the house's scales, and what that gives is printed.
pub fn adjusted(a: &Adjusted, doubts: &[Landing], instruments: &Instruments, notes: &[Diagnostic]) -> String {
    let much = |ml: Option<f64>, g: f64| {
        let volume = ml.map_or_else(String::new, |ml| format!("{} = ", volume_text(millilitres(ml))));
        format!("{volume}{} g", grouped(g, 0))
    };
    let hows = weighing::ways_for_parts(&a.add, instruments);
    let mut out = format!("\n{} · in hand {}\n\n", a.name, much(volume_ml(&a.batch), a.batch.total_grams()));
    if a.add.is_empty() {
        out.push_str("  nothing to add: it is what it shall be\n");
    } else {
        let mut rows = vec![["add", "g", "ml at 20 °C"].map(str::to_owned).to_vec()];
        let (mut fine, mut by_stock, mut unsure) = (Vec::new(), Vec::new(), Vec::new());
        for (part, how) in a.add.iter().zip(&hows) {
            let step = how.step_g;
            let decimals = if step >= 1.0 { 0 } else { 1 + usize::from(step < 0.1) };
            let ml = part.volume_ml().map_or_else(|| "-".to_owned(), |ml| grouped(ml, usize::from(ml < 20.0)));
            rows.push(vec![part.label.clone(), grouped(how.rounded(part.mass_g), decimals), ml]);
            let label = part.label.as_str();
            match how.by {
                Weighing::Stock(stock) => by_stock.push((label, stock, how.rounded(part.mass_g), how.step_g)),
                _ if how.unsure => unsure.push(format!(
                    "{label} (it may be off by {} %)",
                    grouped(100.0 * how.half_width_g / part.mass_g, 0)
                )),
                Weighing::FineScale => fine.push(label),
                Weighing::Scale | Weighing::Stage => {}
            }
        }
        out.push_str(&table::columns(&rows));
        if !fine.is_empty() {
            out.push_str(&format!("  on the fine scale: {}\n", fine.join(", ")));
        }
        for (label, stock, grams, step_g) in by_stock {
            out.push_str(&super::sheet::by_stock(label, &stock, grams, step_g));
        }
        if !unsure.is_empty() {
            out.push_str(&format!("  too little for any scale here: {}\n", unsure.join(", ")));
        }
    }
    let mut weighed = a.clone();
    for (part, how) in weighed.add.iter_mut().zip(&hows) {
        part.mass_g = how.rounded(part.mass_g);
    }
    let after = weighed.after();
    out.push_str(&format!("\n  you will have {}", much(volume_ml(&after), after.total_grams())));
    out.push_str(&match (a.vessel_ml, a.share_that_fits()) {
        (None, _) => "\n\n".to_owned(),
        (Some(ml), None) => format!(": it fits {}\n\n", volume_text(millilitres(ml))),
        (Some(ml), Some(_)) => format!(": it does not fit {}\n\n", volume_text(millilitres(ml))),
    });
    let mut rows = vec![["", "in hand", "wanted", "then"].map(str::to_owned).to_vec()];
    for kind in [TargetKind::Brix, TargetKind::Abv, TargetKind::Sugar, TargetKind::Acid] {
        let (Some(has), Some(gives)) = (value_of(kind, &a.batch), value_of(kind, &after)) else { continue };
        let wanted = a.targets.iter().find(|(k, _)| *k == kind).map(|(_, value)| *value);
        // What is not in it and not wanted needs no line.
        if wanted.is_none() && has.max(gives) < 0.05 {
            continue;
        }
        let words = |value: f64| target_words(kind, value.max(0.0));
        let doubt = doubts.iter().find(|d| d.kind == kind);
        let with = |half: Option<f64>| {
            half.map_or_else(String::new, |half| format!(" ± {}", half_width(half, usize::from(half < 10.0))))
        };
        rows.push(vec![
            kind.key().to_owned(),
            words(has) + &with(doubt.map(|d| d.before)),
            wanted.map_or_else(|| "-".to_owned(), words),
            words(gives) + &with(doubt.map(|d| d.after)),
        ]);
    }
    out.push_str(&table::columns(&rows));
    if !doubts.is_empty() {
        out.push_str("  ± at 95 %, from the instruments; what nobody read is as the card has it\n");
    }
    out.push_str("  stir, read it again, and adjust again if it is still off\n");
    out.push_str(&notes.iter().map(|note| format!("- {}\n", note.title)).collect::<String>());
    out
}
