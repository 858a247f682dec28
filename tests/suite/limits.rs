//! Every limit of the cautions from both of its sides, so that none can move unseen: what speaks just inside is silent just
//! outside. A caution that names a number and has no row here fails.

use std::collections::BTreeSet;

use stillroom::safety::alcohol_bands::alcohol_keeps;
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::variables::Variable;
use stillroom::safety::{Fact, Facts, Market, Members, Storage, Tcs, evaluate};
use stillroom::shelf_life::delle;
use stillroom::vocabulary::{Allergen, Open, Process, Tag};

/// Everything stated, and nothing to say of it.
fn plain() -> Facts {
    Facts {
        ph: Fact::Known(4.0),
        ph_u: Fact::Known(0.0),
        aw: Fact::Known(0.95),
        aw_u: Fact::Known(0.0),
        abv: Fact::Known(0.0),
        brix: Fact::Known(0.0),
        days: Fact::Known(7.0),
        so2_mg_kg: Fact::Known(0.0),
        benzoic_mg_kg: Fact::Known(0.0),
        sorbic_mg_kg: Fact::Known(0.0),
        limit_benzoic: Fact::Known(1000.0),
        limit_sorbic: Fact::Known(1000.0),
        active_pct: Fact::Known(90.0),
        quinine_mg_kg: Fact::None,
        coumarin_mg_per_serving: Fact::Known(0.0),
        nutmeg_g_per_serving: Fact::Known(0.0),
        corrosive_g: Fact::Known(0.0),
        strongest_abv: Fact::Known(0.0),
        spirit_ml: Fact::Known(0.0),
        body_mass_kg: Fact::Known(60.0),
        liquid_temp_c: Fact::Known(20.0),
        flash_point_c: Fact::None,
        hours_hot: Fact::Known(0.0),
        hold_min: Fact::Known(5.0),
        need_min: Fact::Known(1.0),
        vessel_l: Fact::Known(2.0),
        smallest_dose_g: Fact::None,
        gas_bar: Fact::Known(0.0),
        scale_g: Fact::Known(1.0),
        heat_5log: Fact::Known(false),
        pasteurised: Fact::Known(false),
        in_bath: Fact::Known(false),
        from_cold: Fact::Known(false),
        sale: Fact::Known(false),
        packaged: Fact::Known(false),
        tcs: Fact::Known(Tcs::NonTcs),
        tcs_no_acid: Fact::None,
        storage: Fact::Known(Storage::Chill),
        market: vec![Market::Uk],
        tags: Members::none(),
        process: Members::none(),
        allergens: Members::none(),
        ..Facts::default()
    }
}

fn with(facts: &mut Facts, name: &str, value: f64) {
    match Variable::from_name(name) {
        Some(Variable::Quantity(quantity)) => *facts.number_mut(quantity) = Fact::Known(value),
        other => panic!("{name} is {other:?}"),
    }
}

/// The caution; what else must hold for it; the quantity, a value at which it speaks and one at which it is silent.
type Row = (&'static str, fn(&mut Facts), &'static str, f64, f64);

