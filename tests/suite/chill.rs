//! Ice and drinks: freezing points against the handbook, the balance of heat by hand, and what must hold of any of them.

use proptest::prelude::*;
use stillroom::mixture::chill::{Chilling, FUSION_KJ, ICE_KJ};
use stillroom::mixture::heat::kj_per_kelvin;
use stillroom::mixture::{Component, Mixture};
use stillroom::units::{celsius, degrees_celsius};

use crate::generated::check;
use crate::table;

fn freezes_at(mixture: &Mixture) -> f64 {
    degrees_celsius(mixture.freezing_point().unwrap().value)
}

fn of(ethanol: f64, sucrose: f64, water: f64) -> Mixture {
    Mixture::of(&[(Component::Ethanol, ethanol), (Component::Sucrose, sucrose), (Component::Water, water)])
}

/// The depressions of the handbook (CRC, 102nd ed.). Those of spirit are the rows that the code has too; those of sugar come
/// out of the water activity alone.
#[test]
fn freezing_points_are_those_of_the_handbook() {
    for (file, solute, most) in
        [("ethanol-nd-ethanol-water", Component::Ethanol, 0.01), ("ethanol-nd-sucrose-water", Component::Sucrose, 0.06)]
    {
        let mut off = table::Largest::of(file);
        for row in table::rows(file) {
            let Some(depression) = row.maybe("freezing_depression_k") else { continue };
            let g = row.number("solute_mass_pct");
            off.within(freezes_at(&Mixture::of(&[(solute, g), (Component::Water, 100.0 - g)])), -depression, most, g);
        }
    }
    // Between its rows: 40 and 50 % by mass, 29.26 and 37.67 K (CRC, from memory).
    assert!((freezes_at(&of(40.0, 0.0, 60.0)) + 29.26).abs() < 0.2);
    assert!((freezes_at(&of(50.0, 0.0, 50.0)) + 37.67).abs() < 0.2);
    assert!(of(75.0, 0.0, 25.0).freezing_point().is_err());
}

/// 112.3 J/(mol K) of the liquid at 25 °C (CRC Handbook) over 46.068 g/mol (IUPAC atomic weights); what is counted with has two
/// decimals.
#[test]
fn ethanol_takes_up_its_molar_heat() {
    let ours = kj_per_kelvin(&of(1000.0, 0.0, 0.0));
    assert!((ours - 112.3 / 46.068).abs() <= 0.005, "{ours}");
}

/// Spirit and sugar together lie below either of them alone, and above the sum of both.
#[test]
fn sugar_lowers_the_freezing_point_of_a_spirit() {
    let (spirit, sugar, both) = (of(15.0, 0.0, 75.0), of(0.0, 20.0, 75.0), of(15.0, 20.0, 75.0));
    let [spirit, sugar, both] = [spirit, sugar, both].map(|m| freezes_at(&m));
    assert!(both < spirit.min(sugar), "{both} {spirit} {sugar}");
    assert!((both - (spirit + sugar)).abs() < 0.3, "{both} {spirit} {sugar}");
}

/// One drink by hand: 40 g of water with nothing in it, at 20 °C, and 100 g of dry ice at 0 °C in a vessel that takes nothing.
/// It freezes at 0 °C: 40 x 4.18 x 20 = 3344 J; 3344 / 333.6 = 10.02398 g.
#[test]
fn water_by_hand() {
    let drink = Mixture::of(&[(Component::Water, 40.0)]);
    let chilled = Chilling { drink: &drink, share: 1.0, ..plain() }.run();
    assert!((chilled.melted_g - 10.023_980_8).abs() < 1e-6, "{chilled:?}");
    assert!(chilled.at_c.abs() < 1e-6 && chilled.surface_g == 0.0);
}

