//! A price as people write it: `34.50 GBP / 700 ml`, `12.00 GBP / pack of 24`, `9.20 GBP / 1 kg incl. 20 % VAT`.

use std::ops::Range;

use rust_decimal::Decimal;
use uom::si::time::hour;

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::spelling::meant_or;
use crate::units::{Customs, Literal, LiteralError, in_grams, in_millilitres, literal};

use super::currency::{Currency, quantity};

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PriceUnit {
    /// Grams.
    Grams(Decimal),
    /// Millilitres.
    Millilitres(Decimal),
    /// Pieces.
    Pieces(Decimal),
    /// Hours of work.
    Hours(Decimal),
    /// Kilowatt-hours.
    KilowattHours(Decimal),
    /// Litres of pure alcohol.
    PureAlcohol(Decimal),
}

impl PriceUnit {
    pub(crate) fn count(self) -> Decimal {
        let (Self::Grams(n)
        | Self::Millilitres(n)
        | Self::Pieces(n)
        | Self::Hours(n)
        | Self::KilowattHours(n)
        | Self::PureAlcohol(n)) = self;
        n
    }
}

/// A price.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Price {
    /// How much money.
    pub amount: Decimal,
    /// In which currency.
    pub currency: Currency,
    /// For what.
    pub per: PriceUnit,
    /// Whether tax is in it.
    pub tax: Tax,
}

/// More money than any ingredient costs.
const MOST: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);

impl Price {
    /// Reads a price.
    pub fn parse(text: &str) -> Result<Self, LiteralError> {
        Self::parse_by(text, &Customs::default())
    }

    /// The same in a house that settles which ounces and quarts it means.
    pub fn parse_by(text: &str, customs: &Customs) -> Result<Self, LiteralError> {
        let (head, rest, from) = match text.find('/') {
            Some(at) => (&text[..at], &text[at + 1..], at + 1),
            None => return Err(no_quantity(text)),
        };
        let (amount, currency) = money(text, head)?;
        let tax_from = tax_words(rest).unwrap_or(rest.len());
        let tax = if tax_from < rest.len() {
            Tax::parse(&rest[tax_from..]).map_err(|e| shifted(e, from + tax_from))?
        } else {
            Tax::Unstated
        };
        let per = per(rest[..tax_from].trim().trim_end_matches(','), customs)
            .map_err(|e| LiteralError { at: from..from + tax_from, ..e })?;
        Ok(Self { amount, currency, per, tax })
    }

    /// The amount without tax, and the tax for each unit of money before tax where it is known.
    pub(crate) fn net(&self) -> Option<(Decimal, Option<Decimal>)> {
        match self.tax {
            Tax::Unstated => Some((self.amount, None)),
            Tax::Excluded(rate) => Some((self.amount, rate)),
            Tax::Included(rate) => Some((self.amount.checked_div(Decimal::ONE.checked_add(rate)?)?, Some(rate))),
        }
    }

    /// The same price, its tax as the house says where the price says nothing.
    #[must_use]
    pub(crate) fn or_tax(self, of_house: Tax) -> Self {
        match self.tax {
            Tax::Unstated => Self { tax: of_house, ..self },
            _ => self,
        }
    }
}

fn tax_words(text: &str) -> Option<usize> {
    let lower = text.to_ascii_lowercase();
    ["incl", "excl"].iter().filter_map(|word| lower.find(word)).min()
}

/// An amount of money that is paid.
fn money(text: &str, head: &str) -> Result<(Decimal, Currency), LiteralError> {
    let (amount, currency) = money_or_nothing(text, head)?;
    if amount.is_zero() {
        let start = head.len() - head.trim_start().len();
        let nothing =
            LiteralError::new(Code::OutOfRange, "a price of nothing".to_owned(), start..head.trim_end().len());
        return Err(nothing.help("if nothing is paid for it, write price = \"free\""));
    }
    Ok((amount, currency))
}

