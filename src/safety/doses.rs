//! Doses of what preserves and what poisons.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::mixture::acidity::undissociated;
use crate::mixture::{Estimate, OutOfRange};
use crate::units::{Abv, Mass, MassDensity, MassFraction, Ph, grams, in_grams, in_grams_per_litre, in_kg_per_m3};

use crate::references::Key;
use crate::vocabulary::{Market, Scope, Word, or_all, table, words};

use super::facts::Fact;

/// A weak acid that preserves by its undissociated (for sulphur dioxide: molecular) share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Preservative {
    /// Sorbic acid.
    Sorbic,
    /// Benzoic acid.
    Benzoic,
    /// Free sulphur dioxide; what is bound to sugars and aldehydes is not active.
    #[serde(rename = "so2")]
    SulphurDioxide,
}

words! {
    /// A salt that is weighed: C₆H₇KO₂, C₇H₅NaO₂, and K₂S₂O₅ and Na₂S₂O₅, each of which gives two SO₂.
    Salt, "salt":
    PotassiumSorbate = "potassium sorbate" | "e202",
    SodiumBenzoate = "sodium benzoate" | "e211",
    PotassiumMetabisulphite = "potassium metabisulphite" | "potassium metabisulfite" | "e224",
    SodiumMetabisulphite = "sodium metabisulphite" | "sodium metabisulfite" | "e223",
}

/// The word of a list that one of these names speaks of: all parts of one of its spellings stand in it.
pub fn named<'a, T: Word>(names: impl IntoIterator<Item = &'a str>) -> Option<T> {
    names.into_iter().find_map(|name| {
        let name = name.to_lowercase();
        let parts: Vec<&str> = name.split(|c: char| !c.is_alphanumeric()).collect();
        let is = |spelling: &&str| spelling.split(' ').all(|part| parts.contains(&part));
        T::ALL.iter().copied().find(|word| is(&word.word()) || word.also().iter().any(is))
    })
}

// Conventional atomic masses, g/mol (IUPAC; from memory).
const H: f64 = 1.008;
const C: f64 = 12.011;
const N: f64 = 14.007;
const O: f64 = 15.999;
const NA: f64 = 22.990;
const S: f64 = 32.06;
const CL: f64 = 35.45;
const K: f64 = 39.098;

const SORBIC: f64 = 6.0 * C + 8.0 * H + 2.0 * O;
const BENZOIC: f64 = 7.0 * C + 6.0 * H + 2.0 * O;
const SO2: f64 = S + 2.0 * O;
const QUININE: f64 = 20.0 * C + 24.0 * H + 2.0 * N + 2.0 * O;
const WATER: f64 = 2.0 * H + O;

impl Preservative {
    /// pKa in water at 25 °C: sorbic 4.76, benzoic 4.19 (4.20 in other sources), sulphur dioxide pK₁ 1.81 (from
    /// memory; the literature spans 1.76 to 1.9).
    pub fn pka(self) -> f64 {
        match self {
            Self::Sorbic => 4.76,
            Self::Benzoic => 4.19,
            Self::SulphurDioxide => 1.81,
        }
    }

    /// The share in its active form: f = 1 / (1 + 10^(pH − pKa)), Henderson and Hasselbalch.
    ///
    /// ```
    /// use stillroom::safety::doses::Preservative;
    /// use stillroom::units::Ph;
    ///
    /// let share = Preservative::Sorbic.active_share(Ph::new(4.76).unwrap()).unwrap();
    /// assert_eq!(share.value, 0.5);
    /// ```
    ///
    /// Valid from pH 2 to 7, in water at 25 °C; activity effects are ignored. Stated error: what a shift of the pKa by
    /// 0.2 does to the share (ethanol and sugar shift it by some tenths, from memory). Check: benzoic acid at pH 3.2
    /// with pKa 4.20 is 90.9 % undissociated (textbook example).
    pub fn active_share(self, ph: Ph) -> Result<Estimate<f64>, OutOfRange> {
        const PKA_ERROR: f64 = 0.2;
        if !(2.0..=7.0).contains(&ph.get()) {
            return Err(OutOfRange {
                property: "active share of a preservative",
                why: format!("asked for pH {}; the equation is used from pH 2 to 7", ph.get()),
            });
        }
        let share = |pka: f64| undissociated(ph.get(), pka);
        let value = share(self.pka());
        let error = (share(self.pka() + PKA_ERROR) - value).max(value - share(self.pka() - PKA_ERROR));
        Ok(Estimate::new(value, error))
    }
}

