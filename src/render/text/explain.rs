//! A property with its equation and its sources, a code, the rules of a market.

use crate::report::explain::{EquationView, ExplainReport, ExplainView, LawRuleView};

use super::table::{pairs, wrapped};

pub(crate) fn explain(report: &ExplainReport) -> String {
    match report.answer() {
        None => String::new(),
        Some(ExplainView::Equations { all: true, equations }) => {
            let rows: Vec<_> = equations.iter().map(|e| (e.property.to_owned(), e.unit.to_owned())).collect();
            format!("\nAsk for one of these: stillroom explain brix\n\n{}", pairs(&rows))
        }
        Some(ExplainView::Equations { equations, .. }) => equations.iter().map(equation).collect(),
        Some(ExplainView::Word { word, meaning, .. }) => wrapped(&format!("{word}: "), meaning),
        Some(ExplainView::Code { code, description, .. }) => format!("{code}: {description}\n"),
        Some(ExplainView::Rules { markets, rules, for_sale, note }) => {
            let of = if markets.is_empty() { "every market: house.toml names none" } else { &markets.join(", ") };
            let all: String = rules.iter().map(rule).collect();
            let head = format!("\nRules beyond the pH and water activity tables, for {of}\n");
            head + &all + "\n" + &wrapped("", for_sale) + &wrapped("", note)
        }
    }
}

fn equation(e: &EquationView) -> String {
    let unit = if e.unit.is_empty() { String::new() } else { format!(" ({})", e.unit) };
    let said = [("computed by", e.equation), ("holds for", e.range), ("stated error", e.error)];
    let mut rows: Vec<_> = said.map(|(name, said)| (name.to_owned(), said.to_owned())).to_vec();
    for (i, source) in e.sources.iter().enumerate() {
        rows.push((if i == 0 { "sources" } else { "" }.to_owned(), source.words.clone()));
    }
    format!("\n{}{unit}\n\n{}", e.property, pairs(&rows))
}

fn rule(rule: &LawRuleView) -> String {
    let when = if rule.when.is_empty() { String::new() } else { wrapped("  when ", rule.when) };
    let source = format!("{} ({})", rule.source.unwrap_or(rule.id), rule.status);
    format!("\n{}{when}{}", wrapped(&format!("{}: ", rule.market), rule.asks), wrapped("  source: ", &source))
}
