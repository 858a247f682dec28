//! The kernels below the properties of a mixture, one by one: polynomials and tables, the root, steam, ions, the charge balance,
//! water activity by hand, heat.

mod boiling {
    use stillroom::mixture::boiling::water_pressure_kpa;

    const ZERO_C_K: f64 = 273.15;

    #[test]
    fn steam_meets_its_verification_values() {
        assert!((water_pressure_kpa(300.0 - ZERO_C_K) - 3.53658941).abs() < 1e-8);
        assert!((water_pressure_kpa(500.0 - ZERO_C_K) - 2638.89776).abs() < 1e-5);
    }
}

mod polynomial {
    use stillroom::mixture::polynomial::{between_rows, horner, through_rows};

    #[test]
    fn horner_is_the_polynomial() {
        assert_eq!(horner(&[1.0, 2.0, 3.0], 2.0), 17.0);
        assert_eq!(horner(&[], 2.0), 0.0);
    }

    #[test]
    fn the_curve_is_smooth_and_meets_the_rows() {
        let rows: Vec<_> = [0.0, 0.5, 1.5, 2.0, 4.0].map(|x: f64| (x, x * x)).to_vec();
        for &(x, y) in &rows {
            assert!((through_rows(&rows, x) - y).abs() < 1e-12);
        }
        assert!((through_rows(&rows, 1.0) - 1.0).abs() < 1e-12, "inside, a parabola is met exactly");
        assert_eq!(through_rows(&rows, -1.0), 0.0);
        assert_eq!(through_rows(&rows, 9.0), 16.0);
        assert!(through_rows(&[], 1.0).is_nan());
    }

    #[test]
    fn a_table_ends_where_it_ends() {
        let rows = [(0.0, 1.0), (10.0, 3.0)];
        assert_eq!(between_rows(&rows, 5.0), Some(2.0));
        assert_eq!(between_rows(&rows, 10.0), Some(3.0));
        assert_eq!(between_rows(&rows, 10.1), None);
        assert_eq!(between_rows(&rows, f64::NAN), None);
    }
}

mod root {
    use stillroom::mixture::root::{NoRoot, bracketed, try_bracketed};

    #[test]
    fn finds_roots_in_few_evaluations() {
        let mut count = 0;
        let root = bracketed(
            |x| {
                count += 1;
                x * x * x - 2.0
            },
            0.0,
            10.0,
            1e-12,
        );
        assert!((root.unwrap() - 2f64.cbrt()).abs() < 1e-12);
        assert!(count < 20, "{count}");
    }

    #[test]
    fn takes_a_root_at_an_end_and_a_step() {
        assert_eq!(bracketed(|x| x, 0.0, 1.0, 1e-9), Ok(0.0));
        assert_eq!(bracketed(|x| x - 1.0, 0.0, 1.0, 1e-9), Ok(1.0));
        let step = bracketed(|x| if x < 0.3 { -1.0 } else { 1.0 }, 0.0, 1.0, 1e-9).unwrap();
        assert!((step - 0.3).abs() < 1e-8);
    }

    #[test]
    fn a_failure_of_the_function_ends_the_search() {
        let mut asked = 0;
        let stopped = try_bracketed(
            |x| {
                asked += 1;
                if x > 0.2 && x < 0.9 { Err("no value here") } else { Ok(x - 0.5) }
            },
            0.0,
            1.0,
            1e-9,
        );
        assert_eq!((stopped, asked), (Err(NoRoot::Stopped("no value here")), 3));
    }

    #[test]
    fn refuses_what_is_not_bracketed_or_not_a_number() {
        assert!(bracketed(|x| x + 1.0, 0.0, 1.0, 1e-9).is_err());
        assert!(bracketed(|_| f64::NAN, 0.0, 1.0, 1e-9).is_err());
        assert!(bracketed(|x| if x == 0.5 { f64::NAN } else { x - 0.6 }, 0.0, 1.0, 1e-9).is_err());
    }
}

mod water_activity {
    use stillroom::mixture::water_activity::BoundedActivity;
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::celsius;

    /// What is stated of a solution of up to 70 % of solids.
    const OWN_ERROR: f64 = 0.002;

    fn activity(parts: &[(Component, f64)]) -> BoundedActivity {
        Mixture::of(parts).water_activity(celsius(25.0)).unwrap()
    }

    /// By Norrish with K = 2.15, ln aw = ln(1 - x) - K x²: with one solute both rules are this one.
    #[test]
    fn one_solute_keeps_its_own_k() {
        let both = activity(&[(Component::Fructose, 40.0), (Component::Water, 60.0)]);
        let (fructose, water) = (40.0 / 180.156, 60.0 / 18.015);
        let x: f64 = fructose / (fructose + water);
        let by_hand = (1.0 - x) * (-2.15 * x * x).exp();
        assert!((both.estimate.value.get() - by_hand).abs() < 1e-12, "{by_hand}");
        assert!((both.upper.get() - by_hand - OWN_ERROR).abs() < 1e-12, "{by_hand}");
    }