fn sealed_warm(f: &mut Facts) {
    f.process = Members::known([Process::Sealed]);
    f.storage = Fact::Known(Storage::Ambient);
    (f.ph, f.abv) = (Fact::Known(5.0), Fact::Known(0.0));
}
fn kept_warm(f: &mut Facts) {
    growing(f);
    f.process = Members::known([Process::KeptWarm]);
    (f.ph, f.aw, f.abv) = (Fact::Known(5.0), Fact::Known(0.95), Fact::Known(0.0));
}
fn for_sale(f: &mut Facts) {
    sealed_warm(f);
    (f.sale, f.aw) = (Fact::Known(true), Fact::Known(0.88));
}
fn growing(f: &mut Facts) {
    f.tcs = Fact::Known(Tcs::Pa);
}
fn airless(f: &mut Facts) {
    f.process = Members::known([Process::ReducedOxygen]);
    (f.days, f.ph, f.aw) = (Fact::Known(20.0), Fact::Known(6.0), Fact::Known(0.98));
}
fn sweet_and_warm(f: &mut Facts) {
    f.storage = Fact::Known(Storage::Ambient);
    (f.aw, f.brix) = (Fact::Known(0.85), Fact::Known(66.0));
}
fn in_glass(f: &mut Facts) {
    f.process = Members::known([Process::SealedGlass]);
    f.storage = Fact::Known(Storage::Ambient);
    (f.aw, f.brix) = (Fact::Known(0.95), Fact::Known(30.0));
}
fn fermenting(f: &mut Facts) {
    f.process = Members::known([Process::Ferment]);
    f.fermented_abv = Fact::Known(5.0);
}
fn hot_spirit(f: &mut Facts) {
    f.process = Members::known([Process::Heat]);
    (f.abv, f.flash_point_c, f.liquid_temp_c) = (Fact::Known(40.0), Fact::Known(26.0), Fact::Known(60.0));
}
fn sous_vide(f: &mut Facts) {
    growing(f);
    f.process = Members::known([Process::SousVide]);
    (f.liquid_temp_c, f.hours_hot) = (Fact::Known(55.0), Fact::Known(6.0));
}

fn leaf_in_honey(facts: &mut Facts) {
    garlic_in_honey(facts);
    facts.tags = Members::known([Tag::PlantInSyrup]);
}
fn garlic_in_honey(facts: &mut Facts) {
    facts.tags = Members::known([Tag::Garlic, Tag::Honey]);
    (facts.ph, facts.ph_u, facts.abv) = (Fact::Known(6.0), Fact::Known(0.0), Fact::Known(0.0));
}

