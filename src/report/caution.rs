//! Cautions as every report shows them.

use serde::Serialize;

use crate::diagnostic::once::gathered;
use crate::references::Key;
use crate::safety::{Caution, Level};

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct CautionView {
    pub(crate) code: &'static str,
    pub(crate) severity: Level,
    /// What it says, of what, and what is not stated: the whole sentence.
    pub(crate) message: String,
    /// The same, as it would be said if what is not stated were.
    pub(crate) says: String,
    /// In a line of a pinned-up sheet, with what raised it.
    pub(crate) brief: &'static str,
    pub(crate) source: String,
    pub(crate) sources: &'static [Key],
    pub(crate) figures: Vec<String>,
    /// Who decides; empty where nobody else does.
    pub(crate) defer_to: &'static str,
    pub(crate) because: Vec<String>,
    pub(crate) not_stated: Vec<String>,
    /// That is nothing but how it is made: it asks, and stops nothing.
    pub(crate) only_asks: bool,
    /// The inner cards that it comes out of, the outermost first.
    pub(crate) from: Option<String>,
    /// Whether a guest has to be told.
    pub(crate) tell: bool,
}

impl From<&Caution> for CautionView {
    fn from(caution: &Caution) -> Self {
        let stated = Caution { not_stated: Vec::new(), ..caution.clone() };
        Self {
            code: caution.code,
            severity: caution.severity,
            message: caution.to_string(),
            says: stated.to_string(),
            brief: caution.brief,
            source: caution.sources.join("; "),
            sources: caution.source_keys,
            figures: caution.figures.clone(),
            defer_to: caution.defer_to,
            because: caution.because.clone(),
            not_stated: caution.not_stated.clone(),
            only_asks: caution.only_asks,
            from: caution.carried.as_ref().map(|carried| carried.path.join(" / ")),
            tell: caution.tell,
        }
    }
}

impl CautionView {
    /// Those to be told, and those that the rest of the answer says already.
    pub(crate) fn parted(cautions: &[Caution]) -> (Vec<Self>, Vec<Self>) {
        // the line of the allergens stands on every answer that has cautions
        let elsewhere = |c: &&Caution| c.is_said_elsewhere() || c.is_of_its_allergens();
        let (elsewhere, told): (Vec<&Caution>, Vec<&Caution>) = cautions.iter().partition(elsewhere);
        (Self::all(told), Self::all(elsewhere))
    }

    pub(crate) fn all<'a>(cautions: impl IntoIterator<Item = &'a Caution>) -> Vec<Self> {
        cautions.into_iter().map(Self::from).collect()
    }

    /// Whether the facts that were stated suffice to raise it.
    pub(crate) fn is_certain(&self) -> bool {
        self.not_stated.is_empty()
    }

    pub(crate) fn stops(&self) -> bool {
        self.severity == Level::Stop && !self.only_asks
    }

    /// What is said in a line to who makes or serves it: a certain warning, and a note of which a guest has to be told. A stop is said
    /// above all.
    pub(crate) fn is_told_in_a_line(&self) -> bool {
        self.is_certain() && !self.stops() && (self.severity < Level::Note || self.tell)
    }

    /// What is said in full: what surely applies, and a stop even where it may not.
    pub(crate) fn is_said_in_full(&self) -> bool {
        self.is_certain() || self.stops()
    }
}

/// What is to be stated, and what hangs on it as a question, each in a line.
pub(crate) fn asked_for(all: &[CautionView]) -> impl Iterator<Item = String> {
    waiting(all).into_iter().map(|(asked, waits)| {
        let brief: Vec<&str> = waits.iter().map(|c| c.brief).collect();
        format!("{asked} ({}?)", brief.join("; "))
    })
}

/// Those that wait on something, by what is to be stated.
pub(crate) fn waiting(all: &[CautionView]) -> Vec<(String, Vec<&CautionView>)> {
    gathered(all.iter().filter(|c| !c.is_said_in_full()).map(|c| (c.not_stated.join("; "), c)))
}
