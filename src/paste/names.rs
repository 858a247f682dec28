//! What the names of a pasted text mean in a house, and whether a card can be read with them.

use crate::card;
use crate::diagnostic::{Code, Diagnostic, Severity};
use crate::house::House;
use crate::input::{key, quoted};
use crate::larder::spoken::{is_said_apart, understood};
use crate::larder::{Form, Ingredient, which_of};
use crate::mixture::Component;
use crate::solver::faults;
use crate::spelling::{fold, words};
use crate::units::{Comma, Customs, Literal, LiteralError, comma_of, literal, with_a_point};

use crate::vocabulary::Kind;

use super::draft::Remark;
use super::keys::COMPLETE;
use super::words::WordList;

/// The names that a house knows, and how amounts are meant in the text.
#[derive(Clone, Copy)]
pub(super) struct Names<'a> {
    pub house: &'a House,
    /// What a comma before three digits parts, by the other numbers of the text.
    comma: Option<Comma>,
    /// The text is one that was written from a card: its numbers are as a card reads them.
    is_from_a_card: bool,
}

impl<'a> Names<'a> {
    pub(super) fn of(house: &'a House, text: &str) -> Self {
        let numbers = text.split_whitespace().filter(|word| word.starts_with(|c: char| c.is_ascii_digit()));
        Self { house, comma: comma_of(numbers), is_from_a_card: text.contains(COMPLETE) }
    }
}

