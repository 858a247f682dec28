//! The range that a refusal states is true: just inside it the card can be made, just outside it cannot.

use proptest::prelude::*;
use proptest::sample::select;
use stillroom::card::{self, TargetKind};
use stillroom::diagnostic::any_error;
use stillroom::house::House;
use stillroom::solver::reach::ReachLimit;
use stillroom::solver::target::TargetValue;
use stillroom::solver::{Options, SolveOutcome, solve};

use TargetKind::{Abv, Acid, Brix, Sugar};

use crate::generated::config;

const SWEET: [&str; 5] = ["white sugar", "dark muscovado", "light muscovado", "honey", "agave syrup"];
const SPIRIT: [&str; 3] = ["vodka", "overproof rum 63 %", "white rum"];
const SOUR: [&str; 3] = ["citric acid", "lime juice", "lemon juice"];

/// The whole range of each kind that anybody would ask for, and more.
const ASKED: [(TargetKind, f64); 4] = [(Brix, 110.0), (Abv, 99.0), (Sugar, 1700.0), (Acid, 900.0)];

/// Targets that open parts of these kinds can be found from.
const TARGETS: [&[TargetKind]; 7] =
    [&[Brix], &[Sugar], &[Abv], &[Brix, Abv], &[Sugar, Abv], &[Sugar, Acid], &[Brix, Abv, Acid]];

#[derive(Clone, Debug)]
struct Drawn {
    text: String,
    set: Vec<TargetValue>,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let parts = (select(&SWEET[..]), select(&SPIRIT[..]), select(&SOUR[..]));
    let written = (select(&SWEET[..]), prop_oneof![Just(0), 1..1500_u32]);
    let size = select(vec!["makes = \"1 L\"", "makes = \"1200 g\"", "makes = \"12 x 70 ml\""]);
    (parts, written, size, select(&TARGETS[..]), prop::collection::vec(0.0..1.0_f64, 3), any::<bool>()).prop_map(
        |((sweet, spirit, sour), (more, grams), size, kinds, shares, lossy)| {
            let open = |kind: &TargetKind| match kind {
                Brix | Sugar => sweet,
                Abv => spirit,
                _ => sour,
            };
            let mut text = format!("name = \"Drawn\"\n{size}\n[parts]\nwater = \"as needed\"\n");
            for kind in kinds {
                text += &format!("\"{}\" = \"as needed\"\n", open(kind));
            }
            if grams > 0 && (more != sweet || kinds == [Abv]) {
                text += &format!("\"{more}\" = \"{grams} g\"\n");
            }
            if lossy {
                text += "[loss]\nevaporated = \"4 %\"\nleft_behind = \"2 %\"\n";
            }
            text += "[target]\n";
            for kind in kinds {
                text += match kind {
                    Brix => "brix = 50\n",
                    Abv => "abv = 18\n",
                    Sugar => "sugar = \"250 g/L\"\n",
                    _ => "acid = \"4 g/L\"\n",
                };
            }
            // Squared: most targets low, so that the others leave room for one that is out of reach.
            let value = |kind: TargetKind, x: f64| {
                let most = ASKED.iter().find(|(k, _)| *k == kind).map_or(0.0, |(_, most)| *most);
                (kind, most * x * x)
            };
            let set = kinds.iter().zip(shares).map(|(kind, x)| value(*kind, x)).collect();
            Drawn { text, set }
        },
    )
}

fn made(text: &str, set: Vec<TargetValue>) -> SolveOutcome {
    let (card, found) = card::read("drawn.toml".into(), text.into());
    assert!(!any_error(&found), "{found:?}\n{text}");
    solve(&card.unwrap(), &House::default(), &Options { set, ..Options::default() })
}

/// The card with the target of this kind at this value, all others as they were.
fn can_be_met(drawn: &Drawn, kind: TargetKind, value: f64) -> bool {
    let set = drawn.set.iter().map(|&(k, v)| if k == kind { (k, value) } else { (k, v) }).collect();
    !any_error(&made(&drawn.text, set).diagnostics)
}

proptest! {
    #![proptest_config(config(120, 5))]

    #[test]
    fn a_stated_range_is_true_inside_and_outside(drawn in drawn()) {
        for reach in made(&drawn.text, drawn.set.clone()).errors.into_iter().filter_map(|error| error.reach) {
            let (kind, asked) = reach.asked;
            let up = if reach.too_high() { 1.0 } else { -1.0 };
            let step = 1e-6 * reach.near.value.abs().max(1.0);
            // A range of one point has no inside.
            if reach.far.is_some_and(|far| (far.value - reach.near.value).abs() < 3.0 * step) {
                continue;
            }
            let mut ends = vec![(reach.near, up)];
            ends.extend(reach.far.map(|far| (far, -up)));
            for (end, out) in ends {
                let inside = end.value - out * step;
                prop_assert!(
                    inside < 0.0 || can_be_met(&drawn, kind, inside),
                    "{kind:?} {asked}: refused just inside {end:?}\n{drawn:?}\n{reach:?}"
                );
                prop_assert!(
                    !can_be_met(&drawn, kind, end.value + out * step),
                    "{kind:?} {asked}: met just outside {end:?}\n{drawn:?}\n{reach:?}"
                );
            }
            // As it is printed it can be asked for, unless the whole range lies between two printed figures.
            let said = reach.said().0;
            let next = if kind == Sugar { 1.0 } else { 0.1 };
            prop_assert!(
                can_be_met(&drawn, kind, said) || !can_be_met(&drawn, kind, reach.near.value - up * next),
                "{kind:?} {said} is refused as it is said\n{drawn:?}\n{reach:?}"
            );
        }
    }
}

#[test]
fn a_sugar_that_is_never_quite_dry_has_a_range_to_where_it_is_no_liquid() {
    let text = "name = \"Rich\"\nmakes = \"1.5 L\"\n[parts]\n\"dark muscovado\" = \"as needed\"\nwater = \"as needed\"\n[target]\nbrix = 64\n";
    let outcome = made(text, vec![(Brix, 99.0)]);
    let [error] = outcome.errors.as_slice() else { panic!("{:?}", outcome.errors) };
    let reach = error.reach.unwrap();
    assert_eq!((reach.near.limit, reach.far), (ReachLimit::NoLiquid, None));
    assert!((80.0..86.0).contains(&reach.near.value), "{reach:?}");
    let said = &outcome.diagnostics[0].title;
    assert!(said.contains("these parts reach at most 8"), "{said}");
    assert!(outcome.diagnostics[0].labels[0].text.contains("too little water"), "{:?}", outcome.diagnostics);
}
