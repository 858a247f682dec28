//! The words of a drink for the bar: what stops it, what to pour, what to do, what to tell a guest.

use crate::render::text::{serve as words, warned::briefs};
use crate::report::caution::CautionView;
use crate::report::serve::{PouredView, ServeReport};

use super::{PaperPara, SaidKind};

/// The paragraphs of a drink, in the order of the work; a stop before all. What it costs stands on it where that is asked for.
pub(in crate::render) fn glass(report: &ServeReport, with_cost: bool) -> Vec<PaperPara> {
    let Some(view) = report.answer() else { return Vec::new() };
    let stops = view.cautions.iter().filter(|caution| caution.stops());
    let stop = |why: &str| PaperPara::new(SaidKind::Stop, format!("STOP: {why}"), "");
    let warning = |sign: String, said: &str| PaperPara::new(SaidKind::Warning, sign, said);
    let step = |words: String| PaperPara::new(SaidKind::Step, "", words);
    let note = |words: String| PaperPara::new(SaidKind::Note, "", words);
    let mut said: Vec<PaperPara> = stops.map(|caution: &CautionView| stop(caution.brief)).collect();
    said.extend(view.refused_parts.iter().map(|refused| stop(refused)));
    said.extend(view.unidentified.iter().map(|open| stop(&open.question)));
    said.push(PaperPara::new(SaidKind::Title, report.product(), ""));
    said.push(note(words::head(view)));
    said.extend(briefs(&view.cautions).into_iter().map(|(sign, brief)| warning(sign.to_string(), brief)));
    said.extend(words::not_stated(&view.cautions).map(|open| warning("?".to_owned(), &format!("not stated: {open}"))));
    said.extend(view.lines.iter().map(|line| step(poured(line))));
    said.extend(view.garnish.iter().map(|garnish| step(format!("garnish: {garnish}"))));
    said.extend(view.steps.iter().map(|words| step(words.clone())));
    said.push(note(format!("in the glass {}; alcohol {}", words::in_the_glass(view), words::alcohol(view).join(" "))));
    let allergens = &view.allergens;
    let lead = if allergens.allergens.is_empty() { "Allergens:" } else { "ALLERGENS:" };
    said.push(PaperPara::new(SaidKind::Allergens, lead, allergens.told()));
    let cost = view.cost.as_ref().filter(|_| with_cost);
    said.extend(cost.map(|cost| PaperPara::new(SaidKind::Note, "Cost:", words::cost(cost))));
    said
}

/// "45 ml (1 1/2 oz) white rum"; what is counted by its count.
fn poured(line: &PouredView) -> String {
    let [ounces, ml, of] = words::poured(line);
    let measure = if ounces.is_empty() { ml } else { format!("{ml} ({ounces})") };
    format!("{measure} {of}")
}
