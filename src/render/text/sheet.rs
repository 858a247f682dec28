//! The weigh sheet.

use crate::diagnostic::Diagnostic;
use crate::doubt;
use crate::formula::{Makes, TargetKind};
use crate::quantity::display::{grouped, volume_text};
use crate::quantity::{in_grams, in_millilitres, millilitres};
use crate::safety::label::CHECK_LOCALLY;
use crate::safety::{Level, STANDING_NOTE};
use crate::sheet::dosing::{Dose, FIRST};
use crate::sheet::label_grade::Standing;
use crate::sheet::{Line, Sheet, StageSheet, Weighing};

use super::{maybe, table};

/// The whole sheet, one screen.
pub fn sheet(s: &Sheet, notes: &[Diagnostic]) -> String {
    let mut out = format!("\n{}{}\n", s.name, asked(s).map_or_else(String::new, |a| format!(" · {a}")));
    for stage in &s.stages {
        out.push('\n');
        out.push_str(&stage_text(stage));
    }
    out.push_str(&dosing(s));
    out.push_str(&yield_text(s));
    out.push('\n');
    out.push_str(&properties(s));
    out.push_str(&checks(s));
    out.push_str(&crystals(s));
    out.push_str(&method(s));
    out.push_str(&remarks(notes));
    out.push_str(&keeping(s));
    out
}

/// Acid beside a juice goes in by taste.
fn dosing(s: &Sheet) -> String {
    let listed = |of: &dyn Fn(&Dose) -> Option<f64>| -> Option<String> {
        let each: Option<Vec<_>> =
            s.dosing.iter().map(|d| Some(format!("{} {} g", d.label, grouped(of(d)?, 1)))).collect();
        each.filter(|each| !each.is_empty()).map(|each| each.join(", "))
    };
    let Some(first) = listed(&|d| Some(FIRST * d.grams)) else { return String::new() };
    let mut out = format!("  dose 90 % of the acid ({first}), taste, then finish (common practice, no source)\n");
    if let Some(each) = listed(&|d| d.g_per_litre_of_juice) {
        out.push_str(&format!("  a litre of the juice takes {each}; the volume that this adds is counted\n"));
    }
    out
}

/// What could not be given or was stretched, a line each.
fn remarks(notes: &[Diagnostic]) -> String {
    notes.iter().map(|note| format!("- {}\n", note.title)).collect()
}

/// The date where it is planned to be kept, and the cautions: a stop in full, a warning in its words, notes counted but for
/// those that somebody has to be told of.
fn keeping(s: &Sheet) -> String {
    let mut out = String::from("\nKeeping\n");
    if let Some(store) = s.dated.stores.get(s.dated.planned) {
        out.push_str(&table::wrapped("  ", &super::summary(store)));
        if let Some(rule) = &store.decided_by {
            out.push_str(&table::wrapped("  decided by ", rule));
        }
    }
    if let Some(read) = &s.dated.readings {
        out.push_str(&table::wrapped("  ", read));
    }
    if let Some(words) = super::date::allergens(&s.dated) {
        out.push_str(&table::wrapped("  ALLERGENS: ", &words));
    }
    let mut notes = 0;
    for caution in s.dated.cautions.iter().filter(|c| super::date::is_said_in_full(c)) {
        match caution.severity {
            Level::Stop => out.push_str(&table::wrapped("  STOP  ", &caution.to_string())),
            Level::Warn => out.push_str(&table::wrapped("  warn  ", &caution.to_string())),
            Level::Note if caution.tell => out.push_str(&table::wrapped("  note  ", &caution.to_string())),
            Level::Note => notes += 1,
        }
    }
    if notes > 0 {
        out.push_str(&format!("  and {notes} note{}\n", if notes == 1 { "" } else { "s" }));
    }
    for (asked, waits) in super::date::waiting(&s.dated.cautions) {
        let many = waits.len();
        let wait = if many == 1 { "1 caution waits".to_owned() } else { format!("{many} cautions wait") };
        out.push_str(&table::wrapped("  state: ", &format!("{asked} ({wait} on it: stillroom date)")));
    }
    out.push_str(&table::wrapped("  ", "Every store, source and whom to ask: stillroom date, with this card."));
    out.push_str(&table::wrapped("  ", STANDING_NOTE));
    out
}

