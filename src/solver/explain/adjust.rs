//! A batch that cannot be adjusted.

use crate::diagnostic::{Code, Diagnostic};

use super::super::adjust::MOST_PARTS;
use super::super::error::AdjustError;
use super::super::target::{TargetValue, target_words};

impl AdjustError {
    /// What is said of it.
    pub(in super::super) fn diagnostics(self) -> Vec<Diagnostic> {
        let (code, title, help) = match self {
            Self::LookUp(found) => return found,
            Self::NothingRead => (
                Code::BadArgument,
                "what was measured is not said".to_owned(),
                "give at least one reading of the batch: --brix 54, --abv 17.1, --sugar \"250 g/L\" or --acid \"4 g/L\"".to_owned(),
            ),
            Self::ByPh => (
                Code::BadArgument,
                "a batch is not adjusted by its pH".to_owned(),
                "titrate it and give --acid \"6 g/L\", or adjust by taste and read the pH again".to_owned(),
            ),
            Self::TooManyParts(count) => (
                Code::BadArgument,
                format!("{count} parts are too many to choose from"),
                format!("name at most {MOST_PARTS}: --with water,\"white sugar\""),
            ),
            Self::Contradiction { product, readings, why } => (
                Code::Contradiction,
                format!("no batch of {product} can read {}: {why}", wish(&readings)),
                "read it again; in a spirit a refractometer does not show the sugar: take hydrometer and refractometer together".to_owned(),
            ),
            Self::NoWeight => (
                Code::NoDensity,
                "what this much of the batch weighs cannot be computed".to_owned(),
                "weigh the batch and give its weight: --have \"2.5 kg\"".to_owned(),
            ),
            Self::NoTarget(kind) => (
                Code::NoDensity,
                format!("the card does not tell its {}: no density", kind.key()),
                format!("say what you want: --set {}=…", kind.key()),
            ),
            Self::NoDensity(why) => (
                Code::NoDensity,
                format!("the density of the adjusted batch cannot be computed ({why})"),
                "check the readings, and what is on the shelf".to_owned(),
            ),
            Self::OutOfReach { shelf, targets, would, boil_off } => {
                let wanted: Vec<TargetValue> = targets.iter().map(|(target, _)| *target).collect();
                let with = if shelf.is_empty() { "nothing".to_owned() } else { quoted(&shelf).join(", ") };
                let title = format!(
                    "adding {with} cannot bring this batch to {}: {}",
                    wish(&wanted),
                    targets.iter().filter_map(how_far_off).collect::<Vec<_>>().join("; ")
                );
                (Code::OutOfReach, title, ways(would, boil_off))
            }
        };
        vec![Diagnostic::error(code, title).help(help)]
    }
}

fn quoted(names: &[String]) -> Vec<String> {
    names.iter().map(|name| format!("`{name}`")).collect()
}

fn wish(targets: &[TargetValue]) -> String {
    targets.iter().map(|&(kind, value)| target_words(kind, value)).collect::<Vec<_>>().join(" and ")
}

fn how_far_off(((kind, asked), has): &(TargetValue, Option<f64>)) -> Option<String> {
    let has = (*has)?;
    let too = if has > *asked { "much" } else { "little" };
    Some(format!("it has {}, {} too {too}", target_words(*kind, has), target_words(*kind, (asked - has).abs())))
}

fn ways(would: Option<Vec<(String, f64, bool)>>, boil_off: Option<(f64, f64)>) -> String {
    let add = would.map(|add| {
        let part = |(name, grams, at_hand): &(String, f64, bool)| {
            format!("{grams:.0} g `{name}`{}", if *at_hand { "" } else { " (missing)" })
        };
        format!("it would take {}", add.iter().map(part).collect::<Vec<_>>().join(" and "))
    });
    let boil =
        boil_off.map(|(water_g, left_g)| format!("boil off {water_g:.0} g of water: the pan then holds {left_g:.0} g"));
    match add.into_iter().chain(boil).collect::<Vec<_>>() {
        none if none.is_empty() => {
            "what is in it would have to be taken out again, and that cannot be done: draw off a part of it, and \
             blend the rest into a fresh batch that is made weaker in what this one has too much of"
                .to_owned()
        }
        some => some.join(", or "),
    }
}
