//! Single values and refusals of the physics of mixtures, equation by equation.

mod density {
    use stillroom::mixture::Component::{self, Citric, Ethanol, Fructose, Glucose, Other, Sucrose, Water};
    use stillroom::mixture::Mixture;
    use stillroom::mixture::alcohol::mass_fraction_of;
    use stillroom::mixture::density::sucrose_solution;
    use stillroom::units::{Abv, MassFraction, celsius, in_kg_per_m3};

    fn density(parts: &[(Component, f64)], t_c: f64) -> f64 {
        in_kg_per_m3(Mixture::of(parts).density(celsius(t_c)).unwrap().value)
    }

    #[test]
    fn both_binary_limits_hold() {
        let share = MassFraction::saturating(0.6);
        let sucrose_60 = in_kg_per_m3(sucrose_solution(share, celsius(20.0)).unwrap().value);
        assert_eq!(density(&[(Sucrose, 60.0), (Water, 40.0)], 20.0), sucrose_60);
        let spirit = density(&[(Ethanol, 40.0), (Water, 60.0)], 20.0);
        assert!((spirit - 935.145033).abs() < 0.002, "{spirit}");
        let nearly = density(&[(Sucrose, 60.0), (Water, 40.0), (Ethanol, 1e-9)], 20.0);
        assert!((nearly - sucrose_60).abs() < 1e-6);
    }

    #[test]
    fn what_is_no_liquid_or_too_hot_is_refused() {
        assert!(Mixture::EMPTY.density(celsius(20.0)).is_err());
        assert!(Mixture::of(&[(Sucrose, 1.0)]).density(celsius(20.0)).is_err());
        let liqueur = Mixture::of(&[(Sucrose, 1.0), (Water, 1.0), (Ethanol, 1.0)]);
        assert!(liqueur.density(celsius(45.0)).is_err());
        assert!(Mixture::of(&[(Ethanol, 0.1), (Water, 0.9)]).density(celsius(-10.0)).is_err());
        assert!(Mixture::of(&[(Ethanol, 0.5), (Water, 0.5)]).density(celsius(-10.0)).is_ok());
        assert!(Mixture::of(&[(Glucose, f64::INFINITY)]).density(celsius(20.0)).is_err());
    }

    #[test]
    fn the_hand_worked_syrup() {
        // Muscovado at 64 °Bx, everything that is not sucrose given sucrose's volume.
        let syrup = density(&[(Sucrose, 55.938), (Other, 64.0 - 55.938), (Water, 36.0)], 20.0);
        assert!((syrup - 1310.5).abs() < 0.05, "{syrup}");
        // With their own volumes its 3.5 % of glucose and fructose make it a little lighter.
        let invert = 64.0 * 1.75 / 97.25;
        let other = 64.0 - 55.938 - 2.0 * invert;
        let parts = [(Sucrose, 55.938), (Glucose, invert), (Fructose, invert), (Other, other), (Water, 36.0)];
        assert!((density(&parts, 20.0) - 1310.3).abs() < 0.05);
    }

    #[test]
    fn the_hand_worked_liqueur() {
        let strained_g = 773.4;
        let rum = mass_fraction_of(Abv::new(63.0).unwrap()).get();
        let liqueur = Mixture::of(&[
            (Ethanol, strained_g * rum),
            (Water, strained_g * (1.0 - rum) + 1682.9),
            (Sucrose, 751.5),
            (Citric, 12.06),
        ]);
        let found = in_kg_per_m3(liqueur.density(celsius(20.0)).unwrap().value);
        assert!((found - 1073.3).abs() < 0.05, "{found}");
        assert!((liqueur.total_grams() - 3219.9).abs() < 0.06);
        assert!((liqueur.brix().get() - 23.7).abs() < 0.05);
        assert!((liqueur.abv().unwrap().value.get() - 18.0).abs() < 0.005);
    }
}

mod water_activity {
    use stillroom::mixture::water_activity::BoundedActivity;
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::celsius;

