//! Currencies by their code, with the smallest amount that each is paid in.

use iso_currency::{Currency as Iso, IntoEnumIterator};
use rust_decimal::{Decimal, RoundingStrategy};

/// A currency that is paid in coins: ISO 4217 without its funds and metals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency {
    code: &'static str,
    digits: u32,
}

/// Those most often meant: a slip of the pen is taken for the first that is near.
const OFTEN_MEANT: [Iso; 19] = {
    use Iso::*;
    [EUR, GBP, USD, AUD, NZD, CAD, CHF, SEK, NOK, DKK, MXN, BRL, INR, ZAR, SGD, HKD, PLN, CZK, AED]
};

impl Currency {
    /// The currency with this code; small letters are read as capitals.
    pub fn find(code: &str) -> Option<Self> {
        Iso::from_code(&code.to_ascii_uppercase()).and_then(Self::in_coins)
    }

    fn in_coins(iso: Iso) -> Option<Self> {
        let digits = iso.exponent().filter(|_| !iso.is_fund())?;
        Some(Self { code: iso.code(), digits: digits.into() })
    }

    /// The code that was probably meant: one letter off, two swapped, or the sign of the money.
    pub fn suggest(written: &str) -> Option<&'static str> {
        match written {
            "£" => return Some("GBP"),
            "€" => return Some("EUR"),
            _ => {}
        }
        let written = written.to_ascii_uppercase();
        let all = OFTEN_MEANT.into_iter().chain(Iso::iter()).filter_map(Self::in_coins);
        all.map(|c| c.code).find(|code| strsim::osa_distance(&written, code) <= 1)
    }

    /// Its code ("GBP").
    pub fn code(self) -> &'static str {
        self.code
    }

    /// An amount to the smallest coin, halves away from zero.
    pub(crate) fn round(self, amount: Decimal) -> Decimal {
        round(amount, self.digits)
    }

    /// An amount as it is printed, without the code ("12.30").
    pub fn text(self, amount: Decimal) -> String {
        fixed(amount, self.digits)
    }

    /// An amount as it is printed where less than a coin counts too, without the code: below ten coins three digits that
    /// say something.
    pub fn fine_text(self, amount: Decimal) -> String {
        const DIGITS: u32 = 3;
        let fine = amount.round_sf_with_strategy(DIGITS, RoundingStrategy::MidpointAwayFromZero);
        match fine.filter(|_| !amount.is_zero() && amount.abs() < Decimal::new(10, self.digits)) {
            Some(fine) => fixed(fine, fine.normalize().scale().max(self.digits)),
            None => self.text(amount),
        }
    }
}

/// Rounded to so many decimals, halves away from zero.
pub fn round(amount: Decimal, digits: u32) -> Decimal {
    amount.round_dp_with_strategy(digits, RoundingStrategy::MidpointAwayFromZero)
}

fn fixed(amount: Decimal, digits: u32) -> String {
    let rounded = round(amount, digits);
    let unsigned = if rounded.is_zero() { Decimal::ZERO } else { rounded };
    format!("{unsigned:.*}", digits as usize)
}

/// A quantity (grams, millilitres, hours, a share) as a decimal: the one place where a float meets money.
/// Twelve decimals: what lies below is noise of the float. `None` for what is no number, or no quantity that anybody has.
pub fn quantity(x: f64) -> Option<Decimal> {
    const MOST: f64 = 1e12;
    let possible = (-MOST..=MOST).contains(&x).then_some(x)?;
    Decimal::try_from(possible).ok().map(|d| d.round_dp(12))
}
