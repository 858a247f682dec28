//! The plan: nothing is made after it is needed or expires before it is used, and the orders cover the prep exactly.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use crate::generated::config;
use crate::kitchen::{Kitchen as House, run_in};
use chrono::NaiveDate;
use proptest::prelude::*;
use stillroom::plan::model::{Draw, PrepUnit};
use stillroom::plan::orders::{Timing, orders};
use stillroom::plan::tables::{PrepStep, tasks};
use stillroom::plan::{
    Calendar, Goes, Kitchen, OnHand, PrepLot, PrepProduct, Stocked, Take, Uses, Work, board, on_hand, schedule, settle,
    stock,
};
use stillroom::plan::{Plan, Planned, Short, Why};
use stillroom::render::csv::{order_csv, prep_csv};
use stillroom::report::plan::PlanView;
use stillroom::shelf_life::Draws;
use stillroom::units::Customs;

fn date(text: &str) -> NaiveDate {
    NaiveDate::parse_from_str(text, "%Y-%m-%d").unwrap()
}

/// A week from Monday 30 November 2026.
fn week() -> Calendar {
    Calendar::open_all(date("2026-11-30"), 7)
}

fn work(days_before: i32) -> Work {
    Work { stage: (days_before > 0).then(|| "maceration".to_owned()), days_before, takes: None }
}

fn product(name: &str, life: i32, a_week: u64, works: &[i32]) -> PrepProduct {
    PrepProduct {
        name: name.to_owned(),
        life,
        uses: Uses::weekly(a_week),
        works: works.iter().copied().map(work).collect(),
        ..PrepProduct::default()
    }
}

fn planned<'a>(plan: &'a Plan, name: &str) -> &'a Planned {
    plan.products.iter().find(|p| p.product.name == name).unwrap()
}

fn made(plan: &Plan, name: &str) -> Vec<(i32, u64, i32)> {
    let lots = &planned(plan, name).lots;
    lots.iter().filter_map(|l| Some((l.ready?, l.amount, l.use_by))).collect()
}

// Story 17: pars, on hand, lead times, closed days -> a dated list.

#[test]
fn a_week_by_hand() {
    // Closed on Monday and Thursday; 700 ml a week on the five other days is 140 ml a day.
    let mut calendar = week();
    (calendar.closed[0], calendar.closed[3]) = (true, true);
    let mut cordial = product("Cordial", 2, 700, &[0]);
    cordial.par = 200;
    cordial.on_hand = vec![
        OnHand { amount: 250, use_by: 1, ..OnHand::default() },
        OnHand { amount: 90, use_by: -1, ..OnHand::default() },
    ];
    let plan = schedule(&calendar, vec![cordial]).unwrap();
    // Tuesday opens with 250 and uses 140; the other 110 are past their date on Wednesday. Wednesday's batch lives to
    // Friday: 140 on each. Friday opens with 140, less than par: its own batch lives to Sunday, 140 on Saturday and
    // 140 on Sunday, no more. So Sunday opens with 140: 60 are missing to par, which Tuesday will use.
    assert_eq!(made(&plan, "Cordial"), [(2, 280, 4), (4, 280, 6), (6, 60, 8)]);
    let thrown: Vec<_> = tasks(&plan, &[]).into_iter().filter(|t| matches!(t.what, PrepStep::ThrowAway(_))).collect();
    // 90 ml on Tuesday, the first open day, and 110 ml on Wednesday.
    assert_eq!(thrown.iter().map(|t| (t.day, t.amount)).collect::<Vec<_>>(), [(1, 90), (2, 110)]);
    assert!(planned(&plan, "Cordial").short.is_empty());
}

#[test]
fn what_goes_into_another_is_made_on_the_day_that_it_goes_in() {
    let mut liqueur = product("Liqueur", 60, 700, &[3, 0]);
    liqueur.on_hand = vec![OnHand { amount: 450, use_by: 9, ..OnHand::default() }];
    liqueur.parts = vec![Goes { of: "Syrup".into(), days_before: 0, per_unit: 0.25 }];
    liqueur.smallest = 1000;
    let syrup = product("Syrup", 30, 0, &[0]);
    let plan = schedule(&week(), vec![liqueur, syrup]).unwrap();
    // 450 ml last to Thursday; Friday (day 4) would go short by 50; the maceration begins on Tuesday.
    assert_eq!(made(&plan, "Liqueur"), [(4, 1000, 34)]);
    assert_eq!(made(&plan, "Syrup"), [(4, 250, 34)]);
    let starts: Vec<_> = tasks(&plan, &[]).into_iter().filter(|t| matches!(t.what, PrepStep::Start { .. })).collect();
    assert_eq!((starts.len(), starts[0].day), (1, 1));
}

