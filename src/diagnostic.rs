//! What is wrong, where it stands, what was expected and what to do: plain data.

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// A range of bytes in a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl From<Range<usize>> for Span {
    fn from(range: Range<usize>) -> Self {
        Self { start: range.start, end: range.end }
    }
}

/// A value together with the place in the text that it was read from.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value and its place.
    pub fn new(value: T, span: impl Into<Span>) -> Self {
        Self { value, span: span.into() }
    }
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing: an assumption that was made, a conversion that was understood.
    Note,
    /// Probably not what was meant.
    Warning,
    /// No answer can be given until it is mended.
    Error,
}

impl Severity {
    /// The word that is printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $text:literal : $description:literal,)*) => {
        /// The stable name of a kind of diagnostic.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Code {
            $(#[doc = $description] $name,)*
        }

        impl Code {
            /// Every code there is.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// The code as it is printed.
            pub fn as_str(self) -> &'static str {
                match self { $(Self::$name => $text,)* }
            }

            /// What it means, in a sentence.
            pub fn description(self) -> &'static str {
                match self { $(Self::$name => $description,)* }
            }
        }
    };
}

codes! {
    // the command line
    BadArgument = "bad-argument": "An argument of the command line cannot be understood.",
    // reading a file
    CannotWrite = "cannot-write": "A file could not be written.",
    CannotRead = "cannot-read": "A file could not be opened or is not UTF-8 text.",
    Syntax = "syntax": "The file is not valid TOML at this place.",
    UnknownKey = "unknown-key": "A key that a formula, larder or house file does not have.",
    MissingKey = "missing-key": "A key that must be there is not.",
    WrongType = "wrong-type": "The value is of another kind than the key takes.",
    HiddenCharacter = "hidden-character": "A name holds a control character or one that turns the text round it.",
    TooLarge = "too-large": "The file is larger than any formula can be.",
    // amounts
    NotANumber = "not-a-number": "The amount does not begin with a number.",
    AmbiguousNumber = "ambiguous-number": "The number can be read in two ways: a comma may part thousands or decimals.",
    NoUnit = "no-unit": "The amount has no unit.",
    UnknownUnit = "unknown-unit": "The unit is not known.",
    AmbiguousUnit = "ambiguous-unit": "The unit means different things in different places.",
    WrongDimension = "wrong-dimension": "The amount is of another kind than is asked for here.",
    OutOfRange = "out-of-range": "The value lies outside what is possible or known.",
    RatioBasis = "ratio-basis": "A ratio does not say whether it is by weight or by volume.",
    // larder and house
    UnknownLike = "unknown-like": "An ingredient is said to be like one that is not in the larder.",
    LikeRing = "like-ring": "Ingredients are said to be like each other in a ring.",
    CannotRemove = "cannot-remove": "An entry tries to take away an allergen or a tag that its ingredient brings.",
    Contradiction = "contradiction": "Two keys say the same thing in different ways.",
    LeftOut = "left-out": "An entry of the larder has a mistake in it and cannot be used until it is mended.",
    NotHundred = "not-hundred": "The grams in 100 g do not add to 100.",
    SameName = "same-name": "Two entries or two formulas have the same name.",
    Assumed = "assumed": "Something that a house may state is not stated, and a default was taken.",

    // formula
    NoParts = "no-parts": "A card or a stage has nothing in it.",
    DuplicateName = "duplicate-name": "Two things on a card have the same name.",
    StageRule = "stage-rule": "A stage asks for what only the finished product can have.",
    StageOrder = "stage-order": "A stage is used above the place where it is made.",
    OwnPart = "own-part": "A part is the very thing that it goes into.",
    Unused = "unused": "Something on the card changes nothing.",
    OpenAmounts = "open-amounts": "The card leaves amounts open and gives nothing to find them by.",
    MixedBasis = "mixed-basis": "A ratio counts some of its parts by weight and some by volume.",
    LoneRatio = "lone-ratio": "A ratio has one part only.",
    UnknownWord = "unknown-word": "The key takes one of a few words, and this is not one of them.",
    NotADate = "not-a-date": "The day does not exist or is not written year first.",
    Misplaced = "misplaced": "A key stands under a heading that it does not belong to.",
    More = "more": "There is more to say of a file than anyone would read.",
    Understood = "understood": "How something was read that can be read in more than one way.",

    // solve
    UnknownIngredient = "unknown-ingredient": "No ingredient, stage or formula of the house has this name.",
    FormulaRing = "formula-ring": "A formula is made from itself, directly or through others.",
    FormulaDepth = "formula-depth": "Formulas are made from formulas more levels deep than is followed.",
    InnerFormula = "inner-formula": "A formula of the house that is needed here cannot be made.",
    HoldsUnknown = "holds-unknown": "A part is strained out and what its solids keep is not known.",
    DensityUnknown = "density-unknown": "A solid is measured by volume and its bulk density is not known.",
    PieceUnknown = "piece-unknown": "Pieces are asked for and what one weighs is not known.",
    NoSize = "no-size": "Nothing says how much to make.",
    TooManyOpen = "too-many-open": "More parts are open than there are rules to fix them.",
    NotTold = "not-told-apart": "The targets do not tell the open parts apart.",
    OutOfReach = "out-of-reach": "A target lies outside what the parts can reach.",
    TargetMissed = "target-missed": "The amounts on the card do not give its target.",
    YieldImpossible = "yield-impossible": "The card says that it makes more than its parts can.",
    YieldLower = "yield-lower": "The card says that it makes less than its parts give.",
    NoDensity = "no-density": "A density that is needed cannot be computed.",
    Stop = "stop": "A caution says not to make or serve the product as planned.",
    BelowLegalMinimum = "below-legal-minimum": "The product is less than the law asks of its class.",
    PropertyUnknown = "property-unknown": "A property cannot honestly be given.",
    DoesNotApply = "does-not-apply": "The product has no such property: a program is told, a person need not be.",
    PropertyStretched = "property-stretched": "A property is given outside the range in which its equation was checked.",
    ReadingDiffers = "reading-differs": "A reading of the batch and what its card makes differ by more than both can be off.",
    StopAdded = "stop-added": "A swap brings a danger that was not there.",
    AllergenAdded = "allergen-added": "A swap brings an allergen that was not there.",
    DoesNotFit = "does-not-fit": "A batch does not fit into its vessel.",
    NothingLeft = "nothing-left": "The strained solids would keep all of the liquid.",

    // acidity and readings
    NeedsAnother = "needs-another-reading": "What was read cannot tell sugar from alcohol, or tells nothing.",
    ReadingsContradict = "readings-contradict": "No liquid shows both of the readings.",
    OverSaturated = "over-saturated": "More sugar was read or asked for than stays dissolved.",
    NotLabelGrade = "not-label-grade": "A strength is too uncertain to be printed on a label.",
    PhCaution = "ph-caution": "A pH reading has a known way of being off.",

    // cost and plan
    ParWithoutUse = "par-without-use": "A product has a par and nothing says how fast it goes.",
    UnknownProduct = "unknown-product": "No formula of the house has the name of this product.",
    NoDate = "no-date": "A product has no date in the store that it is planned for.",
    Stopped = "stopped": "A product is not planned because a caution says stop.",
    PlanRing = "plan-ring": "Products of a plan go into each other in a ring.",
    NotInTime = "not-in-time": "Something is needed before it can be ready.",
    BelowPar = "below-par": "The house opens with less than par.",
    ParBeyondLife = "par-beyond-life": "Par is more than is used before it expires.",
    SmallBatch = "small-batch": "A batch is smaller than is worth the work, because no more is used in its life.",
    LateOrder = "late-order": "Something cannot be delivered before it is needed.",
    WrongColumn = "wrong-column": "A table has other columns than are read here, or a row has too few cells.",
    WrongSeparator = "wrong-separator": "The cells of a table are not parted by commas.",
    UnknownCurrency = "unknown-currency": "The code of a currency is not in ISO 4217.",
    MixedCurrencies = "mixed-currencies": "Prices of one batch are in different currencies.",
    NoPrice = "no-price": "Something costs money and no price of it is known.",
    StalePrice = "stale-price": "A price is older than the house lets prices be.",

}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

