//! `menu.toml`: what is sold. What is wrong is reported with its place, all of it in one run.

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::cost::{Currency, SellAsked, price};
use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{self, FieldKind, FieldShape, Given, Hints, Laid, Layout, Value, layout};
use crate::plan::Uses;
use crate::plan::board::{DATE, entries, weekday_once};
use crate::spelling::fold;
use crate::units::{LiteralError, NumberRange, readers};

/// What is written on a menu.
#[derive(Clone, Debug, Default)]
pub struct Menu {
    /// The drinks, in its order.
    pub drinks: Vec<MenuDrink>,
    /// An event, where one is planned.
    pub event: Option<Occasion>,
    /// The file, by which findings call it.
    pub file: Arc<str>,
}

/// A drink on a menu.
#[derive(Clone, Debug, Default)]
pub struct MenuDrink {
    /// Its name.
    pub name: Spanned<String>,
    /// What a guest pays, tax in it.
    pub price: Option<Spanned<(Decimal, Currency)>>,
    /// How many glasses go, week after week.
    pub sold: Option<Spanned<Uses>>,
    /// Its share of the glasses of an event.
    pub share: Option<Spanned<f64>>,
}

impl MenuDrink {
    /// What a guest pays for it, where the menu says so.
    pub(crate) fn sells_at(&self) -> SellAsked {
        SellAsked { at: self.price.map(|price| price.value), by_menu: true, ..SellAsked::default() }
    }
}

/// An event, as it is written.
#[derive(Clone, Debug, Default)]
pub struct Occasion {
    /// How many guests.
    pub guests: Option<Spanned<u64>>,
    /// How many hours they drink.
    pub hours: Option<Spanned<f64>>,
    /// Drinks for each guest in an hour.
    pub per_hour: Option<Spanned<f64>>,
    /// What is made beyond that, as a share.
    pub reserve: Option<Spanned<f64>>,
    /// On which day.
    pub on: Option<Spanned<NaiveDate>>,
}

impl Menu {
    /// What a guest pays for a drink, where it stands on the menu with a price.
    pub(crate) fn sells_at(&self, name: &str) -> SellAsked {
        let key = fold(name);
        let own = self.drinks.iter().find(|drink| fold(&drink.name.value) == key);
        own.map(MenuDrink::sells_at).unwrap_or_default()
    }

    /// Whether it says of anything how much goes: every week, or at an event.
    pub(crate) fn takes_anything(&self) -> bool {
        self.event.is_some() || self.drinks.iter().any(|drink| drink.sold.is_some())
    }
}

/// Reads a menu.
pub fn read(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Menu {
    let first = found.len();
    let menu = Menu { file: Arc::clone(file), ..input::read_file(text, file, &HINTS, found) };
    found.extend(twice(&menu).into_iter().map(|d| d.in_file(file)));
    if menu.drinks.is_empty() && found.len() == first {
        found.push(
            Diagnostic::error(Code::MissingKey, "no drink is on the menu")
                .help("add one by the name of its card: [drink.\"Clove daiquiri\"] with price = \"9.50 GBP\" and sold = 70 below it")
                .in_file(file),
        );
    }
    menu
}

/// The keys of `menu.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
pub fn schema() -> serde_json::Value {
    input::schema("a menu", Menu::LAYOUT)
}

static HINTS: Hints = Hints {
    file: "a menu",
    homes: &[MenuDrink::LAYOUT, Occasion::LAYOUT],
    other_names: &[("sales", "sold"), ("cost", "price"), ("date", "on"), ("drinks", "drink")],
    instead: &[],
};

impl Laid for Menu {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a menu",
        ("drink", DRINKS, "{ Daiquiri = { price = \"9.50 GBP\", sold = 70 } }", "what is sold", drinks),
        ("event", FieldKind::<Occasion>::table(), "{ guests = 120, hours = 3 }", "guests of one evening", event),
    );
}

const DRINKS: FieldKind<Vec<MenuDrink>> =
    FieldKind::new(FieldShape::Named(&FieldShape::Table(MenuDrink::LAYOUT)), |given, reader| {
        entries(given, reader, |name, table, reader| MenuDrink {
            name: name.clone(),
            ..MenuDrink::LAYOUT.read(table, reader)
        })
    });

