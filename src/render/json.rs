//! JSON for programs. Where there is no number: null, and a diagnostic that says why.

mod cost;
pub mod plan;

pub use cost::cost;

use serde_json::{Map, Value, json};

use crate::assessment::{Assessment, DatedStore};
use crate::card::TargetKind;
use crate::cost::usable_kg_in_larder;
use crate::diagnostic::{Code, Diagnostic};
use crate::instruments::{Readings, Told};
use crate::larder::Ingredient;
use crate::mixture::{Component, Estimate, Mixture};
use crate::properties::Equation;
use crate::references;
use crate::safety::law::LawRule;
use crate::safety::{Caution, STANDING_NOTE};
use crate::sheet::dosing::FIRST;
use crate::sheet::label_grade::Standing;
use crate::sheet::{Properties, Sheet};
use crate::shelf_life::reason::Mark;
use crate::shelf_life::screen::{ScreenClass, ScreenTable};
use crate::solver::Solved;
use crate::solver::adjust::Adjusted;
use crate::solver::balance::TargetValue;
use crate::solver::card::volume_ml;
use crate::solver::square::{Square, SquareKind};
use crate::uncertainty::adjusted::Landing;
use crate::uncertainty::{Budget, Doubt};
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

/// A solved card.
pub fn solve(name: Option<&str>, sheet: Option<&Sheet>, diagnostics: &[Diagnostic]) -> String {
    text(&match sheet {
        None => json!({
            "formula": name, "parts": null, "yield": null, "properties": null, "doubt": null, "label_tolerance": null,
            "cautions": null, "allergens": null, "date": null, "as_weighed": null, "stages": null, "inner": null,
            "fill": null, "pan": null, "vessel_l": null, "dosing": null, "fixes": null, "crystals": null, "assumed": null,
            "diagnostics": findings(diagnostics),
        }),
        Some(s) => json!({
            "formula": s.name,
            "parts": parts(&s.exact),
            "yield": yields(&s.exact),
            "properties": properties(&s.properties),
            "doubt": doubts(&s.doubts),
            "label_tolerance": s.label_grades.iter().map(|g| json!({
                "points": g.tolerance, "markets": g.markets, "within": g.standing == Standing::Within,
            })).collect::<Value>(),
            "cautions": cautions(&s.dated.cautions),
            "allergens": s.dated.allergens,
            "date": s.dated.stores.get(s.dated.planned).map(store),
            "as_weighed": { "parts": parts(&s.weighed), "yield": yields(&s.weighed), "properties": properties(&s.as_weighed) },
            "stages": s.exact.stages.iter().map(|stage| json!({
                "stage": stage.name,
                "combined_g": stage.course.combined.total_grams(),
                "evaporated_g": stage.course.evaporated_g,
                "in_pan_g": stage.course.in_pan_g(),
                "strained_out_g": stage.course.strained_out_g,
                "left_behind_g": stage.course.left_behind_g,
                "out_g": stage.course.out.total_grams(),
            })).collect::<Value>(),
            "inner": s.exact.inner.iter().map(|(inner, grams)| json!({ "formula": inner.name, "mass_g": grams })).collect::<Value>(),
            "fill": s.fills.map(|f| json!({ "count": f.count, "each_ml": f.each_ml, "each_g": f.each_g })),
            "pan": liquid(&s.in_the_pan(), &s.weighed),
            "vessel_l": s.vessel_l,
            "dosing": s.dosing.iter().map(|d| json!({
                "of": d.label, "mass_g": d.grams, "first_g": FIRST * d.grams, "g_per_litre_of_juice": d.g_per_litre_of_juice,
            })).collect::<Value>(),
            "fixes": s.bench.fixes.iter().map(|f| json!({ "off_brix": f.off_brix, "add_g": f.add_g })).collect::<Value>(),
            "crystals": s.clear.as_ref().map(|c| json!({
                "starts_c": c.starts_c,
                "stores": c.stores.iter().map(|x| json!({
                    "store": x.name, "temperature_c": x.temperature_c, "crystals_g_per_kg": x.crystals_g_per_kg,
                })).collect::<Value>(),
                "richest_ratio": c.richest.as_ref().map(|r| r.0),
                "richest_brix": c.richest.as_ref().map(|r| r.1),
            })),
            "assumed": s.assumed,
            "diagnostics": findings(diagnostics),
        }),
    })
}

