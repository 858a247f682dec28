//! The letters that are printed: which there are, how wide each is, and what must be refused.
//!
//! A line is set letter after letter, as Latin, Greek and Cyrillic are: nothing is joined, reordered or stacked. What
//! needs that would come out wrong, which on a label is worse than a word that it cannot be printed.

use std::fmt;
use std::sync::LazyLock;

use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, GlyphId, MetadataProvider};
use unicode_normalization::UnicodeNormalization;

use crate::diagnostic::is_unruly;

/// Which cut of the letters. Narrow ones: a label has little room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PrintFace {
    /// Of most words.
    Regular,
    /// Of what must be seen first.
    Bold,
}

/// A letter that cannot be set, and where it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unprintable {
    /// The letter.
    pub letter: char,
    /// The words that it stands in.
    pub words: String,
}

impl fmt::Display for Unprintable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { letter, words } = self;
        write!(
            f,
            "`{words}` cannot be printed: `{letter}` is of a script whose letters have to be shaped or is not there"
        )
    }
}

pub(super) struct Lettering {
    letters: Charmap<'static>,
    widths: GlyphMetrics<'static>,
    units: f64,
    /// How far letters reach above their line, in ems.
    pub(super) above: f64,
}

impl PrintFace {
    pub(super) fn file(self) -> &'static [u8] {
        match self {
            Self::Regular => dejavu::sans_condensed::regular(),
            Self::Bold => dejavu::sans_condensed::bold(),
        }
    }

    pub(super) fn lettering(self) -> &'static Lettering {
        static REGULAR: LazyLock<Lettering> = LazyLock::new(|| Lettering::of(PrintFace::Regular));
        static BOLD: LazyLock<Lettering> = LazyLock::new(|| Lettering::of(PrintFace::Bold));
        match self {
            Self::Regular => &REGULAR,
            Self::Bold => &BOLD,
        }
    }
}

impl Lettering {
    fn of(face: PrintFace) -> Self {
        // The file is compiled in: if it were none, every test that prints would fail here.
        let font = FontRef::new(face.file()).unwrap_or_else(|error| panic!("the letters: {error}"));
        let metrics = font.metrics(Size::unscaled(), LocationRef::default());
        let units = f64::from(metrics.units_per_em);
        Self {
            letters: font.charmap(),
            widths: font.glyph_metrics(Size::unscaled(), LocationRef::default()),
            units,
            above: f64::from(metrics.ascent) / units,
        }
    }

    pub(super) fn glyph(&self, letter: char) -> Option<GlyphId> {
        self.letters.map(letter)
    }

    /// In ems.
    pub(super) fn advance(&self, letter: char) -> f64 {
        let glyph = self.glyph(letter).unwrap_or_default();
        f64::from(self.widths.advance_width(glyph).unwrap_or_default()) / self.units
    }

    /// In ems.
    pub(super) fn width(&self, words: &str) -> f64 {
        words.chars().map(|letter| self.advance(letter)).sum()
    }
}

/// Whether letters of this kind stand beside each other as they are: those of the blocks before Hebrew and of Georgian,
/// and signs. The blocks are those of the Unicode Standard.
fn stands_alone(letter: char) -> bool {
    let is_mark = matches!(letter, '\u{300}'..='\u{36f}' | '\u{483}'..='\u{489}' | '\u{20d0}'..='\u{20ff}');
    !is_mark && matches!(letter, ' '..='\u{58f}' | '\u{10a0}'..='\u{10ff}' | '\u{1e00}'..='\u{2bff}')
}

/// Words as they are printed: accents joined to their letters, one space between words, and nothing that only steers the
/// text round it.
///
/// # Errors
/// Where a letter cannot be set.
pub fn printable(words: &str) -> Result<String, Unprintable> {
    let steers = |c: char| is_unruly(c) || matches!(c, '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{206f}' | '\u{ad}');
    let joined: String = words.nfc().map(|c| if c.is_whitespace() { ' ' } else { c }).filter(|c| !steers(*c)).collect();
    let tidy = joined.split_whitespace().collect::<Vec<_>>().join(" ");
    let is_there =
        |letter: char| [PrintFace::Regular, PrintFace::Bold].iter().all(|f| f.lettering().glyph(letter).is_some());
    let can = |letter: char| stands_alone(letter) && is_there(letter);
    match tidy.chars().find(|letter| !can(*letter)) {
        Some(letter) => Err(Unprintable { letter, words: tidy.chars().take(40).collect() }),
        None => Ok(tidy),
    }
}