    fn activity(parts: &[(Component, f64)]) -> BoundedActivity {
        Mixture::of(parts).water_activity(celsius(25.0)).unwrap()
    }

    #[test]
    fn what_is_not_known_never_makes_it_drier_in_the_cautious_value() {
        let plain = activity(&[(Component::Sucrose, 50.0), (Component::Water, 50.0)]);
        let with = activity(&[(Component::Sucrose, 50.0), (Component::Other, 20.0), (Component::Water, 50.0)]);
        assert!(with.estimate.value < plain.estimate.value);
        assert_eq!(with.upper, plain.upper);
    }

    #[test]
    fn water_alone_is_one_and_no_water_is_refused() {
        let water = activity(&[(Component::Water, 1.0)]);
        assert_eq!((water.estimate.value.get(), water.upper.get()), (1.0, 1.0));
        assert!(Mixture::of(&[(Component::Sucrose, 1.0)]).water_activity(celsius(20.0)).is_err());
    }
}

mod solubility {
    use stillroom::mixture::solubility::{crystals, richest_ratio, spirit_saturation, sucrose_saturation};
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::{Abv, celsius, degrees_celsius, in_grams, in_grams_per_litre};

    fn two_to_one() -> Mixture {
        Mixture::of(&[(Component::Sucrose, 2.0), (Component::Water, 1.0)])
    }

    #[test]
    fn two_to_one_is_saturated_at_19_6_c() {
        let t = degrees_celsius(two_to_one().saturation_temperature().unwrap().value);
        assert!((t - 19.6).abs() < 0.05, "{t}");
        assert_eq!(in_grams(crystals(&two_to_one(), celsius(25.0)).unwrap().value), 0.0);
    }

    #[test]
    fn crystals_leave_a_saturated_liquor() {
        let syrup = two_to_one() * 1000.0;
        let grown = in_grams(crystals(&syrup, celsius(4.0)).unwrap().value) * 3.0;
        let mut liquor = syrup;
        liquor.set_grams(Component::Sucrose, syrup.grams_of(Component::Sucrose) - grown);
        assert!((liquor.brix().get() - sucrose_saturation(celsius(4.0)).unwrap().value.get()).abs() < 1e-9);
        assert!(grown > 100.0, "{grown}");
    }

    #[test]
    fn other_solids_lower_what_water_holds_but_raise_the_brix() {
        let invert = Mixture::of(&[(Component::Sucrose, 1.0), (Component::Fructose, 0.5), (Component::Water, 1.0)]);
        let saturation = invert.saturation_brix(celsius(20.0)).unwrap();
        assert!(saturation.extrapolated.is_some());
        assert!(saturation.value > sucrose_saturation(celsius(20.0)).unwrap().value);
        let most = 0.95 * richest_ratio(celsius(20.0)).unwrap().value;
        assert!((saturation.value.get() - 100.0 * (most + 0.5) / (most + 1.5)).abs() < 1e-9);
    }

    #[test]
    fn spirit_holds_less() {
        let g_l = |abv| in_grams_per_litre(spirit_saturation(Abv::saturating(abv)).unwrap().value);
        assert_eq!(g_l(0.0), 875.0);
        assert!((g_l(36.4) - 459.5).abs() < 1.0);
        assert!(spirit_saturation(Abv::saturating(95.0)).is_err());
    }
}

mod boiling {
    use stillroom::mixture::alcohol::mass_fraction_of;
    use stillroom::mixture::boiling::{pressure_at_altitude, water};
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::{Abv, Length, Pressure, degrees_celsius};
    use uom::si::length::meter;
    use uom::si::pressure::kilopascal;

    fn boils_at_height(h_m: f64) -> f64 {
        let pressure = pressure_at_altitude(Length::new::<meter>(h_m)).unwrap().value;
        degrees_celsius(water(pressure).unwrap().value)
    }

    #[test]
    fn water_boils_sooner_up_a_mountain() {
        for (h_m, expected) in [(0.0, 99.974), (305.0, 98.96), (1000.0, 96.65), (2000.0, 93.3)] {
            assert!((boils_at_height(h_m) - expected).abs() < 0.05, "{h_m}");
        }
    }