/// Half-widths at 95 % of the headline numbers, with what they come from.
fn doubts(all: &[Doubt]) -> Value {
    Value::Object(all.iter().map(|d| (property_key(d.kind).to_owned(), doubt(d))).collect())
}

fn doubt(d: &Doubt) -> Value {
    let shares: Value = d
        .shares
        .iter()
        .map(
            |s| json!({ "what": s.what, "half_width": s.half_width, "of_variance": s.of_variance, "remedy": s.remedy }),
        )
        .collect();
    json!({ "half_width": d.half_width, "coverage": 0.95, "budget": shares })
}

/// The key of a target among the properties.
fn property_key(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Brix => "brix",
        TargetKind::Abv => "abv_pct",
        TargetKind::Sugar => "sugar_g_l",
        TargetKind::Acid => "acid_g_l",
        TargetKind::Ph => "ph",
    }
}

/// A number of a card and what stands behind it; null where the card has none of it.
pub fn budget(formula: Option<&str>, budget: Option<&Budget>, diagnostics: &[Diagnostic]) -> String {
    text(&json!({
        "formula": formula,
        "property": budget.map(|b| property_key(b.doubt.kind)),
        "value": budget.map(|b| b.value),
        "amount": budget.map(|b| b.amount),
        "whole": budget.map(|b| b.whole),
        "doubt": budget.map(|b| doubt(&b.doubt)),
        "better": budget.and_then(|b| b.better.as_ref()).map(|x| json!({ "with": x.with, "half_width": x.half_width })),
        "equation": budget.and_then(|b| b.equation).map(equation),
        "diagnostics": findings(diagnostics),
    }))
}

fn yields(solved: &Solved) -> Value {
    liquid(solved.bottled(), solved)
}

/// A liquid of a solved card; a dried one has no volume.
fn liquid(liquid: &Mixture, solved: &Solved) -> Value {
    json!({ "mass_g": liquid.total_grams(), "volume_ml": volume_ml(liquid).filter(|_| !solved.is_dry()) })
}

fn parts(solved: &Solved) -> Value {
    solved
        .stages
        .iter()
        .flat_map(|stage| {
            stage.parts.iter().map(move |part| {
                json!({
                    "of": part.label,
                    "ingredient": part.of,
                    "stage": stage.name,
                    "mass_g": part.mass_g,
                    "volume_ml": part.volume_ml(),
                    "solved": part.solved,
                    "written": part.written,
                    "strained": part.feed.holds.is_some(),
                })
            })
        })
        .collect()
}

fn properties(p: &Properties) -> Value {
    let mut map = Map::new();
    for (key, value) in p.entries() {
        map.insert(key.to_owned(), json!(value));
    }
    Value::Object(map)
}

/// Cautions.
pub fn cautions(all: &[Caution]) -> Value {
    all.iter()
        .map(|c| {
            json!({
                "code": c.code, "severity": c.severity.word(), "message": c.to_string(), "source": c.sources.join("; "),
                "defer_to": c.defer_to, "because": c.because, "not_stated": c.not_stated,
                "from": c.carried.as_ref().map(|x| x.path.join(" / ")),
            })
        })
        .collect()
}

