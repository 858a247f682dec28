//! Whether a thing is food: known by its name, stated by somebody, or an open question. What nobody answers for is
//! neither dated nor sold, whatever it computes to.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::card::AskedOf;
use crate::larder::{Ingredient, Larder, Origin};
use crate::mixture::Component;
use crate::spelling::words;
use crate::vocabulary::table;
use crate::vocabulary::{FoodStatement, Kind, Open, Tag, misnomer, warned};

use super::foods::{self, KnownAs, known_as};

/// Grams of alcohol in a gram of what is still a beer or a wine: about 25 % vol, above any fortified one (ours).
const STRONGEST_WINE: f64 = 0.2;
/// The same of a cider: about 15 % vol (ours).
const STRONGEST_CIDER: f64 = 0.12;
/// The same of what has fermented by itself at the most: about 2.5 % vol (ours).
const STRONGEST_OF_NO_DRINK: f64 = 0.02;

/// Grams in a gram above which a thing is no fresh food, whatever it is called: brine is less salt, dried fruit less of one
/// sugar (ours).
const KEEPERS: [(Component, f64); 3] = [(Component::Salt, 0.2), (Component::Sucrose, 0.8), (Component::Citric, 0.2)];

/// What is known of the identity of an ingredient.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FoodIdentity {
    /// Its name is that of a food; where somebody restricts it, why.
    Known {
        /// Why.
        restricted: Option<String>,
    },
    /// Somebody states that it is food.
    Stated(FoodStatement),
    /// Nobody does.
    Open {
        /// What it is called.
        name: String,
    },
    /// It is known in food, and sold in other grades too: nobody has stated which it is.
    GradeOpen {
        /// What it is called.
        name: String,
        /// Why the grade matters.
        why: &'static str,
    },
    /// A line is called one thing and taken from another, which keeps where the first does not.
    TwoThings {
        /// What it is called.
        name: String,
        /// What it is taken from.
        of: String,
    },
    /// Its alcohol is more than such a thing can have, whatever is stated of it.
    TooStrong {
        /// What it is called.
        name: String,
    },
    /// A line of a card that nobody has answered: what it would bring nobody knows.
    Unanswered {
        /// What the line says.
        line: String,
        /// Where it stands.
        of: AskedOf,
    },
    /// Its name is that of what is not to be used: nothing that is stated makes it food.
    NotUsed {
        /// What it is called.
        name: String,
        /// Why.
        reason: String,
    },
}

#[derive(Deserialize)]
struct GradeRow {
    words: String,
    why: String,
}

/// Words of a name, and why its grade matters.
static GRADES: LazyLock<Vec<(Vec<String>, String)>> = LazyLock::new(|| {
    let rows: Vec<GradeRow> = table::rows("grades.csv", include_str!("data/grades.csv"));
    rows.into_iter().map(|row| (words(&row.words), row.why)).collect()
});

/// Why the grade of a thing of this name matters; `None` where it does not.
fn grade_matters(name: &str) -> Option<&'static str> {
    let of_name = words(name);
    let row = GRADES.iter().find(|(wanted, _)| wanted.iter().all(|word| of_name.contains(word)));
    row.map(|(_, why)| why.as_str())
}

/// Whether a line of this name cannot be this ingredient: it spoils, and what it is taken from does not.
pub(crate) fn is_another(label: &str, ingredient: &Ingredient) -> bool {
    let named = Larder::built_in().find(label);
    let is_itself = named.is_some_and(|named| named.id == ingredient.id);
    let spoils = named.map_or_else(|| foods::is_perishable(label), |named| named.kind.is_some_and(Kind::spoils));
    spoils && !is_itself && ingredient.kind.is_some_and(|kind| kind.keeps() || kind == Kind::Water)
}

/// Whether a name is that of an ingredient of the embedded larder or of a known food.
pub(crate) fn is_known(name: &str) -> bool {
    Larder::built_in().find(name).is_some() || matches!(known_as(name), Some(KnownAs::Food { .. }))
}

/// Whether there is more alcohol in it than in any water, juice, tea, beer or wine, by what it is said to be like.
fn is_stronger_than_its_kind(ingredient: &Ingredient) -> bool {
    let most = match ingredient.kind {
        Some(Kind::Water) => 0.01,
        Some(Kind::Beer | Kind::Wine | Kind::Fortified) => STRONGEST_WINE,
        Some(Kind::Cider) => STRONGEST_CIDER,
        Some(Kind::Juice | Kind::SweetCitrusJuice | Kind::Puree | Kind::Tea | Kind::Coffee | Kind::Vinegar) => {
            STRONGEST_OF_NO_DRINK
        }
        _ => return false,
    };
    ingredient.per_gram.grams_of(Component::Ethanol) > most
}

