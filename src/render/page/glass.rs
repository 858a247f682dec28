//! A drink: what is poured into one glass, what it holds, whom to tell what.

use crate::diagnostic::Topic;
use crate::render::html::escaped;
use crate::render::text::serve as words;
use crate::render::text::warned::briefs;
use crate::report::serve::{PouredView, ServeReport};

use super::sheet::{SheetHtml, cautions, unsolved};
use super::{findings, list, paragraphs, rows, section, stops, unbroken, warning};

/// A drink; its cost and its price where they are not for the house alone.
pub(crate) fn glass(report: &ServeReport, with_costs: bool) -> SheetHtml {
    let Some(view) = report.answer() else { return unsolved(report) };
    let warnings: String =
        briefs(&view.cautions).into_iter().map(|(sign, brief)| warning(&sign.to_string(), brief)).collect();
    let open = words::not_stated(&view.cautions).map(|open| warning("? not stated:", &open));
    let first: String = view.unidentified.iter().map(|asked| warning("first say:", &asked.question)).collect();
    let refused = view.refused_parts.iter().map(|why| format!("<p class=\"stop\">STOP: {}</p>\n", escaped(why)));
    let top = [
        stops(&view.cautions),
        refused.collect(),
        format!("<h2>{}</h2>\n", escaped(report.product())),
        paragraphs([&words::head(view)]),
        first,
        format!("<p><b>Allergens:</b> {}</p>\n", escaped(&view.allergens.told())),
        view.bottles_to_state.iter().map(|bottles| warning("?", bottles)).collect(),
        warnings,
        open.unwrap_or_default(),
    ];
    let poured: Vec<Vec<String>> = view.lines.iter().map(poured).collect();
    let water = view.ice_water.as_ref().map_or_else(Vec::new, |water| words::ice_water(water, true));
    let garnish = view.garnish.as_ref().map(|garnish| format!("garnish: {garnish}"));
    let after: Vec<String> = water.into_iter().chain(garnish).collect();
    let method: String = view.steps.iter().map(|step| format!("<li>{}</li>\n", escaped(step))).collect();
    let method = if method.is_empty() { method } else { format!("<ol>\n{method}</ol>\n") };
    let holds: Vec<Vec<String>> =
        words::holds(view).into_iter().map(|(what, said)| vec![what.to_owned(), said]).collect();
    let doses: Vec<String> = view.doses.iter().map(ToString::to_string).collect();
    let cost = view.cost.as_ref().filter(|_| with_costs);
    let cost = cost.map(|cost| {
        let missing = (!cost.missing.is_empty()).then(|| format!("no price of {}", cost.missing.join("; ")));
        section("Cost", &paragraphs(&[format!("costs {}", words::cost(cost))]), &paragraphs(&missing))
    });
    let told = report.findings().iter().filter(|finding| with_costs || finding.code.topic() != Topic::Cost);
    let rest = [
        section("Pour", &rows(&[], &poured), &paragraphs(&after)),
        section("Method", &method, ""),
        section("One glass", &rows(&[], &holds), ""),
        section("At most, by what is weighed in", &list(&doses), ""),
        section("Cautions", &cautions(&view.cautions), ""),
        cost.unwrap_or_default(),
        findings(told),
    ];
    SheetHtml { top: top.concat(), rest: rest.concat(), long: false }
}

/// The name first: it heads its row.
fn poured(line: &PouredView) -> Vec<String> {
    let [ounces, ml, of] = words::poured(line);
    // a number stays with its unit
    vec![of, unbroken(&ml), unbroken(&ounces)]
}
