//! What is said of products: the check table, dangerous products, ordinary products, and products within products.

use std::collections::{BTreeSet, HashSet};

use stillroom::mixture::Estimate;
use stillroom::mixture::flash_point;
use stillroom::safety::alcohol_bands::{BANDS, band, tolerances};
use stillroom::safety::catalogue::catalogue;
use stillroom::safety::doses::Preservative;
use stillroom::safety::variables::Variable;
use stillroom::safety::{
    Caution, Fact, Facts, Level, Market, Members, STANDING_NOTE, Storage, Tcs, carry, evaluate, gather,
};
use stillroom::units::{Abv, Ph, degrees_celsius, in_kelvins};
use stillroom::vocabulary::{Allergen, Process, Tag, Word};

fn read(table: &str) -> Vec<std::collections::HashMap<String, String>> {
    let path = format!("{}/tests/reference/{table}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).unwrap();
    reader.deserialize().map(Result::unwrap).collect()
}

fn storage(word: &str) -> Storage {
    match word {
        "ambient" => Storage::Ambient,
        "chill" => Storage::Chill,
        _ => Storage::Frozen,
    }
}

fn split<'a>(list: &'a str, by: &'a str) -> impl Iterator<Item = &'a str> {
    list.split(by).filter(|part| !part.is_empty())
}

/// The inputs of one row of the check table; what the row does not list stays unknown, but for what its header says.
fn scenario(row: &std::collections::HashMap<String, String>) -> Facts {
    let number = |key: &str| Fact::Known(row[key].parse::<f64>().unwrap());
    let flag = |key: &str| Fact::Known(row[key] == "1");
    let mut facts = Facts {
        ph: number("ph"),
        ph_u: number("ph_u"),
        aw: number("aw"),
        aw_u: number("aw_u"),
        abv: number("abv_pct_vol"),
        brix: number("brix_pct"),
        days: number("days"),
        body_mass_kg: Fact::Known(60.0),
        limit_benzoic: Fact::Known(1000.0),
        limit_sorbic: Fact::Known(1000.0),
        scale_g: Fact::Known(0.1),
        gas_bar: Fact::Known(0.0),
        quinine_mg_kg: Fact::None,
        smallest_dose_g: Fact::None,
        // an amount that a row does not list was reckoned as none
        so2_mg_kg: Fact::Known(0.0),
        benzoic_mg_kg: Fact::Known(0.0),
        sorbic_mg_kg: Fact::Known(0.0),
        coumarin_mg_per_serving: Fact::Known(0.0),
        nutmeg_g_per_serving: Fact::Known(0.0),
        heat_5log: Fact::Known(false),
        pasteurised: flag("pasteurised"),
        sale: flag("sale"),
        packaged: flag("packaged"),
        storage: Fact::Known(storage(&row["storage"])),
        tcs: Fact::Known(if row["tcs_at_upper_corner"] == "pa" { Tcs::Pa } else { Tcs::NonTcs }),
        market: vec![Market::parse(&row["market"]).unwrap()],
        tags: Members::known(split(&row["tags"], "+").map(|tag| Tag::parse(tag).unwrap())),
        process: Members::known(split(&row["process"], "+").map(|p| Process::parse(p).unwrap())),
        allergens: Members::none(),
        ..Facts::default()
    };
    if let Ok(ph_without_acid) = row["ph_without_acid"].parse::<f64>() {
        // table B, last column and row: above pH 5.0 and above water activity 0.92
        assert!(ph_without_acid + 0.2 > 5.0 && row["aw"].parse::<f64>().unwrap() > 0.92);
        facts.tcs_no_acid = Fact::Known(Tcs::Pa);
    }
    for input in split(&row["other_inputs"], ";") {
        let (name, value) = input.split_once('=').unwrap();
        match Variable::from_name(name) {
            Some(Variable::Quantity(quantity)) => *facts.number_mut(quantity) = Fact::Known(value.parse().unwrap()),
            other => {
                assert_eq!(other, Some(Variable::Allergens), "{name}");
                facts.allergens.add(Allergen::parse(value).unwrap());
            }
        }
    }
    facts
}

#[test]
fn every_scenario_of_the_check_table_gives_exactly_its_cautions() {
    let rows = read("safety-caution-check.csv");
    assert_eq!(rows.len(), 21);
    for row in &rows {
        let given: BTreeSet<&str> = evaluate(&scenario(row)).iter().map(|c| c.code).collect();
        let expected: BTreeSet<&str> = split(&row["expected_caution_ids"], "+").collect();
        assert_eq!(given, expected, "{}", row["scenario"]);
    }
}

#[test]
fn undissociated_shares_at_the_precision_of_the_table() {
    let rows = read("safety-undissociated.csv");
    assert_eq!(rows.len(), 26);
    for row in rows {
        let acid = match row["acid"].as_str() {
            "sorbic" => Preservative::Sorbic,
            "benzoic" => Preservative::Benzoic,
            _ => Preservative::SulphurDioxide,
        };
        assert_eq!(acid.pka(), row["pka"].parse::<f64>().unwrap());
        let share: Estimate<f64> = acid.active_share(Ph::new(row["ph"].parse().unwrap()).unwrap()).unwrap();
        let expected: f64 = row["undissociated_pct"].parse().unwrap();
        // four significant digits
        assert!((100.0 * share.value / expected - 1.0).abs() < 5.1e-4, "{row:?}: {share:?}");
        assert!(share.error > 0.0);
    }
    assert!(Preservative::Sorbic.active_share(Ph::new(1.9).unwrap()).is_err());
    assert!(Preservative::Sorbic.active_share(Ph::new(7.1).unwrap()).is_err());
}

#[test]
fn flash_points_of_the_table_and_none_below_it() {
    let at = |abv: f64| flash_point::of_strength(Abv::new(abv).unwrap()).map(|f| degrees_celsius(f.value));
    for row in read("safety-flash-point.csv") {
        let (abv, expected): (f64, f64) = (row["abv_pct_vol"].parse().unwrap(), row["flash_point_c"].parse().unwrap());
        assert!((at(abv).unwrap() - expected).abs() < 1e-9);
    }
    // half way between 26 °C at 40 and 22 °C at 60 % vol
    assert!((at(50.0).unwrap() - 24.0).abs() < 1e-9);
    assert!(at(9.9).is_err() && at(96.5).unwrap() <= at(96.0).unwrap());
    let error = flash_point::of_strength(Abv::new(40.0).unwrap()).unwrap().error;
    assert_eq!(in_kelvins(error), 5.0);
}

#[test]
fn bands_of_strength_stand_on_the_reported_limits() {
    let rows = read("safety-ethanol-limits.csv");
    assert_eq!(rows.len(), tolerances().len());
    let reported = |organism: &str, effect: &str| {
        let row = rows.iter().find(|r| r["organism"].contains(organism) && r["effect"].contains(effect)).unwrap();
        row["approx_abv_pct_vol"].parse::<f64>().unwrap()
    };
    let reading = |abv: f64| band(Abv::new(abv).unwrap()).reading;
    // a strength at which something dangerous still grew has no credit; where the last one stopped begins the third
    assert_eq!(reading(reported("botulinum", "growth and toxin delayed")), BANDS[0].reading);
    assert_eq!(reading(reported("botulinum", "complete inhibition seen")), BANDS[1].reading);
    assert_eq!(reading(reported("aureus", "no growth")), BANDS[1].reading);
    assert!(reported("aureus", "no growth") < BANDS[2].from_abv && reported("coli", "no growth") < BANDS[2].from_abv);
    assert_eq!(reading(reported("bailii", "tolerance")), BANDS[3].reading);
    assert_eq!(reading(20.0), BANDS[4].reading);
    assert_eq!(reading(0.0), BANDS[0].reading);
}

#[test]
fn the_data_is_whole() {
    let data = catalogue();
    assert_eq!(data.problems, Vec::<String>::new());
    assert_eq!(data.rules.len(), 99);
    let ids: HashSet<&str> = data.rules.iter().map(|r| r.id.as_str()).collect();
    assert_eq!(ids.len(), data.rules.len());
    for rule in &data.rules {
        assert!(rule.message.split_whitespace().count() <= 30, "{}: {}", rule.id, rule.message);
        assert!(!rule.source_ids.is_empty());
        let text = format!("{} {} {}", rule.message, rule.defer_to, rule.status).to_lowercase();
        for word in ["safe until", "shelf-stable", "shelf stable", "guaranteed"] {
            assert!(!text.contains(word), "{}: {word}", rule.id);
        }
    }
    assert!(STANDING_NOTE.contains("house") && STANDING_NOTE.contains("authority"));
}

/// A product about which everything was stated: chilled, for the house's own bar, nothing dangerous in it.
fn product(ph: f64, aw: f64, abv: f64, brix: f64, ingredients: &[&str]) -> Facts {
    let mut facts = Facts {
        ph: Fact::Known(ph),
        ph_u: Fact::Known(0.2),
        aw: Fact::Known(aw),
        aw_u: Fact::Known(0.015),
        abv: Fact::Known(abv),
        brix: Fact::Known(brix),
        days: Fact::Known(7.0),
        so2_mg_kg: Fact::Known(0.0),
        limit_benzoic: Fact::Known(150.0),
        limit_sorbic: Fact::Known(250.0),
        active_pct: Fact::Known(90.0),
        body_mass_kg: Fact::Known(60.0),
        liquid_temp_c: Fact::Known(20.0),
        flash_point_c: if abv >= 10.0 { Fact::Known(26.0) } else { Fact::None },
        vessel_l: Fact::Known(2.0),
        smallest_dose_g: Fact::Known(50.0),
        scale_g: Fact::Known(1.0),
        gas_bar: Fact::Known(0.0),
        heat_5log: Fact::Known(false),
        pasteurised: Fact::Known(false),
        sale: Fact::Known(false),
        packaged: Fact::Known(false),
        // table B, its last rows and columns
        tcs: Fact::Known(if ph + 0.2 > 4.6 && aw + 0.015 > 0.92 { Tcs::Pa } else { Tcs::NonTcs }),
        tcs_no_acid: Fact::None,
        storage: Fact::Known(Storage::Chill),
        market: vec![Market::Uk],
        tags: Members::none(),
        allergens: Members::none(),
        process: Members::none(),
        ..Facts::default()
    };
    for ingredient in ingredients {
        facts.add_ingredient(&[ingredient], &[] as &[&str], &[] as &[&str]);
    }
    facts.conclude();
    facts
}

fn syrup(ingredients: &[&str]) -> Facts {
    product(6.5, 0.935, 0.0, 50.0, ingredients)
}

fn spirit(ingredients: &[&str]) -> Facts {
    product(5.5, 0.75, 45.0, 0.0, ingredients)
}

impl Change for Facts {}
trait Change: Sized {
    fn with(mut self, change: impl FnOnce(&mut Self)) -> Self {
        change(&mut self);
        self
    }
}

fn raised<'a>(cautions: &'a [Caution], code: &str) -> Option<&'a Caution> {
    cautions.iter().find(|c| c.code == code)
}