fn money_or_nothing(text: &str, head: &str) -> Result<(Decimal, Currency), LiteralError> {
    let start = head.len() - head.trim_start().len();
    let head = head.trim();
    let whole = start..start + head.len();
    let wrong = |code, title: String| LiteralError::new(code, title, whole.clone());
    let is_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '−' | '+');
    // the code stands behind the number or before it
    let (number, code) = match head.find(|c: char| !is_number(c)) {
        None => (head, ""),
        Some(0) => {
            let at = head.find(is_number).unwrap_or(head.len());
            (head[at..].trim(), head[..at].trim())
        }
        Some(at) => (head[..at].trim(), head[at..].trim()),
    };
    if code.is_empty() {
        return Err(wrong(Code::NoUnit, format!("`{head}` does not say in which currency"))
            .help("write the code behind the number: \"34.50 GBP / 700 ml\""));
    }
    if number.starts_with(['-', '−']) {
        let below = wrong(Code::OutOfRange, format!("`{head}` is below nothing"));
        return Err(below.help("a price is what is paid for it"));
    }
    let Some(amount) = decimal(number) else {
        return Err(wrong(
            Code::NotANumber,
            format!("`{}` is not an amount of money", if number.is_empty() { head } else { number }),
        )
        .help("write digits and one point, without marks between thousands: \"1234.50 GBP\""));
    };
    let Some(currency) = Currency::find(code) else {
        let near = Currency::suggest(code);
        let help = meant_or(near, "write the three letters of ISO 4217: GBP, EUR, USD, AUD, NZD, CAD, JPY…");
        let fix = near.map(|near| format!("{number} {near}{}", &text[whole.end..]));
        let unknown = wrong(Code::UnknownCurrency, format!("`{code}` is not the code of a currency"));
        return Err(LiteralError { fix, ..unknown.help(help) });
    };
    if amount > MOST {
        let more = wrong(Code::OutOfRange, format!("`{head}` is more than anything costs"));
        return Err(more.help(format!("at most {MOST} was expected")));
    }
    Ok((amount, currency))
}

fn per(written: &str, customs: &Customs) -> Result<PriceUnit, LiteralError> {
    let wrong = |code, title: String| {
        LiteralError::new(code, title, 0..written.len())
            .help("a price is for \"700 ml\", \"1 kg\", \"each\", \"pack of 24\" or \"6 x 700 ml\"")
    };
    let lower = written.to_ascii_lowercase();
    let number_end = lower.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(lower.len());
    let (count, unit) = (lower[..number_end].trim(), lower[number_end..].trim());
    let count = if count.is_empty() { Some(Decimal::ONE) } else { decimal(count) };
    let per = match (count, unit) {
        (Some(n), "kwh") => PriceUnit::KilowattHours(n),
        (Some(n), "lpa" | "l pure alcohol" | "l of pure alcohol" | "litre of pure alcohol") => {
            PriceUnit::PureAlcohol(n)
        }
        _ => {
            let packed = ["pack of ", "case of ", "box of ", "bag of ", "tray of "]
                .iter()
                .find(|word| lower.starts_with(**word))
                .map(|word| written[word.len()..].trim());
            let inside = packed.unwrap_or(written);
            let begins = inside.starts_with(|c: char| c.is_numeric() || c == '-' || c == '−' || c == '.');
            let inside = if begins { inside.to_owned() } else { format!("1 {inside}") };
            let literal = literal::read_by(&inside, customs)?.literal;
            let of = |x: f64| quantity(x).ok_or_else(|| wrong(Code::OutOfRange, format!("`{written}` is no quantity")));
            match literal {
                Literal::Mass(mass) => PriceUnit::Grams(of(in_grams(mass))?),
                Literal::Volume(volume) => PriceUnit::Millilitres(of(in_millilitres(volume))?),
                Literal::Bottles(count, each) => PriceUnit::Millilitres(of(count * in_millilitres(each))?),
                Literal::Pieces(n) => PriceUnit::Pieces(of(n)?),
                Literal::Number(n) if packed.is_some() => PriceUnit::Pieces(of(n)?),
                Literal::Number(_) => {
                    return Err(wrong(Code::NoUnit, format!("the price is for `{written}` of what?")));
                }
                Literal::Time(time) => PriceUnit::Hours(of(time.get::<hour>())?),
                other => {
                    let title = format!("`{written}` is {}; a weight, a volume or pieces were expected", other.kind());
                    return Err(wrong(Code::WrongDimension, title));
                }
            }
        }
    };
    if per.count().is_zero() {
        return Err(wrong(Code::OutOfRange, "the price is for nothing".to_owned()));
    }
    Ok(per)
}

