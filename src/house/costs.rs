//! `[costs]`: what an hour, a kilowatt-hour and a bottle cost the house, and what it means to earn. Prices
//! stay as written here; the room of money reads them.

use std::sync::Arc;

use uom::si::time::day;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::Table;
use crate::larder::amounts::amount;
use crate::units::readers;

/// What `[costs]` says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Costs {
    /// The file that it stands in.
    pub file: Option<Arc<str>>,
    /// An hour of work ("14.00 GBP / h").
    pub labour: Option<Spanned<String>>,
    /// Energy for heating ("0.28 GBP / kWh").
    pub energy: Option<Spanned<String>>,
    /// The share of that energy that reaches the pan, as a fraction.
    pub heat_efficiency: Option<f64>,
    /// Water ("2.40 GBP / 1000 L").
    pub water: Option<Spanned<String>>,
    /// One bottle with its closure and label ("0.60 GBP / each").
    pub bottle: Option<Spanned<String>>,
    /// Duty ("31.64 GBP / L pure alcohol"): there is no default.
    pub duty: Option<Spanned<String>>,
    /// Whether prices hold tax, where a price does not say ("incl. 20 % VAT", "excl. VAT").
    pub prices: Option<Spanned<String>>,
    /// Tax on what the house sells, as a fraction.
    pub sales_tax: Option<f64>,
    /// The share of the price before tax that shall stay after the cost, as a fraction.
    pub gross_profit: Option<f64>,
    /// The share of the price before tax that the cost may take, as a fraction.
    pub pour_cost: Option<f64>,
    /// A price older than this many days is pointed out.
    pub stale_after_days: Option<u32>,
}

const KEYS: &[&str] = &[
    "labour",
    "energy",
    "heat_efficiency",
    "water",
    "bottle",
    "duty",
    "prices",
    "sales_tax",
    "gross_profit",
    "pour_cost",
    "stale_after",
];

/// `[costs]`
pub(super) fn read(table: &Table, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Costs {
    table.check_keys("[costs]", KEYS, found);
    let mut text =
        |key| table.text(key, found).map(|written| Spanned { value: written.value.to_owned(), span: written.span });
    let (labour, energy, water) = (text("labour"), text("energy"), text("water"));
    let (bottle, duty, prices) = (text("bottle"), text("duty"), text("prices"));
    let gross_profit = share(table, "gross_profit", &|x| (0.0..1.0).contains(&x), found);
    let pour_cost = share(table, "pour_cost", &|x| x > 0.0 && x <= 1.0, found);
    if let (Some(gp), Some(pour)) = (gross_profit, pour_cost)
        && (gp.value + pour.value - 1.0).abs() > 1e-9
    {
        found.push(
            Diagnostic::error(Code::Contradiction, "`gross_profit` and `pour_cost` do not add up to 100 %")
                .at(gp.span, "of the price before tax")
                .at(pour.span, "of the same price")
                .help("they say the same thing in two ways: keep one of them"),
        );
    }
    Costs {
        file: Some(Arc::clone(file)),
        labour,
        energy,
        heat_efficiency: share(table, "heat_efficiency", &|x| x > 0.0 && x <= 1.0, found).map(|s| s.value),
        water,
        bottle,
        duty,
        prices,
        sales_tax: share(table, "sales_tax", &|_| true, found).map(|s| s.value),
        gross_profit: gross_profit.map(|s| s.value),
        pour_cost: pour_cost.map(|s| s.value),
        stale_after_days: days(table, found),
    }
}

/// A percentage as a fraction.
fn share(
    table: &Table,
    key: &str,
    possible: &dyn Fn(f64) -> bool,
    found: &mut Vec<Diagnostic>,
) -> Option<Spanned<f64>> {
    let share = amount(table, key, readers::fraction, found)?;
    if !possible(share.value) {
        found.push(
            Diagnostic::error(Code::OutOfRange, format!("`{key}` is {} %", 100.0 * share.value))
                .at(share.span, "a share between nothing and all was expected"),
        );
        return None;
    }
    Some(share)
}

/// `stale_after = "90 days"`
fn days(table: &Table, found: &mut Vec<Diagnostic>) -> Option<u32> {
    let time = amount(table, "stale_after", readers::duration, found)?;
    let days = time.value.get::<day>();
    if !(1.0..=3650.0).contains(&days) {
        found.push(
            Diagnostic::error(Code::OutOfRange, format!("`stale_after` is {days:.0} days"))
                .at(time.span, "1 day to ten years was expected"),
        );
        return None;
    }
    Some(days as u32)
}
