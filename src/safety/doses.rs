//! Doses of what preserves and what poisons.

use std::sync::LazyLock;

use crate::mixture::{Estimate, OutOfRange};
use crate::units::{Abv, Mass, MassDensity, MassFraction, Ph, grams, in_grams, in_grams_per_litre, in_kg_per_m3};

use super::facts::Fact;
use super::market::{Market, or_all};
use super::table;

const LIMITS: &str = include_str!("data/preservative-limits.csv");

/// A weak acid that preserves by its undissociated (for sulphur dioxide: molecular) share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Preservative {
    /// Sorbic acid.
    Sorbic,
    /// Benzoic acid.
    Benzoic,
    /// Free sulphur dioxide; what is bound to sugars and aldehydes is not active.
    SulphurDioxide,
}

/// What is weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Salt {
    /// C₆H₇KO₂
    PotassiumSorbate,
    /// C₇H₅NaO₂
    SodiumBenzoate,
    /// K₂S₂O₅, gives two SO₂
    PotassiumMetabisulphite,
    /// Na₂S₂O₅, gives two SO₂
    SodiumMetabisulphite,
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

    fn key(self) -> &'static str {
        match self {
            Self::Sorbic => "sorbic",
            Self::Benzoic => "benzoic",
            Self::SulphurDioxide => "so2",
        }
    }

    /// The share in its active form: f = 1 / (1 + 10^(pH − pKa)), Henderson and Hasselbalch.
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
        let share = |pka: f64| 1.0 / (1.0 + 10f64.powf(ph.get() - pka));
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

/// A salt of quinine, or the base itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuinineSource {
    /// The base, C₂₀H₂₄N₂O₂.
    Base,
    /// (C₂₀H₂₄N₂O₂)₂·H₂SO₄·2H₂O
    SulphateDihydrate,
    /// C₂₀H₂₄N₂O₂·HCl·2H₂O
    HydrochlorideDihydrate,
    /// Cinchona bark, or an extract that nobody assayed.
    Bark,
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

struct Limit {
    market: String,
    acid: String,
    alone_mg: f64,
    beside_other_mg: Option<f64>,
    per_litre: bool,
    from: Option<f64>,
    below: Option<f64>,
}

static PRESERVATIVE_LIMITS: LazyLock<Vec<Limit>> = LazyLock::new(|| {
    table::rows(LIMITS)
        .iter()
        .filter_map(|row| {
            Some(Limit {
                market: row.cell("market").to_owned(),
                acid: row.cell("acid").to_owned(),
                alone_mg: row.number("free_acid_mg")?,
                beside_other_mg: row.number("beside_other_mg"),
                per_litre: row.cell("per") == "l",
                from: row.number("abv_from"),
                below: row.number("abv_below"),
            })
        })
        .collect()
});

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
        let applies = |limit: &&Limit| {
            limit.acid == acid.key()
                && market.is_in(&limit.market)
                && limit.from.is_none_or(|from| abv.get() >= from)
                && limit.below.is_none_or(|below| abv.get() < below)
        };
        let in_mg_kg = |limit: &Limit| {
            let mg = if beside_other { limit.beside_other_mg.unwrap_or(limit.alone_mg) } else { limit.alone_mg };
            if limit.per_litre { mg / kg_per_l } else { mg }
        };
        PRESERVATIVE_LIMITS.iter().filter(applies).map(in_mg_kg).reduce(f64::min)
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

