//! `house.toml`: what the house is called, what it measures with, where it keeps things.

use std::sync::Arc;

use uom::si::length::{foot, meter};

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{
    FieldKind, FieldShape, FileReader, Given, Hints, Laid, Layout, TEXT, TEXTS, Value, layout, quoted, read_file, word,
    wrong_type,
};
use crate::spelling::{meant_or, nearest};
use crate::units::display::as_read;
use crate::units::{Length, NumberRange, Temperature, Volume, celsius, degrees_celsius, readers};
use crate::vocabulary::{Market, MeasureSystem};

use super::costs::{self, Costs};
use super::instruments::Instruments;
use super::local_code::{self, LocalCode};

/// Which day is day one of a life.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DayOne {
    /// The day it was made.
    #[default]
    DayMade,
    /// The day after.
    DayAfter,
}

/// A place where things are kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Store {
    /// Its name.
    pub name: String,
    /// How warm it is.
    pub temperature: Temperature,
    /// Whether it is a default and not of this house.
    pub assumed: bool,
}

/// What `house.toml` says, and defaults for what it does not say.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The name of the house.
    pub name: Option<String>,
    /// The currency of its prices ("GBP").
    pub currency: Option<String>,
    /// Which day counts as the first.
    pub day_one: DayOne,
    /// Where it sells or serves.
    pub markets: Vec<Market>,
    /// How high it lies, for boiling.
    pub altitude: Option<Length>,
    /// What it measures with.
    pub instruments: Instruments,
    /// Where it keeps things, in the order of the file.
    pub stores: Vec<Store>,
    /// What its work, heat and bottles cost.
    pub costs: Costs,
    /// The numbers of its authority.
    pub local_code: Vec<LocalCode>,
    /// Which ounces, cups, pints, quarts and gallons it means.
    pub measures: Option<MeasureSystem>,
    /// What a bottle holds.
    pub bottle: Option<Volume>,
    /// Alkalinity that its tap water has at most, equivalents a kilogram; the default is that of very hard water.
    pub water_alkalinity_eq_per_kg: Option<f64>,
}

/// `common practice, no source`: a house with its own thermometer should write its own.
const DEFAULT_STORES: [(&str, f64); 4] = [("fridge", 4.0), ("cellar", 12.0), ("back bar", 21.0), ("freezer", -18.0)];

impl Default for Settings {
    fn default() -> Self {
        let stores =
            DEFAULT_STORES.map(|(name, t)| Store { name: name.to_owned(), temperature: celsius(t), assumed: true });
        Self {
            name: None,
            currency: None,
            day_one: DayOne::default(),
            markets: Vec::new(),
            altitude: None,
            instruments: Instruments::default(),
            stores: stores.into(),
            costs: Costs::default(),
            local_code: Vec::new(),
            measures: None,
            bottle: None,
            water_alkalinity_eq_per_kg: None,
        }
    }
}

impl Settings {
    pub(crate) fn assumed(&self) -> Vec<String> {
        let mut assumed = Vec::new();
        if self.instruments.scale_assumed {
            assumed.push("a scale of 1 g up to 5 kg".to_owned());
        }
        if self.instruments.refractometer_assumed {
            assumed.push(format!("a refractometer of {} °Bx", self.instruments.refractometer_brix));
        }
        for store in self.stores.iter().filter(|s| s.assumed) {
            assumed.push(format!("{} at {:.0} °C", store.name, degrees_celsius(store.temperature)));
        }
        assumed
    }
}