impl Salt {
    /// The free acid (or sulphur dioxide) that this much of the pure salt gives, by the molar masses.
    pub fn free_acid(self, weighed: Mass) -> Mass {
        let share = match self {
            Self::PotassiumSorbate => SORBIC / (SORBIC - H + K),
            Self::SodiumBenzoate => BENZOIC / (BENZOIC - H + NA),
            Self::PotassiumMetabisulphite => 2.0 * SO2 / (2.0 * K + 2.0 * S + 5.0 * O),
            Self::SodiumMetabisulphite => 2.0 * SO2 / (2.0 * NA + 2.0 * S + 5.0 * O),
        };
        weighed * share
    }
}

words! {
    /// A salt of quinine, or the base itself: (C₂₀H₂₄N₂O₂)₂·H₂SO₄·2H₂O, C₂₀H₂₄N₂O₂·HCl·2H₂O, C₂₀H₂₄N₂O₂; or cinchona
    /// bark or an extract that nobody assayed.
    QuinineSource, "source of quinine":
    SulphateDihydrate = "quinine sulphate" | "quinine sulfate",
    HydrochlorideDihydrate = "quinine hydrochloride" | "quinine hcl",
    Base = "quinine base",
    Bark = "cinchona bark",
}

impl QuinineSource {
    /// The quinine in this much of it, by the molar masses. Bark: `None`: its strength cannot be known from its weight,
    /// and it is refused.
    pub fn quinine(self, weighed: Mass) -> Option<Mass> {
        let share = match self {
            Self::Base => 1.0,
            Self::SulphateDihydrate => 2.0 * QUININE / (2.0 * QUININE + 2.0 * H + S + 4.0 * O + 2.0 * WATER),
            Self::HydrochlorideDihydrate => QUININE / (QUININE + H + CL + 2.0 * WATER),
            Self::Bark => return None,
        };
        Some(weighed * share)
    }

    /// Quinine in mg for each kg of the finished drink: a fact for the cautions. Bark has no figure.
    pub fn quinine_mg_kg(self, weighed: Mass, drink: Mass) -> Fact<f64> {
        self.quinine(weighed).map_or(Fact::None, |quinine| mg_per_kg(quinine, drink))
    }
}

/// Milligrams for each kilogram of the whole; of nothing, not known.
pub fn mg_per_kg(part: Mass, whole: Mass) -> Fact<f64> {
    let mg_kg = in_grams(part) / in_grams(whole) * 1e6;
    if mg_kg.is_finite() && mg_kg >= 0.0 { Fact::Known(mg_kg) } else { Fact::Unknown }
}

/// A row of the table of limits.
#[derive(Debug, Deserialize)]
struct PreservativeLimit {
    market: Scope,
    acid: Preservative,
    free_acid_mg: f64,
    beside_other_mg: Option<f64>,
    per: Per,
    abv_from: Option<f64>,
    abv_below: Option<f64>,
    /// Read so that an unknown key fails.
    #[serde(rename = "source_id")]
    _source: Key,
}

/// Of what a limit is a share.
#[derive(Debug, PartialEq, Deserialize)]
enum Per {
    #[serde(rename = "kg")]
    Kilogram,
    #[serde(rename = "l")]
    Litre,
}

fn preservative_limits() -> &'static [PreservativeLimit] {
    static LIMITS: LazyLock<Vec<PreservativeLimit>> =
        LazyLock::new(|| table::rows("preservative-limits.csv", include_str!("data/preservative-limits.csv")));
    &LIMITS
}

/// How much of a preservative a drink may hold, in mg of free acid per kg: the lowest of the named markets, and not
/// known where one of them has no figure here. With no market named, the lowest figure there is.
///
/// Sources in `data/preservative-limits.csv`: 21 CFR 184.1733 for the United States; Regulation (EC) No 1333/2008
/// for the European Union and the United Kingdom, from memory.
pub fn preservative_limit_mg_kg(
    acid: Preservative,
    markets: &[Market],
    abv: Abv,
    beside_other: bool,
    density: MassDensity,
) -> Fact<f64> {
    let kg_per_l = in_kg_per_m3(density) / 1000.0;
    let of = |market: Market| {
        let applies = |limit: &&PreservativeLimit| {
            limit.acid == acid
                && limit.market.holds_in(market)
                && limit.abv_from.is_none_or(|from| abv.get() >= from)
                && limit.abv_below.is_none_or(|below| abv.get() < below)
        };
        let in_mg_kg = |limit: &PreservativeLimit| {
            let beside = limit.beside_other_mg.filter(|_| beside_other);
            let mg = beside.unwrap_or(limit.free_acid_mg);
            if limit.per == Per::Litre { mg / kg_per_l } else { mg }
        };
        preservative_limits().iter().filter(applies).map(in_mg_kg).reduce(f64::min)
    };
    let figures: Vec<Option<f64>> = or_all(markets).iter().map(|m| of(*m)).collect();
    let all_known = figures.iter().all(Option::is_some);
    match figures.into_iter().flatten().reduce(f64::min) {
        Some(lowest) if lowest.is_finite() && (all_known || markets.is_empty()) => Fact::Known(lowest),
        _ => Fact::Unknown,
    }
}

