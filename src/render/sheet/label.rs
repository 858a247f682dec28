//! The words of a label.

use crate::assessment::allergens_by_group;
use crate::render::text::guest_words::also_for_a_guest;
use crate::render::text::lot_words::day;
use crate::report::label::LabelView;
use crate::safety::warnings::WarnedOf;
use crate::units::display::grouped;

use super::{PaperPara, SaidKind};

/// The paragraphs of a label, what matters most first.
pub(in crate::render) fn label(view: &LabelView) -> Vec<PaperPara> {
    let mut said = vec![PaperPara::new(SaidKind::Title, view.product.clone(), "")];
    let (lead, words) = date(view);
    said.push(PaperPara::new(SaidKind::Date, format!("{lead} {words}"), ""));
    said.extend(thawing(view).map(|words| PaperPara::new(SaidKind::Warning, words, "")));
    let named = (!view.allergens.is_empty()).then(|| allergens_by_group(&view.allergens));
    said.push(PaperPara::allergens(named.as_deref(), &also_for_a_guest(&view.allergens_for_a_guest)));
    let warned = view.warnings.iter().any(|warning| warning.of == WarnedOf::RawJuice);
    if view.raw_juice && !warned {
        said.push(PaperPara::new(SaidKind::Warning, "Contains raw juice", ""));
    }
    said.extend(view.warnings.iter().map(|warning| {
        // the words before the colon are to stand out, and the law of one market wants no others to
        let said = match warning.words.split_once(": ") {
            Some((lead, words)) => PaperPara::new(SaidKind::Warning, format!("{lead}:"), words),
            None => PaperPara::new(SaidKind::Warning, warning.words.clone(), ""),
        };
        PaperPara { least_mm: warning.least_mm, ..said }
    }));
    let lot = view.lot.as_ref().map_or_else(|| "no lot".to_owned(), |lot| format!("Lot {lot}"));
    said.push(PaperPara::new(SaidKind::Lot, lot, ""));
    let by = view.maker.as_ref().map_or_else(String::new, |maker| format!(" by {maker}"));
    said.push(PaperPara::new(SaidKind::Note, "", format!("made {}{by} · {}", day(view.made), view.store)));
    said.extend(view.for_a_guest.iter().map(|how| PaperPara::new(SaidKind::Note, "", format!("for a guest: {how}"))));
    if let Some(abv) = view.abv_pct {
        // one decimal at most: Regulation (EU) No 1169/2011 Annex XII
        let figure = |abv: f64| grouped(abv, 1);
        let watered = view.abv_with_most_water_pct.filter(|least| figure(*least) != figure(abv));
        let watered = watered.map_or_else(String::new, |least| {
            format!(" as filled; water may be added: down to {} % vol", figure(least))
        });
        said.push(PaperPara::new(SaidKind::Note, "", format!("alc. {} % vol{watered}", figure(abv))));
    }
    // what boiled off nobody knows: it is read, and written by hand
    if view.abv_between_pct.is_some() {
        said.push(PaperPara::new(SaidKind::Note, "", "alc. __________ % vol".to_owned()));
    }
    said
}

/// The kind of date, and the day with its weekday after it.
pub(in crate::render) fn date(view: &LabelView) -> (&'static str, String) {
    let use_by = &view.use_by;
    match (use_by.day, use_by.days_left_when_thawed) {
        (Some(last), _) if use_by.best_before => ("BEST BEFORE", weekday_second(last)),
        (Some(last), _) => ("USE BY", weekday_second(last)),
        (None, Some(0 | 1)) => ("FROZEN", "· use the day it is thawed".to_owned()),
        (None, Some(left)) => ("FROZEN", format!("· use within {left} days of thawing")),
        // of what has no date there is no label
        (None, None) => ("", String::new()),
    }
}

/// How the days of what is frozen are counted, and until when it may lie there.
fn thawing(view: &LabelView) -> Option<String> {
    let use_by = &view.use_by;
    let left = use_by.days_left_when_thawed.filter(|_| use_by.day.is_none())?;
    let by = use_by.thaw_by.map(|by| format!("thaw by {}", weekday_second(by)));
    let first = (left > 1).then(|| "the day it is thawed is day 1".to_owned());
    let both: Vec<String> = by.into_iter().chain(first).collect();
    (!both.is_empty()).then(|| both.join("; "))
}

fn weekday_second(on: chrono::NaiveDate) -> String {
    on.format("%-d %b %Y, %a").to_string()
}

/// The line to write on when it is opened, or the day on which it was.
pub(in crate::render) fn opened(view: &LabelView) -> (&'static str, Option<String>) {
    ("opened on", view.opened.map(day))
}

/// What a camera reads off the label: short, so that the code stays coarse.
pub(in crate::render) fn code(view: &LabelView) -> Option<String> {
    let lot = view.lot.as_ref()?;
    let date = match view.use_by.day {
        Some(last) if view.use_by.best_before => format!("\nbest before {last}"),
        Some(last) => format!("\nuse by {last}"),
        None => "\nfrozen".to_owned(),
    };
    Some(format!("lot {lot}{date}"))
}