#[test]
fn no_dangerous_product_passes_in_silence() {
    use Level::{Stop, Warn};
    let ambient = |f: &mut Facts| f.storage = Fact::Known(Storage::Ambient);
    let cases: Vec<(&str, Facts, &str, Level)> = vec![
        ("garlic confit", syrup(&["garlic confit in olive oil"]), "oil_infusion", Stop),
        ("mint in oil under a lemon", syrup(&["olive oil with lemon and mint"]), "oil_infusion", Stop),
        ("garlic and oil as two lines", syrup(&["olive oil", "garlic, peeled"]), "oil_infusion", Stop),
        (
            "basil and oil, strength not stated",
            {
                let mut f = syrup(&[]).with(|f| f.abv = Fact::Unknown);
                f.add_ingredient(&["Sunflower oil"], &[] as &[&str], &[] as &[&str]);
                f.add_ingredient(&["Fresh basil leaves"], &[] as &[&str], &[] as &[&str]);
                f.conclude();
                f
            },
            "oil_infusion",
            Stop,
        ),
        (
            "nut syrup sealed on the shelf",
            syrup(&["almonds"]).with(ambient).with(|f| f.process.add(Process::Sealed)),
            "sealed_low_acid",
            Stop,
        ),
        (
            "the same, pH not stated",
            syrup(&["almonds"]).with(ambient).with(|f| {
                f.process.add(Process::Sealed);
                f.ph = Fact::Unknown;
            }),
            "sealed_low_acid",
            Stop,
        ),
        (
            "the same, doubt of the pH not stated",
            product(4.5, 0.95, 0.0, 30.0, &[]).with(ambient).with(|f| {
                f.process.add(Process::Sealed);
                f.ph_u = Fact::Unknown;
            }),
            "sealed_low_acid",
            Stop,
        ),
        (
            "the same, nothing said of the lid",
            syrup(&[]).with(ambient).with(|f| f.process.doubt(Process::Sealed)),
            "sealed_low_acid",
            Stop,
        ),
        (
            "the same, nothing said of the place",
            syrup(&[]).with(|f| {
                f.process.add(Process::Sealed);
                f.storage = Fact::Unknown;
            }),
            "sealed_low_acid",
            Stop,
        ),
        (
            "pH that is not a number",
            syrup(&[]).with(ambient).with(|f| {
                f.process.add(Process::Sealed);
                f.ph = Fact::Known(f64::NAN);
            }),
            "sealed_low_acid",
            Stop,
        ),
        (
            "sealed for sale between the lines",
            product(5.5, 0.88, 0.0, 60.0, &[]).with(ambient).with(|f| {
                f.process.add(Process::Sealed);
                f.sale = Fact::Known(true);
            }),
            "sealed_legal_band",
            Warn,
        ),
        (
            "vacuum bag on the shelf",
            syrup(&[]).with(ambient).with(|f| f.process.add(Process::ReducedOxygen)),
            "rop_ambient",
            Stop,
        ),
        (
            "vacuum bag cold for three weeks",
            product(5.5, 0.98, 0.0, 20.0, &[]).with(|f| {
                f.process.add(Process::ReducedOxygen);
                f.days = Fact::Known(21.0);
            }),
            "rop_ten_days",
            Warn,
        ),
        ("pH too near the line", product(4.5, 0.95, 0.0, 40.0, &[]), "ph_margin", Warn),
        ("water activity too near the line", product(6.5, 0.845, 0.0, 67.0, &[]), "aw_margin", Warn),
        ("simple syrup", syrup(&[]), "tcs_pa", Warn),
        ("class not stated", syrup(&[]).with(|f| f.tcs = Fact::Unknown), "tcs_pa", Warn),
        ("boiled and low in acid", syrup(&[]).with(|f| f.process.add(Process::Boil)), "cooling", Warn),
        ("cream liqueur at 14 %", product(6.2, 0.94, 14.0, 30.0, &["double cream"]), "dairy_egg", Warn),
        ("flip with raw egg", product(6.5, 0.96, 12.0, 15.0, &["whole eggs"]), "dairy_egg", Warn),
        (
            "juice on the shelf",
            product(3.4, 0.98, 0.0, 12.0, &["Orange juice, fresh"]).with(ambient),
            "raw_juice",
            Warn,
        ),
        (
            "juice, heat not stated",
            product(3.4, 0.98, 0.0, 12.0, &["apple juice"]).with(|f| f.heat_5log = Fact::Unknown),
            "raw_juice",
            Warn,
        ),
        ("cinchona bark", spirit(&["cinchona bark, red"]).with(|f| f.quinine_mg_kg = Fact::None), "cinchona", Stop),
        ("bark under another name", spirit(&["Jesuit's bark"]), "cinchona", Stop),
        ("quinine of unstated weight", syrup(&["quinine sulphate"]), "quinine_over", Stop),
        (
            "too much quinine",
            syrup(&["quinine sulphate"]).with(|f| f.quinine_mg_kg = Fact::Known(90.0)),
            "quinine_over",
            Stop,
        ),
        ("tonka in the United States", spirit(&["tonka beans"]).with(|f| f.market = vec![Market::Us]), "tonka", Stop),
        ("tonka, market not stated", spirit(&["tonka beans"]).with(|f| f.market.clear()), "tonka", Stop),
        ("tonka elsewhere", spirit(&["tonka beans"]), "tonka_elsewhere", Warn),
        ("woodruff", spirit(&["Waldmeister"]), "tonka_elsewhere", Warn),
        ("cassia, dose not reckoned", syrup(&["cassia bark"]), "coumarin_dose", Warn),
        ("cinnamon of unstated kind, dose not reckoned", syrup(&["cinnamon sticks"]), "coumarin_dose", Warn),
        (
            "cassia heavy",
            syrup(&["cassia"]).with(|f| f.coumarin_mg_per_serving = Fact::Known(6.1)),
            "coumarin_dose",
            Warn,
        ),
        ("wormwood", spirit(&["wormwood"]), "wormwood", Warn),
        ("sage", syrup(&["sage leaves"]), "wormwood", Warn),
        ("calamus", spirit(&["sweet flag root"]), "banned_roots", Stop),
        ("sassafras", syrup(&["sassafras bark"]), "banned_roots", Stop),
        ("apricot kernels", spirit(&["Apricot kernels"]), "kernels", Stop),
        ("peach stones", spirit(&["stones of peaches"]), "kernels", Stop),
        ("noyaux", spirit(&["noyaux"]), "kernels", Stop),
        ("bitter almonds", spirit(&["bitter almonds"]), "kernels", Stop),
        ("elderberries", product(3.8, 0.95, 0.0, 50.0, &["elderberries"]), "elderberry", Warn),
        ("comfrey", syrup(&["comfrey leaf"]), "toxic_plant", Stop),
        ("coltsfoot", syrup(&["coltsfoot"]), "toxic_plant", Stop),
        ("hemlock", syrup(&["water hemlock"]), "toxic_plant", Stop),
        ("tobacco", spirit(&["pipe tobacco"]), "toxic_plant", Stop),
        ("foraged and not named by anybody", syrup(&["foraged roots"]), "toxic_plant", Stop),
        (
            "nutmeg by the spoon",
            syrup(&["nutmeg, ground"]).with(|f| f.nutmeg_g_per_serving = Fact::Known(5.0)),
            "nutmeg",
            Warn,
        ),
        ("nutmeg, dose not reckoned", syrup(&["mace blades"]), "nutmeg", Warn),
        ("essential oil", syrup(&["clove bud oil"]), "essential_oil", Warn),
        ("charcoal", syrup(&["activated coconut charcoal"]), "charcoal", Warn),
        (
            "lime in copper",
            product(2.8, 0.98, 10.0, 10.0, &["lime juice"]).with(|f| f.tags.add(Tag::CopperContact)),
            "copper",
            Warn,
        ),
        ("liquid nitrogen", syrup(&["liquid nitrogen"]), "cryogen", Stop),
        ("dry ice", syrup(&["dry ice"]), "cryogen", Stop),
        ("a still", spirit(&[]).with(|f| f.process.add(Process::Distil)), "distil", Stop),
        (
            "warm spirit",
            spirit(&[]).with(|f| {
                f.process.add(Process::Heat);
                f.liquid_temp_c = Fact::Known(50.0);
            }),
            "hot_spirit",
            Stop,
        ),
        (
            "warm spirit, how warm not stated",
            spirit(&[]).with(|f| {
                f.process.add(Process::Heat);
                f.liquid_temp_c = Fact::Unknown;
            }),
            "hot_spirit",
            Stop,
        ),
        ("siphon", spirit(&[]).with(|f| f.process.add(Process::PressureInfusion)), "siphon", Warn),
        (
            "bath too cool",
            syrup(&[]).with(|f| {
                f.process.add(Process::SousVide);
                f.liquid_temp_c = Fact::Known(54.0);
                f.hours_hot = Fact::Known(12.0);
            }),
            "low_heat",
            Warn,
        ),
        (
            "hot fill too short",
            product(3.6, 0.95, 0.0, 40.0, &[]).with(|f| {
                f.process.add(Process::HotFill);
                f.hold_min = Fact::Known(0.5);
                f.need_min = Fact::Known(1.0);
            }),
            "hot_fill",
            Warn,
        ),
        (
            "hot fill, hold not stated",
            product(3.6, 0.95, 0.0, 40.0, &[]).with(|f| {
                f.process.add(Process::HotFill);
                f.need_min = Fact::Known(1.0);
            }),
            "hot_fill",
            Warn,
        ),
        (
            "fermenting in glass",
            product(3.4, 0.98, 4.0, 8.0, &[]).with(|f| {
                f.process.add(Process::SealedGlass);
                f.process.add(Process::Ferment);
            }),
            "gas_burst",
            Stop,
        ),
        (
            "weak cordial in glass on the shelf",
            product(3.2, 0.96, 0.0, 30.0, &[]).with(ambient).with(|f| f.process.add(Process::SealedGlass)),
            "gas_burst",
            Stop,
        ),
        (
            "the same, pasteurised or not",
            product(3.2, 0.96, 0.0, 30.0, &[]).with(ambient).with(|f| {
                f.process.add(Process::SealedGlass);
                f.pasteurised = Fact::Unknown;
            }),
            "gas_burst",
            Stop,
        ),
        (
            "too much benzoate",
            syrup(&["sodium benzoate"]).with(|f| f.benzoic_mg_kg = Fact::Known(400.0)),
            "preservative_over",
            Stop,
        ),
        ("benzoate not reckoned", syrup(&["E211"]), "preservative_over", Stop),
        (
            "no limit known",
            syrup(&["potassium sorbate"]).with(|f| {
                f.sorbic_mg_kg = Fact::Known(200.0);
                f.limit_sorbic = Fact::Unknown;
            }),
            "preservative_over",
            Stop,
        ),
        (
            "benzoate in orange",
            product(3.2, 0.93, 0.0, 50.0, &["orange juice", "sodium benzoate"])
                .with(|f| f.benzoic_mg_kg = Fact::Known(100.0)),
            "benzoate_vitc",
            Warn,
        ),
        ("cashew orgeat", syrup(&["cashew orgeat"]), "allergen", Warn),
        ("peanut washed", spirit(&["peanut butter"]), "allergen", Warn),
        ("allergens not stated", syrup(&[]).with(|f| f.allergens = Members::default()), "allergen", Warn),
        (
            "sold at 14 % for a season",
            product(4.0, 0.93, 14.0, 20.0, &[]).with(|f| f.days = Fact::Known(90.0)),
            "low_alcohol",
            Warn,
        ),
        (
            "dried and still soft",
            product(4.0, 0.75, 0.0, 0.0, &[]).with(|f| f.tags.add(Tag::Dried)),
            "dried_mould",
            Warn,
        ),
    ];
    assert!(cases.len() >= 30);
    for (name, facts, code, level) in &cases {
        let cautions = evaluate(facts);
        let caution = raised(&cautions, code).unwrap_or_else(|| panic!("{name}: no {code} in {cautions:?}"));
        assert_eq!(caution.severity, *level, "{name}");
    }
}