/// A sour by hand, half of the way. 16 g of ethanol, 14 g of sugar, 60 g of water at 20 °C; 200 g of ice at 0 °C, 2 % of it
/// water on its surface; a tin of 0.1 kJ/K at 21 °C; 120 kJ of mixing for each kilogram of ethanol.
///
/// The equation says that it ends at t with x g melted. Put what was found into it, each term by hand:
/// - drink: (60 x 4.18 + 16 x 2.44 + 14 x 1.6) / 1000 = (250.8 + 39.04 + 22.4) / 1000 = 0.31224 kJ/K
/// - surface 0.02 x 200 = 4 g: 4 x 4.18 / 1000 = 0.01672 kJ/K; solid ice 196 g: 196 x 2.1 / 1000 = 0.4116 kJ/K
/// - given: 0.31224 (20 - t) + 0.1 (21 - t) + 120 x 0.016 - 0.01672 t = 6.2448 + 2.1 + 1.92 - 0.42896 t = 10.2648 - 0.42896 t
/// - taken: 0.4116 t + x (333.6 + 2.08 t) / 1000
/// - so x = 1000 (10.2648 - 0.84056 t) / (333.6 + 2.08 t), and t is the freezing point of the drink with x + 4 g of water.
#[test]
fn a_sour_by_hand() {
    let drink = of(16.0, 14.0, 60.0);
    let whole = Chilling { drink: &drink, wet: 0.02, ice_g: 200.0, ..of_a_tin() };
    let end = Chilling { share: 1.0, ..whole }.run();
    let t = end.at_c;
    assert!((end.melted_g - 1000.0 * (10.2648 - 0.84056 * t) / (333.6 + 2.08 * t)).abs() < 1e-6, "{end:?}");
    assert!((freezes_at(&of(16.0, 14.0, 64.0 + end.melted_g)) - t).abs() < 1e-6);
    // Digit for digit: with x = 48.6 the drink holds 112.6 g of water. By mass 16 / 128.6 = 12.442 % of ethanol: the handbook
    // has 5.56 K at 12 % and 6.13 K at 13 %, so 5.81 K. The sugar, 14 / 126.6 = 11.06 %: 0.63 K at 10 %, 1.01 K at 15 %, so
    // about 0.71 K. Together -6.5 °C, and x = 1000 (10.2648 + 5.4636) / (333.6 - 13.52) = 49.1 g.
    assert!((t + 6.5).abs() < 0.1 && (end.melted_g - 49.1).abs() < 0.5, "{end:?}");
    // Half of the way: half of the water, and what it gave up is what the ice took: the drink stands between.
    let half = Chilling { share: 0.5, ..whole }.run();
    assert!((half.water_g() - 0.5 * end.water_g()).abs() < 1e-9 && half.at_c > t && half.at_c < 20.0);
}

/// A trial in the press (ANI, 1 April 2012, "Shaken cocktails lose potency much faster than stirred ones"): 70 g of vodka at 40 % vol
/// and 350 g of ice in cubes, at 73 °F, shaken to 29 °F. It then weighed 46 g more, and at 45 to 46 proof was 18.4 % by mass (OIML
/// table, 22.75 % vol): its 23.3 g of alcohol stood in 126 g, so 56 g of water; what clings to the ice is not weighed. The balance
/// of heat at that temperature, from a dry tin to a heavy one, holds both.
#[test]
fn a_published_shake_lies_within_the_balance_of_heat() {
    let vodka = of(23.3, 0.0, 46.7);
    let shaken = |wet: f64, vessel: f64, mixing: f64| {
        let whole = Chilling {
            drink: &vodka,
            from_c: 22.8,
            ice_g: 350.0,
            wet,
            vessel_kj_per_k: vessel,
            vessel_c: 22.8,
            mixing_kj_per_kg: mixing,
            ..plain()
        };
        let ends_at = |share: f64| Chilling { share, ..whole }.run();
        // the share of the way at which it is as cold as it was measured, -1.7 °C
        let (mut near, mut far) = (0.0, 1.0);
        for _ in 0..60 {
            let middle = 0.5 * (near + far);
            if ends_at(middle).at_c > -1.7 { near = middle } else { far = middle }
        }
        ends_at(near).water_g()
    };
    let (least, most) = (shaken(0.02, 0.05, 80.0), shaken(0.04, 0.2, 160.0));
    assert!(least < 46.0 && 56.0 < most && most < 1.4 * 46.0, "{least} to {most}");
}

fn plain() -> Chilling<'static> {
    Chilling {
        drink: const { &Mixture::EMPTY },
        from_c: 20.0,
        ice_g: 100.0,
        ice_c: 0.0,
        wet: 0.0,
        vessel_kj_per_k: 0.0,
        vessel_c: 20.0,
        mixing_kj_per_kg: 0.0,
        share: 1.0,
    }
}

