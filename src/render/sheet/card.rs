//! The words of a card for the bench: what stops it, what to weigh with the reading of the scale after each, how to finish
//! it, what to tell a guest, and the rule of its date.

use crate::render::text::bench_words::asked_words;
use crate::render::text::guest_words::beside_for_a_guest;
use crate::render::text::{cost_in_a_line, ml_text, weigh_words as weigh};
use crate::report::caution::asked_for;
use crate::report::solve::stage::{SheetLine, StageView};
use crate::report::solve::{SolveReport, SolveView};
use crate::report::store::StoreView;
use crate::shelf_life::reason::Mark;
use crate::solver::weighing::Weighing;
use crate::units::display::grouped;

use super::{PaperPara, SaidKind, StepFact};

/// The words of a card, in the order of the work.
pub(in crate::render) struct CardWords {
    pub stops: Vec<PaperPara>,
    /// The product, and how much of it is made.
    pub head: [PaperPara; 2],
    pub warnings: Vec<PaperPara>,
    /// What is weighed, heated, strained and filled, stage by stage.
    pub bench: Vec<PaperPara>,
    pub method: Vec<PaperPara>,
    /// Of what is bottled ahead: how a guest gets it.
    pub for_a_guest: Vec<PaperPara>,
    /// What a guest is told, and by when it is used.
    pub keeping: Vec<PaperPara>,
}

/// The paragraphs of a card, in the order of the work; a stop before all.
pub(in crate::render) fn card(report: &SolveReport) -> Vec<PaperPara> {
    let Some(CardWords { stops, head, warnings, bench, method, for_a_guest, keeping }) = in_parts(report) else {
        return Vec::new();
    };
    [stops, head.into(), warnings, bench, method, for_a_guest, keeping].concat()
}

/// The same, part by part.
pub(in crate::render) fn in_parts(report: &SolveReport) -> Option<CardWords> {
    let view = report.answer()?;
    let made = &view.as_weighed.yields;
    let volume = made.volume_ml.map_or_else(String::new, |ml| format!(" = {}", ml_text(ml)));
    let asked = asked_words(view).map_or_else(String::new, |asked| format!(" ({asked})"));
    let makes = format!("makes {} g{volume}{asked}", grouped(made.mass_g, 0));
    let stages = view.stages.iter().flat_map(|stage| worked(stage, view.stages.len() > 1));
    let (allergens, guest) = (&view.allergens, beside_for_a_guest(&view.guest));
    let none_in_it = allergens.allergens.is_empty() && allergens.allergens_not_stated.is_empty();
    let allergens = PaperPara::allergens((!none_in_it).then_some(allergens.allergens_say.as_str()), &guest);
    let cost = view.cost.as_ref().map(|cost| PaperPara::new(SaidKind::Note, "Cost:", cost_in_a_line(cost)));
    Some(CardWords {
        stops: stops(view),
        head: [
            PaperPara::new(SaidKind::Title, report.product(), ""),
            PaperPara::new(SaidKind::Note, "", makes).about(made.volume_ml.map(StepFact::Volume)),
        ],
        warnings: warnings(view),
        bench: stages.chain(view.fill.iter().map(|fill| step(weigh::fill_words(fill)))).collect(),
        method: view.method.iter().map(|words| step(words.clone())).collect(),
        for_a_guest: view.for_a_guest.iter().map(|how| PaperPara::new(SaidKind::Note, "For a guest:", how)).collect(),
        keeping: [allergens].into_iter().chain(view.date.as_ref().map(|store| date(store, view))).chain(cost).collect(),
    })
}

fn step(words: String) -> PaperPara {
    PaperPara::new(SaidKind::Step, "", words)
}

/// What surely says not to make or serve it, and what nothing says is food.
fn stops(view: &SolveView) -> Vec<PaperPara> {
    let mut said: Vec<PaperPara> = Vec::new();
    for caution in view.cautions.iter().filter(|caution| caution.stops()) {
        said.push(PaperPara::new(SaidKind::Stop, format!("STOP: {}", caution.brief), ""));
        said.push(PaperPara::new(SaidKind::Warning, "", caution.message.clone()));
    }
    for open in &view.unidentified {
        said.push(PaperPara::new(SaidKind::Stop, "STOP: do not make it until this is answered", ""));
        said.push(PaperPara::new(SaidKind::Warning, "", open.question.clone()));
    }
    said
}