/// Reads a house file. What is wrong is reported, and its default stands.
pub fn read(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Settings {
    let mut settings: Settings = read_file(text, file, &Hints::NONE, found);
    if settings.costs != Costs::default() {
        settings.costs.file = Some(Arc::clone(file));
    }
    settings
}

impl Laid for Settings {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a house file",
        // read first: the others are laid over it
        ("house", HOUSE, "{ name = \"The Lantern\" }", "the house itself", |s, house| *s = house.value),
        (
            "instruments",
            FieldKind::<Instruments>::table(),
            "{ scale = \"1 g up to 5 kg\" }",
            "what it measures with",
            instruments
        ),
        ("stores", STORES, "{ fridge = \"4 °C\" }", "where it keeps things, and how warm it is there", stores),
        ("costs", costs::COSTS, "{ labour = \"14.00 GBP / h\" }", "what its work, heat and bottles cost", costs),
        (
            "local_code",
            local_code::BLOCKS,
            "[{ product = \"Lime cordial\", days = 5 }]",
            "the numbers of its authority, one block a product",
            local_code
        ),
    );
}

const HOUSE: FieldKind<Settings> =
    FieldKind::new(FieldShape::Table(HOUSE_KEYS), |given, reader| Some(HOUSE_KEYS.read(given.table(reader)?, reader)));

const HOUSE_KEYS: &Layout<Settings> = layout!(
    "[house]",
    ("name", TEXT, "\"The Lantern\"", "the name of the house", name),
    ("currency", CURRENCY, "\"GBP\"", "the currency of its prices, by its code in ISO 4217", currency),
    ("day_one", DAY_ONE, "\"day made\"", "which day is the first of a life", day_one),
    ("market", MARKET, "[\"UK\", \"EU\"]", "where it sells or serves", markets),
    ("measures", word::<MeasureSystem>(), "\"US\"", "which ounces, cups, pints, quarts and gallons it means", measures),
    (
        "bottle",
        FieldKind::amount(readers::volume),
        "\"700 ml\"",
        "what a bottle holds, where bottles are counted",
        bottle
    ),
    ("altitude", ALTITUDE, "\"1600 m\"", "how high it lies, for boiling", altitude),
    (
        "water_alkalinity",
        ALKALINITY,
        "120",
        "of its tap water at most, mg/L as calcium carbonate; 300 where nothing is said",
        |s, mg| { s.water_alkalinity_eq_per_kg = Some(mg.value / 50_043.5) }
    ),
);

/// mg/L as calcium carbonate; 50.0435 g of that are one equivalent (IUPAC standard atomic weights).
const ALKALINITY_MG: NumberRange = NumberRange::all(0.0, 1000.0, "mg/L as calcium carbonate");
const ALKALINITY: FieldKind<f64> = FieldKind::new(FieldShape::within(&ALKALINITY_MG), |given, reader| {
    given.within(reader, &ALKALINITY_MG, "the water supplier's report states it")
});

const DAYS: [(&str, DayOne); 2] = [("day made", DayOne::DayMade), ("day after", DayOne::DayAfter)];
const MARKETS: [(&str, Market); 6] = [
    ("EU", Market::Eu),
    ("UK", Market::Uk),
    ("US", Market::Us),
    ("CA", Market::Ca),
    ("AU", Market::AuNz),
    ("NZ", Market::AuNz),
];

const DAY_ONE: FieldKind<DayOne> =
    FieldKind::new(FieldShape::Words(|| DAYS.map(|(word, _)| word).into()), |given, reader| {
        one_of(given, Spanned::new(given.text(reader)?, given.value.span), &DAYS, reader)
    });

const MARKET_WORDS: FieldShape = FieldShape::Words(|| MARKETS.map(|(word, _)| word).into());

const MARKET: FieldKind<Vec<Market>> =
    FieldKind::new(FieldShape::Either(&[MARKET_WORDS, FieldShape::List(&MARKET_WORDS)]), |given, reader| {
        let written = match &given.value.value {
            Value::Text(one) => vec![Spanned::new(one.clone(), given.value.span)],
            _ => TEXTS.read(given, reader)?,
        };
        let mut read =
            |market: &Spanned<String>| one_of(given, Spanned::new(&market.value, market.span), &MARKETS, reader);
        Some(written.iter().filter_map(&mut read).collect())
    });