/// A place in the text and what is said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What is said of it.
    pub text: String,
}

/// One finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnostic {
    /// Its kind.
    pub code: Code,
    /// How bad it is.
    pub severity: Severity,
    /// What is wrong, in one line: what was read and what was expected.
    pub title: String,
    /// The file it speaks of.
    pub file: Option<Arc<str>>,
    /// The places it speaks of; the first is the main one.
    pub labels: Vec<Label>,
    /// What to do about it.
    pub help: Option<String>,
    /// A text that can be put in place of what was read.
    pub fix: Option<(Span, String)>,
}

impl Diagnostic {
    fn new(code: Code, severity: Severity, title: impl Into<String>) -> Self {
        Self { code, severity, title: title.into(), file: None, labels: Vec::new(), help: None, fix: None }
    }

    /// An error.
    pub fn error(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, title)
    }

    /// A warning.
    pub fn warning(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Warning, title)
    }

    /// A note.
    pub fn note(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Note, title)
    }

    /// Points at a place.
    #[must_use]
    pub fn at(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.labels.push(Label { span: span.into(), text: text.into() });
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers a text to put in place of what was read.
    #[must_use]
    pub fn fix(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.fix = Some((span.into(), text.into()));
        self
    }

    /// Names the file.
    #[must_use]
    pub fn in_file(mut self, file: &Arc<str>) -> Self {
        self.file.get_or_insert_with(|| Arc::clone(file));
        self
    }
}

