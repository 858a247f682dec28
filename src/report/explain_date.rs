//! `explain date CARD`: how the date of one card was reached, step by step, with its numbers.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::{Assessment, DatedStore};
use crate::shelf_life::hurdles::Screened;
use crate::shelf_life::screen::ScreenTable;
use crate::shelf_life::{Filled, lots::Lots};
use crate::units::display::temperature_text;

use super::{Report, View};

pub(crate) type DateStepsReport = Report<DateStepsView>;

/// The steps in their order; each says the rule and what it gave here.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct DateStepsView {
    pub(crate) made: NaiveDate,
    pub(crate) steps: Vec<DateStep>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct DateStep {
    pub(crate) rule: &'static str,
    pub(crate) here: Vec<String>,
}

impl View for DateStepsView {
    const VERB: &'static str = "explain";
    const KEYS: &'static str = "made steps";
    const TELLS_NOTES: bool = false;
}

impl DateStepsView {
    pub(crate) fn new(judged: &Assessment) -> Self {
        let product = &judged.product;
        let hurdles = &judged.hurdles;
        let ph = hurdles.ph_up.map_or_else(|| "pH not known".to_owned(), |ph| format!("pH {ph:.2} at most"));
        let standing = [
            ph,
            format!("water activity {:.3} at most", hurdles.aw_up),
            format!("{:.1} % vol at least", hurdles.abv),
            format!("{:.0} g/L sugar", product.sugar_g_l),
            format!("{:.0} Delle units", hurdles.delle),
        ];
        let table = if hurdles.table == ScreenTable::A { "table A" } else { "table B" };
        let screen = match hurdles.screened {
            Screened::Stable => format!("{table}: needs no control"),
            Screened::Alcohol => format!("{table} leaves it open; its alcohol holds growth back"),
            Screened::NoFood => format!("{table} leaves it open; nothing in it feeds growth"),
            Screened::Control => {
                format!("{table} leaves it open, and neither alcohol nor want of food speaks: control")
            }
        };
        let step = |rule, here: Vec<String>| DateStep { rule, here };
        let undated: Vec<String> = judged
            .stores
            .iter()
            .flat_map(|s| s.refused.iter().map(move |why| format!("{}: {why}", s.store.name)))
            .collect();
        let steps = vec![
            step("each hurdle of the finished product counts at its cautious end", standing.to_vec()),
            step(
                "acid, sugar and salt are looked up in the Food Code; then alcohol, by published growth limits; then whether \
                 anything in it feeds growth",
                vec![screen],
            ),
            step(
                "what it is, where it stands, an open question or a stop may refuse a date",
                or(undated, "nothing refuses it"),
            ),
            step(
                "what needs control has the legal days, the day made as day 1; what stales has its own days; in 1 of 10 of \
                 all lots growth may show: the least holds",
                judged.stores.iter().filter_map(terms).collect(),
            ),
            step("not every lot has the yeast: by how it was filled", vec![lots(judged)]),
            step("cold days before bottling and days in the freezer are counted strictly", days(judged)),
        ];
        Self { made: judged.lot.made, steps }
    }
}

fn or(said: Vec<String>, of_none: &str) -> Vec<String> {
    if said.is_empty() { vec![of_none.to_owned()] } else { said }
}

fn terms(store: &DatedStore) -> Option<String> {
    let verdict = store.verdict.as_ref()?;
    let terms: Vec<String> = verdict.terms.iter().map(|t| format!("{:.1} ({})", t.days, t.rule)).collect();
    let place = format!("{} ({})", store.store.name, temperature_text(store.store.temperature));
    Some(format!("{place}: {}", terms.join("; ")))
}

fn lots(judged: &Assessment) -> String {
    let filled = match judged.product.filled {
        Filled::HotClosed => "counted as filled hot and closed",
        Filled::HotClean => "counted as clean (heated, or nothing in it feeds a yeast), filled cooler in clean glass",
        Filled::Cold => "counted as white sugar that was not heated",
        Filled::ColdPlant => "counted as a plant, honey or raw sugar that was not heated",
        Filled::Raw => "counted as raw: juice, pulp, nut, milk or fat that was not heated",
    };
    match Lots::of(&judged.product, &judged.hurdles) {
        Some(lots) => format!(
            "{filled}: in {:.0} of 100 lots, with 10^{:.1} cells a millilitre",
            100.0 * lots.present,
            lots.log10_n0
        ),
        None => format!("{filled}: growth does not decide here"),
    }
}

fn days(judged: &Assessment) -> Vec<String> {
    let of = |s: &DatedStore| Some(format!("{}: {} days, to {}", s.store.name, s.days?, s.date?));
    or(judged.stores.iter().filter_map(of).collect(), "no store has a date")
}
