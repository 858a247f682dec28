//! What must hold for every batch: mass is kept, a target that is solved for is met, size and order change
//! nothing, nothing is negative, and no text makes the chain from card to printed sheet panic.

use std::path::Path;
use std::sync::LazyLock;

use chrono::NaiveDate;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use stillroom::card::TargetKind::{Abv, Acid, Brix, Sugar};
use stillroom::card::{self, Makes, TargetKind};
use stillroom::diagnostic::any_error;
use stillroom::house::House;
use stillroom::mixture::{Component, Mixture};
use stillroom::properties::value_of;
use stillroom::render;
use stillroom::report::Report;
use stillroom::report::solve::SolveView;
use stillroom::solver::balance::{BalanceLine, MassBalance, MassRule, Yield};
use stillroom::solver::stage::{Course, Feed, Shares, run};
use stillroom::solver::target::TargetValue;
use stillroom::solver::target::volume_ml;
use stillroom::solver::{BatchSize, Options, Solved, solve};
use stillroom::units::{celsius, millilitres};

use crate::generated::config;

/// The day on which everything here is made.
const DAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();

// ---- batches that are known to exist: masses first, then the rules that they meet

/// What brings sugar, acid, spirit and water to a batch, and what else may be in it. Percent by mass.
type Percent = &'static [(Component, f64)];

const SWEET: &[&[(Component, f64)]] = &[
    &[(Component::Sucrose, 100.0)],
    &[(Component::Sucrose, 89.0), (Component::Glucose, 4.0), (Component::Water, 5.0), (Component::Other, 2.0)],
    &[
        (Component::Fructose, 41.0),
        (Component::Glucose, 36.0),
        (Component::Water, 18.0),
        (Component::OtherCarbohydrate, 5.0),
    ],
];
const SOUR: &[&[(Component, f64)]] =
    &[&[(Component::Citric, 100.0)], &[(Component::Citric, 4.0), (Component::Malic, 2.0), (Component::Water, 94.0)]];
const STRONG: &[&[(Component, f64)]] = &[
    &[(Component::Ethanol, 33.3), (Component::Water, 66.7)],
    &[(Component::Ethanol, 55.2), (Component::Water, 44.8)],
    &[(Component::Ethanol, 93.8), (Component::Water, 6.2)],
];
const OTHERS: &[(Percent, Option<f64>)] = &[
    (
        &[
            (Component::Water, 90.0),
            (Component::Citric, 5.5),
            (Component::Sucrose, 1.7),
            (Component::Ash, 0.3),
            (Component::Other, 2.5),
        ],
        None,
    ),
    (&[(Component::Water, 86.0), (Component::Fructose, 6.0), (Component::Insoluble, 8.0)], Some(-0.5)),
    (&[(Component::Insoluble, 88.0), (Component::Water, 12.0)], Some(1.2)),
    (&[(Component::Glycerol, 100.0)], None),
    (&[(Component::Salt, 100.0)], None),
    (&[(Component::Acetic, 5.0), (Component::Water, 95.0)], None),
];

fn feed(percent: &[(Component, f64)], holds: Option<f64>) -> Feed {
    let parts: Vec<_> = percent.iter().map(|(c, p)| (*c, p / 100.0)).collect();
    Feed { per_gram: Mixture::of(&parts), holds }
}

/// How a part that is not open is written.
#[derive(Clone, Copy, Debug)]
enum Written {
    Fixed,
    Dose,
    Share,
}

#[derive(Clone, Debug)]
struct Batch {
    feeds: Vec<Feed>,
    masses: Vec<f64>,
    /// The kinds that the first parts are found by; the part behind them, water, is found by the yield.
    kinds: Vec<TargetKind>,
    written: Vec<Written>,
    lost: Shares,
    by_volume: bool,
}

