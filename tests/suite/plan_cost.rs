//! What a plan costs, against the cheapest that there is.

use chrono::NaiveDate;
use stillroom::plan::{BatchCost, Calendar, Plan, PrepProduct, Uses, Work, schedule};

/// A case of `tests/reference/plans.csv`.
struct Case {
    calendar: Calendar,
    product: PrepProduct,
    cost: BatchCost,
    /// What the cheapest plan costs, proven by HiGHS.
    least: f64,
}

fn cases() -> Vec<Case> {
    let table = include_str!("../reference/plans.csv");
    let rows = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    let of_row = |row: &str| {
        let cells: Vec<&str> = row.split(',').collect();
        let number = |place: usize| cells[place].parse::<f64>().unwrap();
        let mut calendar = Calendar::open_all(NaiveDate::from_ymd_opt(2026, 11, 30).unwrap(), number(0) as i32);
        cells[1].split_whitespace().for_each(|day| calendar.closed[day.parse::<usize>().unwrap()] = true);
        let cost = BatchCost { each_batch: number(6), each_unit: number(7) };
        let product = PrepProduct {
            name: "Cordial".into(),
            life: number(2) as i32,
            par: number(3) as u64,
            uses: Uses::weekly(number(4) as u64),
            largest: Some(number(5) as u64).filter(|most| *most > 0),
            works: vec![Work { stage: None, days_before: 0, takes: None }],
            cost: Some(cost),
            ..PrepProduct::default()
        };
        Case { calendar, product, cost, least: number(8) }
    };
    rows.map(of_row).collect()
}

fn costs(plan: &Plan, cost: BatchCost) -> f64 {
    let lots = plan.products.iter().flat_map(|p| p.lots.iter().filter(|lot| lot.ready.is_some()));
    lots.map(|lot| cost.each_batch + cost.each_unit * lot.amount as f64).sum()
}

#[test]
fn a_plan_costs_hardly_more_than_the_cheapest() {
    let mut ratios = Vec::new();
    for (place, Case { calendar, product, cost, least }) in cases().into_iter().enumerate() {
        let plan = schedule(&calendar, vec![product.clone()]).unwrap();
        let plain = schedule(&calendar, vec![PrepProduct { cost: None, ..product }]).unwrap();
        // A par that the life does not allow is said and not kept: such a plan has no like among the cheapest, which keep it.
        if !plain.products[0].short.is_empty() {
            continue;
        }
        assert!(plan.products[0].short.is_empty(), "case {place}: {:?}", plan.products[0].short);
        let (ours, before) = (costs(&plan, cost) / least, costs(&plain, cost) / least);
        assert!(ours > 0.999, "case {place}: cheaper than the cheapest, {ours}: a rule is broken");
        ratios.push((ours, before, place));
    }
    ratios.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mean = |of: fn(&(f64, f64, usize)) -> f64| ratios.iter().map(of).sum::<f64>() / ratios.len() as f64;
    let (count, ours, before) = (ratios.len(), mean(|r| r.0), mean(|r| r.1));
    println!(
        "{count} plans, {ours:.3} of the least on average, {before:.3} where prices are not known; dearest {:?}",
        ratios.first()
    );
    assert!(count >= 40 && ours <= 1.01, "{count} plans: {ours}\n{ratios:?}");
    // One makes four batches where three would do: each is as large as pays for itself, and none looks beyond the next.
    assert!(ratios.iter().filter(|r| r.0 > 1.05).count() <= 1 && ratios.iter().all(|r| r.0 < 1.08), "{ratios:?}");
    // What the weighing of work against waste is for: this case has batches that are made a day sooner for their par alone.
    assert!(ratios.iter().any(|(ours, before, _)| *before > 1.15 && *ours < 1.01), "{ratios:?}");
}