impl Names<'_> {
    pub(super) fn customs(self) -> Customs {
        Customs { comma: self.comma, ..self.house.customs().with_a_bottle() }
    }

    /// An amount as a card reads it by itself, where only the rest of the text told what its comma or its point parts.
    pub(super) fn plainly(self, amount: &str) -> Option<String> {
        if self.comma == Some(Comma::Decimal)
            && let Some([thousands, _]) = self.with_a_point(amount)
        {
            return Some(thousands);
        }
        let alone = literal::read_by(amount, &self.house.customs()).is_err_and(|e| e.code == Code::AmbiguousNumber);
        alone.then(|| amount.replace(',', if self.comma == Some(Comma::Decimal) { "." } else { "" }))
    }

    /// Both readings of an amount such as "1.500 g": with the point between thousands, and as it stands.
    pub(super) fn with_a_point(self, amount: &str) -> Option<[String; 2]> {
        if self.is_from_a_card { None } else { with_a_point(amount) }
    }

    /// Whether the text is that of a card, in the words of one.
    pub(super) fn is_from_a_card(self) -> bool {
        self.is_from_a_card
    }

    /// What is to be asked of a name that nothing here has.
    pub(super) fn not_known(self, name: &str) -> Option<Remark> {
        let of = name.replace('"', "'");
        let which = which_of(name).map(|which| format!("which of these is it: {}? else ", which.join(", ")));
        let which = which.unwrap_or_default();
        (!self.knows(name)).then(|| Remark::Unknown(format!("not known here: {which}stillroom larder add \"{of}\"")))
    }

    /// Whether it is an ingredient or a card of the house.
    pub(super) fn knows(self, name: &str) -> bool {
        // "boil 1 litre of the water": French tea has its accent
        let is_word = name.is_empty() || name.eq_ignore_ascii_case("the");
        !is_word && (self.house.larder.find(name).is_some() || self.house.card(name).is_some())
    }

    /// Whether two names are of one thing: "cold water" is water.
    pub(super) fn same(self, one: &str, other: &str) -> bool {
        let id = |name: &str| self.house.larder.find(name).map(|known| known.id.clone());
        fold(one) == fold(other) || id(one).is_some_and(|one| Some(one) == id(other))
    }

    /// The known name in one that says besides how the part is cut or chosen ("fresh lime juice").
    pub(super) fn plain(self, name: &str) -> Option<String> {
        // "ginger, peeled & julienned"
        let bare = |known: String| known.trim_start_matches(['&', '+', ' ']).to_owned();
        let known = understood(name, |known| self.knows(known));
        known.map(bare).or_else(|| self.house.larder.in_its_state(name))
    }

    /// Whether a piece that says more of a thing may make another thing of it ("dried", "50%"): the larder has names with it.
    /// A juice is the same juice once it has run through a sieve.
    pub(super) fn may_change(self, of: &str, said: &str) -> bool {
        // "chips not powder": what it is not says nothing of what it is
        let said = said.split(" not ").next().unwrap_or(said);
        let is_liquid = || self.house.larder.find(of).is_some_and(|known| known.form == Form::Liquid);
        let kind = || self.house.larder.find(of).and_then(|known| known.kind);
        if said.split_whitespace().all(|word| WordList::Strain.has(word)) && is_liquid()
            || WordList::Unsweetened.has(said) && kind() == Some(Kind::Juice)
        {
            return false;
        }
        let is_figure = |word: &str| word.contains('%') || word.eq_ignore_ascii_case("proof");
        let is_of_names = |word: &str| {
            let letters = word.chars().all(char::is_alphabetic) && word.chars().count() > 3;
            letters && !is_said_apart(word) && self.house.larder.with_the_words_of(word).next().is_some()
        };
        !is_said_apart(said) && said.split_whitespace().any(|word| is_figure(word) || is_of_names(word))
    }

    /// Whether it is lifted out again where a recipe strains: plants, peel, tea, coffee, nuts, fruit as it grows.
    pub(super) fn is_strained_out(self, name: &str) -> bool {
        let dissolves = |i: &Ingredient| words(&i.name).iter().any(|word| word == "instant");
        let is = |i: &Ingredient| i.is_plant_matter() && !dissolves(i);
        self.house.card(name).is_none() && self.house.larder.find(name).is_some_and(is)
    }

    /// Whether nobody bottles it with what it flavours: whole spices, bark, pods, tea leaves, ground coffee, peel.
    pub(super) fn is_never_bottled(self, name: &str) -> bool {
        let is = |i: &Ingredient| i.strained.is_some_and(|strained| strained.is_never_bottled);
        self.is_strained_out(name) && self.house.larder.find(name).is_some_and(is)
    }

    /// What a gram of it holds back as a gel that is broken and strained: agar, gelatine.
    pub(super) fn gel_holds(self, name: &str) -> Option<f64> {
        let known = self.house.larder.find(name).filter(|_| self.house.card(name).is_none())?;
        known.holds.filter(|_| known.kind == Some(Kind::Gum))
    }

    /// "Packed light brown sugar": a cup of it is weighed so, and it is no other thing.
    pub(super) fn without_packed(self, name: &str) -> Option<&str> {
        let is_sugar = |rest: &&str| {
            self.house
                .larder
                .find(rest)
                .is_some_and(|known| known.kind == Some(Kind::Sugar) && known.form == Form::Solid)
        };
        let ends = name.match_indices(' ').map(|(at, _)| name.split_at(at));
        let mut packed = ends.filter(|(front, _)| WordList::Packed.has(front)).map(|(_, rest)| rest.trim_start());
        packed.find(is_sugar)
    }

    /// Whether there is alcohol in it, or may be: of a card of the house, and of what nothing knows, nobody can tell here.
    pub(super) fn has_alcohol(self, name: &str) -> bool {
        let known = self.house.larder.find(name).filter(|_| self.house.card(name).is_none());
        known.is_none_or(|known| known.per_gram.grams_of(Component::Ethanol) > 0.0)
    }

    /// Whether it is milk or cream, whose curd may stay in the strainer.
    pub(super) fn may_curdle(self, name: &str) -> bool {
        let is_milk = |i: &Ingredient| i.form == Form::Liquid && i.kind == Some(Kind::Dairy);
        self.house.card(name).is_none() && self.house.larder.find(name).is_some_and(is_milk)
    }

    /// Whether it surely curdles no milk: it is neither sour nor strong.
    pub(super) fn curdles_no_milk(self, name: &str) -> bool {
        let known = self.house.larder.find(name).filter(|_| self.house.card(name).is_none());
        known.and_then(|known| known.kind).is_some_and(Kind::curdles_no_milk) && !self.has_alcohol(name)
    }

    /// The leaves or the ground beans where a name alone is that of the brew.
    pub(super) fn leaves_of(self, name: &str) -> Option<String> {
        self.house.leaves_of(name)
    }

    /// Whether a name is that of a tea, brewed or as leaves. Coffee by the spoon may be ground or dissolve.
    pub(super) fn is_tea(self, name: &str) -> bool {
        self.house.larder.find(name).is_some_and(|known| known.kind == Some(Kind::Tea))
    }

    /// The brew of a tea whose name alone is that of its leaves.
    pub(super) fn brew_of(self, name: &str) -> Option<String> {
        let find = |name: &str| self.house.card(name).is_none().then(|| self.house.larder.find(name)).flatten();
        let is_leaf = |i: &&Ingredient| i.form == Form::Solid && i.kind == Some(Kind::Tea);
        find(name).filter(is_leaf)?;
        let is_dry = |word: &String| ["leaf", "leave", "loose", "dry", "dried", "bag"].contains(&word.as_str());
        let is_brew = |name: &String| find(name).is_some_and(|i| i.form == Form::Liquid && i.kind == Some(Kind::Tea));
        let brews = [format!("brewed {name}"), "black tea".to_owned()];
        brews.into_iter().find(|brew| is_brew(brew) && !words(name).iter().any(is_dry))
    }

    /// Whether it is a spirit or a liqueur.
    pub(super) fn is_spirit(self, name: &str) -> bool {
        let is = |i: &Ingredient| matches!(i.kind, Some(Kind::Spirit | Kind::Liqueur));
        self.house.larder.find(name).is_some_and(is)
    }

    /// Whether it is an oil, butter or another fat.
    pub(super) fn is_fat(self, name: &str) -> bool {
        let is_mostly_fat = |i: &Ingredient| i.per_gram.grams_of(Component::Fat) > 0.5;
        let is = |i: &Ingredient| i.kind == Some(Kind::Fat) || i.kind == Some(Kind::Dairy) && is_mostly_fat(i);
        self.house.card(name).is_none() && self.house.larder.find(name).is_some_and(is)
    }

    /// Whether an amount is no mass and no volume, but so many of a thing.
    pub(super) fn weighs_nothing(self, amount: &str) -> bool {
        !matches!(self.reads(amount), Ok(Literal::Mass(_) | Literal::Volume(_) | Literal::Bottles(..)))
    }

    /// An amount, as it is meant in the house.
    pub(super) fn reads(self, amount: &str) -> Result<Literal, LiteralError> {
        literal::read_by(amount, &self.customs()).map(|read| read.literal)
    }

    /// What a card says of a part with this amount that it cannot read.
    pub(super) fn refusal(self, name: &str, amount: &str) -> Option<Diagnostic> {
        let text = format!("name = \"-\"\n[parts]\n{} = {}\n", key(name), quoted(amount));
        let (card, mut found) = card::read_by("".into(), text.into(), &self.customs());
        // what is counted may be a word that nothing is counted by; of what nothing knows nothing more is looked for
        let card = card.filter(|_| self.house.card(name).is_some() || self.house.larder.find(name).is_some());
        found.extend(card.iter().flat_map(|card| faults(card, self.house)).filter(|d| d.code == Code::PieceUnknown));
        found.into_iter().find(|d| d.severity == Severity::Error && !of_a_lone_part(d.code))
    }
}

/// What is wrong with one part only because the others are not there.
fn of_a_lone_part(code: Code) -> bool {
    matches!(code, Code::LoneRatio | Code::RatioBasis | Code::OpenAmounts | Code::OwnPart | Code::Misplaced)
}
