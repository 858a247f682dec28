//! `[[local_code]]`: the authority's numbers as the house entered them, one block a product. A milder one needs all of who,
//! when, where and which product; what is stricter always counts.

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, LocalCode};
use crate::shelf_life::Authority;
use crate::spelling::nearest;
use crate::units::degrees_celsius;

/// What counts of what the house entered.
#[derive(Clone, Debug, PartialEq)]
pub struct LocalLimits {
    blocks: Vec<(String, Authority)>,
}

/// The limits that count on this day, asked for a card that need not lie in the house.
pub(crate) fn read(house: &House, asked: &str, today: Option<NaiveDate>) -> (LocalLimits, Vec<Diagnostic>) {
    let (mut blocks, mut found) = (Vec::new(), Vec::new());
    for code in &house.settings.local_code {
        let complete = complete(house, asked, code, today, &mut found);
        let who = code.authority.as_deref().unwrap_or("an authority that is not named");
        let entered = match (&code.entered_by, &code.on, &code.reference) {
            (Some(by), Some(on), Some(reference)) => format!("{who}, {reference}; entered by {by} on {}", on.value),
            _ => format!("{who}; not said who entered it, when and from where"),
        };
        let product = code.product.as_ref().map(|p| p.value.trim().to_lowercase()).unwrap_or_default();
        blocks.push((
            product,
            Authority {
                entered: Some(entered),
                answered_for: complete,
                days: code.days,
                // 41 °F is 5 °C, and no noise of the conversion milder
                max_c: code.temperature.map(|t| (degrees_celsius(t) * 1e6).round() / 1e6),
                assessed: code.assessed && complete,
            },
        ));
    }
    let file = house.settings_file().map(|s| &s.file);
    let placed = found.into_iter().map(|d| match file {
        Some(file) => d.in_file(file),
        None => d,
    });
    (LocalLimits { blocks }, placed.collect())
}

/// Whether everything was said that makes a milder limit count; what is missing is reported.
fn complete(
    house: &House,
    asked: &str,
    code: &LocalCode,
    today: Option<NaiveDate>,
    found: &mut Vec<Diagnostic>,
) -> bool {
    const HELP: &str = "until product, authority, entered_by, on and reference are all given, only what is stricter than the \
                        published default counts";
    let warn = |title: String| Diagnostic::warning(Code::MissingKey, title);
    let names: Vec<&str> = house.cards().map(|c| c.name.as_str()).chain([asked]).collect();
    let known = |name: &str| names.iter().any(|n| n.eq_ignore_ascii_case(name.trim()));
    let mut whole = true;
    match &code.product {
        Some(product) if known(&product.value) => {}
        Some(product) => {
            let said = warn(format!("[[local_code]] is about `{}`, and the house has no such card", product.value))
                .at(product.span, "which card is meant?");
            found.push(match nearest(&product.value, names.iter().copied()) {
                Some(meant) => said.help(format!("did you mean `{meant}`?")),
                None => said.help(HELP),
            });
            whole = false;
        }
        None => {
            found.push(
                warn("[[local_code]] does not say which product it is about".into())
                    .at(code.span, "one block a product")
                    .help(HELP),
            );
            whole = false;
        }
    }
    if code.authority.is_none() || code.entered_by.is_none() || code.on.is_none() || code.reference.is_none() {
        let title = "[[local_code]] does not say whose limit it is, who entered it, when, and where it is written";
        found.push(warn(title.into()).at(code.span, "not answered for").help(HELP));
        whole = false;
    }
    if let Some(on) = code.on.as_ref().filter(|on| today.is_some_and(|today| on.value > today)) {
        found.push(
            warn(format!("[[local_code]] was entered on {}, a day to come", on.value))
                .at(on.span, "in the future")
                .help(HELP),
        );
        whole = false;
    }
    whole
}

/// The limits that hold for one product: of its own blocks, and the stricter ones that name no product.
pub(crate) fn for_product(local: &LocalLimits, name: &str) -> Authority {
    let name = name.trim().to_lowercase();
    let mut own = Authority::default();
    for (product, block) in local.blocks.iter().filter(|(product, _)| *product == name || product.is_empty()) {
        let stricter = |a: Option<u32>, b: Option<u32>| a.into_iter().chain(b).min();
        let colder = |a: Option<f64>, b: Option<f64>| a.into_iter().chain(b).reduce(f64::min);
        let speaks = block.answered_for && !product.is_empty();
        own = Authority {
            entered: own.entered.or_else(|| block.entered.clone()),
            answered_for: own.answered_for || speaks,
            days: stricter(own.days, block.days),
            max_c: colder(own.max_c, block.max_c),
            assessed: own.assessed || block.assessed,
        };
    }
    own
}