    #[test]
    fn spirit_boils_where_it_should() {
        for (abv, expected) in [(10.0, 92.5), (20.0, 88.3), (40.0, 84.0), (60.0, 81.7), (80.0, 79.7)] {
            let p = mass_fraction_of(Abv::saturating(abv)).get();
            let spirit = Mixture::of(&[(Component::Ethanol, p), (Component::Water, 1.0 - p)]);
            let t = spirit.boiling_point(Pressure::new::<kilopascal>(101.325)).unwrap().value;
            assert!((degrees_celsius(t) - expected).abs() < 0.5, "{abv}: {}", degrees_celsius(t));
        }
    }

    #[test]
    fn nothing_and_dry_sugar_do_not_boil() {
        let air = Pressure::new::<kilopascal>(101.325);
        assert!(Mixture::EMPTY.boiling_point(air).is_err());
        assert!(Mixture::of(&[(Component::Sucrose, 1.0)]).boiling_point(air).is_err());
        assert!(Mixture::of(&[(Component::Ethanol, 1.0)]).boiling_point(air).is_ok());
    }
}

mod refraction {
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::celsius;

    #[test]
    fn water_reads_nothing_and_spirit_reads_high() {
        let water = Mixture::of(&[(Component::Water, 1.0)]);
        assert!(water.refractometer_reading(celsius(20.0)).unwrap().value.get() < 1e-6);
        assert!(water.refractometer_reading(celsius(30.0)).is_err());
        let spirit = Mixture::of(&[(Component::Water, 0.84), (Component::Ethanol, 0.16)]);
        let reading = spirit.refractometer_reading(celsius(20.0)).unwrap().value.get();
        assert!((reading - 7.5).abs() < 0.5, "{reading}");
    }

    #[test]
    fn invert_sugar_reads_low() {
        for (percent, low) in [(10.0, 0.09), (30.0, 0.43), (50.0, 0.93), (60.0, 1.20)] {
            let invert = Mixture::of(&[
                (Component::Glucose, percent / 2.0),
                (Component::Fructose, percent / 2.0),
                (Component::Water, 100.0 - percent),
            ]);
            let reading = invert.refractometer_reading(celsius(20.0)).unwrap().value.get();
            assert!((percent - reading - low).abs() < 0.01, "{percent}: {reading}");
        }
    }

    /// NaCl in water at 20 °C, % by mass: kg/m³ and index (CRC Handbook, concentrative properties of aqueous solutions, from memory; the
    /// densities are those of a table of the Nicolaus Copernicus University too: 1034.1 at 5 %, 1147.8 at 20 %).
    #[test]
    fn salt_water_is_as_dense_as_the_handbook_says() {
        for (percent, kg_m3, index) in [
            (5.0, 1034.1, 1.3418),
            (10.0, 1070.7, 1.3505),
            (15.0, 1108.5, f64::NAN),
            (20.0, 1147.8, 1.3684),
            (25.0, 1188.7, f64::NAN),
            (26.0, 1197.2, 1.3795),
        ] {
            let saline = Mixture::of(&[(Component::Salt, percent), (Component::Water, 100.0 - percent)]);
            let density = stillroom::units::in_kg_per_m3(saline.density(celsius(20.0)).unwrap().value);
            assert!((density - kg_m3).abs() < 0.3, "{percent} %: {density}");
            let n = saline.refractive_index(celsius(20.0)).unwrap().value;
            assert!(index.is_nan() || (n - index).abs() < 3e-4, "{percent} %: {n}");
        }
    }

    #[test]
    fn salt_glycerol_and_vinegar_refract_as_they_should() {
        // 10 % by mass: 1.3505, 1.3448 and 1.3402 (CRC, from memory).
        for (component, expected) in
            [(Component::Salt, 1.3505), (Component::Glycerol, 1.3448), (Component::Acetic, 1.3402)]
        {
            let ten = Mixture::of(&[(component, 10.0), (Component::Water, 90.0)]);
            let n = ten.refractive_index(celsius(20.0)).unwrap().value;
            assert!((n - expected).abs() < 5e-4, "{component:?} {n}");
        }
    }
}

