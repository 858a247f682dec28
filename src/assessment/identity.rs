//! What nobody answers for in a card: the ingredients of which nothing says that they are food, through inner cards too.

use std::sync::Arc;

use serde::{Serialize, Serializer};

use crate::card::{AskedOf, OpenLine, Part};
use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::house::House;
use crate::larder::Ingredient;
use crate::paste;
use crate::safety::identity::{self, FoodIdentity, identity};
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::spelling;

use super::contradicted;

/// One open question of identity: until it is answered nothing with it is dated or labelled.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct IdentityQuestion {
    /// The ingredient, as it is called.
    pub name: String,
    /// What has to be stated, and how it is written.
    pub question: String,
    /// The card that uses it, where it is not the one that was asked about.
    pub card: Option<String>,
    /// The file in which the statement is to be written.
    #[serde(serialize_with = "as_text")]
    pub file: Option<Arc<str>>,
    /// The place in it.
    #[serde(skip)]
    pub place: Option<Span>,
    /// What kind of question it is.
    #[serde(skip)]
    pub identity: FoodIdentity,
}

fn as_text<S: Serializer>(file: &Option<Arc<str>>, serializer: S) -> Result<S::Ok, S::Error> {
    file.as_deref().serialize(serializer)
}

impl IdentityQuestion {
    /// What may bring any allergen until it is answered. A line among the parts is told with those, and how hot a thing was is no
    /// question of what is in it.
    pub(super) fn may_bring_any(&self) -> Option<String> {
        (!matches!(self.identity, FoodIdentity::Unanswered { .. })).then(|| self.name.clone())
    }

    /// The finding that it is: an error, for nothing is said of what may be anything.
    pub(crate) fn diagnostic(&self) -> Diagnostic {
        let found = match &self.identity {
            FoodIdentity::NotUsed { reason, .. } => {
                Diagnostic::error(Code::IdentityOpen, format!("`{}` is not to be used: {reason}", self.name))
                    .help("take it out: nothing that is stated makes it food")
            }
            FoodIdentity::GradeOpen { why, .. } => Diagnostic::error(
                Code::IdentityOpen,
                format!("nothing says that `{}` is of food grade ({why})", self.name),
            )
            .help(self.question.clone()),
            FoodIdentity::TwoThings { name, of } => {
                Diagnostic::error(Code::IdentityOpen, format!("`{name}` is not {of}: one keeps and the other does not"))
                    .help(self.question.clone())
            }
            FoodIdentity::TooStrong { name } => {
                Diagnostic::error(Code::IdentityOpen, format!("nothing like `{name}` has so much alcohol"))
                    .help(self.question.clone())
            }
            FoodIdentity::Unanswered { line, of } => {
                let help = match of {
                    AskedOf::Parts => {
                        "answer it as a line of [parts], or delete the line: until then nothing is dated and no allergens are sure"
                    }
                    AskedOf::Key => {
                        "answer it: write the line as it is, without its `# ?`, or delete the question: until then nothing is dated"
                    }
                    AskedOf::Steps => "write the line, or have the step say what is done: until then nothing is dated",
                };
                Diagnostic::error(Code::IdentityOpen, format!("the card is not complete: {line}")).help(help)
            }
            _ => Diagnostic::error(Code::IdentityOpen, format!("nothing says that `{}` is food", self.name))
                .help(self.question.clone()),
        };
        let found = match self.place {
            Some(place) => match &self.identity {
                FoodIdentity::Unanswered { .. } => found.at(place, "nobody has answered this"),
                _ => found.at(place, "what is it, and who says so?"),
            },
            None => found,
        };
        match &self.file {
            Some(file) => found.in_file(file),
            None => found,
        }
    }
}