fn one_of<T: Copy>(
    given: &Given<'_>,
    written: Spanned<&str>,
    words: &[(&str, T)],
    reader: &mut FileReader<'_>,
) -> Option<T> {
    if let Some((_, meaning)) = words.iter().find(|(word, _)| *word == written.value) {
        return Some(*meaning);
    }
    let known: Vec<_> = words.iter().map(|(word, _)| *word).collect();
    let title = format!("`{}` is not `{}`", given.about.key, written.value);
    let diagnostic =
        Diagnostic::error(Code::WrongType, title).at(written.span, format!("one of: {}", known.join(", ")));
    reader.refuse(match nearest(written.value, known) {
        Some(meant) => diagnostic.help(format!("did you mean `{meant}`?")).fix(written.span, quoted(meant)),
        None => diagnostic,
    })
}

const CURRENCY: FieldKind<String> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = given.text(reader)?;
    let is_code = written.len() == 3 && written.bytes().all(|b| b.is_ascii_uppercase());
    if !is_code {
        reader.found.push(
            Diagnostic::error(Code::WrongType, format!("`{written}` is not the code of a currency"))
                .at(given.value.span, "three capital letters (ISO 4217) were expected")
                .help("for example currency = \"GBP\""),
        );
    }
    is_code.then(|| written.to_owned())
});

/// "1600 m" or "5200 ft".
const ALTITUDE: FieldKind<Length> = FieldKind::new(FieldShape::Text, |given, reader| {
    let written = given.text(reader)?;
    // Our own sheets part thousands with a comma, and no altitude has three decimals.
    let is_thousand = |rest: &str| rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len()) == 3;
    let plain = match written.split_once(',') {
        Some((thousands, rest)) if is_thousand(rest) => format!("{thousands}{rest}"),
        _ => written.to_owned(),
    };
    let number = |unit: &str| plain.strip_suffix(unit).and_then(|n| n.trim().parse::<f64>().ok());
    let altitude = number("ft").map(Length::new::<foot>).or_else(|| number("m").map(Length::new::<meter>));
    // From the shore of the Dead Sea to the highest towns.
    let possible = altitude.filter(|a| (-450.0..=5500.0).contains(&a.get::<meter>()));
    if possible.is_none() {
        reader.found.push(given.out_of_range(
            format!("`{written}` is not the altitude of a house"),
            "metres or feet above the sea were expected",
            "for example altitude = \"1600 m\"",
        ));
    }
    possible
});

const STORES: FieldKind<Vec<Store>> = FieldKind::new(FieldShape::Named(&FieldShape::Text), |given, reader| {
    let mut stores = Vec::new();
    for (name, value) in &given.table(reader)?.entries {
        if !matches!(value.value, Value::Text(_)) {
            reader.found.push(
                wrong_type(&name.value, value, "a temperature in quotes")
                    .help(format!("for example \"{}\" = \"4 °C\"", name.value)),
            );
            continue;
        }
        let store = Given { key: name, value, ..*given };
        let Some(temperature) = store.amount(reader, readers::temperature) else { continue };
        let t = degrees_celsius(temperature);
        if !(-90.0..=60.0).contains(&t) {
            reader.found.push(
                Diagnostic::error(Code::OutOfRange, format!("`{}` is at {} °C", name.value, as_read(t)))
                    .at(value.span, "a store between -90 and 60 °C was expected"),
            );
            continue;
        }
        stores.push(Store { name: name.value.clone(), temperature, assumed: false });
    }
    // a table of no store says nothing
    Some(stores).filter(|stores| !stores.is_empty())
});

/// Which of these stores was meant by a name that none of them has.
pub(crate) fn which_store<'a>(stores: impl Iterator<Item = &'a Store>, wanted: &str) -> String {
    let names: Vec<&str> = stores.map(|store| store.name.as_str()).collect();
    meant_or(nearest(wanted, names.iter().copied()), format!("its stores are: {}", names.join(", ")))
}