impl Laid for MenuDrink {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a drink of the menu",
        "under the heading of its drink, [drink.\"Clove daiquiri\"]",
        ("price", PRICE, "\"9.50 GBP\"", "what a guest pays, tax in it", price),
        ("sold", SOLD, "70", "glasses a week, or by day: { Fri = 20, Sat = 25 }", sold),
        ("share", FieldKind::amount(readers::fraction), "\"30 %\"", "its share of the glasses of an event", share),
    );
}

impl Laid for Occasion {
    const LAYOUT: &'static Layout<Self> = layout!(
        "[event]",
        "under [event]",
        ("guests", GUESTS_KIND, "120", "how many guests", guests),
        ("hours", HOURS_KIND, "3", "how many hours they drink", hours),
        ("per_hour", PER_HOUR_KIND, "1", "drinks for each guest in an hour", per_hour),
        ("reserve", FieldKind::amount(readers::fraction), "\"10 %\"", "what is made beyond that", reserve),
        ("on", DATE, "2026-12-12", "the day", on),
    );
}

/// More than any bar serves in a week (ours).
const MOST_GLASSES: f64 = 100_000.0;
const SOLD_GLASSES: NumberRange = NumberRange::whole(0.0, MOST_GLASSES, "glasses");
pub(super) const GUESTS: NumberRange = NumberRange::whole(1.0, MOST_GLASSES, "guests");
/// Up to a long weekend (ours).
pub(super) const HOURS: NumberRange = NumberRange::above(0.0, 72.0, "hours");
/// Up to more than anybody drinks in an hour (ours).
pub(super) const PER_HOUR: NumberRange = NumberRange::above(0.0, 10.0, "drinks for each guest in an hour");

const PRICE: FieldKind<(Decimal, Currency)> = FieldKind::amount(guest_pays);

fn guest_pays(written: &str) -> Result<(Decimal, Currency), LiteralError> {
    // what is given away is on the menu too
    price::amount_or_nothing(written).map_err(|why| {
        why.help(
            "write what a guest pays, tax in it: \"9.50 GBP\"; without the line the margin of the house gives a price",
        )
    })
}

const A_COUNT: FieldShape = FieldShape::within(&SOLD_GLASSES);

/// So many a week, or so many on each day that is named and none on the others.
const SOLD: FieldKind<Uses> =
    FieldKind::new(FieldShape::Either(&[A_COUNT, FieldShape::Named(&A_COUNT)]), |given, reader| {
        const HELP: &str = "write sold = 70, for a week, or sold = { Fri = 20, Sat = 25 }";
        match &given.value.value {
            Value::Number(_) => given.within(reader, &SOLD_GLASSES, HELP).map(|sold| Uses::weekly(sold as u64)),
            Value::Table(on) => {
                let (mut uses, mut first) = (Uses::default(), [None; 7]);
                for (key, value) in &on.entries {
                    let Some(place) = weekday_once("sold", key, &mut first, &mut reader.found) else { continue };
                    let of_day = Given { key, value, ..*given }.within(reader, &SOLD_GLASSES, HELP);
                    uses.on[place] = of_day.map(|sold| sold as u64);
                }
                Some(uses)
            }
            _ => reader.refuse(given.wrong_type("a number of glasses a week, or one for each day,").help(HELP)),
        }
    });

const GUESTS_KIND: FieldKind<u64> = FieldKind::new(FieldShape::within(&GUESTS), |given, reader| {
    given.within(reader, &GUESTS, "write guests = 120, or leave [event] out").map(|guests| guests as u64)
});

const HOURS_KIND: FieldKind<f64> =
    FieldKind::new(FieldShape::within(&HOURS), |given, reader| given.within(reader, &HOURS, "write hours = 3"));

const PER_HOUR_KIND: FieldKind<f64> = FieldKind::new(FieldShape::within(&PER_HOUR), |given, reader| {
    given.within(reader, &PER_HOUR, "write per_hour = 1.5")
});

/// Drinks that stand on it twice under two spellings; the same spelling twice is no TOML.
fn twice(menu: &Menu) -> Vec<Diagnostic> {
    let mut first: BTreeMap<String, &Spanned<String>> = BTreeMap::new();
    let again = menu.drinks.iter().filter_map(|drink| {
        let before = *first.entry(fold(&drink.name.value)).or_insert(&drink.name);
        (before.span != drink.name.span).then_some((before, &drink.name))
    });
    let said = again.map(|(before, name)| {
        Diagnostic::error(Code::SameName, format!("`{}` and `{}` are the same drink", before.value, name.value))
            .at(name.span, "again here")
            .at(before.span, "first here")
            .help("put both under one heading, with what is sold of both added up")
    });
    said.collect()
}
