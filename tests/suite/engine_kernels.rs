//! The kernels of the engine: masses from their rules, and the best corner of a linear program.

mod balance {
    use stillroom::mixture::{Component, Mixture};
    use stillroom::properties::{TargetKind, value_of};
    use stillroom::solver::balance::{BalanceError, BalanceLine, MassBalance, MassRule, Yield};

    #[test]
    fn a_dense_syrup_is_met_though_the_lightest_trial_is_dry() {
        // At 750 kg/m³ a litre has no room for water beside 870 g of sugar.
        let pure =
            |component| BalanceLine { joins: Mixture::of(&[(component, 1.0)]), keeps: 0.0, rule: MassRule::Open };
        let lines = [pure(Component::Sucrose), pure(Component::Water)];
        let of = |sugar: f64| {
            let targets = [(TargetKind::Sugar, sugar)];
            MassBalance { lines: &lines, targets: &targets, yields: Some(Yield::Millilitres(1000.0)), left_behind: 0.0 }
                .solve()
        };
        let masses = of(870.0).unwrap();
        assert!((masses[0] - 870.0).abs() < 1e-9);
        let made = lines[0].joins * masses[0] + lines[1].joins * masses[1];
        assert!((value_of(TargetKind::Sugar, &made).unwrap() - 870.0).abs() < 1e-6);
        // More sugar than a litre of crystals is no liquid.
        assert!(matches!(
            of(1620.0),
            Err(BalanceError::NoDensity(_) | BalanceError::NoDensityFits | BalanceError::Negative(_))
        ));
    }

    /// Lines of water in these grams, and nothing to find.
    fn of_water(grams: &[f64]) -> Result<Vec<f64>, BalanceError> {
        let water = Mixture::of(&[(Component::Water, 1.0)]);
        let line = |&g| BalanceLine { joins: water, keeps: 0.0, rule: MassRule::Fixed(g) };
        let lines: Vec<_> = grams.iter().map(line).collect();
        MassBalance { lines: &lines, targets: &[], yields: None, left_behind: 0.0 }.solve()
    }

    #[test]
    fn rounding_is_not_below_nothing() {
        assert_eq!(of_water(&[1000.0, -1e-7]), Ok(vec![1000.0, 0.0]));
        assert_eq!(of_water(&[1000.0, -1e-5, 1.0]), Err(BalanceError::Negative(vec![1])));
    }

    /// 3 g at 40 °Bx of a syrup of 60 °Bx and water: 2 g and 1 g.
    #[test]
    fn two_rules_find_two_masses() {
        let line = |joins| BalanceLine { joins, keeps: 0.0, rule: MassRule::Open };
        let sugar = Mixture::of(&[(Component::Sucrose, 0.6), (Component::Water, 0.4)]);
        let water = Mixture::of(&[(Component::Water, 1.0)]);
        let lines = [line(sugar), line(water)];
        let targets = [(TargetKind::Brix, 40.0)];
        let of = |lines: &[BalanceLine]| {
            MassBalance { lines, targets: &targets, yields: Some(Yield::Grams(3.0)), left_behind: 0.0 }.solve()
        };
        let masses = of(&lines).unwrap();
        assert!((masses[0] - 2.0).abs() < 1e-12 && (masses[1] - 1.0).abs() < 1e-12, "{masses:?}");
        // two lines that bring the same cannot be told apart
        assert_eq!(of(&[line(sugar), line(sugar)]), Err(BalanceError::Singular));
    }

    #[test]
    fn what_fixes_nothing_or_is_no_number_is_refused() {
        for joins in [Mixture::EMPTY, Mixture::of(&[(Component::Water, f64::NAN)])] {
            let lines = [BalanceLine { joins, keeps: 0.0, rule: MassRule::Open }];
            let balance =
                MassBalance { lines: &lines, targets: &[], yields: Some(Yield::Grams(1.0)), left_behind: 0.0 };
            assert_eq!(balance.solve(), Err(BalanceError::Singular), "{joins:?}");
        }
    }

    #[test]
    fn a_dry_answer_is_refused_though_the_water_is_a_rounding_below_nothing() {
        // All sugar: the water comes out at nothing, give or take the last digit, and dry sugar has no density.
        let pure = |component, rule| BalanceLine { joins: Mixture::of(&[(component, 1.0)]), keeps: 0.0, rule };
        let lines = [pure(Component::Sucrose, MassRule::Open), pure(Component::Water, MassRule::Fixed(-1e-14))];
        let balance =
            MassBalance { lines: &lines, targets: &[], yields: Some(Yield::Millilitres(1000.0)), left_behind: 0.0 };
        assert!(matches!(balance.solve(), Err(BalanceError::NoDensity(_))), "{:?}", balance.solve());
    }
}

mod simplex {
    use stillroom::solver::simplex::{LinearRow, NoVertex, Sense, best};

    fn row(of: &[f64], sense: Sense, right: f64) -> LinearRow {
        LinearRow { of: of.to_vec(), sense, right }
    }

    #[test]
    fn a_corner_says_what_it_is_the_crossing_of() {
        // the most of 3 x + 2 y with x + y <= 4, x + 3 y <= 6, x <= 3: at (3, 1)
        let rows = [
            row(&[1.0, 1.0], Sense::AtMost, 4.0),
            row(&[1.0, 3.0], Sense::AtMost, 6.0),
            row(&[1.0, 0.0], Sense::AtMost, 3.0),
        ];
        let corner = best(&rows, &[vec![-3.0, -2.0]]).unwrap();
        assert!((corner.x[0] - 3.0).abs() < 1e-12 && (corner.x[1] - 1.0).abs() < 1e-12, "{corner:?}");
        assert_eq!(corner.at_zero, [false, false]);
        assert_eq!(corner.tight.iter().filter(|tight| **tight).count(), 2);
    }

    #[test]
    fn no_corner_and_no_end_are_told_apart() {
        let low = row(&[1.0], Sense::AtMost, 1.0);
        let high = row(&[1.0], Sense::AtLeast, 2.0);
        assert_eq!(best(&[low, high.clone()], &[vec![1.0]]), Err(NoVertex::Infeasible));
        assert_eq!(best(&[high], &[vec![-1.0]]), Err(NoVertex::Unbounded));
    }

    #[test]
    fn of_equal_corners_the_next_aim_takes_one() {
        let rows = [row(&[1.0, 1.0], Sense::Equal, 1.0)];
        let same = vec![1.0, 1.0];
        assert_eq!(best(&rows, &[same.clone(), vec![-1.0, 0.0]]).unwrap().x, [1.0, 0.0]);
        assert_eq!(best(&rows, &[same, vec![0.0, -1.0]]).unwrap().x, [0.0, 1.0]);
    }
}