#[test]
fn what_cannot_be_ready_is_said_with_the_first_day_that_it_can() {
    let liqueur = product("Liqueur", 60, 700, &[10, 0]);
    let settled = settle(&week(), vec![liqueur], &[]).unwrap();
    let plan = &settled.plan;
    // begun on the first day, it is ready on the tenth, for what is used until what begins on the last day is ready: 7 x 100 ml
    assert_eq!(made(plan, "Liqueur"), [(10, 700, 70)]);
    let short = &planned(plan, "Liqueur").short;
    assert_eq!(short.len(), 7);
    assert_eq!(short[0], Short { day: 0, amount: 100, why: Why::Use(Some(10)) });
    let found = stillroom::plan::findings::plan_findings(&settled);
    assert_eq!(
        found[0].plain(""),
        "error[not-in-time] `Liqueur`: 700 ml are missing, Mon 30 Nov 2026 to Sun 6 Dec 2026\n  help: the first day on \
         which it can be ready is Thu 10 Dec 2026; until then buy it in, or take it off the menu\n"
    );
}

#[test]
fn an_older_bottle_of_a_part_brings_the_date_down() {
    let mut liqueur = product("Liqueur", 30, 700, &[0]);
    liqueur.parts = vec![Goes { of: "Syrup".into(), days_before: 0, per_unit: 0.5 }];
    let mut syrup = product("Syrup", 30, 0, &[0]);
    syrup.on_hand = vec![OnHand { amount: 5000, use_by: 12, ..OnHand::default() }];
    let plan = schedule(&week(), vec![liqueur, syrup]).unwrap();
    assert_eq!(made(&plan, "Syrup"), []);
    assert_eq!(made(&plan, "Liqueur"), [(0, 700, 12)]);
}

/// A liqueur in which nothing grows has its own date from the day it is made, as `date` and `record` give it; a syrup past its date
/// never goes in.
#[test]
fn what_counts_from_its_own_day_is_not_dated_by_its_part() {
    let liqueur = |held: Vec<OnHand>| {
        let syrup = PrepProduct { on_hand: held, ..product("syrup", 7, 0, &[0]) };
        let parts = vec![Goes { of: "syrup".into(), days_before: 0, per_unit: 0.5 }];
        let liqueur = PrepProduct { own_clock: true, parts, ..product("liqueur", 59, 700, &[0]) };
        schedule(&week(), vec![liqueur, syrup]).unwrap()
    };
    let plan = liqueur(Vec::new());
    let of_liqueur = made(&plan, "liqueur");
    assert!(
        !of_liqueur.is_empty() && of_liqueur.iter().all(|(ready, _, use_by)| use_by - ready == 59),
        "{of_liqueur:?}"
    );
    // a bottle of syrup that ends today goes in today, and one that ended does not
    let first = of_liqueur[0].0;
    let taken = |plan: &Plan| {
        planned(plan, "syrup")
            .run
            .taken
            .iter()
            .any(|(_, lot, _)| *lot == 0 && planned(plan, "syrup").lots[0].ready.is_none())
    };
    assert!(taken(&liqueur(vec![OnHand { amount: 10_000, use_by: first, ..OnHand::default() }])));
    assert!(!taken(&liqueur(vec![OnHand { amount: 10_000, use_by: first - 1, ..OnHand::default() }])));
}

#[test]
fn a_par_that_a_life_does_not_allow_is_lowered_and_said() {
    let mut juice = product("Juice", 0, 700, &[0]);
    juice.par = 500;
    juice.smallest = 300;
    let settled = settle(&week(), vec![juice], &[]).unwrap();
    assert_eq!(made(&settled.plan, "Juice"), (0..7).map(|d| (d, 100, d)).collect::<Vec<_>>());
    let plain: String = stillroom::plan::findings::plan_findings(&settled).iter().map(|d| d.plain("")).collect();
    assert!(plain.contains("a par of 500 ml is more than is used before it expires"), "{plain}");
    assert!(
        plain.contains(
            "`Juice` is planned below its smallest batch of 300 ml: 100 ml on Mon 30 Nov, 100 ml on Tue 1 Dec"
        ),
        "{plain}"
    );
}

/// What is bought by the gram, and comes so many days after the order.
fn bought(name: &str, lead: i32, on_hand: u64) -> Stocked {
    Stocked {
        name: name.into(),
        unit: PrepUnit::G,
        grams_per_unit: 1.0,
        pack: None,
        pack_by_price: false,
        in_pack: 1,
        lead,
        deliver: None,
        on_hand: on_hand * 1000,
        fruit: None,
        keeps: None,
        poured: Vec::new(),
    }
}