mod alcohol {
    use stillroom::card::Makes;
    use stillroom::mixture::alcohol::{abv_of, mass_fraction_of, mass_fraction_of_proof, proof_of};
    use stillroom::solver::square::{NoSquare, SquareKind, draw};
    use stillroom::units::{Abv, millilitres};

    fn abv(percent: f64) -> Abv {
        Abv::new(percent).unwrap()
    }

    #[test]
    fn strength_goes_to_mass_and_back() {
        for percent in [0.0, 0.5, 12.5, 40.0, 63.0, 96.0, 100.0] {
            assert!((abv_of(mass_fraction_of(abv(percent))).get() - percent).abs() < 1e-9);
        }
    }

    #[test]
    fn proof_is_a_little_less_than_twice_the_percent_at_20_c() {
        let share = mass_fraction_of(abv(40.0));
        let difference = 40.0 - proof_of(share) / 2.0;
        assert!((0.05..0.09).contains(&difference), "{difference}");
        assert!(mass_fraction_of_proof(201.0).is_none());
    }

    #[test]
    fn a_target_outside_the_two_strengths_has_no_square() {
        let square = |weak, target| draw(SquareKind::Abv, 40.0, weak, target, Makes::Volume(millilitres(1000.0)));
        assert_eq!(square(0.0, 45.0), Err(NoSquare::Target));
        assert_eq!(square(40.0, 40.0), Err(NoSquare::Sides));
    }
}

mod sweetness {
    use stillroom::mixture::density::sucrose_solution;
    use stillroom::mixture::sweetness::{
        apparent_specific_gravity, baume_of, brix_of_density, plato_of_apparent, specific_gravity_of_baume,
    };
    use stillroom::units::{MassDensity, MassFraction, celsius, kg_per_m3};

    fn sucrose(share: f64, t_c: f64) -> MassDensity {
        sucrose_solution(MassFraction::saturating(share), celsius(t_c)).unwrap().value
    }

    #[test]
    fn density_gives_back_its_brix() {
        for bx in [0.0, 12.0, 50.0, 66.7, 84.0] {
            let rho = sucrose(bx / 100.0, 35.0);
            assert!((brix_of_density(rho, celsius(35.0)).unwrap().value.get() - bx).abs() < 1e-6);
        }
        assert!(brix_of_density(kg_per_m3(990.0), celsius(20.0)).is_err());
    }

    #[test]
    fn plato_is_brix_in_its_range_and_nothing_beyond() {
        let rho = sucrose(0.15, 20.0);
        let plato = plato_of_apparent(apparent_specific_gravity(rho)).unwrap();
        assert!((plato - 15.0).abs() < 0.012, "{plato}");
        assert!(plato_of_apparent(1.3).is_err());
    }

    #[test]
    fn baume_goes_there_and_back() {
        let sg = specific_gravity_of_baume(30.0).unwrap();
        assert!((baume_of(sg).unwrap() - 30.0).abs() < 1e-12);
        assert_eq!(specific_gravity_of_baume(145.0), None);
    }
}

mod composition {
    use stillroom::mixture::{Component, Mixture};

    #[test]
    fn keys_name_one_component_each() {
        for &component in Component::ALL {
            assert_eq!(Component::from_key(component.key()), Some(component));
        }
    }

    #[test]
    fn mass_is_kept_when_mixtures_add_and_scale() {
        let syrup = Mixture::of(&[(Component::Sucrose, 2.0), (Component::Water, 1.0)]);
        let both = syrup * 3.0 + Mixture::of(&[(Component::Ethanol, 0.5)]);
        assert_eq!(both.total_grams(), 9.5);
        assert_eq!(both.sugar_grams(), 6.0);
        assert_eq!(both.solids_grams(), 6.0);
    }
}