/// What an EU or UK label must say at this much glycyrrhizinic acid: named from 10 mg/L; advice from 50 mg/L, in
/// drinks above 1.2 % vol from 300 mg/L (Regulation (EU) No 1169/2011 Annex III; NI 2005/198). The content of a root
/// is not known from its weight: `None` stays `None`.
pub fn liquorice_label(glycyrrhizinic_acid: Option<MassDensity>, abv: Abv) -> Option<LiquoriceLabel> {
    const NAMED_MG_L: f64 = 10.0;
    const STRONG_ABV: f64 = 1.2;
    let mg_per_l = in_grams_per_litre(glycyrrhizinic_acid?) * 1000.0;
    let advice_mg_l = if abv.get() > STRONG_ABV { 300.0 } else { 50.0 };
    Some(match mg_per_l {
        mg if mg < NAMED_MG_L => LiquoriceLabel::Nothing,
        mg if mg < advice_mg_l => LiquoriceLabel::Name,
        // what is not a number is not below anything
        _ => LiquoriceLabel::BloodPressure,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::references;
    use crate::units::{grams_per_litre, kg_per_m3};

    #[test]
    fn free_acid_of_the_salts() {
        // as printed in the sources, to four decimals
        let printed = [
            (Salt::PotassiumSorbate, 0.7464),
            (Salt::SodiumBenzoate, 0.8475),
            (Salt::PotassiumMetabisulphite, 0.5763),
            (Salt::SodiumMetabisulphite, 0.6740),
        ];
        for (salt, share) in printed {
            assert!((in_grams(salt.free_acid(grams(1.0))) - share).abs() < 5.1e-5, "{salt:?}");
        }
        // supplier text: 1.18 g of sodium benzoate is 1 g of benzoic acid
        assert!((1.0 / in_grams(Salt::SodiumBenzoate.free_acid(grams(1.0))) - 1.18).abs() < 0.005);
    }

    #[test]
    fn bark_is_refused() {
        assert_eq!(QuinineSource::Bark.quinine(grams(10.0)), None);
        assert_eq!(QuinineSource::Bark.quinine_mg_kg(grams(10.0), grams(1000.0)), Fact::None);
        // molar masses from memory: quinine 324.4, sulphate dihydrate 782.9, hydrochloride dihydrate 396.9 g/mol
        let share = |source: QuinineSource| in_grams(source.quinine(grams(1.0)).unwrap());
        assert!((share(QuinineSource::SulphateDihydrate) - 2.0 * 324.42 / 782.94).abs() < 1e-4);
        assert!((share(QuinineSource::HydrochlorideDihydrate) - 324.42 / 396.91).abs() < 1e-4);
        let Fact::Known(mg_kg) = QuinineSource::Base.quinine_mg_kg(grams(0.083), grams(1000.0)) else { panic!() };
        assert!((mg_kg - 83.0).abs() < 1e-9);
        assert_eq!(QuinineSource::Base.quinine_mg_kg(grams(1.0), grams(0.0)), Fact::Unknown);
    }

    #[test]
    fn limits_by_market_and_strength() {
        assert_eq!(PRESERVATIVE_LIMITS.len(), table::lines(LIMITS));
        let sources = table::rows(LIMITS);
        assert!(sources.iter().all(|row| references::find(row.cell("source_id")).is_some()));
        let of = |markets: &[Market], abv, both| {
            let abv = Abv::new(abv).unwrap();
            preservative_limit_mg_kg(Preservative::Benzoic, markets, abv, both, kg_per_m3(1250.0))
        };
        assert_eq!(of(&[Market::Us], 0.0, false), Fact::Known(847.5));
        assert_eq!(of(&[Market::Eu], 0.0, false), Fact::Known(120.0));
        assert_eq!(of(&[], 0.0, false), Fact::Known(120.0));
        assert_eq!(of(&[Market::Uk], 10.0, false), Fact::Known(160.0));
        assert_eq!(of(&[Market::Uk], 15.0, false), Fact::Unknown);
        assert_eq!(of(&[Market::Us, Market::AuNz], 0.0, false), Fact::Unknown);
        let sorbic = |both| {
            let (markets, abv) = (&[Market::Eu], Abv::new(0.0).unwrap());
            preservative_limit_mg_kg(Preservative::Sorbic, markets, abv, both, kg_per_m3(1000.0))
        };
        assert_eq!((sorbic(false), sorbic(true)), (Fact::Known(300.0), Fact::Known(250.0)));
    }

    #[test]
    fn coumarin_of_sixty_kilograms() {
        // 60 kg: 6 mg a day, that is 0.86 g of cassia at 7 mg/g
        let content = MassFraction::new(0.007).unwrap();
        let coumarin = coumarin_per_serving(grams(0.86), content, None, 1.0).unwrap();
        assert!((in_grams(coumarin) * 1000.0 - 6.0).abs() < 0.03);
        assert!((BODY_MASS_KG * 1e6 * COUMARIN_DAILY - 6.0).abs() < 1e-9);
        assert_eq!(coumarin_per_serving(grams(1.0), content, None, 0.0), None);
    }

    #[test]
    fn steps_of_liquorice_and_the_dose_of_cyanide() {
        let of = |mg_l: f64, abv| liquorice_label(Some(grams_per_litre(mg_l / 1000.0)), Abv::new(abv).unwrap());
        assert_eq!(of(9.9, 0.0), Some(LiquoriceLabel::Nothing));
        assert_eq!(of(10.0, 0.0), Some(LiquoriceLabel::Name));
        assert_eq!(of(50.0, 0.0), Some(LiquoriceLabel::BloodPressure));
        assert_eq!(of(50.0, 20.0), Some(LiquoriceLabel::Name));
        assert_eq!(of(300.0, 20.0), Some(LiquoriceLabel::BloodPressure));
        assert_eq!(liquorice_label(None, Abv::new(20.0).unwrap()), None);
        assert!((in_grams(cyanide_acute_dose(grams(60_000.0))) * 1000.0 - 1.2).abs() < 1e-12);
    }
}
