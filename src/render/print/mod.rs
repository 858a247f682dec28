//! Paper at exact size: labels and cards. One layout in millimetres, of which PDF, SVG and PNG are drawings.

mod card;
mod code;
mod label;
mod layout;
mod letters;
mod pdf;
mod stock;
mod svg;

pub use card::{card, glass};
pub use code::Code2d;
pub use label::{LabelJob, label};
pub use layout::{MM_PER_POINT, PrintBox, PrintInk, PrintSheet, SMALLEST_PT};
pub use letters::{PrintFace, Unprintable, printable};
pub use pdf::pdf;
pub use stock::{CardSize, LabelSize};
pub use svg::{DOTS_PER_MM, png, svg};

/// How thick frames and lines are, mm: two dots of a label printer, rounded up.
const STROKE_MM: f64 = 0.2;

/// Why something is not printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotPrinted {
    /// A letter of it cannot be.
    Letter(Unprintable),
    /// It does not fit, however small its letters may be.
    NoRoom,
}

impl From<Unprintable> for NotPrinted {
    fn from(letter: Unprintable) -> Self {
        Self::Letter(letter)
    }
}
