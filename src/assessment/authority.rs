//! `[local_code]`: the authority's numbers as the house entered them. They need who, when and a reference, and are
//! printed wherever they decide; a longer limit than the cautious default is the house's own responsibility.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::shelf_life::Authority;
use crate::shelf_life::authority::{PA_MAX_C, PA_MAX_DAYS};
use crate::units::{Temperature, degrees_celsius, readers};

/// The keys of `[local_code]`.
const KEYS: &[&str] = &["authority", "entered_by", "on", "reference", "days", "temperature", "max_days", "assessed"];

/// Cold holding that an authority may state, °C: the codes ask for 4 to 8 (FDA Food Code 2022, 3-501.16: 5), and what
/// is meant by 50 is 5.0 (the bounds are ours).
const COLD_C: std::ops::RangeInclusive<f64> = 0.0..=10.0;

/// What the house entered.
#[derive(Clone, Debug, PartialEq)]
pub struct LocalLimits {
    /// Who, when and where it is written, in words.
    pub entered: String,
    days: Option<u32>,
    temperature: Option<Temperature>,
    max_days: Option<u32>,
    assessed: Vec<String>,
}

/// Reads the table. Numbers without who, when and a reference count only where they are stricter than the default.
pub fn read(house: &House) -> (Option<LocalLimits>, Vec<Diagnostic>) {
    let mut found = Vec::new();
    let Some(code) = &house.settings.local_code else { return (None, found) };
    let table = &code.entries;
    table.check_keys("[local_code]", KEYS, &mut found);
    let whole = |key: &str, found: &mut Vec<Diagnostic>| {
        let number = table.number(key, found)?;
        if number.value >= 1.0 && number.value <= 3650.0 && number.value.fract() == 0.0 {
            // whole and at most 3650, checked above
            return Some(number.value as u32);
        }
        found.push(
            Diagnostic::error(Code::OutOfRange, format!("`{key}` is {}; whole days were expected", number.value))
                .at(number.span, "1 to 3650")
                .help("write the days that the authority states"),
        );
        None
    };
    let days = whole("days", &mut found);
    let max_days = whole("max_days", &mut found);
    let temperature =
        table.text("temperature", &mut found).and_then(|written| match readers::temperature(written.value) {
            Ok(t) if COLD_C.contains(&degrees_celsius(t)) => Some(t),
            Ok(t) => {
                found.push(
                    Diagnostic::error(
                        Code::OutOfRange,
                        format!("`temperature` is {:.1} °C; 0 to 10 °C was expected", degrees_celsius(t)),
                    )
                    .at(written.span, "not a temperature that cold food is held at")
                    .help("write the warmest at which the authority lets perishable food be kept: \"5 °C\""),
                );
                None
            }
            Err(why) => {
                found.push(
                    Diagnostic::error(why.code, why.title)
                        .at(written.span, "a temperature was expected")
                        .help("\"5 °C\""),
                );
                None
            }
        });
    let assessed: Vec<String> =
        table.texts("assessed", &mut found).into_iter().map(|t| t.value.to_lowercase()).collect();
    let text = |key: &str, found: &mut Vec<Diagnostic>| {
        table.text(key, found).map(|t| t.value.trim().to_owned()).filter(|t| !t.is_empty())
    };
    let stated = (
        text("authority", &mut found),
        text("entered_by", &mut found),
        table.date("on", &mut found).map(|d| d.value.to_owned()),
        text("reference", &mut found),
    );
    let (days, temperature, max_days, assessed, entered) = match stated {
        (Some(authority), Some(by), Some(on), Some(reference)) => {
            (days, temperature, max_days, assessed, format!("{authority}, {reference}; entered by {by} on {on}"))
        }
        // What nobody answers for may shorten a date and never lengthen one.
        (authority, ..) => {
            if days.is_some() || temperature.is_some() || max_days.is_some() || !assessed.is_empty() {
                found.push(not_answered_for());
            }
            let stricter =
                (days.filter(|days| *days < PA_MAX_DAYS), temperature.filter(|t| degrees_celsius(*t) < PA_MAX_C));
            let of = authority.unwrap_or_else(|| "an authority that is not named".to_owned());
            (
                stricter.0,
                stricter.1,
                max_days,
                Vec::new(),
                format!("{of}; not said who entered it, when and from where"),
            )
        }
    };
    (Some(LocalLimits { entered, days, temperature, max_days, assessed }), in_house_file(house, found))
}

fn not_answered_for() -> Diagnostic {
    Diagnostic::warning(
        Code::MissingKey,
        "[local_code] does not say who entered it, when, and where it is written",
    )
    .help(
        "until authority, entered_by, on and reference are all given, only what is stricter than the published default \
         counts",
    )
}

fn in_house_file(house: &House, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let file = house.sources.iter().find(|s| s.file.ends_with("house.toml")).map(|s| &s.file);
    found
        .into_iter()
        .map(|d| match file {
            Some(file) => d.in_file(file),
            None => d,
        })
        .collect()
}

/// The limits that hold for one product.
pub fn for_product(local: Option<&LocalLimits>, name: &str) -> Authority {
    local.map_or_else(Authority::default, |local| Authority {
        name: Some(local.entered.clone()),
        pa_days: local.days,
        pa_temperature: local.temperature,
        assessed: local.assessed.contains(&name.to_lowercase()),
        max_days: local.max_days,
    })
}
