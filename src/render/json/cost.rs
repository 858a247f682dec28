//! A costing for programs. Money is a decimal text.

use rust_decimal::Decimal;
use serde_json::{Value, json};

use crate::cost::{Assumption, BreakEven, Comparison, Costing, MeasureCost, Sides, SoldMeasure};
use crate::diagnostic::Diagnostic;
use crate::report::caution::CautionView;
use crate::safety::Caution;

/// What a batch costs.
pub fn cost(
    name: Option<&str>,
    costing: Option<&Costing>,
    compared: Option<&Comparison>,
    selling: Option<&SoldMeasure>,
    stops: &[Caution],
    diagnostics: &[Diagnostic],
) -> String {
    let Some(c) = costing else {
        return super::text(&json!({
            "formula": name, "currency": null, "batch": null, "per_litre": null, "lines": null, "measures": null, "stops": null,
            "diagnostics": super::findings(diagnostics),
        }));
    };
    let coin = |amount: Option<Decimal>| amount.map(|a| c.currency.text(a));
    let exact = |amount: Option<Decimal>| amount.map(|a| a.round_dp(8).normalize().to_string());
    let sides = |s: &Sides| json!({ "made": coin(Some(s.ours)), "bought": coin(Some(s.theirs)), "saving": coin(Some(s.saving())) });
    let measure = |m: &MeasureCost| json!({ "ml": m.ml, "name": m.name, "cost": coin(Some(m.cost)), "cost_exact": exact(Some(m.cost)) });
    let against = compared.map(|x| json!({
        "bottle_ml": x.bottle_ml,
        "bottle": sides(&x.bottle),
        "measure": { "ml": x.measure.0, "sides": sides(&x.measure.1) },
        "uk_unit": x.uk_unit.as_ref().map(sides),
        "waste": x.waste.map(|w| json!({ "share": w.share, "bottle": sides(&w.bottle), "saving_per_week": coin(Some(w.per_week)) })),
        "break_even_bottles_per_week": match x.break_even { BreakEven::PerWeek(n) => Some(n), BreakEven::Never | BreakEven::NoLife => None },
        "never_breaks_even": x.break_even == BreakEven::Never,
        "turns_on": x.flip.as_ref().map(|f| json!({
            "what": match &f.what { Assumption::Labour => "labour", Assumption::Part(of) => of.as_str(), Assumption::Waste => "waste" },
            "now": exact(Some(f.now)), "at": exact(Some(f.at)),
        })),
    }));
    super::text(&json!({
        "formula": c.name,
        "currency": c.currency.code(),
        "batch": coin(Some(c.batch)),
        "tax_apart": coin(Some(c.tax)),
        "complete": c.complete,
        "per_litre": coin(c.per_litre),
        "per_kg": coin(c.per_kg),
        "per_bottle": coin(c.per_bottle),
        "lines": c.lines.iter().map(|l| json!({
            "of": l.of, "kind": l.kind.word(), "mass_g": l.grams, "cost": coin(l.cost), "tax": coin(l.tax),
            "basis": l.basis, "per_usable_kg": coin(l.per_usable_kg), "why_missing": l.why_missing,
        })).collect::<Value>(),
        "measures": c.measures.iter().chain(&c.serving).map(measure).collect::<Value>(),
        "per_gram_of_sugar": exact(c.per_gram_of_sugar),
        "per_uk_unit": exact(c.per_uk_unit),
        "lost": { "trimmed": coin(Some(c.losses.trimmed)), "strained": coin(Some(c.losses.strained)), "left_behind": coin(Some(c.losses.left_behind)) },
        "most": c.most.as_ref().map(|(of, share)| json!({ "of": of, "share": exact(Some(*share)) })),
        "against": against,
        "selling": selling.map(|SoldMeasure { ml, cost, selling: s }| json!({
            "ml": ml, "cost": coin(Some(*cost)), "before_tax": coin(Some(s.net)), "with_tax": coin(s.with_tax),
            "gross_profit": exact(Some(s.gross_profit)), "pour_cost": exact(Some(s.pour_cost)), "markup": exact(s.markup),
        })),
        "stops": CautionView::all(stops),
        "rounding": "each line to the smallest coin, halves away from zero; a total is the sum of its rounded lines",
        "assumed": c.assumed,
        "diagnostics": super::findings(diagnostics),
    }))
}
