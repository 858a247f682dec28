//! Money: prices as written, the worked examples of the trade to the cent, batches by hand, make or buy.

use std::path::Path;
use std::sync::Arc;

use crate::generated::runner;
use crate::kitchen::{card, run_in};
use crate::table::{Row, rows};
use chrono::NaiveDate;
use proptest::prelude::*;
use rust_decimal::Decimal;
use stillroom::card::{self, Card};
use stillroom::cost::{
    Assumption, BoughtBottle, BreakEven, CostAsked, CostKind, CostLine, Costing, Currency, Habits, Price, PriceUnit,
    Selling, Tax, compare, cost_of, heat, quantity, round,
};
use stillroom::diagnostic::{Code, Diagnostic, Severity, any_error};
use stillroom::house::{House, settings};
use stillroom::larder::{Larder, house_file};
use stillroom::solver::{BatchSize, InnerCard, Options, Solved, solve};
use stillroom::units::millilitres;

fn d(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// A house of these two files, with the texts for painting.
struct Bar {
    house: House,
    house_text: String,
    larder_text: String,
}

fn bar(house_text: &str, larder_text: &str) -> Bar {
    let mut found = Vec::new();
    let mut house = House::default();
    house.settings = settings::read(house_text, &Arc::from("house.toml"), &mut found);
    let own = house_file::read(larder_text, &Arc::from("larder.toml"), &mut found);
    house.larder = Larder::built_in().clone().overlay(own);
    assert!(!any_error(&found), "{found:?}");
    Bar { house, house_text: house_text.to_owned(), larder_text: larder_text.to_owned() }
}

fn solved(text: &str, house: &House) -> Solved {
    let outcome = solve(&card(text), house, &Options::default());
    outcome.solved.unwrap_or_else(|| panic!("{:?}", outcome.diagnostics))
}

impl Bar {
    fn cost(&self, text: &str) -> (Option<Costing>, Vec<Diagnostic>) {
        let asked = CostAsked { makes: card(text).makes.map(|m| m.value), ..CostAsked::default() };
        cost_of(&solved(text, &self.house), &self.house, &asked)
    }

    fn costing(&self, text: &str) -> Costing {
        let (costing, found) = self.cost(text);
        assert!(!any_error(&found), "{found:?}");
        costing.unwrap()
    }

    /// The findings as a maker reads them.
    fn findings(&self, text: &str) -> String {
        let paint = |d: &Diagnostic| match d.file.as_deref() {
            Some("house.toml") => d.plain(&self.house_text),
            Some("larder.toml") => d.plain(&self.larder_text),
            _ => d.plain(text),
        };
        self.cost(text).1.iter().map(paint).collect()
    }
}

fn cost_in(costing: &Costing, of: &str) -> Option<Decimal> {
    costing.lines.iter().find(|line| line.of == of).unwrap_or_else(|| panic!("no line {of}")).cost
}

const GBP: &str = "[house]\ncurrency = \"GBP\"\n";

// ---- the worked examples of the trade

/// The inputs of a row: `key=value` pairs.
fn input(row: &Row, key: &str) -> Decimal {
    let all = row.text("inputs_unit_in_key").split(';').filter_map(|pair| pair.trim().split_once('='));
    let found = all.filter(|(k, _)| *k == key).map(|(_, v)| d(v)).next();
    found.unwrap_or_else(|| panic!("no {key} in {}", row.text("inputs_unit_in_key")))
}

fn has(row: &Row, key: &str) -> bool {
    row.text("inputs_unit_in_key").split(';').any(|pair| pair.trim().starts_with(&format!("{key}=")))
}

/// The line of something of which so much is used, at this price and with these keys.
fn yield_line(price: &str, keys: &str, unit: &str, used: Decimal) -> CostLine {
    let bar = bar(GBP, &format!("[ingredient.fruit]\nlike = \"raspberries\"\nprice = \"{price}\"\n{keys}\n"));
    let costing = bar.costing(&format!("name = \"F\"\n[parts]\nfruit = \"{used} {unit}\"\n"));
    costing.lines.iter().find(|line| line.of == "fruit").unwrap().clone()
}

/// What the larder makes of a yield test, percent.
fn usable_pct(bought: Decimal, usable: Decimal) -> Decimal {
    let keys = format!("bought = \"{bought} g\"\nusable = \"{usable} g\"\n");
    let bar = bar(GBP, &format!("[ingredient.fruit]\nlike = \"raspberries\"\nprice = \"1 GBP / 1 kg\"\n{keys}"));
    quantity(100.0 * bar.house.larder.find("fruit").unwrap().usable.unwrap()).unwrap()
}

/// The duty on so many litres of this strength, as the verb adds it, not to the cent but as it is counted.
fn duty_of(rate: Decimal, litres: Decimal, abv_pct: Decimal) -> Decimal {
    let bar = bar(
        &format!("{GBP}[costs]\nduty = \"{rate} GBP / L pure alcohol\"\n"),
        &format!("[ingredient.spirit]\nabv = {abv_pct}\nprice = \"1 GBP / 1 L\"\n"),
    );
    let costing = bar.costing(&format!("name = \"D\"\n[parts]\nspirit = \"{litres} L\"\n"));
    costing.line(CostKind::Duty).unwrap().cost.unwrap()
}

#[test]
fn worked_examples_to_the_last_digit_that_they_print() {
    let mut checked = 0;
    for row in rows("trade-worked-examples") {
        let percent = |share: Option<Decimal>| share.unwrap() * Decimal::ONE_HUNDRED;
        let get = |key: &str| input(&row, key);
        let hundredth = |key: &str| get(key) / Decimal::ONE_HUNDRED;
        let ours = match (row.text("topic"), row.text("output_unit_in_name")) {
            ("yield_test" | "yield_cost", "yield_pct") if has(&row, "ap_kg") => usable_pct(get("ap_kg"), get("ep_kg")),
            ("yield_test", "yield_pct") => usable_pct(get("ap_g"), get("ap_g") - get("waste_g")),
            // at 1.00 a pound or a kilogram the cost is what is bought
            ("yield_cost", "ap_lb") => {
                let line =
                    yield_line("1 GBP / 1 lb", &format!("usable = \"{} %\"", get("yield_pct")), "lb", get("ep_lb"));
                line.cost.unwrap()
            }
            ("yield_cost", "ap_kg") => {
                let served = get("portions") * get("portion_g") / Decimal::ONE_THOUSAND;
                let line = yield_line("1 GBP / 1 kg", &format!("usable = \"{} %\"", get("yield_pct")), "kg", served);
                line.cost.unwrap()
            }
            ("yield_cost", "ep_price_per_kg") => {
                let (price, usable) = if has(&row, "ap_price_per_kg") {
                    (get("ap_price_per_kg"), format!("usable = \"{} %\"", get("yield_pct")))
                } else {
                    let usable = format!("bought = \"{} kg\"\nusable = \"{} kg\"", get("ap_kg"), get("ep_kg"));
                    (get("ap_cost") / get("ap_kg"), usable)
                };
                let line = yield_line(&format!("{price} GBP / 1 kg"), &usable, "kg", Decimal::ONE);
                line.per_usable_kg.unwrap()
            }
            ("container_yield", _) => {
                // a US gallon has 128 fl oz
                usable_pct(get("keg_gal") * d("128"), get("sold_pints") * get("pint_floz"))
            }
            ("gross_profit", output) => {
                let sold =
                    Selling::at_price(get("cost"), get("sale_price_inc_tax"), Some(hundredth("tax_pct"))).unwrap();
                match output {
                    "net_sale" => sold.net,
                    _ => percent(Some(sold.gross_profit)),
                }
            }
            ("markup_vs_gp", _) => {
                let price = get("cost") * (Decimal::ONE + hundredth("markup_pct"));
                let sold = Selling::at_price(get("cost"), price, None).unwrap();
                assert_eq!(sold.markup, Some(hundredth("markup_pct")));
                percent(Some(sold.gross_profit))
            }
            ("duty", _) => {
                // a hectolitre of 1 % holds a litre of pure alcohol: the two rates are one number
                let rate = if has(&row, "duty_per_lpa") { get("duty_per_lpa") } else { get("duty_per_hl_per_pct") };
                duty_of(rate, get("volume_l"), get("abv_pct"))
            }
            _ => continue,
        };
        checked += 1;
        let number = |column: &str| quantity(row.number(column)).unwrap();
        let (expected, tolerance) = (number("expected_value"), number("tolerance_abs"));
        assert!(
            (ours - expected).abs() <= tolerance,
            "{} {}: {ours} for {expected}",
            row.text("id"),
            row.text("topic")
        );
        // money is printed to the cent, and the cent is that of the source
        if matches!(row.text("output_unit_in_name"), "net_sale" | "duty") {
            assert_eq!(round(ours, 2), expected);
        }
    }
    // scale factors are checked with the other worked examples of the trade
    assert_eq!(checked, 14);
}

// ---- prices

#[test]
fn prices_read_as_people_write_them() {
    for (text, amount, currency, per, tax) in [
        ("34.50 GBP / 700 ml", "34.50", "GBP", PriceUnit::Millilitres(d("700")), Tax::Unstated),
        ("9.20 GBP / 1 kg", "9.20", "GBP", PriceUnit::Grams(d("1000")), Tax::Unstated),
        ("0.45 GBP / each", "0.45", "GBP", PriceUnit::Pieces(d("1")), Tax::Unstated),
        ("12.00 GBP / pack of 24", "12", "GBP", PriceUnit::Pieces(d("24")), Tax::Unstated),
        ("138 EUR / case of 6 x 700 ml", "138", "EUR", PriceUnit::Millilitres(d("4200")), Tax::Unstated),
        ("138 EUR/6 x 70cl", "138", "EUR", PriceUnit::Millilitres(d("4200")), Tax::Unstated),
        ("1,20 eur / kg", "1.20", "EUR", PriceUnit::Grams(d("1000")), Tax::Unstated),
        ("USD 31.99 / 750ml", "31.99", "USD", PriceUnit::Millilitres(d("750")), Tax::Unstated),
        ("1500 JPY / 720 ml incl. 10 % tax", "1500", "JPY", PriceUnit::Millilitres(d("720")), Tax::Included(d("0.10"))),
        ("9.20 GBP / 1 kg incl. 20 % VAT", "9.20", "GBP", PriceUnit::Grams(d("1000")), Tax::Included(d("0.2"))),
        ("9.20 GBP / 1 kg, including 5% VAT", "9.20", "GBP", PriceUnit::Grams(d("1000")), Tax::Included(d("0.05"))),
        ("9.20 GBP / 1 kg excl. VAT", "9.20", "GBP", PriceUnit::Grams(d("1000")), Tax::Excluded(None)),
        ("9.20 GBP / 1 kg excl 20 % VAT", "9.20", "GBP", PriceUnit::Grams(d("1000")), Tax::Excluded(Some(d("0.2")))),
        ("14 GBP / h", "14", "GBP", PriceUnit::Hours(d("1")), Tax::Unstated),
        ("0.28 GBP / kWh", "0.28", "GBP", PriceUnit::KilowattHours(d("1")), Tax::Unstated),
        ("19.56 GBP / L pure alcohol", "19.56", "GBP", PriceUnit::PureAlcohol(d("1")), Tax::Unstated),
    ] {
        let read = Price::parse(text).unwrap_or_else(|e| panic!("{text}: {e:?}"));
        assert_eq!((read.amount, read.currency.code(), read.per, read.tax), (d(amount), currency, per, tax), "{text}");
    }
}

#[test]
fn what_is_no_price_is_said_with_its_remedy() {
    for (text, code, title, help) in [
        ("34.50 GBP", Code::NoUnit, "`34.50 GBP` does not say for how much", "write what it is the price of"),
        ("34.50 / 700 ml", Code::NoUnit, "`34.50` does not say in which currency", "write the code behind"),
        ("34.50 GPB / 700 ml", Code::UnknownCurrency, "`GPB` is not the code of a currency", "did you mean `GBP`?"),
        ("£34.50 / 700 ml", Code::UnknownCurrency, "`£` is not the code of a currency", "did you mean `GBP`?"),
        ("$5 / 1 kg", Code::UnknownCurrency, "`$` is not the code of a currency", "three letters of ISO 4217"),
        ("0 GBP / 1 kg", Code::OutOfRange, "a price of nothing", "price = \"free\""),
        ("-3 GBP / 1 kg", Code::OutOfRange, "`-3 GBP` is below nothing", "a price is what is paid"),
        ("1,234 GBP / 1 kg", Code::NotANumber, "`1,234` is not an amount of money", "without marks"),
        ("1.2.3 GBP / 1 kg", Code::NotANumber, "`1.2.3` is not an amount of money", "without marks"),
        ("GBP / 1 kg", Code::NotANumber, "`GBP` is not an amount of money", "without marks"),
        ("3 GBP / 700", Code::NoUnit, "the price is for `700` of what?", "a price is for"),
        ("3 GBP / 0 ml", Code::OutOfRange, "the price is for nothing", "a price is for"),
        (
            "3 GBP / 18 % vol",
            Code::WrongDimension,
            "`18 % vol` is a strength; a weight, a volume or pieces were expected",
            "a price is for",
        ),
        ("3 GBP / 5 oz", Code::AmbiguousUnit, "", ""),
        ("3 GBP / 1 kg incl. VAT", Code::MissingKey, "tax is in the price, and how much is not said", "incl. 20 % VAT"),
        ("3 GBP / 1 kg incl. 120 % VAT", Code::OutOfRange, "a tax of 120 % is outside 0 to 100 %", "incl. 20 % VAT"),
        ("99999999999 GBP / 1 kg", Code::OutOfRange, "`99999999999 GBP` is more than anything costs", ""),
    ] {
        let error = Price::parse(text).expect_err(text);
        assert_eq!(error.code, code, "{text}: {error:?}");
        assert!(title.is_empty() || error.title == title, "{text}: {}", error.title);
        assert!(error.help.unwrap_or_default().contains(help), "{text}");
        assert!(text.get(error.at.clone()).is_some(), "{text}: {:?}", error.at);
    }
}

// ---- batches by hand

const SYRUP: &str = "name = \"Plain\"\nlabour = \"20 min\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n";

#[test]
fn a_yield_test_prices_the_usable_kilogram() {
    // Story 11: 5.2 kg bought, 4.6 kg usable, 11.95 a kilogram: 11.95 x 5.2 / 4.6 = 13.5087 a usable kilogram;
    // with the percentage as printed 11.95 / 0.885 = 13.5028.
    for (usable, cost) in [("bought = \"5.2 kg\"\nusable = \"4.6 kg\"", "13.51"), ("usable = \"88.5 %\"", "13.50")] {
        let bar = bar(
            GBP,
            &format!("[ingredient.raspberries]\nlike = \"raspberries\"\nprice = \"11.95 GBP / 1 kg\"\n{usable}\n"),
        );
        let share = bar.house.larder.find("raspberries").unwrap().usable.unwrap();
        assert!((share - 0.885).abs() < 0.0005);
        let costing = bar.costing("name = \"Crush\"\n[parts]\nraspberries = \"1 kg\"\n");
        assert_eq!(cost_in(&costing, "raspberries"), Some(d(cost)));
        // 0.1154 (or 0.115) of it went into the bin
        assert_eq!(round(costing.losses.trimmed, 2), d(if cost == "13.51" { "1.56" } else { "1.55" }));
    }
}

#[test]
fn a_syrup_by_hand() {
    let bar = bar(
        "[house]\ncurrency = \"GBP\"\n[costs]\nlabour = \"14.00 GBP / h\"\nprices = \"excl. 20 % VAT\"\nwater = \"2.40 GBP / 1000 L\"\n",
        "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1.26 GBP / 1 kg incl. 5 % VAT\"\n",
    );
    let costing = bar.costing(SYRUP);
    assert!(costing.complete);
    // 1.26 / 1.05 = 1.20; 1.00 L of water 0.0024 = 0.00; 20 min at 14 = 4.6667 = 4.67
    let lines: Vec<_> = costing.lines.iter().map(|l| (l.of.as_str(), l.kind, l.cost, l.tax)).collect();
    assert_eq!(
        lines,
        [
            ("white sugar", CostKind::Part, Some(d("1.20")), Some(d("0.06"))),
            ("water", CostKind::Part, Some(d("0.00")), Some(d("0.00"))),
            ("labour", CostKind::Labour, Some(d("4.67")), None),
        ]
    );
    assert_eq!((costing.batch, costing.tax), (d("5.87"), d("0.06")));
    // 2 kg of 50 °Bx at 1229.6 kg/m3 (20 °C, ICUMSA) are 1.6265 L: 5.87 / 1.6265 = 3.609
    assert_eq!(round(costing.per_litre.unwrap(), 2), d("3.61"));
    // the sugar of the larder is a little less than pure
    assert_eq!(round(costing.per_gram_of_sugar.unwrap(), 4), d("0.0059"));
    assert_eq!(round(costing.of_ml(15.0).unwrap(), 4), d("0.0541"));
    assert_eq!(costing.per_uk_unit, None);
    assert_eq!(costing.most.as_ref().unwrap().0, "labour");
}

#[test]
fn a_price_per_bottle_per_piece_and_nothing() {
    let bar = bar(
        GBP,
        "[ingredient.\"house rum\"]\nabv = 40\nprice = \"21.00 GBP / 700 ml\"\n\
         [ingredient.lime]\nlike = \"lime\"\nprice = \"3.60 GBP / pack of 12\"\npiece = \"80 g\"\nusable = \"80 %\"\n\
         [ingredient.\"lime zest\"]\nlike = \"lime zest\"\nprice = \"free\"\n",
    );
    let costing = bar.costing(
        "name = \"Mix\"\n[parts]\n\"house rum\" = \"350 ml\"\nlime = { amount = \"160 g\", strained = true, holds = 0.9 }\n\"lime zest\" = { amount = \"5 g\", strained = true }\n",
    );
    assert_eq!(cost_in(&costing, "house rum"), Some(d("10.50")));
    // 160 g usable are 200 g bought, 2.5 limes at 0.30
    assert_eq!(cost_in(&costing, "lime"), Some(d("0.75")));
    assert_eq!(cost_in(&costing, "lime zest"), Some(d("0")));
    assert_eq!(costing.batch, d("11.25"));
    assert!(costing.complete);
}

#[test]
fn losses_stand_inside_the_lines() {
    let bar = bar(GBP, "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"10 GBP / 1 kg\"\n");
    let costing = bar.costing(
        "name = \"Plain\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n[loss]\nleft_behind = \"4 %\"\n",
    );
    assert_eq!(costing.batch, d("10.00"));
    assert_eq!(round(costing.losses.left_behind, 2), d("0.40"));
    assert_eq!(costing.losses.strained, d("0"));
}

#[test]
fn heat_by_hand() {
    // 1 kg water + 1 kg sugar, 20 to 85 °C: (4.18 + 1.6) x 65 = 375.7 kJ; 3 % of the water up: 0.03 x 2257 = 67.7 kJ;
    // 443.4 kJ = 0.12317 kWh, at half efficiency 0.24634 kWh x 0.28 = 0.06898
    let house = "[house]\ncurrency = \"GBP\"\n[costs]\nenergy = \"0.28 GBP / kWh\"\n";
    let bar = bar(
        house,
        "[ingredient.sucrose]\nper_100g = { sucrose = 100.0 }\nform = \"solid\"\nprice = \"1 GBP / 1 kg\"\n",
    );
    let text = "name = \"Hot\"\nheated = \"85 °C for 5 min\"\n[parts]\nsucrose = \"1 kg\"\nwater = \"1 kg\"\n[loss]\nevaporated = \"3 %\"\n";
    let into_pan = heat::batch_heat(&solved(text, &bar.house));
    assert!((into_pan.kwh - 0.123169).abs() < 1e-5 && !into_pan.unstated, "{into_pan:?}");
    let costing = bar.costing(text);
    assert_eq!(costing.line(CostKind::Heat).unwrap().cost, Some(d("0.07")));
    assert!(costing.assumed.iter().any(|a| a == "50 % of the energy reaches the pan"), "{:?}", costing.assumed);
}

/// Of a card inside, so much of its heat as is used of it.
#[test]
fn heat_of_a_card_inside_by_hand() {
    let folder = crate::kitchen::Kitchen::new("[ingredient.sucrose]\nper_100g = { sucrose = 100 }\nform = \"solid\"\n");
    folder.write(
        "syrup.toml",
        "name = \"Hot syrup\"\nmakes = \"2 kg\"\nheated = \"85 °C for 5 min\"\n[parts]\nsucrose = \"1 kg\"\nwater = \"1 kg\"\n",
    );
    let made = folder.makes("name = \"Mix\"\n[parts]\n\"hot syrup\" = \"500 g\"\nwater = \"500 g\"\n");
    // a quarter of (4.18 + 1.6) x 65 = 375.7 kJ
    let into_pan = heat::batch_heat(made.solved());
    assert!((into_pan.kwh - 375.7 / 4.0 / 3600.0).abs() < 1e-6 && !into_pan.unstated, "{into_pan:?}");
}

#[test]
fn bottles_and_duty() {
    let bar = bar(
        "[house]\ncurrency = \"GBP\"\n[costs]\nbottle = \"0.60 GBP / each\"\nduty = \"19.56 GBP / L pure alcohol\"\n",
        "[ingredient.\"house rum\"]\nabv = 40\nprice = \"21.00 GBP / 700 ml\"\n",
    );
    let costing = bar.costing("name = \"Rum\"\nmakes = \"3 x 700 ml\"\n[parts]\n\"house rum\" = \"as needed\"\n");
    assert_eq!(costing.line(CostKind::Containers).unwrap().cost, Some(d("1.80")));
    // 2.1 L of 40 % are 0.84 L of pure alcohol: 16.43
    assert_eq!(costing.line(CostKind::Duty).unwrap().cost, Some(d("16.43")));
    assert_eq!(round(costing.per_bottle.unwrap(), 2), round(costing.batch / d("3"), 2));
    // 63.00 + 1.80 + 16.43 over 84 units
    assert_eq!(costing.batch, d("81.23"));
    assert_eq!(round(costing.per_uk_unit.unwrap(), 3), d("0.967"));
}

/// There is no tax on duty and none on wages: of a rate under [costs] none is taken out, whatever the prices of the house are.
#[test]
fn no_tax_is_taken_out_of_duty_and_wages() {
    let bar = bar(
        "[house]\ncurrency = \"GBP\"\n[costs]\nprices = \"incl. 20 % VAT\"\nlabour = \"12.00 GBP / h\"\n\
         duty = \"19.56 GBP / L pure alcohol\"\n",
        "[ingredient.\"house rum\"]\nabv = 40\nprice = \"21.00 GBP / 700 ml\"\n",
    );
    let costing =
        bar.costing("name = \"Rum\"\nmakes = \"2.1 L\"\nlabour = \"30 min\"\n[parts]\n\"house rum\" = \"as needed\"\n");
    // 3 bottles at 21.00, of which a sixth is tax; half an hour; 0.84 L of pure alcohol
    let of = |kind| costing.line(kind).unwrap().cost;
    assert_eq!(cost_in(&costing, "house rum"), Some(d("52.50")));
    assert_eq!((of(CostKind::Labour), of(CostKind::Duty)), (Some(d("6.00")), Some(d("16.43"))));
}

// ---- bad input

#[test]
fn what_is_missing_is_named_and_the_total_is_incomplete() {
    let bar = bar(
        "[house]\ncurrency = \"GBP\"\n",
        "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1 GBP / 1 kg\"\n",
    );
    let text = "name = \"Sour\"\nlabour = \"5 min\"\n[parts]\n\"white sugar\" = \"1 kg\"\n\"citric acid\" = \"20 g\"\nwater = \"1 kg\"\n";
    let (costing, found) = bar.cost(text);
    let costing = costing.unwrap();
    assert!(!costing.complete);
    assert_eq!(costing.batch, d("1.00"));
    assert_eq!((cost_in(&costing, "citric acid"), cost_in(&costing, "labour")), (None, None));
    assert_eq!(found.iter().map(|d| (d.code, d.severity)).collect::<Vec<_>>(), [(Code::NoPrice, Severity::Warning)]);
    assert_eq!(found[0].title, "the total is incomplete, without citric acid (no price in the larder)");
    assert!(costing.assumed.contains(&"water costs nothing: [costs] states no price of it".to_owned()));
}

#[test]
fn currencies_are_not_mixed() {
    let larder = "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1 EUR / 1 kg\"\n\
                  [ingredient.\"citric acid\"]\nlike = \"citric acid\"\nprice = \"9 GBP / 1 kg\"\n";
    let text = "name = \"Sour\"\n[parts]\n\"white sugar\" = \"1 kg\"\n\"citric acid\" = \"20 g\"\n";
    let bar_one = bar("", larder);
    assert!(bar_one.cost(text).0.is_none());
    assert_eq!(
        bar_one.findings(text),
        "error[mixed-currencies] larder.toml:6:9 citric acid is priced in GBP, and white sugar is priced in EUR\n  \
         6:9 \"9 GBP / 1 kg\"  <- GBP\n  3:9 \"1 EUR / 1 kg\"  <- EUR\n  \
         help: rates change by the day and are not guessed at: write both in EUR, at the rate that was paid\n"
    );
    let bar_two = bar(GBP, larder);
    assert!(bar_two.cost(text).0.is_none());
    assert!(
        bar_two.findings(text).contains("white sugar is priced in EUR, and the house counts in GBP"),
        "{}",
        bar_two.findings(text)
    );
}

#[test]
fn findings_point_at_the_price() {
    for (house, price, wanted) in [
        (
            GBP,
            "price = \"34.50 GPB / 1 kg\"",
            "error[unknown-currency] larder.toml:3:9 the price of `white sugar`: `GPB` is not the code of a currency\n  \
             3:9 \"34.50 GPB / 1 kg\"  <- a price such as \"34.50 GBP / 700 ml\" was expected\n  \
             help: did you mean `GBP`?\n  write: \"34.50 GBP / 1 kg\"\n",
        ),
        (
            GBP,
            "price = \"3 GBP / h\"",
            "error[wrong-dimension] larder.toml:3:9 `white sugar`: its price is not for a weight, a volume or pieces\n  \
             3:9 \"3 GBP / h\"  <- this price\n  help: write for example \"9.20 GBP / 1 kg\"\n",
        ),
        (
            GBP,
            "price = \"3 GBP / each\"",
            "error[piece-unknown] larder.toml:3:9 `white sugar`: priced by the piece, and what one weighs is not known\n  \
             3:9 \"3 GBP / each\"  <- this price\n  help: give it a `piece` (\"67 g\") in the larder, or a price by weight\n",
        ),
        (
            "[house]\ncurrency = \"GBQ\"\n",
            "price = \"3 GBP / 1 kg\"",
            "error[unknown-currency] the house's currency `GBQ` is not the code of a currency\n  help: did you mean `GBP`?\n",
        ),
        (
            "[house]\ncurrency = \"GBP\"\n[costs]\nprices = \"with VAT\"\n",
            "price = \"3 GBP / 1 kg\"",
            "error[unknown-word] house.toml:4:10 `with VAT` does not say whether tax is in a price\n  \
             4:10 \"with VAT\"  <- of the prices of this house\n  \
             help: write `incl. 20 % VAT`, `excl. 20 % VAT` or `excl. VAT`\n",
        ),
        (
            "[house]\ncurrency = \"GBP\"\n[costs]\nlabour = \"14 GBP / kg\"\n",
            "price = \"3 GBP / 1 kg\"",
            "error[wrong-dimension] house.toml:4:10 the price of labour is not for an hour of work\n  \
             4:10 \"14 GBP / kg\"  <- a price for an hour of work was expected\n  help: write for example \"14.00 GBP / h\"\n",
        ),
    ] {
        let bar = bar(house, &format!("[ingredient.\"white sugar\"]\nlike = \"white sugar\"\n{price}\n"));
        let said = bar.findings(SYRUP);
        assert!(said.contains(wanted), "{said}");
    }
}

#[test]
fn a_solid_by_volume_needs_its_bulk_density() {
    let by_volume = |more: &str| {
        let entry =
            "[ingredient.\"gum powder\"]\nper_100g = { other_carbohydrate = 90.0, water = 10.0 }\nform = \"solid\"\n";
        bar(GBP, &format!("{entry}price = \"6 GBP / 1 L\"\n{more}"))
    };
    let text = "name = \"Gum\"\n[parts]\n\"gum powder\" = \"60 g\"\nwater = \"1 kg\"\n";
    assert!(by_volume("").findings(text).starts_with(
        "error[density-unknown] larder.toml:4:9 `gum powder`: priced by volume, and what a litre of it weighs as it lies is not known"
    ));
    // 60 g at 0.6 g/ml are 100 ml
    assert_eq!(cost_in(&by_volume("bulk = \"600 g/L\"\n").costing(text), "gum powder"), Some(d("0.60")));
}

#[test]
fn impossible_yields_and_rates_are_refused() {
    let read = |larder: &str| {
        let mut found = Vec::new();
        house_file::read(larder, &Arc::from("larder.toml"), &mut found);
        found.iter().map(|d| d.plain(larder)).collect::<String>()
    };
    let entry = "[ingredient.lime]\nlike = \"lime\"\n";
    for (keys, wanted) in [
        ("usable = \"130 %\"\n", "error[out-of-range] larder.toml:3:10 `130 %` is more than the whole"),
        ("usable = \"0 %\"\n", "error[out-of-range] larder.toml:3:10 nothing is usable of what was bought"),
        (
            "bought = \"2 kg\"\nusable = \"3 kg\"\n",
            "error[out-of-range] larder.toml:4:10 more is usable than was bought",
        ),
        (
            "bought = \"0 kg\"\nusable = \"3 kg\"\n",
            "error[out-of-range] larder.toml:4:10 more is usable than was bought",
        ),
        ("bought = \"2 kg\"\n", "error[missing-key] larder.toml:3:10 `bought` stands without `usable`"),
        (
            "bought = \"2 kg\"\nusable = \"80 %\"\n",
            "error[wrong-dimension] larder.toml:4:10 `80 %` is a percentage; a mass was expected",
        ),
    ] {
        let said = read(&format!("{entry}{keys}"));
        assert!(said.starts_with(wanted), "{said}");
    }
    let house = |costs: &str| {
        let (text, mut found) = (format!("[costs]\n{costs}\n"), Vec::new());
        settings::read(&text, &Arc::from("house.toml"), &mut found);
        found.iter().map(|d| d.plain(&text)).collect::<String>()
    };
    for (costs, wanted) in [
        ("gross_profit = \"100 %\"", "error[out-of-range] house.toml:2:16 `gross_profit` is 100 %"),
        ("pour_cost = \"0 %\"", "error[out-of-range] house.toml:2:13 `pour_cost` is 0 %"),
        ("sales_tax = \"120 %\"", "error[out-of-range] house.toml:2:14 `120 %` is more than the whole"),
        ("heat_efficiency = \"0 %\"", "error[out-of-range] house.toml:2:19 `heat_efficiency` is 0 %"),
        ("stale_after = \"0 days\"", "error[out-of-range] house.toml:2:15 `stale_after` is 0 days"),
        (
            "labor = \"14 GBP / h\"",
            "error[unknown-key] house.toml:2:1 [costs] has no key `labor`\n  2:1 labor  <- not known here\n  help: did you mean `labour`?",
        ),
        (
            "gross_profit = \"80 %\"\npour_cost = \"25 %\"",
            "error[contradiction] house.toml:2:16 `gross_profit` and `pour_cost` do not add up to 100 %",
        ),
    ] {
        let said = house(costs);
        assert!(said.starts_with(wanted), "{said}");
    }
}

#[test]
fn old_prices_are_pointed_out() {
    let larder =
        "[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1 GBP / 1 kg\"\npriced_on = 2026-08-01\n";
    let on = |house: &str, day: &str| {
        let bar = bar(house, larder);
        let asked = CostAsked { today: day.parse::<NaiveDate>().ok(), ..CostAsked::default() };
        let (_, found) = cost_of(
            &solved("name = \"P\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n", &bar.house),
            &bar.house,
            &asked,
        );
        found.iter().map(|d| d.title.clone()).collect::<Vec<_>>()
    };
    assert!(on(GBP, "2026-10-30").is_empty()); // 90 days
    assert_eq!(on(GBP, "2026-10-31"), ["the price of white sugar is 91 days old, of 2026-08-01"]);
    assert!(on("[house]\ncurrency = \"GBP\"\n[costs]\nstale_after = \"120 days\"\n", "2026-10-31").is_empty());
    assert!(on(GBP, "2026-07-01").is_empty());
}

#[test]
fn without_any_price_there_is_no_total() {
    let bar = bar("", "");
    let (costing, found) = bar.cost("name = \"S\"\n[parts]\nsalt = \"20 g\"\nwater = \"80 g\"\n");
    assert!(costing.is_none());
    assert_eq!(found.last().map(|d| (d.code, d.severity)), Some((Code::NoPrice, Severity::Error)));
}

#[test]
fn a_pot_is_filled_with_room_to_stir() {
    let (card, house) = demo("lime-cordial.toml");
    let size = BatchSize::Pot(millilitres(5000.0));
    let solved = solve(&card, &house, &Options { size: Some(size), ..Options::default() }).solved.unwrap();
    assert!((solved.fullest_l() - 5.0 / 1.25).abs() < 1e-9, "{}", solved.fullest_l());
}

// ---- make or buy

/// 1 kg of a liquid of density 1 for 10.00, or nearly: water that costs money, 1 L for 10.00.
fn ten_a_litre(labour: &str) -> Costing {
    let bar = bar(&format!("[house]\ncurrency = \"GBP\"\n[costs]\nwater = \"10 GBP / 1 L\"\n{labour}"), "");
    bar.costing("name = \"W\"\nmakes = \"1 L\"\nlabour = \"15 min\"\n[parts]\nwater = \"as needed\"\n")
}

fn bought(price: &str, abv_pct: Option<f64>) -> BoughtBottle {
    BoughtBottle { price: Price::parse(price).unwrap(), abv_pct }
}

#[test]
fn both_answers_by_hand() {
    // 1 L: water 10.00 + 15 min at 8.00 = 2.00: 12.00; bought 500 ml for 8.00, two make 16.00
    let costing = ten_a_litre("labour = \"8 GBP / h\"\n");
    assert_eq!(costing.batch, d("12.00"));
    let x =
        compare(&costing, &bought("8 GBP / 500 ml", None), Habits { weekly: Some(0.5), life_days: Some(21) }).unwrap();
    let two = |x: Decimal| round(x, 2);
    assert_eq!((two(x.bottle.ours), x.bottle.theirs, two(x.bottle.saving())), (d("6.00"), d("8"), d("2.00")));
    assert_eq!((x.measure.0, round(x.measure.1.ours, 3), x.measure.1.theirs), (30.0, d("0.36"), d("0.48")));
    assert_eq!(x.uk_unit, None);
    // half a bottle a week for three weeks: 750 ml of 1 L are used, a quarter is thrown away; 12.00 / 1.5 = 8.00
    let waste = x.waste.unwrap();
    assert!((waste.share - 0.25).abs() < 1e-6);
    assert_eq!((two(waste.bottle.ours), two(waste.per_week)), (d("8.00"), d("0.00")));
    // 12.00 / 8.00 = 1.5 bottles in three weeks
    let BreakEven::PerWeek(per_week) = x.break_even else { panic!("{:?}", x.break_even) };
    assert!((per_week - 0.5).abs() < 1e-6, "{per_week}");
    // dearer: cannot pay at any use
    let dear = compare(&costing, &bought("5 GBP / 500 ml", None), Habits::default()).unwrap();
    assert_eq!(dear.break_even, BreakEven::Never);
    assert_eq!(two(dear.bottle.saving()), d("-1.00"));
    // -2.00 a batch: labour would have to cost nothing at all, the water 8.00 instead of 10.00: the water turns it
    let flip = dear.flip.unwrap();
    assert_eq!((flip.what, two(flip.now), two(flip.at)), (Assumption::Part("water".to_owned()), d("10.00"), d("8.00")));
    let no_life = compare(&costing, &bought("8 GBP / 500 ml", None), Habits::default()).unwrap();
    assert_eq!(no_life.break_even, BreakEven::NoLife);
    // 4.00 to spare: labour thrice, water 1.4 times, or a quarter thrown away (1.33 times): waste turns it
    let flip = no_life.flip.unwrap();
    assert_eq!((flip.what, two(flip.now), two(flip.at)), (Assumption::Waste, d("0.00"), d("0.25")));
}

#[test]
fn tax_comes_out_before_the_comparison() {
    let costing = ten_a_litre("labour = \"8 GBP / h\"\n");
    let x = compare(&costing, &bought("9.60 GBP / 500 ml incl. 20 % VAT", Some(20.0)), Habits::default()).unwrap();
    assert_eq!(x.bottle.theirs, d("8"));
    assert_eq!(x.uk_unit, None, "ours has no alcohol");
}

#[test]
fn units_of_alcohol_compare_strengths() {
    let bar = bar(GBP, "[ingredient.rum]\nabv = 40\nprice = \"28 GBP / 700 ml\"\n");
    let costing = bar.costing("name = \"R\"\n[parts]\nrum = \"700 ml\"\nwater = \"700 g\"\n");
    let x = compare(&costing, &bought("21 GBP / 700 ml", Some(20.0)), Habits::default()).unwrap();
    let unit = x.uk_unit.unwrap();
    // 28 units for 28.00; 14 units for 21.00
    assert_eq!((round(unit.ours, 3), unit.theirs), (d("1.000"), d("1.5")));
}

#[test]
fn what_cannot_be_compared_is_refused() {
    let costing = ten_a_litre("labour = \"8 GBP / h\"\n");
    let refused = |price| compare(&costing, &bought(price, None), Habits::default()).unwrap_err();
    assert_eq!(refused("8 EUR / 500 ml").title, "the bought bottle is priced in EUR, ours in GBP");
    assert_eq!(refused("8 GBP / 1 kg").code, Code::WrongDimension);
}

#[test]
fn both_conventions_of_a_selling_price() {
    let s = Selling::for_gross_profit(d("1.38"), d("0.80"), Some(d("0.20"))).unwrap();
    assert_eq!((s.net, s.with_tax, s.pour_cost, s.markup), (d("6.90"), Some(d("8.28")), d("0.20"), Some(d("4"))));
    assert_eq!(Selling::for_gross_profit(d("1"), d("1"), None), None);
    // 8.50 with 20 % tax in it is 7.08; a cost of 1.38 leaves 80.5 %; with the tax forgotten it would read 83.8 %
    let s = Selling::at_price(d("1.38"), d("8.50"), Some(d("0.20"))).unwrap();
    assert_eq!((round(s.net, 2), round(s.gross_profit, 3), round(s.pour_cost, 3)), (d("7.08"), d("0.805"), d("0.195")));
    assert_eq!(s.with_tax, Some(d("8.50")));
    assert_eq!(Selling::at_price(d("1.38"), d("8.50"), None).unwrap().gross_profit.round_dp(3), d("0.838"));
}

// ---- the demo house

fn demo(name: &str) -> (Card, House) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas").join(name);
    let (house, _) = House::find(&path);
    let source = stillroom::house::read(&path).unwrap();
    (card::read(source.file, source.text).0.unwrap(), house)
}