#[test]
fn nothing_stated_raises_every_stop_and_says_what_to_state() {
    let cautions = evaluate(&Facts::default());
    let stops = catalogue().rules.iter().filter(|r| r.severity == Level::Stop).count();
    assert_eq!(cautions.iter().filter(|c| c.severity == Level::Stop).count(), stops);
    // the market alone decides nothing about what is not stated, so a certain caution would be an error
    assert!(cautions.iter().all(|c| !c.is_certain() && c.severity != Level::Note));
    let sealed = raised(&cautions, "sealed_low_acid").unwrap();
    for ask in ["the pH", "the water activity", "the strength", "whether it is closed airtight", "where it is kept"] {
        assert!(sealed.not_stated.iter().any(|n| n.starts_with(ask)), "{ask}: {:?}", sealed.not_stated);
    }
    assert!(sealed.to_string().starts_with("until you answer: "));
}

#[test]
fn an_unknown_that_cannot_matter_is_not_asked_for() {
    // chilled: neither the lid nor the pH can make this a sealed jar on a shelf
    let chilled = syrup(&[]).with(|f| {
        f.ph = Fact::Unknown;
        f.process.doubt(Process::Sealed);
    });
    assert!(raised(&evaluate(&chilled), "sealed_low_acid").is_none());
    // only what it still hangs on is asked for
    let shelf = syrup(&[]).with(|f| {
        f.storage = Fact::Known(Storage::Ambient);
        f.process.doubt(Process::Sealed);
    });
    let cautions = evaluate(&shelf);
    assert_eq!(raised(&cautions, "sealed_low_acid").unwrap().not_stated, ["whether it is closed airtight"]);
}

