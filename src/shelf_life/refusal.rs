//! When no date may be given, and the way out.

use std::fmt;

use super::authority::Authority;
use super::delle;
use super::hurdles::Hurdles;
use super::product::{Egg, Filled, Product};
use super::reason::ControlBecause;
use super::warmth::Warmth;
use crate::units::grams_per_litre;

/// Why no date is given.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// Egg that was not pasteurised, or not said to be.
    RawEgg,
    /// Garlic, herb, vegetable or fruit under oil.
    InOil,
    /// It stood too long while weak and not sour.
    Warm {
        /// Hours in all.
        hours: f64,
        /// The warmest, °C.
        t_c: f64,
    },
    /// It needs control and the store is too warm.
    TooWarm {
        /// Why it needs control.
        because: ControlBecause,
        /// The warmest store allowed, °C.
        max_c: f64,
        /// A reading could show that it needs none: there is something sour in it.
        reading_helps: bool,
    },
    /// Milk, cream or egg above 5 °C.
    EmulsionTooWarm {
        /// The warmest store allowed, °C.
        max_c: f64,
    },
    /// Raw juice in a store above 8 °C.
    JuiceTooWarm,
    /// Closed, sweet, weak and warm: yeast would make gas.
    Gas,
    /// Figures for dried fruit are for airtight jars.
    NotAirtight,
    /// It is not dry enough, or nobody knows.
    NotDry {
        /// Water, g per 100 g.
        water_pct: Option<f64>,
    },
    /// The store is warmer than the authority allows for this product.
    LocalTooWarm {
        /// The warmest store allowed, °C.
        max_c: f64,
    },
    /// A store temperature that is no number.
    NoTemperature,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::RawEgg => f.write_str(
                "raw egg may carry Salmonella, at any strength: use pasteurised egg and say so, or make it to order",
            ),
            Self::InOil => f.write_str(
                "garlic, herb, vegetable or fruit under oil: cold, 4 days, or a tested acid method; no date comes from here",
            ),
            Self::Warm { hours, t_c } => write!(
                f,
                "stood {hours:.0} h at up to {t_c:.0} °C while weak and not sour: toxin or spores may be there, and nothing \
                 done later undoes it; steep it cold and say `at = \"4 °C\"`, or with the spirit or the acid in it from the first day"
            ),
            Self::TooWarm { because, max_c, reading_helps } => {
                write!(f, "keep at {max_c} °C or below, because {because}")?;
                match (because, reading_helps) {
                    (ControlBecause::PhUnknown, true) => f.write_str("; read the pH"),
                    (ControlBecause::PhUnknown, false) => f.write_str("; no acid in it can show in a reading: add acid"),
                    (ControlBecause::Hurdles, _) => Ok(()),
                }
            }
            Self::EmulsionTooWarm { max_c } => {
                write!(f, "keep at {max_c} °C or below, because there is milk, cream, egg or fat in it")
            }
            Self::JuiceTooWarm => f.write_str("fresh juice is not kept above 8 °C"),
            Self::Gas => f.write_str(
                "a closed bottle this sweet and weak ferments in the warm and may burst: keep it cold, or fill it hot and \
                 close it",
            ),
            Self::NotAirtight => f.write_str("the days of dried fruit are for airtight jars; say `closed = true`"),
            Self::NotDry { water_pct: Some(water) } => write!(f, "{water:.0} % of it is water: dry it on to 20 % or less"),
            Self::NotDry { water_pct: None } => f.write_str("nobody knows how dry it is: 20 % of water or less is asked for"),
            Self::LocalTooWarm { max_c } => {
                write!(f, "keep at {max_c} °C or below: local code, as the house entered it")
            }
            Self::NoTemperature => f.write_str("the temperature of this store is not known"),
        }
    }
}

/// Refused by what it is, in every store: it passes on to whatever it goes into.
pub(crate) fn by_nature(product: &Product, warmth: &Warmth) -> Vec<Refusal> {
    let contents = product.contents;
    [
        (contents.egg == Some(Egg::Raw)).then_some(Refusal::RawEgg),
        contents.in_oil.then_some(Refusal::InOil),
        warmth.too_long().then_some(Refusal::Warm { hours: warmth.danger_h, t_c: warmth.danger_c }),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Refused by where it stands: another store may do.
pub(crate) fn by_store(product: &Product, hurdles: &Hurdles, t_c: f64, authority: &Authority) -> Vec<Refusal> {
    let contents = product.contents;
    if !t_c.is_finite() {
        return vec![Refusal::NoTemperature];
    }
    if contents.dried {
        let dry = product.is_dry_enough();
        let found = [
            (!product.closed).then_some(Refusal::NotAirtight),
            (!dry).then_some(Refusal::NotDry { water_pct: product.water_pct }),
        ];
        return found.into_iter().flatten().collect();
    }
    let max_c = authority.control_c();
    if hurdles.control() && t_c > max_c {
        let reading_helps = product.acid_g_l > 0.0 || contents.nutrient || contents.plant;
        return vec![Refusal::TooWarm { because: ControlBecause::of(hurdles), max_c, reading_helps }];
    }
    if contents.emulsion_or_milk() && t_c > max_c {
        return vec![Refusal::EmulsionTooWarm { max_c }];
    }
    if product.raw_juice >= 0.5 && t_c > 8.0 && hurdles.abv < 20.0 {
        return vec![Refusal::JuiceTooWarm];
    }
    if let Some(max_c) = authority.max_c.filter(|max_c| t_c > *max_c) {
        return vec![Refusal::LocalTooWarm { max_c }];
    }
    let sealed_hot = product.filled == Filled::HotClosed && product.closed && !product.opened;
    let gas = product.closed
        && t_c > 8.0
        && product.sugar_g_l >= 20.0
        && hurdles.aw_up > 0.90
        && hurdles.abv < delle::still_from_abv(grams_per_litre(product.sugar_g_l))
        && !sealed_hot;
    if gas { vec![Refusal::Gas] } else { Vec::new() }
}