#[test]
fn cards_inside_bring_their_own_parts_labour_and_heat() {
    let (outer, house) = demo("spiced-orange-liqueur.toml");
    let solved = solve(&outer, &house, &Options::default()).solved.unwrap();
    let InnerCard { card: inner, grams } = &solved.inner[0];
    let share = grams / inner.bottled().total_grams();
    let (costing, found) = cost_of(&solved, &house, &CostAsked::default());
    assert!(!any_error(&found), "{found:?}");
    let costing = costing.unwrap();
    assert!(costing.complete, "{:?}", costing.lines);
    let muscovado = inner.ingredients().iter().find(|(i, _)| i.id == "dark muscovado sugar").unwrap().1 * share;
    let expected = quantity(muscovado).unwrap() * d("3.60") / d("1000");
    assert_eq!(cost_in(&costing, "dark muscovado sugar"), Some(round(expected, 2)));
    // 50 min of its own and that share of 20 min
    let minutes = 50.0 + 20.0 * share;
    assert_eq!(cost_in(&costing, "labour"), Some(round(quantity(minutes).unwrap() * d("14") / d("60"), 2)));
    assert!(cost_in(&costing, "heat").is_some());
    assert_eq!(costing.batch, costing.lines.iter().filter_map(|l| l.cost).sum());
}