#[test]
fn ordinary_products_are_not_stopped() {
    let shelf = |f: &mut Facts| {
        f.storage = Fact::Known(Storage::Ambient);
        f.days = Fact::Known(180.0);
    };
    let cases: Vec<(&str, Facts)> = vec![
        ("rich syrup of 65 °Bx in the fridge", product(6.5, 0.865, 0.0, 65.0, &["white sugar", "water"])),
        (
            "rich syrup of 65 °Bx closed in the fridge",
            product(6.5, 0.865, 0.0, 65.0, &["white sugar", "water"]).with(|f| {
                f.process.add(Process::Sealed);
                f.process.add(Process::SealedGlass);
            }),
        ),
        ("syrup of 70 °Bx on the shelf", product(6.5, 0.82, 0.0, 70.0, &["demerara sugar", "water"]).with(shelf)),
        ("simple syrup in the fridge", syrup(&["white sugar", "water"]).with(|f| f.process.add(Process::Boil))),
        ("saline", product(6.5, 0.84, 0.0, 20.0, &["Table salt", "water"])),
        (
            "bitters at 45 %",
            spirit(&["gentian root", "orange peel", "cardamom", "overproof rum"])
                .with(shelf)
                .with(|f| f.process.add(Process::Infuse)),
        ),
        (
            "bitters sealed in glass",
            spirit(&["gentian root", "clove", "angelica"]).with(shelf).with(|f| {
                f.process.add(Process::Sealed);
                f.process.add(Process::SealedGlass);
            }),
        ),
        ("gum syrup", product(6.0, 0.88, 0.0, 62.0, &["gum arabic", "white sugar"])),
        ("honey syrup", product(4.0, 0.93, 0.0, 50.0, &["honey", "water"])),
        ("ginger syrup", product(5.8, 0.93, 0.0, 50.0, &["ginger juice", "white sugar"])),
        ("raspberry syrup", product(3.2, 0.93, 0.0, 50.0, &["raspberries", "white sugar"])),
        ("pomegranate syrup", product(3.1, 0.9, 0.0, 58.0, &["pomegranate juice", "orange flower water", "sugar"])),
        (
            "lime cordial hot filled in glass",
            product(2.6, 0.93, 0.0, 45.0, &["lime juice", "lime peel", "sugar"]).with(shelf).with(|f| {
                for process in
                    [Process::Acidified, Process::HotFill, Process::Sealed, Process::SealedGlass, Process::Boil]
                {
                    f.process.add(process);
                }
                f.pasteurised = Fact::Known(true);
                f.heat_5log = Fact::Known(true);
                f.hold_min = Fact::Known(3.0);
                f.need_min = Fact::Known(1.0);
            }),
        ),
        (
            "orange liqueur at 30 %",
            product(5.0, 0.8, 30.0, 25.0, &["bitter orange peel", "neutral spirit"])
                .with(shelf)
                .with(|f| f.process.add(Process::SealedGlass)),
        ),
        (
            "coffee liqueur at 25 %",
            product(5.0, 0.86, 25.0, 30.0, &["coffee beans", "rum", "sugar"]).with(shelf).with(|f| {
                f.process.add(Process::SealedGlass);
                f.process.add(Process::Sealed);
            }),
        ),
        ("nut liqueur at 25 %", product(5.5, 0.86, 25.0, 28.0, &["hazelnuts", "brandy"]).with(shelf)),
        ("berry shrub", product(3.2, 0.94, 0.0, 40.0, &["strawberries", "apple cider vinegar", "sugar"])),
        ("acid solution", product(1.8, 0.97, 0.0, 20.0, &["citric acid", "malic acid", "water"])),
        ("clarified milk punch", product(4.2, 0.93, 20.0, 15.0, &["whole milk", "lemon juice", "rum", "black tea"])),
        ("lemon oil sugar", product(3.5, 0.88, 0.0, 60.0, &["lemon peel", "white sugar"])),
        ("cinnamon syrup, mild", syrup(&["cinnamon"]).with(|f| f.coumarin_mg_per_serving = Fact::Known(1.0))),
        ("falernum at 18 %", product(4.0, 0.9, 18.0, 30.0, &["lime zest", "almonds", "clove", "overproof rum"])),
        ("aromatised wine at 18 %", product(3.4, 0.95, 18.0, 12.0, &["white wine", "wormwood", "sage"])),
        (
            "tonic syrup of weighed quinine",
            product(2.9, 0.92, 0.0, 50.0, &["quinine sulphate", "citric acid"])
                .with(|f| f.quinine_mg_kg = Fact::Known(70.0)),
        ),
        (
            "sorbate in its limit",
            product(3.2, 0.93, 0.0, 50.0, &["potassium sorbate", "raspberries"])
                .with(|f| f.sorbic_mg_kg = Fact::Known(200.0)),
        ),
        ("butter washed rum", spirit(&["butter", "rum"])),
        ("rosemary tincture", spirit(&["rosemary"]).with(|f| f.process.add(Process::Infuse))),
        (
            "dried orange slices",
            product(3.8, 0.5, 0.0, 0.0, &["orange slices"]).with(shelf).with(|f| f.tags.add(Tag::Dried)),
        ),
        ("coconut cream syrup", product(6.0, 0.9, 0.0, 55.0, &["cream of coconut"])),
        ("almond essence", syrup(&["almond essence"])),
        ("ginger syrup with a drop of orange oil", syrup(&["ginger", "sweet orange oil", "white sugar"])),
        ("stone fruit cordial", product(3.5, 0.94, 0.0, 40.0, &["stone fruit, pitted", "buttercup squash"])),
    ];
    assert!(cases.len() >= 20);
    for (name, facts) in &cases {
        let cautions = evaluate(facts);
        let stops: Vec<_> = cautions.iter().filter(|c| c.severity == Level::Stop).map(ToString::to_string).collect();
        assert!(stops.is_empty(), "{name}: {stops:?}");
    }
}

