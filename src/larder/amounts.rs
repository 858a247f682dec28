//! Amounts under the keys of a larder or house file, and the diagnostics of those that cannot be read.

use crate::diagnostic::{Diagnostic, Span, Spanned};
use crate::input::{Table, Value, wrong_type};
use crate::units::LiteralError;

/// The amount under a key, as one of the readers of [`crate::units`] takes it; a bare number is read as
/// if it stood in quotes. `None` where the key is not there or cannot be read (which is reported).
pub(crate) fn amount<T>(
    table: &Table,
    key: &str,
    read: impl FnOnce(&str) -> Result<T, LiteralError>,
    found: &mut Vec<Diagnostic>,
) -> Option<Spanned<T>> {
    let (_, value) = table.get(key)?;
    let written = match &value.value {
        Value::Text(written) => written.clone(),
        Value::Number(number) => number.to_string(),
        _ => {
            found.push(wrong_type(key, value, "an amount in quotes"));
            return None;
        }
    };
    match read(&written) {
        Ok(amount) => Some(Spanned { value: amount, span: value.span }),
        Err(error) => {
            found.push(unreadable(error, key, value.span));
            None
        }
    }
}

/// What is wrong with an amount.
fn unreadable(error: LiteralError, key: &str, span: Span) -> Diagnostic {
    let mut diagnostic = Diagnostic::error(error.code, error.title).at(span, format!("in `{key}`"));
    diagnostic.help = error.help;
    if let Some(fix) = error.fix {
        diagnostic = diagnostic.fix(span, format!("\"{fix}\""));
    }
    diagnostic
}