/// Warnings, what a guest has to be told, what is not stated.
fn warnings(view: &SolveView) -> Vec<PaperPara> {
    let told = view.cautions.iter().filter(|c| c.is_told_in_a_line());
    let mut said: Vec<PaperPara> = told.map(|c| PaperPara::new(SaidKind::Warning, "!", c.brief)).collect();
    said.extend(view.crystallises.iter().map(|said| PaperPara::new(SaidKind::Warning, "!", said.clone())));
    said.extend(view.steps_ask.iter().map(|asked| PaperPara::new(SaidKind::Warning, "?", asked.clone())));
    said.extend(asked_for(&view.cautions).map(|asked| PaperPara::new(SaidKind::Warning, "?", asked)));
    said
}

fn worked(stage: &StageView, of_several: bool) -> Vec<PaperPara> {
    let mut said = Vec::new();
    let name = stage.stage.clone().or_else(|| of_several.then(|| "then".to_owned()));
    if let Some(name) = name {
        let takes = stage.takes.as_ref().map_or_else(String::new, |takes| format!(", {takes}"));
        said.push(PaperPara::new(SaidKind::Head, format!("{name}{takes}"), ""));
    }
    if stage.nothing_needed {
        said.push(PaperPara::new(SaidKind::Note, "", "nothing of it is needed for this batch: do not make it"));
        return said;
    }
    let mut tared = false;
    for line in &stage.lines {
        said.push(step(add(line, &mut tared)).about(line.volume_ml.map(StepFact::Volume)));
        said.extend(weigh::notes_of(line).into_iter().map(|words| PaperPara::new(SaidKind::Note, "", words)));
    }
    said.extend(stage.heated.map(|heated| {
        step(format!("heat to {}", weigh::heated_words(heated))).about(heated.hold_min.map(StepFact::Hold))
    }));
    said.extend(stage.finish.as_ref().map(|finish| step(weigh::finish_brief(finish))));
    said.extend(stage.strained.map(|s| step(format!("strain: wet solids about {} g", grouped(s.wet_g, 0)))));
    said
}

/// One part, so that nothing but the scale has to be read: whether it is zeroed, what goes in, what it then shows.
fn add(line: &SheetLine, tared: &mut bool) -> String {
    let step_g = line.weigh.how.step_g;
    let grams = weigh::poured(line);
    let name = &line.of;
    let strained = if line.strained { " (strained out again)" } else { "" };
    let zero = match line.tare_again || !*tared {
        true => "zero the scale, ",
        false => "",
    };
    let reads = weigh::grams(line.reads_g, 1f64.max(step_g));
    match (line.weigh.how.by, &line.by_hand) {
        (Weighing::Stock(_), _) => format!("add {grams} g of a stock of {name}{strained}"),
        (_, Some(counted)) => format!("add {counted}, {grams} g by the scale{strained}"),
        (Weighing::ByHand, None) => format!("add {grams} g {name} by hand{strained}"),
        (Weighing::Melts, None) => format!("{grams} g {name} join it"),
        (Weighing::FineScale, None) => format!("fine scale: {grams} g {name}{strained}, into the pan"),
        (Weighing::Scale | Weighing::Stage, None) if line.goes.is_some() => format!("add {grams} g {name}{strained}"),
        (Weighing::Scale | Weighing::Stage, None) => {
            *tared = true;
            format!("{zero}add {grams} g {name}{strained}: the pan now reads {reads}")
        }
    }
}

/// How long it keeps from whatever day it is made, where, and by which rule.
fn date(store: &StoreView, view: &SolveView) -> PaperPara {
    let place = &store.place;
    let lead = if store.mark == Mark::BestBefore { "BEST BEFORE" } else { "USE BY" };
    let rule = store.decided_by.as_ref().map_or_else(String::new, |rule| format!(" ({rule})"));
    match (store.days, &store.refused) {
        (_, Some(why)) => PaperPara::new(SaidKind::Date, "NO DATE", format!("{place}: {why}")),
        (Some(0), None) => PaperPara::new(SaidKind::Date, lead, format!("{place}: use at once{rule}")),
        (Some(days), None) => {
            let unit = if days == 1 { "day" } else { "days" };
            // what was pressed or made before it brings its own day along
            let ages = !view.inner.is_empty() || view.screen.is_some_and(|screen| screen.cold_for.is_some());
            let first =
                if ages { "day 1 is the day made, or that of its oldest part" } else { "day 1 is the day made" };
            PaperPara::new(SaidKind::Date, lead, format!("{place}: {days} {unit}, {first}{rule}"))
        }
        (None, None) => PaperPara::new(SaidKind::Date, "KEEP", store.says.clone()),
    }
}