#[test]
fn the_most_serious_comes_first() {
    let facts = syrup(&["honey", "tonka", "almonds", "apricot kernels"]);
    let cautions = evaluate(&facts);
    assert!(cautions.len() > 4 && cautions.windows(2).all(|pair| pair[0].severity <= pair[1].severity));
    assert_eq!(evaluate(&facts), cautions);
    assert!(
        raised(&cautions, "kernels").unwrap().because.contains(&"stone fruit kernel from `apricot kernels`".to_owned())
    );
    assert_eq!(raised(&cautions, "allergen").unwrap().because, ["tree nuts (almond) from `almonds`"]);
}

#[test]
fn without_a_market_the_rules_of_all_are_shown() {
    let with = |market: Vec<Market>| evaluate(&spirit(&["tonka"]).with(|f| f.market = market));
    let everywhere = with(Vec::new());
    let us = raised(&everywhere, "tonka").unwrap();
    assert_eq!((us.severity, us.markets.as_slice(), us.is_certain()), (Level::Stop, &[Market::Us][..], true));
    assert!(!raised(&everywhere, "tonka_elsewhere").unwrap().markets.contains(&Market::Us));
    assert!(raised(&with(vec![Market::Eu]), "tonka").is_none());
    assert!(raised(&with(vec![Market::Us]), "tonka_elsewhere").is_none());
}