prop_compose! {
    fn batch()(
        sweet in select(SWEET), sour in select(SOUR), strong in select(STRONG),
        kinds in select(vec![
            vec![Brix], vec![Sugar], vec![Abv], vec![Acid], vec![Brix, Acid], vec![Sugar, Acid], vec![Abv, Sugar],
            vec![Abv, Brix], vec![Abv, Sugar, Acid], vec![Abv, Brix, Acid], vec![],
        ]),
        // The sheet's own span: a gram of acid in a litre to a barrel.
        main in prop::array::uniform4(0.02f64..1.0),
        size in 50f64..50_000.0,
        others in prop::collection::vec((select(OTHERS), 0.001f64..0.1, select(vec![Written::Fixed, Written::Dose, Written::Share])), 0..5),
        evaporated in prop_oneof![Just(0.0), 0.0f64..0.2], left_behind in prop_oneof![Just(0.0), 0.0f64..0.2],
        by_volume in any::<bool>(),
    ) -> Batch {
        let mut feeds = Vec::new();
        let mut masses = Vec::new();
        for kind in &kinds {
            let (percent, share) = match kind {
                Abv => (strong, main[0]),
                Acid => (sour, 0.1 * main[1]),
                _ => (sweet, main[2]),
            };
            feeds.push(feed(percent, None));
            masses.push(size * share);
        }
        feeds.push(feed(&[(Component::Water, 100.0)], None));
        masses.push(size * (0.3 + main[3]));
        let mut written = Vec::new();
        for ((percent, holds), share, how) in others {
            feeds.push(feed(percent, holds));
            masses.push(size * share);
            written.push(how);
        }
        Batch { feeds, masses, kinds, written, lost: Shares { evaporated, left_behind }, by_volume }
    }
}

impl Batch {
    fn course(&self) -> Course {
        run(self.feeds.iter().zip(self.masses.iter().copied()), self.lost)
    }

    /// The rules that this batch meets, with its first parts and the water left open.
    fn lines(&self) -> Option<(Vec<BalanceLine>, Vec<TargetValue>, Yield)> {
        let out = self.course().out;
        let liquid: Mixture =
            self.feeds.iter().zip(&self.masses).map(|(f, m)| f.joins(self.lost.evaporated) * *m).sum();
        let liquid_ml = volume_ml(&liquid)?;
        let open = self.kinds.len() + 1;
        let lines = self.feeds.iter().zip(&self.masses).enumerate().map(|(i, (feed, &m))| {
            let rule = match i.checked_sub(open).and_then(|i| self.written.get(i)) {
                None => MassRule::Open,
                Some(Written::Fixed) => MassRule::Fixed(m),
                Some(Written::Dose) => MassRule::Dose(m / liquid_ml),
                Some(Written::Share) => MassRule::Share(m / liquid.total_grams()),
            };
            feed.line(self.lost.evaporated, rule)
        });
        let targets = self.kinds.iter().map(|&kind| Some((kind, value_of(kind, &out)?))).collect::<Option<Vec<_>>>()?;
        let yields =
            if self.by_volume { Yield::Millilitres(volume_ml(&out)?) } else { Yield::Grams(out.total_grams()) };
        Some((lines.collect(), targets, yields))
    }
}

fn relative(found: f64, expected: f64) -> f64 {
    (found - expected).abs() / expected.abs().max(1e-12)
}

fn keeps_mass(course: &Course) -> Result<(), TestCaseError> {
    let came = course.evaporated_g + course.strained_out_g + course.left_behind_g + course.out.total_grams();
    prop_assert!(relative(came, course.combined.total_grams()) < 1e-9, "{course:?}");
    Ok(())
}