fn asked(s: &Sheet) -> Option<String> {
    Some(match s.makes? {
        Makes::Volume(v) => volume_text(v),
        Makes::Mass(m) => format!("{} g", grouped(in_grams(m), 0)),
        Makes::Bottles { count, each } => format!("{} x {} ml", grouped(count, 0), grouped(in_millilitres(each), 0)),
    })
}

fn decimals(step_g: f64) -> usize {
    match step_g {
        s if s >= 1.0 => 0,
        s if s >= 0.1 => 1,
        s if s >= 0.01 => 2,
        _ => 3,
    }
}

fn stage_text(stage: &StageSheet) -> String {
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

fn yield_text(s: &Sheet) -> String {
    let grams = grouped(s.yield_g(), 0);
    let volume = s.yield_ml().map_or_else(String::new, |ml| format!(" = {}", volume_text(millilitres(ml))));
    let behind: f64 = s.stages.iter().map(|stage| stage.left_behind_g).sum();
    let lost =
        if behind >= 0.5 { format!(" ({} g stays in pan and funnel)", grouped(behind, 0)) } else { String::new() };
    let mut out = format!("\n  makes {grams} g{volume}{lost}\n");
    if let Some(fills) = &s.fills {
        out.push_str(&format!(
            "  fill {} bottles with {} g each ({} ml at 20 °C); the last one is full\n",
            grouped(fills.count, 0),
            grouped(fills.each_g, 0),
            grouped(fills.each_ml, 0),
        ));
    }
    if let Some(make_up) = &s.make_up {
        let shrinks = make_up
            .shrinks_ml
            .filter(|ml| *ml >= 0.5)
            .map_or_else(String::new, |ml| format!("; poured apart and added it would be {} ml short", grouped(ml, 0)));
        out.push_str(&format!(
            "  by the jug: put in the rest, then make up to {} with {} at 20 °C{shrinks}\n",
            volume_text(millilitres(make_up.to_ml)),
            make_up.with,
        ));
    }
    if let Some(vessel) = s.vessel_l {
        out.push_str(&format!("  smallest usual vessel with room to stir: {vessel} L\n"));
    }
    for (inner, grams) in &s.weighed.inner {
        out.push_str(&format!("  needs {} g of {} (its own card)\n", grouped(*grams, 0), inner.name));
    }
    out
}

fn properties(s: &Sheet) -> String {
    let p = &s.as_weighed;
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut say = |name: &str, text: String| rows.push((name.to_owned(), text));
    let at = grouped(p.temperature_c, usize::from(p.temperature_c.fract() != 0.0));
    let doubt = |kind, decimals| {
        doubt::find(&s.doubts, kind).map_or_else(String::new, |d| format!(" ± {}", half_width(d.half_width, decimals)))
    };
    if let Some(brix) = p.brix.filter(|b| *b >= 0.05) {
        let shows = p.refractometer_brix.map_or_else(
            || "no refractometer reading can be given".to_owned(),
            |r| format!("a refractometer shows {} at {at} °C", grouped(r, 1)),
        );
        say("Brix", format!("{}{}   {shows}", grouped(brix, 1), doubt(TargetKind::Brix, 1)));
    }
    if let Some(abv) = p.abv_pct.filter(|a| *a >= 0.005) {
        let proof = p.us_proof.map_or_else(String::new, |x| format!(" (US proof {})", grouped(x, 1)));
        say("ABV", format!("{}{} %{proof}", grouped(abv, 1), doubt(TargetKind::Abv, 1)));
    }
    if let Some(sugar) = p.sugar_g_l.filter(|x| *x >= 0.5) {
        say("sugar", format!("{}{} g/L", grouped(sugar, 0), doubt(TargetKind::Sugar, 0)));
    }
    if let Some(acid) = p.acid_g_l.filter(|x| *x >= 0.05) {
        say("acid", format!("{}{} g/L titratable, as citric", grouped(acid, 1), doubt(TargetKind::Acid, 1)));
    }
    if let (Some(ph), Some(low), Some(high)) = (p.ph, p.ph_low, p.ph_high) {
        say("pH", ph_text(ph, low, high));
    }
    if let Some(density) = p.density_kg_m3 {
        say("density", format!("{} kg/m³ at {at} °C", grouped(density, 1)));
    }
    say(
        "water activity",
        match (p.water_activity, p.water_activity_upper) {
            (Some(aw), Some(upper)) => format!("{} (cautious {})", grouped(aw, 3), grouped(upper, 3)),
            _ => "not known".to_owned(),
        },
    );
    if p.density_kg_m3.is_some() {
        say("boils at", maybe(p.boiling_point_c, 1, " °C"));
    }
    if let Some(flash) = p.flash_point_c {
        say("flash point", format!("about {} °C: no flame near it", grouped(flash, 0)));
    }
    if let Some(serving) = &s.serving {
        say("a measure", serving_text(serving));
    }
    table::pairs(&rows) + &most_of_the_doubt(s) + &label_grades(s)
}

/// Limits that a product may rest on: FDA Food Code 2022 table 1-201.10(B) of potentially hazardous food, 4.2 and 4.6.
const PH_LIMITS: [f64; 2] = [4.2, 4.6];
/// Nearer than this to a limit a computed pH is not enough (ours: twice the error of a pocket meter, and some).
const PH_NEAR: f64 = 0.3;

/// A pH with its edges, rounded outwards; with the advice to measure where an edge comes near a limit.
fn ph_text(ph: f64, low: f64, high: f64) -> String {
    let (low_shown, high_shown) = ((10.0 * low + 1e-9).floor() / 10.0, (10.0 * high - 1e-9).ceil() / 10.0);
    let near = PH_LIMITS.into_iter().find(|limit| low - PH_NEAR <= *limit && *limit <= high + PH_NEAR);
    let advice = near.map_or_else(String::new, |limit| format!(": near {limit}, measure it"));
    format!("{} ({} to {}){advice}", grouped(ph, 1), grouped(low_shown, 1), grouped(high_shown, 1))
}

/// Whether the strength is good enough for a label.
fn label_grades(s: &Sheet) -> String {
    let mut out = String::new();
    for grade in &s.label_grades {
        let said = match grade.standing {
            Standing::Within => "the doubt is within it, if the label strength of the spirit holds",
            Standing::WithinButForSpirit => {
                "the doubt is larger, and within it only if the label strength of the spirit is exact: \
                 not good enough for a label"
            }
            Standing::Larger => "the doubt is larger: not good enough for a label",
        };
        let head = format!("label tolerance {} points ({}): ", grouped(grade.tolerance, 1), grade.markets);
        out.push_str(&table::wrapped("  ", &format!("{head}{said}; {CHECK_LOCALLY}")));
    }
    out
}

/// A half-width, rounded up: a doubt is not made smaller by printing it.
pub(super) fn half_width(width: f64, decimals: usize) -> String {
    let unit = 10f64.powi(i32::try_from(decimals).unwrap_or(0));
    grouped((width * unit - 1e-9).ceil() / unit, decimals)
}

/// What spoils the headline numbers most, and what to do about it.
fn most_of_the_doubt(s: &Sheet) -> String {
    let said: Vec<String> = s
        .doubts
        .iter()
        // Only of what is shown: a spirit without sugar has a Brix of nothing, give or take next to nothing.
        .filter(|d| match d.kind {
            TargetKind::Brix => s.as_weighed.brix.is_some_and(|b| b >= 0.05),
            _ => true,
        })
        .filter_map(|d| {
            let most = d.shares.first()?;
            let name = doubt_name(d.kind);
            Some(format!(
                "  ± of {name}: {} % from {}; {}\n",
                grouped(100.0 * most.of_variance, 0),
                most.what,
                most.remedy
            ))
        })
        .collect();
    if said.is_empty() { String::new() } else { format!("  (± at 95 %)\n{}", said.concat()) }
}

pub(super) fn doubt_name(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Brix => "Brix",
        TargetKind::Abv => "ABV",
        TargetKind::Sugar => "sugar",
        TargetKind::Acid => "acid",
        TargetKind::Ph => "pH",
    }
}

