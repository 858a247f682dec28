//! The doses and limits that a caution is said with, as far as they are known.

use serde::Deserialize;

use crate::units::display::grouped;
use crate::units::{Abv, grams, in_grams};
use crate::vocabulary::{Tag, Word};

use super::alcohol_bands::band;
use super::doses::{BODY_MASS_KG, COUMARIN_DAILY, cyanide_acute_dose, liquorice_steps};
use super::facts::{Fact, Facts, Member, Quantity};
use super::overdoses::{OverdoseRow, overdoses};

/// What a caution of the data asks to be said with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Figure {
    /// What its strength is worth against growth.
    AlcoholBand,
    /// The strength that it has at the most once its sugar is gone.
    Fermented,
    /// Sulphur dioxide that was weighed in.
    SulphurDioxide,
    /// What burns the skin, by its weight.
    Corrosive,
    /// The strongest spirit, by its strength and volume.
    StrongSpirit,
    /// Quinine, against the limit of the United States.
    Quinine,
    /// Benzoic and sorbic acid, against the limits of the market.
    Preservatives,
    /// Coumarin in a serving, against what may be taken in a day.
    Coumarin,
    /// Nutmeg in a serving.
    Nutmeg,
    /// From how much in a serving on what is in it harms at once.
    Overdose,
    /// From how much on liquorice must be named, and advised against.
    Liquorice,
    /// How much hydrocyanic acid may be taken on one occasion.
    Cyanide,
}

impl Figure {
    /// In words; nothing where it is not known.
    pub(super) fn words(self, facts: &Facts) -> Vec<String> {
        let known = |quantity| match facts.number(quantity) {
            Fact::Known(value) => Some(value),
            Fact::None | Fact::Unknown => None,
        };
        let digits = |value: f64| grouped(value, if value < 10.0 { 2 } else { 0 });
        let body_kg = known(Quantity::BodyMass).unwrap_or(BODY_MASS_KG);
        let one = match self {
            Self::AlcoholBand => known(Quantity::Abv).and_then(Abv::new).map(|abv| {
                let band = band(abv);
                format!("{:.1} % vol: {} ({})", abv.get(), band.reading, band.basis)
            }),
            Self::Fermented => known(Quantity::FermentedAbv).map(|abv| {
                format!(
                    "at most {abv:.1} % vol, where all of its sugar ferments (0.51 g of alcohol from 1 g, 0.789 g/ml)"
                )
            }),
            Self::SulphurDioxide => known(Quantity::SulphurDioxide)
                .map(|mg| format!("{} mg/kg of sulphur dioxide was weighed in", digits(mg))),
            Self::Corrosive => known(Quantity::Corrosive).map(|g| format!("{} g of it go in", digits(g))),
            Self::StrongSpirit => known(Quantity::StrongestSpirit)
                .zip(known(Quantity::SpiritVolume))
                .map(|(abv, ml)| format!("{} ml at {abv:.1} % vol", grouped(ml, 0))),
            Self::Quinine => known(Quantity::Quinine).map(|mg| format!("{} mg/kg of quinine", digits(mg))),
            Self::Coumarin => known(Quantity::Coumarin).map(|mg| {
                let daily = 1e6 * COUMARIN_DAILY * body_kg;
                format!(
                    "up to {} mg of coumarin in a serving; {} mg a day for {body_kg:.0} kg of body",
                    digits(mg),
                    digits(daily)
                )
            }),
            Self::Nutmeg => known(Quantity::Nutmeg).map(|g| format!("{} g of nutmeg in a serving", digits(g))),
            Self::Overdose => {
                let from = facts.read_from.get(&Member::Tag(Tag::Overdose));
                let is_called = |row: &&OverdoseRow| {
                    row.words.is_empty() || from.into_iter().flatten().any(|name| row.is_called(name))
                };
                let of_it = overdoses().filter(|row| facts.tags.names(row.tag)).filter(is_called);
                let said = of_it.map(|row| {
                    let name = row.tag.said();
                    format!(
                        "{} g of {name} in a serving: {} ({}, {})",
                        digits(row.grams),
                        row.why,
                        row.source.reference().words(),
                        row.status
                    )
                });
                return said.collect();
            }
            Self::Liquorice => known(Quantity::Abv).and_then(Abv::new).map(|abv| {
                let (named, advice) = liquorice_steps(abv);
                format!(
                    "EU and UK: named from {named:.0} mg/L of glycyrrhizinic acid, advice on blood pressure from \
                     {advice:.0} mg/L; of a root it is not known from its weight"
                )
            }),
            Self::Cyanide => {
                let dose = 1000.0 * in_grams(cyanide_acute_dose(grams(1000.0 * body_kg)));
                Some(format!("{dose:.1} mg of hydrocyanic acid on one occasion for {body_kg:.0} kg of body"))
            }
            Self::Preservatives => {
                let acids = [
                    ("sorbic", Quantity::Sorbic, Quantity::SorbicLimit),
                    ("benzoic", Quantity::Benzoic, Quantity::BenzoicLimit),
                ];
                let words = |(name, acid, limit)| {
                    let mg = known(acid).filter(|mg| *mg > 0.0)?;
                    let limit = known(limit).map_or("not known here".to_owned(), |limit| digits(limit) + " mg/kg");
                    Some(format!("{} mg/kg of {name} acid; its limit is {limit}", digits(mg)))
                };
                return acids.into_iter().filter_map(words).collect();
            }
        };
        one.into_iter().collect()
    }
}
