//! What to add to a batch, and where it lands.

use crate::report::adjust::{AdjustReport, AdjustView};
use crate::report::parts::AmountView;
use crate::solver::target::target_words;
use crate::solver::weighing::Weighing;
use crate::units::display::grouped;

use super::solve::{half_width, lines};
use super::{ml_text, table};

pub(crate) fn adjust(report: &AdjustReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.stops);
    out.push_str(&format!("\n{} · in hand {}\n\n", report.product(), much(&view.have)));
    out.push_str(&additions(view));
    out.push_str(&format!("\n  you will have {}", much(&view.as_weighed.yields)));
    let fits = view.vessel_ml.zip(view.fits).map_or_else(String::new, |(ml, fits)| {
        let does = if fits { "fits" } else { "does not fit" };
        format!(": it {does} {}", ml_text(ml))
    });
    out.push_str(&format!("{fits}\n\n"));
    out.push_str(&table::columns(&landings(view)));
    if !view.doubt.is_empty() {
        out.push_str("  ± at 95 %, from the instruments; what nobody read is as the card has it\n");
    }
    out.push_str("  stir, read it again, and adjust again if it is still off\n");
    out + &super::notes(report.findings())
}

fn much(amount: &AmountView) -> String {
    let volume = amount.volume_ml.map_or_else(String::new, |ml| format!("{} = ", ml_text(ml)));
    format!("{volume}{} g", grouped(amount.mass_g, 0))
}

fn additions(view: &AdjustView) -> String {
    if view.add.is_empty() {
        return "  nothing to add: it is what it shall be\n".to_owned();
    }
    let mut rows = vec![["add", "g", "ml at 20 °C"].map(str::to_owned).to_vec()];
    let (mut fine, mut by_stock, mut unsure) = (Vec::new(), String::new(), Vec::new());
    for line in &view.add {
        let ml = line.volume_ml.map_or_else(|| "-".to_owned(), |ml| grouped(ml, usize::from(ml < 20.0)));
        rows.push(vec![line.of.clone(), lines::grams(line.weighed_g, line.weigh.how.step_g), ml]);
        if let Some(stock) = &line.weigh.stock {
            by_stock.push_str(&lines::by_stock(&line.of, stock));
        } else if line.weigh.how.unsure {
            let off = grouped(line.weigh.off_pct(line.mass_g), 0);
            unsure.push(format!("{} (it may be off by {off} %)", line.of));
        } else if line.weigh.how.by == Weighing::FineScale {
            fine.push(line.of.as_str());
        }
    }
    let mut out = table::columns(&rows);
    if !fine.is_empty() {
        out.push_str(&format!("  on the fine scale: {}\n", fine.join(", ")));
    }
    out.push_str(&by_stock);
    if !unsure.is_empty() {
        out.push_str(&format!("  less than the scales here weigh truly: {}\n", unsure.join(", ")));
    }
    out
}

fn landings(view: &AdjustView) -> Vec<Vec<String>> {
    let mut rows = vec![["", "in hand", "wanted", "then"].map(str::to_owned).to_vec()];
    // What is not in it and not wanted needs no line.
    let told = view.as_weighed.landings.iter().filter(|l| l.wanted.is_some() || l.in_hand.max(l.then) >= 0.05);
    for line in told {
        let words = |value: f64| target_words(line.of, value.max(0.0));
        let doubt = view.doubt.iter().find(|d| d.kind == line.of);
        let with = |half: Option<f64>| {
            half.map_or_else(String::new, |half| format!(" ± {}", half_width(half, usize::from(half < 10.0))))
        };
        rows.push(vec![
            line.of.key().to_owned(),
            words(line.in_hand) + &with(doubt.map(|d| d.before)),
            line.wanted.map_or_else(|| "-".to_owned(), words),
            words(line.then) + &with(doubt.map(|d| d.after)),
        ]);
    }
    rows
}