mod nutrition {
    use stillroom::mixture::{Component, Mixture};
    use stillroom::units::{celsius, in_kg_per_m3};
    use uom::si::energy::{kilocalorie, kilojoule};

    #[test]
    fn energy_of_a_liqueur() {
        // 25 % alcohol and 300 g/L: 29 x 0.78924 x 25 + 17 x 30 = 1082 kJ for each 100 ml.
        let liqueur =
            Mixture::of(&[(Component::Ethanol, 197.31), (Component::Water, 584.94), (Component::Sucrose, 300.0)]);
        let energy = liqueur.energy_per_100_ml().unwrap();
        assert!((energy.kilojoules.get::<kilojoule>() - 1082.0).abs() < 1.0);
        let kcal = energy.kilocalories.get::<kilocalorie>();
        assert!((kcal - (7.0 * 19.731 + 4.0 * 30.0)).abs() < 0.3, "{kcal}");
        assert!(Mixture::EMPTY.energy_per_100_ml().is_err());
    }

    /// Regulation (EU) 1169/2011, Annex XIV, line by line: kJ and kcal for each gram.
    #[test]
    fn every_gram_has_the_energy_of_the_annex() {
        let annex = [
            (Component::Sucrose, 17.0, 4.0),  // carbohydrate (except polyols)
            (Component::Glycerol, 10.0, 2.4), // polyols
            (Component::Protein, 17.0, 4.0),  // protein
            (Component::Fat, 37.0, 9.0),      // fat
            (Component::Ethanol, 29.0, 7.0),  // alcohol (ethanol)
            (Component::Citric, 13.0, 3.0),   // organic acid
            (Component::Fibre, 8.0, 2.0),     // fibre
            (Component::Salt, 0.0, 0.0),      // not in the annex
        ];
        for (component, kj, kcal) in annex {
            let ten = Mixture::of(&[(component, 10.0), (Component::Water, 990.0)]);
            let density = ten.density(celsius(20.0)).unwrap().value;
            let hundreds = ten.total_grams() / in_kg_per_m3(density) * 1000.0 / 100.0;
            let energy = ten.energy_per_100_ml().unwrap();
            let of = |found: f64, factor: f64| (found * hundreds - 10.0 * factor).abs() < 1e-9;
            assert!(of(energy.kilojoules.get::<kilojoule>(), kj), "{component:?} {energy:?}");
            assert!(of(energy.kilocalories.get::<kilocalorie>(), kcal), "{component:?} {energy:?}");
        }
    }
}

mod flash_point {
    use stillroom::mixture::flash_point::of_strength;
    use stillroom::units::{Abv, degrees_celsius, in_kelvins};

    #[test]
    fn linear_between_rows_and_none_below() {
        let forty_five = of_strength(Abv::saturating(50.0)).unwrap();
        assert!((degrees_celsius(forty_five.value) - 24.0).abs() < 1e-9);
        assert_eq!(in_kelvins(forty_five.error), 5.0);
        assert!(of_strength(Abv::saturating(9.9)).is_err());
        assert!(of_strength(Abv::saturating(100.0)).unwrap().extrapolated.is_some());
    }
}

mod juice {
    use stillroom::mixture::acidity::juice::{Minerals, bound_cations};

    #[test]
    fn a_hundred_milligrams_of_potassium() {
        let all = Minerals {
            potassium_mg: Some(100.0),
            sodium_mg: Some(0.0),
            calcium_mg: Some(0.0),
            magnesium_mg: Some(0.0),
            phosphorus_mg: Some(0.0),
        };
        let [low, mid, high] = bound_cations(&all).unwrap().bound_cations_eq;
        assert!((high / 0.090 - 0.02842).abs() < 5e-6, "in 90 g of water: {}", high / 0.090);
        assert!((low - 0.5 * high).abs() < 1e-12 && (mid - 0.7 * high).abs() < 1e-12);
    }

    #[test]
    fn a_blank_is_not_zero() {
        let but_one = Minerals { potassium_mg: Some(100.0), ..Minerals::default() };
        assert_eq!(bound_cations(&but_one), None);
    }
}