proptest! {
    #![proptest_config(config(4000, 11))]

    #[test]
    fn what_goes_in_comes_out(batch in batch()) {
        keeps_mass(&batch.course())?;
    }

    #[test]
    fn what_is_solved_for_is_met(batch in batch()) {
        let Some((lines, targets, yields)) = batch.lines() else { return Ok(()) };
        let balance = MassBalance { lines: &lines, targets: &targets, yields: Some(yields), left_behind: batch.lost.left_behind };
        let masses = balance.solve();
        prop_assert!(masses.is_ok(), "{masses:?}");
        let masses = masses.unwrap_or_default();
        let course = run(batch.feeds.iter().zip(masses.iter().copied()), batch.lost);
        keeps_mass(&course)?;
        for (kind, asked) in &targets {
            let gives = value_of(*kind, &course.out).unwrap_or(f64::NAN);
            prop_assert!(relative(gives, *asked) < 1e-9, "{kind:?}: {gives} for {asked}");
        }
        let gives = match yields {
            Yield::Grams(g) => relative(course.out.total_grams(), g),
            Yield::Millilitres(ml) => relative(volume_ml(&course.out).unwrap_or(f64::NAN), ml),
        };
        prop_assert!(gives < 1e-9, "the yield is {gives} off");
        // And it is the batch that we began with: there is one answer.
        for (found, began) in masses.iter().zip(&batch.masses) {
            prop_assert!(*found >= 0.0 && relative(*found, *began) < 1e-6, "{masses:?} for {:?}", batch.masses);
        }
    }

    #[test]
    fn the_order_of_the_parts_does_not_matter(batch in batch(), by in any::<Index>()) {
        let Some((mut lines, mut targets, yields)) = batch.lines() else { return Ok(()) };
        let left_behind = batch.lost.left_behind;
        let first = MassBalance { lines: &lines, targets: &targets, yields: Some(yields), left_behind }.solve().unwrap_or_default();
        let turn = by.index(lines.len());
        lines.rotate_left(turn);
        lines.reverse();
        targets.reverse();
        let mut again = MassBalance { lines: &lines, targets: &targets, yields: Some(yields), left_behind }.solve().unwrap_or_default();
        again.reverse();
        again.rotate_right(turn);
        let largest = first.iter().fold(0.0_f64, |m, x| m.max(*x));
        for (a, b) in first.iter().zip(&again) {
            prop_assert!((a - b).abs() < 1e-9 * largest, "{first:?}\n{again:?}");
        }
        prop_assert!(!first.is_empty() && first.len() == again.len());
    }
}

// ---- the cards of the demo house

/// The demo house and its cards, name and text.
static DEMO: LazyLock<(House, Vec<(String, String)>)> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (house, found) = House::find(&folder);
    assert!(!any_error(&found), "{found:?}");
    let mut cards: Vec<_> = house
        .cards()
        .map(|f| {
            let path = Path::new(&*f.source.file);
            (path.file_name().unwrap_or_default().to_string_lossy().into_owned(), f.source.text.to_string())
        })
        .collect();
    cards.sort();
    assert!(cards.len() >= 20);
    (house, cards)
});

fn solved(text: &str, options: &Options) -> Solved {
    let (card, _) = card::read("card.toml".into(), text.into());
    let outcome = solve(&card.unwrap(), &DEMO.0, options);
    outcome.solved.unwrap_or_else(|| panic!("{text}\n{:?}", outcome.diagnostics))
}

#[test]
fn every_stage_of_every_card_keeps_its_mass() {
    for (name, text) in &DEMO.1 {
        let solved = solved(text, &Options::default());
        for stage in &solved.stages {
            keeps_mass(&stage.course).unwrap_or_else(|e| panic!("{name}: {e}"));
            let parts: f64 = stage.parts.iter().map(|p| p.mass_g).sum();
            assert!(relative(stage.course.combined.total_grams(), parts) < 1e-9, "{name}");
        }
        for (kind, asked) in &solved.targets {
            let gives = value_of(*kind, solved.bottled()).unwrap();
            assert!(relative(gives, *asked) < 1e-9, "{name}: {kind:?} {gives} for {asked}");
        }
    }
}