/// Every ingredient of a solved card with what is known of its identity, the part that it stands in and its card; a
/// part that no card writes has none.
fn identities(solved: &Solved) -> Vec<(FoodIdentity, Option<(&Solved, &Part)>, Option<&(Arc<str>, Span)>)> {
    let mut all = Vec::new();
    for (card, _) in solved.with_inner() {
        for part in card.stages.iter().flat_map(|stage| &stage.parts) {
            let Material::Ingredient(ingredient) = &part.found.what else { continue };
            let mut written = card.card.all_parts().map(|(_, written)| written);
            let written = written.find(|written| written.label.value == part.label);
            let on_card = written.and_then(|written| written.food.as_ref());
            let place = written.map(|part| (card, part));
            // A label must not hide what is poured: one that has no word of what it is said to be (`of`) is a food of its own name,
            // or nobody knows what it is.
            if !shares_a_word(&part.label, ingredient) {
                let (name, of) = (part.label.clone(), ingredient.name.clone());
                if identity::is_another(&name, ingredient) {
                    all.push((FoodIdentity::TwoThings { name, of }, place, None));
                } else if on_card.is_none() && !identity::is_known(&name) {
                    all.push((FoodIdentity::Open { name }, place, None));
                }
            }
            all.push((identity(ingredient, on_card), place, ingredient.named_at.as_ref()));
        }
    }
    all
}

fn shares_a_word(label: &str, ingredient: &Ingredient) -> bool {
    let said = spelling::words(label);
    ingredient.all_names().flat_map(spelling::words).any(|word| said.contains(&word))
}

/// The open questions of identity of a solved card, each once.
pub fn open_identities(solved: &Solved, house: &House) -> Vec<IdentityQuestion> {
    let mut open: Vec<IdentityQuestion> = Vec::new();
    for (identity, part, entry) in identities(solved) {
        let Some(question) = identity.question() else { continue };
        let name = match &identity {
            FoodIdentity::Open { name }
            | FoodIdentity::GradeOpen { name, .. }
            | FoodIdentity::TooStrong { name }
            | FoodIdentity::TwoThings { name, .. }
            | FoodIdentity::NotUsed { name, .. } => name.clone(),
            FoodIdentity::Known { .. } | FoodIdentity::Stated(_) | FoodIdentity::Unanswered { .. } => continue,
        };
        if open.iter().any(|known| known.question == question) {
            continue;
        }
        let on_card = part.map(|(card, part)| (Arc::clone(&card.card.file), part.of.span));
        let (file, place) = entry.cloned().or(on_card).unzip();
        let inner = part.filter(|(card, _)| card.index != solved.index).map(|(card, _)| card.name.clone());
        open.push(IdentityQuestion { name, question, card: inner, file, place, identity });
    }
    open.extend(solved.with_inner().into_iter().flat_map(|(card, _)| {
        let untold = paste::untold(&card.card, house);
        let untold: Vec<OpenLine> = untold
            .iter()
            .filter(|untold| untold.is_sure)
            .map(|untold| OpenLine {
                asked: Spanned { value: untold.asks.clone(), span: untold.place },
                of: AskedOf::Steps,
            })
            .collect();
        card.card.open_lines().into_iter().chain(contradicted::asked(card, house)).chain(untold).map(|line| {
            let (line, of) = (line.asked, line.of);
            let identity = FoodIdentity::Unanswered { line: line.value.clone(), of };
            let inner = (card.index != solved.index).then(|| card.name.clone());
            let file = Some(Arc::clone(&card.card.file));
            let question = identity.question().unwrap_or_default();
            IdentityQuestion { name: line.value, question, card: inner, file, place: Some(line.span), identity }
        })
    }));
    open
}

/// What somebody restricts of the foods in it, as notes.
pub(super) fn restricted(solved: &Solved) -> Vec<Diagnostic> {
    let mut notes: Vec<Diagnostic> = Vec::new();
    for (identity, part, _) in identities(solved) {
        let (FoodIdentity::Known { restricted: Some(why) }, Some((card, part))) = (identity, part) else { continue };
        let name = &part.of.value;
        let note = Diagnostic::note(Code::RestrictedFood, format!("`{name}` is restricted: {why}"))
            .at(part.of.span, "ask the food authority of your market")
            .in_file(&card.card.file);
        if !notes.contains(&note) {
            notes.push(note);
        }
    }
    notes
}