#[test]
fn what_would_be_past_its_date_before_its_ingredient_comes_is_not_planned() {
    let mut juice = product("Juice", 2, 700, &[0]);
    juice.takes = vec![Take { of: "lime".into(), days_before: 0, grams_per_unit: 1.0 }];
    let mut sour = product("Sour", 30, 70, &[0]);
    sour.parts = vec![Goes { of: "Juice".into(), days_before: 0, per_unit: 0.5 }];
    // ordered on Monday (day 0), there on Friday (day 4): the juice of Monday is no longer good then, that of Wednesday
    // would be, and waits.
    let settled = settle(&week(), vec![juice.clone(), sour.clone()], &[bought("lime", 4, 0)]).unwrap();
    let of_juice = made(&settled.plan, "Juice");
    assert!(!of_juice.is_empty() && of_juice.iter().all(|(_, _, use_by)| *use_by >= 4), "{of_juice:?}");
    assert!(made(&settled.plan, "Sour").iter().all(|(ready, ..)| *ready >= 2));
    let plain: String = stillroom::plan::findings::plan_findings(&settled).iter().map(|d| d.plain("")).collect();
    for said in [
        "`Juice`: 200 ml are missing, Mon 30 Nov 2026 to Tue 1 Dec 2026\n  help: the first day on which it can be ready is Wed 2 Dec 2026",
        "error[late-order] `Juice` waits for `lime` longer than it keeps, and is not planned until then\n  help: ordered at once it comes on Fri 4 Dec 2026",
    ] {
        assert!(plain.contains(said), "{said}\nnot in\n{plain}");
    }
    // What there is goes to what it is enough for.
    let settled = settle(&week(), vec![juice, sour], &[bought("lime", 4, 400)]).unwrap();
    assert_eq!(made(&settled.plan, "Juice")[0].0, 0, "{plain}");
}

#[test]
fn a_ring_has_no_plan() {
    let mut a = product("A", 9, 70, &[0]);
    a.parts = vec![Goes { of: "B".into(), days_before: 0, per_unit: 0.1 }];
    let mut b = product("B", 9, 70, &[0]);
    b.parts = vec![Goes { of: "A".into(), days_before: 0, per_unit: 0.1 }];
    assert_eq!(schedule(&week(), vec![b, a]).unwrap_err(), ["A", "B", "A"]);
}

// Properties over thousands of boards.

fn uses() -> impl Strategy<Value = Uses> {
    (proptest::array::uniform7(proptest::option::weighted(0.2, 0u64..900)), 0u64..6000)
        .prop_map(|(on, week)| Uses { on, week })
}

fn one_product() -> impl Strategy<Value = PrepProduct> {
    let works = prop_oneof![3 => Just(vec![0]), 2 => (1i32..5).prop_map(|d| vec![d, 0]), 1 => (1i32..4, 1i32..4).prop_map(|(a, b)| vec![a + b, b, 0])];
    let held = proptest::collection::vec((1u64..2500, -2i32..15), 0..3);
    let takes = proptest::collection::vec((0usize..3, 0.001f64..1.2), 0..3);
    (
        works,
        0i32..16,
        uses(),
        0u64..2000,
        prop_oneof![Just(0u64), 1u64..1500],
        proptest::option::weighted(0.3, 300u64..3000),
        held,
        takes,
    )
        .prop_map(|(works, life, uses, par, smallest, largest, held, takes)| {
            let first = works[0];
            PrepProduct {
                life,
                par: if par % 3 == 0 { 0 } else { par },
                uses,
                smallest: smallest.min(largest.unwrap_or(u64::MAX)),
                largest,
                on_hand: held
                    .into_iter()
                    .map(|(amount, use_by)| OnHand { amount, use_by, ..OnHand::default() })
                    .collect(),
                works: works.into_iter().map(work).collect(),
                takes: takes
                    .into_iter()
                    .map(|(of, grams_per_unit)| Take { of: INGREDIENTS[of].into(), days_before: first, grams_per_unit })
                    .collect(),
                ..PrepProduct::default()
            }
        })
}

const INGREDIENTS: [&str; 3] = ["sugar", "rum", "clove"];

fn a_board() -> impl Strategy<Value = (Calendar, Vec<PrepProduct>)> {
    let products = proptest::collection::vec(one_product(), 1..6);
    // product i may go into product j > i
    let goes = proptest::collection::vec((0usize..6, 0usize..6, 0.01f64..0.9, any::<bool>()), 0..5);
    let closed = (proptest::collection::btree_set(0usize..7, 0..3), proptest::collection::btree_set(0i32..21, 0..3));
    (products, goes, closed, 0i32..7, 1i32..22).prop_map(|(mut products, goes, (weekdays, single), first, days)| {
        for (i, product) in products.iter_mut().enumerate() {
            product.name = format!("P{i}");
        }
        for (a, b, per_unit, early) in goes {
            let (inner, outer) = (a.min(b), a.max(b));
            if inner != outer
                && outer < products.len()
                && !products[outer].parts.iter().any(|g| g.of == format!("P{inner}"))
            {
                let days_before = if early { products[outer].lead() } else { 0 };
                products[outer].parts.push(Goes { of: format!("P{inner}"), days_before, per_unit });
            }
        }
        let from = date("2026-11-30") + chrono::Days::new(first as u64);
        let mut calendar = Calendar::open_all(from, days);
        for day in weekdays {
            calendar.closed[day] = true;
        }
        calendar.closed_on = single.into_iter().map(|d| calendar.date(d)).collect();
        (calendar, products)
    })
}

fn lots(plan: &Plan) -> Vec<(String, Vec<PrepLot>)> {
    plan.products.iter().map(|p| (p.product.name.clone(), p.lots.clone())).collect()
}

