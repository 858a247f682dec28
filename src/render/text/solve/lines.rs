//! The lines to weigh, stage by stage.

use crate::report::solve::bench::{Dose, Fills, Pieces};
use crate::report::solve::stage::{FinishView, HeatedView, SheetLine, StageView};
use crate::report::weigh::StockView;
use crate::solver::weighing::Weighing;
use crate::units::celsius;
use crate::units::display::{grouped, short, temperature_text};

use crate::render::text::table;

pub(super) fn stage_text(stage: &StageView) -> String {
    let mut out = String::new();
    if let Some(name) = &stage.stage {
        out.push_str(&format!("  {name}{}\n", stage.takes.as_ref().map_or_else(String::new, |t| format!(" · {t}"))));
    }
    if stage.nothing_needed {
        out.push_str("  nothing of it is needed for this batch: do not make it\n");
        return out;
    }
    let any_ml = stage.lines.iter().any(|l| l.volume_ml.is_some());
    let mut head = vec!["add".to_owned(), "g".to_owned()];
    if any_ml {
        head.push("ml at 20 °C".to_owned());
    }
    head.push("scale reads".to_owned());
    let mut rows = vec![head];
    for line in &stage.lines {
        let mut row = vec![named(line), poured(line)];
        if any_ml {
            row.push(line.poured_ml().map_or_else(|| "-".to_owned(), |v| grouped(v, usize::from(v < 20.0))));
        }
        row.push(reads(line, false));
        rows.push(row);
    }
    out.push_str(&table::columns(&rows));
    for line in &stage.lines {
        out.push_str(&weighing_note(line));
    }
    if let Some(heated) = stage.heated {
        out.push_str(&format!("  heat to {}\n", heated_words(heated)));
    }
    if let Some(finish) = &stage.finish {
        out.push_str(&finish_words(finish));
    }
    if let Some(strained) = &stage.strained {
        let alcohol = if strained.alcohol_ml >= 0.05 {
            format!(", {} ml pure alcohol in it", grouped(strained.alcohol_ml, 1))
        } else {
            String::new()
        };
        let (wet, liquid) = (grouped(strained.wet_g, 0), grouped(strained.liquid_g, 0));
        let said = format!("strain: the wet solids weigh about {wet} g ({liquid} g of it liquid{alcohol})");
        out.push_str(&table::wrapped("  ", &said));
    }
    if let Some(flash) = stage.flash_point_c.filter(|_| stage.stage.is_some()) {
        out.push_str(&format!("  flash point about {} °C: no flame near this jar\n", grouped(flash, 0)));
    }
    if stage.stage.is_some() {
        out.push_str(&format!("  gives {} g\n", grouped(stage.gives_g, 0)));
    }
    out
}

pub(in crate::render) fn heated_words(heated: HeatedView) -> String {
    let hold = heated.hold_min.map_or_else(String::new, |minutes| format!(" for {minutes:.0} min"));
    let to = temperature_text(celsius(heated.to_c));
    match heated.bubbles {
        Some(bubbles) => format!("a {bubbles}{hold}, counted as {to}"),
        None => to + &hold,
    }
}

/// Acid beside a juice goes in by taste.
pub(super) fn dosing(doses: &[Dose]) -> String {
    dosing_words(doses).iter().map(|said| table::wrapped("  ", said)).collect()
}

/// The same, a sentence each.
pub(super) fn dosing_words(doses: &[Dose]) -> Vec<String> {
    let listed = |of: &dyn Fn(&Dose) -> Option<f64>| -> Option<String> {
        let each: Option<Vec<_>> = doses.iter().map(|d| Some(format!("{} {} g", d.of, grouped(of(d)?, 1)))).collect();
        each.filter(|each| !each.is_empty()).map(|each| each.join(", "))
    };
    let Some(first) = listed(&|d| Some(d.first_g)) else { return Vec::new() };
    let dose = format!("dose 90 % of the acid ({first}), taste, then finish (common practice, no source)");
    let each = listed(&|d| d.g_per_litre_of_juice);
    let each = each.map(|each| format!("a litre of the juice takes {each}; the volume that this adds is counted"));
    [dose].into_iter().chain(each).collect()
}

/// The same for a pinned-up sheet.
pub(in crate::render) fn finish_brief(finish: &FinishView) -> String {
    let net = grouped(finish.in_pan_g, 0);
    match finish.dries {
        true => format!("dry until {net} g net are left"),
        false => format!("finish at {net} g net in the pan: lighter, top up with hot water; heavier, cook on"),
    }
}

/// From this share of a bottle on what is left over is worth a word; a batch that differs by less from what was asked for
/// is that batch (ours).
pub(super) const LEFT: f64 = 0.02;

/// "100 pieces of about 0.6 g".
pub(super) fn pieces_words(pieces: Pieces) -> String {
    format!("{} pieces of about {} g", short(pieces.count), short(pieces.each_g))
}

/// Grams of an inner card: a few dashes of it are not nothing.
pub(super) fn needed(grams: f64) -> String {
    if grams < 10.0 { short(grams) } else { grouped(grams, 0) }
}

