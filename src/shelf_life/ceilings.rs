//! The class of a product caps its days: figures that are usually quoted, with their tier. They never lengthen anything.

use serde::{Deserialize, Serialize, Serializer};

use crate::references::Key;
use crate::vocabulary::ProductClass;

use super::product::Product;

/// How good the evidence behind a term is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Tier {
    /// A food code.
    #[serde(skip)]
    Law,
    /// What the house recorded of its own.
    #[serde(skip)]
    House,
    /// Government, university or peer-reviewed.
    A,
    /// Common practice, no source.
    B,
    /// A model with assumed inputs, or a guess.
    #[serde(rename = "assumed")]
    Assumed,
}

impl Serialize for Tier {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.words())
    }
}

impl Tier {
    /// The words that are printed.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Law => "model food code or local code",
            Self::House => "the house's own record",
            Self::A => "published",
            Self::B => "common practice, no source",
            Self::Assumed => "model with assumed inputs",
        }
    }
}

/// What kind of product a class is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ClassGroup {
    /// Lives by sugar and cold.
    Sweet,
    /// Lives by alcohol.
    Strong,
    /// Juice: no model may date it beyond its class.
    Juice,
    /// Lives by being dry.
    Dried,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Holds {
    Juice,
    Nut,
    FruitOrHerb,
    FruitOrWine,
}

/// What the product must be; everything that is named must hold.
#[derive(Debug, Default, Deserialize)]
struct Needs {
    brix: Option<f64>,
    abv: Option<f64>,
    delle: Option<f64>,
    #[serde(default)]
    processed: bool,
    /// Raw juice: none of it, or less than half its weight. What is juice stays one, whatever it is called.
    raw_juice: Option<RawJuice>,
}

#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
enum RawJuice {
    None,
    UnderHalf,
}

#[derive(Debug, Deserialize)]
struct Fits {
    brix_from: Option<f64>,
    brix_below: Option<f64>,
    abv_below: Option<f64>,
    contents: Option<Holds>,
    #[serde(default)]
    strong: bool,
}

/// One figure.
#[derive(Debug, Deserialize)]
pub struct CeilingRow {
    /// The warmest store that it speaks of.
    pub store_c: f64,
    /// The low end that is quoted.
    pub low_days: f64,
    /// The high end: the ceiling.
    pub high_days: f64,
    /// How good it is.
    pub tier: Tier,
    /// Where it stands.
    pub key: Key,
    /// What is said there.
    pub source: String,
}

/// A class.
#[derive(Debug, Deserialize)]
pub struct ClassFigures {
    /// Its name on a card.
    pub name: ProductClass,
    /// What kind it is.
    pub group: ClassGroup,
    #[serde(default)]
    needs: Needs,
    fits: Option<Fits>,
    /// The quality model that it has, by name.
    pub quality: Option<String>,
    rows: Vec<CeilingRow>,
}

/// What goes stale, and when.
#[derive(Debug, Deserialize)]
pub struct Quality {
    /// Its name.
    pub name: String,
    /// What is noticed.
    pub what: String,
    /// The median days at `t_ref_c`.
    pub days: f64,
    /// The temperature that the days are for.
    pub t_ref_c: f64,
    /// Arrhenius.
    pub ea_kj_per_mol: f64,
    /// The scatter of the logarithm of the days.
    pub ln_sd: f64,
    /// How good it is.
    pub tier: Tier,
    /// Where it stands.
    pub keys: Vec<Key>,
    /// How it was got from there.
    pub source: String,
}

/// Classes and quality models.
#[derive(Debug, Deserialize)]
pub struct Ceilings {
    class: Vec<ClassFigures>,
    quality: Vec<Quality>,
}

/// The ceiling that applies.
#[derive(Clone, Copy, Debug)]
pub struct Ceiling {
    /// Of which class.
    pub class: &'static ClassFigures,
    /// Which figure.
    pub row: &'static CeilingRow,
    /// The store is warmer than any figure of the class.
    pub warmer_than_any: bool,
}

