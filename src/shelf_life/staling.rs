//! When a product that is safe is no longer good: staling and habit, in whole numbers of days at 4 °C and at 20 °C, geometric
//! between them and beyond. Every figure here is ours, set inside what is usually quoted, unless a source stands beside it.

use serde::{Deserialize, Serialize, Serializer};

use super::class;
use super::hurdles::Hurdles;
use super::product::{Dairy, Filled, Product};
use crate::vocabulary::ProductClass;

/// How good the evidence behind a term is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Tier {
    /// A food code.
    Law,
    /// What the house recorded of its own.
    House,
    /// Government, university or peer-reviewed.
    Published,
    /// Common practice, no source.
    Custom,
    /// A model with assumed inputs.
    Assumed,
}

impl Tier {
    /// The words that are printed.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Law => "model food code or local code",
            Self::House => "the house's own record",
            Self::Published => "published",
            Self::Custom => "common practice, no source",
            Self::Assumed => "model with assumed inputs",
        }
    }
}

impl Serialize for Tier {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.words())
    }
}

/// What is no longer good first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stale {
    /// Fresh juice.
    RawJuice,
    /// A thin drink with fresh juice in it.
    ThinJuice,
    /// Pasteurised juice, once its bottle was opened.
    OpenedJuice,
    /// Sugar and water.
    SugarSyrup,
    /// What fruit, herb or spice gave.
    Plant,
    /// Acid or salt water.
    NoFood,
    /// Strong salt water.
    Salt,
    /// Between weak and strong: its strength decides.
    Strength,
    /// Aroma and colour of a strong drink.
    Aroma,
    /// Bitters or a tincture, used by the drop.
    Drops,
    /// Wine.
    Wine,
    /// Nut oil and emulsion.
    Nut,
    /// Fat that a spirit was washed with.
    FatWashed,
    /// Whey of a clarified drink.
    Clarified,
    /// Cream or egg in alcohol.
    Emulsion,
    /// Milk left in.
    Milk,
    /// Dried fruit, airtight.
    Dried,
}

impl Stale {
    /// In words, after "because".
    pub fn words(self) -> &'static str {
        match self {
            Self::RawJuice => "fresh juice goes stale",
            Self::ThinJuice => "fresh juice goes stale in a thin drink",
            Self::OpenedJuice => "pasteurised juice from an opened bottle",
            Self::SugarSyrup => "a syrup tires",
            Self::Plant => "fruit, herb or spice in it goes dull",
            Self::NoFood => "nothing in it feeds growth: only dust and mould spoil it",
            Self::Salt => "strong salt water",
            Self::Strength => "aroma fades: its strength slows it",
            Self::Aroma => "aroma and colour fade",
            Self::Drops => "aroma fades, used by the drop",
            Self::Wine => "the wine in it oxidises",
            Self::Nut => "the oil of a nut, seed or plant milk turns rancid",
            Self::FatWashed => "what is left of the fat turns rancid",
            Self::Clarified => "whey stays in it",
            Self::Emulsion => "cream or egg in it",
            Self::Milk => "there is milk or fat in it",
            Self::Dried => "dried fruit, airtight, loses colour and taste",
        }
    }

    pub(crate) fn tier(self) -> Tier {
        match self {
            Self::Dried => Tier::Published,
            _ => Tier::Custom,
        }
    }
}

/// Days at 4 °C and at 20 °C.
type Pair = (f64, f64);

fn share(x: f64) -> f64 {
    x.clamp(0.0, 1.0)
}

/// Geometric between two, or beyond.
fn geometric(a: f64, b: f64, share: f64) -> f64 {
    a * (b / a).powf(share)
}

fn at(t_c: f64, (at_4, at_20): Pair) -> f64 {
    geometric(at_4, at_20, (t_c - 4.0) / 16.0)
}

fn both(a: Pair, b: Pair, share: f64) -> Pair {
    (geometric(a.0, b.0, share), geometric(a.1, b.1, share))
}

