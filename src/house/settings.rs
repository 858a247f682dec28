//! `house.toml`: what the house is called, what it measures with, where it keeps things.

use std::sync::Arc;

use uom::si::length::{foot, meter};

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{self, Table, Value, wrong_type};
use crate::larder::amounts::amount;
use crate::spelling::nearest;
use crate::units::{Length, Temperature, celsius, degrees_celsius, readers};

use super::costs::{self, Costs};
use super::instruments::{self, Instruments};

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

/// The numbers of the local authority, as the house entered them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LocalCode {
    /// Who says so.
    pub authority: Option<String>,
    /// Every key of the table, as written.
    pub entries: Table,
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
    /// Where it sells or serves: names of [`MARKETS`].
    pub markets: Vec<String>,
    /// How high it lies, for boiling.
    pub altitude: Option<Length>,
    /// What it measures with.
    pub instruments: Instruments,
    /// Where it keeps things, in the order of the file.
    pub stores: Vec<Store>,
    /// What its work, heat and bottles cost.
    pub costs: Costs,
    /// The numbers of its authority.
    pub local_code: Option<LocalCode>,
}

/// The markets whose lists of allergens and limits are known.
pub const MARKETS: [&str; 6] = ["EU", "UK", "US", "CA", "AU", "NZ"];

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
            local_code: None,
        }
    }
}

impl Settings {
    /// What was assumed, in words.
    pub fn assumed(&self) -> Vec<String> {
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
    let first = found.len();
    let table = input::parse(text, found);
    table.check_keys("a house file", &["house", "instruments", "stores", "costs", "local_code"], found);
    let mut settings = Settings::default();
    if let Some(house) = table.table("house", found) {
        read_house(house.value, &mut settings, found);
    }
    if let Some(table) = table.table("instruments", found) {
        settings.instruments = instruments::read(table.value, found);
    }
    if let Some(table) = table.table("stores", found) {
        let written = stores(table.value, found);
        if !written.is_empty() {
            settings.stores = written;
        }
    }
    if let Some(table) = table.table("costs", found) {
        settings.costs = costs::read(table.value, file, found);
    }
    settings.local_code = table.table("local_code", found).map(|table| LocalCode {
        authority: table.value.text("authority", found).map(|a| a.value.to_owned()),
        entries: table.value.clone(),
    });
    for diagnostic in found.iter_mut().skip(first) {
        diagnostic.file.get_or_insert_with(|| Arc::clone(file));
    }
    settings
}

fn read_house(table: &Table, settings: &mut Settings, found: &mut Vec<Diagnostic>) {
    table.check_keys("[house]", &["name", "currency", "day_one", "market", "altitude"], found);
    settings.name = table.text("name", found).map(|name| name.value.to_owned());
    settings.currency = table.text("currency", found).and_then(|currency| read_currency(currency, found));
    const DAYS: [(&str, DayOne); 2] = [("day made", DayOne::DayMade), ("day after", DayOne::DayAfter)];
    if let Some(day) = table.text("day_one", found) {
        settings.day_one = one_of("day_one", day, &DAYS, found).unwrap_or_default();
    }
    settings.markets = markets(table, found);
    settings.altitude = table.text("altitude", found).and_then(|altitude| read_altitude(altitude, found));
}

/// One of a few words.
fn one_of<T: Copy>(key: &str, written: Spanned<&str>, words: &[(&str, T)], found: &mut Vec<Diagnostic>) -> Option<T> {
    if let Some((_, meaning)) = words.iter().find(|(word, _)| *word == written.value) {
        return Some(*meaning);
    }
    let known: Vec<_> = words.iter().map(|(word, _)| *word).collect();
    let mut diagnostic = Diagnostic::error(Code::WrongType, format!("`{key}` is not `{}`", written.value))
        .at(written.span, format!("one of: {}", known.join(", ")));
    if let Some(meant) = nearest(written.value, known) {
        diagnostic = diagnostic.help(format!("did you mean `{meant}`?")).fix(written.span, format!("\"{meant}\""));
    }
    found.push(diagnostic);
    None
}

fn read_currency(written: Spanned<&str>, found: &mut Vec<Diagnostic>) -> Option<String> {
    let is_code = written.value.len() == 3 && written.value.bytes().all(|b| b.is_ascii_uppercase());
    if !is_code {
        found.push(
            Diagnostic::error(Code::WrongType, format!("`{}` is not the code of a currency", written.value))
                .at(written.span, "three capital letters (ISO 4217) were expected")
                .help("for example currency = \"GBP\""),
        );
    }
    is_code.then(|| written.value.to_owned())
}

/// `market = "UK"` or `market = ["UK", "EU"]`
fn markets(table: &Table, found: &mut Vec<Diagnostic>) -> Vec<String> {
    let written: Vec<Spanned<String>> = match table.get("market") {
        Some((_, Spanned { value: Value::Text(one), span })) => vec![Spanned { value: one.clone(), span: *span }],
        Some(_) => table.texts("market", found),
        None => Vec::new(),
    };
    let words = MARKETS.map(|market| (market, market));
    let mut read = |market: &Spanned<String>| {
        let written = Spanned { value: market.value.as_str(), span: market.span };
        one_of("market", written, &words, found).map(str::to_owned)
    };
    written.iter().filter_map(&mut read).collect()
}

/// "1600 m" or "5200 ft"
fn read_altitude(written: Spanned<&str>, found: &mut Vec<Diagnostic>) -> Option<Length> {
    let number = |unit: &str| written.value.strip_suffix(unit).and_then(|n| n.trim().parse::<f64>().ok());
    let altitude = number("ft").map(Length::new::<foot>).or_else(|| number("m").map(Length::new::<meter>));
    // From the shore of the Dead Sea to the highest towns.
    let possible = altitude.filter(|a| (-450.0..=5500.0).contains(&a.get::<meter>()));
    if possible.is_none() {
        found.push(
            Diagnostic::error(Code::OutOfRange, format!("`{}` is not the altitude of a house", written.value))
                .at(written.span, "metres or feet above the sea were expected")
                .help("for example altitude = \"1600 m\""),
        );
    }
    possible
}

fn stores(table: &Table, found: &mut Vec<Diagnostic>) -> Vec<Store> {
    let mut stores = Vec::new();
    for (name, value) in &table.entries {
        if !matches!(value.value, Value::Text(_)) {
            found.push(
                wrong_type(&name.value, value, "a temperature in quotes")
                    .help(format!("for example \"{}\" = \"4 °C\"", name.value)),
            );
            continue;
        }
        let Some(temperature) = amount(table, &name.value, readers::temperature, found) else { continue };
        let t = degrees_celsius(temperature.value);
        if !(-90.0..=60.0).contains(&t) {
            found.push(
                Diagnostic::error(Code::OutOfRange, format!("`{}` is at {t:.0} °C", name.value))
                    .at(temperature.span, "a store between -90 and 60 °C was expected"),
            );
            continue;
        }
        stores.push(Store { name: name.value.clone(), temperature: temperature.value, assumed: false });
    }
    stores
}
