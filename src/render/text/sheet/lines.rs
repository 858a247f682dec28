//! The lines to weigh, stage by stage.

use crate::sheet::{StageSheet, Stock, WeighLine, Weighing};
use crate::units::display::grouped;

use super::table;

pub(super) fn stage_text(stage: &StageSheet) -> String {
    let mut out = String::new();
    if let Some(name) = &stage.name {
        out.push_str(&format!("  {name}{}\n", stage.takes.as_ref().map_or_else(String::new, |t| format!(" · {t}"))));
    }
    if stage.nothing_needed {
        out.push_str("  nothing of it is needed for this batch: do not make it\n");
        return out;
    }
    let any_ml = stage.lines.iter().any(|l| l.ml.is_some());
    let mut head = vec!["add".to_owned(), "g".to_owned()];
    if any_ml {
        head.push("ml at 20 °C".to_owned());
    }
    head.push("scale reads".to_owned());
    let mut rows = vec![head];
    for line in &stage.lines {
        let mut row = vec![line.label.clone(), grouped(line.grams, decimals(line.how.step_g))];
        if any_ml {
            row.push(line.ml.map_or_else(|| "-".to_owned(), |v| grouped(v, usize::from(v < 20.0))));
        }
        row.push(reads(line));
        rows.push(row);
    }
    out.push_str(&table::columns(&rows));
    for line in &stage.lines {
        out.push_str(&weighing_note(line));
    }
    if let Some(heated) = &stage.heated {
        out.push_str(&format!("  heat to {heated}\n"));
    }
    if let Some(finish) = stage.finish_g {
        let finish = grouped(finish, 0);
        let share = grouped(100.0 * stage.evaporated_share, usize::from(stage.evaporated_share > 0.95));
        let up = format!("{} g, {share} % of the water,", grouped(stage.evaporated_g, 0));
        out.push_str(&if stage.dries {
            format!("  dry until what is left weighs {finish} g net ({up} goes up); heavier: dry on\n")
        } else {
            format!(
                "  finish on the scale: {finish} g net in the pan ({up} goes up); \
                 lighter: top up with hot water; heavier: cook on\n"
            )
        });
    }
    if let Some(strained) = &stage.strained {
        let alcohol = if strained.alcohol_ml >= 0.05 {
            format!(", {} ml pure alcohol in it", grouped(strained.alcohol_ml, 1))
        } else {
            String::new()
        };
        out.push_str(&format!(
            "  strain: the wet solids weigh about {} g ({} g of it liquid{alcohol})\n",
            grouped(strained.wet_g, 0),
            grouped(strained.liquid_g, 0),
        ));
    }
    if let Some(flash) = stage.flash_point_c.filter(|_| stage.name.is_some()) {
        out.push_str(&format!("  flash point about {} °C: no flame near this jar\n", grouped(flash, 0)));
    }
    if stage.name.is_some() {
        out.push_str(&format!("  gives {} g\n", grouped(stage.out_g, 0)));
    }
    out
}

fn reads(line: &WeighLine) -> String {
    let g = |grams| grouped(grams, decimals(line.how.step_g));
    match (line.how.by, line.goes) {
        (Weighing::Stock(_), _) => "by stock, below".to_owned(),
        (_, Some(goes)) => format!("in {} goes", goes.count),
        (Weighing::FineScale, _) => "fine scale".to_owned(),
        (Weighing::Scale | Weighing::Stage, None) if line.tare_again => format!("tare, {}", g(line.reads_g)),
        (Weighing::Scale | Weighing::Stage, None) => g(line.reads_g),
    }
}

/// What the line cannot say in its row: the stock, the goes, or that no scale here weighs it truly.
fn weighing_note(line: &WeighLine) -> String {
    let how = &line.how;
    let label = &line.label;
    let g = |grams| grouped(grams, decimals(how.step_g));
    let mut out = String::new();
    if let Weighing::Stock(stock) = how.by {
        out.push_str(&by_stock(label, &stock, line.grams, how.step_g));
    }
    if let Some(goes) = line.goes {
        let each = if goes.each_g == goes.last_g {
            format!("{} × {} g", goes.count, g(goes.each_g))
        } else {
            let but_last = if goes.count == 2 { String::new() } else { format!("{} × ", goes.count - 1) };
            format!("{but_last}{} g and {} g", g(goes.each_g), g(goes.last_g))
        };
        out.push_str(&table::wrapped(
            "  ",
            &format!(
                "{label}: more than the scale carries, in {} goes: {each}, the scale back at 0 before each",
                goes.count
            ),
        ));
    }
    if how.unsure {
        let off = 100.0 * how.half_width_g / line.grams;
        out.push_str(&table::wrapped(
            "  ",
            &format!(
                "{label}: weigh it directly; on this scale it may be off by {} %: make a larger batch, or borrow a finer scale",
                grouped(off, usize::from(off < 10.0)),
            ),
        ));
    }
    out
}

/// How a dose is weighed by a stock solution.
pub(in crate::render::text) fn by_stock(label: &str, stock: &Stock, dose_g: f64, step_g: f64) -> String {
    let g = |grams: f64| grouped(grams, decimals(step_g * stock.one_in));
    let said = format!(
        "{label}: dissolve {} g in {} g water, weigh {} g of that, and take {} g less water",
        g(stock.dissolve_g),
        g(stock.in_water_g()),
        g(stock.take_g(dose_g)),
        g(stock.brings_g(dose_g)),
    );
    table::wrapped("  ", &said)
}

fn decimals(step_g: f64) -> usize {
    match step_g {
        s if s >= 1.0 => 0,
        s if s >= 0.1 => 1,
        s if s >= 0.01 => 2,
        _ => 3,
    }
}