#[test]
fn every_demo_card_that_solves_has_a_complete_cost() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let mut costed = 0;
    for path in stillroom::house::card_paths(&folder) {
        let (card, house) = demo(&path.file_name().unwrap().to_string_lossy());
        let outcome = solve(&card, &house, &Options::default());
        let Some(solved) = outcome.solved.filter(|_| !any_error(&outcome.diagnostics)) else { continue };
        let asked = CostAsked { makes: card.makes.map(|m| m.value), ..CostAsked::default() };
        let (costing, found) = cost_of(&solved, &house, &asked);
        assert!(found.is_empty(), "{}: {found:?}", path.display());
        assert!(costing.unwrap().complete, "{}", path.display());
        costed += 1;
    }
    assert!(costed >= 19, "{costed}");
}

#[test]
fn the_command_gives_the_pinned_keys_and_lines_that_add_up() {
    let asked = ["cost", "formulas/coffee-liqueur.toml", "--json", "--today", "2026-11-25"];
    let against = ["--against", "24 GBP / 700 ml", "--against-abv", "20", "--weekly", "3", "--life", "30"];
    let (code, page, said) = run_in(Path::new("."), &[&asked[..], &against].concat());
    assert_eq!(code, Some(0), "{said}");
    let json: serde_json::Value = serde_json::from_str(&page).unwrap();
    assert_eq!(json["currency"], "GBP");
    let money = |value: &serde_json::Value| d(value.as_str().unwrap());
    let sum: Decimal = json["lines"].as_array().unwrap().iter().map(|line| money(&line["cost"])).sum();
    assert_eq!(sum, money(&json["batch"]));
    assert!(json["lines"].as_array().unwrap().iter().all(|line| line["of"].is_string()));
    let measures = json["measures"].as_array().unwrap();
    assert_eq!(measures[0]["ml"], 15.0);
    // 4.2 L: the batch over 280 measures of 15 ml
    assert_eq!(money(&measures[0]["cost"]), round(sum / d("280"), 2));
    assert_eq!(money(&json["per_litre"]), round(sum / d("4.2"), 2));
    assert!(json["against"]["break_even_bottles_per_week"].as_f64().unwrap() > 0.0);
}