fn serving_text(serving: &crate::sheet::Serving) -> String {
    let mut parts = vec![format!("{} ml", crate::quantity::display::short(serving.ml))];
    if let Some(sugar) = serving.sugar_g.filter(|g| *g >= 0.05) {
        parts.push(format!("{} g sugar", grouped(sugar, 1)));
    }
    if let Some((units, drinks)) = serving.uk_units.zip(serving.us_drinks).filter(|(u, _)| *u >= 0.005) {
        parts.push(format!("{} UK units", grouped(units, 2)));
        parts.push(format!("{} US drinks", grouped(drinks, 2)));
    }
    if let Some((kj, kcal)) = serving.energy.filter(|(kj, _)| *kj >= 0.5) {
        parts.push(format!("{} kJ / {} kcal", grouped(kj, 0), grouped(kcal, 0)));
    }
    parts.join(", ")
}

fn checks(s: &Sheet) -> String {
    let b = &s.bench;
    let mut rows: Vec<(String, String)> = Vec::new();
    if let Some(g) = b.hundred_ml_g {
        rows.push(("100 ml weighs".to_owned(), format!("{} g at 20 °C", grouped(g, 1))));
    }
    if let Some(thin) = b.reading_thinned.filter(|r| *r >= 0.5) {
        rows.push((
            "thinned 1:1".to_owned(),
            format!("by weight with water a refractometer shows {} at 20 °C", grouped(thin, 1)),
        ));
    }
    let mut out = if rows.is_empty() { String::new() } else { format!("\nChecks\n{}", table::pairs(&rows)) };
    if !b.fixes.is_empty() {
        let fixes: Vec<Vec<String>> = b
            .fixes
            .iter()
            .map(|f| {
                let (word, what) = if f.off_brix > 0.0 { ("high", "water") } else { ("low", "sugar") };
                vec![
                    format!("reads {} °Bx {word}", grouped(f.off_brix.abs(), 0)),
                    format!("add {} g {what}", grouped(f.add_g, 0)),
                ]
            })
            .collect();
        out.push_str("If the reading is off\n");
        out.push_str(&table::columns(&fixes));
    }
    out
}