/// The limits a second time, as the sources that stand with each caution in the data have them: 21 CFR 114.3 (2002; pH 4.6,
/// water activity 0.85), the Food Code (FDA 2022; table B, 0.92), the guidance on vacuum and MAP packing (FSA; 0.97, pH 5.0,
/// ten days), Regulation (EU) 1169/2011 (sulphite 10 mg/kg), 21 CFR 172.575 (quinine 83 mg/kg), EFSA 2004 and 2008 (coumarin
/// 0.1 mg/kg of body mass), NFPA 30 (5 L) with ADR (24 % vol). Where the data says that a line is ours or common practice
/// (15 % vol, 20 % active, 1 g of nutmeg, 60 °Bx, 20 steps of a scale) the row only holds it where it is.
const ROWS: &[Row] = &[
    ("sealed_low_acid", sealed_warm, "ph", 4.61, 4.6),
    ("sealed_low_acid", sealed_warm, "aw", 0.921, 0.92),
    ("kept_warm_low_acid", kept_warm, "ph", 4.61, 4.6),
    ("kept_warm_low_acid", kept_warm, "aw", 0.921, 0.92),
    ("kept_warm", kept_warm, "ph", 4.6, 4.61),
    ("kept_warm", kept_warm, "aw", 0.92, 0.921),
    ("sealed_legal_band", for_sale, "ph", 4.61, 4.6),
    ("sealed_legal_band", for_sale, "aw", 0.851, 0.85),
    ("sealed_legal_band", for_sale, "aw", 0.92, 0.921),
    ("ph_margin", |f| (growing(f), f.ph_u = Fact::Known(0.3)).0, "ph", 4.6, 4.61),
    ("ph_margin", |f| (growing(f), f.ph = Fact::Known(4.4)).0, "ph_u", 0.21, 0.19),
    ("aw_margin", |f| (f.ph = Fact::Known(5.0), f.aw_u = Fact::Known(0.02)).0, "aw", 0.85, 0.851),
    ("aw_margin", |f| (f.ph = Fact::Known(5.0), f.aw = Fact::Known(0.84)).0, "aw_u", 0.011, 0.0099),
    ("aw_margin", |f| (f.aw = Fact::Known(0.84), f.aw_u = Fact::Known(0.02)).0, "ph", 4.61, 4.6),
    ("rop_ten_days", airless, "days", 11.0, 10.0),
    ("rop_ten_days", airless, "ph", 5.01, 5.0),
    ("rop_ten_days", airless, "aw", 0.971, 0.97),
    ("surface_dilution", sweet_and_warm, "aw", 0.90, 0.901),
    ("surface_dilution", sweet_and_warm, "brix", 60.0, 59.9),
    ("osmophile", sweet_and_warm, "aw", 0.601, 0.60),
    ("osmophile", sweet_and_warm, "aw", 0.90, 0.901),
    ("osmophile", sweet_and_warm, "brix", 0.1, 0.0),
    ("osmophile", sweet_and_warm, "abv", 14.9, 15.0),
    ("gas_of_soda", |f| f.process = Members::known([Process::SealedGlass]), "gas_bar", 1.01, 1.0),
    ("gas_burst", in_glass, "brix", 10.1, 10.0),
    ("ferments_on", fermenting, "brix", 2.1, 2.0),
    ("ferments_on", |f| (fermenting(f), f.brix = Fact::Known(5.0)).0, "fermented_abv", 0.1, 0.0),
    ("refrozen", |f| f.tags = Members::known([Tag::Refrozen]), "abv", 19.9, 20.0),
    ("gas_burst", in_glass, "abv", 14.9, 15.0),
    ("gas_burst", in_glass, "aw", 0.901, 0.90),
    ("low_alcohol", |f| f.days = Fact::Known(20.0), "abv", 14.9, 15.0),
    ("low_alcohol", |f| f.days = Fact::Known(20.0), "abv", 0.1, 0.0),
    ("low_alcohol", |f| f.abv = Fact::Known(12.0), "days", 14.1, 14.0),
    ("mid_alcohol", |_| (), "abv", 15.0, 14.9),
    ("mid_alcohol", |_| (), "abv", 19.9, 20.0),
    ("dairy_egg", |f| f.tags = Members::known([Tag::Dairy]), "abv", 19.9, 20.0),
    ("sulphite", |_| (), "so2_mg_kg", 10.0, 9.9),
    ("garlic_honey", garlic_in_honey, "ph", 4.61, 4.6),
    ("plant_in_syrup", leaf_in_honey, "ph", 4.61, 4.6),
    ("sulphite_over", |f| f.tags = Members::known([Tag::Sulphite]), "so2_mg_kg", 350.1, 350.0),
    ("preservative_over", |_| (), "benzoic_mg_kg", 1001.0, 1000.0),
    ("preservative_over", |_| (), "sorbic_mg_kg", 1001.0, 1000.0),
    ("preservative_weak", |f| f.sorbic_mg_kg = Fact::Known(100.0), "active_pct", 19.9, 20.0),
    ("preservative_weak", |f| f.active_pct = Fact::Known(10.0), "sorbic_mg_kg", 1.0, 0.0),
    ("benzoate_vitc", |f| f.tags = Members::known([Tag::Citrus]), "benzoic_mg_kg", 1.0, 0.0),
    ("quinine_over", |_| (), "quinine_mg_kg", 83.1, 83.0),
    ("coumarin_dose", |_| (), "coumarin_mg_per_serving", 6.01, 6.0),
    ("nutmeg", |_| (), "nutmeg_g_per_serving", 1.0, 0.99),
    ("caffeine_alcohol", |f| f.tags = Members::known([Tag::Coffee]), "abv", 1.21, 1.2),
    ("glycerol_children", |f| f.tags = Members::known([Tag::Glycerol]), "abv", 1.2, 1.21),
    ("copper", |f| f.tags = Members::known([Tag::CopperContact]), "ph", 5.99, 6.0),
    ("reactive_metal", |f| f.tags = Members::known([Tag::ReactiveMetal]), "ph", 4.49, 4.5),
    ("hot_spirit", hot_spirit, "abv", 15.0, 14.9),
    (
        "boiled_spirit",
        |f| (f.process, f.liquid_temp_c) = (Members::known([Process::Heat]), Fact::Known(100.0)),
        "abv",
        1.1,
        1.0,
    ),
    (
        "boiled_spirit",
        |f| (f.process, f.abv) = (Members::known([Process::Heat]), Fact::Known(8.0)),
        "liquid_temp_c",
        78.15,
        78.1,
    ),
    ("hot_spirit_bath", |f| (hot_spirit(f), f.in_bath = Fact::Known(true)).0, "abv", 15.0, 14.9),
    ("hot_spirit_bath", |f| (hot_spirit(f), f.in_bath = Fact::Known(true)).0, "liquid_temp_c", 21.0, 20.9),
    ("hot_wine", hot_spirit, "abv", 10.0, 9.9),
    ("hot_wine", hot_spirit, "abv", 14.9, 15.0),
    ("hot_spirit", hot_spirit, "liquid_temp_c", 21.0, 20.9),
    ("spirit_in_plastic", |f| f.process = Members::known([Process::InPlastic]), "abv", 50.0, 49.9),
    ("spirit_vapour", |f| f.spirit_ml = Fact::Known(50.0), "strongest_abv", 50.0, 49.9),
    ("spirit_vapour", |f| f.strongest_abv = Fact::Known(63.0), "spirit_ml", 1.0, 0.0),
    ("corrosive", |f| f.tags = Members::known([Tag::Corrosive]), "corrosive_g", 1.0, 0.0),
    ("spirit_store", |f| f.abv = Fact::Known(40.0), "vessel_l", 5.1, 5.0),
    ("spirit_store", |f| f.vessel_l = Fact::Known(10.0), "abv", 24.1, 24.0),
    ("hot_sugar", |f| f.process = Members::known([Process::Boil]), "brix", 60.0, 59.9),
    ("low_heat", sous_vide, "liquid_temp_c", 59.9, 60.0),
    ("low_heat", sous_vide, "hours_hot", 4.1, 4.0),
    (
        "hot_fill",
        |f| (f.process = Members::known([Process::HotFill]), f.hold_min = Fact::Known(0.5)).0,
        "abv",
        19.9,
        20.0,
    ),
    ("hot_fill", |f| f.process = Members::known([Process::HotFill]), "hold_min", 0.9, 1.0),
    ("dried_mould", |f| f.tags = Members::known([Tag::Dried]), "aw", 0.701, 0.70),
    ("spirit_law", |f| (f.sale = Fact::Known(true), f.process = Members::known([Process::Infuse])).0, "abv", 0.1, 0.0),
    ("weighing", |_| (), "smallest_dose_g", 19.9, 20.0),
];