/// Ten kelvin more take so many times as fast.
fn faster(q10: f64, kelvin: f64) -> f64 {
    q10.powf(kelvin / 10.0)
}

/// A row of a sweet product: thin, at 50 °Bx, at 65 °Bx, and at least this much where it is sour.
struct SweetRow {
    thin: Pair,
    at_50: Pair,
    at_65: Pair,
    sour: Pair,
}

/// A quarter of the days at 20 °C.
const fn quartered(at_4: f64) -> Pair {
    (at_4, at_4 / 4.0)
}

const fn plant_row(thin: f64, at_50: f64, at_65: f64, sour: f64) -> SweetRow {
    SweetRow { thin: quartered(thin), at_50: quartered(at_50), at_65: quartered(at_65), sour: quartered(sour) }
}

const SYRUP: SweetRow = SweetRow { thin: (14.0, 4.0), at_50: (28.0, 7.0), at_65: (180.0, 30.0), sour: (60.0, 14.0) };
const SYRUP_HOT_CLOSED: SweetRow =
    SweetRow { thin: (60.0, 20.0), at_50: (90.0, 30.0), at_65: (365.0, 180.0), sour: (60.0, 14.0) };
const PLANT: SweetRow = plant_row(7.0, 14.0, 60.0, 28.0);
const PLANT_OPENED: SweetRow = plant_row(7.0, 21.0, 75.0, 28.0);
const PLANT_HOT_CLEAN: SweetRow = plant_row(14.0, 28.0, 90.0, 45.0);
const PLANT_HOT_CLOSED: SweetRow = plant_row(60.0, 60.0, 180.0, 90.0);
/// With 1.0 % of acetic acid and with 1.5 %, below pH 3.6.
const ACETIC: (Pair, Pair) = (quartered(28.0), quartered(90.0));
/// Peel oil, at most.
const PEEL: Pair = quartered(28.0);

/// Days of half the low published figure of fresh orange and grapefruit juice, by temperature (Fellers 1988, J Food Sci
/// 53:1699-1702). Half, because the published plant was cleaner than a bar (ours).
const SWEET_CITRUS: &[(f64, f64)] = &[(-1.7, 10.0), (1.1, 8.0), (4.4, 5.0), (7.8, 2.5)];

/// From here no wort or must ferments and no band is needed, % vol.
const STRONG: f64 = 20.0;
const MOST_DAYS: f64 = 730.0;

/// A product with its hurdles, at one store.
pub(crate) struct Staling<'a> {
    pub product: &'a Product,
    pub hurdles: &'a Hurdles,
    pub t_c: f64,
}