fn crystals(s: &Sheet) -> String {
    let Some(clear) = &s.clear else { return String::new() };
    let mut out = String::from("\nCrystals\n");
    if let Some(starts) = clear.starts_c {
        out.push_str(&format!("  saturated below about {} °C\n", grouped(starts, 0)));
    }
    for store in &clear.stores {
        let said = match store.crystals_g_per_kg {
            Some(g) if g >= 0.5 => format!("throws up to {} g of crystals a kilo", grouped(g, 0)),
            Some(_) => "stays clear".to_owned(),
            None => "not known".to_owned(),
        };
        out.push_str(&format!("  {} ({} °C): {said}\n", store.name, grouped(store.temperature_c, 0)));
    }
    if let Some((ratio, brix, store)) = &clear.richest {
        out.push_str(&format!(
            "  richest that stays clear in the {store}: {} : 1 sugar to water by weight ({} °Bx)\n",
            grouped(*ratio, 2),
            grouped(*brix, 1)
        ));
    }
    if let Some(note) = clear.note {
        out.push_str(&format!("  {note}\n"));
    }
    out
}

fn method(s: &Sheet) -> String {
    let mut out = String::new();
    if !s.steps.is_empty() {
        out.push_str("\nMethod\n");
        for (i, step) in s.steps.iter().enumerate() {
            out.push_str(&format!("  {}. {step}\n", i + 1));
        }
    }
    for (name, text) in [("Note", &s.notes), ("Source", &s.source)] {
        if let Some(text) = text {
            out.push_str(&format!("{name}: {text}\n"));
        }
    }
    if !s.assumed.is_empty() {
        out.push_str(&format!("Assumed: {}\n", s.assumed.join("; ")));
    }
    out
}
