//! JSON for programs. Where there is no number: null, and a diagnostic that says why.

mod cost;
pub mod plan;

pub use cost::cost;

use serde_json::{Map, Value, json};

use crate::cost::usable_kg_in_larder;
use crate::diagnostic::{Code, Diagnostic};
use crate::instruments::{Readings, Told};
use crate::larder::Ingredient;
use crate::mixture::{Component, Estimate};
use crate::properties::Equation;
use crate::references;
use crate::report::doubt::{DoubtView, property_key};
use crate::safety::STANDING_NOTE;
use crate::safety::law::LawRule;
use crate::solver::square::{Square, SquareKind};
use crate::uncertainty::Budget;
use crate::units::{Brix, MassDensity, degrees_celsius, in_kg_per_m3};

fn text(value: &Value) -> String {
    // A tree of plain values always has a text; `{:#}` cannot fail as a writer could.
    format!("{value:#}\n")
}

/// Findings as JSON.
fn findings(diagnostics: &[Diagnostic]) -> Value {
    diagnostics
        .iter()
        .map(|d| {
            json!({
                "code": d.code.as_str(),
                "severity": d.severity.word(),
                "message": d.title,
                "help": d.help,
                "file": d.file.as_deref(),
                "labels": d.labels.iter().map(|l| json!({ "start": l.span.start, "end": l.span.end, "text": l.text })).collect::<Value>(),
            })
        })
        .collect()
}

/// A number of a card and what stands behind it; null where the card has none of it.
pub fn budget(formula: Option<&str>, budget: Option<&Budget>, diagnostics: &[Diagnostic]) -> String {
    text(&json!({
        "formula": formula,
        "property": budget.map(|b| property_key(b.doubt.kind)),
        "value": budget.map(|b| b.value),
        "amount": budget.map(|b| b.amount),
        "whole": budget.map(|b| b.whole),
        "doubt": budget.map(|b| DoubtView::from(&b.doubt)),
        "better": budget.and_then(|b| b.better.as_ref()).map(|x| json!({ "with": x.with, "half_width": x.half_width })),
        "equation": budget.and_then(|b| b.equation).map(equation),
        "diagnostics": findings(diagnostics),
    }))
}

/// A drawn square.
pub fn square(square: Option<&Square>, diagnostics: &[Diagnostic]) -> String {
    let value = square.map(|s| {
        let gives = |of: SquareKind| if s.of == of { s.gives } else { None };
        json!({
            "square": {
                "strong_parts": s.strong_parts, "weak_parts": s.weak_parts,
                "gives_abv_pct": gives(SquareKind::Abv), "gives_brix": gives(SquareKind::Brix),
            },
            "exact": {
                "strong_mass_g": s.exact.strong_g, "strong_volume_ml": s.exact.strong_ml,
                "weak_mass_g": s.exact.weak_g, "weak_volume_ml": s.exact.weak_ml,
                "yield_volume_ml": s.exact.yield_ml, "contraction_ml": s.exact.contraction_ml,
            },
            "diagnostics": findings(diagnostics),
        })
    });
    text(&value.unwrap_or_else(|| json!({ "square": null, "exact": null, "diagnostics": findings(diagnostics) })))
}

