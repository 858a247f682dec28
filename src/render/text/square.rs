//! The Pearson square as the trade draws it, and the exact answer below.

use crate::report::square::{SquareReport, SquareView};
use crate::solver::square::SquareKind;
use crate::units::display::grouped;

use super::{maybe, ml_text, table};

pub(in crate::render) fn strength(of: SquareKind, value: f64) -> String {
    let digits = if (value - value.round()).abs() < 1e-9 { 0 } else { 1 };
    match of {
        SquareKind::Abv => format!("{} %", grouped(value, digits)),
        SquareKind::Brix => format!("{} °Bx", grouped(value, digits)),
    }
}

pub(in crate::render) fn parts(n: f64) -> String {
    let digits = if (n - n.round()).abs() < 1e-9 { 0 } else { 1 };
    grouped(n, digits)
}

pub(crate) fn square(report: &SquareReport) -> String {
    let Some(s) = report.answer() else { return String::new() };
    let exact = &s.exact;
    let (strong, weak, target) = (strength(s.of, s.strong), strength(s.of, s.weak), strength(s.of, s.target));
    let side = strong.chars().count().max(weak.chars().count());
    let pad = |text: &str| format!("{}{text}", " ".repeat(side - text.chars().count()));
    let middle = " ".repeat(side);
    let mut out = format!(
        "\n  {}          {} parts strong\n  {middle}  \\     /\n  {middle}   {target}\n  {middle}  /     \\\n  {}          {} parts weak\n\n",
        pad(&strong),
        parts(s.square.strong_parts),
        pad(&weak),
        parts(s.square.weak_parts),
    );
    out.push_str(&by_the_square(s));
    let weak_name = if s.weak == 0.0 { "water".to_owned() } else { format!("weak, {weak}") };
    out.push_str(&format!("\nExactly, for {} at 20 °C\n\n", ml_text(exact.yield_volume_ml)));
    let all = exact.strong_mass_g + exact.weak_mass_g;
    let row =
        |name: String, g: f64, ml: Option<f64>| vec![name, grouped(g, 1), ml.map_or("-".to_owned(), |v| grouped(v, 1))];
    out.push_str(&table::columns(&[
        vec!["take".to_owned(), "g".to_owned(), "ml".to_owned()],
        row(format!("strong, {strong}"), exact.strong_mass_g, exact.strong_volume_ml),
        row(weak_name, exact.weak_mass_g, exact.weak_volume_ml),
        row("makes".to_owned(), all, Some(exact.yield_volume_ml)),
    ]));
    if all > 0.0 {
        out.push_str(&format!(
            "\n  that is {} g of the strong one in 100 g\n",
            grouped(100.0 * exact.strong_mass_g / all, 2)
        ));
    }
    if let Some(lost) = exact.contraction_ml
        && lost.abs() >= 0.05
    {
        let what = if lost > 0.0 { "less comes out than went in" } else { "more comes out than went in" };
        out.push_str(&format!(
            "\n  {} ml {what}: weigh, or make up to the mark with the weak one.\n",
            grouped(lost.abs(), 1)
        ));
    }
    out
}

fn by_the_square(s: &SquareView) -> String {
    let Some(gives) = s.square.gives_abv_pct.or(s.square.gives_brix) else {
        return "By the square, by weight: exact for Brix. Dry sugar has no volume to pour.\n".to_owned();
    };
    let off = gives - s.target;
    let word = if off > 0.0 { "above" } else { "below" };
    let unit = match s.of {
        SquareKind::Abv => "points",
        SquareKind::Brix => "°Bx",
    };
    let why = match s.of {
        SquareKind::Abv => "the square adds volumes; spirit and water shrink when they meet",
        SquareKind::Brix => "Brix counts grams: by weight these parts are exact, by volume they are not",
    };
    let digits = 2;
    if off.abs() < 0.005 {
        return format!("These parts by volume give {}: the square is right here.\n", maybe(Some(gives), digits, ""));
    }
    format!(
        "These parts by volume give {}, {} {unit} {word} the target: {why}.\n",
        maybe(Some(gives), digits, ""),
        grouped(off.abs(), digits)
    )
}
