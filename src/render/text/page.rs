//! How wide the page is, and how much is on it.

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};
use unicode_width::UnicodeWidthStr;

/// What a text is written for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Page {
    /// Columns.
    pub width: usize,
    /// Every reason and source, or what the bench needs.
    pub full: bool,
}

/// A page of 60 columns that fits a pinned-up half sheet; what the bench needs.
impl Default for Page {
    fn default() -> Self {
        Self { width: Self::NARROWEST, full: false }
    }
}

/// Where the lines that go on under a paragraph begin. It is not printed.
pub(super) const HANG: char = '\u{1f}';

impl Page {
    /// The narrowest page that is written for, and the widest that a line is read across without losing it.
    pub const NARROWEST: usize = 60;
    /// See [`Self::NARROWEST`].
    pub const WIDEST: usize = 100;

    /// The same with everything on it, or not.
    #[must_use]
    pub fn with_full(self, full: bool) -> Self {
        Self { full, ..self }
    }

    /// Breaks the paragraphs of a text; tables stay as they are.
    pub fn fit(self, text: &str) -> String {
        text.lines().map(|line| self.fit_line(line) + "\n").collect()
    }

    fn fit_line(self, line: &str) -> String {
        let Some((head, rest)) = line.split_once(HANG) else { return line.to_owned() };
        // what goes on is told from the next line, and is not pressed into a narrow column
        let leading = head.width() - head.trim_start().width();
        let hang = head.width().min(leading + 4);
        let indent = " ".repeat(hang);
        let options = Options::new(self.width)
            .initial_indent(head)
            .subsequent_indent(&indent)
            .break_words(false)
            .word_separator(WordSeparator::AsciiSpace)
            .word_splitter(WordSplitter::NoHyphenation)
            .wrap_algorithm(WrapAlgorithm::FirstFit);
        textwrap::fill(&rest.replace(HANG, " "), options)
    }
}
