//! What stands on a printed thing, in words and in its order: paper, pages and text are written from it alike.

pub(super) mod card;
pub(super) mod glass;
pub(super) mod label;

/// What a paragraph is; a size and a place follow from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum SaidKind {
    /// The largest words there are.
    Stop,
    /// The name of the product.
    Title,
    /// By when it is to be used.
    Date,
    /// What makes some guests ill.
    Allergens,
    /// A caution, a statement of the law, what is not stated.
    Warning,
    /// Which lot it is.
    Lot,
    /// A heading.
    Head,
    /// Something to do and to tick.
    Step,
    /// What else is good to know.
    Note,
}

/// A paragraph.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PaperPara {
    pub kind: SaidKind,
    /// Its first words, in bold.
    pub lead: String,
    pub words: String,
    /// How tall its letters are at least, mm.
    pub least_mm: Option<f64>,
    /// What a page does with it that paper cannot.
    pub fact: Option<StepFact>,
}

/// What a step is about, as a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum StepFact {
    /// The room that what is added takes, ml at 20 °C.
    Volume(f64),
    /// How long it is held, minutes.
    Hold(f64),
}

impl PaperPara {
    pub(super) fn new(kind: SaidKind, lead: impl Into<String>, words: impl Into<String>) -> Self {
        Self { kind, lead: lead.into(), words: words.into(), least_mm: None, fact: None }
    }

    /// What makes some guests ill: what is said of what is in it, nothing where that is none, and what a guest gets beside it.
    fn allergens(in_it: Option<&str>, guest: &str) -> Self {
        let said = match (in_it, guest.is_empty()) {
            (None, true) => return Self::new(SaidKind::Allergens, "Allergens:", "none named"),
            (None, false) => "none named in it",
            (Some(said), _) => said,
        };
        Self::new(SaidKind::Allergens, format!("ALLERGENS: {said}{guest}"), "")
    }

    pub(super) fn about(self, fact: Option<StepFact>) -> Self {
        Self { fact, ..self }
    }

    /// Both, as one sentence.
    pub(super) fn whole(&self) -> String {
        let parts = [self.lead.as_str(), self.words.as_str()];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")
    }
}