/// So much of a note is said again, in characters.
const LONGEST_SAID: usize = 80;

/// What an entry of the house warns of by its name or its notes.
fn warned_of(ingredient: &Ingredient) -> Option<String> {
    let mut written = ingredient.own_words.iter().map(String::as_str).chain(ingredient.written_names());
    let found = written.find(|text| ingredient.origin != Origin::BuiltIn && warned(text).is_some());
    found.map(|text| text.chars().take(LONGEST_SAID).collect())
}

/// The identity of an ingredient; `on_card` is what the card states of this part of it.
///
/// The name alone says what it is: what it is `like` lends numbers, and other names are what the house calls it.
pub fn identity(ingredient: &Ingredient, on_card: Option<&FoodStatement>) -> FoodIdentity {
    let name = ingredient.name.as_str();
    let known = known_as(name);
    if let Some(said) = warned_of(ingredient) {
        let reason = format!("the house says of it: \"{said}\"");
        return FoodIdentity::NotUsed { name: name.to_owned(), reason };
    }
    if let Some(KnownAs::NotUsed { reason }) = known {
        return FoodIdentity::NotUsed { name: name.to_owned(), reason };
    }
    let embedded = Larder::built_in().find(name);
    // nor does who sells it answer for a name that says that it is not what it looks like
    let is_named_by_expert = ingredient.tags.contains(&Open::Known(Tag::Identified));
    let is_unknown = known.is_none() && embedded.is_none() && !is_named_by_expert;
    if let Some(word) = Some(name).filter(|_| is_unknown).and_then(misnomer) {
        let reason = format!(
            "`{word}` says that it is a poison, or only like a food (where an expert has named it: tags = [\"identified\"])"
        );
        return FoodIdentity::NotUsed { name: name.to_owned(), reason };
    }
    // What stands in place of a plain name and holds spirit where that one holds none is another thing by its name.
    let spirit = |of: &Ingredient| of.per_gram.grams_of(Component::Ethanol);
    let of_none = embedded.is_some_and(|plain| spirit(plain) <= 0.0 && spirit(ingredient) > 0.01);
    // no beer and no wine is so strong ("IPA 99 %" is a solvent)
    let too_strong = spirit(ingredient) > STRONGEST_WINE && foods::is_beer_or_wine(name);
    // nor does a juice hold what would keep it ("carrot juice" like salt)
    let kept = spirit(ingredient) > 0.01 || KEEPERS.iter().any(|(of, most)| ingredient.per_gram.grams_of(*of) > *most);
    let another = of_none || too_strong || embedded.is_none() && kept && foods::is_perishable(name);
    let of_the_larder = ingredient.origin == Origin::BuiltIn || embedded.is_some() && !another;
    if of_the_larder && (ingredient.origin == Origin::BuiltIn || grade_matters(name).is_none()) {
        return match known {
            Some(KnownAs::Food { restricted }) => FoodIdentity::Known { restricted },
            _ => FoodIdentity::Known { restricted: None },
        };
    }
    if is_stronger_than_its_kind(ingredient) {
        return FoodIdentity::TooStrong { name: name.to_owned() };
    }
    if let Some(stated) = on_card.or(ingredient.food.as_ref()) {
        return FoodIdentity::Stated(stated.clone());
    }
    let open = || name.to_owned();
    match (grade_matters(name), known.filter(|_| !another)) {
        (Some(why), _) => FoodIdentity::GradeOpen { name: open(), why },
        (None, Some(KnownAs::Food { restricted })) => FoodIdentity::Known { restricted },
        (None, _) => FoodIdentity::Open { name: open() },
    }
}

impl FoodIdentity {
    /// What has to be stated before anything with it is dated, in words; `None` where nothing has.
    pub fn question(&self) -> Option<String> {
        match self {
            Self::Known { .. } | Self::Stated(_) => None,
            Self::Open { name } => Some(format!(
                "say what `{name}` is: food = \"sold as food, label\" (or \"distiller's, food grade\", \"foraged, \
                 identified by …\")"
            )),
            Self::GradeOpen { name, why } => Some(format!(
                "say of what grade `{name}` is ({why}): food = \"food grade, label\" or \"food grade, supplier's \
                 certificate\""
            )),
            Self::Unanswered { line, .. } => Some(format!("NOT COMPLETE, the card still asks: {line}")),
            Self::TwoThings { name, of } => {
                Some(format!("the line is called `{name}` and taken from `{of}`: give it the name of what is poured"))
            }
            Self::TooStrong { name } => Some(format!(
                "`{name}` is not so strong: correct its `abv`, or give it the name and the `like` of what it is"
            )),
            Self::NotUsed { name, reason } => Some(format!("`{name}` is not to be used: {reason}; take it out")),
        }
    }
}