#[test]
fn cautions_of_a_part_are_carried_outwards() {
    let inner = syrup(&["almonds", "honey"]).with(|f| f.process.add(Process::Boil));
    let inside = evaluate(&inner);
    // one gram of it in a strong drink
    let mut outer = spirit(&["rum"]);
    outer.take_in(&inner);
    let middle = gather(evaluate(&outer), carry("almond syrup", &inside));
    let outside = gather(Vec::new(), carry("house batch", &middle));
    for caution in &inside {
        let carried: Vec<_> =
            outside.iter().filter(|c| c.code == caution.code && c.message == caution.message).collect();
        assert!(!carried.is_empty(), "{} is lost", caution.code);
    }
    let text = |code: &str, cautions: &[Caution]| -> Vec<String> {
        cautions.iter().filter(|c| c.code == code).map(ToString::to_string).collect()
    };
    assert!(text("tcs_pa", &middle)[0].starts_with("about almond syrup, before it goes in here: "));
    assert!(text("tcs_pa", &outside)[0].starts_with("about almond syrup, in house batch, before it goes in here: "));
    assert!(text("honey_infant", &middle).iter().any(|t| t.starts_with("from almond syrup: ")));
    // and the drink says of itself that there is almond and honey in it
    assert!(middle.iter().any(|c| c.code == "allergen" && c.carried.is_none()));
    assert!(middle.iter().any(|c| c.code == "honey_infant" && c.carried.is_none()));
    assert!(middle.windows(2).all(|pair| pair[0].severity <= pair[1].severity));
}