proptest! {
    #![proptest_config(config(4000, 17))]

    #[test]
    fn no_lead_time_date_or_closed_day_is_broken((calendar, products) in a_board()) {
        let plan = schedule(&calendar, products.clone()).unwrap();
        let lot_of = |name: &str, ready: i32| planned(&plan, name).lots.iter().filter(|l| l.ready == Some(ready)).copied().collect::<Vec<_>>();
        for p in &plan.products {
            // hands on open days only, from the first day on, within the plan; what takes longer than that is begun in it
            let lead = p.product.lead();
            let within = if lead < calendar.days { calendar.days } else { calendar.days + lead };
            for lot in &p.lots {
                if let Some(ready) = lot.ready {
                    prop_assert!(ready < within && lot.amount > 0);
                    prop_assert!(lot.use_by >= ready && lot.use_by <= ready + p.product.life);
                    for w in &p.product.works {
                        prop_assert!(ready - w.days_before >= 0 && calendar.is_open(ready - w.days_before));
                    }
                    prop_assert!(p.product.largest.is_none_or(|most| lot.amount <= most));
                }
            }
            // nothing is used before it is there or after its date, and no more of it than there is
            let mut from_lot = vec![0u64; p.lots.len()];
            let mut for_draw = vec![0u64; p.draws.len()];
            for &(draw, lot, amount) in &p.run.taken {
                let day = p.draws[draw].day;
                prop_assert!(p.lots[lot].ready.is_none_or(|r| r <= day) && day <= p.lots[lot].use_by);
                from_lot[lot] += amount;
                for_draw[draw] += amount;
            }
            for (lot, used) in p.lots.iter().zip(&from_lot) {
                prop_assert!(*used <= lot.amount);
                // what the plan makes is used to the last drop before it expires
                prop_assert!(lot.ready.is_none() || *used == lot.amount, "{lot:?} {used}");
            }
            // what is used is what the board says, and it is there or reported
            let said: BTreeMap<i32, u64> = p.short.iter().filter(|s| matches!(s.why, Why::Use(_))).map(|s| (s.day, s.amount)).collect();
            for day in 0..calendar.days {
                let wanted = p.product.uses.on_day(&calendar, day);
                let got: u64 = p.draws.iter().zip(&for_draw).filter(|(d, _)| d.day == day && d.into.is_none()).map(|(_, got)| *got).sum();
                prop_assert_eq!(got + said.get(&day).copied().unwrap_or(0), wanted, "{} on day {}", p.product.name, day);
            }
            // no day below par without a word
            for day in (0..calendar.days).filter(|d| calendar.is_open(*d)) {
                let low = p.run.opening[day as usize] < p.product.par;
                prop_assert!(!low || p.short.iter().any(|s| s.day == day && !matches!(s.why, Why::Use(_))));
            }
            // what is said to be out of time is: no day would do (products without parts)
            for short in p.short.iter().filter(|_| p.product.parts.is_empty()) {
                let possible = |r: i32| p.product.works.iter().all(|w| r - w.days_before >= 0 && calendar.is_open(r - w.days_before));
                if let Why::Use(first) | Why::Par(first) = short.why {
                    prop_assert!((0..=short.day).all(|r| !possible(r) || r + p.product.life < short.day));
                    prop_assert!(first.is_none_or(|r| r > short.day && possible(r) && (short.day + 1..r).all(|r| !possible(r))));
                }
            }
            // what goes in is there, to the drop, and keeps as long as what it goes into is dated
            for goes in &p.product.parts {
                let part = planned(&plan, &goes.of);
                let place = plan.products.iter().position(|q| q.product.name == p.product.name).unwrap();
                let mut readies: Vec<i32> = p.lots.iter().filter_map(|l| l.ready).collect();
                readies.dedup();
                // what goes in behind the plan is made by the next one
                for ready in readies.into_iter().filter(|ready| ready - goes.days_before < calendar.days) {
                    let lots = lot_of(&p.product.name, ready);
                    let wanted: u64 = lots.iter().map(|l| (l.amount as f64 * goes.per_unit).ceil() as u64).sum();
                    let taken: Vec<_> = part.run.taken.iter().filter(|(d, _, _)| part.draws[*d].into == Some((place, ready))).collect();
                    prop_assert_eq!(taken.iter().map(|t| t.2).sum::<u64>(), wanted);
                    for (draw, lot, _) in taken {
                        prop_assert_eq!(part.draws[*draw].day, ready - goes.days_before);
                        prop_assert!(lots.iter().all(|l| l.use_by <= part.lots[*lot].use_by));
                    }
                }
            }
        }
    }

    #[test]
    fn what_is_made_stands_before_all_that_is_done_with_it_that_day((calendar, products) in a_board()) {
        let plan = schedule(&calendar, products).unwrap();
        let list = tasks(&plan, &[]);
        let steps = |name: &str, day: i32, is: fn(&PrepStep<'_>) -> bool| -> Vec<usize> {
            let of_day = |(_, t): &(usize, &stillroom::plan::tables::Task<'_>)| t.day == day && t.product == name && is(&t.what);
            list.iter().enumerate().filter(of_day).map(|(place, _)| place).collect()
        };
        for inner in &plan.products {
            for &(draw, lot, _) in &inner.run.taken {
                let draw = inner.draws[draw];
                let (Some(into), true) = (draw.into, inner.lots[lot].ready == Some(draw.day)) else { continue };
                let outer = &plan.products[into.0].product;
                let made = steps(&inner.product.name, draw.day, |s| matches!(s, PrepStep::Make(_)));
                let taken = list.iter().position(|t| {
                    t.day == draw.day && t.product == inner.product.name && t.what == PrepStep::GoesInto(&outer.name)
                });
                prop_assert!(made.iter().max() < taken.as_ref(), "{} is taken before it is made", inner.product.name);
                let of_outer = if into.1 == draw.day { steps(&outer.name, draw.day, |s| matches!(s, PrepStep::Make(_))) } else { Vec::new() };
                prop_assert!(of_outer.iter().all(|place| made.iter().all(|made| made < place)), "{} before its part {}", outer.name, inner.product.name);
            }
        }
    }

    #[test]
    fn the_order_of_the_products_does_not_matter((calendar, products) in a_board(), turn in 0usize..6) {
        let plan = schedule(&calendar, products.clone()).unwrap();
        let mut turned = products;
        turned.reverse();
        let by = turn % turned.len();
        turned.rotate_left(by);
        prop_assert_eq!(lots(&plan), lots(&schedule(&calendar, turned).unwrap()));
    }

    #[test]
    fn orders_cover_the_prep_exactly(
        (calendar, products) in a_board(),
        how in proptest::array::uniform3((proptest::option::of(1_000u64..800_000), 0u64..900_000, 0i32..5, proptest::option::of(0usize..7))),
    ) {
        let plan = schedule(&calendar, products).unwrap();
        let stocked: Vec<Stocked> = INGREDIENTS.iter().zip(how).map(|(name, (pack, on_hand, lead, day))| Stocked {
            name: (*name).into(), unit: PrepUnit::G, grams_per_unit: 1.0, pack, pack_by_price: false, in_pack: 1, lead, on_hand,
            deliver: day.map(|d| std::array::from_fn(|w| w == d)), fruit: None, keeps: None, poured: Vec::new(),
        }).collect();
        let list = orders(&plan, &stocked);
        for of in &stocked {
            let mut need = BTreeMap::<i32, f64>::new();
            for p in &plan.products {
                for lot in p.lots.iter().filter(|l| l.ready.is_some()) {
                    for take in p.product.takes.iter().filter(|t| t.of == of.name) {
                        *need.entry(lot.ready.unwrap() - take.days_before).or_default() += lot.amount as f64 * take.grams_per_unit * 1000.0;
                    }
                }
            }
            let whole: f64 = need.values().sum();
            let slack = 1.0 + need.len() as f64; // each day is rounded up to a thousandth
            let Some(order) = list.iter().find(|o| o.of.name == of.name) else {
                prop_assert!(whole <= of.on_hand as f64 + 1.0);
                continue;
            };
            let there = (order.amount() + of.on_hand) as f64;
            prop_assert!(there >= whole - 0.01, "{there} < {whole}");
            prop_assert!(there - whole < order.pack() as f64 + slack);
            prop_assert!(order.packs > 0);
            let mut sum = 0.0;
            let first_short = need.iter().find(|(_, g)| { sum += **g; sum > of.on_hand as f64 + 1e-3 }).map(|(d, _)| *d);
            prop_assert!(first_short.is_none_or(|d| order.needed <= d));
            match order.timing {
                Timing::By(day, comes) => {
                    prop_assert!(day >= 0 && calendar.is_open(day) && calendar.is_open(comes));
                    prop_assert!(day + of.lead <= comes && comes <= order.needed);
                }
                Timing::Late { ordered, comes } => {
                    prop_assert!(comes.is_none_or(|d| d > order.needed));
                    // nobody orders on a day on which the house is closed, unless it is closed all along
                    prop_assert!(plan.calendar.is_open(ordered) || (0..plan.calendar.days).all(|d| !plan.calendar.is_open(d)));
                }
            }
        }
    }
}

// The board, its cards and its tables.

const LARDER: &str = "[ingredient.\"white rum\"]\nabv = 63\nsource = \"label\"\nprice = \"30 GBP / 700 ml\"\n";
const SYRUP: &str = r#"name = "Plain syrup"
makes = "1 L"
class = "plain syrup"
[parts]
"white sugar" = "1 part by weight"
water = "1 part by weight"
[keep]
fill = "cold"
closed = true
in = "glass"
"#;

/// What is found on a board in a house of one syrup, in plain lines.
fn findings(text: &str) -> String {
    let house = House::new(LARDER);
    house.write("syrup.toml", SYRUP);
    let ring = |own: &str, other: &str| {
        format!("name = \"{own}\"\nmakes = \"1 L\"\n[parts]\n\"{other}\" = \"500 g\"\nwater = \"500 g\"\n")
    };
    house.write("ring-a.toml", &ring("Ring A", "Ring B"));
    house.write("ring-b.toml", &ring("Ring B", "Ring A"));
    let (settings, _) = stillroom::house::House::find(house.folder());
    let file: Arc<str> = "plan.toml".into();
    let mut found = Vec::new();
    let board = board::read(text, &file, &Customs::default(), &mut found);
    let draws = Draws { draws: 200, ..Draws::default() };
    let (_, more) = Kitchen::gather(&board, &file, &settings, date("2026-11-30"), draws);
    found.extend(more);
    found
        .iter()
        .map(|d| if d.file.as_ref() == Some(&file) { d.plain(text) } else { crate::kitchen::plain(d) })
        .collect()
}

#[test]
fn bad_boards_are_told_what_to_do_all_in_one_run() {
    let found = findings(
        "[plan]\nfrom = \"2026-11-31\"\nclosed = [\"Mnday\"]\nwekes = 1\n\n[product.\"Plain syrup\"]\npar = \"2 L\"\n\n\
         [product.\"Plane syrup\"]\nuse = \"6 L\"\n\n[ingredient.\"white rumm\"]\npack = \"700\"\n",
    );
    for line in [
        "error[not-a-date] plan.toml:2:8 `from` is `2026-11-31`, which is not a day\n",
        "error[unknown-key] plan.toml:4:1 [plan] has no key `wekes`\n  4:1 wekes  <- not known here\n  help: did you \
         mean `weeks`?\n",
        "error[unknown-word] plan.toml:3:11 `closed`: `Mnday` is not a day of the week\n",
        "  help: did you mean `Monday`?\n",
        "error[par-without-use] plan.toml:7:7 `Plain syrup` has a par and no use\n  7:7 \"2 L\"  <- how fast does it \
         go?\n  help: add use = \"6 L a week\" or use = \"900 ml a day\", or sell a drink with it in menu.toml: without it \
         nobody can say when it runs out or how much its life allows\n",
        "error[no-unit] plan.toml:10:8 `6 L` does not say in what time it is used\n  10:8 6 L  <- in `use`\n  \
         help: write \"6 L a week\" or \"900 ml a day\"\n",
        "error[no-unit] plan.toml:13:9 `700` has no unit; a volume or a weight was expected\n",
        "error[unknown-product] plan.toml:9:10 the house has no formula `Plane syrup`\n",
        "  help: did you mean `Plain syrup`?\n",
        "error[unknown-ingredient] plan.toml:12:13 `white rumm` is not in the larder\n",
    ] {
        assert!(found.contains(line), "{line}\nnot in\n{found}");
    }
}

/// A plan is for a year at most, and a year has 366 days (Gregorian calendar).
#[test]
fn a_plan_is_for_a_year_and_no_longer() {
    let of = |plan: &str| findings(&format!("[plan]\nfrom = 2026-11-30\n{plan}\n"));
    for fits in ["days = 366", "weeks = 52"] {
        assert!(!of(fits).contains("out-of-range"), "{}", of(fits));
    }
    for beyond in ["days = 367", "weeks = 53"] {
        assert!(of(beyond).contains("error[out-of-range] plan.toml:3:"), "{}", of(beyond));
    }
}

/// However long it lives: a batch is not for more than is used to the end of the plan and 366 days beyond.
#[test]
fn a_batch_is_for_a_year_at_most() {
    let mut bitters = product("Bitters", 730, 70, &[0]);
    bitters.smallest = 10_000;
    let plan = schedule(&week(), vec![bitters]).unwrap();
    assert_eq!(made(&plan, "Bitters"), [(0, 10 * (7 + 366), 730)]);
}

/// To the next 10, from half a litre up to the next 50 (common practice, no source).
#[test]
fn a_batch_is_an_amount_that_one_writes_on_a_board() {
    for (least, batch) in [(100, 100), (437, 440), (499, 500), (501, 550), (1000, 1000), (1234, 1250)] {
        let mut syrup = product("Syrup", 366, 70, &[0]);
        syrup.smallest = least;
        assert_eq!(made(&schedule(&week(), vec![syrup]).unwrap(), "Syrup"), [(0, batch, 366)], "{least}");
    }
}

#[test]
fn what_has_no_date_in_its_store_is_not_planned() {
    let found = findings("[product.\"Plain syrup\"]\nuse = \"1 L a week\"\nstore = \"fridg\"\n");
    assert!(found.contains("`fridg`") && found.contains("did you mean `fridge`?"), "{found}");
    let found = findings("[product.\"Plain syrup\"]\nuse = \"1 L a week\"\non_hand = [{ amount = \"1 L\" }]\n");
    assert!(found.contains("error[missing-key] plan.toml:3:12 what is on hand has no date\n"), "{found}");
    // A batch that a week takes hundreds of is a slip of the unit, and is not planned lot by lot.
    let found = findings("[product.\"Plain syrup\"]\nuse = \"50 L a week\"\nbatch = \"50 ml up to 100 ml\"\n");
    assert!(found.contains("error[out-of-range] plan.toml:3:9 `Plain syrup`: a week uses 500 batches"), "{found}");
    let house = House::demo();
    let board = "[plan]\nfrom = 2026-11-30\n[product.\"Plain syrup\"]\nuse = \"1 L a week\"\nstore = \"freezer\"\n";
    house.write("plan.toml", board);
    let (code, out, _) = house.run(&["plan", "plan.toml", "--json"]);
    assert_eq!(code, Some(1));
    assert!(out.contains("`Plain syrup` cannot be planned for the freezer: it has no date there"), "{out}");
}

#[test]
fn a_batch_says_whether_it_is_the_least_the_most_or_the_step() {
    let of = |batch: &str| findings(&format!("[product.\"Plain syrup\"]\nuse = \"6 L a week\"\nbatch = \"{batch}\"\n"));
    assert!(
        of("2 L").contains("note[understood] plan.toml:3:9 the batch of `Plain syrup` is taken as the least"),
        "{}",
        of("2 L")
    );
    for clear in ["at least 2 L", "at most 4 L", "up to 4 L", "steps of 2 L", "2 L up to 4 L", "at least 2 L up to 4 L"]
    {
        assert!(!of(clear).contains("batch"), "{clear}: {}", of(clear));
    }
    assert!(of("4 L up to 2 L").contains("error[out-of-range]") && of("steps of 0 L").contains("error[out-of-range]"));
}

#[test]
fn the_board_may_keep_it_elsewhere_than_its_card() {
    let house = House::new("");
    for (name, text) in [
        ("house.toml", "[stores]\nfridge = \"4 °C\"\nbar = \"20 °C\"\n"),
        (
            "spirit.toml",
            "name = \"Sweet spirit\"\nmakes = \"1 L\"\nclass = \"liqueur\"\n[target]\nabv = 30\nsugar = \"250 g/L\"\n[parts]\n\
             \"overproof rum 63 %\" = \"as needed\"\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n\
             [keep]\nclosed = true\nin = \"glass\"\nstore = \"fridge\"\n",
        ),
    ] {
        house.write(name, text);
    }
    let board = "[plan]\nfrom = 2026-11-30\n[product.\"Sweet spirit\"]\nuse = \"1 L a week\"\nstore = \"bar\"\n";
    let path = house.write("plan.toml", board);
    let (code, page, said) = house.run(&["plan", path.to_str().unwrap()]);
    let said = page + &said;
    assert!(said.contains("Sweet spirit") && !said.contains("has no store"), "{said}");
    assert_eq!(code, Some(0), "{said}");
}

#[test]
fn a_ring_in_the_plan_is_said() {
    let found = findings("[product.\"Ring A\"]\nuse = \"1 L a week\"\n");
    assert_eq!(found.matches("a ring of formulas: Ring A -> Ring B -> Ring A").count(), 1, "{found}");
}

fn counted(text: &str) -> (usize, String) {
    let mut found = Vec::new();
    let rows = on_hand::read(text, &"counted.csv".into(), &Customs::default(), &mut found);
    (rows.len(), found.iter().map(|d| d.plain(text)).collect())
}

#[test]
fn a_stock_list_says_what_is_wrong_with_it() {
    let good = "product,amount,use_by\r\nLime cordial,1.2 L,2026-12-03\r\n\"Syrup, rich\",750 ml,2026-12-09\r\n";
    assert_eq!(counted(good), (2, String::new()));
    let note = "note[understood] counted.csv the file begins with a byte-order mark, which is passed over\n";
    assert_eq!(counted(&format!("\u{feff}{good}")), (2, note.to_owned()));
    let (rows, found) = counted("product;amount;use_by\nLime cordial;1,2 L;2026-12-03\n");
    assert_eq!(rows, 0);
    assert!(
        found.starts_with(
            "error[wrong-separator] counted.csv:1:1 the cells are parted by semicolons\n  1:1 product;amount;use_by  <- \
             commas were expected\n  help: save it as"
        ),
        "{found}"
    );
    let (rows, found) = counted("product,ammount,use_by\nLime cordial,1 L,2026-12-03\n");
    assert_eq!(rows, 0);
    assert_eq!(
        found,
        "error[wrong-column] counted.csv:1:1 a column `ammount` is not read here\n  1:1 product,ammount,use_by  <- \
         product, amount, use_by were expected\n  help: did you mean `amount`?\n"
    );
    let (rows, found) = counted("product,amount,use_by\nA,1 L,3.12.2026\nB,some,2026-12-03\nC,1 L\nD,1 L,2026-12-03\n");
    assert_eq!(rows, 1);
    for line in [
        "error[not-a-date] counted.csv:2:1 `use_by` is `3.12.2026`",
        "error[not-a-number] counted.csv:3:1 `some`",
        "error[wrong-column] counted.csv:4:1 a row has no use_by\n  4:1 C,1 L  <- this row",
    ] {
        assert!(found.contains(line), "{line}\nnot in\n{found}");
    }
}

#[test]
fn no_cell_is_run_by_a_spreadsheet() {
    for bad in ["=HYPERLINK(\"x\")", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"] {
        let mut evil = product(bad, 9, 700, &[0]);
        evil.takes = vec![Take { of: bad.into(), days_before: 0, grams_per_unit: 0.5 }];
        let plan = schedule(&week(), vec![evil]).unwrap();
        let stocked = Stocked {
            name: bad.into(),
            unit: PrepUnit::G,
            grams_per_unit: 1.0,
            pack: None,
            pack_by_price: false,
            in_pack: 1,
            lead: 0,
            deliver: None,
            on_hand: 0,
            fruit: None,
            keeps: None,
            poured: Vec::new(),
        };
        let list = orders(&plan, &[stocked]);
        let view = PlanView::new(None, &plan, &list, None);
        for text in [prep_csv(&view), order_csv(&view)] {
            let mut rows = csv::Reader::from_reader(text.as_bytes());
            let cells: Vec<String> =
                rows.records().flat_map(|r| r.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()).collect();
            assert!(cells.iter().all(|c| !c.starts_with(['=', '+', '-', '@', '\t', '\r'])), "{text}");
            assert!(cells.contains(&format!("'{bad}")), "{text}");
        }
    }
}

#[test]
fn the_demo_house_has_a_plan() {
    let (code, out, _) = run_in(Path::new("."), &["plan", "formulas", "--json"]);
    assert_eq!(code, Some(0), "{out}");
    let plan: serde_json::Value = serde_json::from_str(&out).unwrap();
    let prep = plan["prep"].as_array().unwrap();
    let find = |what: &str, of: &str| prep.iter().find(|t| t["what"] == what && t["of"] == of).unwrap().clone();
    let start = find("start", "Spiced orange liqueur");
    assert_eq!(start["takes"], "3 days");
    assert_eq!((start["date"].as_str(), start["ready"].as_str()), (Some("2026-12-01"), Some("2026-12-04")));
    assert_eq!(find("take", "Rich muscovado syrup")["into"], "Spiced orange liqueur");
    assert!(prep.iter().all(|t| t["date"] != "2026-11-30"), "closed on Monday");
    assert_eq!(plan["short"].as_array().unwrap().len(), 0);
    assert!(plan["orders"].as_array().unwrap().iter().all(|o| o["late"] == false && o["cost"].is_string()));
    assert!(plan["cost"].is_string());
    // four years later all is past its date, and what macerates for three days is not there on the first of them
    let (code, out, said) = run_in(Path::new("."), &["plan", "formulas", "--from", "2030-12-16"]);
    let out = out + &said;
    assert_eq!(code, Some(1));
    assert!(out.contains("not-in-time") && out.contains("it can be ready is Fri 20 Dec 2030"), "{out}");
}

// ---- days, use and stock

#[test]
fn closed_weekdays_and_single_days() {
    let from = date("2026-11-30"); // a Monday
    let mut calendar = Calendar::open_all(from, 30);
    calendar.closed[0] = true;
    calendar.closed_on.insert(date("2026-12-25"));
    assert!(!calendar.is_open(0) && calendar.is_open(1) && !calendar.is_open(7) && !calendar.is_open(-7));
    assert!(!calendar.is_open(25) && calendar.is_open(24));
    assert_eq!(calendar.last_open(7), Some(6));
    assert_eq!(calendar.last_open(0), None);
    assert_eq!(calendar.date(-1), from.pred_opt().unwrap());
    assert_eq!(calendar.day(calendar.date(-400)), -400);
}

#[test]
fn shares_add_to_the_week_and_closed_days_use_nothing() {
    let mut calendar = week();
    calendar.closed[0] = true;
    let mut uses = Uses::weekly(1000);
    let of_week = |uses: &Uses| (0..7).map(|d| uses.on_day(&calendar, d)).collect::<Vec<_>>();
    assert_eq!(of_week(&uses), [0, 166, 167, 167, 166, 167, 167]);
    uses.on[4] = Some(2000);
    assert_eq!(of_week(&uses), [0, 200, 200, 200, 2000, 200, 200]);
    assert_eq!(uses.in_a_week(&calendar), 3000);
}

#[test]
fn what_expires_first_goes_first_and_nothing_after_its_date() {
    let mut lots = Vec::new();
    stock::put(&mut lots, PrepLot { ready: None, amount: 10, use_by: 5 });
    stock::put(&mut lots, PrepLot { ready: None, amount: 4, use_by: 1 });
    stock::put(&mut lots, PrepLot { ready: Some(2), amount: 9, use_by: 3 });
    let draw = |day, until, amount| Draw { day, until, into: None, amount };
    let run = stock::run(&lots, &[draw(0, 0, 3), draw(2, 2, 5), draw(2, 5, 6), draw(4, 4, 9)], 6);
    assert_eq!(run.taken, [(0, 0, 3), (1, 1, 5), (2, 2, 6), (3, 2, 4)]);
    assert_eq!(run.left, [1, 4, 0]);
    assert_eq!(run.short, [0, 0, 0, 5]);
    assert_eq!(run.opening, [14, 11, 19, 8, 4, 0]);
}