fn of_a_tin() -> Chilling<'static> {
    Chilling { vessel_kj_per_k: 0.1, vessel_c: 21.0, mixing_kj_per_kg: 120.0, ..plain() }
}

/// Grams of ethanol, sugar and water; ice; its temperature; its wetness; the share of the way.
fn any_drink() -> impl Strategy<Value = (f64, f64, f64, f64, f64, f64, f64)> {
    (0.0..25.0, 0.0..25.0, 40.0..150.0, 0.0..400.0, -18.0..0.0, 0.0..0.15, 0.0..1.0_f64)
}

/// What the ice took up is what the drink, the tin and the mixing gave, counted anew from the temperatures alone.
#[test]
fn energy_is_conserved() {
    check(1000, any_drink(), |(ethanol, sugar, water, ice_g, ice_c, wet, share)| {
        let drink = of(ethanol, sugar, water);
        let chilling = Chilling { drink: &drink, ice_g, ice_c, wet, share, ..of_a_tin() };
        let (end, got) = (Chilling { share: 1.0, ..chilling }.run(), chilling.run());
        prop_assume!(end.melted_g > 0.0 && end.melted_g < (1.0 - wet) * ice_g - 1e-6);
        let given =
            kj_per_kelvin(&drink) * (20.0 - got.at_c) + 0.1 * (21.0 - got.at_c) + share * 120.0 * ethanol / 1000.0
                - got.surface_g * 4.18 / 1000.0 * got.at_c;
        // So much of the ice as the share of the way was brought to the end, melted there, and its water warmed to the drink.
        let solid_g = share * (1.0 - wet) * ice_g;
        let taken = solid_g * ICE_KJ * (end.at_c - ice_c)
            + got.melted_g * (FUSION_KJ + (4.18 - ICE_KJ) * end.at_c)
            + got.melted_g * 4.18 * (got.at_c - end.at_c);
        prop_assert!((given - taken / 1000.0).abs() < 1e-6, "{given} {taken}");
        Ok(())
    });
}

/// Never more water than ice; none at no share; more with more of the way, and with more wet ice at 0 °C; a stronger drink
/// of the same weight takes more.
#[test]
fn water_grows_with_strength_ice_and_share() {
    check(1000, any_drink(), |(ethanol, sugar, water, ice_g, ice_c, wet, share)| {
        let drink = of(ethanol, sugar, water);
        let chilling = Chilling { drink: &drink, ice_g, ice_c, wet, share, ..of_a_tin() };
        let of = |chilling: Chilling<'_>| chilling.run().water_g();
        let got = of(chilling);
        prop_assert!((0.0..=ice_g + 1e-9).contains(&got));
        let none = of(Chilling { share: 0.0, ..chilling });
        prop_assert!(none == 0.0);
        let further = of(Chilling { share: (share + 0.1).min(1.0), ..chilling });
        prop_assert!(further >= got - 1e-9, "{further} {got}");
        let at_zero = Chilling { ice_c: 0.0, ..chilling };
        let more_ice = of(Chilling { ice_g: ice_g + 20.0, ..at_zero });
        prop_assert!(more_ice >= of(at_zero) - 1e-9, "{more_ice}");
        let stronger = self::of(ethanol + 3.0, sugar, water - 3.0);
        let stronger = of(Chilling { drink: &stronger, ..at_zero });
        prop_assert!(stronger >= of(at_zero) - 1e-9, "{stronger}");
        Ok(())
    });
}

/// What a freezer makes of a drink: no ice above its freezing point, more the colder it is, never more than its water, and
/// the liquid that is left freezes at just that temperature.
#[test]
fn ice_in_a_freezer() {
    check(1000, (2.0..25.0, 0.0..25.0, 40.0..150.0, -30.0..0.0), |(ethanol, sugar, water, t)| {
        let drink = of(ethanol, sugar, water);
        let ice = drink.ice_at(celsius(t));
        prop_assert!((0.0..=water).contains(&ice));
        prop_assert_eq!(ice == 0.0, t >= freezes_at(&drink));
        if ice > 0.0 {
            prop_assert!((freezes_at(&of(ethanol, sugar, water - ice)) - t).abs() < 1e-5);
            prop_assert!(drink.ice_at(celsius(t - 1.0)) > ice);
        }
        Ok(())
    });
}
