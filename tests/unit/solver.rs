//! What is inside the room `solver` and cannot be asked from outside it.

mod linear {
    use crate::solver::balance::solve_linear as solve;

    #[test]
    fn solves_and_refuses() {
        let x = solve(&[vec![2.0, 1.0], vec![1.0, -1.0]], &[5.0, 1.0]).unwrap();
        assert!((x[0] - 2.0).abs() < 1e-14 && (x[1] - 1.0).abs() < 1e-14);
        assert!(solve(&[vec![1.0, 1.0], vec![2.0, 2.0]], &[1.0, 2.0]).is_none());
        assert!(solve(&[vec![0.0]], &[1.0]).is_none());
        assert!(solve(&[vec![f64::NAN]], &[1.0]).is_none());
    }
}

mod balance {
    use crate::mixture::{Component, Mixture};
    use crate::properties::{TargetKind, value_of};

    use crate::solver::balance::*;

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

    #[test]
    fn rounding_is_not_below_nothing() {
        assert!(below_nothing(&[1000.0, -1e-7]).is_empty());
        assert_eq!(below_nothing(&[1000.0, -1e-5, 1.0]), [1]);
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