impl ClassFigures {
    /// The shortest figure at or below the first store at or above `t_c`: a warmer store never gets more days than a
    /// cooler one, and one that is warmer than every figure no more than the shortest of them.
    fn ceiling(&'static self, t_c: f64) -> Option<Ceiling> {
        let reach = self.rows.iter().map(|r| r.store_c).filter(|&c| c >= t_c).fold(f64::INFINITY, f64::min);
        let row = self.rows.iter().filter(|r| r.store_c <= reach).min_by(|a, b| a.high_days.total_cmp(&b.high_days))?;
        Some(Ceiling { class: self, row, warmer_than_any: reach.is_infinite() })
    }

    /// Whether the product is what the figures of its class speak of.
    fn earned(&self, product: &Product, pasteurised: bool) -> bool {
        let at_least = |need: Option<f64>, has: f64| need.is_none_or(|need| has >= need);
        let contents = product.contents_or_worst();
        at_least(self.needs.brix, brix(product))
            && at_least(self.needs.abv, product.abv_pct())
            && at_least(self.needs.delle, product.delle_units())
            && (!self.needs.processed || pasteurised)
            && match self.needs.raw_juice {
                Some(RawJuice::None) => !contents.juice,
                Some(RawJuice::UnderHalf) => !contents.mostly_juice,
                None => true,
            }
    }

    fn fits(&self, product: &Product) -> bool {
        let Some(fits) = &self.fits else { return false };
        let contents = product.contents_or_worst();
        let strong = product.abv_pct() >= 15.0 && product.delle_units() >= 85.0;
        let holds = match fits.contents {
            None => true,
            Some(Holds::Juice) => contents.juice,
            Some(Holds::Nut) => contents.nut,
            Some(Holds::FruitOrHerb) => contents.fruit_or_wine || contents.juice || contents.garlic_or_herb,
            Some(Holds::FruitOrWine) => contents.fruit_or_wine,
        };
        fits.strong == strong
            && holds
            && fits.brix_from.is_none_or(|from| brix(product) >= from)
            && fits.brix_below.is_none_or(|below| brix(product) < below)
            && fits.abv_below.is_none_or(|below| product.abv_pct() < below)
    }
}

/// Dissolved solids, unknown as none.
fn brix(product: &Product) -> f64 {
    product.brix.map_or(0.0, |b| b.get())
}

impl Ceilings {
    /// The figures of a class.
    pub fn class(&self, name: ProductClass) -> Option<&ClassFigures> {
        self.class.iter().find(|c| c.name == name)
    }

    /// The class that a product names, where it is all that the class asks for.
    pub(crate) fn earned(&self, product: &Product, pasteurised: bool) -> Option<&ClassFigures> {
        self.class(product.class?).filter(|class| class.earned(product, pasteurised))
    }

    /// The classes of which there are figures.
    pub fn names(&self) -> impl Iterator<Item = ProductClass> {
        self.class.iter().map(|c| c.name)
    }

    /// The quality model of a class.
    pub fn quality_of(&self, class: &ClassFigures) -> Option<&Quality> {
        let name = class.quality.as_deref()?;
        self.quality.iter().find(|q| q.name == name)
    }

    /// The ceiling of a product at a store: that of its class; and where the class is not named, not known, or the product
    /// less than its class asks for, the shortest that fits.
    pub fn ceiling(&'static self, product: &Product, t_c: f64, pasteurised: bool) -> Option<Ceiling> {
        let named = product.class.and_then(|name| self.class(name));
        let earned = self.earned(product, pasteurised).is_some();
        let fitting = self.class.iter().filter(|class| !earned && class.fits(product));
        named
            .into_iter()
            .chain(fitting)
            .filter_map(|class| class.ceiling(t_c))
            .min_by(|a, b| a.row.high_days.total_cmp(&b.row.high_days))
    }
}
