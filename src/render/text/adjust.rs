//! What to add to a batch, and where it lands.

use crate::card::TargetRange;
use crate::diagnostic::Span;
use crate::report::adjust::{AdjustLine, AdjustReport, AdjustView};
use crate::report::parts::AmountView;
use crate::solver::range_words;
use crate::solver::target::target_words;
use crate::solver::weighing::Weighing;
use crate::units::display::grouped;

use super::solve::{half_width, lines};
use super::{ml_text, table};

pub(crate) fn adjust(report: &AdjustReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = super::stops(&view.stops);
    out.push_str(&format!("\n{} · in hand {}\n\n", report.product(), much(&view.have)));
    let (rows, notes) = additions(view);
    out.push_str(&table::columns(&rows));
    out.extend(notes.iter().map(|said| table::wrapped("  ", said)));
    let [have, doubt, again] = said_after(view);
    out.push_str(&format!("\n  {have}\n\n"));
    out.push_str(&table::columns(&landings(view)));
    out.extend([doubt, again].iter().filter(|said| !said.is_empty()).map(|said| format!("  {said}\n")));
    out + &super::notes(report.findings())
}

/// What there is then and whether it fits, how sure that is, and what to do next.
pub(in crate::render) fn said_after(view: &AdjustView) -> [String; 3] {
    let fits = view.vessel_ml.zip(view.fits).map_or_else(String::new, |(ml, fits)| {
        let does = if fits { "fits" } else { "does not fit" };
        format!(": it {does} {}", ml_text(ml))
    });
    let doubt = "± at 95 %, from the instruments; what nobody read is as the card has it";
    [
        format!("you will have {}{fits}", much(&view.as_weighed.yields)),
        if view.doubt.is_empty() { String::new() } else { doubt.to_owned() },
        "stir, read it again, and adjust again if it is still off".to_owned(),
    ]
}

fn much(amount: &AmountView) -> String {
    let volume = amount.volume_ml.map_or_else(String::new, |ml| format!("{} = ", ml_text(ml)));
    format!("{volume}{} g", grouped(amount.mass_g, 0))
}

/// The lines to weigh, the head first, and what they cannot say in their rows.
pub(in crate::render) fn additions(view: &AdjustView) -> (Vec<Vec<String>>, Vec<String>) {
    if view.add.is_empty() {
        return (Vec::new(), vec!["nothing to add: it is what it shall be".to_owned()]);
    }
    let mut rows = vec![["add", "g", "ml at 20 °C"].map(str::to_owned).to_vec()];
    let (mut fine, mut by_stock, mut unsure) = (Vec::new(), Vec::new(), Vec::new());
    for line in &view.add {
        let ml = line.volume_ml.map_or_else(|| "-".to_owned(), |ml| grouped(ml, usize::from(ml < 20.0)));
        rows.push(vec![line.of.clone(), lines::grams(line.weighed_g, line.weigh.how.step_g), ml]);
        if let Some(stock) = &line.weigh.stock {
            by_stock.push(format!(
                "{}, and take {} g less water",
                lines::stock_words(&line.of, stock),
                lines::grams(stock.less_water_g, stock.step_g)
            ));
        } else if line.weigh.how.unsure {
            let off = grouped(line.weigh.off_pct(line.mass_g), 0);
            unsure.push(format!("{} (it may be off by {off} %)", line.of));
        } else if line.weigh.how.by == Weighing::FineScale {
            fine.push(line.of.as_str());
        }
    }
    let fine = (!fine.is_empty()).then(|| format!("on the fine scale: {}", fine.join(", ")));
    let unsure = (!unsure.is_empty()).then(|| format!("less than the scales here weigh truly: {}", unsure.join(", ")));
    (rows, fine.into_iter().chain(by_stock).chain(unsure).collect())
}

/// A range that it lies in, and that is as good as any number in it.
fn within(line: &AdjustLine) -> Option<String> {
    let [least, most] = line.wanted_within?;
    let range = TargetRange { kind: line.of, least, most, span: Span::default() };
    Some(range_words(&range))
}

pub(in crate::render) fn landings(view: &AdjustView) -> Vec<Vec<String>> {
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
            line.wanted.map(words).or_else(|| within(line)).unwrap_or_else(|| "-".to_owned()),
            words(line.then) + &with(doubt.map(|d| d.after)),
        ]);
    }
    rows
}