#[test]
fn twice_the_size_is_twice_of_everything() {
    for (name, text) in &DEMO.1 {
        let one = solved(text, &Options::default());
        let Some(ml) = volume_ml(one.bottled()) else { continue };
        let twice =
            Options { size: Some(BatchSize::Makes(Makes::Volume(millilitres(2.0 * ml)))), ..Options::default() };
        let two = solved(text, &twice);
        for (a, b) in one.stages.iter().zip(&two.stages) {
            for (a, b) in a.parts.iter().zip(&b.parts) {
                assert!(relative(b.mass_g, 2.0 * a.mass_g) < 1e-9, "{name}: {}", a.label);
            }
            assert!(relative(b.course.out.total_grams(), 2.0 * a.course.out.total_grams()) < 1e-9, "{name}");
        }
    }
}

// ---- any text at all

/// Reads, solves, puts the sheet together and prints it, as the verb does. Everything that is said is a number
/// or a word, and no mass is below nothing.
fn whole_chain(text: &str, options: &Options) -> Result<(), TestCaseError> {
    let (card, found) = card::read("card.toml".into(), text.into());
    let Some(card) = card.filter(|_| !any_error(&found)) else { return Ok(()) };
    let outcome = solve(&card, &DEMO.0, options);
    for d in &outcome.diagnostics {
        prop_assert!(d.file.is_some() && !d.title.is_empty());
        let plain = d.plain(text);
        prop_assert!(!plain.contains("NaN") && !plain.contains("inf %"), "{text}\n{plain}");
    }
    let Some(solved) = outcome.solved else {
        prop_assert!(any_error(&outcome.diagnostics), "no answer and no reason\n{text}");
        return Ok(());
    };
    for stage in &solved.stages {
        for part in &stage.parts {
            prop_assert!(part.mass_g.is_finite() && part.mass_g >= 0.0, "{} {}\n{text}", part.label, part.mass_g);
        }
        keeps_mass(&stage.course)?;
        prop_assert!(stage.course.out.total_grams() >= 0.0, "{text}");
    }
    stillroom::report::solve::law::of_class(&card, &solved);
    // A sheet draws its dates twenty thousand times over: every tenth text gets one.
    if text.bytes().map(usize::from).sum::<usize>() % 10 != 0 {
        return Ok(());
    }
    let (sheet, _) = SolveView::new(&card, &solved, &DEMO.0, options.asked(&card), celsius(20.0), DAY);
    let report = Report::new(Some(sheet), &outcome.diagnostics, |_| None).of_product(Some("x"));
    let printed = render::text::solve(&report, crate::kitchen::FULL);
    prop_assert!(!printed.contains("NaN") && !printed.contains("inf "), "{text}\n{printed}");
    prop_assert!(report.json().contains("stillroom.solve/1"));
    Ok(())
}

/// A card with some of its characters taken out and others put in.
fn damaged(card: &str, at: Index, length: usize, put: &str) -> String {
    let chars: Vec<char> = card.chars().collect();
    let from = at.index(chars.len() + 1);
    let to = (from + length).min(chars.len());
    chars[..from].iter().copied().chain(put.chars()).chain(chars[to..].iter().copied()).collect()
}

/// A card with one of its numbers changed.
fn renumbered(card: &str, which: Index, number: &str) -> String {
    let starts: Vec<usize> = card
        .char_indices()
        .filter(|(i, c)| c.is_ascii_digit() && !card[..*i].ends_with(|c: char| c.is_ascii_digit() || c == '.'))
        .map(|(i, _)| i)
        .collect();
    let Some(&start) = starts.get(which.index(starts.len().max(1))) else { return card.to_owned() };
    let length = card[start..].find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(card.len() - start);
    format!("{}{number}{}", &card[..start], &card[start + length..])
}

