//! The bibliography: one entry for each standard, paper or table that a number comes from.
//! Every property, ingredient and rule names its entry by key.

/// How far a source was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// The figures were read in a copy of the source, or checked against it.
    Read,
    /// Recalled, then checked against independent values.
    FromMemoryChecked,
    /// Recalled and not checked.
    FromMemory,
    /// A habit of the trade that no source stands behind.
    CommonPractice,
}

impl Standing {
    /// The words that are printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::FromMemoryChecked => "from memory, checked",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// One entry.
#[derive(Clone, Copy, Debug)]
pub struct Source {
    /// The short key that properties name.
    pub key: &'static str,
    /// Author or body, title, year, table.
    pub citation: &'static str,
    /// How far it was followed.
    pub standing: Standing,
}

/// All entries, by subject.
pub const SOURCES: &[Source] = &[
    source("common-practice", "Habit of the trade", Standing::CommonPractice),
    // amounts
    source("definition", "By definition of the word", Standing::Read),
    source(
        "si",
        "BIPM, The International System of Units (SI Brochure), 9th edition, 2019, and the units accepted with it",
        Standing::FromMemory,
    ),
    source(
        "nist-hb44",
        "NIST Handbook 44, Appendix C, General Tables of Units of Measurement: US gallon of 231 cubic inches",
        Standing::FromMemory,
    ),
    source(
        "uk-measures-act",
        "Weights and Measures Act 1985 (UK), section 1 and schedule 1: pound 0.45359237 kg, gallon 4.54609 L",
        Standing::FromMemory,
    ),
    source("21-cfr-101.9", "21 CFR 101.9(b)(5)(viii), household measures of US nutrition labels", Standing::Read),
    source(
        "27-cfr-30",
        "27 CFR Part 30, Gauging Manual: US proof is twice the percent by volume at 60 °F",
        Standing::Read,
    ),
    source(
        "usda-sr26",
        "USDA National Nutrient Database for Standard Reference, Release 26, 2013, WEIGHT table: a jigger is 1.5 fl oz",
        Standing::Read,
    ),
    source(
        "usp-1101",
        "USP General Chapter 1101, Medicine Dropper: a drop of water weighs 45 to 55 mg",
        Standing::Read,
    ),
    source(
        "metric-kitchen",
        "Kitchen measures of Australia, New Zealand and Canada: cup 250 ml, Australian tablespoon 20 ml",
        Standing::FromMemory,
    ),
    source(
        "kitchen-convention",
        "Kitchen convention: a dash is an eighth of a US teaspoon, a pinch a sixteenth",
        Standing::CommonPractice,
    ),
    // how mixtures behave
    source("kell-1975", "G. S. Kell, J. Chem. Eng. Data 20 (1975) 97, density of water, on ITS-90", Standing::Read),
    source(
        "icumsa-sps4",
        "ICUMSA SPS-4, density of sucrose solutions; Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual (1995)",
        Standing::Read,
    ),
    source(
        "oiml-r22",
        "OIML R 22, International Alcoholometric Tables; Council Directive 76/766/EEC, Annex, point 4",
        Standing::Read,
    ),
    source(
        "model-a",
        "Ternary model A: sugar brings its volume in water to the spirit; checked against sucrose-saturated spirits (Scheibler)",
        Standing::FromMemoryChecked,
    ),
    source(
        "crc-102",
        "CRC Handbook of Chemistry and Physics, 102nd ed. (2021), Concentrative Properties of Aqueous Solutions",
        Standing::Read,
    ),
    source(
        "apparent-volumes",
        "Volumes and refractions of glycerol, salt, acetic acid, fat and undissolved matter",
        Standing::FromMemory,
    ),
    source("27cfr30", "27 CFR part 30, Gauging Manual, US TTB (proof at 60 °F, Table 6)", Standing::Read),
    source(
        "nbs-c440",
        "NBS Circular C440: apparent specific gravity and Brix; ASBC table: degrees Plato",
        Standing::Read,
    ),
    source("baume-145", "Hydraulic Institute data book, section 2.D: degrees Baumé, modulus 145", Standing::Read),
    source(
        "oiv-ma-as2-02",
        "OIV-MA-AS2-02 (OENO 21/2004, revised 466/2012), refractometry, tables I and II",
        Standing::Read,
    ),
    source("iapws-r9-97", "IAPWS R9-97, refractive index of water", Standing::Read),
    source(
        "starzak-peacock",
        "Starzak and Peacock, water activity coefficient in aqueous solutions of sucrose",
        Standing::Read,
    ),
    source(
        "norrish-1966",
        "Norrish, J. Food Technol. 1 (1966) 25, and Ferro Fontán, Chirife, Boquet 1981: K of sugars and glycerol",
        Standing::FromMemoryChecked,
    ),
    source(
        "ross-1975",
        "Ross, Food Technol. 29(3) (1975) 26: water activity of mixtures as a product",
        Standing::FromMemory,
    ),
    source(
        "van-laar-unifac",
        "van Laar constants of ethanol-water, fitted to modified UNIFAC (Dortmund, 2016) at 20 and 25 °C",
        Standing::FromMemoryChecked,
    ),
    source("perry-vle", "Perry's Chemical Engineers' Handbook, ethanol-water at 101.3 kPa", Standing::Read),
    source("iapws-if97", "IAPWS-IF97, region 4, saturation pressure of water", Standing::FromMemoryChecked),
    source("icao-atmosphere", "ICAO standard atmosphere", Standing::FromMemoryChecked),
    source(
        "browne-1912",
        "Browne, Handbook of Sugar Analysis (1912), boiling points of sucrose solutions",
        Standing::Read,
    ),
    source("vavrinecz-1962", "Vavrinecz 1962, solubility of sucrose in water", Standing::FromMemoryChecked),
    source(
        "wiklund-vavrinecz",
        "Wiklund and Vavrinecz, saturation of impure sugar solutions, as in an instrument maker's manual",
        Standing::Read,
    ),
    source(
        "scheibler-1891",
        "Scheibler 1872/1891 in Seidell and in Browne, sucrose in saturated spirit at 14 °C",
        Standing::FromMemory,
    ),
    source(
        "genotelle-1978",
        "Genotelle 1978 in Bubnik et al., Sugar Technologists Manual (1995), viscosity of sucrose solutions",
        Standing::Read,
    ),
    source("flash-point-table", "Flash points of ethanol-water by strength, encyclopaedia table", Standing::Read),
    source("eu-1169-2011", "Regulation (EU) 1169/2011, Annex XIV (energy)", Standing::Read),
    source("uk-units", "UK alcohol unit: 10 ml of pure alcohol (secondary pages)", Standing::Read),
    source(
        "us-standard-drink",
        "US standard drink: 0.6 US fl oz, 14 g of pure alcohol (US NIH, secondary pages)",
        Standing::Read,
    ),
    // acidity
    source(
        "davies-1962",
        "C. W. Davies, Ion Association, 1962: activity coefficients with 0.3 I",
        Standing::FromMemoryChecked,
    ),
    source(
        "nist-srd46",
        "NIST Standard Reference Database 46, as carried by the MINTEQ v4 data file of US EPA/USGS: pK and enthalpy of citric, phosphoric, acetic, tartaric and carbonic acid",
        Standing::Read,
    ),
    source(
        "eden-bates-1959",
        "Eden and Bates, J. Res. Natl. Bur. Stand. 62:161, 1959: malic acid, 0 to 50 °C",
        Standing::Read,
    ),
    source(
        "martin-tartar-1937",
        "Martin and Tartar, 1937: lactic acid by temperature, as quoted in an ECHA dossier",
        Standing::Read,
    ),
    source(
        "goldberg-2002",
        "Goldberg, Kishore and Lennen, J. Phys. Chem. Ref. Data 31:231, 2002: enthalpy and heat capacity of dissociation",
        Standing::FromMemory,
    ),
    source(
        "prenesti-2012",
        "Prenesti et al., The Scientific World Journal 2012, 249041, Table 4: pK in 12 % ethanol",
        Standing::Read,
    ),
    source(
        "sinclair-eny",
        "Sinclair and Eny, papers on the buffer system of citrus juices: share of the cations held by organic acids",
        Standing::Read,
    ),
    source(
        "ifu-3",
        "International Fruit and Vegetable Juice Association, method 3, 2017: titratable acidity",
        Standing::Read,
    ),
    source("oiv-as313-01", "OIV-MA-AS313-01: total acidity of wine to pH 7", Standing::Read),
    // readings
    source(
        "glass-expansion",
        "Cubic expansion of soda-lime glass, 25e-6 per °C, usual for hydrometers",
        Standing::FromMemory,
    ),
    source(
        "stevens-baier-1939",
        "Stevens and Baier 1939: refractometer reading of citrus juice corrected for citric acid",
        Standing::FromMemory,
    ),
    // the larder
    source(
        "usda-sr26-foods",
        "USDA National Nutrient Database for Standard Reference, Release 26, 2013: composition by NDB number",
        Standing::Read,
    ),
    source("cnf", "Canadian Nutrient File, Health Canada: sugars by kind, by food code", Standing::Read),
    source(
        "ciqual-2020",
        "CIQUAL French food composition table 2020, Anses: organic acids, by food code",
        Standing::Read,
    ),
    source(
        "stfcj",
        "Standard Tables of Food Composition in Japan: moisture of whole citrus, cross-checks; food numbers from memory",
        Standing::Read,
    ),
    source(
        "eu-1169",
        "Regulation (EU) No 1169/2011, Annex II: allergens to be declared; the US, Canadian, Australian and New Zealand lists beside it",
        Standing::Read,
    ),
    // cost
    source("iso-4217", "ISO 4217, list one: codes of currencies and their minor units", Standing::FromMemory),
    source(
        "bubnik-heat",
        "Bubnik, Kadlec, Urban, Bruhns, Sugar Technologists Manual (1995): specific heat of sucrose solutions",
        Standing::FromMemory,
    ),
    source("steam-tables", "Steam tables: specific heat of water, heat of evaporation at 100 °C", Standing::FromMemory),
    source(
        "crc-heat",
        "CRC Handbook of Chemistry and Physics: molar heat capacity of liquid ethanol at 25 °C",
        Standing::FromMemory,
    ),
    // shelf life
    source(
        "food-code-2022",
        "FDA Food Code 2022: 1-201.10(B) Tables A and B, 3-501.16, 3-501.17 (read in state adoptions; that the day made is day 1, from memory)",
        Standing::Read,
    ),
    source(
        "zwietering-1992",
        "Zwietering, Wijtzes, de Wit & van 't Riet 1992, J Food Prot 55:973, the gamma concept (structure confirmed in Pinon et al. 2004)",
        Standing::FromMemoryChecked,
    ),
    source(
        "rosso-1993",
        "Rosso, Lobry & Flandrois 1993, J Theor Biol 162:447, cardinal temperatures",
        Standing::FromMemoryChecked,
    ),
    source(
        "rosso-1995",
        "Rosso et al. 1995, Appl Environ Microbiol 61:610, cardinal temperatures and pH (abstract)",
        Standing::Read,
    ),
    source(
        "rosso-robinson-2001",
        "Rosso & Robinson 2001, Int J Food Microbiol 63:265, water activity",
        Standing::FromMemoryChecked,
    ),
    source(
        "baranyi-roberts-1994",
        "Baranyi & Roberts 1994, growth with lag; checked against curves fitted here",
        Standing::FromMemoryChecked,
    ),
    source(
        "warren-1990",
        "Warren, Hill & Macdonald 1990, Biotechnol Prog 6:319, ethanol and S. cerevisiae (abstract)",
        Standing::Read,
    ),
    source("amerine-kunkee-1965", "Amerine & Kunkee 1965, Vitis 5:187, Delle units (abstract)", Standing::Read),
    source(
        "breidt-2010",
        "Breidt, Sandeep & Arritt 2010, Food Protection Trends 30(5):268, as tabulated in a university extension hand-out",
        Standing::Read,
    ),
    source(
        "breidt-2014",
        "Breidt, Kay, Osborne, Ingham & Arritt 2014, Food Protection Trends 34(3):132, Table 4",
        Standing::Read,
    ),
    source(
        "cfa-2006",
        "Chilled Food Association, Best Practice Guidelines, 4th ed. 2006, table reproduced by the UK Food Standards Agency",
        Standing::Read,
    ),
    source(
        "milani-2015",
        "Milani, Gardner & Silva 2015, thermal resistance of Saccharomyces ascospores in beers (year from memory)",
        Standing::Read,
    ),
    source(
        "arkansas-fill",
        "University of Arkansas food-processing reference sheet, minimum fill temperature by pH",
        Standing::Read,
    ),
    source("fellers-1988", "Fellers 1988, J Food Sci 53:1699, life of unpasteurised citrus juice", Standing::Read),
    source("zhang-2016", "Zhang et al. 2016, Adv J Food Sci Technol 10:555, vitamin C in orange juice", Standing::Read),
    source(
        "wang-xu-2007",
        "Wang & Xu 2007, anthocyanin in blackberry juice (authors and year from memory)",
        Standing::Read,
    ),
    source(
        "so-easy-to-preserve",
        "National Center for Home Food Preservation / University of Georgia, So Easy to Preserve, dried fruit",
        Standing::Read,
    ),
    source(
        "wichura-1988",
        "Wichura 1988, Algorithm AS 241, Appl Stat 37:477, normal quantile",
        Standing::FromMemoryChecked,
    ),
    source(
        "splitmix64",
        "Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA",
        Standing::FromMemory,
    ),
];

const fn source(key: &'static str, citation: &'static str, standing: Standing) -> Source {
    Source { key, citation, standing }
}

/// The entry with this key.
pub fn find(key: &str) -> Option<&'static Source> {
    SOURCES.iter().find(|s| s.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_unique() {
        let keys: std::collections::HashSet<_> = SOURCES.iter().map(|s| s.key).collect();
        assert_eq!(keys.len(), SOURCES.len());
    }
}