impl Staling<'_> {
    /// Every term that holds, in days.
    pub(crate) fn terms(&self) -> Vec<(f64, Stale)> {
        let mut terms = Vec::new();
        let contents = self.product.contents;
        if contents.dried {
            terms.push((self.dried(), Stale::Dried));
            return terms;
        }
        terms.extend(self.juice());
        terms.extend(self.dairy_and_egg());
        if contents.nut {
            terms.push((self.nut(), Stale::Nut));
        }
        if contents.wine {
            let pair = both((30.0, 10.0), (180.0, 60.0), share((self.hurdles.abv - 10.0) / 15.0));
            terms.push((at(self.t_c, pair), Stale::Wine));
        }
        terms.push(self.row_or_strength());
        terms
    }

    fn sweet(&self) -> f64 {
        self.product.brix.unwrap_or(0.0)
    }

    /// Whether there is enough water free for thin drinks to spoil as such.
    fn thin(&self) -> bool {
        self.product.aw.is_none_or(|aw| aw > 0.95)
    }

    /// 0 where it is thin at 20 °Bx or less, 1 from 35 °Bx on.
    fn body(&self) -> f64 {
        if self.thin() { share((self.sweet() - 20.0) / 15.0) } else { 1.0 }
    }

    fn juice(&self) -> Vec<(f64, Stale)> {
        let (product, abv) = (self.product, self.hurdles.abv);
        let s = share(product.raw_juice);
        let slower = faster(3.0, -(self.t_c - 4.0).max(0.0));
        let mut terms = Vec::new();
        if s > 0.0 {
            let base = (3.0 + 7.0 * share((self.sweet() - 15.0) / 30.0) + 3.0 * share((abv - 5.0) / 15.0)).min(10.0);
            let mut days = base * slower;
            if product.sweet_citrus {
                days = days.max(sweet_citrus(self.t_c));
            }
            days *= if s >= 0.5 { 1.0 } else { 0.5 / s };
            if product.contents.dairy == Some(Dairy::Clarified) {
                days *= 4.0;
            }
            let days = days.min(180.0);
            terms.push((days, Stale::RawJuice));
            if s < 0.5 && self.thin() && abv < 10.0 {
                let thin = (14.0 - 9.0 * share(s / 0.05)) * slower;
                terms.push((geometric(thin, days.max(thin), self.body()), Stale::ThinJuice));
            }
        }
        if product.pasteurised_juice > 0.0 && self.thin() && abv < STRONG {
            terms.push((7.0 * slower, Stale::OpenedJuice));
        }
        terms
    }

    fn dairy_and_egg(&self) -> Option<(f64, Stale)> {
        let (abv, contents) = (self.hurdles.abv, self.product.contents);
        let sour_or_strong = self.hurdles.ph_up.is_some_and(|ph| ph <= 4.6) || abv >= 14.0;
        match contents.dairy {
            Some(Dairy::Milk) => Some((7.0, Stale::Milk)),
            Some(Dairy::Clarified) if !sour_or_strong => Some((7.0, Stale::Milk)),
            _ if contents.emulsion_or_milk() => Some((emulsion_days(abv), Stale::Emulsion)),
            Some(Dairy::FatWashed) => Some((at(self.t_c, (180.0, 90.0)), Stale::FatWashed)),
            Some(Dairy::Clarified) => {
                let pair = both((90.0, 14.0), (180.0, 90.0), share((abv - 10.0) / 10.0));
                Some((at(self.t_c, pair), Stale::Clarified))
            }
            _ => None,
        }
    }

    fn nut(&self) -> f64 {
        let brix = self.sweet();
        let weak = if brix < 40.0 { 5.0 } else { 14.0 + 14.0 * share((brix - 40.0) / 26.0) };
        at(self.t_c, quartered(geometric(weak, 60.0, share(self.hurdles.abv / STRONG))))
    }

    /// 365 days to 60 °F and 180 at 80 °F (National Center for Home Food Preservation, University of Georgia, So Easy to
    /// Preserve), geometric between.
    fn dried(&self) -> f64 {
        geometric(365.0, 180.0, ((self.t_c - 15.6) / 11.1).max(0.0))
    }

    /// Its row by what is in it, and with alcohol the larger of that and the band up to a strong drink.
    fn row_or_strength(&self) -> (f64, Stale) {
        let abv = self.hurdles.abv;
        let (row, what) = self.row();
        if abv >= STRONG {
            return self.aroma();
        }
        if abv < 0.5 {
            return (row, what);
        }
        // where the sugar already excludes wine yeast and nothing feeds lactic bacteria, the strength counts for more
        let lifted = self.hurdles.delle >= 85.0 && !self.product.contents.nutrient;
        let strength = abv + if lifted { 2.0 * share((abv - 14.0) / 4.0) } else { 0.0 };
        let at_10 = at(self.t_c, (30.0, 10.0));
        let band = if strength < 10.0 {
            geometric(at(self.t_c, (14.0, 5.0)), at_10, (strength - 0.5) / 9.5)
        } else {
            geometric(at_10, self.aroma().0.max(at_10), share((strength - 10.0) / 10.0))
        };
        if band >= row { (band, Stale::Strength) } else { (row, what) }
    }

    fn aroma(&self) -> (f64, Stale) {
        let contents = self.product.contents;
        let drops = class::missing(ProductClass::Bitters, self.product, self.hurdles).is_none();
        let fades = contents.plant
            || contents.wine
            || contents.nut
            || contents.dairy.is_some()
            || self.product.raw_juice > 0.0
            || self.product.pasteurised_juice > 0.0;
        let (at_20, most, what) = if contents.coffee {
            (120.0, 365.0, Stale::Aroma)
        } else if drops {
            (1095.0, 1825.0, Stale::Drops)
        } else {
            (if fades { 240.0 } else { 365.0 }, MOST_DAYS, Stale::Aroma)
        };
        ((at_20 * faster(2.9, 20.0 - self.t_c)).min(most), what)
    }

    fn row(&self) -> (f64, Stale) {
        let contents = self.product.contents;
        if contents.no_food {
            return match self.product.salt_pct >= 15.0 {
                true => (365.0, Stale::Salt),
                false => (at(self.t_c, (90.0, 28.0)), Stale::NoFood),
            };
        }
        if contents.plant || contents.nutrient || self.product.raw_juice > 0.0 {
            return (at(self.t_c, self.plant()), Stale::Plant);
        }
        let row = match self.product.filled {
            Filled::HotClosed if !self.product.opened => &SYRUP_HOT_CLOSED,
            _ => &SYRUP,
        };
        (at(self.t_c, self.sweet_row(row, None)), Stale::SugarSyrup)
    }

    fn plant(&self) -> Pair {
        let row = match self.product.filled {
            Filled::HotClosed | Filled::HotClean if self.product.opened => &PLANT_OPENED,
            Filled::HotClosed => &PLANT_HOT_CLOSED,
            Filled::HotClean => &PLANT_HOT_CLEAN,
            Filled::Cold | Filled::ColdPlant | Filled::Raw => &PLANT,
        };
        let sour = self.hurdles.ph_up.is_some_and(|ph| ph <= 3.6);
        let vinegar = (sour && self.product.acetic_pct >= 1.0)
            .then(|| linear(ACETIC.0, ACETIC.1, share((self.product.acetic_pct - 1.0) / 0.5)));
        let pair = self.sweet_row(row, vinegar);
        match self.product.contents.peel {
            true => (pair.0.min(PEEL.0), pair.1.min(PEEL.1)),
            false => pair,
        }
    }

    fn sweet_row(&self, row: &SweetRow, at_least: Option<Pair>) -> Pair {
        let mut pair = both(row.at_50, row.at_65, share((self.sweet() - 50.0) / 15.0));
        // from pH 4.2 down to 3.2
        let sour = self.hurdles.ph_up.map_or(0.0, |ph| share(4.2 - ph));
        let raised = linear(row.at_50, (row.sour.0.max(row.at_50.0), row.sour.1.max(row.at_50.1)), sour);
        for floor in [Some(raised), at_least].into_iter().flatten() {
            pair = (pair.0.max(floor.0), pair.1.max(floor.1));
        }
        let thin = (row.thin.0.min(pair.0), row.thin.1.min(pair.1));
        both(thin, pair, self.body())
    }
}

/// Cream or egg in alcohol, kept cold: 7 days below 14 % vol, to 28 at 18 and more (custom 2 to 4 weeks, house-made).
pub(crate) fn emulsion_days(abv: f64) -> f64 {
    7.0 + 21.0 * share((abv - 14.0) / 4.0)
}

fn linear(a: Pair, b: Pair, share: f64) -> Pair {
    (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share)
}

/// Geometric between the published temperatures and beyond.
fn sweet_citrus(t_c: f64) -> f64 {
    let last = SWEET_CITRUS.len() - 2;
    let place = SWEET_CITRUS.iter().skip(1).position(|(t, _)| t_c <= *t).unwrap_or(last).min(last);
    let ((t1, d1), (t2, d2)) = (SWEET_CITRUS[place], SWEET_CITRUS[place + 1]);
    geometric(d1, d2, (t_c - t1) / (t2 - t1))
}