/// The dates of a product.
pub fn date(dated: Option<(&str, &Assessment)>, diagnostics: &[Diagnostic]) -> String {
    let Some((name, d)) = dated else {
        return text(
            &json!({ "formula": null, "made": null, "screen": null, "stores": null, "cautions": null, "diagnostics": findings(diagnostics) }),
        );
    };
    text(&json!({
        "formula": name,
        "made": d.lot.made.to_string(),
        "screen": d.screen.map(|s| json!({
            "table": if s.table == ScreenTable::A { "a" } else { "b" },
            "class": if s.class == ScreenClass::Pa { "pa" } else { "non_tcs" },
        })),
        "stores": d.stores.iter().map(store).collect::<Value>(),
        "planned": d.stores.get(d.planned).map(|s| s.store.name.as_str()),
        "readings": d.readings,
        "allergens": d.allergens,
        "allergens_listed_in": d.listed_in.iter().map(|(allergen, markets)| json!({
            "allergen": allergen, "markets": markets.iter().map(|m| m.code()).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "allergens_not_stated_for": d.allergens_open,
        "allergens_doubted": d.allergens_doubted,
        "what_if": d.what_if.iter().map(|change| json!({
            "change": change.words,
            "buys": change.buys.iter().map(|b| json!({
                "store": b.store, "days": b.days, "date": b.date.to_string(), "instead_of_days": b.instead_of,
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "cautions": cautions(&d.cautions),
        "note": STANDING_NOTE,
        "diagnostics": findings(&[diagnostics, &without_date(d)].concat()),
    }))
}

/// Where there is no number a program is told why, as it is of every other property.
fn without_date(dated: &Assessment) -> Vec<Diagnostic> {
    let undated = dated.stores.iter().filter(|s| s.date.is_none());
    undated.map(|s| Diagnostic::note(Code::NoDate, super::text::summary(s))).collect()
}

fn store(s: &DatedStore) -> Value {
    let verdict = s.verdict.as_ref();
    let growth = verdict.and_then(|v| v.growth.as_ref()).filter(|_| s.refused.is_empty());
    let quality = verdict.and_then(|v| v.quality.as_ref()).filter(|_| s.refused.is_empty());
    let mark = match s.mark {
        Mark::UseBy => "use_by",
        Mark::BestBefore => "best_before",
        Mark::None => "none",
    };
    let refused =
        (!s.refused.is_empty()).then(|| s.refused.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "));
    json!({
        "store": s.store.name,
        "temperature_c": degrees_celsius(s.store.temperature),
        "days": s.days,
        "date": s.date.map(|d| d.to_string()),
        "mark": mark,
        "decided_by": s.decided_by,
        "tier": s.tier.map(|t| t.words()),
        "refused": refused,
        "ceiling_days": verdict.and_then(|v| v.ceiling_days),
        "growth_days": growth.map(|g| json!({ "q05": g.q05_days, "q50": g.q50_days, "q95": g.q95_days })),
        "p_no_growth": growth.map(|g| g.p_no_growth),
        "quality_days": quality.map(|q| json!({ "q10": q.q10_days, "q50": q.q50_days })),
        "frozen": verdict.is_none(),
        "days_left_when_thawed": s.left_when_thawed,
        "opened": s.opened.as_ref().map(|o| json!({ "days": o.days, "because": o.because })),
        "notes": verdict.map(|v| v.notes.iter().map(|note| note.words()).collect::<Vec<_>>()),
        "cautions": cautions(&s.cautions),
    })
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

/// What to add to a batch; `after` are the properties it then has at 20 °C.
pub fn adjust(
    name: Option<&str>,
    answer: Option<(&Adjusted, &Properties)>,
    doubts: &[Landing],
    stops: &[Caution],
    diagnostics: &[Diagnostic],
) -> String {
    text(&match answer {
        None => json!({
            "formula": name, "add": null, "after": null, "yield": null, "stops": null, "diagnostics": findings(diagnostics),
        }),
        Some((a, after)) => json!({
            "formula": a.name,
            "have": amount(&a.batch),
            "readings": targets(&a.readings),
            "wanted": targets(&a.targets),
            "add": a.add.iter().map(|p| json!({
                "of": p.label, "mass_g": p.mass_g, "volume_ml": p.volume_ml(),
            })).collect::<Value>(),
            "after": properties(after),
            "yield": amount(&a.after()),
            "doubt": doubts.iter().map(|d| json!({
                "of": d.kind.key(), "in_hand": d.before, "after": d.after,
            })).collect::<Value>(),
            "vessel_ml": a.vessel_ml,
            "fits": a.vessel_ml.map(|_| a.share_that_fits().is_none()),
            "draw_off_g": a.draw_off_g(),
            "stops": cautions(stops),
            "diagnostics": findings(diagnostics),
        }),
    })
}

fn amount(liquid: &Mixture) -> Value {
    json!({ "mass_g": liquid.total_grams(), "volume_ml": volume_ml(liquid) })
}

fn targets(targets: &[TargetValue]) -> Value {
    Value::Object(targets.iter().map(|(kind, value)| (kind.key().to_owned(), json!(value))).collect())
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