fn says(caution: &str, facts: &Facts) -> bool {
    evaluate(facts).iter().any(|said| said.code == caution)
}

#[test]
fn each_limit_holds_from_both_sides() {
    for (caution, setting, quantity, speaks, silent) in ROWS {
        let mut facts = plain();
        setting(&mut facts);
        with(&mut facts, quantity, *speaks);
        assert!(says(caution, &facts), "{caution} is silent at {quantity} {speaks}");
        with(&mut facts, quantity, *silent);
        assert!(!says(caution, &facts), "{caution} speaks at {quantity} {silent}");
    }
}

/// Each number that a condition compares with has a row of its own.
#[test]
fn no_limit_is_without_a_row() {
    let rows: BTreeSet<&str> = ROWS.iter().map(|row| row.0).collect();
    for rule in &catalogue().rules {
        let compared = rule.when.split_whitespace().zip(rule.when.split_whitespace().skip(1));
        let numbers = compared.filter(|(sign, number)| {
            ["<", "<=", ">", ">="].contains(sign) && number.trim_end_matches(')').parse::<f64>().is_ok()
        });
        // a list that is not empty is no limit
        let numbers = numbers.count() - usize::from(rule.when.contains("len("));
        let own = ROWS.iter().filter(|row| row.0 == rule.id).count();
        assert!(own >= numbers, "{}: {numbers} numbers, {own} rows: {}", rule.id, rule.when);
    }
    assert!(rows.iter().all(|id| catalogue().rules.iter().any(|rule| rule.id == *id)), "{rows:?}");
}

