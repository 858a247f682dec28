//! `[costs]`: what an hour, a kilowatt-hour and a bottle cost the house, and what it means to earn. Prices
//! stay as written here; the room of money reads them.

use std::sync::Arc;

use uom::si::time::day;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{AMOUNT, FieldKind, FieldShape, FileReader, Given, Laid, Layout, TEXT, layout};
use crate::units::display::as_read;
use crate::units::{NumberRange, readers};

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

impl Laid for Costs {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[costs]",
        ("labour", TEXT, "\"14.00 GBP / h\"", "an hour of work", labour),
        ("energy", TEXT, "\"0.28 GBP / kWh\"", "energy for heating", energy),
        ("heat_efficiency", SOME_SHARE, "\"40 %\"", "the share of the energy that reaches the pan", heat_efficiency),
        ("water", TEXT, "\"2.40 GBP / 1000 L\"", "water", water),
        ("bottle", TEXT, "\"0.60 GBP / each\"", "a bottle with its closure and label", bottle),
        ("duty", TEXT, "\"31.64 GBP / L pure alcohol\"", "duty on what the house makes", duty),
        ("prices", TEXT, "\"excl. VAT\"", "whether prices hold tax, where a price does not say", prices),
        ("sales_tax", SHARE, "\"20 %\"", "tax on what the house sells", sales_tax),
        ("gross_profit", PROFIT, "\"80 %\"", "the share of the price that stays after the cost", gross_profit),
        ("pour_cost", SOME_SHARE, "\"20 %\"", "the share of the price that the cost may take", pour_cost),
        ("stale_after", DAYS, "\"90 days\"", "the age from which a price is pointed out", stale_after_days),
    );
}

pub(super) const COSTS: FieldKind<Costs> = FieldKind::new(FieldShape::Table(Costs::LAYOUT), |given, reader| {
    let table = given.table(reader)?;
    let costs = Costs::LAYOUT.read(table, reader);
    let place = |key| table.get(key).map(|(_, value)| value.span);
    let spans = place("gross_profit").zip(place("pour_cost"));
    if let (Some(gp), Some(pour), Some((gp_at, pour_at))) = (costs.gross_profit, costs.pour_cost, spans)
        && (gp + pour - 1.0).abs() > 1e-9
    {
        reader.found.push(
            Diagnostic::error(Code::Contradiction, "`gross_profit` and `pour_cost` do not add up to 100 %")
                .at(gp_at, "of the price before tax")
                .at(pour_at, "of the same price")
                .help("they say the same thing in two ways: keep one of them"),
        );
    }
    Some(costs)
});

const SHARE: FieldKind<f64> =
    FieldKind::new(AMOUNT, |given, reader| share(given, &NumberRange::all(0.0, 100.0, "%"), reader));
const SOME_SHARE: FieldKind<f64> =
    FieldKind::new(AMOUNT, |given, reader| share(given, &NumberRange::above(0.0, 100.0, "%"), reader));
const PROFIT: FieldKind<f64> =
    FieldKind::new(AMOUNT, |given, reader| share(given, &NumberRange::below(0.0, 100.0, "%"), reader));

fn share(given: &Given<'_>, percent: &NumberRange, reader: &mut FileReader<'_>) -> Option<f64> {
    let share = given.amount(reader, readers::fraction)?;
    if percent.holds(100.0 * share) {
        return Some(share);
    }
    let title = format!("`{}` is {} %", given.about.key, as_read(100.0 * share));
    let help = format!("write for example {}", given.about.line());
    reader.refuse(given.out_of_range(title, &percent.expected(), &help))
}

const DAYS: FieldKind<u32> = FieldKind::new(AMOUNT, |given, reader| {
    let days = given.amount(reader, readers::duration)?.get::<day>();
    if !(1.0..=3650.0).contains(&days) {
        return reader.refuse(
            Diagnostic::error(Code::OutOfRange, format!("`stale_after` is {} days", as_read(days)))
                .at(given.value.span, "1 day to ten years was expected"),
        );
    }
    Some(days as u32)
});