const NUMBERS: &[&str] = &[
    "0", "1", "-1", "0.000001", "1e-300", "1e300", "1e308", "99", "99.9999", "100", "1000000", "0.5", "3", "12", "45",
    "1e-12", "7e15",
];
const TARGETS: &[&str] = &["0", "0.5", "3", "12", "18", "45", "66", "99", "100"];
const AMOUNTS: &[&str] = &[
    "as needed",
    "5 %",
    "100 %",
    "1 L",
    "12 g",
    "20 ml/L",
    "900 ml/L",
    "6 g/L",
    "1200 g/L",
    "2 parts by weight",
    "1 part by volume",
    "3 each",
    "1 US cup",
    "0 g",
    "50 kg",
];

proptest! {
    #![proptest_config(config(2500, 11))]

    #[test]
    fn any_text_goes_through(text in "\\PC{0,200}") {
        whole_chain(&text, &Options::default())?;
    }

    #[test]
    fn a_damaged_card_goes_through(
        card in any::<Index>(), at in any::<Index>(), length in 0usize..12, put in "[\\PC\n]{0,6}",
    ) {
        let (_, text) = card.get(&DEMO.1);
        whole_chain(&damaged(text, at, length, &put), &Options::default())?;
    }

    #[test]
    fn a_card_with_other_numbers_goes_through(
        card in any::<Index>(), changes in prop::collection::vec((any::<Index>(), select(NUMBERS)), 1..4),
    ) {
        let (_, text) = card.get(&DEMO.1);
        let text = changes.iter().fold(text.clone(), |text, (which, number)| renumbered(&text, *which, number));
        whole_chain(&text, &Options::default())?;
    }

    #[test]
    fn any_amounts_of_any_parts_go_through(
        parts in prop::collection::btree_map(
            select(vec!["white sugar", "granulated white sugar", "sugar", "maple syrup", "neutral spirit 96 %", "water", "citric acid", "white rum 40 %", "overproof white rum", "lime juice", "clove", "raspberries",
                "honey", "Rich muscovado syrup", "Lime acid", "table salt", "almonds, blanched", "gum arabic powder", "egg white, raw", "glycerol 99.5 %"]),
            (prop_oneof![2 => Just("as needed"), 3 => select(AMOUNTS)],
             prop_oneof![8 => Just(""), 1 => Just(", strained = true"), 1 => Just(", strained = true, holds = 1.5"),
                1 => Just(", strained = true, holds = -0.7"), 1 => Just(", strained = true, holds = 10")]), 1..7),
        targets in prop::collection::btree_map(select(vec!["brix", "abv", "sugar", "acid", "ph"]), select(TARGETS), 0..4),
        makes in prop_oneof![1 => Just(None), 4 => select(vec!["1 L", "2 kg", "6 x 250 ml", "0.001 mg", "1000000000 L"]).prop_map(Some)],
        loss in prop_oneof![Just(""), select(vec!["evaporated = \"20 %\"", "evaporated = \"as needed\"", "evaporated = \"100 %\"", "left_behind = \"99.9 %\""])],
        set in prop_oneof![Just(None), (select(TargetKind::ALL.to_vec()), 0.0f64..120.0).prop_map(Some)],
        make in prop_oneof![Just(None), (1e-6f64..1e9).prop_map(Some)],
    ) {
        let mut text = String::from("name = \"x\"\n");
        if let Some(makes) = makes {
            text.push_str(&format!("makes = \"{makes}\"\n"));
        }
        text.push_str("[target]\n");
        for (key, value) in &targets {
            let value = if matches!(*key, "sugar" | "acid") { format!("\"{value} g/L\"") } else { (*value).to_owned() };
            text.push_str(&format!("{key} = {value}\n"));
        }
        text.push_str("[parts]\n");
        for (part, (amount, more)) in &parts {
            text.push_str(&format!("\"{part}\" = {{ amount = \"{amount}\"{more} }}\n"));
        }
        text.push_str(&format!("[loss]\n{loss}\n"));
        let size = make.map(|ml| BatchSize::Makes(Makes::Volume(millilitres(ml))));
        whole_chain(&text, &Options { size, set: set.into_iter().collect(), ..Options::default() })?;
    }
}
