//! The two sheets that were worked by hand from the equations, digit for digit, straight through the engine.

use stillroom::card::TargetKind::{Abv, Acid, Brix, Sugar};
use stillroom::larder::Larder;
use stillroom::mixture::{Component, Mixture};
use stillroom::properties::value_of;
use stillroom::solver::balance::{BalanceLine, MassBalance, MassRule, Yield};
use stillroom::solver::stage::{Feed, Shares, run};
use stillroom::units::{celsius, in_kg_per_m3};

fn pure(component: Component) -> Feed {
    Feed { per_gram: Mixture::of(&[(component, 1.0)]), holds: None }
}

fn rounds_to(value: f64, digits: f64, printed: f64) {
    assert!((value - printed).abs() <= 0.5 * digits + 1e-9, "{value} is not {printed}");
}

#[test]
fn rich_muscovado_syrup_to_64_brix() {
    // The sheet was worked with all solids given sucrose's volume; the larder's row has 3.5 % of invert
    // sugar, which takes 0.1 % more room (the last assertion).
    let row = Larder::built_in().find("dark muscovado sugar").unwrap().per_gram;
    let water = row.grams_of(Component::Water);
    let muscovado =
        Feed { per_gram: Mixture::of(&[(Component::Water, water), (Component::Sucrose, 1.0 - water)]), holds: None };
    let lost = Shares { evaporated: 0.03, left_behind: 0.01 };
    let feeds = [muscovado, pure(Component::Water)];
    let lines = feeds.map(|f| f.line(lost.evaporated, MassRule::Open));
    let balance = MassBalance {
        lines: &lines,
        targets: &[(Brix, 64.0)],
        yields: Some(Yield::Millilitres(1500.0)),
        left_behind: lost.left_behind,
    };
    let masses = balance.solve().unwrap();
    let course = run(feeds.iter().zip(masses.iter().copied()), lost);
    rounds_to(masses[0], 0.1, 1306.7);
    rounds_to(masses[1], 0.1, 701.0);
    rounds_to(course.combined.total_grams(), 0.1, 2007.7);
    rounds_to(course.evaporated_g, 0.1, 22.1);
    rounds_to(course.in_pan_g(), 0.1, 1985.6);
    rounds_to(course.left_behind_g, 0.1, 19.9);
    rounds_to(course.out.total_grams(), 0.1, 1965.7);
    rounds_to(in_kg_per_m3(course.out.density(celsius(20.0)).unwrap().value), 0.1, 1310.5);
}

#[test]
fn spiced_liqueur_at_18_percent() {
    let spirit = |abv: f64| {
        let p = stillroom::mixture::alcohol::mass_fraction_of(stillroom::units::Abv::new(abv).unwrap()).get();
        Feed { per_gram: Mixture::of(&[(Component::Ethanol, p), (Component::Water, 1.0 - p)]), holds: None }
    };
    let rum = spirit(63.0);
    let litre_g = in_kg_per_m3(rum.per_gram.density(celsius(20.0)).unwrap().value);
    let clove = Feed { holds: Some(1.2), ..pure(Component::Insoluble) };
    let stage = run([(&rum, litre_g), (&clove, 12.0)].into_iter(), Shares::default());
    let maceration = Feed { per_gram: stage.out.per_gram(), holds: None };
    let larder = |name: &str| Feed { per_gram: Larder::built_in().find(name).unwrap().per_gram, holds: None };
    let feeds = [maceration, larder("white sugar"), larder("citric acid"), larder("water")];
    let lines: [BalanceLine; 4] = feeds.map(|f| f.line(0.0, MassRule::Open));
    let targets = [(Abv, 18.0), (Sugar, 250.0), (Acid, 4.0)];
    let balance =
        MassBalance { lines: &lines, targets: &targets, yields: Some(Yield::Millilitres(3000.0)), left_behind: 0.0 };
    let masses = balance.solve().unwrap();
    let scale = masses[0] / stage.out.total_grams();
    rounds_to(litre_g * scale, 0.1, 786.0);
    rounds_to(1000.0 * scale, 0.1, 871.0);
    rounds_to(12.0 * scale, 0.01, 10.45);
    rounds_to(stage.strained_out_g * scale - 12.0 * scale, 0.01, 12.54);
    rounds_to(masses[0], 0.1, 773.4);
    println!("{masses:?}");
    let course = run(feeds.iter().zip(masses.iter().copied()), Shares::default());
    rounds_to(course.out.total_grams(), 0.1, 3219.9);
    rounds_to(in_kg_per_m3(course.out.density(celsius(20.0)).unwrap().value), 0.1, 1073.3);
    rounds_to(value_of(Brix, &course.out).unwrap(), 0.1, 23.7);
    for (kind, asked) in targets {
        assert!((value_of(kind, &course.out).unwrap() / asked - 1.0).abs() < 1e-9);
    }
    rounds_to(masses[1], 0.1, 751.5);
    rounds_to(masses[2], 0.01, 12.06);
    rounds_to(masses[3], 0.1, 1682.9);
}