impl Diagnostic {
    /// The finding as plain lines, without colour: for a pipe, a log and the checks. `text` is the
    /// text of the file; lines and columns count from 1, columns in characters.
    pub fn plain(&self, text: &str) -> String {
        let mut lines = format!("{}[{}]", self.severity.word(), self.code);
        let place = self.labels.first().map(|label| line_and_column(text, label.span.start));
        match (&self.file, place) {
            (Some(file), Some((line, column))) => lines.push_str(&format!(" {file}:{line}:{column}")),
            (Some(file), None) => lines.push_str(&format!(" {file}")),
            (None, Some((line, column))) => lines.push_str(&format!(" {line}:{column}")),
            (None, None) => {}
        }
        lines.push_str(&format!(" {}\n", self.title));
        for label in &self.labels {
            let (line, column) = line_and_column(text, label.span.start);
            let read = text.get(label.span.start..label.span.end).unwrap_or_default();
            let first: String = read.lines().next().unwrap_or_default().chars().take(LONGEST_READING).collect();
            let more = if first.len() < read.len() { " …" } else { "" };
            let read = if first.is_empty() { first } else { format!(" {first}{more}") };
            lines.push_str(&format!("  {line}:{column}{read}  <- {}\n", label.text));
        }
        for (i, help) in self.help.iter().flat_map(|help| help.lines()).enumerate() {
            lines.push_str(&format!("  {} {help}\n", if i == 0 { "help:" } else { "     " }));
        }
        if let Some((_, fix)) = &self.fix {
            let said = |help: &String| help.contains(&format!("`{}`", fix.trim_matches('"')));
            if !self.help.as_ref().is_some_and(said) {
                lines.push_str(&format!("  write: {}\n", if fix.is_empty() { "(nothing)" } else { fix }));
            }
        }
        // a card cannot make a terminal obey it
        crate::input::tamed(&lines).into_owned()
    }
}

/// How many characters of what was read are said again.
const LONGEST_READING: usize = 80;

/// How many findings of one file are worth reading. A card has fewer lines.
pub const MOST_FINDINGS: usize = 50;

/// Keeps the findings that are worth reading, in their order, and says how many more there are.
pub fn keep_first(found: &mut Vec<Diagnostic>) {
    let rest = found.split_off(found.len().min(MOST_FINDINGS));
    if !rest.is_empty() {
        let severity = if any_error(&rest) { Severity::Error } else { Severity::Note };
        let title =
            format!("and {} more", if rest.len() < MOST_FINDINGS { rest.len().to_string() } else { "many".into() });
        found.push(Diagnostic::new(Code::More, severity, title).help("mend the first ones and read the file again"));
    }
}

/// The line and the column of a byte, both from 1; columns count characters. A byte-order mark
/// counts for nothing.
pub fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let before = text.char_indices().take_while(|(i, _)| *i < at).map(|(_, c)| c).filter(|c| *c != '\u{feff}');
    before.fold((1, 1), |(line, column), c| if c == '\n' { (line + 1, 1) } else { (line, column + 1) })
}

/// Whether any of them is an error.
pub fn any_error(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|d| d.severity == Severity::Error)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn codes_are_unique_and_described() {
        let names: HashSet<_> = Code::ALL.iter().map(|c| c.as_str()).collect();
        assert_eq!(names.len(), Code::ALL.len());
        assert!(Code::ALL.iter().all(|c| c.description().ends_with('.')));
    }

    #[test]
    fn a_place_counts_characters_and_passes_over_a_byte_order_mark() {
        let text = "\u{feff}a = 1\r\ncafé = 2\n";
        assert_eq!(line_and_column(text, 3), (1, 1));
        assert_eq!(line_and_column(text, text.find('=').unwrap()), (1, 3));
        assert_eq!(line_and_column(text, text.rfind('=').unwrap()), (2, 6));
    }

    #[test]
    fn plain_lines_name_place_reading_and_remedy() {
        let file: Arc<str> = "card.toml".into();
        let plain = Diagnostic::error(Code::NoUnit, "a number alone")
            .at(6..9, "of what?")
            .help("write \"750 ml\"")
            .in_file(&file)
            .plain("x = 1\n750\n");
        assert_eq!(
            plain,
            "error[no-unit] card.toml:2:1 a number alone\n  2:1 750  <- of what?\n  help: write \"750 ml\"\n"
        );
    }
}
