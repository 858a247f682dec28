//! When no date may be given, and what only holds it short.

use std::fmt;

use super::authority::Authority;
use super::ceilings::{Ceiling, ClassGroup};
use super::data::ShelfLifeTables;
use super::delle::{self, DelleReading};
use super::product::Product;
use super::screen::ScreenClass;

/// Why the legal limit of food that needs control holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeldBy {
    /// The tables by pH and water activity say `pa`.
    ByTable,
    /// The pH is not known, at a water activity where the tables ask for it, and the strength below 20 % vol.
    PhUnknown,
    /// Nut, dairy, egg, cooked starch, or garlic or herb in low acid.
    Contents,
}

impl fmt::Display for HeldBy {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::ByTable => "its acidity and water activity do not rule out growth",
            Self::PhUnknown => "its pH is not known",
            Self::Contents => "of what is in it (nut, dairy, egg, cooked starch, or garlic or herb in low acid)",
        })
    }
}

/// Strength from which no growth is reported: 20 % vol (single-factor reports; the tables themselves give no credit).
pub(crate) const NO_GROWTH_REPORTED_PCT_VOL: f64 = 20.0;

/// What holds the product to the legal limit; the first that does. A recorded assessment lifts the table's word only; where
/// the pH is not known it lifts the days (the authority has judged them) and not the cold.
pub(crate) fn held(product: &Product, tables: &ShelfLifeTables, authority: &Authority) -> Option<HeldBy> {
    let contents = product.contents_or_worst();
    let weak = product.abv_pct() < NO_GROWTH_REPORTED_PCT_VOL;
    let low_acid = product.cautious_ph().is_none_or(|ph| ph > 4.6);
    let perishable = contents.dairy || contents.egg || contents.cooked_starch;
    let dry = is_dried(product, tables) && product.cautious_aw().is_none();
    if perishable || (weak && (contents.nut || (contents.garlic_or_herb && low_acid))) {
        Some(HeldBy::Contents)
    } else if !weak || dry {
        None
    } else if product.screen(tables).class == ScreenClass::NonTcs {
        // At this water activity the tables ask for no pH.
        None
    } else if product.cautious_ph().is_none() {
        Some(HeldBy::PhUnknown)
    } else if authority.assessed {
        None
    } else {
        Some(HeldBy::ByTable)
    }
}

/// Whether its class is one that lives by being dry.
pub(crate) fn is_dried(product: &Product, tables: &ShelfLifeTables) -> bool {
    class_group(product, tables) == Some(ClassGroup::Dried)
}

fn class_group(product: &Product, tables: &ShelfLifeTables) -> Option<ClassGroup> {
    Some(tables.ceilings.class(product.class?)?.group)
}

/// Whether it is a juice: by its class, or by what is in it unless it is all that another class asks for.
pub(crate) fn is_juice(product: &Product, tables: &ShelfLifeTables) -> bool {
    let juicy = product.contents_or_worst().juice && !is_strong(product);
    let other = || tables.ceilings.earned(product, product.pasteurised(tables)).is_some();
    class_group(product, tables) == Some(ClassGroup::Juice) || (juicy && !other())
}

fn is_strong(product: &Product) -> bool {
    product.abv_pct() >= NO_GROWTH_REPORTED_PCT_VOL
}

/// Whether growth depends on lactic bacteria, of which too little is known: 0.5 to 20 % vol with 75 to 85 Delle units, or
/// below 20 % vol with a pH above 3.5 (or unknown) and solids of fruit or wine. Then only the ceiling may be trusted.
pub(crate) fn lactic_bacteria_decide(product: &Product) -> bool {
    let grey = delle::reading(product.delle_units()) == DelleReading::Grey;
    let mild = product.cautious_ph().is_none_or(|ph| ph > 3.5);
    !is_strong(product) && ((product.abv_pct() >= 0.5 && grey) || (mild && product.contents_or_worst().fruit_or_wine))
}

