//! Whether tax is in a price, as people write it: `incl. 20 % VAT`, `excl. VAT`.

use rust_decimal::Decimal;

use crate::diagnostic::Code;
use crate::units::LiteralError;

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
pub(super) fn decimal(written: &str) -> Option<Decimal> {
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