fn no_quantity(text: &str) -> LiteralError {
    LiteralError::new(Code::NoUnit, format!("`{}` does not say for how much", text.trim()), 0..text.len())
        .help("write what it is the price of: \"34.50 GBP / 700 ml\", \"9.20 GBP / 1 kg\", \"0.45 GBP / each\"")
}

fn shifted(error: LiteralError, by: usize) -> LiteralError {
    LiteralError { at: Range { start: error.at.start + by, end: error.at.end + by }, ..error }
}

/// Reads an amount of money alone: `8.50 GBP`.
pub(crate) fn amount(text: &str) -> Result<(Decimal, Currency), LiteralError> {
    money(text, text)
}

/// The same of what may be given away: `0 GBP`.
pub(crate) fn amount_or_nothing(text: &str) -> Result<(Decimal, Currency), LiteralError> {
    money_or_nothing(text, text)
}

/// What is wrong with a price, said at the place where it stands.
pub(crate) fn unreadable(error: LiteralError, of: &str, span: Option<Span>) -> Diagnostic {
    let title = format!("the price of {of}: {}", error.title);
    let mut diagnostic = Diagnostic::error(error.code, title);
    if let Some(span) = span {
        diagnostic = diagnostic.at(span, "a price such as \"34.50 GBP / 700 ml\" was expected");
        diagnostic.fix = error.fix.map(|fix| (span, format!("\"{fix}\"")));
    }
    diagnostic.help = error.help;
    diagnostic
}

/// Whether tax is in a price; rates as fractions.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Tax {
    /// Nobody says.
    #[default]
    Unstated,
    /// In it, at this rate.
    Included(Decimal),
    /// Not in it; the rate if it is known.
    Excluded(Option<Decimal>),
}

impl Tax {
    /// Reads `incl. 20 % VAT`, `excl. VAT`.
    pub fn parse(text: &str) -> Result<Self, LiteralError> {
        let written = text.trim().to_ascii_lowercase();
        let help = "write `incl. 20 % VAT`, `excl. 20 % VAT` or `excl. VAT`";
        let wrong = |code, title: String| LiteralError::new(code, title, 0..text.len()).help(help);
        let included = written.starts_with("incl");
        if !included && !written.starts_with("excl") {
            return Err(wrong(Code::UnknownWord, format!("`{}` does not say whether tax is in a price", text.trim())));
        }
        let after = written.trim_start_matches(|c: char| c.is_ascii_alphabetic() || c == '.').trim();
        let rate = match after.split_once('%') {
            Some((number, _)) => {
                let percent = decimal(number.trim())
                    .ok_or_else(|| wrong(Code::NotANumber, format!("`{}` is not a rate of tax", number.trim())))?;
                if percent > Decimal::ONE_HUNDRED || percent.is_sign_negative() {
                    return Err(wrong(Code::OutOfRange, format!("a tax of {percent} % is outside 0 to 100 %")));
                }
                Some(percent / Decimal::ONE_HUNDRED)
            }
            None => None,
        };
        match (included, rate) {
            (true, Some(rate)) => Ok(Self::Included(rate)),
            (false, rate) => Ok(Self::Excluded(rate)),
            (true, None) => Err(wrong(Code::MissingKey, "tax is in the price, and how much is not said".to_owned())),
        }
    }
}

/// Digits with one point, or one comma before one or two digits: money is never guessed at.
fn decimal(written: &str) -> Option<Decimal> {
    let is_digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    let plain = match written.split_once([',', '.']) {
        Some((whole, part)) if written.contains(',') => {
            (is_digits(whole) && is_digits(part) && part.len() <= 2).then(|| format!("{whole}.{part}"))?
        }
        Some((whole, part)) => (is_digits(whole) && is_digits(part)).then(|| written.to_owned())?,
        None => is_digits(written).then(|| written.to_owned())?,
    };
    plain.parse().ok()
}
