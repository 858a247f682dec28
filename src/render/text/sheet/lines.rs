//! The lines to weigh, stage by stage.

use crate::quantity::display::grouped;
use crate::sheet::{Line, StageSheet, Weighing};

use super::table;

pub(super) fn stage_text(stage: &StageSheet) -> String {
    let mut out = String::new();
    if let Some(name) = &stage.name {
        out.push_str(&format!("  {name}{}\n", stage.takes.as_ref().map_or_else(String::new, |t| format!(" · {t}"))));
    }
    let any_ml = stage.lines.iter().any(|l| l.ml.is_some());
    let mut head = vec!["add".to_owned(), "g".to_owned()];
    if any_ml {
        head.push("ml at 20 °C".to_owned());
    }
    head.push("scale reads".to_owned());
    let mut rows = vec![head];
    for line in &stage.lines {
        let mut row = vec![line.label.clone(), grouped(line.grams, decimals(line.step_g))];
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

fn reads(line: &Line) -> String {
    match line.weighing {
        Weighing::FineScale => "fine scale".to_owned(),
        Weighing::Stock(_) => "by stock, below".to_owned(),
        Weighing::TooLittle => "too little, below".to_owned(),
        Weighing::Scale | Weighing::Stage if line.tare_again => {
            format!("tare, {}", grouped(line.reads_g, decimals(line.step_g)))
        }
        Weighing::Scale | Weighing::Stage => grouped(line.reads_g, decimals(line.step_g)),
    }
}

fn weighing_note(line: &Line) -> String {
    match line.weighing {
        Weighing::Stock(dilution) => {
            let dose = line.grams * dilution;
            let step = line.step_g * dilution;
            format!(
                "  {}: dissolve 10 g in {} g water, weigh {} g of that, and take {} g less water\n",
                line.label,
                grouped(10.0 * (dilution - 1.0), 0),
                grouped(dose, decimals(step)),
                grouped(dose - line.grams, decimals(step)),
            )
        }
        Weighing::TooLittle => {
            format!(
                "  {}: too little for this scale to weigh truly; make a larger batch, or use a finer scale\n",
                line.label
            )
        }
        Weighing::Scale | Weighing::FineScale | Weighing::Stage => String::new(),
    }
}

fn decimals(step_g: f64) -> usize {
    match step_g {
        s if s >= 1.0 => 0,
        s if s >= 0.1 => 1,
        s if s >= 0.01 => 2,
        _ => 3,
    }
}