/// What readings tell. Where there is no number: null.
pub fn read(readings: &Readings, told: &Told, diagnostics: &[Diagnostic]) -> String {
    let (brix, abv) = (told.brix, told.abv);
    let value = |e: Option<Estimate<MassDensity>>| e.map(|e| in_kg_per_m3(e.value));
    let doubt = |e: Option<Estimate<MassDensity>>| e.map(|e| in_kg_per_m3(e.error));
    let ph = told.ph;
    let acid = told.acid.as_ref();
    let assumed: Vec<_> = diagnostics.iter().filter(|d| d.code == Code::Assumed).map(|d| d.title.as_str()).collect();
    text(&json!({
        "brix": brix.map(|e| e.value.get()),
        "abv_pct": abv.map(|e| e.value.get()),
        "sugar_g_l": value(told.sugar),
        "density_kg_m3": value(told.density),
        "measured_density_kg_m3": value(told.measured_density),
        "proof_us": told.proof,
        "brix_if_invert": told.brix_if_invert.map(Brix::get),
        "ph": ph.map(|p| p.value.get()),
        "ph_low": ph.map(|p| p.low.get()),
        "ph_high": ph.map(|p| p.high.get()),
        "ph_clears_limits": ph.map(|p| p.clears_limits),
        "acid_g_l": acid.map(|a| in_kg_per_m3(a.as_citric.value)),
        "acid_as": acid.map(|a| json!({ "acid": a.named.name, "g_l": in_kg_per_m3(a.as_named.value), "endpoint_ph": a.endpoint.get() })),
        "doubt": {
            "brix": brix.map(|e| e.error.get()),
            "abv_pct": abv.map(|e| e.error.get()),
            "sugar_g_l": doubt(told.sugar),
            "density_kg_m3": doubt(told.density),
            "measured_density_kg_m3": doubt(told.measured_density),
            "acid_g_l": acid.map(|a| in_kg_per_m3(a.as_citric.error)),
            "coverage": 0.95,
        },
        "temperature_c": degrees_celsius(readings.temperature),
        "label_grade": false,
        "assumed": assumed,
        "diagnostics": findings(diagnostics),
    }))
}

/// Findings of a check, by file.
pub fn check(files: usize, diagnostics: &[Diagnostic]) -> String {
    text(&json!({ "files": files, "diagnostics": findings(diagnostics) }))
}

/// Ingredients.
pub fn larder(found: &[&Ingredient], diagnostics: &[Diagnostic]) -> String {
    let ingredients: Value = found
        .iter()
        .map(|i| {
            let per_100g: Map<String, Value> = Component::ALL
                .iter()
                .map(|&c| (c.key().to_owned(), 100.0 * i.per_gram.grams_of(c)))
                .filter(|(_, g)| *g > 0.0)
                .map(|(key, g)| (key, json!(g)))
                .collect();
            json!({
                "id": i.id, "name": i.name, "aliases": i.aliases, "per_100g": per_100g, "holds": i.holds,
                "tags": i.tags, "allergens": i.allergens, "price": i.price, "priced_on": i.priced_on, "usable": i.usable,
                "per_usable_kg": usable_kg_in_larder(i).map(|(currency, cost)| currency.text(cost)),
                "status": i.status, "source": i.source, "notes": i.notes,
            })
        })
        .collect();
    text(&json!({ "ingredients": ingredients, "diagnostics": findings(diagnostics) }))
}

/// Equations and their sources.
pub fn equations(all: &[&Equation], diagnostics: &[Diagnostic]) -> String {
    let listed: Value = all.iter().map(|e| equation(e)).collect();
    text(&json!({ "equations": listed, "diagnostics": findings(diagnostics) }))
}

/// The code of a finding, explained.
pub fn code(code: Code) -> String {
    text(&json!({ "code": code.as_str(), "description": code.description(), "equations": [], "diagnostics": [] }))
}

/// What the law of some markets asks.
pub fn rules(rules: &[&LawRule], diagnostics: &[Diagnostic]) -> String {
    let rule = |r: &&LawRule| {
        json!({
            "id": r.id, "market": r.market, "when": r.test, "asks": r.meaning, "status": r.status,
            "source": references::find(&r.source_id).map(references::Reference::words),
        })
    };
    text(&json!({
        "rules": rules.iter().map(rule).collect::<Value>(), "note": STANDING_NOTE, "diagnostics": findings(diagnostics),
    }))
}

fn equation(e: &Equation) -> Value {
    let cited: Value = e
        .sources
        .iter()
        .map(|key| key.reference())
        .map(|s| {
            json!({
                "key": s.key, "citation": s.words(), "standing": s.standing.words(),
            })
        })
        .collect();
    json!({ "property": e.name, "unit": e.unit, "equation": e.equation, "range": e.range, "error": e.error, "sources": cited })
}

/// Files that were made.
pub fn files(made: &[String], diagnostics: &[Diagnostic]) -> String {
    text(&json!({ "made": made, "diagnostics": findings(diagnostics) }))
}