/// How many bottles are full, and what is left.
pub(in crate::render) fn fill_words(fills: &Fills) -> String {
    let [full, g, ml] = [fills.full, fills.each_g, fills.each_ml].map(|number| grouped(number, 0));
    let left = grouped(fills.left_ml, 0);
    let rest = match fills.full < fills.count {
        true => format!("{left} ml are left for the next of the {} asked for", grouped(fills.count, 0)),
        false if fills.left_ml > LEFT * fills.each_ml => format!("{left} ml are left over"),
        false => "the last one is full".to_owned(),
    };
    format!("fill {full} bottles with {g} g each ({ml} ml at 20 °C); {rest}")
}

fn finish_words(finish: &FinishView) -> String {
    let share = grouped(100.0 * finish.evaporated_share, usize::from(finish.evaporated_share > 0.95));
    let up = format!("{} g, {share} % of the water,", grouped(finish.evaporated_g, 0));
    let net = grouped(finish.in_pan_g, 0);
    if finish.dries {
        return table::wrapped(
            "  ",
            &format!("dry until what is left weighs {net} g net ({up} goes up); heavier: dry on"),
        );
    }
    let said = "goes up); lighter: top up with hot water; heavier: cook on";
    table::wrapped("  ", &format!("finish on the scale: {net} g net in the pan ({up} {said}"))
}

/// What the scale reads, or how the line is weighed in place of that; briefly for a narrow column.
pub(super) fn reads(line: &SheetLine, brief: bool) -> String {
    let reading = grams(line.reads_g, line.weigh.how.step_g);
    let said = |short: &str, long: &str| if brief { short.to_owned() } else { long.to_owned() };
    match (line.weigh.how.by, line.goes) {
        (Weighing::Stock(_), _) => said("stock", "as a stock, below"),
        (_, Some(goes)) => format!("{}{} goes", said("", "in "), goes.count),
        (Weighing::ByHand, _) => "by hand".to_owned(),
        (Weighing::Melts, _) => "melts".to_owned(),
        (Weighing::FineScale, _) => said("fine", "fine scale"),
        (Weighing::Scale | Weighing::Stage, None) if line.tare_again => format!("tare, {reading}"),
        (Weighing::Scale | Weighing::Stage, None) => reading,
    }
}

/// What the line cannot say in its row: the stock, the goes, or that no scale here weighs it truly.
pub(super) fn weighing_note(line: &SheetLine) -> String {
    notes_of(line).iter().map(|said| table::wrapped("  ", said)).collect()
}

/// The same, a sentence each.
pub(in crate::render) fn notes_of(line: &SheetLine) -> Vec<String> {
    let name = &line.of;
    let g = |mass_g| grams(mass_g, line.weigh.how.step_g);
    let less = |stock: &StockView| {
        format!("its water, {} g, is left out of the other", grams(stock.less_water_g, stock.step_g))
    };
    let stock = line.weigh.stock.iter();
    let mut said: Vec<String> = stock.map(|stock| format!("{}; {}", stock_words(name, stock), less(stock))).collect();
    if let Some(goes) = line.goes {
        let each = if goes.each_g == goes.last_g {
            format!("{} × {} g", goes.count, g(goes.each_g))
        } else {
            let but_last = if goes.count == 2 { String::new() } else { format!("{} × ", goes.count - 1) };
            format!("{but_last}{} g and {} g", g(goes.each_g), g(goes.last_g))
        };
        let count = goes.count;
        said.push(format!(
            "{name}: more than the scale carries, in {count} goes: {each}, the scale back at 0 before each"
        ));
    }
    if line.weigh.how.unsure {
        let off = line.weigh.off_pct(line.mass_g);
        let off = grouped(off, usize::from(off < 10.0));
        said.push(format!(
            "{name}: weigh {} g directly; on this scale it may be off by {off} %: make a larger batch, or borrow a finer scale",
            short(line.mass_g)
        ));
    }
    said
}

pub(in crate::render::text) fn stock_words(name: &str, stock: &StockView) -> String {
    let g = |mass_g| grams(mass_g, stock.step_g);
    format!(
        "{name}: dissolve {} g in {} g water, weigh {} g of that",
        g(stock.dissolve_g),
        g(stock.in_water_g),
        g(stock.take_g),
    )
}

/// What goes in, by its count where it is counted; nobody may take the grams of a stock for grams of what is in it.
pub(super) fn named(line: &SheetLine) -> String {
    match (line.weigh.stock, &line.by_hand) {
        (Some(_), _) => format!("stock of {}", line.of),
        (None, Some(counted)) => counted.clone(),
        (None, None) => line.of.clone(),
    }
}

/// What goes in, as the scale shows it: of a stock what is weighed of that. What the scale shows as another weight, or as nothing, is
/// told as it is.
pub(in crate::render) fn poured(line: &SheetLine) -> String {
    if line.weigh.how.unsure {
        return short(line.mass_g);
    }
    grams(line.poured_g, line.weigh.stock.map_or(line.weigh.how.step_g, |stock| stock.step_g))
}

/// Grams as a scale of this step shows them.
pub(in crate::render) fn grams(mass_g: f64, step_g: f64) -> String {
    let decimals = match step_g {
        s if s >= 1.0 => 0,
        s if s >= 0.1 => 1,
        s if s >= 0.01 => 2,
        _ => 3,
    };
    grouped(mass_g, decimals)
}
