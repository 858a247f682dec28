//! What the names of a pasted text mean in a house, and whether a card can be read with them.

use crate::card;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house::House;
use crate::input::{key, quoted};
use crate::larder::spoken::{is_said_apart, understood};
use crate::larder::{Form, Ingredient};
use crate::mixture::Component;
use crate::solver::faults;
use crate::units::{Literal, LiteralError, literal};
use crate::vocabulary::Kind;

/// The names that a house knows.
#[derive(Clone, Copy)]
pub(super) struct Names<'a>(pub &'a House);

impl Names<'_> {
    /// Whether it is an ingredient or a card of the house.
    pub(super) fn knows(self, name: &str) -> bool {
        !name.is_empty() && (self.0.larder.find(name).is_some() || self.0.card(name).is_some())
    }

    /// The known name in one that says besides how the part is cut or chosen ("fresh lime juice").
    pub(super) fn plain(self, name: &str) -> Option<String> {
        understood(name, |known| self.knows(known))
    }

    /// Whether a piece that says more of a thing may make another thing of it ("dried", "50%"): the larder has names with it.
    pub(super) fn may_change(self, said: &str) -> bool {
        let is_figure = |word: &str| word.contains('%') || word.eq_ignore_ascii_case("proof");
        let is_of_names = |word: &str| {
            let letters = word.chars().all(char::is_alphabetic) && word.chars().count() > 3;
            letters && !is_said_apart(word) && self.0.larder.with_the_words_of(word).next().is_some()
        };
        !is_said_apart(said) && said.split_whitespace().any(|word| is_figure(word) || is_of_names(word))
    }

    /// Whether it is lifted out again where a recipe strains: plants, peel, tea, coffee, nuts, fruit as it grows.
    pub(super) fn is_strained_out(self, name: &str) -> bool {
        self.0.card(name).is_none() && self.0.larder.find(name).is_some_and(is_undissolved)
    }

    /// An amount, as it is meant in the house.
    pub(super) fn reads(self, amount: &str) -> Result<Literal, LiteralError> {
        literal::read_by(amount, &self.0.customs()).map(|read| read.literal)
    }

    /// What a card says of a part with this amount that it cannot read.
    pub(super) fn refusal(self, name: &str, amount: &str) -> Option<Diagnostic> {
        let text = format!("name = \"-\"\n[parts]\n{} = {}\n", key(name), quoted(amount));
        let (card, mut found) = card::read_by("".into(), text.into(), &self.0.customs());
        // what is counted may be a word that nothing is counted by
        found.extend(card.iter().flat_map(|card| faults(card, self.0)).filter(|d| d.code == Code::PieceUnknown));
        found.into_iter().find(|d| d.severity == Severity::Error && !of_a_lone_part(d.code))
    }
}

/// What is wrong with one part only because the others are not there.
fn of_a_lone_part(code: Code) -> bool {
    matches!(code, Code::LoneRatio | Code::RatioBasis | Code::OpenAmounts | Code::OwnPart | Code::Misplaced)
}

fn is_undissolved(of: &Ingredient) -> bool {
    use Kind::{Bark, Cacao, Coffee, Flower, Fruit, Herb, Leaf, Nut, Peel, Root, Seed, Spice, Tea, Vegetable};
    let is_plant = |kind| {
        matches!(
            kind,
            Peel | Herb | Leaf | Flower | Spice | Bark | Root | Seed | Tea | Coffee | Cacao | Nut | Fruit | Vegetable
        )
    };
    of.form == Form::Solid && of.kind.map_or(of.per_gram.grams_of(Component::Insoluble) > 0.5, is_plant)
}
