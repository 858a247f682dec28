//! Another part in a drink: what to pour, and what the glass then is.

use crate::assessment::allergens_by_group;
use crate::drinks::Figures;
use crate::report::glass_swap::{GlassSwapReport, GlassSwapView, SwappedGlassView};
use crate::report::money::Money;
use crate::units::display::{grouped, short};

use super::table;

pub(crate) fn glass_swap(report: &GlassSwapReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let head = format!("{} in place of {}", view.new, view.old);
    let mut out = table::wrapped(&format!("\n{} · ", report.product()), &head);
    out.push_str(&table::columns_noted(&pours(view)));
    out.push('\n');
    out.push_str(&table::columns(&holds(view)));
    out.push_str(&table::wrapped("  nearest: ", &counted(view)));
    out.push_str(&table::wrapped("  still different: ", &still_different(view)));
    out.extend(come_in(view).iter().map(|said| table::wrapped("  comes in: ", said)));
    out.push_str(&super::serve::cautions(&view.cautions));
    out.push_str(&super::notes(report.findings()));
    out
}

/// What is poured now, and in the glass that comes nearest.
fn pours(view: &GlassSwapView) -> Vec<Vec<String>> {
    let poured = |ml: Option<f64>, weighed_g: Option<f64>| match (ml, weighed_g) {
        (Some(ml), _) => short(ml),
        (None, Some(grams)) => format!("{} g", short(grams)),
        (None, None) => "-".to_owned(),
    };
    let head = ["pour", "ml, old", "ml, new", ""].map(str::to_owned).to_vec();
    let rows = view.lines.iter().map(|line| {
        let ounces = line.in_ounces.clone().unwrap_or_default();
        let pour = &line.pour;
        let [old, new] = [pour.before_ml, pour.nearest_ml].map(|ml| poured(ml, pour.weighed_g));
        vec![pour.of.clone(), old, new, ounces]
    });
    std::iter::once(head).chain(rows).collect()
}

/// What near means.
fn counted(view: &GlassSwapView) -> String {
    let [alcohol, sugar, acid, ml] = view.counts_alike.map(short);
    format!(
        "only the new part is moved, and plain water or soda, in steps of {} ml; {alcohol} g of alcohol, {sugar} g of sugar, {acid} g \
         of acid and {ml} ml count alike",
        short(view.step_ml)
    )
}

/// The allergens that come in, and of what that comes in nobody has stated them.
fn come_in(view: &GlassSwapView) -> Option<String> {
    let added = (!view.allergens.added.is_empty()).then(|| allergens_by_group(&view.allergens.added));
    let open = &view.allergens.not_stated;
    let open = (!open.is_empty()).then(|| format!("allergens not stated for {}", open.join(", ")));
    let all: Vec<String> = added.into_iter().chain(open).collect();
    (!all.is_empty()).then(|| format!("{}; tell every guest", all.join(", ")))
}

/// What of the nearest glass a guest tells from what it was; flavour and colour of every other part.
fn still_different(view: &GlassSwapView) -> String {
    let (was, is) = (&view.before.figures, &view.nearest.figures);
    let acid = |of: &Figures| of.acid_g.unwrap_or_default();
    let [alcohol, sugar, sour, ml] = view.counts_alike;
    let told = [
        ("ml", was.volume_ml, is.volume_ml, ml, 0),
        ("alcohol, g", was.alcohol_g, is.alcohol_g, alcohol, 1),
        ("sugar, g", was.sugar_g, is.sugar_g, sugar, 1),
        ("acid, g", acid(was), acid(is), sour, 2),
    ];
    let differs = told.into_iter().filter(|(_, was, is, told, _)| (is - was).abs() >= *told);
    let differs =
        differs.map(|(name, was, is, _, places)| format!("{name} {} -> {}", grouped(was, places), grouped(is, places)));
    let all: Vec<String> = differs.chain((!view.is_itself).then(|| "flavour and colour".to_owned())).collect();
    if all.is_empty() { "nothing, it is the same part".to_owned() } else { all.join("; ") }
}

fn holds(view: &GlassSwapView) -> Vec<Vec<String>> {
    let glasses = [&view.before, &view.alike, &view.nearest];
    let row = |name: &str, of: &dyn Fn(&SwappedGlassView) -> String| -> Vec<String> {
        std::iter::once(name.to_owned()).chain(glasses.map(of)).collect()
    };
    let figure = |of: fn(&Figures) -> f64, decimals: usize| {
        move |glass: &SwappedGlassView| grouped(of(&glass.figures), decimals)
    };
    vec![
        ["the glass", "old", "poured alike", "nearest"].map(str::to_owned).to_vec(),
        row("ml", &figure(|f| f.volume_ml, 0)),
        row("ABV, %", &figure(|f| f.abv_pct, 1)),
        row("alcohol, g", &figure(|f| f.alcohol_g, 1)),
        row("sugar, g", &figure(|f| f.sugar_g, 1)),
        row("acid, g", &figure(|f| f.acid_g.unwrap_or(f64::NAN), 2)),
        row("costs", &|glass| glass.cost.map_or_else(|| "not known".to_owned(), Money::to_coin)),
    ]
}
