//! Where the money of a batch goes, the dearest first.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::fit::{shortened, title};
use super::ink::{CURVE, Drawn, FAINT, HPos, INK, LEFT, RIGHT, Sheet, fill, line, paper, write};
use crate::report::cost::BatchCostView;

/// Height of the title, of one bar, and of the words below, pixels.
const TITLE: i32 = 70;
const BAR: i32 = 32;
const FOOT: i32 = 50;
/// Where the bars begin and end: names to the left, money to the right, pixels.
const BARS: (i32, i32) = (LEFT + 190, RIGHT - 150);

const NAMES: f32 = (BARS.0 - 20) as f32;

/// A bar a line of the costing, as long as its share of the batch. What has no price has no bar and says so. An empty
/// text where the drawing failed.
pub fn where_the_money_goes(name: &str, costing: &BatchCostView) -> String {
    let mut lines: Vec<(&str, Option<Decimal>)> =
        costing.lines.iter().map(|l| (l.of.as_str(), l.cost.map(|cost| cost.amount))).collect();
    // Those without a price last: nobody knows how long their bar is.
    lines.sort_by_key(|(_, cost)| std::cmp::Reverse(cost.unwrap_or(Decimal::NEGATIVE_ONE)));
    let height = TITLE + BAR * i32::try_from(lines.len()).unwrap_or(0) + FOOT;
    paper(height, |sheet| draw(sheet, name, costing, &lines, height))
}

fn draw(
    sheet: &Sheet<'_>,
    product: &str,
    costing: &BatchCostView,
    lines: &[(&str, Option<Decimal>)],
    height: i32,
) -> Drawn {
    let (code, batch) = (costing.currency.code(), costing.batch.amount);
    title(sheet, product, "where the money goes")?;
    let total = if costing.complete { "a batch costs" } else { "without what has no price a batch costs" };
    let made = format!("{total} {} {code}, before tax", costing.batch.coins());
    write(sheet, &made, (LEFT, 46), 13, false, HPos::Left, INK)?;
    let longest = lines.iter().filter_map(|(_, cost)| *cost).max().filter(|most| *most > Decimal::ZERO);
    for (place, (name, cost)) in lines.iter().enumerate() {
        let y = TITLE + BAR * i32::try_from(place).unwrap_or(0) + BAR / 2;
        let short = shortened(name, NAMES, 13, false);
        write(sheet, &short, (BARS.0 - 10, y), 13, false, HPos::Right, INK)?;
        // A bar is a drawing: its length may be rounded, its money may not.
        let share = cost.zip(longest).and_then(|(cost, longest)| (cost / longest).to_f64()).unwrap_or(0.0);
        let to = BARS.0 + (f64::from(BARS.1 - BARS.0) * share).round() as i32;
        fill(sheet, &[(BARS.0, y - 9), (to, y - 9), (to, y + 9), (BARS.0, y + 9)], CURVE)?;
        let of_batch =
            cost.filter(|_| costing.complete && batch > Decimal::ZERO).map(|cost| cost * Decimal::ONE_HUNDRED / batch);
        let words = match (cost, of_batch) {
            (Some(cost), Some(share)) => format!("{} {code}, {} %", costing.currency.text(*cost), share.round()),
            (Some(cost), None) => format!("{} {code}", costing.currency.text(*cost)),
            (None, _) => "no price".to_owned(),
        };
        write(sheet, &words, (to + 8, y), 13, true, HPos::Left, INK)?;
    }
    let foot = height - FOOT + 12;
    line(sheet, &[(BARS.0, TITLE), (BARS.0, foot - 8)], FAINT, 1)?;
    write(
        sheet,
        "Losses are inside the lines. Prices as the house entered them.",
        (LEFT, foot + 12),
        12,
        false,
        HPos::Left,
        INK,
    )
}
