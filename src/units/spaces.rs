//! The spaces between a number and its unit.

/// Where the text goes on after the spaces (no-break and thin ones too).
pub(super) fn skip_spaces(text: &str, from: usize) -> usize {
    let rest = text.get(from..).unwrap_or_default();
    from + (rest.len() - rest.trim_start().len())
}
