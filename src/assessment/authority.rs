//! `[local_code]`: the authority's numbers as the house entered them. They need who, when and a reference, and are
//! printed wherever they decide; a longer limit than the cautious default is the house's own responsibility.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, LocalCode};
use crate::shelf_life::Authority;
use crate::shelf_life::authority::{PA_MAX_C, PA_MAX_DAYS};
use crate::units::{Temperature, degrees_celsius};

/// What counts of what the house entered.
#[derive(Clone, Debug, PartialEq)]
pub struct LocalLimits {
    /// Who, when and where it is written, in words.
    pub entered: String,
    days: Option<u32>,
    temperature: Option<Temperature>,
    max_days: Option<u32>,
    assessed: Vec<String>,
}

/// The limits that count. Numbers without who, when and a reference count only where they are stricter than the default.
pub(crate) fn read(house: &House) -> (Option<LocalLimits>, Vec<Diagnostic>) {
    let Some(code) = &house.settings.local_code else { return (None, Vec::new()) };
    let LocalCode { authority, entered_by, on, reference, days, temperature, max_days, assessed } = code.clone();
    if let (Some(authority), Some(by), Some(on), Some(reference)) = (&authority, entered_by, on, reference) {
        let entered = format!("{authority}, {reference}; entered by {by} on {on}");
        return (Some(LocalLimits { entered, days, temperature, max_days, assessed }), Vec::new());
    }
    let states_nothing = days.is_none() && temperature.is_none() && max_days.is_none() && assessed.is_empty();
    let of = authority.unwrap_or_else(|| "an authority that is not named".to_owned());
    // What nobody answers for may shorten a date and never lengthen one.
    let limits = LocalLimits {
        entered: format!("{of}; not said who entered it, when and from where"),
        days: days.filter(|days| *days < PA_MAX_DAYS),
        temperature: temperature.filter(|t| degrees_celsius(*t) < PA_MAX_C),
        max_days,
        assessed: Vec::new(),
    };
    let found = if states_nothing { Vec::new() } else { vec![not_answered_for()] };
    (Some(limits), in_house_file(house, found))
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
pub(crate) fn for_product(local: Option<&LocalLimits>, name: &str) -> Authority {
    local.map_or_else(Authority::default, |local| Authority {
        name: Some(local.entered.clone()),
        pa_days: local.days,
        pa_temperature: local.temperature,
        assessed: local.assessed.contains(&name.to_lowercase()),
        max_days: local.max_days,
    })
}