/// The screen with alcohol (*S. aureus*: J Food Prot 64:546, J Food Sci 1983, and the margins that the data gives): each
/// row of it decides somewhere, from both sides of each of its limits.
#[test]
fn strength_holds_growth_back_by_its_rows_alone() {
    for (abv, ph, aw, keeps) in [
        (14.0, None, 1.0, true),
        (13.9, None, 1.0, false),
        (12.5, Some(5.0), 1.0, true),
        (12.5, Some(5.01), 1.0, false),
        (12.4, Some(5.0), 1.0, false),
        (12.5, None, 0.96, true),
        (12.5, None, 0.961, false),
        (10.0, Some(4.4), 1.0, true),
        (10.0, Some(4.41), 1.0, false),
        (9.9, Some(4.4), 1.0, false),
        (10.0, Some(5.0), 0.95, true),
        (10.0, Some(5.0), 0.951, false),
        (10.0, Some(5.01), 0.95, false),
    ] {
        assert_eq!(alcohol_keeps(abv, ph, aw), keeps, "{abv} {ph:?} {aw}");
    }
    // and the cautions follow it
    let mut facts = plain();
    growing(&mut facts);
    (facts.ph, facts.aw, facts.abv) = (Fact::Known(6.0), Fact::Known(0.98), Fact::Known(14.0));
    assert!(says("tcs_pa_alcohol", &facts) && !says("tcs_pa", &facts));
    facts.abv = Fact::Known(13.9);
    assert!(!says("tcs_pa_alcohol", &facts) && says("tcs_pa", &facts));
}

/// 85 and 75 units (Amerine & Kunkee 1965; Kunkee & Amerine 1968).
#[test]
fn delle_readings_change_at_their_limits() {
    use delle::DelleReading::{Excluded, Grey, Grows};
    for (units, reading) in [(85.0, Excluded), (84.99, Grey), (75.0, Grey), (74.99, Grows)] {
        assert_eq!(delle::reading(units), reading, "{units}");
    }
}

/// The fourteen of Regulation (EU) 1169/2011, annex II, by a word that people write: each is named where it goes in.
#[test]
fn each_of_the_fourteen_is_known_by_a_name() {
    use Allergen::*;
    for (name, allergen) in [
        ("wheat flour", Wheat),
        ("crab", Crustaceans),
        ("egg white", Egg),
        ("anchovy", Fish),
        ("peanut butter", Peanut),
        ("soy sauce", Soy),
        ("whole milk", Milk),
        ("almonds", Almond),
        ("celery", Celery),
        ("mustard seed", Mustard),
        ("sesame seed", Sesame),
        ("sodium metabisulfite", Sulphites),
        ("lupin flour", Lupin),
        ("oyster", Molluscs),
    ] {
        let mut facts = plain();
        facts.add_ingredient(&[name], &[] as &[&str], &[] as &[&str]);
        facts.conclude();
        assert!(facts.allergens.present.contains(&Open::Known(allergen)), "{name}: {:?}", facts.allergens);
    }
}

/// German puts what a thing is made of in front of what it is, in one word; what is behind it names nothing itself.
#[test]
fn a_compound_is_known_by_what_stands_before() {
    use Allergen::*;
    for (name, allergen) in [
        ("Erdnussöl", Some(Peanut)),
        ("Selleriesaft", Some(Celery)),
        ("Garnelensud", Some(Crustaceans)),
        ("Walnusslikör", Some(Walnut)),
        ("Weizenbier", Some(Wheat)),
        ("Malzextrakt", Some(Barley)),
        ("Molkenpulver", Some(Milk)),
        ("mleko", Some(Milk)),
        ("migdały", Some(Almond)),
        ("ponzu", Some(Soy)),
        ("Apfelsaft", None),
        ("Kirschwasser", None),
        ("Eistee", None),
    ] {
        let mut facts = plain();
        facts.add_ingredient(&[name], &[] as &[&str], &[] as &[&str]);
        let found: Vec<_> = facts.allergens.present.iter().collect();
        match allergen {
            Some(allergen) => assert!(found.contains(&&Open::Known(allergen)), "{name}: {found:?}"),
            None => assert!(found.is_empty(), "{name}: {found:?}"),
        }
    }
    // what stands behind is not read: no milk of a cow is in it
    let mut facts = plain();
    facts.add_ingredient(&["Kokosmilch"], &[] as &[&str], &[] as &[&str]);
    assert!(!facts.allergens.present.contains(&Open::Known(Milk)), "{:?}", facts.allergens);
}
