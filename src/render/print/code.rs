//! A QR code of plain text.

use fast_qr::{ECL, QRBuilder};

/// The light border that a reader needs round a code, in modules: ISO/IEC 18004.
pub const QUIET: usize = 4;

/// Dark and light modules, row by row.
#[derive(Clone, Debug, PartialEq)]
pub struct Code2d {
    /// Modules of a row, and rows, without the border.
    pub side: usize,
    /// Whether each is dark.
    pub dark: Vec<bool>,
    /// The text in it.
    pub says: String,
}

impl Code2d {
    /// The code of a text; a seventh of it may be smudged (level M). `None` where it is too long for any code.
    pub(super) fn of(says: &str) -> Option<Self> {
        let code = QRBuilder::new(says).ecl(ECL::M).build().ok()?;
        let side = code.size;
        let dark = (0..side).flat_map(|row| (0..side).map(move |column| (row, column)));
        Some(Self { side, dark: dark.map(|(row, column)| code[row][column].value()).collect(), says: says.to_owned() })
    }

    /// Modules of a row with its border.
    pub(super) fn with_border(&self) -> usize {
        self.side + 2 * QUIET
    }

    /// The dark runs of modules: column and row of each, counted from the border's edge, and how many there are.
    pub(super) fn runs(&self) -> Vec<(usize, usize, usize)> {
        let mut runs: Vec<(usize, usize, usize)> = Vec::new();
        for (place, _) in self.dark.iter().enumerate().filter(|(_, dark)| **dark) {
            let (column, row) = (place % self.side + QUIET, place / self.side + QUIET);
            match runs.last_mut() {
                Some((first, of, count)) if *of == row && *first + *count == column => *count += 1,
                _ => runs.push((column, row, 1)),
            }
        }
        runs
    }
}