// ---- what is always true

const NAMES: [&str; 6] = ["white sugar", "demerara sugar", "citric acid", "salt", "malic acid", "gum arabic"];

/// A house with these prices (in pence a kilogram), and a card with these grams.
fn case(grams: &[f64], pence: &[u32], order: &[usize]) -> (House, Solved) {
    let larder: String = NAMES
        .iter()
        .zip(pence)
        .map(|(name, p)| {
            format!("[ingredient.\"{name}\"]\nlike = \"{name}\"\nprice = \"{}.{:02} GBP / 1 kg\"\n", p / 100, p % 100)
        })
        .collect();
    let house = bar(GBP, &larder).house;
    let parts: String = order.iter().map(|&i| format!("\"{}\" = \"{:.4} g\"\n", NAMES[i], grams[i])).collect();
    let solved = solved(&format!("name = \"Any\"\n[parts]\nwater = \"2000 g\"\n{parts}"), &house);
    (house, solved)
}

fn batch(house: &House, solved: &Solved) -> Costing {
    cost_of(solved, house, &CostAsked::default()).0.unwrap()
}

fn amounts() -> impl Strategy<Value = (Vec<f64>, Vec<u32>)> {
    (prop::collection::vec(0.5..900.0_f64, 6), prop::collection::vec(1..20_000_u32, 6))
}

