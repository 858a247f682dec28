//! What a report for programs leaves empty, and the finding that says why.

use std::path::{Path, PathBuf};

use crate::kitchen::{DAY, made};
use stillroom::report::solve::SolveView;
use stillroom::solver::Options;
use stillroom::units::celsius;

/// A property as its finding calls it, by its key.
const CALLED: [(&str, &str); 24] = [
    ("brix", "Brix"),
    ("abv_pct", "strength"),
    ("abw_pct", "strength by weight"),
    ("us_proof", "proof"),
    ("sugar_g_l", "sugar in g/L"),
    ("acid_g_l", "acid"),
    ("ph", "pH"),
    ("ph_low", "pH"),
    ("ph_high", "pH"),
    ("density_kg_m3", "density"),
    ("specific_gravity", "specific gravity"),
    ("specific_gravity_in_air", "specific gravity in air"),
    ("baume", "degrees Baumé"),
    ("plato", "degrees Plato"),
    ("water_activity", "water activity"),
    ("water_activity_upper", "water activity"),
    ("refractive_index", "refractive index"),
    ("refractometer_brix", "reading of a refractometer"),
    ("boiling_point_c", "boiling point"),
    ("boiling_elevation_k", "rise of the boiling point"),
    ("saturation_brix", "saturation"),
    ("viscosity_mpa_s", "viscosity"),
    ("flash_point_c", "flash point"),
    ("energy_kj_100ml", "energy in kJ"),
];

fn cards() -> Vec<PathBuf> {
    let of = |folder: &str| std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap();
    let files = of("formulas").chain(of("tests/recipes")).map(|file| file.unwrap().path());
    files.filter(|file| file.extension().is_some_and(|ext| ext == "toml")).collect()
}

#[test]
fn every_property_that_is_null_has_a_finding_that_says_why() {
    let (mut silent, mut nulls) = (Vec::new(), 0);
    for file in cards() {
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        if ["house", "larder", "plan", "menu"].contains(&name.as_str()) {
            continue;
        }
        let made = made(&file, &Options::default());
        let (Some(card), Some(solved)) = (&made.card, &made.solved) else { continue };
        let (view, found) = SolveView::new(card, solved, &made.house, card.makes.map(|m| m.value), celsius(20.0), DAY);
        let properties = serde_json::to_value(&view.properties).unwrap();
        let is_dry = found.iter().any(|d| d.title == "no property of a liquid is given: this is dry");
        for (key, value) in properties.as_object().unwrap() {
            let Some((_, called)) = CALLED.iter().find(|(known, _)| known == key || key == "energy_kcal_100ml") else {
                assert_eq!(key, "temperature_c");
                continue;
            };
            let said = |called: &str| {
                found.iter().any(|d| {
                    d.title.starts_with(&format!("no {called} is given"))
                        || d.title.starts_with(&format!("no {called} or acid is given"))
                        || called == "acid" && d.title.starts_with("no pH or acid is given")
                })
            };
            nulls += usize::from(value.is_null());
            if value.is_null() && !said(called) && !is_dry {
                silent.push(format!("{name}: {key}"));
            }
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
    assert!(nulls > 100, "{nulls}");
}
