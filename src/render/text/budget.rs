//! One number of a card: how sure it is, what spoils it, and where it comes from.

use crate::properties::of_target;
use crate::report::explain::BudgetReport;
use crate::uncertainty::Budget;
use crate::units::display::{grouped, short};

use super::solve::half_width;
use super::table;

pub(crate) fn budget(report: &BudgetReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let (b, property) = (&view.budget, of_target(view.property));
    // One more than on the sheet.
    let decimals = property.decimals + 1;
    let width = |x: f64| half_width(x, decimals);
    let unit = format!(" {}", b.headline.unit);
    let value = format!("{} ± {}{unit}", grouped(b.value, decimals), width(b.uncertainty.half_width));
    let mut out = format!("\n{}: {} {value} (95 %)\n\n", report.product(), property.label);

    let mut rows = vec![["what".to_owned(), "±".to_owned(), "share".to_owned()].to_vec()];
    let mut remedies = vec!["what to do"];
    for share in &b.uncertainty.shares {
        let percent = match 100.0 * share.of_variance {
            little if little < 0.5 => "< 1 %".to_owned(),
            percent => format!("{} %", grouped(percent, 0)),
        };
        rows.push(vec![share.what.clone(), width(share.half_width), percent]);
        remedies.push(share.remedy);
    }
    for (line, remedy) in table::columns(&rows).lines().zip(remedies) {
        out.push_str(&format!("{line}   {remedy}\n"));
    }
    out.push_str("  Contributions add as squares; a share is of the square.\n");
    if let (Some(better), Some(most)) = (&b.better, b.uncertainty.shares.first()) {
        out.push_str(&format!(
            "  The largest is {}: {} would make it ± {}.\n",
            most.what,
            better.with,
            width(better.half_width)
        ));
    }

    out.push_str("\nWhere it comes from\n");
    out.push_str(&format!("  {}{unit}\n  <- {}\n", grouped(b.value, decimals), of_what(b)));
    let equation = &view.equation;
    out.push_str(&table::wrapped("  <- ", equation.equation));
    for source in &equation.sources {
        out.push_str(&table::wrapped("  <- ", &source.words));
    }
    out.push_str(&table::wrapped("  holds for ", &format!("{}; stated error: {}", equation.range, equation.error)));
    out
}

fn of_what(b: &Budget) -> String {
    let amount = if b.amount < 100.0 { short(b.amount) } else { grouped(b.amount, 1) };
    let whole = match b.headline.in_mass {
        true => format!("{} g", grouped(b.whole, 1)),
        false => format!("{} at 20 °C", super::ml_text(b.whole)),
    };
    format!("{amount} {} in {whole}", b.headline.counts)
}