const IN_ORDER: [usize; 6] = [0, 1, 2, 3, 4, 5];

#[test]
fn a_total_is_the_sum_of_its_lines() {
    runner(500)
        .run(&amounts(), |(grams, pence)| {
            let (house, solved) = case(&grams, &pence, &IN_ORDER);
            let costing = batch(&house, &solved);
            let lines: Decimal = costing.lines.iter().filter_map(|l| l.cost).sum();
            prop_assert_eq!(lines, costing.batch);
            prop_assert!(costing.lines.iter().all(|l| l.cost.unwrap().scale() <= 2));
            for (name, (g, p)) in NAMES.iter().zip(grams.iter().zip(&pence)) {
                let exact = g / 1000.0 * f64::from(*p);
                let ours = cost_in(&costing, name).unwrap() * Decimal::ONE_HUNDRED;
                prop_assert!(
                    (ours.to_string().parse::<f64>().unwrap() - exact).abs() <= 0.51,
                    "{} {} {}",
                    name,
                    ours,
                    exact
                );
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn cost_scales_with_the_batch() {
    runner(500)
        .run(&(amounts(), 2..40_u32), |((grams, pence), times)| {
            let (house, solved) = case(&grams, &pence, &IN_ORDER);
            let one = batch(&house, &solved);
            let many = batch(&house, &solved.scaled(f64::from(times)));
            // each line is off by half a coin at most, in both batches
            let allowed = d("0.005") * Decimal::from(one.lines.len()) * Decimal::from(times + 1);
            let off = (one.batch * Decimal::from(times) - many.batch).abs();
            prop_assert!(off <= allowed, "{} {} {}", one.batch, many.batch, times);
            Ok(())
        })
        .unwrap();
}

#[test]
fn a_dearer_part_never_makes_a_cheaper_batch() {
    runner(500)
        .run(&(amounts(), 0..6_usize, 1..5000_u32), |((grams, pence), which, more)| {
            let (house, solved) = case(&grams, &pence, &IN_ORDER);
            let mut dearer = pence.clone();
            dearer[which] += more;
            let (other, again) = case(&grams, &dearer, &IN_ORDER);
            prop_assert!(batch(&other, &again).batch >= batch(&house, &solved).batch);
            Ok(())
        })
        .unwrap();
}

#[test]
fn the_order_of_parts_does_not_matter() {
    let orders = Just(IN_ORDER.to_vec()).prop_shuffle();
    runner(500)
        .run(&(amounts(), orders), |((grams, pence), order)| {
            let (house, solved) = case(&grams, &pence, &IN_ORDER);
            let (other, shuffled) = case(&grams, &pence, &order);
            prop_assert_eq!(batch(&house, &solved).batch, batch(&other, &shuffled).batch);
            Ok(())
        })
        .unwrap();
}

#[test]
fn no_text_makes_the_reader_of_prices_panic() {
    let like = "[0-9a-zA-Z.,/%£€ x\\-−ß½]{0,24}";
    runner(500)
        .run(&(like, "\\PC{0,16}"), |(like, any)| {
            for text in
                [&like, &any, &format!("{any}/{like}"), &format!("3 GBP / {any}"), &format!("3 {any} / 1 kg incl{any}")]
            {
                if let Err(error) = Price::parse(text) {
                    prop_assert!(
                        text.get(error.at.clone()).is_some() || error.at.end > text.len(),
                        "{:?} {:?}",
                        text,
                        error
                    );
                }
                let _ = Tax::parse(text);
                let _ = Currency::suggest(text);
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn the_command_compares_like_with_like() {
    // the demo house's prices are without 20 % VAT: a shelf price with it is taken out of tax, one without words is not
    let against = |price: &str| {
        let asked = ["cost", "formulas/coffee-liqueur.toml", "--json", "--against", price];
        let json: serde_json::Value = serde_json::from_str(&run_in(Path::new("."), &asked).1).unwrap();
        json["against"]["bottle"]["bought"].as_str().map(str::to_owned)
    };
    assert_eq!(against("24 GBP / 700 ml").as_deref(), Some("24.00"));
    assert_eq!(against("24 GBP / 700 ml incl. 20 % VAT").as_deref(), Some("20.00"));
    assert_eq!(against("24 GBP / 1 kg"), None);
}

// ---- money

#[test]
fn halves_go_up_and_coins_are_those_of_the_currency() {
    let gbp = Currency::find("gbp").unwrap();
    assert_eq!(gbp.text(d("0.125")), "0.13");
    assert_eq!(gbp.text(d("0.135")), "0.14");
    assert_eq!(gbp.text(d("-0.125")), "-0.13");
    assert_eq!(gbp.text(d("-0.001")), "0.00");
    assert_eq!(gbp.text(d("3")), "3.00");
    assert_eq!(Currency::find("JPY").unwrap().text(d("1250.5")), "1251");
    assert_eq!(Currency::find("KWD").unwrap().text(d("1.2345")), "1.235");
    for (amount, text) in [
        ("0.00091234", "0.000912"),
        ("0.00345", "0.00345"),
        ("0.09", "0.09"),
        ("-0.02519", "-0.0252"),
        ("0.0999999", "0.10"),
        ("0.125", "0.13"),
        ("0", "0.00"),
    ] {
        assert_eq!(gbp.fine_text(d(amount)), text);
    }
}

#[test]
fn the_code_that_was_meant_is_near() {
    assert_eq!(Currency::suggest("GPB"), Some("GBP"));
    assert_eq!(Currency::suggest("EURO"), Some("EUR"));
    assert_eq!(Currency::suggest("£"), Some("GBP"));
    assert_eq!(Currency::suggest("quid"), None);
    // gold and a unit of account are no money that is paid in coins
    assert!(Currency::find("XAU").is_none() && Currency::find("CLF").is_none());
}

#[test]
fn a_float_is_cleaned_of_its_noise() {
    assert_eq!(quantity(0.1 + 0.2).unwrap().normalize().to_string(), "0.3");
    assert_eq!(quantity(f64::NAN), None);
    assert_eq!(quantity(f64::INFINITY), None);
    assert_eq!(quantity(1e15), None);
}

/// NIST Handbook 44 (2024), appendix C: the US quart is 946.352 946 ml, the pound 453.592 37 g.
#[test]
fn a_house_that_says_which_measures_may_price_by_them() {
    let us =
        stillroom::units::Customs { measures: Some(stillroom::vocabulary::MeasureSystem::Us), ..Default::default() };
    for (text, expected) in [("4.00 USD / qt", 946.352946), ("2.20 USD / pint", 473.176473)] {
        let PriceUnit::Millilitres(ml) = Price::parse_by(text, &us).unwrap().per else { panic!("{text}") };
        assert!((ml.to_string().parse::<f64>().unwrap() - expected).abs() < 1e-5, "{text}: {ml}");
        assert!(Price::parse(text).is_err(), "{text}");
    }
}
