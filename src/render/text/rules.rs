//! What the law of a market asks of who makes, packs or sells.

use crate::references;
use crate::safety::law::{LawRule, SPIRITS_FOR_SALE};
use crate::safety::{Market, STANDING_NOTE};

use super::table::wrapped;

/// The rules, each with where it holds, when it applies, how far it was read, and its source.
pub fn rules(rules: &[&LawRule], markets: &[Market]) -> String {
    let codes: Vec<&str> = markets.iter().map(|m| m.code()).collect();
    let of = if codes.is_empty() { "every market: house.toml names none".to_owned() } else { codes.join(", ") };
    let mut out = format!("\nRules beyond the pH and water activity tables, for {of}\n");
    for rule in rules {
        out.push('\n');
        out.push_str(&wrapped(&format!("{}: ", rule.market), &rule.meaning));
        if !rule.test.is_empty() {
            out.push_str(&wrapped("  when ", &rule.test));
        }
        let source = references::find(&rule.source_id).map_or(rule.source_id.as_str(), |s| s.words());
        out.push_str(&wrapped("  source: ", &format!("{source} ({})", rule.status)));
    }
    out.push('\n');
    out.push_str(&wrapped("", SPIRITS_FOR_SALE));
    out.push_str(&wrapped("", STANDING_NOTE));
    out
}
