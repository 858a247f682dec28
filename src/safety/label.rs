//! What a strength label may be off by, and what a name asks for.

use std::sync::LazyLock;

use super::market::Market;
use super::table;

const TABLE: &str = include_str!("data/label-rules.csv");

/// To be printed with every figure of this file.
pub const CHECK_LOCALLY: &str = "check your local rule";

/// Grams of invert sugar that one gram of sucrose becomes: C₁₂H₂₂O₁₁ + H₂O → 2 C₆H₁₂O₆, ratio of molar masses
/// 360.31/342.30.
pub const INVERT_PER_SUCROSE: f64 = 360.31 / 342.30;

/// What a figure is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LabelRuleKind {
    /// By how much the strength may differ from the label, in percent vol.
    Tolerance,
    /// Above this strength the label must state it, in percent vol.
    StatedFrom,
    /// The least strength of a name, in percent vol.
    MinimumAbv,
    /// The least sugar of a name, in g/L as invert sugar.
    MinimumSugar,
    /// The least sugar of a name, in percent by mass.
    MinimumSugarByMass,
    /// By how much a bottle may be short, in percent.
    Fill,
}

/// One figure.
#[derive(Clone, Debug)]
pub struct LabelRule {
    /// Where it holds ("EU,UK").
    pub market: String,
    /// What it is about.
    pub kind: LabelRuleKind,
    /// For which product, in the words of the rule.
    pub product: String,
    /// The figure, in the unit of its kind.
    pub value: f64,
    /// The unit as printed.
    pub unit: String,
    /// Where it stands.
    pub source: String,
    /// How far that was read.
    pub status: String,
}

static RULES: LazyLock<Vec<LabelRule>> = LazyLock::new(|| table::rows(TABLE).iter().filter_map(rule).collect());

fn rule(row: &table::Row) -> Option<LabelRule> {
    let kind = match row.cell("kind") {
        "tolerance" => LabelRuleKind::Tolerance,
        "from_abv" => LabelRuleKind::StatedFrom,
        "min_abv" => LabelRuleKind::MinimumAbv,
        "min_sugar" => LabelRuleKind::MinimumSugar,
        "min_sugar_mass" => LabelRuleKind::MinimumSugarByMass,
        "fill" => LabelRuleKind::Fill,
        _ => return None,
    };
    let text = |heading: &str| row.cell(heading).to_owned();
    Some(LabelRule {
        market: text("market"),
        kind,
        product: text("product"),
        value: row.number("value")?,
        unit: text("unit"),
        source: text("source"),
        status: text("status"),
    })
}

/// The figures of one kind that hold in a market.
pub fn rules(market: Market, kind: LabelRuleKind) -> impl Iterator<Item = &'static LabelRule> {
    RULES.iter().filter(move |r| r.kind == kind && market.is_in(&r.market))
}

/// By how much the strength on a label may be off, for a drink that has plants or fruit in its bottle or not. No rule
/// known: `None`. "Macerated" is cautious here: only a drink that still contains them has the wide tolerance.
pub fn strength_tolerance(market: Market, contains_macerated: bool) -> Option<&'static LabelRule> {
    let wanted = match (market, contains_macerated) {
        (Market::Us, _) => "distilled spirits",
        (_, true) => "with macerated fruit or plants in the bottle",
        (_, false) => "other drinks",
    };
    rules(market, LabelRuleKind::Tolerance).find(|r| r.product == wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_a_rule() {
        assert_eq!(RULES.len(), table::lines(TABLE));
        assert!(RULES.iter().all(|r| !r.source.is_empty() && !r.status.is_empty()));
    }

    #[test]
    fn tolerances_by_class() {
        let of = |market, macerated| strength_tolerance(market, macerated).map(|r| r.value);
        assert_eq!(of(Market::Eu, true), Some(1.5));
        assert_eq!(of(Market::Uk, false), Some(0.3));
        assert_eq!(of(Market::Us, true), Some(0.3));
        assert_eq!(of(Market::Ca, false), None);
        assert_eq!(rules(Market::Eu, LabelRuleKind::MinimumAbv).map(|r| r.value).fold(0.0, f64::max), 15.0);
        // as the ratio is printed, to four decimals
        assert!((INVERT_PER_SUCROSE - 1.0526).abs() < 5e-5);
    }
}