/// Coumarin in cassia, g per g of bark: the highest mean found in 12 brands of ground cassia, 7017 mg/kg (range of
/// means 2650 to 7017; "Coumarin in ground cinnamon", Scientific World Journal 263851, 2012). Single sticks hold none
/// to 10 000 mg/kg (Woehrlin and others, J Agric Food Chem 58:10568, 2010).
pub const COUMARIN_IN_CASSIA: f64 = 0.007017;

/// Coumarin that may be taken in a day, g per g of body: 0.1 mg/kg (EFSA 2004 and 2008, quoted by BfR 26/2012). A
/// Norwegian assessment has 0.07 (Food Chem Toxicol 50:903, 2012).
pub const COUMARIN_DAILY: f64 = 0.1e-6;

/// The body to reckon with where the house says nothing: 60 kg, as in the published assessments.
pub const BODY_MASS_KG: f64 = 60.0;

/// Coumarin in one serving: bark × content × extracted share / servings. An extracted share that is not known counts
/// as all of it; no servings: `None`.
pub fn coumarin_per_serving(
    bark: Mass,
    content: MassFraction,
    extracted: Option<MassFraction>,
    servings: f64,
) -> Option<Mass> {
    let extracted = extracted.map_or(1.0, MassFraction::get);
    let coumarin_g = in_grams(bark) * content.get() * extracted / servings;
    (servings > 0.0 && coumarin_g.is_finite()).then(|| grams(coumarin_g))
}

/// Hydrocyanic acid that may be taken on one occasion: 0.02 mg for each kg of body (EFSA Journal 14(4):4424, 2016;
/// lethal from 0.5 mg/kg). For an adult that is 0.37 g of raw apricot kernel: kernels are refused, not reckoned.
pub fn cyanide_acute_dose(body: Mass) -> Mass {
    body * 0.02e-6
}

/// What a label must say of liquorice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LiquoriceLabel {
    /// Nothing by this rule.
    Nothing,
    /// "Contains liquorice".
    Name,
    /// And that people with high blood pressure should not take too much.
    BloodPressure,
}

/// From how much glycyrrhizinic acid on, in mg/L, an EU or UK label must name liquorice, and advise people with high
/// blood pressure: 10, and 50 or in drinks above 1.2 % vol 300 (Regulation (EU) No 1169/2011 Annex III; NI 2005/198).
pub fn liquorice_steps(abv: Abv) -> (f64, f64) {
    (10.0, if abv.get() > 1.2 { 300.0 } else { 50.0 })
}

/// What an EU or UK label must say at this much glycyrrhizinic acid: [`liquorice_steps`]. The content of a root is not
/// known from its weight: `None` stays `None`.
///
/// ```
/// use stillroom::safety::doses::{LiquoriceLabel, liquorice_label};
/// use stillroom::units::{Abv, grams_per_litre};
///
/// let label = liquorice_label(Some(grams_per_litre(0.06)), Abv::new(0.0).unwrap());
/// assert_eq!(label, Some(LiquoriceLabel::BloodPressure));
/// ```
pub fn liquorice_label(glycyrrhizinic_acid: Option<MassDensity>, abv: Abv) -> Option<LiquoriceLabel> {
    let mg_per_l = in_grams_per_litre(glycyrrhizinic_acid?) * 1000.0;
    let (named, advice) = liquorice_steps(abv);
    Some(match mg_per_l {
        mg if mg < named => LiquoriceLabel::Nothing,
        mg if mg < advice => LiquoriceLabel::Name,
        // what is not a number is not below anything
        _ => LiquoriceLabel::BloodPressure,
    })
}