/// Why no date is given.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// It needs control and the store is too warm.
    TooWarm {
        /// What holds it.
        held: HeldBy,
        /// The warmest store allowed, °C.
        max_c: f64,
    },
    /// Water activity is not known and alcohol does not make up for it.
    WaterActivityUnknown,
    /// Dissolved solids are not known and alcohol does not make up for it.
    BrixUnknown,
    /// Outside what the model was made for.
    OutOfRange {
        /// What.
        what: &'static str,
        /// The value.
        value: f64,
        /// The range.
        range: (f64, f64),
    },
    /// Several preservatives: no verified limits for a blend.
    PreservativeBlend,
    /// A juice in a store warmer than any figure for its class.
    JuiceTooWarm {
        /// The warmest store that a figure speaks of.
        max_c: f64,
    },
    /// Egg that was not pasteurised.
    RawEgg,
    /// Figures for dried fruit are for airtight jars.
    NotAirtight,
    /// There is no figure for its class.
    NoCeiling,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooWarm { held, max_c } => {
                write!(f, "keep at {max_c} °C or below, because {held}")?;
                if *held == HeldBy::PhUnknown {
                    f.write_str("; measure the pH")?;
                }
                Ok(())
            }
            Self::WaterActivityUnknown => {
                f.write_str("the water activity is not known, and below 20 % vol nothing makes up for it")
            }
            Self::BrixUnknown => f.write_str("the Brix is not known, and below 20 % vol nothing makes up for it"),
            Self::OutOfRange { what, value, range: (low, high) } => {
                write!(f, "{what} {value} lies outside {low} to {high}, where the growth model can speak")
            }
            Self::PreservativeBlend => f.write_str("no verified limits are known for a blend of preservatives"),
            Self::JuiceTooWarm { max_c } => {
                write!(f, "no figure is known for this juice above {max_c} °C, and no model may stand in")
            }
            Self::RawEgg => f.write_str(
                "raw egg may carry Salmonella, and no keeping time can be defended: use pasteurised egg, or make it to order",
            ),
            Self::NotAirtight => f.write_str("the figures for dried fruit are for airtight jars; say `closed = true`"),
            Self::NoCeiling => f.write_str("no figure is known for this kind of product"),
        }
    }
}

/// Everything that forbids a date.
pub(crate) fn refusals(
    product: &Product,
    t_c: f64,
    held: Option<HeldBy>,
    ceiling: Option<Ceiling>,
    tables: &ShelfLifeTables,
    authority: &Authority,
) -> Vec<Refusal> {
    let mut found = Vec::new();
    let dried = is_dried(product, tables);
    if let Some(held) = held.filter(|_| t_c.is_nan() || t_c > authority.max_c()) {
        found.push(Refusal::TooWarm { held, max_c: authority.max_c() });
    }
    if !is_strong(product) && !dried {
        if product.cautious_aw().is_none() {
            found.push(Refusal::WaterActivityUnknown);
        }
        if product.brix.is_none() {
            found.push(Refusal::BrixUnknown);
        }
    }
    let ranges = [
        ("temperature", Some(t_c), (0.0, 30.0)),
        ("pH", product.ph.map(|ph| ph.value.get()), (1.8, 7.0)),
        ("Brix", product.brix.map(|b| b.get()).filter(|_| !dried), (0.0, 80.0)),
    ];
    for (what, value, range) in ranges {
        if let Some(value) = value.filter(|v| !(range.0..=range.1).contains(v)) {
            found.push(Refusal::OutOfRange { what, value, range });
        }
    }
    if product.preservatives > 1 {
        found.push(Refusal::PreservativeBlend);
    }
    if product.contents_or_worst().raw_egg {
        found.push(Refusal::RawEgg);
    }
    if dried && product.process.closed != Some(true) {
        found.push(Refusal::NotAirtight);
    }
    match ceiling {
        None => found.push(Refusal::NoCeiling),
        Some(c) if c.warmer_than_any && is_juice(product, tables) => {
            found.push(Refusal::JuiceTooWarm { max_c: c.row.store_c });
        }
        Some(_) => {}
    }
    found
}