    #[test]
    fn half_inverted_syrup_by_both_rules() {
        // 65 % of sugar, half of it glucose and fructose: 0.812 by the linear rule, 0.838 by Ross.
        let both = activity(&[
            (Component::Sucrose, 32.5),
            (Component::Glucose, 17.105),
            (Component::Fructose, 17.105),
            (Component::Water, 33.29),
        ]);
        assert!((both.estimate.value.get() - 0.812).abs() < 0.006, "{both:?}");
        assert!((both.upper.get() - OWN_ERROR - 0.838).abs() < 0.006, "{both:?}");
        assert!(both.upper.get() > both.estimate.value.get() + 0.02);
    }
}

mod activity {
    use stillroom::mixture::acidity::activity::{davies, debye_huckel};

    #[test]
    fn known_points() {
        assert!((debye_huckel(25.0) - 0.5108).abs() < 1e-12);
        assert!((debye_huckel(15.0) - 0.5028).abs() < 1e-4);
        // by hand: √0.1 = 0.31623; 0.31623/1.31623 - 0.03 = 0.21025; × 0.5108 = 0.10740; 10^-0.10740 = 0.7809
        let [neutral, single, double, triple] = davies(0.5108, 0.1);
        assert_eq!(neutral, 1.0);
        assert!((single - 0.7809).abs() < 1e-4, "{single}");
        assert!((double - single.powi(4)).abs() < 1e-12 && (triple - single.powi(9)).abs() < 1e-12);
        assert_eq!(davies(0.0, 0.1), [1.0; 4]);
    }
}

mod charge_balance {
    use stillroom::mixture::acidity::acids::{Acid, CITRIC, LACTIC, MALIC};
    use stillroom::mixture::acidity::charge_balance::{constant, water_constant};

    fn pk(acid: &Acid, step: usize, kelvin: f64) -> f64 {
        -constant(&acid.steps[step], kelvin).log10()
    }

    /// Bates and Pinching 1949 (a fit in a later abstract, the 1/T terms of the second and third with a minus),
    /// Eden and Bates 1959, and the lactic formula of Martin and Tartar 1937.
    #[test]
    fn pk_over_temperature_meets_the_published_fits() {
        for celsius in [0.0, 10.0, 25.0, 37.0, 50.0] {
            let t: f64 = celsius + 273.15;
            let ln_10 = std::f64::consts::LN_10;
            let citric = [
                -646.5228 + 14264.1855 / t + 115.3451 * t.ln() - 0.2204 * t,
                -52.1997 - 1842.97387 / t + 11.19421 * t.ln() - 0.05487 * t,
                -129.89305 - 394.04129 / t + 25.36088 * t.ln() - 0.09394 * t,
            ];
            for (step, ln_k) in citric.into_iter().enumerate() {
                let (got, fit) = (pk(&CITRIC, step, t), -ln_k / ln_10);
                assert!((got - fit).abs() <= 0.004, "citric {step} at {celsius}: {got} against {fit}");
            }
            let malic = [1358.85 / t - 5.1382 + 0.013550 * t, 1658.53 / t - 6.2364 + 0.019353 * t];
            for (step, fit) in malic.into_iter().enumerate() {
                let got = pk(&MALIC, step, t);
                assert!((got - fit).abs() <= 0.002, "malic {step} at {celsius}: {got} against {fit}");
            }
            let (got, fit) = (pk(&LACTIC, 0, t), 3.857 + 5e-5 * (celsius - 22.5).powi(2));
            assert!((got - fit).abs() <= 0.004, "lactic at {celsius}: {got} against {fit}");
        }
    }

    #[test]
    fn water_at_three_temperatures() {
        for (celsius, pkw) in [(0.0, 14.94), (25.0, 13.995), (50.0, 13.26)] {
            assert!((-water_constant(celsius + 273.15).log10() - pkw).abs() < 0.006, "{celsius}");
        }
    }
}

mod heat {
    use stillroom::mixture::heat::kj_per_kelvin;
    use stillroom::mixture::{Component, Mixture};

    #[test]
    fn syrups_have_the_specific_heat_of_the_tables() {
        for brix in [20.0, 40.0, 64.0] {
            let syrup = Mixture::of(&[(Component::Sucrose, brix), (Component::Water, 100.0 - brix)]);
            let of_table = 4.1868 - 0.0297 * brix + 7.5e-5 * brix * 50.0;
            let ours = kj_per_kelvin(&syrup) * 10.0;
            assert!((ours / of_table - 1.0).abs() < 0.01, "{brix}: {ours} {of_table}");
        }
    }
}
